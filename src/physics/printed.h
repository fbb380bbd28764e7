/* printed.h: what the walls and the infill of a printed part weigh, bear and stiffen. */
#ifndef PARE_PHYSICS_PRINTED_H
#define PARE_PHYSICS_PRINTED_H

/** A printed part's strength and stiffness by the gram, over those of a solid of its material. */
typedef struct pare_printed {
    double shell_kg, infill_kg;
    double bears;    /* strength a gram */
    double stiffens; /* stiffness a gram */
} pare_printed;

/** As pare_printed_kg(), taken apart.
 *
 * Walls work as the material does; infill as an open-cell foam of its share does: 0.3 of strength times
 * the share to the power of 1.5, stiffness times the square of the share.
 * Source: Gibson and Ashby, Cellular Solids, 2nd ed., ch. 5 (from memory). Regular infill pulled along
 * its lines does better. */
pare_printed pare_printed_of(double volume_m3, double area_m2, double wall_m, double infill,
                             double density_kg_m3);

/** Newtons that a kilogram bears as a strand of so many metres: strength over density and length. */
double pare_strand_bears_n_kg(double strength_pa, double density_kg_m3, double length_m);
/** N/m by which a kilogram resists being stretched as such a strand: modulus over density and the square
 * of the length. */
double pare_strand_stiff_n_m_kg(double modulus_pa, double density_kg_m3, double length_m);

#endif
