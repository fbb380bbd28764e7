/* report.c: `pare report`: what is written, what is said, and what is left alone when it fails. */
#include "run.h"

#include <expat.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

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
    static const char *const endings[] = {"svg", "png", "pdf"};
    for (size_t i = 0; i < 3; i++) {
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

/* ISO 32000-1, 7.5.2, 7.5.5 and 14.3.3: header, end of file; A4 is 210 mm by 297 mm at 72 an inch. */
static void a_printer_gets_one_page_of_a4(void **state)
{
    (void)state;
    ran r = run("report hedgerow -o x.pdf" DEMO);
    assert_string_equal(r.err, "");
    assert_int_equal(r.status, 0);
    ran_free(&r);
    bytes b = read_bytes("x.pdf");
    assert_true(b.length > 10000);
    assert_memory_equal(b.at, "%PDF-1.", 7);
    assert_memory_equal(b.at + b.length - 6, "%%EOF\n", 6);
    size_t pages = 0, box = 0;
    for (size_t i = 0; i + 16 < b.length; i++) {
        double wide = 0, high = 0;
        char near[64] = "";
        if (memcmp(b.at + i, "/Type /Page\n", 12) == 0 || memcmp(b.at + i, "/Type /Page ", 12) == 0)
            pages++;
        if (memcmp(b.at + i, "/MediaBox", 9) != 0 || i + sizeof near > b.length)
            continue;
        memcpy(near, b.at + i, sizeof near - 1);
        if (sscanf(near, "/MediaBox [ 0 0 %lf %lf", &wide, &high) == 2) {
            assert_true(wide > 595.2 && wide < 595.3 && high > 841.8 && high < 841.9);
            box++;
        }
    }
    assert_int_equal(box, 1);
    assert_int_equal(pages, 1);
    free(b.at);
}

/* How often a text stands in another. */
static size_t times(const char *text, const char *wanted)
{
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, wanted)); at += strlen(wanted))
        count++;
    return count;
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
        {4, "report hedgerow -o nowhere/x.svg" DEMO},
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
        cmocka_unit_test(a_printer_gets_one_page_of_a4),
        cmocka_unit_test(a_document_holds_every_margin_and_every_line_of_the_sheet),
        cmocka_unit_test(a_document_asks_for_nothing_outside_itself),
        cmocka_unit_test(a_craft_of_which_nothing_is_known_becomes_a_picture),
        cmocka_unit_test(what_cannot_be_written_is_said_in_one_line),
        cmocka_unit_test(a_report_that_fails_leaves_the_old_picture),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
