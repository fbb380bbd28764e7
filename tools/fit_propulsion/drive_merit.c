/* drive_merit.c: see drive_merit.h. */
#include "drive_merit.h"

#include <stdio.h>

bool drive_merit_fit(const char *data_folder, drive_merit *merit)
{
    drive_bench bench;
    if (!drive_bench_read(data_folder, &bench))
        return false;
    drive_model_make(&bench, DRIVE_WITH_PULSES, -1, &merit->model);
    const bool fine = drive_model_fit(&merit->model, merit->x, NULL);
    if (!fine)
        fprintf(stderr, "%s: the fit of motors and ESCs failed\n", data_folder);
    drive_bench_free(&bench);
    merit->model.bench = NULL;
    return fine;
}

double drive_merit_torque(const drive_merit *merit, int propeller, double speed_rad_s)
{
    const drive_row row = {.propeller = propeller};
    return drive_model_torque(&merit->model, merit->x, &row, speed_rad_s);
}
