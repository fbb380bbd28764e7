/* rooms: store advise craft physics base */
/* shopping.c: what a change asks to buy and to cut. Prices of screws and wire are those of money.c: common
 * practice, no source. */
#include <math.h>

#include "swap_fixture.h"

#include "advise/shopping.h"

static pare_shopping list; /* large */

static const pare_shopping *listed(const fixture *f, const pare_craft *ordered)
{
    pare_shopping_of(f->bench, f->craft, ordered, &f->changed, &list);
    return &list;
}

static bool is_on_it(const fixture *f, const char *swap)
{
    const char *value = strchr(swap, '=') + 1;
    for (size_t i = 0; i < f->craft->items; i++)
        if (strcmp(f->craft->item[i].part->id, value) == 0)
            return true;
    return false;
}

/* Two ways to the same money: what a swap puts into its basket while it is applied, and what is read off
 * the craft before and after it. A part that is on the craft and moves to another place is only then no
 * purchase. */
static void a_list_for_one_swap_costs_what_its_row_says(void **state)
{
    fixture *f = *state;
    size_t count = 0, compared = 0;
    const char *const *names = NULL;
    assert_int_equal(pare_swap_names(f->bench, f->craft, -1, f->arena, &count, &names, &f->err),
                     PARE_OK);
    for (size_t i = 0; i < count; i++) {
        if (pare_swap_apply(f->bench, f->craft, names[i], &f->changed, &f->applied, &f->err) !=
            PARE_OK)
            continue;
        const pare_shopping *s = listed(f, NULL);
        if (is_on_it(f, names[i]))
            continue;
        if (s->priced != f->applied.priced ||
            fabs(s->money - f->applied.money) > 1e-9 * (1 + s->money))
            fail_msg("%s: %g %d, its row %g %d", names[i], s->money, s->priced, f->applied.money,
                     f->applied.priced);
        compared++;
    }
    assert_true(compared > 40);
}

static void change(fixture *f, const char *swaps)
{
    if (pare_swap_apply_list(f->bench, f->craft, swaps, &f->changed, &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
}

/* By hand: four motors at 20.00 and one shipping of 5.00; four propellers come as two sets of three at
 * 0.90 each; sixteen titanium screws are two bags at 9.00, of the length that they end with; two wires of
 * 120 mm are out of one metre at 2.20; a capacitor of three lies there. */
static void a_list_for_many_swaps_is_what_it_is_by_hand(void **state)
{
    fixture *f = *state;
    change(f, "motor=mo-b,propeller=pr-b,capacitor=cp-20,joint.motor_base.material=titanium,"
              "joint.motor_base.length=8mm,run.lead.gauge=14");
    const pare_shopping *s = listed(f, NULL);
    assert_int_equal(s->parts, 3);
    assert_string_equal(s->part[0].part->id, "mo-b"); /* who has a seller comes first */
    assert_int_equal(s->part[0].sets, 4);
    assert_near(s->part[0].money, 80, 1e-12);
    assert_string_equal(s->part[1].part->id, "cp-20");
    assert_int_equal(s->part[1].spare, 1);
    assert_int_equal(s->part[1].sets, 0);
    assert_string_equal(s->part[2].part->id, "pr-b");
    assert_int_equal(s->part[2].needed, 4);
    assert_int_equal(s->part[2].sets, 2);
    assert_int_equal(s->sellers, 2);
    assert_string_equal(s->seller[0].name, "Quillmoor");
    assert_near(s->seller[0].shipping, 5, 0);
    assert_null(s->seller[1].name);
    assert_int_equal(s->screws, 1);
    assert_int_equal(s->screw[0].needed, 16);
    assert_int_equal(s->screw[0].bags, 2);
    assert_near(s->screw[0].length_m, 8e-3, 1e-12);
    assert_int_equal(s->wires, 1);
    assert_near(s->wire[0].needed_m, 0.24, 1e-12);
    assert_int_equal(s->wire[0].metres, 1);
    assert_near(s->money, 80 + 5 + 5.40 + 18 + 2.20, 1e-9);
    assert_true(s->priced);
    /* The motors bring their own phase wires. */
    assert_int_equal(s->cuts, 2);
    assert_int_equal(s->cut[0].of, PARE_CUT_WIRE);
    assert_string_equal(s->cut[0].name, "lead");
    assert_int_equal(s->cut[0].count, 2);
    assert_near(s->cut[0].length_m, 0.12, 1e-12);
    assert_near(s->cut[0].was_m, 0, 0);
    assert_int_equal(s->cut[1].of, PARE_CUT_SCREWS);
    assert_int_equal(s->cut[1].count, 16);
}

/* By hand: new motors come with three wires of 20 AWG and 120 mm each. Thinner ones are soldered on anew,
 * twelve of 110 mm, out of two metres; those that stay are only cut. */
static void wires_of_new_motors_are_cut_or_made_anew(void **state)
{
    fixture *f = *state;
    change(f, "motor=mo-b,run.phase.length=110mm,run.phase.gauge=22");
    const pare_shopping *s = listed(f, NULL);
    assert_int_equal(s->wires, 1);
    assert_int_equal(s->wire[0].metres, 2);
    assert_near(s->wire[0].needed_m, 12 * 0.11, 1e-12);
    assert_int_equal(s->cuts, 1);
    assert_int_equal(s->cut[0].count, 12);
    assert_near(s->cut[0].was_m, 0, 0);
    change(f, "motor=mo-b,run.phase.length=110mm");
    s = listed(f, NULL);
    assert_int_equal(s->wires, 0);
    assert_int_equal(s->cuts, 1);
    assert_near(s->cut[0].was_m, 0.12, 1e-12);
    assert_near(s->cut[0].length_m, 0.11, 1e-12);
}

/* By hand: the propellers come, as two sets of three; motors are left to buy. */
static void what_is_ordered_is_not_bought_again(void **state)
{
    fixture *f = *state;
    static pare_craft ordered; /* large */
    change(f, "propeller=pr-b,joint.stack.material=titanium");
    ordered = f->changed;
    change(f, "propeller=pr-b,joint.stack.material=titanium,motor=mo-b");
    const pare_shopping *s = listed(f, &ordered);
    assert_int_equal(s->parts, 2);
    assert_int_equal(s->part[1].coming, 4);
    assert_int_equal(s->part[1].sets, 0);
    assert_int_equal(s->screw[0].coming, 4);
    assert_int_equal(s->screw[0].bags, 0);
    assert_near(s->money, 85, 1e-9);
}

static void what_is_cut_down_costs_nothing_and_says_out_of_what(void **state)
{
    fixture *f = *state;
    change(f, "run.lead.length=90mm,joint.motor_base.length=8mm,antenna.length=80mm,"
              "joint.cage.material=titanium,joint.arm_root.length=14mm");
    const pare_shopping *s = listed(f, NULL);
    static const struct {
        pare_cut_of of;
        int count;
        double length_m, was_m;
    } cuts[] = {{PARE_CUT_WIRE, 2, 90e-3, 120e-3},
                {PARE_CUT_COAX, 1, 80e-3, 110e-3},
                {PARE_CUT_SCREWS, 8, 14e-3, 16e-3}, /* those that came with the frame */
                {PARE_CUT_SCREWS, 2, 12e-3, 0},
                {PARE_CUT_SCREWS, 16, 8e-3, 10e-3}};
    assert_int_equal(s->cuts, sizeof cuts / sizeof cuts[0]);
    for (size_t i = 0; i < s->cuts; i++) {
        assert_int_equal(s->cut[i].of, cuts[i].of);
        assert_int_equal(s->cut[i].count, cuts[i].count);
        assert_near(s->cut[i].length_m, cuts[i].length_m, 1e-12);
        assert_near(s->cut[i].was_m, cuts[i].was_m, 1e-12);
    }
    assert_near(s->money, 9, 1e-12); /* a bag of titanium screws for the cage */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_list_for_one_swap_costs_what_its_row_says),
        cmocka_unit_test(a_list_for_many_swaps_is_what_it_is_by_hand),
        cmocka_unit_test(wires_of_new_motors_are_cut_or_made_anew),
        cmocka_unit_test(what_is_ordered_is_not_bought_again),
        cmocka_unit_test(what_is_cut_down_costs_nothing_and_says_out_of_what),
    };
    return cmocka_run_group_tests(tests, fixture_open, fixture_close);
}
