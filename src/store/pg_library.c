/* pg_library.c: libpq, loaded when a bench on a server is opened (see pg_library.h). */
#include "store/pg_library.h"

#include <dlfcn.h>
#include <string.h>

#define LIBRARY "libpq.so.5" /* the same name in Debian 12 and 13 */

pare_status pare_pg_library_open(pare_pg_library *library, pare_error *err)
{
    void *loaded = dlopen(LIBRARY, RTLD_NOW | RTLD_LOCAL);
    if (!loaded)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "no bench on a server without " LIBRARY " (%s); right would be its "
                         "package, libpq5, installed",
                         dlerror());
    const struct {
        const char *name;
        void *function; /* a member of the library, which is a pointer to a function */
    } wanted[] = {
#define PARE_PG_WANTED(name) {#name, &library->name},
        PARE_PG_FUNCTIONS(PARE_PG_WANTED)
#undef PARE_PG_WANTED
    };
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        void *found = dlsym(loaded, wanted[i].name);
        if (!found)
            return pare_fail(err, PARE_UNAVAILABLE, LIBRARY " has no %s; it is older than Pare's",
                             wanted[i].name);
        /* POSIX lets an object's pointer hold a function's, C has no cast for it. */
        memcpy(wanted[i].function, &found, sizeof found);
    }
    return PARE_OK;
}
