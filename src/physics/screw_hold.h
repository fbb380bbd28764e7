/* screw_hold.h: what a screw, its thread and the hole it goes into bear, and how tight to turn it. */
#ifndef PARE_PHYSICS_SCREW_HOLD_H
#define PARE_PHYSICS_SCREW_HOLD_H

#include <stdbool.h>

#include "physics/screw.h"

/** Strength of a material in tension. */
typedef struct pare_strength {
    double tensile_pa, proof_pa; /* Rm; Rp0.2 or the proof stress of the standard */
} pare_strength;

/** Of a screw by its material and class.
 *
 * @param grade  a property class: steel 8.8 (where NULL), 10.9, 12.9, 4.8, 5.8; stainless A2-70 (where
 *               NULL), A2-50, A2-80; aluminium AL1 (where NULL), AL3; the others have one value
 * @return PARE_BAD_DATA for a class that the material does not come in, naming those it does
 * Sources: ISO 898-1 (steel), ISO 3506-1 (stainless, from memory), ISO 8839 (titanium TI2, aluminium
 * AL6 and AL1); brass CU2 of ISO 8839 and nylon PA 66 from memory. */
pare_status pare_screw_strength(pare_screw_material material, const char *grade,
                                pare_strength *strength, pare_error *err);

/** Whether screws of any material come in a class of that name: "12.9", "A2-70". */
bool pare_screw_is_class(const char *grade);

/** Aluminium, brass, nylon. */
bool pare_screw_is_soft(pare_screw_material material);
bool pare_hole_is_soft(const char *name);

/** Of what has the hole: "6061", "7075", "steel", "stainless", "titanium", "brass", "nylon",
 * "aluminium" (an unknown alloy). @return PARE_BAD_DATA for another name */
pare_status pare_hole_strength(const char *name, pare_strength *strength, pare_error *err);

/** What is bolted down, under the head: the pressure that it bears. "carbon", "6061", "7075",
 * "steel", "plastic"; estimates. @return PARE_BAD_DATA for another name */
#define PARE_CARBON_BEARS_PA 250e6 /* through the thickness of a 0/90 plate; from memory */
pare_status pare_plate_bears_pa(const char *name, double *pressure_pa, pare_error *err);

typedef enum pare_held_by {
    PARE_HELD_BY_PROOF, /* the screw stretches */
    PARE_HELD_BY_SCREW_THREAD,
    PARE_HELD_BY_HOLE_THREAD,
    PARE_HELD_BY_PLATE, /* the head sinks in */
    PARE_HELD_BY_KEY,   /* the hexagon key turns in its socket */
} pare_held_by;

typedef struct pare_grip {
    pare_fastener standard;
    pare_thread thread;
    pare_strength screw, hole;
    bool soft_screw, soft_hole; /* aluminium, brass, nylon: half of the load is used, not 70 % */
    double engaged_m;           /* thread in thread; 0: no strip figures */
    double plate_pa;            /* what lies under the head bears; 0: not known */
    double washer_across_m;     /* between them; 0: none */
    double nut_factor;          /* K of F = T/(K d); 0.19 dry, 0.15 oiled */
} pare_grip;

typedef struct pare_held {
    double stress_area_m2;
    double tensile_n, proof_n;   /* of the thread */
    double head_share;           /* of the thread's load that the head bears: 1, or 0.8 */
    double strip_screw_n;        /* the screw's own thread shears off */
    double strip_hole_n;         /* the hole's does */
    double strip_n;              /* the lesser; infinite without engagement */
    double bearing_n;            /* under the head; infinite where the plate is not known */
    double preload_n, torque_nm; /* to use */
    pare_held_by by;             /* what sets it */
} pare_held;

/** @return PARE_BAD_DATA for an engagement or nut factor out of range, naming it
 * Sources: preload T = K d F (ASTM F835M sheets: K 0.19); stripping over the basic profile, shear
 * strength 0.6 Rm (FED-STD-H28 practice); ISO 7380-1 and ISO 10642 heads bear 0.8 of the thread's
 * load (their reduced loads, from memory); shares of proof load to use: common practice, no source. */
pare_status pare_screw_hold(const pare_grip *grip, pare_held *hold, pare_error *err);

/** Engagement at which the screw breaks before either thread strips. */
double pare_engagement_needed_m(const pare_thread *thread, const pare_strength *screw,
                                const pare_strength *hole);

/** Torque at which a screw in its hole breaks, the lesser of thread and head. */
double pare_screw_breaks_nm(const pare_grip *grip, const pare_held *hold);

#endif
