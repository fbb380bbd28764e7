/* calc_pack.c: `pare calc pack`.
 *
 * Two questions. With volts= it is arithmetic: a source behind a resistance gives a power, as surely as a
 * meter and a charger read the two. With
 * chemistry= it is the model of a pack's cells: volts under a constant current from full, with the
 * doubt that cells showed which the fit had not seen. The pack's own numbers, where a builder has
 * measured them, take the law's place: cell_resistance= as a charger reads it, and holds=, the charge
 * that it gives now; both are what ageing changes. */
#include <math.h>
#include <string.h>

#include "cli/calc.h"
#include "craft/part.h"
#include "physics/charger.h"
#include "physics/discharge.h"

#define AH_C           3600.0
#define STILL_AIR_U_K  2.0   /* left-out cells: 1 K in the mean, 2 K at 3 C */
#define DESTROYED_DEGC 120.0 /* separators melt near 130 degC (from memory) */
#define HOLDS_U        0.03  /* of a charge that somebody measured: common practice, no source */
#define METER_U        0.005 /* of volts: a hand-held meter, common practice, no source */
#define TYPED_OHM_U    0.15  /* as of a pack's part (craft/spec.c) */
#define TYPED_SOURCE   "volts and resistance as typed"

enum {
    VOLTS,
    RESISTANCE,
    POWER,
    CHEMISTRY,
    CELLS,
    CAPACITY,
    CURRENT,
    CHARGE,
    TEMPERATURE,
    CELL_RESISTANCE,
    READ_AS,
    READ_AT,
    HOLDS,
    LEADS,
    HEAT
};
static const key pack_keys[] = {
    [VOLTS] = {"volts", PARE_DIM_VOLTAGE, 0.1, 120, "0.1 V .. 120 V", false, NAN, false},
    [RESISTANCE] = {"resistance", PARE_DIM_RESISTANCE, 0, 10, "0 ohm .. 10 ohm", false, NAN, false},
    [POWER] = {"power", PARE_DIM_POWER, 0, 1e6, "0 W .. 1000 kW", false, NAN, false},
    [CHEMISTRY] = {"chemistry", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [CELLS] = {"cells", PARE_DIM_COUNT, 1, 100, "1 .. 100", false, 1, false},
    [CAPACITY] = {"capacity", PARE_DIM_CHARGE, 36, 3.6e6, "10 mAh .. 1000 Ah", false, NAN, false},
    [CURRENT] = {"current", PARE_DIM_CURRENT, 1e-3, 1e4, "0.001 A .. 10000 A", false, NAN, false},
    [CHARGE] = {"charge", PARE_DIM_SHARE, 0, 1, "0 % .. 100 %", false, 0.5, false},
    [TEMPERATURE] = {"temperature", PARE_DIM_TEMPERATURE, -40, 80, "-40 degC .. 80 degC", false, 25,
                     false},
    [CELL_RESISTANCE] = {"cell_resistance", PARE_DIM_RESISTANCE, 1e-5, 10, "0.01 mohm .. 10 ohm",
                         false, NAN, false},
    [READ_AS] = {"read_as", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [READ_AT] = {"read_at", PARE_DIM_TEMPERATURE, -40, 80, "-40 degC .. 80 degC", false, NAN,
                 false},
    [HOLDS] = {"holds", PARE_DIM_CHARGE, 36, 3.6e6, "10 mAh .. 1000 Ah", false, NAN, false},
    [LEADS] = {"leads", PARE_DIM_RESISTANCE, 0, 1, "0 ohm .. 1 ohm", false, 0, false},
    [HEAT] = {"heat", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
};
enum { PACK_KEYS = sizeof pack_keys / sizeof pack_keys[0] };

/* ---- a source behind a resistance ---- */

/* What volts or resistance that are off by a share do to current and volts under load. A side on which it
 * does not give the power counts as the other does. */
static void moved(const double typed[], int which, double share, double u[2])
{
    double high[2], low[2], now[] = {typed[VOLTS], typed[RESISTANCE]};
    now[which] = typed[which] * (1 + share);
    const bool above =
        pare_pack_current(now[0], now[1], typed[POWER], &high[0], &high[1], NULL) == PARE_OK;
    now[which] = typed[which] * (1 - share);
    const bool below =
        pare_pack_current(now[0], now[1], typed[POWER], &low[0], &low[1], NULL) == PARE_OK;
    double middle[2];
    pare_pack_current(typed[VOLTS], typed[RESISTANCE], typed[POWER], &middle[0], &middle[1], NULL);
    for (int i = 0; i < 2; i++) {
        const double up = above ? high[i] - middle[i] : middle[i] - low[i];
        const double down = below ? middle[i] - low[i] : up;
        u[i] = hypot(u[i], (up + down) / 2);
    }
}

static pare_status given_power(const key_values *given, pare_answer *answer, pare_error *err)
{
    const double *v = given->value;
    double current, volts, u[2] = {0, 0};
    for (int i = 0; i < PACK_KEYS; i++) {
        if (i <= POWER && !given->given[i])
            return pare_fail(err, PARE_BAD_DATA,
                             "%s= is missing: volts=, resistance= and power= go together, or "
                             "chemistry=, capacity= and current=",
                             pack_keys[i].name);
        if (i > POWER && given->given[i])
            return pare_fail(
                err, PARE_BAD_DATA,
                "%s= says nothing beside volts=: it goes with chemistry=", pack_keys[i].name);
    }
    const pare_status status =
        pare_pack_current(v[VOLTS], v[RESISTANCE], v[POWER], &current, &volts, err);
    if (status != PARE_OK)
        return status;
    moved(v, VOLTS, METER_U, u);
    moved(v, RESISTANCE, TYPED_OHM_U, u);
    const double most_w = pare_pack_most_w(v[VOLTS], v[RESISTANCE]);
    pare_answer_add(answer, "current_a", "current", "A", current);
    pare_answer_doubt(answer, u[0], PARE_ESTIMATED, TYPED_SOURCE);
    pare_answer_add(answer, "volts_v", "volts under load", "V", volts);
    pare_answer_doubt(answer, u[1], PARE_ESTIMATED, TYPED_SOURCE);
    pare_answer_add(answer, "most_w", "most power it gives", "W", most_w);
    if (isfinite(most_w))
        pare_answer_doubt(answer, hypot(2 * METER_U, TYPED_OHM_U) * most_w, PARE_ESTIMATED,
                          TYPED_SOURCE);
    return PARE_OK;
}

/* ---- a pack of cells ---- */

/* The place of a word among others; the first where it was not given. */
static pare_status choose(const key_values *given, int at, size_t count, const char *const word[],
                          const char *all, int *chosen, pare_error *err)
{
    *chosen = 0;
    if (!given->given[at])
        return PARE_OK;
    for (size_t i = 0; i < count; i++)
        if (strcmp(given->text[at], word[i]) == 0) {
            *chosen = (int)i;
            return PARE_OK;
        }
    return pare_fail(err, PARE_BAD_DATA, "%s=%.40s is none of %s", pack_keys[at].name,
                     given->text[at], all);
}

/* What was typed, as a pack; how well its resistance and its charge are known. */
typedef struct asked {
    pare_pack pack;
    pare_drain drain;
    double charge;
    double ohm_share_u, capacity_share_u;
    pare_known ohm_known;
    const char *source;
} asked;

static pare_status take_reading(const key_values *given, asked *a, pare_error *err)
{
    static const char *const kinds[PARE_READING_KINDS] = {
        [PARE_READING_PULSE] = "pulse", [PARE_READING_AC] = "ac", [PARE_READING_DC] = "dc"};
    int kind;
    pare_status status =
        choose(given, READ_AS, PARE_READING_KINDS, kinds, "pulse, ac and dc", &kind, err);
    if (status != PARE_OK)
        return status;
    if (!given->given[CELL_RESISTANCE]) {
        if (given->given[READ_AS] || given->given[READ_AT])
            return pare_fail(err, PARE_BAD_DATA,
                             "%s= says how cell_resistance= was read: give that as well",
                             given->given[READ_AS] ? "read_as" : "read_at");
        return PARE_OK;
    }
    const pare_charger_reading reading = {.kind = (pare_reading_kind)kind,
                                          .degc = given->given[READ_AT] ? given->value[READ_AT]
                                                                        : (double)NAN,
                                          .charge = (double)NAN,
                                          .cells = 1,
                                          .ohm = {given->value[CELL_RESISTANCE]}};
    pare_pack one = a->pack;
    one.cells = 1;
    pare_group_reading group;
    status = pare_charger_group(&one, &reading, &group, err);
    if (status != PARE_OK)
        return status;
    a->pack.group_ohm = group.ohm;
    a->ohm_share_u = hypot(pare_pack_model_doubt(&a->pack).ohm_share_u, group.u / group.ohm);
    a->ohm_known = PARE_MEASURED;
    a->source = "charger's reading";
    return PARE_OK;
}

static pare_status take_pack(const key_values *given, asked *a, pare_error *err)
{
    static const char *const heats[] = {"on", "off"};
    const double *v = given->value;
    int chemistry, heat;
    for (int i = 0; i < PACK_KEYS; i++)
        if ((i == VOLTS || i == RESISTANCE) && given->given[i])
            return pare_fail(err, PARE_BAD_DATA,
                             "%s= says nothing beside chemistry=: cell_resistance= would be right",
                             pack_keys[i].name);
    if (!given->given[CAPACITY] || given->given[CURRENT] == given->given[POWER])
        return pare_fail(err, PARE_BAD_DATA,
                         "with chemistry= it needs capacity= and one of current= and power=");
    pare_status status =
        choose(given, CHEMISTRY, PARE_CHEMISTRIES, pare_chemistry_names,
               "lipo, lihv, liion (energy cells) and liion-power", &chemistry, err);
    if (status == PARE_OK)
        status = choose(given, HEAT, 2, heats, "on and off", &heat, err);
    if (status != PARE_OK)
        return status;
    a->pack = (pare_pack){.chemistry = (pare_chemistry)chemistry,
                          .cells = (int)v[CELLS],
                          .capacity_c = given->given[HOLDS] ? v[HOLDS] : v[CAPACITY],
                          .temperature_degc = v[TEMPERATURE],
                          .resistance_factor = 1,
                          .lead_ohm = v[LEADS]};
    const pare_pack_doubt doubt = pare_pack_model_doubt(&a->pack);
    a->drain = (pare_drain){.current_a = v[CURRENT], .from = 1, .warms = heat == 0};
    a->charge = v[CHARGE];
    a->ohm_share_u = doubt.ohm_share_u;
    a->ohm_known = PARE_ESTIMATED;
    a->capacity_share_u = given->given[HOLDS] ? HOLDS_U : doubt.capacity_share_u;
    a->source = chemistry == PARE_LIION ? "model from measured cells" : "model, extrapolated";
    return take_reading(given, a, err);
}

/* A power as the current that gives it at that charge: each drops the volts that the other needs. */
static pare_status current_for(const key_values *given, asked *a, pare_error *err)
{
    const double power_w = given->value[POWER];
    if (given->given[CURRENT])
        return PARE_OK;
    if (!(power_w > 0))
        return pare_fail(err, PARE_BAD_DATA, "power=0 W draws nothing: more would be right");
    a->drain.current_a = power_w / pare_pack_open_v(&a->pack, a->charge);
    for (int i = 0; i < 60; i++) {
        pare_drained at;
        double volts, current;
        pare_status status = pare_pack_drain(&a->pack, &a->drain, a->charge, &at, err);
        if (status == PARE_OK)
            status = pare_pack_current(at.open_v, at.ohm, power_w, &current, &volts, err);
        if (status != PARE_OK)
            return status;
        const double moved = fabs(current / a->drain.current_a - 1);
        a->drain.current_a = current;
        if (moved < 1e-9)
            break;
    }
    return PARE_OK;
}

/* What is left of the stated group, as a charger would read it. */
static double group_ohm(const asked *a)
{
    pare_pack one = a->pack;
    one.temperature_degc = 25;
    return pare_pack_group_ohm(&one, 0.5);
}

/* At a current; at a power, less volts draw more current, which takes volts in turn: all of them, where it
 * is the most that it gives. */
static double volts_u(const key_values *given, const asked *a, const pare_drained *at)
{
    const double amps = a->drain.current_a;
    const double u_v = hypot(a->pack.cells * pare_pack_model_doubt(&a->pack).cell_v_u,
                             a->ohm_share_u * (at->ohm - a->pack.lead_ohm) * amps);
    const double kept = fmax(1 - at->ohm * amps / at->volts_v, 0);
    return given->given[CURRENT] ? u_v : fmin(u_v / kept, at->volts_v);
}

/* Charge that it gives down to the volts at which a craft lands; its doubt is that of the volts there,
 * carried over by how fast they fall, and that of what it holds. */
static void add_usable(pare_answer *answer, const asked *a, double u_v)
{
    const double cell_v = pare_chemistry_landing_v(a->pack.chemistry), cell_u = u_v / a->pack.cells;
    double charge, sooner, later;
    if (pare_pack_drain_to(&a->pack, &a->drain, cell_v, &charge, NULL) != PARE_OK ||
        pare_pack_drain_to(&a->pack, &a->drain, cell_v + cell_u, &sooner, NULL) != PARE_OK ||
        pare_pack_drain_to(&a->pack, &a->drain, cell_v - cell_u, &later, NULL) != PARE_OK) {
        pare_answer_add(answer, "usable_mah", "charge to landing volts", "mAh", (double)NAN);
        pare_answer_note(answer,
                         "under that load even a full pack is near or below %.2f V a cell, "
                         "where a craft lands",
                         cell_v);
        return;
    }
    const double mah = a->pack.capacity_c / 3.6 * (1 - charge);
    pare_answer_add(answer, "usable_mah", "charge to landing volts", "mAh", mah);
    pare_answer_doubt(
        answer, hypot(a->pack.capacity_c / 3.6 * (sooner - later) / 2, a->capacity_share_u * mah),
        a->ohm_known, a->source);
    pare_answer_note(answer, "a craft lands at %.2f V a cell under load", cell_v);
}

static void add_notes(pare_answer *answer, const asked *a, double most_degc)
{
    if (a->drain.warms)
        pare_answer_note(answer, "drained by that current from full, single cells in still air: a "
                                 "wrapped pack gets warmer");
    if (most_degc > 60)
        pare_answer_note(answer, "past 60 degC lithium cells are harmed");
    if (a->pack.chemistry != PARE_LIION && a->ohm_known == PARE_ESTIMATED)
        pare_answer_note(answer, "no open curves of such cells: the resistance is an estimate, and "
                                 "cell_resistance= from a charger is far better");
}

static pare_status of_cells(const key_values *given, pare_answer *answer, pare_error *err)
{
    asked a;
    pare_drained at;
    pare_status status = take_pack(given, &a, err);
    if (status == PARE_OK)
        status = current_for(given, &a, err);
    if (status == PARE_OK)
        status = pare_pack_drain(&a.pack, &a.drain, a.charge, &at, err);
    if (status != PARE_OK)
        return status;
    const double amps = a.drain.current_a, u_v = volts_u(given, &a, &at);
    const double amps_u = given->given[CURRENT] ? 0 : u_v / at.volts_v * amps;
    if (at.degc > DESTROYED_DEGC)
        return pare_fail(
            err, PARE_BAD_DATA,
            "%g A from full would heat the cells to %.0f degC: they are destroyed from "
            "%g degC on",
            amps, at.degc, DESTROYED_DEGC);
    if (!(at.volts_v > 0))
        return pare_fail(err, PARE_BAD_DATA, "%g A asked, %.3g A would take all of its volts", amps,
                         at.open_v / at.ohm);
    pare_answer_add(answer, "current_a", "current", "A", amps);
    if (amps_u > 0)
        pare_answer_doubt(answer, amps_u, a.ohm_known, a.source);
    pare_answer_add(answer, "rate_per_h", "current over capacity", "1/h",
                    amps * AH_C / a.pack.capacity_c);
    if (amps_u > 0)
        pare_answer_doubt(answer, amps_u * AH_C / a.pack.capacity_c, a.ohm_known, a.source);
    pare_answer_add(answer, "volts_v", "volts under load", "V", at.volts_v);
    pare_answer_doubt(answer, u_v, a.ohm_known, a.source);
    pare_answer_add(answer, "cell_v", "of one cell", "V", at.volts_v / a.pack.cells);
    pare_answer_doubt(answer, u_v / a.pack.cells, a.ohm_known, a.source);
    pare_answer_add(answer, "power_w", "power", "W", at.volts_v * amps);
    if (given->given[CURRENT])
        pare_answer_doubt(answer, u_v * amps, a.ohm_known, a.source);
    pare_answer_add(answer, "resistance_mohm", "resistance then", "mohm", 1e3 * at.ohm);
    pare_answer_doubt(answer, 1e3 * a.ohm_share_u * (at.ohm - a.pack.lead_ohm), a.ohm_known,
                      a.source);
    pare_answer_add(answer, "group_mohm", "of a cell, at once, 25 degC", "mohm",
                    1e3 * group_ohm(&a));
    pare_answer_doubt(answer, 1e3 * a.ohm_share_u * group_ohm(&a), a.ohm_known, a.source);
    pare_answer_add(answer, "cells_c", "cells' temperature", "degC", at.degc);
    if (a.drain.warms)
        pare_answer_doubt(
            answer, hypot(STILL_AIR_U_K, a.ohm_share_u * (at.degc - given->value[TEMPERATURE])),
            a.ohm_known, a.source);
    add_usable(answer, &a, u_v);
    add_notes(answer, &a, at.degc);
    return PARE_OK;
}

static pare_status pack_answer(const key_values *given, pare_units *units, pare_answer *answer,
                               pare_error *err)
{
    (void)units;
    return given->given[CHEMISTRY] ? of_cells(given, answer, err) : given_power(given, answer, err);
}

const calc_thing calc_pack = {"pack", PACK_KEYS, pack_keys, pack_answer};
