/* rooms: show advise craft physics base */
/* show_text.c: numbers, lines and the gram ruler as they are written. */
#include "near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "show/digits.h"
#include "show/json.h"
#include "show/ruler.h"

static const pare_screen utf8 = {.width = 80, .utf8 = true}, ascii = {.width = 80};

static void the_last_digit_stands_where_the_uncertaintys_first_does(void **state)
{
    (void)state;
    char text[PARE_DIGITS];
    assert_string_equal(pare_digits_u(text, &ascii, 691.489, 3.54), "691 +- 4");
    assert_string_equal(pare_digits_u(text, &ascii, 691.489, 0.354), "691.5 +- 0.4");
    assert_string_equal(pare_digits_u(text, &ascii, 1015.3, 123.2), "1000 +- 100");
    assert_string_equal(pare_digits_u(text, &ascii, 0.016821, 0.0034), "0.017 +- 0.003");
    assert_string_equal(pare_digits_u(text, &utf8, 4.156, 0.543), "4.2 \u00b1 0.5");
    /* 0.96 to one digit is 1: the place moves with it. JCGM 100:2008, 7.2.6 leaves this to us. */
    assert_string_equal(pare_digits_u(text, &ascii, 12.34, 0.96), "12 +- 1");
    assert_string_equal(pare_digits_u(text, &ascii, 12.34, 0.0999), "12.3 +- 0.1");
}

static void a_value_without_uncertainty_has_three_digits_and_all_its_units(void **state)
{
    (void)state;
    char text[PARE_DIGITS];
    assert_string_equal(pare_digits_u(text, &ascii, 1.19522, 0), "1.20");
    assert_string_equal(pare_digits_u(text, &ascii, 255.552, 0), "256");
    assert_string_equal(pare_digits_u(text, &ascii, 25555.2, 0), "25555");
    assert_string_equal(pare_digits_u(text, &ascii, 1.19522, NAN), "1.20");
    assert_string_equal(pare_digits_u(text, &ascii, 0, 0), "0");
}

static void nothing_is_written_as_minus_nothing(void **state)
{
    (void)state;
    char text[PARE_DIGITS];
    assert_string_equal(pare_digits(text, -0.02, 0.8), "0.0");
    assert_string_equal(pare_digits_at(text, -0.4, 0), "0");
    assert_string_equal(pare_digits_change(text, -0.0004, 2, 2), "0");
    assert_string_equal(pare_digits_at(text, NAN, 1), "-");
    assert_string_equal(pare_digits_at(text, INFINITY, 1), "-");
}

/* Nobody reads fifteen digits, nor a place that no double has. */
static void a_number_past_reading_is_none(void **state)
{
    (void)state;
    char text[PARE_DIGITS];
    assert_string_equal(pare_digits_at(text, 1e15, 1), "-");
    assert_string_equal(pare_digits_at(text, -1e15, 1), "-");
    assert_string_equal(pare_digits_u(text, &ascii, NAN, 1), "-");
    assert_string_equal(pare_digits_u(text, &ascii, INFINITY, 0), "-");
    assert_string_equal(pare_digits_limit(text, NAN), "-");
    assert_string_equal(pare_digits_limit(text, 12345678), "12345678");
    assert_string_equal(pare_digits_limit(text, -2e15), "-");
    assert_true(strlen(pare_digits(text, 1, 1e-300)) < PARE_DIGITS);
    assert_string_equal(pare_digits(text, 1, 1e300), "0");
}

static void a_change_has_its_sign(void **state)
{
    (void)state;
    char text[PARE_DIGITS];
    assert_string_equal(pare_digits_change(text, 4.13, 2, 2), "+4.1");
    assert_string_equal(pare_digits_change(text, -0.0613, 2, 2), "-0.06");
    assert_string_equal(pare_digits_change(text, 123.4, 2, 2), "+120");
}

static void a_limit_is_written_as_it_was_said(void **state)
{
    (void)state;
    char text[PARE_DIGITS];
    assert_string_equal(pare_digits_limit(text, 5.5), "5.5");
    assert_string_equal(pare_digits_limit(text, 620), "620");
    assert_string_equal(pare_digits_limit(text, 1e-9), "0.000000001");
}

static void a_number_never_parts_from_its_unit(void **state)
{
    (void)state;
    pare_text out = {0};
    const pare_screen narrow = {.width = 20, .utf8 = true};
    pare_put_wrapped(&narrow, &out, 0, 2, "weighs about 1234 \u00b1 5 g and holds 12 % more");
    assert_string_equal(out.bytes, "weighs about\n  1234 \u00b1 5 g and\n  holds 12 % more\n");
    pare_text_free(&out);
}

/* ---- the ruler ---- */

static pare_ruler ruler_of(size_t slices, const double grams[])
{
    pare_ruler ruler = {.slices = slices, .limit_kg = (double)NAN};
    for (size_t i = 0; i < slices; i++) {
        ruler.slice[i].name = pare_system_name((pare_system)i);
        ruler.slice[i].known_kg[i % 2 ? PARE_STATED : PARE_WEIGHED] = 1e-3 * grams[i];
    }
    return ruler;
}

static size_t count_of(const char *text, char wanted)
{
    size_t count = 0;
    for (; *text; text++)
        count += *text == wanted;
    return count;
}

static void a_column_is_the_same_number_of_grams_everywhere(void **state)
{
    (void)state;
    static const double grams[] = {100, 300, 100, 200};
    const pare_ruler ruler = ruler_of(4, grams);
    pare_text out = {0};
    pare_ruler_text(&ruler, &ascii, &out);
    char *bar = strstr(out.bytes, "WW");
    assert_non_null(bar);
    *strchr(bar, '\n') = '\0';
    /* Stated 500 of 700 g; half a column at each of four ends. */
    const double share = (double)count_of(bar, 'S') / (double)strlen(bar);
    assert_near(share, 500.0 / 700, 2.0 / (double)strlen(bar));
    pare_text_free(&out);
}

/* Each label must stand whole in the text, and lines must be one screen wide at most. */
static void check_labels(const pare_ruler *ruler, const pare_screen *screen)
{
    pare_text out = {0};
    pare_ruler_text(ruler, screen, &out);
    assert_non_null(out.bytes);
    for (size_t i = 0; i < ruler->slices; i++) {
        double kg = 0;
        for (int k = 0; k < PARE_KNOWNS; k++)
            kg += ruler->slice[i].known_kg[k];
        if (kg < 5e-5)
            continue;
        char grams[24], label[64];
        strcpy(label, ruler->slice[i].name);
        strcat(strcat(label, " "), pare_ruler_grams(grams, kg));
        if (!strstr(out.bytes, label))
            fail_msg("no label '%s' in\n%s", label, out.bytes);
    }
    for (const char *line = out.bytes; *line; line = strchr(line, '\n') + 1) {
        char one[1024];
        const size_t length = strcspn(line, "\n");
        assert_true(length < sizeof one);
        memcpy(one, line, length);
        one[length] = '\0';
        if (pare_columns(one) > screen->width)
            fail_msg("%d columns on %d:\n%s", pare_columns(one), screen->width, out.bytes);
    }
    pare_text_free(&out);
}

static void labels_never_collide_whatever_the_slices(void **state)
{
    (void)state;
    unsigned seed = 1;
    for (int round = 0; round < 2000; round++) {
        double grams[PARE_SYSTEMS];
        for (int i = 0; i < PARE_SYSTEMS; i++) {
            seed = seed * 1103515245u + 12345u;
            const double share = (seed >> 16) % 1000 / 1000.0;
            grams[i] = 300 * share * share * share * share;
        }
        pare_ruler ruler = ruler_of(PARE_SYSTEMS, grams);
        if (round % 3 == 1)
            ruler.limit_kg = 0.3;
        if (round % 3 == 2)
            ruler.slice[5].off_kg = 0.02;
        const pare_screen screen = {.width = 60 + round % 100, .utf8 = round % 2 == 0};
        check_labels(&ruler, &screen);
    }
}

static void all_grams_in_the_last_slices_still_find_room(void **state)
{
    (void)state;
    double grams[PARE_SYSTEMS], first[PARE_SYSTEMS];
    for (int i = 0; i < PARE_SYSTEMS; i++) {
        grams[i] = i == 0 ? 1000 : 0.1;
        first[i] = i == PARE_SYSTEMS - 1 ? 1000 : 0.1;
    }
    pare_ruler ruler = ruler_of(PARE_SYSTEMS, grams);
    check_labels(&ruler, &utf8);
    ruler = ruler_of(PARE_SYSTEMS, first);
    check_labels(&ruler, &utf8);
}

static void an_empty_ruler_says_nothing(void **state)
{
    (void)state;
    const pare_ruler ruler = {.limit_kg = 0.25};
    pare_text out = {0};
    pare_ruler_text(&ruler, &utf8, &out);
    assert_int_equal(out.length, 0);
    pare_text_free(&out);
}

static void taken_off_grams_are_hatched_and_said(void **state)
{
    (void)state;
    static const double grams[] = {100, 300, 100, 200};
    pare_ruler ruler = ruler_of(4, grams);
    ruler.slice[1].off_kg = 0.05;
    pare_text out = {0};
    pare_ruler_text(&ruler, &ascii, &out);
    assert_non_null(strstr(out.bytes, "//"));
    assert_non_null(strstr(out.bytes, "thrust 300 (-50)"));
    assert_non_null(strstr(out.bytes, "/ taken off"));
    pare_text_free(&out);
}

static void the_limit_stands_at_its_grams(void **state)
{
    (void)state;
    static const double grams[] = {500, 500};
    pare_ruler ruler = ruler_of(2, grams);
    ruler.limit_kg = 0.5;
    pare_text out = {0};
    pare_ruler_text(&ruler, &ascii, &out);
    const char *mark = strstr(out.bytes, "limit 500 V"), *bar = strstr(out.bytes, "WW");
    assert_non_null(mark);
    const long at = strchr(mark, 'V') - out.bytes;
    /* The first stated column lies under the mark. */
    assert_near((double)at, (double)(strchr(bar, 'S') - bar), 1);
    pare_text_free(&out);
}

static void a_list_written_one_by_one_has_the_bytes_of_the_whole(void **state)
{
    (void)state;
    for (int count = 0; count < 3; count++) {
        pare_text whole = {0}, parts = {0};
        json_t *object = json_object(), *list = json_array();
        pare_json_list_begin("parts", &parts);
        for (int i = 0; i < count; i++) {
            json_t *one = json_pack("{s:s, s:[i, f], s:{}, s:[]}", "id", "a\nb", "size", i, 0.5,
                                    "spec", "none");
            json_array_append(list, one);
            pare_json_list_put(one, i == 0, &parts);
        }
        pare_json_list_end(count == 0, &parts);
        json_object_set_new(object, "parts", list);
        pare_json_write(object, &whole);
        assert_false(whole.failed || parts.failed);
        assert_string_equal(parts.bytes, whole.bytes);
        pare_text_free(&whole);
        pare_text_free(&parts);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_list_written_one_by_one_has_the_bytes_of_the_whole),
        cmocka_unit_test(the_last_digit_stands_where_the_uncertaintys_first_does),
        cmocka_unit_test(a_value_without_uncertainty_has_three_digits_and_all_its_units),
        cmocka_unit_test(nothing_is_written_as_minus_nothing),
        cmocka_unit_test(a_number_past_reading_is_none),
        cmocka_unit_test(a_change_has_its_sign),
        cmocka_unit_test(a_limit_is_written_as_it_was_said),
        cmocka_unit_test(a_number_never_parts_from_its_unit),
        cmocka_unit_test(a_column_is_the_same_number_of_grams_everywhere),
        cmocka_unit_test(labels_never_collide_whatever_the_slices),
        cmocka_unit_test(all_grams_in_the_last_slices_still_find_room),
        cmocka_unit_test(an_empty_ruler_says_nothing),
        cmocka_unit_test(taken_off_grams_are_hatched_and_said),
        cmocka_unit_test(the_limit_stands_at_its_grams),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
