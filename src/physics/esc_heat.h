/* esc_heat.h: how warm an ESC's board gets, held and in a burst. */
#ifndef PARE_PHYSICS_ESC_HEAT_H
#define PARE_PHYSICS_ESC_HEAT_H

#include "base/error.h"

/** A board as one lump that air flows along. */
typedef struct pare_board {
    int motors;             /* that it drives, 1 .. 8 */
    double on_ohm;          /* two switches in the path, at 25 degC */
    double switched;        /* share of the motors' current times volts that switching costs */
    double idle_a;          /* its own, for each motor */
    double heat_j_k;        /* what a kelvin takes */
    double area_m2, long_m; /* that air reaches; along the flow */
} pare_board;

/** What a board of that mass for motors of that current is like: an estimate.
 *
 * @param rated_a  current a motor that its copper and silicon are made for, 0.5 .. 500
 * @param mass_kg  of the board, 0.1 g .. 1 kg
 * @return PARE_BAD_DATA for anything else, with the range */
pare_status pare_board_estimate(int motors, double rated_a, double mass_kg, pare_board *board,
                                pare_error *err);

typedef struct pare_board_load {
    double current_a; /* of each motor, 0 .. 1000; every one carries the same */
    double volts_v;   /* of the pack, 0 .. 500 */
    double ambient_degc, pressure_pa;
    double flow_m_s; /* along the board; 0: still air */
} pare_board_load;

/** What the board loses at a temperature of its own. */
double pare_board_loss_w(const pare_board *board, const pare_board_load *load, double board_degc);

typedef struct pare_board_heat {
    double degc, loss_w; /* where it settles, and what it loses there */
} pare_board_heat;

/** Where it settles. @return PARE_BAD_DATA where it runs away, or for a load that cannot be */
pare_status pare_board_steady(const pare_board *board, const pare_board_load *load,
                              pare_board_heat *heat, pare_error *err);

/** After seconds of a load from a temperature. Held at 1000 degC, past any use. */
pare_status pare_board_after(const pare_board *board, const pare_board_load *load,
                             double start_degc, double seconds, double *degc, pare_error *err);

/** How long it takes from a temperature up to a limit; INFINITY: it never gets there. */
pare_status pare_board_until(const pare_board *board, const pare_board_load *load,
                             double start_degc, double limit_degc, double *seconds,
                             pare_error *err);

/** Convection off a plate that air flows along on both sides, or that lies level in still air,
 * whichever is more, W/(m2 K). */
double pare_plate_convection(double long_m, double plate_degc, double ambient_degc,
                             double pressure_pa, double flow_m_s);

#endif
