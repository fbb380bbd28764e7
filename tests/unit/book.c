/* rooms: show store advise craft physics base */
/* Workbooks, recalculated by another program: LibreOffice reads the file, computes each formula anew and
 * writes what it got as text. Without it the tests are skipped, but not where CI is set. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bench_of.h"
#include "near.h"
#include "show/book.h"
#include "show/report_tables.h"
#include "store/bench.h"
#include "store/disk.h"
#include "store/workbook_whole.h"

typedef struct house {
    char folder[64];
    pare_bench *bench;
    pare_arena *arena;
} house;

static int setup(void **state)
{
    house *h = calloc(1, sizeof *h);
    if (!h)
        return -1;
    strcpy(h->folder, "/tmp/pare-book-XXXXXX");
    if (!mkdtemp(h->folder))
        return -1;
    h->bench = bench_of("../../demo/bench.yaml");
    h->arena = pare_arena_open();
    *state = h;
    return 0;
}

static int teardown(void **state)
{
    house *h = *state;
    char line[128];
    snprintf(line, sizeof line, "rm -rf '%s'", h->folder);
    const int left = system(line);
    pare_arena_close(h->arena);
    pare_bench_close(h->bench);
    free(h);
    return left;
}

/* ---- another program ---- */

/* Its settings: a workbook is computed anew when it is read, whoever wrote it. */
static const char always[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<oor:items xmlns:oor=\"http://openoffice.org/2001/registry\">"
    "<item oor:path=\"/org.openoffice.Office.Calc/Formula/Load\">"
    "<prop oor:name=\"OOXMLRecalcMode\" oor:op=\"fuse\"><value>0</value></prop></item>"
    "</oor:items>\n";

/* Every sheet of book.xlsx as book-SHEET.csv; false: the program is not there. */
static bool recalculated(const house *h)
{
    char path[160], line[512];
    if (system("command -v soffice >/dev/null 2>&1") != 0) {
        if (getenv("CI"))
            fail_msg("no soffice; right would be libreoffice-calc-nogui installed");
        return false;
    }
    snprintf(path, sizeof path, "%s/profile/user/registrymodifications.xcu", h->folder);
    assert_int_equal(pare_disk_folders(path, NULL), PARE_OK);
    pare_error err = {0};
    if (pare_disk_replace(path, always, sizeof always - 1, &err) != PARE_OK)
        fail_msg("%s", err.text);
    /* 44: comma, 34: quote, 76: UTF-8, 1: first line; then: no quotes for all, values as they are and not
     * as shown, no formulas, no blanks taken off, -1: every sheet. */
    snprintf(line, sizeof line,
             "cd '%s' && HOME='%s' timeout 240 soffice -env:UserInstallation=file://%s/profile "
             "--headless --convert-to "
             "'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1' "
             "book.xlsx >soffice.log 2>&1",
             h->folder, h->folder, h->folder);
    assert_int_equal(system(line), 0);
    return true;
}

enum { ROWS = 400, FIELDS = 20 };

/* A sheet's cells, as texts. */
typedef struct grid {
    size_t rows;
    char *at[ROWS][FIELDS], *text;
} grid;

/* RFC 4180; fields are cut off in place. */
static void read_grid(const house *h, const char *sheet, grid *g)
{
    char path[200];
    const char *bytes = NULL;
    size_t length = 0;
    pare_error err = {0};
    snprintf(path, sizeof path, "%s/book-%s.csv", h->folder, sheet);
    if (pare_disk_read(path, 1 << 20, h->arena, &bytes, &length, &err) != PARE_OK)
        fail_msg("%s", err.text);
    memset(g, 0, sizeof *g);
    char *from = pare_arena_copy(h->arena, bytes, length), *to = from;
    size_t field = 0;
    bool quoted = false;
    g->at[0][0] = to;
    for (; *from; from++) {
        if (*from == '"' && quoted && from[1] == '"') {
            *to++ = *from++;
        } else if (*from == '"') {
            quoted = !quoted;
        } else if ((*from == ',' || *from == '\n') && !quoted) {
            const bool row = *from == '\n';
            *to++ = '\0';
            field = row ? 0 : field + 1;
            g->rows += row;
            assert_true(g->rows < ROWS && field < FIELDS);
            g->at[g->rows][field] = to;
        } else {
            *to++ = *from;
        }
    }
    *to = '\0';
}

static double at(const grid *g, size_t row, size_t field)
{
    assert_non_null(g->at[row][field]);
    char *end;
    const double value = strtod(g->at[row][field], &end);
    if (*end || end == g->at[row][field])
        fail_msg("row %zu, column %zu: '%s' is no number", row + 1, field + 1, g->at[row][field]);
    return value;
}

static size_t row_of(const grid *g, const char *label)
{
    for (size_t i = 0; i < g->rows; i++)
        if (g->at[i][0] && strcmp(g->at[i][0], label) == 0)
            return i;
    fail_msg("no row '%s'", label);
    return 0;
}

static void write_book(const house *h, size_t tables, const pare_table table[])
{
    char path[96], folder[80];
    const char *bytes = NULL;
    size_t length = 0, rows[PARE_REPORT_TABLES];
    pare_error err = {0};
    snprintf(folder, sizeof folder, "%s/", h->folder);
    snprintf(path, sizeof path, "%s/book.xlsx", h->folder);
    if (pare_book_write("a book", tables, table, folder, path, rows, &err) != PARE_OK ||
        pare_disk_read(path, 1 << 24, h->arena, &bytes, &length, &err) != PARE_OK ||
        pare_workbook_whole("book.xlsx", bytes, length, tables, rows, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

/* ---- tables of our own ---- */

/* The values that formulas carry are wrong here, so what is read back was computed. */
static void formulas_are_formulas_and_names_are_names(void **state)
{
    const house *h = *state;
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Name", NULL, 1, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Count", NULL, 1, 0, NULL, NULL, false},
        {PARE_COLUMN_WALL, "Wall", NULL, 1, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Each", "g", 1, 2, NULL, NULL, false},
        {PARE_COLUMN_U, "Uncertainty", "g", 1, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "All", "g", 1, 2, "=B#*C#", "=SUM(E@:E#)", false},
    };
    static const char *const names[] = {"=1+1",        "@SUM(A1)",          "+cmd|' /C calc'!A0",
                                        "-2+3",        "a \"quoted\", one", "\u00fc \u65e5 & <b>",
                                        "_x0041_ tab", "https://a.example/"};
    enum { COUNT = sizeof names / sizeof names[0] };
    pare_table table;
    pare_table_open(&table, h->arena, "own", "Own", 6, columns, COUNT);
    double all = 0;
    for (size_t i = 0; i < COUNT; i++) {
        pare_entry *row = pare_table_row(&table);
        row[0].text = names[i];
        row[1].number = (double)i + 1;
        row[3].number = 0.1 + 1.0 / 3;
        row[4].number = 0.02;
        row[5].number = -1; /* wrong */
        all += ((double)i + 1) * (0.1 + 1.0 / 3);
    }
    pare_entry *total = pare_table_total(&table);
    total[0].text = "=all";
    total[5].number = -1;
    assert_false(table.failed);
    write_book(h, 1, &table);
    if (!recalculated(h))
        skip();
    grid g;
    read_grid(h, "Own", &g);
    assert_string_equal(g.at[0][0], "Own");
    assert_string_equal(g.at[2][2], "Each (g)"); /* the wall has no column */
    for (size_t i = 0; i < COUNT; i++) {
        assert_string_equal(g.at[3 + i][0], names[i]);
        assert_within(at(&g, 3 + i, 2), 0.1 + 1.0 / 3, 1e-12); /* all digits */
        assert_within(at(&g, 3 + i, 4), ((double)i + 1) * (0.1 + 1.0 / 3), 1e-12);
    }
    assert_string_equal(g.at[3 + COUNT][0], "=all");
    assert_within(at(&g, 3 + COUNT, 4), all, 1e-12);
}

static void a_table_without_room_or_rows_is_no_crash(void **state)
{
    const house *h = *state;
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Name", NULL, 1, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Each", "g", 1, 2, NULL, "=SUM(B@:B#)", false}};
    pare_table table[2];
    pare_table_open(&table[0], h->arena, "one", "One", 2, columns, 1);
    pare_table_row(&table[0])[0].text = "a";
    assert_false(table[0].failed);
    pare_table_row(&table[0])[0].text = "b";
    assert_true(table[0].failed);
    pare_table_open(&table[0], h->arena, "one", "One", 2, columns, 0);
    pare_table_open(&table[1], h->arena, "two", "Two", 2, columns, 3);
    pare_table_total(&table[1])[0].text = "all";
    write_book(h, 2, table); /* is read again */
}

/* ---- a report's tables ---- */

typedef struct made {
    pare_sheet_view view;
    pare_report report;
    pare_report_tables tables;
    pare_shopping shopping;
    pare_swaps swaps;
    pare_craft changed;
} made;

static const pare_table *named(const made *m, const char *id)
{
    for (size_t i = 0; i < m->tables.tables; i++)
        if (strcmp(m->tables.table[i].id, id) == 0)
            return &m->tables.table[i];
    fail_msg("no table %s", id);
    return NULL;
}

static void totals_by_another_program_are_those_of_the_sheet(void **state)
{
    const house *h = *state;
    const pare_craft *craft = pare_bench_craft(h->bench, "hedgerow");
    made *m = pare_arena_zeros(h->arena, sizeof *m);
    pare_error err = {0};
    assert_non_null(m);
    if (pare_sheet_view_fill(craft, NULL, 0, NULL, &m->view, &err) != PARE_OK ||
        pare_report_fill(&m->view, 0, NULL, h->arena, &m->report, &err) != PARE_OK ||
        pare_swaps_find(h->bench, craft, 0, PARE_WISH_GRAMS, h->arena, &m->swaps, &err) !=
            PARE_OK ||
        pare_swap_apply_list(h->bench, craft,
                             "pack=pa-4s-1100,antenna=an-rush,motor=mo-2207-1950,"
                             "joint.motor_base.material=titanium,run.lead.gauge=14",
                             &m->changed, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_shopping_of(h->bench, craft, NULL, &m->changed, &m->shopping);
    const pare_report_with with = {
        .money = "EUR", .swaps = &m->swaps, .shopping = &m->shopping, .shopping_for = "some"};
    assert_int_equal(pare_report_tables_make(&m->report, &with, h->arena, &m->tables, &err),
                     PARE_OK);
    write_book(h, m->tables.tables, m->tables.table);
    if (!recalculated(h))
        skip();
    grid g;
    const pare_assembly *assembly = &m->view.sheet.assembly;
    read_grid(h, "Ledger", &g);
    for (size_t i = 0; i < assembly->lines; i++) {
        assert_string_equal(g.at[3 + i][0], assembly->line[i].name);
        assert_within(at(&g, 3 + i, 5), 1e3 * assembly->line[i].mass_kg.value, 1e-9);
    }
    assert_within(at(&g, row_of(&g, "all-up"), 5), 1e3 * m->view.sheet.figure[PARE_ALL_UP].value,
                  1e-9);
    read_grid(h, "Systems", &g);
    assert_within(at(&g, row_of(&g, "all-up"), 1), 1e3 * m->view.sheet.figure[PARE_ALL_UP].value,
                  1e-9);
    for (size_t i = 0; i < named(m, "systems")->rows; i++)
        assert_within(at(&g, 3 + i, 1), named(m, "systems")->cell[2 * i + 1].number, 1e-9);
    read_grid(h, "Shopping list", &g);
    const size_t last = 3 + named(m, "shopping")->rows;
    assert_string_equal(g.at[last][1], "in all");
    assert_true(m->shopping.money > 100);
    assert_within(at(&g, last, 9), m->shopping.money, 1e-9);
    read_grid(h, "Swaps", &g);
    for (size_t i = 0; i < m->swaps.count; i++) {
        const pare_swap *swap = &m->swaps.swap[i];
        assert_string_equal(g.at[3 + i][0], swap->applied.id);
        if (swap->applied.priced && swap->grams_kg > 1e-12)
            assert_within(at(&g, 3 + i, 7), swap->money_per_g, 1e-9);
        else
            assert_string_equal(g.at[3 + i][7], "");
    }
    read_grid(h, "Weigh-in sheet", &g);
    assert_string_equal(g.at[3][6], ""); /* no reading yet */
    assert_within(at(&g, row_of(&g, "all-up mass"), 2),
                  1e3 * m->view.sheet.figure[PARE_ALL_UP].value, 1e-9);
}

/* ---- a disk that was full ---- */

/* Bytes of a workbook changed or cut off: it is refused, whatever they say. */
static void half_a_workbook_is_found_out(void **state)
{
    const house *h = *state;
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Name", NULL, 1, 0, NULL, NULL, false}};
    pare_table table;
    const char *bytes = NULL;
    size_t length = 0;
    char path[96];
    pare_error err = {0};
    pare_table_open(&table, h->arena, "one", "One", 1, columns, 50);
    for (int i = 0; i < 50; i++)
        pare_table_row(&table)[0].text = pare_arena_printf(h->arena, "name %d", i);
    write_book(h, 1, &table);
    snprintf(path, sizeof path, "%s/book.xlsx", h->folder);
    assert_int_equal(pare_disk_read(path, 1 << 20, h->arena, &bytes, &length, &err), PARE_OK);
    const size_t rows[2] = {52, 0}, more[1] = {53}; /* with title and heads */
    assert_int_equal(pare_workbook_whole("b.xlsx", bytes, length, 1, rows, &err), PARE_OK);
    assert_int_equal(pare_workbook_whole("b.xlsx", bytes, length, 2, rows, &err), PARE_UNAVAILABLE);
    assert_int_equal(pare_workbook_whole("b.xlsx", bytes, length / 2, 1, rows, &err),
                     PARE_UNAVAILABLE);
    assert_int_equal(pare_workbook_whole("b.xlsx", bytes, length, 1, more, &err), PARE_UNAVAILABLE);
    assert_non_null(strstr(err.text, "sheet 1 has 52 rows of 53"));
    assert_non_null(strstr(err.text, "right would be room on the disk of TMPDIR"));
}

static void a_folder_that_is_not_there_is_one_line(void **state)
{
    const house *h = *state;
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Name", NULL, 1, 0, NULL, NULL, false}};
    pare_table table;
    pare_error err = {0};
    pare_table_open(&table, h->arena, "one", "One", 1, columns, 1);
    size_t rows = 0;
    assert_int_equal(pare_book_write("t", 1, &table, "/nowhere/at/all/",
                                     "/nowhere/at/all/book.xlsx", &rows, &err),
                     PARE_UNAVAILABLE);
    assert_true(strstr(err.text, "gathered in /nowhere/at/all/: ") != NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(formulas_are_formulas_and_names_are_names),
        cmocka_unit_test(a_table_without_room_or_rows_is_no_crash),
        cmocka_unit_test(totals_by_another_program_are_those_of_the_sheet),
        cmocka_unit_test(half_a_workbook_is_found_out),
        cmocka_unit_test(a_folder_that_is_not_there_is_one_line),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
