/* pick_sieve.c: which rows of numbers are beaten by one before them (see pick_inside.h).
 *
 * Rows come in order, so a later one is never smaller in its first number, and the first number need not
 * be looked at again. With two numbers that leaves one comparison; with three, stairs of the other two,
 * searched by halves (Kung, Luccio, Preparata, J. ACM 22, 1975, sec. 3); with more, a walk over all that
 * is kept, the newest first, which lies nearest. */
#include "advise/pick_inside.h"

#include <stdlib.h>
#include <string.h>

pare_status pare_pick_sieve_open(pare_pick_sieve *sieve, size_t dims, pare_error *err)
{
    *sieve = (pare_pick_sieve){.dims = dims, .size = 64};
    sieve->kept = malloc(sieve->size * (dims - 1) * sizeof sieve->kept[0]);
    return sieve->kept ? PARE_OK : pare_no_memory(err);
}

void pare_pick_sieve_clear(pare_pick_sieve *sieve)
{
    sieve->count = 0;
}

void pare_pick_sieve_close(pare_pick_sieve *sieve)
{
    free(sieve->kept);
    sieve->kept = NULL;
}

/* How many stairs have a second number of at most this. */
static size_t stairs_below(const pare_pick_sieve *sieve, int64_t second)
{
    size_t low = 0, high = sieve->count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (sieve->kept[2 * middle] <= second)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

bool pare_pick_sieve_beaten(const pare_pick_sieve *sieve, const int64_t row[])
{
    if (sieve->dims == 2)
        return sieve->count && row[1] >= sieve->kept[0];
    if (sieve->dims == 3) {
        const size_t below = stairs_below(sieve, row[1]);
        return below && sieve->kept[2 * (below - 1) + 1] <= row[2];
    }
    const size_t wide = sieve->dims - 1;
    for (size_t i = sieve->count; i-- > 0;) {
        const int64_t *kept = &sieve->kept[wide * i];
        size_t d = 0;
        while (d < wide && kept[d] <= row[1 + d])
            d++;
        if (d == wide)
            return true;
    }
    return false;
}

/* Room for one more. */
static pare_status grow(pare_pick_sieve *sieve, pare_error *err)
{
    if (sieve->count < sieve->size)
        return PARE_OK;
    const size_t one = (sieve->dims - 1) * sizeof sieve->kept[0];
    int64_t *larger = realloc(sieve->kept, 2 * sieve->size * one);
    if (!larger)
        return pare_no_memory(err);
    sieve->kept = larger;
    sieve->size *= 2;
    return PARE_OK;
}

pare_status pare_pick_sieve_keep(pare_pick_sieve *sieve, const int64_t row[], pare_error *err)
{
    if (sieve->dims == 2) {
        sieve->kept[0] = row[1];
        sieve->count = 1;
        return PARE_OK;
    }
    const pare_status status = grow(sieve, err);
    if (status != PARE_OK)
        return status;
    const size_t wide = sieve->dims - 1;
    size_t at = sieve->count, gone = 0;
    if (sieve->dims == 3) {
        /* Stairs that the new one makes needless follow the place where it goes in; one of the same
         * second number stands just before it. */
        at = stairs_below(sieve, row[1]);
        if (at && sieve->kept[2 * (at - 1)] == row[1]) {
            at--;
            gone = 1;
        }
        while (at + gone < sieve->count && sieve->kept[2 * (at + gone) + 1] >= row[2])
            gone++;
        memmove(&sieve->kept[2 * (at + 1)], &sieve->kept[2 * (at + gone)],
                2 * (sieve->count - at - gone) * sizeof sieve->kept[0]);
    }
    memcpy(&sieve->kept[wide * at], &row[1], wide * sizeof row[0]);
    sieve->count += 1 - gone;
    return PARE_OK;
}
