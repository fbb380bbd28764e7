/* study_cover.h: which craft of those that tasks came up with cover the customers. Only study.c uses it. */
#ifndef PARE_CLI_STUDY_COVER_H
#define PARE_CLI_STUDY_COVER_H

#include "cli/study_do.h"
#include "show/study.h"

/** Holds every craft that differs against every brief, on all ranks, then chooses.
 * @param[out] view  in the arena
 * @return PARE_OK, also where nobody is covered; PARE_STOPPED; what failed on a rank; PARE_BAD_DATA: more craft or
 *         customers than can be counted */
pare_status study_cover_find(study_answers *answers, study_share *share,
                             const pare_progress *progress, pare_arena *arena,
                             pare_cover_view *view, pare_error *err);

#endif
