/* csv.h: rows of a table in text, after RFC 4180 and what spreadsheets make of it. Inside the room
 * only.
 *
 * Quoted fields with doubled quotes and line breaks, CRLF or LF, a byte order mark; the separator is
 * the caller's. A window of fixed size moves over the file: memory does not grow with it. */
#ifndef PARE_STORE_CSV_H
#define PARE_STORE_CSV_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

enum {
    PARE_CSV_COLUMNS = 200,    /* most fields of a row */
    PARE_CSV_FIELD = 16 << 10, /* most bytes of a field */
    PARE_CSV_ROW = 256 << 10   /* most bytes of a row */
};

/** A field: `length` bytes of UTF-8 with a zero after them. Line breaks and tabs within are blanks. */
typedef struct pare_csv_field {
    char *text;
    size_t length;
} pare_csv_field;

typedef struct pare_csv_row {
    int line; /* where it begins, from 1 */
    size_t count;
    pare_csv_field field[PARE_CSV_COLUMNS];
} pare_csv_row;

typedef struct pare_csv pare_csv;

/** Opens a table: a file, or bytes in memory that stay good until it is closed.
 *
 * @param path   the file; NULL: bytes [length]
 * @param name   said in front of lines in errors
 * @param[out] csv  close with pare_csv_close(); NULL on failure
 * @return PARE_OK; PARE_BAD_DATA: not there, no file, empty; PARE_UNAVAILABLE */
pare_status pare_csv_open(const char *path, const char *bytes, size_t length, const char *name,
                          pare_csv **csv, pare_error *err);
void pare_csv_close(pare_csv *csv);

/** The beginning of the table, for those who want to guess: what is in the window, from after the
 * byte order mark. Good until the first row is read. */
const char *pare_csv_beginning(const pare_csv *csv, size_t *length);

/** Reads one row.
 *
 * @param separator  one byte: ',' ';' '|' or a tab
 * @param[out] row   its fields are good until the next call
 * @param[out] there false at the end
 * @return PARE_OK; PARE_BAD_DATA, with the line: a quote that is not closed or stands in the middle,
 *         bytes that are not UTF-8, control characters, a field, row or number of fields beyond the
 *         limits. The table cannot be read on then. */
pare_status pare_csv_read(pare_csv *csv, char separator, pare_csv_row *row, bool *there,
                          pare_error *err);

/** Back to the first row. */
pare_status pare_csv_rewind(pare_csv *csv, pare_error *err);

#endif
