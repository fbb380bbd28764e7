/* stand_in.c: sorts of work, and which parts do the same (see stand_in.h).
 *
 * Kinds name things; work names what they are for. A four-in-one and a one-motor ESC drive motors, a
 * print, a holder and a tie hold, an adapter and a pigtail lead to an antenna. */
#include "advise/stand_in.h"

#include <math.h>

#define BIT(kind) (1u << (kind))

unsigned pare_work_of(const pare_part *part)
{
    unsigned work = part->does | BIT(part->kind);
    if (work & BIT(PARE_CONTROLLER_WITH_ESC))
        work |= BIT(PARE_FLIGHT_CONTROLLER) | BIT(PARE_ESC_FOUR);
    if (work & BIT(PARE_ESC_ONE))
        work |= BIT(PARE_ESC_FOUR);
    if (work & (BIT(PARE_PRINTED) | BIT(PARE_TIE)))
        work |= BIT(PARE_HOLDER);
    if (work & BIT(PARE_ADAPTER))
        work |= BIT(PARE_PIGTAIL);
    return work & ~(BIT(PARE_CONTROLLER_WITH_ESC) | BIT(PARE_ESC_ONE) | BIT(PARE_PRINTED) |
                    BIT(PARE_TIE) | BIT(PARE_ADAPTER));
}

pare_kind pare_main_kind(pare_kind kind)
{
    switch (kind) {
    case PARE_ESC_ONE:
        return PARE_ESC_FOUR;
    case PARE_CONTROLLER_WITH_ESC:
        return PARE_FLIGHT_CONTROLLER;
    case PARE_PRINTED:
    case PARE_TIE:
        return PARE_HOLDER;
    case PARE_ADAPTER:
        return PARE_PIGTAIL;
    default:
        return kind;
    }
}

unsigned pare_main_work(const pare_part *part)
{
    return BIT(pare_main_kind(part->kind));
}

bool pare_work_is_shared(unsigned work)
{
    return (work & (BIT(PARE_ESC_FOUR) | BIT(PARE_FLIGHT_CONTROLLER) | BIT(PARE_REGULATOR) |
                    BIT(PARE_CAMERA) | BIT(PARE_ACTION_CAMERA) | BIT(PARE_VIDEO_TRANSMITTER) |
                    BIT(PARE_RECEIVER) | BIT(PARE_GPS) | BIT(PARE_BUZZER))) != 0;
}

static bool both(const pare_part *a, const pare_part *b, pare_spec spec)
{
    return a->spec[spec].value > 0 && b->spec[spec].value > 0;
}

static bool same_size(const pare_part *a, const pare_part *b, pare_spec spec, double share)
{
    return !both(a, b, spec) ||
           fabs(a->spec[spec].value - b->spec[spec].value) <= share * a->spec[spec].value;
}

static unsigned keys_stated(const pare_part *part)
{
    unsigned keys = 0;
    for (int key = 0; key < PARE_FITS; key++)
        if (part->fit[key].count > 0)
            keys |= 1u << key;
    return keys;
}

/* Holders are of many shapes. Those that state what they fit stand in for each other when they state
 * the same keys and agree; a printed part that states nothing is one of its own sort. */
static bool holds_alike(const pare_part *part, const pare_part *now)
{
    if (part->kind == PARE_TIE || now->kind == PARE_TIE)
        return part->kind == now->kind ||
               (keys_stated(part->kind == PARE_TIE ? now : part) & 1u << PARE_FIT_CAMERA) == 0;
    const unsigned keys = keys_stated(now);
    if (keys != keys_stated(part) || (keys == 0 && now->kind == PARE_PRINTED))
        return false;
    for (int key = 0; key < PARE_FITS; key++)
        if (!pare_fit_agrees(&part->fit[key], &now->fit[key]))
            return false;
    return keys != 0 || part->kind == now->kind;
}

bool pare_stands_in(const pare_part *part, const pare_part *now)
{
    if (pare_main_work(part) != pare_main_work(now))
        return false;
    switch (now->kind) {
    case PARE_HOLDER:
    case PARE_PRINTED:
    case PARE_TIE:
        return holds_alike(part, now);
    case PARE_ANTENNA:
        return same_size(part, now, PARE_SPEC_BAND, 0.15);
    case PARE_STANDOFF:
        return same_size(part, now, PARE_SPEC_LENGTH, 0.01);
    case PARE_ADAPTER:
    case PARE_PIGTAIL:
        return !part->ends[0] == !now->ends[0] &&
               pare_fit_agrees(&part->fit[PARE_FIT_STACK], &now->fit[PARE_FIT_STACK]);
    case PARE_OTHER:
        return false;
    default:
        return true;
    }
}
