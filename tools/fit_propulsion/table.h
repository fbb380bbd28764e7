/* table.h: reading columns of numbers from a measurement's text file. */
#ifndef FIT_TABLE_H
#define FIT_TABLE_H

#include <stdbool.h>
#include <stddef.h>

/** A table of numbers, row after row. A cell that is no number is NAN. */
typedef struct fit_table {
    size_t rows, columns;
    double *cell; /* [rows * columns] */
    char *head;   /* the heading line, or "" */
} fit_table;

/** Reads columns separated by commas, or by blanks where a line has no comma.
 *
 * The first line that does not begin with a number is the heading; later ones are skipped. Columns
 * are those of the first line of numbers.
 * @return false where the file cannot be read or holds no numbers; says so on stderr */
bool fit_table_read(const char *path, fit_table *table);
void fit_table_free(fit_table *table);

static inline double fit_table_at(const fit_table *table, size_t row, size_t column)
{
    return table->cell[row * table->columns + column];
}

/** The paths of the files below a folder whose name ends so, in order of name.
 * @return how many; the paths and the list are the caller's (fit_paths_free) */
size_t fit_paths(const char *folder, const char *ending, char ***paths);
void fit_paths_free(size_t count, char **paths);

#endif
