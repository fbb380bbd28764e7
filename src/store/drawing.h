/* drawing.h: a model or drawing alone into the bench, as the shape of a part. */
#ifndef PARE_STORE_DRAWING_H
#define PARE_STORE_DRAWING_H

#include "store/bench.h"

/** What is said of it; texts as a part's text form has them, NULL: not said. */
typedef struct pare_drawing_import {
    const char *path; /* ends in .stl, .3mf, .dxf or .svg */
    pare_change change;
    bool outline; /* a plate's outline, not a solid */
    const char *id, *kind, *maker, *mass;
    const char *thick, *origin;       /* of a plate; thick is needed */
    const char *unit, *wall, *infill; /* of a print */
    const char *density, *material;
    bool dry_run;
} pare_drawing_import;

typedef struct pare_drawing_part {
    const char *id, *kind;
    double mass_kg;
    bool computed; /* by its shape; otherwise it was said */
} pare_drawing_part;

typedef struct pare_drawing_taken {
    const char *file; /* the name under which the bench keeps it */
    double size_m[3]; /* of its bounding box; two of a plate */
    double area_m2;   /* of an outline, holes taken out */
    double volume_m3; /* of a solid */
    size_t holes;
    bool estimated; /* an open mesh */
    size_t parts;
    const pare_drawing_part *part; /* [parts] whose shape it is */
    const char *body;              /* how a part's text names it: "{mesh: x.stl}" */
    size_t warnings;
    const char *const *warning;
} pare_drawing_taken;

/** Makes a part of it (a printed one of a model, another one of an outline, unless the kind is
 * said), or takes it in anew for the parts whose shape it is already.
 *
 * @param arena  holds what is answered
 * @return PARE_OK; PARE_UNKNOWN; PARE_BAD_DATA: no solid or plate, no thickness, an id that another
 *         part has; PARE_UNAVAILABLE */
pare_status pare_store_import_drawing(pare_store *store, const pare_drawing_import *import,
                                      pare_arena *arena, pare_drawing_taken *taken,
                                      pare_error *err);

#endif
