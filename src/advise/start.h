/* start.h: a craft of one's own from what a person knows by heart.
 *
 * A few answers, each of which may be missing, become a whole craft: typical parts by the laws of the
 * trade (craft/law.h), marked estimated, that weigh together what the scale says and last in the air
 * as long as their pilot says. Read pare_start_make() first. */
#ifndef PARE_ADVISE_START_H
#define PARE_ADVISE_START_H

#include "base/text.h"
#include "craft/craft.h"

/** What it may carry, as bits. Video of no said kind: it sees, nobody said by what. */
enum {
    PARE_CARRIES_ACTION_CAMERA = 1u << 0,
    PARE_CARRIES_GPS = 1u << 1,
    PARE_CARRIES_DIGITAL_VIDEO = 1u << 2,
    PARE_CARRIES_ANALOGUE_VIDEO = 1u << 3,
    PARE_CARRIES_NO_VIDEO = 1u << 4,
    PARE_CARRIES_BUZZER = 1u << 5,
    PARE_CARRIES_BUMPERS = 1u << 6,
    PARE_CARRIES_NOTHING = 1u << 7 /* else: an answer, not a missing one */
};

/** The answers. 0 (false, NULL) in a field: not answered. */
typedef struct pare_start_answers {
    double all_up_kg; /* on the scale, as flown */
    double flown_s;   /* on the pack below */
    double propeller_m, pitch_m;
    int blades, cells;
    pare_prop_line line; /* PARE_LINE_UNKNOWN: not answered, and not guessed */
    double capacity_c;
    pare_chemistry chemistry; /* lithium-polymer where nobody says */
    double stator_diameter_m, stator_length_m, kv_rpm_per_v;
    double wheelbase_m;
    bool carries_said;
    unsigned carries;
    const pare_part *pack, *frame; /* parts of the bench, complete; they outlive the start */
} pare_start_answers;

enum { PARE_START_ITEMS = 28, PARE_START_NAME = 32 };

/** One item of the craft that was made. */
typedef struct pare_start_item {
    const pare_part *part;
    pare_part *made;   /* the same where it was made here; NULL: a part of the bench */
    double typical_kg; /* of one, by its law, before the scale was heard */
    double typical_u_kg;
} pare_start_item;

typedef struct pare_start {
    pare_craft *craft; /* settled; items in the order below */
    pare_start_item item[PARE_START_ITEMS];
    double low_kg, high_kg; /* what such a craft can weigh: each guess two sigma to one side */
    const char *guessed;    /* sizes that nobody said, for reading: "stator 22 x 7 mm, ..." */
} pare_start;

/** Whether a craft may be called so: letters, digits, '-', '_', '.', PARE_START_NAME bytes at most,
 * so that the ids of its parts ("NAME-motor") are names too. PARE_BAD_DATA otherwise. */
pare_status pare_start_name(const char *name, pare_error *err);

/** Makes the craft.
 *
 * The scale: where all_up_kg is said, the guesses are shifted by least squares, weighted by their
 * variances, until they sum to it (pare_start_weigh). Every quantity is rounded as
 * pare_start_text() writes it, so that the craft read from that text is this one.
 * The minutes: 30 % of the flight is flown hard, the rest hovered; how hard is what gives flown_s. Past
 * full throttle its share grows instead. Without flown_s the usual mix stays. A pack that nobody said
 * is guessed large enough for them.
 * @param arena  holds craft and parts
 * @return PARE_OK; PARE_BAD_DATA: a name or size that cannot be, a mass that no guess explains (with
 *         the range), minutes beyond hover or below full throttle throughout (with both numbers);
 *         PARE_UNAVAILABLE without memory */
pare_status pare_start_make(const char *name, const pare_start_answers *answers, pare_arena *arena,
                            pare_start *start, pare_error *err);

/** The craft and its parts as a bench's text, to be imported. */
void pare_start_text(const pare_start *start, pare_text *out);

/** One guess: all copies of a part. */
typedef struct pare_guess {
    double kg, u_kg; /* in: typical; out: as the scale leaves it */
    double least_kg; /* it weighs no less */
} pare_guess;

/** Shifts guesses so that they and what is known sum to a reading.
 *
 * Least squares with one constraint: each takes the share of its variance in the misfit; one that
 * would fall below its least stays there, and the others share the rest.
 * Uncertainties: given the reading, the guesses are correlated, since what one has too much another
 * has too little; a text of parts holds only an uncertainty each. Of the two ways to lose the
 * correlation we keep the sum honest, because the sum is what was measured and what limits are about:
 * each u shrinks by one factor, so that their squares and known_u_kg's make the scale's, but to no
 * less than half of that. A single part is therefore less well known than its u says, until it is
 * weighed; the order of what to weigh first is not touched.
 * @param guess       [count]
 * @param known_kg    of all else, with its uncertainty
 * @param reading_kg, reading_u_kg  the scale's
 * @return false when there is nothing to shift or not enough; guess is then untouched
 * Source: Gelb (ed.), Applied Optimal Estimation (1974), sec. 4.2, with one exact measurement. */
bool pare_start_weigh(size_t count, pare_guess guess[], double known_kg, double known_u_kg,
                      double reading_kg, double reading_u_kg);

#endif
