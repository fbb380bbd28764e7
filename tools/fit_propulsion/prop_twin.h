/* prop_twin.h: how far propellers differ that are alike in all that a model may know of them. */
#ifndef FIT_PROP_TWIN_H
#define FIT_PROP_TWIN_H

#include "blade.h"

/** Prints a table of what likes of several kinds differ by.
 * @return false: no memory, or nowhere to put it on the page (page.h) */
bool fit_twins_print(const fit_blades *blades, const char *page);

#endif
