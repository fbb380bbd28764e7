/* spec.c: the table of what may be said about each kind of part.
 *
 * A builder has half the figures, so a spec is needed only where physics cannot go on without it;
 * all else is filled by a law or may be absent. Ranges are wide on purpose: outside them a unit or a
 * digit went wrong. The last column is how far a maker's figure is off, one sigma, when the maker
 * does not say. [E] is our estimate, from the spread that builders see between label and bench
 * (common practice, no source); nominal sizes get the rounding of an inch. Ranges are [E] throughout.
 *
 * Rows of a kind stand together, and the two rows of a shared name (stator, volts) next to each other,
 * so that a reader finds the second after the first. */
#include "craft/spec.h"

#include <string.h>

#define MILLI (1e-3)
#define MM    (1e-3)
#define MAH   (3.6)

const pare_spec_row pare_spec_table[] = {
    {PARE_FRAME, PARE_SPEC_WHEELBASE, "wheelbase", PARE_DIM_LENGTH, 40 * MM, 2.0, PARE_BY_LAW,
     0.01},
    {PARE_FRAME, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-5, 1.0, PARE_OPTIONAL, 0.2},

    {PARE_MOTOR, PARE_SPEC_STATOR_DIAMETER, "stator", PARE_DIM_LENGTH, 3 * MM, 150 * MM,
     PARE_NEEDED, 0.005},
    {PARE_MOTOR, PARE_SPEC_STATOR_LENGTH, "stator", PARE_DIM_LENGTH, 1 * MM, 80 * MM, PARE_NEEDED,
     0.01},
    {PARE_MOTOR, PARE_SPEC_KV, "kv", PARE_DIM_KV, 20, 40000, PARE_NEEDED, 0.03}, /* [E] */
    {PARE_MOTOR, PARE_SPEC_RESISTANCE, "resistance", PARE_DIM_RESISTANCE, 1 * MILLI, 10,
     PARE_BY_LAW, 0.15}, /* [E] with or without leads, cold or warm */
    {PARE_MOTOR, PARE_SPEC_NO_LOAD, "no_load", PARE_DIM_CURRENT, 0.01, 20, PARE_BY_LAW,
     0.15}, /* [E] */
    {PARE_MOTOR, PARE_SPEC_NO_LOAD_AT, "no_load_at", PARE_DIM_VOLTAGE, 0.5, 100, PARE_BY_LAW, 0.01},
    {PARE_MOTOR, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_MOTOR, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_MOTOR, PARE_SPEC_CONTINUOUS, "continuous", PARE_DIM_CURRENT, 0.1, 500, PARE_OPTIONAL,
     0.15}, /* [E] each maker's own seconds and airflow */
    {PARE_MOTOR, PARE_SPEC_BURST, "burst", PARE_DIM_CURRENT, 0.1, 1000, PARE_OPTIONAL, 0.15},
    {PARE_MOTOR, PARE_SPEC_BURST_FOR, "burst_for", PARE_DIM_TIME, 0.1, 600, PARE_OPTIONAL, 0},
    {PARE_MOTOR, PARE_SPEC_SCREW_DEPTH, "screw_depth", PARE_DIM_LENGTH, 0.5 * MM, 20 * MM,
     PARE_BY_LAW, 0.05},

    {PARE_PROPELLER, PARE_SPEC_DIAMETER, "diameter", PARE_DIM_LENGTH, 20 * MM, 1.0, PARE_NEEDED,
     0.005},
    {PARE_PROPELLER, PARE_SPEC_PITCH, "pitch", PARE_DIM_LENGTH, 5 * MM, 2.0, PARE_NEEDED,
     0.05}, /* [E] */
    {PARE_PROPELLER, PARE_SPEC_BLADES, "blades", PARE_DIM_COUNT, 2, 8, PARE_NEEDED, 0},
    {PARE_PROPELLER, PARE_SPEC_CHORD, "chord", PARE_DIM_LENGTH, 1 * MM, 0.2, PARE_OPTIONAL, 0.03},
    {PARE_PROPELLER, PARE_SPEC_SLOW, "slow", PARE_DIM_COUNT, 0, 1, PARE_OPTIONAL, 0},

    {PARE_ESC_ONE, PARE_SPEC_CONTINUOUS, "continuous", PARE_DIM_CURRENT, 0.5, 500, PARE_NEEDED,
     0.1}, /* [E] */
    {PARE_ESC_ONE, PARE_SPEC_BURST, "burst", PARE_DIM_CURRENT, 0.5, 1000, PARE_OPTIONAL, 0.1},
    {PARE_ESC_ONE, PARE_SPEC_BURST_FOR, "burst_for", PARE_DIM_TIME, 0.1, 600, PARE_OPTIONAL, 0},
    {PARE_ESC_ONE, PARE_SPEC_RESISTANCE, "resistance", PARE_DIM_RESISTANCE, 0.1 * MILLI, 1,
     PARE_OPTIONAL, 0.2}, /* [E] */
    {PARE_ESC_ONE, PARE_SPEC_HEAT, "heat_capacity", PARE_DIM_HEAT, 0.1, 500, PARE_OPTIONAL,
     0.15}, /* [E] */
    {PARE_ESC_ONE, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_ESC_ONE, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_ESC_ONE, PARE_SPEC_OUT, "out", PARE_DIM_VOLTAGE, 1, 60, PARE_OPTIONAL, 0.02},
    {PARE_ESC_ONE, PARE_SPEC_OUT_CURRENT, "out_current", PARE_DIM_CURRENT, 0.01, 50, PARE_OPTIONAL,
     0.1},
    {PARE_ESC_ONE, PARE_SPEC_EFFICIENCY, "efficiency", PARE_DIM_SHARE, 0.3, 1, PARE_OPTIONAL, 0.03},

    {PARE_ESC_FOUR, PARE_SPEC_CONTINUOUS, "continuous", PARE_DIM_CURRENT, 0.5, 500, PARE_NEEDED,
     0.1}, /* [E] */
    {PARE_ESC_FOUR, PARE_SPEC_BURST, "burst", PARE_DIM_CURRENT, 0.5, 1000, PARE_OPTIONAL, 0.1},
    {PARE_ESC_FOUR, PARE_SPEC_BURST_FOR, "burst_for", PARE_DIM_TIME, 0.1, 600, PARE_OPTIONAL, 0},
    {PARE_ESC_FOUR, PARE_SPEC_RESISTANCE, "resistance", PARE_DIM_RESISTANCE, 0.1 * MILLI, 1,
     PARE_OPTIONAL, 0.2}, /* [E] */
    {PARE_ESC_FOUR, PARE_SPEC_HEAT, "heat_capacity", PARE_DIM_HEAT, 0.1, 500, PARE_OPTIONAL,
     0.15}, /* [E] */
    {PARE_ESC_FOUR, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_ESC_FOUR, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_ESC_FOUR, PARE_SPEC_OUT, "out", PARE_DIM_VOLTAGE, 1, 60, PARE_OPTIONAL, 0.02},
    {PARE_ESC_FOUR, PARE_SPEC_OUT_CURRENT, "out_current", PARE_DIM_CURRENT, 0.01, 50, PARE_OPTIONAL,
     0.1},
    {PARE_ESC_FOUR, PARE_SPEC_EFFICIENCY, "efficiency", PARE_DIM_SHARE, 0.3, 1, PARE_OPTIONAL,
     0.03},

    /* Current ratings: needed once the board does an ESC's work (see part.c). */
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_CONTINUOUS, "continuous", PARE_DIM_CURRENT, 0.5, 500,
     PARE_OPTIONAL, 0.1},
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_BURST, "burst", PARE_DIM_CURRENT, 0.5, 1000, PARE_OPTIONAL,
     0.1},
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_BURST_FOR, "burst_for", PARE_DIM_TIME, 0.1, 600,
     PARE_OPTIONAL, 0},
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_RESISTANCE, "resistance", PARE_DIM_RESISTANCE, 0.1 * MILLI,
     1, PARE_OPTIONAL, 0.2}, /* [E] */
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_HEAT, "heat_capacity", PARE_DIM_HEAT, 0.1, 500,
     PARE_OPTIONAL, 0.15}, /* [E] */
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL,
     0},
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL,
     0},
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_POWER, "power", PARE_DIM_POWER, 0, 50, PARE_BY_LAW, 0.15},
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_OUT, "out", PARE_DIM_VOLTAGE, 1, 60, PARE_OPTIONAL, 0.02},
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_OUT_CURRENT, "out_current", PARE_DIM_CURRENT, 0.01, 50,
     PARE_OPTIONAL, 0.1},
    {PARE_FLIGHT_CONTROLLER, PARE_SPEC_EFFICIENCY, "efficiency", PARE_DIM_SHARE, 0.3, 1,
     PARE_OPTIONAL, 0.03},

    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_CONTINUOUS, "continuous", PARE_DIM_CURRENT, 0.5, 500,
     PARE_NEEDED, 0.1}, /* [E] */
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_BURST, "burst", PARE_DIM_CURRENT, 0.5, 1000, PARE_OPTIONAL,
     0.1},
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_BURST_FOR, "burst_for", PARE_DIM_TIME, 0.1, 600,
     PARE_OPTIONAL, 0},
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_RESISTANCE, "resistance", PARE_DIM_RESISTANCE, 0.1 * MILLI,
     1, PARE_OPTIONAL, 0.2}, /* [E] */
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_HEAT, "heat_capacity", PARE_DIM_HEAT, 0.1, 500,
     PARE_OPTIONAL, 0.15}, /* [E] */
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120,
     PARE_OPTIONAL, 0},
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120,
     PARE_OPTIONAL, 0},
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_POWER, "power", PARE_DIM_POWER, 0, 50, PARE_BY_LAW, 0.15},
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_OUT, "out", PARE_DIM_VOLTAGE, 1, 60, PARE_OPTIONAL, 0.02},
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_OUT_CURRENT, "out_current", PARE_DIM_CURRENT, 0.01, 50,
     PARE_OPTIONAL, 0.1},
    {PARE_CONTROLLER_WITH_ESC, PARE_SPEC_EFFICIENCY, "efficiency", PARE_DIM_SHARE, 0.3, 1,
     PARE_OPTIONAL, 0.03},

    {PARE_REGULATOR, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_REGULATOR, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_REGULATOR, PARE_SPEC_OUT, "out", PARE_DIM_VOLTAGE, 1, 60, PARE_OPTIONAL, 0.02},
    {PARE_REGULATOR, PARE_SPEC_OUT_CURRENT, "out_current", PARE_DIM_CURRENT, 0.01, 50,
     PARE_OPTIONAL, 0.1},
    {PARE_REGULATOR, PARE_SPEC_EFFICIENCY, "efficiency", PARE_DIM_SHARE, 0.3, 1, PARE_BY_LAW, 0.03},

    {PARE_PACK, PARE_SPEC_CELLS, "cells", PARE_DIM_COUNT, 1, 14, PARE_NEEDED, 0},
    {PARE_PACK, PARE_SPEC_CAPACITY, "capacity", PARE_DIM_CHARGE, 10 * MAH, 100000 * MAH,
     PARE_NEEDED, 0.03}, /* [E] */
    {PARE_PACK, PARE_SPEC_RESISTANCE, "resistance", PARE_DIM_RESISTANCE, 0.05 * MILLI, 2,
     PARE_BY_LAW, 0.15}, /* [E] */
    {PARE_PACK, PARE_SPEC_LABEL_RATING, "label_rating", PARE_DIM_NUMBER, 0.5, 500, PARE_OPTIONAL,
     0}, /* what the label says; craft/label.h has what to believe */
    {PARE_PACK, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL, 0.2},

    {PARE_CONNECTOR, PARE_SPEC_CONTINUOUS, "continuous", PARE_DIM_CURRENT, 0.5, 500, PARE_OPTIONAL,
     0.1},
    {PARE_CONNECTOR, PARE_SPEC_BURST, "burst", PARE_DIM_CURRENT, 0.5, 1000, PARE_OPTIONAL, 0.1},
    {PARE_CONNECTOR, PARE_SPEC_BURST_FOR, "burst_for", PARE_DIM_TIME, 0.1, 600, PARE_OPTIONAL, 0},
    {PARE_CONNECTOR, PARE_SPEC_RESISTANCE, "resistance", PARE_DIM_RESISTANCE, 0.01 * MILLI, 0.1,
     PARE_BY_LAW, 0.15}, /* both contacts */

    {PARE_CAPACITOR, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 500, PARE_OPTIONAL, 0},
    {PARE_CAPACITOR, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 500, PARE_NEEDED, 0},
    {PARE_CAPACITOR, PARE_SPEC_CAPACITANCE, "capacitance", PARE_DIM_CAPACITANCE, 1e-7, 1,
     PARE_OPTIONAL, 0.1}, /* electrolytic, sold as +-20 % */

    {PARE_STANDOFF, PARE_SPEC_LENGTH, "length", PARE_DIM_LENGTH, 1 * MM, 0.3, PARE_OPTIONAL, 0.005},
    {PARE_STANDOFF, PARE_SPEC_DIAMETER, "diameter", PARE_DIM_LENGTH, 2 * MM, 20 * MM, PARE_OPTIONAL,
     0.01},

    {PARE_CAMERA, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_CAMERA, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_CAMERA, PARE_SPEC_POWER, "power", PARE_DIM_POWER, 0, 50, PARE_BY_LAW, 0.15},
    {PARE_CAMERA, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL, 0.2},

    /* Power: absent means its own battery. */
    {PARE_ACTION_CAMERA, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_ACTION_CAMERA, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_ACTION_CAMERA, PARE_SPEC_POWER, "power", PARE_DIM_POWER, 0, 50, PARE_OPTIONAL, 0.15},
    {PARE_ACTION_CAMERA, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL,
     0.2},

    {PARE_HOLDER, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL, 0.2},

    {PARE_VIDEO_TRANSMITTER, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL,
     0},
    {PARE_VIDEO_TRANSMITTER, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL,
     0},
    {PARE_VIDEO_TRANSMITTER, PARE_SPEC_POWER, "power", PARE_DIM_POWER, 0, 100, PARE_BY_LAW, 0.15},
    {PARE_VIDEO_TRANSMITTER, PARE_SPEC_BAND, "band", PARE_DIM_FREQUENCY, 1e7, 1e11, PARE_OPTIONAL,
     0.01},
    {PARE_VIDEO_TRANSMITTER, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1,
     PARE_OPTIONAL, 0.2},

    {PARE_ANTENNA, PARE_SPEC_GAIN, "gain", PARE_DIM_GAIN, -20, 30, PARE_OPTIONAL, 0.1},
    {PARE_ANTENNA, PARE_SPEC_BAND, "band", PARE_DIM_FREQUENCY, 1e7, 1e11, PARE_OPTIONAL, 0.01},
    {PARE_ANTENNA, PARE_SPEC_LENGTH, "length", PARE_DIM_LENGTH, 0, 1, PARE_OPTIONAL, 0.02},
    {PARE_ANTENNA, PARE_SPEC_LOSS, "loss", PARE_DIM_GAIN, 0, 30, PARE_OPTIONAL, 0.2},
    {PARE_ANTENNA, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL, 0.2},

    {PARE_ADAPTER, PARE_SPEC_LOSS, "loss", PARE_DIM_GAIN, 0, 30, PARE_OPTIONAL, 0.2},

    {PARE_PIGTAIL, PARE_SPEC_LENGTH, "length", PARE_DIM_LENGTH, 0, 1, PARE_OPTIONAL, 0.02},
    {PARE_PIGTAIL, PARE_SPEC_LOSS, "loss", PARE_DIM_GAIN, 0, 30, PARE_OPTIONAL, 0.2},

    {PARE_RECEIVER, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_RECEIVER, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_RECEIVER, PARE_SPEC_POWER, "power", PARE_DIM_POWER, 0, 50, PARE_BY_LAW, 0.15},
    {PARE_RECEIVER, PARE_SPEC_BAND, "band", PARE_DIM_FREQUENCY, 1e7, 1e11, PARE_OPTIONAL, 0.01},
    {PARE_RECEIVER, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL, 0.2},

    {PARE_GPS, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_GPS, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_GPS, PARE_SPEC_POWER, "power", PARE_DIM_POWER, 0, 50, PARE_BY_LAW, 0.15},
    {PARE_GPS, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL, 0.2},

    {PARE_BUZZER, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_BUZZER, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_BUZZER, PARE_SPEC_POWER, "power", PARE_DIM_POWER, 0, 50, PARE_OPTIONAL, 0.15},
    {PARE_BUZZER, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL, 0.2},

    {PARE_STRAP, PARE_SPEC_LENGTH, "length", PARE_DIM_LENGTH, 10 * MM, 2, PARE_OPTIONAL, 0.02},
    {PARE_PAD, PARE_SPEC_LENGTH, "length", PARE_DIM_LENGTH, 5 * MM, 1, PARE_OPTIONAL, 0.02},
    {PARE_TIE, PARE_SPEC_LENGTH, "length", PARE_DIM_LENGTH, 10 * MM, 2, PARE_OPTIONAL, 0.02},

    {PARE_BUMPER, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL, 0.2},
    {PARE_PRINTED, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 0.1, PARE_OPTIONAL, 0.2},

    {PARE_OTHER, PARE_SPEC_VOLTS_LOW, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_OTHER, PARE_SPEC_VOLTS_HIGH, "volts", PARE_DIM_VOLTAGE, 1, 120, PARE_OPTIONAL, 0},
    {PARE_OTHER, PARE_SPEC_POWER, "power", PARE_DIM_POWER, 0, 500, PARE_OPTIONAL, 0.15},
    {PARE_OTHER, PARE_SPEC_LENGTH, "length", PARE_DIM_LENGTH, 0, 5, PARE_OPTIONAL, 0.02},
    {PARE_OTHER, PARE_SPEC_DRAG_AREA, "drag_area", PARE_DIM_AREA, 1e-6, 1, PARE_OPTIONAL, 0.2},
};

const size_t pare_spec_rows = sizeof pare_spec_table / sizeof pare_spec_table[0];

const pare_spec_row *pare_spec_rows_of(pare_kind kind, size_t *count)
{
    size_t first = 0, last;
    while (first < pare_spec_rows && pare_spec_table[first].kind != kind)
        first++;
    for (last = first; last < pare_spec_rows && pare_spec_table[last].kind == kind;)
        last++;
    *count = last - first;
    return &pare_spec_table[first];
}

const pare_spec_row *pare_spec_find(pare_kind kind, pare_spec spec)
{
    size_t count = 0;
    const pare_spec_row *row = pare_spec_rows_of(kind, &count);
    for (size_t i = 0; i < count; i++)
        if (row[i].spec == spec)
            return &row[i];
    return NULL;
}

const pare_spec_row *pare_spec_named(pare_kind kind, const char *name)
{
    size_t count = 0;
    const pare_spec_row *row = pare_spec_rows_of(kind, &count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(row[i].name, name) == 0)
            return &row[i];
    return NULL;
}
