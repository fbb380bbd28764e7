/* rooms: store advise craft physics base */
/* The best few sets that differ in a part against brute force (best_force.h): the lightest set of each choice
 * of parts, in order; and how far the first one stands, which follows from all of them. */
#include "best_force.h"

#include "advise/best_ways.h"
#include "base/text.h"

enum { BENCHES = 120, WAYS = 4, KEY = 1024 };

/* The lightest set of one choice of parts. */
typedef struct of_parts {
    int64_t units;
    char key[KEY]; /* "bumper=off,camera=ca-14", by name */
} of_parts;

typedef struct classes {
    size_t count;
    of_parts one[MOST_SETS];
} classes;

static int by_name(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

static void key_of(const char *list, char key[KEY])
{
    char copy[2048], *id[64];
    size_t count = 0;
    snprintf(copy, sizeof copy, "%s", list);
    for (char *at = strtok(copy, ","); at; at = strtok(NULL, ","))
        if (!memchr(at, '.', strcspn(at, "=")))
            id[count++] = at;
    qsort(id, count, sizeof id[0], by_name);
    key[0] = '\0';
    for (size_t i = 0; i < count; i++)
        snprintf(key + strlen(key), KEY - strlen(key), "%s%s", i ? "," : "", id[i]);
}

static void keep_class(force *f, const pare_craft *craft, const char *list, int64_t units)
{
    classes *all = f->context;
    char key[KEY];
    size_t at = 0;
    (void)craft;
    key_of(list, key);
    while (at < all->count && strcmp(all->one[at].key, key) != 0)
        at++;
    if (at == all->count) {
        all->count++;
        all->one[at].units = INT64_MAX;
        snprintf(all->one[at].key, KEY, "%s", key);
    }
    all->one[at].units = units < all->one[at].units ? units : all->one[at].units;
}

static int lightest_first(const void *left, const void *right)
{
    const of_parts *a = left, *b = right;
    return (a->units > b->units) - (a->units < b->units);
}

static bool has_id(const char *key, const char *id)
{
    const size_t length = strlen(id);
    for (const char *at = strstr(key, id); at; at = strstr(at + 1, id))
        if ((at == key || at[-1] == ',') && (at[length] == ',' || at[length] == '\0'))
            return true;
    return false;
}

/* Until then the choice stands: the lightest of all sets without it. */
static void stands_as_far(unsigned n, const classes *all, const pare_best_ways *ways)
{
    pare_best_stand stand[PARE_BEST_SWAPS];
    const size_t count = pare_best_stands(ways, stand);
    for (size_t i = 0; i < count; i++) {
        const char *id = ways->way[0].swap[stand[i].swap].applied.id;
        int64_t without = INT64_MAX;
        for (size_t c = 0; c < all->count; c++)
            if (!has_id(all->one[c].key, id) && all->one[c].units < without)
                without = all->one[c].units;
        const double gap =
            without == INT64_MAX ? HUGE_VAL : pare_best_grams(without - ways->way[0].best_100ug);
        if (stand[i].way ? fabs(stand[i].gap - gap) > 1e-9 : stand[i].gap > gap + 1e-9)
            fail_msg("bench %u: %s stands for %g g (way %zu), brute force %g", n, id, stand[i].gap,
                     stand[i].way, gap);
    }
}

/* Whether a set of the first craft still does its job, with parts as they are now. */
static bool still_does(force *f, const char *list)
{
    pare_error err;
    pare_craft *craft = malloc(sizeof *craft);
    assert_int_equal(pare_swap_apply_list(&f->d->bench, &f->d->craft, list, craft, &err), PARE_OK);
    const bool does = pare_craft_load(craft, f->loadout, &f->loaded, &err) == PARE_OK &&
                      pare_sheet_compute(&f->loaded, false, &f->sheet, &err) == PARE_OK &&
                      does_its_job(f);
    free(craft);
    return does;
}

static void list_of(const pare_best *best, pare_text *list)
{
    for (size_t i = 0; i < best->swaps; i++)
        pare_text_printf(list, "%s%s", i ? "," : "", best->swap[i].applied.id);
    assert_false(list->failed);
}

typedef struct asked_again {
    bool does; /* the set still does its job */
    bool same; /* it is the answer */
    bool has;  /* the answer has the part */
} asked_again;

/* With the part so much heavier, in all its pieces. */
static asked_again ask_again(force *f, const pare_best_ask *ask, const pare_best_stand *stand,
                             const pare_best *first, double more_g)
{
    pare_arena *arena = pare_arena_open();
    const char *id = first->swap[stand->swap].applied.id;
    pare_part *part = NULL;
    pare_best best;
    pare_error err;
    pare_text was = {0}, is = {0};
    for (size_t i = 0; i < f->d->bench.parts; i++)
        if (strcmp(f->d->part[i]->id, strchr(id, '=') + 1) == 0)
            part = f->d->part[i];
    assert_non_null(part);
    const double kg = part->mass_kg.value;
    part->mass_kg.value += 1e-3 * more_g / stand->pieces;
    list_of(first, &was);
    asked_again again = {.does = still_does(f, was.bytes)};
    assert_int_equal(pare_best_find(&f->d->bench, &f->d->craft, ask, arena, &best, &err), PARE_OK);
    assert_true(best.proven);
    list_of(&best, &is);
    again.same = best.found && is.bytes && strcmp(was.bytes, is.bytes) == 0;
    again.has = best.found && pare_best_has_swap(&best, id);
    part->mass_kg.value = kg;
    pare_text_free(&was);
    pare_text_free(&is);
    pare_arena_close(arena);
    return again;
}

/* A milligram before its edge the part is still in the best set, unless it is so heavy that the set breaks a limit;
 * a milligram behind it another set wins. (A heavier part may also keep arms from ringing: then yet another set
 * with it may win on either side.) */
static size_t edges_are_where_said(unsigned n, force *f, const pare_best_ask *ask,
                                   const pare_best_ways *ways)
{
    static const double step_g = 1e-3;
    pare_best_stand stand[PARE_BEST_SWAPS];
    const pare_best *first = &ways->way[0];
    const size_t count = pare_best_stands(ways, stand);
    size_t edges = 0;
    for (size_t i = 0; i < count; i++) {
        const char *id = first->swap[stand[i].swap].applied.id;
        if (!stand[i].way || stand[i].gap <= 2 * step_g)
            continue;
        const asked_again inside = ask_again(f, ask, &stand[i], first, stand[i].gap - step_g);
        const asked_again outside = ask_again(f, ask, &stand[i], first, stand[i].gap + step_g);
        if (inside.does && !inside.has)
            fail_msg("bench %u: %s does not stand for %g g", n, id, stand[i].gap);
        if (outside.same || (inside.same && outside.has))
            fail_msg("bench %u: %s stands for more than %g g", n, id, stand[i].gap);
        edges += inside.same && !outside.has;
    }
    return edges;
}

static size_t are_the_next_best(unsigned n, const drawn *d, int loadout, classes *all, force *f)
{
    pare_arena *arena = pare_arena_open();
    const pare_best_ask ask = {.loadout = loadout, .holds = d->holds, .hold = d->hold};
    pare_best best;
    pare_best_wished wished;
    pare_best_ways ways;
    pare_error err;
    if (pare_best_wish_find(&d->bench, &d->craft, &ask, PARE_WISH_GRAMS, arena, &best, &wished,
                            &err) != PARE_OK ||
        pare_best_ways_find(&d->bench, &d->craft, &ask, PARE_WISH_GRAMS, &best, &wished, WAYS,
                            arena, &ways, &err) != PARE_OK)
        fail_msg("bench %u: %s", n, err.text);
    qsort(all->one, all->count, sizeof all->one[0], lightest_first);
    const size_t count = all->count < WAYS ? all->count : WAYS;
    if (!ways.proven || ways.count != count || ways.all != (all->count < WAYS))
        fail_msg("bench %u: %zu ways of %zu, proven %d, all %d", n, ways.count, all->count,
                 ways.proven, ways.all);
    for (size_t i = 0; i < count; i++) {
        if (ways.way[i].best_100ug != all->one[i].units)
            fail_msg("bench %u, way %zu: %lld, brute force %lld", n, i,
                     (long long)ways.way[i].best_100ug, (long long)all->one[i].units);
        for (size_t k = 0; k < i; k++) {
            size_t parts[2] = {0, 0}, same = 0;
            for (int of = 0; of < 2; of++)
                for (size_t s = 0; s < ways.way[of ? k : i].swaps; s++)
                    parts[of] += pare_best_is_part(ways.way[of ? k : i].swap[s].applied.id);
            for (size_t s = 0; s < ways.way[i].swaps; s++)
                same += pare_best_is_part(ways.way[i].swap[s].applied.id) &&
                        pare_best_has_swap(&ways.way[k], ways.way[i].swap[s].applied.id);
            if (same == parts[0] && same == parts[1])
                fail_msg("bench %u: ways %zu and %zu have the same parts", n, k, i);
        }
    }
    stands_as_far(n, all, &ways);
    const size_t edges = edges_are_where_said(n, f, &ask, &ways);
    pare_arena_close(arena);
    return edges;
}

static void ways_are_the_lightest_of_each_choice_of_parts(void **state)
{
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    force *by_force = calloc(1, sizeof *by_force);
    classes *all = malloc(sizeof *all);
    size_t compared = 0, many = 0, edges = 0;
    const unsigned benches = benches_drawn(BENCHES);
    for (unsigned n = 0; n < benches; n++) {
        unsigned seed = 5000 + n;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        if (n % 2 > 0)
            d->craft.brief.limits = 0;
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        all->count = 0;
        if (search_by_force(d, loadout, keep_class, all, by_force) && by_force->found) {
            edges += are_the_next_best(n, d, loadout, all, by_force);
            compared++;
            many += all->count >= WAYS;
        }
        put_back_parts(f, d);
    }
    if (compared < benches / 4 || many < 5 || edges < 6)
        fail_msg("%zu compared, %zu with enough ways, %zu edges", compared, many, edges);
    free(all);
    free(by_force);
    free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(ways_are_the_lightest_of_each_choice_of_parts, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
