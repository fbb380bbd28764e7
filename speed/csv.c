/* rooms: store craft physics base */
/* csv.c: how long a list of 100,000 parts takes to come in, against the sqlite3 shell's own .import of
 * the rows that come of it, in the same run and into the same table: one row a part, its keys, checks
 * and triggers, the same journal. The shell cannot write the packed facts, which are bytes, so a text of
 * the same length stands in their place; it reads numbers and texts that are ready, where Pare reads
 * units, checks specs, packs facts and writes the text form. The least of several turns of each, taken in
 * turn, since the machine has other work; and the same in processor time, which other work disturbs
 * less. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "store/csv_import.h"
#include "store/sql.h"

enum { PARTS = 100000, TURNS = 5 };

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* By the clock, and by the processor. */
typedef struct took {
    double clock_s, processor_s;
} took;

static double processor_s(int who)
{
    struct rusage used;
    getrusage(who, &used);
    return (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
           1e-6 * (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

static void keep_least(took *least, took one)
{
    if (one.clock_s < least->clock_s)
        least->clock_s = one.clock_s;
    if (one.processor_s < least->processor_s)
        least->processor_s = one.processor_s;
}

static void give_up(const char *what)
{
    fprintf(stderr, "speed_csv: %s\n", what);
    exit(1);
}

/* Knuth's MMIX generator: the same list each time. */
static unsigned pick(uint64_t *state, unsigned below)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return (unsigned)(*state >> 33) % below;
}

static void write_list(const char *path, int parts)
{
    static const char *const makers[] = {"Teasel Works", "Dunnock Cells", "Alder Blades", "Flint",
                                         "Kittiwake"};
    uint64_t state = 1;
    FILE *file = fopen(path, "w");
    if (!file)
        give_up("the list cannot be written");
    fputs("id,kind,maker,mass (g),stator,kv,cells,capacity (mAh),diameter (in),pitch (in),blades,"
          "continuous (A),price,owned\n",
          file);
    for (int i = 0; i < parts; i++) {
        const unsigned a = pick(&state, 1000), b = pick(&state, 100), kind = pick(&state, 4);
        /* Ids in no order, as names come. */
        fprintf(file, "p%08x,", (unsigned)i * 2654435761u);
        const char *maker = makers[pick(&state, 5)];
        if (kind == 0)
            fprintf(file, "motor,%s,%u.%u,%u x %u mm,%u,,,,,,,%u.%02u,%u\n", maker, 20 + a % 30,
                    b % 10, 18 + a % 10, 4 + b % 6, 900 + a * 3, 8 + b % 20, b, a % 9);
        else if (kind == 1)
            fprintf(file, "pack,%s,%u.%u,,,%u,%u,,,,,%u.%02u,%u\n", maker, 100 + a % 150, b % 10,
                    3 + a % 4, 500 + 50 * (a % 40), 15 + b % 40, b, a % 5);
        else if (kind == 2)
            fprintf(file, "propeller,%s,%u.%u,,,,,%u.%u,%u.%u,%u,,0.%02u,%u\n", maker, 2 + a % 6,
                    b % 10, 3 + a % 5, b % 10, 2 + a % 3, b % 10, 2 + a % 3, b, 4 * (a % 10));
        else
            fprintf(file, "esc 4in1,%s,%u.%u,,,,,,,,%u,%u.%02u,%u\n", maker, 7 + a % 9, b % 10,
                    20 + 5 * (a % 9), 30 + b % 40, b, a % 3);
    }
    if (fclose(file) != 0)
        give_up("the list cannot be written");
}

static took import_list(const char *list, const char *bench)
{
    pare_store *store = NULL;
    pare_error err = {0};
    pare_list_summary summary;
    const pare_list_import import = {.path = list, .change = {.what = "import"}};
    unlink(bench);
    pare_arena *arena = pare_arena_open();
    if (pare_store_open(bench, PARE_STORE_CREATE, &store, &err) != PARE_OK)
        give_up(err.text);
    const double start = now_s(), work = processor_s(RUSAGE_SELF);
    if (pare_store_import_list(store, &import, arena, &summary, &err) != PARE_OK)
        give_up(err.text);
    const took one = {now_s() - start, processor_s(RUSAGE_SELF) - work};
    pare_store_close(store);
    pare_arena_close(arena);
    return one;
}

static void run(const char *command)
{
    if (system(command) != 0)
        give_up(command);
}

/* The shell's own time, without its start: a second shell that imports nothing is taken off. */
static took import_rows(const char *folder, bool nothing)
{
    char command[512];
    pare_store *store = NULL;
    pare_error err = {0};
    snprintf(command, sizeof command, "%s/shell.sqlite", folder);
    unlink(command);
    if (pare_store_open(command, PARE_STORE_CREATE, &store, &err) != PARE_OK)
        give_up(err.text);
    pare_store_close(store);
    snprintf(command, sizeof command,
             "sqlite3 %s/shell.sqlite 'ALTER TABLE part DROP COLUMN facts; ALTER TABLE part ADD "
             "COLUMN facts TEXT'",
             folder);
    run(command);
    snprintf(command, sizeof command, "sqlite3 -csv %s/shell.sqlite '%s%s%s'", folder,
             nothing ? "SELECT 1" : ".import ", nothing ? "" : folder,
             nothing ? "" : "/rows.csv part");
    strcat(command, " >/dev/null");
    const double start = now_s(), work = processor_s(RUSAGE_CHILDREN);
    run(command);
    return (took){now_s() - start, processor_s(RUSAGE_CHILDREN) - work};
}

/* The most memory that a child needs for a list of so many parts, in MiB. */
static double memory_mib(const char *folder, int parts)
{
    char list[300], bench[300];
    snprintf(list, sizeof list, "%s/some.csv", folder);
    snprintf(bench, sizeof bench, "%s/some.sqlite", folder);
    write_list(list, parts);
    const pid_t child = fork();
    if (child == 0) {
        import_list(list, bench);
        _exit(0);
    }
    struct rusage used;
    int status = 0;
    if (child < 0 || waitpid(child, &status, 0) != child || status != 0)
        give_up("the list for the memory did not come in");
    getrusage(RUSAGE_CHILDREN, &used);
    return (double)used.ru_maxrss / 1024;
}

int main(void)
{
    char folder[] = "/tmp/pare-speed-XXXXXX", list[300], bench[300], command[512];
    if (!mkdtemp(folder))
        give_up("no folder");
    snprintf(list, sizeof list, "%s/list.csv", folder);
    snprintf(bench, sizeof bench, "%s/bench.sqlite", folder);
    const double small = memory_mib(folder, PARTS), large = memory_mib(folder, 4 * PARTS);
    write_list(list, PARTS);
    took pare = {1e9, 1e9}, shell = pare, nothing = pare;
    for (int turn = 0; turn < TURNS; turn++) {
        keep_least(&pare, import_list(list, bench));
        if (turn == 0) {
            snprintf(command, sizeof command,
                     "sqlite3 -csv %s 'SELECT row, id, kind, maker, mass_kg, doc, "
                     "substr(hex(facts), 1, length(facts)) FROM part ORDER BY row' >%s/rows.csv",
                     bench, folder);
            run(command);
        }
        keep_least(&shell, import_rows(folder, false));
        keep_least(&nothing, import_rows(folder, true));
    }
    const double clock_s = shell.clock_s - nothing.clock_s,
                 work_s = shell.processor_s - nothing.processor_s;
    printf(
        "%d parts from CSV: %.0f ms, %.0f ms of it the processor's; the shell's .import of their "
        "rows: %.0f ms, %.0f ms\n",
        PARTS, 1e3 * pare.clock_s, 1e3 * pare.processor_s, 1e3 * clock_s, 1e3 * work_s);
    printf("speed in shells: %.2f by the clock, %.2f by the processor (0.8 is wanted)\n",
           clock_s / pare.clock_s, work_s / pare.processor_s);
    printf("memory: %.1f MiB for %d parts, %.1f MiB for %d\n", small, PARTS, large, 4 * PARTS);
    snprintf(command, sizeof command, "rm -r %s", folder);
    run(command);
    return 0;
}
