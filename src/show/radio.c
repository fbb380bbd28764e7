/* radio.c: what a craft's antenna chains lose (see radio.h). */
#include "show/radio.h"

#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "show/digits.h"
#include "show/json.h"

#define DB_WORTH 0.05 /* a smaller doubt is not worth a word */

/* The chain before that fed the same transmitter. */
static const pare_radio *before(const pare_sheet_view *view, const pare_radio *radio)
{
    for (size_t i = 0; i < view->radios_before; i++)
        if (pare_same_name(view->radio_before[i].transmitter, radio->transmitter))
            return &view->radio_before[i];
    return NULL;
}

/* "1.00 times as far (0 dB)" would leave the reader to find that nothing changed. */
static void change_words(const pare_radio_change *change, const pare_screen *screen,
                         pare_text *line)
{
    const bool same = pare_radio_same_range(change);
    char text[PARE_DIGITS];
    if (same) {
        pare_text_add(line, "as far in free space as before");
        if (change->net_u_db >= DB_WORTH)
            pare_text_printf(line, " (%s dB)", pare_digits_u(text, screen, 0, change->net_u_db));
    } else {
        pare_text_printf(line, "%s times as far in free space as before (",
                         pare_digits_u(text, screen, change->range, fmax(change->range_u, 0.01)));
        pare_text_printf(line, "%s dB)", pare_digits_change(text, change->net_db, 2, 1));
    }
    if (change->turned_db > 0)
        pare_text_printf(
            line,
            ", %s %s dB are lost to the other hand: with an antenna of its hand on the "
            "ground they are not",
            same ? "though" : "of which", pare_digits_at(text, change->turned_db, 0));
}

void pare_radio_lines(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    for (size_t i = 0; i < view->radios; i++) {
        const pare_radio *then = before(view, &view->radio[i]);
        if (!then)
            continue;
        const pare_radio_change change = pare_radio_against(&view->radio[i], then);
        if (change.net_db == 0 && then->part == view->radio[i].part)
            continue;
        pare_text line = {0};
        pare_text_printf(&line, "%s carries ", view->radio[i].transmitter);
        change_words(&change, screen, &line);
        pare_text_add(&line, "; never power a transmitter without its antenna");
        pare_put_labelled_line(screen, out, "radio", &line);
    }
}

static void chain_words(const pare_radio *radio, const pare_screen *screen, pare_text *line)
{
    char text[PARE_DIGITS], other[PARE_DIGITS];
    pare_text_printf(line, "%s to %s at %s GHz%s: loses ", radio->transmitter, radio->antenna,
                     pare_digits_limit(text, 1e-9 * radio->band_hz),
                     radio->band_given ? "" : " (not stated: the usual)");
    pare_text_printf(line, "%s dB",
                     pare_digits_u(text, screen, radio->loss_db, fmax(radio->loss_u_db, 0.05)));
    pare_text_printf(line, " (cable %s", pare_digits_at(text, radio->cable_db, 1));
    if (radio->stated_db > 0)
        pare_text_printf(line, ", stated %s", pare_digits_at(text, radio->stated_db, 1));
    if (radio->pairs > 0)
        pare_text_printf(line, ", connectors %s", pare_digits_at(text, radio->pairs_db, 1));
    pare_text_printf(line, "), which leaves %s of the free-space range",
                     pare_digits_at(other, pare_radio_range_left(radio), 2));
    if (radio->gain_given)
        pare_text_printf(line, "; antenna gain %s dB", pare_digits_limit(text, radio->gain_db));
    else
        pare_text_add(line, "; its gain is not stated");
    for (size_t i = 0; i < radio->links; i++)
        if (!radio->link[i].known)
            pare_text_printf(line, "; %s states neither cable nor loss", radio->link[i].item);
    pare_text_add(line, ". ");
}

void pare_radio_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    if (view->radios == 0)
        return;
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "Radio");
    for (size_t i = 0; i < view->radios; i++) {
        const pare_radio *radio = &view->radio[i], *then = before(view, radio);
        pare_text line = {0};
        chain_words(radio, screen, &line);
        if (then) {
            const pare_radio_change change = pare_radio_against(radio, then);
            pare_text_add(&line, "It carries ");
            change_words(&change, screen, &line);
            pare_text_add(&line, ". ");
        }
        if (i + 1 == view->radios)
            pare_text_add(&line, "A line heard by a circular antenna loses 3 dB, the wrong hand 15 "
                                 "to 20. Never power a transmitter without its antenna: it burns "
                                 "out.");
        pare_put_line(screen, out, 2, 2, &line);
    }
}

json_t *pare_radio_json(const pare_sheet_view *view)
{
    json_t *list = json_array();
    for (size_t i = 0; i < view->radios; i++) {
        const pare_radio *radio = &view->radio[i], *then = before(view, radio);
        json_t *one = json_object();
        json_object_set_new(one, "transmitter", json_string(radio->transmitter));
        json_object_set_new(one, "antenna", json_string(radio->antenna));
        json_object_set_new(one, "hand", json_string(pare_hand_names[radio->part->hand]));
        const struct {
            const char *key;
            double value;
        } rows[] = {{"band_ghz", 1e-9 * radio->band_hz},
                    {"cable_db", radio->cable_db},
                    {"stated_db", radio->stated_db},
                    {"connectors_db", radio->pairs_db},
                    {"loss_db", radio->loss_db},
                    {"loss_db_u", radio->loss_u_db},
                    {"range_left", pare_radio_range_left(radio)},
                    {"gain_db", radio->gain_given ? radio->gain_db : (double)NAN}};
        for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++)
            json_object_set_new(one, rows[k].key, pare_json_number(rows[k].value));
        if (then) {
            const pare_radio_change change = pare_radio_against(radio, then);
            json_object_set_new(one, "change_db", pare_json_number(change.net_db));
            json_object_set_new(one, "change_db_u", pare_json_number(change.net_u_db));
            json_object_set_new(one, "polarisation_db", pare_json_number(change.turned_db));
            json_object_set_new(one, "range_ratio", pare_json_number(change.range));
            json_object_set_new(one, "range_ratio_u", pare_json_number(change.range_u));
        }
        json_array_append_new(list, one);
    }
    return list;
}
