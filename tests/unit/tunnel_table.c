/* rooms: craft physics base */
/* tunnel_table.c: which points of a tunnel can be, and in which order they are kept. */
#include <math.h>
#include <string.h>

#include "craft/tunnel_table.h"
#include "near.h"

#define RPM (3.14159265358979323846 / 30)

/* Made up, of the size that a 9 x 6 in propeller has. */
static const pare_tunnel_row POINTS[] = {
    {0.20, 4000 * RPM, 0.098, 0.0440}, {0.40, 4000 * RPM, 0.074, 0.0405},
    {0.00, 4000 * RPM, 0.112, 0.0450}, {0.60, 4000 * RPM, 0.038, 0.0285},
    {0.72, 4000 * RPM, 0.006, 0.0120}, {0.00, 3000 * RPM, 0.110, 0.0460},
};
enum { COUNT = sizeof POINTS / sizeof *POINTS };

static void refuses(const pare_tunnel_row *changed, size_t at, const char *what)
{
    pare_tunnel_row row[COUNT];
    size_t rows = 0, bad = 0;
    pare_error err = {0};
    memcpy(row, POINTS, sizeof row);
    row[at] = *changed;
    assert_int_equal(pare_tunnel_check(COUNT, row, 0.2286, &rows, &bad, &err), PARE_BAD_DATA);
    if (!strstr(err.text, what))
        fail_msg("'%s' is not in '%s'", what, err.text);
    assert_int_equal(bad, at);
}

static void points_that_can_be_come_out_by_speed_and_advance(void **state)
{
    (void)state;
    pare_tunnel_row row[COUNT + 1];
    size_t rows = 0, bad = 0;
    memcpy(row, POINTS, sizeof POINTS);
    row[COUNT] = POINTS[1]; /* again */
    assert_int_equal(pare_tunnel_check(COUNT + 1, row, 0.2286, &rows, &bad, NULL), PARE_OK);
    assert_int_equal(rows, COUNT);
    assert_near(row[0].speed_rad_s, 3000 * RPM, 0);
    for (size_t i = 2; i < rows; i++)
        assert_true(row[i].advance > row[i - 1].advance);
}

static void what_cannot_be_is_refused_with_its_point(void **state)
{
    (void)state;
    pare_tunnel_row row = POINTS[1];
    row.advance = -0.1;
    refuses(&row, 1, "an advance J of -0.1");
    row = POINTS[1];
    row.speed_rad_s = -400;
    refuses(&row, 1, "right would be above 0");
    row.speed_rad_s = 60000 * RPM;
    refuses(&row, 1, "the tips of 228.6 mm go 718 m/s");
    row = POINTS[1];
    row.ct = 7.4;
    refuses(&row, 1, "a CT of 7.4");
    row = POINTS[1];
    row.cp = (double)NAN;
    refuses(&row, 1, "a CP of nan");
    row = POINTS[2];
    row.ct = -0.112;
    refuses(&row, 2, "its sign is reversed");
    /* 0.098 (0.1 + sqrt(0.01 + 2 x 0.098/pi)) = 0.03617, by hand. */
    row = POINTS[0];
    row.cp = 0.02;
    refuses(&row, 0, "where an ideal rotor takes 0.03617");
}

/* J CT/CP is the efficiency; the ideal rotor's bound is below 1 at every advance. */
static void no_efficiency_above_1_passes(void **state)
{
    (void)state;
    for (int i = 1; i <= 30; i++) {
        const double advance = 0.1 * i, ct = 0.05;
        pare_tunnel_row row[2] = {{advance, 400, ct, advance * ct / 1.06}, {0, 400, 0.1, 0.05}};
        size_t rows = 0, bad = 0;
        pare_error err = {0};
        assert_int_equal(pare_tunnel_check(2, row, 0.2286, &rows, &bad, &err), PARE_BAD_DATA);
        assert_int_equal(bad, 0);
    }
}

static void one_point_is_no_table(void **state)
{
    (void)state;
    pare_tunnel_row row[1] = {POINTS[0]};
    size_t rows = 0, bad = 0;
    pare_error err = {0};
    assert_int_equal(pare_tunnel_check(1, row, 0.2286, &rows, &bad, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "1 point of a tunnel; right would be 2 to 1000");
    assert_int_equal(bad, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(points_that_can_be_come_out_by_speed_and_advance),
        cmocka_unit_test(what_cannot_be_is_refused_with_its_point),
        cmocka_unit_test(no_efficiency_above_1_passes),
        cmocka_unit_test(one_point_is_no_table),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
