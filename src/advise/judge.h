/* judge.h: what a swap does to the margins: which it breaks, which it loosens. Only this room uses it. */
#ifndef PARE_ADVISE_JUDGE_H
#define PARE_ADVISE_JUDGE_H

#include "advise/row.h"

/** Puts the margins of the desk's craft, whose sheet is there, in the order in which those of trials come. */
void pare_desk_judge(pare_desk *desk);

/** Judges a weighed trial, flying what its margins are made of: which margins it breaks and which of those
 * that bind it loosens, worst first. */
void pare_trial_judge(const pare_desk *desk, pare_trial *trial, pare_swap *row);

/** Whether a weighed trial breaks a margin that held. */
bool pare_trial_breaks(const pare_desk *desk, pare_trial *trial);

/** Whether pare_trial_judge() may name one that a weighed trial loosens: false, and it names none. Works
 * out only those kinds of margins that can tell. */
bool pare_trial_may_loosen(const pare_desk *desk, pare_trial *trial);

#endif
