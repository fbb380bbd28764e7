/* read_study.h: a study out of its text, and the briefs of its tasks. */
#ifndef PARE_STORE_READ_STUDY_H
#define PARE_STORE_READ_STUDY_H

#include "craft/study.h"
#include "store/bench.h"

typedef struct pare_study_file pare_study_file;

/** Reads a study.
 *
 * @param path  the text, YAML or JSON, 64 MiB at most
 * @param[out] file  close with pare_study_file_close(); NULL on failure
 * @return PARE_OK; PARE_UNKNOWN: a key or figure that is not known; PARE_BAD_DATA: anything else that
 *         cannot be right; both as path:line:column: what, what would be right */
pare_status pare_study_file_open(const char *path, pare_study_file **file, pare_error *err);
void pare_study_file_close(pare_study_file *file);

/** What it says; good until the file is closed. */
const pare_study *pare_study_of(const pare_study_file *file);

/** Puts what benches have in place of what was only asked of them: each craft of a bench whose craft are
 * not listed, and, where no briefs are said, the brief of each craft. @param store  [benches]
 * @return PARE_OK; PARE_UNKNOWN for a craft that is not there, with the place and the nearest; PARE_BAD_DATA:
 *         no craft, too many tasks, or a value of what varies that cannot be */
pare_status pare_study_settle(pare_study_file *file, pare_store *const store[], pare_error *err);

/** The brief of a task, as it would be read from a craft.
 * @param arena  what it points to is in this one and in the file
 * @param[out] text  put at its end: the brief on one line, so that tasks of one text have one brief
 * @return PARE_BAD_DATA, with the place, for values that do not go together */
pare_status pare_study_brief_of(const pare_study_file *file, const pare_study_task *task,
                                pare_arena *arena, pare_brief *brief, pare_text *text,
                                pare_error *err);

/** Fails with a place of the study's text in front. */
#if defined(__GNUC__)
__attribute__((format(printf, 5, 6)))
#endif
pare_status
pare_study_refuse(const pare_study_file *file, pare_study_place at, pare_status status,
                  pare_error *err, const char *format, ...);

/** Puts such a place in front of an error. */
pare_status pare_study_refused_at(const pare_study_file *file, pare_study_place at,
                                  pare_error *err);

#endif
