/* nut.h: what goes on and between screws: nuts, washers, standoffs; masses from their geometry. */
#ifndef PARE_PHYSICS_NUT_H
#define PARE_PHYSICS_NUT_H

#include "physics/screw.h"

/** Any fastener, as it is bought. */
typedef struct pare_fastener_size {
    pare_fastener standard;
    pare_thread thread;
    double length_m; /* screw or standoff; a nut and a washer have none */
    double across_m; /* standoff: across the flats, or the diameter of a round one */
    double tapped_m; /* standoff: depth of the thread at each end; 0: right through */
} pare_fastener_size;

/** Mass of one of anything.
 *
 * Nuts ISO 4032 and washers ISO 7089 from M1.6 to M5, locking nuts ISO 7040 from M3 to M5; standoffs
 * on any of the threads, 3 .. 100 mm long. A hex nut comes out 2 to 4 % heavy (no chamfers), a
 * locking nut is known to some 8 % (its ring's groove is an estimate).
 * @return PARE_BAD_DATA for a thread that the standard does not have, a length or a standoff's
 *         measure out of range, naming what would be right */
pare_status pare_fastener_kg(const pare_fastener_size *size, pare_screw_material material,
                             double *mass_kg, pare_error *err);

/** The same for a nut, a plain washer and a threaded stud, of any density. */
pare_status pare_nut_kg(pare_fastener standard, const pare_thread *thread, double density_kg_m3,
                        double *mass_kg, pare_error *err);
pare_status pare_washer_kg(const pare_thread *thread, double density_kg_m3, double *mass_kg,
                           pare_error *err);
double pare_stud_kg(const pare_thread *thread, double length_m, double density_kg_m3);

/** A standoff's bare volume, for densities that are no screw's; 0 for measures out of range. */
double pare_standoff_m3(const pare_fastener_size *size);

/** Across a nut's flats; the height of its thread; a washer's thickness and width; 0 for a thread that
 * the standard does not have. */
double pare_nut_flats_m(const pare_thread *thread);
double pare_nut_thread_m(const pare_thread *thread);
double pare_washer_thick_m(const pare_thread *thread);
double pare_washer_across_m(const pare_thread *thread);

/** What a standoff bears: pulled along it, by the metal beside its thread; pushed across it at one end
 * while both ends are held flat, by plastic hinges at the ends (limit analysis of a clamped beam).
 * @param tensile_pa, yield_pa  of its metal */
double pare_standoff_pulls_n(const pare_fastener_size *size, double tensile_pa);
double pare_standoff_bends_n(const pare_fastener_size *size, double yield_pa);

#endif
