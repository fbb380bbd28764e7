/* rooms: store advise craft physics base */
/* swap_money.c: what a swap costs, as it must really be bought. Default prices of screws and wire are
 * those of money.c: common practice, no source. */
#include "swap_fixture.h"

#include "advise/money.h"

static const pare_part *part(const fixture *f, const char *id)
{
    const pare_part *found = pare_bench_part(f->bench, id);
    assert_non_null(found);
    return found;
}

static void sets_are_bought_whole(void **state)
{
    fixture *f = *state;
    assert_near(tried(f, "propeller=pr-b")->money, 6 * 0.9, 1e-12); /* four of threes: two sets */
}

static void a_seller_ships_once_for_all_that_is_bought_there(void **state)
{
    fixture *f = *state;
    pare_basket basket = {0};
    bool priced;
    pare_basket_part(&basket, part(f, "mo-b"), 4);
    assert_near(pare_basket_money(f->bench, &basket, &priced), 4 * 20 + 5, 1e-12);
    pare_basket_part(&basket, part(f, "fr-b"), 1);
    pare_basket_part(&basket, part(f, "pa-4l"), 1); /* ships for 4: the dearest counts */
    assert_near(pare_basket_money(f->bench, &basket, &priced), 80 + 40 + 25 + 5, 1e-12);
    assert_true(priced);
}

/* By hand: of eight propellers one lies there, so seven are missing: two sets of four at 0.80 each are
 * 6.40. Of four motors one lies there: three at 18.00 are 54.00. Both are Hob's, who ships once, for
 * 6.00, the dearer of the two. The antenna is another shop's: 9.00 and 3.50 of shipping. */
static void a_shopping_list_costs_what_it_does_by_hand(void **state)
{
    (void)state;
    pare_bench bench = {.money = "EUR"};
    const pare_part
        propeller = {.id = "p",
                     .kind = PARE_PROPELLER,
                     .owned = 1,
                     .price = {.given = true,
                               .each = 0.80,
                               .sold_in = 4,
                               .shipping = 4.50,
                               .seller = "Hob"}},
        motor =
            {.id = "m",
             .kind = PARE_MOTOR,
             .owned = 1,
             .price = {.given = true, .each = 18, .sold_in = 1, .shipping = 6, .seller = "Hob"}},
        antenna = {
            .id = "a",
            .kind = PARE_ANTENNA,
            .price = {.given = true, .each = 9, .sold_in = 1, .shipping = 3.50, .seller = "Fen"}};
    pare_basket basket = {0};
    bool priced = false;
    pare_basket_part(&basket, &propeller, 4);
    pare_basket_part(&basket, &motor, 4);
    pare_basket_part(&basket, &propeller, 4);
    pare_basket_part(&basket, &antenna, 1);
    assert_near(pare_basket_money(&bench, &basket, &priced), 6.40 + 54 + 6 + 9 + 3.50, 1e-12);
    assert_true(priced);
}

static void spares_are_had_already_and_those_on_a_craft_are_not_spare(void **state)
{
    fixture *f = *state;
    assert_int_equal(pare_spares(f->bench, part(f, "ti-a")), 40);
    assert_int_equal(pare_spares(f->bench, part(f, "cp-20")), 3);
    assert_int_equal(pare_spares(f->bench, part(f, "mo-a")), 0);
    /* A pack is flown on one craft today and on another tomorrow. */
    assert_int_equal(pare_spares(f->bench, part(f, "pa-4")), 2);
    pare_basket basket = {0};
    bool priced;
    pare_basket_part(&basket, part(f, "ti-a"), 40);
    assert_near(pare_basket_money(f->bench, &basket, &priced), 0, 0);
    pare_basket_part(&basket, part(f, "ti-a"), 1); /* the forty-first: a bag of a hundred */
    assert_near(pare_basket_money(f->bench, &basket, &priced), 3, 1e-12);
}

/* A swap that was fitted: what it put on is in use, what it took off lies in the drawer. */
static void what_was_taken_off_a_craft_is_spare_again(void **state)
{
    fixture *f = *state;
    const size_t owned = 3; /* cp-20 */
    pare_craft *craft = f->bench->craft[0];
    const pare_craft as_it_was = *craft;
    assert_int_equal(
        pare_swap_apply(f->bench, craft, "capacitor=cp-20", &f->changed, NULL, &f->err), PARE_OK);
    *craft = f->changed;
    assert_int_equal(pare_spares(f->bench, part(f, "cp-20")), owned - 1);
    assert_int_equal(pare_swap_apply(f->bench, craft, "capacitor=off", &f->changed, NULL, &f->err),
                     PARE_OK);
    *craft = f->changed;
    assert_int_equal(pare_spares(f->bench, part(f, "cp-20")), owned);
    *craft = as_it_was;
}

static void screws_come_in_bags_and_one_bag_serves_two_joints(void **state)
{
    fixture *f = *state;
    pare_basket basket = {0};
    bool priced;
    const pare_joint *joint = &f->craft->joint[pare_craft_joint(f->craft, "motor_base")];
    pare_basket_screws(&basket, joint, 4);
    const double one_bag = pare_basket_money(f->bench, &basket, &priced);
    assert_true(one_bag > 0);
    pare_basket_screws(&basket, joint, 6);
    assert_near(pare_basket_money(f->bench, &basket, &priced), one_bag, 0);
    pare_basket_screws(&basket, joint, 1);
    assert_near(pare_basket_money(f->bench, &basket, &priced), 2 * one_bag, 1e-12);
}

static void wire_comes_by_the_metre(void **state)
{
    fixture *f = *state;
    pare_basket basket = {0};
    bool priced;
    pare_basket_wire(&basket, 16, 0.24);
    const double metre = pare_basket_money(f->bench, &basket, &priced);
    pare_basket_wire(&basket, 16, 0.7);
    assert_near(pare_basket_money(f->bench, &basket, &priced), metre, 0);
    pare_basket_wire(&basket, 16, 0.1);
    assert_near(pare_basket_money(f->bench, &basket, &priced), 2 * metre, 1e-12);
}

static void what_has_no_price_is_not_called_free(void **state)
{
    fixture *f = *state;
    const pare_applied *applied = tried(f, "antenna=an-low");
    assert_false(applied->priced);
    pare_swaps swaps;
    assert_int_equal(
        pare_swaps_find(f->bench, f->craft, -1, PARE_WISH_GRAMS, f->arena, &swaps, &f->err),
        PARE_OK);
    for (size_t i = 0; i < swaps.count; i++)
        if (!swaps.swap[i].applied.priced)
            assert_int_not_equal(swaps.swap[i].band, PARE_BAND_FREE);
}

static void shortening_and_leaving_off_cost_nothing(void **state)
{
    fixture *f = *state;
    static const char *const cuts[] = {"run.lead.length=90mm", "joint.motor_base.length=8mm",
                                       "antenna.length=80mm", "bumper=off",
                                       "joint.motor_base.count=8"};
    for (size_t i = 0; i < sizeof cuts / sizeof cuts[0]; i++) {
        const pare_applied *applied = tried(f, cuts[i]);
        assert_near(applied->money, 0, 0);
        assert_true(applied->priced);
        assert_true(applied->work_min > 0);
    }
}

static void a_full_basket_says_that_its_sum_is_not_known(void **state)
{
    fixture *f = *state;
    pare_basket basket = {0};
    bool priced = true;
    for (int gauge = 8; gauge < 8 + 2 * PARE_BASKET_WIRES; gauge++)
        pare_basket_wire(&basket, gauge, 1);
    pare_basket_money(f->bench, &basket, &priced);
    assert_false(priced);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sets_are_bought_whole),
        cmocka_unit_test(a_seller_ships_once_for_all_that_is_bought_there),
        cmocka_unit_test(a_shopping_list_costs_what_it_does_by_hand),
        cmocka_unit_test(spares_are_had_already_and_those_on_a_craft_are_not_spare),
        cmocka_unit_test(what_was_taken_off_a_craft_is_spare_again),
        cmocka_unit_test(screws_come_in_bags_and_one_bag_serves_two_joints),
        cmocka_unit_test(wire_comes_by_the_metre),
        cmocka_unit_test(what_has_no_price_is_not_called_free),
        cmocka_unit_test(shortening_and_leaving_off_cost_nothing),
        cmocka_unit_test(a_full_basket_says_that_its_sum_is_not_known),
    };
    return cmocka_run_group_tests(tests, fixture_open, fixture_close);
}
