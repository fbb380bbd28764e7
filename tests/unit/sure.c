/* rooms: store advise craft physics base */
/* How surely limits hold: the linear model against everything drawn together (JCGM 101:2008). */
#include "advise/sure.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "near.h"
#include "store/bench.h"

/* Quasi-random points: several times what shifts of them scattered by. */
#define SAMPLING 0.015
/* As margins agree with draws (margin_draws.c): a hard flight's minutes end at a cliff. */
#define AGREES         0.06
#define MINUTES_AGREES 0.11

static int setup(void **state)
{
    *state = bench_of("../../demo/bench.yaml");
    return 0;
}

static int teardown(void **state)
{
    pare_bench_close(*state);
    return 0;
}

typedef struct drawing {
    pare_craft craft;
    pare_sheet sheet;
    pare_sure_drawn drawn;
} drawing;

static drawing *sheet_with(const pare_bench *bench, const char *name, size_t limits,
                           const pare_limit limit[])
{
    pare_error err = {0};
    drawing *d = calloc(1, sizeof *d);
    const pare_craft *plain = pare_bench_craft(bench, name);
    assert_non_null(plain);
    if (pare_craft_load(plain, plain->loadouts ? 0 : -1, &d->craft, &err) != PARE_OK)
        fail_msg("%s: %s", name, err.text);
    if (limits > 0) {
        memcpy(d->craft.brief.limit, limit, limits * sizeof limit[0]);
        d->craft.brief.limits = limits;
    }
    if (pare_sheet_compute(&d->craft, true, &d->sheet, &err) != PARE_OK)
        fail_msg("%s: %s", name, err.text);
    return d;
}

static drawing *draw_with(const pare_bench *bench, const char *name, size_t limits,
                          const pare_limit limit[])
{
    pare_error err = {0};
    drawing *d = sheet_with(bench, name, limits, limit);
    if (pare_sure_draw(&d->craft, &d->sheet, NULL, &d->drawn, &err) != PARE_OK)
        fail_msg("%s: %s", name, err.text);
    return d;
}

/* Masses add up, so theirs is normal whatever is drawn of the rest: here the two must be one. */
static void a_limit_on_mass_holds_as_often_as_a_normal_deviate_does(void **state)
{
    static const double quantile[] = {-1.2815515655446004, 0, 0.6744897501960817,
                                      1.6448536269514722};
    static const double chance[] = {0.10, 0.50, 0.75, 0.95}; /* of the standard normal, tabulated */
    static const char *const crafts[] = {"thimble", "hedgerow"};
    for (size_t c = 0; c < sizeof crafts / sizeof crafts[0]; c++)
        for (size_t q = 0; q < sizeof chance / sizeof chance[0]; q++) {
            const pare_limit any = {.key = "all_up", .value = 1};
            drawing *first = sheet_with(*state, crafts[c], 1, &any);
            const pare_sheet_figure *mass = &first->sheet.figure[PARE_ALL_UP];
            const pare_limit limit = {.key = "all_up",
                                      .value = mass->value + quantile[q] * mass->u};
            drawing *d = draw_with(*state, crafts[c], 1, &limit);
            assert_int_equal(d->drawn.limits, 1);
            assert_near(d->drawn.limit[0].linear, chance[q], 1e-6);
            assert_near(pare_sure_chance(&d->sheet, NULL), chance[q], 1e-6);
            assert_near(d->drawn.all, chance[q], SAMPLING);
            assert_near(d->drawn.limit[0].drawn, d->drawn.all, 1e-12);
            free(d);
            free(first);
        }
}

static void each_limit_of_the_demo_holds_about_as_often_as_the_linear_model_says(void **state)
{
    static const char *const crafts[] = {"bodkin", "drover", "hedgerow", "thimble"};
    size_t compared = 0;
    for (size_t c = 0; c < sizeof crafts / sizeof crafts[0]; c++) {
        drawing *d = draw_with(*state, crafts[c], 0, NULL);
        double least = 1;
        for (size_t i = 0; i < d->drawn.limits; i++) {
            const pare_sure_limit *limit = &d->drawn.limit[i];
            const bool minutes = strcmp(limit->name, "limit.flown") == 0;
            if (fabs(limit->drawn - limit->linear) > (minutes ? MINUTES_AGREES : AGREES))
                fail_msg("%s: %s: %.4f linear, %.4f drawn", crafts[c], limit->name, limit->linear,
                         limit->drawn);
            least = fmin(least, limit->drawn);
            compared++;
        }
        /* All together: no more often than the least, and no less often than their failures allow. */
        assert_true(d->drawn.all <= least + 1e-12);
        double fails = 0;
        for (size_t i = 0; i < d->drawn.limits; i++)
            fails += 1 - d->drawn.limit[i].drawn;
        assert_true(d->drawn.all >= 1 - fails - 1e-12);
        assert_true(d->drawn.all_u < SAMPLING);
        free(d);
    }
    assert_true(compared >= 9);
}

/* Limits that err together fail together: the sum of their chances is an upper bound that draws stay below. */
static void limits_that_go_together_hold_more_often_than_their_sum_says(void **state)
{
    const pare_limit none = {.key = "all_up", .value = 1};
    drawing *first = sheet_with(*state, "hedgerow", 1, &none);
    const pare_sheet_figure *figure = first->sheet.figure;
    const pare_limit limits[] = {
        {.key = "thrust_to_weight_half",
         .at_least = true,
         .value = figure[PARE_TWR_HALF].value - figure[PARE_TWR_HALF].u},
        {.key = "thrust_to_weight_fresh",
         .at_least = true,
         .value = figure[PARE_TWR_FRESH].value - figure[PARE_TWR_FRESH].u}};
    drawing *d = draw_with(*state, "hedgerow", 2, limits);
    const double one = 0.8413447460685429; /* of the standard normal below 1 */
    assert_int_equal(d->drawn.limits, 2);
    assert_near(pare_sure_chance(&d->sheet, NULL), 1 - 2 * (1 - one), 1e-6);
    assert_true(d->drawn.all > one - AGREES);
    assert_true(d->drawn.all > pare_sure_chance(&d->sheet, NULL) + 0.05);
    free(d);
    free(first);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_limit_on_mass_holds_as_often_as_a_normal_deviate_does),
        cmocka_unit_test(each_limit_of_the_demo_holds_about_as_often_as_the_linear_model_says),
        cmocka_unit_test(limits_that_go_together_hold_more_often_than_their_sum_says),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
