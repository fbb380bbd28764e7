/* gauges.c: a power wire in other gauges (see gauges.h).
 *
 * Each gauge is a whole craft: a thinner lead is lighter, resists more, heats its connector and lets the
 * ESC see higher spikes, so it is tried as any swap is and its margins are read off its sheet. */
#include "craft/gauges.h"

#include <math.h>
#include <string.h>

#include "craft/assemble.h"
#include "craft/flight.h"
#include "craft/margin_inside.h"
#include "physics/wire.h"
#include "physics/wire_heat.h"

#define THICKER   4.0 /* gauge numbers */
#define THINNER   6.0
#define STEP      2.0
#define LEAD_DEGC 40.0

bool pare_run_of_power(const pare_craft *craft, const pare_run *run)
{
    pare_carried carried;
    return pare_run_carries(craft, run, &carried);
}

bool pare_run_of_pack(const pare_craft *craft, const pare_run *run)
{
    pare_carried carried;
    return pare_run_carries(craft, run, &carried) && carried.lead;
}

static double margin_of_run(const pare_sheet *sheet, const char *first, const char *run)
{
    for (size_t i = 0; i < sheet->margins; i++) {
        const char *name = sheet->margin[i].name;
        const size_t length = strlen(first);
        if (strncmp(name, first, length) == 0 && strcmp(name + length, run) == 0)
            return sheet->margin[i].value;
    }
    return (double)NAN;
}

static double figure_of(const pare_sheet *sheet, pare_figure figure)
{
    return sheet->figure[figure].exists ? sheet->figure[figure].value : (double)NAN;
}

/* ---- over the flight ---- */

bool pare_run_stretches(const pare_craft *craft, const pare_sheet *sheet, const pare_run *run,
                        size_t *stretches, pare_wire_stretch stretch[PARE_FLOWN],
                        pare_wire_load *load)
{
    const pare_sheet_figure *time = &sheet->figure[PARE_FLOWN_TIME];
    pare_carried carried;
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&craft->brief, &flown);
    if (!time->exists || !pare_run_carries(craft, run, &carried))
        return false;
    for (size_t i = 0; i < entries; i++) {
        stretch[i].seconds = flown[i].share * time->value;
        pare_operating point;
        if (pare_flown_point(&sheet->rig, &flown[i], &point) != PARE_OK)
            return false;
        stretch[i].current_a =
            carried.share * (carried.motors ? point.motor.current_a : point.pack_a);
    }
    *load = pare_wire_load_defaults();
    load->gauge = run->gauge;
    load->outer_m = run->outer_m;
    load->ambient_degc = sheet->rig.air.temperature_degc;
    load->pressure_pa = sheet->rig.air.pressure_pa;
    *stretches = entries;
    return true;
}

double pare_run_flown_degc(const pare_craft *craft, const pare_sheet *sheet, const pare_run *run)
{
    pare_wire_stretch stretch[PARE_FLOWN];
    pare_wire_load load;
    pare_wire_heat end;
    size_t stretches;
    double hottest;
    if (!pare_run_stretches(craft, sheet, run, &stretches, stretch, &load) ||
        pare_wire_flown(&load, load.ambient_degc, stretches, stretch, &end, &hottest, NULL) !=
            PARE_OK)
        return (double)NAN;
    return hottest;
}

/* ---- one gauge ---- */

/* The brief's limit on all margins falls with the one that breaks, and says less. */
static void breaks(const pare_sheet *before, const pare_sheet *after, pare_in_gauge *row)
{
    row->holds = true;
    for (size_t i = 0; i < after->margins; i++) {
        const pare_margin *now = &after->margin[i];
        const bool of_all = strcmp(now->name, "limit.margin") == 0;
        if (now->ratio >= 1 || (!row->holds && of_all))
            continue;
        const pare_margin *was = pare_sheet_margin(before, now->name);
        if (was && was->ratio < 1)
            continue;
        row->holds = false;
        memcpy(row->broken, now->name, sizeof row->broken);
        if (!of_all)
            return;
    }
}

static void in_gauge(const pare_craft *craft, const pare_sheet *sheet, size_t run, double gauge,
                     pare_gauges_room *room, pare_in_gauge *row)
{
    const double nothing = (double)NAN;
    *row = (pare_in_gauge){gauge,
                           .run_kg = nothing,
                           .held_degc = nothing,
                           .flown_degc = nothing,
                           .burst_degc = nothing,
                           .lost_v = nothing,
                           .time_s = nothing,
                           .thrust = nothing};
    pare_run *changed = &room->craft.run[run];
    pare_craft_copy(craft, &room->craft);
    row->now = gauge == changed->gauge;
    if (!row->now) {
        changed->gauge = gauge;
        changed->outer_m = 0;
    }
    row->run_kg = pare_run_kg(changed);
    if (pare_sheet_weigh(&room->craft, &room->sheet, NULL) != PARE_OK)
        return;
    pare_sheet_judge(&room->craft, &room->sheet);
    pare_carried carried;
    pare_run_carries(&room->craft, changed, &carried);
    row->held_degc = margin_of_run(&room->sheet, "wire_joint.", changed->name);
    row->burst_degc = margin_of_run(&room->sheet, "wire_burst.", changed->name);
    row->flown_degc = pare_run_flown_degc(&room->craft, &room->sheet, changed);
    /* Of three phases two carry at a time, and their current is the motor's. */
    row->lost_v = (carried.motors ? 2.0 / 3 : carried.share) * pare_run_ohm(changed, LEAD_DEGC) *
                  figure_of(&room->sheet, carried.motors ? PARE_MOTOR_FULL_A : PARE_FULL_A);
    row->time_s = figure_of(&room->sheet, PARE_FLOWN_TIME) - figure_of(sheet, PARE_FLOWN_TIME);
    row->thrust =
        figure_of(&room->sheet, PARE_THRUST_FRESH) / figure_of(sheet, PARE_THRUST_FRESH) - 1;
    breaks(sheet, &room->sheet, row);
}

/* ---- what it costs ---- */

static void without(const pare_craft *craft, const pare_sheet *sheet, double ohm, double kg,
                    double *time_s, double *thrust)
{
    pare_sheet_figure figure[PARE_FIGURES];
    pare_endurance endured;
    pare_rig rig = sheet->rig;
    rig.pack.lead_ohm = fmax(rig.pack.lead_ohm - ohm, 0);
    rig.mass_kg -= kg;
    for (int f = 0; f < PARE_FIGURES; f++)
        figure[f].exists = false;
    pare_flight_some(&craft->brief, &rig, PARE_FLY_MINUTES | PARE_FLY_FULL, figure, &endured);
    *time_s = *thrust = (double)NAN;
    if (figure[PARE_FLOWN_TIME].exists)
        *time_s = figure[PARE_FLOWN_TIME].value - figure_of(sheet, PARE_FLOWN_TIME);
    if (figure[PARE_THRUST_FRESH].exists)
        *thrust = figure[PARE_THRUST_FRESH].value / figure_of(sheet, PARE_THRUST_FRESH) - 1;
}

void pare_craft_gauges(const pare_craft *craft, const pare_sheet *sheet, size_t run,
                       pare_gauges_room *room, pare_gauges *gauges)
{
    const pare_run *now = &craft->run[run];
    pare_carried carried = {false, false, 0};
    pare_run_carries(craft, now, &carried);
    *gauges = (pare_gauges){.run = now, .needed_m = pare_run_needed_m(craft, now)};
    for (size_t i = 0; i < now->ways; i++)
        gauges->longest_m = fmax(gauges->longest_m, now->way_m[i]);
    const double even = STEP * floor(now->gauge / STEP);
    for (double gauge = even - THICKER; gauge <= even + THINNER; gauge += STEP) {
        if (gauge < 8 || gauge > 32 || gauges->count == PARE_GAUGES)
            continue;
        /* One that is on between two sizes stands beside them. */
        in_gauge(craft, sheet, run, gauge, room, &gauges->row[gauges->count++]);
        if (gauge == even && now->gauge > gauge && gauges->count < PARE_GAUGES)
            in_gauge(craft, sheet, run, now->gauge, room, &gauges->row[gauges->count++]);
    }
    for (size_t i = 0; i < gauges->count; i++)
        if (gauges->row[i].holds)
            gauges->thinnest = gauges->row[i].gauge;
    gauges->costs_ohm_s = gauges->costs_s = (double)NAN;
    gauges->costs_ohm_thrust = gauges->costs_thrust = (double)NAN;
    if (!carried.lead)
        return;
    const double ohm = pare_run_ohm(now, LEAD_DEGC);
    without(craft, sheet, ohm, 0, &gauges->costs_ohm_s, &gauges->costs_ohm_thrust);
    without(craft, sheet, ohm, pare_run_kg(now), &gauges->costs_s, &gauges->costs_thrust);
}
