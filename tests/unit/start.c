/* rooms: store advise craft physics base */
/* A craft from a few answers: the scale and the minutes are met, the text is the craft, and whatever
 * is answered, there is a valid craft or one line. */
#include "advise/start.h"

#include <math.h>

#include "bench_of.h"
#include "craft/sheet.h"
#include "near.h"
#include "store_bench.h"

#define INCH_M 0.0254
#define AH_C   3600.0

static pare_start_answers five_inch(void)
{
    return (pare_start_answers){.all_up_kg = 0.690,
                                .flown_s = 4.5 * 60,
                                .propeller_m = 5.1 * INCH_M,
                                .cells = 4,
                                .capacity_c = 1.5 * AH_C,
                                .stator_diameter_m = 0.022,
                                .stator_length_m = 0.007,
                                .kv_rpm_per_v = 2400,
                                .carries_said = true,
                                .carries = PARE_CARRIES_ACTION_CAMERA | PARE_CARRIES_GPS};
}

/* The text of a start, read back; the caller closes the bench and frees the text. */
static pare_bench *read_back(const pare_start *start, pare_text *text)
{
    pare_start_text(start, text);
    assert_false(text->failed);
    return bench_of_text(text->bytes);
}

static void compute(const pare_craft *craft, bool with_u, pare_sheet *sheet)
{
    pare_error err = {0};
    if (pare_sheet_compute(craft, with_u, sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

/* The sheet of what the text of these answers reads as. */
static void sheet_of(const pare_start_answers *answers, bool with_u, pare_sheet *sheet)
{
    pare_error err = {0};
    pare_text text = {0};
    pare_start start;
    pare_arena *arena = pare_arena_open();
    if (pare_start_make("x", answers, arena, &start, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_bench *bench = read_back(&start, &text);
    assert_int_equal(bench->crafts, 1);
    compute(bench->craft[0], with_u, sheet);
    pare_bench_close(bench);
    pare_text_free(&text);
    pare_arena_close(arena);
}

static void refuses(const pare_start_answers *answers, const char *with)
{
    pare_error err = {0};
    pare_start start;
    pare_arena *arena = pare_arena_open();
    assert_int_equal(pare_start_make("x", answers, arena, &start, &err), PARE_BAD_DATA);
    if (!strstr(err.text, with))
        fail_msg("'%s' does not say '%s'", err.text, with);
    pare_arena_close(arena);
}

/* ---- least squares ---- */

/* Variances 1, 4, 9 of 14; a misfit of 14 is shared as 1, 4, 9. */
static void a_misfit_is_shared_by_variance(void **state)
{
    (void)state;
    pare_guess guess[] = {{10, 1, 0}, {20, 2, 0}, {30, 3, 0}};
    assert_true(pare_start_weigh(3, guess, 5, 0, 79, 0.7));
    assert_near(guess[0].kg, 11, 1e-12);
    assert_near(guess[1].kg, 24, 1e-12);
    assert_near(guess[2].kg, 39, 1e-12);
}

/* The least of sum (shift / u)^2 under one constraint: any other split costs more. */
static void no_other_split_costs_less(void **state)
{
    (void)state;
    const pare_guess before[] = {{10, 1, 1}, {20, 4, 1}, {5, 3, 4}, {40, 6, 1}};
    pare_guess guess[4];
    memcpy(guess, before, sizeof guess);
    assert_true(pare_start_weigh(4, guess, 0, 0, 50, 1));
    assert_near(guess[2].kg, 4, 1e-12); /* pinned at its least */
    double least = 0, sum = 0;
    for (int i = 0; i < 4; i++) {
        least += pow((guess[i].kg - before[i].kg) / before[i].u_kg, 2);
        sum += guess[i].kg;
    }
    assert_near(sum, 50, 1e-12);
    for (int a = 0; a < 4; a++)
        for (int b = 0; b < 4; b++) {
            double cost = 0;
            if (a == b || guess[b].kg - 0.01 < before[b].least_kg)
                continue;
            for (int i = 0; i < 4; i++) {
                const double moved = i == a ? 0.01 : i == b ? -0.01 : 0;
                cost += pow((guess[i].kg + moved - before[i].kg) / before[i].u_kg, 2);
            }
            assert_true(cost > least);
        }
}

static void the_sum_is_as_sure_as_the_scale(void **state)
{
    (void)state;
    pare_guess guess[] = {{10, 1, 0}, {20, 2, 0}, {30, 3, 0}};
    assert_true(pare_start_weigh(3, guess, 5, 0.3, 70, 0.5));
    double variance = 0.3 * 0.3;
    for (int i = 0; i < 3; i++)
        variance += guess[i].u_kg * guess[i].u_kg;
    assert_near(sqrt(variance), 0.5, 1e-12);
    assert_near(guess[2].u_kg / guess[0].u_kg, 3, 1e-12);
}

static void what_cannot_be_shared_is_left_alone(void **state)
{
    (void)state;
    pare_guess guess[] = {{10, 1, 9}, {20, 2, 19}};
    assert_false(pare_start_weigh(2, guess, 0, 0, 20, 1));
    assert_near(guess[0].kg, 10, 0);
    assert_near(guess[1].u_kg, 2, 0);
    assert_false(pare_start_weigh(0, guess, 0, 0, 20, 1));
}

/* ---- answers ---- */

static void the_sheet_says_what_the_scale_and_the_pilot_say(void **state)
{
    (void)state;
    const pare_start_answers answers = five_inch();
    pare_sheet *sheet = malloc(sizeof *sheet);
    assert_non_null(sheet);
    sheet_of(&answers, true, sheet);
    assert_near(1e3 * sheet->figure[PARE_ALL_UP].value, 690, 0.01);
    /* Half a per cent of it: a reading known by heart. */
    assert_within(sheet->figure[PARE_ALL_UP].u, 0.005 * 0.690, 0.02);
    assert_within(sheet->figure[PARE_FLOWN_TIME].value, 4.5 * 60, 1e-3);
    assert_between(sheet->figure[PARE_FLOWN_TIME].u, 10, 120);
    free(sheet);
}

static void the_text_is_the_craft_that_was_made(void **state)
{
    (void)state;
    pare_error err = {0};
    pare_text text = {0};
    pare_start start;
    const pare_start_answers answers = five_inch();
    pare_arena *arena = pare_arena_open();
    pare_sheet *made = malloc(sizeof *made), *read = malloc(sizeof *read);
    assert_non_null(made);
    assert_non_null(read);
    assert_int_equal(pare_start_make("own-5", &answers, arena, &start, &err), PARE_OK);
    pare_bench *bench = read_back(&start, &text);
    compute(start.craft, true, made);
    compute(pare_bench_craft(bench, "own-5"), true, read);
    for (int i = 0; i < PARE_FIGURES; i++) {
        assert_int_equal(made->figure[i].exists, read->figure[i].exists);
        if (made->figure[i].exists) {
            assert_near(read->figure[i].value, made->figure[i].value,
                        1e-9 * fabs(made->figure[i].value) + 1e-12);
            assert_near(read->figure[i].u, made->figure[i].u,
                        1e-6 * fabs(made->figure[i].u) + 1e-12);
        }
    }
    assert_int_equal(start.craft->brief.keep, bench->craft[0]->brief.keep);
    free(read);
    free(made);
    pare_bench_close(bench);
    pare_text_free(&text);
    pare_arena_close(arena);
}

static void nothing_answered_is_a_craft_too(void **state)
{
    (void)state;
    const pare_start_answers answers = {0};
    pare_sheet *sheet = malloc(sizeof *sheet);
    assert_non_null(sheet);
    sheet_of(&answers, true, sheet);
    /* 5 in: 360 to 850 g all-up, with or without camera (common practice, no source). */
    assert_between(sheet->figure[PARE_ALL_UP].value, 0.360, 0.850);
    assert_between(sheet->figure[PARE_ALL_UP].u, 0.030, 0.150);
    assert_true(sheet->figure[PARE_FLOWN_TIME].exists);
    /* At least five things are worth weighing. */
    size_t order[PARE_LINES];
    double share[PARE_LINES];
    pare_sheet_weigh_first(sheet, order, share);
    assert_true(share[4] > 0);
    free(sheet);
}

static void each_answer_tells(void **state)
{
    (void)state;
    pare_start_answers answers = five_inch();
    answers.all_up_kg = answers.flown_s = 0;
    pare_sheet *first = malloc(sizeof *first), *other = malloc(sizeof *other);
    assert_non_null(first);
    assert_non_null(other);
    sheet_of(&answers, false, first);
    pare_start_answers changed = answers;
    changed.kv_rpm_per_v = 1950;
    sheet_of(&changed, false, other);
    assert_true(other->figure[PARE_TWR_FRESH].value < 0.9 * first->figure[PARE_TWR_FRESH].value);
    changed = answers;
    changed.capacity_c = 1.3 * AH_C;
    sheet_of(&changed, false, other);
    assert_true(other->figure[PARE_ALL_UP].value < first->figure[PARE_ALL_UP].value - 0.015);
    assert_true(other->figure[PARE_HOVER_TIME].value < first->figure[PARE_HOVER_TIME].value);
    changed = answers;
    changed.stator_length_m = 0.0055;
    sheet_of(&changed, false, other);
    assert_true(other->figure[PARE_ALL_UP].value < first->figure[PARE_ALL_UP].value - 0.010);
    changed = answers;
    changed.carries = PARE_CARRIES_NO_VIDEO;
    sheet_of(&changed, false, other);
    assert_true(other->figure[PARE_ALL_UP].value < first->figure[PARE_ALL_UP].value - 0.100);
    free(other);
    free(first);
}

static void whoever_flies_by_video_has_a_camera(void **state)
{
    (void)state;
    static const struct {
        unsigned carries;
        bool sees;
    } cases[] = {{0, true},
                 {PARE_CARRIES_ANALOGUE_VIDEO, true},
                 {PARE_CARRIES_DIGITAL_VIDEO, true},
                 {PARE_CARRIES_NO_VIDEO, false},
                 {PARE_CARRIES_NOTHING, false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        pare_start_answers answers = five_inch();
        pare_error err = {0};
        pare_start start;
        pare_arena *arena = pare_arena_open();
        answers.all_up_kg = answers.flown_s = 0;
        answers.carries = cases[i].carries;
        if (pare_start_make("x", &answers, arena, &start, &err) != PARE_OK)
            fail_msg("%s", err.text);
        assert_int_equal(pare_craft_doing(start.craft, PARE_CAMERA) >= 0, cases[i].sees);
        pare_arena_close(arena);
    }
}

static void a_mass_that_no_guess_explains_is_refused_with_the_range(void **state)
{
    (void)state;
    pare_start_answers answers = five_inch();
    pare_error err = {0};
    pare_start start;
    pare_arena *arena = pare_arena_open();
    assert_int_equal(pare_start_make("x", &answers, arena, &start, &err), PARE_OK);
    assert_between(0.690, start.low_kg, start.high_kg);
    char range[64];
    snprintf(range, sizeof range, "%.3g .. %.3g g", 1e3 * start.low_kg, 1e3 * start.high_kg);
    answers.flown_s = 0;
    answers.all_up_kg = 1.01 * start.high_kg;
    refuses(&answers, range);
    answers.all_up_kg = 0.99 * start.low_kg;
    refuses(&answers, range);
    /* At its ends it is still a craft. */
    const double end_kg[] = {1.0001 * start.low_kg, 0.9999 * start.high_kg};
    pare_sheet *sheet = malloc(sizeof *sheet);
    assert_non_null(sheet);
    for (int i = 0; i < 2; i++) {
        answers.all_up_kg = end_kg[i];
        sheet_of(&answers, false, sheet);
        assert_near(sheet->figure[PARE_ALL_UP].value, end_kg[i], 1e-5);
    }
    free(sheet);
    pare_arena_close(arena);
}

static void minutes_that_cannot_be_are_refused_with_both_numbers(void **state)
{
    (void)state;
    pare_start_answers answers = five_inch();
    pare_sheet *sheet = malloc(sizeof *sheet);
    assert_non_null(sheet);
    answers.flown_s = 0;
    sheet_of(&answers, false, sheet);
    const double hover_s = sheet->figure[PARE_HOVER_TIME].value;
    char text[64];
    answers.flown_s = 1.05 * hover_s;
    snprintf(text, sizeof text, "lasts %.3g min", hover_s / 60);
    refuses(&answers, text);
    answers.flown_s = 2;
    refuses(&answers, "full throttle throughout lasts");
    /* Anything between is flown. */
    for (double share = 0.98; share > 0.2; share -= 0.13) {
        answers.flown_s = share * hover_s;
        sheet_of(&answers, false, sheet);
        assert_within(sheet->figure[PARE_FLOWN_TIME].value, answers.flown_s, 1e-3);
    }
    free(sheet);
}

static void minutes_speak_of_a_pack_that_nobody_said(void **state)
{
    (void)state;
    pare_start_answers answers = {.all_up_kg = 0.690, .flown_s = 720};
    pare_sheet *sheet = malloc(sizeof *sheet);
    assert_non_null(sheet);
    sheet_of(&answers, false, sheet);
    assert_within(sheet->figure[PARE_FLOWN_TIME].value, 720, 1e-3);
    assert_near(sheet->figure[PARE_ALL_UP].value, 0.690, 1e-5);
    assert_true(sheet->figure[PARE_HOVER_TIME].value > 720 / 0.7);
    free(sheet);
}

static void sizes_that_nobody_said_go_with_those_said(void **state)
{
    (void)state;
    static const struct {
        pare_start_answers said;
        double propeller_in;
        int cells;
    } cases[] = {
        {{.kv_rpm_per_v = 2400}, 5.1, 4},
        {{.kv_rpm_per_v = 900}, 10, 6},
        {{.all_up_kg = 0.22}, 3, 4},
        {{.stator_diameter_m = 0.028, .stator_length_m = 0.0065}, 7, 6},
        {{.wheelbase_m = 0.225}, 5.1, 6},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        pare_error err = {0};
        pare_start start;
        pare_arena *arena = pare_arena_open();
        assert_int_equal(pare_start_make("x", &cases[i].said, arena, &start, &err), PARE_OK);
        const pare_craft *craft = start.craft;
        const pare_part *propeller = craft->item[pare_craft_doing(craft, PARE_PROPELLER)].part;
        const pare_part *pack = craft->item[pare_craft_doing(craft, PARE_PACK)].part;
        assert_near(propeller->spec[PARE_SPEC_DIAMETER].value, cases[i].propeller_in * INCH_M,
                    1e-9);
        assert_int_equal((int)pack->spec[PARE_SPEC_CELLS].value, cases[i].cells);
        pare_arena_close(arena);
    }
}

static void a_part_weighed_later_narrows_the_sheet(void **state)
{
    pare_store *store = store_of(state);
    const pare_start_answers answers = {.cells = 4, .capacity_c = 1.5 * AH_C};
    pare_error err = {0};
    pare_text text = {0};
    pare_start start;
    pare_bench *bench = NULL;
    pare_arena *arena = pare_arena_open();
    pare_sheet *before = malloc(sizeof *before), *after = malloc(sizeof *after);
    assert_non_null(before);
    assert_non_null(after);
    assert_int_equal(pare_start_make("x", &answers, arena, &start, &err), PARE_OK);
    compute(start.craft, true, before);
    pare_start_text(&start, &text);
    assert_int_equal(store_take(store, text.bytes, &err), PARE_OK);
    assert_int_equal(store_take(store,
                                "pare: 1\nparts:\n- {id: x-motor, kind: motor, mass: {value: 31.4 "
                                "g, u: 0.1 g, known: weighed}, spec: {stator: 22 mm x 7 mm, kv: "
                                "2450}}\n",
                                &err),
                     PARE_OK);
    assert_int_equal(pare_store_read_craft(store, "x", &bench, &err), PARE_OK);
    compute(bench->craft[0], true, after);
    assert_true(after->figure[PARE_ALL_UP].u < 0.9 * before->figure[PARE_ALL_UP].u);
    pare_bench_close(bench);
    free(after);
    free(before);
    pare_text_free(&text);
    pare_arena_close(arena);
}

static void a_start_goes_out_and_in_again(void **state)
{
    pare_store *store = store_of(state);
    const pare_start_answers answers = five_inch();
    pare_error err = {0};
    pare_text text = {0};
    pare_start start;
    pare_arena *arena = pare_arena_open();
    assert_int_equal(pare_start_make("x", &answers, arena, &start, &err), PARE_OK);
    pare_start_text(&start, &text);
    assert_int_equal(store_take(store, text.bytes, &err), PARE_OK);
    char *once = store_text(store);
    assert_int_equal(store_take(store, once, &err), PARE_OK);
    char *twice = store_text(store);
    assert_string_equal(once, twice);
    free(twice);
    free(once);
    pare_text_free(&text);
    pare_arena_close(arena);
}

static void a_name_is_one_that_can_be_typed(void **state)
{
    (void)state;
    static const char *const bad[] = {
        "", "-x", "a b", "x/y", "\xc3\xa9", "x: y", "a23456789012345678901234567890123"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_int_equal(pare_start_name(bad[i], NULL), PARE_BAD_DATA);
    assert_int_equal(pare_start_name("own-5.2_b", NULL), PARE_OK);
    assert_int_equal(pare_start_name("a2345678901234567890123456789012", NULL), PARE_OK);
}

/* ---- whatever is answered ---- */

static unsigned long long seed = 20260301;

static double draw(void)
{
    seed = seed * 6364136223846793005ull + 1442695040888963407ull;
    return (double)(seed >> 11) / 9007199254740992.0;
}

/* Over all its range, evenly in its logarithm; often not answered. */
static double maybe(double low, double high)
{
    const double value = low * pow(high / low, draw());
    return draw() < 0.5 ? value : 0;
}

/* Minutes that no flying takes, as the pack's volts give in between: both ends that are named are within what is flown,
 * or at another such gap; they are said to three digits. @return false: it was refused for another reason */
static bool both_ends_of_a_jump_are_in_reach(const char *refusal, const pare_start_answers *answers)
{
    static const char *const words[2] = {"flown ever harder it lasts ", "then at once "};
    double end_min[2];
    for (int i = 0; i < 2; i++) {
        const char *at = strstr(refusal, words[i]);
        if (!at)
            return false;
        end_min[i] = strtod(at + strlen(words[i]), NULL);
    }
    const double said_min = answers->flown_s / 60;
    assert_true(end_min[1] < said_min * 1.01 && said_min < end_min[0] * 1.01);
    for (int i = 0; i < 2; i++) {
        pare_error err = {0};
        pare_start start;
        pare_start_answers end = *answers;
        pare_arena *arena = pare_arena_open();
        end.flown_s = 60 * end_min[i] * (i ? 0.99 : 1.01);
        if (pare_start_make("x", &end, arena, &start, &err) != PARE_OK &&
            !strstr(err.text, "flown ever harder"))
            fail_msg("%s; and then: %s", refusal, err.text);
        pare_arena_close(arena);
    }
    return true;
}

static void whatever_is_answered_there_is_a_valid_craft_or_one_line(void **state)
{
    (void)state;
    int made = 0, refused = 0, jumps = 0;
    pare_sheet *sheet = malloc(sizeof *sheet);
    assert_non_null(sheet);
    for (int i = 0; i < 240; i++) {
        const bool wild = i % 2;
        pare_start_answers answers = {.all_up_kg = wild ? maybe(0.015, 25) : maybe(0.4, 0.8),
                                      .flown_s = wild ? maybe(10, 10800) : maybe(150, 500),
                                      .propeller_m = wild ? maybe(INCH_M, 30 * INCH_M)
                                                          : maybe(3 * INCH_M, 7 * INCH_M),
                                      .pitch_m = wild ? maybe(0.5 * INCH_M, 30 * INCH_M) : 0,
                                      .blades = (int)maybe(2, 8.9),
                                      .cells = (int)maybe(wild ? 1 : 3, wild ? 14.9 : 6.9),
                                      .capacity_c = wild ? maybe(180, 360000) : maybe(2000, 8000),
                                      .chemistry = (pare_chemistry)(4 * draw()),
                                      .kv_rpm_per_v = wild ? maybe(50, 30000) : maybe(1200, 4000),
                                      .wheelbase_m = wild ? maybe(0.045, 1.9) : 0,
                                      .carries_said = draw() < 0.5};
        answers.stator_diameter_m = wild ? maybe(5e-3, 0.1) : 0;
        answers.stator_length_m = answers.stator_diameter_m > 0 ? 1e-3 * (1 + 20 * draw()) : 0;
        answers.carries = answers.carries_said ? (unsigned)(128 * draw()) : 0;
        pare_error err = {0};
        pare_text text = {0};
        pare_start start;
        pare_arena *arena = pare_arena_open();
        const pare_status status = pare_start_make("x", &answers, arena, &start, &err);
        if (status == PARE_OK) {
            pare_bench *bench = read_back(&start, &text);
            compute(bench->craft[0], false, sheet);
            if (answers.all_up_kg > 0)
                assert_near(sheet->figure[PARE_ALL_UP].value, answers.all_up_kg,
                            2e-5 + 1e-5 * answers.all_up_kg);
            if (answers.flown_s > 0)
                assert_within(sheet->figure[PARE_FLOWN_TIME].value, answers.flown_s, 1.1e-3);
            pare_bench_close(bench);
            made++;
        } else {
            assert_int_equal(status, PARE_BAD_DATA);
            assert_true(err.text[0] && !strchr(err.text, '\n'));
            jumps += both_ends_of_a_jump_are_in_reach(err.text, &answers);
            refused++;
        }
        pare_text_free(&text);
        pare_arena_close(arena);
    }
    /* Both happen, or nothing was tested. */
    assert_true(made >= 60 && refused >= 20 && jumps > 0);
    free(sheet);
}

/* ---- limits in the stored text ---- */

static void fill(pare_store *store)
{
    const pare_start_answers answers = {0};
    pare_error err = {0};
    pare_text text = {0};
    pare_start start;
    pare_arena *arena = pare_arena_open();
    assert_int_equal(pare_start_make("x", &answers, arena, &start, &err), PARE_OK);
    pare_start_text(&start, &text);
    assert_int_equal(store_take(store, text.bytes, &err), PARE_OK);
    pare_text_free(&text);
    pare_arena_close(arena);
}

static void a_limit_goes_into_the_text_and_out_again(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    fill(store);
    char *before = store_text(store);
    const pare_limit_change set[] = {{"all_up", "<= 600 g"}, {"flown", ">= 4 min"}};
    assert_int_equal(pare_store_set_limits(store, "x", 2, set, &(pare_change){0}, &err), PARE_OK);
    char *with = store_text(store);
    assert_non_null(strstr(with, "limits: {all_up: \"<= 600 g\", flown: \">= 4 min\"}"));
    const pare_limit_change other[] = {{"all_up", "<= 580 g"}, {"flown", NULL}, {"money", NULL}};
    assert_int_equal(pare_store_set_limits(store, "x", 3, other, &(pare_change){0}, &err), PARE_OK);
    char *changed = store_text(store);
    assert_non_null(strstr(changed, "580 g"));
    assert_null(strstr(changed, "4 min"));
    const pare_limit_change off[] = {{"all_up", NULL}};
    assert_int_equal(pare_store_set_limits(store, "x", 1, off, &(pare_change){0}, &err), PARE_OK);
    char *after = store_text(store);
    assert_string_equal(after, before);
    free(after);
    free(changed);
    free(with);
    free(before);
}

static void a_limit_that_cannot_be_leaves_the_text_as_it_was(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    fill(store);
    char *before = store_text(store);
    const pare_limit_change unknown[] = {{"all_up", "<= 600 g"}, {"al_up", "<= 600 g"}};
    assert_int_equal(pare_store_set_limits(store, "x", 2, unknown, &(pare_change){0}, &err),
                     PARE_UNKNOWN);
    const pare_limit_change unit[] = {{"all_up", "<= 600 V"}};
    assert_int_equal(pare_store_set_limits(store, "x", 1, unit, &(pare_change){0}, &err),
                     PARE_BAD_DATA);
    const pare_limit_change fine[] = {{"all_up", "<= 600 g"}};
    assert_int_equal(pare_store_set_limits(store, "y", 1, fine, &(pare_change){0}, &err),
                     PARE_UNKNOWN);
    char *after = store_text(store);
    assert_string_equal(after, before);
    free(after);
    free(before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_misfit_is_shared_by_variance),
        cmocka_unit_test(no_other_split_costs_less),
        cmocka_unit_test(the_sum_is_as_sure_as_the_scale),
        cmocka_unit_test(what_cannot_be_shared_is_left_alone),
        cmocka_unit_test(the_sheet_says_what_the_scale_and_the_pilot_say),
        cmocka_unit_test(the_text_is_the_craft_that_was_made),
        cmocka_unit_test(nothing_answered_is_a_craft_too),
        cmocka_unit_test(each_answer_tells),
        cmocka_unit_test(whoever_flies_by_video_has_a_camera),
        cmocka_unit_test(a_mass_that_no_guess_explains_is_refused_with_the_range),
        cmocka_unit_test(minutes_that_cannot_be_are_refused_with_both_numbers),
        cmocka_unit_test(minutes_speak_of_a_pack_that_nobody_said),
        cmocka_unit_test(sizes_that_nobody_said_go_with_those_said),
        cmocka_unit_test_setup_teardown(a_part_weighed_later_narrows_the_sheet, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(a_start_goes_out_and_in_again, store_setup, store_teardown),
        cmocka_unit_test(a_name_is_one_that_can_be_typed),
        cmocka_unit_test(whatever_is_answered_there_is_a_valid_craft_or_one_line),
        cmocka_unit_test_setup_teardown(a_limit_goes_into_the_text_and_out_again, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(a_limit_that_cannot_be_leaves_the_text_as_it_was,
                                        store_setup, store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
