/* report.c: `pare report`: one craft as a picture, as a document, as pages to print, or as a workbook.
 *
 * The file's ending says which. All is made in memory first, then written in place of what was there: a
 * report that fails leaves the old one. A workbook's library writes nothing but files, so that one is made
 * in a folder of its own and read back. A picture shows the sheet alone, so for it one craft is read of
 * the bench; the others say what to buy, for which the spares on every craft count. */
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/outlines.h"
#include "cli/picture.h"
#include "cli/report_with.h"
#include "cli/use.h"
#include "show/book.h"
#include "show/json.h"
#include "show/report_html.h"
#include "show/report_paper.h"
#include "show/shopping.h"
#include "store/disk.h"
#include "store/drawer.h"
#include "store/workbook_whole.h"

#define ENDINGS "a file that ends in .html, .pdf, .xlsx, .svg or .png"

/* What the file's ending asks for. */
typedef enum written_as { AS_PICTURE, AS_HTML, AS_PDF, AS_XLSX } written_as;

typedef struct work {
    const options *given;
    bench_in_use use;
    written_as as;
    pare_page_form picture;
    const pare_paper *paper;
    pare_arena *arena;
    pare_report *report;
    pare_report_with with;
    pare_report_tables *tables; /* not of a picture */
    size_t pages;               /* of a PDF */
    pare_text tried;            /* what is tried, which the report lends */
    pare_text bytes;
} work;

/* ---- what is asked ---- */

static bool ends_in(const char *path, const char *ending)
{
    const char *dot = strrchr(path, '.');
    return dot && dot > path && strcasecmp(dot, ending) == 0;
}

static pare_status read_form(work *w, pare_error *err)
{
    const char *path = w->given->output;
    if (!(w->given->given & OPTION_OUTPUT))
        return pare_fail(err, PARE_BAD_DATA, "report needs -o FILE; right would be " ENDINGS);
    w->as = ends_in(path, ".html")   ? AS_HTML
            : ends_in(path, ".pdf")  ? AS_PDF
            : ends_in(path, ".xlsx") ? AS_XLSX
                                     : AS_PICTURE;
    if (w->as == AS_PICTURE && picture_form(path, "report", &w->picture, NULL) != PARE_OK)
        return pare_fail(err, PARE_BAD_DATA,
                         "-o %s: no kind of report that is known; right would be " ENDINGS, path);
    if (w->as == AS_PICTURE && w->given->given & OPTION_BEST)
        return pare_fail(
            err, PARE_BAD_DATA,
            "-o %s: a picture has no room for the best set; right would be a file that "
            "ends in .html, .pdf or .xlsx",
            path);
    return PARE_OK;
}

static pare_status read_paper(work *w, pare_error *err)
{
    w->paper = &pare_papers[0];
    if (!(w->given->given & OPTION_PAPER))
        return PARE_OK;
    for (int i = 0; i < PARE_PAPERS; i++)
        if (strcasecmp(w->given->paper, pare_papers[i].name) == 0) {
            w->paper = &pare_papers[i];
            return PARE_OK;
        }
    return pare_fail(err, PARE_BAD_DATA, "--paper '%s': right would be a4 or letter",
                     w->given->paper);
}

/* ---- making it ---- */

static pare_status make_book(work *w, pare_error *err)
{
    pare_drawer drawer = {0};
    size_t rows[PARE_REPORT_TABLES];
    pare_status status = pare_drawer_open(&drawer, "report.xlsx", err);
    if (status == PARE_OK)
        status = pare_book_write(w->report->view->craft.name, w->tables->tables, w->tables->table,
                                 drawer.folder, drawer.path, rows, err);
    if (status == PARE_OK)
        status = pare_drawer_take(&drawer, &w->bytes, err);
    if (status == PARE_OK)
        status = pare_workbook_whole(w->given->output, w->bytes.bytes, w->bytes.length,
                                     w->tables->tables, rows, err);
    pare_drawer_close(&drawer);
    return status;
}

static pare_status make(work *w, const pare_sheet_view *view, pare_error *err)
{
    size_t outlines = 0;
    pare_plate_outline *outline = NULL;
    pare_status status = bench_outlines(&w->use, &view->craft, &outlines, &outline, err);
    if (status == PARE_OK)
        status = pare_report_fill(view, outlines, outline, w->arena, w->report, err);
    if (status == PARE_OK && w->as != AS_PICTURE)
        status = pare_report_tables_make(w->report, &w->with, w->arena, w->tables, err);
    if (status != PARE_OK)
        return status;
    w->report->paper = w->paper;
    switch (w->as) {
    case AS_HTML:
        return pare_report_html(w->report, w->tables, &w->bytes, err);
    case AS_PDF:
        return pare_report_paper(w->report, w->tables, &w->pages, &w->bytes, err);
    case AS_XLSX:
        return make_book(w, err);
    default:
        return pare_report_page(w->report, w->picture, &w->bytes, err);
    }
}

/* ---- what is said ---- */

static const char *form_name(const work *w)
{
    static const char *const names[] = {[AS_HTML] = "html", [AS_PDF] = "pdf", [AS_XLSX] = "xlsx"};
    return w->as == AS_PICTURE ? picture_form_name(w->picture) : names[w->as];
}

static void say_as_json(const work *w, pare_text *out)
{
    json_t *object = pare_report_object(w->report);
    json_object_set_new(object, "file", json_string(w->given->output));
    json_object_set_new(object, "bytes", json_integer((json_int_t)w->bytes.length));
    json_object_set_new(object, "form", json_string(form_name(w)));
    if (w->as == AS_PDF)
        json_object_set_new(object, "pages", json_integer((json_int_t)w->pages));
    if (w->as != AS_PICTURE) {
        json_t *tables = json_array();
        for (size_t i = 0; i < w->tables->tables; i++)
            if (w->as == AS_XLSX || !w->tables->table[i].book_only)
                json_array_append_new(tables, json_string(w->tables->table[i].title));
        json_object_set_new(object, "tables", tables);
    }
    if (w->with.shopping) {
        json_object_set_new(object, "shopping",
                            pare_shopping_object(w->with.shopping, w->with.money));
        json_object_set_new(object, "cutting", pare_cutting_object(w->with.shopping));
    }
    if (w->with.best)
        json_object_set_new(object, "best", pare_best_object(w->with.best));
    pare_json_write(object, out);
}

static void say(const work *w, pare_text *out)
{
    pare_text_printf(out, "%s written: ", w->given->output);
    if (w->as == AS_XLSX)
        pare_text_printf(out, "%zu sheets", w->tables->tables);
    else
        pare_report_words(w->report, out);
    if (w->as == AS_PDF)
        pare_text_printf(out, "; %zu pages of %s with", w->pages, w->paper->words);
    for (size_t i = 0, said = 0; w->as != AS_PICTURE && i < w->tables->tables; i++) {
        const pare_table *table = &w->tables->table[i];
        if (w->as != AS_XLSX && table->book_only)
            continue;
        const char *title = w->as == AS_XLSX ? table->sheet : table->title;
        pare_text_printf(out, "%s%c%s",
                         said++             ? ", "
                         : w->as == AS_XLSX ? ": "
                         : w->as == AS_PDF  ? " "
                                            : ", ",
                         title[0] - 'A' + 'a', title + 1);
    }
    pare_text_add(out, "\n");
    for (size_t i = 0; w->as != AS_XLSX && i < w->report->notes; i++)
        pare_text_printf(out, "  %s\n", w->report->note[i]);
    if (w->with.plan_why)
        pare_text_printf(out, "  what is taken does not go on, and is in no list: %s\n",
                         w->with.plan_why);
    if (w->with.best) {
        pare_text_add(out, "  best set: ");
        if (w->with.best->best->found)
            pare_best_put_grams(w->with.best, out);
        else
            pare_text_add(out, w->with.best->best->proven ? "none meets the brief"
                                                          : "none was found in the time for it");
        pare_text_add(out, "\n");
    }
}

/* ---- the command ---- */

static pare_status read_bench(work *w, pare_error *err)
{
    const bool all = w->given->tries || w->as != AS_PICTURE;
    return all ? bench_use(w->given, &w->use, err)
               : bench_use_craft(w->given, w->given->operand[0], &w->use, err);
}

/* @param craft, view  room for them */
static pare_status report_of(work *w, pare_craft *craft, pare_sheet_view *view, pare_error *err)
{
    const pare_craft *before = NULL;
    int loadout = -1;
    pare_status status = bench_craft(&w->use, w->given->operand[0], &before, err);
    if (status == PARE_OK)
        status = pare_loadout_named(before, w->given->loadout, &loadout, err);
    if (status == PARE_OK)
        status = craft_tried(&w->use, w->given, before, craft, &w->tried, err);
    const char *trial = w->tried.length ? w->tried.bytes : NULL;
    if (status == PARE_OK)
        status = pare_sheet_view_fill(craft, before, loadout, trial, view, err);
    if (status == PARE_OK && w->as != AS_PICTURE)
        status = report_with_gather(w->given, &w->use, before, craft, trial, loadout,
                                    w->as == AS_XLSX, w->arena, &w->with, err);
    if (status == PARE_OK)
        status = make(w, view, err);
    return status;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    work w = {.given = given, .arena = pare_arena_open()};
    pare_craft *craft = malloc(sizeof *craft);
    pare_sheet_view *view = malloc(sizeof *view);
    w.report = malloc(sizeof *w.report);
    w.tables = calloc(1, sizeof *w.tables);
    pare_status status =
        w.arena && craft && view && w.report && w.tables ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("report", given, 1, 1, "one craft", err);
    if (status == PARE_OK)
        status = read_form(&w, err);
    if (status == PARE_OK)
        status = read_paper(&w, err);
    if (status == PARE_OK)
        status = report_with_check(given, err);
    if (status == PARE_OK)
        status = read_bench(&w, err);
    if (status == PARE_OK)
        status = report_of(&w, craft, view, err);
    if (status == PARE_OK) {
        long_work_catch();
        status = pare_disk_replace(given->output, w.bytes.bytes, w.bytes.length, err);
        long_work_release(status);
    }
    if (status == PARE_OK && given->given & OPTION_JSON)
        say_as_json(&w, out);
    else if (status == PARE_OK)
        say(&w, out);
    pare_text_free(&w.bytes);
    pare_text_free(&w.tried);
    free(w.tables);
    free(w.report);
    free(view);
    free(craft);
    pare_arena_close(w.arena);
    bench_leave(&w.use);
    return status;
}

const command command_report = {
    .name = "report",
    .line = "a craft as a picture, a document, pages or a workbook",
    .usage = "pare report CRAFT -o FILE [--try SWAP,SWAP] [--loadout LOADOUT] [--paper PAPER]\n"
             "          [--best [--time SECONDS]] [--json]",
    .details = "The gram ruler by part, the craft from above and from the side with its centre\n"
               "of mass and inertia axes, and how minutes, current, power, thrust and volts\n"
               "change: as a picture one page of paper that prints to scale. As HTML (one file\n"
               "that needs no other) and as PDF, tables follow: margins, ledger, shares of\n"
               "inertia, what to buy as it is sold and what to cut for what is taken or tried,\n"
               "and a weigh-in sheet to fill by hand. As a workbook (XLSX) each is a sheet whose\n"
               "totals are formulas, with every figure and every single swap as well.\n",
    .caution = CAUTION_FLYING,
    .example = "  pare report hedgerow -o hedgerow.svg --try bumper=off\n"
               "  pare report thimble -o thimble.pdf --paper letter --best --time 10\n"
               "  pare report thimble -o thimble.xlsx\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_LOADOUT | OPTION_TRY | OPTION_OUTPUT |
               OPTION_PAPER | OPTION_BEST | OPTION_TIME,
    .meaning = {{OPTION_TRY, "with swaps of pare swaps: what they save is hatched"},
                {OPTION_TIME, "with --best: stop searching after so long; 20 is usual"},
                {OPTION_OUTPUT, "where it goes: x.html, x.pdf, x.xlsx, x.svg or x.png"}},
    .run = run,
};
