/* rooms: store advise craft physics base */
/* Every swap of craft that nobody would build: the demo's, with things taken off, renamed owners, wires that carry
 * nothing, screws that hold nothing, parts that come with other things and say less of themselves. Whatever a craft is,
 * a swap is refused in words or keeps these laws: nothing comes or goes unsaid, the ledger adds up, a settled craft
 * settles to itself, the craft that it was tried on is as before, and its checklist is work that can be done. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/checklist.h"
#include "advise/replace.h"
#include "advise/swap.h"
#include "bench_of.h"
#include "craft/assemble.h"
#include "dice.h"
#include "near.h"
#include "store/bench.h"

enum { DRAWN = 250, EVERY = 1 };

typedef struct odd {
    pare_bench *bench;
    pare_part **part, *kept; /* [bench->parts], as they were */
    pare_craft craft, before, changed, again;
    pare_sheet sheet;
    pare_applied applied;
} odd;

static int read_bench(void **state)
{
    odd *o = calloc(1, sizeof *o);
    if (!o)
        return -1;
    *state = o;
    o->bench = bench_of("../../demo/bench.yaml");
    o->kept = calloc(o->bench->parts, sizeof *o->kept);
    for (size_t i = 0; o->kept && i < o->bench->parts; i++)
        o->kept[i] = *o->bench->part[i];
    return o->kept ? 0 : -1;
}

static int forget_bench(void **state)
{
    odd *o = *state;
    for (size_t i = 0; i < o->bench->parts; i++)
        *o->bench->part[i] = o->kept[i];
    pare_bench_close(o->bench);
    free(o->kept);
    free(o);
    return 0;
}

/* ---- what is drawn ---- */

static const pare_include includes[] = {
    {.what = PARE_INCLUDES_RUN, .name = "phase", .gauge = 20, .length_m = 0.1, .count = 3},
    {.what = PARE_INCLUDES_RUN, .name = "lead", .gauge = 14, .length_m = 0.1, .count = 2},
    {.what = PARE_INCLUDES_RUN, .name = "video_wire", .gauge = 28, .length_m = 0.08, .count = 3},
    {.what = PARE_INCLUDES_RUN, .name = "phase", .gauge = 20, .count = 3}, /* how long? */
    {.what = PARE_INCLUDES_JOINT,
     .name = "arm_root",
     .standard = PARE_ISO7380,
     .thread = {3e-3, 0.5e-3},
     .length_m = 10e-3,
     .material = PARE_TITANIUM,
     .count = 4},
    {.what = PARE_INCLUDES_JOINT,
     .name = "motor_base",
     .standard = PARE_ISO4762,
     .thread = {3e-3, 0.5e-3},
     .length_m = 8e-3,
     .material = PARE_STEEL,
     .count = 4},
    {.what = PARE_INCLUDES_JOINT, /* no standard has it that long */
     .name = "posts",
     .standard = PARE_ISO7380,
     .thread = {3e-3, 0.5e-3},
     .length_m = 0.5,
     .material = PARE_STEEL,
     .count = 4},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_PROPELLER_NUT, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_STRAP, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_CONNECTOR, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_ANTENNA, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_CAPACITOR, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_BUMPER, .count = 4},
};
enum { INCLUDES = sizeof includes / sizeof includes[0] };

static void draw_parts(odd *o, unsigned *seed)
{
    for (size_t i = 0; i < o->bench->parts; i++) {
        pare_part *part = o->bench->part[i];
        *part = o->kept[i];
        switch (dice(seed, 16)) {
        case 0:
        case 1: { /* comes with a few things */
            const size_t from = dice(seed, INCLUDES);
            part->include = &includes[from];
            part->includes = 1 + dice(seed, (unsigned)(INCLUDES - from < 3 ? INCLUDES - from : 3));
            break;
        }
        case 2: /* comes with nothing */
            part->includes = 0;
            break;
        case 3: /* says nothing of what it fits */
            memset(part->fit, 0, sizeof part->fit);
            break;
        case 4: /* nor of the volts that it takes */
            part->spec[PARE_SPEC_VOLTS_HIGH] = part->spec[PARE_SPEC_VOLTS_LOW] = (pare_value){0};
            break;
        case 5:
            part->ends[dice(seed, 2)] = NULL;
            break;
        case 6:
            part->owned = (int)dice(seed, 5);
            part->price.given = dice(seed, 2) == 0;
            break;
        case 7: /* as heavy as its like */
            part->mass_kg.value = 5e-3;
            break;
        case 8: { /* fits something else, a range, a word, or two of each */
            pare_fit *fit = &part->fit[dice(seed, PARE_FITS)];
            fit->count = 1 + dice(seed, 2);
            for (size_t k = 0; k < fit->count; k++) {
                fit->any[k].word = dice(seed, 3) == 0 ? "bayonet" : NULL;
                fit->any[k].low = 1e-3 * (1 + dice(seed, 40));
                fit->any[k].high = fit->any[k].low * (dice(seed, 2) ? 1 : 1.5);
            }
            break;
        }
        case 9:
            part->body_estimated = !part->body_estimated;
            break;
        default:
            break;
        }
    }
}

static const char *some_item(const odd *o, unsigned *seed)
{
    return o->craft.item[dice(seed, (unsigned)o->craft.items)].name;
}

/* Without one of these it is no craft. */
static bool flies(const pare_part *part)
{
    static const pare_kind needed[] = {PARE_FRAME, PARE_MOTOR,    PARE_PROPELLER,
                                       PARE_PACK,  PARE_ESC_FOUR, PARE_ESC_ONE};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++)
        if (pare_part_does(part, needed[i]))
            return true;
    return false;
}

/* What a part comes with, belongs to it. */
static void belong(pare_craft *c)
{
    for (size_t i = 0; i < c->items; i++) {
        const pare_part *part = c->item[i].part;
        for (size_t k = 0; k < part->includes && !c->item[i].off; k++) {
            const pare_include *in = &part->include[k];
            const int run = in->what == PARE_INCLUDES_RUN ? pare_craft_run(c, in->name) : -1;
            const int joint = in->what == PARE_INCLUDES_JOINT ? pare_craft_joint(c, in->name) : -1;
            if (run >= 0)
                c->run[run].included_in = c->item[i].name;
            if (joint >= 0)
                c->joint[joint].included_in = c->item[i].name;
            for (size_t t = 0; in->what == PARE_INCLUDES_KIND && t < c->items; t++)
                if (t != i && c->item[t].part->kind == in->kind)
                    c->item[t].included_in = c->item[i].name;
        }
    }
}

/* As many items as a craft may have: whatever comes along finds no room. */
static void fill(pare_craft *c, unsigned *seed)
{
    static char name[PARE_ITEMS][16];
    const pare_item *like = &c->item[dice(seed, (unsigned)c->items)];
    while (!flies(like->part) && !like->off && like->feeds == 0 && c->items < PARE_ITEMS) {
        pare_item *item = &c->item[c->items];
        snprintf(name[c->items], sizeof name[0], "more_%zu", c->items);
        *item = *like;
        item->name = name[c->items++];
    }
}

/* @return false: such a craft does not settle, and nothing is tried on it */
static bool draw_craft(odd *o, unsigned *seed)
{
    static const char *const craft[] = {"hedgerow", "bodkin", "thimble", "drover"};
    /* Names that things are given which come along. */
    static const char *const names[] = {"esc",     "regulator", "adapter",
                                        "pigtail", "connector", "flight_controller"};
    const char *const taken[] = {names[dice(seed, 6)], names[dice(seed, 6)]};
    const pare_craft *of = pare_bench_craft(o->bench, craft[dice(seed, 4)]);
    pare_craft *c = &o->craft;
    assert_non_null(of);
    pare_craft_copy(of, c);
    for (size_t i = 0; i < c->items; i++) {
        pare_item *item = &c->item[i];
        const unsigned how = dice(seed, 24);
        item->off = item->off || (how == 0 && !flies(item->part));
        if (how == 1)
            item->feeds = 0;
        if (how == 2 && pare_craft_item(c, taken[0]) < 0)
            item->name = taken[0];
        if (how == 3 && pare_craft_item(c, taken[1]) < 0)
            item->name = taken[1];
    }
    for (size_t i = 0; i < c->joints; i++) {
        pare_joint *joint = &c->joint[i];
        const unsigned how = dice(seed, 10);
        if (how == 0)
            joint->holds = NULL;
        if (how == 1)
            joint->included_in = NULL, joint->included_kg = 0;
        if (how == 3)
            joint->holds = some_item(o, seed);
        if (how == 4)
            joint->material = (pare_screw_material)dice(seed, PARE_SCREW_MATERIALS);
        if (how == 5 && joint->count > 1)
            joint->count--;
    }
    for (size_t i = 0; i < c->runs; i++) {
        pare_run *run = &c->run[i];
        const unsigned how = dice(seed, 10);
        if (how == 0)
            run->carries = NULL;
        if (how == 1)
            run->included_in = NULL, run->included_kg = 0;
        if (how == 3)
            run->carries = some_item(o, seed);
        if (how == 4 && run->gauge > 0)
            run->gauge += 2;
        if (how == 5 && run->ways > 0)
            run->way_m[0] *= 0.8;
    }
    c->loadouts = dice(seed, 2) ? c->loadouts : 0;
    if (dice(seed, 16) == 0)
        fill(c, seed);
    belong(c);
    return pare_craft_settle(c, NULL) == PARE_OK;
}

/* ---- laws ---- */

static bool names_it(size_t count, char rows[][64], const char *what, const char *name)
{
    char begins[80];
    snprintf(begins, sizeof begins, "%s%s", what, name);
    for (size_t i = 0; i < count; i++)
        if (strncmp(rows[i], begins, strlen(begins)) == 0)
            return true;
    return count == PARE_SWAP_NOTES; /* there was no room to say more */
}

static void nothing_comes_or_goes_unsaid(odd *o, unsigned n, const char *id)
{
    pare_applied *a = &o->applied;
    const pare_craft *was = &o->before, *is = &o->changed;
    for (size_t i = 0; i < is->items; i++) {
        const pare_item *item = &is->item[i];
        const size_t length = strlen(item->name);
        if (strncmp(id, item->name, length) == 0 && (id[length] == '=' || id[length] == '.'))
            continue;
        const bool on = i < was->items && !was->item[i].off;
        if (on && item->off && !names_it(a->drops, a->drop, "", item->name))
            fail_msg("craft %u, %s: '%s' goes unsaid", n, id, item->name);
        if (!on && !item->off && !names_it(a->brings, a->bring, "", item->name))
            fail_msg("craft %u, %s: '%s' comes unsaid", n, id, item->name);
    }
    for (size_t i = 0; i < was->joints; i++)
        if (pare_craft_joint(is, was->joint[i].name) < 0 &&
            !names_it(a->drops, a->drop, "joint.", was->joint[i].name))
            fail_msg("craft %u, %s: joint '%s' goes unsaid", n, id, was->joint[i].name);
    for (size_t i = 0; i < was->runs; i++)
        if (pare_craft_run(is, was->run[i].name) < 0 &&
            !names_it(a->drops, a->drop, "run.", was->run[i].name))
            fail_msg("craft %u, %s: run '%s' goes unsaid", n, id, was->run[i].name);
}

/* The ledger's lines are the craft, and settling again changes none of them. @return all-up */
static double adds_up(odd *o, unsigned n, const char *id)
{
    pare_error err = {0};
    if (pare_sheet_weigh(&o->changed, &o->sheet, &err) != PARE_OK)
        fail_msg("craft %u, %s: %s", n, id, err.text);
    double sum_kg = 0;
    for (size_t i = 0; i < o->sheet.assembly.lines; i++) {
        const double kg = o->sheet.assembly.line[i].mass_kg.value;
        if (!isfinite(kg))
            fail_msg("craft %u, %s: a line of %g kg", n, id, kg);
        sum_kg += kg;
    }
    const double all_up_kg = o->sheet.figure[PARE_ALL_UP].value;
    assert_within(sum_kg, all_up_kg, 1e-9);
    pare_craft_copy(&o->changed, &o->again);
    if (pare_craft_settle(&o->again, &err) != PARE_OK)
        fail_msg("craft %u, %s: settled, and then: %s", n, id, err.text);
    assert_int_equal(pare_sheet_weigh(&o->again, &o->sheet, &err), PARE_OK);
    assert_within(o->sheet.figure[PARE_ALL_UP].value, all_up_kg, 1e-12);
    return all_up_kg;
}

static void is_work_that_can_be_done(odd *o, unsigned n, const char *id, bool lighter)
{
    pare_checklist list;
    pare_opening opening[1];
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    assert_non_null(arena);
    const char *const ids[] = {id};
    if (pare_checklist_plan(o->bench, &o->craft, 1, ids, arena, &list, opening, &err) != PARE_OK)
        fail_msg("craft %u, %s: %s", n, id, err.text);
    if (!isfinite(list.minutes) || list.minutes < 0 || list.solder_joints < 0 ||
        (lighter && list.firsts + list.checks == 0))
        fail_msg("craft %u, %s: %g min, %d joints, %zu checks", n, id, list.minutes,
                 list.solder_joints, list.checks);
    double minutes = 0;
    for (size_t g = 0; g < PARE_OPENINGS; g++)
        minutes += list.group[g].minutes;
    /* Propellers come off before any work, in no group's time. */
    if (!(list.minutes >= minutes - 1e-9) || list.work != (list.minutes > 0))
        fail_msg("craft %u, %s: %g min in groups, %g min in all", n, id, minutes, list.minutes);
    pare_arena_close(arena);
}

/* The list of swaps says of each what trying it alone says; what can replace an item is among them. */
static void lists_say_the_same(odd *o, unsigned n, unsigned *seed)
{
    pare_error err = {0};
    pare_swaps swaps;
    pare_arena *arena = pare_arena_open();
    assert_non_null(arena);
    if (pare_swaps_find(o->bench, &o->craft, -1, (pare_wish)dice(seed, PARE_WISHES), arena, &swaps,
                        &err) != PARE_OK)
        fail_msg("craft %u: %s", n, err.text);
    assert_int_equal(pare_sheet_weigh(&o->craft, &o->sheet, &err), PARE_OK);
    const double was_kg = o->sheet.figure[PARE_ALL_UP].value;
    for (size_t i = 0; i < swaps.count; i += 1 + dice(seed, 20)) {
        const pare_swap *swap = &swaps.swap[i];
        if (swap->applied.sought)
            continue;
        if (pare_swap_apply(o->bench, &o->craft, swap->applied.id, &o->changed, &o->applied,
                            &err) != PARE_OK)
            fail_msg("craft %u, %s is listed: %s", n, swap->applied.id, err.text);
        assert_near(swap->grams_kg, was_kg - adds_up(o, n, swap->applied.id), 1e-12);
        assert_int_equal(swap->applied.brings, o->applied.brings);
        assert_int_equal(swap->applied.drops, o->applied.drops);
    }
    const pare_item *item = &o->craft.item[dice(seed, (unsigned)o->craft.items)];
    pare_replacement *list;
    size_t count = 0;
    err.text[0] = '\0';
    if (pare_replacements_find(o->bench, &o->craft, -1, item->name, arena, &count, &list, &err) !=
        PARE_OK) {
        assert_true(item->off || item->included_in);
        assert_non_null(strstr(err.text, item->name));
    }
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(
            pare_swap_apply(o->bench, &o->craft, list[i].applied.id, &o->changed, NULL, &err),
            PARE_OK);
        assert_near(list[i].saved_kg, was_kg - adds_up(o, n, list[i].applied.id), 1e-12);
        assert_true(i == 0 || list[i].saved_kg <= list[i - 1].saved_kg);
    }
    pare_arena_close(arena);
}

static void a_swap_of_any_craft_keeps_the_laws_or_is_refused(void **state)
{
    odd *o = *state;
    size_t tried = 0, on = 0, crafts = 0;
    for (unsigned n = 0; n < DRAWN; n++) {
        unsigned seed = n + 1;
        size_t count;
        const char *const *names;
        pare_error err = {0};
        draw_parts(o, &seed);
        if (!draw_craft(o, &seed))
            continue;
        crafts++;
        pare_arena *arena = pare_arena_open();
        assert_non_null(arena);
        if (pare_swap_names(o->bench, &o->craft, -1, arena, &count, &names, &err) != PARE_OK)
            fail_msg("craft %u: %s", n, err.text);
        pare_craft_copy(&o->craft, &o->before);
        for (size_t i = dice(&seed, EVERY); i < count; i += EVERY) {
            tried++;
            err.text[0] = '\0';
            const pare_status status =
                pare_swap_apply(o->bench, &o->craft, names[i], &o->changed, &o->applied, &err);
            if (memcmp(o->craft.item, o->before.item, sizeof o->craft.item[0]) != 0 ||
                o->craft.items != o->before.items)
                fail_msg("craft %u, %s: what it was tried on has changed", n, names[i]);
            if (status != PARE_OK) {
                assert_true(status == PARE_BAD_DATA || status == PARE_UNKNOWN);
                if (!err.text[0])
                    fail_msg("craft %u, %s: refused without a word", n, names[i]);
                continue;
            }
            on++;
            assert_true(isfinite(o->applied.work_min) && o->applied.work_min >= 0);
            assert_true(!o->applied.priced || isfinite(o->applied.money));
            nothing_comes_or_goes_unsaid(o, n, names[i]);
            adds_up(o, n, names[i]);
            if (i % 4 == 0)
                is_work_that_can_be_done(o, n, names[i], true);
        }
        pare_arena_close(arena);
        if (n % 8 == 0)
            lists_say_the_same(o, n, &seed);
    }
    print_message("%zu craft, %zu swaps, %zu of them go on\n", crafts, tried, on);
    assert_true(crafts > DRAWN / 2 && on > tried / 4 && on < tried);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_swap_of_any_craft_keeps_the_laws_or_is_refused,
                                        read_bench, forget_bench),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
