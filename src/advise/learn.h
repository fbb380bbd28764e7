/* learn.h: what a craft's flights say about the numbers that its flight is computed from.
 *
 * Every number keeps its prior, so that few flights move little and what no flight tells stays as it
 * was. A flight says three things: how much charge it took for its minutes, where the pack's volts came
 * to rest after that charge, and by the two together what the pack holds. Its log says the same by the
 * craft's own sensors, how far these are off, and what the pack's resistance is. */
#ifndef PARE_ADVISE_LEARN_H
#define PARE_ADVISE_LEARN_H

#include "base/arena.h"
#include "craft/doubt.h"
#include "craft/flight_record.h"

/** What is learned of the craft itself; packs have two numbers each besides. */
typedef enum pare_learned {
    PARE_LEARNED_THRUST,
    PARE_LEARNED_POWER,
    PARE_LEARNED_DRAG,
    PARE_LEARNED_ALWAYS,
    PARE_LEARNED_ESC,            /* what it loses at part throttle; by a share of it */
    PARE_LEARNED_CURRENT_SENSOR, /* of its logs: what it says of an ampere */
    PARE_LEARNED_VOLTAGE_SENSOR,
    PARE_LEARNEDS
} pare_learned;

/** "propeller thrust" */
const char *pare_learned_name(pare_learned which);

/** How many of them flights can tell: without a log nothing is said of sensors. */
int pare_learned_count(size_t logs);

/** A factor on what the sheet has, in its logarithm. */
typedef struct pare_learned_factor {
    double prior_u;
    double change, change_u; /* of the logarithm */
} pare_learned_factor;

/** One copy of a pack. */
typedef struct pare_learned_pack {
    const pare_part *pack;
    int which; /* 0: the flights do not say */
    size_t flights;
    double stated_c;           /* as the sheet takes it */
    double holds_c, holds_u_c; /* on the day of its last flight */
    const char *first, *last;  /* days of its flights */
    double held_c, held_u_c;   /* on the first of them */
    double fade, fade_u;       /* share of it lost in 30 days */
    size_t charged;            /* times at the charger, dated, with its cells read */
    double ohm, ohm_u; /* of a cell group on the day of the last of these, at 25 degC; NAN: none */
    double logged_ohm, logged_ohm_u; /* likewise by its logs, at half charge; NAN: no log tells */
    double growth, growth_u;         /* share that it gains in 30 days */
    double enough_until; /* the day (base/day.h) on which the brief's minutes are no longer met, by
                               that fade and growth; NAN: neither is clear, or no such limit */
} pare_learned_pack;

/** What a flight was expected to say, and said. */
typedef struct pare_learned_flight {
    const pare_flight_record *record;
    size_t pack; /* in the list of packs */
    /* Charge, as measured (its log's by the sensor as learned) and as expected with what was learned; by
     * how many u it is off, 0 where not said. */
    double said_c, expected_c, off_c;
    double said_rest_v, expected_rest_v, off_rest; /* volts at rest afterwards, likewise */
    double off_log;                                /* what else its log says, the worst of it */
    const char *log_about;                         /* that is: "volts under load"; NULL: no log */
    double log_output; /* mean throttle of what was flown as it says; NAN: not logged */
    bool log_aside;    /* its log does not fit: only what was written by hand is learned from */
    double
        left_out; /* its charge as predicted from all other flights, over what it was, less 1; NAN */
    bool
        fits; /* neither is off by more than chance lets one of so many be; otherwise it was set aside, and
 its numbers are those that all others foretell */
    const char *why; /* it tells nothing: this is missing; NULL */
} pare_learned_flight;

/** A short test, and what it would do to the doubt about the minutes. */
typedef struct pare_learned_test {
    const char *what;
    double flown_u_s; /* after it */
    /* What it tells most of, by the share of its doubt that is left: a number of the craft's own, or the
     * capacity or resistance of a pack. */
    const char *shrinks;           /* "propeller thrust", "capacity" */
    const pare_learned_pack *pack; /* whose that is; NULL: the craft's */
    double from_u, to_u;           /* as shares */
} pare_learned_test;

enum { PARE_LEARNED_TESTS = 6 };

/** The factor on what was thought that a change is, and its uncertainty: the ESC by a share, all else
 * through its logarithm. */
double pare_learned_value(pare_learned which, double change);
double pare_learned_value_u(pare_learned which, double change, double change_u);

typedef struct pare_learned_all {
    pare_learned_factor factor[PARE_LEARNEDS];
    double correlation[PARE_LEARNEDS][PARE_LEARNEDS];
    size_t packs, flights, used;
    size_t logs;                       /* of the flights; those set aside as well */
    size_t aside;                      /* of those used, that did not fit and were set aside */
    const pare_learned_pack *pack;     /* [packs], in the arena */
    const pare_learned_flight *flight; /* [flights] */
    double chi2;
    size_t degrees; /* what they say, less what was learned as far as it was learned from them */
    double bound;   /* by how many u one of so many may be off: 5 % for all together */
    double left_out_rms;                               /* of the shares left_out; NAN */
    double flown_s, flown_u_s, learned_s, learned_u_s; /* your minutes, before and after; NAN */
    pare_learned_test test[PARE_LEARNED_TESTS];        /* best first */
    pare_taught kept; /* the same for the craft's sheet, without its date; see pare_learn() */
} pare_learned_all;

/** Uncertainty of the logarithm of a flight's mean current, by how it is flown [E]: hovering leaves little
 * choice, a profile much. */
#define PARE_HOVER_STYLE_U   0.03
#define PARE_PROFILE_STYLE_U 0.08

/** Whether a flight is nothing but hovering; not where nothing is said of it. */
bool pare_flown_hovers(size_t entries, const pare_flown flown[]);

/** Learns from flights of one craft. What was kept of an earlier learning is left aside: the flights that
 * it came from are here again. What a pack holds is for the sheet only where the craft's own flew, and no
 * more than one copy of it: of several nobody knows which the sheet is about.
 *
 * @param craft    settled, in no loadout
 * @param count    flights, by date
 * @param arena    holds what *learned points to
 * @return PARE_OK, also without flights: then nothing moved; PARE_BAD_DATA where the craft or a flight's
 *         pack cannot fly, naming the flight */
pare_status pare_learn(const pare_craft *craft, size_t count, const pare_flight_record flight[],
                       pare_arena *arena, pare_learned_all *learned, pare_error *err);

/** The craft's sheet, uncertainties and all, in its first loadout with so much kept (NULL: nothing): what
 * learning says of the minutes is this sheet's. */
pare_status pare_learned_sheet(const pare_craft *craft, const pare_taught *kept, pare_sheet *sheet,
                               pare_error *err);

#endif
