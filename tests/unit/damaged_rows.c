/* rooms: store craft physics base */
/* A bench in which one node of one document is not what it was: whoever meddled with the file, what is asked
 * of it is answered, or refused in one line as data that cannot be or are not known, and the bench stays as it
 * was. Each node of a record and of a scale, and those of a craft and some parts down to some depth, in turn.
 *
 * The answers themselves are other tests' (fuzz/rows.c changes any column of any row). */
#include <math.h>

#include "misfits.h"
#include "share.h"
#include "store_works.h"

#include "store/past.h"
#include "store/studies.h"

enum { DOCUMENTS = 6 };

static const struct {
    const char *list, *where;
    size_t depth; /* of the nodes that change */
} DOCUMENT[] = {{"scale", "1", 9},  {"weigh_in", "date = '2026-04-12'", 9},
                {"flight", "1", 9}, {"stand_table", "1", 9},
                {"craft", "1", 3},  {"part", "id IN ('fr-w', 'mo-w', 'pr-t', 'pa-w', 'cu-w')", 2}};

/* Flights of other kinds than the one in the text with every key. */
static const char HOVERED[] =
    "pare: 1\n"
    "flights:\n"
    "- {craft: weir-5, date: 2026-04-14, flown: hover, output: 31 %, promise: 28 % .. 34 %}\n"
    "- {craft: weir-5, date: 2026-04-15, pack: pa-w, flown: [{share: 60 %, as: hover}, {share: 40 "
    "%, speed: 9 "
    "m/s}], put_back: 900 mAh, lasted: 4 min}\n";

static const misfit SOME[] = {WORD, EMPTY, LIST, EMPTY_LIST, MAP, EMPTY_MAP, OTHER_KEY, GONE};

static pare_status read_weighed(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    pare_bench *bench = NULL;
    const pare_status status = pare_store_read_weighed(store, "weir-5", &bench, err);
    pare_bench_close(bench);
    return status;
}

static pare_status read_hovers(pare_store *store, pare_arena *arena, pare_error *err)
{
    size_t count = 0;
    const pare_hovered *hover = NULL;
    return pare_store_hovers(store, arena, &count, &hover, err);
}

static pare_status read_flights(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_bench *bench = NULL;
    const pare_flight_record *flights = NULL;
    size_t count = 0;
    (void)arena;
    pare_status status = pare_store_read(store, &bench, err);
    if (status == PARE_OK)
        status = pare_store_read_flights(store, bench, pare_bench_craft(bench, "weir-5"), &count,
                                         &flights, err);
    pare_bench_close(bench);
    return status;
}

/* What differs between the days is told entry by entry. */
static pare_status look_back(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_store *past = NULL;
    pare_past_begins begins;
    size_t count = 0;
    const pare_entry_change *list = NULL;
    pare_status status = pare_store_past(store, "weir-5", "2026-04-11", &past, &begins, err);
    if (status == PARE_OK)
        status = pare_store_craft_between(past, store, "weir-5", arena, &count, &list, err);
    pare_store_close(past);
    return status;
}

/* Changes, which are undone where they succeed. */
static pare_status alter_and_back(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const store_work changes[] = {alter_craft, copy_craft, set_limit, alter_part,
                                         remove_part};
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++) {
        const long long newest = store_newest(store);
        pare_error why = {0};
        const pare_status status = changes[i](store, arena, &why);
        if (status != PARE_OK)
            *err = why;
        if (store_newest(store) != newest && store_turn(store, true, &why) != PARE_OK)
            fail_msg("%s", why.text);
    }
    return err->status;
}

static pare_status list_again(pare_store *store, pare_arena *arena, pare_error *err)
{
    const pare_status merged = merge_list(store, arena, err);
    return merged == PARE_OK ? import_records(store, arena, err) : merged;
}

/* The file of a part's shape, alone and with something said of it. */
static pare_status import_shape(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_drawing_taken taken;
    pare_drawing_import import = {.path = PARE_SOURCE_DIR "/tests/data/every-key-cube.stl",
                                  .dry_run = true};
    const pare_status status = pare_store_import_drawing(store, &import, arena, &taken, err);
    import.mass = "3 g";
    pare_error said = {0};
    assert_int_equal(pare_store_import_drawing(store, &import, arena, &taken, &said),
                     PARE_BAD_DATA);
    return status;
}

static const store_work ASKED[] = {
    read_all,    write_lists,  write_json, find_parts,     read_texts, read_stands, read_weighed,
    read_hovers, read_flights, look_back,  alter_and_back, list_again, import_shape};

/* Nodes that stand too deep are passed over. */
static size_t depth_at(const pare_node *node, size_t *left, size_t depth)
{
    if ((*left)-- == 0)
        return depth;
    for (const pare_node *one = node->first; one; one = one->next) {
        const size_t found = depth_at(one, left, depth + 1);
        if (found)
            return found;
    }
    return 0;
}

static void put_document(const store_fixture *f, const char *list, long long row, const char *text)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *statement = NULL;
    char sql[120];
    snprintf(sql, sizeof sql, "UPDATE %s SET doc = ?1 WHERE row = ?2", list);
    assert_int_equal(sqlite3_open(f->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "PRAGMA synchronous = OFF", NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &statement, NULL), SQLITE_OK);
    sqlite3_bind_text(statement, 1, text, -1, SQLITE_STATIC);
    sqlite3_bind_int64(statement, 2, row);
    assert_int_equal(sqlite3_step(statement), SQLITE_DONE);
    sqlite3_finalize(statement);
    sqlite3_close(db);
}

static void ask(const store_fixture *f, store_work does, size_t number, const char *what)
{
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    const pare_status status = does(f->store, arena, &err);
    pare_arena_close(arena);
    if (status != PARE_OK && ((status != PARE_BAD_DATA && status != PARE_UNKNOWN) || !*err.text ||
                              strchr(err.text, '\n')))
        fail_msg("%s: question %zu ends with %d: %s", what, number, (int)status, err.text);
}

static void ask_all(const store_fixture *f, const char *what)
{
    for (size_t i = 0; i < sizeof ASKED / sizeof ASKED[0]; i++)
        ask(f, ASKED[i], i, what);
}

static void change_each_node(const store_fixture *f, const char *list, long long row,
                             const char *doc, size_t most)
{
    pare_arena *arena = pare_arena_open();
    const pare_node *root = NULL;
    pare_error err = {0};
    char what[120];
    if (pare_tree_parse(doc, strlen(doc), "doc", arena, &root, &err) != PARE_OK)
        fail_msg("%s", err.text);
    const size_t nodes = nodes_of(root);
    for (size_t n = 0; n < nodes; n++)
        for (size_t k = n % PARE_TEST_SHARE; k < sizeof SOME / sizeof SOME[0];
             k += PARE_TEST_SHARE) {
            size_t left = n;
            if (depth_at(root, &left, 1) > most)
                continue;
            walk w = {.arena = arena, .how = SOME[k], .left = n};
            pare_node *other = copy_but(&w, root);
            pare_text text = {0};
            if (other && w.applied) {
                pare_tree_write(other, 1, &text);
                put_document(f, list, row, text.bytes);
                snprintf(what, sizeof what, "%s %lld, node %zu, misfit %d", list, row, n,
                         (int)SOME[k]);
                ask_all(f, what);
            }
            pare_text_free(&text);
        }
    put_document(f, list, row, doc);
    pare_arena_close(arena);
}

static void a_document_that_is_damaged_is_refused_or_passed_over(void **state)
{
    const store_fixture *f = *state;
    ONLY_FILE();
    fill(state);
    pare_error err = {0};
    if (store_take(f->store, HOVERED, &err) != PARE_OK)
        fail_msg("%s", err.text);
    char *before = store_text(f->store);
    for (size_t i = 0; i < DOCUMENTS; i++) {
        sqlite3 *db = NULL;
        sqlite3_stmt *statement = NULL;
        char sql[200];
        snprintf(sql, sizeof sql, "SELECT row, doc FROM %s WHERE %s", DOCUMENT[i].list,
                 DOCUMENT[i].where);
        assert_int_equal(sqlite3_open(f->path, &db), SQLITE_OK);
        assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &statement, NULL), SQLITE_OK);
        struct {
            long long row;
            char *doc;
        } found[8];
        size_t count = 0;
        while (count < 8 && sqlite3_step(statement) == SQLITE_ROW) {
            found[count].row = sqlite3_column_int64(statement, 0);
            found[count++].doc = strdup((const char *)sqlite3_column_text(statement, 1));
        }
        sqlite3_finalize(statement);
        sqlite3_close(db);
        assert_true(count > 0);
        for (size_t k = 0; k < count; k++) {
            change_each_node(f, DOCUMENT[i].list, found[k].row, found[k].doc, DOCUMENT[i].depth);
            free(found[k].doc);
        }
    }
    store_expect_text(f->store, before, 0, 0);
    free(before);
}

/* ---- columns ---- */

/* A file whose tables allow what ours do not: nothing where something has to stand. */
static void allow_nothing(const store_fixture *f)
{
    store_meddle(f, "PRAGMA writable_schema = ON;"
                    "UPDATE sqlite_schema SET sql = replace(sql, ' NOT NULL', '') "
                    "WHERE type = 'table';"
                    "PRAGMA writable_schema = RESET");
}

static pare_status list_studies(pare_store *store, pare_arena *arena, pare_error *err)
{
    size_t count = 0;
    const char *const *list = NULL;
    return pare_store_kept_studies(store, arena, &count, &list, err);
}

/* Each column in turn is empty in every row, which damages all that stands in it: what is asked is answered, or
 * refused in one line, and the file is not harmed further: with the column filled again it says what it said. */
static void a_column_that_is_empty_is_refused_or_passed_over(void **state)
{
    static const char *const COLUMNS[][2] = {{"setting", "value"},
                                             {"setting", "name"},
                                             {"part", "doc"},
                                             {"part", "id"},
                                             {"part", "kind"},
                                             {"part", "mass_kg"},
                                             {"part", "facts"},
                                             {"craft", "doc"},
                                             {"craft", "name"},
                                             {"file", "bytes"},
                                             {"file", "name"},
                                             {"scale", "doc"},
                                             {"scale", "id"},
                                             {"weigh_in", "doc"},
                                             {"weigh_in", "craft"},
                                             {"weigh_in", "date"},
                                             {"flight", "doc"},
                                             {"flight", "craft"},
                                             {"flight", "date"},
                                             {"flight", "pack"},
                                             {"stand_table", "doc"},
                                             {"stand_table", "motor"},
                                             {"stand_table", "propeller"},
                                             {"mesh", "facts"},
                                             {"mesh", "layout"},
                                             {"prop_table", "bytes"},
                                             {"change", "time"},
                                             {"change", "what"},
                                             {"change", "undone"},
                                             {"change_new", "first"},
                                             {"change_new", "last"},
                                             {"change_old", "was"},
                                             {"change_old", "name"}};
    const store_fixture *f = *state;
    ONLY_FILE();
    fill(state);
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    if (store_take(f->store, HOVERED, &err) != PARE_OK ||
        alter_part(f->store, arena, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_arena_close(arena);
    allow_nothing(f);
    char *before = store_text(f->store);
    for (size_t i = 0; i < sizeof COLUMNS / sizeof COLUMNS[0]; i++) {
        const char *table = COLUMNS[i][0], *column = COLUMNS[i][1];
        char sql[400], what[80];
        snprintf(what, sizeof what, "%s.%s", table, column);
        snprintf(sql, sizeof sql, "CREATE TABLE kept AS SELECT * FROM %s; UPDATE %s SET %s = NULL",
                 table, table, column);
        store_meddle(f, sql);
        for (size_t k = 0; k < sizeof ASKED / sizeof ASKED[0]; k++)
            if (ASKED[k] != alter_and_back && ASKED[k] != import_shape)
                ask(f, ASKED[k], k, what);
        ask(f, list_history, 100, what);
        ask(f, list_studies, 101, what);
        snprintf(sql, sizeof sql,
                 "DELETE FROM %s; INSERT INTO %s SELECT * FROM kept; DROP TABLE kept", table,
                 table);
        store_meddle(f, sql);
        char *after = store_text(f->store);
        if (strcmp(before, after) != 0)
            fail_msg("%s: the bench says something else afterwards", what);
        free(after);
    }
    free(before);
}

/* ---- what is kept of files ---- */

static const char PLATE[] =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"40mm\" height=\"30mm\" viewBox=\"0 0 40 "
    "30\">"
    "<path d=\"M-20 -15 H20 V15 H-20 Z\"/><circle cx=\"5\" cy=\"5\" r=\"5\"/></svg>\n";

/* A part's mass by its file's shape, and where its middle is. */
static void shape_of(const store_fixture *f, const char *id, double said[3])
{
    pare_bench *bench = NULL;
    pare_error err = {0};
    if (pare_store_read(f->store, &bench, &err) != PARE_OK)
        fail_msg("%s", err.text);
    const pare_part *part = pare_bench_part(bench, id);
    assert_true(part && part->piece[0].measured);
    said[0] = part->mass_kg.value;
    said[1] = part->piece[0].mesh.centre_m.x;
    said[2] = part->piece[0].mesh.inertia_m5.xx;
    pare_bench_close(bench);
}

/* One number of what is kept in place of measuring it again. */
static void put_fact(const store_fixture *f, size_t at, double value)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *read = NULL, *put = NULL;
    unsigned char bytes[512];
    assert_int_equal(sqlite3_open(f->path, &db), SQLITE_OK);
    sqlite3_prepare_v2(db, "SELECT rowid, facts FROM mesh", -1, &read, NULL);
    assert_int_equal(sqlite3_step(read), SQLITE_ROW);
    const int length = sqlite3_column_bytes(read, 1);
    assert_true((size_t)length <= sizeof bytes && at + sizeof value <= (size_t)length);
    memcpy(bytes, sqlite3_column_blob(read, 1), (size_t)length);
    memcpy(bytes + at, &value, sizeof value);
    sqlite3_prepare_v2(db, "UPDATE mesh SET facts = ?1 WHERE rowid = ?2", -1, &put, NULL);
    sqlite3_bind_blob(put, 1, bytes, length, SQLITE_STATIC);
    sqlite3_bind_int64(put, 2, sqlite3_column_int64(read, 0));
    sqlite3_finalize(read);
    assert_int_equal(sqlite3_step(put), SQLITE_DONE);
    sqlite3_finalize(put);
    sqlite3_close(db);
}

/* The truth is the file itself, which is still there: what cannot be is measured again. */
static void a_kept_shape_that_cannot_be_is_measured_again(void **state)
{
    const store_fixture *f = *state;
    ONLY_FILE();
    static const struct {
        const char *id, *file;
        size_t from, numbers; /* that have to be finite, from a place of the facts on */
    } KEPT[] = {{"cube", PARE_SOURCE_DIR "/tests/data/every-key-cube.stl", 0, 11},
                {"plate", "/tmp/pare-damaged-plate.svg", 0, 11}};
    FILE *file = fopen("/tmp/pare-damaged-plate.svg", "w");
    assert_non_null(file);
    fputs(PLATE, file);
    fclose(file);
    for (size_t i = 0; i < 2; i++) {
        const pare_drawing_import import = {.path = KEPT[i].file,
                                            .id = KEPT[i].id,
                                            .outline = i == 1,
                                            .thick = i ? "2 mm" : NULL,
                                            .density = "1.5 g/cm3"};
        static const double wrong[] = {(double)NAN, (double)INFINITY};
        pare_arena *arena = pare_arena_open();
        pare_drawing_taken taken;
        pare_error err = {0};
        double before[3], after[3];
        if (pare_store_import_drawing(f->store, &import, arena, &taken, &err) != PARE_OK)
            fail_msg("%s", err.text);
        pare_arena_close(arena);
        store_meddle(f, "CREATE TABLE kept AS SELECT facts FROM mesh");
        shape_of(f, KEPT[i].id, before);
        for (size_t k = 0; k < KEPT[i].numbers; k++)
            for (size_t w = 0; w < 3; w++) {
                /* A sign that is wrong where only one is right: volume, area, moments, edges. */
                if (w == 2 && !(k == 0 || (i == 1 && (k == 1 || k == 4 || k == 5))))
                    continue;
                put_fact(f, KEPT[i].from + k * sizeof(double), w == 2 ? -1 : wrong[w]);
                shape_of(f, KEPT[i].id, after);
                if (memcmp(before, after, sizeof before) != 0)
                    fail_msg("%s, number %zu: another shape", KEPT[i].id, k);
                store_meddle(f, "UPDATE mesh SET facts = (SELECT facts FROM kept)");
            }
        store_meddle(f, "DROP TABLE kept; DELETE FROM mesh");
        pare_change_row row;
        arena = pare_arena_open();
        assert_int_equal(pare_store_undo(f->store, arena, &row, &err), PARE_OK);
        pare_arena_close(arena);
    }
    unlink("/tmp/pare-damaged-plate.svg");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_document_that_is_damaged_is_refused_or_passed_over,
                                        store_setup, store_teardown),
        cmocka_unit_test_setup_teardown(a_kept_shape_that_cannot_be_is_measured_again, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(a_column_that_is_empty_is_refused_or_passed_over,
                                        store_setup, store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
