/* take_text.c: taken swaps and their checklist on a screen (see take.h).
 *
 * A checklist is worked through with dirty hands: one thing a line, a box to tick in front, the tools
 * before the steps that need them. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/digits.h"
#include "show/shopping.h"
#include "show/take.h"

/* ---- what is taken ---- */

void pare_taken_days_text(const pare_taken *taken, pare_text *out)
{
    bool first = true;
    for (int s = 0; s < PARE_STAGES; s++)
        if (taken->date[s]) {
            pare_text_printf(out, "%s%s %s", first ? "" : ", ", pare_stage_name((pare_stage)s),
                             taken->date[s]);
            first = false;
        }
    if (first)
        pare_text_add(out, "chosen, no day said");
}

static void add_change(pare_text *line, const pare_taken *taken, const char *key, double scale,
                       int significant, int place, const char *words)
{
    char text[PARE_DIGITS];
    const double change = scale * pare_taken_promised(taken, key);
    if (isfinite(change))
        pare_text_printf(line, "%s%s %s", line->length ? ", " : "",
                         pare_digits_change(text, change, significant, place), words);
}

static void put_promise(const pare_taken *taken, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    char text[PARE_DIGITS];
    const double grams = pare_taken_promised(taken, "all_up_g"),
                 u = pare_taken_promised(taken, "all_up_g_u");
    if (isfinite(grams))
        pare_text_printf(&line, "%s%s g", grams > 0 ? "+" : "",
                         pare_digits_u(text, screen, grams, isfinite(u) ? u : 0));
    add_change(&line, taken, "flown_min", 60, 2, 0, "s flown");
    add_change(&line, taken, "thrust_to_weight_fresh", 1, 2, 2, "thrust to weight");
    add_change(&line, taken, "roll_rad_s2", 1, 2, 1, "rad/s2 roll");
    if (line.length == 0) {
        pare_text_free(&line);
        return;
    }
    pare_text whole = {0};
    pare_text_printf(&whole, "promised %s", line.bytes);
    whole.failed |= line.failed;
    pare_text_free(&line);
    pare_put_line(screen, out, 4, 4, &whole);
}

/* "the scale says -8.4 +- 0.4 g, where -7.6 +- 0.5 g was promised: real with a chance of over 99 %" */
static void put_answer(const pare_answer *answer, const char *who, double scale, const char *unit,
                       const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    pare_text line = {0};
    if (!answer->there)
        return;
    const double measured = scale * answer->measured, u = scale * answer->measured_u;
    pare_text_printf(&line, "%s %s%s %s, where ", who, measured > 0 ? "+" : "",
                     pare_digits_u(text, screen, measured, u), unit);
    pare_text_printf(
        &line, "%s%s %s was promised", answer->promised > 0 ? "+" : "",
        pare_digits_u(text, screen, scale * answer->promised, fmax(scale * answer->promised_u, 0)),
        unit);
    if (answer->swaps > 1)
        pare_text_printf(&line, " by the %zu that were fitted together", answer->swaps);
    pare_text_add(&line, ": real with a chance of ");
    if (answer->real < 0.005)
        pare_text_add(&line, "under 1 %");
    else if (answer->real > 0.995)
        pare_text_add(&line, "over 99 %");
    else
        pare_text_printf(&line, "%.0f %%", 100 * answer->real);
    pare_put_line(screen, out, 4, 4, &line);
}

static void put_taken(const pare_taken *taken, const pare_answers *answers,
                      const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_put_wrapped(screen, out, 0, 0, taken->swap);
    pare_taken_days_text(taken, &line);
    pare_put_line(screen, out, 4, 4, &line);
    for (size_t i = 0; i < taken->brings; i++)
        pare_text_printf(&line, "%s%s", i ? ", " : "brings ", taken->bring[i]->id);
    if (pare_text_any(&line))
        pare_put_line(screen, out, 4, 4, &line);
    put_promise(taken, screen, out);
    put_answer(&answers->mass, "the scale says", 1e3, "g", screen, out);
    put_answer(&answers->minutes, "flights say", 1, "s flown", screen, out);
    put_answer(&answers->hover, "flights say", 1, "A in hover", screen, out);
    put_answer(&answers->output, "hovers say", 100, "% output", screen, out);
}

static void put_all_up(const pare_take_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_sheet_figure *now = &view->built->figure[PARE_ALL_UP];
    const pare_taken_facts *facts = &view->facts;
    char text[PARE_DIGITS];
    pare_text line = {0};
    pare_text_printf(&line, "All-up %s g as built",
                     pare_digits_u(text, screen, 1e3 * now->value, 1e3 * now->u));
    if (facts->planned)
        pare_text_printf(
            &line, ", %s g once all of it is fitted",
            pare_digits_u(text, screen, 1e3 * facts->planned_kg, 1e3 * facts->planned_u_kg));
    else if (facts->chosen + facts->ordered)
        pare_text_printf(&line, "; not all of it goes on as things are: %s", facts->why);
    pare_text_add(&line, ".");
    pare_put_line(screen, out, 0, 0, &line);
}

/* ---- the checklist ---- */

static const char *box(const pare_screen *screen)
{
    return screen->utf8 ? "\u2610 " : "[ ] ";
}

static void put_box(const char *words, const pare_screen *screen, pare_text *out)
{
    const int indent = 2 + pare_columns(box(screen));
    pare_put_spaces(out, 2);
    pare_text_add(out, box(screen));
    pare_put_wrapped(screen, out, indent, indent, words);
}

static void put_group(const pare_check_group *group, pare_opening opening,
                      const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_text_printf(&line, "%c%s: %.0f min", pare_opening_words(opening)[0] - 'a' + 'A',
                     pare_opening_words(opening) + 1, ceil(group->minutes));
    if (group->solder_joints)
        pare_text_printf(&line, ", %d solder %s", group->solder_joints,
                         group->solder_joints > 1 ? "joints" : "joint");
    for (size_t i = 0; i < group->tools; i++)
        pare_text_printf(&line, "%s%s", i ? ", " : "; ", group->tool[i]);
    pare_put_line(screen, out, 0, 0, &line);
    for (size_t i = 0; i < group->steps; i++)
        put_box(group->step[i], screen, out);
}

static void put_checklist(const pare_checklist *list, const pare_screen *screen, pare_text *out)
{
    if (list->swaps == 0)
        return;
    pare_text_add(out, "\n");
    if (list->work) {
        pare_text line = {0};
        pare_text_printf(&line, "The work: about %.0f min, ", ceil(list->minutes));
        if (list->solder_joints)
            pare_text_printf(&line, "%d solder %s", list->solder_joints,
                             list->solder_joints == 1 ? "joint" : "joints");
        else
            pare_text_add(&line, "no soldering");
        out->failed |= line.failed;
        pare_put_heading(screen, out, pare_text_all(&line));
        pare_text_free(&line);
    }
    for (size_t i = 0; i < list->firsts; i++)
        put_box(list->first[i], screen, out);
    for (int g = 0; g < PARE_OPENINGS; g++)
        if (list->group[g].steps)
            put_group(&list->group[g], (pare_opening)g, screen, out);
    pare_put_heading(screen, out, "Before it flies, and on its first flight");
    for (size_t i = 0; i < list->checks; i++)
        put_box(list->check[i], screen, out);
}

void pare_take_text(const pare_take_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_craft *first = view->first;
    for (size_t i = 0; i < first->takens; i++)
        if (view->shown[i])
            put_taken(&first->taken[i], &view->answers[i], screen, out);
    put_all_up(view, screen, out);
    if (view->shopping) {
        pare_text_add(out, "\n");
        pare_shopping_text(view->shopping, view->money, screen, out);
    }
    put_checklist(view->checklist, screen, out);
}
