/* pack.c: what a lithium pack gives at its terminals.
 *
 * A cell group is a voltage that falls with charge drawn, behind one resistance: open-circuit volts
 * linear between knots, resistance k/Ah with an Arrhenius law in temperature (of a share of it: foils
 * and welds do not care) and a rise towards empty. A slow part sets in with a time constant; steady
 * flight has all of it. The discharge rating on a label does not enter: a boast must not make a pack
 * better. One slow part is enough: it has measured pulses of 1 and of 10 s within 15 %, and cells of one
 * type differ among themselves by as much.
 *
 * Constant power P from V behind R is R i^2 - V i + P = 0. We want the smaller root, written as
 * 2P / (V + sqrt(V^2 - 4RP)): the schoolbook form subtracts two near-equal numbers when R is small
 * and divides by zero when it is 0. Past P = V^2/4R there is no current, and we say so.
 *
 * Read pare_pack_current() first. Sources: circuit, Plett, Battery Management Systems vol. 1, ch. 2;
 * constants, cells_fitted.c. */
#include "physics/rig.h"

#include <math.h>

#include "physics/pack_law.h"

#define KELVIN      273.15
#define REFERENCE_K 298.15
#define SHAPE_U                                                                                    \
    0.08 /* of a stated resistance, from rate to rate: what it takes to suit one cell at 1 C and at 3 C */
#define STATED_CHARGE 0.5 /* a stated group resistance is at half charge */

const double pare_pack_knots[PARE_PACK_KNOTS] = {0,   0.05, 0.1, 0.2, 0.3,  0.4, 0.5,
                                                 0.6, 0.7,  0.8, 0.9, 0.95, 1};

static const pare_cell *shipped(pare_chemistry kind)
{
    return &pare_cells_fitted[(unsigned)kind < PARE_CHEMISTRIES ? kind : PARE_LIPO];
}

static const pare_cell *cell_of(const pare_pack *pack)
{
    return pack->cell ? pack->cell : shipped(pack->chemistry);
}

/* The knots are even but for the halved steps at both ends, so the segment is found without search. */
static int segment_of(double charge)
{
    if (charge < 0.1)
        return charge < 0.05 ? 0 : 1;
    if (charge >= 0.9)
        return charge < 0.95 ? 10 : 11;
    int i = (int)(charge * 10) + 1;
    if (charge < pare_pack_knots[i])
        i--;
    else if (charge >= pare_pack_knots[i + 1])
        i++;
    return i;
}

double pare_cell_open_v(const pare_cell *cell, double charge)
{
    if (!(charge > 0))
        return cell->open_v[0];
    if (charge >= 1)
        return cell->open_v[PARE_PACK_KNOTS - 1];
    const int i = segment_of(charge);
    const double x = pare_pack_knots[i], step = pare_pack_knots[i + 1] - x;
    return cell->open_v[i] + (cell->open_v[i + 1] - cell->open_v[i]) * (charge - x) / step;
}

double pare_cell_rise(const pare_cell *cell, double charge)
{
    return 1 + cell->rise * exp(-charge / cell->rise_charge);
}

double pare_cell_warmth(const pare_cell *cell, double degc)
{
    const double cold = exp(cell->activation_k * (1 / (degc + KELVIN) - 1 / REFERENCE_K));
    return 1 + cell->warm_share * (cold - 1);
}

double pare_pack_cell_v(pare_chemistry kind, double charge)
{
    return pare_cell_open_v(shipped(kind), charge);
}

double pare_pack_open_v(const pare_pack *pack, double charge)
{
    return pack->cells * pare_cell_open_v(cell_of(pack), charge);
}

pare_pack_law pare_pack_law_of(const pare_pack *pack)
{
    const pare_cell *cell = cell_of(pack);
    const double warm_ohm = pack->group_ohm > 0
                                ? pack->group_ohm / pare_cell_rise(cell, STATED_CHARGE)
                                : cell->ohm_ah / (pack->capacity_c / 3600);
    const double factor = pack->group_ohm > 0 ? 1 : pack->resistance_factor;
    return (pare_pack_law){
        .cell = cell,
        .cells = pack->cells,
        .quick_ohm =
            pack->cells * warm_ohm * factor * pare_cell_warmth(cell, pack->temperature_degc),
        .lead_ohm = pack->lead_ohm,
    };
}

double pare_pack_law_ohm(const pare_pack_law *law, double charge, double steady)
{
    return law->quick_ohm * pare_cell_rise(law->cell, charge) * (1 + law->cell->slow * steady) +
           law->lead_ohm;
}

double pare_pack_law_open_v(const pare_pack_law *law, double charge)
{
    return law->cells * pare_cell_open_v(law->cell, charge);
}

double pare_pack_group_ohm(const pare_pack *pack, double charge)
{
    const pare_pack_law law = pare_pack_law_of(pack);
    return law.quick_ohm * pare_cell_rise(law.cell, charge) / pack->cells;
}

double pare_pack_ohm(const pare_pack *pack, double charge, double steady)
{
    const pare_pack_law law = pare_pack_law_of(pack);
    return pare_pack_law_ohm(&law, charge, steady);
}

pare_pack_doubt pare_pack_model_doubt(const pare_pack *pack)
{
    pare_pack_doubt doubt = cell_of(pack)->doubt;
    if (pack->group_ohm > 0)
        doubt.ohm_share_u = fmin(doubt.ohm_share_u, SHAPE_U);
    return doubt;
}

double pare_pack_steady(const pare_pack *pack, double time_s)
{
    return -expm1(-fmax(time_s, 0) / cell_of(pack)->slow_s);
}

double pare_pack_energy_j(const pare_pack *pack, double down_to)
{
    double volts_charge = 0, low = down_to > 0 ? down_to : 0, low_v;
    if (low >= 1)
        return 0;
    const pare_cell *cell = cell_of(pack);
    low_v = pare_cell_open_v(cell, low);
    for (int i = segment_of(low) + 1; i < PARE_PACK_KNOTS; i++) {
        const double high = pare_pack_knots[i], high_v = cell->open_v[i];
        volts_charge += (high - low) * (high_v + low_v) / 2;
        low = high;
        low_v = high_v;
    }
    return volts_charge * pack->cells * pack->capacity_c;
}

double pare_chemistry_landing_v(pare_chemistry kind)
{
    return shipped(kind)->landing_v;
}

double pare_chemistry_cutoff_v(pare_chemistry kind)
{
    return shipped(kind)->cutoff_v;
}

double pare_chemistry_full_v(pare_chemistry kind)
{
    return shipped(kind)->open_v[PARE_PACK_KNOTS - 1];
}

double pare_pack_most_w(double open_v, double ohm)
{
    return ohm > 0 ? open_v * open_v / (4 * ohm) : HUGE_VAL;
}

pare_status pare_pack_current(double open_v, double ohm, double power_w, double *current_a,
                              double *volts_v, pare_error *err)
{
    if (!(open_v > 0 && isfinite(open_v)))
        return pare_fail(err, PARE_BAD_DATA, "%g V: more than 0 V would be right", open_v);
    if (!(ohm >= 0 && isfinite(ohm)))
        return pare_fail(err, PARE_BAD_DATA, "%g ohm: 0 ohm or more would be right", ohm);
    if (!(power_w >= 0 && isfinite(power_w)))
        return pare_fail(err, PARE_BAD_DATA, "%g W: 0 W or more would be right", power_w);
    const double under_root_v2 = open_v * open_v - 4 * ohm * power_w;
    if (under_root_v2 < 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "%g W asked, %.6g W is the most it gives at %g V and %g ohm", power_w,
                         pare_pack_most_w(open_v, ohm), open_v, ohm);
    const double current = 2 * power_w / (open_v + sqrt(under_root_v2));
    *current_a = current;
    *volts_v = open_v - ohm * current;
    return PARE_OK;
}

static pare_status out_of_range(double value, const char *what, const char *right, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "%s is %g: %s would be right", what, value, right);
}

pare_status pare_pack_check(const pare_pack *pack, pare_error *err)
{
    if ((unsigned)pack->chemistry >= PARE_CHEMISTRIES)
        return pare_fail(err, PARE_BAD_DATA, "the pack's chemistry is number %d: 0 to %d are known",
                         (int)pack->chemistry, PARE_CHEMISTRIES - 1);
    if (!(pack->cells >= 1 && pack->cells <= 100))
        return out_of_range(pack->cells, "the pack's count of cells in series", "1 to 100", err);
    if (!(pack->capacity_c > 0 && pack->capacity_c <= 1e8))
        return out_of_range(pack->capacity_c / 3600, "the pack's capacity in Ah", "more than 0",
                            err);
    if (!(pack->temperature_degc >= -60 && pack->temperature_degc <= 100))
        return out_of_range(pack->temperature_degc, "the pack's temperature", "-60 to 100 degC",
                            err);
    if (!(pack->resistance_factor > 0 && pack->resistance_factor <= 1000))
        return out_of_range(pack->resistance_factor, "the factor on the pack's resistance",
                            "more than 0, to 1000", err);
    if (!(pack->group_ohm >= 0 && pack->group_ohm <= 100))
        return out_of_range(pack->group_ohm, "the resistance of a cell group", "0 to 100 ohm", err);
    if (!(pack->lead_ohm >= 0 && pack->lead_ohm <= 100))
        return out_of_range(pack->lead_ohm, "the resistance of the pack's leads", "0 to 100 ohm",
                            err);
    return PARE_OK;
}
