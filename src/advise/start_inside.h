/* start_inside.h: the steps from answers to a craft. Only start*.c use it. */
#ifndef PARE_ADVISE_START_INSIDE_H
#define PARE_ADVISE_START_INSIDE_H

#include "advise/start.h"

/** Every size that a craft needs, and whether it was a guess. */
typedef struct pare_start_sizes {
    double propeller_m, pitch_m, stator_diameter_m, stator_length_m, kv_rpm_per_v;
    double capacity_c, wheelbase_m, esc_a;
    int blades, cells;
    pare_prop_line line;
    bool propeller_guessed, pitch_guessed, blades_guessed, stator_guessed, kv_guessed,
        cells_guessed, capacity_guessed, wheelbase_guessed;
} pare_start_sizes;

/** Fills the sizes that were not answered from those that were. */
pare_start_sizes pare_start_guess_sizes(const pare_start_answers *answers);

/** A number as text with so many significant digits, as pare_start_text() writes it; the number that
 * this text reads as. */
double pare_start_round(double value, int significant);

/** How long it hovers; 0: it does not. */
pare_status pare_start_hover(pare_craft *craft, double *hover_s, pare_arena *arena,
                             pare_error *err);

/** Sets the brief's flown mix so that the sheet's minutes are those. @param craft  settled */
pare_status pare_start_flown(pare_craft *craft, double flown_s, pare_arena *arena, pare_error *err);

#endif
