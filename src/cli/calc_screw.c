/* calc_screw.c: `pare calc screw`. */
#include <math.h>
#include <string.h>

#include "cli/calc.h"
#include "physics/screw_hold.h"

enum { STANDARD, THREAD, LENGTH, MATERIAL, CLASS, NUT_FACTOR, ENGAGED, INTO, PLATE };
static const key keys[] = {
    [STANDARD] = {"standard", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [THREAD] = {"thread", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [LENGTH] = {"length", PARE_DIM_LENGTH, 0.002, 0.06, "2 mm .. 60 mm", true, NAN, false},
    [MATERIAL] = {"material", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [CLASS] = {"class", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [NUT_FACTOR] = {"nut_factor", PARE_DIM_NUMBER, 0.05, 0.5, "0.05 .. 0.5", false, 0.19, false},
    [ENGAGED] = {"engaged", PARE_DIM_LENGTH, 2e-4, 0.06, "0.2 mm .. 60 mm", false, 0, false},
    [INTO] = {"into", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [PLATE] = {"plate", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
};

static pare_status standard_named(const char *name, pare_screw_standard *standard, pare_error *err)
{
    const char *names[PARE_SCREW_STANDARDS];
    for (int i = 0; i < PARE_SCREW_STANDARDS; i++) {
        names[i] = pare_screw_standard_name((pare_screw_standard)i);
        if (strcmp(name, names[i]) == 0) {
            *standard = (pare_screw_standard)i;
            return PARE_OK;
        }
    }
    const char *near = pare_nearest(name, PARE_SCREW_STANDARDS, names);
    return pare_fail(err, PARE_BAD_DATA,
                     "standard '%.30s': known are ISO4762, ISO7380-1 and ISO10642%s%s%s", name,
                     near ? "; did you mean " : "", near ? near : "", near ? "?" : "");
}

static pare_status material_named(const char *name, pare_screw_material *material, pare_error *err)
{
    const int known = pare_screw_material_named(name);
    if (known >= 0) {
        *material = (pare_screw_material)known;
        return PARE_OK;
    }
    return pare_fail(err, PARE_BAD_DATA,
                     "material '%.30s': known are steel, stainless, titanium, aluminium_7075, "
                     "aluminium, brass and nylon",
                     name);
}

static pare_status read(const key_values *given, pare_screw_material *material, pare_grip *grip,
                        pare_error *err)
{
    *grip = (pare_grip){.engaged_m = given->value[ENGAGED], .nut_factor = given->value[NUT_FACTOR]};
    pare_status status = standard_named(given->text[STANDARD], &grip->standard, err);
    if (status == PARE_OK)
        status = pare_thread_named(given->text[THREAD], &grip->thread, err);
    if (status == PARE_OK)
        status = material_named(given->text[MATERIAL], material, err);
    if (status == PARE_OK)
        status = pare_screw_strength(*material, given->given[CLASS] ? given->text[CLASS] : NULL,
                                     &grip->screw, err);
    if (status != PARE_OK)
        return status;
    grip->soft_screw = grip->soft_hole = pare_screw_is_soft(*material);
    /* Into its own kind where nothing else is said: then the screw's thread is the weaker one. */
    grip->hole = grip->screw;
    if (given->given[INTO]) {
        status = pare_hole_strength(given->text[INTO], &grip->hole, err);
        grip->soft_hole = pare_hole_is_soft(given->text[INTO]);
    }
    if (status == PARE_OK && given->given[PLATE])
        status = pare_plate_bears_pa(given->text[PLATE], &grip->plate_pa, err);
    if (status == PARE_OK && grip->engaged_m > given->value[LENGTH])
        return pare_fail(err, PARE_BAD_DATA,
                         "engaged %g mm of a screw %g mm long: its length is the most",
                         1e3 * grip->engaged_m, 1e3 * given->value[LENGTH]);
    return status;
}

static const char *const gives_way[] = {
    [PARE_HELD_BY_PROOF] = "the screw stretches first",
    [PARE_HELD_BY_SCREW_THREAD] = "the screw's thread strips first",
    [PARE_HELD_BY_HOLE_THREAD] = "the thread in the hole strips first",
    [PARE_HELD_BY_PLATE] = "the head sinks into the plate first",
    [PARE_HELD_BY_KEY] = "the hexagon key turns in its socket first",
};

static pare_status answer_of(const key_values *given, pare_units *units, pare_answer *answer,
                             pare_error *err)
{
    (void)units;
    pare_screw_material material = PARE_STEEL;
    pare_grip grip;
    pare_held hold;
    double mass_kg = 0;
    pare_status status = read(given, &material, &grip, err);
    if (status == PARE_OK)
        status = pare_screw_kg(grip.standard, &grip.thread, given->value[LENGTH], material,
                               &mass_kg, err);
    if (status == PARE_OK)
        status = pare_screw_hold(&grip, &hold, err);
    if (status != PARE_OK)
        return status;
    pare_answer_add(answer, "mass_g", "mass", "g", 1e3 * mass_kg);
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
    pare_answer_add(answer, "engagement_needed_mm", "engagement for the screw to break first", "mm",
                    1e3 * pare_engagement_needed_m(&grip.thread, &grip.screw, &grip.hole));
    pare_answer_note(answer, "%s", gives_way[hold.by]);
    if (hold.head_share < 1)
        pare_answer_note(answer, "this head bears %g %% of what the thread does",
                         100 * hold.head_share);
    if (material == PARE_ALUMINIUM || material == PARE_ALUMINIUM_7075)
        pare_answer_note(answer,
                         "aluminium: not again after a crash, and it corrodes on wet carbon");
    return PARE_OK;
}

const calc_thing calc_screw = {"screw", sizeof keys / sizeof keys[0], keys, answer_of};
