/* csv_stand.c: rows as stand tables (see csv_stand.h).
 *
 * A stand table in the text form says its units once, over its columns, so a cell there may not have
 * one of its own; its numbers are kept as typed, with a point. Two columns are not what the text form
 * has and are turned into it: the length of the ESC's pulses into a throttle, and electrical turns,
 * where the poles are told, into those of the shaft. A row read before the rotor had settled cannot be
 * told from one that had, and is kept. */
#include "store/csv_stand.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "craft/stand_table.h"
#include "store/tree_diff.h"

/* What an ESC takes for nothing and for all; common practice, no source. */
#define PULSE_LOW_S  1000e-6
#define PULSE_HIGH_S 2000e-6

static size_t number_of(const pare_csv_rows *rows, const pare_csv_column *column)
{
    return (size_t)(column - rows->plan->column) + 1;
}

static bool in_map(const pare_csv_column *column, const char *map)
{
    return column->target->map && strcmp(column->target->map, map) == 0;
}

static bool is_named(const pare_csv_column *column, const char *name)
{
    return strcmp(column->target->name, name) == 0;
}

/* The unit of a column's numbers: its own, or where it has none, of a throttle and of speeds, the
 * usual one; NULL: it needs one. */
static const char *unit_of(const pare_csv_column *column)
{
    if (is_named(column, "pulse"))
        return column->unit ? "%" : NULL;
    if (column->unit)
        return column->unit;
    return column->target->dimension == PARE_DIM_ROTATION ? "rpm"
           : column->target->dimension == PARE_DIM_SHARE  ? "%"
                                                          : NULL;
}

/* ---- the columns ---- */

static bool says(const pare_csv_plan *plan, const char *what)
{
    for (size_t i = 0; i < plan->ordered; i++)
        if (strcmp(pare_csv_target_says(plan->order[i]->target), what) == 0)
            return true;
    return false;
}

pare_status pare_csv_check_stand(const pare_csv_plan *plan, pare_error *err)
{
    static const char *const parts[] = {"motor", "propeller"};
    for (size_t i = 0; i < plan->ordered; i++) {
        const pare_csv_column *column = plan->order[i];
        if (in_map(column, "columns") && !unit_of(column))
            return pare_csv_refuse(plan, column, plan->line, err,
                                   "no unit over this column; right would be like '%s (%s)', of %s",
                                   column->target->name, is_named(column, "pulse") ? "us" : "...",
                                   is_named(column, "pulse")
                                       ? "us, ms, s"
                                       : pare_dimension_units(column->target->dimension));
    }
    for (size_t i = 0; i < PARE_COUNT(parts); i++)
        if (!says(plan, parts[i]))
            return pare_fail(err, PARE_BAD_DATA,
                             "%s:%d: which %s? right would be --set %s=ID, or a column of ids",
                             plan->name, plan->line, parts[i], parts[i]);
    const char *missing = !says(plan, "volts")                             ? "volts"
                          : !says(plan, "thrust")                          ? "thrust"
                          : !says(plan, "current") && !says(plan, "power") ? "current or power"
                                                                           : NULL;
    return missing ? pare_fail(err, PARE_BAD_DATA,
                               "%s:%d: no column of %s; right would be one, like 'volts (V)', "
                               "'thrust (gf)', 'current (A)', or --map COLUMN=WHAT",
                               plan->name, plan->line, missing)
                   : PARE_OK;
}

/* ---- what stands above the rows ---- */

static pare_status put_text(const pare_csv_rows *rows, pare_node *to, const pare_csv_column *column,
                            const char *cell, int line, pare_error *err)
{
    size_t length = strlen(cell);
    length = pare_text_trimmed(cell, length);
    const char *text = pare_arena_copy(rows->reading->arena, cell, length);
    return text && pare_csv_put(rows, to, column->target->name, text, line, number_of(rows, column))
               ? PARE_OK
               : pare_no_memory(err);
}

static pare_status put_air(const pare_csv_rows *rows, pare_node *air, const pare_csv_column *column,
                           const char *cell, int line, pare_error *err)
{
    pare_csv_quantity q;
    if (pare_csv_read_quantity(cell, rows->plan->decimal, column->target->dimension, column->unit,
                               &q, err) != PARE_OK)
        return pare_csv_refused_at(rows->plan, column, line, err);
    const char *key = is_named(column, "air_temperature") ? "temperature" : column->target->name;
    return pare_csv_put(rows, air, key, q.value, line, number_of(rows, column))
               ? PARE_OK
               : pare_no_memory(err);
}

/* Motor, propeller, air, and the columns with their units. */
static pare_status make_head(const pare_csv_rows *rows, const pare_csv_row *row, pare_node **table,
                             pare_error *err)
{
    pare_node *made = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0);
    pare_node *air = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0);
    pare_node *columns = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0);
    pare_node *list = pare_csv_node(rows, PARE_NODE_LIST, row->line, 0);
    *table = made;
    if (!made || !air || !columns || !list)
        return pare_no_memory(err);
    pare_status status = PARE_OK;
    for (size_t i = 0; i < rows->plan->ordered && status == PARE_OK; i++) {
        const pare_csv_column *column = rows->plan->order[i];
        const char *cell = pare_csv_cell(rows->plan, column, row);
        if (in_map(column, "columns")) {
            if (!pare_csv_put(rows, columns, pare_csv_target_says(column->target), unit_of(column),
                              rows->plan->line, number_of(rows, column)))
                return pare_no_memory(err);
        } else if (!pare_csv_is_nothing(cell) && in_map(column, "air")) {
            status = put_air(rows, air, column, cell, row->line, err);
        } else if (!pare_csv_is_nothing(cell) && !column->target->map) {
            status = put_text(rows, made, column, cell, row->line, err);
        }
    }
    if (air->first)
        pare_csv_add(made, "air", air);
    pare_csv_add(made, "columns", columns);
    pare_csv_add(made, "rows", list);
    return status;
}

static bool same_head(const pare_node *a, const pare_node *b)
{
    static const char *const keys[] = {"motor", "propeller", "air"};
    bool same = true;
    for (size_t i = 0; i < PARE_COUNT(keys) && same; i++) {
        const pare_node *one = pare_node_get(a, keys[i]), *two = pare_node_get(b, keys[i]);
        same = one && two ? pare_node_same(one, two) : one == two;
    }
    return same;
}

/* ---- numbers ---- */

/* What was told of all rows, or a default where it was not. */
static pare_status told(const pare_csv_rows *rows, const pare_csv_row *row, const char *name,
                        double *value, pare_error *err)
{
    const pare_csv_column *column = pare_csv_column_of(rows->plan, name);
    const char *cell = column ? pare_csv_cell(rows->plan, column, row) : "";
    pare_csv_quantity q;
    if (!column || pare_csv_is_nothing(cell))
        return PARE_OK;
    if (pare_csv_read_quantity(cell, rows->plan->decimal, column->target->dimension, column->unit,
                               &q, err) != PARE_OK ||
        pare_quantity(rows->reading->units, q.value, column->target->dimension, value, err) !=
            PARE_OK)
        return pare_csv_refused_at(rows->plan, column, row->line, err);
    return PARE_OK;
}

/* "1500" of "us" between 1000 us and 2000 us as "50". */
static pare_status throttle_of(const pare_csv_rows *rows, const pare_csv_row *row,
                               const pare_csv_column *column, char digits[PARE_CSV_DIGITS],
                               pare_error *err)
{
    double low_s = PULSE_LOW_S, high_s = PULSE_HIGH_S, pulse_s = 0;
    char text[PARE_CSV_DIGITS + 32];
    pare_status status = told(rows, row, "pulse_low", &low_s, err);
    if (status == PARE_OK)
        status = told(rows, row, "pulse_high", &high_s, err);
    if (status != PARE_OK)
        return status;
    if (!(low_s < high_s))
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "pulses from %.6g us to %.6g us; right would be pulse_low below "
                               "pulse_high",
                               1e6 * low_s, 1e6 * high_s);
    snprintf(text, sizeof text, "%s %.24s", digits, column->unit);
    if (pare_quantity(rows->reading->units, text, PARE_DIM_TIME, &pulse_s, err) != PARE_OK)
        return pare_csv_refused_at(rows->plan, column, row->line, err);
    if (!(pulse_s >= low_s && pulse_s <= high_s))
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "a pulse of %.6g us; right would be %.6g us to %.6g us, or --set "
                               "pulse_low=... and --set pulse_high=...",
                               1e6 * pulse_s, 1e6 * low_s, 1e6 * high_s);
    snprintf(digits, PARE_CSV_DIGITS, "%.6g", 100 * (pulse_s - low_s) / (high_s - low_s));
    return PARE_OK;
}

/* Electrical turns over pairs of poles, where the poles are told. */
static pare_status shaft_speed_of(const pare_csv_rows *rows, const pare_csv_row *row,
                                  const pare_csv_column *column, char digits[PARE_CSV_DIGITS],
                                  pare_error *err)
{
    double poles = 0;
    const pare_status status = told(rows, row, "poles", &poles, err);
    if (status != PARE_OK || poles == 0)
        return status;
    if (!(poles >= 2 && poles <= 60 && fmod(poles, 2) == 0))
        return pare_csv_refuse(rows->plan, pare_csv_column_of(rows->plan, "poles"), row->line, err,
                               "%.6g poles; right would be the magnets of the bell, an even number "
                               "up to 60, like 14",
                               poles);
    if (strcmp(unit_of(column), "rpm") != 0)
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "electrical turns in %.20s; right would be rpm", column->unit);
    snprintf(digits, PARE_CSV_DIGITS, "%.6g", strtod(digits, NULL) / (poles / 2));
    return PARE_OK;
}

/* A number of the table; a unit behind it must be the column's. */
static pare_status add_number(const pare_csv_rows *rows, pare_node *to,
                              const pare_csv_column *column, const pare_csv_row *row,
                              pare_error *err)
{
    const char *cell = pare_csv_cell(rows->plan, column, row);
    char digits[PARE_CSV_DIGITS];
    bool ambiguous = false;
    const char *end = pare_csv_number(cell, rows->plan->decimal, digits, &ambiguous);
    const char *unit = end ? end + strspn(end, " ") : "";
    if (!end || ambiguous)
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "'%.40s' is no number; right would be one in each row of a stand "
                               "table",
                               cell);
    const char *due = column->unit ? column->unit : unit_of(column);
    const char *said = pare_csv_unit(unit, column->target->dimension);
    if (*unit && strcmp(said, due) != 0)
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "'%.40s' in another unit than its column; right would be %s", cell,
                               due);
    pare_status status = PARE_OK;
    if (is_named(column, "pulse"))
        status = throttle_of(rows, row, column, digits, err);
    else if (is_named(column, "electrical_speed"))
        status = shaft_speed_of(rows, row, column, digits, err);
    if (status == PARE_OK &&
        !pare_csv_put(rows, to, NULL, digits, row->line, number_of(rows, column)))
        return pare_no_memory(err);
    return status;
}

/* ---- tables ---- */

pare_status pare_csv_grow_stand(const pare_csv_rows *rows, const pare_csv_row *row,
                                pare_csv_stand *stand, pare_error *err)
{
    pare_node *head = NULL;
    pare_node *numbers = pare_csv_node(rows, PARE_NODE_LIST, row->line, 0);
    stand->finished = NULL;
    pare_status status = numbers ? make_head(rows, row, &head, err) : pare_no_memory(err);
    for (size_t i = 0; i < rows->plan->ordered && status == PARE_OK; i++)
        if (in_map(rows->plan->order[i], "columns"))
            status = add_number(rows, numbers, rows->plan->order[i], row, err);
    if (status != PARE_OK)
        return status;
    if (!stand->table || !same_head(stand->table, head)) {
        stand->finished = stand->table;
        stand->table = head;
    }
    pare_node *list = stand->table->first;
    while (strcmp(list->key, "rows") != 0)
        list = list->next;
    stand->full = list->count >= PARE_STAND_ROWS;
    if (stand->full)
        return pare_csv_refuse(rows->plan, NULL, row->line, err,
                               "more than %d rows in a stand table; right would be fewer: each "
                               "tenth row of a log, or one a step",
                               PARE_STAND_ROWS);
    pare_csv_add(list, NULL, numbers);
    return PARE_OK;
}

pare_status pare_csv_check_throttle(const pare_csv_plan *plan, const pare_node *table,
                                    pare_error *err)
{
    const pare_csv_column *column = pare_csv_column_of(plan, "throttle");
    const pare_node *columns = pare_node_get(table, "columns"),
                    *rows = pare_node_get(table, "rows");
    double most = 0;
    size_t which = 0;
    if (!column || column->unit)
        return PARE_OK;
    for (const pare_node *one = columns->first; one && strcmp(one->key, "throttle") != 0;
         one = one->next)
        which++;
    for (const pare_node *row = rows->first; row; row = row->next) {
        const pare_node *number = row->first;
        for (size_t i = 0; i < which; i++)
            number = number->next;
        most = fmax(most, strtod(number->text, NULL));
    }
    if (most > 1)
        return PARE_OK;
    return pare_csv_refuse(plan, column, plan->line, err,
                           "a throttle of %.3g at most, and no unit over it; right would be per "
                           "cent, and 'throttle (%%)' over them",
                           most);
}

static void add(pare_list_remark remark[], size_t *count, const char *label, const char *text)
{
    if (text && *count < PARE_LIST_REMARKS)
        remark[(*count)++] = (pare_list_remark){label, text};
}

size_t pare_csv_stand_remarks(const pare_csv_plan *plan, pare_arena *arena,
                              pare_list_remark remark[PARE_LIST_REMARKS])
{
    size_t count = 0;
    const bool high = pare_csv_column_of(plan, "altitude") ||
                      pare_csv_column_of(plan, "pressure") ||
                      pare_csv_column_of(plan, "sea_level_pressure");
    const bool warm = pare_csv_column_of(plan, "air_temperature") != NULL;
    const double share_u = pare_stand_air_share_u(high, warm);
    if (!high || !warm)
        add(remark, &count, "air",
            pare_arena_printf(arena, "%s, its density as known to %.0f %%; otherwise %s%s%s",
                              high   ? "as warm as the standard atmosphere there"
                              : warm ? "at sea level, since the list says no altitude"
                                     : "the standard atmosphere's at sea level, since the list "
                                       "says nothing",
                              100 * share_u, high ? "" : "--set altitude=120m",
                              high || warm ? "" : ", ", warm ? "" : "--set air_temperature=20C"));
    if (pare_csv_column_of(plan, "pulse"))
        add(remark, &count, "throttle",
            pare_arena_printf(
                arena,
                "of pulses from %s to %s; others: --set pulse_low=..., --set "
                "pulse_high=...",
                pare_csv_column_of(plan, "pulse_low") ? pare_csv_column_of(plan, "pulse_low")->set
                                                      : "1000 us",
                pare_csv_column_of(plan, "pulse_high") ? pare_csv_column_of(plan, "pulse_high")->set
                                                       : "2000 us"));
    const pare_csv_column *poles = pare_csv_column_of(plan, "poles");
    if (pare_csv_column_of(plan, "electrical_speed"))
        add(remark, &count, "speed",
            poles && poles->set
                ? pare_arena_printf(arena, "of electrical turns, of %s poles", poles->set)
                : pare_arena_text(arena, "taken as turns of the shaft; electrical ones: --set "
                                         "poles=14"));
    return count;
}
