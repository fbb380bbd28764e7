/* rooms: store craft physics base */
/* svg.c: drawings of plates. */
#include <math.h>

#include "fuzz.h"
#include "store/svg.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    pare_arena *arena = pare_arena_open();
    pare_loops loops = {.arena = arena};
    pare_outline_facts facts;
    pare_error err = {0};
    if (fuzz_answered(pare_svg_measure("x.svg", (const char *)bytes, length, &loops, &facts, &err),
                      &err)) {
        fuzz_expect(isfinite(facts.area_m2) && facts.area_m2 > 0, "a plate has an area");
        fuzz_expect(loops.count == facts.holes + 1, "each loop but the outer one is a hole");
    }
    pare_arena_close(arena);
    return 0;
}
