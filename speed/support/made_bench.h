/* made_bench.h: a large bench that is nobody's, for measurements. */
#ifndef PARE_SPEED_MADE_BENCH_H
#define PARE_SPEED_MADE_BENCH_H

#include "store/bench.h"

/** The text of a bench of `parts` parts (29 at least) and one craft, "fieldfare", a loaded five inch of
 * 25 items. The same every time. @param[out] text  put at its end */
void made_bench_text(size_t parts, pare_text *text);

/** The same imported, read back and with its tables warm.
 * @param[out] bench  close with pare_bench_close() */
pare_status made_bench(size_t parts, pare_bench **bench, pare_error *err);

#endif
