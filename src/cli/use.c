/* use.c: the bench that a command works on (see use.h). */
#include "cli/use.h"

#include <string.h>
#include <unistd.h>

#include "advise/swap.h"
#include "advise/taken.h"
#include "cli/keep.h"
#include "lib/named.h"

pare_status bench_path(const options *given, bool demo, pare_text *path, pare_error *err)
{
    if (!(given->given & OPTION_BENCH))
        return pare_store_default_path(demo, path, err);
    pare_text_add(path, given->bench);
    return path->failed ? pare_no_memory(err) : PARE_OK;
}

bool bench_is_there(const char *path)
{
    return pare_store_on_server(path) || access(path, F_OK) == 0;
}

/* The demo was run, but no bench of the user's own is there yet. */
static pare_status only_demo(const options *given, const char *path, pare_error *err)
{
    if (given->given & OPTION_BENCH || bench_is_there(path))
        return PARE_OK;
    pare_text demo = {0};
    pare_status status = pare_store_default_path(true, &demo, err);
    if (status == PARE_OK && access(demo.bytes, F_OK) == 0)
        status = pare_fail(err, PARE_BAD_DATA,
                           "no bench at %s; the demo's is there: add --bench %s, or pare import "
                           "your own",
                           path, demo.bytes);
    pare_text_free(&demo);
    return status;
}

pare_status bench_store(const char *path, pare_store_mode mode, pare_store **store, pare_error *err)
{
    const pare_status status = pare_store_open(path, mode, store, err);
    if (status == PARE_OK && mode != PARE_STORE_READ)
        pare_store_check_with(*store, pare_taken_check);
    return status;
}

pare_status bench_open(const options *given, pare_store_mode mode, bench_in_use *use,
                       pare_error *err)
{
    *use = (bench_in_use){.as_written = use->as_written};
    pare_status status = bench_path(given, false, &use->path, err);
    if (status == PARE_OK)
        status = only_demo(given, use->path.bytes, err);
    if (status == PARE_OK)
        status = bench_store(use->path.bytes, mode, &use->store, err);
    if (status == PARE_OK)
        pare_store_watch(use->store, given->progress);
    return status;
}

/* All of it, or one craft. */
static pare_status read_some(const char *craft, bench_in_use *use, pare_error *err)
{
    pare_built built = {0};
    pare_status status = pare_store_read_since(use->store, &use->since, err);
    if (status == PARE_OK)
        status = pare_built_read(use->store, craft, use->as_written, &built, err);
    use->bench = built.bench;
    use->first = built.first;
    return status;
}

static pare_status use_some(const options *given, const char *craft, bench_in_use *use,
                            pare_error *err)
{
    const pare_status status = bench_open(given, PARE_STORE_READ, use, err);
    return status == PARE_OK ? read_some(craft, use, err) : status;
}

/* A bench of which all was read as of one moment may be kept. */
pare_status bench_use(const options *given, bench_in_use *use, pare_error *err)
{
    if (!given->keep || use->as_written)
        return use_some(given, NULL, use, err);
    if (bench_keep_take(given->keep, given, use))
        return PARE_OK;
    pare_status status = bench_open(given, PARE_STORE_READ, use, err);
    /* Marked before it is read: what changes meanwhile makes it bad. */
    const bool marked = status == PARE_OK && bench_mark_set(use);
    if (status == PARE_OK)
        status = read_some(NULL, use, err);
    use->keep = given->keep;
    use->complete = status == PARE_OK && marked;
    return status;
}

pare_status bench_use_craft(const options *given, const char *name, bench_in_use *use,
                            pare_error *err)
{
    return use_some(given, name, use, err);
}

pare_status bench_use_past(const bench_in_use *now, const char *craft, const char *day,
                           bench_in_use *past, pare_past_begins *begins, pare_error *err)
{
    *past = (bench_in_use){.as_written = now->as_written};
    pare_text_add(&past->path, now->path.bytes);
    pare_status status = past->path.failed ? pare_no_memory(err) : PARE_OK;
    if (status == PARE_OK)
        status = pare_craft_is_there(now->store, craft, err);
    if (status == PARE_OK)
        status = pare_store_past(now->store, craft, day, &past->store, begins, err);
    return status == PARE_OK ? read_some(NULL, past, err) : status;
}

void bench_leave(bench_in_use *use)
{
    if (use->keep)
        bench_keep_give(use->keep, use);
    else
        bench_close(use);
}

void bench_close(bench_in_use *use)
{
    pare_bench_close(use->bench);
    pare_store_close(use->store);
    pare_text_free(&use->path);
    *use = (bench_in_use){0};
}

const pare_craft *bench_first(const bench_in_use *use, const char *name)
{
    return pare_built_first(&(pare_built){use->bench, use->first}, name);
}

pare_status bench_craft(const bench_in_use *use, const char *name, const pare_craft **craft,
                        pare_error *err)
{
    return pare_built_craft(&(pare_built){use->bench, use->first}, name, craft, err);
}

pare_status bench_part(const bench_in_use *use, const char *id, const pare_part **part,
                       pare_error *err)
{
    *part = pare_bench_part(use->bench, id);
    if (*part)
        return PARE_OK;
    const char **names = pare_arena_array(use->bench->arena, use->bench->parts + 1, sizeof *names);
    if (!names)
        return pare_no_memory(err);
    for (size_t i = 0; i < use->bench->parts; i++)
        names[i] = use->bench->part[i]->id;
    return pare_unknown_name(
        "part", id, use->bench->parts, names,
        use->bench->parts ? "pare parts lists them" : "this bench has none yet", err);
}

pare_status craft_tried(const bench_in_use *use, const options *given, const pare_craft *before,
                        pare_craft *craft, pare_text *tried, pare_error *err)
{
    *craft = *before;
    for (size_t i = 0; i < given->tries; i++)
        pare_text_printf(tried, "%s%s", i ? "," : "", given->try_list[i]);
    if (tried->failed)
        return pare_no_memory(err);
    return tried->length ? pare_swap_apply_list(use->bench, before, tried->bytes, craft, err)
                         : PARE_OK;
}

pare_status need_operands(const char *command, const options *given, size_t least, size_t most,
                          const char *what, pare_error *err)
{
    if (given->operands < least)
        return pare_fail(err, PARE_BAD_DATA, "%s needs %s; pare help %s says more", command, what,
                         command);
    if (given->operands > most)
        return pare_fail(err, PARE_BAD_DATA, "%s: '%s' is one word too many; it takes %s", command,
                         given->operand[most], what);
    return PARE_OK;
}

/* A word as a shell would take it again. */
static void put_word(pare_text *line, const char *word)
{
    const bool plain = *word && strspn(word, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                             "0123456789-_.,:/=+%@") == strlen(word);
    pare_text_add(line, plain ? " " : " '");
    for (const char *c = word; *c; c++)
        if (*c == '\'' && !plain)
            pare_text_add(line, "'\\''");
        else
            pare_text_put(line, (unsigned char)*c < ' ' ? "?" : c, 1);
    if (!plain)
        pare_text_add(line, "'");
}

pare_status after_change(pare_status status, pare_error *err)
{
    return status == PARE_OK ? status
                             : pare_within(err, "the change is kept, but its answer fails");
}

pare_change change_of(const char *command, const options *given, pare_arena *arena)
{
    pare_text line = {0};
    if (given->changes)
        *given->changes = true;
    pare_text_add(&line, command);
    for (size_t i = 0; i < given->operands; i++)
        put_word(&line, i == 0 && given->shown ? given->shown : given->operand[i]);
    const char *what = line.failed ? NULL : pare_arena_copy(arena, line.bytes, line.length);
    pare_text_free(&line);
    return (pare_change){.what = what ? what : command, .why = given->why};
}
