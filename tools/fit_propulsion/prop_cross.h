/* prop_cross.h: how far off a set is on propellers that it has not seen. */
#ifndef FIT_PROP_CROSS_H
#define FIT_PROP_CROSS_H

#include <stdio.h>

#include "prop_solve.h"

/** One error: ln(measured over model) of a row. */
typedef struct fit_error {
    const fit_blade *blade;
    double left;
    double weight;   /* one over the rows of its propeller at that state */
    double measured; /* CT or CP */
    double load;     /* running: the model's CT over that at rest, 0.3 to 1; else 1 */
    double times;    /* of its uncertainty by its size and load */
} fit_error;

/** Errors at rest and running, of CT and CP. */
typedef struct fit_errors {
    size_t count[2][2];
    fit_error *error[2][2];
} fit_errors;

/** A table of these errors by diameter and blade count, of those that there are. */
void fit_print_classes(FILE *out, const fit_errors *errors);

/** Pictures of these errors: FILE_thrust_rest.svg and so on, of propellers known from `from`. */
bool fit_draw(const char *folder, const char *file, const char *from, const char *left_out,
              const fit_errors *errors);

/** What is left out together. */
typedef enum fit_fold { FIT_NOTHING, FIT_PROPELLER, FIT_MAKER } fit_fold;

/** Errors of every propeller of a set by constants that were fitted without its fold (FIT_NOTHING: by
 * the given constants).
 * @return false where memory or a solution failed */
bool fit_cross(const fit_set *set, fit_fold fold, const pare_prop_constants *given,
               fit_errors *errors);
void fit_errors_free(fit_errors *errors);

/** Which propellers count. */
typedef bool fit_counts(const fit_blade *blade);
bool fit_tunnel(const fit_blade *blade); /* all in the tunnel */
bool fit_stand(const fit_blade *blade);  /* on a stand */
bool fit_two(const fit_blade *blade);    /* two blades */
bool fit_small(const fit_blade *blade);  /* two blades, to 7 in */
bool fit_large(const fit_blade *blade);  /* two blades, over 7 in */
bool fit_more(const fit_blade *blade);   /* three and four */

/** A quantile of the absolute error as a share of the measured value, over rows (alike: each counts
 * once; else each propeller does). NAN: none. */
double fit_quantile(const fit_errors *errors, int running, int which, fit_counts *counts,
                    bool alike, double at);
/** The median ln(measured over model) of one propeller; NAN: none. */
double fit_median_of(const fit_errors *errors, int running, int which, const fit_blade *blade);
size_t fit_propellers(const fit_errors *errors, int running, int which, fit_counts *counts);

/** Powers of what an uncertainty goes with. */
typedef struct fit_powers {
    double size[2]; /* of 9 in/D with two blades, at rest and running */
    double load;    /* of one over the load, running */
} fit_powers;

/** Those with which the errors over them are nearest to a normal distribution's; what follows then takes
 * errors over these powers. */
fit_powers fit_doubt_powers(fit_errors *errors);
/** The share of errors within so much. */
double fit_within(const fit_errors *errors, int running, int which, fit_counts *counts,
                  double most);
/** A standard uncertainty for both half and nine tenths: see prop_cross.c. */
double fit_doubt_u(const fit_errors *errors, int running, int which, fit_counts *counts);
/** The same of the power at a thrust, of propellers of which both CT and CP were measured: at rest
 * CP over CT^1.5, in motion CP over CT. */
double fit_merit_u(const fit_errors *errors, int running, fit_counts *counts);
double fit_merit_within(const fit_errors *errors, int running, fit_counts *counts, double most);
/** What a doubt says of that power. */
double fit_merit_of(int running, const pare_prop_doubt *doubt);
/** The correlation of CT and CP with which a doubt says merit_u of it. */
double fit_correlation(int running, double thrust_u, double power_u, double merit_u);

#endif
