/* rooms: store craft physics base; with: bench */
/* database.c: a bench's file, whole or damaged. */
#include "fuzz.h"
#include "fuzz_bench.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    const char *path = fuzz_path("damaged.sqlite");
    fuzz_write(path, bytes, length);
    pare_store *store = NULL;
    pare_error err = {0};
    if (!fuzz_answered(pare_store_open(path, PARE_STORE_READ, &store, &err), &err)) {
        fuzz_expect(!store, "what is refused is not opened");
        return 0;
    }
    fuzz_look_through(store, bytes, length);
    pare_store_close(store);
    return 0;
}
