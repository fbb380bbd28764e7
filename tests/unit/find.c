/* rooms: store craft physics base */
/* find.c: parts found by packed numbers are those that their texts, read in full, give: the demo's
 * bench under random conditions, with facts, without, and with damaged ones. */
#include <math.h>

#include "near.h"
#include "store_bench.h"

#define DEMO_TEXT PARE_SOURCE_DIR "/demo/bench.yaml"

static int demo_setup(void **state)
{
    if (store_setup(state) != 0)
        return -1;
    store_fixture *f = *state;
    pare_error err = {0};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    const pare_import import = {.path = DEMO_TEXT};
    if (pare_store_import_yaml(f->store, &import, arena, &summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_arena_close(arena);
    return 0;
}

static pare_bench *read_all(pare_store *store)
{
    pare_bench *bench = NULL;
    pare_error err = {0};
    if (pare_store_read(store, &bench, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_true(bench->parts > 100);
    return bench;
}

/* ---- a condition, judged without the code that is tested ---- */

enum { SIGNS = 6 };
static const char *const signs[SIGNS] = {"=", "!=", "<", "<=", ">", ">="};

typedef struct asked {
    const pare_spec_row *row; /* NULL: mass, price or owned by `common` */
    int common;
    int sign;
    double value;
} asked;

static bool compares(int sign, double low, double high, double value)
{
    switch (sign) {
    case 0:
        return low <= value && value <= high;
    case 1:
        return !(low <= value && value <= high);
    case 2:
        return low < value;
    case 3:
        return low <= value;
    case 4:
        return high > value;
    default:
        return high >= value;
    }
}

static bool should_be_found(const asked *a, const pare_part *part)
{
    if (!a->row) {
        const double own[] = {part->mass_kg.value, part->price.each, part->owned};
        return (a->common != 1 || part->price.given) &&
               compares(a->sign, own[a->common], own[a->common], a->value);
    }
    const pare_value *spec = part->spec;
    bool has = false;
    for (size_t i = 0; i < pare_spec_rows; i++)
        has = has || (pare_spec_table[i].kind == part->kind &&
                      strcmp(pare_spec_table[i].name, a->row->name) == 0);
    if (!has)
        return false;
    if (strcmp(a->row->name, "volts") == 0)
        return spec[PARE_SPEC_VOLTS_HIGH].given &&
               compares(a->sign,
                        spec[PARE_SPEC_VOLTS_LOW].given ? spec[PARE_SPEC_VOLTS_LOW].value : 0,
                        spec[PARE_SPEC_VOLTS_HIGH].value, a->value);
    const pare_spec which =
        strcmp(a->row->name, "stator") == 0 ? PARE_SPEC_STATOR_DIAMETER : a->row->spec;
    return spec[which].given && compares(a->sign, spec[which].value, spec[which].value, a->value);
}

/* The unit of SI in which the number is written. */
static const char *unit_of(const asked *a)
{
    static const char *const units[PARE_DIMENSIONS] = {
        [PARE_DIM_MASS] = "kg",  [PARE_DIM_LENGTH] = "m",       [PARE_DIM_AREA] = "m2",
        [PARE_DIM_TIME] = "s",   [PARE_DIM_VOLTAGE] = "V",      [PARE_DIM_CURRENT] = "A",
        [PARE_DIM_POWER] = "W",  [PARE_DIM_RESISTANCE] = "ohm", [PARE_DIM_CAPACITANCE] = "F",
        [PARE_DIM_HEAT] = "J/K", [PARE_DIM_FREQUENCY] = "Hz",   [PARE_DIM_GAIN] = "dB",
    };
    if (!a->row)
        return a->common == 0 ? "kg" : "";
    return units[a->row->dimension] ? units[a->row->dimension] : "";
}

static unsigned next(unsigned *seed)
{
    *seed = *seed * 1664525u + 1013904223u;
    return *seed >> 8;
}

/* About a part that is there, so that something is near: its own number, or one beside it
 * that no other part has to within rounding. */
static asked random_question(const pare_bench *bench, unsigned *seed)
{
    static const double beside[] = {1, 1, 0.50013, 0.90017, 1.10019, 2.00023};
    for (;;) {
        const pare_part *part = bench->part[next(seed) % bench->parts];
        asked a = {.sign = (int)(next(seed) % SIGNS)};
        const double times = beside[next(seed) % (sizeof beside / sizeof beside[0])];
        if (next(seed) % 4 == 0) {
            a.common = (int)(next(seed) % 3);
            const double own[] = {part->mass_kg.value, part->price.each, part->owned};
            a.value = own[a.common] * (a.common == 2 ? 1 : times);
            return a;
        }
        a.row = &pare_spec_table[next(seed) % pare_spec_rows];
        const pare_value *value = &part->spec[a.row->spec];
        if (a.row->kind != part->kind || !value->given || a.row->spec == PARE_SPEC_STATOR_LENGTH ||
            a.row->dimension == PARE_DIM_CHARGE)
            continue;
        a.value = value->value * (a.row->dimension == PARE_DIM_COUNT ? 1 : times);
        return a;
    }
}

/* ---- finding ---- */

static size_t find(pare_store *store, const pare_find *what, pare_arena *arena, pare_listed **list)
{
    size_t count = 0;
    pare_error err = {0};
    if (pare_store_find(store, what, arena, &count, list, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return count;
}

static void read_filter(const char *text, pare_filter *filter)
{
    pare_units *units = pare_units_open();
    pare_error err = {0};
    if (pare_filter_read(units, text, -1, filter, &err) != PARE_OK)
        fail_msg("%s: %s", text, err.text);
    pare_units_close(units);
}

static void check_random_questions(pare_store *store, const pare_bench *bench, unsigned rounds)
{
    unsigned seed = 20260301;
    size_t found_any = 0;
    for (unsigned round = 0; round < rounds; round++) {
        const asked a[2] = {random_question(bench, &seed), random_question(bench, &seed)};
        const size_t conditions = 1 + next(&seed) % 2;
        char text[256] = "";
        for (size_t i = 0; i < conditions; i++) {
            static const char *const common[] = {"mass", "price", "owned"};
            snprintf(text + strlen(text), sizeof text - strlen(text), "%s%s%s%.17g %s",
                     i ? " " : "", a[i].row ? a[i].row->name : common[a[i].common],
                     signs[a[i].sign], a[i].value, unit_of(&a[i]));
        }
        pare_filter filter = {0};
        read_filter(text, &filter);
        pare_arena *arena = pare_arena_open();
        pare_listed *list;
        const pare_find what = {.kind = -1, .filter = &filter, .sort = PARE_KEY_NONE};
        const size_t count = find(store, &what, arena, &list);
        size_t at = 0;
        for (size_t p = 0; p < bench->parts; p++) {
            const pare_part *part = bench->part[p];
            bool should = true;
            for (size_t i = 0; i < conditions; i++)
                should = should && should_be_found(&a[i], part);
            const bool is = at < count && strcmp(list[at].id, part->id) == 0;
            if (is != should)
                fail_msg("'%s': %s %s", text, part->id, should ? "is missing" : "was found");
            if (!is)
                continue;
            const pare_listed whole = pare_listed_of(part);
            assert_true(list[at].kind == whole.kind && list[at].owned == whole.owned &&
                        list[at].sought == whole.sought);
            assert_near(list[at].mass_kg.value, whole.mass_kg.value, 0);
            assert_near(list[at].mass_kg.u, whole.mass_kg.u, 0);
            assert_int_equal(list[at].mass_kg.known, whole.mass_kg.known);
            assert_true(isnan(list[at].price)
                            ? isnan(whole.price)
                            : !(list[at].price < whole.price || list[at].price > whole.price));
            assert_true(!list[at].maker == !whole.maker);
            at++;
        }
        assert_int_equal(at, count);
        found_any += count > 0;
        pare_arena_close(arena);
    }
    assert_true(found_any > rounds / 4 || rounds < 8);
}

static void facts_find_what_the_texts_say(void **state)
{
    pare_bench *bench = read_all(store_of(state));
    check_random_questions(store_of(state), bench, 200);
    pare_bench_close(bench);
}

static void a_bench_without_facts_is_answered_from_its_texts(void **state)
{
    store_fixture *f = *state;
    pare_bench *bench = read_all(f->store);
    store_meddle(f, "UPDATE part SET facts = NULL, maker = NULL");
    check_random_questions(f->store, bench, 4);
    pare_bench_close(bench);
}

static void damaged_facts_are_answered_from_the_text(void **state)
{
    store_fixture *f = *state;
    pare_bench *bench = read_all(f->store);
    static const char *const damage[] = {
        "UPDATE part SET facts = x''",
        "UPDATE part SET facts = x'01'",
        "UPDATE part SET facts = CAST(x'ff' || substr(facts, 2) AS BLOB)",
        "UPDATE part SET facts = substr(facts, 1, length(facts) - 1)",
        "UPDATE part SET facts = x'0100ff'",                   /* no such way of knowing */
        "UPDATE part SET facts = x'010003'",                   /* no uncertainty */
        "UPDATE part SET facts = x'010003ff0000000000000000'", /* no such place */
        "UPDATE part SET facts = zeroblob(1000000)",
    };
    for (size_t i = 0; i < sizeof damage / sizeof damage[0]; i++) {
        store_meddle(f, damage[i]);
        check_random_questions(f->store, bench, 1);
    }
    pare_bench_close(bench);
}

static void a_damaged_part_is_named(void **state)
{
    store_fixture *f = *state;
    pare_arena *arena = pare_arena_open();
    pare_listed *list;
    size_t count;
    pare_error err = {0};
    store_meddle(f, "UPDATE part SET facts = NULL, doc = 'nonsense: [' WHERE id = 'mo-2207-1950'");
    const pare_find what = {.kind = -1, .sort = PARE_KEY_NONE};
    assert_int_equal(pare_store_find(f->store, &what, arena, &count, &list, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "part 'mo-2207-1950'"));
    pare_arena_close(arena);
}

static void words_are_looked_for_in_id_maker_and_kind(void **state)
{
    static const struct {
        const char *word;
        size_t least;
        const char *has; /* one that must be there */
    } cases[] = {{"TEASEL", 2, "mo-2207-2750"}, {"four-in-one", 2, NULL}, {"esc_four", 2, NULL},
                 {"2207", 4, "mo-2207-1950"},   {"%", 0, NULL},           {"' OR 1=1 --", 0, NULL}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        pare_arena *arena = pare_arena_open();
        pare_listed *list;
        const pare_find what = {
            .words = 1, .word = &cases[i].word, .kind = -1, .sort = PARE_KEY_NONE};
        const size_t count = find(store_of(state), &what, arena, &list);
        assert_true(cases[i].least ? count >= cases[i].least : count == 0);
        bool has = !cases[i].has;
        for (size_t k = 0; k < count; k++)
            has = has || strcmp(list[k].id, cases[i].has) == 0;
        assert_true(has);
        pare_arena_close(arena);
    }
}

static void a_sort_puts_what_nobody_said_last(void **state)
{
    for (int down = 0; down < 2; down++) {
        pare_arena *arena = pare_arena_open();
        pare_listed *list;
        const pare_find what = {.kind = -1, .sort = PARE_KEY_PRICE, .down = down};
        const size_t count = find(store_of(state), &what, arena, &list);
        size_t priced = 0;
        while (priced < count && !isnan(list[priced].price))
            priced++;
        assert_true(priced > 100 && priced < count);
        for (size_t i = 1; i < priced; i++)
            assert_true(down ? list[i - 1].price >= list[i].price
                             : list[i - 1].price <= list[i].price);
        for (size_t i = priced; i < count; i++)
            assert_true(isnan(list[i].price) &&
                        (i == priced || strcmp(list[i - 1].id, list[i].id) < 0));
        pare_arena_close(arena);
    }
}

static void surprises_are_those_of_the_parts_in_full(void **state)
{
    store_fixture *f = *state;
    /* Heavier ones of each sort: a pack, a frame, a board, an antenna, a standoff. */
    static const char text[] =
        "pare: 1\nparts:\n"
        "- {id: zz-pack, kind: pack, mass: 260 g, spec: {cells: 4, capacity: 1300 mAh}}\n"
        "- {id: zz-cells, kind: pack, mass: 260 g, spec: {cells: 4, capacity: 3000 mAh, chemistry: "
        "liion}}\n"
        "- {id: zz-frame, kind: frame, mass: 250 g, spec: {wheelbase: 220 mm}}\n"
        "- {id: zz-esc, kind: esc_four, mass: 25 g, spec: {continuous: 30 A}, fits: {stack: 20 "
        "mm}}\n"
        "- {id: zz-snap, kind: antenna, mass: 8 g, fits: {antenna: snap}}\n"
        "- {id: zz-screw, kind: antenna, mass: 8 g, fits: {antenna: screw}}\n"
        "- {id: zz-post, kind: standoff, mass: 3.6 g, spec: {length: 30 mm, material: steel}}\n"
        "- {id: zz-tube, kind: standoff, mass: 3.6 g, spec: {length: 30 mm}}\n";
    pare_error err = {0};
    if (store_take(f->store, text, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_bench *bench = read_all(f->store);
    pare_arena *arena = pare_arena_open();
    pare_listed *list;
    const pare_find what = {.kind = -1, .sort = PARE_KEY_NONE, .surprise = true};
    const size_t count = find(f->store, &what, arena, &list);
    size_t should = 0;
    for (size_t p = 0; p < bench->parts; p++) {
        pare_surprise s;
        if (!pare_surprise_of(bench->part[p], &s) || s.sigmas <= PARE_SURPRISING_SIGMAS)
            continue;
        should++;
        size_t at = 0;
        while (at < count && strcmp(list[at].id, bench->part[p]->id) != 0)
            at++;
        if (at == count)
            fail_msg("%s is missing", bench->part[p]->id);
        assert_near(list[at].surprise.sigmas, s.sigmas, 1e-12);
    }
    assert_int_equal(count, should);
    assert_true(count >= 6);
    for (size_t i = 1; i < count; i++)
        assert_true(list[i - 1].surprise.sigmas >= list[i].surprise.sigmas);
    pare_arena_close(arena);
    pare_bench_close(bench);
}

static pare_status count_part(void *context, const pare_part *part, pare_error *err)
{
    (void)err;
    assert_string_equal(part->id, "mo-2207-1950");
    ++*(size_t *)context;
    return PARE_OK;
}

static pare_status stop(void *context, const pare_part *part, pare_error *err)
{
    (void)context;
    return pare_fail(err, PARE_NO, "enough of %s", part->id);
}

static void parts_are_given_in_full_one_by_one(void **state)
{
    const char *const ids[] = {"mo-2207-1950", "mo-2207-1950"};
    const char *const wrong[] = {"mo-2207-195"};
    size_t count = 0;
    pare_error err = {0};
    pare_store *store = store_of(state);
    assert_int_equal(pare_store_each_part(store, 2, ids, count_part, &count, &err), PARE_OK);
    assert_int_equal(count, 2);
    assert_int_equal(pare_store_each_part(store, 2, ids, stop, NULL, &err), PARE_NO);
    assert_int_equal(pare_store_each_part(store, 1, wrong, stop, NULL, &err), PARE_UNKNOWN);
    assert_non_null(strstr(err.text, "did you mean mo-2207-195"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(facts_find_what_the_texts_say, demo_setup, store_teardown),
        cmocka_unit_test_setup_teardown(a_bench_without_facts_is_answered_from_its_texts,
                                        demo_setup, store_teardown),
        cmocka_unit_test_setup_teardown(damaged_facts_are_answered_from_the_text, demo_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(a_damaged_part_is_named, demo_setup, store_teardown),
        cmocka_unit_test_setup_teardown(words_are_looked_for_in_id_maker_and_kind, demo_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(a_sort_puts_what_nobody_said_last, demo_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(surprises_are_those_of_the_parts_in_full, demo_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(parts_are_given_in_full_one_by_one, demo_setup,
                                        store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
