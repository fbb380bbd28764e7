/* changed_lines.h: a screen in another state than its usual one, by the lines that are others then. */
#ifndef PARE_TESTS_CHANGED_LINES_H
#define PARE_TESTS_CHANGED_LINES_H

#include <stdbool.h>
#include <string.h>

#include "base/text.h"

/* The lines that a text has and the usual one has not, and how many it has in all.
 * @param whole  all of it where it is the usual one */
static inline void say_changes(const char *base, const char *text, bool whole, pare_text *out)
{
    size_t lines = 0;
    if (strcmp(base, text) == 0) {
        pare_text_add(out, whole ? text : "as usual");
        return;
    }
    pare_text around = {0}, line = {0};
    pare_text_printf(&around, "\n%s\n", base);
    for (const char *at = text; *at; lines++) {
        const int length = (int)strcspn(at, "\n");
        line.length = 0;
        pare_text_printf(&line, "\n%.*s\n", length, at);
        if (!strstr(around.bytes, line.bytes))
            pare_text_printf(out, "%s", line.bytes + 1);
        at += length + (at[length] != '\0');
    }
    pare_text_printf(out, "(%zu lines)", lines);
    pare_text_free(&around);
    pare_text_free(&line);
}

#endif
