/* proof_write.c: a certificate that closes, as far as there is time (see proof.h for the design, docs/proof.md
 * for the form).
 *
 * Depth first. At each node the cheap reasons come first; where none says that nothing below is lighter, the
 * node is decided one choice further. Three lines stand between: what is known of a node's screws, a mass above
 * which a limit fails (so that what is left is a band of masses), and a mass below which arms ring. Choices
 * that may take others' lines along are parted by whether they do before anything is put on, since while both
 * are possible those lines count as nothing. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "advise/proof_inside.h"
#include "base/text.h"

enum {
    NODES_BETWEEN_QUESTIONS = 32,
    FINE = 100, /* 10 mg: how near a band's end is looked for */
    SLOTS_BETWEEN_FLIGHTS = 3
};

typedef struct writer {
    const proof_space *space;
    proof_room *room;
    const pare_progress *progress;
    const pare_proof_sink *sink;
    pare_proof_told *told;
    bool stopped, failed;
    size_t nodes;
    int64_t flown; /* the bound at which the last node above was flown */
} writer;

#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
static void
put(writer *w, const char *format, ...)
{
    char line[PARE_PROOF_LINE];
    va_list args;
    if (w->failed)
        return;
    va_start(args, format);
    const int length = vsnprintf(line, sizeof line, format, args);
    va_end(args);
    if (length < 0 || length >= (int)sizeof line || !w->sink->put(w->sink->context, line))
        w->failed = true;
}

/* One line of the tree. */
#define NODE(w, ...)                                                                               \
    do {                                                                                           \
        (w)->told->lines++;                                                                        \
        put((w), __VA_ARGS__);                                                                     \
    } while (0)

static void leaf(writer *w)
{
    w->told->leaves++;
}

static bool goes_on(writer *w)
{
    pare_error err;
    if (w->failed || w->stopped || w->told->refusal[0])
        return false;
    if (++w->nodes % NODES_BETWEEN_QUESTIONS != 0)
        return true;
    if (w->told->lines >= PARE_PROOF_LINES_MOST ||
        pare_progress_step(w->progress, "nodes proven", w->nodes, 0, &err) != PARE_OK)
        w->stopped = true;
    return !w->stopped;
}

static void put_open(writer *w, size_t depth, const char *label)
{
    NODE(w, "%zu %s open", depth, label);
    leaf(w);
    w->told->open++;
}

static void put_node(writer *w, size_t depth, const char *label, size_t at, proof_state *state);

/* ---- whole sets ---- */

static void put_set(writer *w, size_t depth, const char *label, proof_state *state)
{
    const char *by;
    double ratio;
    if (!proof_judge(w->space, state, &by, &ratio)) {
        NODE(w, "%zu %s set %s %.9g", depth, label, by, ratio);
        leaf(w);
        return;
    }
    size_t used =
        (size_t)snprintf(w->told->refusal, sizeof w->told->refusal,
                         "a set of %.4f g does what it must: ", 1e-4 * (double)state->units);
    for (size_t i = 0; i < state->swaps && used < sizeof w->told->refusal; i++)
        used += (size_t)snprintf(w->told->refusal + used, sizeof w->told->refusal - used, "%s%s",
                                 i ? "," : "", w->room->name[i].id);
    put_open(w, depth, label);
}

/* ---- what stands between a node and what it decides ---- */

/* The greatest mass that is not refuted yet, to 10 mg, where a limit refutes what is not much heavier. */
static const char *least_that_fails(writer *w, const proof_state *state, int64_t *units,
                                    double *ratio)
{
    int64_t holds = state->bound, fails = state->ceiling - 1;
    if (state->ceiling == PROOF_NEVER)
        fails = 2 * state->bound;
    if (fails <= holds + FINE)
        return NULL;
    proof_fly(w->space, w->room, state, fails);
    if (!proof_fails(w->space, w->room, state, NULL, ratio))
        return NULL;
    while (fails - holds > FINE) {
        const int64_t middle = holds + (fails - holds) / 2;
        proof_fly(w->space, w->room, state, middle);
        if (proof_fails(w->space, w->room, state, NULL, ratio))
            fails = middle;
        else
            holds = middle;
    }
    *units = fails;
    proof_fly(w->space, w->room, state, fails);
    return proof_fails(w->space, w->room, state, NULL, ratio);
}

/* How far arms ring from the bound on; the bound itself: they do not. */
static int64_t rings_until(writer *w, const proof_state *state, const char *margin)
{
    const int64_t end = state->ceiling == PROOF_NEVER ? 2 * state->bound : state->ceiling;
    if (!proof_rings(w->space, w->room, state, margin, state->bound))
        return state->bound;
    if (proof_rings(w->space, w->room, state, margin, end))
        return end;
    int64_t rings = state->bound, rest = end;
    while (rest - rings > FINE) {
        const int64_t middle = rings + (rest - rings) / 2;
        if (proof_rings(w->space, w->room, state, margin, middle))
            rings = middle;
        else
            rest = middle;
    }
    return rings;
}

static bool put_raise(writer *w, size_t depth, const char *label, size_t at, proof_state *state)
{
    static const char *const margins[] = {"arm.ring", "arm.ring_cruise"};
    for (size_t i = 0; i < sizeof margins / sizeof margins[0]; i++) {
        const int64_t until = rings_until(w, state, margins[i]);
        if (until <= state->bound + FINE)
            continue;
        NODE(w, "%zu %s raise %lld %s", depth, label, (long long)until, margins[i]);
        state->floor = state->bound = until;
        put_node(w, depth + 1, "then", at, state);
        return true;
    }
    return false;
}

/* Where the group has just been put on, the wires have been decided, or all items. */
static bool is_landmark(const writer *w, const proof_state *above, const proof_state *state)
{
    return (!above->built && state->built) ||
           (!proof_wired(w->space, above) && proof_wired(w->space, state)) ||
           (!proof_items_done(above) && proof_items_done(state));
}

/* ---- children ---- */

/* The reasons that need a flight, where a flight has something new to say. */
static bool put_flown(writer *w, size_t depth, const char *label, proof_state *state)
{
    double ratio;
    const char *by;
    proof_fly(w->space, w->room, state, state->bound);
    by = proof_fails(w->space, w->room, state, NULL, &ratio);
    if (by) {
        NODE(w, "%zu %s limit %s %.9g", depth, label, by, ratio);
        leaf(w);
        return true;
    }
    by = state->built && !proof_items_done(state) ? proof_loose(w->space, w->room, state, NULL)
                                                  : NULL;
    if (by) {
        NODE(w, "%zu %s loose %s", depth, label, by);
        leaf(w);
    }
    return by != NULL;
}

static void put_parts(writer *w, size_t depth, size_t at, proof_state *state, size_t choice)
{
    for (int plain = 1; plain >= 0; plain--) {
        proof_state *child = proof_room_at(w->room, at + 1);
        const char *label = plain ? "plain" : "other";
        if (!child || !goes_on(w)) {
            put_open(w, depth + 1, label);
            continue;
        }
        proof_part(w->space, state, choice, plain, child);
        if (child->bound >= child->ceiling || !put_flown(w, depth + 1, label, child))
            put_node(w, depth + 1, label, at + 1, child);
    }
}

static void prepare(writer *w, size_t depth, const char *label, size_t at, const proof_state *above,
                    proof_state *state);

/* One option or way that is not too heavy before it is put on. */
static void put_child(writer *w, size_t depth, const char *label, size_t at, proof_state *state,
                      size_t nth)
{
    proof_state *child = proof_room_at(w->room, at + 1);
    if (proof_apart(w->space, state, nth)) {
        NODE(w, "%zu %s apart", depth, label);
        leaf(w);
    } else if (!child || !goes_on(w)) {
        put_open(w, depth, label);
    } else if (!proof_enter(w->space, w->room, state, nth, child)) {
        NODE(w, "%zu %s no", depth, label);
        leaf(w);
    } else {
        prepare(w, depth, label, at + 1, state, child);
    }
}

static void put_children(writer *w, size_t depth, size_t at, proof_state *state)
{
    const size_t ways = proof_ways(w->space, state);
    const bool items = state->step <= PROOF_STEP_ITEM;
    for (size_t i = 0; i < ways; i++) {
        char label[PROOF_LABEL];
        if (items && !proof_allowed(w->space, state, state->at, i))
            continue;
        proof_label(w->space, state, i, label);
        if (items) {
            const int64_t with = proof_bound_with(w->space, state, state->at, i);
            if (with >= state->ceiling) {
                const int64_t rest = proof_rest(w->space, state, i);
                const bool all = rest >= state->ceiling;
                NODE(w, "%zu %s %s %lld", depth + 1, label, all ? "rest" : "heavy",
                     (long long)(all ? rest : with));
                leaf(w);
                if (all)
                    return;
                continue;
            }
        }
        put_child(w, depth + 1, label, at, state, i);
    }
}

/* ---- a node ---- */

/* A node that was just made: what is known at once, then its landmarks. */
static void prepare(writer *w, size_t depth, const char *label, size_t at, const proof_state *above,
                    proof_state *state)
{
    const char *lacks = state->bound < state->ceiling ? proof_lacks(w->space, state, NULL) : NULL;
    if (lacks) {
        NODE(w, "%zu %s lacks %s", depth, label, lacks);
        leaf(w);
        return;
    }
    if (state->bound >= state->ceiling || state->step == PROOF_STEP_SET) {
        put_node(w, depth, label, at, state);
        return;
    }
    const bool landmark = is_landmark(w, above, state);
    const bool flies =
        state->built ? landmark || state->step == PROOF_STEP_ITEM || state->step == PROOF_STEP_POWER
                     : state->at == w->space->group[PROOF_GROUP - 1];
    if (flies && put_flown(w, depth, label, state))
        return;
    if (landmark) {
        proof_hold(w->space, w->room, state);
        NODE(w, "%zu %s hold %lld", depth, label, (long long)state->bound);
        label = "then";
        depth++;
        int64_t most;
        double ratio;
        const char *by =
            state->bound < state->ceiling ? least_that_fails(w, state, &most, &ratio) : NULL;
        if (by) {
            NODE(w, "%zu then most %lld %s %.9g", depth++, (long long)most, by, ratio);
            state->ceiling = most;
        }
    }
    put_node(w, depth, label, at, state);
}

static bool put_split(writer *w, size_t depth, const char *label, size_t at, proof_state *state)
{
    for (size_t c = 0; state->built && c < w->space->choices; c++) {
        if (!proof_open(state, c) || state->allow[c] != PROOF_ALL || !w->space->choice[c].splits)
            continue;
        NODE(w, "%zu %s part %s", depth, label,
             w->space->desk->craft->item[w->space->choice[c].item].name);
        put_parts(w, depth, at, state, c);
        return true;
    }
    return false;
}

static void put_node(writer *w, size_t depth, const char *label, size_t at, proof_state *state)
{
    if (state->bound >= state->ceiling) {
        NODE(w, "%zu %s mass %lld", depth, label, (long long)state->bound);
        leaf(w);
        return;
    }
    if (!goes_on(w)) {
        put_open(w, depth, label);
        return;
    }
    if (state->step == PROOF_STEP_SET) {
        put_set(w, depth, label, state);
        return;
    }
    if (proof_items_done(state) && put_raise(w, depth, label, at, state))
        return;
    if (put_split(w, depth, label, at, state))
        return;
    char what[PROOF_LABEL];
    proof_what(w->space, state, what);
    NODE(w, "%zu %s choose %s", depth, label, what);
    put_children(w, depth, at, state);
}

/* ---- the head ---- */

static void put_names(writer *w, const char *key, size_t count, const char *const name[])
{
    for (size_t i = 0; i < count; i++)
        put(w, "%s %s", key, name[i]);
}

static void put_head(writer *w)
{
    const pare_proof_claim *claim = w->space->claim;
    const pare_craft *craft = w->space->desk->craft;
    put(w, "pare-proof %d", PROOF_VERSION);
    put(w, "bench %016llx", claim->bench);
    put(w, "craft %s", craft->name);
    if (claim->loadout >= 0)
        put(w, "loadout %s", craft->loadout[claim->loadout].name);
    put_names(w, "hold", claim->holds, claim->hold);
    put_names(w, "never", claim->nevers, claim->never);
    put_names(w, "must", claim->musts, claim->must);
    if (claim->found)
        put(w, "best %lld", (long long)claim->best_100ug);
    else
        put(w, "best none");
    put_names(w, "set", claim->swaps, claim->swap);
    put(w, "tree");
}

pare_status pare_proof_write(const pare_bench *bench, const pare_craft *craft,
                             const pare_proof_claim *claim, const pare_progress *progress,
                             const pare_proof_sink *sink, pare_proof_told *told, pare_error *err)
{
    writer w = {.progress = progress, .sink = sink, .told = told};
    proof_space *space = NULL;
    pare_arena *arena = pare_arena_open();
    *told = (pare_proof_told){.craft = craft->name,
                              .loadout =
                                  claim->loadout >= 0 ? craft->loadout[claim->loadout].name : NULL,
                              .best_100ug = claim->best_100ug,
                              .found = claim->found,
                              .holds = claim->holds,
                              .nevers = claim->nevers,
                              .musts = claim->musts};
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = proof_space_open(bench, craft, claim, arena, &space, err);
    if (status == PARE_OK)
        status = proof_room_open(&w.room, err);
    if (status == PARE_OK && !proof_room_at(w.room, 1)) /* what the claim is looked at in */
        status = pare_no_memory(err);
    if (status == PARE_OK) {
        char why[256];
        w.space = space;
        put_head(&w);
        if (!proof_claimed(space, w.room, why))
            snprintf(told->refusal, sizeof told->refusal, "%s", why);
        proof_state *first = proof_room_at(w.room, 0); /* made along with that below it */
        status = proof_first(space, first, err);
        if (status == PARE_OK)
            put_node(&w, 0, "-", 0, first);
        put(&w, "end %zu", told->lines);
    }
    if (status == PARE_OK && w.failed)
        status = pare_fail(err, PARE_UNAVAILABLE, "the certificate cannot be written");
    told->sound = status == PARE_OK && !told->refusal[0];
    told->verified = told->sound && told->open == 0;
    proof_room_close(w.room);
    pare_arena_close(arena);
    return status;
}
