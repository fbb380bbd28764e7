/* start.c: from answers to a whole craft (see start.h).
 *
 * First the sizes (start_sizes.c), then one part for each thing that such a craft has, with the mass
 * its law gives and the scatter of that law, widened where the size itself was a guess; then the scale
 * (start_weigh.c), then the craft is put together and settled as one that was read from a text, and
 * last the minutes (start_flown.c).
 *
 * Nothing here claims an interface (a stack pattern, a connector) that nobody stated: what is not
 * stated never hides a swap. Grams marked [E] are our estimate for what the laws do not cover. */
#include "advise/start_inside.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/screw_length.h"
#include "craft/assemble.h"
#include "craft/law.h"

#define INCH_M 0.0254
#define MM     1e-3
#define GRAM   1e-3

/* How far a guessed size is off, as a share of the mass that follows from it. [E] */
#define STATOR_GUESS    0.25
#define PROPELLER_GUESS 0.20
#define CAPACITY_GUESS  0.25
#define ESC_GUESS       0.25

/* As the reader of a text has it where nothing is said. */
#define NOT_SAID_U_M 0.020
#define SAID_U_M     0.003
#define LANDING_LEFT 0.20
#define CRASH_M_S    15.0

/* A reading known by heart: rounded, off a kitchen scale, on some day's pack and strap. [E] */
#define SCALE_U_KG    1e-3
#define SCALE_U_SHARE 0.005

/* A pack that nobody said is guessed so large that the minutes are 0.6 of its hover at most. [E] */
#define CALM            0.6
#define STEP_C          (0.05 * 3600)
#define CAPACITY_MOST_C (99 * 3600.0)
enum { ENLARGED = 6 };

#define LEAST_OF_TYPICAL 0.25 /* no part weighs less than that share of its law. [E] */
#define SIGMAS           2.0  /* of every guess, to one side: the range that is believed */

typedef struct maker {
    const char *name;
    const pare_start_answers *answers;
    pare_start_sizes size;
    pare_arena *arena;
    pare_start *start;
    pare_error *err;
    pare_status status;
} maker;

double pare_start_round(double value, int significant)
{
    char text[40];
    snprintf(text, sizeof text, "%.*g", significant, value);
    return strtod(text, NULL);
}

pare_status pare_start_name(const char *name, pare_error *err)
{
    static const char known[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.";
    const size_t length = strlen(name);
    if (length == 0 || length > PARE_START_NAME || strchr("-_.", name[0]) ||
        strspn(name, known) != length)
        return pare_fail(err, PARE_BAD_DATA,
                         "'%.60s' is no name for a craft; right are letters, digits, '-', '_' and "
                         "'.', %d at most, a letter or digit first",
                         name, PARE_START_NAME);
    return PARE_OK;
}

/* ---- parts ---- */

static pare_value said(double value)
{
    return (pare_value){.value = value, .known = PARE_STATED, .given = true};
}

static pare_value guessed(bool guess, double value, double share)
{
    return guess ? (pare_value){value, pare_start_round(share * value, 2), PARE_ESTIMATED, true}
                 : said(value);
}

/* An item on the craft; its part is made and filled in by the caller, or lent by the bench. */
static pare_item *put_item(maker *m, const char *name, int count, bool at_arms,
                           const pare_part *lent)
{
    pare_craft *craft = m->start->craft;
    pare_item *item = &craft->item[craft->items];
    m->start->item[craft->items++] = (pare_start_item){.part = lent};
    *item = (pare_item){.name = name,
                        .part = lent,
                        .count = count,
                        .place = at_arms ? PARE_AT_ARMS : PARE_AT_DEFAULT,
                        .along_arm = at_arms ? 1 : 0,
                        .at_u_m = at_arms ? SAID_U_M : NOT_SAID_U_M,
                        .turn = pare_turn_zyx(0, 0, 0)};
    return item;
}

/* A part of the craft's own, to be completed once its mass is known. NULL: no memory, or an error
 * before. */
static pare_part *put(maker *m, const char *name, pare_kind kind, int count, bool at_arms)
{
    if (m->status != PARE_OK)
        return NULL;
    pare_part *part = pare_arena_zeros(m->arena, sizeof *part);
    const char *id = pare_arena_printf(m->arena, "%s-%s", m->name, name);
    if (!part || !id) {
        m->status = pare_no_memory(m->err);
        return NULL;
    }
    part->id = id;
    part->kind = kind;
    part->does = 1u << kind;
    pare_start_item *made = &m->start->item[m->start->craft->items];
    put_item(m, name, count, at_arms, part);
    made->made = part;
    return part;
}

/* What the last part put typically weighs. */
static void weighs(maker *m, double kg, double u_kg)
{
    if (m->status != PARE_OK)
        return;
    pare_start_item *item = &m->start->item[m->start->craft->items - 1];
    item->typical_kg = kg;
    item->typical_u_kg = u_kg;
}

/* By its law, with the scatter widened by what its sizes were guessed to. */
static void weighs_by_law(maker *m, const pare_part *part, double widened)
{
    pare_typical typical;
    if (part && pare_law_mass(part, &typical))
        weighs(m, typical.value, hypot(typical.u, widened * typical.value));
}

static void between(maker *m, double low_g, double high_g)
{
    weighs(m, GRAM * (low_g + high_g) / 2, GRAM * (high_g - low_g) / sqrt(12));
}

static void put_by_law(maker *m, const char *name, pare_kind kind, int count, bool at_arms)
{
    weighs_by_law(m, put(m, name, kind, count, at_arms), 0);
}

static void put_frame(maker *m)
{
    if (m->answers->frame) {
        put_item(m, "frame", 1, false, m->answers->frame);
        return;
    }
    const double propeller_m = m->size.propeller_m;
    pare_part *part = put(m, "frame", PARE_FRAME, 1, false);
    if (!part)
        return;
    part->spec[PARE_SPEC_WHEELBASE] = guessed(m->size.wheelbase_guessed, m->size.wheelbase_m, 0.06);
    pare_fit *fit = &part->fit[PARE_FIT_PROPELLER];
    fit->count = 1;
    fit->any[0].low = INCH_M / 10 * floor(8 * propeller_m / INCH_M);
    fit->any[0].high = INCH_M / 10 * ceil(10.1 * propeller_m / INCH_M);
    const pare_typical typical = pare_law_frame_kg(propeller_m, 1);
    weighs(m, typical.value, typical.u);
}

static void put_drive(maker *m)
{
    const pare_start_sizes *s = &m->size;
    pare_part *motor = put(m, "motor", PARE_MOTOR, 4, true);
    if (motor) {
        motor->spec[PARE_SPEC_STATOR_DIAMETER] = said(s->stator_diameter_m);
        motor->spec[PARE_SPEC_STATOR_LENGTH] = said(s->stator_length_m);
        motor->spec[PARE_SPEC_KV] = guessed(s->kv_guessed, s->kv_rpm_per_v, 0.15);
        weighs_by_law(m, motor, s->stator_guessed ? STATOR_GUESS : 0);
    }
    pare_part *propeller = put(m, "propeller", PARE_PROPELLER, 4, true);
    if (propeller) {
        propeller->spec[PARE_SPEC_DIAMETER] = guessed(s->propeller_guessed, s->propeller_m, 0.05);
        propeller->spec[PARE_SPEC_PITCH] = guessed(s->pitch_guessed, s->pitch_m, 0.15);
        propeller->spec[PARE_SPEC_BLADES] = said(s->blades);
        propeller->line = s->line;
        weighs_by_law(m, propeller, s->propeller_guessed ? PROPELLER_GUESS : 0);
    }
    if (s->propeller_m >= 4 * INCH_M)
        put_by_law(m, "nut", PARE_PROPELLER_NUT, 4, true);
}

/* Small craft have one board, others a board for each. */
static void put_boards(maker *m)
{
    const pare_value amps = guessed(true, m->size.esc_a, ESC_GUESS);
    if (m->size.propeller_m < 3.8 * INCH_M) {
        pare_part *board = put(m, "board", PARE_CONTROLLER_WITH_ESC, 1, false);
        if (board) {
            board->does |=
                1u << PARE_FLIGHT_CONTROLLER | 1u << PARE_ESC_FOUR | 1u << PARE_REGULATOR;
            board->spec[PARE_SPEC_CONTINUOUS] = amps;
        }
        weighs_by_law(m, board, ESC_GUESS);
        return;
    }
    pare_part *esc = put(m, "esc", PARE_ESC_FOUR, 1, false);
    if (esc)
        esc->spec[PARE_SPEC_CONTINUOUS] = amps;
    weighs_by_law(m, esc, ESC_GUESS);
    pare_part *brain = put(m, "brain", PARE_FLIGHT_CONTROLLER, 1, false);
    if (brain)
        brain->does |= 1u << PARE_REGULATOR;
    weighs_by_law(m, brain, 0);
    pare_part *capacitor = put(m, "capacitor", PARE_CAPACITOR, 1, false);
    if (capacitor)
        capacitor->spec[PARE_SPEC_VOLTS_HIGH] = said(m->size.cells <= 6 ? 35 : 63);
    weighs_by_law(m, capacitor, 0);
}

static void put_pack(maker *m)
{
    const pare_start_sizes *s = &m->size;
    if (m->answers->pack) {
        put_item(m, "pack", 1, false, m->answers->pack);
        return;
    }
    pare_part *pack = put(m, "pack", PARE_PACK, 1, false);
    if (!pack)
        return;
    pack->chemistry = m->answers->chemistry;
    pack->spec[PARE_SPEC_CELLS] = said(s->cells);
    pack->spec[PARE_SPEC_CAPACITY] = guessed(s->capacity_guessed, s->capacity_c, CAPACITY_GUESS);
    weighs_by_law(m, pack, s->capacity_guessed ? CAPACITY_GUESS : 0);
}

static void put_video(maker *m, bool large)
{
    const unsigned carries = m->answers->carries;
    if (carries & (PARE_CARRIES_NO_VIDEO | PARE_CARRIES_NOTHING))
        return;
    if (carries & PARE_CARRIES_ANALOGUE_VIDEO) {
        put(m, "camera", PARE_CAMERA, 1, false);
        between(m, large ? 4 : 1.5, large ? 11 : 4);
        put_by_law(m, "video", PARE_VIDEO_TRANSMITTER, 1, false);
    } else {
        pare_part *video = put(m, "video", PARE_VIDEO_TRANSMITTER, 1, false);
        if (video)
            video->does |= 1u << PARE_CAMERA;
        if (carries & PARE_CARRIES_DIGITAL_VIDEO)
            between(m, 17, large ? 45 : 28);
        else
            between(m, large ? 8 : 5, large ? 45 : 28); /* of whichever kind */
    }
    put_by_law(m, "antenna", PARE_ANTENNA, 1, false);
}

static void put_carried(maker *m, bool large)
{
    const unsigned carries = m->answers->carries;
    const double discs = m->size.propeller_m * m->size.propeller_m / (5.1 * 5.1 * INCH_M * INCH_M);
    put_video(m, large);
    if (carries & PARE_CARRIES_ACTION_CAMERA) {
        put_by_law(m, "action_camera", PARE_ACTION_CAMERA, 1, false);
        put_by_law(m, "holder", PARE_HOLDER, 1, false);
    }
    if (carries & PARE_CARRIES_GPS)
        put_by_law(m, "gps", PARE_GPS, 1, false);
    if (carries & PARE_CARRIES_BUZZER)
        put_by_law(m, "buzzer", PARE_BUZZER, 1, false);
    if (carries & PARE_CARRIES_BUMPERS)
        put_by_law(m, "bumper", PARE_BUMPER, 4, true);
    if (!m->answers->carries_said) {
        put(m, "carried", PARE_OTHER, 1, false);
        weighs(m, GRAM * 30 * discs, GRAM * 35 * discs); /* [E] whatever nobody asked for */
    }
}

static void put_small_things(maker *m, bool large)
{
    const double fifths = fmin(m->size.propeller_m / (5.1 * INCH_M), 2);
    put_by_law(m, "receiver", PARE_RECEIVER, 1, false);
    put(m, "connector", PARE_CONNECTOR, 1, false);
    weighs(m, GRAM * (large ? 3.5 : 1.25), GRAM * (large ? 0.9 : 0.3)); /* half a pair */
    put(m, "strap", PARE_STRAP, 1, false);
    between(m, large ? 4 : 1, large ? 9 : 4);
    put(m, "solder", PARE_OTHER, 1, false); /* with heat-shrink, ties, pad */
    between(m, 6 * fifths, 18 * fifths);
}

/* ---- joints, wire, brief ---- */

static pare_joint screws(const char *name, const char *thread, double length_m, int count,
                         const char *holds)
{
    pare_joint joint = {.name = name,
                        .standard = PARE_ISO4762,
                        .length_m = length_m,
                        .material = PARE_STEEL,
                        .count = count,
                        .holds = holds};
    const pare_status status = pare_thread_named(thread, &joint.thread, NULL);
    (void)status; /* M2 and M3 are threads */
    return joint;
}

/* Motor screws go through the usual frame's arm (body of craft/part_shape.c: 5 mm on a wheelbase of
 * 222.5 mm) and a full nut's thread on, no more: what is under a usual stator is 3 to 5 mm deep. */
static void put_joints_and_wire(maker *m, bool large)
{
    pare_craft *craft = m->start->craft;
    const double arm_m = 5e-3 * m->size.wheelbase_m / 0.2225;
    const bool thick = m->size.propeller_m >= 4.5 * INCH_M;
    pare_joint *base = &craft->joint[craft->joints++];
    *base = screws("motor_base", thick ? "M3" : "M2", 0, 16, "motor");
    base->length_m = pare_screw_standard_m(arm_m + pare_joint_least_m(base));
    craft->joint[craft->joints++] = screws("stack", thick ? "M3" : "M2", thick ? 25e-3 : 16e-3, 4,
                                           m->size.propeller_m < 3.8 * INCH_M ? "board" : "esc");
    const double way_m = large ? 100e-3 : 60e-3;
    craft->run[craft->runs++] = (pare_run){.name = "lead",
                                           .gauge = !large               ? 18
                                                    : m->size.cells <= 4 ? 12
                                                                         : 14,
                                           .ways = 2,
                                           .times = 1,
                                           .way_m = {way_m, way_m},
                                           .carries = "pack"};
}

static void put_brief(maker *m)
{
    pare_brief *brief = &m->start->craft->brief;
    brief->landing.charge = LANDING_LEFT;
    brief->crash_speed_m_s = CRASH_M_S;
    brief->keep = 1u << PARE_FLIES | 1u << PARE_HOLDS;
    for (size_t i = 0; i < m->start->craft->items; i++) {
        const pare_job job = m->start->craft->item[i].job;
        if (job == PARE_SEES || job == PARE_FILMS || job == PARE_FINDS)
            brief->keep |= 1u << job;
    }
}

/* ---- the scale ---- */

typedef struct guesses {
    size_t count, of[PARE_START_ITEMS]; /* which items */
    pare_guess guess[PARE_START_ITEMS];
    double known_kg, known_variance; /* of all else: parts of the bench, screws, wire */
} guesses;

static guesses gather(const maker *m)
{
    const pare_craft *craft = m->start->craft;
    guesses g = {0};
    for (size_t i = 0; i < craft->items; i++) {
        const pare_start_item *item = &m->start->item[i];
        const int count = craft->item[i].count;
        if (item->made) {
            g.of[g.count] = i;
            g.guess[g.count++] =
                (pare_guess){.kg = count * item->typical_kg,
                             .u_kg = count * item->typical_u_kg,
                             .least_kg = LEAST_OF_TYPICAL * count * item->typical_kg};
        } else {
            const double u_kg = count * item->part->mass_kg.u;
            g.known_kg += count * item->part->mass_kg.value;
            g.known_variance += u_kg * u_kg;
        }
    }
    /* Screws and wire by geometry: 4 and 6 % (craft/assemble.c). */
    for (size_t i = 0; i < craft->joints; i++) {
        double kg = 0;
        if (pare_joint_kg(&craft->joint[i], &kg, NULL) == PARE_OK)
            g.known_kg += kg;
        g.known_variance += 0.04 * kg * 0.04 * kg;
    }
    for (size_t i = 0; i < craft->runs; i++) {
        const double kg = pare_run_kg(&craft->run[i]);
        g.known_kg += kg;
        g.known_variance += 0.06 * kg * 0.06 * kg;
    }
    return g;
}

static void find_range(pare_start *start, const guesses *g)
{
    const double known_u_kg = sqrt(g->known_variance);
    start->low_kg = g->known_kg - SIGMAS * known_u_kg;
    start->high_kg = g->known_kg + SIGMAS * known_u_kg;
    for (size_t i = 0; i < g->count; i++) {
        const pare_guess *guess = &g->guess[i];
        start->low_kg += fmax(guess->kg - SIGMAS * guess->u_kg, guess->least_kg);
        start->high_kg += guess->kg + SIGMAS * guess->u_kg;
    }
}

static pare_status hear_scale(maker *m, guesses *g)
{
    const double reading_kg = m->answers->all_up_kg;
    const double scale_u_kg = fmax(SCALE_U_KG, SCALE_U_SHARE * reading_kg);
    if (!(reading_kg > 0))
        return PARE_OK;
    if (reading_kg < m->start->low_kg || reading_kg > m->start->high_kg ||
        !pare_start_weigh(g->count, g->guess, g->known_kg, sqrt(g->known_variance), reading_kg,
                          scale_u_kg))
        return pare_fail(m->err, PARE_BAD_DATA,
                         "%.4g g all-up is no guess away: parts of the sizes said weigh %.3g .. "
                         "%.3g g together; check the reading, or say other sizes or more of what "
                         "it carries",
                         reading_kg / GRAM, m->start->low_kg / GRAM, m->start->high_kg / GRAM);
    return PARE_OK;
}

/* Hundredths of a gram; four digits of what is lighter than one. */
static double rounded_kg(double kg)
{
    const double g = kg / GRAM;
    return GRAM * (g < 1 ? pare_start_round(g, 4) : round(100 * g) / 100);
}

/* Masses as they are written. What rounding leaves over goes to the heaviest that stands alone. */
static void put_masses(maker *m, const guesses *g)
{
    pare_part *heaviest = NULL;
    double rest_kg = 0;
    for (size_t i = 0; i < g->count; i++) {
        pare_part *part = m->start->item[g->of[i]].made;
        const int count = m->start->craft->item[g->of[i]].count;
        part->mass_kg = (pare_value){rounded_kg(g->guess[i].kg / count),
                                     GRAM * pare_start_round(g->guess[i].u_kg / count / GRAM, 2),
                                     PARE_ESTIMATED, true};
        rest_kg += g->guess[i].kg - count * part->mass_kg.value;
        if (count == 1 && (!heaviest || part->mass_kg.value > heaviest->mass_kg.value))
            heaviest = part;
    }
    if (heaviest)
        heaviest->mass_kg.value =
            GRAM * pare_start_round((heaviest->mass_kg.value + rest_kg) / GRAM, 6);
}

/* ---- the whole ---- */

static void list_guessed(maker *m)
{
    const pare_start_sizes *s = &m->size;
    pare_text text = {0};
    if (s->propeller_guessed)
        pare_text_printf(&text, ", propeller %.3g in", s->propeller_m / INCH_M);
    if (s->pitch_guessed)
        pare_text_printf(&text, ", pitch %.3g in", s->pitch_m / INCH_M);
    if (s->blades_guessed)
        pare_text_printf(&text, ", %d blades", s->blades);
    if (s->cells_guessed)
        pare_text_printf(&text, ", %d cells", s->cells);
    if (s->capacity_guessed)
        pare_text_printf(&text, ", %.0f mAh", s->capacity_c / 3.6);
    if (s->stator_guessed)
        pare_text_printf(&text, ", stator %.3g x %.3g mm", s->stator_diameter_m / MM,
                         s->stator_length_m / MM);
    if (s->kv_guessed)
        pare_text_printf(&text, ", %.4g rpm/V", s->kv_rpm_per_v);
    if (s->wheelbase_guessed)
        pare_text_printf(&text, ", wheelbase %.4g mm", s->wheelbase_m / MM);
    pare_text_printf(&text, ", ESC %.3g A", s->esc_a);
    m->start->guessed = text.failed ? NULL : pare_arena_text(m->arena, text.bytes + 2);
    if (!m->start->guessed && m->status == PARE_OK)
        m->status = pare_no_memory(m->err);
    pare_text_free(&text);
}

static pare_status complete(maker *m)
{
    pare_craft *craft = m->start->craft;
    for (size_t i = 0; i < craft->items; i++) {
        pare_part *part = m->start->item[i].made;
        if (!part)
            continue;
        const pare_status status = pare_part_complete(part, m->arena, m->err);
        if (status != PARE_OK)
            return pare_within(m->err, "%s", craft->item[i].name);
        if (part->kind != PARE_PROPELLER)
            continue;
        pare_prop_table *table = pare_arena_zeros(m->arena, sizeof *table);
        if (!table)
            return pare_no_memory(m->err);
        pare_prop_table_build(part->blade, table);
        part->table = table;
    }
    return pare_craft_settle(craft, m->err);
}

static void put_all(maker *m)
{
    const bool large = m->size.propeller_m >= 4 * INCH_M;
    put_frame(m);
    put_drive(m);
    put_boards(m);
    put_pack(m);
    put_small_things(m, large);
    put_carried(m, large);
    put_joints_and_wire(m, large);
    pare_craft *craft = m->start->craft;
    for (size_t i = 0; i < craft->items; i++)
        craft->item[i].job = pare_kind_job(craft->item[i].part->kind);
    put_brief(m);
    list_guessed(m);
}

static pare_status check_frame(const pare_part *frame, pare_error *err)
{
    for (size_t i = 0; frame && i < frame->pieces; i++)
        if (frame->piece[i].form == PARE_FORM_ARMS && frame->piece[i].places != 4)
            return pare_fail(err, PARE_BAD_DATA,
                             "frame '%s' has %zu arms; a start is made with 4, others by import",
                             frame->id, frame->piece[i].places);
    return PARE_OK;
}

/* All but the minutes. @param[in,out] capacity_c  of a pack that nobody said; 0: the usual one, which
 * is put there */
static pare_status put_together(const char *name, const pare_start_answers *answers,
                                double *capacity_c, pare_arena *arena, pare_start *start,
                                pare_error *err)
{
    *start = (pare_start){.craft = pare_arena_zeros(arena, sizeof *start->craft)};
    maker m = {.name = name,
               .answers = answers,
               .size = pare_start_guess_sizes(answers),
               .arena = arena,
               .start = start,
               .err = err};
    if (!start->craft)
        return pare_no_memory(err);
    if (*capacity_c > 0)
        m.size.capacity_c = *capacity_c;
    *capacity_c = m.size.capacity_c;
    start->craft->name = pare_arena_text(arena, name);
    if (!start->craft->name)
        return pare_no_memory(err);
    put_all(&m);
    if (m.status != PARE_OK)
        return m.status;
    guesses g = gather(&m);
    find_range(start, &g);
    const pare_status status = hear_scale(&m, &g);
    if (status != PARE_OK)
        return status;
    put_masses(&m, &g);
    return complete(&m);
}

/* Minutes beyond what the usual pack lasts speak of a larger one. A larger pack weighs more, so that
 * a step may fall short of what it was made for; where none reaches, the usual pack stays. */
static pare_status enlarge(const char *name, const pare_start_answers *answers, double capacity_c,
                           pare_arena *arena, pare_start *start, pare_error *err)
{
    pare_start larger = *start;
    for (int i = 0; i < ENLARGED; i++) {
        double hover_s = 0;
        pare_error why = {0};
        pare_status status = pare_start_hover(larger.craft, &hover_s, arena, err);
        if (status != PARE_OK || !(hover_s > 0))
            return status;
        if (answers->flown_s <= CALM * hover_s) {
            *start = larger;
            return PARE_OK;
        }
        capacity_c *= answers->flown_s / (CALM * hover_s);
        capacity_c = STEP_C * ceil(capacity_c / STEP_C - 1e-9);
        if (capacity_c > CAPACITY_MOST_C)
            return PARE_OK;
        status = put_together(name, answers, &capacity_c, arena, &larger, &why);
        if (status == PARE_UNAVAILABLE)
            return pare_fail(err, status, "%s", why.text);
        if (status != PARE_OK)
            return PARE_OK; /* heavier than the scale allows */
    }
    return PARE_OK;
}

pare_status pare_start_make(const char *name, const pare_start_answers *answers, pare_arena *arena,
                            pare_start *start, pare_error *err)
{
    double capacity_c = 0;
    pare_status status = pare_start_name(name, err);
    if (status == PARE_OK)
        status = check_frame(answers->frame, err);
    if (status == PARE_OK)
        status = put_together(name, answers, &capacity_c, arena, start, err);
    if (status == PARE_OK && answers->flown_s > 0 && !answers->pack && !(answers->capacity_c > 0))
        status = enlarge(name, answers, capacity_c, arena, start, err);
    if (status == PARE_OK && answers->flown_s > 0)
        status = pare_start_flown(start->craft, answers->flown_s, arena, err);
    return status;
}
