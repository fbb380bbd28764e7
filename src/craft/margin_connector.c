/* margin_connector.c: whether the pack's connector bears its current (see margin_inside.h).
 *
 * Ratings first: the maker's, or the class in its name, which is a continuous current; for seconds a class
 * carries three times that, the small ones 100 A (common practice, no source). Then heat: contacts are a
 * resistance without a surface, and the wires that should draw their heat off may be hot themselves. So
 * the joint is as hot as its wires and what its contacts add. Both halves are on the craft,
 * one of them on the pack: the connector's mass is that of one half. */
#include "craft/margin_inside.h"

#include <math.h>

#include "physics/contact.h"
#include "physics/wire.h"

#define CLASS_U       0.15
#define CLASS_BURST   3.0
#define LEAST_BURST_A 100.0
#define CONTACT_U     0.35 /* of what contacts add: 0.5 to 0.8 mohm each, and the fin's estimate */
#define OVER_POWER    2.0  /* of the rms: I^2 over a fin that a hotter wire hardly changes */
#define WIRES         4
#define HALVES        2

static void ratings(const pare_part *part, pare_sheet *sheet)
{
    const pare_value *continuous = &part->spec[PARE_SPEC_CONTINUOUS],
                     *burst = &part->spec[PARE_SPEC_BURST];
    const pare_fit *fit = &part->fit[PARE_FIT_CONNECTOR];
    const double class_a = fit->count ? fit->any[0].high : 0;
    const double held_a = continuous->value > 0 ? continuous->value : class_a;
    const pare_sheet_figure *rms = &sheet->figure[PARE_FLOWN_RMS_A],
                            *full = &sheet->figure[PARE_FULL_A];
    if (!(held_a > 0))
        return;
    if (rms->exists) {
        const pare_bound b = {.value = rms->value,
                              .figures_u = rms->u,
                              .limit = held_a,
                              .limit_u = continuous->value > 0 ? continuous->u : CLASS_U * class_a,
                              .unit = "A",
                              .from =
                                  continuous->value > 0
                                      ? "stated by the maker, against the pack's rms as flown"
                                      : "the connector's class, against the pack's rms as flown"};
        pare_margin_add(sheet, &b, "connector", "continuous");
    }
    if (full->exists) {
        const bool stated = burst->value > 0;
        const double limit_a = stated ? burst->value : fmax(CLASS_BURST * held_a, LEAST_BURST_A);
        const pare_bound b = {
            .value = full->value,
            .figures_u = full->u,
            .limit = limit_a,
            .limit_u = stated ? burst->u : CLASS_U * limit_a,
            .unit = "A",
            .from = stated ? "stated by the maker, against full throttle on a fresh pack"
                           : "what its class carries for seconds (common practice), against full "
                             "throttle on a fresh pack"};
        pare_margin_add(sheet, &b, "connector", "burst");
    }
}

static void heat(const pare_part *part, const pare_lead_heat *lead, pare_sheet *sheet)
{
    const double air = sheet->rig.air.temperature_degc, rise = lead->settled_degc - air;
    const double ohm = part->spec[PARE_SPEC_RESISTANCE].value;
    if (!(rise > 0 && ohm > 0))
        return;
    const pare_contact contact = {.ohm = ohm,
                                  .mass_kg = HALVES * part->mass_kg.value,
                                  .gauge = lead->gauge,
                                  .wires = WIRES,
                                  .gives_w_m_k =
                                      lead->rms_a * lead->rms_a *
                                      pare_wire_ohm_per_m(lead->gauge, lead->settled_degc) / rise};
    const double over = pare_contact_over_k(&contact, lead->rms_a);
    const double settled_own = hypot(PARE_CONVECTION_U * rise, CONTACT_U * over);
    const pare_bound settled = {
        .value = lead->settled_degc + over,
        .figures_u = pare_together_share_u(sheet, PARE_TOGETHER_PACK,
                                           lead->settled_by_rms + OVER_POWER * over, 0),
        .own_share = settled_own / (rise + over),
        .limit = PARE_JOINT_DEGC,
        .limit_u = PARE_JOINT_U,
        .from_zero = air,
        .unit = "C",
        .from = "solder and connectors unless stated: its wires as flown in still air, and its "
                "contacts on top"};
    pare_margin_add(sheet, &settled, "connector", "heat");
    const double warm_k = lead->burst_degc - lead->settled_degc;
    const double more = pare_contact_burst_k(&contact, lead->full_a, PARE_BURST_S, warm_k);
    const double alone = pare_contact_burst_k(&contact, lead->full_a, PARE_BURST_S, 0);
    /* What the contacts' metal takes from the wires of each kelvin of theirs. */
    const double follows = more - alone != 0 ? (more - alone) / warm_k : 0;
    const double by_rms = lead->burst_by_rms + OVER_POWER * over +
                          follows * (lead->burst_by_rms - lead->settled_by_rms);
    const double by_full = (1 + follows) * lead->burst_by_full + 2 * alone;
    const double degc = lead->burst_degc + over + more;
    const pare_bound burst = {
        .value = degc,
        .figures_u = pare_together_share_u(sheet, PARE_TOGETHER_PACK, by_rms, by_full),
        .own_share = hypot(settled_own, CONTACT_U * alone) / (degc - air),
        .limit = PARE_JOINT_DEGC,
        .limit_u = PARE_JOINT_U,
        .from_zero = air,
        .unit = "C",
        .from = "solder and connectors unless stated, after 3 s of full throttle: the wire that "
                "enters, and its contacts on top",
        .caution = "a connector that was too hot once grips less and gets hotter each time: "
                   "replace it"};
    pare_margin_add(sheet, &burst, "connector", "heat_burst");
}

void pare_connector_margins(const pare_craft *craft, const pare_lead_heat *lead, pare_sheet *sheet)
{
    const int item = pare_craft_doing(craft, PARE_CONNECTOR);
    if (item < 0)
        return;
    const pare_part *part = craft->item[item].part;
    ratings(part, sheet);
    if (lead)
        heat(part, lead, sheet);
}
