/* proof.h: a certificate that no set of swaps of a craft is lighter than a given one: written, and checked.
 *
 * A certificate is a text. Its head says of which bench, craft, loadout and question it is, which set is
 * claimed to be the lightest, and what that weighs. Behind it stands a tree of decisions, a line a node,
 * from the craft as it is down to leaves that each say why no set below them is lighter. Whoever checks it
 * walks the tree, makes the craft of each node again, and works out again what each leaf says.
 *
 * It is no record of what the search did (best.h): that rests on bounds that took years to get right, and
 * would have to be believed. It is written afterwards, with the search's answer in hand, by the rules that
 * the check itself has. So nothing of the search is in it but the claim, and a search that overlooked a
 * lighter set is found out: its tree does not close.
 *
 * What is trusted: physics and craft (what a craft weighs and how it flies, and that a flight's figures are
 * monotone in mass, load, drag and resistance in the sense that proof_flight.c writes down), what a swap does
 * to a craft (pare_swap_edit), and which swaps there are (pare_candidates). What is worked out here, and
 * shares no code with the search: the order of choices, what each line of a ledger weighs at the least, which
 * limits refute, the rule of what a set must do, and that the leaves cover everything.
 *
 *   proof_space.c   choices, their order, and a node of the tree from the one above it
 *   proof_bound.c   what a node's sets weigh at the least
 *   proof_flight.c  whether a node's sets fail by a limit, and the rule for whole sets
 *   proof_ring.c    masses at which arms ring; screws that hold in no way
 *   proof_leaf.c    what a reason says of a node, worked out anew
 *   proof_write.c   a tree that closes, as far as there is time
 *   proof_check.c   reads one
 *
 * What is not certified: which of several sets of the same mass costs least, and the search's front, walk and
 * other wishes. */
#ifndef PARE_ADVISE_PROOF_H
#define PARE_ADVISE_PROOF_H

#include <stdint.h>

#include "base/progress.h"
#include "craft/craft.h"

enum { PARE_PROOF_LINE = 512, PARE_PROOF_LINES_MOST = 10 * 1000 * 1000 };
#define PARE_PROOF_MASS_MOST 1000000000000LL /* 100 t in 0.1 mg: beyond that a number is none */

/** What was asked, and what is claimed. */
typedef struct pare_proof_claim {
    unsigned long long bench; /* a number for the bench's parts and this craft */
    int loadout;              /* -1 or an index into the craft's loadouts */
    size_t holds, nevers, musts;
    const char *const *hold, *const *never, *const *must; /* as the search was asked */
    bool found;                                           /* false: no set does what it must */
    int64_t best_100ug; /* each line of the ledger rounded to 0.1 mg */
    size_t swaps;
    const char *const *swap; /* the set, in the order in which it goes on */
} pare_proof_claim;

/** Where lines go; false: they cannot. A line comes without its end. */
typedef struct pare_proof_sink {
    bool (*put)(void *context, const char *line);
    void *context;
} pare_proof_sink;

/** Where they come from. @return how long the line is; -1: there is none left; -2: longer than
 * PARE_PROOF_LINE, or no text; -3: it cannot be read */
typedef struct pare_proof_source {
    int (*get)(void *context, char line[PARE_PROOF_LINE]);
    void *context;
    const char *name; /* of the file, for what is refused */
} pare_proof_source;

typedef struct pare_proof_told {
    bool verified; /* the claim holds */
    bool sound;    /* what is there is right, though leaves may be open */
    size_t lines;  /* of the tree */
    size_t leaves;
    size_t open; /* leaves that say nothing: what is below them was not looked into */
    int64_t best_100ug;
    bool found;
    size_t holds, nevers, musts; /* of the question: the claim is of sets that keep to these */
    const char *craft, *loadout; /* lent by the bench; NULL: not read so far, or none */
    char refusal[512];           /* FILE:LINE: what is wrong; empty: nothing */
} pare_proof_told;

/** Writes a certificate. One that was stopped has open leaves.
 * @param craft  as it is: settled, in no loadout
 * @param progress  asked between nodes whether to go on
 * @param[out] told  what was written: verified says that it closes
 * @return PARE_OK; PARE_UNAVAILABLE where the sink fails; PARE_BAD_DATA where the craft cannot be weighed */
pare_status pare_proof_write(const pare_bench *bench, const pare_craft *craft,
                             const pare_proof_claim *claim, const pare_progress *progress,
                             const pare_proof_sink *sink, pare_proof_told *told, pare_error *err);

/** Checks one.
 * @param mark  the bench's, for a craft of it: as pare_proof_claim's
 * @return PARE_OK whatever is found: told says what; PARE_UNAVAILABLE out of memory; PARE_STOPPED */
typedef pare_status pare_proof_mark(void *context, const pare_craft *craft,
                                    unsigned long long *mark, pare_error *err);
pare_status pare_proof_check(const pare_bench *bench, const pare_proof_source *source,
                             pare_proof_mark *mark, void *context, const pare_progress *progress,
                             pare_proof_told *told, pare_error *err);

#endif
