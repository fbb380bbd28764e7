/* hover.c: what a hover's output will be (see hover.h).
 *
 * The sheet has the output at half charge with its doubt. What this flight differs in, its mass and how full
 * its pack was, moves that by the ratio of two operating points: the doubt goes along, since rotors that
 * are off by a share are so at any charge. */
#include "advise/hover.h"

#include <math.h>
#include <stdlib.h>

#include "advise/learn_inside.h"
#include "craft/flight.h"
#include "craft/sheet.h"

#define NINE_IN_TEN 1.6449 /* u, of a normal deviate */
#define LANDING     0.2    /* of its charge: nobody hovers longer */
#define SIDES       3.4641 /* sqrt(12): of an even spread */

double pare_hover_output(const pare_flight_record *flight)
{
    pare_log_said said;
    if (!pare_flown_hovers(flight->entries, flight->flown))
        return NAN;
    if (flight->output > 0)
        return flight->output;
    if (!flight->log)
        return NAN;
    pare_log_say(flight->log, true, &said);
    return said.output > 0 ? said.output : (double)NAN;
}

static double hovered_s(const pare_flight_record *flight)
{
    pare_log_said said;
    if (flight->lasted_s > 0 || !flight->log)
        return flight->lasted_s;
    pare_log_say(flight->log, true, &said);
    return said.flown_s;
}

static pare_status duty_at(const pare_rig *rig, double charge, double *duty, pare_error *err)
{
    pare_operating point;
    const pare_status status = pare_rig_thrust(rig, 1, charge, &point, err);
    if (status == PARE_OK)
        *duty = point.duty;
    return status;
}

/* By which factor it differs from half charge, and that factor's doubt. */
static pare_status by_charge(const pare_flight_record *flight, const pare_sheet *sheet,
                             double *factor, double *factor_u, pare_error *err)
{
    const double lasted_s = hovered_s(flight);
    double half = 1, here = 1, full = 1, empty = 1;
    pare_rig rig = sheet->rig;
    pare_status status = duty_at(&rig, PARE_CHARGE_HALF, &half, err);
    if (flight->take_off_kg > 0)
        rig.mass_kg = flight->take_off_kg;
    const double taken =
        sheet->figure[PARE_HOVER_A].value * lasted_s / rig.pack.capacity_c; /* NAN: not said */
    const double middle = taken > 0 ? fmax(1 - taken / 2, LANDING) : PARE_CHARGE_HALF;
    if (status == PARE_OK)
        status = duty_at(&rig, middle, &here, err);
    if (status == PARE_OK && !(taken > 0))
        status = duty_at(&rig, 1, &full, err);
    if (status == PARE_OK && !(taken > 0))
        status = duty_at(&rig, LANDING, &empty, err);
    *factor = here / half;
    *factor_u = (empty - full) / half / SIDES;
    return status;
}

/* @param flight  what it differs in */
static pare_status between(const pare_sheet *sheet, const pare_flight_record *flight, double *low,
                           double *high, pare_error *err)
{
    const pare_sheet_figure *output = &sheet->figure[PARE_HOVER_OUTPUT];
    double factor = 1, factor_u = 0;
    if (!output->exists)
        return pare_fail(err, PARE_BAD_DATA, "it does not hover: %s", output->why);
    const pare_status status = by_charge(flight, sheet, &factor, &factor_u, err);
    if (status != PARE_OK)
        return status;
    const double middle = factor * output->value;
    const double u =
        hypot(hypot(factor * output->u, PARE_HOVER_OUTPUT_U * middle), factor_u * output->value);
    *low = fmax(middle - NINE_IN_TEN * u, 0);
    *high = middle + NINE_IN_TEN * u;
    return PARE_OK;
}

pare_status pare_hover_between(const pare_sheet *sheet, double *low, double *high, pare_error *err)
{
    const pare_flight_record any = {.take_off_kg = NAN, .lasted_s = NAN};
    return between(sheet, &any, low, high, err);
}

pare_status pare_hover_promise(const pare_craft *craft, pare_flight_record *flight, pare_error *err)
{
    pare_craft *loaded = malloc(sizeof *loaded);
    pare_sheet *sheet = malloc(sizeof *sheet);
    pare_status status = loaded && sheet ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_again_load(craft, flight, loaded, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(loaded, true, sheet, err);
    if (status == PARE_OK)
        status = between(sheet, flight, &flight->low, &flight->high, err);
    flight->promised = status == PARE_OK;
    free(sheet);
    free(loaded);
    return status == PARE_BAD_DATA ? pare_within(err, "craft '%s'", craft->name) : status;
}

void pare_hover_foretell(const pare_craft *craft, pare_flight_record *flight)
{
    pare_error why;
    const double output = pare_hover_output(flight);
    if (isfinite(output) && pare_hover_promise(craft, flight, &why) == PARE_OK)
        flight->output = output;
}

pare_hover_score pare_hover_score_of(size_t count, const pare_hovered hover[])
{
    pare_hover_score score = {count, 0};
    for (size_t i = 0; i < count; i++)
        score.held += hover[i].output >= hover[i].low && hover[i].output <= hover[i].high;
    return score;
}
