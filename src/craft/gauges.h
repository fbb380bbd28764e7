/* gauges.h: what a power wire of a craft would be in other gauges, and what it costs in flight. */
#ifndef PARE_CRAFT_GAUGES_H
#define PARE_CRAFT_GAUGES_H

#include "craft/craft.h"
#include "craft/sheet.h"
#include "physics/wire_heat.h"

enum { PARE_GAUGES = 8, PARE_BROKEN = 48 };

/** The craft with one run in a gauge, all else as it is. A figure that does not exist is NAN. */
typedef struct pare_in_gauge {
    double gauge;
    bool now; /* the one that is on */
    double run_kg;
    double held_degc;  /* settled at the rms as flown */
    double flown_degc; /* hottest over the flight, its entries one after another; see below */
    double burst_degc; /* after full throttle on top of the rms */
    double lost_v;     /* in the run, at full throttle on a fresh pack, copper at 40 degC */
    double time_s;     /* more than now, flown the same way */
    double thrust;     /* more than now, as a share: full throttle on a fresh pack */
    bool holds;        /* all that holds now */
    char broken[PARE_BROKEN]; /* the worst margin that no longer does */
} pare_in_gauge;

typedef struct pare_gauges {
    const pare_run *run;
    size_t count;
    pare_in_gauge row[PARE_GAUGES]; /* thickest first */
    double thinnest;                /* gauge that holds all that holds now; 0: none of these */
    double needed_m, longest_m; /* a way: what its stations ask for (0: not known), and its own */
    /* What it costs as it is: by its resistance alone, and by its grams on top. */
    double costs_ohm_s, costs_s, costs_ohm_thrust, costs_thrust;
} pare_gauges;

/** A conductor as hot as that has melted: no number stands for it. */
#define PARE_MELTED_DEGC 1000.0

/** Whether a run carries the current of the pack, an ESC or a motor; and whether all of the pack's. */
bool pare_run_of_power(const pare_craft *craft, const pare_run *run);
bool pare_run_of_pack(const pare_craft *craft, const pare_run *run);

/** A run that does, in every other gauge from two sizes thicker to three thinner.
 *
 * The flight is taken as its entries in the order of the brief, each in one piece, from the air's
 * temperature: hotter than the same flown in turns. Settled at the rms is what it comes to without end.
 * @param craft  settled and loaded; @param sheet  its own
 * @param room   a craft and a sheet to work in
 * Cost: some 35 us a gauge. Allocates nothing. */
typedef struct pare_gauges_room {
    pare_craft craft;
    pare_sheet sheet;
} pare_gauges_room;
void pare_craft_gauges(const pare_craft *craft, const pare_sheet *sheet, size_t run,
                       pare_gauges_room *room, pare_gauges *gauges);

/** The flight as such a run sees it: its current through the entries of the brief, each in one piece, and
 * the wire in still air of the flight's. @return false where it carries no power or does not fly */
bool pare_run_stretches(const pare_craft *craft, const pare_sheet *sheet, const pare_run *run,
                        size_t *stretches, pare_wire_stretch stretch[PARE_FLOWN],
                        pare_wire_load *load);

/** The hottest that a wire gets over the craft's flight, as above; NAN where it melts or does not fly. */
double pare_run_flown_degc(const pare_craft *craft, const pare_sheet *sheet, const pare_run *run);

#endif
