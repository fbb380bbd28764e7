/* discharge.h: a pack drained by a constant current: volts, warmth and what is left when it ends. */
#ifndef PARE_PHYSICS_DISCHARGE_H
#define PARE_PHYSICS_DISCHARGE_H

#include "physics/rig.h"

/** How a pack is drained. It starts at the pack's temperature, which is that of the air as well. */
typedef struct pare_drain {
    double current_a; /* of the whole pack, more than 0 */
    double from;      /* the charge at its start, from rest; 1: full */
    bool warms;       /* false: it stays at the pack's temperature */
} pare_drain;

typedef struct pare_drained {
    double time_s; /* since the start */
    double open_v, ohm, volts_v;
    double volts_u; /* standard uncertainty of volts_v, by pare_pack_model_doubt() */
    double degc;    /* of the cells */
} pare_drained;

/** The pack when it has come down to a charge.
 *
 * @return PARE_BAD_DATA naming what is out of range: a charge over drain->from, a current of 0
 * Accuracy: that of the pack's law; its steps of 0.01 of the charge are good to 0.2 K. */
pare_status pare_pack_drain(const pare_pack *pack, const pare_drain *drain, double charge,
                            pare_drained *drained, pare_error *err);

/** The charge at which it passes that many volts a cell under the current; 0: it stays above them.
 * @return PARE_BAD_DATA as above, and where it never was above them */
pare_status pare_pack_drain_to(const pare_pack *pack, const pare_drain *drain, double cell_v,
                               double *charge, pare_error *err);

#endif
