/* discharge.c: a pack drained by a constant current.
 *
 * The slow resistance sets in with time from rest, and the heat of both resistances warms the cells
 * above the air, which lowers both. Between 2 and 3 C that warmth is half of what bends the volts, so
 * without it no constant resistance fits two rates at once. Warmth is a state: a step of charge takes
 * the heat of its middle and relaxes towards it exactly, so that long slow steps cannot overshoot.
 * The heat of reaction is left out: it is a tenth of the resistance's at 1 C, and both ways over a
 * discharge (Plett, Battery Management Systems vol. 1, sec. 7.4, from memory). */
#include "physics/discharge.h"

#include <math.h>

#include "physics/pack_law.h"

#define STEP            0.01 /* of the charge */
#define HOUR_S          3600.0
#define CURRENT_LEAST_A 1e-6
#define CURRENT_MOST_A  1e5

typedef struct drain_state {
    const pare_pack *pack;
    const pare_drain *drain;
    pare_pack_law law; /* at 25 degC, without leads */
    pare_pack_doubt doubt;
    double ah, charge, degc;
} drain_state;

static double time_at(const drain_state *s, double charge)
{
    return (s->drain->from - charge) * s->pack->capacity_c / s->drain->current_a;
}

static double ohm_at(const drain_state *s, double charge, double degc)
{
    return pare_cell_warmth(s->law.cell, degc) *
           pare_pack_law_ohm(&s->law, charge, pare_pack_steady(s->pack, time_at(s, charge)));
}

static void step_to(drain_state *s, double charge)
{
    const pare_cell *cell = s->law.cell;
    const double middle = (s->charge + charge) / 2, air_degc = s->pack->temperature_degc;
    const double time_s = time_at(s, charge) - time_at(s, s->charge);
    const double amps = s->drain->current_a;
    const double watts = amps * amps * ohm_at(s, middle, s->degc) / s->law.cells;
    const double settled_degc =
        air_degc + watts * cell->cooling_s / (cell->heat_j_per_k_ah * s->ah);
    s->degc += (settled_degc - s->degc) * -expm1(-time_s / cell->cooling_s);
    s->charge = charge;
}

static drain_state begin(const pare_pack *pack, const pare_drain *drain)
{
    pare_pack bare = *pack;
    bare.temperature_degc = 25;
    bare.lead_ohm = 0;
    return (drain_state){.pack = pack,
                         .drain = drain,
                         .law = pare_pack_law_of(&bare),
                         .doubt = pare_pack_model_doubt(pack),
                         .ah = pack->capacity_c / HOUR_S,
                         .charge = drain->from,
                         .degc = pack->temperature_degc};
}

static void go_to(drain_state *s, double charge)
{
    while (s->drain->warms && s->charge > charge)
        step_to(s, fmax(s->charge - STEP, charge));
    s->charge = charge;
}

static pare_drained seen(const drain_state *s)
{
    const double open_v = pare_pack_law_open_v(&s->law, s->charge);
    const double ohm = ohm_at(s, s->charge, s->degc) + s->pack->lead_ohm;
    return (pare_drained){.time_s = time_at(s, s->charge),
                          .open_v = open_v,
                          .ohm = ohm,
                          .volts_v = open_v - ohm * s->drain->current_a,
                          .volts_u = hypot(s->law.cells * s->doubt.cell_v_u,
                                           s->doubt.ohm_share_u * ohm * s->drain->current_a),
                          .degc = s->degc};
}

static pare_status check(const pare_pack *pack, const pare_drain *drain, pare_error *err)
{
    if (pare_pack_check(pack, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(drain->current_a >= CURRENT_LEAST_A && drain->current_a <= CURRENT_MOST_A))
        return pare_fail(err, PARE_BAD_DATA, "a current of %g A: %g to %g A would be right",
                         drain->current_a, CURRENT_LEAST_A, CURRENT_MOST_A);
    if (!(drain->from > 0 && drain->from <= 1))
        return pare_fail(err, PARE_BAD_DATA,
                         "a discharge from a charge of %g: more than 0, to 1, would be right",
                         drain->from);
    return PARE_OK;
}

pare_status pare_pack_drain(const pare_pack *pack, const pare_drain *drain, double charge,
                            pare_drained *drained, pare_error *err)
{
    if (check(pack, drain, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(charge >= 0 && charge <= drain->from))
        return pare_fail(err, PARE_BAD_DATA, "down to a charge of %g: 0 to %g would be right",
                         charge, drain->from);
    drain_state state = begin(pack, drain);
    go_to(&state, charge);
    *drained = seen(&state);
    return PARE_OK;
}

pare_status pare_pack_drain_to(const pare_pack *pack, const pare_drain *drain, double cell_v,
                               double *charge, pare_error *err)
{
    if (check(pack, drain, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(cell_v > 0 && cell_v <= 10))
        return pare_fail(err, PARE_BAD_DATA,
                         "down to %g V a cell: more than 0, to 10, would be right", cell_v);
    drain_state state = begin(pack, drain);
    double was = drain->from, was_v = seen(&state).volts_v / pack->cells;
    if (was_v <= cell_v)
        return pare_fail(err, PARE_BAD_DATA,
                         "under %g A it gives %.3g V a cell at the start, which is not over %g V",
                         drain->current_a, was_v, cell_v);
    while (was > 0) {
        go_to(&state, fmax(was - STEP, 0));
        const double volts = seen(&state).volts_v / pack->cells;
        if (volts <= cell_v) {
            *charge = state.charge + (was - state.charge) * (cell_v - volts) / (was_v - volts);
            return PARE_OK;
        }
        was = state.charge;
        was_v = volts;
    }
    *charge = 0;
    return PARE_OK;
}
