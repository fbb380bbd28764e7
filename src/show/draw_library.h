/* draw_library.h: cairo and pango, loaded when a page is drawn and not before. Inside the room only.
 *
 * Linked in the usual way they bring thirty shared libraries, which cost every command 7 ms at its
 * start, drawing or not: half of what a whole sheet takes. So the functions are found by name once a
 * page is opened; the libraries' own headers give their types. */
#ifndef PARE_SHOW_DRAW_LIBRARY_H
#define PARE_SHOW_DRAW_LIBRARY_H

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <pango/pangocairo.h>

#include "base/error.h"

/** Every function that draw_page.c calls; all are found through libpangocairo and what it needs. */
/* clang-format off */
#define PARE_DRAW_FUNCTIONS(each) \
    each(cairo_arc) each(cairo_arc_negative) each(cairo_close_path) each(cairo_create) \
    each(cairo_destroy) each(cairo_fill_preserve) each(cairo_font_options_create) \
    each(cairo_font_options_destroy) each(cairo_font_options_set_antialias) \
    each(cairo_font_options_set_hint_metrics) each(cairo_font_options_set_hint_style) \
    each(cairo_image_surface_create) each(cairo_line_to) each(cairo_move_to) \
    each(cairo_new_path) each(cairo_pdf_surface_create_for_stream) \
    each(cairo_pdf_surface_set_metadata) each(cairo_rectangle) each(cairo_restore) each(cairo_rotate) \
    each(cairo_save) each(cairo_scale) each(cairo_set_dash) each(cairo_set_fill_rule) \
    each(cairo_set_line_cap) each(cairo_set_line_join) each(cairo_set_line_width) \
    each(cairo_set_source_rgb) each(cairo_show_page) each(cairo_status) each(cairo_status_to_string) \
    each(cairo_stroke_preserve) each(cairo_surface_destroy) each(cairo_surface_finish) \
    each(cairo_surface_status) each(cairo_surface_write_to_png_stream) \
    each(cairo_svg_surface_create_for_stream) each(cairo_translate) each(g_object_unref) \
    each(g_unichar_iscntrl) each(g_unichar_isdefined) each(g_unichar_to_utf8) \
    each(g_unichar_type) each(g_utf8_get_char_validated) \
    each(pango_cairo_context_set_font_options) each(pango_cairo_context_set_resolution) \
    each(pango_cairo_font_map_new) each(pango_cairo_show_layout) \
    each(pango_cairo_update_context) each(pango_context_set_language) \
    each(pango_context_set_round_glyph_positions) each(pango_font_description_free) \
    each(pango_font_description_new) each(pango_font_description_set_absolute_size) \
    each(pango_font_description_set_family_static) each(pango_font_description_set_weight) \
    each(pango_font_map_create_context) each(pango_language_from_string) \
    each(pango_layout_get_baseline) each(pango_layout_get_extents) each(pango_layout_new) \
    each(pango_layout_set_auto_dir) each(pango_layout_set_ellipsize) \
    each(pango_layout_set_font_description) each(pango_layout_set_single_paragraph_mode) \
    each(pango_layout_set_text) each(pango_layout_set_width) each(pango_layout_set_wrap)
/* clang-format on */

/** The functions under their own names. */
typedef struct pare_draw_library {
#define PARE_DRAW_MEMBER(name) __typeof__(name) *name; /* NOLINT(bugprone-macro-parentheses) */
    PARE_DRAW_FUNCTIONS(PARE_DRAW_MEMBER)
#undef PARE_DRAW_MEMBER
} pare_draw_library;

/** Loads them; they stay until the program ends, as glib wants it.
 * @return PARE_OK, or PARE_UNAVAILABLE, naming the library or the function that is not there */
pare_status pare_draw_library_open(pare_draw_library *library, pare_error *err);

#endif
