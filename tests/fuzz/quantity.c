/* rooms: base */
/* quantity.c: quantities as people type them. The first byte picks the dimension. */
#include <math.h>
#include <stdlib.h>

#include "base/units.h"
#include "fuzz.h"

static pare_units *units;

static void close_units(void)
{
    pare_units_close(units);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (length == 0)
        return 0;
    if (!units) {
        units = pare_units_open();
        atexit(close_units);
    }
    const pare_dimension dimension = (pare_dimension)(bytes[0] % PARE_DIMENSIONS);
    char *text = fuzz_text(bytes + 1, length - 1);
    enum { MOST = 3 };
    double one = 0, low = 0, high = 0, several[MOST];
    size_t count = 0;
    pare_error err = {0};
    if (fuzz_answered(pare_quantity(units, text, dimension, &one, &err), &err))
        fuzz_expect(isfinite(one), "a quantity is finite");
    if (fuzz_answered(pare_range(units, text, dimension, &low, &high, &err), &err))
        fuzz_expect(isfinite(low) && isfinite(high) && low <= high, "a range has its order");
    if (fuzz_answered(pare_sizes(units, text, dimension, MOST, several, &count, &err), &err)) {
        fuzz_expect(count >= 1 && count <= MOST, "sizes are as many as there is room for");
        for (size_t i = 0; i < count; i++)
            fuzz_expect(isfinite(several[i]), "sizes are finite");
    }
    free(text);
    return 0;
}
