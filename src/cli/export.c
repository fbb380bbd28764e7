/* export.c: `pare export`: the whole bench as text, or one of its lists.
 *
 * YAML and JSON hold all; a list as CSV is flat, so what it leaves out is said on standard error. */
#include <stdio.h>
#include <string.h>

#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/use.h"
#include "show/json.h"
#include "store/disk.h"
#include "store/list_out.h"

static pare_status folder_of(const char *path, pare_text *folder, pare_error *err)
{
    const char *slash = strrchr(path, '/');
    if (slash)
        pare_text_put(folder, path, slash == path ? 1 : (size_t)(slash - path));
    else
        pare_text_add(folder, ".");
    return folder->failed ? pare_no_memory(err) : PARE_OK;
}

typedef enum form { YAML, JSON, LIST } form;

typedef struct wanted {
    form form;
    pare_list_kind list; /* of LIST */
} wanted;

static const struct {
    const char *name, *ending;
    wanted wanted;
} FORMS[] = {
    {"yaml", ".yaml", {YAML, PARE_LIST_SEEN}},        {"json", ".json", {JSON, PARE_LIST_SEEN}},
    {"csv", ".csv", {LIST, PARE_LIST_PARTS}},         {"parts", NULL, {LIST, PARE_LIST_PARTS}},
    {"weigh_ins", NULL, {LIST, PARE_LIST_WEIGH_INS}}, {"flights", NULL, {LIST, PARE_LIST_FLIGHTS}},
    {"stand", NULL, {LIST, PARE_LIST_STAND}},
};
enum { FORM_COUNT = sizeof FORMS / sizeof *FORMS };

/* By --as, or by how the file's name ends; otherwise YAML. */
static pare_status form_of(const options *given, wanted *out, pare_error *err)
{
    const char *names[FORM_COUNT];
    const char *file = given->given & OPTION_OUTPUT ? given->output : "";
    *out = FORMS[0].wanted;
    for (size_t i = 0; i < FORM_COUNT; i++) {
        const size_t length = FORMS[i].ending ? strlen(FORMS[i].ending) : 0;
        names[i] = FORMS[i].name;
        if (given->given & OPTION_AS
                ? strcmp(given->as, names[i]) == 0
                : length && strlen(file) > length &&
                      strcmp(file + strlen(file) - length, FORMS[i].ending) == 0) {
            *out = FORMS[i].wanted;
            return PARE_OK;
        }
    }
    if (!(given->given & OPTION_AS))
        return PARE_OK;
    const char *near = pare_nearest(given->as, FORM_COUNT, names);
    return near ? pare_fail(err, PARE_UNKNOWN, "--as '%.40s'; did you mean %s?", given->as, near)
                : pare_fail(err, PARE_UNKNOWN,
                            "--as '%.40s'; right would be yaml, json, csv, weigh_ins, flights or "
                            "stand",
                            given->as);
}

/* What a flat list has no place for. */
static void say_left(size_t lefts, const char *const left[])
{
    pare_text line = {0};
    for (size_t i = 0; i < lefts; i++)
        pare_text_printf(&line, "%s%s", i ? ", " : "", left[i]);
    if (line.bytes)
        fprintf(stderr, "pare: left out, since a list is flat: %s; YAML and JSON hold all\n",
                line.bytes);
    pare_text_free(&line);
}

static pare_status make(pare_store *store, const wanted *as, pare_text *text, pare_error *err)
{
    size_t rows = 0, lefts = 0;
    const char *const *left = NULL;
    if (as->form == YAML)
        return pare_store_export_yaml(store, text, err);
    if (as->form == JSON)
        return pare_store_export_json(store, text, err);
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    const pare_status status =
        pare_store_export_csv(store, as->list, text, arena, &rows, &lefts, &left, err);
    if (status == PARE_OK)
        say_left(lefts, left);
    pare_arena_close(arena);
    return status;
}

static pare_status to_file(pare_store *store, const char *path, bool meshes, bool json,
                           const pare_text *text, pare_text *out, pare_error *err)
{
    pare_text folder = {0};
    size_t files = 0;
    pare_status status = folder_of(path, &folder, err);
    /* Meshes first: the text that names them comes into being when they are there. */
    if (status == PARE_OK && meshes)
        status = pare_store_export_files(store, folder.bytes, &files, err);
    if (status == PARE_OK)
        status = pare_disk_replace(path, text->bytes, text->length, err);
    if (status == PARE_OK && json) {
        json_t *object = json_object();
        json_object_set_new(object, "file", json_string(path));
        json_object_set_new(object, "bytes", json_integer((json_int_t)text->length));
        json_object_set_new(object, "meshes", json_integer((json_int_t)files));
        pare_json_write(object, out);
    } else if (status == PARE_OK) {
        pare_text_printf(out, "%s written", path);
        if (files)
            pare_text_printf(out, ", %zu files beside it", files);
        pare_text_add(out, "\n");
    }
    pare_text_free(&folder);
    return status;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    pare_text path = {0}, text = {0};
    pare_store *store = NULL;
    wanted as = {YAML, PARE_LIST_SEEN};
    pare_status status = need_operands("export", given, 0, 0, "no word; a file goes after -o", err);
    if (status == PARE_OK)
        status = form_of(given, &as, err);
    if (status == PARE_OK)
        status = bench_path(given, false, &path, err);
    if (status == PARE_OK)
        status = pare_store_open(path.bytes, PARE_STORE_READ, &store, err);
    if (status == PARE_OK) {
        long_work_catch();
        pare_store_watch(store, given->progress);
        status = make(store, &as, &text, err);
        pare_store_watch(store, NULL); /* what is written now is written to its end */
    }
    if (status == PARE_STOPPED)
        pare_fail(err, status, "stopped: nothing was written");
    if (status == PARE_OK && text.failed)
        status = pare_no_memory(err);
    if (status == PARE_OK && given->given & OPTION_OUTPUT)
        status = to_file(store, given->output, as.form != LIST, given->given & OPTION_JSON, &text,
                         out, err);
    else if (status == PARE_OK && given->given & OPTION_JSON)
        status = pare_fail(err, PARE_BAD_DATA,
                           "export --json needs -o FILE: without it the bench's "
                           "text itself goes out; --as json is that text as JSON");
    else if (status == PARE_OK)
        pare_text_put(out, text.bytes, text.length);
    long_work_release(status);
    pare_store_close(store);
    pare_text_free(&text);
    pare_text_free(&path);
    return status;
}

const command command_export = {
    .name = "export",
    .line = "the whole bench as plain text, or its lists as CSV",
    .usage = "pare export [-o FILE] [--as LIST] [--bench FILE] [--json]",
    .details = "By FILE's ending, or --as: yaml (usual) and json hold all, and importing them\n"
               "into a new bench gives the same bench again. csv (or parts), weigh_ins, flights\n"
               "and stand are flat lists for a spreadsheet, with the column names that pare\n"
               "import knows; what has no place in one is said. A thing that was weighed on a\n"
               "craft and is on it no longer goes out as gone.THING.\n",
    .example = "  pare export -o club.yaml\n"
               "  pare export -o parts.csv\n"
               "  pare export --as flights\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_OUTPUT | OPTION_AS,
    .meaning = {{OPTION_OUTPUT, "into a file, its meshes and outlines beside it"},
                {OPTION_AS, "yaml, json, csv, weigh_ins, flights or stand"}},
    .run = run,
};
