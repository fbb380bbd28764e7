/* judge.c: what a swap does to the margins (see judge.h).
 *
 * Margins of two craft are compared by name. They are taken in the order in which they come about, not
 * worst first: that order is the same on craft that are nearly alike, so each is found at once, and none has
 * to be sorted but the few that are told.
 *
 * A margin binds where it does not hold, or is the worst. A swap that is good for nothing else is listed
 * for loosening one, so it is asked first whether it may, of those kinds of margins alone in which one
 * binds: most such swaps loosen nothing, and the wires and screws of a whole sheet are the dear part of
 * judging. The brief's limit on margins is as good as the worst rating, so it goes up with that one only. */
#include "advise/judge.h"

#include <string.h>

#include "craft/margin.h"

#define LOOSENS_SHARE 0.01 /* of a ratio: less than that is not worth a word */

/* What is looked for mostly stands behind what was found last: *next. Names are compared with the zeros
 * behind them, which takes no call. */
static const pare_margin *margin_like(const pare_desk *desk, const pare_margin *like, size_t *next)
{
    size_t at = *next < desk->margins ? *next : 0;
    for (size_t k = 0; k < desk->margins; k++) {
        const pare_margin *margin = &desk->margin[at++];
        if (memcmp(margin->name, like->name, sizeof like->name) == 0) {
            *next = at;
            return margin;
        }
        at = at < desk->margins ? at : 0;
    }
    return NULL;
}

/* A ratio that is no number holds nothing. */
static bool holds(const pare_margin *margin)
{
    return margin->ratio >= 1;
}

static bool breaks(const pare_margin *was, const pare_margin *now)
{
    return !holds(now) && (!was || holds(was));
}

static bool binds(const pare_desk *desk, const pare_margin *was)
{
    return was && (!holds(was) || was == desk->worst);
}

static bool has_loosened(const pare_margin *was, const pare_margin *now)
{
    return now->ratio > was->ratio * (1 + LOOSENS_SHARE);
}

/* ---- the desk ---- */

static bool is_limit_on_margins(const pare_margin *margin)
{
    return strcmp(margin->name, "limit.margin") == 0;
}

/* What may tell that one that binds is loosened: itself, or the rating that the brief's limit rests on. */
static bool tells(const pare_desk *desk, const pare_margin *was)
{
    return was && (was == desk->rests_on || (binds(desk, was) && !is_limit_on_margins(was)));
}

/* The rating that the brief's limit on margins rests on, where that binds. */
static const pare_margin *what_it_rests_on(const pare_desk *desk)
{
    for (size_t i = 0; i < desk->margins; i++) {
        if (!is_limit_on_margins(&desk->margin[i]) || !binds(desk, &desk->margin[i]))
            continue;
        for (size_t k = 0; k < desk->margins; k++)
            if (desk->margin[k].ratio == desk->margin[i].value &&
                strncmp(desk->margin[k].name, "limit.", 6) != 0 &&
                !pare_margin_of_crash(&desk->margin[k]))
                return &desk->margin[k];
    }
    return NULL;
}

/* The kinds of margins in which one tells. Uses the sheet's room for margins. */
static unsigned kinds_that_tell(pare_desk *desk)
{
    unsigned kinds = 0;
    for (unsigned kind = 1; kind <= PARE_MARGINS_ALL; kind <<= 1) {
        size_t next = 0;
        pare_sheet_margins_some(&desk->loaded, kind, &desk->sheet);
        for (size_t i = 0; i < desk->sheet.margins; i++)
            if (tells(desk, margin_like(desk, &desk->sheet.margin[i], &next)))
                kinds |= kind;
    }
    return kinds;
}

void pare_desk_judge(pare_desk *desk)
{
    pare_sheet *sheet = &desk->sheet;
    desk->judged_by = pare_margin_figures(&desk->loaded);
    const pare_margin *worst = pare_sheet_worst(sheet);
    const pare_margin first = worst ? *worst : (pare_margin){.name = ""};
    pare_sheet_margins_some(&desk->loaded, PARE_MARGINS_ALL, sheet);
    desk->margins = sheet->margins;
    memcpy(desk->margin, sheet->margin, sheet->margins * sizeof sheet->margin[0]);
    size_t next = 0;
    desk->worst = margin_like(desk, &first, &next);
    desk->rests_on = what_it_rests_on(desk);
    desk->telling = 0;
    for (size_t i = 0; i < desk->margins; i++)
        desk->telling += tells(desk, &desk->margin[i]);
    desk->telling_kinds = kinds_that_tell(desk);
    pare_sheet_margins(&desk->loaded, sheet);
}

/* ---- trials ---- */

static void judge(const pare_desk *desk, unsigned kinds, pare_trial *trial)
{
    pare_sheet_fly(trial->flown, desk->judged_by, &trial->sheet);
    pare_sheet_margins_some(trial->flown, kinds, &trial->sheet);
}

bool pare_trial_breaks(const pare_desk *desk, pare_trial *trial)
{
    const pare_sheet *after = &trial->sheet;
    size_t next = 0;
    judge(desk, PARE_MARGINS_ALL, trial);
    for (size_t i = 0; i < after->margins; i++)
        if (!holds(&after->margin[i]) &&
            breaks(margin_like(desk, &after->margin[i], &next), &after->margin[i]))
            return true;
    return false;
}

bool pare_trial_may_loosen(const pare_desk *desk, pare_trial *trial)
{
    const pare_sheet *after = &trial->sheet;
    size_t next = 0, found = 0;
    judge(desk, desk->telling_kinds, trial);
    for (size_t i = 0; i < after->margins; i++) {
        const pare_margin *now = &after->margin[i];
        const pare_margin *was = margin_like(desk, now, &next);
        if (!tells(desk, was))
            continue;
        if (has_loosened(was, now))
            return true;
        found++;
    }
    return found < desk->telling; /* one that is gone may have been all that bound */
}

/* Margins told of a row. */
typedef struct told {
    size_t count;
    const pare_margin *margin[PARE_MARGINS];
} told;

/* Behind those that are as bad or worse. */
static void tell(told *list, const pare_margin *margin)
{
    size_t at = list->count++;
    for (; at > 0 && list->margin[at - 1]->ratio > margin->ratio; at--)
        list->margin[at] = list->margin[at - 1];
    list->margin[at] = margin;
}

static size_t put_names(const told *list, char names[PARE_SWAP_BREAKS][48])
{
    size_t count = 0;
    for (; count < list->count && count < PARE_SWAP_BREAKS; count++)
        memcpy(names[count], list->margin[count]->name, sizeof list->margin[count]->name);
    return count;
}

void pare_trial_judge(const pare_desk *desk, pare_trial *trial, pare_swap *row)
{
    const pare_sheet *after = &trial->sheet;
    told broken = {.count = 0}, loosened = {.count = 0};
    size_t next = 0;
    judge(desk, PARE_MARGINS_ALL, trial);
    for (size_t i = 0; i < after->margins; i++) {
        const pare_margin *now = &after->margin[i];
        const pare_margin *was = margin_like(desk, now, &next);
        if (breaks(was, now))
            tell(&broken, now);
        else if (binds(desk, was) && has_loosened(was, now))
            tell(&loosened, now);
    }
    row->breaks = put_names(&broken, row->broken);
    row->loosens = put_names(&loosened, row->loosened);
}
