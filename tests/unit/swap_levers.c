/* rooms: store advise craft physics base */
/* swap_levers.c: each lever does to the craft what it says: the right grams, and what comes and goes
 * along. Grams are worked out here from the bench's masses or from the same geometry a joint or run
 * is weighed by. */
#include "swap_fixture.h"

#include "advise/rated.h"
#include "advise/screw_length.h"
#include "craft/assemble.h"
#include "physics/screw.h"
#include "physics/wire.h"

static double screw_g(pare_fastener standard, double length_m, pare_screw_material material)
{
    pare_thread thread;
    double mass_kg = 0;
    assert_int_equal(pare_thread_named("M3", &thread, NULL), PARE_OK);
    assert_int_equal(pare_screw_kg(standard, &thread, length_m, material, &mass_kg, NULL), PARE_OK);
    return 1e3 * mass_kg;
}

static const pare_item *item(const fixture *f, const char *name)
{
    const int index = pare_craft_item(&f->changed, name);
    assert_true(index >= 0);
    return &f->changed.item[index];
}

static void four_lighter_motors_save_four_differences(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "motor=mo-b"), 4 * (34 - 30), 1e-9);
    assert_true(f->applied.deep);
    assert_string_equal(f->applied.from, "mo-a");
    assert_string_equal(f->applied.to, "mo-b");
}

static void a_shallower_motor_says_that_the_screws_reach_its_winding(void **state)
{
    fixture *f = *state;
    /* 10 mm through a 5 mm arm enters 5 mm: mo-a takes 5 mm, mo-b 3 mm. */
    tried(f, "motor=mo-b");
    assert_true(noted(&f->applied, "winding"));
    assert_true(f->applied.open_question);
    tried(f, "propeller=pr-b");
    assert_false(f->applied.open_question);
}

static void a_motor_said_to_be_lighter_than_any_is_to_be_weighed_first(void **state)
{
    fixture *f = *state;
    tried(f, "motor=mo-boast"); /* 15 g where this stator weighs 32 g or so */
    assert_true(noted(&f->applied, "weigh one"));
    assert_true(f->applied.open_question);
}

static void a_cut_phase_wire_stays_cut_on_another_motor(void **state)
{
    fixture *f = *state;
    static pare_craft cut;
    assert_int_equal(
        pare_swap_apply(f->bench, f->craft, "run.phase.length=100mm", &cut, NULL, &f->err),
        PARE_OK);
    assert_int_equal(pare_swap_apply(f->bench, &cut, "motor=mo-b", &f->changed, NULL, &f->err),
                     PARE_OK);
    weigh(&cut, &f->sheet);
    weigh(&f->changed, &f->other);
    /* mo-a gave up 50 mm a wire, mo-b gives up 20 mm: twelve wires are 30 mm heavier against it. */
    const double wire_g = 12 * 30e-3 * 1e3 * pare_wire_kg_per_m(20, 0);
    assert_near(1e3 * (f->sheet.figure[PARE_ALL_UP].value - f->other.figure[PARE_ALL_UP].value),
                16 - wire_g, 1e-6);
}

static void phase_wires_cut_to_length_save_their_wire(void **state)
{
    fixture *f = *state;
    const double wire_g = 12 * 50e-3 * 1e3 * pare_wire_kg_per_m(20, 0);
    assert_near(saved_g(f, "run.phase.length=100mm"), wire_g, 1e-6);
    assert_near(f->applied.money, 0, 0);
    assert_false(f->applied.hotter);
}

static void a_thinner_lead_saves_its_copper_and_is_said_to_run_hotter(void **state)
{
    fixture *f = *state;
    const double wire_g = 0.240 * 1e3 * (pare_wire_kg_per_m(12, 0) - pare_wire_kg_per_m(16, 0));
    assert_near(saved_g(f, "run.lead.gauge=16"), wire_g, 1e-9);
    assert_true(f->applied.hotter);
    assert_true(f->other.rig.pack.lead_ohm > f->sheet.rig.pack.lead_ohm);
}

static void titanium_screws_save_what_geometry_says_and_are_said_to_be_weaker(void **state)
{
    fixture *f = *state;
    const double steel_g = screw_g(PARE_ISO4762, 10e-3, PARE_STEEL);
    const double titanium_g = screw_g(PARE_ISO4762, 10e-3, PARE_TITANIUM);
    assert_near(saved_g(f, "joint.motor_base.material=titanium"), 16 * (steel_g - titanium_g),
                1e-9);
    assert_true(f->applied.weaker);
}

static void two_screws_for_four_save_eight_screws(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "joint.motor_base.count=8"),
                8 * screw_g(PARE_ISO4762, 10e-3, PARE_STEEL), 1e-9);
    assert_string_equal(f->applied.to, "8 screws");
    assert_true(f->applied.weaker);
    assert_near(f->applied.money, 0, 0);
}

static void shorter_screws_save_their_ends(void **state)
{
    fixture *f = *state;
    assert_near(
        saved_g(f, "joint.motor_base.length=8mm"),
        16 * (screw_g(PARE_ISO4762, 10e-3, PARE_STEEL) - screw_g(PARE_ISO4762, 8e-3, PARE_STEEL)),
        1e-9);
    assert_string_equal(f->applied.from, "10 mm");
    assert_string_equal(f->applied.to, "8 mm");
    assert_false(f->applied.open_question);
    tried(f, "joint.motor_base.length=6mm");
    assert_true(noted(&f->applied, "needs 8 mm"));
    assert_true(f->applied.open_question);
}

/* M3 bears on 0.8 of its diameter as on a full nut (ISO 898-2): 2.4 mm beyond arms of 5 mm. */
static void a_screw_that_grips_a_full_nut_suits(void **state)
{
    fixture *f = *state;
    const pare_joint *joint = &f->craft->joint[pare_craft_joint(f->craft, "motor_base")];
    assert_true(pare_screw_length_suits(f->craft, joint, 7.4e-3));
    assert_false(pare_screw_length_suits(f->craft, joint, 7.39e-3));
    /* The motor takes 5 mm. */
    assert_true(pare_screw_length_suits(f->craft, joint, 10e-3));
    assert_false(pare_screw_length_suits(f->craft, joint, 10.01e-3));
}

static bool offers(fixture *f, const pare_craft *craft, const char *id)
{
    const char *const *names;
    size_t count = 0;
    assert_int_equal(pare_swap_names(f->bench, craft, -1, f->arena, &count, &names, &f->err),
                     PARE_OK);
    for (size_t i = 0; i < count; i++)
        if (strcmp(names[i], id) == 0)
            return true;
    return false;
}

static void another_motor_asks_for_another_length(void **state)
{
    fixture *f = *state;
    /* Arms of 5 mm: 10 mm are 5 mm in, which mo-b's 3 mm does not take; 8 mm are 3 mm in. */
    tried(f, "motor=mo-b");
    assert_true(noted(&f->applied, "8 mm would do"));
    tried(f, "joint.motor_base.length=12mm");
    assert_true(noted(&f->applied, "winding"));
    assert_true(f->applied.open_question);
    pare_craft *short_ones = malloc(sizeof *short_ones);
    pare_craft_copy(f->craft, short_ones);
    assert_true(offers(f, short_ones, "joint.motor_base.length=8mm"));
    short_ones->joint[pare_craft_joint(short_ones, "motor_base")].length_m = 6e-3;
    assert_true(
        offers(f, short_ones, "joint.motor_base.length=8mm")); /* longer is a lever as well */
    short_ones->joint[pare_craft_joint(short_ones, "motor_base")].length_m = 8e-3;
    assert_false(offers(f, short_ones, "joint.motor_base.length=8mm"));
    free(short_ones);
}

static void what_must_not_come_loose_keeps_two_screws(void **state)
{
    fixture *f = *state;
    assert_int_equal(pare_swap_apply(f->bench, f->craft, "joint.motor_base.count=4", &f->changed,
                                     &f->applied, &f->err),
                     PARE_BAD_DATA);
    assert_string_equal(f->err.text, "swap 'joint.motor_base.count=4': what holds motor keeps two "
                                     "screws at each, 8 in all");
    assert_int_equal(pare_swap_apply(f->bench, f->craft, "joint.arm_root.count=4", &f->changed,
                                     &f->applied, &f->err),
                     PARE_BAD_DATA);
}

static void aluminium_screws_are_spent_after_a_crash(void **state)
{
    fixture *f = *state;
    tried(f, "joint.motor_base.material=aluminium_7075");
    assert_true(noted(&f->applied, "spent after one crash"));
    assert_true(f->applied.open_question);
    tried(f, "joint.stack.material=aluminium_7075");
    assert_true(noted(&f->applied, "not used again after a crash"));
    assert_false(f->applied.open_question);
    tried(f, "joint.motor_base.material=titanium");
    assert_false(f->applied.open_question);
}

static void screws_that_came_with_the_frame_change_it_by_the_difference_only(void **state)
{
    fixture *f = *state;
    weigh(f->craft, &f->sheet);
    const double before_g = 1e3 * f->sheet.figure[PARE_ALL_UP].value;
    const double steel_g = screw_g(PARE_ISO7380, 16e-3, PARE_STEEL);
    const double titanium_g = screw_g(PARE_ISO7380, 16e-3, PARE_TITANIUM);
    assert_near(saved_g(f, "joint.arm_root.material=titanium"), 8 * (steel_g - titanium_g), 1e-9);
    assert_near(1e3 * f->other.figure[PARE_ALL_UP].value, before_g - 8 * (steel_g - titanium_g),
                1e-9);
}

static void a_snap_antenna_takes_pigtail_and_adapter_away(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "antenna=an-snap"), 10 - 2 + 2.6 + 3, 1e-9);
    assert_true(among(f->applied.drops, f->applied.drop, "pigtail"));
    assert_true(among(f->applied.drops, f->applied.drop, "elbow"));
    assert_int_equal(f->applied.jobs_lost, 0);
}

static void an_antenna_of_another_band_is_no_stand_in(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    assert_int_equal(
        pare_swaps_find(f->bench, f->craft, -1, PARE_WISH_GRAMS, f->arena, &swaps, &f->err),
        PARE_OK);
    assert_non_null(row_of(&swaps, "antenna=an-snap"));
    assert_null(row_of(&swaps, "antenna=an-low"));
}

static void coax_cut_to_length_is_lighter_and_one_cut_too_short_says_so(void **state)
{
    fixture *f = *state;
    const double longer_g = saved_g(f, "pigtail.length=50mm");
    assert_between(longer_g, 0.05, 0.3); /* 20 mm of thin coax at 8 g a metre, from memory */
    assert_near(saved_g(f, "pigtail.length=60mm"), longer_g / 2, 1e-9);
    tried(f, "pigtail.length=10mm");
    assert_true(noted(&f->applied, "to reach"));
}

static void a_smaller_camera_saves_the_difference(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "camera=ca-19"), 7, 1e-9);
    assert_int_equal(f->applied.drops, 0);
}

static void a_print_gives_way_to_two_ties(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "mount=ti-a"), 7 - 2 * 0.3, 1e-9);
    assert_int_equal(item(f, "mount")->count, 2);
    assert_int_equal(f->applied.jobs_lost, 0);
    assert_near(f->applied.money, 0, 0); /* forty are owned */
}

static void a_bumper_left_off_loses_a_job_that_is_not_kept(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "bumper=off"), 8, 1e-9);
    assert_int_equal(f->applied.jobs_lost, 1u << PARE_PROTECTS);
}

static void what_is_needed_to_see_loses_that_job_when_left_off(void **state)
{
    fixture *f = *state;
    static const char *const off[] = {"camera=off", "video=off", "antenna=off", "pigtail=off"};
    for (size_t i = 0; i < sizeof off / sizeof off[0]; i++) {
        tried(f, off[i]);
        assert_int_equal(f->applied.jobs_lost, 1u << PARE_SEES);
    }
    tried(f, "elbow=off"); /* screw to screw: the chain mates without it */
    assert_int_equal(f->applied.jobs_lost, 0);
}

static void what_goes_off_takes_its_screws_and_wires_along(void **state)
{
    fixture *f = *state;
    const double cage_g = 2 * screw_g(PARE_ISO7380, 12e-3, PARE_STEEL);
    const double wire_g = 0.360 * 1e3 * pare_wire_kg_per_m(28, 0);
    assert_near(saved_g(f, "camera=off"), 12.5 + cage_g + wire_g, 1e-9);
    assert_true(among(f->applied.drops, f->applied.drop, "joint.cage"));
    assert_true(among(f->applied.drops, f->applied.drop, "run.camera_wire"));
}

static void what_a_craft_cannot_fly_without_does_not_come_off(void **state)
{
    fixture *f = *state;
    refused(f, "pack=off", PARE_BAD_DATA, "no pack");
    refused(f, "motor=off", PARE_BAD_DATA, "no motors");
    refused(f, "esc=off", PARE_BAD_DATA, "no ESC");
    refused(f, "frame=off", PARE_BAD_DATA, "no frame");
    tried(f, "bumper=off");
    f->loaded = f->changed;
    assert_int_equal(
        pare_swap_apply(f->bench, &f->loaded, "bumper=off", &f->changed, NULL, &f->err),
        PARE_UNKNOWN);
}

static void a_smaller_esc_of_the_same_pattern_saves_the_difference(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "esc=es-b"), 4, 1e-9);
    assert_int_equal(f->applied.brings, 0);
}

static void an_esc_of_another_pattern_brings_the_adapter_that_has_both(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "esc=es-20"), 15 - 8 - 2, 1e-9);
    assert_true(among(f->applied.brings, f->applied.bring, "pl-20"));
    assert_near(f->applied.money, 50 + 3, 1e-12);
}

static void an_adapter_that_bridges_nothing_any_more_goes_again(void **state)
{
    fixture *f = *state;
    tried(f, "esc=es-20");
    f->loaded = f->changed;
    weigh(f->craft, &f->sheet);
    assert_int_equal(
        pare_swap_apply(f->bench, &f->loaded, "esc=es-a", &f->changed, &f->applied, &f->err),
        PARE_OK);
    assert_true(among(f->applied.drops, f->applied.drop, "pl-20"));
    weigh(&f->changed, &f->other);
    assert_near(f->sheet.figure[PARE_ALL_UP].value, f->other.figure[PARE_ALL_UP].value, 0);
}

static void boards_on_an_adapter_keep_the_screws_as_they_are(void **state)
{
    fixture *f = *state;
    tried(f, "esc=es-20");
    const int stack = pare_craft_joint(&f->changed, "stack");
    assert_near(f->changed.joint[stack].thread.nominal_m, 3e-3, 0);
}

static void one_board_for_controller_and_esc_takes_the_esc_away_and_keeps_its_screws(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "brain=fe-a"), 8 + 15 - 13, 1e-9);
    assert_true(item(f, "esc")->off);
    const int stack = pare_craft_joint(&f->changed, "stack");
    assert_true(stack >= 0);
    assert_string_equal(f->changed.joint[stack].holds, "brain");
    refused(f, "esc=fe-a", PARE_BAD_DATA, "needs kind esc_four");
}

static void single_escs_sit_on_the_arms_with_wires_to_them(void **state)
{
    fixture *f = *state;
    tried(f, "esc=e1-a");
    assert_int_equal(item(f, "esc")->count, 4);
    assert_int_equal(item(f, "esc")->place, PARE_AT_ARMS);
    assert_true(among(f->applied.brings, f->applied.bring, "esc_power"));
    assert_near(f->applied.money, 4 * 15 + 1.2, 1e-12); /* a metre of 18 AWG */
    /* And back: the wires between go, three of the four too. */
    f->loaded = f->changed;
    assert_int_equal(
        pare_swap_apply(f->bench, &f->loaded, "esc=es-b", &f->changed, &f->applied, &f->err),
        PARE_OK);
    assert_int_equal(item(f, "esc")->count, 1);
    assert_int_equal(pare_craft_run(&f->changed, "esc_power"), -1);
    assert_true(among(f->applied.drops, f->applied.drop, "3 more"));
    weigh(f->craft, &f->sheet);
    weigh(&f->changed, &f->other);
    assert_near(f->sheet.figure[PARE_ALL_UP].value - f->other.figure[PARE_ALL_UP].value, 4e-3,
                1e-12);
}

static void wires_that_no_longer_reach_are_made_longer(void **state)
{
    fixture *f = *state;
    static pare_craft singles, cut;
    assert_int_equal(pare_swap_apply(f->bench, f->craft, "esc=e1-a", &singles, NULL, &f->err),
                     PARE_OK);
    assert_int_equal(
        pare_swap_apply(f->bench, &singles, "run.phase.length=62mm", &cut, NULL, &f->err), PARE_OK);
    assert_int_equal(pare_swap_apply(f->bench, &cut, "esc=es-b", &f->changed, &f->applied, &f->err),
                     PARE_OK);
    assert_true(among(f->applied.brings, f->applied.bring, "to reach"));
    const pare_run *phase = &f->changed.run[pare_craft_run(&f->changed, "phase")];
    assert_true(phase->way_m[0] >= pare_run_needed_m(&f->changed, phase) - 1e-9);
}

static void another_frame_brings_its_own_screws_and_says_what_lies_beyond_it(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "frame=fr-b"), 20, 1e-9);
    const int root = pare_craft_joint(&f->changed, "arm_root");
    assert_near(f->changed.joint[root].length_m, 12e-3, 1e-12);
    assert_true(noted(&f->applied, "camera stays where it was, 10 mm beyond"));
    /* The motors follow the arms: 85 mm out to the side now. */
    assert_near(f->other.rig.sum_y_m, 4 * 85e-3, 2e-3);
}

static void other_cells_bring_everything_that_hangs_on_them_into_question(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "pack=pa-6"), 10, 1e-9);
    assert_true(noted(&f->applied, "1733 rpm/V would do on 6 cells what 2600 does on 4"));
    assert_true(noted(&f->applied, "motor 'mo-a' is rated 17.5 V"));
    assert_true(noted(&f->applied, "ESC 'es-a' is rated 26 V: holds"));
    assert_true(noted(&f->applied, "capacitor 'cp-35' is rated 35 V: holds"));
    assert_true(noted(&f->applied, "2 owned 'pa-4'"));
    assert_true(f->applied.deep);
}

static void cells_from_the_first_to_the_last_of_a_rating_hold(void **state)
{
    (void)state;
    static const pare_rated rated[] = {
        [1] = PARE_RATED_LOW,   [2] = PARE_RATED_HOLDS, [3] = PARE_RATED_HOLDS,
        [4] = PARE_RATED_HOLDS, [5] = PARE_RATED_HIGH,  [6] = PARE_RATED_HIGH};
    pare_part esc = {.kind = PARE_ESC_FOUR}, pack = {.kind = PARE_PACK};
    esc.fit[PARE_FIT_CELLS].count = 1;
    esc.fit[PARE_FIT_CELLS].any[0].low = 2;
    esc.fit[PARE_FIT_CELLS].any[0].high = 4;
    for (int cells = 1; cells <= 6; cells++) {
        pack.spec[PARE_SPEC_CELLS].value = cells;
        assert_int_equal(pare_volts_rated(&esc, &pack), rated[cells]);
    }
}

static void four_cells_of_1300_hold_the_energy_of_six_of_867(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    assert_int_equal(
        pare_swaps_find(f->bench, f->craft, -1, PARE_WISH_GRAMS, f->arena, &swaps, &f->err),
        PARE_OK);
    const pare_swap *same = row_of(&swaps, "pack=pa-6");
    assert_non_null(same);
    assert_near(same->change[PARE_PACK_ENERGY], 0, 100); /* J of 69 kJ */
    assert_null(row_of(&swaps, "pack=pa-6big"));         /* half as much again: another craft */
}

static void interfaces_that_do_not_agree_are_refused_with_both_sides(void **state)
{
    fixture *f = *state;
    refused(f, "motor=mo-small", PARE_BAD_DATA, "bolt circle of 9 mm");
    refused(f, "motor=mo-shaft", PARE_BAD_DATA, "'pr-a' has shaft M5");
    refused(f, "propeller=pr-7", PARE_BAD_DATA, "177.8 mm");
    refused(f, "camera=ca-14", PARE_BAD_DATA, "camera width of 14 mm");
    refused(f, "pack=pa-30", PARE_BAD_DATA, "30 A class");
    refused(f, "frame=fr-c", PARE_BAD_DATA, "9 mm");
    refused(f, "motor=pa-4", PARE_BAD_DATA, "needs kind motor");
}

static void a_sought_part_is_the_same_with_fewer_grams(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "motor=sought-29g"), 20, 1e-9);
    assert_true(f->applied.sought);
    assert_false(f->applied.priced);
    assert_true(noted(&f->applied, "look for this stator at 29 g or less: saves 20 g, unsure by "));
    assert_true(item(f, "motor")->part->sought);
}

static void a_smaller_capacitor_is_said_to_smooth_less(void **state)
{
    fixture *f = *state;
    assert_near(saved_g(f, "capacitor=cp-20"), 2.2, 1e-9);
    assert_true(f->applied.protects_esc);
    assert_true(noted(&f->applied, "voltage spikes"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(four_lighter_motors_save_four_differences),
        cmocka_unit_test(a_shallower_motor_says_that_the_screws_reach_its_winding),
        cmocka_unit_test(a_motor_said_to_be_lighter_than_any_is_to_be_weighed_first),
        cmocka_unit_test(a_cut_phase_wire_stays_cut_on_another_motor),
        cmocka_unit_test(phase_wires_cut_to_length_save_their_wire),
        cmocka_unit_test(a_thinner_lead_saves_its_copper_and_is_said_to_run_hotter),
        cmocka_unit_test(titanium_screws_save_what_geometry_says_and_are_said_to_be_weaker),
        cmocka_unit_test(two_screws_for_four_save_eight_screws),
        cmocka_unit_test(shorter_screws_save_their_ends),
        cmocka_unit_test(a_screw_that_grips_a_full_nut_suits),
        cmocka_unit_test(another_motor_asks_for_another_length),
        cmocka_unit_test(what_must_not_come_loose_keeps_two_screws),
        cmocka_unit_test(aluminium_screws_are_spent_after_a_crash),
        cmocka_unit_test(screws_that_came_with_the_frame_change_it_by_the_difference_only),
        cmocka_unit_test(a_snap_antenna_takes_pigtail_and_adapter_away),
        cmocka_unit_test(an_antenna_of_another_band_is_no_stand_in),
        cmocka_unit_test(coax_cut_to_length_is_lighter_and_one_cut_too_short_says_so),
        cmocka_unit_test(a_smaller_camera_saves_the_difference),
        cmocka_unit_test(a_print_gives_way_to_two_ties),
        cmocka_unit_test(a_bumper_left_off_loses_a_job_that_is_not_kept),
        cmocka_unit_test(what_is_needed_to_see_loses_that_job_when_left_off),
        cmocka_unit_test(what_goes_off_takes_its_screws_and_wires_along),
        cmocka_unit_test(what_a_craft_cannot_fly_without_does_not_come_off),
        cmocka_unit_test(a_smaller_esc_of_the_same_pattern_saves_the_difference),
        cmocka_unit_test(an_esc_of_another_pattern_brings_the_adapter_that_has_both),
        cmocka_unit_test(an_adapter_that_bridges_nothing_any_more_goes_again),
        cmocka_unit_test(boards_on_an_adapter_keep_the_screws_as_they_are),
        cmocka_unit_test(one_board_for_controller_and_esc_takes_the_esc_away_and_keeps_its_screws),
        cmocka_unit_test(single_escs_sit_on_the_arms_with_wires_to_them),
        cmocka_unit_test(wires_that_no_longer_reach_are_made_longer),
        cmocka_unit_test(another_frame_brings_its_own_screws_and_says_what_lies_beyond_it),
        cmocka_unit_test(other_cells_bring_everything_that_hangs_on_them_into_question),
        cmocka_unit_test(cells_from_the_first_to_the_last_of_a_rating_hold),
        cmocka_unit_test(four_cells_of_1300_hold_the_energy_of_six_of_867),
        cmocka_unit_test(interfaces_that_do_not_agree_are_refused_with_both_sides),
        cmocka_unit_test(a_sought_part_is_the_same_with_fewer_grams),
        cmocka_unit_test(a_smaller_capacitor_is_said_to_smooth_less),
    };
    return cmocka_run_group_tests(tests, fixture_open, fixture_close);
}
