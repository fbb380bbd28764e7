/* swaps_text.c: the list of swaps on a screen (see swaps.h).
 *
 * One line of figures a swap, in columns; below it, indented, whatever else it does: a line of figures
 * says what is gained, the words below what must be known before it is done. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/digits.h"
#include "show/ruler.h"
#include "show/sheet_text.h"
#include "show/swaps.h"
#include "show/unlearned.h"

enum { GRAMS = 7, MONEY = 8, PER_G = 7, WORK = 6, TIME = 6, THRUST = 6, LAST = 7 };
enum { NOTES = 2 }; /* of a row, unless all are asked for */
enum { FIGURES = GRAMS + MONEY + PER_G + WORK + TIME + THRUST + LAST };

void pare_swaps_head(const pare_swaps_view *view, const pare_screen *screen, pare_text *out)
{
    const int name = screen->width - FIGURES;
    const char *money = view->money && *view->money ? view->money : "money";
    char per_g[32], last[16];
    snprintf(per_g, sizeof per_g, "%.5s/g", money);
    snprintf(last, sizeof last, "%s", view->wish == PARE_WISH_CRASH ? "crash" : "roll");
    pare_put_left(out, "swap", name);
    pare_put_right(out, "grams", GRAMS);
    pare_put_right(out, money, MONEY);
    pare_put_right(out, per_g, PER_G);
    pare_put_right(out, "work", WORK);
    pare_put_right(out, "flown", TIME);
    pare_put_right(out, "T/W", THRUST);
    pare_put_right(out, last, LAST);
    pare_text_add(out, "\n");
    pare_put_spaces(out, name);
    pare_put_right(out, "saved", GRAMS);
    pare_put_right(out, "", MONEY + PER_G);
    pare_put_right(out, "min", WORK);
    pare_put_right(out, "s", TIME);
    pare_put_right(out, "", THRUST);
    pare_put_right(out, view->wish == PARE_WISH_CRASH ? "J" : "%", LAST);
    pare_text_add(out, "\n");
}

static void figures(const pare_swaps_view *view, const pare_swap *swap, pare_text *out)
{
    const pare_applied *applied = &swap->applied;
    char text[PARE_DIGITS];
    const double grams = 1e3 * swap->grams_kg, u = 1e3 * swap->grams_u_kg;
    /* Tenths are worth showing where they are known, and where there is nothing else. */
    const int place = u > 0 ? pare_digits_place(grams, u) : 1;
    pare_put_right(out, pare_digits_at(text, grams, place > 2 ? 2 : place < 0 ? 0 : place), GRAMS);
    if (!applied->priced)
        pare_put_right(out, "?", MONEY);
    else
        pare_put_right(out, applied->money == 0 ? "0" : pare_digits_at(text, applied->money, 2),
                       MONEY);
    const bool per_g = applied->priced && applied->money > 0 && isfinite(swap->money_per_g);
    pare_put_right(out, per_g ? pare_digits_at(text, swap->money_per_g, 2) : "", PER_G);
    pare_put_right(out, pare_digits_at(text, applied->work_min, 0), WORK);
    pare_put_right(out, pare_digits_change(text, swap->change[PARE_FLOWN_TIME], 2, 0), TIME);
    pare_put_right(out, pare_digits_change(text, swap->change[PARE_TWR_FRESH], 2, 2), THRUST);
    if (view->wish == PARE_WISH_CRASH)
        pare_digits_change(text, swap->change[PARE_CRASH], 2, 1);
    else
        pare_digits_change(text, 100 * swap->change[PARE_ROLL] / view->roll_rad_s2, 2, 1);
    pare_put_right(out, text, LAST);
    pare_text_add(out, "\n");
}

static void say(pare_text *line, const char *verb, const char *what, bool first)
{
    if (first)
        pare_text_printf(line, "%s%s %s", line->length ? "; " : "", verb, what);
    else
        pare_text_printf(line, ", %s", what);
}

static const pare_mend *mend_of(const pare_swaps_view *view, const pare_swap *swap)
{
    const pare_mend *mend = view->mend ? &view->mend[swap - view->swaps->swap] : NULL;
    return mend && mend->sought ? mend : NULL;
}

/* "mended by propeller=pr-51-36: 49 g together" */
static void say_mend(const pare_mend *mend, pare_text *line)
{
    char grams[24];
    if (!mend->found)
        pare_text_add(line, "; nothing single mends that");
    else if (mend->instead)
        pare_text_printf(line, "; %s would do: %s g", mend->id,
                         pare_ruler_grams(grams, mend->grams_kg));
    else
        pare_text_printf(line, "; mended by %s: %s g together", mend->id,
                         pare_ruler_grams(grams, mend->grams_kg));
}

static void words(const pare_swaps_view *view, const pare_swap *swap, const pare_screen *screen,
                  pare_text *out)
{
    const pare_applied *applied = &swap->applied;
    pare_text line = {0};
    bool first = true;
    for (int job = 0; job < PARE_JOBS; job++)
        if (applied->jobs_lost & 1u << job) {
            say(&line, "nothing left that", pare_job_name((pare_job)job), first);
            first = false;
        }
    for (size_t i = 0; i < applied->brings; i++)
        say(&line, "brings", applied->bring[i], i == 0);
    for (size_t i = 0; i < applied->drops; i++)
        say(&line, "takes away", applied->drop[i], i == 0);
    for (size_t i = 0; i < swap->breaks; i++)
        say(&line, "breaks", swap->broken[i], i == 0);
    if (mend_of(view, swap))
        say_mend(mend_of(view, swap), &line);
    for (size_t i = 0; i < swap->loosens; i++)
        say(&line, "eases", swap->loosened[i], i == 0);
    const size_t notes = view->all_notes || applied->notes < NOTES ? applied->notes : NOTES;
    for (size_t i = 0; i < notes; i++)
        pare_text_printf(&line, "%s%s", line.length ? "; " : "", applied->note[i]);
    if (notes < applied->notes)
        pare_text_printf(&line, "; and %zu more", applied->notes - notes);
    if (line.length) {
        pare_put_spaces(out, 4);
        pare_put_wrapped(screen, out, 4, 4, line.bytes);
    }
    out->failed |= line.failed;
    pare_text_free(&line);
}

void pare_swaps_row(const pare_swaps_view *view, const pare_swap *swap, const pare_screen *screen,
                    pare_text *out)
{
    const int name = screen->width - FIGURES;
    const char *id = swap->applied.id;
    if (pare_columns(id) < name) {
        pare_put_left(out, id, name);
    } else {
        pare_text_printf(out, "%s\n", id);
        pare_put_spaces(out, name);
    }
    figures(view, swap, out);
    words(view, swap, screen, out);
}

typedef enum group { FREE, PAID, BREAKS, SOUGHT, LOST } group;

static group group_of(const pare_swaps_view *view, const pare_swap *swap)
{
    if (swap->applied.jobs_lost & (view->craft->brief.keep | 1u << PARE_FLIES))
        return LOST;
    if (swap->applied.sought)
        return SOUGHT;
    if (swap->breaks > 0)
        return BREAKS;
    return swap->band == PARE_BAND_FREE ? FREE : PAID;
}

static void put_group(const pare_swaps_view *view, const char *title, group which, size_t most,
                      const pare_screen *screen, pare_text *out)
{
    size_t found = 0;
    for (size_t i = 0; i < view->swaps->count; i++) {
        const pare_swap *swap = &view->swaps->swap[i];
        if (group_of(view, swap) != which)
            continue;
        if (found++ == 0)
            pare_put_heading(screen, out, title);
        if (found <= most)
            pare_swaps_row(view, swap, screen, out);
    }
    if (found > most)
        pare_text_printf(out, "    ... and %zu more: --all shows them\n", found - most);
    if (found)
        pare_text_add(out, "\n");
}

void pare_swaps_together_text(const pare_swaps_view *view, const pare_screen *screen,
                              pare_text *out)
{
    const pare_swaps *swaps = view->swaps;
    char grams[24];
    if (swaps->free_count == 0) {
        pare_text_add(out, "Nothing is free: every gram that may go costs money or a job.\n");
        return;
    }
    pare_text line = {0};
    pare_text_printf(&line, "All that is free, together: %s g by",
                     pare_ruler_grams(grams, swaps->together_kg));
    for (size_t i = 0; i < swaps->free_count; i++)
        pare_text_printf(&line, "%s %s", i ? "," : "",
                         swaps->swap[swaps->free_index[i]].applied.id);
    pare_put_line(screen, out, 0, 2, &line);
}

void pare_swaps_cautions(const pare_swaps_view *view, size_t rows, const pare_screen *screen,
                         pare_text *out)
{
    bool weaker = false, hotter = false, deep = false, radio = false;
    for (size_t i = 0; i < view->swaps->count && i < rows; i++) {
        const pare_applied *applied = &view->swaps->swap[i].applied;
        weaker = weaker || applied->weaker;
        hotter = hotter || applied->hotter;
        deep = deep || applied->deep;
        radio = radio || applied->radio;
    }
    pare_put_wrapped(screen, out, 0, 0,
                     "Before any of it: pack off the craft, propellers off the motors.");
    if (weaker)
        pare_put_wrapped(screen, out, 0, 0,
                         "Lighter or fewer screws are weaker, and a motor that comes loose in "
                         "flight is a danger to people: look at the joint before you trust it.");
    if (hotter)
        pare_put_wrapped(screen, out, 0, 0,
                         "A thinner wire runs hotter: feel it after a short flight, before it can "
                         "melt or burn.");
    if (radio)
        pare_put_wrapped(screen, out, 0, 0,
                         "Never power a transmitter without its antenna: it burns out.");
    if (deep)
        pare_put_wrapped(screen, out, 0, 0,
                         "Lithium packs burn when shorted, pierced or charged wrongly: charge them "
                         "watched, on the right setting.");
}

/* Once, where a row is about it. */
static void put_unlearned(const pare_swaps_view *view, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    bool any = false;
    for (size_t i = 0; i < view->swaps->count; i++)
        any = any || pare_swap_is_unlearned(view->craft, view->swaps->swap[i].applied.id);
    if (any)
        pare_unlearned_words(view->craft, &line);
    if (pare_text_any(&line))
        pare_put_line(screen, out, 0, 0, &line);
}

void pare_swaps_text(const pare_swaps_view *view, size_t most, const pare_screen *screen,
                     pare_text *out)
{
    pare_text head = {0};
    pare_text_printf(&head, "%s%s%s: single swaps, free first, then by %s", view->craft->name,
                     view->loadout ? ", loadout " : "", view->loadout ? view->loadout : "",
                     view->wished);
    if (head.bytes)
        pare_put_heading(screen, out, head.bytes);
    out->failed |= head.failed;
    pare_text_free(&head);
    pare_text_add(out, "\n");
    pare_bands_text(view->swaps, view->money, screen, out);
    pare_text_add(out, "\n");
    pare_swaps_head(view, screen, out);
    put_group(view, "Free: no money, no job of the brief lost", FREE, most, screen, out);
    put_group(view, "For money, other motors or another pack", PAID, most, screen, out);
    put_group(view, "Breaking a limit that holds now", BREAKS, most, screen, out);
    put_group(view, "To look for: on no shelf here, estimated from what is usual", SOUGHT, most,
              screen, out);
    put_group(view, "Only by giving up a job that the brief keeps", LOST, most, screen, out);
    put_unlearned(view, screen, out);
    pare_swaps_cautions(view, view->swaps->count, screen, out);
}
