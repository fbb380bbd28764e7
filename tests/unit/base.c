/* rooms: base */
/* base.c: arenas, growing strings, nearest names and errors. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/day.h"
#include "base/error.h"
#include "base/text.h"

static void an_arena_gives_zeros_aligned_for_any_type(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    assert_non_null(arena);
    for (size_t size = 1; size < 300; size += 7) {
        unsigned char *bytes = pare_arena_zeros(arena, size);
        assert_non_null(bytes);
        assert_int_equal((uintptr_t)bytes % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < size; i++)
            assert_int_equal(bytes[i], 0);
        memset(bytes, 0xAB, size);
    }
    pare_arena_close(arena);
}

static void what_an_arena_gave_neither_moves_nor_overlaps(void **state)
{
    (void)state;
    enum { COUNT = 3000 };
    pare_arena *arena = pare_arena_open();
    assert_non_null(arena);
    size_t *piece[COUNT];
    /* Through many blocks, one larger than any step. */
    for (size_t i = 0; i < COUNT; i++) {
        piece[i] = pare_arena_array(arena, 1 + i % 97 + (i == 1500 ? 400000 : 0), sizeof **piece);
        assert_non_null(piece[i]);
        *piece[i] = i;
        piece[i][i % 97] = i;
    }
    for (size_t i = 0; i < COUNT; i++) {
        assert_int_equal(*piece[i], i);
        assert_int_equal(piece[i][i % 97], i);
    }
    pare_arena_close(arena);
}

static void an_arena_refuses_sizes_that_overflow(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    assert_non_null(arena);
    assert_null(pare_arena_zeros(arena, SIZE_MAX));
    assert_null(pare_arena_zeros(arena, SIZE_MAX - 20));
    assert_null(pare_arena_array(arena, SIZE_MAX / 4, 8));
    assert_null(pare_arena_copy(arena, "x", SIZE_MAX));
    char *text = pare_arena_text(arena, "still good");
    assert_non_null(text);
    assert_string_equal(text, "still good");
    pare_arena_close(arena);
}

static void an_arena_copies_and_formats_text(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    assert_non_null(arena);
    char *copy = pare_arena_copy(arena, "propeller", 4);
    char *nothing = pare_arena_copy(arena, NULL, 0);
    char *text = pare_arena_printf(arena, "%s=%d", "count", 8);
    assert_non_null(copy);
    assert_non_null(nothing);
    assert_non_null(text);
    assert_string_equal(copy, "prop");
    assert_string_equal(nothing, "");
    assert_string_equal(text, "count=8");
    pare_arena_close(arena);
    pare_arena_close(NULL);
}

static void a_text_grows_and_stays_terminated(void **state)
{
    (void)state;
    pare_text text = {0};
    for (int i = 0; i < 5000; i++) {
        pare_text_add(&text, "gram ");
        pare_text_printf(&text, "%04d;", i);
        assert_int_equal(text.bytes[text.length], '\0');
    }
    assert_false(text.failed);
    assert_int_equal(text.length, 5000 * 10);
    assert_memory_equal(text.bytes + 4321 * 10, "gram 4321;", 10);
    pare_text_put(&text, "a\0b", 3);
    assert_int_equal(text.length, 50003);
    assert_memory_equal(text.bytes + 50000, "a\0b", 4);
    pare_text_free(&text);
    assert_null(text.bytes);
    assert_int_equal(text.length, 0);
}

static void an_empty_put_gives_an_empty_string(void **state)
{
    (void)state;
    pare_text text = {0};
    pare_text_put(&text, NULL, 0);
    assert_non_null(text.bytes);
    assert_string_equal(text.bytes, "");
    pare_text_free(&text);
}

static void a_text_without_memory_keeps_what_it_has(void **state)
{
    (void)state;
    pare_text text = {0};
    pare_text_add(&text, "kept");
    text.failed = true;
    pare_text_add(&text, " lost");
    pare_text_printf(&text, "%d", 1);
    assert_string_equal(text.bytes, "kept");
    pare_text_free(&text);
}

static const char *nearest(const char *word)
{
    static const char *const KNOWN[] = {"motor", NULL, "mount", "propeller", "pack", "esc_four"};
    return pare_nearest(word, sizeof KNOWN / sizeof *KNOWN, KNOWN);
}

static void a_text_is_read_whole_or_without_the_blanks_at_its_end(void **state)
{
    (void)state;
    pare_text text = {0};
    assert_string_equal(pare_text_all(&text), "");
    assert_false(pare_text_any(&text));
    pare_text_add(&text, " a b  ");
    assert_string_equal(pare_text_all(&text), " a b  ");
    assert_true(pare_text_any(&text));
    assert_true(pare_text_any(&(pare_text){.failed = true}));
    assert_int_equal(pare_text_trimmed(text.bytes, text.length), 4);
    assert_int_equal(pare_text_trimmed("   ", 3), 0);
    assert_int_equal(pare_text_trimmed("", 0), 0);
    assert_int_equal(pare_text_trimmed("a\t", 2), 2);
    pare_text_free(&text);
}

static void joined_texts_are_cut_where_room_ends(void **state)
{
    (void)state;
    const char *const texts[] = {"motor", "=", "mo-b"};
    char room[11];
    pare_text_join(sizeof room, room, 3, texts);
    assert_string_equal(room, "motor=mo-b");
    pare_text_join(8, room, 3, texts);
    assert_string_equal(room, "motor=m");
    pare_text_join(1, room, 3, texts);
    assert_string_equal(room, "");
    pare_text_join(sizeof room, room, 0, texts);
    assert_string_equal(room, "");
}

static void the_nearest_name_forgives_a_third_of_the_letters(void **state)
{
    (void)state;
    assert_string_equal(nearest("motor"), "motor");
    assert_string_equal(nearest("moter"), "motor");
    assert_string_equal(nearest("mtoor"), "motor");
    assert_string_equal(nearest("motr"), "motor");
    assert_string_equal(nearest("propelor"), "propeller");
    assert_string_equal(nearest("escfuor"), "esc_four");
    assert_string_equal(nearest("pak"), "pack");
}

static void the_nearest_name_may_be_in_capitals_or_only_begun(void **state)
{
    (void)state;
    assert_string_equal(nearest("MOTOR"), "motor");
    assert_string_equal(nearest("Esc-Four"), "esc_four");
    assert_string_equal(nearest("prop"), "propeller");
    assert_string_equal(nearest("ESC"), "esc_four");
    assert_null(nearest("pr")); /* too short to say */
    static const char *const KNOWN[] = {"motor_base", "motor_bell"};
    assert_null(pare_nearest("motor", 2, KNOWN)); /* which? */
}

static void a_name_that_is_like_none_has_no_nearest(void **state)
{
    (void)state;
    assert_null(nearest("gyroscope"));
    assert_null(nearest(""));
    assert_null(
        nearest("propeller_with_a_name_that_is_longer_than_any_that_we_compare_with_others"));
    assert_null(pare_nearest("motor", 0, NULL));
}

static void of_equally_near_names_the_first_is_taken(void **state)
{
    (void)state;
    static const char *const KNOWN[] = {"abcx", "abcy"};
    assert_string_equal(pare_nearest("abcz", 2, KNOWN), "abcx");
}

static void an_error_keeps_its_status_and_text(void **state)
{
    (void)state;
    pare_error err = {0};
    assert_int_equal(pare_fail(&err, PARE_UNKNOWN, "no part '%s'", "mo-x"), PARE_UNKNOWN);
    assert_int_equal(err.status, PARE_UNKNOWN);
    assert_string_equal(err.text, "no part 'mo-x'");
    assert_int_equal(pare_within(&err, "%s:%d", "a.yaml", 3), PARE_UNKNOWN);
    assert_string_equal(err.text, "a.yaml:3: no part 'mo-x'");
    assert_int_equal(pare_no_memory(&err), PARE_UNAVAILABLE);
    assert_string_equal(err.text, "out of memory");
}

static void nobody_need_listen_to_an_error(void **state)
{
    (void)state;
    assert_int_equal(pare_fail(NULL, PARE_NO, "x"), PARE_NO);
    assert_int_equal(pare_within(NULL, "x"), PARE_BAD_DATA);
}

static void a_long_error_is_cut_with_dots(void **state)
{
    (void)state;
    pare_error err = {0};
    char big[2000];
    memset(big, 'g', sizeof big - 1);
    big[sizeof big - 1] = '\0';
    pare_fail(&err, PARE_BAD_DATA, "%s", big);
    assert_int_equal(strlen(err.text), sizeof err.text - 1);
    assert_string_equal(err.text + sizeof err.text - 5, "g...");

    pare_fail(&err, PARE_BAD_DATA, "short");
    pare_within(&err, "%s", big);
    assert_int_equal(strlen(err.text), sizeof err.text - 1);
    assert_string_equal(err.text + sizeof err.text - 5, "g...");

    memset(big, 'g', sizeof err.text);
    big[sizeof err.text - 1] = '\0';
    pare_fail(&err, PARE_BAD_DATA, "%s", big);
    assert_string_equal(err.text, big);
}

static void an_error_is_one_line_whatever_it_quotes(void **state)
{
    (void)state;
    pare_error err = {0};
    pare_fail(&err, PARE_BAD_DATA, "part '%s'", "a\nb\tc\x1b[31m\x7f");
    assert_string_equal(err.text, "part 'a?b?c?[31m?'");
    pare_within(&err, "file\r");
    assert_string_equal(err.text, "file?: part 'a?b?c?[31m?'");
}

/* Days by hand: 400 years are 146097 days, and 1970 is day 0. */
static void days_are_counted_through_every_era(void **state)
{
    (void)state;
    static const struct {
        const char *text, *whole;
        long day;
    } rows[] = {{"1970-01-01", "1970-01-01", 0},
                {"1970", "1970-01-01", 0},
                {"1970-02", "1970-02-01", 31},
                {"2000-03-01", "2000-03-01", 11017},
                {"1600-03-01", "1600-03-01", 11017 - 146097},
                {"0000-03-01", "0000-03-01", 11017 - 5 * 146097},
                {"0000-02-29", "0000-02-29", 11017 - 5 * 146097 - 1},
                {"-400-03-01", NULL, 11017 - 6 * 146097}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[16];
        assert_int_equal(pare_day_number(rows[i].text), rows[i].day);
        if (rows[i].whole)
            assert_string_equal(pare_day_text(rows[i].day, text), rows[i].whole);
    }
}

static void a_day_has_digits_a_month_and_a_day(void **state)
{
    (void)state;
    static const char *const none[] = {"2o26-03-01", "2026-13-01", "2026-00-01",
                                       "2026-03-00", "2026-04-31", "2026-x1-01",
                                       "2026-03-0 ", "2026/03/01", "2026-03-1"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++)
        assert_false(pare_text_is_day(none[i]));
    assert_true(pare_text_is_day("2024-02-29"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_are_counted_through_every_era),
        cmocka_unit_test(a_day_has_digits_a_month_and_a_day),
        cmocka_unit_test(an_arena_gives_zeros_aligned_for_any_type),
        cmocka_unit_test(what_an_arena_gave_neither_moves_nor_overlaps),
        cmocka_unit_test(an_arena_refuses_sizes_that_overflow),
        cmocka_unit_test(an_arena_copies_and_formats_text),
        cmocka_unit_test(a_text_grows_and_stays_terminated),
        cmocka_unit_test(an_empty_put_gives_an_empty_string),
        cmocka_unit_test(a_text_without_memory_keeps_what_it_has),
        cmocka_unit_test(a_text_is_read_whole_or_without_the_blanks_at_its_end),
        cmocka_unit_test(joined_texts_are_cut_where_room_ends),
        cmocka_unit_test(the_nearest_name_forgives_a_third_of_the_letters),
        cmocka_unit_test(the_nearest_name_may_be_in_capitals_or_only_begun),
        cmocka_unit_test(a_name_that_is_like_none_has_no_nearest),
        cmocka_unit_test(of_equally_near_names_the_first_is_taken),
        cmocka_unit_test(an_error_keeps_its_status_and_text),
        cmocka_unit_test(nobody_need_listen_to_an_error),
        cmocka_unit_test(a_long_error_is_cut_with_dots),
        cmocka_unit_test(an_error_is_one_line_whatever_it_quotes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
