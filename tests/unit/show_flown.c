/* rooms: show store advise craft physics base */
/* What is said of flights and of what is learned from them, of swaps taken, of what to buy and of printed parts,
 * in each state that these can be in. The truth is what the numbers put in here say. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "changed_lines.h"
#include "craft_fixture.h"
#include "near.h"
#include "physics/material.h"
#include "show/learned.h"
#include "show/printed.h"
#include "show/shopping.h"
#include "show/take.h"

enum { FLIGHTS = 2 };

typedef struct states {
    fixture *f;
    pare_learned_all all;
    pare_learned_pack pack[2];
    pare_learned_flight flight[FLIGHTS];
    pare_flight_record record[FLIGHTS];
    pare_flight_log log;
    pare_charged charged[2];
    pare_part part;
    pare_piece piece;
    pare_hover_score score;
    pare_shopping shopping;
    pare_take_view take;
    pare_taken *taken;
    pare_promised promise[4];
    const pare_part *bring[2];
    pare_answers answers[2];
    pare_checklist work;
    bool shown[PARE_TAKENS];
    const char *money;
    pare_screen screen;
} states;

static void close_states(states *s)
{
    void *state = s->f;
    fixture_close(&state);
    free(s);
}

static states *open_states(void)
{
    states *s = calloc(1, sizeof *s);
    assert_non_null(s);
    s->f = fixture_open("every-key.yaml", "weir-5");
    fixture_sheet(s->f, true);
    s->screen = (pare_screen){.width = 80};
    s->part = *s->f->craft->item[pare_craft_item(s->f->craft, "pack")].part;
    s->part.chargings = 0;
    for (size_t i = 0; i < FLIGHTS; i++) {
        s->pack[i] = (pare_learned_pack){.pack = &s->part,
                                         .flights = 1,
                                         .stated_c = 4680,
                                         .holds_c = 4500,
                                         .holds_u_c = 90,
                                         .first = "2026-04-01",
                                         .last = "2026-04-01",
                                         .held_c = 4600,
                                         .held_u_c = 90,
                                         .fade = 0.01,
                                         .fade_u = 0.02,
                                         .logged_ohm = (double)NAN,
                                         .enough_until = (double)NAN};
        s->record[i] = (pare_flight_record){
            .date = i ? "2026-04-09" : "2026-04-01", .put_back_c = 3600, .rest_after_v = 14.8};
        s->flight[i] = (pare_learned_flight){.record = &s->record[i],
                                             .said_c = 3600,
                                             .expected_c = 3500,
                                             .off_c = 0.5,
                                             .said_rest_v = 14.8,
                                             .expected_rest_v = 14.7,
                                             .off_rest = 0.2,
                                             .log_output = (double)NAN,
                                             .left_out = 0.02,
                                             .fits = true};
    }
    s->all = (pare_learned_all){.packs = 1,
                                .flights = FLIGHTS,
                                .used = 2,
                                .pack = s->pack,
                                .flight = s->flight,
                                .chi2 = 3,
                                .degrees = 4,
                                .bound = 2.5,
                                .left_out_rms = 0.04,
                                .flown_s = 240,
                                .flown_u_s = 30,
                                .learned_s = 230,
                                .learned_u_s = 12};
    s->all.factor[PARE_LEARNED_THRUST] =
        (pare_learned_factor){.prior_u = 0.07, .change = 0.02, .change_u = 0.03};
    for (int t = 0; t < PARE_LEARNED_TESTS; t++)
        s->all.test[t].flown_u_s = (double)NAN;
    s->all.test[0] = (pare_learned_test){.what = "hover a pack down",
                                         .flown_u_s = 6,
                                         .shrinks = "propeller thrust",
                                         .from_u = 0.07,
                                         .to_u = 0.02};
    s->shopping = (pare_shopping){.parts = 1, .sellers = 1, .money = 42.5, .priced = true};
    s->shopping.part[0] = (pare_shop_part){.part = &s->part, .needed = 1, .sets = 1, .money = 42.5};
    s->shopping.seller[0] = (pare_shop_seller){.name = "Harbour Bench", .parts = 1};
    s->part.price.sold_in = 1;
    s->money = "EUR";
    s->taken = s->f->craft->taken;
    s->f->craft->takens = 1;
    s->taken[0] = (pare_taken){.swap = "cube=off", .date = {"2026-04-01"}};
    s->shown[0] = true;
    s->take = (pare_take_view){.first = s->f->craft,
                               .built = s->f->sheet,
                               .answers = s->answers,
                               .shown = s->shown,
                               .checklist = &s->work,
                               .money = "EUR"};
    s->piece = (pare_piece){.form = PARE_FORM_MESH,
                            .measured = true,
                            .density_kg_m3 = 1210,
                            .wall_m = 0.001,
                            .infill = 0.3};
    s->piece.mesh.volume_m3 = 8e-6;
    s->piece.mesh.area_m2 = 24e-4;
    return s;
}

static void put_json(json_t *object, pare_text *out)
{
    char *text = json_dumps(object, JSON_COMPACT | JSON_SORT_KEYS | JSON_ENCODE_ANY |
                                        JSON_REAL_PRECISION(6));
    if (object)
        assert_non_null(text);
    pare_text_add(out, text ? text : "none");
    free(text);
    json_decref(object);
}

static void say_learned(const states *s, pare_text *out)
{
    pare_learned_text(s->f->craft, &s->all, s->f->sheet, s->score, &s->screen, out);
}

static void say_learned_json(const states *s, pare_text *out)
{
    put_json(pare_learned_object(s->f->craft, &s->all, s->f->sheet, s->score), out);
}

static void say_shopping(const states *s, pare_text *out)
{
    pare_shopping_text(&s->shopping, s->money, &s->screen, out);
}

static void say_shopping_json(const states *s, pare_text *out)
{
    put_json(pare_shopping_object(&s->shopping, s->money), out);
    put_json(pare_cutting_object(&s->shopping), out);
}

static void say_take(const states *s, pare_text *out)
{
    pare_take_text(&s->take, &s->screen, out);
}

static void say_take_json(const states *s, pare_text *out)
{
    put_json(pare_take_object(&s->take), out);
}

static void say_printed(const states *s, pare_text *out)
{
    const pare_part part = {.id = "cube",
                            .kind = PARE_PRINTED,
                            .pieces = 1,
                            .piece = &s->piece,
                            .material = s->part.material};
    pare_printed_text(&part, &s->screen, out);
    put_json(pare_printed_json(&part), out);
}

/* The sheet of another kind of craft: what a hover is foretold by is not there. */
static void drop(states *s, pare_figure figure)
{
    s->f->sheet->figure[figure].exists = false;
}

typedef struct state_case {
    void (*make)(states *s);
    const char *answer;
} state_case;

static void expect(size_t count, const state_case cases[], void (*say)(const states *, pare_text *))
{
    pare_text base = {0};
    states *first = open_states();
    say(first, &base);
    close_states(first);
    for (size_t i = 0; i < count; i++) {
        states *s = open_states();
        pare_text whole = {0}, text = {0};
        cases[i].make(s);
        say(s, &whole);
        say_changes(base.bytes ? base.bytes : "", whole.bytes ? whole.bytes : "", i == 0, &text);
        assert_false(whole.failed || text.failed);
        const char *answer = text.bytes ? text.bytes : "";

        if (strcmp(answer, cases[i].answer) != 0)
            fail_msg("case %zu says\n%s\nand not\n%s", i, answer, cases[i].answer);
        pare_text_free(&whole);
        pare_text_free(&text);
        close_states(s);
    }
    pare_text_free(&base);
}

static void case_0(states *s)
{
    (void)s;
    (void)0;
}

static void case_1(states *s)
{
    s->all.flights = 0;
    s->all.used = 0;
    s->all.packs = 0;
    s->all.degrees = 0;
}

static void case_2(states *s)
{
    s->all.flights = 1;
}

static void case_3(states *s)
{
    s->all.flown_s = (double)NAN;
    s->all.left_out_rms = (double)NAN;
}

static void case_4(states *s)
{
    (void)s;
    drop(s, PARE_HOVER_A);
}

static void case_5(states *s)
{
    (void)s;
    drop(s, PARE_HOVER_OUTPUT);
}

static void case_6(states *s)
{
    s->score = (pare_hover_score){.made = 1, .held = 1};
}

static void case_7(states *s)
{
    s->score = (pare_hover_score){.made = 3, .held = 2};
}

static void case_8(states *s)
{
    s->all.correlation[0][1] = -0.8;
    s->all.correlation[0][2] = 0.6;
}

static void case_9(states *s)
{
    s->all.logs = 1;
    s->all.factor[PARE_LEARNED_CURRENT_SENSOR] =
        (pare_learned_factor){.prior_u = 0.05, .change = -0.02, .change_u = 0.01};
    s->all.factor[PARE_LEARNED_ESC] =
        (pare_learned_factor){.prior_u = 0.2, .change = 0.1, .change_u = 0.1};
}

static void case_10(states *s)
{
    s->all.packs = 2;
    s->pack[1].which = 2;
    s->flight[1].pack = 1;
}

static void case_11(states *s)
{
    s->pack[0].fade = 0.09;
}

static void case_12(states *s)
{
    s->pack[0].fade = 0.09;
    s->pack[0].enough_until = 20600;
}

static void case_13(states *s)
{
    s->pack[0].fade = 0.09;
    s->pack[0].enough_until = 2e6;
}

static void case_14(states *s)
{
    s->all.packs = 2;
    s->pack[1].which = 2;
    s->flight[1].pack = 1;
    s->pack[1].fade = 0.2;
    s->pack[1].fade_u = 0.01;
    s->pack[1].enough_until = 20650;
}

static void case_15(states *s)
{
    s->pack[0].last = "2026-04-09";
}

static void case_16(states *s)
{
    s->pack[0].last = "2026-04-09";
    s->pack[0].charged = 1;
    s->pack[0].ohm = 0.005;
    s->pack[0].ohm_u = 0.0004;
}

static void case_17(states *s)
{
    s->pack[0].charged = 3;
    s->pack[0].ohm = 0.005;
    s->pack[0].growth = 0.02;
    s->pack[0].growth_u = 0.01;
}

static void case_18(states *s)
{
    s->pack[0].logged_ohm = 0.006;
    s->pack[0].logged_ohm_u = 0.0004;
}

static void case_19(states *s)
{
    s->pack[0].last = "2026-04-09";
    s->pack[0].logged_ohm = 0.006;
}

static void case_20(states *s)
{
    s->pack[0].charged = 2;
    s->pack[0].ohm = 0.005;
    s->pack[0].logged_ohm = 0.006;
}

static void case_21(states *s)
{
    s->pack[0].first = NULL;
}

static void case_22(states *s)
{
    s->flight[0].why = "no charge is said";
}

static void case_23(states *s)
{
    s->record[0].output = 0.31;
    s->flight[0].why = "no charge is said";
}

static void case_24(states *s)
{
    s->record[0].output = 0.31;
    s->record[0].promised = true;
    s->record[0].low = 0.28;
    s->record[0].high = 0.33;
}

static void case_25(states *s)
{
    s->record[0].output = 0.31;
    s->record[0].promised = true;
    s->record[0].low = 0.32;
    s->record[0].high = 0.33;
}

static void case_26(states *s)
{
    s->record[0].output = 0.34;
    s->record[0].promised = true;
    s->record[0].low = 0.32;
    s->record[0].high = 0.33;
}

static void case_27(states *s)
{
    s->flight[0].expected_c = 0;
    s->flight[0].expected_rest_v = 0;
}

static void case_28(states *s)
{
    s->flight[0].fits = false;
    s->flight[0].off_c = 4;
}

static void case_29(states *s)
{
    s->flight[0].fits = false;
    s->flight[0].off_c = -4;
}

static void case_30(states *s)
{
    s->flight[0].fits = false;
    s->flight[0].off_rest = 4;
}

static void case_31(states *s)
{
    s->flight[0].fits = false;
    s->flight[0].off_rest = -4;
}

static void case_32(states *s)
{
    s->record[0].log = &s->log;
    s->all.logs = 1;
    s->flight[0].log_about = "volts under load";
}

static void case_33(states *s)
{
    s->record[0].log = &s->log;
    s->all.logs = 1;
    s->flight[0].log_about = "volts under load";
    s->flight[0].log_output = 0.4;
}

static void case_34(states *s)
{
    s->record[0].log = &s->log;
    s->all.logs = 1;
    s->flight[0].log_about = "volts under load";
    s->flight[0].log_output = 0.4;
    s->record[0].output = 0.31;
}

static void case_35(states *s)
{
    s->record[0].log = &s->log;
    s->all.logs = 1;
    s->flight[0].log_about = "volts under load";
    s->flight[0].log_aside = true;
    s->flight[0].off_log = -3;
}

static void case_36(states *s)
{
    s->record[0].log = &s->log;
    s->all.logs = 1;
    s->flight[0].log_about = "volts under load";
    s->flight[0].log_aside = true;
    s->flight[0].off_log = 3;
    s->flight[0].fits = false;
}

static void case_37(states *s)
{
    s->all.test[0].what = NULL;
}

static void case_38(states *s)
{
    s->all.test[0].flown_u_s = 11.9;
    s->screen.utf8 = true;
}

static void case_39(states *s)
{
    s->all.test[0].to_u = 0.069;
}

static void case_40(states *s)
{
    s->all.test[1] = s->all.test[0];
    s->all.test[1].pack = &s->pack[0];
    s->all.test[1].shrinks = "capacity";
    s->pack[0].which = 2;
}

static void case_41(states *s)
{
    s->all.packs = 2;
    s->pack[1].which = 2;
    s->flight[1].pack = 1;
    s->record[0].log = &s->log;
    s->all.logs = 1;
    s->flight[0].log_about = "volts under load";
    s->flight[0].log_output = 0.4;
    s->pack[0].charged = 2;
    s->pack[0].ohm = 0.005;
    s->pack[0].logged_ohm = 0.006;
    s->pack[0].enough_until = 20600;
    s->all.test[0].pack = &s->pack[1];
}

static void case_42(states *s)
{
    s->record[0].output = 0.31;
    s->record[0].promised = true;
    s->record[0].low = 0.32;
    s->record[0].high = 0.33;
    s->record[1].output = 0.3;
    s->pack[0].enough_until = 2e6;
    s->pack[0].charged = 1;
    s->all.test[0].pack = &s->pack[0];
}

static void case_43(states *s)
{
    s->record[0].output = 0.34;
    s->record[0].promised = true;
    s->record[0].low = 0.32;
    s->record[0].high = 0.33;
    s->flight[1].expected_c = 0;
    s->flight[1].expected_rest_v = 0;
    s->all.test[0].what = NULL;
    drop(s, PARE_HOVER_A);
}

static void case_44(states *s)
{
    s->record[0].log = &s->log;
    s->all.logs = 1;
    s->flight[0].log_about = "volts under load";
    s->flight[0].log_aside = true;
    s->all.test[0].shrinks = NULL;
    s->part.chargings = 2;
    s->part.charged = s->charged;
    s->charged[0] = (pare_charged){.which = 1, .date = "2026-04-02"};
    s->charged[0].group.ohm = 0.005;
    s->charged[1] = (pare_charged){.which = 2, .date = "2026-04-02"};
}

static void case_45(states *s)
{
    s->part.chargings = 2;
    s->part.charged = s->charged;
    s->charged[0] = (pare_charged){.which = 1};
    s->charged[1] = (pare_charged){.which = 1, .date = "2026-04-02"};
}

static void case_46(states *s)
{
    (void)s;
    (void)0;
}

static void case_47(states *s)
{
    s->money = NULL;
}

static void case_48(states *s)
{
    s->money = "";
}

static void case_49(states *s)
{
    s->shopping.priced = false;
    s->shopping.part[0].money = (double)NAN;
}

static void case_50(states *s)
{
    s->shopping.priced = false;
    s->shopping.money = 0;
    s->shopping.part[0].money = (double)NAN;
    s->shopping.seller[0].name = NULL;
}

static void case_51(states *s)
{
    s->shopping.money = 0;
    s->shopping.part[0].sets = 0;
    s->shopping.part[0].spare = 1;
}

static void case_52(states *s)
{
    s->shopping.part[0].sets = 0;
    s->shopping.part[0].coming = 2;
}

static void case_53(states *s)
{
    s->shopping.part[0].spare = 1;
    s->shopping.part[0].coming = 1;
    s->part.maker = NULL;
    s->shopping.seller[0].shipping = 4.2;
}

static void case_54(states *s)
{
    s->part.price.sold_in = 4;
    s->part.maker = "Dunnock";
}

static void case_55(states *s)
{
    s->part.price.sold_in = 4;
    s->shopping.part[0].sets = 2;
}

static void case_56(states *s)
{
    s->shopping.screws = 1;
    s->shopping.screw[0] = (pare_shop_screws){.standard = PARE_ISO4762,
                                              .material = PARE_TITANIUM,
                                              .nominal_m = 0.003,
                                              .length_m = 0.008,
                                              .needed = 12,
                                              .bags = 2,
                                              .money = 9};
}

static void case_57(states *s)
{
    s->shopping.screws = 1;
    s->shopping.screw[0] = (pare_shop_screws){.standard = PARE_ISO4762,
                                              .material = PARE_TITANIUM,
                                              .nominal_m = 0.003,
                                              .length_m = 0.008,
                                              .needed = 12,
                                              .bags = 2,
                                              .money = 9};
    s->shopping.wires = 1;
    s->shopping.wire[0] = (pare_shop_wire){.gauge = 14, .needed_m = 0.42, .metres = 1, .money = 3};
}

static void case_58(states *s)
{
    s->shopping.wires = 1;
    s->shopping.wire[0] = (pare_shop_wire){.gauge = 14, .needed_m = 0.42, .metres = 1, .money = 3};
}

static void case_59(states *s)
{
    s->shopping.screws = 1;
    s->shopping.screw[0] = (pare_shop_screws){.standard = PARE_ISO4762,
                                              .material = PARE_TITANIUM,
                                              .nominal_m = 0.003,
                                              .length_m = 0.008,
                                              .needed = 12,
                                              .bags = 2,
                                              .money = 9};
    s->shopping.screw[0].bags = 1;
    s->shopping.screw[0].standard = PARE_ISO4032;
}

static void case_60(states *s)
{
    s->shopping.screws = 1;
    s->shopping.screw[0] = (pare_shop_screws){.standard = PARE_ISO4762,
                                              .material = PARE_TITANIUM,
                                              .nominal_m = 0.003,
                                              .length_m = 0.008,
                                              .needed = 12,
                                              .bags = 2,
                                              .money = 9};
    s->shopping.screw[0].bags = 0;
    s->shopping.screw[0].coming = 12;
}

static void case_61(states *s)
{
    s->shopping.wires = 1;
    s->shopping.wire[0] = (pare_shop_wire){.gauge = 14, .needed_m = 0.42, .metres = 1, .money = 3};
    s->shopping.wire[0].metres = 0;
    s->shopping.wire[0].coming_m = 0.5;
}

static void case_62(states *s)
{
    s->shopping.screws = 1;
    s->shopping.screw[0] = (pare_shop_screws){.standard = PARE_ISO4762,
                                              .material = PARE_TITANIUM,
                                              .nominal_m = 0.003,
                                              .length_m = 0.008,
                                              .needed = 12,
                                              .bags = 2,
                                              .money = 9};
    s->shopping.wires = 1;
    s->shopping.wire[0] = (pare_shop_wire){.gauge = 14, .needed_m = 0.42, .metres = 1, .money = 3};
    s->shopping.screws = 2;
    s->shopping.wires = 2;
    s->shopping.screw[1] = s->shopping.screw[0];
    s->shopping.screw[1].bags = 0;
    s->shopping.wire[1] = s->shopping.wire[0];
    s->shopping.wire[1].metres = 0;
    s->shopping.part[0].sets = 0;
    s->shopping.part[0].coming = 1;
    s->shopping.part[0].spare = 1;
    s->shopping.parts = 2;
    s->shopping.part[1] = s->shopping.part[0];
}

static void case_63(states *s)
{
    s->shopping.parts = 0;
    s->shopping.cuts = 1;
    s->shopping.cut[0] = (pare_cut){.of = PARE_CUT_WIRE,
                                    .name = "lead",
                                    .count = 2,
                                    .length_m = 0.11,
                                    .gauge = 14,
                                    .part = &s->part,
                                    .standard = PARE_ISO4762,
                                    .nominal_m = 0.003};
}

static void case_64(states *s)
{
    s->shopping.parts = 0;
    s->shopping.cuts = 1;
    s->shopping.cut[0] = (pare_cut){.of = PARE_CUT_WIRE,
                                    .name = "lead",
                                    .count = 2,
                                    .length_m = 0.11,
                                    .gauge = 14,
                                    .part = &s->part,
                                    .standard = PARE_ISO4762,
                                    .nominal_m = 0.003};
    s->shopping.cut[0].of = PARE_CUT_COAX;
}

static void case_65(states *s)
{
    s->shopping.parts = 0;
    s->shopping.cuts = 1;
    s->shopping.cut[0] = (pare_cut){.of = PARE_CUT_WIRE,
                                    .name = "lead",
                                    .count = 2,
                                    .length_m = 0.11,
                                    .gauge = 14,
                                    .part = &s->part,
                                    .standard = PARE_ISO4762,
                                    .nominal_m = 0.003};
    s->shopping.cut[0].of = PARE_CUT_SCREWS;
    s->shopping.cut[0].was_m = 0.012;
}

static void case_66(states *s)
{
    s->shopping.parts = 0;
}

static void case_67(states *s)
{
    s->shopping.screws = 1;
    s->shopping.screw[0] = (pare_shop_screws){.standard = PARE_ISO4762,
                                              .material = PARE_TITANIUM,
                                              .nominal_m = 0.003,
                                              .length_m = 0.008,
                                              .needed = 12,
                                              .bags = 2,
                                              .money = 9};
    s->shopping.wires = 1;
    s->shopping.wire[0] = (pare_shop_wire){.gauge = 14, .needed_m = 0.42, .metres = 1, .money = 3};
    s->shopping.cuts = 3;
    s->shopping.cut[0] =
        (pare_cut){.of = PARE_CUT_WIRE, .name = "lead", .count = 2, .length_m = 0.11, .gauge = 14};
    s->shopping.cut[1] = (pare_cut){
        .of = PARE_CUT_COAX, .name = "pigtail", .count = 1, .length_m = 0.05, .part = &s->part};
    s->shopping.cut[2] = (pare_cut){.of = PARE_CUT_SCREWS,
                                    .name = "motor_base",
                                    .count = 8,
                                    .length_m = 0.006,
                                    .was_m = 0.008,
                                    .standard = PARE_ISO4762,
                                    .nominal_m = 0.003};
}

static void case_68(states *s)
{
    s->shopping.screws = 1;
    s->shopping.screw[0] = (pare_shop_screws){.standard = PARE_ISO4762,
                                              .material = PARE_TITANIUM,
                                              .nominal_m = 0.003,
                                              .length_m = 0.008,
                                              .needed = 12,
                                              .bags = 2,
                                              .money = 9};
    s->money = NULL;
    s->shopping.screw[0].standard = PARE_ISO4032;
    s->shopping.priced = false;
    s->shopping.part[0].money = (double)NAN;
    s->shopping.seller[0].name = NULL;
    s->part.price.given = false;
    s->shopping.cuts = 1;
    s->shopping.cut[0] = (pare_cut){.of = PARE_CUT_SCREWS,
                                    .name = "nuts",
                                    .count = 2,
                                    .standard = PARE_ISO4032,
                                    .nominal_m = 0.005};
}

static void case_69(states *s)
{
    (void)s;
    (void)0;
}

static void case_70(states *s)
{
    s->answers[0].mass = (pare_answer){.there = true,
                                       .swaps = 1,
                                       .before = 1,
                                       .since = 1,
                                       .promised = -0.0076,
                                       .promised_u = 0.0005,
                                       .measured = -0.0084,
                                       .measured_u = 0.0004,
                                       .real = 0.97};
}

static void case_71(states *s)
{
    s->answers[0].mass = (pare_answer){.there = true,
                                       .swaps = 1,
                                       .before = 1,
                                       .since = 1,
                                       .promised = -0.0076,
                                       .promised_u = 0.0005,
                                       .measured = -0.0084,
                                       .measured_u = 0.0004,
                                       .real = 0.97};
    s->answers[0].mass.swaps = 2;
    s->answers[0].mass.real = 0.999;
}

static void case_72(states *s)
{
    s->answers[0].mass = (pare_answer){.there = true,
                                       .swaps = 1,
                                       .before = 1,
                                       .since = 1,
                                       .promised = -0.0076,
                                       .promised_u = 0.0005,
                                       .measured = -0.0084,
                                       .measured_u = 0.0004,
                                       .real = 0.97};
    s->answers[0].mass.real = 0.001;
    s->answers[0].mass.measured = 0.001;
    s->answers[0].mass.promised = 0.002;
}

static void case_73(states *s)
{
    s->shown[0] = false;
}

static void case_74(states *s)
{
    s->take.facts.chosen = 1;
    strcpy(s->take.facts.why, "the pack does not fit");
}

static void case_75(states *s)
{
    s->take.facts.ordered = 1;
    s->take.facts.planned = true;
    s->take.facts.planned_kg = 0.43;
    s->take.facts.planned_u_kg = 0.002;
}

static void case_76(states *s)
{
    s->taken[0].brings = 2;
    s->taken[0].bring = s->bring;
    s->bring[0] = s->bring[1] = &s->part;
}

static void case_77(states *s)
{
    s->taken[0].promise = s->promise;
    s->taken[0].promises = 2;
    s->promise[0] = (pare_promised){.key = "all_up_g", .count = 1, .value = {-7.6}};
    s->promise[1] = (pare_promised){.key = "flown_min", .count = 1, .value = {0.1}};
}

static void case_78(states *s)
{
    s->taken[0].promise = s->promise;
    s->taken[0].promises = 2;
    s->promise[0] = (pare_promised){.key = "all_up_g", .count = 1, .value = {7.6}};
    s->promise[1] = (pare_promised){.key = "all_up_g_u", .count = 1, .value = {0.5}};
}

static void case_79(states *s)
{
    s->take.shopping = &s->shopping;
}

static void case_80(states *s)
{
    s->work.swaps = 1;
    s->work.firsts = 1;
    s->work.first[0] = "Pack off.";
    s->work.checks = 1;
    s->work.check[0] = "Spin each motor.";
}

static void case_81(states *s)
{
    s->work.swaps = 1;
    s->work.firsts = 1;
    s->work.first[0] = "Pack off.";
    s->work.checks = 1;
    s->work.check[0] = "Spin each motor.";
    s->work.work = true;
    s->work.minutes = 12.5;
}

static void case_82(states *s)
{
    s->work.swaps = 1;
    s->work.firsts = 1;
    s->work.first[0] = "Pack off.";
    s->work.checks = 1;
    s->work.check[0] = "Spin each motor.";
    s->work.work = true;
    s->work.solder_joints = 1;
    s->work.group[0].steps = 1;
    s->work.group[0].step[0] = "cut";
    s->work.group[0].solder_joints = 1;
    s->work.group[0].tools = 2;
    s->work.group[0].tool[0] = "a knife";
    s->work.group[0].tool[1] = "an iron";
    s->screen.utf8 = true;
}

static void case_83(states *s)
{
    s->work.swaps = 1;
    s->work.firsts = 1;
    s->work.first[0] = "Pack off.";
    s->work.checks = 1;
    s->work.check[0] = "Spin each motor.";
    s->work.work = true;
    s->work.solder_joints = 4;
    s->work.group[1].steps = 1;
    s->work.group[1].step[0] = "solder";
    s->work.group[1].solder_joints = 4;
}

static void case_84(states *s)
{
    s->answers[0].mass = (pare_answer){.there = true,
                                       .swaps = 1,
                                       .before = 1,
                                       .since = 1,
                                       .promised = -0.0076,
                                       .promised_u = 0.0005,
                                       .measured = -0.0084,
                                       .measured_u = 0.0004,
                                       .real = 0.97};
    s->take.facts.chosen = 1;
    strcpy(s->take.facts.why, "the pack does not fit");
    s->take.shopping = &s->shopping;
}

static void case_85(states *s)
{
    s->shown[0] = false;
    s->take.facts.planned = true;
    s->take.facts.planned_kg = 0.43;
}

static void case_86(states *s)
{
    s->part.material = NULL;
}

static void case_87(states *s)
{
    s->part.material = NULL;
    s->piece.density_kg_m3 = 3000;
}

static void case_88(states *s)
{
    s->part.material = "nylon";
}

static void case_89(states *s)
{
    s->piece.material = pare_material_named("carbon");
}

static void case_90(states *s)
{
    s->piece.measured = false;
}

static void case_91(states *s)
{
    s->piece.form = PARE_FORM_SHAPE;
}

static void case_92(states *s)
{
    s->piece.density_kg_m3 = 0;
}

static void case_93(states *s)
{
    s->part.material = "tpu";
    s->piece.density_kg_m3 = 1240;
}

static void flights_and_what_they_teach(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_0,
         "weir-5: 2 flights, 2026-04-01 to 2026-04-09\nYour minutes: 4.0 +- 0.5 thought, 3.8 +- "
         "0.2 learned.\nHalf a pack down it will hover at 31 to 38 % output and 6.5 to 7.8 A, nine "
         "times\nin ten.\n\nWhat it rests on, against what was thought\n                      "
         "thought         learned         moved\n  propeller thrust    1.00 +- 0.07    1.02 +- "
         "0.03    +0.3 u\n\nPacks\n                            flights  holds now, mAh      of "
         "said  fades in 30 days\n  pa-w                      1        1250 +- 30          96 %    "
         " 1 +- 2 %\n\nFlights, what they said and what was to be expected\n                       "
         "                 mAh   expected    rest V   expected\n  2026-04-01  pa-w                 "
         "    1000        972     14.80      14.70\n  2026-04-09  pa-w                     1000    "
         "    972     14.80      14.70\n\nChi-square 3.0 for 4 readings, where about as many are "
         "expected.\nEach flight foretold by all others: its charge is off by 4 %.\n\nWhat to fly "
         "next, and how well your minutes are known then; now +- 0.20 min\n  +- 0.10 min  hover a "
         "pack down; propeller thrust +- 7 to 2 %\nFly tests where nobody is under or near them, "
         "within sight and by local rules.\n"},
        {case_1, "weir-5: no flights yet\n(8 lines)"},
        {case_2, "weir-5: 1 flight, 2026-04-01 to 2026-04-01\n(23 lines)"},
        {case_3, "(19 lines)"},
        {case_4, "(22 lines)"},
        {case_5, "(22 lines)"},
        {case_6,
         "1 promise of hover output over all craft, 1 held; nine of ten should.\n(25 lines)"},
        {case_7,
         "3 promises of hover output over all craft, 2 held; nine of ten should.\n(25 lines)"},
        {case_8, "The flights tell propeller thrust and propeller power apart badly: "
                 "correlation\n-0.80.\n(26 lines)"},
        {case_9,
         "  ESC loss            1.0 +- 0.2      1.1 +- 0.1      +0.5 u\n  current sensor      1.00 "
         "+- 0.05    0.98 +- 0.01    -0.4 u\nlog: its charge and output as the log has them, of "
         "what was flown as it says; of\nthe charge, less what its sensor is off by.\n(28 lines)"},
        {case_10,
         "  pa-w, number 2            1        1250 +- 30          96 %     1 +- 2 %\n  2026-04-09 "
         " pa-w, number 2           1000        972     14.80      14.70\n(25 lines)"},
        {case_11,
         "  pa-w                      1        1250 +- 30          96 %     9 +- 2 %\npa-w is "
         "dying: it loses 9 % in 30 days. A pack that is swollen, hot or far\nbehind its mates is "
         "not charged again: have it recycled as local rules say.\n(26 lines)"},
        {case_12, "  pa-w                      1        1250 +- 30          96 %     9 +- 2 "
                  "%\npa-w is dying: it loses 9 % in 30 days. By that it no longer gives your "
                  "minutes\nfrom 2026-05-27. A pack that is swollen, hot or far behind its mates "
                  "is not\ncharged again: have it recycled as local rules say.\n(27 lines)"},
        {case_13,
         "  pa-w                      1        1250 +- 30          96 %     9 +- 2 %\npa-w is "
         "dying: it loses 9 % in 30 days. A pack that is swollen, hot or far\nbehind its mates is "
         "not charged again: have it recycled as local rules say.\n(26 lines)"},
        {case_14,
         "  pa-w, number 2            1        1250 +- 30          96 %     20 +- 1 %\npa-w, "
         "number 2 is dying: it loses 20 % in 30 days. By that it no longer gives\nyour minutes "
         "from 2026-07-16. A pack that is swollen, hot or far behind its\nmates is not charged "
         "again: have it recycled as local rules say.\n  2026-04-09  pa-w, number 2           1000 "
         "       972     14.80      14.70\n(28 lines)"},
        {case_15, "pa-w: held 1280 +- 30 mAh on 2026-04-01.\n(25 lines)"},
        {case_16, "pa-w: held 1280 +- 30 mAh on 2026-04-01; 5.0 +- 0.4 mohm a cell by its "
                  "charger,\nread once: a second reading tells how it ages.\n(26 lines)"},
        {case_17, "pa-w: 5.00 mohm a cell by its charger, 2 +- 1 % more every 30 days, by "
                  "3\nreadings.\n(26 lines)"},
        {case_18, "pa-w: 6.0 +- 0.4 mohm a cell by its logs.\n(25 lines)"},
        {case_19,
         "pa-w: held 1280 +- 30 mAh on 2026-04-01; 6.00 mohm a cell by its logs.\n(25 lines)"},
        {case_20, "pa-w: 5.00 mohm a cell by its charger, 0 % more every 30 days, by 2 "
                  "readings;\n6.00 mohm a cell by its logs.\n(26 lines)"},
        {case_21, "as usual"},
        {case_22, "  2026-04-01  tells nothing: no charge is said\n(24 lines)"},
        {case_23, "  2026-04-01  hovered at 31 % output\n(24 lines)"},
        {case_24, "    hovered at 31 % output, promised 28 to 33 %, held\n(25 lines)"},
        {case_25, "    hovered at 31 % output, promised 32 to 33 %, missed\n(25 lines)"},
        {case_26, "    hovered at 34 % output, promised 32 to 33 %, missed\n(25 lines)"},
        {case_27, "  2026-04-01  pa-w                     1000          -\n(24 lines)"},
        {case_28,
         "    took more charge than all other flights say, by 4.0 u where 2.5 is chance:\n    "
         "flown otherwise than it says, or another pack. Nothing is learned from it\n(26 lines)"},
        {case_29,
         "    took less charge than all other flights say, by 4.0 u where 2.5 is chance:\n    "
         "flown otherwise than it says, or another pack. Nothing is learned from it\n(26 lines)"},
        {case_30,
         "    came to rest higher than all other flights say, by 4.0 u where 2.5 is\n    chance: "
         "another pack, or a volt misread. Nothing is learned from it\n(26 lines)"},
        {case_31,
         "    came to rest lower than all other flights say, by 4.0 u where 2.5 is chance:\n    "
         "another pack, or a volt misread. Nothing is learned from it\n(26 lines)"},
        {case_32, "  2026-04-01  pa-w                     1000        972     14.80      14.70  "
                  "log\nlog: its charge and output as the log has them, of what was flown as it "
                  "says; of\nthe charge, less what its sensor is off by.\n(26 lines)"},
        {case_33,
         "  2026-04-01  pa-w                     1000        972     14.80      14.70  log\n    "
         "its log: 40 % output\nlog: its charge and output as the log has them, of what was flown "
         "as it says; of\nthe charge, less what its sensor is off by.\n(27 lines)"},
        {case_34,
         "  2026-04-01  pa-w                     1000        972     14.80      14.70  log\n    "
         "hovered at 31 % output\nlog: its charge and output as the log has them, of what was "
         "flown as it says; of\nthe charge, less what its sensor is off by.\n(27 lines)"},
        {case_35, "  2026-04-01  pa-w                     1000        972     14.80      14.70  "
                  "log\n    its log does not fit: volts under load, off by 3.0 u where 2.5 is "
                  "chance.\n    Nothing is learned from the log, only from what was written "
                  "down\nlog: its charge and output as the log has them, of what was flown as it "
                  "says; of\nthe charge, less what its sensor is off by.\n(28 lines)"},
        {case_36,
         "  2026-04-01  pa-w                     1000        972     14.80      14.70  log\n    "
         "its log does not fit: volts under load, off by 3.0 u where 2.5 is chance.\n    Nothing "
         "is learned from the log\nlog: its charge and output as the log has them, of what was "
         "flown as it says; of\nthe charge, less what its sensor is off by.\n(28 lines)"},
        {case_37, "(21 lines)"},
        {case_38,
         "Your minutes: 4.0 \xC2\xB1 0.5 thought, 3.8 \xC2\xB1 0.2 learned.\n  propeller thrust    "
         "1.00 \xC2\xB1 0.07     1.02 \xC2\xB1 0.03     +0.3 u\n  pa-w                      1      "
         "  1250 \xC2\xB1 30           96 %     1 \xC2\xB1 2 %\nWhat to fly next, and how well "
         "your minutes are known then; now \xC2\xB1 0.20 min\nNone of them makes them much surer; "
         "what each tells of stands behind it.\n  \xC2\xB1 0.20 min  hover a pack down; propeller "
         "thrust \xC2\xB1 7 to 2 %\n(25 lines)"},
        {case_39, "  +- 0.10 min  hover a pack down\n(24 lines)"},
        {case_40,
         "  pa-w, number 2            1        1250 +- 30          96 %     1 +- 2 %\n  2026-04-01 "
         " pa-w, number 2           1000        972     14.80      14.70\n  2026-04-09  pa-w, "
         "number 2           1000        972     14.80      14.70\n  +- 0.10 min  hover a pack "
         "down; capacity of pa-w, number 2 +- 7 to\n              2 %\n(26 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_learned);
}

static void what_is_learned_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_41,
         "{\"chi2\":3,\"craft\":\"weir-5\",\"flights\":[{\"date\":\"2026-04-01\",\"expected_mah\":"
         "972.222,\"expected_rest_v\":14.7,\"fits\":true,\"left_out\":0.02,\"log_about\":\"volts "
         "under "
         "load\",\"log_fits\":true,\"logged_mah\":1000,\"logged_output\":0.4,\"off_charge_u\":0.5,"
         "\"off_log_u\":0,\"off_rest_u\":0.2,\"put_back_mah\":1000,\"rest_after_v\":14.8,\"why\":"
         "null},{\"date\":\"2026-04-09\",\"expected_mah\":972.222,\"expected_rest_v\":14.7,"
         "\"fits\":true,\"left_out\":0.02,\"off_charge_u\":0.5,\"off_rest_u\":0.2,\"put_back_mah\":"
         "1000,\"rest_after_v\":14.8,\"why\":null}],\"flown_min\":4,\"flown_min_u\":0.5,\"hover_"
         "a\":7.16505,\"hover_a_u\":0.388499,\"hover_output\":0.347334,\"hover_output_u\":0."
         "0104558,\"hover_promises\":0,\"hover_promises_held\":0,\"learned\":[{\"correlation\":{"
         "\"ESC loss\":0,\"current sensor\":0,\"drag area\":0,\"electronics\":0,\"propeller "
         "power\":0,\"voltage "
         "sensor\":0},\"factor\":1.0202,\"factor_u\":0.030606,\"moved_u\":0.285714,\"name\":"
         "\"propeller thrust\",\"prior_u\":0.07},{\"correlation\":{\"ESC loss\":0,\"current "
         "sensor\":0,\"drag area\":0,\"electronics\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"propeller "
         "power\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"current "
         "sensor\":0,\"electronics\":0,\"propeller power\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"drag "
         "area\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"current sensor\":0,\"drag "
         "area\":0,\"propeller power\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"electronics\",\"prior_"
         "u\":0},{\"correlation\":{\"current sensor\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller power\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"ESC "
         "loss\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller power\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"current "
         "sensor\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"current sensor\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller power\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"voltage "
         "sensor\",\"prior_u\":0}],\"learned_min\":3.83333,\"learned_min_u\":0.2,\"left_out_rms\":"
         "0.04,\"next\":[{\"flown_min_u\":0.1,\"from_u\":0.07,\"pack\":\"pa-w\",\"shrinks\":"
         "\"propeller thrust\",\"test\":\"hover a pack "
         "down\",\"to_u\":0.02,\"which\":2}],\"packs\":[{\"cell_mohm\":5,\"cell_mohm_u\":0,"
         "\"charged\":2,\"charges\":[],\"enough_until\":\"2026-05-27\",\"fade_30_days\":0.01,"
         "\"fade_30_days_u\":0.02,\"first_flight\":\"2026-04-01\",\"flights\":1,\"growth_30_days\":"
         "0,\"growth_30_days_u\":0,\"held_mah\":1277.78,\"held_mah_u\":25,\"holds_mah\":1250,"
         "\"holds_mah_u\":25,\"last_flight\":\"2026-04-01\",\"logged_cell_mohm\":6,\"logged_cell_"
         "mohm_u\":0,\"pack\":\"pa-w\",\"stated_mah\":1300,\"which\":null},{\"cell_mohm\":null,"
         "\"cell_mohm_u\":null,\"charged\":0,\"charges\":[],\"enough_until\":null,\"fade_30_days\":"
         "0.01,\"fade_30_days_u\":0.02,\"first_flight\":\"2026-04-01\",\"flights\":1,\"growth_30_"
         "days\":null,\"growth_30_days_u\":null,\"held_mah\":1277.78,\"held_mah_u\":25,\"holds_"
         "mah\":1250,\"holds_mah_u\":25,\"last_flight\":\"2026-04-01\",\"logged_cell_mohm\":null,"
         "\"logged_cell_mohm_u\":null,\"pack\":\"pa-w\",\"stated_mah\":1300,\"which\":2}],"
         "\"readings\":4,\"set_aside\":0}\n(1 lines)"},
        {case_42,
         "{\"chi2\":3,\"craft\":\"weir-5\",\"flights\":[{\"date\":\"2026-04-01\",\"expected_mah\":"
         "972.222,\"expected_rest_v\":14.7,\"fits\":true,\"held\":false,\"left_out\":0.02,\"off_"
         "charge_u\":0.5,\"off_rest_u\":0.2,\"output\":0.31,\"promise_high\":0.33,\"promise_low\":"
         "0.32,\"put_back_mah\":1000,\"rest_after_v\":14.8,\"why\":null},{\"date\":\"2026-04-09\","
         "\"expected_mah\":972.222,\"expected_rest_v\":14.7,\"fits\":true,\"held\":null,\"left_"
         "out\":0.02,\"off_charge_u\":0.5,\"off_rest_u\":0.2,\"output\":0.3,\"promise_high\":null,"
         "\"promise_low\":null,\"put_back_mah\":1000,\"rest_after_v\":14.8,\"why\":null}],\"flown_"
         "min\":4,\"flown_min_u\":0.5,\"hover_a\":7.16505,\"hover_a_u\":0.388499,\"hover_output\":"
         "0.347334,\"hover_output_u\":0.0104558,\"hover_promises\":0,\"hover_promises_held\":0,"
         "\"learned\":[{\"correlation\":{\"ESC loss\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller "
         "power\":0},\"factor\":1.0202,\"factor_u\":0.030606,\"moved_u\":0.285714,\"name\":"
         "\"propeller thrust\",\"prior_u\":0.07},{\"correlation\":{\"ESC loss\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"propeller "
         "power\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"electronics\":0,\"propeller "
         "power\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"drag "
         "area\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"drag area\":0,\"propeller "
         "power\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"electronics\",\"prior_"
         "u\":0},{\"correlation\":{\"drag area\":0,\"electronics\":0,\"propeller "
         "power\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"ESC "
         "loss\",\"prior_u\":0}],\"learned_min\":3.83333,\"learned_min_u\":0.2,\"left_out_rms\":0."
         "04,\"next\":[{\"flown_min_u\":0.1,\"from_u\":0.07,\"pack\":\"pa-w\",\"shrinks\":"
         "\"propeller thrust\",\"test\":\"hover a pack "
         "down\",\"to_u\":0.02,\"which\":null}],\"packs\":[{\"cell_mohm\":0,\"cell_mohm_u\":0,"
         "\"charged\":1,\"charges\":[],\"enough_until\":null,\"fade_30_days\":0.01,\"fade_30_days_"
         "u\":0.02,\"first_flight\":\"2026-04-01\",\"flights\":1,\"growth_30_days\":null,\"growth_"
         "30_days_u\":null,\"held_mah\":1277.78,\"held_mah_u\":25,\"holds_mah\":1250,\"holds_mah_"
         "u\":25,\"last_flight\":\"2026-04-01\",\"logged_cell_mohm\":null,\"logged_cell_mohm_u\":"
         "null,\"pack\":\"pa-w\",\"stated_mah\":1300,\"which\":null}],\"readings\":4,\"set_aside\":"
         "0}\n(1 lines)"},
        {case_43,
         "{\"chi2\":3,\"craft\":\"weir-5\",\"flights\":[{\"date\":\"2026-04-01\",\"expected_mah\":"
         "972.222,\"expected_rest_v\":14.7,\"fits\":true,\"held\":false,\"left_out\":0.02,\"off_"
         "charge_u\":0.5,\"off_rest_u\":0.2,\"output\":0.34,\"promise_high\":0.33,\"promise_low\":"
         "0.32,\"put_back_mah\":1000,\"rest_after_v\":14.8,\"why\":null},{\"date\":\"2026-04-09\","
         "\"expected_mah\":null,\"expected_rest_v\":null,\"fits\":true,\"left_out\":0.02,\"off_"
         "charge_u\":0.5,\"off_rest_u\":0.2,\"put_back_mah\":1000,\"rest_after_v\":14.8,\"why\":"
         "null}],\"flown_min\":4,\"flown_min_u\":0.5,\"hover_a\":null,\"hover_a_u\":null,\"hover_"
         "output\":0.347334,\"hover_output_u\":0.0104558,\"hover_promises\":0,\"hover_promises_"
         "held\":0,\"learned\":[{\"correlation\":{\"ESC loss\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller "
         "power\":0},\"factor\":1.0202,\"factor_u\":0.030606,\"moved_u\":0.285714,\"name\":"
         "\"propeller thrust\",\"prior_u\":0.07},{\"correlation\":{\"ESC loss\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"propeller "
         "power\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"electronics\":0,\"propeller "
         "power\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"drag "
         "area\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"drag area\":0,\"propeller "
         "power\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"electronics\",\"prior_"
         "u\":0},{\"correlation\":{\"drag area\":0,\"electronics\":0,\"propeller "
         "power\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"ESC "
         "loss\",\"prior_u\":0}],\"learned_min\":3.83333,\"learned_min_u\":0.2,\"left_out_rms\":0."
         "04,\"next\":[],\"packs\":[{\"cell_mohm\":null,\"cell_mohm_u\":null,\"charged\":0,"
         "\"charges\":[],\"enough_until\":null,\"fade_30_days\":0.01,\"fade_30_days_u\":0.02,"
         "\"first_flight\":\"2026-04-01\",\"flights\":1,\"growth_30_days\":null,\"growth_30_days_"
         "u\":null,\"held_mah\":1277.78,\"held_mah_u\":25,\"holds_mah\":1250,\"holds_mah_u\":25,"
         "\"last_flight\":\"2026-04-01\",\"logged_cell_mohm\":null,\"logged_cell_mohm_u\":null,"
         "\"pack\":\"pa-w\",\"stated_mah\":1300,\"which\":null}],\"readings\":4,\"set_aside\":0}\n("
         "1 lines)"},
        {case_44,
         "{\"chi2\":3,\"craft\":\"weir-5\",\"flights\":[{\"date\":\"2026-04-01\",\"expected_mah\":"
         "972.222,\"expected_rest_v\":14.7,\"fits\":true,\"left_out\":0.02,\"log_about\":\"volts "
         "under "
         "load\",\"log_fits\":false,\"logged_mah\":null,\"logged_output\":null,\"off_charge_u\":0."
         "5,\"off_log_u\":0,\"off_rest_u\":0.2,\"put_back_mah\":1000,\"rest_after_v\":14.8,\"why\":"
         "null},{\"date\":\"2026-04-09\",\"expected_mah\":972.222,\"expected_rest_v\":14.7,"
         "\"fits\":true,\"left_out\":0.02,\"off_charge_u\":0.5,\"off_rest_u\":0.2,\"put_back_mah\":"
         "1000,\"rest_after_v\":14.8,\"why\":null}],\"flown_min\":4,\"flown_min_u\":0.5,\"hover_"
         "a\":7.16505,\"hover_a_u\":0.388499,\"hover_output\":0.347334,\"hover_output_u\":0."
         "0104558,\"hover_promises\":0,\"hover_promises_held\":0,\"learned\":[{\"correlation\":{"
         "\"ESC loss\":0,\"current sensor\":0,\"drag area\":0,\"electronics\":0,\"propeller "
         "power\":0,\"voltage "
         "sensor\":0},\"factor\":1.0202,\"factor_u\":0.030606,\"moved_u\":0.285714,\"name\":"
         "\"propeller thrust\",\"prior_u\":0.07},{\"correlation\":{\"ESC loss\":0,\"current "
         "sensor\":0,\"drag area\":0,\"electronics\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"propeller "
         "power\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"current "
         "sensor\":0,\"electronics\":0,\"propeller power\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"drag "
         "area\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"current sensor\":0,\"drag "
         "area\":0,\"propeller power\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"electronics\",\"prior_"
         "u\":0},{\"correlation\":{\"current sensor\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller power\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"ESC "
         "loss\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller power\":0,\"propeller thrust\":0,\"voltage "
         "sensor\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"current "
         "sensor\",\"prior_u\":0},{\"correlation\":{\"ESC loss\":0,\"current sensor\":0,\"drag "
         "area\":0,\"electronics\":0,\"propeller power\":0,\"propeller "
         "thrust\":0},\"factor\":1,\"factor_u\":0,\"moved_u\":0,\"name\":\"voltage "
         "sensor\",\"prior_u\":0}],\"learned_min\":3.83333,\"learned_min_u\":0.2,\"left_out_rms\":"
         "0.04,\"next\":[{\"flown_min_u\":0.1,\"test\":\"hover a pack "
         "down\"}],\"packs\":[{\"cell_mohm\":null,\"cell_mohm_u\":null,\"charged\":0,\"charges\":[{"
         "\"cell_mohm\":5,\"cell_mohm_u\":0,\"date\":\"2026-04-02\"}],\"enough_until\":null,\"fade_"
         "30_days\":0.01,\"fade_30_days_u\":0.02,\"first_flight\":\"2026-04-01\",\"flights\":1,"
         "\"growth_30_days\":null,\"growth_30_days_u\":null,\"held_mah\":1277.78,\"held_mah_u\":25,"
         "\"holds_mah\":1250,\"holds_mah_u\":25,\"last_flight\":\"2026-04-01\",\"logged_cell_"
         "mohm\":null,\"logged_cell_mohm_u\":null,\"pack\":\"pa-w\",\"stated_mah\":1300,\"which\":"
         "null}],\"readings\":4,\"set_aside\":0}\n(1 lines)"},
        {case_45, "as usual"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_learned_json);
}

static void what_to_buy_and_to_cut(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_46,
         "To buy: 42.50 EUR in all\nFrom Harbour Bench\n  1               42.50  pa-w: 1 needed\n"},
        {case_47, "To buy: 42.50 in all\n(3 lines)"},
        {case_48, "To buy: 42.50 in all\n(3 lines)"},
        {case_49, "To buy: 42.50 EUR in all, and what has no price yet\n  1                   ?  "
                  "pa-w: 1 needed\n(3 lines)"},
        {case_50, "To buy: 0.00 EUR in all, and what has no price yet\nFrom wherever it is sold\n  "
                  "1                   ?  pa-w: 1 needed\n(3 lines)"},
        {case_51, "To buy: nothing\nlie unused     1 pa-w\n(2 lines)"},
        {case_52, "ordered        2 pa-w\n(2 lines)"},
        {case_53, "  1               42.50  pa-w: 1 needed, 1 lie unused, 1 ordered\n              "
                  "     4.20  shipping\n(4 lines)"},
        {case_54, "  1 set of 4      42.50  pa-w, Dunnock: 1 needed\n(3 lines)"},
        {case_55, "  2 sets of 4     42.50  pa-w: 1 needed\n(3 lines)"},
        {case_56, "Screws and wire, at usual prices\n  2 bags of 10     9.00  M3 x 8 mm titanium "
                  "screws, ISO 4762: 12 needed\n(5 lines)"},
        {case_57,
         "Screws and wire, at usual prices\n  2 bags of 10     9.00  M3 x 8 mm titanium screws, "
         "ISO 4762: 12 needed\n  1 m              3.00  wire of 14 AWG: 0.42 m needed\n(6 lines)"},
        {case_58, "Screws and wire, at usual prices\n  1 m              3.00  wire of 14 AWG: 0.42 "
                  "m needed\n(5 lines)"},
        {case_59, "Screws and wire, at usual prices\n  1 bag of 10      9.00  M3 titanium nuts, "
                  "ISO 4032: 12 needed\n(5 lines)"},
        {case_60, "ordered        12 M3 x 8 mm titanium screws, ISO 4762\n(4 lines)"},
        {case_61, "ordered        0.50 m of 14 AWG\n(4 lines)"},
        {case_62, "Screws and wire, at usual prices\n  2 bags of 10     9.00  M3 x 8 mm titanium "
                  "screws, ISO 4762: 12 needed\n  1 m              3.00  wire of 14 AWG: 0.42 m "
                  "needed\nlie unused     1 pa-w, 1 pa-w\nordered        1 pa-w, 1 pa-w, 0 M3 x 8 "
                  "mm titanium screws, ISO 4762, 0.00 m of\n               14 AWG\n(7 lines)"},
        {case_63, "To cut and to lay out\n  2 x          110 mm of 14 AWG, run.lead\n(2 lines)"},
        {case_64, "To cut and to lay out\n  2 x          110 mm of coax, lead (pa-w)\n(2 lines)"},
        {case_65, "To cut and to lay out\n  2 x          M3 x 110 mm steel screws, ISO 4762, "
                  "joint.lead, out of those of\n               12 mm\n(3 lines)"},
        {case_66, "(0 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_shopping);
}

static void what_to_buy_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_67,
         "{\"money\":42.5,\"money_unit\":\"EUR\",\"parts\":[{\"maker\":null,\"money\":42.5,"
         "\"needed\":1,\"ordered\":0,\"part\":\"pa-w\",\"seller\":null,\"sets\":1,\"sold_in\":1,"
         "\"unused\":0}],\"priced\":true,\"screws\":[{\"bags\":2,\"length_mm\":8,\"material\":"
         "\"titanium\",\"money\":9,\"needed\":12,\"ordered\":0,\"sold_in\":10,\"standard\":"
         "\"ISO4762\",\"thread_mm\":3}],\"sellers\":[{\"goods_money\":0,\"seller\":\"Harbour "
         "Bench\",\"shipping_money\":0}],\"wires\":[{\"gauge\":14,\"money\":3,\"needed_m\":0.42,"
         "\"ordered_m\":0,\"sold_m\":1}]}{\"coax\":[{\"count\":1,\"item\":\"pigtail\",\"length_"
         "mm\":50,\"out_of_mm\":null,\"part\":\"pa-w\"}],\"screws\":[{\"count\":8,\"joint\":"
         "\"motor_base\",\"length_mm\":6,\"material\":\"steel\",\"out_of_mm\":8,\"standard\":"
         "\"ISO4762\",\"thread_mm\":3}],\"wires\":[{\"count\":2,\"gauge\":14,\"length_mm\":110,"
         "\"out_of_mm\":null,\"run\":\"lead\"}]}\n(1 lines)"},
        {case_68,
         "{\"money\":42.5,\"money_unit\":null,\"parts\":[{\"maker\":null,\"money\":null,\"needed\":"
         "1,\"ordered\":0,\"part\":\"pa-w\",\"seller\":null,\"sets\":1,\"sold_in\":1,\"unused\":0}]"
         ",\"priced\":false,\"screws\":[{\"bags\":2,\"length_mm\":null,\"material\":\"titanium\","
         "\"money\":9,\"needed\":12,\"ordered\":0,\"sold_in\":10,\"standard\":\"ISO4032\",\"thread_"
         "mm\":3}],\"sellers\":[{\"goods_money\":0,\"seller\":null,\"shipping_money\":0}],"
         "\"wires\":[]}{\"coax\":[],\"screws\":[{\"count\":2,\"joint\":\"nuts\",\"length_mm\":null,"
         "\"material\":\"steel\",\"out_of_mm\":null,\"standard\":\"ISO4032\",\"thread_mm\":5}],"
         "\"wires\":[]}\n(1 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_shopping_json);
}

static void swaps_taken_and_what_was_measured_since(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_69, "cube=off\n    chosen 2026-04-01\nAll-up 441 +- 5 g as built.\n"},
        {case_70, "    the scale says -8.4 +- 0.4 g, where -7.6 +- 0.5 g was promised: real with "
                  "a\n    chance of 97 %\n(5 lines)"},
        {case_71, "    the scale says -8.4 +- 0.4 g, where -7.6 +- 0.5 g was promised by the 2 "
                  "that\n    were fitted together: real with a chance of over 99 %\n(5 lines)"},
        {case_72, "    the scale says +1.0 +- 0.4 g, where +2.0 +- 0.5 g was promised: real with "
                  "a\n    chance of under 1 %\n(5 lines)"},
        {case_73, "(1 lines)"},
        {case_74, "All-up 441 +- 5 g as built; not all of it goes on as things are: the pack "
                  "does\nnot fit.\n(4 lines)"},
        {case_75, "All-up 441 +- 5 g as built, 430 +- 2 g once all of it is fitted.\n(3 lines)"},
        {case_76, "    brings pa-w, pa-w\n(4 lines)"},
        {case_77, "    promised -7.60 g, +6 s flown\n(4 lines)"},
        {case_78, "    promised +7.6 +- 0.5 g\n(4 lines)"},
        {case_79, "To buy: 42.50 EUR in all\nFrom Harbour Bench\n  1               42.50  pa-w: 1 "
                  "needed\n(7 lines)"},
        {case_80, "  [ ] Pack off.\nBefore it flies, and on its first flight\n  [ ] Spin each "
                  "motor.\n(7 lines)"},
        {case_81, "The work: about 13 min, no soldering\n  [ ] Pack off.\nBefore it flies, and on "
                  "its first flight\n  [ ] Spin each motor.\n(8 lines)"},
        {case_82,
         "All-up 441 \xC2\xB1 5 g as built.\nThe work: about 0 min, 1 solder joint\n  \xE2\x98\x90 "
         "Pack off.\nOutside: 0 min, 1 solder joint; a knife, an iron\n  \xE2\x98\x90 cut\nBefore "
         "it flies, and on its first flight\n  \xE2\x98\x90 Spin each motor.\n(10 lines)"},
        {case_83, "The work: about 0 min, 4 solder joints\n  [ ] Pack off.\nPropellers and nuts: 0 "
                  "min, 4 solder joints\n  [ ] solder\nBefore it flies, and on its first flight\n  "
                  "[ ] Spin each motor.\n(10 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_take);
}

static void swaps_taken_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_84,
         "{\"all_up_g\":440.845,\"all_up_g_u\":4.5679,\"checklist\":{\"checks\":[],\"first\":[],"
         "\"openings\":[],\"solder_joints\":0,\"swaps\":0,\"work_min\":0},\"craft\":\"weir-5\","
         "\"cutting\":{\"coax\":[],\"screws\":[],\"wires\":[]},\"planned_all_up_g\":null,\"planned_"
         "all_up_g_u\":null,\"planned_why\":\"the pack does not "
         "fit\",\"shopping\":{\"money\":42.5,\"money_unit\":\"EUR\",\"parts\":[{\"maker\":null,"
         "\"money\":42.5,\"needed\":1,\"ordered\":0,\"part\":\"pa-w\",\"seller\":null,\"sets\":1,"
         "\"sold_in\":1,\"unused\":0}],\"priced\":true,\"screws\":[],\"sellers\":[{\"goods_money\":"
         "0,\"seller\":\"Harbour "
         "Bench\",\"shipping_money\":0}],\"wires\":[]},\"taken\":[{\"answered\":{\"all_up_g\":{"
         "\"before\":1,\"measured\":-8.4,\"measured_u\":0.4,\"promised\":-7.6,\"promised_u\":0.5,"
         "\"real\":0.97,\"since\":1,\"swaps\":1}},\"brings\":[],\"chosen\":\"2026-04-01\","
         "\"fitted\":null,\"flown\":null,\"on_craft\":false,\"ordered\":null,\"promise\":{},"
         "\"stage\":\"chosen\",\"swap\":\"cube=off\",\"weighed\":null}]}\n(1 lines)"},
        {case_85,
         "{\"all_up_g\":440.845,\"all_up_g_u\":4.5679,\"checklist\":{\"checks\":[],\"first\":[],"
         "\"openings\":[],\"solder_joints\":0,\"swaps\":0,\"work_min\":0},\"craft\":\"weir-5\","
         "\"planned_all_up_g\":430,\"planned_all_up_g_u\":0,\"taken\":[]}\n(1 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_take_json);
}

static void printed_parts_say_what_a_gram_bears(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_86, "  printed           walls 2.9 g, infill 2.0 g at 30 %\n  a gram bears      380 "
                  "N over 50 mm, 190 across its layers, and gives 1 mm at\n                    16 "
                  "N (tpu, told from its density)\n  beside it         a nylon tie 1100 N, carbon "
                  "plate 5000 N, a steel screw 12.9\n                    3100 N, a titanium screw "
                  "4000 N; an estimate, good to a\n                    "
                  "quarter\n{\"bears_across_n_per_g\":189.722,\"bears_n_per_g\":379.443,\"beside_n_"
                  "per_g\":{\"plate\":5000,\"steel_screw\":3108.28,\"tie\":1052.63,\"titanium_"
                  "screw\":4018.06},\"infill_g\":2.0328,\"material\":\"tpu\",\"material_by_"
                  "density\":true,\"stiff_n_per_mm_g\":16.4706,\"walls_g\":2.904}"},
        {case_87,
         "  printed           walls 7.2 g, infill 5.0 g at 30 %\n  a gram bears      not known: "
         "say material: in its body, as tpu, pla, petg, abs\n                    or "
         "nylon\n{\"bears_across_n_per_g\":null,\"bears_n_per_g\":null,\"beside_n_per_g\":{"
         "\"plate\":5000,\"steel_screw\":3108.28,\"tie\":1052.63,\"titanium_screw\":4018.06},"
         "\"infill_g\":5.04,\"material\":null,\"material_by_density\":true,\"stiff_n_per_mm_g\":"
         "null,\"walls_g\":7.2}\n(4 lines)"},
        {case_88, "  a gram bears      650 N over 50 mm, and gives 1 mm at 350 N "
                  "(nylon)\n{\"bears_across_n_per_g\":650.475,\"bears_n_per_g\":650.475,\"beside_n_"
                  "per_g\":{\"plate\":5000,\"steel_screw\":3108.28,\"tie\":1052.63,\"titanium_"
                  "screw\":4018.06},\"infill_g\":2.0328,\"material\":\"nylon\",\"material_by_"
                  "density\":false,\"stiff_n_per_mm_g\":352.941,\"walls_g\":2.904}\n(6 lines)"},
        {case_89, "  a gram bears      4300 N over 50 mm, and gives 1 mm at 14000 N "
                  "(carbon)\n{\"bears_across_n_per_g\":4336.5,\"bears_n_per_g\":4336.5,\"beside_n_"
                  "per_g\":{\"plate\":5000,\"steel_screw\":3108.28,\"tie\":1052.63,\"titanium_"
                  "screw\":4018.06},\"infill_g\":2.0328,\"material\":\"carbon\",\"material_by_"
                  "density\":false,\"stiff_n_per_mm_g\":13529.4,\"walls_g\":2.904}\n(6 lines)"},
        {case_90, "none\n(1 lines)"},
        {case_91, "none\n(1 lines)"},
        {case_92, "none\n(1 lines)"},
        {case_93,
         "  printed           walls 3.0 g, infill 2.1 g at 30 %\n  a gram bears      370 N over 50 "
         "mm, 190 across its layers, and gives 1 mm at\n                    16 N "
         "(tpu)\n{\"bears_across_n_per_g\":185.132,\"bears_n_per_g\":370.263,\"beside_n_per_g\":{"
         "\"plate\":5000,\"steel_screw\":3108.28,\"tie\":1052.63,\"titanium_screw\":4018.06},"
         "\"infill_g\":2.0832,\"material\":\"tpu\",\"material_by_density\":false,\"stiff_n_per_mm_"
         "g\":16.0721,\"walls_g\":2.976}\n(7 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_printed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(flights_and_what_they_teach),
        cmocka_unit_test(what_is_learned_may_be_json),
        cmocka_unit_test(what_to_buy_and_to_cut),
        cmocka_unit_test(what_to_buy_may_be_json),
        cmocka_unit_test(swaps_taken_and_what_was_measured_since),
        cmocka_unit_test(swaps_taken_may_be_json),
        cmocka_unit_test(printed_parts_say_what_a_gram_bears),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
