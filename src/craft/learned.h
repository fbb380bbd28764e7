/* learned.h: what flights taught about a craft, as it was kept for its sheet.
 *
 * Each number moves by a factor (its logarithm is kept), and each may still be off by sources that they
 * share: the covariance of numbers i and k is the sum over s of root[i][s] root[k][s], so that whatever
 * stands there is a covariance. What was learned of a motor with its propeller is theirs, and of a pack
 * the pack's: a swap that puts another on leaves it behind, as does a stand table that came later. */
#ifndef PARE_CRAFT_LEARNED_H
#define PARE_CRAFT_LEARNED_H

#include <stdbool.h>

struct pare_craft;
struct pare_rig;

typedef enum pare_taught_number {
    PARE_TAUGHT_THRUST, /* in the order of pare_pair_number up to no-load current */
    PARE_TAUGHT_POWER,
    PARE_TAUGHT_KV,
    PARE_TAUGHT_RESISTANCE,
    PARE_TAUGHT_NO_LOAD,
    PARE_TAUGHT_DRAG,
    PARE_TAUGHT_ALWAYS, /* electronics; by a share of it, not its logarithm */
    PARE_TAUGHT_CAPACITY,
    PARE_TAUGHT_PACK_OHM, /* where a log told it */
    PARE_TAUGHT_ESC_LOSS, /* at part throttle; by a share of it */
    PARE_TAUGHTS
} pare_taught_number;

enum { PARE_TAUGHT_SOURCES = 7 };

typedef struct pare_taught {
    const char *date;              /* on which it was kept */
    int flights;                   /* that it was learned from */
    const char *motor, *propeller; /* ids */
    bool stand;                    /* with the table of a stand beneath */
    const char *pack;              /* id; NULL: nothing of a pack, or of more than one copy */
    const char *esc;               /* id; NULL: nothing of an ESC */
    double change[PARE_TAUGHTS];
    double root[PARE_TAUGHTS][PARE_TAUGHT_SOURCES];
} pare_taught;

/** Whether a number moves by a share of itself, not through its logarithm. */
bool pare_taught_by_share(pare_taught_number number);

/** As it is written: "thrust". */
const char *pare_taught_name(pare_taught_number number);

/** Whether what was kept of a number is about what the craft has on. @param craft  loaded */
bool pare_taught_applies(const struct pare_craft *craft, bool stand, pare_taught_number number);

/** Whether the craft has the motor and propeller on that it was learned from. */
bool pare_taught_flew(const struct pare_craft *craft);

/** Puts it on; does nothing where nothing was kept. */
void pare_taught_move(const struct pare_craft *craft, struct pare_rig *rig);

/** How uncertain a number is left: of its logarithm, or by a share. */
double pare_taught_u(const pare_taught *taught, pare_taught_number number);

/** The factors on drag and on what electronics draw, 1 where nothing was kept. */
double pare_taught_drag(const struct pare_craft *craft);
double pare_taught_always(const struct pare_craft *craft);

#endif
