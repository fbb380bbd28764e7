/* margin_spike.c: the volts that a cut throttle leaves at the ESC (see margin_inside.h).
 *
 * Leads are coils: what they carry at full throttle has to go somewhere when the ESC stops taking it, and
 * braking sends some current back on top. The capacitor at the ESC takes it, the better the larger it is
 * and the shorter the leads are (physics/spike.h). The leads' inductance follows from their length and
 * thickness; the rest is estimated [E], from memory: 20 nH a cell in the pack, an electrolytic capacitor's
 * own resistance 25 us over its capacitance, 20 uF a motor on the ESC itself, three tenths of full
 * throttle's current sent back, and an ESC's switches that bear a fifth more than the pack that its maker
 * states. A capacitor is held to what is printed on it. */
#include "craft/margin_inside.h"

#include <math.h>

#include "base/text.h"
#include "craft/flight.h"
#include "craft/to_rig.h"
#include "physics/spike.h"
#include "physics/wire.h"

#define PI            3.14159265358979323846
#define CELL_H        20e-9
#define SERIES_S      25e-6
#define ESC_F         20e-6 /* a motor */
#define UNKNOWN_F     330e-6
#define SENT_BACK     0.3
#define SWITCHES_BEAR 1.2
#define SWITCHES_U    0.1
#define SPIKE_U       0.35 /* of the rise */
#define STRANDS_FILL  0.75

static double pair_henry(double gauge, double outer_m, double way_m)
{
    const double copper_m = sqrt(4 * pare_wire_area_m2(gauge) / (STRANDS_FILL * PI));
    return pare_lead_henry(way_m, copper_m, outer_m > 0 ? outer_m : pare_wire_outer_m(gauge));
}

/* The craft's runs, and the pack's own lead where none of them describes it. */
static double lead_henry(const pare_craft *craft, const pare_item *pack)
{
    double henry = CELL_H * pack->part->spec[PARE_SPEC_CELLS].value;
    bool described = false;
    for (size_t i = 0; i < craft->runs; i++) {
        const pare_run *run = &craft->run[i];
        if (!run->carries || !pare_same_name(run->carries, "pack"))
            continue;
        double way_m = 0;
        for (size_t k = 0; k < run->ways; k++)
            way_m += run->way_m[k] / 2;
        henry += pair_henry(run->gauge, run->outer_m, way_m);
        described = described || (run->included_in && pare_same_name(run->included_in, pack->name));
    }
    for (size_t i = 0; i < pack->part->includes && !described; i++) {
        const pare_include *lead = &pack->part->include[i];
        if (lead->what == PARE_INCLUDES_RUN)
            henry += pair_henry(lead->gauge, lead->outer_m, lead->length_m * lead->count / 2);
    }
    return henry;
}

/* @return the first capacitor's place, or -1 */
static int capacitors(const pare_craft *craft, int motors, pare_spike_path *path)
{
    double bulk_f = 0;
    int first = -1;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->off || !pare_part_does(item->part, PARE_CAPACITOR))
            continue;
        const double stated_f = item->part->spec[PARE_SPEC_CAPACITANCE].value;
        bulk_f += item->count * (stated_f > 0 ? stated_f : UNKNOWN_F);
        if (first < 0)
            first = (int)i;
    }
    const double own_f = ESC_F * motors;
    path->farad = bulk_f + own_f;
    path->series_ohm = bulk_f > 0 ? pare_beside_ohm(bulk_f, SERIES_S / bulk_f, own_f) : 0;
    return first;
}

/* What the volts rise over the open pack's, and how far they are off by the pack's resistance. */
typedef struct risen {
    double open_v, rise_v, by_ohm_v;
} risen;

/* The rise goes with the current, and so do its errors; the law's own are those of its estimates. */
static void margin(const risen *by, double limit_v, double limit_u, const char *name,
                   const char *from, pare_sheet *sheet)
{
    const double value_v = by->open_v + by->rise_v;
    const pare_bound b = {.value = value_v,
                          .figures_u = by->rise_v * pare_figure_share_u(sheet, PARE_FULL_A),
                          .own_share = hypot(SPIKE_U * by->rise_v, by->by_ohm_v) / value_v,
                          .limit = limit_v,
                          .limit_u = limit_u,
                          .unit = "V",
                          .from = from,
                          .caution = "long leads without a capacitor kill ESCs: keep both short, "
                                     "and the capacitor at the ESC's own pads"};
    pare_margin_add(sheet, &b, name, NULL);
}

void pare_spike_margins(const pare_craft *craft, pare_sheet *sheet)
{
    const pare_rig *rig = &sheet->rig;
    const pare_sheet_figure *full = &sheet->figure[PARE_FULL_A];
    const int pack = pare_craft_doing(craft, PARE_PACK);
    const int four = pare_craft_doing(craft, PARE_ESC_FOUR);
    const int esc = four >= 0 ? four : pare_craft_doing(craft, PARE_ESC_ONE);
    if (!full->exists || pack < 0 || esc < 0)
        return;
    /* The pack as its part has it: how well its resistance is known is said here, by its share of what
     * is sent back. */
    const pare_item *cells = &craft->item[pack];
    const pare_value *group = &cells->part->spec[PARE_SPEC_RESISTANCE];
    pare_pack at_rest = rig->pack;
    at_rest.resistance_factor = 1;
    pare_part_cells(cells->part, cells->count, &at_rest);
    const double sent_a = SENT_BACK * full->value;
    const double ohm = pare_pack_ohm(&at_rest, PARE_CHARGE_FRESH, 0);
    const double ohm_u =
        (ohm - at_rest.lead_ohm) * hypot(group->given ? group->u / group->value : 0,
                                         pare_pack_model_doubt(&at_rest).ohm_share_u);
    pare_spike_path path = {.open_v = at_rest.cells * pare_chemistry_full_v(at_rest.chemistry),
                            .ohm = ohm,
                            .henry = lead_henry(craft, cells),
                            .from_a = full->value,
                            .to_a = -sent_a};
    const int capacitor = capacitors(craft, rig->rotors, &path);
    pare_spike spike;
    if (pare_spike_of(&path, &spike, NULL) != PARE_OK)
        return;
    const risen by = {path.open_v, spike.peak_v - path.open_v, sent_a * ohm_u};
    const double esc_v = craft->item[esc].part->spec[PARE_SPEC_VOLTS_HIGH].value;
    if (esc_v > 0)
        margin(&by, SWITCHES_BEAR * esc_v, SWITCHES_U * esc_v, "esc.spike",
               "a fifth over what the maker states (estimated), against full throttle cut and "
               "braked on a full pack; inductance by the leads, the rest estimated",
               sheet);
    if (capacitor >= 0)
        margin(&by, craft->item[capacitor].part->spec[PARE_SPEC_VOLTS_HIGH].value, 0,
               "capacitor.spike",
               "printed on the capacitor, against full throttle cut and braked on a full pack; "
               "inductance by the leads, the rest estimated",
               sheet);
}
