/* difference.c: joints, runs and coax between two states of a craft (see difference.h). */
#include "advise/difference.h"

#include <math.h>

/* The item that something is included in, where it has another part than before; -1: none. */
static int changed_owner(const pare_craft *before, const pare_craft *after, const char *owner)
{
    const int now = owner ? pare_craft_item(after, owner) : -1;
    return now >= 0 &&
                   ((size_t)now >= before->items || before->item[now].part != after->item[now].part)
               ? now
               : -1;
}

/* ---- screws ---- */

static bool same_sort(const pare_joint *a, const pare_joint *b)
{
    return a->thread.nominal_m == b->thread.nominal_m && a->standard == b->standard &&
           a->material == b->material;
}

static pare_screws_change screws_change(const pare_joint *was, const pare_joint *is)
{
    if (!same_sort(was, is) || is->length_m > was->length_m)
        return PARE_SCREWS_NEW;
    if (is->length_m != was->length_m)
        return PARE_SCREWS_SHORTER;
    if (is->count != was->count)
        return is->count < was->count ? PARE_SCREWS_FEWER : PARE_SCREWS_MORE;
    return PARE_SCREWS_SAME;
}

pare_screws_change pare_screws_differ(const pare_craft *before, const pare_craft *after,
                                      const pare_joint *is, pare_joint *was)
{
    const int then = pare_craft_joint(before, is->name),
              owner = changed_owner(before, after, is->included_in);
    if (then < 0)
        return PARE_SCREWS_SAME;
    *was = before->joint[then];
    if (owner < 0 || !was->included_in)
        return screws_change(was, is);
    const pare_include *brings =
        pare_part_brings(after->item[owner].part, PARE_INCLUDES_JOINT, is->name);
    if (!brings || same_sort(was, is))
        return PARE_SCREWS_SAME;
    was->standard = brings->standard;
    was->thread = brings->thread;
    was->material = brings->material;
    was->length_m = brings->length_m;
    was->count = brings->count * after->item[owner].count;
    const pare_screws_change change = screws_change(was, is);
    return change == PARE_SCREWS_FEWER ? PARE_SCREWS_SAME : change; /* some are not put in */
}

/* ---- wires ---- */

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

/* Held against what its part brings: as long as that, cut, or soldered on anew. */
static pare_wires_change came_change(const pare_run *was, const pare_include *brings,
                                     const pare_run *is, double *was_m)
{
    const double longest_m = pare_run_longest_m(is);
    if (!brings || (is->gauge != brings->gauge && was && is->gauge == was->gauge))
        return PARE_WIRES_SAME;
    *was_m = brings->length_m;
    if (is->gauge != brings->gauge || longest_m > brings->length_m)
        return PARE_WIRES_NEW;
    return longest_m < brings->length_m ? PARE_WIRES_SHORTER : PARE_WIRES_SAME;
}

pare_wires_change pare_wires_differ(const pare_craft *before, const pare_craft *after,
                                    const pare_run *is, double *was_m)
{
    const int then = pare_craft_run(before, is->name),
              owner = changed_owner(before, after, is->included_in);
    const pare_run *was = then >= 0 ? &before->run[then] : NULL;
    double ignored;
    was_m = was_m ? was_m : &ignored;
    if (owner >= 0)
        return came_change(
            was, pare_part_brings(after->item[owner].part, PARE_INCLUDES_RUN, is->name), is, was_m);
    if (was && !ways_differ(was, is))
        return PARE_WIRES_SAME;
    *was_m = was ? pare_run_longest_m(was) : 0;
    return !was || was->gauge != is->gauge || pare_run_longest_m(is) > *was_m ? PARE_WIRES_NEW
                                                                              : PARE_WIRES_SHORTER;
}

bool pare_coax_differs(const pare_craft *before, size_t item, const pare_item *is)
{
    const pare_item *was = item < before->items ? &before->item[item] : NULL;
    return was && !was->off && !is->off && was->part == is->part && was->count == is->count &&
           was->cut_length_m != is->cut_length_m;
}
