/* rooms: store advise craft physics base */
/* The best set where arms ring, against brute force (best_force.h): the arms are as stiff as it takes for the edge of
 * their band to lie near the rotors' turns. There a lighter tip rings and a heavier craft does not, so what is
 * lightest is the set that is just heavy enough, or has its grams at the tips. */
#include "tuned_arms.h"

enum { BENCHES = 200 };

/* @param context  pare_piece[PIECES], for the frame's */
static bool tune_arms(fixture *f, drawn *d, unsigned *seed, void *context)
{
    return tune_arms_of(f, d, -1, context, seed);
}

static void tips_that_ring_are_not_passed_over(void **state)
{
    pare_piece room[PIECES];
    const unsigned benches = benches_drawn(BENCHES);
    const comparison all = compare_drawn(*state, benches, tune_arms, room, "arm.ring");
    if (all.compared < benches / 2 || all.lighter < 20 || all.refused < 20)
        fail_msg("%zu compared, %zu lighter, %zu rang", all.compared, all.lighter, all.refused);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(tips_that_ring_are_not_passed_over, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
