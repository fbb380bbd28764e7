/* keep.h: benches that were read, kept for the next question: for the server, where reading two thousand
 * parts for each swap that somebody looks at would take most of the time.
 *
 * One that is kept is lent to one command at a time. It is good as long as nobody has changed the file,
 * which the database itself tells; another file of its name is another bench. */
#ifndef PARE_CLI_KEEP_H
#define PARE_CLI_KEEP_H

#include "cli/use.h"

/** None yet, or NULL without memory. Close with bench_keep_close() when no command runs any more. */
bench_keep *bench_keep_open(void);
void bench_keep_close(bench_keep *keep);

/** One that is still good, if there is one, in `use`. @return false: read it anew */
bool bench_keep_take(bench_keep *keep, const options *given, bench_in_use *use);
/** Gives one back that was read, or was taken; it is closed where it is not worth keeping. */
void bench_keep_give(bench_keep *keep, bench_in_use *use);

#endif
