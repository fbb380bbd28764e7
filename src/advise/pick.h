/* pick.h: one option of each class, exactly: what is lightest, what is cheapest, what nothing beats.
 *
 * A class is a place that takes one of its options (a motor, a screw material, a bumper or none). An
 * option has a mass, money and, where the caller counts them, loads (power, drag ...), all of which add
 * up over classes and may be negative. Everything is in integers, so that sums are exact, the best
 * equals its bound to the last digit, and every machine gives the same answer.
 *
 * Options stand in the order that breaks ties: of equal choices the one that comes first, comparing the
 * places of options class after class, is the answer. Sort them by name and ties go by name.
 *
 * Four questions: the front of all choices that nothing beats (pare_pick_front), the lightest within
 * limits and the cheapest within limits, all choices from the lightest on without making them
 * (pick_stream.h), and the best that truly differ (pick_differ.h). */
#ifndef PARE_ADVISE_PICK_H
#define PARE_ADVISE_PICK_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/error.h"
#include "base/progress.h"

/* PARE_PICK_AMOUNT: no option's amount is larger either way, 107 kg or ten million of money: the
 * product of two differences then fits 64 bits, and so does any sum. */
enum { PARE_PICK_LOADS = 4, PARE_PICK_AMOUNT = 1 << 30 };

/** What an option, or a whole choice, amounts to. Loads that the question does not count are ignored. */
typedef struct pare_pick_amounts {
    int64_t mass_100ug, money_cents; /* 0.1 mg; hundredths of the bench's money */
    int64_t load[PARE_PICK_LOADS];   /* units are the caller's; less is better */
} pare_pick_amounts;

typedef struct pare_pick_class {
    size_t count;
    const pare_pick_amounts *option; /* [count], in the order that breaks ties; lent */
} pare_pick_class;

typedef struct pare_pick {
    size_t classes;
    const pare_pick_class *class;  /* [classes], lent */
    size_t loads;                  /* how many loads count, 0 to PARE_PICK_LOADS */
    pare_pick_amounts most;        /* no choice may amount to more; see pare_pick_no_limit() */
    size_t room;                   /* points or combinations held at most; 0: PARE_PICK_ROOM */
    const pare_progress *progress; /* NULL: nobody wants to know */
} pare_pick;

/* Room where none is said. A point on the way takes 8 bytes and, in the two steps that are worked on,
 * 16 + 8 for each load more; a combination of a stream takes 36 + 8 for each load. */
enum { PARE_PICK_ROOM = 1 << 23 };

/** Limits that hold nothing back. */
pare_pick_amounts pare_pick_no_limit(void);

/** All choices within the limits that no other one beats: none is at least as good in mass, money and
 * every load and better in one. One choice for each such sum: the first in the order of options.
 *
 * In the order of mass, then money, then loads; without loads, money falls along it. */
typedef struct pare_pick_front {
    size_t count, classes;
    const pare_pick_amounts *sum; /* [count]; loads that do not count are 0 */
    /* How each came about: step[class][point]. */
    const struct pare_pick_step *const *step;
} pare_pick_front;

/** @param[out] front  from the arena; empty when no choice is within the limits
 * @return PARE_OK; PARE_NO: a class has no option; PARE_BAD_DATA: an amount beyond PARE_PICK_AMOUNT, too
 *         many classes, options or loads; PARE_UNAVAILABLE: more points than there is room for, which
 *         says so; PARE_STOPPED
 * Time: for each class, its options times the points so far times the logarithm of its options (more with
 * two loads and more: each point is then held against those kept). Threads: safe. */
pare_status pare_pick_front_make(const pare_pick *pick, pare_arena *arena, pare_pick_front *front,
                                 pare_error *err);

/** The choice of a point: choice[class] is the place of an option in its class. */
void pare_pick_front_choice(const pare_pick_front *front, size_t point, size_t choice[]);

/** The lightest point of a front without loads that costs no more than this, or front->count where none
 * does. */
size_t pare_pick_front_lightest(const pare_pick_front *front, int64_t money_cents);

/** The lightest choice within the limits; ties by money, then loads, then the order of options.
 *
 * As exact as the front and far faster: a relaxation bounds from below what the rest of the classes can
 * still reach, and what cannot reach the best known is not followed.
 * @param[out] choice  [classes]
 * @param[out] sum     what it amounts to; NULL: not wanted
 * @return PARE_OK; PARE_NO: no choice is within the limits; else as pare_pick_front_make() */
pare_status pare_pick_lightest(const pare_pick *pick, size_t choice[], pare_pick_amounts *sum,
                               pare_error *err);

/** The cheapest choice within the limits; ties by mass, then loads, then the order of options. */
pare_status pare_pick_cheapest(const pare_pick *pick, size_t choice[], pare_pick_amounts *sum,
                               pare_error *err);

/** Which options of one class nothing beats: of equal ones the first.
 * @param[out] kept   [class->count]: their places, in the order of mass, money, loads
 * @param[out] count  how many */
pare_status pare_pick_undominated(const pare_pick_class *class, size_t loads, size_t kept[],
                                  size_t *count, pare_error *err);

/** What a choice amounts to. */
pare_pick_amounts pare_pick_sum(const pare_pick *pick, const size_t choice[]);

#endif
