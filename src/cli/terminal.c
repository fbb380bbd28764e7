/* terminal.c: what standard output can show (see use.h). */
#include <langinfo.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "cli/use.h"

enum { USUAL_WIDTH = 80 };

static int width(void)
{
    const char *said = getenv("COLUMNS");
    long columns = said ? strtol(said, NULL, 10) : 0;
    struct winsize size;
    if (columns <= 0 && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0)
        columns = size.ws_col;
    if (columns <= 0)
        return USUAL_WIDTH;
    return columns < PARE_SCREEN_LEAST  ? PARE_SCREEN_LEAST
           : columns > PARE_SCREEN_MOST ? PARE_SCREEN_MOST
                                        : (int)columns;
}

pare_screen terminal_screen(void)
{
    const char *no_colour = getenv("NO_COLOR"), *terminal = getenv("TERM");
    const bool dumb = terminal && strcmp(terminal, "dumb") == 0;
    return (pare_screen){.width = width(),
                         .utf8 = strcmp(nl_langinfo(CODESET), "UTF-8") == 0,
                         .colour = isatty(STDOUT_FILENO) && !(no_colour && *no_colour) && !dumb};
}
