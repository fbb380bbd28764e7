/* rooms: store craft physics base */
/* Every key of the text form, read into numbers; the truth is what stands in every-key.yaml, turned
 * into SI by hand. */
#include <math.h>
#include <string.h>

#include "bench_of.h"
#include "near.h"
#include "store/bench.h"

static int setup(void **state)
{
    *state = bench_of("every-key.yaml");
    return 0;
}

static int teardown(void **state)
{
    pare_bench_close(*state);
    return 0;
}

static const pare_part *part(void **state, const char *id)
{
    const pare_part *found = pare_bench_part(*state, id);
    assert_non_null(found);
    return found;
}

static const pare_craft *weir(void **state)
{
    const pare_craft *found = pare_bench_craft(*state, "weir-5");
    assert_non_null(found);
    return found;
}

static const pare_item *item(void **state, const char *name)
{
    const int index = pare_craft_item(weir(state), name);
    assert_true(index >= 0);
    return &weir(state)->item[index];
}

static void assert_spec(const pare_part *p, pare_spec spec, double value)
{
    assert_true(p->spec[spec].given);
    assert_within(p->spec[spec].value, value, 1e-12);
}

static void the_bench_has_its_money_and_its_rows_in_order(void **state)
{
    const pare_bench *bench = *state;
    assert_string_equal(bench->money, "EUR");
    assert_int_equal(bench->parts, 14);
    assert_int_equal(bench->crafts, 1);
    for (size_t i = 1; i < bench->parts; i++)
        assert_true(strcmp(bench->part[i - 1]->id, bench->part[i]->id) < 0);
}

static void a_part_says_what_it_is_weighs_and_costs(void **state)
{
    const pare_part *frame = part(state, "fr-w");
    assert_int_equal(frame->kind, PARE_FRAME);
    assert_string_equal(frame->maker, "Wren Street Plates");
    assert_near(frame->mass_kg.value, 0.088, 1e-15);
    assert_near(frame->mass_kg.u, 0.001, 1e-15);
    assert_int_equal(frame->mass_kg.known, PARE_WEIGHED);
    assert_true(frame->price.given);
    assert_near(frame->price.each, 31.5, 0);
    assert_near(frame->price.shipping, 4.2, 0);
    assert_int_equal(frame->price.sold_in, 1);
    assert_string_equal(frame->price.seller, "Harbour Bench");
    assert_string_equal(frame->price.date, "2026-02-11");
    assert_int_equal(frame->owned, 1);
    assert_string_equal(frame->material, "carbon");
    assert_spec(frame, PARE_SPEC_DRAG_AREA, 0.009);
    assert_false(frame->sought);
    assert_true(part(state, "so-w")->sought);
    assert_int_equal(part(state, "so-w")->mass_kg.known, PARE_ESTIMATED);
    assert_int_equal(part(state, "pr-w")->price.sold_in, 4);
    assert_false(part(state, "re-w")->price.given);
}

static void a_bare_quantity_is_the_makers_and_a_bare_price_is_each(void **state)
{
    const pare_part *motor = part(state, "mo-w");
    assert_near(motor->mass_kg.value, 0.0314, 1e-15);
    assert_int_equal(motor->mass_kg.known, PARE_STATED);
    assert_true(motor->mass_kg.u > 0);
    assert_near(motor->price.each, 17.25, 0);
    assert_int_equal(motor->price.sold_in, 1);
}

static void specs_are_in_si(void **state)
{
    const pare_part *motor = part(state, "mo-w");
    assert_spec(motor, PARE_SPEC_STATOR_DIAMETER, 0.022);
    assert_spec(motor, PARE_SPEC_STATOR_LENGTH, 0.007);
    assert_spec(motor, PARE_SPEC_KV, 1800);
    assert_near(motor->spec[PARE_SPEC_KV].u, 40, 0);
    assert_int_equal(motor->spec[PARE_SPEC_KV].known, PARE_MEASURED);
    assert_spec(motor, PARE_SPEC_RESISTANCE, 0.061);
    assert_spec(motor, PARE_SPEC_NO_LOAD, 1.1);
    assert_spec(motor, PARE_SPEC_NO_LOAD_AT, 10);
    assert_spec(motor, PARE_SPEC_VOLTS_LOW, 11);
    assert_spec(motor, PARE_SPEC_VOLTS_HIGH, 25.5);
    assert_spec(motor, PARE_SPEC_CONTINUOUS, 30);
    assert_spec(motor, PARE_SPEC_BURST, 38);
    assert_spec(motor, PARE_SPEC_BURST_FOR, 10);
    assert_spec(motor, PARE_SPEC_SCREW_DEPTH, 0.0035);
    const pare_part *sought = part(state, "so-w");
    assert_spec(sought, PARE_SPEC_STATOR_DIAMETER, 0.022);
    assert_spec(sought, PARE_SPEC_STATOR_LENGTH, 0.007);
    const pare_part *propeller = part(state, "pr-w");
    assert_spec(propeller, PARE_SPEC_DIAMETER, 5.1 * 0.0254);
    assert_spec(propeller, PARE_SPEC_PITCH, 4.3 * 0.0254);
    assert_spec(propeller, PARE_SPEC_BLADES, 3);
    assert_spec(propeller, PARE_SPEC_CHORD, 0.014);
    assert_near(propeller->spec[PARE_SPEC_SLOW].value, 0, 0);
    assert_non_null(propeller->blade);
    assert_non_null(propeller->table);
    const pare_part *pack = part(state, "pa-w");
    assert_spec(pack, PARE_SPEC_CELLS, 4);
    assert_spec(pack, PARE_SPEC_CAPACITY, 1300 * 3.6);
    /* stated 6 mohm; the charger's 5.375 mohm in the mean, near 25 degC, takes its place */
    assert_between(pack->spec[PARE_SPEC_RESISTANCE].value, 0.0050, 0.0055);
    assert_int_equal(pack->spec[PARE_SPEC_RESISTANCE].known, PARE_MEASURED);
    assert_int_equal(pack->chargings, 1);
    assert_int_equal(pack->charged[0].which, 2);
    assert_string_equal(pack->charged[0].date, "2026-04-02");
    assert_near(pack->charged[0].reading.seconds, 1, 0);
    assert_near(pack->charged[0].reading.charge, 0.6, 1e-12);
    assert_int_equal(pack->charged[0].group.worst, 3);
    assert_within(pack->holds_c.value, 1240 * 3.6, 1e-12);
    assert_spec(pack, PARE_SPEC_LABEL_RATING, 110);
    assert_int_equal(pack->chemistry, PARE_LIHV);
    assert_int_equal(part(state, "pa-w2")->chemistry, PARE_LIION_POWER);
    assert_spec(part(state, "pa-w2"), PARE_SPEC_CAPACITY, 3 * 3600);
    assert_spec(part(state, "re-w"), PARE_SPEC_EFFICIENCY, 0.9);
    assert_spec(part(state, "re-w"), PARE_SPEC_VOLTS_HIGH, 27);
    assert_false(part(state, "re-w")->spec[PARE_SPEC_VOLTS_LOW].given);
    assert_spec(part(state, "vt-w"), PARE_SPEC_BAND, 5.8e9);
    assert_spec(part(state, "fc-w"), PARE_SPEC_OUT_CURRENT, 2);
}

static void words_of_an_antenna_chain_are_read(void **state)
{
    const pare_part *pigtail = part(state, "pg-w"), *antenna = part(state, "an-w");
    assert_string_equal(pigtail->cable, "RG178");
    assert_string_equal(pigtail->ends[0], "snap");
    assert_string_equal(pigtail->ends[1], "screw");
    assert_spec(pigtail, PARE_SPEC_LOSS, 0.2);
    assert_int_equal(antenna->hand, PARE_HANDED_LEFT);
    assert_spec(antenna, PARE_SPEC_GAIN, 1.2);
}

static void what_a_part_does_is_more_than_its_kind(void **state)
{
    const pare_part *board = part(state, "fc-w");
    assert_true(pare_part_does(board, PARE_FLIGHT_CONTROLLER));
    assert_true(pare_part_does(board, PARE_ESC_FOUR));
    assert_false(pare_part_does(board, PARE_REGULATOR));
}

static void fits_are_lists_ranges_words_and_trade_sizes(void **state)
{
    const pare_part *frame = part(state, "fr-w"), *motor = part(state, "mo-w");
    assert_int_equal(frame->fit[PARE_FIT_BOLT_CIRCLE].count, 2);
    assert_near(frame->fit[PARE_FIT_BOLT_CIRCLE].any[1].low, 0.019, 1e-15);
    assert_near(frame->fit[PARE_FIT_STACK].any[0].high, 0.0305, 1e-15);
    assert_near(frame->fit[PARE_FIT_PROPELLER].any[0].low, 3 * 0.0254, 1e-15);
    assert_near(frame->fit[PARE_FIT_PROPELLER].any[0].high, 5.2 * 0.0254, 1e-15);
    assert_near(motor->fit[PARE_FIT_SHAFT].any[0].low, 0.005, 1e-15);
    assert_near(part(state, "pr-w")->fit[PARE_FIT_SHAFT].any[0].low, 0.005, 1e-15);
    assert_near(motor->fit[PARE_FIT_THREAD].any[0].low, 0.003, 1e-15);
    assert_near(part(state, "pa-w")->fit[PARE_FIT_CONNECTOR].any[0].low, 60, 0);
    assert_string_equal(part(state, "vt-w")->fit[PARE_FIT_ANTENNA].any[0].word, "snap");
}

static void a_body_is_arms_plates_shapes_and_meshes(void **state)
{
    const pare_part *frame = part(state, "fr-w");
    assert_int_equal(frame->pieces, 4);
    const pare_piece *arms = &frame->piece[0], *base = &frame->piece[1], *top = &frame->piece[2],
                     *tube = &frame->piece[3];
    assert_int_equal(arms->form, PARE_FORM_ARMS);
    assert_int_equal(arms->places, 4);
    assert_near(arms->at_m[1].x, 0.078, 1e-15);
    assert_near(arms->at_m[1].y, -0.082, 1e-15);
    assert_near(arms->root_m, 0.024, 1e-15);
    assert_near(arms->section_m[0], 0.011, 1e-15);
    assert_int_equal(arms->cloth, PARE_CLOTH_QUASI);
    assert_near(arms->flexural_pa, 0, 0); /* not stated: the cloth's band */
    assert_false(arms->tube);
    const pare_piece *round = part(state, "fr-tube")->piece;
    assert_true(round->tube);
    assert_near(round->section_m[0], 0.010, 1e-15);
    assert_near(round->section_m[1], 0.001, 1e-15); /* its wall */
    assert_within(round->off_axis_rad, acos(-1) / 18, 1e-12);
    assert_near(round->flexural_pa, 90e9, 1);
    assert_int_equal(base->form, PARE_FORM_PLATE);
    assert_string_equal(base->name, "base");
    assert_string_equal(base->file, "fr-w-base.dxf");
    assert_false(base->measured);
    assert_near(base->size_m[2], 0.0025, 1e-15);
    assert_near(base->size_m[0], 0.124, 1e-15); /* its neighbour's rectangle */
    assert_near(base->size_m[1], 0.036, 1e-15);
    assert_near(base->at_m[0].z, -0.006, 1e-15);
    assert_near(top->turn.m[0][0], 0, 1e-12); /* a quarter about z: x goes to y */
    assert_near(top->turn.m[1][0], 1, 1e-12);
    assert_int_equal(tube->shape, PARE_SHAPE_TUBE);
    assert_int_equal(tube->places, 2);
    assert_between(tube->density_kg_m3, 2650, 2800); /* aluminium and its alloys */
}

static void a_printed_cube_weighs_what_its_walls_and_infill_do(void **state)
{
    const pare_part *cube = part(state, "cu-w");
    const pare_piece *piece = &cube->piece[0];
    assert_true(piece->measured);
    assert_within(piece->mesh.volume_m3, 1e-6, 1e-9); /* 10 mm a side */
    assert_within(piece->mesh.area_m2, 6e-4, 1e-9);
    assert_near(piece->wall_m, 0.001, 1e-15);
    assert_near(piece->infill, 0.3, 1e-15);
    assert_near(piece->at_m[0].z, 0.003, 1e-15);
    /* Shell 0.6 cm3, core 0.4 cm3 at 30 %, 1.2 g/cm3. */
    assert_within(cube->mass_kg.value, 1.2e-3 * (0.6 + 0.3 * 0.4), 1e-9);
    assert_int_equal(cube->mass_kg.known, PARE_COMPUTED);
}

static void what_a_part_brings_is_read(void **state)
{
    const pare_include *joint = part(state, "fr-w")->include;
    assert_int_equal(joint->what, PARE_INCLUDES_JOINT);
    assert_string_equal(joint->name, "arm_root");
    assert_int_equal(joint->standard, PARE_ISO7380);
    assert_near(joint->thread.nominal_m, 0.003, 1e-15);
    assert_near(joint->length_m, 0.016, 1e-15);
    assert_int_equal(joint->material, PARE_STEEL);
    assert_int_equal(joint->count, 8);
    const pare_part *motor = part(state, "mo-w");
    assert_int_equal(motor->includes, 2);
    assert_near(motor->include[0].gauge, 20, 0);
    assert_near(motor->include[0].length_m, 0.12, 1e-15);
    assert_near(motor->include[0].outer_m, 0.0018, 1e-15);
    assert_int_equal(motor->include[0].count, 3);
    assert_int_equal(motor->include[1].what, PARE_INCLUDES_KIND);
    assert_int_equal(motor->include[1].kind, PARE_PROPELLER_NUT);
    assert_int_equal(motor->include[1].count, 1);
    assert_near(part(state, "pa-w")->include[0].gauge, 14, 0);
}

static void a_brief_says_air_flying_landing_limits_and_jobs(void **state)
{
    const pare_brief *brief = &weir(state)->brief;
    assert_near(brief->altitude_m, 150, 0);
    assert_true(brief->temperature_given);
    assert_near(brief->temperature_degc, 12, 0);
    assert_near(brief->sea_level_pa, 100900, 1e-9);
    assert_near(brief->pressure_pa, 0, 0);
    assert_true(brief->humidity_given);
    assert_near(brief->humidity, 0.70, 1e-15);
    assert_int_equal(brief->entries, 4);
    assert_int_equal(brief->flown[0].as, PARE_FLOWN_THRUST);
    assert_near(brief->flown[0].level, 1, 0);
    assert_near(brief->flown[0].share, 0.2, 1e-15);
    assert_int_equal(brief->flown[1].as, PARE_FLOWN_SPEED);
    assert_near(brief->flown[1].level, 14, 0);
    assert_int_equal(brief->flown[2].as, PARE_FLOWN_THRUST);
    assert_near(brief->flown[2].level, 2.5, 0);
    assert_int_equal(brief->flown[3].as, PARE_FLOWN_FULL);
    assert_near(brief->landing.cell_v, 3.55, 1e-15);
    assert_near(brief->landing.charge, 0.25, 1e-15);
    assert_near(brief->crash_speed_m_s, 12, 0);
    assert_int_equal(brief->limits, 5);
    assert_string_equal(brief->limit[0].key, "all_up");
    assert_false(brief->limit[0].at_least);
    assert_near(brief->limit[0].value, 0.6, 1e-15);
    assert_string_equal(brief->limit[2].key, "flown");
    assert_true(brief->limit[2].at_least);
    assert_near(brief->limit[2].value, 240, 1e-12);
    assert_string_equal(brief->limit[4].key, "margin");
    assert_near(brief->limit[4].value, 1.1, 1e-15);
    assert_int_equal(brief->keep, 1u << PARE_FLIES | 1u << PARE_SEES | 1u << PARE_FINDS);
    assert_near(weir(state)->drag_m2, 0.0085, 1e-15);
    assert_true(weir(state)->drag_given);
}

static void items_have_parts_places_jobs_and_chains(void **state)
{
    assert_ptr_equal(item(state, "motor")->part, part(state, "mo-w"));
    assert_int_equal(item(state, "motor")->count, 4);
    assert_int_equal(item(state, "motor")->place, PARE_AT_ARMS);
    assert_near(item(state, "propeller")->along_arm, 1, 0);
    assert_int_equal(item(state, "frame")->place, PARE_AT_DEFAULT);
    assert_near(item(state, "frame")->at_u_m, 0.020, 0);
    assert_int_equal(item(state, "brain")->place, PARE_AT_POINTS);
    assert_near(item(state, "brain")->at_m[0].z, 0.008, 1e-15);
    assert_near(item(state, "brain")->at_u_m, 0.003, 0);
    assert_int_equal(item(state, "brain")->job, PARE_FLIES);
    assert_near(item(state, "pigtail")->cut_length_m, 0.055, 1e-15);
    assert_string_equal(item(state, "pigtail")->included_in, "video");
    const pare_item *antenna = item(state, "antenna");
    assert_int_equal(antenna->feeds, 2);
    assert_string_equal(antenna->feed[1], "pigtail");
    assert_int_equal(antenna->job, PARE_FINDS);
    /* -25 deg about y lifts the x axis by sin 25. */
    assert_near(antenna->turn.m[2][0], sin(25 * 3.14159265358979323846 / 180), 1e-12);
    const pare_item *cube = item(state, "cube");
    assert_int_equal(cube->stations, 2);
    assert_near(cube->at_m[1].y, -0.005, 1e-15);
    assert_int_equal(cube->job, PARE_PROTECTS);
}

static void joints_and_runs_are_read(void **state)
{
    const pare_craft *craft = weir(state);
    const pare_joint *base = &craft->joint[pare_craft_joint(craft, "motor_base")];
    assert_int_equal(base->standard, PARE_ISO4762);
    assert_int_equal(base->material, PARE_TITANIUM);
    assert_string_equal(base->grade, "12.9");
    assert_int_equal(base->count, 16);
    assert_string_equal(base->holds, "motor");
    assert_string_equal(base->into, "6061");
    assert_near(base->engaged_m, 0.003, 1e-15);
    assert_near(base->needed_m, 0.007, 1e-15);
    assert_true(base->at_given);
    assert_near(base->at_m.z, -0.003, 1e-15);
    const pare_joint *root = &craft->joint[pare_craft_joint(craft, "arm_root")];
    assert_string_equal(root->included_in, "frame");
    assert_int_equal(root->count, 8); /* from what the frame includes */
    const pare_joint *posts = &craft->joint[pare_craft_joint(craft, "posts")];
    assert_int_equal(posts->standard, PARE_STANDOFF_HEX);
    assert_near(posts->across_m, 0.0055, 1e-15);
    assert_near(posts->tapped_m, 0.008, 1e-15);
    assert_int_equal(posts->count, 4);
    assert_true(posts->included_kg > 0);
    const pare_joint *tall = &craft->joint[pare_craft_joint(craft, "tall_posts")];
    assert_int_equal(tall->standard, PARE_STANDOFF_ROUND);
    assert_near(tall->length_m, 0.030, 1e-15);
    assert_near(tall->across_m, 0.005, 1e-15);
    assert_near(tall->tapped_m, 0.010, 1e-15);
    const pare_joint *nuts = &craft->joint[pare_craft_joint(craft, "cube_nuts")];
    assert_int_equal(nuts->standard, PARE_ISO7040);
    assert_int_equal(nuts->material, PARE_STAINLESS);
    assert_near(nuts->length_m, 0, 0);
    const pare_joint *washers = &craft->joint[pare_craft_joint(craft, "post_washers")];
    assert_int_equal(washers->standard, PARE_ISO7089);
    assert_int_equal(washers->material, PARE_NYLON);
    const pare_run *lead = &craft->run[pare_craft_run(craft, "lead")];
    assert_near(lead->gauge, 12, 0);
    assert_near(lead->outer_m, 0.0045, 1e-15);
    assert_int_equal(lead->ways, 2);
    assert_near(lead->way_m[1], 0.115, 1e-15);
    assert_int_equal(lead->times, 1);
    assert_string_equal(lead->carries, "pack");
    assert_near(lead->needed_m, 0.095, 1e-15);
    assert_near(lead->at_m.x, -0.045, 1e-15);
    const pare_run *phase = &craft->run[pare_craft_run(craft, "phase")];
    assert_near(phase->gauge, 20, 0); /* from what the motor includes */
    assert_int_equal(phase->ways, 3);
    assert_int_equal(phase->times, 4);
}

static void loadouts_and_taken_swaps_are_read(void **state)
{
    const pare_craft *craft = weir(state);
    assert_int_equal(craft->loadouts, 2);
    assert_string_equal(craft->loadout[0].name, "race");
    assert_string_equal(craft->loadout[0].off[0], "cube");
    assert_string_equal(craft->loadout[1].use[0].item, "pack");
    assert_ptr_equal(craft->loadout[1].use[0].part, part(state, "pa-w2"));
    assert_int_equal(craft->takens, 1);
    assert_string_equal(craft->taken[0].swap, "cube=off");
    assert_int_equal(craft->taken[0].brings, 1);
    assert_ptr_equal(craft->taken[0].bring[0], part(state, "pa-w2"));
    assert_near(pare_taken_promised(&craft->taken[0], "all_up_g"), -7.6, 0);
    assert_int_equal(craft->taken[0].promise[2].count, 3);
    assert_near(craft->taken[0].promise[2].value[2], -0.2, 0);
    assert_string_equal(craft->taken[0].date[PARE_STAGE_CHOSEN], "2026-04-01");
    assert_string_equal(craft->taken[0].date[PARE_STAGE_FLOWN], "2026-04-12");
    const pare_taught *taught = craft->learned;
    assert_string_equal(taught->date, "2026-05-01");
    assert_int_equal(taught->flights, 3);
    assert_true(taught->stand);
    assert_string_equal(taught->pack, "pa-w");
    assert_near(taught->change[PARE_TAUGHT_THRUST], -0.02, 0);
    assert_near(taught->root[PARE_TAUGHT_POWER][1], 0.05, 0);
    assert_near(taught->root[PARE_TAUGHT_CAPACITY][4], 0.03, 0);
}

static void a_propellers_blade_and_tunnel_are_read(void **state)
{
    const pare_part *propeller = part(state, "pr-t");
    const double degree = 3.14159265358979 / 180;
    assert_int_equal(propeller->stations, 3);
    assert_near(propeller->station[1].radius, 0.75, 1e-12);
    assert_near(propeller->station[1].chord, 0.16, 1e-12);
    assert_within(propeller->station[1].twist_rad, 14.5 * degree, 1e-9);
    /* The blade between two stations is what lies between them. */
    assert_ptr_equal(propeller->blade->constants, &pare_prop_true);
    for (size_t i = 0; i < PARE_PROP_NODES; i++)
        if (propeller->blade->radius[i] > 0.2 && propeller->blade->radius[i] < 0.75) {
            const double share = (propeller->blade->radius[i] - 0.2) / 0.55;
            assert_within(propeller->blade->chord[i], 0.15 + 0.01 * share, 1e-9);
            assert_within(propeller->blade->twist[i] - propeller->blade->lever[PARE_LEVER_TWIST],
                          (30 - 15.5 * share) * degree, 1e-9);
        }
    assert_int_equal(propeller->tunnel->rows, 3);
    assert_near(propeller->tunnel->row[0].advance, 0, 0);
    assert_within(propeller->tunnel->row[0].speed_rad_s, 4000 * 6 * degree, 1e-9);
    assert_near(propeller->tunnel->row[1].advance, 0.2, 1e-12); /* by speed, then advance */
    assert_near(propeller->tunnel->row[2].ct, 0.08, 1e-12);
    assert_near(propeller->tunnel->row[2].cp, 0.045, 1e-12);
    assert_null(part(state, "pr-w")->tunnel);
}

static void a_craft_is_lent_what_a_stand_measured_of_its_pair(void **state)
{
    const pare_craft *craft = weir(state);
    size_t found = 0;
    const pare_stand_table *table = pare_craft_stands(craft, &found);
    assert_int_equal(found, 1);
    assert_int_equal(craft->stands, 1);
    assert_string_equal(table->motor, "mo-w");
    assert_string_equal(table->propeller, "pr-w");
    assert_null(table->fault);
    assert_int_equal(table->rows, 2);
    assert_near(table->row[0].throttle, 0.5, 1e-12);
    assert_near(table->row[0].volts_v, 15.9, 1e-12);
    assert_near(table->row[0].current_a, 8.4, 1e-12);
    assert_within(table->row[0].thrust_n, 420 * 9.80665e-3, 1e-9);
    assert_within(table->row[0].speed_rad_s, 17100 * 2 * 3.14159265358979 / 60, 1e-9);
    assert_true(isnan(table->row[0].torque_nm));
    assert_near(table->row[1].throttle, 1, 1e-12);
    assert_near(table->air.temperature_degc, 20, 1e-9);
    assert_near(table->air_share_u, 0.01, 1e-12);
    /* With another propeller on, that table says nothing. */
    static pare_craft other;
    static pare_part propeller;
    pare_craft_copy(craft, &other);
    pare_item *item = &other.item[pare_craft_item(craft, "propeller")];
    propeller = *item->part;
    propeller.id = "pr-other";
    item->part = &propeller;
    assert_null(pare_craft_stands(&other, &found));
    assert_int_equal(found, 0);
}

static void a_brief_that_says_nothing_has_the_usual_landing_and_keeps_flying(void **state)
{
    (void)state;
    pare_bench *bench = bench_of_text(
        "pare: 1\nparts:\n- {id: fr, kind: frame, mass: 90 g, spec: {wheelbase: 225 mm}}\n"
        "- {id: mo, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1800}}\n"
        "- {id: pr, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}}\n"
        "- {id: es, kind: esc_four, spec: {continuous: 45 A}}\n"
        "- {id: pa, kind: pack, spec: {chemistry: lipo, cells: 4, capacity: 1300 mAh}}\n"
        "craft: [{name: c, items: {frame: {part: fr}, motor: {part: mo, count: 4, at: arms}, "
        "propeller: {part: pr, count: 4, at: arms}, esc: {part: es}, pack: {part: pa}}}]\n");
    const pare_brief *brief = &pare_bench_craft(bench, "c")->brief;
    assert_near(brief->landing.charge, 0.2, 0);
    assert_near(brief->landing.cell_v, 0, 0); /* the chemistry's own */
    assert_int_equal(brief->keep, 1u << PARE_FLIES);
    assert_false(brief->temperature_given);
    assert_int_equal(brief->entries, 0);
    assert_string_equal(bench->money, "");
    pare_bench_close(bench);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_bench_has_its_money_and_its_rows_in_order),
        cmocka_unit_test(a_part_says_what_it_is_weighs_and_costs),
        cmocka_unit_test(a_bare_quantity_is_the_makers_and_a_bare_price_is_each),
        cmocka_unit_test(specs_are_in_si),
        cmocka_unit_test(words_of_an_antenna_chain_are_read),
        cmocka_unit_test(what_a_part_does_is_more_than_its_kind),
        cmocka_unit_test(fits_are_lists_ranges_words_and_trade_sizes),
        cmocka_unit_test(a_body_is_arms_plates_shapes_and_meshes),
        cmocka_unit_test(a_printed_cube_weighs_what_its_walls_and_infill_do),
        cmocka_unit_test(what_a_part_brings_is_read),
        cmocka_unit_test(a_brief_says_air_flying_landing_limits_and_jobs),
        cmocka_unit_test(items_have_parts_places_jobs_and_chains),
        cmocka_unit_test(joints_and_runs_are_read),
        cmocka_unit_test(loadouts_and_taken_swaps_are_read),
        cmocka_unit_test(a_propellers_blade_and_tunnel_are_read),
        cmocka_unit_test(a_craft_is_lent_what_a_stand_measured_of_its_pair),
        cmocka_unit_test(a_brief_that_says_nothing_has_the_usual_landing_and_keeps_flying),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
