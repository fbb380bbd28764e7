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

/** How a craft is flown when its brief does not say: 30 % hover, 50 % at 10 m/s, 20 % at twice its
 * weight. common practice, no source */
size_t pare_brief_flown(const pare_brief *brief, const pare_flown **flown);

/** When it lands: the brief's, or 20 % left and the chemistry's voltage, whichever comes first. */
pare_landing pare_brief_landing(const pare_brief *brief, pare_chemistry chemistry);

/** Every flight figure of a rig, each existing or with the reason why not.
 *
 * @param[out] figure [PARE_FIGURES]; only the flight figures are set; u and known are not
 * @param[out] endured  the flown profile's; time_s 0 where it does not exist
 * Allocates nothing. */
void pare_flight_figures(const pare_brief *brief, const pare_rig *rig,
                         pare_sheet_figure figure[PARE_FIGURES], pare_endurance *endured);

/** Of these, the ones that a rig's inertias and arms reach: burst, quickness and the rotors' lag. */
void pare_flight_turning_figures(const pare_rig *rig, pare_sheet_figure figure[PARE_FIGURES]);

#endif
