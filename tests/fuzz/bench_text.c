/* rooms: store craft physics base; with: bench */
/* bench_text.c: a whole bench as text. What was taken in can be looked at, and comes out as a text that,
 * taken in again, comes out the same. */
#include <string.h>

#include "fuzz.h"
#include "fuzz_bench.h"

static pare_status take_in(const char *bytes, size_t length, pare_error *err)
{
    const pare_import import = {
        .bytes = bytes,
        .length = length,
        .name = "typed.yaml",
        .folder = PARE_SOURCE_DIR "/tests/data", /* where a mesh or two lie */
        .empty_first = true,
    };
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary;
    const pare_status status = pare_store_import_yaml(fuzz_store(), &import, arena, &summary, err);
    pare_arena_close(arena);
    return status;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    pare_error err = {0};
    if (!fuzz_answered(take_in((const char *)bytes, length, &err), &err))
        return 0;
    fuzz_look_through(fuzz_store(), bytes, length);
    pare_text once = {0}, twice = {0};
    fuzz_expect(pare_store_export_yaml(fuzz_store(), &once, &err) == PARE_OK,
                "what was taken in comes out");
    /* Drawings and meshes are files of their own, which nobody hands over here. */
    if (fuzz_answered(take_in(once.bytes, once.length, &err), &err)) {
        fuzz_expect(pare_store_export_yaml(fuzz_store(), &twice, &err) == PARE_OK, "and again");
        fuzz_expect(once.length == twice.length &&
                        memcmp(once.bytes, twice.bytes, once.length) == 0,
                    "taken in again it comes out the same");
    }
    pare_text_free(&once);
    pare_text_free(&twice);
    return 0;
}
