/* fuzz_bench.c: benches for targets of the store (see fuzz_bench.h). */
#include "fuzz_bench.h"

#include <math.h>
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

static void look_at(const pare_craft *craft, pare_sheet *sheet)
{
    pare_error err = {0};
    if (!fuzz_answered(pare_sheet_compute(craft, false, sheet, &err), &err))
        return;
    for (size_t i = 0; i < PARE_FIGURES; i++)
        fuzz_expect(!isinf(sheet->figure[i].value), "a figure is finite, or is not there");
    for (size_t i = 0; i < sheet->margins; i++)
        fuzz_expect(sheet->margin[i].name[0] != 0, "a margin has a name");
}

void fuzz_look_through(pare_store *store)
{
    pare_bench *bench = NULL;
    pare_error err = {0};
    if (!fuzz_answered(pare_store_read(store, &bench, &err), &err))
        return;
    pare_sheet *sheet = malloc(sizeof *sheet);
    fuzz_expect(sheet != NULL, "there is memory");
    for (size_t i = 0; i < bench->crafts; i++)
        look_at(bench->craft[i], sheet);
    free(sheet);
    pare_bench_close(bench);
}
