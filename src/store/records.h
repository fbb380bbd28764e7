/* records.h: weigh-ins, flights, stand tables and scales into the bench. Inside the room only. */
#ifndef PARE_STORE_RECORDS_H
#define PARE_STORE_RECORDS_H

#include "store/foretell.h"
#include "store/record.h"
#include "store/sql.h"

/** One list of records coming in. Zero-initialise the rest. */
typedef struct pare_records {
    pare_store *store;
    const pare_reading *reading;
    pare_arena *arena; /* of the whole list */
    pare_record record;
    bool again;                        /* what stands on the bench already is kept once more */
    long long row;                     /* of a flight whose place the next one takes; 0: none */
    const pare_foreteller *foreteller; /* of hovers; NULL: nobody says anything before */
    size_t count, size;
    const char **docs;     /* [count] the texts so far */
    size_t added, same;    /* of them */
    size_t foretold, held; /* of those added, and as foretold */
} pare_records;

/** Checks one record and what it refers to, and keeps it.
 *
 * A text that stands in the list twice is kept twice; a list that comes in again is kept once.
 * @return PARE_OK; PARE_UNKNOWN: no such craft, part or scale; PARE_BAD_DATA with the place */
pare_status pare_records_keep(pare_records *records, const pare_node *node, pare_error *err);

/** Keeps records as a change of its own: all of them, or none. One that is there already is one more.
 * @param node  [count] @param arena  holds them */
pare_status pare_records_add(pare_store *store, pare_record record, size_t count,
                             pare_node *const node[], pare_arena *arena, const pare_change *change,
                             pare_error *err);

#endif
