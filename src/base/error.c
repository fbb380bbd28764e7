/* error.c: one line of text and a status (see error.h). */
#include "base/error.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static void tidy(char *text, size_t size, int wanted)
{
    if (wanted >= (int)size)
        memcpy(text + size - 4, "...", 4);
    for (char *c = text; *c; c++)
        if ((unsigned char)*c < 0x20 || *c == 0x7f)
            *c = '?';
}

pare_status pare_fail(pare_error *err, pare_status status, const char *format, ...)
{
    if (!err)
        return status;
    va_list args;
    va_start(args, format);
    const int wanted = vsnprintf(err->text, sizeof err->text, format, args);
    va_end(args);
    tidy(err->text, sizeof err->text, wanted);
    err->status = status;
    return status;
}

pare_status pare_within(pare_error *err, const char *format, ...)
{
    if (!err)
        return PARE_BAD_DATA;
    char inner[sizeof err->text];
    memcpy(inner, err->text, sizeof inner);
    va_list args;
    va_start(args, format);
    int used = vsnprintf(err->text, sizeof err->text, format, args);
    va_end(args);
    if (used < 0)
        used = 0;
    if (used < (int)sizeof err->text)
        used += snprintf(err->text + used, sizeof err->text - (size_t)used, ": %s", inner);
    tidy(err->text, sizeof err->text, used);
    return err->status;
}

pare_status pare_no_memory(pare_error *err)
{
    return pare_fail(err, PARE_UNAVAILABLE, "out of memory");
}
