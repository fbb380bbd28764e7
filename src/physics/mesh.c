/* mesh.c: volume, centre and inertia of a triangle mesh, and whether it is a solid at all.
 *
 * Each triangle and one fixed point span a tetrahedron whose signed integrals are closed forms;
 * over a closed surface everything outside cancels (divergence theorem). The fixed point is the
 * middle of the bounding box, not the origin: a part drawn a metre away would otherwise lose its
 * digits to the cancelling.
 *
 * Only a closed, consistently wound, manifold surface is a solid, that is when each edge is walked
 * exactly twice, once each way. Edges are matched by sorting: a key that does not depend on the
 * direction (a hash of both ends), then the ends themselves, so that only true partners end up side
 * by side; the hash merely spares most comparisons. Corners match bit for bit, since an exporter
 * that writes one corner in two ways has written an open mesh. The C library's qsort may allocate
 * and may go quadratic, hence a merge sort of our own in the caller's scratch.
 *
 * A mesh that is no solid has no volume of its own. What we then give is an estimate: the bounding
 * box's figures here, and the convex hull's once the caller has a hull (pare_mesh_take_hull).
 *
 * Two shells that cut through each other pass as a solid; to find that needs every pair of
 * triangles, and slicers live with it too.
 *
 * Source: Tonon, Explicit exact formulas for the 3-D tetrahedron inertia tensor, J. Math. Stat. 1
 * (2005) 8, in the covariance form: integral of x x^T = det/120 (sum of v v^T + s s^T), s the sum
 * of the corners, the fourth of which is the fixed point. */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "physics/solid.h"

/* ---- edges ---- */

typedef struct edge {
    uint64_t key;
    size_t number; /* 3 x triangle + corner from which it starts */
} edge;

size_t pare_mesh_scratch(size_t triangles)
{
    const size_t each = sizeof(edge[3][2]); /* three edges, each twice for sorting */
    return triangles > SIZE_MAX / each ? 0 : triangles * each;
}

static const double *corner(const pare_mesh *mesh, size_t triangle, size_t which)
{
    return &mesh->corner_m[triangle][3 * (which % 3)];
}

static int compare_points(const double a[3], const double b[3])
{
    for (int i = 0; i < 3; i++)
        if (a[i] != b[i])
            return a[i] < b[i] ? -1 : 1;
    return 0;
}

static uint64_t hash_point(const double p[3])
{
    uint64_t hash = 0;
    for (int i = 0; i < 3; i++) {
        const double x = p[i] + 0.0; /* -0 and 0 are one place */
        uint64_t bits;
        memcpy(&bits, &x, sizeof bits);
        /* Mixing steps of splitmix64 (Steele, Lea, Flood, OOPSLA 2014). */
        hash += bits + 0x9e3779b97f4a7c15u;
        hash = (hash ^ (hash >> 30)) * 0xbf58476d1ce4e5b9u;
        hash = (hash ^ (hash >> 27)) * 0x94d049bb133111ebu;
        hash ^= hash >> 31;
    }
    return hash;
}

/* The ends of an edge, lesser first; *forward is 1 when the edge runs from the lesser to the other. */
static void ends(const pare_mesh *mesh, size_t number, const double **low, const double **high,
                 int *forward)
{
    const double *from = corner(mesh, number / 3, number % 3),
                 *to = corner(mesh, number / 3, number % 3 + 1);
    *forward = compare_points(from, to) < 0;
    *low = *forward ? from : to;
    *high = *forward ? to : from;
}

static int compare_edges(const pare_mesh *mesh, const edge *a, const edge *b)
{
    if (a->key != b->key)
        return a->key < b->key ? -1 : 1;
    const double *a_low, *a_high, *b_low, *b_high;
    int forward;
    ends(mesh, a->number, &a_low, &a_high, &forward);
    ends(mesh, b->number, &b_low, &b_high, &forward);
    const int by_low = compare_points(a_low, b_low);
    return by_low ? by_low : compare_points(a_high, b_high);
}

/* Bottom-up merge sort; returns whichever of the two buffers holds the sorted edges. */
static edge *sort_edges(const pare_mesh *mesh, size_t count, edge *from, edge *to)
{
    for (size_t run = 1; run < count; run *= 2) {
        for (size_t start = 0; start < count; start += 2 * run) {
            const size_t middle = count - start < run ? count : start + run;
            const size_t end = count - middle < run ? count : middle + run;
            size_t a = start, b = middle;
            for (size_t k = start; k < end; k++) {
                const int first =
                    b >= end || (a < middle && compare_edges(mesh, &from[a], &from[b]) <= 0);
                to[k] = first ? from[a++] : from[b++];
            }
        }
        edge *swap = from;
        from = to;
        to = swap;
    }
    return from;
}

/* Counts the edges that are not walked exactly twice, once each way, and notes the first. */
static void match_edges(const pare_mesh *mesh, edge *scratch, pare_mesh_facts *facts)
{
    size_t count = 0;
    for (size_t t = 0; t < mesh->triangles; t++) {
        const double *p[3] = {corner(mesh, t, 0), corner(mesh, t, 1), corner(mesh, t, 2)};
        /* A triangle folded into a line between two corners walks that line both ways. */
        if (compare_points(p[0], p[1]) == 0 || compare_points(p[1], p[2]) == 0 ||
            compare_points(p[2], p[0]) == 0)
            continue;
        const uint64_t hash[3] = {hash_point(p[0]), hash_point(p[1]), hash_point(p[2])};
        for (size_t k = 0; k < 3; k++)
            scratch[count++] = (edge){hash[k] + hash[(k + 1) % 3], 3 * t + k};
    }
    const edge *sorted = sort_edges(mesh, count, scratch, scratch + count);
    size_t first_open = SIZE_MAX;
    for (size_t i = 0; i < count;) {
        size_t walked = 0, forwards = 0;
        const double *low, *high;
        int forward;
        const size_t group = i;
        do {
            ends(mesh, sorted[i].number, &low, &high, &forward);
            walked++;
            forwards += (size_t)forward;
            i++;
        } while (i < count && compare_edges(mesh, &sorted[group], &sorted[i]) == 0);
        if (walked == 2 && forwards == 1)
            continue;
        facts->open_edges++;
        if (sorted[group].number < first_open) { /* the first in the file, for the message */
            first_open = sorted[group].number;
            facts->open_from_m = (pare_vec3){low[0], low[1], low[2]};
            facts->open_to_m = (pare_vec3){high[0], high[1], high[2]};
        }
    }
}

/* ---- integrals ---- */

static pare_vec3 cross(pare_vec3 a, pare_vec3 b)
{
    return (pare_vec3){a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

static double norm(pare_vec3 a)
{
    return hypot(hypot(a.x, a.y), a.z);
}

/* Integrals of 1, x and x x^T over tetrahedra that share one corner at `from`. */
typedef struct integrals {
    double volume;
    pare_vec3 first;
    pare_sym3 second;
    double area;
} integrals;

/* positive: takes every tetrahedron as positive, for a convex surface seen from inside, whose
 * triangles may face either way. */
static integrals integrate(const pare_mesh *mesh, pare_vec3 from, int positive)
{
    integrals sum = {0};
    for (size_t t = 0; t < mesh->triangles; t++) {
        pare_vec3 v[3];
        for (size_t k = 0; k < 3; k++) {
            const double *p = corner(mesh, t, k);
            v[k] = (pare_vec3){p[0] - from.x, p[1] - from.y, p[2] - from.z};
        }
        sum.area += norm(cross(pare_vec3_less(v[1], v[0]), pare_vec3_less(v[2], v[0]))) / 2;
        double det = pare_vec3_dot(v[0], cross(v[1], v[2]));
        if (positive)
            det = fabs(det);
        const pare_vec3 s = pare_vec3_add(pare_vec3_add(v[0], v[1]), v[2]);
        sum.volume += det / 6;
        sum.first = pare_vec3_add(sum.first, pare_vec3_times(det / 24, s));
        const pare_vec3 *a = &v[0], *b = &v[1], *c = &v[2];
        const pare_sym3 second = {a->x * a->x + b->x * b->x + c->x * c->x + s.x * s.x,
                                  a->y * a->y + b->y * b->y + c->y * c->y + s.y * s.y,
                                  a->z * a->z + b->z * b->z + c->z * c->z + s.z * s.z,
                                  a->x * a->y + b->x * b->y + c->x * c->y + s.x * s.y,
                                  a->x * a->z + b->x * b->z + c->x * c->z + s.x * s.z,
                                  a->y * a->z + b->y * b->z + c->y * c->z + s.y * s.z};
        sum.second = pare_sym3_add(sum.second, pare_sym3_times(det / 120, second));
    }
    return sum;
}

/* The figures of a body from its integrals about `from`; volume above 0. */
static void take_figures(const integrals *sum, pare_vec3 from, pare_mesh_facts *facts)
{
    const double v = sum->volume;
    const pare_vec3 c = pare_vec3_times(1 / v, sum->first);
    const pare_sym3 s = {sum->second.xx - v * c.x * c.x, sum->second.yy - v * c.y * c.y,
                         sum->second.zz - v * c.z * c.z, sum->second.xy - v * c.x * c.y,
                         sum->second.xz - v * c.x * c.z, sum->second.yz - v * c.y * c.z};
    facts->volume_m3 = v;
    facts->centre_m = pare_vec3_add(from, c);
    facts->inertia_m5 = (pare_sym3){s.yy + s.zz, s.xx + s.zz, s.xx + s.yy, -s.xy, -s.xz, -s.yz};
}

static void take_box(pare_vec3 middle, pare_mesh_facts *facts)
{
    const pare_vec3 size = pare_vec3_less(facts->high_m, facts->low_m);
    const double v = size.x * size.y * size.z;
    const double xx = size.x * size.x / 12, yy = size.y * size.y / 12, zz = size.z * size.z / 12;
    facts->volume_m3 = v;
    facts->centre_m = middle;
    facts->inertia_m5 = (pare_sym3){.xx = v * (yy + zz), .yy = v * (xx + zz), .zz = v * (xx + yy)};
    facts->estimated = PARE_MESH_BOX;
}

/* Below this share of area x diagonal, a volume is rounding: a sheet of 100 mm would be thinner than
 * the spacing of its own single-precision corners. */
#define LEAST_THICKNESS 1e-9

static int is_solid_volume(double volume_m3, const pare_mesh_facts *facts)
{
    const double diagonal_m = norm(pare_vec3_less(facts->high_m, facts->low_m));
    return volume_m3 > LEAST_THICKNESS * facts->area_m2 * diagonal_m;
}

static pare_status take_bounds(const pare_mesh *mesh, pare_mesh_facts *facts, pare_error *err)
{
    double low[3] = {INFINITY, INFINITY, INFINITY}, high[3] = {-INFINITY, -INFINITY, -INFINITY};
    for (size_t t = 0; t < mesh->triangles; t++)
        for (int i = 0; i < 9; i++) {
            const double x = mesh->corner_m[t][i];
            if (!isfinite(x))
                return pare_fail(err, PARE_BAD_DATA,
                                 "triangle %zu, corner %d: %c is not a finite number", t + 1,
                                 i / 3 + 1, "xyz"[i % 3]);
            if (fabs(x) > PARE_SOLID_MOST_M)
                return pare_fail(err, PARE_BAD_DATA,
                                 "triangle %zu, corner %d: %c is %g m; a mesh lies within %g m",
                                 t + 1, i / 3 + 1, "xyz"[i % 3], x, PARE_SOLID_MOST_M);
            low[i % 3] = fmin(low[i % 3], x);
            high[i % 3] = fmax(high[i % 3], x);
        }
    facts->low_m = (pare_vec3){low[0], low[1], low[2]};
    facts->high_m = (pare_vec3){high[0], high[1], high[2]};
    return PARE_OK;
}

static size_t count_degenerate(const pare_mesh *mesh)
{
    size_t count = 0;
    for (size_t t = 0; t < mesh->triangles; t++) {
        const double *p = mesh->corner_m[t];
        const pare_vec3 a = {p[3] - p[0], p[4] - p[1], p[5] - p[2]},
                        b = {p[6] - p[0], p[7] - p[1], p[8] - p[2]};
        if (norm(cross(a, b)) == 0)
            count++;
    }
    return count;
}

pare_status pare_mesh_measure(const pare_mesh *mesh, void *scratch, pare_mesh_facts *facts,
                              pare_error *err)
{
    if (mesh->triangles == 0)
        return pare_fail(err, PARE_BAD_DATA, "a mesh without triangles has no volume");
    pare_mesh_facts found = {0};
    if (take_bounds(mesh, &found, err) != PARE_OK)
        return PARE_BAD_DATA;
    match_edges(mesh, scratch, &found);
    found.degenerate = count_degenerate(mesh);
    const pare_vec3 middle = pare_vec3_times(0.5, pare_vec3_add(found.low_m, found.high_m));
    integrals sum = integrate(mesh, middle, 0);
    found.area_m2 = sum.area;
    if (found.open_edges == 0 && sum.volume < 0) {
        found.turned_inside_out = 1;
        sum.volume = -sum.volume;
        sum.first = pare_vec3_times(-1, sum.first);
        sum.second = pare_sym3_times(-1, sum.second);
    }
    if (found.open_edges == 0 && is_solid_volume(sum.volume, &found)) {
        take_figures(&sum, middle, &found);
    } else {
        found.turned_inside_out = 0; /* without a volume there is no inside */
        take_box(middle, &found);
    }
    *facts = found;
    return PARE_OK;
}

int pare_mesh_take_hull(const pare_mesh *hull, pare_mesh_facts *facts)
{
    if (hull->triangles == 0)
        return 0;
    /* The mean of the corners lies inside, so that every tetrahedron counts as positive. */
    pare_vec3 inside = {0, 0, 0};
    const double share = 1 / (3 * (double)hull->triangles);
    for (size_t t = 0; t < hull->triangles; t++)
        for (size_t k = 0; k < 3; k++) {
            const double *p = corner(hull, t, k);
            inside = pare_vec3_add(inside, pare_vec3_times(share, (pare_vec3){p[0], p[1], p[2]}));
        }
    const integrals sum = integrate(hull, inside, 1);
    if (!is_solid_volume(sum.volume, facts))
        return 0;
    take_figures(&sum, inside, facts);
    facts->estimated = PARE_MESH_HULL;
    return 1;
}
