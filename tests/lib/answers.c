/* answers.c: the library answers what the program answers, figure by figure, from a file and from a text, in
 * whatever locale; and refuses in the same words. */
#include "run.h"

#include <pare/pare.h>

#include <locale.h>
#include <math.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* The program prints ten digits. */
#define DIGITS 1e-9

static pare_snapshot *bench;

static int open_bench(void **state)
{
    pare_error err;
    if (enter_home_with_demo(state) != 0)
        return -1;
    if (pare_snapshot_open("data/pare/demo.sqlite", &bench, &err) == PARE_OK)
        return 0;
    print_error("%s\n", err.text);
    return -1;
}

static int close_bench(void **state)
{
    pare_snapshot_close(bench);
    return leave_home(state);
}

static void same_number(const char *key, double ours, const json_t *theirs)
{
    if (json_is_null(theirs)) {
        if (!isnan(ours))
            fail_msg("%s: %.12g, and the program says null", key, ours);
        return;
    }
    if (!json_is_number(theirs))
        fail_msg("%s: the program has no such number", key);
    const double want = json_number_value(theirs);
    if (!(fabs(ours - want) <= DIGITS * fabs(want)))
        fail_msg("%s: %.12g, and the program says %.12g", key, ours, want);
}

static const char *text_of(const json_t *object, const char *key)
{
    return json_string_value(json_object_get(object, key));
}

static void same_text(const char *ours, const char *theirs)
{
    if (!theirs)
        assert_null(ours);
    else
        assert_string_equal(ours, theirs);
}

/* ---- the sheet ---- */

static void same_figure(const pare_craft_figure *figure, const json_t *sheet)
{
    char u[64];
    snprintf(u, sizeof u, "%s_u", figure->key);
    same_number(figure->key, figure->value, json_object_get(sheet, figure->key));
    same_number(u, figure->value_u, json_object_get(sheet, u));
    same_text(figure->known, text_of(json_object_get(sheet, "known"), figure->key));
    same_text(figure->why, text_of(json_object_get(sheet, "why"), figure->key));
}

static void same_margin(const pare_craft_margin *margin, const json_t *one)
{
    assert_string_equal(margin->name, text_of(one, "name"));
    same_text(margin->unit, text_of(one, "unit"));
    same_text(margin->from, text_of(one, "from"));
    same_text(margin->caution, text_of(one, "caution"));
    same_number("value", margin->value, json_object_get(one, "value"));
    same_number("value_u", margin->value_u, json_object_get(one, "value_u"));
    same_number("limit", margin->limit, json_object_get(one, "limit"));
    same_number("ratio", margin->ratio, json_object_get(one, "ratio"));
    same_number("ratio_u", margin->ratio_u, json_object_get(one, "ratio_u"));
    same_number("chance", margin->chance, json_object_get(one, "chance"));
    assert_int_equal(margin->at_least, json_is_true(json_object_get(one, "at_least")));
}

static void same_sheet(const pare_craft_sheet *sheet, const json_t *wanted)
{
    size_t figures = 0, i = 0;
    const json_t *one, *margins = json_object_get(wanted, "margins"),
                       *ledger = json_object_get(wanted, "ledger");
    const pare_craft_figure *figure;
    while ((figure = pare_craft_sheet_figure(sheet, figures)) != NULL) {
        assert_ptr_equal(pare_craft_sheet_find(sheet, figure->key), figure);
        /* The place of the centre of mass is three figures here and one list there. */
        if (strncmp(figure->key, "cg_", 3) == 0)
            same_number(
                figure->key, figure->value,
                json_array_get(json_object_get(wanted, "cg_mm"), (size_t)(figure->key[3] - 'x')));
        else
            same_figure(figure, wanted);
        figures++;
    }
    assert_true(figures > 45);
    json_array_foreach(margins, i, one) same_margin(pare_craft_sheet_margin(sheet, i), one);
    assert_true(i > 5);
    assert_null(pare_craft_sheet_margin(sheet, i));
    json_array_foreach(ledger, i, one)
    {
        const pare_craft_line *line = pare_craft_sheet_line(sheet, i);
        assert_string_equal(line->of, text_of(one, "of"));
        assert_string_equal(line->name, text_of(one, "name"));
        assert_string_equal(line->known, text_of(one, "known"));
        assert_int_equal(line->count, json_integer_value(json_object_get(one, "count")));
        same_number("all_g", line->grams, json_object_get(one, "all_g"));
        same_number("all_g_u", line->grams_u, json_object_get(one, "all_g_u"));
    }
    assert_true(i > 10);
    assert_null(pare_craft_sheet_line(sheet, i));
}

static void sheet_is(const char *craft, const char *loadout, const char *swaps, const char *line)
{
    pare_error err;
    pare_craft_sheet *sheet = NULL;
    json_t *wanted = run_json(line);
    if (pare_craft_sheet_compute(bench, craft, loadout, swaps, &sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
    same_sheet(sheet, wanted);
    pare_craft_sheet_close(sheet);
    json_decref(wanted);
}

static void every_sheet_is_that_of_the_program(void **state)
{
    (void)state;
    const char *craft;
    size_t count = 0;
    while ((craft = pare_snapshot_craft(bench, count)) != NULL) {
        char line[128];
        snprintf(line, sizeof line, "sheet %s --json" DEMO, craft);
        sheet_is(craft, NULL, NULL, line);
        count++;
    }
    assert_true(count >= 3);
}

static void a_sheet_with_swaps_in_a_loadout_is_that_of_the_program(void **state)
{
    (void)state;
    sheet_is("hedgerow", "race", "bumper=off,joint.motor_base.material=titanium",
             "sheet hedgerow --loadout race --try bumper=off,joint.motor_base.material=titanium "
             "--json" DEMO);
}

static void what_no_craft_has_is_refused_in_the_programs_words(void **state)
{
    (void)state;
    static const struct {
        const char *craft, *loadout, *swaps, *line;
    } wrong[] = {
        {"hedgrow", NULL, NULL, "sheet hedgrow" DEMO},
        {"hedgerow", "rac", NULL, "sheet hedgerow --loadout rac" DEMO},
        {"hedgerow", NULL, "bumpr=off", "sheet hedgerow --try bumpr=off" DEMO},
        {"hedgerow", NULL, "", "sheet hedgerow --try ," DEMO},
        {"hedgerow", NULL, "bumper=off,bumper=off",
         "sheet hedgerow --try bumper=off,bumper=off" DEMO},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        pare_error err = {PARE_OK, ""};
        pare_craft_sheet *sheet = (pare_craft_sheet *)&err;
        const pare_status status = pare_craft_sheet_compute(bench, wrong[i].craft, wrong[i].loadout,
                                                            wrong[i].swaps, &sheet, &err);
        char line[600];
        snprintf(line, sizeof line, "pare: %s\n", err.text);
        assert_null(sheet);
        assert_int_equal(err.status, status);
        run_refuses(wrong[i].line, (int)status, line);
        /* Nobody needs to be told. */
        assert_int_equal(pare_craft_sheet_compute(bench, wrong[i].craft, wrong[i].loadout,
                                                  wrong[i].swaps, &sheet, NULL),
                         status);
    }
}

/* ---- swaps ---- */

static void same_names(const char *const *names, const json_t *list)
{
    size_t i;
    const json_t *one;
    json_array_foreach(list, i, one) same_text(names[i], json_string_value(one));
    assert_null(names[i]);
}

static void swaps_are_those_of_the_program(void **state)
{
    (void)state;
    pare_error err;
    pare_swap_list *list = NULL;
    json_t *wanted = run_json("swaps hedgerow --wish minutes --json" DEMO);
    const json_t *one, *rows = json_object_get(wanted, "swaps");
    size_t i;
    if (pare_swap_list_find(bench, "hedgerow", NULL, "minutes", &list, &err) != PARE_OK)
        fail_msg("%s", err.text);
    json_array_foreach(rows, i, one)
    {
        const pare_swap_row *row = pare_swap_list_row(list, i);
        assert_non_null(row);
        assert_string_equal(row->id, text_of(one, "id"));
        assert_string_equal(row->from, text_of(one, "from"));
        assert_string_equal(row->to, text_of(one, "to"));
        assert_string_equal(row->band, text_of(one, "band"));
        assert_int_equal(row->sought, json_is_true(json_object_get(one, "sought")));
        same_number("grams", row->grams, json_object_get(one, "grams"));
        same_number("grams_u", row->grams_u, json_object_get(one, "grams_u"));
        same_number("money", row->money, json_object_get(one, "money"));
        same_number("money_per_g", row->money_per_g, json_object_get(one, "money_per_g"));
        same_number("work_min", row->work_min, json_object_get(one, "work_min"));
        same_names(row->brings, json_object_get(one, "brings"));
        same_names(row->drops, json_object_get(one, "drops"));
        same_names(row->breaks, json_object_get(one, "breaks"));
        same_names(row->loosens, json_object_get(one, "loosens"));
        same_names(row->notes, json_object_get(one, "notes"));
        same_number("flown_min", pare_swap_list_change(list, i, "flown_min"),
                    json_object_get(json_object_get(one, "change"), "flown_min"));
    }
    assert_true(i > 20);
    assert_null(pare_swap_list_row(list, i));
    assert_true(isnan(pare_swap_list_change(list, i, "flown_min")));
    assert_true(isnan(pare_swap_list_change(list, 0, "flown")));
    pare_swap_list_close(list);
    json_decref(wanted);
}

static void a_wish_that_is_none_is_refused(void **state)
{
    (void)state;
    pare_error err;
    pare_swap_list *list = NULL;
    assert_int_equal(pare_swap_list_find(bench, "hedgerow", NULL, "minuts", &list, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "no wish 'minuts'; did you mean minutes?");
    assert_null(list);
}

/* ---- the best set ---- */

static void the_best_set_is_that_of_the_program(void **state)
{
    (void)state;
    pare_error err;
    pare_best_set *set = NULL;
    pare_craft_sheet *sheet = NULL;
    json_t *wanted = run_json("best thimble --json" DEMO);
    const json_t *one, *swaps = json_object_get(wanted, "swaps"),
                       *binds = json_object_get(wanted, "binds");
    size_t i;
    if (pare_best_set_find(bench, "thimble", NULL, NULL, NULL, &set, &err) != PARE_OK)
        fail_msg("%s", err.text);
    const pare_best_facts *facts = pare_best_set_facts(set);
    assert_true(facts->found && facts->proven && !facts->stopped);
    same_number("was_g", facts->before_g, json_object_get(wanted, "was_g"));
    same_number("best_g", facts->after_g, json_object_get(wanted, "best_g"));
    same_number("bound_g", facts->bound_g, json_object_get(wanted, "bound_g"));
    same_number("money", facts->money, json_object_get(wanted, "money"));
    same_number("work_min", facts->work_min, json_object_get(wanted, "work_min"));
    assert_string_equal(facts->swaps, text_of(wanted, "try"));
    json_array_foreach(swaps, i, one)
    {
        const pare_best_step *step = pare_best_set_step(set, i);
        assert_string_equal(step->id, text_of(one, "id"));
        same_number("grams", step->grams, json_object_get(one, "grams"));
        same_number("money", step->money, json_object_get(one, "money"));
        same_number("work_min", step->work_min, json_object_get(one, "work_min"));
    }
    assert_null(pare_best_set_step(set, i));
    json_array_foreach(binds, i, one)
        assert_string_equal(pare_best_set_bind(set, i), text_of(one, "name"));
    assert_null(pare_best_set_bind(set, i));
    /* What it promises is what the craft then weighs; each line of the ledger is rounded to 0.1 mg. */
    if (pare_craft_sheet_compute(bench, "thimble", NULL, facts->swaps, &sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_near(pare_craft_sheet_find(sheet, "all_up_g")->value, facts->after_g, 100 * 5e-5);
    pare_craft_sheet_close(sheet);
    pare_best_set_close(set);
    json_decref(wanted);
}

static int never(void *asked)
{
    ++*(int *)asked;
    return 0;
}

static void a_search_stops_when_it_is_told(void **state)
{
    (void)state;
    pare_error err;
    pare_best_set *set = NULL;
    int asked = 0;
    if (pare_best_set_find(bench, "hedgerow", NULL, never, &asked, &set, &err) != PARE_OK)
        fail_msg("%s", err.text);
    const pare_best_facts *facts = pare_best_set_facts(set);
    assert_true(asked > 0);
    assert_true(facts->stopped && !facts->proven);
    assert_int_equal(facts->found, facts->swaps != NULL);
    assert_int_equal(!facts->found, isnan(facts->after_g));
    pare_best_set_close(set);
}

/* ---- benches ---- */

static void a_text_gives_what_its_bench_gives(void **state)
{
    (void)state;
    pare_error err;
    pare_snapshot *copy = NULL, *file = bench;
    char *text = demo_text();
    if (pare_snapshot_of_text(text, strlen(text), NULL, PARE_SOURCE_DIR "/demo", &copy, &err) !=
        PARE_OK)
        fail_msg("%s", err.text);
    assert_string_equal(pare_snapshot_money(copy), pare_snapshot_money(file));
    for (size_t i = 0; pare_snapshot_craft(file, i); i++)
        assert_string_equal(pare_snapshot_craft(copy, i), pare_snapshot_craft(file, i));
    bench = copy;
    sheet_is("thimble", NULL, NULL, "sheet thimble --json" DEMO);
    bench = file;
    pare_snapshot_close(copy);
    free(text);
}

static void what_a_text_lacks_is_noted(void **state)
{
    (void)state;
    static const char text[] =
        "{pare: 1, parts: [{id: a, kind: printed, mass: 1 g, body: {mesh: a.stl}}]}";
    pare_error err;
    pare_snapshot *one = NULL;
    if (pare_snapshot_of_text(text, sizeof text - 1, NULL, NULL, &one, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_non_null(strstr(pare_snapshot_note(one, 0), "mesh a.stl is not there"));
    assert_null(pare_snapshot_note(one, 1));
    assert_null(pare_snapshot_craft(one, 0));
    pare_snapshot_close(one);
}

static void loadouts_have_names(void **state)
{
    (void)state;
    assert_non_null(pare_snapshot_loadout(bench, "hedgerow", 0));
    assert_null(pare_snapshot_loadout(bench, "hedgerow", 99));
    assert_null(pare_snapshot_loadout(bench, "nobody", 0));
    assert_null(pare_snapshot_craft(bench, 99));
    assert_null(pare_snapshot_note(bench, 0));
}

static void what_is_no_bench_is_refused(void **state)
{
    (void)state;
    static const char part[] = "pare: 1\nparts: [{id: a, kind: motor, mas: 1 g}]\n";
    pare_error err;
    pare_snapshot *none = bench;
    assert_int_equal(pare_snapshot_open("nowhere", &none, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "no bench at nowhere; try `pare demo` or `pare import`");
    assert_null(none);
    write_text("else", "something else");
    assert_int_equal(pare_snapshot_open("else", &none, &err), PARE_BAD_DATA);
    assert_int_equal(pare_snapshot_of_text(part, sizeof part - 1, "mine.yaml", NULL, &none, &err),
                     PARE_UNKNOWN);
    assert_memory_equal(err.text, "mine.yaml:2:30:", 15);
    assert_null(none);
    pare_snapshot_close(NULL);
    pare_craft_sheet_close(NULL);
    pare_swap_list_close(NULL);
    pare_best_set_close(NULL);
}

/* ---- whatever else the process does ---- */

typedef struct asked {
    pthread_t thread;
    double grams, swaps;
} asked;

static void *ask(void *context)
{
    asked *a = context;
    pare_craft_sheet *sheet = NULL;
    pare_swap_list *list = NULL;
    if (pare_craft_sheet_compute(bench, "hedgerow", NULL, "bumper=off", &sheet, NULL) == PARE_OK)
        a->grams = pare_craft_sheet_find(sheet, "all_up_g")->value;
    if (pare_swap_list_find(bench, "hedgerow", NULL, NULL, &list, NULL) == PARE_OK)
        for (size_t i = 0; pare_swap_list_row(list, i); i++)
            a->swaps += pare_swap_list_row(list, i)->grams;
    pare_craft_sheet_close(sheet);
    pare_swap_list_close(list);
    return NULL;
}

static void threads_that_ask_the_same_bench_hear_the_same(void **state)
{
    (void)state;
    enum { THREADS = 4 };
    asked one[THREADS] = {{.grams = 0}}, alone = {.grams = 0};
    ask(&alone);
    for (int i = 0; i < THREADS; i++)
        assert_int_equal(pthread_create(&one[i].thread, NULL, ask, &one[i]), 0);
    for (int i = 0; i < THREADS; i++)
        pthread_join(one[i].thread, NULL);
    assert_true(alone.grams > 100);
    for (int i = 0; i < THREADS; i++) {
        assert_true(one[i].grams == alone.grams);
        assert_true(one[i].swaps == alone.swaps);
    }
}

/* A locale of our own making: not every machine has one with a decimal comma. */
static void a_decimal_comma_changes_nothing(void **state)
{
    (void)state;
    static const char made[] =
        "LC_NUMERIC\ndecimal_point \"<U002C>\"\nthousands_sep \"\"\ngrouping -1\nEND LC_NUMERIC\n";
    write_text("comma.src", made);
    assert_int_equal(mkdir("locales", 0700), 0);
    if (system("localedef -c -i comma.src ./locales/comma >localedef.txt 2>&1") == -1)
        fail_msg("localedef does not start");
    setenv("LOCPATH", "locales", 1);
    assert_non_null(setlocale(LC_NUMERIC, "comma"));
    char number[8];
    snprintf(number, sizeof number, "%.1f", 0.5);
    assert_string_equal(number, "0,5");
    pare_snapshot *here = bench, *again = NULL;
    pare_error err;
    if (pare_snapshot_open("data/pare/demo.sqlite", &again, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_swap_list *comma = NULL, *point = NULL;
    assert_int_equal(pare_swap_list_find(again, "hedgerow", NULL, NULL, &comma, NULL), PARE_OK);
    snprintf(number, sizeof number, "%.1f", 0.5);
    assert_string_equal(number, "0,5"); /* and it is as it was */
    assert_non_null(setlocale(LC_NUMERIC, "C"));
    unsetenv("LOCPATH");
    assert_int_equal(pare_swap_list_find(here, "hedgerow", NULL, NULL, &point, NULL), PARE_OK);
    size_t i = 0;
    for (; pare_swap_list_row(point, i); i++) {
        assert_string_equal(pare_swap_list_row(comma, i)->id, pare_swap_list_row(point, i)->id);
        assert_string_equal(pare_swap_list_row(comma, i)->to, pare_swap_list_row(point, i)->to);
        assert_true(pare_swap_list_row(comma, i)->grams == pare_swap_list_row(point, i)->grams);
    }
    assert_null(pare_swap_list_row(comma, i));
    pare_swap_list_close(comma);
    pare_swap_list_close(point);
    pare_snapshot_close(again);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_sheet_is_that_of_the_program),
        cmocka_unit_test(a_sheet_with_swaps_in_a_loadout_is_that_of_the_program),
        cmocka_unit_test(what_no_craft_has_is_refused_in_the_programs_words),
        cmocka_unit_test(swaps_are_those_of_the_program),
        cmocka_unit_test(a_wish_that_is_none_is_refused),
        cmocka_unit_test(the_best_set_is_that_of_the_program),
        cmocka_unit_test(a_search_stops_when_it_is_told),
        cmocka_unit_test(a_text_gives_what_its_bench_gives),
        cmocka_unit_test(what_a_text_lacks_is_noted),
        cmocka_unit_test(loadouts_have_names),
        cmocka_unit_test(what_is_no_bench_is_refused),
        cmocka_unit_test(threads_that_ask_the_same_bench_hear_the_same),
        cmocka_unit_test(a_decimal_comma_changes_nothing),
    };
    return cmocka_run_group_tests(tests, open_bench, close_bench);
}
