/* wires.c: power wires by gauge (see wires.h). Degrees are known to the 15 % of a rise that the laws of
 * convection are good for; seconds and thrust are differences of one flight, where errors cancel. */
#include "show/wires.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "craft/gauges.h"
#include "show/digits.h"
#include "show/json.h"

enum { AWG = 8, GRAMS = 7, DEGREES = 8, VOLTS = 7, SECONDS = 8, THRUST = 9 };
enum { TABLE = 4 + AWG + GRAMS + 2 * DEGREES + VOLTS + SECONDS + THRUST, LEAST_WORDS = 16 };

static void put_row(const pare_in_gauge *row, double air_degc, const pare_screen *screen,
                    pare_text *out)
{
    char text[PARE_DIGITS], field[64], words[64];
    snprintf(field, sizeof field, "%g%s", row->gauge, row->now ? " now" : "");
    pare_text_add(out, "    ");
    pare_put_left(out, field, AWG);
    pare_put_right(out, pare_digits_at(text, 1e3 * row->run_kg, 1), GRAMS);
    const double degrees[] = {row->flown_degc, row->burst_degc};
    for (int i = 0; i < 2; i++)
        pare_put_right(out,
                       pare_digits(text, degrees[i], PARE_CONVECTION_U * (degrees[i] - air_degc)),
                       DEGREES);
    pare_put_right(out, pare_digits_at(text, row->lost_v, 2), VOLTS);
    pare_put_right(out, isfinite(row->time_s) ? pare_digits_change(text, row->time_s, 2, 1) : "-",
                   SECONDS);
    snprintf(field, sizeof field, "%s %%",
             isfinite(row->thrust) ? pare_digits_change(text, 100 * row->thrust, 2, 2) : "-");
    pare_put_right(out, field, THRUST);
    if (row->holds) {
        pare_text_add(out, "\n");
        return;
    }
    pare_margin broken = {.unit = ""};
    memcpy(broken.name, row->broken, sizeof broken.name);
    const bool beside = screen->width >= TABLE + 2 + LEAST_WORDS;
    const int at = beside ? TABLE + 2 : 6;
    pare_text_add(out, beside ? "  " : "\n      ");
    pare_put_wrapped(screen, out, at, at, pare_margin_words(&broken, words));
}

static void put_names(const pare_screen *screen, pare_text *out)
{
    pare_text_add(out, "    ");
    pare_put_left(out, "AWG", AWG);
    pare_put_right(out, "grams", GRAMS);
    pare_put_right(out, "flown C", DEGREES);
    pare_put_right(out, "burst C", DEGREES);
    pare_put_right(out, "lost V", VOLTS);
    pare_put_right(out, "flown s", SECONDS);
    pare_put_right(out, "thrust", THRUST);
    pare_text_add(out, screen->width >= TABLE + 2 + LEAST_WORDS ? "  breaks\n" : "\n");
}

static void put_end(const pare_gauges *gauges, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    pare_text line = {0};
    if (gauges->thinnest > 0)
        pare_text_printf(&line, "The thinnest that breaks nothing is AWG %g. ", gauges->thinnest);
    else
        pare_text_add(&line, "None of these breaks nothing. ");
    if (gauges->needed_m > 0 && gauges->needed_m < gauges->longest_m - 0.5e-3)
        pare_text_printf(&line, "%.0f mm a way would reach. ", 1e3 * gauges->needed_m);
    if (isfinite(gauges->costs_s) && isfinite(gauges->costs_thrust)) {
        pare_text_printf(&line, "As it is, it costs %s s",
                         pare_digits_at(text, gauges->costs_s, 1));
        pare_text_printf(&line, " of your minutes, %s by its resistance, and ",
                         pare_digits_at(text, gauges->costs_ohm_s, 1));
        pare_text_printf(&line, "%s %% of full thrust.",
                         pare_digits_at(text, 100 * gauges->costs_ohm_thrust, 1));
    }
    pare_put_line(screen, out, 4, 4, &line);
}

void pare_wires_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    pare_gauges_room *room = NULL;
    char field[96];
    for (size_t i = 0; i < view->craft.runs; i++) {
        const pare_run *run = &view->craft.run[i];
        pare_gauges gauges;
        if (!pare_run_of_power(&view->craft, run))
            continue;
        if (!room) {
            room = malloc(sizeof *room);
            pare_text_add(out, "\n");
            pare_put_heading(screen, out,
                             "Power wires by gauge: grams, degrees, volts lost, the change");
        }
        if (!room) {
            out->failed = true;
            return;
        }
        pare_craft_gauges(&view->craft, &view->sheet, i, room, &gauges);
        snprintf(field, sizeof field, "%.40s, %.0f mm a way", run->name, 1e3 * gauges.longest_m);
        pare_text_printf(out, "  %s\n", field);
        put_names(screen, out);
        for (size_t k = 0; k < gauges.count; k++)
            put_row(&gauges.row[k], view->sheet.rig.air.temperature_degc, screen, out);
        put_end(&gauges, screen, out);
    }
    if (room) {
        pare_text_add(out, "  ");
        pare_put_wrapped(screen, out, 2, 2,
                         "Flown: the hottest of the conductor with each entry of the flight in one "
                         "piece, in still air. Burst: 3 s of full throttle on top of the rms.");
    }
    free(room);
}

static json_t *row_object(const pare_in_gauge *row)
{
    json_t *one = json_object();
    json_object_set_new(one, "gauge", pare_json_number(row->gauge));
    json_object_set_new(one, "now", json_boolean(row->now));
    json_object_set_new(one, "wire_g", pare_json_number(1e3 * row->run_kg));
    json_object_set_new(one, "held_degc", pare_json_number(row->held_degc));
    json_object_set_new(one, "flown_degc", pare_json_number(row->flown_degc));
    json_object_set_new(one, "burst_degc", pare_json_number(row->burst_degc));
    json_object_set_new(one, "lost_v", pare_json_number(row->lost_v));
    json_object_set_new(one, "flown_change_s", pare_json_number(row->time_s));
    json_object_set_new(one, "thrust_change", pare_json_number(row->thrust));
    json_object_set_new(one, "holds", json_boolean(row->holds));
    json_object_set_new(one, "breaks", row->holds ? json_null() : json_string(row->broken));
    return one;
}

json_t *pare_wires_json(const pare_sheet_view *view)
{
    json_t *list = json_array();
    pare_gauges_room *room = malloc(sizeof *room);
    if (!room) {
        json_decref(list);
        return NULL;
    }
    for (size_t i = 0; i < view->craft.runs; i++) {
        pare_gauges gauges;
        if (!pare_run_of_power(&view->craft, &view->craft.run[i]))
            continue;
        pare_craft_gauges(&view->craft, &view->sheet, i, room, &gauges);
        json_t *one = json_object(), *rows = json_array(), *costs = json_object();
        for (size_t k = 0; k < gauges.count; k++)
            json_array_append_new(rows, row_object(&gauges.row[k]));
        json_object_set_new(one, "run", json_string(gauges.run->name));
        json_object_set_new(one, "now_gauge", pare_json_number(gauges.run->gauge));
        json_object_set_new(one, "thinnest_gauge",
                            gauges.thinnest > 0 ? pare_json_number(gauges.thinnest) : json_null());
        json_object_set_new(one, "longest_mm", pare_json_number(1e3 * gauges.longest_m));
        json_object_set_new(one, "needed_mm",
                            gauges.needed_m > 0 ? pare_json_number(1e3 * gauges.needed_m)
                                                : json_null());
        json_object_set_new(costs, "flown_s", pare_json_number(gauges.costs_s));
        json_object_set_new(costs, "flown_by_resistance_s", pare_json_number(gauges.costs_ohm_s));
        json_object_set_new(costs, "thrust", pare_json_number(gauges.costs_ohm_thrust));
        json_object_set_new(one, "costs", costs);
        json_object_set_new(one, "gauges", rows);
        json_array_append_new(list, one);
    }
    free(room);
    return list;
}
