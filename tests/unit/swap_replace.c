/* rooms: store advise craft physics base */
/* swap_replace.c: what can replace an item is what the list of swaps finds for it, with its grams. */
#include "advise/replace.h"
#include "swap_fixture.h"

#include <math.h>

static size_t replace(fixture *f, int loadout, const char *item, pare_replacement **list)
{
    size_t count = 0;
    if (pare_replacements_find(f->bench, f->craft, loadout, item, f->arena, &count, list,
                               &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
    return count;
}

static const pare_replacement *with_part(size_t count, const pare_replacement list[],
                                         const char *id)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(list[i].part->id, id) == 0)
            return &list[i];
    return NULL;
}

static void each_swap_of_an_item_is_a_replacement_with_the_same_grams(void **state)
{
    fixture *f = *state;
    size_t compared = 0;
    for (int loadout = -1; loadout < (int)f->craft->loadouts; loadout++) {
        pare_swaps swaps;
        if (pare_swaps_find(f->bench, f->craft, loadout, PARE_WISH_GRAMS, f->arena, &swaps,
                            &f->err) != PARE_OK)
            fail_msg("%s", f->err.text);
        for (size_t i = 0; i < swaps.count; i++) {
            const pare_swap *row = &swaps.swap[i];
            const char *part = strchr(row->applied.id, '=') + 1;
            char item[PARE_SWAP_NAME];
            snprintf(item, sizeof item, "%.*s", (int)(part - 1 - row->applied.id), row->applied.id);
            if (!pare_bench_part(f->bench, part) || strchr(item, '.'))
                continue;
            pare_replacement *list;
            const size_t count = replace(f, loadout, item, &list);
            const pare_replacement *same = with_part(count, list, part);
            if (!same)
                fail_msg("%s is missing", row->applied.id);
            assert_near(same->saved_kg, row->grams_kg, 1e-12);
            assert_int_equal(same->applied.brings, row->applied.brings);
            compared++;
        }
    }
    assert_true(compared > 10);
}

static void all_that_fits_is_there_most_grams_first(void **state)
{
    fixture *f = *state;
    for (size_t i = 0; i < f->craft->items; i++) {
        const pare_item *item = &f->craft->item[i];
        if (item->off || item->included_in)
            continue;
        pare_replacement *list;
        const size_t count = replace(f, -1, item->name, &list);
        for (size_t k = 0; k < count; k++) {
            char id[PARE_SWAP_NAME];
            snprintf(id, sizeof id, "%s=%s", item->name, list[k].part->id);
            tried(f, id);
            assert_true(k == 0 || list[k - 1].saved_kg >= list[k].saved_kg);
            assert_true(list[k].part != item->part && !list[k].part->sought);
        }
    }
}

static void an_item_that_is_not_there_is_answered_with_the_nearest(void **state)
{
    fixture *f = *state;
    size_t count;
    pare_replacement *list;
    assert_int_equal(
        pare_replacements_find(f->bench, f->craft, -1, "moter", f->arena, &count, &list, &f->err),
        PARE_UNKNOWN);
    assert_non_null(strstr(f->err.text, "did you mean 'motor'?"));
}

static void what_the_loadout_does_not_fly_has_nothing_to_replace(void **state)
{
    fixture *f = *state;
    size_t count, refused = 0;
    pare_replacement *list;
    for (int loadout = 0; loadout < (int)f->craft->loadouts; loadout++) {
        assert_int_equal(pare_craft_load(f->craft, loadout, &f->loaded, &f->err), PARE_OK);
        for (size_t i = 0; i < f->craft->items; i++) {
            const pare_item *item = &f->craft->item[i];
            if (item->off || item->included_in || !f->loaded.item[i].off)
                continue;
            assert_int_equal(pare_replacements_find(f->bench, f->craft, loadout, item->name,
                                                    f->arena, &count, &list, &f->err),
                             PARE_BAD_DATA);
            assert_non_null(strstr(f->err.text, "is not flown in loadout"));
            refused++;
        }
    }
    assert_true(refused > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(each_swap_of_an_item_is_a_replacement_with_the_same_grams,
                                        fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(all_that_fits_is_there_most_grams_first, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(an_item_that_is_not_there_is_answered_with_the_nearest,
                                        fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(what_the_loadout_does_not_fly_has_nothing_to_replace,
                                        fixture_open, fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
