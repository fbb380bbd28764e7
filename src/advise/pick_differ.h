/* pick_differ.h: the best few choices that truly differ (see pick.h). */
#ifndef PARE_ADVISE_PICK_DIFFER_H
#define PARE_ADVISE_PICK_DIFFER_H

#include <stdbool.h>

#include "advise/pick.h"

/** Whether a choice will do, by rules that are no sums.
 * @return PARE_OK: it will; PARE_NO: it will not; anything else ends the search with it */
typedef pare_status pare_pick_judge(void *context, const size_t choice[],
                                    const pare_pick_amounts *sum, pare_error *err);

typedef struct pare_pick_found {
    pare_pick_amounts sum;
    const size_t *choice; /* [classes] */
} pare_pick_found;

/** The lightest choice that will do, then the lightest that differs from it, then the lightest that
 * differs from both ..., in the order of a stream (pick_stream.h).
 *
 * @param counts   [classes]: two choices differ when one of these classes differs; of choices that do
 *                 not, only the best is given
 * @param wanted   how many
 * @param judge    asked once about each choice that comes up; NULL: all will do
 * @param[out] found  [wanted]; choices are from the arena
 * @param[out] count  fewer than wanted: there are no more
 * @return as pare_pick_front_make(), and what the judge said. The room is for each of at most 1 + (wanted -
 *         1) x counting classes streams */
pare_status pare_pick_differ(const pare_pick *pick, const bool counts[], size_t wanted,
                             pare_pick_judge *judge, void *context, pare_arena *arena,
                             pare_pick_found found[], size_t *count, pare_error *err);

#endif
