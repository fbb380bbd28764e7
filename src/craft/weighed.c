/* weighed.c: finding what weigh-ins said of a craft (see weighed.h). */
#include "craft/weighed.h"

#include <math.h>

#define SAME 1e-9 /* share: the same geometry, not quite the same sum */

size_t pare_weighed_part(const pare_weighed *weighed, const struct pare_part *part)
{
    size_t at = 0;
    while (at < weighed->masses && weighed->mass[at].part != part)
        at++;
    return at;
}

static size_t same(const pare_weighed *weighed, size_t at, double each_kg)
{
    if (at == weighed->masses || each_kg == 0 ||
        fabs(weighed->mass[at].kg - each_kg) > SAME * fabs(each_kg))
        return weighed->masses;
    return at;
}

size_t pare_weighed_joint(const pare_weighed *weighed, size_t joint, double each_kg)
{
    return joint < weighed->joints ? same(weighed, weighed->joint[joint], each_kg)
                                   : weighed->masses;
}

size_t pare_weighed_run(const pare_weighed *weighed, size_t run, double each_kg)
{
    return run < weighed->runs ? same(weighed, weighed->run[run], each_kg) : weighed->masses;
}
