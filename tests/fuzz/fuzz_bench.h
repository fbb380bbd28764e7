/* fuzz_bench.h: benches for targets of the store. */
#ifndef PARE_TESTS_FUZZ_BENCH_H
#define PARE_TESTS_FUZZ_BENCH_H

#include <stddef.h>
#include <stdint.h>

#include "store/bench.h"

/** A bench of this program alone, made once and kept open: the same at every call. */
pare_store *fuzz_store(void);

/** The same, filled each time anew with the text that the project's tests have, of every kind of part
 * and record. */
pare_store *fuzz_store_filled(void);

/** Reads all of a bench and weighs every craft: whatever it holds, it answers or refuses. One input in
 * 32, chosen by its own bytes, has its craft flown as well, which takes most of the time. */
void fuzz_look_through(pare_store *store, const uint8_t *bytes, size_t length);

#endif
