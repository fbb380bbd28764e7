/* rooms: physics base; libraries: ode */
/* Bodies against the Open Dynamics Engine (Debian's libode, in doubles), another program's mass
 * properties, over sizes and turns drawn at random.
 *
 * Its ways: the tensor of dMass is about the body's origin, not its centre of mass; a turn turns
 * about that origin, so turn before moving; lengths are full; a capsule's length is that of its
 * cylinder. Its mesh mass is wrong off the centre of mass, so meshes are compared elsewhere. */
#include "near.h"

#include <ode/ode.h>

#include "physics/solid.h"

static double draw(unsigned *seed, double low, double high)
{
    *seed = *seed * 1103515245u + 12345u;
    return low + (high - low) * (double)(*seed >> 8) / (double)(1u << 24);
}

typedef struct drawn {
    pare_body ours;
    dMass ode;
} drawn;

/* One body that both know, of drawn mass and size, not yet turned or moved. */
static drawn draw_body(unsigned *seed, int kind)
{
    const double mass_kg = draw(seed, 0.001, 0.5);
    const double a = draw(seed, 0.002, 0.2), b = draw(seed, 0.002, 0.2), c = draw(seed, 0.002, 0.2);
    const double size_m[3] = {a, b, c};
    static const pare_shape shape[4] = {PARE_SHAPE_BOX, PARE_SHAPE_CYLINDER, PARE_SHAPE_SPHERE,
                                        PARE_SHAPE_CAPSULE};
    drawn body;
    pare_error err;
    assert_int_equal(pare_solid(shape[kind], mass_kg, size_m, &body.ours, &err), PARE_OK);
    switch (shape[kind]) {
    case PARE_SHAPE_BOX:
        dMassSetBoxTotal(&body.ode, mass_kg, a, b, c);
        break;
    case PARE_SHAPE_CYLINDER: /* direction 3: along z */
        dMassSetCylinderTotal(&body.ode, mass_kg, 3, a / 2, b);
        break;
    case PARE_SHAPE_SPHERE:
        dMassSetSphereTotal(&body.ode, mass_kg, a / 2);
        break;
    default:
        dMassSetCapsuleTotal(&body.ode, mass_kg, 3, a / 2, b);
        break;
    }
    return body;
}

/* ODE's tensor, which is about the origin, brought to the centre by ODE itself. */
static void assert_same(const pare_body *ours, dMass ode)
{
    const double scale = ours->inertia_kg_m2.xx + ours->inertia_kg_m2.yy + ours->inertia_kg_m2.zz;
    const dReal centre[3] = {ode.c[0], ode.c[1], ode.c[2]};
    assert_within(ours->mass_kg, ode.mass, 1e-14);
    assert_near(ours->at_m.x, centre[0], 1e-15);
    assert_near(ours->at_m.y, centre[1], 1e-15);
    assert_near(ours->at_m.z, centre[2], 1e-15);
    /* ODE subtracts what the origin added, so its rounding grows with the distance. */
    const double far_m2 = centre[0] * centre[0] + centre[1] * centre[1] + centre[2] * centre[2];
    const double rounding = 1e-14 * (scale + ode.mass * far_m2);
    dMassTranslate(&ode, -centre[0], -centre[1], -centre[2]);
    /* Rows of four in memory. */
    assert_near(ours->inertia_kg_m2.xx, ode.I[0], rounding);
    assert_near(ours->inertia_kg_m2.yy, ode.I[5], rounding);
    assert_near(ours->inertia_kg_m2.zz, ode.I[10], rounding);
    assert_near(ours->inertia_kg_m2.xy, ode.I[1], rounding);
    assert_near(ours->inertia_kg_m2.xz, ode.I[2], rounding);
    assert_near(ours->inertia_kg_m2.yz, ode.I[6], rounding);
}

static void ode_computes_in_doubles(void **state)
{
    (void)state;
    assert_int_equal(sizeof(dReal), sizeof(double));
    assert_true(dCheckConfiguration("ODE_double_precision"));
}

static void every_shape_that_ode_has_is_the_same_in_it(void **state)
{
    (void)state;
    unsigned seed = 1;
    for (int round = 0; round < 200; round++) {
        const drawn body = draw_body(&seed, round % 4);
        assert_same(&body.ours, body.ode);
    }
}

/* Turns and moves a body in both worlds; ours by intrinsic z, y, x, which ODE builds up as the
 * product of three turns about single axes. */
static drawn placed(unsigned *seed, drawn body)
{
    const double z = draw(seed, -3, 3), y = draw(seed, -3, 3), x = draw(seed, -3, 3);
    const pare_vec3 by = {draw(seed, -.2, .2), draw(seed, -.2, .2), draw(seed, -.2, .2)};
    const pare_mat3 turn = pare_turn_zyx(z, y, x);
    body.ours = pare_body_moved(&body.ours, &turn, by);
    /* Extrinsic x, then y, then z is the same as intrinsic z, y, x. */
    dMatrix3 about;
    dRFromAxisAndAngle(about, 1, 0, 0, x);
    dMassRotate(&body.ode, about);
    dRFromAxisAndAngle(about, 0, 1, 0, y);
    dMassRotate(&body.ode, about);
    dRFromAxisAndAngle(about, 0, 0, 1, z);
    dMassRotate(&body.ode, about);
    dMassTranslate(&body.ode, by.x, by.y, by.z);
    return body;
}

static void turned_and_moved_bodies_are_the_same_in_ode(void **state)
{
    (void)state;
    unsigned seed = 2;
    for (int round = 0; round < 200; round++) {
        const drawn body = placed(&seed, draw_body(&seed, round % 4));
        assert_same(&body.ours, body.ode);
    }
}

static void assemblies_of_drawn_bodies_are_the_same_in_ode(void **state)
{
    (void)state;
    unsigned seed = 3;
    for (int round = 0; round < 50; round++) {
        pare_body parts[24];
        const size_t count = 2 + (size_t)round % 23;
        dMass sum;
        dMassSetZero(&sum);
        for (size_t i = 0; i < count; i++) {
            const drawn body = placed(&seed, draw_body(&seed, (int)(i % 4)));
            parts[i] = body.ours;
            dMassAdd(&sum, &body.ode);
        }
        const pare_body ours = pare_body_sum(count, parts);
        assert_same(&ours, sum);
    }
}

static pare_body part(pare_shape shape, double mass_kg, double a, double b, double c,
                      const pare_mat3 *turn, pare_vec3 by_m)
{
    const double size_m[3] = {a, b, c};
    pare_body body;
    pare_error err;
    assert_int_equal(pare_solid(shape, mass_kg, size_m, &body, &err), PARE_OK);
    return pare_body_moved(&body, turn, by_m);
}

static void the_six_part_craft_is_the_same_in_ode(void **state)
{
    (void)state;
    const double deg = 3.14159265358979323846 / 180;
    dMass sum, one;
    dMatrix3 about;
    dMassSetBoxTotal(&sum, .120, .150, .060, .004);
    dMassSetCylinderTotal(&one, .032, 3, .014, .020);
    dMassTranslate(&one, .110, .110, .012);
    dMassAdd(&sum, &one);
    dMassSetCylinderTotal(&one, .018, 3, .006, .200);
    dRFromAxisAndAngle(about, 0, 1, 0, 90 * deg);
    dMassRotate(&one, about);
    dRFromAxisAndAngle(about, 0, 0, 1, 45 * deg);
    dMassRotate(&one, about);
    dMassTranslate(&one, .075, .075, 0);
    dMassAdd(&sum, &one);
    dMassSetSphereTotal(&one, .025, .018);
    dMassTranslate(&one, -.050, .020, .030);
    dMassAdd(&sum, &one);
    dMassSetBoxTotal(&one, .180, .075, .035, .030);
    dRFromAxisAndAngle(about, 0, 0, 1, 30 * deg);
    dMassRotate(&one, about);
    dRFromAxisAndAngle(about, 1, 0, 0, 10 * deg);
    dMassRotate(&one, about);
    dMassTranslate(&one, -.010, -.005, -.025);
    dMassAdd(&sum, &one);
    dMassSetCapsuleTotal(&one, .012, 3, .005, .040);
    dRFromAxisAndAngle(about, 1, 0, 0, 90 * deg);
    dMassRotate(&one, about);
    dMassTranslate(&one, .030, -.060, .010);
    dMassAdd(&sum, &one);

    const pare_mat3 arm = pare_turn_zyx(45 * deg, 90 * deg, 0), yaw = pare_turn_zyx(30 * deg, 0, 0),
                    roll = pare_turn_zyx(0, 0, 10 * deg), lying = pare_turn_zyx(0, 0, 90 * deg);
    const pare_body pack = part(PARE_SHAPE_BOX, .180, .075, .035, .030, &yaw, (pare_vec3){0, 0, 0});
    const pare_body parts[6] = {
        part(PARE_SHAPE_BOX, .120, .150, .060, .004, NULL, (pare_vec3){0, 0, 0}),
        part(PARE_SHAPE_CYLINDER, .032, .028, .020, 0, NULL, (pare_vec3){.110, .110, .012}),
        part(PARE_SHAPE_CYLINDER, .018, .012, .200, 0, &arm, (pare_vec3){.075, .075, 0}),
        part(PARE_SHAPE_SPHERE, .025, .036, 0, 0, NULL, (pare_vec3){-.050, .020, .030}),
        pare_body_moved(&pack, &roll, (pare_vec3){-.010, -.005, -.025}),
        part(PARE_SHAPE_CAPSULE, .012, .010, .040, 0, &lying, (pare_vec3){.030, -.060, .010}),
    };
    const pare_body ours = pare_body_sum(6, parts);
    assert_same(&ours, sum);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ode_computes_in_doubles),
        cmocka_unit_test(every_shape_that_ode_has_is_the_same_in_it),
        cmocka_unit_test(turned_and_moved_bodies_are_the_same_in_ode),
        cmocka_unit_test(assemblies_of_drawn_bodies_are_the_same_in_ode),
        cmocka_unit_test(the_six_part_craft_is_the_same_in_ode),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
