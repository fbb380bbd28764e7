/* mass_change.c: how uncertain the difference of two craft's masses is (see mass_change.h).
 *
 * What both have in common cancels. A part that stays brings nothing but its change of count; copies
 * share one error, so four motors less four others are 4u each way, in quadrature with each other. */
#include "advise/mass_change.h"

#include <math.h>

#include "base/text.h"

#define CUT_COAX_SHARE 0.10 /* of coax by the metre; from memory, makers' data sheets */

/* A swap moves few lines, so what is looked for is mostly behind what was found last: *next, which moves
 * on with each that is found. */
static const pare_line *line_like(const pare_assembly *assembly, const pare_line *line,
                                  size_t *next)
{
    size_t at = *next < assembly->lines ? *next : 0;
    for (size_t k = 0; k < assembly->lines; k++) {
        const pare_line *other = &assembly->line[at++];
        if (other->of == line->of && pare_same_name(other->name, line->name)) {
            *next = at;
            return other;
        }
        at = at < assembly->lines ? at : 0;
    }
    return NULL;
}

static double square(double x)
{
    return x * x;
}

/* Standard uncertainty of what one line gives or takes. */
static double line_saved_u_kg(const pare_craft *a, const pare_line *was, const pare_craft *b,
                              const pare_line *is)
{
    const double same = fabs(was->mass_kg.u - is->mass_kg.u);
    switch (was->of) {
    case PARE_LINE_ITEM:
        if (a->item[was->index].part != b->item[is->index].part)
            break;
        if (a->item[was->index].cut_length_m != b->item[is->index].cut_length_m)
            return CUT_COAX_SHARE * fabs(was->mass_kg.value - is->mass_kg.value);
        return same;
    case PARE_LINE_UNLISTED:
        return same;
    case PARE_LINE_JOINT:
        return same; /* the same geometry, whatever the metal */
    case PARE_LINE_RUN:
        if (a->run[was->index].gauge == b->run[is->index].gauge)
            return same;
        break;
    }
    return hypot(was->mass_kg.u, is->mass_kg.u); /* they have nothing in common */
}

double pare_mass_change_u_kg(const pare_craft *a, const pare_assembly *was, const pare_craft *b,
                             const pare_assembly *is)
{
    double variance = 0;
    size_t next = 0;
    for (size_t i = 0; i < was->lines; i++) {
        const pare_line *before = &was->line[i], *after = line_like(is, before, &next);
        if (!after)
            variance += square(before->mass_kg.u);
        else
            variance += square(line_saved_u_kg(a, before, b, after));
    }
    next = 0;
    for (size_t i = 0; i < is->lines; i++)
        if (!line_like(was, &is->line[i], &next))
            variance += square(is->line[i].mass_kg.u);
    return sqrt(variance);
}
