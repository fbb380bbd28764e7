/* json.c: the keys of every JSON answer, and that a trial and a row of the list agree. */
#include "run.h"
#include <math.h>

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void has(const json_t *object, const char *key)
{
    if (!json_object_get(object, key))
        fail_msg("no key '%s'", key);
}

/* A figure: its value, its uncertainty and how it is known; or null and why. */
static void is_figure(const json_t *sheet, const char *key)
{
    char u[64];
    snprintf(u, sizeof u, "%s_u", key);
    has(sheet, key);
    has(sheet, u);
    if (json_is_null(json_object_get(sheet, key))) {
        assert_true(json_is_string(json_object_get(json_object_get(sheet, "why"), key)));
        return;
    }
    assert_true(json_is_string(json_object_get(json_object_get(sheet, "known"), key)));
}

static const char *const figures[] = {"all_up_g",
                                      "dry_g",
                                      "cg_mm",
                                      "ixx_kg_m2",
                                      "iyy_kg_m2",
                                      "izz_kg_m2",
                                      "ixy_kg_m2",
                                      "ixz_kg_m2",
                                      "iyz_kg_m2",
                                      "hover_output",
                                      "hover_a",
                                      "hover_w",
                                      "hover_min",
                                      "cruise_min",
                                      "flown_min",
                                      "best_range_m",
                                      "burst_30m_s",
                                      "turn_g",
                                      "roll_rad_s2",
                                      "pitch_rad_s2",
                                      "yaw_rad_s2",
                                      "top_speed_m_s",
                                      "crash_j",
                                      "pack_shift_mm",
                                      "thrust_to_weight_fresh",
                                      "thrust_to_weight_half",
                                      "thrust_to_weight_landing"};

static void a_sheet_has_every_figure_with_its_uncertainty(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++)
        is_figure(sheet, figures[i]);
    assert_string_equal(json_string_value(json_object_get(sheet, "loadout")), "film");
    assert_int_equal(json_array_size(json_object_get(sheet, "cg_mm")), 3);
    assert_int_equal(json_array_size(json_object_get(sheet, "cg_mm_u")), 3);
    assert_true(number(sheet, "all_up_g_u") > 0);
    json_decref(sheet);
}

static void other_loadouts_hold_the_same_figures(void **state)
{
    (void)state;
    json_t *film = run_json("sheet hedgerow --json" DEMO);
    json_t *race = run_json("sheet hedgerow --loadout race --json" DEMO);
    const json_t *within = json_object_get(json_object_get(film, "loadouts"), "race");
    assert_null(json_object_get(json_object_get(film, "loadouts"), "film"));
    assert_string_equal(json_string_value(json_object_get(race, "loadout")), "race");
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++)
        assert_true(
            json_equal(json_object_get(within, figures[i]), json_object_get(race, figures[i])));
    json_decref(film);
    json_decref(race);
}

static void margins_say_value_limit_and_where_it_comes_from(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    const json_t *margins = json_object_get(sheet, "margins");
    assert_true(json_array_size(margins) > 3);
    double before = 0;
    for (size_t i = 0; i < json_array_size(margins); i++) {
        const json_t *one = json_array_get(margins, i);
        static const char *const keys[] = {"name",    "value",   "limit",   "ratio",
                                           "ratio_u", "chance",  "from",    "caution",
                                           "words",   "value_u", "at_least"};
        for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++)
            has(one, keys[k]);
        assert_true(number(one, "ratio") >= before);
        before = number(one, "ratio");
    }
    json_decref(sheet);
}

static void watts_of_each_state_add_up_to_what_the_pack_gives(void **state)
{
    (void)state;
    static const char *const states[] = {"hover", "cruise", "range"};
    static const char *const parts[] = {"induced", "profile",     "drag", "copper", "iron",
                                        "esc",     "electronics", "lead", "pack"};
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    const json_t *power = json_object_get(sheet, "power");
    char key[64];
    for (size_t i = 0; i < sizeof states / sizeof states[0]; i++) {
        double sum = 0;
        for (size_t k = 0; k < sizeof parts / sizeof parts[0]; k++) {
            snprintf(key, sizeof key, "%s_%s_w", states[i], parts[k]);
            sum += number(power, key);
            strcat(key, "_u");
            has(power, key);
        }
        snprintf(key, sizeof key, "%s_open_w", states[i]);
        /* ten digits are printed */
        assert_within(sum, number(power, key), 1e-9);
    }
    assert_near(number(power, "cruise_speed_m_s"), 16, 0);
    json_decref(sheet);
}

static void motors_share_the_all_up_mass(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    const json_t *motors = json_object_get(sheet, "motors");
    double share = 0, grams = 0, moment = 0;
    assert_int_equal(json_array_size(motors), 4);
    for (size_t i = 0; i < 4; i++) {
        const json_t *one = json_array_get(motors, i), *at = json_object_get(one, "at_mm");
        assert_int_equal(json_integer_value(json_object_get(one, "arm")), (json_int_t)i + 1);
        assert_int_equal(json_array_size(at), 2);
        share += number(one, "share");
        grams += number(one, "thrust_g");
        moment += number(one, "share") * json_number_value(json_array_get(at, 0));
        assert_between(number(one, "output"), 0.05, 1);
        assert_true(number(one, "current_a") > 0);
        /* by its share as uncertain as the hover of the whole */
        assert_within(number(one, "current_a_u") / number(one, "current_a"),
                      number(sheet, "hover_a_u") / number(sheet, "hover_a"), 1e-6);
        assert_true(number(one, "output_u") > 0);
    }
    assert_true(number(sheet, "flown_at_limit_min_u") > 0);
    assert_near(share, 1, 1e-9);
    assert_within(grams, number(sheet, "all_up_g"), 1e-9);
    assert_near(moment, json_number_value(json_array_get(json_object_get(sheet, "cg_mm"), 0)),
                1e-6);
    const json_t *balance = json_object_get(sheet, "balance");
    assert_near(number(balance, "front_share") + number(balance, "rear_share"), 1, 1e-9);
    assert_true(number(balance, "thrust_to_weight_balanced") <
                number(sheet, "thrust_to_weight_fresh"));
    assert_int_equal(json_array_size(json_object_get(balance, "pack_shift_equal_mm")), 2);
    json_decref(sheet);
}

static void drag_and_download_say_what_they_are(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    const json_t *drag = json_object_get(sheet, "drag");
    assert_between(number(drag, "area_cm2"), 60, 140);
    assert_within(number(drag, "area_cm2_u"), 0.3 * number(drag, "area_cm2"), 1e-9);
    assert_string_equal(json_string_value(json_object_get(drag, "from")), "law");
    assert_true(json_is_object(json_object_get(drag, "items_cm2")));
    assert_between(number(sheet, "download_share"), 0.01, 0.04);
    json_decref(sheet);
}

static void the_ledger_adds_up_to_all_up(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet drover --json" DEMO);
    const json_t *ledger = json_object_get(sheet, "ledger");
    double sum = 0;
    for (size_t i = 0; i < json_array_size(ledger); i++)
        sum += number(json_array_get(ledger, i), "all_g");
    assert_near(sum, number(sheet, "all_up_g"), 1e-6);
    json_decref(sheet);
}

static void swaps_have_their_keys(void **state)
{
    (void)state;
    json_t *answer = run_json("swaps hedgerow --json" DEMO);
    const json_t *swaps = json_object_get(answer, "swaps");
    assert_true(json_array_size(swaps) > 20);
    static const char *const keys[] = {"id",    "from",        "to",       "grams",
                                       "money", "money_per_g", "work_min", "brings",
                                       "drops", "breaks",      "loosens",  "change"};
    for (size_t i = 0; i < json_array_size(swaps); i++) {
        const json_t *one = json_array_get(swaps, i);
        for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++)
            has(one, keys[k]);
        const json_t *change = json_object_get(one, "change");
        assert_near(number(change, "all_up_g"), -number(one, "grams"), 1e-6);
    }
    json_decref(answer);
}

/* The row of a swap and the sheet with it on trial come from one evaluation, so ten printed digits
 * of every figure agree to the last. */
static void a_trial_changes_what_its_row_says(void **state)
{
    (void)state;
    static const char *const ids[] = {"bumper=off", "joint.motor_base.material=titanium",
                                      "antenna=an-rush", "run.lead.gauge=14", "esc=es-45-20"};
    json_t *answer = run_json("swaps hedgerow --json" DEMO);
    const json_t *swaps = json_object_get(answer, "swaps");
    for (size_t k = 0; k < sizeof ids / sizeof ids[0]; k++) {
        const json_t *row = NULL;
        for (size_t i = 0; i < json_array_size(swaps) && !row; i++) {
            const json_t *one = json_array_get(swaps, i);
            if (strcmp(json_string_value(json_object_get(one, "id")), ids[k]) == 0)
                row = one;
        }
        if (!row)
            fail_msg("no swap '%s'", ids[k]);
        char line[256];
        snprintf(line, sizeof line, "sheet hedgerow --json --try %s" DEMO, ids[k]);
        json_t *sheet = run_json(line);
        const json_t *tried = json_object_get(sheet, "change");
        const json_t *listed = json_object_get(row, "change");
        assert_true(json_object_size(tried) > 30);
        assert_true(json_equal(tried, listed));
        json_decref(sheet);
    }
    json_decref(answer);
}

static void found_parts_are_parts_and_say_why_they_were_found(void **state)
{
    (void)state;
    json_t *answer = run_json("parts --kind motor mass<30g kv>=1700 --sort mass:down --json" DEMO);
    const json_t *parts = json_object_get(answer, "parts");
    double before = 30;
    assert_true(json_array_size(parts) > 1);
    for (size_t i = 0; i < json_array_size(parts); i++) {
        const json_t *one = json_array_get(parts, i);
        assert_string_equal(json_string_value(json_object_get(one, "kind")), "motor");
        assert_true(number(one, "mass_g") <= before);
        assert_true(number(json_object_get(one, "spec"), "kv_rpm_v") >= 1700);
        before = number(one, "mass_g");
    }
    json_decref(answer);
    answer = run_json("parts --for hedgerow.antenna --json" DEMO);
    json_t *swaps = run_json("swaps hedgerow --json" DEMO);
    assert_string_equal(json_string_value(json_object_get(answer, "for")), "hedgerow.antenna");
    assert_string_equal(json_string_value(json_object_get(answer, "fitted")), "an-staff");
    parts = json_object_get(answer, "parts");
    size_t same = 0;
    for (size_t i = 0; i < json_array_size(parts); i++) {
        const json_t *one = json_array_get(parts, i);
        char swap[64];
        snprintf(swap, sizeof swap, "antenna=%s", json_string_value(json_object_get(one, "id")));
        has(one, "brings");
        has(one, "drops");
        const json_t *list = json_object_get(swaps, "swaps");
        for (size_t k = 0; k < json_array_size(list); k++) {
            const json_t *row = json_array_get(list, k);
            if (strcmp(json_string_value(json_object_get(row, "id")), swap) != 0)
                continue;
            assert_near(number(one, "saved_g"), number(row, "grams"), 1e-6);
            same++;
        }
    }
    assert_true(same > 2);
    json_decref(swaps);
    json_decref(answer);
    answer = run_json("parts --surprise --json" DEMO);
    json_t *sheet = run_json("sheet drover --json" DEMO);
    parts = json_object_get(answer, "parts");
    const json_t *on_craft = json_array_get(json_object_get(sheet, "surprises"), 0);
    same = 0;
    for (size_t i = 0; i < json_array_size(parts); i++) {
        const json_t *one = json_array_get(parts, i), *surprise = json_object_get(one, "surprise");
        assert_true(number(surprise, "sigmas") > 2);
        assert_true(number(one, "mass_g") >
                    number(surprise, "law_g") + number(surprise, "law_g_u"));
        if (strcmp(json_string_value(json_object_get(one, "id")),
                   json_string_value(json_object_get(on_craft, "part"))) == 0) {
            /* The list has what is written; the sheet what all scales make of that, which for a craft
             * that was never weighed is the same but for what parts of one maker share. */
            assert_near(number(on_craft, "sigmas"), number(surprise, "sigmas"), 0.01);
            same++;
        }
    }
    assert_int_equal(same, 1);
    json_decref(sheet);
    json_decref(answer);
}

static void lists_of_parts_and_craft_have_names(void **state)
{
    (void)state;
    json_t *craft = run_json("craft --json" DEMO);
    const json_t *list = json_object_get(craft, "craft");
    assert_int_equal(json_array_size(list), 4);
    assert_string_equal(json_string_value(json_object_get(json_array_get(list, 0), "name")),
                        "bodkin");
    json_decref(craft);
    json_t *parts = run_json("parts --json" DEMO);
    assert_true(json_array_size(json_object_get(parts, "parts")) >= 150);
    json_decref(parts);
    json_t *one = run_json("parts show mo-2207-1950 --json" DEMO);
    assert_near(number(json_object_get(one, "spec"), "kv_rpm_v"), 1950, 0);
    json_decref(one);
    json_t *show = run_json("craft show thimble --json" DEMO);
    assert_true(json_array_size(json_object_get(show, "items")) > 10);
    json_decref(show);
    json_t *compare = run_json("compare hedgerow:race bodkin --try bumper=off --json" DEMO);
    const json_t *columns = json_object_get(compare, "compare");
    static const char *const names[] = {"hedgerow:race", "bodkin:race",
                                        "hedgerow:race with bumper=off"};
    assert_int_equal(json_array_size(columns), 3);
    for (size_t i = 0; i < 3; i++) {
        const json_t *column = json_array_get(columns, i);
        assert_string_equal(json_string_value(json_object_get(column, "name")), names[i]);
        assert_string_equal(json_string_value(json_object_get(column, "loadout")), "race");
        assert_int_equal(json_is_null(json_object_get(column, "tried")), i < 2);
        is_figure(column, "all_up_g");
    }
    assert_true(number(json_array_get(columns, 2), "all_up_g") <
                number(json_array_get(columns, 0), "all_up_g"));
    json_decref(compare);
}

static void a_trial_tells_crash_and_range_as_ratios(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --try antenna=an-rush,bumper=off --json" DEMO);
    const json_t *crash = json_object_get(sheet, "crash");
    const json_t *stated = json_object_get(crash, "stated");
    const double mass =
        number(sheet, "all_up_g") /
        (number(sheet, "all_up_g") - number(json_object_get(sheet, "change"), "all_up_g"));
    assert_within(number(stated, "energy_ratio"), mass, 1e-6);
    assert_within(number(stated, "arms_bear_ratio"), 1 / mass, 1e-6);
    assert_true(number(stated, "arms_bear_ratio_u") < 0.02);
    assert_within(number(crash, "arm_same_crash_mm"), 5 * sqrt(mass), 1e-6);
    assert_true(json_array_size(json_object_get(crash, "joints")) > 3);
    assert_true(json_array_size(json_object_get(crash, "held")) == 3);
    const json_t *radio = json_array_get(json_object_get(sheet, "radio"), 0);
    assert_within(number(radio, "range_ratio"), pow(10, number(radio, "change_db") / 20), 1e-6);
    json_decref(sheet);
    json_t *plain = run_json("sheet hedgerow --json" DEMO);
    stated = json_object_get(json_object_get(plain, "crash"), "stated");
    assert_true(json_is_null(json_object_get(stated, "arms_bear_ratio")));
    assert_true(number(stated, "energy_j") > 10);
    assert_true(number(json_object_get(plain, "arms"), "bending_low_hz") > 10);
    assert_null(json_object_get(json_array_get(json_object_get(plain, "radio"), 0), "range_ratio"));
    json_decref(plain);
}

static void a_printed_part_says_what_a_gram_of_it_bears(void **state)
{
    (void)state;
    json_t *part = run_json("parts show am-tower --json" DEMO);
    const json_t *printed = json_object_get(part, "printed");
    assert_within(number(printed, "walls_g") + number(printed, "infill_g"), number(part, "mass_g"),
                  1e-6);
    assert_within(number(printed, "bears_across_n_per_g"), 0.5 * number(printed, "bears_n_per_g"),
                  1e-9);
    assert_string_equal(json_string_value(json_object_get(printed, "material")), "tpu");
    assert_true(number(json_object_get(printed, "beside_n_per_g"), "titanium_screw") >
                number(json_object_get(printed, "beside_n_per_g"), "tie"));
    json_decref(part);
}

/* As they stand in the demo's text. */
static void a_part_says_its_words_as_well(void **state)
{
    (void)state;
    static const struct {
        const char *line, *key, *word;
    } cases[] = {{"parts show pa-4s-1550 --json" DEMO, "chemistry", "lipo"},
                 {"parts show an-rush --json" DEMO, "hand", "right"},
                 {"parts show an-rush --json" DEMO, "cable", "RG178"},
                 {"parts show sd-al-20 --json" DEMO, "material", "aluminium"},
                 {"parts show am-tower --json" DEMO, "chemistry", NULL}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        json_t *part = run_json(cases[i].line);
        const char *word = json_string_value(json_object_get(part, cases[i].key));
        if (cases[i].word)
            assert_string_equal(word, cases[i].word);
        else
            assert_null(word);
        json_decref(part);
    }
    json_t *adapter = run_json("parts show ad-elbow --json" DEMO);
    const json_t *ends = json_object_get(adapter, "ends");
    assert_int_equal(json_array_size(ends), 2);
    assert_string_equal(json_string_value(json_array_get(ends, 1)), "screw");
    json_decref(adapter);
}

static void the_same_question_gives_the_same_bytes(void **state)
{
    (void)state;
    static const char *const lines[] = {"sheet hedgerow --json" DEMO, "swaps thimble --json" DEMO};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        ran first = run(lines[i]), second = run(lines[i]);
        assert_string_equal(first.out, second.out);
        ran_free(&first);
        ran_free(&second);
    }
}

static void a_bench_goes_out_and_comes_in_the_same(void **state)
{
    (void)state;
    json_t *first = run_json("export -o one.yaml --json" DEMO);
    assert_true(number(first, "meshes") > 5);
    json_decref(first);
    json_t *counts = run_json("import one.yaml --bench two.sqlite --json");
    assert_near(number(counts, "craft_added"), 4, 0);
    json_decref(counts);
    json_t *again = run_json("import one.yaml --bench two.sqlite --json");
    assert_near(number(again, "craft_same"), 4, 0);
    assert_near(number(again, "parts_added"), 0, 0);
    json_decref(again);
    ran here = run("export" DEMO), there = run("export --bench two.sqlite");
    assert_string_equal(here.out, there.out);
    ran_free(&here);
    ran_free(&there);
    ran a = run("sheet hedgerow --json" DEMO), b = run("sheet hedgerow --json --bench two.sqlite");
    assert_string_equal(a.out, b.out);
    ran_free(&a);
    ran_free(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sheet_has_every_figure_with_its_uncertainty),
        cmocka_unit_test(other_loadouts_hold_the_same_figures),
        cmocka_unit_test(margins_say_value_limit_and_where_it_comes_from),
        cmocka_unit_test(watts_of_each_state_add_up_to_what_the_pack_gives),
        cmocka_unit_test(motors_share_the_all_up_mass),
        cmocka_unit_test(drag_and_download_say_what_they_are),
        cmocka_unit_test(the_ledger_adds_up_to_all_up),
        cmocka_unit_test(swaps_have_their_keys),
        cmocka_unit_test(a_trial_changes_what_its_row_says),
        cmocka_unit_test(found_parts_are_parts_and_say_why_they_were_found),
        cmocka_unit_test(lists_of_parts_and_craft_have_names),
        cmocka_unit_test(a_trial_tells_crash_and_range_as_ratios),
        cmocka_unit_test(a_printed_part_says_what_a_gram_of_it_bears),
        cmocka_unit_test(a_part_says_its_words_as_well),
        cmocka_unit_test(the_same_question_gives_the_same_bytes),
        cmocka_unit_test(a_bench_goes_out_and_comes_in_the_same),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
