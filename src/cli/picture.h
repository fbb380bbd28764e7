/* picture.h: what kind of picture a file's name asks for. */
#ifndef PARE_CLI_PICTURE_H
#define PARE_CLI_PICTURE_H

#include "show/draw_page.h"

/** By the ending of -o FILE.
 * @param what  "report": what there is no such kind of
 * @return PARE_OK, or PARE_BAD_DATA, which names the endings that are known */
pare_status picture_form(const char *path, const char *what, pare_page_form *form, pare_error *err);
const char *picture_form_name(pare_page_form form); /* "svg" */

#endif
