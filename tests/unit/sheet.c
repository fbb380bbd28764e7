/* rooms: store craft physics base */
/* Properties that any right sheet has, on a craft that was typed as a user types one. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "craft/flight.h"
#include "craft/sheet.h"
#include "craft_fixture.h"
#include "near.h"
#include "store/bench.h"

static int setup(void **state)
{
    *state = fixture_open("field-5.yaml", "field-5");
    return 0;
}

static void compute(const pare_craft *craft, bool with_u, pare_sheet *sheet)
{
    pare_error err = {0};
    if (pare_sheet_compute(craft, with_u, sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static double value(const pare_sheet *sheet, pare_figure which)
{
    if (!sheet->figure[which].exists)
        fail_msg("%s: %s", pare_figure_table[which].key, sheet->figure[which].why);
    return sheet->figure[which].value;
}

/* ---- mass ---- */

static void all_up_is_the_sum_of_what_was_typed(void **state)
{
    fixture *f = *state;
    compute(f->craft, false, f->sheet);
    double screws;
    pare_error err;
    assert_int_equal(pare_joint_kg(&f->craft->joint[0], &screws, &err), PARE_OK);
    const double typed = 90 + 4 * 32 + 4 * 4.3 + 13 + 8 + 210 + 8 + 6 + 2 + 6;
    const double lead = 1e3 * pare_run_kg(&f->craft->run[pare_craft_run(f->craft, "lead")]);
    assert_near(1e3 * value(f->sheet, PARE_ALL_UP), typed + 1e3 * screws + lead, 1e-9);
    assert_near(1e3 * value(f->sheet, PARE_DRY), typed - 210 + 1e3 * screws + lead, 1e-9);
}

static void a_motors_own_wire_weighs_nothing_twice_until_it_is_cut(void **state)
{
    fixture *f = *state;
    compute(f->craft, false, f->sheet);
    const double before = value(f->sheet, PARE_ALL_UP);
    const double resistance = f->sheet->rig.motor.resistance_ohm;
    pare_run *phase = &f->craft->run[pare_craft_run(f->craft, "phase")];
    assert_int_equal(phase->ways, 3);
    assert_int_equal(phase->times, 4);
    assert_near(resistance, 0.065, 1e-12);
    const double whole = pare_run_kg(phase);
    for (size_t i = 0; i < phase->ways; i++)
        phase->way_m[i] = 0.090;
    pare_error err = {0};
    assert_int_equal(pare_craft_settle(f->craft, &err), PARE_OK);
    compute(f->craft, false, f->sheet);
    assert_near(before - value(f->sheet, PARE_ALL_UP), whole / 4, 1e-12);
    /* AWG 20: 33.3 mohm/m (NBS Handbook 100: 10.15 ohm/1000 ft at 20 degC); two phases carry. What a
     * drive adds to the winding's resistance it does not add to the wires'. */
    const pare_motor *motor = &f->sheet->rig.motor;
    assert_near((resistance - motor->resistance_ohm) * (1 + motor->drive_excess),
                2 * 0.030 * 10.15 / 304.8, 1e-5);
}

static void the_same_wire_typed_twice_is_refused_with_both_names(void **state)
{
    fixture *f = *state;
    pare_run *phase = &f->craft->run[pare_craft_run(f->craft, "phase")];
    phase->included_in = NULL;
    pare_error err = {0};
    assert_int_equal(pare_craft_settle(f->craft, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "phase"));
    assert_non_null(strstr(err.text, "mo-1"));
}

static void mirroring_a_craft_mirrors_its_centre_of_mass(void **state)
{
    fixture *f = *state;
    compute(f->craft, false, f->sheet);
    const pare_body was = f->sheet->assembly.all;
    assert_true(fabs(was.at_m.y) > 1e-5);
    for (size_t i = 0; i < f->craft->items; i++)
        for (size_t k = 0; k < f->craft->item[i].stations; k++)
            f->craft->item[i].at_m[k].y *= -1;
    compute(f->craft, false, f->sheet);
    const pare_body now = f->sheet->assembly.all;
    assert_near(now.at_m.y, -was.at_m.y, 1e-15);
    assert_near(now.at_m.x, was.at_m.x, 1e-15);
    assert_within(now.inertia_kg_m2.xx, was.inertia_kg_m2.xx, 1e-12);
    assert_near(now.inertia_kg_m2.xy, -was.inertia_kg_m2.xy, 1e-15);
    assert_near(now.inertia_kg_m2.yz, -was.inertia_kg_m2.yz, 1e-15);
}

static void doubling_all_masses_doubles_inertia_and_keeps_the_centre(void **state)
{
    fixture *f = *state;
    compute(f->craft, false, f->sheet);
    const pare_body was = f->sheet->assembly.all;
    pare_part heavy[PARE_ITEMS];
    for (size_t i = 0; i < f->craft->items; i++) {
        heavy[i] = *f->craft->item[i].part;
        heavy[i].mass_kg.value *= 2;
        f->craft->item[i].part = &heavy[i];
    }
    for (size_t i = 0; i < f->craft->joints; i++)
        f->craft->joint[i].count *= 2;
    pare_run *lead = &f->craft->run[pare_craft_run(f->craft, "lead")];
    lead->times *= 2;
    compute(f->craft, false, f->sheet);
    const pare_body now = f->sheet->assembly.all;
    assert_within(now.mass_kg, 2 * was.mass_kg, 1e-12);
    assert_near(now.at_m.x, was.at_m.x, 1e-15);
    assert_within(now.inertia_kg_m2.xx, 2 * was.inertia_kg_m2.xx, 1e-12);
    assert_within(now.inertia_kg_m2.yy, 2 * was.inertia_kg_m2.yy, 1e-12);
    assert_within(now.inertia_kg_m2.zz, 2 * was.inertia_kg_m2.zz, 1e-12);
}

static void every_lines_share_of_inertia_adds_up_to_one(void **state)
{
    fixture *f = *state;
    compute(f->craft, false, f->sheet);
    for (int axis = 0; axis < 3; axis++) {
        double sum = 0;
        for (size_t i = 0; i < f->sheet->assembly.lines; i++)
            sum += pare_line_share(&f->sheet->assembly, i, axis);
        assert_near(sum, 1, 1e-12);
    }
}

static void moving_the_pack_as_told_balances_the_craft(void **state)
{
    fixture *f = *state;
    compute(f->craft, false, f->sheet);
    const double shift = value(f->sheet, PARE_PACK_SHIFT);
    assert_true(fabs(shift) > 1e-4);
    f->craft->item[pare_craft_item(f->craft, "pack")].at_m[0].x += shift;
    compute(f->craft, false, f->sheet);
    assert_near(value(f->sheet, PARE_CG_X), 0, 1e-15);
}

/* ---- flight ---- */

static void thrust_in_hover_equals_weight(void **state)
{
    fixture *f = *state;
    compute(f->craft, false, f->sheet);
    const pare_rig *rig = &f->sheet->rig;
    pare_operating point;
    pare_error err;
    assert_int_equal(pare_rig_thrust(rig, 1, 0.5, &point, &err), PARE_OK);
    assert_within(rig->rotors * point.rotor.thrust_n * (1 - rig->blockage), rig->mass_kg * 9.80665,
                  1e-9);
    assert_within(value(f->sheet, PARE_HOVER_W), point.pack_v * point.pack_a, 1e-12);
}

static void a_thinner_lead_costs_thrust_and_a_shorter_one_gives_it_back(void **state)
{
    fixture *f = *state;
    pare_run *lead = &f->craft->run[pare_craft_run(f->craft, "lead")];
    compute(f->craft, false, f->sheet);
    const double thick = value(f->sheet, PARE_THRUST_FRESH);
    lead->gauge = 18;
    compute(f->craft, false, f->sheet);
    const double thin = value(f->sheet, PARE_THRUST_FRESH);
    lead->way_m[0] = lead->way_m[1] = 0.045;
    compute(f->craft, false, f->sheet);
    const double cut = value(f->sheet, PARE_THRUST_FRESH);
    assert_true(thin < cut);
    assert_true(cut < thick);
}

static void a_gram_at_a_tip_slows_roll_more_than_at_the_centre(void **state)
{
    fixture *f = *state;
    compute(f->craft, false, f->sheet);
    pare_exchange exchange;
    pare_error err;
    assert_int_equal(pare_sheet_exchange(f->craft, f->sheet, &exchange, &err), PARE_OK);
    assert_true(exchange.tip[PARE_ROLL] < 10 * exchange.centre[PARE_ROLL]);
    assert_true(exchange.tip[PARE_ROLL] < 0);
    assert_true(exchange.centre[PARE_FLOWN_TIME] < 0);
    /* What a gram does to minutes cannot depend on where it sits. */
    assert_within(exchange.tip[PARE_FLOWN_TIME], exchange.centre[PARE_FLOWN_TIME], 1e-6);
}

static void the_same_craft_gives_the_same_sheet_bit_for_bit(void **state)
{
    fixture *f = *state;
    pare_sheet *again = malloc(sizeof *again);
    compute(f->craft, true, f->sheet);
    compute(f->craft, true, again);
    for (int i = 0; i < PARE_FIGURES; i++) {
        assert_memory_equal(&f->sheet->figure[i].value, &again->figure[i].value, sizeof(double));
        assert_memory_equal(&f->sheet->figure[i].u, &again->figure[i].u, sizeof(double));
    }
    free(again);
}

/* ---- doubt ---- */

static void copies_of_a_part_share_one_error(void **state)
{
    fixture *f = *state;
    pare_part part[PARE_ITEMS];
    for (size_t i = 0; i < f->craft->items; i++) {
        part[i] = *f->craft->item[i].part;
        part[i].mass_kg.u = 0;
        part[i].mass_kg.known = PARE_COMPUTED; /* neither a scale's nor a maker's error */
        f->craft->item[i].part = &part[i];
    }
    f->craft->joints = 0;
    f->craft->runs = 0;
    part[pare_craft_item(f->craft, "motor")].mass_kg.u = 0.5e-3;
    compute(f->craft, true, f->sheet);
    assert_near(f->sheet->figure[PARE_ALL_UP].u, 4 * 0.5e-3, 1e-12);
    assert_near(f->sheet->figure[PARE_DRY].u, 4 * 0.5e-3, 1e-12);
}

typedef struct input {
    const char *name;
    const char *item; /* whose part */
    int spec;         /* -1: its mass */
    pare_figure moves[4];
} input;

static void doubling_an_inputs_uncertainty_moves_every_figure_that_depends_on_it(void **state)
{
    fixture *f = *state;
    static const input inputs[] = {
        {"motor mass", "motor", -1, {PARE_ALL_UP, PARE_IXX, PARE_HOVER_A, PARE_ROLL}},
        {"pack mass", "pack", -1, {PARE_ALL_UP, PARE_CG_X, PARE_FLOWN_TIME, PARE_CRASH}},
        {"propeller mass", "propeller", -1, {PARE_DRY, PARE_IZZ, PARE_ROTOR_LAG, PARE_BURST}},
        {"kv",
         "motor",
         PARE_SPEC_KV,
         {PARE_TWR_FRESH, PARE_HOVER_OUTPUT, PARE_TOP_SPEED, PARE_CLIMB}},
        {"resistance",
         "motor",
         PARE_SPEC_RESISTANCE,
         {PARE_TWR_HALF, PARE_HOVER_W, PARE_TURN, PARE_FULL_A}},
        {"no-load current",
         "motor",
         PARE_SPEC_NO_LOAD,
         {PARE_HOVER_A, PARE_HOVER_TIME, PARE_FLOWN_TIME, PARE_BEST_RANGE}},
        {"capacity",
         "pack",
         PARE_SPEC_CAPACITY,
         {PARE_HOVER_TIME, PARE_CRUISE_TIME, PARE_FLOWN_TIME, PARE_PACK_ENERGY}},
    };
    compute(f->craft, true, f->sheet);
    for (size_t i = 0; i < sizeof inputs / sizeof inputs[0]; i++) {
        pare_craft *changed = malloc(sizeof *changed);
        pare_sheet *doubled = malloc(sizeof *doubled);
        *changed = *f->craft;
        const int item = pare_craft_item(changed, inputs[i].item);
        pare_part part = *changed->item[item].part;
        if (inputs[i].spec < 0)
            part.mass_kg.u *= 2;
        else
            part.spec[inputs[i].spec].u *= 2;
        changed->item[item].part = &part;
        compute(changed, true, doubled);
        for (size_t k = 0; k < 4; k++) {
            const pare_figure which = inputs[i].moves[k];
            if (!(doubled->figure[which].u > f->sheet->figure[which].u))
                fail_msg("doubling the doubt about %s leaves that of %s at %g", inputs[i].name,
                         pare_figure_table[which].key, f->sheet->figure[which].u);
            assert_near(doubled->figure[which].value, f->sheet->figure[which].value, 0);
        }
        free(changed);
        free(doubled);
    }
}

static void a_heavier_doubt_about_mass_takes_the_chance_towards_even(void **state)
{
    fixture *f = *state;
    compute(f->craft, true, f->sheet);
    assert_between(f->sheet->chance_all_up, 0.5, 1);
    const double before = f->sheet->chance_all_up;
    const int pack = pare_craft_item(f->craft, "pack");
    pare_part part = *f->craft->item[pack].part;
    part.mass_kg.u = 40e-3;
    f->craft->item[pack].part = &part;
    compute(f->craft, true, f->sheet);
    assert_true(f->sheet->chance_all_up < before);
    assert_between(f->sheet->chance_all_up, 0.5, 1);
}

static void what_to_weigh_first_is_the_largest_doubt(void **state)
{
    fixture *f = *state;
    compute(f->craft, true, f->sheet);
    size_t order[PARE_LINES];
    double share[PARE_LINES], sum = 0;
    pare_sheet_weigh_first(f->sheet, order, share);
    for (size_t i = 0; i < f->sheet->assembly.lines; i++) {
        sum += share[i];
        if (i > 0)
            assert_true(share[i] <= share[i - 1]);
    }
    assert_near(sum, 1, 1e-12);
    assert_string_equal(f->sheet->assembly.line[order[0]].name, "pack");
}

/* ---- margins ---- */

static void margins_come_worst_first_and_hold_at_one(void **state)
{
    fixture *f = *state;
    compute(f->craft, true, f->sheet);
    assert_true(f->sheet->margins >= 5);
    for (size_t i = 0; i < f->sheet->margins; i++) {
        const pare_margin *m = &f->sheet->margin[i];
        if (i > 0)
            assert_true(m->ratio >= m[-1].ratio);
        assert_between(m->chance, 0, 1);
        assert_true((m->ratio >= 1) == (m->chance >= 0.5));
    }
}

static void a_craft_without_propellers_says_so(void **state)
{
    fixture *f = *state;
    f->craft->item[pare_craft_item(f->craft, "propeller")].off = true;
    pare_error err = {0};
    assert_int_equal(pare_craft_settle(f->craft, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "craft 'field-5' has no propellers: it needs some to fly");
}

/* ---- stages and copies: our own whole sheet is the truth here, to the last bit ---- */

static void same_bits(const pare_sheet *a, const pare_sheet *b, pare_figures which)
{
    for (int f = 0; f < PARE_FIGURES; f++) {
        const pare_sheet_figure *x = &a->figure[f], *y = &b->figure[f];
        if ((which >> f & 1) == 0)
            continue;
        if (x->exists != y->exists || memcmp(&x->value, &y->value, sizeof x->value) != 0)
            fail_msg("%s: %a and %a", pare_figure_table[f].key, x->value, y->value);
    }
}

static void same_margins(const pare_sheet *a, const pare_sheet *b)
{
    assert_int_equal(a->margins, b->margins);
    for (size_t i = 0; i < a->margins; i++) {
        assert_string_equal(a->margin[i].name, b->margin[i].name);
        assert_memory_equal(&a->margin[i].ratio, &b->margin[i].ratio, sizeof a->margin[i].ratio);
    }
}

static void a_sheet_in_stages_has_the_bits_of_the_whole_in_any_order(void **state)
{
    fixture *f = *state;
    pare_error err = {0};
    compute(f->craft, false, f->sheet);
    for (int first = 0; first < PARE_FIGURES; first++) {
        pare_sheet staged = {0};
        const pare_figures one = (pare_figures)1 << first;
        assert_int_equal(pare_sheet_weigh(f->craft, &staged, &err), PARE_OK);
        pare_sheet_fly(f->craft, one, &staged);
        same_bits(&staged, f->sheet, one);
        pare_sheet_judge(f->craft, &staged);
        same_margins(&staged, f->sheet);
        pare_sheet_fly(f->craft, PARE_EVERY_FIGURE, &staged);
        same_bits(&staged, f->sheet, PARE_EVERY_FIGURE);
    }
}

static void a_figure_that_was_not_wanted_does_not_exist(void **state)
{
    fixture *f = *state;
    pare_error err = {0};
    assert_int_equal(pare_sheet_weigh(f->craft, f->sheet, &err), PARE_OK);
    assert_true(f->sheet->figure[PARE_ALL_UP].exists);
    assert_false(f->sheet->figure[PARE_BURST].exists);
    pare_sheet_fly(f->craft, (pare_figures)1 << PARE_BURST, f->sheet);
    assert_true(f->sheet->figure[PARE_BURST].exists);
    assert_false(f->sheet->figure[PARE_TOP_SPEED].exists);
}

/* Whatever stood in the room that a copy leaves out must not reach a figure. */
static void a_copy_of_a_craft_has_its_sheet_whatever_was_there_before(void **state)
{
    fixture *f = *state;
    compute(f->craft, false, f->sheet);
    pare_craft *copy = malloc(sizeof *copy);
    assert_non_null(copy);
    memset(copy, 0xa5, sizeof *copy);
    pare_craft_copy(f->craft, copy);
    pare_sheet other;
    compute(copy, false, &other);
    same_bits(&other, f->sheet, PARE_EVERY_FIGURE);
    same_margins(&other, f->sheet);
    assert_int_equal(copy->takens, f->craft->takens);
    assert_int_equal(copy->loadouts, f->craft->loadouts);
    for (size_t i = 0; i < copy->loadouts; i++)
        assert_string_equal(copy->loadout[i].name, f->craft->loadout[i].name);
    free(copy);
}

int main(void)
{
#define CASE(f) cmocka_unit_test_setup_teardown(f, setup, fixture_close)
    const struct CMUnitTest tests[] = {
        CASE(all_up_is_the_sum_of_what_was_typed),
        CASE(a_motors_own_wire_weighs_nothing_twice_until_it_is_cut),
        CASE(the_same_wire_typed_twice_is_refused_with_both_names),
        CASE(mirroring_a_craft_mirrors_its_centre_of_mass),
        CASE(doubling_all_masses_doubles_inertia_and_keeps_the_centre),
        CASE(every_lines_share_of_inertia_adds_up_to_one),
        CASE(moving_the_pack_as_told_balances_the_craft),
        CASE(thrust_in_hover_equals_weight),
        CASE(a_thinner_lead_costs_thrust_and_a_shorter_one_gives_it_back),
        CASE(a_gram_at_a_tip_slows_roll_more_than_at_the_centre),
        CASE(the_same_craft_gives_the_same_sheet_bit_for_bit),
        CASE(copies_of_a_part_share_one_error),
        CASE(doubling_an_inputs_uncertainty_moves_every_figure_that_depends_on_it),
        CASE(a_heavier_doubt_about_mass_takes_the_chance_towards_even),
        CASE(what_to_weigh_first_is_the_largest_doubt),
        CASE(margins_come_worst_first_and_hold_at_one),
        CASE(a_craft_without_propellers_says_so),
        CASE(a_sheet_in_stages_has_the_bits_of_the_whole_in_any_order),
        CASE(a_figure_that_was_not_wanted_does_not_exist),
        CASE(a_copy_of_a_craft_has_its_sheet_whatever_was_there_before),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
