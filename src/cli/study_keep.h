/* study_keep.h: what studies found, kept on a bench and shown again. */
#ifndef PARE_CLI_STUDY_KEEP_H
#define PARE_CLI_STUDY_KEEP_H

#include "cli/options.h"
#include "show/study.h"

/** Whether the bench may be changed: said before the work rather than after it.
 * @param bench  its file or address */
pare_status study_keep_check(const char *bench, pare_error *err);

/** Keeps a study's answer and its table under its name.
 * @param table  a row a task, as CSV
 * @return as pare_store_keep_study(); PARE_BAD_DATA where it is too large for that */
pare_status study_keep(const options *given, const char *bench, const pare_study_view *view,
                       const pare_text *table, pare_error *err);

/** The answer to `pare study` about what is kept: all their names, or one by its name, or one forgotten. */
pare_status study_kept(const options *given, pare_text *out, pare_error *err);

#endif
