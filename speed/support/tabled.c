/* tabled.c: groups flown one by one (see tabled.h).
 *
 * A group is put on the craft that has the lightest of all else, in the first order in which its parts go on, and
 * judged with more and more put at its centre of mass: so one finds the stretch of masses in which it does its
 * job. Ringing arms leave a gap at the light end, thrust and minutes a wall at the heavy one. Where a stretch
 * had holes this would be a looser question; whoever compares has to judge the answer. */
#include "support/tabled.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/edit.h"
#include "craft/weighed.h"
#include "support/clock.h"

enum { FOUR = 4, TRIES = 8, MOST_OPTIONS = 4096 };

#define BASE_M 8e-3

static const char *const four[FOUR] = {"motor", "propeller", "pack", "esc"};
static const char *const plain[] = {"nut",           "pad",    "strap",  "tower",
                                    "receiver",      "finder", "buzzer", "bumper",
                                    "action_camera", "holder", "tie"};
enum { PLAIN = sizeof plain / sizeof plain[0] };

/* What goes on, and what that changed. */
typedef struct rig {
    pare_craft craft;
    int64_t cents;
} rig;

typedef struct table {
    const pare_bench *bench;
    const pare_craft *craft;
    int loadout;
    pare_shelf shelf;
    pare_units *units;
    pare_arena *arena;
    tabled *out;
    pare_sheet before, sheet;
    pare_craft loaded;
    int64_t was; /* 0.1 mg */
    rig light;   /* with the lightest of all that is plain */
    int64_t light_units, rest_most;
    size_t options[FOUR];
    pare_swap_name *name[FOUR];
    pare_pick_amounts *group;
    size_t groups, room;
    rig step[FOUR + 1];
    pare_error *err;
} table;

void tabled_plain_bench(const pare_bench *bench)
{
    for (size_t i = 0; i < bench->parts; i++) {
        bench->part[i]->price.sold_in = 1;
        bench->part[i]->price.shipping = 0;
        if (bench->part[i]->kind == PARE_MOTOR)
            bench->part[i]->spec[PARE_SPEC_SCREW_DEPTH] =
                (pare_value){.value = BASE_M, .given = true};
    }
}

/* ---- putting on and weighing ---- */

static bool put_on(const table *t, const rig *from, const pare_swap_name *name, rig *to)
{
    pare_applied applied;
    pare_basket basket = {0};
    if (pare_swap_edit(&t->shelf, &from->craft, name, &to->craft, &applied, &basket, NULL) !=
            PARE_OK ||
        applied.open_question || !applied.priced || (applied.jobs_lost & t->craft->brief.keep))
        return false;
    to->cents = from->cents + llround(100 * applied.money);
    return true;
}

static bool weigh(table *t, const pare_craft *craft, int64_t *units)
{
    if (pare_craft_load(craft, t->loadout, &t->loaded, NULL) != PARE_OK ||
        pare_sheet_weigh(&t->loaded, &t->sheet, NULL) != PARE_OK)
        return false;
    *units = pare_best_100ug(&t->sheet.assembly);
    return true;
}

/* Whether a craft does its job with so much more at its centre of mass. */
static bool does_its_job(table *t, const pare_craft *craft, int64_t more)
{
    char by[48];
    const pare_weighed_mass mass = {.kg = 1e-7 * (double)more, .read = true};
    const double none = 0;
    const pare_weighed weighed = {.masses = 1, .mass = &mass, .forgotten = 0, .root_kg = &none};
    if (pare_craft_load(craft, t->loadout, &t->loaded, NULL) != PARE_OK)
        return false;
    if (more > 0)
        t->loaded.weighed = &weighed;
    const bool does = pare_sheet_compute(&t->loaded, false, &t->sheet, NULL) == PARE_OK &&
                      pare_best_meets(&t->out->ask, t->craft, &t->before, &t->sheet, by);
    t->loaded.weighed = NULL;
    return does;
}

/* The last of a stretch: does at `does`, not at `does_not`. */
static int64_t edge(table *t, const pare_craft *craft, int64_t does, int64_t does_not)
{
    while (does - does_not > 1 || does_not - does > 1) {
        const int64_t middle = does + (does_not - does) / 2;
        *(does_its_job(t, craft, middle) ? &does : &does_not) = middle;
    }
    return does;
}

/* From which extra mass to which a craft does its job. */
static bool stretch(table *t, const pare_craft *craft, int64_t most, int64_t *low, int64_t *high)
{
    int64_t does = 0;
    bool found = does_its_job(t, craft, 0);
    *low = 0;
    for (int i = 1; !found && i <= TRIES; i++) {
        does = most * i / TRIES;
        found = does_its_job(t, craft, does);
        *low = found ? edge(t, craft, does, most * (i - 1) / TRIES) : 0;
    }
    *high = found && !does_its_job(t, craft, most) ? edge(t, craft, does, most) : most;
    return found;
}

/* ---- classes ---- */

static bool is_of(const char *id, const char *left)
{
    const size_t length = strlen(left);
    return strncmp(id, left, length) == 0 && id[length] == '=';
}

/* The class of a plain item: as it is, then each change of it. Puts the lightest on t->light. */
static pare_status plain_class(table *t, const char *left, size_t count, const char *const names[])
{
    pare_pick_amounts *option = pare_arena_zeros(t->arena, (count + 1) * sizeof *option);
    rig *on = &t->step[0], *with = &t->step[1];
    size_t options = 1;
    int64_t lightest = 0, most = 0;
    pare_swap_name name, best = {0};
    if (!option)
        return pare_no_memory(t->err);
    pare_craft_copy(t->craft, &on->craft);
    on->cents = 0;
    for (size_t i = 0; i < count; i++) {
        int64_t units;
        if (!is_of(names[i], left) || strstr(names[i], "=sought-") ||
            pare_swap_name_read(t->units, names[i], &name, NULL) != PARE_OK ||
            !put_on(t, on, &name, with) || !weigh(t, &with->craft, &units))
            continue;
        const int64_t more = units - t->was;
        option[options++] = (pare_pick_amounts){
            .mass_100ug = more, .money_cents = with->cents, .load = {more, -more}};
        if (more < lightest)
            best = name;
        lightest = more < lightest ? more : lightest;
        most = more > most ? more : most;
    }
    t->out->class[t->out->pick.classes++] = (pare_pick_class){.count = options, .option = option};
    t->rest_most += most - lightest;
    if (lightest < 0) {
        if (!put_on(t, &t->light, &best, with))
            return pare_fail(t->err, PARE_BAD_DATA, "'%s' does not go on with what is lightest",
                             left);
        t->light = *with;
    }
    return PARE_OK;
}

static pare_status names_of(table *t, const char *left, size_t count, const char *const names[],
                            size_t *options, pare_swap_name **name)
{
    *options = 0;
    *name = pare_arena_zeros(t->arena, (count + 1) * sizeof **name);
    if (!*name)
        return pare_no_memory(t->err);
    for (size_t i = 0; i < count; i++)
        *options += is_of(names[i], left) && !strstr(names[i], "=off") &&
                    !strstr(names[i], "=sought-") &&
                    pare_swap_name_read(t->units, names[i], *name + *options, NULL) == PARE_OK;
    return PARE_OK;
}

static pare_status keep_group(table *t, const rig *whole)
{
    int64_t units, low, high;
    if (!weigh(t, &whole->craft, &units) || !stretch(t, &whole->craft, t->rest_most, &low, &high))
        return PARE_OK;
    if (t->groups == t->room) {
        const size_t room = t->room ? 2 * t->room : MOST_OPTIONS;
        pare_pick_amounts *more = pare_arena_array(t->arena, room, sizeof *more);
        if (!more)
            return pare_no_memory(t->err);
        if (t->groups > 0)
            memcpy(more, t->group, t->groups * sizeof *more);
        t->group = more;
        t->room = room;
    }
    /* What the group weighs more; what all may weigh more, with it. */
    const int64_t more = units - t->light_units;
    const int64_t may = units + high - t->was, must = units + low - t->was;
    t->group[t->groups++] = (pare_pick_amounts){.mass_100ug = more,
                                                .money_cents = whole->cents - t->light.cents,
                                                .load = {more - may, must - more}};
    return PARE_OK;
}

/* The first order in which some of motor, propeller and pack go on, one after another. */
static bool in_some_order(table *t, int depth, const pare_swap_name *const name[], unsigned left,
                          rig *whole)
{
    if (left == 0) {
        *whole = t->step[depth];
        return true;
    }
    for (int i = 0; i < FOUR - 1; i++)
        if (left & 1u << i && put_on(t, &t->step[depth], name[i], &t->step[depth + 1]) &&
            in_some_order(t, depth + 1, name, left & ~(1u << i), whole))
            return true;
    return false;
}

static pare_status make_groups(table *t)
{
    const size_t all = (t->options[0] + 1) * (t->options[1] + 1) * (t->options[2] + 1);
    rig *three = &t->step[FOUR], *whole = pare_arena_zeros(t->arena, sizeof *whole);
    pare_status status = whole ? PARE_OK : pare_no_memory(t->err);
    for (size_t n = 0; status == PARE_OK && n < all; n++) {
        const pare_swap_name *name[FOUR - 1];
        unsigned left = 0;
        size_t rest = n;
        for (int i = 0; i < FOUR - 1; i++) {
            const size_t which = rest % (t->options[i] + 1);
            rest /= t->options[i] + 1;
            left |= which > 0 ? 1u << i : 0;
            name[i] = which > 0 ? &t->name[i][which - 1] : NULL;
        }
        t->step[0] = t->light;
        if (!in_some_order(t, 0, name, left, three))
            continue;
        t->out->fit++;
        status = keep_group(t, three);
        for (size_t e = 0; status == PARE_OK && e < t->options[FOUR - 1]; e++)
            if (put_on(t, three, &t->name[FOUR - 1][e], whole)) {
                t->out->fit++;
                status = keep_group(t, whole);
            }
    }
    t->out->combinations = all * (t->options[FOUR - 1] + 1);
    t->out->class[0] = (pare_pick_class){.count = t->groups, .option = t->group};
    return status;
}

/* ---- the question ---- */

static bool is_open(const char *item)
{
    for (int i = 0; i < FOUR; i++)
        if (strcmp(item, four[i]) == 0)
            return true;
    for (int i = 0; i < PLAIN; i++)
        if (strcmp(item, plain[i]) == 0)
            return true;
    return false;
}

static const char *joined(pare_arena *arena, const char *what, const char *name)
{
    char both[128];
    snprintf(both, sizeof both, "%s%s", what, name);
    return pare_arena_text(arena, both);
}

static void hold_the_rest(table *t)
{
    tabled *out = t->out;
    for (size_t i = 0; i < t->craft->items; i++)
        if (!is_open(t->craft->item[i].name))
            out->hold[out->ask.holds++] = t->craft->item[i].name;
    for (size_t i = 0; i < t->craft->joints; i++)
        out->hold[out->ask.holds++] = joined(t->arena, "joint.", t->craft->joint[i].name);
    for (size_t i = 0; i < t->craft->runs; i++)
        out->hold[out->ask.holds++] = joined(t->arena, "run.", t->craft->run[i].name);
    out->ask.hold = out->hold;
    out->ask.loadout = t->loadout;
}

static pare_status fill(table *t)
{
    size_t count;
    const char *const *names;
    pare_status status = pare_shelf_fill(t->bench, t->arena, &t->shelf, t->err);
    if (status == PARE_OK)
        status = pare_craft_load(t->craft, t->loadout, &t->loaded, t->err);
    if (status == PARE_OK)
        status = pare_sheet_compute(&t->loaded, false, &t->before, t->err);
    if (status == PARE_OK)
        status = pare_swap_names(t->bench, t->craft, t->loadout, t->arena, &count, &names, t->err);
    if (status != PARE_OK)
        return status;
    t->was = pare_best_100ug(&t->before.assembly);
    hold_the_rest(t);
    pare_craft_copy(t->craft, &t->light.craft);
    t->out->pick =
        (pare_pick){.classes = 1, .class = t->out->class, .loads = 2, .most = pare_pick_no_limit()};
    t->out->pick.most.load[0] = t->out->pick.most.load[1] = 0;
    for (int i = 0; status == PARE_OK && i < PLAIN; i++)
        status = plain_class(t, plain[i], count, names);
    for (int i = 0; status == PARE_OK && i < FOUR; i++)
        status = names_of(t, four[i], count, names, &t->options[i], &t->name[i]);
    if (status == PARE_OK && !weigh(t, &t->light.craft, &t->light_units))
        status = pare_fail(t->err, PARE_BAD_DATA, "what is lightest cannot be weighed");
    return status == PARE_OK ? make_groups(t) : status;
}

pare_status tabled_make(const pare_bench *bench, const pare_craft *craft, int loadout,
                        pare_arena *arena, tabled *out, pare_error *err)
{
    const double from = processor_s();
    table *t = pare_arena_zeros(arena, sizeof *t);
    if (!t)
        return pare_no_memory(err);
    *out = (tabled){0};
    *t = (table){.bench = bench,
                 .craft = craft,
                 .loadout = loadout,
                 .units = pare_units_open(),
                 .arena = arena,
                 .out = out,
                 .err = err};
    const pare_status status = t->units ? fill(t) : pare_no_memory(err);
    pare_units_close(t->units);
    out->took_s = processor_s() - from;
    return status;
}
