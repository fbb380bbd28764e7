/* margin_esc.c: how warm the ESC's board gets (see margin_inside.h).
 *
 * Currents are the flight's own; resistance and heat capacity are the maker's where stated, else estimates
 * by the board's mass, as its cooling always is (craft/board.h, physics/esc_heat.h), and so is the air: in a stack half of what the rotors draw down in
 * hover passes it, on an arm all of it. Flying forwards cools it more, a closed canopy less. */
#include "craft/margin_inside.h"

#include <math.h>

#include "craft/board.h"
#include "craft/flight.h"

#define PI          3.14159265358979323846
#define GRAVITY     9.80665
#define STACK_SHARE 0.5
#define STEP        0.01 /* of a current, for what it does to the heat */

static double flow_m_s(const pare_craft *craft, const pare_item *esc, const pare_sheet *sheet)
{
    const pare_rig *rig = &sheet->rig;
    const int propeller = pare_craft_doing(craft, PARE_PROPELLER);
    if (propeller < 0)
        return 0;
    const double across_m = craft->item[propeller].part->spec[PARE_SPEC_DIAMETER].value;
    const double disc_m2 = rig->rotors * PI / 4 * across_m * across_m;
    const double down_m_s = sqrt(rig->mass_kg * GRAVITY / (2 * rig->air.density_kg_m3 * disc_m2));
    return esc->place == PARE_AT_ARMS ? down_m_s : STACK_SHARE * down_m_s;
}

/* One that burns is far past any limit. */
#define BURNT_DEGC 1000.0

/* Settled at the rms, and after a burst on top. */
static void heat_of(const pare_board *board, const pare_board_load *air, double rms_a,
                    double full_a, double *settled_degc, double *burst_degc)
{
    pare_board_load load = *air;
    pare_board_heat held;
    load.current_a = rms_a;
    *settled_degc = *burst_degc = BURNT_DEGC;
    if (pare_board_steady(board, &load, &held, NULL) != PARE_OK)
        return;
    *settled_degc = held.degc;
    load.current_a = full_a;
    pare_board_after(board, &load, held.degc, PARE_BURST_S, burst_degc, NULL);
}

/* What is stated of it; settled, its heat capacity does not count. */
static const char *from(const pare_value *resistance, const pare_value *heat_capacity, bool burst)
{
    if (!burst)
        return resistance->given
                   ? "an ESC's board at the rms as flown; its switches as stated by the maker, "
                     "what cools it an estimate by its mass"
                   : "an ESC's board at the rms as flown; its switches, heat and "
                     "air are estimates by its mass";
    if (resistance->given && heat_capacity->given)
        return "an ESC's board after 3 s of full throttle on top of the rms; its switches and heat "
               "as stated by the maker, what cools it an estimate by its mass";
    if (resistance->given)
        return "an ESC's board after 3 s of full throttle on top of the rms; its switches as "
               "stated by the maker, heat and air estimates by its mass";
    if (heat_capacity->given)
        return "an ESC's board after 3 s of full throttle on top of the rms; its heat as stated by "
               "the maker, switches and air estimates by its mass";
    return "an ESC's board after 3 s of full throttle on top of the rms; its switches, heat "
           "and air are estimates by its mass";
}

void pare_esc_heat_margins(const pare_craft *craft, const pare_sheet_figure *motor_rms,
                           pare_sheet *sheet)
{
    const pare_rig *rig = &sheet->rig;
    const int four = pare_craft_doing(craft, PARE_ESC_FOUR);
    const int esc = four >= 0 ? four : pare_craft_doing(craft, PARE_ESC_ONE);
    const pare_sheet_figure *full = &sheet->figure[PARE_MOTOR_FULL_A];
    pare_board board;
    double made_for_a;
    if (esc < 0 || !motor_rms->exists || !full->exists ||
        !pare_part_board(craft->item[esc].part, &board, &made_for_a))
        return;
    const pare_value *spec = craft->item[esc].part->spec;
    const pare_board_doubt doubt =
        pare_board_doubt_of(&spec[PARE_SPEC_RESISTANCE], &spec[PARE_SPEC_HEAT]);
    const double air_degc = rig->air.temperature_degc;
    const pare_board_load air = {.volts_v = pare_pack_open_v(&rig->pack, PARE_CHARGE_HALF),
                                 .ambient_degc = air_degc,
                                 .pressure_pa = rig->air.pressure_pa,
                                 .flow_m_s = flow_m_s(craft, &craft->item[esc], sheet)};
    double settled, burst, settled_u = 0, burst_u = 0;
    heat_of(&board, &air, motor_rms->value, full->value, &settled, &burst);
    if (sheet->with_u && burst < BURNT_DEGC) {
        double up, up_burst, full_settled, full_burst;
        heat_of(&board, &air, motor_rms->value * (1 + STEP), full->value, &up, &up_burst);
        heat_of(&board, &air, motor_rms->value, full->value * (1 + STEP), &full_settled,
                &full_burst);
        settled_u = pare_together_share_u(sheet, PARE_TOGETHER_MOTOR, (up - settled) / STEP, 0);
        burst_u = pare_together_share_u(sheet, PARE_TOGETHER_MOTOR, (up_burst - burst) / STEP,
                                        (full_burst - burst) / STEP);
    }
    const pare_bound flown = {.value = settled,
                              .figures_u = settled_u,
                              .own_share = doubt.settled,
                              .limit = PARE_BOARD_DEGC,
                              .limit_u = PARE_BOARD_U,
                              .from_zero = air_degc,
                              .unit = "C",
                              .from =
                                  from(&spec[PARE_SPEC_RESISTANCE], &spec[PARE_SPEC_HEAT], false)};
    pare_margin_add(sheet, &flown, "esc.heat", NULL);
    const pare_bound after = {
        .value = burst,
        .figures_u = burst_u,
        .own_share = doubt.burst,
        .limit = PARE_BOARD_DEGC,
        .limit_u = PARE_BOARD_U,
        .from_zero = air_degc,
        .unit = "C",
        .from = from(&spec[PARE_SPEC_RESISTANCE], &spec[PARE_SPEC_HEAT], true),
        .caution = "an ESC that burns stops a motor in the air and may set the pack's lead on "
                   "fire"};
    pare_margin_add(sheet, &after, "esc.heat_burst", NULL);
}
