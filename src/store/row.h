/* row.h: one row of the bench, with all that follows from its text. Inside the room only. */
#ifndef PARE_STORE_ROW_H
#define PARE_STORE_ROW_H

#include "craft/part.h"
#include "store/reading.h"
#include "store/sql.h"

/** Keeps a part's text, new or in place of the one of its id, with what is searched.
 * @param row  its number; 0: the one that it has, or a new one
 * @param part completed, read from this text */
pare_status pare_row_put_part(const pare_store *store, long long row, const pare_part *part,
                              const char *doc, pare_error *err);

/** Keeps a part's text where its id is not taken.
 * @param[out] there  it is: nothing was done */
pare_status pare_row_add_part(const pare_store *store, const pare_part *part, const char *doc,
                              bool *there, pare_error *err);

/** Keeps a craft's text likewise, and which parts it names.
 * @param node  the text as a tree */
pare_status pare_row_put_craft(const pare_store *store, long long row, const pare_reading *reading,
                               const pare_node *node, const char *name, const char *doc,
                               pare_error *err);

/** Keeps a record's text; `row` as above, but always a new one where it is 0. A scale takes the place of
 * the one of its id, a flight that of its row.
 * @param list  "scale", "weigh_in", "flight" or "stand_table" */
pare_status pare_row_put_record(const pare_store *store, const char *list, long long row,
                                const pare_node *node, const char *doc, pare_error *err);

/** The column that names a row of a list ("NULL" where none does), and the one with its text. */
const char *pare_row_name_column(const char *list);
const char *pare_row_text_column(const char *list);

/** Rows that come back from the history, many in a row. Close with pare_rows_close(). */
typedef struct pare_rows pare_rows;
pare_status pare_rows_open(pare_store *store, pare_rows **rows, pare_error *err);
void pare_rows_close(pare_rows *rows);
/** Brings one back. @param statement  at a row with its number, name and text (or bytes) */
pare_status pare_rows_bring_back(pare_rows *rows, const char *list, pare_statement *statement,
                                 pare_error *err);

#endif
