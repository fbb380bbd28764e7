/* work.h: minutes at the bench that a change takes. Only this room uses it. */
#ifndef PARE_ADVISE_WORK_H
#define PARE_ADVISE_WORK_H

#include "craft/kind.h"

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

#endif
