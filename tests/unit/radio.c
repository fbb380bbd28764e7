/* rooms: advise store craft physics base */
/* Antenna chains: decibels by hand, and what a swap says of them. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advise/swap.h"
#include "craft/radio.h"
#include "craft_fixture.h"
#include "near.h"
#include "physics/coax.h"
#include "store/bench.h"

static int setup(void **state)
{
    *state = fixture_open("../../demo/bench.yaml", "hedgerow");
    return 0;
}

static pare_radio radio_of(const pare_craft *craft)
{
    pare_radio radio[PARE_RADIOS];
    assert_int_equal(pare_craft_radios(craft, PARE_RADIOS, radio), 1);
    return radio[0];
}

static pare_radio with(fixture *f, const char *swap, pare_applied *applied)
{
    pare_error err = {0};
    if (pare_swap_apply(f->bench, pare_bench_craft(f->bench, "hedgerow"), swap, f->craft, applied,
                        &err) != PARE_OK)
        fail_msg("%s", err.text);
    return radio_of(f->craft);
}

static double db_per_m(const char *cable)
{
    double db = NAN;
    assert_int_equal(pare_coax_db_per_m(cable, 5.8e9, &db, NULL), PARE_OK);
    return db;
}

static void a_chain_loses_cable_links_and_connectors(void **state)
{
    fixture *f = *state;
    const pare_radio radio = radio_of(f->craft);
    /* 70 mm of RG178, 110 mm of RG402; 0.2 dB and 0.15 dB as stated; one pair of connectors left. */
    const double cable = 0.070 * db_per_m("RG178") + 0.110 * db_per_m("RG402");
    assert_string_equal(radio.transmitter, "video");
    assert_string_equal(radio.antenna, "antenna");
    assert_int_equal(radio.links, 3);
    assert_near(radio.band_hz, 5.8e9, 1);
    assert_within(radio.cable_db, cable, 1e-9);
    assert_near(radio.stated_db, 0.35, 1e-9);
    assert_int_equal(radio.pairs, 1);
    assert_within(radio.loss_db, cable + 0.35 + 0.1, 1e-9);
    assert_near(radio.gain_db, 1.4, 1e-9);
    /* Closed form: 20 dB are a factor of ten in range. */
    assert_within(pare_radio_range_left(&radio), pow(10, -radio.loss_db / 20), 1e-12);
}

static void the_same_chain_reaches_as_far(void **state)
{
    fixture *f = *state;
    const pare_radio radio = radio_of(f->craft);
    const pare_radio_change same = pare_radio_against(&radio, &radio);
    assert_near(same.net_db, 0, 0);
    assert_near(same.net_u_db, 0, 0);
    assert_near(same.range, 1, 0);
    assert_true(pare_radio_same_range(&same));
}

static void a_shorter_chain_reaches_farther_by_what_it_saves(void **state)
{
    fixture *f = *state;
    const pare_radio before = radio_of(f->craft);
    pare_applied applied;
    const pare_radio now = with(f, "antenna=an-rush", &applied);
    assert_int_equal(now.links, 1);
    const pare_radio_change change = pare_radio_against(&now, &before);
    assert_within(change.net_db, before.loss_db - now.loss_db + 1.2 - 1.4, 1e-9);
    assert_within(change.range, pow(10, change.net_db / 20), 1e-9);
    assert_true(change.net_u_db > 0.5); /* two stated gains */
    assert_true(applied.radio);
    bool said = false;
    for (size_t i = 0; i < applied.notes; i++)
        said = said || strstr(applied.note[i], "times as far in free space");
    assert_true(said);
}

static void the_other_hand_is_hardly_heard(void **state)
{
    fixture *f = *state;
    const pare_radio before = radio_of(f->craft);
    pare_applied applied;
    const pare_radio left = with(f, "antenna=an-rush-left", &applied);
    const pare_radio_change turned = pare_radio_against(&left, &before);
    /* Common practice, no source: 15 to 20 dB between opposite hands. */
    assert_between(turned.turned_db, 15, 20);
    assert_between(turned.range, 0.1, 0.2);
    const pare_radio line = with(f, "antenna=an-straw", &applied);
    /* Closed form: half of a circular wave's power is in any line. */
    assert_within(pare_radio_against(&line, &before).turned_db, 10 * log10(2), 1e-12);
}

static void coax_cut_shorter_loses_less(void **state)
{
    fixture *f = *state;
    const pare_radio before = radio_of(f->craft);
    pare_applied applied;
    const pare_radio cut = with(f, "pigtail.length=40mm", &applied);
    assert_within(before.cable_db - cut.cable_db, 0.030 * db_per_m("RG178"), 1e-9);
    assert_true(applied.radio);
    const pare_radio_change change = pare_radio_against(&cut, &before);
    /* What both share cancels: a tenth of the cable that went. */
    assert_within(change.net_u_db, 0.1 * change.net_db, 1e-9);
}

static void a_chain_that_is_off_is_none(void **state)
{
    fixture *f = *state;
    pare_radio radio[PARE_RADIOS];
    f->craft->item[pare_craft_item(f->craft, "antenna")].off = true;
    assert_int_equal(pare_craft_radios(f->craft, PARE_RADIOS, radio), 0);
}

static void what_is_not_stated_is_said(void **state)
{
    fixture *f = *state;
    pare_item *antenna = &f->craft->item[pare_craft_item(f->craft, "antenna")];
    pare_part vague = *antenna->part;
    vague.cable = NULL;
    vague.spec[PARE_SPEC_GAIN].given = false;
    antenna->part = &vague;
    const pare_radio radio = radio_of(f->craft);
    assert_false(radio.gain_given);
    assert_true(radio.gain_u_db > 1);
    assert_false(radio.link[2].known);
    assert_true(radio.link[0].known && radio.link[1].known);
}

int main(void)
{
#define CASE(name) cmocka_unit_test_setup_teardown(name, setup, fixture_close)
    const struct CMUnitTest tests[] = {
        CASE(a_chain_loses_cable_links_and_connectors),
        CASE(the_same_chain_reaches_as_far),
        CASE(a_shorter_chain_reaches_farther_by_what_it_saves),
        CASE(the_other_hand_is_hardly_heard),
        CASE(coax_cut_shorter_loses_less),
        CASE(a_chain_that_is_off_is_none),
        CASE(what_is_not_stated_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
