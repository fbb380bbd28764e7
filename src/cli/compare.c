/* compare.c: `pare compare`: craft, loadouts or trials side by side. */
#include "show/compare.h"

#include <stdio.h>
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
    size_t count;
    pare_compared shown[PARE_COMPARED];
    column *column[PARE_COMPARED];
} job;

static pare_status add(job *j, const pare_craft *craft, int loadout, const char *tried,
                       pare_error *err)
{
    if (j->count == PARE_COMPARED)
        return pare_fail(err, PARE_BAD_DATA, "compare takes %d columns at most", PARE_COMPARED);
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
    pare_compared *shown = &j->shown[at];
    shown->craft = &made->loaded;
    shown->sheet = &made->sheet;
    snprintf(shown->name, sizeof shown->name, "%s%s%s%s%.100s", craft->name,
             loadout >= 0 ? ":" : "", loadout >= 0 ? craft->loadout[loadout].name : "",
             tried ? " with " : "", tried ? tried : "");
    return status;
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
    const pare_craft *craft = NULL;
    int loadout = -1;
    pare_status status = PARE_OK;
    for (size_t i = 0; status == PARE_OK && i < given->operands; i++) {
        status = find(j, given, given->operand[i], &craft, &loadout, err);
        if (status == PARE_OK && craft)
            status = add(j, craft, loadout, NULL, err);
    }
    if (status != PARE_OK || !craft || given->operands > 1)
        return status;
    for (size_t i = 0; status == PARE_OK && i < given->tries; i++)
        status = add(j, craft, loadout, given->try_list[i], err);
    /* One craft alone: its loadouts. */
    for (int i = 0; status == PARE_OK && given->tries == 0 && i < (int)craft->loadouts; i++)
        if (i != loadout)
            status = add(j, craft, i, NULL, err);
    if (status == PARE_OK && j->count < 2)
        return pare_fail(err, PARE_BAD_DATA,
                         "compare '%s' with what? another craft, or --try SWAP; it has one loadout "
                         "only",
                         craft->name);
    return status;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    job *j = calloc(1, sizeof *j);
    if (!j)
        return pare_no_memory(err);
    pare_status status =
        need_operands("compare", given, 1, PARE_COMPARED, "up to 8 craft, or one with --try", err);
    if (status == PARE_OK && given->operands > 1 && given->tries > 0)
        status = pare_fail(err, PARE_BAD_DATA, "compare --try goes with one craft: %zu were named",
                           given->operands);
    if (status == PARE_OK)
        status = bench_use(given, &j->use, err);
    if (status == PARE_OK)
        status = gather(j, given, err);
    if (status == PARE_OK && given->given & OPTION_JSON) {
        pare_json_write(pare_compare_object(j->count, j->shown), out);
    } else if (status == PARE_OK) {
        const pare_screen screen = terminal_screen();
        pare_compare_text(j->count, j->shown, &screen, out);
    }
    for (size_t i = 0; i < j->count; i++)
        free(j->column[i]);
    bench_leave(&j->use);
    free(j);
    return status;
}

const command command_compare = {
    .name = "compare",
    .line = "craft, loadouts or trials side by side, differences first",
    .usage = "pare compare CRAFT[:LOADOUT] CRAFT[:LOADOUT]... [--json]\n"
             "pare compare CRAFT --try SWAP,SWAP [--try SWAP...] [--loadout LOADOUT]\n"
             "pare compare CRAFT",
    .details = "One craft alone is compared in all its loadouts.\n",
    .example = "  pare compare hedgerow:race bodkin\n"
               "  pare compare hedgerow --try bumper=off --try bumper=off,skid=off\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_LOADOUT | OPTION_TRY,
    .meaning = {{OPTION_TRY, "a column with these swaps; may stand more than once"}},
    .run = run,
};
