/* flight.c: a rig's flight as figures (see flight.h). Each figure stands alone: a craft that cannot
 * hover still has a crash energy, and says why it has no minutes. */
#include "craft/flight.h"

#include <stdio.h>
#include <string.h>

#include "craft/warmth.h"
#include "physics/aloft.h"

#define CRASH_M_S      15.0
#define BURST_HEIGHT_M 30.0

size_t pare_brief_flown(const pare_brief *brief, const pare_flown **flown)
{
    static const pare_flown usual[] = {
        {PARE_FLOWN_THRUST, 0.3, 1}, {PARE_FLOWN_SPEED, 0.5, 10}, {PARE_FLOWN_THRUST, 0.2, 2}};
    *flown = brief->entries ? brief->flown : usual;
    return brief->entries ? brief->entries : sizeof usual / sizeof usual[0];
}

pare_status pare_flown_point(const pare_rig *rig, const pare_flown *entry, pare_operating *point)
{
    pare_status status = PARE_BAD_DATA;
    if (entry->as == PARE_FLOWN_SPEED)
        status = pare_rig_level(rig, entry->level, PARE_CHARGE_HALF, point, NULL);
    else if (entry->as == PARE_FLOWN_THRUST)
        status = pare_rig_thrust(rig, entry->level, PARE_CHARGE_HALF, point, NULL);
    return status == PARE_OK ? status
                             : pare_rig_full(rig, PARE_CHARGE_HALF, 1, 1, 0, 0, point, NULL);
}

double pare_brief_crash_m_s(const pare_brief *brief)
{
    return brief->crash_speed_m_s > 0 ? brief->crash_speed_m_s : CRASH_M_S;
}

pare_landing pare_brief_landing(const pare_brief *brief, pare_chemistry chemistry)
{
    pare_landing landing = brief->landing;
    if (!(landing.cell_v > 0))
        landing.cell_v = pare_chemistry_landing_v(chemistry);
    return landing;
}

static void set(pare_sheet_figure *figure, double value)
{
    figure->exists = true;
    figure->value = value;
}

static void missing(pare_sheet_figure *figure, const pare_error *err)
{
    figure->exists = false;
    snprintf(figure->why, sizeof figure->why, "%.*s", (int)sizeof figure->why - 1, err->text);
}

static void hover(pare_flight *flight, pare_sheet_figure figure[])
{
    static const pare_figure these[] = {PARE_HOVER_OUTPUT, PARE_HOVER_A,   PARE_HOVER_W,
                                        PARE_HOVER_W_KG,   PARE_HOVER_RPM, PARE_IDLE_TWR,
                                        PARE_GUST};
    pare_operating point;
    pare_error err;
    if (pare_flight_thrust(flight, 1, PARE_CHARGE_HALF, &point, &err) != PARE_OK) {
        for (size_t i = 0; i < sizeof these / sizeof these[0]; i++)
            missing(&figure[these[i]], &err);
        return;
    }
    set(&figure[PARE_HOVER_OUTPUT], point.duty);
    set(&figure[PARE_HOVER_A], point.pack_a);
    set(&figure[PARE_HOVER_W], point.pack_w);
    set(&figure[PARE_HOVER_W_KG], point.pack_w / flight->rig->mass_kg);
    set(&figure[PARE_HOVER_RPM], point.rotor.speed_rad_s);
    double idling, pushed_m_s2;
    if (pare_flight_idle(flight, PARE_IDLE_OUTPUT, PARE_CHARGE_FRESH, &idling, &err) == PARE_OK)
        set(&figure[PARE_IDLE_TWR], idling);
    else
        missing(&figure[PARE_IDLE_TWR], &err);
    if (pare_flight_gust(flight, PARE_GUST_M_S, &pushed_m_s2, &err) == PARE_OK)
        set(&figure[PARE_GUST], pushed_m_s2);
    else
        missing(&figure[PARE_GUST], &err);
}

static void hover_time(pare_flight *flight, const pare_landing *landing, pare_sheet_figure figure[])
{
    pare_endurance result;
    pare_error err;
    const pare_flown hovering = {PARE_FLOWN_THRUST, 1, 1};
    if (pare_flight_endure(flight, 1, &hovering, landing, &result, &err) == PARE_OK)
        set(&figure[PARE_HOVER_TIME], result.time_s);
    else
        missing(&figure[PARE_HOVER_TIME], &err);
}

static void warmth(pare_flight *flight, const pare_landing *landing, const pare_endurance *endured,
                   pare_sheet_figure figure[])
{
    const pare_rig *rig = flight->rig;
    pare_operating hovering;
    pare_error err;
    double degc;
    if (pare_flight_thrust(flight, 1, PARE_CHARGE_HALF, &hovering, &err) == PARE_OK &&
        pare_winding_degc(rig, hovering.rotor.speed_rad_s, endured->motor_rms_a, &degc, &err) ==
            PARE_OK)
        set(&figure[PARE_WINDING], degc);
    else
        missing(&figure[PARE_WINDING], &err);
    set(&figure[PARE_PACK_WARMTH],
        pare_pack_begins_degc(rig) +
            pare_pack_warms_k(rig, endured->mean_a, endured->rms_a,
                              (1 - landing->charge) * rig->pack.capacity_c));
}

static void cruise(const pare_endurance *endured, pare_sheet_figure figure[])
{
    pare_error err;
    if (endured->cruise_rad_s > 0) {
        set(&figure[PARE_CRUISE_RPM], endured->cruise_rad_s);
        return;
    }
    pare_fail(&err, PARE_BAD_DATA, "it is flown at no set speed");
    missing(&figure[PARE_CRUISE_RPM], &err);
}

static void minutes(const pare_brief *brief, pare_flight *flight, const pare_landing *landing,
                    pare_sheet_figure figure[], pare_endurance *endured)
{
    pare_endurance result;
    pare_error err;
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(brief, &flown);
    if (pare_flight_endure(flight, entries, flown, landing, &result, &err) == PARE_OK) {
        *endured = result;
        set(&figure[PARE_FLOWN_TIME], result.time_s);
        set(&figure[PARE_FLOWN_A], result.mean_a);
        set(&figure[PARE_FLOWN_RMS_A], result.rms_a);
        set(&figure[PARE_FLOWN_MOTOR_A], result.motor_rms_a);
        set(&figure[PARE_LANDING_CELL_V], result.least_cell_v);
        warmth(flight, landing, &result, figure);
        cruise(&result, figure);
    } else {
        static const pare_figure these[] = {PARE_FLOWN_TIME,     PARE_FLOWN_A,   PARE_FLOWN_RMS_A,
                                            PARE_FLOWN_MOTOR_A,  PARE_WINDING,   PARE_PACK_WARMTH,
                                            PARE_LANDING_CELL_V, PARE_CRUISE_RPM};
        for (size_t i = 0; i < sizeof these / sizeof these[0]; i++)
            missing(&figure[these[i]], &err);
    }
}

static void best_range(pare_flight *flight, const pare_landing *landing, pare_sheet_figure figure[])
{
    pare_error err;
    pare_best_range range;
    if (pare_flight_best_range(flight, landing, &range, &err) == PARE_OK) {
        set(&figure[PARE_CRUISE_TIME], range.time_s);
        set(&figure[PARE_BEST_RANGE], range.range_m);
        set(&figure[PARE_BEST_RANGE_SPEED], range.speed_m_s);
    } else {
        missing(&figure[PARE_CRUISE_TIME], &err);
        missing(&figure[PARE_BEST_RANGE], &err);
        missing(&figure[PARE_BEST_RANGE_SPEED], &err);
    }
}

/* Full throttle from rest, as in a burst. */
static void full(pare_flight *flight, double charge, pare_figure ratio, pare_sheet_figure figure[],
                 pare_operating *point)
{
    pare_error err;
    if (pare_flight_rest(flight, charge, point, &err) == PARE_OK) {
        set(&figure[ratio], pare_rig_thrust_to_weight(flight->rig, point));
        return;
    }
    missing(&figure[ratio], &err);
    *point = (pare_operating){0};
}

static void throttle(pare_flight *flight, double landing_charge, pare_sheet_figure figure[])
{
    const pare_rig *rig = flight->rig;
    pare_operating fresh, later;
    full(flight, PARE_CHARGE_FRESH, PARE_TWR_FRESH, figure, &fresh);
    if (figure[PARE_TWR_FRESH].exists) {
        set(&figure[PARE_THRUST_FRESH], rig->rotors * fresh.rotor.thrust_n * (1 - rig->blockage));
        set(&figure[PARE_FULL_A], fresh.pack_a);
        set(&figure[PARE_MOTOR_FULL_A], fresh.motor.current_a);
    } else {
        static const pare_figure these[] = {PARE_THRUST_FRESH, PARE_FULL_A, PARE_MOTOR_FULL_A};
        for (size_t i = 0; i < sizeof these / sizeof these[0]; i++)
            memcpy(figure[these[i]].why, figure[PARE_TWR_FRESH].why, PARE_WHY);
    }
    full(flight, PARE_CHARGE_HALF, PARE_TWR_HALF, figure, &later);
    if (figure[PARE_TWR_HALF].exists)
        set(&figure[PARE_FULL_CELL_V], later.pack_v / rig->pack.cells);
    else
        memcpy(figure[PARE_FULL_CELL_V].why, figure[PARE_TWR_HALF].why, PARE_WHY);
    full(flight, landing_charge, PARE_TWR_LANDING, figure, &later);
}

static void upwards(pare_flight *flight, pare_sheet_figure figure[])
{
    pare_error err;
    pare_burst burst;
    if (pare_flight_burst(flight, BURST_HEIGHT_M, PARE_CHARGE_FRESH, 0, &burst, &err) == PARE_OK)
        set(&figure[PARE_BURST], burst.time_s);
    else
        missing(&figure[PARE_BURST], &err);
}

static void quickness_of(pare_flight *flight, pare_sheet_figure figure[])
{
    pare_error err;
    pare_quickness quick;
    static const pare_figure quickness[] = {PARE_ROLL, PARE_PITCH, PARE_YAW, PARE_ROTOR_LAG};
    if (pare_flight_quickness(flight, PARE_CHARGE_FRESH, &quick, &err) == PARE_OK) {
        set(&figure[PARE_ROLL], quick.roll_rad_s2);
        set(&figure[PARE_PITCH], quick.pitch_rad_s2);
        set(&figure[PARE_YAW], quick.yaw_rad_s2);
        set(&figure[PARE_ROTOR_LAG], quick.lag_s);
    } else {
        for (size_t i = 0; i < sizeof quickness / sizeof quickness[0]; i++)
            missing(&figure[quickness[i]], &err);
    }
}

static void turn_at_speed(pare_flight *flight, pare_sheet_figure figure[])
{
    pare_error err;
    pare_turn turn;
    if (pare_flight_turn(flight, PARE_TURN_M_S, PARE_CHARGE_TURN, &turn, &err) == PARE_OK)
        set(&figure[PARE_TURN], turn.load_factor);
    else
        missing(&figure[PARE_TURN], &err);
}

static void climb(pare_flight *flight, pare_sheet_figure figure[])
{
    pare_error err;
    double value;
    if (pare_flight_climb(flight, PARE_CHARGE_TURN, &value, &err) == PARE_OK)
        set(&figure[PARE_CLIMB], value);
    else
        missing(&figure[PARE_CLIMB], &err);
}

static void top_speed(pare_flight *flight, pare_sheet_figure figure[])
{
    pare_error err;
    double value;
    if (pare_flight_top_speed(flight, PARE_CHARGE_TURN, &value, &err) == PARE_OK)
        set(&figure[PARE_TOP_SPEED], value);
    else
        missing(&figure[PARE_TOP_SPEED], &err);
}

unsigned pare_flight_groups(pare_figures wanted)
{
    static const struct {
        pare_figure first, last;
        unsigned groups;
    } rows[] = {
        {PARE_HOVER_OUTPUT, PARE_GUST, PARE_FLY_HOVER},
        {PARE_HOVER_TIME, PARE_HOVER_TIME, PARE_FLY_HOVER_TIME},
        {PARE_CRUISE_TIME, PARE_CRUISE_TIME, PARE_FLY_RANGE},
        {PARE_FLOWN_TIME, PARE_CRUISE_RPM, PARE_FLY_MINUTES},
        {PARE_BEST_RANGE, PARE_BEST_RANGE_SPEED, PARE_FLY_RANGE},
        {PARE_THRUST_FRESH, PARE_FULL_CELL_V, PARE_FLY_FULL | PARE_FLY_MINUTES},
        {PARE_BURST, PARE_BURST, PARE_FLY_BURST},
        {PARE_TURN, PARE_TURN, PARE_FLY_TURN},
        {PARE_CLIMB, PARE_CLIMB, PARE_FLY_CLIMB},
        {PARE_TOP_SPEED, PARE_TOP_SPEED, PARE_FLY_TOP_SPEED},
        {PARE_ROLL, PARE_ROTOR_LAG, PARE_FLY_QUICKNESS},
        {PARE_CRASH, PARE_DENSITY_ALTITUDE, PARE_FLY_GROUND},
    };
    unsigned groups = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        for (int f = rows[i].first; f <= (int)rows[i].last; f++)
            if (wanted >> f & 1)
                groups |= rows[i].groups;
    return groups;
}

/* The reason why a rig cannot be flown at all stands at every figure that was asked for. */
static void all_missing(unsigned groups, pare_sheet_figure figure[], const pare_error *err)
{
    for (int f = PARE_HOVER_OUTPUT; f < PARE_CRASH; f++)
        if (pare_flight_groups((pare_figures)1 << f) & groups)
            missing(&figure[f], err);
}

/* What follows from the numbers alone. */
static void on_the_ground(const pare_brief *brief, const pare_rig *rig, pare_sheet_figure figure[])
{
    const double crash = pare_brief_crash_m_s(brief);
    set(&figure[PARE_CRASH], rig->mass_kg * crash * crash / 2);
    set(&figure[PARE_PACK_ENERGY], pare_pack_energy_j(&rig->pack, 0));
    set(&figure[PARE_AIR_DENSITY], rig->air.density_kg_m3);
    set(&figure[PARE_DENSITY_ALTITUDE], pare_air_density_altitude_m(rig->air.density_kg_m3));
}

static void fly(const pare_brief *brief, pare_flight *flight, const pare_landing *landing,
                unsigned groups, pare_sheet_figure figure[], pare_endurance *endured)
{
    if (groups & PARE_FLY_HOVER)
        hover(flight, figure);
    if (groups & PARE_FLY_HOVER_TIME)
        hover_time(flight, landing, figure);
    if (groups & PARE_FLY_MINUTES)
        minutes(brief, flight, landing, figure, endured);
    if (groups & PARE_FLY_RANGE)
        best_range(flight, landing, figure);
    if (groups & PARE_FLY_FULL)
        throttle(flight, endured->charge_end, figure);
    if (groups & PARE_FLY_BURST)
        upwards(flight, figure);
    if (groups & PARE_FLY_QUICKNESS)
        quickness_of(flight, figure);
    if (groups & PARE_FLY_TURN)
        turn_at_speed(flight, figure);
    if (groups & PARE_FLY_CLIMB)
        climb(flight, figure);
    if (groups & PARE_FLY_TOP_SPEED)
        top_speed(flight, figure);
}

void pare_flight_some(const pare_brief *brief, const pare_rig *rig, unsigned groups,
                      pare_sheet_figure figure[PARE_FIGURES], pare_endurance *endured)
{
    const pare_landing landing = pare_brief_landing(brief, rig->pack.chemistry);
    pare_flight flight;
    pare_error err;
    if (groups & PARE_FLY_FULL)
        groups |= PARE_FLY_MINUTES;
    if (groups & PARE_FLY_MINUTES)
        *endured = (pare_endurance){.charge_end = landing.charge};
    if (pare_flight_begin(rig, &flight, &err) == PARE_OK)
        fly(brief, &flight, &landing, groups, figure, endured);
    else
        all_missing(groups, figure, &err);
    if (groups & PARE_FLY_GROUND)
        on_the_ground(brief, rig, figure);
}

void pare_flight_figures(const pare_brief *brief, const pare_rig *rig,
                         pare_sheet_figure figure[PARE_FIGURES], pare_endurance *endured)
{
    pare_flight_some(brief, rig, PARE_FLY_ALL, figure, endured);
}

void pare_flight_turning_figures(const pare_rig *rig, pare_sheet_figure figure[PARE_FIGURES])
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, NULL) != PARE_OK)
        return;
    upwards(&flight, figure);
    quickness_of(&flight, figure);
}
