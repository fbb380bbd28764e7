/* shelf.c: the bench's parts by work (see shelf.h).
 *
 * A swap of one item asks for parts of one sort many times: what may take its place, what joins it to
 * the frame, what mates with its plug. Going through a whole bench each time would make the list of
 * swaps grow with the square of the bench, so the parts are sorted once, by counting. */
#include "advise/shelf.h"

#include <string.h>

#include "advise/stand_in.h"

pare_status pare_shelf_fill(const pare_bench *bench, pare_arena *arena, pare_shelf *shelf,
                            pare_error *err)
{
    *shelf = (pare_shelf){.bench = bench};
    shelf->part = pare_arena_array(arena, bench->parts + 1, sizeof shelf->part[0]);
    if (!shelf->part)
        return pare_no_memory(err);
    for (size_t p = 0; p < bench->parts; p++)
        if (!bench->part[p]->sought)
            shelf->first[pare_main_kind(bench->part[p]->kind) + 1]++;
    for (int kind = 0; kind < PARE_KINDS; kind++)
        shelf->first[kind + 1] += shelf->first[kind];
    size_t next[PARE_KINDS];
    memcpy(next, shelf->first, sizeof next);
    for (size_t p = 0; p < bench->parts; p++)
        if (!bench->part[p]->sought)
            shelf->part[next[pare_main_kind(bench->part[p]->kind)]++] = bench->part[p];
    return PARE_OK;
}

const pare_part *const *pare_shelf_row(const pare_shelf *shelf, pare_kind kind, size_t *count)
{
    const pare_kind main = pare_main_kind(kind);
    *count = shelf->first[main + 1] - shelf->first[main];
    return shelf->part + shelf->first[main];
}
