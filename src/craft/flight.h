/* flight.h: a rig's flight as figures. */
#ifndef PARE_CRAFT_FLIGHT_H
#define PARE_CRAFT_FLIGHT_H

#include "craft/craft.h"
#include "craft/sheet.h"

/** Reference states: hover and level flight at half charge, burst and quickness on a fresh pack,
 * turn, climb and top speed at 0.8. */
#define PARE_CHARGE_HALF  0.5
#define PARE_CHARGE_FRESH 1.0
#define PARE_CHARGE_TURN  0.8
#define PARE_TURN_M_S     12.0
#define PARE_IDLE_OUTPUT                                                                           \
    0.055 /* that ESCs are usually set to idle at; common practice, no source */
#define PARE_GUST_M_S 5.0

/** How a craft is flown when its brief does not say: 30 % hover, 50 % at 10 m/s, 20 % at twice its
 * weight. common practice, no source */
size_t pare_brief_flown(const pare_brief *brief, const pare_flown **flown);

/** One entry of a profile at half charge; full throttle, held, where it asks for that or for more.
 * @return PARE_BAD_DATA where there is no such point; the output is then untouched */
pare_status pare_flown_point(const pare_rig *rig, const pare_flown *entry, pare_operating *point);

/** The speed of its crash: the brief's own, or 15 m/s (common practice, no source). */
double pare_brief_crash_m_s(const pare_brief *brief);

/** When it lands: the brief's, or 20 % left and the chemistry's voltage, whichever comes first. */
pare_landing pare_brief_landing(const pare_brief *brief, pare_chemistry chemistry);

/** Every flight figure of a rig, each existing or with the reason why not.
 *
 * @param[out] figure [PARE_FIGURES]; only the flight figures are set; u and known are not
 * @param[out] endured  the flown profile's; time_s 0 where it does not exist
 * Allocates nothing. */
void pare_flight_figures(const pare_brief *brief, const pare_rig *rig,
                         pare_sheet_figure figure[PARE_FIGURES], pare_endurance *endured);

/** Figures that are worked out together, a bit each. */
enum {
    PARE_FLY_HOVER = 1u << 0,
    PARE_FLY_HOVER_TIME = 1u << 1,
    PARE_FLY_MINUTES = 1u << 2,
    PARE_FLY_RANGE = 1u << 3,
    PARE_FLY_FULL = 1u << 4, /* one of its three charges is the end of the minutes */
    PARE_FLY_BURST = 1u << 5,
    PARE_FLY_QUICKNESS = 1u << 6,
    PARE_FLY_TURN = 1u << 7,
    PARE_FLY_CLIMB = 1u << 8,
    PARE_FLY_TOP_SPEED = 1u << 9,
    PARE_FLY_GROUND = 1u << 10, /* what follows without flying: energies and air */
    PARE_FLY_ALL = (1u << 11) - 1
};

/** The groups that some figures are in, and those that these rest on. */
unsigned pare_flight_groups(pare_figures wanted);

/** As pare_flight_figures(), for some groups; others are left as they are, and so is endured without
 * PARE_FLY_MINUTES. */
void pare_flight_some(const pare_brief *brief, const pare_rig *rig, unsigned groups,
                      pare_sheet_figure figure[PARE_FIGURES], pare_endurance *endured);

/** Of these, the ones that a rig's inertias and arms reach: burst, quickness and the rotors' lag. */
void pare_flight_turning_figures(const pare_rig *rig, pare_sheet_figure figure[PARE_FIGURES]);

#endif
