/* sheet_all.c: what stands behind the first screen of a sheet (see sheet_text.h).
 *
 * A margin is drawn as a distance to a wall with its interval, on a scale of ratios: twice what must
 * be borne is as far from the wall as half of it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "craft/drag.h"
#include "craft/flight.h"
#include "show/arms.h"
#include "show/crash.h"
#include "show/digits.h"
#include "show/filled.h"
#include "show/label_show.h"
#include "show/mass_rules.h"
#include "show/radio.h"
#include "show/ruler.h"
#include "show/screws.h"
#include "show/sheet_text.h"
#include "show/surprises.h"
#include "show/wires.h"

enum { NAME = 18 };

static void heading(const pare_screen *screen, pare_text *out, const char *text)
{
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, text);
}

static void put_name(pare_text *out, const char *name, int columns)
{
    char cut[64];
    if ((int)strlen(name) >= columns) {
        snprintf(cut, sizeof cut, "%.*s~", columns - 2, name);
        name = cut;
    }
    pare_put_left(out, name, columns);
}

/* ---- ledger ---- */

static void ledger_line(const pare_sheet_view *view, const pare_line *line, double from_kg,
                        const pare_screen *screen, pare_text *out)
{
    enum { EACH = 11, GRAMS = 8, DOUBT = 7, KNOWN = 11 };
    const int left = 2 + NAME + EACH + GRAMS + DOUBT + KNOWN;
    char text[PARE_DIGITS], field[64];
    pare_text_add(out, "  ");
    put_name(out, line->name, NAME);
    if (line->mass_kg.value == 0) {
        const char *came_with =
            line->of == PARE_LINE_JOINT ? view->craft.joint[line->index].included_in
            : line->of == PARE_LINE_RUN ? view->craft.run[line->index].included_in
                                        : view->craft.item[line->index].included_in;
        pare_put_spaces(out, EACH - 3);
        pare_text_printf(out, "in %s\n", came_with ? came_with : "another");
        return;
    }
    field[0] = '\0';
    if (line->count > 1)
        snprintf(field, sizeof field, "%d x %s", line->count,
                 pare_digits_at(text, 1e3 * line->each_kg, line->each_kg < 1e-3 ? 2 : 1));
    pare_put_right(out, field, EACH);
    const double u_g = 1e3 * line->mass_kg.u, grams = 1e3 * line->mass_kg.value;
    pare_put_right(out, pare_digits(text, grams, u_g), GRAMS);
    snprintf(field, sizeof field, " %s%s", pare_screen_plus_minus(screen),
             pare_digits(text, u_g, u_g));
    pare_put_left(out, u_g > 0 ? field : "", DOUBT);
    pare_put_left(out, pare_known_name(line->mass_kg.known), KNOWN);
    pare_ruler_span(screen, out, from_kg, from_kg + line->mass_kg.value,
                    view->sheet.assembly.all.mass_kg, screen->width - left, line->mass_kg.known);
    pare_text_add(out, "\n");
}

static void ledger(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_assembly *assembly = &view->sheet.assembly;
    char text[PARE_DIGITS], total[64];
    heading(screen, out, "Ledger: grams by system, each item at its place on the ruler");
    double from_kg = 0;
    for (int s = 0; s < PARE_SYSTEMS; s++) {
        double sum_kg = 0;
        size_t lines = 0;
        for (size_t i = 0; i < assembly->lines; i++)
            if (pare_ruler_system(&view->craft, &assembly->line[i]) == (pare_system)s) {
                sum_kg += assembly->line[i].mass_kg.value;
                lines++;
            }
        if (lines == 0)
            continue;
        snprintf(total, sizeof total, "%s %s g", pare_system_name((pare_system)s),
                 pare_digits_at(text, 1e3 * sum_kg, 1));
        pare_text_printf(out, "%s\n", total);
        for (size_t i = 0; i < assembly->lines; i++) {
            const pare_line *line = &assembly->line[i];
            if (pare_ruler_system(&view->craft, line) != (pare_system)s)
                continue;
            ledger_line(view, line, from_kg, screen, out);
            from_kg += line->mass_kg.value;
        }
    }
    const pare_sheet_figure *dry = &view->sheet.figure[PARE_DRY],
                            *money = &view->sheet.figure[PARE_MONEY];
    pare_text sum = {0};
    pare_text_printf(&sum, "without the pack %s g",
                     pare_digits_u(text, screen, 1e3 * dry->value, 1e3 * dry->u));
    pare_text_printf(&sum, "; money in it %s", pare_digits_at(text, money->value, 2));
    if (view->sheet.unpriced)
        pare_text_printf(&sum, " and %d %s without a price", view->sheet.unpriced,
                         view->sheet.unpriced > 1 ? "items" : "item");
    pare_put_line(screen, out, 0, 4, &sum);
}

/* ---- body ---- */

static void body(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_sheet *sheet = &view->sheet;
    const pare_sym3 *tensor = &sheet->assembly.all.inertia_kg_m2;
    char text[PARE_DIGITS];
    heading(screen, out, "Body: x forward, y left, z up, from the middle of the motors");
    static const pare_figure centre[3] = {PARE_CG_X, PARE_CG_Y, PARE_CG_Z};
    pare_text_add(out, "  centre of mass  ");
    for (int i = 0; i < 3; i++) {
        const pare_sheet_figure *f = &sheet->figure[centre[i]];
        pare_text_printf(out, "%s%c %s", i ? ", " : "", "xyz"[i],
                         pare_digits_u(text, screen, 1e3 * f->value, 1e3 * f->u));
    }
    pare_text_add(out, " mm\n");
    static const char *const names[3] = {"roll", "pitch", "yaw"};
    const double moments[3] = {tensor->xx, tensor->yy, tensor->zz};
    pare_text_add(out, "  inertia         ");
    for (int i = 0; i < 3; i++) {
        const pare_sheet_figure *f = &sheet->figure[PARE_IXX + i];
        pare_text_printf(out, "%s%s %s", i ? ", " : "", names[i],
                         pare_digits_u(text, screen, 1e6 * moments[i], 1e6 * f->u));
    }
    pare_text_add(out, " kg mm2\n");
    const double products[3] = {tensor->xy, tensor->xz, tensor->yz};
    static const char *const pairs[3] = {"xy", "xz", "yz"};
    pare_text_add(out, "  products        ");
    for (int i = 0; i < 3; i++)
        pare_text_printf(
            out, "%s%s %s", i ? ", " : "", pairs[i],
            pare_digits_u(text, screen, 1e6 * products[i], 1e6 * sheet->figure[PARE_IXY + i].u));
    pare_text_add(out, " kg mm2\n");
    pare_text_printf(out, "  principal       %.0f, %.0f, %.0f kg mm2\n",
                     1e6 * sheet->principal_kg_m2[0], 1e6 * sheet->principal_kg_m2[1],
                     1e6 * sheet->principal_kg_m2[2]);
    pare_text line = {0};
    pare_hover_shares_words(&view->balance, &line);
    pare_text_add(out, "  hover           ");
    pare_put_rest(screen, out, 18, 18, &line);
    pare_text_add(out, "  share of            roll  pitch    yaw\n");
    size_t order[PARE_LINES];
    double weight[PARE_LINES];
    for (size_t i = 0; i < sheet->assembly.lines; i++) {
        weight[i] = 0;
        for (int axis = 0; axis < 3; axis++)
            weight[i] += pare_line_share(&sheet->assembly, i, axis);
        size_t at = i;
        for (; at > 0 && weight[order[at - 1]] < weight[i]; at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    for (size_t i = 0; i < sheet->assembly.lines && weight[order[i]] >= 0.03; i++) {
        pare_text_add(out, "    ");
        put_name(out, sheet->assembly.line[order[i]].name, NAME - 2);
        for (int axis = 0; axis < 3; axis++)
            pare_text_printf(out, " %4.0f %%",
                             100 * pare_line_share(&sheet->assembly, order[i], axis));
        pare_text_add(out, "\n");
    }
}

/* ---- flight ---- */

static const char *state_of(int figure)
{
    switch (figure) {
    case PARE_HOVER_OUTPUT:
    case PARE_HOVER_A:
    case PARE_HOVER_W:
    case PARE_HOVER_W_KG:
    case PARE_HOVER_RPM:
    case PARE_TWR_HALF:
        return "half charge";
    case PARE_TURN:
    case PARE_CLIMB:
    case PARE_TOP_SPEED:
        return "charge 0.8";
    case PARE_IDLE_TWR:
    case PARE_THRUST_FRESH:
    case PARE_TWR_FRESH:
    case PARE_FULL_A:
    case PARE_MOTOR_FULL_A:
    case PARE_BURST:
    case PARE_ROLL:
    case PARE_PITCH:
    case PARE_YAW:
        return "fresh pack";
    case PARE_TWR_LANDING:
        return "at landing";
    default:
        return "";
    }
}

static void flight(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    enum { WORDS = 32, VALUE = 22, STATE = 13 };
    char text[PARE_DIGITS], field[96];
    heading(screen, out, "Flight");
    for (int i = PARE_HOVER_OUTPUT; i < PARE_FIGURES; i++) {
        const pare_figure_row *row = &pare_figure_table[i];
        const pare_sheet_figure *f = &view->sheet.figure[i];
        pare_text_add(out, "  ");
        pare_put_left(out, row->words, WORDS);
        if (!f->exists) {
            snprintf(field, sizeof field, "none: ");
            pare_text_add(out, field);
            pare_put_wrapped(screen, out, 2 + WORDS + 6, 2 + WORDS, f->why);
            continue;
        }
        const double percent = i == PARE_HOVER_OUTPUT ? 100 : 1;
        snprintf(field, sizeof field, "%s %s",
                 pare_digits_u(text, screen, percent * row->scale * f->value,
                               percent * row->scale * f->u),
                 i == PARE_HOVER_OUTPUT ? "%" : row->unit);
        pare_put_left(out, field, VALUE);
        const char *state = state_of(i);
        if (*state)
            pare_put_left(out, state, STATE);
        else
            pare_put_spaces(out, STATE);
        pare_text_printf(out, "%s\n", pare_known_name(f->known));
    }
}

static void states(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_craft *craft = &view->craft;
    const pare_chemistry chemistry = view->sheet.rig.pack.chemistry;
    const pare_landing landing = pare_brief_landing(&craft->brief, chemistry);
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&craft->brief, &flown);
    pare_text line = {0};
    pare_text_printf(&line,
                     "It lands at %.2f V a cell under load or %.0f %% charge left, whichever is "
                     "first: here the %s. Flown as: ",
                     landing.cell_v, 100 * landing.charge,
                     view->sheet.landed_by_voltage ? "voltage" : "charge");
    for (size_t i = 0; i < entries; i++) {
        pare_text_printf(&line, "%s%.0f %% ", i ? ", " : "", 100 * flown[i].share);
        if (flown[i].as == PARE_FLOWN_FULL)
            pare_text_add(&line, "full throttle");
        else if (flown[i].as == PARE_FLOWN_SPEED)
            pare_text_printf(&line, "%.3g m/s", flown[i].level);
        else if (flown[i].level == 1)
            pare_text_add(&line, "hover");
        else
            pare_text_printf(&line, "%.3g times weight", flown[i].level);
    }
    pare_text_add(&line, craft->brief.entries ? "." : " (usual: the brief does not say).");
    const pare_sheet_figure *top = &view->sheet.figure[PARE_TOP_SPEED];
    char text[PARE_DIGITS];
    if (top->exists)
        pare_text_printf(&line, " It holds its place in a wind of up to its top speed, %s m/s.",
                         pare_digits(text, top->value, top->u));
    if (view->sheet.held_at_full)
        pare_text_add(&line, " Part of that asks for more than full throttle gives, and is flown "
                             "at full throttle.");
    pare_put_line(screen, out, 0, 0, &line);
}

/* ---- power ---- */

static void power(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    enum { WORDS = 28, COLUMN = 14 };
    const pare_powered *states = view->power;
    const pare_sheet_figure *range = &view->sheet.figure[PARE_BEST_RANGE_SPEED];
    char text[PARE_DIGITS], field[48];
    heading(screen, out,
            "Where the power goes at half charge, in W, from the air back to the pack");
    pare_text_add(out, "  ");
    pare_put_left(out, "", WORDS);
    for (int i = 0; i < PARE_POWERED; i++) {
        static const char *const label[PARE_POWERED] = {"hover", "cruise", "best range"};
        pare_put_right(out, label[i], COLUMN);
    }
    pare_text_add(out, "\n");
    for (size_t row = 0; row <= PARE_POWER_ROWS + 1; row++) {
        const bool speed = row == 0, sum = row == PARE_POWER_ROWS + 1;
        pare_text_add(out, "  ");
        pare_put_left(out,
                      speed ? "speed"
                      : sum ? "all that the pack gives"
                            : pare_power_table[row - 1].words,
                      WORDS);
        for (int i = 0; i < PARE_POWERED; i++) {
            const pare_powered *state = &states[i];
            const double watts = !state->exists || speed ? (double)NAN
                                 : sum                   ? state->budget.open_w
                                                         : pare_power_part(&state->budget, row - 1);
            if (speed && state->exists)
                snprintf(field, sizeof field, "%s m/s",
                         i == PARE_POWERED_RANGE ? pare_digits(text, state->speed_m_s, range->u)
                                                 : pare_digits_limit(text, state->speed_m_s));
            else
                snprintf(field, sizeof field, "%s",
                         pare_digits(text, watts, speed ? 0 : state->u_w[row - 1]));
            pare_put_right(out, field, COLUMN);
        }
        pare_text_add(out, "\n");
    }
}

/* What of the craft's drag area is whose, and what the arms take back. */
static void drag(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    static const char *const from[] = {[PARE_DRAG_OF_CRAFT] = "as the craft says",
                                       [PARE_DRAG_OF_PARTS] = "the sum of what its parts say",
                                       [PARE_DRAG_BY_LAW] = "by a law of the trade"};
    const pare_craft *craft = &view->craft;
    char text[PARE_DIGITS];
    pare_text line = {0};
    bool any = false;
    pare_text_printf(&line, "Drag area in level flight %s cm2, %s",
                     pare_digits_u(text, screen, 1e4 * pare_craft_drag_m2(craft),
                                   1e4 * pare_craft_drag_u_m2(craft)),
                     from[pare_craft_drag_from(craft)]);
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        const double area_cm2 = 1e4 * pare_item_drag_m2(item);
        if (!(area_cm2 > 0))
            continue;
        const double u = 1e4 * item->count * item->part->spec[PARE_SPEC_DRAG_AREA].u;
        pare_text_printf(&line, "%s%s %s", any ? ", " : "; of it ", item->name,
                         pare_digits(text, area_cm2, u));
        any = true;
    }
    pare_text_printf(&line, ". In hover the arms take back %s %% of the propellers' thrust.",
                     pare_digits_at(text, 100 * view->sheet.rig.blockage, 0));
    pare_put_line(screen, out, 0, 0, &line);
}

/* ---- margins ---- */

enum { WALL = 20 };
#define RATIO_LOW  0.5
#define RATIO_HIGH 4.0

static int wall_column(double ratio)
{
    if (!(ratio > RATIO_LOW))
        return 0;
    const double share = log(ratio / RATIO_LOW) / log(RATIO_HIGH / RATIO_LOW);
    return share >= 1 ? WALL - 1 : (int)(share * WALL);
}

static void put_wall(const pare_margin *m, const pare_screen *screen, pare_text *out)
{
    const int wall = wall_column(1), at = wall_column(m->ratio),
              from = wall_column(m->ratio - m->ratio_u), to = wall_column(m->ratio + m->ratio_u);
    for (int c = 0; c < WALL; c++) {
        if (c == at)
            pare_text_add(out, m->ratio >= RATIO_HIGH ? ">" : screen->utf8 ? "\u25cf" : "o");
        else if (c == wall)
            pare_text_add(out, screen->utf8 ? "\u2502" : "|");
        else if (c >= from && c <= to)
            pare_text_add(out, screen->utf8 ? "\u2500" : "-");
        else
            pare_text_add(out, " ");
    }
}

/* a to z, then A to Z. */
static char letter(size_t note)
{
    return (char)(note < 26 ? 'a' + note : 'A' + note % 26);
}

static void margins(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    enum { WORDS = 25, RATIO = 14, FROMS = 52 };
    const char *from[FROMS];
    size_t froms = 0;
    char text[PARE_DIGITS], other[PARE_DIGITS], words[64];
    heading(screen, out, "Margins, worst first: what it bears over what it must bear");
    pare_text_add(out, "  ");
    pare_put_left(out, "", WORDS + RATIO);
    pare_put_spaces(out, wall_column(1) - 8);
    pare_text_add(out, " broken | holds\n");
    for (size_t i = 0; i < view->sheet.margins; i++) {
        const pare_margin *m = &view->sheet.margin[i];
        size_t note = 0;
        while (note < froms && strcmp(from[note], m->from) != 0)
            note++;
        if (note == froms && froms < FROMS)
            from[froms++] = m->from;
        pare_text_add(out, "  ");
        put_name(out, pare_margin_words(m, words), WORDS);
        pare_put_left(out, pare_digits_u(text, screen, m->ratio, m->ratio_u), RATIO);
        put_wall(m, screen, out);
        pare_text_printf(out, " %s (%s %s%s%s) %c\n", pare_digits(text, m->value, m->value_u),
                         m->at_least ? ">=" : "<=", pare_digits_limit(other, m->limit),
                         m->unit[0] ? " " : "", m->unit, letter(note));
    }
    for (size_t i = 0; i < froms; i++) {
        pare_text_printf(out, "  %c ", letter(i));
        pare_put_wrapped(screen, out, 4, 4, from[i]);
    }
    const char *said[PARE_MARGINS];
    size_t cautions = 0;
    for (size_t i = 0; i < view->sheet.margins; i++) {
        const char *caution = view->sheet.margin[i].caution;
        size_t k = 0;
        while (caution && k < cautions && strcmp(said[k], caution) != 0)
            k++;
        /* The rule about mass limits stands on the first screen already. */
        if (!caution || k < cautions || strcmp(view->sheet.margin[i].name, "limit.all_up") == 0)
            continue;
        said[cautions++] = caution;
        const char *about = pare_margin_words(&view->sheet.margin[i], words);
        pare_text_printf(out, "  %s: ", about);
        pare_put_wrapped(screen, out, 4 + pare_columns(about), 6, caution);
    }
}

/* ---- exchange, knock-on, laws ---- */

#define LEAST_RATE 5e-6 /* in the figure's unit a gram: less is written as nothing */

static void exchange(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    enum { WORDS = 34, RATE = 16 };
    if (!view->exchange.exists)
        return;
    heading(screen, out, "One gram more");
    pare_text_add(out, "  ");
    pare_put_left(out, "", WORDS);
    pare_put_right(out, "at the centre", RATE);
    pare_put_right(out, "at the arm tips", RATE + 1);
    pare_text_add(out, "\n");
    char text[PARE_DIGITS];
    for (int i = PARE_HOVER_OUTPUT; i < PARE_FIGURES; i++) {
        const pare_figure_row *row = &pare_figure_table[i];
        const double centre = view->exchange.centre[i], tip = view->exchange.tip[i];
        if (row->better == 0 || !(isfinite(centre) && isfinite(tip)))
            continue;
        const bool in_time = row->dimension == PARE_DIM_TIME;
        const double scale = 1e-3 * (in_time ? 1 : i == PARE_HOVER_OUTPUT ? 100 : row->scale);
        const char *unit = in_time ? "s" : i == PARE_HOVER_OUTPUT ? "%" : row->unit;
        if (fabs(scale * centre) < LEAST_RATE && fabs(scale * tip) < LEAST_RATE)
            continue;
        pare_text_add(out, "  ");
        pare_put_left(out, row->words, WORDS);
        pare_put_right(out, pare_digits_change(text, scale * centre, 2, 5), RATE);
        pare_put_right(out, pare_digits_change(text, scale * tip, 2, 5), RATE + 1);
        pare_text_printf(out, "%s%s\n", unit[0] ? " " : "", unit);
    }
    if (view->growth_known) {
        pare_text line = {0};
        pare_text_printf(&line,
                         "Knock-on: were motors and pack to shrink with it, one gram saved would "
                         "end as %s g.",
                         pare_digits_at(text, view->growth.growth, 1));
        pare_put_line(screen, out, 0, 0, &line);
    }
}

static void laws(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    bool first = true;
    for (size_t i = 0; i < view->craft.items; i++) {
        const pare_item *item = &view->craft.item[i];
        const char *names[PARE_SPECS + 1];
        const size_t count = item->off ? 0 : pare_filled_names(item->part, names);
        if (count == 0 || pare_filled_before(&view->craft, i))
            continue;
        if (first)
            heading(screen, out, "Filled in by a law of the trade, for want of a stated figure");
        first = false;
        pare_text line = {0};
        for (size_t k = 0; k < count; k++)
            pare_text_printf(&line, "%s%s", k ? ", " : "", names[k]);
        pare_text_add(out, "  ");
        put_name(out, item->part->id, NAME);
        pare_put_rest(screen, out, 2 + NAME, 2 + NAME, &line);
    }
    if (pare_craft_drag_from(&view->craft) == PARE_DRAG_BY_LAW) {
        if (first)
            heading(screen, out, "Filled in by a law of the trade, for want of a stated figure");
        char text[PARE_DIGITS];
        pare_text_add(out, "  ");
        pare_put_left(out, "the craft", NAME);
        pare_text_printf(out, "drag area %s cm2\n",
                         pare_digits_at(text, 1e4 * pare_craft_drag_m2(&view->craft), 0));
    }
}

static void surprises(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    pare_listed list[PARE_ITEMS];
    const size_t count = pare_craft_surprises(&view->craft, list);
    if (count == 0)
        return;
    heading(screen, out, "Heavier than the law of the kind says, by over two sigma");
    pare_surprises_text(count, list, screen, out);
}

void pare_sheet_all_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    ledger(view, screen, out);
    body(view, screen, out);
    flight(view, screen, out);
    states(view, screen, out);
    power(view, screen, out);
    drag(view, screen, out);
    margins(view, screen, out);
    pare_wires_text(view, screen, out);
    pare_label_text(view, screen, out);
    pare_arms_text(view, screen, out);
    pare_screws_text(view, screen, out);
    pare_crash_text(view, screen, out);
    pare_radio_text(view, screen, out);
    pare_mass_rules_text(view, screen, out);
    exchange(view, screen, out);
    surprises(view, screen, out);
    laws(view, screen, out);
}
