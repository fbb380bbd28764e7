/* published_cells.h: the cells of the published description: engineering estimates, kept so that its
 * check cases go on testing the same code as the constants that ship. */
#ifndef PARE_TESTS_PUBLISHED_CELLS_H
#define PARE_TESTS_PUBLISHED_CELLS_H

#include "physics/cell.h"

#define PUBLISHED_LAW(ohm_ah_, activation_k_, landing_v_, cutoff_v_)                               \
    .ohm_ah = ohm_ah_, .rise = 0.8, .rise_charge = 0.07, .slow = 0.4, .slow_s = 15,                \
    .warm_share = 1, .activation_k = activation_k_, .landing_v = landing_v_, .cutoff_v = cutoff_v_

static const pare_cell published_cells[PARE_CHEMISTRIES] = {
    [PARE_LIPO] = {{3.27, 3.48, 3.60, 3.68, 3.72, 3.75, 3.78, 3.82, 3.88, 3.96, 4.06, 4.13, 4.20},
                   PUBLISHED_LAW(7.5e-3, 2400, 3.50, 3.00)},
    [PARE_LIHV] = {{3.25, 3.47, 3.60, 3.70, 3.75, 3.79, 3.83, 3.89, 3.97, 4.07, 4.20, 4.27, 4.35},
                   PUBLISHED_LAW(7.5e-3, 2400, 3.50, 3.00)},
    [PARE_LIION] = {{2.70, 3.10, 3.26, 3.42, 3.51, 3.58, 3.65, 3.75, 3.86, 3.95, 4.05, 4.10, 4.18},
                    PUBLISHED_LAW(78e-3, 3000, 3.00, 2.60)},
    [PARE_LIION_POWER] = {{2.70, 3.10, 3.26, 3.42, 3.51, 3.58, 3.65, 3.75, 3.86, 3.95, 4.05, 4.10,
                           4.18},
                          PUBLISHED_LAW(22e-3, 3000, 3.00, 2.60)},
};

#undef PUBLISHED_LAW

#endif
