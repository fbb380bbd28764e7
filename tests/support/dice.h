/* dice.h: a small generator for tests, so that a failing run can be repeated by its number. */
#ifndef PARE_TESTS_DICE_H
#define PARE_TESTS_DICE_H

/** 0 .. sides - 1; `state` is the run's own. */
static inline unsigned dice(unsigned *state, unsigned sides)
{
    *state = *state * 1664525u + 1013904223u; /* Numerical Recipes, 2nd ed., sec. 7.1 */
    return (*state >> 8) % sides;
}

#endif
