/* rooms: store craft physics base */
/* What a craft's wires, motors, pack and arms bear, on the demo's craft: each margin moves as the thing
 * that it is about, and its uncertainty with what it rests on. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "craft/margin.h"
#include "craft/sheet.h"
#include "craft_fixture.h"
#include "near.h"
#include "physics/wire.h"
#include "store/bench.h"

static int setup(void **state)
{
    *state = fixture_open("../../demo/bench.yaml", "hedgerow");
    return 0;
}

static pare_run *lead(fixture *f)
{
    return &f->craft->run[pare_craft_run(f->craft, "lead")];
}

static void a_thinner_lead_is_hotter_and_loses_more(void **state)
{
    fixture *f = *state;
    double last_degc = 0, last_drop = 0;
    for (double gauge = 12; gauge <= 22; gauge += 2) {
        lead(f)->gauge = gauge;
        lead(f)->outer_m = 0;
        const pare_margin solder = fixture_margin(f, "wire_joint.lead");
        const pare_margin burst = fixture_margin(f, "wire_burst.lead");
        const pare_margin drop = fixture_margin(f, "wire_drop.lead");
        assert_true(solder.value > last_degc && drop.value > last_drop);
        assert_true(burst.value > solder.value);
        assert_int_equal(solder.ratio >= 1, solder.value <= solder.limit);
        assert_true(solder.chance >= 0 && solder.chance <= 1);
        last_degc = solder.value;
        last_drop = drop.value;
    }
}

static void the_drop_is_full_throttle_through_the_copper(void **state)
{
    fixture *f = *state;
    const pare_margin drop = fixture_margin(f, "wire_drop.lead");
    double length_m = 0;
    for (size_t i = 0; i < lead(f)->ways; i++)
        length_m += lead(f)->way_m[i];
    const double volts =
        f->sheet->figure[PARE_FULL_A].value * length_m * pare_wire_ohm_per_m(lead(f)->gauge, 40);
    assert_within(drop.value, 100 * volts / pare_pack_open_v(&f->sheet->rig.pack, 1), 1e-9);
}

static void a_wire_that_melts_holds_nothing(void **state)
{
    fixture *f = *state;
    lead(f)->gauge = 26;
    lead(f)->outer_m = 0;
    assert_true(fixture_margin(f, "wire_burst.lead").ratio < 1);
    assert_true(fixture_margin(f, "wire_burst.lead").chance < 0.01);
}

static void a_smaller_pack_is_hotter_and_sags_deeper(void **state)
{
    fixture *f = *state;
    const double sag_v = fixture_margin(f, "pack.sag").value;
    const int pack = pare_craft_doing(f->craft, PARE_PACK);
    pare_part smaller = *f->craft->item[pack].part;
    smaller.spec[PARE_SPEC_CAPACITY].value *= 0.6;
    smaller.spec[PARE_SPEC_RESISTANCE].value /= 0.6;
    f->craft->item[pack].part = &smaller;
    const pare_margin sag = fixture_margin(f, "pack.sag");
    assert_true(sag.at_least);
    assert_true(sag.value < sag_v);
}

static void the_packs_heat_is_what_its_resistance_makes_of_the_flight(void **state)
{
    fixture *f = *state;
    const pare_margin heat = fixture_margin(f, "pack.heat");
    const pare_rig *rig = &f->sheet->rig;
    const double rms_a = f->sheet->figure[PARE_FLOWN_RMS_A].value;
    const double drawn_c = (1 - f->craft->brief.landing.charge) * rig->pack.capacity_c;
    const double mean_a = f->sheet->figure[PARE_FLOWN_A].value;
    const double joule =
        rms_a * rms_a / mean_a * (pare_pack_ohm(&rig->pack, 0.5, 1) - rig->pack.lead_ohm) * drawn_c;
    const double begins = fmax(rig->pack.temperature_degc, rig->air.temperature_degc);
    assert_within(heat.value - begins, joule / (1000 * rig->pack.mass_kg), 1e-9);
}

static void an_arm_twice_as_thick_rings_far_above_its_rotor(void **state)
{
    fixture *f = *state;
    const pare_margin before = fixture_margin(f, "arm.ring");
    const int frame = pare_craft_doing(f->craft, PARE_FRAME);
    pare_part stiff = *f->craft->item[frame].part;
    pare_piece pieces[32];
    assert_true(stiff.pieces <= 32);
    memcpy(pieces, stiff.piece, stiff.pieces * sizeof *pieces);
    for (size_t i = 0; i < stiff.pieces; i++)
        if (pieces[i].form == PARE_FORM_ARMS)
            pieces[i].section_m[1] *= 2.5;
    stiff.piece = pieces;
    f->craft->item[frame].part = &stiff;
    const pare_margin after = fixture_margin(f, "arm.ring");
    /* Below its band the rotor must stay at most at the lower edge; above, at least at the upper. */
    assert_true(before.at_least);
    assert_false(after.at_least);
    assert_true(after.limit > 2 * before.limit);
    /* Stress at the root goes with the square of the thickness. */
    const double thick = fixture_margin(f, "arm.stress").value;
    f->craft->item[frame].part = pare_bench_craft(f->bench, "hedgerow")->item[frame].part;
    assert_within(fixture_margin(f, "arm.stress").value / thick, 2.5 * 2.5, 0.02);
}

static void every_margin_has_its_chance_and_its_source(void **state)
{
    fixture *f = *state;
    fixture_margin(f, "motor.winding");
    for (size_t i = 0; i < f->sheet->margins; i++) {
        const pare_margin *m = &f->sheet->margin[i];
        assert_non_null(m->from);
        assert_true(m->chance >= 0 && m->chance <= 1);
        assert_true(m->ratio_u >= 0);
        assert_int_equal(m->ratio >= 1, m->at_least ? m->value >= m->limit : m->value <= m->limit);
        if (i > 0)
            assert_true(m->ratio >= f->sheet->margin[i - 1].ratio);
    }
}

static bool same_number(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool same_words(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

/* Field by field: what lies between them is no part of a margin. */
static void assert_same(const pare_margin *a, const pare_margin *b)
{
    assert_memory_equal(a->name, b->name, sizeof a->name);
    assert_true(same_words(a->unit, b->unit) && same_words(a->from, b->from) &&
                same_words(a->caution, b->caution));
    assert_int_equal(a->at_least, b->at_least);
    assert_true(same_number(a->value, b->value) && same_number(a->value_u, b->value_u));
    assert_true(same_number(a->limit, b->limit) && same_number(a->limit_u, b->limit_u));
    assert_true(same_number(a->from_zero, b->from_zero) && same_number(a->own_u, b->own_u));
    assert_true(same_number(a->ratio, b->ratio) && same_number(a->ratio_u, b->ratio_u));
    assert_true(same_number(a->chance, b->chance));
}

static void margins_kind_by_kind_are_those_of_the_whole(void **state)
{
    fixture *f = *state;
    static pare_sheet some;
    size_t found = 0;
    fixture_margin(f, "motor.winding");
    some = *f->sheet;
    for (unsigned kind = 1; kind <= PARE_MARGINS_ALL; kind <<= 1) {
        pare_sheet_margins_some(f->craft, kind, &some);
        for (size_t i = 0; i < some.margins; i++) {
            const pare_margin *whole = pare_sheet_margin(f->sheet, some.margin[i].name);
            assert_non_null(whole);
            assert_same(whole, &some.margin[i]);
        }
        found += some.margins;
    }
    assert_int_equal(found + (pare_sheet_margin(f->sheet, "limit.margin") != NULL),
                     f->sheet->margins);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_thinner_lead_is_hotter_and_loses_more, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(the_drop_is_full_throttle_through_the_copper, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_wire_that_melts_holds_nothing, setup, fixture_close),
        cmocka_unit_test_setup_teardown(a_smaller_pack_is_hotter_and_sags_deeper, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(the_packs_heat_is_what_its_resistance_makes_of_the_flight,
                                        setup, fixture_close),
        cmocka_unit_test_setup_teardown(an_arm_twice_as_thick_rings_far_above_its_rotor, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(every_margin_has_its_chance_and_its_source, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(margins_kind_by_kind_are_those_of_the_whole, setup,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
