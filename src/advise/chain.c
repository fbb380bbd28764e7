/* chain.c: antenna chains (see chain.h).
 *
 * An antenna names its chain from the transmitter on. The links between the two are few (four at
 * most), so every way of leaving some out is tried: the links as they are if they mate, otherwise the
 * lightest set of them that does, otherwise with those that were taken off, otherwise the lightest
 * set with one part of the bench between. Links that were taken off stay in the chain's list, so that
 * they come back when the old antenna does. */
#include "advise/chain.h"

#include <string.h>

typedef struct chain {
    size_t antenna, transmitter;
    size_t links;
    size_t link[PARE_FEEDS]; /* items between, in order, on or off */
} chain;

bool pare_chain_links(pare_kind kind)
{
    return kind == PARE_ADAPTER || kind == PARE_PIGTAIL;
}

/* The connector that a part shows towards the antenna, or towards the transmitter. */
static pare_fit side(const pare_part *part, bool outward)
{
    if (!pare_chain_links(part->kind))
        return part->fit[PARE_FIT_ANTENNA];
    pare_fit fit = {0};
    const char *word = part->ends[outward ? 1 : 0];
    if (word) {
        fit.count = 1;
        fit.any[0].word = word;
    }
    return fit;
}

bool pare_chain_mates(const pare_part *inner, const pare_part *outer)
{
    const pare_fit a = side(inner, true), b = side(outer, false);
    return pare_fit_agrees(&a, &b);
}

static bool find_chain(const pare_craft *craft, size_t antenna, chain *found)
{
    const pare_item *item = &craft->item[antenna];
    if (item->feeds == 0)
        return false;
    *found = (chain){.antenna = antenna};
    for (size_t k = 0; k < item->feeds; k++) {
        const int link = pare_craft_item(craft, item->feed[k]);
        if (link < 0)
            return false;
        if (k == 0)
            found->transmitter = (size_t)link;
        else
            found->link[found->links++] = (size_t)link;
    }
    return true;
}

int pare_chain_of(const pare_craft *craft, size_t index)
{
    for (size_t i = 0; i < craft->items; i++) {
        chain c;
        if (craft->item[i].off || !find_chain(craft, i, &c))
            continue;
        if (i == index || c.transmitter == index)
            return (int)i;
        for (size_t k = 0; k < c.links; k++)
            if (c.link[k] == index)
                return (int)i;
    }
    return -1;
}

/* Whether the links in `set` (one bit each), with one more part before the first or after the last,
 * lead from transmitter to antenna. */
static bool leads(const pare_craft *craft, const chain *c, unsigned set, const pare_part *first,
                  const pare_part *last)
{
    const pare_part *before = craft->item[c->transmitter].part;
    if (first) {
        if (!pare_chain_mates(before, first))
            return false;
        before = first;
    }
    for (size_t k = 0; k < c->links; k++) {
        if ((set & 1u << k) == 0)
            continue;
        const pare_part *here = craft->item[c->link[k]].part;
        if (!pare_chain_mates(before, here))
            return false;
        before = here;
    }
    if (last) {
        if (!pare_chain_mates(before, last))
            return false;
        before = last;
    }
    return pare_chain_mates(before, craft->item[c->antenna].part);
}

static double set_kg(const pare_craft *craft, const chain *c, unsigned set)
{
    double mass_kg = 0;
    for (size_t k = 0; k < c->links; k++)
        if (set & 1u << k)
            mass_kg += craft->item[c->link[k]].part->mass_kg.value;
    return mass_kg;
}

static unsigned set_on(const pare_craft *craft, const chain *c)
{
    unsigned set = 0;
    for (size_t k = 0; k < c->links; k++)
        if (!craft->item[c->link[k]].off)
            set |= 1u << k;
    return set;
}

bool pare_chain_whole(const pare_craft *craft, size_t index)
{
    for (size_t i = 0; i < craft->items; i++) {
        chain c;
        if (craft->item[i].off || !find_chain(craft, i, &c))
            continue;
        bool in = c.transmitter == index;
        for (size_t k = 0; k < c.links; k++)
            in = in || c.link[k] == index;
        if (in &&
            (craft->item[c.transmitter].off || !leads(craft, &c, set_on(craft, &c), NULL, NULL)))
            return false;
    }
    return true;
}

static void use_set(pare_edit *edit, const chain *c, unsigned set)
{
    for (size_t k = 0; k < c->links; k++) {
        pare_item *link = &edit->craft->item[c->link[k]];
        const bool wanted = (set & 1u << k) != 0;
        if (!wanted && !link->off)
            pare_edit_take_off(edit, c->link[k]);
        else if (wanted && link->off) {
            link->off = false;
            pare_edit_bring(edit, "%s: %s", link->name, link->part->id);
            pare_basket_part(edit->basket, link->part, link->count);
        }
    }
}

typedef struct way {
    unsigned set;
    const pare_part *first, *last;
    double mass_kg;
} way;

/* Ways are compared by grams; the parts of a bench come by id, and the first of equals stays. */
static void consider(const pare_craft *craft, const chain *c, unsigned keep, way candidate,
                     bool *any, way *best)
{
    if ((candidate.set & keep) != keep ||
        !leads(craft, c, candidate.set, candidate.first, candidate.last))
        return;
    candidate.mass_kg = set_kg(craft, c, candidate.set);
    if (candidate.first)
        candidate.mass_kg += candidate.first->mass_kg.value;
    if (candidate.last)
        candidate.mass_kg += candidate.last->mass_kg.value;
    if (!*any || candidate.mass_kg < best->mass_kg)
        *best = candidate;
    *any = true;
}

static void search_bench(const pare_edit *edit, const chain *c, unsigned keep, bool *any, way *best)
{
    size_t links;
    const pare_part *const *link = pare_shelf_row(edit->shelf, PARE_PIGTAIL, &links);
    for (size_t p = 0; p < links; p++) {
        const pare_part *part = link[p];
        if (!part->ends[0] || !part->ends[1])
            continue;
        for (unsigned set = 0; set < 1u << c->links; set++) {
            consider(edit->craft, c, keep, (way){.set = set, .first = part}, any, best);
            consider(edit->craft, c, keep, (way){.set = set, .last = part}, any, best);
        }
    }
}

static pare_status insert(pare_edit *edit, const chain *c, const way *w, pare_error *err)
{
    static const char *const names[] = {"antenna_adapter", "antenna_adapter_2",
                                        "antenna_adapter_3"};
    size_t index = 0, n = 0;
    pare_item *antenna = &edit->craft->item[c->antenna];
    if (antenna->feeds == PARE_FEEDS)
        return pare_fail(err, PARE_BAD_DATA,
                         "item '%s' has a chain of %d already, and one more is "
                         "needed to mate",
                         antenna->name, PARE_FEEDS);
    while (n + 1 < sizeof names / sizeof names[0] && pare_craft_item(edit->craft, names[n]) >= 0)
        n++;
    const pare_part *part = w->first ? w->first : w->last;
    const pare_status status = pare_edit_put_on(edit, part, 1, names[n], c->antenna, &index, err);
    if (status != PARE_OK)
        return status;
    edit->craft->item[index].job = antenna->job;
    const size_t at = w->first ? 1 : antenna->feeds;
    memmove(&antenna->feed[at + 1], &antenna->feed[at],
            (antenna->feeds - at) * sizeof antenna->feed[0]);
    antenna->feed[at] = edit->craft->item[index].name;
    antenna->feeds++;
    return PARE_OK;
}

/* keep: the links, one bit each, that the swap itself puts in. */
static pare_status mend(pare_edit *edit, const chain *c, unsigned keep, pare_error *err)
{
    const pare_craft *craft = edit->craft;
    if (leads(craft, c, set_on(craft, c), NULL, NULL))
        return PARE_OK;
    const unsigned on = set_on(craft, c);
    bool any = false;
    way best = {0};
    for (unsigned set = 0; set < 1u << c->links; set++)
        if ((set & ~on) == 0)
            consider(craft, c, keep, (way){.set = set}, &any, &best);
    /* What has to come back comes back whole, as it was before it was taken off. */
    for (unsigned set = 1u << c->links; !any && set-- > 0;)
        consider(craft, c, keep, (way){.set = set}, &any, &best);
    if (!any && !keep)
        search_bench(edit, c, keep, &any, &best);
    if (!any) {
        const pare_part *antenna = craft->item[c->antenna].part;
        const pare_part *transmitter = craft->item[c->transmitter].part;
        const char *word = antenna->fit[PARE_FIT_ANTENNA].any[0].word;
        const char *other = transmitter->fit[PARE_FIT_ANTENNA].any[0].word;
        return pare_fail(
            err, PARE_BAD_DATA,
            "antenna '%s' has a %s connector, '%s' a %s one, and nothing on the craft or "
            "the bench joins them",
            antenna->id, word ? word : "different", transmitter->id, other ? other : "different");
    }
    use_set(edit, c, best.set);
    return best.first || best.last ? insert(edit, c, &best, err) : PARE_OK;
}

pare_status pare_chain_mend(pare_edit *edit, size_t index, pare_error *err)
{
    pare_status status = PARE_OK;
    const size_t items = edit->craft->items;
    for (size_t i = 0; status == PARE_OK && i < items; i++) {
        chain c;
        if (edit->craft->item[i].off || !find_chain(edit->craft, i, &c))
            continue;
        unsigned keep = 0;
        for (size_t k = 0; k < c.links; k++)
            if (c.link[k] == index)
                keep |= 1u << k;
        if (keep || i == index || c.transmitter == index)
            status = mend(edit, &c, keep, err);
    }
    return status;
}
