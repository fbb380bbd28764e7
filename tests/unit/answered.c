/* rooms: advise craft physics base */
/* Promises of taken swaps against readings and flights: changes and chances by hand. */
#include "advise/answered.h"

#include <math.h>
#include <string.h>

#include "near.h"

/* phi(1), phi(2): of a normal below one and two standard deviations (closed form by erf). */
static double below(double z)
{
    return 0.5 * erfc(-z / sqrt(2));
}

static const pare_promised light[] = {{"all_up_g", 1, {-8}},        {"all_up_g_u", 1, {0.5}},
                                      {"flown_min", 1, {0.2}},      {"hover_a", 1, {-0.1}},
                                      {"hover_output", 1, {-0.01}}, {"hover_output_u", 1, {0.002}}};
static const pare_scale kitchen = {"kitchen", 1e-3, 1e-3, 0.002, 0, NULL};

static pare_craft *craft_with(size_t takens, const char *const day[])
{
    static pare_craft craft;
    craft = (pare_craft){.name = "mule", .takens = takens};
    for (size_t t = 0; t < takens; t++)
        craft.taken[t] = (pare_taken){.swap = "bumper=off",
                                      .date = {[PARE_STAGE_FITTED] = day[t]},
                                      .promises = sizeof light / sizeof light[0],
                                      .promise = light};
    return &craft;
}

static pare_weigh_in whole(const char *date, const char *loadout, double kg)
{
    return (pare_weigh_in){.craft = "mule",
                           .date = date,
                           .scale = "kitchen",
                           .loadout = loadout,
                           .all = true,
                           .reads_kg = kg};
}

static void a_change_on_the_scale_is_held_against_its_promise(void **state)
{
    (void)state;
    const char *const day[] = {"2024-03-10"};
    const pare_weigh_in reading[] = {
        whole("2024-03-01", "film", 0.700), whole("2024-03-05", "film", 0.702),
        whole("2024-03-10", "film", 0.694), whole("2024-03-20", "film", 0.650),
        whole("2024-03-12", "race", 0.600)};
    const pare_weighings all = {1, &kitchen, 5, reading};
    pare_answers answers;
    pare_answers_of(craft_with(1, day), 0, &all, 0, NULL, NAN, &answers);
    const pare_answer *mass = &answers.mass;
    /* A reading on the day itself is with the swap; u = sqrt(2) x hypot(1/sqrt(12), 1) g and 0.2 % of
     * 8 g. */
    const double u = hypot(sqrt(2) * hypot(1e-3 / sqrt(12), 1e-3), 0.002 * 8e-3);
    assert_true(mass->there);
    assert_int_equal(mass->swaps, 1);
    assert_near(mass->promised, -8e-3, 1e-12);
    assert_near(mass->promised_u, 0.5e-3, 1e-12);
    assert_near(mass->measured, -8e-3, 1e-12);
    assert_near(mass->measured_u, u, 1e-12);
    assert_near(mass->real, below(8e-3 / u), 1e-9);
    assert_false(answers.minutes.there);
    assert_false(answers.hover.there);
}

static void swaps_between_two_readings_are_answered_together(void **state)
{
    (void)state;
    const char *const day[] = {"2024-03-10", "2024-03-11", "2024-04-01"};
    const pare_weigh_in reading[] = {whole("2024-03-05", NULL, 0.702),
                                     whole("2024-03-15", NULL, 0.688)};
    const pare_weighings all = {1, &kitchen, 2, reading};
    pare_answers answers;
    for (size_t t = 0; t < 2; t++) {
        pare_answers_of(craft_with(3, day), t, &all, 0, NULL, NAN, &answers);
        assert_int_equal(answers.mass.swaps, 2);
        assert_near(answers.mass.promised, -16e-3, 1e-12);
        assert_near(answers.mass.promised_u, 0.5e-3 * sqrt(2), 1e-12);
        assert_near(answers.mass.measured, -14e-3, 1e-12);
    }
    pare_answers_of(craft_with(3, day), 2, &all, 0, NULL, NAN, &answers);
    assert_false(answers.mass.there); /* nothing was weighed since */
}

static void a_change_the_wrong_way_is_hardly_real(void **state)
{
    (void)state;
    const char *const day[] = {"2024-03-10"};
    const pare_weigh_in reading[] = {whole("2024-03-05", NULL, 0.700),
                                     whole("2024-03-15", NULL, 0.703)};
    const pare_weighings all = {1, &kitchen, 2, reading};
    pare_answers answers;
    pare_answers_of(craft_with(1, day), 0, &all, 0, NULL, NAN, &answers);
    assert_true(answers.mass.real < 0.05);
}

static pare_flight_record flight(const char *date, double amperes, bool hovers)
{
    pare_flight_record made = {
        .date = date, .loadout = 0, .lasted_s = 100, .put_back_c = 100 * amperes};
    if (hovers) {
        made.entries = 1;
        made.flown[0] = (pare_flown){PARE_FLOWN_THRUST, 1, 1};
    }
    return made;
}

static void flights_of_one_manner_answer_minutes_and_hover(void **state)
{
    (void)state;
    const char *const day[] = {"2024-03-10", "2024-05-01"};
    const pare_flight_record flown[] = {
        flight("2024-03-01", 10, false), flight("2024-03-02", 10, false),
        flight("2024-03-03", 8, true),   flight("2024-03-10", 9, false),
        flight("2024-03-12", 9, false),  flight("2024-03-13", 7.6, true),
        flight("2024-05-01", 3, false) /* with the next swap */};
    const pare_weighings none = {0, NULL, 0, NULL};
    pare_answers answers;
    pare_answers_of(craft_with(2, day), 0, &none, 7, flown, 300, &answers);
    assert_true(answers.minutes.there);
    assert_int_equal(answers.minutes.before, 2);
    assert_int_equal(answers.minutes.since, 2);
    assert_near(answers.minutes.promised, 12, 1e-9);
    assert_near(answers.minutes.measured, 300 * (1 - 0.9), 1e-9);
    /* 8 % a flight, two on each side: 8 %. */
    assert_near(answers.minutes.measured_u, 300 * 0.9 * 0.08, 1e-9);
    assert_near(answers.minutes.real, below(30 / (300 * 0.9 * 0.08)), 1e-9);
    assert_near(answers.hover.measured, -0.4, 1e-9);
    assert_near(answers.hover.measured_u, 7.6 * 0.03 * sqrt(2), 1e-9);
    assert_near(answers.hover.real, below(0.4 / (7.6 * 0.03 * sqrt(2))), 1e-9);
}

static pare_flight_record hover_at(const char *date, double output)
{
    pare_flight_record made = flight(date, 0, true);
    made.output = output;
    return made;
}

static void hovers_before_and_since_answer_the_output(void **state)
{
    (void)state;
    const char *const day[] = {"2024-03-10"};
    pare_flight_record flown[] = {hover_at("2024-03-01", 0.30), hover_at("2024-03-02", 0.30),
                                  hover_at("2024-03-10", 0.285), hover_at("2024-03-12", 0.20)};
    flown[3].loadout = 1; /* another loadout is no answer */
    const pare_weighings none = {0, NULL, 0, NULL};
    pare_answers answers;
    pare_answers_of(craft_with(1, day), 0, &none, 4, flown, 300, &answers);
    const pare_answer *output = &answers.output;
    /* 3 % of one reading, of two before and one since. */
    const double u = 0.285 * 0.03 * sqrt(1.5);
    assert_true(output->there);
    assert_int_equal(output->before, 2);
    assert_int_equal(output->since, 1);
    assert_near(output->promised, -0.01, 1e-12);
    assert_near(output->promised_u, 0.002, 1e-12);
    assert_near(output->measured, -0.015, 1e-12);
    assert_near(output->measured_u, u, 1e-12);
    assert_near(output->real, below(0.015 / u), 1e-9);
    assert_false(answers.hover.there || answers.minutes.there); /* nothing was charged */
}

/* Of two loadouts that were weighed, the one that answers for fewer swaps counts: its answer is the more its own. */
static void the_answer_for_fewest_swaps_counts(void **state)
{
    (void)state;
    const char *const day[] = {"2024-03-10", "2024-03-20"};
    const pare_weigh_in reading[] = {whole("2024-03-15", "film", 0.702),
                                     whole("2024-03-25", "film", 0.694), /* the second alone */
                                     whole("2024-03-05", "race", 0.650),
                                     whole("2024-03-26", "race", 0.630), /* both */
                                     whole("2024-03-06", "alone", 0.4),
                                     whole("2024-04-26", NULL, 0.5)}; /* neither */
    for (size_t turn = 0; turn < 2; turn++) {
        pare_weigh_in turned[6];
        for (size_t i = 0; i < 6; i++)
            turned[i] = reading[turn ? 5 - i : i];
        const pare_weighings all = {1, &kitchen, 6, turned};
        pare_answers answers;
        pare_answers_of(craft_with(2, day), 1, &all, 0, NULL, NAN, &answers);
        assert_int_equal(answers.mass.swaps, 1);
        assert_near(answers.mass.measured, -8e-3, 1e-12);
        pare_answers_of(craft_with(2, day), 0, &all, 0, NULL, NAN, &answers);
        assert_int_equal(answers.mass.swaps, 2);
        assert_near(answers.mass.measured, -20e-3, 1e-12);
    }
}

/* Scales that are two have nothing in common: what each is off by counts whole. */
static void two_scales_are_each_off_by_themselves(void **state)
{
    (void)state;
    static const pare_scale two[] = {{"kitchen", 1e-3, 1e-3, 0.002, 0, NULL},
                                     {"letters", 1e-4, 1e-4, 0.001, 0, NULL}};
    const char *const day[] = {"2024-03-10"};
    pare_weigh_in reading[] = {whole("2024-03-05", NULL, 0.700), whole("2024-03-15", NULL, 0.692)};
    reading[1].scale = "letters";
    reading[1].step_kg = 1e-4;
    const pare_weighings all = {2, two, 2, reading};
    pare_answers answers;
    pare_answers_of(craft_with(1, day), 0, &all, 0, NULL, NAN, &answers);
    const double one_u = hypot(1e-3 / sqrt(12), 1e-3), other_u = hypot(1e-4 / sqrt(12), 1e-4);
    assert_near(answers.mass.measured_u,
                hypot(hypot(one_u, other_u), hypot(0.002 * 0.700, 0.001 * 0.692)), 1e-12);
}

/* A swap that promised nothing of a figure leaves those fitted with it unanswered. */
static void what_was_not_promised_is_not_answered(void **state)
{
    (void)state;
    const char *const day[] = {"2024-03-10", "2024-03-10"};
    const pare_weigh_in reading[] = {whole("2024-03-05", NULL, 0.700),
                                     whole("2024-03-15", NULL, 0.692)};
    const pare_weighings all = {1, &kitchen, 2, reading};
    pare_answers answers;
    pare_craft *craft = craft_with(2, day);
    for (size_t t = 0; t < 2; t++) {
        craft = craft_with(2, day);
        craft->taken[t].promises = 0;
        pare_answers_of(craft, 0, &all, 0, NULL, NAN, &answers);
        assert_false(answers.mass.there);
        assert_near(answers.mass.measured, 0, 0);
    }
    craft->taken[1].date[PARE_STAGE_FITTED] = NULL; /* chosen, and not on yet */
    pare_answers_of(craft, 0, &all, 0, NULL, NAN, &answers);
    assert_true(answers.mass.there);
    assert_int_equal(answers.mass.swaps, 1);
}

/* Flights of each pack and loadout stand by themselves, and the most certain of them counts; those before the swap
 * fitted before, from the next one on, and those that say nothing, do not. */
static void flights_between_other_swaps_of_one_pack_count(void **state)
{
    (void)state;
    static const pare_part old_pack = {.id = "pa-old"}, new_pack = {.id = "pa-new"};
    const char *const day[] = {"2024-03-01", "2024-02-01", "2024-03-10", "2024-05-01",
                               "2024-04-01"};
    pare_flight_record flown[] = {
        flight("2024-02-20", 20, false), /* before the swap fitted before */
        flight("2024-03-02", 10, false), flight("2024-03-12", 9, false), /* of the old pack */
        flight("2024-03-02", 12, false), flight("2024-03-03", 12, false),
        flight("2024-03-12", 6, false),  flight("2024-03-13", 6, false), /* of the new one */
        flight("2024-03-13", 1, false),  flight("2024-03-14", 2, false), /* say nothing */
        flight("2024-04-02", 30, false)};                                /* with the next swap */
    for (size_t i = 0; i < 10; i++)
        flown[i].pack = i < 3 ? &old_pack : &new_pack;
    flown[7].lasted_s = 0;
    flown[8].put_back_c = 0;
    const pare_weighings none = {0, NULL, 0, NULL};
    for (size_t turn = 0; turn < 2; turn++) {
        pare_flight_record turned[10];
        for (size_t i = 0; i < 10; i++)
            turned[i] = flown[turn ? 9 - i : i];
        pare_answers answers;
        pare_answers_of(craft_with(5, day), 2, &none, 10, turned, 300, &answers);
        assert_int_equal(answers.minutes.before, 2);
        assert_int_equal(answers.minutes.since, 2);
        assert_near(answers.minutes.measured, 300 * (1 - 0.5), 1e-9);
        assert_int_equal(answers.minutes.swaps, 1);
        /* Minutes of the sheet that are not known make none measured. */
        pare_answers_of(craft_with(5, day), 2, &none, 10, turned, NAN, &answers);
        assert_false(answers.minutes.there);
    }
}

static void what_is_only_chosen_has_no_answer(void **state)
{
    (void)state;
    const char *const day[] = {NULL};
    const pare_weigh_in reading[] = {whole("2024-03-05", NULL, 0.700),
                                     whole("2024-03-15", NULL, 0.690)};
    const pare_weighings all = {1, &kitchen, 2, reading};
    pare_answers answers;
    pare_answers_of(craft_with(1, day), 0, &all, 0, NULL, 300, &answers);
    assert_false(answers.mass.there || answers.minutes.there || answers.hover.there);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_change_on_the_scale_is_held_against_its_promise),
        cmocka_unit_test(the_answer_for_fewest_swaps_counts),
        cmocka_unit_test(two_scales_are_each_off_by_themselves),
        cmocka_unit_test(what_was_not_promised_is_not_answered),
        cmocka_unit_test(flights_between_other_swaps_of_one_pack_count),
        cmocka_unit_test(swaps_between_two_readings_are_answered_together),
        cmocka_unit_test(a_change_the_wrong_way_is_hardly_real),
        cmocka_unit_test(flights_of_one_manner_answer_minutes_and_hover),
        cmocka_unit_test(hovers_before_and_since_answer_the_output),
        cmocka_unit_test(what_is_only_chosen_has_no_answer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
