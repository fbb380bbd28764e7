/* screw.h: threads, materials, and the masses of standard screws from their geometry. */
#ifndef PARE_PHYSICS_SCREW_H
#define PARE_PHYSICS_SCREW_H

#include <stdbool.h>

#include "base/error.h"

/** What holds: screws first, then what is on or between them (nut.h weighs those). */
typedef enum pare_fastener {
    PARE_ISO4762,      /* socket cap */
    PARE_ISO7380,      /* ISO 7380-1, button */
    PARE_ISO10642,     /* countersunk; length includes the head */
    PARE_ISO1207,      /* slotted cheese head */
    PARE_ISO4032,      /* hex nut */
    PARE_ISO7040,      /* hex nut that locks by a nylon ring */
    PARE_ISO7089,      /* plain washer */
    PARE_STANDOFF_HEX, /* a tapped post; no standard has them */
    PARE_STANDOFF_ROUND,
    PARE_FASTENERS
} pare_fastener;
enum { PARE_SCREW_STANDARDS = PARE_ISO4032 }; /* those before it */
bool pare_is_screw(pare_fastener standard);
/** Nuts and washers. */
bool pare_has_no_length(pare_fastener standard);
/** What people call one: "screw", "nut", "washer", "standoff". */
const char *pare_fastener_words(pare_fastener standard);
/** Its standard as people write it: "ISO 4762", "ISO 7380-1"; of a standoff, "hex" or "round". */
const char *pare_fastener_standard(pare_fastener standard);

typedef enum pare_screw_material {
    PARE_STEEL,
    PARE_STAINLESS,
    PARE_TITANIUM,
    PARE_ALUMINIUM_7075,
    PARE_ALUMINIUM,
    PARE_BRASS,
    PARE_NYLON,
    PARE_SCREW_MATERIALS
} pare_screw_material;

/** Density; names as typed: "steel", "stainless", "titanium", "aluminium_7075", "aluminium" (an
 * unknown alloy, counted as soft), "brass", "nylon". */
double pare_screw_density_kg_m3(pare_screw_material material);
const char *pare_screw_material_name(pare_screw_material material);
/** As people read it: "7075 aluminium". */
const char *pare_screw_material_words(pare_screw_material material);
/** The material of a name, or -1. */
int pare_screw_material_named(const char *name);
const char *pare_fastener_name(pare_fastener standard); /* "ISO4762", "standoff_hex" */

/** A thread by its nominal diameter: 1.6, 2, 2.5, 3, 4, 5 mm. */
typedef struct pare_thread {
    double nominal_m, pitch_m;
} pare_thread;
pare_status pare_thread_named(const char *name, pare_thread *thread, pare_error *err); /* "M3" */

/** Pitch diameter (ISO 724), core diameter (ISO 68-1) and stress area (ISO 898-1) of a thread. */
double pare_thread_pitch_diameter_m(const pare_thread *thread);
double pare_thread_core_diameter_m(const pare_thread *thread);
double pare_thread_stress_area_m2(const pare_thread *thread);

/** Mass of one screw: head less socket, thread as a cylinder of the pitch diameter, plain shank.
 *
 * ISO 4762 and ISO 1207 go from M1.6 to M5 here, ISO 7380-1 and ISO 10642 from M3 to M5. Within 4 %
 * and 0.05 g of a DIN 912 chart for M3 and M4; the other heads are not checked against a table.
 * @param standard  of a screw
 * @return PARE_BAD_DATA for a thread that the standard does not have or a length out of
 *         range (2 .. 60 mm), naming what would be right */
pare_status pare_screw_kg(pare_fastener standard, const pare_thread *thread, double length_m,
                          pare_screw_material material, double *mass_kg, pare_error *err);
/** Across the head of a screw; across the flats of the hexagon key that turns it, 0 for a slot; 0 for
 * a thread that the standard does not have. */
double pare_screw_head_m(pare_fastener standard, const pare_thread *thread);
double pare_screw_key_m(pare_fastener standard, const pare_thread *thread);

#endif
