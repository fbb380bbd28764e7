/* candidates.c: which swaps are worth trying (see candidates.h).
 *
 * Cheap sieves only: a part of the same work, a lighter metal, a shorter standard length. Whether a
 * part fits is for applying it to say, so that there is one place which knows. Screws: titanium and
 * aluminium and nothing sillier, nylon for what sits on or between them; two of four at a motor, half where eight hold a plate, never a
 * propeller's, a pack's or an arm's last two. */
#include "advise/candidates.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/cells.h"
#include "advise/screw_length.h"
#include "advise/screw_rules.h"
#include "advise/sought.h"
#include "advise/stand_in.h"
#include "base/text.h"

#define SAME_ENERGY     0.10  /* of cells times capacity, for packs of other cells */
#define HELD_WITHIN_M   60e-3 /* a holder so near an action camera holds it */
#define COAX_STEP_M     5e-3
#define WORTH_CUTTING_M 2e-3

typedef struct sink {
    pare_take_name *take;
    void *context;
    bool more;
} sink;

static void put_part(sink *out, const char *name, const pare_part *part)
{
    if (out->more)
        out->more = out->take(out->context, name, part);
}

static void put(sink *out, const char *name)
{
    put_part(out, name, NULL);
}

static bool holds_a_camera(const pare_craft *craft, const pare_item *item)
{
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *other = &craft->item[i];
        if (other->off || other->part->kind != PARE_ACTION_CAMERA)
            continue;
        const pare_vec3 d =
            pare_vec3_less(pare_item_station(craft, item, 0), pare_item_station(craft, other, 0));
        if (item->part->kind == PARE_HOLDER && pare_vec3_dot(d, d) < HELD_WITHIN_M * HELD_WITHIN_M)
            return true;
    }
    return false;
}

static bool worth_trying(const pare_craft *craft, const pare_item *item, const pare_part *part)
{
    const pare_part *now = item->part;
    if (part == now || !pare_stands_in(part, now))
        return false;
    if (now->kind == PARE_TIE && part->kind != PARE_TIE)
        return false;
    if (part->kind == PARE_TIE && now->kind != PARE_TIE)
        return item->job == PARE_HOLDS && !holds_a_camera(craft, item);
    if (now->kind == PARE_PACK &&
        now->spec[PARE_SPEC_CELLS].value != part->spec[PARE_SPEC_CELLS].value) {
        const double energy = pare_cell_charge_c(now);
        return fabs(pare_cell_charge_c(part) - energy) <= SAME_ENERGY * energy;
    }
    return true;
}

double pare_coax_choice_m(const pare_craft *craft, const pare_item *item)
{
    const double came_m = item->part->spec[PARE_SPEC_LENGTH].value;
    if (item->part->kind != PARE_ANTENNA && item->part->kind != PARE_PIGTAIL)
        return 0;
    const double now_m =
        item->cut_length_m > 0 && item->cut_length_m < came_m ? item->cut_length_m : came_m;
    const double needed_m = pare_coax_needed_m(craft, item);
    const double cut_m = COAX_STEP_M * ceil(needed_m / COAX_STEP_M - 1e-9);
    return needed_m > 0 && cut_m < now_m - WORTH_CUTTING_M ? cut_m : 0;
}

static void coax(const pare_craft *craft, const pare_item *item, sink *out)
{
    char name[192];
    const double cut_m = pare_coax_choice_m(craft, item);
    if (!(cut_m > 0))
        return;
    snprintf(name, sizeof name, "%s.length=%.0fmm", item->name, 1e3 * cut_m);
    put(out, name);
}

static void item_swaps(const pare_shelf *shelf, const pare_craft *craft, const pare_item *item,
                       sink *out)
{
    char name[192];
    size_t parts;
    const pare_part *const *part = pare_shelf_row(shelf, item->part->kind, &parts);
    for (size_t p = 0; p < parts; p++)
        if (worth_trying(craft, item, part[p])) {
            const char *const texts[] = {item->name, "=", part[p]->id};
            pare_text_join(sizeof name, name, 3, texts);
            put_part(out, name, part[p]);
        }
    snprintf(name, sizeof name, "%s=off", item->name);
    put(out, name);
    coax(craft, item, out);
    double sought_kg;
    if (pare_sought_kg(item->part, &sought_kg)) {
        snprintf(name, sizeof name, "%s=sought-%.10gg", item->name, 1e3 * sought_kg);
        put(out, name);
    }
}

/* ---- joints ---- */

static bool holds_kind(const pare_craft *craft, const pare_joint *joint, pare_kind kind)
{
    const int held = joint->holds ? pare_craft_item(craft, joint->holds) : -1;
    return held >= 0 && craft->item[held].part->kind == kind;
}

/* The number of screws that stays, or 0 where none should go. */
static int fewer_screws(const pare_craft *craft, const pare_joint *joint)
{
    pare_vec3 arm[PARE_STATIONS];
    const int arms = (int)pare_craft_arms(craft, PARE_STATIONS, arm);
    int each = 0;
    if (holds_kind(craft, joint, PARE_MOTOR))
        each = craft->item[pare_craft_item(craft, joint->holds)].count;
    else if (joint->holds && strcmp(joint->holds, "arm") == 0)
        each = arms;
    else if (holds_kind(craft, joint, PARE_FRAME))
        return joint->count >= 8 && joint->count % 2 == 0 ? joint->count / 2 : 0;
    return each > 0 && joint->count == 4 * each ? 2 * each : 0;
}

/* Nylon is for what sits on screws or between them, and a fancy alloy for screws alone. */
static bool sold_in(const pare_joint *joint, pare_screw_material material)
{
    return pare_is_screw(joint->standard) ? material != PARE_NYLON
                                          : material != PARE_ALUMINIUM_7075;
}

static size_t lighter_metals(const pare_craft *craft, const pare_joint *joint, bool spent,
                             pare_screw_material material[PARE_LIGHTER_METALS])
{
    static const pare_screw_material lighter[] = {PARE_TITANIUM, PARE_ALUMINIUM_7075,
                                                  PARE_ALUMINIUM, PARE_NYLON};
    size_t count = 0;
    for (size_t i = 0; i < sizeof lighter / sizeof lighter[0]; i++)
        if (pare_screw_density_kg_m3(lighter[i]) <
                pare_screw_density_kg_m3(joint->material) * 0.999 &&
            sold_in(joint, lighter[i]) && pare_screws_are_spent(craft, joint, lighter[i]) == spent)
            material[count++] = lighter[i];
    return count;
}

pare_joint_choices pare_joint_choices_of(const pare_craft *craft, const pare_joint *joint)
{
    pare_joint_choices choices = {0};
    choices.materials = lighter_metals(craft, joint, false, choices.material);
    if (!pare_is_screw(joint->standard))
        return choices;
    choices.count = fewer_screws(craft, joint);
    const double best_m = pare_screw_length_best_m(craft, joint);
    if (best_m > 0 && fabs(best_m - joint->length_m) > 1e-6 &&
        (best_m < joint->length_m || !pare_screw_length_suits(craft, joint, joint->length_m)))
        choices.length_m = best_m;
    return choices;
}

static void joint_swaps(const pare_craft *craft, const pare_joint *joint, sink *out)
{
    char name[192];
    pare_joint_choices choices = pare_joint_choices_of(craft, joint);
    /* Builders ask for aluminium at the motors all the same: listed, with what speaks against it. */
    if (pare_is_screw(joint->standard) && !holds_kind(craft, joint, PARE_PROPELLER))
        choices.materials +=
            lighter_metals(craft, joint, true, choices.material + choices.materials);
    for (size_t i = 0; i < choices.materials; i++) {
        snprintf(name, sizeof name, "joint.%s.material=%s", joint->name,
                 pare_screw_material_name(choices.material[i]));
        put(out, name);
    }
    /* Neither is in any sum: each has an open question. */
    if (joint->standard == PARE_ISO7040) {
        snprintf(name, sizeof name, "joint.%s.standard=ISO4032", joint->name);
        put(out, name);
    }
    if (joint->standard == PARE_ISO7089 && joint->count > 0) {
        snprintf(name, sizeof name, "joint.%s.count=0", joint->name);
        put(out, name);
    }
    if (choices.count > 0) {
        snprintf(name, sizeof name, "joint.%s.count=%d", joint->name, choices.count);
        put(out, name);
    }
    if (choices.length_m > 0) {
        snprintf(name, sizeof name, "joint.%s.length=%.0fmm", joint->name, 1e3 * choices.length_m);
        put(out, name);
    }
}

/* ---- runs ---- */

static bool comes_with_an_esc(const pare_craft *craft, const pare_run *run)
{
    const int owner = run->included_in ? pare_craft_item(craft, run->included_in) : -1;
    return owner >= 0 && craft->item[owner].part->kind == PARE_ESC_ONE;
}

pare_run_choices pare_run_choices_of(const pare_craft *craft, const pare_run *run)
{
    pare_run_choices choices = {0};
    const int even = 2 * (int)ceil((run->gauge + 0.5) / 2);
    for (int gauge = even; gauge <= even + 2 && gauge <= 30; gauge += 2)
        choices.gauge[choices.gauges++] = gauge;
    /* Where an ESC's own power wires end is not written down. */
    const double needed_m = comes_with_an_esc(craft, run) ? 0 : pare_run_needed_m(craft, run);
    const double cut_m = 1e-3 * ceil(1e3 * needed_m - 1e-6);
    double shortest_m = INFINITY, longest_m = 0;
    for (size_t i = 0; i < run->ways; i++) {
        shortest_m = fmin(shortest_m, run->way_m[i]);
        longest_m = fmax(longest_m, run->way_m[i]);
    }
    if (needed_m > 0 && shortest_m >= cut_m && longest_m > cut_m + WORTH_CUTTING_M)
        choices.length_m = cut_m;
    return choices;
}

static void run_swaps(const pare_craft *craft, const pare_run *run, sink *out)
{
    char name[192];
    const pare_run_choices choices = pare_run_choices_of(craft, run);
    for (size_t i = 0; i < choices.gauges; i++) {
        snprintf(name, sizeof name, "run.%s.gauge=%d", run->name, choices.gauge[i]);
        put(out, name);
    }
    if (choices.length_m > 0) {
        snprintf(name, sizeof name, "run.%s.length=%.0fmm", run->name, 1e3 * choices.length_m);
        put(out, name);
    }
}

bool pare_candidates(const pare_shelf *shelf, const pare_craft *craft, const pare_craft *loaded,
                     pare_take_name *take, void *context)
{
    sink out = {take, context, true};
    for (size_t i = 0; i < craft->items && out.more; i++) {
        const pare_item *item = &craft->item[i];
        const bool flown = i < loaded->items && !item->off && !loaded->item[i].off &&
                           loaded->item[i].part == item->part;
        if (flown && !item->included_in)
            item_swaps(shelf, craft, item, &out);
    }
    for (size_t i = 0; i < craft->joints && out.more; i++)
        joint_swaps(craft, &craft->joint[i], &out);
    for (size_t i = 0; i < craft->runs && out.more; i++)
        run_swaps(craft, &craft->run[i], &out);
    return out.more;
}
