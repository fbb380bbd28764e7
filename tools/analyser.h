/* analyser.h: what clang's analyser and gcc cannot see, because neither looks into another source file:
 * what fails does not return PARE_OK. Without it every output of every function that can fail would
 * count as maybe unset. Only tools/lint_tidy and tools/analyse include this, never the build. */
#ifndef PARE_TOOLS_ANALYSER_H
#define PARE_TOOLS_ANALYSER_H

#include "base/error.h"

#define pare_fail(err, status, ...) (pare_fail((err), (status), __VA_ARGS__), (status))
#define pare_within(err, ...)       (pare_within((err), __VA_ARGS__), PARE_BAD_DATA)
#define pare_no_memory(err)         (pare_no_memory(err), PARE_UNAVAILABLE)

#endif
