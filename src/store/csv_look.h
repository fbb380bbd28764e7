/* csv_look.h: a first look at a table: what parts its columns, what its decimals are, where its column
 * names stand, and what stands below each. Inside the room only. */
#ifndef PARE_STORE_CSV_LOOK_H
#define PARE_STORE_CSV_LOOK_H

#include "base/arena.h"
#include "store/csv.h"
#include "store/csv_cell.h"

enum { PARE_CSV_UNITS_SEEN = 6 };

/** What the first cells of a column look like. */
typedef struct pare_csv_seen {
    const char *title; /* as it stands, blanks around it taken off */
    size_t filled;     /* cells that say something */
    size_t kinds;      /* of them, words for kinds of part */
    size_t units;
    char unit[PARE_CSV_UNITS_SEEN][16]; /* what follows numbers, each once */
    size_t times[PARE_CSV_UNITS_SEEN];  /* and how often */
} pare_csv_seen;

typedef struct pare_csv_look {
    char separator;
    pare_decimal decimal;
    int line; /* of the column names */
    size_t columns;
    pare_csv_seen *column; /* [columns] */
} pare_csv_look;

/** Looks at the first 64 KiB.
 *
 * @param separator  0: to be seen
 * @param decimal    PARE_DECIMAL_UNKNOWN: to be seen
 * @param arena      holds what is seen
 * @return PARE_OK; PARE_BAD_DATA: what keeps the column names from being read; none; nothing below
 *         them */
pare_status pare_csv_look_at(const pare_csv *csv, const char *name, char separator,
                             pare_decimal decimal, pare_arena *arena, pare_csv_look *look,
                             pare_error *err);

/** A row that has nothing in it, or that begins with '#'. */
bool pare_csv_is_blank(const pare_csv_row *row);
bool pare_csv_is_comment(const pare_csv_row *row);
/** A row that may hold the names of columns: a title over the table has only one field filled.
 * @param alone  the table has one column only */
bool pare_csv_is_head(const pare_csv_row *row, bool alone);

/** "semicolons" and the like. */
const char *pare_csv_separator_words(char separator);

#endif
