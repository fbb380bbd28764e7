/* outline.c: the craft from above and from the side, as JSON (see outline.h).
 *
 * The pieces are those of the report's page (silhouette.c), in the order in which they hide each other.
 * Millimetres to a hundredth: a screen shows no more, and the answer is half as long. */
#include "show/outline.h"

#include <math.h>

#include "show/json.h"
#include "show/ruler_parts.h"
#include "show/sheet_json.h"
#include "show/view_notes.h"

enum { NOTES = 8 };

static json_t *mm(double m)
{
    return pare_json_number(round(1e5 * m) / 100 + 0.0);
}

static json_t *list_mm(size_t count, const double m[])
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, mm(m[i]));
    return list;
}

static json_t *place_mm(pare_vec3 at_m)
{
    return list_mm(3, (const double[]){at_m.x, at_m.y, at_m.z});
}

static json_t *loops_of(const pare_silhouette *one)
{
    json_t *loops = json_array();
    for (size_t i = 0; i < one->loops; i++) {
        json_t *loop = json_array();
        for (size_t k = 0; k < one->loop[i].points; k++)
            json_array_append_new(loop, list_mm(2, one->loop[i].at_m[k]));
        json_array_append_new(loops, loop);
    }
    return loops;
}

static json_t *view_object(const pare_craft *craft, const pare_view *view)
{
    json_t *object = json_object(), *shapes = json_array();
    for (size_t i = 0; i < view->count; i++) {
        const pare_silhouette *one = &view->one[i];
        json_t *shape = json_object();
        json_object_set_new(shape, "item", json_string(craft->item[one->item].name));
        json_object_set_new(shape, "copy", json_integer((json_int_t)one->copy));
        json_object_set_new(shape, "disc", json_boolean(one->disc));
        json_object_set_new(shape, "boxed", json_boolean(one->boxed));
        json_object_set_new(shape, "near_mm", mm(one->near_m));
        json_object_set_new(shape, "middle_mm", list_mm(2, one->middle_m));
        json_object_set_new(shape, "loops", loops_of(one));
        json_array_append_new(shapes, shape);
    }
    json_object_set_new(object, "low_mm", list_mm(view->count ? 2 : 0, view->low_m));
    json_object_set_new(object, "high_mm", list_mm(view->count ? 2 : 0, view->high_m));
    json_object_set_new(object, "boxes", json_integer((json_int_t)view->boxes));
    json_object_set_new(object, "left_out", json_integer((json_int_t)view->left_out));
    json_object_set_new(object, "shapes", shapes);
    return object;
}

/* What an item, joint or run weighs on the sheet, and how that is known. */
static void grams_into(json_t *object, const pare_assembly *assembly, pare_line_of of, size_t index)
{
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        if (line->of != of || line->index != index)
            continue;
        json_object_set_new(object, "all_g", pare_json_number(1e3 * line->mass_kg.value));
        json_object_set_new(object, "all_g_u", pare_json_number(1e3 * line->mass_kg.u));
        json_object_set_new(object, "known", json_string(pare_known_name(line->mass_kg.known)));
    }
}

static bool boxed(const pare_view *above, size_t item)
{
    for (size_t i = 0; i < above->count; i++)
        if (above->one[i].item == item && above->one[i].boxed)
            return true;
    return false;
}

static json_t *items(const pare_sheet_view *view, const pare_view *above)
{
    static const char *const placed[] = {
        [PARE_AT_DEFAULT] = "usual", [PARE_AT_POINTS] = "said", [PARE_AT_ARMS] = "arms"};
    json_t *list = json_array();
    for (size_t i = 0; i < view->craft.items; i++) {
        const pare_item *item = &view->craft.item[i];
        if (item->off)
            continue;
        json_t *one = json_object(), *at = json_array();
        for (int k = 0; k < pare_item_places(item); k++)
            json_array_append_new(at, place_mm(pare_item_station(&view->craft, item, (size_t)k)));
        json_object_set_new(one, "name", json_string(item->name));
        json_object_set_new(one, "part", json_string(item->part->id));
        json_object_set_new(one, "kind", json_string(pare_kind_name(item->part->kind)));
        json_object_set_new(one, "system",
                            json_string(pare_system_name(pare_kind_system(item->part->kind))));
        json_object_set_new(one, "count", json_integer(item->count));
        json_object_set_new(one, "placed", json_string(placed[item->place]));
        json_object_set_new(one, "at_mm", at);
        json_object_set_new(one, "boxed", json_boolean(boxed(above, i)));
        json_object_set_new(one, "size_estimated", json_boolean(item->part->body_estimated));
        grams_into(one, &view->sheet.assembly, PARE_LINE_ITEM, i);
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *discs(const pare_craft *craft)
{
    json_t *list = json_array();
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        for (int k = 0;
             !item->off && item->part->kind == PARE_PROPELLER && k < pare_item_places(item); k++) {
            json_t *one = json_object();
            json_object_set_new(one, "item", json_string(item->name));
            json_object_set_new(one, "at_mm", place_mm(pare_item_station(craft, item, (size_t)k)));
            json_object_set_new(one, "diameter_mm", mm(item->part->spec[PARE_SPEC_DIAMETER].value));
            json_array_append_new(list, one);
        }
    }
    return list;
}

static json_t *joints(const pare_sheet_view *view)
{
    json_t *list = json_array();
    for (size_t i = 0; i < view->craft.joints; i++) {
        const pare_joint *joint = &view->craft.joint[i];
        const int holds = joint->holds ? pare_craft_item(&view->craft, joint->holds) : -1;
        if (holds >= 0 && view->craft.item[holds].off)
            continue;
        pare_vec3 at_m[PARE_STATIONS];
        const size_t places = pare_joint_places(&view->craft, joint, at_m);
        json_t *one = json_object(), *at = json_array();
        for (size_t k = 0; k < places; k++)
            json_array_append_new(at, place_mm(at_m[k]));
        json_object_set_new(one, "joint", json_string(joint->name));
        json_object_set_new(one, "standard", json_string(pare_fastener_name(joint->standard)));
        json_object_set_new(one, "thread_mm", mm(joint->thread.nominal_m));
        json_object_set_new(one, "length_mm", mm(joint->length_m));
        json_object_set_new(one, "material",
                            json_string(pare_screw_material_name(joint->material)));
        json_object_set_new(one, "count", json_integer(joint->count));
        json_object_set_new(one, "holds", pare_text_or_null(joint->holds));
        json_object_set_new(one, "included_in", pare_text_or_null(joint->included_in));
        json_object_set_new(one, "at_mm", at);
        grams_into(one, &view->sheet.assembly, PARE_LINE_JOINT, i);
        json_array_append_new(list, one);
    }
    return list;
}

static void balance_into(json_t *object, const pare_sheet_view *view)
{
    const pare_sheet *sheet = &view->sheet;
    const pare_sheet_figure *shift = &sheet->figure[PARE_PACK_SHIFT];
    const int pack = pare_craft_doing(&view->craft, PARE_PACK);
    const double u_m[] = {sheet->figure[PARE_CG_X].u, sheet->figure[PARE_CG_Y].u,
                          sheet->figure[PARE_CG_Z].u};
    json_object_set_new(object, "cg_mm", place_mm(sheet->assembly.all.at_m));
    json_object_set_new(object, "cg_mm_u", list_mm(3, u_m));
    json_object_set_new(object, "pack",
                        pack < 0 ? json_null() : json_string(view->craft.item[pack].name));
    json_object_set_new(object, "pack_shift_mm", shift->exists ? mm(shift->value) : json_null());
    json_object_set_new(object, "pack_shift_mm_u", shift->exists ? mm(shift->u) : json_null());
    if (!shift->exists)
        json_object_set_new(object, "why", json_string(shift->why));
    json_t *axes = json_array();
    for (int axis = 0; axis < 3; axis++) {
        json_t *along = json_array();
        for (int i = 0; i < 3; i++)
            json_array_append_new(along, pare_json_number(sheet->principal_axes.m[i][axis]));
        json_array_append_new(axes, along);
    }
    json_object_set_new(object, "principal_axes", axes);
}

static json_t *notes(const pare_craft *craft, const pare_view *above)
{
    char note[NOTES][PARE_VIEW_NOTE];
    const size_t count = pare_view_notes(craft, above, NOTES, note);
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, json_string(note[i]));
    return list;
}

pare_status pare_outline_object(const pare_sheet_view *view, size_t outlines,
                                const pare_plate_outline outline[], json_t **object,
                                pare_error *err)
{
    static const char *const name[PARE_SEEN] = {
        [PARE_SEEN_ABOVE] = "above", [PARE_SEEN_SIDE] = "side"};
    pare_arena *arena = pare_arena_open();
    json_t *made = json_object();
    pare_view seen[PARE_SEEN];
    pare_status status = arena && made ? PARE_OK : pare_no_memory(err);
    for (int s = 0; status == PARE_OK && s < PARE_SEEN; s++)
        status = pare_view_of(&view->craft, (pare_seen)s, outlines, outline, arena, &seen[s], err);
    if (status == PARE_OK) {
        json_object_set_new(made, "craft", json_string(view->craft.name));
        json_object_set_new(made, "loadout", pare_text_or_null(view->loadout));
        json_object_set_new(made, "tried", pare_text_or_null(view->tried));
        json_t *views = json_object();
        for (int s = 0; s < PARE_SEEN; s++)
            json_object_set_new(views, name[s], view_object(&view->craft, &seen[s]));
        json_object_set_new(made, "views", views);
        json_object_set_new(made, "items", items(view, &seen[PARE_SEEN_ABOVE]));
        json_object_set_new(made, "discs", discs(&view->craft));
        json_object_set_new(made, "joints", joints(view));
        json_object_set_new(made, "motors", pare_motors_json(&view->sheet, &view->balance));
        balance_into(made, view);
        json_object_set_new(made, "notes", notes(&view->craft, &seen[PARE_SEEN_ABOVE]));
        *object = made;
        made = NULL;
    }
    json_decref(made);
    pare_arena_close(arena);
    return status;
}
