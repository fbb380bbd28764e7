/* outlines.c: the outlines of a craft's plates (see outlines.h). */
#include "cli/outlines.h"

#include <string.h>

pare_status bench_outlines(const bench_in_use *use, const pare_craft *craft, size_t *count,
                           pare_plate_outline **outline, pare_error *err)
{
    pare_arena *arena = use->bench->arena;
    size_t most = 0;
    for (size_t i = 0; i < craft->items; i++)
        most += craft->item[i].part->pieces;
    pare_plate_outline *list = pare_arena_array(arena, most + 1, sizeof *list);
    if (!list)
        return pare_no_memory(err);
    *count = 0;
    *outline = list;
    for (size_t i = 0; i < craft->items; i++)
        for (size_t k = 0; k < craft->item[i].part->pieces; k++) {
            const pare_piece *piece = &craft->item[i].part->piece[k];
            if (piece->form != PARE_FORM_PLATE || !piece->file)
                continue;
            size_t known = 0;
            while (known < *count && strcmp(list[known].file, piece->file) != 0)
                known++;
            if (known < *count)
                continue;
            pare_plate_outline *one = &list[(*count)++];
            one->file = piece->file;
            const pare_status status =
                pare_store_outline(use->store, one->file, arena, &one->loops, &one->loop, err);
            if (status != PARE_OK)
                return status;
        }
    return PARE_OK;
}
