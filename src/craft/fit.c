/* fit.c: the interfaces of a part, and whether two of them go together.
 *
 * What is not stated never forbids: a builder has half the figures, and a wrong "does not fit" hides
 * a swap for good. Sizes are nominal (M5, 30.5 mm, 5.1 in), so equal means within rounding between
 * inches and millimetres. */
#include "craft/part.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const char *const fits[PARE_FITS] = {
    [PARE_FIT_BOLT_CIRCLE] = "bolt_circle",
    [PARE_FIT_THREAD] = "thread",
    [PARE_FIT_SHAFT] = "shaft",
    [PARE_FIT_STACK] = "stack",
    [PARE_FIT_PROPELLER] = "propeller",
    [PARE_FIT_CELLS] = "cells",
    [PARE_FIT_CONNECTOR] = "connector",
    [PARE_FIT_CAMERA] = "camera",
    [PARE_FIT_ANTENNA] = "antenna",
};

const char *pare_fit_name(pare_fit_key key)
{
    assert(key < PARE_FITS);
    return fits[key];
}

int pare_fit_named(const char *name)
{
    for (int key = 0; key < PARE_FITS; key++)
        if (strcmp(name, fits[key]) == 0)
            return key;
    return -1;
}

static bool choice_agrees(const pare_fit *a, size_t i, const pare_fit *b, size_t j)
{
    const char *word_a = a->any[i].word, *word_b = b->any[j].word;
    if (word_a || word_b)
        return word_a && word_b && strcmp(word_a, word_b) == 0;
    const double low_a = a->any[i].low, high_a = a->any[i].high;
    const double low_b = b->any[j].low, high_b = b->any[j].high;
    double slack = 0.0002;
    /* A range's ends are limits somebody set; only two nominal sizes earn the 1 %. */
    if (low_a >= high_a && low_b >= high_b)
        slack = fmax(slack, 0.01 * fmax(high_a, high_b));
    return low_a <= high_b + slack && low_b <= high_a + slack;
}

bool pare_fit_agrees(const pare_fit *a, const pare_fit *b)
{
    if (a->count == 0 || b->count == 0)
        return true;
    for (size_t i = 0; i < a->count; i++)
        for (size_t j = 0; j < b->count; j++)
            if (choice_agrees(a, i, b, j))
                return true;
    return false;
}
