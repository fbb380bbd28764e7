/* lists_out.c: what is exported comes back: JSON whole, CSV as far as a flat list goes. */
#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define OWN   " --bench own.sqlite"
#define OTHER " --bench other.sqlite"

static int fresh(void **state)
{
    (void)state;
    remove("own.sqlite");
    remove("other.sqlite");
    return 0;
}

static char *out_of(const char *line)
{
    ran r = run(line);
    if (r.status != 0)
        fail_msg("pare %s: %s", line, r.err);
    free(r.err);
    return r.out;
}

static void same(const char *one, const char *two)
{
    char *first = out_of(one), *second = out_of(two);
    if (strcmp(first, second) != 0)
        fail_msg("pare %s and pare %s differ", one, two);
    free(first);
    free(second);
}

static void a_bench_as_json_comes_back_byte_for_byte(void **state)
{
    (void)state;
    run_quietly("export -o all.json" DEMO);
    json_t *all = json_load_file("all.json", 0, NULL);
    assert_non_null(all);
    assert_int_equal(json_integer_value(json_object_get(all, "pare")), 1);
    const json_t *part = json_array_get(json_object_get(all, "parts"), 0);
    assert_true(json_is_string(json_object_get(json_object_get(part, "mass"), "value")));
    assert_true(json_is_number(json_object_get(part, "owned")));
    json_decref(all);
    run_quietly("import all.json" OTHER);
    same("export" OTHER, "export" DEMO);
    same("export --as json" OTHER, "export --as json" DEMO);
}

static void parts_as_csv_come_back_as_the_same_list(void **state)
{
    (void)state;
    ran r = run("export -o parts.csv" DEMO);
    assert_int_equal(r.status, 0);
    assert_string_equal(r.out, "parts.csv written\n");
    assert_non_null(strstr(r.err, "pare: left out, since a list is flat: body of 99, "));
    ran_free(&r);
    run_quietly("import parts.csv" OTHER);
    same("export --as csv" OTHER, "export --as csv" DEMO);
    /* Whatever has a place in a list has the same text again. */
    char *was = out_of("export" DEMO), *is = out_of("export" OTHER);
    size_t parts = 0;
    for (char *line = strtok(is, "\n"); line; line = strtok(NULL, "\n")) {
        parts += strncmp(line, "- id:", 5) == 0 || strncmp(line, "- {id:", 6) == 0;
        if (strstr(line, "kind: propeller,") && !strstr(was, line))
            fail_msg("not what it was: %s", line);
    }
    assert_int_equal(parts, 203);
    free(was);
    free(is);
}

/* A camera that was weighed and then sold: its reading stays, and must come back from each form. What the craft
 * never had is refused, and nothing of it is taken in. */
static void what_a_craft_has_no_longer_comes_back_and_what_it_never_had_does_not(void **state)
{
    (void)state;
    static const char mark[] = "gone.action_camera";
    static const char *const forms[] = {"all.yaml", "all.json"};
    run_quietly("export -o first.yaml" DEMO);
    run_quietly("import first.yaml" OWN);
    run_quietly("craft change hedgerow action_camera=off runs.film_wire=off" OWN);
    char line[80];
    for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
        remove("other.sqlite");
        snprintf(line, sizeof line, "export -o %s" OWN, forms[i]);
        run_quietly(line);
        char *text = whole_file(forms[i]);
        assert_non_null(strstr(text, mark));
        free(text);
        snprintf(line, sizeof line, "import %s" OTHER, forms[i]);
        run_quietly(line);
        same("export" OTHER, "export" OWN);
    }
    run_quietly("export --as weigh_ins -o w.csv" OWN);
    /* Once more in changes nothing, and the mark is of the text alone: what is said of it names the thing. */
    run_quietly("import w.csv" OTHER);
    same("export" OTHER, "export" OWN);
    char *said = out_of("weigh hedgerow --all" OTHER);
    assert_null(strstr(said, mark));
    free(said);
    write_text("w.csv", "craft,date,of,reads\nhedgerow,2026-10-01,frame 1,118 g\n"
                        "hedgerow,2026-10-01,moter 4,130 g\n");
    run_refuses("import w.csv --as weigh_ins" OTHER, 2,
                "pare: w.csv:3:3: 'of': nothing 'moter' on hedgerow; is it 'motor'? (--keep-good "
                "takes the other rows)\n");
    same("export" OTHER, "export" OWN);
}

static void records_as_csv_are_known_again(void **state)
{
    (void)state;
    static const struct {
        const char *out, *in, *says;
    } lists[] = {
        {"export --as weigh_ins -o w.csv" DEMO, "import w.csv --json" DEMO, "weigh_ins"},
        {"export --as flights -o f.csv" DEMO, "import f.csv --json" DEMO, "flights"},
        {"export --as stand -o s.csv" DEMO, "import s.csv --json" DEMO, "stand"},
    };
    char *before = out_of("export" DEMO);
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        run_quietly(lists[i].out);
        run_quietly(lists[i].in);
    }
    char *after = out_of("export" DEMO);
    assert_string_equal(after, before);
    free(after);
    free(before);
    char *text = read_file("w.csv");
    assert_int_equal(
        strncmp(text,
                "craft,date,scale,of,loadout,reads (g),promise\r\n"
                "hedgerow,2026-04-11,letters,\"motor 4, joint.motor_base 16\",,153.7,152.31 g .. "
                "154.81 g\r\n",
                strlen("craft,date,scale,of,loadout,reads (g),promise\r\nhedgerow,2026-04-11,"
                       "letters,\"motor 4, joint.motor_base 16\",,153.7,152.31 g .. 154.81 g\r\n")),
        0);
    free(text);
}

static void a_cell_is_quoted_and_keeps_its_own_unit(void **state)
{
    (void)state;
    write_text(
        "odd.yaml",
        "pare: 1\nparts:\n"
        "- {id: a, kind: pad, maker: 'Teasel, \"Works\" & Sons', mass: 3.10 g, note: '#1'}\n"
        "- {id: b, kind: pad, mass: {value: 0.4 oz, u: 0.1 g, known: weighed}, owned: 2}\n"
        "- {id: c, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}, "
        "price: {each: 3.20, sold_in: 4, shipping: 4.50, seller: H\xC3\xA9l\xC3\xA8ne}}\n"
        "- {id: d, kind: motor, spec: {kv: 1750, stator: 22 mm x 7 mm, volts: 11 V .. 25 V}, "
        "fits: {bolt_circle: [16 mm, 19 mm], thread: M3}}\n");
    run_quietly("import odd.yaml" OWN);
    char *csv = out_of("export --as csv" OWN);
    assert_string_equal(
        csv,
        "id,kind,maker,mass (g),mass_u (g),known,price,sold_in,shipping,seller,owned,stator,kv,"
        "volts,diameter (in),pitch (in),blades,bolt_circle,thread,note\r\n"
        "a,pad,\"Teasel, \"\"Works\"\" & Sons\",3.10,,,,,,,,,,,,,,,,\"#1\"\r\n"
        "b,pad,,0.4 oz,0.1,weighed,,,,,2,,,,,,,,,\r\n"
        "c,propeller,,,,,3.20,4,4.50,H\xC3\xA9l\xC3\xA8ne,,,,,5.1,4.3,3,,,\r\n"
        "d,motor,,,,,,,,,,22 mm x 7 mm,1750,11 V .. 25 V,,,,16 mm x 19 mm,M3,\r\n");
    free(csv);
    run_quietly("export -o odd.csv" OWN);
    run_quietly("import odd.csv" OTHER);
    char *was = out_of("export" OWN), *is = out_of("export" OTHER);
    /* Entries are in the list's order, which for d is not as typed. */
    assert_non_null(strstr(is,
                           "- {id: a, kind: pad, maker: \"Teasel, \\\"Works\\\" & Sons\", mass: "
                           "3.10 g, note: \"#1\"}\n"));
    assert_non_null(strstr(is, "- {id: b, kind: pad, mass: {value: 0.4 oz, u: 0.1 g, known: "
                               "weighed}, owned: 2}\n"));
    assert_non_null(strstr(is, "fits: {bolt_circle: [16 mm, 19 mm], thread: M3}"));
    assert_non_null(strstr(was, "sold_in: 4, shipping: 4.50"));
    assert_non_null(strstr(is, "sold_in: 4, shipping: 4.50"));
    free(is);
    free(was);
    same("export --as csv" OTHER, "export --as csv" OWN);
}

static void stand_tables_in_two_units_are_no_list(void **state)
{
    (void)state;
    run_quietly("export -o all.yaml" DEMO);
    run_quietly("import all.yaml" OTHER);
    write_text("t.yaml", "pare: 1\nstand_tables:\n- {motor: mo-2207-2750, propeller: pr-51-43, "
                         "columns: {volts: V, current: A, thrust: N}, rows: [[15.8, 8.6, 4.1], "
                         "[14.9, 43, 11.9]]}\n");
    run_quietly("import t.yaml" OTHER);
    ran r = run("export --as stand" OTHER);
    assert_int_equal(r.status, 3);
    assert_string_equal(r.out, "");
    assert_non_null(strstr(r.err, "of which a list can only say one; right would be YAML or JSON"));
    ran_free(&r);
}

static void a_form_is_known_by_its_name(void **state)
{
    (void)state;
    write_text("a.yaml", "pare: 1\nparts: [{id: a, kind: pad, mass: 1 g}]\n");
    run_quietly("import a.yaml" OWN);
    run_refuses("export --as jsn" OWN, 2, "pare: --as 'jsn'; did you mean json?\n");
    run_refuses("export --as xlsx" OWN, 2,
                "pare: --as 'xlsx'; right would be yaml, json, csv, weigh_ins, flights or stand\n");
    same("export --as yaml" OWN, "export" OWN);
    same("export --as parts" OWN, "export --as csv" OWN);
    char *none = out_of("export --as flights" OWN);
    assert_string_equal(none, "craft,date\r\n");
    free(none);
    json_t *said = run_json("export --as csv -o x.txt --json" OWN);
    assert_string_equal(json_string_value(json_object_get(said, "file")), "x.txt");
    json_decref(said);
    char *text = read_file("x.txt");
    assert_string_equal(text, "id,kind,mass (g)\r\na,pad,1\r\n");
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_bench_as_json_comes_back_byte_for_byte, fresh),
        cmocka_unit_test_setup(parts_as_csv_come_back_as_the_same_list, fresh),
        cmocka_unit_test_setup(what_a_craft_has_no_longer_comes_back_and_what_it_never_had_does_not,
                               fresh),
        cmocka_unit_test_setup(records_as_csv_are_known_again, fresh),
        cmocka_unit_test_setup(a_cell_is_quoted_and_keeps_its_own_unit, fresh),
        cmocka_unit_test_setup(stand_tables_in_two_units_are_no_list, fresh),
        cmocka_unit_test_setup(a_form_is_known_by_its_name, fresh),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
