/* rooms: advise store craft physics base; with: bench */
/* proof.c: certificates of a best set. Whatever they say, a craft of which the search itself has proven that
 * no set of parts meets its brief in its first loadout is never granted one. */
#include <stdlib.h>
#include <string.h>

#include "advise/proof.h"
#include "fuzz.h"
#include "fuzz_bench.h"

enum { MARK = 1 };

typedef struct lines {
    const char *next, *end;
} lines;

static int next_line(void *context, char line[PARE_PROOF_LINE])
{
    lines *from = context;
    if (from->next == from->end)
        return -1;
    const char *stop = memchr(from->next, '\n', (size_t)(from->end - from->next));
    const size_t length = (size_t)((stop ? stop : from->end) - from->next);
    if (length >= PARE_PROOF_LINE || memchr(from->next, '\0', length))
        return -2;
    memcpy(line, from->next, length);
    line[length] = '\0';
    from->next = stop ? stop + 1 : from->end;
    return (int)length;
}

/* The bench stays the same here, and so does its number. */
static pare_status mark(void *context, const pare_craft *craft, unsigned long long *number,
                        pare_error *err)
{
    (void)context;
    (void)craft;
    (void)err;
    *number = MARK;
    return PARE_OK;
}

static pare_bench *bench;

static void close_bench(void)
{
    pare_bench_close(bench);
}

static void open_bench(void)
{
    pare_error err = {0};
    pare_store *store = fuzz_store_filled();
    fuzz_expect(pare_store_read(store, &bench, &err) == PARE_OK &&
                    pare_store_warm(store, bench, &err) == PARE_OK,
                "the tests' own bench can be read");
    atexit(close_bench);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (!bench)
        open_bench();
    lines from = {(const char *)bytes, (const char *)bytes + length};
    const pare_proof_source source = {next_line, &from, "x.proof"};
    pare_proof_told told = {0};
    pare_error err = {0};
    if (!fuzz_answered(pare_proof_check(bench, &source, mark, NULL, NULL, &told, &err), &err))
        return 0;
    fuzz_expect(told.verified == (told.refusal[0] == '\0'), "what is refused says why");
    const bool free_choice = told.holds == 0 && told.nevers == 0 && told.musts == 0;
    if (told.verified && free_choice && told.loadout && strcmp(told.loadout, "race") == 0)
        fuzz_expect(!told.found, "no certificate grants a set where there is none");
    return 0;
}
