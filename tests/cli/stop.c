/* stop.c: long work on a terminal shows how far it is, and nowhere else; what is stopped says in one line
 * what was done, ends by the signal, and leaves the bench as it was; a closed pipe ends quietly.
 *
 * Nothing here is timed. To catch the program at work, the test holds the bench's lock, for which an
 * import waits two seconds, or gives it a text that is long; and a signal is sent once the program says
 * (in /proc) that it listens to it. */
#define _XOPEN_SOURCE 700

#include "run.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <sqlite3.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { LINE = 256, MANY_PARTS = 9000, MANY_ROWS = 60000, PAUSE_US = 2000, MOST_LOOKS = 30000 };

/* ---- a program under way ---- */

/* Up to five words behind "pare"; NULL ends them sooner. */
typedef struct words {
    const char *word[6];
} words;

/* Starts pare with its output going to these. @param ignored  a signal that it is to ignore, or 0 */
static pid_t start(words w, int out, int err, int ignored)
{
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child > 0)
        return child;
    const int in = open("/dev/null", O_RDONLY);
    if (in < 0 || dup2(in, 0) < 0 || dup2(out, 1) < 0 || dup2(err, 2) < 0)
        _exit(99);
    if (ignored)
        signal(ignored, SIG_IGN);
    execl(PARE_BINARY, "pare", w.word[0], w.word[1], w.word[2], w.word[3], w.word[4], (char *)NULL);
    _exit(98);
}

static int opened(const char *name)
{
    const int file = open(name, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    assert_true(file >= 0);
    return file;
}

static int end_of(pid_t child)
{
    int status = 0;
    while (waitpid(child, &status, 0) < 0)
        assert_int_equal(errno, EINTR);
    return status;
}

/* Whether a process catches a signal: a bit of a mask that Linux shows. */
static bool catches(pid_t child, int signal_number)
{
    char name[64], line[LINE];
    bool caught = false;
    snprintf(name, sizeof name, "/proc/%ld/status", (long)child);
    FILE *status = fopen(name, "r");
    while (status && fgets(line, sizeof line, status))
        if (strncmp(line, "SigCgt:", 7) == 0)
            caught = strtoull(line + 7, NULL, 16) >> (signal_number - 1) & 1;
    if (status)
        fclose(status);
    return caught;
}

static void wait_until_it_listens(pid_t child, int signal_number)
{
    const struct timespec pause = {.tv_nsec = PAUSE_US * 1000L};
    for (int looks = 0; looks < MOST_LOOKS; looks++) {
        if (catches(child, signal_number))
            return;
        if (waitpid(child, &(int){0}, WNOHANG) != 0)
            fail_msg("the program ended before it could be stopped");
        nanosleep(&pause, NULL);
    }
    fail_msg("the program never listened to signal %d", signal_number);
}

/* ---- benches and texts ---- */

/* Texts that take a while to read, each row in this form with a number in it. */
static void write_many(const char *name, const char *head, const char *row, int rows)
{
    FILE *file = fopen(name, "w");
    assert_non_null(file);
    fputs(head, file);
    for (int i = 0; i < rows; i++) {
        const char *number = strchr(row, '#');
        fprintf(file, "%.*s%d%s", (int)(number - row), row, i, number + 1);
    }
    assert_int_equal(fclose(file), 0);
}

static void write_many_parts(void)
{
    write_many("many.yaml", "pare: 1\nparts:\n",
               "- {id: p#, kind: motor, mass: 30 g, spec: {stator: 22 mm x 7 mm, kv: 1950}}\n",
               MANY_PARTS);
    write_many("many.csv", "name,kind,mass (g),kV,stator\n", "part #,motor,30,1950,22x7\n",
               MANY_ROWS);
}

/* Stops an import while it is at work, and wants it to say this. */
static void is_stopped(const char *file, int signal_number, const char *bench, const char *said)
{
    const int out = opened("out.txt"), err = opened("err.txt");
    const pid_t child = start((words){{"import", file, "--bench", bench}}, out, err, 0);
    close(out);
    close(err);
    wait_until_it_listens(child, signal_number);
    kill(child, signal_number);
    const int status = end_of(child);
    char *text = read_file("err.txt"), *answer = read_file("out.txt");
    assert_string_equal(text, said);
    assert_string_equal(answer, "");
    assert_true(WIFSIGNALED(status));
    assert_int_equal(WTERMSIG(status), signal_number);
    free(text);
    free(answer);
}

/* ---- stopping ---- */

static void a_stopped_import_says_so_and_leaves_the_bench_as_it_was(void **state)
{
    (void)state;
    static const struct {
        const char *file;
        int signal_number;
    } cases[] = {{"many.yaml", SIGINT}, {"many.yaml", SIGTERM}, {"many.csv", SIGINT}};
    write_many_parts();
    char *before = demo_text();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        is_stopped(cases[i].file, cases[i].signal_number, "data/pare/demo.sqlite",
                   "pare: stopped: nothing was imported; the bench is as it was\n");
        char *after = demo_text();
        assert_string_equal(after, before);
        free(after);
    }
    free(before);
}

static void a_stopped_import_leaves_no_new_bench_behind(void **state)
{
    (void)state;
    write_many_parts();
    is_stopped("many.yaml", SIGINT, "new.sqlite",
               "pare: stopped: nothing was imported, and no bench was made\n");
    assert_int_not_equal(access("new.sqlite", F_OK), 0);
    assert_int_not_equal(access("new.sqlite-wal", F_OK), 0);
}

static void who_waits_for_a_lock_can_be_stopped(void **state)
{
    (void)state;
    sqlite3 *other = NULL;
    write_text("many.yaml", "pare: 1\n");
    assert_int_equal(sqlite3_open("data/pare/demo.sqlite", &other), SQLITE_OK);
    assert_int_equal(sqlite3_exec(other, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
    is_stopped("many.yaml", SIGINT, "data/pare/demo.sqlite",
               "pare: stopped: nothing was imported; the bench is as it was\n");
    assert_int_equal(sqlite3_close(other), SQLITE_OK);
}

/* nohup, and a shell's jobs in the background, are not to hear it. */
static void a_signal_that_was_to_be_ignored_stays_ignored(void **state)
{
    (void)state;
    write_many_parts();
    const int out = opened("out.txt"), err = opened("err.txt");
    const pid_t child =
        start((words){{"import", "many.yaml", "--bench", "ignores.sqlite"}}, out, err, SIGINT);
    close(out);
    close(err);
    wait_until_it_listens(child, SIGTERM);
    kill(child, SIGINT);
    assert_int_equal(end_of(child), 0);
}

static void a_closed_pipe_ends_quietly(void **state)
{
    (void)state;
    static const int ignored[] = {0, SIGPIPE}; /* whoever started us ignored it, as some do */
    for (size_t i = 0; i < sizeof ignored / sizeof ignored[0]; i++) {
        int ends[2];
        const int err = opened("err.txt");
        assert_int_equal(pipe(ends), 0);
        close(ends[0]); /* nobody reads */
        const pid_t child = start((words){{"help"}}, ends[1], err, ignored[i]);
        close(ends[1]);
        close(err);
        const int status = end_of(child);
        char *text = read_file("err.txt");
        assert_string_equal(text, "");
        assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGPIPE);
        free(text);
    }
}

/* ---- a terminal ---- */

typedef struct watched {
    const char *option; /* one more word; NULL: none */
    bool err_is_terminal, out_is_terminal, out_is_pipe, dumb;
    bool shows; /* what is wanted */
} watched;

typedef struct looking {
    int terminal; /* our end */
    int out;      /* our end of a pipe, or -1 */
    pid_t child;
} looking;

static int terminal_of(int ours)
{
    assert_int_equal(grantpt(ours), 0);
    assert_int_equal(unlockpt(ours), 0);
    const int theirs = open(ptsname(ours), O_RDWR | O_NOCTTY);
    assert_true(theirs >= 0);
    return theirs;
}

static looking look_at(const watched *how)
{
    looking l = {.terminal = posix_openpt(O_RDWR | O_NOCTTY), .out = -1};
    int ends[2] = {-1, -1};
    assert_true(l.terminal >= 0);
    const int theirs = terminal_of(l.terminal), file = opened("err.txt");
    assert_int_equal(pipe(ends), 0);
    setenv("TERM", how->dumb ? "dumb" : "xterm", 1);
    l.child =
        start((words){{"import", "few.yaml", "--bench", "data/pare/demo.sqlite", how->option}},
              how->out_is_terminal ? theirs
              : how->out_is_pipe   ? ends[1]
                                   : file,
              how->err_is_terminal ? theirs : file, 0);
    close(theirs);
    close(file);
    close(ends[1]);
    l.out = ends[0];
    return l;
}

/* All that was shown. The end of a terminal is an error on Linux, once the other side is closed. */
static void read_all(int from, char *text, size_t size)
{
    size_t length = 0;
    for (ssize_t got; (got = read(from, text + length, size - 1 - length)) > 0;)
        length += (size_t)got;
    text[length] = '\0';
}

static void only_a_terminal_is_shown_how_far_it_is(void **state)
{
    (void)state;
    static const watched cases[] = {
        {NULL, .err_is_terminal = true, .out_is_terminal = true, .shows = true},
        {"--json", .err_is_terminal = true, .out_is_terminal = true, .shows = true},
        {NULL, .err_is_terminal = true, .shows = true}, /* > FILE */
        {"--json", .err_is_terminal = true},            /* --json > FILE */
        {NULL, .err_is_terminal = true, .out_is_pipe = true},
        {NULL, .out_is_terminal = true}, /* 2> FILE */
        {NULL, .err_is_terminal = true, .out_is_terminal = true, .dumb = true},
    };
    enum { CASES = sizeof cases / sizeof cases[0] };
    looking l[CASES];
    sqlite3 *other = NULL;
    write_text("few.yaml", "pare: 1\n");
    assert_int_equal(sqlite3_open("data/pare/demo.sqlite", &other), SQLITE_OK);
    assert_int_equal(sqlite3_exec(other, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
    for (size_t i = 0; i < CASES; i++)
        l[i] = look_at(&cases[i]);
    for (size_t i = 0; i < CASES; i++) {
        char text[1 << 14];
        read_all(l[i].terminal, text, sizeof text);
        const int status = end_of(l[i].child);
        assert_true(WIFEXITED(status));
        assert_int_equal(WEXITSTATUS(status), 4); /* locked all the while */
        const char *shown = strstr(text, "\rpare: waiting for another program that writes");
        if ((shown != NULL) != cases[i].shows)
            fail_msg("case %zu: this was shown: %s", i, text);
        /* And taken away again before anything else is said. */
        if (shown)
            assert_non_null(strstr(shown, "\r\033[Kpare: data/pare/demo.sqlite: locked"));
        close(l[i].terminal);
        close(l[i].out);
    }
    assert_int_equal(sqlite3_close(other), SQLITE_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_stopped_import_says_so_and_leaves_the_bench_as_it_was),
        cmocka_unit_test(a_stopped_import_leaves_no_new_bench_behind),
        cmocka_unit_test(who_waits_for_a_lock_can_be_stopped),
        cmocka_unit_test(a_signal_that_was_to_be_ignored_stays_ignored),
        cmocka_unit_test(a_closed_pipe_ends_quietly),
        cmocka_unit_test(only_a_terminal_is_shown_how_far_it_is),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
