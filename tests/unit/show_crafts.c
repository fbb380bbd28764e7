/* rooms: show store advise craft physics base */
/* A list of craft, in each state that a row can be in: computed or not, with a limit or none, broken or met. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "craft_fixture.h"
#include "near.h"
#include "show/catalogue.h"

static int open_craft(void **state)
{
    *state = fixture_open("every-key.yaml", "weir-5");
    return 0;
}

static void expect_row(const pare_craft_row *row, const char *text, const char *json)
{
    const pare_screen screen = {.width = 80};
    pare_text out = {0};
    pare_craft_list_text(1, row, &screen, &out);
    assert_non_null(out.bytes);
    const char *second = strchr(out.bytes, '\n') + 1;
    assert_string_equal(second, text);
    pare_text_free(&out);
    json_t *object = pare_craft_row_object(row);
    char *said = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(6));
    assert_non_null(said);
    assert_string_equal(said, json);
    free(said);
    json_decref(object);
}

static void a_row_says_what_is_known_of_a_craft(void **state)
{
    fixture *f = *state;
    pare_craft_row row = {.craft = f->craft,
                          .computed = true,
                          .all_up_kg = 0.5,
                          .all_up_u_kg = 0.002,
                          .limit_kg = 0.6};
    expect_row(&row, "weir-5            500 +- 2      600       met         race, long\n",
               "{\"name\":\"weir-5\",\"loadouts\":[\"race\",\"long\"],\"all_up_g\":500,\"all_up_g_"
               "u\":2,\"limit_g\":600,\"limits_broken\":0}");
    row.broken = 2;
    row.limit_kg = (double)NAN;
    expect_row(&row, "weir-5            500 +- 2                2 broken    race, long\n",
               "{\"name\":\"weir-5\",\"loadouts\":[\"race\",\"long\"],\"all_up_g\":500,\"all_up_g_"
               "u\":2,\"limit_g\":null,\"limits_broken\":2}");
    row.broken = 0;
    f->craft->brief.limits = 0;
    f->craft->loadouts = 0;
    expect_row(&row, "weir-5            500 +- 2                no limits   \n",
               "{\"name\":\"weir-5\",\"loadouts\":[],\"all_up_g\":500,\"all_up_g_u\":2,\"limit_g\":"
               "null,\"limits_broken\":0}");
    row.computed = false;
    row.why = "craft 'weir-5' has no pack: it needs one to fly";
    expect_row(&row, "weir-5            craft 'weir-5' has no pack: it needs one to fly\n",
               "{\"name\":\"weir-5\",\"loadouts\":[],\"all_up_g\":null,\"all_up_g_u\":null,\"limit_"
               "g\":null,\"limits_broken\":null}");
}

static void a_bench_may_have_no_craft(void **state)
{
    (void)state;
    const pare_screen screen = {.width = 80};
    pare_text out = {0};
    pare_craft_list_text(0, NULL, &screen, &out);
    assert_string_equal(out.bytes, "No craft on this bench yet.\n");
    pare_text_free(&out);
}

static void a_loadout_says_all_that_is_another(void **state)
{
    fixture *f = *state;
    const pare_screen screen = {.width = 80};
    pare_loadout *race = &f->craft->loadout[0], *far = &f->craft->loadout[1];
    if (strcmp(race->name, "race") != 0) {
        pare_loadout *other = race;
        race = far;
        far = other;
    }
    race->uses = 2;
    race->use[0] = far->use[0];
    race->use[1] = far->use[0];
    pare_text out = {0};
    pare_craft_text(f->craft, &screen, &out);
    assert_non_null(strstr(out.bytes, "without cube, with pa-w2 as pack, with pa-w2 as pack\n"));
    pare_text_free(&out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_row_says_what_is_known_of_a_craft, open_craft,
                                        fixture_close),
        cmocka_unit_test(a_bench_may_have_no_craft),
        cmocka_unit_test_setup_teardown(a_loadout_says_all_that_is_another, open_craft,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
