/* compare.c: `pare compare`: craft, loadouts or trials side by side, also as they were on some day. */
#include "show/compare.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/day.h"
#include "cli/use.h"
#include "show/between.h"

/* One column with what it holds. Large: on the heap. */
typedef struct column {
    pare_craft changed, loaded;
    pare_sheet sheet;
} column;

/* The bench on another day than today. */
typedef struct past {
    bench_in_use use;
    pare_past_begins begins;
} past;

/* What an operand names. */
typedef struct named {
    const pare_craft *craft;
    int loadout;
    const char *date; /* NULL: as it is */
    past *past;       /* NULL: as it is */
} named;

typedef struct job {
    bench_in_use use;
    pare_arena *arena;
    char now[DAY];
    size_t pasts;
    past *past[OPERANDS];
    past **of; /* [room] the bench of each column; NULL: as it is */
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
    j->of = calloc(j->room, sizeof(past *));
    j->arena = pare_arena_open();
    return j->shown && j->column && j->of && j->arena ? PARE_OK : pare_no_memory(err);
}

static pare_status add(job *j, const named *of, int loadout, const char *tried, pare_error *err)
{
    assert(j->count < j->room);
    const bench_in_use *use = of->past ? &of->past->use : &j->use;
    const pare_craft *craft = of->craft;
    column *made = malloc(sizeof *made);
    if (!made)
        return pare_no_memory(err);
    const size_t at = j->count++;
    j->column[at] = made;
    j->of[at] = of->past;
    made->changed = *craft;
    pare_status status = PARE_OK;
    if (tried)
        status = pare_swap_apply_list(use->bench, craft, tried, &made->changed, err);
    if (status == PARE_OK)
        status = pare_craft_load(&made->changed, loadout, &made->loaded, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(&made->loaded, true, &made->sheet, err);
    const char *flown = loadout >= 0 ? craft->loadout[loadout].name : NULL;
    j->shown[at] = (pare_compared){
        .name = pare_arena_printf(j->arena, "%s%s%s%s%s%s%s", craft->name, of->date ? "@" : "",
                                  of->date ? of->date : "", flown ? ":" : "", flown ? flown : "",
                                  tried ? " with " : "", tried ? tried : ""),
        .loadout = flown,
        .tried = tried,
        .date = of->date,
        .craft = &made->loaded,
        .sheet = &made->sheet};
    return status == PARE_OK && !j->shown[at].name ? pare_no_memory(err) : status;
}

static pare_status take_day(job *j, const char *craft, const char *date, named *of, pare_error *err)
{
    pare_status status = day_read("compare CRAFT@DATE", date, j->now, &of->date, err);
    if (status != PARE_OK)
        return status;
    past *made = calloc(1, sizeof *made);
    if (!made)
        return pare_no_memory(err);
    j->past[j->pasts++] = of->past = made;
    return bench_use_past(&j->use, craft, of->date, &made->use, &made->begins, err);
}

/* "CRAFT", "CRAFT:LOADOUT", "CRAFT@2026-04-01" or both. */
static pare_status find(job *j, const options *given, const char *word, named *of, pare_error *err)
{
    const char *colon = strchr(word, ':'), *at = strchr(word, '@');
    const size_t length = strcspn(word, ":@");
    *of = (named){0};
    if (length >= 128)
        return pare_fail(err, PARE_UNKNOWN, "no craft '%.40s...'", word);
    if (at && colon && colon < at)
        return pare_fail(err, PARE_BAD_DATA,
                         "'%.60s'; right would be CRAFT@DATE:LOADOUT, the day first", word);
    const char *name = pare_arena_copy(j->arena, word, length);
    const char *date = at ? pare_arena_copy(j->arena, at + 1, strcspn(at + 1, ":")) : NULL;
    if (!name || (at && !date))
        return pare_no_memory(err);
    pare_status status = date ? take_day(j, name, date, of, err) : PARE_OK;
    if (status == PARE_OK)
        status = bench_craft(of->past ? &of->past->use : &j->use, name, &of->craft, err);
    if (status == PARE_OK)
        status =
            pare_loadout_named(of->craft, colon ? colon + 1 : given->loadout, &of->loadout, err);
    return status;
}

/* One craft alone of another day: with what it is now. */
static pare_status add_now(job *j, const named *first, pare_error *err)
{
    named of = {0};
    const char *loadout = first->loadout >= 0 ? first->craft->loadout[first->loadout].name : NULL;
    pare_status status = bench_craft(&j->use, first->craft->name, &of.craft, err);
    if (status == PARE_OK)
        status = pare_loadout_named(of.craft, loadout, &of.loadout, err);
    return status == PARE_OK ? add(j, &of, of.loadout, NULL, err) : status;
}

static pare_status gather(job *j, const options *given, pare_error *err)
{
    named first, of;
    pare_status status = find(j, given, given->operand[0], &first, err);
    if (status != PARE_OK || !first.craft)
        return status;
    status = add(j, &first, first.loadout, NULL, err);
    for (size_t i = 1; status == PARE_OK && i < given->operands; i++) {
        status = find(j, given, given->operand[i], &of, err);
        if (status == PARE_OK && of.craft)
            status = add(j, &of, of.loadout, NULL, err);
    }
    for (size_t i = 0; status == PARE_OK && i < given->tries; i++)
        status = add(j, &first, first.loadout, given->try_list[i], err);
    /* One craft alone: its loadouts. */
    const bool alone = given->operands == 1 && given->tries == 0;
    if (status == PARE_OK && alone && first.date)
        return add_now(j, &first, err);
    for (int i = 0; status == PARE_OK && alone && i < (int)first.craft->loadouts; i++)
        if (i != first.loadout)
            status = add(j, &first, i, NULL, err);
    if (status == PARE_OK && j->count < 2)
        return pare_fail(err, PARE_BAD_DATA,
                         "compare '%s' with what? another craft, or --try SWAP; it has no other "
                         "loadout",
                         given->operand[0]);
    return status;
}

/* ---- one craft at two dates ---- */

/* Whether a day lies after one and not after the other. */
static bool is_between(const char *day, const char *from, const char *to)
{
    return strcmp(day, from) > 0 && strcmp(day, to) <= 0;
}

static pare_status put_records(const job *j, const bench_in_use *is, const char *from,
                               const char *to, pare_between *between, pare_error *err)
{
    pare_weighings all = {0};
    const pare_flight_record *flights = NULL;
    size_t count = 0;
    pare_status status = pare_store_weighings(is->store, j->arena, &all, err);
    if (status == PARE_OK)
        status = pare_store_read_flights(is->store, is->bench, between->is, &count, &flights, err);
    const pare_weigh_in **list = pare_arena_array(j->arena, all.count + 1, sizeof(void *));
    if (!list)
        return pare_no_memory(err);
    for (size_t i = 0; i < all.count; i++)
        if (strcmp(all.weigh_in[i].craft, between->is->name) == 0 &&
            is_between(all.weigh_in[i].date, from, to))
            list[between->weigh_ins++] = &all.weigh_in[i];
    for (size_t i = 0; i < count; i++)
        between->flights += is_between(flights[i].date, from, to);
    between->weigh_in = list;
    return status;
}

/* Of two columns of one craft, the earlier first. */
static pare_status make_between(const job *j, size_t one, size_t other, pare_between *between,
                                pare_error *err)
{
    const char *const days[2] = {j->shown[one].date ? j->shown[one].date : j->now,
                                 j->shown[other].date ? j->shown[other].date : j->now};
    const bool turned = strcmp(days[0], days[1]) > 0;
    const size_t earlier = turned ? other : one, later = turned ? one : other;
    const bench_in_use *was = j->of[earlier] ? &j->of[earlier]->use : &j->use,
                       *is = j->of[later] ? &j->of[later]->use : &j->use;
    const char *name = j->shown[one].craft->name;
    const pare_entry_change *entry = NULL;
    size_t entries = 0;
    *between = (pare_between){.was = bench_first(was, name),
                              .is = bench_first(is, name),
                              .from = days[turned],
                              .to = j->shown[later].date ? days[!turned] : "now",
                              .since = ""};
    if (j->of[earlier]) {
        between->later = j->of[earlier]->begins.later;
        between->since = j->of[earlier]->begins.day;
    }
    pare_status status =
        pare_store_craft_between(was->store, is->store, name, j->arena, &entries, &entry, err);
    if (status == PARE_OK)
        status = put_records(j, is, days[turned], days[!turned], between, err);
    pare_between_entry *list = pare_arena_array(j->arena, entries + 1, sizeof *list);
    if (!list)
        return pare_no_memory(err);
    for (size_t i = 0; i < entries; i++)
        list[i] = (pare_between_entry){entry[i].key, entry[i].was, entry[i].is};
    between->entry = list;
    between->entries = entries;
    return status;
}

/* Each column that follows one of the same craft on another day. */
static pare_status make_betweens(const job *j, size_t *count, pare_between between[],
                                 pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t i = 1; i < j->count && status == PARE_OK; i++) {
        const pare_compared *one = &j->shown[i - 1], *other = &j->shown[i];
        const bool days = one->date || other->date;
        if (days && strcmp(one->craft->name, other->craft->name) == 0)
            status = make_between(j, i - 1, i, &between[(*count)++], err);
    }
    return status;
}

static void put(const job *j, const options *given, size_t count, const pare_between between[],
                pare_text *out)
{
    if (given->given & OPTION_JSON) {
        json_t *object = pare_compare_object(j->count, j->shown), *list = json_array();
        for (size_t i = 0; i < count; i++)
            json_array_append_new(list, pare_between_object(&between[i]));
        if (j->pasts)
            json_object_set(object, "between", list);
        json_decref(list);
        pare_json_write(object, out);
    } else {
        const pare_screen screen = terminal_screen();
        pare_compare_text(j->count, j->shown, given->given & OPTION_ALL, &screen, out);
        for (size_t i = 0; i < count; i++)
            pare_between_text(&between[i], &screen, out);
    }
}

static void let_go(job *j)
{
    for (size_t i = 0; i < j->count; i++)
        free(j->column[i]);
    free(j->column);
    free(j->shown);
    free(j->of);
    for (size_t i = 0; i < j->pasts; i++) {
        bench_leave(&j->past[i]->use);
        free(j->past[i]);
    }
    bench_leave(&j->use);
    pare_arena_close(j->arena);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    job j = {0};
    pare_between *between = NULL;
    size_t betweens = 0;
    pare_status status = need_operands("compare", given, 1, OPERANDS, "one craft or more", err);
    if (status == PARE_OK)
        status = make_room(&j, given, err);
    if (status == PARE_OK)
        status = day_today(j.now, err);
    if (status == PARE_OK)
        status = bench_use(given, &j.use, err);
    if (status == PARE_OK)
        status = gather(&j, given, err);
    if (status == PARE_OK)
        between = pare_arena_array(j.arena, j.count, sizeof *between);
    if (status == PARE_OK)
        status = between ? make_betweens(&j, &betweens, between, err) : pare_no_memory(err);
    if (status == PARE_OK)
        put(&j, given, betweens, between, out);
    let_go(&j);
    return status;
}

const command command_compare = {
    .name = "compare",
    .line = "craft, loadouts or trials side by side, differences first",
    .usage = "pare compare CRAFT[@DATE][:LOADOUT]... [--try SWAP,SWAP...] [--loadout LOADOUT]\n"
             "            [--all] [--json]",
    .details = "One craft alone is compared in all its loadouts. Where columns do not fit\n"
               "abreast, they follow in blocks, each of which starts with the first again.\n"
               "\n"
               "CRAFT@DATE is the craft as it was at the end of that day: by the history of the\n"
               "bench, and without the readings, flights, fitted swaps and learned values that\n"
               "are dated later. Alone it is compared with what it is now, and what changed\n"
               "in between is listed.\n",
    .example = "  pare compare hedgerow:race bodkin\n"
               "  pare compare hedgerow@2026-05-01 hedgerow\n"
               "  pare compare hedgerow --try bumper=off --try bumper=off,skid=off\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_LOADOUT | OPTION_TRY | OPTION_ALL,
    .meaning = {{OPTION_TRY, "a column: the first craft with these swaps; again for further ones"},
                {OPTION_ALL, "also what weighs alike"}},
    .run = run,
};
