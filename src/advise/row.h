/* row.h: one swap tried and compared with the craft as it is. Only this room uses it. */
#ifndef PARE_ADVISE_ROW_H
#define PARE_ADVISE_ROW_H

#include "advise/edit.h"

/** What swaps are tried on: the craft as it is and its sheet. Not changed once it is laid out, so any
 * number of threads may try swaps on it, each with a trial of its own. */
typedef struct pare_desk {
    pare_shelf shelf;
    const pare_craft *craft; /* settled, in no loadout */
    int loadout;
    pare_craft loaded; /* as flown in the loadout */
    pare_sheet sheet;
    /* Of judge.c: */
    pare_figures judged_by; /* what margins are made of; no swap changes the brief */
    unsigned telling_kinds; /* of margins, in which one can tell whether what binds is loosened */
    size_t telling;         /* how many can */
    const pare_margin *rests_on; /* of margin[]: see what_it_rests_on(); NULL: none */
    size_t margins; /* the sheet's, in the order in which they come about, as a trial's do */
    pare_margin margin[PARE_MARGINS];
    const pare_margin *worst; /* of those; NULL: none */
} pare_desk;

/** Room for one changed craft. */
typedef struct pare_trial {
    pare_craft changed;      /* in no loadout */
    const pare_craft *flown; /* in the desk's; lent by this trial */
    pare_craft loaded;
    pare_sheet sheet; /* of that, as far as it was asked for */
} pare_trial;

/** Lays out the desk. @param arena  holds it */
pare_status pare_desk_open(const pare_bench *bench, const pare_craft *craft, int loadout,
                           pare_arena *arena, pare_desk **desk, pare_error *err);

/** Loads the trial's changed craft and weighs it: no flight figures yet. */
pare_status pare_trial_weigh(const pare_desk *desk, pare_trial *trial, pare_error *err);

/** A row in stages, so that what is dropped costs no more than finding out: applied and settled;
 * weighed (grams, money a gram, band); flown (change[] of the figures wanted, in as many calls as
 * suits); judged (breaks, loosens, and how well the grams are known). Each needs the one before to be PARE_OK.
 * @return as pare_swap_apply(). Allocates nothing, but for a sought part */
pare_status pare_row_begin(const pare_desk *desk, const pare_swap_name *name, pare_trial *trial,
                           pare_swap *row, pare_error *err);
pare_status pare_row_weigh(const pare_desk *desk, pare_trial *trial, pare_swap *row,
                           pare_error *err);
void pare_row_fly(const pare_desk *desk, pare_figures wanted, pare_trial *trial, pare_swap *row);
void pare_row_judge(const pare_desk *desk, pare_trial *trial, pare_swap *row);

/** The whole row in one go. */
pare_status pare_row_fill(const pare_desk *desk, const pare_swap_name *name, pare_trial *trial,
                          pare_swap *row, pare_error *err);

/** Jobs that the brief keeps, of those lost: bit (1u << job). */
unsigned pare_kept_jobs_lost(const pare_craft *craft, const pare_applied *applied);

#endif
