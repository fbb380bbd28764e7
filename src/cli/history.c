/* history.c: `pare history`, `pare undo`, `pare redo`: what was changed on the bench, and back. */
#include <errno.h>
#include <stdlib.h>

#include "cli/command.h"
#include "cli/use.h"
#include "show/json.h"

enum { USUAL = 20, MOST_STEPS = 1000 };

static pare_status read_steps(const char *name, const options *given, long usual, long *steps,
                              pare_error *err)
{
    *steps = usual;
    pare_status status = need_operands(name, given, 0, 1, "no more than a number", err);
    if (status != PARE_OK || given->operands == 0)
        return status;
    char *end = NULL;
    errno = 0;
    *steps = strtol(given->operand[0], &end, 10);
    if (errno || *end || *steps < 1 || *steps > MOST_STEPS)
        return pare_fail(err, PARE_BAD_DATA, "%s '%s'; right would be how many changes, 1 to %d",
                         name, given->operand[0], MOST_STEPS);
    return PARE_OK;
}

/* ---- as JSON ---- */

static json_t *row_object(const pare_change_row *row)
{
    json_t *object = json_object();
    json_object_set_new(object, "number", json_integer((json_int_t)row->number));
    json_object_set_new(object, "time", json_string(row->time));
    json_object_set_new(object, "what", json_string(row->what));
    json_object_set_new(object, "why", row->why ? json_string(row->why) : json_null());
    json_object_set_new(object, "who", row->who ? json_string(row->who) : json_null());
    json_object_set_new(object, "undone", json_boolean(row->undone));
    json_object_set_new(object, "turned_by",
                        row->turned_by ? json_string(row->turned_by) : json_null());
    json_object_set_new(object, "parts", json_integer((json_int_t)row->parts));
    json_object_set_new(object, "craft", json_integer((json_int_t)row->craft));
    json_object_set_new(object, "records", json_integer((json_int_t)row->records));
    json_object_set_new(object, "files", json_integer((json_int_t)row->files));
    return object;
}

static void as_json(const char *list, size_t count, const pare_change_row rows[], pare_text *out)
{
    json_t *object = json_object(), *array = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(array, row_object(&rows[i]));
    json_object_set_new(object, list, array);
    pare_json_write(object, out);
}

/* ---- as text ---- */

static void put_count(pare_text *out, const char **before, size_t count, const char *one,
                      const char *many)
{
    if (count == 0)
        return;
    pare_text_printf(out, "%s%zu %s", *before, count, count == 1 ? one : many);
    *before = ", ";
}

/* "2026-03-01 18:20  craft limit plover all_up=600g" and below it what it touched, and why. */
static void put_row(const pare_change_row *row, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_text_printf(&line, "%.10s %.5s  ", row->time, row->time + 11);
    if (row->who)
        pare_text_printf(&line, "%s: ", row->who);
    pare_text_add(&line, row->what);
    pare_text_printf(&line, " (");
    const char *before = "";
    put_count(&line, &before, row->parts, "part", "parts");
    put_count(&line, &before, row->craft, "craft", "craft");
    put_count(&line, &before, row->records, "record", "records");
    put_count(&line, &before, row->files, "file", "files");
    pare_text_add(&line, *before ? ")" : "settings)");
    if (row->why)
        pare_text_printf(&line, ": %s", row->why);
    if (row->undone && row->turned_by)
        pare_text_printf(&line, " [undone by %s]", row->turned_by);
    else if (row->undone)
        pare_text_add(&line, " [undone]");
    pare_put_line(screen, out, 0, 18, &line);
}

static pare_status run_history(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    long most = USUAL;
    size_t count = 0;
    pare_change_row *rows = NULL;
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = read_steps("history", given, USUAL, &most, err);
    if (status == PARE_OK)
        status = bench_open(given, PARE_STORE_READ, &use, err);
    if (status == PARE_OK)
        status = pare_store_history(use.store, given->given & OPTION_ALL ? 0 : (size_t)most, arena,
                                    &count, &rows, err);
    if (status == PARE_OK && given->given & OPTION_JSON) {
        as_json("history", count, rows, out);
    } else if (status == PARE_OK) {
        const pare_screen screen = terminal_screen();
        if (count == 0)
            pare_text_add(out, "Nothing was changed on this bench yet.\n");
        for (size_t i = 0; i < count; i++)
            put_row(&rows[i], &screen, out);
    }
    bench_leave(&use);
    pare_arena_close(arena);
    return status;
}

static pare_status turn(const char *name, bool undo, const options *given, pare_text *out,
                        pare_error *err)
{
    bench_in_use use = {0};
    long steps = 1;
    size_t count = 0;
    pare_arena *arena = pare_arena_open();
    pare_change_row *rows = arena ? pare_arena_array(arena, MOST_STEPS, sizeof *rows) : NULL;
    pare_status status = rows ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = read_steps(name, given, 1, &steps, err);
    if (status == PARE_OK)
        status = bench_open(given, PARE_STORE_WRITE, &use, err);
    while (status == PARE_OK && count < (size_t)steps) {
        status = undo ? pare_store_undo(use.store, arena, &rows[count], err)
                      : pare_store_redo(use.store, arena, &rows[count], err);
        count += status == PARE_OK;
    }
    /* Asked for more than there are: what was done is said, the rest was not there. */
    if (status == PARE_BAD_DATA && count > 0)
        status = PARE_OK;
    if (status == PARE_OK && given->given & OPTION_JSON) {
        as_json(undo ? "undone" : "redone", count, rows, out);
    } else if (status == PARE_OK) {
        const pare_screen screen = terminal_screen();
        pare_text_printf(out, "%s:\n", undo ? "Undone" : "Done again");
        for (size_t i = 0; i < count; i++) {
            rows[i].undone = false; /* the heading says it */
            put_row(&rows[i], &screen, out);
        }
    }
    if (status == PARE_OK && out->failed)
        status = after_change(pare_no_memory(err), err);
    bench_leave(&use);
    pare_arena_close(arena);
    return status;
}

static pare_status run_undo(const options *given, pare_text *out, pare_error *err)
{
    return turn("undo", true, given, out, err);
}

static pare_status run_redo(const options *given, pare_text *out, pare_error *err)
{
    return turn("redo", false, given, out, err);
}

const command command_history = {
    .name = "history",
    .line = "what was changed on the bench, when and why",
    .usage = "pare history [NUMBER] [--all] [--bench FILE] [--json]",
    .details = "The newest change first: 20 of them, NUMBER, or --all. Times are UTC. Every\n"
               "change is kept with what was there before it, so each can be undone, the last\n"
               "one first.\n",
    .example = "  pare history 5\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_ALL,
    .meaning = {{OPTION_ALL, "all of them, not the last 20"}},
    .run = run_history,
};

const command command_undo = {
    .name = "undo",
    .line = "take the last change to the bench back",
    .usage = "pare undo [NUMBER] [--bench FILE] [--json]",
    .details = "One change, or the last NUMBER of them. The bench is then as it was before:\n"
               "its export has the same bytes. pare redo does them again.\n",
    .example = "  pare craft limit hedgerow all_up=650g\n"
               "  pare undo\n",
    .options = OPTION_BENCH | OPTION_JSON,
    .run = run_undo,
};

const command command_redo = {
    .name = "redo",
    .line = "do again what was undone last",
    .usage = "pare redo [NUMBER] [--bench FILE] [--json]",
    .details = "A new change after an undo forgets what was undone.\n",
    .example = "  pare craft limit hedgerow all_up=650g\n"
               "  pare undo\n"
               "  pare redo\n",
    .options = OPTION_BENCH | OPTION_JSON,
    .run = run_redo,
};
