/* report_html.h: one craft as a document for a browser or a printer. */
#ifndef PARE_SHOW_REPORT_HTML_H
#define PARE_SHOW_REPORT_HTML_H

#include "show/report_tables.h"

/** One file that asks for nothing outside itself: the drawn page, then the tables, then the cautions.
 *
 * @param report  filled; its scale is set
 * @param tables  made of that report
 * @param out     the document goes to its end; the same report gives the same bytes
 * @return PARE_OK, or as pare_report_page() */
pare_status pare_report_html(pare_report *report, const pare_report_tables *tables, pare_text *out,
                             pare_error *err);

#endif
