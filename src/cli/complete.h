/* complete.h: what a command line may go on with, for the completion of shells. */
#ifndef PARE_CLI_COMPLETE_H
#define PARE_CLI_COMPLETE_H

#include "base/text.h"

/** Puts one candidate a line: whole words, each starting with what is typed of the last word.
 *
 * A candidate that ends with '=', ',', ':', '.' or '/' wants to be typed on. Nothing here fails: where a
 * bench or folder cannot be read, there are no candidates.
 * @param words  of the line, behind "pare"; the last one is under the cursor, "" where it is new */
void complete_words(size_t words, const char *const word[], pare_text *out);

#endif
