/* rooms: store craft physics base */
/* One node of a text that is right becomes something else, each node in turn: a list, a map, nothing, a word,
 * numbers that cannot be, ten times or many times itself, a key that nobody knows, or it goes. Whatever
 * reads it either takes that or refuses it in one line that begins with a place: of the node, or of what it
 * stands in, or of what names it. The truth is where the node stands in the text.
 *
 * The texts are the bench with every key (tests/data) and a study with every key, below. */
#include "misfits.h"
#include "store_bench.h"

#include "store/read_study.h"

enum { DEEP = 16 };

/* The path to the node of a number in preorder. @return how deep it stands */
static size_t path_to(const pare_node *node, size_t *left, const pare_node *path[DEEP],
                      size_t depth)
{
    assert_true(depth < DEEP);
    path[depth] = node;
    if ((*left)-- == 0)
        return depth + 1;
    for (const pare_node *one = node->first; one; one = one->next) {
        const size_t found = path_to(one, left, path, depth + 1);
        if (found)
            return found;
    }
    return 0;
}

static size_t depth_of(const pare_node *root, size_t number, const pare_node *path[DEEP])
{
    const size_t depth = path_to(root, &number, path, 0);
    assert_true(depth > 0);
    return depth;
}

static bool count_to(const pare_node *node, const pare_node *wanted, size_t *number)
{
    if (node == wanted)
        return true;
    ++*number;
    for (const pare_node *one = node->first; one; one = one->next)
        if (count_to(one, wanted, number))
            return true;
    return false;
}

static size_t number_of(const pare_node *root, const pare_node *node)
{
    size_t number = 0;
    assert_true(count_to(root, node, &number));
    return number;
}

typedef struct place {
    int line, column;
} place;

static bool read_place(const char *said, const char *name, place *at)
{
    int used = 0;
    if (strncmp(said, name, strlen(name)) != 0)
        return false;
    return sscanf(said + strlen(name), ":%d:%d: %n", &at->line, &at->column, &used) == 2 && used &&
           said[strlen(name) + (size_t)used];
}

static bool is_at(const pare_node *node, place at)
{
    return (node->line == at.line && node->column == at.column) ||
           (node->key && node->key_line == at.line && node->key_column == at.column);
}

static bool is_within(const pare_node *node, place at)
{
    if (is_at(node, at))
        return true;
    for (const pare_node *one = node->first; one; one = one->next)
        if (is_within(one, at))
            return true;
    return false;
}

/* Whether a place is one of the path to a node, or in the entry of the text's lists that it stands in: what is
 * missing is said of what it is missing from, and rows that do not fit their columns are told at the rows. Of a study
 * any node of it will do: a value that varies and the brief that it is put into stand apart. */
static bool is_near(const pare_node *const path[DEEP], size_t depth, size_t entry, place at)
{
    for (size_t i = 0; i < depth; i++)
        if (is_at(path[i], at))
            return true;
    return is_within(path[depth > entry ? entry : depth - 1], at);
}

/* Whether a message quotes a word that stands in a node, or its key: then the place may be of what names it. */
static bool quotes(const char *said, const pare_node *node)
{
    char quoted[200];
    const char *const word[] = {node->key, node->text};
    for (size_t i = 0; i < 2; i++) {
        snprintf(quoted, sizeof quoted, "'%.150s'", word[i] ? word[i] : "");
        if (word[i] && strstr(said, quoted))
            return true;
    }
    for (const pare_node *one = node->first; one; one = one->next)
        if (quotes(said, one))
            return true;
    return false;
}

/* What a craft needs of its parts is said of the craft. */
static bool is_of_the_whole(const char *said)
{
    static const char *const known[] = {"has no ESC: it needs one",
                                        "motors in 'motor' at the arms of"};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        if (strstr(said, known[i]))
            return true;
    return false;
}

typedef struct text_under_test {
    const char *name; /* as messages say it */
    pare_status (*take)(void **state, const pare_text *text, pare_error *err);
    size_t entry; /* how deep the entries stand that are told of by themselves */
    size_t refused;
} text_under_test;

static void try_one(void **state, text_under_test *t, const pare_node *root, size_t number,
                    misfit how)
{
    walk w = {.arena = pare_arena_open(), .how = how, .left = number};
    assert_non_null(w.arena);
    pare_node *other = copy_but(&w, root);
    pare_text text = {0};
    pare_error err = {0};
    const pare_node *again = NULL;
    place at;
    if (other && w.applied) {
        pare_tree_write(other, 2, &text);
        if (t->take(state, &text, &err) != PARE_OK) {
            t->refused++;
            if (err.status != PARE_BAD_DATA && err.status != PARE_UNKNOWN)
                fail_msg("node %zu, misfit %d: status %d: %s", number, (int)how, (int)err.status,
                         err.text);
            if (!read_place(err.text, t->name, &at))
                fail_msg("node %zu, misfit %d: no place: %s", number, (int)how, err.text);
            assert_int_equal(
                pare_tree_parse(text.bytes, text.length, "again", w.arena, &again, NULL), PARE_OK);
            const pare_node *was[DEEP], *is[DEEP];
            /* What is gone was the last of its path. */
            const size_t deep = depth_of(root, number, was), there = deep - (how == GONE);
            const size_t parent = number_of(root, was[there - 1]);
            assert_int_equal(depth_of(again, parent, is), there);
            if (!is_near(is, there, t->entry, at) && !quotes(err.text, was[deep - 1]) &&
                !is_of_the_whole(err.text))
                fail_msg("node %zu, misfit %d: said elsewhere: %s", number, (int)how, err.text);
        }
    }
    pare_text_free(&text);
    pare_arena_close(w.arena);
}

static void try_all(void **state, text_under_test *t, const pare_node *root)
{
    const size_t nodes = nodes_of(root);
    for (size_t n = 1; n < nodes; n++)
        for (int how = 0; how < MISFITS; how++)
            try_one(state, t, root, n, (misfit)how);
}

static const pare_node *parsed(const char *bytes, size_t length, pare_arena *arena)
{
    const pare_node *root = NULL;
    pare_error err = {0};
    if (pare_tree_parse(bytes, length, "right", arena, &root, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return root;
}

static pare_status take_bench(void **state, const pare_text *text, pare_error *err)
{
    const pare_import import = {.bytes = text->bytes,
                                .length = text->length,
                                .name = "b.yaml",
                                .folder = PARE_SOURCE_DIR "/tests/data",
                                .dry_run = true};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    const pare_status status =
        pare_store_import_yaml(store_of(state), &import, arena, &summary, err);
    pare_arena_close(arena);
    return status;
}

static void a_bench_with_one_wrong_node_is_refused_where_it_stands(void **state)
{
    static char bytes[1 << 16];
    FILE *file = fopen(PARE_SOURCE_DIR "/tests/data/every-key.yaml", "rb");
    assert_non_null(file);
    const size_t length = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    pare_arena *arena = pare_arena_open();
    text_under_test t = {.name = "b.yaml", .take = take_bench, .entry = 2};
    try_all(state, &t, parsed(bytes, length, arena));
    pare_arena_close(arena);
    assert_true(t.refused > 5000); /* of a good 9000 */
}

/* Both ways to say whose craft; every key is in one of the two. */
static const char *const STUDIES[] = {
    "study: s\nabout: none in particular\nask: best\neffort: 100\nresults: kept\n"
    "craft: [weir-5, weir-5/race]\n"
    "brief: {land: {cell: 3.5 V, left: 25 %}, air: {altitude: 120 m}}\n"
    "vary:\n"
    "  air.temperature: {from: 0 degC, to: 30 degC, steps: 4}\n"
    "  limits: [{all_up: \"<= 600 g\"}, {}]\n"
    "  limits.flown: [\">= 3 min\", \">= 4 min\"]\n"
    "  try: [none, cube=off]\n  hold: [none, frame]\n  never: [none, pa-w2]\n  must: [none, pa-w]\n"
    "  wish: [grams, minutes]\n  budget: [any, 60]\n  hours: [any, 2]\n"
    "figures: [all_up_g, flown_min]\n",
    "study: s\nask: sheet\n"
    "benches: {a: {file: a.sqlite, craft: [weir-5]}, b: {file: b.sqlite, craft: all}, c: {file: "
    "c.sqlite, "
    "craft: weir-5}}\n"
    "brief: {air: {altitude: 120 m, temperature: 10 degC}, crash_speed: 9 m/s}\n"
    "briefs: {one: {customers: 12, limits: {all_up: \"<= 600 g\"}, keep: [sees], air: {altitude: 9 "
    "m}},\n"
    "  two: {limits: {flown: \">= 4 min\"}}}\n"
    "vary: {crash_speed: [8 m/s, 9 m/s], land.left: 20 %, keep: [[sees], [finds]]}\n"
    "cover: {most: 2}\n",
    "study: s\nask: sheet\ncraft: all\nbriefs: {one: {}}\ncover: {wish: craft}\n",
};

static pare_status take_study(void **state, const pare_text *text, pare_error *err)
{
    pare_store *const store[] = {store_of(state), store_of(state), store_of(state),
                                 store_of(state)};
    char path[200];
    snprintf(path, sizeof path, "%s/study", ((store_fixture *)*state)->folder);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text->bytes, 1, text->length, file), text->length);
    assert_int_equal(fclose(file), 0);
    pare_study_file *study = NULL;
    pare_status status = pare_study_file_open(path, &study, err);
    if (status == PARE_OK && pare_study_of(study)->benches <= 4)
        status = pare_study_settle(study, store, err);
    pare_study_file_close(study);
    return status;
}

static void a_study_with_one_wrong_node_is_refused_where_it_stands(void **state)
{
    char name[200];
    const store_fixture *f = *state;
    pare_import_summary summary;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    const pare_import import = {.path = PARE_SOURCE_DIR "/tests/data/every-key.yaml"};
    assert_int_equal(pare_store_import_yaml(f->store, &import, arena, &summary, &err), PARE_OK);
    snprintf(name, sizeof name, "%s/study", f->folder);
    text_under_test t = {.name = name, .take = take_study, .entry = 0};
    for (size_t i = 0; i < sizeof STUDIES / sizeof STUDIES[0]; i++) {
        const pare_text right = {.bytes = (char *)(uintptr_t)STUDIES[i],
                                 .length = strlen(STUDIES[i])};
        if (take_study(state, &right, &err) != PARE_OK)
            fail_msg("%s", err.text);
        try_all(state, &t, parsed(STUDIES[i], strlen(STUDIES[i]), arena));
    }
    pare_arena_close(arena);
    assert_true(t.refused > 500); /* of a good 1800 */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_bench_with_one_wrong_node_is_refused_where_it_stands,
                                        store_setup, store_teardown),
        cmocka_unit_test_setup_teardown(a_study_with_one_wrong_node_is_refused_where_it_stands,
                                        store_setup, store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
