/* pair_rig.c: a rig that flies as its pair was measured (see pair.h). */
#include <math.h>

#include "physics/pair.h"

#include "physics/motor_law.h"
#include "physics/tunnel.h"

bool pare_pair_fit_is_sound(const pare_pair_fit *fit, const pare_prop *prop)
{
    bool fine = pare_prop_table_is_sound(&fit->table, prop) &&
                pare_motor_check(&fit->motor, NULL) == PARE_OK && fit->rows > 0 &&
                fit->esc.switching >= 0 && fit->esc.switching <= 0.9;
    for (int i = 0; i < PARE_PAIR_UNKNOWNS; i++) {
        fine = fine && isfinite(fit->unknown[i]);
        for (int j = 0; j < PARE_PAIR_UNKNOWNS; j++)
            fine = fine && isfinite(fit->covariance[i][j]);
    }
    return fine;
}

void pare_rig_use_pair(const pare_pair_fit *fit, pare_rig *rig)
{
    rig->rotor.table = &fit->table;
    rig->rotor_source = PARE_FROM_STAND;
    rig->pair = fit;
    const pare_motor craft = rig->motor;
    rig->motor = fit->motor;
    rig->motor.mass_kg = craft.mass_kg;
    rig->motor.ambient_degc = craft.ambient_degc;
    rig->esc = fit->esc;
}

void pare_rig_rotor_doubt(const pare_rig *rig, double speed_rad_s, bool running, double load,
                          pare_pair_doubt *doubt)
{
    if (rig->pair && speed_rad_s > 0 && isfinite(speed_rad_s)) {
        pare_pair_doubt_at(rig->pair, &rig->air, speed_rad_s, running, doubt);
        return;
    }
    const pare_prop_doubt model = rig->tunnel
                                      ? (running ? rig->tunnel->running : rig->tunnel->still)
                                      : pare_prop_model_doubt(rig->rotor.prop, running, load);
    *doubt = (pare_pair_doubt){{{0}}};
    doubt->root[PARE_PAIR_THRUST][0] = model.thrust_u;
    doubt->root[PARE_PAIR_POWER][0] = model.correlation * model.power_u;
    doubt->root[PARE_PAIR_POWER][1] =
        model.power_u * sqrt(1 - model.correlation * model.correlation);
}
