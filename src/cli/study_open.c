/* study_open.c: see study_open.h.
 *
 * A key is made of the whole bench as text, the program's version, the brief's text and all that varies: where any of
 * it changes, what a journal has is no answer any more; where a study only grows, all of it still is. */
#include "cli/study_open.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/hash.h"
#include "lib/named.h"
#include "store/disk.h"

#define MONEY_MOST 1e7
#define HOURS_MOST 1e4

/* ---- benches ---- */

/* A file beside the study, unless its name says where. */
static const char *bench_file(const char *path, const char *file, pare_arena *arena)
{
    const char *slash = strrchr(path, '/');
    if (file[0] == '/' || !slash || strstr(file, "://"))
        return file;
    return pare_arena_printf(arena, "%.*s/%s", (int)(slash - path), path, file);
}

static pare_status mark_bench(study_open *s, size_t number, pare_error *err)
{
    pare_text text = {0};
    pare_status status = pare_store_export_yaml(s->use[number].store, &text, err);
    if (status == PARE_OK && text.failed)
        status = pare_no_memory(err);
    if (status == PARE_OK) {
        s->bench[number] = pare_hash(PARE_HASH_START, text.bytes, text.length);
        s->mark = pare_hash(s->mark, &s->bench[number], sizeof s->bench[number]);
    }
    pare_text_free(&text);
    return status;
}

static pare_status open_bench(const options *given, const char *path, study_open *s, size_t number,
                              pare_error *err)
{
    options own = *given;
    const pare_study_bench *bench = &s->study->bench[number];
    own.keep = NULL;
    if (bench->file) {
        own.given |= OPTION_BENCH;
        own.bench = bench_file(path, bench->file, s->arena);
        if (!own.bench)
            return pare_no_memory(err);
    }
    pare_status status = bench_use(&own, &s->use[number], err);
    if (status != PARE_OK && bench->file)
        return pare_study_refused_at(s->file, bench->place, err);
    if (status == PARE_OK)
        status = mark_bench(s, number, err);
    if (status == PARE_OK && pare_store_mark_file(s->use[number].path.bytes, &s->stood[number]))
        status = pare_store_mark_stamp(s->use[number].store, &s->stood[number], err);
    return status;
}

static pare_status open_benches(const options *given, const char *path, study_open *s,
                                pare_error *err)
{
    const size_t benches = s->study->benches;
    s->use = pare_arena_array(s->arena, benches, sizeof s->use[0]);
    s->bench = pare_arena_array(s->arena, benches, sizeof s->bench[0]);
    s->stood = pare_arena_array(s->arena, benches, sizeof s->stood[0]);
    pare_store **store = pare_arena_array(s->arena, benches, sizeof store[0]);
    if (!s->use || !s->bench || !s->stood || !store)
        return pare_no_memory(err);
    if (s->study->bench[0].file && given->given & OPTION_BENCH)
        return pare_study_refuse(s->file, s->study->bench[0].place, PARE_BAD_DATA, err,
                                 "the study names its benches; right would be no --bench");
    pare_status status = PARE_OK;
    for (size_t i = 0; i < benches && status == PARE_OK; i++) {
        s->used = i + 1;
        status = open_bench(given, path, s, i, err);
        store[i] = s->use[i].store;
    }
    return status == PARE_OK ? pare_study_settle(s->file, store, err) : status;
}

bool study_bench_moved(const study_open *s, size_t number)
{
    pare_store_mark now;
    if (!s->stood[number].file)
        return false; /* no file: a server, which nobody can take away unseen */
    return !pare_store_mark_file(s->use[number].path.bytes, &now) ||
           pare_store_mark_stamp(s->use[number].store, &now, NULL) != PARE_OK ||
           !pare_store_same_file(&s->stood[number], &now) || s->stood[number].stamp != now.stamp;
}

static pare_status find_offers(study_open *s, pare_error *err)
{
    const size_t offers = s->study->offers;
    s->craft = pare_arena_array(s->arena, offers, sizeof s->craft[0]);
    s->loadout = pare_arena_array(s->arena, offers, sizeof s->loadout[0]);
    pare_status status = s->craft && s->loadout ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; i < offers && status == PARE_OK; i++) {
        const pare_study_offer *offer = &s->study->offer[i];
        status = bench_craft(&s->use[offer->bench], offer->craft, &s->craft[i], err);
        if (status == PARE_OK)
            status = pare_loadout_named(s->craft[i], offer->loadout, &s->loadout[i], err);
        if (status != PARE_OK)
            return pare_study_refused_at(s->file, offer->place, err);
    }
    return status;
}

/* ---- what varies ---- */

static bool is_none(const char *word)
{
    return strcmp(word, "none") == 0 || strcmp(word, "any") == 0;
}

/* "frame,motor" into its choices. */
static pare_status read_choices(const study_open *s, const pare_study_axis *axis, size_t number,
                                study_value *value, pare_error *err)
{
    char *rest = pare_arena_text(s->arena, axis->word[number]), *comma;
    if (!rest)
        return pare_no_memory(err);
    do {
        comma = strchr(rest, ',');
        if (comma)
            *comma = '\0';
        if (!*rest || value->choices == PARE_STUDY_CHOICES)
            return pare_study_refuse(s->file, axis->place[number], PARE_BAD_DATA, err,
                                     "%s is '%.60s'; right would be 1 to %d names with commas "
                                     "between, or none",
                                     axis->name, axis->word[number], PARE_STUDY_CHOICES);
        value->choice[value->choices++] = rest;
        rest = comma ? comma + 1 : rest;
    } while (comma);
    return PARE_OK;
}

static pare_status check_parts(const study_open *s, const pare_study_axis *axis, size_t number,
                               const study_value *value, pare_error *err)
{
    for (size_t i = 0; i < value->choices; i++) {
        const pare_part *part = NULL;
        pare_status status = PARE_UNKNOWN;
        for (size_t b = 0; b < s->study->benches && status != PARE_OK; b++)
            status = bench_part(&s->use[b], value->choice[i], &part, err);
        if (status != PARE_OK)
            return pare_study_refused_at(s->file, axis->place[number], err);
    }
    return PARE_OK;
}

static pare_status read_number(const study_open *s, const pare_study_axis *axis, size_t number,
                               double most, double *value, pare_error *err)
{
    char *end = NULL;
    *value = strtod(axis->word[number], &end);
    if (end != axis->word[number] && !*end && *value >= 0 && *value <= most)
        return PARE_OK;
    return pare_study_refuse(s->file, axis->place[number], PARE_BAD_DATA, err,
                             "%s is '%.40s'; right would be a number, 0 to %g, or any", axis->name,
                             axis->word[number], most);
}

static pare_status read_wish(const study_open *s, const pare_study_axis *axis, size_t number,
                             study_value *value, pare_error *err)
{
    const char *names[PARE_BEST_WISHES];
    value->wish = pare_best_wish_named(axis->word[number]);
    if (value->wish >= 0 && value->wish != PARE_WISH_EVENING)
        return PARE_OK;
    for (int i = 0; i < PARE_BEST_WISHES; i++)
        names[i] = i == PARE_WISH_EVENING ? NULL : pare_best_wish_name(i);
    const char *near = pare_nearest(axis->word[number], PARE_BEST_WISHES, names);
    return pare_study_refuse(s->file, axis->place[number], PARE_BAD_DATA, err,
                             near ? "no wish '%.40s'; did you mean %s?"
                                  : "no wish '%.40s'; there are grams, minutes, thrust, quickness, "
                                    "money, crash%s",
                             axis->word[number], near ? near : "");
}

static pare_status read_value(const study_open *s, const pare_study_axis *axis, size_t number,
                              study_value *value, pare_error *err)
{
    double read = 0;
    pare_status status = PARE_OK;
    *value = (study_value){.cents = -1, .work_min = -1, .wish = PARE_WISH_GRAMS};
    if (axis->of != PARE_VARY_WISH && is_none(axis->word[number]))
        return PARE_OK;
    switch (axis->of) {
    case PARE_VARY_HOLD:
        return read_choices(s, axis, number, value, err);
    case PARE_VARY_NEVER:
    case PARE_VARY_MUST:
        status = read_choices(s, axis, number, value, err);
        return status == PARE_OK ? check_parts(s, axis, number, value, err) : status;
    case PARE_VARY_WISH:
        return read_wish(s, axis, number, value, err);
    case PARE_VARY_BUDGET:
        status = read_number(s, axis, number, MONEY_MOST, &read, err);
        value->cents = llround(100 * read);
        return status;
    case PARE_VARY_HOURS:
        status = read_number(s, axis, number, HOURS_MOST, &read, err);
        value->work_min = 60 * read;
        return status;
    case PARE_VARY_BRIEF:
    case PARE_VARY_TRY:
        break;
    }
    return PARE_OK;
}

static pare_status read_values(study_open *s, pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t a = 0; a < s->study->axes && status == PARE_OK; a++) {
        const pare_study_axis *axis = &s->study->axis[a];
        s->value[a] = pare_arena_array(s->arena, axis->count, sizeof s->value[a][0]);
        status = s->value[a] ? PARE_OK : pare_no_memory(err);
        for (size_t i = 0; i < axis->count && status == PARE_OK; i++)
            status = read_value(s, axis, i, &s->value[a][i], err);
    }
    return status;
}

/* ---- all of it ---- */

static pare_status mark_text(const char *path, study_open *s, pare_error *err)
{
    const char *bytes = NULL;
    size_t length = 0;
    const pare_status status =
        pare_disk_read(path, PARE_STUDY_BYTES, s->arena, &bytes, &length, err);
    s->mark = pare_hash(PARE_HASH_START, PARE_VERSION, sizeof PARE_VERSION);
    if (status == PARE_OK)
        s->mark = pare_hash(s->mark, bytes, length);
    return status;
}

pare_status study_open_all(const options *given, const char *path, study_open *s, pare_error *err)
{
    s->arena = pare_arena_open();
    pare_status status = s->arena ? mark_text(path, s, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_study_file_open(path, &s->file, err);
    if (status != PARE_OK)
        return status;
    s->study = pare_study_of(s->file);
    status = open_benches(given, path, s, err);
    if (status == PARE_OK)
        status = find_offers(s, err);
    return status == PARE_OK ? read_values(s, err) : status;
}

void study_leave(study_open *s)
{
    for (size_t i = 0; i < s->used; i++)
        bench_leave(&s->use[i]);
    pare_study_file_close(s->file);
    pare_arena_close(s->arena);
    *s = (study_open){0};
}

/* ---- tasks ---- */

static void put_value(const pare_study_axis *axis, size_t number, const study_value *value,
                      pare_task_ask *ask)
{
    switch (axis->of) {
    case PARE_VARY_TRY:
        ask->tries = is_none(axis->word[number]) ? NULL : axis->word[number];
        break;
    case PARE_VARY_HOLD:
        ask->holds = value->choices;
        ask->hold = value->choice;
        break;
    case PARE_VARY_NEVER:
        ask->nevers = value->choices;
        ask->never = value->choice;
        break;
    case PARE_VARY_MUST:
        ask->musts = value->choices;
        ask->must = value->choice;
        break;
    case PARE_VARY_WISH:
        ask->wish = value->wish;
        break;
    case PARE_VARY_BUDGET:
        ask->most_cents = value->cents >= 0 ? &value->cents : NULL;
        break;
    case PARE_VARY_HOURS:
        ask->most_work_min = value->work_min >= 0 ? &value->work_min : NULL;
        break;
    case PARE_VARY_BRIEF:
        break;
    }
}

pare_status study_ask_of(const study_open *s, size_t number, pare_arena *arena, pare_brief *brief,
                         pare_task_ask *ask, pare_error *err)
{
    const pare_study *study = s->study;
    const pare_study_task task = pare_study_task_at(study, number);
    pare_text text = {0};
    *ask = (pare_task_ask){.bench = s->use[study->offer[task.offer].bench].bench,
                           .craft = s->craft[task.offer],
                           .loadout = s->loadout[task.offer],
                           .brief = brief,
                           .best = study->best,
                           .wish = PARE_WISH_GRAMS,
                           .effort = study->effort,
                           .figures = study->figures,
                           .figure = study->figure};
    for (size_t a = 0; a < study->axes; a++)
        put_value(&study->axis[a], task.value[a], &s->value[a][task.value[a]], ask);
    const pare_status status = pare_study_brief_of(s->file, &task, arena, brief, &text, err);
    pare_text_free(&text);
    return status;
}

/* ---- keys ---- */

static unsigned long long hash_word(unsigned long long sum, const char *word)
{
    return pare_hash(sum, word, strlen(word) + 1);
}

/* Where a task's brief stands among all of an offer. */
static size_t place_of_brief(const pare_study *study, const pare_study_task *task)
{
    size_t place = task->brief;
    for (size_t a = 0; a < study->axes; a++)
        if (study->axis[a].of == PARE_VARY_BRIEF)
            place = place * study->axis[a].count + task->value[a];
    return place;
}

pare_status study_brief_in(const study_open *s, size_t offer, size_t number, size_t condition,
                           pare_arena *arena, pare_brief *brief, pare_text *text, pare_error *err)
{
    pare_study_task task = {.offer = offer, .brief = number};
    pare_study_condition(s->study, condition, &task);
    return pare_study_brief_of(s->file, &task, arena, brief, text, err);
}

/* Of each brief in each of its variations. @param mark  [offers or 1][briefs][conditions] */
static pare_status mark_briefs(const study_open *s, unsigned long long *mark, pare_error *err)
{
    const pare_study *study = s->study;
    const bool own = !study->brief[0].name;
    const size_t conditions = pare_study_conditions(study);
    pare_arena *room = pare_arena_open();
    pare_status status = room ? PARE_OK : pare_no_memory(err);
    pare_brief brief;
    for (size_t o = 0; o < (own ? study->offers : 1); o++)
        for (size_t b = 0; b < study->briefs; b++)
            for (size_t c = 0; c < conditions && status == PARE_OK; c++) {
                pare_text text = {0};
                status = study_brief_in(s, o, b, c, room, &brief, &text, err);
                if (status == PARE_OK)
                    *mark++ = hash_word(PARE_HASH_START, text.bytes);
                pare_text_free(&text);
                pare_arena_clear(room);
            }
    pare_arena_close(room);
    return status;
}

static unsigned long long key_of(const study_open *s, size_t number,
                                 const unsigned long long brief_mark[])
{
    const pare_study *study = s->study;
    const pare_study_task task = pare_study_task_at(study, number);
    const pare_study_offer *offer = &study->offer[task.offer];
    const size_t each = study->briefs * pare_study_conditions(study);
    const size_t at = (study->brief[0].name ? 0 : task.offer * each) + place_of_brief(study, &task);
    const int asked[] = {study->best, study->effort};
    unsigned long long sum = hash_word(PARE_HASH_START, PARE_VERSION);
    sum = pare_hash(sum, &s->bench[offer->bench], sizeof s->bench[0]);
    sum = pare_hash(sum, &brief_mark[at], sizeof brief_mark[0]);
    sum = pare_hash(sum, asked, sizeof asked);
    sum = pare_hash(sum, study->figure, study->figures * sizeof study->figure[0]);
    sum = hash_word(hash_word(sum, offer->craft), offer->loadout ? offer->loadout : "");
    for (size_t a = 0; a < study->axes; a++)
        if (study->axis[a].of != PARE_VARY_BRIEF && !is_none(study->axis[a].word[task.value[a]]))
            sum =
                hash_word(hash_word(sum, study->axis[a].name), study->axis[a].word[task.value[a]]);
    return sum;
}

static pare_status brief_marks(const study_open *s, size_t *count, unsigned long long **mark,
                               pare_error *err)
{
    const pare_study *study = s->study;
    *count =
        (study->brief[0].name ? 1 : study->offers) * study->briefs * pare_study_conditions(study);
    *mark = pare_arena_array(s->arena, *count, sizeof **mark);
    return *mark ? mark_briefs(s, *mark, err) : pare_no_memory(err);
}

pare_status study_keys(const study_open *s, unsigned long long **key, pare_error *err)
{
    const size_t tasks = pare_study_tasks(s->study);
    unsigned long long *mark = NULL;
    size_t marks = 0;
    *key = pare_arena_array(s->arena, tasks, sizeof **key);
    pare_status status = *key ? brief_marks(s, &marks, &mark, err) : pare_no_memory(err);
    for (size_t i = 0; i < tasks && status == PARE_OK; i++)
        (*key)[i] = key_of(s, i, mark);
    return status;
}

pare_status study_briefs_mark(const study_open *s, unsigned long long *mark, pare_error *err)
{
    unsigned long long *each = NULL;
    size_t count = 0;
    const pare_status status = brief_marks(s, &count, &each, err);
    if (status == PARE_OK)
        *mark = pare_hash(PARE_HASH_START, each, count * sizeof each[0]);
    return status;
}
