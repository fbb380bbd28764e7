/* rated.c: volts (see rated.h).
 *
 * What hangs on the pack must take a full one. A transmitter or camera may hang on a regulator
 * instead; which of the two is not written down, so either is good enough. */
#include "advise/rated.h"

#include <math.h>

#include "advise/stand_in.h"

#define BIT(kind) (1u << (kind))

double pare_full_v(const pare_part *pack)
{
    return pack->spec[PARE_SPEC_CELLS].value * pare_chemistry_full_v(pack->chemistry);
}

pare_rated pare_volts_rated(const pare_part *part, const pare_part *pack)
{
    const double full_v = pare_full_v(pack);
    const double high_v = part->spec[PARE_SPEC_VOLTS_HIGH].value;
    const double low_v = part->spec[PARE_SPEC_VOLTS_LOW].value;
    const pare_fit *cells = &part->fit[PARE_FIT_CELLS];
    const double own = pack->spec[PARE_SPEC_CELLS].value;
    if (high_v > 0 && full_v > high_v * (1 + 1e-9))
        return PARE_RATED_HIGH;
    if (low_v > 0 && full_v < low_v)
        return PARE_RATED_LOW;
    double most = 0;
    for (size_t i = 0; i < cells->count; i++) {
        if (own >= cells->any[i].low && own <= cells->any[i].high)
            return PARE_RATED_HOLDS;
        most = fmax(most, cells->any[i].high);
    }
    if (cells->count == 0)
        return PARE_RATED_HOLDS;
    return own > most ? PARE_RATED_HIGH : PARE_RATED_LOW;
}

bool pare_rating_is_margin(const pare_part *part)
{
    return (pare_work_of(part) & BIT(PARE_ESC_FOUR)) != 0 || part->kind == PARE_MOTOR ||
           part->kind == PARE_CAPACITOR;
}

static bool may_hang_on_a_regulator(pare_kind kind)
{
    switch (kind) {
    case PARE_CAMERA:
    case PARE_VIDEO_TRANSMITTER:
    case PARE_RECEIVER:
    case PARE_GPS:
    case PARE_BUZZER:
    case PARE_ACTION_CAMERA:
        return true;
    default:
        return false;
    }
}

bool pare_fed_well(const pare_craft *craft, size_t index, const pare_part *pack)
{
    const pare_part *part = craft->item[index].part;
    const bool hangs = may_hang_on_a_regulator(part->kind);
    if (!hangs && part->kind != PARE_REGULATOR &&
        (pare_main_work(part) & BIT(PARE_FLIGHT_CONTROLLER)) == 0)
        return true;
    if (pare_volts_rated(part, pack) == PARE_RATED_HOLDS)
        return true;
    for (size_t i = 0; hangs && i < craft->items; i++) {
        const double out_v = craft->item[i].part->spec[PARE_SPEC_OUT].value;
        if (!craft->item[i].off && out_v > 0 &&
            out_v >= part->spec[PARE_SPEC_VOLTS_LOW].value * (1 - 1e-9) &&
            out_v <= part->spec[PARE_SPEC_VOLTS_HIGH].value * (1 + 1e-9))
            return true;
    }
    return false;
}
