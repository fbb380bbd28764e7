/* exchange.c: what one gram is worth on this craft.
 *
 * One per cent of the craft's mass is added and taken away, once at the centre of mass and once
 * shared over the motor axes, and the whole flight is evaluated again: no formula is differentiated,
 * so whatever the model holds is in the rate. */
#include <math.h>

#include "craft/flight.h"
#include "craft/sheet.h"
#include "craft/to_rig.h"

#define STEP 0.01

static pare_body with_more(const pare_sheet *sheet, double more_kg, bool at_tips)
{
    const pare_assembly *assembly = &sheet->assembly;
    pare_body body[1 + PARE_ARMS] = {assembly->all};
    size_t count = 1;
    if (at_tips && assembly->arms > 0)
        for (size_t i = 0; i < assembly->arms; i++)
            body[count++] = (pare_body){.mass_kg = more_kg / (double)assembly->arms,
                                        .at_m = assembly->arm_m[i]};
    else
        body[count++] = (pare_body){.mass_kg = more_kg, .at_m = assembly->all.at_m};
    return pare_body_sum(count, body);
}

static void rate(const pare_craft *craft, const pare_sheet *sheet, bool at_tips,
                 double per_kg[PARE_FIGURES])
{
    const double h = STEP * sheet->assembly.all.mass_kg;
    double value[2][PARE_FIGURES];
    for (int side = 0; side < 2; side++) {
        pare_sheet_figure figure[PARE_FIGURES] = {0};
        pare_endurance endured;
        const pare_body all = with_more(sheet, side ? h : -h, at_tips);
        pare_rig rig = sheet->rig;
        pare_rig_put_body(&sheet->assembly, &all, &rig);
        pare_flight_figures(&craft->brief, &rig, figure, &endured);
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
    rate(craft, sheet, false, exchange->centre);
    rate(craft, sheet, true, exchange->tip);
    exchange->exists = true;
    return PARE_OK;
}
