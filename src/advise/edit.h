/* edit.h: a craft being changed by one swap, and what the change drags along. Only this room uses
 * it. */
#ifndef PARE_ADVISE_EDIT_H
#define PARE_ADVISE_EDIT_H

#include "advise/money.h"
#include "advise/name.h"
#include "advise/shelf.h"
#include "advise/swap.h"

typedef struct pare_edit {
    const pare_shelf *shelf;
    const pare_craft *before; /* settled, as it was */
    pare_craft *craft;        /* a copy, being changed */
    pare_applied *applied;
    pare_basket *basket; /* what this and earlier swaps of one list ask to buy */
} pare_edit;

#if defined(__GNUC__)
#define PARE_EDIT_FORMAT __attribute__((format(printf, 2, 3)))
#else
#define PARE_EDIT_FORMAT
#endif
/** What comes along, what goes along, what comes into question; beyond the room for them, silent. */
PARE_EDIT_FORMAT void pare_edit_bring(pare_edit *edit, const char *format, ...);
PARE_EDIT_FORMAT void pare_edit_drop(pare_edit *edit, const char *format, ...);
PARE_EDIT_FORMAT void pare_edit_note(pare_edit *edit, const char *format, ...);
/** A note on something that must be put right, or weighed, before the swap can be counted on. */
PARE_EDIT_FORMAT void pare_edit_warn(pare_edit *edit, const char *format, ...);

/** Takes an item off because another change makes it needless. */
void pare_edit_take_off(pare_edit *edit, size_t index);

/** Puts a part on that a change needs: an off item of the same part is put back, otherwise a new
 * item is added at `like`'s place with its job.
 * @param name  lasting; a number is not added: PARE_BAD_DATA where the craft has no room or has an
 *              item of that name already */
pare_status pare_edit_put_on(pare_edit *edit, const pare_part *part, int count, const char *name,
                             size_t like, size_t *index, pare_error *err);

/** After an item's part has changed: the runs, screws and things that the old part brought make way
 * for those that the new one brings. */
pare_status pare_edit_carry_over(pare_edit *edit, size_t index, const pare_part *old,
                                 pare_error *err);

/** Screws that hold, and wires that serve, an item that this swap took off go with it. */
void pare_edit_drop_orphans(pare_edit *edit);

/** Takes a run or joint away. */
void pare_edit_remove_run(pare_edit *edit, size_t index);
void pare_edit_remove_joint(pare_edit *edit, size_t index);

/** Motor wires that have become too short are made longer. */
void pare_edit_reach(pare_edit *edit);

/** "craft 'x' has no joint 'y'; did you mean 'z'?", or which it has.
 * @param what  "joint" */
pare_status pare_edit_no_such(const pare_craft *craft, const char *what, const char *name,
                              size_t count, const char *const known[], pare_error *err);

/* ---- one file each; the craft in edit is changed, nothing is settled yet ---- */
pare_status pare_apply_item(pare_edit *edit, const pare_swap_name *name, pare_error *err);
pare_status pare_apply_coax(pare_edit *edit, const pare_swap_name *name, pare_error *err);
pare_status pare_apply_joint(pare_edit *edit, const pare_swap_name *name, pare_error *err);
pare_status pare_apply_run(pare_edit *edit, const pare_swap_name *name, pare_error *err);

/** Applies a name that was read, settles the craft, and sums the money of the basket.
 * @param before, changed  two different craft */
pare_status pare_swap_edit(const pare_shelf *shelf, const pare_craft *before,
                           const pare_swap_name *name, pare_craft *changed, pare_applied *applied,
                           pare_basket *basket, pare_error *err);

/** The same for a single swap: with a shelf of its own. */
pare_status pare_swap_edit_alone(const pare_bench *bench, const pare_craft *before,
                                 const pare_swap_name *name, pare_craft *changed,
                                 pare_applied *applied, pare_basket *basket, pare_error *err);

/** Two swaps of one list: PARE_UNKNOWN, naming both, where they set the same thing or one takes off
 * what the other sets.
 * @param before, after  the craft on either side of `later` */
pare_status pare_swap_clash(const pare_swap_name *earlier, const pare_swap_name *later,
                            const pare_craft *before, const pare_craft *after, pare_error *err);

/** An item's index; off ones as well. PARE_UNKNOWN with the nearest name. */
pare_status pare_edit_find_item(const pare_craft *craft, const char *name, size_t *index,
                                pare_error *err);

#endif
