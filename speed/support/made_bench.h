/* made_bench.h: a large bench that is nobody's, for measurements. */
#ifndef PARE_SPEED_MADE_BENCH_H
#define PARE_SPEED_MADE_BENCH_H

#include "store/bench.h"

/** From so many parts on there is a craft of each of three sizes. */
enum { MADE_BENCH_ALL_SIZES = 700 };

/** The text of a bench of `parts` parts (29 at least) and the craft "fieldfare", a loaded five inch of
 * 25 items; from MADE_BENCH_ALL_SIZES on also "wren", a three inch, and "heron", a seven. The same every
 * time for one seed.
 * @param[out] text  put at its end */
void made_bench_text(size_t parts, unsigned long long seed, pare_text *text);

/** The same imported, read back and with its tables warm.
 * @param[out] bench  close with pare_bench_close() */
pare_status made_bench(size_t parts, unsigned long long seed, pare_bench **bench, pare_error *err);

#endif
