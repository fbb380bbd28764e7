/* start_flown.c: how hard somebody flies, from how long it lasts (see start.h).
 *
 * One number says how hard: from 0 to 1 the thrust of the hard 30 % of a flight rises from hover's to
 * more than full throttle gives, where it is held at full; from 1 to 2 the share of full throttle
 * rises to the whole. Both legs meet at 1 and the minutes only fall along the way, so one bracket
 * holds them all, hover to full throttle throughout. [E] 30 %: common practice, no source. */
#include <math.h>

#include "advise/start_inside.h"
#include "craft/sheet.h"

#define HARD_SHARE  0.30
#define WITHIN      5e-4 /* of the minutes */
#define THRUST_MOST 50.0 /* that a brief may say */
#define THRUST_ROOM 1.2  /* over full throttle's, fresh, so that it is held throughout */

enum { STEPS = 60 };

typedef struct flying {
    pare_craft *craft;
    pare_sheet *sheet;
    double most_thrust;
} flying;

/* Thousandths of weight and hundredths of a per cent: as they are written. */
static void put_flown(const flying *f, double hardness)
{
    pare_brief *brief = &f->craft->brief;
    const double more = fmax(hardness - 1, 0);
    const double share = round(1e4 * (HARD_SHARE + (1 - HARD_SHARE) * more)) / 1e4;
    const double thrust = 1 + fmin(hardness, 1) * (f->most_thrust - 1);
    brief->entries = 0;
    if (share < 1)
        brief->flown[brief->entries++] = (pare_flown){PARE_FLOWN_THRUST, 1 - share, 1};
    brief->flown[brief->entries++] =
        hardness > 1 ? (pare_flown){PARE_FLOWN_FULL, share, 1}
                     : (pare_flown){PARE_FLOWN_THRUST, share, round(1e3 * thrust) / 1e3};
}

/* Seconds at a hardness; 0 where it would land at once. */
static pare_status lasts(flying *f, double hardness, double *time_s, pare_error *err)
{
    put_flown(f, hardness);
    const pare_status status = pare_sheet_compute(f->craft, false, f->sheet, err);
    const pare_sheet_figure *flown = &f->sheet->figure[PARE_FLOWN_TIME];
    *time_s = status == PARE_OK && flown->exists ? flown->value : 0;
    return status;
}

static pare_status search(flying *f, double flown_s, pare_error *err)
{
    double low = 0, high = 2, time_s = 0;
    for (int i = 0; i < STEPS; i++) {
        const double middle = (low + high) / 2;
        const pare_status status = lasts(f, middle, &time_s, err);
        if (status != PARE_OK || fabs(time_s - flown_s) <= WITHIN * flown_s)
            return status;
        if (time_s > flown_s)
            low = middle;
        else
            high = middle;
    }
    double longer_s = 0, shorter_s = 0;
    pare_status status = lasts(f, low, &longer_s, err);
    if (status == PARE_OK)
        status = lasts(f, high, &shorter_s, err);
    if (status != PARE_OK)
        return status;
    return pare_fail(err, PARE_BAD_DATA,
                     "%.3g min said, but flown ever harder it lasts %.3g min, then at once %.3g "
                     "min: the pack's volts give in; check minutes and pack",
                     flown_s / 60, longer_s / 60, shorter_s / 60);
}

pare_status pare_start_hover(pare_craft *craft, double *hover_s, pare_arena *arena, pare_error *err)
{
    pare_sheet *sheet = pare_arena_zeros(arena, sizeof *sheet);
    if (!sheet)
        return pare_no_memory(err);
    const pare_status status = pare_sheet_compute(craft, false, sheet, err);
    const pare_sheet_figure *hover = &sheet->figure[PARE_HOVER_TIME];
    *hover_s = status == PARE_OK && hover->exists ? hover->value : 0;
    return status;
}

pare_status pare_start_flown(pare_craft *craft, double flown_s, pare_arena *arena, pare_error *err)
{
    flying f = {.craft = craft, .sheet = pare_arena_zeros(arena, sizeof *f.sheet)};
    double hover_s = 0, full_s = 0;
    if (!f.sheet)
        return pare_no_memory(err);
    pare_status status = lasts(&f, 0, &hover_s, err);
    if (status != PARE_OK)
        return status;
    const pare_sheet_figure *figure = f.sheet->figure;
    const double all_up_kg = figure[PARE_ALL_UP].value;
    if (!(hover_s > 0))
        return pare_fail(err, PARE_BAD_DATA, "%.3g min said, but it does not hover: %s",
                         flown_s / 60, figure[PARE_FLOWN_TIME].why);
    f.most_thrust =
        fmin(THRUST_MOST, fmax(THRUST_ROOM, THRUST_ROOM * figure[PARE_TWR_FRESH].value));
    if (flown_s > hover_s * (1 + WITHIN))
        return pare_fail(err, PARE_BAD_DATA,
                         "%.3g min said, but hover, the calmest flying, lasts %.3g min with %d "
                         "cells of %.0f mAh at %.0f g; check, or say, minutes, pack and mass",
                         flown_s / 60, hover_s / 60, f.sheet->rig.pack.cells,
                         f.sheet->rig.pack.capacity_c / 3.6, 1e3 * all_up_kg);
    status = lasts(&f, 2, &full_s, err);
    if (status != PARE_OK)
        return status;
    if (flown_s < full_s * (1 - WITHIN))
        return pare_fail(err, PARE_BAD_DATA,
                         "%.3g min said, but full throttle throughout lasts %.3g min; check "
                         "minutes, pack and motor",
                         flown_s / 60, full_s / 60);
    if (flown_s > hover_s * (1 - WITHIN))
        return lasts(&f, 0, &hover_s, err);
    return search(&f, flown_s, err);
}
