/* rooms: show store advise craft physics base */
/* What is said of a best set, of the order in which to buy it and of what follows saved grams, in each state
 * that these can be in: proven or stopped, priced or not, by another wish. The truth is what the numbers put in
 * here say; what the sheets of the craft say is another test's. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "changed_lines.h"
#include "craft_fixture.h"
#include "near.h"
#include "show/best.h"
#include "show/json.h"
#include "show/knock_on.h"
#include "show/walk.h"

typedef struct states {
    fixture *f;
    pare_sheet *then;
    pare_best best, sought, way[3];
    pare_best_swap swap[3];
    pare_checklist work;
    pare_best_view view;
    pare_best_wished wished, way_wished[3];
    pare_best_ways ways;
    pare_best_sureness sure;
    pare_loosened loosened[4];
    pare_reliefs reliefs;
    double hours_min;
    pare_walk walk;
    pare_walk_view walk_view;
    int64_t budget;
    pare_knock_on knock_on;
    pare_knock_on_view knock_view;
    pare_screen screen;
} states;

static void close_states(states *s)
{
    void *state = s->f;
    free(s->then);
    fixture_close(&state);
    free(s);
}

static states *open_states(void)
{
    states *s = calloc(1, sizeof *s);
    assert_non_null(s);
    s->f = fixture_open("every-key.yaml", "weir-5");
    s->then = malloc(sizeof *s->then);
    assert_non_null(s->then);
    *s->then = *fixture_sheet(s->f, true);
    s->screen = (pare_screen){.width = 80};
    strcpy(s->swap[0].applied.id, "cube=off");
    strcpy(s->swap[1].applied.id, "motor=mo-x");
    strcpy(s->swap[2].applied.id, "joint.motor_base.count=8");
    for (size_t i = 0; i < 3; i++) {
        s->swap[i].applied.priced = true;
        s->swap[i].saved_100ug = 50000;
    }
    s->swap[1].applied.money = 40;
    s->best = (pare_best){.found = true,
                          .proven = true,
                          .was_100ug = 6000000,
                          .best_100ug = 5850000,
                          .bound_100ug = 5850000,
                          .swaps = 3,
                          .swap = s->swap,
                          .money = 40,
                          .priced = true,
                          .before = s->f->craft,
                          .after = s->f->craft,
                          .sheet_before = s->f->sheet,
                          .sheet_after = s->then,
                          .work = &s->work,
                          .groups = 5};
    s->view = (pare_best_view){.best = &s->best, .money = "EUR"};
    s->wished = (pare_best_wished){.wish = PARE_WISH_MINUTES,
                                   .figure = PARE_FLOWN_TIME,
                                   .exists = true,
                                   .was = 240,
                                   .value = 300,
                                   .bound = 310,
                                   .proven = true,
                                   .searches = 7};
    s->sought = (pare_best){.found = true, .best_100ug = 5800000, .swaps = 2, .swap = s->swap};
    for (size_t i = 0; i < 3; i++)
        s->way[i] = s->best;
    s->way[1].best_100ug = 5900000;
    s->way[1].swaps = 1;
    s->way[2].best_100ug = 5800000;
    s->way[2].swaps = 2;
    for (size_t i = 0; i < 3; i++)
        s->way_wished[i].wish = PARE_WISH_GRAMS;
    s->ways = (pare_best_ways){
        .count = 2, .way = s->way, .wished = s->way_wished, .proven = true, .all = true};
    s->sure = (pare_best_sureness){
        .asked = 0.9, .just = true, .just_proven = true, .just_100ug = 5800000};
    s->sure.drawn = (pare_sure_drawn){.draws = 2000, .all = 0.95, .all_u = 0.005};
    s->loosened[0] = (pare_loosened){.name = "limit.flown",
                                     .figure = PARE_FLOWN_TIME,
                                     .by = 60,
                                     .proven = true,
                                     .won_100ug = 120000,
                                     .next = "limit.all_up"};
    s->reliefs.count = 1;
    s->reliefs.alone[0] = (pare_relief){.key = "flown",
                                        .figure = PARE_FLOWN_TIME,
                                        .at_least = true,
                                        .helps = true,
                                        .exact = true,
                                        .from = 300,
                                        .to = 250.123,
                                        .best_100ug = 5900000};
    s->hours_min = 90;
    s->walk = (pare_walk){.exact = true, .was_100ug = 6000000, .now = 1, .steps = 2};
    for (size_t i = 0; i < 2; i++)
        s->walk.step[i] = (pare_walk_step){.swaps = 1,
                                           .swap = {i},
                                           .saved_100ug = 50000,
                                           .cents = 2000,
                                           .priced = true,
                                           .mass_100ug = 5950000 - 50000 * (int64_t)i,
                                           .spent_cents = 2000 * (int64_t)(i + 1)};
    s->budget = 2500;
    s->walk_view = (pare_walk_view){.money = "EUR", .best = &s->best, .walk = &s->walk};
    s->knock_on = (pare_knock_on){.found = true,
                                  .proven = true,
                                  .saved_100ug = 200000,
                                  .follows_100ug = 50000,
                                  .growth_known = true,
                                  .growth = 1.4,
                                  .knocks = 2,
                                  .before = s->f->sheet,
                                  .lighter = s->f->sheet,
                                  .after = s->then};
    s->knock_on.knock[1] = (pare_knock){.saved_100ug = 100000,
                                        .follows_100ug = 50000,
                                        .estimate_kg = 0.004,
                                        .parts = 2,
                                        .part = {{"motor", "mo-x", 0.005}, {"lead", NULL, -0.001}}};
    s->knock_view = (pare_knock_on_view){.craft = "weir-5", .knock_on = &s->knock_on};
    return s;
}

static void put_json(json_t *object, pare_text *out)
{
    char *text = json_dumps(object, JSON_COMPACT | JSON_SORT_KEYS | JSON_ENCODE_ANY |
                                        JSON_REAL_PRECISION(6));
    assert_non_null(text);
    pare_text_add(out, text);
    free(text);
    json_decref(object);
}

static void say_ends(const states *s, pare_text *out)
{
    /* The screen without the figures of the sheets. */
    pare_text all = {0};
    pare_best_text(&s->view, &s->screen, &all);
    assert_false(all.failed);
    const char *figures = strstr(all.bytes, "now           then\n");
    const char *binds = figures ? strstr(figures, "\n\n") : NULL;
    if (figures && binds)
        pare_text_printf(out, "%.*s...%s", (int)(figures - all.bytes), all.bytes, binds);
    else
        pare_text_add(out, all.bytes);
    pare_text_free(&all);
}

static void say_loosened(const states *s, pare_text *out)
{
    pare_best_put_loosened(&s->view, &s->screen, out);
    json_t *limit = json_object();
    pare_best_loosened_into(limit, &s->view, s->loosened[0].name);
    put_json(limit, out);
}

static void say_reliefs(const states *s, pare_text *out)
{
    pare_best_put_reliefs(&s->view, &s->screen, out);
    put_json(pare_best_reliefs_object(&s->view), out);
}

static void say_ways(const states *s, pare_text *out)
{
    pare_best_put_ways(&s->view, &s->screen, out);
    json_t *object = json_object();
    pare_best_ways_into(object, &s->view);
    put_json(object, out);
}

static void say_wish(const states *s, pare_text *out)
{
    pare_text line = {0};
    pare_best_add_wish(&s->view, &line);
    pare_text_printf(out, "%s\n", line.bytes ? line.bytes : "");
    pare_text_free(&line);
    if (s->view.wished)
        pare_best_put_wish_proof(&s->view, &s->screen, out);
    json_t *object = json_object();
    pare_best_wish_into(object, &s->view);
    put_json(object, out);
}

static void say_sure(const states *s, pare_text *out)
{
    pare_best_put_sureness(&s->view, &s->screen, out);
    json_t *object = json_object();
    pare_best_sureness_into(object, &s->view);
    put_json(object, out);
}

static void say_sought(const states *s, pare_text *out)
{
    pare_best_put_sought(&s->view, &s->screen, out);
    json_t *object = json_object();
    pare_best_sought_into(object, &s->view);
    put_json(object, out);
}

static void say_walk(const states *s, pare_text *out)
{
    pare_walk_text(&s->walk_view, &s->screen, out);
}

static void say_walk_json(const states *s, pare_text *out)
{
    put_json(pare_walk_object(&s->walk_view), out);
}

static void say_knock_on(const states *s, pare_text *out)
{
    pare_knock_on_text(&s->knock_view, &s->screen, out);
}

static void say_knock_on_json(const states *s, pare_text *out)
{
    put_json(pare_knock_on_object(&s->knock_view), out);
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
    s->view.money = NULL;
    s->best.priced = false;
    s->swap[1].applied.priced = false;
    s->best.proven = false;
    s->best.bound_100ug = 5700000;
}

static void case_2(states *s)
{
    s->view.loadout = "race";
    s->best.proven = false;
    s->best.bound_100ug = INT64_MAX;
}

static void case_3(states *s)
{
    s->view.loadout = "race";
    s->view.every = true;
    s->best.misses = 2;
    s->best.proven = false;
}

static void case_4(states *s)
{
    s->best.back = 12;
    s->swap[1].applied.brings = 2;
    strcpy(s->swap[1].applied.bring[0], "nut: nu-1");
    strcpy(s->swap[1].applied.bring[1], "lead");
    s->swap[0].applied.drops = 2;
    strcpy(s->swap[0].applied.drop[0], "cube_nuts");
    strcpy(s->swap[0].applied.drop[1], "strap");
    s->swap[1].applied.drops = 1;
    strcpy(s->swap[1].applied.drop[0], "phase");
}

static void case_5(states *s)
{
    s->view.all = true;
    s->swap[0].applied.notes = 1;
    strcpy(s->swap[0].applied.note[0], "nothing protects it");
    s->best.cuts = 1;
    strcpy(s->best.cut[0].name, "limit.all_up");
    s->best.cut[0].groups = 4;
    s->work.firsts = 1;
    s->work.first[0] = "Pack off.";
    s->work.group[0].steps = 1;
    s->work.group[0].step[0] = "cut the strap";
    s->work.checks = 1;
    s->work.check[0] = "Spin each motor.";
    s->view.seconds = 0.5;
}

static void case_6(states *s)
{
    s->best.binds = 2;
    strcpy(s->best.bind[0].name, "limit.all_up");
    strcpy(s->best.bind[1].name, "limit.flown");
}

static void case_7(states *s)
{
    s->best.binds = 1;
    strcpy(s->best.bind[0].name, "not.on.any.sheet");
}

static void case_8(states *s)
{
    s->view.wished = &s->wished;
}

static void case_9(states *s)
{
    s->view.wished = &s->wished;
    s->best.best_100ug = 6100000;
    s->wished.proven = false;
    s->best.proven = false;
}

static void case_10(states *s)
{
    s->view.wished = &s->wished;
    s->wished.wish = PARE_WISH_CRASH;
    s->wished.figure = PARE_CRASH;
}

static void case_11(states *s)
{
    s->view.sure = &s->sure;
}

static void case_12(states *s)
{
    s->best.swaps = 0;
    s->best.best_100ug = 6000000;
}

static void case_13(states *s)
{
    s->best.found = false;
}

static void case_14(states *s)
{
    s->best.found = false;
    s->best.proven = false;
}

static void case_15(states *s)
{
    s->best.found = false;
    s->best.groups = 0;
}

static void case_16(states *s)
{
    s->best.found = false;
    s->best.binds = 1;
    strcpy(s->best.bind[0].name, "limit.flown");
    s->best.bind[0].groups = 9;
}

static void case_17(states *s)
{
    s->best.found = false;
    s->view.sure = &s->sure;
    s->view.most_work_min = &s->hours_min;
}

static void case_18(states *s)
{
    s->best.found = false;
    s->view.reliefs = &s->reliefs;
}

static void case_19(states *s)
{
    s->view.loosened = s->loosened;
    s->view.loosens = 1;
}

static void case_20(states *s)
{
    s->view.loosened = s->loosened;
    s->view.loosens = 1;
    s->loosened[0].next[0] = 0;
    s->loosened[0].proven = false;
}

static void case_21(states *s)
{
    s->view.loosened = s->loosened;
    s->view.loosens = 1;
    s->loosened[0].won_100ug = 0;
}

static void case_22(states *s)
{
    s->view.loosened = s->loosened;
    s->view.loosens = 1;
    s->loosened[0].won_100ug = 0;
    s->loosened[0].proven = false;
}

static void case_23(states *s)
{
    s->view.loosened = s->loosened;
    s->view.loosens = 1;
    s->view.loosens = 4;
    s->loosened[1] = s->loosened[2] = s->loosened[3] = s->loosened[0];
    strcpy(s->loosened[1].name, "wire.lead");
    s->loosened[1].figure = -1;
    s->loosened[1].by = 0.1;
    s->loosened[2].won_100ug = 0;
    strcpy(s->loosened[2].name, "limit.money");
    s->loosened[3].won_100ug = 0;
    s->loosened[3].proven = false;
    strcpy(s->loosened[3].name, "limit.margin");
}

static void case_24(states *s)
{
    s->view.loosened = s->loosened;
    s->view.loosens = 1;
    s->view.loosens = 3;
    s->loosened[1] = s->loosened[2] = s->loosened[0];
    for (int i = 0; i < 3; i++)
        s->loosened[i].won_100ug = 0;
    s->loosened[2].proven = false;
}

static void case_25(states *s)
{
    s->view.loosened = s->loosened;
    s->view.loosens = 1;
    strcpy(s->loosened[0].name, "limit.margin");
    s->loosened[0].figure = -1;
    s->loosened[0].by = 0.1;
}

static void case_26(states *s)
{
    s->view.loosened = s->loosened;
    s->view.loosens = 1;
    strcpy(s->loosened[0].name, "limit.hover_output");
    s->loosened[0].figure = PARE_HOVER_OUTPUT;
    s->loosened[0].by = 0.01;
}

static void case_27(states *s)
{
    (void)s;
    (void)0;
}

static void case_28(states *s)
{
    s->view.reliefs = &s->reliefs;
}

static void case_29(states *s)
{
    (void)s;
    (void)0;
}

static void case_30(states *s)
{
    s->view.reliefs = &s->reliefs;
    s->reliefs.alone[0].exact = false;
    s->reliefs.alone[0].at_least = false;
}

static void case_31(states *s)
{
    s->view.reliefs = &s->reliefs;
    s->reliefs.alone[0].helps = false;
}

static void case_32(states *s)
{
    s->view.reliefs = &s->reliefs;
    s->reliefs.stopped = true;
}

static void case_33(states *s)
{
    s->view.reliefs = &s->reliefs;
    s->reliefs.alone[0].figure = -1;
    s->reliefs.alone[0].key = "margin";
    s->reliefs.alone[0].from = 1.1;
    s->reliefs.alone[0].to = 0.9;
}

static void case_34(states *s)
{
    s->view.reliefs = &s->reliefs;
    s->reliefs.pair = true;
    s->reliefs.both[0] = s->reliefs.both[1] = s->reliefs.alone[0];
    s->reliefs.both[1].figure = PARE_HOVER_OUTPUT;
    s->reliefs.both[1].from = 0.3;
    s->reliefs.both[1].to = 0.4;
    s->reliefs.alone[0].helps = false;
}

static void case_35(states *s)
{
    s->view.ways = &s->ways;
}

static void case_36(states *s)
{
    (void)s;
    (void)0;
}

static void case_37(states *s)
{
    s->view.ways = &s->ways;
    s->ways.count = 1;
}

static void case_38(states *s)
{
    s->view.ways = &s->ways;
    s->ways.count = 3;
}

static void case_39(states *s)
{
    s->view.ways = &s->ways;
    s->ways.count = 3;
    s->ways.all = false;
    s->way[1].priced = false;
    s->view.money = NULL;
}

static void case_40(states *s)
{
    s->view.ways = &s->ways;
    s->ways.proven = false;
}

static void case_41(states *s)
{
    s->view.ways = &s->ways;
    s->view.wished = &s->wished;
    s->wished.wish = s->way_wished[0].wish = PARE_WISH_MONEY;
}

static void case_42(states *s)
{
    s->view.ways = &s->ways;
    s->view.wished = &s->wished;
    s->wished.wish = s->way_wished[0].wish = PARE_WISH_MONEY;
    s->view.money = NULL;
}

static void case_43(states *s)
{
    s->view.ways = &s->ways;
    strcpy(s->swap[2].applied.id, "pack=pa-x");
    s->swap[2].applied.money = 9;
}

static void case_44(states *s)
{
    s->view.ways = &s->ways;
    s->view.wished = &s->wished;
}

static void case_45(states *s)
{
    s->view.ways = &s->ways;
    s->then->figure[PARE_FLOWN_TIME].exists = false;
    s->then->figure[PARE_ALL_UP].exists = false;
}

static void case_46(states *s)
{
    s->view.ways = &s->ways;
    s->way[1].swap = s->swap + 1;
}

static void case_47(states *s)
{
    s->view.wished = &s->wished;
}

static void case_48(states *s)
{
    (void)s;
    (void)0;
}

static void case_49(states *s)
{
    s->view.wished = &s->wished;
    s->wished.wish = PARE_WISH_GRAMS;
}

static void case_50(states *s)
{
    s->view.wished = &s->wished;
    s->wished.proven = false;
}

static void case_51(states *s)
{
    s->view.wished = &s->wished;
    s->wished.proven = false;
    s->wished.bound = HUGE_VAL;
}

static void case_52(states *s)
{
    s->view.wished = &s->wished;
    s->wished.exists = false;
}

static void case_53(states *s)
{
    s->view.wished = &s->wished;
    s->view.most_work_min = &s->hours_min;
    s->wished.wish = PARE_WISH_EVENING;
    s->wished.figure = -1;
    s->work.minutes = 75.2;
}

static void case_54(states *s)
{
    s->view.wished = &s->wished;
    s->view.most_work_min = &s->hours_min;
    s->wished.wish = PARE_WISH_EVENING;
    s->wished.figure = -1;
    s->wished.proven = false;
}

static void case_55(states *s)
{
    s->view.wished = &s->wished;
    s->wished.wish = PARE_WISH_MONEY;
    s->wished.figure = -1;
}

static void case_56(states *s)
{
    s->view.wished = &s->wished;
    s->wished.wish = PARE_WISH_MONEY;
    s->wished.figure = -1;
    s->f->craft->brief.limits = 0;
    s->view.money = NULL;
}

static void case_57(states *s)
{
    s->view.wished = &s->wished;
    s->wished.wish = PARE_WISH_MONEY;
    s->wished.figure = -1;
    s->wished.proven = false;
}

static void case_58(states *s)
{
    s->view.wished = &s->wished;
    s->wished.wish = PARE_WISH_CRASH;
    s->wished.figure = PARE_CRASH;
}

static void case_59(states *s)
{
    s->view.wished = &s->wished;
    s->wished.wish = PARE_WISH_THRUST;
    s->wished.figure = PARE_TWR_HALF;
}

static void case_60(states *s)
{
    s->view.sure = &s->sure;
}

static void case_61(states *s)
{
    (void)s;
    (void)0;
}

static void case_62(states *s)
{
    s->view.sure = &s->sure;
    s->sure.just = false;
}

static void case_63(states *s)
{
    s->view.sure = &s->sure;
    s->sure.just_proven = false;
}

static void case_64(states *s)
{
    s->view.sure = &s->sure;
    s->best.proven = false;
}

static void case_65(states *s)
{
    s->view.sure = &s->sure;
    s->sure.drawn.all = 0.99999;
}

static void case_66(states *s)
{
    s->view.sure = &s->sure;
    s->sure.drawn.all = 1;
}

static void case_67(states *s)
{
    s->view.sure = &s->sure;
    s->sure.drawn.all = 0.7;
}

static void case_68(states *s)
{
    s->view.sure = &s->sure;
    s->sure.drawn.limits = 2;
    s->sure.drawn.limit[0].name = "limit.all_up";
    s->sure.drawn.limit[0].linear = 0.97;
    s->sure.drawn.limit[0].drawn = 1;
    s->sure.drawn.limit[1].name = "limit.flown";
    s->sure.drawn.limit[1].linear = 0.9999;
}

static void case_69(states *s)
{
    s->view.sure = &s->sure;
    s->best.found = false;
    s->sure.just = false;
}

static void case_70(states *s)
{
    s->view.sought = &s->sought;
}

static void case_71(states *s)
{
    s->view.sought = &s->sought;
    s->sought.found = false;
}

static void case_72(states *s)
{
    s->view.sought = &s->sought;
    s->sought.found = false;
    s->sought.stopped = true;
}

static void case_73(states *s)
{
    s->view.sought = &s->sought;
    strcpy(s->swap[1].applied.id, "motor=sought-29g");
    s->swap[1].applied.notes = 2;
    strcpy(s->swap[1].applied.note[0], "of 29 g");
    strcpy(s->swap[1].applied.note[1], "kv 1800");
}

static void case_74(states *s)
{
    (void)s;
    (void)0;
}

static void case_75(states *s)
{
    (void)s;
    (void)0;
}

static void case_76(states *s)
{
    s->walk_view.budget = &s->budget;
}

static void case_77(states *s)
{
    s->walk_view.budget = &s->budget;
    s->walk.now = 0;
}

static void case_78(states *s)
{
    s->walk_view.budget = &s->budget;
    s->walk.now = 2;
}

static void case_79(states *s)
{
    s->walk.exact = false;
    s->walk_view.money = NULL;
    s->walk.step[0].priced = false;
    s->walk_view.loadout = "race";
}

static void case_80(states *s)
{
    s->walk.stopped = true;
    s->best.proven = false;
}

static void case_81(states *s)
{
    s->walk.steps = 0;
}

static void case_82(states *s)
{
    s->walk.steps = 1;
    s->walk.step[0].swaps = 2;
    s->walk.step[0].swap[1] = 2;
}

static void case_83(states *s)
{
    s->best.found = false;
}

static void case_84(states *s)
{
    s->best.found = false;
    s->best.stopped = true;
}

static void case_85(states *s)
{
    s->walk_view.budget = &s->budget;
    s->walk_view.loadout = "race";
    s->walk.step[0].priced = false;
}

static void case_86(states *s)
{
    s->best.found = false;
    s->walk.steps = 0;
}

static void case_87(states *s)
{
    (void)s;
    (void)0;
}

static void case_88(states *s)
{
    s->knock_on.growth_known = false;
    s->knock_on.proven = false;
    s->knock_view.loadout = "race";
}

static void case_89(states *s)
{
    s->knock_on.found = false;
}

static void case_90(states *s)
{
    s->knock_on.pack_shrinks = true;
    s->knock_on.spends = 0.9;
}

static void case_91(states *s)
{
    s->knock_on.pack_shrinks = true;
    s->knock_on.spends = 1.2;
}

static void case_92(states *s)
{
    s->knock_on.pack_shrinks = true;
    s->knock_on.spends = 0.01;
}

static void case_93(states *s)
{
    s->then->figure[PARE_FLOWN_TIME].exists = false;
}

static void case_94(states *s)
{
    s->f->sheet->figure[PARE_FLOWN_TIME].exists = false;
}

static void case_95(states *s)
{
    s->knock_on.lighter = s->then;
    s->knock_on.after = s->f->sheet;
    s->then->figure[PARE_FLOWN_TIME].exists = false;
}

static void case_96(states *s)
{
    s->knock_view.loadout = "race";
}

static void case_97(states *s)
{
    s->knock_on.found = false;
}

static void case_98(states *s)
{
    s->knock_on.growth_known = false;
    s->knock_on.pack_shrinks = true;
    s->knock_on.spends = 0.5;
    s->then->figure[PARE_FLOWN_TIME].exists = false;
}

static void the_screen_says_what_is_found_and_how_well_it_is_proven(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_0,
         "weir-5: 600.0 g now, 585.0 g at best, 15.0 g less, proven\n\nto do, opened once, what is "
         "free first         g less      EUR\nOutside\n  cube=off                                  "
         "      5.0        0\n  joint.motor_base.count=8                        5.0        0\n  "
         "motor=mo-x                                      5.0       40\ntogether                   "
         "                      15.0       40  0 min\n\n                                           "
         "   ...\n\nwhat binds     nothing: each choice is its lightest\nproof          best "
         "585.0000 g = bound: no set of these parts is lighter\n\nAll of it on: pare take weir-5 "
         "cube=off,motor=mo-x,joint.motor_base.count=8\n"},
        {case_1, "weir-5: 600.0 g now, 585.0 g at best, 15.0 g less, not proven\nto do, opened "
                 "once, what is free first         g less    money\n  motor=mo-x                   "
                 "                   5.0        ?\ntogether                                        "
                 " 15.0        ?  0 min\nproof          stopped: best so far 585.0 g, none is "
                 "below 570.0 g, so at most\n               15.0 g are missing\n(16 lines)"},
        {case_2,
         "weir-5, loadout race: 600.0 g now, 585.0 g at best, 15.0 g less, not proven\n(14 lines)"},
        {case_3, "weir-5, loadout race (the heaviest; limits kept in all): 600.0 g now, 585.0 g "
                 "at\nbest, 15.0 g less, not proven\nproof          stopped: best so far 585.0 g, "
                 "none is below 585.0 g, so at most\n               0.0 g are missing; masses did "
                 "not add up, so nothing is proven:\n               please report it\n(18 lines)"},
        {case_4, "      off: cube_nuts; strap\n      brings nut: nu-1; lead; off: phase\nwith so "
                 "much back for what comes off                        12\n(18 lines)"},
        {case_5, "      nothing protects it\n               5 groups of frame, motors, propellers "
                 "and pack, 0 put together, 0\n               searched to the end, 0 sets judged "
                 "in full, in 0.5 s\n               4 groups cut by: all-up mass\nThe work, step "
                 "by step\n  Pack off.\n  outside: cut the strap\n  Spin each motor.\n(24 lines)"},
        {case_6, "what binds     all-up mass 441 g (at most 600); your minutes 3.1 min (at least\n "
                 "              4)\n(16 lines)"},
        {case_7, "what binds     not.on.any.sheet\n(15 lines)"},
        {case_8, "weir-5, for your minutes: 4 min now, 5 min at best, proven; 600.0 g now, 585.0 "
                 "g\nthen, 15.0 g less\nproof          no set of these parts has more than 5 min "
                 "(to 1 part in 100 000),\n               by 7 searches\n               of those "
                 "that are as good none is lighter: 585.0000 g = bound\n(18 lines)"},
        {case_9, "weir-5, for your minutes: 4 min now, 5 min at best, not proven; 600.0 g "
                 "now,\n610.0 g then, 10.0 g more\ntogether                                        "
                 "-10.0       40  0 min\nproof          not proven to be best: stopped; none has "
                 "more than 5.167 min\n               stopped: best so far 610.0 g, none is below "
                 "585.0 g, so at most\n               25.0 g are missing\n(18 lines)"},
        {case_10, "weir-5, for crash energy: 240 J now, 300 J at best, proven; 600.0 g now, 585.0 "
                  "g\nthen, 15.0 g less\nproof          crash energy grows with the mass alone: "
                  "the lightest set has the\n               least\n(17 lines)"},
        {case_11, "weir-5, 90 % sure: 600.0 g now, 585.0 g at best, 15.0 g less, proven\nhow sure  "
                  "     all limits together hold with 0.0 % at least by the linear model;\n        "
                  "       drawn and flown 2000 times, with 95.0 % (\xC2\xB1 0.5)\nits price      "
                  "90 % costs 5.0 g more than the set that just meets the limits,\n               "
                  "580.0 g\nproof          best 585.0000 g = bound: no set of these parts that is "
                  "as sure is\n               lighter\n(20 lines)"},
        {case_12, "weir-5: 600.0 g now, 600.0 g at best, 0.0 g less, proven\ntogether              "
                  "                            0.0       40  0 min\nproof          best 600.0000 g "
                  "= bound: no set of these parts is lighter\n(9 lines)"},
        {case_13, "weir-5: 600.0 g now\nNo set of these parts meets the brief. None of them goes "
                  "on the craft.\n(3 lines)"},
        {case_14,
         "weir-5: 600.0 g now\nStopped before any set was found that meets the brief.\n(3 lines)"},
        {case_15, "weir-5: 600.0 g now\nNo set of these parts meets the brief. No frame, motors, "
                  "propellers and pack\nthat are left fit together.\n(4 lines)"},
        {case_16, "weir-5: 600.0 g now\nNo set of these parts meets the brief.\n  9 times refused "
                  "by: your minutes\n(4 lines)"},
        {case_17, "weir-5, 90 % sure: 600.0 g now\nNo set of these parts meets the brief with 90 % "
                  "within 1.5 h of work. None of\nthem goes on the craft.\n(4 lines)"},
        {case_18, "weir-5: 600.0 g now\nNo set of these parts meets the brief. None of them goes "
                  "on the craft.\nWhat the brief would have to give way by\n  your minutes from 5 "
                  "to 4.16 min, alone: 590.0 g\n(6 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_ends);
}

static void what_limits_cost_is_said_by_limit(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_19, "what it costs  your minutes looser by 1 min: 12.0 g lighter, then what binds "
                  "is\n               all-up "
                  "mass\n{\"grams_won\":12,\"grams_won_proven\":true,\"loosened_by\":1,\"next\":"
                  "\"limit.all_up\",\"unit\":\"min\"}\n(3 lines)"},
        {case_20, "what it costs  your minutes looser by 1 min: at least 12.0 g "
                  "lighter\n{\"grams_won\":12,\"grams_won_proven\":false,\"loosened_by\":1,"
                  "\"next\":null,\"unit\":\"min\"}\n(2 lines)"},
        {case_21, "what it costs  nothing lighter, though any one of these were looser by ten "
                  "units\n               or per cent: your "
                  "minutes\n{\"grams_won\":0,\"grams_won_proven\":true,\"loosened_by\":1,\"next\":"
                  "\"limit.all_up\",\"unit\":\"min\"}\n(3 lines)"},
        {case_22, "what it costs  stopped before this was known: your "
                  "minutes\n{\"grams_won\":0,\"grams_won_proven\":false,\"loosened_by\":1,\"next\":"
                  "\"limit.all_up\",\"unit\":\"min\"}\n(2 lines)"},
        {case_23,
         "what it costs  your minutes looser by 1 min: 12.0 g lighter, then what binds is\n        "
         "       all-up mass\n               wire.lead looser by 10 %: 12.0 g lighter, then what "
         "binds is\n               all-up mass\n               nothing lighter, though any one of "
         "these were looser by ten units\n               or per cent: money in the craft\n         "
         "      stopped before this was known: least margin of all "
         "ratings\n{\"grams_won\":12,\"grams_won_proven\":true,\"loosened_by\":1,\"next\":\"limit."
         "all_up\",\"unit\":\"min\"}\n(8 lines)"},
        {case_24, "what it costs  nothing lighter, though any one of these were looser by ten "
                  "units\n               or per cent: your minutes; your minutes\n               "
                  "stopped before this was known: your "
                  "minutes\n{\"grams_won\":0,\"grams_won_proven\":false,\"loosened_by\":1,\"next\":"
                  "\"limit.all_up\",\"unit\":\"min\"}\n(4 lines)"},
        {case_25, "what it costs  least margin of all ratings looser by 0.1: 12.0 g lighter, "
                  "then\n               what binds is all-up "
                  "mass\n{\"grams_won\":12,\"grams_won_proven\":true,\"loosened_by\":0.1,\"next\":"
                  "\"limit.all_up\",\"unit\":\"\"}\n(3 lines)"},
        {case_26, "what it costs  limit.hover_output looser by 1 %: 12.0 g lighter, then what "
                  "binds\n               is all-up "
                  "mass\n{\"grams_won\":12,\"grams_won_proven\":true,\"loosened_by\":1,\"next\":"
                  "\"limit.all_up\",\"unit\":\"%\"}\n(3 lines)"},
        {case_27, "as usual"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_loosened);
}

static void what_must_give_way_is_said_by_limit(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_28,
         "\nWhat the brief would have to give way by\n  your minutes from 5 to 4.16 min, alone: "
         "590.0 "
         "g\n{\"alone\":[{\"best_g\":590,\"from\":5,\"helps\":true,\"least\":true,\"limit\":"
         "\"flown\",\"to\":4.16872,\"unit\":\"min\"}],\"pair\":[],\"stopped\":false}\n(4 lines)"},
        {case_29, "as usual"},
        {case_30,
         "\nWhat the brief would have to give way by\n  your minutes from 5 to 4.17 min, alone and "
         "perhaps less: 590.0 "
         "g\n{\"alone\":[{\"best_g\":590,\"from\":5,\"helps\":true,\"least\":false,\"limit\":"
         "\"flown\",\"to\":4.16872,\"unit\":\"min\"}],\"pair\":[],\"stopped\":false}\n(4 lines)"},
        {case_31, "\nWhat the brief would have to give way by\n  No one or two of its limits are "
                  "the reason: what refuses is what parts bear,\n    or that they do not fit "
                  "together.\n{\"alone\":[{\"best_g\":null,\"from\":5,\"helps\":false,\"least\":"
                  "true,\"limit\":\"flown\",\"to\":null,\"unit\":\"min\"}],\"pair\":[],\"stopped\":"
                  "false}\n(5 lines)"},
        {case_32,
         "\nWhat the brief would have to give way by\n  your minutes from 5 to 4.16 min, alone: "
         "590.0 g\n  Stopped before every limit was "
         "tried.\n{\"alone\":[{\"best_g\":590,\"from\":5,\"helps\":true,\"least\":true,\"limit\":"
         "\"flown\",\"to\":4.16872,\"unit\":\"min\"}],\"pair\":[],\"stopped\":true}\n(5 lines)"},
        {case_33,
         "\nWhat the brief would have to give way by\n  least margin of all ratings from 1.1 to "
         "0.9, alone: 590.0 "
         "g\n{\"alone\":[{\"best_g\":590,\"from\":1.1,\"helps\":true,\"least\":true,\"limit\":"
         "\"margin\",\"to\":0.9,\"unit\":\"\"}],\"pair\":[],\"stopped\":false}\n(4 lines)"},
        {case_34, "\nWhat the brief would have to give way by\n  your minutes from 5 to 4.16 min "
                  "together with hover output from 30 to 40 %:\n    590.0 "
                  "g\n{\"alone\":[{\"best_g\":null,\"from\":5,\"helps\":false,\"least\":true,"
                  "\"limit\":\"flown\",\"to\":null,\"unit\":\"min\"}],\"pair\":[{\"best_g\":590,"
                  "\"from\":5,\"helps\":true,\"least\":true,\"limit\":\"flown\",\"to\":4.16872,"
                  "\"unit\":\"min\"},{\"best_g\":590,\"from\":30,\"helps\":true,\"least\":true,"
                  "\"limit\":\"flown\",\"to\":40,\"unit\":\"%\"}],\"stopped\":false}\n(5 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_reliefs);
}

static void other_ways_and_how_far_the_best_stands(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_35, "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g "
                  "more, 40.00 EUR: without motor=mo-x\n  There are no more.\n\nHow far the best "
                  "one stands, as long as limits are kept\n  motor=mo-x until it is 5.00 g heavier "
                  "(1.25 each), then way 2\n  limits may be stricter: all-up mass from 600 to "
                  "440.85 g; thrust to weight,\n    half from 5.5 to 5.92; your minutes from 4 to "
                  "3.11 min; money in the craft\n    from 150 to "
                  "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_g\":5,\"way\":"
                  "2}],\"stricter\":[{\"from\":600,\"limit\":\"all_up\",\"to\":440.845,\"unit\":"
                  "\"g\"},{\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,"
                  "\"unit\":\"\"},{\"from\":4,\"limit\":\"flown\",\"to\":3.11179,\"unit\":\"min\"},"
                  "{\"from\":150,\"limit\":\"money\",\"to\":103.5,\"unit\":\"\"}],\"ways\":[{"
                  "\"best_g\":585,\"money\":40,\"try\":\"cube=off,motor=mo-x,joint.motor_base."
                  "count=8\",\"work_min\":0},{\"best_g\":590,\"money\":40,\"try\":\"cube=off\","
                  "\"work_min\":0}],\"ways_all\":true,\"ways_proven\":true}\n(11 lines)"},
        {case_36, "as usual"},
        {case_37,
         "\nOther ways, each with other parts than all before it\n  There is none.\n\nHow far the "
         "best one stands, as long as limits are kept\n  by more than 0.00 g: motor=mo-x\n  limits "
         "may be stricter: all-up mass from 600 to 440.85 g; thrust to weight,\n    half from 5.5 "
         "to 5.92; your minutes from 4 to 3.11 min; money in the craft\n    from 150 to "
         "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_g\":0,\"way\":null}],"
         "\"stricter\":[{\"from\":600,\"limit\":\"all_up\",\"to\":440.845,\"unit\":\"g\"},{"
         "\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,\"unit\":\"\"},{\"from\":"
         "4,\"limit\":\"flown\",\"to\":3.11179,\"unit\":\"min\"},{\"from\":150,\"limit\":\"money\","
         "\"to\":103.5,\"unit\":\"\"}],\"ways\":[{\"best_g\":585,\"money\":40,\"try\":\"cube=off,"
         "motor=mo-x,joint.motor_base.count=8\",\"work_min\":0}],\"ways_all\":true,\"ways_proven\":"
         "true}\n(10 lines)"},
        {case_38,
         "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g more, "
         "40.00 EUR: without motor=mo-x\n  3: 580.00 g, 5.00 g less, 40.00 EUR\n  There are no "
         "more.\n\nHow far the best one stands, as long as limits are kept\n  motor=mo-x until it "
         "is 5.00 g heavier (1.25 each), then way 2\n  limits may be stricter: all-up mass from "
         "600 to 440.85 g; thrust to weight,\n    half from 5.5 to 5.92; your minutes from 4 to "
         "3.11 min; money in the craft\n    from 150 to "
         "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_g\":5,\"way\":2}],"
         "\"stricter\":[{\"from\":600,\"limit\":\"all_up\",\"to\":440.845,\"unit\":\"g\"},{"
         "\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,\"unit\":\"\"},{\"from\":"
         "4,\"limit\":\"flown\",\"to\":3.11179,\"unit\":\"min\"},{\"from\":150,\"limit\":\"money\","
         "\"to\":103.5,\"unit\":\"\"}],\"ways\":[{\"best_g\":585,\"money\":40,\"try\":\"cube=off,"
         "motor=mo-x,joint.motor_base.count=8\",\"work_min\":0},{\"best_g\":590,\"money\":40,"
         "\"try\":\"cube=off\",\"work_min\":0},{\"best_g\":580,\"money\":40,\"try\":\"cube=off,"
         "motor=mo-x\",\"work_min\":0}],\"ways_all\":true,\"ways_proven\":true}\n(12 lines)"},
        {case_39,
         "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g more: "
         "without motor=mo-x\n  3: 580.00 g, 5.00 g less, 40.00\n\nHow far the best one stands, as "
         "long as limits are kept\n  motor=mo-x until it is 5.00 g heavier (1.25 each), then way "
         "2\n  limits may be stricter: all-up mass from 600 to 440.85 g; thrust to weight,\n    "
         "half from 5.5 to 5.92; your minutes from 4 to 3.11 min; money in the craft\n    from 150 "
         "to "
         "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_g\":5,\"way\":2}],"
         "\"stricter\":[{\"from\":600,\"limit\":\"all_up\",\"to\":440.845,\"unit\":\"g\"},{"
         "\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,\"unit\":\"\"},{\"from\":"
         "4,\"limit\":\"flown\",\"to\":3.11179,\"unit\":\"min\"},{\"from\":150,\"limit\":\"money\","
         "\"to\":103.5,\"unit\":\"\"}],\"ways\":[{\"best_g\":585,\"money\":40,\"try\":\"cube=off,"
         "motor=mo-x,joint.motor_base.count=8\",\"work_min\":0},{\"best_g\":590,\"money\":null,"
         "\"try\":\"cube=off\",\"work_min\":0},{\"best_g\":580,\"money\":40,\"try\":\"cube=off,"
         "motor=mo-x\",\"work_min\":0}],\"ways_all\":false,\"ways_proven\":true}\n(11 lines)"},
        {case_40,
         "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g more, "
         "40.00 EUR: without motor=mo-x\n  Stopped: these are not proven to be the next "
         "best.\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_g\":5,\"way\":2}],"
         "\"stricter\":[{\"from\":600,\"limit\":\"all_up\",\"to\":440.845,\"unit\":\"g\"},{"
         "\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,\"unit\":\"\"},{\"from\":"
         "4,\"limit\":\"flown\",\"to\":3.11179,\"unit\":\"min\"},{\"from\":150,\"limit\":\"money\","
         "\"to\":103.5,\"unit\":\"\"}],\"ways\":[{\"best_g\":585,\"money\":40,\"try\":\"cube=off,"
         "motor=mo-x,joint.motor_base.count=8\",\"work_min\":0},{\"best_g\":590,\"money\":40,"
         "\"try\":\"cube=off\",\"work_min\":0}],\"ways_all\":true,\"ways_proven\":false}\n(5 "
         "lines)"},
        {case_41,
         "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g more, "
         "40.00 EUR: without motor=mo-x\n  There are no more.\n\nHow far the best one stands, as "
         "long as limits are kept\n  motor=mo-x until it is 0.00 EUR dearer (0.00 each), then way "
         "2\n  limits may be stricter: all-up mass from 600 to 440.85 g; thrust to weight,\n    "
         "half from 5.5 to 5.92; your minutes from 4 to 3.11 min; money in the craft\n    from 150 "
         "to "
         "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_money\":0,\"way\":2}],"
         "\"stricter\":[{\"from\":600,\"limit\":\"all_up\",\"to\":440.845,\"unit\":\"g\"},{"
         "\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,\"unit\":\"\"},{\"from\":"
         "4,\"limit\":\"flown\",\"to\":3.11179,\"unit\":\"min\"},{\"from\":150,\"limit\":\"money\","
         "\"to\":103.5,\"unit\":\"\"}],\"ways\":[{\"best_g\":585,\"money\":40,\"try\":\"cube=off,"
         "motor=mo-x,joint.motor_base.count=8\",\"work_min\":0},{\"best_g\":590,\"money\":40,"
         "\"try\":\"cube=off\",\"work_min\":0}],\"ways_all\":true,\"ways_proven\":true}\n(11 "
         "lines)"},
        {case_42,
         "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g more, "
         "40.00: without motor=mo-x\n  There are no more.\n\nHow far the best one stands, as long "
         "as limits are kept\n  motor=mo-x until it is 0.00 of money dearer (0.00 each), then way "
         "2\n  limits may be stricter: all-up mass from 600 to 440.85 g; thrust to weight,\n    "
         "half from 5.5 to 5.92; your minutes from 4 to 3.11 min; money in the craft\n    from 150 "
         "to "
         "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_money\":0,\"way\":2}],"
         "\"stricter\":[{\"from\":600,\"limit\":\"all_up\",\"to\":440.845,\"unit\":\"g\"},{"
         "\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,\"unit\":\"\"},{\"from\":"
         "4,\"limit\":\"flown\",\"to\":3.11179,\"unit\":\"min\"},{\"from\":150,\"limit\":\"money\","
         "\"to\":103.5,\"unit\":\"\"}],\"ways\":[{\"best_g\":585,\"money\":40,\"try\":\"cube=off,"
         "motor=mo-x,joint.motor_base.count=8\",\"work_min\":0},{\"best_g\":590,\"money\":40,"
         "\"try\":\"cube=off\",\"work_min\":0}],\"ways_all\":true,\"ways_proven\":true}\n(11 "
         "lines)"},
        {case_43,
         "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g more, "
         "40.00 EUR: without motor=mo-x, pack=pa-x\n  There are no more.\n\nHow far the best one "
         "stands, as long as limits are kept\n  motor=mo-x until it is 5.00 g heavier (1.25 each), "
         "then way 2\n  pack=pa-x until it is 5.00 g heavier, then way 2\n  limits may be "
         "stricter: all-up mass from 600 to 440.85 g; thrust to weight,\n    half from 5.5 to "
         "5.92; your minutes from 4 to 3.11 min; money in the craft\n    from 150 to "
         "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_g\":5,\"way\":2},{"
         "\"id\":\"pack=pa-x\",\"pieces\":1,\"until_g\":5,\"way\":2}],\"stricter\":[{\"from\":600,"
         "\"limit\":\"all_up\",\"to\":440.845,\"unit\":\"g\"},{\"from\":5.5,\"limit\":\"thrust_to_"
         "weight_half\",\"to\":5.92942,\"unit\":\"\"},{\"from\":4,\"limit\":\"flown\",\"to\":3."
         "11179,\"unit\":\"min\"},{\"from\":150,\"limit\":\"money\",\"to\":103.5,\"unit\":\"\"}],"
         "\"ways\":[{\"best_g\":585,\"money\":40,\"try\":\"cube=off,motor=mo-x,pack=pa-x\",\"work_"
         "min\":0},{\"best_g\":590,\"money\":40,\"try\":\"cube=off\",\"work_min\":0}],\"ways_all\":"
         "true,\"ways_proven\":true}\n(12 lines)"},
        {case_44, "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g "
                  "more, 40.00 EUR: without motor=mo-x\n  There are no more.\n\nHow far the best "
                  "one stands, as long as limits are kept\n  motor=mo-x until it is 5.00 g heavier "
                  "(1.25 each), then way 2\n  limits may be stricter: all-up mass from 600 to "
                  "440.85 g; thrust to weight,\n    half from 5.5 to 5.92; your minutes from 4 to "
                  "3.11 min; money in the craft\n    from 150 to "
                  "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_g\":5,\"way\":"
                  "2}],\"stricter\":[{\"from\":600,\"limit\":\"all_up\",\"to\":440.845,\"unit\":"
                  "\"g\"},{\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,"
                  "\"unit\":\"\"},{\"from\":4,\"limit\":\"flown\",\"to\":3.11179,\"unit\":\"min\"},"
                  "{\"from\":150,\"limit\":\"money\",\"to\":103.5,\"unit\":\"\"}],\"ways\":[{"
                  "\"best_g\":585,\"money\":40,\"try\":\"cube=off,motor=mo-x,joint.motor_base."
                  "count=8\",\"work_min\":0},{\"best_g\":590,\"money\":40,\"try\":\"cube=off\","
                  "\"work_min\":0}],\"ways_all\":true,\"ways_proven\":true}\n(11 lines)"},
        {case_45,
         "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g more, "
         "40.00 EUR: without motor=mo-x\n  There are no more.\n\nHow far the best one stands, as "
         "long as limits are kept\n  motor=mo-x until it is 5.00 g heavier (1.25 each), then way "
         "2\n  limits may be stricter: thrust to weight, half from 5.5 to 5.92; money in the\n    "
         "craft from 150 to "
         "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_g\":5,\"way\":2}],"
         "\"stricter\":[{\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,\"unit\":"
         "\"\"},{\"from\":150,\"limit\":\"money\",\"to\":103.5,\"unit\":\"\"}],\"ways\":[{\"best_"
         "g\":585,\"money\":40,\"try\":\"cube=off,motor=mo-x,joint.motor_base.count=8\",\"work_"
         "min\":0},{\"best_g\":590,\"money\":40,\"try\":\"cube=off\",\"work_min\":0}],\"ways_all\":"
         "true,\"ways_proven\":true}\n(10 lines)"},
        {case_46,
         "\nOther ways, each with other parts than all before it\n  2: 590.00 g, 5.00 g more, "
         "40.00 EUR: without cube=off\n  There are no more.\n\nHow far the best one stands, as "
         "long as limits are kept\n  by more than 5.00 g: motor=mo-x\n  limits may be stricter: "
         "all-up mass from 600 to 440.85 g; thrust to weight,\n    half from 5.5 to 5.92; your "
         "minutes from 4 to 3.11 min; money in the craft\n    from 150 to "
         "103.50\n{\"stands\":[{\"id\":\"motor=mo-x\",\"pieces\":4,\"until_g\":5,\"way\":null}],"
         "\"stricter\":[{\"from\":600,\"limit\":\"all_up\",\"to\":440.845,\"unit\":\"g\"},{"
         "\"from\":5.5,\"limit\":\"thrust_to_weight_half\",\"to\":5.92942,\"unit\":\"\"},{\"from\":"
         "4,\"limit\":\"flown\",\"to\":3.11179,\"unit\":\"min\"},{\"from\":150,\"limit\":\"money\","
         "\"to\":103.5,\"unit\":\"\"}],\"ways\":[{\"best_g\":585,\"money\":40,\"try\":\"cube=off,"
         "motor=mo-x,joint.motor_base.count=8\",\"work_min\":0},{\"best_g\":590,\"money\":40,"
         "\"try\":\"motor=mo-x\",\"work_min\":0}],\"ways_all\":true,\"ways_proven\":true}\n(11 "
         "lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_ways);
}

static void another_wish_is_told_with_its_own_proof(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_47,
         ", for your minutes: 4 min now, 5 min at best, proven\nproof          no set of these "
         "parts has more than 5 min (to 1 part in 100 000),\n               by 7 "
         "searches\n{\"wish\":\"minutes\",\"wish_best\":5,\"wish_bound\":5.16667,\"wish_proven\":"
         "true,\"wish_searches\":7,\"wish_unit\":\"min\",\"wish_was\":4}\n(4 lines)"},
        {case_48, "as usual"},
        {case_49, "proof          no set of these parts has more than 5 min (to 1 part in 100 "
                  "000),\n               by 7 searches\n(4 lines)"},
        {case_50,
         ", for your minutes: 4 min now, 5 min at best, not proven\nproof          not proven to "
         "be best: stopped; none has more than 5.167 "
         "min\n{\"wish\":\"minutes\",\"wish_best\":5,\"wish_bound\":5.16667,\"wish_proven\":false,"
         "\"wish_searches\":7,\"wish_unit\":\"min\",\"wish_was\":4}\n(3 lines)"},
        {case_51,
         ", for your minutes: 4 min now, 5 min at best, not proven\nproof          not proven to "
         "be best: "
         "stopped\n{\"wish\":\"minutes\",\"wish_best\":5,\"wish_bound\":null,\"wish_proven\":false,"
         "\"wish_searches\":7,\"wish_unit\":\"min\",\"wish_was\":4}\n(3 lines)"},
        {case_52,
         ", for your minutes\nproof          what the wish asks for is not known of this "
         "set\n{\"wish\":\"minutes\",\"wish_best\":null,\"wish_bound\":null,\"wish_proven\":true,"
         "\"wish_searches\":7,\"wish_unit\":\"min\",\"wish_was\":null}\n(3 lines)"},
        {case_53,
         ", for an evening of 1.5 h work: 76 min needed, proven\nproof          best 585.0000 g = "
         "bound: no set of these parts that takes no more\n               work is lighter; minutes "
         "of work are common practice by kind of\n               part, openings of the craft "
         "counted once\n{\"wish\":\"evening\",\"wish_proven\":true,\"work_most_min\":90}\n(5 "
         "lines)"},
        {case_54,
         ", for an evening of 1.5 h work: 0 min needed, not "
         "proven\n{\"wish\":\"evening\",\"wish_proven\":false,\"work_most_min\":90}\n(2 lines)"},
        {case_55,
         ", for the least money: 300.00 EUR, proven\nproof          no set of these parts that "
         "meets the brief, its limit on all-up\n               mass with it, costs less than "
         "300.00 EUR, by 7 "
         "searches\n{\"wish\":\"money\",\"wish_best\":300,\"wish_bound\":310,\"wish_proven\":true,"
         "\"wish_searches\":7,\"wish_unit\":\"EUR\",\"wish_was\":240}\n(4 lines)"},
        {case_56,
         ", for the least money: 300.00, proven\nproof          no set of these parts that meets "
         "the brief, which has no limit on\n               all-up mass, costs less than 300.00, by "
         "7 "
         "searches\n{\"wish\":\"money\",\"wish_best\":300,\"wish_bound\":310,\"wish_proven\":true,"
         "\"wish_searches\":7,\"wish_unit\":null,\"wish_was\":240}\n(4 lines)"},
        {case_57, ", for the least money: 300.00 EUR, not proven\nproof          not proven to be "
                  "best: stopped; none costs less than 310.00 "
                  "EUR\n{\"wish\":\"money\",\"wish_best\":300,\"wish_bound\":310,\"wish_proven\":"
                  "false,\"wish_searches\":7,\"wish_unit\":\"EUR\",\"wish_was\":240}\n(3 lines)"},
        {case_58, ", for crash energy: 240 J now, 300 J at best, proven\nproof          crash "
                  "energy grows with the mass alone: the lightest set has the\n               "
                  "least\n{\"wish\":\"crash\",\"wish_best\":300,\"wish_bound\":310,\"wish_proven\":"
                  "true,\"wish_searches\":7,\"wish_unit\":\"J\",\"wish_was\":240}\n(4 lines)"},
        {case_59,
         ", for thrust to weight, half: 240 now, 300 at best, proven\nproof          no set of "
         "these parts has more than 300 (to 1 part in 100 000),\n               by 7 "
         "searches\n{\"wish\":\"thrust\",\"wish_best\":300,\"wish_bound\":310,\"wish_proven\":true,"
         "\"wish_searches\":7,\"wish_unit\":\"\",\"wish_was\":240}\n(4 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_wish);
}

static void how_sure_a_set_is(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_60,
         "how sure       all limits together hold with 0.0 % at least by the linear model;\n       "
         "        drawn and flown 2000 times, with 95.0 % (\xC2\xB1 0.5)\nits price      90 % "
         "costs 5.0 g more than the set that just meets the limits,\n               580.0 "
         "g\n{\"sure\":{\"asked\":0.9,\"chance\":0,\"drawn\":0.95,\"drawn_u\":0.005,\"draws\":2000,"
         "\"just_g\":580,\"just_proven\":true,\"limits\":[],\"price_g\":5}}\n(5 lines)"},
        {case_61, "as usual"},
        {case_62, "how sure       all limits together hold with 0.0 % at least by the linear "
                  "model;\n               drawn and flown 2000 times, with 95.0 % (\xC2\xB1 "
                  "0.5)\n{\"sure\":{\"asked\":0.9,\"chance\":0,\"drawn\":0.95,\"drawn_u\":0.005,"
                  "\"draws\":2000,\"limits\":[]}}\n(3 lines)"},
        {case_63, "how sure       all limits together hold with 0.0 % at least by the linear "
                  "model;\n               drawn and flown 2000 times, with 95.0 % (\xC2\xB1 "
                  "0.5)\nits price      90 % costs 5.0 g more than the set that just meets the "
                  "limits,\n               580.0 g, as far as both were "
                  "searched\n{\"sure\":{\"asked\":0.9,\"chance\":0,\"drawn\":0.95,\"drawn_u\":0."
                  "005,\"draws\":2000,\"just_g\":580,\"just_proven\":false,\"limits\":[],\"price_"
                  "g\":5}}\n(5 lines)"},
        {case_64, "how sure       all limits together hold with 0.0 % at least by the linear "
                  "model;\n               drawn and flown 2000 times, with 95.0 % (\xC2\xB1 "
                  "0.5)\nits price      90 % costs 5.0 g more than the set that just meets the "
                  "limits,\n               580.0 g, as far as both were "
                  "searched\n{\"sure\":{\"asked\":0.9,\"chance\":0,\"drawn\":0.95,\"drawn_u\":0."
                  "005,\"draws\":2000,\"just_g\":580,\"just_proven\":true,\"limits\":[],\"price_"
                  "g\":5}}\n(5 lines)"},
        {case_65,
         "how sure       all limits together hold with 0.0 % at least by the linear model;\n       "
         "        drawn and flown 2000 times, with over 99.9 % (\xC2\xB1 0.5)\nits price      90 % "
         "costs 5.0 g more than the set that just meets the limits,\n               580.0 "
         "g\n{\"sure\":{\"asked\":0.9,\"chance\":0,\"drawn\":0.99999,\"drawn_u\":0.005,\"draws\":"
         "2000,\"just_g\":580,\"just_proven\":true,\"limits\":[],\"price_g\":5}}\n(5 lines)"},
        {case_66,
         "how sure       all limits together hold with 0.0 % at least by the linear model;\n       "
         "        drawn and flown 2000 times, with 100.0 % (\xC2\xB1 0.5)\nits price      90 % "
         "costs 5.0 g more than the set that just meets the limits,\n               580.0 "
         "g\n{\"sure\":{\"asked\":0.9,\"chance\":0,\"drawn\":1,\"drawn_u\":0.005,\"draws\":2000,"
         "\"just_g\":580,\"just_proven\":true,\"limits\":[],\"price_g\":5}}\n(5 lines)"},
        {case_67,
         "how sure       all limits together hold with 0.0 % at least by the linear model;\n       "
         "        drawn and flown 2000 times, with 70.0 % (\xC2\xB1 0.5), less than 90 %:\n        "
         "       flights do not bend as the linear model does\nits price      90 % costs 5.0 g "
         "more than the set that just meets the limits,\n               580.0 "
         "g\n{\"sure\":{\"asked\":0.9,\"chance\":0,\"drawn\":0.7,\"drawn_u\":0.005,\"draws\":2000,"
         "\"just_g\":580,\"just_proven\":true,\"limits\":[],\"price_g\":5}}\n(6 lines)"},
        {case_68, "how sure       all limits together hold with 0.0 % at least by the linear "
                  "model;\n               drawn and flown 2000 times, with 95.0 % (\xC2\xB1 0.5)\n "
                  "              all-up mass 97.0 %, drawn 100.0 %; your minutes over 99.9 %,\n    "
                  "           drawn 0.0 %\nits price      90 % costs 5.0 g more than the set that "
                  "just meets the limits,\n               580.0 "
                  "g\n{\"sure\":{\"asked\":0.9,\"chance\":0,\"drawn\":0.95,\"drawn_u\":0.005,"
                  "\"draws\":2000,\"just_g\":580,\"just_proven\":true,\"limits\":[{\"chance\":0.97,"
                  "\"drawn\":1,\"name\":\"limit.all_up\"},{\"chance\":0.9999,\"drawn\":0,\"name\":"
                  "\"limit.flown\"}],\"price_g\":5}}\n(7 lines)"},
        {case_69, "how sure       all limits together hold with 0.0 % at least by the linear "
                  "model;\n               drawn and flown 2000 times, with 95.0 % (\xC2\xB1 "
                  "0.5)\n{\"sure\":{\"asked\":0.9}}\n(3 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_sure);
}

static void parts_that_nobody_sells_are_told_apart(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_70, "\nNot proven: rests on parts nobody sells yet\n  580.0 g, 5.0 g below the best, "
                  "would be had by looking "
                  "for:\n{\"sought\":{\"best_g\":580,\"look_for\":[],\"proven\":false,\"try\":"
                  "\"cube=off,motor=mo-x\"}}\n(4 lines)"},
        {case_71, "\nNot proven: rests on parts nobody sells yet\n  No such part makes anything "
                  "lighter.\n{\"sought\":null}\n(4 lines)"},
        {case_72, "\nNot proven: rests on parts nobody sells yet\n  Stopped before anything "
                  "lighter was found.\n{\"sought\":null}\n(4 lines)"},
        {case_73, "\nNot proven: rests on parts nobody sells yet\n  580.0 g, 5.0 g below the best, "
                  "would be had by looking for:\n    motor=sought-29g: of 29 g; kv "
                  "1800\n{\"sought\":{\"best_g\":580,\"look_for\":[\"motor=sought-29g\"],"
                  "\"proven\":false,\"try\":\"cube=off,motor=sought-29g\"}}\n(5 lines)"},
        {case_74, "as usual"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_sought);
}

static void the_order_in_which_to_buy(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_75,
         "weir-5: from 600.0 g to 585.0 g (proven the lightest) in 2 steps\n\n       g less      "
         "EUR  then, g    spent\n   1      5.0    20.00    595.0    20.00  cube=off\n   2      5.0 "
         "   20.00    590.0    40.00  motor=mo-x\n\nEvery step flies, keeps its jobs and breaks no "
         "limit that holds now; money is as\nthings are sold, in bags and metres. No other order "
         "wastes fewer grams times\nmoney.\n"},
        {case_76, "--- up to here for 25.00: 5.0 g less, 20.00 spent ---\n(10 lines)"},
        {case_77, "--- up to here for 25.00: 0.0 g less, 0.00 spent ---\n(10 lines)"},
        {case_78, "--- up to here for 25.00: 10.0 g less, 40.00 spent, and that is all of it "
                  "---\n(10 lines)"},
        {case_79,
         "weir-5, loadout race: from 600.0 g to 585.0 g (proven the lightest) in 2 steps\n       g "
         "less    money  then, g    spent\n   1      5.0        ?    595.0    20.00  "
         "cube=off\nthings are sold, in bags and metres. With so many swaps the order is by "
         "rule:\nfree first, then the most grams for the money.\n(9 lines)"},
        {case_80,
         "weir-5: from 600.0 g to 585.0 g (not proven the lightest) in 2 steps\nthings are sold, "
         "in bags and metres. Stopped: what was not put in order is the\nlast step.\n(9 lines)"},
        {case_81, "weir-5: from 600.0 g to 585.0 g (proven the lightest) in 0 steps\n(1 lines)"},
        {case_82, "weir-5: from 600.0 g to 585.0 g (proven the lightest) in 1 step\n   1      5.0  "
                  "  20.00    595.0    20.00  cube=off, joint.motor_base.count=8\n(8 lines)"},
        {case_83, "weir-5: no set does what the brief asks\n(1 lines)"},
        {case_84, "weir-5: stopped before any set was found that meets the brief\n(1 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_walk);
}

static void the_order_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_85, "{\"best_g\":585,\"budget\":25,\"craft\":\"weir-5\",\"exact\":true,\"found\":"
                  "true,\"loadout\":\"race\",\"now_steps\":1,\"proven\":true,\"steps\":[{\"all_up_"
                  "g\":595,\"grams\":5,\"money\":null,\"now\":true,\"spent\":20,\"swaps\":[\"cube="
                  "off\"]},{\"all_up_g\":590,\"grams\":5,\"money\":20,\"now\":false,\"spent\":40,"
                  "\"swaps\":[\"motor=mo-x\"]}],\"stopped\":false,\"was_g\":600}\n(1 lines)"},
        {case_86, "{\"best_g\":null,\"budget\":null,\"craft\":\"weir-5\",\"exact\":true,\"found\":"
                  "false,\"loadout\":null,\"now_steps\":1,\"proven\":true,\"steps\":[],\"stopped\":"
                  "false,\"was_g\":600}\n(1 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_walk_json);
}

static void what_follows_saved_grams(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_87,
         "weir-5: what follows 20.0 g saved elsewhere, in motors, propellers, pack, ESCs\nand lead "
         "that can be bought; all else stays, minutes and thrust to weight are no\nless than "
         "now\n\n   saved, g follows, g by laws, g  from there on, g\n        0.0        0.0       "
         " 0.0  what carries it could shed 0.0 g with nothing\n                                   "
         "saved\n       10.0        5.0        4.0  motor=mo-x -5.0, lead +1.0\n\n20.0 g saved end "
         "as 25.0 g, and by the scaling laws, were there motors and packs\nof every size, as 28.0 "
         "g; each step is proven.\nYour minutes: 3.11 with nothing saved, 3.11 with it, 3.11 after "
         "what follows.\n"},
        {case_88,
         "weir-5, loadout race: what follows 20.0 g saved elsewhere, in motors,\npropellers, pack, "
         "ESCs and lead that can be bought; all else stays, minutes and\nthrust to weight are no "
         "less than now\n        0.0        0.0          ?  what carries it could shed 0.0 g with "
         "nothing\n       10.0        5.0          ?  motor=mo-x -5.0, lead +1.0\n20.0 g saved end "
         "as 25.0 g, and the scaling laws say nothing here; not proven,\nor stopped.\n(12 lines)"},
        {case_89, "No motors, propellers, pack, ESCs and lead that there are carry it as the "
                  "brief\nasks.\n(6 lines)"},
        {case_90, "Mind: the smaller pack spends 90 % of the minutes that the saved grams won; "
                  "hold\nit (--hold pack) to keep them.\n(14 lines)"},
        {case_91, "Mind: the smaller pack spends all the minutes that the saved grams won; hold "
                  "it\n(--hold pack) to keep them.\n(14 lines)"},
        {case_92, "as usual"},
        {case_93, "(11 lines)"},
        {case_94, "(11 lines)"},
        {case_95, "(11 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_knock_on);
}

static void what_follows_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_96,
         "{\"craft\":\"weir-5\",\"estimate_g\":8,\"follows_g\":5,\"found\":true,\"growth\":1.4,"
         "\"loadout\":\"race\",\"minutes\":{\"after\":3.11179,\"before\":3.11179,\"lighter\":3."
         "11179},\"proven\":true,\"saved_g\":20,\"sheds_g\":0,\"spends\":0,\"steps\":[{\"estimate_"
         "g\":0,\"follows_g\":0,\"parts\":[],\"saved_g\":0},{\"estimate_g\":4,\"follows_g\":5,"
         "\"parts\":[{\"grams\":5,\"name\":\"motor\",\"to\":\"mo-x\"},{\"grams\":-1,\"name\":"
         "\"lead\",\"to\":null}],\"saved_g\":10}]}\n(1 lines)"},
        {case_97,
         "{\"craft\":\"weir-5\",\"found\":false,\"loadout\":null,\"proven\":true,\"saved_g\":20,"
         "\"steps\":[{\"estimate_g\":0,\"follows_g\":0,\"parts\":[],\"saved_g\":0},{\"estimate_g\":"
         "4,\"follows_g\":5,\"parts\":[{\"grams\":5,\"name\":\"motor\",\"to\":\"mo-x\"},{\"grams\":"
         "-1,\"name\":\"lead\",\"to\":null}],\"saved_g\":10}]}\n(1 lines)"},
        {case_98,
         "{\"craft\":\"weir-5\",\"estimate_g\":null,\"follows_g\":5,\"found\":true,\"growth\":null,"
         "\"loadout\":null,\"minutes\":{\"after\":null,\"before\":3.11179,\"lighter\":3.11179},"
         "\"proven\":true,\"saved_g\":20,\"sheds_g\":0,\"spends\":0.5,\"steps\":[{\"estimate_g\":"
         "null,\"follows_g\":0,\"parts\":[],\"saved_g\":0},{\"estimate_g\":null,\"follows_g\":5,"
         "\"parts\":[{\"grams\":5,\"name\":\"motor\",\"to\":\"mo-x\"},{\"grams\":-1,\"name\":"
         "\"lead\",\"to\":null}],\"saved_g\":10}]}\n(1 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_knock_on_json);
}

static void say_whole_json(const states *s, pare_text *out)
{
    json_t *object = pare_best_object(&s->view);
    json_object_del(object, "before"); /* the sheets are another test's */
    json_object_del(object, "after");
    put_json(object, out);
}

static void say_whole(const states *s, pare_text *out)
{
    pare_best_text(&s->view, &s->screen, out);
}

static void whole_0(states *s)
{
    s->best.priced = false;
    s->swap[0].applied.priced = false;
}

static void whole_1(states *s)
{
    s->view.every = true;
}

static void whole_2(states *s)
{
    s->view.loadout = "race";
}

static void whole_3(states *s)
{
    s->best.found = false;
}

static void whole_4(states *s)
{
    s->best.back = 12;
}

static void whole_5(states *s)
{
    s->best.stopped = true;
    s->best.proven = false;
}

static void whole_6(states *s)
{
    s->view.money = NULL;
}

static void whole_7(states *s)
{
    s->view.reliefs = &s->reliefs;
}

static void whole_8(states *s)
{
    s->best.binds = 1;
    strcpy(s->best.bind[0].name, "limit.flown");
}

static void order_0(states *s)
{
    s->best.proven = false;
}

static void order_1(states *s)
{
    s->walk.stopped = true;
    s->walk.exact = false;
}

static void order_2(states *s)
{
    s->best.found = false;
}

static void follows_0(states *s)
{
    s->knock_on.proven = false;
}

static void end_0(states *s)
{
    s->best.found = false;
    s->best.binds = 0;
}

static void end_1(states *s)
{
    s->then->figure[PARE_CRASH].exists = false;
}

static void end_2(states *s)
{
    s->best.found = false;
    s->view.wished = &s->wished;
}

static void end_3(states *s)
{
    s->best.found = false;
    s->best.proven = false;
    s->best.bound_100ug = INT64_MAX;
}

static void a_best_set_as_json_says_each_state(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {whole_0,
         "{\"best_g\":585,\"binds\":[],\"bound_g\":585,\"craft\":\"weir-5\",\"cuts\":[],\"dived\":"
         "0,\"found\":true,\"groups\":5,\"loadout\":null,\"money\":null,\"money_unit\":\"EUR\","
         "\"opened\":0,\"proven\":true,\"search_s\":0,\"sets\":0,\"stopped\":false,\"swaps\":[{"
         "\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"cube=off\",\"money\":null,"
         "\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],"
         "\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"motor=mo-x\",\"money\":40,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],\"drops\":[],\"from\":"
         "\"\",\"grams\":5,\"id\":\"joint.motor_base.count=8\",\"money\":0,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0}],\"try\":\"cube=off,motor=mo-x,joint."
         "motor_base.count=8\",\"unlearned\":false,\"was_g\":600,\"wish\":\"grams\",\"work_min\":0}"
         "\n(1 lines)"},
        {whole_1,
         "{\"best_g\":585,\"binds\":[],\"bound_g\":585,\"craft\":\"weir-5\",\"cuts\":[],\"dived\":"
         "0,\"every_loadout\":true,\"found\":true,\"groups\":5,\"loadout\":null,\"money\":40,"
         "\"money_unit\":\"EUR\",\"opened\":0,\"proven\":true,\"search_s\":0,\"sets\":0,"
         "\"stopped\":false,\"swaps\":[{\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,"
         "\"id\":\"cube=off\",\"money\":0,\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_"
         "min\":0},{\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"motor=mo-x\","
         "\"money\":40,\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{"
         "\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"joint.motor_base.count=8\","
         "\"money\":0,\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_min\":0}],\"try\":"
         "\"cube=off,motor=mo-x,joint.motor_base.count=8\",\"unlearned\":false,\"was_g\":600,"
         "\"wish\":\"grams\",\"work_min\":0}\n(1 lines)"},
        {whole_2,
         "{\"best_g\":585,\"binds\":[],\"bound_g\":585,\"craft\":\"weir-5\",\"cuts\":[],\"dived\":"
         "0,\"found\":true,\"groups\":5,\"loadout\":\"race\",\"money\":40,\"money_unit\":\"EUR\","
         "\"opened\":0,\"proven\":true,\"search_s\":0,\"sets\":0,\"stopped\":false,\"swaps\":[{"
         "\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"cube=off\",\"money\":0,"
         "\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],"
         "\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"motor=mo-x\",\"money\":40,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],\"drops\":[],\"from\":"
         "\"\",\"grams\":5,\"id\":\"joint.motor_base.count=8\",\"money\":0,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0}],\"try\":\"cube=off,motor=mo-x,joint."
         "motor_base.count=8\",\"unlearned\":false,\"was_g\":600,\"wish\":\"grams\",\"work_min\":0}"
         "\n(1 lines)"},
        {whole_3,
         "{\"best_g\":null,\"binds\":[],\"bound_g\":585,\"craft\":\"weir-5\",\"cuts\":[],\"dived\":"
         "0,\"found\":false,\"groups\":5,\"loadout\":null,\"money\":null,\"money_unit\":\"EUR\","
         "\"opened\":0,\"proven\":true,\"search_s\":0,\"sets\":0,\"stopped\":false,\"swaps\":[{"
         "\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"cube=off\",\"money\":0,"
         "\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],"
         "\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"motor=mo-x\",\"money\":40,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],\"drops\":[],\"from\":"
         "\"\",\"grams\":5,\"id\":\"joint.motor_base.count=8\",\"money\":0,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0}],\"try\":null,\"unlearned\":false,"
         "\"was_g\":600,\"wish\":\"grams\",\"work_min\":null}\n(1 lines)"},
        {whole_4,
         "{\"best_g\":585,\"binds\":[],\"bound_g\":585,\"craft\":\"weir-5\",\"cuts\":[],\"dived\":"
         "0,\"found\":true,\"groups\":5,\"loadout\":null,\"money\":40,\"money_back\":12,\"money_"
         "unit\":\"EUR\",\"opened\":0,\"proven\":true,\"search_s\":0,\"sets\":0,\"stopped\":false,"
         "\"swaps\":[{\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"cube=off\","
         "\"money\":0,\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":"
         "[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"motor=mo-x\",\"money\":40,\"notes\":[]"
         ",\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],\"drops\":[],"
         "\"from\":\"\",\"grams\":5,\"id\":\"joint.motor_base.count=8\",\"money\":0,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0}],\"try\":\"cube=off,motor=mo-x,joint."
         "motor_base.count=8\",\"unlearned\":false,\"was_g\":600,\"wish\":\"grams\",\"work_min\":0}"
         "\n(1 lines)"},
        {whole_5,
         "{\"best_g\":585,\"binds\":[],\"bound_g\":585,\"craft\":\"weir-5\",\"cuts\":[],\"dived\":"
         "0,\"found\":true,\"groups\":5,\"loadout\":null,\"money\":40,\"money_unit\":\"EUR\","
         "\"opened\":0,\"proven\":false,\"search_s\":0,\"sets\":0,\"stopped\":true,\"swaps\":[{"
         "\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"cube=off\",\"money\":0,"
         "\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],"
         "\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"motor=mo-x\",\"money\":40,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],\"drops\":[],\"from\":"
         "\"\",\"grams\":5,\"id\":\"joint.motor_base.count=8\",\"money\":0,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0}],\"try\":\"cube=off,motor=mo-x,joint."
         "motor_base.count=8\",\"unlearned\":false,\"was_g\":600,\"wish\":\"grams\",\"work_min\":0}"
         "\n(1 lines)"},
        {whole_6,
         "{\"best_g\":585,\"binds\":[],\"bound_g\":585,\"craft\":\"weir-5\",\"cuts\":[],\"dived\":"
         "0,\"found\":true,\"groups\":5,\"loadout\":null,\"money\":40,\"money_unit\":null,"
         "\"opened\":0,\"proven\":true,\"search_s\":0,\"sets\":0,\"stopped\":false,\"swaps\":[{"
         "\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"cube=off\",\"money\":0,"
         "\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],"
         "\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"motor=mo-x\",\"money\":40,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],\"drops\":[],\"from\":"
         "\"\",\"grams\":5,\"id\":\"joint.motor_base.count=8\",\"money\":0,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0}],\"try\":\"cube=off,motor=mo-x,joint."
         "motor_base.count=8\",\"unlearned\":false,\"was_g\":600,\"wish\":\"grams\",\"work_min\":0}"
         "\n(1 lines)"},
        {whole_7,
         "{\"best_g\":585,\"binds\":[],\"bound_g\":585,\"craft\":\"weir-5\",\"cuts\":[],\"dived\":"
         "0,\"found\":true,\"give_way\":{\"alone\":[{\"best_g\":590,\"from\":5,\"helps\":true,"
         "\"least\":true,\"limit\":\"flown\",\"to\":4.16872,\"unit\":\"min\"}],\"pair\":[],"
         "\"stopped\":false},\"groups\":5,\"loadout\":null,\"money\":40,\"money_unit\":\"EUR\","
         "\"opened\":0,\"proven\":true,\"search_s\":0,\"sets\":0,\"stopped\":false,\"swaps\":[{"
         "\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"cube=off\",\"money\":0,"
         "\"notes\":[],\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],"
         "\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"motor=mo-x\",\"money\":40,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],\"drops\":[],\"from\":"
         "\"\",\"grams\":5,\"id\":\"joint.motor_base.count=8\",\"money\":0,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0}],\"try\":\"cube=off,motor=mo-x,joint."
         "motor_base.count=8\",\"unlearned\":false,\"was_g\":600,\"wish\":\"grams\",\"work_min\":0}"
         "\n(1 lines)"},
        {whole_8,
         "{\"best_g\":585,\"binds\":[{\"limit\":4,\"name\":\"limit.flown\",\"ratio\":0.777947,"
         "\"refused\":0,\"value\":3.11179,\"words\":\"your "
         "minutes\"}],\"bound_g\":585,\"craft\":\"weir-5\",\"cuts\":[],\"dived\":0,\"found\":true,"
         "\"groups\":5,\"loadout\":null,\"money\":40,\"money_unit\":\"EUR\",\"opened\":0,"
         "\"proven\":true,\"search_s\":0,\"sets\":0,\"stopped\":false,\"swaps\":[{\"brings\":[],"
         "\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":\"cube=off\",\"money\":0,\"notes\":[],"
         "\"opening\":\"outside\",\"to\":\"\",\"work_min\":0},{\"brings\":[],\"drops\":[],\"from\":"
         "\"\",\"grams\":5,\"id\":\"motor=mo-x\",\"money\":40,\"notes\":[],\"opening\":\"outside\","
         "\"to\":\"\",\"work_min\":0},{\"brings\":[],\"drops\":[],\"from\":\"\",\"grams\":5,\"id\":"
         "\"joint.motor_base.count=8\",\"money\":0,\"notes\":[],\"opening\":\"outside\",\"to\":"
         "\"\",\"work_min\":0}],\"try\":\"cube=off,motor=mo-x,joint.motor_base.count=8\","
         "\"unlearned\":false,\"was_g\":600,\"wish\":\"grams\",\"work_min\":0}\n(1 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_whole_json);
}

static void an_order_as_json_says_each_state(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {order_0, "{\"best_g\":585,\"budget\":null,\"craft\":\"weir-5\",\"exact\":true,\"found\":"
                  "true,\"loadout\":null,\"now_steps\":1,\"proven\":false,\"steps\":[{\"all_up_g\":"
                  "595,\"grams\":5,\"money\":20,\"now\":true,\"spent\":20,\"swaps\":[\"cube=off\"]}"
                  ",{\"all_up_g\":590,\"grams\":5,\"money\":20,\"now\":false,\"spent\":40,"
                  "\"swaps\":[\"motor=mo-x\"]}],\"stopped\":false,\"was_g\":600}\n(1 lines)"},
        {order_1, "{\"best_g\":585,\"budget\":null,\"craft\":\"weir-5\",\"exact\":false,\"found\":"
                  "true,\"loadout\":null,\"now_steps\":1,\"proven\":true,\"steps\":[{\"all_up_g\":"
                  "595,\"grams\":5,\"money\":20,\"now\":true,\"spent\":20,\"swaps\":[\"cube=off\"]}"
                  ",{\"all_up_g\":590,\"grams\":5,\"money\":20,\"now\":false,\"spent\":40,"
                  "\"swaps\":[\"motor=mo-x\"]}],\"stopped\":true,\"was_g\":600}\n(1 lines)"},
        {order_2, "{\"best_g\":null,\"budget\":null,\"craft\":\"weir-5\",\"exact\":true,\"found\":"
                  "false,\"loadout\":null,\"now_steps\":1,\"proven\":true,\"steps\":[{\"all_up_g\":"
                  "595,\"grams\":5,\"money\":20,\"now\":true,\"spent\":20,\"swaps\":[\"cube=off\"]}"
                  ",{\"all_up_g\":590,\"grams\":5,\"money\":20,\"now\":false,\"spent\":40,"
                  "\"swaps\":[\"motor=mo-x\"]}],\"stopped\":false,\"was_g\":600}\n(1 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_walk_json);
}

static void what_follows_as_json_says_whether_it_is_proven(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {follows_0,
         "{\"craft\":\"weir-5\",\"estimate_g\":8,\"follows_g\":5,\"found\":true,\"growth\":1.4,"
         "\"loadout\":null,\"minutes\":{\"after\":3.11179,\"before\":3.11179,\"lighter\":3.11179},"
         "\"proven\":false,\"saved_g\":20,\"sheds_g\":0,\"spends\":0,\"steps\":[{\"estimate_g\":0,"
         "\"follows_g\":0,\"parts\":[],\"saved_g\":0},{\"estimate_g\":4,\"follows_g\":5,\"parts\":["
         "{\"grams\":5,\"name\":\"motor\",\"to\":\"mo-x\"},{\"grams\":-1,\"name\":\"lead\",\"to\":"
         "null}],\"saved_g\":10}]}\n(1 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_knock_on_json);
}

static void a_best_set_as_text_says_each_state(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {end_0, "weir-5: 600.0 g now\nNo set of these parts meets the brief. None of them goes on "
                "the craft.\n(3 lines)"},
        {end_1, "crash energy, J                       31.7 +- 0.3              -\n(26 lines)"},
        {end_2, "weir-5, for your minutes: 4 min now, 5 min at best, proven; 600.0 g now\nNo set "
                "of these parts meets the brief. None of them goes on the craft.\n(3 lines)"},
        {end_3,
         "weir-5: 600.0 g now\nStopped before any set was found that meets the brief.\n(3 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_whole);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_best_set_as_json_says_each_state),
        cmocka_unit_test(an_order_as_json_says_each_state),
        cmocka_unit_test(what_follows_as_json_says_whether_it_is_proven),
        cmocka_unit_test(a_best_set_as_text_says_each_state),
        cmocka_unit_test(the_screen_says_what_is_found_and_how_well_it_is_proven),
        cmocka_unit_test(what_limits_cost_is_said_by_limit),
        cmocka_unit_test(what_must_give_way_is_said_by_limit),
        cmocka_unit_test(other_ways_and_how_far_the_best_stands),
        cmocka_unit_test(another_wish_is_told_with_its_own_proof),
        cmocka_unit_test(how_sure_a_set_is),
        cmocka_unit_test(parts_that_nobody_sells_are_told_apart),
        cmocka_unit_test(the_order_in_which_to_buy),
        cmocka_unit_test(the_order_may_be_json),
        cmocka_unit_test(what_follows_saved_grams),
        cmocka_unit_test(what_follows_may_be_json),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
