/* swaps.h: every single change to a craft that its bench and the rules allow, with all that it does.
 *
 * Rows are lent by pointer and good until their list is closed. Do not make values of the type yourself:
 * members may be added at its end. Threads: a list never changes, so any number may read it. */
#ifndef PARE_SWAPS_H
#define PARE_SWAPS_H

#include <pare/snapshot.h>

PARE_BEGIN

typedef struct pare_swap_list pare_swap_list;

/** One swap. Lists of names end with a NULL. */
typedef struct pare_swap_row {
    const char *id;        /* "bumper=off": to be tried with pare_craft_sheet_compute() */
    const char *from, *to; /* as read by a person */
    const char *band;      /* what it takes: "free", "cheap", "deep" (motors or pack), "dear" */
    int sought;            /* rests on a part that is on no shelf */
    double grams, grams_u; /* saved: lighter is positive */
    double money;          /* to be paid, as it must be bought; NaN: a price is not known */
    double money_per_g;    /* NaN: no price, or nothing is saved */
    double work_min;
    const char *const *brings, *const *drops;   /* what comes or goes along */
    const char *const *breaks, *const *loosens; /* margins that no longer hold; that hold again */
    const char *const *notes;                   /* what it brings into question, a line each */
} pare_swap_row;

/** Finds them, as `pare swaps` does.
 *
 * @param craft, loadout  as for pare_craft_sheet_compute()
 * @param wish  by what they are ordered: "grams" (NULL), "minutes", "thrust", "quickness", "money",
 *              "crash"
 * @param[out] list  close with pare_swap_list_close(); NULL on failure
 * @return PARE_OK; PARE_UNKNOWN: no such craft or loadout; PARE_BAD_DATA: no such wish, or a craft that
 *         cannot be weighed; PARE_UNAVAILABLE: no memory
 * Cost: some 10 microseconds a swap; uses all processors (OMP_NUM_THREADS says how many). */
PARE_PUBLIC pare_status pare_swap_list_find(const pare_snapshot *snapshot, const char *craft,
                                            const char *loadout, const char *wish,
                                            pare_swap_list **list, pare_error *err);
/** NULL is fine. */
PARE_PUBLIC void pare_swap_list_close(pare_swap_list *list);

/** Rows: free swaps first, then by the wish; sought ones last.
 * @param index  from 0; NULL is returned beyond the last */
PARE_PUBLIC const pare_swap_row *pare_swap_list_row(const pare_swap_list *list, size_t index);

/** What a swap changes of a figure, in the figure's unit: with it less without it.
 * @param key  as on a sheet: "flown_min"
 * @return NaN where the figure is missing before or after, or there is no such row or key */
PARE_PUBLIC double pare_swap_list_change(const pare_swap_list *list, size_t index, const char *key);

PARE_END

#endif
