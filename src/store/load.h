/* load.h: from the store's rows into a bench in memory. Inside the room only. */
#ifndef PARE_STORE_LOAD_H
#define PARE_STORE_LOAD_H

#include "craft/part.h"
#include "store/reading.h"
#include "store/sql.h"

/** A new, empty bench with its arena. Close with pare_bench_close(). */
pare_bench *pare_load_empty(void);

/** All parts, or those that one craft names; craft NULL: all. By id. */
pare_status pare_load_parts(pare_store *store, const char *craft, pare_bench *bench,
                            pare_error *err);
/** One part out of a row of its id and text.
 * @param reading  its arena holds what is made; its name is set for messages
 * @param[out] part  completed */
pare_status pare_load_part_row(pare_reading *reading, pare_statement *statement, const char *store,
                               pare_part **part, pare_error *err);
/** The stand tables of all pairs, or of those that one craft may have on, by motor, then propeller;
 * their parts must be loaded. One that its parts contradict is there with its fault. */
pare_status pare_load_stands(pare_store *store, const char *craft, pare_bench *bench,
                             pare_error *err);
/** All craft, or one by its name; their parts must be loaded. By name. */
pare_status pare_load_craft(pare_store *store, const char *name, pare_bench *bench,
                            pare_error *err);

/** Scales and weigh-ins will be asked for: see pare_sql_ahead(). */
void pare_weighings_ahead(const pare_store *store);

/** Whether every craft on the bench can still be read with the parts as they are now. */
pare_status pare_load_check(pare_store *store, pare_error *err);

/** A setting's value, copied into an arena, or "" where it was never set. */
pare_status pare_load_setting(const pare_store *store, const char *name, pare_arena *arena,
                              const char **value, pare_error *err);

/** The lists of a bench's text, in their order, and how their rows are fetched: the text alone. */
enum { PARE_EXPORT_LISTS = 6 };
typedef struct pare_export_list {
    const char *key, *sql;
} pare_export_list;
extern const pare_export_list pare_export_lists[PARE_EXPORT_LISTS];

#endif
