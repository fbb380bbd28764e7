/* blade.h: measured propellers, as the fit of the propeller model sees them. */
#ifndef FIT_BLADE_H
#define FIT_BLADE_H

#include <stdbool.h>
#include <stddef.h>

#include "physics/prop.h"

typedef struct fit_row {
    double advance, speed_rad_s;
    double ct, cp; /* NAN: not measured */
    int run;       /* rows of one run at one motor or one wind tunnel session share a number */
    bool derived;  /* CP was worked out from what the motor drew */
    bool still;    /* at rest */
    bool judged;   /* CT over 0.3 of the run's greatest; rows at rest always */
} fit_row;

/** One propeller. `known` says what of it may be used: a line's name, a measured blade. */
typedef struct fit_blade {
    char name[48], maker[16]; /* as its files are named; the maker's line is the first word */
    pare_prop_line line;
    bool research;       /* made for a study, not sold */
    bool stand;          /* measured on a thrust stand, as multirotors fly them */
    pare_prop_size size; /* pitch 0: nobody stated it */
    double density_kg_m3;
    size_t stations; /* 0: its blade was not measured */
    double radius[PARE_PROP_STATIONS], chord[PARE_PROP_STATIONS], twist_rad[PARE_PROP_STATIONS];
    size_t rows;
    fit_row *row;
} fit_blade;

typedef struct fit_blades {
    size_t count;
    fit_blade *blade;
} fit_blades;

/** Reads a collection into the list, after what is there; rows of one J beside another are thinned to
 * about eight a run.
 * @return false where it is missing or memory ran out, said on stderr */
bool fit_read_tunnel(const char *data_folder, fit_blades *blades);
bool fit_read_stands(const char *data_folder, fit_blades *blades);
void fit_blades_free(fit_blades *blades);

/** A new propeller at the end of the list, or the one of that name. NULL: no memory. */
fit_blade *fit_blade_named(fit_blades *blades, const char *name);
bool fit_blade_add(fit_blade *blade, const fit_row *row);

#endif
