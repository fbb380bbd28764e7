/* pare study on several ranks: the same bytes as on one; a rank that is killed ends the run, and the next one does what
 * was missing; ranks that do not fit together are said in one line. */
#define _XOPEN_SOURCE 700

#include "run.h"

#include <ctype.h>
#include <dirent.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { LINE = 4096, PAUSE_US = 2000, MOST_LOOKS = 30000 };

/* What Open MPI still holds at a rank's end is its own: leaks of a study are looked for where it runs without MPI. */
#define MPIRUN "ASAN_OPTIONS=$ASAN_OPTIONS:detect_leaks=0 mpirun --oversubscribe -n "

static bool can_run(void)
{
    char module[512];
    snprintf(module, sizeof module, "%.*s/pare-mpi.so",
             (int)(strrchr(PARE_BINARY, '/') - PARE_BINARY), PARE_BINARY);
    return access(module, F_OK) == 0 && system("mpirun --version >/dev/null 2>&1") == 0;
}

static void skip_without_mpi(void)
{
    if (can_run())
        return;
    printf("built without MPI, or no mpirun: several ranks are NOT tested here\n");
    skip();
}

/* In a shell. @return the exit status; 128 + n where it was ended by signal n */
static int shell(const char *line)
{
    const int status = system(line);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

static size_t lines_of(const char *file)
{
    char *text = read_file(file);
    size_t count = 0;
    for (const char *c = text; c && *c; c++)
        count += *c == '\n';
    free(text);
    return count;
}

/* The demo's study with so many temperatures, and what one rank makes of it in NAME.one. */
static size_t fill_study(const char *name, int temperatures, bool one)
{
    char *text = whole_file(PARE_SOURCE_DIR "/demo/customers.yaml"),
         *steps = strstr(text, "steps: 3");
    char line[LINE];
    assert_non_null(steps);
    snprintf(line, sizeof line, "%.*ssteps: %d%s", (int)(steps - text), text, temperatures,
             steps + strlen("steps: 3"));
    free(text);
    char file[64];
    snprintf(file, sizeof file, "%s.yaml", name);
    write_text(file, line);
    snprintf(line, sizeof line, "rm -f %s.csv %s.journal", name, name);
    assert_int_equal(shell(line), 0);
    if (one) {
        snprintf(line, sizeof line,
                 PARE_BINARY " study %s" DEMO " -o %s.one --journal one.journal >one.txt && rm "
                             "one.journal",
                 file, name);
        assert_int_equal(shell(line), 0);
    }
    return (size_t)temperatures * 2 * 6 * 10;
}

/* ---- the same bytes ---- */

static void any_number_of_ranks_gives_the_same_bytes(void **state)
{
    (void)state;
    skip_without_mpi();
    fill_study("c", 3, true);
    for (int ranks = 1; ranks <= 4; ranks++) {
        char line[LINE];
        snprintf(line, sizeof line,
                 MPIRUN "%d " PARE_BINARY " study c.yaml" DEMO " >ranks.txt && "
                        "sed s/c.one/c.csv/ one.txt | sed s/one.journal/c.journal/ | cmp - "
                        "ranks.txt",
                 ranks);
        assert_int_equal(shell(line), 0);
        is_same_file("c.csv", "c.one");
        remove("c.journal");
        remove("c.csv");
    }
}

static void best_sets_are_the_same_on_ranks(void **state)
{
    (void)state;
    skip_without_mpi();
    write_text("b.yaml", "study: b\ncraft: all\neffort: 30\nvary: {budget: [50, any], wish: "
                         "[grams, minutes]}\n");
    assert_int_equal(shell(PARE_BINARY " study b.yaml" DEMO " -o b.one >b.txt && rm b.journal"), 0);
    assert_int_equal(shell(MPIRUN "3 " PARE_BINARY " study b.yaml" DEMO " >b.txt"), 0);
    is_same_file("b.csv", "b.one");
}

/* ---- killed ---- */

/* A child of a process that runs pare; 0: none. */
static pid_t rank_of(pid_t launcher)
{
    DIR *folder = opendir("/proc");
    struct dirent *entry;
    pid_t last = 0;
    assert_non_null(folder);
    while ((entry = readdir(folder))) {
        char path[300], name[64] = "";
        int parent = 0;
        if (!isdigit((unsigned char)entry->d_name[0]))
            continue;
        snprintf(path, sizeof path, "/proc/%s/stat", entry->d_name);
        FILE *stat = fopen(path, "r");
        const bool read = stat && fscanf(stat, "%*d (%63[^)]) %*c %d", name, &parent) == 2;
        if (stat)
            fclose(stat);
        if (read && parent == (int)launcher && strcmp(name, "pare") == 0)
            last = (pid_t)atoi(entry->d_name) > last ? (pid_t)atoi(entry->d_name) : last;
    }
    closedir(folder);
    return last;
}

/* mpirun in the background. */
static pid_t start_ranks(const char *study)
{
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child > 0)
        return child;
    if (!freopen("/dev/null", "r", stdin) || !freopen("ranks.out", "w", stdout) ||
        !freopen("ranks.err", "w", stderr))
        _exit(126);
    execlp("mpirun", "mpirun", "--oversubscribe", "-n", "2", PARE_BINARY, "study", study, "--bench",
           "data/pare/demo.sqlite", (char *)NULL);
    _exit(127);
}

static void a_killed_rank_costs_only_what_it_was_at(void **state)
{
    (void)state;
    skip_without_mpi();
    const size_t tasks = fill_study("k", 50, true);
    const pid_t launcher = start_ranks("k.yaml");
    const struct timespec pause = {.tv_nsec = PAUSE_US * 1000};
    int looks = 0;
    while (lines_of("k.journal") < 100 && looks++ < MOST_LOOKS)
        nanosleep(&pause, NULL);
    const pid_t rank = rank_of(launcher);
    assert_true(rank > 0);
    assert_int_equal(kill(rank, SIGKILL), 0);
    int status = 0;
    assert_int_equal(waitpid(launcher, &status, 0), launcher);
    assert_true(!WIFEXITED(status) || WEXITSTATUS(status) != 0);
    assert_int_equal(access("k.csv", F_OK), -1);
    const size_t had = lines_of("k.journal");
    assert_true(had >= 100 && had < tasks);
    assert_int_equal(shell(MPIRUN "2 " PARE_BINARY " study k.yaml" DEMO " >k.txt"), 0);
    is_same_file("k.csv", "k.one");
    char *said = whole_file("k.txt"), *counts = strstr(said, " tasks: ");
    unsigned answered = 0, before = 0;
    assert_non_null(counts);
    assert_int_equal(sscanf(counts, " tasks: %u answered now, %u before", &answered, &before), 2);
    assert_int_equal(answered + before, tasks);
    assert_true(before >= had - 2 && answered < tasks); /* less the head and a line that was cut */
    free(said);
}

/* ---- what does not fit together ---- */

static void refuses(const char *first, const char *second, int status, const char *says)
{
    char line[LINE];
    /* Not as two programs on one line: mpirun of Open MPI 5.0.7 crashes there without a network. */
    snprintf(line, sizeof line,
             MPIRUN "2 sh -c 'if [ $OMPI_COMM_WORLD_RANK = 0 ]; then study=%s; else study=%s; fi; "
                    "exec " PARE_BINARY " study $study" DEMO "' >x.txt 2>x.err",
             first, second);
    assert_int_equal(shell(line), status);
    char *err = whole_file("x.err"), *out = whole_file("x.txt");
    const char *said = strstr(err, "pare: ");
    if (!said || strncmp(said, says, strlen(says)) != 0 || strstr(said + 1, "pare: "))
        fail_msg("'%s' does not say '%s', or not alone", err, says);
    assert_string_equal(out, "");
    free(err);
    free(out);
}

static void ranks_that_read_something_else_are_refused(void **state)
{
    (void)state;
    skip_without_mpi();
    write_text("a.yaml", "study: a\nask: sheet\ncraft: [thimble]\nvary: {air.altitude: {from: 0 m, "
                         "to: 900 m, steps: 1000}}\n");
    write_text("o.yaml", "study: a\nask: sheet\ncraft: [drover]\n");
    write_text("w.yaml", "study: a\nask: shet\n");
    refuses("a.yaml", "o.yaml", 4,
            "pare: rank 1 reads another study, another bench or is another pare than rank 0\n");
    refuses("a.yaml", "gone.yaml", 3,
            "pare: rank 1: gone.yaml: cannot be read (No such file or directory)\n");
    refuses("w.yaml", "a.yaml", 3, "pare: w.yaml:2:6: ask cannot be 'shet'; is it 'sheet'?\n");
}

static void without_the_module_one_line_says_what_to_install(void **state)
{
    (void)state;
    write_text("a.yaml", "study: a\nask: sheet\ncraft: [thimble]\n");
    assert_int_equal(shell("mkdir -p alone && cp " PARE_BINARY " alone/pare && "
                           "PMIX_RANK=0 alone/pare study a.yaml" DEMO " >x.txt 2>x.err"),
                     4);
    char *err = whole_file("x.err");
    assert_int_equal(strncmp(err,
                             "pare: started as one of several, but what lets them talk is not "
                             "there: install the package pare-mpi, or start it alone (",
                             strlen("pare: started as one of several, but what lets them talk is "
                                    "not there: install the package pare-mpi, or start it alone "
                                    "(")),
                     0);
    assert_ptr_equal(strchr(err, '\n'), err + strlen(err) - 1);
    free(err);
    assert_int_equal(shell("alone/pare study a.yaml" DEMO " >x.txt"), 0);
}

static int enter(void **state)
{
    /* A container's user may be root, with one processor. */
    setenv("OMPI_ALLOW_RUN_AS_ROOT", "1", 1);
    setenv("OMPI_ALLOW_RUN_AS_ROOT_CONFIRM", "1", 1);
    return enter_home_with_demo(state);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_number_of_ranks_gives_the_same_bytes),
        cmocka_unit_test(best_sets_are_the_same_on_ranks),
        cmocka_unit_test(a_killed_rank_costs_only_what_it_was_at),
        cmocka_unit_test(ranks_that_read_something_else_are_refused),
        cmocka_unit_test(without_the_module_one_line_says_what_to_install),
    };
    return cmocka_run_group_tests(tests, enter, leave_home);
}
