/* label.c: a discharge rating that physics can keep (see label.h).
 *
 * Two limits. Heat: all of I^2 R over the time in which the current takes four fifths of the capacity;
 * time goes with 1/I, so the heat of a whole pack goes with I, and the current is where it has warmed
 * the cells by 35 K. Sag: what a cell drops at once, from half charge down to its least volts. Both
 * have the resistance below the line, so a pack of half the resistance may carry twice as much, and
 * a heavier one of the same capacity is believed more: that is what good packs are. What a charger found
 * of capacity and resistance goes before what is stated, and what flights taught of its capacity before
 * both, but a rating is counted in what is stated. */
#include "craft/label.h"

#include <math.h>

#include "craft/to_rig.h"

#define WARMS_K      35.0 /* from 25 to 60 degC */
#define HEAT_J_KG_K  1000.0
#define HEAT_SHARE_U 0.10
#define TAKEN        0.8
#define HALF         0.5

bool pare_pack_believable(const pare_part *part, pare_believable *believable)
{
    if (part->kind != PARE_PACK)
        return false;
    pare_rig rig;
    pare_rig_defaults(&rig);
    pare_pack *pack = &rig.pack;
    const pare_value *group = &part->spec[PARE_SPEC_RESISTANCE];
    pare_part_cells(part, 1, pack);
    pack->lead_ohm = 0;
    const double hourly_a = part->spec[PARE_SPEC_CAPACITY].value / 3600;
    const double held_ohm = pare_pack_ohm(pack, HALF, 1);
    const double quick_ohm = pare_pack_group_ohm(pack, HALF);
    const double ohm_share_u = group->given && group->value > 0
                                   ? group->u / group->value
                                   : pare_pack_model_doubt(pack).ohm_share_u;
    const double whole_a =
        WARMS_K * HEAT_J_KG_K * part->mass_kg.value / (held_ohm * TAKEN * pack->capacity_c);
    const double room_v =
        pare_pack_cell_v(pack->chemistry, HALF) - pare_chemistry_cutoff_v(pack->chemistry);
    const double mass_share_u = part->mass_kg.u / part->mass_kg.value;
    *believable = (pare_believable){
        .whole = whole_a / hourly_a,
        .whole_u = whole_a / hourly_a * hypot(hypot(ohm_share_u, HEAT_SHARE_U), mass_share_u),
        .burst = room_v / quick_ohm / hourly_a,
        .burst_u = room_v / quick_ohm / hourly_a *
                   hypot(ohm_share_u, pare_pack_model_doubt(pack).cell_v_u / room_v),
    };
    return true;
}

bool pare_craft_believable(const pare_craft *craft, pare_believable *believable, int *flights)
{
    const int item = pare_craft_doing(craft, PARE_PACK);
    *flights = 0;
    if (item < 0 || !pare_pack_believable(craft->item[item].part, believable))
        return false;
    if (!pare_taught_applies(craft, false, PARE_TAUGHT_CAPACITY))
        return true;
    const double whole_share_u = believable->whole_u / believable->whole;
    *flights = craft->learned->flights;
    believable->whole /= exp(craft->learned->change[PARE_TAUGHT_CAPACITY]);
    believable->whole_u = believable->whole *
                          hypot(whole_share_u, pare_taught_u(craft->learned, PARE_TAUGHT_CAPACITY));
    return true;
}

bool pare_pack_boasts(const pare_part *part, const pare_believable *believable)
{
    const pare_value *label = &part->spec[PARE_SPEC_LABEL_RATING];
    return label->given &&
           label->value > believable->burst + PARE_BOAST_SIGMAS * believable->burst_u;
}
