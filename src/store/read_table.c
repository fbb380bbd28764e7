/* read_table.c: rows of plain numbers under columns (see read_table.h).
 *
 * A column says its unit once, so its numbers are turned into SI by a factor and a zero, found by
 * reading 0 and 1 of the unit: a text of numbers without units is read in a third of the time. */
#include "store/read_table.h"

#include <math.h>
#include <string.h>

static size_t title_of(const char *name, size_t titles, const pare_table_title title[])
{
    size_t i = 0;
    while (i < titles && strcmp(title[i].name, name) != 0)
        i++;
    return i;
}

static pare_status unit_value(const pare_reading *reading, const char *number,
                              const pare_node *unit, pare_dimension dimension, double *value,
                              pare_error *err)
{
    const char *text = pare_arena_printf(reading->arena, "%s %s", number, unit->text);
    return text ? pare_quantity(reading->units, text, dimension, value, err) : pare_no_memory(err);
}

pare_status pare_check_columns(const pare_reading *reading, const pare_node *node, size_t titles,
                               const pare_table_title title[], pare_error *err)
{
    const char **names = pare_arena_array(reading->arena, titles, sizeof *names);
    if (!names)
        return pare_no_memory(err);
    for (size_t i = 0; i < titles; i++)
        names[i] = title[i].name;
    pare_status status = pare_read_keys(reading, node, "columns", titles, names, err);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next) {
        const pare_dimension dimension = title[title_of(one->key, titles, title)].dimension;
        double unused = 0;
        const char *unit = NULL;
        pare_error why = {0};
        status = pare_read_text(reading, one, one->key, &unit, err);
        if (status != PARE_OK)
            return status;
        status = unit_value(reading, "1", one, dimension, &unused, &why);
        if (status == PARE_BAD_DATA)
            return pare_refuse(reading, one, PARE_BAD_DATA, err,
                               "column %s in '%.20s'; right would be %s", one->key, unit,
                               pare_dimension_units(dimension));
        if (status != PARE_OK)
            return pare_no_memory(err);
    }
    return status;
}

pare_status pare_check_rows(const pare_reading *reading, const pare_node *node, size_t columns,
                            pare_error *err)
{
    pare_status status = pare_need_list(reading, node, "rows", err);
    for (const pare_node *row = node->first; row && status == PARE_OK; row = row->next) {
        status = pare_need_list(reading, row, "a row", err);
        if (status == PARE_OK && row->count != columns)
            return pare_refuse(reading, row, PARE_BAD_DATA, err,
                               "a row of %zu numbers; right would be %zu, as many as columns",
                               row->count, columns);
        for (const pare_node *one = row->first; one && status == PARE_OK; one = one->next) {
            double value = 0;
            status = pare_read_quantity(reading, one, "a number of the table", PARE_DIM_NUMBER,
                                        -1e9, 1e9, &value, err);
        }
    }
    return status;
}

/* One column of all rows. @param[out] value  of the first row; the others follow `apart` behind it */
static pare_status read_column(const pare_reading *reading, const pare_node *unit,
                               pare_dimension dimension, size_t which, const pare_node *rows,
                               size_t apart, double value[], pare_error *err)
{
    double zero = 0, one = 1;
    pare_status status = unit_value(reading, "0", unit, dimension, &zero, err);
    if (status == PARE_OK)
        status = unit_value(reading, "1", unit, dimension, &one, err);
    size_t i = 0;
    for (const pare_node *row = rows->first; row && status == PARE_OK; row = row->next) {
        const pare_node *number = row->first;
        for (size_t k = 0; k < which; k++)
            number = number->next;
        double read = 0;
        status = pare_quantity(reading->units, number->text, PARE_DIM_NUMBER, &read, err);
        value[apart * i++] = zero + read * (one - zero);
    }
    return status;
}

pare_status pare_read_table(const pare_reading *reading, const pare_node *columns,
                            const pare_node *rows, size_t titles, const pare_table_title title[],
                            double value[], pare_error *err)
{
    pare_status status = PARE_OK;
    size_t which = 0;
    for (size_t i = 0; i < rows->count * titles; i++)
        value[i] = (double)NAN;
    for (const pare_node *unit = columns->first; unit && status == PARE_OK; unit = unit->next) {
        const size_t at = title_of(unit->key, titles, title);
        status =
            read_column(reading, unit, title[at].dimension, which++, rows, titles, value + at, err);
    }
    return status;
}
