/* calc_esc.c: `pare calc esc`: what an ESC's board loses, how warm it gets, and for how long a burst may
 * last. By its mass (craft/board.h), and by its resistance and heat capacity where they are given: the
 * ratings typed are only compared with. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cli/calc.h"
#include "craft/board.h"
#include "craft/law.h"

enum {
    CURRENT,
    VOLTS,
    MASS,
    CONTINUOUS,
    BURST,
    BURST_FOR,
    MOTORS,
    AMBIENT,
    FLOW,
    LIMIT,
    RESISTANCE,
    HEAT_CAPACITY
};
static const key keys[] = {
    [CURRENT] = {"current", PARE_DIM_CURRENT, 0, 500, "0 A .. 500 A", true, NAN, false},
    [VOLTS] = {"volts", PARE_DIM_VOLTAGE, 3, 100, "3 V .. 100 V", true, NAN, false},
    [MASS] = {"mass", PARE_DIM_MASS, 1e-4, 1, "0.1 g .. 1 kg", false, NAN, false},
    [CONTINUOUS] = {"continuous", PARE_DIM_CURRENT, 0.5, 500, "0.5 A .. 500 A", false, NAN, false},
    [BURST] = {"burst", PARE_DIM_CURRENT, 0.5, 1000, "0.5 A .. 1000 A", false, NAN, false},
    [BURST_FOR] = {"burst_for", PARE_DIM_TIME, 0.1, 600, "0.1 s .. 600 s", false, 10, false},
    [MOTORS] = {"motors", PARE_DIM_COUNT, 1, 4, "1 or 4", false, 4, false},
    [AMBIENT] = {"ambient", PARE_DIM_TEMPERATURE, -60, 100, "-60 degC .. 100 degC", false, 25,
                 false},
    [FLOW] = {"flow", PARE_DIM_SPEED, 0, 150, "0 m/s .. 150 m/s", false, 5, false},
    [LIMIT] = {"limit", PARE_DIM_TEMPERATURE, 40, 200, "40 degC .. 200 degC", false,
               PARE_BOARD_DEGC, false},
    [RESISTANCE] = {"resistance", PARE_DIM_RESISTANCE, 1e-4, 1, "0.1 mohm .. 1 ohm", false, NAN,
                    false},
    [HEAT_CAPACITY] = {"heat_capacity", PARE_DIM_HEAT, 0.1, 500, "0.1 J/K .. 500 J/K", false, NAN,
                       false},
};

#define BURNT_DEGC 1000.0 /* past any use: no number stands for it */

/* As makers state them (craft/spec.c). */
#define RESISTANCE_U    0.2
#define HEAT_CAPACITY_U 0.15

typedef struct esc {
    pare_board board;
    pare_board_doubt doubt;
    const char *source;
} esc;

static pare_value stated(const key_values *given, int which, double share_u)
{
    const double value = given->value[which];
    return (pare_value){value, share_u * value, PARE_STATED, given->given[which]};
}

static void put_stated(const key_values *given, esc *e)
{
    const pare_value resistance = stated(given, RESISTANCE, RESISTANCE_U);
    const pare_value heat_capacity = stated(given, HEAT_CAPACITY, HEAT_CAPACITY_U);
    e->doubt = pare_board_doubt_of(&resistance, &heat_capacity);
    e->source = resistance.given || heat_capacity.given ? "by what was given and the board's mass"
                                                        : "by the board's mass";
    if (resistance.given)
        e->board.on_ohm = resistance.value;
    if (heat_capacity.given)
        e->board.heat_j_k = heat_capacity.value;
}

static pare_status board_of(const key_values *given, esc *e, pare_answer *answer, pare_error *err)
{
    const double *v = given->value;
    const bool four = v[MOTORS] == 4;
    if (v[MOTORS] != 4 && v[MOTORS] != 1)
        return pare_fail(err, PARE_BAD_DATA, "motors=%g: a board drives 1 or 4", v[MOTORS]);
    if (!given->given[MASS] && !given->given[CONTINUOUS])
        return pare_fail(err, PARE_BAD_DATA,
                         "needs the board's mass, or its continuous rating to guess it from");
    const double mass_kg = given->given[MASS] ? v[MASS]
                           : four             ? pare_law_esc_four_kg(v[CONTINUOUS], 0).value
                                              : pare_law_esc_one_kg(v[CONTINUOUS]).value;
    if (!given->given[MASS])
        pare_answer_note(answer, "without a mass it is taken for %.1f g, as its rating weighs",
                         1e3 * mass_kg);
    const double made_for_a = pare_esc_made_for_a(four, mass_kg);
    const pare_status status =
        pare_board_estimate((int)v[MOTORS], made_for_a, mass_kg, &e->board, err);
    if (status == PARE_OK) {
        pare_answer_add(answer, "made_for_a", "weighs like a board for", "A", made_for_a);
        pare_answer_doubt(answer, 0.2 * made_for_a, PARE_ESTIMATED, "law of the kind's mass");
        put_stated(given, e);
    }
    return status;
}

/* Of the watts lost. */
static double loss_u(const key_values *given)
{
    return given->given[RESISTANCE] ? hypot(RESISTANCE_U, 0.1) : 0.4;
}

static void temperature(const char *name, const char *words, double degc, double rise_u,
                        const char *source, pare_answer *answer)
{
    pare_answer_add(answer, name, words, "degC", degc);
    if (isfinite(degc))
        pare_answer_doubt(answer, rise_u, PARE_ESTIMATED, source);
}

/* From where it has settled, or from the air where it does not. */
static pare_status burst_of(const key_values *given, const esc *e, const pare_board_load *load,
                            double from_degc, pare_answer *answer, pare_error *err)
{
    const double *v = given->value;
    pare_board_load burst = *load;
    double seconds, degc;
    burst.current_a = given->given[BURST] ? v[BURST] : v[CURRENT];
    pare_status status = pare_board_until(&e->board, &burst, from_degc, v[LIMIT], &seconds, err);
    if (status == PARE_OK)
        status = pare_board_after(&e->board, &burst, from_degc, v[BURST_FOR], &degc, err);
    if (status != PARE_OK)
        return status;
    const bool burns = degc >= BURNT_DEGC;
    temperature("burst_c", "board after the burst", burns ? (double)NAN : degc,
                e->doubt.burst * (degc - load->ambient_degc), e->source, answer);
    if (burns)
        pare_answer_note(answer, "a burst of %g A burns it within %g s", burst.current_a,
                         v[BURST_FOR]);
    pare_answer_add(answer, "burst_s", "burst until the limit", "s",
                    isfinite(seconds) ? seconds : (double)NAN);
    if (isfinite(seconds))
        pare_answer_doubt(answer, e->doubt.burst * seconds, PARE_ESTIMATED, e->source);
    else
        pare_answer_note(answer, "a burst of %g A never takes it to %g degC", burst.current_a,
                         v[LIMIT]);
    if (given->given[BURST_FOR] && isfinite(seconds)) {
        pare_answer_add(answer, "burst_margin", "that over the burst's stated seconds", "",
                        seconds / v[BURST_FOR]);
        pare_answer_doubt(answer, e->doubt.burst * seconds / v[BURST_FOR], PARE_ESTIMATED,
                          e->source);
    }
    return PARE_OK;
}

static pare_status answer_of(const key_values *given, pare_units *units, pare_answer *answer,
                             pare_error *err)
{
    (void)units;
    const double *v = given->value;
    esc e = {.source = ""};
    const pare_board_load load = {v[CURRENT], v[VOLTS], v[AMBIENT], 101325, v[FLOW]};
    pare_board_heat heat = {(double)NAN, (double)NAN};
    pare_status status = board_of(given, &e, answer, err);
    if (status != PARE_OK)
        return status;
    const bool settles = pare_board_steady(&e.board, &load, &heat, NULL) == PARE_OK;
    pare_answer_add(answer, "loss_w", "lost in it, all motors", "W",
                    settles ? heat.loss_w : pare_board_loss_w(&e.board, &load, v[LIMIT]));
    pare_answer_doubt(answer, loss_u(given) * answer->row[answer->rows - 1].value[0],
                      PARE_ESTIMATED, e.source);
    temperature("steady_c", "board, settled", heat.degc, e.doubt.settled * (heat.degc - v[AMBIENT]),
                e.source, answer);
    if (!settles)
        pare_answer_note(answer, "held without end, this current burns it");
    if (settles && heat.degc > v[AMBIENT]) {
        const double margin = (v[LIMIT] - v[AMBIENT]) / (heat.degc - v[AMBIENT]);
        pare_answer_add(answer, "heat_margin", "rise that it bears over that", "", margin);
        pare_answer_doubt(answer, e.doubt.settled * fabs(margin), PARE_ESTIMATED, e.source);
    }
    if (given->given[CONTINUOUS] && v[CURRENT] > 0)
        pare_answer_add(answer, "continuous_margin", "continuous rating over the current", "",
                        v[CONTINUOUS] / v[CURRENT]);
    const double from = settles && given->given[BURST] ? heat.degc : v[AMBIENT];
    status = burst_of(given, &e, &load, fmin(from, v[LIMIT]), answer, err);
    pare_answer_note(answer,
                     "air of %g m/s along the board; some 5 m/s in a stack, 10 on an arm, none on "
                     "the bench: it burns fingers",
                     v[FLOW]);
    return status;
}

const calc_thing calc_esc = {"esc", sizeof keys / sizeof keys[0], keys, answer_of};
