/* rooms: store craft physics base */
/* study.c: studies. Each task of one that was read has a place for every value, and a brief or a refusal. */
#include "fuzz.h"
#include "store/read_study.h"

enum { TASKS_LOOKED_AT = 50 };

static void look_at(const pare_study_file *file, size_t number)
{
    const pare_study *study = pare_study_of(file);
    const pare_study_task task = pare_study_task_at(study, number);
    pare_arena *arena = pare_arena_open();
    pare_text text = {0};
    pare_brief brief;
    pare_error err = {0};
    fuzz_expect(task.offer < study->offers && task.brief < study->briefs,
                "a task has an offer and a brief");
    for (size_t i = 0; i < study->axes; i++)
        fuzz_expect(task.value[i] < study->axis[i].count, "a task has a value that there is");
    if (study->brief[0].name)
        fuzz_answered(pare_study_brief_of(file, &task, arena, &brief, &text, &err), &err);
    pare_text_free(&text);
    pare_arena_close(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    const char *path = fuzz_path("study");
    pare_study_file *file = NULL;
    pare_error err = {0};
    fuzz_write(path, bytes, length);
    if (fuzz_answered(pare_study_file_open(path, &file, &err), &err)) {
        const pare_study *study = pare_study_of(file);
        const size_t tasks = study->offers ? pare_study_tasks(study) : 0;
        for (size_t i = 0; i < tasks && i < TASKS_LOOKED_AT; i++)
            look_at(file, i);
        if (tasks)
            look_at(file, tasks - 1);
    }
    pare_study_file_close(file);
    return 0;
}
