/* by_scale.c: a bench by the scale (see by_scale.h).
 *
 * The adjustment is made on a reading of its own, since it starts from what is written, and takes craft
 * that nobody asked for: a motor may have been weighed on another. */
#include "lib/by_scale.h"

#include "advise/weighed.h"

static pare_status put_on(pare_closure *closure, const pare_built *built, pare_error *err)
{
    pare_bench *bench = built->bench;
    pare_status status = PARE_OK;
    for (size_t i = 0; i < bench->crafts && status == PARE_OK; i++) {
        pare_craft *craft = bench->craft[i];
        const pare_weighed *weighed = NULL;
        status = pare_weighed_make(closure, craft, bench->arena, &weighed, err);
        if (status != PARE_OK)
            break;
        pare_weighed_put_lines(weighed, craft);
        if (built->first[i].craft != craft)
            pare_weighed_put_lines(weighed, built->first[i].craft);
    }
    if (status == PARE_OK)
        pare_weighed_put_parts(closure, bench);
    return status;
}

static pare_status adjust(pare_store *store, const pare_built *built, const pare_bench *weighed,
                          pare_arena *arena, pare_error *err)
{
    pare_weighings weighings;
    pare_closure *closure = NULL;
    const pare_closure_of of = {.bench = weighed,
                                .crafts = weighed->crafts,
                                .first = (const pare_craft *const *)weighed->craft,
                                .weighings = &weighings};
    pare_status status = pare_store_weighings(store, arena, &weighings, err);
    if (status == PARE_OK)
        status = pare_closure_open(&of, arena, &closure, err);
    if (status == PARE_OK && pare_closure_has_readings(closure))
        status = put_on(closure, built, err);
    return status;
}

pare_status pare_by_scale(pare_store *store, const char *craft, const pare_built *built,
                          pare_error *err)
{
    pare_bench *weighed = NULL;
    pare_status status = pare_store_read_weighed(store, craft, &weighed, err);
    if (status != PARE_OK || !weighed)
        return status;
    pare_arena *arena = pare_arena_open();
    status = arena ? adjust(store, built, weighed, arena, err) : pare_no_memory(err);
    pare_arena_close(arena);
    pare_bench_close(weighed);
    return status;
}
