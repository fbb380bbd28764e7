/* sheet_text.c: the first screen of a sheet (see sheet_text.h).
 *
 * Its order is the order of a builder's questions: what does it weigh, where do the grams sit, which
 * may go, what is near its limit, what does it do in the air, what is one gram worth, what to weigh. */
#include "show/sheet_text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/weigh_next.h"
#include "show/crash.h"
#include "show/digits.h"
#include "show/label_show.h"
#include "show/radio.h"
#include "show/ruler.h"
#include "show/source_words.h"
#include "show/tired.h"

static const char *figure(char text[PARE_DIGITS], const pare_screen *screen,
                          const pare_sheet *sheet, pare_figure which)
{
    const pare_sheet_figure *f = &sheet->figure[which];
    const double scale = pare_figure_table[which].scale;
    return f->exists ? pare_digits_u(text, screen, scale * f->value, scale * f->u) : "-";
}

static const char *bare(char text[PARE_DIGITS], const pare_sheet *sheet, pare_figure which)
{
    const pare_sheet_figure *f = &sheet->figure[which];
    const double scale = pare_figure_table[which].scale;
    return f->exists ? pare_digits(text, scale * f->value, scale * f->u) : "-";
}

static const char *chance(char text[32], double share)
{
    if (share < 0.005)
        return "under 1 %";
    if (share > 0.995)
        return "over 99 %";
    snprintf(text, 32, "%.0f %%", 100 * share);
    return text;
}

/* A loadout with its own pack does not notice that the craft has another. */
static bool trial_does_nothing(const pare_sheet_view *view)
{
    for (int i = 0; i < PARE_FIGURES; i++)
        if (view->sheet.figure[i].exists != view->before.figure[i].exists ||
            view->sheet.figure[i].value != view->before.figure[i].value)
            return false;
    return true;
}

static void title(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_text_add(&line, view->craft.name);
    if (view->loadout)
        pare_text_printf(&line, ", loadout %s", view->loadout);
    size_t others = 0;
    for (size_t i = 0; i < view->craft.loadouts; i++)
        if (!view->loadout || strcmp(view->craft.loadout[i].name, view->loadout) != 0)
            pare_text_printf(&line, "%s%s",
                             others++ ? ", " : " (others: ", view->craft.loadout[i].name);
    if (others)
        pare_text_add(&line, ")");
    if (line.failed)
        out->failed = true;
    else
        pare_put_heading(screen, out, line.bytes);
    pare_text_free(&line);
    if (view->tried) {
        pare_text_add(out, "trying ");
        pare_text tried = {0};
        for (const char *c = view->tried; *c; c++)
            pare_text_printf(&tried, *c == ',' ? ", " : "%c", *c);
        pare_put_rest(screen, out, 7, 7, &tried);
        if (trial_does_nothing(view))
            pare_put_wrapped(screen, out, 0, 0,
                             "It changes nothing here: this loadout has a part of its own in that "
                             "place, or the craft is so already.");
    }
}

void pare_all_up_words(const pare_sheet_view *view, const pare_screen *screen, pare_text *line)
{
    const pare_sheet_figure *f = &view->sheet.figure[PARE_ALL_UP];
    char text[PARE_DIGITS], other[32];
    pare_text_printf(line, "%s g", figure(text, screen, &view->sheet, PARE_ALL_UP));
    if (view->tried) {
        const double change = 1e3 * (f->value - view->before.figure[PARE_ALL_UP].value);
        pare_text_printf(line, " (%s)", pare_digits_change(text, change, 3, 1));
    }
    if (isfinite(view->limit_kg)) {
        const double over = 1e3 * (f->value - view->limit_kg);
        pare_text_printf(line, ", %s g %s the limit of ", pare_digits(text, fabs(over), 1e3 * f->u),
                         over > 0 ? "over" : "under");
        pare_text_printf(line, "%s g", pare_digits_limit(text, 1e3 * view->limit_kg));
        if (isfinite(view->sheet.chance_all_up))
            pare_text_printf(line, ", met with a chance of %s",
                             chance(other, view->sheet.chance_all_up));
    }
}

static void all_up(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_all_up_words(view, screen, &line);
    pare_put_labelled_line(screen, out, "all-up", &line);
}

/* What was fitted since the craft was first described, and what waits. */
static void taken(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_taken_facts *facts = &view->taken;
    const size_t waiting = facts->chosen + facts->ordered;
    char text[PARE_DIGITS];
    pare_text line = {0};
    if (facts->on + waiting == 0)
        return;
    if (facts->on)
        pare_text_printf(&line, "%zu fitted", facts->on);
    if (facts->on && !view->tried && isfinite(facts->first_kg)) {
        const double change = 1e3 * (view->sheet.figure[PARE_ALL_UP].value - facts->first_kg);
        pare_text_printf(&line, " (%s g)", pare_digits_change(text, change, 3, 1));
    }
    if (facts->ordered)
        pare_text_printf(&line, "%s%zu ordered", line.length ? ", " : "", facts->ordered);
    if (facts->chosen)
        pare_text_printf(&line, "%s%zu chosen", line.length ? ", " : "", facts->chosen);
    if (waiting && facts->planned)
        pare_text_printf(
            &line, "; %s g all-up once fitted",
            pare_digits_u(text, screen, 1e3 * facts->planned_kg, 1e3 * facts->planned_u_kg));
    else if (waiting && !facts->planned)
        pare_text_printf(&line, "; as things are not all of it goes on: %s", facts->why);
    pare_put_labelled_line(screen, out, "taken", &line);
}

void pare_bands_text(const pare_swaps *swaps, const char *money, const pare_screen *screen,
                     pare_text *out)
{
    enum { GRAMS = 7, TOGETHER = 10, MONEY = 10 };
    static const char *const label[PARE_BAND_SUMS] = {"free", "cheap", "pack, motors"};
    static const char *const what[PARE_BAND_SUMS] = {"no money, no job of the brief lost",
                                                     "2 a gram or less, motors, pack stay",
                                                     "other motors, another pack"};
    char text[PARE_DIGITS];
    (void)screen;
    pare_put_left(out, "to save", PARE_LABEL);
    pare_put_right(out, "grams", GRAMS);
    pare_put_right(out, "together", TOGETHER);
    pare_put_right(out, money && *money ? money : "money", MONEY);
    pare_text_add(out, "\n");
    for (int band = 0; band < PARE_BAND_SUMS; band++) {
        const double before_kg = band ? swaps->band_kg[band - 1] : 0;
        pare_put_left(out, label[band], PARE_LABEL);
        pare_put_right(out, pare_ruler_grams(text, swaps->band_kg[band] - before_kg), GRAMS);
        pare_put_right(out, pare_ruler_grams(text, swaps->band_kg[band]), TOGETHER);
        pare_put_right(out, pare_digits_at(text, swaps->band_money[band], 0), MONEY);
        pare_text_printf(out, "  %s\n", what[band]);
    }
}

static void worst_margin(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_margin *m = pare_sheet_worst(&view->sheet);
    if (!m)
        return;
    char text[PARE_DIGITS], words[64];
    pare_text line = {0};
    pare_text_printf(&line, "%s (1 holds): ", pare_digits_u(text, screen, m->ratio, m->ratio_u));
    pare_text_printf(&line, "%s ", pare_margin_words(m, words));
    pare_text_printf(&line, "%s%s%s, ", pare_digits(text, m->value, m->value_u),
                     m->unit[0] ? " " : "", m->unit);
    pare_text_printf(&line, "%s ", m->at_least ? "at least" : "at most");
    pare_text_printf(&line, "%s%s%s, %s", pare_digits_limit(text, m->limit), m->unit[0] ? " " : "",
                     m->unit, m->from);
    pare_put_labelled_line(screen, out, "worst margin", &line);
}

static void minutes(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_sheet_figure *f = &view->sheet.figure[PARE_FLOWN_TIME];
    char text[PARE_DIGITS];
    pare_text line = {0};
    if (!f->exists) {
        pare_text_printf(&line, "none: %s", f->why);
    } else {
        pare_text_printf(&line, "%s min now", figure(text, screen, &view->sheet, PARE_FLOWN_TIME));
        if (view->tried && view->before.figure[PARE_FLOWN_TIME].exists)
            pare_text_printf(
                &line, " (%s s)",
                pare_digits_change(text, f->value - view->before.figure[PARE_FLOWN_TIME].value, 2,
                                   0));
        if (isfinite(view->flown_at_limit_s))
            pare_text_printf(&line, ", %s at the limit",
                             pare_digits(text, view->flown_at_limit_s / 60, f->u / 60));
        pare_text_printf(&line, "; lands on %s",
                         view->sheet.landed_by_voltage ? "cell voltage" : "charge left");
    }
    pare_put_labelled_line(screen, out, "your minutes", &line);
}

static void hover(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_sheet_figure *output = &view->sheet.figure[PARE_HOVER_OUTPUT];
    char text[PARE_DIGITS];
    pare_text line = {0};
    if (!output->exists) {
        pare_text_printf(&line, "none: %s", output->why);
    } else {
        pare_text_printf(&line, "%s %% output, ",
                         pare_digits_u(text, screen, 100 * output->value, 100 * output->u));
        pare_text_printf(&line, "%s A, ", figure(text, screen, &view->sheet, PARE_HOVER_A));
        pare_text_printf(&line, "%s W/kg", bare(text, &view->sheet, PARE_HOVER_W_KG));
    }
    pare_put_labelled_line(screen, out, "hover", &line);
    const pare_sheet_figure *fresh = &view->sheet.figure[PARE_TWR_FRESH];
    if (!fresh->exists) {
        pare_text_printf(&line, "none: %s", fresh->why);
    } else {
        pare_text_printf(&line, "%s fresh, ", figure(text, screen, &view->sheet, PARE_TWR_FRESH));
        pare_text_printf(&line, "%s landing", figure(text, screen, &view->sheet, PARE_TWR_LANDING));
    }
    pare_put_labelled_line(screen, out, "thrust/weight", &line);
}

static void rotors(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_source_words(view, &line);
    pare_put_labelled_line(screen, out, "rotors", &line);
}

static void quickness(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_sheet_figure *now = view->sheet.figure, *then = view->before.figure;
    const double first[2] = {view->taken.first_roll_rad_s2, view->taken.first_pitch_rad_s2};
    const bool built = !view->tried && view->taken.on;
    char text[PARE_DIGITS];
    pare_text line = {0};
    if (!now[PARE_ROLL].exists) {
        pare_text_printf(&line, "none: %s", now[PARE_ROLL].why);
        pare_put_labelled_line(screen, out, "quickness", &line);
        return;
    }
    static const pare_figure which[] = {PARE_ROLL, PARE_PITCH};
    for (int i = 0; i < 2; i++) {
        double against = (double)NAN;
        if (view->tried && then[which[i]].exists)
            against = then[which[i]].value;
        else if (built)
            against = first[i];
        pare_text_printf(&line, i ? ", pitch %s" : "roll %s",
                         figure(text, screen, &view->sheet, which[i]));
        if (isfinite(against))
            pare_text_printf(
                &line, " (%s %%)",
                pare_digits_change(text, 100 * (now[which[i]].value / against - 1), 2, 1));
    }
    pare_text_add(&line, " rad/s2");
    if (view->tried)
        pare_text_add(&line, ", against the craft without the trial");
    else if (built)
        pare_text_add(&line, ", against the craft without what was fitted");
    pare_put_labelled_line(screen, out, "quickness", &line);
}

#define LEAST_MORE 5e-4 /* of hover power: less is written as nothing */

static void put_sides(const char *one, double share, const char *other, double rest, double u,
                      pare_text *line)
{
    char text[PARE_DIGITS];
    pare_text_printf(line, "%s %s %%, ", one, pare_digits(text, 100 * share, 100 * u));
    pare_text_printf(line, "%s %s %%", other, pare_digits(text, 100 * rest, 100 * u));
}

void pare_hover_shares_words(const pare_balance *balance, pare_text *line)
{
    char text[PARE_DIGITS];
    if (!balance->exists) {
        pare_text_printf(line, "no shares of the motors: %s", balance->why);
        return;
    }
    put_sides("front motors carry", balance->front, "rear", balance->rear, balance->front_u, line);
    pare_text_add(line, "; ");
    put_sides("left", balance->left, "right", balance->right, balance->left_u, line);
    if (balance->more >= LEAST_MORE)
        pare_text_printf(line, "; that costs %s %% of hover power",
                         pare_digits_at(text, 100 * balance->more, 1));
    if (balance->most > 0)
        pare_text_printf(line, "; balance holds to %s times weight",
                         pare_digits_at(text, balance->most, 1));
}

/* Worth a word on the first screen: more than 54 to 46, and not by chance. */
static bool stands_out(double share, double rest, double u)
{
    return fabs(share - rest) > 0.08 && fabs(share - rest) > 4 * u;
}

static void balance(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_sheet_figure *x = &view->sheet.figure[PARE_CG_X],
                            *y = &view->sheet.figure[PARE_CG_Y],
                            *shift = &view->sheet.figure[PARE_PACK_SHIFT];
    char text[PARE_DIGITS];
    pare_text line = {0};
    pare_text_printf(&line, "centre of mass %s mm ",
                     pare_digits_u(text, screen, 1e3 * fabs(x->value), 1e3 * x->u));
    pare_text_printf(&line, "%s, ", x->value < 0 ? "aft" : "forward");
    pare_text_printf(&line, "%s mm ", pare_digits(text, 1e3 * fabs(y->value), 1e3 * y->u));
    pare_text_printf(&line, "%s", y->value < 0 ? "right" : "left");
    if (shift->exists) {
        pare_text_printf(&line, "; pack %s mm ",
                         pare_digits(text, 1e3 * fabs(shift->value), 1e3 * shift->u));
        pare_text_printf(&line, "%s to zero it", shift->value < 0 ? "aft" : "forward");
    }
    const pare_balance *b = &view->balance;
    if (!b->exists)
        pare_text_printf(&line, "; %s", b->why);
    else if (stands_out(b->front, b->rear, b->front_u))
        put_sides("; in hover front motors carry", b->front, "rear", b->rear, b->front_u, &line);
    else if (stands_out(b->left, b->right, b->left_u))
        put_sides("; in hover left motors carry", b->left, "right", b->right, b->left_u, &line);
    pare_put_labelled_line(screen, out, "balance", &line);
}

/* Share of a figure that one gram costs, in per cent; 0 for what would be written as nothing. */
static double gram_costs(const double rate_per_kg[PARE_FIGURES], const pare_sheet *sheet,
                         pare_figure which)
{
    const pare_sheet_figure *f = &sheet->figure[which];
    const double percent =
        f->exists && f->value > 0 ? -100 * 1e-3 * rate_per_kg[which] / f->value : 0;
    return isfinite(percent) && fabs(percent) >= 0.005 ? percent : 0;
}

static void one_gram(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    if (!view->exchange.exists)
        return;
    char text[PARE_DIGITS];
    pare_text line = {0};
    for (int tip = 0; tip < 2; tip++) {
        const double *rate = tip ? view->exchange.tip : view->exchange.centre;
        pare_text_add(&line, tip ? "; at the arm tips " : "costs at the centre ");
        if (isfinite(rate[PARE_FLOWN_TIME]))
            pare_text_printf(&line, tip ? "%s s" : "%s s of your minutes",
                             pare_digits_at(text, -1e-3 * rate[PARE_FLOWN_TIME], 2));
        static const pare_figure which[] = {PARE_ROLL, PARE_PITCH};
        for (int i = 0; i < 2; i++) {
            const double percent = gram_costs(rate, &view->sheet, which[i]);
            if (percent != 0)
                pare_text_printf(&line, i ? ", %s %% of pitch" : ", %s %% of roll",
                                 pare_digits_at(text, percent, 2));
        }
    }
    pare_put_labelled_line(screen, out, "one gram", &line);
}

static void weigh_next(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    enum { SHOWN = 3 };
    size_t order[SHOWN];
    double share[SHOWN];
    const pare_weighed *weighed = view->craft.weighed;
    const bool whole = weighed && weighed->forgotten < weighed->masses;
    const size_t count = pare_weigh_lines(&view->craft, &view->sheet, SHOWN, order, share);
    pare_text line = {0};
    for (size_t i = 0; i < count; i++) {
        pare_text_printf(&line, "%s%s (%.0f %%", i ? ", " : "",
                         view->sheet.assembly.line[order[i]].name, 100 * share[i]);
        pare_text_add(&line, i       ? ")"
                             : whole ? " of the doubt about what is not listed)"
                                     : " of the doubt about all-up)");
    }
    if (line.length == 0)
        pare_text_add(&line, "nothing: all is known as well as it can be");
    pare_put_labelled_line(screen, out, "weigh next", &line);
}

static void cautions(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const int pack = pare_craft_doing(&view->craft, PARE_PACK);
    if (pack >= 0) {
        pare_boast_text(view->craft.item[pack].part, screen, out);
        pare_tired_cells_text(view->craft.item[pack].part, screen, out);
    }
    pare_light_cautions(&view->sheet, screen, out);
    if (isfinite(view->limit_kg))
        pare_put_wrapped(screen, out, 0, 0,
                         "A legal mass limit counts the craft as flown, with everything on it: "
                         "check your local rules.");
}

void pare_sheet_text(const pare_sheet_view *view, const pare_swaps *swaps, const char *money,
                     const pare_screen *screen, pare_text *out)
{
    title(view, screen, out);
    pare_text_add(out, "\n");
    all_up(view, screen, out);
    taken(view, screen, out);
    pare_text_add(out, "\n");
    const pare_ruler ruler =
        pare_ruler_of(&view->craft, &view->sheet, view->tried ? &view->craft_before : NULL,
                      view->tried ? &view->before : NULL, view->limit_kg);
    pare_ruler_text(&ruler, screen, out);
    pare_text_add(out, "\n");
    if (swaps)
        pare_bands_text(swaps, money, screen, out);
    worst_margin(view, screen, out);
    minutes(view, screen, out);
    hover(view, screen, out);
    rotors(view, screen, out);
    quickness(view, screen, out);
    pare_crash_lines(view, screen, out);
    pare_radio_lines(view, screen, out);
    balance(view, screen, out);
    one_gram(view, screen, out);
    weigh_next(view, screen, out);
    cautions(view, screen, out);
}

void pare_limits_broken_text(const pare_sheet *sheet, pare_text *out)
{
    char text[PARE_DIGITS], words[64];
    bool first = true;
    for (size_t i = 0; i < sheet->margins; i++) {
        const pare_margin *m = &sheet->margin[i];
        if (strncmp(m->name, "limit.", 6) != 0 || m->ratio >= 1)
            continue;
        pare_text_printf(out, "%s%s is ", first ? "" : "; ", pare_margin_words(m, words));
        pare_text_printf(out, "%s, ", pare_digits(text, m->value, m->value_u));
        pare_text_printf(out, "%s %s%s%s", m->at_least ? "at least" : "at most",
                         pare_digits_limit(text, m->limit), m->unit[0] ? " " : "", m->unit);
        first = false;
    }
}
