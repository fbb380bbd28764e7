/* exchange.c: what one gram is worth on this craft.
 *
 * One per cent of the craft's mass is added and taken away, once at the centre of mass and once
 * shared over the motor axes, and the whole flight is evaluated again: no formula is differentiated,
 * so whatever the model holds is in the rate. A line's own gram is spread as the line is: four motors
 * share it. */
#include <math.h>

#include "craft/flight.h"
#include "craft/sheet.h"
#include "craft/to_rig.h"

#define STEP 0.01

/* Where the grams go: bodies of one kilogram each, which share them evenly. */
typedef struct spread {
    size_t count;
    pare_body body[PARE_ARMS];
} spread;

static pare_body times(pare_body body, double by)
{
    body.mass_kg *= by;
    body.inertia_kg_m2 = pare_sym3_times(by, body.inertia_kg_m2);
    return body;
}

static pare_body with_more(const pare_sheet *sheet, double more_kg, const spread *over)
{
    pare_body body[1 + PARE_ARMS] = {sheet->assembly.all};
    for (size_t i = 0; i < over->count; i++)
        body[1 + i] = times(over->body[i], more_kg / (double)over->count);
    return pare_body_sum(1 + over->count, body);
}

static void rate(const pare_craft *craft, const pare_sheet *sheet, const spread *over,
                 unsigned groups, double per_kg[PARE_FIGURES])
{
    const double h = STEP * sheet->assembly.all.mass_kg;
    double value[2][PARE_FIGURES];
    for (int side = 0; side < 2; side++) {
        pare_sheet_figure figure[PARE_FIGURES] = {0};
        pare_endurance endured;
        const pare_body all = with_more(sheet, side ? h : -h, over);
        pare_rig rig = sheet->rig;
        pare_rig_put_body(&sheet->assembly, &all, &rig);
        pare_flight_some(&craft->brief, &rig, groups, figure, &endured);
        for (int f = 0; f < PARE_FIGURES; f++)
            value[side][f] = figure[f].exists ? figure[f].value : (double)NAN;
        value[side][PARE_ALL_UP] = all.mass_kg;
        value[side][PARE_IXX] = all.inertia_kg_m2.xx;
        value[side][PARE_IYY] = all.inertia_kg_m2.yy;
        value[side][PARE_IZZ] = all.inertia_kg_m2.zz;
    }
    for (int f = 0; f < PARE_FIGURES; f++)
        per_kg[f] = (value[1][f] - value[0][f]) / (2 * h);
}

pare_status pare_sheet_exchange(const pare_craft *craft, const pare_sheet *sheet,
                                pare_exchange *exchange, pare_error *err)
{
    if (!(sheet->assembly.all.mass_kg > 0))
        return pare_fail(err, PARE_BAD_DATA, "craft '%s' has no mass to exchange", craft->name);
    const pare_body centre = {.mass_kg = 1, .at_m = sheet->assembly.all.at_m};
    spread over = {.count = 1, .body = {centre}};
    rate(craft, sheet, &over, PARE_FLY_ALL, exchange->centre);
    for (size_t i = 0; i < sheet->assembly.arms; i++)
        over.body[i] = (pare_body){.mass_kg = 1, .at_m = sheet->assembly.arm_m[i]};
    over.count = sheet->assembly.arms ? sheet->assembly.arms : 1;
    rate(craft, sheet, &over, PARE_FLY_ALL, exchange->tip);
    exchange->exists = true;
    return PARE_OK;
}

void pare_sheet_gram_of(const pare_craft *craft, const pare_sheet *sheet, size_t line,
                        double per_kg[PARE_FIGURES])
{
    const pare_body *body = &sheet->assembly.line[line].body;
    spread over = {.count = 1, .body = {{.mass_kg = 1, .at_m = body->at_m}}};
    if (body->mass_kg > 0)
        over.body[0] = times(*body, 1 / body->mass_kg);
    rate(craft, sheet, &over,
         PARE_FLY_MINUTES | PARE_FLY_FULL | PARE_FLY_BURST | PARE_FLY_QUICKNESS, per_kg);
}
