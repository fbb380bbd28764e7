/* learn_inside.h: inside learn.h: flights made ready to be flown again, and the unknowns.
 *
 * Unknowns are standard normal: numbers of the rig move by the root of their prior covariance times
 * these, so that a prior is a row of its own value. In order: the propeller's two, drag, what is always
 * drawn, and for each pack its capacity and its fade. */
#ifndef PARE_ADVISE_LEARN_INSIDE_H
#define PARE_ADVISE_LEARN_INSIDE_H

#include "advise/learn.h"
#include "advise/nonlinear.h"

enum {
    PARE_OF_THRUST, /* sources of thrust and power errors, as in pare_pair_doubt */
    PARE_OF_POWER,
    PARE_OF_DRAG,
    PARE_OF_ALWAYS,
    PARE_OF_PACKS
};
enum { PARE_OF_A_PACK = 2 }; /* each of those */
#define PARE_DAYS_OF_FADE 30.0
#define PARE_CHARGER_U    0.015 /* of what was put back; common practice, no source */
#define PARE_NO_PACK      ((size_t)-1)

/** A flight ready to be flown again. */
typedef struct pare_again {
    const pare_flight_record *record;
    pare_rig rig; /* as flown that day, nothing learned yet */
    pare_brief brief;
    const pare_flown *flown;
    size_t entries;
    pare_landing down_to;
    double charge_before; /* 0 to 1 */
    double since;         /* 30 days from it to the pack's last flight */
    double style_u;       /* of the logarithm of its mean current: nobody flies as he says */
    size_t pack;          /* in the list; PARE_NO_PACK: as the sheet has it */
    bool says_charge, says_rest;
    bool aside; /* does not fit, and is not learned from */
} pare_again;

/** What was thought of a pack before: u of the logarithm of its capacity, and of what fades of it in 30
 * days. */
typedef struct pare_pack_prior {
    double capacity_u, fade_u;
    double last_day; /* of its flights */
} pare_pack_prior;

typedef struct pare_learning {
    const pare_craft *craft;
    pare_rig own;                             /* of its first loadout, nothing learned yet */
    const char *motor, *propeller, *own_pack; /* ids that it has on there */
    pare_doubts doubts;
    size_t packs, flights;
    pare_learned_pack *pack;
    pare_pack_prior *prior; /* [packs] */
    pare_again *again;      /* [flights]; those that tell nothing have neither charge nor rest */
    pare_learned_flight *flight;
} pare_learning;

/** The rig of a flight with what was learned. */
void pare_learning_move(const pare_learning *learning, const pare_again *again, const double x[],
                        pare_moved_rig *moved);

/** How much charge that flight takes with it, and where the pack's volts come to rest. Either may be
 * NULL. @return false where it does not fly */
bool pare_again_fly(const pare_learning *learning, const pare_again *again, const double x[],
                    double *charge_c, double *rest_v);

/** What chargers say of one copy's resistance: fills those members. */
void pare_learning_ohm(const pare_part *part, int which, pare_learned_pack *pack);

/** What came out, for the craft's sheet. */
void pare_learning_keep(const pare_learning *learning, size_t unknowns, const double x[],
                        const double covariance[], pare_taught *kept);
/** The only copy that flew of the pack that the craft has on, or PARE_NO_PACK. */
size_t pare_learning_own_pack(const pare_learning *learning);

/** Differences of its charge (logarithm) and volts over their uncertainty; those that it says.
 * @return how many; 0 where it does not fly with such numbers */
size_t pare_again_rows(const pare_learning *learning, const pare_again *again, const double x[],
                       double row[2]);
/** Of the first, of the logarithm. */
double pare_again_charge_u(const pare_again *again);

/** Makes flights ready. @return PARE_BAD_DATA naming the flight whose pack cannot fly */
pare_status pare_learning_begin(const pare_craft *craft, size_t count,
                                const pare_flight_record flight[], pare_arena *arena,
                                pare_learning *learning, pare_error *err);

/** Which short test would tell most about the minutes.
 * @param towards  [unknowns] change of the minutes by each, s
 * @param rest_s2  variance of the minutes by what is not learned here */
void pare_learning_next(const pare_learning *learning, const pare_rig *rig, size_t unknowns,
                        const double x[], const double covariance[], const double towards[],
                        double rest_s2, pare_learned_test test[PARE_LEARNED_TESTS]);

#endif
