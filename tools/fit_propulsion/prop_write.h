/* prop_write.h: the sets of propeller constants as C. */
#ifndef FIT_PROP_WRITE_H
#define FIT_PROP_WRITE_H

#include <stdio.h>

#include "physics/prop.h"

void fit_write_head(FILE *out);
/** @param variable  its name in C */
void fit_write_set(FILE *out, const char *variable, const pare_prop_constants *set);

#endif
