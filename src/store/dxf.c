/* dxf.c: reading DXF (see dxf.h).
 *
 * The text is pairs of lines: a code, and a value whose kind the code tells. Entities follow one
 * another; each is gathered into a record of the values that outlines need, and drawn when the next
 * code 0 comes. A polyline of the older kind is a header, one record a corner and SEQEND; its
 * corners go straight into the stroke under way, as do those of the newer LWPOLYLINE, where each
 * code 10 begins a corner.
 *
 * A bulge is the tangent of a quarter of the angle that its arc turns through, positive to the left.
 * Codes 210 to 230 say which way a drawing's plane faces; facing down mirrors x. Other planes are
 * refused: their outline is not the plate's.
 *
 * Source: the published DXF reference, sections "Group codes" and "ENTITIES" (from memory). */
#include "store/dxf.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"

enum { LONGEST_NUMBER = 63, SHOWN = 32 };

static const double pi = 3.14159265358979323846;

/* A corner of a polyline: where, and the bulge on the way to the next. */
typedef struct corner {
    double x, y, bulge;
} corner;

/* The values of an entity, by what they mean for an outline. */
typedef struct entity {
    char type[SHOWN + 1];
    size_t line;
    double x, y, to_x, to_y; /* 10, 20; 11, 21 */
    double radius;           /* 40; an ellipse's ratio */
    double from, to;         /* 50, 51 in degrees; an ellipse's 41, 42 */
    double bulge;            /* 42 */
    double normal[3];        /* 210, 220, 230 */
    long flags;              /* 70 */
    bool paper;              /* 67: on the sheet round the drawing */
    bool has_from, has_to;
} entity;

typedef struct scan {
    const char *name, *at, *end;
    size_t line; /* of the code at hand */
    long code;
    const char *value;
    size_t length; /* of the value */
    pare_arena *arena;
    pare_drawing drawing;
    bool in_header, in_entities, units_next, section_next, ended;
    entity now;
    corner *corners; /* of the polyline under way */
    size_t corner_count, corner_size;
    bool in_polyline; /* between POLYLINE and SEQEND */
    entity polyline;
} scan;

/* ---- pairs ---- */

/* One line without its end and the blanks round it. */
static bool next_line(scan *s, const char **text, size_t *length)
{
    if (s->at == s->end)
        return false;
    const char *end = memchr(s->at, '\n', (size_t)(s->end - s->at));
    const char *from = s->at, *to = end ? end : s->end;
    s->at = end ? end + 1 : s->end;
    s->line++;
    while (from < to && (*from == ' ' || *from == '\t'))
        from++;
    while (to > from && (to[-1] == '\r' || to[-1] == ' ' || to[-1] == '\t'))
        to--;
    *text = from;
    *length = (size_t)(to - from);
    return true;
}

static pare_status number(const scan *s, double *value, pare_error *err)
{
    char copy[LONGEST_NUMBER + 1] = "", *end = copy;
    if (s->length > 0 && s->length <= LONGEST_NUMBER) {
        memcpy(copy, s->value, s->length);
        copy[s->length] = 0;
        *value = strtod(copy, &end);
    }
    if (end == copy || *end || !isfinite(*value))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s:%zu: '%.*s' for code %ld; right would be a finite number", s->name,
                         s->line, (int)(s->length < SHOWN ? s->length : SHOWN), s->value, s->code);
    return PARE_OK;
}

static bool is(const scan *s, const char *word)
{
    return s->length == strlen(word) && memcmp(s->value, word, s->length) == 0;
}

/* Whether the first line is that of the form that is not text; a maker's name goes before these words. */
static bool is_binary(const char *line, size_t length)
{
    static const char words[] = " Binary DXF";
    const size_t end = sizeof words - 1;
    return length >= end && memcmp(line + length - end, words, end) == 0;
}

static pare_status next_pair(scan *s, bool *there, pare_error *err)
{
    const char *code = NULL;
    size_t length = 0;
    *there = next_line(s, &code, &length);
    if (!*there || (length == 0 && s->at == s->end)) {
        *there = false;
        return PARE_OK;
    }
    char copy[16] = "", *end = copy;
    if (length > 0 && length < sizeof copy) {
        memcpy(copy, code, length);
        copy[length] = 0;
        s->code = strtol(copy, &end, 10);
    }
    if (s->line == 1 && is_binary(code, length))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a binary DXF file; right would be one saved as text", s->name);
    if (end == copy || *end || s->code < -5 || s->code > 1071)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s:%zu: not a DXF file: '%.*s'; right would be the number of a code",
                         s->name, s->line, (int)(length < SHOWN ? length : SHOWN), code);
    if (!next_line(s, &s->value, &s->length))
        return pare_fail(err, PARE_BAD_DATA, "%s:%zu: cut short: code %ld has no value", s->name,
                         s->line, s->code);
    return PARE_OK;
}

/* ---- units ---- */

static pare_status take_units(scan *s, pare_error *err)
{
    static const struct {
        int code;
        double unit_m;
    } units[] = {{0, 1e-3}, {1, 0.0254},  {2, 0.3048}, {4, 1e-3}, {5, 1e-2},
                 {6, 1},    {9, 25.4e-6}, {13, 1e-6},  {14, 0.1}};
    double code = -1;
    const pare_status status = number(s, &code, err);
    if (status != PARE_OK)
        return status;
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (code == units[i].code) {
            s->drawing.map = (pare_affine){{units[i].unit_m, 0, 0, units[i].unit_m, 0, 0}};
            return PARE_OK;
        }
    return pare_fail(err, PARE_BAD_DATA,
                     "%s:%zu: $INSUNITS is %g; right would be 4 (millimetres), 1 (inches), 5 or 6 "
                     "(centimetres, metres)",
                     s->name, s->line, code);
}

/* ---- drawing ---- */

static pare_status refuse(const scan *s, const entity *e, const char *what, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "%s:%zu: %s: %s", s->name, e->line, e->type, what);
}

/* Whether an entity's plane faces down, which mirrors its x. */
static pare_status facing(const scan *s, const entity *e, double *mirror, pare_error *err)
{
    const double *n = e->normal, length = hypot(hypot(n[0], n[1]), n[2]);
    if (!(length > 0 && fabs(n[2]) >= 0.999999 * length))
        return refuse(s, e, "drawn in a tilted plane; right would be a flat drawing", err);
    *mirror = n[2] < 0 ? -1 : 1;
    return PARE_OK;
}

static pare_status draw_arc(scan *s, const entity *e, bool whole, pare_error *err)
{
    double mirror = 1;
    const pare_status status = facing(s, e, &mirror, err);
    if (status != PARE_OK)
        return status;
    if (!(e->radius > 0))
        return refuse(s, e, "radius 0 or less; right would be greater", err);
    if (!whole && !(e->has_from && e->has_to))
        return refuse(s, e, "without its two angles (codes 50 and 51)", err);
    const double from = whole ? 0 : fmod(e->from, 360) * pi / 180;
    double sweep = whole ? 2 * pi : fmod(e->to - e->from, 360) * pi / 180;
    if (sweep <= 0)
        sweep += 2 * pi;
    const double c[2] = {mirror * e->x, e->y}, u[2] = {mirror * e->radius, 0},
                 v[2] = {0, e->radius};
    pare_draw_from(&s->drawing, c[0] + u[0] * cos(from), c[1] + v[1] * sin(from));
    pare_draw_arc(&s->drawing, c, u, v, from, from + sweep);
    pare_draw_end(&s->drawing, whole);
    return PARE_OK;
}

static pare_status draw_ellipse(scan *s, const entity *e, pare_error *err)
{
    double mirror = 1;
    const pare_status status = facing(s, e, &mirror, err);
    if (status != PARE_OK)
        return status;
    if (!(e->radius > 0 && hypot(e->to_x, e->to_y) > 0))
        return refuse(s, e, "an axis of no length; right would be greater", err);
    /* Its places are the drawing's own whichever way it faces; only the turn from the long axis to
     * the short one follows its plane. */
    const double c[2] = {e->x, e->y}, u[2] = {e->to_x, e->to_y};
    const double v[2] = {-mirror * e->radius * u[1], mirror * e->radius * u[0]};
    double sweep = e->has_to ? fmod(e->to - e->from, 2 * pi) : 0;
    if (sweep <= 1e-9)
        sweep += 2 * pi;
    const double from = fmod(e->from, 2 * pi);
    pare_draw_from(&s->drawing, c[0] + u[0] * cos(from) + v[0] * sin(from),
                   c[1] + u[1] * cos(from) + v[1] * sin(from));
    pare_draw_arc(&s->drawing, c, u, v, from, from + sweep);
    pare_draw_end(&s->drawing, sweep > 2 * pi - 1e-9);
    return PARE_OK;
}

/* The side of a polyline from one corner to the next. */
static pare_status draw_side(scan *s, const entity *e, double mirror, const corner *a,
                             const corner *b, pare_error *err)
{
    if (!(fabs(a->bulge) <= 1e6))
        return refuse(s, e, "a bulge over 1e6; right would be 1 for half a circle", err);
    const double p[2] = {mirror * a->x, a->y}, q[2] = {mirror * b->x, b->y};
    const double bulge = mirror * a->bulge, x = q[0] - p[0], y = q[1] - p[1];
    if (bulge != 0 && (x != 0 || y != 0)) {
        /* The centre lies square to the chord's middle, (1 - b^2) / 4b of the chord to its left. */
        const double off = (1 - bulge * bulge) / (4 * bulge);
        const double c[2] = {p[0] + x / 2 - off * y, p[1] + y / 2 + off * x};
        const double r = hypot(p[0] - c[0], p[1] - c[1]), u[2] = {r, 0}, v[2] = {0, r};
        if (r <= 1e4 * hypot(x, y)) { /* flatter arcs are straight to 1e-5 of their length */
            const double from = atan2(p[1] - c[1], p[0] - c[0]);
            pare_draw_arc(&s->drawing, c, u, v, from, from + 4 * atan(bulge));
        }
    }
    pare_draw_line(&s->drawing, q[0], q[1]);
    return PARE_OK;
}

static pare_status draw_polyline(scan *s, const entity *e, pare_error *err)
{
    double mirror = 1;
    pare_status status = facing(s, e, &mirror, err);
    if (status != PARE_OK || s->corner_count < 2)
        return status;
    const bool closed = e->flags & 1;
    const corner *c = s->corners;
    pare_draw_from(&s->drawing, mirror * c[0].x, c[0].y);
    for (size_t i = 1; i < s->corner_count && status == PARE_OK; i++)
        status = draw_side(s, e, mirror, &c[i - 1], &c[i], err);
    if (status == PARE_OK && closed)
        status = draw_side(s, e, mirror, &c[s->corner_count - 1], &c[0], err);
    pare_draw_end(&s->drawing, closed);
    return status;
}

static pare_status add_corner(scan *s, double x, pare_error *err)
{
    corner *wider =
        pare_grown(s->arena, s->corners, s->corner_count, &s->corner_size, sizeof *wider);
    if (!wider)
        return pare_no_memory(err);
    s->corners = wider;
    s->corners[s->corner_count++] = (corner){.x = x};
    return PARE_OK;
}

/* ---- entities ---- */

static bool is_type(const entity *e, const char *type)
{
    return strcmp(e->type, type) == 0;
}

/* What is on a drawing and no line of the cut. */
static bool is_remark(const entity *e)
{
    static const char *const types[] = {
        "TEXT",   "MTEXT",    "DIMENSION", "POINT", "HATCH",   "LEADER", "MLEADER",    "ATTDEF",
        "ATTRIB", "VIEWPORT", "TOLERANCE", "IMAGE", "WIPEOUT", "SEQEND", "MULTILEADER"};
    for (size_t i = 0; i < sizeof types / sizeof *types; i++)
        if (is_type(e, types[i]))
            return true;
    return false;
}

/* Draws the entity that has just ended. */
static pare_status draw_entity(scan *s, pare_error *err)
{
    const entity e = s->now;
    s->now = (entity){.normal = {0, 0, 1}};
    if (s->in_polyline) {
        if (is_type(&e, "VERTEX")) {
            if (e.flags & 16) /* of the frame that a spline was drawn with */
                return PARE_OK;
            const pare_status status = add_corner(s, e.x, err);
            if (status == PARE_OK) {
                s->corners[s->corner_count - 1].y = e.y;
                s->corners[s->corner_count - 1].bulge = e.bulge;
            }
            return status;
        }
        s->in_polyline = false;
        if (!s->polyline.paper) {
            const pare_status status = draw_polyline(s, &s->polyline, err);
            if (status != PARE_OK)
                return status;
        }
        if (is_type(&e, "SEQEND"))
            return PARE_OK;
    }
    if (is_type(&e, "POLYLINE")) {
        if (e.flags & (8 | 16 | 64))
            return refuse(s, &e, "not flat; right would be a flat polyline", err);
        s->polyline = e;
        s->in_polyline = true;
        s->corner_count = 0;
        return PARE_OK;
    }
    if (!e.type[0] || e.paper || is_remark(&e))
        return PARE_OK;
    if (is_type(&e, "LINE")) {
        pare_draw_from(&s->drawing, e.x, e.y);
        pare_draw_line(&s->drawing, e.to_x, e.to_y);
        pare_draw_end(&s->drawing, false);
        return PARE_OK;
    }
    if (is_type(&e, "CIRCLE") || is_type(&e, "ARC"))
        return draw_arc(s, &e, e.type[0] == 'C', err);
    if (is_type(&e, "ELLIPSE"))
        return draw_ellipse(s, &e, err);
    if (is_type(&e, "LWPOLYLINE"))
        return draw_polyline(s, &e, err);
    return refuse(
        s, &e,
        "is not read; right would be lines, arcs, circles, ellipses and polylines (blocks "
        "taken apart, splines made polylines)",
        err);
}

static pare_status begin_entity(scan *s, pare_error *err)
{
    const pare_status status = draw_entity(s, err);
    const size_t length = s->length < SHOWN ? s->length : SHOWN;
    memcpy(s->now.type, s->value, length);
    s->now.line = s->line;
    if (is_type(&s->now, "LWPOLYLINE"))
        s->corner_count = 0;
    return status;
}

static pare_status end_entities(scan *s, pare_error *err)
{
    const pare_status status = draw_entity(s, err);
    if (status == PARE_OK && s->in_polyline)
        return refuse(s, &s->polyline, "has no end; right would be a SEQEND after its last corner",
                      err);
    return status;
}

static pare_status take_corner_value(scan *s, double value, pare_error *err)
{
    if (s->code == 10)
        return add_corner(s, value, err);
    if (s->corner_count == 0)
        return PARE_OK;
    corner *last = &s->corners[s->corner_count - 1];
    if (s->code == 20)
        last->y = value;
    else if (s->code == 42)
        last->bulge = value;
    return PARE_OK;
}

static pare_status take_value(scan *s, pare_error *err)
{
    entity *e = &s->now;
    double value = 0;
    const long code = s->code;
    const bool wanted =
        (code >= 10 && code <= 59) || (code >= 210 && code <= 239) || code == 67 || code == 70;
    if (!wanted || is_remark(e))
        return PARE_OK;
    pare_status status = number(s, &value, err);
    if (status != PARE_OK)
        return status;
    if (is_type(e, "LWPOLYLINE") && (code == 10 || code == 20 || code == 42))
        return take_corner_value(s, value, err);
    const bool ellipse = is_type(e, "ELLIPSE");
    switch (code) {
    case 10:
        e->x = value;
        break;
    case 20:
        e->y = value;
        break;
    case 11:
        e->to_x = value;
        break;
    case 21:
        e->to_y = value;
        break;
    case 40:
        e->radius = value;
        break;
    case 41:
        if (ellipse)
            e->from = value;
        break;
    case 42:
        e->bulge = value;
        if (ellipse) {
            e->to = value;
            e->has_to = true;
        }
        break;
    case 50:
        e->from = value;
        e->has_from = true;
        break;
    case 51:
        e->to = value;
        e->has_to = true;
        break;
    case 67:
        e->paper = value == 1;
        break;
    case 70:
        e->flags = fabs(value) < 65536 ? (long)value : 0;
        break;
    case 210:
    case 220:
    case 230:
        e->normal[(code - 210) / 10] = value;
        break;
    default:
        break;
    }
    return status;
}

static pare_status take_pair(scan *s, pare_error *err)
{
    if (s->code == 0) {
        const bool over = is(s, "ENDSEC") || is(s, "EOF");
        pare_status status = PARE_OK;
        if (s->in_entities && over)
            status = end_entities(s, err);
        else if (s->in_entities)
            status = begin_entity(s, err);
        if (over)
            s->in_header = s->in_entities = false;
        s->section_next = is(s, "SECTION");
        s->ended = is(s, "EOF");
        return status;
    }
    if (s->section_next && s->code == 2) {
        s->in_header = is(s, "HEADER");
        s->in_entities = is(s, "ENTITIES");
        s->now = (entity){.normal = {0, 0, 1}};
        s->section_next = false;
    } else if (s->in_header && s->code == 9) {
        s->units_next = is(s, "$INSUNITS");
    } else if (s->in_header && s->units_next && s->code == 70) {
        return take_units(s, err);
    } else if (s->in_entities) {
        return take_value(s, err);
    }
    return PARE_OK;
}

static pare_status read_pairs(scan *s, pare_error *err)
{
    pare_status status = PARE_OK;
    bool there = true, any = false;
    while (status == PARE_OK && there && !s->ended) {
        status = next_pair(s, &there, err);
        if (status == PARE_OK && there) {
            any = true;
            status = take_pair(s, err);
        }
    }
    if (status == PARE_OK && !any)
        return pare_fail(err, PARE_BAD_DATA, "%s: empty; right would be a DXF drawing", s->name);
    if (status == PARE_OK && s->in_entities)
        return pare_fail(
            err, PARE_BAD_DATA,
            "%s:%zu: cut short: its ENTITIES have no end; right would be ENDSEC and EOF", s->name,
            s->line);
    return status;
}

pare_status pare_dxf_measure(const char *name, const char *bytes, size_t length, pare_loops *keep,
                             pare_outline_facts *facts, pare_error *err)
{
    if (memchr(bytes, 0, length))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: not text: it holds zero bytes; right would be DXF saved as text",
                         name);
    scan s = {.name = name, .at = bytes, .end = bytes + length, .arena = pare_arena_open()};
    if (!s.arena)
        return pare_no_memory(err);
    s.drawing = (pare_drawing){.arena = s.arena, .keep = keep, .map = {{1e-3, 0, 0, 1e-3, 0, 0}}};
    pare_status status = read_pairs(&s, err);
    if (status == PARE_OK)
        status = pare_drawing_measure(name, &s.drawing, facts, err);
    pare_arena_close(s.arena);
    return status;
}
