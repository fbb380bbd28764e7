/* weigh_ask.c: readings asked for on a terminal (see weigh.h).
 *
 * Each is kept as soon as it is typed: whoever walks to the scale and back loses nothing, whatever
 * happens to the terminal. The answer says whether the promise held, and what is next. */
#include <stdio.h>
#include <string.h>

#include "cli/weigh.h"
#include "show/digits.h"
#include "show/weigh.h"

enum { TYPED = 512 };

static void say_next(const weighing *w, pare_error *err)
{
    pare_closure *closure = NULL;
    pare_weigh_list next;
    char low[PARE_DIGITS], high[PARE_DIGITS];
    if (weighing_close(w, NULL, &closure, err) != PARE_OK ||
        pare_weigh_next(closure, w->craft->name, w->loadout, &w->scale, 1, &next, err) != PARE_OK ||
        next.count == 0) {
        fprintf(stderr, "Nothing is left that would tell much.\n");
        return;
    }
    const pare_weigh_choice *first = &next.choice[0];
    const double u_g = 250 * (first->promise.high_kg - first->promise.low_kg);
    fprintf(stderr, "Best next: %s", first->name);
    if (first->count > 1)
        fprintf(stderr, ", all %d", first->count);
    fprintf(stderr, ". The scale will show %s to %s g.\n",
            pare_digits(low, 1e3 * first->promise.low_kg, u_g),
            pare_digits(high, 1e3 * first->promise.high_kg, u_g));
}

void weigh_say_kept(const weighing *w)
{
    char low[PARE_DIGITS], high[PARE_DIGITS];
    pare_text what = {0};
    if (w->weighings.count == 0)
        return;
    const pare_weigh_in *last = &w->weighings.weigh_in[w->weighings.count - 1];
    for (size_t i = 0; i < w->weighings.count; i++)
        if (w->weighings.weigh_in[i].date == last->date)
            last = &w->weighings.weigh_in[i];
    pare_weighed_words(last, &what);
    const double u_g = 250 * (last->high_kg - last->low_kg);
    fprintf(stderr, "Kept: %s, %s; promised %s to %s g, %s.\n", pare_text_all(&what), last->reads,
            pare_digits(low, 1e3 * last->low_kg, u_g), pare_digits(high, 1e3 * last->high_kg, u_g),
            last->reads_kg >= last->low_kg && last->reads_kg <= last->high_kg ? "held" : "missed");
    pare_text_free(&what);
}

pare_status weigh_ask(weighing *w, pare_error *err)
{
    char typed[TYPED];
    fprintf(stderr, "%s: readings like frame=96.2g or whole=689g; an empty line ends.\n",
            w->craft->name);
    for (;;) {
        pare_error why = {0};
        say_next(w, &why);
        fprintf(stderr, "reading: ");
        fflush(stderr);
        if (!fgets(typed, sizeof typed, stdin))
            return PARE_OK;
        typed[strcspn(typed, "\r\n")] = '\0';
        const char *word = pare_arena_text(w->arena, typed + strspn(typed, " \t"));
        if (!word)
            return pare_no_memory(err);
        if (!*word)
            return PARE_OK;
        const pare_status status = weighing_keep(w, 1, &word, &why);
        if (status == PARE_UNAVAILABLE || status == PARE_STOPPED)
            return pare_fail(err, status, "%s", why.text);
        if (status == PARE_OK)
            weigh_say_kept(w);
        else
            fprintf(stderr, "%s; nothing was kept of it.\n", why.text);
    }
}
