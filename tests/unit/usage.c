/* rooms: cli */
/* The words of a usage text, which the man pages and the completion are made of. Own rules. */
#include "near.h"

#include <stdio.h>

#include "cli/usage.h"

/* Writes what is read: options in <>, literals in "", the rest bare; brackets, dots and bars behind. */
static const char *read_back(const char *usage)
{
    static char text[512];
    usage_word word;
    size_t n = 0;
    text[0] = '\0';
    for (const char *at = usage; usage_next(&at, &word);) {
        for (int i = 0; i < word.opens; i++)
            text[n++] = '[';
        n += (size_t)snprintf(text + n, sizeof text - n, "%s%.*s%s",
                              word.option    ? "<"
                              : word.literal ? "\""
                                             : "",
                              (int)word.length, word.text,
                              word.option    ? ">"
                              : word.literal ? "\""
                                             : "");
        n += (size_t)snprintf(text + n, sizeof text - n, "%s", word.repeats ? "..." : "");
        for (int i = 0; i < word.closes; i++)
            text[n++] = ']';
        text[n++] = word.alternative ? '|' : ' ';
        text[n] = '\0';
    }
    return text;
}

static void a_usage_is_read_word_by_word(void **state)
{
    (void)state;
    assert_string_equal(read_back(""), "");
    assert_string_equal(read_back("pare"), "\"pare\" ");
    assert_string_equal(read_back("pare parts [WORD...] [--kind KIND]"),
                        "\"pare\" \"parts\" [WORD...] [<--kind> KIND] ");
    assert_string_equal(read_back("pare a\npare b\n    [-o FILE]"),
                        "\"pare\" \"a\" \"pare\" \"b\" [<-o> FILE] ");
}

static void brackets_within_a_word_are_part_of_it(void **state)
{
    (void)state;
    assert_string_equal(read_back("CRAFT[:LOADOUT] CRAFT[:LOADOUT]..."),
                        "CRAFT[:LOADOUT] CRAFT[:LOADOUT]... ");
    assert_string_equal(read_back("[CRAFT[:LOADOUT]]"), "[CRAFT[:LOADOUT]] ");
    assert_string_equal(read_back("[A [B]]"), "[A [B]] ");
}

static void alternatives_are_kept_apart(void **state)
{
    (void)state;
    assert_string_equal(read_back("[--ordered|--flown DATE]"), "[<--ordered>|<--flown> DATE] ");
    assert_string_equal(read_back("on|off"), "\"on\"|\"off\" ");
}

static void what_has_capitals_or_a_value_stands_for_something(void **state)
{
    (void)state;
    assert_string_equal(read_back("key=value... NAME show"), "key=value... NAME \"show\" ");
}

static void a_subcommand_that_is_mistyped_has_a_nearest(void **state)
{
    (void)state;
    static const char usage[] =
        "pare craft\npare craft show CRAFT\npare craft limit CRAFT [--why TEXT]"
        "\npare craft NAME other";
    char near[USAGE_WORD] = "untouched";
    assert_true(usage_nearest(usage, "shwo", near));
    assert_string_equal(near, "show");
    assert_true(usage_nearest(usage, "limits", near));
    assert_string_equal(near, "limit");
    assert_false(usage_nearest(usage, "other", near)); /* not the first word */
    assert_false(usage_nearest(usage, "craft", near));
    assert_false(usage_nearest("", "show", near));
    assert_string_equal(near, "limit");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_usage_is_read_word_by_word),
        cmocka_unit_test(brackets_within_a_word_are_part_of_it),
        cmocka_unit_test(alternatives_are_kept_apart),
        cmocka_unit_test(what_has_capitals_or_a_value_stands_for_something),
        cmocka_unit_test(a_subcommand_that_is_mistyped_has_a_nearest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
