/* report.c: `pare report`: one craft on one page as a picture, or as a document.
 *
 * The file's ending says what is written. All is drawn in memory first, then written in place of what
 * was there: a report that fails leaves the old one. */
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/outlines.h"
#include "cli/picture.h"
#include "cli/use.h"
#include "show/json.h"
#include "show/report.h"
#include "show/report_html.h"
#include "store/disk.h"

/* What the file's ending asks for. */
typedef struct written_as {
    bool document;
    pare_page_form form; /* of a picture */
} written_as;

static pare_status written_as_of(const char *path, written_as *as, pare_error *err)
{
    const char *dot = strrchr(path, '.');
    as->document = dot && dot > path && strcasecmp(dot, ".html") == 0;
    if (as->document || picture_form(path, "report", &as->form, err) == PARE_OK)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "-o %s: no kind of report that is known; right would be a file that ends in "
                     ".html, .pdf, .svg or .png",
                     path);
}

static pare_status draw(const bench_in_use *use, const pare_sheet_view *view, const written_as *as,
                        pare_report *report, pare_text *page, pare_error *err)
{
    size_t outlines = 0;
    pare_plate_outline *outline = NULL;
    pare_status status = bench_outlines(use, &view->craft, &outlines, &outline, err);
    if (status == PARE_OK)
        status = pare_report_fill(view, outlines, outline, use->bench->arena, report, err);
    if (status == PARE_OK)
        status = as->document ? pare_report_html(report, page, err)
                              : pare_report_page(report, as->form, page, err);
    return status;
}

static void say(const options *given, const pare_report *report, const written_as *as, size_t bytes,
                pare_text *out)
{
    if (given->given & OPTION_JSON) {
        json_t *object = pare_report_object(report);
        json_object_set_new(object, "file", json_string(given->output));
        json_object_set_new(object, "bytes", json_integer((json_int_t)bytes));
        json_object_set_new(object, "form",
                            json_string(as->document ? "html" : picture_form_name(as->form)));
        pare_json_write(object, out);
        return;
    }
    pare_text_printf(out, "%s written: ", given->output);
    pare_report_words(report, out);
    pare_text_add(out, as->document ? ", margins, ledger, weigh-in sheet\n" : "\n");
    for (size_t i = 0; i < report->notes; i++)
        pare_text_printf(out, "  %s\n", report->note[i]);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_text tried = {0}, page = {0};
    written_as as = {0};
    const pare_craft *before = NULL;
    pare_craft *craft = malloc(sizeof *craft);
    pare_sheet_view *view = malloc(sizeof *view);
    pare_report *report = malloc(sizeof *report);
    int loadout = -1;
    pare_status status = craft && view && report ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("report", given, 1, 1, "one craft", err);
    if (status == PARE_OK && !(given->given & OPTION_OUTPUT))
        status = pare_fail(
            err, PARE_BAD_DATA,
            "report needs -o FILE; right would be a file that ends in .html, .pdf, .svg or .png");
    if (status == PARE_OK)
        status = written_as_of(given->output, &as, err);
    if (status == PARE_OK)
        status = given->tries ? bench_use(given, &use, err)
                              : bench_use_craft(given, given->operand[0], &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, given->operand[0], &before, err);
    if (status == PARE_OK)
        status = craft_loadout(before, given->loadout, &loadout, err);
    if (status == PARE_OK)
        status = craft_tried(&use, given, before, craft, &tried, err);
    if (status == PARE_OK)
        status = pare_sheet_view_fill(craft, before, loadout, tried.length ? tried.bytes : NULL,
                                      view, err);
    if (status == PARE_OK)
        status = draw(&use, view, &as, report, &page, err);
    if (status == PARE_OK) {
        long_work_catch();
        status = pare_disk_replace(given->output, page.bytes, page.length, err);
        long_work_release(status);
    }
    if (status == PARE_OK)
        say(given, report, &as, page.length, out);
    pare_text_free(&page);
    pare_text_free(&tried);
    free(report);
    free(view);
    free(craft);
    bench_leave(&use);
    return status;
}

const command command_report = {
    .name = "report",
    .line = "a craft on one page, or as a document",
    .usage = "pare report CRAFT -o FILE [--try SWAP,SWAP] [--loadout LOADOUT] [--json]",
    .details = "The gram ruler by part, the craft from above and from the side with its centre\n"
               "of mass, and how minutes, current, power, thrust and volts change. The page\n"
               "is A4 and prints to scale. As HTML it is one file that needs no other, with\n"
               "margins, ledger, shares of inertia, and a weigh-in sheet to fill by hand.\n",
    .caution = CAUTION_FLYING,
    .example = "  pare report hedgerow -o hedgerow.svg --try bumper=off\n"
               "  pare report thimble -o thimble.html\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_LOADOUT | OPTION_TRY | OPTION_OUTPUT,
    .meaning = {{OPTION_TRY, "with swaps of pare swaps: what they save is hatched"},
                {OPTION_OUTPUT, "where it goes: x.html, x.pdf, x.svg or x.png"}},
    .run = run,
};
