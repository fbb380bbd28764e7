/* rooms: store craft physics base; libraries: ode */
/* Outlines and solids out of drawings and model files against closed forms and against the Open
 * Dynamics Engine (Debian's libode, in doubles).
 *
 * Areas and second moments of plane figures: Young, Budynas, Sadegh, Roark's Formulas for Stress and
 * Strain, 8th ed., table A.1, recalled from memory and derived again here where a line suffices. */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <ode/ode.h>

#include "base/text.h"
#include "store/dxf.h"
#include "store/svg.h"
#include "store/three_mf.h"
#include "zip_of.h"

static const double PI = 3.14159265358979323846;

#define SHARE 1e-6 /* of an area or a moment: what is promised */

static char *dxf_of(const char *entities)
{
    pare_text text = {0};
    pare_text_add(&text, "0\nSECTION\n2\nENTITIES\n");
    for (const char *at = entities; *at; at++)
        pare_text_put(&text, *at == ' ' ? "\n" : at, 1);
    pare_text_add(&text, "\n0\nENDSEC\n0\nEOF\n");
    assert_false(text.failed);
    return text.bytes;
}

static pare_outline_facts read_dxf(const char *entities)
{
    pare_outline_facts facts = {0};
    pare_error err = {0};
    char *text = dxf_of(entities);
    if (pare_dxf_measure("p.dxf", text, strlen(text), NULL, &facts, &err) != PARE_OK)
        fail_msg("%s", err.text);
    free(text);
    return facts;
}

/* A drawing in millimetres, its places then moved by (x, y). */
static pare_outline_facts read_svg(const char *body, double x_mm, double y_mm)
{
    pare_outline_facts facts = {0};
    pare_error err = {0};
    pare_text text = {0};
    pare_text_printf(&text, "<svg width='100mm' height='100mm' viewBox='0 0 100 100'>%s</svg>",
                     body);
    if (pare_svg_measure("p.svg", text.bytes, text.length, NULL, &facts, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_text_free(&text);
    facts.centre_m[0] -= 1e-3 * x_mm;
    facts.centre_m[1] -= 1e-3 * y_mm;
    return facts;
}

/* Millimetres in, as drawings are; moments along x and y about the centre. */
static void assert_figure(pare_outline_facts f, double area_mm2, double x_mm, double y_mm,
                          double xx_mm4, double yy_mm4, double xy_mm4)
{
    const double size_mm = sqrt(area_mm2);
    assert_within(1e6 * f.area_m2, area_mm2, SHARE);
    assert_near(1e3 * f.centre_m[0], x_mm, SHARE * size_mm);
    assert_near(1e3 * f.centre_m[1], y_mm, SHARE * size_mm);
    assert_within(1e12 * f.xx_m4, xx_mm4, SHARE);
    assert_within(1e12 * f.yy_m4, yy_mm4, SHARE);
    assert_near(1e12 * f.xy_m4, xy_mm4, SHARE * (xx_mm4 + yy_mm4));
}

static void a_circle_has_the_closed_form(void **state)
{
    (void)state;
    /* pi r^2, pi r^4 / 4 */
    assert_figure(read_dxf("0 CIRCLE 10 30 20 -12 40 25"), PI * 625, 30, -12, PI * 390625 / 4,
                  PI * 390625 / 4, 0);
}

static void a_ring_has_the_closed_form(void **state)
{
    (void)state;
    /* pi (R^2 - r^2), pi (R^4 - r^4) / 4: a thin one, so that errors would not cancel unseen */
    const double outer = pow(25, 4), inner = pow(24, 4);
    assert_figure(read_dxf("0 CIRCLE 10 0 20 0 40 24 0 CIRCLE 10 0 20 0 40 25"), PI * 49, 0, 0,
                  PI * (outer - inner) / 4, PI * (outer - inner) / 4, 0);
}

static void an_l_has_the_closed_form(void **state)
{
    (void)state;
    /* 40 x 5 and 5 x 25 above it: two rectangles about their common centre, bh^3/12 + A d^2. */
    const double a1 = 200, a2 = 125, x = (a1 * 20 + a2 * 2.5) / 325,
                 y = (a1 * 2.5 + a2 * 17.5) / 325;
    const double xx =
        5 * 64000 / 12.0 + a1 * (20 - x) * (20 - x) + 25 * 125 / 12.0 + a2 * (2.5 - x) * (2.5 - x);
    const double yy = 40 * 125 / 12.0 + a1 * (2.5 - y) * (2.5 - y) + 5 * 15625 / 12.0 +
                      a2 * (17.5 - y) * (17.5 - y);
    const double xy = a1 * (20 - x) * (2.5 - y) + a2 * (2.5 - x) * (17.5 - y);
    assert_figure(
        read_dxf(
            "0 LWPOLYLINE 70 1 10 0 20 0 10 40 20 0 10 40 20 5 10 5 20 5 10 5 20 30 10 0 20 30"),
        325, x, y, xx, yy, xy);
}

/* A slot of straight length l and radius r, along x: rectangle, and half discs that are r^4 (pi/8 -
 * 8/(9 pi)) about their own centres, 4r/3pi from their diameters. */
static void assert_slot(pare_outline_facts f, double l, double r)
{
    const double half = PI * r * r / 2, out = 4 * r / (3 * PI);
    const double own = pow(r, 4) * (PI / 8 - 8 / (9 * PI));
    const double xx = 2 * r * l * l * l / 12 + 2 * (own + half * (l / 2 + out) * (l / 2 + out));
    const double yy = l * 8 * r * r * r / 12 + 2 * PI * pow(r, 4) / 8;
    assert_figure(f, 2 * r * l + 2 * half, 0, 0, xx, yy, 0);
}

static void a_slot_of_arcs_or_of_bulges_has_the_closed_form(void **state)
{
    (void)state;
    assert_slot(read_dxf("0 LINE 10 -15 20 4 11 15 21 4 0 LINE 10 -15 20 -4 11 15 21 -4 "
                         "0 ARC 10 15 20 0 40 4 50 270 51 90 0 ARC 10 -15 20 0 40 4 50 90 51 270"),
                30, 4);
    assert_slot(read_dxf("0 LWPOLYLINE 70 1 10 -15 20 -4 10 15 20 -4 42 1 10 15 20 4 10 -15 20 4 "
                         "42 1"),
                30, 4);
    /* Clockwise, with the bulges the other way. */
    assert_slot(read_dxf("0 LWPOLYLINE 70 1 10 -15 20 -4 42 -1 10 -15 20 4 10 15 20 4 42 -1 10 15 "
                         "20 -4"),
                30, 4);
}

/* A rectangle b x h with corners of radius r about the origin: the whole less, at each corner, a
 * square less a quarter disc. */
static void assert_rounded(pare_outline_facts f, double b, double h, double r)
{
    const double quarter = PI * r * r / 4, out = 4 * r / (3 * PI);
    const double own =
        pow(r, 4) * (PI / 16 - 4 / (9 * PI)); /* of a quarter disc, about its centre */
    const double area = b * h - 4 * (r * r - quarter);
    double moment[2];
    const double side[2] = {b, h};
    for (int k = 0; k < 2; k++) {
        const double edge = side[k] / 2 - r, whole = side[1 - k] * pow(side[k], 3) / 12;
        const double square = pow(r, 4) / 12 + r * r * (edge + r / 2) * (edge + r / 2);
        moment[k] = whole - 4 * (square - own - quarter * (edge + out) * (edge + out));
    }
    assert_figure(f, area, 0, 0, moment[0], moment[1], 0);
}

static void a_rounded_rectangle_with_bulges_has_the_closed_form(void **state)
{
    (void)state;
    /* A quarter turn bulges by tan(90 deg / 4). */
    assert_rounded(read_dxf("0 LWPOLYLINE 70 1 "
                            "10 -40 20 -20 10 40 20 -20 42 0.41421356237309503 "
                            "10 45 20 -15 10 45 20 15 42 0.41421356237309503 "
                            "10 40 20 20 10 -40 20 20 42 0.41421356237309503 "
                            "10 -45 20 15 10 -45 20 -15 42 0.41421356237309503"),
                   90, 40, 5);
}

static void plates_agree_with_ode(void **state)
{
    (void)state;
    /* A disc; and a box less a disc. */
    const double thick_m = 0.003, density = 1600;
    const pare_outline_facts disc = read_dxf("0 CIRCLE 10 12 20 7 40 18");
    const pare_mesh_facts plate = pare_outline_thick(&disc, thick_m, false);
    dMass ode;
    dMassSetCylinder(&ode, density, 3, 0.018, thick_m);
    assert_within(density * plate.volume_m3, ode.mass, SHARE);
    assert_within(density * plate.inertia_m5.xx, ode.I[0], SHARE);
    assert_within(density * plate.inertia_m5.yy, ode.I[5], SHARE);
    assert_within(density * plate.inertia_m5.zz, ode.I[10], SHARE);
    const pare_outline_facts box =
        read_dxf("0 LWPOLYLINE 70 1 10 0 20 0 10 120 20 0 10 120 20 42 10 0 20 42 "
                 "0 CIRCLE 10 30 20 12 40 4");
    const pare_mesh_facts cut = pare_outline_thick(&box, thick_m, false);
    dMass whole, hole;
    dMassSetBox(&whole, density, 0.120, 0.042, thick_m);
    dMassTranslate(&whole, 0.060, 0.021, 0);
    dMassSetCylinder(&hole, density, 3, 0.004, thick_m);
    dMassTranslate(&hole, 0.030, 0.012, 0);
    /* ODE's tensors here are about the drawing's origin, so a difference is one of numbers. */
    const double m = whole.mass - hole.mass, x = (whole.mass * 0.060 - hole.mass * 0.030) / m,
                 y = (whole.mass * 0.021 - hole.mass * 0.012) / m;
    assert_within(density * cut.volume_m3, m, SHARE);
    assert_within(cut.centre_m.x, x, SHARE);
    assert_within(cut.centre_m.y, y, SHARE);
    assert_within(density * cut.inertia_m5.xx + m * y * y, whole.I[0] - hole.I[0], SHARE);
    assert_within(density * cut.inertia_m5.yy + m * x * x, whole.I[5] - hole.I[5], SHARE);
    assert_within(density * cut.inertia_m5.zz + m * (x * x + y * y), whole.I[10] - hole.I[10],
                  SHARE);
    assert_within(density * cut.inertia_m5.xy - m * x * y, whole.I[1] - hole.I[1], SHARE);
}

static void svg_figures_have_the_closed_forms(void **state)
{
    (void)state;
    /* The same figures, y down: a turn of a page changes no moment but the product's sign. */
    assert_slot(
        read_svg("<path transform='translate(100 50)' d='M-15-4H15a4 4 0 0 1 0 8h-30a4 4 0 0 "
                 "1 0-8z'/>",
                 100, -50),
        30, 4);
    assert_rounded(read_svg("<rect x='-45' y='-20' width='90' height='40' rx='5'/>", 0, 0), 90, 40,
                   5);
    assert_figure(read_svg("<circle r='25'/><circle r='24'/>", 0, 0), PI * 49, 0, 0,
                  PI * (390625 - 331776) / 4, PI * (390625 - 331776) / 4, 0);
    /* Ellipse: pi a b, pi a^3 b / 4, pi a b^3 / 4; turned by 30 deg its product is half their
     * difference by sin 60. */
    const double a = PI * 8000 * 10 / 4, b = PI * 20 * 1000 / 4;
    assert_figure(read_svg("<ellipse rx='20' ry='10' transform='rotate(-30)'/>", 0, 0), PI * 200, 0,
                  0, a * 0.75 + b * 0.25, a * 0.25 + b * 0.75, (a - b) / 2 * sqrt(3) / 2);
}

/* A model of a prism of many sides about the z axis, in millimetres. */
static zip_bytes prism_model(int sides, double r_mm, double h_mm, const char *transform)
{
    pare_text t = {0};
    pare_text_add(&t, MODEL_HEAD "><resources><object id='1'><mesh><vertices>"
                                 "<vertex x='0' y='0' z='0'/>");
    pare_text_printf(&t, "<vertex x='0' y='0' z='%.17g'/>", h_mm);
    for (int i = 0; i < sides; i++)
        for (int top = 0; top < 2; top++)
            pare_text_printf(&t, "<vertex x='%.17g' y='%.17g' z='%.17g'/>",
                             r_mm * cos(2 * PI * i / sides), r_mm * sin(2 * PI * i / sides),
                             top * h_mm);
    pare_text_add(&t, "</vertices><triangles>");
    for (int i = 0; i < sides; i++) {
        const int a = 2 + 2 * i, b = 2 + 2 * ((i + 1) % sides);
        const int triangle[4][3] = {{0, b, a}, {1, a + 1, b + 1}, {a, b, b + 1}, {a, b + 1, a + 1}};
        for (int k = 0; k < 4; k++)
            pare_text_printf(&t, "<triangle v1='%d' v2='%d' v3='%d'/>", triangle[k][0],
                             triangle[k][1], triangle[k][2]);
    }
    pare_text_printf(&t,
                     "</triangles></mesh></object></resources><build><item objectid='1' "
                     "transform='%s'/></build></model>",
                     transform);
    assert_false(t.failed);
    const zip_bytes z = three_mf_of(t.bytes);
    pare_text_free(&t);
    return z;
}

static pare_mesh_facts read_model(zip_bytes z)
{
    pare_mesh_facts facts = {0};
    pare_error err = {0};
    if (pare_three_mf_measure("p.3mf", z.at, z.length, &facts, &err) != PARE_OK)
        fail_msg("%s", err.text);
    free(z.at);
    assert_int_equal(facts.open_edges, 0);
    assert_int_equal(facts.turned_inside_out, 0);
    return facts;
}

/* ODE's body about its centre against ours. */
static void assert_same(const pare_mesh_facts *f, const dMass *ode, double density, double share)
{
    const double m = ode->mass, x = ode->c[0], y = ode->c[1], z = ode->c[2];
    const double scale = ode->I[0] + ode->I[5] + ode->I[10];
    assert_within(density * f->volume_m3, m, share);
    assert_near(f->centre_m.x, x, 1e-12);
    assert_near(f->centre_m.y, y, 1e-12);
    assert_near(f->centre_m.z, z, 1e-12);
    assert_within(density * f->inertia_m5.xx, ode->I[0] - m * (y * y + z * z), share);
    assert_within(density * f->inertia_m5.yy, ode->I[5] - m * (x * x + z * z), share);
    assert_within(density * f->inertia_m5.zz, ode->I[10] - m * (x * x + y * y), share);
    assert_near(density * f->inertia_m5.xy, ode->I[1] + m * x * y, share * scale);
    assert_near(density * f->inertia_m5.yz, ode->I[6] + m * y * z, share * scale);
}

static void models_agree_with_ode(void **state)
{
    (void)state;
    /* A box of 30 x 20 x 10 mm moved to (100, 0, 5); turned by -90 deg about x, so z goes to y. */
    const double density = 1210;
    dMass ode;
    dMatrix3 turn;
    const pare_mesh_facts box =
        read_model(three_mf_of(MODEL_HEAD "><resources><object id='1'>" BOX_MESH(
            "30", "20", "10") "</object></resources><build><item objectid='1' transform='1 0 0 0 0 "
                              "-1 0 1 0 100 0 5'/>"
                              "</build></model>"));
    dMassSetBox(&ode, density, 0.03, 0.02, 0.01);
    dMassTranslate(&ode, 0.015, 0.010, 0.005);
    dRFromAxisAndAngle(turn, 1, 0, 0, -PI / 2);
    dMassRotate(&ode, turn);
    dMassTranslate(&ode, 0.1, 0, 0.005);
    assert_same(&box, &ode, density, 1e-10);
    /* A prism of 4000 sides lacks 4e-7 of its cylinder's area, 8e-7 of its second moment. */
    const pare_mesh_facts rod = read_model(prism_model(4000, 8, 25, "0 0 1 1 0 0 0 1 0 0 40 0"));
    dMassSetCylinder(&ode, density, 3, 0.008, 0.025);
    dMassTranslate(&ode, 0, 0, 0.0125);
    /* x to z, y to x, z to y. */
    dRFrom2Axes(turn, 0, 0, 1, 1, 0, 0);
    dMassRotate(&ode, turn);
    dMassTranslate(&ode, 0, 0.04, 0);
    assert_same(&rod, &ode, density, 1e-6);
}

static void prisms_have_the_closed_form(void **state)
{
    (void)state;
    /* A regular prism of n sides, exactly: A = n/2 r^2 sin(2 pi/n), polar moment A r^2/6 (2 + cos(2
     * pi/n)): so few sides that a chord and its arc cannot be mistaken for each other. */
    for (int sides = 3; sides <= 8; sides++) {
        const pare_mesh_facts f = read_model(prism_model(sides, 10, 6, "1 0 0 0 1 0 0 0 1 3 2 1"));
        const double step = 2 * PI / sides, area = sides / 2.0 * 1e-4 * sin(step);
        assert_within(f.volume_m3, area * 6e-3, 1e-12);
        assert_within(f.inertia_m5.zz, 6e-3 * area * 1e-4 / 6 * (2 + cos(step)), 1e-11);
        assert_near(f.centre_m.x, 3e-3, 1e-12);
        assert_near(f.centre_m.z, 4e-3, 1e-12);
    }
}

static void a_cubic_s_own_area_is_kept(void **state)
{
    (void)state;
    /* (0,0) (0,1) (1,1) (1,0): x = 3t^2 - 2t^3, y = 3t - 3t^2, and the integral of y dx over 0..1 is
     * 3/5; a loop of it and its chord. Second moment along y: integral of y^3/3 dx = 54 B(5,5) ... */
    pare_arena *arena = pare_arena_open();
    pare_drawing d = {.arena = arena, .map = {{0.1, 0, 0, 0.1, 0, 0}}};
    const double p[4][2] = {{0, 0}, {0, 1}, {1, 1}, {1, 0}};
    pare_outline_facts f;
    pare_error err = {0};
    pare_draw_from(&d, 0, 0);
    pare_draw_cubic(&d, p);
    pare_draw_end(&d, true);
    assert_int_equal(pare_drawing_measure("cubic", &d, &f, &err), PARE_OK);
    assert_within(f.area_m2, 0.6 * 1e-2, 1e-13);
    assert_within(f.centre_m[0], 0.05, 1e-12); /* by symmetry */
    /* First moment: integral of y^2/2 dx = 27 int t^3 (1-t)^3 = 27 x 3! 3! / 7! = 27/140. */
    assert_within(f.centre_m[1], 0.1 * (27.0 / 140) / 0.6, SHARE);
    /* Second: integral of y^3/3 dx = 54 int t^4 (1-t)^4 = 54 x 4! 4! / 9! = 54/630. */
    assert_within(f.yy_m4, 1e-4 * (54.0 / 630 - 0.6 * pow(27.0 / 140 / 0.6, 2)), SHARE);
    pare_arena_close(arena);
}

int main(void)
{
    dInitODE2(0);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_circle_has_the_closed_form),
        cmocka_unit_test(a_ring_has_the_closed_form),
        cmocka_unit_test(an_l_has_the_closed_form),
        cmocka_unit_test(a_slot_of_arcs_or_of_bulges_has_the_closed_form),
        cmocka_unit_test(a_rounded_rectangle_with_bulges_has_the_closed_form),
        cmocka_unit_test(plates_agree_with_ode),
        cmocka_unit_test(svg_figures_have_the_closed_forms),
        cmocka_unit_test(models_agree_with_ode),
        cmocka_unit_test(prisms_have_the_closed_form),
        cmocka_unit_test(a_cubic_s_own_area_is_kept),
    };
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    dCloseODE();
    return failed;
}
