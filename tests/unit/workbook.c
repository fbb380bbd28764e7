/* rooms: store craft physics base; libraries: minizip */
/* Sheets of workbooks as lists: made by hand after ECMA-376 (from memory), by another program, and by
 * nobody who means well. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "dice.h"
#include "store/workbook.h"
#include "store/workbook_inside.h"
#include "zip_of.h"

#define MAIN "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
#define REL  "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
#define WORKBOOK(settings, sheets)                                                                 \
    "<workbook xmlns='" MAIN "' xmlns:r='" REL "'>" settings "<sheets>" sheets                     \
    "</sheets></workbook>"
#define TWO                                                                                        \
    "<sheet name='Old' sheetId='7' state='hidden' r:id='rId9'/>"                                   \
    "<sheet name='Parts' sheetId='3' r:id='rId1'/><sheet name='More' sheetId='4' r:id='rId2'/>"
#define RELATIONS                                                                                  \
    "<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'>"         \
    "<Relationship Id='rId1' Type='x' Target='worksheets/sheet1.xml'/>"                            \
    "<Relationship Id='rId2' Type='x' Target='/xl/worksheets/other.xml'/></Relationships>"
#define SHEET(rows)                                                                                \
    "<worksheet xmlns='" MAIN "'><dimension ref='A1:XFD1048576'/><sheetData>" rows                 \
    "</sheetData></worksheet>"
#define STYLES                                                                                     \
    "<styleSheet xmlns='" MAIN "'><numFmts count='3'>"                                             \
    "<numFmt numFmtId='164' formatCode='0.0&quot; g&quot;'/>"                                      \
    "<numFmt numFmtId='165' formatCode='yyyy\\-mm\\-dd'/>"                                         \
    "<numFmt numFmtId='166' formatCode='#,##0.00&quot; \xe2\x82\xac&quot;'/></numFmts>"            \
    "<cellStyleXfs><xf numFmtId='9'/></cellStyleXfs>"                                              \
    "<cellXfs><xf numFmtId='0'/><xf numFmtId='164'/><xf numFmtId='165'/><xf numFmtId='14'/>"       \
    "<xf numFmtId='9'/><xf numFmtId='166'/></cellXfs></styleSheet>"
#define STRINGS                                                                                    \
    "<sst xmlns='" MAIN "'><si><t>name</t></si><si><t xml:space='preserve'>a, \"b\"</t></si>"      \
    "<si><r><t>ri</t></r><r><t>ch</t></r><rPh sb='0' eb='1'><t>read aloud</t></rPh></si>"          \
    "<si/><si><t>two\nlines</t></si></sst>"

typedef struct read_as {
    pare_arena *arena;
    pare_workbook_table table;
    pare_error err;
    pare_status status;
} read_as;

static read_as read_bytes(const char *bytes, size_t length, const char *sheet, bool comma)
{
    char path[] = "/tmp/pare-workbook-XXXXXX";
    const int made = mkstemp(path);
    assert_true(made >= 0);
    assert_int_equal(write(made, bytes, length), (ssize_t)length);
    close(made);
    read_as r = {.arena = pare_arena_open()};
    r.status = pare_workbook_read(path, sheet, comma, r.arena, &r.table, &r.err);
    unlink(path);
    /* The name of the file differs each time. */
    char *at = strstr(r.err.text, path);
    while (at) {
        memmove(at + 1, at + strlen(path), strlen(at + strlen(path)) + 1);
        *at = '@';
        at = strstr(r.err.text, path);
    }
    return r;
}

static read_as read_book(const char *workbook, const char *sheet, const char *other,
                         const char *wanted, bool comma)
{
    const zip_entry entries[] = {
        {"[Content_Types].xml", "<Types/>", 0},       {"xl/workbook.xml", workbook, 0},
        {"xl/_rels/workbook.xml.rels", RELATIONS, 0}, {"xl/styles.xml", STYLES, 0},
        {"xl/sharedStrings.xml", STRINGS, 0},         {"xl/worksheets/sheet1.xml", sheet, 0},
        {"xl/worksheets/other.xml", other, 0}};
    zip_bytes z = zip_of(sizeof entries / sizeof entries[0], entries, 6);
    const read_as r = read_bytes(z.at, z.length, wanted, comma);
    free(z.at);
    return r;
}

static read_as read_rows(const char *sheet)
{
    return read_book(WORKBOOK("", TWO), sheet, SHEET(""), NULL, false);
}

static void assert_rows(const char *sheet, const char *csv)
{
    read_as r = read_rows(sheet);
    if (r.status != PARE_OK)
        fail_msg("%s", r.err.text);
    assert_string_equal(r.table.csv, csv);
    assert_int_equal(r.table.length, strlen(csv));
    pare_arena_close(r.arena);
}

static void cells_of_every_kind_are_texts(void **state)
{
    (void)state;
    assert_rows(
        SHEET("<row r='1'><c r='A1' t='s'><v>0</v></c><c r='B1' t='inlineStr'><is><t>in"
              "</t><r><t>line</t></r></is></c><c r='D1' t='str'><f>A1</f><v>text</v></c></row>"
              "<row r='2'><c r='A2' t='s'><v>1</v></c><c r='B2' t='s'><v>2</v></c>"
              "<c r='C2' t='b'><v>1</v></c><c r='D2' t='e'><v>#N/A</v></c></row>"
              "<row r='3'><c r='A3' t='s'><v>4</v></c><c r='B3' t='s'><v>3</v></c>"
              "<c r='C3' t='b'><v>0</v></c><c r='D3' t='e'><v>#REF!</v></c></row>"),
        "name,inline,,text\n\"a, \"\"b\"\"\",rich,yes,n/a\n\"two lines\",,no,#REF!\n");
}

/* ECMA-376 part 1, 22.9.2.19: a character may stand as its number, and what only looks so has its first sign as one. */
static void characters_that_stand_as_numbers_are_read(void **state)
{
    (void)state;
    assert_rows(
        SHEET("<row><c t='str'><v>_x0041_ tab</v></c><c t='str'><v>_x005F_x0041_</v></c>"
              "<c t='inlineStr'><is><t>a_x000D_b</t></is></c>"
              "<c t='str'><v>_x00FC__x20ac_</v></c><c t='str'><v>_x004_ _x00G1_ _x0041</v></c>"
              "<c t='str'><v>_x0000__xD83D_</v></c></row>"),
        "A tab,_x0041_,\"a b\",\u00fc\u20ac,_x004_ _x00G1_ _x0041,_x0000__xD83D_\n");
}

/* 0.1 + 0.2 as spreadsheets keep it; three decimals get a fourth, so that none are thousands. */
static void numbers_are_plain_and_clear(void **state)
{
    (void)state;
    assert_rows(
        SHEET("<row><c><v>12.5</v></c><c><v>1300</v></c><c><v>0.30000000000000004</v></c>"
              "<c><v>1.234</v></c><c><v>-2.5E-3</v></c><c s='1'><v>31.5</v></c>"
              "<c s='4'><v>0.125</v></c><c s='5'><v>9.9</v></c><c s='99'><v>7</v></c></row>"),
        "12.5,1300,0.3,1.2340,-0.0025,31.5 g,12.5 %,9.9,7\n");
    read_as r =
        read_book(WORKBOOK("", TWO), SHEET("<row><c><v>12.5</v></c></row>"), SHEET(""), NULL, true);
    assert_string_equal(r.table.csv, "\"12,5\"\n");
    pare_arena_close(r.arena);
}

/* Published by a maker of spreadsheets: 1 January 2008 is day 39448 of 1900, and 1904 counts 1462 days
 * less. 1 March 1900 is day 61, since the first ones counted a 29 February. */
static void days_are_of_both_calendars(void **state)
{
    (void)state;
    assert_rows(
        SHEET("<row><c s='2'><v>39448</v></c><c s='3'><v>39448.75</v></c><c s='2'><v>1</v></c>"
              "<c s='2'><v>59</v></c><c s='2'><v>61</v></c>"
              "<c t='d'><v>2026-03-01T12:00:00</v></c><c s='2'><v>-1</v></c></row>"),
        "2008-01-01,2008-01-01,1900-01-01,1900-02-28,1900-03-01,2026-03-01,-1\n");
    read_as r = read_book(WORKBOOK("<workbookPr date1904='1'/>", TWO),
                          SHEET("<row><c s='2'><v>37986</v></c></row>"), SHEET(""), NULL, false);
    assert_string_equal(r.table.csv, "2008-01-01\n");
    pare_arena_close(r.arena);
}

static void a_line_is_the_row_of_its_number(void **state)
{
    (void)state;
    assert_rows(SHEET("<row r='3'><c r='B3'><v>1</v></c><c r='C3'><v>2</v></c></row>"
                      "<row r='4'><c r='A4' s='1'/></row><row r='6'><c r='A6'><v>3</v></c></row>"),
                "\n\n,1,2\n\n\n3,,\n");
}

static void formats_say_what_numbers_are(void **state)
{
    (void)state;
    static const struct {
        const char *code, *unit;
        pare_number_form form;
    } codes[] = {{"General", "", PARE_FORM_PLAIN},
                 {"0.0\" g\"", "g", PARE_FORM_PLAIN},
                 {"0\\ \"mAh\"", "mAh", PARE_FORM_PLAIN},
                 {"#,##0.00\\ \\m\\m", "mm", PARE_FORM_PLAIN},
                 {"0.0%", "", PARE_FORM_SHARE},
                 {"dd/mm/yyyy", "", PARE_FORM_DAY},
                 {"[$-409]d\\-mmm\\-yy;@", "", PARE_FORM_DAY},
                 {"[Red]0.00;[Blue]-0.00", "", PARE_FORM_PLAIN},
                 {"\"day \"0", "", PARE_FORM_PLAIN},
                 {"0.00\" \xe2\x82\xac\"", "", PARE_FORM_PLAIN},
                 {"0\"", "", PARE_FORM_PLAIN},
                 {"0\\", "", PARE_FORM_PLAIN},
                 {"[", "", PARE_FORM_PLAIN},
                 {"_", "", PARE_FORM_PLAIN},
                 {"0\"a very long unit that nobody has\"", "averylongunit", PARE_FORM_PLAIN},
                 {"", "", PARE_FORM_PLAIN}};
    for (size_t i = 0; i < sizeof codes / sizeof codes[0]; i++) {
        char unit[16] = "";
        const pare_number_form form = pare_workbook_form_of(codes[i].code, unit);
        if (form != codes[i].form || (i != 14 && strcmp(unit, codes[i].unit) != 0))
            fail_msg("%s: %d '%s'", codes[i].code, (int)form, unit);
        assert_true(strlen(unit) < sizeof unit);
    }
}

static void a_sheet_is_had_by_name_or_number(void **state)
{
    (void)state;
    static const struct {
        const char *wanted, *csv, *wrong;
    } asked[] = {{NULL, "1\n", NULL},
                 {"parts", "1\n", NULL},
                 {"MORE", "2\n", NULL},
                 {"2", "2\n", NULL},
                 {"Part", NULL, "@: no sheet 'Part'; did you mean 'Parts'?"},
                 {"Old", NULL, "@: no sheet 'Old'; there are 'Parts', 'More'"},
                 {"3", NULL, "@: no sheet '3'; there are 'Parts', 'More'"},
                 {"0", NULL, "@: no sheet '0'; there are 'Parts', 'More'"},
                 {"", NULL, "@: no sheet ''; there are 'Parts', 'More'"}};
    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) {
        read_as r = read_book(WORKBOOK("", TWO), SHEET("<row><c><v>1</v></c></row>"),
                              SHEET("<row><c><v>2</v></c></row>"), asked[i].wanted, false);
        assert_int_equal(r.status, asked[i].csv ? PARE_OK : PARE_UNKNOWN);
        if (asked[i].csv)
            assert_string_equal(r.table.csv, asked[i].csv);
        else
            assert_string_equal(r.err.text, asked[i].wrong);
        assert_int_equal(r.table.sheets, asked[i].csv ? 2 : 0);
        pare_arena_close(r.arena);
    }
    /* the first that has something in it */
    read_as r = read_book(WORKBOOK("", TWO), SHEET("<row r='9'><c r='A9' s='1'/></row>"),
                          SHEET("<row><c><v>2</v></c></row>"), NULL, false);
    assert_string_equal(r.table.sheet, "More");
    assert_string_equal(r.table.csv, "2\n");
    pare_arena_close(r.arena);
}

static void what_cannot_be_is_one_line_with_its_cell(void **state)
{
    (void)state;
    static const struct {
        const char *sheet, *line;
    } wrong[] = {
        {SHEET("<row r='2'><c r='C2' t='s'><v>5</v></c></row>"),
         "@#Parts: cell C2: a shared text that the workbook does not have; right would be one of "
         "its "
         "own"},
        {SHEET("<row><c t='s'><v>-1</v></c></row>"),
         "@#Parts: cell A1: a shared text that the workbook does not have; right would be one of "
         "its "
         "own"},
        {SHEET("<row><c t='s'><v>18446744073709551617</v></c></row>"),
         "@#Parts: cell A1: a shared text that the workbook does not have; right would be one of "
         "its "
         "own"},
        {SHEET("<row r='5'><c r='AB5'><f>A1*2</f></c></row>"),
         "@#Parts: cell AB5: a formula without its value; right would be the workbook saved by a "
         "spreadsheet"},
        {SHEET("<row><c><v>twelve</v></c></row>"),
         "@#Parts: cell A1: no number, though the cell says so; right would be one"},
        {SHEET("<row><c><v>1e999</v></c></row>"),
         "@#Parts: cell A1: no number, though the cell says so; right would be one"},
        {SHEET("<row r='1'><c r='XFD1'><v>1</v></c></row>"),
         "@#Parts: cell XFD1: beyond 200 columns; right would be fewer"},
        {SHEET("<row r='1'><c r='B1'><v>1</v></c><c r='A1'><v>1</v></c></row>"),
         "@#Parts: cell B1: another cell behind it that does not follow; right would be cells in "
         "order"},
        {SHEET(""), "@: no sheet with anything in it; right would be a row of column names, then a "
                    "row an entry"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        read_as r = read_rows(wrong[i].sheet);
        assert_int_equal(r.status, PARE_BAD_DATA);
        assert_string_equal(r.err.text, wrong[i].line);
        pare_arena_close(r.arena);
    }
    static const char *const refused[] = {
        SHEET("<row r='2'/><row r='1'/>"),
        SHEET("<row r='1048577'/>"),
        SHEET("<row r='0'/>"),
        SHEET("<row r='x'/>"),
        SHEET("<c><v>1</v></c>"),
        "<worksheet><sheetData><row>",
        "no XML",
        "",
        "<!DOCTYPE w [<!ENTITY a SYSTEM 'file:///etc/passwd'>]><w>&a;</w>",
        "<!DOCTYPE w [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;'>]><w>&b;</w>",
        "<w>&a;</w>",
    };
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        read_as r = read_rows(refused[i]);
        assert_int_equal(r.status, PARE_BAD_DATA);
        assert_true(strstr(r.err.text, "root:") == NULL && !strchr(r.err.text, '\n'));
        pare_arena_close(r.arena);
    }
}

static void a_workbook_that_is_none_says_so(void **state)
{
    (void)state;
    static const char old[] = "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1 an old one";
    read_as r = read_bytes(old, sizeof old - 1, NULL, false);
    assert_string_equal(r.err.text,
                        "@: an old workbook, or one with a password; right would be XLSX without");
    pare_arena_close(r.arena);
    const zip_entry model[] = {{"3D/3dmodel.model", "<model/>", 0}};
    zip_bytes z = zip_of(1, model, 6);
    r = read_bytes(z.at, z.length, NULL, false);
    assert_string_equal(r.err.text,
                        "@: no entry xl/workbook.xml in it; right would be exactly one");
    pare_arena_close(r.arena);
    free(z.at);
    /* A sheet that no relation leads to. */
    r = read_book(WORKBOOK("", "<sheet name='A' sheetId='1' r:id='rId5'/>"), SHEET(""), SHEET(""),
                  NULL, false);
    assert_string_equal(r.err.text,
                        "@: nothing says where sheet 'A' is; right would be a whole workbook");
    pare_arena_close(r.arena);
    r = read_book(WORKBOOK("", "<sheet name='A' sheetId='1'/>"), SHEET(""), SHEET(""), NULL, false);
    assert_int_equal(r.status, PARE_BAD_DATA);
    pare_arena_close(r.arena);
}

/* A million empty cells and rows cost nothing; a text beyond its limit is refused while it is unpacked. */
static void large_sheets_are_bounded(void **state)
{
    (void)state;
    pare_text sheet = {0};
    pare_text_add(&sheet, "<worksheet><sheetData>");
    for (int i = 0; i < 300000; i++)
        pare_text_add(&sheet, "<row><c s='1'/><c s='1'/></row>");
    pare_text_add(&sheet, "<row r='1048576'><c><v>1</v></c></row></sheetData></worksheet>");
    read_as r = read_rows(sheet.bytes);
    assert_int_equal(r.status, PARE_OK);
    assert_int_equal(r.table.length, 1048575 + 2);
    pare_arena_close(r.arena);
    sheet.length = 0;
    pare_text_add(&sheet, "<worksheet><sheetData><row><c t='str'><v>");
    for (int i = 0; i < 2000; i++)
        pare_text_add(&sheet, "aaaaaaaaaa");
    pare_text_add(&sheet, "</v></c></row></sheetData></worksheet>");
    r = read_rows(sheet.bytes);
    assert_string_equal(r.err.text, "@#Parts: cell A1: over 16 KiB of text; right would be less");
    pare_arena_close(r.arena);
    pare_text_free(&sheet);
}

/* Bytes of a sheet and of its texts changed at random: refused or read, and never more than that. */
static void noise_is_refused_or_read(void **state)
{
    (void)state;
    static const char sheet[] = SHEET(
        "<row r='1'><c r='A1' t='s'><v>0</v></c><c r='B1' t='inlineStr'><is><t>in</t></is></c>"
        "</row><row r='2'><c r='A2' s='2'><v>39448</v></c><c r='B2' s='1'><v>1.5</v></c></row>");
    unsigned seed = 41;
    for (int i = 0; i < 400; i++) {
        char changed[sizeof sheet];
        memcpy(changed, sheet, sizeof sheet);
        for (int k = 0; k < 1 + i % 4; k++) {
            const size_t at = dice(&seed, (unsigned)sizeof sheet - 1);
            changed[at] = (char)(1 + dice(&seed, 255));
        }
        read_as r = read_rows(changed);
        assert_true(r.status == PARE_OK || r.status == PARE_BAD_DATA);
        pare_arena_close(r.arena);
    }
}

/* What another program wrote of a list is that list. */
static void a_workbook_of_another_program_is_the_list_that_it_was(void **state)
{
    (void)state;
    static const char list[] = "name,kind,weight (g),bought,note\n"
                               "Sorrel 22,motor,31.5,2026-03-01,\"a, b\"\n"
                               "Low,capacitor,1.25,1999-12-31,\xc3\xbc\n";
    char folder[] = "/tmp/pare-office-XXXXXX", line[400], path[80];
    if (system("command -v soffice >/dev/null 2>&1") != 0) {
        if (getenv("CI"))
            fail_msg("no soffice; right would be libreoffice-calc-nogui installed");
        skip();
    }
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/list.csv", folder);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(list, file);
    fclose(file);
    /* UTF-8; the third column as text is not wanted: all as the program sees them. */
    snprintf(line, sizeof line,
             "cd '%s' && HOME='%s' timeout 240 soffice -env:UserInstallation=file://%s/profile "
             "--headless --infilter='Text - txt - csv (StarCalc):44,34,76,1' --convert-to xlsx "
             "list.csv >soffice.log 2>&1",
             folder, folder, folder);
    assert_int_equal(system(line), 0);
    snprintf(path, sizeof path, "%s/list.xlsx", folder);
    pare_arena *arena = pare_arena_open();
    pare_workbook_table table;
    pare_error err = {0};
    if (pare_workbook_read(path, NULL, false, arena, &table, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_string_equal(table.sheet, "list");
    assert_string_equal(table.csv, list);
    pare_arena_close(arena);
    snprintf(line, sizeof line, "rm -rf '%s'", folder);
    assert_int_equal(system(line), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cells_of_every_kind_are_texts),
        cmocka_unit_test(characters_that_stand_as_numbers_are_read),
        cmocka_unit_test(numbers_are_plain_and_clear),
        cmocka_unit_test(days_are_of_both_calendars),
        cmocka_unit_test(a_line_is_the_row_of_its_number),
        cmocka_unit_test(formats_say_what_numbers_are),
        cmocka_unit_test(a_sheet_is_had_by_name_or_number),
        cmocka_unit_test(what_cannot_be_is_one_line_with_its_cell),
        cmocka_unit_test(a_workbook_that_is_none_says_so),
        cmocka_unit_test(large_sheets_are_bounded),
        cmocka_unit_test(noise_is_refused_or_read),
        cmocka_unit_test(a_workbook_of_another_program_is_the_list_that_it_was),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
