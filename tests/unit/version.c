/* rooms: store craft physics base */
/* version.c: a bench that several stores of one program and other programs have open: each hears of what
 * the others write, and the numbers of what stands there follow the text. */
#include "bench_of.h"
#include "near.h"
#include "server.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "store/version.h"

static char folder[] = "/tmp/pare-version-XXXXXX";
static char path[160];

static int stop(void **state)
{
    (void)state;
    static const char *const endings[] = {"", "-wal", "-shm"};
    for (int i = 0; i < 3; i++) {
        char name[176];
        snprintf(name, sizeof name, "%s%s", path, endings[i]);
        unlink(name);
    }
    return rmdir(folder);
}

static void put_mass(const char *grams)
{
    char text[256];
    pare_store *store = NULL;
    pare_import_summary summary;
    pare_error err = {0};
    snprintf(text, sizeof text, "pare: 1\nparts:\n- {id: a, kind: other, mass: %s g}\n", grams);
    const pare_import import = {.bytes = text, .length = strlen(text), .name = "text"};
    pare_arena *arena = pare_arena_open();
    if (pare_store_open(path, PARE_STORE_CREATE, &store, &err) != PARE_OK ||
        pare_store_import_yaml(store, &import, arena, &summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_store_close(store);
    pare_arena_close(arena);
}

/* Other programs: processes that began before this one knew of SQLite, or they would inherit what it
 * knows. Each waits for a byte, puts its mass and is gone. */
enum { OTHERS = 5 };
static struct {
    pid_t child;
    int wake;
} other[OTHERS];

static int start(void **state)
{
    (void)state;
    if (!mkdtemp(folder))
        return -1;
    if (on_server())
        server_bench(0, path, sizeof path);
    else
        snprintf(path, sizeof path, "%s/b.sqlite", folder);
    for (int i = 0; i < OTHERS; i++) {
        int ends[2];
        if (pipe(ends) != 0)
            return -1;
        other[i].wake = ends[1];
        other[i].child = fork();
        if (other[i].child != 0) {
            close(ends[0]);
            continue;
        }
        char byte, grams[16];
        close(ends[1]);
        snprintf(grams, sizeof grams, "%d", i + 2);
        if (read(ends[0], &byte, 1) == 1)
            put_mass(grams);
        _exit(0);
    }
    return 0;
}

static void wake(int i)
{
    int status;
    assert_int_equal(write(other[i].wake, "w", 1), 1);
    assert_int_equal(waitpid(other[i].child, &status, 0), other[i].child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
}

static pare_store *open_it(void)
{
    pare_store *store = NULL;
    pare_error err = {0};
    if (pare_store_open(path, PARE_STORE_READ, &store, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return store;
}

static long long stamp_of(pare_store *store)
{
    pare_store_mark mark = {.stamp = -1};
    assert_int_equal(pare_store_mark_stamp(store, &mark, NULL), PARE_OK);
    return mark.stamp;
}

/* Another store of the same program opens and closes in between: POSIX would then drop the locks of the
 * first, and the other program would take the log away from under it. */
static void a_store_hears_of_every_change_of_another_program(void **state)
{
    (void)state;
    put_mass("1");
    pare_store *store = open_it();
    long long before = stamp_of(store);
    for (int i = 0; i < OTHERS; i++) {
        char grams[16];
        pare_store_close(open_it());
        snprintf(grams, sizeof grams, "%d", i + 2);
        wake(i);
        const long long now = stamp_of(store);
        assert_true(now != before);
        before = now;
        pare_text text = {0};
        assert_int_equal(pare_store_part_text(store, "a", &text, NULL), PARE_OK);
        if (!strstr(text.bytes, grams))
            fail_msg("after change %d the store still reads: %s", i, text.bytes);
        pare_text_free(&text);
        assert_true(stamp_of(store) == before); /* reading is no change */
    }
    pare_store_close(store);
}

static long long version_of(pare_store *store)
{
    long long version = -1;
    assert_int_equal(pare_store_version(store, PARE_A_PART, "a", &version, NULL), PARE_OK);
    assert_true(version >= 0 && version <= 1LL << 53);
    return version;
}

static void a_version_is_the_texts(void **state)
{
    (void)state;
    long long bench[3];
    put_mass("7");
    pare_store *store = open_it();
    const long long seven = version_of(store);
    assert_int_equal(pare_store_bench_version(store, &bench[0], NULL), PARE_OK);
    put_mass("8");
    const long long eight = version_of(store);
    assert_int_equal(pare_store_bench_version(store, &bench[1], NULL), PARE_OK);
    assert_true(seven != eight);
    put_mass("7");
    assert_true(version_of(store) == seven);
    assert_int_equal(pare_store_bench_version(store, &bench[2], NULL), PARE_OK);
    assert_true(bench[0] != bench[1] && bench[1] != bench[2] && bench[0] != bench[2]);
    long long none = 0;
    assert_int_equal(pare_store_version(store, PARE_A_PART, "b", &none, NULL), PARE_UNKNOWN);
    pare_store_close(store);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_store_hears_of_every_change_of_another_program),
        cmocka_unit_test(a_version_is_the_texts),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
