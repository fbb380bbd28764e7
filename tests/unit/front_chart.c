/* rooms: show advise craft physics base */
/* A front shown: on a terminal word for word, on paper measured where its points are, and as JSON. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "near.h"
#include "show/front_chart.h"
#include "show/json.h"

enum { POINTS = 5 };

typedef struct shown {
    pare_front_chart chart;
    pare_front_point point[POINTS], now;
} shown;

static const char *const words[POINTS] = {
    "bumper=off, mount=ti-80, joint.stack.material=titanium, motor=mo-b",
    "bumper=off, mount=ti-80, joint.stack.material=titanium",
    "bumper=off, mount=ti-80",
    "bumper=off, mount=ti-100, tie=ti-100",
    "bumper=off, tie=ti-100",
};

/* Money falls along it; a corner at 400 g and 20. */
static shown some_front(void)
{
    shown s = {.chart = {.title = "fieldfare",
                         .money = "EUR",
                         .pair = {PARE_FRONT_GRAMS, PARE_FRONT_MONEY},
                         .count = POINTS,
                         .whole = true,
                         .words = words},
               .now = {.mass_100ug = 5000000, .money_cents = 0, .flown_ms = 240000}};
    static const int64_t grams[POINTS] = {380, 390, 400, 440, 480},
                         money[POINTS] = {100, 60, 20, 10, 0};
    for (int i = 0; i < POINTS; i++)
        s.point[i] = (pare_front_point){.mass_100ug = 10000 * grams[i],
                                        .money_cents = 100 * money[i],
                                        .flown_ms = 300000 - 6000 * i,
                                        .set = (size_t)i};
    pare_front_knees(s.chart.pair, s.point, POINTS, 3);
    return s;
}

static void point_at(shown *s)
{
    s->chart.point = s->point;
    s->chart.now = &s->now;
}

static void a_front_reads_on_a_plain_terminal(void **state)
{
    (void)state;
    shown s = some_front();
    point_at(&s);
    const pare_screen screen = {.width = 60};
    pare_text text = {0};
    pare_front_text(&s.chart, &screen, &text);
    assert_string_equal(text.bytes,
                        "fieldfare: 5 sets that nothing beats in grams and money,\n"
                        "1 of them a knee\n"
                        "\n"
                        "all-up, g\n"
                        "       |..\n"
                        "   500 +..+\n"
                        "       |..\n"
                        "       |..o---\n"
                        "       |......|\n"
                        "       |......|\n"
                        "   450 +......o--\n"
                        "       |.........|\n"
                        "       |.........|\n"
                        "       |.........|\n"
                        "   400 +.........K--------------\n"
                        "       |........................o--------------\n"
                        "       |.......................................o--\n"
                        "       |..........................................\n"
                        "          0     20      40     60      80     100  EUR\n"
                        "o set   K knee   + as it is   . no set reaches\n"
                        "\n"
                        "    grams       EUR  minutes\n"
                        "    500.0      0.00      4.0        as it is\n"
                        "    480.0      0.00      4.6        bumper=off, tie=ti-100\n"
                        "    440.0     10.00      4.7        mount=ti-100\n"
                        "    400.0     20.00      4.8  knee  mount=ti-80, tie as it\n"
                        "                                    was\n"
                        "    390.0     60.00      4.9        joint.stack.material=titanium\n"
                        "    380.0    100.00      5.0        motor=mo-b\n");
    pare_text_free(&text);
}

/* A column of the chart has shade where no set reaches and none where one does, at any width and for all
 * pairs of wishes. */
static void the_shade_is_what_no_set_reaches(void **state)
{
    (void)state;
    static const pare_front_wish pairs[][2] = {{PARE_FRONT_GRAMS, PARE_FRONT_MONEY},
                                               {PARE_FRONT_GRAMS, PARE_FRONT_MINUTES},
                                               {PARE_FRONT_MINUTES, PARE_FRONT_GRAMS},
                                               {PARE_FRONT_MONEY, PARE_FRONT_MINUTES}};
    for (size_t p = 0; p < sizeof pairs / sizeof pairs[0]; p++)
        for (int width = PARE_SCREEN_LEAST; width <= PARE_SCREEN_MOST; width += 20) {
            shown s = some_front();
            for (int i = 0; i < POINTS; i++) /* any pair of the three is a front */
                s.point[i].flown_ms = p < 3 ? 300000 + 6000 * i : 300000 - 6000 * i;
            point_at(&s);
            memcpy(s.chart.pair, pairs[p], sizeof s.chart.pair);
            s.chart.now = NULL;
            const pare_screen screen = {.width = width};
            pare_text text = {0};
            pare_front_text(&s.chart, &screen, &text);
            const char *row = strstr(text.bytes, "\n\n");
            assert_non_null(row);
            row = strchr(row + 2, '\n') + 1;
            /* Rows from the top: once a column is shaded it stays so. */
            bool shaded[256] = {false};
            int sets = 0, shades = 0;
            for (int i = 0; i < 14; i++) {
                const char *end = strchr(row, '\n');
                assert_non_null(end);
                for (const char *at = row + 8; at < end; at++) {
                    const size_t column = (size_t)(at - row);
                    assert_true(column < 256);
                    if (shaded[column])
                        assert_int_equal(*at, '.');
                    shaded[column] = *at == '.';
                    shades += *at == '.';
                    sets += *at == 'o' || *at == 'K';
                }
                row = end + 1;
            }
            assert_int_equal(sets, POINTS);
            assert_true(shades > 40);
            pare_text_free(&text);
        }
}

/* Where circles are, in the order in which they were drawn. cairo writes one as four curves that begin at
 * its right. */
static size_t circles(const char *svg, size_t most, double at[][2], double radius[])
{
    size_t count = 0;
    for (const char *p = strstr(svg, " d=\"M "); p && count < most; p = strstr(p + 1, " d=\"M ")) {
        double right, y, left;
        if (sscanf(p, " d=\"M %lf %lf C %*f %*f %*f %*f %lf", &right, &y, &left) != 3)
            continue;
        if (!strstr(p, "transform") || strchr(p, '\n') < strstr(p, "transform"))
            continue;
        at[count][0] = (right + left) / 2;
        at[count][1] = y;
        radius[count++] = (right - left) / 2;
    }
    return count;
}

static void a_picture_has_its_points_where_they_belong(void **state)
{
    (void)state;
    shown s = some_front();
    point_at(&s);
    pare_text svg = {0}, again = {0};
    pare_error err = {0};
    assert_int_equal(pare_front_page(&s.chart, PARE_PAGE_SVG, &svg, &err), PARE_OK);
    assert_int_equal(pare_front_page(&s.chart, PARE_PAGE_SVG, &again, &err), PARE_OK);
    /* But for the number that cairo gives to each picture of a program's. */
    assert_int_equal(svg.length, again.length);
    assert_non_null(strstr(svg.bytes, "<title>fieldfare</title>"));
    assert_non_null(strstr(svg.bytes, "5 sets that nothing beats in grams and money"));

    double at[32][2], radius[32];
    const size_t count = circles(svg.bytes, 32, at, radius);
    /* Four sets that are no knee, the craft as it is, the knee, and both ends again. */
    assert_int_equal(count, 4 + 1 + 1 + 2);
    const double now[2] = {at[4][0], at[4][1]}, knee[2] = {at[5][0], at[5][1]};
    assert_true(radius[5] > radius[4] && radius[4] > radius[0]);
    /* The ends: 380 g, 100; 480 g, 0. One millimetre is so much on either axis. */
    const double money_a_mm = (0.0 - 100.0) / (at[7][0] - at[6][0]);
    const double grams_a_mm = (480.0 - 380.0) / (at[7][1] - at[6][1]);
    assert_true(money_a_mm > 0 && grams_a_mm < 0); /* to the right; up */
    /* cairo keeps places in 256ths of a point, 0.0014 mm, and a millimetre is some 2 g: two of those. */
    assert_near(20 - money_a_mm * knee[0], 100 - money_a_mm * at[6][0], 0.01);
    assert_near(400 - grams_a_mm * knee[1], 380 - grams_a_mm * at[6][1], 0.01);
    assert_near(0 - money_a_mm * now[0], 100 - money_a_mm * at[6][0], 0.01);
    assert_near(500 - grams_a_mm * now[1], 380 - grams_a_mm * at[6][1], 0.01);
    pare_text_free(&svg);
    pare_text_free(&again);
}

static void a_front_of_nothing_says_so(void **state)
{
    (void)state;
    shown s = some_front();
    point_at(&s);
    s.chart.count = 0;
    const pare_screen screen = {.width = 80};
    pare_text text = {0}, png = {0};
    pare_error err = {0};
    pare_front_text(&s.chart, &screen, &text);
    assert_string_equal(text.bytes, "fieldfare: no set does what the brief asks\n");
    pare_text_free(&text);
    s.chart.whole = false;
    pare_front_text(&s.chart, &screen, &text);
    assert_string_equal(text.bytes,
                        "fieldfare: stopped before any set was found that meets the brief\n");
    assert_int_equal(pare_front_page(&s.chart, PARE_PAGE_PNG, &png, &err), PARE_OK);
    assert_memory_equal(png.bytes, "\x89PNG", 4);
    pare_text_free(&text);
    pare_text_free(&png);
}

/* One set alone has no width and no height: it is in the middle, and nothing is divided by zero. */
static void a_front_of_one_set_is_drawn(void **state)
{
    (void)state;
    shown s = some_front();
    point_at(&s);
    s.chart.count = 1;
    s.chart.now = NULL;
    s.chart.whole = false;
    const pare_screen screen = {.width = 100};
    pare_text text = {0}, svg = {0};
    pare_error err = {0};
    pare_front_text(&s.chart, &screen, &text);
    assert_non_null(
        strstr(text.bytes, "1 set that nothing beats in grams and money; there may be"));
    assert_null(strstr(text.bytes, "nan"));
    assert_int_equal(pare_front_page(&s.chart, PARE_PAGE_SVG, &svg, &err), PARE_OK);
    assert_null(strstr(svg.bytes, "nan"));
    pare_text_free(&text);
    pare_text_free(&svg);
}

static void a_front_is_said_as_json(void **state)
{
    (void)state;
    shown s = some_front();
    point_at(&s);
    s.chart.count = 2;
    pare_text text = {0};
    pare_json_write(pare_front_object(&s.chart), &text);
    json_t *object = json_loads(text.bytes, 0, NULL);
    assert_non_null(object);
    assert_string_equal(json_string_value(json_object_get(object, "front")), "grams-money");
    assert_true(json_is_true(json_object_get(object, "whole")));
    const json_t *points = json_object_get(object, "points"), *second = json_array_get(points, 1);
    assert_int_equal(json_array_size(points), 2);
    assert_near(json_number_value(json_object_get(second, "all_up_g")), 390, 1e-9);
    assert_near(json_number_value(json_object_get(second, "money")), 60, 1e-9);
    assert_near(json_number_value(json_object_get(second, "flown_min")), 4.9, 1e-9);
    assert_true(json_is_false(json_object_get(second, "knee")));
    assert_string_equal(json_string_value(json_object_get(second, "set")), words[1]);
    json_decref(object);
    pare_text_free(&text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_front_reads_on_a_plain_terminal),
        cmocka_unit_test(the_shade_is_what_no_set_reaches),
        cmocka_unit_test(a_picture_has_its_points_where_they_belong),
        cmocka_unit_test(a_front_of_nothing_says_so),
        cmocka_unit_test(a_front_of_one_set_is_drawn),
        cmocka_unit_test(a_front_is_said_as_json),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
