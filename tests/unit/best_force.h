/* best_force.h: brute force for tests of the best set: every set of a small bench put on and judged. It shares with the search what puts a swap on and what computes a sheet, and nothing of the
 * search: the rule of what a set must do, its order, its mass and its ties are written down here once more. */
#ifndef PARE_TESTS_BEST_FORCE_H
#define PARE_TESTS_BEST_FORCE_H

#include <math.h>

#include "best_drawn.h"
#include "share.h"

#include "advise/best.h"
#include "advise/row.h"
#include "advise/shopping.h"

enum { MOST_OPTIONS = 16, MOST_CHOICES = 64, MOST_SETS = 1500 };

/* How many benches are drawn: as usual, or as the environment says, for a longer run by hand:
 * PARE_TEST_BENCHES=1000 build/release/tests/unit_best. */
static inline unsigned benches_drawn(unsigned usual)
{
    const char *more = getenv("PARE_TEST_BENCHES");
    const unsigned long wanted = more ? strtoul(more, NULL, 10) : 0;
    return wanted > usual && wanted <= 1000000 ? (unsigned)wanted : usual;
}

/* ---- brute force ---- */

typedef struct choice {
    char left[PARE_SWAP_NAME];
    size_t options;
    char option[MOST_OPTIONS][PARE_SWAP_NAME];
} choice;

typedef struct force force;

/* Handed each set that does its job: its craft, its judged sheet, its mass. */
typedef void taken_set(force *f, const pare_craft *craft, const char *list, int64_t units);

struct force {
    const drawn *d;
    int loadout;
    pare_shelf shelf;
    pare_units *units;
    pare_arena *arena;
    pare_sheet before, sheet;
    pare_craft loaded;
    size_t sets; /* put on */
    bool gave_up;
    bool found;
    int64_t units_best;
    char list[2048];           /* of the best */
    const pare_resale *resale; /* NULL: nothing comes back */
    taken_set *take;           /* NULL: only the lightest counts */
    void *context;
};

static bool is_held(const drawn *d, const char *left)
{
    for (size_t i = 0; i < d->holds; i++) {
        const size_t length = strlen(d->hold[i]);
        if (strncmp(left, d->hold[i], length) == 0 && (left[length] == '\0' || left[length] == '.'))
            return true;
    }
    return false;
}

/* The choices that pare_candidates() names on a craft, those of items or the others. */
static size_t choices_on(force *f, const pare_craft *craft, bool items, choice choices[])
{
    size_t count, found = 0;
    const char *const *names;
    pare_error err;
    assert_int_equal(
        pare_swap_names(&f->d->bench, craft, f->loadout, f->arena, &count, &names, &err), PARE_OK);
    for (size_t i = 0; i < count; i++) {
        char left[PARE_SWAP_NAME];
        snprintf(left, sizeof left, "%.*s", (int)strcspn(names[i], "="), names[i]);
        if (items == (strchr(left, '.') != NULL) || strstr(names[i], "=sought-") ||
            is_held(f->d, left))
            continue;
        if (found == 0 || strcmp(choices[found - 1].left, left) != 0) {
            assert_true(found < MOST_CHOICES);
            snprintf(choices[found].left, sizeof choices[found].left, "%s", left);
            choices[found++].options = 0;
        }
        choice *c = &choices[found - 1];
        assert_true(c->options < MOST_OPTIONS);
        snprintf(c->option[c->options++], PARE_SWAP_NAME, "%s", names[i]);
    }
    return found;
}

static bool put_on(force *f, const pare_craft *from, const char *id, pare_craft *to)
{
    pare_swap_name name;
    pare_applied applied;
    pare_basket basket = {0};
    if (pare_swap_name_read(f->units, id, &name, NULL) != PARE_OK ||
        pare_swap_edit(&f->shelf, from, &name, to, &applied, &basket, NULL) != PARE_OK ||
        applied.open_question || (applied.jobs_lost & f->d->craft.brief.keep))
        return false;
    for (size_t h = 0; h < f->d->holds; h++) {
        const int was = pare_craft_item(&f->d->craft, f->d->hold[h]);
        if (was < 0)
            continue;
        const pare_item *a = &f->d->craft.item[was], *b = &to->item[was];
        if (a->part != b->part || a->off != b->off || a->count != b->count)
            return false;
    }
    return true;
}

static bool does_its_job(const force *f)
{
    const pare_limit *asked = pare_brief_limit(&f->d->craft.brief, "margin");
    static const pare_figure flies[] = {PARE_HOVER_OUTPUT, PARE_FLOWN_TIME, PARE_THRUST_FRESH};
    for (size_t i = 0; i < sizeof flies / sizeof flies[0]; i++)
        if (f->before.figure[flies[i]].exists && !f->sheet.figure[flies[i]].exists)
            return false;
    for (size_t i = 0; i < f->sheet.margins; i++) {
        const pare_margin *now = &f->sheet.margin[i];
        const pare_margin *was = pare_sheet_margin(&f->before, now->name);
        double least = was && was->ratio < 1 ? was->ratio : 1;
        if (strcmp(now->name, "limit.margin") == 0)
            continue;
        if (strncmp(now->name, "limit.", 6) == 0)
            least = 1;
        else if (strncmp(now->name, "joint_crash.", 12) == 0)
            least = !was ? 1 : was->ratio < 10 ? was->ratio : 10;
        else if (asked && asked->value > least)
            least = asked->value;
        if (!(now->ratio >= least * (1 - 1e-9)))
            return false;
    }
    return true;
}

static int64_t weigh_lines(const pare_sheet *sheet)
{
    int64_t units = 0;
    for (size_t i = 0; i < sheet->assembly.lines; i++)
        units += llround(1e7 * sheet->assembly.line[i].mass_kg.value);
    return units;
}

/* What a list costs in one order, less what comes back for what comes off. @return false: not known */
static inline bool money_of(force *f, const char *list, int64_t *cents)
{
    pare_craft *craft = malloc(sizeof *craft);
    pare_shopping *shopping = malloc(sizeof *shopping);
    pare_error err;
    *cents = 0;
    assert_int_equal(list[0] ? pare_swap_apply_list(&f->d->bench, &f->d->craft, list, craft, &err)
                             : PARE_OK,
                     PARE_OK);
    if (!list[0])
        pare_craft_copy(&f->d->craft, craft);
    pare_shopping_of(&f->d->bench, &f->d->craft, NULL, craft, shopping);
    *cents = llround(100 * shopping->money);
    for (size_t i = 0; f->resale && i < f->d->bench.parts; i++) {
        int less = 0;
        for (size_t k = 0; k < PARE_ITEMS; k++) {
            const pare_item *was = &f->d->craft.item[k], *is = &craft->item[k];
            if (k < f->d->craft.items && was->part == f->d->part[i] && !was->off)
                less += was->count;
            if (k < craft->items && is->part == f->d->part[i] && !is->off)
                less -= is->count;
        }
        if (less > 0 && f->d->part[i]->price.given)
            *cents -= less * llround(100 * f->resale->share * f->d->part[i]->price.each);
    }
    const bool priced = shopping->priced;
    free(shopping);
    free(craft);
    return priced;
}

static void try_set(force *f, const pare_craft *craft, const char *list)
{
    pare_error err;
    pare_craft again;
    if (++f->sets > MOST_SETS) {
        f->gave_up = true;
        return;
    }
    if (pare_craft_load(craft, f->loadout, &f->loaded, &err) != PARE_OK ||
        pare_sheet_weigh(&f->loaded, &f->sheet, &err) != PARE_OK)
        return;
    const int64_t units = weigh_lines(&f->sheet);
    if (f->found && units >= f->units_best && !f->take)
        return;
    if (pare_sheet_compute(&f->loaded, false, &f->sheet, &err) != PARE_OK || !does_its_job(f))
        return;
    if (list[0] && pare_swap_apply_list(&f->d->bench, &f->d->craft, list, &again, NULL) != PARE_OK)
        return; /* two of them clash */
    if (f->take)
        f->take(f, craft, list, units);
    if (f->found && units >= f->units_best)
        return;
    f->found = true;
    f->units_best = units;
    snprintf(f->list, sizeof f->list, "%s", list);
}

static void append(char *to, size_t size, const char *list, const char *id)
{
    snprintf(to, size, "%s%s%s", list, list[0] ? "," : "", id);
}

static bool is_power(const char *left)
{
    return strncmp(left, "run.lead.", 9) == 0 || strncmp(left, "run.phase.", 10) == 0 ||
           strncmp(left, "run.esc_power.", 14) == 0;
}

typedef struct properties {
    size_t count;
    choice choice[MOST_CHOICES];
} properties;

static void next_property(force *f, const pare_craft *craft, const char *list,
                          const properties *all, size_t from, bool power,
                          void (*then)(force *, const pare_craft *, const char *))
{
    while (from < all->count && is_power(all->choice[from].left) != power)
        from++;
    if (f->gave_up)
        return;
    if (from == all->count) {
        then(f, craft, list);
        return;
    }
    next_property(f, craft, list, all, from + 1, power, then);
    for (size_t i = 0; i < all->choice[from].options; i++) {
        pare_craft *next = malloc(sizeof *next);
        char longer[2048];
        append(longer, sizeof longer, list, all->choice[from].option[i]);
        if (put_on(f, craft, all->choice[from].option[i], next))
            next_property(f, next, longer, all, from + 1, power, then);
        free(next);
    }
}

static void all_properties(force *f, const pare_craft *craft, const char *list, bool power,
                           void (*then)(force *, const pare_craft *, const char *))
{
    properties *all = malloc(sizeof *all);
    all->count = choices_on(f, craft, false, all->choice);
    next_property(f, craft, list, all, 0, power, then);
    free(all);
}

static void try_rest(force *f, const pare_craft *craft, const char *list)
{
    all_properties(f, craft, list, false, try_set);
}

/* In the order of the search (best.h): the controller, the ESC and the capacitor, then the wires that carry power, then the rest. */
static const char *const boards[] = {"brain", "esc", "capacitor", NULL};
static const char *const others[] = {"video", "camera", "pigtail",  "elbow", "antenna",
                                     "mount", "bumper", "receiver", NULL};

static void choose_items(force *f, const pare_craft *craft, const char *list,
                         const char *const *order,
                         void (*then)(force *, const pare_craft *, const char *))
{
    if (f->gave_up)
        return;
    if (!*order) {
        then(f, craft, list);
        return;
    }
    choose_items(f, craft, list, order + 1, then);
    const int item = pare_craft_item(&f->d->craft, *order);
    if (craft->item[item].off || craft->item[item].part != f->d->craft.item[item].part)
        return; /* another swap has taken it off, or put something else in */
    choice choices[MOST_CHOICES];
    const size_t count = choices_on(f, &f->d->craft, true, choices);
    for (size_t c = 0; c < count; c++)
        for (size_t i = 0; strcmp(choices[c].left, *order) == 0 && i < choices[c].options; i++) {
            pare_craft *next = malloc(sizeof *next);
            char longer[2048];
            append(longer, sizeof longer, list, choices[c].option[i]);
            if (put_on(f, craft, choices[c].option[i], next))
                choose_items(f, next, longer, order + 1, then);
            free(next);
        }
}

static void try_others(force *f, const pare_craft *craft, const char *list)
{
    choose_items(f, craft, list, others, try_rest);
}

static void try_wires(force *f, const pare_craft *craft, const char *list)
{
    all_properties(f, craft, list, true, try_others);
}

/* The first order in which all of some names go on, one after another. */
static bool in_some_order(force *f, const pare_craft *craft, const char *list, size_t count,
                          const char *const ids[], unsigned left, pare_craft *to, char *whole)
{
    if (left == 0) {
        pare_craft_copy(craft, to);
        strcpy(whole, list);
        return true;
    }
    bool done = false;
    for (size_t i = 0; i < count && !done; i++) {
        pare_craft *next = malloc(sizeof *next);
        char longer[2048];
        if (left & 1u << i) {
            append(longer, sizeof longer, list, ids[i]);
            done = put_on(f, craft, ids[i], next) &&
                   in_some_order(f, next, longer, count, ids, left & ~(1u << i), to, whole);
        }
        free(next);
    }
    return done;
}

static void try_all(force *f)
{
    static const char *const grouped[] = {"frame", "motor", "propeller", "pack"};
    choice choices[MOST_CHOICES];
    const choice *of[4] = {NULL, NULL, NULL, NULL};
    const size_t count = choices_on(f, &f->d->craft, true, choices);
    size_t options[4];
    for (size_t g = 0; g < 4; g++) {
        for (size_t c = 0; c < count; c++)
            if (strcmp(choices[c].left, grouped[g]) == 0)
                of[g] = &choices[c];
        options[g] = of[g] ? of[g]->options + 1 : 1;
    }
    pare_craft *put = malloc(sizeof *put);
    for (size_t n = 0; n < options[0] * options[1] * options[2] * options[3]; n++) {
        const char *ids[4];
        size_t names = 0, rest = n;
        bool off = false;
        for (size_t g = 0; g < 4; g++) {
            const size_t which = rest % options[g];
            rest /= options[g];
            if (which > 0)
                ids[names++] = of[g]->option[which - 1];
            off = off || (which > 0 && strstr(ids[names - 1], "=off"));
        }
        char whole[2048] = "";
        if (!off && in_some_order(f, &f->d->craft, "", names, ids, (1u << names) - 1, put, whole))
            choose_items(f, put, whole, boards, try_wires);
    }
    free(put);
}

/* @param f  its resale is read, and has to be there
 * @param take  NULL: only the lightest set is wanted
 * @return false: there are too many sets */
static bool search_by_force(const drawn *d, int loadout, taken_set *take, void *context, force *f)
{
    pare_error err;
    const pare_resale *resale = f->resale;
    *f = (force){.d = d,
                 .loadout = loadout,
                 .resale = resale,
                 .units = pare_units_open(),
                 .arena = pare_arena_open(),
                 .take = take,
                 .context = context};
    assert_int_equal(pare_shelf_fill(&d->bench, f->arena, &f->shelf, &err), PARE_OK);
    assert_int_equal(pare_craft_load(&d->craft, loadout, &f->loaded, &err), PARE_OK);
    assert_int_equal(pare_sheet_compute(&f->loaded, false, &f->before, &err), PARE_OK);
    try_all(f);
    pare_units_close(f->units);
    pare_arena_close(f->arena);
    return !f->gave_up;
}

/* The search's best set, which has to be brute force's. */
static inline void find_as_by_force(unsigned n, const drawn *d, const force *by_force,
                                    pare_arena *arena, pare_best *best)
{
    pare_error err = {0};
    const pare_best_ask ask = {.loadout = -1, .holds = d->holds, .hold = d->hold};
    if (pare_best_find(&d->bench, &d->craft, &ask, arena, best, &err) != PARE_OK)
        fail_msg("bench %u: %s", n, err.text);
    if (!best->proven || best->misses || best->found != by_force->found ||
        (best->found && best->best_100ug != by_force->units_best))
        fail_msg("bench %u: %s, best %lld, brute force %lld: %s", n,
                 best->proven ? "proven" : "not proven", (long long)best->best_100ug,
                 (long long)by_force->units_best, by_force->list);
}

/* Whether a limit has refused a group, or a lighter part of the best set. */
static inline bool has_refused(const pare_best *best, const char *limit)
{
    for (size_t i = 0; i < best->cuts; i++)
        if (strcmp(best->cut[i].name, limit) == 0)
            return true;
    for (size_t i = 0; i < best->binds; i++)
        if (strcmp(best->bind[i].name, limit) == 0)
            return true;
    return false;
}

/* How many benches were compared, and of those, how many show something. */
typedef struct comparison {
    size_t compared;
    size_t lighter; /* the best set changes something */
    size_t refused; /* the limit that was asked about refused something */
} comparison;

/* Makes a drawn bench and craft what a test is about. @return false: that cannot be made of it */
typedef bool drawn_ready(fixture *f, drawn *d, unsigned *seed, void *context);

/* The search's best sets of drawn benches, which have to be brute force's. */
static inline comparison compare_drawn(fixture *f, unsigned benches, drawn_ready *ready,
                                       void *context, const char *limit)
{
    drawn *d = malloc(sizeof *d);
    force *by_force = malloc(sizeof *by_force);
    comparison all = {0};
    assert_true(d && by_force);
    for (unsigned n = 0; n < benches; n++) {
        unsigned seed = n + 1;
        by_force->resale = NULL;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        if (ready(f, d, &seed, context) && search_by_force(d, -1, NULL, NULL, by_force)) {
            pare_arena *arena = pare_arena_open();
            pare_best best;
            find_as_by_force(n, d, by_force, arena, &best);
            all.compared++;
            all.lighter += best.found && best.swaps > 0;
            all.refused += has_refused(&best, limit);
            pare_arena_close(arena);
        }
        put_back_parts(f, d);
    }
    free(by_force);
    free(d);
    return all;
}

#endif
