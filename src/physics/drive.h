/* drive.h: constants of motors and their ESCs, with how well they are known.
 *
 * What a maker states of a motor (kV, winding, unloaded current) does not tell what an ESC makes of it:
 * the resistance that a stand sees is larger than the winding's own, and the pulses at part throttle
 * heat the iron. Both were fitted to open stand tables together with the trade's laws for windings and
 * unloaded currents, since a stand sees only the product. */
#ifndef PARE_PHYSICS_DRIVE_H
#define PARE_PHYSICS_DRIVE_H

#include "physics/rig.h"

typedef struct pare_drive {
    /* of pare_motor and pare_esc */
    double iron_share, drive_excess, excess_warms, pulse_loss;
    pare_esc esc;
    /* the laws' leading factors: ohm at kV^-2 V^-1.61, ampere at (kV/1750) (V/3388)^0.84, V being the
     * stator's diameter squared times its height in mm3 */
    double winding_law, no_load_law;
    /* standard uncertainties for a motor or ESC that nobody measured; shares of the value where said */
    double iron_share_u, pulse_loss_u;
    double drive_u;               /* share of 1 + drive_excess */
    double winding_u, no_load_u;  /* shares: scatter of motors about the laws */
    double kv_u;                  /* share: measured kV about the stated one */
    double on_u_ohm, switching_u; /* of one ESC about the typical */
    double idle_u;                /* of the natural logarithm */
    double heat_u;                /* share of the winding's rise over ambient */
    double power_u;               /* share: electrical power at a known shaft power, motors left out
                                        of the fit, laws for winding and unloaded current */
} pare_drive;

/** As published: no excess and no pulse loss. Fixes the check cases. */
extern const pare_drive pare_drive_published;
/** Fitted; see drive_fitted.c. Every craft flies with it, and the laws for windings and unloaded currents
 * are its: the propellers of the thrust stand were fitted to the power that it leaves them. */
extern const pare_drive pare_drive_fitted;

/** Puts a drive's constants into a rig; kV, winding and unloaded current stay. */
void pare_rig_drive(const pare_drive *drive, pare_rig *rig);

#endif
