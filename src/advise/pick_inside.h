/* pick_inside.h: what the files of the choice engine share. Only they use it.
 *
 * Inside, amounts are rows of numbers, the wish first: mass, money, loads, or money, mass, loads. */
#ifndef PARE_ADVISE_PICK_INSIDE_H
#define PARE_ADVISE_PICK_INSIDE_H

#include <stdbool.h>

#include "advise/pick.h"

enum { PARE_PICK_DIMS = 2 + PARE_PICK_LOADS };

typedef enum pare_pick_wish { PARE_PICK_MASS, PARE_PICK_MONEY } pare_pick_wish;

/** Amounts as a row: those that do not count are 0. */
void pare_pick_row(const pare_pick_amounts *amounts, pare_pick_wish wish, size_t dims,
                   int64_t row[PARE_PICK_DIMS]);
pare_pick_amounts pare_pick_unrow(const int64_t row[], pare_pick_wish wish, size_t dims);

/** One option as it is sorted: by its row, then by its place. */
typedef struct pare_pick_item {
    int64_t row[PARE_PICK_DIMS];
    uint32_t place;
} pare_pick_item;
int pare_pick_item_order(const void *a, const void *b);

/** Whether the question can be asked at all: sizes, and every amount. */
pare_status pare_pick_check(const pare_pick *pick, pare_error *err);

/** Holds rows that came in their order (first numbers first) against those kept before: a row is beaten
 * when a kept one is no larger anywhere. */
typedef struct pare_pick_sieve {
    size_t dims, count, size;
    int64_t
        *kept; /* 2 dims: the least second number; 3: stairs of the second and third; more: rows */
} pare_pick_sieve;

pare_status pare_pick_sieve_open(pare_pick_sieve *sieve, size_t dims, pare_error *err);
void pare_pick_sieve_clear(pare_pick_sieve *sieve);
void pare_pick_sieve_close(pare_pick_sieve *sieve);
bool pare_pick_sieve_beaten(const pare_pick_sieve *sieve, const int64_t row[]);
/** Keeps a row that is not beaten. */
pare_status pare_pick_sieve_keep(pare_pick_sieve *sieve, const int64_t row[], pare_error *err);

/** The undominated options of all classes, class after class, each class in the order of its rows. */
typedef struct pare_pick_options {
    size_t classes, dims;
    size_t *first;   /* [classes + 1]: where a class begins */
    int64_t *row;    /* [first[classes]][dims] */
    uint32_t *place; /* [first[classes]]: of the option in its class */
    int64_t most[PARE_PICK_DIMS];
    int64_t *least_before; /* [classes + 1][dims]: the least that the classes before this add */
} pare_pick_options;

pare_status pare_pick_options_make(const pare_pick *pick, pare_pick_wish wish, pare_arena *arena,
                                   pare_pick_options *options, pare_error *err);

/** How a point came about: an option of this class and a point of the classes after it. */
typedef struct pare_pick_step {
    uint32_t place, next;
} pare_pick_step;

/** A relaxation that says from below what a point can still reach: times[0] x wish + times[1] x the
 * other, least_before[class] of it for the classes not yet chosen. Any times of 0 and more are safe. */
typedef struct pare_pick_bound {
    int64_t times[2];
    int64_t *least_before; /* [classes + 1] */
    int64_t *known_before; /* [classes + 1][dims]: a good choice of the classes before */
    int64_t best;          /* the least wish that is known to be reached; INT64_MAX: none */
} pare_pick_bound;

/** @return PARE_OK, or PARE_NO where nothing is within the limits of the first two numbers */
pare_status pare_pick_bound_make(const pare_pick_options *options, pare_arena *arena,
                                 pare_pick_bound *bound, pare_error *err);

/** Drops options that no choice as good as the best known can have. */
void pare_pick_bound_reduce(const pare_pick_bound *bound, pare_pick_options *options);

/** The points of all classes that nothing beats, in order.
 * @param bound  NULL: all; else those alone that may lead to a choice as good as the best known
 * @param[out] step   [classes], from the arena
 * @param[out] row    [count][dims], from the arena */
pare_status pare_pick_merge(const pare_pick *pick, const pare_pick_options *options,
                            pare_pick_bound *bound, pare_arena *arena, const pare_pick_step ***step,
                            int64_t **row, size_t *count, pare_error *err);

#endif
