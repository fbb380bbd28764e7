/* study_cover.c: see study_cover.h.
 *
 * A set that was best for one customer may serve others, so each craft that any task came up with is held against
 * all briefs: a job a craft, shared out like the tasks. It covers a brief where it does what that asks in all
 * that varies of it, in every air and under every limit. */
#include "cli/study_cover.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advise/cover.h"
#include "base/hash.h"

#define NODES 20000 /* some seconds at thousands of craft */

/* A craft that differs from all others. */
typedef struct candidate {
    size_t task; /* the first that came up with it */
    size_t offer;
    const char *tries, *set;
    double grams, money;
    char *fits; /* "+" or what refuses, brief by brief with tabs between */
} candidate;

typedef struct cover_of {
    const study_answers *answers;
    const pare_study *study;
    pare_arena *arena;
    size_t count;
    candidate *candidate;
    unsigned long long *key;
    unsigned *sort;
    uint64_t *covers; /* [count][words] */
    const char **why; /* [count][briefs] what refuses; NULL: it covers */
} cover_of;

/* ---- which craft there are ---- */

static int by_what(const void *left, const void *right)
{
    const candidate *a = left, *b = right;
    if (a->offer != b->offer)
        return a->offer < b->offer ? -1 : 1;
    int order = strcmp(a->tries, b->tries);
    if (order == 0)
        order = strcmp(a->set, b->set);
    return order ? order : (a->task > b->task) - (a->task < b->task);
}

static int by_task(const void *left, const void *right)
{
    const candidate *a = left, *b = right;
    return (a->task > b->task) - (a->task < b->task);
}

static void keep_those_that_differ(cover_of *c)
{
    size_t kept = 0;
    qsort(c->candidate, c->count, sizeof c->candidate[0], by_what);
    for (size_t i = 0; i < c->count; i++) {
        const candidate *one = &c->candidate[i], *last = kept ? &c->candidate[kept - 1] : NULL;
        if (!last || last->offer != one->offer || strcmp(last->tries, one->tries) != 0 ||
            strcmp(last->set, one->set) != 0)
            c->candidate[kept++] = *one;
    }
    c->count = kept;
    qsort(c->candidate, c->count, sizeof c->candidate[0], by_task);
}

static pare_status gather(cover_of *c, study_answers *answers, pare_error *err)
{
    c->candidate = pare_arena_array(c->arena, answers->tasks, sizeof c->candidate[0]);
    pare_status status = c->candidate ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; i < answers->tasks && status == PARE_OK; i++) {
        pare_task_answer answer;
        study_answer_of(answers, i, &answer);
        if (answer.says == PARE_TASK_CANNOT || !answer.set)
            continue;
        const pare_study_task task = pare_study_task_at(c->study, i);
        const char *tries = pare_study_word(c->study, &task, PARE_VARY_TRY);
        candidate *one = &c->candidate[c->count++];
        *one = (candidate){.task = i,
                           .offer = task.offer,
                           .tries = tries && strcmp(tries, "none") != 0 ? tries : "",
                           .set = pare_arena_text(c->arena, answer.set),
                           .grams = answer.mass_g,
                           .money = answer.worth};
        status = one->set ? PARE_OK : pare_no_memory(err);
    }
    if (status == PARE_OK && c->count)
        keep_those_that_differ(c);
    return status;
}

/* ---- held against all briefs ---- */

static void tell(void *context, size_t job, pare_text *line)
{
    const cover_of *c = context;
    pare_text_printf(line, "f %zu %s", c->candidate[job].task, c->candidate[job].set);
}

static pare_status take(void *context, size_t job, char *answer, pare_error *err)
{
    cover_of *c = context;
    c->candidate[job].fits = pare_arena_text(c->arena, answer);
    return c->candidate[job].fits ? PARE_OK : pare_no_memory(err);
}

static pare_status hold_against(cover_of *c, study_share *share, pare_error *err)
{
    unsigned long long briefs = 0;
    c->key = pare_arena_array(c->arena, c->count + 1, sizeof c->key[0]);
    c->sort = pare_arena_array(c->arena, c->count + 1, sizeof c->sort[0]);
    if (!c->key || !c->sort)
        return pare_no_memory(err);
    pare_status status = study_briefs_mark(c->answers->open, &briefs, err);
    for (size_t i = 0; i < c->count; i++) {
        const candidate *one = &c->candidate[i];
        const unsigned long long task = c->answers->key[one->task];
        c->key[i] = pare_hash(pare_hash(PARE_HASH_START, "fits", 5), &task, sizeof task);
        c->key[i] = pare_hash(c->key[i], &briefs, sizeof briefs);
        c->key[i] = pare_hash(c->key[i], one->set, strlen(one->set) + 1);
    }
    const study_jobs jobs = {.what = "craft held against the briefs",
                             .count = c->count,
                             .key = c->key,
                             .sorts = 1,
                             .sort = c->sort,
                             .context = c,
                             .tell = tell,
                             .take = take};
    return status == PARE_OK ? study_share_do(share, &jobs, err) : status;
}

static pare_status read_fits(cover_of *c, pare_error *err)
{
    const size_t words = pare_cover_words(c->study->briefs), briefs = c->study->briefs;
    c->covers = pare_arena_array(c->arena, c->count * words + 1, sizeof c->covers[0]);
    c->why = pare_arena_array(c->arena, c->count * briefs + 1, sizeof c->why[0]);
    if (!c->covers || !c->why)
        return pare_no_memory(err);
    for (size_t i = 0; i < c->count; i++) {
        char *at = c->candidate[i].fits;
        for (size_t b = 0; b < briefs; b++) {
            char *tab = at ? strchr(at, '\t') : NULL;
            if (tab)
                *tab = '\0';
            if (at && strcmp(at, "+") == 0)
                c->covers[i * words + b / 64] |= UINT64_C(1) << (b % 64);
            else
                c->why[i * briefs + b] = at ? at : "no answer";
            at = tab ? tab + 1 : NULL;
        }
    }
    return PARE_OK;
}

/* ---- the choice ---- */

static bool covers(const cover_of *c, size_t number, size_t brief)
{
    return c->covers[number * pare_cover_words(c->study->briefs) + brief / 64] >> (brief % 64) & 1;
}

/* In hundredths of money or tenths of grams; -1: not known. */
static int64_t cost_of(const cover_of *c, size_t number)
{
    const candidate *one = &c->candidate[number];
    switch (c->study->cover.wish) {
    case PARE_COVER_MONEY:
        return isfinite(one->money) ? llround(100 * one->money) : -1;
    case PARE_COVER_GRAMS:
        return isfinite(one->grams) ? llround(10 * one->grams) : -1;
    case PARE_COVER_CUSTOMERS:
    case PARE_COVER_CRAFT:
        break;
    }
    return 1;
}

static double in_its_unit(const cover_of *c, int64_t cost)
{
    const pare_cover_wish wish = c->study->cover.wish;
    return wish == PARE_COVER_MONEY   ? 1e-2 * (double)cost
           : wish == PARE_COVER_GRAMS ? 1e-1 * (double)cost
                                      : (double)cost;
}

/* What most craft are refused by; NULL: some craft covers the brief. */
static const char *usual_refusal(const cover_of *c, size_t brief)
{
    enum { DIFFERENT = 64 };
    const char *why[DIFFERENT] = {"no craft"};
    size_t count[DIFFERENT] = {0}, whys = 0, most = 0;
    for (size_t i = 0; i < c->count; i++) {
        size_t at = 0;
        if (covers(c, i, brief))
            return NULL;
        const char *one = c->why[i * c->study->briefs + brief];
        while (at < whys && strcmp(why[at], one) != 0)
            at++;
        if (at == DIFFERENT)
            continue;
        whys += at == whys;
        why[at] = one;
        count[at]++;
    }
    for (size_t i = 1; i < whys; i++)
        most = count[i] > count[most] ? i : most;
    return why[most];
}

static pare_status tell_one(const cover_of *c, size_t number, pare_covers *to, pare_error *err)
{
    const candidate *one = &c->candidate[number];
    size_t *brief = pare_arena_array(c->arena, c->study->briefs + 1, sizeof brief[0]);
    if (!brief)
        return pare_no_memory(err);
    const int loadout = c->answers->open->loadout[one->offer];
    const pare_craft *craft = c->answers->open->craft[one->offer];
    *to = (pare_covers){.task = one->task,
                        .craft = craft->name,
                        .loadout = loadout >= 0 ? craft->loadout[loadout].name : NULL,
                        .tries = *one->tries ? one->tries : NULL,
                        .set = one->set,
                        .grams = one->grams,
                        .money = one->money,
                        .brief = brief};
    for (size_t b = 0; b < c->study->briefs; b++)
        if (covers(c, number, b))
            brief[to->briefs++] = b;
    return PARE_OK;
}

static pare_status tell_all(const cover_of *c, const size_t index[], const pare_cover *found,
                            pare_cover_view *view, pare_error *err)
{
    const pare_study *study = c->study;
    pare_covers *chosen = pare_arena_array(c->arena, found->count + 1, sizeof chosen[0]);
    size_t *left = pare_arena_array(c->arena, study->briefs, sizeof left[0]);
    const char **why = pare_arena_array(c->arena, study->briefs, sizeof why[0]);
    pare_status status = chosen && left && why ? PARE_OK : pare_no_memory(err);
    *view = (pare_cover_view){.candidates = c->count,
                              .chosen = found->count,
                              .covers = chosen,
                              .covered = found->weight,
                              .bound = study->cover.most ? found->bound : found->weight,
                              .total = in_its_unit(c, found->cost),
                              .total_bound = in_its_unit(c, found->bound),
                              .proven = found->proven,
                              .left = left,
                              .left_why = why};
    for (size_t k = 0; k < found->count && status == PARE_OK; k++)
        status = tell_one(c, index[found->chosen[k]], &chosen[k], err);
    for (size_t b = 0; b < study->briefs && status == PARE_OK; b++) {
        bool is_covered = false;
        view->customers += study->brief[b].customers;
        for (size_t k = 0; k < found->count; k++)
            is_covered = is_covered || covers(c, index[found->chosen[k]], b);
        if (is_covered)
            continue;
        why[view->lefts] = usual_refusal(c, b);
        left[view->lefts++] = b;
    }
    return status;
}

static pare_status choose(const cover_of *c, const pare_progress *progress, pare_cover_view *view,
                          pare_error *err)
{
    const size_t briefs = c->study->briefs, words = pare_cover_words(briefs);
    int64_t *cost = pare_arena_array(c->arena, c->count + 1, sizeof cost[0]);
    int64_t *weight = pare_arena_array(c->arena, briefs, sizeof weight[0]);
    uint64_t *bits = pare_arena_array(c->arena, c->count * words + 1, sizeof bits[0]);
    size_t *index = pare_arena_array(c->arena, c->count + 1, sizeof index[0]), count = 0;
    pare_cover found;
    if (!cost || !weight || !bits || !index)
        return pare_no_memory(err);
    for (size_t i = 0; i < c->count; i++) {
        const int64_t costs = cost_of(c, i);
        if (costs < 0)
            continue; /* nobody knows what it would cost */
        memcpy(bits + count * words, c->covers + i * words, words * sizeof bits[0]);
        cost[count] = costs;
        index[count++] = i;
    }
    for (size_t b = 0; b < briefs; b++)
        weight[b] = c->study->brief[b].customers;
    const pare_cover_ask ask = {.candidates = count,
                                .customers = briefs,
                                .covers = bits,
                                .weight = weight,
                                .cost = cost,
                                .all = c->study->cover.wish != PARE_COVER_CUSTOMERS,
                                .most = (size_t)c->study->cover.most,
                                .nodes = NODES,
                                .progress = progress};
    pare_status status = pare_cover_find(&ask, c->arena, &found, err);
    if (status == PARE_OK)
        status = pare_progress_step(progress, NULL, 0, 0, err);
    return status == PARE_OK ? tell_all(c, index, &found, view, err) : status;
}

pare_status study_cover_find(study_answers *answers, study_share *share,
                             const pare_progress *progress, pare_arena *arena,
                             pare_cover_view *view, pare_error *err)
{
    cover_of c = {.answers = answers, .study = answers->open->study, .arena = arena};
    pare_status status = gather(&c, answers, err);
    if (status == PARE_OK)
        status = hold_against(&c, share, err);
    if (status == PARE_OK)
        status = read_fits(&c, err);
    return status == PARE_OK ? choose(&c, progress, view, err) : status;
}
