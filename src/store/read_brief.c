/* read_brief.c: what a craft must do, out of its text: air, how it is flown, landing, limits. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "craft/figure.h"
#include "store/read_air.h"
#include "store/read_craft.h"
#include "store/read_flight.h"

#define LANDING_LEFT 0.20 /* common practice, no source */
#define CRASH_M_S    15.0 /* a brief that says none is judged at the speed of a fast lap */

static pare_status read_air(const pare_reading *reading, const pare_node *node, pare_brief *brief,
                            pare_error *err)
{
    pare_weather air;
    const pare_status status = pare_read_air(reading, node, &air, err);
    if (status != PARE_OK)
        return status;
    brief->altitude_m = air.altitude_m;
    brief->temperature_given = !isnan(air.temperature_degc);
    brief->temperature_degc = brief->temperature_given ? air.temperature_degc : 0;
    brief->pressure_pa = isnan(air.pressure_pa) ? 0 : air.pressure_pa;
    brief->sea_level_pa = isnan(air.sea_level_pa) ? 0 : air.sea_level_pa;
    brief->humidity_given = !isnan(air.humidity);
    brief->humidity = brief->humidity_given ? air.humidity : 0;
    return PARE_OK;
}

static pare_status read_land(const pare_reading *reading, const pare_node *node, pare_brief *brief,
                             pare_error *err)
{
    static const char *const keys[] = {"cell", "left"};
    if (!node)
        return PARE_OK;
    pare_status status = pare_read_keys(reading, node, "land", PARE_COUNT(keys), keys, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "cell"), "cell", PARE_DIM_VOLTAGE,
                                    2, 4.4, &brief->landing.cell_v, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "left"), "left", PARE_DIM_SHARE, 0,
                                    0.95, &brief->landing.charge, err);
    return status;
}

/* Where it is better to be more or less of it: a centre of mass, a shift and a temperature lie on either side
 * of 0. */
static bool is_never_negative(int figure)
{
    return figure >= 0 && pare_figure_table[figure].better != 0 &&
           pare_figure_table[figure].dimension != PARE_DIM_TEMPERATURE;
}

/* "<= 620 g": which side, and the quantity in the figure's dimension. */
static pare_status read_limit(const pare_reading *reading, const pare_node *node, pare_limit *limit,
                              pare_error *err)
{
    const char *names[PARE_FIGURES + 1], *text = NULL;
    size_t count = pare_figure_limit_names(PARE_FIGURES, names);
    names[count++] = "margin";
    const int figure = pare_figure_of_limit(node->key);
    if (figure < 0 && strcmp(node->key, "margin") != 0) {
        const char *nearest = pare_nearest(node->key, count, names);
        const bool with_unit = !nearest;
        for (int i = 0; with_unit && i < PARE_FIGURES; i++)
            if (strcmp(pare_figure_table[i].key, node->key) == 0)
                nearest = pare_figure_table[i].stem;
        char place[PARE_WHERE];
        pare_where(reading, node->key_line, node->key_column, place);
        if (nearest)
            return pare_fail(err, PARE_UNKNOWN, "%s: no limit is called '%.48s'; is it '%s'?",
                             place, node->key, nearest);
        return pare_fail(err, PARE_UNKNOWN,
                         "%s: no limit is called '%.48s'; right would be a figure of the sheet "
                         "less its unit, like all_up, flown, money or margin",
                         place, node->key);
    }
    pare_status status = pare_read_text(reading, node, node->key, &text, err);
    if (status != PARE_OK)
        return status;
    const bool at_least = strncmp(text, ">=", 2) == 0;
    if (!at_least && strncmp(text, "<=", 2) != 0)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s is '%.40s'; right would start with <= or >=, like \"<= 620 g\"",
                           node->key, text);
    const pare_dimension dimension =
        figure < 0 ? PARE_DIM_NUMBER : pare_figure_table[figure].dimension;
    double value = 0;
    status = pare_quantity(reading->units, text + 2, dimension, &value, err);
    if (status != PARE_OK)
        return pare_refused_at(reading, node, node->key, err);
    if (value < 0 && is_never_negative(figure))
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s is '%.40s'; it is never below 0, so right would be a limit above "
                           "that",
                           node->key, text);
    *limit = (pare_limit){node->key, at_least, value, node->line, node->column};
    return PARE_OK;
}

static pare_status read_limits(const pare_reading *reading, const pare_node *node,
                               pare_brief *brief, pare_error *err)
{
    if (!node)
        return PARE_OK;
    pare_status status = pare_need_map(reading, node, "limits", err);
    if (status == PARE_OK && node->count > PARE_LIMITS)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%zu limits; right would be %d at most", node->count, PARE_LIMITS);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_limit(reading, one, &brief->limit[brief->limits++], err);
    return status;
}

static pare_status read_keep(const pare_reading *reading, const pare_node *node, pare_brief *brief,
                             pare_error *err)
{
    const char *names[PARE_JOBS];
    if (!node)
        return PARE_OK;
    for (int i = 0; i < PARE_JOBS; i++)
        names[i] = pare_job_name((pare_job)i);
    pare_status status = pare_need_list(reading, node, "keep", err);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next) {
        int job = 0;
        status = pare_read_choice(reading, one, "job", PARE_JOBS, names, &job, err);
        brief->keep |= 1u << job;
    }
    return status;
}

pare_status pare_read_brief(const pare_reading *reading, const pare_node *node, pare_brief *brief,
                            pare_error *err)
{
    static const char *const keys[] = {"air", "flown", "land", "crash_speed", "limits", "keep"};
    brief->landing.charge = LANDING_LEFT;
    brief->crash_speed_m_s = CRASH_M_S;
    brief->keep = 1u << PARE_FLIES;
    if (!node)
        return PARE_OK;
    pare_status status = pare_read_keys(reading, node, "brief", PARE_COUNT(keys), keys, err);
    if (status == PARE_OK)
        status = read_air(reading, pare_node_get(node, "air"), brief, err);
    if (status == PARE_OK)
        status = pare_read_flown(reading, pare_node_get(node, "flown"), brief->flown,
                                 &brief->entries, err);
    if (status == PARE_OK)
        status = read_land(reading, pare_node_get(node, "land"), brief, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "crash_speed"), "crash_speed",
                                    PARE_DIM_SPEED, 0.1, 150, &brief->crash_speed_m_s, err);
    if (status == PARE_OK)
        status = read_limits(reading, pare_node_get(node, "limits"), brief, err);
    if (status == PARE_OK)
        status = read_keep(reading, pare_node_get(node, "keep"), brief, err);
    return status;
}
