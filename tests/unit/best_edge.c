/* rooms: store advise craft physics base */
/* A limit exactly at the figure of the best set lets that set be the best. The search and the certificate fly what
 * is not decided yet at sums of rounded lines, and with loads that are not decided: a hair of either on the wrong
 * side, and the set is passed over. Which set is best is brute force's word (best_force.h). */
#include "best_force.h"

#include "advise/proof.h"

#define UNITS_PER_KG 1e7
#define ROUNDS_UP    0.5004 /* of a unit: each line counts half a unit more than it weighs */

enum { BENCHES = SHARE_OF(100), MARK = 0x1234 };

typedef struct edge {
    const char *key;
    pare_figure figure;
    bool at_least;
} edge;

static const edge edges[] = {{"all_up", PARE_ALL_UP, false},
                             {"flown", PARE_FLOWN_TIME, true},
                             {"full_a", PARE_FULL_A, false},
                             {"thrust_to_weight_half", PARE_TWR_HALF, true},
                             {"hover_output", PARE_HOVER_OUTPUT, false},
                             {"turn", PARE_TURN, true},
                             {"hover_w", PARE_HOVER_W, false}};
enum { EDGES = sizeof edges / sizeof edges[0] };

/* Masses that all round to the same side, and loads that differ from part to part. */
static void draw_roundings(unsigned *seed, drawn *d)
{
    const bool up = dice(seed, 4) > 0;
    for (size_t i = 0; i < d->bench.parts; i++) {
        pare_part *part = d->part[i];
        const bool of_arms = part->kind == PARE_MOTOR || part->kind == PARE_PROPELLER ||
                             part->kind == PARE_BUMPER || part->kind == PARE_ESC_ONE;
        const double rounds = (up ? ROUNDS_UP : -ROUNDS_UP) / (of_arms ? 4 : 1);
        part->mass_kg.value = (floor(part->mass_kg.value * UNITS_PER_KG) + rounds) / UNITS_PER_KG;
        if (part->kind == PARE_CAMERA || part->kind == PARE_FLIGHT_CONTROLLER ||
            part->kind == PARE_VIDEO_TRANSMITTER)
            part->spec[PARE_SPEC_POWER].value = between(seed, 0.1, 8);
    }
}

/* A craft with no screws or wires of its own: then nothing can be lighter than what a last state is flown at. */
static void bare(drawn *d)
{
    size_t kept = 0;
    d->craft.joints = d->craft.runs = 0;
    for (size_t i = 0; i < d->holds; i++)
        if (pare_craft_item(&d->craft, d->hold[i]) >= 0)
            d->hold[kept++] = d->hold[i];
    d->holds = kept;
}

/* What the lightest set so far comes to. */
typedef struct figures {
    double of[EDGES];
} figures;

static void keep_figures(force *f, const pare_craft *craft, const char *list, int64_t units)
{
    (void)craft;
    (void)list;
    figures *kept = f->context;
    if (f->found && units >= f->units_best)
        return;
    for (size_t i = 0; i < EDGES; i++) {
        const pare_sheet_figure *figure = &f->sheet.figure[edges[i].figure];
        kept->of[i] = figure->exists ? figure->value : 0;
    }
}

/* ---- certificates ---- */

static bool put_nowhere(void *context, const char *line)
{
    (void)context;
    return line != NULL;
}

/* That there is no set is a claim that must not close where there is one. */
static bool none_is_certified(const drawn *d, const pare_best_ask *ask)
{
    const pare_proof_claim claim = {
        .bench = MARK, .loadout = ask->loadout, .holds = ask->holds, .hold = ask->hold};
    const pare_proof_sink sink = {put_nowhere, NULL};
    pare_proof_told told;
    pare_error err = {0};
    if (pare_proof_write(&d->bench, &d->craft, &claim, NULL, &sink, &told, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return told.verified;
}

/* ---- */

/* @return how many limits were asked with */
static size_t ask_at_each_edge(drawn *d, unsigned n, int loadout, const figures *kept,
                               const force *by_force)
{
    pare_brief *brief = &d->craft.brief;
    size_t asked = 0;
    for (size_t i = 0; i < EDGES; i++) {
        pare_best best;
        pare_error err = {0};
        pare_arena *arena = pare_arena_open();
        const pare_best_ask ask = {.loadout = loadout, .holds = d->holds, .hold = d->hold};
        brief->limit[0] =
            (pare_limit){.key = edges[i].key, .at_least = edges[i].at_least, .value = kept->of[i]};
        brief->limits = kept->of[i] > 0 ? 1 : 0;
        if (pare_best_find(&d->bench, &d->craft, &ask, arena, &best, &err) != PARE_OK)
            fail_msg("bench %u, %s: %s", n, edges[i].key, err.text);
        if (!best.proven || !best.found || best.best_100ug != by_force->units_best)
            fail_msg("bench %u, %s at %.9g: %s%lld, brute force %lld: %s", n, edges[i].key,
                     kept->of[i], best.proven ? "proven " : "not proven ",
                     (long long)best.best_100ug, (long long)by_force->units_best, by_force->list);
        if (none_is_certified(d, &ask))
            fail_msg("bench %u, %s at %.9g: certified that there is none, and there is %s", n,
                     edges[i].key, kept->of[i], by_force->list);
        asked += brief->limits;
        pare_arena_close(arena);
    }
    return asked;
}

static void a_set_on_the_very_edge_of_a_limit_is_found(void **state)
{
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    force *by_force = calloc(1, sizeof *by_force);
    size_t asked = 0, swapped = 0;
    for (unsigned n = 0; n < BENCHES; n++) {
        unsigned seed = n + 1;
        figures kept = {{0}};
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        draw_roundings(&seed, d);
        if (dice(&seed, 2) == 0)
            bare(d);
        d->craft.brief.limits = 0;
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        by_force->resale = NULL;
        if (search_by_force(d, loadout, keep_figures, &kept, by_force) && by_force->found) {
            asked += ask_at_each_edge(d, n, loadout, &kept, by_force);
            swapped += by_force->list[0] != '\0';
        }
        put_back_parts(f, d);
    }
    print_message("%zu limits at an edge; %zu benches whose best has swaps\n", asked, swapped);
    if (asked < BENCHES || swapped < BENCHES / 4)
        fail_msg("%zu asked, %zu with swaps", asked, swapped);
    free(by_force);
    free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_set_on_the_very_edge_of_a_limit_is_found, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
