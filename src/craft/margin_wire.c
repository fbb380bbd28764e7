/* margin_wire.c: what the craft's power wires lose and how hot they get (see margin_inside.h).
 *
 * A wire is thin enough when it neither melts its solder nor wastes the pack. Its heat goes with the
 * square of the current, so the rms of the flight settles it and full throttle comes on top for a
 * burst. Still air is assumed: a lead lies under the frame, and with the wind on it it is cooler.
 * Phase leads carry the root of two thirds of the motor's current, as a six-step drive feeds two of
 * three at a time. Wires that carry signals or an ampere are left alone. */
#include "craft/margin_inside.h"

#include <math.h>

#include "base/text.h"
#include "craft/flight.h"
#include "physics/wire.h"
#include "physics/wire_heat.h"

#define INSULATION_DEGC 200.0 /* the silicone class; common practice, no source */
#define INSULATION_U    10.0
#define DROP_SHARE      0.02 /* of the pack's volts that a lead may lose */

#define STEP 0.01 /* of a current, for what it does to the heat */

/* A wire with its currents. */
typedef struct wire {
    const char *name;
    double gauge, outer_m, length_m; /* both ways */
    double rms_a, full_a;
    pare_together currents; /* both, in what they are off by */
} wire;

static pare_wire_load load_of(const wire *w, const pare_air *air)
{
    pare_wire_load load = pare_wire_load_defaults();
    load.gauge = w->gauge;
    load.outer_m = w->outer_m;
    load.current_a = w->rms_a;
    load.ambient_degc = air->temperature_degc;
    load.pressure_pa = air->pressure_pa;
    return load;
}

/* One that melts is as hot as copper gets; then no margin holds. */
#define MELTED_DEGC 1085.0

static void heat_of(const wire *w, const pare_air *air, double rms_a, double full_a,
                    double *settled_degc, double *burst_degc)
{
    pare_wire_load load = load_of(w, air);
    load.current_a = rms_a;
    pare_wire_heat settled, burst;
    *settled_degc = *burst_degc = MELTED_DEGC;
    if (pare_wire_burst(&load, full_a, PARE_BURST_S, &settled, &burst, NULL) == PARE_OK) {
        *settled_degc = settled.conductor_degc;
        *burst_degc = burst.conductor_degc;
    } else if (pare_wire_steady(&load, &settled, NULL) == PARE_OK) {
        *settled_degc = settled.conductor_degc;
    }
}

static pare_lead_heat temperatures(const wire *w, pare_sheet *sheet)
{
    const pare_air *air = &sheet->rig.air;
    double settled, burst;
    heat_of(w, air, w->rms_a, w->full_a, &settled, &burst);
    pare_lead_heat heat = {.gauge = w->gauge,
                           .settled_degc = settled,
                           .burst_degc = burst,
                           .rms_a = w->rms_a,
                           .full_a = w->full_a};
    if (sheet->with_u && burst < MELTED_DEGC) {
        double up, up_burst, full, full_burst;
        heat_of(w, air, w->rms_a * (1 + STEP), w->full_a, &up, &up_burst);
        heat_of(w, air, w->rms_a, w->full_a * (1 + STEP), &full, &full_burst);
        heat.settled_by_rms = (up - settled) / STEP;
        heat.burst_by_rms = (up_burst - burst) / STEP;
        heat.burst_by_full = (full_burst - burst) / STEP;
    }
    const double settled_u = pare_together_share_u(sheet, w->currents, heat.settled_by_rms, 0);
    const double burst_u =
        pare_together_share_u(sheet, w->currents, heat.burst_by_rms, heat.burst_by_full);
    const pare_bound joint = {
        .value = settled,
        .figures_u = settled_u,
        .own_share = PARE_CONVECTION_U,
        .limit = PARE_JOINT_DEGC,
        .limit_u = PARE_JOINT_U,
        .from_zero = air->temperature_degc,
        .unit = "C",
        .from = "solder and connectors unless stated, at the rms as flown in still air",
        .caution = "a hot lead softens its solder before its insulation: touch it after a flight, "
                   "with the pack off"};
    pare_margin_add(sheet, &joint, "wire_joint", w->name);
    const pare_bound insulation = {.value = burst,
                                   .figures_u = burst_u,
                                   .own_share = PARE_CONVECTION_U *
                                                (settled - air->temperature_degc) /
                                                (burst - air->temperature_degc),
                                   .limit = INSULATION_DEGC,
                                   .limit_u = INSULATION_U,
                                   .from_zero = air->temperature_degc,
                                   .unit = "C",
                                   .from = "the silicone class, after 3 s of full throttle on top "
                                           "of the rms"};
    pare_margin_add(sheet, &insulation, "wire_burst", w->name);
    return heat;
}

/* Full throttle on a fresh pack, copper as warm as the flight leaves it: 40 degC. */
static void drop(const wire *w, pare_sheet *sheet)
{
    const pare_pack *pack = &sheet->rig.pack;
    const double volts = pare_pack_open_v(pack, PARE_CHARGE_FRESH);
    const double lost = w->full_a * w->length_m * pare_wire_ohm_per_m(w->gauge, 40);
    const pare_bound b = {.value = 100 * lost / volts,
                          .figures_u =
                              100 * lost / volts * pare_together_share_u(sheet, w->currents, 0, 1),
                          .limit = 100 * DROP_SHARE,
                          .unit = "%",
                          .from = "2 % of a fresh pack's volts, at full throttle"};
    pare_margin_add(sheet, &b, "wire_drop", w->name);
}

/* Whether an item is the first that does a kind's work. */
static bool is_the(const pare_craft *craft, int item, pare_kind kind)
{
    return item >= 0 && pare_part_does(craft->item[item].part, kind) &&
           item == pare_craft_doing(craft, kind);
}

bool pare_run_carries(const pare_craft *craft, const pare_run *run, pare_carried *carried)
{
    if (!run->carries)
        return false;
    const int item = pare_craft_item(craft, run->carries);
    carried->motors = pare_same_name(run->carries, "motor") || is_the(craft, item, PARE_MOTOR);
    carried->lead = pare_same_name(run->carries, "pack");
    const bool of_esc = is_the(craft, item, PARE_ESC_ONE) || is_the(craft, item, PARE_ESC_FOUR);
    /* One ESC of four carries a quarter of the pack's current. */
    carried->share = carried->motors ? sqrt(2.0 / 3)
                     : of_esc        ? 1.0 / fmax(craft->item[item].count, 1)
                                     : 1;
    return carried->motors || carried->lead || of_esc;
}

static bool currents_of(const pare_craft *craft, const pare_sheet *sheet, const pare_run *run,
                        wire *w)
{
    pare_carried carried;
    if (!pare_run_carries(craft, run, &carried))
        return false;
    const pare_sheet_figure *full =
        &sheet->figure[carried.motors ? PARE_MOTOR_FULL_A : PARE_FULL_A];
    const pare_sheet_figure *rms =
        &sheet->figure[carried.motors ? PARE_FLOWN_MOTOR_A : PARE_FLOWN_RMS_A];
    w->currents = carried.motors ? PARE_TOGETHER_MOTOR : PARE_TOGETHER_PACK;
    w->rms_a = carried.share * rms->value;
    w->full_a = carried.share * full->value;
    return full->exists && rms->exists && w->rms_a > 0;
}

/* The connector sits on the hottest of the pack's leads. */
void pare_wire_margins(const pare_craft *craft, pare_sheet *sheet)
{
    pare_lead_heat lead = {.gauge = 0};
    for (size_t i = 0; i < craft->runs; i++) {
        const pare_run *run = &craft->run[i];
        wire w = {.name = run->name, .gauge = run->gauge, .outer_m = run->outer_m};
        if (!currents_of(craft, sheet, run, &w))
            continue;
        for (size_t k = 0; k < run->ways; k++)
            w.length_m += run->way_m[k];
        const pare_lead_heat heat = temperatures(&w, sheet);
        if (!pare_same_name(run->carries, "pack"))
            continue;
        drop(&w, sheet);
        if (lead.gauge == 0 || heat.settled_degc > lead.settled_degc)
            lead = heat;
    }
    pare_connector_margins(craft, lead.gauge > 0 ? &lead : NULL, sheet);
}
