/* pick_differ.c: the best few choices that truly differ (see pick_differ.h).
 *
 * Walking down one stream and passing over what does not differ would meet a million choices of screws
 * before the second motor. So what was found splits the rest: all that share its first i counting classes
 * and depart in the next are a space of their own, for every i, with its own stream (Lawler, Management
 * Science 18, 1972; Murty, Operations Research 16, 1968). Spaces share no choice, and the best of their
 * first ones is the next.
 *
 * A new space meets again what its elders had looked at and turned down. Choices come up in one order over
 * all spaces, so whatever comes before the last one judged has been judged, and is passed over. */
#include "advise/pick_differ.h"

#include <stdlib.h>

#include "advise/pick_inside.h"
#include "advise/pick_stream.h"

/* Some options of each class. */
typedef struct space {
    pare_pick_class *class;
    const size_t **place; /* [classes]: of the options in the whole class; NULL: the same */
    size_t fixed;         /* how many counting classes have one option */
    pare_pick_stream *stream;
    bool more; /* the next of it: */
    size_t *choice;
    pare_pick_amounts sum;
} space;

typedef struct search {
    const pare_pick *pick;
    pare_arena *arena;
    size_t *counting; /* the classes that count */
    size_t countings, spaces, most_spaces;
    space *space;
} search;

/* The next choice of a space, in places of the whole classes. */
static pare_status advance(const search *s, space *p, pare_error *err)
{
    const pare_status status = pare_pick_stream_next(p->stream, p->choice, &p->sum, &p->more, err);
    for (size_t c = 0; status == PARE_OK && p->more && c < s->pick->classes; c++)
        if (p->place[c])
            p->choice[c] = p->place[c][p->choice[c]];
    return status;
}

/* A space with the classes of another, or of the question where there is none. */
static pare_status new_space(search *s, const space *like, space *new, pare_error *err)
{
    const size_t classes = s->pick->classes;
    *new = (space){.class = pare_arena_array(s->arena, classes, sizeof new->class[0]),
                   .place = pare_arena_array(s->arena, classes, sizeof new->place[0]),
                   .choice = pare_arena_array(s->arena, classes, sizeof new->choice[0])};
    if (!new->class || !new->place || !new->choice)
        return pare_no_memory(err);
    for (size_t c = 0; c < classes; c++) {
        new->class[c] = like ? like->class[c] : s->pick->class[c];
        new->place[c] = like ? like->place[c] : NULL;
    }
    return PARE_OK;
}

static pare_status open_space(search *s, const space *new, pare_error *err)
{
    pare_pick pick = *s->pick;
    pick.class = new->class;
    space *p = &s->space[s->spaces];
    *p = *new;
    const pare_status status = pare_pick_stream_open(&pick, INT64_MIN, &p->stream, err);
    if (status != PARE_OK)
        return status;
    s->spaces++;
    return advance(s, p, err);
}

/* One class of a space with the only option, or with all but the option, of a place in the whole class. */
static pare_status narrow(search *s, space *p, size_t class, size_t at, bool only, pare_error *err)
{
    const pare_pick_class old = p->class[class];
    pare_pick_amounts *option = pare_arena_array(s->arena, old.count, sizeof *option);
    size_t *place = pare_arena_array(s->arena, old.count, sizeof *place);
    if (!option || !place)
        return pare_no_memory(err);
    size_t count = 0;
    for (size_t i = 0; i < old.count; i++) {
        const size_t of = p->place[class] ? p->place[class][i] : i;
        if ((of == at) != only)
            continue;
        option[count] = old.option[i];
        place[count++] = of;
    }
    p->class[class] = (pare_pick_class){.count = count, .option = option};
    p->place[class] = place;
    return PARE_OK;
}

/* Splits what is left of a space whose present choice was found; the space itself is used up. */
static pare_status split(search *s, size_t which, const size_t found[], pare_error *err)
{
    pare_pick_stream_close(s->space[which].stream);
    s->space[which].stream = NULL;
    s->space[which].more = false;
    const space old = s->space[which];
    space like = old;
    for (size_t i = old.fixed; i < s->countings; i++) {
        const size_t class = s->counting[i];
        space part;
        pare_status status = new_space(s, &like, &part, err);
        if (status == PARE_OK)
            status = narrow(s, &part, class, found[class], false, err);
        part.fixed = i;
        if (status == PARE_OK && part.class[class].count)
            status = open_space(s, &part, err);
        /* What follows shares this class with the found one. */
        space next;
        if (status == PARE_OK)
            status = new_space(s, &like, &next, err);
        if (status == PARE_OK)
            status = narrow(s, &next, class, found[class], true, err);
        if (status != PARE_OK)
            return status;
        like = next;
    }
    return PARE_OK;
}

static int order(size_t classes, const pare_pick_found *a, const pare_pick_found *b)
{
    if (a->sum.mass_100ug != b->sum.mass_100ug)
        return a->sum.mass_100ug < b->sum.mass_100ug ? -1 : 1;
    if (a->sum.money_cents != b->sum.money_cents)
        return a->sum.money_cents < b->sum.money_cents ? -1 : 1;
    for (size_t c = 0; c < classes; c++)
        if (a->choice[c] != b->choice[c])
            return a->choice[c] < b->choice[c] ? -1 : 1;
    return 0;
}

static pare_pick_found present(const space *p)
{
    return (pare_pick_found){.sum = p->sum, .choice = p->choice};
}

/* The space whose present choice comes first, or the number of spaces when all are at their end. */
static size_t first_space(const search *s)
{
    size_t first = s->spaces;
    for (size_t i = 0; i < s->spaces; i++) {
        if (!s->space[i].more)
            continue;
        const pare_pick_found a = present(&s->space[i]);
        if (first < s->spaces) {
            const pare_pick_found b = present(&s->space[first]);
            if (order(s->pick->classes, &a, &b) >= 0)
                continue;
        }
        first = i;
    }
    return first;
}

/* The next that will do; which space it is in.
 * @param last  the last one judged, kept up to date; its sum counts only where judged is set */
static pare_status find(search *s, pare_pick_judge *judge, void *context, bool *judged,
                        pare_pick_found *last, size_t last_choice[], size_t *which, pare_error *err)
{
    for (;;) {
        *which = first_space(s);
        if (*which == s->spaces)
            return PARE_OK;
        space *p = &s->space[*which];
        const pare_pick_found now = present(p);
        pare_status status = PARE_NO;
        if (!*judged || order(s->pick->classes, &now, last) > 0) {
            *judged = true;
            last->sum = now.sum;
            for (size_t c = 0; c < s->pick->classes; c++)
                last_choice[c] = now.choice[c];
            status = judge ? judge(context, now.choice, &now.sum, err) : PARE_OK;
        }
        if (status != PARE_NO)
            return status;
        status = advance(s, p, err);
        if (status != PARE_OK)
            return status;
    }
}

static pare_status find_all(search *s, size_t wanted, pare_pick_judge *judge, void *context,
                            pare_arena *arena, pare_pick_found found[], size_t *count,
                            pare_error *err)
{
    const size_t classes = s->pick->classes;
    size_t *last_choice = pare_arena_array(s->arena, classes, sizeof *last_choice);
    if (!last_choice)
        return pare_no_memory(err);
    pare_pick_found last = {.choice = last_choice};
    bool judged = false;
    while (*count < wanted) {
        size_t which = 0;
        pare_status status = find(s, judge, context, &judged, &last, last_choice, &which, err);
        if (status != PARE_OK || which == s->spaces)
            return status;
        size_t *choice = pare_arena_array(arena, classes, sizeof *choice);
        if (!choice)
            return pare_no_memory(err);
        for (size_t c = 0; c < classes; c++)
            choice[c] = s->space[which].choice[c];
        found[(*count)++] = (pare_pick_found){.sum = s->space[which].sum, .choice = choice};
        if (*count < wanted)
            status = split(s, which, choice, err);
        if (status != PARE_OK)
            return status;
    }
    return PARE_OK;
}

pare_status pare_pick_differ(const pare_pick *pick, const bool counts[], size_t wanted,
                             pare_pick_judge *judge, void *context, pare_arena *arena,
                             pare_pick_found found[], size_t *count, pare_error *err)
{
    *count = 0;
    pare_status status = pare_pick_check(pick, err);
    if (status != PARE_OK || wanted == 0)
        return status;
    search s = {.pick = pick, .arena = pare_arena_open()};
    if (!s.arena)
        return pare_no_memory(err);
    s.counting = pare_arena_array(s.arena, pick->classes, sizeof s.counting[0]);
    for (size_t c = 0; s.counting && c < pick->classes; c++)
        if (counts[c])
            s.counting[s.countings++] = c;
    if (wanted - 1 > (SIZE_MAX - 1) / (s.countings + 1))
        status = pare_fail(err, PARE_BAD_DATA, "%zu choices are too many to ask for", wanted);
    s.most_spaces = 1 + (status == PARE_OK ? wanted - 1 : 0) * s.countings;
    s.space = pare_arena_array(s.arena, s.most_spaces, sizeof s.space[0]);
    if (status == PARE_OK && (!s.counting || !s.space))
        status = pare_no_memory(err);
    space all;
    if (status == PARE_OK)
        status = new_space(&s, NULL, &all, err);
    if (status == PARE_OK)
        status = open_space(&s, &all, err);
    if (status == PARE_OK)
        status = find_all(&s, wanted, judge, context, arena, found, count, err);
    for (size_t i = 0; s.space && i < s.spaces; i++)
        pare_pick_stream_close(s.space[i].stream);
    pare_arena_close(s.arena);
    return status;
}
