/* load_library.c: functions found by name (see load_library.h). */
#include "base/load_library.h"

#include <dlfcn.h>
#include <string.h>

pare_status pare_load_library(const pare_library_file *library, size_t count,
                              const pare_library_function wanted[], pare_error *err)
{
    void *loaded = dlopen(library->file, RTLD_NOW | RTLD_LOCAL);
    if (!loaded)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "%s without %s (%s); right would be its package, %s, installed",
                         library->missed, library->file, dlerror(), library->package);
    for (size_t i = 0; i < count; i++) {
        void *found = dlsym(loaded, wanted[i].name);
        if (!found && !wanted[i].optional)
            return pare_fail(err, PARE_UNAVAILABLE, "%s has no %s; it is older than Pare's",
                             library->file, wanted[i].name);
        /* POSIX lets an object's pointer hold a function's, C has no cast for it. */
        memcpy(wanted[i].pointer, &found, sizeof found);
    }
    return PARE_OK;
}
