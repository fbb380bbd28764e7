/* walk_text.c: the order in which to buy a set, on a screen (see walk.h).
 *
 * A row is a step: what it saves and costs, what the craft weighs then and what has been spent. Where there
 * is a budget a line says where it ends. */
#include <math.h>
#include <stdio.h>

#include "show/digits.h"
#include "show/walk.h"

enum { NUMBER_COLUMNS = 9, WORDS_AT = 4 + 4 * NUMBER_COLUMNS + 2 };

static double money(int64_t cents)
{
    return 1e-2 * (double)cents;
}

static void put_number(pare_text *out, double value, int place)
{
    char text[PARE_DIGITS];
    pare_put_right(out, pare_digits_at(text, value, place), NUMBER_COLUMNS);
}

static void put_step(const pare_walk_view *view, size_t index, const pare_screen *screen,
                     pare_text *out)
{
    const pare_walk_step *step = &view->walk->step[index];
    char number[24];
    pare_text line = {0};
    snprintf(number, sizeof number, "%zu", index + 1);
    pare_put_right(out, number, 4);
    put_number(out, pare_best_grams(step->saved_100ug), 1);
    if (step->priced)
        put_number(out, money(step->cents), 2);
    else
        pare_put_right(out, "?", NUMBER_COLUMNS);
    put_number(out, pare_best_grams(step->mass_100ug), 1);
    put_number(out, money(step->spent_cents), 2);
    for (size_t i = 0; i < step->swaps; i++)
        pare_text_printf(&line, "%s%s", i ? ", " : "", view->best->swap[step->swap[i]].applied.id);
    pare_text_add(out, "  ");
    pare_put_rest(screen, out, WORDS_AT, WORDS_AT, &line);
}

/* What the money of now comes to. */
static void put_now(const pare_walk_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_walk *walk = view->walk;
    const pare_walk_step *last = walk->now ? &walk->step[walk->now - 1] : NULL;
    pare_text line = {0};
    pare_text_printf(&line, "--- up to here for %.2f: %.1f g less, %.2f spent%s ---",
                     money(*view->budget),
                     last ? pare_best_grams(walk->was_100ug - last->mass_100ug) : 0.0,
                     last ? money(last->spent_cents) : 0.0,
                     walk->now == walk->steps ? ", and that is all of it" : "");
    pare_put_line(screen, out, 0, 0, &line);
}

static void put_rule(const pare_walk *walk, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_text_add(&line,
                  "Every step flies, keeps its jobs and breaks no limit that holds now; money is "
                  "as things are sold, in bags and metres. ");
    pare_text_add(&line, walk->stopped ? "Stopped: what was not put in order is the last step."
                         : walk->exact
                             ? "No other order wastes fewer grams times money."
                             : "With so many swaps the order is by rule: free first, then the most "
                               "grams for the money.");
    pare_text_add(out, "\n");
    pare_put_line(screen, out, 0, 0, &line);
}

void pare_walk_text(const pare_walk_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_walk *walk = view->walk;
    const pare_best *best = view->best;
    pare_text line = {0};
    pare_text_add(&line, best->before->name);
    if (view->loadout)
        pare_text_printf(&line, ", loadout %s", view->loadout);
    if (!best->found) {
        pare_text_add(&line, best->stopped
                                 ? ": stopped before any set was found that meets the brief"
                                 : ": no set does what the brief asks");
        pare_put_line(screen, out, 0, 0, &line);
        return;
    }
    pare_text_printf(&line, ": from %.1f g to %.1f g (%s) in %zu step%s",
                     pare_best_grams(walk->was_100ug), pare_best_grams(best->best_100ug),
                     best->proven ? "proven the lightest" : "not proven the lightest", walk->steps,
                     walk->steps == 1 ? "" : "s");
    pare_put_line(screen, out, 0, 0, &line);
    if (walk->steps == 0)
        return;
    pare_text_add(out, "\n");
    pare_put_right(out, "", 4);
    pare_put_right(out, "g less", NUMBER_COLUMNS);
    pare_put_right(out, view->money ? view->money : "money", NUMBER_COLUMNS);
    pare_put_right(out, "then, g", NUMBER_COLUMNS);
    pare_put_right(out, "spent", NUMBER_COLUMNS);
    pare_text_add(out, "\n");
    for (size_t i = 0; i < walk->steps; i++) {
        if (view->budget && i == walk->now)
            put_now(view, screen, out);
        put_step(view, i, screen, out);
    }
    if (view->budget && walk->now == walk->steps)
        put_now(view, screen, out);
    put_rule(walk, screen, out);
}
