/* study.c: the tasks of a study, by their numbers (see study.h). */
#include "craft/study.h"

size_t pare_study_tasks(const pare_study *study)
{
    size_t count = study->offers * study->briefs;
    for (size_t i = 0; i < study->axes && count <= PARE_STUDY_TASKS; i++)
        count *= study->axis[i].count;
    return count <= PARE_STUDY_TASKS ? count : 0;
}

pare_study_task pare_study_task_at(const pare_study *study, size_t number)
{
    pare_study_task task = {0};
    for (size_t i = study->axes; i-- > 0;) {
        task.value[i] = number % study->axis[i].count;
        number /= study->axis[i].count;
    }
    task.brief = number % study->briefs;
    task.offer = number / study->briefs;
    return task;
}

size_t pare_study_conditions(const pare_study *study)
{
    size_t count = 1;
    for (size_t i = 0; i < study->axes; i++)
        if (study->axis[i].of == PARE_VARY_BRIEF)
            count *= study->axis[i].count;
    return count;
}

void pare_study_condition(const pare_study *study, size_t number, pare_study_task *task)
{
    for (size_t i = study->axes; i-- > 0;) {
        task->value[i] = 0;
        if (study->axis[i].of != PARE_VARY_BRIEF)
            continue;
        task->value[i] = number % study->axis[i].count;
        number /= study->axis[i].count;
    }
}

const char *pare_study_word(const pare_study *study, const pare_study_task *task, pare_vary of)
{
    for (size_t i = 0; i < study->axes; i++)
        if (study->axis[i].of == of)
            return study->axis[i].word[task->value[i]];
    return NULL;
}
