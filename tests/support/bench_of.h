/* bench_of.h: a bench from a text, for tests that need a real craft. */
#ifndef PARE_TESTS_BENCH_OF_H
#define PARE_TESTS_BENCH_OF_H

#include "craft/craft.h"

/** Imports a text file of tests/data into a bench of its own in a temporary folder, reads it back
 * with its propeller tables, and removes the folder. Fails the test on any error.
 * Close with pare_bench_close() (store/bench.h). */
pare_bench *bench_of(const char *file);

/** The same from a text in memory. */
pare_bench *bench_of_text(const char *text);

#endif
