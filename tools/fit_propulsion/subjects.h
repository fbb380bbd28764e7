/* subjects.h: what is fitted. Each prints its error tables on stdout and writes a C source of
 * constants, formatted as the project's sources are.
 *
 * @param data_folder  the folder of the measurements
 * @param pictures     the folder that its pictures go to (plot.h), where it draws any
 * @return false where data are missing or a fit failed, said on stderr */
#ifndef FIT_SUBJECTS_H
#define FIT_SUBJECTS_H

#include <stdbool.h>
#include <stdio.h>

bool fit_prop(const char *data_folder, const char *pictures, FILE *constants);
bool fit_drive(const char *data_folder, const char *pictures, FILE *constants);
bool fit_cells(const char *data_folder, const char *pictures, FILE *constants);
bool fit_pair(const char *data_folder, FILE *constants); /* constants: NULL, it has none */

bool fit_chain(const char *data_folder, FILE *constants); /* likewise */
bool fit_floor(const char *data_folder, FILE *constants); /* likewise */

#endif
