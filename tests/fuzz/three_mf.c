/* rooms: store craft physics base */
/* three_mf.c: packed models of printers: a zip, with XML in it. */
#include <math.h>

#include "fuzz.h"
#include "store/three_mf.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    pare_mesh_facts facts;
    pare_error err = {0};
    if (fuzz_answered(pare_three_mf_measure("x.3mf", (const char *)bytes, length, &facts, &err),
                      &err))
        fuzz_expect(isfinite(facts.volume_m3) && facts.volume_m3 >= 0,
                    "a model that is measured has a volume");
    return 0;
}
