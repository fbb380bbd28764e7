/* export.c: `pare export`: the whole bench as text. */
#include <string.h>

#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/use.h"
#include "show/json.h"
#include "store/disk.h"

static pare_status folder_of(const char *path, pare_text *folder, pare_error *err)
{
    const char *slash = strrchr(path, '/');
    if (slash)
        pare_text_put(folder, path, slash == path ? 1 : (size_t)(slash - path));
    else
        pare_text_add(folder, ".");
    return folder->failed ? pare_no_memory(err) : PARE_OK;
}

static pare_status to_file(pare_store *store, const char *path, bool json, const pare_text *text,
                           pare_text *out, pare_error *err)
{
    pare_text folder = {0};
    size_t files = 0;
    pare_status status = folder_of(path, &folder, err);
    /* Meshes first: the text that names them comes into being when they are there. */
    if (status == PARE_OK)
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
    pare_status status = need_operands("export", given, 0, 0, "no word; a file goes after -o", err);
    if (status == PARE_OK)
        status = bench_path(given, false, &path, err);
    if (status == PARE_OK)
        status = pare_store_open(path.bytes, PARE_STORE_READ, &store, err);
    if (status == PARE_OK) {
        long_work_catch();
        pare_store_watch(store, given->progress);
        status = pare_store_export_yaml(store, &text, err);
        pare_store_watch(store, NULL); /* what is written now is written to its end */
    }
    if (status == PARE_STOPPED)
        pare_fail(err, status, "stopped: nothing was written");
    if (status == PARE_OK && text.failed)
        status = pare_no_memory(err);
    if (status == PARE_OK && given->given & OPTION_OUTPUT)
        status = to_file(store, given->output, given->given & OPTION_JSON, &text, out, err);
    else if (status == PARE_OK && given->given & OPTION_JSON)
        status = pare_fail(err, PARE_BAD_DATA,
                           "export --json needs -o FILE: without it the bench's "
                           "text itself goes out");
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
    .line = "the whole bench as plain text",
    .usage = "pare export [-o FILE] [--bench FILE] [--json]",
    .details = "Importing that into a new bench gives the same bench again.\n",
    .example = "  pare export -o club.yaml\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_OUTPUT,
    .meaning = {{OPTION_OUTPUT, "into a file, its meshes and outlines beside it"}},
    .run = run,
};
