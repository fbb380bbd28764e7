/* screw_rules.h: rules of the trade about screws that no arithmetic gives. Only this room uses it.
 *
 * Common practice, no source. */
#ifndef PARE_ADVISE_SCREW_RULES_H
#define PARE_ADVISE_SCREW_RULES_H

#include "craft/craft.h"

/** How many screws a joint keeps at least: two at each thing that ends a flight when it comes loose (motor,
 * arm, propeller, pack); 0: it holds no such thing. */
int pare_screws_kept(const pare_craft *craft, const pare_joint *joint);

/** Whether screws of a material are spent after one crash where that must not be: aluminium at such a thing. */
bool pare_screws_are_spent(const pare_craft *craft, const pare_joint *joint,
                           pare_screw_material material);

#endif
