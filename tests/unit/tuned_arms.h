/* tuned_arms.h: a drawn bench whose craft's arms ring where that decides. */
#ifndef PARE_TEST_TUNED_ARMS_H
#define PARE_TEST_TUNED_ARMS_H

#include "best_force.h"

#include "craft/arm_facts.h"

enum { PIECES = 8 };

#define PI      3.14159265358979323846
#define WIDENED 1.1

/* What swings at the tips, and a few grams elsewhere, are open; all else stays. */
static inline void hold_all_but_tips(drawn *d)
{
    static const char *const open[] = {"bumper", "esc", "mount", "capacitor"};
    hold_items_but(d, sizeof open / sizeof open[0], open);
    for (size_t i = 0; i < d->craft.joints; i++)
        if (strcmp(d->craft.joint[i].name, "motor_base") != 0)
            hold(d, "joint.", d->craft.joint[i].name);
    for (size_t i = 0; i < d->craft.runs; i++)
        hold(d, "run.", d->craft.run[i].name);
}

/* Makes the arms of a craft's frame so stiff that their band ends near what the rotors turn at.
 * @param craft  as it is flown @param room  for the frame's pieces @return whether the frame states any arms */
static inline bool stiffen_arms(const pare_craft *craft, pare_part *frame, pare_piece room[],
                                unsigned *seed)
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
    const bool known = arms && pare_sheet_compute(craft, false, sheet, &err) == PARE_OK &&
                       sheet->figure[PARE_HOVER_RPM].exists &&
                       pare_craft_arm_facts(craft, sheet, &facts);
    if (known) {
        const double turn_hz = sheet->figure[PARE_HOVER_RPM].value / (2 * PI);
        const double more = between(seed, 0.9, 1.02) * turn_hz / (WIDENED * facts.high_hz);
        arms->flexural_pa *= more * more;
    }
    free(sheet);
    return known;
}

/* Opens what swings at the tips and makes the arms ring near the turns of a loadout's rotors. @param room  [PIECES],
 * for the frame's */
static inline bool tune_arms_of(fixture *f, drawn *d, int loadout, pare_piece room[],
                                unsigned *seed)
{
    d->craft.brief.limits = 0;
    hold_all_but_tips(d);
    const int frame = pare_craft_doing(&d->craft, PARE_FRAME);
    pare_part *part = NULL;
    for (size_t i = 0; i < f->bench->parts && !part; i++)
        part = f->bench->part[i] == d->craft.item[frame].part ? f->bench->part[i] : NULL;
    assert_non_null(part);
    pare_error err;
    pare_craft *loaded = malloc(sizeof *loaded);
    assert_int_equal(pare_craft_load(&d->craft, loadout, loaded, &err), PARE_OK);
    const bool tuned = stiffen_arms(loaded, part, room, seed);
    free(loaded);
    return tuned;
}

#endif
