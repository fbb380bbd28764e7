/* pdf_pages.c: the pages of a PDF, by another program (see pdf_pages.h). */
#include "pdf_pages.h"

#include <stdio.h>
#include <string.h>

#include "near.h"

size_t pdf_pages(const char *pdf, size_t most, pdf_box box[])
{
    char line[512];
    size_t pages = 0, boxes = 0;
    snprintf(line, sizeof line, "LC_ALL=C pdfinfo -box -l %zu '%s'", most, pdf);
    FILE *said = popen(line, "r");
    assert_non_null(said);
    while (fgets(line, sizeof line, said)) {
        size_t page;
        pdf_box b;
        (void)sscanf(line, "Pages: %zu", &pages);
        if (sscanf(line, "Page %zu MediaBox: %lf %lf %lf %lf", &page, &b.left, &b.bottom, &b.right,
                   &b.top) == 5 &&
            page == boxes + 1 && boxes < most)
            box[boxes++] = b;
    }
    if (pclose(said) != 0 || pages == 0 || boxes != (pages < most ? pages : most))
        fail_msg("pdfinfo does not read %s", pdf);
    return pages;
}
