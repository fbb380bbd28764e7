/* rooms: store advise craft physics base */
/* The best set where some of the profile is held at full throttle, against brute force (best_force.h). There less
 * in the current's way draws more, so thin wires fly longer than thick ones, and a bound that takes the least
 * resistance for the longest flight passes sets over. */
#include "best_force.h"

#include "craft/gauges.h"

enum { BENCHES = SHARE_OF(160), SAGGING = SHARE_OF(60) };

/* Motors, packs and power wires are open; all else stays. */
static void hold_all_but_power(drawn *d)
{
    static const char *const open[] = {"motor", "pack", "esc"};
    hold_items_but(d, sizeof open / sizeof open[0], open);
    for (size_t i = 0; i < d->craft.joints; i++)
        hold(d, "joint.", d->craft.joint[i].name);
    for (size_t i = 0; i < d->craft.runs; i++)
        if (!d->craft.run[i].carries || !pare_run_of_power(&d->craft, &d->craft.run[i]))
            hold(d, "run.", d->craft.run[i].name);
}

/* Minutes that are just, or just not, those of the craft as it is: so they decide. */
static bool ask_for_minutes(fixture *f, drawn *d, unsigned *seed, void *context)
{
    (void)f;
    (void)context;
    hold_all_but_power(d);
    pare_sheet *sheet = malloc(sizeof *sheet);
    pare_error err;
    pare_brief *brief = &d->craft.brief;
    brief->entries = 2;
    brief->flown[0] = (pare_flown){PARE_FLOWN_THRUST, between(seed, 0, 0.9), 1};
    brief->flown[1] = (pare_flown){PARE_FLOWN_FULL, 1 - brief->flown[0].share, 1};
    brief->limits = 0;
    const bool flies = pare_sheet_compute(&d->craft, false, sheet, &err) == PARE_OK &&
                       sheet->figure[PARE_FLOWN_TIME].exists;
    if (flies)
        brief->limit[brief->limits++] =
            (pare_limit){.key = "flown",
                         .at_least = true,
                         .value = between(seed, 0.97, 1.04) * sheet->figure[PARE_FLOWN_TIME].value};
    free(sheet);
    return flies;
}

static void thin_wires_may_fly_longer(void **state)
{
    const unsigned benches = benches_drawn(BENCHES);
    const comparison all = compare_drawn(*state, benches, ask_for_minutes, NULL, "limit.flown");
    if (all.compared < benches / 4 || all.lighter < SHARE_OF(10))
        fail_msg("%zu compared, %zu lighter", all.compared, all.lighter);
}

static bool weaken_packs(fixture *f, drawn *d, unsigned *seed, void *context)
{
    (void)f;
    (void)context;
    hold_all_but_power(d);
    d->craft.brief.limits = 0;
    for (size_t i = 0; i < d->bench.parts; i++)
        if (d->part[i]->kind == PARE_PACK)
            d->part[i]->spec[PARE_SPEC_RESISTANCE] =
                (pare_value){.value = between(seed, 0.01, 0.04), .known = PARE_STATED};
    return true;
}

/* Packs with so much resistance that boards, motors and wires decide whether they sag: with one-motor ESCs at the
 * arms a motor's wires may become longer than they are, which spares the pack. */
static void what_spares_the_pack_is_not_passed_over(void **state)
{
    const comparison all = compare_drawn(*state, SAGGING, weaken_packs, NULL, "pack.sag");
    if (all.compared < SAGGING / 4 || all.lighter < SHARE_OF(10) || all.refused < SHARE_OF(10))
        fail_msg("%zu compared, %zu lighter, the pack of %zu sagged", all.compared, all.lighter,
                 all.refused);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(thin_wires_may_fly_longer, fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(what_spares_the_pack_is_not_passed_over, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
