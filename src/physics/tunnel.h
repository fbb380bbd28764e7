/* tunnel.h: what a wind tunnel measured of a propeller alone, and the model bent to it. */
#ifndef PARE_PHYSICS_TUNNEL_H
#define PARE_PHYSICS_TUNNEL_H

#include <stddef.h>

#include "base/error.h"
#include "physics/prop.h"

/** One point, in air of about sea level: at rest (advance 0) or running. */
typedef struct pare_tunnel_row {
    double advance;     /* J = V/(n D) */
    double speed_rad_s; /* of the shaft */
    double ct, cp;      /* T/(rho n2 D4), P/(rho n3 D5) */
} pare_tunnel_row;

/** All points of one propeller, checked: see craft/tunnel_table.h. */
typedef struct pare_tunnel_table {
    size_t rows;                /* 2 or more */
    const pare_tunnel_row *row; /* [rows] by speed, within one by advance: rising */
} pare_tunnel_table;

/** The model bent to a tunnel's points. Plain data without pointers. */
typedef struct pare_tunnel_fit {
    pare_prop_table table;          /* the propeller's, shifted to the points */
    pare_prop_doubt still, running; /* at rest, and over the advance ratios that were measured */
    double advance_high;            /* the greatest measured */
    double ct_rms, cp_rms;          /* what is left, as shares of the values at rest */
} pare_tunnel_fit;

/** Bends a propeller's model to what a tunnel measured of it.
 *
 * CT and CP are shifted by smooth functions of the advance ratio, and by a slope with ln of the Reynolds
 * number; where nothing was measured they go back to the model times one factor, and to the
 * model alone where the flow drives the propeller.
 * @param model    the propeller's own table
 * @param doubt    of that model at rest
 * @return PARE_BAD_DATA where the points contradict each other too far; the output is then untouched
 * Allocates nothing; about 2 us a point, so that no bench need keep it. */
pare_status pare_tunnel_fit_points(const pare_prop_table *model, const pare_prop_doubt *doubt,
                                   const pare_tunnel_table *tunnel, pare_tunnel_fit *fit,
                                   pare_error *err);

#endif
