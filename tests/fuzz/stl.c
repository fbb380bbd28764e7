/* rooms: store craft physics base */
/* stl.c: meshes, text and binary. */
#include <math.h>

#include "fuzz.h"
#include "store/hull.h"
#include "store/stl.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    pare_arena *arena = pare_arena_open();
    pare_mesh mesh = {0};
    pare_error err = {0};
    if (fuzz_answered(
            pare_stl_read("x.stl", (const char *)bytes, length, 0.001, arena, &mesh, &err), &err)) {
        pare_mesh_facts facts;
        if (fuzz_answered(pare_mesh_figures(&mesh, &facts, &err), &err))
            fuzz_expect(isfinite(facts.volume_m3) && facts.volume_m3 >= 0,
                        "a mesh that is measured has a volume");
    }
    pare_arena_close(arena);
    return 0;
}
