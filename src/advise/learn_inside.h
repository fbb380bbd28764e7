/* learn_inside.h: inside learn.h: flights made ready to be flown again, and the unknowns.
 *
 * Unknowns are standard normal: numbers of the rig move by the root of their prior covariance times
 * these, so that a prior is a row of its own value. In order: the propeller's two, drag, what is always
 * drawn, what the ESC loses at part throttle, the craft's own sensors of current and of volts, and for each pack its capacity, its fade and its
 * resistance. */
#ifndef PARE_ADVISE_LEARN_INSIDE_H
#define PARE_ADVISE_LEARN_INSIDE_H

#include "advise/learn.h"
#include "advise/learn_log.h"
#include "advise/nonlinear.h"

enum {
    PARE_OF_THRUST, /* sources of thrust and power errors, as in pare_pair_doubt */
    PARE_OF_POWER,
    PARE_OF_DRAG,
    PARE_OF_ALWAYS,
    PARE_OF_ESC,
    PARE_OF_CURRENT_SENSOR,
    PARE_OF_VOLTAGE_SENSOR,
    PARE_OF_PACKS
};
enum { PARE_OF_CAPACITY, PARE_OF_FADE, PARE_OF_OHM, PARE_OF_A_PACK }; /* each of those */
enum { PARE_OF_A_FLIGHT = PARE_OF_PACKS + PARE_OF_A_PACK };
#define PARE_DAYS_OF_FADE 30.0
#define PARE_CHARGER_U    0.015 /* of what was put back; common practice, no source */
#define PARE_NO_PACK      ((size_t)-1)
/* Of the logarithm of their scales; common practice, no source: a sensor of current as it comes from its
 * maker, and of volts. */
#define PARE_CURRENT_SENSOR_U 0.10
#define PARE_VOLTAGE_SENSOR_U 0.01

/** What is said of a flight, each a row at most, in this order. */
typedef enum pare_said {
    PARE_SAID_CHARGE, /* for its minutes */
    PARE_SAID_REST,   /* volts, afterwards */
    PARE_SAID_READ,   /* by its log, against its charger */
    PARE_SAID_BEFORE, /* volts at rest before it, by its log */
    PARE_SAID_LOAD,   /* volts while flying, by its log */
    PARE_SAID_STEP,   /* how volts fall where current rises, by its log */
    PARE_SAIDS
} pare_said;

/** A flight ready to be flown again. */
typedef struct pare_again {
    const pare_flight_record *record;
    pare_rig rig; /* as flown that day, nothing learned yet */
    pare_brief brief;
    const pare_flown *flown;
    size_t entries;
    pare_landing down_to;
    double charge_before;     /* 0 to 1 */
    double since;             /* 30 days from it to the pack's last flight */
    double style_u;           /* of the logarithm of its mean current: nobody flies as he says */
    size_t pack;              /* in the list; PARE_NO_PACK: as the sheet has it */
    const pare_log_said *log; /* NULL: none, or it was set aside */
    bool says[PARE_SAIDS];
    bool aside; /* does not fit, and is not learned from */
    /* Its rows as they were last asked for, and with which unknowns: most steps of a fit move others. */
    bool seen;
    double seen_x[PARE_OF_A_FLIGHT], seen_row[PARE_SAIDS];
    size_t seen_rows;
} pare_again;

/** What was thought of a pack before: u of the logarithms of its capacity and resistance, and of what
 * fades of it in 30 days. */
typedef struct pare_pack_prior {
    double capacity_u, fade_u, ohm_u;
    double last_day; /* of its flights */
} pare_pack_prior;

typedef struct pare_learning {
    const pare_craft *craft;
    pare_rig own;                                   /* of its first loadout, nothing learned yet */
    const char *motor, *propeller, *own_pack, *esc; /* ids that it has on there */
    pare_doubts doubts;
    size_t packs, flights, logs;
    pare_learned_pack *pack;
    pare_pack_prior *prior; /* [packs] */
    pare_again *again;      /* [flights]; those that tell nothing have neither charge nor rest */
    pare_learned_flight *flight;
} pare_learning;

/** The craft as on a flight: in its loadout, with the pack and in the air of the day. */
pare_status pare_again_load(const pare_craft *craft, const pare_flight_record *record,
                            pare_craft *loaded, pare_error *err);

/** The rig of a flight with what was learned. */
void pare_learning_move(const pare_learning *learning, const pare_again *again, const double x[],
                        pare_moved_rig *moved);

/** How much charge that flight takes with it, and where the pack's volts come to rest. Either may be
 * NULL. @return false where it does not fly */
bool pare_again_fly(const pare_learning *learning, const pare_again *again, const double x[],
                    double *charge_c, double *rest_v);

/** What was measured of the charge that pare_again_fly() foretells, and of the volts at rest: by hand, or
 * by a log whose sensors are off as said. */
double pare_again_charge_c(const pare_again *again, const double x[]);
double pare_again_rest_v(const pare_again *again, const double x[]);

/** What it says, and why nothing, with its log or without. */
void pare_again_put_saying(pare_again *again, const char **why);

/** Whether what it says is said by a log. */
bool pare_said_by_log(pare_said what);

/** What chargers say of one copy's resistance: fills those members. */
void pare_learning_ohm(const pare_part *part, int which, pare_learned_pack *pack);

/** What came out, for the craft's sheet. @param logged  by one more log than those of its flights */
void pare_learning_keep(const pare_learning *learning, size_t unknowns, const double x[],
                        const double covariance[], bool logged, pare_taught *kept);
/** The only copy that flew of the pack that the craft has on, or PARE_NO_PACK. */
size_t pare_learning_own_pack(const pare_learning *learning);

/** Differences of what it says over their uncertainty, in the order of pare_said.
 * @return how many; 0 where it does not fly with such numbers */
size_t pare_again_rows(const pare_learning *learning, pare_again *again, const double x[],
                       double row[PARE_SAIDS]);
/** Of its charge, of the logarithm. */
double pare_again_charge_u(const pare_again *again);

/** Makes flights ready. @return PARE_BAD_DATA naming the flight whose pack cannot fly */
pare_status pare_learning_begin(const pare_craft *craft, size_t count,
                                const pare_flight_record flight[], pare_arena *arena,
                                pare_learning *learning, pare_error *err);

/** How a factor's logarithm (of the ESC: its share) goes with the unknowns. @param[out] out  [n] */
void pare_learning_direction(const pare_learning *learning, pare_learned which, size_t n,
                             double out[]);

/** Which short test would tell most about the minutes.
 * @param rig  of the craft, nothing learned yet */
void pare_learning_next(const pare_learning *learning, const pare_rig *rig, size_t unknowns,
                        const double x[], const double covariance[],
                        pare_learned_test test[PARE_LEARNED_TESTS]);

#endif
