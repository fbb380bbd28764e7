/* growth.c: knock-on: what a gram is worth, and the grams that follow it.
 *
 * Central differences of 1 % in mass. For the knock-on the craft keeps its propeller; motors grow with
 * the mass they lift (s = m'/m: motor mass goes with s, kV with the root of s, the winding follows
 * from both), and the pack is given the capacity that keeps the hover time. The growth is then
 * 1/(1 - d(motors and pack)/d mass). ESC, frame and wire are left out: it is a lower bound on what a
 * gram brings in the end.
 *
 * Read capacity_for() first. Source: similarity of motors at equal torque and voltage (from memory);
 * kV with the root of s keeps thrust to weight only to first order. */
#include <math.h>

#include "physics/operate.h"

#define SHARE 0.01

static pare_status hover_time(const pare_rig *rig, const pare_landing *landing, double *time_s,
                              pare_error *err)
{
    const pare_flown hover = {PARE_FLOWN_THRUST, 1, 1};
    pare_endurance endurance;
    if (pare_rig_endure(rig, 1, &hover, landing, &endurance, err) != PARE_OK)
        return PARE_BAD_DATA;
    *time_s = endurance.time_s;
    return PARE_OK;
}

/* The rig of another mass, its motors grown along. */
static pare_rig grown(const pare_rig *rig, double times)
{
    pare_rig other = *rig;
    const double kv = sqrt(times); /* kV'/kV */
    other.mass_kg *= times;
    other.motor.mass_kg *= times;
    other.motor.kv_rpm_per_v *= kv;
    other.motor.resistance_ohm /= kv * kv * times;
    other.motor.no_load_a *= times / kv;
    return other;
}

/* The capacity that gives a hover time, by secant steps on the logarithm: time goes nearly in
 * proportion to it. */
static pare_status capacity_for(pare_rig *rig, const pare_landing *landing, double time_s,
                                pare_error *err)
{
    double was = 0, was_left = 0, slope = 1;
    double ln_c = log(rig->pack.capacity_c);
    for (int i = 0; i < 30; i++) {
        double now_s;
        rig->pack.capacity_c = exp(ln_c);
        if (hover_time(rig, landing, &now_s, err) != PARE_OK)
            return PARE_BAD_DATA;
        const double left = log(now_s / time_s);
        if (fabs(left) < 1e-10)
            return PARE_OK;
        if (i > 0 && fabs(left - was_left) > 0)
            slope = fmin(fmax((left - was_left) / (ln_c - was), 0.2), 5);
        was = ln_c;
        was_left = left;
        ln_c -= left / slope;
    }
    return pare_fail(err, PARE_BAD_DATA,
                     "no capacity gives the same hover time of %.4g s (%.4g Ah at the last)",
                     time_s, rig->pack.capacity_c / 3600);
}

static pare_status climb_m_s2(const pare_rig *rig, double *acceleration, pare_error *err)
{
    pare_operating full;
    if (pare_rig_full(rig, 1, PARE_BURST_HEAT, 0, 0, 0, &full, err) != PARE_OK)
        return PARE_BAD_DATA;
    *acceleration = PARE_GRAVITY_M_S2 * (pare_rig_thrust_to_weight(rig, &full) - 1);
    return PARE_OK;
}

pare_status pare_rig_growth(const pare_rig *rig, const pare_landing *landing, pare_growth *result,
                            pare_error *err)
{
    double time_s, light_s, heavy_s, light_m_s2, heavy_m_s2;
    pare_rig light = *rig, heavy = *rig;
    light.mass_kg *= 1 - SHARE;
    heavy.mass_kg *= 1 + SHARE;
    if (hover_time(rig, landing, &time_s, err) != PARE_OK ||
        hover_time(&light, landing, &light_s, err) != PARE_OK ||
        hover_time(&heavy, landing, &heavy_s, err) != PARE_OK ||
        climb_m_s2(&light, &light_m_s2, err) != PARE_OK ||
        climb_m_s2(&heavy, &heavy_m_s2, err) != PARE_OK)
        return PARE_BAD_DATA;
    light = grown(rig, 1 - SHARE);
    heavy = grown(rig, 1 + SHARE);
    if (capacity_for(&light, landing, time_s, err) != PARE_OK ||
        capacity_for(&heavy, landing, time_s, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double span_kg = 2 * SHARE * rig->mass_kg;
    const double exponent =
        log(heavy.pack.capacity_c / light.pack.capacity_c) / log(heavy.mass_kg / light.mass_kg);
    const double motors_kg = rig->rotors * rig->motor.mass_kg;
    const double follows = motors_kg / rig->mass_kg +
                           rig->pack.mass_kg * (heavy.pack.capacity_c - light.pack.capacity_c) /
                               rig->pack.capacity_c / span_kg;
    *result = (pare_growth){
        .seconds_per_kg = (heavy_s - light_s) / span_kg,
        .climb_m_s2_per_kg = (heavy_m_s2 - light_m_s2) / span_kg,
        .capacity_exponent = exponent,
        .growth = rig->pack.mass_kg > 0 && follows < 1 ? 1 / (1 - follows) : 0,
    };
    return PARE_OK;
}
