/* propeller_file.h: a propeller's tables as the UIUC Propeller Data Site lays them out, into its part.
 *
 * Columns parted by blanks under their names: a blade, "r/R c/R beta"; at rest, "RPM CT CP"; running,
 * "J CT CP eta", whose rpm stands at the end of the file's name or is told. */
#ifndef PARE_STORE_PROPELLER_FILE_H
#define PARE_STORE_PROPELLER_FILE_H

#include "store/bench.h"

typedef enum pare_propeller_file {
    PARE_PROPELLER_NONE, /* something else */
    PARE_PROPELLER_BLADE,
    PARE_PROPELLER_AT_REST,
    PARE_PROPELLER_RUNNING
} pare_propeller_file;

/** What a text is, by its first line that says something. */
pare_propeller_file pare_propeller_file_of(const char *text);

typedef struct pare_propeller_import {
    size_t files;
    const char *const *path; /* [files] */
    const char *propeller;   /* the part's id */
    const char *speed;       /* of what runs, as typed; NULL: at the end of each file's name */
    pare_change change;
    bool dry_run; /* the bench stays as it is */
} pare_propeller_import;

enum { PARE_PROPELLER_FILES = 64 };

typedef struct pare_propeller_summary {
    struct {
        pare_propeller_file kind;
        size_t rows;
        double speed_rad_s; /* of what runs */
    } file[PARE_PROPELLER_FILES];
    size_t stations;             /* of the blade as it is now; 0: none */
    size_t points, points_added; /* of the tunnel as it is now, and of them new */
    bool changed;
} pare_propeller_summary;

/** Reads tables into a propeller: all of them, or nothing.
 *
 * A blade takes the place of the one before; points come to those that are there, each once.
 * @return PARE_OK; PARE_UNKNOWN: no such part; PARE_BAD_DATA: another kind of part, or, with line and
 *         column, what cannot be; PARE_UNAVAILABLE */
pare_status pare_store_import_propeller(pare_store *store, const pare_propeller_import *import,
                                        pare_arena *arena, pare_propeller_summary *summary,
                                        pare_error *err);

#endif
