/* tunnel.h: what a wind tunnel measured of a propeller alone. */
#ifndef PARE_PHYSICS_TUNNEL_H
#define PARE_PHYSICS_TUNNEL_H

#include <stddef.h>

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

#endif
