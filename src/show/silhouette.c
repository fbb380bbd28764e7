/* silhouette.c: what of a craft is seen from above and from the side (see silhouette.h).
 *
 * Each piece becomes a handful of corners in three dimensions, turned and moved as its part and its
 * item say, and then looked at from one side. All simple solids are convex, so the hull of their
 * corners is their outline, whatever way they are turned. A mesh is not kept as triangles once it is
 * measured: its bounding box stands in for it, and is counted. */
#include "show/silhouette.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
    TURN = 48,
    RINGS = 12,
    CORNERS = 2 * RINGS * TURN,
    MOST_PIECES = 4000,
    MOST_CORNERS = 800000
};

static const double pi = 3.14159265358979323846;

/* The corners of one solid, in its own axes, then in the craft's. */
typedef struct solid {
    size_t count;
    pare_vec3 at_m[CORNERS];
} solid;

static void corner(solid *s, double x, double y, double z)
{
    s->at_m[s->count++] = (pare_vec3){x, y, z};
}

static void box(solid *s, pare_vec3 low, pare_vec3 high)
{
    for (int i = 0; i < 8; i++)
        corner(s, i & 1 ? high.x : low.x, i & 2 ? high.y : low.y, i & 4 ? high.z : low.z);
}

static void box_of(solid *s, double x, double y, double z)
{
    box(s, (pare_vec3){-x / 2, -y / 2, -z / 2}, (pare_vec3){x / 2, y / 2, z / 2});
}

static void circle(solid *s, double diameter, double z)
{
    for (int i = 0; i < TURN; i++)
        corner(s, diameter / 2 * cos(2 * pi * i / TURN), diameter / 2 * sin(2 * pi * i / TURN), z);
}

/* Two half balls, apart by the length between. */
static void capsule(solid *s, double diameter, double length)
{
    for (int i = 0; i < RINGS; i++) {
        const double up = pi / 2 * i / (RINGS - 0.5), out = diameter * cos(up);
        circle(s, out, length / 2 + diameter / 2 * sin(up));
        circle(s, out, -length / 2 - diameter / 2 * sin(up));
    }
}

/* A frustum's centre of mass is nearer to its wider end. */
static void cone(solid *s, double below, double above, double height)
{
    const double sum = below * below + below * above + above * above;
    const double centre =
        sum > 0 ? height / 4 * (below * below + 2 * below * above + 3 * above * above) / sum
                : height / 2;
    circle(s, below, -centre);
    circle(s, above, height - centre);
}

static void shape(solid *s, pare_shape form, const double size_m[3])
{
    switch (form) {
    case PARE_SHAPE_BOX:
    case PARE_SHAPE_PLATE:
        box_of(s, size_m[0], size_m[1], size_m[2]);
        return;
    case PARE_SHAPE_CYLINDER:
        circle(s, size_m[0], -size_m[1] / 2);
        circle(s, size_m[0], size_m[1] / 2);
        return;
    case PARE_SHAPE_TUBE:
        circle(s, size_m[0], -size_m[2] / 2);
        circle(s, size_m[0], size_m[2] / 2);
        return;
    case PARE_SHAPE_CONE:
        cone(s, size_m[0], size_m[1], size_m[2]);
        return;
    case PARE_SHAPE_CAPSULE:
        capsule(s, size_m[0], size_m[1]);
        return;
    case PARE_SHAPE_SPHERE:
        capsule(s, size_m[0], 0);
        return;
    case PARE_SHAPE_RING:
        circle(s, size_m[0], 0);
        return;
    case PARE_SHAPE_ROD:
        box_of(s, size_m[0], 0, 0);
        return;
    case PARE_SHAPE_POINT:
    case PARE_SHAPES:
        corner(s, 0, 0, 0);
        return;
    }
}

/* From where it leaves the body to the motor's axis and as much past it as it is wide. */
static void arm(solid *s, const pare_piece *piece, pare_vec3 tip)
{
    const double reach = hypot(tip.x, tip.y), half = piece->section_m[0] / 2;
    if (!(reach > 0))
        return;
    const double ux = tip.x / reach, uy = tip.y / reach, end = reach + half;
    for (int i = 0; i < 8; i++) {
        const double along = i & 1 ? end : piece->root_m, across = i & 2 ? half : -half;
        corner(s, ux * along - uy * across, uy * along + ux * across,
               i & 4 ? tip.z : tip.z - pare_piece_arm_deep_m(piece));
    }
}

/* A matrix of zeros is "not turned". */
static pare_vec3 turned(const pare_mat3 *turn, pare_vec3 v)
{
    double out[3];
    bool any = false;
    for (int i = 0; i < 3; i++) {
        out[i] = turn->m[i][0] * v.x + turn->m[i][1] * v.y + turn->m[i][2] * v.z;
        for (int j = 0; j < 3; j++)
            any = any || turn->m[i][j] != 0;
    }
    return any ? (pare_vec3){out[0], out[1], out[2]} : v;
}

void pare_seen_at(pare_seen seen, pare_vec3 at_m, double on_view_m[2])
{
    on_view_m[0] = at_m.x;
    on_view_m[1] = seen == PARE_SEEN_ABOVE ? at_m.y : at_m.z;
}

static double towards_eye(pare_seen seen, pare_vec3 at_m)
{
    return seen == PARE_SEEN_ABOVE ? at_m.z : -at_m.y;
}

/* ---- the work ---- */

typedef struct job {
    const pare_craft *craft;
    pare_seen seen;
    size_t outlines;
    const pare_plate_outline *outline;
    pare_arena *arena;
    pare_view *view;
    size_t room, corners;
} job;

/* Where a piece of an item's copy is. */
typedef struct spot {
    size_t item, copy;
    const pare_mat3 *piece_turn;
    pare_vec3 piece_at_m;
    const pare_mat3 *item_turn;
    pare_vec3 item_at_m;
} spot;

static pare_vec3 in_craft(const spot *at, pare_vec3 v)
{
    if (at->piece_turn)
        v = turned(at->piece_turn, v);
    v = turned(at->item_turn, pare_vec3_add(v, at->piece_at_m));
    return pare_vec3_add(v, at->item_at_m);
}

static pare_silhouette *one_more(job *j)
{
    pare_view *view = j->view;
    if (view->count == j->room) {
        const size_t room = j->room ? 2 * j->room : 64;
        pare_silhouette *wider = pare_arena_array(j->arena, room, sizeof *wider);
        if (!wider)
            return NULL;
        if (view->count)
            memcpy(wider, view->one, view->count * sizeof *wider);
        view->one = wider;
        j->room = room;
    }
    pare_silhouette *made = &view->one[view->count];
    *made = (pare_silhouette){.number = view->count++};
    return made;
}

static int by_place(const void *a, const void *b)
{
    const double *one = a, *two = b;
    for (int k = 0; k < 2; k++)
        if (one[k] != two[k])
            return one[k] < two[k] ? -1 : 1;
    return 0;
}

static double side(const double a[2], const double b[2], const double c[2])
{
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/* Convex hull by Andrew's monotone chain: at most `count` corners out of as many, anticlockwise.
 * Source: A. M. Andrew, Information Processing Letters 9 (1979), 216. */
static size_t hull(size_t count, double (*at)[2], double (*out)[2])
{
    qsort(at, count, sizeof *at, by_place);
    size_t kept = 0;
    for (int round = 0; round < 2; round++) {
        const size_t from = kept;
        for (size_t i = 0; i < count; i++) {
            const double *next = at[round ? count - 1 - i : i];
            while (kept >= from + 2 && side(out[kept - 2], out[kept - 1], next) <= 0)
                kept--;
            memcpy(out[kept++], next, sizeof *out);
        }
        kept--; /* the last is the next chain's first */
    }
    return kept ? kept : 1;
}

static void measure(job *j, pare_silhouette *made)
{
    double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY};
    for (size_t i = 0; i < made->loop[0].points; i++)
        for (int k = 0; k < 2; k++) {
            low[k] = fmin(low[k], made->loop[0].at_m[i][k]);
            high[k] = fmax(high[k], made->loop[0].at_m[i][k]);
        }
    for (int k = 0; k < 2; k++) {
        made->middle_m[k] = (low[k] + high[k]) / 2;
        j->view->low_m[k] = fmin(j->view->low_m[k], low[k]);
        j->view->high_m[k] = fmax(j->view->high_m[k], high[k]);
    }
}

/* Whether one more piece of so many corners is drawn: a file can say millions. */
static bool within_reason(job *j, size_t corners)
{
    if (j->view->count < MOST_PIECES && j->corners + corners <= MOST_CORNERS) {
        j->corners += corners;
        return true;
    }
    j->view->left_out++;
    return false;
}

/* Corners in craft axes as one silhouette. */
static bool put_hull(job *j, const spot *at, bool disc, size_t count, const pare_vec3 *corner_m)
{
    double(*seen)[2] = pare_arena_array(j->arena, count, sizeof *seen);
    double(*out)[2] = pare_arena_array(j->arena, 2 * count + 2, sizeof *out);
    pare_outline *loop = pare_arena_zeros(j->arena, sizeof *loop);
    pare_silhouette *made = one_more(j);
    if (!seen || !out || !loop || !made)
        return false;
    made->item = at->item;
    made->copy = at->copy;
    made->disc = disc;
    made->loops = 1;
    made->loop = loop;
    made->near_m = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        pare_seen_at(j->seen, corner_m[i], seen[i]);
        made->near_m = fmax(made->near_m, towards_eye(j->seen, corner_m[i]));
    }
    *loop = (pare_outline){hull(count, seen, out), (const double(*)[2])out};
    measure(j, made);
    return true;
}

static bool put_solid(job *j, const spot *at, bool disc, solid *s)
{
    if (s->count == 0 || !within_reason(j, s->count))
        return true;
    for (size_t i = 0; i < s->count; i++)
        s->at_m[i] = in_craft(at, s->at_m[i]);
    return put_hull(j, at, disc, s->count, s->at_m);
}

static const pare_plate_outline *outline_of(const job *j, const pare_piece *piece)
{
    for (size_t i = 0; piece->file && i < j->outlines; i++)
        if (strcmp(j->outline[i].file, piece->file) == 0 && j->outline[i].loops > 0)
            return &j->outline[i];
    return NULL;
}

static size_t corners_of(const pare_plate_outline *cut)
{
    size_t corners = 0;
    for (size_t i = 0; i < cut->loops; i++)
        corners += cut->loop[i].points;
    return corners;
}

/* From the drawing's origin to the plate's: what origin the plate chose is in its bounding box. */
static pare_vec3 shift_of(const pare_piece *piece, const pare_outline *outer)
{
    double low[2] = {INFINITY, INFINITY};
    for (size_t i = 0; i < outer->points; i++)
        for (int k = 0; k < 2; k++)
            low[k] = fmin(low[k], outer->at_m[i][k]);
    return (pare_vec3){piece->mesh.low_m.x - low[0], piece->mesh.low_m.y - low[1], 0};
}

static bool put_cut_plate(job *j, const spot *at, const pare_piece *piece,
                          const pare_plate_outline *cut)
{
    pare_outline *loop = pare_arena_array(j->arena, cut->loops, sizeof *loop);
    pare_silhouette *made = one_more(j);
    if (!loop || !made)
        return false;
    const pare_vec3 shift = shift_of(piece, &cut->loop[0]);
    made->item = at->item;
    made->copy = at->copy;
    made->loops = cut->loops;
    made->loop = loop;
    made->near_m = -INFINITY;
    for (size_t l = 0; l < cut->loops; l++) {
        double(*seen)[2] = pare_arena_array(j->arena, cut->loop[l].points, sizeof *seen);
        if (!seen)
            return false;
        for (size_t i = 0; i < cut->loop[l].points; i++) {
            const double *p = cut->loop[l].at_m[i];
            const pare_vec3 v = in_craft(at, (pare_vec3){p[0] + shift.x, p[1] + shift.y, 0});
            pare_seen_at(j->seen, v, seen[i]);
            made->near_m = fmax(made->near_m, towards_eye(j->seen, v));
        }
        loop[l] = (pare_outline){cut->loop[l].points, (const double(*)[2])seen};
    }
    measure(j, made);
    return true;
}

/* Edge on, a cut plate is as thick as it is and as long as its outline. */
static bool put_plate_edge(job *j, const spot *at, const pare_piece *piece,
                           const pare_plate_outline *cut)
{
    const pare_outline *outer = &cut->loop[0];
    const pare_vec3 shift = shift_of(piece, outer);
    const double half = piece->size_m[2] / 2;
    pare_vec3 *corner_m = pare_arena_array(j->arena, 2 * outer->points, sizeof *corner_m);
    if (!corner_m)
        return false;
    for (size_t i = 0; i < 2 * outer->points; i++) {
        const double *p = outer->at_m[i / 2];
        corner_m[i] =
            in_craft(at, (pare_vec3){p[0] + shift.x, p[1] + shift.y, i % 2 ? half : -half});
    }
    return put_hull(j, at, false, 2 * outer->points, corner_m);
}

static bool put_piece(job *j, spot at, const pare_piece *piece, size_t place)
{
    const pare_plate_outline *cut =
        piece->form == PARE_FORM_PLATE && piece->measured ? outline_of(j, piece) : NULL;
    const pare_vec3 piece_at = piece->at_m ? piece->at_m[place] : (pare_vec3){0, 0, 0};
    solid s = {.count = 0};
    if (piece->form == PARE_FORM_ARMS) {
        arm(&s, piece, piece_at);
        return put_solid(j, &at, false, &s);
    }
    at.piece_turn = &piece->turn;
    at.piece_at_m = piece_at;
    if (cut && !within_reason(j, corners_of(cut)))
        return true;
    if (cut)
        return j->seen == PARE_SEEN_ABOVE ? put_cut_plate(j, &at, piece, cut)
                                          : put_plate_edge(j, &at, piece, cut);
    if (piece->form == PARE_FORM_MESH && !piece->measured) {
        j->view->nowhere++;
        return true;
    }
    j->view->boxes += piece->file != NULL;
    if (piece->form == PARE_FORM_MESH)
        box(&s, piece->mesh.low_m, piece->mesh.high_m);
    else if (piece->form == PARE_FORM_PLATE && piece->measured)
        box(&s, piece->mesh.low_m, piece->mesh.high_m);
    else
        shape(&s, piece->shape, piece->size_m);
    const size_t before = j->view->count;
    if (!put_solid(j, &at, false, &s))
        return false;
    if (j->view->count > before)
        j->view->one[before].boxed = piece->file != NULL;
    return true;
}

static bool put_copy(job *j, size_t index, size_t copy)
{
    const pare_item *item = &j->craft->item[index];
    const pare_part *part = item->part;
    const spot at = {.item = index,
                     .copy = copy,
                     .item_turn = &item->turn,
                     .item_at_m = pare_item_station(j->craft, item, copy)};
    if (part->kind == PARE_PROPELLER) {
        solid s = {.count = 0};
        circle(&s, part->spec[PARE_SPEC_DIAMETER].value, 0);
        return put_solid(j, &at, true, &s);
    }
    for (size_t i = 0; i < part->pieces; i++) {
        const pare_piece *piece = &part->piece[i];
        for (size_t place = 0; place < (piece->places ? piece->places : 1); place++)
            if (!put_piece(j, at, piece, place))
                return false;
    }
    return true;
}

static int by_depth(const void *a, const void *b)
{
    const pare_silhouette *one = a, *two = b;
    if (one->near_m != two->near_m)
        return one->near_m < two->near_m ? -1 : 1;
    return one->number < two->number ? -1 : one->number > two->number;
}

pare_status pare_view_of(const pare_craft *craft, pare_seen seen, size_t outlines,
                         const pare_plate_outline outline[], pare_arena *arena, pare_view *view,
                         pare_error *err)
{
    *view = (pare_view){.low_m = {INFINITY, INFINITY}, .high_m = {-INFINITY, -INFINITY}};
    job j = {.craft = craft,
             .seen = seen,
             .outlines = outlines,
             .outline = outline,
             .arena = arena,
             .view = view};
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        for (int copy = 0; !item->off && copy < pare_item_places(item); copy++)
            if (!put_copy(&j, i, (size_t)copy))
                return pare_no_memory(err);
    }
    if (view->count > 1)
        qsort(view->one, view->count, sizeof *view->one, by_depth);
    return PARE_OK;
}

bool pare_loop_holds(const pare_outline *loop, const double at_m[2])
{
    bool in = false;
    for (size_t i = 0; i < loop->points; i++) {
        const double *p = loop->at_m[i], *q = loop->at_m[(i + 1) % loop->points];
        if ((p[1] > at_m[1]) != (q[1] > at_m[1]) &&
            at_m[0] < p[0] + (at_m[1] - p[1]) / (q[1] - p[1]) * (q[0] - p[0]))
            in = !in;
    }
    return in;
}
