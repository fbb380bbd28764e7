/* rooms: craft physics base */
/* part.c: names, specs, interfaces, and the completing of a part. */
#include "near.h"

#include <math.h>
#include <string.h>

#include "craft/law.h"
#include "craft/part.h"

#define MM   1e-3
#define INCH 0.0254
#define GRAM 1e-3
#define MAH  3.6

static pare_arena *arena;

static int open_arena(void **state)
{
    (void)state;
    arena = pare_arena_open();
    return arena ? 0 : -1;
}

static int close_arena(void **state)
{
    (void)state;
    pare_arena_close(arena);
    return 0;
}

static pare_value said(double value)
{
    return (pare_value){value, 0, PARE_STATED, true};
}

static pare_part a_motor(void)
{
    pare_part part = {.id = "mo", .kind = PARE_MOTOR};
    part.spec[PARE_SPEC_STATOR_DIAMETER] = said(22 * MM);
    part.spec[PARE_SPEC_STATOR_LENGTH] = said(7 * MM);
    part.spec[PARE_SPEC_KV] = said(1750);
    return part;
}

static pare_part a_pack(void)
{
    pare_part part = {.id = "pa", .kind = PARE_PACK, .chemistry = PARE_LIPO};
    part.spec[PARE_SPEC_CELLS] = said(4);
    part.spec[PARE_SPEC_CAPACITY] = said(1300 * MAH);
    return part;
}

static pare_part a_propeller(void)
{
    pare_part part = {.id = "pr", .kind = PARE_PROPELLER};
    part.spec[PARE_SPEC_DIAMETER] = said(5.1 * INCH);
    part.spec[PARE_SPEC_PITCH] = said(4.3 * INCH);
    part.spec[PARE_SPEC_BLADES] = said(3);
    return part;
}

static void set_fit(pare_fit *fit, double low, double high)
{
    fit->any[fit->count].low = low;
    fit->any[fit->count].high = high;
    fit->any[fit->count++].word = NULL;
}

static pare_part a_frame(void)
{
    pare_part part = {.id = "fr", .kind = PARE_FRAME};
    set_fit(&part.fit[PARE_FIT_PROPELLER], 3 * INCH, 5.1 * INCH);
    return part;
}

static void refused(pare_part part, const char *text)
{
    pare_error err = {0};
    assert_int_equal(pare_part_complete(&part, arena, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, text);
}

static void completed(pare_part *part)
{
    pare_error err = {0};
    if (pare_part_complete(part, arena, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

/* ---- names ---- */

static void every_name_reads_back(void **state)
{
    (void)state;
    for (int i = 0; i < PARE_KINDS; i++) {
        assert_int_equal(pare_kind_named(pare_kind_name((pare_kind)i)), i);
        assert_true(strlen(pare_kind_words((pare_kind)i)) > 0);
        assert_non_null(pare_system_name(pare_kind_system((pare_kind)i)));
    }
    for (int i = 0; i < PARE_JOBS; i++)
        assert_int_equal(pare_job_named(pare_job_name((pare_job)i)), i);
    for (int i = 0; i < PARE_KNOWNS; i++)
        assert_int_equal(pare_known_named(pare_known_name((pare_known)i)), i);
    for (int i = 0; i < PARE_FITS; i++)
        assert_int_equal(pare_fit_named(pare_fit_name((pare_fit_key)i)), i);
    assert_int_equal(pare_kind_named("wing"), -1);
    assert_int_equal(pare_kind_named(""), -1);
    assert_int_equal(pare_job_named("motor"), -1);
    assert_int_equal(pare_known_named("guessed"), -1);
    assert_int_equal(pare_fit_named("stator"), -1);
}

static void a_capacitor_and_an_undescribed_part_fly(void **state)
{
    (void)state;
    assert_int_equal(pare_kind_job(PARE_CAPACITOR), PARE_FLIES);
    assert_int_equal(pare_kind_job(PARE_OTHER), PARE_FLIES);
    assert_int_equal(pare_kind_job(PARE_BUMPER), PARE_PROTECTS);
    assert_int_equal(pare_kind_job(PARE_GPS), PARE_FINDS);
    assert_int_equal(pare_kind_job(PARE_ACTION_CAMERA), PARE_FILMS);
    assert_int_equal(pare_kind_job(PARE_ADAPTER), PARE_SEES);
    assert_int_equal(pare_kind_job(PARE_TIE), PARE_HOLDS);
}

/* ---- the table ---- */

static void each_row_of_the_table_can_be_found_and_makes_sense(void **state)
{
    (void)state;
    for (size_t i = 0; i < pare_spec_rows; i++) {
        const pare_spec_row *row = &pare_spec_table[i];
        assert_ptr_equal(pare_spec_find(row->kind, row->spec), row);
        assert_true(row->low < row->high);
        assert_true(row->stated_share >= 0 && row->stated_share <= 0.5);
        const pare_spec_row *named = pare_spec_named(row->kind, row->name);
        /* A shared name gives the first of the two, and the second follows it. */
        assert_true(named == row || named + 1 == row);
        assert_string_equal(named->name, row->name);
    }
    assert_null(pare_spec_find(PARE_STRAP, PARE_SPEC_KV));
    assert_null(pare_spec_named(PARE_MOTOR, "cells"));
}

static void every_spec_stands_in_the_table(void **state)
{
    (void)state;
    for (int spec = 0; spec < PARE_SPECS; spec++) {
        bool found = false;
        for (size_t i = 0; i < pare_spec_rows; i++)
            found = found || pare_spec_table[i].spec == (pare_spec)spec;
        assert_true(found);
    }
}

/* ---- interfaces ---- */

static void what_is_not_stated_never_forbids(void **state)
{
    (void)state;
    pare_fit none = {0}, some = {0};
    set_fit(&some, 16 * MM, 16 * MM);
    assert_true(pare_fit_agrees(&none, &some));
    assert_true(pare_fit_agrees(&some, &none));
    assert_true(pare_fit_agrees(&none, &none));
}

static void sizes_agree_within_rounding_only(void **state)
{
    (void)state;
    static const struct {
        double a_mm, b_mm;
        bool agree;
    } row[] = {
        {16, 16, true},     {16, 16.15, true},   {16, 19, false},
        {2, 2.5, false},    {1.6, 2, false},     {30, 30.5, false},
        {25.4, 25.5, true}, {129.54, 130, true}, {127, 129.54, false},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        pare_fit a = {0}, b = {0};
        set_fit(&a, row[i].a_mm * MM, row[i].a_mm * MM);
        set_fit(&b, row[i].b_mm * MM, row[i].b_mm * MM);
        assert_int_equal(pare_fit_agrees(&a, &b), row[i].agree);
        assert_int_equal(pare_fit_agrees(&b, &a), row[i].agree);
    }
}

static void a_value_agrees_with_a_range_that_holds_it_and_with_any_of_a_list(void **state)
{
    (void)state;
    pare_fit range = {0}, inside = {0}, outside = {0}, list = {0}, nineteen = {0};
    set_fit(&range, 3 * INCH, 5.2 * INCH);
    set_fit(&inside, 5.1 * INCH, 5.1 * INCH);
    set_fit(&outside, 5.3 * INCH, 5.3 * INCH);
    assert_true(pare_fit_agrees(&range, &inside));
    assert_true(pare_fit_agrees(&inside, &range));
    assert_false(pare_fit_agrees(&range, &outside));
    set_fit(&list, 16 * MM, 16 * MM);
    set_fit(&list, 19 * MM, 19 * MM);
    set_fit(&nineteen, 19 * MM, 19 * MM);
    assert_true(pare_fit_agrees(&list, &nineteen));
    assert_true(pare_fit_agrees(&nineteen, &list));
}

static void words_agree_when_equal_and_never_with_a_number(void **state)
{
    (void)state;
    const pare_fit snap = {1, {{0, 0, "snap"}}}, also = {1, {{0, 0, "snap"}}};
    const pare_fit screw = {1, {{0, 0, "screw"}}}, zero = {1, {{0, 0, NULL}}};
    assert_true(pare_fit_agrees(&snap, &also));
    assert_false(pare_fit_agrees(&snap, &screw));
    assert_false(pare_fit_agrees(&snap, &zero));
}

/* ---- what a part does ---- */

static void both_on_one_board_does_both_works_and_the_other_way_round(void **state)
{
    (void)state;
    const pare_part both = {.kind = PARE_CONTROLLER_WITH_ESC};
    assert_true(pare_part_does(&both, PARE_CONTROLLER_WITH_ESC));
    assert_true(pare_part_does(&both, PARE_FLIGHT_CONTROLLER));
    assert_true(pare_part_does(&both, PARE_ESC_FOUR));
    assert_false(pare_part_does(&both, PARE_REGULATOR));
    pare_part board = {.kind = PARE_FLIGHT_CONTROLLER};
    assert_false(pare_part_does(&board, PARE_ESC_FOUR));
    assert_false(pare_part_does(&board, PARE_CONTROLLER_WITH_ESC));
    board.does = 1u << PARE_ESC_FOUR;
    assert_true(pare_part_does(&board, PARE_FLIGHT_CONTROLLER));
    assert_true(pare_part_does(&board, PARE_CONTROLLER_WITH_ESC));
}

/* ---- refusals ---- */

static void a_value_out_of_its_range_is_refused_with_the_range(void **state)
{
    (void)state;
    pare_part motor = a_motor();
    motor.spec[PARE_SPEC_KV].value = 5;
    refused(motor, "kv is 5 rpm/V, must be 20 .. 40000 rpm/V");
    motor.spec[PARE_SPEC_KV].value = NAN;
    refused(motor, "kv is nan rpm/V, must be 20 .. 40000 rpm/V");
    motor.spec[PARE_SPEC_KV].value = INFINITY;
    refused(motor, "kv is inf rpm/V, must be 20 .. 40000 rpm/V");
    motor = a_motor();
    motor.spec[PARE_SPEC_RESISTANCE] = said(62);
    refused(motor, "resistance is 62000 mohm, must be 1 .. 10000 mohm");
    pare_part pack = a_pack();
    pack.spec[PARE_SPEC_CAPACITY].value = 1300 * 3600;
    refused(pack, "capacity is 1.3e+06 mAh, must be 10 .. 100000 mAh");
    pack = a_pack();
    pack.spec[PARE_SPEC_CELLS].value = 4.5;
    refused(pack, "cells is 4.5, must be a whole number");
    pack.spec[PARE_SPEC_CELLS].value = 0;
    refused(pack, "cells is 0, must be 1 .. 14");
    pare_part propeller = a_propeller();
    propeller.spec[PARE_SPEC_BLADES].value = 1;
    refused(propeller, "blades is 1, must be 2 .. 8");
}

static void a_mass_out_of_range_is_refused(void **state)
{
    (void)state;
    pare_part motor = a_motor();
    motor.mass_kg = said(31.4);
    refused(motor, "mass is 31400 g, must be 0.001 .. 25000 g");
    motor.mass_kg = said(-0.03);
    refused(motor, "mass is -30 g, must be 0.001 .. 25000 g");
    motor.mass_kg = said(0);
    refused(motor, "mass is 0 g, must be 0.001 .. 25000 g");
    motor.mass_kg = (pare_value){0.03, -0.001, PARE_STATED, true};
    refused(motor, "mass has an uncertainty of -1 g, must be 0 or more");
    motor.mass_kg.u = NAN;
    pare_error err;
    assert_int_equal(pare_part_complete(&motor, arena, &err), PARE_BAD_DATA);
}

static void a_needed_spec_that_is_missing_is_named(void **state)
{
    (void)state;
    pare_part motor = a_motor();
    motor.spec[PARE_SPEC_KV].given = false;
    refused(motor, "kv is missing: a part of kind motor needs it (20 .. 40000 rpm/V)");
    motor = a_motor();
    motor.spec[PARE_SPEC_STATOR_DIAMETER].given = false;
    refused(motor, "stator is missing: a part of kind motor needs it (3 .. 150 mm)");
    const pare_part esc = {.kind = PARE_ESC_FOUR};
    refused(esc, "continuous is missing: a part of kind esc_four needs it (0.5 .. 500 A)");
    pare_part board = {.kind = PARE_FLIGHT_CONTROLLER, .does = 1u << PARE_ESC_FOUR};
    refused(board,
            "continuous is missing: a part of kind flight_controller needs it (0.5 .. 500 A)");
    board.does = 0;
    completed(&board);
    const pare_part capacitor = {.kind = PARE_CAPACITOR};
    refused(capacitor, "volts is missing: a part of kind capacitor needs it (1 .. 500 V)");
}

static void a_spec_of_another_kind_is_refused(void **state)
{
    (void)state;
    pare_part strap = {.kind = PARE_STRAP};
    strap.spec[PARE_SPEC_KV] = said(1750);
    refused(strap, "a part of kind strap has no kv");
}

static void figures_that_contradict_each_other_are_refused(void **state)
{
    (void)state;
    pare_part motor = a_motor();
    motor.spec[PARE_SPEC_VOLTS_LOW] = said(25);
    motor.spec[PARE_SPEC_VOLTS_HIGH] = said(11);
    refused(motor, "volts run backwards: 25 V .. 11 V");
    motor = a_motor();
    motor.spec[PARE_SPEC_NO_LOAD_AT] = said(12);
    refused(motor,
            "no_load_at is 12 V without no_load: give the current at those volts, or neither");
    pare_part esc = {.kind = PARE_ESC_FOUR};
    esc.spec[PARE_SPEC_CONTINUOUS] = said(45);
    esc.spec[PARE_SPEC_BURST] = said(40);
    refused(esc, "burst is 40 A, must be no less than continuous, 45 A");
}

static void interfaces_that_cannot_be_are_refused(void **state)
{
    (void)state;
    pare_part motor = a_motor();
    set_fit(&motor.fit[PARE_FIT_BOLT_CIRCLE], 16, 16);
    refused(motor, "fits: bolt_circle is 16000 mm, must be 2 .. 200 mm");
    pare_part frame = a_frame();
    frame.fit[PARE_FIT_PROPELLER].any[0].low = 6 * INCH;
    refused(frame, "fits: propeller runs backwards");
    frame = a_frame();
    frame.fit[PARE_FIT_STACK] = (pare_fit){1, {{0, 0, "snap"}}};
    refused(frame, "fits: stack must be a number");
    pare_part antenna = {.kind = PARE_ANTENNA};
    set_fit(&antenna.fit[PARE_FIT_ANTENNA], 3, 3);
    refused(antenna, "fits: antenna must be a word: snap, screw or solder");
}

static void bodies_that_cannot_be_are_refused(void **state)
{
    (void)state;
    const pare_vec3 at[4] = {{80 * MM, 80 * MM, 0},
                             {80 * MM, -80 * MM, 0},
                             {-80 * MM, -80 * MM, 0},
                             {-80 * MM, 80 * MM, 0}};
    pare_piece piece = {.form = PARE_FORM_ARMS,
                        .places = 3,
                        .at_m = at,
                        .root_m = 26 * MM,
                        .section_m = {12 * MM, 5 * MM}};
    pare_part frame = a_frame();
    frame.pieces = 1;
    frame.piece = &piece;
    refused(frame, "body: arms name 3 motor axes, must be 4 or more, front left first, clockwise "
                   "from above");
    piece.places = 4;
    piece.root_m = 0.2;
    refused(frame,
            "body: an arm's root is 200 mm from the middle, must be less than its motor axis, "
            "113.137 mm");
    piece.root_m = 26 * MM;
    piece.section_m[1] = 0;
    refused(frame, "body: an arm's thickness is 0 mm, must be 0.5 .. 100 mm");
    piece = (pare_piece){.form = PARE_FORM_SHAPE,
                         .shape = PARE_SHAPE_TUBE,
                         .size_m = {3 * MM, 5 * MM, 10 * MM},
                         .density_kg_m3 = 2700};
    pare_error err = {0};
    assert_int_equal(pare_part_complete(&frame, arena, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "body: "));
    piece = (pare_piece){
        .form = PARE_FORM_SHAPE, .shape = PARE_SHAPE_SPHERE, .size_m = {1}, .density_kg_m3 = -1};
    refused(frame, "body: density is -0.001 g/cm3, must be 0 .. 25 g/cm3");
}

static void prices_and_includes_that_cannot_be_are_refused(void **state)
{
    (void)state;
    pare_part motor = a_motor();
    motor.price = (pare_price){.given = true, .each = -3, .sold_in = 1};
    refused(motor, "price: each is -3, must be 0 .. 1e+07");
    motor = a_motor();
    motor.owned = -1;
    refused(motor, "owned is -1, must be 0 .. 1e+06");
    const pare_include wire = {.what = PARE_INCLUDES_RUN, .count = 0, .gauge = 20};
    motor = a_motor();
    motor.includes = 1;
    motor.include = &wire;
    refused(motor, "includes: count is 0, must be 1 .. 1000");
}

static void a_frame_without_any_size_says_what_would_do(void **state)
{
    (void)state;
    const pare_part frame = {.kind = PARE_FRAME};
    refused(frame, "wheelbase is missing: a frame needs it, or its arms in body, or the propeller "
                   "that it fits");
}

static void a_mass_that_nothing_fills_is_an_error(void **state)
{
    (void)state;
    const pare_part other = {.kind = PARE_OTHER}, printed = {.kind = PARE_PRINTED};
    refused(other, "mass is missing, and no law knows it for a part of kind other: say mass: 12 g, "
                   "or give a body with its density");
    refused(printed,
            "mass is missing, and no law knows it for a part of kind printed: say mass: 12 "
            "g, or give a body with its density");
}

static void a_propeller_steeper_than_two_diameters_is_refused(void **state)
{
    (void)state;
    pare_part propeller = a_propeller();
    propeller.spec[PARE_SPEC_PITCH].value = 12 * INCH;
    pare_error err = {0};
    assert_int_equal(pare_part_complete(&propeller, arena, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "pitch"));
}

/* ---- filling ---- */

static void what_a_law_fills_is_marked_and_what_was_said_stays(void **state)
{
    (void)state;
    pare_part motor = a_motor();
    motor.spec[PARE_SPEC_NO_LOAD] = said(1.3);
    motor.mass_kg = (pare_value){31.4 * GRAM, 0.3 * GRAM, PARE_WEIGHED, true};
    completed(&motor);
    const pare_typical ohm = pare_law_winding_ohm(1750, 22 * MM, 7 * MM);
    assert_true(motor.spec[PARE_SPEC_RESISTANCE].value == ohm.value);
    assert_true(motor.spec[PARE_SPEC_RESISTANCE].u == ohm.u);
    assert_int_equal(motor.spec[PARE_SPEC_RESISTANCE].known, PARE_ESTIMATED);
    assert_false(motor.spec[PARE_SPEC_RESISTANCE].given);
    assert_true(motor.spec[PARE_SPEC_NO_LOAD].value == 1.3);
    assert_int_equal(motor.spec[PARE_SPEC_NO_LOAD].known, PARE_STATED);
    assert_true(motor.mass_kg.value == 31.4 * GRAM && motor.mass_kg.u == 0.3 * GRAM);
    assert_true(pare_part_filled(&motor) ==
                (1ull << PARE_SPEC_RESISTANCE | 1ull << PARE_SPEC_NO_LOAD_AT |
                 1ull << PARE_SPEC_SCREW_DEPTH));
    /* Its volts were not said, so they are hardly known. */
    assert_true(motor.spec[PARE_SPEC_NO_LOAD_AT].value == 10);
    assert_true(motor.spec[PARE_SPEC_NO_LOAD_AT].u > 1);
}

static void every_by_law_spec_has_a_value_once_complete(void **state)
{
    (void)state;
    for (int kind = 0; kind < PARE_KINDS; kind++) {
        pare_part part = {.id = "x", .kind = (pare_kind)kind, .mass_kg = said(0.02)};
        for (size_t i = 0; i < pare_spec_rows; i++) {
            const pare_spec_row *row = &pare_spec_table[i];
            if (row->kind == part.kind && row->need == PARE_NEEDED)
                part.spec[row->spec] = said(
                    row->dimension == PARE_DIM_COUNT ? 3 : fmin(sqrt(row->low * row->high), 2000));
        }
        if (kind == PARE_FRAME)
            set_fit(&part.fit[PARE_FIT_PROPELLER], 5 * INCH, 5 * INCH);
        completed(&part);
        for (size_t i = 0; i < pare_spec_rows; i++) {
            const pare_spec_row *row = &pare_spec_table[i];
            if (row->kind != part.kind || row->need != PARE_BY_LAW)
                continue;
            assert_between(part.spec[row->spec].value, row->low, row->high);
            assert_true(part.spec[row->spec].value > 0);
            assert_true(pare_part_filled(&part) >> row->spec & 1);
        }
        assert_false(pare_part_filled(&part) & PARE_FILLED_MASS);
        assert_true(part.pieces > 0);
        assert_true(part.body_estimated);
        assert_true(pare_part_does(&part, (pare_kind)kind));
    }
}

static void every_kind_but_printed_and_other_gets_a_mass_by_law(void **state)
{
    (void)state;
    for (int kind = 0; kind < PARE_KINDS; kind++) {
        if (kind == PARE_PRINTED || kind == PARE_OTHER)
            continue;
        pare_part part = {.id = "x", .kind = (pare_kind)kind};
        part.spec[PARE_SPEC_CONTINUOUS] =
            pare_spec_find(part.kind, PARE_SPEC_CONTINUOUS) ? said(40) : (pare_value){0};
        if (kind == PARE_MOTOR)
            part = a_motor();
        else if (kind == PARE_PACK)
            part = a_pack();
        else if (kind == PARE_PROPELLER)
            part = a_propeller();
        else if (kind == PARE_FRAME)
            part = a_frame();
        else if (kind == PARE_CAPACITOR)
            part.spec[PARE_SPEC_VOLTS_HIGH] = said(35);
        completed(&part);
        assert_true(part.mass_kg.value > 0 && part.mass_kg.u > 0);
        assert_true(part.mass_kg.u < part.mass_kg.value);
        assert_int_equal(part.mass_kg.known, PARE_ESTIMATED);
        assert_true(pare_part_filled(&part) & PARE_FILLED_MASS);
    }
}

static void a_maker_who_states_no_mass_has_a_heavy_part(void **state)
{
    (void)state;
    pare_part nobody = a_motor(), maker = a_motor();
    maker.maker = "Teasel Works";
    completed(&nobody);
    completed(&maker);
    const pare_typical law = pare_law_motor_kg(22 * MM, 7 * MM);
    assert_within(nobody.mass_kg.value, law.value, 1e-12);
    assert_within(maker.mass_kg.value, law.value + law.u / 2, 1e-12);
    assert_within(maker.mass_kg.u, law.u, 1e-12);
}

static void a_law_that_does_not_reach_says_so(void **state)
{
    (void)state;
    pare_part pack = a_pack();
    pack.spec[PARE_SPEC_CELLS].value = 14;
    pack.spec[PARE_SPEC_CAPACITY].value = 100000 * MAH;
    pare_error err = {0};
    assert_int_equal(pare_part_complete(&pack, arena, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "mass comes out as 38546 g, must be 0.001 .. 25000 g"));
    pare_part motor = a_motor();
    motor.spec[PARE_SPEC_STATOR_DIAMETER].value = 3 * MM;
    motor.spec[PARE_SPEC_STATOR_LENGTH].value = 1 * MM;
    motor.spec[PARE_SPEC_KV].value = 100;
    refused(motor, "resistance is missing, and no law reaches a part of this size: say it");
}

static void a_digital_transmitter_draws_more_than_an_analogue_one(void **state)
{
    (void)state;
    pare_part analogue = {.kind = PARE_VIDEO_TRANSMITTER, .mass_kg = said(5 * GRAM)};
    pare_part digital = {.kind = PARE_VIDEO_TRANSMITTER, .does = 1u << PARE_CAMERA};
    completed(&analogue);
    completed(&digital);
    assert_near(analogue.spec[PARE_SPEC_POWER].value, 4, 1e-12);
    assert_true(digital.spec[PARE_SPEC_POWER].value > 1.5 * analogue.spec[PARE_SPEC_POWER].value);
    assert_between(1e3 * digital.mass_kg.value, 17, 45);
}

/* ---- uncertainty ---- */

static double usual_u_g(double mass_g, pare_known known)
{
    pare_part part = {.kind = PARE_STRAP, .mass_kg = {mass_g * GRAM, 0, known, true}};
    completed(&part);
    return part.mass_kg.u / GRAM;
}

static void a_mass_without_its_uncertainty_gets_the_usual_one(void **state)
{
    (void)state;
    assert_within(usual_u_g(10, PARE_WEIGHED), hypot(0.1, 0.01), 1e-12);
    assert_within(usual_u_g(1000, PARE_WEIGHED), hypot(0.1, 1), 1e-12);
    assert_within(usual_u_g(10, PARE_STATED), 0.3, 1e-12);
    assert_within(usual_u_g(100, PARE_STATED), 2, 1e-12);
    assert_within(usual_u_g(0.4, PARE_STATED), 0.1, 1e-12);
    assert_within(usual_u_g(10, PARE_COMPUTED), 0.8, 1e-12);
    assert_within(usual_u_g(10, PARE_ESTIMATED), 1, 1e-12);
}

static void a_stated_figure_without_its_uncertainty_gets_its_rows_share(void **state)
{
    (void)state;
    pare_part motor = a_motor();
    motor.spec[PARE_SPEC_RESISTANCE] = said(0.062);
    motor.spec[PARE_SPEC_VOLTS_HIGH] = said(25.5);
    motor.spec[PARE_SPEC_KV].u = 10;
    completed(&motor);
    assert_within(motor.spec[PARE_SPEC_RESISTANCE].u, 0.15 * 0.062, 1e-12);
    assert_true(motor.spec[PARE_SPEC_KV].u == 10);
    assert_true(motor.spec[PARE_SPEC_VOLTS_HIGH].u == 0);
}

/* ---- geometry ---- */

static pare_piece a_mesh(double wall_m, double infill)
{
    /* A 10 x 20 x 30 mm block. */
    return (pare_piece){
        .form = PARE_FORM_MESH,
        .file = "block.stl",
        .density_kg_m3 = 1240,
        .places = 1,
        .wall_m = wall_m,
        .infill = infill,
        .measured = true,
        .mesh = {.volume_m3 = 6e-6, .area_m2 = 2.2e-3},
    };
}

static void a_printed_part_weighs_its_shell_and_its_infill(void **state)
{
    (void)state;
    pare_piece mesh = a_mesh(1 * MM, 0.2);
    pare_part part = {.id = "bu", .kind = PARE_PRINTED, .pieces = 1, .piece = &mesh};
    completed(&part);
    /* Shell 2.2 cm3, of the rest of 3.8 cm3 a fifth; 1.24 g/cm3. */
    assert_within(part.mass_kg.value, 1.24 * GRAM * (2.2 + 0.2 * 3.8), 1e-12);
    assert_int_equal(part.mass_kg.known, PARE_COMPUTED);
    assert_within(part.mass_kg.u, 0.08 * part.mass_kg.value, 1e-12);
    assert_false(part.mass_kg.given);
    assert_false(part.body_estimated);
    assert_true(pare_part_filled(&part) == 0);

    mesh = a_mesh(0, 0.2);
    pare_part solid = {.id = "bu", .kind = PARE_PRINTED, .pieces = 1, .piece = &mesh};
    completed(&solid);
    assert_within(solid.mass_kg.value, 1.24 * GRAM * 6, 1e-12);
}

static void an_open_mesh_gives_an_estimate_and_an_unread_one_nothing(void **state)
{
    (void)state;
    pare_piece mesh = a_mesh(1 * MM, 0.2);
    mesh.mesh.estimated = 1;
    pare_part open = {.id = "bu", .kind = PARE_PRINTED, .pieces = 1, .piece = &mesh};
    completed(&open);
    assert_int_equal(open.mass_kg.known, PARE_ESTIMATED);
    assert_true(open.mass_kg.u > 0.2 * open.mass_kg.value);
    mesh.measured = false;
    pare_part unread = {.id = "bu", .kind = PARE_BUMPER, .pieces = 1, .piece = &mesh};
    completed(&unread);
    assert_within(unread.mass_kg.value, 2 * GRAM, 1e-12);
    unread = (pare_part){.id = "bu", .kind = PARE_PRINTED, .pieces = 1, .piece = &mesh};
    pare_error err;
    assert_int_equal(pare_part_complete(&unread, arena, &err), PARE_BAD_DATA);
}

static void shapes_of_a_known_material_weigh_themselves_but_a_motors_do_not(void **state)
{
    (void)state;
    const pare_vec3 at[2] = {{0}, {1, 0, 0}};
    const pare_piece box = {.form = PARE_FORM_SHAPE,
                            .shape = PARE_SHAPE_BOX,
                            .size_m = {10 * MM, 10 * MM, 10 * MM},
                            .density_kg_m3 = 2000,
                            .places = 2,
                            .at_m = at};
    pare_part holder = {.id = "ho", .kind = PARE_HOLDER, .pieces = 1, .piece = &box};
    completed(&holder);
    assert_within(holder.mass_kg.value, 4 * GRAM, 1e-12);
    assert_int_equal(holder.mass_kg.known, PARE_COMPUTED);
    pare_part motor = a_motor();
    motor.pieces = 1;
    motor.piece = &box;
    completed(&motor);
    assert_int_equal(motor.mass_kg.known, PARE_ESTIMATED);
    assert_within(motor.mass_kg.value, pare_law_motor_kg(22 * MM, 7 * MM).value, 1e-12);
}

static void a_drawn_frame_weighs_its_arms_and_plates_and_knows_its_wheelbase(void **state)
{
    (void)state;
    const pare_vec3 at[4] = {{80 * MM, 80 * MM, 0},
                             {80 * MM, -80 * MM, 0},
                             {-80 * MM, -80 * MM, 0},
                             {-80 * MM, 80 * MM, 0}};
    const pare_piece pieces[2] = {
        {.form = PARE_FORM_ARMS,
         .places = 4,
         .at_m = at,
         .root_m = 26 * MM,
         .section_m = {12 * MM, 5 * MM}},
        {.form = PARE_FORM_PLATE, .size_m = {130 * MM, 38 * MM, 2 * MM}, .places = 1, .at_m = at},
    };
    pare_part frame = {.id = "fr", .kind = PARE_FRAME, .pieces = 2, .piece = pieces};
    completed(&frame);
    const double arms_m3 = 4 * (80 * MM * sqrt(2) - 26 * MM) * 12 * MM * 5 * MM;
    const double plate_m3 = 130 * MM * 38 * MM * 2 * MM;
    assert_within(frame.mass_kg.value, 1600 * (arms_m3 + plate_m3), 1e-12);
    assert_within(frame.spec[PARE_SPEC_WHEELBASE].value, 160 * MM * sqrt(2), 1e-12);
    assert_int_equal(frame.spec[PARE_SPEC_WHEELBASE].known, PARE_COMPUTED);
    /* Each piece has a density now, and the caller's own pieces are as they were. */
    assert_true(frame.piece != pieces && frame.piece[0].density_kg_m3 == 1600);
    assert_int_equal(frame.piece[1].shape, PARE_SHAPE_BOX);
    assert_true(pieces[0].density_kg_m3 == 0);
}

static void a_frame_without_a_body_has_four_arms_on_its_wheelbase(void **state)
{
    (void)state;
    pare_part frame = a_frame();
    completed(&frame);
    assert_within(frame.spec[PARE_SPEC_WHEELBASE].value, 0.0445 * 5.1, 1e-12);
    assert_true(frame.body_estimated);
    const pare_piece *arms = &frame.piece[0];
    assert_int_equal(arms->form, PARE_FORM_ARMS);
    assert_int_equal(arms->places, 4);
    static const int x[4] = {1, 1, -1, -1}, y[4] = {1, -1, -1, 1};
    for (int i = 0; i < 4; i++) {
        assert_within(hypot(arms->at_m[i].x, arms->at_m[i].y), 0.0445 * 5.1 / 2, 1e-12);
        assert_within(arms->at_m[i].x, x[i] * 0.0445 * 5.1 / sqrt(8), 1e-12);
        assert_within(arms->at_m[i].y, y[i] * 0.0445 * 5.1 / sqrt(8), 1e-12);
    }
    assert_within(arms->section_m[0], 10 * MM, 0.03);
    assert_within(arms->section_m[1], 5 * MM, 0.03);
}

static void usual_bodies_have_the_size_of_their_part(void **state)
{
    (void)state;
    pare_part motor = a_motor(), pack = a_pack(), propeller = a_propeller();
    completed(&motor);
    assert_int_equal(motor.piece->shape, PARE_SHAPE_CYLINDER);
    assert_within(motor.piece->size_m[0], 27.5 * MM, 1e-12);
    assert_within(motor.piece->size_m[1], 19 * MM, 1e-12);
    completed(&pack);
    assert_within(pare_solid_volume_m3(pack.piece->shape, pack.piece->size_m),
                  pack.mass_kg.value / 2200, 1e-12);
    completed(&propeller);
    pare_body body;
    const double m = propeller.mass_kg.value, r = 2.55 * INCH;
    assert_int_equal(pare_solid(propeller.piece->shape, m, propeller.piece->size_m, &body, NULL),
                     PARE_OK);
    assert_within(body.inertia_kg_m2.zz, 0.29 * m * r * r, 1e-12);
    assert_within(body.inertia_kg_m2.xx, 0.145 * m * r * r, 1e-12);
    pare_part camera = {.kind = PARE_CAMERA};
    set_fit(&camera.fit[PARE_FIT_CAMERA], 19 * MM, 19 * MM);
    completed(&camera);
    for (int i = 0; i < 3; i++)
        assert_within(camera.piece->size_m[i], 19 * MM, 1e-12);
    pare_part board = {.kind = PARE_FLIGHT_CONTROLLER};
    set_fit(&board.fit[PARE_FIT_STACK], 20 * MM, 20 * MM);
    completed(&board);
    assert_within(board.piece->size_m[0], 26 * MM, 1e-12);
}

static void a_propeller_gets_its_blade_and_its_own_fit(void **state)
{
    (void)state;
    pare_part propeller = a_propeller(), pack = a_pack();
    completed(&propeller);
    assert_non_null(propeller.blade);
    assert_null(propeller.table);
    assert_within(propeller.blade->diameter_m, 5.1 * INCH, 1e-12);
    assert_int_equal(propeller.blade->blades, 3);
    assert_ptr_equal(propeller.blade->constants, &pare_prop_family);
    assert_int_equal(propeller.fit[PARE_FIT_PROPELLER].count, 1);
    assert_true(propeller.fit[PARE_FIT_PROPELLER].any[0].low == 5.1 * INCH);
    completed(&pack);
    assert_int_equal(pack.fit[PARE_FIT_CELLS].count, 1);
    assert_true(pack.fit[PARE_FIT_CELLS].any[0].high == 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_name_reads_back),
        cmocka_unit_test(a_capacitor_and_an_undescribed_part_fly),
        cmocka_unit_test(each_row_of_the_table_can_be_found_and_makes_sense),
        cmocka_unit_test(every_spec_stands_in_the_table),
        cmocka_unit_test(what_is_not_stated_never_forbids),
        cmocka_unit_test(sizes_agree_within_rounding_only),
        cmocka_unit_test(a_value_agrees_with_a_range_that_holds_it_and_with_any_of_a_list),
        cmocka_unit_test(words_agree_when_equal_and_never_with_a_number),
        cmocka_unit_test(both_on_one_board_does_both_works_and_the_other_way_round),
        cmocka_unit_test(a_value_out_of_its_range_is_refused_with_the_range),
        cmocka_unit_test(a_mass_out_of_range_is_refused),
        cmocka_unit_test(a_needed_spec_that_is_missing_is_named),
        cmocka_unit_test(a_spec_of_another_kind_is_refused),
        cmocka_unit_test(figures_that_contradict_each_other_are_refused),
        cmocka_unit_test(interfaces_that_cannot_be_are_refused),
        cmocka_unit_test(bodies_that_cannot_be_are_refused),
        cmocka_unit_test(prices_and_includes_that_cannot_be_are_refused),
        cmocka_unit_test(a_frame_without_any_size_says_what_would_do),
        cmocka_unit_test(a_mass_that_nothing_fills_is_an_error),
        cmocka_unit_test(a_propeller_steeper_than_two_diameters_is_refused),
        cmocka_unit_test(what_a_law_fills_is_marked_and_what_was_said_stays),
        cmocka_unit_test(every_by_law_spec_has_a_value_once_complete),
        cmocka_unit_test(every_kind_but_printed_and_other_gets_a_mass_by_law),
        cmocka_unit_test(a_maker_who_states_no_mass_has_a_heavy_part),
        cmocka_unit_test(a_law_that_does_not_reach_says_so),
        cmocka_unit_test(a_digital_transmitter_draws_more_than_an_analogue_one),
        cmocka_unit_test(a_mass_without_its_uncertainty_gets_the_usual_one),
        cmocka_unit_test(a_stated_figure_without_its_uncertainty_gets_its_rows_share),
        cmocka_unit_test(a_printed_part_weighs_its_shell_and_its_infill),
        cmocka_unit_test(an_open_mesh_gives_an_estimate_and_an_unread_one_nothing),
        cmocka_unit_test(shapes_of_a_known_material_weigh_themselves_but_a_motors_do_not),
        cmocka_unit_test(a_drawn_frame_weighs_its_arms_and_plates_and_knows_its_wheelbase),
        cmocka_unit_test(a_frame_without_a_body_has_four_arms_on_its_wheelbase),
        cmocka_unit_test(usual_bodies_have_the_size_of_their_part),
        cmocka_unit_test(a_propeller_gets_its_blade_and_its_own_fit),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
