/* cell.h: what all cells of one chemistry have in common: the constants behind a pack.
 *
 * More than one set exists: the shipped one (cells_fitted.c, written by tools/fit), and the one that
 * the check cases of the published description fix, which stands with the tests. */
#ifndef PARE_PHYSICS_CELL_H
#define PARE_PHYSICS_CELL_H

typedef enum pare_chemistry {
    PARE_LIPO,        /* lithium-polymer */
    PARE_LIHV,        /* high-voltage lithium-polymer, 4.35 V */
    PARE_LIION,       /* energy cells */
    PARE_LIION_POWER, /* power cells */
    PARE_CHEMISTRIES
} pare_chemistry;

/** Standard uncertainties of what a pack's law says of a pack that is new to it. */
typedef struct pare_pack_doubt {
    double ohm_share_u;      /* of the resistance, as a share of it */
    double cell_v_u;         /* of the open-circuit volts of one cell between full and empty */
    double capacity_share_u; /* of the charge that it really holds, as a share of that stated */
} pare_pack_doubt;

/* Charges between which the open-circuit volts are linear, 0 to 1. */
enum { PARE_PACK_KNOTS = 13 };
extern const double pare_pack_knots[PARE_PACK_KNOTS];

typedef struct pare_cell {
    double open_v[PARE_PACK_KNOTS];
    double ohm_ah; /* what shows within a second or so, times capacity; at 25 degC and without
                               the rise towards empty */
    double rise;   /* the resistance near empty: 1 + rise exp(-charge/rise_charge) */
    double rise_charge;
    double slow,
        slow_s;        /* the part that sets in slowly, over the quick one, and its time constant */
    double warm_share; /* share of the resistance that falls with warmth; the rest is constant */
    double activation_k;    /* by exp(activation_k (1/T - 1/298.15 K)) */
    double heat_j_per_k_ah; /* heat that a cell takes up, for each Ah of it */
    double cooling_s;       /* and the time in which it cools in still air */
    double ac_share;        /* what 1 kHz sees, over the quick resistance */
    double ac_share_u;
    double landing_v, cutoff_v; /* of one cell under load */
    pare_pack_doubt doubt;
} pare_cell;

extern const pare_cell pare_cells_fitted[PARE_CHEMISTRIES];

/** Open-circuit volts at a charge; held at its ends outside 0 to 1. */
double pare_cell_open_v(const pare_cell *cell, double charge);

/** Factor on the resistance for a charge; about 1 from half charge up. */
double pare_cell_rise(const pare_cell *cell, double charge);

/** Factor on the resistance for a temperature; 1 at 25 degC. */
double pare_cell_warmth(const pare_cell *cell, double degc);

#endif
