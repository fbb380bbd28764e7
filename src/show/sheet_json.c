/* sheet_json.c: a sheet as JSON (see sheet_json.h). Keys come from the table of figures; the three
 * of the centre of mass become one list, as a place is one thing. */
#include "show/sheet_json.h"

#include "advise/weigh_next.h"
#include "show/arms.h"
#include "show/crash.h"
#include "show/mass_rules.h"
#include "show/radio.h"
#include "show/screws.h"

#include <math.h>
#include <stdio.h>

#include "craft/drag.h"
#include "show/filled.h"
#include "show/label_show.h"
#include "show/source_words.h"
#include "show/surprises.h"
#include "show/tired.h"
#include "show/wires.h"

static const pare_figure centre[3] = {PARE_CG_X, PARE_CG_Y, PARE_CG_Z};

static bool of_centre(int figure)
{
    return figure == PARE_CG_X || figure == PARE_CG_Y || figure == PARE_CG_Z;
}

json_t *pare_text_or_null(const char *text)
{
    return text ? json_string(text) : json_null();
}

static void set_u(json_t *object, const char *key, json_t *u)
{
    char name[64];
    snprintf(name, sizeof name, "%s_u", key);
    json_object_set_new(object, name, u);
}

static void centre_into(json_t *object, json_t *known, const pare_sheet *sheet)
{
    json_t *at = json_array(), *u = json_array();
    for (int i = 0; i < 3; i++) {
        const pare_sheet_figure *f = &sheet->figure[centre[i]];
        json_array_append_new(at, pare_json_number(1e3 * f->value));
        json_array_append_new(u, pare_json_number(1e3 * f->u));
    }
    json_object_set_new(object, "cg_mm", at);
    json_object_set_new(object, "cg_mm_u", u);
    json_object_set_new(known, "cg_mm",
                        json_string(pare_known_name(sheet->figure[PARE_CG_X].known)));
}

void pare_figures_into(json_t *object, const pare_sheet *sheet)
{
    json_t *known = json_object(), *why = json_object();
    for (int i = 0; i < PARE_FIGURES; i++) {
        const pare_figure_row *row = &pare_figure_table[i];
        const pare_sheet_figure *f = &sheet->figure[i];
        if (i == PARE_CG_X)
            centre_into(object, known, sheet);
        if (of_centre(i))
            continue;
        json_object_set_new(object, row->key,
                            f->exists ? pare_json_number(row->scale * f->value) : json_null());
        set_u(object, row->key,
              f->exists && sheet->with_u ? pare_json_number(row->scale * f->u) : json_null());
        if (f->exists)
            json_object_set_new(known, row->key, json_string(pare_known_name(f->known)));
        else
            json_object_set_new(why, row->key, json_string(f->why));
    }
    json_object_set_new(object, "known", known);
    json_object_set_new(object, "why", why);
}

json_t *pare_changes_object(const double change[PARE_FIGURES])
{
    json_t *object = json_object();
    for (int i = 0; i < PARE_FIGURES; i++) {
        const pare_figure_row *row = &pare_figure_table[i];
        if (i == PARE_CG_X) {
            json_t *at = json_array();
            for (int k = 0; k < 3; k++)
                json_array_append_new(at, pare_json_number(1e3 * change[centre[k]]));
            json_object_set_new(object, "cg_mm", at);
        }
        if (!of_centre(i))
            json_object_set_new(object, row->key, pare_json_number(row->scale * change[i]));
    }
    return object;
}

json_t *pare_margins_json(const pare_sheet *sheet)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sheet->margins; i++) {
        const pare_margin *m = &sheet->margin[i];
        json_t *one = json_object();
        char words[64];
        json_object_set_new(one, "name", json_string(m->name));
        json_object_set_new(one, "words", json_string(pare_margin_words(m, words)));
        json_object_set_new(one, "value", pare_json_number(m->value));
        json_object_set_new(one, "value_u",
                            sheet->with_u ? pare_json_number(m->value_u) : json_null());
        json_object_set_new(one, "limit", pare_json_number(m->limit));
        json_object_set_new(one, "at_least", json_boolean(m->at_least));
        json_object_set_new(one, "unit", json_string(m->unit));
        json_object_set_new(one, "ratio", pare_json_number(m->ratio));
        json_object_set_new(one, "ratio_u", pare_json_number(m->ratio_u));
        json_object_set_new(one, "chance", pare_json_number(m->chance));
        json_object_set_new(one, "from", pare_text_or_null(m->from));
        json_object_set_new(one, "caution", pare_text_or_null(m->caution));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *ledger(const pare_sheet *sheet)
{
    static const char *const share[3] = {"roll_share", "pitch_share", "yaw_share"};
    json_t *list = json_array();
    for (size_t i = 0; i < sheet->assembly.lines; i++) {
        const pare_line *line = &sheet->assembly.line[i];
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(line->name));
        json_object_set_new(one, "of", json_string(pare_line_of_name(line->of)));
        json_object_set_new(one, "system", json_string(pare_system_name(line->system)));
        json_object_set_new(one, "count", json_integer(line->count));
        json_object_set_new(one, "each_g", pare_json_number(1e3 * line->each_kg));
        json_object_set_new(one, "all_g", pare_json_number(1e3 * line->mass_kg.value));
        json_object_set_new(one, "all_g_u", pare_json_number(1e3 * line->mass_kg.u));
        json_object_set_new(one, "known", json_string(pare_known_name(line->mass_kg.known)));
        for (int axis = 0; axis < 3; axis++)
            json_object_set_new(one, share[axis],
                                pare_json_number(pare_line_share(&sheet->assembly, i, axis)));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *per_gram(const double per_kg[PARE_FIGURES])
{
    double per_g[PARE_FIGURES];
    for (int i = 0; i < PARE_FIGURES; i++)
        per_g[i] = 1e-3 * per_kg[i];
    return pare_changes_object(per_g);
}

static json_t *knock_on(const pare_sheet_view *view)
{
    json_t *object = json_object();
    json_object_set_new(object, "growth",
                        view->growth_known ? pare_json_number(view->growth.growth) : json_null());
    if (view->growth_known) {
        json_object_set_new(object, "hover_s_per_g",
                            pare_json_number(1e-3 * view->growth.seconds_per_kg));
        json_object_set_new(object, "climb_m_s2_per_g",
                            pare_json_number(1e-3 * view->growth.climb_m_s2_per_kg));
        json_object_set_new(object, "capacity_exponent",
                            pare_json_number(view->growth.capacity_exponent));
    } else {
        json_object_set_new(object, "why", json_string(view->growth_why));
    }
    return object;
}

static json_t *weigh_next(const pare_craft *craft, const pare_sheet *sheet)
{
    size_t order[PARE_LINES];
    double share[PARE_LINES];
    json_t *list = json_array();
    const size_t count = pare_weigh_lines(craft, sheet, PARE_LINES, order, share);
    for (size_t i = 0; i < count; i++) {
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(sheet->assembly.line[order[i]].name));
        json_object_set_new(one, "share", pare_json_number(share[i]));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *filled(const pare_craft *craft)
{
    json_t *list = json_array();
    for (size_t i = 0; i < craft->items; i++) {
        const pare_part *part = craft->item[i].part;
        if (craft->item[i].off || pare_part_filled(part) == 0 || pare_filled_before(craft, i))
            continue;
        const char *names[PARE_SPECS + 1];
        const size_t count = pare_filled_names(part, names);
        json_t *specs = json_array(), *one = json_object();
        for (size_t k = 0; k < count; k++)
            json_array_append_new(specs, json_string(names[k]));
        json_object_set_new(one, "part", json_string(part->id));
        json_object_set_new(one, "specs", specs);
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *taken_facts(const pare_taken_facts *facts)
{
    json_t *object = json_object(), *first = json_object();
    json_object_set_new(object, "on_craft", json_integer((json_int_t)facts->on));
    json_object_set_new(object, "ordered", json_integer((json_int_t)facts->ordered));
    json_object_set_new(object, "chosen", json_integer((json_int_t)facts->chosen));
    json_object_set_new(object, "planned_all_up_g",
                        facts->planned ? pare_json_number(1e3 * facts->planned_kg) : json_null());
    json_object_set_new(object, "planned_all_up_g_u",
                        facts->planned ? pare_json_number(1e3 * facts->planned_u_kg) : json_null());
    if (facts->why[0])
        json_object_set_new(object, "planned_why", json_string(facts->why));
    json_object_set_new(first, "all_up_g", pare_json_number(1e3 * facts->first_kg));
    json_object_set_new(first, "roll_rad_s2", pare_json_number(facts->first_roll_rad_s2));
    json_object_set_new(first, "pitch_rad_s2", pare_json_number(facts->first_pitch_rad_s2));
    json_object_set_new(object, "first_described", first);
    return object;
}

static json_t *surprises(const pare_craft *craft)
{
    pare_listed found[PARE_ITEMS];
    const size_t count = pare_craft_surprises(craft, found);
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *one = pare_surprise_object(&found[i].surprise);
        json_object_set_new(one, "part", json_string(found[i].id));
        json_object_set_new(one, "mass_g", pare_json_number(1e3 * found[i].mass_kg.value));
        json_object_set_new(one, "mass_g_u", pare_json_number(1e3 * found[i].mass_kg.u));
        json_array_append_new(list, one);
    }
    return list;
}

/* As uncertain, by its share, as the sheet's figure of the whole craft: nearly all of it is shared. */
static json_t *as_uncertain(const pare_sheet *sheet, pare_figure as, double value)
{
    const pare_sheet_figure *f = &sheet->figure[as];
    return f->exists && sheet->with_u && f->value > 0 ? pare_json_number(value * f->u / f->value)
                                                      : json_null();
}

json_t *pare_motors_json(const pare_sheet *sheet, const pare_balance *balance)
{
    json_t *list = json_array();
    for (size_t i = 0; i < balance->motors && balance->exists; i++) {
        const pare_each *each = &balance->motor[i];
        json_t *one = json_object(), *at = json_array();
        json_array_append_new(at, pare_json_number(1e3 * balance->at_m[i].x));
        json_array_append_new(at, pare_json_number(1e3 * balance->at_m[i].y));
        json_object_set_new(one, "arm", json_integer((json_int_t)i + 1));
        json_object_set_new(one, "at_mm", at);
        json_object_set_new(one, "share", pare_json_number(each->share));
        json_object_set_new(one, "thrust_g", pare_json_number(1e3 * each->carries_kg));
        json_object_set_new(one, "output", pare_json_number(each->output));
        json_object_set_new(one, "output_u", as_uncertain(sheet, PARE_HOVER_OUTPUT, each->output));
        json_object_set_new(one, "current_a", pare_json_number(each->current_a));
        json_object_set_new(one, "current_a_u", as_uncertain(sheet, PARE_HOVER_A, each->current_a));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *balance(const pare_balance *b)
{
    const struct {
        const char *key;
        double value;
    } rows[] = {{"front_share", b->front},
                {"rear_share", b->rear},
                {"front_share_u", b->front_u},
                {"left_share", b->left},
                {"right_share", b->right},
                {"left_share_u", b->left_u},
                {"hover_more", b->more},
                {"thrust_to_weight_balanced", b->most > 0 ? b->most : (double)NAN}};
    json_t *object = json_object(), *shift = json_array();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        json_object_set_new(object, rows[i].key,
                            b->exists ? pare_json_number(rows[i].value) : json_null());
    json_array_append_new(shift, pare_json_number(1e3 * b->shift_x_m));
    json_array_append_new(shift, pare_json_number(1e3 * b->shift_y_m));
    json_object_set_new(object, "pack_shift_equal_mm", b->shifts ? shift : json_null());
    if (!b->shifts)
        json_decref(shift);
    if (!b->exists)
        json_object_set_new(object, "why", json_string(b->why));
    return object;
}

static json_t *drag(const pare_craft *craft)
{
    static const char *const from[] = {
        [PARE_DRAG_OF_CRAFT] = "craft", [PARE_DRAG_OF_PARTS] = "parts", [PARE_DRAG_BY_LAW] = "law"};
    json_t *object = json_object(), *items = json_object();
    json_object_set_new(object, "area_cm2", pare_json_number(1e4 * pare_craft_drag_m2(craft)));
    json_object_set_new(object, "area_cm2_u", pare_json_number(1e4 * pare_craft_drag_u_m2(craft)));
    json_object_set_new(object, "from", json_string(from[pare_craft_drag_from(craft)]));
    for (size_t i = 0; i < craft->items; i++)
        if (pare_item_drag_m2(&craft->item[i]) > 0)
            json_object_set_new(items, craft->item[i].name,
                                pare_json_number(1e4 * pare_item_drag_m2(&craft->item[i])));
    json_object_set_new(object, "items_cm2", items);
    return object;
}

static void watts_into(json_t *object, const char *key, const pare_powered *state, double watts,
                       double u)
{
    json_object_set_new(object, key, state->exists ? pare_json_number(watts) : json_null());
    set_u(object, key, state->exists && u > 0 ? pare_json_number(u) : json_null());
}

/* "hover_induced_w" and so on: flat, so that each figure is one key. */
static json_t *power(const pare_powered states[PARE_POWERED])
{
    json_t *object = json_object(), *why = json_object();
    char key[64];
    for (int i = 0; i < PARE_POWERED; i++) {
        const pare_powered *state = &states[i];
        const char *name = pare_powered_name((pare_powered_as)i);
        if (i != PARE_POWERED_HOVER) {
            snprintf(key, sizeof key, "%s_speed_m_s", name);
            json_object_set_new(object, key, pare_json_number(state->speed_m_s));
        }
        for (size_t row = 0; row < PARE_POWER_ROWS; row++) {
            snprintf(key, sizeof key, "%s_%s", name, pare_power_table[row].key);
            watts_into(object, key, state, pare_power_part(&state->budget, row), state->u_w[row]);
        }
        snprintf(key, sizeof key, "%s_open_w", name);
        watts_into(object, key, state, state->budget.open_w, state->u_w[PARE_POWER_ROWS]);
        if (!state->exists)
            json_object_set_new(why, name, json_string(state->why));
    }
    json_object_set_new(object, "why", why);
    return object;
}

json_t *pare_sheet_object(const pare_sheet_view *view)
{
    const pare_sheet *sheet = &view->sheet;
    json_t *object = json_object();
    if (!object)
        return NULL;
    json_object_set_new(object, "craft", json_string(view->craft.name));
    json_object_set_new(object, "loadout", pare_text_or_null(view->loadout));
    json_object_set_new(object, "tried", pare_text_or_null(view->tried));
    if (view->taken.on + view->taken.ordered + view->taken.chosen)
        json_object_set_new(object, "taken", taken_facts(&view->taken));
    pare_figures_into(object, sheet);
    if (json_object_set_new(object, "rotors", pare_source_object(view)) != 0) {
        json_decref(object);
        return NULL;
    }
    json_object_set_new(object, "sources", pare_sources_object(sheet));
    if (view->tried) {
        double change[PARE_FIGURES];
        for (int i = 0; i < PARE_FIGURES; i++)
            change[i] = sheet->figure[i].exists && view->before.figure[i].exists
                            ? sheet->figure[i].value - view->before.figure[i].value
                            : (double)NAN;
        json_object_set_new(object, "change", pare_changes_object(change));
    }
    json_object_set_new(object, "limit_g", pare_json_number(1e3 * view->limit_kg));
    json_object_set_new(object, "limit_chance", pare_json_number(sheet->chance_all_up));
    json_object_set_new(object, "flown_at_limit_min",
                        pare_json_number(view->flown_at_limit_s / 60));
    json_object_set_new(object, "flown_at_limit_min_u",
                        as_uncertain(sheet, PARE_FLOWN_TIME, view->flown_at_limit_s / 60));
    json_object_set_new(object, "landed_by",
                        json_string(sheet->landed_by_voltage ? "voltage" : "charge"));
    json_t *principal = json_array();
    for (int i = 0; i < 3; i++)
        json_array_append_new(principal, pare_json_number(sheet->principal_kg_m2[i]));
    json_object_set_new(object, "principal_kg_m2", principal);
    json_object_set_new(object, "motors", pare_motors_json(sheet, &view->balance));
    json_object_set_new(object, "balance", balance(&view->balance));
    json_object_set_new(object, "power", power(view->power));
    json_object_set_new(object, "drag", drag(&view->craft));
    json_object_set_new(object, "download_share", pare_json_number(sheet->rig.blockage));
    json_object_set_new(object, "margins", pare_margins_json(sheet));
    const bool wires = json_object_set_new(object, "wires", pare_wires_json(view)) == 0;
    const int pack = pare_craft_doing(&view->craft, PARE_PACK);
    if (pack >= 0) {
        json_t *label = json_object();
        json_object_set_new(label, "part", json_string(view->craft.item[pack].part->id));
        pare_label_into(label, view->craft.item[pack].part);
        json_object_set_new(object, "pack_label", label);
    }
    json_object_set_new(object, "arms", pare_arms_json(view));
    json_object_set_new(object, "joints", pare_screws_json(view));
    json_object_set_new(object, "crash", pare_crash_json(&view->crash));
    json_object_set_new(object, "radio", pare_radio_json(view));
    json_object_set_new(object, "mass_rules", pare_mass_rules_json(view));
    json_object_set_new(object, "ledger", ledger(sheet));
    if (view->exchange.exists) {
        json_t *gram = json_object();
        json_object_set_new(gram, "centre", per_gram(view->exchange.centre));
        json_object_set_new(gram, "tip", per_gram(view->exchange.tip));
        json_object_set_new(object, "one_gram", gram);
    }
    json_object_set_new(object, "knock_on", knock_on(view));
    json_object_set_new(object, "weigh_next", weigh_next(&view->craft, sheet));
    json_object_set_new(object, "surprises", surprises(&view->craft));
    json_object_set_new(object, "tired_cells", pare_tired_cells(&view->craft));
    json_object_set_new(object, "filled_by_law", filled(&view->craft));
    if (wires)
        return object;
    json_decref(object);
    return NULL;
}
