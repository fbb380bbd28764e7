/* rooms: physics base */
/* Solids, plates, meshes and principal axes: closed forms, laws and refusals. */
#include "near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "physics/solid.h"

#define PI 3.14159265358979323846

static pare_body solid(pare_shape shape, double mass_kg, double a, double b, double c)
{
    const double size_m[3] = {a, b, c};
    pare_body body;
    pare_error err;
    assert_int_equal(pare_solid(shape, mass_kg, size_m, &body, &err), PARE_OK);
    return body;
}

static void assert_moments(pare_body body, double xx, double yy, double zz)
{
    assert_within(body.inertia_kg_m2.xx, xx, 1e-14);
    assert_within(body.inertia_kg_m2.yy, yy, 1e-14);
    assert_within(body.inertia_kg_m2.zz, zz, 1e-14);
    assert_near(fabs(body.inertia_kg_m2.xy) + fabs(body.inertia_kg_m2.xz) +
                    fabs(body.inertia_kg_m2.yz),
                0, 0);
}

static void shapes_have_their_textbook_moments(void **state)
{
    (void)state;
    /* Goldstein, Classical Mechanics, ch. 5, and any table of moments of inertia. */
    assert_moments(solid(PARE_SHAPE_BOX, 12, 1, 2, 3), 13, 10, 5);
    assert_moments(solid(PARE_SHAPE_CYLINDER, 12, 2, 1, 0), 4, 4, 6);
    assert_moments(solid(PARE_SHAPE_SPHERE, 5, 2, 0, 0), 2, 2, 2);
    assert_moments(solid(PARE_SHAPE_RING, 2, 2, 0, 0), 1, 1, 2);
    assert_moments(solid(PARE_SHAPE_TUBE, 12, 4, 2, 1), 16, 16, 30);
    assert_moments(solid(PARE_SHAPE_PLATE, 12, 1, 2, 0), 4, 1, 5);
    assert_moments(solid(PARE_SHAPE_POINT, 1, 0, 0, 0), 0, 0, 0);
    const pare_body rod = solid(PARE_SHAPE_ROD, 12, 3, 0, 0);
    assert_near(rod.inertia_kg_m2.xx, 0, 0);
    assert_within(rod.inertia_kg_m2.yy, 9, 1e-15);
    /* A cone of base radius 2 and height 4: 3/80 m (4 r^2 + h^2) and 3/10 m r^2. */
    assert_moments(solid(PARE_SHAPE_CONE, 10, 4, 0, 4), 12, 12, 12);
    assert_moments(solid(PARE_SHAPE_CONE, 10, 0, 4, 4), 12, 12, 12);
}

static void shapes_pass_into_each_other_at_their_limits(void **state)
{
    (void)state;
    const pare_body sphere = solid(PARE_SHAPE_SPHERE, 3, 0.7, 0, 0);
    const pare_body ball = solid(PARE_SHAPE_CAPSULE, 3, 0.7, 0, 0);
    assert_within(ball.inertia_kg_m2.xx, sphere.inertia_kg_m2.xx, 1e-15);
    const pare_body cylinder = solid(PARE_SHAPE_CYLINDER, 3, 0.7, 0.9, 0);
    const pare_body straight = solid(PARE_SHAPE_CONE, 3, 0.7, 0.7, 0.9);
    const pare_body solid_tube = solid(PARE_SHAPE_TUBE, 3, 0.7, 0, 0.9);
    assert_within(straight.inertia_kg_m2.xx, cylinder.inertia_kg_m2.xx, 1e-14);
    assert_within(straight.inertia_kg_m2.zz, cylinder.inertia_kg_m2.zz, 1e-14);
    assert_within(solid_tube.inertia_kg_m2.xx, cylinder.inertia_kg_m2.xx, 1e-15);
    const pare_body thin = solid(PARE_SHAPE_CAPSULE, 3, 0, 2, 0);
    assert_within(thin.inertia_kg_m2.xx, 1, 1e-15);
    const pare_body nothing = solid(PARE_SHAPE_CAPSULE, 3, 0, 0, 0);
    assert_near(nothing.inertia_kg_m2.xx, 0, 0);
    const pare_body tiny = solid(PARE_SHAPE_CONE, 3, 5e-324, 0, 0.1);
    assert_true(isfinite(tiny.inertia_kg_m2.zz));
}

static void a_tube_is_a_cylinder_less_its_bore(void **state)
{
    (void)state;
    const double outer[2] = {5e-3, 20e-3}, bore[2] = {2.5e-3, 20e-3},
                 tube[3] = {5e-3, 2.5e-3, 20e-3};
    const double whole_kg = 2700 * pare_solid_volume_m3(PARE_SHAPE_CYLINDER, outer);
    const double bore_kg = 2700 * pare_solid_volume_m3(PARE_SHAPE_CYLINDER, bore);
    const double tube_kg = 2700 * pare_solid_volume_m3(PARE_SHAPE_TUBE, tube);
    assert_within(tube_kg, whole_kg - bore_kg, 1e-14);
    const pare_body whole = solid(PARE_SHAPE_CYLINDER, whole_kg, 5e-3, 20e-3, 0);
    const pare_body cut = solid(PARE_SHAPE_CYLINDER, bore_kg, 2.5e-3, 20e-3, 0);
    const pare_body left = solid(PARE_SHAPE_TUBE, tube_kg, 5e-3, 2.5e-3, 20e-3);
    assert_within(left.inertia_kg_m2.xx, whole.inertia_kg_m2.xx - cut.inertia_kg_m2.xx, 1e-13);
    assert_within(left.inertia_kg_m2.zz, whole.inertia_kg_m2.zz - cut.inertia_kg_m2.zz, 1e-13);
}

static void a_frustum_stacks_out_of_two(void **state)
{
    (void)state;
    /* Cut at half height, the two pieces moved to their own centres of mass give the whole. */
    const double lower[3] = {0.04, 0.03, 0.05}, upper[3] = {0.03, 0.02, 0.05},
                 whole[3] = {0.04, 0.02, 0.10};
    pare_body parts[2] = {
        solid(PARE_SHAPE_CONE, 1000 * pare_solid_volume_m3(PARE_SHAPE_CONE, lower), 0.04, 0.03,
              0.05),
        solid(PARE_SHAPE_CONE, 1000 * pare_solid_volume_m3(PARE_SHAPE_CONE, upper), 0.03, 0.02,
              0.05)};
    /* Centre above the base: h (a^2 + 2ab + 3b^2)/(4 (a^2 + ab + b^2)). */
    parts[0].at_m.z = 0.05 * (16 + 24 + 27) / (4.0 * (16 + 12 + 9));
    parts[1].at_m.z = 0.05 + 0.05 * (9 + 12 + 12) / (4.0 * (9 + 6 + 4));
    const pare_body sum = pare_body_sum(2, parts);
    const pare_body one = solid(
        PARE_SHAPE_CONE, 1000 * pare_solid_volume_m3(PARE_SHAPE_CONE, whole), 0.04, 0.02, 0.10);
    assert_within(sum.mass_kg, one.mass_kg, 1e-14);
    assert_within(sum.at_m.z, 0.10 * (16 + 16 + 12) / (4.0 * (16 + 8 + 4)), 1e-14);
    assert_within(sum.inertia_kg_m2.xx, one.inertia_kg_m2.xx, 1e-13);
    assert_within(sum.inertia_kg_m2.zz, one.inertia_kg_m2.zz, 1e-13);
}

static void volumes_are_the_textbook_ones(void **state)
{
    (void)state;
    const double s[3] = {2, 1, 3};
    assert_within(pare_solid_volume_m3(PARE_SHAPE_BOX, s), 6, 1e-15);
    assert_within(pare_solid_volume_m3(PARE_SHAPE_CYLINDER, s), PI, 1e-15);
    assert_within(pare_solid_volume_m3(PARE_SHAPE_TUBE, s), PI * 9 / 4, 1e-15);
    assert_within(pare_solid_volume_m3(PARE_SHAPE_CONE, s), PI * 7 / 4, 1e-15);
    assert_within(pare_solid_volume_m3(PARE_SHAPE_CAPSULE, s), PI * 7 / 3, 1e-15);
    assert_within(pare_solid_volume_m3(PARE_SHAPE_SPHERE, s), PI * 4 / 3, 1e-15);
    assert_near(pare_solid_volume_m3(PARE_SHAPE_RING, s), 0, 0);
}

static void sizes_that_no_body_has_are_refused(void **state)
{
    (void)state;
    static const struct {
        pare_shape shape;
        double mass_kg, size_m[3];
        const char *says;
    } bad[] = {
        {PARE_SHAPE_BOX,
         1,
         {1, -1, 1},
         "box: size 2 of (x, y, z) is -1 m; each is 0 or more, and finite"},
        {PARE_SHAPE_BOX, -1, {1, 1, 1}, "box of -1 kg: a mass is 0 or more, and finite"},
        {PARE_SHAPE_SPHERE, NAN, {1, 0, 0}, "sphere of nan kg: a mass is 0 or more, and finite"},
        {PARE_SHAPE_SPHERE,
         1,
         {INFINITY, 0, 0},
         "sphere: size 1 of (d) is inf m; each is 0 or more, and finite"},
        {PARE_SHAPE_TUBE,
         1,
         {1, 1, 1},
         "tube: od 1 m must be greater than id 1 m; sizes are od, id, h"},
        {PARE_SHAPE_CONE, 1, {0, 0, 1}, "cone: d1 and d2 are both 0; one must be greater"},
        {PARE_SHAPE_BOX, 1e200, {1e200, 1, 1}, "box: too large for its inertia to be a number"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        pare_body body = {.mass_kg = 7};
        pare_error err;
        assert_int_equal(pare_solid(bad[i].shape, bad[i].mass_kg, bad[i].size_m, &body, &err),
                         PARE_BAD_DATA);
        assert_string_equal(err.text, bad[i].says);
        assert_near(body.mass_kg, 7, 0);
    }
}

static void radii_of_gyration_make_a_body_or_are_refused(void **state)
{
    (void)state;
    pare_body body;
    pare_error err;
    assert_int_equal(pare_gyration(2, (pare_vec3){0.1, 0.2, 0.2}, &body, &err), PARE_OK);
    assert_moments(body, 0.02, 0.08, 0.08);
    /* A flat body meets the bound exactly. */
    assert_int_equal(pare_gyration(2, (pare_vec3){0.3, 0.4, 0.5}, &body, &err), PARE_OK);
    assert_int_equal(pare_gyration(2, (pare_vec3){0.3, 0.4, 0.6}, &body, &err), PARE_BAD_DATA);
    assert_int_equal(pare_gyration(2, (pare_vec3){NAN, 0.4, 0.4}, &body, &err), PARE_BAD_DATA);
}

/* ---- plates ---- */

static const double square[4][2] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};

static void a_cut_plate_is_what_its_pieces_add_up_to(void **state)
{
    (void)state;
    /* A 2 x 2 plate with a 0.4 x 0.6 hole off centre, against boxes: whole less hole. Holes may run
     * either way round. */
    static const double ccw[4][2] = {{0.1, 0.2}, {0.5, 0.2}, {0.5, 0.8}, {0.1, 0.8}};
    static const double cw[4][2] = {{0.1, 0.2}, {0.1, 0.8}, {0.5, 0.8}, {0.5, 0.2}};
    const pare_outline outer = {4, square};
    for (int way = 0; way < 2; way++) {
        const pare_outline hole = {4, way ? cw : ccw};
        pare_body cut;
        pare_error err;
        assert_int_equal(pare_plate(&outer, 1, &hole, 0.1, 10, &cut, &err), PARE_OK);
        pare_body plug = solid(PARE_SHAPE_BOX, 0.24, 0.4, 0.6, 0.1);
        plug.at_m = (pare_vec3){0.3, 0.5, 0};
        const pare_body both[2] = {cut, plug};
        const pare_body sum = pare_body_sum(2, both);
        assert_within(sum.mass_kg, 4, 1e-14);
        assert_near(sum.at_m.x, 0, 1e-15);
        assert_near(sum.at_m.y, 0, 1e-15);
        assert_within(sum.inertia_kg_m2.xx, 4 * (4 + 0.01) / 12, 1e-13);
        assert_within(sum.inertia_kg_m2.zz, 4 * 8.0 / 12, 1e-13);
        assert_near(sum.inertia_kg_m2.xy, 0, 1e-14);
    }
}

static void a_plate_far_away_keeps_its_digits(void **state)
{
    (void)state;
    /* 1 km away, a square of 0.25 m: its corners are exact in binary, and so must the rest be. */
    static const double far[4][2] = {
        {1000, 500}, {1000.25, 500}, {1000.25, 500.25}, {1000, 500.25}};
    const pare_outline outline = {4, far};
    pare_body body;
    pare_error err;
    assert_int_equal(pare_plate(&outline, 0, NULL, 1, 1, &body, &err), PARE_OK);
    assert_within(body.mass_kg, 0.0625, 1e-15);
    assert_within(body.at_m.x, 1000.125, 1e-15);
    assert_within(body.inertia_kg_m2.zz, 0.0625 * 0.125 / 12, 1e-14);
}

static void outlines_that_make_no_plate_are_refused(void **state)
{
    (void)state;
    static const double outside[3][2] = {{0, 0}, {0.5, 0}, {0, 3}};
    static const double broken[3][2] = {{0, 0}, {0.5, NAN}, {0, 0.5}};
    static const double flat[3][2] = {{0, 0}, {1, 1}, {2, 2}};
    static const double most[4][2] = {{-.9, -.9}, {.9, -.9}, {.9, .9}, {-.9, .9}};
    const pare_outline outer = {4, square}, two = {2, square}, line = {3, flat};
    const pare_outline out = {3, outside}, nan = {3, broken}, twice[2] = {{4, most}, {4, most}};
    pare_body body;
    pare_error err;
    assert_int_equal(pare_plate(&two, 0, NULL, 1, 1, &body, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "outline 1 has 2 points; an outline needs 3 or more");
    assert_int_equal(pare_plate(&line, 0, NULL, 1, 1, &body, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "outline 1 encloses no area");
    assert_int_equal(pare_plate(&outer, 1, &out, 1, 1, &body, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "hole 1, point 3 (0, 3) m lies outside the plate");
    assert_int_equal(pare_plate(&outer, 1, &nan, 1, 1, &body, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "hole 1, point 2: nan m; a place is finite and within 1e+06 m");
    assert_int_equal(pare_plate(&outer, 2, twice, 1, 1, &body, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "the holes leave nothing of the plate: they overlap");
    assert_int_equal(pare_plate(&outer, 0, NULL, -1, 1, &body, &err), PARE_BAD_DATA);
    assert_int_equal(pare_plate(&outer, 0, NULL, 1, NAN, &body, &err), PARE_BAD_DATA);
}

/* ---- turning, adding, principal axes ---- */

static void turns_are_yaw_then_pitch_then_roll(void **state)
{
    (void)state;
    /* ISO 8855 with z up: positive yaw turns x to y, positive pitch puts the nose (x) down. */
    const pare_body at_x = {.mass_kg = 1, .at_m = {1, 0, 0}};
    const pare_mat3 yaw = pare_turn_zyx(PI / 2, 0, 0), pitch = pare_turn_zyx(0, PI / 2, 0),
                    both = pare_turn_zyx(PI / 2, PI / 2, 0);
    const pare_vec3 none = {0, 0, 0};
    assert_near(pare_body_moved(&at_x, &yaw, none).at_m.y, 1, 1e-15);
    assert_near(pare_body_moved(&at_x, &pitch, none).at_m.z, -1, 1e-15);
    /* Intrinsic: the pitch is about the yawed y axis, so the nose still goes down. */
    assert_near(pare_body_moved(&at_x, &both, none).at_m.z, -1, 1e-15);
    const pare_body at_y = {.mass_kg = 1, .at_m = {0, 1, 0}};
    assert_near(pare_body_moved(&at_y, &both, none).at_m.x, -1, 1e-15);
}

static double draw(unsigned *seed)
{
    *seed = *seed * 1103515245u + 12345u;
    return (double)(*seed >> 8) / (double)(1u << 24);
}

static void a_turned_body_keeps_its_principal_moments(void **state)
{
    (void)state;
    unsigned seed = 1;
    for (int round = 0; round < 200; round++) {
        const pare_body box = solid(PARE_SHAPE_BOX, 1, 0.1 + draw(&seed), 0.1 + draw(&seed),
                                    round % 3 ? 0.1 + draw(&seed) : 0);
        const pare_mat3 turn = pare_turn_zyx(6 * draw(&seed), 6 * draw(&seed), 6 * draw(&seed));
        const pare_body turned = pare_body_moved(&box, &turn, (pare_vec3){1, 2, 3});
        double was[3], is[3];
        pare_mat3 axes;
        pare_principal(&box.inertia_kg_m2, was, &axes);
        pare_principal(&turned.inertia_kg_m2, is, &axes);
        assert_true(is[0] <= is[1] && is[1] <= is[2]);
        for (int k = 0; k < 3; k++)
            assert_near(is[k], was[k], 1e-14 * was[2]);
        /* The axes are orthonormal, right handed, and take the tensor to its moments. */
        const double(*a)[3] = axes.m;
        const pare_sym3 *s = &turned.inertia_kg_m2;
        const double tensor[3][3] = {
            {s->xx, s->xy, s->xz}, {s->xy, s->yy, s->yz}, {s->xz, s->yz, s->zz}};
        for (int k = 0; k < 3; k++)
            for (int i = 0; i < 3; i++) {
                double on = 0;
                for (int j = 0; j < 3; j++)
                    on += tensor[i][j] * a[j][k];
                assert_near(on, is[k] * a[i][k], 1e-14 * is[2]);
            }
        const double det = a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) -
                           a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0]) +
                           a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
        assert_near(det, 1, 1e-14);
    }
}

static void a_diagonal_tensor_has_the_body_axes(void **state)
{
    (void)state;
    const pare_sym3 tensor = {.xx = 1, .yy = 2, .zz = 3};
    double moments[3];
    pare_mat3 axes;
    pare_principal(&tensor, moments, &axes);
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < 3; k++)
            assert_near(axes.m[i][k], i == k ? 1 : 0, 0);
    const pare_sym3 broken = {.xx = 1, .yy = NAN, .zz = 3, .xy = NAN};
    pare_principal(&broken, moments, &axes); /* ends, with no promise about what it says */
}

static void order_and_origin_do_not_change_a_sum(void **state)
{
    (void)state;
    unsigned seed = 7;
    pare_body parts[8], shifted[8];
    for (size_t i = 0; i < 8; i++) {
        parts[i] = solid(PARE_SHAPE_BOX, 0.01 + draw(&seed), draw(&seed), draw(&seed), draw(&seed));
        parts[i].at_m = (pare_vec3){draw(&seed), draw(&seed), draw(&seed)};
        shifted[7 - i] = pare_body_moved(&parts[i], NULL, (pare_vec3){10, -20, 30});
    }
    const pare_body a = pare_body_sum(8, parts), b = pare_body_sum(8, shifted);
    assert_within(a.mass_kg, b.mass_kg, 1e-15);
    assert_within(b.at_m.y, a.at_m.y - 20, 1e-14);
    assert_within(a.inertia_kg_m2.xx, b.inertia_kg_m2.xx, 1e-12);
    assert_near(a.inertia_kg_m2.xy, b.inertia_kg_m2.xy, 1e-12);
    /* Groups of groups are the whole: the parallel-axis theorem. */
    const pare_body halves[2] = {pare_body_sum(3, parts), pare_body_sum(5, parts + 3)};
    const pare_body c = pare_body_sum(2, halves);
    assert_within(c.inertia_kg_m2.zz, a.inertia_kg_m2.zz, 1e-14);
    assert_near(pare_body_sum(0, NULL).mass_kg, 0, 0);
    const pare_body weightless = {.at_m = {1, 2, 3}};
    assert_near(pare_body_sum(1, &weightless).at_m.x, 0, 0);
}

/* ---- meshes ---- */

/* The cube 0..1 as twelve triangles. */
static void cube(double corner_m[12][9])
{
    static const int quad[6][4] = {{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4},
                                   {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}};
    for (int f = 0; f < 6; f++)
        for (int half = 0; half < 2; half++) {
            const int pick[3] = {quad[f][0], quad[f][1 + half], quad[f][2 + half]};
            for (int k = 0; k < 3; k++)
                for (int i = 0; i < 3; i++)
                    corner_m[2 * f + half][3 * k + i] = (pick[k] >> i) & 1;
        }
}

static pare_mesh_facts measured(const double (*corner_m)[9], size_t triangles)
{
    const pare_mesh mesh = {triangles, corner_m};
    pare_mesh_facts facts;
    pare_error err;
    void *scratch = malloc(pare_mesh_scratch(triangles));
    assert_non_null(scratch);
    assert_int_equal(pare_mesh_measure(&mesh, scratch, &facts, &err), PARE_OK);
    free(scratch);
    return facts;
}

static void flip(double t[9])
{
    for (int i = 0; i < 3; i++) {
        const double swap = t[3 + i];
        t[3 + i] = t[6 + i];
        t[6 + i] = swap;
    }
}

static void a_cube_mesh_is_a_box(void **state)
{
    (void)state;
    double corner_m[12][9];
    cube(corner_m);
    for (int shift = 0; shift < 2; shift++) {
        for (int t = 0; t < 12; t++)
            for (int i = 0; i < 9; i++)
                corner_m[t][i] += shift * 1e5; /* far away, and still exact in binary */
        const pare_mesh_facts facts = measured(corner_m, 12);
        assert_int_equal(facts.open_edges, 0);
        assert_int_equal(facts.estimated, PARE_MESH_EXACT);
        assert_within(facts.volume_m3, 1, 1e-15);
        assert_within(facts.area_m2, 6, 1e-15);
        assert_within(facts.inertia_m5.xx, 1.0 / 6, 1e-14);
        assert_near(facts.inertia_m5.xy, 0, 1e-15);
        assert_within(facts.centre_m.z, 0.5 + shift * 1e5, 1e-15);
        assert_near(facts.low_m.x, shift * 1e5, 0);
        assert_near(facts.high_m.y, 1 + shift * 1e5, 0);
    }
}

static void an_inside_out_cube_is_turned_and_said_so(void **state)
{
    (void)state;
    double corner_m[12][9];
    cube(corner_m);
    for (int t = 0; t < 12; t++)
        flip(corner_m[t]);
    const pare_mesh_facts facts = measured(corner_m, 12);
    assert_int_equal(facts.turned_inside_out, 1);
    assert_int_equal(facts.open_edges, 0);
    assert_within(facts.volume_m3, 1, 1e-15);
    assert_within(facts.inertia_m5.yy, 1.0 / 6, 1e-14);
    assert_within(facts.centre_m.x, 0.5, 1e-15);
}

static void a_missing_or_flipped_triangle_leaves_three_open_edges(void **state)
{
    (void)state;
    double corner_m[12][9];
    cube(corner_m);
    const pare_mesh_facts missing = measured(corner_m + 1, 11);
    assert_int_equal(missing.open_edges, 3);
    assert_int_equal(missing.estimated, PARE_MESH_BOX);
    assert_within(missing.volume_m3, 1, 1e-15);
    /* Both ends of the open edge that it names are corners of the triangle that is gone. */
    const double from[3] = {missing.open_from_m.x, missing.open_from_m.y, missing.open_from_m.z};
    const double to[3] = {missing.open_to_m.x, missing.open_to_m.y, missing.open_to_m.z};
    int found = 0;
    for (int k = 0; k < 3; k++)
        found += !memcmp(&corner_m[0][3 * k], from, sizeof from) +
                 !memcmp(&corner_m[0][3 * k], to, sizeof to);
    assert_int_equal(found, 2);
    flip(corner_m[5]);
    assert_int_equal(measured(corner_m, 12).open_edges, 3);
}

static void an_edge_shared_by_four_triangles_is_not_manifold(void **state)
{
    (void)state;
    /* Two cubes that touch along one edge. */
    double corner_m[24][9];
    cube(corner_m);
    cube(corner_m + 12);
    for (int t = 12; t < 24; t++)
        for (int i = 0; i < 9; i++)
            corner_m[t][i] += i % 3 == 2 ? 0 : 1;
    assert_int_equal(measured(corner_m, 24).open_edges, 1);
}

static void a_hollow_counts_as_taken_away(void **state)
{
    (void)state;
    double corner_m[24][9];
    cube(corner_m);
    cube(corner_m + 12);
    for (int t = 12; t < 24; t++) {
        flip(corner_m[t]);
        for (int i = 0; i < 9; i++)
            corner_m[t][i] = 0.25 + corner_m[t][i] / 2;
    }
    const pare_mesh_facts facts = measured(corner_m, 24);
    assert_int_equal(facts.open_edges, 0);
    assert_within(facts.volume_m3, 1 - 0.125, 1e-15);
    assert_within(facts.inertia_m5.zz, (1 - 1.0 / 32) / 6, 1e-14);
}

static void triangles_without_area_are_counted_and_do_no_harm(void **state)
{
    (void)state;
    /* One folded onto an edge (two corners alike), and a sliver on an edge whose middle a neighbour
     * uses: without the sliver the cube would be open there. */
    double corner_m[15][9];
    cube(corner_m);
    const double folded[9] = {0, 0, 0, 1, 0, 0, 0, 0, 0};
    memcpy(corner_m[12], folded, sizeof folded);
    assert_int_equal(measured(corner_m, 13).open_edges, 0);
    assert_int_equal(measured(corner_m, 13).degenerate, 1);
    /* Split triangle 0 = (a, b, c) at the middle m of a-b: (a, m, c), (m, b, c), sliver (a, b, m). */
    double a[3], b[3], c[3], m[3];
    memcpy(a, corner_m[0], sizeof a);
    memcpy(b, corner_m[0] + 3, sizeof b);
    memcpy(c, corner_m[0] + 6, sizeof c);
    for (int i = 0; i < 3; i++)
        m[i] = (a[i] + b[i]) / 2;
    const double *const split[3][3] = {{a, m, c}, {m, b, c}, {a, b, m}};
    static const int at[3] = {0, 13, 14};
    for (int t = 0; t < 3; t++)
        for (int k = 0; k < 3; k++)
            memcpy(corner_m[at[t]] + 3 * k, split[t][k], sizeof a);
    const pare_mesh_facts facts = measured(corner_m, 15);
    assert_int_equal(facts.open_edges, 0);
    assert_int_equal(facts.degenerate, 2);
    assert_within(facts.volume_m3, 1, 1e-14);
    assert_int_equal(measured(corner_m, 14).open_edges, 3);
}

static void minus_zero_is_zero(void **state)
{
    (void)state;
    double corner_m[12][9];
    cube(corner_m);
    for (int t = 0; t < 12; t += 2)
        for (int i = 0; i < 9; i++)
            if (corner_m[t][i] == 0)
                corner_m[t][i] = -0.0;
    assert_int_equal(measured(corner_m, 12).open_edges, 0);
}

static void a_closed_sheet_has_no_volume_of_its_own(void **state)
{
    (void)state;
    /* Front and back of one triangle: closed, and nothing inside. */
    const double corner_m[2][9] = {{0, 0, 0, 1, 0, 0, 0, 1, 1}, {0, 0, 0, 0, 1, 1, 1, 0, 0}};
    const pare_mesh_facts facts = measured(corner_m, 2);
    assert_int_equal(facts.open_edges, 0);
    assert_int_equal(facts.estimated, PARE_MESH_BOX);
}

static void figures_of_a_hull_are_taken_whichever_way_it_faces(void **state)
{
    (void)state;
    double corner_m[12][9], hull_m[12][9];
    cube(corner_m);
    cube(hull_m);
    for (int t = 0; t < 12; t += 3)
        flip(hull_m[t]);
    pare_mesh_facts facts = measured(corner_m + 1, 11);
    const pare_mesh hull = {12, hull_m}, flat = {2, hull_m}, none = {0, NULL};
    assert_int_equal(pare_mesh_take_hull(&none, &facts), 0);
    assert_int_equal(pare_mesh_take_hull(&flat, &facts), 0);
    assert_int_equal(facts.estimated, PARE_MESH_BOX);
    assert_int_equal(pare_mesh_take_hull(&hull, &facts), 1);
    assert_int_equal(facts.estimated, PARE_MESH_HULL);
    assert_within(facts.volume_m3, 1, 1e-14);
    assert_within(facts.inertia_m5.xx, 1.0 / 6, 1e-14);
    assert_int_equal(facts.open_edges, 3);
    assert_within(facts.area_m2, 5.5, 1e-14);
}

static void corners_that_are_no_places_are_refused_by_name(void **state)
{
    (void)state;
    double corner_m[12][9];
    cube(corner_m);
    const pare_mesh mesh = {12, corner_m}, none = {0, NULL};
    max_align_t scratch[12 * 6];
    assert_true(pare_mesh_scratch(12) <= sizeof scratch);
    pare_mesh_facts facts = {.volume_m3 = 7};
    pare_error err;
    corner_m[4][5] = NAN;
    assert_int_equal(pare_mesh_measure(&mesh, scratch, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "triangle 5, corner 2: z is not a finite number");
    corner_m[4][5] = 1e9;
    assert_int_equal(pare_mesh_measure(&mesh, scratch, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "triangle 5, corner 2: z is 1e+09 m; a mesh lies within 1e+06 m");
    assert_int_equal(pare_mesh_measure(&none, scratch, &facts, &err), PARE_BAD_DATA);
    assert_near(facts.volume_m3, 7, 0);
    assert_int_equal(pare_mesh_scratch(SIZE_MAX / 8), 0);
}

static void a_printed_part_weighs_its_shell_and_its_infill(void **state)
{
    (void)state;
    /* A 20 mm cube: shell 6 x 400 x 1.2 = 2880 mm3 of 8000, infill a fifth of the rest. */
    assert_within(pare_printed_kg(8000e-9, 2400e-6, 1.2e-3, 0.2, 1240), 1240e-9 * (2880 + 1024),
                  1e-14);
    /* A thin part is all shell, and never more than all of it. */
    assert_within(pare_printed_kg(1000e-9, 2400e-6, 1.2e-3, 0.2, 1240), 1240e-6, 1e-14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shapes_have_their_textbook_moments),
        cmocka_unit_test(shapes_pass_into_each_other_at_their_limits),
        cmocka_unit_test(a_tube_is_a_cylinder_less_its_bore),
        cmocka_unit_test(a_frustum_stacks_out_of_two),
        cmocka_unit_test(volumes_are_the_textbook_ones),
        cmocka_unit_test(sizes_that_no_body_has_are_refused),
        cmocka_unit_test(radii_of_gyration_make_a_body_or_are_refused),
        cmocka_unit_test(a_cut_plate_is_what_its_pieces_add_up_to),
        cmocka_unit_test(a_plate_far_away_keeps_its_digits),
        cmocka_unit_test(outlines_that_make_no_plate_are_refused),
        cmocka_unit_test(turns_are_yaw_then_pitch_then_roll),
        cmocka_unit_test(a_turned_body_keeps_its_principal_moments),
        cmocka_unit_test(a_diagonal_tensor_has_the_body_axes),
        cmocka_unit_test(order_and_origin_do_not_change_a_sum),
        cmocka_unit_test(a_cube_mesh_is_a_box),
        cmocka_unit_test(an_inside_out_cube_is_turned_and_said_so),
        cmocka_unit_test(a_missing_or_flipped_triangle_leaves_three_open_edges),
        cmocka_unit_test(an_edge_shared_by_four_triangles_is_not_manifold),
        cmocka_unit_test(a_hollow_counts_as_taken_away),
        cmocka_unit_test(triangles_without_area_are_counted_and_do_no_harm),
        cmocka_unit_test(minus_zero_is_zero),
        cmocka_unit_test(a_closed_sheet_has_no_volume_of_its_own),
        cmocka_unit_test(figures_of_a_hull_are_taken_whichever_way_it_faces),
        cmocka_unit_test(corners_that_are_no_places_are_refused_by_name),
        cmocka_unit_test(a_printed_part_weighs_its_shell_and_its_infill),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
