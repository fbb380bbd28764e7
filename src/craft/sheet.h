/* sheet.h: everything computed for one craft in one loadout. Read pare_sheet_compute() first. */
#ifndef PARE_CRAFT_SHEET_H
#define PARE_CRAFT_SHEET_H

#include "craft/assemble.h"
#include "craft/craft.h"
#include "craft/figure.h"

enum { PARE_MARGINS = 96, PARE_WHY = 120 };

typedef struct pare_sheet_figure {
    bool exists; /* false: why says the reason */
    double value, u;
    pare_known known;
    char why[PARE_WHY];
} pare_sheet_figure;

/** A limit and how far off it is. ratio: what it bears over what it must bear; 1 or more holds. */
typedef struct pare_margin {
    char name[48]; /* "limit.all_up", "esc.burst", "motor.volts"; zeros behind its end */
    const char *unit;
    double value, value_u, limit, limit_u; /* in the figure's own unit on the screen */
    double from_zero;                      /* both are counted from here: the air's temperature */
    double own_u;  /* the part of value_u that no figure of the sheet has: the margin's own law */
    bool at_least; /* value must not be less than limit, or not more */
    double ratio, ratio_u;
    double chance;       /* that it holds; NAN without uncertainties */
    const char *from;    /* "brief", "stated by the maker", "estimated" */
    const char *caution; /* one line, or NULL */
} pare_margin;

/** Figures whose errors a margin needs together. */
typedef enum pare_together {
    PARE_TOGETHER_PACK,   /* the pack's rms current as flown and its current at full throttle */
    PARE_TOGETHER_MOTOR,  /* the same of one motor */
    PARE_TOGETHER_THRUST, /* full thrust and a motor's current then */
    PARE_TOGETHERS
} pare_together;

/** The two figures. */
extern const pare_figure pare_together_table[PARE_TOGETHERS][2];

typedef struct pare_exchange {
    bool exists;
    /* change for one gram more at the centre of mass, and at one arm's tip of each of the four */
    double centre[PARE_FIGURES], tip[PARE_FIGURES]; /* SI per kg */
} pare_exchange;

typedef struct pare_sheet {
    pare_assembly assembly;
    pare_rig rig;
    pare_sheet_figure figure[PARE_FIGURES];
    double covariance[PARE_TOGETHERS]; /* SI; 0 without uncertainties */
    double principal_kg_m2[3];
    pare_mat3 principal_axes;
    size_t margins;
    pare_margin margin[PARE_MARGINS]; /* worst first */
    bool with_u;                      /* uncertainties were computed */
    double chance_all_up;             /* that the mass limit is met; NAN without one */
    bool landed_by_voltage, held_at_full;
    /* the rotors' speeds as flown and held; 0: no such flight */
    double flown_slow_rad_s, flown_fast_rad_s;
    int priced, unpriced; /* items with and without a price */
    unsigned flown;       /* which groups of flight figures are there (craft/flight.h) */
} pare_sheet;

/** The whole sheet.
 *
 * @param craft   settled and loaded (pare_craft_load)
 * @param with_u  also each figure's uncertainty, each margin's chance (about 13 sheets' work)
 * @return PARE_OK, also when single figures do not exist; PARE_BAD_DATA when nothing can be said
 * Allocates nothing; the propeller's table must be warm for speed, but need not be. */
pare_status pare_sheet_compute(const pare_craft *craft, bool with_u, pare_sheet *sheet,
                               pare_error *err);

/** The same sheet in stages, for who tries craft by the thousand and drops most of them: grams and
 * what follows from them, then flight figures as far as wanted (each once, in any order, the same bits
 * as in the whole sheet), then margins, which fly what the brief's limits and the ratings ask for.
 * Principal axes, uncertainties, how figures are known and the chance of the mass limit are left out,
 * and a figure that was not wanted does not exist. */
pare_status pare_sheet_weigh(const pare_craft *craft, pare_sheet *sheet, pare_error *err);
void pare_sheet_fly(const pare_craft *craft, pare_figures wanted, pare_sheet *sheet);
void pare_sheet_judge(const pare_craft *craft, pare_sheet *sheet);

/** One sheet from another, without what stands in no list: about a third of it. @param to  another one */
void pare_sheet_copy(const pare_sheet *from, pare_sheet *to);

/** A margin by its name; NULL: there is none. */
const pare_margin *pare_sheet_margin(const pare_sheet *sheet, const char *name);

/** The worst margin that is no estimate of a crash; NULL: none. Crash margins are worth comparing, but
 * their force is a guess that would stand before all else. */
const pare_margin *pare_sheet_worst(const pare_sheet *sheet);

/** What one gram is worth here: every figure's change per kilogram, by a full re-evaluation with
 * mass added at the centre of mass and shared over the arm tips (central, 1 %). */
pare_status pare_sheet_exchange(const pare_craft *craft, const pare_sheet *sheet,
                                pare_exchange *exchange, pare_error *err);

/** What one gram more of a line is worth, spread as the line's own grams are: minutes as flown, what full
 * throttle gives, the burst and quickness, per kilogram; all else NAN.
 * @param line  an index into assembly.line; the craft weighs something
 * Cost: two flights. Allocates nothing. */
void pare_sheet_gram_of(const pare_craft *craft, const pare_sheet *sheet, size_t line,
                        double per_kg[PARE_FIGURES]);

/** Which lines to weigh first: share of each in the variance of all-up mass, greatest first.
 * @param order [lines] out: indices into assembly.line @param share [lines] out; both may be NULL */
void pare_sheet_weigh_first(const pare_sheet *sheet, size_t order[PARE_LINES],
                            double share[PARE_LINES]);

#endif
