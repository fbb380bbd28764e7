/* figure.c: the table of figures (see figure.h). */
#include "craft/figure.h"

#include "base/text.h"

#define RPM_PER_RAD_S 9.549296585513721 /* 60 / 2 pi */

const pare_figure_row pare_figure_table[PARE_FIGURES] = {
    [PARE_ALL_UP] = {"all_up_g", "all_up", "all-up mass", "g", PARE_DIM_MASS, 1e3, -1},
    [PARE_DRY] = {"dry_g", "dry", "dry mass (no pack)", "g", PARE_DIM_MASS, 1e3, -1},
    [PARE_MONEY] = {"money", "money", "money in the craft", "", PARE_DIM_MONEY, 1, -1},
    [PARE_CG_X] = {"cg_x_mm", NULL, "centre of mass, forward", "mm", PARE_DIM_LENGTH, 1e3, 0},
    [PARE_CG_Y] = {"cg_y_mm", NULL, "centre of mass, left", "mm", PARE_DIM_LENGTH, 1e3, 0},
    [PARE_CG_Z] = {"cg_z_mm", NULL, "centre of mass, up", "mm", PARE_DIM_LENGTH, 1e3, 0},
    [PARE_IXX] = {"ixx_kg_m2", NULL, "roll inertia", "kg m2", PARE_DIM_NUMBER, 1, -1},
    [PARE_IYY] = {"iyy_kg_m2", NULL, "pitch inertia", "kg m2", PARE_DIM_NUMBER, 1, -1},
    [PARE_IZZ] = {"izz_kg_m2", NULL, "yaw inertia", "kg m2", PARE_DIM_NUMBER, 1, -1},
    [PARE_IXY] = {"ixy_kg_m2", NULL, "product of inertia xy", "kg m2", PARE_DIM_NUMBER, 1, 0},
    [PARE_IXZ] = {"ixz_kg_m2", NULL, "product of inertia xz", "kg m2", PARE_DIM_NUMBER, 1, 0},
    [PARE_IYZ] = {"iyz_kg_m2", NULL, "product of inertia yz", "kg m2", PARE_DIM_NUMBER, 1, 0},
    [PARE_PACK_SHIFT] = {"pack_shift_mm", "pack_shift", "pack shift to balance", "mm",
                         PARE_DIM_LENGTH, 1e3, 0},
    [PARE_HOVER_OUTPUT] = {"hover_output", "hover_output", "hover output", "", PARE_DIM_SHARE, 1,
                           -1},
    [PARE_HOVER_A] = {"hover_a", "hover_a", "hover current", "A", PARE_DIM_CURRENT, 1, -1},
    [PARE_HOVER_W] = {"hover_w", "hover_w", "hover power", "W", PARE_DIM_POWER, 1, -1},
    [PARE_HOVER_W_KG] = {"hover_w_kg", NULL, "hover power by mass", "W/kg", PARE_DIM_NUMBER, 1, -1},
    [PARE_HOVER_RPM] = {"hover_rpm", NULL, "rotor speed in hover", "rpm", PARE_DIM_ROTATION,
                        RPM_PER_RAD_S, 0},
    [PARE_IDLE_TWR] = {"idle_thrust_to_weight", NULL, "thrust to weight, idling", "",
                       PARE_DIM_NUMBER, 1, -1},
    [PARE_GUST] = {"gust_m_s2", NULL, "pushed by a gust of 5 m/s", "m/s2", PARE_DIM_ACCELERATION, 1,
                   -1},
    [PARE_HOVER_TIME] = {"hover_min", "hover", "hover time", "min", PARE_DIM_TIME, 1.0 / 60, 1},
    [PARE_CRUISE_TIME] = {"cruise_min", "cruise", "time at best-range speed", "min", PARE_DIM_TIME,
                          1.0 / 60, 1},
    [PARE_FLOWN_TIME] = {"flown_min", "flown", "your minutes", "min", PARE_DIM_TIME, 1.0 / 60, 1},
    [PARE_FLOWN_A] = {"flown_a", NULL, "mean current as flown", "A", PARE_DIM_CURRENT, 1, -1},
    [PARE_FLOWN_RMS_A] = {"flown_rms_a", NULL, "rms current as flown", "A", PARE_DIM_CURRENT, 1,
                          -1},
    [PARE_FLOWN_MOTOR_A] = {"flown_motor_a", NULL, "a motor's rms current as flown", "A",
                            PARE_DIM_CURRENT, 1, -1},
    [PARE_WINDING] = {"winding_degc", NULL, "winding, at that rms", "C", PARE_DIM_TEMPERATURE, 1,
                      -1},
    [PARE_PACK_WARMTH] = {"pack_degc", NULL, "pack, all its charge so flown", "C",
                          PARE_DIM_TEMPERATURE, 1, -1},
    [PARE_LANDING_CELL_V] = {"landing_cell_v", NULL, "cell, hardest load at landing", "V",
                             PARE_DIM_VOLTAGE, 1, 1},
    [PARE_CRUISE_RPM] = {"cruise_rpm", NULL, "rotor speed in your cruise", "rpm", PARE_DIM_ROTATION,
                         RPM_PER_RAD_S, 0},
    [PARE_BEST_RANGE] = {"best_range_m", "best_range", "best range", "m", PARE_DIM_LENGTH, 1, 1},
    [PARE_BEST_RANGE_SPEED] = {"best_range_speed_m_s", NULL, "best-range speed", "m/s",
                               PARE_DIM_SPEED, 1, 0},
    [PARE_THRUST_FRESH] = {"thrust_fresh_n", NULL, "full thrust, fresh pack", "N", PARE_DIM_FORCE,
                           1, 1},
    [PARE_TWR_FRESH] = {"thrust_to_weight_fresh", "thrust_to_weight_fresh",
                        "thrust to weight, fresh", "", PARE_DIM_NUMBER, 1, 1},
    [PARE_TWR_HALF] = {"thrust_to_weight_half", "thrust_to_weight_half", "thrust to weight, half",
                       "", PARE_DIM_NUMBER, 1, 1},
    [PARE_TWR_LANDING] = {"thrust_to_weight_landing", "thrust_to_weight_landing",
                          "thrust to weight, landing", "", PARE_DIM_NUMBER, 1, 1},
    [PARE_FULL_A] = {"full_a", "full_a", "pack current at full throttle", "A", PARE_DIM_CURRENT, 1,
                     -1},
    [PARE_MOTOR_FULL_A] = {"motor_full_a", "motor_full_a", "motor current at full throttle", "A",
                           PARE_DIM_CURRENT, 1, -1},
    [PARE_FULL_CELL_V] = {"full_cell_v", NULL, "cell, full throttle, half pack", "V",
                          PARE_DIM_VOLTAGE, 1, 1},
    [PARE_BURST] = {"burst_30m_s", "burst_30m", "30 m straight up", "s", PARE_DIM_TIME, 1, -1},
    [PARE_TURN] = {"turn_g", "turn", "sustained turn at 12 m/s", "g", PARE_DIM_NUMBER, 1, 1},
    [PARE_CLIMB] = {"climb_m_s", "climb", "fastest climb", "m/s", PARE_DIM_SPEED, 1, 1},
    [PARE_TOP_SPEED] = {"top_speed_m_s", "top_speed", "top speed", "m/s", PARE_DIM_SPEED, 1, 1},
    [PARE_ROLL] = {"roll_rad_s2", "roll", "roll acceleration", "rad/s2", PARE_DIM_NUMBER, 1, 1},
    [PARE_PITCH] = {"pitch_rad_s2", "pitch", "pitch acceleration", "rad/s2", PARE_DIM_NUMBER, 1, 1},
    [PARE_YAW] = {"yaw_rad_s2", "yaw", "yaw acceleration", "rad/s2", PARE_DIM_NUMBER, 1, 1},
    [PARE_ROTOR_LAG] = {"rotor_lag_s", NULL, "rotor lag", "s", PARE_DIM_TIME, 1, -1},
    [PARE_CRASH] = {"crash_j", "crash", "crash energy", "J", PARE_DIM_ENERGY, 1, -1},
    [PARE_PACK_ENERGY] = {"pack_energy_wh", "pack_energy", "pack energy", "Wh", PARE_DIM_ENERGY,
                          1.0 / 3600, 1},
    [PARE_AIR_DENSITY] = {"air_density_kg_m3", NULL, "air density", "kg/m3", PARE_DIM_DENSITY, 1,
                          0},
    [PARE_DENSITY_ALTITUDE] = {"density_altitude_m", NULL, "density altitude", "m", PARE_DIM_LENGTH,
                               1, 0},
};

int pare_figure_of_limit(const char *stem)
{
    for (int i = 0; i < PARE_FIGURES; i++)
        if (pare_figure_table[i].stem && pare_same_name(pare_figure_table[i].stem, stem))
            return i;
    return -1;
}

size_t pare_figure_limit_names(size_t most, const char *names[])
{
    size_t count = 0;
    for (int i = 0; i < PARE_FIGURES && count < most; i++)
        if (pare_figure_table[i].stem)
            names[count++] = pare_figure_table[i].stem;
    return count;
}
