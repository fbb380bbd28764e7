/* each.c: every motor by itself (see each.h). The figures of flight take rotors in two like halves;
 * here each one is solved, and their draws add up on one pack. */
#include "physics/each.h"

#include "physics/operate.h"
#include "physics/share.h"

pare_status pare_rig_each(const pare_rig *rig, const double share[], double charge,
                          pare_each each[], double *pack_a, pare_error *err)
{
    pare_flight flight;
    double motor_a[PARE_SHARES], motor_v[PARE_SHARES], ohm;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK ||
        pare_charge_check(charge, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (rig->rotors > PARE_SHARES)
        return pare_fail(err, PARE_BAD_DATA, "%d rotors: %d is the most", rig->rotors, PARE_SHARES);
    const double whole_n = flight.weight_n / (1 - rig->blockage);
    pare_draw draw = {0, rig->always_w, 0, 0};
    for (int i = 0; i < rig->rotors; i++) {
        pare_rotor_state rotor;
        if (pare_rotor_for_thrust(&rig->rotor, &rig->air, share[i] * whole_n, 0, 0, 0, &rotor,
                                  err) != PARE_OK)
            return PARE_BAD_DATA;
        pare_motor_run(&flight.steady, rotor.speed_rad_s, rotor.torque_nm, &motor_a[i], &motor_v[i],
                       &ohm);
        if (pare_motor_bears(&flight.steady, motor_a[i], err) != PARE_OK)
            return PARE_BAD_DATA;
        draw = pare_draw_add(draw,
                             pare_esc_draw(&rig->esc, motor_v[i], motor_a[i],
                                           pare_motor_pulse_w(&flight.steady, rotor.speed_rad_s)));
    }
    const pare_given given = pare_give(pare_source_at(&flight, charge, 1), draw);
    for (int i = 0; i < rig->rotors; i++)
        if (!(motor_v[i] <= given.pack_v))
            return pare_fail(err, PARE_BAD_DATA,
                             "motor %d would need more than full output to hold the balance in "
                             "hover",
                             i + 1);
    for (int i = 0; i < rig->rotors; i++)
        each[i] = (pare_each){.share = share[i],
                              .carries_kg = share[i] * rig->mass_kg,
                              .output = motor_v[i] / given.pack_v,
                              .current_a = motor_a[i]};
    *pack_a = given.pack_a;
    return PARE_OK;
}
