/* rooms: store advise craft physics base */
/* The best set where arms ring, against brute force (best_force.h): the arms are as stiff as it takes for the edge of
 * their band to lie near the rotors' turns. There a lighter tip rings and a heavier craft does not, so what is
 * lightest is the set that is just heavy enough, or has its grams at the tips. */
#include "best_force.h"

#include "craft/arm_facts.h"

enum { BENCHES = 200, PIECES = 8 };

#define PI      3.14159265358979323846
#define WIDENED 1.1

/* What swings at the tips, and a few grams elsewhere, are open; all else stays. */
static void hold_all_but_tips(drawn *d)
{
    static const char *const open[] = {"bumper", "esc", "mount", "capacitor"};
    d->holds = 0;
    for (size_t i = 0; i < d->craft.items; i++) {
        bool is_open = false;
        for (size_t k = 0; k < sizeof open / sizeof open[0]; k++)
            is_open = is_open || strcmp(d->craft.item[i].name, open[k]) == 0;
        if (!is_open)
            hold(d, "", d->craft.item[i].name);
    }
    for (size_t i = 0; i < d->craft.joints; i++)
        if (strcmp(d->craft.joint[i].name, "motor_base") != 0)
            hold(d, "joint.", d->craft.joint[i].name);
    for (size_t i = 0; i < d->craft.runs; i++)
        hold(d, "run.", d->craft.run[i].name);
}

/* Makes the arms of the craft's frame so stiff that their band ends near what the rotors turn at.
 * @param room  for the frame's pieces @return whether the frame states any arms */
static bool stiffen_arms(const drawn *d, pare_part *frame, pare_piece room[], unsigned *seed)
{
    pare_sheet *sheet = malloc(sizeof *sheet);
    pare_arm_facts facts;
    pare_error err;
    pare_piece *arms = NULL;
    assert_true(frame->pieces <= PIECES);
    for (size_t i = 0; i < frame->pieces; i++) {
        room[i] = frame->piece[i];
        if (room[i].form == PARE_FORM_ARMS)
            arms = &room[i];
    }
    frame->piece = room;
    if (arms) {
        arms->flexural_pa = 10e9;
        arms->density_kg_m3 *= between(seed, 1, 12); /* they swing themselves, too */
    }
    const bool known = arms && pare_sheet_compute(&d->craft, false, sheet, &err) == PARE_OK &&
                       sheet->figure[PARE_HOVER_RPM].exists &&
                       pare_craft_arm_facts(&d->craft, sheet, &facts);
    if (known) {
        const double turn_hz = sheet->figure[PARE_HOVER_RPM].value / (2 * PI);
        const double more = between(seed, 0.9, 1.02) * turn_hz / (WIDENED * facts.high_hz);
        arms->flexural_pa *= more * more;
    }
    free(sheet);
    return known;
}

/* @param context  pare_piece[PIECES], for the frame's */
static bool tune_arms(fixture *f, drawn *d, unsigned *seed, void *context)
{
    d->craft.brief.limits = 0;
    hold_all_but_tips(d);
    const int frame = pare_craft_doing(&d->craft, PARE_FRAME);
    pare_part *part = NULL;
    for (size_t i = 0; i < f->bench->parts && !part; i++)
        part = f->bench->part[i] == d->craft.item[frame].part ? f->bench->part[i] : NULL;
    assert_non_null(part);
    return stiffen_arms(d, part, context, seed);
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
