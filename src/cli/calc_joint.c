/* calc_joint.c: `pare calc joint`: like screws on a circle, and what thrust, torque and a crash do to them.
 *
 * The same statics as on a craft's sheet (physics/bolted.h), with the loads given by hand: thrust pulls all
 * screws alike, torque shears them, and the crash pushes what they hold across at some height, so that
 * it shears them and tips the base over its edge. Another set of screws may stand against them: fewer of
 * steel or more of aluminium is the question that starts most arguments at the bench. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/calc.h"
#include "cli/calc_fastener.h"
#include "physics/bolted.h"
#include "physics/nut.h"

#define GRAVITY_M_S2 9.80665 /* 3rd CGPM, 1901 */
#define SHEAR_SHARE  0.6     /* of the tensile strength */
#define SHORT_GRIP   3.0     /* diameters; common practice, no source */

enum {
    STANDARD,
    THREAD,
    LENGTH,
    MATERIAL,
    CLASS,
    COUNT,
    CIRCLE,
    MASS,
    THRUST,
    TORQUE,
    CRASH,
    HEIGHT,
    ENGAGED,
    INTO,
    PLATE,
    NUT_FACTOR,
    AGAINST
};
static const key keys[] = {
    [STANDARD] = {"standard", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [THREAD] = {"thread", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [LENGTH] = {"length", PARE_DIM_LENGTH, 0.002, 0.06, "2 mm .. 60 mm", true, NAN, false},
    [MATERIAL] = {"material", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [CLASS] = {"class", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [COUNT] = {"count", PARE_DIM_COUNT, 1, 64, "1 .. 64", true, NAN, false},
    [CIRCLE] = {"circle", PARE_DIM_LENGTH, 0.003, 0.5, "3 mm .. 500 mm", true, NAN, false},
    [MASS] = {"mass", PARE_DIM_MASS, 0, 25, "0 g .. 25 kg", false, 0, false},
    [THRUST] = {"thrust", PARE_DIM_FORCE, 0, 1000, "0 N .. 1000 N", false, 0, false},
    [TORQUE] = {"torque", PARE_DIM_TORQUE, 0, 100, "0 N.m .. 100 N.m", false, 0, false},
    [CRASH] = {"crash_g", PARE_DIM_NUMBER, 0, 10000, "0 .. 10000", false, 0, false},
    [HEIGHT] = {"height", PARE_DIM_LENGTH, 0, 0.5, "0 mm .. 500 mm", false, 0.012, false},
    [ENGAGED] = {"engaged", PARE_DIM_LENGTH, 2e-4, 0.06, "0.2 mm .. 60 mm", false, 0, false},
    [INTO] = {"into", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [PLATE] = {"plate", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [NUT_FACTOR] = {"nut_factor", PARE_DIM_NUMBER, 0.05, 0.5, "0.05 .. 0.5", false, 0.19, false},
    [AGAINST] = {"against", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
};

/* Screws of one sort, so many, in the same hole and under the same load. */
typedef struct set {
    pare_screw_material material;
    int count;
    double mass_kg;
    pare_grip grip;
    pare_held hold;
    double breaks_n, shears_n;
    pare_screw_load flight, crash;
} set;

static pare_status fill_set(const key_values *given, const char *grade, set *s, pare_error *err)
{
    const double circle_m = given->value[CIRCLE] / 2;
    const double crash_n = given->value[MASS] * given->value[CRASH] * GRAVITY_M_S2;
    pare_status status = pare_screw_strength(s->material, grade, &s->grip.screw, err);
    if (status == PARE_OK)
        status =
            grip_into(given->given[INTO] ? given->text[INTO] : NULL, s->material, &s->grip, err);
    if (status == PARE_OK)
        status = pare_screw_kg(s->grip.standard, &s->grip.thread, given->value[LENGTH], s->material,
                               &s->mass_kg, err);
    if (status == PARE_OK)
        status = pare_screw_hold(&s->grip, &s->hold, err);
    if (status != PARE_OK)
        return status;
    s->mass_kg *= s->count;
    s->breaks_n =
        fmin(fmin(s->hold.head_share * s->hold.tensile_n, s->hold.strip_n), s->hold.bearing_n);
    s->shears_n = SHEAR_SHARE * s->hold.tensile_n;
    s->flight = (pare_screw_load){given->value[THRUST] / s->count,
                                  given->value[TORQUE] / circle_m / s->count};
    s->crash = (pare_screw_load){
        pare_bolted_pull_n(crash_n * given->value[HEIGHT], s->count, circle_m), crash_n / s->count};
    return PARE_OK;
}

/* "2xsteel". */
static pare_status read_against(const char *text, set *other, pare_error *err)
{
    char *end;
    const long count = strtol(text, &end, 10);
    if (end == text || *end != 'x' || count < 1 || count > 64)
        return pare_fail(err, PARE_BAD_DATA,
                         "against '%.30s': a number of 1 .. 64 and a material, like 2xsteel", text);
    other->count = (int)count;
    return material_named(end + 1, &other->material, err);
}

static pare_status read(const key_values *given, set *first, set *other, pare_error *err)
{
    pare_grip *grip = &first->grip;
    pare_status status = PARE_OK;
    if (given->given[STANDARD])
        status = fastener_named(given->text[STANDARD], true, &grip->standard, err);
    if (status == PARE_OK)
        status = pare_thread_named(given->text[THREAD], &grip->thread, err);
    if (status == PARE_OK)
        status = material_named(given->text[MATERIAL], &first->material, err);
    if (status == PARE_OK && given->given[PLATE])
        status = pare_plate_bears_pa(given->text[PLATE], &grip->plate_pa, err);
    if (status != PARE_OK)
        return status;
    grip->nut_factor = given->value[NUT_FACTOR];
    grip->engaged_m = given->given[ENGAGED] ? given->value[ENGAGED] : grip->thread.nominal_m;
    if (grip->engaged_m > given->value[LENGTH])
        return pare_fail(err, PARE_BAD_DATA,
                         "engaged %g mm of a screw %g mm long: its length is the most",
                         1e3 * grip->engaged_m, 1e3 * given->value[LENGTH]);
    first->count = (int)lround(given->value[COUNT]);
    *other = (set){.grip = *grip, .count = first->count / 2, .material = first->material};
    return given->given[AGAINST] ? read_against(given->text[AGAINST], other, err) : PARE_OK;
}

/* What is borne over what must be; nothing where nothing must be. */
static void add_ratio(pare_answer *answer, const char *name, const char *words, double bears_n,
                      double must_n)
{
    if (must_n > 0 && isfinite(bears_n))
        pare_answer_add(answer, name, words, "", bears_n / must_n);
}

static void add_together(pare_answer *answer, const char *name, const char *words, const set *s,
                         const pare_screw_load *load)
{
    const double ratio = pare_bolted_ratio(s->breaks_n, s->shears_n, load);
    if (isfinite(ratio))
        pare_answer_add(answer, name, words, "", ratio);
}

static void add_set(const set *s, const key_values *given, pare_answer *answer)
{
    const pare_held *hold = &s->hold;
    const double head_n = hold->head_share * hold->tensile_n;
    const double pull_n = fmax(s->flight.pull_n, s->crash.pull_n);
    pare_answer_add(answer, "mass_g", "mass of all", "g", 1e3 * s->mass_kg);
    pare_answer_add(answer, "tension_n", "thrust pulls each with", "N", s->flight.pull_n);
    pare_answer_add(answer, "shear_n", "torque shears each with", "N", s->flight.shear_n);
    pare_answer_add(answer, "prying_n", "the crash pulls one with", "N", s->crash.pull_n);
    pare_answer_add(answer, "crash_shear_n", "and shears each with", "N", s->crash.shear_n);
    pare_answer_add(answer, "breaks_n", "each breaks at", "N", head_n);
    pare_answer_add(answer, "strip_screw_n", "its own thread strips at", "N", hold->strip_screw_n);
    pare_answer_add(answer, "strip_hole_n", "the hole's thread strips at", "N", hold->strip_hole_n);
    if (isfinite(hold->bearing_n))
        pare_answer_add(answer, "bearing_n", "its head sinks in at", "N", hold->bearing_n);
    pare_answer_add(answer, "shears_n", "it shears at", "N", s->shears_n);
    pare_answer_add(answer, "torque_nm", "torque to use", "N m", hold->torque_nm);
    pare_answer_add(answer, "preload_n", "clamping force of each", "N", hold->preload_n);
    pare_answer_add(answer, "grip_mm", "length that it grips", "mm",
                    1e3 * (given->value[LENGTH] - s->grip.engaged_m));
    add_ratio(answer, "tension_ratio", "bears over must bear: tension", head_n, pull_n);
    add_ratio(answer, "strip_screw_ratio", "  its own thread", hold->strip_screw_n, pull_n);
    add_ratio(answer, "strip_hole_ratio", "  the hole's thread", hold->strip_hole_n, pull_n);
    add_ratio(answer, "bearing_ratio", "  the plate under the head", hold->bearing_n, pull_n);
    add_ratio(answer, "shear_ratio", "  shear", s->shears_n,
              fmax(s->flight.shear_n, s->crash.shear_n));
    add_together(answer, "flight_ratio", "  all together in flight", s, &s->flight);
    add_together(answer, "crash_ratio", "  all together in the crash", s, &s->crash);
}

static void add_other(const set *s, bool asked, pare_answer *answer)
{
    static const struct {
        const char *key, *words;
    } rows[2][3] = {{{"half_mass_g", "with half as many: mass"},
                     {"half_flight_ratio", "  together in flight"},
                     {"half_crash_ratio", "  together in the crash"}},
                    {{"against_mass_g", "the others: mass"},
                     {"against_flight_ratio", "  together in flight"},
                     {"against_crash_ratio", "  together in the crash"}}};
    pare_answer_add(answer, rows[asked][0].key, rows[asked][0].words, "g", 1e3 * s->mass_kg);
    add_together(answer, rows[asked][1].key, rows[asked][1].words, s, &s->flight);
    add_together(answer, rows[asked][2].key, rows[asked][2].words, s, &s->crash);
}

static bool of_aluminium(const set *s)
{
    return s->material == PARE_ALUMINIUM || s->material == PARE_ALUMINIUM_7075;
}

static void add_notes(const set *first, const set *other, const key_values *given,
                      pare_answer *answer)
{
    pare_answer_note(answer, "tightened, %s", gives_way_words(first->hold.by));
    if (first->count == 1)
        pare_answer_note(answer, "one screw: never for a motor, an arm, a propeller or the pack");
    if (first->count == 2 || other->count == 2)
        pare_answer_note(answer, "two in a row have no lever across their line: the base's edge "
                                 "carries it, so look for a bent base after a crash");
    if (given->value[LENGTH] - first->grip.engaged_m < SHORT_GRIP * first->grip.thread.nominal_m)
        pare_answer_note(answer, "a grip under 3 diameters stretches little and loosens early: "
                                 "thread lock, and check it");
    if (of_aluminium(first) || of_aluminium(other))
        pare_answer_note(answer,
                         "aluminium: not again after a crash, and it corrodes on wet carbon");
}

static pare_status answer_of(const key_values *given, pare_units *units, pare_answer *answer,
                             pare_error *err)
{
    (void)units;
    set first = {.grip = {.standard = PARE_ISO4762}}, other = {0};
    const char *grade = given->given[CLASS] ? given->text[CLASS] : NULL;
    const bool asked = given->given[AGAINST];
    pare_status status = read(given, &first, &other, err);
    if (status == PARE_OK)
        status = fill_set(given, grade, &first, err);
    if (status == PARE_OK && other.count >= 1)
        status = fill_set(given, other.material == first.material ? grade : NULL, &other, err);
    if (status != PARE_OK)
        return status;
    add_set(&first, given, answer);
    if (asked || other.count >= 2)
        add_other(&other, asked, answer);
    add_notes(&first, &other, given, answer);
    return PARE_OK;
}

const calc_thing calc_joint = {"joint", sizeof keys / sizeof keys[0], keys, answer_of};
