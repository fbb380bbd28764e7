/* find.c: `pare parts`: finding parts (see find.h).
 *
 * The store finds by words, kinds and numbers. What can replace an item is asked of advise, which
 * needs the whole bench, since a swap may bring other parts along; what both say is the answer. */
#include "cli/find.h"

#include <stdlib.h>
#include <string.h>

#include "cli/usage.h"
#include "cli/use.h"
#include "show/catalogue.h"
#include "show/surprises.h"

/* What is asked, and where the answer is made. */
typedef struct job {
    const options *given;
    bench_in_use use;
    pare_arena *arena;
    pare_filter filter;
    const char *word[OPERANDS];
    pare_find find;
    const char *money;
    size_t count;
    pare_listed *list;
} job;

/* ---- what is asked ---- */

static pare_status read_kind(const options *given, int *kind, pare_error *err)
{
    *kind = -1;
    if (!(given->given & OPTION_KIND))
        return PARE_OK;
    *kind = pare_kind_named(given->kind);
    if (*kind >= 0)
        return PARE_OK;
    const char *names[PARE_KINDS];
    for (int k = 0; k < PARE_KINDS; k++)
        names[k] = pare_kind_name((pare_kind)k);
    const char *near = pare_nearest(given->kind, PARE_KINDS, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "no kind '%s'; did you mean %s?", given->kind, near);
    return pare_fail(err, PARE_UNKNOWN,
                     "no kind '%s'; there are frame, motor, propeller, pack, "
                     "camera and others: pare parts shows each part's",
                     given->kind);
}

/* KEY, KEY:up or KEY:down. */
static pare_status read_sort(const options *given, pare_find *find, pare_error *err)
{
    find->sort = PARE_KEY_NONE;
    if (!(given->given & OPTION_SORT))
        return PARE_OK;
    const size_t length = strcspn(given->sort, ":");
    const char *way = given->sort + length;
    find->down = strcmp(way, ":down") == 0;
    if (*way && !find->down && strcmp(way, ":up") != 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "--sort '%.40s': right would be %.*s, or %.*s:down for the largest first",
                         given->sort, (int)(length < 24 ? length : 24), given->sort,
                         (int)(length < 24 ? length : 24), given->sort);
    if (pare_key_named(given->sort, length, find->kind, &find->sort, err) != PARE_OK)
        return pare_within(err, "--sort");
    return PARE_OK;
}

static pare_status read_words(job *j, pare_error *err)
{
    const options *given = j->given;
    pare_units *units = pare_units_open();
    pare_status status = units ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; status == PARE_OK && i < given->operands; i++) {
        if (pare_is_filter(given->operand[i]))
            status = pare_filter_read(units, given->operand[i], j->find.kind, &j->filter, err);
        else
            j->word[j->find.words++] = given->operand[i];
    }
    pare_units_close(units);
    j->find.word = j->word;
    j->find.filter = &j->filter;
    return status;
}

static pare_status read_all(job *j, pare_error *err)
{
    const options *given = j->given;
    const bool in_place = given->given & OPTION_FOR;
    j->find.surprise = given->given & OPTION_SURPRISE;
    if (given->given & OPTION_LIGHTER && !in_place)
        return pare_fail(err, PARE_BAD_DATA,
                         "--lighter than what? right would be --for "
                         "CRAFT.ITEM with it, or 'mass<12g'");
    if (given->given & OPTION_LOADOUT && !in_place)
        return pare_fail(err, PARE_BAD_DATA, "parts --loadout goes with --for CRAFT.ITEM");
    pare_status status = read_kind(given, &j->find.kind, err);
    if (status == PARE_OK)
        status = read_sort(given, &j->find, err);
    return status == PARE_OK ? read_words(j, err) : status;
}

/* ---- a list ---- */

typedef struct writing {
    bool any;
    pare_text *out;
} writing;

static pare_status write_part(void *context, const pare_part *part, pare_error *err)
{
    writing *w = context;
    json_t *one = pare_part_object(part);
    pare_surprise surprise;
    if (pare_surprise_of(part, &surprise) && surprise.sigmas > PARE_SURPRISING_SIGMAS)
        json_object_set_new(one, "surprise", pare_surprise_object(&surprise));
    pare_json_list_put(one, !w->any, w->out);
    w->any = true;
    return w->out->failed ? pare_no_memory(err) : PARE_OK;
}

static pare_status list_json(const job *j, pare_text *out, pare_error *err)
{
    writing w = {.out = out};
    const char **ids = pare_arena_array(j->arena, j->count + 1, sizeof *ids);
    if (!ids)
        return pare_no_memory(err);
    for (size_t i = 0; i < j->count; i++)
        ids[i] = j->list[i].id;
    pare_json_list_begin("parts", out);
    const pare_status status =
        pare_store_each_part(j->use.store, j->count, ids, write_part, &w, err);
    pare_json_list_end(!w.any, out);
    return status;
}

/* What a word that no part holds may have meant: a kind, an id, or a word of this command. */
static pare_status none(const job *j, pare_text *out, pare_error *err)
{
    size_t ids = 0, count = 0;
    const char *const *id = NULL, *near = NULL;
    if (j->find.surprise || j->find.words == 0) {
        pare_text_add(out, j->find.surprise ? "No such part on this bench is heavier than its law "
                                              "says, by over two sigma.\n"
                                            : "No such part on this bench.\n");
        return PARE_OK;
    }
    const pare_status status = pare_store_part_ids(j->use.store, j->arena, &ids, &id, err);
    const char **known = pare_arena_array(j->arena, PARE_KINDS + ids + 1, sizeof *known);
    if (status != PARE_OK || !known)
        return status != PARE_OK ? status : pare_no_memory(err);
    for (int kind = 0; kind < PARE_KINDS; kind++)
        known[count++] = pare_kind_name((pare_kind)kind);
    for (size_t i = 0; i < ids; i++)
        known[count++] = id[i];
    for (size_t i = 0; i < j->find.words && !near; i++)
        near = pare_nearest(j->word[i], count, known);
    char subcommand[USAGE_WORD];
    if (usage_nearest(command_parts.usage, j->word[0], subcommand))
        pare_text_printf(out, "No such part on this bench; did you mean pare parts %s?\n",
                         subcommand);
    else if (near)
        pare_text_printf(out, "No such part on this bench; did you mean %s?\n", near);
    else
        pare_text_add(out, "No such part on this bench.\n");
    return PARE_OK;
}

static pare_status list(const job *j, pare_text *out, pare_error *err)
{
    if (j->given->given & OPTION_JSON)
        return list_json(j, out, err);
    if (j->count == 0)
        return none(j, out, err);
    const pare_screen screen = terminal_screen();
    if (j->find.surprise)
        pare_surprises_text(j->count, j->list, &screen, out);
    else
        pare_parts_text(j->count, j->list, j->money, &screen, out);
    return PARE_OK;
}

/* ---- in an item's place ---- */

static int by_id(const void *a, const void *b)
{
    return strcmp((*(const pare_listed *const *)a)->id, (*(const pare_listed *const *)b)->id);
}

/* What was found, by id. */
static const pare_listed **index_of(const job *j)
{
    const pare_listed **index = pare_arena_array(j->arena, j->count + 1, sizeof *index);
    for (size_t i = 0; index && i < j->count; i++)
        index[i] = &j->list[i];
    if (index && j->count > 1)
        qsort(index, j->count, sizeof *index, by_id);
    return index;
}

static const pare_listed *found(const job *j, const pare_listed *const index[], const char *id)
{
    const pare_listed sought = {.id = id}, *key = &sought;
    const pare_listed *const *at =
        j->count ? bsearch(&key, index, j->count, sizeof *index, by_id) : NULL;
    return at ? *at : NULL;
}

/* One that fits, with its place in what was found. */
typedef struct placed {
    size_t place;
    pare_replacement replacement;
} placed;

static int by_place(const void *a, const void *b)
{
    const size_t x = ((const placed *)a)->place, y = ((const placed *)b)->place;
    return (x > y) - (x < y);
}

/* Keeps what was found too, and lighter where that was asked; in the order asked for. */
static pare_status keep_found(const job *j, size_t *count, pare_replacement list[], pare_error *err)
{
    const bool lighter = j->given->given & OPTION_LIGHTER, sorted = j->find.sort != PARE_KEY_NONE;
    const pare_listed **index = index_of(j);
    placed *kept = pare_arena_array(j->arena, *count + 1, sizeof *kept);
    size_t n = 0;
    if (!index || !kept)
        return pare_no_memory(err);
    for (size_t i = 0; i < *count; i++) {
        const pare_listed *one = found(j, index, list[i].part->id);
        if (one && (!lighter || list[i].saved_kg > 0))
            kept[n++] = (placed){sorted ? (size_t)(one - j->list) : i, list[i]};
    }
    if (n > 1)
        qsort(kept, n, sizeof *kept, by_place);
    for (size_t i = 0; i < n; i++)
        list[i] = kept[i].replacement;
    *count = n;
    return PARE_OK;
}

/* CRAFT.ITEM; a craft's name may have dots, an item's has none. */
static pare_status find_place(job *j, const pare_craft **craft, const char **item, pare_error *err)
{
    const char *dot = strrchr(j->given->place, '.');
    if (!dot || !dot[1] || dot == j->given->place)
        return pare_fail(err, PARE_BAD_DATA,
                         "--for '%.60s': right would be CRAFT.ITEM, as in hedgerow.motor",
                         j->given->place);
    const char *name = pare_arena_copy(j->arena, j->given->place, (size_t)(dot - j->given->place));
    *item = dot + 1;
    return name ? bench_craft(&j->use, name, craft, err) : pare_no_memory(err);
}

static pare_status in_place(job *j, pare_text *out, pare_error *err)
{
    const pare_craft *craft = NULL;
    const char *item = NULL;
    int loadout = -1;
    size_t count = 0;
    pare_replacement *list = NULL;
    pare_status status = find_place(j, &craft, &item, err);
    if (status == PARE_OK)
        status = pare_loadout_named(craft, j->given->loadout, &loadout, err);
    if (status == PARE_OK)
        status = pare_replacements_find(j->use.bench, craft, loadout, item, j->arena, &count, &list,
                                        err);
    if (status == PARE_OK)
        status = keep_found(j, &count, list, err);
    if (status != PARE_OK)
        return status;
    const pare_item *now = &craft->item[pare_craft_item(craft, item)];
    if (j->given->given & OPTION_JSON) {
        pare_json_write(pare_replacements_object(craft, now, count, list), out);
    } else if (count == 0) {
        pare_text_printf(out, "No such part on this bench fits in place of %s (%s) on %s.\n", item,
                         now->part->id, craft->name);
    } else {
        const pare_screen screen = terminal_screen();
        pare_replacements_text(craft, loadout >= 0 ? craft->loadout[loadout].name : NULL, now,
                               count, list, j->money, &screen, out);
    }
    return PARE_OK;
}

static pare_status answer(job *j, pare_text *out, pare_error *err)
{
    pare_status status = read_all(j, err);
    if (status == PARE_OK)
        status = j->given->given & OPTION_FOR ? bench_use(j->given, &j->use, err)
                                              : bench_open(j->given, PARE_STORE_READ, &j->use, err);
    if (status == PARE_OK)
        status = pare_store_money(j->use.store, j->arena, &j->money, err);
    if (status == PARE_OK)
        status = pare_store_find(j->use.store, &j->find, j->arena, &j->count, &j->list, err);
    if (status == PARE_OK)
        status = j->given->given & OPTION_FOR ? in_place(j, out, err) : list(j, out, err);
    bench_leave(&j->use);
    return status;
}

pare_status parts_find(const options *given, pare_text *out, pare_error *err)
{
    job *j = calloc(1, sizeof *j);
    if (!j)
        return pare_no_memory(err);
    *j = (job){.given = given, .arena = pare_arena_open()};
    const pare_status status = j->arena ? answer(j, out, err) : pare_no_memory(err);
    pare_arena_close(j->arena);
    free(j);
    return status;
}
