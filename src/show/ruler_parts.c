/* ruler_parts.c: every gram of a craft by system, then by part (see ruler_parts.h). */
#include "show/ruler_parts.h"

#include <math.h>
#include <string.h>

/* The item that a line's joint or run came with, or -1. */
static int came_with(const pare_craft *craft, const pare_line *line)
{
    const char *item = line->of == PARE_LINE_JOINT ? craft->joint[line->index].included_in
                       : line->of == PARE_LINE_RUN ? craft->run[line->index].included_in
                                                   : NULL;
    return item ? pare_craft_item(craft, item) : -1;
}

pare_system pare_ruler_system(const pare_craft *craft, const pare_line *line)
{
    const int item = came_with(craft, line);
    return item < 0 ? line->system : pare_kind_system(craft->item[item].part->kind);
}

/* Takes what was cut away from the item that it came with, then from the heaviest that are left. */
static void cut_away(double cut_kg, int item, size_t parts, pare_ruler_part part[])
{
    while (cut_kg > 0) {
        size_t from = 0;
        bool found = false;
        for (size_t i = 0; i < parts && !found; i++) {
            found = part[i].of == PARE_LINE_ITEM && (int)part[i].index == item && part[i].kg > 0;
            if (found || part[i].kg > part[from].kg)
                from = i;
        }
        if (parts == 0 || !(part[from].kg > 0))
            return;
        const double taken_kg = fmin(cut_kg, part[from].kg);
        part[from].kg -= taken_kg;
        cut_kg -= taken_kg;
    }
}

static size_t parts_of(const pare_craft *craft, const pare_sheet *sheet,
                       pare_ruler_part part[PARE_LINES])
{
    size_t parts = 0;
    for (size_t i = 0; i < sheet->assembly.lines; i++) {
        const pare_line *line = &sheet->assembly.line[i];
        if (line->mass_kg.value > 0)
            part[parts++] = (pare_ruler_part){.system = pare_ruler_system(craft, line),
                                              .of = line->of,
                                              .index = line->index,
                                              .name = line->name,
                                              .count = line->count,
                                              .kg = line->mass_kg.value,
                                              .known = line->mass_kg.known};
    }
    for (size_t i = 0; i < sheet->assembly.lines; i++) {
        const pare_line *line = &sheet->assembly.line[i];
        if (line->mass_kg.value < 0)
            cut_away(-line->mass_kg.value, came_with(craft, line), parts, part);
    }
    return parts;
}

static const pare_ruler_part *same(const pare_ruler_part *sought, size_t parts,
                                   const pare_ruler_part part[])
{
    for (size_t i = 0; i < parts; i++)
        if (part[i].of == sought->of && strcmp(part[i].name, sought->name) == 0)
            return &part[i];
    return NULL;
}

static double shown_kg(const pare_ruler_part *part)
{
    return part->kg + fmax(part->off_kg, 0);
}

static bool goes_before(const pare_ruler_part *a, const pare_ruler_part *b)
{
    return a->system != b->system ? a->system < b->system : shown_kg(a) > shown_kg(b);
}

size_t pare_ruler_parts(const pare_craft *craft, const pare_sheet *sheet,
                        const pare_craft *craft_before, const pare_sheet *before,
                        pare_ruler_part part[PARE_RULER_PARTS])
{
    pare_ruler_part then[PARE_LINES];
    const size_t was = before ? parts_of(craft_before, before, then) : 0;
    size_t parts = parts_of(craft, sheet, part);
    for (size_t i = 0; before && i < parts; i++) {
        const pare_ruler_part *old = same(&part[i], was, then);
        part[i].off_kg = (old ? old->kg : 0) - part[i].kg;
    }
    const size_t now = parts;
    for (size_t i = 0; i < was; i++)
        if (!same(&then[i], now, part)) {
            part[parts] = then[i];
            part[parts].off_kg = then[i].kg;
            part[parts++].kg = 0;
        }
    for (size_t i = 1; i < parts; i++) {
        const pare_ruler_part moving = part[i];
        size_t at = i;
        for (; at > 0 && goes_before(&moving, &part[at - 1]); at--)
            part[at] = part[at - 1];
        part[at] = moving;
    }
    return parts;
}
