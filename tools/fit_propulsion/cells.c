/* cells.c: see subjects.h. */
#include "subjects.h"

bool fit_cells(const char *data_folder, FILE *constants)
{
    (void)constants;
    fprintf(stderr, "%s: nothing is fitted to it yet\n", data_folder);
    return false;
}
