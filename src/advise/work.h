/* work.h: minutes at the bench that a change takes. Only this room uses it. */
#ifndef PARE_ADVISE_WORK_H
#define PARE_ADVISE_WORK_H

#include "craft/part.h"

/** Minutes to change `count` parts of a kind for others; taking them off is half of that. */
double pare_work_part_min(pare_kind kind, int count);
double pare_work_off_min(pare_kind kind, int count);
/** Screws: out and in again; out; cut down, out and in again. */
double pare_work_screws_min(int count);
double pare_work_screws_out_min(int count);
double pare_work_screws_cut_min(int count);
/** Wire: a conductor made anew and soldered at both ends; one shortened and soldered at one. */
double pare_work_wire_min(int conductors);
double pare_work_wire_cut_min(int conductors);
double pare_work_coax_cut_min(void);

/** How far a craft is opened for a piece of work; each asks for those before it only where said. */
typedef enum pare_opening {
    PARE_OPENING_OUTSIDE,    /* strap, bumpers, antenna mount */
    PARE_OPENING_PROPELLERS, /* nuts and propellers */
    PARE_OPENING_ARMS,       /* motors and their screws, ESCs on the arms */
    PARE_OPENING_TOP,        /* under the top plate: stack, camera, wiring */
    PARE_OPENINGS
} pare_opening;
const char *pare_opening_words(pare_opening opening); /* "outside", "top plate off" */

/** Where a part is reached. */
pare_opening pare_work_opening(const pare_part *part);
/** Minutes to open and to close again, once for all that is done in there. */
double pare_work_opening_min(pare_opening opening);
/** Solder joints that changing `count` parts of a kind makes, or taking them off opens. */
int pare_work_part_solder(pare_kind kind, int count);

#endif
