/* draws.h: normal deviates for tests, the same in every run: splitmix64 (Steele, Lea, Flood, OOPSLA
 * 2014) into the Box-Muller transform. */
#ifndef PARE_TESTS_DRAWS_H
#define PARE_TESTS_DRAWS_H

#include <math.h>
#include <stdint.h>

/** Over 0, to 1. */
static inline double draw_share(uint64_t *state)
{
    uint64_t z = *state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return ((double)((z ^ (z >> 31)) >> 11) + 1) * 0x1p-53;
}

/** Mean 0, standard deviation 1. */
static inline double draw_normal(uint64_t *state)
{
    const double radius = sqrt(-2 * log(draw_share(state)));
    return radius * cos(6.283185307179586 * draw_share(state));
}

/** The same for who knows nothing of dice. */
static inline double draw_next(void *state)
{
    return draw_normal(state);
}

#endif
