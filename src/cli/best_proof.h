/* best_proof.h: `pare best CRAFT --proof FILE`: a certificate of what the search says. */
#ifndef PARE_CLI_BEST_PROOF_H
#define PARE_CLI_BEST_PROOF_H

#include "advise/best.h"
#include "advise/proof.h"
#include "cli/use.h"
#include "show/json.h"

typedef struct best_proof {
    bool written;
    pare_proof_told told;
} best_proof;

/** Whether --proof goes with what else was asked. */
pare_status best_proof_check(const options *given, int wish, const pare_best_ask *ask,
                             pare_error *err);
/** Writes it, where --proof is given and there is something to certify.
 * @param left_s  of --time; INFINITY: as long as it takes */
pare_status best_proof_write(const options *given, const bench_in_use *use, const pare_craft *craft,
                             const pare_best_ask *ask, const pare_best *best, double left_s,
                             best_proof *proof, pare_error *err);
/** What came of it: a line below the answer, and the JSON's "proof". Nothing without --proof. */
void best_proof_text(const options *given, const best_proof *proof, pare_text *out);
void best_proof_put(const options *given, const best_proof *proof, json_t *answer);
/** PARE_NO where the certificate speaks against the search. */
pare_status best_proof_status(const best_proof *proof);

#endif
