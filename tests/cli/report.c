/* report.c: `pare report`: what is written, what is said, and what is left alone when it fails. */
#include "pdf_pages.h"
#include "run.h"

#include <expat.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { MOST_PAGES = 99 };

/* Bytes with their length: a PNG holds zeros. */
typedef struct bytes {
    unsigned char *at;
    size_t length;
} bytes;

static bytes read_bytes(const char *name)
{
    bytes b = {.at = malloc(1 << 23)};
    FILE *file = fopen(name, "rb");
    if (!file)
        fail_msg("%s is not there", name);
    assert_non_null(b.at);
    b.length = fread(b.at, 1, 1 << 23, file);
    fclose(file);
    return b;
}

static void assert_same_files(const char *one, const char *two)
{
    bytes a = read_bytes(one), b = read_bytes(two);
    assert_int_equal(a.length, b.length);
    assert_memory_equal(a.at, b.at, a.length);
    free(a.at);
    free(b.at);
}

static void assert_well_formed(const char *name)
{
    bytes b = read_bytes(name);
    XML_Parser parser = XML_ParserCreate(NULL);
    if (XML_Parse(parser, (const char *)b.at, (int)b.length, 1) != XML_STATUS_OK)
        fail_msg("%s:%lu: %s", name, XML_GetCurrentLineNumber(parser),
                 XML_ErrorString(XML_GetErrorCode(parser)));
    XML_ParserFree(parser);
    free(b.at);
}

static void each_craft_and_loadout_becomes_a_picture(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "report hedgerow -o x.svg" DEMO,
        "report thimble -o x.svg" DEMO,
        "report drover -o x.svg" DEMO,
        "report bodkin -o x.svg" DEMO,
        "report hedgerow -o x.svg --loadout light" DEMO,
        "report hedgerow --output=x.SVG --try bumper=off --try tower=ti-100" DEMO};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        ran r = run(lines[i]);
        assert_string_equal(r.err, "");
        assert_int_equal(r.status, 0);
        const char *name = strstr(lines[i], "SVG") ? "x.SVG" : "x.svg";
        assert_non_null(strstr(r.out, name));
        assert_well_formed(name);
        remove(name);
        ran_free(&r);
    }
}

static void what_is_written_is_said(void **state)
{
    (void)state;
    ran r = run("report hedgerow -o x.png" DEMO);
    assert_int_equal(r.status, 0);
    assert_golden("report", r.out);
    ran_free(&r);
    bytes b = read_bytes("x.png");
    assert_memory_equal(b.at, "\x89PNG\r\n\x1a\n", 8);
    /* ISO/IEC 15948: width and height stand at 16 and 20. A4 at 8 dots a millimetre. */
    assert_int_equal(b.at[18] << 8 | b.at[19], 210 * 8);
    assert_int_equal(b.at[22] << 8 | b.at[23], 297 * 8);
    assert_memory_equal(b.at + b.length - 8, "IEND", 4);
    free(b.at);
}

static void the_same_craft_gives_the_same_bytes(void **state)
{
    (void)state;
    static const char *const endings[] = {"svg", "png", "pdf", "html", "xlsx"};
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++) {
        char line[128], one[16], two[16];
        for (int k = 1; k <= 2; k++) {
            snprintf(line, sizeof line, "report thimble -o %d.%s --try bumper=off" DEMO, k,
                     endings[i]);
            ran r = run(line);
            assert_int_equal(r.status, 0);
            ran_free(&r);
        }
        snprintf(one, sizeof one, "1.%s", endings[i]);
        snprintf(two, sizeof two, "2.%s", endings[i]);
        assert_same_files(one, two);
    }
}

static const json_t *named(const json_t *list, const char *name)
{
    size_t i;
    const json_t *one;
    json_array_foreach(list, i, one) if (strcmp(json_string_value(json_object_get(one, "name")),
                                                name) == 0) return one;
    fail_msg("nothing is named '%s'", name);
    return NULL;
}

static void json_has_the_file_and_the_points_of_every_curve(void **state)
{
    (void)state;
    static const struct {
        const char *name, *x, *y;
    } curves[] = {{"minutes", "all_up_g", "flown_min"},
                  {"current", "speed_m_s", "pack_a"},
                  {"power", "speed_m_s", "pack_w"},
                  {"thrust", "charge_percent", "thrust_to_weight"},
                  {"volts", "charge_percent", "cell_v"}};
    json_t *report = run_json("report hedgerow -o x.svg --json" DEMO),
           *sheet = run_json("sheet hedgerow --json" DEMO);
    bytes b = read_bytes("x.svg");
    assert_int_equal(number(report, "bytes"), (double)b.length);
    free(b.at);
    assert_string_equal(json_string_value(json_object_get(report, "file")), "x.svg");
    assert_string_equal(json_string_value(json_object_get(report, "form")), "svg");
    assert_string_equal(json_string_value(json_object_get(report, "loadout")), "film");
    assert_int_equal(json_array_size(json_object_get(report, "views")), 5);
    assert_true(number(report, "scale") >= 1);
    const json_t *list = json_object_get(report, "curves");
    assert_int_equal(json_array_size(list), sizeof curves / sizeof curves[0]);
    for (size_t i = 0; i < sizeof curves / sizeof curves[0]; i++) {
        const json_t *curve = named(list, curves[i].name);
        const json_t *line = json_array_get(json_object_get(curve, "lines"), 0);
        const size_t points = json_array_size(json_object_get(line, curves[i].x));
        assert_true(points > 40);
        assert_int_equal(json_array_size(json_object_get(line, curves[i].y)), points);
        assert_true(json_array_size(json_object_get(curve, "marks")) > 0);
    }
    /* The craft's own point is the sheet's. Both have ten digits. */
    const json_t *now = named(json_object_get(named(list, "minutes"), "marks"), "now");
    assert_within(number(now, "all_up_g"), number(sheet, "all_up_g"), 1e-9);
    assert_within(number(now, "flown_min"), number(sheet, "flown_min"), 1e-9);
    json_decref(report);
    json_decref(sheet);
}

/* How often a text stands in another. */
static size_t times(const char *text, const char *wanted)
{
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, wanted)); at += strlen(wanted))
        count++;
    return count;
}

/* ISO 32000-1, 7.5.2 and 7.5.5: header, end of file; pages as another program counts them; 72 points an inch. A4 is 210 mm by
 * 297 mm (ISO 216), Letter 8.5 in by 11 in (ANSI/ASME Y14.1). */
static void a_printer_gets_pages_of_the_paper_that_it_has(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        double wide, high;
    } papers[] = {{"report hedgerow -o x.pdf --json" DEMO, 210 / 25.4 * 72, 297 / 25.4 * 72},
                  {"report hedgerow -o x.pdf --paper letter --json" DEMO, 612, 792}};
    for (size_t p = 0; p < 2; p++) {
        json_t *said = run_json(papers[p].line);
        bytes b = read_bytes("x.pdf");
        assert_true(b.length > 10000);
        assert_memory_equal(b.at, "%PDF-1.", 7);
        assert_memory_equal(b.at + b.length - 6, "%%EOF\n", 6);
        pdf_box box[MOST_PAGES];
        const size_t pages = pdf_pages("x.pdf", MOST_PAGES, box);
        assert_in_range(pages, 5, MOST_PAGES); /* drawing, margins, ledger, weigh-in over two */
        for (size_t i = 0; i < pages; i++) {
            assert_true(box[i].left == 0 && box[i].bottom == 0);
            assert_near(box[i].right, papers[p].wide, 1e-2);
            assert_near(box[i].top, papers[p].high, 1e-2);
        }
        assert_int_equal(number(said, "pages"), (double)pages);
        free(b.at);
        json_decref(said);
    }
}

/* What is asked for is in it, and what is bought is worth what the command says. */
static void a_best_set_is_in_a_document_only_on_request(void **state)
{
    (void)state;
    static const char *const titles[] = {"The best set", "Before the best set and after",
                                         "Shopping for the best set", "Cutting for the best set"};
    ran r = run("report thimble -o x.html" DEMO);
    assert_int_equal(r.status, 0);
    ran_free(&r);
    char *text = read_file("x.html");
    assert_null(strstr(text, "<h2 id=\"best\""));
    assert_non_null(strstr(text, "The best set of swaps is not in here"));
    free(text);
    json_t *said = run_json("report thimble -o x.html --best --time 60 --json" DEMO),
           *best = run_json("best thimble --json" DEMO);
    assert_well_formed("x.html");
    text = read_file("x.html");
    for (size_t i = 0; i < sizeof titles / sizeof titles[0]; i++) {
        char row[80];
        snprintf(row, sizeof row, ">%s</h2>", titles[i]);
        assert_int_equal(times(text, row), 1);
    }
    assert_null(strstr(text, "is not in here"));
    const json_t *there = json_object_get(said, "best"), *swaps = json_object_get(best, "swaps");
    assert_within(number(there, "best_g"), number(best, "best_g"), 1e-9);
    assert_true(json_is_true(json_object_get(there, "proven")));
    for (size_t i = 0; i < json_array_size(swaps); i++) {
        char row[160];
        snprintf(row, sizeof row, ">%s</td>",
                 json_string_value(json_object_get(json_array_get(swaps, i), "id")));
        if (!strstr(text, row))
            fail_msg("no %s", row);
    }
    free(text);
    json_decref(said);
    json_decref(best);
    r = run("report thimble -o x.html --best --time 0" DEMO); /* none was found, and that is said */
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "best set: none was found in the time for it\n"));
    ran_free(&r);
    text = read_file("x.html");
    assert_non_null(strstr(text, "The search was not finished"));
    free(text);
}

/* A trial of swaps is bought and cut for as pare take has it. */
static void a_trial_has_its_shopping_and_cutting_lists(void **state)
{
    (void)state;
    json_t *said = run_json("report hedgerow -o x.html --json --try run.lead.gauge=14,"
                            "joint.motor_base.material=titanium,pack=pa-4s-1100" DEMO);
    const json_t *shopping = json_object_get(said, "shopping"),
                 *cutting = json_object_get(said, "cutting");
    assert_int_equal(json_array_size(json_object_get(shopping, "parts")), 1);
    assert_int_equal(json_array_size(json_object_get(shopping, "screws")), 1);
    assert_int_equal(json_array_size(json_object_get(shopping, "wires")), 1);
    assert_int_equal(json_array_size(json_object_get(cutting, "wires")), 1);
    char *text = read_file("x.html"), money[64];
    snprintf(money, sizeof money, "<td class=\"n\">%.2f</td></tr>", number(shopping, "money"));
    assert_non_null(strstr(strstr(text, "id=\"shopping\""), money));
    assert_int_equal(times(text, "For run.lead.gauge=14,joint.motor_base.material=titanium,"
                                 "pack=pa-4s-1100. "),
                     2);
    free(text);
    json_decref(said);
}

/* The sheet's JSON is the other way to the same margins and lines. */
static void a_document_holds_every_margin_and_every_line_of_the_sheet(void **state)
{
    (void)state;
    static const char *const craft[] = {"hedgerow", "bodkin", "thimble", "drover"};
    for (size_t i = 0; i < sizeof craft / sizeof craft[0]; i++) {
        char line[128];
        snprintf(line, sizeof line, "report %s -o x.html --json" DEMO, craft[i]);
        json_t *report = run_json(line);
        snprintf(line, sizeof line, "sheet %s --json" DEMO, craft[i]);
        json_t *sheet = run_json(line);
        assert_string_equal(json_string_value(json_object_get(report, "form")), "html");
        assert_well_formed("x.html");
        char *text = read_file("x.html");
        assert_int_equal(number(report, "bytes"), (double)strlen(text));
        assert_int_equal(times(text, "<td class=\"wall\">"),
                         json_array_size(json_object_get(sheet, "margins")));
        const json_t *ledger = json_object_get(sheet, "ledger");
        assert_true(json_array_size(ledger) > 10);
        for (size_t k = 0; k < json_array_size(ledger); k++) {
            char row[128];
            snprintf(row, sizeof row, "<tr><th scope=\"row\">%s</th>",
                     json_string_value(json_object_get(json_array_get(ledger, k), "name")));
            if (!strstr(text, row))
                fail_msg("%s: no row %s", craft[i], row);
        }
        free(text);
        json_decref(report);
        json_decref(sheet);
    }
}

/* Nothing that a browser would fetch or run. Namespaces are names, not addresses. */
static void a_document_asks_for_nothing_outside_itself(void **state)
{
    (void)state;
    ran r = run("report hedgerow -o x.html" DEMO);
    assert_int_equal(r.status, 0);
    ran_free(&r);
    char *text = read_file("x.html");
    static const char *const fetches[] = {"<script", "<link",    "<img",  "<iframe", " src=",
                                          "@import", "href=\"h", "url(h", "url(/",   "onload"};
    for (size_t i = 0; i < sizeof fetches / sizeof fetches[0]; i++)
        assert_int_equal(times(text, fetches[i]), 0);
    assert_int_equal(times(text, "default-src 'none'"), 1);
    free(text);
}

static void a_craft_of_which_nothing_is_known_becomes_a_picture(void **state)
{
    (void)state;
    ran r = run("craft start blank --bench blank.sqlite");
    assert_int_equal(r.status, 0);
    ran_free(&r);
    r = run("report blank -o blank.svg --bench blank.sqlite");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "drawn as usual for the kind"));
    assert_non_null(strstr(r.out, "drawn where the kind usually sits"));
    ran_free(&r);
    assert_well_formed("blank.svg");
}

static void what_cannot_be_written_is_said_in_one_line(void **state)
{
    (void)state;
    static const struct {
        int status;
        const char *line;
    } wrong[] = {
        {3, "report hedgerow" DEMO},
        {3, "report -o x.svg" DEMO},
        {3, "report hedgerow thimble -o x.svg" DEMO},
        {3, "report hedgerow -o" DEMO},
        {3, "report hedgerow -o x.doc" DEMO},
        {3, "report hedgerow -o x" DEMO},
        {3, "report hedgerow -o .svg" DEMO},
        {3, "report hedgerow -o -" DEMO},
        {3, "report hedgerow -o folder.svg" DEMO},
        {3, "report hedgerow -o x.svg --best" DEMO},
        {3, "report hedgerow -o x.pdf --time 5" DEMO},
        {3, "report hedgerow -o x.pdf --best --time soon" DEMO},
        {3, "report hedgerow -o x.pdf --best --try bumper=off" DEMO},
        {3, "report hedgerow -o x.pdf --paper a3" DEMO},
        {4, "report hedgerow -o nowhere/x.svg" DEMO},
        {4, "report hedgerow -o nowhere/x.pdf" DEMO},
        {4, "report hedgerow -o nowhere/x.xlsx" DEMO},
        {4, "report hedgerow -o kept.txt/x.svg" DEMO},
        {2, "report hedgrow -o x.svg" DEMO},
        {2, "report hedgerow -o x.svg --loadout rice" DEMO},
        {2, "report hedgerow -o x.svg --try bumper=of" DEMO},
        {2, "report hedgerow -o x.svg --all" DEMO},
        {3, "report hedgerow -o x.svg --bench gone.sqlite"},
    };
    char *all = calloc(1, 1 << 15);
    assert_non_null(all);
    assert_int_equal(mkdir("folder.svg", 0700), 0);
    write_text("kept.txt", "kept");
    remove("x.svg");
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        ran r = run(wrong[i].line);
        if (r.status != wrong[i].status)
            fail_msg("pare %s: exit status %d, wanted %d\n%s", wrong[i].line, r.status,
                     wrong[i].status, r.err);
        assert_string_equal(r.out, "");
        const char *end = strchr(r.err, '\n');
        assert_true(end && !end[1]);
        assert_int_equal(access("x.svg", F_OK), -1);
        snprintf(all + strlen(all), (1 << 15) - strlen(all), "$ pare %s\n[%d] %s", wrong[i].line,
                 r.status, r.err);
        ran_free(&r);
    }
    assert_golden("wrong-report", all);
    free(all);
    rmdir("folder.svg");
}

/* A failed report leaves the picture that was there, and nothing beside it. */
static void a_report_that_fails_leaves_the_old_picture(void **state)
{
    (void)state;
    assert_int_equal(mkdir("kept", 0700), 0);
    write_text("kept/x.svg", "old");
    assert_int_equal(chmod("kept/x.svg", 0640), 0);
    ran r = run("report hedgerow -o kept/x.svg --try bumper=gone" DEMO);
    assert_int_equal(r.status, 2);
    ran_free(&r);
    char *text = read_file("kept/x.svg");
    assert_string_equal(text, "old");
    free(text);
    r = run("report hedgerow -o kept/x.svg" DEMO);
    assert_int_equal(r.status, 0);
    ran_free(&r);
    assert_well_formed("kept/x.svg");
    struct stat facts;
    assert_int_equal(stat("kept/x.svg", &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0640); /* its rights stay */
    assert_int_equal(remove("kept/x.svg"), 0);
    assert_int_equal(rmdir("kept"), 0); /* empty: nothing was left beside */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_craft_and_loadout_becomes_a_picture),
        cmocka_unit_test(what_is_written_is_said),
        cmocka_unit_test(the_same_craft_gives_the_same_bytes),
        cmocka_unit_test(json_has_the_file_and_the_points_of_every_curve),
        cmocka_unit_test(a_printer_gets_pages_of_the_paper_that_it_has),
        cmocka_unit_test(a_best_set_is_in_a_document_only_on_request),
        cmocka_unit_test(a_trial_has_its_shopping_and_cutting_lists),
        cmocka_unit_test(a_document_holds_every_margin_and_every_line_of_the_sheet),
        cmocka_unit_test(a_document_asks_for_nothing_outside_itself),
        cmocka_unit_test(a_craft_of_which_nothing_is_known_becomes_a_picture),
        cmocka_unit_test(what_cannot_be_written_is_said_in_one_line),
        cmocka_unit_test(a_report_that_fails_leaves_the_old_picture),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
