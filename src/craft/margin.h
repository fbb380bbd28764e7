/* margin.h: limits and ratings, and how far off each is. */
#ifndef PARE_CRAFT_MARGIN_H
#define PARE_CRAFT_MARGIN_H

#include "craft/sheet.h"

/** The figures that a craft's margins are made of. */
pare_figures pare_margin_figures(const pare_craft *craft);

/** Whether a thing of this kind is on the pack itself: no regulator comes between. */
bool pare_margin_on_pack(pare_kind kind);

/** Whether it is one of a crash: it counts in no worst. */
bool pare_margin_of_crash(const pare_margin *margin);

/** Fills the sheet's margins, worst first: the brief's limits, ESC and motor current ratings, and
 * voltage ratings of everything on the pack. Figures must be there; chances need their u. */
void pare_sheet_margins(const pare_craft *craft, pare_sheet *sheet);

/** Kinds of margins, each worked out by itself. */
enum {
    PARE_MARGINS_BRIEF = 1, /* but for its limit on margins, which needs all others */
    PARE_MARGINS_RATED = 2,
    PARE_MARGINS_WIRES = 4, /* and the connector */
    PARE_MARGINS_BOARD = 8,
    PARE_MARGINS_SPIKES = 16,
    PARE_MARGINS_POWER = 32,
    PARE_MARGINS_ARMS = 64,
    PARE_MARGINS_JOINTS = 128,
    PARE_MARGINS_ALL = 255
};

/** The same of some kinds only, in the order in which they come about, which craft that are nearly
 * alike share: for who compares them one by one. */
void pare_sheet_margins_some(const pare_craft *craft, unsigned kinds, pare_sheet *sheet);

/** The same, worst first. */
void pare_sheet_margins_worst(const pare_craft *craft, unsigned kinds, pare_sheet *sheet);

#endif
