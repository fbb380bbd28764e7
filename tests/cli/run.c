/* run.c: running the built program (see run.h). */
#include "run.h"
#include "server.h"

#include <ctype.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

enum { WORDS = 64, LINE = 2048, MOST_BYTES = 1 << 24 };

extern char **environ;

static char home[] = "/tmp/pare-cli-XXXXXX";

/* The demo's bench; on a server it has an address in the place of a file's name. */
#define DEMO_FILE "data/pare/demo.sqlite"
static char demo_address[160];

const char *demo_bench(void)
{
    return on_server() ? demo_address : DEMO_FILE;
}

int enter_home(void **state)
{
    (void)state;
    strcpy(home, "/tmp/pare-cli-XXXXXX");
    if (on_server())
        server_bench(0, demo_address, sizeof demo_address);
    if (!mkdtemp(home) || chdir(home) != 0 || mkdir("data", 0700) != 0)
        return -1;
    char data[64];
    snprintf(data, sizeof data, "%s/data", home);
    setenv("HOME", home, 1);
    setenv("XDG_DATA_HOME", data, 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    setenv("COLUMNS", "80", 1);
    unsetenv("NO_COLOR");
    return 0;
}

int fill_demo(void **state)
{
    (void)state;
    ran r = run("demo");
    const int status = r.status;
    ran_free(&r);
    return status;
}

int enter_home_with_demo(void **state)
{
    return enter_home(state) == 0 ? fill_demo(state) : -1;
}

/* Homes are three folders deep at most. */
static void empty_folder(const char *path, int depth)
{
    DIR *folder = depth > 0 ? opendir(path) : NULL;
    if (!folder)
        return;
    for (const struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
        char inside[1024];
        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0)
            continue;
        snprintf(inside, sizeof inside, "%s/%s", path, entry->d_name);
        empty_folder(inside, depth - 1);
        remove(inside);
    }
    closedir(folder);
}

int leave_home(void **state)
{
    (void)state;
    if (chdir("/") != 0)
        return -1;
    empty_folder(home, 4);
    return rmdir(home);
}

char *read_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file)
        return NULL;
    char *bytes = malloc(MOST_BYTES);
    size_t length = bytes ? fread(bytes, 1, MOST_BYTES - 1, file) : 0;
    fclose(file);
    if (!bytes)
        return NULL;
    bytes[length] = '\0';
    char *fitted = realloc(bytes, length + 1);
    return fitted ? fitted : bytes;
}

static void put_in_place(char *text, const char *name, const char *other)
{
    const size_t length = strlen(name), others = strlen(other);
    for (char *at = *name ? strstr(text, name) : NULL; at; at = strstr(at + others, name)) {
        memcpy(at, other, others);
        memmove(at + others, at + length, strlen(at + length) + 1);
    }
}

/* The home's name differs from run to run, and a bench's by where it is. */
static void hide_names(char *text, bool fills)
{
    put_in_place(text, home, "HOME");
    put_in_place(text, demo_address, fills ? "HOME/" DEMO_FILE : DEMO_FILE);
}

/* On a server the demo's bench is there: what says its file's name says the address, and `pare demo`, which
 * has a file of its own, is told. @return whether it was told */
static bool go_to_server(size_t *count, char *argv[])
{
    static char bench[] = "--bench";
    const bool fills = *count > 1 && strcmp(argv[1], "demo") == 0;
    bool said = false;
    for (size_t i = 1; i < *count; i++) {
        said = said || strcmp(argv[i], bench) == 0;
        if (strcmp(argv[i], DEMO_FILE) == 0)
            argv[i] = demo_address;
    }
    if (!fills || said)
        return false;
    argv[(*count)++] = bench;
    argv[(*count)++] = demo_address;
    return true;
}

ran run(const char *line)
{
    static char program[] = PARE_BINARY;
    char words[LINE], *argv[WORDS] = {program};
    size_t count = 1;
    assert_true(strlen(line) < sizeof words);
    strcpy(words, line);
    for (char *word = strtok(words, " "); word; word = strtok(NULL, " ")) {
        assert_true(count + 3 < WORDS);
        for (char *c = word; *c; c++)
            if (*c == '~')
                *c = ' ';
        argv[count++] = word;
    }
    const bool fills = on_server() && go_to_server(&count, argv);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, "out.txt", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_addopen(&actions, 2, "err.txt", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    pid_t child;
    const int failed = posix_spawn(&child, program, &actions, NULL, argv, environ);
    posix_spawn_file_actions_destroy(&actions);
    if (failed)
        fail_msg("%s: %s", program, strerror(failed));
    int status = 0;
    while (waitpid(child, &status, 0) < 0)
        if (errno != EINTR)
            fail_msg("waitpid: %s", strerror(errno));
    ran r = {
        .status = WEXITSTATUS(status), .out = read_file("out.txt"), .err = read_file("err.txt")};
    if (!WIFEXITED(status))
        fail_msg("pare %s: ended by signal %d\n%s", line, WTERMSIG(status), r.err);
    assert_non_null(r.out);
    assert_non_null(r.err);
    hide_names(r.out, fills);
    hide_names(r.err, fills);
    return r;
}

void ran_free(ran *r)
{
    free(r->out);
    free(r->err);
}

json_t *run_json(const char *line)
{
    ran r = run(line);
    if (r.status != 0)
        fail_msg("pare %s: exit status %d\n%s", line, r.status, r.err);
    json_error_t where;
    json_t *object = json_loads(r.out, JSON_REJECT_DUPLICATES, &where);
    if (!object)
        fail_msg("pare %s: %d:%d: %s", line, where.line, where.column, where.text);
    ran_free(&r);
    return object;
}

double number(const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    if (!json_is_number(value))
        fail_msg("'%s' is no number", key);
    return json_number_value(value);
}

void write_file(const char *name, const void *bytes, size_t length)
{
    FILE *file = fopen(name, "wb");
    if (!file || fwrite(bytes, 1, length, file) != length || fclose(file) != 0)
        fail_msg("%s: %s", name, strerror(errno));
}

void write_text(const char *name, const char *text)
{
    write_file(name, text, strlen(text));
}

void write_zeros(const char *name, long long bytes)
{
    write_text(name, "");
    if (truncate(name, (off_t)bytes) != 0)
        fail_msg("%s: %s", name, strerror(errno));
}

/* The first line that differs, with its number: a whole screen twice helps nobody. */
static void report(const char *name, const char *wanted, const char *text)
{
    int line = 1;
    while (*wanted && *text) {
        const size_t a = strcspn(wanted, "\n"), b = strcspn(text, "\n");
        if (a != b || strncmp(wanted, text, a) != 0)
            break;
        wanted += a + (wanted[a] == '\n');
        text += b + (text[b] == '\n');
        line++;
    }
    fail_msg("golden/%s.txt:%d differs\nwanted: %.*s\n   got: %.*s", name, line,
             (int)strcspn(wanted, "\n"), wanted, (int)strcspn(text, "\n"), text);
}

void assert_golden(const char *name, const char *text)
{
    char path[512];
    snprintf(path, sizeof path, "%s/tests/cli/golden/%s.txt", PARE_SOURCE_DIR, name);
    const char *asked = getenv("PARE_GOLDEN");
    if (asked && strcmp(asked, "update") == 0) {
        write_text(path, text);
        return;
    }
    char *wanted = read_file(path);
    if (!wanted)
        fail_msg("%s: not there; PARE_GOLDEN=update writes it", path);
    if (strcmp(wanted, text) != 0)
        report(name, wanted, text);
    free(wanted);
}

void run_quietly(const char *line)
{
    ran r = run(line);
    if (r.status != 0)
        fail_msg("pare %s: %s", line, r.err);
    ran_free(&r);
}

char *demo_text(void)
{
    ran r = run("export" DEMO);
    assert_int_equal(r.status, 0);
    char *text = strdup(r.out);
    assert_non_null(text);
    ran_free(&r);
    return text;
}

void run_prints(const char *line, const char *wanted)
{
    ran r = run(line);
    assert_string_equal(r.err, "");
    assert_string_equal(r.out, wanted);
    assert_int_equal(r.status, 0);
    ran_free(&r);
}

void run_prints_golden(const char *golden, const char *line)
{
    ran r = run(line);
    assert_string_equal(r.err, "");
    assert_int_equal(r.status, 0);
    assert_golden(golden, r.out);
    ran_free(&r);
}

void run_refuses(const char *line, int status, const char *wanted)
{
    ran r = run(line);
    assert_string_equal(r.err, wanted);
    assert_string_equal(r.out, "");
    assert_int_equal(r.status, status);
    ran_free(&r);
}

char *whole_file(const char *file)
{
    char *text = read_file(file);
    if (!text)
        fail_msg("%s cannot be read", file);
    return text;
}

void is_same_file(const char *a, const char *b)
{
    char *left = whole_file(a), *right = whole_file(b);
    assert_string_equal(left, right);
    free(left);
    free(right);
}
