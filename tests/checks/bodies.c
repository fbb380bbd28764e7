/* rooms: physics base */
/* Bodies against values computed outside this project: ODE 0.16.2, the mesh library trimesh and
 * 40-digit closed forms agree on the assembly and on the meshes. */
#include "near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "physics/solid.h"

#define DEG (3.14159265358979323846 / 180)

static pare_body solid(pare_shape shape, double mass_kg, double a, double b, double c)
{
    const double size_m[3] = {a, b, c};
    pare_body body;
    pare_error err;
    assert_int_equal(pare_solid(shape, mass_kg, size_m, &body, &err), PARE_OK);
    return body;
}

static pare_body moved(pare_body body, double z_deg, double y_deg, double x_deg, double x, double y,
                       double z)
{
    const pare_mat3 turn = pare_turn_zyx(z_deg * DEG, y_deg * DEG, x_deg * DEG);
    return pare_body_moved(&body, &turn, (pare_vec3){x, y, z});
}

static pare_body six_parts(void)
{
    /* The fifth is turned about z first and then about the fixed x axis, R = Rx(10) Rz(30): as
     * intrinsic angles that is one turn after another. */
    pare_body box = moved(solid(PARE_SHAPE_BOX, .180, .075, .035, .030), 30, 0, 0, 0, 0, 0);
    const pare_body parts[6] = {
        solid(PARE_SHAPE_BOX, .120, .150, .060, .004),
        moved(solid(PARE_SHAPE_CYLINDER, .032, .028, .020, 0), 0, 0, 0, .110, .110, .012),
        moved(solid(PARE_SHAPE_CYLINDER, .018, .012, .200, 0), 45, 90, 0, .075, .075, 0),
        moved(solid(PARE_SHAPE_SPHERE, .025, .036, 0, 0), 0, 0, 0, -.050, .020, .030),
        moved(box, 0, 0, 10, -.010, -.005, -.025),
        moved(solid(PARE_SHAPE_CAPSULE, .012, .010, .040, 0), 0, 0, 90, .030, -.060, .010),
    };
    return pare_body_sum(6, parts);
}

static void six_turned_parts_have_the_mass_and_centre_that_ode_gives(void **state)
{
    (void)state;
    const pare_body craft = six_parts();
    assert_near(craft.mass_kg, 0.387, 1e-15);
    assert_near(craft.at_m.x, 5.633074935401e-03, 1e-14);
    assert_near(craft.at_m.y, 9.689922480620e-03, 1e-14);
    assert_near(craft.at_m.z, -8.387596899225e-03, 1e-14);
}

static void six_turned_parts_have_the_tensor_that_ode_gives(void **state)
{
    (void)state;
    /* The truths are printed to 13 digits: 1e-12 of each. */
    const pare_sym3 tensor = six_parts().inertia_kg_m2;
    assert_within(tensor.xx, 7.463144606866e-04, 1e-12);
    assert_within(tensor.yy, 1.024494673174e-03, 1e-12);
    assert_within(tensor.zz, 1.509193295080e-03, 1e-12);
    assert_within(tensor.xy, -4.877896305467e-04, 1e-12);
    assert_within(tensor.xz, -7.658762443526e-05, 1e-12);
    assert_within(tensor.yz, -1.076488286539e-04, 1e-12);
}

static void six_turned_parts_have_the_published_principal_moments(void **state)
{
    (void)state;
    const pare_body craft = six_parts();
    double moments[3];
    pare_mat3 axes;
    pare_principal(&craft.inertia_kg_m2, moments, &axes);
    assert_within(moments[0], 3.642911951319e-04, 1e-12);
    assert_within(moments[1], 1.381598638309e-03, 1e-12);
    assert_within(moments[2], 1.534112595500e-03, 1e-12);
}

/* ---- meshes ---- */

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

#define ICOSPHERE (20 * 4 * 4 * 4)

static void put(double (*corner_m)[9], size_t *count, const double a[3], const double b[3],
                const double c[3])
{
    double *t = corner_m[(*count)++];
    memcpy(t, a, 3 * sizeof *a);
    memcpy(t + 3, b, 3 * sizeof *b);
    memcpy(t + 6, c, 3 * sizeof *c);
}

static void unit_middle(const double a[3], const double b[3], double m[3])
{
    for (int i = 0; i < 3; i++)
        m[i] = a[i] + b[i];
    const double length = sqrt(m[0] * m[0] + m[1] * m[1] + m[2] * m[2]);
    for (int i = 0; i < 3; i++)
        m[i] /= length;
}

static void subdivide(double (*corner_m)[9], size_t *count, const double a[3], const double b[3],
                      const double c[3], int times)
{
    if (times == 0) {
        put(corner_m, count, a, b, c);
        return;
    }
    double ab[3], bc[3], ca[3];
    unit_middle(a, b, ab);
    unit_middle(b, c, bc);
    unit_middle(c, a, ca);
    subdivide(corner_m, count, a, ab, ca, times - 1);
    subdivide(corner_m, count, ab, b, bc, times - 1);
    subdivide(corner_m, count, ca, bc, c, times - 1);
    subdivide(corner_m, count, ab, bc, ca, times - 1);
}

/* The sphere of radius 1 from an icosahedron, each triangle cut in four, three times. */
static void icosphere(double (*corner_m)[9])
{
    const double g = (1 + sqrt(5)) / 2, n = sqrt(1 + g * g), u = 1 / n, v = g / n;
    const double at[12][3] = {{-u, v, 0}, {u, v, 0}, {-u, -v, 0}, {u, -v, 0},
                              {0, -u, v}, {0, u, v}, {0, -u, -v}, {0, u, -v},
                              {v, 0, -u}, {v, 0, u}, {-v, 0, -u}, {-v, 0, u}};
    static const int face[20][3] = {{0, 11, 5}, {0, 5, 1},  {0, 1, 7},   {0, 7, 10}, {0, 10, 11},
                                    {1, 5, 9},  {5, 11, 4}, {11, 10, 2}, {10, 7, 6}, {7, 1, 8},
                                    {3, 9, 4},  {3, 4, 2},  {3, 2, 6},   {3, 6, 8},  {3, 8, 9},
                                    {4, 9, 5},  {2, 4, 11}, {6, 2, 10},  {8, 6, 7},  {9, 8, 1}};
    size_t count = 0;
    for (int f = 0; f < 20; f++)
        subdivide(corner_m, &count, at[face[f][0]], at[face[f][1]], at[face[f][2]], 3);
    assert_int_equal(count, ICOSPHERE);
}

static void an_icosphere_has_the_figures_that_trimesh_gives(void **state)
{
    (void)state;
    static double corner_m[ICOSPHERE][9];
    icosphere(corner_m);
    const pare_mesh_facts facts = measured(corner_m, ICOSPHERE);
    assert_int_equal(facts.open_edges, 0);
    assert_int_equal(facts.estimated, PARE_MESH_EXACT);
    assert_int_equal(facts.turned_inside_out, 0);
    assert_within(facts.volume_m3, 4.15274081709, 1e-11);
    assert_within(facts.area_m2, 12.506492734, 1e-10);
    assert_within(facts.inertia_m5.xx, 1.65155742815, 1e-11);
    assert_within(facts.inertia_m5.yy, 1.65155742815, 1e-11);
    assert_within(facts.inertia_m5.zz, 1.65155742815, 1e-11);
    assert_near(facts.centre_m.x, 0, 1e-15);
}

static void single_precision_corners_cost_what_an_stl_file_costs(void **state)
{
    (void)state;
    /* An STL file holds floats: 1e-7 near the origin; 1000 radii away the corners are rounded to
     * 6e-5 of the radius, which cancels over many triangles to 1e-5. */
    static double corner_m[ICOSPHERE][9];
    for (int far = 0; far < 2; far++) {
        icosphere(corner_m);
        for (size_t t = 0; t < ICOSPHERE; t++)
            for (int i = 0; i < 9; i++)
                corner_m[t][i] = (double)(float)(corner_m[t][i] + (far && i % 3 == 0 ? 1000 : 0));
        const pare_mesh_facts facts = measured(corner_m, ICOSPHERE);
        assert_int_equal(facts.open_edges, 0);
        assert_within(facts.volume_m3, 4.15274081709, far ? 1e-5 : 1e-7);
        assert_within(facts.inertia_m5.xx, 1.65155742815, far ? 1e-5 : 1e-7);
    }
}

/* An outline of six corners extruded; its caps are cut for an L. */
static size_t l_prism(double (*corner_m)[9])
{
    static const double at[6][2] = {{0, 0}, {40, 0}, {40, 5}, {5, 5}, {5, 30}, {0, 30}};
    static const int cap[4][3] = {{0, 1, 2}, {0, 2, 3}, {0, 3, 4}, {0, 4, 5}};
    size_t count = 0;
    for (int k = 0; k < 4; k++) {
        double low[3][3], high[3][3];
        for (int i = 0; i < 3; i++) {
            const double *p = at[cap[k][i]];
            low[i][0] = high[i][0] = p[0];
            low[i][1] = high[i][1] = p[1];
            low[i][2] = 0;
            high[i][2] = 12;
        }
        put(corner_m, &count, high[0], high[1], high[2]);
        put(corner_m, &count, low[0], low[2], low[1]);
    }
    for (int k = 0; k < 6; k++) {
        const double *p = at[k], *q = at[(k + 1) % 6];
        const double a[3] = {p[0], p[1], 0}, b[3] = {q[0], q[1], 0}, c[3] = {q[0], q[1], 12},
                     d[3] = {p[0], p[1], 12};
        put(corner_m, &count, a, b, c);
        put(corner_m, &count, a, c, d);
    }
    return count;
}

static void an_l_prism_has_the_figures_of_its_closed_form(void **state)
{
    (void)state;
    double corner_m[20][9];
    assert_int_equal(l_prism(corner_m), 20);
    const pare_mesh_facts facts = measured(corner_m, 20);
    assert_int_equal(facts.open_edges, 0);
    assert_within(facts.volume_m3, 3900, 1e-13);
    assert_within(facts.area_m2, 2330, 1e-13);
    assert_within(facts.centre_m.x, 13.2692307692, 1e-11);
    assert_within(facts.centre_m.y, 8.26923076923, 1e-11);
    assert_within(facts.centre_m.z, 6, 1e-13);
    assert_within(facts.inertia_m5.xx, 337617.307692, 1e-11);
    assert_within(facts.inertia_m5.yy, 652617.307692, 1e-11);
    assert_within(facts.inertia_m5.zz, 896634.615385, 1e-11);
    assert_within(facts.inertia_m5.xy, 242307.692308, 1e-11);
    assert_near(facts.inertia_m5.xz, 0, 1e-8);
    assert_near(facts.inertia_m5.yz, 0, 1e-8);
}

static void the_same_l_as_a_cut_plate_has_the_same_figures(void **state)
{
    (void)state;
    static const double at[6][2] = {{0, 0}, {40, 0}, {40, 5}, {5, 5}, {5, 30}, {0, 30}};
    const pare_outline outline = {6, at};
    pare_body body;
    pare_error err;
    assert_int_equal(pare_plate(&outline, 0, NULL, 12, 1, &body, &err), PARE_OK);
    assert_within(body.mass_kg, 3900, 1e-13);
    assert_within(body.at_m.x, 13.2692307692, 1e-11);
    assert_within(body.at_m.y, 8.26923076923, 1e-11);
    assert_near(body.at_m.z, 0, 0);
    assert_within(body.inertia_kg_m2.xx, 337617.307692, 1e-11);
    assert_within(body.inertia_kg_m2.yy, 652617.307692, 1e-11);
    assert_within(body.inertia_kg_m2.zz, 896634.615385, 1e-11);
    assert_within(body.inertia_kg_m2.xy, 242307.692308, 1e-11);
}

static void a_corner_tetrahedron_has_the_figures_of_its_closed_form(void **state)
{
    (void)state;
    /* Corners at 0 and one along each axis: V 1/6; about the centre Ixx 1/80, Ixy +1/480. */
    const double corner_m[4][9] = {{0, 0, 0, 0, 1, 0, 1, 0, 0},
                                   {0, 0, 0, 0, 0, 1, 0, 1, 0},
                                   {0, 0, 0, 1, 0, 0, 0, 0, 1},
                                   {1, 0, 0, 0, 1, 0, 0, 0, 1}};
    const pare_mesh_facts facts = measured(corner_m, 4);
    assert_int_equal(facts.open_edges, 0);
    assert_within(facts.volume_m3, 1.0 / 6, 1e-14);
    assert_within(facts.inertia_m5.xx, 1.0 / 80, 1e-14);
    assert_within(facts.inertia_m5.zz, 1.0 / 80, 1e-14);
    assert_within(facts.inertia_m5.xy, 1.0 / 480, 1e-13);
    assert_within(facts.inertia_m5.yz, 1.0 / 480, 1e-13);
    assert_within(facts.centre_m.y, 0.25, 1e-14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(six_turned_parts_have_the_mass_and_centre_that_ode_gives),
        cmocka_unit_test(six_turned_parts_have_the_tensor_that_ode_gives),
        cmocka_unit_test(six_turned_parts_have_the_published_principal_moments),
        cmocka_unit_test(an_icosphere_has_the_figures_that_trimesh_gives),
        cmocka_unit_test(single_precision_corners_cost_what_an_stl_file_costs),
        cmocka_unit_test(an_l_prism_has_the_figures_of_its_closed_form),
        cmocka_unit_test(the_same_l_as_a_cut_plate_has_the_same_figures),
        cmocka_unit_test(a_corner_tetrahedron_has_the_figures_of_its_closed_form),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
