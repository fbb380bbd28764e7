/* part_check.c: what cannot be is refused, in one line that says what was found and what would do.
 *
 * Ranges come from the table in spec.c; those of interfaces and bodies stand here. The part's name
 * and its place in a file are the caller's to add. */
#include "craft/part_inside.h"

#include <assert.h>
#include <math.h>

/* How a number is written for reading: SI times this, and the unit. */
static const struct {
    double per_si;
    const char *unit; /* with its blank */
} reading[PARE_DIMENSIONS] = {
    [PARE_DIM_COUNT] = {1, ""},
    [PARE_DIM_NUMBER] = {1, ""},
    [PARE_DIM_SHARE] = {100, " %"},
    [PARE_DIM_MASS] = {1e3, " g"},
    [PARE_DIM_LENGTH] = {1e3, " mm"},
    [PARE_DIM_AREA] = {1e4, " cm2"},
    [PARE_DIM_VOLUME] = {1e6, " cm3"},
    [PARE_DIM_TIME] = {1, " s"},
    [PARE_DIM_ANGLE] = {57.29577951308232, " deg"},
    [PARE_DIM_SPEED] = {1, " m/s"},
    [PARE_DIM_ACCELERATION] = {1, " m/s2"},
    [PARE_DIM_ROTATION] = {9.549296585513721, " rpm"},
    [PARE_DIM_TEMPERATURE] = {1, " degC"},
    [PARE_DIM_FORCE] = {1, " N"},
    [PARE_DIM_TORQUE] = {1, " N m"},
    [PARE_DIM_PRESSURE] = {1, " Pa"},
    [PARE_DIM_DENSITY] = {1e-3, " g/cm3"},
    [PARE_DIM_ENERGY] = {1 / 3600.0, " Wh"},
    [PARE_DIM_POWER] = {1, " W"},
    [PARE_DIM_VOLTAGE] = {1, " V"},
    [PARE_DIM_CURRENT] = {1, " A"},
    [PARE_DIM_CHARGE] = {1 / 3.6, " mAh"},
    [PARE_DIM_RESISTANCE] = {1e3, " mohm"},
    [PARE_DIM_CAPACITANCE] = {1e6, " uF"},
    [PARE_DIM_HEAT] = {1, " J/K"},
    [PARE_DIM_FREQUENCY] = {1e-9, " GHz"},
    [PARE_DIM_GAIN] = {1, " dB"},
    [PARE_DIM_KV] = {1, " rpm/V"},
    [PARE_DIM_GAUGE] = {1, " AWG"},
    [PARE_DIM_MONEY] = {1, ""},
};

static pare_status within(const char *where, const char *name, pare_dimension dimension,
                          double value, double low, double high, pare_error *err)
{
    const double per = reading[dimension].per_si;
    const char *unit = reading[dimension].unit;
    if (!(value >= low && value <= high))
        return pare_fail(err, PARE_BAD_DATA, "%s%s is %.6g%s, must be %.6g .. %.6g%s", where, name,
                         per * value, unit, per * low, per * high, unit);
    if (dimension == PARE_DIM_COUNT && value != floor(value))
        return pare_fail(err, PARE_BAD_DATA, "%s%s is %.6g, must be a whole number", where, name,
                         value);
    return PARE_OK;
}

static pare_status sure(const char *name, pare_dimension dimension, double u, pare_error *err)
{
    if (!(u >= 0) || isinf(u))
        return pare_fail(err, PARE_BAD_DATA, "%s has an uncertainty of %.6g%s, must be 0 or more",
                         name, reading[dimension].per_si * u, reading[dimension].unit);
    return PARE_OK;
}

bool pare_part_drives(const pare_part *part)
{
    return pare_part_does(part, PARE_ESC_ONE) || pare_part_does(part, PARE_ESC_FOUR);
}

/* A spec's typed name, from any kind that has it. */
static const char *spec_name(pare_spec spec)
{
    for (size_t i = 0; i < pare_spec_rows; i++)
        if (pare_spec_table[i].spec == spec)
            return pare_spec_table[i].name;
    assert(!"each spec stands in the table");
    return "";
}

static pare_status missing(const pare_part *part, const pare_spec_row *row, pare_error *err)
{
    const double per = reading[row->dimension].per_si;
    return pare_fail(
        err, PARE_BAD_DATA, "%s is missing: a part of kind %s needs it (%.6g .. %.6g%s)", row->name,
        pare_kind_name(part->kind), per * row->low, per * row->high, reading[row->dimension].unit);
}

/* @param row  of the spec; NULL: the kind has no such spec */
static pare_status check_spec(const pare_part *part, pare_spec spec, const pare_spec_row *row,
                              pare_error *err)
{
    const pare_value *value = &part->spec[spec];
    if (!row)
        return value->given ? pare_fail(err, PARE_BAD_DATA, "a part of kind %s has no %s",
                                        pare_kind_name(part->kind), spec_name(spec))
                            : PARE_OK;
    const bool needed =
        row->need == PARE_NEEDED || (spec == PARE_SPEC_CONTINUOUS && pare_part_drives(part));
    if (!value->given)
        return needed ? missing(part, row, err) : PARE_OK;
    const pare_status status =
        within("", row->name, row->dimension, value->value, row->low, row->high, err);
    return status != PARE_OK ? status : sure(row->name, row->dimension, value->u, err);
}

static pare_status check_specs(const pare_part *part, pare_error *err)
{
    const pare_spec_row *row_of[PARE_SPECS] = {NULL};
    size_t count = 0;
    const pare_spec_row *row = pare_spec_rows_of(part->kind, &count);
    for (size_t i = 0; i < count; i++)
        row_of[row[i].spec] = &row[i];
    pare_status status = PARE_OK;
    for (int spec = 0; status == PARE_OK && spec < PARE_SPECS; spec++)
        status = check_spec(part, (pare_spec)spec, row_of[spec], err);
    return status;
}

static pare_status check_pairs(const pare_part *part, pare_error *err)
{
    const pare_value *low = &part->spec[PARE_SPEC_VOLTS_LOW];
    const pare_value *high = &part->spec[PARE_SPEC_VOLTS_HIGH];
    if (low->given && high->given && low->value > high->value)
        return pare_fail(err, PARE_BAD_DATA, "volts run backwards: %.6g V .. %.6g V", low->value,
                         high->value);
    const pare_value *steady = &part->spec[PARE_SPEC_CONTINUOUS];
    const pare_value *burst = &part->spec[PARE_SPEC_BURST];
    if (steady->given && burst->given && burst->value < steady->value)
        return pare_fail(err, PARE_BAD_DATA,
                         "burst is %.6g A, must be no less than continuous, %.6g A", burst->value,
                         steady->value);
    if (part->spec[PARE_SPEC_NO_LOAD_AT].given && !part->spec[PARE_SPEC_NO_LOAD].given)
        return pare_fail(
            err, PARE_BAD_DATA,
            "no_load_at is %.6g V without no_load: give the current at those volts, or "
            "neither",
            part->spec[PARE_SPEC_NO_LOAD_AT].value);
    return PARE_OK;
}

static const struct {
    pare_dimension dimension;
    double low, high;
} fit_range[PARE_FITS] = {
    [PARE_FIT_BOLT_CIRCLE] = {PARE_DIM_LENGTH, 2e-3, 0.2},
    [PARE_FIT_THREAD] = {PARE_DIM_LENGTH, 0.5e-3, 20e-3},
    [PARE_FIT_SHAFT] = {PARE_DIM_LENGTH, 0.5e-3, 30e-3},
    [PARE_FIT_STACK] = {PARE_DIM_LENGTH, 5e-3, 0.1},
    [PARE_FIT_PROPELLER] = {PARE_DIM_LENGTH, 20e-3, 1.0},
    [PARE_FIT_CELLS] = {PARE_DIM_COUNT, 1, 14},
    [PARE_FIT_CONNECTOR] = {PARE_DIM_CURRENT, 0.5, 500},
    [PARE_FIT_CAMERA] = {PARE_DIM_LENGTH, 3e-3, 0.2},
};

static pare_status check_fit(const pare_fit *fit, pare_fit_key key, pare_error *err)
{
    const char *name = pare_fit_name(key);
    if (fit->count > PARE_FIT_CHOICES)
        return pare_fail(err, PARE_BAD_DATA, "fits: %s has %zu choices, %d is the most", name,
                         fit->count, PARE_FIT_CHOICES);
    for (size_t i = 0; i < fit->count; i++) {
        const double low = fit->any[i].low, high = fit->any[i].high;
        const bool word = fit->any[i].word != NULL;
        if (word != (key == PARE_FIT_ANTENNA))
            return pare_fail(err, PARE_BAD_DATA, "fits: %s must be %s", name,
                             word ? "a number" : "a word: snap, screw or solder");
        if (word)
            continue;
        pare_status status = within("fits: ", name, fit_range[key].dimension, low,
                                    fit_range[key].low, fit_range[key].high, err);
        if (status == PARE_OK)
            status = within("fits: ", name, fit_range[key].dimension, high, fit_range[key].low,
                            fit_range[key].high, err);
        if (status != PARE_OK)
            return status;
        if (low > high)
            return pare_fail(err, PARE_BAD_DATA, "fits: %s runs backwards", name);
    }
    return PARE_OK;
}

static pare_status check_arms(const pare_piece *piece, pare_error *err)
{
    if (piece->places < 4 || !piece->at_m)
        return pare_fail(err, PARE_BAD_DATA,
                         "body: arms name %zu motor axes, must be 4 or more, front left first, "
                         "clockwise from above",
                         piece->places);
    pare_status status =
        within("body: ", "an arm's width", PARE_DIM_LENGTH, piece->section_m[0], 1e-3, 0.2, err);
    if (status == PARE_OK && piece->tube)
        status = within("body: ", "an arm's wall", PARE_DIM_LENGTH, piece->section_m[1], 0.2e-3,
                        piece->section_m[0] / 2, err);
    else if (status == PARE_OK)
        status = within("body: ", "an arm's thickness", PARE_DIM_LENGTH, piece->section_m[1],
                        0.5e-3, 0.1, err);
    if (status == PARE_OK && piece->flexural_pa != 0)
        status =
            within("body: ", "flexural", PARE_DIM_PRESSURE, piece->flexural_pa, 1e8, 1e12, err);
    for (size_t i = 0; status == PARE_OK && i < piece->places; i++) {
        const double reach = hypot(piece->at_m[i].x, piece->at_m[i].y);
        status = within("body: ", "a motor axis's distance from the middle", PARE_DIM_LENGTH, reach,
                        10e-3, 2, err);
        if (status == PARE_OK && !(piece->root_m >= 0 && piece->root_m < reach))
            status =
                pare_fail(err, PARE_BAD_DATA,
                          "body: an arm's root is %.6g mm from the middle, must be less than its "
                          "motor axis, %.6g mm",
                          1e3 * piece->root_m, 1e3 * reach);
    }
    return status;
}

static pare_status check_piece(const pare_piece *piece, pare_error *err)
{
    pare_body body;
    pare_status status =
        within("body: ", "density", PARE_DIM_DENSITY, piece->density_kg_m3, 0, 25000, err);
    if (status == PARE_OK)
        status = within("body: ", "wall", PARE_DIM_LENGTH, piece->wall_m, 0, 0.1, err);
    if (status == PARE_OK)
        status = within("body: ", "infill", PARE_DIM_SHARE, piece->infill, 0, 1, err);
    if (status != PARE_OK)
        return status;
    for (size_t i = 0; piece->at_m && i < piece->places; i++) {
        const pare_vec3 at = piece->at_m[i];
        if (!(fabs(at.x) <= 5 && fabs(at.y) <= 5 && fabs(at.z) <= 5))
            return pare_fail(err, PARE_BAD_DATA,
                             "body: a piece is at %.6g, %.6g, %.6g mm, must be within 5000 mm",
                             1e3 * at.x, 1e3 * at.y, 1e3 * at.z);
    }
    if (piece->form == PARE_FORM_ARMS)
        return check_arms(piece, err);
    if (piece->form == PARE_FORM_MESH || piece->measured)
        return PARE_OK;
    const pare_shape shape = piece->form == PARE_FORM_PLATE ? PARE_SHAPE_BOX : piece->shape;
    if (pare_solid(shape, 1, piece->size_m, &body, err) != PARE_OK)
        return pare_within(err, "body");
    for (size_t i = 0; i < pare_shape_sizes(shape); i++)
        if (piece->size_m[i] > 5)
            return within("body: ", "a size", PARE_DIM_LENGTH, piece->size_m[i], 0, 5, err);
    return PARE_OK;
}

static pare_status check_include(const pare_include *include, pare_error *err)
{
    pare_status status =
        within("includes: ", "count", PARE_DIM_COUNT, include->count, 1, 1000, err);
    if (status != PARE_OK || include->what == PARE_INCLUDES_KIND)
        return status;
    status = within("includes: ", "length", PARE_DIM_LENGTH, include->length_m, 0, 5, err);
    if (status != PARE_OK || include->what == PARE_INCLUDES_JOINT)
        return status;
    status = within("includes: ", "gauge", PARE_DIM_GAUGE, include->gauge, 0, 40, err);
    if (status == PARE_OK)
        status = within("includes: ", "outer", PARE_DIM_LENGTH, include->outer_m, 0, 0.05, err);
    return status;
}

static pare_status check_bought(const pare_part *part, pare_error *err)
{
    pare_status status = within("", "owned", PARE_DIM_COUNT, part->owned, 0, 1e6, err);
    if (status != PARE_OK || !part->price.given)
        return status;
    status = within("price: ", "each", PARE_DIM_MONEY, part->price.each, 0, 1e7, err);
    if (status == PARE_OK)
        status = within("price: ", "shipping", PARE_DIM_MONEY, part->price.shipping, 0, 1e7, err);
    if (status == PARE_OK)
        status = within("price: ", "sold_in", PARE_DIM_COUNT, part->price.sold_in, 1, 1e6, err);
    return status;
}

pare_status pare_part_check(const pare_part *part, pare_error *err)
{
    assert(part->kind < PARE_KINDS);
    pare_status status = PARE_OK;
    if (part->mass_kg.given) {
        status = within("", "mass", PARE_DIM_MASS, part->mass_kg.value, PARE_PART_LEAST_KG,
                        PARE_PART_MOST_KG, err);
        if (status == PARE_OK)
            status = sure("mass", PARE_DIM_MASS, part->mass_kg.u, err);
    }
    if (status == PARE_OK)
        status = check_specs(part, err);
    if (status == PARE_OK)
        status = check_pairs(part, err);
    for (int key = 0; status == PARE_OK && key < PARE_FITS; key++)
        status = check_fit(&part->fit[key], (pare_fit_key)key, err);
    for (size_t i = 0; status == PARE_OK && i < part->pieces; i++)
        status = check_piece(&part->piece[i], err);
    for (size_t i = 0; status == PARE_OK && i < part->includes; i++)
        status = check_include(&part->include[i], err);
    if (status == PARE_OK)
        status = check_bought(part, err);
    return status;
}
