/* xstring.c: characters in a workbook's texts that stand as their number (see xstring.h). */
#include "base/xstring.h"

#include <stddef.h>
#include <stdlib.h>
#include <string.h>

enum { DIGITS = 4 };

bool pare_xstring_is_escape(const char *c, unsigned *code)
{
    char digits[DIGITS + 1] = "";
    if (strncmp(c, "_x", 2) != 0 || strnlen(c, PARE_XSTRING_ESCAPE) < PARE_XSTRING_ESCAPE ||
        c[PARE_XSTRING_ESCAPE - 1] != '_')
        return false;
    memcpy(digits, c + 2, DIGITS);
    if (strspn(digits, "0123456789abcdefABCDEF") != DIGITS)
        return false;
    if (code)
        *code = (unsigned)strtoul(digits, NULL, 16);
    return true;
}
