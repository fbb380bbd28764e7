/* assemble.h: a craft's grams in their places: the ledger, the centre of mass, the inertia. */
#ifndef PARE_CRAFT_ASSEMBLE_H
#define PARE_CRAFT_ASSEMBLE_H

#include "craft/craft.h"
#include "physics/nut.h"
#include "physics/solid.h"

typedef enum pare_line_of {
    PARE_LINE_ITEM,
    PARE_LINE_JOINT,
    PARE_LINE_RUN,
    PARE_LINE_UNLISTED /* what the whole craft weighs beyond its lines, by the scale */
} pare_line_of;
const char *pare_line_of_name(pare_line_of of); /* "item" */

/** One line of the ledger: an item, joint or run, with its body in craft axes. */
typedef struct pare_line {
    pare_line_of of;
    size_t index; /* into the craft's items, joints or runs; 0 of what is unlisted */
    const char *name;
    pare_system system;
    int count;
    double each_kg;
    pare_value mass_kg; /* all of them; copies share one error */
    pare_body body;     /* all of them as one, about their common centre */
    double at_u_m;      /* uncertainty of its place, each axis */
} pare_line;

enum { PARE_LINES = PARE_ITEMS + PARE_JOINTS + PARE_RUNS + 1, PARE_ARMS = 8 };

typedef struct pare_assembly {
    size_t lines;
    pare_line line[PARE_LINES];
    pare_body all; /* mass, centre, inertia about the centre */
    size_t arms;
    pare_vec3 arm_m[PARE_ARMS]; /* motor axes, from front left, clockwise from above */
} pare_assembly;

/** Every item that is on, every joint and run, at their stations.
 *
 * @param craft  settled, and loaded with its loadout
 * @return PARE_OK or PARE_BAD_DATA, naming the item and what is wrong with it
 * Allocates nothing. */
pare_status pare_assemble(const pare_craft *craft, pare_assembly *assembly, pare_error *err);

/** One copy of an item by itself, less the coax that was cut off it. */
double pare_item_each_kg(const pare_item *item);
/** Mass of a joint's screws and of a run's wire by geometry, whether or not they count. */
pare_fastener_size pare_joint_size(const pare_joint *joint);
pare_status pare_joint_kg(const pare_joint *joint, double *mass_kg, pare_error *err);
/** Where a joint's screws sit, evenly shared; how many places. */
size_t pare_joint_places(const pare_craft *craft, const pare_joint *joint,
                         pare_vec3 at_m[PARE_STATIONS]);
double pare_run_kg(const pare_run *run);
/** Resistance of one set, all ways in series, at a copper temperature. */
double pare_run_ohm(const pare_run *run, double copper_degc);

/** The place of a line among the craft's weighed masses; their number where the scale has nothing to say
 * of it as it is now. @param craft  weighed */
size_t pare_line_weighed(const pare_craft *craft, const pare_line *line);

/** The share of a line in the craft's roll (0), pitch (1), yaw (2) inertia. */
double pare_line_share(const pare_assembly *assembly, size_t line, int axis);

#endif
