/* rooms: store advise craft physics base */
/* The best set where the centre of mass is far off the middle of the motors, against brute force (best_force.h): what
 * rotors carry unevenly costs minutes, so which grams go matters as much as how many, and a bound that takes more
 * of them to be off the middle than are passes sets over. And where flights have taught that electronics draw less
 * than their parts state: there a bound that believes the parts does. */
#include "best_force.h"

enum { BENCHES = SHARE_OF(160) };

/* Puts some of what is on the craft far out, mostly to one side. */
static void put_far_out(drawn *d, unsigned *seed)
{
    const double side = dice(seed, 2) ? 1 : -1;
    for (size_t i = 0; i < d->craft.items; i++) {
        pare_item *item = &d->craft.item[i];
        if (item->place == PARE_AT_ARMS || item->part->kind == PARE_FRAME || item->stations > 1 ||
            dice(seed, 2))
            continue;
        item->place = PARE_AT_POINTS;
        item->stations = 1;
        item->at_m[0].x = side * between(seed, 0.02, 0.2);
        item->at_m[0].y = between(seed, -0.05, 0.05);
        item->at_m[0].z = 0;
    }
}

/* Asks for minutes that are just, or just not, those of the craft as it is, and that it weighs no more. */
static bool ask_for_minutes(const drawn *d, unsigned *seed, pare_brief *brief)
{
    pare_sheet *sheet = malloc(sizeof *sheet);
    pare_error err;
    const bool flies = pare_sheet_compute(&d->craft, false, sheet, &err) == PARE_OK &&
                       sheet->figure[PARE_FLOWN_TIME].exists;
    brief->limits = 0;
    if (flies) {
        brief->limit[brief->limits++] =
            (pare_limit){.key = "all_up", .value = sheet->figure[PARE_ALL_UP].value};
        brief->limit[brief->limits++] =
            (pare_limit){.key = "flown",
                         .at_least = true,
                         .value = between(seed, 0.98, 1.15) * sheet->figure[PARE_FLOWN_TIME].value};
    }
    free(sheet);
    return flies;
}

static bool unbalance(fixture *f, drawn *d, unsigned *seed, void *context)
{
    (void)f;
    (void)context;
    put_far_out(d, seed);
    return ask_for_minutes(d, seed, &d->craft.brief);
}

/* @param context  a pare_taught */
static bool teach(fixture *f, drawn *d, unsigned *seed, void *context)
{
    pare_taught *taught = context;
    (void)f;
    taught->change[PARE_TAUGHT_ALWAYS] = between(seed, -0.9, -0.3);
    d->craft.learned = taught;
    return ask_for_minutes(d, seed, &d->craft.brief);
}

static void what_is_off_the_middle_is_not_passed_over(void **state)
{
    const unsigned benches = benches_drawn(BENCHES);
    const comparison all = compare_drawn(*state, benches, unbalance, NULL, "limit.flown");
    if (all.compared < benches / 4 || all.lighter < SHARE_OF(10) || all.refused < SHARE_OF(10))
        fail_msg("%zu compared, %zu lighter, minutes refused something in %zu", all.compared,
                 all.lighter, all.refused);
}

static void what_draws_less_than_stated_is_not_passed_over(void **state)
{
    pare_taught taught = {0};
    const unsigned benches = benches_drawn(BENCHES);
    const comparison all = compare_drawn(*state, benches, teach, &taught, "limit.flown");
    if (all.compared < benches / 4 || all.lighter < SHARE_OF(10))
        fail_msg("%zu compared, %zu lighter", all.compared, all.lighter);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_is_off_the_middle_is_not_passed_over, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(what_draws_less_than_stated_is_not_passed_over,
                                        fixture_open, fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
