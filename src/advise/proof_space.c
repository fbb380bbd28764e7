/* proof_space.c: which sets there are, as a tree (see proof.h).
 *
 * A set is one option of each choice, put on in a fixed order, so that its names can be taken as they stand:
 * frame, motors, propeller and pack, in the first order in which they go on one after another; the controller;
 * what else wires hang on; the wires that carry power; what may take others down with it; what swings at the
 * arms' tips; what may leave something without work; what draws power; the rest; then screws at the tips, coax,
 * the other screws, the other wires. Within a turn the craft's own order stands. That order is the promise of
 * `pare best`, and it is worked out here from what parts are.
 *
 * The four of the group are decided before any of them is put on, because only together may they fit. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/fits.h"
#include "advise/proof_inside.h"
#include "advise/stand_in.h"
#include "craft/arm_facts.h"
#include "craft/gauges.h"

#define BIT(kind) (1u << (kind))
#define DRIVES    (BIT(PARE_ESC_ONE) | BIT(PARE_ESC_FOUR))

enum { SPARES = 6, LAST_BOARD_TURN = 2 };

/* ---- choices ---- */

bool proof_held(const proof_space *space, const char *left)
{
    for (size_t i = 0; i < space->claim->holds; i++) {
        const char *hold = space->claim->hold[i];
        const size_t length = strlen(hold);
        if (strncmp(left, hold, length) == 0 && (left[length] == '\0' || left[length] == '.'))
            return true;
    }
    return false;
}

static bool is_named(size_t count, const char *const ids[], const pare_part *part)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(ids[i], part->id) == 0)
            return true;
    return false;
}

static bool is_never(const proof_space *space, const pare_part *part)
{
    return is_named(space->claim->nevers, space->claim->never, part);
}

typedef struct gathering {
    proof_space *space;
    pare_units *reader;
    size_t item; /* whose names are kept */
    size_t count, room;
    proof_option *option;
    bool failed;
} gathering;

static proof_option *add_option(gathering *to)
{
    if (to->count == to->room) {
        const size_t room = to->room ? 2 * to->room : 16;
        proof_option *more = realloc(to->option, room * sizeof *more);
        if (!more) {
            to->failed = true;
            return NULL;
        }
        to->option = more;
        to->room = room;
    }
    to->option[to->count] = (proof_option){0};
    return &to->option[to->count++];
}

/* Another part for the item, or off. Lengths of coax are no option of the item itself. */
static bool take_name(void *context, const char *text, const pare_part *part)
{
    gathering *to = context;
    const proof_space *space = to->space;
    const char *of = space->desk->craft->item[to->item].name;
    const size_t length = strlen(of);
    if (strncmp(text, of, length) != 0 || text[length] != '=' ||
        (!part && strcmp(text + length, "=off") != 0) || (part && part->sought) ||
        (part && is_never(space, part)))
        return true;
    pare_swap_name *name = pare_arena_zeros(space->arena, sizeof *name);
    if (!name) {
        to->failed = true;
        return false;
    }
    if (pare_swap_name_read(to->reader, text, name, NULL) != PARE_OK)
        return true;
    name->part = part;
    proof_option *option = add_option(to);
    if (option)
        *option = (proof_option){.name = name, .part = part};
    return option != NULL;
}

bool proof_lies_between(const pare_part *part)
{
    return part->kind == PARE_ADAPTER || part->kind == PARE_PIGTAIL ||
           pare_may_bridge(part, PARE_FIT_STACK) || pare_may_bridge(part, PARE_FIT_CAMERA);
}

/* What an option may do to others; see apply_item.c and what it calls. */
static void mark(const pare_item *now, proof_option *option)
{
    const pare_part *part = option->part;
    const unsigned does = part ? pare_work_of(part) : 0, did = pare_work_of(now->part);
    const bool other_esc = ((does ^ did) & BIT(PARE_ESC_FOUR)) != 0 ||
                           (part && part->kind != now->part->kind && (does & BIT(PARE_ESC_FOUR)));
    proof_sum *sum = &option->sum;
    *sum = (proof_sum){.named = option->name != NULL,
                       .off = !part,
                       .shifts = option->name && other_esc,
                       .between = part && proof_lies_between(part)};
    if (option->name)
        sum->drops = does & ~did & (BIT(PARE_CAMERA) | BIT(PARE_RECEIVER));
    for (size_t i = 0; option->name && part && i < part->includes; i++) {
        if (part->include[i].what == PARE_INCLUDES_KIND)
            sum->drops |= BIT(part->include[i].kind);
        else
            sum->brings = true;
    }
    if (sum->shifts)
        sum->drops |= DRIVES;
    option->plain = sum->drops == 0;
    if (!part)
        return;
    const pare_fit *a = &part->fit[PARE_FIT_THREAD], *b = &now->part->fit[PARE_FIT_THREAD];
    sum->threads = a->count != b->count || !pare_fit_agrees(a, b);
    proof_weigh_option(now, part, sum);
}

/* Of options so far and one more. */
static void join(proof_sum *all, const proof_sum *one, bool first)
{
    if (first) {
        *all = *one;
        return;
    }
    all->least = one->least < all->least ? one->least : all->least;
    all->power_w = fmin(all->power_w, one->power_w);
    all->power_most_w = fmax(all->power_most_w, one->power_most_w);
    all->drops |= one->drops;
    all->named = all->named || one->named;
    all->off = all->off || one->off;
    all->shifts = all->shifts || one->shifts;
    all->threads = all->threads || one->threads;
    all->between = all->between || one->between;
    all->brings = all->brings || one->brings;
}

static bool is_board(const pare_part *part)
{
    return part->kind == PARE_FRAME || part->kind == PARE_CAMERA ||
           (pare_work_of(part) & (BIT(PARE_ESC_FOUR) | BIT(PARE_FLIGHT_CONTROLLER) |
                                  BIT(PARE_VIDEO_TRANSMITTER) | BIT(PARE_REGULATOR))) != 0;
}

static unsigned quiet_of(const pare_part *now)
{
    unsigned kinds = 0;
    if (is_board(now))
        kinds |= BIT(PARE_ADAPTER) | BIT(PARE_HOLDER) | BIT(PARE_PRINTED);
    if (now->kind == PARE_VIDEO_TRANSMITTER || now->kind == PARE_ANTENNA ||
        now->kind == PARE_PIGTAIL || now->kind == PARE_ADAPTER)
        kinds |= BIT(PARE_PIGTAIL) | BIT(PARE_ADAPTER);
    if (now->kind == PARE_PACK)
        kinds |= BIT(PARE_CONNECTOR);
    return kinds;
}

static int turn_of(const proof_choice *choice, const pare_item *item)
{
    const pare_part *now = item->part;
    const unsigned work = pare_work_of(now);
    const proof_sum *sum = &choice->sum[PROOF_ALL];
    if (now->kind == PARE_FRAME || now->kind == PARE_MOTOR || now->kind == PARE_PROPELLER ||
        now->kind == PARE_PACK)
        return 0;
    if (work & BIT(PARE_FLIGHT_CONTROLLER))
        return 1;
    if (now->kind == PARE_CONNECTOR || now->kind == PARE_CAPACITOR || sum->shifts ||
        (work & BIT(PARE_ESC_FOUR)))
        return LAST_BOARD_TURN;
    if (sum->drops)
        return 3;
    if (item->place == PARE_AT_ARMS || now->kind == PARE_PROPELLER_NUT)
        return 4;
    if (sum->named && choice->quiet)
        return 5;
    return now->spec[PARE_SPEC_POWER].value > 0 ? 6 : 7;
}

static int by_least(const void *left, const void *right)
{
    const proof_option *a = left, *b = right;
    if (a->sum.least != b->sum.least)
        return a->sum.least < b->sum.least ? -1 : 1;
    if (!a->name || !b->name)
        return (a->name != NULL) - (b->name != NULL);
    return strcmp(a->name->id, b->name->id);
}

/* Whether an item could come off with no kept job lost: another item, or one of its options, does its work
 * too. A link of an antenna's chain can be judged only with the others. */
static bool may_come_off(const proof_space *space, size_t item)
{
    const pare_craft *craft = space->desk->craft;
    const unsigned work = pare_main_work(craft->item[item].part);
    if ((pare_main_work(craft->item[item].part) == BIT(PARE_PIGTAIL)) ||
        ((craft->brief.keep | 1u << PARE_FLIES) & 1u << craft->item[item].job) == 0)
        return true;
    if (!pare_work_is_shared(work))
        return false;
    for (size_t p = 0; p < space->bench->parts; p++)
        if (pare_main_work(space->bench->part[p]) != work &&
            (pare_work_of(space->bench->part[p]) & work))
            return true;
    for (size_t i = 0; i < craft->items; i++)
        if (i != item && (pare_work_of(craft->item[i].part) & work))
            return true;
    return false;
}

static pare_status gather_choice(proof_space *space, pare_units *reader, size_t item,
                                 pare_error *err)
{
    gathering all = {.space = space, .reader = reader, .item = item};
    const pare_part *now = space->desk->craft->item[item].part;
    proof_choice *choice = &space->choice[space->choices];
    *choice = (proof_choice){.item = item, .quiet = quiet_of(now)};
    if (!is_never(space, now)) {
        proof_option *stays = add_option(&all);
        if (stays)
            stays->part = now;
    }
    if (!proof_held(space, space->desk->craft->item[item].name))
        pare_candidates(&space->desk->shelf, space->desk->craft, &space->desk->loaded, take_name,
                        &all);
    size_t kept = 0;
    for (size_t i = 0; i < all.count; i++)
        if (all.option[i].part || may_come_off(space, item))
            all.option[kept++] = all.option[i];
    choice->options = kept;
    choice->option = pare_arena_array(space->arena, kept + 1, sizeof choice->option[0]);
    if (!choice->option || all.failed) {
        free(all.option);
        return pare_no_memory(err);
    }
    size_t of[PROOF_ONE] = {0, 0, 0};
    for (size_t i = 0; i < kept; i++) {
        proof_option *option = &choice->option[i];
        *option = all.option[i];
        mark(&space->desk->loaded.item[item], option);
        const proof_allow sort = option->plain ? PROOF_PLAIN : PROOF_OTHER;
        join(&choice->sum[PROOF_ALL], &option->sum, of[PROOF_ALL]++ == 0);
        join(&choice->sum[sort], &option->sum, of[sort]++ == 0);
    }
    free(all.option);
    choice->splits = of[PROOF_PLAIN] > 0 && of[PROOF_OTHER] > 0;
    qsort(choice->option, kept, sizeof choice->option[0], by_least);
    choice->turn = turn_of(choice, &space->desk->craft->item[item]);
    space->choices++;
    return PARE_OK;
}

static void put_in_order(proof_space *space)
{
    static const pare_kind kinds[PROOF_GROUP] = {PARE_MOTOR, PARE_PROPELLER, PARE_PACK, PARE_FRAME};
    for (size_t i = 1; i < space->choices; i++) {
        const proof_choice moving = space->choice[i];
        size_t at = i;
        for (; at > 0 && space->choice[at - 1].turn > moving.turn; at--)
            space->choice[at] = space->choice[at - 1];
        space->choice[at] = moving;
    }
    memset(space->choice_of, PROOF_NONE, sizeof space->choice_of);
    for (size_t i = 0; i < space->choices; i++) {
        space->choice_of[space->choice[i].item] = (unsigned char)i;
        space->boards += space->choice[i].turn <= LAST_BOARD_TURN;
    }
    for (size_t g = 0; g < PROOF_GROUP; g++) {
        const int item = pare_craft_doing(&space->desk->loaded, kinds[g]);
        space->group[g] = item >= 0 ? space->choice_of[item] : PROOF_NONE;
        if (space->group[g] != PROOF_NONE)
            space->choice[space->group[g]].splits = false;
    }
}

/* Whether an item is a choice: it is flown in the loadout as it is, and came with nothing else. */
static bool is_choice(const proof_space *space, size_t item)
{
    const pare_item *now = &space->desk->craft->item[item],
                    *flown = &space->desk->loaded.item[item];
    return !now->off && !flown->off && flown->part == now->part && !now->included_in;
}

pare_status proof_space_open(const pare_bench *bench, const pare_craft *craft,
                             const pare_proof_claim *claim, pare_arena *arena, proof_space **space,
                             pare_error *err)
{
    proof_space *made = pare_arena_zeros(arena, sizeof *made);
    pare_units *reader = pare_units_open();
    pare_status status = made && reader ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK) {
        *made = (proof_space){.bench = bench, .claim = claim, .arena = arena};
        status = pare_desk_open(bench, craft, claim->loadout, arena, &made->desk, err);
    }
    for (size_t i = 0; status == PARE_OK && i < craft->items; i++)
        if (is_choice(made, i))
            status = gather_choice(made, reader, i, err);
    if (status == PARE_OK) {
        const pare_limit *margin = pare_brief_limit(&craft->brief, "margin");
        made->margin_least = margin ? margin->value : 0;
        put_in_order(made);
        *space = made;
    }
    pare_units_close(reader);
    return status;
}

/* ---- room ---- */

pare_status proof_room_open(proof_room **room, pare_error *err)
{
    proof_room *made = calloc(1, sizeof *made);
    if (made) {
        made->reader = pare_units_open();
        made->spare = calloc(SPARES, sizeof *made->spare);
    }
    *room = made;
    return made && made->reader && made->spare ? PARE_OK : pare_no_memory(err);
}

void proof_room_close(proof_room *room)
{
    if (!room)
        return;
    for (size_t i = 0; i < room->states; i++)
        free(room->state[i]);
    pare_units_close(room->reader);
    free(room->spare);
    free(room);
}

proof_state *proof_room_at(proof_room *room, size_t depth)
{
    if (depth >= PROOF_DEPTH)
        return NULL;
    while (room->states <= depth) {
        room->state[room->states] = calloc(1, sizeof *room->state[0]);
        if (!room->state[room->states])
            return NULL;
        room->states++;
    }
    return room->state[depth];
}

/* ---- ways of joints, runs and coax ---- */

static bool is_free(const proof_space *space, const char *what, const char *of,
                    const char *property)
{
    char left[PROOF_LABEL];
    snprintf(left, sizeof left, "%s%s.%s", what, of, property);
    return !proof_held(space, left);
}

/* A name, and the way's label longer by it. */
static void put(proof_way *way, const char *left, const char *property, const char *value)
{
    const size_t used = strlen(way->label);
    snprintf(way->name[way->names++], PARE_SWAP_NAME, "%s.%s=%s", left, property, value);
    snprintf(way->label + used, sizeof way->label - used, "%s%s=%s", used ? "+" : "", property,
             value);
}

static void put_millimetres(proof_way *way, const char *left, double length_m)
{
    char value[32];
    snprintf(value, sizeof value, "%.0fmm", 1e3 * length_m);
    put(way, left, "length", value);
}

static void put_number(proof_way *way, const char *left, const char *property, int number)
{
    char value[16];
    snprintf(value, sizeof value, "%d", number);
    put(way, left, property, value);
}

typedef struct joint_ways {
    pare_joint_choices choices;
    size_t metals, counts, lengths; /* with the one that is */
} joint_ways;

static joint_ways ways_of_joint(const proof_space *space, const proof_state *state, size_t joint)
{
    const pare_joint *now = &state->trial.flown->joint[joint];
    joint_ways ways = {.choices = pare_joint_choices_of(state->trial.flown, now)};
    ways.metals =
        1 + (is_free(space, "joint.", now->name, "material") ? ways.choices.materials : 0);
    ways.counts = ways.choices.count > 0 && is_free(space, "joint.", now->name, "count") ? 2 : 1;
    ways.lengths =
        ways.choices.length_m > 0 && is_free(space, "joint.", now->name, "length") ? 2 : 1;
    return ways;
}

size_t proof_joint_ways(const proof_space *space, const proof_state *state, size_t joint)
{
    const joint_ways ways = ways_of_joint(space, state, joint);
    return ways.metals * ways.counts * ways.lengths;
}

void proof_joint_way(const proof_space *space, const proof_state *state, size_t joint, size_t nth,
                     proof_way *way)
{
    const joint_ways ways = ways_of_joint(space, state, joint);
    const size_t metal = nth / (ways.counts * ways.lengths);
    char left[PARE_SWAP_NAME];
    way->names = 0;
    way->label[0] = '\0';
    way->joint = state->trial.flown->joint[joint];
    snprintf(left, sizeof left, "joint.%s", way->joint.name);
    if (metal > 0) {
        way->joint.material = ways.choices.material[metal - 1];
        way->joint.grade = NULL;
        put(way, left, "material", pare_screw_material_name(way->joint.material));
    }
    if (nth / ways.lengths % ways.counts) {
        way->joint.count = ways.choices.count;
        put_number(way, left, "count", way->joint.count);
    }
    if (nth % ways.lengths) {
        way->joint.length_m = ways.choices.length_m;
        put_millimetres(way, left, way->joint.length_m);
    }
    if (way->names == 0)
        snprintf(way->label, sizeof way->label, "stay");
}

typedef struct run_ways {
    pare_run_choices choices;
    size_t gauges, lengths;
} run_ways;

static run_ways ways_of_run(const proof_space *space, const proof_state *state, size_t run)
{
    const pare_run *now = &state->trial.flown->run[run];
    run_ways ways = {.choices = pare_run_choices_of(state->trial.flown, now)};
    ways.gauges = 1 + (is_free(space, "run.", now->name, "gauge") ? ways.choices.gauges : 0);
    ways.lengths = ways.choices.length_m > 0 && is_free(space, "run.", now->name, "length") ? 2 : 1;
    return ways;
}

static void run_way(const proof_space *space, const proof_state *state, size_t nth, proof_way *way)
{
    const run_ways ways = ways_of_run(space, state, state->at);
    char left[PARE_SWAP_NAME];
    snprintf(left, sizeof left, "run.%s", state->trial.flown->run[state->at].name);
    if (nth / ways.lengths)
        put_number(way, left, "gauge", ways.choices.gauge[nth / ways.lengths - 1]);
    if (nth % ways.lengths)
        put_millimetres(way, left, ways.choices.length_m);
}

static size_t ways_of_coax(const proof_space *space, const proof_state *state, size_t item)
{
    const pare_item *now = &state->trial.flown->item[item];
    return !now->off && !now->included_in && pare_coax_choice_m(state->trial.flown, now) > 0 &&
                   is_free(space, "", now->name, "length")
               ? 2
               : 1;
}

void proof_way_of(const proof_space *space, const proof_state *state, size_t nth, proof_way *way)
{
    way->names = 0;
    way->label[0] = '\0';
    if (state->step == PROOF_STEP_TIP || state->step == PROOF_STEP_JOINT) {
        proof_joint_way(space, state, state->at, nth, way);
        return;
    }
    if (state->step == PROOF_STEP_COAX) {
        const pare_item *item = &state->trial.flown->item[state->at];
        if (nth > 0)
            put_millimetres(way, item->name, pare_coax_choice_m(state->trial.flown, item));
    } else {
        run_way(space, state, nth, way);
    }
    if (way->names == 0)
        snprintf(way->label, sizeof way->label, "stay");
}

/* ---- what is next ---- */

/* Whether nothing has taken an item off or put something else in for it: otherwise its choice is made. */
static bool stands(const proof_space *space, const proof_state *state, size_t item)
{
    const pare_item *now = &state->trial.changed.item[item];
    return !now->off && now->part == space->desk->craft->item[item].part;
}

static bool next_item(const proof_space *space, proof_state *state, size_t from, size_t to)
{
    for (size_t c = from; c < to; c++) {
        if (!proof_open(state, c))
            continue;
        if (stands(space, state, space->choice[c].item)) {
            state->step = PROOF_STEP_ITEM;
            state->at = c;
            return true;
        }
        state->open &= ~((uint64_t)1 << c);
    }
    return false;
}

static bool has_line(const proof_state *state, pare_line_of of, size_t index)
{
    const pare_assembly *a = &state->trial.sheet.assembly;
    for (size_t i = 0; i < a->lines; i++)
        if (a->line[i].of == of && a->line[i].index == index)
            return true;
    return false;
}

static bool is_next(const proof_space *space, const proof_state *state, proof_step step, size_t at)
{
    const pare_craft *craft = state->trial.flown;
    switch (step) {
    case PROOF_STEP_POWER:
    case PROOF_STEP_RUN: {
        if (!has_line(state, PARE_LINE_RUN, at) ||
            pare_run_of_power(craft, &craft->run[at]) != (step == PROOF_STEP_POWER))
            return false;
        const run_ways ways = ways_of_run(space, state, at);
        return ways.gauges * ways.lengths > 1;
    }
    case PROOF_STEP_TIP:
    case PROOF_STEP_JOINT:
        return has_line(state, PARE_LINE_JOINT, at) &&
               pare_joint_at_tips(craft, &craft->joint[at]) == (step == PROOF_STEP_TIP) &&
               proof_joint_ways(space, state, at) > 1;
    case PROOF_STEP_COAX:
        return ways_of_coax(space, state, at) > 1;
    default:
        return false;
    }
}

static size_t count_of(const proof_state *state, proof_step step)
{
    const pare_craft *craft = state->trial.flown;
    return step == PROOF_STEP_POWER || step == PROOF_STEP_RUN   ? craft->runs
           : step == PROOF_STEP_TIP || step == PROOF_STEP_JOINT ? craft->joints
                                                                : craft->items;
}

/* From what was decided last, of one sort. */
static bool next_of(const proof_space *space, proof_state *state, proof_step step)
{
    size_t at = state->step == step ? state->at + 1 : 0;
    while (at < count_of(state, step) && !is_next(space, state, step, at))
        at++;
    if (at == count_of(state, step))
        return false;
    state->step = step;
    state->at = at;
    return true;
}

/* What a state decides after what it has decided. */
static void advance(const proof_space *space, proof_state *state)
{
    for (size_t g = 0; g < PROOF_GROUP && !state->built; g++)
        if (space->group[g] != PROOF_NONE && state->allow[space->group[g]] != PROOF_ONE) {
            state->step = PROOF_STEP_GROUP;
            state->at = space->group[g];
            return;
        }
    const bool wired = proof_wired(space, state);
    if (state->step <= PROOF_STEP_ITEM && !wired && next_item(space, state, 0, space->boards))
        return;
    if (state->step <= PROOF_STEP_POWER && !wired && next_of(space, state, PROOF_STEP_POWER))
        return;
    if (state->step <= PROOF_STEP_POWER && next_item(space, state, 0, space->choices))
        return;
    static const proof_step rest[] = {PROOF_STEP_TIP, PROOF_STEP_COAX, PROOF_STEP_JOINT,
                                      PROOF_STEP_RUN};
    for (size_t i = 0; i < sizeof rest / sizeof rest[0]; i++)
        if (state->step <= rest[i] && next_of(space, state, rest[i]))
            return;
    state->step = PROOF_STEP_SET;
    state->at = 0;
}

size_t proof_ways(const proof_space *space, const proof_state *state)
{
    switch (state->step) {
    case PROOF_STEP_GROUP:
    case PROOF_STEP_ITEM:
        return space->choice[state->at].options;
    case PROOF_STEP_TIP:
    case PROOF_STEP_JOINT:
        return proof_joint_ways(space, state, state->at);
    case PROOF_STEP_COAX:
        return ways_of_coax(space, state, state->at);
    case PROOF_STEP_POWER:
    case PROOF_STEP_RUN: {
        const run_ways ways = ways_of_run(space, state, state->at);
        return ways.gauges * ways.lengths;
    }
    case PROOF_STEP_SET:
        break;
    }
    return 0;
}

void proof_what(const proof_space *space, const proof_state *state, char what[PROOF_LABEL])
{
    const pare_craft *craft = state->trial.flown;
    switch (state->step) {
    case PROOF_STEP_GROUP:
    case PROOF_STEP_ITEM:
        snprintf(what, PROOF_LABEL, "%s",
                 space->desk->craft->item[space->choice[state->at].item].name);
        return;
    case PROOF_STEP_TIP:
    case PROOF_STEP_JOINT:
        snprintf(what, PROOF_LABEL, "joint.%s", craft->joint[state->at].name);
        return;
    case PROOF_STEP_COAX:
        snprintf(what, PROOF_LABEL, "%s.length", craft->item[state->at].name);
        return;
    case PROOF_STEP_POWER:
    case PROOF_STEP_RUN:
        snprintf(what, PROOF_LABEL, "run.%s", craft->run[state->at].name);
        return;
    case PROOF_STEP_SET:
        break;
    }
    snprintf(what, PROOF_LABEL, "nothing");
}

void proof_label(const proof_space *space, const proof_state *state, size_t nth,
                 char label[PROOF_LABEL])
{
    if (state->step > PROOF_STEP_ITEM) {
        proof_way way;
        proof_way_of(space, state, nth, &way);
        memcpy(label, way.label, PROOF_LABEL);
        return;
    }
    const proof_option *option = &space->choice[state->at].option[nth];
    snprintf(label, PROOF_LABEL, "%s",
             !option->name   ? "stay"
             : !option->part ? "off"
                             : option->part->id);
}

bool proof_allowed(const proof_space *space, const proof_state *state, size_t choice, size_t nth)
{
    const proof_option *option = &space->choice[choice].option[nth];
    switch ((proof_allow)state->allow[choice]) {
    case PROOF_ALL:
        return true;
    case PROOF_PLAIN:
        return option->plain;
    case PROOF_OTHER:
        return !option->plain;
    case PROOF_ONE:
        return nth == state->one[choice];
    }
    return false;
}

/* ---- a node from the one above it ---- */

pare_status proof_first(const proof_space *space, proof_state *state, pare_error *err)
{
    pare_craft_copy(space->desk->craft, &state->trial.changed);
    const pare_status status = pare_trial_weigh(space->desk, &state->trial, err);
    if (status != PARE_OK)
        return status;
    state->open = space->choices < 64 ? ((uint64_t)1 << space->choices) - 1 : UINT64_MAX;
    memset(state->allow, PROOF_ALL, sizeof state->allow);
    memset(state->held, 0, sizeof state->held);
    state->built = false;
    state->step = PROOF_STEP_GROUP;
    state->at = 0;
    state->swaps = 0;
    state->floor = 0;
    state->ceiling = space->claim->found ? space->claim->best_100ug : PROOF_NEVER;
    state->units = proof_weigh(&state->trial.sheet.assembly);
    bool any = false;
    for (size_t g = 0; g < PROOF_GROUP; g++)
        any = any || space->group[g] != PROOF_NONE;
    state->built = !any;
    advance(space, state);
    proof_bound(space, state);
    return PARE_OK;
}

static void inherit(const proof_state *from, proof_state *to)
{
    to->open = from->open;
    memcpy(to->allow, from->allow, sizeof to->allow);
    memcpy(to->one, from->one, sizeof to->one);
    to->built = from->built;
    to->step = from->step;
    to->at = from->at;
    to->floor = from->floor;
    to->ceiling = from->ceiling;
    to->swaps = from->swaps;
    to->units = from->units;
    to->bound = from->bound;
}

void proof_copy(const proof_space *space, const proof_state *from, proof_state *to)
{
    pare_craft_copy(&from->trial.changed, &to->trial.changed);
    to->trial.flown = &to->trial.changed;
    if (space->desk->loadout >= 0) {
        pare_craft_copy(&from->trial.loaded, &to->trial.loaded);
        to->trial.flown = &to->trial.loaded;
    }
    pare_sheet_copy(&from->trial.sheet, &to->trial.sheet);
    memcpy(to->held, from->held, sizeof to->held);
    memcpy(to->held_least, from->held_least, sizeof to->held_least);
    inherit(from, to);
}

static bool same_joint(const pare_joint *a, const pare_joint *b)
{
    return a->name == b->name && a->standard == b->standard && a->material == b->material &&
           a->grade == b->grade && a->count == b->count && a->length_m == b->length_m &&
           a->thread.nominal_m == b->thread.nominal_m && a->holds == b->holds &&
           a->into == b->into && a->included_in == b->included_in &&
           a->included_kg == b->included_kg && a->needed_m == b->needed_m;
}

/* What was found out of a joint's screws stands while the joint does. */
static void inherit_held(const proof_state *from, proof_state *to)
{
    const pare_craft *was = &from->trial.changed, *is = &to->trial.changed;
    for (size_t i = 0; i < is->joints; i++) {
        size_t k = 0;
        while (k < was->joints && was->joint[k].name != is->joint[i].name)
            k++;
        to->held[i] = k < was->joints && from->held[k] && same_joint(&was->joint[k], &is->joint[i]);
        to->held_least[i] = to->held[i] ? from->held_least[k] : 0;
    }
}

/* Whether what was to stay as it is has stayed. */
static bool holds_stay(const proof_space *space, const pare_craft *changed)
{
    const pare_craft *before = space->desk->craft;
    for (size_t h = 0; h < space->claim->holds; h++) {
        const int was = pare_craft_item(before, space->claim->hold[h]),
                  is = pare_craft_item(changed, space->claim->hold[h]);
        if (was >= 0 && (is < 0 || before->item[was].part != changed->item[is].part ||
                         before->item[was].off != changed->item[is].off ||
                         before->item[was].count != changed->item[is].count))
            return false;
    }
    return true;
}

bool proof_edit(const proof_space *space, proof_room *room, const proof_state *from,
                const pare_swap_name *name, proof_state *to)
{
    pare_applied applied;
    pare_basket basket = {0};
    if (from->swaps == PROOF_SWAPS ||
        pare_swap_edit(&space->desk->shelf, &from->trial.changed, name, &to->trial.changed,
                       &applied, &basket, NULL) != PARE_OK ||
        applied.open_question || applied.sought ||
        pare_kept_jobs_lost(space->desk->craft, &applied) != 0)
        return false;
    for (size_t i = 0; i < from->swaps; i++)
        if (pare_swap_clash(&room->name[i], name, &from->trial.changed, &to->trial.changed, NULL) !=
            PARE_OK)
            return false;
    if (!holds_stay(space, &to->trial.changed) ||
        pare_trial_weigh(space->desk, &to->trial, NULL) != PARE_OK)
        return false;
    inherit(from, to);
    inherit_held(from, to);
    room->name[to->swaps++] = *name;
    to->units = proof_weigh(&to->trial.sheet.assembly);
    return true;
}

/* The first order, frame before motor before propeller before pack, in which the group's names go on. */
static bool build(const proof_space *space, proof_room *room, const proof_state *from,
                  unsigned left, size_t depth, proof_state *to)
{
    static const size_t order[PROOF_GROUP] = {3, 0, 1, 2};
    if (left == 0) {
        proof_copy(space, from, to);
        return true;
    }
    for (size_t i = 0; i < PROOF_GROUP; i++) {
        const unsigned char c = space->group[order[i]];
        if ((left & 1u << i) == 0)
            continue;
        proof_state *next = &room->spare[depth];
        if (proof_edit(space, room, from, space->choice[c].option[from->one[c]].name, next) &&
            build(space, room, next, left & ~(1u << i), depth + 1, to))
            return true;
    }
    return false;
}

static bool enter_group(const proof_space *space, proof_room *room, const proof_state *from,
                        size_t nth, proof_state *to)
{
    static const size_t order[PROOF_GROUP] = {3, 0, 1, 2};
    unsigned left = 0;
    proof_copy(space, from, to);
    to->allow[from->at] = PROOF_ONE;
    to->one[from->at] = (uint32_t)nth;
    if (!space->choice[from->at].option[nth].part)
        return false; /* without one of the four it does not fly */
    for (size_t i = 0; i < PROOF_GROUP; i++) {
        const unsigned char c = space->group[order[i]];
        if (c == PROOF_NONE)
            continue;
        if (to->allow[c] != PROOF_ONE)
            return true;
        if (space->choice[c].option[to->one[c]].name)
            left |= 1u << i;
    }
    proof_state *start = &room->spare[0];
    proof_copy(space, to, start);
    if (!build(space, room, start, left, 1, to))
        return false;
    to->built = true;
    for (size_t g = 0; g < PROOF_GROUP; g++)
        if (space->group[g] != PROOF_NONE)
            to->open &= ~((uint64_t)1 << space->group[g]);
    return true;
}

static bool enter_item(const proof_space *space, proof_room *room, const proof_state *from,
                       size_t nth, proof_state *to)
{
    const proof_option *option = &space->choice[from->at].option[nth];
    if (!option->name)
        proof_copy(space, from, to);
    else if (!proof_edit(space, room, from, option->name, to))
        return false;
    to->open &= ~((uint64_t)1 << from->at);
    return true;
}

static bool enter_way(const proof_space *space, proof_room *room, const proof_state *from,
                      size_t nth, proof_state *to)
{
    proof_way way;
    proof_way_of(space, from, nth, &way);
    const proof_state *now = from;
    for (size_t i = 0; i < way.names; i++) {
        pare_swap_name name;
        proof_state *next = i + 1 == way.names ? to : &room->spare[i];
        if (pare_swap_name_read(room->reader, way.name[i], &name, NULL) != PARE_OK ||
            !proof_edit(space, room, now, &name, next))
            return false;
        now = next;
    }
    if (way.names == 0)
        proof_copy(space, from, to);
    return true;
}

bool proof_enter(const proof_space *space, proof_room *room, const proof_state *from, size_t nth,
                 proof_state *to)
{
    const bool on = from->step == PROOF_STEP_GROUP  ? enter_group(space, room, from, nth, to)
                    : from->step == PROOF_STEP_ITEM ? enter_item(space, room, from, nth, to)
                                                    : enter_way(space, room, from, nth, to);
    if (!on)
        return false;
    advance(space, to);
    proof_bound(space, to);
    return true;
}

/* ---- what cannot mate ---- */

static const pare_part *part_of(const proof_space *space, const proof_state *state, size_t g,
                                size_t nth, pare_kind kind)
{
    const unsigned char c = space->group[g];
    if (c == PROOF_NONE) {
        const int item = pare_craft_doing(&space->desk->loaded, kind);
        return item >= 0 ? space->desk->loaded.item[item].part : NULL;
    }
    if (c == state->at)
        return space->choice[c].option[nth].part;
    return state->allow[c] == PROOF_ONE ? space->choice[c].option[state->one[c]].part : NULL;
}

static bool mate(const pare_part *a, const pare_part *b, pare_fit_key key)
{
    return !a || !b || pare_fit_agrees(&a->fit[key], &b->fit[key]);
}

bool proof_apart(const proof_space *space, const proof_state *state, size_t nth)
{
    if (state->step != PROOF_STEP_GROUP)
        return false;
    const pare_part *motor = part_of(space, state, 0, nth, PARE_MOTOR),
                    *propeller = part_of(space, state, 1, nth, PARE_PROPELLER),
                    *frame = part_of(space, state, 3, nth, PARE_FRAME);
    pare_fit size = {0};
    if (propeller && propeller->spec[PARE_SPEC_DIAMETER].value > 0) {
        size.count = 1;
        size.any[0].low = size.any[0].high = propeller->spec[PARE_SPEC_DIAMETER].value;
    }
    return !mate(frame, motor, PARE_FIT_BOLT_CIRCLE) || !mate(propeller, motor, PARE_FIT_SHAFT) ||
           (frame && size.count > 0 && !pare_fit_agrees(&size, &frame->fit[PARE_FIT_PROPELLER]));
}
