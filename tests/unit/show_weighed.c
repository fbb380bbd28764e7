/* rooms: show store advise craft physics base */
/* What is said of a craft on the scale, of what changed between two days and of craft side by side, in each state
 * that these can be in. The truth is what the numbers put in here say. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "changed_lines.h"
#include "craft_fixture.h"
#include "near.h"
#include "show/between.h"
#include "show/compare.h"
#include "show/weigh.h"

typedef struct states {
    fixture *f;
    pare_weigh_view view;
    pare_closure closure;
    pare_unknown unknown[1];
    double value[1], u[1];
    const char *unused[12];
    pare_weighings weighings;
    pare_weigh_in weigh_in[12];
    pare_weighed_thing thing[2];
    pare_weigh_pack pack[1];
    pare_weigh_line line[2];
    pare_weigh_choice choice[2];
    pare_part part, second;
    bool all;
    pare_between between;
    pare_craft *was, *is;
    pare_between_entry entry[3];
    const pare_weigh_in *read[1];
    pare_taught taught, taught_before;
    pare_compared column[4];
    pare_sheet *other;
    size_t columns;
    pare_screen screen;
} states;

static void close_states(states *s)
{
    void *state = s->f;
    free(s->was);
    free(s->is);
    free(s->other);
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
    s->second = *s->f->craft->item[pare_craft_item(s->f->craft, "motor")].part;
    s->part.owned = 1;
    s->thing[0] = (pare_weighed_thing){.name = "motor", .count = 4};
    s->thing[1] = (pare_weighed_thing){.name = "cube", .count = 1};
    for (size_t i = 0; i < 12; i++)
        s->weigh_in[i] = (pare_weigh_in){.craft = "weir-5",
                                         .date = "2026-04-12",
                                         .all = true,
                                         .reads = "471 g",
                                         .reads_kg = 0.471,
                                         .step_kg = 0.001};
    s->weighings = (pare_weighings){.count = 2, .weigh_in = s->weigh_in};
    s->weigh_in[1].all = false;
    s->weigh_in[1].things = 2;
    s->weigh_in[1].thing = s->thing;
    s->closure = (pare_closure){
        .of.weighings = &s->weighings, .unknown = s->unknown, .unused = s->unused, .bound = 3};
    s->closure.adjusted = (pare_adjusted){.value = s->value, .u = s->u};
    s->unknown[0] =
        (pare_unknown){.name = "cu-w", .known = PARE_STATED, .prior = 0.01, .prior_u = 0.001};
    s->value[0] = 0.012;
    s->u[0] = 0.0002;
    s->view = (pare_weigh_view){.craft = s->f->craft,
                                .loadout = -1,
                                .closure = &s->closure,
                                .limit_kg = 0.6,
                                .loadouts = 1,
                                .pack = s->pack,
                                .line = s->line,
                                .forgotten = 0,
                                .forgotten_kg = 0.013,
                                .forgotten_u_kg = 0.002,
                                .lines = 2};
    s->view.mass[0] = (pare_weigh_loadout){
        .mass = {.kg = 0.47, .u_kg = 0.002, .low_kg = 0.468, .high_kg = 0.474}, .chance = 0.4};
    s->view.written = (pare_promise){.kg = 0.458, .u_kg = 0.003};
    s->view.whole = (pare_promise){.kg = 0.47, .u_kg = 0.002, .low_kg = 0.468, .high_kg = 0.474};
    s->pack[0] =
        (pare_weigh_pack){.pack = &s->part, .mass = {.kg = 0.5, .u_kg = 0.003}, .chance = 0.8};
    s->line[0] = (pare_weigh_line){
        .name = "motor", .count = 4, .prior_kg = 0.125, .kg = 0.126, .u_kg = 0.001, .readings = 1};
    s->line[1] = (pare_weigh_line){.name = "frame",
                                   .count = 1,
                                   .prior_kg = 0.088,
                                   .kg = 0.088,
                                   .u_kg = 0.001,
                                   .known = PARE_WEIGHED};
    s->choice[0] = (pare_weigh_choice){.name = "motor",
                                       .count = 4,
                                       .promise = {.low_kg = 0.125, .high_kg = 0.129},
                                       .left_kg = 0.002,
                                       .right = 0.9};
    s->choice[1] = (pare_weigh_choice){.name = "whole",
                                       .count = 1,
                                       .promise = {.low_kg = 0.468, .high_kg = 0.474},
                                       .left_kg = 0.001,
                                       .right = 0.999};
    s->view.next = (pare_weigh_list){.by = PARE_WEIGH_FOR_CLOSURE,
                                     .now_kg = 0.004,
                                     .limit_kg = 0.6,
                                     .now_right = 0.7,
                                     .choice = s->choice};
    s->was = malloc(sizeof *s->was);
    s->is = malloc(sizeof *s->is);
    s->other = malloc(sizeof *s->other);
    assert_true(s->was && s->is && s->other);
    *s->was = *s->is = *s->f->craft;
    s->was->learned = s->is->learned = NULL;
    *s->other = *s->f->sheet;
    s->entry[0] = (pare_between_entry){"runs.lead.gauge", "12", "14"};
    s->entry[1] = (pare_between_entry){"items.gps", NULL, "{part: gp-1}"};
    s->entry[2] = (pare_between_entry){"items.buzzer", "{part: bz-1}", NULL};
    s->read[0] = &s->weigh_in[0];
    s->taught = (pare_taught){.date = "2026-05-01", .flights = 3};
    s->taught.change[PARE_TAUGHT_THRUST] = 0.1;
    s->taught_before.change[PARE_TAUGHT_THRUST] = 0.05;
    s->taught.root[PARE_TAUGHT_THRUST][0] = 0.03;
    s->between = (pare_between){.was = s->was,
                                .is = s->is,
                                .from = "2026-04-01",
                                .to = "now",
                                .since = "",
                                .entry = s->entry,
                                .weigh_in = s->read};
    for (size_t i = 0; i < 4; i++)
        s->column[i] = (pare_compared){
            .name = i ? "other" : "weir-5", .craft = s->f->craft, .sheet = s->f->sheet};
    s->columns = 2;
    return s;
}

static void put_json(json_t *object, pare_text *out)
{
    char *text = json_dumps(object, JSON_INDENT(1) | JSON_SORT_KEYS | JSON_ENCODE_ANY |
                                        JSON_REAL_PRECISION(5));
    assert_non_null(text);
    pare_text_add(out, text);
    free(text);
    json_decref(object);
}

static void say_weighed(const states *s, pare_text *out)
{
    pare_weigh_text(&s->view, s->all, &s->screen, out);
}

static void say_weighed_json(const states *s, pare_text *out)
{
    put_json(pare_weigh_object(&s->view), out);
}

static void say_between(const states *s, pare_text *out)
{
    pare_between_text(&s->between, &s->screen, out);
}

static void say_between_json(const states *s, pare_text *out)
{
    put_json(pare_between_object(&s->between), out);
}

static void say_compared(const states *s, pare_text *out)
{
    pare_compare_text(s->columns, s->column, s->all, &s->screen, out);
}

/* The second column's sheet is one of its own. */
static void differ(states *s, pare_figure figure, double by)
{
    s->column[1].sheet = s->other;
    s->other->figure[figure].value *= by;
}

static void differ_craft(states *s)
{
    s->column[1].sheet = s->other;
    s->column[1].craft = s->is;
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
    s->all = true;
}

static void case_2(states *s)
{
    s->weighings.count = 12;
}

static void case_3(states *s)
{
    s->weighings.count = 12;
    s->all = true;
}

static void case_4(states *s)
{
    s->weighings.count = 1;
}

static void case_5(states *s)
{
    s->weigh_in[0].craft = "other";
}

static void case_6(states *s)
{
    s->weigh_in[0].loadout = "race";
    s->weigh_in[0].scale = "small";
}

static void case_7(states *s)
{
    s->weigh_in[0].promised = true;
    s->weigh_in[0].low_kg = 0.46;
    s->weigh_in[0].high_kg = 0.48;
}

static void case_8(states *s)
{
    s->weigh_in[0].promised = true;
    s->weigh_in[0].low_kg = 0.48;
    s->weigh_in[0].high_kg = 0.49;
}

static void case_9(states *s)
{
    s->weigh_in[0].promised = true;
    s->weigh_in[0].low_kg = 0.45;
    s->weigh_in[0].high_kg = 0.46;
}

static void case_10(states *s)
{
    s->unused[0] = "the craft was another then";
}

static void case_11(states *s)
{
    s->closure.misfits = 1;
    s->closure.misfit[0] = (pare_misfit){.which = 1, .against = -1, .sigmas = 4.2, .off_kg = 0.01};
}

static void case_12(states *s)
{
    s->closure.misfits = 1;
    s->closure.misfit[0] = (pare_misfit){.which = 1, .against = -1, .sigmas = 4.2, .off_kg = 0.01};
    s->closure.misfit[0].off_kg = -0.01;
    s->closure.misfit[0].against = 0;
}

static void case_13(states *s)
{
    s->closure.misfits = 1;
    s->closure.misfit[0] = (pare_misfit){.which = 1, .against = -1, .sigmas = 4.2, .off_kg = 0.01};
    s->closure.misfit[0].of_prior = true;
    s->closure.misfit[0].which = 0;
}

static void case_14(states *s)
{
    s->view.limit_kg = (double)NAN;
    s->view.mass[0].chance = (double)NAN;
}

static void case_15(states *s)
{
    s->view.mass[0].chance = 0.001;
}

static void case_16(states *s)
{
    s->view.mass[0].chance = 0.999;
}

static void case_17(states *s)
{
    s->view.mass[0].mass.allowed = true;
}

static void case_18(states *s)
{
    s->view.loadouts = 2;
    s->view.mass[0].name = "film";
    s->view.mass[1] = s->view.mass[0];
    s->view.mass[1].name = "race";
    s->view.mass[0].mass.allowed = s->view.mass[1].mass.allowed = true;
    s->view.here = 1;
}

static void case_19(states *s)
{
    s->view.packs = 1;
}

static void case_20(states *s)
{
    s->view.packs = 1;
    s->part.owned = 0;
}

static void case_21(states *s)
{
    s->view.packs = 1;
    s->part.owned = 0;
    s->all = true;
}

static void case_22(states *s)
{
    s->view.forgotten = -1;
}

static void case_23(states *s)
{
    s->view.forgotten_kg = -0.004;
    s->view.less = true;
}

static void case_24(states *s)
{
    s->view.more = true;
}

static void case_25(states *s)
{
    s->view.more = true;
    s->view.solder = true;
}

static void case_26(states *s)
{
    s->view.less = true;
}

static void case_27(states *s)
{
    s->view.solder = true;
}

static void case_28(states *s)
{
    s->view.suspects = 1;
    s->view.suspect[0] = &s->part;
}

static void case_29(states *s)
{
    s->view.suspects = 2;
    s->view.suspect[0] = &s->part;
    s->view.suspect[1] = &s->second;
}

static void case_30(states *s)
{
    s->view.next.count = 2;
}

static void case_31(states *s)
{
    s->view.next.count = 2;
    s->view.forgotten = -1;
    s->view.next.by = PARE_WEIGH_FOR_ALL_UP;
}

static void case_32(states *s)
{
    s->view.next.count = 2;
    s->view.next.by = PARE_WEIGH_FOR_CHANCE;
}

static void case_33(states *s)
{
    s->view.next.count = 1;
    s->choice[0].count = 1;
}

static void case_34(states *s)
{
    s->view.promised = 1;
    s->view.held = 1;
}

static void case_35(states *s)
{
    s->view.promised = 4;
    s->view.held = 3;
    s->view.hovers = (pare_hover_score){.made = 2, .held = 1};
}

static void case_36(states *s)
{
    (void)s;
    (void)0;
}

static void case_37(states *s)
{
    s->closure.misfits = 1;
    s->closure.misfit[0] = (pare_misfit){.which = 1, .against = -1, .sigmas = 4.2, .off_kg = 0.01};
    s->weigh_in[1].promised = true;
    s->weigh_in[1].low_kg = 0.1;
    s->weigh_in[1].high_kg = 0.2;
}

static void case_38(states *s)
{
    s->closure.misfits = 1;
    s->closure.misfit[0] = (pare_misfit){.which = 1, .against = -1, .sigmas = 4.2, .off_kg = 0.01};
    s->closure.misfit[0].of_prior = true;
    s->closure.misfit[0].which = 0;
    s->unused[0] = "the craft was another then";
    s->weigh_in[0].promised = true;
    s->weigh_in[0].low_kg = 0.46;
    s->weigh_in[0].high_kg = 0.48;
}

static void case_39(states *s)
{
    s->weigh_in[0].promised = true;
    s->weigh_in[0].low_kg = 0.45;
    s->weigh_in[0].high_kg = 0.46;
}

static void case_40(states *s)
{
    s->weigh_in[0].craft = "other";
    s->view.mass[0].chance = (double)NAN;
    s->view.limit_kg = (double)NAN;
}

static void case_41(states *s)
{
    s->view.forgotten = -1;
    s->view.packs = 1;
    s->view.suspects = 1;
    s->view.suspect[0] = &s->part;
    s->view.next.count = 2;
}

static void case_42(states *s)
{
    s->view.mass[0].name = "race";
    s->weigh_in[0].loadout = "race";
    s->view.next.count = 1;
    s->view.next.by = PARE_WEIGH_FOR_CHANCE;
}

static void case_43(states *s)
{
    s->is->takens = s->was->takens = 0;
}

static void case_44(states *s)
{
    s->is->takens = s->was->takens = 0;
    s->between.entries = 3;
}

static void case_45(states *s)
{
    s->was->takens = 0;
}

static void case_46(states *s)
{
    s->is->takens = 0;
}

static void case_47(states *s)
{
    (void)s;
    (void)0;
}

static void case_48(states *s)
{
    s->was->takens = 0;
    s->is->taken[0].date[PARE_STAGE_FITTED] = s->is->taken[0].date[PARE_STAGE_WEIGHED] =
        s->is->taken[0].date[PARE_STAGE_FLOWN] = NULL;
}

static void case_49(states *s)
{
    s->was->takens = 0;
    s->is->taken[0].date[PARE_STAGE_FITTED] = NULL;
}

static void case_50(states *s)
{
    s->is->takens = 0;
    s->was->taken[0].date[PARE_STAGE_FITTED] = s->was->taken[0].date[PARE_STAGE_WEIGHED] =
        s->was->taken[0].date[PARE_STAGE_FLOWN] = NULL;
}

static void case_51(states *s)
{
    s->is->taken[0].swap = "skid=off";
}

static void case_52(states *s)
{
    s->between.weigh_ins = 1;
    s->between.flights = 1;
}

static void case_53(states *s)
{
    s->between.flights = 4;
}

static void case_54(states *s)
{
    s->is->learned = &s->taught;
}

static void case_55(states *s)
{
    s->was->learned = &s->taught;
}

static void case_56(states *s)
{
    s->was->learned = &s->taught_before;
    s->is->learned = &s->taught;
}

static void case_57(states *s)
{
    s->between.later = true;
}

static void case_58(states *s)
{
    s->between.later = true;
    s->between.since = "2026-04-09";
}

static void case_59(states *s)
{
    s->was->takens = 0;
    s->between.entries = 3;
    s->between.weigh_ins = 1;
    s->between.later = true;
    s->between.since = "2026-04-09";
    s->is->learned = &s->taught;
}

static void case_60(states *s)
{
    s->is->takens = 0;
    s->was->learned = &s->taught;
    s->between.later = true;
}

static void case_61(states *s)
{
    s->is->takens = 0;
    s->was->taken[0].date[PARE_STAGE_FITTED] = s->was->taken[0].date[PARE_STAGE_WEIGHED] =
        s->was->taken[0].date[PARE_STAGE_FLOWN] = NULL;
}

static void case_62(states *s)
{
    (void)s;
    (void)0;
}

static void case_63(states *s)
{
    s->all = true;
}

static void case_64(states *s)
{
    s->columns = 1;
}

static void case_65(states *s)
{
    s->columns = 4;
    s->screen.width = 60;
}

static void case_66(states *s)
{
    (void)s;
    differ(s, PARE_ALL_UP, 1.1);
}

static void case_67(states *s)
{
    differ(s, PARE_FLOWN_TIME, 1.5);
    s->column[1].date = "2026-04-01";
}

static void case_68(states *s)
{
    differ(s, PARE_FLOWN_TIME, 1.5);
    s->column[0].date = "2026-04-01";
}

static void case_69(states *s)
{
    differ(s, PARE_FLOWN_TIME, 1.5);
    s->column[1].date = "2026-04-01";
    s->screen.width = 60;
}

static void case_70(states *s)
{
    differ(s, PARE_FLOWN_TIME, 1.5);
    s->column[0].date = s->column[1].date = "2026-04-01";
    s->screen.width = 120;
}

static void case_71(states *s)
{
    differ(s, PARE_FLOWN_TIME, 1);
    s->other->figure[PARE_FLOWN_TIME].exists = false;
}

static void case_72(states *s)
{
    differ(s, PARE_HOVER_A, 1);
    for (int i = 0; i < PARE_FIGURES; i++)
        s->other->figure[i].exists = false;
}

static void case_73(states *s)
{
    differ_craft(s);
    s->other->margins = 0;
}

static void case_74(states *s)
{
    differ_craft(s);
    s->is->runs = 0;
}

static void case_75(states *s)
{
    differ_craft(s);
    s->is->run[0].gauge = 16;
}

static void case_76(states *s)
{
    differ_craft(s);
    s->is->items = 2;
}

static void case_77(states *s)
{
    differ_craft(s);
    s->is->item[0].off = true;
}

static void case_78(states *s)
{
    differ_craft(s);
    s->is->joints = 0;
}

static void case_79(states *s)
{
    differ_craft(s);
    for (size_t i = 0; i < s->other->assembly.lines; i++)
        s->other->assembly.line[i].each_kg *= 1.1;
}

static void case_80(states *s)
{
    differ_craft(s);
    s->columns = 4;
    for (size_t i = 2; i < 4; i++)
        s->column[i] = s->column[1];
    s->other->figure[PARE_ALL_UP].value *= 2;
}

static void case_81(states *s)
{
    differ_craft(s);
    s->other->margin[0].ratio *= 2;
    s->other->margin[0].value *= 2;
}

static void readings_and_what_they_make_of_masses(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_0, "weir-5: 2 readings\n2026-04-12     the whole craft: 471 g\n2026-04-12     4 "
                 "motor, 1 cube: 471 g\n\nall-up         470 +- 2 g; at most 600 g with a chance "
                 "of 40 %\nclosure        13 +- 2 g more than what is written down, 458 +- 3 g: "
                 "what\n               solder, ties and loose wire weigh\nA legal mass limit "
                 "counts the craft as flown, with everything on it: check your\nlocal rules.\n"},
        {case_1, "Grams as written, and as adjusted\nmotor                        125  126 +- 1 g, "
                 "by the scale\nframe                         88  88 +- 1 g, weighed\n(13 lines)"},
        {case_2, "weir-5: 12 readings, the latest 10 (--all: every one)\n(17 lines)"},
        {case_3, "weir-5: 12 readings\nGrams as written, and as adjusted\nmotor                    "
                 "    125  126 +- 1 g, by the scale\nframe                         88  88 +- 1 g, "
                 "weighed\n(23 lines)"},
        {case_4, "weir-5: 1 reading\n(8 lines)"},
        {case_5, "weir-5: 1 reading\n(8 lines)"},
        {case_6, "2026-04-12     the whole craft, race: 471 g on small\n(9 lines)"},
        {case_7, "2026-04-12     the whole craft: 471 g, promised 460 to 480 g, held\n(9 lines)"},
        {case_8, "2026-04-12     the whole craft: 471 g, promised 480 to 490 g, missed\n(9 lines)"},
        {case_9, "2026-04-12     the whole craft: 471 g, promised 450 to 460 g, missed\n(9 lines)"},
        {case_10,
         "2026-04-12     the whole craft: 471 g; not used: the craft was another then\n(9 lines)"},
        {case_11,
         "2026-04-12     4 motor, 1 cube: 471 g; left out, see below\ndoes not fit   4 motor, 1 "
         "cube on 2026-04-12, 471 g: 10.0 g more than all else\n               says (4.2 sigma, "
         "the bound is 3.0); kept, but left out of the\n               sums\n(12 lines)"},
        {case_12,
         "2026-04-12     4 motor, 1 cube: 471 g; left out, see below\ndoes not fit   4 motor, 1 "
         "cube on 2026-04-12, 471 g: 10.0 g less than all else\n               says (4.2 sigma, "
         "the bound is 3.0); or the 471 g of 2026-04-12 is\n               wrong, which says as "
         "much against it; kept, but left out of the\n               sums\n(13 lines)"},
        {case_13, "does not fit   cu-w: stated 10 +- 1 g, but by the scale 12.0 g (4.2 sigma, "
                  "the\n               bound is 3.0)\n(11 lines)"},
        {case_14, "all-up         470 +- 2 g\n(7 lines)"},
        {case_15, "all-up         470 +- 2 g; at most 600 g with a chance of under 1 %\n(9 lines)"},
        {case_16, "all-up         470 +- 2 g; at most 600 g with a chance of over 99 %\n(9 lines)"},
        {case_17, "all-up         468 to 474 g; at most 600 g with a chance of 40 %; 470 +- 2 g "
                  "are\n               written down, solder and ties come on top\n(10 lines)"},
        {case_18, "all-up         film: 468 to 474 g; at most 600 g with a chance of 40 %\n        "
                  "       race: 468 to 474 g; at most 600 g with a chance of 40 %;\n               "
                  "470 +- 2 g are written down, solder and ties come on top\n(11 lines)"},
        {case_19,
         "other packs    pa-w: 500 +- 3 g; at most 600 g with a chance of 80 %\n(10 lines)"},
        {case_20, "as usual"},
        {case_21, "other packs    pa-w: 500 +- 3 g; at most 600 g with a chance of 80 %\nGrams as "
                  "written, and as adjusted\nmotor                        125  126 +- 1 g, by the "
                  "scale\nframe                         88  88 +- 1 g, weighed\n(14 lines)"},
        {case_22, "closure        not known: the whole craft was never weighed; the scale will "
                  "show\n               468 to 474 g\n(9 lines)"},
        {case_23, "closure        4 +- 2 g less than what is written down, 458 +- 3 g: something\n "
                  "              written down is not on it, or is lighter\n(9 lines)"},
        {case_24, "closure        13 +- 2 g more than what is written down, 458 +- 3 g: more "
                  "than\n               solder and ties, something is forgotten\n(9 lines)"},
        {case_25, "closure        13 +- 2 g more than what is written down, 458 +- 3 g: "
                  "something\n               is forgotten\n(9 lines)"},
        {case_26, "closure        13 +- 2 g more than what is written down, 458 +- 3 g: "
                  "something\n               written down is not on it, or is lighter\n(9 lines)"},
        {case_27, "closure        13 +- 2 g more than what is written down, 458 +- 3 g: all is\n   "
                  "            written down, as far as the scale can tell\n(9 lines)"},
        {case_28,
         "forgotten      as much as pa-w (159 g), which is owned and on no craft\n(10 lines)"},
        {case_29, "forgotten      as much as pa-w (159 g), or mo-w (31.4 g), which are owned and "
                  "on\n               no craft\n(11 lines)"},
        {case_30, "weigh next     motor, all 4: the scale will show 125 to 129 g; leaves the\n     "
                  "          closure to +- 2.0 g, now +- 4.0 g\n               whole: the scale "
                  "will show 468 to 474 g; then +- 1.0 g\n(12 lines)"},
        {case_31, "closure        not known: the whole craft was never weighed; the scale will "
                  "show\n               468 to 474 g\nweigh next     motor, all 4: the scale will "
                  "show 125 to 129 g; leaves all-up\n               to +- 2.0 g, now +- 4.0 g\n    "
                  "           whole: the scale will show 468 to 474 g; then +- 1.0 g\n(12 lines)"},
        {case_32, "weigh next     motor, all 4: the scale will show 125 to 129 g; whether it is\n  "
                  "             under 600 g is then judged rightly with a chance of 90 %, now\n    "
                  "           70 %\n               the whole craft: the scale will show 468 to 474 "
                  "g; then over 99 %\n(13 lines)"},
        {case_33, "weigh next     motor: the scale will show 125 to 129 g; leaves the closure\n    "
                  "           to +- 2.0 g, now +- 4.0 g\n(11 lines)"},
        {case_34,
         "score          1 promise over all craft, 1 held; nine of ten should\n(10 lines)"},
        {case_35, "score          4 promises over all craft, 3 held (of hover output 2, 1 held);\n "
                  "              nine of ten should\n(11 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_weighed);
}

static void readings_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_36,
         "{\n \"all_up_chance\": 0.4,\n \"all_up_high_g\": 474,\n \"all_up_low_g\": 468,\n "
         "\"allowance\": false,\n \"closure_g\": 13,\n \"closure_g_u\": 2,\n \"craft\": "
         "\"weir-5\",\n \"forgotten\": false,\n \"forgotten_like\": [],\n \"hover_promises\": 0,\n "
         "\"hover_promises_held\": 0,\n \"items\": [\n  {\n   \"count\": 4,\n   \"g\": 126,\n   "
         "\"g_u\": 1,\n   \"known\": \"weighed\",\n   \"name\": \"motor\",\n   \"readings\": 1,\n  "
         " \"written_g\": 125\n  },\n  {\n   \"count\": 1,\n   \"g\": 88,\n   \"g_u\": 1,\n   "
         "\"known\": \"weighed\",\n   \"name\": \"frame\",\n   \"readings\": 0,\n   \"written_g\": "
         "88\n  }\n ],\n \"loadout\": null,\n \"loadouts\": {},\n \"misfits\": [],\n \"next\": "
         "[],\n \"next_for\": \"closure\",\n \"next_g_u\": 4,\n \"next_right\": 0.7,\n \"packs\": "
         "[],\n \"promise_high_g\": 474,\n \"promise_low_g\": 468,\n \"promises\": 0,\n "
         "\"promises_held\": 0,\n \"readings\": [\n  {\n   \"date\": \"2026-04-12\",\n   \"held\": "
         "null,\n   \"loadout\": null,\n   \"of\": \"all\",\n   \"promise_high_g\": null,\n   "
         "\"promise_low_g\": null,\n   \"reads_g\": 471,\n   \"scale\": null,\n   \"used\": true\n "
         " },\n  {\n   \"date\": \"2026-04-12\",\n   \"held\": null,\n   \"loadout\": null,\n   "
         "\"of\": {\n    \"cube\": 1,\n    \"motor\": 4\n   },\n   \"promise_high_g\": null,\n   "
         "\"promise_low_g\": null,\n   \"reads_g\": 471,\n   \"scale\": null,\n   \"used\": true\n "
         " }\n ],\n \"written_g\": 458,\n \"written_g_u\": 3\n}"},
        {case_37,
         " \"misfits\": [\n   \"is\": \"reading\",\n   \"off_g\": 10,\n   \"sigmas\": 4.2,\n   "
         "\"what\": \"4 motor, 1 cube\"\n   \"held\": false,\n   \"promise_high_g\": 200,\n   "
         "\"promise_low_g\": 100,\n   \"used\": false\n(81 lines)"},
        {case_38, " \"misfits\": [\n   \"is\": \"written\",\n   \"off_g\": 10,\n   \"sigmas\": "
                  "4.2,\n   \"what\": \"cu-w\"\n   \"held\": true,\n   \"promise_high_g\": 480,\n  "
                  " \"promise_low_g\": 460,\n   \"used\": false,\n   \"why\": \"the craft was "
                  "another then\"\n(82 lines)"},
        {case_39, "   \"held\": false,\n   \"promise_high_g\": 460,\n   \"promise_low_g\": "
                  "450,\n(74 lines)"},
        {case_40, " \"all_up_chance\": null,\n(63 lines)"},
        {case_41,
         " \"closure_g\": null,\n \"closure_g_u\": null,\n \"forgotten_like\": [\n  \"pa-w\"\n "
         "\"next\": [\n   \"leaves_g_u\": 2,\n   \"promise_high_g\": 129,\n   \"promise_low_g\": "
         "125,\n   \"right\": 0.9\n   \"leaves_g_u\": 1,\n   \"name\": \"whole\",\n   "
         "\"promise_high_g\": 474,\n   \"promise_low_g\": 468,\n   \"right\": 0.999\n \"packs\": "
         "[\n   \"all_up_chance\": 0.8,\n   \"all_up_g\": 500,\n   \"all_up_g_u\": 3,\n   "
         "\"owned\": 1,\n   \"pack\": \"pa-w\"\n(101 lines)"},
        {case_42, " \"loadout\": \"race\",\n \"next\": [\n   \"leaves_g_u\": 2,\n   "
                  "\"promise_high_g\": 129,\n   \"promise_low_g\": 125,\n   \"right\": 0.9\n "
                  "\"next_for\": \"chance\",\n   \"loadout\": \"race\",\n(83 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_weighed_json);
}

static void what_changed_between_two_days(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_43, "\nWhat changed of weir-5 from 2026-04-01 to now\n  Nothing.\n"},
        {case_44, "  runs.lead.gauge: 14, was 12\n  items.gps: {part: gp-1}, new\n  items.buzzer: "
                  "gone, was {part: bz-1}\n(5 lines)"},
        {case_45, "  fitted: cube=off, on 2026-04-10\n(3 lines)"},
        {case_46, "  taken back: cube=off\n(3 lines)"},
        {case_47, "as usual"},
        {case_48, "as usual"},
        {case_49, "  fitted: cube=off, on 2026-04-11\n(3 lines)"},
        {case_50, "as usual"},
        {case_51, "  fitted: skid=off, on 2026-04-10\n  taken back: cube=off\n(4 lines)"},
        {case_52, "  weighed: 2026-04-12 the whole craft read 471 g\n  flown: 1 flight\n(4 lines)"},
        {case_53, "  flown: 4 flights\n(3 lines)"},
        {case_54,
         "  learned: thrust times 1.11 +- 0.03, was as thought, kept on 2026-05-01\n(3 lines)"},
        {case_55, "  learned: thrust times as thought, was 1.11 +- 0.03\n(3 lines)"},
        {case_56, "  learned: thrust times 1.11 +- 0.03, was 1.051, kept on 2026-05-01\n(3 lines)"},
        {case_57, "This bench has no history of weir-5: only what is dated differs.\n(4 lines)"},
        {case_58, "weir-5 came onto this bench on 2026-04-09: of 2026-04-01 it knows what is "
                  "dated,\nreadings, flights, swaps and what was learned, and for the rest what "
                  "was written\nfirst.\n(6 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_between);
}

static void what_changed_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_59,
         " \"entries\": [\n  {\n   \"is\": \"14\",\n   \"path\": \"runs.lead.gauge\",\n   \"was\": "
         "\"12\"\n  },\n  {\n   \"is\": \"{part: gp-1}\",\n   \"path\": \"items.gps\",\n   "
         "\"was\": null\n  },\n  {\n   \"is\": null,\n   \"path\": \"items.buzzer\",\n   \"was\": "
         "\"{part: bz-1}\"\n  }\n ],\n \"fitted\": [\n  {\n   \"date\": \"2026-04-10\",\n   "
         "\"swap\": \"cube=off\"\n  }\n ],\n \"learned\": [\n  {\n   \"is\": 1.1052,\n   \"is_u\": "
         "0.033155,\n   \"number\": \"thrust\",\n   \"was\": 1,\n   \"was_u\": 0\n  }\n ],\n "
         "\"readings\": [\n  {\n   \"date\": \"2026-04-12\",\n   \"of\": \"the whole craft\",\n   "
         "\"reads\": \"471 g\"\n  }\n ],\n \"since\": \"2026-04-09\",\n(47 lines)"},
        {case_60,
         " \"learned\": [\n  {\n   \"is\": 1,\n   \"is_u\": 0,\n   \"number\": \"thrust\",\n   "
         "\"was\": 1.1052,\n   \"was_u\": 0.033155\n  }\n ],\n \"taken_back\": [\n  {\n   "
         "\"date\": \"2026-04-10\",\n   \"swap\": \"cube=off\"\n  }\n ],\n(25 lines)"},
        {case_61, "as usual"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_between_json);
}

static void craft_side_by_side(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_62,
         "  (a) weir-5\n  (b) other\n\nNothing differs.\n\nWhat is alike\nall-up mass              "
         "      g                 441\ndry mass (no pack)             g                 282\nmoney "
         "in the craft                            103.50\ncentre of mass, forward        mm        "
         "         -6\ncentre of mass, left           mm                  0\ncentre of mass, up    "
         "         mm                 20\nroll inertia                   kg mm2           "
         "1290\npitch inertia                  kg mm2           1320\nyaw inertia                  "
         "  kg mm2           2330\nproduct of inertia xy          kg mm2              0\nproduct "
         "of inertia xz          kg mm2             30\nproduct of inertia yz          kg mm2      "
         "        0\npack shift to balance          mm                 18\nhover output            "
         "       %                  35\nhover current                  A                 "
         "7.2\nhover power                    W                 108\nhover power by mass           "
         " W/kg              250\nrotor speed in hover           rpm              9100\nthrust to "
         "weight, idling                       0.036\npushed by a gust of 5 m/s      m/s2          "
         "   0.55\nhover time                     min               6.6\ntime at best-range speed  "
         "     min               5.9\nyour minutes                   min               3.1\nmean "
         "current as flown          A                  15\nrms current as flown           A        "
         "          22\na motor's rms current as flown A                 7.1\nwinding, at that rms "
         "          C                  29\npack, all its charge so flown  C                  "
         "41\ncell, hardest load at landing  V                3.14\nrotor speed in your cruise     "
         "rpm              9200\nbest range                     m                5000\nbest-range "
         "speed               m/s                14\nfull thrust, fresh pack        N              "
         "    32\nthrust to weight, fresh                          7.3\nthrust to weight, half     "
         "                      5.9\nthrust to weight, landing                        5.6\npack "
         "current at full throttle  A                  99\nmotor current at full throttle A        "
         "          25\ncell, full throttle, half pack V                3.33\n30 m straight up     "
         "          s                1.41\nsustained turn at 12 m/s       g                 "
         "6.9\nfastest climb                  m/s                29\ntop speed                     "
         " m/s                33\nroll acceleration              rad/s2            990\npitch "
         "acceleration             rad/s2            920\nyaw acceleration               rad/s2    "
         "         98\nrotor lag                      s               0.020\ncrash energy          "
         "         J                31.7\npack energy                    Wh               "
         "15.7\nair density                    kg/m3            1.21\ndensity altitude             "
         "  m                 155\n\n17 lines of the ledgers weigh alike: --all has them.\n"},
        {case_63,
         "The pack's lead in other gauges\n                                                 (a)    "
         "       (b)\nAWG 8                          g                22.1          22.1\n  "
         "hottest as flown             C                15.3          15.3\n  after 3 s full "
         "throttle      C                18.2          18.2\n  lost at full throttle        V      "
         "          0.05          0.05\n  your minutes                 s                 182       "
         "    182\nAWG 10                         g                15.0          15.0\n  hottest "
         "as flown             C                  19            19\n  after 3 s full throttle      "
         "C                  24            24\n  lost at full throttle        V                "
         "0.08          0.08\n  your minutes                 s                 185           "
         "185\nAWG 12                         g                 9.7           9.7\n  hottest as "
         "flown             C                  28            28\n  after 3 s full throttle      C  "
         "                34            34\n  lost at full throttle        V                0.12   "
         "       0.12\n  your minutes                 s                 187           187\nAWG 14  "
         "                       g                 6.0           6.0\n  hottest as flown           "
         "  C                  51            51\n  after 3 s full throttle      C                  "
         "56            56\n  lost at full throttle        V                0.20          0.20\n  "
         "your minutes                 s                 188           188\nAWG 16                 "
         "        g                 4.1           4.1\n  hottest as flown             C            "
         "     100           100\n  after 3 s full throttle      C                 100           "
         "100\n  lost at full throttle        V                0.31          0.31\n  your minutes  "
         "               s                 189           189\nAWG 18                         g     "
         "            2.5           2.5\n  hottest as flown             C                 270      "
         "     270\n  after 3 s full throttle      C                 230           230\n  lost at "
         "full throttle        V                0.49          0.49\n  your minutes                 "
         "s                 190           190\nWhat weighs alike, in grams\nframe                  "
         "                         88.0\nmotor                                          "
         "125.6\npropeller                                       17.9\nbrain                       "
         "                    12.0\npack                                           159.0\nvideo    "
         "                                        5.5\npigtail                                     "
         "     0.0\nantenna                                          9.8\ncube                     "
         "                        1.7\nmotor_base                                       "
         "7.7\narm_root                                         0.0\nposts                         "
         "                   0.0\npost_washers                                     0.0\ntall_posts "
         "                                      2.8\ncube_nuts                                     "
         "   1.1\nlead                                             9.7\nphase                      "
         "                      0.0\n(109 lines)"},
        {case_64, "(58 lines)"},
        {case_65,
         "  (c) other\n  (d) other\nall-up mass                    g             441\ndry mass (no "
         "pack)             g             282\nmoney in the craft                        "
         "103.50\ncentre of mass, forward        mm             -6\ncentre of mass, left           "
         "mm              0\ncentre of mass, up             mm             20\nroll inertia        "
         "           kg mm2       1290\npitch inertia                  kg mm2       1320\nyaw "
         "inertia                    kg mm2       2330\nproduct of inertia xy          kg mm2      "
         "    0\nproduct of inertia xz          kg mm2         30\nproduct of inertia yz          "
         "kg mm2          0\npack shift to balance          mm             18\nhover output        "
         "           %              35\nhover current                  A             7.2\nhover "
         "power                    W             108\nhover power by mass            W/kg          "
         "250\nrotor speed in hover           rpm          9100\nthrust to weight, idling          "
         "         0.036\npushed by a gust of 5 m/s      m/s2         0.55\nhover time             "
         "        min           6.6\ntime at best-range speed       min           5.9\nyour "
         "minutes                   min           3.1\nmean current as flown          A            "
         "  15\nrms current as flown           A              22\na motor's rms current as flown A "
         "            7.1\nwinding, at that rms           C              29\npack, all its charge "
         "so flown  C              41\ncell, hardest load at landing  V            3.14\nrotor "
         "speed in your cruise     rpm          9200\nbest range                     m            "
         "5000\nbest-range speed               m/s            14\nfull thrust, fresh pack        N "
         "             32\nthrust to weight, fresh                      7.3\nthrust to weight, "
         "half                       5.9\nthrust to weight, landing                    5.6\npack "
         "current at full throttle  A              99\nmotor current at full throttle A            "
         "  25\ncell, full throttle, half pack V            3.33\n30 m straight up               s "
         "           1.41\nsustained turn at 12 m/s       g             6.9\nfastest climb         "
         "         m/s            29\ntop speed                      m/s            33\nroll "
         "acceleration              rad/s2        990\npitch acceleration             rad/s2       "
         " 920\nyaw acceleration               rad/s2         98\nrotor lag                      s "
         "          0.020\ncrash energy                   J            31.7\npack energy           "
         "         Wh           15.7\nair density                    kg/m3        1.21\ndensity "
         "altitude               m             155\n(61 lines)"},
        {case_66, "What differs\n                                                 (a)           "
                  "(b)\nall-up mass                    g                 441           485\nIn a "
                  "crash, times what the first of them, (a), bears\n                               "
                  "                  (a)           (b)\narms bear the brief's crash                "
                  "     1.00          1.00\nthe same in its own cruise                      1.00   "
                  "       1.00\nthe same at its own top speed                   1.00          "
                  "1.00\nleast of the screws bears                       1.00          1.00\nroll "
                  "by the same output                         1.00          1.00\n(68 lines)"},
        {case_67,
         "What differs\n                                                 (a)           (b)        "
         "change\nyour minutes                   min               3.1           4.7          "
         "+1.6\nIn a crash, times what the first of them, (a), bears\n                             "
         "                    (a)           (b)\narms bear the brief's crash                     "
         "1.00          1.00\nthe same in its own cruise                      1.00          "
         "1.00\nthe same at its own top speed                   1.00          1.00\nleast of the "
         "screws bears                       1.00          1.00\nroll by the same output           "
         "              1.00          1.00\n(68 lines)"},
        {case_68,
         "What differs\n                                                 (a)           (b)        "
         "change\nyour minutes                   min               3.1           4.7          "
         "+1.6\nIn a crash, times what the first of them, (a), bears\n                             "
         "                    (a)           (b)\narms bear the brief's crash                     "
         "1.00          1.00\nthe same in its own cruise                      1.00          "
         "1.00\nthe same at its own top speed                   1.00          1.00\nleast of the "
         "screws bears                       1.00          1.00\nroll by the same output           "
         "              1.00          1.00\n(68 lines)"},
        {case_69,
         "What differs\n                                             (a)       (b)\nyour minutes   "
         "                min           3.1       4.7\nIn a crash, times what the first of them, "
         "(a), bears\n                                             (a)       (b)\narms bear the "
         "brief's crash                 1.00      1.00\nthe same in its own cruise                 "
         " 1.00      1.00\nthe same at its own top speed               1.00      1.00\nleast of "
         "the screws bears                   1.00      1.00\nroll by the same output               "
         "      1.00      1.00\nall-up mass                    g             441\ndry mass (no "
         "pack)             g             282\nmoney in the craft                        "
         "103.50\ncentre of mass, forward        mm             -6\ncentre of mass, left           "
         "mm              0\ncentre of mass, up             mm             20\nroll inertia        "
         "           kg mm2       1290\npitch inertia                  kg mm2       1320\nyaw "
         "inertia                    kg mm2       2330\nproduct of inertia xy          kg mm2      "
         "    0\nproduct of inertia xz          kg mm2         30\nproduct of inertia yz          "
         "kg mm2          0\npack shift to balance          mm             18\nhover output        "
         "           %              35\nhover current                  A             7.2\nhover "
         "power                    W             108\nhover power by mass            W/kg          "
         "250\nrotor speed in hover           rpm          9100\nthrust to weight, idling          "
         "         0.036\npushed by a gust of 5 m/s      m/s2         0.55\nhover time             "
         "        min           6.6\ntime at best-range speed       min           5.9\nmean "
         "current as flown          A              15\nrms current as flown           A            "
         "  22\na motor's rms current as flown A             7.1\nwinding, at that rms           C "
         "             29\npack, all its charge so flown  C              41\ncell, hardest load at "
         "landing  V            3.14\nrotor speed in your cruise     rpm          9200\nbest range "
         "                    m            5000\nbest-range speed               m/s            "
         "14\nfull thrust, fresh pack        N              32\nthrust to weight, fresh            "
         "          7.3\nthrust to weight, half                       5.9\nthrust to weight, "
         "landing                    5.6\npack current at full throttle  A              99\nmotor "
         "current at full throttle A              25\ncell, full throttle, half pack V            "
         "3.33\n30 m straight up               s            1.41\nsustained turn at 12 m/s       g "
         "            6.9\nfastest climb                  m/s            29\ntop speed             "
         "         m/s            33\nroll acceleration              rad/s2        990\npitch "
         "acceleration             rad/s2        920\nyaw acceleration               rad/s2        "
         " 98\nrotor lag                      s           0.020\ncrash energy                   J  "
         "          31.7\npack energy                    Wh           15.7\nair density            "
         "        kg/m3        1.21\ndensity altitude               m             155\n(68 lines)"},
        {case_70,
         "What differs\n                                                 (a)           (b)        "
         "change\nyour minutes                   min               3.1           4.7          "
         "+1.6\nIn a crash, times what the first of them, (a), bears\n                             "
         "                    (a)           (b)\narms bear the brief's crash                     "
         "1.00          1.00\nthe same in its own cruise                      1.00          "
         "1.00\nthe same at its own top speed                   1.00          1.00\nleast of the "
         "screws bears                       1.00          1.00\nroll by the same output           "
         "              1.00          1.00\n(68 lines)"},
        {case_71, "What differs\n                                                 (a)           "
                  "(b)\nyour minutes                   min               3.1          none\nIn a "
                  "crash, times what the first of them, (a), bears\n                               "
                  "                  (a)           (b)\narms bear the brief's crash                "
                  "     1.00          1.00\nthe same in its own cruise                      1.00   "
                  "       1.00\nthe same at its own top speed                   1.00          "
                  "1.00\nleast of the screws bears                       1.00          1.00\nroll "
                  "by the same output                         1.00          1.00\n(68 lines)"},
        {case_72,
         "What differs\n                                                 (a)           (b)\nall-up "
         "mass                    g                 441          none\ndry mass (no pack)          "
         "   g                 282          none\nmoney in the craft                            "
         "103.50          none\ncentre of mass, forward        mm                 -6          "
         "none\ncentre of mass, left           mm                  0          none\ncentre of "
         "mass, up             mm                 20          none\nroll inertia                   "
         "kg mm2           1290          none\npitch inertia                  kg mm2           "
         "1320          none\nyaw inertia                    kg mm2           2330          "
         "none\nproduct of inertia xy          kg mm2              0          none\nproduct of "
         "inertia xz          kg mm2             30          none\nproduct of inertia yz          "
         "kg mm2              0          none\npack shift to balance          mm                 "
         "18          none\nhover output                   %                  35          "
         "none\nhover current                  A                 7.2          none\nhover power    "
         "                W                 108          none\nhover power by mass            W/kg "
         "             250          none\nrotor speed in hover           rpm              9100     "
         "     none\nthrust to weight, idling                       0.036          none\npushed by "
         "a gust of 5 m/s      m/s2             0.55          none\nhover time                     "
         "min               6.6          none\ntime at best-range speed       min               "
         "5.9          none\nyour minutes                   min               3.1          "
         "none\nmean current as flown          A                  15          none\nrms current as "
         "flown           A                  22          none\na motor's rms current as flown A    "
         "             7.1          none\nwinding, at that rms           C                  29     "
         "     none\npack, all its charge so flown  C                  41          none\ncell, "
         "hardest load at landing  V                3.14          none\nrotor speed in your cruise "
         "    rpm              9200          none\nbest range                     m                "
         "5000          none\nbest-range speed               m/s                14          "
         "none\nfull thrust, fresh pack        N                  32          none\nthrust to "
         "weight, fresh                          7.3          none\nthrust to weight, half         "
         "                  5.9          none\nthrust to weight, landing                        "
         "5.6          none\npack current at full throttle  A                  99          "
         "none\nmotor current at full throttle A                  25          none\ncell, full "
         "throttle, half pack V                3.33          none\n30 m straight up               "
         "s                1.41          none\nsustained turn at 12 m/s       g                 "
         "6.9          none\nfastest climb                  m/s                29          "
         "none\ntop speed                      m/s                33          none\nroll "
         "acceleration              rad/s2            990          none\npitch acceleration        "
         "     rad/s2            920          none\nyaw acceleration               rad/s2          "
         "   98          none\nrotor lag                      s               0.020          "
         "none\ncrash energy                   J                31.7          none\npack energy    "
         "                Wh               15.7          none\nair density                    "
         "kg/m3            1.21          none\ndensity altitude               m                 "
         "155          none\nIn a crash, times what the first of them, (a), bears\n                "
         "                                 (a)           (b)\narms bear the brief's crash          "
         "           1.00          1.00\nthe same in its own cruise                      1.00      "
         "    1.00\nthe same at its own top speed                   1.00             -\nleast of "
         "the screws bears                       1.00          1.00\nroll by the same output       "
         "                  1.00             -\n(68 lines)"},
        {case_73,
         "Other margins: what it bears over what it must bear\n                                    "
         "             (a)           (b)\nmotor_base to the winding                       0.88     "
         "     none\ncell volts at landing                           1.05          none\na cell's "
         "volts at full throttle                 1.11          none\narm against the rotor's turns "
         "                  1.11          none\narm against cruise turns                        "
         "1.12          none\nleast volts for motor                           1.29          "
         "none\nESC volts when cut                               1.4          none\nvolts on motor "
         "                                 1.47          none\nvolts on brain                      "
         "            1.49          none\nmotor current in a burst                         1.5     "
         "     none\nleast volts for brain                           1.58          "
         "none\nmotor_base in its thread                        1.67          none\nESC current in "
         "a burst                           1.7          none\npack after a flight                 "
         "             2.2          none\nESC board in a burst                             2.5     "
         "     none\nESC board as flown                                 3          none\nvolts "
         "lost in lead                               2.8          none\narm's bend at full "
         "throttle                        4          none\nmotor current as flown                  "
         "         4.2          none\nmotor winding, burst                               4         "
         " none\nESC current as flown                             4.9          none\narm_root in a "
         "crash                                6          none\nposts in a crash                   "
         "                7          none\nlead's solder as flown                             7    "
         "      none\nlead after a burst                                 8          none\nphase's "
         "solder as flown                            9          none\nphase after a burst          "
         "                     10          none\nmotor winding as flown                            "
         "10          none\narm at full throttle                              19          none\nIn "
         "a crash, times what the first of them, (a), bears\n                                      "
         "           (a)           (b)\narms bear the brief's crash                     1.00       "
         "   1.00\nthe same in its own cruise                      1.00          1.00\nthe same at "
         "its own top speed                   1.00          1.00\nleast of the screws bears        "
         "               1.00          1.00\nroll by the same output                         1.00  "
         "        1.00\n(97 lines)"},
        {case_74, "as usual"},
        {case_75, "as usual"},
        {case_76, "as usual"},
        {case_77, "as usual"},
        {case_78, "as usual"},
        {case_79, "as usual"},
        {case_80,
         "  (c) other\n  (d) other\nWhat differs\n                                             (a) "
         "      (b)       (c)       (d)\nall-up mass                    g             441       "
         "882       882       882\nIn a crash, times what the first of them, (a), bears\n          "
         "                                   (a)       (b)       (c)       (d)\narms bear the "
         "brief's crash                 1.00      1.00      1.00      1.00\nthe same in its own "
         "cruise                  1.00      1.00      1.00      1.00\nthe same at its own top "
         "speed               1.00      1.00      1.00      1.00\nleast of the screws bears        "
         "           1.00      1.00      1.00      1.00\nroll by the same output                   "
         "  1.00      1.00      1.00      1.00\ndry mass (no pack)             g             "
         "282\nmoney in the craft                        103.50\ncentre of mass, forward        mm "
         "            -6\ncentre of mass, left           mm              0\ncentre of mass, up     "
         "        mm             20\nroll inertia                   kg mm2       1290\npitch "
         "inertia                  kg mm2       1320\nyaw inertia                    kg mm2       "
         "2330\nproduct of inertia xy          kg mm2          0\nproduct of inertia xz          "
         "kg mm2         30\nproduct of inertia yz          kg mm2          0\npack shift to "
         "balance          mm             18\nhover output                   %              "
         "35\nhover current                  A             7.2\nhover power                    W   "
         "          108\nhover power by mass            W/kg          250\nrotor speed in hover    "
         "       rpm          9100\nthrust to weight, idling                   0.036\npushed by a "
         "gust of 5 m/s      m/s2         0.55\nhover time                     min           "
         "6.6\ntime at best-range speed       min           5.9\nyour minutes                   "
         "min           3.1\nmean current as flown          A              15\nrms current as "
         "flown           A              22\na motor's rms current as flown A             "
         "7.1\nwinding, at that rms           C              29\npack, all its charge so flown  C  "
         "            41\ncell, hardest load at landing  V            3.14\nrotor speed in your "
         "cruise     rpm          9200\nbest range                     m            "
         "5000\nbest-range speed               m/s            14\nfull thrust, fresh pack        N "
         "             32\nthrust to weight, fresh                      7.3\nthrust to weight, "
         "half                       5.9\nthrust to weight, landing                    5.6\npack "
         "current at full throttle  A              99\nmotor current at full throttle A            "
         "  25\ncell, full throttle, half pack V            3.33\n30 m straight up               s "
         "           1.41\nsustained turn at 12 m/s       g             6.9\nfastest climb         "
         "         m/s            29\ntop speed                      m/s            33\nroll "
         "acceleration              rad/s2        990\npitch acceleration             rad/s2       "
         " 920\nyaw acceleration               rad/s2         98\nrotor lag                      s "
         "          0.020\ncrash energy                   J            31.7\npack energy           "
         "         Wh           15.7\nair density                    kg/m3        1.21\ndensity "
         "altitude               m             155\n(70 lines)"},
        {case_81, "as usual"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_compared);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(readings_and_what_they_make_of_masses),
        cmocka_unit_test(readings_may_be_json),
        cmocka_unit_test(what_changed_between_two_days),
        cmocka_unit_test(what_changed_may_be_json),
        cmocka_unit_test(craft_side_by_side),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
