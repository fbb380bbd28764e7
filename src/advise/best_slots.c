/* best_slots.c: the choices of a craft's items.
 *
 * A bound has to hold whatever is dragged along, so an option is counted as its part alone, in the
 * smallest number that a swap makes of it, less all wire and screws that come with it, since these may be
 * thinned, shortened or left out later. What such an option may take down with it (the link of an antenna's
 * chain, an idle adapter, a second receiver) is known by kind from the code that does so (along.c, chain.c,
 * esc.c, edit.c): a line of such a kind counts as nothing while the choice is open. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advise/best_inside.h"
#include "advise/chain.h"
#include "advise/fits.h"
#include "advise/question.h"
#include "advise/sought.h"
#include "advise/stand_in.h"
#include "base/text.h"
#include "craft/body.h"
#include "physics/nut.h"
#include "physics/wire.h"

#define BIT(kind)       (1u << (kind))
#define BOARD_OFF_M     0.15  /* from the middle, at most, and the wire's slack */
#define SHORTEST_COAX_M 15e-3 /* the slack alone: no coax is cut shorter (craft/place.c) */

/* ---- options ---- */

/* All wire and screws that come in a part, for one of it. */
static double included_kg(const pare_part *part)
{
    double sum_kg = 0;
    for (size_t i = 0; i < part->includes; i++) {
        const pare_include *in = &part->include[i];
        double each_kg = 0;
        if (in->what == PARE_INCLUDES_RUN && in->gauge > 0)
            each_kg = in->length_m * pare_wire_kg_per_m(in->gauge, in->outer_m);
        else if (in->what == PARE_INCLUDES_JOINT) {
            const pare_fastener_size size = {.standard = in->standard,
                                             .thread = in->thread,
                                             .length_m = in->length_m,
                                             .across_m = in->across_m,
                                             .tapped_m = in->tapped_m};
            (void)pare_fastener_kg(&size, in->material, &each_kg, NULL);
        }
        sum_kg += in->count * each_kg;
    }
    return sum_kg;
}

/* How few of a part may be in the place of an item. One-motor ESCs in place of one for all are as many as
 * the motors (esc.c); two ties stand for a print (along.c). */
static int fewest(const pare_craft *craft, const pare_item *item, const pare_part *part)
{
    const bool tied = item->part->kind == PARE_TIE, ties = part->kind == PARE_TIE;
    const bool one_place = item->place != PARE_AT_ARMS && item->stations <= 1;
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    if (item->part->kind == PARE_ESC_FOUR && part->kind == PARE_ESC_ONE && motor >= 0)
        return craft->item[motor].count;
    if (item->part->kind != part->kind && (pare_work_of(part) & BIT(PARE_ESC_FOUR)))
        return 1;
    if (tied == ties || !one_place)
        return item->count;
    return ties ? 2 * item->count : item->count > 1 ? item->count / 2 : 1;
}

/* And how many at the most: what goes out to each arm, twice. */
static int highest_count(const pare_item *item, const pare_part *part)
{
    return part->kind == item->part->kind ? item->count : 4 * item->count + 8;
}

/* One copy's least, with its coax cut as far as it may be. */
static double least_each_kg(const pare_item *item, const pare_part *part)
{
    pare_item cut = {.part = part};
    if (part->kind == PARE_ANTENNA || part->kind == PARE_PIGTAIL)
        cut.cut_length_m =
            item->cut_length_m > 0 ? fmin(item->cut_length_m, SHORTEST_COAX_M) : SHORTEST_COAX_M;
    return fmax(pare_item_each_kg(&cut), 0);
}

int64_t best_link_units(const pare_part *part)
{
    return best_units(least_each_kg(&(pare_item){.part = part}, part));
}

/* What the craft's own lines say came in an item, counted and sized as they are on it, but for what another part in
 * its place brings. @param instead  NULL: it stays */
static double came_in_kg(const pare_craft *craft, const pare_item *item, const pare_part *instead)
{
    double sum_kg = 0;
    for (size_t i = 0; i < craft->joints; i++) {
        const pare_joint *joint = &craft->joint[i];
        if (joint->included_in && pare_same_name(joint->included_in, item->name) &&
            !pare_part_brings(instead, PARE_INCLUDES_JOINT, joint->name))
            sum_kg += joint->included_kg;
    }
    for (size_t i = 0; i < craft->runs; i++) {
        const pare_run *run = &craft->run[i];
        if (run->included_in && pare_same_name(run->included_in, item->name) &&
            !pare_part_brings(instead, PARE_INCLUDES_RUN, run->name))
            sum_kg += run->included_kg;
    }
    return sum_kg;
}

static void weigh_option(const pare_craft *craft, const pare_item *now, best_option *option,
                         best_slot *slot)
{
    if (!option->part)
        return;
    const int count = fewest(craft, now, option->part);
    const int most = count > now->count ? count : now->count;
    option->least = best_units(count * least_each_kg(now, option->part));
    const double own_kg = most * included_kg(option->part);
    const double came_kg = came_in_kg(craft, now, option->name ? option->part : NULL);
    if (own_kg > 0 || came_kg > 0) {
        const int64_t comes_in =
            best_units(option->name ? own_kg + came_kg : fmax(own_kg, came_kg)) + 1;
        option->least -= comes_in;
        slot->comes_in = comes_in > slot->comes_in ? comes_in : slot->comes_in;
    }
    option->power_w = count * option->part->spec[PARE_SPEC_POWER].value;
}

/* Where an option's grams are, seen from above. */
static void place_option(const pare_item *now, const best_option *option, best_slot *slot)
{
    pare_body body;
    if (!option->part)
        return;
    if (option->moves || option->part->kind != now->part->kind ||
        pare_part_body(option->part, &now->turn, &body, NULL) != PARE_OK)
        slot->elsewhere = true;
    else
        slot->off_m = fmax(slot->off_m, hypot(body.at_m.x, body.at_m.y));
}

static bool is_board(const pare_part *part)
{
    return part->kind == PARE_FRAME || part->kind == PARE_CAMERA ||
           (pare_work_of(part) & (BIT(PARE_ESC_FOUR) | BIT(PARE_FLIGHT_CONTROLLER) |
                                  BIT(PARE_VIDEO_TRANSMITTER) | BIT(PARE_REGULATOR))) != 0;
}

static bool is_in_chain(const pare_part *part)
{
    return part->kind == PARE_VIDEO_TRANSMITTER || part->kind == PARE_ANTENNA ||
           pare_chain_links(part->kind);
}

/* What an option may do beyond its own line. */
static void mark_option(const pare_part *now, best_option *option, best_slot *slot)
{
    const pare_part *part = option->part;
    const unsigned work = part ? pare_work_of(part) : 0, was = pare_work_of(now);
    unsigned drags = work & ~was & (BIT(PARE_CAMERA) | BIT(PARE_RECEIVER));
    for (size_t i = 0; part && i < part->includes; i++)
        if (part->include[i].what == PARE_INCLUDES_KIND)
            drags |= BIT(part->include[i].kind);
    const bool moves_wires = (work ^ was) & BIT(PARE_ESC_FOUR) ||
                             (part && part->kind != now->kind && work & BIT(PARE_ESC_FOUR));
    option->moves = moves_wires || drags != 0;
    if (is_board(now))
        drags |= BIT(PARE_ADAPTER) | BIT(PARE_HOLDER) | BIT(PARE_PRINTED);
    if (is_in_chain(now))
        drags |= BIT(PARE_PIGTAIL) | BIT(PARE_ADAPTER);
    if (now->kind == PARE_PACK)
        drags |= BIT(PARE_CONNECTOR);
    slot->drags |= drags;
    slot->drags_calm |= option->moves ? 0 : drags;
    slot->moves = slot->moves || option->moves;
    if (moves_wires) {
        slot->moves_wires = true;
        slot->drags |= BIT(PARE_ESC_ONE) | BIT(PARE_ESC_FOUR);
    }
    slot->may_be_single = slot->may_be_single || (part && part->kind == PARE_ESC_ONE);
    slot->counts_change = slot->counts_change || (part && part->kind != now->kind);
    if (!part) {
        slot->may_go = true;
        slot->off_moves = option->moves;
    } else if (!pare_fit_agrees(&part->fit[PARE_FIT_THREAD], &now->fit[PARE_FIT_THREAD]) ||
               part->fit[PARE_FIT_THREAD].count != now->fit[PARE_FIT_THREAD].count)
        slot->other_threads = true;
}

int best_by_least(const void *left, const void *right)
{
    const best_option *a = left, *b = right;
    if (a->least != b->least)
        return a->least < b->least ? -1 : 1;
    if (!a->name || !b->name)
        return (a->name != NULL) - (b->name != NULL);
    return strcmp(a->name->id, b->name->id);
}

/* ---- gathering ---- */

/* A name, and whose it is. */
typedef struct gathered {
    const pare_swap_name *name;
    const pare_part *part;
    size_t item;
} gathered;

typedef struct gathering {
    best_search *search;
    pare_units *reader;
    size_t count, room;
    gathered *one;
    bool failed;
} gathering;

static bool is_never(const best_search *search, const pare_part *part)
{
    for (size_t i = 0; i < search->nevers; i++)
        if (search->never_part[i] == part)
            return true;
    return false;
}

static bool keep_name(gathering *to, const char *text, const pare_part *part, size_t item)
{
    if (to->count == to->room) {
        const size_t room = to->room ? 2 * to->room : 256;
        gathered *more = realloc(to->one, room * sizeof *more);
        if (!more)
            return false;
        to->one = more;
        to->room = room;
    }
    pare_swap_name *name = pare_arena_zeros(to->search->arena, sizeof *name);
    if (!name)
        return false;
    /* A name that cannot be typed is none: an item or part with a sign in it that lists use. */
    if (pare_swap_name_read(to->reader, text, name, NULL) != PARE_OK)
        return true;
    name->part = part;
    /* A part that nobody sells is made once, here: nothing is made while threads search. */
    if (name->sought &&
        pare_sought_part(to->search->arena, to->search->desk->loaded.item[item].part, name->number,
                         &name->part, NULL) != PARE_OK)
        return true;
    part = name->part;
    to->one[to->count++] = (gathered){name, part, item};
    return true;
}

static bool is_sought(const best_search *search, const char *equals)
{
    static const char sought[] = "=sought-";
    return search->ask->sought && strncmp(equals, sought, sizeof sought - 1) == 0;
}

static bool take_name(void *context, const char *text, const pare_part *part)
{
    gathering *to = context;
    const char *equals = strchr(text, '=');
    char of[128];
    const size_t length = equals ? (size_t)(equals - text) : 0;
    if (length == 0 || length >= sizeof of || memchr(text, '.', length) ||
        (!part && strcmp(equals, "=off") != 0 && !is_sought(to->search, equals)) ||
        (part && (part->sought || is_never(to->search, part))))
        return true;
    memcpy(of, text, length);
    of[length] = '\0';
    const int item = pare_craft_item(to->search->desk->craft, of);
    if (item < 0 || best_is_held(to->search, "", of, NULL))
        return true;
    to->failed = !keep_name(to, text, part, (size_t)item);
    return !to->failed;
}

/* Work that something else on the craft, or an option for it, does. */
static unsigned work_but(const gathering *from, size_t item)
{
    unsigned work = 0;
    const pare_craft *craft = &from->search->desk->loaded;
    for (size_t i = 0; i < craft->items; i++)
        if (i != item && !craft->item[i].off)
            work |= pare_work_of(craft->item[i].part);
    for (size_t i = 0; i < from->count; i++)
        if (from->one[i].item != item && from->one[i].part)
            work |= pare_work_of(from->one[i].part);
    return work;
}

/* Whether its job is kept, so that it comes off only where something else does its work. */
static bool job_is_kept(const gathering *from, size_t item)
{
    const pare_craft *craft = from->search->desk->craft;
    const pare_item *now = &craft->item[item];
    const unsigned kept = craft->brief.keep | 1u << PARE_FLIES;
    return (kept & 1u << now->job) != 0 && pare_main_work(now->part) != BIT(PARE_PIGTAIL);
}

/* Whether an item could come off without a kept job being lost. */
static bool may_come_off(const gathering *from, size_t item)
{
    const unsigned work = pare_main_work(from->search->desk->craft->item[item].part);
    if (!job_is_kept(from, item))
        return true;
    return pare_work_is_shared(work) && (work_but(from, item) & work) != 0;
}

static bool is_must(const best_search *search, const pare_part *part)
{
    for (size_t i = 0; i < search->musts; i++)
        if (search->must_part[i] == part)
            return true;
    return false;
}

/* A part that the craft must have, that it has not, and that only one choice offers, is that choice. */
static bool is_settled_by_must(const gathering *from, size_t item, const pare_part *part)
{
    const pare_craft *craft = &from->search->desk->loaded;
    if (!is_must(from->search, part))
        return false;
    for (size_t i = 0; i < craft->items; i++)
        if (craft->item[i].part == part)
            return false;
    for (size_t i = 0; i < from->count; i++)
        if (from->one[i].part == part && from->one[i].item != item)
            return false;
    return true;
}

void best_slot_sum(const best_search *search, best_slot *slot)
{
    const pare_item *now = &search->desk->loaded.item[slot->item];
    slot->lightest[0] = slot->lightest[1] = NULL;
    slot->work = slot->work_calm = 0;
    slot->most = 0;
    slot->power_most_w = 0;
    slot->least = slot->least_plain = slot->least_driving = BEST_NO_BOUND;
    slot->least_on[0] = slot->least_on[1] = BEST_NO_BOUND;
    slot->power_w = INFINITY;
    slot->moving_drives = slot->moves;
    for (size_t i = 0; i < slot->options; i++) {
        slot->least = slot->option[i].least < slot->least ? slot->option[i].least : slot->least;
        const pare_part *part = slot->option[i].part;
        int64_t *on = &slot->least_on[slot->option[i].moves];
        if (part && slot->option[i].least < *on)
            *on = slot->option[i].least;
        const pare_part **lightest = &slot->lightest[slot->option[i].moves];
        if (part && (!*lightest || part->mass_kg.value < (*lightest)->mass_kg.value))
            *lightest = part;
        slot->work |= part ? pare_work_of(part) : 0;
        slot->work_calm |= part && !slot->option[i].moves ? pare_work_of(part) : 0;
        const int64_t most = part ? best_units(now->count * part->mass_kg.value) : 0;
        slot->most = most > slot->most ? most : slot->most;
        const bool drives =
            part && (pare_work_of(part) & ~pare_work_of(now->part) & BIT(PARE_ESC_FOUR)) != 0;
        slot->moving_drives = slot->moving_drives && (drives || !slot->option[i].moves);
        int64_t *of = drives ? &slot->least_driving : &slot->least_plain;
        *of = slot->option[i].least < *of ? slot->option[i].least : *of;
        slot->power_w = fmin(slot->power_w, slot->option[i].power_w);
        if (part)
            slot->power_most_w = fmax(slot->power_most_w,
                                      highest_count(now, part) * part->spec[PARE_SPEC_POWER].value);
        slot->states_drag = slot->states_drag || now->part->spec[PARE_SPEC_DRAG_AREA].given ||
                            (part && part->spec[PARE_SPEC_DRAG_AREA].given);
    }
}

/* Notes what an option brings that the craft may have of its own. */
static void note_brought(best_search *search, best_slot *slot, const pare_part *part)
{
    for (size_t i = 0; part && i < part->includes; i++) {
        const pare_include *in = &part->include[i];
        if (in->what == PARE_INCLUDES_KIND || !in->name)
            continue;
        const size_t at = best_brought_at(search, in->name);
        if (at == search->broughts)
            search->brought[search->broughts++] = (best_brought){.name = in->name};
        search->brought[at].longest_m = fmax(search->brought[at].longest_m, in->length_m);
        slot->brings |= (uint64_t)1 << at;
    }
}

static pare_status make_slot(const gathering *from, size_t item, pare_error *err)
{
    best_search *search = from->search;
    const pare_item *now = &search->desk->loaded.item[item];
    best_slot *slot = &search->slot[search->slots];
    *slot = (best_slot){.item = item,
                        .off_m = hypot(now->body.at_m.x, now->body.at_m.y),
                        .feeds = (pare_work_of(now->part) &
                                  (BIT(PARE_REGULATOR) | BIT(PARE_FLIGHT_CONTROLLER))) != 0};
    size_t count = 1;
    for (size_t i = 0; i < from->count; i++)
        count += from->one[i].item == item;
    slot->option = pare_arena_array(search->arena, count, sizeof slot->option[0]);
    if (!slot->option)
        return pare_no_memory(err);
    const pare_part *settled = NULL;
    for (size_t i = 0; i < from->count && !settled; i++)
        if (from->one[i].item == item && from->one[i].part &&
            is_settled_by_must(from, item, from->one[i].part))
            settled = from->one[i].part;
    if (!is_never(search, now->part) && !settled)
        slot->option[slot->options++] = (best_option){.part = now->part};
    for (size_t i = 0; i < from->count; i++) {
        const gathered *one = &from->one[i];
        if (one->item != item || (!one->part && !may_come_off(from, item)) ||
            (settled && one->part != settled) ||
            (one->part && !one->part->sought && pare_is_questioned(one->part, now->part)))
            continue;
        best_option *option = &slot->option[slot->options++];
        *option = (best_option){.name = one->name, .part = one->part};
        mark_option(now->part, option, slot);
        note_brought(search, slot, one->part);
    }
    slot->off_needs = job_is_kept(from, item) ? pare_main_work(now->part) : 0;
    for (size_t i = 0; i < slot->options; i++) {
        weigh_option(&search->desk->loaded, now, &slot->option[i], slot);
        place_option(now, &slot->option[i], slot);
    }
    best_slot_sum(search, slot);
    qsort(slot->option, slot->options, sizeof slot->option[0], best_by_least);
    search->options += count;
    search->all |= (uint64_t)1 << search->slots;
    search->slots++;
    return PARE_OK;
}

static bool has_slot(const best_search *search, size_t item)
{
    const pare_item *now = &search->desk->craft->item[item],
                    *flown = &search->desk->loaded.item[item];
    return !now->off && !flown->off && flown->part == now->part && !now->included_in;
}

enum { LAST_WIRER = 2 };

/* In which turn an item is decided: the four of a group; the controller, which may have its own ESCs; what
 * else wires and ratings hang on; what may take
 * others down with it; what swings at the tips of arms and what draws power, since both decide what the rest
 * may weigh; the rest. */
static int turn_of(const best_slot *slot, const pare_item *item)
{
    const pare_part *now = item->part;
    if (now->kind == PARE_FRAME || now->kind == PARE_MOTOR || now->kind == PARE_PROPELLER ||
        now->kind == PARE_PACK)
        return 0;
    if (pare_work_of(now) & BIT(PARE_FLIGHT_CONTROLLER))
        return 1;
    if (now->kind == PARE_CONNECTOR || now->kind == PARE_CAPACITOR || slot->moves_wires ||
        (pare_work_of(now) & BIT(PARE_ESC_FOUR)))
        return LAST_WIRER;
    if (slot->moves)
        return 3;
    if (item->place == PARE_AT_ARMS || now->kind == PARE_PROPELLER_NUT)
        return 4;
    if (slot->drags)
        return 5;
    return now->spec[PARE_SPEC_POWER].value > 0 ? 6 : 7;
}

/* Stable: within a turn in the order of the craft. */
static void put_in_turn(best_search *search)
{
    const pare_craft *craft = search->desk->craft;
    for (size_t i = 1; i < search->slots; i++) {
        const best_slot moving = search->slot[i];
        const int turn = turn_of(&moving, &craft->item[moving.item]);
        size_t at = i;
        for (; at > 0 &&
               turn_of(&search->slot[at - 1], &craft->item[search->slot[at - 1].item]) > turn;
             at--)
            search->slot[at] = search->slot[at - 1];
        search->slot[at] = moving;
    }
    search->wirers = 0;
    for (size_t i = 0; i < search->slots; i++) {
        search->slot_of[search->slot[i].item] = (unsigned char)i;
        search->slot[i].first = i > 0 ? search->slot[i - 1].first + search->slot[i - 1].options : 0;
        search->wirers +=
            turn_of(&search->slot[i], &craft->item[search->slot[i].item]) <= LAST_WIRER;
    }
}

static void find_grouped(best_search *search)
{
    static const pare_kind kinds[BEST_GROUPED] = {PARE_FRAME, PARE_MOTOR, PARE_PROPELLER,
                                                  PARE_PACK};
    for (size_t g = 0; g < BEST_GROUPED; g++) {
        const int item = pare_craft_doing(&search->desk->loaded, kinds[g]);
        search->grouped[g] = item >= 0 ? search->slot_of[item] : BEST_NONE;
    }
}

/* Boards sit about the middle; a wire that a swap makes longer just reaches. */
static double longest_phase_m(const best_search *search)
{
    const best_slot *frames =
        search->grouped[0] == BEST_NONE ? NULL : &search->slot[search->grouped[0]];
    double reach_m = 0;
    pare_vec3 arm[PARE_ARMS];
    const size_t arms = pare_craft_arms(&search->desk->loaded, PARE_ARMS, arm);
    for (size_t i = 0; i < arms; i++)
        reach_m = fmax(reach_m, hypot(arm[i].x, arm[i].y));
    for (size_t k = 0; frames && k < frames->options; k++) {
        const pare_part *part = frames->option[k].part;
        for (size_t i = 0; part && i < part->pieces; i++)
            for (size_t a = 0; part->piece[i].form == PARE_FORM_ARMS && a < part->piece[i].places;
                 a++)
                reach_m = fmax(reach_m, hypot(part->piece[i].at_m[a].x, part->piece[i].at_m[a].y));
    }
    return reach_m + BOARD_OFF_M;
}

pare_status best_slots_gather(best_search *search, pare_error *err)
{
    gathering all = {.search = search, .reader = pare_units_open()};
    pare_status status = all.reader ? PARE_OK : pare_no_memory(err);
    memset(search->slot_of, BEST_NONE, sizeof search->slot_of);
    if (status == PARE_OK) {
        pare_candidates(&search->desk->shelf, search->desk->craft, &search->desk->loaded, take_name,
                        &all);
        status = all.failed ? pare_no_memory(err) : PARE_OK;
    }
    for (size_t i = 0; status == PARE_OK && i < search->desk->craft->items; i++)
        if (has_slot(search, i))
            status = make_slot(&all, i, err);
    if (status == PARE_OK) {
        put_in_turn(search);
        find_grouped(search);
        search->longest_phase_m = longest_phase_m(search);
    }
    free(all.one);
    pare_units_close(all.reader);
    return status;
}
