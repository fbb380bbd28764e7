/* start_sizes.c: typical sizes for what nobody answered.
 *
 * All follows from the propeller, the size by which the trade calls a craft; where that is missing,
 * frame, motor and mass say in turn what it must be. The table and rules are common practice, no
 * source, and our estimate where marked [E]. They only choose among sizes that are sold, so that the
 * sheet is of a craft that somebody could have; the first stated size replaces them. */
#include <math.h>

#include "advise/start_inside.h"
#include "craft/law.h"

#define INCH_M 0.0254
#define MM     1e-3
#define AH_C   3600.0

/* By propeller, in inches: what is usually flown with it, and the mass below which it is likely. */
static const struct {
    double propeller_in, least_kg, stator_mm[2];
    int cells;
} usual[] = {
    {2, 0, {11, 3}, 3},      {2.5, 0.09, {12, 4}, 4}, {3, 0.16, {14, 4}, 4},
    {5.1, 0.30, {22, 7}, 6}, {7, 0.95, {28, 6.5}, 6}, {10, 1.6, {31, 10}, 6},
    {13, 3, {40, 14}, 8},
};
enum { USUAL = sizeof usual / sizeof usual[0] };

/* Full-throttle speeds keep the blade's tip near one speed: kv x cells x inches. [E] */
#define KV_CELLS_INCHES 53000.0
#define CELLS_MOST      8 /* that a guess goes to */
/* Cells x Ah goes with the disc: 6.6 on 5.1 in. [E] */
#define CELL_AH_5IN   6.6
#define LIPO_STEP_AH  0.05
#define LIION_CELL_AH 3.0 /* an 18650; a group has whole ones */
#define PITCH_MOST_M                                                                               \
    (4.3 * INCH_M) /* [E] larger propellers keep it, smaller ones are 0.85 square */
#define PITCH_SHARE 0.85

static double volume_mm3(const double stator_mm[2])
{
    return stator_mm[0] * stator_mm[0] * stator_mm[1];
}

static size_t by_propeller(double propeller_m)
{
    size_t best = 0;
    for (size_t i = 1; i < USUAL; i++)
        if (fabs(log(propeller_m / INCH_M / usual[i].propeller_in)) <
            fabs(log(propeller_m / INCH_M / usual[best].propeller_in)))
            best = i;
    return best;
}

/* How far a stated kv is from that of a usual size, as a logarithm. */
static double kv_is_off(const pare_start_answers *a, size_t size)
{
    const int cells = a->cells ? a->cells : usual[size].cells;
    return fabs(log(a->kv_rpm_per_v * cells * usual[size].propeller_in / KV_CELLS_INCHES));
}

/* In the order in which one is surer than the next. */
static double propeller_m(const pare_start_answers *a)
{
    const double fits_m = a->frame ? pare_fit_largest(&a->frame->fit[PARE_FIT_PROPELLER]) : 0;
    const double base_m = a->frame ? a->frame->spec[PARE_SPEC_WHEELBASE].value : a->wheelbase_m;
    if (fits_m > 0)
        return fits_m;
    if (base_m > 0)
        return INCH_M / 10 *
               fmax(10, round(pare_law_propeller_for_wheelbase_m(base_m) / INCH_M * 10));
    size_t best = 3;
    if (a->stator_diameter_m > 0) {
        const double said[2] = {a->stator_diameter_m / MM, a->stator_length_m / MM};
        best = 0;
        for (size_t i = 1; i < USUAL; i++)
            if (fabs(log(volume_mm3(said) / volume_mm3(usual[i].stator_mm))) <
                fabs(log(volume_mm3(said) / volume_mm3(usual[best].stator_mm))))
                best = i;
    } else if (a->all_up_kg > 0) {
        for (size_t i = 0; i < USUAL; i++)
            if (a->all_up_kg >= usual[i].least_kg)
                best = i;
    } else if (a->kv_rpm_per_v > 0) {
        for (size_t i = 0; i < USUAL; i++)
            if (kv_is_off(a, i) < kv_is_off(a, best))
                best = i;
    }
    return usual[best].propeller_in * INCH_M;
}

static double within(double low, double value, double high)
{
    return fmin(fmax(value, low), high);
}

pare_start_sizes pare_start_guess_sizes(const pare_start_answers *a)
{
    pare_start_sizes s = {.propeller_m = a->propeller_m,
                          .pitch_m = a->pitch_m,
                          .stator_diameter_m = a->stator_diameter_m,
                          .stator_length_m = a->stator_length_m,
                          .kv_rpm_per_v = a->kv_rpm_per_v,
                          .capacity_c = a->capacity_c,
                          .wheelbase_m = a->wheelbase_m,
                          .blades = a->blades,
                          .line = a->line,
                          .cells = a->cells};
    if (a->pack) {
        s.cells = (int)a->pack->spec[PARE_SPEC_CELLS].value;
        s.capacity_c = a->pack->spec[PARE_SPEC_CAPACITY].value;
    }
    if (a->frame)
        s.wheelbase_m = a->frame->spec[PARE_SPEC_WHEELBASE].value;
    s.propeller_guessed = !(s.propeller_m > 0);
    if (s.propeller_guessed)
        s.propeller_m = propeller_m(a);
    const double inches = s.propeller_m / INCH_M;
    const size_t size = by_propeller(s.propeller_m);
    s.pitch_guessed = !(s.pitch_m > 0);
    if (s.pitch_guessed)
        s.pitch_m = INCH_M / 10 *
                    fmax(1, round(10 / INCH_M * fmin(PITCH_SHARE * s.propeller_m, PITCH_MOST_M)));
    s.blades_guessed = s.blades == 0;
    if (s.blades_guessed)
        s.blades = inches < 8 ? 3 : 2;
    s.stator_guessed = !(s.stator_diameter_m > 0);
    if (s.stator_guessed) {
        s.stator_diameter_m = usual[size].stator_mm[0] * MM;
        s.stator_length_m = usual[size].stator_mm[1] * MM;
    }
    s.kv_guessed = !(s.kv_rpm_per_v > 0);
    s.cells_guessed = s.cells == 0;
    if (s.cells_guessed)
        s.cells = s.kv_guessed ? usual[size].cells
                               : (int)within(1, round(KV_CELLS_INCHES / (s.kv_rpm_per_v * inches)),
                                             CELLS_MOST);
    if (s.kv_guessed)
        s.kv_rpm_per_v = within(50, 50 * round(KV_CELLS_INCHES / (s.cells * inches) / 50), 30000);
    s.capacity_guessed = !(s.capacity_c > 0);
    if (s.capacity_guessed) {
        const bool round_cells = a->chemistry == PARE_LIION || a->chemistry == PARE_LIION_POWER;
        const double step_ah = round_cells ? LIION_CELL_AH : LIPO_STEP_AH;
        const double ah = CELL_AH_5IN * (inches / 5.1) * (inches / 5.1) / s.cells;
        s.capacity_c = AH_C * within(step_ah, step_ah * round(ah / step_ah), 99);
    }
    s.wheelbase_guessed = !(s.wheelbase_m > 0);
    if (s.wheelbase_guessed)
        s.wheelbase_m = MM * round(pare_law_wheelbase_m(s.propeller_m).value / MM);
    const double stator_mm[2] = {s.stator_diameter_m / MM, s.stator_length_m / MM};
    /* 45 A for a 2207, less than in proportion. [E] */
    s.esc_a = within(5, 5 * round(45 * pow(volume_mm3(stator_mm) / 3388, 0.6) / 5), 300);
    return s;
}
