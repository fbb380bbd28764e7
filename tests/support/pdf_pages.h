/* pdf_pages.h: the pages of a PDF, by another program (poppler's pdfinfo; Debian: poppler-utils). */
#ifndef PARE_TESTS_PDF_PAGES_H
#define PARE_TESTS_PDF_PAGES_H

#include <stddef.h>

/** The media box of a page (ISO 32000-1, 14.11.2), in points. */
typedef struct pdf_box {
    double left, bottom, right, top;
} pdf_box;

/** Fails the test where the program reads no PDF there.
 * @param[out] box  [most], of the first pages
 * @return how many pages it says there are */
size_t pdf_pages(const char *pdf, size_t most, pdf_box box[]);

#endif
