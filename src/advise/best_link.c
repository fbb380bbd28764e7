/* best_link.c: what a transmitter and its antenna weigh together at the least (see best.h).
 *
 * The lightest transmitter and the lightest antenna seldom plug into one another, and what joins them is counted as
 * nothing while either is open. But whatever is decided, the set has one of each and, where these two do not
 * mate, a link that mates with the one and a link, perhaps the same, that mates with the other. Connectors are
 * of few sorts, so links are looked through once for each pair of sorts. */
#include <string.h>

#include "advise/best_inside.h"
#include "advise/chain.h"

enum { SORTS = 12 };

/* Parts of which each stands for all with its connector. */
typedef struct sorts {
    size_t count;
    const pare_part *of[SORTS];
} sorts;

/* For each sort of link, the least of an antenna that follows it, with what joins them. */
struct best_links {
    sorts sorts;
    int64_t antenna[SORTS];
};

static bool same_end(const char *a, const char *b)
{
    return a == b || (a && b && strcmp(a, b) == 0);
}

static bool same_connector(const pare_part *a, const pare_part *b)
{
    if (pare_chain_links(a->kind) || pare_chain_links(b->kind))
        return a->kind == b->kind && same_end(a->ends[0], b->ends[0]) &&
               same_end(a->ends[1], b->ends[1]);
    const pare_fit *fit = &a->fit[PARE_FIT_ANTENNA], *other = &b->fit[PARE_FIT_ANTENNA];
    if (a->kind != b->kind || fit->count != other->count)
        return false;
    for (size_t i = 0; i < fit->count; i++)
        if (!fit->any[i].word || !other->any[i].word ||
            strcmp(fit->any[i].word, other->any[i].word) != 0)
            return false;
    return true;
}

/* Which sort a part is of; the count of all: of none yet. */
static size_t find_sort(const sorts *all, const pare_part *part)
{
    size_t i = 0;
    while (i < all->count && !same_connector(all->of[i], part))
        i++;
    return i;
}

/* The same, and the part stands for a sort of its own where it is of none. SORTS: there are too many. */
static size_t sort_of(sorts *all, const pare_part *part)
{
    const size_t of = find_sort(all, part);
    if (of == all->count && of < SORTS)
        all->of[all->count++] = part;
    return of;
}

static int64_t less(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

/* Whether a part brings a link, which then weighs nothing by itself. */
static bool brings_link(const pare_part *part)
{
    for (size_t i = 0; i < part->includes; i++)
        if (part->include[i].what == PARE_INCLUDES_KIND && pare_chain_links(part->include[i].kind))
            return true;
    return false;
}

/* Whether a link of the craft came in something. */
static bool has_brought_link(const pare_craft *craft)
{
    for (size_t i = 0; i < craft->items; i++)
        if (craft->item[i].included_in && pare_chain_links(craft->item[i].part->kind))
            return true;
    return false;
}

/* The one link that is kept; then it is in the chain, and counted by itself. Several of them: `many`. */
static const pare_part *kept_link(const best_search *search, const best_state *state, bool *many)
{
    const pare_part *kept = NULL;
    *many = false;
    for (size_t s = 0; s < search->slots; s++)
        if (best_is_kept_link(search, state, s)) {
            *many = kept != NULL;
            kept = state->trial.flown->item[search->slot[s].item].part;
        }
    return kept;
}

/* The lightest links that mate with two parts. */
typedef struct joining {
    const pare_part *inner, *outer;
    int64_t first, last, both;
} joining;

static void try_link(joining *j, const pare_part *part)
{
    if (!pare_chain_links(part->kind))
        return;
    const bool from = pare_chain_mates(j->inner, part), to = pare_chain_mates(part, j->outer);
    const int64_t units = from || to ? best_link_units(part) : 0;
    j->first = from ? less(j->first, units) : j->first;
    j->last = to ? less(j->last, units) : j->last;
    j->both = from && to ? less(j->both, units) : j->both;
}

/* What joins two parts at the least, with links of the bench and of the craft; BEST_NO_BOUND: nothing does. */
static int64_t link_least(const best_search *search, const pare_part *inner, const pare_part *outer)
{
    joining j = {inner, outer, BEST_NO_BOUND, BEST_NO_BOUND, BEST_NO_BOUND};
    if (pare_chain_mates(inner, outer))
        return 0;
    for (size_t i = 0; i < search->bench->parts; i++)
        try_link(&j, search->bench->part[i]);
    for (size_t i = 0; i < search->desk->craft->items; i++)
        try_link(&j, search->desk->craft->item[i].part);
    return j.first == BEST_NO_BOUND || j.last == BEST_NO_BOUND ? j.both
                                                               : less(j.both, j.first + j.last);
}

/* The transmitter whose antenna a slot's item is; BEST_NONE: of none, or of one that is no choice. */
static size_t transmitter_of(const best_search *search, size_t antenna)
{
    const pare_craft *craft = &search->desk->loaded;
    const pare_item *item = &craft->item[search->slot[antenna].item];
    const int sends = item->part->kind == PARE_ANTENNA && item->feeds > 0
                          ? pare_craft_item(craft, item->feed[0])
                          : -1;
    if (sends < 0 || craft->item[sends].part->kind != PARE_VIDEO_TRANSMITTER)
        return BEST_NONE;
    return search->slot_of[sends];
}

/* What joins a part, or any of its sort, to each sort of antenna, as far as that has been asked. */
typedef struct joins {
    sorts antennas;
    int64_t least[SORTS];
} joins;

static int64_t joins_least(const best_search *search, const pare_part *before,
                           const pare_part *antenna, joins *known)
{
    const size_t asked = known->antennas.count;
    const size_t of = sort_of(&known->antennas, antenna);
    if (of == SORTS)
        return 0;
    if (of == asked)
        known->least[of] = link_least(search, before, antenna);
    return known->least[of];
}

/* What an antenna weighs at the least after a transmitter or link, with what joins them; BEST_NO_BOUND: none mates.
 * @param stays  what is before it is as it is; with an antenna that is, too, it need not mate: nobody asks
 * @param known  NULL: what joins them is counted as nothing */
static int64_t antenna_after(const best_search *search, size_t antenna, const pare_part *before,
                             bool stays, joins *known)
{
    const best_slot *outer = &search->slot[antenna];
    int64_t least = BEST_NO_BOUND;
    for (size_t k = 0; k < outer->options; k++) {
        const best_option *with = &outer->option[k];
        if (!with->part || with->least >= least)
            continue;
        const bool asked = known && !(stays && !with->name) && !brings_link(with->part);
        const int64_t units = asked ? joins_least(search, before, with->part, known) : 0;
        if (units != BEST_NO_BOUND)
            least = less(least, with->least + units);
    }
    return least;
}

/* For each transmitter the least of an antenna with what joins them. False: out of memory. */
static bool tabulate(best_search *search, size_t antenna, size_t sender)
{
    const best_slot *inner = &search->slot[sender];
    sorts senders = {0};
    joins known[SORTS] = {{{0}, {0}}};
    int64_t *least = pare_arena_array(search->arena, inner->options + 1, sizeof *least);
    if (!least)
        return false;
    for (size_t i = 0; i < inner->options; i++) {
        const best_option *option = &inner->option[i];
        least[i] = BEST_NO_BOUND;
        if (!option->part)
            continue;
        const size_t of = sort_of(&senders, option->part);
        const bool asked = of < SORTS && !brings_link(option->part);
        least[i] =
            antenna_after(search, antenna, option->part, !option->name, asked ? &known[of] : NULL);
    }
    search->antenna = antenna;
    search->sender = sender;
    search->with_sender = least;
    return true;
}

/* False: out of memory. */
static bool tabulate_links(best_search *search, size_t antenna)
{
    struct best_links *links = pare_arena_zeros(search->arena, sizeof *links);
    if (!links)
        return false;
    for (size_t s = 0; s < search->slots; s++)
        for (size_t i = 0; i < search->slot[s].options; i++) {
            const pare_part *part = search->slot[s].option[i].part;
            const size_t before = links->sorts.count;
            if (!part || !best_is_antenna_link(part))
                continue;
            const size_t of = sort_of(&links->sorts, part);
            joins known = {0};
            if (of < SORTS && of == before)
                links->antenna[of] = antenna_after(search, antenna, part, false, &known);
        }
    search->links = links;
    return true;
}

/* What the antenna weighs more than is counted, with other links, where one link of its chain is kept. */
static int64_t more_after(const best_search *search, const best_state *state, const pare_part *link,
                          int64_t others)
{
    const struct best_links *links = search->links;
    const size_t of = find_sort(&links->sorts, link);
    const int64_t counted = best_open_counts(search, state, search->antenna) + others;
    if (of == links->sorts.count || links->antenna[of] == BEST_NO_BOUND)
        return 0;
    return links->antenna[of] > counted ? links->antenna[of] - counted : 0;
}

pare_status best_link_find(best_search *search, pare_error *err)
{
    search->with_sender = NULL;
    search->links = NULL;
    if (has_brought_link(search->desk->craft))
        return PARE_OK;
    for (size_t s = 0; s < search->slots && !search->with_sender; s++) {
        const size_t sender = transmitter_of(search, s);
        if (sender != BEST_NONE && (!tabulate(search, s, sender) || !tabulate_links(search, s)))
            return pare_no_memory(err);
    }
    return PARE_OK;
}

int64_t best_link_more(const best_search *search, const best_state *state, int64_t links,
                       int64_t kept)
{
    if (!search->with_sender || !best_open(state, search->antenna) ||
        !best_state_stands(search, state, search->antenna) ||
        best_may_go(search, state, search->antenna))
        return 0;
    bool many;
    const pare_part *link = kept_link(search, state, &many);
    if (link)
        return many ? 0 : more_after(search, state, link, links - kept);
    const size_t sender = search->sender;
    const best_slot *inner = &search->slot[sender];
    const int64_t antenna = best_open_counts(search, state, search->antenna) + links;
    const bool open = best_open(state, sender);
    const pare_item *now = &state->trial.flown->item[inner->item];
    if (now->off || (open && best_may_go(search, state, sender)) ||
        best_is_dragged(search, state, now->part))
        return 0;
    const int64_t counted = antenna + (open ? best_open_counts(search, state, sender) : 0);
    int64_t least = BEST_NO_BOUND;
    for (size_t i = 0; i < inner->options; i++) {
        if ((!open && inner->option[i].part != now->part) ||
            search->with_sender[i] == BEST_NO_BOUND)
            continue;
        const int64_t own = !open ? 0
                            : inner->option[i].least > state->slot_least[sender]
                                ? inner->option[i].least
                                : state->slot_least[sender];
        least = less(least, own + search->with_sender[i]);
    }
    return least != BEST_NO_BOUND && least > counted ? least - counted : 0;
}
