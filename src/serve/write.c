/* write.c: changes. A body in JSON becomes the words of a command, as a query does (read.c).
 *
 * A change says which version of the craft or part it was meant for. One change is made at a time, and
 * the version is looked at while it waits for nobody: so of two pages that change the same craft the
 * second is told, and nothing of the first is lost. Another program that changes the bench in that
 * moment is kept apart by the commands themselves, as two terminals are. */
#include "serve/writing.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "craft/taken.h"

/* ---- what a body holds ---- */

const char *pare_writing_text(pare_writing *w, const json_t *object, const char *key, bool needed)
{
    const json_t *value = json_object_get(object, key);
    if (json_is_string(value) && json_string_length(value) > 0)
        return json_string_value(value);
    if (w->err.status != PARE_OK || (!needed && (!value || json_is_null(value))))
        return NULL;
    if (value && !json_is_null(value))
        pare_fail(&w->err, PARE_BAD_DATA, "%s: '%s' must be a text, and not empty",
                  w->request->path, key);
    else
        pare_fail(&w->err, PARE_BAD_DATA, "%s needs '%s', a text", w->request->path, key);
    return NULL;
}

void pare_writing_option(pare_writing *w, const char *name, const char *value)
{
    if (value)
        pare_words_option(&w->words, name, value);
}

void pare_writing_operand(pare_writing *w, const char *word)
{
    if (word)
        pare_words_operand(&w->words, word);
}

bool pare_writing_flag(pare_writing *w, const char *key)
{
    const json_t *value = json_object_get(w->body, key);
    if (value && !json_is_boolean(value))
        pare_fail(&w->err, PARE_BAD_DATA, "%s: '%s' must be true or false", w->request->path, key);
    return json_is_true(value);
}

void pare_writing_pairs(pare_writing *w, const char *key, const char *option)
{
    json_t *pairs = json_object_get(w->body, key), *value;
    const char *name;
    if (!json_is_object(pairs) || json_object_size(pairs) == 0) {
        pare_fail(&w->err, PARE_BAD_DATA, "%s: '%s' must be an object like {\"mass\":\"31.2 g\"}",
                  w->request->path, key);
        return;
    }
    json_object_foreach(pairs, name, value)
    {
        const char *text = pare_writing_text(w, pairs, name, true);
        if (!text)
            return;
        if (strchr(name, '=')) {
            pare_fail(&w->err, PARE_BAD_DATA, "%s: no key '%s'", w->request->path, name);
            return;
        }
        const char *pair = pare_arena_printf(w->request->arena, "%s=%s", name, text);
        if (option)
            pare_writing_option(w, option, pair);
        else
            pare_writing_operand(w, pair);
    }
}

/* ---- one function a change ---- */

static void take(pare_writing *w)
{
    const char *state = pare_writing_text(w, w->body, "state", false);
    const char *date = pare_writing_text(w, w->body, "date", false);
    int stage = 0;
    w->words.command = "take";
    w->name = pare_writing_text(w, w->body, "craft", true);
    w->needs = true;
    pare_writing_operand(w, w->name);
    pare_writing_operand(w, pare_writing_text(w, w->body, "swap", true));
    if (state && strcmp(state, "leave") == 0) {
        pare_words_option(&w->words, "leave", NULL);
    } else {
        while (state && stage < PARE_STAGES &&
               strcmp(state, pare_stage_name((pare_stage)stage)) != 0)
            stage++;
        if (stage == PARE_STAGES)
            pare_fail(&w->err, PARE_BAD_DATA,
                      "no state '%.40s'; there are chosen, ordered, fitted, weighed, flown, leave",
                      state);
        else if (state || date)
            pare_writing_option(w, pare_stage_name((pare_stage)stage), date ? date : "today");
    }
}

static void undo(pare_writing *w)
{
    w->words.command = "undo";
}

static void redo(pare_writing *w)
{
    w->words.command = "redo";
}

static void edit(pare_writing *w)
{
    const char *what = pare_writing_text(w, w->body, "do", false);
    const char *part = pare_writing_text(w, w->body, "part", false);
    const char *craft = pare_writing_text(w, w->body, "craft", part == NULL);
    const bool limits = json_object_get(w->body, "limit") != NULL;
    const bool adds = what && strcmp(what, "add") == 0, copies = what && strcmp(what, "copy") == 0;
    const bool removes = what && strcmp(what, "remove") == 0;
    if (part && craft)
        pare_fail(&w->err, PARE_BAD_DATA, "/api/edit changes a craft or a part, not both at once");
    if (what && !adds && !copies && !removes && strcmp(what, "change") != 0)
        pare_fail(&w->err, PARE_BAD_DATA, "no way to '%.40s'; there are change, add, copy, remove",
                  what);
    if (limits && (part || what || json_object_get(w->body, "set")))
        pare_fail(&w->err, PARE_BAD_DATA,
                  "/api/edit: 'limit' stands with a craft, and without 'set' or 'do'");
    w->words.command = part ? "parts" : "craft";
    w->part = part != NULL;
    w->needs = !adds;
    w->name = adds ? NULL : part ? part : craft;
    pare_writing_operand(w, limits ? "limit" : what ? what : "change");
    pare_writing_operand(w, part ? part : craft);
    if (copies)
        pare_writing_operand(w, pare_writing_text(w, w->body, "to", true));
    else if (!removes)
        pare_writing_pairs(w, limits ? "limit" : "set", NULL);
}

/* "10*motor_base=7.5 g"; what is said of each reading must be the same for all, as typed. */
static void put_reading(pare_writing *w, const json_t *reading, const char **scale,
                        const char **date)
{
    const char *of = pare_writing_text(w, reading, "of", true);
    const char *grams = pare_writing_text(w, reading, "grams", true);
    const char *own_scale = pare_writing_text(w, reading, "scale", false);
    const char *own_date = pare_writing_text(w, reading, "date", false);
    const json_t *count = json_object_get(reading, "count");
    if (!of || !grams)
        return;
    if ((own_scale && *scale && strcmp(own_scale, *scale) != 0) ||
        (own_date && *date && strcmp(own_date, *date) != 0)) {
        pare_fail(&w->err, PARE_BAD_DATA, "/api/weigh: one scale and one day at a time");
        return;
    }
    *scale = own_scale ? own_scale : *scale;
    *date = own_date ? own_date : *date;
    if (count && !json_is_null(count) && !json_is_integer(count))
        pare_fail(&w->err, PARE_BAD_DATA, "/api/weigh: 'count' must be a whole number");
    else if (json_is_integer(count))
        pare_writing_operand(w, pare_arena_printf(w->request->arena, "%lld*%s=%s",
                                                  (long long)json_integer_value(count), of, grams));
    else
        pare_writing_operand(w, pare_arena_printf(w->request->arena, "%s=%s", of, grams));
}

static void weigh(pare_writing *w)
{
    const json_t *readings = json_object_get(w->body, "readings");
    const char *scale = pare_writing_text(w, w->body, "scale", false);
    const char *date = pare_writing_text(w, w->body, "date", false);
    w->words.command = "weigh";
    w->name = pare_writing_text(w, w->body, "craft", true);
    pare_writing_operand(w, w->name);
    if (!json_is_array(readings) || json_array_size(readings) == 0)
        pare_fail(&w->err, PARE_BAD_DATA, "/api/weigh needs 'readings', a list");
    for (size_t i = 0; w->err.status == PARE_OK && i < json_array_size(readings); i++)
        put_reading(w, json_array_get(readings, i), &scale, &date);
    pare_writing_option(w, "scale", scale);
    pare_writing_option(w, "date", date);
    pare_writing_option(w, "loadout", pare_writing_text(w, w->body, "loadout", false));
}

static void scale(pare_writing *w)
{
    w->words.command = "scale";
    pare_writing_operand(w, pare_writing_text(w, w->body, "scale", true));
    pare_writing_pairs(w, "set", NULL);
}

/* ---- which ---- */

enum { KEYS = 16 };
static const struct {
    const char *path;
    void (*read)(pare_writing *w);
    const char *key[KEYS];
} CHANGES[] = {
    {"/api/take", take, {"craft", "version", "swap", "state", "date", "why"}},
    {"/api/undo", undo, {"version"}},
    {"/api/redo", redo, {"version"}},
    {"/api/edit", edit, {"craft", "part", "version", "do", "set", "limit", "to", "why"}},
    {"/api/weigh", weigh, {"craft", "version", "readings", "scale", "date", "loadout", "why"}},
    {"/api/scale", scale, {"scale", "version", "set", "why"}},
    {"/api/import",
     pare_writing_import,
     {"name", "text", "base64", "as", "kind", "separator", "decimal", "map", "set", "notes",
      "keep_good", "dry_run", "version", "why"}},
};
enum { COUNT = sizeof CHANGES / sizeof CHANGES[0] };

static size_t change_at(const char *path)
{
    size_t i = 0;
    while (i < COUNT && strcmp(CHANGES[i].path, path) != 0)
        i++;
    return i;
}

bool pare_serve_writes(const char *path)
{
    return change_at(path) < COUNT;
}

static void read_body(pare_writing *w, size_t which)
{
    json_error_t where;
    const char *name;
    json_t *value;
    w->body = json_loadb(pare_text_all(&w->request->body), w->request->body.length,
                         JSON_REJECT_DUPLICATES, &where);
    if (!w->body || !json_is_object(w->body)) {
        if (w->body)
            pare_fail(&w->err, PARE_BAD_DATA, "body:1:1: an object is due, like {\"craft\":...}");
        else
            pare_fail(&w->err, PARE_BAD_DATA, "body:%d:%d: %s; JSON is due", where.line,
                      where.column, where.text);
        return;
    }
    json_object_foreach(w->body, name, value)
    {
        size_t known = 0, keys = 0;
        while (keys < KEYS && CHANGES[which].key[keys])
            known += strcmp(CHANGES[which].key[keys++], name) == 0;
        if (known)
            continue;
        const char *near = pare_nearest(name, keys, CHANGES[which].key);
        pare_fail(&w->err, PARE_BAD_DATA, "%s takes no '%.60s'%s%s%s", w->request->path, name,
                  near ? "; did you mean " : "", near ? near : "", near ? "?" : "");
        return;
    }
    CHANGES[which].read(w);
    pare_writing_option(w, "why", pare_writing_text(w, w->body, "why", false));
}

/* ---- the change itself ---- */

/* What was said of the version against what stands there. @return true where it may go on */
static bool is_current(pare_writing *w, enum MHD_Result *result)
{
    const json_t *said = json_object_get(w->body, "version");
    long long now = 0;
    if (w->needs && !said)
        pare_fail(&w->err, PARE_BAD_DATA, "%s needs 'version', as /api/version gave it",
                  w->request->path);
    else if (said && !json_is_integer(said))
        pare_fail(&w->err, PARE_BAD_DATA, "%s: 'version' must be a whole number", w->request->path);
    else if (said)
        pare_serve_version(w->request->server, w->part, w->name, &now, &w->err);
    if (w->err.status != PARE_OK) {
        *result = pare_reply_failed(w->request, &w->err, true);
        return false;
    }
    if (!said || json_integer_value(said) == now)
        return true;
    char words[256];
    snprintf(words, sizeof words,
             "%.80s was changed meanwhile; nothing of this was done: look at it as it is now, then "
             "say it again",
             w->name ? w->name : "the bench");
    *result =
        pare_reply_object(w->request, MHD_HTTP_CONFLICT,
                          json_pack("{s:s, s:I}", "error", words, "version", (json_int_t)now));
    return false;
}

static bool goes_on(void *context, const char *doing, size_t done, size_t all)
{
    (void)context, (void)doing, (void)done, (void)all;
    return true; /* a change that was begun is brought to its end */
}

/* {"version":N,"command":"...","answer":...}, the answer as the command gave it. */
static enum MHD_Result reply(pare_writing *w, const pare_text *answer, long long version)
{
    pare_text out = {0};
    json_t *command = json_string(w->request->command);
    char *quoted = command ? json_dumps(command, JSON_ENCODE_ANY) : NULL;
    json_decref(command);
    pare_text_printf(&out, "{\"version\":%lld,\"command\":%s,\"answer\":%s}\n", version,
                     quoted ? quoted : "null", answer->bytes ? answer->bytes : "null");
    free(quoted);
    return pare_reply_json(w->request, MHD_HTTP_OK, &out);
}

static enum MHD_Result change(pare_writing *w)
{
    enum MHD_Result result = MHD_NO;
    pare_text answer = {0};
    long long version = 0;
    if (!is_current(w, &result))
        return result;
    const pare_progress progress = {.step = goes_on};
    pare_status status = pare_words_ask(&w->words, w->request->server, &progress, &answer, &w->err);
    pare_error none = {0}; /* a craft that was removed has no version any more */
    if (status == PARE_OK &&
        pare_serve_version(w->request->server, w->part, w->name, &version, &none) != PARE_OK)
        version = 0;
    pare_drawer_hide(&w->drawer, answer.bytes);
    pare_drawer_hide(&w->drawer, w->err.text);
    result = status == PARE_OK ? reply(w, &answer, version)
                               : pare_reply_failed(w->request, &w->err, true);
    pare_text_free(&answer);
    return result;
}

enum MHD_Result pare_serve_write(pare_request *request)
{
    pare_writing *w = pare_arena_zeros(request->arena, sizeof *w);
    if (!w)
        return MHD_NO;
    *w = (pare_writing){.request = request, .words = {.arena = request->arena}};
    read_body(w, change_at(request->path));
    enum MHD_Result result = MHD_NO;
    if (w->err.status != PARE_OK) {
        result = pare_reply_failed(request, &w->err, true);
    } else {
        char *typed = pare_words_typed(&w->words);
        pare_drawer_hide(&w->drawer, typed);
        request->command = typed;
        pthread_mutex_lock(&request->server->write);
        result = change(w);
        pthread_mutex_unlock(&request->server->write);
    }
    pare_drawer_close(&w->drawer);
    json_decref(w->body);
    return result;
}
