/* svg_path.c: path data and transforms (see svg_path.h).
 *
 * Numbers in path data need nothing between them where none is needed ("1.5.5-2" is three), and the
 * two flags of an arc are single digits that may touch what follows; so they are scanned here by
 * SVG's grammar, and strtod only turns what was scanned into a value.
 *
 * Source: SVG 1.1 (W3C recommendation, 2nd ed. 2011), 7.6, 8.3 and appendix F.6 for arcs. */
#include "store/svg_path.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST_NUMBER = 63 };

static const double pi = 3.14159265358979323846;

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r'; /* XML has no others */
}

static void skip_blanks(const char **at)
{
    while (is_blank(**at))
        ++*at;
}

static void skip_comma(const char **at)
{
    skip_blanks(at);
    if (**at == ',')
        ++*at;
    skip_blanks(at);
}

bool pare_svg_number(const char **at, double *value)
{
    char copy[LONGEST_NUMBER + 1];
    skip_comma(at);
    const char *p = *at;
    p += *p == '+' || *p == '-';
    const char *digits = p;
    while (is_digit(*p))
        p++;
    size_t count = (size_t)(p - digits);
    if (*p == '.') {
        const char *fraction = ++p;
        while (is_digit(*p))
            p++;
        count += (size_t)(p - fraction);
    }
    if (count == 0)
        return false;
    if (*p == 'e' || *p == 'E') {
        const char *power = p + 1;
        power += *power == '+' || *power == '-';
        if (is_digit(*power)) { /* else the e begins a unit, as in "1em" */
            while (is_digit(*power))
                power++;
            p = power;
        }
    }
    const size_t length = (size_t)(p - *at);
    if (length > LONGEST_NUMBER)
        return false;
    memcpy(copy, *at, length);
    copy[length] = 0;
    *value = strtod(copy, NULL);
    if (!isfinite(*value))
        return false;
    *at = p;
    return true;
}

static bool flag(const char **at, bool *value)
{
    skip_comma(at);
    if (**at != '0' && **at != '1')
        return false;
    *value = *(*at)++ == '1';
    return true;
}

/* ---- paths ---- */

typedef struct pen {
    pare_drawing *drawing;
    double at[2], start[2];
    double control[2]; /* the last curve's, for S and T */
    char last;         /* the command before, in capitals */
    bool down;
} pen;

static void put_down(pen *p)
{
    if (p->down)
        return;
    pare_draw_from(p->drawing, p->at[0], p->at[1]);
    p->down = true;
}

static void lift(pen *p, bool closed)
{
    if (p->down)
        pare_draw_end(p->drawing, closed);
    p->down = false;
}

static void line_to(pen *p, double x, double y)
{
    put_down(p);
    pare_draw_line(p->drawing, x, y);
    p->at[0] = x;
    p->at[1] = y;
}

static void cubic_to(pen *p, const double points[4][2])
{
    put_down(p);
    pare_draw_cubic(p->drawing, points);
    memcpy(p->at, points[3], sizeof p->at);
}

static void quadratic_to(pen *p, const double control[2], const double to[2])
{
    double points[4][2];
    for (int k = 0; k < 2; k++) {
        points[0][k] = p->at[k];
        points[1][k] = p->at[k] + 2.0 / 3 * (control[k] - p->at[k]);
        points[2][k] = to[k] + 2.0 / 3 * (control[k] - to[k]);
        points[3][k] = to[k];
    }
    memcpy(p->control, control, sizeof p->control);
    cubic_to(p, (const double(*)[2])points);
}

/* From end points to a centre, appendix F.6.5; radii too small are scaled up, F.6.6. */
static void arc_to(pen *p, const double radius[2], double turn_deg, bool large, bool left,
                   const double to[2])
{
    double rx = fabs(radius[0]), ry = fabs(radius[1]);
    if (rx == 0 || ry == 0 || (to[0] == p->at[0] && to[1] == p->at[1])) {
        line_to(p, to[0], to[1]);
        return;
    }
    const double angle = fmod(turn_deg, 360) * pi / 180, c = cos(angle), s = sin(angle);
    const double hx = (p->at[0] - to[0]) / 2, hy = (p->at[1] - to[1]) / 2;
    const double x = c * hx + s * hy, y = -s * hx + c * hy;
    const double stretch = (x / rx) * (x / rx) + (y / ry) * (y / ry);
    if (stretch > 1) {
        rx *= sqrt(stretch);
        ry *= sqrt(stretch);
    }
    const double across = stretch >= 1 ? 0 : sqrt(1 / stretch - 1) * (large == left ? -1 : 1);
    const double cx = across * rx * y / ry, cy = -across * ry * x / rx;
    const double centre[2] = {c * cx - s * cy + (p->at[0] + to[0]) / 2,
                              s * cx + c * cy + (p->at[1] + to[1]) / 2};
    const double from = atan2((y - cy) / ry, (x - cx) / rx);
    double sweep = atan2((-y - cy) / ry, (-x - cx) / rx) - from;
    if (left && sweep < 0)
        sweep += 2 * pi;
    if (!left && sweep > 0)
        sweep -= 2 * pi;
    const double u[2] = {rx * c, rx * s}, v[2] = {-ry * s, ry * c};
    put_down(p);
    pare_draw_arc(p->drawing, centre, u, v, from, from + sweep);
    pare_draw_line(p->drawing, to[0], to[1]);
    memcpy(p->at, to, sizeof p->at);
}

static bool numbers(const char **at, size_t count, double value[])
{
    for (size_t i = 0; i < count; i++)
        if (!pare_svg_number(at, &value[i]))
            return false;
    return true;
}

/* `count` places, from the pen where they are relative. */
static bool places(const pen *p, const char **at, bool relative, size_t count, double place[][2])
{
    if (!numbers(at, 2 * count, place[0]))
        return false;
    for (size_t i = 0; i < 2 * count && relative; i++)
        place[i / 2][i % 2] += p->at[i % 2];
    return true;
}

/* Where a smooth curve's first control lies: the last one mirrored at the pen. */
static void mirrored(const pen *p, bool follows, double control[2])
{
    for (int k = 0; k < 2; k++)
        control[k] = follows ? 2 * p->at[k] - p->control[k] : p->at[k];
}

static bool curve(pen *p, char command, bool relative, const char **at)
{
    double place[4][2];
    const bool smooth = command == 'S';
    if (!places(p, at, relative, smooth ? 2 : 3, &place[smooth ? 2 : 1]))
        return false;
    memcpy(place[0], p->at, sizeof place[0]);
    if (smooth)
        mirrored(p, p->last == 'C' || p->last == 'S', place[1]);
    memcpy(p->control, place[2], sizeof p->control);
    cubic_to(p, (const double(*)[2])place);
    return true;
}

/* One set of a command's numbers. */
static bool step(pen *p, char command, bool relative, const char **at)
{
    double place[2][2], radius[3];
    bool large = false, left = false;
    switch (command) {
    case 'M':
        if (!places(p, at, relative, 1, place))
            return false;
        lift(p, false);
        memcpy(p->at, place[0], sizeof p->at);
        memcpy(p->start, place[0], sizeof p->start);
        return true;
    case 'L':
        if (!places(p, at, relative, 1, place))
            return false;
        line_to(p, place[0][0], place[0][1]);
        return true;
    case 'H':
    case 'V': {
        const int axis = command == 'V';
        double to[2] = {p->at[0], p->at[1]}, value = 0;
        if (!pare_svg_number(at, &value))
            return false;
        to[axis] = relative ? to[axis] + value : value;
        line_to(p, to[0], to[1]);
        return true;
    }
    case 'C':
    case 'S':
        return curve(p, command, relative, at);
    case 'Q':
        if (!places(p, at, relative, 2, place))
            return false;
        quadratic_to(p, place[0], place[1]);
        return true;
    case 'T': {
        double control[2];
        if (!places(p, at, relative, 1, place))
            return false;
        mirrored(p, p->last == 'Q' || p->last == 'T', control);
        quadratic_to(p, control, place[0]);
        return true;
    }
    case 'A':
        if (!numbers(at, 3, radius) || !flag(at, &large) || !flag(at, &left) ||
            !places(p, at, relative, 1, place))
            return false;
        arc_to(p, radius, radius[2], large, left, place[0]);
        return true;
    default:
        return false;
    }
}

static bool begins_number(char c)
{
    return is_digit(c) || c == '.' || c == '-' || c == '+';
}

const char *pare_svg_draw_path(const char *data, pare_drawing *drawing)
{
    pen p = {.drawing = drawing};
    const char *at = data;
    for (skip_blanks(&at); *at; skip_blanks(&at)) {
        const char *from = at;
        const bool relative = *at >= 'a' && *at <= 'z';
        char command = (char)(relative ? *at - 'a' + 'A' : *at);
        at++;
        if (!p.last && command != 'M')
            return from;
        if (command == 'Z') {
            lift(&p, true);
            memcpy(p.at, p.start, sizeof p.at);
            p.last = command;
            continue;
        }
        do {
            const char *set = at;
            if (drawing->fault)
                return NULL; /* said when it is measured */
            if (!step(&p, command, relative, &at))
                return *set && strchr("MLHVCSQTA", command) ? set : from;
            p.last = command;
            if (command == 'M')
                command = 'L';
            const char *next = at;
            skip_comma(&next);
            if (!begins_number(*next))
                break;
        } while (true);
    }
    lift(&p, false);
    return NULL;
}

const char *pare_svg_draw_points(const char *points, bool closed, pare_drawing *drawing)
{
    const char *at = points;
    bool down = false;
    for (skip_blanks(&at); *at; skip_blanks(&at)) {
        const char *from = at;
        double place[2];
        if (!numbers(&at, 2, place))
            return from;
        if (down)
            pare_draw_line(drawing, place[0], place[1]);
        else
            pare_draw_from(drawing, place[0], place[1]);
        down = true;
    }
    if (down)
        pare_draw_end(drawing, closed);
    return NULL;
}

/* ---- transforms ---- */

pare_affine pare_affine_after(const pare_affine *a, const pare_affine *b)
{
    const double *p = a->m, *q = b->m;
    return (pare_affine){{p[0] * q[0] + p[2] * q[1], p[1] * q[0] + p[3] * q[1],
                          p[0] * q[2] + p[2] * q[3], p[1] * q[2] + p[3] * q[3],
                          p[0] * q[4] + p[2] * q[5] + p[4], p[1] * q[4] + p[3] * q[5] + p[5]}};
}

static bool one_transform(const char *name, size_t length, size_t count, const double v[6],
                          pare_affine *map)
{
    static const char *const names[] = {"matrix", "translate", "scale", "rotate", "skewX", "skewY"};
    size_t which = 0;
    while (which < 6 &&
           !(strlen(names[which]) == length && memcmp(names[which], name, length) == 0))
        which++;
    const double angle = count ? fmod(v[0], 360) * pi / 180 : 0;
    pare_affine one = {{1, 0, 0, 1, 0, 0}};
    if (which == 0 && count == 6) {
        memcpy(one.m, v, sizeof one.m);
    } else if (which == 1 && (count == 1 || count == 2)) {
        one.m[4] = v[0];
        one.m[5] = count == 2 ? v[1] : 0;
    } else if (which == 2 && (count == 1 || count == 2)) {
        one.m[0] = v[0];
        one.m[3] = count == 2 ? v[1] : v[0];
    } else if (which == 3 && (count == 1 || count == 3)) {
        const double c = cos(angle), s = sin(angle), x = count == 3 ? v[1] : 0,
                     y = count == 3 ? v[2] : 0;
        one = (pare_affine){{c, s, -s, c, x - c * x + s * y, y - s * x - c * y}};
    } else if (which == 4 && count == 1) {
        one.m[2] = tan(angle);
    } else if (which == 5 && count == 1) {
        one.m[1] = tan(angle);
    } else {
        return false;
    }
    *map = pare_affine_after(map, &one);
    return true;
}

const char *pare_svg_transform(const char *list, pare_affine *map)
{
    const char *at = list;
    for (skip_comma(&at); *at; skip_comma(&at)) {
        const char *name = at;
        while ((*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z'))
            at++;
        const size_t length = (size_t)(at - name);
        skip_blanks(&at);
        if (*at != '(')
            return name;
        at++;
        double v[6] = {0};
        size_t count = 0;
        while (count < 6 && pare_svg_number(&at, &v[count]))
            count++;
        skip_blanks(&at);
        if (*at != ')' || !one_transform(name, length, count, v, map))
            return name;
        at++;
    }
    return NULL;
}
