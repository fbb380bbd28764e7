/* screw_rules.c: what holds a motor, an arm, a propeller or the pack (see screw_rules.h). */
#include "advise/screw_rules.h"

#include "base/text.h"

int pare_screws_kept(const pare_craft *craft, const pare_joint *joint)
{
    pare_vec3 arm[PARE_STATIONS];
    if (!joint->holds || !pare_is_screw(joint->standard))
        return 0;
    if (pare_same_name(joint->holds, "arm"))
        return 2 * (int)pare_craft_arms(craft, PARE_STATIONS, arm);
    const int held = pare_craft_item(craft, joint->holds);
    if (held < 0)
        return 0;
    const pare_item *item = &craft->item[held];
    const bool keeps = item->part->kind == PARE_MOTOR || item->part->kind == PARE_PROPELLER ||
                       item->part->kind == PARE_PACK;
    return keeps ? 2 * item->count : 0;
}

bool pare_screws_are_spent(const pare_craft *craft, const pare_joint *joint,
                           pare_screw_material material)
{
    return (material == PARE_ALUMINIUM || material == PARE_ALUMINIUM_7075) &&
           pare_screws_kept(craft, joint) > 0;
}
