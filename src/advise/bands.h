/* bands.h: how much swaps save together: free, cheap, and with motors and pack. Only this room uses
 * it. */
#ifndef PARE_ADVISE_BANDS_H
#define PARE_ADVISE_BANDS_H

#include "advise/row.h"

/** Fills a sorted list's bands and the set of free ones.
 *
 * Greedy by grams, each step a full re-evaluation of all taken so far: not proven best, and said so
 * nowhere as such. A swap is passed over that clashes with one taken, no longer fits, saves nothing
 * any more, loses a kept job, breaks a margin that held, or leaves a question open. */
pare_status pare_bands_fill(pare_desk *desk, pare_units *units, pare_arena *arena,
                            pare_swaps *swaps, pare_error *err);

#endif
