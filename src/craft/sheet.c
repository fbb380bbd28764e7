/* sheet.c: everything computed for one craft (see sheet.h).
 *
 * craft -> assembly (grams in their places) -> rig (numbers) -> flight figures -> margins; and, when
 * asked, the doubt about each. Nothing is looked up from elsewhere and nothing is kept between two
 * sheets, so the same craft gives the same sheet, bit for bit. */
#include "craft/sheet.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "craft/doubt.h"
#include "craft/flight.h"
#include "craft/margin.h"
#include "craft/to_rig.h"

#define LARGE_SHARE 0.05 /* of the mass: a part this large decides how well a sum is known */

const pare_figure pare_together_table[PARE_TOGETHERS][2] = {
    [PARE_TOGETHER_PACK] = {PARE_FLOWN_RMS_A, PARE_FULL_A},
    [PARE_TOGETHER_MOTOR] = {PARE_FLOWN_MOTOR_A, PARE_MOTOR_FULL_A},
    [PARE_TOGETHER_THRUST] = {PARE_THRUST_FRESH, PARE_MOTOR_FULL_A},
};

static void set(pare_sheet *sheet, pare_figure which, double value)
{
    sheet->figure[which].exists = true;
    sheet->figure[which].value = value;
}

static void body_figures(const pare_craft *craft, pare_sheet *sheet)
{
    const pare_body *all = &sheet->assembly.all;
    set(sheet, PARE_ALL_UP, all->mass_kg);
    set(sheet, PARE_CG_X, all->at_m.x);
    set(sheet, PARE_CG_Y, all->at_m.y);
    set(sheet, PARE_CG_Z, all->at_m.z);
    set(sheet, PARE_IXX, all->inertia_kg_m2.xx);
    set(sheet, PARE_IYY, all->inertia_kg_m2.yy);
    set(sheet, PARE_IZZ, all->inertia_kg_m2.zz);
    set(sheet, PARE_IXY, all->inertia_kg_m2.xy);
    set(sheet, PARE_IXZ, all->inertia_kg_m2.xz);
    set(sheet, PARE_IYZ, all->inertia_kg_m2.yz);
    double pack_kg = 0;
    for (size_t i = 0; i < sheet->assembly.lines; i++) {
        const pare_line *line = &sheet->assembly.line[i];
        if (line->of == PARE_LINE_ITEM && pare_part_does(craft->item[line->index].part, PARE_PACK))
            pack_kg += line->mass_kg.value;
    }
    set(sheet, PARE_DRY, all->mass_kg - pack_kg);
    if (pack_kg > 0)
        set(sheet, PARE_PACK_SHIFT, -all->at_m.x * all->mass_kg / pack_kg);
}

static void money(const pare_craft *craft, pare_sheet *sheet)
{
    double sum = 0;
    sheet->priced = 0;
    sheet->unpriced = 0;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->off || item->included_in)
            continue;
        if (item->part->price.given) {
            sum += item->count * item->part->price.each;
            sheet->priced++;
        } else {
            sheet->unpriced++;
        }
    }
    set(sheet, PARE_MONEY, sum);
}

/* What a stand shows of a craft at rest, its weight aside; the rest of flight leans on more. */
static const struct {
    pare_figure figure;
    bool by_weight;
} at_rest[] = {{PARE_HOVER_OUTPUT, true}, {PARE_HOVER_A, true},      {PARE_HOVER_W, true},
               {PARE_HOVER_W_KG, true},   {PARE_HOVER_RPM, true},    {PARE_THRUST_FRESH, false},
               {PARE_TWR_FRESH, true},    {PARE_TWR_HALF, true},     {PARE_TWR_LANDING, true},
               {PARE_FULL_A, false},      {PARE_MOTOR_FULL_A, false}};

/* A sum is known no better than its worst large part; flight figures are computed, or estimated
 * where the motor's or pack's figures came from a law. Where a stand measured the pair, those figures
 * are the table's, and what the pair gives at rest counts as measured. */
static void how_known(const pare_craft *craft, pare_sheet *sheet)
{
    const double large = LARGE_SHARE * sheet->assembly.all.mass_kg;
    pare_known mass = PARE_WEIGHED;
    for (size_t i = 0; i < sheet->assembly.lines; i++) {
        const pare_line *line = &sheet->assembly.line[i];
        if (line->mass_kg.value >= large && line->mass_kg.known > mass)
            mass = line->mass_kg.known;
    }
    const pare_known body = mass == PARE_ESTIMATED ? PARE_ESTIMATED : PARE_COMPUTED;
    pare_known flight = body;
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    static const pare_spec decide[] = {PARE_SPEC_RESISTANCE, PARE_SPEC_NO_LOAD};
    for (size_t i = 0; i < sizeof decide / sizeof decide[0]; i++)
        if (!sheet->rig.pair && !craft->item[motor].part->spec[decide[i]].given)
            flight = PARE_ESTIMATED;
    for (int f = 0; f < PARE_FIGURES; f++)
        sheet->figure[f].known = f >= PARE_HOVER_OUTPUT ? flight : body;
    for (size_t i = 0; i < sizeof at_rest / sizeof at_rest[0] && sheet->rig.pair; i++)
        sheet->figure[at_rest[i].figure].known =
            at_rest[i].by_weight && body == PARE_ESTIMATED ? PARE_ESTIMATED : PARE_MEASURED;
    for (int f = PARE_HOVER_OUTPUT; f < PARE_CRASH; f++)
        if (pare_taught_applies(craft, sheet->rig.pair != NULL, PARE_TAUGHT_THRUST) &&
            sheet->figure[f].known != PARE_MEASURED)
            sheet->figure[f].known = PARE_LEARNED;
    /* The scale had all of it; and the pack can be taken off that. */
    if (craft->weighed && craft->weighed->forgotten < craft->weighed->masses)
        mass = PARE_WEIGHED;
    sheet->figure[PARE_ALL_UP].known = mass;
    sheet->figure[PARE_DRY].known = mass;
    sheet->figure[PARE_CRASH].known = body;
    sheet->figure[PARE_MONEY].known = PARE_STATED;
    sheet->figure[PARE_AIR_DENSITY].known = PARE_COMPUTED;
    sheet->figure[PARE_DENSITY_ALTITUDE].known = PARE_COMPUTED;
}

pare_status pare_sheet_weigh(const pare_craft *craft, pare_sheet *sheet, pare_error *err)
{
    for (int f = 0; f < PARE_FIGURES; f++) {
        sheet->figure[f].exists = false;
        sheet->figure[f].value = 0;
        sheet->figure[f].u = 0;
        sheet->figure[f].why[0] = '\0';
    }
    memset(sheet->covariance, 0, sizeof sheet->covariance);
    sheet->with_u = false;
    sheet->flown = 0;
    pare_status status = pare_assemble(craft, &sheet->assembly, err);
    if (status == PARE_OK)
        status = pare_craft_rig(craft, &sheet->assembly, &sheet->rig, err);
    if (status != PARE_OK)
        return status;
    body_figures(craft, sheet);
    money(craft, sheet);
    return PARE_OK;
}

void pare_sheet_fly(const pare_craft *craft, pare_figures wanted, pare_sheet *sheet)
{
    const unsigned groups = pare_flight_groups(wanted) & ~sheet->flown;
    if (groups == 0)
        return;
    pare_endurance endured;
    pare_flight_some(&craft->brief, &sheet->rig, groups, sheet->figure, &endured);
    sheet->flown |= groups;
    if ((groups & PARE_FLY_MINUTES) == 0)
        return;
    sheet->landed_by_voltage = endured.by_voltage;
    sheet->held_at_full = endured.full_throttle;
    sheet->flown_slow_rad_s = endured.slow_rad_s;
    sheet->flown_fast_rad_s = endured.fast_rad_s;
}

void pare_sheet_judge(const pare_craft *craft, pare_sheet *sheet)
{
    pare_sheet_fly(craft, pare_margin_figures(craft), sheet);
    pare_sheet_margins(craft, sheet);
}

void pare_sheet_copy(const pare_sheet *from, pare_sheet *to)
{
    static_assert(offsetof(pare_sheet, assembly) == 0, "what stands before is copied as well");
    static_assert(offsetof(pare_assembly, line) == sizeof(size_t),
                  "what stands between is copied as well");
    const size_t between = offsetof(pare_sheet, assembly.all),
                 behind = offsetof(pare_sheet, margin) + sizeof from->margin;
    to->assembly.lines = from->assembly.lines;
    memcpy(to->assembly.line, from->assembly.line,
           from->assembly.lines * sizeof from->assembly.line[0]);
    memcpy((char *)to + between, (const char *)from + between,
           offsetof(pare_sheet, margin) - between);
    memcpy(to->margin, from->margin, from->margins * sizeof from->margin[0]);
    memcpy((char *)to + behind, (const char *)from + behind, sizeof *from - behind);
}

pare_status pare_sheet_compute(const pare_craft *craft, bool with_u, pare_sheet *sheet,
                               pare_error *err)
{
    const pare_status status = pare_sheet_weigh(craft, sheet, err);
    if (status != PARE_OK)
        return status;
    pare_principal(&sheet->assembly.all.inertia_kg_m2, sheet->principal_kg_m2,
                   &sheet->principal_axes);
    pare_sheet_fly(craft, PARE_EVERY_FIGURE, sheet);
    how_known(craft, sheet);
    if (with_u)
        pare_sheet_doubt(craft, sheet);
    pare_sheet_margins(craft, sheet);
    const pare_margin *all_up = pare_sheet_margin(sheet, "limit.all_up");
    sheet->chance_all_up = all_up ? all_up->chance : (double)NAN;
    return PARE_OK;
}

void pare_sheet_weigh_first(const pare_sheet *sheet, size_t order[PARE_LINES],
                            double share[PARE_LINES])
{
    const pare_assembly *assembly = &sheet->assembly;
    double variance[PARE_LINES], sum = 0;
    size_t rank[PARE_LINES];
    for (size_t i = 0; i < assembly->lines; i++) {
        const double u = assembly->line[i].mass_kg.u;
        variance[i] = u * u;
        sum += variance[i];
        size_t at = i;
        for (; at > 0 && variance[rank[at - 1]] < variance[i]; at--)
            rank[at] = rank[at - 1];
        rank[at] = i;
    }
    for (size_t i = 0; i < assembly->lines; i++) {
        if (order)
            order[i] = rank[i];
        if (share)
            share[i] = sum > 0 ? variance[rank[i]] / sum : 0;
    }
}
