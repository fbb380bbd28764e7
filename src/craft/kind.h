/* kind.h: the kinds of part, the systems they belong to, and the jobs they do on a craft. */
#ifndef PARE_CRAFT_KIND_H
#define PARE_CRAFT_KIND_H

#include <stdbool.h>

typedef enum pare_kind {
    PARE_FRAME,
    PARE_MOTOR,
    PARE_PROPELLER,
    PARE_PROPELLER_NUT,
    PARE_ESC_ONE,
    PARE_ESC_FOUR,
    PARE_FLIGHT_CONTROLLER,
    PARE_CONTROLLER_WITH_ESC, /* both on one board */
    PARE_REGULATOR,
    PARE_PACK,
    PARE_CONNECTOR,
    PARE_CAPACITOR,
    PARE_STANDOFF,
    PARE_CAMERA,
    PARE_ACTION_CAMERA,
    PARE_HOLDER,
    PARE_VIDEO_TRANSMITTER,
    PARE_ANTENNA,
    PARE_ADAPTER,
    PARE_PIGTAIL,
    PARE_RECEIVER,
    PARE_GPS,
    PARE_BUZZER,
    PARE_STRAP,
    PARE_PAD,
    PARE_TIE,
    PARE_BUMPER,
    PARE_PRINTED,
    PARE_OTHER,
    PARE_KINDS
} pare_kind;

typedef enum pare_system {
    PARE_SYSTEM_FRAME,
    PARE_SYSTEM_THRUST,      /* motors, propellers, nuts */
    PARE_SYSTEM_ELECTRONICS, /* ESC, controller, regulator, capacitor, receiver, GPS, buzzer */
    PARE_SYSTEM_PACK,
    PARE_SYSTEM_SIGHT,   /* cameras, transmitter, antenna chain */
    PARE_SYSTEM_HOLDING, /* holders, straps, pads, ties, bumpers, printed parts */
    PARE_SYSTEM_SCREWS,
    PARE_SYSTEM_WIRE,
    PARE_SYSTEM_OTHER,
    PARE_SYSTEM_UNLISTED, /* what the scale shows and nobody wrote down */
    PARE_SYSTEMS
} pare_system;

typedef enum pare_job {
    PARE_FLIES,
    PARE_SEES,
    PARE_FILMS,
    PARE_FINDS,
    PARE_PROTECTS,
    PARE_HOLDS,
    PARE_JOBS
} pare_job;

/** As typed: "esc_four". */
const char *pare_kind_name(pare_kind kind);
/** For reading: "four-in-one ESC". */
const char *pare_kind_words(pare_kind kind);
const char *pare_system_name(pare_system system);
const char *pare_job_name(pare_job job);
pare_system pare_kind_system(pare_kind kind);
/** The job that an item of this kind does unless the craft says otherwise. */
pare_job pare_kind_job(pare_kind kind);
/** The name's number, or -1. */
int pare_kind_named(const char *name);
int pare_job_named(const char *name);

#endif
