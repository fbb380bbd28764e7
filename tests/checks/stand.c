/* rooms: craft physics base */
/* The chain from propeller to pack against two thrust stands.
 *
 * 5 in: student bench data by P. Cao and J. Strawson, 2018 (MIT licence): small motors of known stator
 * and kV on three cells' volts, thrust, amperes and speed; air density not written down (2 %).
 * 7 in: A. Spitzer, Carnegie Mellon University, 2019 (MIT licence): one three-blade propeller with
 * torque, three motors on their own ESCs at 16 V; pitch, windings and air not written down (2 %).
 *
 * The stand is a rig of one rotor whose weight is the thrust, on a pack without resistance whose
 * charge gives the volts that were measured. */
#include <math.h>

#include "craft/law.h"
#include "near.h"
#include "physics/rig.h"

#define PI           3.14159265358979323846
#define INCH_M       0.0254
#define RPM          (PI / 30)
#define GRAM_FORCE_N 9.80665e-3

static pare_air bench_air(void)
{
    /* 1.2 kg/m3: about 20 degC at 100 m */
    pare_air air;
    assert_int_equal(pare_air_at(100, 20, &air, NULL), PARE_OK);
    return air;
}

static pare_prop of_line(pare_prop_line line, double diameter_in, double pitch_in, int blades)
{
    const pare_prop_size size = {.diameter_m = diameter_in * INCH_M,
                                 .pitch_m = pitch_in * INCH_M,
                                 .blades = blades,
                                 .line = line};
    pare_prop prop;
    assert_int_equal(pare_prop_from_size(&size, pare_prop_set(false, line), &prop, NULL), PARE_OK);
    return prop;
}

static pare_prop sized(double diameter_in, double pitch_in, int blades)
{
    return of_line(PARE_LINE_UNKNOWN, diameter_in, pitch_in, blades);
}

/* The charge at which a pack's open volts are these. */
static double charge_of(const pare_pack *pack, double volts_v)
{
    double low = 0, high = 1;
    for (int i = 0; i < 60; i++) {
        const double middle = (low + high) / 2;
        *(pare_pack_open_v(pack, middle) < volts_v ? &low : &high) = middle;
    }
    return (low + high) / 2;
}

static pare_rig stand(const pare_prop *prop, int cells)
{
    pare_rig rig;
    pare_rig_defaults(&rig);
    rig.rotors = 1;
    rig.rotor.prop = prop;
    rig.air = bench_air();
    rig.motor.ambient_degc = 20;
    rig.blockage = 0;
    rig.drag_m2 = rig.drag_top_m2 = 0.01;
    rig.pack.cells = cells;
    rig.pack.capacity_c = 3600;
    rig.pack.group_ohm = 1e-9;
    rig.pack.lead_ohm = 0;
    return rig;
}

/* Infinite where full throttle does not give the thrust. */
static double amperes(pare_rig rig, double thrust_n, double volts_v)
{
    pare_operating point;
    rig.mass_kg = thrust_n / 9.80665;
    if (pare_rig_thrust(&rig, 1, charge_of(&rig.pack, volts_v), &point, NULL) != PARE_OK)
        return INFINITY;
    assert_within(point.pack_v, volts_v, 1e-5);
    return point.pack_a;
}

/* ---- 5 in ---- */

typedef struct kind {
    double kv_rpm_per_v, stator_mm, height_mm;
} kind;

static const kind a = {2600, 22, 5}, b = {2500, 18, 6}, c = {2450, 22, 6}, d = {2300, 22, 4},
                  e = {2400, 22, 5};

/* Two rows of one run: gentle and hard, before the supply's limit of 11 A. */
static const struct run {
    const kind *motor;
    double pitch_in;
    int blades;
    struct reading {
        double thrust_gf, volts_v, current_a, rpm;
    } reading[2];
} runs[] = {
    {&a, 4.5, 3, {{77.9, 7.396, 2.485, 7510}, {227.4, 7.267, 6.920, 12608}}},
    {&b, 4.5, 3, {{95.9, 11.077, 1.539, 8377}, {285.3, 10.917, 6.490, 14159}}},
    {&c, 4.5, 3, {{84.4, 11.084, 1.637, 7759}, {279.8, 10.927, 6.341, 13716}}},
    {&d, 4.5, 3, {{86.4, 11.090, 1.341, 8468}, {296.9, 10.942, 6.345, 15138}}},
    {&e, 4.5, 3, {{99.6, 11.052, 1.678, 9019}, {346.9, 10.875, 7.740, 16016}}},
    {&c, 4.0, 3, {{79.0, 11.089, 1.528, 7821}, {263.3, 10.963, 6.076, 13923}}},
    {&c, 4.0, 2, {{73.5, 11.099, 1.392, 7992}, {312.6, 10.938, 6.679, 16622}}},
    {&c, 4.0, 4, {{101.0, 11.079, 1.885, 7613}, {318.6, 10.927, 7.346, 13316}}},
};
enum { RUNS = sizeof runs / sizeof runs[0] };

/* Thrust at each reading's speed over the stand's; the mean of the logarithms is given. */
static double thrusts_within(pare_prop_line line, double low, double high)
{
    const pare_air air = bench_air();
    double sum = 0;
    for (size_t i = 0; i < RUNS; i++)
        for (int k = 0; k < 2; k++) {
            const struct reading *r = &runs[i].reading[k];
            const pare_prop prop = of_line(line, 5, runs[i].pitch_in, runs[i].blades);
            const pare_rotor rotor = {&prop, NULL, 1, 1};
            pare_rotor_state s;
            pare_rotor_at(&rotor, &air, r->rpm * RPM, 0, 0, &s);
            const double ratio = s.thrust_n / (r->thrust_gf * GRAM_FORCE_N);
            assert_between(ratio, low, high);
            sum += log(ratio);
        }
    return sum / (2 * RUNS);
}

static void five_inch_thrust_at_a_speed_is_that_of_the_stand(void **state)
{
    (void)state;
    /* Some propellers of one size differ by 7 %, and the air by 2 %. They come out at 0.87 to 1.11 with
     * the line known, all broad to the tip. By size alone four blades come out at 0.84 and a three-bladed
     * one at 1.15: the tunnel's few of three and four blades were made for studies. */
    assert_between(thrusts_within(PARE_LINE_BROAD, 0.86, 1.14), -0.06, 0.06);
    assert_between(thrusts_within(PARE_LINE_UNKNOWN, 0.82, 1.18), -0.08, 0.08);
}

static void five_inch_motors_draw_for_a_thrust_what_they_draw_on_the_stand(void **state)
{
    (void)state;
    /* From kV, stator, diameter, pitch and blades alone: winding and no-load current by the trade's
     * laws, the blade by the model. */
    double sum = 0;
    for (size_t i = 0; i < RUNS; i++)
        for (int k = 0; k < 2; k++) {
            const struct reading *r = &runs[i].reading[k];
            const kind *m = runs[i].motor;
            const double wide_m = m->stator_mm * 1e-3, high_m = m->height_mm * 1e-3;
            const pare_prop prop = sized(5, runs[i].pitch_in, runs[i].blades);
            pare_rig rig = stand(&prop, r->volts_v > 9 ? 3 : 2);
            rig.motor.kv_rpm_per_v = m->kv_rpm_per_v;
            rig.motor.resistance_ohm = pare_law_winding_ohm(m->kv_rpm_per_v, wide_m, high_m).value;
            rig.motor.no_load_a = pare_law_no_load_a(m->kv_rpm_per_v, wide_m, high_m).value;
            rig.motor.mass_kg = pare_law_motor_kg(wide_m, high_m).value;
            const double ratio =
                amperes(rig, r->thrust_gf * GRAM_FORCE_N, r->volts_v) / r->current_a;
            /* they come out at 0.66 (gentle, on two cells) to 1.12: windings scatter by 30 % */
            assert_between(ratio, 0.6, 1.35);
            sum += log(ratio);
        }
    assert_between(sum / (2 * RUNS), -0.15, 0.15);
}

/* ---- 7 in ---- */

typedef struct steady {
    double rpm, thrust_n, torque_nm, volts_v, current_a;
} steady;

enum { ROWS = 6 };
static const steady kv1600[ROWS] = {
    {5986, 1.499, 0.02303, 15.937, 1.349},   {7729, 2.628, 0.03835, 15.872, 2.827},
    {9497, 4.245, 0.05873, 15.784, 5.253},   {11159, 5.985, 0.08132, 15.636, 8.582},
    {13066, 8.348, 0.11208, 15.284, 14.782}, {15522, 11.846, 0.15718, 14.779, 27.503}};
static const steady kv1900[ROWS] = {
    {5377, 1.118, 0.01724, 15.960, 1.018},    {7969, 2.644, 0.03929, 15.887, 2.944},
    {10220, 4.690, 0.06535, 15.764, 6.130},   {12412, 7.286, 0.09663, 15.572, 11.156},
    {14975, 11.059, 0.14184, 15.171, 20.813}, {17306, 15.008, 0.18958, 14.604, 35.879}};

static void seven_inch_torque_goes_with_the_thrust_of_the_stand(void **state)
{
    (void)state;
    /* The pitch was not written down, so the pitch is what gives the thrust of one row; the torque of all
     * rows and the thrust of the others are then the model's. */
    const pare_air air = bench_air();
    const steady *of = &kv1600[3];
    double low_in = 2, high_in = 6;
    for (int i = 0; i < 40; i++) {
        const double middle = (low_in + high_in) / 2;
        const pare_prop prop = sized(7, middle, 3);
        const pare_rotor rotor = {&prop, NULL, 1, 1};
        pare_rotor_state s;
        pare_rotor_at(&rotor, &air, of->rpm * RPM, 0, 0, &s);
        *(s.thrust_n < of->thrust_n ? &low_in : &high_in) = middle;
    }
    assert_between(low_in, 2.5, 5.5); /* found, and not at an end of the search */
    const pare_prop prop = sized(7, low_in, 3);
    const pare_rotor rotor = {&prop, NULL, 1, 1};
    for (size_t i = 0; i < 2 * ROWS; i++) {
        const steady *row = i < ROWS ? &kv1600[i] : &kv1900[i - ROWS];
        pare_rotor_state s;
        pare_rotor_at(&rotor, &air, row->rpm * RPM, 0, 0, &s);
        /* thrust comes out 16 % high at the gentlest, torque 8 to 24 % high: it is a good propeller,
         * figure of merit 0.62 */
        assert_within(s.thrust_n, row->thrust_n, 0.18);
        assert_within(s.torque_nm, row->torque_nm, 0.28);
    }
}

/* A rig that gives a row's thrust and torque at its speed, whatever the blade model says. */
static pare_rig of_row(const steady *row, const pare_prop *prop)
{
    pare_rig rig = stand(prop, 4);
    const pare_rotor plain = {prop, NULL, 1, 1};
    pare_rotor_state s;
    pare_rotor_at(&plain, &rig.air, row->rpm * RPM, 0, 0, &s);
    rig.rotor.thrust_factor = row->thrust_n / s.thrust_n;
    rig.rotor.power_factor = row->torque_nm / s.torque_nm;
    return rig;
}

static double drawn(const steady *row, const pare_prop *prop, const pare_motor *motor)
{
    pare_rig rig = of_row(row, prop);
    rig.motor = *motor;
    return amperes(rig, row->thrust_n, row->volts_v);
}

static void set_by(const steady *row, const pare_prop *prop, pare_motor *motor, double *value,
                   double most)
{
    double low = 0, high = most;
    for (int i = 0; i < 40; i++) {
        *value = (low + high) / 2;
        *(drawn(row, prop, motor) < row->current_a ? &low : &high) = *value;
    }
}

/* No-load current and winding from the first and last row; the four between are predictions, of
 * which the greatest miss is given. They come out up to 5 % low. */
static double greatest_miss(const steady rows[ROWS], double kv_rpm_per_v, pare_motor *motor)
{
    const pare_prop prop = sized(7, 4, 3);
    const pare_rig rig = stand(&prop, 4);
    *motor = rig.motor;
    motor->kv_rpm_per_v = kv_rpm_per_v;
    motor->mass_kg = 0.045;
    for (int i = 0; i < 12; i++) {
        set_by(&rows[0], &prop, motor, &motor->no_load_a, 3);
        set_by(&rows[ROWS - 1], &prop, motor, &motor->resistance_ohm, 0.2);
    }
    double most = 0;
    for (int i = 1; i < ROWS - 1; i++)
        most = fmax(most, fabs(drawn(&rows[i], &prop, motor) / rows[i].current_a - 1));
    return most;
}

static void a_motor_known_at_two_loads_is_known_between_them(void **state)
{
    (void)state;
    pare_motor motor;
    assert_between(greatest_miss(kv1600, 1600, &motor), 0, 0.06);
    /* they come out as resistances on an ESC and no-load currents of motors of that size, no fudges */
    assert_between(motor.resistance_ohm * (1 + motor.drive_excess), 0.03, 0.12);
    assert_between(motor.no_load_a, 0.2, 2);
    assert_between(greatest_miss(kv1900, 1900, &motor), 0, 0.06);
    assert_between(motor.resistance_ohm * (1 + motor.drive_excess), 0.03, 0.12);
    assert_between(motor.no_load_a, 0.2, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(five_inch_thrust_at_a_speed_is_that_of_the_stand),
        cmocka_unit_test(five_inch_motors_draw_for_a_thrust_what_they_draw_on_the_stand),
        cmocka_unit_test(seven_inch_torque_goes_with_the_thrust_of_the_stand),
        cmocka_unit_test(a_motor_known_at_two_loads_is_known_between_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
