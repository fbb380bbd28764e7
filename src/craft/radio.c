/* radio.c: antenna chains as decibels (see radio.h).
 *
 * Cable by its length and kind, connectors by their number where no link states a loss of its own, gain as
 * stated. In free space a decibel is a decibel: 20 dB are ten times the range; behind trees or walls more is
 * needed and none of that is here. What two chains share is off alike in both and cancels. */
#include "craft/radio.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "physics/coax.h"

#define USUAL_BAND_HZ 5.8e9
#define PAIR_DB       0.1 /* a mated pair in good order; common practice, no source */
#define PAIR_U_DB     0.1
#define CABLE_U       0.10 /* coax.h */
#define STATED_U_DB   0.1
#define GAIN_U_DB     0.5 /* stated gains are seldom measured on the craft; estimate */
#define NO_GAIN_U_DB  2.0
#define SAME_DB       0.05

static double length_m(const pare_item *item)
{
    return item->cut_length_m > 0 ? item->cut_length_m : item->part->spec[PARE_SPEC_LENGTH].value;
}

static bool soldered(const pare_item *item)
{
    const pare_fit *fit = &item->part->fit[PARE_FIT_ANTENNA];
    return fit->count > 0 && fit->any[0].word && pare_same_name(fit->any[0].word, "solder");
}

static void add_link(const pare_item *item, pare_radio *radio)
{
    pare_radio_link *link = &radio->link[radio->links++];
    const pare_value *loss = &item->part->spec[PARE_SPEC_LOSS];
    double db_per_m = 0;
    *link = (pare_radio_link){.item = item->name};
    if (item->part->cable && length_m(item) > 0 &&
        pare_coax_db_per_m(item->part->cable, radio->band_hz, &db_per_m, NULL) == PARE_OK) {
        link->cable_db = db_per_m * length_m(item);
        link->known = true;
    }
    if (loss->given) {
        link->stated_db = loss->value;
        link->known = true;
    } else if (!soldered(item)) {
        radio->pairs++;
    }
    radio->cable_db += link->cable_db;
    radio->stated_db += link->stated_db;
}

static bool chain_of(const pare_craft *craft, const pare_item *antenna, pare_radio *radio)
{
    if (antenna->off || antenna->part->kind != PARE_ANTENNA || antenna->feeds == 0)
        return false;
    const int at = pare_craft_item(craft, antenna->feed[0]);
    if (at < 0 || craft->item[at].off)
        return false;
    const pare_part *transmitter = craft->item[at].part;
    const pare_value *band = &antenna->part->spec[PARE_SPEC_BAND],
                     *other = &transmitter->spec[PARE_SPEC_BAND];
    *radio = (pare_radio){.antenna = antenna->name,
                          .transmitter = craft->item[at].name,
                          .part = antenna->part,
                          .band_given = band->given || other->given,
                          .band_hz = band->given    ? band->value
                                     : other->given ? other->value
                                                    : USUAL_BAND_HZ};
    for (size_t k = 1; k < antenna->feeds; k++) {
        const int link = pare_craft_item(craft, antenna->feed[k]);
        if (link >= 0 && !craft->item[link].off)
            add_link(&craft->item[link], radio);
    }
    add_link(antenna, radio);
    const pare_value *gain = &antenna->part->spec[PARE_SPEC_GAIN];
    radio->gain_given = gain->given;
    radio->gain_db = gain->given ? gain->value : 0;
    radio->gain_u_db = gain->given ? fmax(gain->u, GAIN_U_DB) : NO_GAIN_U_DB;
    radio->pairs_db = PAIR_DB * radio->pairs;
    radio->loss_db = radio->cable_db + radio->stated_db + radio->pairs_db;
    radio->loss_u_db = hypot(hypot(CABLE_U * radio->cable_db, PAIR_U_DB * radio->pairs),
                             radio->stated_db > 0 ? STATED_U_DB : 0);
    return true;
}

size_t pare_craft_radios(const pare_craft *craft, size_t most, pare_radio radio[])
{
    size_t found = 0;
    for (size_t i = 0; i < craft->items && found < most; i++)
        if (chain_of(craft, &craft->item[i], &radio[found]))
            found++;
    return found;
}

static pare_hand hand_of(const pare_part *antenna)
{
    return antenna->hand == PARE_HANDED_LINEAR  ? PARE_HAND_LINEAR
           : antenna->hand == PARE_HANDED_RIGHT ? PARE_HAND_RIGHT
                                                : PARE_HAND_LEFT;
}

pare_radio_change pare_radio_against(const pare_radio *now, const pare_radio *then)
{
    const bool same_antenna = now->part == then->part;
    const double turned_db = pare_polarisation_db(hand_of(now->part), hand_of(then->part));
    const double gains_u = same_antenna ? 0 : hypot(now->gain_u_db, then->gain_u_db);
    const double stated_u = now->stated_db == then->stated_db ? 0 : STATED_U_DB;
    pare_radio_change change = {
        .net_db = now->gain_db - now->loss_db - then->gain_db + then->loss_db - turned_db,
        .net_u_db =
            hypot(hypot(gains_u, stated_u), hypot(CABLE_U * (now->cable_db - then->cable_db),
                                                  PAIR_U_DB * (now->pairs - then->pairs))),
        .turned_db = turned_db};
    /* Between opposite hands 15 to 20 dB are lost, and the tilt of a craft changes the 3 of a line. */
    if (turned_db > 0)
        change.net_u_db = hypot(change.net_u_db, turned_db > 10 ? 1.5 : 0.5);
    change.range = pare_range_share(-change.net_db);
    change.range_u = change.range * change.net_u_db * log(10) / 20;
    return change;
}

bool pare_radio_same_range(const pare_radio_change *change)
{
    return fabs(change->net_db) < SAME_DB;
}

double pare_radio_range_left(const pare_radio *radio)
{
    return pare_range_share(radio->loss_db);
}
