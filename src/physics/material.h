/* material.h: what parts other than screws are made of: mass, stiffness, strength. */
#ifndef PARE_PHYSICS_MATERIAL_H
#define PARE_PHYSICS_MATERIAL_H

#include <stdbool.h>
#include <stddef.h>

typedef struct pare_material {
    const char *name; /* "tpu" */
    double density_kg_m3;
    double bend_pa, shear_pa; /* moduli */
    double strength_pa;       /* in bending or tension, what a part may count on */
    bool printed;             /* laid down in layers, which come apart before they break */
} pare_material;

/** By name, lower case; NULL: not known. */
const pare_material *pare_material_named(const char *name);
/** The nth, from 0, or NULL past the last. */
const pare_material *pare_material_at(size_t n);

/** Of the strength along its lines, what a printed part bears across its layers: 0.4 to 0.7, common
 * practice, no source. */
#define PARE_LAYERS_SHARE 0.5

#endif
