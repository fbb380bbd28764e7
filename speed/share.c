/* rooms: cli ranks store base */
/* share.c: what a study would take on up to some thousands of ranks.
 *
 * The code of rank 0 is the product's own, with the journal on a real disk; the other ranks are made up. Each takes
 * the time that its jobs are said to cost, on a clock that nobody waits for: while rank 0 computes the clock
 * goes by its processor time, else it jumps to the next message. So what one rank must do for a thousand others
 * is measured, and only their work and the wires are supposed: the costs below are means of `pare study` on the demo
 * (docs/scale.md), drawn around them; a message takes LATENCY_S and its bytes at BYTES_A_S, as over gigabit
 * Ethernet (common practice, no source). */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/arena.h"
#include "cli/study_share.h"

#define LATENCY_S 60e-6
#define BYTES_A_S 100e6

/* A kind of study. */
typedef struct kind {
    const char *name;
    size_t tasks, sorts;
    double cost_s[4]; /* of a task of each sort */
    double spread;    /* of their logarithm */
    size_t bytes;     /* of an answer */
} kind;

static const kind kinds[] = {
    {"sheets", 200000, 1, {0.45e-3}, 0.05, 320},
    {"best sets", 40000, 4, {0.11, 0.75, 3.0, 0.41}, 0.5, 950},
};

typedef struct made_rank {
    double answers_s; /* when its message comes; HUGE_VAL: none under way */
    char *message;
} made_rank;

typedef struct world {
    const kind *of;
    int ranks;
    made_rank *rank;  /* [ranks] */
    double now_s;     /* the made clock */
    double busy_s;    /* of rank 0 */
    double worked_s;  /* of the others */
    double *cost_s;   /* [tasks] */
    double left_at_s; /* processor time when rank 0 was given back to */
    size_t messages, bytes;
    char *last;
    char *answer; /* of the size of one */
} world;

static double processor_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Between these two nothing is rank 0's. */
static void enter(world *w)
{
    const double took = processor_s() - w->left_at_s;
    w->now_s += took;
    w->busy_s += took;
}

static void leave(world *w)
{
    w->left_at_s = processor_s();
}

static double on_its_way_s(size_t bytes)
{
    return LATENCY_S + (double)bytes / BYTES_A_S;
}

static void promise(world *w, int rank, double at_s, const char *message)
{
    w->rank[rank].answers_s = at_s + on_its_way_s(strlen(message));
    free(w->rank[rank].message);
    w->rank[rank].message = strdup(message);
    if (!w->rank[rank].message)
        abort();
}

/* What a rank answers to some jobs, and when. */
static void work_on(world *w, int rank, const char *bytes)
{
    double at_s = w->now_s + on_its_way_s(strlen(bytes));
    pare_text message = {0};
    pare_text_add(&message, "A");
    for (const char *line = strchr(bytes, '\n'); line && line[1]; line = strchr(line + 1, '\n')) {
        const unsigned long job = strtoul(line + 1, NULL, 10);
        at_s += w->cost_s[job];
        w->worked_s += w->cost_s[job];
        pare_text_printf(&message, "\n%lu %.6f %s", job, w->cost_s[job], w->answer);
    }
    promise(w, rank, at_s, message.bytes);
    pare_text_free(&message);
}

static bool send_bytes(void *context, int to, const char *bytes, size_t length)
{
    world *w = context;
    enter(w);
    pare_text text = {0};
    pare_text_put(&text, bytes, length);
    if (bytes[0] == 'G')
        promise(w, to, w->now_s, "H0");
    else if (bytes[0] == 'E')
        promise(w, to, w->now_s, "B");
    else
        work_on(w, to, text.bytes);
    w->messages++;
    w->bytes += length;
    pare_text_free(&text);
    leave(w);
    return true;
}

static int take_bytes(void *context, long wait_us, int *from, const char **bytes, size_t *length)
{
    world *w = context;
    int first = 0, there = 0;
    enter(w);
    for (int i = 1; i < w->ranks; i++)
        if (w->rank[i].answers_s < (first ? w->rank[first].answers_s : HUGE_VAL))
            first = i;
    if (first && w->rank[first].answers_s <= w->now_s + 1e-6 * (double)wait_us) {
        w->now_s = fmax(w->now_s, w->rank[first].answers_s);
        w->rank[first].answers_s = HUGE_VAL;
        free(w->last);
        w->last = w->rank[first].message;
        w->rank[first].message = NULL;
        *from = first;
        *bytes = w->last;
        *length = strlen(w->last);
        w->messages++;
        w->bytes += *length;
        there = 1;
    } else {
        w->now_s += 1e-6 * (double)wait_us;
    }
    leave(w);
    return there;
}

static pare_status work_never(void *context, const char *told, const pare_progress *progress,
                              pare_text *answer, pare_error *err)
{
    (void)context, (void)told, (void)progress, (void)answer;
    return pare_fail(err, PARE_UNAVAILABLE, "rank 0 only hands out here");
}

static void tell(void *context, size_t job, pare_text *line)
{
    (void)context;
    pare_text_printf(line, "t %zu", job);
}

static pare_status take(void *context, size_t job, char *answer, pare_error *err)
{
    pare_arena *arena = context;
    (void)job;
    return pare_arena_text(arena, answer) ? PARE_OK : pare_no_memory(err);
}

/* 0 .. 1, the same every time. */
static double drawn(unsigned *state)
{
    *state = *state * 1664525u + 1013904223u; /* Numerical Recipes, 2nd ed., sec. 7.1 */
    return ((*state >> 8) + 0.5) / (1 << 24);
}

static double normal(unsigned *state)
{
    const double u = drawn(state), v = drawn(state);
    return sqrt(-2 * log(u)) * cos(2 * acos(-1.0) * v);
}

static pare_status share_out(world *w, const study_jobs *jobs, const char *journal, pare_error *err)
{
    pare_ranks ranks = {
        .of = {.ranks = w->ranks, .context = w, .send = send_bytes, .take = take_bytes}};
    study_share *share = NULL;
    leave(w);
    pare_status status = study_share_open(&ranks, NULL, &share, err);
    if (status == PARE_OK) {
        study_share_ready(share, 0, work_never, NULL);
        status = study_share_journal(share, journal, "speed", err);
    }
    if (status == PARE_OK)
        status = study_share_do(share, jobs, err);
    enter(w);
    const double took_s = w->now_s;
    leave(w);
    status = study_share_close(share, status, err);
    w->now_s = took_s;
    return status;
}

static pare_status measure(const kind *of, int ranks, const char *journal, pare_error *err)
{
    unsigned state = 2026;
    pare_arena *arena = pare_arena_open();
    unsigned long long *key = pare_arena_array(arena, of->tasks, sizeof *key);
    unsigned *sort = pare_arena_array(arena, of->tasks, sizeof *sort);
    world w = {.of = of,
               .ranks = ranks,
               .rank = pare_arena_array(arena, (size_t)ranks, sizeof(made_rank)),
               .cost_s = pare_arena_array(arena, of->tasks, sizeof(double)),
               .answer = pare_arena_zeros(arena, of->bytes + 1)};
    if (!key || !sort || !w.rank || !w.cost_s || !w.answer)
        return pare_no_memory(err);
    memset(w.answer, '7', of->bytes);
    for (int i = 0; i < ranks; i++)
        w.rank[i].answers_s = HUGE_VAL;
    for (size_t i = 0; i < of->tasks; i++) {
        key[i] = i + 1;
        sort[i] = (unsigned)(i * of->sorts / of->tasks);
        w.cost_s[i] = of->cost_s[sort[i]] * exp(of->spread * normal(&state));
    }
    const study_jobs jobs = {.what = "tasks",
                             .count = of->tasks,
                             .key = key,
                             .sorts = of->sorts,
                             .sort = sort,
                             .context = arena,
                             .tell = tell,
                             .take = take};
    unlink(journal);
    const pare_status status = share_out(&w, &jobs, journal, err);
    if (status == PARE_OK)
        printf("%-10s %6d ranks: %9.2f s, others at work %5.1f %%, rank 0 busy %5.1f %%, %6.1f us "
               "and %5zu bytes an answer, %6.1f answers a message\n",
               of->name, ranks, w.now_s, 100 * w.worked_s / (w.now_s * (ranks - 1)),
               100 * w.busy_s / w.now_s, 1e6 * w.busy_s / (double)of->tasks, w.bytes / of->tasks,
               2 * (double)of->tasks / (double)w.messages);
    unlink(journal);
    for (int i = 0; i < ranks; i++)
        free(w.rank[i].message);
    free(w.last);
    pare_arena_close(arena);
    return status;
}

int main(void)
{
    static const int ranks[] = {9, 65, 257, 1000, 4000};
    char journal[64];
    pare_error err = {0};
    pare_status status = PARE_OK;
    snprintf(journal, sizeof journal, "/tmp/pare-share-%ld", (long)getpid());
    for (size_t k = 0; k < sizeof kinds / sizeof kinds[0]; k++)
        for (size_t i = 0; i < sizeof ranks / sizeof ranks[0] && status == PARE_OK; i++)
            status = measure(&kinds[k], ranks[i], journal, &err);
    if (status != PARE_OK)
        fprintf(stderr, "share: %s\n", err.text);
    return (int)status;
}
