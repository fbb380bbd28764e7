/* calc_screw.c: `pare calc screw`: one fastener: its mass and, for a screw, what it bears.
 *
 * Nuts, washers and standoffs are weighed here as well: who counts grams asks for them in one breath. */
#include <math.h>

#include "cli/calc.h"
#include "cli/calc_fastener.h"
#include "physics/nut.h"

enum {
    STANDARD,
    THREAD,
    LENGTH,
    MATERIAL,
    CLASS,
    NUT_FACTOR,
    ENGAGED,
    INTO,
    PLATE,
    ACROSS,
    TAPPED
};
static const key keys[] = {
    [STANDARD] = {"standard", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [THREAD] = {"thread", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [LENGTH] = {"length", PARE_DIM_LENGTH, 0.002, 0.1, "2 mm .. 60 mm, standoffs 3 mm .. 100 mm",
                false, NAN, false},
    [MATERIAL] = {"material", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [CLASS] = {"class", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [NUT_FACTOR] = {"nut_factor", PARE_DIM_NUMBER, 0.05, 0.5, "0.05 .. 0.5", false, 0.19, false},
    [ENGAGED] = {"engaged", PARE_DIM_LENGTH, 2e-4, 0.06, "0.2 mm .. 60 mm", false, 0, false},
    [INTO] = {"into", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [PLATE] = {"plate", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [ACROSS] = {"across", PARE_DIM_LENGTH, 0.002, 0.02, "2 mm .. 20 mm", false, 0, false},
    [TAPPED] = {"tapped", PARE_DIM_LENGTH, 0, 0.05, "0 mm (right through) .. 50 mm", false, 0,
                false},
};

/* Keys that say nothing of this kind of fastener are slips. */
static pare_status check_keys(const key_values *given, pare_fastener standard, pare_error *err)
{
    const bool post = standard == PARE_STANDOFF_HEX || standard == PARE_STANDOFF_ROUND;
    const char *name = pare_fastener_name(standard);
    if (pare_has_no_length(standard) && given->given[LENGTH])
        return pare_fail(err, PARE_BAD_DATA, "%s has no length: its thread gives its size", name);
    if (!pare_has_no_length(standard) && !given->given[LENGTH])
        return pare_fail(err, PARE_BAD_DATA, "length is missing: %s", keys[LENGTH].allowed);
    if (post && !given->given[ACROSS])
        return pare_fail(err, PARE_BAD_DATA, "across is missing: a standoff needs it, %s",
                         keys[ACROSS].allowed);
    if (!post && (given->given[ACROSS] || given->given[TAPPED]))
        return pare_fail(err, PARE_BAD_DATA, "%s is said of standoffs, not of %s",
                         given->given[ACROSS] ? "across" : "tapped", name);
    for (int k = NUT_FACTOR; k <= PLATE; k++)
        if (given->given[k] && !pare_is_screw(standard))
            return pare_fail(err, PARE_BAD_DATA, "%s is said of screws, not of %s", keys[k].name,
                             name);
    return PARE_OK;
}

static pare_status read(const key_values *given, pare_fastener_size *size,
                        pare_screw_material *material, pare_strength *strength, pare_error *err)
{
    pare_status status = fastener_named(given->text[STANDARD], false, &size->standard, err);
    if (status == PARE_OK)
        status = check_keys(given, size->standard, err);
    if (status == PARE_OK)
        status = pare_thread_named(given->text[THREAD], &size->thread, err);
    if (status == PARE_OK)
        status = material_named(given->text[MATERIAL], material, err);
    if (status == PARE_OK)
        status = pare_screw_strength(*material, given->given[CLASS] ? given->text[CLASS] : NULL,
                                     strength, err);
    size->length_m = given->given[LENGTH] ? given->value[LENGTH] : 0;
    size->across_m = given->value[ACROSS];
    size->tapped_m = given->value[TAPPED];
    return status;
}

static pare_status screw_answer(const key_values *given, const pare_fastener_size *size,
                                pare_screw_material material, const pare_strength *strength,
                                pare_answer *answer, pare_error *err)
{
    pare_grip grip = {.standard = size->standard,
                      .thread = size->thread,
                      .screw = *strength,
                      .engaged_m = given->value[ENGAGED],
                      .nut_factor = given->value[NUT_FACTOR]};
    pare_held hold;
    pare_status status =
        grip_into(given->given[INTO] ? given->text[INTO] : NULL, material, &grip, err);
    if (status == PARE_OK && given->given[PLATE])
        status = pare_plate_bears_pa(given->text[PLATE], &grip.plate_pa, err);
    if (status == PARE_OK && grip.engaged_m > size->length_m)
        return pare_fail(err, PARE_BAD_DATA,
                         "engaged %g mm of a screw %g mm long: its length is the most",
                         1e3 * grip.engaged_m, 1e3 * size->length_m);
    if (status == PARE_OK)
        status = pare_screw_hold(&grip, &hold, err);
    if (status != PARE_OK)
        return status;
    pare_answer_add(answer, "stress_area_mm2", "stress area", "mm2", 1e6 * hold.stress_area_m2);
    pare_answer_add(answer, "breaks_n", "breaking load", "N", hold.tensile_n);
    pare_answer_add(answer, "proof_n", "proof load", "N", hold.proof_n);
    pare_answer_add(answer, "torque_nm", "torque to use", "N m", hold.torque_nm);
    pare_answer_add(answer, "preload_n", "clamping force at that torque", "N", hold.preload_n);
    if (grip.engaged_m > 0) {
        pare_answer_add(answer, "strip_n", "thread strips at", "N", hold.strip_n);
        pare_answer_add(answer, "strip_screw_n", "the screw's own thread", "N", hold.strip_screw_n);
        pare_answer_add(answer, "strip_hole_n", "the thread in the hole", "N", hold.strip_hole_n);
    }
    if (grip.plate_pa > 0)
        pare_answer_add(answer, "bearing_n", "the plate under the head", "N", hold.bearing_n);
    pare_answer_add(answer, "engagement_needed_mm", "engagement for the screw to break first", "mm",
                    1e3 * pare_engagement_needed_m(&grip.thread, &grip.screw, &grip.hole));
    pare_answer_note(answer, "%s", gives_way_words(hold.by));
    if (hold.head_share < 1)
        pare_answer_note(answer, "this head bears %g %% of what the thread does",
                         100 * hold.head_share);
    if (material == PARE_ALUMINIUM || material == PARE_ALUMINIUM_7075)
        pare_answer_note(answer,
                         "aluminium: not again after a crash, and it corrodes on wet carbon");
    return PARE_OK;
}

static void other_answer(const pare_fastener_size *size, const pare_strength *strength,
                         pare_answer *answer)
{
    switch (size->standard) {
    case PARE_ISO4032:
    case PARE_ISO7040:
        pare_answer_add(answer, "flats_mm", "across the flats", "mm",
                        1e3 * pare_nut_flats_m(&size->thread));
        pare_answer_add(answer, "thread_mm", "height of its thread", "mm",
                        1e3 * pare_nut_thread_m(&size->thread));
        break;
    case PARE_ISO7089:
        pare_answer_add(answer, "across_mm", "across", "mm",
                        1e3 * pare_washer_across_m(&size->thread));
        pare_answer_add(answer, "thick_mm", "thick", "mm",
                        1e3 * pare_washer_thick_m(&size->thread));
        break;
    default:
        pare_answer_add(answer, "pulls_n", "its wall tears at", "N",
                        pare_standoff_pulls_n(size, strength->tensile_pa));
        pare_answer_add(answer, "bends_n", "bends when pushed across by", "N",
                        pare_standoff_bends_n(size, strength->proof_pa));
        break;
    }
}

static pare_status answer_of(const key_values *given, pare_units *units, pare_answer *answer,
                             pare_error *err)
{
    (void)units;
    pare_screw_material material = PARE_STEEL;
    pare_fastener_size size = {0};
    pare_strength strength = {0};
    double mass_kg = 0;
    pare_status status = read(given, &size, &material, &strength, err);
    if (status == PARE_OK)
        status = pare_fastener_kg(&size, material, &mass_kg, err);
    if (status != PARE_OK)
        return status;
    pare_answer_add(answer, "mass_g", "mass", "g", 1e3 * mass_kg);
    if (pare_is_screw(size.standard))
        return screw_answer(given, &size, material, &strength, answer, err);
    other_answer(&size, &strength, answer);
    return PARE_OK;
}

const calc_thing calc_screw = {"screw", sizeof keys / sizeof keys[0], keys, answer_of};
