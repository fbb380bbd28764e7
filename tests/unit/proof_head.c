/* rooms: store advise craft physics base */
/* Certificates edited line by line: what each slip in the head, a leaf or the end is answered, word for word and with
 * its line, and that no file is followed deeper than any tree of a craft. */
#include "proof_kept.h"

typedef struct kept {
    fixture *f;
    drawn d;
    certificate whole;
    size_t tree; /* the line "tree" */
    pare_arena *arena;
} kept;

/* A bench whose certificate has hardly any choice open. */
static int write_one(void **state)
{
    kept *k = calloc(1, sizeof *k);
    void *fixture_state = NULL;
    if (!k || fixture_open(&fixture_state) != 0)
        return -1;
    *state = k;
    k->f = fixture_state;
    drawn *d = &k->d;
    d->bench = *k->f->bench;
    pare_craft_copy(k->f->craft, &d->craft);
    static pare_craft *only[1];
    only[0] = &d->craft;
    d->bench.crafts = 1;
    d->bench.craft = only;
    d->craft.brief.limits = 0;
    for (size_t i = 0; i < d->craft.items; i++)
        if (strcmp(d->craft.item[i].name, "capacitor") != 0 &&
            strcmp(d->craft.item[i].name, "bumper") != 0)
            hold(d, "", d->craft.item[i].name);
    for (size_t i = 0; i < d->craft.joints; i++)
        hold(d, "joint.", d->craft.joint[i].name);
    for (size_t i = 0; i < d->craft.runs; i++)
        if (strcmp(d->craft.run[i].name, "camera_wire") != 0)
            hold(d, "run.", d->craft.run[i].name);
    const char *names[PARE_BEST_SWAPS];
    static const char *const must[] = {"mo-a"};
    const pare_best_ask ask = {
        .loadout = 1, .holds = d->holds, .hold = d->hold, .musts = 1, .must = must};
    pare_best best;
    pare_error err = {0};
    k->arena = pare_arena_open();
    if (pare_best_find(&d->bench, &d->craft, &ask, k->arena, &best, &err) != PARE_OK || !best.found)
        return -1;
    const pare_proof_claim claim = claim_of(&ask, &best, names);
    if (!write(&d->bench, &d->craft, &claim, &k->whole).verified)
        return -1;
    k->tree = find(&k->whole, "tree");
    return 0;
}

static int forget_one(void **state)
{
    kept *k = *state;
    void *fixture_state = k->f;
    forget(&k->whole);
    pare_arena_close(k->arena);
    free(k);
    return fixture_close(&fixture_state);
}

/* Checks an edited copy, and wants it refused with these words at that line, from 1. */
static void refused_at(kept *k, certificate *c, size_t line, const char *says)
{
    char wanted[600];
    const pare_proof_told told = check(&k->d.bench, c);
    snprintf(wanted, sizeof wanted, "file:%zu: %s", line, says);
    assert_false(told.verified);
    if (strcmp(told.refusal, wanted) != 0)
        fail_msg("'%s', not '%s'", told.refusal, wanted);
    forget(c);
}

static void other_line(kept *k, const char *begins, const char *is, const char *says)
{
    certificate c;
    copy(&k->whole, &c);
    const size_t at = find(&c, begins);
    assert_true(at < c.lines);
    replace(&c, at, is);
    refused_at(k, &c, at + 1, says);
}

static void one_more(kept *k, const char *before, const char *line, const char *says)
{
    certificate c;
    copy(&k->whole, &c);
    const size_t at = find(&c, before);
    assert_true(at < c.lines);
    insert(&c, at, line);
    refused_at(k, &c, at + 1, says);
}

static void each_line_of_a_head_says_what_is_due(void **state)
{
    kept *k = *state;
    static const struct {
        const char *begins, *is, *says;
    } other[] = {
        {"pare-proof", "pare-proof 2",
         "no certificate that this program reads: 'pare-proof 1' is due"},
        {"bench", "bench", "'bench' and sixteen digits are due"},
        {"bench", "bench 12", "'bench' and sixteen digits are due"},
        {"bench", "bank 0000000000001234", "'bench' and sixteen digits are due"},
        {"craft", "kraft mule", "'craft' and its name are due"},
        {"craft", "craft donkey", "the bench has no craft 'donkey'"},
        {"loadout", "loadout heavy", "craft 'mule' has no loadout 'heavy'"},
        {"must", "must mo-z", "the bench has no part 'mo-z'"},
        {"must", "never mo-z", "the bench has no part 'mo-z'"},
        {"best", "best", "'best' and a mass in 0.1 mg are due, or 'best none'"},
        {"best", "best much", "'best' and a mass in 0.1 mg are due, or 'best none'"},
        {"best", "best 07", "'best' and a mass in 0.1 mg are due, or 'best none'"},
        {"best", "best +7", "'best' and a mass in 0.1 mg are due, or 'best none'"},
        {"best", "best 7g", "'best' and a mass in 0.1 mg are due, or 'best none'"},
        {"best", "best 7 8", "'best' and a mass in 0.1 mg are due, or 'best none'"},
        {"best", "best 0", "'best' and a mass in 0.1 mg are due, or 'best none'"},
        {"best", "best -5", "'best' and a mass in 0.1 mg are due, or 'best none'"},
        {"best", "best 1000000000001", "'best' and a mass in 0.1 mg are due, or 'best none'"},
        {"best", "set motor=mo-b", "'set motor=mo-b' is not due here"},
        {"best", "tree", "'tree' is not due here"},
        {"tree", "trees", "'trees' is not due here"},
    };
    for (size_t i = 0; i < sizeof other / sizeof other[0]; i++)
        other_line(k, other[i].begins, other[i].is, other[i].says);
    one_more(k, "best", "loadout light", "'loadout light' is not due here");
    certificate c;
    copy(&k->whole, &c);
    replace(&c, find(&c, "best"), "best none");
    insert(&c, find(&c, "best") + 1, "set motor=mo-b");
    refused_at(k, &c, find(&k->whole, "best") + 2, "a set where there is none");
    copy(&k->whole, &c);
    for (int i = 0; i < 70; i++)
        insert(&c, find(&c, "must"), "hold nothing.at.all");
    refused_at(k, &c, find(&c, "hold") + 65, "more than 64 names of one sort");
    for (size_t lines = 0; lines <= k->tree; lines++) {
        copy(&k->whole, &c);
        while (c.lines > lines)
            drop(&c, c.lines - 1);
        refused_at(k, &c, lines + 1, "the file ends here; a certificate ends with its line 'end'");
    }
}

static void each_reason_says_what_is_due(void **state)
{
    kept *k = *state;
    static const struct {
        const char *node, *says;
    } other[] = {
        {"- - open", "a level, what is put on and a reason are due, not '- - open'"},
        {"-1 - open", "a level, what is put on and a reason are due, not '-1 - open'"},
        {"0x - open", "a level, what is put on and a reason are due, not '0x - open'"},
        {"1 - open", "'0 -' is due here, not '1 - open'"},
        {"0 stay open", "'0 -' is due here, not '0 stay open'"},
        {"0 - because", "'because' is no reason"},
        {"0 - openly", "'openly' is no reason"},
        {"0 - open door", "'door' is too much"},
        {"0 - mass", "a mass in 0.1 mg is due"},
        {"0 - mass light", "a mass in 0.1 mg is due"},
        {"0 - limit", "a limit's name and ratio are due"},
        {"0 - limit limit.all_up", "a limit's name and ratio are due"},
        {"0 - limit limit.all_up nan", "a limit's name and ratio are due"},
        {"0 - limit limit.all_up 0.5 0.6", "a limit's name and ratio are due"},
        {"0 - limit limit.all_up 0.5", "'limit.all_up' does not refute this"},
        {"0 - loose", "joint '' holds in some way"},
        {"0 - loose stack", "joint 'stack' holds in some way"},
        {"0 - lacks", "part '' may still come"},
        {"0 - lacks mo-a", "part 'mo-a' may still come"},
        {"0 - set limit.all_up 0.5", "this is no whole set yet"},
        {"0 - part motor", "'motor' cannot be parted here"},
        {"0 - hold", "a mass in 0.1 mg is due"},
        {"0 - hold 12 13", "a mass in 0.1 mg is due"},
        {"0 - hold 12", "nothing is known of screws before the group is on"},
        {"0 - choose antenna", "'antenna' is not what is decided next; that is 'motor'"},
    };
    for (size_t i = 0; i < sizeof other / sizeof other[0]; i++) {
        certificate c;
        copy(&k->whole, &c);
        while (c.lines > k->tree + 2)
            drop(&c, c.lines - 1);
        replace(&c, k->tree + 1, other[i].node);
        refused_at(k, &c, k->tree + 2, other[i].says);
    }
    /* Names that are longer than any that can be. */
    char line[PARE_PROOF_LINE], long_name[300];
    memset(long_name, 'x', sizeof long_name - 1);
    long_name[sizeof long_name - 1] = '\0';
    certificate c;
    copy(&k->whole, &c);
    snprintf(line, sizeof line, "0 - limit %s 0.5", long_name);
    replace(&c, k->tree + 1, line);
    refused_at(k, &c, k->tree + 2, "a limit's name and ratio are due");
}

/* Masses that a tree is to be cut at: numbers, and none below what can become of it. */
static void cuts_are_at_masses_that_can_be(void **state)
{
    kept *k = *state;
    static const char *const cut[] = {"most", "raise"};
    static const char *const masses[] = {"", " light", " 1", " 1000000000001"};
    for (size_t i = 0; i < 2; i++)
        for (size_t m = 0; m < sizeof masses / sizeof masses[0]; m++) {
            char line[64];
            certificate c;
            copy(&k->whole, &c);
            snprintf(line, sizeof line, "0 - %s%s%s", cut[i], masses[m],
                     masses[m][0] ? " limit.all_up 0.5" : "");
            replace(&c, k->tree + 1, line);
            const pare_proof_told told = check(&k->d.bench, &c);
            if (!strstr(told.refusal, ": a mass in 0.1 mg is due, no less than "))
                fail_msg("'%s': '%s'", line, told.refusal);
            forget(&c);
        }
    certificate c;
    copy(&k->whole, &c);
    replace(&c, k->tree + 1, "0 - raise 9000000");
    const pare_proof_told told = check(&k->d.bench, &c);
    assert_non_null(strstr(told.refusal, ": arms do not ring all the way up to 900.0000 g"));
    forget(&c);
}

static void an_end_is_one_line_and_the_last(void **state)
{
    kept *k = *state;
    const char *const ends[] = {"end", "end many", "end 1 2", "the end", "end -1"};
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        certificate c;
        char says[128];
        copy(&k->whole, &c);
        replace(&c, c.lines - 1, ends[i]);
        snprintf(says, sizeof says, "'end %zu' is due here, not '%s'", c.lines - k->tree - 2,
                 ends[i]);
        refused_at(k, &c, c.lines, says);
    }
    certificate c;
    copy(&k->whole, &c);
    insert(&c, c.lines, "end");
    refused_at(k, &c, c.lines, "something stands behind the end");
}

/* "hold" may be said of a node again and again, and is as right each time: but no craft has so many choices. */
static void no_tree_is_deeper_than_a_craft_has_choices(void **state)
{
    kept *k = *state;
    certificate c;
    copy(&k->whole, &c);
    size_t at = k->tree + 1, level = 0;
    while (at < c.lines && !strstr(c.line[at], " choose capacitor"))
        at++;
    assert_true(at < c.lines && sscanf(c.line[at], "%zu", &level) == 1);
    char label[64], line[PARE_PROOF_LINE];
    assert_int_equal(sscanf(c.line[at], "%*u %63s", label), 1);
    while (c.lines > at)
        drop(&c, c.lines - 1);
    /* What the check says that it is, is what stands there the next time. */
    for (size_t said = 0; said < 2; said++) {
        long long units = 0;
        snprintf(line, sizeof line, "%zu %s hold 1", level, label);
        insert(&c, c.lines, line);
        const pare_proof_told told = check(&k->d.bench, &c);
        const char *is = strstr(told.refusal, " is ");
        double grams;
        assert_non_null(is);
        assert_int_equal(sscanf(is, " is %lf g here", &grams), 1);
        units = (long long)(1e4 * grams + 0.5);
        drop(&c, c.lines - 1);
        snprintf(line, sizeof line, "%zu %s hold %lld", level, label, units);
        for (size_t i = 0; said == 1 && i < 400; i++) {
            insert(&c, c.lines, line);
            snprintf(line, sizeof line, "%zu then hold %lld", level + i + 1, units);
        }
    }
    const pare_proof_told told = check(&k->d.bench, &c);
    assert_non_null(strstr(told.refusal, ": deeper than any tree of this craft"));
    assert_true(told.lines < 400);
    forget(&c);
}

static bool put_some(void *context, const char *line)
{
    size_t *left = context;
    (void)line;
    return (*left)-- > 0;
}

/* A disk that is full at any line is told as such, and nothing is called proven. */
static void what_cannot_be_written_is_no_certificate(void **state)
{
    kept *k = *state;
    for (size_t lines = 0; lines < k->whole.lines; lines++) {
        size_t left = lines;
        const pare_proof_sink sink = {put_some, &left};
        const pare_proof_claim claim = {
            .bench = MARK, .loadout = 1, .holds = k->d.holds, .hold = k->d.hold, .found = false};
        pare_proof_told told;
        pare_error err = {0};
        const pare_status status =
            pare_proof_write(&k->d.bench, &k->d.craft, &claim, NULL, &sink, &told, &err);
        if (status == PARE_OK) /* this claim is another: fewer lines */
            break;
        assert_int_equal(status, PARE_UNAVAILABLE);
        assert_false(told.verified);
        assert_true(lines < k->whole.lines);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_line_of_a_head_says_what_is_due),
        cmocka_unit_test(each_reason_says_what_is_due),
        cmocka_unit_test(cuts_are_at_masses_that_can_be),
        cmocka_unit_test(an_end_is_one_line_and_the_last),
        cmocka_unit_test(no_tree_is_deeper_than_a_craft_has_choices),
        cmocka_unit_test(what_cannot_be_written_is_no_certificate),
    };
    return cmocka_run_group_tests(tests, write_one, forget_one);
}
