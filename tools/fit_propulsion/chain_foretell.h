/* chain_foretell.h: what volts at an ESC become at a propeller, with the doubt of all pieces. */
#ifndef FIT_CHAIN_FORETELL_H
#define FIT_CHAIN_FORETELL_H

#include "drive_bench.h"
#include "physics/drive.h"
#include "physics/prop.h"
#include "physics/rotor.h"

enum { CHAIN_POWER, CHAIN_FULL_THRUST, CHAIN_THRUST, CHAIN_FIGURES };

/** All that is believed of one reading's motor, ESC and propeller. */
typedef struct chain {
    pare_motor motor;
    pare_esc esc;
    pare_rotor rotor;
    double heat;
    pare_air air;
} chain;

/** What may be off, by independent deviates. */
enum {
    CHAIN_BLADE,
    CHAIN_BLADE_POWER,
    CHAIN_KV,
    CHAIN_WINDING,
    CHAIN_NO_LOAD,
    CHAIN_PULSES,
    CHAIN_SWITCHING,
    CHAIN_ESC_OHM,
    CHAIN_SOURCES
};

typedef struct chain_doubts {
    pare_prop_doubt blade;
    double u[CHAIN_SOURCES]; /* of each of the others, CHAIN_BLADE and CHAIN_BLADE_POWER apart */
} chain_doubts;

/** ln of what the chain says of a reading: W into the ESC at its thrust, N at full throttle on its
 * volts, or N at its speed; NAN where it has none. */
double chain_foretold(const chain *c, const drive_row *row, int figure);
/** ln of what was read. */
double chain_measured(const drive_row *row, int figure);
/** The standard uncertainty of chain_foretold() over chain_measured(): all doubts by central differences,
 * and a reading's own. */
double chain_foretold_u(const chain *base, const chain_doubts *d, const drive_row *row, int figure);

#endif
