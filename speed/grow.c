/* rooms: show store advise craft physics base */
/* grow.c: how time and memory of a best set grow with the bench, and what a second thread is worth.
 *
 * The five inch of made-up benches (support/made_bench.h), everything open, a process for each size and number of
 * threads, so that each has a peak of memory of its own. A row says the combinations of what names alone allow,
 * the time on one thread (the processor's), what was proven, and the memory before and at the peak. With two
 * threads: whether the answer is the same to the last bit, by how much the clock ran shorter, and by how much
 * the busiest thread had less to do, which is what the clock says on a machine that nobody else uses.
 *
 * speed_grow [SECONDS [FILE.svg]]: how long each may take; where to draw it. */
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "advise/best.h"
#include "base/hash.h"
#include "support/clock.h"
#include "support/growth_plot.h"
#include "support/made_bench.h"

enum { SEED = 1, SIZES = 7 };
#define USUAL_S 20.0

static const size_t sizes[SIZES] = {100, 200, 500, 1000, 2000, 5000, 20000};

/* ---- one search, in a process of its own ---- */

static double peak_mb(void)
{
    struct rusage used;
    getrusage(RUSAGE_SELF, &used);
    return 1e-3 * (double)used.ru_maxrss;
}

/* The most that one thread has had of a processor. */
static double busiest_s(double main_before_s)
{
    DIR *tasks = opendir("/proc/self/task");
    double most = seconds_of(CLOCK_THREAD_CPUTIME_ID) - main_before_s;
    const struct dirent *task;
    while (tasks && (task = readdir(tasks))) {
        char path[300], own[300];
        char line[64];
        snprintf(path, sizeof path, "/proc/self/task/%s/schedstat", task->d_name);
        snprintf(own, sizeof own, "%d", (int)getpid());
        FILE *file = strcmp(own, task->d_name) == 0 ? NULL : fopen(path, "r");
        if (file && fgets(line, sizeof line, file)) /* the first number is nanoseconds */
            most = fmax(most, 1e-9 * strtod(line, NULL));
        if (file)
            fclose(file);
    }
    if (tasks)
        closedir(tasks);
    return most;
}

/* Of what is found, and of how. */
static unsigned long long digest_of(const pare_best *best)
{
    char counts[256];
    const int length =
        snprintf(counts, sizeof counts, "%d %d %zu %zu %zu %zu %zu %lld %lld %a", best->found,
                 best->proven, best->groups, best->opened, best->dived, best->sets, best->swaps,
                 (long long)best->best_100ug, (long long)best->bound_100ug, best->money);
    unsigned long long digest = pare_hash(PARE_HASH_START, counts, (size_t)length);
    for (size_t i = 0; i < best->swaps; i++)
        digest = pare_hash(digest, best->swap[i].applied.id, strlen(best->swap[i].applied.id));
    return digest;
}

static double combinations_log10(const pare_bench *bench, const pare_craft *craft,
                                 pare_arena *arena)
{
    size_t count = 0, options = 1;
    const char *const *name;
    pare_error err;
    double sum = 0;
    if (pare_swap_names(bench, craft, -1, arena, &count, &name, &err) != PARE_OK)
        return 0;
    for (size_t i = 0; i < count; i++) {
        const size_t left = strcspn(name[i], "=") + 1;
        options++;
        if (i + 1 == count || strncmp(name[i], name[i + 1], left) != 0) {
            sum += log10((double)options);
            options = 1;
        }
    }
    return sum;
}

/* @param to  a pipe, which takes a growth as it is */
static int measure(size_t parts, double most_s, int to)
{
    pare_bench *bench = NULL;
    const pare_craft *craft = NULL;
    pare_error err = {0};
    pare_best best = {0};
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? made_bench(parts, SEED, &bench, &err) : pare_no_memory(&err);
    for (size_t i = 0; status == PARE_OK && i < bench->crafts; i++)
        if (strcmp(bench->craft[i]->name, "fieldfare") == 0)
            craft = bench->craft[i];
    if (craft) {
        growth g = {.parts = parts, .before_mb = peak_mb()};
        g.combinations_log10 = combinations_log10(bench, craft, arena);
        double ends_s = processor_s() + most_s;
        const pare_progress progress = {.step = until_processor_s, .context = &ends_s};
        const pare_best_ask ask = {.loadout = -1, .progress = &progress};
        const double clock_s = seconds_of(CLOCK_MONOTONIC), spent_s = processor_s(),
                     main_s = seconds_of(CLOCK_THREAD_CPUTIME_ID);
        status = pare_best_find(bench, craft, &ask, arena, &best, &err);
        g.clock_s = seconds_of(CLOCK_MONOTONIC) - clock_s;
        g.spent_s = processor_s() - spent_s;
        g.busiest_s = busiest_s(main_s);
        g.peak_mb = peak_mb();
        if (status == PARE_OK) {
            g.proven = best.proven;
            g.gap_g =
                best.found ? 1e-4 * (double)(best.best_100ug - best.bound_100ug) : (double)NAN;
            g.digest = digest_of(&best);
            if (write(to, &g, sizeof g) != (ssize_t)sizeof g)
                status = pare_fail(&err, PARE_UNAVAILABLE, "nobody listens");
        }
    }
    if (status != PARE_OK)
        fprintf(stderr, "speed_grow: %s\n", err.text);
    pare_bench_close(bench);
    pare_arena_close(arena);
    return (int)status;
}

/* ---- all of them ---- */

/* Threads are made once a process, so the program is started anew. */
static bool ask_a_process(char *self, size_t parts, int threads, double most_s, growth *g)
{
    int ends[2];
    char words[4][32];
    if (pipe(ends) != 0)
        return false;
    snprintf(words[0], sizeof words[0], "%d", threads);
    snprintf(words[1], sizeof words[1], "%zu", parts);
    snprintf(words[2], sizeof words[2], "%g", most_s);
    snprintf(words[3], sizeof words[3], "%d", ends[1]);
    const pid_t child = fork();
    if (child == 0) {
        char one[] = "one", *const argv[] = {self, one, words[1], words[2], words[3], NULL};
        setenv("OMP_NUM_THREADS", words[0], 1);
        setenv("OMP_WAIT_POLICY", "passive", 1); /* who waits takes no time */
        execv(self, argv);
        _exit(127);
    }
    close(ends[1]);
    const bool heard = child > 0 && read(ends[0], g, sizeof *g) == (ssize_t)sizeof *g;
    int status = 1;
    close(ends[0]);
    return child > 0 && waitpid(child, &status, 0) == child && status == 0 && heard;
}

static void tell(const growth *one, const growth *two)
{
    printf("%6zu parts  10^%-3.0f  %7.2f s  %s", one->parts, one->combinations_log10, one->spent_s,
           one->proven ? "proven    " : "NOT proven");
    if (!one->proven)
        printf(isnan(one->gap_g) ? " (no set yet)" : " (%.2f g open)", one->gap_g);
    printf("  %5.0f MB before, %5.0f at most", one->before_mb, one->peak_mb);
    if (one->proven && two->proven)
        printf("; two threads: %s, %.2f x by the clock, %.2f x by the busiest thread",
               one->digest == two->digest ? "the same" : "ANOTHER ANSWER",
               one->clock_s / two->clock_s, one->spent_s / two->busiest_s);
    printf("\n");
    fflush(stdout);
}

int main(int argc, char **argv)
{
    growth one[SIZES], two;
    bool same = true;
    if (argc == 5 && strcmp(argv[1], "one") == 0)
        return measure(strtoull(argv[2], NULL, 10), strtod(argv[3], NULL),
                       (int)strtol(argv[4], NULL, 10));
    const bool given =
        argc > 1 && strtod(argv[1], NULL) > 0; /* ./dev speed names a bench instead */
    const double most_s = given ? strtod(argv[1], NULL) : USUAL_S;
    for (size_t i = 0; i < SIZES; i++) {
        if (!ask_a_process(argv[0], sizes[i], 1, most_s, &one[i]) ||
            !ask_a_process(argv[0], sizes[i], 2, most_s, &two))
            return 1;
        tell(&one[i], &two);
        same = same && (!one[i].proven || !two.proven || one[i].digest == two.digest);
    }
    if (given && argc > 2) {
        pare_error err = {0};
        if (growth_draw(SIZES, one, argv[2], &err) != PARE_OK) {
            fprintf(stderr, "speed_grow: %s\n", err.text);
            return 1;
        }
    }
    return same ? 0 : 1;
}
