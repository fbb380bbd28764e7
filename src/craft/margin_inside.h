/* margin_inside.h: inside the craft room: how the files that know a kind of limit put one on a sheet.
 *
 * margin.c has the brief's limits and the makers' ratings and puts all in order; margin_wire.c,
 * margin_connector.c, margin_esc.c, margin_spike.c, margin_power.c, margin_arm.c and margin_joint.c each
 * know one part of the craft. */
#ifndef PARE_CRAFT_MARGIN_INSIDE_H
#define PARE_CRAFT_MARGIN_INSIDE_H

#include <stdbool.h>

#include "craft/sheet.h"
#include "physics/wire_heat.h"

/** What has to stay below something, or above it, in the unit shown. */
typedef struct pare_bound {
    double value;
    double figures_u; /* of value, by the sheet's figures that it follows from */
    double own_share; /* of value, by the law that it follows by: as a share */
    double limit, limit_u;
    double from_zero; /* both are counted from here: the air's temperature for a temperature */
    bool at_least;
    const char *unit, *from, *caution;
} pare_bound;

/** Puts it on the sheet under "first.rest" or, with rest NULL, first. @return NULL: no room */
pare_margin *pare_margin_add(pare_sheet *sheet, const pare_bound *bound, const char *first,
                             const char *rest);

/** Relative uncertainty of a figure; 0 where there is none. */
double pare_figure_share_u(const pare_sheet *sheet, pare_figure figure);

/** Relative uncertainty of a product of two figures' powers: of what goes with the first to the power of
 * `first` and with the second to that of `second`. */
double pare_together_share_u(const pare_sheet *sheet, pare_together which, double first,
                             double second);

/** Leads, phase wires and ESC wires: the volts they lose and how hot they get. */
void pare_wire_margins(const pare_craft *craft, pare_sheet *sheet);

/** A full throttle that is held so long: 1 to 3 s in flight; common practice, no source. */
#define PARE_BURST_S 3.0

/** What solder and connector housings bear unless stated, and how sure that is. */
#define PARE_JOINT_DEGC 105.0
#define PARE_JOINT_U    5.0

/** Whose current a run carries. */
typedef struct pare_carried {
    bool motors; /* so much of a motor's, otherwise of the pack's */
    bool lead;   /* all of the pack's */
    double share;
} pare_carried;

/** @return false for a run of signals, or of electronics that take an ampere */
bool pare_run_carries(const pare_craft *craft, const pare_run *run, pare_carried *carried);

/** A lead of the pack as flown, and after a burst of full throttle on top. */
typedef struct pare_lead_heat {
    double gauge;
    double settled_degc, burst_degc; /* of its conductor */
    double rms_a, full_a;
    /* How far each goes with a share more of the rms and of full throttle; 0 without uncertainties. */
    double settled_by_rms, burst_by_rms, burst_by_full;
} pare_lead_heat;

/** The pack's connector: its ratings, and how hot it gets between wires as hot as that; NULL: no wire
 * of it is described. */
void pare_connector_margins(const pare_craft *craft, const pare_lead_heat *lead, pare_sheet *sheet);

/** The ESC's board, as flown and in a burst. */
void pare_esc_heat_margins(const pare_craft *craft, const pare_sheet_figure *motor_rms,
                           pare_sheet *sheet);

/** Volts at the ESC and its capacitor when full throttle is cut and braked. */
void pare_spike_margins(const pare_craft *craft, pare_sheet *sheet);

/** The motor's winding, the pack's own heat and its volts at full throttle. */
void pare_power_margins(const pare_craft *craft, pare_sheet *sheet);

/** The arms' frequency against the rotors' speed, and their stress at full throttle. */
void pare_arm_margins(const pare_craft *craft, pare_sheet *sheet);

/** The screws, at full throttle and in the brief's crash. */
void pare_joint_margins(const pare_craft *craft, pare_sheet *sheet);

#endif
