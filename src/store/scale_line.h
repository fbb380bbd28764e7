/* scale_line.h: lines of a scale on a serial port, out of text. Pure: no port in sight. */
#ifndef PARE_STORE_SCALE_LINE_H
#define PARE_STORE_SCALE_LINE_H

#include "base/error.h"
#include "store/scale_seen.h"

/** The pattern of many scales: "ST,GS,+  96.20 g". */
#define PARE_SCALE_PATTERN "{state},{any},{weight}{unit}"

/** Whether a pattern can be used.
 *
 * {weight} is a number, its sign may stand apart from it; {unit} a word of letters; {state} a word that
 * says whether it is at rest: ST or S; US, D or M while it moves; OL, OF or + above what it bears; UL or -
 * below nothing; ER for a fault; {any} whatever stands there up to what comes next. Spaces may stand
 * anywhere; all else must be as in the pattern.
 * @return PARE_OK; PARE_BAD_DATA: no {weight}, twice the same, or a brace that names none of these */
pare_status pare_scale_pattern_check(const char *pattern, pare_error *err);

/** Reads a line by a checked pattern. Without {unit}, grams.
 * @param[out] has_pattern  false: it has another, and nothing is said of it
 * @return PARE_OK; PARE_BAD_DATA: a unit that is none of g, mg, kg, oz, lb, with its name */
pare_status pare_scale_line_read(const char *pattern, const char *line, bool *has_pattern,
                                 pare_scale_seen *seen, pare_error *err);

#endif
