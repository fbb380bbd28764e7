/* study_do.c: see study_do.h. */
#include "cli/study_do.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/study_line.h"

/* ---- what a rank does ---- */

static pare_status answer_task(const study_open *s, size_t task, const pare_progress *progress,
                               pare_arena *room, pare_text *answer, pare_error *err)
{
    pare_brief brief;
    pare_task_ask ask;
    pare_task_answer found;
    pare_status status = study_ask_of(s, task, room, &brief, &ask, err);
    ask.progress = progress;
    if (status == PARE_OK)
        status = pare_task_answer_it(&ask, room, &found, err);
    if (status == PARE_OK)
        study_line_put(&found, answer);
    return status;
}

/* Whether a craft does what a brief asks in all that varies of it. */
static pare_status fits_brief(const study_open *s, pare_task_craft *craft, size_t offer,
                              size_t number, char why[48], bool *fits, pare_error *err)
{
    const size_t conditions = pare_study_conditions(s->study);
    pare_arena *room = pare_arena_open();
    pare_status status = room ? PARE_OK : pare_no_memory(err);
    pare_brief brief;
    *fits = true;
    for (size_t c = 0; c < conditions && *fits && status == PARE_OK; c++) {
        pare_text text = {0};
        status = study_brief_in(s, offer, number, c, room, &brief, &text, err);
        if (status == PARE_OK)
            *fits = pare_task_craft_does(craft, &brief, why);
        pare_text_free(&text);
        pare_arena_clear(room);
    }
    pare_arena_close(room);
    return status;
}

static pare_status fit(const study_open *s, size_t task, const char *set,
                       const pare_progress *progress, pare_arena *room, pare_text *answer,
                       pare_error *err)
{
    pare_brief brief;
    pare_task_ask ask;
    pare_task_craft craft;
    const size_t offer = pare_study_task_at(s->study, task).offer;
    pare_status status = study_ask_of(s, task, room, &brief, &ask, err);
    if (status == PARE_OK)
        status = pare_task_craft_make(&ask, set, room, &craft, err);
    for (size_t b = 0; b < s->study->briefs && status == PARE_OK; b++) {
        char why[48];
        bool fits = false;
        status = fits_brief(s, &craft, offer, b, why, &fits, err);
        pare_text_printf(answer, "%s%s", b ? "\t" : "", fits ? "+" : why);
        if (status == PARE_OK)
            status = pare_progress_step(progress, NULL, 0, 0, err);
    }
    return status;
}

pare_status study_work_on(void *context, const char *told, const pare_progress *progress,
                          pare_text *answer, pare_error *err)
{
    const study_open *s = context;
    char *end = NULL;
    const unsigned long long task = told[0] ? strtoull(told + 1, &end, 10) : 0;
    if (!end || task >= pare_study_tasks(s->study) || (told[0] != 't' && told[0] != 'f'))
        return pare_fail(err, PARE_UNAVAILABLE, "no job is '%.40s'", told);
    pare_arena *room = pare_arena_open();
    pare_status status = room ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = told[0] == 't'
                     ? answer_task(s, (size_t)task, progress, room, answer, err)
                     : fit(s, (size_t)task, end + (*end == ' '), progress, room, answer, err);
    pare_arena_close(room);
    return status;
}

/* ---- tasks as jobs ---- */

static void tell_task(void *context, size_t job, pare_text *line)
{
    (void)context;
    pare_text_printf(line, "t %zu", job);
}

static pare_status take_task(void *context, size_t job, char *answer, pare_error *err)
{
    study_answers *answers = context;
    answers->line[job] = pare_arena_text(answers->arena, answer);
    return answers->line[job] ? PARE_OK : pare_no_memory(err);
}

/* Tasks of one offer and one wish cost alike. */
static pare_status sort_tasks(const study_answers *answers, study_jobs *jobs, pare_error *err)
{
    const pare_study *study = answers->open->study;
    unsigned *sort = pare_arena_array(answers->arena, answers->tasks, sizeof *sort);
    size_t wish = study->axes;
    for (size_t a = 0; a < study->axes; a++)
        if (study->axis[a].of == PARE_VARY_WISH)
            wish = a;
    const size_t wishes = wish < study->axes ? study->axis[wish].count : 1;
    if (!sort)
        return pare_no_memory(err);
    for (size_t i = 0; i < answers->tasks; i++) {
        const pare_study_task task = pare_study_task_at(study, i);
        sort[i] = (unsigned)(task.offer * wishes + (wish < study->axes ? task.value[wish] : 0));
    }
    jobs->sort = sort;
    jobs->sorts = study->offers * wishes;
    return PARE_OK;
}

pare_status study_tasks_open(study_answers *answers, study_jobs *jobs, pare_error *err)
{
    unsigned long long *key = NULL;
    pare_status status = study_keys(answers->open, &key, err);
    answers->tasks = pare_study_tasks(answers->open->study);
    answers->key = key;
    answers->line = pare_arena_array(answers->arena, answers->tasks, sizeof answers->line[0]);
    if (status == PARE_OK && !answers->line)
        status = pare_no_memory(err);
    *jobs = (study_jobs){.what = "tasks",
                         .count = answers->tasks,
                         .key = key,
                         .context = answers,
                         .tell = tell_task,
                         .take = take_task};
    return status == PARE_OK ? sort_tasks(answers, jobs, err) : status;
}

void study_tasks_close(study_answers *answers)
{
    free(answers->room);
    answers->room = NULL;
}

/* A line that its journal's sum vouches for and that still is none is an answer that nobody has. */
void study_answer_of(void *context, size_t task, pare_task_answer *answer)
{
    study_answers *answers = context;
    const pare_study *study = answers->open->study;
    const char *line = answers->line[task];
    const size_t need = line ? strlen(line) + 1 : 0;
    *answer = (pare_task_answer){.says = PARE_TASK_CANNOT, .why = "no answer"};
    if (need > answers->size) {
        free(answers->room);
        answers->room = malloc(need);
        answers->size = answers->room ? need : 0;
    }
    if (!line || !answers->room)
        return;
    memcpy(answers->room, line, need);
    if (!study_line_read(answers->room, study->figures, answer))
        *answer = (pare_task_answer){.says = PARE_TASK_CANNOT, .why = "no answer"};
}
