/* rooms: advise store craft physics base */
/* Every lever that a builder pulls, one test each, on the demo's craft: it stands among the swaps,
 * saves the grams that its parts say, and has the consequences that it must have. Grams are worked
 * out here from the parts' own masses and from wire and screw figures of the trade's tables. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/swap.h"
#include "bench_of.h"
#include "near.h"
#include "store/bench.h"

typedef struct fixture {
    pare_bench *bench;
    pare_arena *arena;
    pare_swaps hedgerow, drover, thimble;
} fixture;

static void find_all(fixture *f, const char *name, pare_swaps *swaps)
{
    pare_error err = {0};
    const pare_craft *craft = pare_bench_craft(f->bench, name);
    assert_non_null(craft);
    if (pare_swaps_find(f->bench, craft, 0, PARE_WISH_GRAMS, f->arena, swaps, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static int setup(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    f->bench = bench_of("../../demo/bench.yaml");
    f->arena = pare_arena_open();
    find_all(f, "hedgerow", &f->hedgerow);
    find_all(f, "drover", &f->drover);
    find_all(f, "thimble", &f->thimble);
    *state = f;
    return 0;
}

static int teardown(void **state)
{
    fixture *f = *state;
    pare_bench_close(f->bench);
    pare_arena_close(f->arena);
    free(f);
    return 0;
}

static const pare_swap *swap_named(const pare_swaps *swaps, const char *id)
{
    for (size_t i = 0; i < swaps->count; i++)
        if (strcmp(swaps->swap[i].applied.id, id) == 0)
            return &swaps->swap[i];
    fail_msg("no swap %s among %zu", id, swaps->count);
    return NULL;
}

static double part_g(const fixture *f, const char *id)
{
    const pare_part *part = pare_bench_part(f->bench, id);
    if (!part)
        fail_msg("no part %s", id);
    return 1e3 * part->mass_kg.value;
}

static void saves(const pare_swap *swap, double grams, double tolerance)
{
    assert_near(1e3 * swap->grams_kg, grams, tolerance);
    assert_near(1e3 * swap->change[PARE_ALL_UP], -grams, tolerance);
}

/* What any gram taken off does. */
static void is_lighter_and_so_better(const pare_swap *swap)
{
    assert_true(swap->grams_kg > 0);
    assert_true(swap->change[PARE_HOVER_TIME] > 0);
    assert_true(swap->change[PARE_FLOWN_TIME] > 0);
    assert_true(swap->change[PARE_TWR_HALF] > 0);
    assert_true(swap->change[PARE_BURST] < 0);
    assert_true(swap->change[PARE_CRASH] < 0);
}

static bool has(size_t count, const char (*list)[64], const char *word)
{
    for (size_t i = 0; i < count; i++)
        if (strstr(list[i], word))
            return true;
    return false;
}

static bool among(size_t count, const char (*list)[48], const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(list[i], name) == 0)
            return true;
    return false;
}

/* ---- printed parts ---- */

static void bumpers_come_off_for_nothing_and_quicken_roll(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "bumper=off");
    saves(swap, 4 * part_g(f, "bu-thick"), 1e-9);
    is_lighter_and_so_better(swap);
    assert_int_equal(swap->band, PARE_BAND_FREE);
    assert_near(swap->applied.money, 0, 0);
    assert_int_equal(swap->applied.jobs_lost, 1u << PARE_PROTECTS);
    /* Grams at the tips: more roll for a gram than the holder, which sits in the middle. */
    const pare_swap *middle = swap_named(&f->hedgerow, "holder=ho-slim");
    assert_true(swap->change[PARE_ROLL] / swap->grams_kg >
                2 * middle->change[PARE_ROLL] / middle->grams_kg);
}

static void a_printed_antenna_mount_becomes_two_ties(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "tower=ti-100");
    saves(swap, part_g(f, "am-tower") - 2 * part_g(f, "ti-100"), 1e-9);
    is_lighter_and_so_better(swap);
    assert_int_equal(swap->applied.jobs_lost, 0);
}

static void a_slimmer_camera_holder_saves_its_difference(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "holder=ho-slim");
    saves(swap, part_g(f, "ho-brick") - part_g(f, "ho-slim"), 1e-9);
    is_lighter_and_so_better(swap);
    assert_true(swap->applied.money > 0);
    assert_int_equal(swap->band, PARE_BAND_CHEAP);
}

/* ---- antenna chain ---- */

static void a_snap_antenna_takes_adapter_and_pigtail_away(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "antenna=an-rush");
    saves(swap,
          part_g(f, "an-staff") + part_g(f, "pg-70") + part_g(f, "ad-elbow") - part_g(f, "an-rush"),
          1e-9);
    is_lighter_and_so_better(swap);
    assert_true(has(swap->applied.drops, swap->applied.drop, "pigtail"));
    assert_true(has(swap->applied.drops, swap->applied.drop, "elbow"));
}

/* ---- screws ---- */

/* M3 x 10 socket cap: 0.9 g in steel by a supplier's chart after DIN 912, printed to 0.1 g. */
#define M3X10_G   0.9
#define M3X10_U_G 0.09

static void titanium_motor_screws_save_the_ratio_of_densities(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "joint.motor_base.material=titanium");
    saves(swap, 16 * M3X10_G * (1 - 4.43 / 7.85), 16 * M3X10_U_G * (1 - 4.43 / 7.85));
    is_lighter_and_so_better(swap);
    assert_true(swap->applied.weaker);
}

static void aluminium_motor_screws_save_about_two_thirds(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "joint.motor_base.material=aluminium");
    /* GOST 5927-70 gives 0.356 as the factor of aluminium to steel. */
    saves(swap, 16 * M3X10_G * (1 - 0.356), 16 * M3X10_U_G * (1 - 0.356));
    assert_true(swap->applied.weaker);
}

static void two_screws_for_four_save_half_of_them(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "joint.motor_base.count=8");
    saves(swap, 8 * M3X10_G, 8 * M3X10_U_G);
    assert_near(swap->applied.money, 0, 0);
    assert_true(swap->applied.weaker);
}

static void shorter_motor_screws_save_two_millimetres_of_thread_each(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "joint.motor_base.length=8mm");
    /* GOST 22042-76: an M3 stud of 20 mm weighs 0.882 g. */
    saves(swap, 16 * 0.882 * 2 / 20, 0.005 * 16 * 0.882 * 2 / 20 + 1e-9);
    assert_near(swap->applied.money, 0, 0);
}

static void plain_nuts_for_locking_ones_save_their_collars(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "joint.cage_nuts.standard=ISO4032");
    /* A plain M3 nut weighs 0.377 g (GOST 5927-70, DIN 934 sizes; 4 %), a locking one 0.5 g by its maker's
     * lists (from memory; 0.06 g). */
    saves(swap, 2 * (0.5 - 0.377), 2 * 0.08);
    assert_true(swap->applied.open_question);
    assert_string_equal(swap->applied.from, "ISO7040");
}

static void tried_on(const fixture *f, const pare_craft *craft, const char *id, pare_craft *changed,
                     pare_applied *applied)
{
    pare_error err = {0};
    if (pare_swap_apply(f->bench, craft, id, changed, applied, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static double mass_g(const pare_craft *craft)
{
    static pare_sheet sheet;
    assert_int_equal(pare_sheet_compute(craft, false, &sheet, NULL), PARE_OK);
    return 1e3 * sheet.figure[PARE_ALL_UP].value;
}

/* Sixteen washers under the motors' screws, which the craft of the demo has not. */
static void washers_come_off_and_on_again(void **state)
{
    const fixture *f = *state;
    static pare_craft with, without, again, twice;
    pare_applied applied;
    pare_craft_copy(pare_bench_craft(f->bench, "hedgerow"), &with);
    const pare_joint *base = &with.joint[pare_craft_joint(&with, "motor_base")];
    with.joint[with.joints++] = (pare_joint){.name = "motor_washers",
                                             .standard = PARE_ISO7089,
                                             .thread = base->thread,
                                             .material = PARE_STEEL,
                                             .count = 16,
                                             .holds = "motor"};
    tried_on(f, &with, "joint.motor_washers.count=0", &without, &applied);
    assert_true(applied.open_question);
    /* By geometry, sizes of DIN 125 A: a ring of 3.2 and 7 mm, 0.5 mm thick, of steel. */
    const double washer_g = 3.14159265358979 / 4 * (49 - 3.2 * 3.2) * 0.5 * 7.85e-3;
    assert_near(mass_g(&with) - mass_g(&without), 16 * washer_g, 1e-6);
    /* The screws reach half a millimetre farther then. */
    const int at = pare_craft_joint(&with, "motor_base");
    assert_near(pare_joint_enters_m(&without, &without.joint[at]),
                pare_joint_enters_m(&with, &with.joint[at]) + 0.5e-3, 1e-9);
    assert_null(pare_joint_washers(&without, &without.joint[at]));
    tried_on(f, &without, "joint.motor_washers.count=16", &again, &applied);
    assert_near(mass_g(&again), mass_g(&with), 0);
    assert_false(applied.open_question);
    /* It stays off when something else changes. */
    tried_on(f, &without, "bumper=off", &twice, &applied);
    assert_int_equal(twice.joint[pare_craft_joint(&twice, "motor_washers")].count, 0);
}

static void what_holds_does_not_go_by_its_count(void **state)
{
    const fixture *f = *state;
    static const char *const refused[] = {
        "joint.cage_nuts.count=0", "joint.motor_base.count=0", "joint.standoffs.count=0",
        "joint.motor_base.standard=ISO7380-1", "joint.cage_nuts.standard=ISO7089"};
    static pare_craft changed;
    pare_applied applied;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        pare_error err = {0};
        assert_int_not_equal(pare_swap_apply(f->bench, pare_bench_craft(f->bench, "hedgerow"),
                                             refused[i], &changed, &applied, &err),
                             PARE_OK);
        assert_true(strlen(err.text) > 20);
    }
}

/* ---- camera ---- */

static void a_smaller_camera_saves_its_difference(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "camera=ca-19");
    saves(swap, part_g(f, "ca-28") - part_g(f, "ca-19"), 1e-9);
    is_lighter_and_so_better(swap);
}

/* Whatever order a craft lists its joints in: here the bolts of the cage stand first, so that all the others move
 * up, each as it was. */
static void what_holds_the_camera_goes_with_it_and_nothing_else(void **state)
{
    const fixture *f = *state;
    static pare_craft craft, blind;
    pare_craft_copy(pare_bench_craft(f->bench, "hedgerow"), &craft);
    const int bolts = pare_craft_joint(&craft, "cage_bolts");
    const pare_joint first = craft.joint[0];
    pare_applied applied;
    size_t stayed = 0;
    craft.joint[0] = craft.joint[bolts];
    craft.joint[bolts] = first;
    tried_on(f, &craft, "camera=off", &blind, &applied);
    for (size_t i = 0; i < craft.joints; i++) {
        const pare_joint *was = &craft.joint[i];
        const int now = pare_craft_joint(&blind, was->name);
        const bool holds_it = was->holds && strcmp(was->holds, "camera") == 0;
        assert_int_equal(now < 0, holds_it);
        stayed += !holds_it;
        if (now >= 0)
            assert_near(blind.joint[now].length_m, was->length_m, 0);
    }
    assert_int_equal(blind.joints, stayed);
    assert_true(stayed < craft.joints);
}

/* A digital set brings its camera, so the one on the craft goes off; with a transmitter that brings none it
 * is back, and not the lightest of the bench. */
static void a_camera_that_went_off_for_a_set_comes_back(void **state)
{
    const fixture *f = *state;
    static pare_craft digital, again;
    const pare_craft *craft = pare_bench_craft(f->bench, "hedgerow");
    const int camera = pare_craft_item(craft, "camera");
    pare_applied applied;
    tried_on(f, craft, "video=vd-far", &digital, &applied);
    assert_true(digital.item[camera].off);
    tried_on(f, &digital, "video=vt-loud", &again, &applied);
    assert_int_equal(pare_craft_doing(&again, PARE_CAMERA), camera);
    assert_ptr_equal(again.item[camera].part, craft->item[camera].part);
}

/* ---- action camera ---- */

/* The holder of thimble was printed for a camera of 24 mm; that of hedgerow is 38 mm wide. */
static void a_holder_takes_no_wider_action_camera(void **state)
{
    const fixture *f = *state;
    static const char *const refused[][2] = {{"hedgerow", "holder=ho-mite"},
                                             {"thimble", "action_camera=ac-strip"}};
    static pare_craft changed;
    pare_applied applied;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        pare_error err = {0};
        assert_int_equal(pare_swap_apply(f->bench, pare_bench_craft(f->bench, refused[i][0]),
                                         refused[i][1], &changed, &applied, &err),
                         PARE_BAD_DATA);
        assert_non_null(
            strstr(err.text, "holder 'ho-mite' is 24 mm wide, action camera 'ac-strip' 38 mm"));
    }
}

/* ---- lead ---- */

/* Silicone wire, g/m: 12 AWG over 4.5 mm and 14 AWG over 3.5 mm (an independent evaluation of ASTM
 * B258 areas, copper 8890 and silicone 1200 kg/m3). */
#define AWG_12_G_M 43.206
#define AWG_14_G_M 26.715

static void a_thinner_lead_saves_grams_and_costs_thrust(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "run.lead.gauge=14");
    saves(swap, 0.250 * (AWG_12_G_M - AWG_14_G_M), 1e-3);
    assert_true(swap->change[PARE_FULL_A] < 0);
    assert_true(swap->change[PARE_THRUST_FRESH] < 0);
    assert_true(swap->applied.hotter);
}

static void a_shorter_lead_saves_grams_and_gives_thrust(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = NULL;
    int length_mm = 0;
    for (size_t i = 0; i < f->hedgerow.count; i++)
        if (sscanf(f->hedgerow.swap[i].applied.id, "run.lead.length=%dmm", &length_mm) == 1)
            swap = &f->hedgerow.swap[i];
    assert_non_null(swap);
    assert_between(length_mm, 40, 124);
    saves(swap, 2 * (0.125 - 1e-3 * length_mm) * AWG_12_G_M, 1e-3);
    is_lighter_and_so_better(swap);
    assert_true(swap->change[PARE_THRUST_FRESH] > 0);
    assert_int_equal(swap->band, PARE_BAND_FREE);
}

/* ---- ESC ---- */

static void a_smaller_four_in_one_saves_its_difference(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "esc=es-45");
    saves(swap, part_g(f, "es-60") - part_g(f, "es-45"), 1e-9);
    is_lighter_and_so_better(swap);
    assert_false(among(swap->breaks, swap->broken, "esc.burst"));
    assert_true(among(swap_named(&f->hedgerow, "esc=es-35")->breaks,
                      swap_named(&f->hedgerow, "esc=es-35")->broken, "esc.burst"));
}

/* What a craft's runs add to the parts that they came with. */
static double runs_add_kg(const pare_craft *craft)
{
    double sum_kg = 0;
    for (size_t i = 0; i < craft->runs; i++) {
        const pare_run *run = &craft->run[i];
        sum_kg += pare_run_kg(run) - (run->included_in ? run->included_kg : 0);
    }
    return sum_kg;
}

static void a_four_in_one_takes_four_singles_and_their_wires_away(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->drover, "esc=es-45");
    assert_true(swap->grams_kg > 0);
    assert_true(has(swap->applied.drops, swap->applied.drop, "3 more one-motor ESCs"));
    assert_true(has(swap->applied.drops, swap->applied.drop, "run.esc_power"));
    assert_true(has(swap->applied.brings, swap->applied.bring, "run.phase"));
    /* Grams: the singles and their runs go, the board comes, the motors' wires grow. */
    pare_error err = {0};
    const pare_craft *before = pare_bench_craft(f->bench, "drover");
    pare_craft *after = malloc(sizeof *after);
    assert_int_equal(pare_swap_apply(f->bench, before, "esc=es-45", after, NULL, &err), PARE_OK);
    const double runs_kg = runs_add_kg(before) - runs_add_kg(after);
    saves(swap, 4 * part_g(f, "e1-40") - part_g(f, "es-45") + 1e3 * runs_kg, 1e-9);
    free(after);
}

static void one_board_takes_esc_and_controller_away(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "brain=fe-25-40");
    assert_true(has(swap->applied.drops, swap->applied.drop, "esc"));
    assert_true(has(swap->applied.brings, swap->applied.bring, "pl-25"));
    saves(swap,
          part_g(f, "es-60") + part_g(f, "fc-30") - part_g(f, "fe-25-40") - part_g(f, "pl-25"),
          1e-9);
}

/* ---- motors, pack, cells, frame ---- */

static void lighter_motors_quicken_roll_more_than_their_grams_in_the_middle(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "motor=mo-2207l-2750");
    saves(swap, 4 * (part_g(f, "mo-2207-2750") - part_g(f, "mo-2207l-2750")), 1e-9);
    is_lighter_and_so_better(swap);
    assert_int_equal(swap->band, PARE_BAND_DEEP);
    const pare_swap *middle = swap_named(&f->hedgerow, "esc=es-45");
    assert_true(swap->change[PARE_ROLL] / swap->grams_kg >
                2 * middle->change[PARE_ROLL] / middle->grams_kg);
}

static void a_smaller_pack_is_lighter_and_flies_shorter(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "pack=pa-4s-1300");
    saves(swap, part_g(f, "pa-4s-1550") - part_g(f, "pa-4s-1300"), 1e-9);
    assert_true(swap->change[PARE_FLOWN_TIME] < 0);
    assert_true(swap->change[PARE_PACK_ENERGY] < 0);
    assert_int_equal(swap->band, PARE_BAND_DEEP);
}

static void other_cells_bring_kv_ratings_and_owned_packs_into_question(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "pack=pa-6s-1050");
    bool kv = false, rating = false, owned = false, capacitor = false;
    for (size_t i = 0; i < swap->applied.notes; i++) {
        kv = kv || strstr(swap->applied.note[i], "1833 rpm/V"); /* 2750 x 4 / 6 */
        rating = rating || strstr(swap->applied.note[i], "es-60");
        capacitor = capacitor || strstr(swap->applied.note[i], "capacitor");
        owned = owned || strstr(swap->applied.note[i], "owned packs");
    }
    assert_true(kv && rating && capacitor && owned);
    assert_true(swap->change[PARE_TWR_HALF] > 0);
    assert_true(among(swap->breaks, swap->broken, "motor.burst"));
}

static void a_lighter_frame_moves_the_arms_and_keeps_the_rest(void **state)
{
    const fixture *f = *state;
    const pare_swap *swap = swap_named(&f->hedgerow, "frame=fr-lath-5");
    /* All screws of arm roots and posts come with the frame. */
    saves(swap, part_g(f, "fr-ridge-5") - part_g(f, "fr-lath-5"), 1e-9);
    assert_true(swap->change[PARE_FLOWN_TIME] > 0);
    assert_true(swap->applied.work_min > 60);
}

/* ---- what holds for all of them ---- */

static void the_capacitor_is_never_free(void **state)
{
    const fixture *f = *state;
    const pare_swaps *all[] = {&f->hedgerow, &f->drover, &f->thimble};
    for (size_t k = 0; k < 3; k++)
        for (size_t i = 0; i < all[k]->count; i++)
            if (strncmp(all[k]->swap[i].applied.id, "capacitor=", 10) == 0)
                assert_int_not_equal(all[k]->swap[i].band, PARE_BAND_FREE);
}

static void free_swaps_come_first_and_real_ones_before_sought(void **state)
{
    const fixture *f = *state;
    const pare_swaps *all[] = {&f->hedgerow, &f->drover, &f->thimble};
    for (size_t k = 0; k < 3; k++) {
        bool paid = false, sought = false;
        for (size_t i = 0; i < all[k]->count; i++) {
            const pare_swap *swap = &all[k]->swap[i];
            sought = sought || swap->applied.sought;
            assert_int_equal(sought, swap->applied.sought);
            if (!swap->applied.sought) {
                paid = paid || swap->band != PARE_BAND_FREE;
                assert_int_equal(paid, swap->band != PARE_BAND_FREE);
            }
        }
    }
}

static void every_row_is_what_trying_it_gives_bit_for_bit(void **state)
{
    const fixture *f = *state;
    pare_error err = {0};
    const pare_craft *craft = pare_bench_craft(f->bench, "hedgerow");
    pare_craft *tried = malloc(sizeof *tried);
    pare_sheet *before = malloc(sizeof *before), *after = malloc(sizeof *after);
    assert_int_equal(pare_craft_load(craft, 0, tried, &err), PARE_OK);
    assert_int_equal(pare_sheet_compute(tried, false, before, &err), PARE_OK);
    for (size_t i = 0; i < f->hedgerow.count; i++) {
        const pare_swap *swap = &f->hedgerow.swap[i];
        if (pare_swap_apply_list(f->bench, craft, swap->applied.id, tried, &err) != PARE_OK)
            fail_msg("%s: %s", swap->applied.id, err.text);
        assert_int_equal(pare_craft_load(tried, 0, tried, &err), PARE_OK);
        assert_int_equal(pare_sheet_compute(tried, false, after, &err), PARE_OK);
        for (int k = 0; k < PARE_FIGURES; k++) {
            if (!after->figure[k].exists || !before->figure[k].exists) {
                assert_true(isnan(swap->change[k]));
                continue;
            }
            const double change = after->figure[k].value - before->figure[k].value;
            if (memcmp(&change, &swap->change[k], sizeof change) != 0)
                fail_msg("%s: %s changes by %.17g when tried, %.17g in the row", swap->applied.id,
                         pare_figure_table[k].key, change, swap->change[k]);
        }
    }
    free(tried);
    free(before);
    free(after);
}

/* ---- the demo is believable: common practice, no source ---- */

static void the_five_inch_is_believable_to_a_pilot(void **state)
{
    const fixture *f = *state;
    pare_error err = {0};
    pare_craft *craft = malloc(sizeof *craft);
    pare_sheet *sheet = malloc(sizeof *sheet);
    const pare_craft *stored = pare_bench_craft(f->bench, "hedgerow");
    assert_int_equal(pare_craft_load(stored, 0, craft, &err), PARE_OK);
    assert_int_equal(pare_sheet_compute(craft, false, sheet, &err), PARE_OK);
    assert_between(sheet->figure[PARE_HOVER_W_KG].value, 190, 230);
    assert_between(sheet->figure[PARE_TWR_FRESH].value, 6, 10);
    assert_between(sheet->figure[PARE_HOVER_A].value / sheet->figure[PARE_FULL_A].value, 0.04,
                   0.08);
    assert_between(sheet->figure[PARE_HOVER_OUTPUT].value, 0.20, 0.30);
    assert_between(sheet->figure[PARE_ALL_UP].value, 0.650, 0.850); /* heavy for its kind */
    assert_between(sheet->figure[PARE_FLOWN_A].value, 10, 18);
    free(craft);
    free(sheet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bumpers_come_off_for_nothing_and_quicken_roll),
        cmocka_unit_test(a_printed_antenna_mount_becomes_two_ties),
        cmocka_unit_test(a_slimmer_camera_holder_saves_its_difference),
        cmocka_unit_test(a_snap_antenna_takes_adapter_and_pigtail_away),
        cmocka_unit_test(titanium_motor_screws_save_the_ratio_of_densities),
        cmocka_unit_test(aluminium_motor_screws_save_about_two_thirds),
        cmocka_unit_test(two_screws_for_four_save_half_of_them),
        cmocka_unit_test(shorter_motor_screws_save_two_millimetres_of_thread_each),
        cmocka_unit_test(plain_nuts_for_locking_ones_save_their_collars),
        cmocka_unit_test(washers_come_off_and_on_again),
        cmocka_unit_test(what_holds_does_not_go_by_its_count),
        cmocka_unit_test(a_smaller_camera_saves_its_difference),
        cmocka_unit_test(what_holds_the_camera_goes_with_it_and_nothing_else),
        cmocka_unit_test(a_camera_that_went_off_for_a_set_comes_back),
        cmocka_unit_test(a_holder_takes_no_wider_action_camera),
        cmocka_unit_test(a_thinner_lead_saves_grams_and_costs_thrust),
        cmocka_unit_test(a_shorter_lead_saves_grams_and_gives_thrust),
        cmocka_unit_test(a_smaller_four_in_one_saves_its_difference),
        cmocka_unit_test(a_four_in_one_takes_four_singles_and_their_wires_away),
        cmocka_unit_test(one_board_takes_esc_and_controller_away),
        cmocka_unit_test(lighter_motors_quicken_roll_more_than_their_grams_in_the_middle),
        cmocka_unit_test(a_smaller_pack_is_lighter_and_flies_shorter),
        cmocka_unit_test(other_cells_bring_kv_ratings_and_owned_packs_into_question),
        cmocka_unit_test(a_lighter_frame_moves_the_arms_and_keeps_the_rest),
        cmocka_unit_test(the_capacitor_is_never_free),
        cmocka_unit_test(free_swaps_come_first_and_real_ones_before_sought),
        cmocka_unit_test(every_row_is_what_trying_it_gives_bit_for_bit),
        cmocka_unit_test(the_five_inch_is_believable_to_a_pilot),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
