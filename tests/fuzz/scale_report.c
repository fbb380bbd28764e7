/* rooms: store craft base */
/* scale_report.c: what a USB device says it is, and its reports. The first byte is how many bytes of
 * the rest describe it; reports of at most a packet follow. */
#include <math.h>

#include "fuzz.h"
#include "store/scale_report.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (length < 1)
        return 0;
    const size_t described = bytes[0] < length ? bytes[0] : length - 1;
    pare_scale_layout layout;
    pare_error err = {0};
    if (!fuzz_answered(pare_scale_layout_read(described, bytes + 1, &layout, &err), &err))
        return 0;
    fuzz_expect(layout.fields <= PARE_SCALE_FIELDS, "a layout has room for its fields");
    for (size_t at = 1 + described; at < length; at += PARE_SCALE_REPORT) {
        const size_t left = length - at;
        pare_scale_seen seen = {0};
        if (fuzz_answered(
                pare_scale_report_read(&layout, left < PARE_SCALE_REPORT ? left : PARE_SCALE_REPORT,
                                       bytes + at, &seen, &err),
                &err) &&
            seen.weighs)
            fuzz_expect(isfinite(seen.kg) && isfinite(seen.step_kg) && seen.step_kg >= 0,
                        "a weight is a number");
    }
    return 0;
}
