/* budget.h: where a craft's power goes in steady flight, from the pack's chemistry to the air. */
#ifndef PARE_PHYSICS_BUDGET_H
#define PARE_PHYSICS_BUDGET_H

#include "physics/rig.h"

/** Watts of the whole craft; all but open_w add up to open_w. */
typedef struct pare_budget {
    double induced_w;     /* moving air down to carry the thrust, as an ideal rotor would */
    double profile_w;     /* the rest of what the propellers take: their blades' own drag, swirl,
                             uneven inflow, tip losses, and pulling the discs through the air */
    double drag_w;        /* the body's drag times speed */
    double copper_w;      /* windings */
    double iron_w;        /* motors unloaded: iron, bearings */
    double esc_w;         /* all ESCs */
    double electronics_w; /* with their regulator's loss */
    double lead_w;        /* leads and contacts between pack and ESC */
    double pack_w;        /* inside the pack */
    double open_w;        /* open-circuit volts times current: what the chemistry gives */
    double output;        /* 0 to 1 */
    double download_n;    /* of the rotors' thrust, what the arms take back */
} pare_budget;

/** The budget in level flight, or hovering at a speed of 0.
 *
 * The propellers' power is split by momentum theory: n T v is induced, with v by Glauert's equation at
 * the thrust and flow of that state, and what a helicopter's book puts into a factor of about 1.15 on it
 * stands under profile.
 * @return PARE_OK, or PARE_BAD_DATA where there is no such state, with the reason
 * Accuracy: the sum to rounding; the split as good as the rotor model. Allocates nothing.
 * Source: Leishman, Principles of Helicopter Aerodynamics, 2nd ed., sec. 5.4 (from memory). */
pare_status pare_rig_budget(const pare_rig *rig, double speed_m_s, double charge,
                            pare_budget *budget, pare_error *err);

#endif
