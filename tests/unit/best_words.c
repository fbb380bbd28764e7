/* rooms: store advise craft physics base */
/* Words in which a best set is asked for: what may be held, as a whole or by a property, and what a slip is answered. A
 * property that is held stays, and the others of the same thing may change. */
#include "swap_fixture.h"

#include "advise/best.h"

typedef struct words {
    const char *word;
    const char *says; /* NULL: it may be held */
} words;

static pare_status ask_for(fixture *f, const pare_best_ask *ask, pare_best *best, pare_arena *arena)
{
    f->err.text[0] = '\0';
    return pare_best_find(f->bench, f->craft, ask, arena, best, &f->err);
}

static void what_may_be_held_is_an_item_a_joint_a_run_or_a_property(void **state)
{
    fixture *f = *state;
    static const words held[] = {
        {"motor", NULL},
        {"antenna.length", NULL},
        {"joint.stack", NULL},
        {"joint.stack.material", NULL},
        {"joint.stack.count", NULL},
        {"joint.stack.length", NULL},
        {"run.lead", NULL},
        {"run.lead.gauge", NULL},
        {"run.lead.length", NULL},
        {"moter", "craft 'mule' has no choice 'moter'; did you mean 'motor'?"},
        {"joint.stak", "craft 'mule' has no choice 'joint.stak'; did you mean 'joint.stack'?"},
        {"run.leed", "craft 'mule' has no choice 'run.leed'; did you mean 'run.lead'?"},
        {"something else",
         "craft 'mule' has no choice 'something else'; say an item, joint.NAME or run.NAME"},
        {"", "craft 'mule' has no choice ''; say an item, joint.NAME or run.NAME"},
        {"joint.", "craft 'mule' has no choice 'joint.'; say an item, joint.NAME or run.NAME"},
        {"motor.kilovolts",
         "craft 'mule' has no choice 'motor.kilovolts'; say an item, joint.NAME or run.NAME"},
        {"joint.stack.gauge",
         "craft 'mule' has no choice 'joint.stack.gauge'; say an item, joint.NAME or run.NAME"},
        {"run.lead.material",
         "craft 'mule' has no choice 'run.lead.material'; say an item, joint.NAME or run.NAME"},
    };
    for (size_t i = 0; i < sizeof held / sizeof held[0]; i++) {
        pare_best best;
        pare_arena *arena = pare_arena_open();
        const pare_best_ask ask = {.loadout = -1, .holds = 1, .hold = &held[i].word};
        const pare_status status = ask_for(f, &ask, &best, arena);
        if (status != (held[i].says ? PARE_UNKNOWN : PARE_OK) ||
            (held[i].says && strcmp(f->err.text, held[i].says) != 0))
            fail_msg("'%s': %d '%s'", held[i].word, (int)status, f->err.text);
        const size_t length = strlen(held[i].word);
        for (size_t k = 0; !held[i].says && k < best.swaps; k++) {
            const char *id = best.swap[k].applied.id;
            assert_false(strncmp(id, held[i].word, length) == 0 &&
                         (id[length] == '=' || id[length] == '.'));
        }
        pare_arena_close(arena);
    }
    /* A word that is longer than any name. */
    char much[PARE_SWAP_NAME + 40];
    memset(much, 'x', sizeof much - 1);
    much[sizeof much - 1] = '\0';
    const char *const long_word = much;
    pare_best best;
    pare_arena *arena = pare_arena_open();
    const pare_best_ask ask = {.loadout = -1, .holds = 1, .hold = &long_word};
    assert_int_equal(ask_for(f, &ask, &best, arena), PARE_UNKNOWN);
    assert_non_null(strstr(f->err.text, "has no choice 'xxx"));
    pare_arena_close(arena);
}

static void parts_that_must_or_must_not_be_on_are_on_the_bench(void **state)
{
    fixture *f = *state;
    static const words part[] = {
        {"mo-b", NULL},
        {"mo-bb", "the bench has no part 'mo-bb'; did you mean 'mo-b'?"},
        {"a grand piano", "the bench has no part 'a grand piano'; pare parts lists them"},
    };
    for (size_t i = 0; i < sizeof part / sizeof part[0]; i++)
        for (int must = 0; must < 2; must++) {
            pare_best best;
            pare_arena *arena = pare_arena_open();
            pare_best_ask ask = {.loadout = -1};
            *(must ? &ask.musts : &ask.nevers) = 1;
            *(must ? &ask.must : &ask.never) = &part[i].word;
            const pare_status status = ask_for(f, &ask, &best, arena);
            if (status != (part[i].says ? PARE_UNKNOWN : PARE_OK) ||
                (part[i].says && strcmp(f->err.text, part[i].says) != 0))
                fail_msg("'%s': %d '%s'", part[i].word, (int)status, f->err.text);
            bool on = false;
            for (size_t k = 0; !part[i].says && best.found && k < best.after->items; k++)
                on = on || (!best.after->item[k].off &&
                            strcmp(best.after->item[k].part->id, part[i].word) == 0);
            assert_true(on == (must && !part[i].says && best.found));
            pare_arena_close(arena);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_may_be_held_is_an_item_a_joint_a_run_or_a_property,
                                        fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(parts_that_must_or_must_not_be_on_are_on_the_bench,
                                        fixture_open, fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
