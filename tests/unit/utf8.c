/* rooms: store base */
/* Characters of UTF-8, by RFC 3629: its table of what may stand in which place (section 4). */
#include "store/utf8.h"

#include <string.h>

#include "near.h"

static void characters_are_read_and_what_is_none_is_not(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t length;
        unsigned code;
    } cases[] = {
        {"a", 1, 'a'},
        {"\xC2\xA2", 2, 0xA2},
        {"\xE2\x82\xAC", 3, 0x20AC},
        {"\xED\x9F\xBF", 3, 0xD7FF},
        {"\xEE\x80\x80", 3, 0xE000},
        {"\xF0\x90\x8D\x88", 4, 0x10348},
        {"\xF4\x8F\xBF\xBF", 4, 0x10FFFF},
        {"\xC0\x80", 0, 0},         /* longer than need be */
        {"\xE0\x9F\xBF", 0, 0},     /* likewise */
        {"\xED\xA0\x80", 0, 0},     /* half of a pair, U+D800 */
        {"\xED\xBF\xBF", 0, 0},     /* U+DFFF */
        {"\xF4\x90\x80\x80", 0, 0}, /* past the last, U+110000 */
        {"\xF8\x80\x80\x80", 0, 0}, /* begins none */
        {"\x80", 0, 0},             /* goes on from nothing */
        {"\xE2\x82", 0, 0},         /* cut */
        {"\xE2\x28\xA1", 0, 0},     /* does not go on */
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        unsigned code = 0;
        const unsigned char *bytes = (const unsigned char *)cases[i].bytes;
        assert_int_equal(pare_utf8_character(bytes, strlen(cases[i].bytes), &code),
                         cases[i].length);
        if (cases[i].length)
            assert_int_equal(code, cases[i].code);
    }
}

/* What ends a line, hides, or turns the direction of what follows: the ranges' ends, and one outside each. */
static void what_is_no_letter_is_told_from_what_is(void **state)
{
    (void)state;
    static const unsigned control[] = {0,      0x1F,   0x7F,   0x9F,   0x2028, 0x2029, 0x202A,
                                       0x202E, 0x2066, 0x2069, 0xFEFF, 0xFFFE, 0xFFFF};
    static const unsigned letter[] = {0x20,   0x7E,   0xA0,   0x2027, 0x202F,
                                      0x2065, 0x206A, 0xFEFE, 0xFF00, 0x10000};
    for (size_t i = 0; i < sizeof control / sizeof control[0]; i++)
        assert_true(pare_utf8_is_control(control[i]));
    for (size_t i = 0; i < sizeof letter / sizeof letter[0]; i++)
        assert_false(pare_utf8_is_control(letter[i]));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(characters_are_read_and_what_is_none_is_not),
        cmocka_unit_test(what_is_no_letter_is_told_from_what_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
