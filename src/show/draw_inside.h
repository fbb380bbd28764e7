/* draw_inside.h: the blocks of a report's page, and what they share. Inside the room only. */
#ifndef PARE_SHOW_DRAW_INSIDE_H
#define PARE_SHOW_DRAW_INSIDE_H

#include "show/report.h"

/** Lines of the page. */
#define PARE_HAIR_MM   0.12
#define PARE_THIN_MM   0.22
#define PARE_STRONG_MM 0.42

pare_texture pare_texture_of(const pare_ruler_part *part);

/** Where labels are, so that the next one finds a place of its own. */
enum { PARE_PLACED = 192 };
typedef struct pare_placed {
    size_t count;
    pare_box box[PARE_PLACED];
} pare_placed;
/** How many of the boxes meet one. */
size_t pare_placed_meets(const pare_placed *placed, pare_box box);
/** Remembers a box; beyond PARE_PLACED, none. */
void pare_placed_add(pare_placed *placed, pare_box box);

/** 1, 2 or 5 times a power of ten: the least step with which `span` has `most` or fewer. */
double pare_nice_step(double span, int most);

/** All of a report's first page; its scale is set. */
pare_status pare_report_draw(pare_page *page, pare_report *report, pare_error *err);

/** Each draws within a box. The ruler and the key give numbers to parts, the views use them.
 * The ruler takes the height that its labels need. @return where it ends */
double pare_draw_ruler(pare_page *page, pare_box box, const pare_report *report);
pare_status pare_draw_views(pare_page *page, pare_box box, const pare_report *report,
                            pare_error *err);
void pare_draw_key(pare_page *page, pare_box box, const pare_report *report);
void pare_draw_curve(pare_page *page, pare_box box, const pare_report *report, pare_curve_of which);

/** The scale at which the views fit into a box: the largest of a row of usual ones. */
double pare_views_scale(pare_box box, const pare_view seen[PARE_SEEN]);

#endif
