/* scale_report.h: reports of a USB scale (HID, usage page 0x8D), out of bytes. Pure: no device in sight. */
#ifndef PARE_STORE_SCALE_REPORT_H
#define PARE_STORE_SCALE_REPORT_H

#include <stddef.h>
#include <stdint.h>

#include "base/error.h"
#include "store/scale_seen.h"

enum { PARE_SCALE_FIELDS = 16, PARE_SCALE_USAGES = 32, PARE_SCALE_REPORT = 64 };

/** Where one thing stands in a report. */
typedef struct pare_scale_field {
    uint8_t report;    /* its number, 0 where reports have none */
    uint32_t at, bits; /* from the report's first bit, the number left out */
    bool array; /* its value picks one of the usages; otherwise each usage is a bit or a number */
    bool is_signed;
    int32_t least; /* of an array: the value of its first usage */
    int exponent;  /* of ten */
    size_t usages;
    uint16_t usage[PARE_SCALE_USAGES];
} pare_scale_field;

typedef struct pare_scale_layout {
    bool numbered; /* reports begin with their number */
    size_t fields;
    pare_scale_field field[PARE_SCALE_FIELDS]; /* those that a weighing needs */
} pare_scale_layout;

/** Reads a report descriptor (USB HID 1.11, 6.2.2).
 * @return PARE_OK; PARE_BAD_DATA: cut short, too deep, not a scale's */
pare_status pare_scale_layout_read(size_t length, const uint8_t bytes[], pare_scale_layout *layout,
                                   pare_error *err);

/** Reads one report. One without a weight, or shorter than its layout, only says so (weighs false).
 * @return PARE_OK; PARE_BAD_DATA: a unit that is none of g, mg, kg, oz, lb, with its name */
pare_status pare_scale_report_read(const pare_scale_layout *layout, size_t length,
                                   const uint8_t bytes[], pare_scale_seen *seen, pare_error *err);

#endif
