/* rooms: store craft physics base; with: bench */
/* propeller_file.c: a blade or a tunnel's table, as text in columns, into a propeller. */
#include "store/propeller_file.h"
#include "fuzz.h"
#include "fuzz_bench.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static pare_store *store;
    if (!store)
        store = fuzz_store_filled();
    const char *path = fuzz_path("table_5000.txt");
    fuzz_write(path, bytes, length);
    const pare_propeller_import import = {
        .files = 1, .path = &path, .propeller = "pr-t", .dry_run = true};
    pare_arena *arena = pare_arena_open();
    pare_propeller_summary summary = {0};
    pare_error err = {0};
    (void)fuzz_answered(pare_store_import_propeller(store, &import, arena, &summary, &err), &err);
    pare_arena_close(arena);
    return 0;
}
