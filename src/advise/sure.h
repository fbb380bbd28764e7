/* sure.h: how surely a craft keeps the limits of its brief.
 *
 * Limits on figures, each with the chance that it holds by the linear model (craft/doubt.h). They err together,
 * so what is said of all of them at once is Boole's inequality: they fail with no more than the sum of the
 * chances that each one fails, however they go together. A limit on all margins is an allowance by itself: it
 * is asked of each rating as computed.
 *
 * The check draws everything that is doubted together and flies it in full (craft/draw.h): quasi-random
 * points where it matters most (Sobol, USSR Computational Mathematics and Mathematical Physics 7 (1967), no.
 * 4, 86-112), random ones for the rest, each time shifted by random numbers, so that the scatter says how far
 * the shares may be off (Cranley and Patterson, SIAM Journal on Numerical Analysis 13 (1976), 904-914). */
#ifndef PARE_ADVISE_SURE_H
#define PARE_ADVISE_SURE_H

#include "base/progress.h"
#include "craft/sheet.h"

/** Of all limits on figures together, by the linear model: at least this; 0 where they fail for sure.
 * @param sheet  with margins of the brief and their chances
 * @param[out] least  the one that holds least surely, "" without limits; NULL: not wanted */
double pare_sure_chance(const pare_sheet *sheet, char least[48]);

/** Whether a margin is of a limit that counts there. */
bool pare_sure_counts(const pare_margin *margin);

enum { PARE_SURE_SHIFTS = 8, PARE_SURE_POINTS = 512 };

typedef struct pare_sure_limit {
    const char *name; /* of the margin; lent by the sheet */
    double linear;    /* by the linear model */
    double drawn;     /* the share of draws in which it held */
} pare_sure_limit;

typedef struct pare_sure_drawn {
    int draws;
    double all, all_u; /* the share in which all held, and how uncertain that is for being drawn */
    size_t limits;
    pare_sure_limit limit[PARE_LIMITS];
} pare_sure_drawn;

/** Draws a craft so many times, PARE_SURE_SHIFTS x PARE_SURE_POINTS.
 * @param craft  loaded
 * @param sheet  of it, whole, with uncertainties
 * @return PARE_OK; PARE_UNAVAILABLE: no memory; PARE_STOPPED: progress said so
 * Time: some 0.1 ms a draw. The same numbers each time. */
pare_status pare_sure_draw(const pare_craft *craft, const pare_sheet *sheet,
                           const pare_progress *progress, pare_sure_drawn *drawn, pare_error *err);

#endif
