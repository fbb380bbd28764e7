/* scale_report.c: a scale's descriptor and reports (see scale_report.h).
 *
 * Devices describe their own reports: which bits hold what. A descriptor is a list of short items that
 * set things (usage page, report size and count, logical range), name usages, and end in a main item that
 * takes all of that. Of its fields we keep those about a weight: the number, its power of ten, its unit and
 * the scale's state; the last two are mostly arrays, whose value picks one usage of a list.
 *
 * Everything is bounded: bytes read, fields, usages, push and collection depth, bits of a report.
 * Sources: USB HID 1.11, section 6.2.2; usages of page 0x8D by the USB-IF's HID usage tables (the Point of
 * Sale usage tables before), their numbers from memory. */
#include "store/scale_report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    PAGE = 0x8D,
    DATA_WEIGHT = 0x40,
    DATA_SCALING = 0x41,
    UNIT_FIRST = 0x51,
    UNIT_LAST = 0x5C,
    STATUS_FIRST = 0x71,
    STATUS_LAST = 0x78,
    DEPTH = 8,
    MOST_BITS = 8 * 4096,
    MOST_DIGITS = 9 /* of a power of ten either way */
};

/* ---- the descriptor ---- */

typedef struct globals {
    uint32_t page, size, count;
    int32_t least, most;
    int exponent;
    uint8_t report;
} globals;

typedef struct reading {
    globals now, pushed[DEPTH];
    size_t depth;
    size_t usages;
    uint32_t usage[PARE_SCALE_USAGES]; /* page in the upper half */
    bool ranged;
    uint32_t low, high;
    uint32_t bit[256]; /* how far each report has come */
    bool of_scales;
    pare_scale_layout *layout;
} reading;

static uint32_t with_page(const reading *r, uint32_t value, size_t bytes)
{
    return bytes == 4 ? value : r->now.page << 16 | (value & 0xFFFF);
}

static void forget_locals(reading *r)
{
    r->usages = 0;
    r->ranged = false;
    r->low = r->high = 0;
}

static uint32_t usage_at(const reading *r, size_t index)
{
    if (r->ranged)
        return index <= r->high - r->low ? r->low + (uint32_t)index : 0;
    if (r->usages == 0)
        return 0;
    return r->usage[index < r->usages ? index : r->usages - 1];
}

static size_t usage_count(const reading *r)
{
    const size_t count = r->ranged ? (size_t)(r->high - r->low) + 1 : r->usages;
    return count < PARE_SCALE_USAGES ? count : PARE_SCALE_USAGES;
}

static bool wanted(uint32_t usage)
{
    const uint32_t id = usage & 0xFFFF;
    return usage >> 16 == PAGE &&
           (id == DATA_WEIGHT || id == DATA_SCALING || (id >= UNIT_FIRST && id <= UNIT_LAST) ||
            (id >= STATUS_FIRST && id <= STATUS_LAST));
}

static void keep(reading *r, uint32_t at, bool array, size_t first, size_t count)
{
    pare_scale_layout *layout = r->layout;
    bool any = false;
    pare_scale_field field = {.report = r->now.report,
                              .at = at,
                              .bits = r->now.size,
                              .array = array,
                              .is_signed = r->now.least < 0,
                              .least = r->now.least,
                              .exponent = r->now.exponent};
    for (size_t i = 0; i < count; i++) {
        const uint32_t usage = usage_at(r, first + i);
        any = any || wanted(usage);
        field.usage[field.usages++] = usage >> 16 == PAGE ? (uint16_t)usage : 0;
    }
    if (any && layout->fields < PARE_SCALE_FIELDS && field.bits >= 1 && field.bits <= 32)
        layout->field[layout->fields++] = field;
}

/* An input: so many fields side by side. Constants only take room. */
static pare_status input(reading *r, uint32_t flags, pare_error *err)
{
    uint32_t *bit = &r->bit[r->now.report];
    const bool constant = flags & 1, array = !(flags & 2);
    if (r->now.count > MOST_BITS || r->now.size > MOST_BITS ||
        *bit + (uint64_t)r->now.size * r->now.count > MOST_BITS)
        return pare_fail(err, PARE_BAD_DATA,
                         "the scale describes a report of over %d bits; right would be one of 64 "
                         "bytes at most",
                         MOST_BITS);
    for (uint32_t i = 0; i < r->now.count && !constant; i++) {
        if (array)
            keep(r, *bit + i * r->now.size, true, 0, usage_count(r));
        else if (wanted(usage_at(r, i)))
            keep(r, *bit + i * r->now.size, false, i, 1);
    }
    *bit += r->now.size * r->now.count;
    return PARE_OK;
}

static int nibble(uint32_t value)
{
    const int four = (int)(value & 15);
    return four > 7 ? four - 16 : four;
}

static pare_status global(reading *r, uint32_t tag, uint32_t value, int32_t with_sign,
                          pare_error *err)
{
    switch (tag) {
    case 0:
        r->now.page = value & 0xFFFF;
        r->of_scales = r->of_scales || r->now.page == PAGE;
        break;
    case 1:
        r->now.least = with_sign;
        break;
    case 2:
        r->now.most = with_sign;
        break;
    case 5:
        r->now.exponent = nibble(value);
        break;
    case 7:
        r->now.size = value;
        break;
    case 8:
        r->now.report = (uint8_t)value;
        r->layout->numbered = true;
        break;
    case 9:
        r->now.count = value;
        break;
    case 10:
        if (r->depth == DEPTH)
            return pare_fail(err, PARE_BAD_DATA, "the scale's descriptor is nested over %d deep",
                             DEPTH);
        r->pushed[r->depth++] = r->now;
        break;
    case 11:
        if (r->depth == 0)
            return pare_fail(err, PARE_BAD_DATA,
                             "the scale's descriptor takes back what it never put by");
        r->now = r->pushed[--r->depth];
        break;
    default:
        break;
    }
    return PARE_OK;
}

static void local(reading *r, uint32_t tag, uint32_t value, size_t bytes)
{
    if (tag == 0 && r->usages < PARE_SCALE_USAGES)
        r->usage[r->usages++] = with_page(r, value, bytes);
    else if (tag == 1)
        r->low = with_page(r, value, bytes);
    else if (tag == 2) {
        r->high = with_page(r, value, bytes);
        r->ranged = r->high >= r->low;
    }
}

static pare_status item(reading *r, uint8_t head, uint32_t value, size_t bytes, pare_error *err)
{
    const uint32_t type = head >> 2 & 3, tag = head >> 4;
    const int32_t with_sign = bytes == 1   ? (int8_t)value
                              : bytes == 2 ? (int16_t)value
                                           : (int32_t)value;
    pare_status status = PARE_OK;
    if (type == 0) {
        if (tag == 8)
            status = input(r, value, err);
        forget_locals(r);
    } else if (type == 1) {
        status = global(r, tag, value, with_sign, err);
    } else if (type == 2) {
        local(r, tag, value, bytes);
    }
    return status;
}

static bool has(const pare_scale_layout *layout, uint16_t usage)
{
    for (size_t i = 0; i < layout->fields; i++)
        if (!layout->field[i].array && layout->field[i].usage[0] == usage)
            return true;
    return false;
}

pare_status pare_scale_layout_read(size_t length, const uint8_t bytes[], pare_scale_layout *layout,
                                   pare_error *err)
{
    static const size_t sizes[4] = {0, 1, 2, 4};
    *layout = (pare_scale_layout){0};
    reading r = {.layout = layout};
    pare_status status = PARE_OK;
    for (size_t at = 0; at < length && status == PARE_OK;) {
        const uint8_t head = bytes[at++];
        const bool is_long = head == 0xFE;
        const size_t size = is_long && at < length ? (size_t)bytes[at] + 2 : sizes[head & 3];
        if (size > length - at)
            return pare_fail(err, PARE_BAD_DATA, "the scale's descriptor ends in the middle");
        uint32_t value = 0;
        for (size_t i = 0; i < size && !is_long; i++)
            value |= (uint32_t)bytes[at + i] << 8 * i;
        at += size;
        if (!is_long)
            status = item(&r, head, value, size, err);
    }
    if (status == PARE_OK && !(r.of_scales && has(layout, DATA_WEIGHT)))
        status = pare_fail(err, PARE_BAD_DATA,
                           "that is no scale: it describes no weight (usage page 0x8D)");
    return status;
}

/* ---- reports ---- */

static bool value_of(const pare_scale_field *field, size_t length, const uint8_t data[],
                     int64_t *value)
{
    uint64_t bits = 0;
    bool top = false; /* the last bit that was read, of a signed value its sign */
    if (((size_t)field->at + field->bits + 7) / 8 > length)
        return false;
    for (uint32_t i = 0; i < field->bits; i++) {
        const uint32_t at = field->at + i;
        top = data[at / 8] >> at % 8 & 1;
        bits |= (uint64_t)top << i;
    }
    *value = (int64_t)bits;
    if (field->is_signed && top)
        *value -= (int64_t)1 << field->bits;
    return true;
}

static pare_scale_state state_of(uint16_t usage)
{
    static const pare_scale_state states[] = {
        PARE_SCALE_FAULT, PARE_SCALE_ZERO, PARE_SCALE_MOVING,    PARE_SCALE_STABLE,
        PARE_SCALE_UNDER, PARE_SCALE_OVER, PARE_SCALE_CALIBRATE, PARE_SCALE_REZERO};
    return states[usage - STATUS_FIRST];
}

static const struct {
    const char *name; /* as a bench reads it; NULL: not at all */
    const char *words;
    double kg;
} units[] = {{"mg", "milligrams", 1e-6},
             {"g", "grams", 1e-3},
             {"kg", "kilograms", 1},
             {NULL, "carats", 0},
             {NULL, "taels", 0},
             {NULL, "grains", 0},
             {NULL, "pennyweights", 0},
             {NULL, "metric tons", 0},
             {NULL, "short tons", 0},
             {NULL, "troy ounces", 0},
             {"oz", "ounces", 0.028349523125},
             {"lb", "pounds", 0.45359237}};

static void put_weight(int64_t weight, int exponent, uint16_t unit, pare_scale_seen *seen)
{
    const double number = (double)weight * pow(10, exponent);
    seen->weighs = true;
    seen->kg = number * units[unit - UNIT_FIRST].kg;
    seen->step_kg = pow(10, exponent) * units[unit - UNIT_FIRST].kg;
    snprintf(seen->text, sizeof seen->text, "%.*f %s", exponent < 0 ? -exponent : 0, number,
             units[unit - UNIT_FIRST].name);
}

pare_status pare_scale_report_read(const pare_scale_layout *layout, size_t length,
                                   const uint8_t bytes[], pare_scale_seen *seen, pare_error *err)
{
    const size_t head = layout->numbered ? 1 : 0;
    int64_t weight = 0, scaling = 0;
    bool weighs = false, scaled = false;
    int exponent = 0;
    uint16_t unit = 0;
    *seen = (pare_scale_seen){.state = PARE_SCALE_UNSAID};
    if (length < head)
        return PARE_OK;
    for (size_t i = 0; i < layout->fields; i++) {
        const pare_scale_field *field = &layout->field[i];
        int64_t value = 0;
        if ((layout->numbered && field->report != bytes[0]) ||
            !value_of(field, length - head, bytes + head, &value))
            continue;
        const int64_t place = field->array ? value - field->least : 0;
        if (place < 0 || place >= (int64_t)field->usages)
            continue;
        const uint16_t usage = field->usage[place];
        const bool set = field->array || value != 0;
        if (usage == DATA_WEIGHT && !field->array) {
            weight = value;
            exponent = field->exponent;
            weighs = true;
        } else if (usage == DATA_SCALING && !field->array) {
            /* A power of ten in one byte, whether or not the descriptor says that it has a sign. */
            scaling = field->bits == 8 && value > 127 ? value - 256 : value;
            scaled = true;
        } else if (set && usage >= UNIT_FIRST && usage <= UNIT_LAST) {
            unit = usage;
        } else if (set && usage >= STATUS_FIRST && usage <= STATUS_LAST) {
            seen->state = state_of(usage);
        }
    }
    if (!weighs || unit == 0)
        return PARE_OK;
    const int64_t power = scaled ? scaling : exponent;
    if (power < -MOST_DIGITS || power > MOST_DIGITS)
        return pare_fail(err, PARE_BAD_DATA, "the scale sends a power of ten of %lld",
                         (long long)power);
    if (!units[unit - UNIT_FIRST].name)
        return pare_fail(err, PARE_BAD_DATA,
                         "the scale weighs in %s; right would be grams, milligrams, kilograms, "
                         "ounces or pounds: its unit key changes that",
                         units[unit - UNIT_FIRST].words);
    put_weight(weight, (int)power, unit, seen);
    return PARE_OK;
}
