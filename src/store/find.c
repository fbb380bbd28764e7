/* find.c: parts by their numbers (see bench.h).
 *
 * One pass over the rows, in the order in which they lie: kind, words and the packed facts decide, and
 * a row of the answer is made of them too, so that 100,000 parts are looked at without reading one
 * text. A row without facts that can be used (taken over from an older bench, damaged) is read from
 * its text instead, and what it says is packed and judged in the same way, so that there is one rule.
 * Nothing that was typed becomes SQL. An index a number would make each import pay for searches that
 * take a few hundredths of a second without. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "store/facts.h"
#include "store/file.h"
#include "store/load.h"
#include "store/reading.h"

/* ---- parts out of their texts, one at a time ---- */

/* One statement for many, and an arena for each, so that memory stays flat. */
typedef struct texts {
    pare_store *store;
    pare_statement *statement; /* id and text by one parameter */
    pare_units *units;
} texts;

static void texts_close(texts *t)
{
    pare_sql_finish(t->statement);
    pare_units_close(t->units);
    *t = (texts){0};
}

static pare_status texts_open(pare_store *store, const char *sql, texts *t, pare_error *err)
{
    *t = (texts){.store = store, .units = pare_units_open()};
    return t->units ? pare_sql_prepare(store, &t->statement, err, sql, "") : pare_no_memory(err);
}

/* The part of the parameter that is bound. @param[out] there  false: none */
static pare_status texts_read(const texts *t, pare_take_part take, void *context, bool *there,
                              pare_error *err)
{
    pare_part *part = NULL;
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_files files = {.store = t->store, .arena = arena};
    pare_reading reading = {
        .arena = arena, .units = t->units, .find_file = pare_files_find, .find_context = &files};
    pare_status status = pare_sql_step(t->store, t->statement, there, err);
    if (status == PARE_OK && *there)
        status = pare_load_part_row(&reading, t->statement, t->store->path, &part, err);
    pare_sql_rewind(t->statement);
    if (status == PARE_OK && *there)
        status = take(context, part, err);
    pare_arena_close(arena);
    return status;
}

/* ---- the search ---- */

/* A row's columns. */
enum { ID, KIND, MAKER, MASS, FACTS, ROW };
#define COLUMNS "SELECT id, kind, maker, mass_kg, facts, row FROM part"

/* Something found, with what it is sorted by. */
typedef struct found {
    pare_listed listed;
    double by; /* NAN: comes last */
} found;

typedef struct search {
    pare_store *store;
    const pare_find *find;
    pare_arena *arena;    /* of the answer */
    texts texts;          /* opened at the first part that needs it */
    unsigned *word_kinds; /* [words] bit (1u << kind): the word is in the kind's own */
    size_t count, room;
    found *found;
} search;

/* ---- words ---- */

static char small(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool holds_word(const char *text, const char *word)
{
    const char first = small(*word);
    if (!first)
        return true;
    for (; text && *text; text++) {
        size_t i = 1;
        if (small(*text) != first)
            continue;
        while (word[i] && small(text[i]) == small(word[i]))
            i++;
        if (!word[i])
            return true;
    }
    return false;
}

static unsigned kinds_with(const char *word)
{
    unsigned kinds = 0;
    for (int kind = 0; kind < PARE_KINDS; kind++)
        if (holds_word(pare_kind_words((pare_kind)kind), word) ||
            holds_word(pare_kind_name((pare_kind)kind), word))
            kinds |= 1u << kind;
    return kinds;
}

static bool has_words(const search *s, const char *id, const char *maker, pare_kind kind)
{
    for (size_t i = 0; i < s->find->words; i++)
        if (!(s->word_kinds[i] & 1u << kind) && !holds_word(id, s->find->word[i]) &&
            !holds_word(maker, s->find->word[i]))
            return false;
    return true;
}

/* ---- one row ---- */

static void numbers_of(const pare_facts *facts, double mass_kg, double number[PARE_KEYS])
{
    memcpy(number, facts->value, PARE_SPECS * sizeof number[0]);
    number[PARE_KEY_MASS] = mass_kg;
    number[PARE_KEY_PRICE] = facts->value[PARE_FACT_PRICE];
    number[PARE_KEY_OWNED] =
        isnan(facts->value[PARE_FACT_OWNED]) ? 0 : facts->value[PARE_FACT_OWNED];
}

/* Facts that no part can have are damage. */
static bool sound(const pare_facts *facts, double mass_kg)
{
    const double u = facts->value[PARE_FACT_MASS_U], owned = facts->value[PARE_FACT_OWNED];
    return mass_kg >= PARE_PART_LEAST_KG && mass_kg <= PARE_PART_MOST_KG && u >= 0 && isfinite(u) &&
           !isinf(facts->value[PARE_FACT_PRICE]) && (isnan(owned) || (owned >= 0 && owned <= 1e6));
}

/* What the law says of the numbers alone. */
static pare_surprising surprise_of(pare_listed *listed, const double number[])
{
    pare_part part = {.kind = listed->kind, .mass_kg = listed->mass_kg};
    if (!listed->mass_kg.given)
        return PARE_NOT_SURPRISING;
    for (int spec = 0; spec < PARE_SPECS; spec++)
        if (!isnan(number[spec]))
            part.spec[spec] = (pare_value){.value = number[spec], .given = true};
    const pare_surprising is = pare_surprise_by_specs(&part, &listed->surprise);
    listed->judged = is == PARE_SURPRISING;
    return is;
}

static pare_status keep(search *s, const pare_listed *listed, const double number[],
                        pare_error *err)
{
    const pare_find *find = s->find;
    if (find->surprise && !(listed->judged && listed->surprise.sigmas > PARE_SURPRISING_SIGMAS))
        return PARE_OK;
    if (s->count == s->room) {
        const size_t room = s->room ? 2 * s->room : 64;
        found *larger = realloc(s->found, room * sizeof *larger);
        if (!larger)
            return pare_no_memory(err);
        s->found = larger;
        s->room = room;
    }
    found *one = &s->found[s->count];
    one->listed = *listed;
    one->listed.id = pare_arena_text(s->arena, listed->id);
    one->listed.maker = listed->maker ? pare_arena_text(s->arena, listed->maker) : NULL;
    one->by = find->sort == PARE_KEY_NONE ? listed->surprise.sigmas : number[find->sort];
    if (!one->listed.id || (listed->maker && !one->listed.maker))
        return pare_no_memory(err);
    s->count++;
    return PARE_OK;
}

static bool has_numbers(const search *s, pare_kind kind, const double number[])
{
    return (s->find->kind < 0 || kind == (pare_kind)s->find->kind) &&
           (!s->find->filter || pare_filter_holds(s->find->filter, kind, number));
}

static pare_status judge_part(void *context, const pare_part *part, pare_error *err)
{
    search *s = context;
    double number[PARE_KEYS];
    const pare_listed listed = pare_listed_of(part);
    pare_numbers_of(part, number);
    return has_numbers(s, part->kind, number) && has_words(s, part->id, part->maker, part->kind)
               ? keep(s, &listed, number, err)
               : PARE_OK;
}

static pare_status from_text(search *s, long long row, pare_error *err)
{
    bool there = false;
    if (!s->texts.statement) {
        const pare_status status =
            texts_open(s->store, "SELECT id, doc FROM part WHERE row = ?", &s->texts, err);
        if (status != PARE_OK)
            return status;
    }
    const pare_status status = pare_sql_bind(s->texts.statement, err, "i", row);
    return status != PARE_OK ? status : texts_read(&s->texts, judge_part, s, &there, err);
}

/* Its number, or -1. The bytes are compared as they lie in the row: a text of SQLite's own would be
 * copied for its final NUL. */
static int kind_of(const void *name, size_t length)
{
    const char *text = name;
    for (int kind = 0; text && kind < PARE_KINDS; kind++) {
        const char *known = pare_kind_name((pare_kind)kind);
        if (*known == *text && strlen(known) == length && memcmp(known, text, length) == 0)
            return kind;
    }
    return -1;
}

static pare_status judge_row(search *s, pare_statement *statement, pare_error *err)
{
    const long long row = pare_sql_int(statement, ROW);
    const char *id = pare_sql_chars(statement, ID);
    const void *name = pare_sql_bytes(statement, KIND);
    const int kind = kind_of(name, pare_sql_length(statement, KIND));
    const double mass_kg = pare_sql_real(statement, MASS);
    pare_facts facts;
    double number[PARE_KEYS];
    if (!id || kind < 0 ||
        !pare_facts_unpack(pare_sql_bytes(statement, FACTS), pare_sql_length(statement, FACTS),
                           &facts) ||
        !sound(&facts, mass_kg))
        return from_text(s, row, err);
    numbers_of(&facts, mass_kg, number);
    if (!has_numbers(s, (pare_kind)kind, number))
        return PARE_OK;
    pare_listed listed = {
        .id = id, .maker = pare_sql_chars(statement, MAKER), .kind = (pare_kind)kind};
    if (!has_words(s, listed.id, listed.maker, listed.kind))
        return PARE_OK;
    listed.sought = facts.sought;
    listed.mass_kg = (pare_value){mass_kg, facts.value[PARE_FACT_MASS_U], facts.mass_known,
                                  facts.mass_known <= PARE_STATED};
    if (s->find->surprise && surprise_of(&listed, number) == PARE_PERHAPS_SURPRISING)
        return from_text(s, row, err);
    listed.price = number[PARE_KEY_PRICE];
    listed.owned = (int)number[PARE_KEY_OWNED];
    return keep(s, &listed, number, err);
}

/* ---- all rows ---- */

static int by_id(const void *a, const void *b)
{
    return strcmp(((const found *)a)->listed.id, ((const found *)b)->listed.id);
}

static int by_number(const void *a, const void *b)
{
    const double x = ((const found *)a)->by, y = ((const found *)b)->by;
    if (isnan(x) != isnan(y))
        return isnan(x) ? 1 : -1;
    if (x != y && !isnan(x))
        return x < y ? -1 : 1;
    return by_id(a, b);
}

static int by_number_down(const void *a, const void *b)
{
    const double x = ((const found *)a)->by, y = ((const found *)b)->by;
    return isnan(x) || isnan(y) || x == y ? by_number(a, b) : by_number(b, a);
}

static void sort(search *s)
{
    const pare_find *find = s->find;
    if (s->count < 2)
        return;
    if (find->sort == PARE_KEY_NONE)
        qsort(s->found, s->count, sizeof s->found[0], find->surprise ? by_number_down : by_id);
    else
        qsort(s->found, s->count, sizeof s->found[0], find->down ? by_number_down : by_number);
}

static pare_status scan(search *s, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_status status =
        s->find->kind < 0 ? pare_sql_prepare(s->store, &statement, err, COLUMNS, "")
                          : pare_sql_prepare(s->store, &statement, err, COLUMNS " WHERE kind = ?",
                                             "t", pare_kind_name((pare_kind)s->find->kind));
    while (status == PARE_OK) {
        status = pare_sql_step(s->store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        status = judge_row(s, statement, err);
    }
    pare_sql_finish(statement);
    return status;
}

static pare_status hand_over(const search *s, size_t *count, pare_listed **list, pare_error *err)
{
    pare_listed *made = pare_arena_array(s->arena, s->count + 1, sizeof *made);
    if (!made)
        return pare_no_memory(err);
    for (size_t i = 0; i < s->count; i++)
        made[i] = s->found[i].listed;
    *list = made;
    *count = s->count;
    return PARE_OK;
}

pare_status pare_store_find(pare_store *store, const pare_find *find, pare_arena *arena,
                            size_t *count, pare_listed **list, pare_error *err)
{
    search s = {.store = store, .find = find, .arena = arena};
    s.word_kinds = pare_arena_array(arena, find->words + 1, sizeof *s.word_kinds);
    pare_status status = s.word_kinds ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; status == PARE_OK && i < find->words; i++)
        s.word_kinds[i] = kinds_with(find->word[i]);
    /* One transaction, so that a row that is read from its text is the one that was met. */
    if (status == PARE_OK)
        status = pare_sql_begin_reading(store, err);
    if (status == PARE_OK) {
        status = scan(&s, err);
        pare_sql_finish(s.texts.statement);
        s.texts.statement = NULL;
        pare_sql_rollback(store);
    }
    if (status == PARE_OK) {
        sort(&s);
        status = hand_over(&s, count, list, err);
    }
    free(s.found);
    texts_close(&s.texts);
    return status;
}

/* ---- parts in full ---- */

pare_status pare_store_each_part(pare_store *store, size_t count, const char *const ids[],
                                 pare_take_part take, void *context, pare_error *err)
{
    texts t;
    pare_text unused = {0};
    pare_status status = texts_open(store, "SELECT id, doc FROM part WHERE id = ?", &t, err);
    for (size_t i = 0; status == PARE_OK && i < count; i++) {
        bool there = false;
        status = pare_sql_bind(t.statement, err, "t", ids[i]);
        if (status == PARE_OK)
            status = texts_read(&t, take, context, &there, err);
        if (status == PARE_OK && !there)
            status = pare_store_part_text(store, ids[i], &unused, err); /* says what is near */
    }
    texts_close(&t);
    pare_text_free(&unused);
    return status;
}
