/* svg.c: reading SVG (see svg.h).
 *
 * Elements come one by one; a stack holds the map of each group that is open, and whatever cannot
 * hold an outline is passed over with all that is in it. What a shape is filled or stroked with makes
 * no difference: a cutter follows each line.
 *
 * Source: SVG 1.1 (W3C recommendation, 2nd ed. 2011), chapters 7 to 9. */
#include "store/svg.h"

#include <math.h>
#include <string.h>

#include "store/svg_path.h"
#include "store/xml.h"

enum { DEEPEST = 200, SHOWN = 24 };

#define SVG     "http://www.w3.org/2000/svg"
#define PIXEL_M (0.0254 / 96)

static const double pi = 3.14159265358979323846;

typedef struct scan {
    pare_drawing drawing;
    pare_affine map[DEEPEST + 1]; /* of each element that is open */
    int depth, passed;            /* passed: levels within what is passed over */
} scan;

typedef const char *const *attributes;

/* ---- lengths ---- */

/* A length in pixels. */
static bool length_of(const char *text, double *pixels)
{
    static const struct {
        const char *name;
        double pixels;
    } units[] = {{"", 1},    {"px", 1},         {"mm", 96 / 25.4}, {"cm", 96 / 2.54},
                 {"in", 96}, {"pt", 96.0 / 72}, {"pc", 16}};
    double value = 0;
    if (!pare_svg_number(&text, &value))
        return false;
    size_t end = strlen(text);
    while (end > 0 && strchr(" \t\r\n", text[end - 1]))
        end--;
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (strlen(units[i].name) == end && memcmp(units[i].name, text, end) == 0) {
            *pixels = value * units[i].pixels;
            return true;
        }
    return false;
}

/* An attribute's length, or what it is without one. */
static double take_length(pare_xml *xml, attributes a, const char *name, double otherwise)
{
    const char *text = pare_xml_attribute(a, name);
    double pixels = otherwise;
    if (text && !length_of(text, &pixels))
        pare_xml_refuse(xml, "%s is '%.*s'; right would be a length like 12.5 or 12.5mm", name,
                        SHOWN, text);
    return pixels;
}

/* ---- the drawing as a whole ---- */

static bool states_size(const char *text)
{
    return text && !strchr(text, '%') && strcmp(text, "auto") != 0;
}

/* The root's scale, in metres a user unit; y is turned up. */
static void begin_drawing(scan *s, pare_xml *xml, attributes a)
{
    const char *box = pare_xml_attribute(a, "viewBox"), *at = box,
               *fit = pare_xml_attribute(a, "preserveAspectRatio");
    const char *size[2] = {pare_xml_attribute(a, "width"), pare_xml_attribute(a, "height")};
    double view[4] = {0}, scale[2] = {1, 1}, pixels = 0;
    if (box)
        for (int i = 0; i < 4; i++)
            if (!pare_svg_number(&at, &view[i]) || (i > 1 && !(view[i] > 0))) {
                pare_xml_refuse(xml,
                                "viewBox is '%.*s'; right would be four numbers, the last two "
                                "above 0",
                                SHOWN, box);
                return;
            }
    bool stated[2];
    for (int k = 0; k < 2; k++) {
        stated[k] = states_size(size[k]);
        if (!stated[k])
            continue;
        if (!length_of(size[k], &pixels) || !(pixels > 0)) {
            pare_xml_refuse(xml, "%s is '%.*s'; right would be a length above 0, like 120mm",
                            k ? "height" : "width", SHOWN, size[k]);
            return;
        }
        if (box)
            scale[k] = pixels / view[2 + k];
    }
    if (stated[0] != stated[1])
        scale[0] = scale[1] = stated[0] ? scale[0] : scale[1];
    else if (!(fit && strncmp(fit, "none", 4) == 0))
        scale[0] = scale[1] =
            fit && strstr(fit, "slice") ? fmax(scale[0], scale[1]) : fmin(scale[0], scale[1]);
    s->map[s->depth] = (pare_affine){{scale[0] * PIXEL_M, 0, 0, -scale[1] * PIXEL_M, 0, 0}};
}

/* ---- shapes ---- */

static void draw_ellipse(scan *s, pare_xml *xml, attributes a, bool circle)
{
    const double x = take_length(xml, a, "cx", 0), y = take_length(xml, a, "cy", 0);
    const double rx = take_length(xml, a, circle ? "r" : "rx", 0),
                 ry = circle ? rx : take_length(xml, a, "ry", 0);
    const double c[2] = {x, y}, u[2] = {rx, 0}, v[2] = {0, ry};
    if (pare_xml_refused(xml))
        return;
    if (rx < 0 || ry < 0) {
        pare_xml_refuse(xml, "a radius below 0; right would be greater");
        return;
    }
    if (rx == 0 || ry == 0)
        return; /* not drawn, by the standard */
    pare_draw_from(&s->drawing, x + rx, y);
    pare_draw_arc(&s->drawing, c, u, v, 0, 2 * pi);
    pare_draw_end(&s->drawing, true);
}

static void draw_rectangle(scan *s, pare_xml *xml, attributes a)
{
    const double x = take_length(xml, a, "x", 0), y = take_length(xml, a, "y", 0),
                 w = take_length(xml, a, "width", 0), h = take_length(xml, a, "height", 0);
    double rx = take_length(xml, a, "rx", -1), ry = take_length(xml, a, "ry", -1);
    if (pare_xml_refused(xml))
        return;
    if (w < 0 || h < 0) {
        pare_xml_refuse(xml, "a rectangle of %g x %g; right would be 0 or more", w, h);
        return;
    }
    if (w == 0 || h == 0)
        return;
    rx = fmin(rx < 0 ? fmax(ry, 0) : rx, w / 2);
    ry = fmin(ry < 0 ? rx : ry, h / 2);
    const bool round = rx > 0 && ry > 0;
    if (!round)
        rx = ry = 0;
    const double centre[4][2] = {
        {x + w - rx, y + ry}, {x + w - rx, y + h - ry}, {x + rx, y + h - ry}, {x + rx, y + ry}};
    const double u[2] = {rx, 0}, v[2] = {0, ry};
    pare_drawing *d = &s->drawing;
    pare_draw_from(d, x + rx, y);
    for (int i = 0; i < 4; i++) {
        const double from = (i - 1) * pi / 2;
        pare_draw_line(d, centre[i][0] + rx * cos(from), centre[i][1] + ry * sin(from));
        if (round)
            pare_draw_arc(d, centre[i], u, v, from, from + pi / 2);
    }
    pare_draw_end(d, true);
}

static void draw_line(scan *s, pare_xml *xml, attributes a)
{
    const double p[4] = {take_length(xml, a, "x1", 0), take_length(xml, a, "y1", 0),
                         take_length(xml, a, "x2", 0), take_length(xml, a, "y2", 0)};
    if (pare_xml_refused(xml))
        return;
    pare_draw_from(&s->drawing, p[0], p[1]);
    pare_draw_line(&s->drawing, p[2], p[3]);
    pare_draw_end(&s->drawing, false);
}

static void draw_data(scan *s, pare_xml *xml, attributes a, const char *name, const char *key)
{
    const char *data = pare_xml_attribute(a, key);
    if (!data)
        return; /* draws nothing, by the standard */
    const char *wrong = strcmp(name, "path") == 0
                            ? pare_svg_draw_path(data, &s->drawing)
                            : pare_svg_draw_points(data, strcmp(name, "polygon") == 0, &s->drawing);
    if (wrong)
        pare_xml_refuse(xml, "%s: its %s make no sense from '%.*s'; right would be %s", name,
                        strcmp(key, "d") == 0 ? "data" : "points", SHOWN, wrong,
                        strcmp(key, "d") == 0 ? "commands M L H V C S Q T A Z with their numbers"
                                              : "pairs of numbers");
}

/* Anything that is no shape draws nothing. */
static void draw_shape(scan *s, pare_xml *xml, const char *name, attributes a)
{
    if (strcmp(name, "path") == 0)
        draw_data(s, xml, a, name, "d");
    else if (strcmp(name, "polygon") == 0 || strcmp(name, "polyline") == 0)
        draw_data(s, xml, a, name, "points");
    else if (strcmp(name, "rect") == 0)
        draw_rectangle(s, xml, a);
    else if (strcmp(name, "circle") == 0 || strcmp(name, "ellipse") == 0)
        draw_ellipse(s, xml, a, name[0] == 'c');
    else if (strcmp(name, "line") == 0)
        draw_line(s, xml, a);
}

/* ---- elements ---- */

static bool is_hidden(attributes a)
{
    const char *display = pare_xml_attribute(a, "display"), *style = pare_xml_attribute(a, "style");
    const char *in_style = style ? strstr(style, "display") : NULL;
    if (display && strcmp(display, "none") == 0)
        return true;
    if (!in_style)
        return false;
    in_style += strlen("display");
    in_style += strspn(in_style, " :");
    return strncmp(in_style, "none", 4) == 0;
}

/* The map of an element within what is open. */
static bool take_map(scan *s, pare_xml *xml, attributes a)
{
    const char *list = pare_xml_attribute(a, "transform"), *style = pare_xml_attribute(a, "style");
    pare_affine *map = &s->map[s->depth];
    if (s->depth > 1)
        *map = s->map[s->depth - 1];
    const char *wrong = list ? pare_svg_transform(list, map) : NULL;
    if (wrong)
        pare_xml_refuse(xml,
                        "transform makes no sense from '%.*s'; right would be matrix, translate, "
                        "scale, rotate, skewX or skewY",
                        SHOWN, wrong);
    else if (style && strstr(style, "transform"))
        pare_xml_refuse(xml, "a style that moves the shape; right would be a transform attribute");
    else
        s->drawing.map = *map;
    return !pare_xml_refused(xml);
}

static void begin(void *context, pare_xml *xml, const char *element, attributes a)
{
    scan *s = context;
    const char *name = pare_xml_local(element, SVG, true);
    s->depth++;
    if (s->passed) {
        s->passed++;
        if (name && strcmp(name, "script") == 0)
            pare_xml_refuse(xml, "a script; right would be a plain drawing");
        return;
    }
    if (s->depth == 1) {
        if (!name || strcmp(name, "svg") != 0) {
            pare_xml_refuse(xml, "not SVG: it begins with <%.*s>; right would be <svg>", SHOWN,
                            element);
            return;
        }
        begin_drawing(s, xml, a);
        if (!pare_xml_refused(xml))
            take_map(s, xml, a);
        return;
    }
    if (!name) {
        s->passed = 1;
        return;
    }
    if (strcmp(name, "script") == 0) {
        pare_xml_refuse(xml, "a script; right would be a plain drawing");
    } else if (strcmp(name, "use") == 0 || strcmp(name, "svg") == 0) {
        pare_xml_refuse(xml, "<%s> is not read; right would be the shapes themselves", name);
    } else if (is_hidden(a)) {
        s->passed = 1;
    } else if (take_map(s, xml, a) && strcmp(name, "g") != 0 && strcmp(name, "a") != 0 &&
               strcmp(name, "switch") != 0) {
        draw_shape(s, xml, name, a);
        s->passed = 1; /* what is within a shape is no outline either */
    }
}

static void end(void *context, pare_xml *xml, const char *element)
{
    scan *s = context;
    (void)xml;
    (void)element;
    s->depth--;
    if (s->passed)
        s->passed--;
}

pare_status pare_svg_measure(const char *name, const char *bytes, size_t length, pare_loops *keep,
                             pare_outline_facts *facts, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    scan *s = arena ? pare_arena_zeros(arena, sizeof *s) : NULL;
    const pare_xml_reader reader = {
        .name = name, .doctype = true, .context = s, .begin = begin, .end = end};
    pare_xml *xml = s ? pare_xml_open(&reader) : NULL;
    pare_status status = xml ? PARE_OK : pare_no_memory(err);
    if (xml) {
        s->drawing.arena = arena;
        s->drawing.keep = keep;
        status = pare_xml_feed(xml, bytes, length, true, err);
    }
    if (status == PARE_OK)
        status = pare_drawing_measure(name, &s->drawing, facts, err);
    pare_xml_close(xml);
    pare_arena_close(arena);
    return status;
}
