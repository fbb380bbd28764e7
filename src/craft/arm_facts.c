/* arm_facts.c: what a frame's arm is made of and what it carries (see arm_facts.h).
 *
 * The frame states section and reach, rarely a modulus: then the band of its cloth or the handbook value of
 * its material stands in. The root is taken as held fast, which no clamped arm quite is: real
 * frequencies lie somewhat lower. */
#include "craft/arm_facts.h"

#include <math.h>

#include "base/text.h"
#include "physics/wake.h"

#define STATED_SHARE   0.10 /* of a stated modulus, either way */
#define HANDBOOK_SHARE 0.10 /* of a material's, other than carbon plate */
#define PLATE_STRENGTH 0.15 /* of the low end of carbon plate */

/* Share of the tip's deflection that a cantilever has at a share of its length. */
static double bent(double along)
{
    return along > 0 ? along * along * (3 - along) / 2 : 0;
}

static double tip_share(const pare_piece *arms, double along_arm)
{
    const double reach_m = hypot(arms->at_m[0].x, arms->at_m[0].y);
    const double bends = bent((along_arm * reach_m - arms->root_m) / (reach_m - arms->root_m));
    return bends * bends;
}

double pare_arm_tip_share(const pare_craft *craft, double along_arm)
{
    const pare_piece *arms = pare_craft_arm_piece(craft);
    return arms && arms->places > 0 ? tip_share(arms, along_arm) : 1;
}

static bool turns_there(const pare_item *item)
{
    return item->part->kind == PARE_MOTOR || item->part->kind == PARE_PROPELLER ||
           item->part->kind == PARE_PROPELLER_NUT;
}

bool pare_item_at_tips(const pare_item *item)
{
    return !item->off && !item->included_in && (item->place == PARE_AT_ARMS || turns_there(item));
}

/* Adds copies of an item that sit on one arm. */
static void add_item(const pare_craft *craft, const pare_piece *arms, const pare_item *item,
                     pare_arm_facts *facts)
{
    const double share = item->place == PARE_AT_ARMS ? tip_share(arms, item->along_arm) : 1;
    const double kg = item->part->mass_kg.value * item->count / (double)arms->places;
    facts->tip_kg += share * kg;
    if (item->job == PARE_PROTECTS)
        facts->protects_kg += share * kg;
    /* A wire or a sleeve along the arm does not turn with the tip. */
    if (share < 0.5)
        return;
    const pare_sym3 *own = &item->body.inertia_kg_m2;
    const double above_m = pare_item_station(craft, item, 0).z + item->body.at_m.z -
                           arms->at_m[0].z + pare_piece_arm_deep_m(arms) / 2;
    facts->arm.tip_inertia_kg_m2 += kg * ((own->xx + own->yy) / 2 + above_m * above_m);
}

bool pare_joint_at_tips(const pare_craft *craft, const pare_joint *joint)
{
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    return motor >= 0 && joint->holds && pare_same_name(joint->holds, craft->item[motor].name);
}

static void load_tip(const pare_craft *craft, const pare_sheet *sheet, const pare_piece *arms,
                     pare_arm_facts *facts)
{
    for (size_t i = 0; i < craft->items; i++) {
        if (pare_item_at_tips(&craft->item[i]))
            add_item(craft, arms, &craft->item[i], facts);
    }
    for (size_t i = 0; i < sheet->assembly.lines; i++) {
        const pare_line *line = &sheet->assembly.line[i];
        if (line->of != PARE_LINE_JOINT || !pare_joint_at_tips(craft, &craft->joint[line->index]))
            continue;
        facts->tip_kg += line->mass_kg.value / (double)arms->places;
    }
    facts->arm.tip_kg = facts->tip_kg;
}

static pare_arm_cloth cloth_of(const pare_piece *arms, pare_arm_facts *facts)
{
    const pare_material *material = arms->material;
    facts->strength_share_u = PLATE_STRENGTH;
    if (!material || pare_same_name(material->name, "carbon"))
        return pare_arm_cloth_of(arms->cloth, arms->off_axis_rad);
    facts->strength_share_u = HANDBOOK_SHARE;
    const double low = 1 - HANDBOOK_SHARE, high = 1 + HANDBOOK_SHARE;
    return (pare_arm_cloth){low * material->bend_pa,  material->bend_pa,  high * material->bend_pa,
                            low * material->shear_pa, material->shear_pa, high * material->shear_pa,
                            material->strength_pa};
}

/* Only the flow across an arm presses on it. */
static double drag_m2(const pare_piece *arms, double length_m)
{
    const double deep_m = pare_piece_arm_deep_m(arms);
    double sum_m2 = 0;
    for (size_t i = 0; i < arms->places; i++) {
        const double across = fabs(arms->at_m[i].y) / hypot(arms->at_m[i].x, arms->at_m[i].y);
        sum_m2 += pare_plate_drag(length_m / deep_m) * deep_m * length_m * across * across * across;
    }
    return sum_m2;
}

static double twist_hz(const pare_arm_facts *facts, double shear_pa)
{
    return facts->figures.torsion_hz * sqrt(shear_pa / facts->arm.shear_pa);
}

bool pare_craft_arm_facts(const pare_craft *craft, const pare_sheet *sheet, pare_arm_facts *facts)
{
    const pare_piece *arms = pare_craft_arm_piece(craft);
    if (!arms || arms->places == 0 || sheet->assembly.arms == 0 || !(arms->section_m[0] > 0))
        return false;
    *facts = (pare_arm_facts){.stated = arms->flexural_pa > 0, .arm = pare_arm_defaults()};
    pare_arm_cloth plate = cloth_of(arms, facts);
    if (facts->stated) {
        plate.low_pa = (1 - STATED_SHARE) * arms->flexural_pa;
        plate.middle_pa = arms->flexural_pa;
        plate.high_pa = (1 + STATED_SHARE) * arms->flexural_pa;
    }
    pare_arm *arm = &facts->arm;
    arm->form = arms->tube ? PARE_ARM_TUBE : PARE_ARM_PLATE;
    arm->width_m = arms->section_m[0];
    arm->thickness_m = arms->section_m[1];
    arm->length_m = hypot(arms->at_m[0].x, arms->at_m[0].y) - arms->root_m;
    arm->flexural_pa = plate.middle_pa;
    arm->shear_pa = plate.shear_pa;
    arm->strength_pa = plate.strength_pa;
    arm->density_kg_m3 = arms->density_kg_m3;
    facts->drag_m2 = drag_m2(arms, arm->length_m);
    load_tip(craft, sheet, arms, facts);
    pare_arm bare = *arm;
    bare.tip_kg -= facts->protects_kg;
    pare_arm_figures without;
    if (pare_arm_work_out(arm, &facts->figures, NULL) != PARE_OK ||
        pare_arm_work_out(&bare, &without, NULL) != PARE_OK)
        return false;
    facts->bare_hz = without.bending_hz;
    facts->low_hz = facts->figures.bending_hz * sqrt(plate.low_pa / plate.middle_pa);
    facts->high_hz = facts->figures.bending_hz * sqrt(plate.high_pa / plate.middle_pa);
    facts->twist_low_hz = twist_hz(facts, plate.shear_low_pa);
    facts->twist_high_hz = twist_hz(facts, plate.shear_high_pa);
    facts->most_m_per_n = facts->figures.m_per_n * plate.middle_pa / plate.low_pa;
    facts->m_per_n_share_u = (plate.high_pa - plate.low_pa) / (2 * plate.middle_pa * sqrt(3));
    return true;
}
