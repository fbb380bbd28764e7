/* rooms: store craft physics base */
/* The bench as a file: round trips, refusals that leave the file as it was, caches, meshes. */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include "near.h"
#include "store_bench.h"

#define EVERY_KEY PARE_SOURCE_DIR "/tests/data/every-key.yaml"

static char *whole_file(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    fseek(file, 0, SEEK_END);
    const long size = ftell(file);
    rewind(file);
    char *bytes = malloc((size_t)size + 1);
    assert_non_null(bytes);
    assert_int_equal(fread(bytes, 1, (size_t)size, file), size);
    fclose(file);
    bytes[size] = '\0';
    *length = (size_t)size;
    return bytes;
}

static void write_file(const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    fclose(file);
}

static void import_path(pare_store *store, const char *path, bool empty_first,
                        pare_import_summary *summary)
{
    pare_error err = {0};
    const pare_import import = {.path = path, .empty_first = empty_first};
    pare_arena *arena = pare_arena_open();
    if (pare_store_import_yaml(store, &import, arena, summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_arena_close(arena);
}

/* A closed bench with every key in it, as bytes on the disk. */
static void fill_and_close(store_fixture *f)
{
    pare_import_summary summary;
    import_path(f->store, EVERY_KEY, false, &summary);
    pare_store_close(f->store);
    f->store = NULL;
}

static void run_sql(const char *path, const char *sql)
{
    sqlite3 *db = NULL;
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, sql, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(db);
}

/* Opens, expects a refusal, and expects the file to be what it was. The message begins with the path. */
static void refuses_to_open(const char *path, pare_store_mode mode, pare_status status,
                            const char *message)
{
    size_t before = 0, after = 0;
    char *was = whole_file(path, &before);
    pare_store *store = NULL;
    pare_error err = {0};
    assert_int_equal(pare_store_open(path, mode, &store, &err), status);
    assert_null(store);
    char expected[600];
    snprintf(expected, sizeof expected, "%s: %s", path, message);
    assert_string_equal(err.text, expected);
    char *is = whole_file(path, &after);
    assert_int_equal(before, after);
    assert_memory_equal(was, is, before);
    free(was);
    free(is);
}

/* ---- where ---- */

static void the_default_bench_follows_the_xdg_folders(void **state)
{
    (void)state;
    pare_text path = {0};
    pare_error err = {0};
    setenv("HOME", "/people/x", 1);
    setenv("XDG_DATA_HOME", "/data", 1);
    assert_int_equal(pare_store_default_path(false, &path, &err), PARE_OK);
    assert_string_equal(path.bytes, "/data/pare/bench.sqlite");
    path.length = 0;
    assert_int_equal(pare_store_default_path(true, &path, &err), PARE_OK);
    assert_string_equal(path.bytes, "/data/pare/demo.sqlite");
    path.length = 0;
    setenv("XDG_DATA_HOME", "relative", 1); /* to be ignored, says the specification */
    assert_int_equal(pare_store_default_path(false, &path, &err), PARE_OK);
    assert_string_equal(path.bytes, "/people/x/.local/share/pare/bench.sqlite");
    unsetenv("XDG_DATA_HOME");
    unsetenv("HOME");
    assert_int_equal(pare_store_default_path(false, &path, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "neither XDG_DATA_HOME nor HOME says where the bench is; right "
                                  "would be --bench FILE");
    pare_text_free(&path);
}

static void reading_never_makes_a_bench(void **state)
{
    const store_fixture *f = *state;
    char path[128], expected[300];
    snprintf(path, sizeof path, "%s/none.sqlite", f->folder);
    snprintf(expected, sizeof expected, "no bench at %s; try `pare demo` or `pare import`", path);
    for (int mode = PARE_STORE_READ; mode <= PARE_STORE_WRITE; mode++) {
        pare_store *store = NULL;
        pare_error err = {0};
        assert_int_equal(pare_store_open(path, (pare_store_mode)mode, &store, &err), PARE_BAD_DATA);
        assert_string_equal(err.text, expected);
        assert_int_equal(access(path, F_OK), -1);
    }
}

static void creating_makes_the_folders_too(void **state)
{
    const store_fixture *f = *state;
    char path[160];
    snprintf(path, sizeof path, "%s/one/two/a b?#%%.sqlite", f->folder);
    pare_store *store = NULL;
    pare_error err = {0};
    assert_int_equal(pare_store_open(path, PARE_STORE_CREATE, &store, &err), PARE_OK);
    pare_store_close(store);
    assert_int_equal(pare_store_open(path, PARE_STORE_READ, &store, &err), PARE_OK);
    pare_store_close(store);
    unlink(path);
    *strrchr(path, '/') = '\0';
    rmdir(path);
    *strrchr(path, '/') = '\0';
    rmdir(path);
}

static void names_that_sqlite_would_take_for_something_else_are_files(void **state)
{
    const store_fixture *f = *state;
    pare_store *store = NULL;
    pare_error err = {0};
    char here[512];
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(chdir(f->folder), 0);
    const char *const names[] = {":memory:", "file:x?mode=memory"};
    for (size_t i = 0; i < 2; i++) {
        assert_int_equal(pare_store_open(names[i], PARE_STORE_CREATE, &store, &err), PARE_OK);
        pare_store_close(store);
        assert_int_equal(access(names[i], F_OK), 0);
    }
    assert_int_equal(chdir(here), 0);
}

/* ---- what is no bench ---- */

static void files_that_are_no_bench_are_left_as_they_are(void **state)
{
    const store_fixture *f = *state;
    char path[128], journal[160];
    snprintf(path, sizeof path, "%s/other", f->folder);
    static const char no_bench[] =
        "not a bench but some other file; right would be a file that Pare made";
    char text[300];
    memset(text, 'x', sizeof text);
    write_file(path, text, sizeof text);
    refuses_to_open(path, PARE_STORE_READ, PARE_BAD_DATA, no_bench);
    refuses_to_open(path, PARE_STORE_CREATE, PARE_BAD_DATA, no_bench);
    write_file(path, "SQLite format 3", 16);
    refuses_to_open(path, PARE_STORE_CREATE, PARE_BAD_DATA, no_bench);
    write_file(path, "", 0);
    refuses_to_open(path, PARE_STORE_READ, PARE_BAD_DATA, no_bench);
    unlink(path);
    run_sql(path, "CREATE TABLE part(id TEXT); INSERT INTO part VALUES ('x')");
    refuses_to_open(path, PARE_STORE_CREATE, PARE_BAD_DATA,
                    "another program's database; right would be a file that Pare made");
    snprintf(journal, sizeof journal, "%s-wal", path);
    assert_int_equal(access(journal, F_OK), -1);
}

static void a_folder_or_a_device_is_no_bench(void **state)
{
    const store_fixture *f = *state;
    pare_store *store = NULL;
    pare_error err = {0};
    char expected[200];
    assert_int_equal(pare_store_open(f->folder, PARE_STORE_CREATE, &store, &err), PARE_BAD_DATA);
    snprintf(expected, sizeof expected, "%s: a folder, not a bench; right would be a file",
             f->folder);
    assert_string_equal(err.text, expected);
    assert_int_equal(pare_store_open("/dev/null", PARE_STORE_CREATE, &store, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "/dev/null: no regular file, not a bench; right would be a file");
    assert_int_equal(pare_store_open("", PARE_STORE_CREATE, &store, &err), PARE_BAD_DATA);
    assert_int_equal(pare_store_open("/dev/null/x", PARE_STORE_CREATE, &store, &err),
                     PARE_UNAVAILABLE);
}

static void a_bench_of_a_newer_pare_is_left_alone(void **state)
{
    ONLY_FILE();
    store_fixture *f = *state;
    fill_and_close(f);
    run_sql(f->path, "PRAGMA user_version = 99; PRAGMA wal_checkpoint(TRUNCATE)");
    refuses_to_open(f->path, PARE_STORE_WRITE, PARE_BAD_DATA,
                    "a bench of a newer Pare (version 99, this one knows 2); update Pare");
}

static void a_truncated_bench_is_said_to_be_damaged(void **state)
{
    ONLY_FILE();
    store_fixture *f = *state;
    fill_and_close(f);
    size_t length = 0;
    char *bytes = whole_file(f->path, &length);
    write_file(f->path, bytes, length / 2);
    refuses_to_open(f->path, PARE_STORE_WRITE, PARE_BAD_DATA,
                    "a damaged bench (database disk image is malformed); right would be a copy, or "
                    "an import of its exported text");
    free(bytes);
}

/* Garbage anywhere in the file: an answer or a refusal, never a crash. Pages are 4096 bytes. */
static void a_bench_with_spoilt_pages_never_crashes(void **state)
{
    ONLY_FILE();
    store_fixture *f = *state;
    fill_and_close(f);
    size_t length = 0;
    char *bytes = whole_file(f->path, &length);
    for (size_t page = 0; page < length / 4096; page++) {
        char *spoilt = malloc(length);
        assert_non_null(spoilt);
        memcpy(spoilt, bytes, length);
        for (size_t i = page ? 0 : 100; i < 4096; i += 3)
            spoilt[4096 * page + i] = (char)(i * 37 + page);
        write_file(f->path, spoilt, length);
        free(spoilt);
        pare_store *store = NULL;
        pare_bench *bench = NULL;
        pare_error err = {0};
        if (pare_store_open(f->path, PARE_STORE_READ, &store, &err) == PARE_OK) {
            const pare_status status = pare_store_read(store, &bench, &err);
            assert_true(status == PARE_OK || err.text[0]);
            pare_bench_close(bench);
        }
        assert_true(store || err.status == PARE_BAD_DATA);
        pare_store_close(store);
    }
    free(bytes);
}

static void a_row_whose_text_is_spoilt_is_named(void **state)
{
    store_fixture *f = *state;
    fill_and_close(f);
    store_meddle(f, "UPDATE part SET doc = 'id: mo-w' WHERE id = 'mo-w'");
    pare_error err = {0};
    pare_bench *bench = NULL;
    char expected[300];
    assert_int_equal(pare_store_open(f->path, PARE_STORE_READ, &f->store, &err), PARE_OK);
    assert_int_equal(pare_store_read(f->store, &bench, &err), PARE_BAD_DATA);
    assert_null(bench);
    snprintf(expected, sizeof expected,
             "%s: part 'mo-w':1:1: part 'mo-w' without kind; right would be like kind: motor",
             f->path);
    assert_string_equal(err.text, expected);
    pare_store_close(f->store);
    store_meddle(f, "UPDATE part SET doc = '{id: zz, kind: tie, mass: 1 g}' WHERE id = 'mo-w'");
    assert_int_equal(pare_store_open(f->path, PARE_STORE_READ, &f->store, &err), PARE_OK);
    assert_int_equal(pare_store_read(f->store, &bench, &err), PARE_BAD_DATA);
    snprintf(expected, sizeof expected, "%s: part 'mo-w': a damaged bench (its text is of 'zz')",
             f->path);
    assert_string_equal(err.text, expected);
}

/* ---- who else is there ---- */

static void a_locked_bench_is_waited_for_then_refused(void **state)
{
    ONLY_FILE();
    store_fixture *f = *state;
    fill_and_close(f);
    sqlite3 *other = NULL;
    pare_error err = {0};
    char expected[300];
    assert_int_equal(sqlite3_open(f->path, &other), SQLITE_OK);
    assert_int_equal(sqlite3_exec(other, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(pare_store_open(f->path, PARE_STORE_WRITE, &f->store, &err), PARE_OK);
    assert_int_equal(store_take(f->store, "pare: 1\nparts: [{id: n, kind: tie, mass: 1 g}]", &err),
                     PARE_UNAVAILABLE);
    snprintf(expected, sizeof expected,
             "%s: locked by another program for over 2 s; close it, then try again", f->path);
    assert_string_equal(err.text, expected);
    /* Others may still read while one writes. */
    pare_bench *bench = NULL;
    assert_int_equal(pare_store_read(f->store, &bench, &err), PARE_OK);
    assert_int_equal(bench->parts, 14);
    pare_bench_close(bench);
    sqlite3_close(other);
    assert_int_equal(store_take(f->store, "pare: 1\nparts: [{id: n, kind: tie, mass: 1 g}]", &err),
                     PARE_OK);
}

/* Runs a check as somebody who may not write what root may; its exit code is 0 where all held. */
static int as_nobody(int (*check)(const store_fixture *), const store_fixture *f)
{
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        if (geteuid() == 0 && (setgid(65534) != 0 || setuid(65534) != 0))
            _exit(99);
        _exit(check(f));
    }
    int how = 0;
    assert_int_equal(waitpid(child, &how, 0), child);
    return WIFEXITED(how) ? WEXITSTATUS(how) : 98;
}

static int reads_but_does_not_write(const store_fixture *f)
{
    pare_store *store = NULL;
    pare_bench *bench = NULL;
    pare_error err = {0};
    char expected[300];
    if (pare_store_open(f->path, PARE_STORE_READ, &store, &err) != PARE_OK)
        return 1;
    if (pare_store_read_craft(store, "weir-5", &bench, &err) != PARE_OK)
        return 2;
    if (pare_store_warm(store, bench, &err) != PARE_OK || !pare_bench_part(bench, "pr-w")->table)
        return 3;
    pare_bench_close(bench);
    if (store_take(store, "pare: 1\nparts: [{id: n, kind: tie, mass: 1 g}]", &err) !=
        PARE_UNAVAILABLE)
        return 4;
    snprintf(expected, sizeof expected,
             "%s: can only be read; a file and folder that you may write would be right", f->path);
    if (strcmp(err.text, expected) != 0)
        return 5;
    pare_store_close(store);
    if (pare_store_open(f->path, PARE_STORE_WRITE, &store, &err) != PARE_UNAVAILABLE)
        return 6;
    return strcmp(err.text, expected) != 0 ? 7 : 0;
}

static void a_bench_that_may_only_be_read_is_read_and_not_written(void **state)
{
    ONLY_FILE();
    store_fixture *f = *state;
    fill_and_close(f);
    size_t before = 0, after = 0;
    char *was = whole_file(f->path, &before);
    assert_int_equal(chmod(f->path, 0444), 0);
    assert_int_equal(chmod(f->folder, 0555), 0);
    assert_int_equal(as_nobody(reads_but_does_not_write, f), 0);
    assert_int_equal(chmod(f->folder, 0755), 0);
    char *is = whole_file(f->path, &after);
    assert_int_equal(before, after);
    assert_memory_equal(was, is, before);
    free(was);
    free(is);
}

static int may_not_look(const store_fixture *f)
{
    pare_store *store = NULL;
    pare_error err = {0};
    char expected[300];
    if (pare_store_open(f->path, PARE_STORE_READ, &store, &err) != PARE_UNAVAILABLE)
        return 1;
    snprintf(expected, sizeof expected, "%s: cannot be opened (Permission denied)", f->path);
    return strcmp(err.text, expected) != 0 ? 2 : 0;
}

static void a_bench_of_somebody_else_is_said_to_be_so(void **state)
{
    ONLY_FILE();
    store_fixture *f = *state;
    fill_and_close(f);
    assert_int_equal(chmod(f->path, 0), 0);
    assert_int_equal(as_nobody(may_not_look, f), 0);
}

/* A file that may not grow stands for a disk without room. */
static int finds_no_room(const store_fixture *f)
{
    pare_store *store = NULL;
    pare_error err = {0};
    const struct rlimit small = {2048, 2048};
    pare_text large = {0};
    pare_text_add(&large, "pare: 1\nparts:\n");
    for (int i = 0; i < 2000; i++)
        pare_text_printf(&large, "- {id: tie-%d, kind: tie, mass: 1 g}\n", i);
    if (pare_store_open(f->path, PARE_STORE_WRITE, &store, &err) != PARE_OK)
        return 1;
    signal(SIGXFSZ, SIG_IGN);
    if (setrlimit(RLIMIT_FSIZE, &small) != 0)
        return 2;
    if (store_take(store, large.bytes, &err) != PARE_UNAVAILABLE)
        return 3;
    pare_text_free(&large);
    return strstr(err.text, "the bench is as it was") ? 0 : 4;
}

static void a_full_disk_leaves_the_bench_as_it_was(void **state)
{
    ONLY_FILE();
    store_fixture *f = *state;
    fill_and_close(f);
    assert_int_equal(chmod(f->path, 0666), 0);
    assert_int_equal(chmod(f->folder, 0777), 0);
    pare_error err = {0};
    assert_int_equal(pare_store_open(f->path, PARE_STORE_READ, &f->store, &err), PARE_OK);
    char *was = store_text(f->store);
    pare_store_close(f->store);
    assert_int_equal(as_nobody(finds_no_room, f), 0);
    assert_int_equal(pare_store_open(f->path, PARE_STORE_READ, &f->store, &err), PARE_OK);
    char *is = store_text(f->store);
    assert_string_equal(was, is);
    free(was);
    free(is);
}

/* ---- text in and out ---- */

static void an_export_imported_into_a_new_bench_exports_the_same(void **state)
{
    store_fixture *f = *state, *other = NULL;
    pare_import_summary summary;
    pare_error err = {0};
    import_path(f->store, EVERY_KEY, false, &summary);
    char *once = store_text(f->store);
    char path[128];
    snprintf(path, sizeof path, "%s/out.yaml", f->folder);
    write_file(path, once, strlen(once));
    assert_int_equal(pare_store_export_files(f->store, f->folder, NULL, &err), PARE_OK);
    store_setup((void **)&other);
    import_path(other->store, path, false, &summary);
    char *twice = store_text(other->store);
    assert_string_equal(once, twice);
    assert_true(strncmp(once, "pare: 1\nmoney: EUR\nparts:\n- id: an-w\n", 36) == 0);
    assert_non_null(strstr(once, "\n- {id: small, resolution: ")); /* it fits on a line */
    free(once);
    free(twice);
    store_teardown((void **)&other);
}

static void importing_again_changes_nothing_and_says_so(void **state)
{
    store_fixture *f = *state;
    pare_import_summary summary;
    import_path(f->store, EVERY_KEY, false, &summary);
    assert_int_equal(summary.parts_added, 14);
    assert_int_equal(summary.craft_added, 1);
    assert_int_equal(summary.records_added, 6); /* two weigh-ins that read the same are two */
    assert_int_equal(summary.files, 1);
    assert_int_equal(summary.warnings, 1); /* the outline */
    char *once = store_text(f->store);
    import_path(f->store, EVERY_KEY, false, &summary);
    assert_int_equal(summary.parts_added + summary.parts_replaced, 0);
    assert_int_equal(summary.parts_same, 14);
    assert_int_equal(summary.craft_same, 1);
    assert_int_equal(summary.records_added, 0);
    assert_int_equal(summary.records_same, 6);
    char *twice = store_text(f->store);
    assert_string_equal(once, twice);
    free(once);
    free(twice);
}

static void a_part_of_the_same_id_is_replaced(void **state)
{
    store_fixture *f = *state;
    pare_import_summary summary;
    pare_error err = {0};
    pare_bench *bench = NULL;
    import_path(f->store, EVERY_KEY, false, &summary);
    assert_int_equal(store_take(f->store,
                                "pare: 1\nparts: [{id: vt-w, kind: video_transmitter, "
                                "mass: 4.5 g}]",
                                &err),
                     PARE_OK);
    assert_int_equal(pare_store_read(f->store, &bench, &err), PARE_OK);
    assert_int_equal(bench->parts, 14);
    assert_near(pare_bench_part(bench, "vt-w")->mass_kg.value, 0.0045, 1e-15);
    pare_bench_close(bench);
}

static void emptying_first_leaves_only_what_comes(void **state)
{
    store_fixture *f = *state;
    pare_import_summary summary;
    pare_error err = {0};
    import_path(f->store, EVERY_KEY, false, &summary);
    assert_int_equal(store_take(f->store, "pare: 1\nparts: [{id: n, kind: tie, mass: 1 g}]", &err),
                     PARE_OK);
    char *with = store_text(f->store);
    assert_non_null(strstr(with, "id: n,"));
    import_path(f->store, EVERY_KEY, true, &summary);
    char *without = store_text(f->store);
    assert_null(strstr(without, "id: n,"));
    assert_int_equal(summary.parts_added, 14);
    free(with);
    free(without);
}

static void two_moneys_do_not_stand_on_one_bench(void **state)
{
    store_fixture *f = *state;
    pare_error err = {0};
    assert_int_equal(store_take(f->store, "pare: 1\nmoney: EUR\n", &err), PARE_OK);
    assert_int_equal(store_take(f->store, "pare: 1\nmoney: CHF\n", &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "b.yaml:2:8: prices in CHF, but the bench has them in EUR; right "
                                  "would be one money on a bench");
}

static void a_text_that_is_not_there_is_named(void **state)
{
    pare_error err = {0};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    const pare_import none = {.path = "/nowhere/a.yaml"}, folder = {.path = "/tmp"};
    assert_int_equal(pare_store_import_yaml(store_of(state), &none, arena, &summary, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "/nowhere/a.yaml: cannot be read (No such file or directory)");
    assert_int_equal(pare_store_import_yaml(store_of(state), &folder, arena, &summary, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "/tmp: cannot be read (Is a directory)");
    pare_arena_close(arena);
}

/* ---- reading ---- */

static void one_craft_is_read_with_its_own_parts_alone(void **state)
{
    store_fixture *f = *state;
    pare_import_summary summary;
    pare_error err = {0};
    pare_bench *bench = NULL;
    import_path(f->store, EVERY_KEY, false, &summary);
    assert_int_equal(pare_store_read_craft(f->store, "weir-5", &bench, &err), PARE_OK);
    assert_int_equal(bench->crafts, 1);
    assert_int_equal(bench->parts, 10);
    assert_non_null(pare_bench_part(bench, "pa-w2")); /* only in a loadout */
    assert_null(pare_bench_part(bench, "so-w"));
    pare_bench_close(bench);
    assert_int_equal(pare_store_read_craft(f->store, "wier-5", &bench, &err), PARE_UNKNOWN);
    assert_null(bench);
    assert_string_equal(err.text, "no craft 'wier-5' on the bench; is it 'weir-5'?");
    assert_int_equal(pare_store_read_craft(f->store, "brook", &bench, &err), PARE_UNKNOWN);
    assert_string_equal(err.text,
                        "no craft 'brook' on the bench; `pare craft` lists the 1 that are there");
}

static void names_are_listed_in_order(void **state)
{
    store_fixture *f = *state;
    pare_import_summary summary;
    pare_error err = {0};
    size_t count = 0;
    const char *const *names = NULL;
    pare_arena *arena = pare_arena_open();
    assert_int_equal(pare_store_craft_names(f->store, arena, &count, &names, &err), PARE_OK);
    assert_int_equal(count, 0);
    import_path(f->store, EVERY_KEY, false, &summary);
    assert_int_equal(pare_store_craft_names(f->store, arena, &count, &names, &err), PARE_OK);
    assert_int_equal(count, 1);
    assert_string_equal(names[0], "weir-5");
    assert_int_equal(pare_store_part_ids(f->store, arena, &count, &names, &err), PARE_OK);
    assert_int_equal(count, 14);
    assert_string_equal(names[0], "an-w");
    assert_string_equal(names[13], "vt-w");
    pare_arena_close(arena);
}

/* More rows than the lists' first room, so that they have to grow. */
static void a_bench_of_many_parts_is_read_whole(void **state)
{
    pare_text text = {0};
    pare_error err = {0};
    pare_bench *bench = NULL;
    pare_text_add(&text, "pare: 1\nparts:\n");
    for (int i = 0; i < 300; i++)
        pare_text_printf(&text, "- {id: tie-%03d, kind: tie, mass: %d mg}\n", i, 100 + i);
    assert_int_equal(store_take(store_of(state), text.bytes, &err), PARE_OK);
    assert_int_equal(pare_store_read(store_of(state), &bench, &err), PARE_OK);
    assert_int_equal(bench->parts, 300);
    assert_near(pare_bench_part(bench, "tie-257")->mass_kg.value, 357e-6, 1e-15);
    pare_bench_close(bench);
    pare_text_free(&text);
}

static const pare_pair_fit *fit_in(const pare_bench *bench)
{
    assert_int_equal(bench->stands, 1);
    assert_non_null(bench->stand[0].pair);
    return bench->stand[0].pair;
}

/* And so is the fit of what a stand measured with it. */
static void a_propeller_table_is_built_once_and_then_kept(void **state)
{
    store_fixture *f = *state;
    pare_import_summary summary;
    pare_error err = {0};
    pare_bench *built = NULL, *kept = NULL;
    import_path(f->store, EVERY_KEY, false, &summary);
    assert_int_equal(pare_store_read(f->store, &built, &err), PARE_OK);
    assert_null(pare_bench_part(built, "pr-w")->table);
    assert_int_equal(pare_store_warm(f->store, built, &err), PARE_OK);
    assert_int_equal(store_ask(f, "SELECT count(*) FROM prop_table"), 3);
    const pare_pair_fit *fit = fit_in(built);
    assert_int_equal(fit->rows, 2);
    assert_int_equal(pare_store_read(f->store, &kept, &err), PARE_OK);
    assert_int_equal(pare_store_warm(f->store, kept, &err), PARE_OK);
    const pare_prop_table *one = pare_bench_part(built, "pr-w")->table;
    assert_memory_equal(one, pare_bench_part(kept, "pr-w")->table, sizeof *one);
    assert_memory_equal(fit, fit_in(kept), sizeof *fit);
    pare_bench_close(kept);
    /* A row of NaN, or of the wrong length, counts as missing. */
    static const char *const spoil[] = {
        "UPDATE prop_table SET bytes = zeroblob(length(bytes))",
        "UPDATE prop_table SET bytes = x'00'",
    };
    for (size_t i = 0; i < 2; i++) {
        store_meddle(f, spoil[i]);
        assert_int_equal(pare_store_read(f->store, &kept, &err), PARE_OK);
        assert_int_equal(pare_store_warm(f->store, kept, &err), PARE_OK);
        assert_memory_equal(one, pare_bench_part(kept, "pr-w")->table, sizeof *one);
        assert_memory_equal(fit, fit_in(kept), sizeof *fit);
        pare_bench_close(kept);
    }
    pare_bench_close(built);
}

/* ---- meshes ---- */

#define CUBE "{id: cu, kind: printed, body: {mesh: cube.stl, density: 1.2 g/cm3, wall: 1 mm}}"

static pare_status take_mesh(pare_store *store, const char *parts, const char *stl, size_t length,
                             pare_arena *arena, pare_import_summary *summary, pare_error *err)
{
    char text[600];
    snprintf(text, sizeof text, "pare: 1\nparts:\n- %s\n", parts);
    const pare_import_file file = {"cube.stl", stl, length};
    const pare_import import = {.bytes = text,
                                .length = strlen(text),
                                .name = "b.yaml",
                                .files = stl ? 1 : 0,
                                .file = &file};
    return pare_store_import_yaml(store, &import, arena, summary, err);
}

static char *cube_text(size_t *length)
{
    return whole_file(PARE_SOURCE_DIR "/tests/data/every-key-cube.stl", length);
}

static void a_mesh_that_is_not_there_is_a_warning_and_the_law_fills_the_mass(void **state)
{
    pare_error err = {0};
    pare_import_summary summary;
    pare_bench *bench = NULL;
    pare_arena *arena = pare_arena_open();
    assert_int_equal(take_mesh(store_of(state), "{id: bu, kind: bumper, body: {mesh: cube.stl}}",
                               NULL, 0, arena, &summary, &err),
                     PARE_OK);
    assert_int_equal(summary.warnings, 1);
    assert_string_equal(
        summary.warning[0],
        "b.yaml:3:39: mesh cube.stl is not there; the part is filled by law, estimated");
    assert_int_equal(pare_store_read(store_of(state), &bench, &err), PARE_OK);
    assert_false(pare_bench_part(bench, "bu")->piece[0].measured);
    assert_true(pare_part_filled(pare_bench_part(bench, "bu")) & PARE_FILLED_MASS);
    pare_bench_close(bench);
    pare_arena_close(arena);
}

static void where_no_law_knows_the_mass_the_missing_mesh_is_named(void **state)
{
    pare_error err = {0};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    assert_int_equal(take_mesh(store_of(state), CUBE, NULL, 0, arena, &summary, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "b.yaml:3:3: part 'cu', whose mesh cube.stl is not there: mass is missing, "
                        "and no law knows it for a part of kind printed: say mass: 12 g, or give a "
                        "body with its density");
    pare_arena_close(arena);
}

static void an_open_mesh_and_one_inside_out_are_said(void **state)
{
    pare_error err = {0};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    size_t length = 0;
    char *cube = cube_text(&length);
    /* Without its last triangle. */
    char *last = NULL;
    for (char *at = cube; (at = strstr(at, " facet")) != NULL; at++)
        last = at;
    pare_text open = {0};
    pare_text_put(&open, cube, (size_t)(last - cube));
    pare_text_add(&open, "endsolid cube\n");
    assert_int_equal(
        take_mesh(store_of(state), CUBE, open.bytes, open.length, arena, &summary, &err), PARE_OK);
    assert_int_equal(summary.warnings, 1);
    assert_string_equal(summary.warning[0],
                        "b.yaml:3:40: mesh cube.stl is open (3 open edges); its convex hull stands "
                        "in for it, estimated");
    /* Mirrored: x and y change places in every corner. */
    pare_text turned = {0};
    double x, y, z;
    for (char *line = cube; line; line = strchr(line, '\n')) {
        line += *line == '\n';
        if (sscanf(line, " vertex %lf %lf %lf", &x, &y, &z) == 3)
            pare_text_printf(&turned, "vertex %g %g %g\n", y, x, z);
        else
            pare_text_put(&turned, line, strcspn(line, "\n") + (strchr(line, '\n') ? 1 : 0));
    }
    assert_int_equal(
        take_mesh(store_of(state), CUBE, turned.bytes, turned.length, arena, &summary, &err),
        PARE_OK);
    assert_int_equal(summary.warnings, 1);
    assert_int_equal(summary.parts_replaced, 1); /* same words, other mesh */
    assert_string_equal(summary.warning[0],
                        "b.yaml:3:40: mesh cube.stl was inside out; it has been turned");
    pare_text_free(&open);
    pare_text_free(&turned);
    free(cube);
    pare_arena_close(arena);
}

static void a_mesh_that_is_none_refuses_the_import(void **state)
{
    pare_error err = {0};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    assert_int_equal(take_mesh(store_of(state), CUBE, "solid nothing", 13, arena, &summary, &err),
                     PARE_BAD_DATA);
    assert_true(strncmp(err.text, "b.yaml:3:40: cube.stl", 21) == 0);
    assert_int_equal(store_ask(*state, "SELECT count(*) FROM file"), 0);
    pare_arena_close(arena);
}

static void a_mesh_stays_with_the_bench_and_goes_with_its_last_part(void **state)
{
    store_fixture *f = *state;
    pare_error err = {0};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    size_t length = 0;
    char *cube = cube_text(&length);
    assert_int_equal(take_mesh(f->store, CUBE, cube, length, arena, &summary, &err), PARE_OK);
    /* Imported again without its file, it is still there. */
    assert_int_equal(take_mesh(f->store, CUBE, NULL, 0, arena, &summary, &err), PARE_OK);
    assert_int_equal(summary.warnings, 0);
    assert_int_equal(summary.parts_same, 1);
    assert_int_equal(store_ask(f, "SELECT count(*) FROM mesh"), 1);
    assert_int_equal(
        take_mesh(f->store, "{id: cu, kind: printed, mass: 1 g}", NULL, 0, arena, &summary, &err),
        PARE_OK);
    assert_int_equal(store_ask(f, "SELECT count(*) FROM file"), 0);
    assert_int_equal(store_ask(f, "SELECT count(*) FROM mesh"), 0);
    free(cube);
    pare_arena_close(arena);
}

static void another_mesh_of_the_same_name_does_not_change_a_part_unasked(void **state)
{
    pare_error err = {0};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    size_t length = 0;
    char *cube = cube_text(&length);
    assert_int_equal(take_mesh(store_of(state), CUBE, cube, length, arena, &summary, &err),
                     PARE_OK);
    *strstr(cube, "solid cube") = 'S';
    cube[0] = 's';
    cube[6] = 'C';
    assert_int_equal(take_mesh(store_of(state),
                               "{id: other, kind: printed, body: {mesh: cube.stl}}", cube, length,
                               arena, &summary, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "b.yaml:3:43: file cube.stl differs from the one that part 'cu' on "
                        "the bench has; right would be another name for it");
    assert_int_equal(take_mesh(store_of(state), CUBE, cube, length, arena, &summary, &err),
                     PARE_OK);
    free(cube);
    pare_arena_close(arena);
}

static void mesh_files_are_written_out_and_none_is_overwritten(void **state)
{
    store_fixture *f = *state;
    pare_error err = {0};
    pare_import_summary summary;
    size_t count = 0, length = 0, written = 0;
    char path[160], expected[300];
    import_path(f->store, EVERY_KEY, false, &summary);
    snprintf(path, sizeof path, "%s/every-key-cube.stl", f->folder);
    for (int i = 0; i < 2; i++) {
        assert_int_equal(pare_store_export_files(f->store, f->folder, &count, &err), PARE_OK);
        assert_int_equal(count, 1);
    }
    char *cube = cube_text(&length), *out = whole_file(path, &written);
    assert_int_equal(length, written);
    assert_memory_equal(cube, out, length);
    write_file(path, "mine", 4);
    assert_int_equal(pare_store_export_files(f->store, f->folder, &count, &err), PARE_BAD_DATA);
    snprintf(expected, sizeof expected,
             "%s: another file of that name is there; move it, or name another folder", path);
    assert_string_equal(err.text, expected);
    free(cube);
    free(out);
}

static void a_kept_file_with_a_hostile_name_is_not_written_out(void **state)
{
    store_fixture *f = *state;
    pare_error err = {0};
    store_meddle(f, "INSERT INTO file(name, bytes) VALUES ('../x', x'00')");
    assert_int_equal(pare_store_export_files(f->store, f->folder, NULL, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "the bench keeps a file under the name '../x', which is none");
}

#define WITH_BENCH(test) cmocka_unit_test_setup_teardown(test, store_setup, store_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_BENCH(reading_never_makes_a_bench),
        WITH_BENCH(creating_makes_the_folders_too),
        WITH_BENCH(names_that_sqlite_would_take_for_something_else_are_files),
        WITH_BENCH(files_that_are_no_bench_are_left_as_they_are),
        WITH_BENCH(a_folder_or_a_device_is_no_bench),
        WITH_BENCH(a_bench_of_a_newer_pare_is_left_alone),
        WITH_BENCH(a_truncated_bench_is_said_to_be_damaged),
        WITH_BENCH(a_bench_with_spoilt_pages_never_crashes),
        WITH_BENCH(a_row_whose_text_is_spoilt_is_named),
        WITH_BENCH(a_locked_bench_is_waited_for_then_refused),
        WITH_BENCH(a_bench_that_may_only_be_read_is_read_and_not_written),
        WITH_BENCH(a_bench_of_somebody_else_is_said_to_be_so),
        WITH_BENCH(a_full_disk_leaves_the_bench_as_it_was),
        WITH_BENCH(an_export_imported_into_a_new_bench_exports_the_same),
        WITH_BENCH(importing_again_changes_nothing_and_says_so),
        WITH_BENCH(a_part_of_the_same_id_is_replaced),
        WITH_BENCH(emptying_first_leaves_only_what_comes),
        WITH_BENCH(two_moneys_do_not_stand_on_one_bench),
        WITH_BENCH(a_text_that_is_not_there_is_named),
        WITH_BENCH(one_craft_is_read_with_its_own_parts_alone),
        WITH_BENCH(names_are_listed_in_order),
        WITH_BENCH(a_bench_of_many_parts_is_read_whole),
        WITH_BENCH(a_propeller_table_is_built_once_and_then_kept),
        WITH_BENCH(a_mesh_that_is_not_there_is_a_warning_and_the_law_fills_the_mass),
        WITH_BENCH(where_no_law_knows_the_mass_the_missing_mesh_is_named),
        WITH_BENCH(an_open_mesh_and_one_inside_out_are_said),
        WITH_BENCH(a_mesh_that_is_none_refuses_the_import),
        WITH_BENCH(a_mesh_stays_with_the_bench_and_goes_with_its_last_part),
        WITH_BENCH(another_mesh_of_the_same_name_does_not_change_a_part_unasked),
        WITH_BENCH(mesh_files_are_written_out_and_none_is_overwritten),
        WITH_BENCH(a_kept_file_with_a_hostile_name_is_not_written_out),
        cmocka_unit_test(the_default_bench_follows_the_xdg_folders), /* last: it changes HOME */
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
