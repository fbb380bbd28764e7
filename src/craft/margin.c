/* margin.c: limits and ratings (see margin.h).
 *
 * A margin is a ratio: what a thing bears over what it must bear, 1 or more holds. A limit that is
 * sharp is met with the chance that a normal figure is on its right side. Where the limit or a law is in
 * doubt too, both sides are quantities that cannot be less than nothing, and some are known to a third
 * only: they are taken as log-normal, as their ratio then is, so that a strength that is doubted by half
 * is not one that may be below zero. tests/unit/margin_draws.c compares both with draws. ESC ratings are
 * compared with the motor's current, which a part-throttle ESC carries in full: the continuous one
 * with the rms over the flown profile (heat goes with the square), the burst one with full throttle on
 * a fresh pack. */
#include "craft/margin.h"

#include <math.h>
#include <string.h>

#include "craft/flight.h"
#include "craft/margin_inside.h"

#define USUAL_OUT_V           5.0
#define BURST_OVER_CONTINUOUS 1.2 /* [E] where a maker states no burst rating */

/* The variance of the logarithm of a log-normal quantity, from its median and standard deviation. */
static double log_variance(double median, double u)
{
    const double share = median != 0 ? u / median : 0;
    return log(0.5 * (1 + sqrt(1 + 4 * share * share)));
}

static void doubt_sharp(double value, double value_u, double limit, pare_margin *margin)
{
    const double above = margin->at_least ? value - limit : limit - value;
    margin->ratio_u = value != 0 ? fabs(margin->ratio * value_u / value) : 0;
    if (value_u > 0)
        margin->chance = 0.5 * erfc(-above / (value_u * sqrt(2)));
}

static void doubt_both(double value, double value_u, double limit, double limit_u,
                       pare_margin *margin)
{
    const double variance = log_variance(value, value_u) + log_variance(limit, limit_u);
    if (!(margin->ratio > 0 && variance > 0))
        return;
    margin->ratio_u = margin->ratio * sqrt(expm1(variance) * exp(variance));
    margin->chance = 0.5 * erfc(-log(margin->ratio) / sqrt(2 * variance));
}

double pare_figure_share_u(const pare_sheet *sheet, pare_figure figure)
{
    const pare_sheet_figure *f = &sheet->figure[figure];
    return f->exists && f->value != 0 ? fabs(f->u / f->value) : 0;
}

double pare_together_share_u(const pare_sheet *sheet, pare_together which, double first,
                             double second)
{
    const pare_figure a = pare_together_table[which][0], b = pare_together_table[which][1];
    const double u_a = first * pare_figure_share_u(sheet, a);
    const double u_b = second * pare_figure_share_u(sheet, b);
    const double values = sheet->figure[a].value * sheet->figure[b].value;
    const double both = values != 0 ? first * second * sheet->covariance[which] / values : 0;
    return sqrt(fmax(u_a * u_a + u_b * u_b + 2 * both, 0));
}

/* Joined by hand: some thirty a sheet, and printf would take as long as the figures of a turn. */
static void name(pare_margin *margin, const char *first, const char *rest)
{
    const size_t room = sizeof margin->name - 1;
    size_t used = strnlen(first, room);
    memcpy(margin->name, first, used);
    if (rest && used < room) {
        margin->name[used++] = '.';
        const size_t added = strnlen(rest, room - used);
        memcpy(margin->name + used, rest, added);
        used += added;
    }
    margin->name[used] = '\0';
}

/* value, limit: from where both are counted. */
static void doubt(const pare_bound *b, double value, double limit, pare_margin *margin)
{
    margin->own_u = b->own_share * fabs(value);
    margin->value_u = hypot(b->figures_u, margin->own_u);
    margin->limit_u = b->limit_u;
    margin->chance = margin->ratio >= 1 ? 1 : 0;
    if (b->own_share > 0 || b->limit_u > 0)
        doubt_both(value, margin->value_u, limit, b->limit_u, margin);
    else
        doubt_sharp(value, margin->value_u, limit, margin);
}

pare_margin *pare_margin_add(pare_sheet *sheet, const pare_bound *b, const char *first,
                             const char *rest)
{
    if (sheet->margins == PARE_MARGINS)
        return NULL;
    pare_margin *margin = &sheet->margin[sheet->margins++];
    const double value = b->value - b->from_zero, limit = b->limit - b->from_zero;
    const double above = b->at_least ? value - limit : limit - value;
    const double bears = b->at_least ? value : limit;
    const double must = b->at_least ? limit : value;
    *margin = (pare_margin){.unit = b->unit,
                            .value = b->value,
                            .limit = b->limit,
                            .from_zero = b->from_zero,
                            .at_least = b->at_least,
                            .ratio = must != 0 ? bears / must : (above >= 0 ? 1e3 : 0),
                            .chance = NAN,
                            .from = b->from,
                            .caution = b->caution};
    name(margin, first, rest);
    if (sheet->with_u)
        doubt(b, value, limit, margin);
    return margin;
}

static void brief_limits(const pare_craft *craft, pare_sheet *sheet)
{
    for (size_t i = 0; i < craft->brief.limits; i++) {
        const pare_limit *limit = &craft->brief.limit[i];
        const int figure = pare_figure_of_limit(limit->key);
        if (figure < 0)
            continue;
        const pare_figure_row *row = &pare_figure_table[figure];
        const pare_sheet_figure *now = &sheet->figure[figure];
        pare_bound b = {.value = now->exists ? now->value * row->scale : (double)NAN,
                        .figures_u = now->u * row->scale,
                        .limit = limit->value * row->scale,
                        .at_least = limit->at_least,
                        .unit = row->unit,
                        .from = "brief"};
        if (figure == PARE_ALL_UP)
            b.caution = "a legal mass limit is as flown, with everything: check your local rules";
        pare_margin *margin = pare_margin_add(sheet, &b, "limit", limit->key);
        if (margin && !now->exists) {
            margin->ratio = 0;
            margin->chance = 0;
            margin->caution = "there is no such figure for this craft: see why with --all";
        }
    }
}

/* Known from the minutes as flown; where there are none, from each entry by itself. */
static pare_sheet_figure flown_motor(const pare_craft *craft, const pare_sheet *sheet)
{
    if (sheet->figure[PARE_FLOWN_MOTOR_A].exists)
        return sheet->figure[PARE_FLOWN_MOTOR_A];
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&craft->brief, &flown);
    double square = 0, share = 0;
    for (size_t i = 0; i < entries; i++) {
        pare_operating point;
        if (pare_flown_point(&sheet->rig, &flown[i], &point) != PARE_OK)
            continue;
        square += flown[i].share * point.motor.current_a * point.motor.current_a;
        share += flown[i].share;
    }
    return (pare_sheet_figure){.exists = share > 0, .value = share > 0 ? sqrt(square / share) : 0};
}

static void current_ratings(const pare_item *item, const char *what, const pare_sheet_figure *flown,
                            pare_sheet *sheet)
{
    const pare_value *spec = item->part->spec;
    const pare_value *continuous = &spec[PARE_SPEC_CONTINUOUS], *burst = &spec[PARE_SPEC_BURST];
    const pare_sheet_figure *full = &sheet->figure[PARE_MOTOR_FULL_A];
    if (continuous->value > 0 && flown->exists) {
        const pare_bound b = {.value = flown->value,
                              .figures_u = flown->u,
                              .limit = continuous->value,
                              .limit_u = continuous->u,
                              .unit = "A",
                              .from = "stated by the maker, against the rms as flown"};
        pare_margin_add(sheet, &b, what, "continuous");
    }
    if (!full->exists || !(burst->value > 0 || continuous->value > 0))
        return;
    const bool stated = burst->value > 0;
    const pare_bound b = {
        .value = full->value,
        .figures_u = full->u,
        .limit = stated ? burst->value : BURST_OVER_CONTINUOUS * continuous->value,
        .limit_u = stated ? burst->u : 0.15 * continuous->value,
        .unit = "A",
        .from = stated ? "stated by the maker, against full throttle on a fresh pack"
                       : "estimated from the continuous rating, against full throttle",
        .caution = "full throttle for longer than the burst rating overheats it"};
    pare_margin_add(sheet, &b, what, "burst");
}

bool pare_margin_on_pack(pare_kind kind)
{
    return kind == PARE_MOTOR || kind == PARE_ESC_ONE || kind == PARE_ESC_FOUR ||
           kind == PARE_FLIGHT_CONTROLLER || kind == PARE_CONTROLLER_WITH_ESC ||
           kind == PARE_REGULATOR || kind == PARE_CAPACITOR;
}

/* Whether a regulator on board gives what a part wants, so that the pack's volts do not reach it. A
 * controller or regulator that states no output gives 5 V; common practice, no source. */
static bool regulated(const pare_craft *craft, double low_v, double high_v)
{
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->off || !(pare_part_does(item->part, PARE_REGULATOR) ||
                           pare_part_does(item->part, PARE_FLIGHT_CONTROLLER)))
            continue;
        const double out_v = item->part->spec[PARE_SPEC_OUT].value;
        const double gives_v = out_v > 0 ? out_v : USUAL_OUT_V;
        if (gives_v >= low_v && gives_v <= high_v)
            return true;
    }
    return false;
}

static void volt_ratings(const pare_craft *craft, pare_sheet *sheet)
{
    const pare_pack *pack = &sheet->rig.pack;
    const double full_v = pack->cells * pare_chemistry_full_v(pack->chemistry);
    const double land_v = pack->cells * pare_brief_landing(&craft->brief, pack->chemistry).cell_v;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        const double high_v = item->part->spec[PARE_SPEC_VOLTS_HIGH].value;
        const double low_v = item->part->spec[PARE_SPEC_VOLTS_LOW].value;
        if (item->off || item->part->kind == PARE_PACK || !(high_v > 0))
            continue;
        if (!pare_margin_on_pack(item->part->kind) && regulated(craft, low_v, high_v))
            continue;
        const pare_bound high = {.value = full_v,
                                 .limit = high_v,
                                 .unit = "V",
                                 .from = "stated by the maker, against a full pack",
                                 .caution = item->part->kind == PARE_CAPACITOR
                                                ? "braking pushes the voltage above the pack's"
                                                : NULL};
        pare_margin_add(sheet, &high, "volts", item->name);
        if (low_v > 0 && low_v < high_v) {
            const pare_bound low = {.value = land_v,
                                    .limit = low_v,
                                    .at_least = true,
                                    .unit = "V",
                                    .from = "stated by the maker, against landing under load"};
            pare_margin_add(sheet, &low, "volts_low", item->name);
        }
    }
}

bool pare_margin_of_crash(const pare_margin *margin)
{
    static const char crash[] = "joint_crash.";
    return memcmp(margin->name, crash, sizeof crash - 1) == 0;
}

/* The brief may ask that every rating keeps a margin. */
static void margin_limit(const pare_craft *craft, pare_sheet *sheet, size_t first_rating)
{
    for (size_t i = 0; i < craft->brief.limits; i++) {
        if (strcmp(craft->brief.limit[i].key, "margin") != 0)
            continue;
        double worst = INFINITY, worst_u = 0;
        for (size_t m = first_rating; m < sheet->margins; m++)
            if (!pare_margin_of_crash(&sheet->margin[m]) && sheet->margin[m].ratio < worst) {
                worst = sheet->margin[m].ratio;
                worst_u = sheet->margin[m].ratio_u;
            }
        if (!isfinite(worst))
            return;
        const pare_bound b = {.value = worst,
                              .figures_u = worst_u,
                              .limit = craft->brief.limit[i].value,
                              .at_least = true,
                              .unit = "",
                              .from = "brief, against the worst rating"};
        pare_margin_add(sheet, &b, "limit", "margin");
        return;
    }
}

/* By insertion, which is stable, so that equal ratios keep their order: of places first, since a margin
 * is large, and then each margin once, along the rings that the order makes. */
static void sort_worst_first(pare_sheet *sheet)
{
    struct {
        double ratio;
        size_t from;
    } order[PARE_MARGINS];
    for (size_t i = 0; i < sheet->margins; i++) {
        const double ratio = sheet->margin[i].ratio;
        size_t at = i;
        for (; at > 0 && order[at - 1].ratio > ratio; at--)
            order[at] = order[at - 1];
        order[at].ratio = ratio;
        order[at].from = i;
    }
    for (size_t i = 0; i < sheet->margins; i++) {
        if (order[i].from == i)
            continue;
        const pare_margin first = sheet->margin[i];
        size_t to = i;
        for (size_t from = order[i].from; from != i; from = order[to].from) {
            sheet->margin[to] = sheet->margin[from];
            order[to].from = to;
            to = from;
        }
        sheet->margin[to] = first;
        order[to].from = to;
    }
}

pare_figures pare_margin_figures(const pare_craft *craft)
{
    static const pare_figure asked[] = {PARE_FLOWN_RMS_A, PARE_MOTOR_FULL_A, PARE_FULL_A,
                                        PARE_THRUST_FRESH, PARE_HOVER_RPM};
    pare_figures figures = 0;
    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++)
        figures |= (pare_figures)1 << asked[i];
    for (size_t i = 0; i < craft->brief.limits; i++) {
        const int figure = pare_figure_of_limit(craft->brief.limit[i].key);
        if (figure >= 0)
            figures |= (pare_figures)1 << figure;
    }
    return figures;
}

const pare_margin *pare_sheet_margin(const pare_sheet *sheet, const char *name)
{
    for (size_t i = 0; i < sheet->margins; i++)
        if (strcmp(sheet->margin[i].name, name) == 0)
            return &sheet->margin[i];
    return NULL;
}

const pare_margin *pare_sheet_worst(const pare_sheet *sheet)
{
    for (size_t i = 0; i < sheet->margins; i++)
        if (!pare_margin_of_crash(&sheet->margin[i]))
            return &sheet->margin[i];
    return NULL;
}

static void ratings(const pare_craft *craft, const pare_sheet_figure *flown, pare_sheet *sheet)
{
    const int esc = pare_craft_esc(craft);
    if (esc >= 0)
        current_ratings(&craft->item[esc], "esc", flown, sheet);
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    if (motor >= 0 && craft->item[motor].part->spec[PARE_SPEC_CONTINUOUS].value > 0)
        current_ratings(&craft->item[motor], "motor", flown, sheet);
    volt_ratings(craft, sheet);
}

void pare_sheet_margins_some(const pare_craft *craft, unsigned kinds, pare_sheet *sheet)
{
    sheet->margins = 0;
    if (kinds & PARE_MARGINS_BRIEF)
        brief_limits(craft, sheet);
    const size_t first_rating = sheet->margins;
    const pare_sheet_figure flown = flown_motor(craft, sheet);
    if (kinds & PARE_MARGINS_RATED)
        ratings(craft, &flown, sheet);
    if (kinds & PARE_MARGINS_WIRES)
        pare_wire_margins(craft, sheet);
    if (kinds & PARE_MARGINS_BOARD)
        pare_esc_heat_margins(craft, &flown, sheet);
    if (kinds & PARE_MARGINS_SPIKES)
        pare_spike_margins(craft, sheet);
    if (kinds & PARE_MARGINS_POWER)
        pare_power_margins(craft, sheet);
    if (kinds & PARE_MARGINS_ARMS)
        pare_arm_margins(craft, sheet);
    if (kinds & PARE_MARGINS_JOINTS)
        pare_joint_margins(craft, sheet);
    if (kinds == PARE_MARGINS_ALL)
        margin_limit(craft, sheet, first_rating);
}

void pare_sheet_margins_worst(const pare_craft *craft, unsigned kinds, pare_sheet *sheet)
{
    pare_sheet_margins_some(craft, kinds, sheet);
    sort_worst_first(sheet);
}

void pare_sheet_margins(const pare_craft *craft, pare_sheet *sheet)
{
    pare_sheet_margins_worst(craft, PARE_MARGINS_ALL, sheet);
}
