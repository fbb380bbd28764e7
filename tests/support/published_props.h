/* published_props.h: the propeller constants that the check cases of the published description fix.
 *
 * The same code evaluates them as the shipped sets; the shipped ones are a later fit. */
#ifndef TESTS_PUBLISHED_PROPS_H
#define TESTS_PUBLISHED_PROPS_H

#include "physics/prop.h"

extern const pare_prop_constants published_family; /* of a blade from diameter and pitch */
extern const pare_prop_constants published_true;   /* of a measured blade */

#endif
