/* spec_show.c: specs and interfaces in the trade's units (see spec_show.h). */
#include "show/spec_show.h"

#include <stdio.h>
#include <string.h>

pare_shown_unit pare_unit_shown(pare_dimension dimension)
{
    static const pare_shown_unit units[PARE_DIMENSIONS] = {
        [PARE_DIM_SHARE] = {"", "", 1},
        [PARE_DIM_MASS] = {"g", "g", 1e3},
        [PARE_DIM_LENGTH] = {"mm", "mm", 1e3},
        [PARE_DIM_AREA] = {"cm2", "cm2", 1e4},
        [PARE_DIM_VOLUME] = {"cm3", "cm3", 1e6},
        [PARE_DIM_TIME] = {"s", "s", 1},
        [PARE_DIM_SPEED] = {"m/s", "m_s", 1},
        [PARE_DIM_VOLTAGE] = {"V", "v", 1},
        [PARE_DIM_CURRENT] = {"A", "a", 1},
        [PARE_DIM_POWER] = {"W", "w", 1},
        [PARE_DIM_CHARGE] = {"mAh", "mah", 1 / 3.6},
        [PARE_DIM_RESISTANCE] = {"mohm", "mohm", 1e3},
        [PARE_DIM_CAPACITANCE] = {"uF", "uf", 1e6},
        [PARE_DIM_HEAT] = {"J/K", "j_k", 1},
        [PARE_DIM_FREQUENCY] = {"GHz", "ghz", 1e-9},
        [PARE_DIM_GAIN] = {"dB", "db", 1},
        [PARE_DIM_KV] = {"rpm/V", "rpm_v", 1},
        [PARE_DIM_GAUGE] = {"AWG", "awg", 1},
    };
    pare_shown_unit shown = units[dimension];
    if (!shown.unit)
        shown = (pare_shown_unit){"", "", 1};
    return shown;
}

size_t pare_specs_shown(const pare_part *part, pare_spec_shown shown[])
{
    size_t count = 0;
    for (size_t i = 0; i < pare_spec_rows; i++) {
        const pare_spec_row *row = &pare_spec_table[i];
        const pare_value *value = &part->spec[row->spec];
        if (row->kind != part->kind || (!value->given && value->value == 0))
            continue;
        const pare_shown_unit unit = pare_unit_shown(row->dimension);
        const bool counted = row->dimension == PARE_DIM_COUNT;
        pare_spec_shown *last = count ? &shown[count - 1] : NULL;
        if (last && strcmp(last->name, row->name) == 0 && last->count == 1) {
            last->value[1] = unit.scale * value->value;
            last->u[1] = unit.scale * value->u;
            last->count = 2;
            continue;
        }
        shown[count++] = (pare_spec_shown){.name = row->name,
                                           .unit = unit,
                                           .counted = counted,
                                           .count = 1,
                                           .value = {unit.scale * value->value},
                                           .u = {unit.scale * value->u},
                                           .known = value->given ? value->known : PARE_ESTIMATED};
    }
    return count;
}

const char *pare_fit_shown(pare_fit_key key, const pare_fit *fit, char text[160])
{
    enum { SIZE = 160 };
    size_t length = 0;
    text[0] = '\0';
    for (size_t i = 0; i < fit->count; i++) {
        const double low = fit->any[i].low, high = fit->any[i].high;
        char one[64];
        if (fit->any[i].word)
            snprintf(one, sizeof one, "%.48s", fit->any[i].word);
        else if (key == PARE_FIT_CONNECTOR)
            snprintf(one, sizeof one, "%.4g A class", low);
        else if (key == PARE_FIT_CELLS && low == high)
            snprintf(one, sizeof one, "%.4g cell%s", low, low == 1 ? "" : "s");
        else if (key == PARE_FIT_CELLS)
            snprintf(one, sizeof one, "%.4g .. %.4g cells", low, high);
        else if (key == PARE_FIT_THREAD)
            snprintf(one, sizeof one, "M%.4g", 1e3 * low);
        else if (key == PARE_FIT_PROPELLER && low == high)
            snprintf(one, sizeof one, "%.3g in", low / 0.0254);
        else if (key == PARE_FIT_PROPELLER)
            snprintf(one, sizeof one, "%.3g in .. %.3g in", low / 0.0254, high / 0.0254);
        else if (low == high)
            snprintf(one, sizeof one, "%.4g mm", 1e3 * low);
        else
            snprintf(one, sizeof one, "%.4g mm .. %.4g mm", 1e3 * low, 1e3 * high);
        const int put = snprintf(text + length, SIZE - length, "%s%s", i ? " or " : "", one);
        if (put < 0 || (size_t)put >= SIZE - length)
            break;
        length += (size_t)put;
    }
    return text;
}
