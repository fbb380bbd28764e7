/* screw_length.h: which standard length suits a joint. Only this room uses it. */
#ifndef PARE_ADVISE_SCREW_LENGTH_H
#define PARE_ADVISE_SCREW_LENGTH_H

#include "advise/edit.h"

/** Whether screws of a length touch nothing and have a full nut's thread in what they go into; true where
 * that is not known. */
bool pare_screw_length_suits(const pare_craft *craft, const pare_joint *joint, double length_m);

/** The shortest standard length that is no shorter; the longest, where none is. */
double pare_screw_standard_m(double least_m);

/** The shortest standard length that engages as it should and touches nothing; where none does both,
 * the longest that still suits; 0 where none does or nothing is known. */
double pare_screw_length_best_m(const pare_craft *craft, const pare_joint *joint);

/** Warns of screws that touch the winding; @return whether they do. */
bool pare_screw_length_warn(pare_edit *edit, const pare_joint *joint);

/** After another motor or frame: warns of screws that are now too long or too short, with the length
 * that would do. */
void pare_screw_lengths_question(pare_edit *edit);

#endif
