/* rooms: physics base */
/* A craft's power taken apart: what each part is by its own equation, and that nothing is lost. */
#include <math.h>
#include <string.h>

#include "near.h"
#include "physics/budget.h"
#include "physics/drive.h"
#include "published_cells.h"
#include "published_props.h"

#define INCH 0.0254
#define PI   3.14159265358979323846

typedef struct fixture {
    pare_prop prop;
    pare_rig rig;
} fixture;

/* The craft "race5" of the published description, in its own simple air (p = 101325 Pa, T = 288.15 K,
 * R = 287.05 J/(kg K)). */
static void race5(fixture *f)
{
    const pare_prop_size size = {.diameter_m = 5.1 * INCH, .pitch_m = 4.3 * INCH, .blades = 3};
    assert_int_equal(pare_prop_from_size(&size, &published_family, &f->prop, NULL), PARE_OK);
    pare_rig_defaults(&f->rig);
    pare_rig *r = &f->rig;
    pare_rig_drive(&pare_drive_published, r);
    r->mass_kg = 0.68;
    r->rotor.prop = &f->prop;
    r->motor.kv_rpm_per_v = 1950;
    r->motor.resistance_ohm = 0.065;
    r->motor.no_load_a = 1.2;
    r->motor.mass_kg = 0.033;
    r->pack.cell = &published_cells[PARE_LIPO];
    r->pack.cells = 6;
    r->pack.capacity_c = 1.3 * 3600;
    r->air = (pare_air){15, 101325, 101325 / (287.05 * 288.15), 1.789298e-05, 340.2923};
    r->drag_m2 = 0.008;
    r->drag_top_m2 = 0.016;
    r->always_w = 4;
}

static pare_budget budget_of(const pare_rig *rig, double speed_m_s)
{
    pare_budget b;
    pare_error err = {PARE_OK, ""};
    if (pare_rig_budget(rig, speed_m_s, 0.5, &b, &err) != PARE_OK)
        fail_msg("%g m/s: %s", speed_m_s, err.text);
    return b;
}

static double shaft_w(const pare_budget *b)
{
    return b->induced_w + b->profile_w + b->drag_w;
}

static double sum_w(const pare_budget *b)
{
    return shaft_w(b) + b->copper_w + b->iron_w + b->esc_w + b->electronics_w + b->lead_w +
           b->pack_w;
}

static void parts_add_up_to_what_the_chemistry_gives(void **state)
{
    (void)state;
    fixture f;
    race5(&f);
    for (double speed_m_s = 0; speed_m_s < 35; speed_m_s += 2.5) {
        const pare_budget b = budget_of(&f.rig, speed_m_s);
        assert_within(sum_w(&b), b.open_w, 1e-9);
        assert_true(b.induced_w > 0 && b.profile_w > 0 && b.copper_w > 0 && b.iron_w > 0 &&
                    b.esc_w > 0 && b.lead_w > 0 && b.pack_w > 0);
    }
}

static void parts_add_up_where_rotors_carry_unevenly(void **state)
{
    (void)state;
    fixture f;
    race5(&f);
    f.rig.uneven = 0.2;
    for (double speed_m_s = 0; speed_m_s < 30; speed_m_s += 5) {
        const pare_budget b = budget_of(&f.rig, speed_m_s);
        assert_within(sum_w(&b), b.open_w, 1e-9);
    }
    pare_operating hover;
    assert_int_equal(pare_rig_thrust(&f.rig, 1, 0.5, &hover, NULL), PARE_OK);
    const pare_budget b = budget_of(&f.rig, 0);
    assert_within(b.open_w - b.pack_w - b.lead_w, hover.pack_w, 1e-9);
}

static void uneven_rotors_lift_dearer_as_momentum_theory_says(void **state)
{
    (void)state;
    /* Ideal power goes with thrust to the 3/2: half at 1.3 and half at 0.7 of the mean. */
    fixture f;
    race5(&f);
    const double even_w = budget_of(&f.rig, 0).induced_w;
    f.rig.uneven = 0.3;
    assert_within(budget_of(&f.rig, 0).induced_w / even_w, (pow(1.3, 1.5) + pow(0.7, 1.5)) / 2,
                  1e-9);
}

static void hover_parts_follow_from_the_published_case(void **state)
{
    (void)state;
    /* Case E1 of the description, of an independent implementation: speed, torque, current, winding
     * temperature, volts and power at hover; each loss by hand from those. */
    fixture f;
    race5(&f);
    const double speed = 1127.745, torque = 0.02211569, current = 5.450066, winding_degc = 32.52782;
    const double bus_v = 22.33836, pack_a = 6.508341, motor_v = 5.910698, open_v = 22.68;
    const double ke = 60 / (2 * PI * 1950);
    const pare_budget b = budget_of(&f.rig, 0);
    assert_within(shaft_w(&b), 4 * torque * speed, 1e-5);
    assert_within(b.copper_w, 4 * current * current * 0.065 * (1 + 0.00393 * (winding_degc - 20)),
                  1e-5);
    assert_within(b.iron_w, 4 * ke * speed * (current - torque / ke), 1e-5);
    assert_within(
        b.esc_w,
        4 * (current * current * 0.003 + 0.03 * (bus_v - motor_v) * current + 0.02 * bus_v), 1e-5);
    assert_within(b.pack_w + b.lead_w, (open_v - bus_v) * pack_a, 1e-4);
    assert_within(b.lead_w, 0.004 * pack_a * pack_a, 1e-5);
    assert_within(b.open_w, open_v * pack_a, 1e-5);
    assert_near(b.drag_w, 0, 0);
    assert_near(b.electronics_w, 4, 0);
}

static void level_flight_pays_the_bodys_drag(void **state)
{
    (void)state;
    /* Case E3: 12 m/s, drag 0.719157 N. */
    fixture f;
    race5(&f);
    const pare_budget b = budget_of(&f.rig, 12);
    assert_within(b.drag_w, 12 * 0.719157, 1e-5);
}

static void lifting_at_hover_is_momentum_theorys_closed_form(void **state)
{
    (void)state;
    /* n T sqrt(T/(2 rho A)) with the download on the arms carried too (Leishman, Principles of
     * Helicopter Aerodynamics, 2nd ed., sec. 2.2). */
    fixture f;
    race5(&f);
    const double thrust_n = 0.68 * 9.80665 / (4 * (1 - f.rig.blockage));
    const pare_budget b = budget_of(&f.rig, 0);
    assert_within(
        b.induced_w,
        4 * thrust_n *
            sqrt(thrust_n / (2 * f.rig.air.density_kg_m3 * PI / 4 * 5.1 * 5.1 * INCH * INCH)),
        1e-9);
    assert_within(b.download_n, 4 * thrust_n * f.rig.blockage, 1e-9);
}

static void a_measured_propellers_figure_of_merit_is_its_induced_share(void **state)
{
    (void)state;
    /* UIUC Propeller Data Site, research propeller DA4002 9x6.75: CT 0.136319, CP 0.079168 at 4213 rpm;
     * figure of merit CT^1.5/CP sqrt(2/pi). The model's factors are set so that it is that propeller. */
    const double ct = 0.136319, cp = 0.079168;
    fixture f;
    race5(&f);
    pare_operating point;
    for (int i = 0; i < 8; i++) {
        assert_int_equal(pare_rig_thrust(&f.rig, 1, 0.5, &point, NULL), PARE_OK);
        const double turns = point.rotor.speed_rad_s / (2 * PI), d = f.prop.diameter_m;
        const double force_n = f.rig.air.density_kg_m3 * turns * turns * d * d * d * d;
        f.rig.rotor.thrust_factor *= ct * force_n / point.rotor.thrust_n;
        f.rig.rotor.power_factor *= cp * force_n * d / (2 * PI) / point.rotor.torque_nm;
    }
    const pare_budget b = budget_of(&f.rig, 0);
    assert_within(b.induced_w / shaft_w(&b), pow(ct, 1.5) / cp * sqrt(2 / PI), 1e-6);
}

static void lifting_gets_cheaper_with_speed_and_drag_dearer_with_its_cube(void **state)
{
    (void)state;
    /* At speed the induced velocity goes as T/(2 rho A V) (Leishman, sec. 2.14.3), the body's drag power
     * as V^3 where the tilt is small. */
    fixture f;
    race5(&f);
    const pare_budget at_8 = budget_of(&f.rig, 8), at_16 = budget_of(&f.rig, 16);
    assert_true(budget_of(&f.rig, 0).induced_w > at_8.induced_w);
    assert_true(at_8.induced_w > 1.5 * at_16.induced_w);
    f.rig.drag_top_m2 = f.rig.drag_m2;
    assert_within(budget_of(&f.rig, 16).drag_w / budget_of(&f.rig, 8).drag_w, 8, 1e-9);
}

static void a_state_that_is_not_there_has_no_budget(void **state)
{
    (void)state;
    fixture f;
    pare_error err = {PARE_OK, ""};
    pare_budget b = {.open_w = 7};
    race5(&f);
    f.rig.mass_kg = 6;
    assert_int_equal(pare_rig_budget(&f.rig, 0, 0.5, &b, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "it does not hover"));
    assert_near(b.open_w, 7, 0);
    race5(&f);
    assert_int_equal(pare_rig_budget(&f.rig, 1000, 0.5, &b, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "a speed of 1000 m/s: 0 to 340 m/s would be right");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parts_add_up_to_what_the_chemistry_gives),
        cmocka_unit_test(parts_add_up_where_rotors_carry_unevenly),
        cmocka_unit_test(uneven_rotors_lift_dearer_as_momentum_theory_says),
        cmocka_unit_test(hover_parts_follow_from_the_published_case),
        cmocka_unit_test(level_flight_pays_the_bodys_drag),
        cmocka_unit_test(lifting_at_hover_is_momentum_theorys_closed_form),
        cmocka_unit_test(a_measured_propellers_figure_of_merit_is_its_induced_share),
        cmocka_unit_test(lifting_gets_cheaper_with_speed_and_drag_dearer_with_its_cube),
        cmocka_unit_test(a_state_that_is_not_there_has_no_budget),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
