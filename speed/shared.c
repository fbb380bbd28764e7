/* rooms: lib store advise craft physics base */
/* shared.c: what a bench on a server costs against the same one in a file, and a hundred clients who change
 * it at once.
 *
 * The bench is the demo's, given as the first argument (./dev speed passes it); its text goes into an empty
 * database of the server whose socket is in the folder PARE_TEST_SERVER (tools/postgres). Both connections
 * are open and everything is warm. The work is that of the commands: one craft read, as built, by the scale,
 * and its sheet; the whole bench read, and the list of all single swaps. File and server take turns, so that
 * what else the machine does meets both; each figure is the middle one of many rounds. Beside the clock stands
 * the processor's time, ours and that of the server's processes together, which others at work change less.
 *
 * Then each of 100 processes opens the bench and makes five changes, each to what it has just read: one more
 * of a part is owned. What came too late is done again, in a queue with others who were late. In the end
 * there are as many as were confirmed, or the program fails. */
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "advise/swap.h"
#include "craft/sheet.h"
#include "lib/built.h"
#include "store/by_key.h"

enum { ROUNDS = 41, SWAP_ROUNDS = 7, CLIENTS = 100, CHANGES = 5, KINDS = 2 };
#define CRAFT "hedgerow"
#define PART  "ti-100"

static void must(pare_status status, const pare_error *err)
{
    if (status == PARE_OK)
        return;
    fprintf(stderr, "shared: %s\n", err->text);
    exit(1);
}

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* What all processes of the server have had of the processor, in s: /proc/PID/schedstat (proc(5)). */
static double server_cpu_s(void)
{
    glob_t found;
    double sum = 0;
    if (glob("/proc/[0-9]*/comm", 0, NULL, &found) != 0)
        return 0;
    for (size_t i = 0; i < found.gl_pathc; i++) {
        char path[64], name[32] = "";
        unsigned long long ns = 0;
        FILE *file = fopen(found.gl_pathv[i], "r");
        const bool is = file && fgets(name, sizeof name, file) && strcmp(name, "postgres\n") == 0;
        if (file)
            fclose(file);
        snprintf(path, sizeof path, "%.*s/schedstat",
                 (int)(strrchr(found.gl_pathv[i], '/') - found.gl_pathv[i]), found.gl_pathv[i]);
        file = is ? fopen(path, "r") : NULL;
        if (file && fscanf(file, "%llu", &ns) == 1) // NOLINT(cert-err34-c): the kernel's
            sum += 1e-9 * (double)ns;
        if (file)
            fclose(file);
    }
    globfree(&found);
    return sum;
}

static double own_cpu_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* ---- the same work on both ---- */

typedef void piece(pare_store *store);

static void sheet(pare_store *store)
{
    pare_built built = {0};
    pare_error err = {0};
    const pare_craft *craft = NULL;
    pare_sheet *made = calloc(1, sizeof *made);
    must(made ? PARE_OK : pare_no_memory(&err), &err);
    must(pare_built_read(store, CRAFT, false, &built, &err), &err);
    must(pare_built_craft(&built, CRAFT, &craft, &err), &err);
    must(pare_sheet_compute(craft, true, made, &err), &err);
    pare_bench_close(built.bench);
    free(made);
}

static void swaps(pare_store *store)
{
    pare_built built = {0};
    pare_error err = {0};
    pare_swaps list;
    const pare_craft *craft = NULL;
    pare_arena *arena = pare_arena_open();
    must(arena ? PARE_OK : pare_no_memory(&err), &err);
    must(pare_built_read(store, NULL, false, &built, &err), &err);
    must(pare_built_craft(&built, CRAFT, &craft, &err), &err);
    must(pare_swaps_find(built.bench, craft, 0, PARE_WISH_GRAMS, arena, &list, &err), &err);
    pare_bench_close(built.bench);
    pare_arena_close(arena);
}

static int by_time(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void compare(const char *what, piece *does, int rounds, pare_store *const store[KINDS])
{
    double taken[KINDS][ROUNDS], own[KINDS] = {0}, servers = -server_cpu_s();
    for (int i = -1; i < rounds; i++) /* the first warms */
        for (int kind = 0; kind < KINDS; kind++) {
            const double start = now_s(), cpu = own_cpu_s();
            does(store[kind]);
            if (i < 0)
                continue;
            taken[kind][i] = now_s() - start;
            own[kind] += (own_cpu_s() - cpu) / rounds;
        }
    servers = (servers + server_cpu_s()) / (rounds + 1);
    for (int kind = 0; kind < KINDS; kind++)
        qsort(taken[kind], (size_t)rounds, sizeof taken[kind][0], by_time);
    const double file = taken[0][rounds / 2], server = taken[1][rounds / 2];
    printf("%-6s  file %7.2f ms, server %7.2f ms, median of %d: %.2f times (1.5 is the most); "
           "least %.2f and %.2f ms; processor %.2f ms, and %.2f ms with %.2f ms of the server's: "
           "%.2f times\n",
           what, 1e3 * file, 1e3 * server, rounds, server / file, 1e3 * taken[0][0],
           1e3 * taken[1][0], 1e3 * own[0], 1e3 * own[1], 1e3 * servers,
           (own[1] + servers) / own[0]);
}

/* ---- a hundred clients ---- */

static int owned(pare_store *store)
{
    pare_text text = {0};
    pare_error err = {0};
    must(pare_store_part_text(store, PART, &text, &err), &err);
    const char *at = strstr(text.bytes, "owned: ");
    const int is = at ? (int)strtol(at + strlen("owned: "), NULL, 10) : 0;
    pare_text_free(&text);
    return is;
}

/* What came of a client's changes. */
typedef struct told {
    int done, again; /* confirmed, and too late */
} told;

static told client(const char *address)
{
    pare_store *store = NULL;
    pare_error err = {0};
    told t = {0, 0};
    bool waits = false;
    must(pare_store_open(address, PARE_STORE_WRITE, &store, &err), &err);
    while (t.done < CHANGES) {
        char word[32];
        const char *const words[] = {word};
        bool late = false;
        pare_change change = {.what = "one more", .craft = CRAFT, .late = &late};
        must(pare_store_read_since(store, &change.since, &err), &err);
        snprintf(word, sizeof word, "owned=%d", owned(store) + 1);
        const pare_status status =
            pare_store_alter(store, PARE_A_PART, PART, 1, words, &change, NULL, NULL, &err);
        if (!late && status != PARE_OK)
            break; /* what it was told up to here counts */
        if (late != waits && pare_store_turn(store, late, &err) != PARE_OK)
            break;
        waits = late;
        t.done += !late;
        t.again += late;
    }
    if (t.done < CHANGES)
        fprintf(stderr, "shared: %s\n", err.text);
    pare_store_close(store);
    return t;
}

static void hundred(const char *address, pare_store *store)
{
    pid_t child[CLIENTS];
    int ends[2];
    told one, all = {0, 0};
    const int before = owned(store);
    if (pipe(ends) != 0)
        exit(1);
    const double start = now_s();
    fflush(stdout);
    for (int i = 0; i < CLIENTS; i++) {
        child[i] = fork();
        if (child[i] == 0) {
            one = client(address);
            _exit(write(ends[1], &one, sizeof one) == sizeof one ? 0 : 1);
        }
    }
    for (int i = 0; i < CLIENTS; i++)
        waitpid(child[i], NULL, 0);
    const double took = now_s() - start;
    close(ends[1]);
    while (read(ends[0], &one, sizeof one) == sizeof one) {
        all.done += one.done;
        all.again += one.again;
    }
    close(ends[0]);
    const int made = owned(store) - before;
    printf("%d clients at once, %d changes each: %d confirmed, %d lost, %d came too late and were "
           "done again; "
           "%.1f s, %.1f ms a change\n",
           CLIENTS, CHANGES, all.done, all.done - made, all.again, took,
           1e3 * took / (all.done ? all.done : 1));
    if (made != all.done || all.done != CLIENTS * CHANGES)
        exit(1);
}

/* ---- both benches ---- */

static void fill(pare_store *from, pare_store *to)
{
    char folder[] = "/tmp/pare-speed-XXXXXX", sweep[64];
    pare_text text = {0};
    pare_error err = {0};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    if (!mkdtemp(folder))
        exit(1);
    must(pare_store_export_files(from, folder, NULL, &err), &err);
    must(pare_store_export_yaml(from, &text, &err), &err);
    const pare_import import = {.bytes = text.bytes,
                                .length = text.length,
                                .name = "demo",
                                .folder = folder,
                                .empty_first = true};
    must(pare_store_import_yaml(to, &import, arena, &summary, &err), &err);
    snprintf(sweep, sizeof sweep, "rm -r %s", folder);
    if (system(sweep) != 0) // NOLINT(cert-env33-c): a folder of our own name
        exit(1);
    pare_text_free(&text);
    pare_arena_close(arena);
}

int main(int argc, char *argv[])
{
    const char *server = getenv("PARE_TEST_SERVER");
    char address[200];
    pare_error err = {0};
    pare_store *store[KINDS] = {NULL, NULL};
    if (argc < 2 || !server) {
        fprintf(stderr, "usage: %s BENCH, with a server's folder in PARE_TEST_SERVER\n", argv[0]);
        return argc < 2;
    }
    snprintf(address, sizeof address, "postgresql://postgres@/postgres?host=%s", server);
    must(pare_store_open(argv[1], PARE_STORE_WRITE, &store[0], &err), &err);
    must(pare_store_open(address, PARE_STORE_CREATE, &store[1], &err), &err);
    fill(store[0], store[1]);
    compare("sheet", sheet, ROUNDS, store);
    compare("swaps", swaps, SWAP_ROUNDS, store);
    hundred(address, store[1]);
    pare_store_close(store[0]);
    pare_store_close(store[1]);
    return 0;
}
