/* rooms: craft physics base */
/* stand_table.c: which readings of a stand can be, and in which order they are kept. The tables are
 * computed from laws here, CT and CP constant, so that what is refused is refused for one reason. */
#include <math.h>
#include <string.h>

#include "craft/stand_table.h"
#include "dice.h"
#include "near.h"

#define PI 3.14159265358979323846

enum { ROWS = 12, BOTH = 2 * ROWS };

static const pare_stand_pair PAIR = {.kv_rpm_per_v = 1750, .kv_u = 50, .diameter_m = 0.1295};

static pare_air sea_level(void)
{
    pare_air air = {0};
    assert_int_equal(pare_air_standard(0, &air, NULL), PARE_OK);
    return air;
}

/* A sweep of the throttle: the speed rises with it, thrust and torque with its square. */
static void sweep(double supply_v, size_t count, pare_stand_reading reading[])
{
    const double density = sea_level().density_kg_m3, d = PAIR.diameter_m;
    for (size_t i = 0; i < count; i++) {
        double *value = reading[i].value;
        const double throttle = (double)(i + 1) / (double)count;
        const double speed = 0.8 * throttle * PAIR.kv_rpm_per_v * supply_v * PI / 30;
        const double n = speed / (2 * PI);
        const double torque = 0.07 * density * n * n * pow(d, 5) / (2 * PI);
        for (int k = 0; k < PARE_STAND_COLUMNS; k++)
            value[k] = (double)NAN;
        value[PARE_STAND_THROTTLE] = throttle;
        value[PARE_STAND_VOLTS] = supply_v - 0.06 * supply_v * throttle;
        value[PARE_STAND_SPEED] = speed;
        value[PARE_STAND_TORQUE] = torque;
        value[PARE_STAND_THRUST] = 0.16 * density * n * n * pow(d, 4);
        value[PARE_STAND_CURRENT] = torque * speed / 0.75 / value[PARE_STAND_VOLTS];
    }
}

typedef struct checked {
    pare_status status;
    size_t rows;
    pare_stand_row row[BOTH];
    pare_stand_place place;
    pare_error err;
} checked;

static checked check(size_t count, const pare_stand_reading reading[])
{
    checked c = {0};
    const pare_air air = sea_level();
    c.status = pare_stand_check(count, reading, &PAIR, &air, c.row, &c.rows, &c.place, &c.err);
    return c;
}

static void refuses(size_t count, const pare_stand_reading reading[], size_t row,
                    pare_stand_column column, const char *what)
{
    const checked c = check(count, reading);
    assert_int_equal(c.status, PARE_BAD_DATA);
    if (!strstr(c.err.text, what))
        fail_msg("'%s' is not in '%s'", what, c.err.text);
    assert_int_equal(c.place.row, row);
    assert_int_equal(c.place.column, column);
}

static void a_sweep_that_can_be_is_kept_as_it_was_read(void **state)
{
    (void)state;
    pare_stand_reading reading[ROWS];
    sweep(16, ROWS, reading);
    const checked c = check(ROWS, reading);
    assert_int_equal(c.status, PARE_OK);
    assert_int_equal(c.rows, ROWS);
    for (size_t i = 0; i < ROWS; i++) {
        assert_near(c.row[i].throttle, reading[i].value[PARE_STAND_THROTTLE], 0);
        assert_near(c.row[i].thrust_n, reading[i].value[PARE_STAND_THRUST], 0);
        assert_near(c.row[i].current_a, reading[i].value[PARE_STAND_CURRENT], 0);
    }
}

static void the_order_as_typed_does_not_matter(void **state)
{
    (void)state;
    pare_stand_reading reading[BOTH];
    unsigned seed = 20260301;
    /* Two supply settings, each of which sags by 6 %. */
    sweep(16, ROWS, reading);
    sweep(12, ROWS, reading + ROWS);
    const checked before = check(BOTH, reading);
    assert_int_equal(before.status, PARE_OK);
    for (size_t i = 0; i < BOTH; i++) {
        const bool low = i < ROWS;
        assert_true(before.row[i].volts_v < 12.1 ? low : !low);
        if (i != 0 && i != ROWS)
            assert_true(before.row[i].throttle > before.row[i - 1].throttle);
    }
    for (int times = 0; times < 50; times++) {
        for (size_t i = BOTH - 1; i > 0; i--) {
            const size_t k = dice(&seed, (unsigned)(i + 1));
            const pare_stand_reading kept = reading[i];
            reading[i] = reading[k];
            reading[k] = kept;
        }
        const checked after = check(BOTH, reading);
        assert_int_equal(after.status, PARE_OK);
        assert_memory_equal(after.row, before.row, sizeof before.row);
    }
}

static void power_stands_in_for_current(void **state)
{
    (void)state;
    pare_stand_reading reading[ROWS];
    sweep(16, ROWS, reading);
    for (size_t i = 0; i < ROWS; i++) {
        double *value = reading[i].value;
        value[PARE_STAND_POWER] = value[PARE_STAND_VOLTS] * value[PARE_STAND_CURRENT];
        value[PARE_STAND_CURRENT] = (double)NAN;
    }
    const checked with = check(ROWS, reading);
    sweep(16, ROWS, reading);
    const checked without = check(ROWS, reading);
    assert_int_equal(with.status, PARE_OK);
    for (size_t i = 0; i < ROWS; i++)
        assert_within(with.row[i].current_a, without.row[i].current_a, 1e-12);
}

static void rows_that_stand_twice_are_kept_once(void **state)
{
    (void)state;
    pare_stand_reading reading[ROWS + 1];
    sweep(16, ROWS, reading);
    reading[ROWS] = reading[3];
    checked c = check(ROWS + 1, reading);
    assert_int_equal(c.status, PARE_OK);
    assert_int_equal(c.rows, ROWS);
    /* Nearly the same is another reading of it. */
    reading[ROWS].value[PARE_STAND_THRUST] *= 1.03;
    c = check(ROWS + 1, reading);
    assert_int_equal(c.status, PARE_OK);
    assert_int_equal(c.rows, ROWS + 1);
}

static void a_row_read_before_the_speed_has_settled_is_kept(void **state)
{
    (void)state;
    pare_stand_reading reading[ROWS + 1];
    sweep(16, ROWS, reading);
    reading[ROWS] = reading[8];
    double *value = reading[ROWS].value;
    value[PARE_STAND_SPEED] *= 0.8;
    value[PARE_STAND_THRUST] *= 0.64;
    value[PARE_STAND_TORQUE] *= 0.64;
    checked c = check(ROWS + 1, reading);
    assert_int_equal(c.status, PARE_OK);
    assert_int_equal(c.rows, ROWS + 1);
    /* The same thrust at the same speed cannot be two. */
    value[PARE_STAND_SPEED] /= 0.8;
    value[PARE_STAND_TORQUE] /= 0.64;
    refuses(ROWS + 1, reading, ROWS, PARE_STAND_THRUST, "row 13: ");
}

static void what_cannot_be_is_refused_with_its_row(void **state)
{
    (void)state;
    static const struct {
        pare_stand_column column;
        double times, plus;
        pare_stand_column blamed;
        const char *what;
    } cases[] = {
        {PARE_STAND_SPEED, -1, 0, PARE_STAND_SPEED, "row 8: speed -"},
        {PARE_STAND_SPEED, 7, 0, PARE_STAND_SPEED, "but the motor runs free at"},
        {PARE_STAND_THRUST, -1, 0, PARE_STAND_THRUST, "its sign is reversed"},
        {PARE_STAND_THRUST, 9.80665, 0, PARE_STAND_THRUST, "an ideal rotor of this diameter takes"},
        {PARE_STAND_TORQUE, -1, 0, PARE_STAND_TORQUE, "its sign is reversed"},
        {PARE_STAND_TORQUE, 1.5, 0, PARE_STAND_TORQUE, "an efficiency above 1"},
        {PARE_STAND_TORQUE, 0.2, 0, PARE_STAND_TORQUE, "at the shaft, where an ideal rotor"},
        {PARE_STAND_CURRENT, 0.1, 0, PARE_STAND_TORQUE, "an efficiency above 1"},
        {PARE_STAND_CURRENT, -1, 0, PARE_STAND_CURRENT, "right would be 0 A or more"},
        {PARE_STAND_THROTTLE, 100, 0, PARE_STAND_THROTTLE, "right would be 0 % to 100 %"},
        {PARE_STAND_VOLTS, 0, 0, PARE_STAND_VOLTS, "right would be 0.5 V to 120 V"},
        {PARE_STAND_VOLTS, 1000, 0, PARE_STAND_VOLTS, "right would be 0.5 V to 120 V"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        pare_stand_reading reading[ROWS];
        sweep(16, ROWS, reading);
        double *value = &reading[7].value[cases[i].column];
        *value = *value * cases[i].times + cases[i].plus;
        refuses(ROWS, reading, 7, cases[i].blamed, cases[i].what);
    }
}

/* Momentum theory: P = T sqrt(T/(2 rho A)). For 10 N on 0.1295 m at sea level, by hand:
 * A = 0.013171 m2, 2 rho A = 0.032270 kg/m, sqrt(10/0.032270) = 17.604 m/s, times 10 N = 176.0 W. */
static void the_least_power_is_that_of_the_ideal_rotor(void **state)
{
    (void)state;
    pare_stand_reading reading[2];
    for (size_t i = 0; i < 2; i++)
        for (int k = 0; k < PARE_STAND_COLUMNS; k++)
            reading[i].value[k] = (double)NAN;
    reading[0].value[PARE_STAND_VOLTS] = reading[1].value[PARE_STAND_VOLTS] = 10;
    reading[0].value[PARE_STAND_THRUST] = 0;
    reading[0].value[PARE_STAND_CURRENT] = 0;
    reading[1].value[PARE_STAND_THRUST] = 10;
    reading[1].value[PARE_STAND_CURRENT] = 17.604;
    assert_int_equal(check(2, reading).status, PARE_OK);
    /* Two instruments may be off by 3 % together. */
    reading[1].value[PARE_STAND_CURRENT] = 17.604 * 0.96;
    refuses(2, reading, 1, PARE_STAND_THRUST, "takes 176 W");
}

static void small_readings_are_the_zero_of_an_instrument(void **state)
{
    (void)state;
    pare_stand_reading reading[ROWS];
    sweep(16, ROWS, reading);
    reading[0].value[PARE_STAND_THRUST] = -0.03;
    reading[0].value[PARE_STAND_CURRENT] = -0.05;
    assert_int_equal(check(ROWS, reading).status, PARE_OK);
}

static void a_table_needs_two_rows_and_three_columns(void **state)
{
    (void)state;
    static const pare_stand_column needed[] = {PARE_STAND_VOLTS, PARE_STAND_THRUST,
                                               PARE_STAND_CURRENT};
    static const char *const what[] = {"without volts", "without thrust",
                                       "without current or power"};
    pare_stand_reading reading[ROWS];
    sweep(16, ROWS, reading);
    refuses(0, reading, PARE_STAND_ROWS, PARE_STAND_COLUMNS, "of 0 rows");
    refuses(1, reading, PARE_STAND_ROWS, PARE_STAND_COLUMNS, "of 1 row; right would be two");
    reading[1] = reading[0];
    refuses(2, reading, PARE_STAND_ROWS, PARE_STAND_COLUMNS, "one row, again and again");
    refuses(PARE_STAND_ROWS + 1, reading, PARE_STAND_ROWS, PARE_STAND_COLUMNS,
            "of more than 2000 rows");
    for (size_t i = 0; i < 3; i++) {
        sweep(16, ROWS, reading);
        for (size_t k = 0; k < ROWS; k++)
            reading[k].value[needed[i]] = (double)NAN;
        refuses(ROWS, reading, PARE_STAND_ROWS, PARE_STAND_COLUMNS, what[i]);
    }
    sweep(16, ROWS, reading);
    for (size_t k = 0; k < ROWS; k++)
        reading[k].value[PARE_STAND_THRUST] = 0;
    refuses(ROWS, reading, PARE_STAND_ROWS, PARE_STAND_COLUMNS, "without thrust above 0");
}

static void what_is_not_known_of_the_pair_is_not_held_against_it(void **state)
{
    (void)state;
    pare_stand_reading reading[ROWS];
    const pare_stand_pair nothing = {0};
    const pare_air air = sea_level();
    checked c = {0};
    sweep(16, ROWS, reading);
    for (size_t i = 0; i < ROWS; i++)
        reading[i].value[PARE_STAND_SPEED] *= 1.3;
    assert_int_equal(check(ROWS, reading).status, PARE_BAD_DATA);
    c.status = pare_stand_check(ROWS, reading, &nothing, &air, c.row, &c.rows, &c.place, &c.err);
    assert_int_equal(c.status, PARE_OK);
}

static void tables_are_found_by_their_pair(void **state)
{
    (void)state;
    const pare_stand_table tables[] = {{.motor = "a", .propeller = "p"},
                                       {.motor = "b", .propeller = "p"},
                                       {.motor = "b", .propeller = "p"},
                                       {.motor = "b", .propeller = "q"}};
    size_t found = 0;
    assert_ptr_equal(pare_stand_of(4, tables, "b", "p", &found), &tables[1]);
    assert_int_equal(found, 2);
    assert_ptr_equal(pare_stand_of(4, tables, "b", "q", &found), &tables[3]);
    assert_int_equal(found, 1);
    assert_null(pare_stand_of(4, tables, "a", "q", &found));
    assert_int_equal(found, 0);
    assert_null(pare_stand_of(0, NULL, "a", "p", &found));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sweep_that_can_be_is_kept_as_it_was_read),
        cmocka_unit_test(the_order_as_typed_does_not_matter),
        cmocka_unit_test(power_stands_in_for_current),
        cmocka_unit_test(rows_that_stand_twice_are_kept_once),
        cmocka_unit_test(a_row_read_before_the_speed_has_settled_is_kept),
        cmocka_unit_test(what_cannot_be_is_refused_with_its_row),
        cmocka_unit_test(the_least_power_is_that_of_the_ideal_rotor),
        cmocka_unit_test(small_readings_are_the_zero_of_an_instrument),
        cmocka_unit_test(a_table_needs_two_rows_and_three_columns),
        cmocka_unit_test(what_is_not_known_of_the_pair_is_not_held_against_it),
        cmocka_unit_test(tables_are_found_by_their_pair),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
