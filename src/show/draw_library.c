/* draw_library.c: cairo and pango, loaded when a page is drawn (see draw_library.h). */
#include "show/draw_library.h"

#include <dlfcn.h>
#include <string.h>

#define LIBRARY "libpangocairo-1.0.so.0" /* the same name in Debian 12 and 13 */

pare_status pare_draw_library_open(pare_draw_library *library, pare_error *err)
{
    void *loaded = dlopen(LIBRARY, RTLD_NOW | RTLD_LOCAL);
    if (!loaded)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "no picture without " LIBRARY " (%s); right would be its package, "
                         "libpangocairo-1.0-0, installed",
                         dlerror());
    const struct {
        const char *name;
        void *function; /* a member of the library, which is a pointer to a function */
    } wanted[] = {
#define PARE_DRAW_WANTED(name) {#name, &library->name},
        PARE_DRAW_FUNCTIONS(PARE_DRAW_WANTED)
#undef PARE_DRAW_WANTED
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

#if defined(__SANITIZE_ADDRESS__)
/* fontconfig keeps its configuration until the program ends, behind offsets that the leak checker
 * does not follow as pointers. Only what that library allocates is left out of its report. The checker
 * is a library, which finds what is visible alone. */
__attribute__((visibility("default"))) const char *__lsan_default_options(void);
const char *__lsan_default_options(void)
{
    return "print_suppressions=0";
}
__attribute__((visibility("default"))) const char *__lsan_default_suppressions(void);
const char *__lsan_default_suppressions(void)
{
    return "leak:libfontconfig.so";
}
#endif
