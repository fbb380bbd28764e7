/* budget.c: the power of a steady state, taken apart (see budget.h).
 *
 * From the shaft down it is the rotor model's own energy balance. Shaft power is profile power plus
 * thrust times the whole inflow, and in level flight thrust times the axial flow pays the body's drag
 * and the discs' own. So n T v and D v are found by themselves and the rest is profile: no share is
 * found as a share of another, and their sum is the shaft's.
 *
 * From the shaft up each loss is what its own equation says: windings I^2 R, the unloaded current's
 * torque times speed, what the ESCs pass on less than they take, both parts of the pack's resistance.
 * That these add up to what the pack's chemistry gives is then a check of all of them. */
#include "physics/budget.h"

#include <math.h>

#include "physics/operate.h"

static double disc_m2(const pare_rig *rig)
{
    const double diameter_m = rig->rotor.prop->diameter_m;
    return atan(1) * diameter_m * diameter_m;
}

/* Ideal induced velocity at a rotor's thrust and flow. */
static double induced_m_s(const pare_rig *rig, double thrust_n, double axial_m_s,
                          double inplane_m_s)
{
    const double hover_m_s = sqrt(thrust_n / (2 * rig->air.density_kg_m3 * disc_m2(rig)));
    return hover_m_s * pare_rotor_induced(axial_m_s / hover_m_s, inplane_m_s / hover_m_s);
}

/* Rotors and motors of one state: all alike, or half of them above the mean and half below. */
typedef struct state {
    pare_operating point;
    int groups;
    double each; /* rotors in a group */
    pare_rotor_state rotor[2];
    double axial_m_s, inplane_m_s;
} state;

static pare_status state_of(const pare_flight *flight, double speed_m_s, double charge, state *s,
                            pare_error *err)
{
    const pare_rig *rig = flight->rig;
    const pare_status status = speed_m_s == 0
                                   ? pare_rig_thrust(rig, 1, charge, &s->point, err)
                                   : pare_rig_level(rig, speed_m_s, charge, &s->point, err);
    if (status != PARE_OK)
        return status;
    const pare_rotor_state *mean = &s->point.rotor;
    s->axial_m_s = speed_m_s * sin(s->point.tilt_rad);
    s->inplane_m_s = speed_m_s * cos(s->point.tilt_rad);
    s->groups = pare_is_uneven(rig) ? 2 : 1;
    s->each = flight->rotors / s->groups;
    s->rotor[0] = *mean;
    return s->groups == 1 ? PARE_OK
                          : pare_uneven_pair(flight, mean->thrust_n, s->axial_m_s, s->inplane_m_s,
                                             mean->speed_rad_s, s->rotor, err);
}

static void add_group(const pare_flight *flight, const state *s, const pare_rotor_state *rotor,
                      pare_budget *b, pare_draw *draw)
{
    const pare_rig *rig = flight->rig;
    const pare_motor_law *law = &flight->steady;
    double motor_a, motor_v, ohm;
    pare_motor_run(law, rotor->speed_rad_s, rotor->torque_nm, &motor_a, &motor_v, &ohm);
    b->induced_w +=
        s->each * rotor->thrust_n * induced_m_s(rig, rotor->thrust_n, s->axial_m_s, s->inplane_m_s);
    b->profile_w += s->each * rotor->torque_nm * rotor->speed_rad_s;
    b->copper_w += s->each * motor_a * motor_a * ohm;
    b->iron_w +=
        s->each * law->ke_v_s * rotor->speed_rad_s * pare_motor_loss_a(law, rotor->speed_rad_s);
    /* The motor's volts are taken at the ESC's rails, so they hold the drop in its switches. */
    b->esc_w -= s->each * (motor_v - motor_a * rig->esc.on_ohm) * motor_a;
    b->download_n += s->each * rotor->thrust_n * rig->blockage;
    pare_draw group = pare_draw_of(flight, rotor->speed_rad_s, motor_v, motor_a);
    group.always_a /= s->groups;
    group.through_w /= s->groups;
    group.pulse_w /= s->groups;
    *draw = pare_draw_add(*draw, group);
}

pare_status pare_rig_budget(const pare_rig *rig, double speed_m_s, double charge,
                            pare_budget *budget, pare_error *err)
{
    pare_flight flight;
    state s;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK ||
        state_of(&flight, speed_m_s, charge, &s, err) != PARE_OK)
        return PARE_BAD_DATA;
    pare_budget b = {.drag_w = s.point.drag_n * speed_m_s, .electronics_w = rig->always_w};
    pare_draw draw = {0, 0, 0, 0};
    for (int i = 0; i < s.groups; i++)
        add_group(&flight, &s, &s.rotor[i], &b, &draw);
    const pare_source source = pare_source_at(&flight, charge, 1);
    const pare_given given = pare_give(source, draw);
    b.profile_w -= b.induced_w + b.drag_w; /* of the shafts' power so far */
    b.iron_w += pare_draw_w(draw, given.pack_v) - draw.through_w;
    b.esc_w += draw.always_a * given.pack_v + draw.through_w - rig->always_w;
    b.lead_w = given.pack_a * given.pack_a * rig->pack.lead_ohm;
    b.pack_w = given.pack_a * given.pack_a * (source.ohm - rig->pack.lead_ohm);
    b.open_w = source.open_v * given.pack_a;
    b.output = s.point.duty;
    *budget = b;
    return PARE_OK;
}
