/* workbook.h: one sheet of a workbook (XLSX) as a table in text, so that it is read as any list is.
 *
 * A row of the sheet is a line of the text, blank ones too, so a message about a line is one about the row
 * of that number. Numbers are written with a decimal point, days as ISO 8601 writes them, shares with their
 * per cent sign, and the unit that a cell's number format shows behind it ("0.0 g") stands behind it here.
 * What formulas gave when the workbook was saved is read; nothing is computed. */
#ifndef PARE_STORE_WORKBOOK_H
#define PARE_STORE_WORKBOOK_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/error.h"

enum { PARE_WORKBOOK_SHEETS = 200 };

typedef struct pare_workbook_table {
    const char *sheet; /* its name */
    size_t sheets;     /* that the workbook shows */
    const char *csv;   /* [length], parted by commas */
    size_t length;
} pare_workbook_table;

/** Reads a sheet.
 *
 * @param path   a file
 * @param sheet  by its name, in small or capital letters, or by its number from 1; NULL: the first that
 *               is shown and has something in it
 * @param comma  numbers are written with a decimal comma
 * @param arena  holds the table
 * @return PARE_OK; PARE_UNKNOWN: no such sheet, with the nearest or all; PARE_BAD_DATA, with sheet and cell:
 *         no workbook, encrypted, damaged, beyond the limits; PARE_UNAVAILABLE */
pare_status pare_workbook_read(const char *path, const char *sheet, bool comma, pare_arena *arena,
                               pare_workbook_table *table, pare_error *err);

#endif
