/* secret.c: a password, from a file or from the terminal (see secret.h). */
#include "cli/secret.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <termios.h>
#include <unistd.h>

enum { ROOM = 1024 }; /* bytes of a line, more than any password may have */

void secret_wipe(pare_text *password)
{
    volatile char *bytes = password->bytes; /* a compiler may not leave this out */
    for (size_t i = 0; bytes && i < password->size; i++)
        bytes[i] = 0;
    pare_text_free(password);
}

/* So much at once that what grows never leaves a copy behind. */
static pare_status make_room(pare_text *password, pare_error *err)
{
    *password = (pare_text){.bytes = calloc(ROOM, 1), .size = ROOM};
    return password->bytes ? PARE_OK : pare_no_memory(err);
}

typedef enum line_end { LINE_WHOLE, LINE_LONG, LINE_BROKEN } line_end;

/* A line without its end, letter by letter: what follows it is nobody's. */
static line_end take_line(int from, pare_text *line)
{
    while (line->length + 1 < line->size) {
        const ssize_t got = read(from, line->bytes + line->length, 1);
        if (got < 0)
            return LINE_BROKEN;
        if (got == 0 || line->bytes[line->length] == '\n')
            break;
        line->length++;
    }
    const bool whole = line->length + 1 < line->size;
    if (line->length > 0 && line->bytes[line->length - 1] == '\r')
        line->length--;
    line->bytes[line->length] = '\0';
    return whole ? LINE_WHOLE : LINE_LONG;
}

static pare_status wants_text(const char *where, const pare_text *line, pare_error *err)
{
    if (line->length == 0)
        return pare_fail(err, PARE_BAD_DATA, "%s: no password", where);
    if (strlen(line->bytes) != line->length)
        return pare_fail(err, PARE_BAD_DATA, "%s: a NUL stands in the password", where);
    return PARE_OK;
}

static pare_status from_file(const char *path, pare_text *password, pare_error *err)
{
    struct stat is;
    const int file = open(path, O_RDONLY | O_CLOEXEC);
    if (file < 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "--password-file %s: %s; a file is due, with the password in its first "
                         "line",
                         path, strerror(errno));
    pare_status status = make_room(password, err);
    if (status == PARE_OK && fstat(file, &is) == 0 && S_ISREG(is.st_mode) &&
        (is.st_mode & (S_IRWXG | S_IRWXO)))
        status = pare_fail(err, PARE_BAD_DATA,
                           "%s can be read by others than you; right would be chmod 600", path);
    if (status == PARE_OK && take_line(file, password) != LINE_WHOLE)
        status =
            pare_fail(err, PARE_BAD_DATA, "%s: its first line cannot be read as a password", path);
    if (status == PARE_OK)
        status = wants_text(path, password, err);
    close(file);
    return status;
}

/* ---- typed ---- */

static void say(int terminal, const char *words)
{
    const ssize_t written = write(terminal, words, strlen(words));
    (void)written; /* a terminal that has gone is heard of at the next read */
}

static pare_status ask(int terminal, const char *words, const pare_progress *progress,
                       pare_text *line, pare_error *err)
{
    pare_status status = make_room(line, err);
    if (status != PARE_OK)
        return status;
    say(terminal, words);
    const line_end end = take_line(terminal, line);
    say(terminal, "\n");
    status = pare_progress_step(progress, NULL, 0, 0, err);
    if (status == PARE_OK && end != LINE_WHOLE)
        status = pare_fail(err, PARE_BAD_DATA, "no password can be read from the terminal");
    return status == PARE_OK ? wants_text("terminal", line, err) : status;
}

static pare_status from_terminal(const pare_progress *progress, pare_text *password,
                                 pare_error *err)
{
    pare_text again = {0};
    struct termios before;
    const int terminal = open("/dev/tty", O_RDWR | O_NOCTTY | O_CLOEXEC);
    if (terminal < 0 || tcgetattr(terminal, &before) != 0) {
        if (terminal >= 0)
            close(terminal);
        return pare_fail(err, PARE_BAD_DATA,
                         "other machines come in by a password, and there is no terminal to type "
                         "it at; right would be --password-file FILE");
    }
    struct termios unseen = before;
    unseen.c_lflag &= ~(tcflag_t)ECHO;
    pare_status status = PARE_OK;
    if (tcsetattr(terminal, TCSAFLUSH, &unseen) != 0)
        status = pare_fail(err, PARE_BAD_DATA, "the terminal would show the password");
    if (status == PARE_OK)
        status = ask(terminal, "Password for other machines: ", progress, password, err);
    if (status == PARE_OK)
        status = ask(terminal, "The same again: ", progress, &again, err);
    tcsetattr(terminal, TCSAFLUSH, &before);
    close(terminal);
    if (status == PARE_OK && strcmp(password->bytes, again.bytes) != 0)
        status = pare_fail(err, PARE_BAD_DATA, "the two passwords differ");
    secret_wipe(&again);
    return status;
}

pare_status secret_read(const char *file, const pare_progress *progress, pare_text *password,
                        pare_error *err)
{
    *password = (pare_text){0};
    const pare_status status =
        file ? from_file(file, password, err) : from_terminal(progress, password, err);
    if (status != PARE_OK)
        secret_wipe(password);
    return status;
}
