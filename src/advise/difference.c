/* difference.c: joints, runs and coax between two states of a craft (see difference.h). */
#include "advise/difference.h"

#include <math.h>

/* Whether the item that something is included in has another part than before. */
static bool owner_changed(const pare_craft *before, const pare_craft *after, const char *owner)
{
    const int now = owner ? pare_craft_item(after, owner) : -1;
    return now >= 0 &&
           ((size_t)now >= before->items || before->item[now].part != after->item[now].part);
}

pare_screws_change pare_screws_differ(const pare_craft *before, const pare_craft *after,
                                      const pare_joint *is, const pare_joint **was)
{
    const int then = pare_craft_joint(before, is->name);
    const pare_joint *b = then >= 0 ? &before->joint[then] : NULL;
    *was = b;
    if (!b || (is->included_in && b->included_in && owner_changed(before, after, is->included_in)))
        return PARE_SCREWS_SAME;
    if (b->thread.nominal_m != is->thread.nominal_m || b->standard != is->standard ||
        b->material != is->material || is->length_m > b->length_m)
        return PARE_SCREWS_NEW;
    if (is->length_m != b->length_m)
        return PARE_SCREWS_SHORTER;
    if (is->count != b->count)
        return is->count < b->count ? PARE_SCREWS_FEWER : PARE_SCREWS_MORE;
    return PARE_SCREWS_SAME;
}

double pare_run_longest_m(const pare_run *run)
{
    double longest = 0;
    for (size_t i = 0; i < run->ways; i++)
        longest = fmax(longest, run->way_m[i]);
    return longest;
}

static bool ways_differ(const pare_run *a, const pare_run *b)
{
    if (a->gauge != b->gauge || a->ways != b->ways || a->times != b->times)
        return true;
    for (size_t i = 0; i < a->ways; i++)
        if (a->way_m[i] != b->way_m[i])
            return true;
    return false;
}

pare_wires_change pare_wires_differ(const pare_craft *before, const pare_craft *after,
                                    const pare_run *is)
{
    const int then = pare_craft_run(before, is->name);
    const pare_run *was = then >= 0 ? &before->run[then] : NULL;
    if (owner_changed(before, after, is->included_in) || (was && !ways_differ(was, is)))
        return PARE_WIRES_SAME;
    return !was || was->gauge != is->gauge || pare_run_longest_m(is) > pare_run_longest_m(was)
               ? PARE_WIRES_NEW
               : PARE_WIRES_SHORTER;
}

bool pare_coax_differs(const pare_craft *before, size_t item, const pare_item *is)
{
    const pare_item *was = item < before->items ? &before->item[item] : NULL;
    return was && !was->off && !is->off && was->part == is->part && was->count == is->count &&
           was->cut_length_m != is->cut_length_m;
}
