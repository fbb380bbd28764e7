/* rooms: store craft physics base */
/* find.c: what a search of a bench of 100,000 parts costs: the whole command from its start to its
 * end, file cache warm, and the search alone; against SQLite's own SELECT with the same conditions on
 * a plain table of numeric columns, in the same run, written out in the same columns.
 *
 * The bench is made by import, 10,000 parts at a time, in a temporary folder. One line a figure: name,
 * value, unit, ratio to its baseline. */
#include <errno.h>
#include <fcntl.h>
#include <spawn.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "store/bench.h"

enum { PARTS = 100000, CHUNK = 10000, ROUNDS = 7, WORDS = 12 };

extern char **environ;

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* ---- the bench ---- */

/* Numbers without a pattern, the same in each run. */
static unsigned scatter(unsigned i)
{
    unsigned x = i * 2654435761u + 12345u;
    x ^= x >> 15;
    x *= 2246822519u;
    return x ^ x >> 13;
}

static void put_part(pare_text *out, unsigned i)
{
    static const char *const makers[] = {"Teasel Works", "Tarnbeck Coils", "Quern Cells",
                                         "Brackwater Yard", "Osier Bed"};
    const unsigned r = scatter(i);
    const double spread = 0.8 + 0.4 * (r % 1000) / 1000;
    pare_text_printf(out, "- id: p-%06u\n  maker: %s\n", i, makers[r % 5]);
    pare_text_printf(out,
                     "  price: {each: %u.%02u, sold_in: 1, seller: Quillmoor, date: "
                     "2026-03-01}\n  owned: %u\n",
                     2 + r % 60, r % 100, r % 17 == 0 ? 1 + r % 4 : 0);
    const unsigned stator = 18 + r % 11, height = 4 + r % 6, cells = 3 + r % 4;
    const double ah = 0.45 + 0.05 * (r % 40);
    switch (i % 5) {
    case 0:
        pare_text_printf(out,
                         "  kind: motor\n  mass: {value: %.1f g, u: 0.2 g, known: weighed}\n"
                         "  spec: {stator: %u mm x %u mm, kv: %u, resistance: %u mohm, volts: 11 V "
                         ".. 25.5 V, continuous: %u A}\n  fits: {bolt_circle: 16 mm, thread: M3, "
                         "shaft: M5}\n",
                         0.0215 * spread * stator * stator * height * 0.45, stator, height,
                         1200 + r % 1500, 20 + r % 80, 20 + r % 30);
        break;
    case 1:
        pare_text_printf(out,
                         "  kind: pack\n  mass: {value: %.0f g, u: 2 g, known: stated}\n"
                         "  spec: {chemistry: lipo, cells: %u, capacity: %.0f mAh}\n",
                         spread * (3.5 * cells + 27.5 * cells * ah), cells, 1000 * ah);
        break;
    case 2:
        pare_text_printf(out,
                         "  kind: propeller\n  mass: {value: %.2f g, u: 0.05 g, known: stated}\n"
                         "  spec: {diameter: %.1f in, pitch: %.1f in, blades: %u}\n",
                         4.2 * spread, 3 + 0.1 * (r % 40), 2.5 + 0.1 * (r % 20), 2 + r % 3);
        break;
    case 3:
        pare_text_printf(out,
                         "  kind: esc_four\n  mass: {value: %.1f g, u: 0.3 g, known: stated}\n"
                         "  spec: {continuous: %u A, volts: 11 V .. 25.5 V}\n  fits: {stack: 30.5 "
                         "mm}\n",
                         12 * spread, 25 + r % 40);
        break;
    default:
        pare_text_printf(out, "  kind: buzzer\n  mass: {value: %.1f g, u: 0.1 g, known: weighed}\n",
                         3 * spread);
        break;
    }
}

static pare_status fill(const char *path, pare_error *err)
{
    pare_store *store = NULL;
    pare_status status = pare_store_open(path, PARE_STORE_CREATE, &store, err);
    for (unsigned from = 0; status == PARE_OK && from < PARTS; from += CHUNK) {
        pare_text text = {0};
        pare_arena *arena = pare_arena_open();
        pare_import_summary summary;
        pare_text_add(&text, "pare: 1\nmoney: EUR\nparts:\n");
        for (unsigned i = from; i < from + CHUNK; i++)
            put_part(&text, i);
        const pare_import import = {.bytes = text.bytes, .length = text.length, .name = "parts"};
        status = arena && !text.failed
                     ? pare_store_import_yaml(store, &import, arena, &summary, err)
                     : pare_no_memory(err);
        pare_arena_close(arena);
        pare_text_free(&text);
    }
    pare_store_close(store);
    return status;
}

/* ---- the baseline: a plain table ---- */

static sqlite3 *plain_open(const char *path)
{
    sqlite3 *db = NULL;
    if (sqlite3_open(path, &db) != SQLITE_OK) {
        sqlite3_close(db);
        return NULL;
    }
    return db;
}

static pare_status plain_put(void *context, const pare_part *part, pare_error *err)
{
    sqlite3_stmt *put = context;
    double number[PARE_KEYS];
    pare_numbers_of(part, number);
    sqlite3_reset(put);
    sqlite3_bind_text(put, 1, part->id, -1, SQLITE_TRANSIENT);
    sqlite3_bind_text(put, 2, pare_kind_name(part->kind), -1, SQLITE_STATIC);
    sqlite3_bind_text(put, 3, part->maker, -1, SQLITE_TRANSIENT);
    sqlite3_bind_double(put, 4, part->mass_kg.u);
    sqlite3_bind_text(put, 5, pare_known_name(part->mass_kg.known), -1, SQLITE_STATIC);
    for (int key = 0; key < PARE_KEYS; key++)
        sqlite3_bind_double(put, 6 + key, number[key]); /* NAN is NULL to SQLite */
    return sqlite3_step(put) == SQLITE_DONE ? PARE_OK : pare_fail(err, PARE_UNAVAILABLE, "no room");
}

/* The same parts, one column a number; k5 is spec 5. */
static pare_status plain_fill(const char *bench, const char *path, pare_error *err)
{
    sqlite3 *db = plain_open(path);
    sqlite3_stmt *put = NULL;
    pare_store *store = NULL;
    pare_arena *arena = pare_arena_open();
    const char *const *ids = NULL;
    size_t count = 0;
    pare_text table = {0}, insert = {0};
    pare_text_add(&table, "CREATE TABLE part(id TEXT, kind TEXT, maker TEXT, mass_u REAL, known "
                          "TEXT");
    pare_text_add(&insert, "INSERT INTO part VALUES (?, ?, ?, ?, ?");
    for (int key = 0; key < PARE_KEYS; key++) {
        pare_text_printf(&table, ", k%d REAL", key);
        pare_text_add(&insert, ", ?");
    }
    pare_text_add(&table, ")");
    pare_text_add(&insert, ")");
    pare_status status =
        db && arena ? pare_store_open(bench, PARE_STORE_READ, &store, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_store_part_ids(store, arena, &count, &ids, err);
    if (status == PARE_OK && (sqlite3_exec(db, "BEGIN", NULL, NULL, NULL) != SQLITE_OK ||
                              sqlite3_exec(db, table.bytes, NULL, NULL, NULL) != SQLITE_OK ||
                              sqlite3_prepare_v2(db, insert.bytes, -1, &put, NULL) != SQLITE_OK))
        status = pare_fail(err, PARE_UNAVAILABLE, "%s", sqlite3_errmsg(db));
    if (status == PARE_OK)
        status = pare_store_each_part(store, count, ids, plain_put, put, err);
    sqlite3_finalize(put);
    if (status == PARE_OK && sqlite3_exec(db, "COMMIT", NULL, NULL, NULL) != SQLITE_OK)
        status = pare_fail(err, PARE_UNAVAILABLE, "%s", sqlite3_errmsg(db));
    pare_text_free(&table);
    pare_text_free(&insert);
    pare_arena_close(arena);
    pare_store_close(store);
    sqlite3_close(db);
    return status;
}

/* Opens the plain table, selects, and writes what a list shows. */
static double plain_s(const char *path, const char *where, size_t *rows)
{
    const double start = now_s();
    sqlite3 *db = plain_open(path);
    sqlite3_stmt *select = NULL;
    pare_text sql = {0}, out = {0};
    pare_text_printf(
        &sql,
        "SELECT id, kind, k%d, mass_u, known, k%d, k%d, maker FROM part WHERE %s ORDER "
        "BY id",
        PARE_KEY_MASS, PARE_KEY_PRICE, PARE_KEY_OWNED, where);
    *rows = 0;
    if (db && sqlite3_prepare_v2(db, sql.bytes, -1, &select, NULL) == SQLITE_OK)
        for (; sqlite3_step(select) == SQLITE_ROW; ++*rows)
            pare_text_printf(
                &out, "%-17s%-27s%7.1f %6.1f%9s%8.2f%5.0f  %s\n",
                (const char *)sqlite3_column_text(select, 0),
                (const char *)sqlite3_column_text(select, 1),
                1e3 * sqlite3_column_double(select, 2), 1e3 * sqlite3_column_double(select, 3),
                (const char *)sqlite3_column_text(select, 4), sqlite3_column_double(select, 5),
                sqlite3_column_double(select, 6), (const char *)sqlite3_column_text(select, 7));
    else
        fprintf(stderr, "%s\n", sqlite3_errmsg(db));
    sqlite3_finalize(select);
    sqlite3_close(db);
    pare_text_free(&sql);
    pare_text_free(&out);
    return now_s() - start;
}

/* ---- the search ---- */

static double search_s(const char *path, const char *text, int kind, bool surprise, size_t *rows)
{
    pare_error err = {0};
    const double start = now_s();
    pare_store *store = NULL;
    pare_arena *arena = pare_arena_open();
    pare_units *units = pare_units_open();
    pare_filter filter = {0};
    pare_listed *list;
    const pare_find find = {
        .kind = kind, .filter = &filter, .sort = PARE_KEY_NONE, .surprise = surprise};
    pare_status status = pare_store_open(path, PARE_STORE_READ, &store, &err);
    if (status == PARE_OK && *text)
        status = pare_filter_read(units, text, kind, &filter, &err);
    if (status == PARE_OK)
        status = pare_store_find(store, &find, arena, rows, &list, &err);
    pare_units_close(units);
    pare_arena_close(arena);
    pare_store_close(store);
    if (status != PARE_OK)
        fprintf(stderr, "%s\n", err.text);
    return now_s() - start;
}

/* Computing of all children so far: neighbours on a shared machine do not enter. */
static double children_s(void)
{
    struct rusage u;
    getrusage(RUSAGE_CHILDREN, &u);
    return (double)(u.ru_utime.tv_sec + u.ru_stime.tv_sec) +
           1e-6 * (double)(u.ru_utime.tv_usec + u.ru_stime.tv_usec);
}

/* @param[out] computed_s  what it computed, on whatever core */
static double command_s(const char *path, char *const words[], double *computed_s)
{
    char program[] = PARE_BINARY, bench[] = "--bench", parts[] = "parts";
    char *argv[WORDS] = {program, parts, bench};
    size_t count = 3;
    argv[count++] = strdup(path);
    for (size_t i = 0; words[i] && count + 1 < WORDS; i++)
        argv[count++] = words[i];
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
    pid_t child;
    int status = 0;
    const double before = children_s(), start = now_s();
    if (posix_spawn(&child, program, &actions, NULL, argv, environ) == 0)
        while (waitpid(child, &status, 0) < 0 && errno == EINTR)
            ;
    const double took = now_s() - start;
    *computed_s = children_s() - before;
    posix_spawn_file_actions_destroy(&actions);
    free(argv[3]);
    if (status != 0)
        fprintf(stderr, "%s: status %d\n", program, status);
    return took;
}

/* ---- what is asked ---- */

typedef struct question {
    const char *name, *condition, *where; /* %d: the key */
    int kind;
    bool surprise;
} question;

static void ask(const question *q, const char *bench, const char *plain, const char *where)
{
    char condition[128], kind_option[] = "--kind", surprise[] = "--surprise", kind[48];
    char *words[6] = {NULL};
    size_t count = 0, rows = 0, plain_rows = 0;
    snprintf(condition, sizeof condition, "%s", q->condition);
    if (*condition)
        words[count++] = condition;
    if (q->kind >= 0) {
        snprintf(kind, sizeof kind, "%s", pare_kind_name((pare_kind)q->kind));
        words[count++] = kind_option;
        words[count++] = kind;
    }
    if (q->surprise)
        words[count++] = surprise;
    double command = 1e9, computed = 1e9, search = 1e9, select = 1e9;
    for (int i = 0; i < ROUNDS; i++) {
        double computed_s;
        const double c = command_s(bench, words, &computed_s);
        const double s = search_s(bench, q->condition, q->kind, q->surprise, &rows);
        command = c < command ? c : command;
        computed = computed_s < computed ? computed_s : computed;
        search = s < search ? s : search;
        if (where) {
            const double p = plain_s(plain, where, &plain_rows);
            select = p < select ? p : select;
        }
    }
    printf("find_%s %.1f ms (%zu of %d parts; %.1f ms of computing; the search alone %.1f ms",
           q->name, 1e3 * command, rows, PARTS, 1e3 * computed, 1e3 * search);
    if (where)
        printf("; SELECT on a plain table %.1f ms, %zu rows, ratio %.2f", 1e3 * select, plain_rows,
               command / select);
    printf(")\n");
}

static void measure(const char *bench, const char *plain)
{
    char where[256];
    const question light = {"mass_cells", "mass<120g cells>=6", NULL, -1, false};
    const question motors = {"motors", "mass<30g kv=1700..1800", NULL, PARE_MOTOR, false};
    const question owned = {"owned", "owned>=1 price<=20", NULL, -1, false};
    const question many = {"mass", "mass<12g", NULL, -1, false};
    const question none = {"nothing", "mass<1mg", NULL, -1, false};
    const question all = {"all", "", NULL, -1, false};
    const question surprises = {"surprise", "", NULL, -1, true};
    snprintf(where, sizeof where, "k%d < 0.12 AND k%d >= 6", PARE_KEY_MASS, PARE_SPEC_CELLS);
    ask(&light, bench, plain, where);
    snprintf(where, sizeof where, "kind = 'motor' AND k%d < 0.03 AND k%d BETWEEN 1700 AND 1800",
             PARE_KEY_MASS, PARE_SPEC_KV);
    ask(&motors, bench, plain, where);
    snprintf(where, sizeof where, "k%d >= 1 AND k%d <= 20", PARE_KEY_OWNED, PARE_KEY_PRICE);
    ask(&owned, bench, plain, where);
    snprintf(where, sizeof where, "k%d < 0.012", PARE_KEY_MASS);
    ask(&many, bench, plain, where);
    snprintf(where, sizeof where, "k%d < 1e-6", PARE_KEY_MASS);
    ask(&none, bench, plain, where);
    ask(&all, bench, plain, "1");
    ask(&surprises, bench, plain, NULL);
}

int main(void)
{
    char folder[] = "/tmp/pare-speed-XXXXXX", bench[64], plain[64];
    pare_error err = {0};
    if (!mkdtemp(folder)) {
        perror(folder);
        return 1;
    }
    snprintf(bench, sizeof bench, "%s/bench.sqlite", folder);
    snprintf(plain, sizeof plain, "%s/plain.sqlite", folder);
    double start = now_s();
    pare_status status = fill(bench, &err);
    const double filled = now_s() - start;
    start = now_s();
    if (status == PARE_OK)
        status = plain_fill(bench, plain, &err);
    if (status == PARE_OK) {
        printf("find_import %.1f s (%d parts; all read again in full in %.1f s)\n", filled, PARTS,
               now_s() - start);
        measure(bench, plain);
    } else {
        fprintf(stderr, "%s\n", err.text);
    }
    unlink(bench);
    unlink(plain);
    rmdir(folder);
    return status == PARE_OK ? 0 : 1;
}
