/* weigh_text.c: weigh-ins and what they make of a craft's masses, on a screen (see weigh.h). */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/digits.h"
#include "show/weigh.h"

enum { LATEST = 10 };

static double g(double kg)
{
    return 1e3 * kg;
}

void pare_weighed_words(const pare_weigh_in *weigh_in, pare_text *line)
{
    if (weigh_in->all)
        pare_text_printf(line, "the whole craft%s%s", weigh_in->loadout ? ", " : "",
                         weigh_in->loadout ? weigh_in->loadout : "");
    for (size_t i = 0; i < weigh_in->things; i++)
        pare_text_printf(line, "%s%d %s", i ? ", " : "", weigh_in->thing[i].count,
                         weigh_in->thing[i].name);
}

/* "150.9 to 155.0 g", with a digit that the interval is worth. */
static void interval(double low_kg, double high_kg, pare_text *line)
{
    char text[PARE_DIGITS];
    const double u = g(high_kg - low_kg) / 4;
    pare_text_printf(line, "%s to ", pare_digits(text, g(low_kg), u));
    pare_text_printf(line, "%s g", pare_digits(text, g(high_kg), u));
}

/* ---- readings ---- */

static bool is_misfit(const pare_closure *closure, size_t which)
{
    for (size_t i = 0; i < closure->misfits; i++)
        if (!closure->misfit[i].of_prior && closure->misfit[i].which == which)
            return true;
    return false;
}

static void put_reading(const pare_closure *closure, size_t which, const pare_screen *screen,
                        pare_text *out)
{
    const pare_weigh_in *w = &closure->of.weighings->weigh_in[which];
    pare_text line = {0};
    pare_weighed_words(w, &line);
    pare_text_printf(&line, ": %s", w->reads);
    if (w->scale)
        pare_text_printf(&line, " on %s", w->scale);
    if (w->promised) {
        pare_text_add(&line, ", promised ");
        interval(w->low_kg, w->high_kg, &line);
        pare_text_add(&line, w->reads_kg >= w->low_kg && w->reads_kg <= w->high_kg ? ", held"
                                                                                   : ", missed");
    }
    if (closure->unused[which])
        pare_text_printf(&line, "; not used: %s", closure->unused[which]);
    else if (is_misfit(closure, which))
        pare_text_add(&line, "; left out, see below");
    pare_put_labelled_line(screen, out, w->date, &line);
}

static size_t count_readings(const pare_weigh_view *view)
{
    const pare_weighings *w = view->closure->of.weighings;
    size_t count = 0;
    for (size_t i = 0; i < w->count; i++)
        count += strcmp(w->weigh_in[i].craft, view->craft->name) == 0;
    return count;
}

static void put_readings(const pare_weigh_view *view, bool all, const pare_screen *screen,
                         pare_text *out)
{
    const pare_weighings *w = view->closure->of.weighings;
    const size_t count = count_readings(view);
    size_t skip = !all && count > LATEST ? count - LATEST : 0;
    pare_text head = {0};
    pare_text_printf(&head, "%s: %zu reading%s", view->craft->name, count, count == 1 ? "" : "s");
    if (skip)
        pare_text_printf(&head, ", the latest %d (--all: every one)", LATEST);
    pare_put_heading(screen, out, pare_text_all(&head));
    out->failed |= head.failed;
    pare_text_free(&head);
    for (size_t i = 0; i < w->count; i++) {
        if (strcmp(w->weigh_in[i].craft, view->craft->name) != 0)
            continue;
        if (skip)
            skip--;
        else
            put_reading(view->closure, i, screen, out);
    }
}

/* ---- what does not fit ---- */

static void misfit_words(const pare_closure *closure, const pare_misfit *misfit,
                         const pare_screen *screen, pare_text *line)
{
    const pare_weighings *w = closure->of.weighings;
    char text[PARE_DIGITS];
    const double off_g = g(misfit->off_kg);
    if (misfit->of_prior) {
        const pare_unknown *u = &closure->unknown[misfit->which];
        pare_text_printf(line, "%s: %s ", u->name, pare_known_name(u->known));
        pare_text_printf(line, "%s g, ", pare_digits_u(text, screen, g(u->prior), g(u->prior_u)));
        pare_text_printf(line, "but by the scale %s g",
                         pare_digits(text, g(closure->adjusted.value[misfit->which]),
                                     g(closure->adjusted.u[misfit->which])));
    } else {
        const pare_weigh_in *one = &w->weigh_in[misfit->which];
        pare_weighed_words(one, line);
        pare_text_printf(line, " on %s, %s: ", one->date, one->reads);
        pare_text_printf(line, "%s g %s than all else says", pare_digits_at(text, fabs(off_g), 1),
                         off_g > 0 ? "more" : "less");
    }
    pare_text_printf(line, " (%s sigma, the bound is ", pare_digits_at(text, misfit->sigmas, 1));
    pare_text_printf(line, "%s)", pare_digits_at(text, closure->bound, 1));
    if (misfit->against >= 0)
        pare_text_printf(line, "; or the %s of %s is wrong, which says as much against it",
                         w->weigh_in[misfit->against].reads, w->weigh_in[misfit->against].date);
    pare_text_add(line, misfit->of_prior ? "" : "; kept, but left out of the sums");
}

/* ---- the sums ---- */

static void put_chance(double chance, pare_text *line)
{
    if (chance < 0.005)
        pare_text_add(line, "under 1 %");
    else if (chance > 0.995)
        pare_text_add(line, "over 99 %");
    else
        pare_text_printf(line, "%.0f %%", 100 * chance);
}

static void put_all_up(const pare_weigh_view *view, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    for (size_t i = 0; i < view->loadouts; i++) {
        const pare_weigh_loadout *one = &view->mass[i];
        pare_text line = {0};
        if (one->name)
            pare_text_printf(&line, "%s: ", one->name);
        if (one->mass.allowed)
            interval(one->mass.low_kg, one->mass.high_kg, &line);
        else
            pare_text_printf(&line, "%s g",
                             pare_digits_u(text, screen, g(one->mass.kg), g(one->mass.u_kg)));
        if (isfinite(one->chance)) {
            pare_text_printf(&line, "; at most %s g with a chance of ",
                             pare_digits_limit(text, g(view->limit_kg)));
            put_chance(one->chance, &line);
        }
        if (one->mass.allowed && i == view->here)
            pare_text_printf(&line, "; %s g are written down, solder and ties come on top",
                             pare_digits_u(text, screen, g(one->mass.kg), g(one->mass.u_kg)));
        pare_put_labelled_line(screen, out, i ? "" : "all-up", &line);
    }
}

/* Those that somebody owns, or all that go on. */
static void put_packs(const pare_weigh_view *view, bool all, const pare_screen *screen,
                      pare_text *out)
{
    char text[PARE_DIGITS];
    bool first = true;
    for (size_t i = 0; i < view->packs; i++) {
        const pare_weigh_pack *one = &view->pack[i];
        pare_text line = {0};
        if (!all && one->pack->owned < 1)
            continue;
        pare_text_printf(&line, "%s: %s g; at most ", one->pack->id,
                         pare_digits_u(text, screen, g(one->mass.kg), g(one->mass.u_kg)));
        pare_text_printf(&line, "%s g with a chance of ",
                         pare_digits_limit(text, g(view->limit_kg)));
        put_chance(one->chance, &line);
        pare_put_labelled_line(screen, out, first ? "other packs" : "", &line);
        first = false;
    }
}

static void put_closure(const pare_weigh_view *view, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    pare_text line = {0};
    if (view->forgotten < 0) {
        pare_text_add(&line, "not known: the whole craft was never weighed; the scale will show ");
        interval(view->whole.low_kg, view->whole.high_kg, &line);
        pare_put_labelled_line(screen, out, "closure", &line);
        return;
    }
    pare_text_printf(
        &line, "%s g %s than what is written down, ",
        pare_digits_u(text, screen, g(fabs(view->forgotten_kg)), g(view->forgotten_u_kg)),
        view->forgotten_kg < 0 ? "less" : "more");
    pare_text_printf(&line, "%s g",
                     pare_digits_u(text, screen, g(view->written.kg), g(view->written.u_kg)));
    if (view->more)
        pare_text_add(&line, view->solder ? ": something is forgotten"
                                          : ": more than solder and ties, something is forgotten");
    else if (view->less)
        pare_text_add(&line, ": something written down is not on it, or is lighter");
    else
        pare_text_add(&line, view->solder ? ": all is written down, as far as the scale can tell"
                                          : ": what solder, ties and loose wire weigh");
    pare_put_labelled_line(screen, out, "closure", &line);
    if (view->suspects == 0)
        return;
    for (size_t i = 0; i < view->suspects; i++) {
        pare_text_printf(&line, "%s%s (", i ? ", or " : "as much as ", view->suspect[i]->id);
        pare_text_printf(
            &line, "%s g)",
            pare_digits(text, g(view->suspect[i]->mass_kg.value), g(view->suspect[i]->mass_kg.u)));
    }
    pare_text_add(&line, view->suspects > 1 ? ", which are owned and on no craft"
                                            : ", which is owned and on no craft");
    pare_put_labelled_line(screen, out, "forgotten", &line);
}

/* How sure it is then whether the limit holds. */
static void put_right(const pare_weigh_view *view, size_t i, pare_text *line)
{
    char text[PARE_DIGITS];
    const pare_weigh_list *next = &view->next;
    if (i > 0)
        pare_text_add(line, "; then ");
    else
        pare_text_printf(line,
                         "; whether it is under %s g is then judged rightly with a chance of ",
                         pare_digits_limit(text, g(next->limit_kg)));
    put_chance(next->choice[i].right, line);
    if (i == 0) {
        pare_text_add(line, ", now ");
        put_chance(next->now_right, line);
    }
}

static void put_next(const pare_weigh_view *view, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    const bool by_chance = view->next.by == PARE_WEIGH_FOR_CHANCE;
    for (size_t i = 0; i < view->next.count; i++) {
        const pare_weigh_choice *choice = &view->next.choice[i];
        pare_text line = {0};
        if (by_chance && strcmp(choice->name, "whole") == 0)
            pare_text_add(&line, "the whole craft: ");
        else if (choice->count > 1)
            pare_text_printf(&line, "%s, all %d: ", choice->name, choice->count);
        else
            pare_text_printf(&line, "%s: ", choice->name);
        pare_text_add(&line, "the scale will show ");
        interval(choice->promise.low_kg, choice->promise.high_kg, &line);
        if (by_chance) {
            put_right(view, i, &line);
            pare_put_labelled_line(screen, out, i ? "" : "weigh next", &line);
            continue;
        }
        pare_text_printf(&line, "; %s ",
                         i                     ? "then"
                         : view->forgotten < 0 ? "leaves all-up to"
                                               : "leaves the closure to");
        pare_text_printf(&line, "%s %s g", pare_screen_plus_minus(screen),
                         pare_digits_at(text, g(choice->left_kg), 1));
        if (i == 0)
            pare_text_printf(&line, ", now %s %s g", pare_screen_plus_minus(screen),
                             pare_digits_at(text, g(view->next.now_kg), 1));
        pare_put_labelled_line(screen, out, i ? "" : "weigh next", &line);
    }
}

static void put_lines(const pare_weigh_view *view, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "Grams as written, and as adjusted");
    for (size_t i = 0; i < view->lines; i++) {
        const pare_weigh_line *l = &view->line[i];
        pare_text line = {0};
        pare_put_left(&line, l->name, 24);
        pare_put_right(&line, pare_digits(text, g(l->prior_kg), g(l->u_kg)), 8);
        pare_text_add(&line, "  ");
        pare_text_printf(&line, "%s g, %s%s", pare_digits_u(text, screen, g(l->kg), g(l->u_kg)),
                         l->readings ? "by the scale" : pare_known_name(l->known), "\n");
        pare_text_add(out, pare_text_all(&line));
        out->failed |= line.failed;
        pare_text_free(&line);
    }
}

void pare_weigh_text(const pare_weigh_view *view, bool all, const pare_screen *screen,
                     pare_text *out)
{
    put_readings(view, all, screen, out);
    pare_text_add(out, "\n");
    put_all_up(view, screen, out);
    put_packs(view, all, screen, out);
    put_closure(view, screen, out);
    for (size_t i = 0; i < view->closure->misfits; i++) {
        pare_text line = {0};
        misfit_words(view->closure, &view->closure->misfit[i], screen, &line);
        pare_put_labelled_line(screen, out, "does not fit", &line);
    }
    put_next(view, screen, out);
    if (view->promised) {
        pare_text line = {0};
        pare_text_printf(&line, "%zu promise%s over all craft, %zu held", view->promised,
                         view->promised == 1 ? "" : "s", view->held);
        if (view->hovers.made)
            pare_text_printf(&line, " (of hover output %zu, %zu held)", view->hovers.made,
                             view->hovers.held);
        pare_text_add(&line, "; nine of ten should");
        pare_put_labelled_line(screen, out, "score", &line);
    }
    if (all)
        put_lines(view, screen, out);
    if (isfinite(view->limit_kg))
        pare_put_wrapped(screen, out, 0, 0,
                         "A legal mass limit counts the craft as flown, with everything on it: "
                         "check your local rules.");
}
