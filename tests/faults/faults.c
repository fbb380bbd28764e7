/* rooms: store craft physics base; libraries: sqlite3 */
/* faults.c: the built program while one call after another fails under it, or it is killed before one.
 *
 * Each command is run again and again on the same bench; in the nth run the nth call of one kind fails
 * (failing.c), until a run reaches its end without. After each run, by a program to which nothing happens:
 * the bench opens, SQLite finds it whole, and its text is that of before, or, where the program said that
 * it was done, that of after. What was refused says so in one line; a file that was to be written is there
 * whole or as it was, and nothing lies beside it. A killed program may have got to either side, and so may
 * one that says that its change may be kept: only its answer failed, or the disk never confirmed. Clocks
 * jump as well. What goes on where it was ended is run once more, and then ends as if nothing had happened.
 *
 * Where a number of kills is asked, the program is also killed so often at moments by chance, between calls or
 * in one: each command from its start until a little after its usual end, evenly.
 *
 * usage: faults PROGRAM LIBRARY [STRIDE [KILLS [COMMAND]]]. Of allocations, which are many, each STRIDEth fails;
 * 0: none; -1: nothing fails, there are only kills and clocks. KILLS is of all commands together; COMMAND is the one command that is swept. */
#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sqlite3.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "store/bench.h"

enum { WORDS = 16, PATH = 256, MOST = 1 << 20 };
#define BENCH "bench.sqlite"

extern char **environ;

typedef struct command {
    const char *name;
    const char *word[WORDS];
    const char *makes; /* a file; NULL: none */
    bool draws;
    const char *goes_on; /* the file from which it does, where it was ended; NULL: from nothing */
} command;

static const command COMMANDS[] = {
    {"sheet", {"sheet", "weir-5"}, NULL, false, NULL},
    {"limit", {"craft", "limit", "weir-5", "all_up=<= 610 g"}, NULL, false, NULL},
    {"change", {"parts", "change", "mo-w", "mass=32 g"}, NULL, false, NULL},
    {"weigh", {"weigh", "weir-5", "frame=88.5 g", "whole=471 g"}, NULL, false, NULL},
    {"take", {"take", "weir-5", "run.lead.length=95mm"}, NULL, false, NULL},
    {"undo", {"undo"}, NULL, false, NULL},
    {"list", {"import", "list.csv"}, NULL, false, NULL},
    {"text", {"import", "more.yaml"}, NULL, false, NULL},
    {"export", {"export", "-o", "out.yaml"}, "out.yaml", false, NULL},
    {"report", {"report", "weir-5", "-o", "out.svg"}, "out.svg", true, NULL},
    {"book", {"report", "weir-5", "-o", "out.xlsx"}, "out.xlsx", true, NULL},
    {"study", {"study", "two.yaml", "--keep"}, "two.csv", false, "two.journal"},
};

static const char *const KINDS[] = {"write",   "write+",   "sync",      "sync+",    "rename",
                                    "open",    "cut",      "end-write", "end-sync", "end-rename",
                                    "end-cut", "end-open", "memory"};

/* What each run is held against, and what came of them. */
typedef struct sweep {
    const char *program, *library;
    long stride; /* of allocations */
    const command *command;
    const char *kind;
    unsigned char *bench; /* [length] as it was */
    size_t length;
    char *before, *after;             /* its text */
    char *made;                       /* the file, whole; NULL: none */
    long runs, refused, done, killed; /* with this kind of call failing */
    long all_runs;
    long faults;  /* ours */
    long writing; /* killed with a log or a file in the making beside */
    unsigned long long dice;
} sweep;

static void give_up(const char *what)
{
    fprintf(stderr, "faults: %s\n", what);
    exit(1);
}

static char *bytes_of(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    struct stat facts;
    if (!file || fstat(fileno(file), &facts) != 0 || facts.st_size > MOST * 16) {
        if (file)
            fclose(file);
        return NULL;
    }
    char *bytes = malloc((size_t)facts.st_size + 1);
    if (!bytes)
        give_up("no memory");
    *length = fread(bytes, 1, (size_t)facts.st_size, file);
    bytes[*length] = '\0';
    fclose(file);
    return bytes;
}

static void put_bytes(const char *path, const void *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    if (!file || fwrite(bytes, 1, length, file) != length || fclose(file) != 0)
        give_up("a file cannot be written");
}

/* ---- running ---- */

/* @param wish  PARE_FAIL's value; NULL: nothing fails */
static pid_t start(const sweep *s, const char *wish)
{
    char preload[PATH + 16], fail[64];
    snprintf(preload, sizeof preload, "LD_PRELOAD=%s", s->library);
    snprintf(fail, sizeof fail, "PARE_FAIL=%s", wish ? wish : "");
    static char failed[] = "PARE_FAILED=failed", home[] = "HOME=.", locale[] = "LC_ALL=C.UTF-8",
                wide[] = "COLUMNS=80";
    char *with[] = {home, locale, wide, fail, failed, preload, NULL};
    if (!wish)
        with[3] = NULL;
    char word[WORDS + 3][PATH], *argv[WORDS + 4] = {NULL};
    size_t count = 0;
    snprintf(word[count++], PATH, "%s", s->program);
    for (size_t i = 0; i < WORDS && s->command->word[i]; i++)
        snprintf(word[count++], PATH, "%s", s->command->word[i]);
    snprintf(word[count++], PATH, "--bench=%s", BENCH);
    for (size_t i = 0; i < count; i++)
        argv[i] = word[i];
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, "out.txt", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_addopen(&actions, 2, "err.txt", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    pid_t child;
    if (posix_spawn(&child, s->program, &actions, NULL, argv, with) != 0)
        give_up("the program cannot be started");
    posix_spawn_file_actions_destroy(&actions);
    return child;
}

/* @return as waitpid() */
static int end_of(pid_t child)
{
    int status = 0;
    if (waitpid(child, &status, 0) != child)
        give_up("the program is lost");
    return status;
}

static int run(const sweep *s, const char *wish)
{
    return end_of(start(s, wish));
}

/* ---- looking ---- */

/* Whether SQLite finds the file whole and each reference kept. */
static bool is_whole(void)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *rows = NULL;
    bool whole = sqlite3_open(BENCH, &db) == SQLITE_OK &&
                 sqlite3_prepare_v2(db, "PRAGMA integrity_check", -1, &rows, NULL) == SQLITE_OK &&
                 sqlite3_step(rows) == SQLITE_ROW &&
                 strcmp((const char *)sqlite3_column_text(rows, 0), "ok") == 0;
    sqlite3_finalize(rows);
    rows = NULL;
    whole = whole &&
            sqlite3_prepare_v2(db, "PRAGMA foreign_key_check", -1, &rows, NULL) == SQLITE_OK &&
            sqlite3_step(rows) == SQLITE_DONE;
    sqlite3_finalize(rows);
    rows = NULL;
    /* A change that was broken off leaves no mark of itself. */
    whole = whole &&
            sqlite3_prepare_v2(db, "SELECT 1 FROM change_open", -1, &rows, NULL) == SQLITE_OK &&
            sqlite3_step(rows) == SQLITE_DONE;
    sqlite3_finalize(rows);
    sqlite3_close(db);
    return whole;
}

/* What the bench says, the number of changes in its history behind it; NULL: it cannot be read. */
static char *text_of_bench(void)
{
    pare_store *store = NULL;
    pare_error err = {0};
    pare_text text = {0};
    pare_arena *arena = pare_arena_open();
    pare_change_row *rows = NULL;
    size_t count = 0;
    const bool good = pare_store_open(BENCH, PARE_STORE_READ, &store, &err) == PARE_OK &&
                      pare_store_export_yaml(store, &text, &err) == PARE_OK &&
                      pare_store_history(store, 1000, arena, &count, &rows, &err) == PARE_OK;
    size_t undone = 0;
    for (size_t i = 0; i < count; i++)
        undone += rows[i].undone;
    pare_text_printf(&text, "# %zu changes, %zu undone\n", count, undone);
    pare_store_close(store);
    pare_arena_close(arena);
    if (!good)
        fprintf(stderr, "%s\n", err.text);
    if (good)
        return text.bytes;
    pare_text_free(&text);
    return NULL;
}

static bool one_line(const char *text)
{
    const char *end = strchr(text, '\n');
    return end && end > text && end[1] == '\0';
}

static bool something_beside(const char *name)
{
    DIR *here = opendir(".");
    bool found = false;
    for (struct dirent *entry; here && (entry = readdir(here));)
        found = found || (strncmp(entry->d_name, name, strlen(name)) == 0 &&
                          strlen(entry->d_name) > strlen(name));
    if (here)
        closedir(here);
    return found;
}

static void sweep_beside(const char *name)
{
    DIR *here = opendir(".");
    for (struct dirent *entry; here && (entry = readdir(here));)
        if (strncmp(entry->d_name, name, strlen(name)) == 0)
            unlink(entry->d_name);
    if (here)
        closedir(here);
}

static bool without_memory_to_draw(const sweep *s)
{
    return s->command->draws && strcmp(s->kind, "memory") == 0;
}

/* @return what is wrong; NULL: nothing */
static const char *judge_file(const sweep *s, bool done, bool killed)
{
    if (!s->command->makes)
        return NULL;
    size_t length = 0;
    char *there = bytes_of(s->command->makes, &length);
    /* Without memory the libraries that draw text may do without a font: a whole drawing all the same. */
    const bool whole = there && (strcmp(there, s->made) == 0 ||
                                 (without_memory_to_draw(s) && strstr(there, "</svg>")));
    const bool old = there && strcmp(there, "old\n") == 0;
    free(there);
    if (done && !whole)
        return "it said that the file was written";
    if (!whole && !old)
        return "the file is neither the old nor the new one";
    if (!killed && something_beside(s->command->makes))
        return "something is left beside the file";
    return NULL;
}

/* A change that is made though its answer fails, and one that the disk did not confirm, say so. */
static bool says_that_it_may_be_kept(void)
{
    size_t length = 0;
    char *said = bytes_of("err.txt", &length);
    const bool does =
        said && (strstr(said, "the change is kept") || strstr(said, "pare history says"));
    free(said);
    return does;
}

/* The file is byte by byte what it was and no log of changes lies beside: nothing in it is left to ask,
 * which of all that a sweep does takes longest. */
static bool is_untouched(const sweep *s)
{
    struct stat facts;
    if ((stat(BENCH "-wal", &facts) == 0 && facts.st_size > 0) ||
        stat(BENCH "-journal", &facts) == 0)
        return false;
    size_t length = 0;
    char *now = bytes_of(BENCH, &length);
    const bool same = now && length == s->length && memcmp(now, s->bench, length) == 0;
    free(now);
    return same;
}

static const char *judge_bench(const sweep *s, bool done, bool killed)
{
    bool is_before = is_untouched(s), is_after = is_before && strcmp(s->before, s->after) == 0;
    if (!is_before) {
        if (!is_whole())
            return "the bench is damaged";
        char *now = text_of_bench();
        if (!now)
            return "the bench cannot be read";
        is_before = strcmp(now, s->before) == 0;
        is_after = strcmp(now, s->after) == 0;
        free(now);
    }
    if (killed || says_that_it_may_be_kept())
        return is_before || is_after ? NULL : "the bench is neither as before nor as after";
    if (done)
        return is_after ? NULL : "a change that was confirmed is lost";
    return is_before ? NULL : "a change that was refused has happened";
}

/* What was ended goes on: its file is then the same, byte by byte, and its change is made. */
static const char *judge_again(const sweep *s)
{
    size_t length = 0;
    if (run(s, NULL) != 0)
        return "it does not go on";
    char *there = bytes_of(s->command->makes, &length);
    const bool same = there && strcmp(there, s->made) == 0;
    free(there);
    if (!same)
        return "it goes on to something else";
    return is_whole() ? NULL : "the bench is damaged once it has gone on";
}

static const char *judge(sweep *s, int status)
{
    /* Text is drawn by libraries that end the program where there is no memory: that is GLib's rule. */
    const bool killed =
        WIFSIGNALED(status) && (WTERMSIG(status) == SIGKILL || without_memory_to_draw(s));
    const bool done = WIFEXITED(status) && WEXITSTATUS(status) == 0;
    s->killed += killed;
    s->done += done;
    s->refused += !killed && !done;
    if (WIFSIGNALED(status) && !killed)
        return "it crashed";
    if (!killed && !done) {
        size_t length = 0;
        char *said = bytes_of("err.txt", &length);
        const bool good = said && one_line(said);
        free(said);
        if (!good)
            return "it does not say in one line what went wrong";
    }
    const char *wrong = judge_bench(s, done, killed);
    if (!wrong)
        wrong = judge_file(s, done, killed);
    return wrong || !s->command->goes_on ? wrong : judge_again(s);
}

/* ---- sweeping ---- */

static void set_up(const sweep *s)
{
    sweep_beside(BENCH);
    put_bytes(BENCH, s->bench, s->length);
    if (s->command->makes) {
        sweep_beside(s->command->makes);
        put_bytes(s->command->makes, "old\n", 4);
    }
    if (s->command->goes_on)
        sweep_beside(s->command->goes_on);
    unlink("failed");
}

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* What a run takes that nothing happens to: the least of some, since all else only adds. */
static double usual_s(const sweep *s)
{
    double least = 1e9;
    for (int i = 0; i < 5; i++) {
        set_up(s);
        const double began = now_s();
        run(s, NULL);
        const double took = now_s() - began;
        least = took < least ? took : least;
    }
    return least;
}

static void prepare(sweep *s)
{
    set_up(s);
    s->before = text_of_bench();
    if (run(s, NULL) != 0)
        give_up("a command does not work even where nothing fails");
    s->after = text_of_bench();
    size_t length = 0;
    s->made = s->command->makes ? bytes_of(s->command->makes, &length) : NULL;
    if (!s->before || !s->after || (s->command->makes && !s->made))
        give_up("a command leaves nothing to be held against");
}

/* @return whether something failed in the nth run */
static bool run_with(sweep *s, long n)
{
    const bool for_good = s->kind[strlen(s->kind) - 1] == '+';
    char wish[48];
    snprintf(wish, sizeof wish, "%.*s:%ld%s", (int)strcspn(s->kind, "+"), s->kind, n,
             for_good ? "+" : "");
    set_up(s);
    const int status = run(s, wish);
    if (access("failed", F_OK) != 0)
        return false;
    s->runs++;
    s->all_runs++;
    const char *wrong = judge(s, status);
    if (wrong) {
        s->faults++;
        fprintf(stderr, "%s, %s: %s\n", s->command->name, wish, wrong);
    }
    return true;
}

static void sweep_kind(sweep *s, const char *kind)
{
    const long stride = strcmp(kind, "memory") == 0 ? s->stride : 1;
    s->kind = kind;
    s->runs = s->refused = s->done = s->killed = 0;
    const long faults = s->faults;
    for (long n = 0; run_with(s, n); n += stride) {
    }
    if (s->runs > 0)
        printf("%-8s %-11s %6ld %8ld %6ld %6ld %6ld\n", s->command->name, kind, s->runs, s->refused,
               s->done, s->killed, s->faults - faults);
    fflush(stdout);
}

/* From 0 to 1, the same in each sweep (Marsaglia, Xorshift RNGs, J. Stat. Softw. 8 (2003) 14). */
static double chance(sweep *s)
{
    s->dice ^= s->dice << 13;
    s->dice ^= s->dice >> 7;
    s->dice ^= s->dice << 17;
    return (double)(s->dice >> 11) / (double)(1ULL << 53);
}

/* A log that is not empty lies beside the bench, or a file in the making. */
static bool was_writing(const sweep *s)
{
    struct stat facts;
    return (stat(BENCH "-wal", &facts) == 0 && facts.st_size > 0) ||
           stat(BENCH "-journal", &facts) == 0 ||
           (s->command->makes && something_beside(s->command->makes));
}

static void sweep_kills(sweep *s, long kills)
{
    s->kind = "kill -9";
    s->runs = s->refused = s->done = s->killed = s->writing = 0;
    const long faults = s->faults;
    const double usual = usual_s(s);
    while (s->killed < kills && s->runs < 10 * kills) {
        const double after_s = 1.05 * usual * chance(s);
        const struct timespec pause = {.tv_sec = (time_t)after_s,
                                       .tv_nsec =
                                           (long)(1e9 * (after_s - (double)(time_t)after_s))};
        set_up(s);
        const pid_t child = start(s, NULL);
        nanosleep(&pause, NULL);
        kill(child, SIGKILL);
        const int status = end_of(child);
        s->writing += WIFSIGNALED(status) && was_writing(s);
        s->runs++;
        const char *wrong = judge(s, status);
        if (wrong) {
            s->faults++;
            fprintf(stderr, "%s, killed after %.2f ms: %s\n", s->command->name, 1e3 * after_s,
                    wrong);
        }
    }
    printf("%-8s %-11s %6ld %8ld %6ld %6ld %6ld  %ld while it wrote\n", s->command->name, s->kind,
           s->runs, s->refused, s->done, s->killed, s->faults - faults, s->writing);
    fflush(stdout);
}

/* Clocks that jump, before a run and after it: what is written is as whole as ever, and can be taken back. */
static void sweep_clocks(sweep *s)
{
    static const char *const years[] = {"-1900000000", "-90000", "90000", "2600000000",
                                        "250000000000"};
    s->kind = "clock";
    s->runs = s->refused = s->done = s->killed = 0;
    const long faults = s->faults;
    for (size_t i = 0; i < sizeof years / sizeof years[0]; i++) {
        char wish[48];
        snprintf(wish, sizeof wish, "clock:%s", years[i]);
        set_up(s);
        const int status = run(s, wish);
        s->runs++;
        const bool exited = WIFEXITED(status), done = exited && WEXITSTATUS(status) == 0;
        s->done += done;
        s->refused += !done;
        char *now = text_of_bench();
        if (!exited || !is_whole() || !now || (!done && strcmp(now, s->before) != 0)) {
            s->faults++;
            fprintf(stderr, "%s, %s: it does not bear that clock\n", s->command->name, wish);
        }
        free(now);
    }
    printf("%-8s %-11s %6ld %8ld %6ld %6ld %6ld\n", s->command->name, s->kind, s->runs, s->refused,
           s->done, s->killed, s->faults - faults);
}

static void make_bench(sweep *s)
{
    const pare_import import = {.path = PARE_SOURCE_DIR "/tests/data/every-key.yaml"};
    const pare_change change = {.what = "one change to go back from"};
    const pare_limit_change limit = {.key = "all_up", .text = "<= 605 g"};
    pare_arena *arena = pare_arena_open();
    pare_store *store = NULL;
    pare_import_summary summary;
    pare_error err = {0};
    if (pare_store_open(BENCH, PARE_STORE_CREATE, &store, &err) != PARE_OK ||
        pare_store_import_yaml(store, &import, arena, &summary, &err) != PARE_OK ||
        pare_store_set_limits(store, "weir-5", 1, &limit, &change, &err) != PARE_OK)
        give_up(err.text);
    pare_store_close(store);
    pare_arena_close(arena);
    s->bench = (unsigned char *)bytes_of(BENCH, &s->length);
    if (!s->bench)
        give_up("no bench");
    static const char list[] = "id,kind,mass (g)\nx-1,other,3.5\nx-2,other,4.1\nmo-w,motor,33\n",
                      text[] = "pare: 1\nparts:\n- {id: y-1, kind: other, mass: 12 g}\n";
    static const char study[] = "study: two\ncraft: [weir-5]\n"
                                "briefs: {slow: {limits: {flown: \">= 3 min\"}}, light: {limits: "
                                "{all_up: \"<= 90 g\"}}}\n"
                                "vary: {air.temperature: {from: 0 degC, to: 30 degC, steps: 4}}\n";
    put_bytes("two.yaml", study, sizeof study - 1);
    put_bytes("list.csv", list, sizeof list - 1);
    put_bytes("more.yaml", text, sizeof text - 1);
}

/* Where the benches are: in memory if that can be, for thousands of them would wait for a disk, and no power
 * is cut here. */
static const char *shelf(void)
{
    const char *asked = getenv("TMPDIR");
    return asked && asked[0] ? asked : access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp";
}

int main(int argc, char *argv[])
{
    enum { KINDS_OF_COMMAND = sizeof COMMANDS / sizeof COMMANDS[0] };
    if (argc < 3 || argc > 6 || argv[1][0] != '/' || argv[2][0] != '/') {
        fprintf(stderr,
                "usage: %s PROGRAM LIBRARY [STRIDE [KILLS [COMMAND]]], the first two with their "
                "whole path\n",
                argv[0]);
        return 2;
    }
    char folder[PATH];
    snprintf(folder, sizeof folder, "%s/pare-faults-XXXXXX", shelf());
    if (!mkdtemp(folder) || chdir(folder) != 0)
        give_up("no folder to work in");
    sweep s = {.program = argv[1],
               .library = argv[2],
               .stride = argc > 3 ? atol(argv[3]) : 1,
               .dice = 88172645463325252ULL};
    const long kills = argc > 4 ? (atol(argv[4]) + KINDS_OF_COMMAND - 1) / KINDS_OF_COMMAND : 0;
    make_bench(&s);
    printf("%-8s %-11s %6s %8s %6s %6s %6s\n", "command", "fails", "runs", "refused", "done",
           "killed", "faults");
    long passed = 0;
    for (size_t i = 0; i < KINDS_OF_COMMAND; i++) {
        s.command = &COMMANDS[i];
        if (argc > 5 && strcmp(argv[5], s.command->name) != 0)
            continue;
        prepare(&s);
        for (size_t k = 0; k < sizeof KINDS / sizeof KINDS[0]; k++) {
            if (s.stride < 0 || (s.stride == 0 && strcmp(KINDS[k], "memory") == 0))
                continue;
            const long faults = s.faults;
            sweep_kind(&s, KINDS[k]);
            passed += s.faults == faults;
        }
        sweep_clocks(&s);
        if (kills > 0) {
            const long faults = s.faults;
            sweep_kills(&s, kills);
            passed += s.faults == faults;
        }
        free(s.before);
        free(s.after);
        free(s.made);
    }
    if (s.stride >= 0 && s.all_runs < (argc > 5 ? 1 : KINDS_OF_COMMAND))
        give_up("nothing fails under the program: is the library loaded?");
    free(s.bench);
    sweep_beside("");
    if (chdir("/") != 0 || rmdir(folder) != 0)
        give_up("something is left in the folder");
    printf("%ld passed, %ld failed\n", passed, s.faults);
    return s.faults > 0;
}
