/* screw_hold.c: strength of a screwed joint (see screw_hold.h).
 *
 * Five things can give way when a screw is tightened: the screw's shank, its thread, the thread in the
 * hole, the plate under its head, the key in its socket. Each has a load; the least of them, with the share that practice
 * uses, is the preload, and F = T/(K d) turns it into a torque. A steel nut strips an aluminium screw
 * and a steel screw strips an aluminium hole: so both threads are worked out, each with its own
 * diameter and its own metal.
 *
 * Read pare_screw_hold() first. Basic profile throughout (ISO 68-1): no tolerances, so a real thread
 * is some per cent weaker; the shares of use cover that. */
#include "physics/screw_hold.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "base/text.h"

#define PI          3.14159265358979323846
#define MPA         1e6
#define ROWS(table) (sizeof(table) / sizeof *(table))

static const double shear_share = 0.6;                       /* of Rm */
static const double proof_used = 0.7, soft_proof_used = 0.5; /* common practice, no source */
static const double flat_head_share = 0.8; /* ISO 7380-1, ISO 10642; from memory */

static const struct {
    pare_screw_material material;
    const char *grade;
    pare_strength strength;
} screws[] = {
    /* The first of a material is what is meant where no class is said. */
    {PARE_STEEL, "8.8", {800 * MPA, 580 * MPA}}, /* ISO 898-1 */
    {PARE_STEEL, "10.9", {1040 * MPA, 830 * MPA}},
    {PARE_STEEL, "12.9", {1220 * MPA, 970 * MPA}},
    {PARE_STEEL,
     "4.8",
     {420 * MPA, 310 * MPA}}, /* as slotted screws come; ISO 898-1, from memory */
    {PARE_STEEL, "5.8", {520 * MPA, 380 * MPA}},
    {PARE_STAINLESS, "A2-70", {700 * MPA, 450 * MPA}}, /* ISO 3506-1, from memory */
    {PARE_STAINLESS, "A2-50", {500 * MPA, 210 * MPA}}, /* likewise */
    {PARE_STAINLESS, "A2-80", {800 * MPA, 600 * MPA}},
    {PARE_TITANIUM, "TI2", {890 * MPA, 820 * MPA}},       /* ISO 8839, Ti-6Al-4V */
    {PARE_ALUMINIUM_7075, "AL6", {510 * MPA, 440 * MPA}}, /* ISO 8839 */
    {PARE_ALUMINIUM, "AL1", {270 * MPA, 230 * MPA}},      /* ISO 8839, the weakest of its kinds */
    {PARE_ALUMINIUM, "AL3", {320 * MPA, 250 * MPA}},      /* ISO 8839 */
    {PARE_BRASS, "CU2", {440 * MPA, 340 * MPA}},          /* ISO 8839, from memory */
    {PARE_NYLON, "PA66", {70 * MPA, 35 * MPA}},           /* conditioned; from memory */
};

static const struct {
    const char *name;
    pare_strength strength;
} holes[] = {
    {"6061", {310 * MPA, 276 * MPA}},      /* 6061-T6; handbook values, from memory */
    {"7075", {570 * MPA, 500 * MPA}},      /* 7075-T6; from memory */
    {"aluminium", {215 * MPA, 160 * MPA}}, /* 6060-T66, the soft extrusion; from memory */
    {"steel", {800 * MPA, 640 * MPA}},     /* a class 8 nut, ISO 898-2; from memory */
    {"stainless", {700 * MPA, 450 * MPA}}, {"titanium", {890 * MPA, 820 * MPA}},
    {"brass", {440 * MPA, 340 * MPA}},     {"nylon", {70 * MPA, 35 * MPA}},
};

static const struct {
    const char *name;
    double pressure_pa;
} plates[] = {
    {"carbon", PARE_CARBON_BEARS_PA},
    {"6061", 260 * MPA},   /* limiting surface pressure in the practice of VDI 2230; from memory */
    {"7075", 410 * MPA},   /* likewise */
    {"steel", 490 * MPA},  /* S235, likewise */
    {"plastic", 60 * MPA}, /* printed or moulded; estimate */
};

pare_status pare_screw_strength(pare_screw_material material, const char *grade,
                                pare_strength *strength, pare_error *err)
{
    char known[64] = "";
    for (size_t i = 0; i < ROWS(screws); i++) {
        if (screws[i].material != material)
            continue;
        if (!grade || strcmp(grade, screws[i].grade) == 0) {
            *strength = screws[i].strength;
            return PARE_OK;
        }
        const size_t used = strlen(known);
        strncat(known, used ? ", " : "", sizeof known - used - 1);
        strncat(known, screws[i].grade, sizeof known - strlen(known) - 1);
    }
    return pare_fail(err, PARE_BAD_DATA, "class '%.20s': %s screws come in %s", grade,
                     pare_screw_material_name(material), known);
}

bool pare_screw_is_class(const char *grade)
{
    for (size_t i = 0; i < ROWS(screws); i++)
        if (strcmp(grade, screws[i].grade) == 0)
            return true;
    return false;
}

bool pare_screw_is_soft(pare_screw_material material)
{
    return material == PARE_ALUMINIUM || material == PARE_ALUMINIUM_7075 ||
           material == PARE_BRASS || material == PARE_NYLON;
}

bool pare_hole_is_soft(const char *name)
{
    return strcmp(name, "steel") != 0 && strcmp(name, "stainless") != 0 &&
           strcmp(name, "titanium") != 0;
}

static pare_status unknown(const char *what, const char *name, size_t count,
                           const char *const names[], pare_error *err)
{
    char known[128] = "";
    for (size_t i = 0; i < count; i++) {
        strncat(known, i ? ", " : "", sizeof known - strlen(known) - 1);
        strncat(known, names[i], sizeof known - strlen(known) - 1);
    }
    return pare_fail(err, PARE_BAD_DATA, "%s '%.20s': known are %s", what, name, known);
}

pare_status pare_hole_strength(const char *name, pare_strength *strength, pare_error *err)
{
    const char *names[ROWS(holes)];
    for (size_t i = 0; i < ROWS(holes); i++) {
        names[i] = holes[i].name;
        if (strcmp(name, names[i]) == 0) {
            *strength = holes[i].strength;
            return PARE_OK;
        }
    }
    return unknown("into", name, ROWS(holes), names, err);
}

pare_status pare_plate_bears_pa(const char *name, double *pressure_pa, pare_error *err)
{
    const char *names[ROWS(plates)];
    for (size_t i = 0; i < ROWS(plates); i++) {
        names[i] = plates[i].name;
        if (strcmp(name, names[i]) == 0) {
            *pressure_pa = plates[i].pressure_pa;
            return PARE_OK;
        }
    }
    return unknown("plate", name, ROWS(plates), names, err);
}

/* Area sheared off a metre of engagement: of the hole's thread at the screw's outside, of the
 * screw's at the hole's inside. */
static double hole_shear_m(const pare_thread *thread)
{
    const double d = thread->nominal_m, p = thread->pitch_m;
    return PI / p * d * (p / 2 + (d - pare_thread_pitch_diameter_m(thread)) / sqrt(3));
}

static double screw_shear_m(const pare_thread *thread)
{
    const double inside_m = thread->nominal_m - 1.08253175 * thread->pitch_m; /* ISO 68-1: D1 */
    return PI / thread->pitch_m * inside_m *
           (thread->pitch_m / 2 + (pare_thread_pitch_diameter_m(thread) - inside_m) / sqrt(3));
}

double pare_engagement_needed_m(const pare_thread *thread, const pare_strength *screw,
                                const pare_strength *hole)
{
    const double breaks_n = pare_thread_stress_area_m2(thread) * screw->tensile_pa;
    return breaks_n / (shear_share * fmin(hole_shear_m(thread) * hole->tensile_pa,
                                          screw_shear_m(thread) * screw->tensile_pa));
}

/* Head or washer on plate: a ring from the clearance hole (ISO 273, fine: 0.2 mm over M3, near 1.07 d)
 * to its edge. */
static double under_head_m2(const pare_grip *grip)
{
    const pare_thread *thread = &grip->thread;
    const double across_m = fmax(pare_screw_head_m(grip->standard, thread), grip->washer_across_m);
    const double hole_m = 1.07 * thread->nominal_m;
    return PI / 4 * (across_m * across_m - hole_m * hole_m);
}

/* Hexagon keys by their width across flats, least torque: ISO 2936, from memory. */
static double key_bears_nm(double flats_m)
{
    static const struct {
        double flats_mm, torque_nm;
    } keys[] = {{1.5, 0.82}, {2, 1.9}, {2.5, 3.8}, {3, 6.6}, {4, 16}};
    for (size_t i = 0; i < ROWS(keys); i++)
        if (fabs(1e3 * flats_m - keys[i].flats_mm) < 0.05)
            return keys[i].torque_nm;
    return HUGE_VAL;
}

pare_status pare_screw_hold(const pare_grip *grip, pare_held *hold, pare_error *err)
{
    const pare_thread *thread = &grip->thread;
    if (!(grip->engaged_m >= 0 && grip->engaged_m <= 0.06))
        return pare_fail(err, PARE_BAD_DATA, "engaged %g mm: 0 to 60 mm would be right",
                         1e3 * grip->engaged_m);
    if (!(grip->nut_factor >= 0.05 && grip->nut_factor <= 0.5))
        return pare_fail(err, PARE_BAD_DATA,
                         "nut_factor %g: 0.05 to 0.5 would be right (0.19 dry, 0.15 oiled)",
                         grip->nut_factor);
    const double area_m2 = pare_thread_stress_area_m2(thread);
    const bool engaged = grip->engaged_m > 0;
    *hold = (pare_held){
        .stress_area_m2 = area_m2,
        .tensile_n = area_m2 * grip->screw.tensile_pa,
        .proof_n = area_m2 * grip->screw.proof_pa,
        .head_share =
            grip->standard == PARE_ISO7380 || grip->standard == PARE_ISO10642 ? flat_head_share : 1,
        .strip_screw_n =
            engaged ? shear_share * grip->screw.tensile_pa * grip->engaged_m * screw_shear_m(thread)
                    : HUGE_VAL,
        .strip_hole_n =
            engaged ? shear_share * grip->hole.tensile_pa * grip->engaged_m * hole_shear_m(thread)
                    : HUGE_VAL,
        .bearing_n = grip->plate_pa > 0 ? grip->plate_pa * under_head_m2(grip) : HUGE_VAL,
    };
    hold->strip_n = fmin(hold->strip_screw_n, hold->strip_hole_n);
    const double of_screw = grip->soft_screw ? soft_proof_used : proof_used;
    const double of_hole = grip->soft_hole ? soft_proof_used : proof_used;
    const double key_nm = key_bears_nm(pare_screw_key_m(grip->standard, thread));
    const double loads_n[] = {
        [PARE_HELD_BY_PROOF] = of_screw * hold->head_share * hold->proof_n,
        [PARE_HELD_BY_SCREW_THREAD] = of_screw * hold->strip_screw_n,
        [PARE_HELD_BY_HOLE_THREAD] = of_hole * hold->strip_hole_n,
        [PARE_HELD_BY_PLATE] = hold->bearing_n,
        [PARE_HELD_BY_KEY] = proof_used * key_nm / (grip->nut_factor * thread->nominal_m),
    };
    hold->by = PARE_HELD_BY_PROOF;
    for (size_t i = 1; i < ROWS(loads_n); i++)
        if (loads_n[i] < loads_n[hold->by])
            hold->by = (pare_held_by)i;
    hold->preload_n = loads_n[hold->by];
    hold->torque_nm = grip->nut_factor * thread->nominal_m * hold->preload_n;
    return PARE_OK;
}

double pare_screw_breaks_nm(const pare_grip *grip, const pare_held *hold)
{
    return grip->nut_factor * grip->thread.nominal_m * hold->head_share * hold->tensile_n;
}
