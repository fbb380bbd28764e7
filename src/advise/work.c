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
