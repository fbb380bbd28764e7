/* report.h: one craft on one page: the gram ruler, the craft from above and from the side, its curves. */
#ifndef PARE_SHOW_REPORT_H
#define PARE_SHOW_REPORT_H

#include <jansson.h>

#include "craft/curve.h"
#include "show/draw_page.h"
#include "show/ruler.h"
#include "show/sheet_view.h"
#include "show/silhouette.h"
#include "show/view_notes.h"

/** Paper, upright: A4 by ISO 216, Letter by ANSI/ASME Y14.1. */
typedef struct pare_paper {
    const char *name, *words; /* "a4", "A4" */
    double width_mm, height_mm;
} pare_paper;
enum { PARE_PAPERS = 2 };
extern const pare_paper pare_papers[PARE_PAPERS];

enum { PARE_REPORT_NOTES = 8 };

/** All that the page shows. Large: keep it off the stack. */
typedef struct pare_report {
    const pare_sheet_view *view;
    const pare_paper *paper; /* A4, until somebody sets another */
    pare_ruler ruler;
    size_t parts;
    pare_ruler_part
        part[PARE_RULER_PARTS]; /* numbered from 1 in this order, everywhere on the page */
    pare_view seen[PARE_SEEN];
    double scale; /* the views are 1 : scale on paper; set by pare_report_page() */
    pare_curve_chart curve[PARE_CURVES];
    size_t notes; /* what stands in for what is not known */
    char note[PARE_REPORT_NOTES][PARE_VIEW_NOTE];
} pare_report;

/** Gathers what a page shows.
 *
 * @param view     filled; lent until the report is no longer used
 * @param outline  [outlines] of plates, as far as the bench has them
 * @param arena    holds the views
 * @return PARE_OK, or PARE_UNAVAILABLE when memory runs out */
pare_status pare_report_fill(const pare_sheet_view *view, size_t outlines,
                             const pare_plate_outline outline[], pare_arena *arena,
                             pare_report *report, pare_error *err);

/** Draws the page; its bytes go to the end of `out`. The same report gives the same bytes. */
pare_status pare_report_page(pare_report *report, pare_page_form form, pare_text *out,
                             pare_error *err);

/** What a drawn page shows, as JSON: views, scale, notes, and the points of every curve. The caller adds
 * where it was written. NULL when memory runs out. */
json_t *pare_report_object(const pare_report *report);

/** A line for a person: "gram ruler, top and side view at 1 : 2.5, 5 curves". */
void pare_report_words(const pare_report *report, pare_text *out);

/** The number on the page of an item, or 0: it weighs nothing there. */
size_t pare_report_number(const pare_report *report, size_t item);

#endif
