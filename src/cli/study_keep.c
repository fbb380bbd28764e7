/* study_keep.c: see study_keep.h.
 *
 * What is kept is one JSON object: "study" and "kept" (its name and the day), "says" (the answer as it is printed on
 * 80 columns), "results" (the table, CSV) and "answer" (as --json had it). A bench may be anybody's, so all of it
 * is looked at before it is shown. */
#include "cli/study_keep.h"

#include <string.h>

#include "cli/day.h"
#include "cli/use.h"
#include "show/json.h"
#include "store/disk.h"
#include "store/studies.h"

enum { MOST_MIB = 64, WIDTH = 80 };

/* ---- kept ---- */

pare_status study_keep_check(const char *bench, pare_error *err)
{
    pare_store *store = NULL;
    const pare_status status = bench_store(bench, PARE_STORE_WRITE, &store, err);
    pare_store_close(store);
    return status;
}

static void put_object(const char *day, const pare_study_view *view, const pare_text *table,
                       pare_text *out)
{
    static const pare_screen screen = {.width = WIDTH, .utf8 = true};
    pare_text says = {0}, answer = {0};
    pare_study_text(view, &screen, &says);
    pare_study_json(view, &answer);
    json_t *object = json_object();
    json_t *all = answer.failed ? NULL : json_loadb(answer.bytes, answer.length, 0, NULL);
    json_object_set_new(object, "study", json_string(view->study->name));
    json_object_set_new(object, "kept", json_string(day));
    json_object_set_new(object, "says", json_stringn(says.bytes, says.length));
    json_object_set_new(object, "results", json_stringn(table->bytes, table->length));
    json_object_set_new(object, "answer", all);
    out->failed = out->failed || !all || says.failed || json_object_size(object) < 5;
    pare_json_write(object, out);
    pare_text_free(&says);
    pare_text_free(&answer);
}

static pare_status put_on(const char *bench, const char *name, const pare_text *bytes,
                          const pare_change *change, pare_error *err)
{
    pare_store *store = NULL;
    pare_status status = bench_store(bench, PARE_STORE_WRITE, &store, err);
    if (status == PARE_OK)
        status = pare_store_keep_study(store, name, bytes ? bytes->bytes : NULL,
                                       bytes ? bytes->length : 0, change, err);
    pare_store_close(store);
    return status;
}

static pare_change named_change(const options *given, const char *option, pare_arena *arena)
{
    pare_change change = change_of("study", given, arena);
    change.what = pare_arena_printf(arena, "%s %s", change.what, option);
    return change;
}

pare_status study_keep(const options *given, const char *bench, const pare_study_view *view,
                       const pare_text *table, pare_error *err)
{
    char day[DAY];
    pare_text bytes = {0};
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? day_today(day, err) : pare_no_memory(err);
    if (status == PARE_OK) {
        put_object(day, view, table, &bytes);
        if (bytes.failed)
            status = pare_no_memory(err);
        else if (bytes.length > (size_t)MOST_MIB << 20)
            status = pare_fail(err, PARE_BAD_DATA, "%zu MiB to be kept on the bench, %d at most",
                               (bytes.length >> 20) + 1, MOST_MIB);
    }
    if (status == PARE_OK) {
        const pare_change change = named_change(given, "--keep", arena);
        status = put_on(bench, view->study->name, &bytes, &change, err);
    }
    pare_text_free(&bytes);
    pare_arena_close(arena);
    return status == PARE_OK ? status
                             : pare_within(err, "the results stand in %s, the bench may lack them",
                                           view->results);
}

/* ---- shown again ---- */

/* A string of it that can be printed: no sign in it tells a terminal to do something. */
static const char *printable(const json_t *object, const char *key)
{
    const char *text = json_string_value(json_object_get(object, key));
    for (const char *c = text; text && *c; c++)
        if (((unsigned char)*c < ' ' && *c != '\n') || *c == 0x7f ||
            ((unsigned char)*c == 0xc2 && (unsigned char)c[1] >= 0x80 &&
             (unsigned char)c[1] < 0xa0))
            return NULL;
    return text;
}

static pare_status read_kept(pare_store *store, const char *name, pare_arena *arena,
                             json_t **object, pare_error *err)
{
    const char *bytes = NULL;
    size_t length = 0;
    const pare_status status = pare_store_kept_study(store, name, arena, &bytes, &length, err);
    if (status != PARE_OK)
        return status;
    *object = json_loadb(bytes, length, JSON_REJECT_DUPLICATES, NULL);
    if (!printable(*object, "study") || !printable(*object, "kept") ||
        !printable(*object, "says") || !json_string_value(json_object_get(*object, "results")) ||
        !json_is_object(json_object_get(*object, "answer")))
        return pare_fail(err, PARE_BAD_DATA,
                         "study '%.48s': what is kept of it is damaged; pare study %.48s --forget "
                         "takes it off the bench",
                         name, name);
    return PARE_OK;
}

static pare_status show_one(const options *given, pare_store *store, pare_arena *arena,
                            pare_text *out, pare_error *err)
{
    json_t *object = NULL;
    pare_status status = read_kept(store, given->operand[0], arena, &object, err);
    if (status == PARE_OK && given->given & OPTION_OUTPUT) {
        const char *table = json_string_value(json_object_get(object, "results"));
        status = pare_disk_replace(given->output, table, strlen(table), err);
    }
    if (status == PARE_OK && given->given & OPTION_JSON) {
        json_object_del(object, "says");
        json_object_del(object, "results");
        pare_json_write(object, out);
        return PARE_OK;
    }
    if (status == PARE_OK) {
        pare_text_printf(out, "kept on %s:\n%s", printable(object, "kept"),
                         printable(object, "says"));
        if (given->given & OPTION_OUTPUT)
            pare_text_printf(out, "\nits results are in %s, a row a task\n", given->output);
    }
    json_decref(object);
    return status;
}

static pare_status list_all(const options *given, pare_store *store, pare_arena *arena,
                            pare_text *out, pare_error *err)
{
    size_t count = 0;
    const char *const *names = NULL;
    const pare_status status = pare_store_kept_studies(store, arena, &count, &names, err);
    if (status != PARE_OK)
        return status;
    if (given->given & OPTION_JSON) {
        json_t *object = json_object(), *list = json_array();
        for (size_t i = 0; i < count; i++)
            json_array_append_new(list, json_string(names[i]));
        json_object_set_new(object, "studies", list);
        pare_json_write(object, out);
        return PARE_OK;
    }
    if (count == 0)
        pare_text_add(out, "no study is kept on this bench; pare study FILE --keep does that\n");
    for (size_t i = 0; i < count; i++)
        pare_text_printf(out, "%s\n", names[i]);
    return PARE_OK;
}

static pare_status forget(const options *given, pare_arena *arena, pare_text *out, pare_error *err)
{
    pare_text path = {0};
    const pare_change change = named_change(given, "--forget", arena);
    pare_status status = bench_path(given, false, &path, err);
    if (status == PARE_OK)
        status = put_on(path.bytes, given->operand[0], NULL, &change, err);
    pare_text_free(&path);
    if (status == PARE_OK && given->given & OPTION_JSON) {
        json_t *object = json_object();
        json_object_set_new(object, "study", json_string(given->operand[0]));
        json_object_set_new(object, "forgotten", json_true());
        pare_json_write(object, out);
    } else if (status == PARE_OK) {
        pare_text_printf(out, "%s forgotten; pare undo brings it back\n", given->operand[0]);
    }
    return status;
}

pare_status study_kept(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK && given->given & OPTION_FORGET) {
        status = forget(given, arena, out, err);
    } else if (status == PARE_OK) {
        status = bench_open(given, PARE_STORE_READ, &use, err);
        if (status == PARE_OK)
            status = given->operands ? show_one(given, use.store, arena, out, err)
                                     : list_all(given, use.store, arena, out, err);
        bench_leave(&use);
    }
    pare_arena_close(arena);
    return status;
}
