/* part.c: from what a builder typed to a part that physics can use.
 *
 * First everything typed is checked (part_check.c), then uncertainties that were not said are put in,
 * then missing specs are filled by law, then the mass: as given, else from the geometry, else by law.
 * The body and the blade come last, because they need the numbers before.
 *
 * Holds afterwards: every BY_LAW spec has a value and an uncertainty; what was typed is as it was;
 * known says how each number came about. */
#include "craft/part.h"

#include <math.h>

#include "base/text.h"
#include "craft/law.h"
#include "craft/part_inside.h"

const char *const pare_chemistry_names[PARE_CHEMISTRIES] = {[PARE_LIPO] = "lipo",
                                                            [PARE_LIHV] = "lihv",
                                                            [PARE_LIION] = "liion",
                                                            [PARE_LIION_POWER] = "liion-power"};

const char *const pare_hand_names[PARE_HANDS] = {
    [PARE_HANDED_LINEAR] = "linear", [PARE_HANDED_LEFT] = "left", [PARE_HANDED_RIGHT] = "right"};

/* The usual uncertainty of a mass that came without one [E]: a 0.1 g scale that is 0.1 % off; a
 * maker's 2 %, though 0.3 g is printed of small parts, of which a quarter is the most. */
static double usual_mass_u_kg(const pare_value *mass_kg)
{
    const double m = mass_kg->value;
    switch (mass_kg->known) {
    case PARE_WEIGHED:
    case PARE_MEASURED:
    case PARE_LEARNED:
        return hypot(0.1e-3, 1e-3 * m);
    case PARE_STATED:
        return fmin(fmax(0.02 * m, 0.3e-3), 0.25 * m);
    case PARE_COMPUTED:
        return 0.08 * m;
    case PARE_ESTIMATED:
    case PARE_KNOWNS:
        break;
    }
    return 0.10 * m;
}

static void put_uncertainties(pare_part *part)
{
    if (part->mass_kg.given && part->mass_kg.u == 0)
        part->mass_kg.u = usual_mass_u_kg(&part->mass_kg);
    size_t count = 0;
    const pare_spec_row *row = pare_spec_rows_of(part->kind, &count);
    for (size_t i = 0; i < count; i++) {
        pare_value *value = &part->spec[row[i].spec];
        if (value->given && value->u == 0)
            value->u = row[i].stated_share * fabs(value->value);
    }
}

static void put_own_fits(pare_part *part)
{
    const struct {
        pare_kind kind;
        pare_fit_key key;
        pare_spec spec;
    } own[] = {
        {PARE_PROPELLER, PARE_FIT_PROPELLER, PARE_SPEC_DIAMETER},
        {PARE_PACK, PARE_FIT_CELLS, PARE_SPEC_CELLS},
    };
    for (size_t i = 0; i < sizeof own / sizeof own[0]; i++) {
        pare_fit *fit = &part->fit[own[i].key];
        if (part->kind != own[i].kind || fit->count > 0)
            continue;
        fit->count = 1;
        fit->any[0].low = fit->any[0].high = part->spec[own[i].spec].value;
    }
}

static const pare_piece *arms_of(const pare_part *part)
{
    for (size_t i = 0; i < part->pieces; i++)
        if (part->piece[i].form == PARE_FORM_ARMS)
            return &part->piece[i];
    return NULL;
}

static pare_value filled(pare_typical typical)
{
    return (pare_value){typical.value, typical.u, PARE_ESTIMATED, false};
}

/* From the arms, which are as drawn, else from the propeller. */
static pare_status wheelbase(const pare_part *part, pare_value *value, pare_error *err)
{
    const pare_piece *arms = arms_of(part);
    if (arms) {
        double sum_m = 0;
        for (size_t i = 0; i < arms->places; i++)
            sum_m += hypot(arms->at_m[i].x, arms->at_m[i].y);
        *value = (pare_value){2 * sum_m / (double)arms->places, 0.5e-3, PARE_COMPUTED, false};
        return PARE_OK;
    }
    const double propeller_m = pare_fit_largest(&part->fit[PARE_FIT_PROPELLER]);
    if (!(propeller_m > 0))
        return pare_fail(
            err, PARE_BAD_DATA,
            "wheelbase is missing: a frame needs it, or its arms in body, or the propeller "
            "that it fits");
    *value = filled(pare_law_wheelbase_m(propeller_m));
    return PARE_OK;
}

static pare_status by_law(const pare_part *part, pare_spec spec, pare_value *value, pare_error *err)
{
    const double kv = part->spec[PARE_SPEC_KV].value;
    const double stator_m = part->spec[PARE_SPEC_STATOR_DIAMETER].value;
    const double height_m = part->spec[PARE_SPEC_STATOR_LENGTH].value;
    switch (spec) {
    case PARE_SPEC_WHEELBASE:
        return wheelbase(part, value, err);
    case PARE_SPEC_RESISTANCE:
        if (part->kind == PARE_MOTOR)
            *value = filled(pare_law_winding_ohm(kv, stator_m, height_m));
        else if (part->kind == PARE_PACK)
            *value =
                filled(pare_law_group_ohm(part->chemistry, part->spec[PARE_SPEC_CAPACITY].value));
        else
            *value = filled(pare_law_connector_ohm());
        return PARE_OK;
    case PARE_SPEC_NO_LOAD:
        *value = filled(pare_law_no_load_a(kv, stator_m, height_m));
        return PARE_OK;
    case PARE_SPEC_NO_LOAD_AT:
        /* Makers mostly measure near 10 V but do not say so [E]; the law's is 10 V by definition. */
        *value = filled(
            (pare_typical){PARE_LAW_NO_LOAD_AT_V, part->spec[PARE_SPEC_NO_LOAD].given ? 2 : 0});
        return PARE_OK;
    case PARE_SPEC_SCREW_DEPTH:
        *value = filled(pare_law_screw_depth_m(stator_m));
        return PARE_OK;
    case PARE_SPEC_EFFICIENCY:
        *value = filled(pare_law_regulator_efficiency());
        return PARE_OK;
    default:
        *value = filled(pare_law_power_w(part));
        return PARE_OK;
    }
}

static pare_status fill_specs(pare_part *part, pare_error *err)
{
    size_t count = 0;
    const pare_spec_row *rows = pare_spec_rows_of(part->kind, &count);
    for (size_t i = 0; i < count; i++) {
        const pare_spec_row *row = &rows[i];
        pare_value *value = &part->spec[row->spec];
        if (row->need != PARE_BY_LAW || value->given)
            continue;
        const pare_status status = by_law(part, row->spec, value, err);
        if (status != PARE_OK)
            return status;
        if (!(value->value >= row->low && value->value <= row->high))
            return pare_fail(err, PARE_BAD_DATA,
                             "%s is missing, and no law reaches a part of this size: say it",
                             row->name);
    }
    return PARE_OK;
}

static pare_status fill_mass(pare_part *part, pare_error *err)
{
    pare_typical typical;
    if (part->mass_kg.given)
        return PARE_OK;
    if (!pare_pieces_weigh(part, &part->mass_kg)) {
        if (!pare_law_mass(part, &typical))
            return pare_fail(
                err, PARE_BAD_DATA,
                "mass is missing, and no law knows it for a part of kind %s: say mass: 12 "
                "g, or give a body with its density",
                pare_kind_name(part->kind));
        if (part->maker)
            typical.value += typical.u / 2;
        part->mass_kg = filled(typical);
    }
    if (!(part->mass_kg.value >= PARE_PART_LEAST_KG && part->mass_kg.value <= PARE_PART_MOST_KG))
        return pare_fail(
            err, PARE_BAD_DATA,
            "mass comes out as %.6g g, must be %.6g .. %.6g g: check the sizes, or say it",
            1e3 * part->mass_kg.value, 1e3 * PARE_PART_LEAST_KG, 1e3 * PARE_PART_MOST_KG);
    return PARE_OK;
}

static pare_status blade_from_stations(const pare_part *part, pare_prop_line line, pare_prop *blade,
                                       pare_error *err)
{
    double radius[PARE_PROP_STATIONS], chord[PARE_PROP_STATIONS], twist_rad[PARE_PROP_STATIONS];
    const size_t count = part->stations < PARE_PROP_STATIONS ? part->stations : PARE_PROP_STATIONS;
    for (size_t i = 0; i < count; i++) {
        radius[i] = part->station[i].radius;
        chord[i] = part->station[i].chord;
        twist_rad[i] = part->station[i].twist_rad;
    }
    return pare_prop_from_stations(part->spec[PARE_SPEC_DIAMETER].value,
                                   (int)part->spec[PARE_SPEC_BLADES].value, line, count, radius,
                                   chord, twist_rad, pare_prop_set(true, line), blade, err);
}

/* What a charger read comes before what a maker states, and after what somebody measured otherwise. */
static pare_status put_charged(pare_part *part, pare_error *err)
{
    if (part->chargings == 0)
        return PARE_OK;
    if (part->kind != PARE_PACK)
        return pare_fail(err, PARE_BAD_DATA, "charger: only packs have been on one");
    pare_rig rig;
    pare_rig_defaults(&rig);
    rig.pack.chemistry = part->chemistry;
    rig.pack.cells = (int)part->spec[PARE_SPEC_CELLS].value;
    rig.pack.capacity_c = part->spec[PARE_SPEC_CAPACITY].value;
    pare_value ohm;
    const pare_status status =
        pare_charged_all(&rig.pack, part->chargings, part->charged, &ohm, &part->holds_c, err);
    pare_value *stated = &part->spec[PARE_SPEC_RESISTANCE];
    if (status == PARE_OK && ohm.given && !(stated->given && stated->known <= PARE_MEASURED))
        *stated = ohm;
    return status;
}

static pare_status make_blade(pare_part *part, pare_arena *arena, pare_error *err)
{
    if (part->kind != PARE_PROPELLER)
        return PARE_OK;
    pare_prop *blade = pare_arena_zeros(arena, sizeof *blade);
    if (!blade)
        return pare_no_memory(err);
    const bool slow = part->spec[PARE_SPEC_SLOW].value > 0;
    if (slow && part->line != PARE_LINE_UNKNOWN && part->line != PARE_LINE_SLOW)
        return pare_fail(err, PARE_BAD_DATA,
                         "slow: yes is line slow, and line is %s too; leave one out",
                         pare_prop_line_name(part->line));
    const pare_prop_size size = {
        .diameter_m = part->spec[PARE_SPEC_DIAMETER].value,
        .pitch_m = part->spec[PARE_SPEC_PITCH].value,
        .blades = (int)part->spec[PARE_SPEC_BLADES].value,
        .chord_m = part->spec[PARE_SPEC_CHORD].value,
        .line = slow ? PARE_LINE_SLOW : part->line,
    };
    const pare_status status =
        part->stations ? blade_from_stations(part, size.line, blade, err)
                       : pare_prop_from_size(&size, pare_prop_set(false, size.line), blade, err);
    if (status == PARE_OK)
        part->blade = blade;
    return status;
}

pare_status pare_part_complete(pare_part *part, pare_arena *arena, pare_error *err)
{
    if (part->price.sold_in == 0)
        part->price.sold_in = 1;
    pare_status status = pare_part_check(part, err);
    if (status != PARE_OK)
        return status;
    part->does |= 1u << part->kind;
    put_uncertainties(part);
    put_own_fits(part);
    status = put_charged(part, err);
    if (status == PARE_OK)
        status = fill_specs(part, err);
    if (status == PARE_OK)
        status = fill_mass(part, err);
    if (status == PARE_OK)
        status = part->pieces > 0 ? pare_part_densities(part, arena, err)
                                  : pare_part_usual_body(part, arena, err);
    if (status == PARE_OK)
        status = make_blade(part, arena, err);
    return status;
}

unsigned long long pare_part_filled(const pare_part *part)
{
    unsigned long long bits = 0;
    for (int spec = 0; spec < PARE_SPECS; spec++)
        if (!part->spec[spec].given && part->spec[spec].known == PARE_ESTIMATED)
            bits |= 1ull << spec;
    if (!part->mass_kg.given && part->mass_kg.known == PARE_ESTIMATED)
        bits |= PARE_FILLED_MASS;
    return bits;
}

const pare_include *pare_part_brings(const pare_part *part, pare_included what, const char *name)
{
    for (size_t i = 0; part && name && i < part->includes; i++)
        if (part->include[i].what == what && part->include[i].name &&
            pare_same_name(part->include[i].name, name))
            return &part->include[i];
    return NULL;
}
