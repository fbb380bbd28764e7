/* rooms: show store advise craft physics base */
/* What a sheet says in states that are rare: figures that do not exist, nothing to compare with, nothing taken,
 * a trial that changes nothing. By the lines that are others then than on the sheet of the craft of the bench
 * with every key, with a cube off (tests/data); the truth is what is put in here, or missing. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advise/swap.h"
#include "changed_lines.h"
#include "craft_fixture.h"
#include "near.h"
#include "show/arms.h"
#include "show/crash.h"
#include "show/kept.h"
#include "show/label_show.h"
#include "show/mass_rules.h"
#include "show/outline.h"
#include "show/radio.h"
#include "show/ruler.h"
#include "show/ruler_json.h"
#include "show/screws.h"
#include "show/sheet_json.h"
#include "show/sheet_text.h"
#include "show/source_words.h"
#include "show/trace.h"
#include "show/wires.h"

typedef struct states {
    fixture *f;
    pare_craft *changed;
    pare_sheet_view view;
    pare_sheet *other;
    pare_swaps *swaps;
    pare_ruler ruler;
    const char *money;
    pare_screen screen;
} states;

static void close_states(states *s)
{
    void *state = s->f;
    free(s->changed);
    free(s->other);
    free(s->swaps);
    fixture_close(&state);
    free(s);
}

static states *open_states(void)
{
    states *s = calloc(1, sizeof *s);
    pare_error err = {0};
    assert_non_null(s);
    s->f = fixture_open("every-key.yaml", "weir-5");
    s->changed = malloc(sizeof *s->changed);
    s->other = malloc(sizeof *s->other);
    s->swaps = calloc(1, sizeof *s->swaps);
    assert_true(s->changed && s->other && s->swaps);
    *s->other = *fixture_sheet(s->f, true);
    if (pare_swap_apply(s->f->bench, s->f->craft, "cube=off", s->changed, NULL, &err) != PARE_OK ||
        pare_sheet_view_fill(s->changed, s->f->craft, 0, "cube=off", &s->view, &err) != PARE_OK)
        fail_msg("%s", err.text);
    s->screen = (pare_screen){.width = 80};
    s->ruler = pare_ruler_of(&s->view.craft, &s->view.sheet, &s->view.craft_before, &s->view.before,
                             s->view.limit_kg);
    s->money = "EUR";
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

static void none(states *s, pare_figure figure)
{
    s->view.sheet.figure[figure].exists = false;
    snprintf(s->view.sheet.figure[figure].why, sizeof s->view.sheet.figure[figure].why,
             "said so here");
}

static void say_first(const states *s, pare_text *out)
{
    pare_sheet_text(&s->view, s->swaps, s->money, &s->screen, out);
}

static void say_all(const states *s, pare_text *out)
{
    pare_sheet_all_text(&s->view, &s->screen, out);
}

static void say_object(const states *s, pare_text *out)
{
    put_json(pare_sheet_object(&s->view), out);
}

static void say_ruler(const states *s, pare_text *out)
{
    pare_ruler_text(&s->ruler, &s->screen, out);
}

static void say_ruler_json(const states *s, pare_text *out)
{
    put_json(pare_ruler_object(&s->view, s->swaps), out);
}

static void say_outline(const states *s, pare_text *out)
{
    json_t *object = NULL;
    pare_error err = {0};
    assert_int_equal(pare_outline_object(&s->view, 0, NULL, &object, &err), PARE_OK);
    json_object_del(object, "views");
    json_object_del(object, "items");
    put_json(object, out);
}

static void say_kept(const states *s, pare_text *out)
{
    pare_kept_text(s->other, &s->view.sheet, &s->screen, out);
    put_json(pare_kept_array(s->other, &s->view.sheet), out);
}

static void say_trace(const states *s, pare_text *out)
{
    for (int i = 0; i < 3; i++)
        pare_trace_text(&s->view, (pare_trace_of)i, &s->screen, out);
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
    (void)s;
    none(s, PARE_FLOWN_TIME);
}

static void case_2(states *s)
{
    (void)s;
    none(s, PARE_HOVER_OUTPUT);
}

static void case_3(states *s)
{
    (void)s;
    none(s, PARE_TWR_FRESH);
}

static void case_4(states *s)
{
    (void)s;
    none(s, PARE_ROLL);
}

static void case_5(states *s)
{
    (void)s;
    none(s, PARE_PITCH);
}

static void case_6(states *s)
{
    (void)s;
    none(s, PARE_CG_X);
}

static void case_7(states *s)
{
    (void)s;
    none(s, PARE_CG_Y);
}

static void case_8(states *s)
{
    (void)s;
    none(s, PARE_PACK_SHIFT);
}

static void case_9(states *s)
{
    (void)s;
    none(s, PARE_ALL_UP);
}

static void case_10(states *s)
{
    (void)s;
    none(s, PARE_HOVER_A);
}

static void case_11(states *s)
{
    s->view.loadout = NULL;
}

static void case_12(states *s)
{
    s->view.craft.loadouts = 0;
    s->view.loadout = NULL;
}

static void case_13(states *s)
{
    for (int i = 0; i < PARE_FIGURES; i++)
        s->view.before.figure[i] = s->view.sheet.figure[i];
}

static void case_14(states *s)
{
    s->view.before.figure[PARE_FLOWN_TIME].exists = false;
}

static void case_15(states *s)
{
    s->view.before.figure[PARE_ROLL].exists = false;
}

static void case_16(states *s)
{
    s->view.limit_kg = (double)NAN;
    s->view.flown_at_limit_s = (double)NAN;
}

static void case_17(states *s)
{
    s->view.limit_kg = 0.3;
}

static void case_18(states *s)
{
    s->view.sheet.chance_all_up = (double)NAN;
}

static void case_19(states *s)
{
    s->view.sheet.chance_all_up = 0.001;
}

static void case_20(states *s)
{
    s->view.sheet.chance_all_up = 0.5;
}

static void case_21(states *s)
{
    s->view.sheet.margins = 0;
}

static void case_22(states *s)
{
    s->view.tried = NULL;
}

static void case_23(states *s)
{
    s->view.tried = NULL;
    s->view.against_first = true;
    s->view.taken.on = 2;
    s->view.taken.first_kg = 0.45;
    s->view.taken.first_roll_rad_s2 = 900;
    s->view.taken.first_pitch_rad_s2 = 800;
}

static void case_24(states *s)
{
    s->view.taken.on = 1;
    s->view.taken.ordered = 1;
    s->view.taken.chosen = 2;
    s->view.taken.planned = true;
    s->view.taken.planned_kg = 0.42;
    s->view.taken.planned_u_kg = 0.003;
}

static void case_25(states *s)
{
    s->view.taken.chosen = 1;
    strcpy(s->view.taken.why, "the pack does not fit");
}

static void case_26(states *s)
{
    s->view.taken.ordered = 1;
    strcpy(s->view.taken.why, "the pack does not fit");
}

static void case_27(states *s)
{
    s->view.balance.exists = false;
    strcpy(s->view.balance.why, "no arms are said");
}

static void case_28(states *s)
{
    s->view.balance.left = 0.7;
    s->view.balance.right = 0.3;
    s->view.balance.left_u = 0.001;
}

static void case_29(states *s)
{
    s->view.balance.front = 0.7;
    s->view.balance.rear = 0.3;
    s->view.balance.front_u = 0.001;
    s->view.balance.most = 0;
    s->view.balance.more = 0.2;
}

static void case_30(states *s)
{
    s->view.exchange.exists = false;
}

static void case_31(states *s)
{
    s->money = NULL;
}

static void case_32(states *s)
{
    s->money = "";
    s->swaps->band_kg[0] = 0.01;
    s->swaps->band_kg[1] = 0.03;
    s->swaps->band_kg[2] = 0.1;
}

static void case_33(states *s)
{
    s->view.sheet.with_u = false;
}

static void case_34(states *s)
{
    s->screen.utf8 = true;
    s->screen.colour = true;
}

static void case_35(states *s)
{
    s->view.radios = 0;
}

static void case_36(states *s)
{
    s->view.crash.against = false;
}

static void case_37(states *s)
{
    s->view.crash.joints = 0;
}

static void case_38(states *s)
{
    s->view.crash.at[PARE_CRASH_STATED].arm.value = (double)NAN;
}

static void case_39(states *s)
{
    s->view.crash.roll.value = (double)NAN;
}

static void case_40(states *s)
{
    s->view.crash.roll.value = 1.2;
}

static void case_41(states *s)
{
    s->view.crash.roll.value = 1.001;
    s->view.crash.pitch.value = 1.2;
}

static void case_42(states *s)
{
    s->view.crash.roll.value = s->view.crash.pitch.value = 1;
    s->view.crash.yaw.value = 1.2;
}

static void case_43(states *s)
{
    s->view.crash.plates = false;
}

static void case_44(states *s)
{
    s->view.crash.arm_same_m = (double)NAN;
}

static void case_45(states *s)
{
    s->view.crash.arm_same_m = s->view.crash.arm_then_m;
}

static void case_46(states *s)
{
    s->view.crash.arm_spare_kg = 0;
}

static void case_47(states *s)
{
    s->view.crash.arm_spare_kg = -0.004;
}

static void case_48(states *s)
{
    (void)s;
    none(s, PARE_FLOWN_TIME);
}

static void case_49(states *s)
{
    (void)s;
    none(s, PARE_HOVER_OUTPUT);
}

static void case_50(states *s)
{
    (void)s;
    none(s, PARE_TWR_FRESH);
}

static void case_51(states *s)
{
    (void)s;
    none(s, PARE_ROLL);
}

static void case_52(states *s)
{
    (void)s;
    none(s, PARE_TOP_SPEED);
}

static void case_53(states *s)
{
    (void)s;
    none(s, PARE_HOVER_RPM);
}

static void case_54(states *s)
{
    (void)s;
    none(s, PARE_CRUISE_RPM);
}

static void case_55(states *s)
{
    (void)s;
    none(s, PARE_CRASH);
}

static void case_56(states *s)
{
    s->view.tried = NULL;
    s->view.against_first = true;
}

static void case_57(states *s)
{
    s->view.arms_known = false;
}

static void case_58(states *s)
{
    s->view.arms.arm.form = PARE_ARM_TUBE;
}

static void case_59(states *s)
{
    s->view.arms.tip_kg = 0;
}

static void case_60(states *s)
{
    s->view.arms.stated = !s->view.arms.stated;
}

static void case_61(states *s)
{
    s->view.sheet.flown_slow_rad_s = 0;
    s->view.sheet.flown_fast_rad_s = 0;
}

static void case_62(states *s)
{
    s->view.arms.low_hz = 1;
    s->view.arms.high_hz = 1e4;
}

static void case_63(states *s)
{
    s->view.arms.protects_kg = 0.004;
}

static void case_64(states *s)
{
    s->view.growth_known = !s->view.growth_known;
    strcpy(s->view.growth_why, "no law has such a pack");
}

static void case_65(states *s)
{
    s->view.exchange.exists = false;
}

static void case_66(states *s)
{
    s->view.balance.exists = false;
    strcpy(s->view.balance.why, "no arms are said");
}

static void case_67(states *s)
{
    s->view.sheet.margins = 0;
}

static void case_68(states *s)
{
    s->view.radios = 0;
}

static void case_69(states *s)
{
    s->view.craft.joints = 0;
}

static void case_70(states *s)
{
    s->view.craft.runs = 0;
}

static void case_71(states *s)
{
    s->view.craft.brief.limits = 0;
}

static void case_72(states *s)
{
    s->view.sheet.unpriced = 2;
}

static void case_73(states *s)
{
    s->view.sheet.unpriced = 0;
}

static void case_74(states *s)
{
    s->view.limit_kg = (double)NAN;
}

static void case_75(states *s)
{
    s->view.crash.against = false;
}

static void case_76(states *s)
{
    s->view.crash.propellers = (double)NAN;
}

static void case_77(states *s)
{
    s->view.crash.frame = (double)NAN;
}

static void case_78(states *s)
{
    s->view.crash.propellers = 3;
    s->view.crash.frame = 30;
}

static void case_79(states *s)
{
    s->view.crash.held = 0;
}

static void case_80(states *s)
{
    s->view.crash.hold[0].pad = !s->view.crash.hold[0].pad_then;
}

static void case_81(states *s)
{
    s->view.crash.hold[0].pad = false;
    s->view.crash.hold[0].pad_then = true;
    s->view.crash.hold[0].ways = 1;
}

static void case_82(states *s)
{
    s->view.crash.hold[0].bears = (pare_ratio){1.3, 0.1};
}

static void case_83(states *s)
{
    s->view.crash.hold[0].bears = (pare_ratio){1, 0};
}

static void case_84(states *s)
{
    s->view.crash.joints = 0;
}

static void case_85(states *s)
{
    s->view.crash.at[PARE_CRASH_TOP].speed_m_s = (double)NAN;
}

static void case_86(states *s)
{
    s->view.sheet.with_u = false;
}

static void case_87(states *s)
{
    s->view.sheet.chance_all_up = 0.999;
}

static void case_88(states *s)
{
    (void)s;
    none(s, PARE_FLOWN_TIME);
}

static void case_89(states *s)
{
    (void)s;
    none(s, PARE_HOVER_OUTPUT);
}

static void case_90(states *s)
{
    (void)s;
    none(s, PARE_ALL_UP);
}

static void case_91(states *s)
{
    s->view.tried = NULL;
}

static void case_92(states *s)
{
    s->view.growth_known = !s->view.growth_known;
    strcpy(s->view.growth_why, "no law has such a pack");
}

static void case_93(states *s)
{
    s->view.exchange.exists = false;
}

static void case_94(states *s)
{
    s->view.balance.exists = false;
    strcpy(s->view.balance.why, "no arms are said");
}

static void case_95(states *s)
{
    s->view.balance.shifts = false;
}

static void case_96(states *s)
{
    s->view.balance.most = 0;
}

static void case_97(states *s)
{
    s->view.sheet.with_u = false;
}

static void case_98(states *s)
{
    s->view.taken.chosen = 1;
    strcpy(s->view.taken.why, "the pack does not fit");
}

static void case_99(states *s)
{
    s->view.taken.on = 1;
    s->view.taken.planned = true;
    s->view.taken.planned_kg = 0.4;
}

static void case_100(states *s)
{
    s->view.before.figure[PARE_FLOWN_TIME].exists = false;
}

static void case_101(states *s)
{
    s->view.limit_kg = (double)NAN;
}

static void case_102(states *s)
{
    s->view.arms_known = false;
}

static void case_103(states *s)
{
    s->view.radios = 0;
}

static void case_104(states *s)
{
    s->view.crash.propellers = (double)NAN;
}

static void case_105(states *s)
{
    s->view.crash.at[PARE_CRASH_TOP].speed_m_s = (double)NAN;
}

static void case_106(states *s)
{
    s->view.crash.against = false;
}

static void case_107(states *s)
{
    s->ruler.limit_kg = (double)NAN;
}

static void case_108(states *s)
{
    s->ruler.limit_kg = 0;
}

static void case_109(states *s)
{
    s->ruler.limit_kg = 9;
}

static void case_110(states *s)
{
    s->ruler.limit_kg = 0.2;
}

static void case_111(states *s)
{
    s->ruler.limit_kg = 0.01;
}

static void case_112(states *s)
{
    s->ruler.slices = 1;
}

static void case_113(states *s)
{
    s->ruler.slices = 0;
}

static void case_114(states *s)
{
    s->ruler.slice[0].known_kg[PARE_WEIGHED] = 30;
}

static void case_115(states *s)
{
    s->ruler.slice[0].known_kg[PARE_WEIGHED] = 2e3;
}

static void case_116(states *s)
{
    s->ruler.slice[0].off_kg = 0.5;
}

static void case_117(states *s)
{
    s->ruler.slice[0].off_kg = -0.05;
}

static void case_118(states *s)
{
    s->ruler.slice[1].unlisted = true;
}

static void case_119(states *s)
{
    s->screen.utf8 = true;
}

static void case_120(states *s)
{
    s->screen.width = 240;
}

static void case_121(states *s)
{
    s->screen.width = 60;
}

static void case_122(states *s)
{
    (void)s;
    none(s, PARE_FLOWN_TIME);
}

static void case_123(states *s)
{
    s->view.exchange.exists = false;
}

static void case_124(states *s)
{
    s->view.tried = NULL;
}

static void case_125(states *s)
{
    s->view.limit_kg = (double)NAN;
}

static void case_126(states *s)
{
    s->view.limit_kg = 0.1;
}

static void case_127(states *s)
{
    s->view.sheet.figure[PARE_FLOWN_TIME].value = 0;
}

static void case_128(states *s)
{
    (void)s;
    none(s, PARE_CG_X);
}

static void case_129(states *s)
{
    (void)s;
    none(s, PARE_PACK_SHIFT);
}

static void case_130(states *s)
{
    s->view.tried = NULL;
}

static void case_131(states *s)
{
    s->view.craft.item[0].off = true;
}

static void case_132(states *s)
{
    s->other->figure[PARE_HOVER_A].exists = false;
}

static void case_133(states *s)
{
    (void)s;
    none(s, PARE_HOVER_A);
}

static void case_134(states *s)
{
    (void)s;
    none(s, PARE_FLOWN_TIME);
}

static void case_135(states *s)
{
    s->other->figure[PARE_HOVER_A].u = 0;
}

static void case_136(states *s)
{
    s->other->figure[PARE_FLOWN_TIME].value = 60;
}

static void case_137(states *s)
{
    (void)s;
    none(s, PARE_FLOWN_TIME);
}

static void case_138(states *s)
{
    (void)s;
    none(s, PARE_HOVER_A);
}

static void case_139(states *s)
{
    s->view.sheet.with_u = false;
}

static void case_140(states *s)
{
    s->view.tried = NULL;
}

static void case_141(states *s)
{
    s->view.sheet.figure[PARE_FLOWN_TIME].value = 0;
}

static void the_first_screen_says_what_is_missing(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_0,
         "weir-5, loadout race (others: long)\ntrying cube=off\nIt changes nothing here: this "
         "loadout has a part of its own in that place, or\nthe craft is so already.\n\nall-up      "
         "   438 +- 5 g (0), 162 g under the limit of 600 g, met with a chance\n               of "
         "over 99 %\n\n                                                                     limit "
         "600 V\n'0           '100         '200          '300         '400         '500         "
         "g\nWWWWWWWWWWWWSSSSSSSSSSSSSSSSEEESSSSSSSSSSSSSSSSSSSSSSSSSCC\n|frame 88  |thrust 144    "
         "    | |pack 159            | | |wire 9.7\n                              |electronics 12  "
         "      | |screws 11\n                                                     |sight 15\nW "
         "weighed  S stated  C computed  E estimated\n\nto save          grams  together       "
         "EUR\nfree               0.0       0.0         0  no money, no job of the brief "
         "lost\ncheap              0.0       0.0         0  2 a gram or less, motors, pack "
         "stay\npack, motors       0.0       0.0         0  other motors, another pack\nworst "
         "margin   0.78 +- 0.07 (1 holds): your minutes 3.1 min, at least 4 min,\n               "
         "brief\nyour minutes   3.1 +- 0.3 min now (0 s), 2.3 at the limit; lands on charge "
         "left\nhover          35 +- 1 % output, 7.1 +- 0.4 A, 250 W/kg\nthrust/weight  7.3 +- 0.4 "
         "fresh, 5.7 +- 0.3 landing\nrotors         from the stand table of mo-w with pr-w (15.2 "
         "to 15.9 V, 2 rows),\n               learned from 3 flights and kept on 2026-05-01, "
         "uncertain by\n               3 % in thrust and 5 % in power\nquickness      roll 990 +- "
         "60 (0 %), pitch 920 +- 50 (0 %) rad/s2, against the\n               craft without the "
         "trial\nsame crash     1.00 +- 0.01 times the energy, arms bear 1.00 +- 0.01 times as\n   "
         "            much of it, the least of its screws (arm_root) 1.00 +- 0.01\ngains          "
         "as before: the same output turns it as fast\nbalance        centre of mass 7 +- 1 mm "
         "aft, 0 mm left; pack 18 mm forward to\n               zero it; in hover front motors "
         "carry 45.8 %, rear 54.2 %\none gram       costs at the centre 0.35 s of your minutes; at "
         "the arm tips\n               0.35 s, 0.55 % of roll, 0.49 % of pitch\nweigh next     "
         "motor (38 % of the doubt about all-up), propeller (35 %), pack\n               (19 "
         "%)\nCell 3 of pack 2 (pa-w) has 1.24 times the resistance of its mates, "
         "read\n2026-04-02: it ages faster than they do.\nA legal mass limit counts the craft as "
         "flown, with everything on it: check your\nlocal rules.\n"},
        {case_1, "your minutes   none: said so here\n(41 lines)"},
        {case_2, "hover          none: said so here\n(41 lines)"},
        {case_3, "thrust/weight  none: said so here\n(41 lines)"},
        {case_4,
         "quickness      none: said so here\n               0.35 s, 0.49 % of pitch\n(40 lines)"},
        {case_5,
         "quickness      roll 990 +- 60 (0 %), pitch - (0 %) rad/s2, against the craft\n           "
         "    without the trial\n               0.35 s, 0.55 % of roll\n(41 lines)"},
        {case_6, "(41 lines)"},
        {case_7, "(41 lines)"},
        {case_8, "balance        centre of mass 7 +- 1 mm aft, 0 mm left; in hover front motors\n  "
                 "             carry 45.8 %, rear 54.2 %\n(41 lines)"},
        {case_9, "all-up         - g (0), 162 g under the limit of 600 g, met with a chance of\n   "
                 "            over 99 %\n(41 lines)"},
        {case_10, "hover          35 +- 1 % output, - A, 250 W/kg\n(41 lines)"},
        {case_11, "weir-5 (others: race, long)\n(43 lines)"},
        {case_12, "weir-5\n(43 lines)"},
        {case_13, "as usual"},
        {case_14,
         "your minutes   3.1 +- 0.3 min now, 2.3 at the limit; lands on charge left\n(41 lines)"},
        {case_15, "quickness      roll 990 +- 60, pitch 920 +- 50 (0 %) rad/s2, against the "
                  "craft\n               without the trial\n(41 lines)"},
        {case_16,
         "all-up         438 +- 5 g (0)\n'0      '50     '100    '150     '200    '250    '300     "
         "'350    '400  "
         "g\nWWWWWWWWWWWWWWWSSSSSSSSSSSSSSSSSSSSSEEESSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSCCC\n|frame 88  "
         "   |thrust 144             | |pack 159                  | | |wire 9.7\n                  "
         "                    |electronics 12              | |screws 11\n                          "
         "                                         |sight 15\nyour minutes   3.1 +- 0.3 min now (0 "
         "s); lands on charge left\n(39 lines)"},
        {case_17,
         "all-up         438 +- 5 g (0), 138 g over the limit of 300 g, met with a chance\n        "
         "                               limit 300 V\n'0      '50     '100    '150     '200    "
         "'250    '300     '350    '400  "
         "g\nWWWWWWWWWWWWWWWSSSSSSSSSSSSSSSSSSSSSEEESSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSCCC\n|frame 88  "
         "   |thrust 144             | |pack 159                  | | |wire 9.7\n                  "
         "                    |electronics 12              | |screws 11\n                          "
         "                                         |sight 15\n(43 lines)"},
        {case_18, "all-up         438 +- 5 g (0), 162 g under the limit of 600 g\n(42 lines)"},
        {case_19, "               of under 1 %\n(43 lines)"},
        {case_20, "               of 50 %\n(43 lines)"},
        {case_21, "(41 lines)"},
        {case_22,
         "all-up         438 +- 5 g, 162 g under the limit of 600 g, met with a chance of\n        "
         "       over 99 %\nyour minutes   3.1 +- 0.3 min now, 2.3 at the limit; lands on charge "
         "left\nquickness      roll 990 +- 60, pitch 920 +- 50 rad/s2\n(39 lines)"},
        {case_23, "all-up         438 +- 5 g, 162 g under the limit of 600 g, met with a chance "
                  "of\n               over 99 %\ntaken          2 fitted (-12.0 g)\nyour minutes   "
                  "3.1 +- 0.3 min now, 2.3 at the limit; lands on charge left\nquickness      roll "
                  "990 +- 60 (+10 %), pitch 920 +- 50 (+15 %) rad/s2, against\n               the "
                  "craft without what was fitted\n(41 lines)"},
        {case_24,
         "taken          1 fitted, 1 ordered, 2 chosen; 420 +- 3 g all-up once fitted\n(44 lines)"},
        {case_25, "taken          1 chosen; as things are not all of it goes on: the pack does "
                  "not\n               fit\n(45 lines)"},
        {case_26, "taken          1 ordered; as things are not all of it goes on: the pack does "
                  "not\n               fit\n(45 lines)"},
        {case_27, "               zero it; no arms are said\n(43 lines)"},
        {case_28, "as usual"},
        {case_29,
         "               zero it; in hover front motors carry 70.0 %, rear 30.0 %\n(43 lines)"},
        {case_30, "(41 lines)"},
        {case_31, "to save          grams  together     money\n(43 lines)"},
        {case_32, "to save          grams  together     money\nfree                10        10    "
                  "     0  no money, no job of the brief lost\ncheap               20        30    "
                  "     0  2 a gram or less, motors, pack stay\npack, motors        70       100   "
                  "      0  other motors, another pack\n(43 lines)"},
        {case_33, "as usual"},
        {case_34,
         "\x1B[1mweir-5, loadout race (others: long)\x1B[0m\nall-up         438 \xC2\xB1 5 g (0), "
         "162 g under the limit of 600 g, met with a chance\n                                      "
         "                               limit 600 \xE2\x96\xBC\n\xE2\x95\xB7"
         "0           \xE2\x95\xB7"
         "100         \xE2\x95\xB7"
         "200          \xE2\x95\xB7"
         "300         \xE2\x95\xB7"
         "400         \xE2\x95\xB7"
         "500         "
         "g\n\x1B["
         "36m\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88"
         "\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x89\xE2\x96\x93\xE2\x96\x93\xE2"
         "\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96"
         "\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x91"
         "\xE2\x96\x91\xE2\x96\x91\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2"
         "\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96"
         "\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93"
         "\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x92\xE2\x96\x92\x1B["
         "0m\n\xE2\x94\x94"
         "frame 88  \xE2\x94\x94thrust 144        \xE2\x94\x82 \xE2\x94\x94pack 159            "
         "\xE2\x94\x82 \xE2\x94\x82 \xE2\x94\x94wire 9.7\n                              "
         "\xE2\x94\x94"
         "electronics 12        \xE2\x94\x82 \xE2\x94\x94screws 11\n                               "
         "                      \xE2\x94\x94sight 15\n\xE2\x96\x88 weighed  \xE2\x96\x93 stated  "
         "\xE2\x96\x92 computed  \xE2\x96\x91 estimated\nworst margin   0.78 \xC2\xB1 0.07 (1 "
         "holds): your minutes 3.1 min, at least 4 min,\nyour minutes   3.1 \xC2\xB1 0.3 min now "
         "(0 s), 2.3 at the limit; lands on charge left\nhover          35 \xC2\xB1 1 % output, "
         "7.1 \xC2\xB1 0.4 A, 250 W/kg\nthrust/weight  7.3 \xC2\xB1 0.4 fresh, 5.7 \xC2\xB1 0.3 "
         "landing\nquickness      roll 990 \xC2\xB1 60 (0 %), pitch 920 \xC2\xB1 50 (0 %) rad/s2, "
         "against the\nsame crash     1.00 \xC2\xB1 0.01 times the energy, arms bear 1.00 \xC2\xB1 "
         "0.01 times as much\n               of it, the least of its screws (arm_root) 1.00 "
         "\xC2\xB1 0.01\nbalance        centre of mass 7 \xC2\xB1 1 mm aft, 0 mm left; pack 18 mm "
         "forward to\n(43 lines)"},
        {case_35, "as usual"},
        {case_36, "(40 lines)"},
        {case_37, "               much of it\n(43 lines)"},
        {case_38, "same crash     1.00 +- 0.01 times the energy, the least of its screws "
                  "(arm_root)\n               1.00 +- 0.01\n(43 lines)"},
        {case_39, "as usual"},
        {case_40, "gains          roll 0.83, pitch 1.00, yaw 1.00 times those before for the "
                  "same\n               feel, since the same output turns it otherwise; check them "
                  "in\n               short flights\n(45 lines)"},
        {case_41, "gains          roll 1.00, pitch 0.83, yaw 1.00 times those before for the "
                  "same\n               feel, since the same output turns it otherwise; check them "
                  "in\n               short flights\n(45 lines)"},
        {case_42, "gains          roll 1.00, pitch 1.00, yaw 0.83 times those before for the "
                  "same\n               feel, since the same output turns it otherwise; check them "
                  "in\n               short flights\n(45 lines)"},
        {case_43, "as usual"},
        {case_44, "as usual"},
        {case_45, "as usual"},
        {case_46, "as usual"},
        {case_47, "as usual"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_first);
}

static void what_stands_behind_it_says_what_is_missing(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_48,
         "  your minutes                    none: said so here\n    8          22.1    15.3    "
         "18.2   0.05       -  +0.70 %\n    10         15.0      19      24   0.08       -  +0.43 "
         "%\n    12 now      9.7      28      34   0.12       -      0 %\n    14          6.0      "
         "51      56   0.20       -  -0.67 %\n    16          4.1     100     100   0.31       -   "
         "-1.7 %\n    18          2.5     270     230   0.49       -   -3.4 %  volts lost in "
         "lead\n    The thinnest that breaks nothing is AWG 16. 95 mm a way would reach.\n    16   "
         "      26.0    17.0    17.3   0.08       -   +1.3 %\n    18         15.8      23      22  "
         " 0.13       -  +0.82 %\n    20 now      9.8      37      32   0.21       -      0 %\n    "
         "22          7.3      57      47   0.33       -   -1.3 %\n    24          5.6      90     "
         " 80   0.52       -   -3.2 %\n    26          3.6     190     150   0.80       -   -6.2 "
         "%\n(313 lines)"},
        {case_49, "  hover output                    none: said so here\n(315 lines)"},
        {case_50, "  thrust to weight, fresh         none: said so here\n(315 lines)"},
        {case_51, "  roll acceleration               none: said so here\n(315 lines)"},
        {case_52,
         "  top speed                       none: said so here\nfull throttle. Part of that asks "
         "for more than full throttle gives, and is flown\nat full throttle.\n(313 lines)"},
        {case_53, "  rotor speed in hover            none: said so here\n  rotors as flown, once a "
                  "turn    152 to 236 Hz\n(315 lines)"},
        {case_54, "  rotor speed in your cruise      none: said so here\n(315 lines)"},
        {case_55, "  crash energy                    none: said so here\n(315 lines)"},
        {case_56, "A crash, against the craft without what was fitted\n(315 lines)"},
        {case_57, "(306 lines)"},
        {case_58,
         "Arms: tube (outside x wall) 11 x 5 mm, 89 mm free, 37.8 g at the tip\n(315 lines)"},
        {case_59, "Arms: plate 11 x 5 mm, 89 mm free, 0.0 g at the tip\n(315 lines)"},
        {case_60, "  Neither meets them within 10 % at hover or in cruise. The stiffness is as "
                  "the\n  frame states it, within 10 %. Held fast at the root, as no clamp quite "
                  "does.\n  Their edges are some 10 cm2 of the craft's drag area.\n(315 lines)"},
        {case_61, "(313 lines)"},
        {case_62,
         "  first bending                   1 to 10000 Hz\n  A turn of the rotor meets bending at "
         "hover and cruise; a blade passing meets\n  bending at hover and cruise, within 10 %: the "
         "arms may ring there. The\n  stiffness is the band of the material: the frame states "
         "none. Held fast at the\n  root, as no clamp quite does. Their edges are some 10 cm2 of "
         "the craft's drag\n  area.\n(317 lines)"},
        {case_63, "  first bending                   104 to 124 Hz; +0 Hz without what "
                  "protects\n(315 lines)"},
        {case_64, "(313 lines)"},
        {case_65, "(284 lines)"},
        {case_66, "  hover           no shares of the motors: no arms are said\n(313 lines)"},
        {case_67,
         "    8          22.1    15.3    18.2   0.05    -4.5  +0.70 %  your minutes\n    10        "
         " 15.0      19      24   0.08    -2.0  +0.43 %  your minutes\n    12 now      9.7      28 "
         "     34   0.12       0      0 %  your minutes\n    14          6.0      51      56   "
         "0.20    +1.5  -0.67 %  your minutes\n    16          4.1     100     100   0.31    +2.4  "
         " -1.7 %  your minutes\n    None of these breaks nothing. 95 mm a way would reach. As it "
         "is, it costs\n    3.1 s of your minutes, -0.3 by its resistance, and 1.2 % of full "
         "thrust.\n    16         26.0    17.0    17.3   0.08    -5.6   +1.3 %  your minutes\n    "
         "18         15.8      23      22   0.13    -2.1  +0.82 %  your minutes\n    20 now      "
         "9.8      37      32   0.21       0      0 %  your minutes\n    22          7.3      57   "
         "   47   0.33    +1.0   -1.3 %  your minutes\n    24          5.6      90      80   0.52  "
         "  +1.7   -3.2 %  your minutes\n    26          3.6     190     150   0.80    +2.5   -6.2 "
         "%  your minutes\n    None of these breaks nothing. 103 mm a way would reach.\n(225 "
         "lines)"},
        {case_68, "(308 lines)"},
        {case_69,
         "    8          22.1    15.3    18.1   0.05    -0.9  +0.70 %\n    10         15.0      19 "
         "     23   0.08    +1.7  +0.43 %\n    12 now      9.7      28      34   0.12    +3.7      "
         "0 %\n    14          6.0      51      56   0.20    +5.2  -0.67 %\n    16          4.1    "
         " 100     100   0.31    +6.2   -1.7 %\n    18          2.5     270     220   0.49    +7.2 "
         "  -3.4 %  volts lost in lead\n    16         26.0    16.9    17.2   0.08    -2.0   +1.3 "
         "%\n    18         15.8      23      22   0.13    +1.5  +0.82 %\n    20 now      9.8      "
         "37      31   0.21    +3.7      0 %\n    22          7.3      57      47   0.33    +4.7   "
         "-1.3 %\n    24          5.6      90      80   0.52    +5.5   -3.2 %\n    26          3.6 "
         "    190     150   0.80    +6.4   -6.2 %\n(301 lines)"},
        {case_70, "(291 lines)"},
        {case_71, "as usual"},
        {case_72, "without the pack 279 +- 4 g; money in it 103.50 and 2 items without a "
                  "price\n(315 lines)"},
        {case_73, "without the pack 279 +- 4 g; money in it 103.50\n(315 lines)"},
        {case_74, "as usual"},
        {case_75,
         "A crash\n                              speed   energy   a drop     force\n  as the brief "
         "says          12 m/s   31.5 J   7.34 m    1100 N\n  in cruise                  14 m/s   "
         "42.9 J   10.0 m    1400 N\n  at top speed               33 m/s    240 J     55 m    7900 "
         "N\n  pulls with 380 N on 0 straps, no pad. At the limit of 600 g, arms of 5.9 mm\n  "
         "would bear what these do now. In money a crash costs about 1.50 (2\n(316 lines)"},
        {case_76, "  pulls with 380 N on 0 straps, no pad. Forces are means over 30 mm of "
                  "stopping,\n  a guess that cancels in ratios.\n(313 lines)"},
        {case_77, "  propellers): an estimate, from the stated prices. Forces are means over 30 "
                  "mm\n  of stopping, a guess that cancels in ratios.\n(314 lines)"},
        {case_78, "  pulls with 380 N on 0 straps, no pad. In money a crash costs about 3.00 "
                  "(2\n(315 lines)"},
        {case_79,
         "  Screws bear, times before: arm_root 1.00 +- 0.01, posts 1.00 +- 0.01. In money\n  a "
         "crash costs about 1.50 (2 propellers), or 33.00 where an arm breaks and the\n  frame is "
         "bought whole: an estimate, from the stated prices. Forces are means\n  over 30 mm of "
         "stopping, a guess that cancels in ratios.\n(314 lines)"},
        {case_80, "  pulls with 380 N on 0 straps and a pad (before without). In money a crash\n  "
                  "costs about 1.50 (2 propellers), or 33.00 where an arm breaks and the frame "
                  "is\n  bought whole: an estimate, from the stated prices. Forces are means over "
                  "30 mm\n  of stopping, a guess that cancels in ratios.\n(315 lines)"},
        {case_81, "  pulls with 380 N on 1 strap, no pad (before with one). In money a crash "
                  "costs\n  about 1.50 (2 propellers), or 33.00 where an arm breaks and the frame "
                  "is\n  bought whole: an estimate, from the stated prices. Forces are means over "
                  "30 mm\n  of stopping, a guess that cancels in ratios.\n(315 lines)"},
        {case_82,
         "  pulls with 380 N on 0 straps, no pad, held 1.3 +- 0.1 times as well as before.\n  In "
         "money a crash costs about 1.50 (2 propellers), or 33.00 where an arm breaks\n  and the "
         "frame is bought whole: an estimate, from the stated prices. Forces are\n  means over 30 "
         "mm of stopping, a guess that cancels in ratios.\n(315 lines)"},
        {case_83, "as usual"},
        {case_84, "  pack pulls with 380 N on 0 straps, no pad. In money a crash costs about\n  "
                  "1.50 (2 propellers), or 33.00 where an arm breaks and the frame is bought\n  "
                  "whole: an estimate, from the stated prices. Forces are means over 30 mm of\n  "
                  "stopping, a guess that cancels in ratios.\n(314 lines)"},
        {case_85, "(314 lines)"},
        {case_86, "as usual"},
        {case_87, "as usual"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_all);
}

static void a_sheets_object_says_what_is_missing(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_88,
         "  \"flown_min\": null,\n \"flown_at_limit_min_u\": null,\n \"flown_min\": null,\n "
         "\"flown_min_u\": null,\n \"why\": {\n  \"flown_min\": \"said so here\"\n     "
         "\"flown_change_s\": null,\n     \"flown_change_s\": null,\n     \"flown_change_s\": "
         "null,\n     \"flown_change_s\": null,\n     \"flown_change_s\": null,\n     "
         "\"flown_change_s\": null,\n     \"flown_change_s\": null,\n     \"flown_change_s\": "
         "null,\n     \"flown_change_s\": null,\n     \"flown_change_s\": null,\n     "
         "\"flown_change_s\": null,\n     \"flown_change_s\": null,\n(1688 lines)"},
        {case_89,
         "  \"hover_output\": null,\n \"hover_output\": null,\n \"hover_output_u\": null,\n   "
         "\"output_u\": null,\n   \"output_u\": null,\n   \"output_u\": null,\n   \"output_u\": "
         "null,\n \"why\": {\n  \"hover_output\": \"said so here\"\n(1688 lines)"},
        {case_90, " \"all_up_g\": null,\n \"all_up_g_u\": null,\n  \"all_up_g\": null,\n \"why\": "
                  "{\n  \"all_up_g\": \"said so here\"\n(1689 lines)"},
        {case_91, " \"tried\": null,\n(1633 lines)"},
        {case_92, "  \"growth\": null,\n  \"why\": \"no law has such a pack\"\n(1686 lines)"},
        {case_93, "(1576 lines)"},
        {case_94, "  \"front_share\": null,\n  \"front_share_u\": null,\n  \"hover_more\": null,\n "
                  " \"left_share\": null,\n  \"left_share_u\": null,\n  \"rear_share\": null,\n  "
                  "\"right_share\": null,\n  \"thrust_to_weight_balanced\": null,\n  \"why\": \"no "
                  "arms are said\"\n \"motors\": [],\n(1636 lines)"},
        {case_95, "  \"pack_shift_equal_mm\": null,\n(1685 lines)"},
        {case_96, "  \"thrust_to_weight_balanced\": null\n(1688 lines)"},
        {case_97,
         " \"air_density_kg_m3_u\": null,\n \"all_up_g_u\": null,\n \"best_range_m_u\": null,\n "
         "\"best_range_speed_m_s_u\": null,\n \"burst_30m_s_u\": null,\n \"climb_m_s_u\": null,\n "
         "\"crash_j_u\": null,\n \"cruise_min_u\": null,\n \"cruise_rpm_u\": null,\n "
         "\"density_altitude_m_u\": null,\n \"dry_g_u\": null,\n \"flown_a_u\": null,\n "
         "\"flown_at_limit_min_u\": null,\n \"flown_min_u\": null,\n \"flown_motor_a_u\": null,\n "
         "\"flown_rms_a_u\": null,\n \"full_a_u\": null,\n \"full_cell_v_u\": null,\n "
         "\"gust_m_s2_u\": null,\n \"hover_a_u\": null,\n \"hover_min_u\": null,\n "
         "\"hover_output_u\": null,\n \"hover_rpm_u\": null,\n \"hover_w_kg_u\": null,\n "
         "\"hover_w_u\": null,\n \"idle_thrust_to_weight_u\": null,\n \"ixx_kg_m2_u\": null,\n "
         "\"ixy_kg_m2_u\": null,\n \"ixz_kg_m2_u\": null,\n \"iyy_kg_m2_u\": null,\n "
         "\"iyz_kg_m2_u\": null,\n \"izz_kg_m2_u\": null,\n \"landing_cell_v_u\": null,\n   "
         "\"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": "
         "null,\n   \"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": null,\n   "
         "\"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": "
         "null,\n   \"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": null,\n   "
         "\"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": "
         "null,\n   \"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": null,\n   "
         "\"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": "
         "null,\n   \"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": null,\n   "
         "\"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": null,\n   \"value_u\": "
         "null,\n   \"value_u\": null,\n   \"value_u\": null,\n \"money_u\": null,\n "
         "\"motor_full_a_u\": null,\n   \"current_a_u\": null,\n   \"output_u\": null,\n   "
         "\"current_a_u\": null,\n   \"output_u\": null,\n   \"current_a_u\": null,\n   "
         "\"output_u\": null,\n   \"current_a_u\": null,\n   \"output_u\": null,\n "
         "\"pack_degc_u\": null,\n \"pack_energy_wh_u\": null,\n \"pack_shift_mm_u\": null,\n "
         "\"pitch_rad_s2_u\": null,\n \"roll_rad_s2_u\": null,\n \"rotor_lag_s_u\": null,\n "
         "\"thrust_fresh_n_u\": null,\n \"thrust_to_weight_fresh_u\": null,\n "
         "\"thrust_to_weight_half_u\": null,\n \"thrust_to_weight_landing_u\": null,\n "
         "\"top_speed_m_s_u\": null,\n \"turn_g_u\": null,\n \"winding_degc_u\": null,\n "
         "\"yaw_rad_s2_u\": null\n(1688 lines)"},
        {case_98, " \"taken\": {\n  \"chosen\": 1,\n  \"first_described\": {\n   \"all_up_g\": "
                  "0,\n   \"roll_rad_s2\": 0\n  \"on_craft\": 0,\n  \"ordered\": 0,\n  "
                  "\"planned_all_up_g\": null,\n  \"planned_all_up_g_u\": null,\n  "
                  "\"planned_why\": \"the pack does not fit\"\n(1701 lines)"},
        {case_99, " \"taken\": {\n  \"chosen\": 0,\n  \"first_described\": {\n   \"all_up_g\": "
                  "0,\n   \"roll_rad_s2\": 0\n  \"on_craft\": 1,\n  \"ordered\": 0,\n  "
                  "\"planned_all_up_g\": 400,\n  \"planned_all_up_g_u\": 0\n(1700 lines)"},
        {case_100, "  \"flown_min\": null,\n(1688 lines)"},
        {case_101, " \"limit_g\": null,\n(1688 lines)"},
        {case_102, " \"arms\": null,\n(1671 lines)"},
        {case_103, " \"radio\": [],\n(1669 lines)"},
        {case_104, "  \"propellers_money\": null,\n(1688 lines)"},
        {case_105, "   \"speed_m_s\": null\n(1688 lines)"},
        {case_106, "as usual"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_object);
}

static void the_gram_ruler_in_odd_states(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_107,
         "'0      '50     '100    '150     '200    '250    '300     '350    '400  "
         "g\nWWWWWWWWWWWWWWWSSSSSSSSSSSSSSSSSSSSSEEESSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSCCC\n|frame 88  "
         "   |thrust 144             | |pack 159                  | | |wire 9.7\n                  "
         "                    |electronics 12              | |screws 11\n                          "
         "                                         |sight 15\n(6 lines)"},
        {case_108,
         "'0      '50     '100    '150     '200    '250    '300     '350    '400  "
         "g\nWWWWWWWWWWWWWWWSSSSSSSSSSSSSSSSSSSSSEEESSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSCCC\n|frame 88  "
         "   |thrust 144             | |pack 159                  | | |wire 9.7\n                  "
         "                    |electronics 12              | |screws 11\n                          "
         "                                         |sight 15\n(6 lines)"},
        {case_109,
         "'0      '50     '100    '150     '200    '250    '300     '350    '400  "
         "g\nWWWWWWWWWWWWWWWSSSSSSSSSSSSSSSSSSSSSEEESSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSCCC\n|frame 88  "
         "   |thrust 144             | |pack 159                  | | |wire 9.7\n                  "
         "                    |electronics 12              | |screws 11\n                          "
         "                                         |sight 15\n(6 lines)"},
        {case_110,
         "                       limit 200 V\n'0      '50     '100    '150     '200    '250    "
         "'300     '350    '400  "
         "g\nWWWWWWWWWWWWWWWSSSSSSSSSSSSSSSSSSSSSEEESSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSCCC\n|frame 88  "
         "   |thrust 144             | |pack 159                  | | |wire 9.7\n                  "
         "                    |electronics 12              | |screws 11\n                          "
         "                                         |sight 15\n(7 lines)"},
        {case_111,
         " V limit 10\n'0      '50     '100    '150     '200    '250    '300     '350    '400  "
         "g\nWWWWWWWWWWWWWWWSSSSSSSSSSSSSSSSSSSSSEEESSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSCCC\n|frame 88  "
         "   |thrust 144             | |pack 159                  | | |wire 9.7\n                  "
         "                    |electronics 12              | |screws 11\n                          "
         "                                         |sight 15\n(7 lines)"},
        {case_112, "'0       '10      '20      '30      '40      '50      '60      '70      '80    "
                   "g\nWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW"
                   "WWWW\n|frame 88\nW weighed\n(4 lines)"},
        {case_113, "(0 lines)"},
        {case_114,
         " V limit 600\n'0         '5000       '10000     '15000      '20000     '25000      "
         "g\nWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWE\n|frame 30000  "
         "                                                  ||||||wire 9.7\n                       "
         "                                         |||||screws 11\n                                "
         "                                ||||sight 15\n                                           "
         "                     |||pack 159\n                                                       "
         "         ||electronics 12\n                                                              "
         "  |thrust 144\n(10 lines)"},
        {case_115,
         "V limit 600\n'0               '500000          '1000000          '1500000         "
         "g\nWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW\n|frame "
         "2000000                                                  ||||||wire 9.7\n                "
         "                                                |||||screws 11\n                         "
         "                                       ||||sight 15\n                                    "
         "                            |||pack 159\n                                                "
         "                ||electronics 12\n                                                       "
         "         |thrust 144\n(10 lines)"},
        {case_116,
         "                                    limit 600 V\n'0             '200           '400      "
         "      '600           '800      "
         "g\nWWWWWWW//////////////////////////////////////SSSSSSSSSSESSSSSSSSSSSSSSCC\n|frame 88 "
         "(-500)                             |          ||pack 159   |||wire 9.7\n                 "
         "                            |          |            ||screws 11\n                        "
         "                     |          |            |sight 15\n                                 "
         "            |          |electronics 12\n                                             "
         "|thrust 144\nW weighed  S stated  C computed  E estimated  / taken off\n(9 lines)"},
        {case_117, "|          |thrust 144        | |pack 159            | | |wire 9.7\n|frame 88 "
                   "(+50)               |electronics 12        | |screws 11\n(7 lines)"},
        {case_118, "WWWWWWWWWWWWXXXXXXXXXXXXXXXXXXXSSSSSSSSSSSSSSSSSSSSSSSSSCC\nW weighed  S "
                   "stated  C computed  X not written down\n(7 lines)"},
        {case_119,
         "                                                                     limit 600 "
         "\xE2\x96\xBC\n\xE2\x95\xB7"
         "0           \xE2\x95\xB7"
         "100         \xE2\x95\xB7"
         "200          \xE2\x95\xB7"
         "300         \xE2\x95\xB7"
         "400         \xE2\x95\xB7"
         "500         "
         "g\n\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88"
         "\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x88\xE2\x96\x89\xE2\x96\x93\xE2\x96\x93\xE2"
         "\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96"
         "\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x91"
         "\xE2\x96\x91\xE2\x96\x91\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2"
         "\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96"
         "\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93"
         "\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x93\xE2\x96\x92\xE2\x96\x92\n"
         "\xE2\x94\x94"
         "frame 88  \xE2\x94\x94thrust 144        \xE2\x94\x82 \xE2\x94\x94pack 159            "
         "\xE2\x94\x82 \xE2\x94\x82 \xE2\x94\x94wire 9.7\n                              "
         "\xE2\x94\x94"
         "electronics 12        \xE2\x94\x82 \xE2\x94\x94screws 11\n                               "
         "                      \xE2\x94\x94sight 15\n\xE2\x96\x88 weighed  \xE2\x96\x93 stated  "
         "\xE2\x96\x92 computed  \xE2\x96\x91 estimated\n(7 lines)"},
        {case_120,
         "                                                                                         "
         "                                                                                         "
         "                                                   limit 600 V\n'0      '20     '40     "
         "'60     '80     '100    '120    '140    '160    '180    '200    '220    '240    '260    "
         "'280    '300    '320    '340    '360    '380    '400    '420    '440    '460    '480    "
         "'500    '520    '540    '560    '580   "
         "g\nWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSE"
         "EEEEEEESSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSCCCCCCCC"
         "\n|frame 88                          |thrust 144                                         "
         "     |    |pack 159                                                       |     |   "
         "|wire 9.7\n                                                                              "
         "              |electronics 12                                                      |     "
         "|screws 11\n                                                                             "
         "                                                                                    "
         "|sight 15\n(7 lines)"},
        {case_121,
         "                                                 limit 600 V\n'0        '100      '200   "
         "   '300      '400      '500     g\nWWWWWWWWWSSSSSSSSSSSSEESSSSSSSSSSSSSSSSSSSCC\n|       "
         "|thrust 144    ||pack 159       |||wire 9.7\n|frame 88              |electronics 12  "
         "||screws 11\n                                        |sight 15\n(7 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_ruler);
}

static void the_ruler_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_122,
         "{\n \"all_up_g\": 438.05,\n \"all_up_g_u\": 4.565,\n \"bands\": {\n  \"cheap\": {\n   "
         "\"grams\": 0,\n   \"money\": 0\n  },\n  \"deep\": {\n   \"grams\": 0,\n   \"money\": 0\n "
         " },\n  \"free\": {\n   \"grams\": 0,\n   \"money\": 0\n  }\n },\n \"craft\": "
         "\"weir-5\",\n \"limit_chance\": 1,\n \"limit_g\": 600,\n \"limit_shown\": true,\n "
         "\"loadout\": \"race\",\n \"slices\": [\n  {\n   \"count\": 1,\n   \"from_g\": 0,\n   "
         "\"gram\": {\n    \"burst_30m_s\": 0.0011104,\n    \"flown_s\": -0.34869,\n    "
         "\"pitch_percent\": -0.15992,\n    \"pitch_rad_s2\": -1.4741,\n    \"roll_percent\": "
         "-0.16311,\n    \"roll_rad_s2\": -1.6204,\n    \"thrust_to_weight_fresh\": -0.01677,\n    "
         "\"yaw_percent\": -0.14459,\n    \"yaw_rad_s2\": -0.14145\n   },\n   \"grams\": 88,\n   "
         "\"grams_u\": 1,\n   \"known\": \"weighed\",\n   \"name\": \"frame\",\n   \"of\": "
         "\"item\",\n   \"off_g\": 0,\n   \"part\": \"fr-w\",\n   \"pitch_share\": 0.14071,\n   "
         "\"roll_share\": 0.14352,\n   \"system\": \"frame\",\n   \"yaw_share\": 0.12723\n  },\n  "
         "{\n   \"count\": 4,\n   \"from_g\": 88,\n   \"gram\": {\n    \"burst_30m_s\": "
         "0.0011104,\n    \"flown_s\": -0.34869,\n    \"pitch_percent\": -0.47731,\n    "
         "\"pitch_rad_s2\": -4.3998,\n    \"roll_percent\": -0.53564,\n    \"roll_rad_s2\": "
         "-5.3211,\n    \"thrust_to_weight_fresh\": -0.01677,\n    \"yaw_percent\": -0.55642,\n    "
         "\"yaw_rad_s2\": -0.54432\n   },\n   \"grams\": 125.6,\n   \"grams_u\": 2.512,\n   "
         "\"known\": \"stated\",\n   \"name\": \"motor\",\n   \"of\": \"item\",\n   \"off_g\": "
         "0,\n   \"part\": \"mo-w\",\n   \"pitch_share\": 0.59923,\n   \"roll_share\": 0.67239,\n  "
         " \"system\": \"thrust\",\n   \"yaw_share\": 0.69845\n  },\n  {\n   \"count\": 4,\n   "
         "\"from_g\": 213.6,\n   \"gram\": {\n    \"burst_30m_s\": 0.0011104,\n    \"flown_s\": "
         "-0.34869,\n    \"pitch_percent\": -0.50977,\n    \"pitch_rad_s2\": -4.6989,\n    "
         "\"roll_percent\": -0.56892,\n    \"roll_rad_s2\": -5.6518,\n    "
         "\"thrust_to_weight_fresh\": -0.01677,\n    \"yaw_percent\": -0.60455,\n    "
         "\"yaw_rad_s2\": -0.59141\n   },\n   \"grams\": 17.92,\n   \"grams_u\": 2.688,\n   "
         "\"known\": \"estimated\",\n   \"name\": \"propeller\",\n   \"of\": \"item\",\n   "
         "\"off_g\": 0,\n   \"part\": \"pr-w\",\n   \"pitch_share\": 0.091305,\n   \"roll_share\": "
         "0.10189,\n   \"system\": \"thrust\",\n   \"yaw_share\": 0.10826\n  },\n  {\n   "
         "\"count\": 1,\n   \"from_g\": 231.52,\n   \"gram\": {\n    \"burst_30m_s\": 0.0011104,\n "
         "   \"flown_s\": -0.34869,\n    \"pitch_percent\": -0.018146,\n    \"pitch_rad_s2\": "
         "-0.16727,\n    \"roll_percent\": -0.015256,\n    \"roll_rad_s2\": -0.15156,\n    "
         "\"thrust_to_weight_fresh\": -0.01677,\n    \"yaw_percent\": -0.0066931,\n    "
         "\"yaw_rad_s2\": -0.0065475\n   },\n   \"grams\": 12,\n   \"grams_u\": 0.3,\n   "
         "\"known\": \"stated\",\n   \"name\": \"brain\",\n   \"of\": \"item\",\n   \"off_g\": "
         "0,\n   \"part\": \"fc-w\",\n   \"pitch_share\": 0.0021773,\n   \"roll_share\": "
         "0.0018306,\n   \"system\": \"electronics\",\n   \"yaw_share\": 0.00080314\n  },\n  {\n   "
         "\"count\": 1,\n   \"from_g\": 243.52,\n   \"gram\": {\n    \"burst_30m_s\": 0.0011104,\n "
         "   \"flown_s\": -0.34869,\n    \"pitch_percent\": -0.073328,\n    \"pitch_rad_s2\": "
         "-0.67593,\n    \"roll_percent\": -0.046305,\n    \"roll_rad_s2\": -0.46,\n    "
         "\"thrust_to_weight_fresh\": -0.01677,\n    \"yaw_percent\": -0.025273,\n    "
         "\"yaw_rad_s2\": -0.024724\n   },\n   \"grams\": 159,\n   \"grams_u\": 2,\n   \"known\": "
         "\"stated\",\n   \"name\": \"pack\",\n   \"of\": \"item\",\n   \"off_g\": 0,\n   "
         "\"part\": \"pa-w\",\n   \"pitch_share\": 0.11658,\n   \"roll_share\": 0.073618,\n   "
         "\"system\": \"pack\",\n   \"yaw_share\": 0.040184\n  },\n  {\n   \"count\": 1,\n   "
         "\"from_g\": 402.52,\n   \"gram\": {\n    \"burst_30m_s\": 0.0011104,\n    \"flown_s\": "
         "-0.34869,\n    \"pitch_percent\": -0.31693,\n    \"pitch_rad_s2\": -2.9214,\n    "
         "\"roll_percent\": -0.012954,\n    \"roll_rad_s2\": -0.12869,\n    "
         "\"thrust_to_weight_fresh\": -0.01677,\n    \"yaw_percent\": -0.17551,\n    "
         "\"yaw_rad_s2\": -0.17169\n   },\n   \"grams\": 9.8,\n   \"grams_u\": 0.3,\n   \"known\": "
         "\"stated\",\n   \"name\": \"antenna\",\n   \"of\": \"item\",\n   \"off_g\": 0,\n   "
         "\"part\": \"an-w\",\n   \"pitch_share\": 0.031042,\n   \"roll_share\": 0.0012694,\n   "
         "\"system\": \"sight\",\n   \"yaw_share\": 0.017195\n  },\n  {\n   \"count\": 1,\n   "
         "\"from_g\": 412.32,\n   \"gram\": {\n    \"burst_30m_s\": 0.0011104,\n    \"flown_s\": "
         "-0.34869,\n    \"pitch_percent\": -0.056646,\n    \"pitch_rad_s2\": -0.52215,\n    "
         "\"roll_percent\": -0.013306,\n    \"roll_rad_s2\": -0.13218,\n    "
         "\"thrust_to_weight_fresh\": -0.01677,\n    \"yaw_percent\": -0.027458,\n    "
         "\"yaw_rad_s2\": -0.026861\n   },\n   \"grams\": 5.5,\n   \"grams_u\": 0.3,\n   "
         "\"known\": \"stated\",\n   \"name\": \"video\",\n   \"of\": \"item\",\n   \"off_g\": "
         "0,\n   \"part\": \"vt-w\",\n   \"pitch_share\": 0.0031151,\n   \"roll_share\": "
         "0.00073174,\n   \"system\": \"sight\",\n   \"yaw_share\": 0.00151\n  },\n  {\n   "
         "\"count\": 16,\n   \"from_g\": 417.82,\n   \"gram\": {\n    \"burst_30m_s\": "
         "0.0011104,\n    \"flown_s\": -0.34869,\n    \"pitch_percent\": -0.042448,\n    "
         "\"pitch_rad_s2\": -0.39128,\n    \"roll_percent\": -0.040169,\n    \"roll_rad_s2\": "
         "-0.39904,\n    \"thrust_to_weight_fresh\": -0.01677,\n    \"yaw_percent\": -0.0018547,\n "
         "   \"yaw_rad_s2\": -0.0018143\n   },\n   \"grams\": 7.7406,\n   \"grams_u\": 0.30962,\n  "
         " \"known\": \"computed\",\n   \"name\": \"motor_base\",\n   \"of\": \"joint\",\n   "
         "\"off_g\": 0,\n   \"part\": null,\n   \"pitch_share\": 0.0032852,\n   \"roll_share\": "
         "0.0031089,\n   \"system\": \"screws\",\n   \"yaw_share\": 0.00014355\n  },\n  {\n   "
         "\"count\": 2,\n   \"from_g\": 425.56,\n   \"gram\": {\n    \"burst_30m_s\": 0.0011104,\n "
         "   \"flown_s\": -0.34869,\n    \"pitch_percent\": -0.0032684,\n    \"pitch_rad_s2\": "
         "-0.030127,\n    \"roll_percent\": -4.5635e-6,\n    \"roll_rad_s2\": -4.5334e-5,\n    "
         "\"thrust_to_weight_fresh\": -0.01677,\n    \"yaw_percent\": -0.0018547,\n    "
         "\"yaw_rad_s2\": -0.0018143\n   },\n   \"grams\": 2.7674,\n   \"grams_u\": 0.1107,\n   "
         "\"known\": \"computed\",\n   \"name\": \"tall_posts\",\n   \"of\": \"joint\",\n   "
         "\"off_g\": 0,\n   \"part\": null,\n   \"pitch_share\": 9.0441e-5,\n   \"roll_share\": "
         "1.2628e-7,\n   \"system\": \"screws\",\n   \"yaw_share\": 5.1321e-5\n  },\n  {\n   "
         "\"count\": 1,\n   \"from_g\": 428.33,\n   \"gram\": {\n    \"burst_30m_s\": 0.0011104,\n "
         "   \"flown_s\": -0.34869,\n    \"pitch_percent\": -0.12814,\n    \"pitch_rad_s2\": "
         "-1.1812,\n    \"roll_percent\": -0.016898,\n    \"roll_rad_s2\": -0.16787,\n    "
         "\"thrust_to_weight_fresh\": -0.01677,\n    \"yaw_percent\": -0.06343,\n    "
         "\"yaw_rad_s2\": -0.06205\n   },\n   \"grams\": 9.7214,\n   \"grams_u\": 0.58328,\n   "
         "\"known\": \"computed\",\n   \"name\": \"lead\",\n   \"of\": \"run\",\n   \"off_g\": "
         "0,\n   \"part\": null,\n   \"pitch_share\": 0.012454,\n   \"roll_share\": 0.0016425,\n   "
         "\"system\": \"wire\",\n   \"yaw_share\": 0.0061652\n  }\n ],\n \"systems\": [\n  {\n   "
         "\"from_g\": 0,\n   \"grams\": 88,\n   \"known\": {\n    \"weighed\": 88\n   },\n   "
         "\"off_g\": 0,\n   \"pitch_share\": 0.14071,\n   \"roll_share\": 0.14352,\n   \"system\": "
         "\"frame\",\n   \"yaw_share\": 0.12723\n  },\n  {\n   \"from_g\": 88,\n   \"grams\": "
         "143.52,\n   \"known\": {\n    \"estimated\": 17.92,\n    \"stated\": 125.6\n   },\n   "
         "\"off_g\": 0,\n   \"pitch_share\": 0.69054,\n   \"roll_share\": 0.77428,\n   \"system\": "
         "\"thrust\",\n   \"yaw_share\": 0.80671\n  },\n  {\n   \"from_g\": 231.52,\n   \"grams\": "
         "12,\n   \"known\": {\n    \"stated\": 12\n   },\n   \"off_g\": 0,\n   \"pitch_share\": "
         "0.0021773,\n   \"roll_share\": 0.0018306,\n   \"system\": \"electronics\",\n   "
         "\"yaw_share\": 0.00080314\n  },\n  {\n   \"from_g\": 243.52,\n   \"grams\": 159,\n   "
         "\"known\": {\n    \"stated\": 159\n   },\n   \"off_g\": 0,\n   \"pitch_share\": "
         "0.11658,\n   \"roll_share\": 0.073618,\n   \"system\": \"pack\",\n   \"yaw_share\": "
         "0.040184\n  },\n  {\n   \"from_g\": 402.52,\n   \"grams\": 15.3,\n   \"known\": {\n    "
         "\"stated\": 15.3\n   },\n   \"off_g\": 0,\n   \"pitch_share\": 0.034157,\n   "
         "\"roll_share\": 0.0020012,\n   \"system\": \"sight\",\n   \"yaw_share\": 0.018705\n  "
         "},\n  {\n   \"from_g\": 417.82,\n   \"grams\": 10.508,\n   \"known\": {\n    "
         "\"computed\": 10.508\n   },\n   \"off_g\": 0,\n   \"pitch_share\": 0.0033757,\n   "
         "\"roll_share\": 0.003109,\n   \"system\": \"screws\",\n   \"yaw_share\": 0.00019487\n  "
         "},\n  {\n   \"from_g\": 428.33,\n   \"grams\": 9.7214,\n   \"known\": {\n    "
         "\"computed\": 9.7214\n   },\n   \"off_g\": 0,\n   \"pitch_share\": 0.012454,\n   "
         "\"roll_share\": 0.0016425,\n   \"system\": \"wire\",\n   \"yaw_share\": 0.0061652\n  }\n "
         "],\n \"tried\": \"cube=off\",\n \"whole_g\": 600\n}"},
        {case_123, "as usual"},
        {case_124, " \"tried\": null,\n(374 lines)"},
        {case_125,
         " \"limit_g\": null,\n \"limit_shown\": false,\n \"whole_g\": 438.05\n(374 lines)"},
        {case_126, " \"limit_g\": 100,\n \"whole_g\": 438.05\n(374 lines)"},
        {case_127, "as usual"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_ruler_json);
}

static void an_outline_says_where_the_mass_is(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_128,
         "{\n \"cg_mm\": [\n  -6.57,\n  0.06,\n  19.77\n ],\n \"cg_mm_u\": [\n  1.16,\n  1.16,\n  "
         "1.17\n ],\n \"craft\": \"weir-5\",\n \"discs\": [\n  {\n   \"at_mm\": [\n    78,\n    "
         "82,\n    22\n   ],\n   \"diameter_mm\": 129.54,\n   \"item\": \"propeller\"\n  },\n  {\n "
         "  \"at_mm\": [\n    78,\n    -82,\n    22\n   ],\n   \"diameter_mm\": 129.54,\n   "
         "\"item\": \"propeller\"\n  },\n  {\n   \"at_mm\": [\n    -78,\n    -82,\n    22\n   ],\n "
         "  \"diameter_mm\": 129.54,\n   \"item\": \"propeller\"\n  },\n  {\n   \"at_mm\": [\n    "
         "-78,\n    82,\n    22\n   ],\n   \"diameter_mm\": 129.54,\n   \"item\": \"propeller\"\n  "
         "}\n ],\n \"joints\": [\n  {\n   \"all_g\": 7.7406,\n   \"all_g_u\": 0.30962,\n   "
         "\"at_mm\": [\n    [\n     0,\n     0,\n     -3\n    ]\n   ],\n   \"count\": 16,\n   "
         "\"holds\": \"motor\",\n   \"included_in\": null,\n   \"joint\": \"motor_base\",\n   "
         "\"known\": \"computed\",\n   \"length_mm\": 8,\n   \"material\": \"titanium\",\n   "
         "\"standard\": \"ISO4762\",\n   \"thread_mm\": 3\n  },\n  {\n   \"all_g\": 0,\n   "
         "\"all_g_u\": 0,\n   \"at_mm\": [\n    [\n     16.54,\n     17.39,\n     0\n    ],\n    "
         "[\n     16.54,\n     -17.39,\n     0\n    ],\n    [\n     -16.54,\n     -17.39,\n     "
         "0\n    ],\n    [\n     -16.54,\n     17.39,\n     0\n    ]\n   ],\n   \"count\": 8,\n   "
         "\"holds\": \"arm\",\n   \"included_in\": \"frame\",\n   \"joint\": \"arm_root\",\n   "
         "\"known\": \"computed\",\n   \"length_mm\": 16,\n   \"material\": \"steel\",\n   "
         "\"standard\": \"ISO7380-1\",\n   \"thread_mm\": 3\n  },\n  {\n   \"all_g\": 0,\n   "
         "\"all_g_u\": 0,\n   \"at_mm\": [\n    [\n     0,\n     0,\n     0\n    ]\n   ],\n   "
         "\"count\": 4,\n   \"holds\": \"frame\",\n   \"included_in\": \"frame\",\n   \"joint\": "
         "\"posts\",\n   \"known\": \"computed\",\n   \"length_mm\": 25,\n   \"material\": "
         "\"brass\",\n   \"standard\": \"standoff_hex\",\n   \"thread_mm\": 3\n  },\n  {\n   "
         "\"all_g\": 0,\n   \"all_g_u\": 0,\n   \"at_mm\": [\n    [\n     0,\n     0,\n     0\n    "
         "]\n   ],\n   \"count\": 4,\n   \"holds\": \"frame\",\n   \"included_in\": \"frame\",\n   "
         "\"joint\": \"post_washers\",\n   \"known\": \"computed\",\n   \"length_mm\": 0,\n   "
         "\"material\": \"nylon\",\n   \"standard\": \"ISO7089\",\n   \"thread_mm\": 3\n  },\n  "
         "{\n   \"all_g\": 2.7674,\n   \"all_g_u\": 0.1107,\n   \"at_mm\": [\n    [\n     0,\n     "
         "0,\n     20\n    ]\n   ],\n   \"count\": 2,\n   \"holds\": null,\n   \"included_in\": "
         "null,\n   \"joint\": \"tall_posts\",\n   \"known\": \"computed\",\n   \"length_mm\": "
         "30,\n   \"material\": \"aluminium\",\n   \"standard\": \"standoff_round\",\n   "
         "\"thread_mm\": 2.5\n  }\n ],\n \"loadout\": \"race\",\n \"motors\": [\n  {\n   \"arm\": "
         "1,\n   \"at_mm\": [\n    78,\n    82\n   ],\n   \"current_a\": 3.6557,\n   "
         "\"current_a_u\": 0.19849,\n   \"output\": 0.33114,\n   \"output_u\": 0.0099672,\n   "
         "\"share\": 0.22914,\n   \"thrust_g\": 100.37\n  },\n  {\n   \"arm\": 2,\n   \"at_mm\": "
         "[\n    78,\n    -82\n   ],\n   \"current_a\": 3.6501,\n   \"current_a_u\": 0.19818,\n   "
         "\"output\": 0.33085,\n   \"output_u\": 0.0099585,\n   \"share\": 0.22874,\n   "
         "\"thrust_g\": 100.2\n  },\n  {\n   \"arm\": 3,\n   \"at_mm\": [\n    -78,\n    -82\n   "
         "],\n   \"current_a\": 4.242,\n   \"current_a_u\": 0.23032,\n   \"output\": 0.36063,\n   "
         "\"output_u\": 0.010855,\n   \"share\": 0.27086,\n   \"thrust_g\": 118.65\n  },\n  {\n   "
         "\"arm\": 4,\n   \"at_mm\": [\n    -78,\n    82\n   ],\n   \"current_a\": 4.2475,\n   "
         "\"current_a_u\": 0.23062,\n   \"output\": 0.3609,\n   \"output_u\": 0.010863,\n   "
         "\"share\": 0.27126,\n   \"thrust_g\": 118.82\n  }\n ],\n \"notes\": [\n  \"4 parts of "
         "unknown size drawn as usual for the kind\",\n  \"1 item without a station drawn where "
         "the kind usually sits\",\n  \"1 printed or cut piece drawn as a bounding box\"\n ],\n "
         "\"pack\": \"pack\",\n \"pack_shift_mm\": 18.1,\n \"pack_shift_mm_u\": 3.2,\n "
         "\"principal_axes\": [\n  [\n   0.99954,\n   0.0057897,\n   -0.029623\n  ],\n  [\n   "
         "-0.0057943,\n   0.99998,\n   -6.9148e-5\n  ],\n  [\n   0.029622,\n   0.00024076,\n   "
         "0.99956\n  ]\n ],\n \"tried\": \"cube=off\"\n}"},
        {case_129, " \"pack_shift_mm\": null,\n \"pack_shift_mm_u\": null,\n \"tried\": "
                   "\"cube=off\",\n \"why\": \"said so here\"\n(250 lines)"},
        {case_130, " \"tried\": null\n(249 lines)"},
        {case_131,
         "    0,\n    0,\n    0\n    0,\n    0,\n    0\n    0,\n    0,\n    0\n    0,\n    0,\n    "
         "0\n  \"1 item without a station drawn where the kind usually sits\"\n(193 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_outline);
}

static void what_flights_taught_is_said_figure_by_figure(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_132, "(57 lines)"},
        {case_133, "(57 lines)"},
        {case_134, "(57 lines)"},
        {case_135, "  hover current, A            7.17             7.1 +- 0.4       +0.0 u\n  "
                   "\"moved_u\": 0,\n  \"thought_u\": 0\n(66 lines)"},
        {case_136, "  your minutes, min           1.0 +- 0.3       3.1 +- 0.3       +8.0 u\n  "
                   "\"moved_u\": 7.9587,\n  \"thought\": 1,\n(66 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_kept);
}

static void a_trace_says_why_it_has_no_point(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_137,
         "Minutes in level flight, until it lands: as flown (14.0 m/s) 5.98 min; hover (0\nm/s) "
         "6.60 min; best range (14.1 m/s) 5.94 min. The line goes from 6.60 min at\n0 m/s to 0.765 "
         "min at 31.3 m/s, with the most, 7.45 min, at 7.83 m/s.\n                     0           "
         "       6.60\n                  2.61                  6.78\n                  5.22        "
         "          7.19\n                  7.83                  7.45\n                  10.4     "
         "             7.13\n                  13.1                  6.33\n                  15.7  "
         "                5.20\n                  18.3                  3.85\n                  "
         "20.9                  2.68\n                  23.5                  1.84\n               "
         "   26.1                  1.29\n                  28.7                 0.937\n            "
         "      31.3                 0.765\n(53 lines)"},
        {case_138,
         "Current in level flight, on half charge: as flown (14.0 m/s) 7.85 A; hover (0\nm/s) 7.11 "
         "A; best range (14.1 m/s) 7.91 A. The line goes from 7.11 A at 0 m/s to\n59.1 A at 30.0 "
         "m/s, with the least, 6.30 A, at 7.83 m/s.\n                     0                  "
         "7.11\n                  2.61                  6.93\n                  5.22               "
         "   6.53\n                  7.83                  6.30\n                  10.4            "
         "      6.58\n                  13.1                  7.42\n                  15.7         "
         "         9.04\n                  20.9                  17.6\n                  23.5      "
         "            25.7\n                  26.1                  36.5\n                  28.7   "
         "               50.6\n                  30.0                  59.1\n(53 lines)"},
        {case_139,
         "Minutes in level flight, until it lands: as flown (14.0 m/s) 5.98 min; hover (0\nm/s) "
         "6.60 min; best range (14.1 m/s) 5.94 min. The line goes from 6.60 min at\n0 m/s to 0.765 "
         "min at 31.3 m/s, with the most, 7.45 min, at 7.83 m/s.\n                     0           "
         "       6.60\n                  2.61                  6.78\n                  5.22        "
         "          7.19\n                  7.83                  7.45\n                  10.4     "
         "             7.13\n                  13.1                  6.33\n                  15.7  "
         "                5.20\n                  18.3                  3.85\n                  "
         "20.9                  2.68\n                  23.5                  1.84\n               "
         "   26.1                  1.29\n                  28.7                 0.937\n            "
         "      31.3                 0.765\nCurrent in level flight, on half charge: as flown "
         "(14.0 m/s) 7.85 A; hover (0\nm/s) 7.11 A; best range (14.1 m/s) 7.91 A. The line goes "
         "from 7.11 A at 0 m/s to\n59.1 A at 30.0 m/s, with the least, 6.30 A, at 7.83 m/s.\n      "
         "               0                  7.11\n                  2.61                  6.93\n   "
         "               5.22                  6.53\n                  7.83                  "
         "6.30\n                  10.4                  6.58\n                  13.1               "
         "   7.42\n                  15.7                  9.04\n                  20.9            "
         "      17.6\n                  23.5                  25.7\n                  26.1         "
         "         36.5\n                  28.7                  50.6\n                  30.0      "
         "            59.1\n(53 lines)"},
        {case_140, "as usual"},
        {case_141,
         "Minutes in level flight, until it lands: as flown (14.0 m/s) 5.98 min; hover (0\nm/s) "
         "6.60 min; best range (14.1 m/s) 5.94 min. The line goes from 6.60 min at\n0 m/s to 0.765 "
         "min at 31.3 m/s, with the most, 7.45 min, at 7.83 m/s.\n                     0           "
         "       6.60\n                  2.61                  6.78\n                  5.22        "
         "          7.19\n                  7.83                  7.45\n                  10.4     "
         "             7.13\n                  13.1                  6.33\n                  15.7  "
         "                5.20\n                  18.3                  3.85\n                  "
         "20.9                  2.68\n                  23.5                  1.84\n               "
         "   26.1                  1.29\n                  28.7                 0.937\n            "
         "      31.3                 0.765\n(53 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_trace);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_first_screen_says_what_is_missing),
        cmocka_unit_test(what_stands_behind_it_says_what_is_missing),
        cmocka_unit_test(a_sheets_object_says_what_is_missing),
        cmocka_unit_test(the_gram_ruler_in_odd_states),
        cmocka_unit_test(the_ruler_may_be_json),
        cmocka_unit_test(an_outline_says_where_the_mass_is),
        cmocka_unit_test(what_flights_taught_is_said_figure_by_figure),
        cmocka_unit_test(a_trace_says_why_it_has_no_point),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
