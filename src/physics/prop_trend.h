/* prop_trend.h: what varies from propeller to propeller beyond the size, for prop*.c and the fit. */
#ifndef PARE_PHYSICS_PROP_TREND_H
#define PARE_PHYSICS_PROP_TREND_H

#include "physics/prop.h"

/** Works out the traits of a propeller that has its stations, its levers from them, and pulls those.
 * @param pitch_ratio  stated pitch over diameter, or that of the measured blade at 0.75 R
 * @param any_chord    whether the chord is the default one, which a lever may change */
void pare_prop_adjust(pare_prop *prop, pare_prop_line line, double pitch_ratio, bool any_chord);

/** Changes one lever of a propeller by so much. */
void pare_prop_pull(pare_prop *prop, pare_prop_lever lever, double by);

/** What CT and CP of the blade elements are times.
 * @param reynolds  of the blade at 0.75 R, more than 0 */
void pare_prop_last_factors(const pare_prop *prop, double advance, double reynolds, double *thrust,
                            double *power);

/** How far along a propeller is from standing still (0) to moving (1). */
double pare_prop_moving(const pare_prop *prop, double advance);

/** A trait as the levers see it: held at the edges of what was measured. */
double pare_prop_trait_held(const pare_prop *prop, int trait);
/** The terms of its line, that its levers go with besides: pitch and size held where the line was
 * measured. */
void pare_prop_line_terms(const pare_prop *prop, double term[PARE_PROP_LINE_TERMS]);
double pare_prop_reynolds_held(const pare_prop_constants *constants, double reynolds);

#endif
