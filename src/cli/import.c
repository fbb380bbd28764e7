/* import.c: `pare import`: a bench's text into the bench. */
#include <stdbool.h>
#include <stdio.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/use.h"
#include "show/json.h"

static void as_json(const pare_import_summary *s, pare_text *out)
{
    const struct {
        const char *key;
        size_t count;
    } rows[] = {{"parts_added", s->parts_added},
                {"parts_replaced", s->parts_replaced},
                {"parts_same", s->parts_same},
                {"craft_added", s->craft_added},
                {"craft_replaced", s->craft_replaced},
                {"craft_same", s->craft_same},
                {"records_added", s->records_added},
                {"records_same", s->records_same},
                {"files", s->files}};
    json_t *object = json_object(), *warnings = json_array();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        json_object_set_new(object, rows[i].key, json_integer((json_int_t)rows[i].count));
    for (size_t i = 0; i < s->warnings; i++)
        json_array_append_new(warnings, json_string(s->warning[i]));
    json_object_set_new(object, "warnings", warnings);
    pare_json_write(object, out);
}

static void line(pare_text *out, const char *what, size_t added, size_t replaced, size_t same)
{
    if (added + replaced + same == 0)
        return;
    pare_text_printf(out, "%-8s %zu added", what, added);
    if (replaced)
        pare_text_printf(out, ", %zu replaced", replaced);
    if (same)
        pare_text_printf(out, ", %zu as before", same);
    pare_text_add(out, "\n");
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    pare_text path = {0};
    pare_store *store = NULL;
    pare_import_summary summary = {0};
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("import", given, 1, 1, "one file", err);
    if (status == PARE_OK)
        status = bench_path(given, false, &path, err);
    long_work_catch();
    const bool was_there = status == PARE_OK && access(path.bytes, F_OK) == 0;
    if (status == PARE_OK)
        status = pare_store_open(path.bytes, PARE_STORE_CREATE, &store, err);
    const bool made = store && !was_there;
    if (status == PARE_OK) {
        pare_store_watch(store, given->progress);
        const pare_import import = {.path = given->operand[0],
                                    .change = change_of("import", given, arena)};
        status = pare_store_import_yaml(store, &import, arena, &summary, err);
    }
    long_work_release(status);
    pare_progress_over(given->progress);
    if (status == PARE_STOPPED)
        pare_fail(err, status, "stopped: nothing was imported%s",
                  made ? ", and no bench was made" : "; the bench is as it was");
    if (status == PARE_OK) {
        for (size_t i = 0; i < summary.warnings; i++)
            fprintf(stderr, "pare: warning: %s\n", summary.warning[i]);
        if (given->given & OPTION_JSON) {
            as_json(&summary, out);
        } else {
            pare_text_printf(out, "into %s\n", path.bytes);
            line(out, "parts", summary.parts_added, summary.parts_replaced, summary.parts_same);
            line(out, "craft", summary.craft_added, summary.craft_replaced, summary.craft_same);
            line(out, "records", summary.records_added, 0, summary.records_same);
            if (summary.files)
                pare_text_printf(out, "files    %zu read\n", summary.files);
        }
    }
    pare_store_close(store);
    if (made && status != PARE_OK)
        unlink(path.bytes); /* nothing came in: leave no empty bench behind */
    pare_text_free(&path);
    pare_arena_close(arena);
    return status;
}

const command command_import = {
    .name = "import",
    .line = "parts and craft from a bench's text (YAML) into the bench",
    .usage = "pare import FILE [--why TEXT] [--bench FILE] [--json]",
    .details = "All of the file goes in, or nothing. A part or craft of that name is replaced.\n"
               "Mesh files are looked for in the file's folder. A bench not there yet is made.\n",
    .example = "  pare export -o club.yaml\n"
               "  pare import club.yaml --bench club.sqlite\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_WHY,
    .meaning = {{OPTION_BENCH, "another bench than your own; made when not there yet"}},
    .run = run,
};
