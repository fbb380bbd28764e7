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
#include "craft/assemble.h"
#include "odd_drawn.h"

enum { DRAWN = 250, EVERY = 1 };

typedef struct trial {
    odd odd;
    pare_craft before, changed, again;
    pare_sheet sheet;
    pare_applied applied;
} trial;

static int read_bench(void **state)
{
    trial *t = calloc(1, sizeof *t);
    *state = t;
    return t && odd_open(&t->odd) ? 0 : -1;
}

static int forget_bench(void **state)
{
    trial *t = *state;
    odd_close(&t->odd);
    free(t);
    return 0;
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

static void nothing_comes_or_goes_unsaid(trial *t, unsigned n, const char *id)
{
    pare_applied *a = &t->applied;
    const pare_craft *was = &t->before, *is = &t->changed;
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
static double adds_up(trial *t, unsigned n, const char *id)
{
    pare_error err = {0};
    if (pare_sheet_weigh(&t->changed, &t->sheet, &err) != PARE_OK)
        fail_msg("craft %u, %s: %s", n, id, err.text);
    double sum_kg = 0;
    for (size_t i = 0; i < t->sheet.assembly.lines; i++) {
        const double kg = t->sheet.assembly.line[i].mass_kg.value;
        if (!isfinite(kg))
            fail_msg("craft %u, %s: a line of %g kg", n, id, kg);
        sum_kg += kg;
    }
    const double all_up_kg = t->sheet.figure[PARE_ALL_UP].value;
    assert_within(sum_kg, all_up_kg, 1e-9);
    pare_craft_copy(&t->changed, &t->again);
    if (pare_craft_settle(&t->again, &err) != PARE_OK)
        fail_msg("craft %u, %s: settled, and then: %s", n, id, err.text);
    assert_int_equal(pare_sheet_weigh(&t->again, &t->sheet, &err), PARE_OK);
    assert_within(t->sheet.figure[PARE_ALL_UP].value, all_up_kg, 1e-12);
    return all_up_kg;
}

static void is_work_that_can_be_done(trial *t, unsigned n, const char *id, bool lighter)
{
    pare_checklist list;
    pare_opening opening[1];
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    assert_non_null(arena);
    const char *const ids[] = {id};
    if (pare_checklist_plan(t->odd.bench, &t->odd.craft, 1, ids, arena, &list, opening, &err) !=
        PARE_OK)
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
static void lists_say_the_same(trial *t, unsigned n, unsigned *seed)
{
    pare_error err = {0};
    pare_swaps swaps;
    pare_arena *arena = pare_arena_open();
    assert_non_null(arena);
    if (pare_swaps_find(t->odd.bench, &t->odd.craft, -1, (pare_wish)dice(seed, PARE_WISHES), arena,
                        &swaps, &err) != PARE_OK)
        fail_msg("craft %u: %s", n, err.text);
    assert_int_equal(pare_sheet_weigh(&t->odd.craft, &t->sheet, &err), PARE_OK);
    const double was_kg = t->sheet.figure[PARE_ALL_UP].value;
    for (size_t i = 0; i < swaps.count; i += 1 + dice(seed, 20)) {
        const pare_swap *swap = &swaps.swap[i];
        if (swap->applied.sought)
            continue;
        if (pare_swap_apply(t->odd.bench, &t->odd.craft, swap->applied.id, &t->changed, &t->applied,
                            &err) != PARE_OK)
            fail_msg("craft %u, %s is listed: %s", n, swap->applied.id, err.text);
        assert_near(swap->grams_kg, was_kg - adds_up(t, n, swap->applied.id), 1e-12);
        assert_int_equal(swap->applied.brings, t->applied.brings);
        assert_int_equal(swap->applied.drops, t->applied.drops);
    }
    const pare_item *item = &t->odd.craft.item[dice(seed, (unsigned)t->odd.craft.items)];
    pare_replacement *list;
    size_t count = 0;
    err.text[0] = '\0';
    if (pare_replacements_find(t->odd.bench, &t->odd.craft, -1, item->name, arena, &count, &list,
                               &err) != PARE_OK) {
        assert_true(item->off || item->included_in);
        assert_non_null(strstr(err.text, item->name));
    }
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(pare_swap_apply(t->odd.bench, &t->odd.craft, list[i].applied.id,
                                         &t->changed, NULL, &err),
                         PARE_OK);
        assert_near(list[i].saved_kg, was_kg - adds_up(t, n, list[i].applied.id), 1e-12);
        assert_true(i == 0 || list[i].saved_kg <= list[i - 1].saved_kg);
    }
    pare_arena_close(arena);
}

static void a_swap_of_any_craft_keeps_the_laws_or_is_refused(void **state)
{
    trial *t = *state;
    size_t tried = 0, on = 0, crafts = 0;
    for (unsigned n = 0; n < DRAWN; n++) {
        unsigned seed = n + 1;
        size_t count;
        const char *const *names;
        pare_error err = {0};
        odd_parts(&t->odd, &seed);
        if (!odd_craft(&t->odd, &seed))
            continue;
        crafts++;
        pare_arena *arena = pare_arena_open();
        assert_non_null(arena);
        if (pare_swap_names(t->odd.bench, &t->odd.craft, -1, arena, &count, &names, &err) !=
            PARE_OK)
            fail_msg("craft %u: %s", n, err.text);
        pare_craft_copy(&t->odd.craft, &t->before);
        for (size_t i = dice(&seed, EVERY); i < count; i += EVERY) {
            tried++;
            err.text[0] = '\0';
            const pare_status status = pare_swap_apply(t->odd.bench, &t->odd.craft, names[i],
                                                       &t->changed, &t->applied, &err);
            if (memcmp(t->odd.craft.item, t->before.item, sizeof t->odd.craft.item[0]) != 0 ||
                t->odd.craft.items != t->before.items)
                fail_msg("craft %u, %s: what it was tried on has changed", n, names[i]);
            if (status != PARE_OK) {
                assert_true(status == PARE_BAD_DATA || status == PARE_UNKNOWN);
                if (!err.text[0])
                    fail_msg("craft %u, %s: refused without a word", n, names[i]);
                continue;
            }
            on++;
            assert_true(isfinite(t->applied.work_min) && t->applied.work_min >= 0);
            assert_true(!t->applied.priced || isfinite(t->applied.money));
            nothing_comes_or_goes_unsaid(t, n, names[i]);
            adds_up(t, n, names[i]);
            if (i % 4 == 0)
                is_work_that_can_be_done(t, n, names[i], true);
        }
        pare_arena_close(arena);
        if (n % 8 == 0)
            lists_say_the_same(t, n, &seed);
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
