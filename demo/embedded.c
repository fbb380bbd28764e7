/* embedded.c: finding one of the embedded files. The table itself is made by CMakeLists.txt. */
#include "embedded.h"

#include <string.h>

const pare_demo_file *pare_demo_file_named(const char *name)
{
    for (size_t i = 0; i < pare_demo_file_count; i++)
        if (strcmp(pare_demo_files[i].name, name) == 0)
            return &pare_demo_files[i];
    return NULL;
}
