/* board.h: the ESC that is on a craft, as a board that warms. */
#ifndef PARE_CRAFT_BOARD_H
#define PARE_CRAFT_BOARD_H

#include "craft/craft.h"
#include "physics/esc_heat.h"

/** What an ESC's board bears: switches take 150 degC, run some kelvin hotter than the board and share
 * it with what takes less. Common practice, no source. */
#define PARE_BOARD_DEGC 110.0
#define PARE_BOARD_U    10.0

/** The current a motor that a board of that mass is made for: one motor's ESC or a four-in-one. */
double pare_esc_made_for_a(bool four, double mass_kg);

/** What it is made for by its mass, the law of its kind turned round: a rating on a label does not enter.
 * A resistance or heat capacity that the part states goes before the estimate.
 * @return false for a part that does no ESC's work */
bool pare_part_board(const pare_part *part, pare_board *board, double *made_for_a);

/** How far off the rises of such a board may be, shares: settled, and after a burst. Switches to a third and
 * more, cooling and heat capacity to a quarter [E], unless the part states them. */
typedef struct pare_board_doubt {
    double settled, burst;
} pare_board_doubt;
pare_board_doubt pare_board_doubt_of(const pare_value *resistance, const pare_value *heat_capacity);

#endif
