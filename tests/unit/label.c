/* rooms: store craft physics base */
/* What a pack's label claims against what its resistance and mass allow. */
#include <math.h>
#include <stdlib.h>

#include "bench_of.h"
#include "craft/label.h"
#include "near.h"
#include "physics/rig.h"
#include "store/bench.h"

static int setup(void **state)
{
    *state = bench_of("../../demo/bench.yaml");
    return 0;
}

static int teardown(void **state)
{
    pare_bench_close(*state);
    return 0;
}

static pare_part part_of(void **state, const char *id)
{
    const pare_part *part = pare_bench_part(*state, id);
    assert_non_null(part);
    return *part;
}

static pare_believable of(const pare_part *part)
{
    pare_believable can;
    assert_true(pare_pack_believable(part, &can));
    return can;
}

static void the_boasting_pack_of_the_demo_is_caught_and_the_others_are_not(void **state)
{
    const pare_part boast = part_of(state, "pa-4s-1300h"), honest = part_of(state, "pa-4s-1300");
    const pare_believable can = of(&boast), may = of(&honest);
    assert_true(pare_pack_boasts(&boast, &can));
    assert_false(pare_pack_boasts(&honest, &may));
}

static void the_label_changes_nothing_of_what_is_believed(void **state)
{
    pare_part part = part_of(state, "pa-4s-1300h");
    const pare_believable before = of(&part);
    part.spec[PARE_SPEC_LABEL_RATING].value = 20;
    const pare_believable after = of(&part);
    assert_near(after.whole, before.whole, 0);
    assert_near(after.burst, before.burst, 0);
    assert_false(pare_pack_boasts(&part, &after));
}

static void a_whole_pack_at_that_current_warms_by_35_kelvin(void **state)
{
    /* Energy: I^2 R t over mass times 1000 J/(kg K), t the time for four fifths of the capacity. */
    const pare_part part = part_of(state, "pa-4s-1300h");
    const double hourly_a = part.spec[PARE_SPEC_CAPACITY].value / 3600;
    const double current_a = of(&part).whole * hourly_a;
    const double seconds = 0.8 * part.spec[PARE_SPEC_CAPACITY].value / current_a;
    pare_rig rig;
    pare_rig_defaults(&rig);
    rig.pack.chemistry = part.chemistry;
    rig.pack.cells = 4;
    rig.pack.capacity_c = part.spec[PARE_SPEC_CAPACITY].value;
    rig.pack.lead_ohm = 0;
    const double heat_j = current_a * current_a * pare_pack_ohm(&rig.pack, 0.5, 1) * seconds;
    assert_within(heat_j / (1000 * part.mass_kg.value), 35, 1e-9);
}

static void half_the_resistance_carries_twice_as_much(void **state)
{
    pare_part part = part_of(state, "pa-4s-1300h");
    pare_value *group = &part.spec[PARE_SPEC_RESISTANCE];
    group->given = true;
    const pare_believable before = of(&part);
    group->value /= 2;
    group->u /= 2;
    const pare_believable after = of(&part);
    assert_within(after.burst, 2 * before.burst, 1e-9);
    assert_within(after.whole, 2 * before.whole, 1e-9);
    part.mass_kg.value *= 1.2;
    part.mass_kg.u *= 1.2;
    assert_within(of(&part).whole, 1.2 * after.whole, 1e-9);
}

static void a_cell_of_known_resistance_gives_what_its_volts_leave(void **state)
{
    (void)state;
    /* Measured resistance times capacity of small three-cell flight packs with leads, 45 to 57 mohm Ah
     * a cell (thrust-stand logs), would be 15 C or so to 3 V from half charge: far below any label. */
    pare_part part = part_of(state, "pa-4s-1300h");
    pare_value *group = &part.spec[PARE_SPEC_RESISTANCE];
    group->given = true;
    group->value = 0.050 / (part.spec[PARE_SPEC_CAPACITY].value / 3600);
    group->u = 0.1 * group->value;
    assert_between(of(&part).burst, 10, 20);
}

static void what_is_no_pack_has_no_rating(void **state)
{
    const pare_part part = part_of(state, "pr-51-43");
    pare_believable can;
    assert_false(pare_pack_believable(&part, &can));
}

/* The heat of a whole pack goes with current and charge, so a pack that was learned to hold a fifth less bears
 * a quarter more for as long as that lasts; its least volts at once are the same. */
static void what_flights_taught_of_its_charge_is_believed(void **state)
{
    const pare_bench *bench = *state;
    static pare_craft craft;
    pare_believable stated, learned;
    int flights;
    craft = *pare_bench_craft(bench, "hedgerow");
    pare_taught taught = {
        .flights = 12, .pack = "pa-4s-1550", .change = {[PARE_TAUGHT_CAPACITY] = log(0.8)}};
    taught.root[PARE_TAUGHT_CAPACITY][0] = 0.05;
    assert_true(pare_craft_believable(&craft, &stated, &flights));
    assert_int_equal(flights, 0);
    craft.learned = &taught;
    assert_true(pare_craft_believable(&craft, &learned, &flights));
    assert_int_equal(flights, 12);
    assert_near(learned.whole, stated.whole / 0.8, 1e-12 * stated.whole);
    assert_near(learned.whole_u / learned.whole, hypot(stated.whole_u / stated.whole, 0.05), 1e-12);
    assert_near(learned.burst, stated.burst, 0);
    taught.pack = "pa-4s-1300"; /* another's */
    assert_true(pare_craft_believable(&craft, &learned, &flights));
    assert_int_equal(flights, 0);
    assert_near(learned.whole, stated.whole, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_boasting_pack_of_the_demo_is_caught_and_the_others_are_not),
        cmocka_unit_test(the_label_changes_nothing_of_what_is_believed),
        cmocka_unit_test(a_whole_pack_at_that_current_warms_by_35_kelvin),
        cmocka_unit_test(half_the_resistance_carries_twice_as_much),
        cmocka_unit_test(a_cell_of_known_resistance_gives_what_its_volts_leave),
        cmocka_unit_test(what_is_no_pack_has_no_rating),
        cmocka_unit_test(what_flights_taught_of_its_charge_is_believed),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
