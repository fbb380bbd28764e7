/* csv_size.c: sizes as the trade writes them: a stator 2207, a propeller 5.1x4.3x3, a pattern
 * 30.5x30.5 (see csv_cell.h).
 *
 * Stators and patterns are in millimetres and propellers in inches unless a unit stands there; nobody
 * writes them otherwise (common practice, no source). */
#include <stdio.h>
#include <string.h>

#include "store/csv_cell.h"
#include "store/csv_words.h"

enum { PIECES = 6 };

typedef struct sizes {
    size_t count;
    char digits[PIECES][PARE_CSV_DIGITS];
    char unit[PIECES][16]; /* "" without one */
    bool slashed;          /* parted by something other than an x */
} sizes;

/* The next sign that parts two sizes: x, *, a multiplication cross, ',' or '/' between blanks ... */
static size_t parting(const char *at, bool *slashed)
{
    if (strncmp(at, "\xC3\x97", 2) == 0)
        return 2;
    if (*at == 'x' || *at == 'X' || *at == '*')
        return 1;
    if (*at == '/' || *at == ',' || *at == ';' || *at == '&' || *at == '+') {
        *slashed = true;
        return 1;
    }
    return 0;
}

/* "5.1in x 4.3in x 3": numbers with units if any, parted. */
static bool cut(const char *cell, pare_decimal decimal, sizes *found)
{
    const char *at = cell + strspn(cell, " ");
    *found = (sizes){0};
    for (;;) {
        bool ambiguous = false;
        if (found->count == PIECES)
            return false;
        at = pare_csv_number(at, decimal, found->digits[found->count], &ambiguous);
        if (!at || ambiguous)
            return false;
        at += strspn(at, " ");
        size_t length = 0;
        while (at[length] && at[length] != ' ' && !parting(at + length, &found->slashed))
            length++;
        if (length >= sizeof found->unit[0])
            return false;
        memcpy(found->unit[found->count], at, length);
        found->unit[found->count++][length] = '\0';
        at += length;
        at += strspn(at, " ");
        if (!*at)
            return true;
        const size_t sign = parting(at, &found->slashed);
        if (!sign)
            return false;
        at += sign + strspn(at + sign, " ");
    }
}

/* The unit of the last that has one serves those before it: "22 x 7 mm". */
static const char *unit_of(const sizes *found, size_t i, const char *otherwise)
{
    for (size_t k = i; k < found->count; k++)
        if (found->unit[k][0])
            return pare_csv_unit(found->unit[k], PARE_DIM_LENGTH);
    return otherwise;
}

static bool all_digits(const char *text, size_t count)
{
    return strspn(text, "0123456789") >= count;
}

/* "07" as "7", "06.5" as "6.5". */
static const char *without_zero(const char *digits)
{
    return digits[0] == '0' && digits[1] >= '0' && digits[1] <= '9' ? digits + 1 : digits;
}

bool pare_csv_read_pair(const char *cell, pare_decimal decimal, char value[PARE_CSV_VALUE])
{
    sizes found;
    if (!cut(cell, decimal, &found) || found.slashed)
        return false;
    if (found.count == 1 && all_digits(found.digits[0], 4) && !found.unit[0][0]) {
        const char *rest = found.digits[0] + 4;
        if (*rest && *rest != '.')
            return false;
        const char across[3] = {found.digits[0][0], found.digits[0][1], '\0'};
        snprintf(value, PARE_CSV_VALUE, "%s mm x %.40s mm", without_zero(across),
                 without_zero(found.digits[0] + 2));
        return true;
    }
    if (found.count != 2)
        return false;
    snprintf(value, PARE_CSV_VALUE, "%s %s x %s %s", found.digits[0], unit_of(&found, 0, "mm"),
             found.digits[1], unit_of(&found, 1, "mm"));
    return true;
}

bool pare_csv_read_propeller(const char *cell, pare_decimal decimal, char diameter[PARE_CSV_VALUE],
                             char pitch[PARE_CSV_VALUE], char blades[PARE_CSV_VALUE])
{
    sizes found;
    blades[0] = '\0';
    if (!cut(cell, decimal, &found) || found.slashed || found.count > 3)
        return false;
    const bool packed = all_digits(found.digits[0], 4) && !found.digits[0][4] &&
                        !found.unit[0][0] && found.count <= 2;
    if (packed) { /* "5143": 5.1 by 4.3, as printed on blades */
        const char *d = found.digits[0];
        snprintf(diameter, PARE_CSV_VALUE, "%c.%c in", d[0], d[1]);
        snprintf(pitch, PARE_CSV_VALUE, "%c.%c in", d[2], d[3]);
    } else if (found.count >= 2) {
        const char *unit = found.unit[0][0]   ? pare_csv_unit(found.unit[0], PARE_DIM_LENGTH)
                           : found.unit[1][0] ? pare_csv_unit(found.unit[1], PARE_DIM_LENGTH)
                                              : "in";
        snprintf(diameter, PARE_CSV_VALUE, "%s %s", found.digits[0], unit);
        snprintf(pitch, PARE_CSV_VALUE, "%s %s", found.digits[1],
                 found.unit[1][0] ? pare_csv_unit(found.unit[1], PARE_DIM_LENGTH) : unit);
    } else {
        return false;
    }
    const size_t last = packed ? 1 : 2;
    if (found.count > last)
        snprintf(blades, PARE_CSV_VALUE, "%s", found.digits[last]);
    return true;
}

size_t pare_csv_read_sizes(const char *cell, pare_decimal decimal, const char *unit, size_t most,
                           char value[][PARE_CSV_VALUE])
{
    sizes found;
    size_t count = 0;
    if (!cut(cell, decimal, &found))
        return 0;
    for (size_t i = 0; i < found.count && count < most; i++) {
        snprintf(value[count], PARE_CSV_VALUE, "%s %s", found.digits[i], unit_of(&found, i, unit));
        bool again = false;
        for (size_t k = 0; k < count; k++)
            again = again || strcmp(value[k], value[count]) == 0;
        count += !again;
    }
    return count;
}
