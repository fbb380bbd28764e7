/* draw_page.h: a page of paper to draw on, and out of it an SVG, a PNG or a PDF in memory.
 *
 * Places are millimetres of paper from the top left, y down. Nothing here can fail singly: what goes
 * wrong is kept and said by pare_page_finish(). The same calls give the same bytes. */
#ifndef PARE_SHOW_DRAW_PAGE_H
#define PARE_SHOW_DRAW_PAGE_H

#include "base/error.h"
#include "base/text.h"
#include "physics/solid.h"

typedef enum pare_page_form { PARE_PAGE_SVG, PARE_PAGE_PNG, PARE_PAGE_PDF } pare_page_form;

/** Few inks, which differ in grey as well. */
typedef enum pare_ink {
    PARE_INK_NONE,
    PARE_INK_PAPER,
    PARE_INK_FAINT, /* fills that lines are read on */
    PARE_INK_PALE,  /* grids, bodies of the frame */
    PARE_INK_GREY,  /* what is said beside */
    PARE_INK_BLACK,
    PARE_INK_CLAY, /* limits, balance and what is taken off */
    PARE_INKS
} pare_ink;

/** How a surface is filled; each reads as another in grey. */
typedef enum pare_texture {
    PARE_TEXTURE_FULL,
    PARE_TEXTURE_LINES, /* close lines */
    PARE_TEXTURE_WIDE,  /* lines wide apart */
    PARE_TEXTURE_DOTS,
    PARE_TEXTURE_HATCH /* oblique, in clay: what is taken off */
} pare_texture;

/** A line: width 0 is none; dash 0 is unbroken. */
typedef struct pare_pen {
    pare_ink ink;
    double width_mm, dash_mm;
} pare_pen;

typedef enum pare_align { PARE_ALIGN_LEFT, PARE_ALIGN_MIDDLE, PARE_ALIGN_RIGHT } pare_align;
typedef struct pare_type {
    double size_mm; /* of the letters' em */
    pare_ink ink;
    bool bold;
    pare_align align; /* where x lies in the text */
    double most_mm;   /* a longer text is elided; 0: any length */
} pare_type;

typedef struct pare_box {
    double x, y, width, height;
} pare_box;

typedef struct pare_page pare_page;

#define PARE_PAGE_DOTS_A_MM 8 /* of a PNG: 1680 x 2376 for an A4 page, about 200 an inch */

/** A blank page.
 * @param[out] page  close with pare_page_close(); NULL on failure
 * @return PARE_OK, or PARE_UNAVAILABLE: no memory, or no cairo and pango on this machine */
pare_status pare_page_open(pare_page_form form, double width_mm, double height_mm, pare_page **page,
                           pare_error *err);
/** What follows goes on another blank page: of a PDF only. */
void pare_page_next(pare_page *page);
/** NULL is fine. */
void pare_page_close(pare_page *page);

void pare_page_line(pare_page *page, double x0, double y0, double x1, double y1, pare_pen pen);
/** Straight from point to point. */
void pare_page_lines(pare_page *page, size_t points, const double (*at)[2], pare_pen pen);
/** Closed loops, those inside others being holes. */
void pare_page_area(pare_page *page, size_t loops, const pare_outline loop[], pare_ink fill,
                    pare_pen pen);
void pare_page_box(pare_page *page, pare_box box, pare_ink fill, pare_pen pen);
/** An ellipse turned anticlockwise. */
void pare_page_ellipse(pare_page *page, double x, double y, double radius_x, double radius_y,
                       double turn_rad, pare_ink fill, pare_pen pen);
/** A piece of a disc, from one angle to another, anticlockwise from the right. */
void pare_page_sector(pare_page *page, double x, double y, double radius, double from_rad,
                      double to_rad, pare_ink fill);
void pare_page_texture(pare_page *page, pare_box box, pare_texture texture);
/** A line that ends in an arrow's head at its second point. */
void pare_page_arrow(pare_page *page, double x0, double y0, double x1, double y1, pare_pen pen);

/** All of a text that is to be set. Where memory ran out while it was put together, the page is refused at its
 * end, rather than finished without it. */
const char *pare_page_line_of(pare_page *page, const pare_text *text);

/** One line of text on its baseline. Bytes that are no UTF-8 and control characters become '?'.
 * @return its width */
double pare_page_text(pare_page *page, double x, double y, const pare_type *type, const char *text);
double pare_page_text_width(pare_page *page, const pare_type *type, const char *text);
/** Words broken to most_mm. @return how much height the lines take */
double pare_page_words(pare_page *page, double x, double y, const pare_type *type,
                       const char *text);

/** The height that pare_page_words() would take; nothing is drawn. */
double pare_page_words_height(pare_page *page, const pare_type *type, const char *text);

/** The page's bytes, put at the end of `out`.
 *
 * @param title, description  said in an SVG or a PDF for those who do not see it; not drawn
 * @return PARE_OK, or PARE_UNAVAILABLE when memory ran out or the drawing library gave up */
pare_status pare_page_finish(pare_page *page, const char *title, const char *description,
                             pare_text *out, pare_error *err);

#endif
