/* rooms: store craft physics base; with: bench */
/* list.c: lists as CSV: parts, weigh-ins, flights, stand tables. The first byte says which of them, and
 * whether bad rows are left out. A dry run leaves the bench as it is. */
#include "fuzz.h"
#include "fuzz_bench.h"
#include "store/csv_import.h"

enum { KINDS = 8, KEEP_GOOD = 8, NOTES = 16 };

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static pare_store *store;
    if (!store)
        store = fuzz_store_filled();
    if (length == 0)
        return 0;
    const unsigned how = bytes[0];
    const pare_list_kind kinds[] = {PARE_LIST_SEEN,    PARE_LIST_PARTS, PARE_LIST_WEIGH_INS,
                                    PARE_LIST_FLIGHTS, PARE_LIST_STAND, PARE_LIST_LOG};
    const pare_list_import import = {
        .bytes = (const char *)bytes + 1,
        .length = length - 1,
        .name = "list.csv",
        .as = kinds[how % KINDS % (sizeof kinds / sizeof kinds[0])],
        .notes = (how & NOTES) != 0,
        .keep_good = (how & KEEP_GOOD) != 0,
        .dry_run = true,
    };
    pare_arena *arena = pare_arena_open();
    pare_list_summary summary = {0};
    pare_error err = {0};
    if (fuzz_answered(pare_store_import_list(store, &import, arena, &summary, &err), &err))
        fuzz_expect(summary.refused_listed <= summary.refused && summary.refused <= summary.rows,
                    "only rows are refused");
    pare_arena_close(arena);
    return 0;
}
