/* draw_library.c: cairo and pango, loaded when a page is drawn (see draw_library.h). */
#include "show/draw_library.h"

#include "base/load_library.h"

pare_status pare_draw_library_open(pare_draw_library *library, pare_error *err)
{
    static const pare_library_file file = {
        .file = "libpangocairo-1.0.so.0", /* the same name in Debian 12 and 13 */
        .package = "libpangocairo-1.0-0",
        .missed = "no picture",
    };
    const pare_library_function wanted[] = {
#define PARE_DRAW_WANTED(name) {#name, &library->name, false},
        PARE_DRAW_FUNCTIONS(PARE_DRAW_WANTED)
#undef PARE_DRAW_WANTED
    };
    return pare_load_library(&file, sizeof wanted / sizeof wanted[0], wanted, err);
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
