/* calc.c: `pare calc` against values from outside, through the program as it is typed. */
#include "run.h"

#include <math.h>
#include <string.h>

static void air_is_the_standard_atmosphere(void **state)
{
    (void)state;
    /* US Standard Atmosphere 1976 (NOAA-S/T 76-1562), by the library ambiance; geometric metres. */
    static const struct {
        const char *line;
        double pressure, density, viscosity, sound;
    } rows[] = {
        {"calc air altitude=0m --json", 101325, 1.2250000, 1.789380e-05, 340.2940},
        {"calc air altitude=1000m --json", 89876.2776, 1.111659674, 1.757850e-05, 336.4346},
        {"calc air altitude=2~km --json", 79501.4111, 1.006553754, 1.725982e-05, 332.5316},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        json_t *answer = run_json(rows[i].line);
        assert_within(number(answer, "pressure_pa"), rows[i].pressure, 1e-6);
        assert_within(number(answer, "density_kg_m3"), rows[i].density, 1e-6);
        assert_within(number(answer, "viscosity_pa_s"), rows[i].viscosity, 1e-6);
        assert_within(number(answer, "sound_m_s"), rows[i].sound, 1e-6);
        json_decref(answer);
    }
}

static void warm_air_at_the_standards_pressure_is_thinner(void **state)
{
    (void)state;
    /* Ideal gas at the standard's pressure: density goes as 288.15 K over the temperature. */
    json_t *answer = run_json("calc air altitude=0m temperature=30degC --json");
    assert_within(number(answer, "density_kg_m3"), 1.225 * 288.15 / 303.15, 1e-6);
    json_decref(answer);
}

static void damp_air_is_what_cipm_2007_says(void **state)
{
    (void)state;
    /* CIPM-2007 (Metrologia 45, 2008, 149), computed: 20 degC, 101325 Pa, half saturated. */
    json_t *answer = run_json("calc air altitude=0m temperature=20degC pressure=1013.25hPa "
                              "humidity=50% --json");
    assert_within(number(answer, "density_kg_m3"), 1.1993139, 2e-5);
    json_decref(answer);
    answer = run_json("calc air altitude=400m sea_level_pressure=995hPa --json");
    assert_between(number(answer, "pressure_pa"), 94800, 94900); /* 8.3 m a hPa, by hand 948.6 */
    json_decref(answer);
}

static void a_motor_is_its_equivalent_circuit(void **state)
{
    (void)state;
    /* Closed form of the first-order motor: 2300 rpm/V, 0.060 ohm, 1.2 A, on 14.8 V at 10 A. */
    json_t *answer = run_json("calc motor kv=2300 resistance=60mohm no_load=1.2A volts=14.8V "
                              "current=10A --json");
    assert_within(number(answer, "speed_rpm"), 32660, 1e-6);
    assert_within(number(answer, "torque_nm"), 0.036536439, 1e-6);
    assert_within(number(answer, "shaft_w"), 124.96, 1e-6);
    assert_within(number(answer, "efficiency"), 0.844324324, 1e-6);
    assert_within(number(answer, "best_a"), 17.204650534, 1e-4);
    assert_within(number(answer, "best_efficiency"), 0.865367698, 1e-6);
    json_decref(answer);
}

static void a_motors_kv_stated_and_measured_stand_side_by_side(void **state)
{
    (void)state;
    /* Motor f of the 5 in stand (Cao and Strawson, 2018), 2350 rpm/V as stated: full throttle with a
     * three-bladed and a two-bladed propeller on two supplies. By hand from the second and fourth row:
     * 2018 rpm/V; the winding with speed rises, so more room. */
    json_t *answer = run_json(
        "calc motor kv=2350 resistance=60mohm no_load=1.3A volts=10.8V current=10A drive=on "
        "measured=10.49/10.91/17387,7.25/6.42/12866,10.86/8.51/18858,7.30/4.80/13413 "
        "--json");
    assert_between(number(answer, "kv_rpm_per_v"), 1900, 2200);
    assert_within(number(answer, "kv_ratio"), number(answer, "kv_rpm_per_v") / 2350, 1e-8);
    assert_between(number(answer, "kv_ratio_u"), 0.01, 0.08);
    assert_string_equal(
        json_string_value(json_object_get(json_object_get(answer, "known"), "kv_ratio")),
        "measured");
    json_decref(answer);
}

static void a_drive_costs_speed_and_says_so(void **state)
{
    (void)state;
#define MOTOR "calc motor kv=2300 resistance=60mohm no_load=1.2A volts=14.8V current=10A "
    json_t *bare = run_json(MOTOR "--json"), *driven = run_json(MOTOR "drive=on --json");
    assert_true(number(driven, "speed_rpm") < number(bare, "speed_rpm"));
    assert_true(number(driven, "best_efficiency") < number(bare, "best_efficiency"));
    /* kV is known to 8 to 10 % of what is stated, and speed goes with it. */
    assert_between(number(bare, "speed_rpm_u") / number(bare, "speed_rpm"), 0.06, 0.12);
    json_decref(bare);
    json_decref(driven);
#undef MOTOR
}

static void a_pack_gives_constant_power_behind_its_resistance(void **state)
{
    (void)state;
    /* The smaller root of R i^2 - V i + P = 0; at most V^2/4R. */
    json_t *answer = run_json("calc pack volts=14.8V resistance=20mohm power=300W --json");
    assert_within(number(answer, "current_a"), 20.858194998, 1e-9);
    assert_within(number(answer, "volts_v"), 14.382836100, 1e-9);
    assert_within(number(answer, "most_w"), 14.8 * 14.8 / 0.08, 1e-9);
    json_decref(answer);
    /* OpenStax, College Physics (2012), section 21.2: a 12.0 V battery with 0.100 ohm inside on
     * 0.500 ohm gives 20.0 A at 10.0 V, 200 W; with 0.500 ohm inside 12.0 A, 6.00 V, 72.0 W, which
     * is all that it can give. */
    answer = run_json("calc pack volts=12V resistance=100mohm power=200W --json");
    assert_within(number(answer, "current_a"), 20.0, 1e-9);
    assert_within(number(answer, "volts_v"), 10.0, 1e-9);
    json_decref(answer);
    answer = run_json("calc pack volts=12V resistance=0.5ohm power=72W --json");
    assert_within(number(answer, "current_a"), 12.0, 1e-6);
    assert_within(number(answer, "most_w"), 72.0, 1e-9);
    json_decref(answer);
}

/* By the slopes of R i^2 - V i + P = 0, a volt's half percent and the resistance's 15 %; past the most that it
 * gives there is no slope, and the side that there is counts. */
static void constant_power_is_as_sure_as_what_was_typed(void **state)
{
    (void)state;
    json_t *answer = run_json("calc pack volts=14.8V resistance=20mohm power=300W --json");
    const double i = number(answer, "current_a"), v = number(answer, "volts_v");
    const double u_v = 0.005 * 14.8, u_ohm = 0.15 * 0.02;
    const double i_u = hypot(i * u_v, i * i * u_ohm) / (14.8 - 2 * 0.02 * i);
    assert_within(number(answer, "current_a_u"), i_u, 1e-3);
    assert_within(number(answer, "volts_v_u"), v * i_u / i, 1e-3);
    assert_within(number(answer, "most_w_u"), hypot(0.01, 0.15) * number(answer, "most_w"), 1e-9);
    assert_string_equal(
        json_string_value(json_object_get(json_object_get(answer, "source"), "volts_v")),
        "volts and resistance as typed");
    json_decref(answer);
    answer = run_json("calc pack volts=14.8V resistance=20mohm power=2738W --json");
    assert_between(number(answer, "current_a_u"), 0.1 * 370, 0.5 * 370);
    json_decref(answer);
}

/* The same state, asked by its current and by its power: where power is held, volts that are off draw
 * current that takes more, and both are off by one share. */
static void a_power_leaves_more_doubt_than_its_current(void **state)
{
    (void)state;
#define CELLS "calc pack chemistry=liion cells=6 capacity=3000mAh heat=off --json "
    json_t *by_current = run_json(CELLS "current=8A");
    char line[160];
    snprintf(line, sizeof line, CELLS "power=%.12gW", number(by_current, "power_w"));
    json_t *by_power = run_json(line);
#undef CELLS
    assert_within(number(by_power, "current_a"), 8, 1e-6);
    const double volts = number(by_power, "volts_v"), u = number(by_power, "volts_v_u");
    const double drop = number(by_power, "resistance_mohm") * 1e-3 * 8;
    assert_within(u, number(by_current, "volts_v_u") / (1 - drop / volts), 1e-6);
    assert_within(number(by_power, "current_a_u"), 8 * u / volts, 1e-6);
    assert_within(number(by_power, "rate_per_h_u") / number(by_power, "rate_per_h"), u / volts,
                  1e-6);
    json_decref(by_power);
    json_decref(by_current);
}

/* An INR18650-30Q (ARTS Laboratory, University of South Carolina) under 6 A in air of 23 degC, after 1.5
 * of its 3.0 Ah: three cells gave 3.415 to 3.451 V at 35 degC. */
static void a_cell_under_load_is_the_measured_one_within_its_doubt(void **state)
{
    (void)state;
    json_t *answer = run_json("calc pack chemistry=liion capacity=3000mAh current=6A charge=50% "
                              "temperature=23degC --json");
    const double volts = number(answer, "volts_v"), u = number(answer, "volts_v_u");
    assert_near(volts, 3.433, 1.645 * u);
    assert_between(u, 0.01, 0.07);
    assert_near(number(answer, "cells_c"), 35, 2);
    assert_string_equal(
        json_string_value(json_object_get(json_object_get(answer, "known"), "volts_v")),
        "estimated");
    json_decref(answer);
}

static void a_chargers_reading_takes_the_laws_place(void **state)
{
    (void)state;
    json_t *law = run_json("calc pack chemistry=lipo cells=4 capacity=1550mAh current=40A --json");
    json_t *read = run_json("calc pack chemistry=lipo cells=4 capacity=1550mAh current=40A "
                            "cell_resistance=9mohm read_at=25degC --json");
    json_t *old = run_json("calc pack chemistry=lipo cells=4 capacity=1550mAh current=40A "
                           "cell_resistance=9mohm read_at=25degC holds=1200mAh --json");
    assert_true(number(read, "volts_v") < number(law, "volts_v"));
    assert_true(number(read, "volts_v_u") < number(law, "volts_v_u"));
    assert_true(number(old, "usable_mah") < number(read, "usable_mah"));
    assert_string_equal(
        json_string_value(json_object_get(json_object_get(read, "known"), "volts_v")), "measured");
    json_decref(law);
    json_decref(read);
    json_decref(old);
}

/* The same state by its current and by its power. */
static void a_pack_asked_for_power_gives_that_power(void **state)
{
    (void)state;
    json_t *by_power = run_json("calc pack chemistry=liion cells=6 capacity=3Ah power=150W --json");
    char words[200];
    snprintf(words, sizeof words,
             "calc pack chemistry=liion cells=6 capacity=3Ah current=%.9fA --json",
             number(by_power, "current_a"));
    json_t *by_current = run_json(words);
    assert_within(number(by_current, "power_w"), 150, 1e-6);
    assert_within(number(by_power, "power_w"), 150, 1e-6);
    assert_within(number(by_current, "volts_v"), number(by_power, "volts_v"), 1e-6);
    json_decref(by_power);
    json_decref(by_current);
}

static void a_propeller_thrusts_by_its_coefficients(void **state)
{
    (void)state;
    /* Definitions: T = CT rho n^2 D^4, P = CP rho n^3 D^5, at the standard's sea level. */
    json_t *answer = run_json("calc prop diameter=5in pitch=4.3in blades=3 rpm=14000 --json");
    const double n = 14000.0 / 60, d = 5 * 0.0254, rho = 1.225;
    assert_within(number(answer, "thrust_n"), number(answer, "ct") * rho * n * n * pow(d, 4),
                  2e-6); /* the standard's density is given to so many digits */
    assert_within(number(answer, "power_w"), number(answer, "cp") * rho * n * n * n * pow(d, 5),
                  2e-6);
    assert_within(number(answer, "torque_nm"), number(answer, "power_w") / (2 * acos(-1.0) * n),
                  1e-7);
    /* No rotor hovers on less than momentum theory's ideal (Leishman, Principles of Helicopter
     * Aerodynamics, section 2.2). */
    const double thrust = number(answer, "thrust_n"), area = acos(-1.0) * d * d / 4;
    assert_true(number(answer, "power_w") > thrust * sqrt(thrust / (2 * rho * area)));
    json_decref(answer);
}

static double share(json_t *answer, const char *name)
{
    char name_u[64];
    snprintf(name_u, sizeof name_u, "%s_u", name);
    return number(answer, name_u) / number(answer, name);
}

static void every_modelled_figure_says_how_uncertain_it_is_and_why(void **state)
{
    (void)state;
    json_t *answer = run_json("calc prop diameter=5in pitch=4.3in blades=3 rpm=14000 --json");
    static const char *const names[] = {"thrust_n", "power_w", "torque_nm",
                                        "ct",       "cp",      "figure_of_merit"};
    json_t *known = json_object_get(answer, "known"), *source = json_object_get(answer, "source");
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        assert_between(share(answer, names[i]), 0.02, 0.5);
        assert_string_equal(json_string_value(json_object_get(known, names[i])), "estimated");
        assert_non_null(json_string_value(json_object_get(source, names[i])));
    }
    /* Speed and air are as typed: forces share the doubt of their coefficients. */
    assert_within(share(answer, "thrust_n"), share(answer, "ct"), 1e-8);
    assert_within(share(answer, "power_w"), share(answer, "cp"), 1e-8);
    assert_within(share(answer, "torque_nm"), share(answer, "cp"), 1e-8);
    /* The figure of merit is CT^1.5/CP; errors of both go together (JCGM 100:2008, eq. 16), so it is
     * surer than were they independent, and no surer than were they one. */
    const double ct = 1.5 * share(answer, "ct"), cp = share(answer, "cp");
    assert_between(share(answer, "figure_of_merit"), fabs(ct - cp), hypot(ct, cp));
    json_decref(answer);
    answer = run_json("calc prop diameter=5in pitch=4.3in blades=3 rpm=14000 speed=15m/s --json");
    assert_between(share(answer, "efficiency"), 0.02, 0.5);
    assert_null(json_object_get(answer, "figure_of_merit"));
    json_decref(answer);
}

static void near_no_thrust_a_propeller_is_not_sure_of_its_sign(void **state)
{
    (void)state;
    json_t *still = run_json("calc prop diameter=5in pitch=4.3in blades=2 rpm=14000 --json");
    json_t *fast = NULL;
    double pulls_m_s = 0, drags_m_s = 60, thrust_n = HUGE_VAL;
    for (int i = 0; i < 12 && !(fabs(thrust_n) < 0.05 * number(still, "thrust_n")); i++) {
        const double speed_m_s = (pulls_m_s + drags_m_s) / 2;
        char line[128];
        snprintf(line, sizeof line,
                 "calc prop diameter=5in pitch=4.3in blades=2 rpm=14000 speed=%.2fm/s --json",
                 speed_m_s);
        json_decref(fast);
        fast = run_json(line);
        thrust_n = number(fast, "thrust_n");
        *(thrust_n > 0 ? &pulls_m_s : &drags_m_s) = speed_m_s;
    }
    assert_true(fabs(thrust_n) < 0.05 * number(still, "thrust_n"));
    assert_true(number(fast, "thrust_n_u") > fabs(number(fast, "thrust_n")));
    json_decref(still);
    json_decref(fast);
}

static void solids_have_their_textbook_inertia(void **state)
{
    (void)state;
    /* Closed forms (Goldstein, Poole, Safko, Classical Mechanics, 3rd ed., chapter 5). */
    json_t *box = run_json("calc solid shape=box mass=57g size=75mm,36mm,31mm --json");
    assert_within(number(box, "ixx_kg_m2"), 0.057 * (0.036 * 0.036 + 0.031 * 0.031) / 12, 1e-9);
    assert_within(number(box, "iyy_kg_m2"), 0.057 * (0.075 * 0.075 + 0.031 * 0.031) / 12, 1e-9);
    assert_within(number(box, "izz_kg_m2"), 0.057 * (0.075 * 0.075 + 0.036 * 0.036) / 12, 1e-9);
    json_decref(box);
    json_t *sphere = run_json("calc solid shape=sphere mass=25g size=36mm --json");
    assert_within(number(sphere, "ixx_kg_m2"), 0.4 * 0.025 * 0.018 * 0.018, 1e-9);
    json_decref(sphere);
    json_t *cylinder = run_json("calc solid shape=cylinder mass=32g size=28mm,20mm --json");
    assert_within(number(cylinder, "izz_kg_m2"), 0.5 * 0.032 * 0.014 * 0.014, 1e-9);
    assert_within(number(cylinder, "ixx_kg_m2"), 0.032 * (3 * 0.014 * 0.014 + 0.02 * 0.02) / 12,
                  1e-9);
    json_decref(cylinder);
    json_t *rod = run_json("calc solid shape=rod mass=10g size=200mm --json");
    assert_within(number(rod, "iyy_kg_m2"), 0.01 * 0.2 * 0.2 / 12, 1e-9);
    assert_near(number(rod, "ixx_kg_m2"), 0, 1e-15);
    json_decref(rod);
}

/* A corner tetrahedron of side 10: volume 1/6 of the cube, Ixx 1/80 and Ixy +1/480 of density times
 * side^5 about its centre. Turned: each triangle the other way round. */
static void write_tetrahedron(const char *name, size_t triangles, int turned)
{
    static const int corner[4][3] = {{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}};
    static const char *const at[4] = {"0 0 0", "10 0 0", "0 10 0", "0 0 10"};
    char text[4096] = "solid corner\n";
    for (size_t t = 0; t < triangles; t++) {
        strcat(text, "facet normal 0 0 0\nouter loop\n");
        for (int i = 0; i < 3; i++) {
            strcat(text, "vertex ");
            strcat(text, at[corner[t][turned ? 2 - i : i]]);
            strcat(text, "\n");
        }
        strcat(text, "endloop\nendfacet\n");
    }
    strcat(text, "endsolid corner\n");
    write_text(name, text);
}

static void a_mesh_is_measured_as_the_solid_that_it_bounds(void **state)
{
    (void)state;
    write_tetrahedron("corner.stl", 4, 0);
    json_t *m = run_json("calc mesh file=corner.stl density=1.2g/cm3 --json");
    assert_within(number(m, "volume_cm3"), 1.0 / 6, 1e-9);
    assert_within(number(m, "area_cm2"), 1.5 + sqrt(3) / 2, 1e-7);
    assert_within(number(m, "mass_g"), 0.2, 1e-9);
    assert_within(json_number_value(json_array_get(json_object_get(m, "cg_mm"), 0)), 2.5, 1e-9);
    assert_within(number(m, "ixx_kg_m2"), 1200 * 1e-10 / 80, 1e-7);
    assert_within(number(m, "ixy_kg_m2"), 1200 * 1e-10 / 480, 1e-7);
    assert_near(number(m, "open_edges"), 0, 0);
    json_decref(m);
    m = run_json("calc mesh file=corner.stl density=1.2g/cm3 unit=cm --json");
    assert_within(number(m, "volume_cm3"), 1000.0 / 6, 1e-9);
    json_decref(m);
}

static void an_inside_out_mesh_is_turned_and_that_is_said(void **state)
{
    (void)state;
    write_tetrahedron("inside-out.stl", 4, 1);
    json_t *m = run_json("calc mesh file=inside-out.stl density=1.2g/cm3 --json");
    assert_within(number(m, "volume_cm3"), 1.0 / 6, 1e-9);
    json_decref(m);
    ran r = run("calc mesh file=inside-out.stl density=1.2g/cm3");
    assert_non_null(strstr(r.out, "inside out, and was turned"));
    ran_free(&r);
}

static void an_open_mesh_is_estimated_and_that_is_said(void **state)
{
    (void)state;
    write_tetrahedron("open.stl", 3, 0);
    json_t *m = run_json("calc mesh file=open.stl density=1.2g/cm3 --json");
    /* Its convex hull is the closed tetrahedron; three edges lack their second triangle. */
    assert_within(number(m, "volume_cm3"), 1.0 / 6, 1e-6);
    assert_near(number(m, "open_edges"), 3, 0);
    json_decref(m);
    ran r = run("calc mesh file=open.stl density=1.2g/cm3");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "estimated: the mesh is not closed"));
    ran_free(&r);
}

static void a_screw_bears_what_its_standard_says(void **state)
{
    (void)state;
    /* ISO 898-1: M3 8.8 proves 2920 N, stress area 5.03 mm2. */
    json_t *m =
        run_json("calc screw standard=ISO4762 thread=M3 length=8mm material=steel class=8.8 "
                 "into=6061 engaged=3mm --json");
    assert_within(number(m, "proof_n"), 2920, 5e-3);
    assert_within(number(m, "stress_area_mm2"), 5.03, 5e-3);
    assert_within(number(m, "strip_n"), number(m, "strip_hole_n"), 0);
    assert_true(number(m, "torque_nm") > 0.8 && number(m, "torque_nm") < 1.3);
    json_decref(m);
}

static void nuts_washers_and_standoffs_are_weighed_too(void **state)
{
    (void)state;
    /* GOST 5927-70: M3 0.377 g in steel, the prism without chamfers 2 to 4 % heavy; GOST 11371-78 from
     * memory: M3 washer 0.119 g. */
    json_t *m = run_json("calc screw standard=ISO4032 thread=M3 material=steel --json");
    assert_within(number(m, "mass_g"), 0.377, 0.04);
    assert_near(number(m, "flats_mm"), 5.5, 1e-9);
    json_decref(m);
    m = run_json("calc screw standard=ISO7089 thread=M3 material=steel --json");
    assert_within(number(m, "mass_g"), 0.119, 5e-3);
    json_decref(m);
    m = run_json("calc screw standard=standoff_round thread=M3 length=30mm across=5mm "
                 "material=aluminium --json");
    assert_within(number(m, "mass_g"), 2.7e-3 * 30 * 0.7853981634 * (25 - 2.675 * 2.675), 1e-4);
    assert_within(number(m, "pulls_n"), 270 * 0.7853981634 * (25 - 9), 1e-6);
    json_decref(m);
}

static void four_of_aluminium_are_lighter_and_weaker_than_two_of_steel(void **state)
{
    (void)state;
    json_t *m = run_json("calc joint thread=M3 length=8mm material=aluminium count=4 circle=16mm "
                         "mass=600g crash_g=380 height=12mm thrust=14N torque=0.12N.m into=6061 "
                         "plate=carbon against=2xsteel --json");
    /* Statics by hand: 600 g stopped at 380 g, a quarter shears each; the ring's closed form, base 1.25
     * of its radius; ISO 8839 AL1 270 MPa on 5.03 mm2. */
    const double push_n = 0.6 * 380 * 9.80665;
    assert_within(number(m, "tension_n"), 14.0 / 4, 1e-9);
    assert_within(number(m, "shear_n"), 0.12 / 8e-3 / 4, 1e-9);
    assert_within(number(m, "crash_shear_n"), push_n / 4, 1e-9);
    const double pull_n = push_n * 12e-3 * 2.25 / (4 * 8e-3 * (1.25 * 1.25 + 0.5));
    assert_within(number(m, "prying_n"), pull_n, 1e-9);
    assert_within(number(m, "breaks_n"), 1360, 5e-3);
    const double used = hypot(pull_n / 1360, push_n / 4 / (0.6 * 1360));
    assert_within(number(m, "crash_ratio"), 1 / used, 5e-3);
    assert_true(number(m, "mass_g") < number(m, "against_mass_g"));
    assert_true(number(m, "crash_ratio") < number(m, "against_crash_ratio"));
    assert_true(number(m, "strip_screw_ratio") < number(m, "strip_hole_ratio"));
    assert_true(number(m, "bearing_ratio") > 1);
    json_decref(m);
    /* Without another set, half as many stand beside it. */
    m = run_json("calc joint thread=M3 length=8mm material=steel class=12.9 count=4 circle=16mm "
                 "mass=600g crash_g=380 --json");
    assert_within(number(m, "mass_g"), 2 * number(m, "half_mass_g"), 1e-9);
    assert_true(number(m, "half_crash_ratio") < number(m, "crash_ratio") / 1.5);
    assert_null(json_object_get(m, "flight_ratio"));
    json_decref(m);
}

static void a_wire_resists_and_settles(void **state)
{
    (void)state;
    /* NBS Handbook 100: gauge 16 4.016 ohm per 1000 ft; the conductor from an independent solution. */
    json_t *m = run_json("calc wire gauge=16 length=120mm outer=3.0mm current=30A ambient=25degC "
                         "burst=5s --json");
    assert_within(number(m, "resistance_mohm"), 4016 / 304.8 * 0.120, 1e-3);
    assert_within(number(m, "drop_v"), 30e-3 * number(m, "resistance_mohm"), 1e-9);
    assert_near(number(m, "steady_c"), 103.779, 2e-3);
    assert_true(number(m, "burst_c") > 25 && number(m, "burst_c") < number(m, "steady_c"));
    json_decref(m);
}

static void a_burst_is_answered_where_the_same_current_held_would_melt(void **state)
{
    (void)state;
    ran r = run("calc wire gauge=16 length=120mm current=150A burst=1s --json");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "\"steady_c\": null"));
    ran_free(&r);
    r = run("calc wire gauge=16 length=120mm current=150A burst=1s");
    assert_non_null(strstr(r.out, "held without end, this current melts the wire"));
    ran_free(&r);
}

static void an_arm_rings_and_a_cable_loses(void **state)
{
    (void)state;
    json_t *arm = run_json("calc arm length=110mm width=12mm thickness=5mm tip=36g modulus=60GPa "
                           "force=12N --json");
    assert_within(number(arm, "bending_hz"), 105.4759, 1e-6);
    assert_within(number(arm, "deflection_mm"), 0.709867, 2e-6);
    json_decref(arm);
    /* The published stack of tests/checks/arms.c: 73.6440 GPa when bent. */
    arm = run_json("calc arm length=110mm width=12mm thickness=5mm tip=36g tip_radius=20mm "
                   "layers=0/90/0/90/90/0/90/0 fibre_modulus=103.01411GPa "
                   "across_modulus=7.36145GPa layer_shear=4.04053GPa poisson=0.37 --json");
    assert_within(number(arm, "modulus_gpa"), 73.6440, 2e-6);
    assert_true(number(arm, "torsion_hz") > 50);
    json_decref(arm);
    arm = run_json("calc arm length=110mm width=12mm thickness=5mm tip=36g off_axis=45deg --json");
    assert_between(number(arm, "modulus_gpa"), 10, 20);
    assert_true(number(arm, "bending_low_hz") < number(arm, "bending_hz"));
    json_decref(arm);
    json_t *coax = run_json("calc coax cable=RG178 length=1m band=1GHz --json");
    assert_within(number(coax, "loss_db"), 1.587, 1e-3);
    json_decref(coax);
}

static void what_cannot_be_is_refused_with_what_would_be_right(void **state)
{
    (void)state;
    static const struct {
        const char *line, *says;
    } wrong[] = {
        {"calc wire gauge=99 length=1m current=3A",
         "pare: calc wire: gauge=99 is outside 4 .. 40 AWG\n"},
        {"calc wire gauge=16 length=0mm current=3A",
         "pare: calc wire: length=0mm is outside 1 mm .. 100 m\n"},
        {"calc wire gauge=12 length=1m current=3A outer=1mm",
         "pare: calc wire: outer diameter 1 mm: AWG 12 takes 2.37 mm for its strands alone, and 50 "
         "mm is the most\n"},
        {"calc screw standard=ISO7380-1 thread=M2 length=6mm material=steel",
         "pare: calc screw: ISO7380-1 has no M2 here; it has M3, M4 and M5\n"},
        {"calc screw standard=ISO4762 thread=M3 length=6mm material=steel engaged=8mm",
         "pare: calc screw: engaged 8 mm of a screw 6 mm long: its length is the most\n"},
        {"calc screw standard=ISO4762 thread=M3 length=0mm material=steel",
         "pare: calc screw: length=0mm is outside 2 mm .. 60 mm, standoffs 3 mm .. 100 mm\n"},
        {"calc screw standard=ISO4762 thread=M3 length=70mm material=steel",
         "pare: calc screw: ISO4762 M3 x 70 mm: lengths go from 2 to 60 mm\n"},
        {"calc screw standard=ISO4762 thread=M3 material=steel",
         "pare: calc screw: length is missing: 2 mm .. 60 mm, standoffs 3 mm .. 100 mm\n"},
        {"calc screw standard=ISO7089 thread=M3 material=steel length=5mm",
         "pare: calc screw: ISO7089 has no length: its thread gives its size\n"},
        {"calc screw standard=ISO7040 thread=M3 material=steel engaged=2mm",
         "pare: calc screw: engaged is said of screws, not of ISO7040\n"},
        {"calc screw standard=standoff_hex thread=M3 material=steel length=20mm",
         "pare: calc screw: across is missing: a standoff needs it, 2 mm .. 20 mm\n"},
        {"calc screw standard=ISO4762 thread=M3 material=steel length=8mm across=5mm",
         "pare: calc screw: across is said of standoffs, not of ISO4762\n"},
        {"calc screw standard=ISO9999 thread=M3 length=8mm material=steel",
         "pare: calc screw: standard 'ISO9999': known are ISO4762, ISO7380-1, ISO10642 and "
         "ISO1207, "
         "nuts ISO4032 and ISO7040, washers ISO7089, standoff_hex and standoff_round\n"},
        {"calc joint thread=M3 length=8mm material=steel count=4 circle=16mm engaged=9mm",
         "pare: calc joint: engaged 9 mm of a screw 8 mm long: its length is the most\n"},
        {"calc joint thread=M3 length=8mm material=steel count=0 circle=16mm",
         "pare: calc joint: count=0 is outside 1 .. 64\n"},
        {"calc joint thread=M3 length=8mm material=steel count=4 circle=16mm against=steel",
         "pare: calc joint: against 'steel': a number of 1 .. 64 and a material, like 2xsteel\n"},
        {"calc joint thread=M3 length=8mm material=steel count=4 circle=16mm against=2xwood",
         "pare: calc joint: material 'wood': known are steel, stainless, titanium, aluminium_7075, "
         "aluminium, brass and nylon\n"},
        {"calc joint standard=ISO4032 thread=M3 length=8mm material=steel count=4 circle=16mm",
         "pare: calc joint: standard 'ISO4032': known are ISO4762, ISO7380-1, ISO10642 and "
         "ISO1207; did you mean ISO4762?\n"},
        {"calc arm length=100mm tip=30g width=10mm",
         "pare: calc arm: a plate needs width= and thickness=, a tube outer= and inner=; one of "
         "the "
         "two would be right\n"},
        {"calc arm length=100mm tip=30g width=10mm thickness=4mm layers=0/90",
         "pare: calc arm: layer 1 lies at 0 deg, its mate from the bottom at 90 deg: the same both "
         "ways would be right, or the plate warps\n"},
        {"calc arm length=100mm tip=30g width=10mm thickness=4mm layers=0/9x",
         "pare: calc arm: layers=0/9x: right would be the angles of 1 to 64 layers from the top "
         "down, in degrees, like 0/90/90/0\n"},
        {"calc arm length=100mm tip=30g width=10mm thickness=4mm cloth=knit",
         "pare: calc arm: cloth=knit: 0/90 or quasi-isotropic would be right\n"},
        {"calc coax cable=RG1 length=1m band=5.8GHz",
         "pare: calc coax: cable 'RG1': known are RG178, RG316, RG402, RG405 and 1.13\n"},
        {"calc coax cable=RG178 length=1m band=5.8GHz from=left",
         "pare: calc coax: polarisation needs both ends: from= and to=, linear, right or left\n"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        run_refuses(wrong[i].line, 3, wrong[i].says);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(air_is_the_standard_atmosphere),
        cmocka_unit_test(warm_air_at_the_standards_pressure_is_thinner),
        cmocka_unit_test(damp_air_is_what_cipm_2007_says),
        cmocka_unit_test(a_motor_is_its_equivalent_circuit),
        cmocka_unit_test(a_motors_kv_stated_and_measured_stand_side_by_side),
        cmocka_unit_test(a_drive_costs_speed_and_says_so),
        cmocka_unit_test(a_pack_gives_constant_power_behind_its_resistance),
        cmocka_unit_test(constant_power_is_as_sure_as_what_was_typed),
        cmocka_unit_test(a_power_leaves_more_doubt_than_its_current),
        cmocka_unit_test(a_cell_under_load_is_the_measured_one_within_its_doubt),
        cmocka_unit_test(a_chargers_reading_takes_the_laws_place),
        cmocka_unit_test(a_pack_asked_for_power_gives_that_power),
        cmocka_unit_test(a_propeller_thrusts_by_its_coefficients),
        cmocka_unit_test(every_modelled_figure_says_how_uncertain_it_is_and_why),
        cmocka_unit_test(near_no_thrust_a_propeller_is_not_sure_of_its_sign),
        cmocka_unit_test(solids_have_their_textbook_inertia),
        cmocka_unit_test(a_mesh_is_measured_as_the_solid_that_it_bounds),
        cmocka_unit_test(an_inside_out_mesh_is_turned_and_that_is_said),
        cmocka_unit_test(an_open_mesh_is_estimated_and_that_is_said),
        cmocka_unit_test(a_screw_bears_what_its_standard_says),
        cmocka_unit_test(nuts_washers_and_standoffs_are_weighed_too),
        cmocka_unit_test(four_of_aluminium_are_lighter_and_weaker_than_two_of_steel),
        cmocka_unit_test(a_wire_resists_and_settles),
        cmocka_unit_test(a_burst_is_answered_where_the_same_current_held_would_melt),
        cmocka_unit_test(an_arm_rings_and_a_cable_loses),
        cmocka_unit_test(what_cannot_be_is_refused_with_what_would_be_right),
    };
    return cmocka_run_group_tests(tests, enter_home, leave_home);
}
