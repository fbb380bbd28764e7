/* book.h: tables as a workbook, a sheet each, by libxlsxwriter. Inside the room and for cli/report.c. */
#ifndef PARE_SHOW_BOOK_H
#define PARE_SHOW_BOOK_H

#include "show/table.h"

/** Writes a workbook: titles, units and the first column stay in sight, totals are formulas.
 *
 * Every text is written as a text, so that a name that begins with '=' stays a name. The same tables give
 * the same bytes. The library gives no word of a disk that is full while it gathers a sheet: who calls
 * reads the file again (store/workbook.h).
 * @param title   what the workbook is called in its properties
 * @param table   [tables], none of which failed
 * @param folder  where the file goes, under this name, and what the library keeps meanwhile
 * @param[out] rows  [tables] in each sheet: what must be in the file
 * @return PARE_OK, or PARE_UNAVAILABLE: no memory, or the disk is full */
pare_status pare_book_write(const char *title, size_t tables, const pare_table table[],
                            const char *folder, const char *path, size_t rows[], pare_error *err);

#endif
