/* meshes.c: the demo's printed parts, written as STL files: the same bytes on every run.
 *
 * A print here is one of two things. A block print is boxes added and cut away: all their planes
 * make one uneven grid, each cell of it is full or empty, and the skin is every cell face between
 * full and empty. On one common grid no edge of the skin ever meets the middle of another, so the
 * result is watertight without any general solid modelling. A leaning print shears the cells above
 * one of its planes, which keeps skin and volume. A ring print is a closed or open ring of
 * rectangular section. Every mesh is checked before it is written: each edge must be met once in
 * either direction. One print (torn) then loses triangles on purpose, as real downloads do.
 *
 * Millimetres; x forward, y left, z up; z = 0 is the face that sits on the craft.
 * Run by meshes.sh: meshes FOLDER. Big prints are binary, small ones text. */
#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_PLANES = 32, MOST_TRIANGLES = 8192, MOST_BOXES = 16 };

typedef struct corner {
    double x, y, z;
} corner;

typedef struct mesh {
    size_t triangles;
    corner at[MOST_TRIANGLES][3];
} mesh;

typedef struct box {
    bool cut; /* taken away; otherwise added. In order: a later box wins */
    double low[3], high[3];
} box;

typedef struct block_print {
    const char *name;
    bool text;
    double lean_deg, lean_above; /* shear forward-down above a plane; 0: upright */
    size_t boxes;
    box of[MOST_BOXES];
} block_print;

typedef struct ring_print {
    const char *name;
    bool text;
    double inner, outer, height;
    double arc_deg;   /* 360: closed */
    double start_deg; /* from x towards y */
    int segments;
} ring_print;

static void add_triangle(mesh *m, corner a, corner b, corner c)
{
    if (m->triangles == MOST_TRIANGLES) {
        fprintf(stderr, "meshes: more than %d triangles\n", MOST_TRIANGLES);
        exit(1);
    }
    corner *t = m->at[m->triangles++];
    t[0] = a;
    t[1] = b;
    t[2] = c;
}

/* Four corners, anticlockwise seen from outside. */
static void add_quad(mesh *m, corner a, corner b, corner c, corner d)
{
    add_triangle(m, a, b, c);
    add_triangle(m, a, c, d);
}

/* ---- block prints ---- */

typedef struct grid {
    size_t planes[3];
    double plane[3][MOST_PLANES];
    bool full[MOST_PLANES][MOST_PLANES][MOST_PLANES];
} grid;

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void collect_planes(const block_print *print, grid *g)
{
    for (int axis = 0; axis < 3; axis++) {
        double all[2 * MOST_BOXES + 1];
        size_t n = 0;
        for (size_t i = 0; i < print->boxes; i++) {
            all[n++] = print->of[i].low[axis];
            all[n++] = print->of[i].high[axis];
        }
        if (axis == 2 && print->lean_deg > 0)
            all[n++] = print->lean_above;
        qsort(all, n, sizeof all[0], ascending);
        g->planes[axis] = 0;
        for (size_t i = 0; i < n; i++)
            if (i == 0 || all[i] > all[i - 1])
                g->plane[axis][g->planes[axis]++] = all[i];
    }
}

static bool inside(const box *b, const double at[3])
{
    for (int axis = 0; axis < 3; axis++)
        if (at[axis] < b->low[axis] || at[axis] > b->high[axis])
            return false;
    return true;
}

static void fill_cells(const block_print *print, grid *g)
{
    for (size_t i = 0; i + 1 < g->planes[0]; i++)
        for (size_t j = 0; j + 1 < g->planes[1]; j++)
            for (size_t k = 0; k + 1 < g->planes[2]; k++) {
                double middle[3] = {(g->plane[0][i] + g->plane[0][i + 1]) / 2,
                                    (g->plane[1][j] + g->plane[1][j + 1]) / 2,
                                    (g->plane[2][k] + g->plane[2][k + 1]) / 2};
                for (size_t b = 0; b < print->boxes; b++)
                    if (inside(&print->of[b], middle))
                        g->full[i][j][k] = !print->of[b].cut;
            }
}

static bool full_at(const grid *g, const long at[3])
{
    for (int axis = 0; axis < 3; axis++)
        if (at[axis] < 0 || at[axis] + 1 >= (long)g->planes[axis])
            return false;
    return g->full[at[0]][at[1]][at[2]];
}

static corner grid_corner(const block_print *print, const grid *g, const long at[3])
{
    const double radian = acos(-1) / 180;
    corner c = {g->plane[0][at[0]], g->plane[1][at[1]], g->plane[2][at[2]]};
    if (print->lean_deg > 0 && c.z > print->lean_above)
        c.x += (c.z - print->lean_above) * tan(print->lean_deg * radian);
    return c;
}

/* The face of a full cell across `axis`, on its low or high side. */
static void add_face(const block_print *print, const grid *g, const long cell[3], int axis,
                     bool high, mesh *m)
{
    int u = (axis + 1) % 3, v = (axis + 2) % 3; /* u, v, axis are right-handed */
    static const int step[4][2] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
    corner c[4];
    for (int i = 0; i < 4; i++) {
        long at[3];
        at[axis] = cell[axis] + (high ? 1 : 0);
        at[u] = cell[u] + step[i][0];
        at[v] = cell[v] + step[i][1];
        c[i] = grid_corner(print, g, at);
    }
    if (high)
        add_quad(m, c[0], c[1], c[2], c[3]);
    else
        add_quad(m, c[0], c[3], c[2], c[1]);
}

static void make_block(const block_print *print, mesh *m)
{
    static grid g;
    memset(&g, 0, sizeof g);
    m->triangles = 0;
    collect_planes(print, &g);
    fill_cells(print, &g);
    long cell[3];
    for (cell[0] = 0; cell[0] + 1 < (long)g.planes[0]; cell[0]++)
        for (cell[1] = 0; cell[1] + 1 < (long)g.planes[1]; cell[1]++)
            for (cell[2] = 0; cell[2] + 1 < (long)g.planes[2]; cell[2]++) {
                if (!full_at(&g, cell))
                    continue;
                for (int axis = 0; axis < 3; axis++)
                    for (int side = 0; side < 2; side++) {
                        long next[3] = {cell[0], cell[1], cell[2]};
                        next[axis] += side ? 1 : -1;
                        if (!full_at(&g, next))
                            add_face(print, &g, cell, axis, side, m);
                    }
            }
}

/* ---- ring prints ---- */

static corner on_ring(const ring_print *print, int i, double radius, double z)
{
    const double radian = acos(-1) / 180;
    double angle = (print->start_deg + print->arc_deg * i / print->segments) * radian;
    return (corner){radius * cos(angle), radius * sin(angle), z};
}

static void make_ring(const ring_print *print, mesh *m)
{
    m->triangles = 0;
    bool closed = print->arc_deg >= 360;
    for (int i = 0; i < print->segments; i++) {
        int j = closed ? (i + 1) % print->segments : i + 1;
        corner a = on_ring(print, i, print->inner, 0), b = on_ring(print, j, print->inner, 0);
        corner c = on_ring(print, i, print->outer, 0), d = on_ring(print, j, print->outer, 0);
        corner e = a, f = b, g = c, h = d;
        e.z = f.z = g.z = h.z = print->height;
        add_quad(m, a, b, d, c); /* below */
        add_quad(m, e, g, h, f); /* above */
        add_quad(m, c, d, h, g); /* outside */
        add_quad(m, b, a, e, f); /* inside */
        if (!closed && i == 0)
            add_quad(m, a, c, g, e);
        if (!closed && i == print->segments - 1)
            add_quad(m, d, b, f, h);
    }
}

/* ---- the check, and the files ---- */

static bool same(corner a, corner b)
{
    return a.x == b.x && a.y == b.y && a.z == b.z;
}

static void check_closed(const char *name, const mesh *m)
{
    for (size_t t = 0; t < m->triangles; t++)
        for (int e = 0; e < 3; e++) {
            corner a = m->at[t][e], b = m->at[t][(e + 1) % 3];
            int along = 0, against = 0;
            for (size_t s = 0; s < m->triangles; s++)
                for (int f = 0; f < 3; f++) {
                    corner c = m->at[s][f], d = m->at[s][(f + 1) % 3];
                    along += same(a, c) && same(b, d);
                    against += same(a, d) && same(b, c);
                }
            if (along != 1 || against != 1) {
                fprintf(stderr,
                        "meshes: %s: the edge (%g %g %g) to (%g %g %g) is met %d times one way and "
                        "%d the other; once each would be closed\n",
                        name, a.x, a.y, a.z, b.x, b.y, b.z, along, against);
                exit(1);
            }
        }
}

static corner normal_of(const corner t[3])
{
    corner u = {t[1].x - t[0].x, t[1].y - t[0].y, t[1].z - t[0].z};
    corner v = {t[2].x - t[0].x, t[2].y - t[0].y, t[2].z - t[0].z};
    corner n = {u.y * v.z - u.z * v.y, u.z * v.x - u.x * v.z, u.x * v.y - u.y * v.x};
    double l = sqrt(n.x * n.x + n.y * n.y + n.z * n.z);
    return (corner){n.x / l, n.y / l, n.z / l};
}

/* Four decimals, and never "-0.0000". */
static double tidy(double value)
{
    double rounded = round(value * 1e4) / 1e4;
    return rounded == 0 ? 0 : rounded;
}

static void write_text(FILE *file, const char *name, const mesh *m)
{
    fprintf(file, "solid %s\n", name);
    for (size_t t = 0; t < m->triangles; t++) {
        corner n = normal_of(m->at[t]);
        fprintf(file, "facet normal %.4g %.4g %.4g\nouter loop\n", tidy(n.x), tidy(n.y), tidy(n.z));
        for (int i = 0; i < 3; i++)
            fprintf(file, "vertex %.7g %.7g %.7g\n", tidy(m->at[t][i].x), tidy(m->at[t][i].y),
                    tidy(m->at[t][i].z));
        fputs("endloop\nendfacet\n", file);
    }
    fprintf(file, "endsolid %s\n", name);
}

static void write_u32(FILE *file, uint32_t value)
{
    for (int i = 0; i < 4; i++)
        fputc((int)(value >> (8 * i) & 0xff), file);
}

static void write_corner(FILE *file, corner c)
{
    const double axis[3] = {tidy(c.x), tidy(c.y), tidy(c.z)};
    for (int i = 0; i < 3; i++) {
        float single = (float)axis[i];
        uint32_t bits;
        memcpy(&bits, &single, sizeof bits);
        write_u32(file, bits);
    }
}

static void write_binary(FILE *file, const char *name, const mesh *m)
{
    char head[80] = {0};
    snprintf(head, sizeof head, "Pare demo: %s, mm", name);
    fwrite(head, 1, sizeof head, file);
    write_u32(file, (uint32_t)m->triangles);
    for (size_t t = 0; t < m->triangles; t++) {
        write_corner(file, normal_of(m->at[t]));
        for (int i = 0; i < 3; i++)
            write_corner(file, m->at[t][i]);
        fputc(0, file);
        fputc(0, file);
    }
}

static void write_mesh(const char *folder, const char *name, bool text, const mesh *m)
{
    char path[512];
    int length = snprintf(path, sizeof path, "%s/%s.stl", folder, name);
    FILE *file = length > 0 && (size_t)length < sizeof path ? fopen(path, "wb") : NULL;
    if (!file) {
        fprintf(stderr, "meshes: cannot write %s.stl in %s\n", name, folder);
        exit(1);
    }
    if (text)
        write_text(file, name, m);
    else
        write_binary(file, name, m);
    if (fclose(file) != 0) {
        fprintf(stderr, "meshes: cannot finish %s\n", path);
        exit(1);
    }
}

/* ---- the prints ---- */

#define ADD(x0, y0, z0, x1, y1, z1)                                                                \
    {                                                                                              \
        false, {x0, y0, z0},                                                                       \
        {                                                                                          \
            x1, y1, z1                                                                             \
        }                                                                                          \
    }
#define CUT(x0, y0, z0, x1, y1, z1)                                                                \
    {                                                                                              \
        true, {x0, y0, z0},                                                                        \
        {                                                                                          \
            x1, y1, z1                                                                             \
        }                                                                                          \
    }

static const block_print blocks[] = {
    /* Action camera, bulky: a thick foot, a full shell round the camera, a roof. */
    {"ho-brick",
     false,
     25,
     8,
     6,
     {ADD(-22, -17, 0, 22, 17, 8), ADD(-16, -24, 8, 16, 24, 54),
      CUT(-10, -19.5, 12, 16, 19.5, 48.5), CUT(-16, -13, 18, -10, 13, 42),
      CUT(-18, -6, 0, -12, 6, 4), CUT(12, -6, 0, 18, 6, 4)}},
    /* Action camera, middling: thinner walls, open roof held by a strap. */
    {"ho-shell",
     false,
     25,
     5,
     5,
     {ADD(-18, -15, 0, 18, 15, 5), ADD(-14, -23, 5, 13, 23, 48), CUT(-10, -19.3, 8, 13, 19.3, 48),
      CUT(-14, -14, 14, -10, 14, 48), CUT(-4, -23, 16, 6, 23, 36)}},
    /* Action camera, slim: a cradle of thin strips; a strap does the rest. */
    {"ho-slim",
     false,
     25,
     3,
     6,
     {ADD(-16, -12, 0, 16, 12, 4), ADD(-13, -22.2, 4, 13, 22.2, 42),
      CUT(-10, -19.2, 7, 13, 19.2, 42), CUT(-13, -15, 13, -10, 15, 42),
      CUT(-6, -22.2, 12, 8, 22.2, 34), CUT(-8, -6, 0, 8, 6, 7)}},
    /* Action camera holder for the three-inch craft's bare board camera. */
    {"ho-mite",
     true,
     0,
     0,
     3,
     {ADD(-9, -12, 0, 9, 12, 12), CUT(-7.4, -10.4, 1.6, 9, 10.4, 12), CUT(-9, -6, 3, -7.4, 6, 12)}},
    /* Antenna tower for a stiff coax with a screw connector. */
    {"am-tower",
     false,
     0,
     0,
     5,
     {ADD(-14, -18, 0, 10, 18, 4), ADD(-14, -8, 4, -2, 8, 34), CUT(-11, -3.4, 4, -5, 3.4, 34),
      CUT(2, -14, 0, 6, -10, 4), CUT(2, 10, 0, 6, 14, 4)}},
    /* Two tubes for receiver wires on a bridge between rear standoffs. */
    {"am-bridge",
     true,
     0,
     0,
     4,
     {ADD(-3, -17, 0, 3, 17, 3), ADD(-6, -4, 0, 6, 4, 14), CUT(-4, -2, 0, 4, 2, 14),
      CUT(-1.5, -15, 0, 1.5, -11, 3)}},
    /* Antenna shelf of the long-range craft. */
    {"am-shelf",
     false,
     0,
     0,
     5,
     {ADD(-26, -16, 0, 6, 16, 3), ADD(-26, -5, 3, -16, 5, 22), CUT(-23, -2.5, 3, -19, 2.5, 22),
      CUT(-12, -12, 0, 2, -4, 3), CUT(-12, 4, 0, 2, 12, 3)}},
    /* Cage that carries a full-size camera between the front standoffs. */
    {"cg-28",
     false,
     0,
     0,
     4,
     {ADD(-11, -17, 0, 11, 17, 28), CUT(-11, -14.2, 2.5, 11, 14.2, 25.5),
      CUT(-7, -17, 6, 7, 17, 22), CUT(-6, -10, 0, 6, 10, 28)}},
    /* Cheeks that take a 19 mm camera into a 28 mm frame. */
    {"cg-19",
     true,
     0,
     0,
     3,
     {ADD(-8, -14, 0, 8, 14, 20), CUT(-8, -9.8, 2, 8, 9.8, 20), CUT(-5, -14, 5, 5, 14, 15)}},
    /* Tray that lifts the GPS behind the pack. */
    {"gp-tray",
     false,
     0,
     0,
     5,
     {ADD(-12, -12, 0, 12, 12, 2.4), ADD(-12, -12, 2.4, 12, 12, 9),
      CUT(-10.4, -10.4, 2.4, 10.4, 10.4, 9), CUT(-6, -6, 0, 6, 6, 2.4),
      CUT(-12, -4, 2.4, -10.4, 4, 9)}},
    /* Box round a receiver. */
    {"rx-box",
     true,
     0,
     0,
     3,
     {ADD(-11, -8.5, 0, 11, 8.5, 8), CUT(-9.4, -6.9, 1.6, 9.4, 6.9, 8),
      CUT(9.4, -3, 1.6, 11, 3, 8)}},
    /* Skid under the bottom plate. */
    {"sk-long",
     false,
     0,
     0,
     4,
     {ADD(-32, -9, 0, 32, 9, 2.5), ADD(-30, -9, 2.5, -24, 9, 9), ADD(24, -9, 2.5, 30, 9, 9),
      CUT(-18, -5, 0, 18, 5, 2.5)}},
    {"sk-short", true, 0, 0, 2, {ADD(-10, -6, 0, 10, 6, 4), CUT(-6, -3, 0, 6, 3, 4)}},
    /* Stop that keeps the pack from sliding forward. */
    {"pk-stop",
     true,
     0,
     0,
     3,
     {ADD(-4, -16, 0, 4, 16, 3), ADD(-4, -16, 3, -1, 16, 13), CUT(-4, -8, 6, -1, 8, 13)}},
    /* Guard for the side of the electronics, whose file lost faces on its way to the printer. */
    {"pp-torn", true, 0, 0, 2, {ADD(-30, -2, 0, 30, 2, 20), CUT(-20, -2, 5, 20, 2, 15)}},
};

static const ring_print rings[] = {
    {"bu-thick", true, 14.4, 17.6, 9, 230, -115, 23}, /* arm tip, five and seven inch */
    {"bu-thin", true, 14.4, 16.2, 8, 200, -100, 20},
    {"bu-small", true, 9.6, 11.6, 9, 220, -110, 22}, /* arm tip, three inch */
    {"am-tube", true, 2.2, 4.2, 24, 360, 0, 24},     /* sleeve for a thin coax, on a standoff */
};

int main(int arguments, char **argument)
{
    if (arguments != 2) {
        fputs("usage: meshes FOLDER\n", stderr);
        return 2;
    }
    static mesh m;
    for (size_t i = 0; i < sizeof blocks / sizeof blocks[0]; i++) {
        make_block(&blocks[i], &m);
        check_closed(blocks[i].name, &m);
        if (strcmp(blocks[i].name, "pp-torn") == 0)
            m.triangles -= 3;
        write_mesh(argument[1], blocks[i].name, blocks[i].text, &m);
    }
    for (size_t i = 0; i < sizeof rings / sizeof rings[0]; i++) {
        make_ring(&rings[i], &m);
        check_closed(rings[i].name, &m);
        write_mesh(argument[1], rings[i].name, rings[i].text, &m);
    }
    return 0;
}
