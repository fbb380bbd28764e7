/* rooms: store advise craft physics base */
/* Certificates of best sets: those of what the search finds on benches drawn at random are accepted, those of
 * anything else are not, and no kind of tampering passes. The truth about the benches is brute force's
 * (tests/unit/best.c, the same draws); here a claim that something heavier is the best must never close. */
#include "proof_kept.h"

enum { BENCHES = 150 };

/* ---- benches drawn at random ---- */

/* What a set without one of the best's swaps weighs, if it goes on at all. */
static bool weigh_without(const drawn *d, int loadout, const pare_proof_claim *claim, size_t but,
                          const char *names[PARE_BEST_SWAPS], int64_t *units)
{
    char list[4096] = "";
    size_t used = 0, count = 0;
    pare_craft *craft = malloc(2 * sizeof *craft);
    pare_sheet *sheet = malloc(sizeof *sheet);
    pare_craft_copy(&d->craft, &craft[0]);
    for (size_t i = 0; i < claim->swaps; i++)
        if (i != but) {
            names[count++] = claim->swap[i];
            used += (size_t)snprintf(list + used, sizeof list - used, "%s%s", used ? "," : "",
                                     claim->swap[i]);
        }
    bool goes =
        count == 0 || pare_swap_apply_list(&d->bench, &d->craft, list, &craft[0], NULL) == PARE_OK;
    goes = goes && pare_craft_load(&craft[0], loadout, &craft[1], NULL) == PARE_OK &&
           pare_sheet_weigh(&craft[1], sheet, NULL) == PARE_OK;
    if (goes)
        *units = pare_best_100ug(&sheet->assembly);
    free(craft);
    free(sheet);
    return goes;
}

/* A heavier set that does its job too, claimed to be the best: the tree finds what is lighter. */
static size_t heavier_claims(const drawn *d, unsigned n, const pare_best_ask *ask,
                             const pare_best *best, const pare_proof_claim *claim)
{
    size_t refused = 0;
    for (size_t but = 0; but < claim->swaps; but++) {
        const char *names[PARE_BEST_SWAPS];
        pare_proof_claim other = *claim;
        certificate c;
        other.swaps--;
        other.swap = names;
        if (!weigh_without(d, ask->loadout, claim, but, names, &other.best_100ug) ||
            other.best_100ug <= best->best_100ug)
            continue;
        const pare_proof_told told = write(&d->bench, &d->craft, &other, &c);
        const pare_proof_told checked = check(&d->bench, &c);
        if (told.verified || checked.verified)
            fail_msg("bench %u: %lld called best, where %lld is: accepted", n,
                     (long long)other.best_100ug, (long long)best->best_100ug);
        refused++;
        forget(&c);
    }
    return refused;
}

static void what_the_search_finds_is_certified_and_nothing_else(void **state)
{
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    size_t certified = 0, found = 0, refused = 0, lines = 0;
    for (unsigned n = 0; n < BENCHES; n++) {
        unsigned seed = n + 1;
        const char *names[PARE_BEST_SWAPS];
        pare_best best;
        pare_error err = {0};
        certificate c;
        pare_craft *craft = &d->craft;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        d->bench.crafts = 1;
        d->bench.craft = &craft;
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        pare_arena *arena = pare_arena_open();
        const pare_best_ask ask = {.loadout = loadout, .holds = d->holds, .hold = d->hold};
        if (pare_best_find(&d->bench, &d->craft, &ask, arena, &best, &err) != PARE_OK)
            fail_msg("bench %u: %s", n, err.text);
        pare_proof_claim claim = claim_of(&ask, &best, names);
        const pare_proof_told told = write(&d->bench, &d->craft, &claim, &c);
        if (!told.verified)
            fail_msg("bench %u: %s, %zu open of %zu lines", n, told.refusal, told.open, told.lines);
        const pare_proof_told checked = check(&d->bench, &c);
        if (!checked.verified)
            fail_msg("bench %u: %s", n, checked.refusal);
        forget(&c);
        certified++;
        lines += told.lines;
        found += best.found;
        if (best.found) {
            refused += heavier_claims(d, n, &ask, &best, &claim);
            claim.found = false;
            claim.swaps = 0;
            if (write(&d->bench, &d->craft, &claim, &c).verified)
                fail_msg("bench %u: said to have no set, and accepted", n);
            forget(&c);
        }
        pare_arena_close(arena);
        put_back_parts(f, d);
    }
    print_message("%zu certified, %zu of a set; %zu heavier claims refused; %zu lines\n", certified,
                  found, refused, lines);
    assert_true(found > BENCHES / 8 && found < BENCHES && refused > BENCHES / 4);
    free(d);
}

/* A brief may ask that a craft weigh no less than something: then a lighter one fails what a heavier one meets, and
 * nothing follows from its mass. The search once said that there was no set. */
static void a_least_mass_refutes_nothing_that_is_heavier(void **state)
{
    enum { ASKED = 30 };
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    size_t heavier = 0;
    for (unsigned n = 0; n < ASKED; n++) {
        unsigned seed = n + 1;
        const char *names[PARE_BEST_SWAPS];
        pare_best best, asked;
        pare_error err = {0};
        certificate c;
        pare_craft *craft = &d->craft;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        d->bench.crafts = 1;
        d->bench.craft = &craft;
        d->craft.brief.limits = 0;
        pare_arena *arena = pare_arena_open();
        const pare_best_ask ask = {.loadout = -1, .holds = d->holds, .hold = d->hold};
        assert_int_equal(pare_best_find(&d->bench, craft, &ask, arena, &best, &err), PARE_OK);
        if (best.found) {
            /* Halfway to the craft as it is, which then still meets it, by more than lines are rounded. */
            d->craft.brief.limit[d->craft.brief.limits++] = (pare_limit){
                .key = "all_up",
                .at_least = true,
                .value = 1e-7 * ((double)(best.best_100ug + best.was_100ug) / 2 - 1000)};
            assert_int_equal(pare_best_find(&d->bench, craft, &ask, arena, &asked, &err), PARE_OK);
            if (!asked.found || !asked.proven)
                fail_msg("bench %u: %s", n, asked.found ? "not proven" : "said to have no set");
            heavier += asked.best_100ug > best.best_100ug;
            const pare_proof_claim claim = claim_of(&ask, &asked, names);
            const pare_proof_told told = write(&d->bench, craft, &claim, &c);
            if (!told.verified || !check(&d->bench, &c).verified)
                fail_msg("bench %u: %s", n, told.refusal);
            forget(&c);
        }
        pare_arena_close(arena);
        put_back_parts(f, d);
    }
    assert_true(heavier > ASKED / 4);
    free(d);
}

/* ---- tampering ---- */

/* A line of the tree taken apart. */
typedef struct node {
    size_t level;
    char label[200], verb[16], rest[200];
} node;

static node node_of(const char *line)
{
    node n = {0};
    assert_true(sscanf(line, "%zu %199s %15s %199[^\n]", &n.level, n.label, n.verb, n.rest) >= 3);
    return n;
}

static void put_node(certificate *c, size_t at, const node *n)
{
    char line[PARE_PROOF_LINE];
    snprintf(line, sizeof line, "%zu %s %s%s%s", n->level, n->label, n->verb, n->rest[0] ? " " : "",
             n->rest);
    replace(c, at, line);
}

/* Some line of the tree with a verb, drawn; the number of lines: there is none. NULL: of any leaf. */
static size_t draw_node(const certificate *c, unsigned *seed, const char *verb)
{
    const size_t first = find(c, "tree") + 1, count = c->lines - 1 - first;
    const size_t from = dice(seed, (unsigned)count);
    for (size_t i = 0; i < count; i++) {
        const size_t at = first + (from + i) % count;
        const node n = node_of(c->line[at]);
        const bool leaf = strcmp(n.verb, "choose") != 0 && strcmp(n.verb, "part") != 0 &&
                          strcmp(n.verb, "hold") != 0 && strcmp(n.verb, "most") != 0 &&
                          strcmp(n.verb, "raise") != 0;
        if (verb ? strcmp(n.verb, verb) == 0 : leaf)
            return at;
    }
    return c->lines;
}

/* What is below a node goes with it. */
static void drop_below(certificate *c, size_t at)
{
    const size_t level = node_of(c->line[at]).level;
    while (at + 2 < c->lines && node_of(c->line[at + 1]).level > level)
        drop(c, at + 1);
}

static size_t children(const certificate *c, size_t at)
{
    const size_t level = node_of(c->line[at]).level;
    size_t count = 0;
    for (size_t i = at + 1; i + 1 < c->lines && node_of(c->line[i]).level > level; i++)
        count += node_of(c->line[i]).level == level + 1;
    return count;
}

static bool shift_number(certificate *c, size_t at, long long by)
{
    if (at == c->lines)
        return false;
    node n = node_of(c->line[at]);
    char rest[200];
    long long number;
    int used = 0;
    if (sscanf(n.rest, "%lld%n", &number, &used) != 1)
        return false;
    snprintf(rest, sizeof rest, "%lld%s", number + by, n.rest + used);
    snprintf(n.rest, sizeof n.rest, "%s", rest);
    put_node(c, at, &n);
    return true;
}

static bool reword(certificate *c, size_t at, const char *verb, const char *rest)
{
    if (at == c->lines)
        return false;
    node n = node_of(c->line[at]);
    if (strcmp(n.verb, verb) == 0 && strcmp(n.rest, rest) == 0)
        return false;
    drop_below(c, at);
    snprintf(n.verb, sizeof n.verb, "%s", verb);
    snprintf(n.rest, sizeof n.rest, "%s", rest);
    put_node(c, at, &n);
    return true;
}

static bool shift_best(certificate *c, long long by)
{
    char line[64];
    long long units;
    const size_t at = find(c, "best ");
    if (sscanf(c->line[at], "best %lld", &units) != 1)
        return false;
    snprintf(line, sizeof line, "best %lld", units + by);
    replace(c, at, line);
    return true;
}

/* A limit's or a refused set's name, or its number. */
static bool change_limit(certificate *c, size_t at, bool name)
{
    if (at == c->lines)
        return false;
    node n = node_of(c->line[at]);
    char of[64], rest[200];
    double ratio;
    if (sscanf(n.rest, "%63s %lf", of, &ratio) != 2)
        return false;
    snprintf(rest, sizeof rest, "%s %.9g", name ? "limit.hover_time" : of,
             name ? ratio : ratio + 0.01);
    snprintf(n.rest, sizeof n.rest, "%s", rest);
    put_node(c, at, &n);
    return true;
}

typedef enum tampering {
    LIGHTER_BEST,
    HEAVIER_BEST,
    NO_SUCH_SET,
    NO_SET_AT_ALL,
    SET_WITH_LESS,
    SET_WITH_MORE,
    OTHER_BENCH,
    OTHER_VERSION,
    OTHER_CRAFT,
    OTHER_LOADOUT,
    HOLD_LESS,
    HOLD_MORE,
    NEVER_UNKNOWN,
    MUST_MORE,
    HEAD_OUT_OF_ORDER,
    NO_TREE,
    LEAF_DROPPED,
    LEAF_TWICE,
    LEAVES_SWAPPED,
    OTHER_LABEL,
    OTHER_LEVEL,
    NO_LEVEL,
    OTHER_CHOICE,
    CHOICE_CUT_SHORT,
    CHOICE_CALLED_APART,
    CHOICE_CALLED_NO,
    CHOICE_CALLED_A_SET,
    PART_CUT_SHORT,
    NO_CALLED_MASS,
    NO_CALLED_A_CHOICE,
    MASS_MORE,
    MASS_LESS,
    REST_MORE,
    REST_TOO_EARLY,
    HOLD_MORE_MASS,
    MOST_LOWER,
    RAISE_HIGHER,
    LIMIT_OTHER,
    LIMIT_NUMBER,
    LIMIT_TOO_EARLY,
    SET_OTHER,
    SET_NUMBER,
    SOMETHING_BEHIND,
    NOT_A_REASON,
    CUT_IN_HALF,
    CUT_IN_A_LINE,
    NO_END,
    OTHER_END,
    AFTER_THE_END,
    LONG_LINE,
    HUGE_NUMBER,
    TAMPERINGS
} tampering;

static bool tamper(tampering how, certificate *c, unsigned *seed)
{
    const size_t tree = find(c, "tree"), choice = draw_node(c, seed, "choose"),
                 leaf = draw_node(c, seed, NULL);
    char text[PARE_PROOF_LINE + 64];
    size_t at;
    node n;
    switch (how) {
    case LIGHTER_BEST:
        return shift_best(c, -1);
    case HEAVIER_BEST:
        return shift_best(c, 1);
    case NO_SUCH_SET:
        at = find(c, "set ");
        if (at == c->lines)
            return false;
        replace(c, at, "set motor=mo-nowhere");
        return true;
    case NO_SET_AT_ALL:
        if (find(c, "best none") < c->lines)
            return false;
        replace(c, find(c, "best "), "best none");
        while (find(c, "set ") < c->lines)
            drop(c, find(c, "set "));
        return true;
    case SET_WITH_LESS:
        at = find(c, "set ");
        if (at == c->lines)
            return false;
        drop(c, at);
        return true;
    case SET_WITH_MORE:
        if (find(c, "best none") < c->lines)
            return false;
        insert(c, tree, "set bumper=off");
        return true;
    case OTHER_BENCH:
        replace(c, 1, "bench 0000000000001235");
        return true;
    case OTHER_VERSION:
        replace(c, 0, "pare-proof 2");
        return true;
    case OTHER_CRAFT:
        replace(c, 2, "craft donkey");
        return true;
    case OTHER_LOADOUT:
        at = find(c, "loadout ");
        if (at == c->lines)
            return false;
        replace(c, at, "loadout heavy");
        return true;
    case HOLD_LESS: /* more may then be chosen than the tree has */
        at = find(c, "hold run.lead");
        if (at == c->lines)
            return false;
        drop(c, at);
        return find(c, "best none") == c->lines;
    case HOLD_MORE: /* a choice that has more than one way in the tree */
        if (choice == c->lines || children(c, choice) < 2)
            return false;
        snprintf(text, sizeof text, "hold %s", node_of(c->line[choice]).rest);
        insert(c, find(c, "best "), text);
        return true;
    case NEVER_UNKNOWN:
        insert(c, find(c, "best "), "never pr-nowhere");
        return true;
    case MUST_MORE: /* what the set has not */
        if (find(c, "best none") < c->lines)
            return false;
        insert(c, find(c, "best "), "must mo-heavy");
        return true;
    case HEAD_OUT_OF_ORDER:
        insert(c, tree, "loadout all");
        return true;
    case NO_TREE:
        drop(c, tree);
        return true;
    case LEAF_DROPPED:
        drop(c, leaf);
        return true;
    case LEAF_TWICE:
        insert(c, leaf, c->line[leaf]);
        return true;
    case LEAVES_SWAPPED:
        if (leaf + 2 >= c->lines || leaf == tree + 1 ||
            strcmp(c->line[leaf], c->line[leaf + 1]) == 0)
            return false;
        insert(c, leaf, c->line[leaf + 1]);
        drop(c, leaf + 2);
        return true;
    case OTHER_LABEL:
        n = node_of(c->line[leaf]);
        snprintf(n.label, sizeof n.label, "mo-nowhere");
        put_node(c, leaf, &n);
        return true;
    case OTHER_LEVEL:
        n = node_of(c->line[leaf]);
        n.level++;
        put_node(c, leaf, &n);
        return true;
    case NO_LEVEL:
        replace(c, leaf, "- stay no");
        return true;
    case OTHER_CHOICE:
        if (choice == c->lines)
            return false;
        n = node_of(c->line[choice]);
        snprintf(n.rest, sizeof n.rest, "strap_2");
        put_node(c, choice, &n);
        return true;
    case CHOICE_CUT_SHORT: /* its bound is no reason: else it were a leaf */
        return reword(c, choice, "mass", "99999999");
    case CHOICE_CALLED_APART:
        return reword(c, choice, "apart", "");
    case CHOICE_CALLED_NO:
        return reword(c, choice, "no", "");
    case CHOICE_CALLED_A_SET:
        return reword(c, choice, "set", "limit.flown 0.5");
    case PART_CUT_SHORT:
        at = draw_node(c, seed, "part");
        if (at == c->lines)
            return false;
        n = node_of(c->line[at + 1]);
        reword(c, at, "lacks", "mo-heavy");
        return true;
    case NO_CALLED_MASS:
        return reword(c, draw_node(c, seed, "no"), "mass", "99999999");
    case NO_CALLED_A_CHOICE:
        return reword(c, draw_node(c, seed, "no"), "choose", "frame");
    case MASS_MORE:
        return shift_number(c, draw_node(c, seed, "mass"), 1);
    case MASS_LESS:
        return shift_number(c, draw_node(c, seed, "mass"), -1000000);
    case REST_MORE:
        return shift_number(c, draw_node(c, seed, "rest"), 1);
    case REST_TOO_EARLY: /* covers one that is not too heavy */
        at = draw_node(c, seed, "rest");
        if (at == c->lines || strcmp(node_of(c->line[at - 1]).verb, "choose") == 0 ||
            node_of(c->line[at - 1]).level != node_of(c->line[at]).level)
            return false;
        n = node_of(c->line[at - 1]);
        snprintf(text, sizeof text, "%zu %s rest %s", n.level, n.label, node_of(c->line[at]).rest);
        drop(c, at);
        replace(c, at - 1, text);
        return true;
    case HOLD_MORE_MASS:
        return shift_number(c, draw_node(c, seed, "hold"), 1);
    case MOST_LOWER:
        return shift_number(c, draw_node(c, seed, "most"), -200000);
    case RAISE_HIGHER:
        return shift_number(c, draw_node(c, seed, "raise"), 5000000);
    case LIMIT_OTHER:
        return change_limit(c, draw_node(c, seed, "limit"), true);
    case LIMIT_NUMBER:
        return change_limit(c, draw_node(c, seed, "limit"), false);
    case LIMIT_TOO_EARLY:
        at = draw_node(c, seed, "limit");
        return at < c->lines && reword(c, choice, "limit", node_of(c->line[at]).rest);
    case SET_OTHER:
        return change_limit(c, draw_node(c, seed, "set"), true);
    case SET_NUMBER:
        return change_limit(c, draw_node(c, seed, "set"), false);
    case SOMETHING_BEHIND:
        n = node_of(c->line[leaf]);
        snprintf(n.rest + strlen(n.rest), sizeof n.rest - strlen(n.rest), " and so on");
        put_node(c, leaf, &n);
        return true;
    case NOT_A_REASON:
        return reword(c, leaf, "because", "");
    case CUT_IN_HALF:
        while (c->lines > tree + 1 && c->lines > (tree + c->lines) / 2 + 1)
            drop(c, c->lines - 1);
        return true;
    case CUT_IN_A_LINE:
        drop(c, c->lines - 1);
        c->cut = true;
        return true;
    case NO_END:
        drop(c, c->lines - 1);
        return true;
    case OTHER_END:
        replace(c, c->lines - 1, "end 1");
        return c->lines - tree > 3;
    case AFTER_THE_END:
        insert(c, c->lines, "end 1");
        return true;
    case LONG_LINE:
        memset(text, 'x', sizeof text);
        text[sizeof text - 1] = '\0';
        replace(c, leaf, text);
        return true;
    case HUGE_NUMBER:
        replace(c, leaf, "99999999999999999999999 stay no");
        return true;
    case TAMPERINGS:
        break;
    }
    return false;
}

/* Each kind on every drawn bench where there is something for it to change. A certificate that says nothing
 * false any more may be accepted only where it is what stood there before. */
static void no_kind_of_tampering_passes(void **state)
{
    enum { TAMPERED = 24 };
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    size_t times[TAMPERINGS] = {0};
    for (unsigned k = 0; k < TAMPERED; k++) {
        unsigned seed = k + 1;
        const char *names[PARE_BEST_SWAPS];
        pare_best best;
        pare_error err = {0};
        certificate whole;
        pare_craft *craft = &d->craft;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        d->bench.crafts = 1;
        d->bench.craft = &craft;
        d->craft.brief.limits = k % 2 ? d->craft.brief.limits : 0;
        pare_arena *arena = pare_arena_open();
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        const pare_best_ask ask = {.loadout = loadout, .holds = d->holds, .hold = d->hold};
        if (pare_best_find(&d->bench, &d->craft, &ask, arena, &best, &err) != PARE_OK)
            fail_msg("bench %u: %s", k, err.text);
        const pare_proof_claim claim = claim_of(&ask, &best, names);
        if (!write(&d->bench, &d->craft, &claim, &whole).verified ||
            !check(&d->bench, &whole).verified)
            fail_msg("bench %u is not certified", k);
        for (tampering how = 0; how < TAMPERINGS; how++) {
            certificate c;
            copy(&whole, &c);
            if (tamper(how, &c, &seed)) {
                const pare_proof_told told = check(&d->bench, &c);
                if (told.verified || strncmp(told.refusal, "file:", 5) != 0)
                    fail_msg("bench %u, tampering %d: %s", k, (int)how,
                             told.verified ? "accepted" : told.refusal);
                times[how]++;
            }
            forget(&c);
        }
        forget(&whole);
        pare_arena_close(arena);
        put_back_parts(f, d);
    }
    for (tampering how = 0; how < TAMPERINGS; how++)
        if (times[how] == 0)
            fail_msg("tampering %d was never tried", (int)how);
    free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_the_search_finds_is_certified_and_nothing_else,
                                        fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(a_least_mass_refutes_nothing_that_is_heavier, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(no_kind_of_tampering_passes, fixture_open, fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
