/* endure.c: how long a pack lasts, and the speed at which it goes farthest.
 *
 * Motors held at their volts and current draw more from the pack as its own volts fall, so that the
 * time is the capacity times the integral of d charge over current, from full down to landing. Landing
 * is the charge left, the cell volts under the landing load, or the cut-off volts under the highest
 * load, whichever comes first.
 *
 * The current is smooth between the knots of the open-circuit curve, but for the charge at which an
 * entry passes what full throttle gives and is held there. So we integrate from knot to knot, split at
 * those charges too, with two Gauss points each; 40 Simpson steps in place of two points move the time
 * by less than 1e-6 of it (the tests compare). Held at full throttle, an entry's rotor speed follows
 * the pack; its torque over speed squared is nearly constant there, so three rotor evaluations stand
 * for all.
 *
 * Best range is the least energy a metre at half charge. It has one minimum over speed: bracketed from
 * a guess by momentum theory, then narrowed by a cubic through four points, with each trim starting from the last.
 *
 * Read pare_endure_run() first. Sources: Gauss-Legendre, Abramowitz and Stegun 25.4.29; a bracket
 * narrowed by fitted curves, Brent, Algorithms for Minimization without Derivatives, ch. 5. */
#include <math.h>

#include "physics/aloft.h"
#include "physics/trim.h"

#define HALF_CHARGE 0.5

enum { ENTRIES_MOST = 16 };

/* Two points, of equal weight. */
static const double gauss_at[PARE_GAUSS] = {-0.577350269189625764, 0.577350269189625764};

/* One entry: motors held, or at full throttle in a flow. */
typedef struct held {
    double share;
    double motor_v, motor_a;
    pare_draw draw;
    double axial_m_s, inplane_m_s;
    double near_rad_s; /* the last rotor speed found, and the slope of what was left there */
    double near_slope;
    double degc;      /* steady winding */
    double full_from; /* at this charge and below it is held at full throttle; under 0: nowhere */
    /* full throttle: torque over speed squared by divided differences at three speeds, rising */
    double speed[2], torque[3];
} held;

typedef struct endure {
    pare_flight *flight;
    size_t count;
    held entry[ENTRIES_MOST];
    pare_draw landing_draw;
    double landing_cell_v;
} endure;

#define FULL_LEFT_V   1e-7
#define CUTOFF_LEFT_V 1e-9

static double torque_at(const held *entry, double speed)
{
    return speed * speed *
           (entry->torque[0] +
            (speed - entry->speed[0]) *
                (entry->torque[1] + (speed - entry->speed[1]) * entry->torque[2]));
}

/* Full throttle from the three speeds alone: pack volts less motor volts falls with speed, nearly
 * straight, so three or four secant steps from the last answer find it. */
static pare_given at_full(const endure *run, held *entry, pare_source source)
{
    const pare_flight *flight = run->flight;
    double speed = entry->near_rad_s, was = 0, was_left = 0;
    for (int i = 0; i < 40; i++) {
        double current, volts, ohm;
        pare_motor_run(&flight->steady, speed, torque_at(entry, speed), &current, &volts, &ohm);
        const double motors_a = flight->rotors * (current + flight->rig->esc.idle_a);
        const double b = source.open_v - source.ohm * motors_a;
        const double under_root_v2 = b * b - 4 * source.ohm * flight->rig->always_w;
        const double pack_v = b > 0 && under_root_v2 > 0 ? (b + sqrt(under_root_v2)) / 2 : b / 2;
        const double left = pack_v - volts;
        if (fabs(left) <= FULL_LEFT_V) {
            entry->near_rad_s = speed;
            return pack_v > 0 ? (pare_given){pack_v, motors_a + flight->rig->always_w / pack_v}
                              : (pare_given){0, 0};
        }
        const double slope = i == 0 ? entry->near_slope : (left - was_left) / (speed - was);
        entry->near_slope = slope;
        was = speed;
        was_left = left;
        speed = fmin(fmax(speed - left / slope, 0.5 * speed), 2 * speed);
    }
    return (pare_given){0, 0};
}

static inline pare_given given_to(const endure *run, held *entry, double charge, pare_source source)
{
    return charge <= entry->full_from ? at_full(run, entry, source)
                                      : pare_give(source, entry->draw);
}

/* ---- landing ---- */

typedef struct watch {
    const endure *run;
    const held *entry; /* NULL: the landing load */
} watch;

/* Cell volts under the landing load over those at which it lands. */
static double landing_left(void *context, double charge)
{
    const endure *run = context;
    const pare_flight *flight = run->flight;
    const pare_given given = pare_give(pare_source_at(flight, charge, 1), run->landing_draw);
    return given.pack_v / flight->pack.cells - run->landing_cell_v;
}

/* Cell volts of the hardest entry over the cut-off. */
static double cutoff_left(void *context, double charge)
{
    endure *run = context;
    const pare_flight *flight = run->flight;
    const pare_source source = pare_source_at(flight, charge, 1);
    double least_v = source.open_v;
    for (size_t i = 0; i < run->count; i++)
        least_v = fmin(least_v, given_to(run, &run->entry[i], charge, source).pack_v);
    return least_v / flight->pack.cells - flight->pack.cell->cutoff_v;
}

/* An entry's output short of full. A load that the pack cannot give counts as far past full. */
static double duty_left(void *context, double charge)
{
    const watch *w = context;
    const pare_flight *flight = w->run->flight;
    const pare_given given = pare_give(pare_source_at(flight, charge, 1), w->entry->draw);
    return given.pack_v - w->entry->motor_v;
}

/* The charge between low and 1 where a rising curve passes 0, or low where it is above 0 there
 * already. Goes up knot by knot, since the curve bends at each and landing is near the low end. */
static double passes(pare_curve curve, void *context, double low)
{
    double y = curve(context, low);
    if (y >= 0)
        return low;
    for (int i = 1; i < PARE_PACK_KNOTS; i++) {
        const double high = pare_pack_knots[i];
        if (high <= low)
            continue;
        const double high_y = curve(context, high);
        if (high_y >= 0)
            return pare_root(curve, context, low, y, high, high_y, 1e-10);
        low = high;
        y = high_y;
    }
    return 1;
}

/* ---- entries that ask for more than full throttle ---- */

/* Prepares full throttle for charges between low and 1. */
static pare_status prepare_full(const endure *run, held *entry, double low, pare_error *err)
{
    const pare_flight *flight = run->flight;
    pare_throttle full = {.flight = flight,
                          .law = &flight->steady,
                          .source = pare_source_at(flight, 1, 1),
                          .axial_m_s = entry->axial_m_s,
                          .inplane_m_s = entry->inplane_m_s};
    if (pare_throttle_find(&full, entry->near_rad_s, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double top = full.rotor.speed_rad_s;
    double current, volts, ohm;
    pare_motor_run(&flight->steady, top, full.rotor.torque_nm, &current, &volts, &ohm);
    const double top_degc = pare_motor_degc(&flight->steady, ohm);
    const double q_top = full.rotor.torque_nm / (top * top);
    full.source = pare_source_at(flight, low, 1);
    double bottom = 0.7 * top;
    if (pare_throttle_find(&full, 0.9 * top, NULL) == PARE_OK)
        bottom = fmin(full.rotor.speed_rad_s, 0.99 * top);
    const double middle = (bottom + top) / 2;
    pare_throttle_left(&full, bottom);
    const double q_bottom = full.rotor.torque_nm / (bottom * bottom);
    pare_throttle_left(&full, middle);
    const double q_middle = full.rotor.torque_nm / (middle * middle);
    const double rise = (q_middle - q_bottom) / (middle - bottom);
    entry->speed[0] = bottom;
    entry->speed[1] = middle;
    entry->torque[0] = q_bottom;
    entry->torque[1] = rise;
    entry->torque[2] = ((q_top - q_middle) / (top - middle) - rise) / (top - bottom);
    entry->near_rad_s = top;
    entry->near_slope = -2 * volts / top;
    entry->degc = fmax(entry->degc, top_degc);
    return PARE_OK;
}

static pare_status find_full(const endure *run, held *entry, double low, pare_error *err)
{
    watch w = {run, entry};
    if (entry->full_from >= 1)
        return prepare_full(run, entry, low, err);
    if (duty_left(&w, low) >= 0)
        return PARE_OK;
    if (duty_left(&w, 1) < 0)
        entry->full_from = 1;
    else
        entry->full_from = passes(duty_left, &w, low);
    return prepare_full(run, entry, low, err);
}

/* ---- the integral ---- */

/* d charge over mean current, and over that times the mean square. */
typedef struct sums {
    double per_a, square_a;
} sums;

static void add_point(endure *run, double charge, pare_source source, double half, sums *sum)
{
    double mean_a = 0, mean_a2 = 0;
    for (size_t e = 0; e < run->count; e++) {
        held *entry = &run->entry[e];
        const double pack_a = given_to(run, entry, charge, source).pack_a;
        mean_a += entry->share * pack_a;
        mean_a2 += entry->share * pack_a * pack_a;
    }
    const double per_a = half / mean_a;
    sum->per_a += per_a;
    sum->square_a += per_a * mean_a2;
}

static void know_sources(pare_flight *flight, int from)
{
    while (flight->sources_from > from) {
        const int knot = --flight->sources_from;
        const double low = pare_pack_knots[knot], high = pare_pack_knots[knot + 1];
        const double middle = (low + high) / 2, half = high - middle;
        for (int k = 0; k < PARE_GAUSS; k++)
            flight->between[knot][k] = pare_source_at(flight, middle + half * gauss_at[k], 1);
    }
}

/* From knot to knot, where all flights of a rig share the points. */
static void add_whole(endure *run, int knot, sums *sum)
{
    const double low = pare_pack_knots[knot], high = pare_pack_knots[knot + 1];
    const double middle = (low + high) / 2, half = high - middle;
    know_sources(run->flight, knot);
    for (int k = 0; k < PARE_GAUSS; k++)
        add_point(run, middle + half * gauss_at[k], run->flight->between[knot][k], half, sum);
}

static void add_part(endure *run, double low, double high, sums *sum)
{
    const double middle = (low + high) / 2, half = high - middle;
    for (int k = 0; k < PARE_GAUSS; k++) {
        const double charge = middle + half * gauss_at[k];
        add_point(run, charge, pare_source_at(run->flight, charge, 1), half, sum);
    }
}

/* The least charge over low, up to high, at which an entry begins to be held at full throttle. */
static double next_break(const endure *run, double low, double high)
{
    for (size_t i = 0; i < run->count; i++)
        if (run->entry[i].full_from > low && run->entry[i].full_from < high)
            high = run->entry[i].full_from;
    return high;
}

static pare_status integrate(endure *run, double end, pare_endurance *result, pare_error *err)
{
    const pare_flight *flight = run->flight;
    sums sum = {0, 0};
    for (int knot = 0; knot + 1 < PARE_PACK_KNOTS; knot++) {
        const double high = pare_pack_knots[knot + 1];
        double low = fmax(pare_pack_knots[knot], end);
        if (low >= high)
            continue;
        if (low == pare_pack_knots[knot] && next_break(run, low, high) == high) {
            add_whole(run, knot, &sum);
            continue;
        }
        while (low < high) {
            const double to = next_break(run, low, high);
            add_part(run, low, to, &sum);
            low = to;
        }
    }
    const double per_a = sum.per_a;
    const double capacity_c = flight->rig->pack.capacity_c;
    if (!(isfinite(per_a) && per_a > 0))
        return pare_fail(err, PARE_BAD_DATA,
                         "the flight draws no current: a craft that flies draws "
                         "more than 0 A");
    *result = (pare_endurance){.time_s = capacity_c * per_a,
                               .charge_end = end,
                               .mean_a = (1 - end) / per_a,
                               .rms_a = sqrt(sum.square_a / per_a)};
    return PARE_OK;
}

/* Heat goes with the square of a motor's current. */
static double motor_rms_a(endure *run)
{
    const pare_flight *flight = run->flight;
    const pare_source source = pare_source_at(flight, HALF_CHARGE, 1);
    double square = 0;
    for (size_t i = 0; i < run->count; i++) {
        held *entry = &run->entry[i];
        double motor_a = entry->motor_a;
        if (HALF_CHARGE <= entry->full_from) {
            const pare_given full = at_full(run, entry, source);
            motor_a = (full.pack_a - flight->rig->always_w / full.pack_v) / flight->rotors -
                      flight->rig->esc.idle_a;
        }
        square += entry->share * motor_a * motor_a;
    }
    return sqrt(square);
}

static pare_status pare_endure_run(endure *run, const pare_landing *landing, pare_endurance *result,
                                   pare_error *err)
{
    const pare_flight *flight = run->flight;
    run->landing_cell_v = landing->cell_v;
    const double fresh_v = landing_left(run, 1) + landing->cell_v;
    if (fresh_v <= landing->cell_v)
        return pare_fail(err, PARE_BAD_DATA,
                         "under load a full pack gives %.3g V a cell, and it lands at %.3g V: no "
                         "flight is left between",
                         fresh_v, landing->cell_v);
    bool full = false;
    double winding_degc = flight->rig->motor.ambient_degc;
    double end = passes(landing_left, run, landing->charge);
    for (size_t i = 0; i < run->count; i++)
        if (find_full(run, &run->entry[i], end, err) != PARE_OK)
            return PARE_BAD_DATA;
    const double hardest_v = cutoff_left(run, 1);
    if (hardest_v <= 0)
        return pare_fail(
            err, PARE_BAD_DATA,
            "at its hardest a full pack gives %.3g V a cell, and %.3g V is the cut-off",
            hardest_v + flight->pack.cell->cutoff_v, flight->pack.cell->cutoff_v);
    end = passes(cutoff_left, run, end);
    if (integrate(run, end, result, err) != PARE_OK)
        return PARE_BAD_DATA;
    for (size_t i = 0; i < run->count; i++) {
        full = full || run->entry[i].full_from > end;
        winding_degc = fmax(winding_degc, run->entry[i].degc);
    }
    /* Landed by the cut-off it is at it, whatever a root leaves. */
    const double over_v = cutoff_left(run, end);
    result->least_cell_v =
        flight->pack.cell->cutoff_v + (fabs(over_v) > CUTOFF_LEFT_V ? over_v : 0);
    result->motor_rms_a = motor_rms_a(run);
    result->winding_degc = winding_degc;
    result->by_voltage = end > landing->charge;
    result->full_throttle = full;
    return PARE_OK;
}

/* ---- what callers ask ---- */

static void hold(const pare_flight *flight, const pare_rotor_state *rotor, held *entry)
{
    double ohm;
    pare_motor_run(&flight->steady, rotor->speed_rad_s, rotor->torque_nm, &entry->motor_a,
                   &entry->motor_v, &ohm);
    entry->draw = pare_draw_of(flight, rotor->speed_rad_s, entry->motor_v, entry->motor_a);
    const double output = entry->motor_v / pare_pack_law_open_v(&flight->pack, HALF_CHARGE);
    entry->degc = pare_motor_degc(&flight->steady, ohm) +
                  flight->steady.k_per_w * pare_motor_pulse_w(&flight->steady, rotor->speed_rad_s) *
                      fmax(1 - output, 0);
    entry->near_rad_s = rotor->speed_rad_s;
    entry->full_from = -1;
}

static pare_status check_landing(const pare_landing *landing, pare_error *err)
{
    if (!(landing->cell_v > 0 && landing->cell_v <= 10))
        return pare_fail(err, PARE_BAD_DATA,
                         "landing at %g V a cell: more than 0, to 10 V, would be right",
                         landing->cell_v);
    if (!(landing->charge >= 0 && landing->charge < 1))
        return pare_fail(err, PARE_BAD_DATA,
                         "landing with a charge of %g left: 0 to less than 1 would be right",
                         landing->charge);
    return PARE_OK;
}

static pare_status check_entries(size_t count, const pare_flown entries[], pare_error *err)
{
    double whole = 0;
    if (count < 1 || count > ENTRIES_MOST)
        return pare_fail(err, PARE_BAD_DATA, "%zu ways of flying: 1 to %d would be right", count,
                         ENTRIES_MOST);
    for (size_t i = 0; i < count; i++) {
        const pare_flown *e = &entries[i];
        if (!(e->share >= 0 && e->share <= 1))
            return pare_fail(err, PARE_BAD_DATA,
                             "share %zu of the flight is %g: 0 to 1 would be right", i + 1,
                             e->share);
        whole += e->share;
        const bool fits =
            e->as == PARE_FLOWN_FULL ||
            (e->as == PARE_FLOWN_SPEED && e->level >= 0 && e->level <= PARE_SPEED_MOST) ||
            (e->as == PARE_FLOWN_THRUST && e->level > 0 && e->level <= 1000);
        if (!fits)
            return pare_fail(err, PARE_BAD_DATA,
                             "way of flying %zu is at %g: a speed of 0 to %d m/s or a thrust of "
                             "more than 0, to 1000 weights, would be right",
                             i + 1, e->level, PARE_SPEED_MOST);
    }
    if (fabs(whole - 1) > 1e-6)
        return pare_fail(err, PARE_BAD_DATA,
                         "the shares of the flight sum to %.6g: they must sum to 1", whole);
    return PARE_OK;
}

/* The hover that a craft lands from; it must exist on a full pack. */
static pare_status hover_load(const pare_flight *flight, const pare_rotor_state *hover, held *load,
                              pare_error *err)
{
    hold(flight, hover, load);
    if (pare_load_on(flight, pare_source_at(flight, 1, 1), hover->speed_rad_s, load->motor_v,
                     load->motor_a)
            .exists)
        return PARE_OK;
    return pare_too_much(flight, 1, 1, err);
}

/* How fast the rotors turn in it, before anything is held at full throttle. */
static void note_speed(const pare_flown *entry, double speed_rad_s, double *most_share,
                       pare_endurance *rotors)
{
    rotors->slow_rad_s =
        rotors->slow_rad_s > 0 ? fmin(rotors->slow_rad_s, speed_rad_s) : speed_rad_s;
    rotors->fast_rad_s = fmax(rotors->fast_rad_s, speed_rad_s);
    if (entry->as == PARE_FLOWN_SPEED && entry->share > *most_share) {
        *most_share = entry->share;
        rotors->cruise_rad_s = speed_rad_s;
    }
}

pare_status pare_flight_endure(pare_flight *flight, size_t count, const pare_flown entries[],
                               const pare_landing *landing, pare_endurance *result, pare_error *err)
{
    pare_rotor_state hovering;
    pare_trim trim;
    held hover = {0};
    if (check_landing(landing, err) != PARE_OK || check_entries(count, entries, err) != PARE_OK ||
        pare_hover(flight, &hovering, err) != PARE_OK)
        return PARE_BAD_DATA;
    pare_trim_begin(flight, &hovering, &trim);
    if (hover_load(flight, &hovering, &hover, err) != PARE_OK)
        return PARE_BAD_DATA;
    endure run = {.flight = flight, .count = count, .landing_draw = hover.draw};
    pare_endurance rotors = {0};
    double most_share = 0;
    for (size_t i = 0; i < count; i++) {
        held *entry = &run.entry[i];
        pare_rotor_state rotor = hovering;
        *entry = (held){0};
        if (entries[i].as == PARE_FLOWN_FULL) {
            *entry = (held){.full_from = 1};
        } else if (entries[i].as == PARE_FLOWN_SPEED) {
            const double v = entries[i].level;
            if (pare_trim_at(&trim, v, PARE_LEFT_MOST, err) != PARE_OK)
                return PARE_BAD_DATA;
            hold(flight, &trim.rotor, entry);
            entry->axial_m_s = v * sin(trim.tilt_rad);
            entry->inplane_m_s = v * cos(trim.tilt_rad);
        } else {
            if (entries[i].level != 1 &&
                pare_hold(flight, entries[i].level, hovering.speed_rad_s * sqrt(entries[i].level),
                          &rotor, err) != PARE_OK)
                return PARE_BAD_DATA;
            hold(flight, &rotor, entry);
        }
        entry->share = entries[i].share;
        if (entries[i].as != PARE_FLOWN_FULL)
            note_speed(&entries[i], entry->near_rad_s, &most_share, &rotors);
    }
    if (pare_endure_run(&run, landing, result, err) != PARE_OK)
        return PARE_BAD_DATA;
    result->slow_rad_s = rotors.slow_rad_s;
    result->fast_rad_s = rotors.fast_rad_s;
    result->cruise_rad_s = rotors.cruise_rad_s;
    return PARE_OK;
}

pare_status pare_rig_endure(const pare_rig *rig, size_t count, const pare_flown entries[],
                            const pare_landing *landing, pare_endurance *result, pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    return pare_flight_endure(&flight, count, entries, landing, result, err);
}

/* ---- best range ---- */

#define CRUISE_LEFT   1e-7 /* of the balances, while a speed is only looked at */
#define RANGE_CHARGE  0.5
#define RANGE_SLOWEST 1.0 /* m/s */
#define RANGE_FASTEST 120.0
#define RANGE_STEP    0.12 /* of ln speed, to bracket the minimum */
#define RANGE_ENOUGH  5e-4 /* last step in ln speed; a cubic's own error is far less */

typedef struct cruise {
    pare_trim trim;
    pare_source source;
} cruise;

/* Joule a metre at a speed; infinite where there is no such point. */
static double cruise_j_per_m(cruise *c, double ln_speed)
{
    const pare_flight *flight = c->trim.flight;
    const double v = exp(ln_speed);
    double current, volts, ohm;
    if (pare_trim_at(&c->trim, v, CRUISE_LEFT, NULL) != PARE_OK)
        return HUGE_VAL;
    pare_motor_run(&flight->steady, c->trim.rotor.speed_rad_s, c->trim.rotor.torque_nm, &current,
                   &volts, &ohm);
    const pare_load load =
        pare_load_on(flight, c->source, c->trim.rotor.speed_rad_s, volts, current);
    return load.exists ? load.pack_v * load.pack_a / v : HUGE_VAL;
}

/* Momentum theory: W^2/(2 rho A v) to lift, rho CdA v^3/2 to drag along, and what the blades' profile
 * and the electronics draw. Energy a metre has its minimum where 2 c2 v^4 - c3 v - 2 c1 = 0. */
static double cruise_guess(const pare_flight *flight, const pare_rotor_state *hover)
{
    const pare_rig *rig = flight->rig;
    const double diameter = rig->rotor.prop->diameter_m, rho = rig->air.density_kg_m3;
    const double disc_m2 = flight->rotors * 0.78539816339744831 * diameter * diameter;
    const double lift = flight->weight_n * flight->weight_n / (2 * rho * disc_m2);
    const double drag = 0.5 * rho * fmax(rig->drag_m2, 1e-4);
    const double shaft = flight->rotors * hover->torque_nm * hover->speed_rad_s;
    const double ideal = flight->rotors * pare_rotor_ideal_hover_w(hover->thrust_n, diameter, rho);
    const double rest = fmax(shaft - ideal, 0) + rig->always_w;
    double v = sqrt(sqrt(lift / drag)) + cbrt(rest / (2 * drag));
    for (int i = 0; i < 8; i++)
        v -= (2 * drag * v * v * v * v - rest * v - 2 * lift) / (8 * drag * v * v * v - rest);
    return v > 2 && v < 60 ? v : 12;
}

static double bottom_of_parabola(const double x[3], const double y[3])
{
    const double left = x[1] - x[0], right = x[2] - x[1];
    const double down = (y[0] - y[1]) / left, up = (y[2] - y[1]) / right;
    return x[1] + 0.5 * (down * right - up * left) / (down + up);
}

/* Through a fourth point as well, by divided differences from the middle one: with t from there,
 * y = y1 + t (b + c (t - l) + d (t - l) (t - r)), and of its two level points the bottom. */
static double bottom_of_cubic(const double x[3], const double y[3], double other_x, double other_y)
{
    const double l = x[0] - x[1], r = x[2] - x[1], o = other_x - x[1];
    const double to_l = (y[0] - y[1]) / l, to_r = (y[2] - y[1]) / r, to_o = (other_y - y[1]) / o;
    const double c = (to_r - to_l) / (r - l);
    const double d = ((to_o - to_l) / (o - l) - c) / (o - r);
    const double b0 = to_l - c * l + d * l * r; /* slope at the middle */
    const double c0 = 2 * (c - d * (l + r)), d0 = 3 * d;
    return x[1] - 2 * b0 / (c0 + sqrt(fmax(c0 * c0 - 4 * d0 * b0, 0)));
}

static pare_status best_speed(cruise *c, const pare_rotor_state *hover, double *speed_m_s,
                              pare_error *err)
{
    const double least = log(RANGE_SLOWEST), most = log(RANGE_FASTEST);
    double x[3], y[3];
    x[1] = log(cruise_guess(c->trim.flight, hover));
    x[0] = x[1] - RANGE_STEP;
    x[2] = x[1] + RANGE_STEP;
    for (int i = 0; i < 3; i++)
        y[i] = cruise_j_per_m(c, x[i]);
    /* walk down until the middle is lowest; where no point exists it is too fast */
    for (int i = 0; i < 60 && !(y[1] <= y[0] && y[1] <= y[2] && isfinite(y[1])); i++) {
        if (y[0] < y[2] || !isfinite(y[1])) {
            x[2] = x[1], y[2] = y[1], x[1] = x[0], y[1] = y[0];
            x[0] = x[1] - RANGE_STEP;
            y[0] = x[0] >= least ? cruise_j_per_m(c, x[0]) : HUGE_VAL;
        } else {
            x[0] = x[1], y[0] = y[1], x[1] = x[2], y[1] = y[2];
            x[2] = x[1] + RANGE_STEP;
            y[2] = x[2] <= most ? cruise_j_per_m(c, x[2]) : HUGE_VAL;
        }
    }
    if (!isfinite(y[1]))
        return pare_fail(err, PARE_BAD_DATA,
                         "no level flight from %g to %g m/s at half charge: there is no best-range "
                         "speed",
                         RANGE_SLOWEST, RANGE_FASTEST);
    double spare_x = x[1], spare_y = y[1];
    bool four = false;
    for (int i = 1; i <= 40 && x[2] - x[0] > RANGE_ENOUGH; i++) {
        const double left = x[1] - x[0], right = x[2] - x[1];
        double to = four ? bottom_of_cubic(x, y, spare_x, spare_y) : bottom_of_parabola(x, y);
        const bool inside = to > x[0] && to < x[2];
        if (inside && four && fabs(to - x[1]) <= RANGE_ENOUGH) {
            x[1] = to;
            break;
        }
        /* where the shape misleads, cut the longer side */
        if (!inside || to == x[1] || i % 6 == 0)
            to = left > right ? x[1] - 0.381966 * left : x[1] + 0.381966 * right;
        const double at = cruise_j_per_m(c, to);
        const int side = to < x[1] ? 0 : 2;
        four = isfinite(at);
        if (at <= y[1]) {
            spare_x = x[2 - side], spare_y = y[2 - side];
            x[2 - side] = x[1], y[2 - side] = y[1];
            x[1] = to, y[1] = at;
        } else {
            spare_x = x[side], spare_y = y[side];
            x[side] = to, y[side] = at;
        }
        four = four && isfinite(spare_y);
    }
    *speed_m_s = exp(x[1]);
    return PARE_OK;
}

pare_status pare_flight_best_range(pare_flight *flight, const pare_landing *landing,
                                   pare_best_range *result, pare_error *err)
{
    cruise c;
    held hover = {0};
    pare_endurance endurance;
    double speed = 0;
    pare_rotor_state hovering;
    if (check_landing(landing, err) != PARE_OK || pare_hover(flight, &hovering, err) != PARE_OK)
        return PARE_BAD_DATA;
    pare_trim_begin(flight, &hovering, &c.trim);
    if (hover_load(flight, &hovering, &hover, err) != PARE_OK)
        return PARE_BAD_DATA;
    c.source = pare_source_at(flight, RANGE_CHARGE, 1);
    if (best_speed(&c, &hovering, &speed, err) != PARE_OK ||
        pare_trim_at(&c.trim, speed, PARE_LEFT_MOST, err) != PARE_OK)
        return PARE_BAD_DATA;
    endure run = {.flight = flight, .count = 1};
    hold(flight, &c.trim.rotor, &run.entry[0]);
    run.entry[0].share = 1;
    run.entry[0].axial_m_s = speed * sin(c.trim.tilt_rad);
    run.entry[0].inplane_m_s = speed * cos(c.trim.tilt_rad);
    run.landing_draw = run.entry[0].draw;
    if (pare_endure_run(&run, landing, &endurance, err) != PARE_OK)
        return PARE_BAD_DATA;
    *result = (pare_best_range){.speed_m_s = speed,
                                .range_m = speed * endurance.time_s,
                                .time_s = endurance.time_s,
                                .charge_end = endurance.charge_end};
    return PARE_OK;
}

pare_status pare_rig_best_range(const pare_rig *rig, const pare_landing *landing,
                                pare_best_range *result, pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    return pare_flight_best_range(&flight, landing, result, err);
}
