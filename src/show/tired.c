/* tired.c: cells far above their mates, as sentences and as JSON (see tired.h). A reading that a newer
 * one of the same pack has replaced is history. */
#include "show/tired.h"

#include "show/sheet_json.h"

static bool is_tired(const pare_part *part, size_t i)
{
    return part->charged[i].group.worst > 0 &&
           pare_charged_newest(part->chargings, part->charged, i);
}

void pare_tired_cells_text(const pare_part *part, const pare_screen *screen, pare_text *out)
{
    for (size_t i = 0; i < part->chargings; i++) {
        const pare_charged *one = &part->charged[i];
        if (!is_tired(part, i))
            continue;
        pare_text line = {0};
        pare_text_printf(&line,
                         "Cell %d of pack %d (%s) has %.2f times the resistance of its mates%s%s: "
                         "it ages faster than they do.",
                         one->group.worst, one->which, part->id, one->group.worst_times,
                         one->date ? ", read " : "", one->date ? one->date : "");
        pare_put_line(screen, out, 0, 0, &line);
    }
}

static void add_part(json_t *list, const pare_part *part)
{
    for (size_t i = 0; i < part->chargings; i++) {
        const pare_charged *one = &part->charged[i];
        if (!is_tired(part, i))
            continue;
        json_t *cell = json_object();
        json_object_set_new(cell, "part", json_string(part->id));
        json_object_set_new(cell, "which", json_integer(one->which));
        json_object_set_new(cell, "cell", json_integer(one->group.worst));
        json_object_set_new(cell, "times", pare_json_number(one->group.worst_times));
        json_object_set_new(cell, "date", pare_text_or_null(one->date));
        json_array_append_new(list, cell);
    }
}

json_t *pare_tired_cells(const pare_craft *craft)
{
    json_t *list = json_array();
    for (size_t i = 0; i < craft->items; i++) {
        bool before = false;
        for (size_t k = 0; k < i; k++)
            before = before || (!craft->item[k].off && craft->item[k].part == craft->item[i].part);
        if (!craft->item[i].off && !before)
            add_part(list, craft->item[i].part);
    }
    return list;
}

json_t *pare_part_tired_cells(const pare_part *part)
{
    json_t *list = json_array();
    add_part(list, part);
    return list;
}
