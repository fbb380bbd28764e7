/* rooms: store advise craft physics base */
/* Weigh-ins that nobody would write, on craft that nobody would build (odd_drawn.h): things that are not there, too many or
 * none of them, other craft and loadouts, days before anything was fitted, scales that are not known or were checked
 * against nothing, readings of nothing, less and far too much. Whatever they are, the adjustment is refused in words, or: a
 * reading that says nothing has a reason; what was weighed is known no worse than its own reading says; all masses and
 * doubts are numbers; what is said next to be weighed leaves less doubt, the first the least. */
#include <math.h>

#include "odd_drawn.h"

#include "advise/take.h"
#include "advise/weigh_next.h"
#include "advise/weighed.h"

enum { DRAWN = 300, READINGS = 24, THINGS = 3 };

typedef struct world {
    odd odd;
    pare_arena *arena;
    pare_scale scale[3];
    pare_scale_check check[3];
    pare_weigh_in reading[READINGS];
    pare_weighed_thing thing[READINGS][THINGS];
    char name[READINGS][THINGS][80];
    pare_weighings all;
    pare_sheet sheet;
    pare_craft weighed;
} world;

static int read_bench(void **state)
{
    world *w = calloc(1, sizeof *w);
    *state = w;
    return w && odd_open(&w->odd) ? 0 : -1;
}

static int forget_bench(void **state)
{
    world *w = *state;
    odd_close(&w->odd);
    free(w);
    return 0;
}

static void draw_thing(world *w, size_t r, size_t t, unsigned *seed)
{
    const pare_craft *craft = &w->odd.craft;
    char *name = w->name[r][t];
    static const int counts[] = {1, 1, 1, 1, 4, 4, 2, 16, 0, -1, 1000};
    switch (dice(seed, 8)) {
    case 0:
        snprintf(name, 80, "joint.%s", craft->joint[dice(seed, (unsigned)craft->joints)].name);
        break;
    case 1:
        snprintf(name, 80, "run.%s", craft->run[dice(seed, (unsigned)craft->runs)].name);
        break;
    case 2:
        snprintf(name, 80, "%s", dice(seed, 3) ? "solder" : "joint.nowhere");
        break;
    default:
        snprintf(name, 80, "%s", craft->item[dice(seed, (unsigned)craft->items)].name);
        break;
    }
    w->thing[r][t] = (pare_weighed_thing){name, counts[dice(seed, dice(seed, 4) ? 7 : 11)]};
}

static void draw_readings(world *w, unsigned *seed)
{
    static const char *const scales[] = {"letters", "letters",  "kitchen",
                                         "coins",   "nobody's", NULL};
    static const char *const days[] = {"2020-01-01", "2026-03-10", "2026-03-11"};
    const pare_craft *craft = &w->odd.craft;
    w->check[0] = (pare_scale_check){"2026-03-01", 7.5e-3, 1e-5, 7.51e-3};
    w->check[1] = (pare_scale_check){"2026-03-02", 0, 0, 1e-3};
    w->check[2] = (pare_scale_check){"2026-03-03", 0.2, 1e-4, 0.2004};
    w->scale[0] = (pare_scale){"coins", 1e-5, 1e-5, 0.001, dice(seed, 4), w->check};
    w->scale[1] = (pare_scale){"kitchen", 1e-3, 1e-3, 0.002, 0, NULL};
    w->scale[2] = (pare_scale){"letters", 1e-4, 1e-4, 0.001, 0, NULL};
    w->all = (pare_weighings){3, w->scale, dice(seed, READINGS), w->reading};
    for (size_t r = 0; r < w->all.count; r++) {
        pare_weigh_in *one = &w->reading[r];
        *one = (pare_weigh_in){.craft = dice(seed, 24) ? craft->name : "another",
                               .date = days[dice(seed, 3)],
                               .scale = scales[dice(seed, 6)],
                               .all = dice(seed, 5) == 0,
                               .thing = w->thing[r],
                               .reads = "as drawn",
                               .step_kg = dice(seed, 2) ? 1e-4 : 0,
                               .reads_kg = 1e-3 * (1 + dice(seed, 60))};
        if (one->all)
            one->reads_kg = 0.3 + 1e-3 * dice(seed, 500);
        else
            one->things = 1 + dice(seed, THINGS);
        if (craft->loadouts && dice(seed, 2))
            one->loadout = craft->loadout[dice(seed, (unsigned)craft->loadouts)].name;
        else if (dice(seed, 12) == 0)
            one->loadout = "nowhere";
        if (dice(seed, 16) == 0)
            one->reads_kg = dice(seed, 2) ? 0 : dice(seed, 2) ? -1e-3 : 50;
        for (size_t t = 0; t < one->things; t++)
            draw_thing(w, r, t, seed);
    }
}

/* Some swaps are on the craft, since before or between the days. */
static void draw_takens(world *w, unsigned *seed)
{
    static const char *const days[] = {"2019-01-01", "2026-03-11", NULL};
    size_t count;
    const char *const *names;
    pare_error err = {0};
    pare_taking *taking = calloc(1, sizeof *taking);
    assert_non_null(taking);
    if (pare_swap_names(w->odd.bench, &w->odd.craft, -1, w->arena, &count, &names, &err) != PARE_OK)
        fail_msg("%s", err.text);
    for (int i = 0; i < 3 && count > 0; i++) {
        const char *date[PARE_STAGES] = {NULL};
        date[PARE_STAGE_FITTED] = days[dice(seed, 2)];
        if (pare_take(w->odd.bench, &w->odd.craft, names[dice(seed, (unsigned)count)], date,
                      w->arena, taking, &err) != PARE_OK)
            continue;
        w->odd.craft.takens = taking->count;
        memcpy(w->odd.craft.taken, taking->taken, sizeof w->odd.craft.taken);
    }
    free(taking);
}

static bool misfits(const pare_closure *c, size_t reading)
{
    for (size_t i = 0; i < c->misfits; i++)
        if ((!c->misfit[i].of_prior && c->misfit[i].which == reading) ||
            c->misfit[i].against == (int)reading)
            return true;
    return c->misfits == PARE_MISFITS;
}

static size_t keeps_its_laws(world *w, unsigned n, pare_closure *c)
{
    size_t used = 0;
    for (size_t i = 0; i < c->unknowns; i++)
        if (!isfinite(c->adjusted.value[i]) || !(c->adjusted.u[i] >= 0))
            fail_msg("craft %u: %s is %g, u %g", n, c->unknown[i].name, c->adjusted.value[i],
                     c->adjusted.u[i]);
    for (size_t r = 0; r < w->all.count; r++) {
        pare_pile pile;
        pare_error err = {0};
        double kg, u_kg;
        if (c->unused[r]) {
            assert_true(c->unused[r][0] != '\0');
            continue;
        }
        used++;
        if (misfits(c, r) || pare_closure_pile(c, &w->reading[r], &pile, &err) != PARE_OK)
            continue;
        pare_closure_mass(c, &pile, &kg, &u_kg);
        const pare_scale scale = pare_scale_named(
            &w->all, w->reading[r].scale, w->reading[r].step_kg > 0 ? w->reading[r].step_kg : 1e-3);
        const double own_u =
            hypot(pare_scale_reading_u_kg(&scale), scale.common * w->reading[r].reads_kg);
        if (!pile.whole && u_kg > 1.01 * own_u + 1e-9)
            fail_msg("craft %u, reading %zu of %s: %g g is known to %g g, the reading says %g g", n,
                     r, w->reading[r].thing[0].name, 1e3 * kg, 1e3 * u_kg, 1e3 * own_u);
    }
    return used;
}

static void what_is_next_leaves_less_doubt(world *w, unsigned n, pare_closure *c)
{
    pare_weigh_list list;
    pare_error err = {0};
    const pare_craft *craft = &w->odd.craft;
    if (pare_weigh_next(c, craft->name, craft->loadouts ? 0 : -1, &w->scale[2], 6, &list, &err) !=
        PARE_OK) {
        assert_true(err.text[0] != '\0');
        return;
    }
    double was_kg = list.now_kg;
    for (size_t i = 0; i < list.count; i++) {
        if (!(list.choice[i].left_kg <= was_kg * (1 + 1e-9)))
            fail_msg("craft %u: after %s %g g are left of %g g", n, list.choice[i].name,
                     1e3 * list.choice[i].left_kg, 1e3 * was_kg);
        was_kg = list.choice[i].left_kg;
    }
}

/* What scales said goes onto the craft, and its sheet is a sheet. */
static void its_sheet_is_a_sheet(world *w, unsigned n, pare_closure *c)
{
    const pare_weighed *weighed = NULL;
    pare_error err = {0};
    if (!pare_closure_has_readings(c))
        return;
    if (pare_weighed_make(c, &w->odd.craft, w->arena, &weighed, &err) != PARE_OK)
        fail_msg("craft %u: %s", n, err.text);
    pare_craft_copy(&w->odd.craft, &w->weighed);
    w->weighed.weighed = weighed;
    if (weighed)
        pare_weighed_put_lines(weighed, &w->weighed);
    memset(&w->sheet, 0, sizeof w->sheet);
    if (pare_sheet_compute(&w->weighed, true, &w->sheet, &err) != PARE_OK)
        fail_msg("craft %u: %s", n, err.text);
    const pare_sheet_figure *all_up = &w->sheet.figure[PARE_ALL_UP];
    assert_true(isfinite(all_up->value) && all_up->u >= 0);
}

static void weigh_ins_of_any_craft_are_adjusted_or_refused(void **state)
{
    world *w = *state;
    size_t closed = 0, used = 0, all = 0;
    for (unsigned n = 0; n < DRAWN; n++) {
        unsigned seed = n + 1;
        pare_error err = {0};
        pare_closure *c;
        odd_parts(&w->odd, &seed);
        if (!odd_craft(&w->odd, &seed))
            continue;
        w->arena = pare_arena_open();
        assert_non_null(w->arena);
        if (dice(&seed, 2))
            draw_takens(w, &seed);
        draw_readings(w, &seed);
        const pare_craft *const first[] = {&w->odd.craft};
        const pare_closure_of of = {.bench = w->odd.bench,
                                    .crafts = 1,
                                    .first = first,
                                    .weighings = &w->all,
                                    .craft = dice(&seed, 2) ? w->odd.craft.name : NULL};
        const pare_status status = pare_closure_open(&of, w->arena, &c, &err);
        if (status == PARE_OK) {
            closed++;
            all += w->all.count;
            used += keeps_its_laws(w, n, c);
            what_is_next_leaves_less_doubt(w, n, c);
            its_sheet_is_a_sheet(w, n, c);
        } else if (status != PARE_BAD_DATA || !err.text[0]) {
            fail_msg("craft %u: %d '%s'", n, (int)status, err.text);
        }
        pare_arena_close(w->arena);
    }
    print_message("%zu closed, %zu of %zu readings say something\n", closed, used, all);
    assert_true(closed > DRAWN / 2 && used > all / 4 && used < all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(weigh_ins_of_any_craft_are_adjusted_or_refused, read_bench,
                                        forget_bench),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
