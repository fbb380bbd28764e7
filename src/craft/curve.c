/* curve.c: how a craft's flight changes with its mass, its speed and its charge (see curve.h).
 *
 * Nothing is fitted and nothing is drawn here: each point asks the flight model anew, so a curve goes
 * through the sheet's own figures. Grams are added and taken at the centre of mass, which leaves arms
 * and inertia as they are; minutes do not depend on those. Points that do not exist (past top
 * speed, on a pack that cannot give the power) are left out, so a line ends where flight does. */
#include "craft/curve.h"

#include <math.h>

#include "craft/curve_points.h"
#include "craft/flight.h"
#include "physics/operate.h"

#define MASS_SPAN    0.4  /* of the craft's own, to both sides */
#define CHARGE_LEAST 0.04 /* below this no pack is flown */

/* ---- minutes by mass ---- */

double pare_flown_s_at(const pare_craft *craft, const pare_sheet *sheet, double mass_kg,
                       pare_error *err)
{
    pare_rig rig = sheet->rig;
    rig.mass_kg = mass_kg;
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&craft->brief, &flown);
    const pare_landing landing = pare_brief_landing(&craft->brief, rig.pack.chemistry);
    pare_endurance endured;
    if (pare_rig_endure(&rig, entries, flown, &landing, &endured, err) != PARE_OK)
        return (double)NAN;
    return endured.time_s;
}

static double limit_kg(const pare_craft *craft)
{
    const pare_limit *limit = pare_brief_limit(&craft->brief, "all_up");
    return limit && !limit->at_least ? limit->value : (double)NAN;
}

static void minutes(const pare_craft *craft, const pare_sheet *sheet, pare_curve_chart *curve)
{
    enum { MIDDLE = PARE_CURVE_POINTS / 2 };
    const double own_kg = sheet->rig.mass_kg, most_kg = limit_kg(craft);
    pare_error err = {0};
    curve->lines = 1;
    for (int i = 0; i < PARE_CURVE_POINTS; i++) {
        const double mass_kg = own_kg * (1 + MASS_SPAN * (i - MIDDLE) / MIDDLE);
        pare_curve_put(&curve->line[0], mass_kg, pare_flown_s_at(craft, sheet, mass_kg, &err));
    }
    pare_curve_put_mark(curve, "now", own_kg, pare_flown_s_at(craft, sheet, own_kg, &err));
    if (fabs(most_kg / own_kg - 1) <= MASS_SPAN)
        pare_curve_put_mark(curve, "limit", most_kg, pare_flown_s_at(craft, sheet, most_kg, &err));
    pare_curve_explain(curve, &err);
}

/* ---- current and power by speed ---- */

static void mark_level(const pare_rig *rig, const char *name, double speed_m_s,
                       pare_curve_chart *current, pare_curve_chart *power)
{
    pare_operating point;
    if (pare_rig_level(rig, speed_m_s, PARE_CHARGE_HALF, &point, NULL) != PARE_OK)
        return;
    pare_curve_put_mark(current, name, speed_m_s, point.pack_a);
    pare_curve_put_mark(power, name, speed_m_s, point.pack_w);
}

static void level(const pare_craft *craft, const pare_sheet *sheet, pare_curve_chart *current,
                  pare_curve_chart *power)
{
    const pare_rig *rig = &sheet->rig;
    pare_error err = {0};
    double top_m_s = 0;
    current->lines = power->lines = 1;
    if (pare_rig_top_speed(rig, PARE_CHARGE_HALF, &top_m_s, &err) != PARE_OK)
        top_m_s = 0;
    for (int i = 0; i < PARE_CURVE_POINTS; i++) {
        const double speed_m_s = top_m_s * i / (PARE_CURVE_POINTS - 1);
        pare_operating point;
        if (i > 0 && !(top_m_s > 0))
            break;
        if (pare_rig_level(rig, speed_m_s, PARE_CHARGE_HALF, &point, &err) != PARE_OK)
            continue;
        pare_curve_put(&current->line[0], speed_m_s, point.pack_a);
        pare_curve_put(&power->line[0], speed_m_s, point.pack_w);
    }
    mark_level(rig, "hover", 0, current, power);
    const pare_sheet_figure *range = &sheet->figure[PARE_BEST_RANGE_SPEED];
    if (range->exists)
        mark_level(rig, "best range", range->value, current, power);
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&craft->brief, &flown);
    for (size_t i = 0; i < entries; i++)
        if (flown[i].as == PARE_FLOWN_SPEED)
            mark_level(rig, "as flown", flown[i].level, current, power);
    pare_curve_explain(current, &err);
    pare_curve_explain(power, &err);
}

/* ---- thrust and volts by charge ---- */

static double charge_at(int i)
{
    return CHARGE_LEAST + (1 - CHARGE_LEAST) * i / (PARE_CURVE_POINTS - 1);
}

static pare_status at_full(const pare_rig *rig, double charge, pare_operating *point,
                           pare_error *err)
{
    return pare_rig_full(rig, charge, PARE_BURST_HEAT, 0, 0, 0, point, err);
}

static double landing_charge(const pare_craft *craft, const pare_rig *rig)
{
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&craft->brief, &flown);
    const pare_landing landing = pare_brief_landing(&craft->brief, rig->pack.chemistry);
    pare_endurance endured;
    if (pare_rig_endure(rig, entries, flown, &landing, &endured, NULL) != PARE_OK)
        return (double)NAN;
    return endured.charge_end;
}

static void thrust(const pare_rig *rig, double landing, pare_curve_chart *curve)
{
    const struct {
        const char *name;
        double charge;
    } states[] = {{"fresh", PARE_CHARGE_FRESH}, {"half", PARE_CHARGE_HALF}, {"landing", landing}};
    pare_operating point;
    pare_error err = {0};
    curve->lines = 1;
    for (int i = 0; i < PARE_CURVE_POINTS; i++)
        if (at_full(rig, charge_at(i), &point, &err) == PARE_OK)
            pare_curve_put(&curve->line[0], charge_at(i), pare_rig_thrust_to_weight(rig, &point));
    for (size_t i = 0; i < sizeof states / sizeof states[0]; i++)
        if (isfinite(states[i].charge) && at_full(rig, states[i].charge, &point, NULL) == PARE_OK)
            pare_curve_put_mark(curve, states[i].name, states[i].charge,
                                pare_rig_thrust_to_weight(rig, &point));
    pare_curve_explain(curve, &err);
}

static void volts(const pare_rig *rig, double landing, pare_curve_chart *curve)
{
    pare_operating point;
    const int cells = rig->pack.cells;
    curve->lines = 3;
    curve->line[0].name = "at rest";
    curve->line[1].name = "in hover";
    curve->line[2].name = "at full throttle";
    for (int i = 0; i < PARE_CURVE_POINTS; i++) {
        const double charge = charge_at(i);
        pare_curve_put(&curve->line[0], charge, pare_pack_cell_v(rig->pack.chemistry, charge));
        if (pare_rig_thrust(rig, 1, charge, &point, NULL) == PARE_OK)
            pare_curve_put(&curve->line[1], charge, point.pack_v / cells);
        if (at_full(rig, charge, &point, NULL) == PARE_OK)
            pare_curve_put(&curve->line[2], charge, point.pack_v / cells);
    }
    if (isfinite(landing) && pare_rig_thrust(rig, 1, landing, &point, NULL) == PARE_OK)
        pare_curve_put_mark(curve, "landing", landing, point.pack_v / cells);
}

void pare_curves_of(const pare_craft *craft, const pare_sheet *sheet,
                    pare_curve_chart curve[PARE_CURVES])
{
    const pare_rig *rig = &sheet->rig;
    for (int i = 0; i < PARE_CURVES; i++)
        curve[i] = (pare_curve_chart){.level = (double)NAN};
    const double landing = landing_charge(craft, rig);
    minutes(craft, sheet, &curve[PARE_CURVE_MINUTES]);
    level(craft, sheet, &curve[PARE_CURVE_CURRENT], &curve[PARE_CURVE_POWER]);
    thrust(rig, landing, &curve[PARE_CURVE_THRUST]);
    volts(rig, landing, &curve[PARE_CURVE_VOLTS]);
    curve[PARE_CURVE_VOLTS].level = pare_brief_landing(&craft->brief, rig->pack.chemistry).cell_v;
}
