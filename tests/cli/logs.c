/* logs.c: a flight's log from its file to the bench, what is refused of one, and what is learned from it.
 * The logs are made up; what is right of a refusal is that it names line, column and what would be right,
 * and that the bench is as it was. */
#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dice.h"

#define OF    " --set craft=hedgerow --set date=2026-04-13"
#define ALONE " --set craft=hedgerow --set date=2026-09-20"
#define HEAD  "time (s),volts (V),current (A)\n"

static char *demo_log(void)
{
    char *text = read_file(PARE_SOURCE_DIR "/demo/hover-hedgerow.csv");
    assert_non_null(text);
    return text;
}

static void a_log_joins_its_flight_once_and_goes_by_undo(void **state)
{
    (void)state;
    char *log = demo_log();
    write_text("hover.csv", log);
    free(log);
    char *before = demo_text();
    run_prints_golden("log-dry-run", "import hover.csv" OF " --dry-run" DEMO);
    char *dry = demo_text();
    assert_string_equal(dry, before);
    json_t *first = run_json("import hover.csv" OF " --json" DEMO);
    assert_string_equal(json_string_value(json_object_get(first, "taken_as")), "log");
    assert_int_equal((int)number(first, "records_added"), 1);
    char *once = demo_text();
    const char *at = strstr(once, "put_back: 860 mAh");
    assert_non_null(at);
    at = strstr(at, "  log: hover.csv\n  logged:\n    columns: {time: s, lasts: s, volts: V, ");
    assert_non_null(at);
    json_t *again = run_json("import hover.csv" OF " --json" DEMO);
    assert_int_equal((int)number(again, "records_added"), 0);
    assert_int_equal((int)number(again, "records_same"), 1);
    /* Under another name it is the same log. */
    rename("hover.csv", "other.csv");
    run_quietly("import other.csv" OF DEMO);
    char *twice = demo_text();
    assert_string_equal(twice, once);
    /* A bench's text holds all of it. */
    run_quietly("export -o bench.yaml" DEMO);
    run_quietly("import bench.yaml --bench copy.sqlite");
    run_quietly("export -o again.yaml --bench copy.sqlite");
    char *copy = read_file("again.yaml");
    assert_string_equal(copy, once);
    run_quietly("undo" DEMO);
    char *undone = demo_text();
    assert_string_equal(undone, before);
    free(undone);
    free(copy);
    free(twice);
    free(once);
    free(dry);
    free(before);
    json_decref(again);
    json_decref(first);
}

/* The demo's log was computed with a sensor of current that says 6 % too much and one of volts that says
 * 0.6 % too little (demo/README.md). */
static void the_demo_tells_how_far_its_sensors_are_off(void **state)
{
    (void)state;
    char *log = demo_log();
    write_text("hover.csv", log);
    free(log);
    run_quietly("import hover.csv" OF DEMO);
    run_prints_golden("log-learn", "learn hedgerow" DEMO);
    json_t *learned = run_json("learn hedgerow --json" DEMO);
    const json_t *factors = json_object_get(learned, "learned");
    const json_t *current = json_array_get(factors, 5), *volts = json_array_get(factors, 6);
    assert_string_equal(json_string_value(json_object_get(current, "name")), "current sensor");
    assert_near(number(current, "factor"), 1.06, 2 * number(current, "factor_u"));
    assert_true(number(current, "factor_u") < 0.02);
    assert_string_equal(json_string_value(json_object_get(volts, "name")), "voltage sensor");
    assert_near(number(volts, "factor"), 0.994, 2 * number(volts, "factor_u"));
    assert_non_null(json_object_get(json_object_get(current, "correlation"), "voltage sensor"));
    /* Its throttle was drawn to rise from 31 to 37 %. */
    const json_t *flight = json_array_get(json_object_get(learned, "flights"), 2);
    assert_near(number(flight, "logged_output"), 0.34, 0.01);
    /* What is foretold of the next hover is the sheet's. */
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    assert_near(number(learned, "hover_output"), number(sheet, "hover_output"), 1e-9);
    assert_near(number(learned, "hover_a"), number(sheet, "hover_a"), 1e-9);
    assert_near(number(learned, "hover_a_u"), number(sheet, "hover_a_u"), 1e-9);
    json_decref(sheet);
    json_decref(learned);
}

static void what_a_logger_does_every_day_is_said(void **state)
{
    (void)state;
    write_text("odd.csv", "Time;Voltage [V];Current [A]\n"
                          "23:59:58,5;16,7;0,3\n"
                          "23:59:59,5;16,5;11,0\n"
                          "00:00:00,5;16,4;11,2\n"
                          "00:00:00,5;16,4;11,1\n"
                          "00:00:01,5;;11,1\n"
                          "00:00:02,5;16,3;11,3\n"
                          "00:00:40,5;16,0;11,5\n"
                          "00:00:41,5;15,9;11,0\n"
                          "00:00:42,5;15,");
    run_prints_golden("log-odd", "import odd.csv" ALONE " --set flown=hover" DEMO);
}

/* Each is one line that names the place, and nothing goes in. */
static void what_cannot_be_a_log_is_refused_with_its_place(void **state)
{
    (void)state;
    static const struct {
        const char *log, *told, *says;
    } bad[] = {
        {HEAD "0,16,9\n1,16,9\n0.5,16,9\n2,16,9\n", ALONE,
         "bad.csv:4:1: 'time (s)': time runs back by 0.5 s from line 3; right would be one log, in "
         "the order in which it was written"},
        {HEAD "0,16,9\n1,nan,9\n2,16,9\n", ALONE,
         "bad.csv:3:2: 'volts (V)': 'nan' is no number; right would be one, or nothing where the "
         "logger had none"},
        {HEAD "0,16,9\n1,16,inf\n", ALONE, "bad.csv:3:3: 'current (A)': 'inf' is no number"},
        {HEAD "0,16,9\n1,16,9\n2;16;9\n3,16,9\n", ALONE,
         "bad.csv:4: 1 fields, but there are 3 column names; right would be as many, parted by "
         "commas"},
        {HEAD "0,16,9\n", ALONE, "bad.csv:1: a log of 1 row with volts and current"},
        {HEAD "5,16,9\n5,16,9\n5,16,9\n", ALONE,
         "bad.csv:4:1: 'time (s)': 3 rows that cover 0 s; right would be 2 s or more"},
        {HEAD, ALONE, "column names and nothing below them"},
        {"time (s),volts,current (A)\n0,16,9\n1,16,9\n", ALONE,
         "bad.csv:1:2: 'volts': no unit over this column; right would be like 'volts (V)', of"},
        {"time,volts (V),current (A)\n0,16,9\n1,16,9\n", ALONE,
         "bad.csv:2:1: 'time': '0' without a unit; right would be 'time (s)' over them"},
        {HEAD "0,16 mV,9\n1,16,9\n", ALONE,
         "bad.csv:2:2: 'volts (V)': '16 mV' in another unit than its column; right would be V"},
        {HEAD "0,16000,9\n1,16,9\n", ALONE,
         "bad.csv:2:2: 'volts (V)': 16000 V is no such reading; right would be 0 to 120 V"},
        {HEAD "0,16,9\n200000,16,9\n", ALONE,
         "bad.csv:3:1: 'time (s)': 200000 s after the first row; right would be the log of one "
         "flight"},
        {HEAD "0,16,9\n9,16,9\n", "", "bad.csv: the log of which craft? right would be --set"},
        {HEAD "0,16,9\n9,16,9\n", " --set craft=hedgerow", "bad.csv: the log of which day?"},
        {HEAD "0,16,9\n9,16,9\n", " --set craft=hedgrow --set date=2026-09-20",
         "no craft 'hedgrow' on the bench; is it 'hedgerow'?"},
        {HEAD "0,16,9\n9,16,9\n", ALONE " --set flown=hoover", "flown"},
        {HEAD "0,16,9\n9,16,9\n", ALONE " --set pack=pa-4s-1551", "no part 'pa-4s-1551'"},
        {HEAD "0,16,9\n9,16,9\n", " --set craft=hedgerow --set date=2026-04-12",
         "2 flights of hedgerow on 2026-04-12 may be the log's; right would be to say more of it"},
        {HEAD "0,16,9\n9,16,9\n", ALONE " --keep-good",
         "bad.csv is a log; --keep-good is for lists whose rows stand alone"},
        {"time (s),volts (V)\n0,16\n1,16\n", ALONE " --as log",
         "bad.csv:1: no column of current; right would be time, volts and current"},
    };
    char *before = demo_text();
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char line[200];
        write_text("bad.csv", bad[i].log);
        snprintf(line, sizeof line, "import bad.csv%s" DEMO, bad[i].told);
        ran r = run(line);
        if ((r.status != 2 && r.status != 3) || !strstr(r.err, bad[i].says) ||
            strchr(r.err, '\n') != r.err + strlen(r.err) - 1)
            fail_msg("%zu: %d, '%s'\nwanted '%s'", i, r.status, r.err, bad[i].says);
        ran_free(&r);
    }
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(before);
}

/* A text of a bench may hold anything under logged. */
static void a_logged_text_that_cannot_be_is_refused(void **state)
{
    (void)state;
    static const struct {
        const char *logged, *says;
    } bad[] = {
        {"{columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9]]}", "a log of 1 rows"},
        {"{columns: {time: s, volts: V}, rows: [[0, 16], [1, 16]]}", "without a column of current"},
        {"{columns: {time: s, volts: V, current: kg}, rows: []}", "column current in 'kg'"},
        {"{columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9], [0, 16, 9]]}", "lasts 0 s"},
        {"{columns: {time: s, lasts: s, volts: V, current: A}, rows: [[1, 1, 16, 9], [0, 1, 16, "
         "9]]}",
         "a time of 0 s after 1 s"},
        {"{columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9], [1, 900, 9]]}",
         "volts of 900 in SI; right would be 0 to 120"},
        {"{rows: [[0, 16, 9], [1, 900, 9]]}", "logged without columns"},
        {"{columns: {time: s, volts: V, current: A}, rows: [[0, 16], [1, 900, 9]]}",
         "a row of 2 numbers"},
        {"[]", "logged"},
    };
    char *text = demo_text();
    const char *at = strstr(text, "flights:\n- ");
    assert_non_null(at);
    const size_t head = (size_t)(at - text) + strlen("flights:\n- ");
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char *changed = malloc(strlen(text) + 400);
        assert_non_null(changed);
        memcpy(changed, text, head);
        sprintf(changed + head, "{craft: hedgerow, date: 2026-04-01, logged: %s}\n- %s",
                bad[i].logged, text + head);
        write_text("logged.yaml", changed);
        ran r = run("import logged.yaml" DEMO);
        if (r.status != 3 || !strstr(r.err, "logged.yaml:") || !strstr(r.err, bad[i].says))
            fail_msg("%zu: %d, '%s'\nwanted '%s'", i, r.status, r.err, bad[i].says);
        ran_free(&r);
        free(changed);
    }
    free(text);
}

/* Whatever happens to a log's bytes: it goes in or is refused in one line, and nothing crashes. */
static void torn_logs_are_taken_or_refused(void **state)
{
    (void)state;
    char *good = demo_log();
    const size_t length = strlen(good) < 3000 ? strlen(good) : 3000;
    unsigned state_of_dice = 7;
    for (int round = 0; round < 150; round++) {
        char *torn = malloc(length + 1);
        assert_non_null(torn);
        memcpy(torn, good, length);
        torn[length] = '\0';
        const unsigned tears = 1 + dice(&state_of_dice, 4);
        for (unsigned t = 0; t < tears; t++)
            torn[dice(&state_of_dice, (unsigned)length)] =
                "0123456789,;.\n-:\"e \t"[dice(&state_of_dice, 20)];
        write_text("torn.csv", torn);
        free(torn);
        ran r = run("import torn.csv" ALONE " --dry-run" DEMO);
        assert_true(r.status == 0 || r.status == 2 || r.status == 3);
        if (r.status)
            assert_ptr_equal(strchr(r.err, '\n'), r.err + strlen(r.err) - 1);
        ran_free(&r);
    }
    free(good);
}

/* Half a million rows, fifty a second. */
static void a_long_log_becomes_a_short_record(void **state)
{
    (void)state;
    FILE *file = fopen("long.csv", "w");
    assert_non_null(file);
    fputs("time (ms),volts (V),current (A)\n", file);
    for (int i = 0; i < 500000; i++)
        fprintf(file, "%d,%.2f,%d.5\n", 20 * i, 16.5 - 2e-6 * i, i < 250 ? 0 : 10);
    fclose(file);
    run_quietly("import long.csv" ALONE " --set flown=hover" DEMO);
    char *text = demo_text();
    assert_non_null(strstr(text, "  log: long.csv\n"));
    assert_true(strlen(text) < 200000);
    json_t *learned = run_json("learn hedgerow --json" DEMO);
    const json_t *flight = json_array_get(json_object_get(learned, "flights"), 12);
    /* 9,995 s of 10.5 A are 29,152 mAh: four flights' worth, and no pack holds it. */
    assert_true(json_is_false(json_object_get(flight, "fits")) ||
                json_is_false(json_object_get(flight, "log_fits")));
    json_decref(learned);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_log_joins_its_flight_once_and_goes_by_undo, fill_demo),
        cmocka_unit_test_setup(the_demo_tells_how_far_its_sensors_are_off, fill_demo),
        cmocka_unit_test_setup(what_a_logger_does_every_day_is_said, fill_demo),
        cmocka_unit_test_setup(what_cannot_be_a_log_is_refused_with_its_place, fill_demo),
        cmocka_unit_test_setup(a_logged_text_that_cannot_be_is_refused, fill_demo),
        cmocka_unit_test(torn_logs_are_taken_or_refused),
        cmocka_unit_test_setup(a_long_log_becomes_a_short_record, fill_demo),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
