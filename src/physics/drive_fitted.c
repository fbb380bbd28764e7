/* drive_fitted.c: constants of motors and ESCs (see drive.h). Written by tools/fit; do not edit.
 *
 * Fitted to 1078 readings: 12 motors and 7 propellers of 5 in on one ESC (Cao and Strawson,
 * student bench data, 2018, MIT licence; no torque), and three motors on three ESCs with a 7 in
 * propeller (A. Spitzer, Carnegie Mellon, 2019, MIT licence; torque measured). kV 1600 to
 * 2800, stators 18 x 4 to 23 x 6 mm, 7 to 16 V, 0.2 to 40 A.
 *
 * Electrical power at thrust of motors left out, propeller known, winding and no-load current by
 * the laws: median error 5.9 %, 90th percentile 27.2 %; of their readings 55 % lay in the
 * 50 % interval, 85 % in the 90 % one. Volts at full throttle: 2.8 / 12.0 %.
 *
 * Doubt: no stator's winding was measured by itself, so winding_law and drive_excess are known
 * only by their product, 2.61 of the published law; priors share it. The level of all losses hangs
 * on the propellers' figure of merit: 0.606 as fitted, 0.570 +- 6 % before. on_ohm was
 * not told from the winding and is the published estimate. One ESC of four idles at 0.63 A, with
 * its own electronics: idle_a is the middle of the others. excess_warms and heat_u are
 * estimates. */
#include "physics/drive.h"

const pare_drive pare_drive_fitted = {
    .iron_share = 0.982,
    .drive_excess = 1.242,
    .excess_warms = 0.50,
    .pulse_loss = 0.563,
    .esc = {.on_ohm = 0.0030, .switching = 0.0467, .idle_a = 0.0164},
    .winding_law = 1.0729e+11,
    .no_load_law = 1.495,
    .iron_share_u = 0.006,
    .pulse_loss_u = 0.109,
    .drive_u = 0.108,
    .winding_u = 0.210,
    .no_load_u = 0.376,
    .kv_u = 0.067,
    .on_u_ohm = 0.0015,
    .switching_u = 0.0637,
    .idle_u = 2.07,
    .heat_u = 0.40,
    .power_u = 0.112,
};
