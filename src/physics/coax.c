/* coax.c: cable loss, free space and polarisation (see coax.h).
 *
 * A cable's loss is a sqrt(f) + b f. With two tabled points both are known; with one, the dielectric
 * share is taken from the like cable, and the figure says less. Sources: makers' tables of RG178,
 * RG316 and 0.141 in semi-rigid, in dB a 100 m; 1.13 mm micro coax 4.8 to 5.6 dB/m at 5.8 GHz, from
 * memory. Free space: Friis, Proc. IRE 34 (1946) 254. */
#include "physics/coax.h"

#include <math.h>
#include <string.h>

#define ROWS(table) (sizeof(table) / sizeof *(table))
#define PI          3.14159265358979323846
#define LIGHT_M_S   299792458.0
#define OPPOSITE_DB 17.5

/* a and b in dB/m with f in GHz, through 1.587 at 1 and 2.968 at 3 GHz (RG178), 0.394 at 1 and 1.476 at
 * 10 GHz (RG402, 0.141 in); the others through 0.870 at 1 GHz (RG316), 0.70 at 1 GHz (RG405, 0.086 in,
 * from memory) and 5.2 at 5.8 GHz (1.13 mm), with the b over a of RG178 for the soft ones, of RG402 for
 * RG405. */
static const struct {
    const char *name;
    double root_db, linear_db;
} cables[] = {
    {"RG178", 1.414095, 0.172905}, {"RG316", 0.775212, 0.094788}, {"RG402", 0.360354, 0.033646},
    {"RG405", 0.640221, 0.059779}, {"1.13", 1.668002, 0.203952},
};

size_t pare_coax_names(size_t most, const char *name[])
{
    size_t i = 0;
    for (; i < ROWS(cables) && i < most; i++)
        name[i] = cables[i].name;
    return i;
}

pare_status pare_coax_db_per_m(const char *cable, double hz, double *db_per_m, pare_error *err)
{
    if (!(hz >= 1e8 && hz <= 1e10))
        return pare_fail(err, PARE_BAD_DATA, "%g GHz: 0.1 to 10 GHz would be right", hz * 1e-9);
    for (size_t i = 0; i < ROWS(cables); i++)
        if (strcmp(cable, cables[i].name) == 0) {
            *db_per_m = cables[i].root_db * sqrt(hz * 1e-9) + cables[i].linear_db * hz * 1e-9;
            return PARE_OK;
        }
    return pare_fail(err, PARE_BAD_DATA,
                     "cable '%.30s': known are RG178, RG316, RG402, RG405 and 1.13", cable);
}

double pare_free_space_db(double hz, double distance_m)
{
    return 20 * log10(4 * PI * distance_m * hz / LIGHT_M_S);
}

double pare_range_share(double loss_db)
{
    return pow(10, -loss_db / 20);
}

double pare_polarisation_db(pare_hand one, pare_hand other)
{
    if (one == other)
        return 0;
    if (one == PARE_HAND_LINEAR || other == PARE_HAND_LINEAR)
        return 10 * log10(2);
    return OPPOSITE_DB;
}
