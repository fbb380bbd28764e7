/* fuzz_bench.c: benches for targets of the store (see fuzz_bench.h). */
#include "fuzz_bench.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "craft/sheet.h"
#include "fuzz.h"

static pare_store *kept;

static void close_kept(void)
{
    pare_store_close(kept);
}

pare_store *fuzz_store(void)
{
    if (!kept) {
        pare_error err = {0};
        fuzz_expect(pare_store_open(fuzz_path("bench.sqlite"), PARE_STORE_CREATE, &kept, &err) ==
                        PARE_OK,
                    "a bench can be made");
        atexit(close_kept);
    }
    return kept;
}

pare_store *fuzz_store_filled(void)
{
    const pare_import import = {.path = PARE_SOURCE_DIR "/tests/data/every-key.yaml",
                                .empty_first = true};
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary;
    pare_error err = {0};
    fuzz_expect(pare_store_import_yaml(fuzz_store(), &import, arena, &summary, &err) == PARE_OK,
                "the tests' own bench is read");
    pare_arena_close(arena);
    return fuzz_store();
}

/* FNV-1a, folded: the same input is always treated the same. A flight costs as much as ten readings of
 * the bench, and is not what rows can break. */
static bool one_in_32(const uint8_t *bytes, size_t length)
{
    uint64_t sum = 0xcbf29ce484222325u;
    for (size_t i = 0; i < length; i++)
        sum = (sum ^ bytes[i]) * 0x100000001b3u;
    return ((sum ^ sum >> 32) & 31) == 0;
}

static void look_at(const pare_craft *craft, bool flown, pare_sheet *sheet)
{
    pare_error err = {0};
    const pare_status status = flown ? pare_sheet_compute(craft, false, sheet, &err)
                                     : pare_sheet_weigh(craft, sheet, &err);
    if (!fuzz_answered(status, &err))
        return;
    for (size_t i = 0; i < PARE_FIGURES; i++)
        fuzz_expect(!isinf(sheet->figure[i].value), "a figure is finite, or is not there");
    for (size_t i = 0; flown && i < sheet->margins; i++)
        fuzz_expect(sheet->margin[i].name[0] != 0, "a margin has a name");
}

void fuzz_look_through(pare_store *store, const uint8_t *bytes, size_t length)
{
    pare_bench *bench = NULL;
    pare_error err = {0};
    if (!fuzz_answered(pare_store_read(store, &bench, &err), &err))
        return;
    pare_sheet *sheet = malloc(sizeof *sheet);
    fuzz_expect(sheet != NULL, "there is memory");
    for (size_t i = 0; i < bench->crafts; i++)
        look_at(bench->craft[i], one_in_32(bytes, length), sheet);
    free(sheet);
    pare_bench_close(bench);
}
