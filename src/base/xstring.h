/* xstring.h: characters in a workbook's texts that stand as their number. */
#ifndef PARE_BASE_XSTRING_H
#define PARE_BASE_XSTRING_H

#include <stdbool.h>

enum { PARE_XSTRING_ESCAPE = 7 }; /* bytes of one: _x0041_ */

/** Whether an escape stands at c. So a text that really says "_x0041_" has its first sign as one: _x005F_x0041_.
 *
 * Source: ECMA-376 part 1, 22.9.2.19, ST_Xstring.
 * @param[out] code  of the character, 0 to 0xffff; may be NULL */
bool pare_xstring_is_escape(const char *c, unsigned *code);

#endif
