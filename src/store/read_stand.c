/* read_stand.c: the numbers of a stand table (see read_stand.h). */
#include "store/read_stand.h"

#include <math.h>
#include <string.h>

#include "store/read_air.h"

const pare_table_title pare_stand_titles[PARE_STAND_COLUMNS] = {
    [PARE_STAND_THROTTLE] = {"throttle", PARE_DIM_SHARE},
    [PARE_STAND_VOLTS] = {"volts", PARE_DIM_VOLTAGE},
    [PARE_STAND_CURRENT] = {"current", PARE_DIM_CURRENT},
    [PARE_STAND_POWER] = {"power", PARE_DIM_POWER},
    [PARE_STAND_THRUST] = {"thrust", PARE_DIM_FORCE},
    [PARE_STAND_SPEED] = {"speed", PARE_DIM_ROTATION},
    [PARE_STAND_TORQUE] = {"torque", PARE_DIM_TORQUE},
    [PARE_STAND_TEMPERATURE] = {"temperature", PARE_DIM_TEMPERATURE}};

static pare_stand_column column_of(const char *name)
{
    int column = 0;
    while (column < PARE_STAND_COLUMNS && strcmp(pare_stand_titles[column].name, name) != 0)
        column++;
    return (pare_stand_column)column;
}

static pare_status read_rows(const pare_reading *reading, const pare_node *columns,
                             const pare_node *rows, pare_stand_reading out[], pare_error *err)
{
    double *value =
        pare_arena_array(reading->arena, rows->count * PARE_STAND_COLUMNS + 1, sizeof *value);
    if (!value)
        return pare_no_memory(err);
    const pare_status status =
        pare_read_table(reading, columns, rows, PARE_STAND_COLUMNS, pare_stand_titles, value, err);
    for (size_t i = 0; i < rows->count; i++)
        memcpy(out[i].value, &value[i * PARE_STAND_COLUMNS], sizeof out[i].value);
    return status;
}

static pare_status read_air(const pare_reading *reading, const pare_node *node,
                            pare_stand_table *table, pare_error *err)
{
    pare_weather air;
    const pare_status status = pare_read_air(reading, node, &air, err);
    if (status != PARE_OK)
        return status;
    const bool pressure = !isnan(air.pressure_pa) || !isnan(air.sea_level_pa);
    table->air_share_u = pare_stand_air_share_u(
        pressure || (node && pare_node_get(node, "altitude")), !isnan(air.temperature_degc));
    return pare_air_in(&air, &table->air, err);
}

/* The number that a fault is about, or the row, or the list of rows. */
static const pare_node *node_at(const pare_node *columns, const pare_node *rows,
                                const pare_stand_place *place)
{
    const pare_node *row = rows->first;
    for (size_t i = 0; row && i < place->row; i++)
        row = row->next;
    if (!row || place->column == PARE_STAND_COLUMNS)
        return row ? row : rows;
    const pare_node *number = row->first;
    for (const pare_node *unit = columns->first; unit && number; unit = unit->next) {
        if (column_of(unit->key) == place->column)
            return number;
        number = number->next;
    }
    return row;
}

static pare_status check_kind(const pare_part *part, pare_kind kind, pare_error *err)
{
    if (pare_part_does(part, kind))
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "'%s' is a part of kind %s; right would be a %s", part->id,
                     pare_kind_name(part->kind), pare_kind_words(kind));
}

pare_status pare_read_stand(const pare_reading *reading, const pare_node *node,
                            const pare_part *motor, const pare_part *propeller, pare_arena *arena,
                            pare_stand_table *table, const pare_node **at, pare_error *err)
{
    const pare_node *columns = pare_node_get(node, "columns"), *rows = pare_node_get(node, "rows");
    const pare_stand_pair pair = {.kv_rpm_per_v = motor->spec[PARE_SPEC_KV].value,
                                  .kv_u = motor->spec[PARE_SPEC_KV].u,
                                  .diameter_m = propeller->spec[PARE_SPEC_DIAMETER].value};
    pare_stand_place place;
    *table = (pare_stand_table){.motor = motor->id, .propeller = propeller->id};
    pare_stand_reading *read = pare_arena_array(reading->arena, rows->count + 1, sizeof *read);
    pare_stand_row *kept = pare_arena_array(arena, rows->count + 1, sizeof *kept);
    if (!read || !kept)
        return pare_no_memory(err);
    *at = pare_node_get(node, "motor");
    pare_status status = check_kind(motor, PARE_MOTOR, err);
    if (status != PARE_OK)
        return status;
    *at = pare_node_get(node, "propeller");
    status = check_kind(propeller, PARE_PROPELLER, err);
    if (status != PARE_OK)
        return status;
    *at = node;
    status = read_air(reading, pare_node_get(node, "air"), table, err);
    if (status == PARE_OK)
        status = read_rows(reading, columns, rows, read, err);
    if (status != PARE_OK)
        return status;
    table->row = kept;
    status =
        pare_stand_check(rows->count, read, &pair, &table->air, kept, &table->rows, &place, err);
    if (status != PARE_OK)
        *at = node_at(columns, rows, &place);
    return status;
}
