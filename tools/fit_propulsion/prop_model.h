/* prop_model.h: the propeller model as a fit sees it: parameters, how far each may go, sums. */
#ifndef FIT_PROP_MODEL_H
#define FIT_PROP_MODEL_H

#include "blade.h"

enum { FIT_GLOBALS = 9 };
enum { FIT_LINE_COLUMNS = PARE_PROP_LINES * PARE_PROP_LINE_TERMS };
enum { FIT_LEVER_COLUMNS = PARE_PROP_TRAITS + FIT_LINE_COLUMNS };
enum { FIT_LAST_LEVERS = PARE_LEVERS - PARE_LEVER_CT_STILL };
enum { FIT_PARAMETERS = FIT_GLOBALS + PARE_LEVERS * FIT_LEVER_COLUMNS + FIT_LAST_LEVERS };

/** How a set is fitted: what may be known of a propeller, and how far each parameter is expected from
 * its prior: those of the constants are the published values, those of the trends 0. */
typedef struct fit_how {
    const pare_prop_constants *base; /* start and prior of the constants */
    bool measured, known;            /* from the measured blade; with the line */
    double global_u[FIT_GLOBALS];
    double trait_u[PARE_LEVERS][PARE_PROP_TRAITS];
    double line_u[PARE_LEVERS][PARE_PROP_LINE_TERMS];
    double reynolds_u;
    double own_u[PARE_LEVERS]; /* of one propeller's lever about its trend */
    double own_reynolds_u;
    double thrust_u, power_u; /* of a row about its propeller's curve */
    double odd;               /* levers this many own_u off make a propeller count half */
    double research;          /* what a propeller that was made for a study counts */
    double stand;             /* and one on a stand */
} fit_how;

/** The sums of one propeller at one state of the fit, so that leaving it out is a subtraction. */
typedef struct fit_sums {
    size_t columns; /* the free ones that it says anything of: not those of other lines */
    int *column;    /* [columns] their places in fit_free_columns() */
    double *product, *right;
    double odd; /* mean square of its own levers over own_u */
} fit_sums;

/** What a propeller is under a set. @return false where its size or blade is not known */
bool fit_prop_of(const fit_blade *blade, bool measured, bool known,
                 const pare_prop_constants *constants, pare_prop *prop);

/** ln(measured over model) of a row; NAN where not measured. */
void fit_left(const pare_prop *prop, const fit_blade *blade, const fit_row *row, double left[2]);

/** The model's CT at a row over that at rest, held within 0.3 and 1. */
double fit_load(const pare_prop *prop, const fit_blade *blade, const fit_row *row);

/** ln(Re/1e5) at 0.75 R. */
double fit_log_reynolds(const pare_prop *prop, const fit_blade *blade, const fit_row *row);

double fit_prior_u(const fit_how *how, int parameter);
/** @param[out] column  [FIT_PARAMETERS] the free ones; @return how many */
size_t fit_free_columns(const fit_how *how, int column[FIT_PARAMETERS]);
/** @param constants  the set at x; @return false: no memory, or the propeller cannot be made */
bool fit_sums_of(const fit_blade *blade, const fit_how *how, const pare_prop_constants *constants,
                 fit_sums *sums);
void fit_sums_free(fit_sums *sums);
/** The constants of parameters. */
void fit_constants(const fit_how *how, const double x[FIT_PARAMETERS], const pare_prop_hull *hull,
                   pare_prop_constants *constants);

#endif
