/* rooms: craft physics base */
/* What a charger reads, taken back to the resistance that a pack's law starts from; and which of
 * several readings counts. */
#include <math.h>
#include <string.h>

#include "craft/charged.h"
#include "near.h"

static pare_pack four_cells(void)
{
    pare_rig rig;
    pare_rig_defaults(&rig);
    rig.pack.cells = 4;
    rig.pack.capacity_c = 1.55 * 3600;
    return rig.pack;
}

static pare_charger_reading reads(pare_reading_kind kind, double mohm)
{
    return (pare_charger_reading){.kind = kind,
                                  .degc = 25,
                                  .charge = 0.5,
                                  .cells = 4,
                                  .ohm = {mohm / 1e3, mohm / 1e3, mohm / 1e3, mohm / 1e3}};
}

static pare_group_reading group_of(const pare_pack *pack, const pare_charger_reading *reading)
{
    pare_group_reading group;
    pare_error err = {PARE_OK, ""};
    if (pare_charger_group(pack, reading, &group, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return group;
}

/* The pack that the reading makes must give that reading again: a pulse is volts lost over current. */
static void a_reading_goes_there_and_back(void **state)
{
    (void)state;
    for (int kind = 0; kind < PARE_CHEMISTRIES; kind++)
        for (double degc = 0; degc <= 40; degc += 10)
            for (double seconds = 0.5; seconds < 100; seconds *= 4) {
                pare_pack pack = four_cells();
                pack.chemistry = (pare_chemistry)kind;
                pare_charger_reading reading = reads(PARE_READING_PULSE, 5);
                reading.degc = degc;
                reading.seconds = seconds;
                reading.charge = 0.8;
                const pare_group_reading group = group_of(&pack, &reading);
                pack.group_ohm = group.ohm;
                pack.lead_ohm = 0;
                pack.temperature_degc = degc;
                assert_within(pare_pack_ohm(&pack, 0.8, pare_pack_steady(&pack, seconds)) / 4, 5e-3,
                              1e-12);
            }
}

/* A tone sees less than a pulse, and a long load more, so the same number means another pack. */
static void the_kind_of_reading_matters(void **state)
{
    (void)state;
    const pare_pack pack = four_cells();
    const pare_charger_reading pulse = reads(PARE_READING_PULSE, 5), ac = reads(PARE_READING_AC, 5),
                               dc = reads(PARE_READING_DC, 5);
    const pare_group_reading p = group_of(&pack, &pulse), a = group_of(&pack, &ac),
                             d = group_of(&pack, &dc);
    assert_true(d.ohm < p.ohm && p.ohm < a.ohm);
    assert_true(a.u / a.ohm > 1.5 * p.u / p.ohm);
    const pare_cell *cell = &pare_cells_fitted[PARE_LIPO];
    assert_within(a.ohm, 5e-3 / cell->ac_share, 1e-12);
    assert_within(d.ohm, 5e-3 / (1 - cell->slow * expm1(-10 / cell->slow_s)), 1e-12);
}

static void a_cold_reading_is_taken_back_to_25_degc(void **state)
{
    (void)state;
    const pare_pack pack = four_cells();
    pare_charger_reading cold = reads(PARE_READING_PULSE, 5), room = cold, warm = cold;
    cold.degc = 5;
    room.degc = (double)NAN;
    const double warm_ohm = group_of(&pack, &warm).ohm;
    assert_true(group_of(&pack, &cold).ohm < 0.7 * warm_ohm);
    /* nobody noted it: as 20 degC, and less sure */
    pare_charger_reading twenty = warm;
    twenty.degc = 20;
    assert_within(group_of(&pack, &room).ohm, group_of(&pack, &twenty).ohm, 1e-12);
    assert_true(group_of(&pack, &room).u > 1.2 * group_of(&pack, &twenty).u);
    /* 8 % of the charger, 2 K of some 2.7 %/K, little else */
    assert_between(group_of(&pack, &twenty).u / group_of(&pack, &twenty).ohm, 0.08, 0.12);
}

static void a_cell_far_above_its_mates_is_named(void **state)
{
    (void)state;
    const pare_pack pack = four_cells();
    pare_charger_reading reading = reads(PARE_READING_PULSE, 5);
    assert_int_equal(group_of(&pack, &reading).worst, 0);
    reading.ohm[2] = 6.9e-3;
    assert_int_equal(group_of(&pack, &reading).worst, 3);
    assert_within(group_of(&pack, &reading).worst_times, 1.38, 1e-12);
    reading.ohm[2] = 5.9e-3; /* within what chargers and good packs scatter */
    assert_int_equal(group_of(&pack, &reading).worst, 0);
    reading.ohm[2] = 3e-3; /* one far below is no tired cell */
    assert_int_equal(group_of(&pack, &reading).worst, 0);
    pare_pack one = pack;
    one.cells = 1;
    reading.cells = 1;
    assert_int_equal(group_of(&one, &reading).worst, 0);
}

static void readings_that_cannot_be_are_refused(void **state)
{
    (void)state;
    const pare_pack pack = four_cells();
    const pare_charger_reading good = reads(PARE_READING_PULSE, 5);
    pare_charger_reading bad[6];
    for (int i = 0; i < 6; i++)
        bad[i] = good;
    bad[0].cells = 3;
    bad[1].ohm[1] = 0;
    bad[2].ohm[3] = (double)NAN;
    bad[3].degc = 90;
    bad[4].charge = 1.2;
    bad[5].seconds = -1;
    static const char *const text[6] = {
        "the charger read 3 cells of a pack of 4: one reading a cell, of at most 16 cells, would "
        "be "
        "right",
        "cell 2 reads 0 ohm: more than 0, to 100 ohm, would be right",
        "cell 4 reads nan ohm: more than 0, to 100 ohm, would be right",
        "the cells were read at 90 degC: -40 to 80 degC would be right",
        "the cells were read at a charge of 1.2: 0 to 1 would be right",
        "a pulse of -1 s: 0 to 600 s would be right"};
    for (int i = 0; i < 6; i++) {
        pare_group_reading group = {.ohm = 7};
        pare_error err;
        assert_int_equal(pare_charger_group(&pack, &bad[i], &group, &err), PARE_BAD_DATA);
        assert_string_equal(err.text, text[i]);
        assert_near(group.ohm, 7, 0);
    }
}

/* ---- several readings ---- */

static void the_newest_reading_of_each_pack_counts(void **state)
{
    (void)state;
    const pare_pack pack = four_cells();
    pare_charged row[] = {
        {.which = 1, .date = "2026-03-01", .reading = reads(PARE_READING_PULSE, 9)},
        {.which = 1, .date = "2026-04-01", .reading = reads(PARE_READING_PULSE, 5)},
        {.which = 1, .reading = reads(PARE_READING_PULSE, 12)},
        {.which = 2, .reading = reads(PARE_READING_PULSE, 20)},
        {.which = 2, .reading = reads(PARE_READING_PULSE, 7)},
        {.which = 2, .date = "2026-05-01", .holds_c = 1.3 * 3600},
    };
    pare_value ohm, holds_c;
    assert_int_equal(pare_charged_all(&pack, 6, row, &ohm, &holds_c, NULL), PARE_OK);
    assert_false(pare_charged_newest(6, row, 0));
    assert_true(pare_charged_newest(6, row, 1));
    assert_false(pare_charged_newest(6, row, 2));
    assert_false(pare_charged_newest(6, row, 3));
    assert_true(pare_charged_newest(6, row, 4));
    assert_false(pare_charged_newest(6, row, 5));
    assert_true(ohm.given && ohm.known == PARE_MEASURED);
    assert_within(ohm.value, (row[1].group.ohm + row[4].group.ohm) / 2, 1e-12);
    /* two packs, 1 mohm either side: their spread is in it */
    const double half = (row[4].group.ohm - row[1].group.ohm) / 2;
    const double own = (row[1].group.u * row[1].group.u + row[4].group.u * row[4].group.u) / 2;
    assert_within(ohm.u, sqrt(half * half + own), 1e-12);
    assert_true(holds_c.given);
    assert_within(holds_c.value, 1.3 * 3600, 1e-12);
    assert_within(holds_c.u, 0.03 * 1.3 * 3600, 1e-12);
}

static void a_charge_of_another_pack_is_refused(void **state)
{
    (void)state;
    const pare_pack pack = four_cells();
    pare_charged row[] = {{.which = 3, .date = "2026-04-01", .holds_c = 3 * 3600}};
    pare_value ohm, holds_c;
    pare_error err;
    assert_int_equal(pare_charged_all(&pack, 1, row, &ohm, &holds_c, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "charger, pack 3 on 2026-04-01: it gave 3000 mAh of the 1550 mAh "
                                  "stated: 77.5 to 2325 mAh would be right");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_reading_goes_there_and_back),
        cmocka_unit_test(the_kind_of_reading_matters),
        cmocka_unit_test(a_cold_reading_is_taken_back_to_25_degc),
        cmocka_unit_test(a_cell_far_above_its_mates_is_named),
        cmocka_unit_test(readings_that_cannot_be_are_refused),
        cmocka_unit_test(the_newest_reading_of_each_pack_counts),
        cmocka_unit_test(a_charge_of_another_pack_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
