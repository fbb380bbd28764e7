/* best_balance.c: how unevenly the rotors of every set below a state carry, at the least.
 *
 * Rotors share the weight by where the centre of mass is, and what one carries more costs more than another saves:
 * of two craft that weigh the same the one with its centre off the middle of its motors draws more. What is decided
 * has its grams in their places. The rest, up to the most that a set may weigh, may be anywhere: the centre of mass
 * is within a box, and the spread of the rotors' loads, which is a norm of how far it is off, is least in some
 * corner or on some edge of it. */
#include <math.h>

#include "advise/best_inside.h"
#include "physics/share.h"

#define FARTHEST_M                                                                                 \
    0.1             /* from the middle of the motors, at least, to what may yet come on a craft */
#define PROBE  1e-3 /* of the motors' reach: shares are linear in how far the centre is off */
#define SURELY 0.999

/* How the spread of loads follows from where the centre is: x x of it, and so on; in 1/m^2. */
typedef struct spread {
    double xx, xy, yy;
} spread;

static bool spread_of(const pare_assembly *a, double x_m, double y_m, spread *of)
{
    double reach_m = 0, share[PARE_ARMS], uneven[3];
    static const double to[3][2] = {{1, 0}, {0, 1}, {1, 1}};
    for (size_t i = 0; i < a->arms; i++)
        reach_m = fmax(reach_m, hypot(a->arm_m[i].x - x_m, a->arm_m[i].y - y_m));
    const double off_m = PROBE * reach_m;
    for (int k = 0; k < 3; k++) {
        if (pare_thrust_shares(a->arms, a->arm_m, x_m + to[k][0] * off_m, y_m + to[k][1] * off_m,
                               share, NULL) != PARE_OK)
            return false;
        uneven[k] = pare_share_uneven(a->arms, share) / off_m;
    }
    of->xx = uneven[0] * uneven[0];
    of->yy = uneven[1] * uneven[1];
    of->xy = (uneven[2] * uneven[2] - of->xx - of->yy) / 2;
    return isfinite(of->xx) && isfinite(of->yy) && isfinite(of->xy);
}

static double squared(const spread *s, double x_m, double y_m)
{
    return s->xx * x_m * x_m + 2 * s->xy * x_m * y_m + s->yy * y_m * y_m;
}

typedef struct range {
    double low, high;
} range;

static double within(range r, double value)
{
    return fmin(fmax(value, r.low), r.high);
}

/* A form that is nowhere less than nothing is least within a box where it is nothing, or on an edge. */
static double least_squared(const spread *s, range x_m, range y_m)
{
    if (x_m.low <= 0 && x_m.high >= 0 && y_m.low <= 0 && y_m.high >= 0)
        return 0;
    double least = HUGE_VAL;
    for (int high = 0; high < 2; high++) {
        const double x = high ? x_m.high : x_m.low, y = high ? y_m.high : y_m.low;
        least = fmin(least, squared(s, x, within(y_m, s->yy > 0 ? -s->xy * x / s->yy : 0)));
        least = fmin(least, squared(s, within(x_m, s->xx > 0 ? -s->xy * y / s->xx : 0), y));
    }
    return fmax(least, 0);
}

/* What is known of a craft's grams and their places: moments about the middle of the motors. */
typedef struct moments {
    double kg, x_kg_m, y_kg_m;
    double slack_kg_m; /* by which each may be off */
    double farthest_m;
} moments;

/* @param least  of the line */
static void add_line(const best_search *search, const best_state *state, const pare_line *line,
                     int64_t least, double x_m, double y_m, moments *m)
{
    const unsigned char index =
        line->of == PARE_LINE_ITEM ? search->slot_of[line->index] : BEST_NONE;
    const best_slot *slot =
        index != BEST_NONE && best_open(state, index) ? &search->slot[index] : NULL;
    const double x = line->body.at_m.x - x_m, y = line->body.at_m.y - y_m;
    m->farthest_m = fmax(m->farthest_m, hypot(x, y));
    if (slot && slot->elsewhere)
        return;
    const double kg = (double)least / BEST_UNITS_PER_KG;
    m->kg += kg;
    m->x_kg_m += kg * x;
    m->y_kg_m += kg * y;
    if (slot) /* the line has the centre of the part that is there now */
        m->slack_kg_m += fabs(kg) * 2 * slot->off_m;
}

/* What may be taken out of open choices' parts again: it counts as less than nothing where the part is, and is
 * anywhere. */
static double comes_in_kg(const best_search *search, const best_state *state)
{
    double kg = 0;
    for (size_t i = 0; i < search->slots; i++)
        if (best_open(state, i))
            kg += (double)search->slot[i].comes_in / BEST_UNITS_PER_KG;
    return kg;
}

/* Where the centre of mass may be along an axis, the whole weighing at least and at most so much. */
static range centre(double moment_kg_m, double slack_kg_m, double least_kg, double most_kg)
{
    const double low = moment_kg_m - slack_kg_m, high = moment_kg_m + slack_kg_m;
    return (range){low / (low > 0 ? most_kg : least_kg), high / (high > 0 ? least_kg : most_kg)};
}

double best_uneven_least(const best_search *search, const best_state *state, int64_t most)
{
    const pare_assembly *a = &state->trial.sheet.assembly;
    moments m = {.farthest_m = FARTHEST_M};
    int64_t least[PARE_LINES];
    double x_m = 0, y_m = 0, unlisted_kg = 0;
    spread s;
    if (most == BEST_NO_BOUND || state->rough || a->arms < 3 || !best_arms_decided(search, state))
        return 0;
    for (size_t i = 0; i < a->arms; i++) {
        x_m += a->arm_m[i].x / (double)a->arms;
        y_m += a->arm_m[i].y / (double)a->arms;
    }
    for (size_t i = 0; i < a->arms; i++)
        m.farthest_m = fmax(m.farthest_m, hypot(a->arm_m[i].x - x_m, a->arm_m[i].y - y_m));
    best_lines_least(search, state, least);
    for (size_t i = 0; i < a->lines; i++)
        if (a->line[i].of == PARE_LINE_UNLISTED) /* it is where all else is */
            unlisted_kg += a->line[i].mass_kg.value;
        else
            add_line(search, state, &a->line[i], least[i], x_m, y_m, &m);
    const double most_kg = best_most_kg(most) - unlisted_kg,
                 least_kg = best_least_kg(state->least) - unlisted_kg;
    if (!(least_kg > 0 && most_kg > least_kg) || !spread_of(a, x_m, y_m, &s))
        return 0;
    const double slack_kg_m =
        m.slack_kg_m + m.farthest_m * (fmax(most_kg - m.kg, 0) + 2 * comes_in_kg(search, state));
    return SURELY * sqrt(least_squared(&s, centre(m.x_kg_m, slack_kg_m, least_kg, most_kg),
                                       centre(m.y_kg_m, slack_kg_m, least_kg, most_kg)));
}
