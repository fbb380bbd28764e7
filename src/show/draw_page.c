/* draw_page.c: a page of paper to draw on (see draw_page.h).
 *
 * cairo draws and pango sets the text; both see millimetres. Letters go into an SVG as outlines, so
 * that a page looks the same where our font is missing. Textures are drawn as lines and dots, not as
 * cairo's patterns: those become pictures within the SVG, which neither scale nor print well.
 *
 * For the same bytes everywhere nothing may depend on a screen: no hinting, no rounding of letters
 * to dots, one font by name. */
#include "show/draw_page.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "show/draw_library.h"
#include "show/draw_svg.h"

#define FONT       "DejaVu Sans"
#define POINT_MM   (25.4 / 72)
#define NEAR_MM    0.04 /* points nearer than this to the last are not seen on paper */
#define LINES_MM   0.42 /* from line to line of the textures */
#define WIDE_MM    1.05
#define DOTS_MM    0.95
#define HATCH_MM   0.9
#define TEXTURE_MM 0.26 /* a texture's lines */

enum { TEXT_MOST = 600 };

static const double pi = 3.14159265358979323846;

struct pare_page {
    pare_draw_library call;
    pare_page_form form;
    double width_mm, height_mm;
    cairo_surface_t *surface;
    cairo_t *cairo;
    PangoFontMap *fonts;
    PangoContext *context;
    PangoLayout *layout;
    pare_text bytes;
    bool short_of_text; /* some was not set, for want of memory */
};

static const double inks[PARE_INKS][3] = {
    [PARE_INK_PAPER] = {1, 1, 1},          [PARE_INK_FAINT] = {0.945, 0.945, 0.93},
    [PARE_INK_PALE] = {0.82, 0.83, 0.82},  [PARE_INK_GREY] = {0.42, 0.44, 0.45},
    [PARE_INK_BLACK] = {0.11, 0.14, 0.17}, [PARE_INK_CLAY] = {0.66, 0.26, 0.12},
};

static cairo_status_t put(void *context, const unsigned char *bytes, unsigned length)
{
    pare_text *out = context;
    pare_text_put(out, (const char *)bytes, length);
    return out->failed ? CAIRO_STATUS_NO_MEMORY : CAIRO_STATUS_SUCCESS;
}

static bool open_text(pare_page *page)
{
    page->fonts = page->call.pango_cairo_font_map_new();
    page->context = page->fonts ? page->call.pango_font_map_create_context(page->fonts) : NULL;
    if (!page->context)
        return false;
    cairo_font_options_t *options = page->call.cairo_font_options_create();
    page->call.cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    page->call.cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    page->call.cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    page->call.pango_cairo_context_set_font_options(page->context, options);
    page->call.cairo_font_options_destroy(options);
    page->call.pango_cairo_context_set_resolution(page->context, 72);
    page->call.pango_context_set_language(page->context,
                                          page->call.pango_language_from_string("en"));
    page->call.pango_context_set_round_glyph_positions(page->context, FALSE);
    page->call.pango_cairo_update_context(page->cairo, page->context);
    page->layout = page->call.pango_layout_new(page->context);
    return page->layout != NULL;
}

static void blank(pare_page *page)
{
    pare_page_box(page, (pare_box){0, 0, page->width_mm, page->height_mm}, PARE_INK_PAPER,
                  (pare_pen){0});
}

pare_status pare_page_open(pare_page_form form, double width_mm, double height_mm,
                           pare_page **opened, pare_error *err)
{
    pare_page *page = calloc(1, sizeof *page);
    *opened = NULL;
    if (!page)
        return pare_no_memory(err);
    const pare_status status = pare_draw_library_open(&page->call, err);
    if (status != PARE_OK) {
        free(page);
        return status;
    }
    page->form = form;
    double scale = PARE_PAGE_DOTS_A_MM;
    if (form == PARE_PAGE_PDF) {
        scale = 1 / POINT_MM;
        page->surface = page->call.cairo_pdf_surface_create_for_stream(
            put, &page->bytes, width_mm * scale, height_mm * scale);
    } else if (form == PARE_PAGE_SVG) {
        scale = 1 / POINT_MM;
        page->surface = page->call.cairo_svg_surface_create_for_stream(
            put, &page->bytes, width_mm * scale, height_mm * scale);
    } else {
        page->surface = page->call.cairo_image_surface_create(
            CAIRO_FORMAT_RGB24, (int)lround(width_mm * scale), (int)lround(height_mm * scale));
    }
    page->cairo = page->call.cairo_create(page->surface);
    page->call.cairo_scale(page->cairo, scale, scale);
    page->call.cairo_set_line_cap(page->cairo, CAIRO_LINE_CAP_BUTT);
    page->call.cairo_set_line_join(page->cairo, CAIRO_LINE_JOIN_ROUND);
    page->call.cairo_set_fill_rule(page->cairo, CAIRO_FILL_RULE_EVEN_ODD);
    if (page->call.cairo_status(page->cairo) != CAIRO_STATUS_SUCCESS || !open_text(page)) {
        pare_page_close(page);
        return pare_no_memory(err);
    }
    page->width_mm = width_mm;
    page->height_mm = height_mm;
    blank(page);
    *opened = page;
    return PARE_OK;
}

void pare_page_next(pare_page *page)
{
    page->call.cairo_show_page(page->cairo);
    blank(page);
}

void pare_page_close(pare_page *page)
{
    if (!page)
        return;
    if (page->layout)
        page->call.g_object_unref(page->layout);
    if (page->context)
        page->call.g_object_unref(page->context);
    if (page->fonts)
        page->call.g_object_unref(page->fonts);
    page->call.cairo_destroy(page->cairo);
    page->call.cairo_surface_destroy(page->surface);
    pare_text_free(&page->bytes);
    free(page);
}

static void use_ink(const pare_page *page, pare_ink ink)
{
    page->call.cairo_set_source_rgb(page->cairo, inks[ink][0], inks[ink][1], inks[ink][2]);
}

/* Fills and strokes the path under way, and ends it. */
static void paint(const pare_page *page, pare_ink fill, pare_pen pen)
{
    if (fill != PARE_INK_NONE) {
        use_ink(page, fill);
        page->call.cairo_fill_preserve(page->cairo);
    }
    if (pen.width_mm > 0 && pen.ink != PARE_INK_NONE) {
        const double dash[2] = {pen.dash_mm, 0.7 * pen.dash_mm};
        use_ink(page, pen.ink);
        page->call.cairo_set_line_width(page->cairo, pen.width_mm);
        page->call.cairo_set_dash(page->cairo, dash, pen.dash_mm > 0 ? 2 : 0, 0);
        page->call.cairo_stroke_preserve(page->cairo);
    }
    page->call.cairo_new_path(page->cairo);
}

void pare_page_line(pare_page *page, double x0, double y0, double x1, double y1, pare_pen pen)
{
    const double at[2][2] = {{x0, y0}, {x1, y1}};
    pare_page_lines(page, 2, at, pen);
}

static void walk(const pare_page *page, size_t points, const double (*at)[2])
{
    double x = 0, y = 0;
    for (size_t i = 0; i < points; i++) {
        if (i > 0 && i + 1 < points && hypot(at[i][0] - x, at[i][1] - y) < NEAR_MM)
            continue;
        x = at[i][0];
        y = at[i][1];
        if (i == 0)
            page->call.cairo_move_to(page->cairo, x, y);
        else
            page->call.cairo_line_to(page->cairo, x, y);
    }
}

void pare_page_lines(pare_page *page, size_t points, const double (*at)[2], pare_pen pen)
{
    walk(page, points, at);
    paint(page, PARE_INK_NONE, pen);
}

void pare_page_area(pare_page *page, size_t loops, const pare_outline loop[], pare_ink fill,
                    pare_pen pen)
{
    for (size_t i = 0; i < loops; i++) {
        walk(page, loop[i].points, loop[i].at_m);
        page->call.cairo_close_path(page->cairo);
    }
    paint(page, fill, pen);
}

void pare_page_box(pare_page *page, pare_box box, pare_ink fill, pare_pen pen)
{
    page->call.cairo_rectangle(page->cairo, box.x, box.y, box.width, box.height);
    paint(page, fill, pen);
}

void pare_page_ellipse(pare_page *page, double x, double y, double radius_x, double radius_y,
                       double turn_rad, pare_ink fill, pare_pen pen)
{
    page->call.cairo_save(page->cairo);
    page->call.cairo_translate(page->cairo, x, y);
    page->call.cairo_rotate(page->cairo, -turn_rad);
    page->call.cairo_scale(page->cairo, fmax(radius_x, 1e-3), fmax(radius_y, 1e-3));
    page->call.cairo_arc(page->cairo, 0, 0, 1, 0, 2 * pi);
    page->call.cairo_close_path(page->cairo);
    page->call.cairo_restore(page->cairo);
    paint(page, fill, pen);
}

void pare_page_sector(pare_page *page, double x, double y, double radius, double from_rad,
                      double to_rad, pare_ink fill)
{
    page->call.cairo_move_to(page->cairo, x, y);
    page->call.cairo_arc_negative(page->cairo, x, y, radius, -from_rad, -to_rad);
    page->call.cairo_close_path(page->cairo);
    paint(page, fill, (pare_pen){0});
}

void pare_page_arrow(pare_page *page, double x0, double y0, double x1, double y1, pare_pen pen)
{
    const double length = hypot(x1 - x0, y1 - y0);
    if (!(length > 0))
        return;
    const double head = fmin(1.8, length), ux = (x1 - x0) / length, uy = (y1 - y0) / length;
    const double x = x1 - head * ux, y = y1 - head * uy, half = 0.32 * head;
    const double tip[3][2] = {
        {x1, y1}, {x - half * uy, y + half * ux}, {x + half * uy, y - half * ux}};
    const pare_outline loop = {3, tip};
    pare_page_line(page, x0, y0, x, y, pen);
    pare_page_area(page, 1, &loop, pen.ink, (pare_pen){0});
}

/* ---- textures ---- */

static void level_lines(pare_page *page, pare_box box, double apart_mm)
{
    const pare_pen pen = {PARE_INK_BLACK, TEXTURE_MM, 0};
    const int count = (int)floor(box.height / apart_mm);
    for (int i = 0; i < count; i++) {
        const double y = box.y + (i + 0.5) * box.height / count;
        pare_page_line(page, box.x, y, box.x + box.width, y, pen);
    }
}

/* Dots stand on one grid for the whole page, so that neighbours join. */
static void dots(pare_page *page, pare_box box)
{
    const double r = 0.17;
    const int rows = (int)floor(box.height / DOTS_MM);
    for (int row = 0; row < rows; row++) {
        const double y = box.y + (row + 0.5) * box.height / rows;
        const double shift = row % 2 ? DOTS_MM / 2 : 0;
        for (double k = ceil((box.x + r - shift) / DOTS_MM);
             k * DOTS_MM + shift <= box.x + box.width - r; k += 1)
            pare_page_ellipse(page, k * DOTS_MM + shift, y, r, r, 0, PARE_INK_BLACK, (pare_pen){0});
    }
}

/* Lines x - y = k, cut to the box. */
static void hatch(pare_page *page, pare_box box)
{
    const pare_pen pen = {PARE_INK_CLAY, TEXTURE_MM, 0};
    const double low = box.x + box.y, high = low + box.width + box.height;
    for (double k = ceil(low / HATCH_MM); k * HATCH_MM < high; k += 1) {
        const double sum = k * HATCH_MM;
        const double y0 = fmin(box.y + box.height, sum - box.x);
        const double y1 = fmax(box.y, sum - box.x - box.width);
        if (y0 > y1)
            pare_page_line(page, sum - y0, y0, sum - y1, y1, pen);
    }
}

void pare_page_texture(pare_page *page, pare_box box, pare_texture texture)
{
    if (!(box.width > 0 && box.height > 0))
        return;
    switch (texture) {
    case PARE_TEXTURE_FULL:
        pare_page_box(page, box, PARE_INK_BLACK, (pare_pen){0});
        return;
    case PARE_TEXTURE_LINES:
        level_lines(page, box, LINES_MM);
        return;
    case PARE_TEXTURE_WIDE:
        level_lines(page, box, WIDE_MM);
        return;
    case PARE_TEXTURE_DOTS:
        dots(page, box);
        return;
    case PARE_TEXTURE_HATCH:
        hatch(page, box);
        return;
    }
}

/* ---- text ---- */

/* Marks that turn the direction of what follows would let a name rewrite the page. */
static bool is_harmless(const pare_page *page, gunichar c)
{
    return !page->call.g_unichar_iscntrl(c) && page->call.g_unichar_isdefined(c) &&
           page->call.g_unichar_type(c) != G_UNICODE_FORMAT && c != 0x2028 && c != 0x2029;
}

/* Text as it may be set: valid UTF-8, one line, not endless. */
static void clean(const pare_page *page, const char *text, pare_text *out)
{
    const char *at = text;
    while (*at && at - text < TEXT_MOST) {
        const gunichar c = page->call.g_utf8_get_char_validated(at, -1);
        const bool valid = c != (gunichar)-1 && c != (gunichar)-2;
        const size_t length = valid ? (size_t)page->call.g_unichar_to_utf8(c, NULL) : 1;
        if (valid && is_harmless(page, c))
            pare_text_put(out, at, length);
        else
            pare_text_add(out, "?");
        at += length;
    }
    if (*at)
        pare_text_add(out, "\u2026");
}

static void set_text(pare_page *page, const pare_type *type, const char *text, bool wrap)
{
    pare_text cleaned = {0};
    PangoFontDescription *font = page->call.pango_font_description_new();
    page->call.pango_font_description_set_family_static(font, FONT);
    page->call.pango_font_description_set_weight(font, type->bold ? PANGO_WEIGHT_BOLD
                                                                  : PANGO_WEIGHT_NORMAL);
    page->call.pango_font_description_set_absolute_size(font, type->size_mm * PANGO_SCALE);
    page->call.pango_layout_set_font_description(page->layout, font);
    page->call.pango_font_description_free(font);
    page->call.pango_layout_set_width(
        page->layout, type->most_mm > 0 ? (int)lround(type->most_mm * PANGO_SCALE) : -1);
    page->call.pango_layout_set_single_paragraph_mode(page->layout, TRUE);
    page->call.pango_layout_set_auto_dir(page->layout, FALSE);
    page->call.pango_layout_set_ellipsize(page->layout,
                                          wrap ? PANGO_ELLIPSIZE_NONE : PANGO_ELLIPSIZE_END);
    page->call.pango_layout_set_wrap(page->layout, PANGO_WRAP_WORD_CHAR);
    clean(page, text, &cleaned);
    page->call.pango_layout_set_text(page->layout, pare_text_all(&cleaned), -1);
    page->short_of_text |= cleaned.failed;
    pare_text_free(&cleaned);
}

const char *pare_page_line_of(pare_page *page, const pare_text *text)
{
    page->short_of_text |= text->failed;
    return pare_text_all(text);
}

static double width_of(const pare_page *page)
{
    PangoRectangle logical;
    page->call.pango_layout_get_extents(page->layout, NULL, &logical);
    return (double)logical.width / PANGO_SCALE;
}

double pare_page_text_width(pare_page *page, const pare_type *type, const char *text)
{
    set_text(page, type, text, false);
    return width_of(page);
}

static void show(const pare_page *page, double x, double y, pare_ink ink)
{
    use_ink(page, ink);
    page->call.cairo_move_to(page->cairo, x,
                             y - (double)page->call.pango_layout_get_baseline(page->layout) /
                                     PANGO_SCALE);
    page->call.pango_cairo_show_layout(page->cairo, page->layout);
    page->call.cairo_new_path(page->cairo);
}

double pare_page_text(pare_page *page, double x, double y, const pare_type *type, const char *text)
{
    set_text(page, type, text, false);
    const double width = width_of(page);
    const double left = type->align == PARE_ALIGN_LEFT     ? 0
                        : type->align == PARE_ALIGN_MIDDLE ? width / 2
                                                           : width;
    show(page, x - left, y, type->ink);
    return width;
}

static double height_of(const pare_page *page)
{
    PangoRectangle logical;
    page->call.pango_layout_get_extents(page->layout, NULL, &logical);
    return (double)logical.height / PANGO_SCALE;
}

double pare_page_words_height(pare_page *page, const pare_type *type, const char *text)
{
    set_text(page, type, text, true);
    return height_of(page);
}

double pare_page_words(pare_page *page, double x, double y, const pare_type *type, const char *text)
{
    set_text(page, type, text, true);
    show(page, x, y, type->ink);
    return height_of(page);
}

/* ---- the end ---- */

static void put_element(const pare_page *page, pare_text *out, const char *name, const char *text)
{
    pare_text cleaned = {0};
    clean(page, text, &cleaned);
    pare_text_printf(out, "\n<%s>", name);
    for (const char *c = pare_text_all(&cleaned); *c; c++)
        switch (*c) {
        case '&':
            pare_text_add(out, "&amp;");
            break;
        case '<':
            pare_text_add(out, "&lt;");
            break;
        case '>':
            pare_text_add(out, "&gt;");
            break;
        default:
            pare_text_put(out, c, 1);
        }
    pare_text_printf(out, "</%s>", name);
    out->failed |= cleaned.failed;
    pare_text_free(&cleaned);
}

/* cairo knows no titles: they go behind the opening of the svg element. */
static void put_svg(const pare_page *page, const char *title, const char *description,
                    pare_text *out)
{
    const pare_text *svg = &page->bytes;
    const char *open = svg->bytes ? strstr(svg->bytes, "<svg") : NULL;
    const char *end = open ? strchr(open, '>') : NULL;
    if (!end) {
        out->failed = true;
        return;
    }
    const size_t head = (size_t)(end + 1 - svg->bytes);
    pare_text_put(out, svg->bytes, head);
    put_element(page, out, "title", title);
    put_element(page, out, "desc", description);
    pare_svg_named_anew(svg->bytes + head, svg->length - head, out);
}

/* The day of making is fixed: the same page gives the same bytes. */
static cairo_status_t finish_pdf(const pare_page *page, const char *title, const char *description,
                                 pare_text *out)
{
    pare_text cleaned[2] = {{0}, {0}};
    clean(page, title, &cleaned[0]);
    clean(page, description, &cleaned[1]);
    const cairo_pdf_metadata_t of[2] = {CAIRO_PDF_METADATA_TITLE, CAIRO_PDF_METADATA_SUBJECT};
    for (int i = 0; i < 2; i++) {
        if (cleaned[i].bytes)
            page->call.cairo_pdf_surface_set_metadata(page->surface, of[i], cleaned[i].bytes);
        out->failed |= cleaned[i].failed;
        pare_text_free(&cleaned[i]);
    }
    page->call.cairo_pdf_surface_set_metadata(page->surface, CAIRO_PDF_METADATA_CREATE_DATE,
                                              "2000-01-01T00:00:00Z");
    page->call.cairo_surface_finish(page->surface);
    if (page->bytes.bytes)
        pare_text_put(out, page->bytes.bytes, page->bytes.length);
    out->failed |= page->bytes.failed;
    return page->call.cairo_surface_status(page->surface);
}

pare_status pare_page_finish(pare_page *page, const char *title, const char *description,
                             pare_text *out, pare_error *err)
{
    cairo_status_t status = page->call.cairo_status(page->cairo);
    if (status == CAIRO_STATUS_SUCCESS && page->form == PARE_PAGE_PNG)
        status = page->call.cairo_surface_write_to_png_stream(page->surface, put, out);
    if (status == CAIRO_STATUS_SUCCESS && page->form == PARE_PAGE_PDF)
        status = finish_pdf(page, title, description, out);
    if (status == CAIRO_STATUS_SUCCESS && page->form == PARE_PAGE_SVG) {
        page->call.cairo_surface_finish(page->surface);
        status = page->call.cairo_surface_status(page->surface);
        if (status == CAIRO_STATUS_SUCCESS)
            put_svg(page, title, description, out);
    }
    if (page->short_of_text || out->failed || status == CAIRO_STATUS_NO_MEMORY)
        return pare_no_memory(err);
    if (status != CAIRO_STATUS_SUCCESS)
        return pare_fail(err, PARE_UNAVAILABLE, "the picture cannot be drawn (%s)",
                         page->call.cairo_status_to_string(status));
    return PARE_OK;
}
