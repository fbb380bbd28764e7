/* sheet_view.c: what a sheet's answer shows (see sheet_view.h). */
#include "show/sheet_view.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/mass_change.h"
#include "craft/curve.h"
#include "craft/flight.h"

static void compare_with_before(pare_sheet_view *view)
{
    const bool then = view->tried || view->against_first;
    const double change_u_kg =
        then ? pare_mass_change_u_kg(&view->craft_before, &view->before.assembly, &view->craft,
                                     &view->sheet.assembly)
             : 0;
    pare_craft_crash(&view->craft, &view->sheet, then ? &view->craft_before : NULL,
                     then ? &view->before : NULL, change_u_kg, &view->crash);
    view->radios = pare_craft_radios(&view->craft, PARE_RADIOS, view->radio);
    view->radios_before =
        then ? pare_craft_radios(&view->craft_before, PARE_RADIOS, view->radio_before) : 0;
}

pare_status pare_sheet_view_against_first(const pare_craft *first, int loadout,
                                          pare_sheet_view *view, pare_error *err)
{
    if (view->tried || view->taken.on == 0)
        return PARE_OK;
    pare_status status = pare_craft_load(first, loadout, &view->craft_before, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(&view->craft_before, false, &view->before, err);
    if (status != PARE_OK)
        return status;
    view->against_first = true;
    compare_with_before(view);
    return PARE_OK;
}

pare_status pare_sheet_view_fill(const pare_craft *craft, const pare_craft *before, int loadout,
                                 const char *tried, pare_sheet_view *view, pare_error *err)
{
    view->tried = tried;
    view->taken = (pare_taken_facts){0};
    view->loadout = loadout >= 0 ? craft->loadout[loadout].name : NULL;
    pare_status status = pare_craft_load(craft, loadout, &view->craft, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(&view->craft, true, &view->sheet, err);
    if (status == PARE_OK && tried) {
        status = pare_craft_load(before, loadout, &view->craft_before, err);
        if (status == PARE_OK)
            status = pare_sheet_compute(&view->craft_before, false, &view->before, err);
    }
    if (status == PARE_OK)
        status = pare_sheet_exchange(&view->craft, &view->sheet, &view->exchange, err);
    if (status != PARE_OK)
        return status;
    pare_craft_power(&view->craft, &view->sheet, view->power);
    pare_craft_balance(&view->craft, &view->sheet, &view->balance);
    view->against_first = false;
    compare_with_before(view);
    view->arms_known = pare_craft_arm_facts(&view->craft, &view->sheet, &view->arms);
    const pare_landing landing =
        pare_brief_landing(&view->craft.brief, view->sheet.rig.pack.chemistry);
    pare_error why = {0};
    view->growth_known =
        pare_rig_growth(&view->sheet.rig, &landing, &view->growth, &why) == PARE_OK;
    snprintf(view->growth_why, sizeof view->growth_why, "%.*s", (int)sizeof view->growth_why - 1,
             view->growth_known ? "" : why.text);
    const pare_limit *limit = pare_brief_limit(&view->craft.brief, "all_up");
    const bool limited = limit && !limit->at_least;
    view->limit_kg = limited ? limit->value : (double)NAN;
    view->flown_at_limit_s =
        limited ? pare_flown_s_at(&view->craft, &view->sheet, limit->value, NULL) : (double)NAN;
    return PARE_OK;
}

const char *pare_margin_words(const pare_margin *margin, char text[64])
{
    static const struct {
        const char *name, *words;
    } known[] = {{"limit.margin", "least margin of all ratings"},
                 {"esc.continuous", "ESC current as flown"},
                 {"esc.burst", "ESC current in a burst"},
                 {"motor.continuous", "motor current as flown"},
                 {"motor.burst", "motor current in a burst"},
                 {"motor.winding", "motor winding as flown"},
                 {"pack.heat", "pack after a flight"},
                 {"motor.winding_burst", "motor winding, burst"},
                 {"pack.sag", "a cell's volts at full throttle"},
                 {"pack.landing", "cell volts at landing"},
                 {"esc.heat", "ESC board as flown"},
                 {"esc.heat_burst", "ESC board in a burst"},
                 {"esc.spike", "ESC volts when cut"},
                 {"capacitor.spike", "capacitor when cut"},
                 {"connector.continuous", "connector as flown"},
                 {"connector.burst", "connector in a burst"},
                 {"connector.heat", "connector heat, flown"},
                 {"connector.heat_burst", "connector heat, burst"},
                 {"arm.ring", "arm against the rotor's turns"},
                 {"arm.ring_cruise", "arm against cruise turns"},
                 {"arm.bends", "arm's bend at full throttle"},
                 {"arm.stress", "arm at full throttle"}};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        if (strcmp(known[i].name, margin->name) == 0)
            return known[i].words;
    if (strncmp(margin->name, "limit.", 6) == 0) {
        const int figure = pare_figure_of_limit(margin->name + 6);
        if (figure >= 0)
            return pare_figure_table[figure].words;
    }
    if (strncmp(margin->name, "volts.", 6) == 0)
        snprintf(text, 64, "volts on %.48s", margin->name + 6);
    else if (strncmp(margin->name, "volts_low.", 10) == 0)
        snprintf(text, 64, "least volts for %.44s", margin->name + 10);
    else if (strncmp(margin->name, "wire_joint.", 11) == 0)
        snprintf(text, 64, "%.37s's solder as flown", margin->name + 11);
    else if (strncmp(margin->name, "joint_flight.", 13) == 0)
        snprintf(text, 64, "%.40s at full throttle", margin->name + 13);
    else if (strncmp(margin->name, "joint_crash.", 12) == 0)
        snprintf(text, 64, "%.40s in a crash", margin->name + 12);
    else if (strncmp(margin->name, "screw_depth.", 12) == 0)
        snprintf(text, 64, "%.40s to the winding", margin->name + 12);
    else if (strncmp(margin->name, "screw_grip.", 11) == 0)
        snprintf(text, 64, "%.40s in its thread", margin->name + 11);
    else if (strncmp(margin->name, "wire_burst.", 11) == 0)
        snprintf(text, 64, "%.37s after a burst", margin->name + 11);
    else if (strncmp(margin->name, "wire_drop.", 10) == 0)
        snprintf(text, 64, "volts lost in %.40s", margin->name + 10);
    else
        snprintf(text, 64, "%.48s", margin->name);
    return text;
}

size_t pare_limits_broken(const pare_sheet *sheet)
{
    size_t broken = 0;
    for (size_t i = 0; i < sheet->margins; i++)
        broken +=
            strncmp(sheet->margin[i].name, "limit.", 6) == 0 && !(sheet->margin[i].ratio >= 1);
    return broken;
}
