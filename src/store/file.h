/* file.h: the mesh files and outlines that a bench keeps, and what was measured of them. Inside the
 * room only. */
#ifndef PARE_STORE_FILE_H
#define PARE_STORE_FILE_H

#include "store/reading.h"
#include "store/recall.h"
#include "store/sql.h"

enum { PARE_FILES_A_PART = 64 };

/** What pare_files_find() works with, as the context of a reading. */
typedef struct pare_files {
    pare_store *store;
    pare_arena *arena;
    const char *folder; /* where files are taken from into the bench; NULL: only what it has */
    size_t carried;     /* files that came along in memory, which go before the folder */
    const pare_import_file *carry;
    size_t coming; /* parts that are coming in; see pare_files_expect() */
    const char **coming_id;
    pare_recall *recall; /* for reading many parts; NULL: each file is asked for alone */
    bool may_keep;       /* new files and figures may be written: within a transaction */
    size_t read;         /* files taken in */
    bool changed;        /* one of them was new or other than the one kept */
    size_t names;        /* of the part at hand, found or kept; set to 0 before each */
    const char *name[PARE_FILES_A_PART];
} pare_files;

/** A pare_find_file: from the folder, else from the bench; measured, or from the cache. */
pare_status pare_files_find(void *context, const char *file, double unit_m, pare_mesh_facts *mesh,
                            pare_outline_facts *outline, bool *found, pare_notes *notes,
                            pare_error *err);

/** Says which parts are coming in, since a file that others share changes with all of them or not at all.
 * @param id  [count], put in order here; must outlive the files */
void pare_files_expect(pare_files *files, size_t count, const char *id[]);

/** Ties the files of the part at hand to it. */
pare_status pare_files_tie(pare_files *files, const char *part, pare_error *err);

/** Drops files that no part names any more. */
pare_status pare_files_sweep(const pare_store *store, pare_error *err);

#endif
