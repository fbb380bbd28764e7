/* flight_record.h: one flight of a craft, as its pilot wrote it down. */
#ifndef PARE_CRAFT_FLIGHT_RECORD_H
#define PARE_CRAFT_FLIGHT_RECORD_H

#include "craft/craft.h"
#include "craft/flight_log.h"
#include "physics/air.h"

typedef struct pare_flight_record {
    const char *date;      /* "2026-04-13" */
    int loadout;           /* of the craft; -1: none named, or one that is gone */
    const char *gone;      /* the loadout's name where the craft has it no longer; NULL: it has */
    const pare_part *pack; /* NULL: the craft's own */
    int which;             /* copy of that pack, from 1; 0: not said */
    /* NAN: not said */
    double take_off_kg, lasted_s;
    double put_back_c;                  /* what the charger put back afterwards */
    double rest_before_v, rest_after_v; /* the whole pack's, at rest */
    bool air_given;
    pare_weather air;
    /* How it was flown: as the brief says (entries 0), or so. */
    size_t entries;
    pare_flown flown[PARE_FLOWN];
    const pare_flight_log *log; /* NULL: none */
    double output;    /* 0 to 1: throttle of a hover as its pilot read it; NAN: not said */
    bool promised;    /* what was said of it before follows */
    double low, high; /* 0 to 1 */
} pare_flight_record;

/** A hover of any craft whose output was foretold. */
typedef struct pare_hovered {
    const char *craft, *date;
    double output, low, high; /* 0 to 1 */
} pare_hovered;

#endif
