/* page.h: the tables of docs/physics.md that a fit prints.
 *
 * Such a table stands on the page between "<!-- fit: NAME -->" and "<!-- end -->", as it is printed. */
#ifndef FIT_PAGE_H
#define FIT_PAGE_H

#include <stdbool.h>
#include <stdio.h>

typedef struct fit_block {
    FILE *out; /* a table is written to it */
    char *text;
    size_t length;
} fit_block;

/** @return false: no memory */
bool fit_block_open(fit_block *block);

/** Prints what was written, and puts it on the page in place of what stood there.
 * @return false where the page has no such place or cannot be written, said on stderr */
bool fit_block_close(fit_block *block, const char *page, const char *name);

#endif
