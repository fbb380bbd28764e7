/* charged.c: readings of a charger, taken together (see charged.h).
 *
 * A charger measures what it put in or took out to some 3 % (common practice, no source). Two packs of
 * one part are two packs: a sheet that does not know which is flown gets their mean and their spread. */
#include "craft/charged.h"

#include <math.h>
#include <string.h>

#define CHARGE_U    0.03
#define HOLDS_LEAST 0.05 /* of the stated capacity; below and above these it was not this pack */
#define HOLDS_MOST  1.5

static bool later(const pare_charged *a, const pare_charged *b) /* b stands later in the list */
{
    if (!a->date)
        return false;
    return !b->date || strcmp(a->date, b->date) > 0;
}

static bool reads(const pare_charged *one, bool cells)
{
    return cells ? one->reading.cells > 0 : one->holds_c > 0;
}

static bool newest(size_t count, const pare_charged charged[], size_t index, bool cells)
{
    const pare_charged *one = &charged[index];
    if (!reads(one, cells))
        return false;
    for (size_t i = 0; i < count; i++) {
        const pare_charged *other = &charged[i];
        if (i == index || other->which != one->which || !reads(other, cells))
            continue;
        if (i < index ? later(other, one) : !later(one, other))
            return false;
    }
    return true;
}

bool pare_charged_newest(size_t count, const pare_charged charged[], size_t index)
{
    return newest(count, charged, index, true);
}

/* The mean of the newest of each pack: u is a pack's own and the spread between packs. */
static pare_value mean_of(size_t count, const pare_charged charged[], bool cells)
{
    double sum = 0, squares = 0, own = 0;
    int packs = 0;
    for (size_t i = 0; i < count; i++) {
        if (!newest(count, charged, i, cells))
            continue;
        const double value = cells ? charged[i].group.ohm : charged[i].holds_c;
        const double u = cells ? charged[i].group.u : CHARGE_U * value;
        sum += value;
        squares += value * value;
        own += u * u;
        packs++;
    }
    if (packs == 0)
        return (pare_value){.given = false};
    const double mean = sum / packs, spread = fmax(squares / packs - mean * mean, 0);
    return (pare_value){mean, sqrt(own / packs + spread), PARE_MEASURED, true};
}

static pare_status check_charge(const pare_pack *pack, const pare_charged *one, pare_error *err)
{
    if (one->holds_c >= HOLDS_LEAST * pack->capacity_c &&
        one->holds_c <= HOLDS_MOST * pack->capacity_c)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "it gave %.4g mAh of the %.4g mAh stated: %.4g to %.4g mAh would be right",
                     one->holds_c / 3.6, pack->capacity_c / 3.6,
                     HOLDS_LEAST * pack->capacity_c / 3.6, HOLDS_MOST * pack->capacity_c / 3.6);
}

pare_status pare_charged_all(const pare_pack *pack, size_t count, pare_charged charged[],
                             pare_value *ohm, pare_value *holds_c, pare_error *err)
{
    for (size_t i = 0; i < count; i++) {
        pare_charged *one = &charged[i];
        pare_status status = PARE_OK;
        if (one->reading.cells > 0)
            status = pare_charger_group(pack, &one->reading, &one->group, err);
        if (status == PARE_OK && one->holds_c > 0)
            status = check_charge(pack, one, err);
        if (status != PARE_OK)
            return pare_within(err, "charger, pack %d%s%s", one->which, one->date ? " on " : "",
                               one->date ? one->date : "");
    }
    *ohm = mean_of(count, charged, true);
    *holds_c = mean_of(count, charged, false);
    return PARE_OK;
}
