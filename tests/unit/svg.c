/* rooms: store craft physics base */
/* Reading SVG, good and bad; joining and refusing outlines stands in dxf.c. */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/svg.h"

#define MM 1e-3

static const double PI = 3.14159265358979323846;

/* A drawing in millimetres. */
#define HEAD                                                                                       \
    "<svg xmlns='http://www.w3.org/2000/svg' width='200mm' height='100mm' viewBox='0 0 200 100'>"

static pare_status try_text(const char *text, pare_outline_facts *facts, pare_error *err)
{
    const size_t length = strlen(text);
    char *exact = malloc(length ? length : 1); /* no final zero, for the sanitizer */
    assert_non_null(exact);
    memcpy(exact, text, length);
    const pare_status status = pare_svg_measure("p.svg", exact, length, NULL, facts, err);
    free(exact);
    return status;
}

static pare_status try_body(const char *body, pare_outline_facts *facts, pare_error *err)
{
    pare_text text = {0};
    pare_text_printf(&text, "%s%s</svg>", HEAD, body);
    assert_false(text.failed);
    const pare_status status = try_text(text.bytes, facts, err);
    pare_text_free(&text);
    return status;
}

static pare_outline_facts whole(const char *text)
{
    pare_outline_facts facts = {0};
    pare_error err = {0};
    if (try_text(text, &facts, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return facts;
}

static pare_outline_facts measured(const char *body)
{
    pare_outline_facts facts = {0};
    pare_error err = {0};
    if (try_body(body, &facts, &err) != PARE_OK)
        fail_msg("%s: %s", body, err.text);
    return facts;
}

/* The same rectangle, x 10 to 50, y 5 to 25 downwards, in many ways of writing. */
static void every_way_to_write_a_rectangle_gives_the_same(void **state)
{
    (void)state;
    static const char *const ways[] = {
        "<rect x='10' y='5' width='40' height='20'/>",
        "<polygon points='10,5 50,5 50,25 10,25'/>",
        "<polyline points='10 5 50 5 50 25 10 25 10 5'/>",
        "<path d='M10 5L50 5L50 25L10 25Z'/>",
        "<path d='M10,5H50V25H10z'/>",
        "<path d='m10 5 40 0 0 20-40 0z'/>",
        "<path d='m10 5h40v20h-40V5'/>",
        "<path d='M+10+5\tL50 5&#13;L&#10;50 25\nL10 25&#9;Z'/>",
        "<path d='M 1e1 .5e+1 h4e1v2.0E1-0h-40 Z'/>",
        "<line x1='10' y1='5' x2='50' y2='5'/><line x1='50' y1='25' x2='50' y2='5'/>"
        "<line x1='10' y1='25' x2='50' y2='25'/><line x1='10' y1='25' x2='10' y2='5'/>",
        "<g transform='translate(10,5)'><rect width='40' height='20'/></g>",
        "<g transform='translate(10 5) scale(2)'><g><rect width='20' height='10'/></g></g>",
        "<rect width='40' height='20' transform='matrix(1 0 0 1 10 5)'/>",
        "<rect x='-10' y='5' width='40' height='20' transform='translate(40) scale(-1,1)' />",
        "<rect x='5' y='-50' width='20' height='40' transform='rotate(90)'/>",
        "<rect x='20' y='-5' width='20' height='40' transform='rotate(90, 30, 15)'/>",
        "<a><switch><rect x='10px' y='5' width='40' height='20'/></switch></a>",
        "<defs><rect width='1' height='1'/></defs><title>plate</title>"
        "<text x='1' y='1'>plate</text><image href='http://nowhere.invalid/x.png'/>"
        "<g display='none'><rect width='90' height='90'/></g>"
        "<g style='fill:none; display: none'><rect width='90' height='90'/></g>"
        "<other xmlns='urn:other'><rect width='90' height='90'/></other>"
        "<rect width='0' height='9'/><circle r='0'/>"
        "<rect x='10' y='5' width='40' height='20' style='display:inline'><title/></rect>",
    };
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
        const pare_outline_facts f = measured(ways[i]);
        assert_within(f.area_m2, 800 * MM * MM, 1e-12);
        assert_near(f.centre_m[0], 30 * MM, 1e-12);
        assert_near(f.centre_m[1], -15 * MM, 1e-12); /* y is turned up */
        assert_within(f.xx_m4, 800 * 1600 / 12.0 * 1e-12, 1e-12);
    }
}

static void skews_keep_the_area_and_move_the_centre(void **state)
{
    (void)state;
    const double slope = tan(PI / 6);
    const pare_outline_facts x = measured("<rect width='40' height='20' transform='skewX(30)'/>");
    assert_within(x.area_m2, 800 * MM * MM, 1e-12);
    assert_within(x.centre_m[0], (20 + 10 * slope) * MM, 1e-12);
    const pare_outline_facts y = measured("<rect width='40' height='20' transform='skewY(30)'/>");
    assert_within(y.centre_m[1], -(10 + 20 * slope) * MM, 1e-12);
}

static void units_come_from_width_height_and_view_box(void **state)
{
    (void)state;
    static const struct {
        const char *root;
        double x_m, y_m; /* of one user unit */
    } roots[] = {
        {"width='10in' height='5in' viewBox='0 0 10 5'", 0.0254, 0.0254},
        {"width='10cm' height='5cm' viewBox='-5 -5 100 50'", 1e-3, 1e-3},
        {"width='72pt' height='6pc' viewBox='0 0 25.4 25.4'", 1e-3, 1e-3},
        {"", 0.0254 / 96, 0.0254 / 96},
        {"width='400' height='300'", 0.0254 / 96, 0.0254 / 96},
        {"width='96px' height='96px' viewBox='0 0 50.8 25.4'", 0.5e-3, 0.5e-3},
        {"width='96px' height='96px' viewBox='0 0 50.8 25.4' preserveAspectRatio='none'", 0.5e-3,
         1e-3},
        {"width='96px' height='96px' viewBox='0 0 50.8 25.4' preserveAspectRatio='xMidYMid slice'",
         1e-3, 1e-3},
        {"width='100mm' viewBox='0 0 100 50'", 1e-3, 1e-3},
        {"width='100%' height='50mm' viewBox='0 0 100 50'", 1e-3, 1e-3},
        {"viewBox='0 0 100 50'", 0.0254 / 96, 0.0254 / 96},
    };
    for (size_t i = 0; i < sizeof roots / sizeof *roots; i++) {
        pare_text text = {0};
        pare_text_printf(&text, "<svg %s><rect x='3' width='8' height='4'/></svg>", roots[i].root);
        const pare_outline_facts f = whole(text.bytes);
        assert_within(f.area_m2, 32 * roots[i].x_m * roots[i].y_m, 1e-12);
        assert_within(f.centre_m[0], 7 * roots[i].x_m, 1e-12);
        pare_text_free(&text);
    }
}

static void lengths_within_may_have_units(void **state)
{
    (void)state;
    const pare_outline_facts f =
        whole("<svg><rect width='2cm' height='1in'/><circle cx='10mm' cy='10mm' r='9pt'/></svg>");
    assert_within(f.area_m2, 0.02 * 0.0254 - PI * pow(0.0254 / 8, 2), 1e-9);
}

static void curves_have_their_areas(void **state)
{
    (void)state;
    static const struct {
        const char *body;
        double area_mm2;
    } shapes[] = {
        {"<circle cx='50' cy='50' r='20'/>", 400 * 3.14159265358979323846},
        {"<ellipse cx='50' cy='50' rx='20' ry='10'/>", 200 * 3.14159265358979323846},
        {"<path d='M30 50a20 20 0 1 0 40 0a20,20 0 1 0-40,0'/>", 400 * 3.14159265358979323846},
        {"<path d='M30 50a20 10 0 0140 0 20 10 0 11-40 0'/>", 200 * 3.14159265358979323846},
        /* An arc too small for its ends is scaled up to half a circle. */
        {"<path d='M0 0 A1 1 0 0 1 40 0 Z'/>", 200 * 3.14159265358979323846},
        /* A turned ellipse: half of it on its own long axis. */
        {"<path d='M0 0 A 50 20 36.86989764584402 0 0 80 60 Z'/>", 500 * 3.14159265358979323846},
        {"<path d='M0 0 A 0 20 0 0 0 40 0 L 40 10 Z'/>", 200}, /* no radius: straight */
        /* A parabola's segment is two thirds of its triangle's parallelogram: b h with control 2h. */
        {"<path d='M0 0 Q 20 30 40 0 Z'/>", 400},
        {"<path d='M0 0 Q 10 30 20 0 T 40 0 L 40 -50 L 0 -50 Z'/>", 2000},
        {"<path d='M0 0 C 0 30 30 30 30 0 Z'/>", 540}, /* 3/5 of its box */
        {"<path d='M0 0 c 0 30 30 30 30 0 s 30 -30 30 0 V -50 H 0 Z'/>", 3000},
        {"<rect width='60' height='40' rx='5'/>", 2400 - 100 + 25 * 3.14159265358979323846},
        {"<rect width='60' height='40' ry='5'/>", 2400 - 100 + 25 * 3.14159265358979323846},
        {"<rect width='60' height='40' rx='99' ry='5'/>",
         2400 - 600 + 150 * 3.14159265358979323846},
        {"<path d='M0 0H60V40H0ZM10 10h5v5h-5z'/><circle cx='40' cy='20' r='2'/>",
         2375 - 4 * 3.14159265358979323846},
    };
    for (size_t i = 0; i < sizeof shapes / sizeof *shapes; i++) {
        const pare_outline_facts f = measured(shapes[i].body);
        assert_within(1e6 * f.area_m2, shapes[i].area_mm2, 1e-9);
    }
}

static void a_document_type_without_rules_is_let_through_unread(void **state)
{
    (void)state;
    const pare_outline_facts f =
        whole("<?xml version='1.0'?><!DOCTYPE svg PUBLIC '-//W3C//DTD SVG 1.1//EN' "
              "'http://nowhere.invalid/svg11.dtd'>" HEAD "<rect width='9' height='9'/></svg>");
    assert_within(f.area_m2, 81 * MM * MM, 1e-12);
}

static void bad_drawings_are_refused_with_one_clear_line(void **state)
{
    (void)state;
    static const struct {
        const char *text, *says;
    } bad[] = {
        {"", "p.svg:1:1: not well-formed XML: no element found"},
        {"<svg>", "p.svg:1:6: not well-formed XML: no element found"},
        {"<html/>", "p.svg:1:1: not SVG: it begins with <html>; right would be <svg>"},
        {"<svg xmlns='urn:x'/>",
         "p.svg:1:1: not SVG: it begins with <urn:x|svg>; right would be <svg>"},
        {"<svg/>", "p.svg: no outline in it; right would be closed lines"},
        {"<!DOCTYPE svg [<!ENTITY a 'b'>]><svg/>",
         "p.svg:1:15: a document type with entities or rules of its own; right would be a document "
         "without DOCTYPE"},
        {"<svg>&a;</svg>", "p.svg:1:6: not well-formed XML: undefined entity"},
        {"<svg><script>x()</script></svg>", "p.svg:1:6: a script; right would be a plain drawing"},
        {"<svg><defs><script/></defs></svg>",
         "p.svg:1:12: a script; right would be a plain drawing"},
        {"<svg><use href='x.svg#a'/></svg>",
         "p.svg:1:6: <use> is not read; right would be the shapes themselves"},
        {"<svg><svg/></svg>", "p.svg:1:6: <svg> is not read; right would be the shapes themselves"},
        {"<svg width='0mm'/>",
         "p.svg:1:1: width is '0mm'; right would be a length above 0, like 120mm"},
        {"<svg height='9furlong'/>",
         "p.svg:1:1: height is '9furlong'; right would be a length above 0, like 120mm"},
        {"<svg viewBox='0 0 9'/>",
         "p.svg:1:1: viewBox is '0 0 9'; right would be four numbers, the last two above 0"},
        {"<svg viewBox='0 0 9 -1'/>",
         "p.svg:1:1: viewBox is '0 0 9 -1'; right would be four numbers, the last two above 0"},
        {"<svg>\n <circle r='4em'/></svg>",
         "p.svg:2:2: r is '4em'; right would be a length like 12.5 or 12.5mm"},
        {"<svg><circle r='-4'/></svg>", "p.svg:1:6: a radius below 0; right would be greater"},
        {"<svg><rect width='-4' height='2'/></svg>",
         "p.svg:1:6: a rectangle of -4 x 2; right would be 0 or more"},
        {"<svg><path d='M0 0 L nan 1'/></svg>", "p.svg:1:6: path: its data make no sense from ' "
                                                "nan 1'; right would be commands M L H V C S "
                                                "Q T A Z with their numbers"},
        {"<svg><path d='L0 0'/></svg>", "p.svg:1:6: path: its data make no sense from 'L0 0'; "
                                        "right would be commands M L H V C S Q "
                                        "T A Z with their numbers"},
        {"<svg><path d='M0 0 X 1'/></svg>", "p.svg:1:6: path: its data make no sense from 'X 1'; "
                                            "right would be commands M L H V C S Q T "
                                            "A Z with their numbers"},
        {"<svg><path d='M0 0 A 1 1 0 2 0 1 1'/></svg>",
         "p.svg:1:6: path: its data make no sense from ' 1 1 0 2 0 1 1'; right would be commands M "
         "L H "
         "V C S Q T A Z with their numbers"},
        {"<svg><path d='M0 0 L 1e999 1'/></svg>", "p.svg:1:6: path: its data make no sense from ' "
                                                  "1e999 1'; right would be commands M L H V C S "
                                                  "Q T A Z with their numbers"},
        {"<svg><polygon points='0,0 1,1 2'/></svg>",
         "p.svg:1:6: polygon: its points make no sense from '2'; right would be pairs of numbers"},
        {"<svg><g transform='spin(4)'/></svg>",
         "p.svg:1:6: transform makes no sense from 'spin(4)'; right would be matrix, translate, "
         "scale, "
         "rotate, skewX or skewY"},
        {"<svg><g transform='scale(1,2,3)'/></svg>",
         "p.svg:1:6: transform makes no sense from 'scale(1,2,3)'; right would be matrix, "
         "translate, "
         "scale, rotate, skewX or skewY"},
        {"<svg><g style='transform:scale(2)'/></svg>",
         "p.svg:1:6: a style that moves the shape; right would be a transform attribute"},
        {"<svg><path d='M0 0 L40 0 L40 40'/></svg>",
         "p.svg: the outline is open at (0, 0) mm, the next end is at (10.5833, -10.5833) mm; "
         "right "
         "would be closed loops, ends within 0.01 mm"},
        {"<svg><path d='M0 0 L1e8 0 L40 40z'/></svg>",
         "p.svg: a place that is no number or over 100 m from the origin; right would be a plate "
         "near "
         "the drawing's origin"},
        {"<svg><rect width='9000' height='90'/></svg>",
         "p.svg: the outline is 2381 x 23.81 mm; right would be 0.1 .. 2000 mm (does the file "
         "state "
         "its unit?)"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        pare_outline_facts facts = {.area_m2 = 7};
        pare_error err = {0};
        assert_int_equal(try_text(bad[i].text, &facts, &err), PARE_BAD_DATA);
        assert_string_equal(err.text, bad[i].says);
        assert_near(facts.area_m2, 7, 0);
    }
}

static void depth_and_billions_of_laughs_are_refused(void **state)
{
    (void)state;
    pare_outline_facts facts;
    pare_error err = {0};
    pare_text text = {0};
    for (int i = 0; i < 300; i++)
        pare_text_add(&text, i ? "<g>" : "<svg>");
    assert_int_equal(try_text(text.bytes, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "p.svg:1:603: elements over 200 deep; right would be a flatter "
                                  "document");
    pare_text_free(&text);
    pare_text_add(&text, "<!DOCTYPE svg [<!ENTITY a0 'ha'>");
    for (int i = 1; i < 30; i++)
        pare_text_printf(&text, "<!ENTITY a%d '&a%d;&a%d;'>", i, i - 1, i - 1);
    pare_text_add(&text, "]><svg><path d='&a29;'/></svg>");
    assert_int_equal(try_text(text.bytes, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "p.svg:1:15: a document type with entities or rules of its own; "
                                  "right would be a document without DOCTYPE");
    pare_text_free(&text);
}

static void every_cut_of_a_drawing_is_an_error(void **state)
{
    (void)state;
    static const char text[] = HEAD "<g transform='rotate(30) translate(4 5)'><path d='M0 0h40a5 5 "
                                    "0 0 1 5 5v10H0z'/></g></svg>";
    for (size_t n = 0; n < sizeof text - 1; n++) {
        char cut[sizeof text];
        pare_outline_facts facts;
        pare_error err = {0};
        memcpy(cut, text, n);
        cut[n] = 0;
        assert_int_equal(try_text(cut, &facts, &err), PARE_BAD_DATA);
        assert_true(err.text[0] != 0);
    }
}

static void the_ending_of_a_name_says_what_a_drawing_is(void **state)
{
    (void)state;
    static const char svg[] = HEAD "<rect width='9' height='9'/></svg>";
    pare_outline_facts f;
    pare_error err = {0};
    assert_int_equal(pare_outline_measure("a/P.SVG", svg, sizeof svg - 1, NULL, &f, &err), PARE_OK);
    assert_within(f.area_m2, 81 * MM * MM, 1e-12);
    assert_int_equal(pare_outline_measure("p.Dxf", svg, sizeof svg - 1, NULL, &f, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "p.Dxf:1: not a DXF file: '<svg xmlns='http://www.w3.org/20'; "
                                  "right would be the number of a code");
    static const char *const other[] = {"p.png", ".svg", "svg", ""};
    for (size_t i = 0; i < sizeof other / sizeof *other; i++) {
        char says[120];
        assert_int_equal(pare_outline_measure(other[i], svg, sizeof svg - 1, NULL, &f, &err),
                         PARE_BAD_DATA);
        snprintf(
            says, sizeof says,
            "%s: no kind of drawing that is known; right would be an outline in a .dxf or .svg "
            "file",
            other[i]);
        assert_string_equal(err.text, says);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_way_to_write_a_rectangle_gives_the_same),
        cmocka_unit_test(skews_keep_the_area_and_move_the_centre),
        cmocka_unit_test(units_come_from_width_height_and_view_box),
        cmocka_unit_test(lengths_within_may_have_units),
        cmocka_unit_test(curves_have_their_areas),
        cmocka_unit_test(a_document_type_without_rules_is_let_through_unread),
        cmocka_unit_test(bad_drawings_are_refused_with_one_clear_line),
        cmocka_unit_test(depth_and_billions_of_laughs_are_refused),
        cmocka_unit_test(every_cut_of_a_drawing_is_an_error),
        cmocka_unit_test(the_ending_of_a_name_says_what_a_drawing_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
