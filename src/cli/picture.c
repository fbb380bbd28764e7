/* picture.c: what kind of picture a file's name asks for (see picture.h). */
#include "cli/picture.h"

#include <string.h>
#include <strings.h>

static const char *const names[] = {
    [PARE_PAGE_SVG] = "svg", [PARE_PAGE_PNG] = "png", [PARE_PAGE_PDF] = "pdf"};

const char *picture_form_name(pare_page_form form)
{
    return names[form];
}

pare_status picture_form(const char *path, const char *what, pare_page_form *form, pare_error *err)
{
    const char *dot = strrchr(path, '.');
    for (size_t i = 0; dot && dot > path && i < sizeof names / sizeof names[0]; i++)
        if (strcasecmp(dot + 1, names[i]) == 0) {
            *form = (pare_page_form)i;
            return PARE_OK;
        }
    return pare_fail(
        err, PARE_BAD_DATA,
        "-o %s: no kind of %s that is known; right would be a file that ends in .pdf, .svg or "
        ".png",
        path, what);
}
