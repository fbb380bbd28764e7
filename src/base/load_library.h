/* load_library.h: functions of a shared library that is loaded only where something asks for it.
 *
 * Linked in the usual way such libraries bring dozens of others, which every command would pay for at its
 * start. So their functions are found by name, and their own headers give the types. */
#ifndef PARE_BASE_LOAD_LIBRARY_H
#define PARE_BASE_LOAD_LIBRARY_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

typedef struct pare_library_file {
    const char *file;    /* "libpq.so.5" */
    const char *package; /* Debian's, which has it */
    const char *missed;  /* what there is not without it: "no picture" */
} pare_library_file;

typedef struct pare_library_function {
    const char *name;
    void *pointer; /* where the function's pointer goes */
    bool optional; /* there may be none: its pointer is then NULL */
} pare_library_function;

/** Loads the library, which stays until the program ends, and finds wanted [count].
 * @return PARE_OK, or PARE_UNAVAILABLE, naming the library or the function that is not there */
pare_status pare_load_library(const pare_library_file *library, size_t count,
                              const pare_library_function wanted[], pare_error *err);

#endif
