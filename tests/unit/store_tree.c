/* rooms: store craft physics base */
/* A document tree: what is let in, what is refused and where, and writing that reads back. */
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "store/tree.h"

static const pare_node *parse(pare_arena *arena, const char *text)
{
    const pare_node *root = NULL;
    pare_error err = {0};
    if (pare_tree_parse(text, strlen(text), "a.yaml", arena, &root, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return root;
}

static void every_node_knows_its_line_and_column(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    const pare_node *root = parse(arena, "one: 1\ntwo:\n- {a: x}\n- 'b c'\n");
    assert_int_equal(root->count, 2);
    const pare_node *two = pare_node_get(root, "two");
    assert_int_equal(two->key_line, 2);
    assert_int_equal(two->key_column, 1);
    assert_int_equal(two->form, PARE_NODE_LIST);
    const pare_node *a = pare_node_get(two->first, "a");
    assert_string_equal(a->text, "x");
    assert_int_equal(a->line, 3);
    assert_int_equal(a->column, 7);
    assert_string_equal(two->first->next->text, "b c");
    assert_null(pare_node_get(root, "three"));
    assert_null(pare_node_get(two, "a"));
    pare_arena_close(arena);
}

static void json_is_read_too(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    const pare_node *root = parse(arena, "{\"pare\": 1, \"parts\": [{\"id\": \"mo\"}]}");
    assert_string_equal(pare_node_get(pare_node_get(root, "parts")->first, "id")->text, "mo");
    pare_arena_close(arena);
}

static void columns_count_characters_not_bytes(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    const pare_node *root = parse(arena, "{\xc3\xa9\xc3\xa9: x}");
    assert_int_equal(root->first->column, 6);
    pare_arena_close(arena);
}

static void what_is_not_a_bench_text_is_refused_with_its_place(void **state)
{
    (void)state;
    static const struct {
        const char *text, *message;
    } cases[] = {
        {"", "a.yaml:1:1: nothing here; a map of keys is right"},
        {"# only a comment\n", "a.yaml:1:1: nothing here; a map of keys is right"},
        {"a: 1\nb: 2\na: 3\n",
         "a.yaml:3:1: 'a' stands here a second time; once is enough (line 1)"},
        {"a: &x 1\nb: 2\n", "a.yaml:1:4: an anchor (&); write the value out instead"},
        {"a: &x [1]\n", "a.yaml:1:4: an anchor (&); write the values out instead"},
        {"a: 1\nb: *x\n", "a.yaml:2:4: an alias (*); write the value out instead"},
        {"a: !!int 1\n", "a.yaml:1:4: a tag (!); leave it out"},
        {"a: !x {b: 1}\n", "a.yaml:1:4: a tag (!); leave it out"},
        {"a: 1\n---\nb: 2\n", "a.yaml:2:1: a second document; one a file is right"},
        {"a: \xff\n", "a.yaml:1:4: byte 0xff is not UTF-8; a bench is text in UTF-8"},
        {"a: \xc0\x80\n", "a.yaml:1:4: byte 0xc0 is not UTF-8; a bench is text in UTF-8"},
        {"a: \xed\xa0\x80\n", "a.yaml:1:4: byte 0xed is not UTF-8; a bench is text in UTF-8"},
        {"a: 1\nb: \x1b[31m\n",
         "a.yaml:2:4: control character U+001B; a bench is text without such characters"},
        {"a: \"x\\0y\"\n",
         "a.yaml:1:4: a line break or control character in a value; one line of text is right"},
        {"a: |\n  one\n  two\n",
         "a.yaml:1:4: a line break or control character in a value; one line of text is right"},
        {"? [a]\n: 1\n", "a.yaml:1:3: a map or list as a key; a key is one word"},
        {"a: [1, 2\nb: 3\n",
         "a.yaml:2:2: not YAML: did not find expected ',' or ']' (while parsing a flow sequence "
         "that starts in line 1)"},
        {"\"\": 1\n", "a.yaml:1:1: a key of 1 to 128 bytes is right here"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        pare_arena *arena = pare_arena_open();
        const pare_node *root = NULL;
        pare_error err = {0};
        assert_int_equal(
            pare_tree_parse(cases[i].text, strlen(cases[i].text), "a.yaml", arena, &root, &err),
            PARE_BAD_DATA);
        assert_string_equal(err.text, cases[i].message);
        assert_null(root);
        pare_arena_close(arena);
    }
}

static void a_zero_byte_is_refused_wherever_it_stands(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    const pare_node *root = NULL;
    pare_error err = {0};
    assert_int_equal(pare_tree_parse("a: 1\0b", 6, "a.yaml", arena, &root, &err), PARE_BAD_DATA);
    assert_string_equal(
        err.text, "a.yaml:1:5: control character U+0000; a bench is text without such characters");
    pare_arena_close(arena);
}

static void nesting_and_size_have_limits(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    const pare_node *root = NULL;
    pare_error err = {0};
    char deep[200];
    memset(deep, '[', sizeof deep);
    assert_int_equal(pare_tree_parse(deep, sizeof deep, "a.yaml", arena, &root, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "a.yaml:1:33: nested more than 32 deep; a bench needs far less");
    const size_t large = PARE_TREE_BYTES + 1u;
    char *blanks = malloc(large);
    assert_non_null(blanks);
    memset(blanks, ' ', large);
    assert_int_equal(pare_tree_parse(blanks, large, "a.yaml", arena, &root, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "a.yaml: 67108865 bytes; 64 MiB is the most that is read");
    free(blanks);
    pare_arena_close(arena);
}

static void a_million_values_are_the_most(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    const pare_node *root = NULL;
    pare_error err = {0};
    const size_t length = 2u * PARE_TREE_VALUES + 10;
    char *list = malloc(length);
    assert_non_null(list);
    for (size_t i = 0; i < length; i++)
        list[i] = i % 2 ? ',' : '1';
    list[0] = '[';
    list[1] = '1';
    list[2] = ' ';
    list[length - 1] = ']';
    assert_int_equal(pare_tree_parse(list, length, "a.yaml", arena, &root, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "more than 1000000 values; no bench is that large"));
    free(list);
    pare_arena_close(arena);
}

static void written_text_reads_and_writes_the_same(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "a: 1",
        "a: 'it''s'\nb: \"<= 620 g\"\nc: -10 mm\nd: \"- x\"\ne: ''\nf: \"a: b\"\ng: 0/90",
        "{a: [], b: {}, c: [[1, 2], [3, 4]]}",
        "list:\n- {id: one, kind: motor}\n- {id: two, kind: frame}\n- plain\n- [a, [b]]",
        "a: \"%\"\nb: \"#x\"\nc: \"x #y\"\nd: \"x, y\"\ne: \"a\\\\b\\\"c\"\n\"k: 1\": v",
        "deep: {a: {b: {c: {d: {e: {f: {g: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, "
        "16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 31]}}}}}}}",
        "long: [aaaaaaaaaaaaaaaaaaaaaaaaaaaaa, bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb, "
        "cccccccccccccccccccccccccc, ddddddddddddddd, {x: 1, y: [1, 2]}]",
        "a: ...\nb: \"~\"\nc: null\nd: a:b\ne: x'y\nf: \"'\"\ng: \xc3\xbc ber",
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        for (int block = 0; block < 4; block++) {
            pare_arena *arena = pare_arena_open();
            pare_text once = {0}, twice = {0};
            pare_tree_write(parse(arena, texts[i]), block, &once);
            pare_tree_write(parse(arena, once.bytes), block, &twice);
            assert_string_equal(once.bytes, twice.bytes);
            pare_text_free(&once);
            pare_text_free(&twice);
            pare_arena_close(arena);
        }
}

static void what_fits_stands_on_one_line_and_what_does_not_on_several(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    pare_text out = {0};
    pare_tree_write(
        parse(arena,
              "id: mo\nmass:\n  value: 31 g\n  u: 1 g\nbody:\n- {arms: [[80 mm, 80 mm], [80 mm, "
              "-80 mm], [-80 mm, -80 mm], [-80 mm, 80 mm]], root: 26 mm, section: [12 mm, 5 "
              "mm]}\n- short\n"),
        0, &out);
    assert_string_equal(out.bytes, "id: mo\n"
                                   "mass: {value: 31 g, u: 1 g}\n"
                                   "body:\n"
                                   "- arms: [[80 mm, 80 mm], [80 mm, -80 mm], [-80 mm, -80 mm], "
                                   "[-80 mm, 80 mm]]\n"
                                   "  root: 26 mm\n"
                                   "  section: [12 mm, 5 mm]\n"
                                   "- short");
    pare_text_free(&out);
    pare_arena_close(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_node_knows_its_line_and_column),
        cmocka_unit_test(json_is_read_too),
        cmocka_unit_test(columns_count_characters_not_bytes),
        cmocka_unit_test(what_is_not_a_bench_text_is_refused_with_its_place),
        cmocka_unit_test(a_zero_byte_is_refused_wherever_it_stands),
        cmocka_unit_test(nesting_and_size_have_limits),
        cmocka_unit_test(a_million_values_are_the_most),
        cmocka_unit_test(written_text_reads_and_writes_the_same),
        cmocka_unit_test(what_fits_stands_on_one_line_and_what_does_not_on_several),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
