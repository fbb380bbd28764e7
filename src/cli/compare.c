/* compare.c: `pare compare`: craft, loadouts or trials side by side. */
#include "show/compare.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/use.h"

/* One column with what it holds. Large: on the heap. */
typedef struct column {
    pare_craft changed, loaded;
    pare_sheet sheet;
} column;

typedef struct job {
    bench_in_use use;
    size_t count, room;
    pare_compared *shown; /* [room] */
    column **column;      /* [room] */
} job;

/* Operands, tries, and all loadouts of one craft are the most that there can be. */
static pare_status make_room(job *j, const options *given, pare_error *err)
{
    j->room = given->operands + given->tries + PARE_LOADOUTS;
    j->shown = calloc(j->room, sizeof *j->shown);
    j->column = calloc(j->room, sizeof(column *));
    return j->shown && j->column ? PARE_OK : pare_no_memory(err);
}

static pare_status add(job *j, const pare_craft *craft, int loadout, const char *tried,
                       pare_error *err)
{
    assert(j->count < j->room);
    column *made = malloc(sizeof *made);
    if (!made)
        return pare_no_memory(err);
    const size_t at = j->count++;
    j->column[at] = made;
    made->changed = *craft;
    pare_status status = PARE_OK;
    if (tried)
        status = pare_swap_apply_list(j->use.bench, craft, tried, &made->changed, err);
    if (status == PARE_OK)
        status = pare_craft_load(&made->changed, loadout, &made->loaded, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(&made->loaded, true, &made->sheet, err);
    const char *flown = loadout >= 0 ? craft->loadout[loadout].name : NULL;
    j->shown[at] = (pare_compared){
        .name = pare_arena_printf(j->use.bench->arena, "%s%s%s%s%s", craft->name, flown ? ":" : "",
                                  flown ? flown : "", tried ? " with " : "", tried ? tried : ""),
        .loadout = flown,
        .tried = tried,
        .craft = &made->loaded,
        .sheet = &made->sheet};
    return status == PARE_OK && !j->shown[at].name ? pare_no_memory(err) : status;
}

/* "CRAFT" or "CRAFT:LOADOUT". */
static pare_status find(const job *j, const options *given, const char *word,
                        const pare_craft **craft, int *loadout, pare_error *err)
{
    char name[128];
    const char *colon = strchr(word, ':');
    const size_t length = colon ? (size_t)(colon - word) : strlen(word);
    if (length >= sizeof name)
        return pare_fail(err, PARE_UNKNOWN, "no craft '%.40s...'", word);
    memcpy(name, word, length);
    name[length] = '\0';
    pare_status status = bench_craft(&j->use, name, craft, err);
    if (status == PARE_OK)
        status = craft_loadout(*craft, colon ? colon + 1 : given->loadout, loadout, err);
    return status;
}

static pare_status gather(job *j, const options *given, pare_error *err)
{
    const pare_craft *craft = NULL, *first = NULL;
    int loadout = -1, first_loadout = -1;
    pare_status status = find(j, given, given->operand[0], &first, &first_loadout, err);
    if (status != PARE_OK || !first)
        return status;
    status = add(j, first, first_loadout, NULL, err);
    for (size_t i = 1; status == PARE_OK && i < given->operands; i++) {
        status = find(j, given, given->operand[i], &craft, &loadout, err);
        if (status == PARE_OK && craft)
            status = add(j, craft, loadout, NULL, err);
    }
    for (size_t i = 0; status == PARE_OK && i < given->tries; i++)
        status = add(j, first, first_loadout, given->try_list[i], err);
    /* One craft alone: its loadouts. */
    const bool alone = given->operands == 1 && given->tries == 0;
    for (int i = 0; status == PARE_OK && alone && i < (int)first->loadouts; i++)
        if (i != first_loadout)
            status = add(j, first, i, NULL, err);
    if (status == PARE_OK && j->count < 2)
        return pare_fail(err, PARE_BAD_DATA,
                         "compare '%s' with what? another craft, or --try SWAP; it has no other "
                         "loadout",
                         given->operand[0]);
    return status;
}

static void put(const job *j, const options *given, pare_text *out)
{
    if (given->given & OPTION_JSON) {
        pare_json_write(pare_compare_object(j->count, j->shown), out);
    } else {
        const pare_screen screen = terminal_screen();
        pare_compare_text(j->count, j->shown, given->given & OPTION_ALL, &screen, out);
    }
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    job j = {0};
    pare_status status = need_operands("compare", given, 1, OPERANDS, "one craft or more", err);
    if (status == PARE_OK)
        status = make_room(&j, given, err);
    if (status == PARE_OK)
        status = bench_use(given, &j.use, err);
    if (status == PARE_OK)
        status = gather(&j, given, err);
    if (status == PARE_OK)
        put(&j, given, out);
    for (size_t i = 0; i < j.count; i++)
        free(j.column[i]);
    free(j.column);
    free(j.shown);
    bench_leave(&j.use);
    return status;
}

const command command_compare = {
    .name = "compare",
    .line = "craft, loadouts or trials side by side, differences first",
    .usage = "pare compare CRAFT[:LOADOUT]... [--try SWAP,SWAP...] [--loadout LOADOUT] [--all]\n"
             "           [--json]",
    .details = "One craft alone is compared in all its loadouts. Where columns do not fit\n"
               "abreast, they follow in blocks, each of which starts with the first again.\n",
    .example = "  pare compare hedgerow:race bodkin\n"
               "  pare compare hedgerow --try bumper=off --try bumper=off,skid=off\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_LOADOUT | OPTION_TRY | OPTION_ALL,
    .meaning = {{OPTION_TRY, "a column: the first craft with these swaps; again for further ones"},
                {OPTION_ALL, "also what weighs alike"}},
    .run = run,
};
