/* rooms: store craft physics base */
/* together.c: many processes change one bench at once, on a file and on a server: nothing that was confirmed
 * is lost, and what rests on something that has changed meanwhile is refused. */
#include "near.h"
#include "store_bench.h"

#include <sys/wait.h>

#include "store/by_key.h"

enum { CLIENTS = 8, ROUNDS = 4, TRIES = 1000, CHANGES = 3 };

/* Each client's own entry of one part, by its round. */
static const char *const ENTRY[CLIENTS] = {"maker=Maker-%d",           "price.each=1%d.00",
                                           "price.sold_in=1%d",        "spec.no_load=1.%d A",
                                           "spec.no_load_at=1%d V",    "spec.kv=195%d",
                                           "spec.resistance=6%d mohm", "spec.stator=2%d mm x 7 mm"};
/* The same as the text has it afterwards. */
static const char *const WRITTEN[CLIENTS] = {
    "maker: Maker-%d",   "each: 1%d.00", "sold_in: 1%d",         "no_load: 1.%d A",
    "no_load_at: 1%d V", "kv: 195%d",    "resistance: 6%d mohm", "stator: 2%d mm x 7 mm"};

static void must(pare_status status, const pare_error *err)
{
    if (status == PARE_OK)
        return;
    fprintf(stderr, "client: %s\n", err->text);
    _exit(1);
}

/* Where much else runs, a client may be told that the bench is locked, for its turn does not come: it tries again, as
 * it is told to. */
static bool has_to_wait(pare_status status, const pare_error *err)
{
    return status == PARE_UNAVAILABLE && strstr(err->text, "locked by another program");
}

static void alter(pare_store *store, const pare_change *change, const char *format, int value,
                  pare_status *status, pare_error *err)
{
    char word[64];
    const char *const words[] = {word};
    pare_text text = {0};
    pare_text_printf(&text, "%.*s%d%s", (int)strcspn(format, "%"), format, value,
                     strchr(format, '%') + 2);
    snprintf(word, sizeof word, "%s", text.bytes);
    pare_text_free(&text);
    for (int i = 0; i == 0 || (i < TRIES && has_to_wait(*status, err)); i++)
        *status = pare_store_alter(store, PARE_A_PART, "mo-1", 1, words, change, NULL, NULL, err);
}

/* "owned: N" in the part's text. */
static int owned_of(pare_store *store, pare_error *err)
{
    pare_text text = {0};
    must(pare_store_part_text(store, "mo-1", &text, err), err);
    const char *at = strstr(text.bytes, "owned: ");
    const int owned = at ? (int)strtol(at + strlen("owned: "), NULL, 10) : 0;
    pare_text_free(&text);
    return owned;
}

/* One more is owned than was read; where somebody came in between, all anew. */
static void own_one_more(pare_store *store)
{
    bool late = true;
    for (int i = 0; late; i++) {
        pare_error err = {0};
        pare_status status = PARE_OK;
        pare_change change = {.what = "one more", .craft = "field-5", .late = &late};
        must(pare_store_read_since(store, &change.since, &err), &err);
        late = false;
        alter(store, &change, "owned=%d", owned_of(store, &err) + 1, &status, &err);
        if (!late || i > TRIES)
            must(status, &err);
    }
}

static void work(const char *path, int client)
{
    pare_store *store = NULL;
    pare_error err = {0};
    const pare_change change = {.what = "an entry of its own"};
    must(pare_store_open(path, PARE_STORE_WRITE, &store, &err), &err);
    for (int round = 1; round <= ROUNDS; round++) {
        char text[160];
        pare_status status = PARE_OK;
        own_one_more(store);
        alter(store, &change, ENTRY[client], round, &status, &err);
        must(status, &err);
        snprintf(
            text, sizeof text,
            "pare: 1\nweigh_ins: [{craft: field-5, date: 2026-04-12, of: all, reads: 6%d%d g}]\n",
            client, round);
        for (int i = 0; i == 0 || (i < TRIES && has_to_wait(status, &err)); i++)
            status = store_take(store, text, &err);
        must(status, &err);
    }
    pare_store_close(store);
    _exit(0);
}

static void what_many_change_at_once_is_all_there(void **state)
{
    store_fixture *f = *state;
    pid_t child[CLIENTS];
    pare_error err = {0};
    pare_import_summary summary;
    const pare_import field = {.path = PARE_SOURCE_DIR "/tests/data/field-5.yaml"};
    pare_arena *arena = pare_arena_open();
    assert_int_equal(pare_store_import_yaml(f->store, &field, arena, &summary, &err), PARE_OK);
    pare_store_close(f->store);
    f->store = NULL;
    for (int i = 0; i < CLIENTS; i++) {
        child[i] = fork();
        if (child[i] == 0)
            work(f->path, i);
    }
    for (int i = 0; i < CLIENTS; i++) {
        int status = -1;
        assert_int_equal(waitpid(child[i], &status, 0), child[i]);
        assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    }
    assert_int_equal(pare_store_open(f->path, PARE_STORE_WRITE, &f->store, &err), PARE_OK);
    assert_int_equal(owned_of(f->store, &err), CLIENTS * ROUNDS);
    assert_int_equal(store_ask(f, "SELECT count(*) FROM weigh_in WHERE doc LIKE '%reads: 6__ g%'"),
                     CLIENTS * ROUNDS);
    assert_int_equal(store_ask(f, "SELECT count(*) FROM change"), 1 + CHANGES * CLIENTS * ROUNDS);
    pare_text part = {0};
    assert_int_equal(pare_store_part_text(f->store, "mo-1", &part, &err), PARE_OK);
    for (int i = 0; i < CLIENTS; i++) {
        pare_text entry = {0};
        pare_text_printf(&entry, "%.*s%d%s", (int)strcspn(WRITTEN[i], "%"), WRITTEN[i], ROUNDS,
                         strchr(WRITTEN[i], '%') + 2);
        if (!strstr(part.bytes, entry.bytes))
            fail_msg("'%s' is lost:\n%s", entry.bytes, part.bytes);
        pare_text_free(&entry);
    }
    pare_text_free(&part);
    /* And each of them can be taken back. */
    for (int i = 0; i < CHANGES * CLIENTS * ROUNDS; i++)
        if (store_turn(f->store, true, &err) != PARE_OK)
            fail_msg("%s", err.text);
    assert_int_equal(owned_of(f->store, &err), 0);
    pare_arena_close(arena);
}

static void what_rests_on_an_older_craft_is_refused(void **state)
{
    store_fixture *f = *state;
    pare_error err = {0};
    pare_import_summary summary;
    pare_status status = PARE_OK;
    bool late = false;
    const pare_import field = {.path = PARE_SOURCE_DIR "/tests/data/field-5.yaml"};
    pare_arena *arena = pare_arena_open();
    assert_int_equal(pare_store_import_yaml(f->store, &field, arena, &summary, &err), PARE_OK);
    pare_change mine = {.what = "mine", .craft = "field-5", .late = &late};
    const pare_change other = {.what = "parts change mo-1 kv=1951"};
    assert_int_equal(pare_store_read_since(f->store, &mine.since, &err), PARE_OK);
    /* What is not of the craft is nobody's business. */
    assert_int_equal(
        store_take(f->store, "pare: 1\nparts: [{id: new, kind: pad, mass: 1 g}]\n", &err), PARE_OK);
    alter(f->store, &mine, "owned=%d", 1, &status, &err);
    assert_int_equal(status, PARE_OK);
    assert_false(late);
    alter(f->store, &other, "spec.kv=%d", 1951, &status, &err);
    assert_int_equal(status, PARE_OK);
    alter(f->store, &mine, "owned=%d", 2, &status, &err);
    assert_int_equal(status, PARE_UNAVAILABLE);
    assert_true(late);
    assert_string_equal(err.text,
                        "craft 'field-5' was changed meanwhile (parts change mo-1 kv=1951), "
                        "and nothing was done; look at it as it is now, then try again");
    assert_int_equal(owned_of(f->store, &err), 1);
    /* What was taken back since counts, too. */
    assert_int_equal(pare_store_read_since(f->store, &mine.since, &err), PARE_OK);
    assert_int_equal(store_turn(f->store, true, &err), PARE_OK);
    alter(f->store, &mine, "owned=%d", 3, &status, &err);
    assert_int_equal(status, PARE_UNAVAILABLE);
    pare_arena_close(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_many_change_at_once_is_all_there, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(what_rests_on_an_older_craft_is_refused, store_setup,
                                        store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
