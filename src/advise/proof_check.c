/* proof_check.c: reads a certificate and works out again what each of its lines says (see proof.h for the
 * design, docs/proof.md for the form).
 *
 * The tree is walked as it is read, with one state a level and nothing else kept, so memory does not grow with
 * the file. Which children a node has is worked out here: each must be there, once, in its turn, under its own
 * name, whatever the file would rather have. A leaf's reason must hold by itself and say the number that comes
 * out of it. Nothing is taken from the file but where to branch, and which reason to look at. */
#include <errno.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/proof_inside.h"
#include "base/text.h"

#define SAME_RATIO                                                                                 \
    1e-6 /* of a ratio that is said again: its digits, and another machine's last bits */

enum { LINES_BETWEEN_QUESTIONS = 64, MOST_NAMES = 64 };

typedef enum child_sort { BELOW_CHOOSE, BELOW_PART, BELOW_THEN } child_sort;

/* A node whose children are being read. */
typedef struct frame {
    child_sort below;
    size_t state; /* the room's */
    size_t next;  /* child */
    size_t choice;
} frame;

typedef struct checker {
    const proof_space *space;
    proof_room *room;
    bool no_memory; /* the certificate is not to blame */
    const pare_proof_source *source;
    const pare_progress *progress;
    pare_proof_told *told;
    size_t number; /* of the line */
    char line[PARE_PROOF_LINE];
    size_t frames;
    frame frame[PROOF_DEPTH];
} checker;

/* What is wrong, once, with where. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
static bool
refuse(checker *c, const char *format, ...)
{
    if (c->told->refusal[0])
        return false;
    pare_error err;
    char what[384];
    va_list args;
    va_start(args, format);
    vsnprintf(what, sizeof what, format, args);
    va_end(args);
    pare_fail(&err, PARE_BAD_DATA, "%s:%zu: %s", c->source->name, c->number, what);
    snprintf(c->told->refusal, sizeof c->told->refusal, "%s", err.text);
    return false;
}

static bool without_memory(checker *c)
{
    c->no_memory = true;
    return refuse(c, "out of memory");
}

/* The next line. False: there is none, or none that could be one. */
static bool read_line(checker *c)
{
    const int got = c->source->get(c->source->context, c->line);
    c->number++;
    if (got >= 0)
        return true;
    return refuse(c, "%s",
                  got == -1   ? "the file ends here; a certificate ends with its line 'end'"
                  : got == -2 ? "no line of a certificate: cut off, too long, or no text"
                              : "cannot be read");
}

/* ---- words of a line ---- */

/* Whether a line goes on with a word; moves behind it and a space. */
static bool take_word(const char **at, const char *word)
{
    const size_t length = strlen(word);
    if (strncmp(*at, word, length) != 0 || ((*at)[length] != ' ' && (*at)[length] != '\0'))
        return false;
    *at += length + ((*at)[length] == ' ');
    return true;
}

/* A whole number, in the one spelling that the writer has. */
static bool take_number(const char **at, long long *number)
{
    char again[24];
    char *end;
    errno = 0;
    *number = strtoll(*at, &end, 10);
    if (end == *at || errno || (*end && *end != ' '))
        return false;
    const int length = snprintf(again, sizeof again, "%lld", *number);
    if (length != (int)(end - *at) || strncmp(again, *at, (size_t)length) != 0)
        return false;
    *at = end + (*end == ' ');
    return true;
}

static bool take_ratio(const char **at, double *ratio)
{
    char *end;
    *ratio = strtod(*at, &end);
    if (end == *at || *end || !isfinite(*ratio))
        return false;
    *at = end;
    return true;
}

/* The next word by itself. */
static bool take_any(const char **at, size_t size, char word[])
{
    const size_t length = strcspn(*at, " ");
    if (length == 0 || length >= size)
        return false;
    memcpy(word, *at, length);
    word[length] = '\0';
    *at += length + ((*at)[length] == ' ');
    return true;
}

static bool same_ratio(double said, double is)
{
    return fabs(said - is) <= SAME_RATIO * fmax(fabs(is), 1e-9);
}

/* ---- leaves ---- */

static bool check_number(checker *c, long long said, int64_t is, const char *of)
{
    if (said == is)
        return true;
    return refuse(c, "%s is %.4f g here, not %.4f g", of, 1e-4 * (double)is, 1e-4 * (double)said);
}

/* A mass that is enough to be out of the question. */
static bool check_heavy(checker *c, const proof_state *state, long long said, int64_t is)
{
    if (!check_number(c, said, is, "the least mass"))
        return false;
    if (is >= state->ceiling)
        return true;
    return refuse(c, "%.4f g is less than %.4f g: nothing is refuted", 1e-4 * (double)is,
                  1e-4 * (double)state->ceiling);
}

/* "NAME RATIO" of a flight that was just made. */
static bool check_limit(checker *c, const proof_state *state, const char **at)
{
    char name[64];
    double said, is = 0;
    if (!take_any(at, sizeof name, name) || !take_ratio(at, &said))
        return refuse(c, "a limit's name and ratio are due");
    if (!proof_fails(c->space, c->room, state, name, &is))
        return refuse(c, "'%s' does not refute this", name);
    if (!same_ratio(said, is))
        return refuse(c, "'%s' is at %.9g of its limit here, not %.9g", name, is, said);
    return true;
}

static bool check_set(checker *c, proof_state *state, const char **at)
{
    char name[64];
    const char *by = "";
    double said, is;
    if (state->step != PROOF_STEP_SET)
        return refuse(c, "this is no whole set yet");
    if (!take_any(at, sizeof name, name) || !take_ratio(at, &said))
        return refuse(c, "what refuses the set, and its ratio, are due");
    if (proof_judge(c->space, state, &by, &is))
        return refuse(c, "a set of %.4f g that does what it must: the claim is wrong",
                      1e-4 * (double)state->units);
    if (!pare_same_name(name, by) || !same_ratio(said, is))
        return refuse(c, "the set is refused by '%s' at %.9g, not by '%s' at %.9g", by, is, name,
                      said);
    return true;
}

/* A reason of a node that stands. @return whether there was one; ok: it holds */
static bool check_leaf(checker *c, proof_state *state, const char **at, bool *ok)
{
    long long number;
    char name[PROOF_LABEL] = "";
    if (take_word(at, "mass")) {
        *ok = take_number(at, &number) ? check_heavy(c, state, number, state->bound)
                                       : refuse(c, "a mass in 0.1 mg is due");
    } else if (take_word(at, "limit")) {
        proof_fly(c->space, c->room, state, state->bound);
        *ok = check_limit(c, state, at);
    } else if (take_word(at, "loose")) {
        proof_fly(c->space, c->room, state, state->bound);
        *ok = take_any(at, sizeof name, name) && state->built &&
                      proof_loose(c->space, c->room, state, name)
                  ? true
                  : refuse(c, "joint '%.60s' holds in some way", name);
    } else if (take_word(at, "lacks")) {
        *ok = take_any(at, sizeof name, name) && proof_lacks(c->space, state, name)
                  ? true
                  : refuse(c, "part '%.60s' may still come", name);
    } else if (take_word(at, "set")) {
        *ok = check_set(c, state, at);
    } else if (take_word(at, "open")) {
        c->told->open++;
        *ok = true;
    } else {
        return false;
    }
    c->told->leaves++;
    if (*ok && **at)
        *ok = refuse(c, "'%.60s' is too much", *at);
    return true;
}

/* ---- nodes ---- */

static bool push(checker *c, child_sort below, size_t state, size_t choice)
{
    if (c->frames == PROOF_DEPTH)
        return refuse(c, "deeper than any tree of this craft");
    c->frame[c->frames++] = (frame){.below = below, .state = state, .choice = choice};
    return true;
}

static bool check_choose(checker *c, const proof_state *state, size_t at_state, const char *at)
{
    char what[PROOF_LABEL];
    proof_what(c->space, state, what);
    if (state->step == PROOF_STEP_SET || !pare_same_name(what, at))
        return refuse(c, "'%.60s' is not what is decided next; that is '%.60s'", at, what);
    return push(c, BELOW_CHOOSE, at_state, state->at);
}

static bool check_part(checker *c, const proof_state *state, size_t at_state, const char *at)
{
    for (size_t i = 0; state->built && i < c->space->choices; i++)
        if (proof_open(state, i) && state->allow[i] == PROOF_ALL && c->space->choice[i].splits &&
            pare_same_name(c->space->desk->craft->item[c->space->choice[i].item].name, at))
            return push(c, BELOW_PART, at_state, i);
    return refuse(c, "'%.60s' cannot be parted here", at);
}

static bool check_hold(checker *c, proof_state *state, size_t at_state, const char *at)
{
    long long said;
    if (!take_number(&at, &said) || *at)
        return refuse(c, "a mass in 0.1 mg is due");
    if (!state->built)
        return refuse(c, "nothing is known of screws before the group is on");
    proof_fly(c->space, c->room, state, state->bound);
    proof_hold(c->space, c->room, state);
    return check_number(c, said, state->bound, "the least mass with screws that hold") &&
           push(c, BELOW_THEN, at_state, 0);
}

/* Above a mass all fail, so what is left is lighter. */
static bool check_most(checker *c, proof_state *state, size_t at_state, const char *at)
{
    long long most;
    if (!take_number(&at, &most) || most < state->bound || most > PARE_PROOF_MASS_MOST)
        return refuse(c, "a mass in 0.1 mg is due, no less than %.4f g",
                      1e-4 * (double)state->bound);
    proof_fly(c->space, c->room, state, most);
    if (!check_limit(c, state, &at))
        return false;
    if (*at)
        return refuse(c, "'%.60s' is too much", at);
    state->ceiling = most < state->ceiling ? most : state->ceiling;
    return push(c, BELOW_THEN, at_state, 0);
}

/* Below a mass all ring. */
static bool check_raise(checker *c, proof_state *state, size_t at_state, const char *at)
{
    long long until;
    char name[PROOF_LABEL];
    if (!take_number(&at, &until) || until < state->bound || until > PARE_PROOF_MASS_MOST)
        return refuse(c, "a mass in 0.1 mg is due, no less than %.4f g",
                      1e-4 * (double)state->bound);
    if (!take_any(&at, sizeof name, name) || *at ||
        !proof_rings(c->space, c->room, state, name, until))
        return refuse(c, "arms do not ring all the way up to %.4f g", 1e-4 * (double)until);
    state->floor = state->bound = until;
    return push(c, BELOW_THEN, at_state, 0);
}

/* What a line says of a node that stands. */
static bool check_node(checker *c, size_t at_state, const char *at)
{
    proof_state *state = proof_room_at(c->room, at_state);
    bool ok = false;
    if (check_leaf(c, state, &at, &ok))
        return ok;
    if (take_word(&at, "choose"))
        return check_choose(c, state, at_state, at);
    if (take_word(&at, "part"))
        return check_part(c, state, at_state, at);
    if (take_word(&at, "hold"))
        return check_hold(c, state, at_state, at);
    if (take_word(&at, "most"))
        return check_most(c, state, at_state, at);
    if (take_word(&at, "raise"))
        return check_raise(c, state, at_state, at);
    return refuse(c, "'%.60s' is no reason", at);
}

/* A way that is not put on. @return whether the line says so; ok: rightly */
static bool check_unentered(checker *c, frame *f, proof_state *state, size_t nth, const char *at,
                            bool *ok)
{
    const bool items = state->step <= PROOF_STEP_ITEM;
    long long said;
    if (take_word(&at, "heavy")) {
        *ok = items && take_number(&at, &said)
                  ? check_heavy(c, state, said, proof_bound_with(c->space, state, state->at, nth))
                  : refuse(c, "a mass in 0.1 mg is due, of an item");
    } else if (take_word(&at, "rest")) {
        *ok = items && take_number(&at, &said)
                  ? check_heavy(c, state, said, proof_rest(c->space, state, nth))
                  : refuse(c, "a mass in 0.1 mg is due, of items");
        f->next = proof_ways(c->space, state);
    } else if (take_word(&at, "apart")) {
        *ok = proof_apart(c->space, state, nth) ? true : refuse(c, "these mate");
    } else {
        return false;
    }
    c->told->leaves++;
    if (*ok && *at)
        *ok = refuse(c, "'%.60s' is too much", at);
    return true;
}

static bool check_way(checker *c, frame *f, size_t nth, const char *at)
{
    proof_state *state = proof_room_at(c->room, f->state);
    bool ok = false;
    f->next = nth + 1;
    if (check_unentered(c, f, state, nth, at, &ok))
        return ok;
    if (strcmp(at, "open") == 0) {
        c->told->open++;
        c->told->leaves++;
        return true;
    }
    const bool no = strcmp(at, "no") == 0;
    proof_state *child = proof_room_at(c->room, f->state + 1);
    if (!child)
        return f->state + 1 < PROOF_DEPTH ? without_memory(c)
                                          : refuse(c, "deeper than any tree of this craft");
    if (proof_enter(c->space, c->room, state, nth, child) == no)
        return refuse(c, no ? "this goes on" : "this does not go on");
    if (!no)
        return check_node(c, f->state + 1, at);
    c->told->leaves++;
    return true;
}

/* The child that is due. False: the node is done. */
static bool is_due(const checker *c, const frame *f, size_t *nth, char label[PROOF_LABEL])
{
    if (f->below == BELOW_THEN) {
        snprintf(label, PROOF_LABEL, "then");
        return f->next == 0;
    }
    if (f->below == BELOW_PART) {
        snprintf(label, PROOF_LABEL, f->next == 0 ? "plain" : "other");
        return f->next < 2;
    }
    const proof_state *state = c->room->state[f->state];
    const size_t ways = proof_ways(c->space, state);
    *nth = f->next;
    while (*nth < ways && state->step <= PROOF_STEP_ITEM &&
           !proof_allowed(c->space, state, state->at, *nth))
        (*nth)++;
    if (*nth < ways)
        proof_label(c->space, state, *nth, label);
    return *nth < ways;
}

static bool check_child(checker *c, frame *f, size_t nth, const char *at)
{
    if (f->below == BELOW_CHOOSE)
        return check_way(c, f, nth, at);
    if (f->below == BELOW_THEN) {
        f->next = 1;
        return check_node(c, f->state, at);
    }
    proof_state *child = proof_room_at(c->room, f->state + 1);
    if (!child)
        return f->state + 1 < PROOF_DEPTH ? without_memory(c)
                                          : refuse(c, "deeper than any tree of this craft");
    proof_part(c->space, c->room->state[f->state], f->choice, f->next == 0, child);
    f->next++;
    return check_node(c, f->state + 1, at);
}

/* A line of the tree, under the label that is due. */
static bool read_node(checker *c, size_t depth, const char *label, const char **at)
{
    long long said;
    if (c->told->lines >= PARE_PROOF_LINES_MOST)
        return refuse(c, "more than %d lines of a tree", PARE_PROOF_LINES_MOST);
    if (!read_line(c))
        return false;
    c->told->lines++;
    *at = c->line;
    if (!take_number(at, &said) || said < 0)
        return refuse(c, "a level, what is put on and a reason are due, not '%.60s'", c->line);
    if ((size_t)said != depth || !take_word(at, label))
        return refuse(c, "'%zu %.60s' is due here, not '%.60s'", depth, label, c->line);
    return true;
}

static bool goes_on(checker *c, pare_error *err, pare_status *status)
{
    if (c->told->lines % LINES_BETWEEN_QUESTIONS == 0)
        *status = pare_progress_step(c->progress, "nodes checked", c->told->lines, 0, err);
    return *status == PARE_OK;
}

static pare_status check_tree(checker *c, pare_error *err)
{
    const char *at = c->line;
    pare_status status = PARE_OK;
    if (!read_node(c, 0, "-", &at) || !check_node(c, 0, at))
        return PARE_OK;
    while (c->frames > 0 && !c->told->refusal[0] && goes_on(c, err, &status)) {
        frame *f = &c->frame[c->frames - 1];
        char label[PROOF_LABEL];
        size_t nth = 0;
        if (!is_due(c, f, &nth, label)) {
            c->frames--;
            continue;
        }
        if (read_node(c, c->frames, label, &at))
            (void)check_child(c, f, nth, at);
    }
    if (status != PARE_OK || c->told->refusal[0] || !read_line(c))
        return status;
    long long said;
    at = c->line;
    if (!take_word(&at, "end") || !take_number(&at, &said) || *at ||
        said != (long long)c->told->lines)
        (void)refuse(c, "'end %zu' is due here, not '%.60s'", c->told->lines, c->line);
    else if (c->source->get(c->source->context, c->line) != -1) {
        c->number++;
        (void)refuse(c, "something stands behind the end");
    }
    return PARE_OK;
}

/* ---- the head ---- */

typedef struct names {
    size_t count;
    const char *name[MOST_NAMES];
} names;

typedef struct head {
    pare_proof_claim claim;
    const pare_craft *craft;
    names hold, never, must, set;
} head;

static bool keep_name(checker *c, pare_arena *arena, names *to, const char *name)
{
    if (to->count == MOST_NAMES)
        return refuse(c, "more than %d names of one sort", MOST_NAMES);
    const char *copy = pare_arena_copy(arena, name, strlen(name));
    if (!copy)
        return without_memory(c);
    to->name[to->count++] = copy;
    return true;
}

static bool read_mark(checker *c, unsigned long long *mark)
{
    char again[32];
    if (!read_line(c))
        return false;
    snprintf(again, sizeof again, "pare-proof %d", PROOF_VERSION);
    if (strcmp(c->line, again) != 0)
        return refuse(c, "no certificate that this program reads: '%s' is due", again);
    if (!read_line(c))
        return false;
    *mark = strncmp(c->line, "bench ", 6) == 0 ? strtoull(c->line + 6, NULL, 16) : 0;
    snprintf(again, sizeof again, "bench %016llx", *mark);
    if (strcmp(c->line, again) != 0)
        return refuse(c, "'bench' and sixteen digits are due");
    return true;
}

/* NULL: refused. */
static const pare_craft *read_craft(checker *c, const pare_bench *bench)
{
    const char *at = c->line;
    if (!read_line(c))
        return NULL;
    if (!take_word(&at, "craft")) {
        (void)refuse(c, "'craft' and its name are due");
        return NULL;
    }
    const pare_craft *craft = pare_bench_craft(bench, at);
    if (craft)
        c->told->craft = craft->name;
    else
        (void)refuse(c, "the bench has no craft '%.60s'", at);
    return craft;
}

/* Lines from the loadout to the tree, in their order. */
static bool read_claim(checker *c, const pare_bench *bench, pare_arena *arena, head *h)
{
    static const char *const keys[] = {"loadout", "hold", "never", "must", "best", "set", "tree"};
    enum { LOADOUT, HOLD, NEVER, MUST, BEST, SET, TREE };
    names *const lists[] = {
        [HOLD] = &h->hold, [NEVER] = &h->never, [MUST] = &h->must, [SET] = &h->set};
    size_t from = LOADOUT;
    bool best = false;
    h->claim.loadout = -1;
    for (;;) {
        if (!read_line(c))
            return false;
        const char *at = c->line;
        size_t key = from;
        while (key <= TREE && !take_word(&at, keys[key]))
            key++;
        if (key > TREE || (key >= SET && !best))
            return refuse(c, "'%.60s' is not due here", c->line);
        from = key == LOADOUT || key == BEST ? key + 1 : key;
        if (key == TREE)
            return true;
        if (key == LOADOUT) {
            h->claim.loadout = pare_craft_loadout(h->craft, at);
            if (h->claim.loadout < 0)
                return refuse(c, "craft '%s' has no loadout '%.60s'", h->craft->name, at);
            c->told->loadout = h->craft->loadout[h->claim.loadout].name;
        } else if (key == BEST) {
            long long units = 0;
            best = true;
            h->claim.found = strcmp(at, "none") != 0;
            if (h->claim.found &&
                (!take_number(&at, &units) || *at || units <= 0 || units > PARE_PROOF_MASS_MOST))
                return refuse(c, "'best' and a mass in 0.1 mg are due, or 'best none'");
            h->claim.best_100ug = units;
        } else {
            if ((key == NEVER || key == MUST) && !pare_bench_part(bench, at))
                return refuse(c, "the bench has no part '%.60s'", at);
            if (key == SET && !h->claim.found)
                return refuse(c, "a set where there is none");
            if (!keep_name(c, arena, lists[key], at))
                return false;
        }
    }
}

static pare_status read_head(checker *c, const pare_bench *bench, pare_arena *arena,
                             pare_proof_mark *mark, void *context, head *h, pare_error *err)
{
    unsigned long long said = 0, is = 0;
    h->craft = read_mark(c, &said) ? read_craft(c, bench) : NULL;
    if (!h->craft)
        return PARE_OK;
    const pare_status status = mark(context, h->craft, &is, err);
    if (status != PARE_OK)
        return status;
    if (said != is) {
        (void)refuse(c, "this is about another bench, or parts or craft have changed since");
        return PARE_OK;
    }
    if (!read_claim(c, bench, arena, h))
        return PARE_OK;
    h->claim.bench = said;
    h->claim.holds = h->hold.count;
    h->claim.hold = h->hold.name;
    h->claim.nevers = h->never.count;
    h->claim.never = h->never.name;
    h->claim.musts = h->must.count;
    h->claim.must = h->must.name;
    h->claim.swaps = h->set.count;
    h->claim.swap = h->set.name;
    c->told->holds = h->claim.holds;
    c->told->nevers = h->claim.nevers;
    c->told->musts = h->claim.musts;
    c->told->found = h->claim.found;
    c->told->best_100ug = h->claim.best_100ug;
    return PARE_OK;
}

static pare_status check_all(checker *c, const pare_bench *bench, pare_arena *arena, const head *h,
                             pare_error *err)
{
    char why[256];
    proof_space *space;
    pare_status status = proof_space_open(bench, h->craft, &h->claim, arena, &space, err);
    if (status == PARE_OK)
        status = proof_room_open(&c->room, err);
    if (status != PARE_OK)
        return status;
    c->space = space;
    if (!proof_room_at(c->room, 1))
        return pare_no_memory(err);
    if (!proof_claimed(space, c->room, why)) {
        (void)refuse(c, "%s", why);
        return PARE_OK;
    }
    status = proof_first(space, proof_room_at(c->room, 0), err); /* made along with that below it */
    return status == PARE_OK ? check_tree(c, err) : status;
}

pare_status pare_proof_check(const pare_bench *bench, const pare_proof_source *source,
                             pare_proof_mark *mark, void *context, const pare_progress *progress,
                             pare_proof_told *told, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    checker *c = calloc(1, sizeof *c);
    head *h = calloc(1, sizeof *h);
    *told = (pare_proof_told){0};
    pare_status status = arena && c && h ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK) {
        c->source = source;
        c->progress = progress;
        c->told = told;
        status = read_head(c, bench, arena, mark, context, h, err);
    }
    if (status == PARE_OK && !told->refusal[0])
        status = check_all(c, bench, arena, h, err);
    if (status == PARE_OK && c->no_memory)
        status = pare_no_memory(err);
    told->sound = status == PARE_OK && !told->refusal[0];
    told->verified = told->sound && told->open == 0;
    if (c)
        proof_room_close(c->room);
    free(c);
    free(h);
    pare_arena_close(arena);
    return status;
}
