/* silhouette.h: what of a craft is seen from above and from the side: true-scale outlines in metres.
 * No drawing. */
#ifndef PARE_SHOW_SILHOUETTE_H
#define PARE_SHOW_SILHOUETTE_H

#include "base/arena.h"
#include "craft/craft.h"

/** Forward is to the right in both, so that one view stands above the other. */
typedef enum pare_seen {
    PARE_SEEN_ABOVE, /* x to the right, y (left) up the page */
    PARE_SEEN_SIDE,  /* from the craft's right: x to the right, z up the page */
    PARE_SEEN
} pare_seen;

/** The outline of a plate out of a drawing's file, from the drawing's origin. */
typedef struct pare_plate_outline {
    const char *file; /* as the plate says it */
    size_t loops;     /* the outer one first; 0: not there */
    const pare_outline *loop;
} pare_plate_outline;

typedef struct pare_silhouette {
    size_t item;   /* into the craft's items */
    size_t copy;   /* which of them */
    bool disc;     /* what a propeller sweeps */
    bool boxed;    /* a bounding box stands in for it */
    size_t number; /* in the order of the craft's items and their pieces */
    size_t loops;
    const pare_outline *loop; /* m, x to the right, y up the page; the first holds the others */
    double middle_m[2];       /* of the first loop's bounding box */
    double near_m;            /* how far towards the eye its nearest point is */
} pare_silhouette;

typedef struct pare_view {
    size_t count;
    pare_silhouette *one; /* from far to near */
    double low_m[2], high_m[2];
    size_t boxes;    /* pieces that their bounding box stands in for: meshes, missing outlines */
    size_t nowhere;  /* pieces of which nothing is known */
    size_t left_out; /* pieces beyond what one picture takes */
} pare_view;

/** A place in craft axes as it is seen. */
void pare_seen_at(pare_seen seen, pare_vec3 at_m, double on_view_m[2]);

/** All items that are on, each piece of each copy by itself.
 *
 * A solid's silhouette is the convex hull of its corners (round ones have 48 on a turn); a plate with
 * an outline shows its own from above, holes and all. A propeller is its disc. Beyond some thousand
 * pieces, or some hundred thousand corners, the rest is left out and counted.
 * @param craft    settled and loaded
 * @param outline  [outlines]; a plate whose file is not among them is drawn as its box
 * @return PARE_OK, or PARE_UNAVAILABLE when memory runs out */
pare_status pare_view_of(const pare_craft *craft, pare_seen seen, size_t outlines,
                         const pare_plate_outline outline[], pare_arena *arena, pare_view *view,
                         pare_error *err);

/** Whether a place on the view lies within a loop. */
bool pare_loop_holds(const pare_outline *loop, const double at_m[2]);

#endif
