/* rooms: store advise craft physics base */
/* closure.c: weighings of a craft whose masses are known to the test: they are drawn from what is written
 * down, with its doubt, a maker's bias and a scale's error, and read with noise and a last digit. What is
 * then said of them must hold as often as it says. */
#include "swap_fixture.h"

#include <math.h>

#include "advise/weigh_next.h"
#include "advise/weighed.h"
#include "draws.h"

enum { READINGS = 500, PIECES = 12, UNKNOWNS = 256 };

/* A number that a normal stays within, both sides, in nine of ten. */
#define NINE_OF_TEN 1.6448536

typedef struct world {
    fixture *f;
    pare_arena *arena;
    pare_scale scale;
    pare_weigh_in reading[READINGS];
    pare_weighed_thing thing[READINGS][3];
    pare_weighings all;
    pare_closure *closure;
    double truth[UNKNOWNS];
} world;

static const char *const pieces[PIECES] = {"frame",  "motor",    "propeller", "esc",
                                           "brain",  "pack",     "camera",    "antenna",
                                           "bumper", "receiver", "capacitor", "joint.motor_base"};
static const int copies[PIECES] = {1, 4, 4, 1, 1, 1, 1, 1, 4, 1, 1, 16};

static void world_open(world *w, fixture *f)
{
    *w = (world){
        .f = f, .arena = pare_arena_open(), .scale = {"letters", 1e-4, 1e-4, 0.001, 0, NULL}};
    w->all = (pare_weighings){1, &w->scale, 0, w->reading};
}

static void closes(world *w)
{
    const pare_closure_of of = {.bench = w->f->bench,
                                .crafts = 1,
                                .first = &w->f->craft,
                                .weighings = &w->all,
                                .craft = "mule"};
    if (pare_closure_open(&of, w->arena, &w->closure, &w->f->err) != PARE_OK)
        fail_msg("%s", w->f->err.text);
}

static pare_weigh_in *lay(world *w, size_t piece, int count)
{
    pare_weigh_in *one = &w->reading[w->all.count];
    w->thing[w->all.count][0] = (pare_weighed_thing){pieces[piece], count};
    *one = (pare_weigh_in){.craft = "mule",
                           .date = "2024-03-10",
                           .scale = "letters",
                           .things = 1,
                           .thing = w->thing[w->all.count++],
                           .reads = "as drawn",
                           .reads_kg = 0.05};
    return one;
}

static pare_weigh_in *lay_whole(world *w)
{
    pare_weigh_in *one = lay(w, 0, 1);
    one->all = true;
    one->things = 0;
    one->loadout = "all";
    return one;
}

/* True masses for all unknowns, as doubtful as they are. */
static void draw_truth(world *w, double forgotten_kg, uint64_t *seed)
{
    const pare_closure *c = w->closure;
    assert_true(c->unknowns <= UNKNOWNS);
    for (int round = 0; round < 2; round++) /* makers and scales before what shares them */
        for (size_t i = 0; i < c->unknowns; i++) {
            const pare_unknown *u = &c->unknown[i];
            const bool shared = u->of == PARE_UNKNOWN_MAKER || u->of == PARE_UNKNOWN_SCALE;
            if (shared != (round == 0))
                continue;
            w->truth[i] = u->prior + u->prior_u * draw_normal(seed);
            if (u->of == PARE_UNKNOWN_PART && u->to_maker != i)
                w->truth[i] +=
                    (u->known == PARE_WEIGHED ? -1 : 1) * u->prior * w->truth[u->to_maker];
            if (u->of == PARE_UNKNOWN_FORGOTTEN)
                w->truth[i] = forgotten_kg;
        }
}

static double true_kg(world *w, const pare_weigh_in *of)
{
    pare_pile pile;
    if (pare_closure_pile(w->closure, of, &pile, &w->f->err) != PARE_OK)
        fail_msg("%s", w->f->err.text);
    double kg = pile.fixed_kg;
    for (size_t i = 0; i < pile.terms; i++)
        kg += pile.term[i].factor * w->truth[pile.term[i].unknown];
    return kg;
}

static double read_off(world *w, const pare_weigh_in *of, uint64_t *seed)
{
    const double common = w->truth[pare_closure_scale_unknown(w->closure, "letters")];
    const double shown =
        true_kg(w, of) * (1 + common) + w->scale.repeatability_kg * draw_normal(seed);
    return w->scale.resolution_kg * round(shown / w->scale.resolution_kg);
}

static void draw_readings(world *w, uint64_t *seed)
{
    for (size_t i = 0; i < w->all.count; i++)
        w->reading[i].reads_kg = read_off(w, &w->reading[i], seed);
}

static void closure_intervals_hold_as_often_as_they_say(void **state)
{
    enum { CRAFT = 1000 };
    fixture *f = *state;
    uint64_t seed = 1;
    int inside = 0;
    double width = 0;
    for (int n = 0; n < CRAFT; n++) {
        world w;
        world_open(&w, f);
        for (size_t piece = 0; piece < PIECES; piece++)
            if (draw_share(&seed) < 0.4)
                lay(&w, piece, copies[piece]);
        lay_whole(&w);
        closes(&w);
        const double forgotten_kg = 25e-3 * draw_share(&seed);
        draw_truth(&w, forgotten_kg, &seed);
        draw_readings(&w, &seed);
        closes(&w);
        const int at = pare_closure_forgotten(w.closure, "mule");
        assert_true(at >= 0);
        const double u = w.closure->adjusted.u[at];
        inside += fabs(w.closure->adjusted.value[at] - forgotten_kg) <= NINE_OF_TEN * u;
        width += u / CRAFT;
        pare_arena_close(w.arena);
    }
    assert_between(inside, 0.88 * CRAFT, 0.92 * CRAFT);
    assert_between(width, 0.5e-3, 5e-3); /* of a craft of some 400 g, a third of it weighed */
}

static void promises_hold_as_often_as_they_say(void **state)
{
    enum { ROUNDS = 400 };
    fixture *f = *state;
    uint64_t seed = 2;
    int made = 0, held = 0;
    for (int n = 0; n < ROUNDS; n++) {
        world w;
        world_open(&w, f);
        for (size_t piece = 0; piece < PIECES; piece++)
            lay(&w, piece, copies[piece]);
        const size_t known = (size_t)(draw_share(&seed) * 6);
        closes(&w);
        draw_truth(&w, 0, &seed);
        draw_readings(&w, &seed);
        w.all.count = known;
        closes(&w);
        for (size_t i = known; i < PIECES; i++) {
            pare_pile pile;
            assert_int_equal(pare_closure_pile(w.closure, &w.reading[i], &pile, &f->err), PARE_OK);
            const pare_promise promise = pare_promise_of(w.closure, &pile, &w.scale);
            made++;
            held +=
                w.reading[i].reads_kg >= promise.low_kg && w.reading[i].reads_kg <= promise.high_kg;
        }
        pare_arena_close(w.arena);
    }
    assert_between((double)held / made, 0.88, 0.92);
}

/* Readings of one thing or of two, each now and then more than once. */
static void lay_many(world *w, size_t count, uint64_t *seed)
{
    while (w->all.count < count) {
        const size_t a = (size_t)(draw_share(seed) * PIECES * 0.999);
        const size_t b = (size_t)(draw_share(seed) * PIECES * 0.999);
        pare_weigh_in *one = lay(w, a, copies[a]);
        if (a == b)
            continue;
        w->thing[w->all.count - 1][1] = (pare_weighed_thing){pieces[b], copies[b]};
        one->things = 2;
    }
}

static void clean_sets_of_500_readings_raise_no_more_alarms_than_stated(void **state)
{
    enum { SEEDS = 10, SETS = 1000 };
    fixture *f = *state;
    uint64_t seed = 0;
    int alarms = 0;
    for (int n = 0; n < SETS; n++) {
        if (n % (SETS / SEEDS) == 0)
            seed = (uint64_t)(1 + n / (SETS / SEEDS)); /* 1 to 10: none is chosen */
        world w;
        world_open(&w, f);
        lay_many(&w, READINGS - 1, &seed);
        lay_whole(&w);
        closes(&w);
        draw_truth(&w, 9e-3, &seed);
        draw_readings(&w, &seed);
        closes(&w);
        alarms += w.closure->misfits > 0;
        pare_arena_close(w.arena);
    }
    assert_true(alarms <= 0.06 * SETS);
    assert_true(alarms > 0); /* the bound is no wall either */
}

static void a_gross_error_among_500_readings_is_named(void **state)
{
    fixture *f = *state;
    uint64_t seed = 4;
    for (int n = 0; n < 20; n++) {
        world w;
        world_open(&w, f);
        lay_many(&w, READINGS, &seed);
        closes(&w);
        draw_truth(&w, 0, &seed);
        draw_readings(&w, &seed);
        const size_t wrong = (size_t)(draw_share(&seed) * READINGS * 0.999);
        w.reading[wrong].reads_kg += 1.2e-3; /* ten times what a reading is good to */
        closes(&w);
        bool named = false;
        for (size_t i = 0; i < w.closure->misfits; i++)
            named =
                named || (!w.closure->misfit[i].of_prior && w.closure->misfit[i].which == wrong);
        assert_true(named);
        assert_true(w.closure->misfits <= 2);
        pare_arena_close(w.arena);
    }
}

static void what_is_written_of_a_part_is_doubted_before_the_scale(void **state)
{
    fixture *f = *state;
    world w;
    world_open(&w, f);
    lay(&w, 0, 1);
    closes(&w);
    const pare_part *frame = f->craft->item[pare_craft_item(f->craft, "frame")].part;
    /* Twenty of its own sigmas over what the maker, or a scale, said. */
    w.reading[0].reads_kg =
        frame->mass_kg.value + 20 * frame->mass_kg.u + 0.03 * frame->mass_kg.value;
    closes(&w);
    if (frame->mass_kg.known == PARE_WEIGHED) {
        assert_int_equal(w.closure->misfits, 1);
    } else {
        assert_int_equal(w.closure->misfits, 1);
        assert_true(w.closure->misfit[0].of_prior);
        const pare_unknown *u = &w.closure->unknown[w.closure->misfit[0].which];
        assert_string_equal(u->name, frame->id);
        /* The scale counts from then on. */
        assert_near(w.closure->adjusted.value[w.closure->misfit[0].which], w.reading[0].reads_kg,
                    2e-4);
    }
    pare_arena_close(w.arena);
}

static void two_readings_that_contradict_each_other_are_both_named(void **state)
{
    fixture *f = *state;
    world w;
    world_open(&w, f);
    lay_whole(&w)->reads_kg = 0.4207;
    lay_whole(&w)->reads_kg = 0.4318;
    closes(&w);
    assert_int_equal(w.closure->misfits, 1);
    assert_false(w.closure->misfit[0].of_prior);
    assert_int_equal(w.closure->misfit[0].which + (size_t)w.closure->misfit[0].against, 1);
    pare_arena_close(w.arena);
}

static void a_maker_who_was_found_light_is_light_elsewhere(void **state)
{
    fixture *f = *state;
    world w;
    world_open(&w, f);
    /* The bench's own parts, given one maker and stated masses. */
    const int frame = pare_craft_item(f->craft, "frame"), esc = pare_craft_item(f->craft, "esc");
    const char *const ids[2] = {f->craft->item[frame].part->id, f->craft->item[esc].part->id};
    pare_part was[2];
    pare_part *part[2] = {NULL, NULL};
    for (size_t i = 0; i < f->bench->parts; i++)
        for (int k = 0; k < 2; k++)
            if (strcmp(f->bench->part[i]->id, ids[k]) == 0)
                part[k] = f->bench->part[i];
    for (int k = 0; k < 2; k++) {
        was[k] = *part[k];
        part[k]->maker = "Teasel Works";
        part[k]->mass_kg.known = PARE_STATED;
        part[k]->mass_kg.u = 0.002 * part[k]->mass_kg.value;
    }
    pare_weigh_in *one = lay(&w, 0, 1);
    one->reads_kg = 0.99 * part[0]->mass_kg.value;
    closes(&w);
    double kg = 0, u_kg = 0;
    pare_pile pile;
    const pare_weighed_thing thing = {"esc", 1};
    const pare_weigh_in ask = {.craft = "mule", .things = 1, .thing = &thing};
    assert_int_equal(pare_closure_pile(w.closure, &ask, &pile, &f->err), PARE_OK);
    pare_closure_mass(w.closure, &pile, &kg, &u_kg);
    /* By hand: bias 1 %, own 0.2 %, scale 0.1 % and a reading's u on the frame: the bias is believed
     * by 1 / (1 + 0.2^2 + 0.1^2 + (u/m)^2) of its 1 %. */
    const double reading = pare_scale_reading_u_kg(&w.scale) / part[0]->mass_kg.value / 0.01;
    const double believed = 1 / (1 + 0.04 + 0.01 + reading * reading);
    assert_within(kg, part[1]->mass_kg.value * (1 - 0.01 * believed), 1e-4);
    for (int k = 0; k < 2; k++)
        *part[k] = was[k];
    pare_arena_close(w.arena);
}

static void a_scale_held_against_a_known_mass_is_corrected(void **state)
{
    fixture *f = *state;
    world w;
    world_open(&w, f);
    /* A check of 200 g to 1 mg reads 0.4 g too much, and the scale may be off by 1 %: so 0.2 %. */
    const pare_scale_check check = {"2024-03-01", 0.2, 1e-6, 0.2004};
    w.scale.common = 0.01;
    w.scale.checks = 1;
    w.scale.check = &check;
    closes(&w);
    const size_t at = pare_closure_scale_unknown(w.closure, "letters");
    const double check_u = pare_scale_reading_u_kg(&w.scale) / 0.2;
    const double believed = 1e-4 / (1e-4 + check_u * check_u);
    assert_within(w.closure->adjusted.value[at], 0.002 * believed, 1e-3);
    assert_within(w.closure->adjusted.u[at], 0.01 * sqrt(1 - believed), 1e-2);
    pare_arena_close(w.arena);
}

static void a_reading_of_what_is_not_there_says_why_it_is_not_used(void **state)
{
    fixture *f = *state;
    world w;
    world_open(&w, f);
    lay(&w, 0, 1)->reads_kg =
        f->craft->item[pare_craft_item(f->craft, "frame")].part->mass_kg.value;
    lay(&w, 1, 4);
    w.thing[1][0].name = "moter";
    closes(&w);
    assert_null(w.closure->unused[0]);
    assert_string_equal(w.closure->unused[1], "nothing 'moter' on mule; did you mean motor?");
    assert_int_equal(w.closure->misfits, 0);
    pare_arena_close(w.arena);
}

static void an_earlier_reading_is_of_the_craft_as_it_was(void **state)
{
    fixture *f = *state;
    world w;
    world_open(&w, f);
    static pare_craft later;
    later = *f->craft;
    later.taken[0] =
        (pare_taken){.swap = "bumper=off", .date = {[PARE_STAGE_FITTED] = "2024-03-05"}};
    later.takens = 1;
    const pare_craft *first = &later;
    pare_weigh_in *one = lay_whole(&w);
    one->date = "2024-03-04";
    one->reads_kg = 0.412;
    one = lay_whole(&w);
    one->date = "2024-03-05";
    one->reads_kg = 0.404;
    const pare_closure_of of = {
        .bench = f->bench, .crafts = 1, .first = &first, .weighings = &w.all, .craft = "mule"};
    assert_int_equal(pare_closure_open(&of, w.arena, &w.closure, &f->err), PARE_OK);
    double kg[2], u_kg;
    for (size_t i = 0; i < 2; i++) {
        pare_pile pile;
        assert_int_equal(pare_closure_pile(w.closure, &w.reading[i], &pile, &f->err), PARE_OK);
        pare_closure_mass(w.closure, &pile, &kg[i], &u_kg);
    }
    assert_int_equal(w.closure->misfits, 0);
    assert_near(kg[0] - kg[1], 8e-3, 2e-5); /* four bumpers of 2 g */
    pare_arena_close(w.arena);
}

static void what_to_weigh_next_changes_with_each_reading(void **state)
{
    fixture *f = *state;
    world w;
    world_open(&w, f);
    pare_weigh_list list;
    double before = 1;
    const char *last = "";
    for (int n = 0; n < 4; n++) {
        closes(&w);
        assert_int_equal(pare_weigh_next(w.closure, "mule", 0, &w.scale, 3, &list, &f->err),
                         PARE_OK);
        assert_true(list.count > 0);
        assert_string_not_equal(list.choice[0].name, last);
        assert_true(list.choice[0].left_kg < list.now_kg);
        /* What it said would be left is what is left: readings do not change the doubt by what they say. */
        if (n)
            assert_within(list.now_kg, before, 0.02);
        before = list.choice[0].left_kg;
        last = list.choice[0].name;
        pare_weigh_in *one = lay(&w, 0, list.choice[0].count);
        w.thing[w.all.count - 1][0].name = last;
        one->reads_kg = list.choice[0].promise.kg;
    }
    pare_arena_close(w.arena);
}

/* A limit of mass in the place of all that the craft's brief has. */
static void put_limit(pare_craft *craft, double kg)
{
    craft->brief.limits = 1;
    craft->brief.limit[0] = (pare_limit){.key = "all_up", .value = kg};
}

static void a_limit_that_is_near_asks_for_the_whole_craft(void **state)
{
    fixture *f = *state;
    const pare_craft *as_it_was = f->craft;
    pare_craft *limited = pare_arena_zeros(f->bench->arena, sizeof *limited);
    assert_non_null(limited);
    *limited = *as_it_was;
    f->craft = limited;
    world w;
    world_open(&w, f);
    pare_weigh_list list;
    pare_pile pile;
    closes(&w);
    assert_int_equal(pare_closure_now(w.closure, "mule", 0, &pile, &f->err), PARE_OK);
    const pare_promise mass = pare_promise_of(w.closure, &pile, NULL);
    const double middle_kg = (mass.low_kg + mass.high_kg) / 2;
    /* Far from it, either way, doubt about all-up mass is what counts. */
    for (int way = -1; way <= 1; way += 2) {
        put_limit(limited, middle_kg + way * 0.2);
        closes(&w);
        assert_int_equal(pare_weigh_next(w.closure, "mule", 0, &w.scale, 3, &list, &f->err),
                         PARE_OK);
        assert_int_equal(list.by, PARE_WEIGH_FOR_ALL_UP);
        assert_string_not_equal(list.choice[0].name, "whole");
    }
    /* Near it: parts tell nothing of solder, the whole craft tells all but a reading's own doubt. */
    put_limit(limited, middle_kg);
    closes(&w);
    assert_int_equal(pare_weigh_next(w.closure, "mule", 0, &w.scale, 3, &list, &f->err), PARE_OK);
    assert_int_equal(list.by, PARE_WEIGH_FOR_CHANCE);
    assert_string_equal(list.choice[0].name, "whole");
    const double chance = pare_promise_chance(&mass, middle_kg);
    assert_near(list.now_right, fmax(chance, 1 - chance), 1e-6);
    assert_true(list.choice[0].right > 0.9);
    for (size_t i = 1; i < list.count; i++)
        assert_true(list.choice[i].right >= list.choice[i - 1].right - 1e-3);
    /* Once it was weighed, and the limit is where it is, its own reading is the same again. */
    pare_weigh_in *one = lay(&w, 0, 1);
    *one = (pare_weigh_in){.craft = "mule",
                           .date = "2024-03-10",
                           .scale = "letters",
                           .all = true,
                           .reads = "as drawn",
                           .reads_kg = middle_kg};
    closes(&w);
    assert_int_equal(pare_weigh_next(w.closure, "mule", 0, &w.scale, 3, &list, &f->err), PARE_OK);
    assert_int_equal(list.by, PARE_WEIGH_FOR_CHANCE);
    assert_between(list.now_right, 0.5, 0.6);
    f->craft = as_it_was;
    pare_arena_close(w.arena);
}

static void a_craft_that_was_never_weighed_is_promised_with_solder(void **state)
{
    fixture *f = *state;
    world w;
    world_open(&w, f);
    closes(&w);
    pare_pile pile;
    assert_int_equal(pare_closure_now(w.closure, "mule", 0, &pile, &f->err), PARE_OK);
    const pare_promise promise = pare_promise_of(w.closure, &pile, &w.scale);
    assert_true(promise.allowed);
    /* The middle of 5 to 15 g on top, and never less than the parts: the interval leans upwards. */
    assert_between(promise.low_kg - promise.kg, 3e-3, 9e-3);
    assert_between(promise.high_kg - promise.kg, 12e-3, 20e-3);
    assert_near(pare_promise_chance(&promise, promise.high_kg), 0.95, 1e-6);
    assert_near(pare_promise_chance(&promise, promise.low_kg), 0.05, 1e-6);
    pare_arena_close(w.arena);
}

/* Screws that were changed after the reading weigh what geometry says, those on the scale what it said. */
static void no_weighing_speaks_of_what_came_after_it(void **state)
{
    fixture *f = *state;
    world w;
    world_open(&w, f);
    lay(&w, 11, 16)->reads_kg = 0.02;
    closes(&w);
    pare_craft *later = malloc(sizeof *later);
    assert_non_null(later);
    pare_craft_copy(f->craft, later);
    const pare_weighed *weighed = NULL;
    size_t base = 0;
    while (strcmp(later->joint[base].name, "motor_base") != 0)
        base++;
    for (int changed = 0; changed < 2; changed++) {
        if (changed)
            later->joint[base].length_m *= 0.5;
        if (pare_weighed_make(w.closure, later, w.arena, &weighed, &f->err) != PARE_OK)
            fail_msg("%s", f->err.text);
        if (changed)
            assert_int_equal(weighed->joint[base], weighed->masses);
        else
            assert_near(weighed->mass[weighed->joint[base]].kg, 0.02 / 16, 2e-5);
    }
    free(later);
    pare_arena_close(w.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(closure_intervals_hold_as_often_as_they_say),
        cmocka_unit_test(promises_hold_as_often_as_they_say),
        cmocka_unit_test(clean_sets_of_500_readings_raise_no_more_alarms_than_stated),
        cmocka_unit_test(a_gross_error_among_500_readings_is_named),
        cmocka_unit_test(what_is_written_of_a_part_is_doubted_before_the_scale),
        cmocka_unit_test(two_readings_that_contradict_each_other_are_both_named),
        cmocka_unit_test(a_maker_who_was_found_light_is_light_elsewhere),
        cmocka_unit_test(a_scale_held_against_a_known_mass_is_corrected),
        cmocka_unit_test(a_reading_of_what_is_not_there_says_why_it_is_not_used),
        cmocka_unit_test(an_earlier_reading_is_of_the_craft_as_it_was),
        cmocka_unit_test(what_to_weigh_next_changes_with_each_reading),
        cmocka_unit_test(a_limit_that_is_near_asks_for_the_whole_craft),
        cmocka_unit_test(a_craft_that_was_never_weighed_is_promised_with_solder),
        cmocka_unit_test(no_weighing_speaks_of_what_came_after_it),
    };
    return cmocka_run_group_tests(tests, fixture_open, fixture_close);
}
