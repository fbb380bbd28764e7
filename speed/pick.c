/* rooms: store advise craft physics base */
/* pick.c: one of each class, the lightest for the money, against two general solvers to a proven optimum.
 *
 * The question is a craft's: a class for each thing of it that can be changed on a made-up bench of 2,000
 * and 20,000 parts, an option for each change that fits, its grams and its money as `pare swaps` has them,
 * and an allowance of a share of the money that the lightest of all would cost. Then the literature's
 * hardest of its size, where weight and worth go together. Each is asked as it is, and again ("bare") with
 * the options taken out that another of their class beats in both: a favour to the solvers. One line a
 * question: what the engine took (the least of some rounds), what each solver took once, and whether all
 * agree. A solver that has proven nothing in the time it is given says so. Time is the processor's, since
 * all run on one thread and the machine may be busy. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/pick.h"
#include "advise/swap.h"
#include "support/clock.h"
#include "support/made_bench.h"
#include "support/solvers.h"

enum { SEED = 2026, SEEDS = 3, ROUNDS = 7, MOST_CLASSES = 256, MOST_S = 20 };

typedef struct question {
    pare_pick pick;
    pare_pick_class class[MOST_CLASSES];
    pare_pick_amounts *option[MOST_CLASSES];
    const char *name[MOST_CLASSES];
} question;

/* ---- the questions ---- */

static size_t class_of(question *q, const char *id)
{
    const size_t length = strcspn(id, "=");
    for (size_t c = 0; c < q->pick.classes; c++)
        if (strncmp(q->name[c], id, length) == 0 && q->name[c][length] == '=')
            return c;
    if (q->pick.classes == MOST_CLASSES)
        return MOST_CLASSES;
    q->name[q->pick.classes] = id;
    return q->pick.classes++;
}

/* A class for each thing that the swaps change, with "as it is" as its first option. */
static pare_status question_of(const pare_swaps *swaps, pare_arena *arena, question *q,
                               pare_error *err)
{
    *q = (question){.pick = {.class = q->class, .most = pare_pick_no_limit()}};
    for (size_t i = 0; i < swaps->count; i++)
        class_of(q, swaps->swap[i].applied.id);
    for (size_t c = 0; c < q->pick.classes; c++) {
        q->option[c] = pare_arena_array(arena, swaps->count + 1, sizeof q->option[c][0]);
        if (!q->option[c])
            return pare_no_memory(err);
        q->class[c] = (pare_pick_class){.count = 1, .option = q->option[c]};
    }
    for (size_t i = 0; i < swaps->count; i++) {
        const pare_swap *swap = &swaps->swap[i];
        const size_t c = class_of(q, swap->applied.id);
        if (c == MOST_CLASSES || swap->applied.sought || !swap->applied.priced)
            continue;
        q->option[c][q->class[c].count++] =
            (pare_pick_amounts){.mass_100ug = -llround(1e7 * swap->grams_kg),
                                .money_cents = llround(100 * swap->applied.money)};
    }
    return PARE_OK;
}

/* Strongly correlated classes as in Pisinger, European Journal of Operational Research 83 (1995), 394-410
 * (the rule from memory): sorted weights from 1..range, profit 10 above each, the nth option the sum of
 * the first n. */
static int ascending(const void *left, const void *right)
{
    const int64_t *a = left, *b = right;
    return (*a > *b) - (*a < *b);
}

static pare_status correlated(unsigned long long seed, size_t classes, size_t options,
                              int64_t range, pare_arena *arena, question *q, pare_error *err)
{
    unsigned long long state = seed;
    int64_t *weight = pare_arena_array(arena, options, sizeof *weight), least = 0, most = 0;
    *q = (question){.pick = {.classes = classes, .class = q->class, .most = pare_pick_no_limit()}};
    for (size_t c = 0; weight && c < classes; c++) {
        q->option[c] = pare_arena_array(arena, options, sizeof q->option[c][0]);
        if (!q->option[c])
            return pare_no_memory(err);
        for (size_t i = 0; i < options; i++) {
            state = state * 6364136223846793005ull + 1442695040888963407ull;
            weight[i] = 1 + (int64_t)(state >> 33) % range;
        }
        qsort(weight, options, sizeof weight[0], ascending);
        int64_t sum = 0;
        for (size_t i = 0; i < options; i++) {
            sum += weight[i];
            q->option[c][i] = (pare_pick_amounts){.mass_100ug = -(sum + 10 * (int64_t)(i + 1)),
                                                  .money_cents = sum};
        }
        q->class[c] = (pare_pick_class){.count = options, .option = q->option[c]};
        least += q->option[c][0].money_cents;
        most += sum;
    }
    q->pick.most.money_cents = (least + most) / 2;
    return weight ? PARE_OK : pare_no_memory(err);
}

/* ---- measuring ---- */

static pare_status without_beaten(const question *q, pare_arena *arena, question *bare,
                                  pare_error *err)
{
    *bare = *q;
    bare->pick.class = bare->class;
    for (size_t c = 0; c < q->pick.classes; c++) {
        const pare_pick_class *from = &q->class[c];
        size_t *kept = pare_arena_array(arena, from->count, sizeof *kept), count = 0;
        pare_pick_amounts *option = pare_arena_array(arena, from->count, sizeof *option);
        if (!kept || !option)
            return pare_no_memory(err);
        const pare_status status = pare_pick_undominated(from, 0, kept, &count, err);
        if (status != PARE_OK)
            return status;
        for (size_t i = 0; i < count; i++)
            option[i] = from->option[kept[i]];
        bare->class[c] = (pare_pick_class){.count = count, .option = option};
    }
    return PARE_OK;
}

static void tell(const char *name, solver *solve, const question *q, double own_s,
                 const pare_pick_amounts *own)
{
    solved s = {0};
    if (!solve(&q->pick, MOST_S, &s))
        printf("; %s: no memory", name);
    else if (!s.proven)
        printf("; %s not proven in %d s (%.0f x and more)", name, MOST_S, s.took_s / own_s);
    else
        printf("; %s %.1f ms (%.0f x), %s", name, 1e3 * s.took_s, s.took_s / own_s,
               s.mass_100ug == own->mass_100ug            ? "the same optimum"
               : s.money_cents > q->pick.most.money_cents ? "beyond the money by its tolerance"
                                                          : "ANOTHER OPTIMUM");
}

static pare_status measure_as_it_is(const char *name, const question *q, pare_error *err)
{
    static size_t choice[MOST_CLASSES];
    pare_pick_amounts own;
    pare_status status = PARE_OK;
    double least_s = 1e9;
    for (int i = 0; status == PARE_OK && i < ROUNDS; i++) {
        const double from = processor_s();
        status = pare_pick_lightest(&q->pick, choice, &own, err);
        const double took = processor_s() - from;
        least_s = took < least_s ? took : least_s;
    }
    if (status != PARE_OK)
        return status;
    double choices = 0;
    size_t options = 0;
    for (size_t c = 0; c < q->pick.classes; c++) {
        choices += log10((double)q->class[c].count);
        options += q->class[c].count;
    }
    printf("%s %.3f ms (%zu classes, %zu options, 10^%.0f choices)", name, 1e3 * least_s,
           q->pick.classes, options, choices);
    tell("GLPK", solve_by_glpk, q, least_s, &own);
    tell("CBC", solve_by_cbc, q, least_s, &own);
    printf("\n");
    fflush(stdout);
    return PARE_OK;
}

static pare_status measure(const char *name, const question *q, pare_arena *arena, pare_error *err)
{
    question bare;
    char bare_name[80];
    snprintf(bare_name, sizeof bare_name, "%s_bare", name);
    pare_status status = measure_as_it_is(name, q, err);
    if (status == PARE_OK)
        status = without_beaten(q, arena, &bare, err);
    if (status == PARE_OK)
        status = measure_as_it_is(bare_name, &bare, err);
    return status;
}

/* The front of all that nothing beats answers every allowance at once. */
static pare_status measure_front(const char *name, question *q, pare_error *err)
{
    double least_s = 1e9;
    size_t points = 0;
    q->pick.most = pare_pick_no_limit();
    pare_status status = PARE_OK;
    for (int i = 0; status == PARE_OK && i < ROUNDS; i++) {
        pare_arena *arena = pare_arena_open();
        pare_pick_front front = {0};
        const double from = processor_s();
        status = arena ? pare_pick_front_make(&q->pick, arena, &front, err) : pare_no_memory(err);
        const double took = processor_s() - from;
        least_s = took < least_s ? took : least_s;
        points = front.count;
        pare_arena_close(arena);
    }
    if (status == PARE_OK)
        printf("%s_front %.1f ms (%zu points: all allowances at once)\n", name, 1e3 * least_s,
               points);
    return status;
}

static pare_status measure_bench(size_t parts, pare_error *err)
{
    pare_bench *bench = NULL;
    pare_swaps swaps = {0};
    static question q;
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? made_bench(parts, SEED, &bench, err) : pare_no_memory(err);
    const pare_craft *craft = NULL;
    for (size_t i = 0; status == PARE_OK && i < bench->crafts; i++)
        if (strcmp(bench->craft[i]->name, "fieldfare") == 0)
            craft = bench->craft[i];
    if (craft)
        status = pare_swaps_find(bench, craft, -1, PARE_WISH_GRAMS, arena, &swaps, err);
    if (status == PARE_OK)
        status = question_of(&swaps, arena, &q, err);
    pare_pick_amounts lightest = {0};
    static size_t choice[MOST_CLASSES];
    if (status == PARE_OK)
        status = pare_pick_lightest(&q.pick, choice, &lightest, err);
    for (int percent = 5; status == PARE_OK && percent <= 60; percent += percent < 20 ? 15 : 40) {
        char name[64];
        snprintf(name, sizeof name, "pick_%zu_parts_%d%%", parts, percent);
        q.pick.most.money_cents = lightest.money_cents * percent / 100;
        status = measure(name, &q, arena, err);
    }
    if (status == PARE_OK) {
        char name[64];
        snprintf(name, sizeof name, "pick_%zu_parts", parts);
        status = measure_front(name, &q, err);
    }
    pare_bench_close(bench);
    pare_arena_close(arena);
    return status;
}

static pare_status measure_correlated(unsigned seed, pare_error *err)
{
    static question q;
    char name[64];
    snprintf(name, sizeof name, "pick_correlated_%u", seed);
    pare_arena *arena = pare_arena_open();
    pare_status status =
        arena ? correlated(seed, 40, 10, 1000, arena, &q, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = measure_as_it_is(name, &q, err); /* none is beaten */
    pare_arena_close(arena);
    return status;
}

int main(void)
{
    pare_error err = {0};
    pare_status status = measure_bench(2000, &err);
    if (status == PARE_OK)
        status = measure_bench(20000, &err);
    for (unsigned seed = 1; status == PARE_OK && seed <= SEEDS; seed++)
        status = measure_correlated(seed, &err);
    if (status != PARE_OK)
        fprintf(stderr, "speed_pick: %s\n", err.text);
    return (int)status;
}
