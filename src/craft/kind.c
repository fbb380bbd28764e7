/* kind.c: one table a kind: as typed, for reading, its system and its usual job.
 *
 * "Other" flies unless the craft says otherwise: what nobody has described must not be offered as
 * grams that do no work. */
#include "craft/kind.h"

#include <assert.h>
#include <stddef.h>
#include <string.h>

static const struct {
    const char *name, *words;
    pare_system system;
    pare_job job;
} kinds[PARE_KINDS] = {
    [PARE_FRAME] = {"frame", "frame", PARE_SYSTEM_FRAME, PARE_FLIES},
    [PARE_MOTOR] = {"motor", "motor", PARE_SYSTEM_THRUST, PARE_FLIES},
    [PARE_PROPELLER] = {"propeller", "propeller", PARE_SYSTEM_THRUST, PARE_FLIES},
    [PARE_PROPELLER_NUT] = {"propeller_nut", "propeller nut", PARE_SYSTEM_THRUST, PARE_FLIES},
    [PARE_ESC_ONE] = {"esc_one", "one-motor ESC", PARE_SYSTEM_ELECTRONICS, PARE_FLIES},
    [PARE_ESC_FOUR] = {"esc_four", "four-in-one ESC", PARE_SYSTEM_ELECTRONICS, PARE_FLIES},
    [PARE_FLIGHT_CONTROLLER] = {"flight_controller", "flight controller", PARE_SYSTEM_ELECTRONICS,
                                PARE_FLIES},
    [PARE_CONTROLLER_WITH_ESC] = {"controller_with_esc", "flight controller with ESC",
                                  PARE_SYSTEM_ELECTRONICS, PARE_FLIES},
    [PARE_REGULATOR] = {"regulator", "regulator", PARE_SYSTEM_ELECTRONICS, PARE_FLIES},
    [PARE_PACK] = {"pack", "pack", PARE_SYSTEM_PACK, PARE_FLIES},
    [PARE_CONNECTOR] = {"connector", "connector", PARE_SYSTEM_ELECTRONICS, PARE_FLIES},
    [PARE_CAPACITOR] = {"capacitor", "capacitor", PARE_SYSTEM_ELECTRONICS, PARE_FLIES},
    [PARE_STANDOFF] = {"standoff", "standoff", PARE_SYSTEM_FRAME, PARE_HOLDS},
    [PARE_CAMERA] = {"camera", "camera", PARE_SYSTEM_SIGHT, PARE_SEES},
    [PARE_ACTION_CAMERA] = {"action_camera", "action camera", PARE_SYSTEM_SIGHT, PARE_FILMS},
    [PARE_HOLDER] = {"holder", "holder", PARE_SYSTEM_HOLDING, PARE_HOLDS},
    [PARE_VIDEO_TRANSMITTER] = {"video_transmitter", "video transmitter", PARE_SYSTEM_SIGHT,
                                PARE_SEES},
    [PARE_ANTENNA] = {"antenna", "antenna", PARE_SYSTEM_SIGHT, PARE_SEES},
    [PARE_ADAPTER] = {"adapter", "antenna adapter", PARE_SYSTEM_SIGHT, PARE_SEES},
    [PARE_PIGTAIL] = {"pigtail", "pigtail", PARE_SYSTEM_SIGHT, PARE_SEES},
    [PARE_RECEIVER] = {"receiver", "receiver", PARE_SYSTEM_ELECTRONICS, PARE_FLIES},
    [PARE_GPS] = {"gps", "GPS", PARE_SYSTEM_ELECTRONICS, PARE_FINDS},
    [PARE_BUZZER] = {"buzzer", "buzzer", PARE_SYSTEM_ELECTRONICS, PARE_FINDS},
    [PARE_STRAP] = {"strap", "strap", PARE_SYSTEM_HOLDING, PARE_HOLDS},
    [PARE_PAD] = {"pad", "pack pad", PARE_SYSTEM_HOLDING, PARE_HOLDS},
    [PARE_TIE] = {"tie", "tie", PARE_SYSTEM_HOLDING, PARE_HOLDS},
    [PARE_BUMPER] = {"bumper", "bumper", PARE_SYSTEM_HOLDING, PARE_PROTECTS},
    [PARE_PRINTED] = {"printed", "printed part", PARE_SYSTEM_HOLDING, PARE_HOLDS},
    [PARE_OTHER] = {"other", "other part", PARE_SYSTEM_OTHER, PARE_FLIES},
};

static const char *const systems[PARE_SYSTEMS] = {
    [PARE_SYSTEM_FRAME] = "frame",
    [PARE_SYSTEM_THRUST] = "thrust",
    [PARE_SYSTEM_ELECTRONICS] = "electronics",
    [PARE_SYSTEM_PACK] = "pack",
    [PARE_SYSTEM_SIGHT] = "sight",
    [PARE_SYSTEM_HOLDING] = "holding",
    [PARE_SYSTEM_SCREWS] = "screws",
    [PARE_SYSTEM_WIRE] = "wire",
    [PARE_SYSTEM_OTHER] = "other",
    [PARE_SYSTEM_UNLISTED] = "not listed",
};

static const char *const jobs[PARE_JOBS] = {
    [PARE_FLIES] = "flies", [PARE_SEES] = "sees",         [PARE_FILMS] = "films",
    [PARE_FINDS] = "finds", [PARE_PROTECTS] = "protects", [PARE_HOLDS] = "holds",
};

const char *pare_kind_name(pare_kind kind)
{
    assert(kind < PARE_KINDS);
    return kinds[kind].name;
}

const char *pare_kind_words(pare_kind kind)
{
    assert(kind < PARE_KINDS);
    return kinds[kind].words;
}

const char *pare_system_name(pare_system system)
{
    assert(system < PARE_SYSTEMS);
    return systems[system];
}

const char *pare_job_name(pare_job job)
{
    assert(job < PARE_JOBS);
    return jobs[job];
}

pare_system pare_kind_system(pare_kind kind)
{
    assert(kind < PARE_KINDS);
    return kinds[kind].system;
}

pare_job pare_kind_job(pare_kind kind)
{
    assert(kind < PARE_KINDS);
    return kinds[kind].job;
}

int pare_kind_named(const char *name)
{
    for (int kind = 0; kind < PARE_KINDS; kind++)
        if (strcmp(name, kinds[kind].name) == 0)
            return kind;
    return -1;
}

int pare_job_named(const char *name)
{
    for (int job = 0; job < PARE_JOBS; job++)
        if (strcmp(name, jobs[job]) == 0)
            return job;
    return -1;
}
