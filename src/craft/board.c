/* board.c: see board.h. The laws of mass are straight lines in the current, so two points turn them
 * round. A board far too light for its label is then taken for the smaller one that it weighs like. */
#include "craft/board.h"

#include <math.h>

#include "craft/law.h"

#define LEAST_A 1.0
#define MOST_A  400.0

static double law_kg(const pare_part *part, bool four, double current_a)
{
    if (pare_part_does(part, PARE_FLIGHT_CONTROLLER) || part->kind == PARE_CONTROLLER_WITH_ESC)
        return pare_law_controller_with_esc_kg(current_a).value;
    return four
               ? pare_law_esc_four_kg(current_a, pare_fit_largest(&part->fit[PARE_FIT_STACK])).value
               : pare_law_esc_one_kg(current_a).value;
}

static double made_for(double mass_kg, double none_kg, double one_kg)
{
    return fmin(fmax((mass_kg - none_kg) / (one_kg - none_kg), LEAST_A), MOST_A);
}

double pare_esc_made_for_a(bool four, double mass_kg)
{
    return four ? made_for(mass_kg, pare_law_esc_four_kg(0, 0).value,
                           pare_law_esc_four_kg(1, 0).value)
                : made_for(mass_kg, pare_law_esc_one_kg(0).value, pare_law_esc_one_kg(1).value);
}

bool pare_part_board(const pare_part *part, pare_board *board, double *made_for_a)
{
    const bool four = pare_part_does(part, PARE_ESC_FOUR);
    if (!four && !pare_part_does(part, PARE_ESC_ONE))
        return false;
    *made_for_a = made_for(part->mass_kg.value, law_kg(part, four, 0), law_kg(part, four, 1));
    if (pare_board_estimate(four ? 4 : 1, *made_for_a, part->mass_kg.value, board, NULL) != PARE_OK)
        return false;
    const pare_value *resistance = &part->spec[PARE_SPEC_RESISTANCE];
    const pare_value *heat_capacity = &part->spec[PARE_SPEC_HEAT];
    if (resistance->given)
        board->on_ohm = resistance->value;
    if (heat_capacity->given)
        board->heat_j_k = heat_capacity->value;
    return true;
}

/* Shares of a rise [E]. What a stated resistance leaves open is switching and idling. */
#define ESTIMATED_U     0.45
#define SWITCHES_U      0.35
#define OTHER_LOSS_U    0.10
#define COOLING_U       0.28
#define BURST_COOLING_U 0.15
#define BURST_HEAT_U    0.24

static double share_u(const pare_value *stated, double more_u, double estimate_u)
{
    return stated->given ? hypot(stated->u / stated->value, more_u) : estimate_u;
}

pare_board_doubt pare_board_doubt_of(const pare_value *resistance, const pare_value *heat_capacity)
{
    pare_board_doubt doubt = {ESTIMATED_U, ESTIMATED_U};
    const double switches_u = share_u(resistance, OTHER_LOSS_U, SWITCHES_U);
    if (resistance->given)
        doubt.settled = hypot(switches_u, COOLING_U);
    if (resistance->given || heat_capacity->given)
        doubt.burst =
            hypot(switches_u, hypot(BURST_COOLING_U, share_u(heat_capacity, 0, BURST_HEAT_U)));
    return doubt;
}
