/* screw.h: masses of standard screws, nuts and washers from their geometry. */
#ifndef PARE_PHYSICS_SCREW_H
#define PARE_PHYSICS_SCREW_H

#include "base/error.h"

typedef enum pare_screw_standard {
    PARE_ISO4762,  /* socket cap */
    PARE_ISO7380,  /* ISO 7380-1, button */
    PARE_ISO10642, /* countersunk; length includes the head */
    PARE_SCREW_STANDARDS
} pare_screw_standard;

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
/** The material of a name, or -1. */
int pare_screw_material_named(const char *name);
const char *pare_screw_standard_name(pare_screw_standard standard); /* "ISO4762" */

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
 * ISO 4762 goes from M1.6 to M5 here, ISO 7380-1 and ISO 10642 from M3 to M5. Within 4 % and 0.05 g
 * of a DIN 912 chart for M3 and M4; button and countersunk heads are not checked against a table.
 * @return PARE_BAD_DATA for a thread that the standard does not have or a length out of
 *         range (2 .. 60 mm), naming what would be right */
pare_status pare_screw_kg(pare_screw_standard standard, const pare_thread *thread, double length_m,
                          pare_screw_material material, double *mass_kg, pare_error *err);
/** Across the head of a screw; across the flats of the hexagon key that turns it, and of the spanner
 * for its nut (ISO 4032); 0 for a thread that the standard does not have. */
double pare_screw_head_m(pare_screw_standard standard, const pare_thread *thread);
double pare_screw_key_m(pare_screw_standard standard, const pare_thread *thread);
double pare_nut_flats_m(const pare_thread *thread);

/** A threaded stud; a hex nut ISO 4032 (2 to 3 % heavy: no chamfers); a plain washer ISO 7089.
 * Nuts and washers from M1.6 to M5. */
double pare_stud_kg(const pare_thread *thread, double length_m, double density_kg_m3);
pare_status pare_nut_kg(const pare_thread *thread, double density_kg_m3, double *mass_kg,
                        pare_error *err);
pare_status pare_washer_kg(const pare_thread *thread, double density_kg_m3, double *mass_kg,
                           pare_error *err);

#endif
