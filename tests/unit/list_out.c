/* rooms: store craft physics base */
/* What a bench says as JSON and as a list, where texts look like numbers or like the signs around them. Truths:
 * the grammar of numbers in RFC 8259 (section 6), and what RFC 4180 wants quoted; and both, read again, are the
 * same bench. */
#include "near.h"
#include "store_bench.h"

#include "store/list_out.h"

/* A bench of one part with that maker, typed so that YAML takes it as it stands. */
static void take_maker(pare_store *store, const char *maker)
{
    char text[300];
    pare_error err = {0};
    snprintf(text, sizeof text, "pare: 1\nparts:\n- {id: p-1, kind: pad, mass: 1 g, maker: '%s'}\n",
             maker);
    if (store_take(store, text, &err) != PARE_OK)
        fail_msg("%s: %s", maker, err.text);
}

static void a_number_is_one_by_json_s_own_grammar_and_a_text_otherwise(void **state)
{
    static const struct {
        const char *text, *json;
    } cases[] = {
        {"1", "1"},
        {"0", "0"},
        {"-0.50", "-0.50"},
        {"3.20", "3.20"},
        {"1e5", "1e5"},
        {"1E+5", "1E+5"},
        {"2.5e-3", "2.5e-3"},
        {"true", "true"},
        {"false", "false"},
        {"01", "\"01\""},
        {"1.", "\"1.\""},
        {".5", "\".5\""},
        {"1e", "\"1e\""},
        {"1e+", "\"1e+\""},
        {"-", "\"-\""},
        {"+1", "\"+1\""},
        {"1 g", "\"1 g\""},
        {"0x1", "\"0x1\""},
        {"a \"b\"", "\"a \\\"b\\\"\""},
        {"a\\b", "\"a\\\\b\""},
        {"--1", "\"--1\""},
        {"gr\xC3\xBCn", "\"gr\xC3\xBCn\""},
    };
    pare_store *store = store_of(state);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char wanted[80];
        pare_text json = {0};
        pare_error err = {0};
        take_maker(store, cases[i].text);
        char *before = store_text(store);
        assert_int_equal(pare_store_export_json(store, &json, &err), PARE_OK);
        snprintf(wanted, sizeof wanted, "\"maker\":%s", cases[i].json);
        char spaced[80];
        snprintf(spaced, sizeof spaced, "\"maker\": %s", cases[i].json);
        if (!strstr(json.bytes, wanted) && !strstr(json.bytes, spaced))
            fail_msg("%s: %s", cases[i].text, json.bytes);
        /* JSON is YAML: it goes in again, as the same. */
        if (store_take(store, json.bytes, &err) != PARE_OK)
            fail_msg("%s: %s", cases[i].text, err.text);
        store_expect_text(store, before, 0, i);
        free(before);
        pare_text_free(&json);
    }
}

static void a_cell_that_would_be_read_otherwise_is_quoted(void **state)
{
    static const struct {
        const char *text, *cell;
    } cases[] = {
        {"plain", ",plain"},           {"a,b", ",\"a,b\""}, {"a;b", ",\"a;b\""},
        {"a\"b", ",\"a\"\"b\""},       {"#1", ",\"#1\""},   {" led", ",\" led\""},
        {"trailed ", ",\"trailed \""}, {"a|b", ",\"a|b\""},
    };
    pare_store *store = store_of(state);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        pare_text list = {0};
        pare_error err = {0};
        size_t rows = 0, lefts = 0;
        const char *const *left = NULL;
        pare_arena *arena = pare_arena_open();
        take_maker(store, cases[i].text);
        assert_int_equal(
            pare_store_export_csv(store, PARE_LIST_PARTS, &list, arena, &rows, &lefts, &left, &err),
            PARE_OK);
        assert_int_equal(rows, 1);
        if (!strstr(list.bytes, cases[i].cell))
            fail_msg("%s: %s", cases[i].text, list.bytes);
        pare_text_free(&list);
        pare_arena_close(arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_number_is_one_by_json_s_own_grammar_and_a_text_otherwise,
                                        store_setup, store_teardown),
        cmocka_unit_test_setup_teardown(a_cell_that_would_be_read_otherwise_is_quoted, store_setup,
                                        store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
