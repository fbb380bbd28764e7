/* figure.h: every figure that a sheet may hold: its key, its unit, which way is better.
 *
 * One table feeds the sheet's text, its JSON, the limits of a brief, a swap's changes and a
 * comparison, so that a figure has one name everywhere. A limit's key is a figure's key less its
 * unit ("all_up" for all_up_g). */
#ifndef PARE_CRAFT_FIGURE_H
#define PARE_CRAFT_FIGURE_H

#include <stddef.h>

#include "base/units.h"

typedef enum pare_figure {
    PARE_ALL_UP,
    PARE_DRY,
    PARE_MONEY,
    PARE_CG_X,
    PARE_CG_Y,
    PARE_CG_Z,
    PARE_IXX,
    PARE_IYY,
    PARE_IZZ,
    PARE_IXY,
    PARE_IXZ,
    PARE_IYZ,
    PARE_PACK_SHIFT,
    PARE_HOVER_OUTPUT,
    PARE_HOVER_A,
    PARE_HOVER_W,
    PARE_HOVER_W_KG,
    PARE_HOVER_RPM,
    PARE_IDLE_TWR,
    PARE_GUST,
    PARE_HOVER_TIME,
    PARE_CRUISE_TIME,
    PARE_FLOWN_TIME,
    PARE_FLOWN_A,
    PARE_FLOWN_RMS_A,
    PARE_FLOWN_MOTOR_A,
    PARE_WINDING,
    PARE_PACK_WARMTH,
    PARE_LANDING_CELL_V,
    PARE_CRUISE_RPM,
    PARE_BEST_RANGE,
    PARE_BEST_RANGE_SPEED,
    PARE_THRUST_FRESH,
    PARE_TWR_FRESH,
    PARE_TWR_HALF,
    PARE_TWR_LANDING,
    PARE_FULL_A,
    PARE_MOTOR_FULL_A,
    PARE_FULL_CELL_V,
    PARE_BURST,
    PARE_TURN,
    PARE_CLIMB,
    PARE_TOP_SPEED,
    PARE_ROLL,
    PARE_PITCH,
    PARE_YAW,
    PARE_ROTOR_LAG,
    PARE_CRASH,
    PARE_PACK_ENERGY,
    PARE_AIR_DENSITY,
    PARE_DENSITY_ALTITUDE,
    PARE_FIGURES
} pare_figure;

/** Some of them: a bit (pare_figures)1 << figure each. */
typedef unsigned long long pare_figures;
#define PARE_EVERY_FIGURE (((pare_figures)1 << PARE_FIGURES) - 1)

typedef struct pare_figure_row {
    const char *key;   /* in JSON: "all_up_g" */
    const char *stem;  /* in a limit: "all_up"; NULL: no limit on this one */
    const char *words; /* on the screen: "all-up mass" */
    const char *unit;  /* on the screen: "g" */
    pare_dimension dimension;
    double scale; /* SI times this is the figure in its unit */
    int better;   /* 1: more is better, -1: less is, 0: neither */
} pare_figure_row;

extern const pare_figure_row pare_figure_table[PARE_FIGURES];

/** The figure whose limit key this is, or -1. "margin" is not a figure: the caller knows it. */
int pare_figure_of_limit(const char *stem);

/** All limit keys, for messages. @return how many, `most` at most */
size_t pare_figure_limit_names(size_t most, const char *names[]);

#endif
