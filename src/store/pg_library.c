/* pg_library.c: libpq, loaded when a bench on a server is opened (see pg_library.h). */
#include "store/pg_library.h"

#include "base/load_library.h"

pare_status pare_pg_library_open(pare_pg_library *library, pare_error *err)
{
    static const pare_library_file file = {
        .file = "libpq.so.5", /* the same name in Debian 12 and 13 */
        .package = "libpq5",
        .missed = "no bench on a server",
    };
    const pare_library_function wanted[] = {
#define PARE_PG_WANTED(name) {#name, &library->name, false},
        PARE_PG_FUNCTIONS(PARE_PG_WANTED)
#undef PARE_PG_WANTED
    };
    return pare_load_library(&file, sizeof wanted / sizeof wanted[0], wanted, err);
}
