/* late.c: see late.h. */
#include "cli/late.h"

enum { AGAIN = 5 }; /* in the queue, where only who does not wait in it can come in between */

pare_change change_computed(const char *command, const options *given, const bench_in_use *use,
                            bool *late, pare_arena *arena)
{
    pare_change change = change_of(command, given, arena);
    change.craft = given->operand[0];
    change.since = use->since;
    change.late = late;
    return change;
}

pare_status change_in_time(const options *given,
                           pare_status (*once)(void *with, bool *late, pare_error *err), void *with,
                           pare_error *err)
{
    bool late = false;
    pare_store *turn = NULL;
    pare_text path = {0};
    pare_status status = once(with, &late, err);
    if (!late)
        return status;
    status = bench_path(given, false, &path, err);
    if (status == PARE_OK)
        status = bench_store(path.bytes, PARE_STORE_WRITE, &turn, err);
    if (status == PARE_OK)
        status = pare_store_turn(turn, true, err);
    for (int i = 0; i < AGAIN && late && (status == PARE_OK || i > 0); i++) {
        late = false;
        status = once(with, &late, err);
    }
    pare_store_close(turn);
    pare_text_free(&path);
    return status;
}
