/* solid.h: bodies of simple shape and triangle meshes: mass, centre and inertia; and how bodies add
 * up to a craft. */
#ifndef PARE_PHYSICS_SOLID_H
#define PARE_PHYSICS_SOLID_H

#include <stddef.h>

#include "base/error.h"
#include "base/vec.h"

/** No place may lie further out than this: beyond it volumes and moments lose their meaning. */
#define PARE_SOLID_MOST_M 1e6

/** A body: mass, centre, and inertia about that centre, all in one frame. */
typedef struct pare_body {
    double mass_kg;
    pare_vec3 at_m;
    pare_sym3 inertia_kg_m2;
} pare_body;

typedef enum pare_shape {
    PARE_SHAPE_POINT,    /* no size */
    PARE_SHAPE_BOX,      /* x, y, z */
    PARE_SHAPE_CYLINDER, /* d, h; axis z; so the next four */
    PARE_SHAPE_TUBE,     /* od, id, h */
    PARE_SHAPE_CONE,     /* d1 below, d2 above, h: a frustum; its centre is its centre of mass */
    PARE_SHAPE_CAPSULE,  /* d, l of the cylindrical part */
    PARE_SHAPE_RING,     /* d: thin, in the x-y plane */
    PARE_SHAPE_SPHERE,   /* d */
    PARE_SHAPE_ROD,      /* l along x, thin */
    PARE_SHAPE_PLATE,    /* x, y, t: thin unless t is given */
    PARE_SHAPES
} pare_shape;

/** How many sizes a shape takes, its name ("box"), and the names of its sizes ("x, y, z"). */
size_t pare_shape_sizes(pare_shape shape);
const char *pare_shape_name(pare_shape shape);
const char *pare_shape_size_names(pare_shape shape);

/** A homogeneous solid about its own centre of mass, at the origin.
 *
 * A box or plate may have sizes of 0, as may any shape where its formula has a limit: a capsule
 * without a cylinder is a sphere.
 * @param size_m [pare_shape_sizes(shape)], each 0 or more and finite; od > id; d1 or d2 > 0
 * @return PARE_OK or PARE_BAD_DATA; body is then untouched
 * Accuracy: rounding only. Source: textbook closed forms, checked against ODE. */
pare_status pare_solid(pare_shape shape, double mass_kg, const double size_m[], pare_body *body,
                       pare_error *err);
/** Its volume, 0 for point, ring and rod. */
double pare_solid_volume_m3(pare_shape shape, const double size_m[]);

/** A mass of which only the radii of gyration about its own axes are known, at the origin.
 *
 * @param radius_m  sqrt(Ixx/m), sqrt(Iyy/m), sqrt(Izz/m); no square greater than the other two
 *                  together, for no body is like that */
pare_status pare_gyration(double mass_kg, pare_vec3 radius_m, pare_body *body, pare_error *err);

/** A closed outline: its corners in either direction; the last joins the first. */
typedef struct pare_outline {
    size_t points;
    const double (*at_m)[2];
} pare_outline;

/** A plate cut to an outline in the x-y plane, thickness along z, centred in z on 0.
 *
 * @param hole  [holes] outlines cut away, inside the plate and apart from each other
 * @return PARE_OK, or PARE_BAD_DATA: fewer than three points, no area, a place that is no number,
 *         a hole outside the plate, holes that leave nothing. That an outline does not cross itself
 *         and holes do not overlap is the caller's to see to.
 * Source: Green's theorem over the outline. */
pare_status pare_plate(const pare_outline *outer, size_t holes, const pare_outline hole[],
                       double thick_m, double density_kg_m3, pare_body *body, pare_error *err);

/** Rotation by intrinsic z-y-x angles (ISO 8855: yaw, pitch, roll). */
pare_mat3 pare_turn_zyx(double z_rad, double y_rad, double x_rad);

/** The body turned about the origin, then moved by `by_m`. turn NULL: only moved. */
pare_body pare_body_moved(const pare_body *body, const pare_mat3 *turn, pare_vec3 by_m);

/** Several bodies as one, by the parallel-axis theorem. count 0 gives a zero body; bodies without
 * mass have their centre at the origin. */
pare_body pare_body_sum(size_t count, const pare_body bodies[]);

/** Principal moments, smallest first, and axes as the columns of a rotation (right handed). */
void pare_principal(const pare_sym3 *inertia, double moments[3], pare_mat3 *axes);

/* ---- mesh.c ---- */

/** Triangles: nine numbers each, three corners of x, y, z, anticlockwise seen from outside. */
typedef struct pare_mesh {
    size_t triangles;
    const double (*corner_m)[9];
} pare_mesh;

typedef enum pare_mesh_estimate {
    PARE_MESH_EXACT = 0, /* the mesh's own figures */
    PARE_MESH_HULL,      /* its convex hull's: never smaller than the part */
    PARE_MESH_BOX        /* its bounding box's */
} pare_mesh_estimate;

typedef struct pare_mesh_facts {
    double volume_m3, area_m2; /* the area is always the mesh's own */
    pare_vec3 centre_m;
    pare_sym3 inertia_m5;         /* about the centre, at density 1 */
    pare_vec3 low_m, high_m;      /* bounding box */
    size_t open_edges;            /* edges not walked exactly twice, once each way */
    pare_vec3 open_from_m;        /* where the first of them is */
    pare_vec3 open_to_m;          /* and its other end */
    size_t degenerate;            /* triangles without area, which weigh nothing */
    int turned_inside_out;        /* 1: was inside out, and has been turned */
    pare_mesh_estimate estimated; /* not 0: volume, centre and inertia are not the mesh's own */
} pare_mesh_facts;

/** Volume, centre and inertia by the divergence theorem over signed tetrahedra.
 *
 * A mesh that is not closed, consistently wound and manifold is no solid: open_edges says how many
 * edges are wrong, and the bounding box's figures are given with estimated = PARE_MESH_BOX; so they
 * are for a closed mesh without volume (open_edges 0). pare_mesh_take_hull() does better.
 * @param scratch  pare_mesh_scratch(triangles) bytes, aligned as for malloc
 * @return PARE_OK, or PARE_BAD_DATA: no triangles, a corner that is no finite number or further out
 *         than PARE_SOLID_MOST_M, naming the triangle; facts are then untouched
 * Accuracy: rounding, however far from the origin; single-precision corners give 1e-7. Time: n log n
 * in the triangles. Allocates: nothing. */
pare_status pare_mesh_measure(const pare_mesh *mesh, void *scratch, pare_mesh_facts *facts,
                              pare_error *err);

/** Bytes that pare_mesh_measure() needs; 0 when that is more than a size_t holds. */
size_t pare_mesh_scratch(size_t triangles);

/** Takes volume, centre and inertia of the convex hull of an open mesh into its facts.
 *
 * @param hull  triangles of the hull's surface, facing either way
 * @return 1, or 0 when the hull is flat: the facts are then untouched */
int pare_mesh_take_hull(const pare_mesh *hull, pare_mesh_facts *facts);

/** A printed part: shell (area x wall, never above the whole) and infill.
 *
 * @param wall_m, infill  1.2 mm and 0.20 unless known */
double pare_printed_kg(double volume_m3, double area_m2, double wall_m, double infill,
                       double density_kg_m3);

#endif
