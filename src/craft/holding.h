/* holding.h: what a craft's screws must hold, at full throttle and in a crash. */
#ifndef PARE_CRAFT_HOLDING_H
#define PARE_CRAFT_HOLDING_H

#include "craft/sheet.h"
#include "physics/bolted.h"
#include "physics/screw_hold.h"

/** Why a joint may need what it has. */
typedef enum pare_holds {
    PARE_HOLDS_MOTOR,     /* one motor's screws: its thrust, and a crash on that arm */
    PARE_HOLDS_ARM,       /* one arm's: a crash on that arm */
    PARE_HOLDS_THING,     /* what sits on it, by its own mass */
    PARE_HOLDS_NOT_KNOWN, /* the joint does not say */
} pare_holds;

/** One joint of a craft, judged. */
typedef struct pare_holding {
    pare_holds holds;
    bool vital;               /* what comes loose here ends a flight: motor, arm, propeller, pack */
    int together;             /* screws that share a load: one motor's, one arm's, all */
    pare_screw_load flight;   /* full throttle on a fresh pack; 0 where it carries none */
    pare_screw_load crash;    /* the craft stopped from a speed within the stopping distance */
    double tips_nm, circle_m; /* moment on a motor's base in the crash, radius of its screws */
    pare_grip grip;           /* what it sits in; of a standoff nothing */
    pare_held hold;           /* what one screw bears; of a standoff nothing */
    double breaks_n, shears_n; /* of one: the least of head, plate and threads, or of a standoff's
                                  wall; across it */
} pare_holding;

/** The distance in which a crash stops a craft, unless stated: a guess that cancels in ratios. */
#define PARE_STOPPING_M 0.030

/** @param speed_m_s  of the crash
 * @return PARE_BAD_DATA where the joint's class or hole is not known, or it is of nuts or washers
 *         (which are judged with their screws), in words
 *
 * A screw is engaged as far as it reaches beyond what it grips, or by the height of its nut, and no
 * farther than it should be (one diameter unless said); where its reach is not known, as it should.
 * One arm takes the craft: its mean force m v^2/(2 s) shears that arm's and that motor's screws and,
 * at the motor, tips it over the edge of its base. Whatever else is held pulls with its own mass
 * times v^2/(2 s). Estimates all, and said so: what is well known is the ratio of two of them. */
pare_status pare_craft_holding(const pare_craft *craft, const pare_sheet *sheet,
                               const pare_joint *joint, double speed_m_s, pare_holding *holding,
                               pare_error *err);

/** What a screw bears over its load, pull and shear together: 1/sqrt((pull/breaks)^2 +
 * (shear/shears)^2); HUGE_VAL without load. */
double pare_holding_ratio(const pare_holding *holding, const pare_screw_load *load);

/** The same joint with screws or standoffs of another material (its usual class) and so many for every
 * ones that it has now; as a ratio in the crash. */
double pare_holding_with(const pare_holding *holding, const pare_joint *joint,
                         pare_screw_material material, int together);

#endif
