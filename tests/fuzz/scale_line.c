/* rooms: store craft base */
/* scale_line.c: lines of a serial scale. The first line is the pattern, an empty one the usual. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fuzz.h"
#include "store/scale_line.h"

/* Cuts the next line off a text; NULL: there is none. */
static char *line_of(char **rest)
{
    char *line = *rest;
    char *end = line ? strchr(line, '\n') : NULL;
    if (end)
        *end++ = '\0';
    *rest = end;
    return line;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    char *text = fuzz_text(bytes, length);
    char *rest = text;
    const char *pattern = line_of(&rest);
    pare_error err = {0};
    if (!pattern[0])
        pattern = PARE_SCALE_PATTERN;
    if (fuzz_answered(pare_scale_pattern_check(pattern, &err), &err))
        for (const char *line; (line = line_of(&rest));) {
            pare_scale_seen seen = {0};
            bool has = false;
            if (fuzz_answered(pare_scale_line_read(pattern, line, &has, &seen, &err), &err) &&
                has && seen.weighs)
                fuzz_expect(isfinite(seen.kg) && isfinite(seen.step_kg) && seen.step_kg >= 0,
                            "a weight is a number");
        }
    free(text);
    return 0;
}
