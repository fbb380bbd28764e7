/* rooms: physics base */
/* Propellers against a wind tunnel: the UIUC Propeller Data Site, volumes 1 to 4 (Brandt, Deters,
 * Ananda, Dantsker, Selig, University of Illinois at Urbana-Champaign; AIAA 2011-1255, 2014-2151,
 * 2020-2762): a few rows of each kind and size, typed from its tables, CT = T/(rho n^2 D^4) and
 * CP = P/(rho n^3 D^5).
 *
 * Two measures. A row may not lie farther off than 2.5 of the standard uncertainties that the model
 * owns to; and the rows together may be neither farther off than these nor far nearer, else the
 * uncertainty would be a boast or say nothing. */
#include <math.h>
#include <stdio.h>

#include "near.h"
#include "physics/prop.h"

#define PI     3.14159265358979323846
#define INCH_M 0.0254
#define RPM    (PI / 30)
#define FAR    2.5

typedef struct row {
    double diameter_in, pitch_in;
    int blades;
    bool slow;
    double rpm, advance, ct, cp;
} row;

static pare_air sea_level(void)
{
    pare_air air;
    assert_int_equal(pare_air_standard(0, &air, NULL), PARE_OK);
    return air;
}

static pare_prop sized(const row *r)
{
    const pare_prop_size size = {.diameter_m = r->diameter_in * INCH_M,
                                 .pitch_m = r->pitch_in * INCH_M,
                                 .blades = r->blades,
                                 .line = r->slow ? PARE_LINE_SLOW : PARE_LINE_UNKNOWN};
    pare_prop prop;
    assert_int_equal(pare_prop_from_size(&size, pare_prop_set(false, size.line), &prop, NULL),
                     PARE_OK);
    return prop;
}

/* Misses, as logarithms of predicted over measured, over the uncertainty. */
typedef struct miss {
    double ct, cp;
} miss;

static miss missed(const pare_prop *prop, const row *r)
{
    const pare_air air = sea_level();
    double ct, cp, still_ct, still_cp;
    pare_prop_coefficients(prop, r->advance, r->rpm * RPM, &air, &ct, &cp);
    pare_prop_coefficients(prop, 0, r->rpm * RPM, &air, &still_ct, &still_cp);
    const pare_prop_doubt u = pare_prop_model_doubt(prop, r->advance > 0, ct / still_ct);
    return (miss){log(ct / r->ct) / u.thrust_u, log(cp / r->cp) / u.power_u};
}

static void no_row_is_far_off(size_t count, const row table[])
{
    for (size_t i = 0; i < count; i++) {
        const pare_prop prop = sized(&table[i]);
        const miss m = missed(&prop, &table[i]);
        if (!(fabs(m.ct) < FAR && fabs(m.cp) < FAR))
            fail_msg("%g x %g in, %d blades, %g rpm, J %g: CT off by %.2f u, CP by %.2f u",
                     table[i].diameter_in, table[i].pitch_in, table[i].blades, table[i].rpm,
                     table[i].advance, m.ct, m.cp);
    }
}

#define NO_ROW_IS_FAR_OFF(table) no_row_is_far_off(sizeof(table) / sizeof((table)[0]), table)

/* ---- at rest ---- */

static const row small_at_rest[] = {
    /* volume 2: a broad 2.5 in, a broad 3 in, a 4.2 in sport propeller */
    {2.5, 0.8, 2, false, 15006.667, 0, 0.061549, 0.026697},
    {2.5, 0.8, 2, false, 25986.667, 0, 0.061405, 0.026134},
    {3.0, 2.0, 2, false, 11980.000, 0, 0.135046, 0.070086},
    {3.0, 2.0, 2, false, 18936.667, 0, 0.137922, 0.068744},
    {4.2, 2.0, 2, false, 8973.333, 0, 0.081539, 0.042386},
    {4.2, 2.0, 2, false, 15000.000, 0, 0.090267, 0.041680},
};

static const row five_inch_at_rest[] = {
    /* volume 2: tapered research propellers of low and middle pitch, an electric one of 130 x 70 mm */
    {5.0, 1.58, 2, false, 6966.667, 0, 0.055426, 0.023339},
    {5.0, 1.58, 2, false, 11980.000, 0, 0.052928, 0.021221},
    {5.0, 3.75, 2, false, 5000.000, 0, 0.118171, 0.078325},
    {5.0, 3.75, 2, false, 7936.667, 0, 0.117500, 0.073174},
    {130 / 25.4, 70 / 25.4, 2, false, 5413.333, 0, 0.102428, 0.045570},
    {130 / 25.4, 70 / 25.4, 2, false, 9426.667, 0, 0.112405, 0.046455},
};

static const row middling_at_rest[] = {
    /* volume 1: thin electric, sport and slow-flying propellers of 8 to 11 in */
    {8.0, 8.0, 2, false, 4590, 0, 0.1284, 0.1145},  {9.0, 4.5, 2, false, 4830, 0, 0.0978, 0.0384},
    {9.0, 4.5, 2, false, 6922, 0, 0.1012, 0.0392},  {9.0, 7.0, 2, false, 4745, 0, 0.1081, 0.0609},
    {10.0, 5.0, 2, false, 4743, 0, 0.0959, 0.0367}, {10.0, 5.0, 2, false, 6708, 0, 0.0994, 0.0379},
    {10.0, 7.0, 2, false, 4409, 0, 0.1050, 0.0533}, {11.0, 5.5, 2, false, 4350, 0, 0.0862, 0.0312},
};

static const row slow_at_rest[] = {
    /* volume 1: slow-flying propellers */
    {8.0, 3.8, 2, true, 5132, 0, 0.1035, 0.0441},  {8.0, 3.8, 2, true, 7015, 0, 0.1143, 0.0481},
    {9.0, 4.7, 2, true, 4900, 0, 0.1197, 0.0505},  {9.0, 4.7, 2, true, 6827, 0, 0.1192, 0.0486},
    {10.0, 7.0, 2, true, 4280, 0, 0.1523, 0.0735}, {10.0, 7.0, 2, true, 5987, 0, 0.1606, 0.0797},
};

static const row large_at_rest[] = {
    /* volume 4: thin electric propellers */
    {12.0, 6.0, 2, false, 4453.333, 0, 0.101437, 0.032206},
    {12.0, 8.0, 2, false, 4460.000, 0, 0.117051, 0.042539},
    {13.0, 8.0, 2, false, 4493.333, 0, 0.107162, 0.036217},
    {14.0, 10.0, 2, false, 3953.333, 0, 0.107798, 0.041925},
    {16.0, 10.0, 2, false, 4000.000, 0, 0.108999, 0.037693},
    {18.0, 12.0, 2, false, 3473.333, 0, 0.111435, 0.038487},
};

static const row many_blades_at_rest[] = {
    /* volume 2: tapered research propellers of three and four blades */
    {5.0, 3.75, 3, false, 4997.778, 0, 0.149366, 0.099282},
    {5.0, 3.75, 3, false, 7946.667, 0, 0.149294, 0.094482},
    {9.0, 6.75, 3, false, 3720.000, 0, 0.148889, 0.086006},
    {5.0, 3.75, 4, false, 4473.333, 0, 0.172653, 0.120277},
    {5.0, 3.75, 4, false, 6935.000, 0, 0.174561, 0.114033},
};

/* ---- in flight ---- */

static const row small_in_flight[] = {
    /* volume 2: 3 x 2 in, 5 x 3.75 in, 130 x 70 mm, each from slow to near half of the most CT */
    {3.0, 2.0, 2, false, 19047, 0.136105, 0.121358, 0.064242},
    {3.0, 2.0, 2, false, 19047, 0.250904, 0.099381, 0.058167},
    {3.0, 2.0, 2, false, 19047, 0.363975, 0.076544, 0.050940},
    {5.0, 3.75, 2, false, 6045, 0.238359, 0.105089, 0.065723},
    {5.0, 3.75, 2, false, 6045, 0.381551, 0.083911, 0.059531},
    {5.0, 3.75, 2, false, 6045, 0.519125, 0.057674, 0.048209},
    {130 / 25.4, 70 / 25.4, 2, false, 7051, 0.156620, 0.085894, 0.043042},
    {130 / 25.4, 70 / 25.4, 2, false, 7051, 0.274193, 0.068461, 0.038414},
    {130 / 25.4, 70 / 25.4, 2, false, 7051, 0.394505, 0.049045, 0.032619},
};

static const row middling_in_flight[] = {
    /* volume 1: thin electric 10 x 5 and 10 x 7 in, sport 9 x 7 in, slow-flying 8 x 3.8 in */
    {10.0, 5.0, 2, false, 5000, 0.174, 0.0864, 0.0389},
    {10.0, 5.0, 2, false, 5000, 0.291, 0.0662, 0.0360},
    {10.0, 5.0, 2, false, 5000, 0.401, 0.0451, 0.0291},
    {10.0, 7.0, 2, false, 5018, 0.202, 0.1017, 0.0525},
    {10.0, 7.0, 2, false, 5018, 0.372, 0.0865, 0.0527},
    {10.0, 7.0, 2, false, 5018, 0.547, 0.0504, 0.0402},
    {9.0, 7.0, 2, false, 5017, 0.222, 0.1050, 0.0605},
    {9.0, 7.0, 2, false, 5017, 0.415, 0.0889, 0.0613},
    {9.0, 7.0, 2, false, 5017, 0.608, 0.0514, 0.0471},
    {8.0, 3.8, 2, true, 6018, 0.142, 0.0928, 0.0444},
    {8.0, 3.8, 2, true, 6018, 0.266, 0.0759, 0.0417},
    {8.0, 3.8, 2, true, 6018, 0.390, 0.0560, 0.0371},
};

static const row large_in_flight[] = {
    /* volume 4: thin electric 12 x 8, 14 x 10 and 18 x 12 in */
    {12.0, 8.0, 2, false, 4991, 0.207148, 0.108681, 0.046827},
    {12.0, 8.0, 2, false, 4991, 0.355113, 0.092000, 0.047912},
    {12.0, 8.0, 2, false, 5045, 0.519734, 0.052688, 0.036241},
    {14.0, 10.0, 2, false, 4955, 0.217638, 0.101211, 0.044380},
    {14.0, 10.0, 2, false, 5011, 0.406012, 0.083460, 0.045410},
    {14.0, 10.0, 2, false, 5011, 0.550076, 0.055000, 0.037408},
    {18.0, 12.0, 2, false, 3958, 0.207582, 0.103368, 0.042854},
    {18.0, 12.0, 2, false, 4017, 0.390427, 0.083312, 0.043221},
    {18.0, 12.0, 2, false, 4017, 0.544424, 0.056448, 0.036765},
};

static const row many_blades_in_flight[] = {
    /* volume 2: tapered research propellers */
    {9.0, 6.75, 3, false, 4042, 0.230900, 0.128090, 0.076506},
    {9.0, 6.75, 3, false, 4042, 0.388893, 0.098343, 0.068645},
    {9.0, 6.75, 3, false, 4042, 0.549221, 0.061897, 0.052964},
    {5.0, 3.75, 3, false, 6054, 0.235944, 0.128946, 0.086819},
    {5.0, 3.75, 3, false, 6054, 0.378639, 0.098826, 0.076296},
    {5.0, 3.75, 3, false, 6054, 0.520638, 0.062717, 0.058513},
    {5.0, 3.75, 4, false, 6042, 0.236688, 0.146654, 0.106014},
    {5.0, 3.75, 4, false, 6042, 0.379166, 0.109662, 0.090724},
    {5.0, 3.75, 4, false, 6042, 0.525442, 0.065563, 0.068180},
};

static void propellers_of_2_to_4_in_pull_at_rest_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(small_at_rest);
}

static void propellers_of_5_in_pull_at_rest_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(five_inch_at_rest);
}

static void propellers_of_8_to_11_in_pull_at_rest_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(middling_at_rest);
}

static void slow_flying_propellers_pull_at_rest_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(slow_at_rest);
}

static void propellers_of_12_to_18_in_pull_at_rest_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(large_at_rest);
}

static void three_and_four_blades_pull_at_rest_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(many_blades_at_rest);
}

static void propellers_of_3_to_5_in_pull_in_flight_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(small_in_flight);
}

static void propellers_of_8_to_10_in_pull_in_flight_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(middling_in_flight);
}

static void propellers_of_12_to_18_in_pull_in_flight_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(large_in_flight);
}

static void three_and_four_blades_pull_in_flight_as_in_the_tunnel(void **state)
{
    (void)state;
    NO_ROW_IS_FAR_OFF(many_blades_in_flight);
}

/* ---- all together ---- */

typedef struct sums {
    double ct, cp, ct2, cp2;
    size_t count;
} sums;

static void add_rows(sums *sum, size_t count, const row table[])
{
    for (size_t i = 0; i < count; i++) {
        const pare_prop prop = sized(&table[i]);
        const miss m = missed(&prop, &table[i]);
        sum->ct += m.ct;
        sum->cp += m.cp;
        sum->ct2 += m.ct * m.ct;
        sum->cp2 += m.cp * m.cp;
        sum->count++;
    }
}

#define ADD_ROWS(sum, table) add_rows(sum, sizeof(table) / sizeof((table)[0]), table)

/* Some two dozen propellers: the mean of their misses is known to about a fifth of an uncertainty, so
 * that one of 0.6 is a bias; a root mean square below 0.3 or above 1.5 belies the uncertainty. */
static void is_honest(const sums *sum)
{
    const double n = (double)sum->count;
    assert_between(sum->ct / n, -0.6, 0.6);
    assert_between(sum->cp / n, -0.6, 0.6);
    assert_between(sqrt(sum->ct2 / n), 0.3, 1.5);
    assert_between(sqrt(sum->cp2 / n), 0.3, 1.5);
}

static void misses_at_rest_are_of_the_size_that_the_model_owns_to(void **state)
{
    (void)state;
    sums sum = {0};
    ADD_ROWS(&sum, small_at_rest);
    ADD_ROWS(&sum, five_inch_at_rest);
    ADD_ROWS(&sum, middling_at_rest);
    ADD_ROWS(&sum, slow_at_rest);
    ADD_ROWS(&sum, large_at_rest);
    ADD_ROWS(&sum, many_blades_at_rest);
    is_honest(&sum);
}

static void misses_in_flight_are_of_the_size_that_the_model_owns_to(void **state)
{
    (void)state;
    sums sum = {0};
    ADD_ROWS(&sum, small_in_flight);
    ADD_ROWS(&sum, middling_in_flight);
    ADD_ROWS(&sum, large_in_flight);
    ADD_ROWS(&sum, many_blades_in_flight);
    is_honest(&sum);
}

/* ---- measured blades ---- */

enum { STATIONS = 18 }; /* r/R 0.15 to 1 by 0.05 */
typedef struct blade {
    double diameter_in;
    int blades;
    bool slow;
    const double *chord, *twist_deg;
} blade;

/* Volume 2: a research blade of constant chord, two, three or four of it on one hub. */
static const double even_chord[STATIONS] = {0.1193, 0.1286, 0.1828, 0.2233, 0.2332, 0.2301,
                                            0.2288, 0.2302, 0.2310, 0.2304, 0.2299, 0.2300,
                                            0.2301, 0.2303, 0.2307, 0.2308, 0.2179, 0.0282};
static const double even_twist_deg[STATIONS] = {42.796, 44.686, 40.682, 37.035, 33.643, 30.338,
                                                27.662, 25.566, 23.829, 22.353, 21.112, 20.013,
                                                18.971, 18.002, 17.117, 16.205, 12.840, 6.329};
/* Volume 2: a broad 3 x 2 in. */
static const double broad_chord[STATIONS] = {0.3065, 0.3085, 0.3057, 0.3031, 0.3004, 0.2967,
                                             0.2930, 0.2903, 0.2880, 0.2853, 0.2831, 0.2819,
                                             0.2806, 0.2792, 0.2783, 0.2771, 0.2530, 0.1128};
static const double broad_twist_deg[STATIONS] = {29.162, 28.401, 27.590, 26.619, 25.551, 24.328,
                                                 22.961, 21.390, 19.813, 18.338, 16.920, 15.720,
                                                 14.706, 13.837, 13.045, 12.249, 11.436, 5.540};
/* Volume 1: a slow-flying 10 x 7 in. */
static const double slow_chord[STATIONS] = {0.109, 0.132, 0.155, 0.175, 0.192, 0.206,
                                            0.216, 0.222, 0.225, 0.224, 0.219, 0.210,
                                            0.197, 0.180, 0.159, 0.133, 0.092, 0.049};
static const double slow_twist_deg[STATIONS] = {34.86, 37.60, 36.15, 33.87, 31.25, 28.48,
                                                25.60, 22.79, 20.49, 18.70, 17.14, 15.64,
                                                14.38, 13.11, 11.83, 10.65, 9.53,  8.43};
/* Volume 1: a thin electric 10 x 5 in. */
static const double thin_chord[STATIONS] = {0.130, 0.149, 0.173, 0.189, 0.197, 0.201,
                                            0.200, 0.194, 0.186, 0.174, 0.160, 0.145,
                                            0.128, 0.112, 0.096, 0.081, 0.061, 0.041};
static const double thin_twist_deg[STATIONS] = {32.76, 37.19, 33.54, 29.25, 25.64, 22.54,
                                                20.27, 18.46, 17.05, 15.97, 14.87, 14.09,
                                                13.39, 12.84, 12.25, 11.37, 10.19, 8.99};

static pare_prop built(const blade *b)
{
    double radius[STATIONS], twist_rad[STATIONS];
    for (int i = 0; i < STATIONS; i++) {
        radius[i] = fmin(1, 0.15 + 0.05 * i);
        twist_rad[i] = b->twist_deg[i] * PI / 180;
    }
    const pare_prop_line line = b->slow ? PARE_LINE_SLOW : PARE_LINE_UNKNOWN;
    pare_prop prop;
    assert_int_equal(pare_prop_from_stations(b->diameter_in * INCH_M, b->blades, line, STATIONS,
                                             radius, b->chord, twist_rad, pare_prop_set(true, line),
                                             &prop, NULL),
                     PARE_OK);
    return prop;
}

static void blade_is_not_far_off(const blade *b, size_t count, const row table[])
{
    const pare_prop prop = built(b);
    for (size_t i = 0; i < count; i++) {
        const miss m = missed(&prop, &table[i]);
        if (!(fabs(m.ct) < FAR && fabs(m.cp) < FAR))
            fail_msg("%g in, %d blades, %g rpm, J %g: CT off by %.2f u, CP by %.2f u",
                     b->diameter_in, b->blades, table[i].rpm, table[i].advance, m.ct, m.cp);
    }
}

static void one_measured_blade_pulls_two_three_and_four_times_over(void **state)
{
    (void)state;
    static const row two[] = {{.rpm = 4933.333, .ct = 0.151599, .cp = 0.077399},
                              {.rpm = 4055, .advance = 0.660392, .ct = 0.036903, .cp = 0.038017}};
    static const row three[] = {{.rpm = 3440.000, .ct = 0.200898, .cp = 0.113009},
                                {.rpm = 4041, .advance = 0.391243, .ct = 0.126564, .cp = 0.092387},
                                {.rpm = 4041, .advance = 0.550606, .ct = 0.082370, .cp = 0.072021}};
    static const row four[] = {{.rpm = 3203.333, .ct = 0.241329, .cp = 0.147320},
                               {.rpm = 4036, .advance = 0.387024, .ct = 0.155026, .cp = 0.118286},
                               {.rpm = 4036, .advance = 0.545675, .ct = 0.103285, .cp = 0.092347}};
    blade_is_not_far_off(&(blade){9, 2, false, even_chord, even_twist_deg}, 2, two);
    blade_is_not_far_off(&(blade){9, 3, false, even_chord, even_twist_deg}, 3, three);
    blade_is_not_far_off(&(blade){9, 4, false, even_chord, even_twist_deg}, 3, four);
}

static void a_measured_broad_blade_of_3_in_pulls_as_in_the_tunnel(void **state)
{
    (void)state;
    blade_is_not_far_off(&(blade){3, 2, false, broad_chord, broad_twist_deg}, 2, small_at_rest + 2);
    blade_is_not_far_off(&(blade){3, 2, false, broad_chord, broad_twist_deg}, 3, small_in_flight);
}

static void a_measured_slow_blade_of_10_in_pulls_as_in_the_tunnel(void **state)
{
    (void)state;
    static const row flying[] = {{.rpm = 5003, .advance = 0.202, .ct = 0.1379, .cp = 0.0757},
                                 {.rpm = 5003, .advance = 0.342, .ct = 0.1145, .cp = 0.0706},
                                 {.rpm = 5003, .advance = 0.482, .ct = 0.0872, .cp = 0.0616},
                                 {.rpm = 5006, .advance = 0.631, .ct = 0.0580, .cp = 0.0499}};
    const blade b = {10, 2, true, slow_chord, slow_twist_deg};
    blade_is_not_far_off(&b, 2, slow_at_rest + 4);
    blade_is_not_far_off(&b, 4, flying);
}

static void a_measured_thin_blade_of_10_in_pulls_as_in_the_tunnel(void **state)
{
    (void)state;
    const blade b = {10, 2, false, thin_chord, thin_twist_deg};
    blade_is_not_far_off(&b, 2, middling_at_rest + 4);
    blade_is_not_far_off(&b, 3, middling_in_flight);
}

/* ---- what follows from a whole curve ---- */

static double zero_thrust_advance(const pare_prop *prop, double rpm)
{
    const pare_air air = sea_level();
    double low = 0.3, high = 1.6, ct, cp;
    while (high - low > 1e-6) {
        const double middle = (low + high) / 2;
        pare_prop_coefficients(prop, middle, rpm * RPM, &air, &ct, &cp);
        *(ct > 0 ? &low : &high) = middle;
    }
    return low;
}

static void thrust_ends_at_the_advance_ratio_of_the_tunnel(void **state)
{
    (void)state;
    /* The straight line between the last row that pulls and the first that drags. The zero of thrust
     * is the pitch and the angle of zero lift near the tip; these rows come out 0.05 low to 0.06 high,
     * the tapered research propellers farthest, whose nominal pitch is that of one station. */
    static const struct {
        row of;
        double advance;
    } table[] = {
        {{10, 5, 2, false, 4993, 0, 0, 0}, 0.639 + 0.028 * 0.0043 / 0.0053},
        {{10, 7, 2, false, 5001, 0, 0, 0}, 0.810 + 0.031 * 0.0025 / 0.0059},
        {{12, 8, 2, false, 5045, 0, 0, 0}, 0.759869 + 0.024556 * 0.002428 / 0.005407},
        {{14, 10, 2, false, 5011, 0, 0, 0}, 0.794409 + 0.018879 * 0.003668 / 0.004579},
        {{9, 6.75, 3, false, 4042, 0, 0, 0}, 0.747867 + 0.040657 * 0.002326 / 0.011915},
        {{5, 3.75, 3, false, 6054, 0, 0, 0}, 0.714619 + 0.044020 * 0.009069 / 0.012624},
        {{130 / 25.4, 70 / 25.4, 2, false, 7051, 0, 0, 0},
         0.626378 + 0.039195 * 0.003579 / 0.009448},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const pare_prop prop = sized(&table[i].of);
        assert_near(zero_thrust_advance(&prop, table[i].of.rpm), table[i].advance, 0.08);
    }
}

static double best_efficiency(const pare_prop *prop, double rpm)
{
    const pare_air air = sea_level();
    double best = 0, ct, cp;
    for (double advance = 0.1; advance < 1.2; advance += 0.01) {
        pare_prop_coefficients(prop, advance, rpm * RPM, &air, &ct, &cp);
        if (ct > 0 && cp > 0)
            best = fmax(best, advance * ct / cp);
    }
    return best;
}

static void the_best_efficiency_is_that_of_the_tunnel(void **state)
{
    (void)state;
    /* Thrust and power err together, so that efficiency is known better than either; these come out 12 %
     * low to 3 % high. */
    static const struct {
        row of;
        double efficiency;
    } table[] = {
        {{10, 5, 2, false, 5000, 0, 0, 0}, 0.644},
        {{10, 7, 2, false, 5001, 0, 0, 0}, 0.692},
        {{8, 3.8, 2, true, 6018, 0, 0, 0}, 0.594},
        {{9, 7, 2, false, 5017, 0, 0, 0}, 0.664},
        {{12, 8, 2, false, 5045, 0, 0, 0}, 0.759640},
        {{14, 10, 2, false, 5011, 0, 0, 0}, 0.816493},
        {{18, 12, 2, false, 4017, 0, 0, 0}, 0.841327},
        {{3, 2, 2, false, 19047, 0, 0, 0}, 0.576948},
        {{5, 3.75, 2, false, 6045, 0, 0, 0}, 0.625067},
        {{9, 6.75, 3, false, 4042, 0, 0, 0}, 0.641846},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const pare_prop prop = sized(&table[i].of);
        assert_within(best_efficiency(&prop, table[i].of.rpm), table[i].efficiency, 0.14);
    }
}

static double merit(double ct, double cp)
{
    return ct * sqrt(ct) / cp * sqrt(2 / PI);
}

static void merit_at_rest_is_that_of_the_tunnel(void **state)
{
    (void)state;
    /* Figure of merit, CT^1.5 sqrt(2/pi)/CP, measured 0.49 to 0.77 in these rows; they come out 19 % low
     * (12 x 8 in) to 4 % high. */
    static const row *const of[] = {
        small_at_rest + 3, five_inch_at_rest + 5, middling_at_rest + 5,    slow_at_rest + 3,
        large_at_rest + 1, large_at_rest + 5,     many_blades_at_rest + 1, many_blades_at_rest + 4};
    const pare_air air = sea_level();
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        const pare_prop prop = sized(of[i]);
        double ct, cp;
        pare_prop_coefficients(&prop, 0, of[i]->rpm * RPM, &air, &ct, &cp);
        assert_within(merit(ct, cp), merit(of[i]->ct, of[i]->cp), 0.21);
    }
}

static void thrust_and_merit_rise_with_speed_as_in_the_tunnel(void **state)
{
    (void)state;
    /* Volume 4, thin electric 12 x 8 in, and volume 2, 4.2 x 2 in: slow and fast at rest. CT rose by 22
     * and by 41 %, the figure of merit by 52 and by 93 %: the model must
     * show the sign, and as it follows the average propeller, no more than a tenth above. */
    static const row slow_fast[][2] = {
        {{12, 8, 2, false, 1026.667, 0, 0.099058, 0.050332},
         {12, 8, 2, false, 7500.000, 0, 0.121068, 0.044660}},
        {{4.2, 2, 2, false, 2066.667, 0, 0.064201, 0.050153},
         {4.2, 2, 2, false, 15000.000, 0, 0.090267, 0.041680}},
    };
    const pare_air air = sea_level();
    for (int i = 0; i < 2; i++) {
        const row *slow = &slow_fast[i][0], *fast = &slow_fast[i][1];
        const pare_prop prop = sized(slow);
        double slow_ct, slow_cp, fast_ct, fast_cp;
        pare_prop_coefficients(&prop, 0, slow->rpm * RPM, &air, &slow_ct, &slow_cp);
        pare_prop_coefficients(&prop, 0, fast->rpm * RPM, &air, &fast_ct, &fast_cp);
        assert_between(fast_ct / slow_ct, 1.02, 1.1 * fast->ct / slow->ct);
        assert_between(merit(fast_ct, fast_cp) / merit(slow_ct, slow_cp), 1.1,
                       1.1 * merit(fast->ct, fast->cp) / merit(slow->ct, slow->cp));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(propellers_of_2_to_4_in_pull_at_rest_as_in_the_tunnel),
        cmocka_unit_test(propellers_of_5_in_pull_at_rest_as_in_the_tunnel),
        cmocka_unit_test(propellers_of_8_to_11_in_pull_at_rest_as_in_the_tunnel),
        cmocka_unit_test(slow_flying_propellers_pull_at_rest_as_in_the_tunnel),
        cmocka_unit_test(propellers_of_12_to_18_in_pull_at_rest_as_in_the_tunnel),
        cmocka_unit_test(three_and_four_blades_pull_at_rest_as_in_the_tunnel),
        cmocka_unit_test(propellers_of_3_to_5_in_pull_in_flight_as_in_the_tunnel),
        cmocka_unit_test(propellers_of_8_to_10_in_pull_in_flight_as_in_the_tunnel),
        cmocka_unit_test(propellers_of_12_to_18_in_pull_in_flight_as_in_the_tunnel),
        cmocka_unit_test(three_and_four_blades_pull_in_flight_as_in_the_tunnel),
        cmocka_unit_test(misses_at_rest_are_of_the_size_that_the_model_owns_to),
        cmocka_unit_test(misses_in_flight_are_of_the_size_that_the_model_owns_to),
        cmocka_unit_test(one_measured_blade_pulls_two_three_and_four_times_over),
        cmocka_unit_test(a_measured_broad_blade_of_3_in_pulls_as_in_the_tunnel),
        cmocka_unit_test(a_measured_slow_blade_of_10_in_pulls_as_in_the_tunnel),
        cmocka_unit_test(a_measured_thin_blade_of_10_in_pulls_as_in_the_tunnel),
        cmocka_unit_test(thrust_ends_at_the_advance_ratio_of_the_tunnel),
        cmocka_unit_test(the_best_efficiency_is_that_of_the_tunnel),
        cmocka_unit_test(merit_at_rest_is_that_of_the_tunnel),
        cmocka_unit_test(thrust_and_merit_rise_with_speed_as_in_the_tunnel),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
