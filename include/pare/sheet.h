/* sheet.h: everything computed for one craft: figures, margins, and the ledger of its grams.
 *
 * Figures, margins and lines are lent by pointer and good until their sheet is closed. Do not make values of
 * these types yourself: members may be added at their end.
 * Threads: a sheet never changes, so any number may read it. */
#ifndef PARE_SHEET_H
#define PARE_SHEET_H

#include <pare/snapshot.h>

PARE_BEGIN

typedef struct pare_craft_sheet pare_craft_sheet;

/** A figure with its standard uncertainty, both in its unit. */
typedef struct pare_craft_figure {
    const char *key;   /* "all_up_g": as in `pare sheet --json` */
    const char *words; /* "all-up mass" */
    const char *unit;  /* "g"; "" for a bare number */
    double value, value_u;
    const char *known; /* "weighed", "measured", "learned", "stated", "computed", "estimated" */
    const char *why;   /* NULL; otherwise the figure does not exist, for this reason: value and
                          value_u are NaN, known is NULL */
    int better;        /* 1: more of it is better; -1: less is; 0: neither */
} pare_craft_figure;

/** A limit, and how far off it the craft is. */
typedef struct pare_craft_margin {
    const char *name; /* "limit.all_up", "esc.burst" */
    const char *unit; /* of value and limit */
    double value, value_u, limit;
    int at_least;          /* value must not be less than limit; 0: not more */
    double ratio, ratio_u; /* what it bears over what it must bear: 1 or more holds */
    double chance;         /* that it holds, 0 to 1; NaN: not known */
    const char *from;      /* where the limit comes from: "brief", "stated by the maker" */
    const char *caution;   /* one line, or NULL */
} pare_craft_margin;

/** A line of the ledger: an item, joint or wire run; all of its copies. The lines add up to all_up_g. */
typedef struct pare_craft_line {
    const char
        *of; /* "item", "joint", "run", "unlisted": what a scale found and nobody wrote down */
    const char *name;
    int count;
    double grams, grams_u;
    const char *known; /* as of a figure */
} pare_craft_line;

/** Computes the sheet of a craft, as `pare sheet` does.
 *
 * @param craft    its name
 * @param loadout  by its name; NULL: the first, or none where the craft has none
 * @param swaps    swaps to try on it, by their names: "bumper=off,motor=mo-b"; NULL: none
 * @param[out] sheet  close with pare_craft_sheet_close(); NULL on failure
 * @return PARE_OK, also where single figures do not exist; PARE_UNKNOWN: no such craft, loadout or swap,
 *         with the nearest, or two swaps that clash; PARE_BAD_DATA: a swap that does not fit, or a craft
 *         that cannot be weighed; PARE_UNAVAILABLE: no memory */
PARE_PUBLIC pare_status pare_craft_sheet_compute(const pare_snapshot *snapshot, const char *craft,
                                                 const char *loadout, const char *swaps,
                                                 pare_craft_sheet **sheet, pare_error *err);
/** NULL is fine. */
PARE_PUBLIC void pare_craft_sheet_close(pare_craft_sheet *sheet);

/** A figure by its key; NULL: there is none of that key. */
PARE_PUBLIC const pare_craft_figure *pare_craft_sheet_find(const pare_craft_sheet *sheet,
                                                           const char *key);
/** Figures in the order of the program's. @param index  from 0; NULL is returned beyond the last */
PARE_PUBLIC const pare_craft_figure *pare_craft_sheet_figure(const pare_craft_sheet *sheet,
                                                             size_t index);
/** Margins, worst first; likewise. */
PARE_PUBLIC const pare_craft_margin *pare_craft_sheet_margin(const pare_craft_sheet *sheet,
                                                             size_t index);
/** Lines of the ledger; likewise. */
PARE_PUBLIC const pare_craft_line *pare_craft_sheet_line(const pare_craft_sheet *sheet,
                                                         size_t index);

PARE_END

#endif
