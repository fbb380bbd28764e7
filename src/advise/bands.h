/* bands.h: how much swaps save together: free, cheap, and with motors and pack. Only this room uses
 * it. */
#ifndef PARE_ADVISE_BANDS_H
#define PARE_ADVISE_BANDS_H

#include "advise/row.h"

/** A swap that saves grams by itself and that a band may count. */
typedef struct pare_saving {
    const pare_swap_name *name;
    double grams_kg, money;
    pare_band band;
    size_t index; /* its row in the list */
} pare_saving;

#define PARE_LEAST_SAVING_KG 1e-7

/** Whether a weighed row is worth counting: on some shelf, lighter, and no kept job is lost. */
bool pare_counts(const pare_craft *craft, const pare_swap *row);

/** Fills the bands and the set of free ones.
 *
 * Greedy by grams, each step a re-evaluation of all taken so far: not proven best, and said so
 * nowhere as such. A swap is passed over that clashes with one taken, no longer fits, saves nothing
 * any more, loses a kept job, breaks a margin that held, or leaves a question open.
 * @param savings  [count], in any order */
pare_status pare_bands_fill(const pare_desk *desk, size_t count, const pare_saving savings[],
                            pare_arena *arena, pare_swaps *swaps, pare_error *err);

#endif
