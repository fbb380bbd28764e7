/* best_text.c: the best set on a screen (see best.h).
 *
 * A builder opens a craft once: swaps stand by how far it must be opened for them, and what costs nothing
 * stands first. All of them together are what is proven, so the grams of a row are what it adds after
 * those that went on before it, and rows add up to the whole. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "show/best.h"
#include "show/digits.h"
#include "show/sheet_view.h"
#include "show/unlearned.h"

enum { ID_COLUMNS = 42, NUMBER_COLUMNS = 9, WORDS_COLUMNS = 34, VALUE_COLUMNS = 15, BINDS = 4 };

/* ---- what to do ---- */

bool pare_best_is_free(const pare_best_swap *swap)
{
    return swap->applied.priced && swap->applied.money < 0.005;
}

static void put_swap(const pare_best_view *view, const pare_best_swap *swap,
                     const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    const pare_applied *a = &swap->applied;
    pare_text line = {0};
    pare_text_add(out, "  ");
    pare_put_left(out, a->id, ID_COLUMNS);
    pare_put_right(out, pare_digits_at(text, pare_best_grams(swap->saved_100ug), 1),
                   NUMBER_COLUMNS);
    if (!a->priced)
        snprintf(text, sizeof text, "?");
    else
        pare_digits_at(text, fabs(a->money) < 0.005 ? 0 : a->money, 0);
    pare_put_right(out, text, NUMBER_COLUMNS);
    pare_text_add(out, "\n");
    for (size_t i = 0; i < a->brings; i++)
        pare_text_printf(&line, "%s%s", line.length ? "; " : "brings ", a->bring[i]);
    for (size_t i = 0; i < a->drops; i++)
        pare_text_printf(&line, "%s%s", i ? "; " : line.length ? "; off: " : "off: ", a->drop[i]);
    if (pare_text_any(&line))
        pare_put_line(screen, out, 6, 6, &line);
    pare_text_free(&line);
    for (size_t i = 0; view->all && i < a->notes; i++) {
        pare_text_add(&line, a->note[i]);
        pare_put_line(screen, out, 6, 6, &line);
    }
}

static void put_opening(const pare_best_view *view, pare_opening opening, const pare_screen *screen,
                        pare_text *out)
{
    const pare_best *best = view->best;
    const char *words = pare_opening_words(opening);
    bool any = false;
    for (int costs = 0; costs < 2; costs++)
        for (size_t i = 0; i < best->swaps; i++) {
            const pare_best_swap *swap = &best->swap[i];
            if (swap->opening != opening || pare_best_is_free(swap) != (costs == 0))
                continue;
            if (!any)
                pare_text_printf(out, "%c%s\n", words[0] - 'a' + 'A', words + 1);
            any = true;
            put_swap(view, swap, screen, out);
        }
}

static void put_swaps(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_best *best = view->best;
    char text[PARE_DIGITS];
    pare_text_add(out, "\n");
    pare_put_left(out, "to do, opened once, what is free first", ID_COLUMNS + 2);
    pare_put_right(out, "g less", NUMBER_COLUMNS);
    pare_put_right(out, view->money ? view->money : "money", NUMBER_COLUMNS);
    pare_text_add(out, "\n");
    for (int g = 0; g < PARE_OPENINGS; g++)
        put_opening(view, (pare_opening)g, screen, out);
    pare_put_left(out, "together", ID_COLUMNS + 2);
    pare_put_right(out,
                   pare_digits_at(text, pare_best_grams(best->was_100ug - best->best_100ug), 1),
                   NUMBER_COLUMNS);
    pare_put_right(out, best->priced ? pare_digits_at(text, best->money, 0) : "?", NUMBER_COLUMNS);
    pare_text_printf(out, "  %.0f min\n", ceil(best->work->minutes));
    if (best->back > 0) {
        pare_put_left(out, "with so much back for what comes off", ID_COLUMNS + 2);
        pare_put_right(out, "", NUMBER_COLUMNS);
        pare_put_right(out, pare_digits_at(text, best->back, 0), NUMBER_COLUMNS);
        pare_text_add(out, "\n");
    }
}

static void put_steps(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_checklist *list = view->best->work;
    pare_text line = {0};
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "The work, step by step");
    for (size_t i = 0; i < list->firsts; i++) {
        pare_text_add(&line, list->first[i]);
        pare_put_line(screen, out, 2, 2, &line);
    }
    for (int g = 0; g < PARE_OPENINGS; g++)
        for (size_t i = 0; i < list->group[g].steps; i++) {
            pare_text_printf(&line, "%s: %s", pare_opening_words((pare_opening)g),
                             list->group[g].step[i]);
            pare_put_line(screen, out, 2, 2, &line);
        }
    for (size_t i = 0; i < list->checks; i++) {
        pare_text_add(&line, list->check[i]);
        pare_put_line(screen, out, 2, 2, &line);
    }
}

/* ---- before and after ---- */

static void put_value(const pare_sheet_figure *figure, double scale, const pare_screen *screen,
                      pare_text *out)
{
    char text[PARE_DIGITS];
    pare_put_right(out,
                   figure->exists
                       ? pare_digits_u(text, screen, scale * figure->value, scale * figure->u)
                       : "-",
                   VALUE_COLUMNS);
}

const pare_figure pare_best_shown[PARE_BEST_SHOWN] = {
    PARE_ALL_UP,    PARE_FLOWN_TIME, PARE_HOVER_OUTPUT, PARE_HOVER_A,
    PARE_TWR_FRESH, PARE_TWR_HALF,   PARE_TWR_LANDING,  PARE_ROLL,
    PARE_PITCH,     PARE_TOP_SPEED,  PARE_CRASH};

static void put_figures(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    pare_text_add(out, "\n");
    pare_put_left(out, "", WORDS_COLUMNS);
    pare_put_right(out, "now", VALUE_COLUMNS);
    pare_put_right(out, "then", VALUE_COLUMNS);
    pare_text_add(out, "\n");
    for (size_t i = 0; i < PARE_BEST_SHOWN; i++) {
        const pare_figure_row *row = &pare_figure_table[pare_best_shown[i]];
        const bool share = row->dimension == PARE_DIM_SHARE;
        char words[96];
        snprintf(words, sizeof words, "%s%s%s", row->words, row->unit[0] || share ? ", " : "",
                 share ? "%" : row->unit);
        pare_put_left(out, words, WORDS_COLUMNS);
        const double scale = share ? 100 * row->scale : row->scale;
        put_value(&view->best->sheet_before->figure[pare_best_shown[i]], scale, screen, out);
        put_value(&view->best->sheet_after->figure[pare_best_shown[i]], scale, screen, out);
        pare_text_add(out, "\n");
    }
}

/* ---- what binds, and the proof ---- */

static void put_binds(const pare_best *best, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    for (size_t i = 0; i < best->binds && i < BINDS; i++) {
        pare_text_add(&line, i ? "; " : "");
        pare_best_put_limit(best, best->bind[i].name, true, &line);
    }
    if (best->binds == 0)
        pare_text_add(&line, "nothing: each choice is its lightest");
    pare_text_add(out, "\n");
    pare_put_labelled_line(screen, out, "what binds", &line);
}

void pare_best_put_proof(const pare_best_view *view, pare_text *out)
{
    const pare_best *best = view->best;
    const bool by_grams = best->bound_100ug != INT64_MAX, wishes_else = pare_best_wishes_else(view);
    if (best->proven && best->found && wishes_else) {
        if (!pare_best_wish_by_grams(view->wished->wish))
            pare_text_printf(out, "of those that are as good none is lighter: %.4f g = bound",
                             pare_best_grams(best->best_100ug));
    } else if (best->proven && best->found)
        pare_text_printf(out, "best %.4f g = bound: no set of these parts %sis lighter",
                         pare_best_grams(best->best_100ug), view->sure ? "that is as sure " : "");
    else if (best->found && by_grams)
        pare_text_printf(out,
                         "stopped: best so far %.1f g, none is below %.1f g, so at most %.1f g "
                         "are missing",
                         pare_best_grams(best->best_100ug), pare_best_grams(best->bound_100ug),
                         pare_best_grams(best->best_100ug - best->bound_100ug));
    if (best->misses)
        pare_text_add(out, "; masses did not add up, so nothing is proven: please report it");
}

static void put_proof(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_best *best = view->best;
    pare_text line = {0};
    const size_t before = out->length;
    pare_best_put_proof(view, &line);
    if (pare_best_wishes_else(view))
        pare_best_put_wish_proof(view, screen, out);
    if (pare_text_any(&line))
        pare_put_labelled_line(screen, out, out->length > before ? "" : "proof", &line);
    if (!view->all)
        return;
    pare_text_printf(
        &line,
        "%zu groups of frame, motors, propellers and pack, %zu put together, %zu searched "
        "to the end, %zu sets judged in full, in %.2g s",
        best->groups, best->opened, best->dived, best->sets, view->seconds);
    pare_put_line(screen, out, PARE_LABEL, PARE_LABEL, &line);
    for (size_t i = 0; i < best->cuts; i++) {
        pare_text_printf(&line, "%zu groups cut by: ", best->cut[i].groups);
        pare_best_put_limit(best, best->cut[i].name, false, &line);
        pare_put_line(screen, out, PARE_LABEL, PARE_LABEL, &line);
    }
}

/* ---- no set ---- */

static void put_none(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_best *best = view->best;
    pare_text line = {0};
    pare_text_add(out, "\n");
    if (!best->proven) {
        pare_text_add(&line, "Stopped before any set was found that meets the brief.");
        pare_put_line(screen, out, 0, 0, &line);
        return;
    }
    pare_text_add(&line, "No set of these parts meets the brief");
    if (view->sure)
        pare_text_printf(&line, " with %g %%", 100 * view->sure->asked);
    if (view->most_work_min)
        pare_text_printf(&line, " within %.4g h of work", *view->most_work_min / 60);
    pare_text_add(&line, ".");
    if (best->groups == 0 && best->binds == 0)
        pare_text_add(&line, " No frame, motors, propellers and pack that are left fit together.");
    else if (best->binds == 0)
        pare_text_add(&line, " None of them goes on the craft.");
    pare_put_line(screen, out, 0, 0, &line);
    for (size_t i = 0; i < best->binds; i++) {
        pare_text_printf(&line, "%zu times refused by: ", best->bind[i].groups);
        pare_best_put_limit(best, best->bind[i].name, false, &line);
        pare_put_line(screen, out, 2, 2, &line);
    }
    pare_best_put_reliefs(view, screen, out);
}

/* Where the set has another motor or propeller on. */
static void put_unlearned(const pare_best *best, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    if (pare_taught_flew(best->after))
        return;
    pare_unlearned_words(best->before, &line);
    if (pare_text_any(&line))
        pare_put_line(screen, out, 0, 0, &line);
}

/* What becomes of the grams; by another wish they may be more. */
static void add_grams(const pare_best_view *view, pare_text *line)
{
    const pare_best *best = view->best;
    const double less = pare_best_grams(best->was_100ug - best->best_100ug);
    const bool else_wish = pare_best_wishes_else(view);
    pare_text_printf(line, ", %.1f g %s, %.1f g %s", pare_best_grams(best->best_100ug),
                     else_wish ? "then" : "at best", fabs(less), less < 0 ? "more" : "less");
    if (!else_wish)
        pare_text_add(line, best->proven ? ", proven" : ", not proven");
}

void pare_best_put_grams(const pare_best_view *view, pare_text *line)
{
    pare_text_printf(line, "%.1f g now", pare_best_grams(view->best->was_100ug));
    if (view->best->found)
        add_grams(view, line);
}

void pare_best_text(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_best *best = view->best;
    pare_text line = {0};
    pare_text_add(&line, best->before->name);
    if (view->loadout)
        pare_text_printf(&line, ", loadout %s%s", view->loadout,
                         view->every ? " (the heaviest; limits kept in all)" : "");
    pare_best_add_wish(view, &line);
    if (view->sure)
        pare_text_printf(&line, ", %g %% sure", 100 * view->sure->asked);
    pare_text_add(&line, pare_best_wishes_else(view) ? "; " : ": ");
    pare_best_put_grams(view, &line);
    pare_put_line(screen, out, 0, 0, &line);
    if (!best->found) {
        put_none(view, screen, out);
        return;
    }
    put_swaps(view, screen, out);
    put_figures(view, screen, out);
    put_unlearned(best, screen, out);
    put_binds(best, screen, out);
    pare_best_put_sureness(view, screen, out);
    pare_best_put_loosened(view, screen, out);
    put_proof(view, screen, out);
    pare_best_put_ways(view, screen, out);
    pare_best_put_sought(view, screen, out);
    if (view->all)
        put_steps(view, screen, out);
    if (best->swaps == 0)
        return;
    pare_text_printf(&line, "All of it on: pare take %s ", best->before->name);
    for (size_t i = 0; i < best->swaps; i++)
        pare_text_printf(&line, "%s%s", i ? "," : "", best->swap[i].applied.id);
    pare_text_add(out, "\n");
    out->failed |= line.failed;
    pare_text_printf(out, "%s\n", pare_text_all(&line));
    pare_text_free(&line);
}
