/* units.c: quantities as people write them (see units.h).
 *
 * A text is first tidied to one spelling (unit_text.c), then a number is taken off its front. The
 * unit is looked for in the trade's table (unit_table.c), in the dimension that is due: so "C" can be
 * a temperature here and a charge there, and "g" a mass or an acceleration. A symbol that the table
 * has in other dimensions only is an error; udunits2 (unit_library.c) is asked for what the table
 * has not at all.
 *
 * Numbers are read in the C locale whatever the program's is: a point is a point. */
#include "base/units.h"

#include <errno.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/unit_library.h"
#include "base/unit_table.h"
#include "base/unit_text.h"

#define LARGEST_COUNT 1e9 /* callers keep counts in an int */

enum { QUOTED = 48 }; /* how much of a long text a message repeats */

struct pare_units {
    locale_t c_locale;
    pare_unit_library *library; /* NULL until a unit turns up that the table lacks */
};

pare_units *pare_units_open(void)
{
    pare_units *units = calloc(1, sizeof *units);
    if (!units)
        return NULL;
    units->c_locale = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    if (units->c_locale == (locale_t)0) {
        free(units);
        return NULL;
    }
    return units;
}

void pare_units_close(pare_units *units)
{
    if (!units)
        return;
    pare_unit_library_close(units->library);
    freelocale(units->c_locale);
    free(units);
}

/* "g, kg, oz, lb" as "g, kg, oz or lb". */
static const char *any_of(const char *units, char text[QUOTED])
{
    const char *last = NULL;
    for (const char *comma = units; (comma = strstr(comma, ", ")) != NULL; comma++)
        last = comma;
    if (last)
        snprintf(text, QUOTED, "%.*s or %s", (int)(last - units), units, last + 2);
    else
        snprintf(text, QUOTED, "%s", units);
    return text;
}

/* Says what is wrong with a quantity and which units would be right. */
static pare_status refuse(pare_error *err, const char *tidy, const char *because,
                          pare_dimension dimension)
{
    char units[QUOTED];
    return pare_fail(err, PARE_BAD_DATA, "%.*s%s %s: %s needs %s", QUOTED, tidy,
                     strlen(tidy) > QUOTED ? "..." : "", because, pare_dimension_name(dimension),
                     any_of(pare_dimension_units(dimension), units));
}

static pare_status refuse_number(pare_error *err, const char *tidy, pare_dimension dimension)
{
    if (!*tidy)
        return refuse(err, "nothing", "is no quantity", dimension);
    const char *end = pare_unit_text_number_end(tidy);
    if (end && *end == ',')
        return refuse(err, tidy, "has a comma where a decimal point is due", dimension);
    return refuse(err, tidy, "does not start with one plain number", dimension);
}

/* Whether the rest after a number may be a unit; "1 300 mAh" and "1.2.3 g" may not. */
static bool may_be_unit(const char *rest)
{
    return *rest != ',' && *rest != '.' && !(*rest >= '0' && *rest <= '9') && *rest != '-' &&
           *rest != '+';
}

static pare_status read_number(const pare_units *units, const char *tidy, const char *end,
                               double *number, pare_error *err)
{
    char digits[PARE_UNIT_TEXT_SIZE];
    const size_t length = (size_t)(end - tidy);
    memcpy(digits, tidy, length);
    digits[length] = '\0';
    const locale_t before = uselocale(units->c_locale);
    errno = 0;
    *number = strtod(digits, NULL);
    const bool out_of_range = errno == ERANGE;
    uselocale(before);
    if (out_of_range)
        return pare_fail(err, PARE_BAD_DATA,
                         "%.*s%s is beyond what a number can hold (1e-307 to 1e308)", QUOTED,
                         digits, length > QUOTED ? "..." : "");
    return PARE_OK;
}

/* Reads the unit database the first time; the C locale, because the database has points too. */
static pare_status need_library(pare_units *units, pare_error *err)
{
    if (units->library)
        return PARE_OK;
    const locale_t before = uselocale(units->c_locale);
    units->library = pare_unit_library_open();
    uselocale(before);
    if (!units->library)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "the unit database of udunits2 cannot be read: install libudunits2-data, "
                         "or unset UDUNITS2_XML_PATH");
    return PARE_OK;
}

static pare_status refuse_unknown(pare_error *err, const char *tidy, const char *unit,
                                  pare_dimension dimension)
{
    char because[2 * QUOTED];
    const pare_unit_row *other_case = pare_unit_find_other_case(unit, dimension);
    if (other_case)
        snprintf(because, sizeof because, "has no unit that is known (is it %s?)",
                 other_case->symbol);
    else
        snprintf(because, sizeof because, "has no unit that is known");
    return refuse(err, tidy, because, dimension);
}

static pare_status refuse_kind(pare_error *err, const char *tidy, pare_dimension found,
                               pare_dimension dimension)
{
    char because[QUOTED];
    snprintf(because, sizeof because, "is %s", pare_dimension_name(found));
    return refuse(err, tidy, because, dimension);
}

/* Names the dimension that a known unit has, for the message only. */
static pare_status refuse_library_kind(pare_units *units, const char *tidy, const char *unit,
                                       pare_dimension dimension, pare_error *err)
{
    for (int i = 0; i < PARE_DIMENSIONS; i++) {
        const char *wanted = pare_dimension_library_unit((pare_dimension)i);
        double unused;
        if (wanted && pare_unit_library_convert(units->library, 1, unit, wanted, &unused) ==
                          PARE_UNIT_CONVERTED)
            return refuse_kind(err, tidy, (pare_dimension)i, dimension);
    }
    return refuse(err, tidy, "is of another kind", dimension);
}

static pare_status convert(pare_units *units, const char *tidy, double number, const char *unit,
                           pare_dimension dimension, double *value, pare_error *err)
{
    const pare_unit_row *row = pare_unit_find(unit, dimension);
    if (row) {
        *value = (number - row->zero) * row->times / row->over;
        return PARE_OK;
    }
    if (!*unit)
        return refuse(err, tidy, "has no unit", dimension);
    const pare_unit_row *elsewhere = pare_unit_find_any(unit);
    if (elsewhere)
        return refuse_kind(err, tidy, elsewhere->dimension, dimension);
    if (!pare_unit_text_is_plain(unit))
        return refuse_unknown(err, tidy, unit, dimension);
    const pare_status status = need_library(units, err);
    if (status != PARE_OK)
        return status;
    const char *wanted = pare_dimension_library_unit(dimension);
    const pare_unit_found found =
        pare_unit_library_convert(units->library, number, unit, wanted ? wanted : "1", value);
    if (found == PARE_UNIT_UNKNOWN)
        return refuse_unknown(err, tidy, unit, dimension);
    if (found == PARE_UNIT_OTHER_KIND || !wanted)
        return refuse_library_kind(units, tidy, unit, dimension, err);
    return PARE_OK;
}

bool pare_unit_factors_of(const char *unit, pare_dimension dimension, pare_unit_factors *factors)
{
    const pare_unit_row *row = pare_unit_find(unit, dimension);
    if (!row)
        return false;
    *factors = (pare_unit_factors){row->times, row->over, row->zero};
    return true;
}

static pare_status read_tidy(pare_units *units, const char *tidy, pare_dimension dimension,
                             double *value, pare_error *err)
{
    const char *end = pare_unit_text_number_end(tidy);
    if (!end)
        return refuse_number(err, tidy, dimension);
    const char *unit = *end == ' ' ? end + 1 : end;
    if (!may_be_unit(unit))
        return refuse_number(err, tidy, dimension);
    double number = 0, result = 0;
    pare_status status = read_number(units, tidy, end, &number, err);
    if (status == PARE_OK)
        status = convert(units, tidy, number, unit, dimension, &result, err);
    if (status != PARE_OK)
        return status;
    if (!isfinite(result))
        return pare_fail(err, PARE_BAD_DATA, "%.*s is too large", QUOTED, tidy);
    if (dimension == PARE_DIM_COUNT &&
        (floor(result) != result || result < 0 || result > LARGEST_COUNT))
        return pare_fail(err, PARE_BAD_DATA, "%.*s is no count: a whole number from 0 to %.0f",
                         QUOTED, tidy, LARGEST_COUNT);
    *value = result;
    return PARE_OK;
}

static pare_status tidy_up(const char *text, char tidy[PARE_UNIT_TEXT_SIZE], pare_error *err)
{
    if (pare_unit_text_tidy(text, tidy))
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "%.*s... is too long for a quantity", QUOTED, tidy);
}

/* Ends the piece that starts at text just before stop, without the blanks at its end. */
static void end_piece(const char *text, char *stop)
{
    while (stop > text && stop[-1] == ' ')
        stop--;
    *stop = '\0';
}

static char *skip_blanks(char *text)
{
    while (*text == ' ')
        text++;
    return text;
}

pare_status pare_quantity(pare_units *units, const char *text, pare_dimension dimension,
                          double *value, pare_error *err)
{
    char tidy[PARE_UNIT_TEXT_SIZE];
    const pare_status status = tidy_up(text, tidy, err);
    return status == PARE_OK ? read_tidy(units, tidy, dimension, value, err) : status;
}

pare_status pare_range(pare_units *units, const char *text, pare_dimension dimension, double *low,
                       double *high, pare_error *err)
{
    char tidy[PARE_UNIT_TEXT_SIZE];
    double from = 0, to = 0;
    pare_status status = tidy_up(text, tidy, err);
    if (status != PARE_OK)
        return status;
    char *dots = strstr(tidy, "..");
    char *second = dots ? skip_blanks(dots + 2) : NULL;
    if (dots)
        end_piece(tidy, dots);
    status = read_tidy(units, tidy, dimension, &from, err);
    to = from;
    if (status == PARE_OK && second)
        status = read_tidy(units, second, dimension, &to, err);
    if (status != PARE_OK)
        return status;
    if (from > to)
        return pare_fail(err, PARE_BAD_DATA,
                         "%.*s .. %.*s runs downwards: the lower end comes first", QUOTED, tidy,
                         QUOTED, second);
    *low = from;
    *high = to;
    return PARE_OK;
}

/* The next ',', or the next 'x' that a number follows; NULL when the rest is one quantity. */
static char *next_cut(char *text)
{
    for (char *at = text; *at; at++) {
        if (*at == ',')
            return at;
        if ((*at == 'x' || *at == 'X') && at > text &&
            pare_unit_text_number_end(skip_blanks(at + 1)))
            return at;
    }
    return NULL;
}

pare_status pare_sizes(pare_units *units, const char *text, pare_dimension dimension, size_t most,
                       double value[], size_t *count, pare_error *err)
{
    char tidy[PARE_UNIT_TEXT_SIZE];
    double read[PARE_UNIT_TEXT_SIZE] = {0};
    size_t pieces = 0;
    pare_status status = tidy_up(text, tidy, err);
    if (status != PARE_OK)
        return status;
    for (char *piece = tidy; piece; pieces++) {
        char *cut = next_cut(piece);
        char *next = cut ? skip_blanks(cut + 1) : NULL;
        if (cut)
            end_piece(piece, cut);
        if (pieces == most)
            return pare_fail(err, PARE_BAD_DATA, "more than %zu sizes", most);
        status = read_tidy(units, piece, dimension, &read[pieces], err);
        if (status != PARE_OK)
            return status;
        piece = next;
    }
    memcpy(value, read, pieces * sizeof *value);
    *count = pieces;
    return PARE_OK;
}
