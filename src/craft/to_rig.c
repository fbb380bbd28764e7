/* to_rig.c: from parts and stations to the numbers of flight (see to_rig.h).
 *
 * What carries the pack's current is in series: the pack's own lead, the craft's lead and the
 * connector's contacts. A motor's stated resistance is taken with the wires it came with; wires that were cut,
 * thinned or added change it by what two of the three phases carry at a time; a drive adds to the
 * winding's resistance, not to theirs. Electronics draw
 * through the regulator that is on board, at its efficiency. */
#include "craft/to_rig.h"

#include <math.h>

#include "base/text.h"
#include "craft/drag.h"
#include "craft/law.h"
#include "physics/share.h"
#include "physics/wake.h"
#include "physics/wire.h"

#define LEAD_DEGC         40.0 /* copper in flight */
#define REGULATOR_DEFAULT 0.88
#define USUAL_ROOT        0.23 /* of the way to the motor's axis: a 5 in frame's 26 mm of 111 */
#define USUAL_WIDTH       0.09 /* and its 10 mm; common practice, no source */

pare_status pare_brief_air(const pare_brief *brief, pare_air *air, pare_error *err)
{
    pare_weather weather = pare_weather_at(brief->altitude_m);
    if (brief->temperature_given)
        weather.temperature_degc = brief->temperature_degc;
    if (brief->pressure_pa > 0)
        weather.pressure_pa = brief->pressure_pa;
    if (brief->sea_level_pa > 0)
        weather.sea_level_pa = brief->sea_level_pa;
    if (brief->humidity_given)
        weather.humidity = brief->humidity;
    return pare_air_in(&weather, air, err);
}

void pare_rig_put_body(const pare_assembly *assembly, const pare_body *all, pare_rig *rig)
{
    rig->mass_kg = all->mass_kg;
    rig->inertia_xx_kg_m2 = all->inertia_kg_m2.xx;
    rig->inertia_yy_kg_m2 = all->inertia_kg_m2.yy;
    rig->inertia_zz_kg_m2 = all->inertia_kg_m2.zz;
    rig->sum_x_m = 0;
    rig->sum_y_m = 0;
    for (size_t i = 0; i < assembly->arms; i++) {
        rig->sum_x_m += fabs(assembly->arm_m[i].x - all->at_m.x);
        rig->sum_y_m += fabs(assembly->arm_m[i].y - all->at_m.y);
    }
}

static double included_run_ohm(const pare_part *part)
{
    double ohm = 0;
    for (size_t i = 0; i < part->includes; i++)
        if (part->include[i].what == PARE_INCLUDES_RUN)
            ohm += part->include[i].count * part->include[i].length_m *
                   pare_wire_ohm_per_m(part->include[i].gauge, LEAD_DEGC);
    return ohm;
}

static double lead_ohm(const pare_craft *craft, const pare_item *pack)
{
    const int connector = pare_craft_doing(craft, PARE_CONNECTOR);
    const int esc = pare_craft_doing(craft, PARE_ESC_ONE); /* each takes its part of the current */
    double ohm = connector >= 0 ? craft->item[connector].part->spec[PARE_SPEC_RESISTANCE].value
                                : pare_law_connector_ohm().value;
    ohm += included_run_ohm(pack->part);
    for (size_t i = 0; i < craft->runs; i++) {
        const pare_run *run = &craft->run[i];
        if (esc >= 0 && run->carries && pare_same_name(run->carries, craft->item[esc].name))
            ohm += pare_run_ohm(run, LEAD_DEGC) / craft->item[esc].count;
        if (!run->carries || !pare_same_name(run->carries, "pack"))
            continue;
        /* A run that describes the pack's own lead replaces it. */
        if (run->included_in && pare_same_name(run->included_in, pack->name))
            ohm -= run->included_ohm * pare_wire_ohm_per_m(20, LEAD_DEGC) /
                   pare_wire_ohm_per_m(20, 20);
        ohm += pare_run_ohm(run, LEAD_DEGC);
    }
    return ohm;
}

/* Two phases of three carry at a time. */
static double phase_change_ohm(const pare_craft *craft, const pare_item *motor)
{
    double ohm = 0;
    for (size_t i = 0; i < craft->runs; i++) {
        const pare_run *run = &craft->run[i];
        if (!run->carries || !pare_same_name(run->carries, motor->name))
            continue;
        const double now = pare_run_ohm(run, 20);
        ohm += (run->included_in ? now - run->included_ohm : now) * 2 / 3;
    }
    return ohm;
}

double pare_regulator_usual(void)
{
    return REGULATOR_DEFAULT;
}

static double always_w(const pare_craft *craft)
{
    double load_w = 0, efficiency = REGULATOR_DEFAULT;
    bool regulated = false;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->off)
            continue;
        load_w += item->count * item->part->spec[PARE_SPEC_POWER].value;
        const double own = item->part->spec[PARE_SPEC_EFFICIENCY].value;
        if (own > 0 && (!regulated || own < efficiency)) {
            efficiency = own;
            regulated = true;
        }
    }
    return load_w / efficiency;
}

/* The first arm stands for all. A frame without arms is taken for one of usual proportions, as
 * pare_part_usual_body() gives a frame that says no body at all. */
static double blockage(const pare_craft *craft, const pare_item *motor, const pare_item *propeller)
{
    const double propeller_m = propeller->part->spec[PARE_SPEC_DIAMETER].value;
    const pare_piece *arms = pare_craft_arm_piece(craft);
    pare_under_disc under = {
        .radius_m = propeller_m / 2,
        .motor_m = pare_law_motor_outer_m(motor->part->spec[PARE_SPEC_STATOR_DIAMETER].value) / 2};
    double deep_m;
    if (arms && arms->places > 0 && arms->section_m[0] > 0) {
        under.reach_m = hypot(arms->at_m[0].x, arms->at_m[0].y);
        under.middle_m = arms->root_m;
        under.width_m = arms->section_m[0];
        deep_m = pare_piece_arm_deep_m(arms);
    } else {
        under.reach_m = pare_law_wheelbase_m(propeller_m).value / 2;
        under.middle_m = USUAL_ROOT * under.reach_m;
        under.width_m = USUAL_WIDTH * under.reach_m;
        deep_m = under.width_m / 2;
    }
    const double stands_m =
        propeller->place == PARE_AT_ARMS || propeller->place == PARE_AT_POINTS
            ? pare_item_station(craft, propeller, 0).z
            : pare_law_motor_height_m(motor->part->spec[PARE_SPEC_STATOR_LENGTH].value);
    under.below_m = stands_m + deep_m / 2;
    return pare_download_share(&under);
}

/* Motors whose places are not known carry alike. */
static double uneven(const pare_assembly *assembly)
{
    double share[PARE_ARMS];
    if (assembly->arms < 3)
        return 0;
    const pare_vec3 centre = assembly->all.at_m;
    if (pare_thrust_shares(assembly->arms, assembly->arm_m, centre.x, centre.y, share, NULL) !=
        PARE_OK)
        return (double)INFINITY;
    return pare_share_uneven(assembly->arms, share);
}

void pare_part_cells(const pare_part *part, int count, pare_pack *pack)
{
    const pare_value *holds_c = &part->holds_c;
    const pare_value *group = &part->spec[PARE_SPEC_RESISTANCE];
    pack->chemistry = part->chemistry;
    pack->cells = (int)part->spec[PARE_SPEC_CELLS].value;
    pack->capacity_c = count * (holds_c->given ? holds_c : &part->spec[PARE_SPEC_CAPACITY])->value;
    pack->group_ohm = group->given ? group->value / count : 0;
    pack->mass_kg = count * part->mass_kg.value;
}

static void put_pack(const pare_craft *craft, const pare_item *item, pare_rig *rig)
{
    pare_part_cells(item->part, item->count, &rig->pack);
    rig->pack.lead_ohm = lead_ohm(craft, item);
}

/* What a stand measured of these two goes before the model and what was stated of the motor. */
static void put_measured(const pare_craft *craft, const pare_part *motor,
                         const pare_part *propeller, pare_rig *rig)
{
    size_t found;
    const pare_stand_table *stand =
        pare_stand_of(craft->stands, craft->stand, motor->id, propeller->id, &found);
    if (stand && stand->pair)
        pare_rig_use_pair(stand->pair, rig);
}

static void put_motor(const pare_item *motor, pare_rig *rig)
{
    const pare_value *spec = motor->part->spec;
    rig->motor.kv_rpm_per_v = spec[PARE_SPEC_KV].value;
    rig->motor.resistance_ohm = spec[PARE_SPEC_RESISTANCE].value;
    rig->motor.no_load_a = spec[PARE_SPEC_NO_LOAD].value;
    rig->motor.no_load_at_v = spec[PARE_SPEC_NO_LOAD_AT].value;
    rig->motor.mass_kg = motor->part->mass_kg.value;
    rig->motor.ambient_degc = rig->air.temperature_degc;
}

pare_status pare_craft_rig(const pare_craft *craft, const pare_assembly *assembly, pare_rig *rig,
                           pare_error *err)
{
    const int motor_at = pare_craft_doing(craft, PARE_MOTOR);
    const int propeller_at = pare_craft_doing(craft, PARE_PROPELLER);
    const int pack_at = pare_craft_doing(craft, PARE_PACK);
    if (motor_at < 0 || propeller_at < 0 || pack_at < 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "craft '%s' has no %s on: it needs motors, propellers and a pack to fly",
                         craft->name,
                         motor_at < 0 ? "motors" : (propeller_at < 0 ? "propellers" : "pack"));
    const pare_item *motor = &craft->item[motor_at];
    const pare_part *propeller = craft->item[propeller_at].part;
    pare_rig_defaults(rig);
    const pare_status status = pare_brief_air(&craft->brief, &rig->air, err);
    if (status != PARE_OK)
        return pare_within(err, "craft '%s': brief", craft->name);
    rig->rotors = motor->count;
    rig->rotor = (pare_rotor){propeller->blade, propeller->table, 1, 1};
    if (propeller->stations > 0)
        rig->rotor_source = PARE_FROM_BLADE;
    else if (propeller->blade && propeller->blade->line != PARE_LINE_UNKNOWN)
        rig->rotor_source = PARE_FROM_LINE;
    rig->tunnel = propeller->bent;
    if (rig->tunnel)
        rig->rotor_source = PARE_FROM_TUNNEL;
    put_motor(motor, rig);
    put_measured(craft, motor->part, propeller, rig);
    rig->motor.resistance_ohm = fmax(rig->motor.resistance_ohm + phase_change_ohm(craft, motor) /
                                                                     (1 + rig->motor.drive_excess),
                                     1e-4);
    put_pack(craft, &craft->item[pack_at], rig);

    const double propeller_m = propeller->spec[PARE_SPEC_DIAMETER].value;
    rig->drag_m2 = pare_craft_drag_m2(craft);
    rig->drag_top_m2 = 2 * rig->drag_m2;
    rig->always_w = always_w(craft);
    rig->blockage = blockage(craft, motor, &craft->item[propeller_at]);
    rig->spin_kg_m2 =
        pare_rotor_spin_kg_m2(propeller->mass_kg.value, propeller_m, rig->motor.mass_kg);
    pare_rig_put_body(assembly, &assembly->all, rig);
    rig->uneven = uneven(assembly);
    pare_taught_move(craft, rig);
    return PARE_OK;
}
