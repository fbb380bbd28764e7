/* ruler_json.c: the gram ruler as JSON (see ruler_json.h).
 *
 * Slices are the parts of ruler_parts.c, so that together they weigh what the craft does; shares and what
 * a gram is worth are those of the sheet's line of the same name. */
#include "show/ruler_json.h"

#include <math.h>
#include <stdlib.h>

#include "show/json.h"
#include "show/ruler.h"
#include "show/sheet_json.h"
#include "show/swaps.h"

enum { AXES = 3 };

static const char *const share_key[AXES] = {"roll_share", "pitch_share", "yaw_share"};
/* Minutes in seconds: a gram is worth a few of them at most. */
static const struct {
    const char *key;
    pare_figure figure;
} worth[] = {{"flown_s", PARE_FLOWN_TIME},
             {"burst_30m_s", PARE_BURST},
             {"thrust_to_weight_fresh", PARE_TWR_FRESH},
             {"roll_rad_s2", PARE_ROLL},
             {"pitch_rad_s2", PARE_PITCH},
             {"yaw_rad_s2", PARE_YAW}};

static const struct {
    const char *key;
    pare_figure figure;
} percent[] = {
    {"roll_percent", PARE_ROLL}, {"pitch_percent", PARE_PITCH}, {"yaw_percent", PARE_YAW}};

static size_t line_of(const pare_assembly *assembly, const pare_ruler_part *part)
{
    size_t line = 0;
    while (line < assembly->lines &&
           !(assembly->line[line].of == part->of && assembly->line[line].index == part->index))
        line++;
    return line;
}

static json_t *gram_of(const pare_sheet_view *view, size_t line)
{
    double per_kg[PARE_FIGURES];
    pare_sheet_gram_of(&view->craft, &view->sheet, line, per_kg);
    json_t *object = json_object();
    for (size_t i = 0; i < sizeof worth / sizeof worth[0]; i++)
        json_object_set_new(object, worth[i].key, pare_json_number(1e-3 * per_kg[worth[i].figure]));
    for (size_t i = 0; i < sizeof percent / sizeof percent[0]; i++) {
        const pare_sheet_figure *now = &view->sheet.figure[percent[i].figure];
        const double per_g = 1e-3 * per_kg[percent[i].figure];
        json_object_set_new(object, percent[i].key,
                            now->exists && now->value > 0
                                ? pare_json_number(100 * per_g / now->value)
                                : json_null());
    }
    return object;
}

static double shown_kg(const pare_ruler_part *part)
{
    return part->kg + fmax(part->off_kg, 0);
}

static const char *part_id(const pare_sheet_view *view, const pare_ruler_part *part)
{
    const pare_craft *craft = part->kg > 0 ? &view->craft : &view->craft_before;
    return part->of == PARE_LINE_ITEM ? craft->item[part->index].part->id : NULL;
}

static json_t *slice(const pare_sheet_view *view, const pare_ruler_part *part, double from_kg)
{
    const pare_assembly *assembly = &view->sheet.assembly;
    const size_t line = part->kg > 0 ? line_of(assembly, part) : assembly->lines;
    const bool on = line < assembly->lines;
    json_t *one = json_object();
    json_object_set_new(one, "name", json_string(part->name));
    json_object_set_new(one, "of", json_string(pare_line_of_name(part->of)));
    json_object_set_new(one, "part", pare_text_or_null(part_id(view, part)));
    json_object_set_new(one, "system", json_string(pare_system_name(part->system)));
    json_object_set_new(one, "count", json_integer(part->count));
    json_object_set_new(one, "from_g", pare_json_number(1e3 * from_kg));
    json_object_set_new(one, "grams", pare_json_number(1e3 * part->kg));
    json_object_set_new(one, "grams_u",
                        on ? pare_json_number(1e3 * assembly->line[line].mass_kg.u) : json_null());
    json_object_set_new(one, "known", json_string(pare_known_name(part->known)));
    json_object_set_new(one, "off_g", pare_json_number(1e3 * part->off_kg));
    for (int axis = 0; axis < AXES; axis++)
        json_object_set_new(one, share_key[axis],
                            on ? pare_json_number(pare_line_share(assembly, line, axis))
                               : json_null());
    if (on)
        json_object_set_new(one, "gram", gram_of(view, line));
    return one;
}

typedef struct sums {
    double kg, off_kg, from_kg, known_kg[PARE_KNOWNS], share[AXES];
    bool any;
} sums;

static json_t *by_known(const double kg[PARE_KNOWNS])
{
    json_t *object = json_object();
    for (int i = 0; i < PARE_KNOWNS; i++)
        if (kg[i] > 0)
            json_object_set_new(object, pare_known_name((pare_known)i),
                                pare_json_number(1e3 * kg[i]));
    return object;
}

/* In the order of the ruler, which is that of the systems. */
static json_t *systems(const sums sum[PARE_SYSTEMS])
{
    json_t *list = json_array();
    for (int i = 0; i < PARE_SYSTEMS; i++) {
        if (!sum[i].any)
            continue;
        json_t *one = json_object();
        json_object_set_new(one, "system", json_string(pare_system_name((pare_system)i)));
        json_object_set_new(one, "from_g", pare_json_number(1e3 * sum[i].from_kg));
        json_object_set_new(one, "grams", pare_json_number(1e3 * sum[i].kg));
        json_object_set_new(one, "off_g", pare_json_number(1e3 * sum[i].off_kg));
        json_object_set_new(one, "known", by_known(sum[i].known_kg));
        for (int axis = 0; axis < AXES; axis++)
            json_object_set_new(one, share_key[axis], pare_json_number(sum[i].share[axis]));
        json_array_append_new(list, one);
    }
    return list;
}

/* Shares by line, so that what was cut away of a part counts against its system. */
static void add_shares(const pare_sheet_view *view, sums sum[PARE_SYSTEMS])
{
    const pare_assembly *assembly = &view->sheet.assembly;
    for (size_t i = 0; i < assembly->lines; i++)
        for (int axis = 0; axis < AXES; axis++)
            sum[pare_ruler_system(&view->craft, &assembly->line[i])].share[axis] +=
                pare_line_share(assembly, i, axis);
}

json_t *pare_ruler_object(const pare_sheet_view *view, const pare_swaps *swaps)
{
    const pare_craft *craft_before = view->tried ? &view->craft_before : NULL;
    const pare_sheet *before = view->tried ? &view->before : NULL;
    const pare_sheet_figure *all_up = &view->sheet.figure[PARE_ALL_UP];
    pare_ruler_part *part = malloc(PARE_RULER_PARTS * sizeof *part);
    json_t *object = part ? json_object() : NULL, *slices = json_array();
    sums sum[PARE_SYSTEMS] = {{0}};
    bool limit_shown;
    if (!object) {
        free(part);
        json_decref(slices);
        return NULL;
    }
    const pare_ruler ruler =
        pare_ruler_of(&view->craft, &view->sheet, craft_before, before, view->limit_kg);
    const size_t parts = pare_ruler_parts(&view->craft, &view->sheet, craft_before, before, part);
    double from_kg = 0;
    for (size_t i = 0; i < parts; i++) {
        sums *of = &sum[part[i].system];
        if (!of->any)
            *of = (sums){.any = true, .from_kg = from_kg};
        of->kg += part[i].kg;
        of->off_kg += part[i].off_kg;
        of->known_kg[part[i].known] += part[i].kg;
        json_array_append_new(slices, slice(view, &part[i], from_kg));
        from_kg += shown_kg(&part[i]);
    }
    add_shares(view, sum);
    json_object_set_new(object, "craft", json_string(view->craft.name));
    json_object_set_new(object, "loadout", pare_text_or_null(view->loadout));
    json_object_set_new(object, "tried", pare_text_or_null(view->tried));
    json_object_set_new(object, "all_up_g", pare_json_number(1e3 * all_up->value));
    json_object_set_new(object, "all_up_g_u", pare_json_number(1e3 * all_up->u));
    json_object_set_new(object, "whole_g",
                        pare_json_number(1e3 * pare_ruler_whole_kg(&ruler, &limit_shown)));
    json_object_set_new(object, "limit_g", pare_json_number(1e3 * view->limit_kg));
    json_object_set_new(object, "limit_shown", json_boolean(limit_shown));
    json_object_set_new(object, "limit_chance", pare_json_number(view->sheet.chance_all_up));
    json_object_set_new(object, "bands", pare_bands_object(swaps));
    json_object_set_new(object, "systems", systems(sum));
    json_object_set_new(object, "slices", slices);
    free(part);
    return object;
}
