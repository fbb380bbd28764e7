/* rooms: show store advise craft physics base */
/* report.c: how long a report takes: the whole command that writes a PDF of the demo's crafts (300 ms is
 * the aim), and a workbook of 20,000 rows by Pare's tables against libxlsxwriter's own loop over the same
 * cells, formats, formulas and frozen panes, in the same run (0.9 of its speed is the aim). Pare's time is
 * with the reading back that finds half a workbook. The least of several turns in turn, by the clock and by
 * the processor, since the machine has other work. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include "show/book.h"
#include "store/disk.h"
#include "store/workbook_whole.h"

enum { ROWS = 20000, COLUMNS = 8, TURNS = 5 };

typedef struct took {
    double clock_s, processor_s;
} took;

static double processor_s(int who)
{
    struct rusage used;
    getrusage(who, &used);
    return (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
           1e-6 * (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

static took now(int who)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (took){(double)t.tv_sec + 1e-9 * (double)t.tv_nsec, processor_s(who)};
}

static void keep_least(took *least, took from, took to)
{
    least->clock_s = fmin(least->clock_s, to.clock_s - from.clock_s);
    least->processor_s = fmin(least->processor_s, to.processor_s - from.processor_s);
}

static void give_up(const char *what)
{
    fprintf(stderr, "speed_report: %s\n", what);
    exit(1);
}

/* ---- the command ---- */

static void run_report(const char *bench, const char *craft, const char *file)
{
    fflush(stdout);
    const pid_t child = fork();
    if (child == 0) {
        if (!freopen("/dev/null", "w", stdout))
            _exit(127);
        execl(PARE_BINARY, "pare", "report", craft, "-o", file, "--bench", bench, (char *)NULL);
        _exit(127);
    }
    int status = 0;
    if (child < 0 || waitpid(child, &status, 0) < 0 || status != 0)
        give_up("pare report failed");
}

static void time_command(const char *bench, const char *craft, const char *file)
{
    took least = {INFINITY, INFINITY};
    for (int i = 0; i < TURNS; i++) {
        const took from = now(RUSAGE_CHILDREN);
        run_report(bench, craft, file);
        keep_least(&least, from, now(RUSAGE_CHILDREN));
    }
    printf("  %-9s %-12s %6.0f ms, %4.0f ms of the processor\n", craft, strrchr(file, '/') + 1,
           1e3 * least.clock_s, 1e3 * least.processor_s);
}

/* ---- the workbook ---- */

static const pare_column columns[COLUMNS] = {
    {PARE_COLUMN_TEXT, "Line", NULL, 1, 0, NULL, NULL, false},
    {PARE_COLUMN_TEXT, "System", NULL, 1, 0, NULL, NULL, false},
    {PARE_COLUMN_TEXT, "Part", NULL, 1, 0, NULL, NULL, false},
    {PARE_COLUMN_NUMBER, "Count", NULL, 1, 0, NULL, NULL, false},
    {PARE_COLUMN_NUMBER, "Each", "g", 1, 2, NULL, NULL, false},
    {PARE_COLUMN_NUMBER, "All", "g", 1, 2, "=D#*E#", "=SUM(F@:F#)", false},
    {PARE_COLUMN_NUMBER, "Price", "EUR", 1, 2, NULL, NULL, false},
    {PARE_COLUMN_TEXT, "How known", NULL, 1, 0, NULL, NULL, false},
};

static void make_table(pare_arena *arena, pare_table *table)
{
    static const char *const systems[] = {"frame", "thrust", "electronics", "sight"};
    static const char *const known[] = {"weighed", "stated", "computed", "estimated"};
    pare_table_open(table, arena, "parts", "Parts", COLUMNS, columns, ROWS);
    table->caption = "twenty thousand rows";
    for (int i = 0; i < ROWS; i++) {
        pare_entry *row = pare_table_row(table);
        row[0].text = pare_arena_printf(arena, "line %d", i);
        row[1].text = systems[i % 4];
        row[2].text = pare_arena_printf(arena, "part-%x", i * 7919);
        row[3].number = 1 + i % 16;
        row[4].number = 0.1 + i % 977 / 7.0;
        row[5].number = row[3].number * row[4].number;
        row[6].number = i % 311 / 3.0;
        row[7].text = known[i % 4];
        table->failed = table->failed || !row[0].text || !row[2].text;
    }
    pare_entry *total = pare_table_total(table);
    total[0].text = "in all";
    total[5].number = 0;
    for (int i = 0; i < ROWS; i++)
        total[5].number += table->cell[i * COLUMNS + 5].number;
    if (table->failed)
        give_up("no memory");
}

/* What a program does that has the cells and the library, and no tables. */
static void write_bare(const pare_table *table, const char *folder, const char *path)
{
    char where[256];
    snprintf(where, sizeof where, "%s", folder);
    lxw_workbook_options options = {.tmpdir = where};
    lxw_workbook *book = workbook_new_opt(path, &options);
    lxw_worksheet *sheet = workbook_add_worksheet(book, "Parts");
    lxw_format *whole = workbook_add_format(book), *cents = workbook_add_format(book),
               *bold = workbook_add_format(book);
    format_set_num_format(whole, "0");
    format_set_num_format(cents, "0.00");
    format_set_bold(bold);
    worksheet_write_string(sheet, 0, 0, "Parts", bold);
    worksheet_write_string(sheet, 1, 0, table->caption, NULL);
    for (lxw_col_t c = 0; c < COLUMNS; c++) {
        worksheet_write_string(sheet, 2, c, table->column[c].title, bold);
        worksheet_set_column(sheet, c, c, 12, NULL);
    }
    for (lxw_row_t r = 0; r < ROWS; r++) {
        const pare_entry *row = &table->cell[r * COLUMNS];
        char formula[64];
        snprintf(formula, sizeof formula, "=D%u*E%u", r + 4, r + 4);
        for (lxw_col_t c = 0; c < 3; c++)
            worksheet_write_string(sheet, r + 3, c, row[c].text, NULL);
        worksheet_write_number(sheet, r + 3, 3, row[3].number, whole);
        worksheet_write_number(sheet, r + 3, 4, row[4].number, cents);
        worksheet_write_formula_num(sheet, r + 3, 5, formula, cents, row[5].number);
        worksheet_write_number(sheet, r + 3, 6, row[6].number, cents);
        worksheet_write_string(sheet, r + 3, 7, row[7].text, NULL);
    }
    worksheet_write_formula_num(sheet, ROWS + 3, 5, "=SUM(F4:F20003)", cents,
                                table->total[5].number);
    worksheet_freeze_panes(sheet, 3, 1);
    if (workbook_close(book) != LXW_NO_ERROR)
        give_up("libxlsxwriter failed");
}

static void write_ours(const pare_table *table, const char *folder, const char *path)
{
    pare_error err = {0};
    const char *bytes = NULL;
    size_t length = 0, rows = 0;
    pare_arena *arena = pare_arena_open();
    if (!arena || pare_book_write("parts", 1, table, folder, path, &rows, &err) != PARE_OK ||
        pare_disk_read(path, (size_t)1 << 28, arena, &bytes, &length, &err) != PARE_OK ||
        pare_workbook_whole(path, bytes, length, 1, &rows, &err) != PARE_OK)
        give_up(err.text);
    pare_arena_close(arena);
}

static void time_books(const char *folder, const char *path)
{
    took bare = {INFINITY, INFINITY}, ours = bare;
    pare_table table;
    pare_arena *arena = pare_arena_open();
    if (!arena)
        give_up("no memory");
    make_table(arena, &table);
    for (int i = 0; i < TURNS; i++) {
        took from = now(RUSAGE_SELF);
        write_bare(&table, folder, path);
        keep_least(&bare, from, now(RUSAGE_SELF));
        from = now(RUSAGE_SELF);
        write_ours(&table, folder, path);
        keep_least(&ours, from, now(RUSAGE_SELF));
    }
    printf("  %d rows of %d cells as a workbook: %.0f ms, %.0f ms of the processor; "
           "libxlsxwriter's own loop %.0f ms, %.0f ms: %.2f of its speed, %.2f by the processor\n",
           ROWS, COLUMNS, 1e3 * ours.clock_s, 1e3 * ours.processor_s, 1e3 * bare.clock_s,
           1e3 * bare.processor_s, bare.clock_s / ours.clock_s,
           bare.processor_s / ours.processor_s);
    pare_arena_close(arena);
}

int main(int argc, char **argv)
{
    static const char *const crafts[] = {"hedgerow", "thimble", "drover", "bodkin"};
    char folder[64] = "/tmp/pare-speed-XXXXXX", path[96], slashed[80];
    if (argc < 2)
        give_up("needs the demo's bench");
    if (!mkdtemp(folder))
        give_up("no folder");
    snprintf(slashed, sizeof slashed, "%s/", folder);
    for (size_t i = 0; i < sizeof crafts / sizeof crafts[0]; i++) {
        snprintf(path, sizeof path, "%s/x.pdf", folder);
        time_command(argv[1], crafts[i], path);
        unlink(path);
    }
    snprintf(path, sizeof path, "%s/x.xlsx", folder);
    time_command(argv[1], crafts[0], path);
    time_books(slashed, path);
    unlink(path);
    rmdir(folder);
    return 0;
}
