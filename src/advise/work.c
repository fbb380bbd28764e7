/* work.c: minutes of work by kind (see work.h). Common practice, no source: a practised builder with
 * a warm iron, the craft on the bench and its top plate off where that must be. */
#include "advise/work.h"

static const double part_min[PARE_KINDS] = {
    [PARE_FRAME] = 150,
    [PARE_MOTOR] = 12,
    [PARE_PROPELLER] = 1,
    [PARE_PROPELLER_NUT] = 0.5,
    [PARE_ESC_ONE] = 12,
    [PARE_ESC_FOUR] = 60,
    [PARE_FLIGHT_CONTROLLER] = 30,
    [PARE_CONTROLLER_WITH_ESC] = 75,
    [PARE_REGULATOR] = 10,
    [PARE_PACK] = 1,
    [PARE_CONNECTOR] = 10,
    [PARE_CAPACITOR] = 8,
    [PARE_STANDOFF] = 2,
    [PARE_CAMERA] = 15,
    [PARE_ACTION_CAMERA] = 2,
    [PARE_HOLDER] = 5,
    [PARE_VIDEO_TRANSMITTER] = 20,
    [PARE_ANTENNA] = 5,
    [PARE_ADAPTER] = 2,
    [PARE_PIGTAIL] = 4,
    [PARE_RECEIVER] = 15,
    [PARE_GPS] = 12,
    [PARE_BUZZER] = 8,
    [PARE_STRAP] = 1,
    [PARE_PAD] = 2,
    [PARE_TIE] = 1,
    [PARE_BUMPER] = 2,
    [PARE_PRINTED] = 5,
    [PARE_OTHER] = 5,
};

double pare_work_part_min(pare_kind kind, int count)
{
    return count * part_min[kind];
}

double pare_work_off_min(pare_kind kind, int count)
{
    return count * part_min[kind] / 2;
}

double pare_work_screws_min(int count)
{
    return 0.5 * count;
}

double pare_work_screws_out_min(int count)
{
    return 0.25 * count;
}

double pare_work_screws_cut_min(int count)
{
    return 1.5 * count;
}

double pare_work_wire_min(int conductors)
{
    return 8.0 * conductors;
}

double pare_work_wire_cut_min(int conductors)
{
    return 4.0 * conductors;
}

double pare_work_coax_cut_min(void)
{
    return 12;
}

/* ---- openings ---- */

const char *pare_opening_words(pare_opening opening)
{
    static const char *const words[PARE_OPENINGS] = {
        [PARE_OPENING_OUTSIDE] = "outside",
        [PARE_OPENING_PROPELLERS] = "propellers and nuts",
        [PARE_OPENING_ARMS] = "at the arms",
        [PARE_OPENING_TOP] = "top plate off",
    };
    return words[opening];
}

/* What may sit outside or under the top plate is inside where it has a pattern to sit on there. */
pare_opening pare_work_opening(const pare_part *part)
{
    switch (part->kind) {
    case PARE_MOTOR:
    case PARE_ESC_ONE:
        return PARE_OPENING_ARMS;
    case PARE_PROPELLER:
    case PARE_PROPELLER_NUT:
        return PARE_OPENING_PROPELLERS;
    case PARE_HOLDER:
    case PARE_ADAPTER:
    case PARE_PRINTED:
        return part->fit[PARE_FIT_STACK].count || part->fit[PARE_FIT_CAMERA].count
                   ? PARE_OPENING_TOP
                   : PARE_OPENING_OUTSIDE;
    case PARE_PACK:
    case PARE_STRAP:
    case PARE_PAD:
    case PARE_TIE:
    case PARE_BUMPER:
    case PARE_ANTENNA:
    case PARE_GPS:
    case PARE_ACTION_CAMERA:
        return PARE_OPENING_OUTSIDE;
    default:
        return PARE_OPENING_TOP;
    }
}

double pare_work_opening_min(pare_opening opening)
{
    return opening == PARE_OPENING_TOP ? 4 : 0; /* common practice, no source */
}

int pare_work_part_solder(pare_kind kind, int count)
{
    /* Common practice, no source: three wires a motor, plus, minus and signal where they go. */
    static const int joints[PARE_KINDS] = {
        [PARE_MOTOR] = 3,
        [PARE_ESC_ONE] = 5,
        [PARE_ESC_FOUR] = 14,
        [PARE_FLIGHT_CONTROLLER] = 12,
        [PARE_CONTROLLER_WITH_ESC] = 22,
        [PARE_REGULATOR] = 4,
        [PARE_CONNECTOR] = 2,
        [PARE_CAPACITOR] = 2,
        [PARE_CAMERA] = 3,
        [PARE_VIDEO_TRANSMITTER] = 4,
        [PARE_RECEIVER] = 4,
        [PARE_GPS] = 4,
        [PARE_BUZZER] = 2,
    };
    return count * joints[kind];
}
