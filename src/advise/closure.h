/* closure.h: all that scales said of a bench's craft, and what it says of their masses together.
 *
 * Read pare_closure_open() first. */
#ifndef PARE_ADVISE_CLOSURE_H
#define PARE_ADVISE_CLOSURE_H

#include "advise/adjust.h"
#include "craft/assemble.h"
#include "craft/weigh_in.h"

/** What is not known for certain. */
typedef enum pare_unknown_of {
    PARE_UNKNOWN_PART,     /* the mass of one, in kg: copies share it */
    PARE_UNKNOWN_LINE,     /* of one screw of a joint or one set of a run, in kg */
    PARE_UNKNOWN_MAKER,    /* by which share all that a maker states is off */
    PARE_UNKNOWN_SCALE,    /* by which share all that a scale reads is off */
    PARE_UNKNOWN_FORGOTTEN /* what is on a craft and not written down, in kg */
} pare_unknown_of;

typedef struct pare_unknown {
    pare_unknown_of of;
    const pare_part *part; /* PART */
    const char *craft;     /* LINE, FORGOTTEN */
    const char *name;      /* part's id, "joint.x", maker, scale ("": not said) */
    double prior, prior_u;
    pare_known known;
    size_t readings; /* of it, but those of the whole craft */
    size_t prior_at; /* which equation says so */
    size_t to_maker; /* PART: the unknown that its prior shares; its own place: none */
} pare_unknown;

enum { PARE_PILE = 2 * PARE_LINES + 8 };

/** What lies on a scale: sum(factor x unknown) + fixed. */
typedef struct pare_pile {
    size_t terms;
    pare_term term[PARE_PILE];
    double fixed_kg;
    bool whole;  /* all of the craft */
    bool solder; /* with solder among what is written down */
} pare_pile;

/** Something that does not fit the rest. */
typedef struct pare_misfit {
    bool of_prior; /* what is written of an unknown; otherwise a reading */
    size_t which;  /* unknown, or weigh-in */
    int against;   /* a reading that speaks as loudly against it, or -1 */
    double sigmas; /* the normalised residual */
    double off_kg; /* what it says less what the rest says */
} pare_misfit;

enum { PARE_MISFITS = 32 };

typedef struct pare_closure pare_closure;

/** What it is made from. All lent. */
typedef struct pare_closure_of {
    const pare_bench *bench;
    size_t crafts;
    const pare_craft *const *first; /* [crafts] as first described */
    const pare_weighings *weighings;
    const char *craft; /* the one that will be asked about; NULL: any of them */
    size_t asks;
    const pare_weigh_in *ask; /* [asks] and readings of it that will be */
} pare_closure_of;

struct pare_closure {
    pare_closure_of of;
    pare_arena *arena;
    size_t unknowns, unknown_room;
    pare_unknown *unknown;
    size_t equations, equation_room;
    pare_equation *equation;
    size_t *equation_of;       /* [weighings->count] of each reading */
    const char *const *unused; /* [weighings->count] why a reading says nothing; NULL: it does */
    pare_adjusted adjusted;
    double *along; /* [2 unknowns] room for pare_closure_mass(), which so needs no memory */
    bool settled;  /* no unknown is added any more */
    double bound;  /* normalised residuals beyond it do not fit */
    size_t misfits;
    pare_misfit misfit[PARE_MISFITS];
    struct pare_state *state; /* the craft that was looked at last */
};

/** Adjusts all masses to all readings.
 *
 * Unknowns: each part's mass once, wherever it is; a joint's screw, a run's wire; a maker's bias; each
 * scale's; and for each craft that was weighed whole, what nobody wrote down, of which nothing is
 * supposed. A craft is taken as it was built on the day of the reading. What does not fit, by a bound
 * that a clean set passes once in twenty, is left out one after another, the worst first.
 * @param arena  holds all of it
 * @return PARE_OK, also where no reading is there; PARE_UNAVAILABLE */
pare_status pare_closure_open(const pare_closure_of *of, pare_arena *arena, pare_closure **closure,
                              pare_error *err);

/** What lies on a scale, by a weigh-in's craft, day (NULL: as it is now), loadout and things.
 * @return PARE_OK; PARE_UNKNOWN: nothing of that name was on it, with the nearest; PARE_BAD_DATA */
pare_status pare_closure_pile(pare_closure *closure, const pare_weigh_in *what, pare_pile *pile,
                              pare_error *err);

/** A craft as it is, in a loadout (-1: none).
 * @return as pare_closure_pile() */
pare_status pare_closure_now(pare_closure *closure, const char *craft, int loadout, pare_pile *pile,
                             pare_error *err);

/** The mass of a pile as adjusted, and its uncertainty. */
void pare_closure_mass(const pare_closure *closure, const pare_pile *pile, double *kg,
                       double *u_kg);

/** The unknown that stands for what is not written down on a craft; -1: never weighed whole. */
int pare_closure_forgotten(const pare_closure *closure, const char *craft);

/** The scale of that name; NULL or an unknown one: a scale that is good to one of its digits.
 * @param step_kg  that digit */
pare_scale pare_scale_named(const pare_weighings *weighings, const char *name, double step_kg);
/** The unknown for its common error. */
size_t pare_closure_scale_unknown(const pare_closure *closure, const char *name);
/** Standard uncertainty of one reading: digit and repeatability; the common error is apart. */
double pare_scale_reading_u_kg(const pare_scale *scale);

#endif
