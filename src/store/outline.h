/* outline.h: the outline of a cut plate out of the strokes of a drawing. Inside the room only.
 *
 * A reader (dxf.c, svg.c) draws strokes; what closes, what is a hole and what cannot be cut is found
 * here, the same for all drawings. Lengths are metres, x to the right, y up. */
#ifndef PARE_STORE_OUTLINE_H
#define PARE_STORE_OUTLINE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "physics/solid.h"

/** What a plate of any thickness needs to know of its outline, holes taken out. */
typedef struct pare_outline_facts {
    double area_m2;
    double edge_m;              /* length of all edges, those of the holes with them */
    double centre_m[2];         /* from the drawing's origin */
    double xx_m4, yy_m4, xy_m4; /* integrals of x^2, y^2 and xy about the centre */
    double low_m[2], high_m[2]; /* bounding box */
    size_t holes;
} pare_outline_facts;

/** A plate cut to the outline, as facts of a solid of density 1; z runs from -thick/2 to thick/2.
 * @param from_middle  places are from the middle of the bounding box, not the drawing's origin */
pare_mesh_facts pare_outline_thick(const pare_outline_facts *facts, double thick_m,
                                   bool from_middle);

/** x' = m[0] x + m[2] y + m[4]; y' = m[1] x + m[3] y + m[5]. */
typedef struct pare_affine {
    double m[6];
} pare_affine;

/** One stroke: points[from .. from + count); closed: the last joins the first. */
typedef struct pare_stroke {
    size_t from, count;
    bool closed;
} pare_stroke;

/** The loops of an outline, the outer one first; kept in an arena of the caller's. */
typedef struct pare_loops {
    pare_arena *arena;
    size_t count;
    const pare_outline *loop;
} pare_loops;

/** A drawing under way. Zero-initialise with an arena and a map from the reader's units. What goes
 * wrong while drawing is kept in `fault` and said by pare_drawing_measure(). */
typedef struct pare_drawing {
    pare_arena *arena;
    pare_loops *keep; /* gets a copy of the loops that are found; NULL: they are only measured */
    pare_affine map;  /* put on every point that is drawn; may change between strokes */
    size_t points, points_size, strokes, strokes_size;
    double (*at_m)[2];
    pare_stroke *stroke;
    enum { PARE_DRAWN, PARE_DRAWN_NO_MEMORY, PARE_DRAWN_TOO_MUCH, PARE_DRAWN_NOWHERE } fault;
} pare_drawing;

/** Begins a stroke at a point. */
void pare_draw_from(pare_drawing *drawing, double x, double y);
/** A straight line to a point. */
void pare_draw_line(pare_drawing *drawing, double x, double y);
/** An arc of an ellipse, c + u cos a + v sin a, from one angle to another (either way), which begins
 * where the stroke stands. A circle has u = (r, 0), v = (0, r). Its area is kept exactly. */
void pare_draw_arc(pare_drawing *drawing, const double c[2], const double u[2], const double v[2],
                   double from_rad, double to_rad);
/** A cubic Bezier curve p[0] .. p[3] that begins where the stroke stands. Its area is kept. */
void pare_draw_cubic(pare_drawing *drawing, const double p[4][2]);
/** Ends the stroke; closed: with a straight line back to its start where one is missing. */
void pare_draw_end(pare_drawing *drawing, bool closed);

/** Joins strokes to closed loops, tells the outer one from its holes, and measures.
 *
 * Ends join that are PARE_OUTLINE_GAP_M apart or less.
 * @param name  put in front of messages
 * @return PARE_OK; PARE_BAD_DATA: nothing drawn, an open loop, three ends that meet, loops that cross
 *         or touch, a second plate beside or within the first, a size that no plate has, places that
 *         are no numbers; PARE_UNAVAILABLE when there is no memory */
pare_status pare_drawing_measure(const char *name, const pare_drawing *drawing,
                                 pare_outline_facts *facts, pare_error *err);
#define PARE_OUTLINE_GAP_M 1e-5

/** Whether a name ends in ".dxf" and the like, in either case. */
bool pare_name_ends(const char *name, const char *ending);

/** Measures the outline in a file's bytes, a DXF or SVG by the ending of its name.
 * @param keep  gets the loops, too; NULL: not wanted
 * @return as pare_dxf_measure() and pare_svg_measure(); PARE_BAD_DATA for another ending */
pare_status pare_outline_measure(const char *name, const char *bytes, size_t length,
                                 pare_loops *keep, pare_outline_facts *facts, pare_error *err);

#endif
