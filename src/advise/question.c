/* question.c: what a swap leaves for a person to see to (see question.h). */
#include "advise/question.h"

#include <math.h>

#include "advise/cells.h"
#include "advise/screw_length.h"
#include "base/text.h"
#include "craft/law.h"
#include "craft/radio.h"

#define BOAST_SIGMAS 3.0 /* below the kind's law: one honest part in a thousand */

/* How far a frame's plates and bodies reach, forward and back. */
static bool plates_reach(const pare_part *frame, double *low_m, double *high_m)
{
    bool any = false;
    for (size_t i = 0; i < frame->pieces; i++) {
        const pare_piece *piece = &frame->piece[i];
        for (size_t k = 0; piece->form != PARE_FORM_ARMS && k < piece->places; k++) {
            const double half_m = piece->measured ? (piece->mesh.high_m.x - piece->mesh.low_m.x) / 2
                                                  : piece->size_m[0] / 2;
            const double x = piece->at_m ? piece->at_m[k].x : 0;
            *low_m = any ? fmin(*low_m, x - half_m) : x - half_m;
            *high_m = any ? fmax(*high_m, x + half_m) : x + half_m;
            any = true;
        }
    }
    return any;
}

static void question_stations(pare_edit *edit, const pare_part *frame)
{
    double low_m = 0, high_m = 0;
    if (!plates_reach(frame, &low_m, &high_m))
        return;
    for (size_t i = 0; i < edit->craft->items; i++) {
        const pare_item *item = &edit->craft->item[i];
        if (item->off || item->place != PARE_AT_POINTS || item->part == frame ||
            item->part->kind == PARE_ANTENNA)
            continue;
        const double x = item->at_m[0].x;
        const double out_m = x > high_m ? x - high_m : low_m - x;
        if (out_m > 0)
            pare_edit_note(edit, "%s stays where it was, %.0f mm beyond '%s': move it", item->name,
                           1e3 * out_m, frame->id);
    }
}

/* A mass that no part of the kind has. @param[out] law  what its like have */
static bool is_boast(const pare_part *part, pare_typical *law)
{
    return part->mass_kg.known == PARE_STATED && pare_law_mass(part, law) &&
           part->mass_kg.value < law->value - BOAST_SIGMAS * law->u;
}

/* The ESC's spikes are for whoever flew it with the one of before. */
static bool is_smaller_capacitor(const pare_part *part, const pare_part *old)
{
    return part->kind == PARE_CAPACITOR &&
           part->spec[PARE_SPEC_CAPACITANCE].value < old->spec[PARE_SPEC_CAPACITANCE].value;
}

bool pare_is_questioned(const pare_part *part, const pare_part *old)
{
    pare_typical law;
    return is_boast(part, &law) || is_smaller_capacitor(part, old);
}

static void question_mass(pare_edit *edit, const pare_part *part)
{
    pare_typical law;
    if (!is_boast(part, &law))
        return;
    pare_edit_warn(edit,
                   "'%s' is said to weigh %.3g g where its like weigh about %.3g g: weigh one",
                   part->id, 1e3 * part->mass_kg.value, 1e3 * law.value);
}

/* Chains are few, and their transmitters keep their item's name. The same range is not worth a word. */
void pare_question_radio(pare_edit *edit)
{
    pare_radio now[PARE_RADIOS], then[PARE_RADIOS];
    const size_t count = pare_craft_radios(edit->craft, PARE_RADIOS, now);
    const size_t were = pare_craft_radios(edit->before, PARE_RADIOS, then);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < were; k++) {
            if (!pare_same_name(now[i].transmitter, then[k].transmitter))
                continue;
            const pare_radio_change change = pare_radio_against(&now[i], &then[k]);
            if (!pare_radio_same_range(&change))
                pare_edit_note(edit, "%s reaches %.2f times as far in free space (%+.1f dB)%s",
                               now[i].transmitter, change.range, change.net_db,
                               change.turned_db > 0 ? ", heard by the antenna of before" : "");
        }
}

pare_status pare_question(pare_edit *edit, size_t index, const pare_part *old, pare_error *err)
{
    const pare_item *item = &edit->craft->item[index];
    question_mass(edit, item->part);
    if (item->part->kind == PARE_MOTOR || item->part->kind == PARE_FRAME)
        pare_screw_lengths_question(edit);
    if (item->part->kind == PARE_FRAME && !item->part->sought)
        question_stations(edit, item->part);
    if (edit->applied->radio)
        pare_question_radio(edit);
    if (item->part->kind == PARE_ANTENNA && item->part->hand != old->hand)
        pare_edit_note(edit, "the antenna on the ground must be of the same hand as '%s'",
                       item->part->id);
    if (is_smaller_capacitor(item->part, old))
        pare_edit_warn(edit, "a smaller capacitor leaves the ESC more of its voltage spikes");
    return item->part->kind == PARE_PACK ? pare_cells_question(edit, item->part, old, err)
                                         : pare_rating_question(edit, index, err);
}

void pare_question_sought(pare_edit *edit, const pare_item *item, const pare_part *old)
{
    const pare_value *wish = &item->part->mass_kg, *now = &old->mass_kg;
    const char *what =
        item->part->kind == PARE_MOTOR ? "stator" : pare_kind_words(item->part->kind);
    const double saves_g = 1e3 * item->count * (now->value - wish->value);
    const double unsure_g = 1e3 * item->count * hypot(wish->u, now->u);
    pare_edit_note(edit, "look for this %s at %.4g g or less: saves %.*f g, unsure by %.*f g", what,
                   1e3 * wish->value, saves_g < 10, saves_g, unsure_g < 10, unsure_g);
}
