/* report_paper.h: one craft as pages to print: the drawn page, then its tables. */
#ifndef PARE_SHOW_REPORT_PAPER_H
#define PARE_SHOW_REPORT_PAPER_H

#include "show/report_tables.h"

/** A PDF; its bytes go to the end of `out`. The same report gives the same bytes.
 *
 * @param report  filled; its scale is set
 * @param tables  made of that report
 * @param[out] pages  how many there are
 * @return PARE_OK, or as pare_report_page() */
pare_status pare_report_paper(pare_report *report, const pare_report_tables *tables, size_t *pages,
                              pare_text *out, pare_error *err);

#endif
