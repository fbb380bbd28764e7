/* best_rule.c: whether a craft does its job.
 *
 * Every limit of the brief holds. A rating that holds on the craft as it is holds after; one that is broken
 * now is no worse. Crash estimates, whose force is a guess but whose ratio to another craft's is not, are no
 * worse than now: the craft as it is is the one that is known to survive. Only where they hold tenfold, as in a
 * stop within 3 mm and not 30, does it not matter how much more they held. A rating that the craft had no need
 * of before holds. Where the brief asks a margin of all ratings, each has that. And what could be flown can be
 * flown. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/best_met.h"

#define TENFOLD 10.0 /* what a crash estimate need not be better than: see above */

bool best_is_limit(const char *name)
{
    return strncmp(name, "limit.", 6) == 0;
}

bool best_is_crash(const char *name)
{
    return strncmp(name, "joint_crash.", 12) == 0;
}

static double eased(const pare_best_ask *ask, const char *name)
{
    for (size_t i = 0; ask && i < ask->eases; i++)
        if (strcmp(ask->ease[i].name, name) == 0)
            return ask->ease[i].share;
    return 1;
}

static double need(const pare_best_ask *ask, const pare_sheet *before, double margin_least,
                   const char *name)
{
    if (best_is_limit(name))
        return 1;
    const pare_margin *was = pare_sheet_margin(before, name);
    const double share = eased(ask, name);
    if (best_is_crash(name))
        return share * (was ? fmin(was->ratio, TENFOLD) : 1);
    const double holds = was && was->ratio < 1 ? was->ratio : 1;
    return share * (holds > margin_least ? holds : margin_least);
}

double best_need(const best_search *search, const char *name)
{
    return need(search->ask, &search->desk->sheet, search->margin_least, name);
}

static double margin_of_brief(const pare_brief *brief)
{
    const pare_limit *limit = pare_brief_limit(brief, "margin");
    return limit ? limit->value : 0;
}

bool best_refuse(char by[48], const char *name)
{
    const size_t length = strnlen(name, 47);
    if (by) {
        memcpy(by, name, length);
        by[length] = '\0';
    }
    return false;
}

void best_limit_name(char name[48], const char *key)
{
    char whole[64];
    snprintf(whole, sizeof whole, "limit.%.40s", key);
    (void)best_refuse(name, whole);
}

const char *best_flies(size_t i, pare_figure *figure)
{
    static const pare_figure figures[BEST_FLIES] = {PARE_HOVER_OUTPUT, PARE_FLOWN_TIME,
                                                    PARE_THRUST_FRESH};
    static const char *const names[BEST_FLIES] = {"hover", "minutes as flown", "full throttle"};
    *figure = figures[i];
    return names[i];
}

/* @param on_the_way  what does not reach its need yet may wait, as long as it is no worse than it was */
static bool meets(const pare_best_ask *ask, const pare_craft *craft, const pare_sheet *before,
                  const pare_sheet *after, bool on_the_way, char refuses[48])
{
    const double least = margin_of_brief(&craft->brief);
    pare_figure figure;
    for (size_t i = 0; i < BEST_FLIES; i++) {
        const char *name = best_flies(i, &figure);
        if (before->figure[figure].exists && !after->figure[figure].exists)
            return best_refuse(refuses, name);
    }
    for (size_t i = 0; i < after->margins; i++) {
        const pare_margin *margin = &after->margin[i];
        if (strcmp(margin->name, "limit.margin") == 0)
            continue; /* each rating is held against it by itself */
        const pare_margin *was = on_the_way ? pare_sheet_margin(before, margin->name) : NULL;
        const double needs = need(ask, before, least, margin->name);
        if (!(margin->ratio >= (was ? fmin(needs, was->ratio) : needs) * BEST_NEARLY))
            return best_refuse(refuses, margin->name);
    }
    return true;
}

bool pare_best_meets(const pare_best_ask *ask, const pare_craft *craft, const pare_sheet *before,
                     const pare_sheet *after, char refuses[48])
{
    return meets(ask, craft, before, after, false, refuses);
}

bool pare_best_keeps(const pare_craft *craft, const pare_sheet *before, const pare_sheet *after)
{
    return meets(NULL, craft, before, after, true, NULL);
}

void best_count(size_t *limits, pare_best_limit limit[PARE_BEST_LIMITS], const char *name,
                size_t more)
{
    size_t at = 0;
    while (at < *limits && strcmp(limit[at].name, name) != 0)
        at++;
    if (at == PARE_BEST_LIMITS)
        return;
    if (at == *limits) {
        (*limits)++;
        limit[at].groups = 0;
        (void)best_refuse(limit[at].name, name);
    }
    limit[at].groups += more;
}
