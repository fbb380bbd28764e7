/* curve_words.c: what each curve is called and in which units it is shown (see curve_words.h). */
#include "show/curve_words.h"

#define MASS   {"all_up_g", "all-up mass", "g", 1e3}
#define SPEED  {"speed_m_s", "speed", "m/s", 1}
#define CHARGE {"charge_percent", "charge left", "%", 100}

const pare_curve_row pare_curve_table[PARE_CURVES] = {
    [PARE_CURVE_MINUTES] = {"minutes",
                            "your minutes, by mass",
                            MASS,
                            {"flown_min", "minutes", "min", 1.0 / 60},
                            true,
                            PARE_FLOWN_TIME},
    [PARE_CURVE_CURRENT] = {"current",
                            "current in level flight",
                            SPEED,
                            {"pack_a", "pack current", "A", 1},
                            true,
                            PARE_HOVER_A},
    [PARE_CURVE_POWER] = {"power",
                          "power in level flight",
                          SPEED,
                          {"pack_w", "pack power", "W", 1},
                          true,
                          PARE_HOVER_W},
    [PARE_CURVE_THRUST] = {"thrust",
                           "full thrust over weight",
                           CHARGE,
                           {"thrust_to_weight", "thrust to weight", "", 1},
                           true,
                           PARE_TWR_HALF},
    [PARE_CURVE_VOLTS] =
        {"volts", "volts of a cell", CHARGE, {"cell_v", "cell", "V", 1}, false, PARE_FIGURES},
};

double pare_curve_u_share(const pare_sheet *sheet, pare_curve_of which)
{
    const pare_figure f = pare_curve_table[which].figure;
    if (f == PARE_FIGURES || !sheet->figure[f].exists || !(sheet->figure[f].value > 0))
        return 0;
    return sheet->figure[f].u / sheet->figure[f].value;
}
