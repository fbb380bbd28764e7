/* csv_keep.h: parts of a list into the bench, one after another. Inside the room only. */
#ifndef PARE_STORE_CSV_KEEP_H
#define PARE_STORE_CSV_KEEP_H

#include "craft/part.h"
#include "store/reading.h"
#include "store/sql.h"

typedef enum pare_kept {
    PARE_KEPT_ADDED,
    PARE_KEPT_REPLACED,
    PARE_KEPT_SAME,
    PARE_KEPT_DIFFERS, /* another text has this id: see pare_keeper_merge() */
    PARE_KEPT_TWICE    /* this list has had the id before; nothing was done */
} pare_kept;

typedef struct pare_keeper pare_keeper;

/** Within a change. Close with pare_keeper_close(); NULL is fine. */
pare_status pare_keeper_open(pare_store *store, pare_keeper **keeper, pare_error *err);
void pare_keeper_close(pare_keeper *keeper);

/** Keeps a part whose id the bench does not have yet.
 *
 * @param doc  [length] its canonical text
 * @param line of the list, to be named when its id comes again
 * @param[out] kept  what became of it */
pare_status pare_keeper_add(pare_keeper *keeper, const pare_part *part, const char *doc,
                            size_t length, int line, pare_kept *kept, pare_error *err);

/** Looks for a part that the bench has under this id and the list has not had yet.
 * @param[out] kind  its kind's name, good until the next call; NULL: there is none */
pare_status pare_keeper_find(pare_keeper *keeper, const char *id, int line, const char **kind,
                             pare_error *err);

/** After PARE_KEPT_DIFFERS, or when one was found: the bench's own text with what the list says put into it, so that what a
 * list has no column for is not lost. A part that changes its kind is taken as the list has it.
 *
 * @param node   the list's part
 * @param[out] merged  in the reading's arena
 * @param[out] before  the bench's text as a tree */
pare_status pare_keeper_merge(const pare_keeper *keeper, const pare_reading *reading,
                              const pare_node *node, const pare_node **merged,
                              const pare_node **before, pare_error *err);

/** Then: keeps the merged part in place of the one that was there; PARE_KEPT_SAME where its text is
 * the one that is there. */
pare_status pare_keeper_replace(pare_keeper *keeper, const pare_part *part, const char *doc,
                                size_t length, pare_kept *kept, pare_error *err);

/** After PARE_KEPT_TWICE: the line where the id stood first; 0 where that is not known any more. */
int pare_keeper_first_line(const pare_keeper *keeper, const char *id);

/** What differs between two texts of a part: "mass 12 g, was 11 g; spec.kv 1900, was 1750". */
void pare_keeper_differences(const pare_node *before, const pare_node *after, pare_text *out);

#endif
