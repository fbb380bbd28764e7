/* study_line.h: the answer to a task on one line, as ranks send it and a journal keeps it. */
#ifndef PARE_CLI_STUDY_LINE_H
#define PARE_CLI_STUDY_LINE_H

#include "advise/tasks.h"
#include "base/text.h"

/** Every number keeps all its bits. */
void study_line_put(const pare_task_answer *answer, pare_text *line);

/** @param line     changed: cut into fields, which the answer points to
 *  @param figures  that the study asks for
 *  @return false: it is no such line */
bool study_line_read(char *line, size_t figures, pare_task_answer *answer);

#endif
