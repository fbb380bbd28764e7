/* csv_look.c: a first look at a table (see csv_look.h).
 *
 * Each separator is tried on the first rows; the one that gives most fields, the same number in most
 * rows, is it. A decimal comma splits rows too, but not the row of names, so a separator whose names
 * come first is preferred. What is seen is said aloud and can be stated instead. */
#include "store/csv_look.h"

#include <string.h>

#include "store/csv_words.h"
#include "store/reading.h"

enum { LOOK_BYTES = 64 << 10, LOOK_ROWS = 1000, TRY_ROWS = 60 };

static const struct {
    char separator;
    const char *words;
} SEPARATORS[] = {{',', "commas"}, {';', "semicolons"}, {'\t', "tabs"}, {'|', "bars"}};

const char *pare_csv_separator_words(char separator)
{
    for (size_t i = 0; i < PARE_COUNT(SEPARATORS); i++)
        if (SEPARATORS[i].separator == separator)
            return SEPARATORS[i].words;
    return "one column";
}

static size_t filled(const pare_csv_row *row)
{
    size_t count = 0;
    for (size_t i = 0; i < row->count; i++)
        count += row->field[i].text[strspn(row->field[i].text, " ")] != '\0';
    return count;
}

bool pare_csv_is_blank(const pare_csv_row *row)
{
    for (size_t i = 0; i < row->count; i++)
        if (row->field[i].length && row->field[i].text[strspn(row->field[i].text, " ")])
            return false;
    return true;
}

bool pare_csv_is_comment(const pare_csv_row *row)
{
    const char *first = row->field[0].text;
    return first[strspn(first, " ")] == '#';
}

bool pare_csv_is_head(const pare_csv_row *row, bool alone)
{
    return !pare_csv_is_comment(row) && filled(row) >= (alone ? 1 : 2);
}

/* What is looked at: whole lines. */
static size_t whole_lines(const char *bytes, size_t length)
{
    if (length <= LOOK_BYTES)
        return length;
    for (length = LOOK_BYTES; length > 0; length--)
        if (bytes[length - 1] == '\n')
            return length;
    return LOOK_BYTES;
}

/* How well a separator parts the first rows, 0: not at all. A row that cannot be read ends the look;
 * without memory nothing can be said. */
static pare_status score(const char *bytes, size_t length, char separator, pare_csv_row *row,
                         size_t *points, pare_error *err)
{
    pare_csv *csv = NULL;
    size_t fields = 0, same = 0, rows = 0, before = 0;
    bool there = true;
    pare_status status = pare_csv_open(NULL, bytes, length, "", &csv, err);
    while (status == PARE_OK && rows < TRY_ROWS) {
        status = pare_csv_read(csv, separator, row, &there, err);
        if (status != PARE_OK || !there)
            break;
        if (pare_csv_is_blank(row) || pare_csv_is_comment(row))
            continue;
        if (!fields && pare_csv_is_head(row, false))
            fields = row->count;
        before += fields == 0;
        rows++;
        same += fields && row->count == fields;
    }
    pare_csv_close(csv);
    *points = fields * same * (before ? 1 : 2);
    return status == PARE_UNAVAILABLE ? status : PARE_OK;
}

static pare_status see_separator(const char *bytes, size_t length, pare_csv_row *row, char *best,
                                 pare_error *err)
{
    size_t most = 0, points = 0;
    pare_status status = PARE_OK;
    *best = ',';
    for (size_t i = 0; i < PARE_COUNT(SEPARATORS) && status == PARE_OK; i++) {
        status = score(bytes, length, SEPARATORS[i].separator, row, &points, err);
        if (status == PARE_OK && points > most) {
            most = points;
            *best = SEPARATORS[i].separator;
        }
    }
    return status;
}

/* A word of letters or signs that may be a unit, behind a number. */
static bool may_be_unit(const char *text)
{
    return *text && strlen(text) < 16 && !strpbrk(text, "0123456789()") &&
           strcspn(text, " ") == strlen(text);
}

static void see_unit(pare_csv_seen *column, const char *cell, pare_decimal decimal)
{
    char digits[PARE_CSV_DIGITS];
    bool ambiguous = false;
    cell += strspn(cell, " ~");
    const char *unit = pare_csv_number(cell, decimal, digits, &ambiguous);
    if (!unit)
        return;
    unit += strspn(unit, " ");
    if (!may_be_unit(unit))
        return;
    size_t i = 0;
    while (i < column->units && strcmp(column->unit[i], unit) != 0)
        i++;
    if (i == PARE_CSV_UNITS_SEEN)
        return;
    if (i == column->units)
        strcpy(column->unit[column->units++], unit);
    column->times[i]++;
}

static void see_cell(pare_csv_seen *column, const char *cell, pare_decimal decimal)
{
    char tidy[64];
    if (pare_csv_is_nothing(cell))
        return;
    column->filled++;
    pare_csv_tidy(cell, tidy, sizeof tidy);
    column->kinds += pare_csv_kind(tidy) >= 0;
    see_unit(column, cell, decimal);
}

static pare_status keep_titles(const pare_csv_row *row, pare_arena *arena, pare_csv_look *look,
                               pare_error *err)
{
    look->line = row->line;
    look->columns = row->count;
    /* Blank names at the end are no columns. */
    while (look->columns && pare_csv_is_nothing(row->field[look->columns - 1].text) &&
           row->field[look->columns - 1].length == 0)
        look->columns--;
    look->column = pare_arena_array(arena, look->columns, sizeof *look->column);
    if (!look->column)
        return pare_no_memory(err);
    for (size_t i = 0; i < look->columns; i++) {
        const char *title = row->field[i].text + strspn(row->field[i].text, " ");
        size_t length = strlen(title);
        length = pare_text_trimmed(title, length);
        look->column[i].title = pare_arena_copy(arena, title, length);
        if (!look->column[i].title)
            return pare_no_memory(err);
    }
    return PARE_OK;
}

/* The row of names. */
static pare_status find_head(pare_csv *csv, const char *name, bool alone, pare_arena *arena,
                             pare_csv_look *look, pare_csv_row *row, pare_error *err)
{
    bool there = true;
    for (;;) {
        const pare_status status = pare_csv_read(csv, look->separator, row, &there, err);
        if (status != PARE_OK)
            return status;
        if (!there)
            return pare_fail(err, PARE_BAD_DATA,
                             "%s: no row of column names; right would be one, like: name, kind, "
                             "mass (g)",
                             name);
        if (!pare_csv_is_blank(row) && pare_csv_is_head(row, alone))
            return keep_titles(row, arena, look, err);
    }
}

/* Votes on the decimals first, since units stand behind numbers. A row that cannot be read ends the
 * look: whoever reads the table will say why. */
static void see_cells(pare_csv *csv, pare_csv_look *look, pare_csv_row *row)
{
    size_t points = 0, commas = 0, rows = 0;
    bool there = true;
    while (rows++ < LOOK_ROWS &&
           pare_csv_read(csv, look->separator, row, &there, NULL) == PARE_OK && there)
        for (size_t i = 0; i < row->count && i < look->columns; i++) {
            const pare_decimal vote = pare_csv_decimal_of(row->field[i].text);
            points += vote == PARE_DECIMAL_POINT;
            commas += vote == PARE_DECIMAL_COMMA;
            see_cell(&look->column[i], row->field[i].text, PARE_DECIMAL_UNKNOWN);
        }
    if (look->decimal == PARE_DECIMAL_UNKNOWN && points + commas)
        look->decimal = !commas   ? PARE_DECIMAL_POINT
                        : !points ? PARE_DECIMAL_COMMA
                                  : PARE_DECIMAL_BOTH;
}

static pare_status look_through(const char *bytes, size_t length, const char *name,
                                pare_arena *arena, pare_csv_look *look, pare_csv_row *row,
                                pare_error *err)
{
    pare_csv *csv = NULL;
    size_t points = 0;
    pare_status status = score(bytes, length, look->separator, row, &points, err);
    if (status == PARE_OK)
        status = pare_csv_open(NULL, bytes, length, name, &csv, err);
    if (status == PARE_OK)
        status = find_head(csv, name, points == 0, arena, look, row, err);
    if (status == PARE_OK)
        see_cells(csv, look, row);
    pare_csv_close(csv);
    return status;
}

pare_status pare_csv_look_at(const pare_csv *csv, const char *name, char separator,
                             pare_decimal decimal, pare_arena *arena, pare_csv_look *look,
                             pare_error *err)
{
    size_t length = 0;
    const char *bytes = pare_csv_beginning(csv, &length);
    pare_csv_row *row = pare_arena_zeros(arena, sizeof *row);
    if (!row)
        return pare_no_memory(err);
    length = whole_lines(bytes, length);
    *look = (pare_csv_look){.separator = separator, .decimal = decimal};
    const pare_status status =
        separator ? PARE_OK : see_separator(bytes, length, row, &look->separator, err);
    if (status != PARE_OK)
        return status;
    return look_through(bytes, length, name, arena, look, row, err);
}
