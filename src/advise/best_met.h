/* best_met.h: what the files that refute a state share: best_rule.c, best_open.c, best_asked.c, best_screws.c and
 * best_met.c. */
#ifndef PARE_ADVISE_BEST_MET_H
#define PARE_ADVISE_BEST_MET_H

#include "advise/best_inside.h"

#define BEST_NEARLY         (1 - 1e-9) /* of a ratio: rounding breaks nothing */
#define BEST_SURELY         (1 - 1e-6) /* what a bound must fail by: the solvers' own tolerance */
#define BEST_FAST_SURELY    0.99       /* what a profile that is flown fast must fail by */
#define BEST_LONGER         4.0        /* wires that another sort of ESC asks for */
#define BEST_THINNEST_GAUGE 30.0

/* ---- best_rule.c ---- */
bool best_is_limit(const char *name);
bool best_is_crash(const char *name);
/** Notes what refuses. @param[out] by  may be NULL @return false */
bool best_refuse(char by[48], const char *name);

enum { BEST_FLIES = 3 };
/** What a set can still do where the craft could: hover, fly its profile, give full throttle.
 * @param[out] figure  that then exists
 * @return what it is called */
const char *best_flies(size_t i, pare_figure *figure);

/* ---- best_open.c ---- */
typedef struct best_range {
    double least, most;
} best_range;

/** What wires may come to, as a change against what they are. */
typedef struct best_open_ohm {
    best_range lead_ohm, phase_ohm;
} best_open_ohm;

/** @param gauge  of runs by their place, where it is settled; 0: open. NULL: all are open */
best_open_ohm best_open_wires(const best_search *search, const best_state *state,
                              const double gauge[]);
/** Whether a choice of a kind is open. */
bool best_kind_open(const best_search *search, const best_state *state, pare_kind kind);
/** The most that electronics may draw, where open choices or what they take along may be others. */
double best_heaviest_load_w(const best_search *search, const best_state *state);
/** Gives a rig the least that electronics may draw, and the least drag. */
void best_lighten_load(const best_search *search, const best_state *state, pare_rig *rig);

/* ---- best_asked.c ---- */
/** Which of the flights that flatter asks for a limit: the one that flatters thrust, currents at full throttle, or
 * the pack's sag there. */
typedef enum best_flight {
    BEST_NO_FLIGHT,
    BEST_THRUST_FLIGHT,
    BEST_CURRENT_FLIGHT,
    BEST_SAG_FLIGHT
} best_flight;

best_flight best_flight_of_figure(int figure, bool at_least);
/** Whether an open choice may yet be what drives the motors, or bring it. */
bool best_escs_open(const best_search *search, const best_state *state);
/** What a margin's ratio must stay below, as a share of its need, to refute.
 * @param fast  the probe's profile was flown so */
double best_surely(const char *name, bool fast);
/** Works out, of a flown probe, the margins that one flight or another asks for. */
void best_find_margins(const best_search *search, const best_state *state, pare_sheet *probe);
/** Whether a limit fails that this flight asks for. @param[out] by  that limit */
bool best_refuted_by(const best_search *search, const best_state *state, const pare_sheet *probe,
                     best_flight asked, bool fast, char by[48]);

/* ---- best_screws.c ---- */
/** Whether some joint's screws hold in none of the ways that are still open.
 * @param probe  a sheet of the state's craft, flown with the least of all below it */
bool best_screws_fail(const best_search *search, const best_state *state, const pare_sheet *probe,
                      pare_craft *lightest, char by[48]);

#endif
