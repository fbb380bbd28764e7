/* mass_change.h: how uncertain the difference of two craft's masses is. */
#ifndef PARE_ADVISE_MASS_CHANGE_H
#define PARE_ADVISE_MASS_CHANGE_H

#include "craft/assemble.h"

/** Standard uncertainty of one craft's mass less another's, line by line: items of one name are compared.
 * Never that of either mass, which may be far larger. */
double pare_mass_change_u_kg(const pare_craft *a, const pare_assembly *was, const pare_craft *b,
                             const pare_assembly *is);

#endif
