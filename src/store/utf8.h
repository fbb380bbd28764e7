/* utf8.h: characters of UTF-8, and which of them text may hold. Inside the room only. */
#ifndef PARE_STORE_UTF8_H
#define PARE_STORE_UTF8_H

#include <stdbool.h>
#include <stddef.h>

/** Length of the character at c, with at most `left` bytes (1 or more); 0: not UTF-8.
 * @param[out] code  its number */
size_t pare_utf8_character(const unsigned char *c, size_t left, unsigned *code);

/** Control characters, line breaks of any script, marks that turn the writing direction. */
bool pare_utf8_is_control(unsigned code);

#endif
