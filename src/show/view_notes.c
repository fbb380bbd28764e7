/* view_notes.c: what stands in for what is not known (see view_notes.h). */
#include "show/view_notes.h"

#include <stdio.h>

typedef struct notes {
    size_t count, most;
    char (*note)[PARE_VIEW_NOTE];
} notes;

static void put(notes *to, size_t count, const char *one, const char *many, const char *rest)
{
    if (count > 0 && to->count < to->most)
        snprintf(to->note[to->count++], PARE_VIEW_NOTE, "%zu %s %s", count, count == 1 ? one : many,
                 rest);
}

size_t pare_view_notes(const pare_craft *craft, const pare_view *above, size_t most,
                       char note[][PARE_VIEW_NOTE])
{
    notes to = {0, most, note};
    size_t guessed = 0, unplaced = 0;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        guessed += !item->off && item->part->body_estimated && item->part->kind != PARE_PROPELLER;
        unplaced += !item->off && item->place == PARE_AT_DEFAULT && item->part->kind != PARE_FRAME;
    }
    put(&to, guessed, "part", "parts", "of unknown size drawn as usual for the kind");
    put(&to, unplaced, "item", "items", "without a station drawn where the kind usually sits");
    put(&to, above->boxes, "printed or cut piece", "printed or cut pieces",
        "drawn as a bounding box");
    put(&to, above->nowhere, "piece", "pieces", "not drawn: the mesh is not there");
    put(&to, above->left_out, "piece", "pieces", "left out: there are too many for one picture");
    return to.count;
}
