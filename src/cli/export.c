/* export.c: `pare export`: the whole bench as text.
 *
 * To a file it is written beside it, brought to disk and then renamed, so that a failure or an
 * interruption leaves the old file whole. */
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/use.h"
#include "show/json.h"

static pare_status cannot(const char *path, const char *what, pare_error *err)
{
    return pare_fail(err, PARE_UNAVAILABLE, "%s: %s (%s)", path, what, strerror(errno));
}

static bool put_all(int file, const char *bytes, size_t length)
{
    while (length > 0) {
        const ssize_t put = write(file, bytes, length);
        if (put < 0 && errno == EINTR)
            continue;
        if (put <= 0)
            return false;
        bytes += put;
        length -= (size_t)put;
    }
    return true;
}

static pare_status write_beside(const char *path, const pare_text *text, pare_error *err)
{
    struct stat facts;
    const bool there = stat(path, &facts) == 0;
    if (there && !S_ISREG(facts.st_mode))
        return pare_fail(err, PARE_BAD_DATA, "%s: no regular file; right would be a file's name",
                         path);
    pare_text beside = {0};
    pare_text_printf(&beside, "%s.XXXXXX", path);
    if (beside.failed) {
        pare_text_free(&beside);
        return pare_no_memory(err);
    }
    pare_status status = PARE_OK;
    const int file = mkstemp(beside.bytes);
    if (file < 0) {
        status = cannot(path, "cannot be written", err);
        pare_text_free(&beside);
        return status;
    }
    const mode_t mask = umask(0);
    umask(mask);
    const bool written = fchmod(file, there ? facts.st_mode & 07777 : 0666 & ~mask) == 0 &&
                         put_all(file, text->bytes, text->length) && fsync(file) == 0;
    if (!written)
        status = cannot(path, "cannot be written", err);
    if (close(file) != 0 && status == PARE_OK)
        status = cannot(path, "cannot be written", err);
    if (status == PARE_OK && rename(beside.bytes, path) != 0)
        status = cannot(path, "cannot be replaced", err);
    if (status != PARE_OK)
        unlink(beside.bytes);
    pare_text_free(&beside);
    return status;
}

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
        status = write_beside(path, text, err);
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
