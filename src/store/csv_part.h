/* csv_part.h: a row of a parts list as a part in the text form. Inside the room only. */
#ifndef PARE_STORE_CSV_PART_H
#define PARE_STORE_CSV_PART_H

#include "store/csv_plan.h"
#include "store/reading.h"

/** What was not read of a column, though it says something. */
typedef struct pare_csv_left {
    size_t count;
    int line; /* of the first */
} pare_csv_left;

/** One table being read. */
typedef struct pare_csv_rows {
    const pare_csv_plan *plan;
    const pare_reading *reading; /* its arena holds what is made of one row */
    pare_csv_left *left;         /* [plan->columns] */
    const char *money;           /* of the bench; "" where it has none yet */
    bool notes;                  /* what no column has a place for is kept as a note */
    /* The kind of a part that the bench has already, by its id; -1: it has none. NULL: no bench. */
    int (*kind_of)(void *context, const char *id, int line);
    void *context;
} pare_csv_rows;

/** A part made of a row. */
typedef struct pare_csv_made {
    pare_node *part; /* its id is the first entry */
    const char *id;  /* the first that was meant */
    bool named;      /* it is made, not typed: another may be taken instead */
    pare_kind kind;
    bool kind_guessed;
} pare_csv_made;

/** Makes the node of a part. Nothing is checked that the reader of parts will check.
 * @return PARE_OK, or PARE_BAD_DATA: a cell that cannot be understood, no kind, no name */
pare_status pare_csv_make_part(const pare_csv_rows *rows, const pare_csv_row *row,
                               pare_csv_made *made, pare_error *err);

/** The text of a column in a row: its field, what was set, or "". */
const char *pare_csv_cell(const pare_csv_plan *plan, const pare_csv_column *column,
                          const pare_csv_row *row);

/** Fails with the place of a cell: "list.csv:3:2: 'weight': ...". */
#if defined(__GNUC__)
__attribute__((format(printf, 5, 6)))
#endif
pare_status
pare_csv_refuse(const pare_csv_plan *plan, const pare_csv_column *column, int line, pare_error *err,
                const char *format, ...);
/** The same for an error that has no place yet. */
pare_status pare_csv_refused_at(const pare_csv_plan *plan, const pare_csv_column *column, int line,
                                pare_error *err);

/** Turns "list.csv:3:2: mass of ...", as a reader of nodes says it, into "list.csv:3:2: 'weight':
 * mass of ...", and "list.csv:3:0: ..." into "list.csv:3: ...". */
pare_status pare_csv_name_column(const pare_csv_plan *plan, pare_error *err);

/** A node of a row, in the rows' arena; NULL without memory. @param column  0: the whole row */
pare_node *pare_csv_node(const pare_csv_rows *rows, pare_node_form form, int line, size_t column);
/** Adds an entry to a map (key not NULL) or list. */
void pare_csv_add(pare_node *to, const char *key, pare_node *entry);
/** Adds a scalar; false without memory. */
bool pare_csv_put(const pare_csv_rows *rows, pare_node *to, const char *key, const char *text,
                  int line, size_t column);

/** Of words, an id: "Bramble 2207" as "bramble-2207". @param number  2 or more: behind it */
void pare_csv_make_id(const char *words, unsigned number, char id[49]);

#endif
