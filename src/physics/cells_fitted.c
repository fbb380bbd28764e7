/* cells_fitted.c: the cells' constants. Written by `tools/fit DATA_FOLDER cells`: change the fit,
 * not this file. docs/decisions.md has the errors on cells that the fit did not see. */
#include "physics/cell.h"

const pare_cell pare_cells_fitted[PARE_CHEMISTRIES] = {
    /* Open-circuit volts: two pouch cells, 7.5 Ah (Ecker et al., J. Electrochem. Soc. 162
     * (2015) A1849) and the upper quarter of 2.28 Ah (Ai et al. 2019). Extrapolated: all of the
     * resistance, which is the trade's estimate for flight packs; these two pouch cells have
     * some ten times that, and small flight packs were measured at 45 to 57 mohm Ah. A
     * charger's reading is worth far more. */
    [PARE_LIPO] = {.open_v = {3.220, 3.342, 3.469, 3.576, 3.676, 3.741, 3.772, 3.824, 3.895, 3.984,
                              4.085, 4.186, 4.200},
                   .ohm_ah = 0.0075,
                   .rise = 0.8,
                   .rise_charge = 0.07,
                   .slow = 0.4,
                   .slow_s = 15,
                   .warm_share = 1,
                   .activation_k = 2400,
                   .heat_j_per_k_ah = 27.5,
                   .cooling_s = 900,
                   .ac_share = 0.7,
                   .ac_share_u = 0.2,
                   .landing_v = 3.5,
                   .cutoff_v = 3,
                   .doubt = {0.5, 0.032, 0.05}},
    /* No open measurement: an engineering estimate, resistance as lithium-polymer. */
    [PARE_LIHV] = {.open_v = {3.250, 3.470, 3.600, 3.700, 3.750, 3.790, 3.830, 3.890, 3.970, 4.070,
                              4.200, 4.270, 4.350},
                   .ohm_ah = 0.0075,
                   .rise = 0.8,
                   .rise_charge = 0.07,
                   .slow = 0.4,
                   .slow_s = 15,
                   .warm_share = 1,
                   .activation_k = 2400,
                   .heat_j_per_k_ah = 27.5,
                   .cooling_s = 900,
                   .ac_share = 0.7,
                   .ac_share_u = 0.2,
                   .landing_v = 3.5,
                   .cutoff_v = 3,
                   .doubt = {0.5, 0.05, 0.05}},
    /* Three INR18650-30Q (ARTS Laboratory, University of South Carolina), C/10 to 3 C in air of
     * 23 degC, and one NCR18650PF (Kollmeyer, Mendeley Data, 2018), C/20, 1 C and pulses. Below
     * 20 degC it rests on one figure: 2.5 times the resistance at 0 degC. */
    [PARE_LIION] = {.open_v = {2.893, 3.099, 3.264, 3.431, 3.512, 3.587, 3.676, 3.780, 3.872, 3.982,
                               4.069, 4.100, 4.179},
                    .ohm_ah = 0.1008,
                    .rise = 1.209,
                    .rise_charge = 0.09095,
                    .slow = 0.5084,
                    .slow_s = 59.62,
                    .warm_share = 0.4003,
                    .activation_k = 5581,
                    .heat_j_per_k_ah = 23.79,
                    .cooling_s = 951.6,
                    .ac_share = 0.6245,
                    .ac_share_u = 0.1561,
                    .landing_v = 3,
                    .cutoff_v = 2.6,
                    .doubt = {0.092, 0.021, 0.02}},
    /* As lithium-ion, with the resistance of a 21700 power cell: 30 mohm Ah in pulses of seconds.
     * Extrapolated: its open-circuit volts, and the slow part of its resistance. */
    [PARE_LIION_POWER] = {.open_v = {2.893, 3.099, 3.264, 3.431, 3.512, 3.587, 3.676, 3.780, 3.872,
                                     3.982, 4.069, 4.100, 4.179},
                          .ohm_ah = 0.02768,
                          .rise = 1.209,
                          .rise_charge = 0.09095,
                          .slow = 0.5084,
                          .slow_s = 59.62,
                          .warm_share = 0.4003,
                          .activation_k = 5581,
                          .heat_j_per_k_ah = 23.79,
                          .cooling_s = 951.6,
                          .ac_share = 0.6245,
                          .ac_share_u = 0.1561,
                          .landing_v = 3,
                          .cutoff_v = 2.6,
                          .doubt = {0.3, 0.032, 0.02}},
};
