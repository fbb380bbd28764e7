/* sheet_text.h: a sheet as text: the first screen, and all else behind --all. */
#ifndef PARE_SHOW_SHEET_TEXT_H
#define PARE_SHOW_SHEET_TEXT_H

#include "show/screen.h"
#include "show/sheet_view.h"

/** The first screen.
 *
 * @param swaps  for what is free, cheap, and only from pack or motors; NULL: those lines are absent
 * @param money  the bench's; NULL: not said */
void pare_sheet_text(const pare_sheet_view *view, const pare_swaps *swaps, const char *money,
                     const pare_screen *screen, pare_text *out);

/** All that stands behind the first screen: ledger, body, flight, margins, exchange, knock-on, what
 * a law filled in, what does not exist and why, and the states that figures refer to. */
void pare_sheet_all_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** The all-up mass with its doubt, against what it was before a trial, against the limit: one line. */
void pare_all_up_words(const pare_sheet_view *view, const pare_screen *screen, pare_text *line);

/** What the motors carry in hover: "front 52 %, rear 48 %; left 50 %, right 50 %", and what that costs. */
void pare_hover_shares_words(const pare_balance *balance, pare_text *line);

/** What is free, cheap, and only from pack or motors: grams of each, then grams and money of it with
 * those above it. */
void pare_bands_text(const pare_swaps *swaps, const char *money, const pare_screen *screen,
                     pare_text *out);

/** The limits of the brief that are broken, in one line for an error: "all-up mass 691 g, at most
 * 620 g; ...". */
void pare_limits_broken_text(const pare_sheet *sheet, pare_text *out);

#endif
