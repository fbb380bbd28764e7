/* arm_facts.h: a craft's arms as cantilevers, with what sits at their ends. */
#ifndef PARE_CRAFT_ARM_FACTS_H
#define PARE_CRAFT_ARM_FACTS_H

#include "craft/sheet.h"
#include "physics/arm.h"

typedef struct pare_arm_facts {
    bool stated;            /* the modulus is its maker's; otherwise the band of its material */
    pare_arm arm;           /* in the middle of its band, one arm with all that it carries */
    double low_hz, high_hz; /* first bending, over the band */
    double twist_low_hz, twist_high_hz; /* first torsion */
    double most_m_per_n;                /* deflection, at the low end */
    double m_per_n_share_u;
    double strength_share_u;
    pare_arm_figures figures; /* in the middle */
    double tip_kg;            /* what counts as at the tip: motor, propeller, screws, bumper ... */
    double protects_kg;       /* of that, what only protects */
    double bare_hz;           /* bending without that, in the middle of the band */
    double drag_m2;           /* of all arms in level flight: of the craft's, not on top of it */
} pare_arm_facts;

/** One arm, which stands for all. @return false where the frame states no arms. Allocates nothing.
 *
 * Drag: the arms' edges by the cross-flow principle, level, 30 % (Hoerner, Fluid-Dynamic Drag, ch. 3;
 * from memory). What sits along the arm counts by the square of its share of the tip's deflection; a spinning
 * propeller counts in torsion as half of its disc, its gyroscopic moment left out. */
bool pare_craft_arm_facts(const pare_craft *craft, const pare_sheet *sheet, pare_arm_facts *facts);

/** The share of its mass that something along the arms counts for at their tips; 1 where the frame states no arms.
 * @param along_arm  a share of the way to the motors */
double pare_arm_tip_share(const pare_craft *craft, double along_arm);

/** Whether an item swings with the arms, somewhere along them or at their tips. */
bool pare_item_at_tips(const pare_item *item);

/** Whether a joint's screws hold the motors: with items, they are what swings at the tips. */
bool pare_joint_at_tips(const pare_craft *craft, const pare_joint *joint);

/** The band of turns a second in which the margins say that an arm may ring. */
void pare_arm_ring_band(const pare_arm_facts *arm, double *low_hz, double *high_hz);

#endif
