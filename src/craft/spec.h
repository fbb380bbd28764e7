/* spec.h: what may be said about a part: one table, by kind.
 *
 * Each row names a spec as it is typed, its dimension, the range outside which it must be a
 * mistake, and whether it is needed, filled by a law of the trade when missing, or simply absent. */
#ifndef PARE_CRAFT_SPEC_H
#define PARE_CRAFT_SPEC_H

#include <stddef.h>

#include "base/units.h"
#include "craft/kind.h"
#include "craft/value.h"

/** Numeric specs, SI inside. Words (chemistry, hand, cable) are in the part itself. */
typedef enum pare_spec {
    PARE_SPEC_STATOR_DIAMETER, /* "stator: 22 mm x 7 mm" gives both */
    PARE_SPEC_STATOR_LENGTH,
    PARE_SPEC_KV,
    PARE_SPEC_RESISTANCE, /* motor winding; pack: one cell group; ESC: a motor's two switches */
    PARE_SPEC_NO_LOAD,
    PARE_SPEC_NO_LOAD_AT,
    PARE_SPEC_VOLTS_LOW,  /* "volts: 11 V .. 25.5 V" */
    PARE_SPEC_VOLTS_HIGH, /* one value is the greatest */
    PARE_SPEC_CONTINUOUS, /* ESC and motor current a motor, connector current */
    PARE_SPEC_BURST,
    PARE_SPEC_BURST_FOR,
    PARE_SPEC_DIAMETER, /* propeller, standoff outside */
    PARE_SPEC_PITCH,
    PARE_SPEC_BLADES,
    PARE_SPEC_CHORD,
    PARE_SPEC_SLOW, /* 1: a slow-flying propeller */
    PARE_SPEC_CELLS,
    PARE_SPEC_CAPACITY,
    PARE_SPEC_LABEL_RATING,
    PARE_SPEC_POWER, /* electronics, drawn at the part */
    PARE_SPEC_OUT,   /* regulator output, volts */
    PARE_SPEC_OUT_CURRENT,
    PARE_SPEC_EFFICIENCY,
    PARE_SPEC_CAPACITANCE,
    PARE_SPEC_GAIN,
    PARE_SPEC_BAND,
    PARE_SPEC_LENGTH,      /* coax, standoff, strap, tie */
    PARE_SPEC_LOSS,        /* dB */
    PARE_SPEC_WHEELBASE,   /* frame, motor to motor across the middle */
    PARE_SPEC_DRAG_AREA,   /* CdA of the part or the whole frame */
    PARE_SPEC_HEAT,        /* ESC: what a kelvin of its board takes */
    PARE_SPEC_SCREW_DEPTH, /* motor: how deep a screw may go (typed under fits) */
    PARE_SPECS
} pare_spec;

typedef enum pare_need {
    PARE_NEEDED,  /* a part of this kind without it is refused */
    PARE_BY_LAW,  /* filled by its law, marked estimated, listed */
    PARE_OPTIONAL /* absent is fine */
} pare_need;

typedef struct pare_spec_row {
    pare_kind kind;
    pare_spec spec;
    const char *name; /* as typed; stator and volts share a name over two rows */
    pare_dimension dimension;
    double low, high; /* SI, inclusive */
    pare_need need;
    double stated_share; /* standard uncertainty of a maker's figure without one, as a share */
} pare_spec_row;

extern const pare_spec_row pare_spec_table[];
extern const size_t pare_spec_rows;

/** The rows of a kind, which stand together. @param[out] count  0 where it has no specs */
const pare_spec_row *pare_spec_rows_of(pare_kind kind, size_t *count);
/** The row of a kind's spec, or NULL. */
const pare_spec_row *pare_spec_find(pare_kind kind, pare_spec spec);
/** The row of a kind's spec by its typed name (the first of two), or NULL. */
const pare_spec_row *pare_spec_named(pare_kind kind, const char *name);

/** The range of mass in kg outside which a part of any kind is a mistake: 1 mg .. 25 kg. */
#define PARE_PART_LEAST_KG 1e-6
#define PARE_PART_MOST_KG  25.0

#endif
