/* read_table.h: rows of plain numbers under columns that say their unit once, as stand tables and logs
 * have them. Inside the room only. */
#ifndef PARE_STORE_READ_TABLE_H
#define PARE_STORE_READ_TABLE_H

#include "store/reading.h"

/** What a column is called in the text, and what it is. */
typedef struct pare_table_title {
    const char *name;
    pare_dimension dimension;
} pare_table_title;

/** Checks a map of columns to their units. @param title  [titles] those that may be there */
pare_status pare_check_columns(const pare_reading *reading, const pare_node *node, size_t titles,
                               const pare_table_title title[], pare_error *err);

/** Checks a list of rows, each of so many numbers. */
pare_status pare_check_rows(const pare_reading *reading, const pare_node *node, size_t columns,
                            pare_error *err);

/** Reads a table that was checked so.
 * @param[out] value  [rows][titles] in SI; NAN where there is no such column */
pare_status pare_read_table(const pare_reading *reading, const pare_node *columns,
                            const pare_node *rows, size_t titles, const pare_table_title title[],
                            double value[], pare_error *err);

#endif
