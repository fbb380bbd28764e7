/* rooms: store craft physics base */
/* Long lists: entries handed over one by one, parts by the thousand, statements that are kept. */
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "store/sql.h"
#include "store/tree.h"
#include "store_bench.h"

/* ---- entries one by one ---- */

typedef struct seen {
    size_t count, keep_from; /* entries from this one on stay */
    size_t stop_at;          /* the entry that is refused; 0: none */
    pare_text text;          /* "line:column text;" of each */
} seen;

static pare_status look(void *context, const pare_node *root, const pare_node *entry, bool *keep,
                        pare_error *err)
{
    seen *s = context;
    assert_non_null(pare_node_get(root, "first"));
    if (s->text.length < 1000) {
        pare_text_printf(&s->text, "%d:%d ", entry->line, entry->column);
        pare_tree_write(entry, 0, &s->text);
        pare_text_add(&s->text, ";");
    }
    *keep = s->keep_from && s->count >= s->keep_from;
    if (++s->count == s->stop_at)
        return pare_fail(err, PARE_BAD_DATA, "enough");
    return PARE_OK;
}

static pare_status hand_over(const char *text, size_t length, seen *s, pare_arena *arena,
                             const pare_node **root, pare_error *err)
{
    pare_arena *entries = pare_arena_open();
    const pare_tree_each each = {.key = "list", .arena = entries, .context = s, .take = look};
    const pare_status status =
        pare_tree_parse_each(text, length, "a.yaml", arena, &each, root, err);
    pare_arena_close(entries);
    return status;
}

static void entries_of_the_one_list_are_handed_over_with_their_places(void **state)
{
    (void)state;
    static const char text[] = "first: {list: [not, this]}\n"
                               "list:\n- {a: 1, list: [x, y]}\n- word\n- [1, [2, 3]]\n"
                               "last: [1, 2]\n";
    pare_arena *arena = pare_arena_open();
    pare_error err = {0};
    const pare_node *root = NULL;
    seen s = {0};
    assert_int_equal(hand_over(text, strlen(text), &s, arena, &root, &err), PARE_OK);
    assert_string_equal(s.text.bytes, "3:3 {a: 1, list: [x, y]};4:3 word;5:3 [1, [2, 3]];");
    s.text.length = 0;
    pare_tree_write(root, 0, &s.text);
    assert_string_equal(s.text.bytes, "{first: {list: [not, this]}, list: [], last: [1, 2]}");
    pare_text_free(&s.text);
    pare_arena_close(arena);
}

static void an_entry_that_is_to_stay_outlives_the_others(void **state)
{
    (void)state;
    static const char text[] = "first: 1\nlist: [{a: 1}, {b: [2, {c: 3}]}, word]\n";
    pare_arena *arena = pare_arena_open();
    pare_error err = {0};
    const pare_node *root = NULL;
    seen s = {.keep_from = 1};
    assert_int_equal(hand_over(text, strlen(text), &s, arena, &root, &err), PARE_OK);
    const pare_node *list = pare_node_get(root, "list");
    assert_int_equal(list->count, 2);
    assert_int_equal(list->first->line, 2);
    assert_int_equal(list->first->column, 16);
    s.text.length = 0;
    pare_tree_write(list, 0, &s.text);
    assert_string_equal(s.text.bytes, "[{b: [2, {c: 3}]}, word]");
    pare_text_free(&s.text);
    pare_arena_close(arena);
}

static void what_refuses_an_entry_ends_the_reading(void **state)
{
    (void)state;
    static const char text[] = "first: 1\nlist: [1, 2, 3, 4]\n";
    pare_arena *arena = pare_arena_open();
    pare_error err = {0};
    const pare_node *root = NULL;
    seen s = {.stop_at = 2};
    assert_int_equal(hand_over(text, strlen(text), &s, arena, &root, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "enough");
    assert_int_equal(s.count, 2);
    assert_null(root);
    pare_text_free(&s.text);
    pare_arena_close(arena);
}

/* A list of many short entries passes; what would have to be held at once does not. */
static void values_are_limited_at_a_time(void **state)
{
    (void)state;
    enum { ENTRIES = PARE_TREE_VALUES + 10 };
    char *text = malloc(2u * ENTRIES + 64);
    assert_non_null(text);
    size_t length = (size_t)sprintf(text, "first: 1\nlist:  [1");
    for (size_t i = 1; i < ENTRIES; i++) {
        text[length++] = ',';
        text[length++] = '1';
    }
    strcpy(text + length, "]\n");
    pare_arena *arena = pare_arena_open();
    pare_error err = {0};
    const pare_node *root = NULL;
    seen s = {0};
    assert_int_equal(hand_over(text, length + 2, &s, arena, &root, &err), PARE_OK);
    assert_int_equal(s.count, ENTRIES);
    text[15] = '['; /* "list: [[1,1,...]]": one entry */
    strcpy(text + length, "]]\n");
    assert_int_equal(hand_over(text, length + 3, &s, arena, &root, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "more than 1000000 values; no bench is that large"));
    pare_text_free(&s.text);
    pare_arena_close(arena);
    free(text);
}

/* ---- parts by the thousand ---- */

static void many_parts_go_in_and_come_out_the_same(void **state)
{
    enum { PARTS = 12000 };
    store_fixture other = {0}, *to = &other;
    pare_text text = {0};
    pare_error err = {0};
    pare_text_add(&text, "pare: 1\nparts:\n");
    for (int i = 0; i < PARTS; i++) /* not in their order */
        pare_text_printf(&text, "- {id: p%05d, kind: other, mass: %d g}\n", i * 7919 % PARTS,
                         1 + i % 90);
    if (store_take(store_of(state), text.bytes, &err) != PARE_OK)
        fail_msg("%s", err.text);
    char *out = store_text(store_of(state));
    size_t lines = 0;
    for (const char *c = out; *c; c++)
        lines += *c == '\n';
    assert_int_equal(lines, PARTS + 2);
    store_setup((void **)&to);
    assert_int_equal(store_take(to->store, out, &err), PARE_OK);
    char *again = store_text(to->store);
    assert_string_equal(again, out);
    store_teardown((void **)&to);
    free(out);
    free(again);
    pare_text_free(&text);
}

static void a_part_that_comes_twice_is_refused_however_far_apart(void **state)
{
    pare_error err = {0};
    char *before = store_text(store_of(state));
    assert_int_equal(store_take(store_of(state),
                                "pare: 1\nparts:\n"
                                "- {id: z, kind: other, mass: 1 g}\n"
                                "- {id: b, kind: other, mass: 1 g}\n"
                                "- {id: a, kind: other, mass: 1 g}\n"
                                "- {id: b, kind: other, mass: 2 g}\n",
                                &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "b.yaml:6:3: part 'b' a second time; it is already in line 4");
    char *after = store_text(store_of(state));
    assert_string_equal(after, before);
    free(before);
    free(after);
}

static void a_text_may_say_at_its_end_what_it_is(void **state)
{
    pare_error err = {0};
    assert_int_equal(
        store_take(store_of(state), "parts: [{id: a, kind: other, mass: 1 g}]\npare: 1\n", &err),
        PARE_OK);
    char *out = store_text(store_of(state));
    assert_string_equal(out, "pare: 1\nparts:\n- {id: a, kind: other, mass: 1 g}\n");
    free(out);
    assert_int_equal(
        store_take(store_of(state), "parts: [{id: a, kind: other, mass: 1 g}]\npare: 2\n", &err),
        PARE_BAD_DATA);
    assert_string_equal(err.text, "b.yaml:2:7: a text of version 2; right would be pare: 1");
    /* Said before the parts, it is what is wrong, and not what only version 2 knows. */
    assert_int_equal(store_take(store_of(state), "pare: 2\nparts: [{id: a, colour: red}]\n", &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "b.yaml:1:7: a text of version 2; right would be pare: 1");
}

/* The corner tetrahedron with legs of n mm. */
static void put_stl(int n, char text[600])
{
    const int corner[4][3] = {{0, 0, 0}, {n, 0, 0}, {0, n, 0}, {0, 0, n}};
    static const int face[4][3] = {{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}};
    size_t used = (size_t)sprintf(text, "solid a\n");
    for (int i = 0; i < 4; i++) {
        used += (size_t)sprintf(text + used, "facet normal 0 0 0\nouter loop\n");
        for (int k = 0; k < 3; k++)
            used += (size_t)sprintf(text + used, "vertex %d %d %d\n", corner[face[i][k]][0],
                                    corner[face[i][k]][1], corner[face[i][k]][2]);
        used += (size_t)sprintf(text + used, "endloop\nendfacet\n");
    }
    strcpy(text + used, "endsolid a\n");
}

static void a_shared_mesh_may_change_when_all_its_parts_come_in(void **state)
{
    static const char both[] = "pare: 1\nparts:\n"
                               "- {id: two, kind: printed, body: {mesh: a.stl, unit: mm}}\n"
                               "- {id: one, kind: printed, body: {mesh: a.stl, unit: mm}}\n";
    pare_store *store = store_of(state);
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary = {0};
    pare_bench *bench = NULL;
    char stl[600];
    double mass_kg[2] = {0};
    for (int i = 0; i < 2; i++) {
        put_stl(20 * (i + 1), stl);
        const pare_import_file file = {.name = "a.stl", .bytes = stl, .length = strlen(stl)};
        const pare_import import = {
            .bytes = both, .length = strlen(both), .name = "b.yaml", .files = 1, .file = &file};
        if (pare_store_import_yaml(store, &import, arena, &summary, &err) != PARE_OK)
            fail_msg("%s", err.text);
        assert_int_equal(pare_store_read(store, &bench, &err), PARE_OK);
        mass_kg[i] = pare_bench_part(bench, "one")->mass_kg.value;
        assert_near(pare_bench_part(bench, "two")->mass_kg.value, mass_kg[i], 1e-15);
        pare_bench_close(bench);
    }
    assert_true(mass_kg[1] > 2 * mass_kg[0]);
    pare_arena_close(arena);
}

/* ---- statements ---- */

static int number_of(pare_store *store, const char *sql, const char *key)
{
    pare_statement *statement = NULL;
    pare_error err = {0};
    bool row = false;
    if (pare_sql_prepare(store, &statement, &err, sql, "t", key) != PARE_OK ||
        pare_sql_step(store, statement, &row, &err) != PARE_OK)
        fail_msg("%s", err.text);
    const int number = row ? (int)pare_sql_int(statement, 0) : -1;
    pare_sql_finish(statement);
    return number;
}

static void a_kept_statement_answers_anew_each_time(void **state)
{
    pare_store *store = store_of(state);
    static const char sql[] = "SELECT length(?)";
    assert_int_equal(number_of(store, sql, "abc"), 3);
    assert_int_equal(number_of(store, sql, "abcd"), 4);
    /* Another text at the same address is another statement. */
    char made_up[] = "SELECT 1 + length(?)";
    assert_int_equal(number_of(store, made_up, "abc"), 4);
    made_up[7] = '2';
    assert_int_equal(number_of(store, made_up, "abc"), 5);
}

static void a_statement_that_is_lent_is_not_lent_again(void **state)
{
    pare_store *store = store_of(state);
    static const char sql[] = "SELECT length(?)";
    pare_statement *first = NULL;
    pare_error err = {0};
    bool row = false;
    assert_int_equal(pare_sql_prepare(store, &first, &err, sql, "t", "first"), PARE_OK);
    assert_int_equal(number_of(store, sql, "another"), 7);
    assert_int_equal(pare_sql_step(store, first, &row, &err), PARE_OK);
    assert_int_equal(pare_sql_int(first, 0), 5);
    pare_sql_finish(first);
}

#define WITH_BENCH(test) cmocka_unit_test_setup_teardown(test, store_setup, store_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(entries_of_the_one_list_are_handed_over_with_their_places),
        cmocka_unit_test(an_entry_that_is_to_stay_outlives_the_others),
        cmocka_unit_test(what_refuses_an_entry_ends_the_reading),
        cmocka_unit_test(values_are_limited_at_a_time),
        WITH_BENCH(many_parts_go_in_and_come_out_the_same),
        WITH_BENCH(a_part_that_comes_twice_is_refused_however_far_apart),
        WITH_BENCH(a_text_may_say_at_its_end_what_it_is),
        WITH_BENCH(a_shared_mesh_may_change_when_all_its_parts_come_in),
        WITH_BENCH(a_kept_statement_answers_anew_each_time),
        WITH_BENCH(a_statement_that_is_lent_is_not_lent_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
