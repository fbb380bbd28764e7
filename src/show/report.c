/* report.c: one craft on one page (see report.h).
 *
 * Upright paper, so that it prints to scale. From the top: what it weighs and the gram ruler; the craft
 * from above and from the side with the key of its parts; its curves. All figures are the sheet's. */
#include "show/report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/draw_inside.h"
#include "show/sheet_text.h"

#define MARGIN_MM 10.0

#define VIEWS_MM 124.0 /* width of the views; the key has the rest */

#define CURVES_MM 74.0 /* height of the curves, which stand at the foot */

const pare_paper pare_papers[PARE_PAPERS] = {{"a4", "A4", 210, 297},
                                             {"letter", "Letter", 215.9, 279.4}};

static double inner_mm(const pare_report *report)
{
    return report->paper->width_mm - 2 * MARGIN_MM;
}

pare_status pare_report_fill(const pare_sheet_view *view, size_t outlines,
                             const pare_plate_outline outline[], pare_arena *arena,
                             pare_report *report, pare_error *err)
{
    const pare_craft *craft_before = view->tried ? &view->craft_before : NULL;
    const pare_sheet *before = view->tried ? &view->before : NULL;
    memset(report, 0, sizeof *report);
    report->view = view;
    report->paper = &pare_papers[0];
    report->ruler = pare_ruler_of(&view->craft, &view->sheet, craft_before, before, view->limit_kg);
    report->parts =
        pare_ruler_parts(&view->craft, &view->sheet, craft_before, before, report->part);
    for (int s = 0; s < PARE_SEEN; s++) {
        const pare_status status = pare_view_of(&view->craft, (pare_seen)s, outlines, outline,
                                                arena, &report->seen[s], err);
        if (status != PARE_OK)
            return status;
    }
    pare_curves_of(&view->craft, &view->sheet, report->curve);
    report->notes = pare_view_notes(&view->craft, &report->seen[PARE_SEEN_ABOVE], PARE_REPORT_NOTES,
                                    report->note);
    return PARE_OK;
}

size_t pare_report_number(const pare_report *report, size_t item)
{
    for (size_t i = 0; i < report->parts; i++)
        if (report->part[i].of == PARE_LINE_ITEM && report->part[i].index == item &&
            report->part[i].kg > 0)
            return i + 1;
    return 0;
}

/* ---- layout helpers ---- */

size_t pare_placed_meets(const pare_placed *placed, pare_box box)
{
    size_t meets = 0;
    for (size_t i = 0; i < placed->count; i++) {
        const pare_box *one = &placed->box[i];
        meets += box.x < one->x + one->width && one->x < box.x + box.width &&
                 box.y < one->y + one->height && one->y < box.y + box.height;
    }
    return meets;
}

void pare_placed_add(pare_placed *placed, pare_box box)
{
    if (placed->count < PARE_PLACED)
        placed->box[placed->count++] = box;
}

double pare_nice_step(double span, int most)
{
    static const double times[] = {1, 2, 5};
    for (double power = 1e-12; power < 1e12; power *= 10)
        for (int i = 0; i < 3; i++)
            if (span / (times[i] * power) <= most * (1 + 1e-9))
                return times[i] * power;
    return span;
}

/* ---- the page ---- */

static void heading(pare_page *page, const pare_report *report)
{
    const pare_sheet_view *view = report->view;
    const pare_screen screen = {.width = 80, .utf8 = true};
    const double width = inner_mm(report);
    pare_text line = {0};
    const pare_type large = {
        .size_mm = 6.4, .ink = PARE_INK_BLACK, .bold = true, .most_mm = 0.6 * width};
    double x = MARGIN_MM + pare_page_text(page, MARGIN_MM, 16.5, &large, view->craft.name);
    if (view->loadout) {
        pare_text_printf(&line, "loadout %s", view->loadout);
        pare_page_text(page, x + 3, 16.5,
                       &(pare_type){.size_mm = 3.4,
                                    .ink = PARE_INK_GREY,
                                    .most_mm = MARGIN_MM + width - x - 3},
                       pare_page_line_of(page, &line));
        pare_text_free(&line);
    }
    pare_text_add(&line, "all-up ");
    pare_all_up_words(view, &screen, &line);
    pare_page_text(page, MARGIN_MM, 23,
                   &(pare_type){.size_mm = 3.2, .ink = PARE_INK_BLACK, .most_mm = width},
                   pare_page_line_of(page, &line));
    pare_text_free(&line);
    if (!view->tried)
        return;
    pare_text_printf(&line, "trying %s", view->tried);
    pare_page_text(page, MARGIN_MM, 28,
                   &(pare_type){.size_mm = 2.7, .ink = PARE_INK_CLAY, .most_mm = width},
                   pare_page_line_of(page, &line));
    pare_text_free(&line);
}

static void cautions(pare_page *page, pare_box box, const pare_report *report)
{
    const pare_type type = {.size_mm = 2.1, .ink = PARE_INK_GREY, .most_mm = box.width};
    double y = box.y + 2.5;
    pare_page_text(page, box.x, y,
                   &(pare_type){.size_mm = 2.5, .ink = PARE_INK_BLACK, .bold = true},
                   "what these rest on");
    y += 4.2;
    pare_text line = {0};
    pare_text_add(&line,
                  "Each point is the flight model's own. Mass is added or taken at the centre of "
                  "mass; level flight and hover on half charge; full throttle from rest. Bars: "
                  "one standard uncertainty.");
    for (size_t i = 0; i < report->notes; i++)
        pare_text_printf(&line, " %c%s.", report->note[i][0], report->note[i] + 1);
    pare_text_add(&line,
                  " A legal mass limit counts the craft as flown, with everything on it: check "
                  "your local rules. Propellers off before any work on it.");
    pare_page_words(page, box.x, y, &type, pare_page_line_of(page, &line));
    pare_text_free(&line);
}

static void curves(pare_page *page, pare_box curves_box, const pare_report *report)
{
    const double gap = 4, width = (curves_box.width - 2 * gap) / 3,
                 height = (curves_box.height - gap) / 2;
    for (int i = 0; i <= PARE_CURVES; i++) {
        const int column = i % 3, row = i / 3;
        const pare_box box = {curves_box.x + column * (width + gap),
                              curves_box.y + row * (height + gap), width, height};
        if (i < PARE_CURVES)
            pare_draw_curve(page, box, report, (pare_curve_of)i);
        else
            cautions(page, box, report);
    }
}

static void rule(pare_page *page, const pare_report *report, double y)
{
    pare_page_line(page, MARGIN_MM, y, MARGIN_MM + inner_mm(report), y,
                   (pare_pen){PARE_INK_PALE, PARE_THIN_MM, 0});
}

void pare_report_words(const pare_report *report, pare_text *out)
{
    pare_text_printf(out, "gram ruler, the craft from above and from the side at 1 : %g, %d curves",
                     report->scale, PARE_CURVES);
}

pare_status pare_report_draw(pare_page *page, pare_report *report, pare_error *err)
{
    const double width = inner_mm(report);
    const pare_box curves_box = {MARGIN_MM, report->paper->height_mm - 7 - CURVES_MM, width,
                                 CURVES_MM};
    heading(page, report);
    const double top = pare_draw_ruler(page, (pare_box){MARGIN_MM, 29, width, 0}, report) + 7,
                 height = curves_box.y - 5 - top, right = MARGIN_MM + VIEWS_MM + 7;
    const pare_box views = {MARGIN_MM, top, VIEWS_MM, height},
                   key = {right, top, MARGIN_MM + width - right, height};
    report->scale = pare_views_scale(views, report->seen);
    rule(page, report, top - 3.5);
    const pare_status status = pare_draw_views(page, views, report, err);
    pare_draw_key(page, key, report);
    rule(page, report, curves_box.y - 3);
    curves(page, curves_box, report);
    return status;
}

pare_status pare_report_page(pare_report *report, pare_page_form form, pare_text *out,
                             pare_error *err)
{
    pare_page *page;
    pare_status status =
        pare_page_open(form, report->paper->width_mm, report->paper->height_mm, &page, err);
    if (status != PARE_OK)
        return status;
    status = pare_report_draw(page, report, err);
    pare_text words = {0};
    pare_report_words(report, &words);
    if (status == PARE_OK && words.failed)
        status = pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_page_finish(page, report->view->craft.name, words.bytes, out, err);
    pare_text_free(&words);
    pare_page_close(page);
    return status;
}
