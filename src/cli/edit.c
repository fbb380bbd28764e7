/* edit.c: parts and craft of the bench changed from the command line: add, change, copy, edit, remove.
 *
 * Both go the same ways, so one file has them. The words are read by the store, against the text form
 * (store/by_key.h). What the answer shows is what has changed in that text. */
#include "cli/edit.h"

#include <string.h>
#include <unistd.h>

#include "cli/editor.h"
#include "cli/use.h"
#include "show/catalogue.h"
#include "show/json.h"

static const struct {
    const char *command, *what, *operand, *like;
} THINGS[] = {
    [PARE_A_PART] = {"parts", "part", "a part's id", "mass=31.2g"},
    [PARE_A_CRAFT] = {"craft", "craft", "a craft's name", "pack=pa-4s-1300"},
};

typedef struct job {
    pare_thing thing;
    const options *given;
    const char *name;
    pare_change change;
    pare_arena *arena;
    pare_edit_summary summary;
} job;

/* ---- answers ---- */

static void warn(const pare_edit_summary *summary)
{
    for (size_t i = 0; i < summary->warnings; i++)
        fprintf(stderr, "pare: warning: %s\n", summary->warning[i]);
}

static json_t *text_or_null(const char *text)
{
    return text ? json_string(text) : json_null();
}

static void as_json(const job *j, pare_text *out)
{
    json_t *object = json_object(), *entries = json_array();
    json_object_set_new(object, THINGS[j->thing].what, json_string(j->name));
    json_object_set_new(object, "changed", json_boolean(j->summary.changed));
    for (size_t i = 0; i < j->summary.count; i++) {
        const pare_entry_change *entry = &j->summary.entry[i];
        json_t *one = json_object();
        json_object_set_new(one, "key", json_string(entry->key));
        json_object_set_new(one, "was", text_or_null(entry->was));
        json_object_set_new(one, "is", text_or_null(entry->is));
        json_array_append_new(entries, one);
    }
    json_object_set_new(object, "entries", entries);
    pare_json_write(object, out);
}

/* "  mass: 31.4 g -> 31.2 g", in lines under each other where it is long. */
static void put_entry(const pare_entry_change *entry, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_text_printf(&line, "%s: ", entry->key);
    if (entry->was)
        pare_text_add(&line, entry->was);
    if (!entry->was)
        pare_text_printf(&line, "%s (new)", entry->is);
    else if (entry->is)
        pare_text_printf(&line, " -> %s", entry->is);
    else
        pare_text_add(&line, " (gone)");
    pare_put_line(screen, out, 2, 6, &line);
}

static void say_change(const job *j, pare_text *out)
{
    warn(&j->summary);
    if (j->given->given & OPTION_JSON) {
        as_json(j, out);
        return;
    }
    const pare_screen screen = terminal_screen();
    if (!j->summary.changed) {
        pare_text_printf(out, "%s says that already: nothing was changed\n", j->name);
        return;
    }
    pare_text_printf(out, "%s changed%s\n", j->name,
                     j->summary.count ? "" : ": the order of its entries");
    for (size_t i = 0; i < j->summary.count; i++)
        put_entry(&j->summary.entry[i], &screen, out);
}

/* What was added, in full: with what a law filled in and what is usual. */
static pare_status show(const job *j, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    const pare_part *part = NULL;
    const pare_craft *craft = NULL;
    const pare_screen screen = terminal_screen();
    pare_status status = j->thing == PARE_A_PART ? bench_open(j->given, PARE_STORE_READ, &use, err)
                                                 : bench_use_craft(j->given, j->name, &use, err);
    if (status == PARE_OK && j->thing == PARE_A_PART)
        status = pare_store_read_part(use.store, j->name, &use.bench, err);
    if (status == PARE_OK && j->thing == PARE_A_PART)
        status = bench_part(&use, j->name, &part, err);
    else if (status == PARE_OK)
        status = bench_craft(&use, j->name, &craft, err);
    if (status == PARE_OK) {
        pare_text_printf(out, "%s added\n", j->name);
        if (part)
            pare_part_text(part, use.bench->money, &screen, out);
        else
            pare_craft_text(craft, &screen, out);
    }
    bench_leave(&use);
    return status;
}

/* ---- add, change ---- */

static pare_status add(job *j, pare_text *out, pare_error *err)
{
    pare_text path = {0};
    pare_store *store = NULL;
    pare_status status = bench_path(j->given, false, &path, err);
    const bool was_there = status == PARE_OK && bench_is_there(path.bytes);
    if (status == PARE_OK)
        status = bench_store(path.bytes, PARE_STORE_CREATE, &store, err);
    if (status == PARE_OK)
        status = pare_store_add(store, j->thing, j->name, j->given->operands - 2,
                                j->given->operand + 2, &j->change, j->arena, &j->summary, err);
    const bool made = store && !was_there;
    pare_store_close(store);
    if (made && status != PARE_OK)
        unlink(path.bytes); /* nothing came in: leave no empty bench behind */
    pare_text_free(&path);
    if (status != PARE_OK)
        return status;
    if (j->given->given & OPTION_JSON) {
        warn(&j->summary);
        as_json(j, out);
        return PARE_OK;
    }
    warn(&j->summary);
    return after_change(show(j, out, err), err);
}

static pare_status alter(job *j, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_status status = PARE_OK;
    if (j->given->operands < 3)
        return pare_fail(err, PARE_BAD_DATA, "%s change needs KEY=VALUE, like %s",
                         THINGS[j->thing].command, THINGS[j->thing].like);
    status = bench_open(j->given, PARE_STORE_WRITE, &use, err);
    if (status == PARE_OK)
        status = pare_store_alter(use.store, j->thing, j->name, j->given->operands - 2,
                                  j->given->operand + 2, &j->change, j->arena, &j->summary, err);
    bench_leave(&use);
    if (status == PARE_OK)
        say_change(j, out);
    return status;
}

/* ---- copy, remove ---- */

static void say_done(const job *j, const char *name, const char *key, const char *words,
                     pare_text *out)
{
    if (!(j->given->given & OPTION_JSON)) {
        pare_text_printf(out, "%s %s\n", name, words);
        return;
    }
    json_t *object = json_object();
    json_object_set_new(object, THINGS[j->thing].what, json_string(name));
    json_object_set_new(object, key, json_true());
    pare_json_write(object, out);
}

static pare_status copy(job *j, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_status status = need_operands(THINGS[j->thing].command, j->given, 3, 3,
                                       j->thing == PARE_A_PART ? "a part's id and a new one"
                                                               : "a craft's name and a new one",
                                       err);
    if (status == PARE_OK)
        status = bench_open(j->given, PARE_STORE_WRITE, &use, err);
    if (status == PARE_OK)
        status =
            pare_store_copy(use.store, j->thing, j->name, j->given->operand[2], &j->change, err);
    bench_leave(&use);
    if (status == PARE_OK) {
        const char *words = pare_arena_printf(j->arena, "added, a copy of %s", j->name);
        say_done(j, j->given->operand[2], "copied", words ? words : "added", out);
    }
    return status;
}

static pare_status take_off(job *j, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    const bool records = j->given->given & OPTION_RECORDS;
    pare_status status =
        need_operands(THINGS[j->thing].command, j->given, 2, 2, THINGS[j->thing].operand, err);
    if (status == PARE_OK && records && j->thing == PARE_A_PART)
        return pare_fail(err, PARE_BAD_DATA, "--records is for craft: a part in use stays");
    if (status == PARE_OK)
        status = bench_open(j->given, PARE_STORE_WRITE, &use, err);
    if (status == PARE_OK)
        status = j->thing == PARE_A_PART
                     ? pare_store_remove_part(use.store, j->name, &j->change, err)
                     : pare_store_remove_craft(use.store, j->name, records, &j->change, err);
    bench_leave(&use);
    if (status == PARE_OK)
        say_done(j, j->name, "removed", "removed; pare undo brings it back", out);
    return status;
}

/* ---- edit ---- */

static pare_status text_for(const job *j, pare_text *before, pare_text *text, pare_error *err)
{
    bench_in_use use = {0};
    /* To be changed from the start: a bench that only can be read is said before the work. */
    pare_status status = bench_open(j->given, PARE_STORE_WRITE, &use, err);
    if (status == PARE_OK)
        status = j->thing == PARE_A_PART ? pare_store_part_text(use.store, j->name, before, err)
                                         : pare_store_craft_text(use.store, j->name, before, err);
    pare_text_printf(text,
                     "# %s %s. Saved, it is checked and stored; unchanged, nothing is done.\n",
                     j->thing == PARE_A_PART ? "Part" : "Craft", j->name);
    if (status == PARE_OK)
        status = pare_store_text_to_edit(use.store, j->thing, j->name, text, err);
    bench_leave(&use);
    return status;
}

static pare_status put_back(job *j, const editor *at, const char *before, pare_error *err)
{
    bench_in_use use = {0};
    pare_status status = bench_open(j->given, PARE_STORE_WRITE, &use, err);
    if (status == PARE_OK)
        status = pare_store_replace(use.store, j->thing, j->name, before, at->text, at->length,
                                    at->path, &j->change, j->arena, &j->summary, err);
    bench_leave(&use);
    return status;
}

/* The person edits until it is right, or gives up; what cannot be stored is kept. */
static pare_status edit_until_right(job *j, editor *at, const char *before, pare_error *err)
{
    for (;;) {
        pare_status status = editor_run(at, err);
        if (status == PARE_OK && !editor_changed(at)) {
            editor_close(at);
            return PARE_OK;
        }
        if (status == PARE_OK)
            status = put_back(j, at, before, err);
        if (status == PARE_OK || !editor_changed(at)) {
            editor_close(at);
            return status;
        }
        const bool wrong = status == PARE_BAD_DATA || status == PARE_UNKNOWN;
        if (wrong && !at->failed && editor_asks_again(err))
            continue;
        return editor_keep(at, status, err);
    }
}

static pare_status in_editor(job *j, pare_text *out, pare_error *err)
{
    pare_text before = {0}, text = {0};
    editor at = {0};
    pare_status status =
        need_operands(THINGS[j->thing].command, j->given, 2, 2, THINGS[j->thing].operand, err);
    if (status == PARE_OK)
        status = text_for(j, &before, &text, err);
    if (status == PARE_OK && (before.failed || text.failed))
        status = pare_no_memory(err);
    if (status == PARE_OK)
        status = editor_open(j->name, text.bytes, j->arena, &at, err);
    if (status == PARE_OK)
        status = edit_until_right(j, &at, before.bytes, err);
    if (status == PARE_OK)
        say_change(j, out);
    pare_text_free(&text);
    pare_text_free(&before);
    return status;
}

/* ---- which ---- */

static const struct {
    const char *word;
    pare_status (*run)(job *j, pare_text *out, pare_error *err);
} WORDS[] = {
    {"add", add}, {"change", alter}, {"copy", copy}, {"edit", in_editor}, {"remove", take_off},
};
enum { WORD_COUNT = sizeof WORDS / sizeof WORDS[0] };

bool edit_is_word(const char *word)
{
    for (size_t i = 0; i < WORD_COUNT; i++)
        if (strcmp(WORDS[i].word, word) == 0)
            return true;
    return false;
}

pare_status edit_thing(pare_thing thing, const options *given, pare_text *out, pare_error *err)
{
    size_t which = 0;
    while (strcmp(WORDS[which].word, given->operand[0]) != 0)
        which++;
    if (given->operands < 2)
        return pare_fail(err, PARE_BAD_DATA, "%s %s needs %s", THINGS[thing].command,
                         given->operand[0], THINGS[thing].operand);
    job j = {.thing = thing, .given = given, .name = given->operand[1], .arena = pare_arena_open()};
    if (!j.arena)
        return pare_no_memory(err);
    j.change = change_of(THINGS[thing].command, given, j.arena);
    pare_status status = WORDS[which].run(&j, out, err);
    if (status == PARE_OK && out->failed)
        status = after_change(pare_no_memory(err), err);
    pare_arena_close(j.arena);
    return status;
}

size_t edit_keys(pare_thing thing, size_t most, const char *name[])
{
    static const char *const part[] = {"kind",  "maker",  "mass", "known", "price",
                                       "owned", "sought", "spec", "fits",  "includes"};
    static const char *const craft[] = {"frame", "motor", "propeller", "esc",  "pack",
                                        "items", "brief", "joints",    "runs", "loadouts"};
    const char *const *names = thing == PARE_A_PART ? part : craft;
    size_t count = 0;
    while (count < most && count < sizeof part / sizeof *part) {
        name[count] = names[count];
        count++;
    }
    return count;
}
