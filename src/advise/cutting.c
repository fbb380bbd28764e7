/* cutting.c: what to cut for a change to a craft (see shopping.h): wire and coax by their lengths, screws
 * that are put in or made shorter. */
#include <stdlib.h>
#include <string.h>

#include "advise/difference.h"
#include "advise/shopping_inside.h"

static void add(pare_shopping *s, const pare_cut *cut)
{
    if (cut->count > 0 && s->cuts < PARE_CUTS)
        s->cut[s->cuts++] = *cut;
}

/* The ways of a run, those of one length together. @param was_m  0: made anew */
static void cut_run(const pare_run *is, double was_m, pare_shopping *s)
{
    for (size_t i = 0; i < is->ways; i++) {
        size_t alike = 0, earlier = 0;
        for (size_t k = 0; k < is->ways; k++) {
            alike += is->way_m[k] == is->way_m[i];
            earlier += k < i && is->way_m[k] == is->way_m[i];
        }
        if (!earlier && is->way_m[i] != was_m)
            add(s, &(pare_cut){.of = PARE_CUT_WIRE,
                               .name = is->name,
                               .gauge = is->gauge,
                               .length_m = is->way_m[i],
                               .was_m = was_m,
                               .count = (int)alike * is->times});
    }
}

static void cut_joint(const pare_craft *before, const pare_craft *after, const pare_joint *is,
                      pare_shopping *s)
{
    pare_joint was;
    const pare_screws_change change = pare_screws_differ(before, after, is, &was);
    pare_cut cut = {.of = PARE_CUT_SCREWS,
                    .name = is->name,
                    .length_m = is->length_m,
                    .standard = is->standard,
                    .material = is->material,
                    .nominal_m = is->thread.nominal_m};
    if (change == PARE_SCREWS_SHORTER)
        cut.was_m = was.length_m;
    if (change == PARE_SCREWS_NEW || change == PARE_SCREWS_SHORTER)
        cut.count = is->count;
    else if (change == PARE_SCREWS_MORE)
        cut.count = is->count - was.count;
    add(s, &cut);
}

static double coax_m(const pare_item *item)
{
    return item->cut_length_m > 0 ? item->cut_length_m : item->part->spec[PARE_SPEC_LENGTH].value;
}

static int in_order(const void *a, const void *b)
{
    const pare_cut *one = a, *two = b;
    if (one->of != two->of)
        return (int)one->of - (int)two->of;
    if (one->gauge != two->gauge)
        return one->gauge < two->gauge ? -1 : 1;
    if (one->nominal_m != two->nominal_m)
        return one->nominal_m < two->nominal_m ? -1 : 1;
    if (one->length_m != two->length_m)
        return one->length_m > two->length_m ? -1 : 1;
    if (one->material != two->material)
        return (int)one->material - (int)two->material;
    return strcmp(one->name, two->name);
}

void pare_cutting_of(const pare_craft *before, const pare_craft *after, pare_shopping *shopping)
{
    for (size_t i = 0; i < after->runs; i++) {
        const pare_run *is = &after->run[i];
        double was_m = 0;
        const pare_wires_change change = pare_wires_differ(before, after, is, &was_m);
        if (change != PARE_WIRES_SAME)
            cut_run(is, change == PARE_WIRES_SHORTER ? was_m : 0, shopping);
    }
    for (size_t i = 0; i < after->items; i++) {
        const pare_item *is = &after->item[i];
        if (pare_coax_differs(before, i, is))
            add(shopping, &(pare_cut){.of = PARE_CUT_COAX,
                                      .name = is->name,
                                      .part = is->part,
                                      .count = is->count,
                                      .length_m = is->cut_length_m,
                                      .was_m = coax_m(&before->item[i])});
    }
    for (size_t i = 0; i < after->joints; i++)
        cut_joint(before, after, &after->joint[i], shopping);
    qsort(shopping->cut, shopping->cuts, sizeof shopping->cut[0], in_order);
}
