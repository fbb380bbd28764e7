/* rooms: store advise craft physics base */
/* checklist.c: the work that taken swaps ask for: what is on the list, in which opening, with which
 * minutes, tools and cautions. That the cautions stand is our own rule; hexagon keys are those of ISO
 * 4762 and ISO 7380-1 (tests/checks/screws.c holds the table). */
#include "swap_fixture.h"

#include <math.h>

#include "advise/checklist.h"
#include "advise/take.h"

static pare_taking taking;
static pare_craft work;
static pare_checklist list;

/* The checklist of swaps just taken on the craft as it is. */
static const pare_checklist *check(fixture *f, const char *swaps, pare_stage stage)
{
    const char *date[PARE_STAGES] = {NULL};
    bool wanted[PARE_TAKENS];
    date[stage] = "2024-03-01";
    if (pare_take(f->bench, f->craft, swaps, date, f->arena, &taking, &f->err) != PARE_OK)
        fail_msg("%s: %s", swaps, f->err.text);
    work = *f->craft;
    work.takens = taking.count;
    memcpy(work.taken, taking.taken, sizeof work.taken);
    for (size_t i = 0; i < PARE_TAKENS; i++)
        wanted[i] = true;
    if (pare_checklist_make(f->bench, &work, wanted, f->arena, &list, &f->err) != PARE_OK)
        fail_msg("%s: %s", swaps, f->err.text);
    assert_int_equal(list.swaps, work.takens);
    return &list;
}

static bool says(size_t count, const char *const lines[], const char *words)
{
    for (size_t i = 0; i < count; i++)
        if (strstr(lines[i], words))
            return true;
    return false;
}

static void needs(size_t count, const char *const lines[], const char *words)
{
    if (!says(count, lines, words))
        fail_msg("no line says '%s'", words);
}

static void lacks(size_t count, const char *const lines[], const char *words)
{
    if (says(count, lines, words))
        fail_msg("a line says '%s'", words);
}

#define CHECKS list.checks, list.check
#define FIRSTS list.firsts, list.first

static void a_swap_outside_asks_for_little(void **state)
{
    check(*state, "bumper=off", PARE_STAGE_CHOSEN);
    const pare_check_group *outside = &list.group[PARE_OPENING_OUTSIDE];
    assert_int_equal(outside->steps, 1);
    assert_string_equal(outside->step[0], "bumper: 4 bu-a off");
    assert_near(outside->minutes, 4, 0); /* half of 2 min, four times */
    for (int g = PARE_OPENING_PROPELLERS; g < PARE_OPENINGS; g++)
        assert_int_equal(list.group[g].steps, 0);
    assert_int_equal(list.solder_joints, 0);
    assert_near(list.minutes, 4 + 4, 0); /* four propellers off and on */
    needs(FIRSTS, "pack out");
    needs(FIRSTS, "propellers off");
    lacks(FIRSTS, "soldering");
    lacks(CHECKS, "continuity");
    lacks(CHECKS, "limits the current");
    needs(CHECKS, "hover 30 s");
    needs(CHECKS, "local ones");
}

static void motor_screws_ask_for_continuity_and_a_careful_first_power(void **state)
{
    static const char *const swaps[] = {"joint.motor_base.material=titanium",
                                        "joint.motor_base.count=8", "joint.motor_base.length=8mm"};
    for (size_t i = 0; i < sizeof swaps / sizeof swaps[0]; i++) {
        check(*state, swaps[i], PARE_STAGE_ORDERED);
        const pare_check_group *arms = &list.group[PARE_OPENING_ARMS];
        assert_int_equal(arms->steps, 1);
        assert_int_equal(arms->tools >= 1, true);
        assert_string_equal(arms->tool[0], "2.5 mm hex key (M3 ISO 4762)");
        needs(CHECKS, "from each motor screw to each of that motor's windings");
        needs(CHECKS, "limits the current");
        lacks(CHECKS, "not again after a crash");
    }
    check(*state, "joint.motor_base.material=titanium", PARE_STAGE_CHOSEN);
    assert_near(list.group[PARE_OPENING_ARMS].minutes, 8, 0);
    assert_string_equal(list.group[PARE_OPENING_ARMS].step[0],
                        "motor_base: 16 screws M3 x 10 mm steel out, 16 of M3 x 10 mm titanium in");
    check(*state, "joint.motor_base.count=8", PARE_STAGE_CHOSEN);
    assert_string_equal(list.group[PARE_OPENING_ARMS].step[0],
                        "motor_base: 8 of 16 screws out, evenly");
    needs(CHECKS, "fewer screws");
}

static void aluminium_screws_are_not_used_again_after_a_crash(void **state)
{
    check(*state, "joint.cage.material=aluminium_7075", PARE_STAGE_CHOSEN);
    needs(CHECKS, "not again after a crash");
    lacks(CHECKS, "continuity"); /* these hold the camera */
    const pare_check_group *top = &list.group[PARE_OPENING_TOP];
    assert_string_equal(top->tool[0], "2 mm hex key (M3 ISO 7380-1)");
    assert_near(top->minutes, 2 * 0.5 + 4, 0); /* two screws, and the plate off and on */
}

/* A slotted head has no hexagon for a key; a nut of M3 is 5.5 mm across flats (ISO 4032, table 1). */
static void what_has_no_key_asks_for_a_screwdriver_or_a_spanner(void **state)
{
    static pare_craft other; /* large */
    fixture *f = *state;
    const pare_craft *craft = f->craft;
    pare_joint *cage = &other.joint[pare_craft_joint(craft, "cage")];
    const pare_check_group *top = &list.group[PARE_OPENING_TOP];
    pare_craft_copy(craft, &other);
    f->craft = &other;
    cage->standard = PARE_ISO1207;
    check(f, "joint.cage.material=titanium", PARE_STAGE_CHOSEN);
    needs(top->tools, top->tool, "a flat screwdriver (M3 ISO 1207)");
    lacks(top->tools, top->tool, "hex key");
    cage->standard = PARE_ISO7040;
    check(f, "joint.cage.standard=ISO4032", PARE_STAGE_CHOSEN);
    needs(top->tools, top->tool, "5.5 mm spanner (M3 ");
    lacks(top->tools, top->tool, "hex key");
    f->craft = craft;
}

static void new_lead_wire_is_soldered_and_powered_with_care(void **state)
{
    check(*state, "run.lead.gauge=14", PARE_STAGE_CHOSEN);
    const pare_check_group *top = &list.group[PARE_OPENING_TOP];
    assert_string_equal(top->step[0], "run.lead: 2 new wires of 14 AWG, 120 mm each");
    assert_int_equal(top->solder_joints, 4);
    assert_near(top->minutes, 2 * 8 + 4, 0);
    needs(top->tools, top->tool, "soldering iron");
    needs(FIRSTS, "eyes shielded");
    needs(CHECKS, "no short between plus and minus");
    needs(CHECKS, "continuity");
    needs(CHECKS, "limits the current");
    check(*state, "run.lead.length=90mm", PARE_STAGE_CHOSEN);
    assert_string_equal(list.group[PARE_OPENING_TOP].step[0], "run.lead: 2 wires cut to 90 mm");
    assert_int_equal(list.solder_joints, 2);
}

static void signal_wire_asks_for_no_careful_first_power(void **state)
{
    check(*state, "run.camera_wire.length=80mm", PARE_STAGE_CHOSEN);
    assert_int_equal(list.solder_joints, 3);
    lacks(CHECKS, "limits the current");
}

static void a_pack_comes_with_the_cautions_of_lithium(void **state)
{
    check(*state, "pack=pa-4l", PARE_STAGE_CHOSEN);
    needs(FIRSTS, "lithium");
    needs(FIRSTS, "never cut, crushed, shorted");
    needs(CHECKS, "charger");
    lacks(CHECKS, "continuity");
}

static void what_goes_along_is_on_the_list(void **state)
{
    check(*state, "antenna=an-snap", PARE_STAGE_CHOSEN);
    const pare_check_group *outside = &list.group[PARE_OPENING_OUTSIDE],
                           *top = &list.group[PARE_OPENING_TOP];
    needs(outside->steps, outside->step, "antenna: an-screw out, an-snap in");
    needs(outside->steps, outside->step, "elbow: el-a off");
    needs(top->steps, top->step, "pigtail: pg-a off");
    needs(CHECKS, "antenna on before power");
}

static void motors_and_their_esc_share_their_joints(void **state)
{
    fixture *f = *state;
    check(f, "motor=mo-b", PARE_STAGE_CHOSEN);
    assert_int_equal(list.solder_joints, 12);
    const pare_check_group *arms = &list.group[PARE_OPENING_ARMS];
    needs(arms->tools, arms->tool, "2.5 mm hex key (M3 ISO 4762)");
    check(f, "esc=es-b", PARE_STAGE_CHOSEN);
    assert_int_equal(list.solder_joints, 14);
    check(f, "motor=mo-b,esc=es-b", PARE_STAGE_CHOSEN);
    assert_int_equal(list.solder_joints, 14);
}

static void what_was_fitted_leaves_no_work_but_what_to_look_at(void **state)
{
    check(*state, "motor=mo-b,joint.stack.material=aluminium", PARE_STAGE_FITTED);
    assert_false(list.work);
    assert_int_equal(list.firsts, 0);
    assert_near(list.minutes, 0, 0);
    needs(CHECKS, "limits the current");
    needs(CHECKS, "not again after a crash");
    needs(CHECKS, "propellers on last");
}

/* Angular acceleration for the same output is what a loop's gain multiplies, so a craft that answers
 * a tenth quicker wants 1/1.1 of it. */
static void gains_follow_what_the_sheet_expects_of_quickness(void **state)
{
    fixture *f = *state;
    const char *const swap = "motor=mo-b";
    tried(f, swap);
    assert_int_equal(pare_craft_load(f->craft, 0, &f->loaded, &f->err), PARE_OK);
    weigh(&f->loaded, &f->sheet);
    assert_int_equal(pare_craft_load(&f->changed, 0, &f->loaded, &f->err), PARE_OK);
    weigh(&f->loaded, &f->other);
    const double roll =
        100 * (f->sheet.figure[PARE_ROLL].value / f->other.figure[PARE_ROLL].value - 1);
    assert_true(fabs(roll) > 2.5);
    char words[64];
    snprintf(words, sizeof words, "roll %s by %.0f %%", roll < 0 ? "down" : "up", fabs(roll));
    check(f, swap, PARE_STAGE_CHOSEN);
    needs(CHECKS, words);
    check(f, "receiver=off", PARE_STAGE_CHOSEN); /* a gram in the middle is not felt */
    lacks(CHECKS, "control gains");
}

/* Minutes are those of the list of swaps, where nothing comes or goes along. */
static void minutes_are_those_of_the_swap(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    size_t compared = 0;
    assert_int_equal(
        pare_swaps_find(f->bench, f->craft, -1, PARE_WISH_GRAMS, f->arena, &swaps, &f->err),
        PARE_OK);
    for (size_t i = 0; i < swaps.count; i++) {
        const pare_applied *applied = &swaps.swap[i].applied;
        if (applied->sought || applied->brings || applied->drops)
            continue;
        check(f, applied->id, PARE_STAGE_CHOSEN);
        double minutes = 0;
        for (int g = 0; g < PARE_OPENINGS; g++)
            if (list.group[g].steps)
                minutes += list.group[g].minutes - pare_work_opening_min((pare_opening)g);
        if (fabs(minutes - applied->work_min) > 1e-9)
            fail_msg("%s: %g min, not %g", applied->id, minutes, applied->work_min);
        compared++;
    }
    assert_true(compared > 20);
}

static void a_plan_that_does_not_go_on_is_left_out(void **state)
{
    fixture *f = *state;
    bool wanted[PARE_TAKENS] = {true, true};
    work = *f->craft;
    work.takens = 2;
    work.taken[0] = (pare_taken){.swap = "skid=off"};
    work.taken[1] = (pare_taken){.swap = "bumper=off", .date = {NULL, NULL, "2024-03-01"}};
    assert_int_equal(pare_checklist_make(f->bench, &work, wanted, f->arena, &list, &f->err),
                     PARE_OK);
    assert_int_equal(list.swaps, 1);
    assert_false(list.work);
    needs(CHECKS, "hover 30 s");
    work.taken[0].date[PARE_STAGE_FITTED] = "2024-03-01";
    assert_int_equal(pare_checklist_make(f->bench, &work, wanted, f->arena, &list, &f->err),
                     PARE_UNKNOWN);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_swap_outside_asks_for_little),
        cmocka_unit_test(motor_screws_ask_for_continuity_and_a_careful_first_power),
        cmocka_unit_test(aluminium_screws_are_not_used_again_after_a_crash),
        cmocka_unit_test(what_has_no_key_asks_for_a_screwdriver_or_a_spanner),
        cmocka_unit_test(new_lead_wire_is_soldered_and_powered_with_care),
        cmocka_unit_test(signal_wire_asks_for_no_careful_first_power),
        cmocka_unit_test(a_pack_comes_with_the_cautions_of_lithium),
        cmocka_unit_test(what_goes_along_is_on_the_list),
        cmocka_unit_test(motors_and_their_esc_share_their_joints),
        cmocka_unit_test(what_was_fitted_leaves_no_work_but_what_to_look_at),
        cmocka_unit_test(gains_follow_what_the_sheet_expects_of_quickness),
        cmocka_unit_test(minutes_are_those_of_the_swap),
        cmocka_unit_test(a_plan_that_does_not_go_on_is_left_out),
    };
    return cmocka_run_group_tests(tests, fixture_open, fixture_close);
}
