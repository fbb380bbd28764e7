/* mend.h: what would make good what a swap breaks. */
#ifndef PARE_ADVISE_MEND_H
#define PARE_ADVISE_MEND_H

#include "advise/swap.h"

/** One further swap after which nothing breaks, or another value of the same instead. */
typedef struct pare_mend {
    bool sought; /* one was looked for; what follows means something */
    bool found;
    char id[PARE_SWAP_NAME];
    bool instead;    /* it sets what the first sets: for it, not with it */
    double grams_kg; /* that both save together, or the other instead */
    double money;    /* for both, as it must really be bought */
    bool priced;
} pare_mend;

/** For the first rows that break a margin, the lightest swap that mends them: a wire one size up, a
 * stronger material, more screws (never more than it has now) or another length for a joint, another ESC, motor,
 * propeller or pack for what theirs bears; something must still be saved. Rows that lose a kept job or rest on a sought part are passed over.
 *
 * @param most       rows that are looked at
 * @param[out] mend  [swaps->count], in the arena
 * Costs up to 40 sheets a row. */
pare_status pare_mends_find(const pare_bench *bench, const pare_craft *craft, int loadout,
                            const pare_swaps *swaps, size_t most, pare_arena *arena,
                            const pare_mend **mend, pare_error *err);

#endif
