/* doubt_flight.c: how far each figure of flight moves with each number that it rests on (see
 * doubt_flight.h).
 *
 * A flight is most of a sheet, so each one has to earn its keep. Numbers that act alike share one:
 * what the ESC's switches resist is added to the windings, what leads and contacts resist to the
 * pack, what the arms take back is thrust, an ESC that waits is electronics, its pulses an
 * unloaded motor; inertias, arms and
 * capacity act by plain proportion. The rest is flown, each number over the figures that it reaches:
 * electronics draw too little to be felt at full throttle, and a held motor is too cool for its cooling
 * to matter.
 *
 * Thrust and power of the propellers carry most of the doubt and bend what they move, and drag, known to a
 * third, bends what is flown fast: these are flown up and down by one standard uncertainty, so that a bend
 * within it is averaged. Everything else is a small step up, in the number's logarithm, where time, speed
 * and current are nearly straight:
 * what that leaves is far below what the doubt itself is known to (tests/unit/doubt.c compares with
 * flights of all numbers drawn together). */
#include "craft/doubt_flight.h"

#include <math.h>

#include "craft/flight.h"
#include "craft/warmth.h"

#define RPM_PER_RAD_S 9.549296585513721

#define STEP 0.01 /* of a number that is flown one way only */
enum {
    HELD = PARE_FLY_HOVER | PARE_FLY_HOVER_TIME | PARE_FLY_MINUTES | PARE_FLY_RANGE,
    QUICK = PARE_FLY_FULL | PARE_FLY_BURST | PARE_FLY_QUICKNESS | PARE_FLY_TURN | PARE_FLY_CLIMB |
            PARE_FLY_TOP_SPEED,
    FLIGHT = HELD | QUICK,
    ALOFT = PARE_FLY_MINUTES | PARE_FLY_RANGE | PARE_FLY_BURST | PARE_FLY_TURN | PARE_FLY_CLIMB |
            PARE_FLY_TOP_SPEED
};

/* What is flown of each number, and how far both ways, in standard uncertainties; 0: one way, a little.
 * Three points at 0 and +-h, weighing 1 / (2 h^2) outside, have the mean, the variance and the skewness of
 * a normal deviate; with h^2 = 3 (Gauss and Hermite's) its kurtosis too, so that a bend counts in full;
 * with 1.5 a cliff does, behind which the minutes of a hard flight end where the pack's resistance is
 * far greater than thought. */
static const struct {
    unsigned groups;
    double far;
} flown[PARE_DOUBTED_FLOWN] = {
    [PARE_DOUBTED_MASS] = {FLIGHT, 0},
    [PARE_DOUBTED_THRUST] = {FLIGHT, 1.7320508075688773},
    [PARE_DOUBTED_POWER] = {FLIGHT, 1.7320508075688773},
    [PARE_DOUBTED_KV] = {FLIGHT, 0},
    [PARE_DOUBTED_RESISTANCE] = {FLIGHT, 0},
    [PARE_DOUBTED_NO_LOAD] = {FLIGHT, 0},
    [PARE_DOUBTED_COOLING] = {QUICK | PARE_FLY_MINUTES, 0},
    [PARE_DOUBTED_PACK_OHM] = {FLIGHT, 1.2247448713915890},
    [PARE_DOUBTED_DRAG] = {ALOFT, 1.7320508075688773},
    [PARE_DOUBTED_ALWAYS] = {HELD, 0},
    [PARE_DOUBTED_CELL_V] = {FLIGHT | PARE_FLY_GROUND, 0},
    [PARE_DOUBTED_SWITCHING] = {HELD, 0},
    [PARE_DOUBTED_SPIN] = {PARE_FLY_BURST, 0},
};

const pare_doubted pare_doubted_of_pair[PARE_PAIR_NUMBERS] = {
    [PARE_PAIR_THRUST] = PARE_DOUBTED_THRUST,   [PARE_PAIR_POWER] = PARE_DOUBTED_POWER,
    [PARE_PAIR_KV] = PARE_DOUBTED_KV,           [PARE_PAIR_RESISTANCE] = PARE_DOUBTED_RESISTANCE,
    [PARE_PAIR_NO_LOAD] = PARE_DOUBTED_NO_LOAD,
};

static double idle_w(const pare_rig *rig)
{
    return rig->rotors * rig->esc.idle_a * pare_pack_open_v(&rig->pack, PARE_CHARGE_HALF);
}

/* Numbers that are moved by a factor; NULL for those that are not. */
static double *number(pare_rig *rig, pare_doubted which)
{
    switch (which) {
    case PARE_DOUBTED_MASS:
        return &rig->mass_kg;
    case PARE_DOUBTED_THRUST:
        return &rig->rotor.thrust_factor;
    case PARE_DOUBTED_POWER:
        return &rig->rotor.power_factor;
    case PARE_DOUBTED_KV:
        return &rig->motor.kv_rpm_per_v;
    case PARE_DOUBTED_RESISTANCE:
        return &rig->motor.resistance_ohm;
    case PARE_DOUBTED_NO_LOAD:
        return &rig->motor.no_load_a;
    case PARE_DOUBTED_COOLING:
        return &rig->motor.mass_kg;
    case PARE_DOUBTED_PACK_OHM:
        return rig->pack.group_ohm > 0 ? &rig->pack.group_ohm : &rig->pack.resistance_factor;
    case PARE_DOUBTED_SWITCHING:
        return &rig->esc.switching;
    case PARE_DOUBTED_SPIN:
        return &rig->spin_kg_m2;
    case PARE_DOUBTED_IXX:
        return &rig->inertia_xx_kg_m2;
    case PARE_DOUBTED_IYY:
        return &rig->inertia_yy_kg_m2;
    case PARE_DOUBTED_IZZ:
        return &rig->inertia_zz_kg_m2;
    case PARE_DOUBTED_SUM_X:
        return &rig->sum_x_m;
    case PARE_DOUBTED_SUM_Y:
        return &rig->sum_y_m;
    case PARE_DOUBTED_CAPACITY:
        return &rig->pack.capacity_c;
    case PARE_DOUBTED_LEAD:
        return &rig->pack.lead_ohm;
    case PARE_DOUBTED_BLOCKAGE:
        return &rig->blockage;
    case PARE_DOUBTED_ESC_OHM:
        return &rig->esc.on_ohm;
    case PARE_DOUBTED_ESC_IDLE:
        return &rig->esc.idle_a;
    case PARE_DOUBTED_PULSE:
        return &rig->motor.pulse_loss;
    case PARE_DOUBTED_CELL_V:
    case PARE_DOUBTED_DRAG:
    case PARE_DOUBTED_ALWAYS:
    case PARE_DOUBTED:
        break;
    }
    return NULL;
}

/* A full pack is what the charger made it, and an empty one has no volts to speak of. */
static void move_cells(pare_moved_rig *moved, double by_v)
{
    pare_pack *pack = &moved->rig.pack;
    if (pack->cell != &moved->cell) {
        moved->cell = pack->cell ? *pack->cell : pare_cells_fitted[pack->chemistry];
        pack->cell = &moved->cell;
    }
    for (int i = 1; i < PARE_PACK_KNOTS - 1; i++)
        moved->cell.open_v[i] += by_v;
}

void pare_doubted_move(pare_moved_rig *moved, pare_doubted which, double change)
{
    pare_rig *rig = &moved->rig;
    double *factor = number(rig, which);
    if (which == PARE_DOUBTED_CELL_V) {
        move_cells(moved, change);
    } else if (which == PARE_DOUBTED_ALWAYS) {
        rig->always_w = fmax(rig->always_w + change * (rig->always_w + idle_w(rig)), 0);
    } else if (which == PARE_DOUBTED_DRAG) {
        rig->drag_m2 *= exp(change);
        rig->drag_top_m2 *= exp(change);
    } else if (which == PARE_DOUBTED_SWITCHING || which == PARE_DOUBTED_ESC_IDLE) {
        *factor *= fmax(1 + change, 0);
    } else {
        *factor *= exp(change);
    }
}

static void fly(const pare_brief *brief, const pare_sheet *sheet, pare_doubted which, double change,
                pare_sheet_figure figure[PARE_FIGURES])
{
    pare_moved_rig moved = {.rig = sheet->rig};
    const unsigned groups = flown[which].groups & sheet->flown;
    pare_endurance endured;
    for (int f = 0; f < PARE_FIGURES; f++)
        figure[f].exists = false;
    pare_doubted_move(&moved, which, change);
    if (groups)
        pare_flight_some(brief, &moved.rig, groups, figure, &endured);
}

bool pare_log_normal(const pare_sheet *sheet, int figure, double *begins)
{
    *begins = figure == PARE_WINDING ? sheet->rig.air.temperature_degc
                                     : pare_pack_begins_degc(&sheet->rig);
    return (figure == PARE_WINDING || figure == PARE_PACK_WARMTH) &&
           sheet->figure[figure].value > *begins;
}

/* By how much a figure is off, straight in what moves it. */
static double off_by(const pare_sheet *sheet, int figure, double value)
{
    double begins;
    const double here = sheet->figure[figure].value;
    if (!pare_log_normal(sheet, figure, &begins))
        return value - here;
    return (here - begins) * log(fmax(value - begins, 1e-9) / (here - begins));
}

/* Where one side has no figure, the slope of the other stands for both. */
static void find_slope(const pare_brief *brief, const pare_sheet *sheet, pare_doubted which,
                       double u, double slope[PARE_FIGURES], double bend[PARE_FIGURES])
{
    pare_sheet_figure high[PARE_FIGURES], low[PARE_FIGURES];
    const double far = flown[which].far;
    const bool both = far > 0 && u > 0;
    const double step = both ? far * u : STEP;
    fly(brief, sheet, which, step, high);
    if (both)
        fly(brief, sheet, which, -step, low);
    for (int f = 0; f < PARE_FIGURES; f++) {
        const bool up = high[f].exists, down = both && low[f].exists;
        if (!sheet->figure[f].exists || !(up || down))
            continue;
        const double rise = up ? off_by(sheet, f, high[f].value) : 0;
        const double fall = down ? off_by(sheet, f, low[f].value) : 0;
        slope[f] = (rise - fall) / (up && down ? 2 * step : step);
        bend[f] = up && down ? (rise + fall) * sqrt(1 - 1 / (far * far)) / (2 * far) : 0;
    }
}

/* One number acts as another does, so many times as much. */
static void alike(pare_slopes *slopes, pare_doubted which, pare_doubted as, double times)
{
    for (int f = 0; f < PARE_FIGURES; f++)
        slopes->slope[which][f] = times * slopes->slope[as][f];
}

/* Quickness goes with the arms over the inertia, the rotors' lag with their own. */
static void turning(const pare_sheet *sheet, pare_slopes *slopes)
{
    const pare_sheet_figure *figure = sheet->figure;
    slopes->slope[PARE_DOUBTED_IXX][PARE_ROLL] = -figure[PARE_ROLL].value;
    slopes->slope[PARE_DOUBTED_IYY][PARE_PITCH] = -figure[PARE_PITCH].value;
    slopes->slope[PARE_DOUBTED_IZZ][PARE_YAW] = -figure[PARE_YAW].value;
    slopes->slope[PARE_DOUBTED_SUM_Y][PARE_ROLL] = figure[PARE_ROLL].value;
    slopes->slope[PARE_DOUBTED_SUM_X][PARE_PITCH] = figure[PARE_PITCH].value;
    slopes->slope[PARE_DOUBTED_SPIN][PARE_ROTOR_LAG] = figure[PARE_ROTOR_LAG].value;
}

/* Time goes with capacity, and so does the resistance by the law, which has it per ampere-hour. */
static void capacity(const pare_sheet *sheet, pare_slopes *slopes)
{
    static const pare_figure these[] = {PARE_HOVER_TIME, PARE_CRUISE_TIME, PARE_FLOWN_TIME,
                                        PARE_BEST_RANGE, PARE_PACK_ENERGY};
    if (!(sheet->rig.pack.group_ohm > 0))
        alike(slopes, PARE_DOUBTED_CAPACITY, PARE_DOUBTED_PACK_OHM, -1);
    for (size_t i = 0; i < sizeof these / sizeof these[0]; i++)
        slopes->slope[PARE_DOUBTED_CAPACITY][these[i]] += sheet->figure[these[i]].value;
    slopes->slope[PARE_DOUBTED_CAPACITY][PARE_PACK_WARMTH] +=
        sheet->figure[PARE_PACK_WARMTH].value - pare_pack_begins_degc(&sheet->rig);
}

/* Over a pack's own resistance, all of it when held and the quick part of it at full throttle. A lead's
 * own heat is not the pack's. */
static void lead(const pare_sheet *sheet, pare_slopes *slopes)
{
    const pare_rig *rig = &sheet->rig;
    const pare_pack *pack = &rig->pack;
    const double all = pare_pack_ohm(pack, PARE_CHARGE_HALF, 1) - pack->lead_ohm;
    const double quick = pare_pack_ohm(pack, PARE_CHARGE_HALF, 0) - pack->lead_ohm;
    for (int f = 0; f < PARE_FIGURES; f++) {
        const bool held = f <= PARE_BEST_RANGE_SPEED;
        slopes->slope[PARE_DOUBTED_LEAD][f] =
            slopes->slope[PARE_DOUBTED_PACK_OHM][f] * pack->lead_ohm / (held ? all : quick);
    }
    slopes->slope[PARE_DOUBTED_LEAD][PARE_PACK_WARMTH] -=
        (sheet->figure[PARE_PACK_WARMTH].value - pare_pack_begins_degc(rig)) * pack->lead_ohm / all;
}

/* The pulses' loss is so much of what the motor takes unloaded, at hover; at full throttle there is
 * none. */
static void pulses(const pare_sheet *sheet, pare_slopes *slopes)
{
    const pare_motor *motor = &sheet->rig.motor;
    const double rad_s_per_v = motor->kv_rpm_per_v / RPM_PER_RAD_S;
    const double free_rad_s =
        (motor->no_load_at_v - motor->no_load_a * motor->resistance_ohm) * rad_s_per_v;
    const double turning = 1 - motor->iron_share +
                           motor->iron_share * sheet->figure[PARE_HOVER_RPM].value / free_rad_s;
    const double pulsed = motor->pulse_loss * (1 - sheet->figure[PARE_HOVER_OUTPUT].value);
    for (int f = PARE_HOVER_OUTPUT; f <= PARE_BEST_RANGE_SPEED; f++)
        slopes->slope[PARE_DOUBTED_PULSE][f] =
            slopes->slope[PARE_DOUBTED_NO_LOAD][f] * pulsed / (turning + pulsed);
}

static void by_rule(const pare_sheet *sheet, pare_slopes *slopes)
{
    const pare_rig *rig = &sheet->rig;
    slopes->slope[PARE_DOUBTED_MASS][PARE_CRASH] = sheet->figure[PARE_CRASH].value;
    slopes->slope[PARE_DOUBTED_DRAG][PARE_GUST] =
        0.5 * rig->air.density_kg_m3 * PARE_GUST_M_S * PARE_GUST_M_S * rig->drag_m2 / rig->mass_kg;
    turning(sheet, slopes);
    capacity(sheet, slopes);
    lead(sheet, slopes);
    pulses(sheet, slopes);
    alike(slopes, PARE_DOUBTED_BLOCKAGE, PARE_DOUBTED_THRUST, -rig->blockage / (1 - rig->blockage));
    alike(slopes, PARE_DOUBTED_ESC_OHM, PARE_DOUBTED_RESISTANCE,
          rig->esc.on_ohm / rig->motor.resistance_ohm);
    alike(slopes, PARE_DOUBTED_ESC_IDLE, PARE_DOUBTED_ALWAYS,
          idle_w(rig) > 0 ? idle_w(rig) / (rig->always_w + idle_w(rig)) : 0);
}

/* Whether the slope of a number is asked for, by itself or by one that acts like it. */
static bool asked_for(const double u[PARE_DOUBTED], int which)
{
    static const struct {
        pare_doubted acts, as;
    } likes[] = {{PARE_DOUBTED_BLOCKAGE, PARE_DOUBTED_THRUST},
                 {PARE_DOUBTED_ESC_OHM, PARE_DOUBTED_RESISTANCE},
                 {PARE_DOUBTED_LEAD, PARE_DOUBTED_PACK_OHM},
                 {PARE_DOUBTED_CAPACITY, PARE_DOUBTED_PACK_OHM},
                 {PARE_DOUBTED_ESC_IDLE, PARE_DOUBTED_ALWAYS},
                 {PARE_DOUBTED_PULSE, PARE_DOUBTED_NO_LOAD}};
    if (u[which] > 0 || which == PARE_DOUBTED_MASS)
        return true;
    for (size_t i = 0; i < sizeof likes / sizeof likes[0]; i++)
        if ((int)likes[i].as == which && u[likes[i].acts] > 0)
            return true;
    return false;
}

void pare_doubted_slopes(const pare_brief *brief, const pare_sheet *sheet,
                         const double u[PARE_DOUBTED], pare_slopes *slopes)
{
    *slopes = (pare_slopes){0};
    for (int which = 0; which < PARE_DOUBTED_FLOWN; which++)
        if (asked_for(u, which))
            find_slope(brief, sheet, (pare_doubted)which, u[which], slopes->slope[which],
                       slopes->bend[which]);
    by_rule(sheet, slopes);
}
