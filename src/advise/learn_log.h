/* learn_log.h: what a flight's log says, whatever is learned from it: sums over its bins. */
#ifndef PARE_ADVISE_LEARN_LOG_H
#define PARE_ADVISE_LEARN_LOG_H

#include "craft/flight_log.h"

enum { PARE_LOG_LOADS = 8 };

/** Flying for a while, as the sensors read it. */
typedef struct pare_log_load {
    double volts_v, current_a; /* means */
    double before_c;           /* read until its middle */
    double flown_s;            /* from take-off to it */
    double lasts_s;
} pare_log_load;

typedef struct pare_log_said {
    double read_c;             /* all charge, that in gaps guessed from their ends */
    double guessed_c;          /* of it */
    double flown_s, flown_c;   /* of what was flown as it says: read, gaps left out */
    double output;             /* mean throttle of it; NAN: not logged */
    double before_v, before_a; /* at rest before take-off; NAN: not logged */
    double after_v, after_a;   /* at rest, long enough after landing; NAN */
    size_t loads;
    pare_log_load load[PARE_LOG_LOADS];
    /* By how much the volts fall where the current rises, from one bin to the next; NAN: too even. */
    double step_ohm, step_u_ohm;
    double step_s, step_before_c; /* between two bins; read before, on average */
} pare_log_said;

/** @param hovers  nothing but hovering was to be flown: what is no hovering is left out of flown_c */
void pare_log_say(const pare_flight_log *log, bool hovers, pare_log_said *said);

#endif
