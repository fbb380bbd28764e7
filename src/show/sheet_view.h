/* sheet_view.h: everything that a sheet's answer shows, computed once for text and JSON. */
#ifndef PARE_SHOW_SHEET_VIEW_H
#define PARE_SHOW_SHEET_VIEW_H

#include "advise/swap.h"
#include "advise/taken.h"
#include "craft/arm_facts.h"
#include "craft/balance.h"
#include "craft/crash.h"
#include "craft/power.h"
#include "craft/radio.h"
#include "craft/sheet.h"

/** One craft in one loadout, with all that is said about it. Large: keep it off the stack. */
typedef struct pare_sheet_view {
    const char *loadout; /* NULL: the craft has none */
    const char *tried;   /* swaps as typed; NULL: none */
    pare_craft craft;    /* settled and loaded, with what is tried */
    pare_sheet sheet;    /* with uncertainties */
    pare_craft craft_before;
    pare_sheet before;      /* without what is tried; only where tried is set, or against_first */
    bool against_first;     /* before is the craft as first described, without what was fitted */
    pare_crash_facts crash; /* against before, where there is one */
    pare_exchange exchange;
    pare_powered power[PARE_POWERED];
    pare_balance balance;
    size_t radios, radios_before; /* antenna chains, and those of before */
    pare_radio radio[PARE_RADIOS], radio_before[PARE_RADIOS];
    bool arms_known; /* the frame states its arms */
    pare_arm_facts arms;
    bool growth_known;
    pare_growth growth;        /* where growth_known */
    char growth_why[PARE_WHY]; /* where not */
    double limit_kg;           /* the brief's, NAN: none */
    pare_taken_facts taken;    /* zeros, unless the caller fills them */
    double flown_at_limit_s;   /* if the craft weighed exactly that; NAN: none, or it cannot fly */
} pare_sheet_view;

/** Computes a view.
 *
 * @param craft    settled, not loaded, with what is tried already on it
 * @param before   the same without it; NULL where nothing is tried
 * @param loadout  -1, or an index into the craft's loadouts
 * @param tried    as typed; NULL: none
 * @return PARE_OK; PARE_BAD_DATA where nothing can be said about the craft */
pare_status pare_sheet_view_fill(const pare_craft *craft, const pare_craft *before, int loadout,
                                 const char *tried, pare_sheet_view *view, pare_error *err);

/** Takes the craft as first described for the one that this is compared with, where nothing is tried and
 * something was fitted since. @param first  settled, not loaded */
pare_status pare_sheet_view_against_first(const pare_craft *first, int loadout,
                                          pare_sheet_view *view, pare_error *err);

/** A margin for reading: "all-up mass", "ESC burst current", "voltage on video". Returns text. */
const char *pare_margin_words(const pare_margin *margin, char text[64]);

/** How many limits of the brief are broken. */
size_t pare_limits_broken(const pare_sheet *sheet);

#endif
