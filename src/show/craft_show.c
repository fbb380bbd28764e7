/* craft_show.c: craft as text and JSON (see catalogue.h). */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/catalogue.h"
#include "show/digits.h"
#include "show/sheet_json.h"
#include "show/take.h"

void pare_craft_list_text(size_t count, const pare_craft_row rows[], const pare_screen *screen,
                          pare_text *out)
{
    enum { NAME = 18, GRAMS = 14, LIMIT = 10, BRIEF = 12 };
    char text[PARE_DIGITS], field[64];
    if (count == 0) {
        pare_text_add(out, "No craft on this bench yet.\n");
        return;
    }
    pare_put_left(out, "craft", NAME);
    pare_put_left(out, "all-up g", GRAMS);
    pare_put_left(out, "limit g", LIMIT);
    pare_put_left(out, "brief", BRIEF);
    pare_text_add(out, "loadouts\n");
    for (size_t i = 0; i < count; i++) {
        const pare_craft_row *row = &rows[i];
        pare_put_left(out, row->craft->name, NAME);
        if (!row->computed) {
            pare_put_wrapped(screen, out, NAME, NAME, row->why);
            continue;
        }
        pare_put_left(
            out, pare_digits_u(text, screen, 1e3 * row->all_up_kg, 1e3 * row->all_up_u_kg), GRAMS);
        pare_put_left(out,
                      isfinite(row->limit_kg) ? pare_digits_limit(text, 1e3 * row->limit_kg) : "",
                      LIMIT);
        if (row->broken)
            snprintf(field, sizeof field, "%zu broken", row->broken);
        else
            snprintf(field, sizeof field, "%s", row->craft->brief.limits ? "met" : "no limits");
        pare_put_left(out, field, BRIEF);
        for (size_t k = 0; k < row->craft->loadouts; k++)
            pare_text_printf(out, "%s%s", k ? ", " : "", row->craft->loadout[k].name);
        pare_text_add(out, "\n");
    }
}

json_t *pare_craft_row_object(const pare_craft_row *row)
{
    json_t *one = json_object(), *loadouts = json_array();
    json_object_set_new(one, "name", json_string(row->craft->name));
    for (size_t k = 0; k < row->craft->loadouts; k++)
        json_array_append_new(loadouts, json_string(row->craft->loadout[k].name));
    json_object_set_new(one, "loadouts", loadouts);
    json_object_set_new(one, "all_up_g",
                        row->computed ? pare_json_number(1e3 * row->all_up_kg) : json_null());
    json_object_set_new(one, "all_up_g_u",
                        row->computed ? pare_json_number(1e3 * row->all_up_u_kg) : json_null());
    json_object_set_new(one, "limit_g", pare_json_number(1e3 * row->limit_kg));
    json_object_set_new(one, "limits_broken",
                        row->computed ? json_integer((json_int_t)row->broken) : json_null());
    return one;
}

static const char *place(const pare_item *item, char text[64])
{
    if (item->place == PARE_AT_ARMS)
        snprintf(text, 64, item->along_arm == 1 ? "at the arms" : "at %.0f %% of the arms",
                 100 * item->along_arm);
    else if (item->place == PARE_AT_POINTS && item->stations == 1)
        snprintf(text, 64, "%.0f, %.0f, %.0f mm", 1e3 * item->at_m[0].x, 1e3 * item->at_m[0].y,
                 1e3 * item->at_m[0].z);
    else if (item->place == PARE_AT_POINTS)
        snprintf(text, 64, "%zu stations", item->stations);
    else
        snprintf(text, 64, "its usual place");
    return text;
}

static void put_items(const pare_craft *craft, const pare_screen *screen, pare_text *out)
{
    char text[64];
    pare_put_heading(screen, out, "items");
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        pare_text_add(out, "  ");
        pare_put_left(out, item->name, 16);
        snprintf(text, sizeof text, "%d x ", item->count);
        pare_put_right(out, item->count > 1 ? text : "", 5);
        pare_put_left(out, item->part->id, 20);
        pare_put_left(out, pare_job_name(item->job), 10);
        pare_text_printf(out, "%s%s\n", place(item, text), item->off ? ", off" : "");
    }
}

static void put_joints(const pare_craft *craft, const pare_screen *screen, pare_text *out)
{
    if (craft->joints)
        pare_put_heading(screen, out, "joints");
    for (size_t i = 0; i < craft->joints; i++) {
        const pare_joint *joint = &craft->joint[i];
        pare_text_add(out, "  ");
        pare_put_left(out, joint->name, 16);
        pare_text line = {0};
        pare_text_printf(&line, "%3d x M%.4g", joint->count, 1e3 * joint->thread.nominal_m);
        if (joint->length_m > 0)
            pare_text_printf(&line, " x %.4g mm", 1e3 * joint->length_m);
        pare_text_printf(&line, " %s", pare_screw_material_name(joint->material));
        if (!pare_is_screw(joint->standard))
            pare_text_printf(&line, " %ss", pare_fastener_words(joint->standard));
        if (joint->holds)
            pare_text_printf(&line, ", holds %s", joint->holds);
        if (joint->included_in)
            pare_text_printf(&line, ", came with %s", joint->included_in);
        pare_put_rest(screen, out, 2 + 16, 2 + 16 + 4, &line);
    }
}

static void put_runs(const pare_craft *craft, const pare_screen *screen, pare_text *out)
{
    if (craft->runs)
        pare_put_heading(screen, out, "wire");
    for (size_t i = 0; i < craft->runs; i++) {
        const pare_run *run = &craft->run[i];
        pare_text_add(out, "  ");
        pare_put_left(out, run->name, 16);
        pare_text line = {0};
        if (run->times > 1)
            pare_text_printf(&line, "%d times ", run->times);
        for (size_t k = 0; k < run->ways; k++)
            pare_text_printf(&line, "%s%.4g", k ? " + " : "", 1e3 * run->way_m[k]);
        pare_text_printf(&line, " mm of AWG %.4g", run->gauge);
        if (run->carries)
            pare_text_printf(&line, ", carries %s", run->carries);
        if (run->included_in)
            pare_text_printf(&line, ", came with %s", run->included_in);
        pare_put_rest(screen, out, 18, 18, &line);
    }
}

static void put_loadouts(const pare_craft *craft, const pare_screen *screen, pare_text *out)
{
    if (craft->loadouts)
        pare_put_heading(screen, out, "loadouts");
    for (size_t i = 0; i < craft->loadouts; i++) {
        const pare_loadout *loadout = &craft->loadout[i];
        pare_text_add(out, "  ");
        pare_put_left(out, loadout->name, 16);
        for (size_t k = 0; k < loadout->without; k++)
            pare_text_printf(out, "%s%s", k ? ", " : "without ", loadout->off[k]);
        for (size_t k = 0; k < loadout->uses; k++)
            pare_text_printf(out, "%swith %s as %s", k || loadout->without ? ", " : "",
                             loadout->use[k].part->id, loadout->use[k].item);
        pare_text_add(out, loadout->without + loadout->uses ? "\n" : "all of it\n");
    }
}

static void put_takens(const pare_craft *craft, const pare_screen *screen, pare_text *out)
{
    if (craft->takens)
        pare_put_heading(screen, out, "taken (the fitted ones are in what stands above)");
    for (size_t i = 0; i < craft->takens; i++) {
        pare_text line = {0};
        pare_text_printf(&line, "%s: ", craft->taken[i].swap);
        pare_taken_days_text(&craft->taken[i], &line);
        pare_put_line(screen, out, 2, 4, &line);
    }
}

static void put_brief(const pare_craft *craft, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    pare_put_heading(screen, out, "brief");
    for (size_t i = 0; i < craft->brief.limits; i++) {
        const pare_limit *limit = &craft->brief.limit[i];
        const int figure = pare_figure_of_limit(limit->key);
        const pare_figure_row *row = figure >= 0 ? &pare_figure_table[figure] : NULL;
        pare_text_printf(out, "  %s %s %s%s%s\n", row ? row->words : "least margin of all ratings",
                         limit->at_least ? ">=" : "<=",
                         pare_digits_limit(text, (row ? row->scale : 1) * limit->value),
                         row && row->unit[0] ? " " : "", row ? row->unit : "");
    }
    pare_text_add(out, "  keeps what ");
    bool first = true;
    for (int job = 0; job < PARE_JOBS; job++)
        if (job == PARE_FLIES || craft->brief.keep & 1u << job) {
            pare_text_printf(out, "%s%s", first ? "" : ", ", pare_job_name((pare_job)job));
            first = false;
        }
    pare_text_add(out, "\n");
}

void pare_craft_text(const pare_craft *craft, const pare_screen *screen, pare_text *out)
{
    pare_put_heading(screen, out, craft->name);
    put_brief(craft, screen, out);
    put_items(craft, screen, out);
    put_joints(craft, screen, out);
    put_runs(craft, screen, out);
    put_loadouts(craft, screen, out);
    put_takens(craft, screen, out);
}

json_t *pare_craft_object(const pare_craft *craft)
{
    json_t *one = json_object(), *items = json_array(), *joints = json_array(),
           *runs = json_array(), *loadouts = json_array(), *limits = json_array();
    json_object_set_new(one, "name", json_string(craft->name));
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        json_t *row = json_object();
        json_object_set_new(row, "name", json_string(item->name));
        json_object_set_new(row, "part", json_string(item->part->id));
        json_object_set_new(row, "count", json_integer(item->count));
        json_object_set_new(row, "job", json_string(pare_job_name(item->job)));
        json_object_set_new(row, "off", json_boolean(item->off));
        json_array_append_new(items, row);
    }
    for (size_t i = 0; i < craft->joints; i++) {
        const pare_joint *joint = &craft->joint[i];
        json_t *row = json_object();
        json_object_set_new(row, "name", json_string(joint->name));
        json_object_set_new(row, "thread_mm", pare_json_number(1e3 * joint->thread.nominal_m));
        json_object_set_new(row, "length_mm", pare_json_number(1e3 * joint->length_m));
        json_object_set_new(row, "material",
                            json_string(pare_screw_material_name(joint->material)));
        json_object_set_new(row, "count", json_integer(joint->count));
        json_object_set_new(row, "holds", pare_text_or_null(joint->holds));
        json_object_set_new(row, "included_in", pare_text_or_null(joint->included_in));
        json_array_append_new(joints, row);
    }
    for (size_t i = 0; i < craft->runs; i++) {
        const pare_run *run = &craft->run[i];
        json_t *row = json_object(), *ways = json_array();
        json_object_set_new(row, "name", json_string(run->name));
        json_object_set_new(row, "gauge", pare_json_number(run->gauge));
        for (size_t k = 0; k < run->ways; k++)
            json_array_append_new(ways, pare_json_number(1e3 * run->way_m[k]));
        json_object_set_new(row, "ways_mm", ways);
        json_object_set_new(row, "times", json_integer(run->times));
        json_object_set_new(row, "carries", pare_text_or_null(run->carries));
        json_object_set_new(row, "included_in", pare_text_or_null(run->included_in));
        json_array_append_new(runs, row);
    }
    for (size_t i = 0; i < craft->loadouts; i++)
        json_array_append_new(loadouts, json_string(craft->loadout[i].name));
    for (size_t i = 0; i < craft->brief.limits; i++) {
        const pare_limit *limit = &craft->brief.limit[i];
        const int figure = pare_figure_of_limit(limit->key);
        json_t *row = json_object();
        json_object_set_new(row, "key",
                            json_string(figure >= 0 ? pare_figure_table[figure].key : limit->key));
        json_object_set_new(row, "at_least", json_boolean(limit->at_least));
        json_object_set_new(
            row, "value",
            pare_json_number((figure >= 0 ? pare_figure_table[figure].scale : 1) * limit->value));
        json_array_append_new(limits, row);
    }
    json_object_set_new(one, "limits", limits);
    json_object_set_new(one, "items", items);
    json_object_set_new(one, "joints", joints);
    json_object_set_new(one, "runs", runs);
    json_object_set_new(one, "loadouts", loadouts);
    if (craft->takens) {
        json_t *taken = json_array();
        for (size_t i = 0; i < craft->takens; i++)
            json_array_append_new(taken, pare_taken_object(&craft->taken[i]));
        json_object_set_new(one, "taken", taken);
    }
    return one;
}
