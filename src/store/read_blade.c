/* read_blade.c: what was measured of a propeller: its blade, and its points in a tunnel.
 *
 * Both are lists of bare numbers, a row each, in the order in which tables of propellers have them:
 * blade [r/R, c/R, twist in degrees], tunnel [J, rpm, CT, CP] with J 0 at rest. They stand in the part,
 * so they are edited, copied, exported and undone with it. */
#include <assert.h>

#include "craft/tunnel_table.h"
#include "store/read_part.h"

#define DEGREE (3.14159265358979323846 / 180)
#define RPM    (3.14159265358979323846 / 30)

/* A list of rows of so many numbers. @param[out] value  [rows][columns], in the arena */
static pare_status read_rows(const pare_reading *reading, const pare_node *node, const char *what,
                             size_t most, size_t columns, const char *like, double **value,
                             pare_error *err)
{
    pare_status status = pare_need_list(reading, node, what, err);
    if (status == PARE_OK && (node->count < 2 || node->count > most))
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s of %zu row%s; right would be 2 to %zu, each like %s", what,
                           node->count, node->count == 1 ? "" : "s", most, like);
    *value = status == PARE_OK
                 ? pare_arena_array(reading->arena, node->count * columns, sizeof **value)
                 : NULL;
    if (status == PARE_OK && !*value)
        return pare_no_memory(err);
    size_t n = 0;
    for (const pare_node *row = node->first; row && status == PARE_OK; row = row->next) {
        status = pare_need_list(reading, row, "a row", err);
        if (status == PARE_OK && row->count != columns)
            return pare_refuse(reading, row, PARE_BAD_DATA, err,
                               "a row of %zu numbers; right would be %zu, like %s", row->count,
                               columns, like);
        for (const pare_node *one = row->first; one && status == PARE_OK; one = one->next)
            status = pare_read_quantity(reading, one, what, PARE_DIM_NUMBER, -1e6, 1e6,
                                        &(*value)[n++], err);
    }
    return status;
}

static pare_status read_stations(const pare_reading *reading, const pare_node *node,
                                 pare_part *part, pare_error *err)
{
    double *value = NULL;
    const pare_status status =
        read_rows(reading, node, "blade", PARE_PROP_STATIONS, 3,
                  "[0.75, 0.16, 14.5]: r/R, c/R, twist in degrees", &value, err);
    if (status != PARE_OK)
        return status;
    assert(value);
    pare_blade_station *station = pare_arena_array(reading->arena, node->count, sizeof *station);
    if (!station)
        return pare_no_memory(err);
    for (size_t i = 0; i < node->count; i++)
        station[i] =
            (pare_blade_station){value[3 * i], value[3 * i + 1], value[3 * i + 2] * DEGREE};
    part->stations = node->count;
    part->station = station;
    return PARE_OK;
}

static pare_status read_tunnel(const pare_reading *reading, const pare_node *node, pare_part *part,
                               pare_error *err)
{
    double *value = NULL;
    size_t rows = 0, bad = 0;
    pare_status status = read_rows(reading, node, "tunnel", PARE_TUNNEL_ROWS, 4,
                                   "[0.35, 5000, 0.095, 0.048]: J, rpm, CT, CP", &value, err);
    if (status != PARE_OK)
        return status;
    pare_tunnel_row *row = pare_arena_array(reading->arena, node->count, sizeof *row);
    pare_tunnel_table *table = pare_arena_zeros(reading->arena, sizeof *table);
    if (!row || !table)
        return pare_no_memory(err);
    assert(value);
    for (size_t i = 0; i < node->count; i++)
        row[i] = (pare_tunnel_row){value[4 * i], value[4 * i + 1] * RPM, value[4 * i + 2],
                                   value[4 * i + 3]};
    status =
        pare_tunnel_check(node->count, row, part->spec[PARE_SPEC_DIAMETER].value, &rows, &bad, err);
    const pare_node *at = node->first;
    for (size_t i = 0; at && i < bad; i++)
        at = at->next;
    if (status != PARE_OK)
        return pare_refused_at(reading, at ? at : node, "tunnel", err);
    *table = (pare_tunnel_table){rows, row};
    part->tunnel = table;
    return PARE_OK;
}

pare_status pare_read_blade(const pare_reading *reading, const pare_node *part_node,
                            pare_part *part, pare_error *err)
{
    const pare_node *blade = pare_node_get(part_node, "blade"),
                    *tunnel = pare_node_get(part_node, "tunnel");
    if ((blade || tunnel) && part->kind != PARE_PROPELLER)
        return pare_refuse(reading, blade ? blade : tunnel, PARE_BAD_DATA, err,
                           "%s of a part of kind %s; right would be a propeller's",
                           blade ? "blade" : "tunnel", pare_kind_name(part->kind));
    pare_status status = blade ? read_stations(reading, blade, part, err) : PARE_OK;
    return status == PARE_OK && tunnel ? read_tunnel(reading, tunnel, part, err) : status;
}
