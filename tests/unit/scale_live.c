/* rooms: store base */
/* Scales that are connected, without one: a descriptor written by hand after USB HID 1.11 (6.2.2), reports
 * of it, lines as serial scales send them, and a device that is a list of what it says. Usages of page 0x8D
 * are from memory of the USB-IF's tables. */
#include "store/scale_live.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "draws.h"
#include "near.h"
#include "store/scale_line.h"
#include "store/scale_report.h"

/* Report 3: a state, a unit, a power of ten, a weight of two bytes. */
static const uint8_t scale[] = {0x05, 0x8D, 0x09, 0x20, 0xA1, 0x01, /* page, scale, application */
                                0x85, 0x03, 0x09, 0x32, 0xA1, 0x02, /* report 3, data report */
                                0x19, 0x71, 0x29, 0x78, 0x15, 0x01, 0x25, 0x08, /* states 1 to 8 */
                                0x75, 0x08, 0x95, 0x01, 0x81, 0x00, /* one byte, an array */
                                0x09, 0x50, 0xA1, 0x02, 0x19, 0x51, 0x29, 0x5C, /* units 1 to 12 */
                                0x15, 0x01, 0x25, 0x0C, 0x81, 0x00, 0xC0,       /* */
                                0x09, 0x41, 0x15, 0x81, 0x25, 0x7F, 0x81, 0x02, /* power of ten */
                                0x09, 0x40, 0x15, 0x00, 0x27, 0xFF, 0xFF, 0x00, 0x00, /* weight */
                                0x75, 0x10, 0x81, 0x02, 0xC0, 0xC0};

static pare_scale_layout layout_of(size_t length, const uint8_t bytes[])
{
    pare_scale_layout layout;
    pare_error err = {0};
    if (pare_scale_layout_read(length, bytes, &layout, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return layout;
}

static void a_report_says_weight_unit_power_and_state(void **state)
{
    (void)state;
    static const struct {
        uint8_t bytes[6];
        pare_scale_state state;
        const char *text;
        double kg;
    } reports[] = {
        {{3, 4, 2, 0xFF, 0xC2, 0x03}, PARE_SCALE_STABLE, "96.2 g", 0.0962},
        {{3, 3, 2, 0x00, 0xC2, 0x03}, PARE_SCALE_MOVING, "962 g", 0.962},
        {{3, 2, 3, 0xFD, 0x00, 0x00}, PARE_SCALE_ZERO, "0.000 kg", 0},
        {{3, 4, 11, 0xFF, 0x2A, 0x00}, PARE_SCALE_STABLE, "4.2 oz", 4.2 * 0.028349523125},
        {{3, 4, 1, 0x01, 0x05, 0x00}, PARE_SCALE_STABLE, "50 mg", 50e-6},
        {{3, 6, 2, 0x00, 0xFF, 0xFF}, PARE_SCALE_OVER, "65535 g", 65.535},
        {{3, 5, 2, 0x00, 0x05, 0x00}, PARE_SCALE_UNDER, "5 g", 0.005},
    };
    const pare_scale_layout layout = layout_of(sizeof scale, scale);
    for (size_t i = 0; i < sizeof reports / sizeof reports[0]; i++) {
        pare_scale_seen seen;
        pare_error err = {0};
        assert_int_equal(pare_scale_report_read(&layout, 6, reports[i].bytes, &seen, &err),
                         PARE_OK);
        assert_true(seen.weighs);
        assert_int_equal(seen.state, reports[i].state);
        assert_string_equal(seen.text, reports[i].text);
        assert_near(seen.kg, reports[i].kg, 1e-12);
    }
}

static void another_unit_is_named_and_another_report_says_nothing(void **state)
{
    (void)state;
    const pare_scale_layout layout = layout_of(sizeof scale, scale);
    pare_scale_seen seen;
    pare_error err = {0};
    const uint8_t troy[] = {3, 4, 10, 0, 1, 0}, other[] = {4, 4, 2, 0, 1, 0}, cut[] = {3, 4, 2};
    const uint8_t far[] = {3, 4, 2, 0x7F, 1, 0}, none[] = {3, 4, 0, 0, 1, 0};
    assert_int_equal(pare_scale_report_read(&layout, 6, troy, &seen, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "the scale weighs in troy ounces; right would be grams, milligrams, "
                        "kilograms, ounces or pounds: its unit key changes that");
    assert_int_equal(pare_scale_report_read(&layout, 6, far, &seen, &err), PARE_BAD_DATA);
    assert_int_equal(pare_scale_report_read(&layout, 6, other, &seen, &err), PARE_OK);
    assert_false(seen.weighs);
    assert_int_equal(pare_scale_report_read(&layout, 3, cut, &seen, &err), PARE_OK);
    assert_false(seen.weighs);
    assert_int_equal(pare_scale_report_read(&layout, 6, none, &seen, &err), PARE_OK);
    assert_false(seen.weighs);
    assert_int_equal(pare_scale_report_read(&layout, 0, none, &seen, &err), PARE_OK);
}

/* A keyboard, a descriptor cut short at any byte, one that takes back what it never put by. */
static void what_is_no_scale_is_refused(void **state)
{
    (void)state;
    const uint8_t keyboard[] = {0x05, 0x01, 0x09, 0x06, 0xA1, 0x01, 0x05, 0x07,
                                0x19, 0xE0, 0x29, 0xE7, 0x15, 0x00, 0x25, 0x01,
                                0x75, 0x01, 0x95, 0x08, 0x81, 0x02, 0xC0};
    const uint8_t pop[] = {0x05, 0x8D, 0xB4}, huge[] = {0x05, 0x8D, 0x77, 0xFF, 0xFF, 0xFF, 0x7F,
                                                        0x97, 0xFF, 0xFF, 0xFF, 0x7F, 0x81, 0x02};
    pare_scale_layout layout;
    pare_error err = {0};
    assert_int_equal(pare_scale_layout_read(sizeof keyboard, keyboard, &layout, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "that is no scale: it describes no weight (usage page 0x8D)");
    assert_int_equal(pare_scale_layout_read(sizeof pop, pop, &layout, &err), PARE_BAD_DATA);
    assert_int_equal(pare_scale_layout_read(sizeof huge, huge, &layout, &err), PARE_BAD_DATA);
    for (size_t cut = 0; cut < sizeof scale - 4; cut++)
        assert_int_equal(pare_scale_layout_read(cut, scale, &layout, &err), PARE_BAD_DATA);
}

static size_t draw_below(uint64_t *dice, size_t count)
{
    return (size_t)(draw_share(dice) * (double)count) % count;
}

/* Descriptors with bytes changed and reports of noise: whatever comes out is finite. */
static void garbage_gives_nothing_or_a_weight(void **state)
{
    (void)state;
    uint64_t dice = 3;
    for (int i = 0; i < 100000; i++) {
        uint8_t bytes[sizeof scale], report[64];
        pare_scale_layout layout;
        pare_scale_seen seen;
        pare_error err = {0};
        memcpy(bytes, scale, sizeof scale);
        for (int k = 0; k < 4; k++) {
            const size_t at = draw_below(&dice, sizeof scale);
            bytes[at] = (uint8_t)draw_below(&dice, 256);
        }
        for (size_t k = 0; k < sizeof report; k++)
            report[k] = (uint8_t)draw_below(&dice, 256);
        if (pare_scale_layout_read(sizeof bytes, bytes, &layout, &err) != PARE_OK)
            continue;
        const size_t length = draw_below(&dice, sizeof report);
        report[0] = layout.fields ? layout.field[0].report : 0;
        if (pare_scale_report_read(&layout, length, report, &seen, &err) == PARE_OK && seen.weighs)
            assert_true(isfinite(seen.kg) && seen.step_kg > 0 && strlen(seen.text) > 2);
    }
}

static void lines_are_read_by_their_pattern(void **state)
{
    (void)state;
    static const struct {
        const char *pattern, *line, *text;
        pare_scale_state state;
        double kg;
    } lines[] = {
        {PARE_SCALE_PATTERN, "ST,GS,+  96.20 g", "96.20 g", PARE_SCALE_STABLE, 0.0962},
        {PARE_SCALE_PATTERN, "US,NT,-   0.3g  ", "-0.3 g", PARE_SCALE_MOVING, -0.0003},
        {PARE_SCALE_PATTERN, "st , gs , 0.0962 KG", "0.0962 kg", PARE_SCALE_STABLE, 0.0962},
        {"{state} {any} {weight} {unit}", "S S      1.5 oz", "1.5 oz", PARE_SCALE_STABLE,
         1.5 * 0.028349523125},
        {"{weight}", "  705", "705 g", PARE_SCALE_UNSAID, 0.705},
        {"{weight}", "\t705", "705 g", PARE_SCALE_UNSAID, 0.705},
        {"{any}{weight}{unit}", "net: 12.5g", "12.5 g", PARE_SCALE_UNSAID, 0.0125},
        {"{any} {weight} {unit}", "net 12.5 g", "12.5 g", PARE_SCALE_UNSAID, 0.0125},
        {"N {weight} {unit}", "N +  12 g", "12 g", PARE_SCALE_UNSAID, 0.012},
    };
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        pare_scale_seen seen;
        pare_error err = {0};
        bool has = false;
        assert_int_equal(pare_scale_pattern_check(lines[i].pattern, &err), PARE_OK);
        assert_int_equal(pare_scale_line_read(lines[i].pattern, lines[i].line, &has, &seen, &err),
                         PARE_OK);
        assert_true(has && seen.weighs);
        assert_string_equal(seen.text, lines[i].text);
        assert_int_equal(seen.state, lines[i].state);
        assert_near(seen.kg, lines[i].kg, 1e-12);
    }
}

static void lines_of_another_kind_are_not_read(void **state)
{
    (void)state;
    static const char *const strange[] = {"",
                                          "hello",
                                          "96.20 g",
                                          "ST,GS,+ g",
                                          "ST,GS,1.2.3g",
                                          "XX,GS,+ 1.0 g",
                                          "ST,GS,+ 1.0 g!",
                                          "ST,GS,12345678901234g",
                                          "\x01\x02\xff"};
    pare_scale_seen seen;
    pare_error err = {0};
    bool has = true;
    for (size_t i = 0; i < sizeof strange / sizeof strange[0]; i++) {
        assert_int_equal(pare_scale_line_read(PARE_SCALE_PATTERN, strange[i], &has, &seen, &err),
                         PARE_OK);
        assert_false(has || seen.weighs);
    }
    assert_int_equal(pare_scale_line_read(PARE_SCALE_PATTERN, "OL,GS,--------", &has, &seen, &err),
                     PARE_OK);
    assert_true(has && !seen.weighs && seen.state == PARE_SCALE_OVER);
    assert_int_equal(pare_scale_line_read(PARE_SCALE_PATTERN, "ST,GS,+ 12.5 ct", &has, &seen, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "the scale weighs in 'ct'; right would be g, mg, kg, oz or lb: its "
                        "unit key changes that");
}

static void patterns_that_say_nothing_are_refused(void **state)
{
    (void)state;
    static const char *const bad[] = {"", "{unit}", "{weight}{weight}", "{mass}", "{weight", "}"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        pare_error err = {0};
        assert_int_equal(pare_scale_pattern_check(bad[i], &err), PARE_BAD_DATA);
        assert_non_null(strstr(err.text, "pattern '"));
    }
}

/* ---- when it is at rest: an emulated HID scale ---- */

/* Reports one after another, the last again and again; a report of state 0 is a silence. */
typedef struct emulated {
    pare_scale_layout layout;
    size_t count, next;
    const uint8_t (*report)[6];
} emulated;

static pare_status say(void *context, pare_scale_seen *seen, bool *any, double *waited_s,
                       pare_error *err)
{
    emulated *e = context;
    const uint8_t *report = e->report[e->next < e->count ? e->next : e->count - 1];
    e->next++;
    *any = report[1] != 0;
    *waited_s = *any ? 0 : 0.25;
    return *any ? pare_scale_report_read(&e->layout, 6, report, seen, err) : PARE_OK;
}

static pare_status settle(size_t count, const uint8_t (*report)[6], bool empty,
                          pare_scale_seen *seen, size_t *said, pare_error *err)
{
    emulated e = {layout_of(sizeof scale, scale), count, 0, report};
    const pare_scale_port port = {&e, say, NULL};
    const pare_status status = pare_scale_settle(&port, empty, NULL, seen, err);
    *said = e.next;
    return status;
}
#define SETTLE(reports, empty) settle(sizeof(reports) / 6, reports, empty, &seen, &said, &err)
#define ZERO                   {3, 2, 2, 0xFF, 0, 0}
#define MOVES(n)               {3, 3, 2, 0xFF, n, 0}
#define STABLE(n)              {3, 4, 2, 0xFF, n, 0}

static void an_emulated_scale_is_read_when_it_is_at_rest(void **state)
{
    (void)state;
    pare_scale_seen seen;
    pare_error err = {0};
    size_t said;
    const uint8_t calm[][6] = {ZERO,       ZERO,       MOVES(40), MOVES(90),
                               STABLE(96), STABLE(97), STABLE(97)};
    assert_int_equal(SETTLE(calm, false), PARE_OK);
    assert_string_equal(seen.text, "9.7 g");
    assert_int_equal(said, 7);
    /* What lay there before is not the next thing. */
    const uint8_t next[][6] = {STABLE(97), STABLE(97), STABLE(97), ZERO,
                               MOVES(5),   STABLE(31), STABLE(31)};
    assert_int_equal(SETTLE(next, true), PARE_OK);
    assert_string_equal(seen.text, "3.1 g");
    /* A blink of overload, as when something drops onto it. */
    const uint8_t drop[][6] = {ZERO, {3, 6, 2, 0xFF, 0, 0}, MOVES(50), STABLE(55), STABLE(55)};
    assert_int_equal(SETTLE(drop, false), PARE_OK);
    assert_string_equal(seen.text, "5.5 g");
}

static void what_an_emulated_scale_cannot_weigh_is_said(void **state)
{
    (void)state;
    pare_scale_seen seen;
    pare_error err = {0};
    size_t said;
    const uint8_t over[][6] = {ZERO, {3, 6, 2, 0xFF, 0, 0}}, under[][6] = {{3, 5, 2, 0xFF, 3, 0}};
    const uint8_t fault[][6] = {{3, 1, 2, 0, 0, 0}}, taels[][6] = {{3, 4, 5, 0, 1, 0}};
    const uint8_t moving[][6] = {ZERO, MOVES(7)}, full[][6] = {STABLE(7)};
    const uint8_t silent[][6] = {{3, 0, 0, 0, 0, 0}}, rezero[][6] = {{3, 8, 2, 0, 0, 0}};
    const uint8_t calibrate[][6] = {{3, 7, 2, 0, 0, 0}};
    assert_int_equal(SETTLE(over, false), PARE_BAD_DATA);
    assert_string_equal(err.text, "the scale: it bears no more (overload); right would be one that "
                                  "does, or the parts one after another");
    assert_int_equal(SETTLE(under, false), PARE_BAD_DATA);
    assert_string_equal(err.text, "the scale: it shows less than nothing: its zero is off; right "
                                  "would be to empty it, set it to zero and weigh again");
    assert_int_equal(SETTLE(fault, false), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "at fault"));
    assert_int_equal(SETTLE(calibrate, false), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "calibrated"));
    assert_int_equal(SETTLE(rezero, false), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "set to zero"));
    assert_int_equal(SETTLE(taels, false), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "taels"));
    assert_int_equal(SETTLE(moving, false), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "does not come to rest"));
    assert_int_equal(SETTLE(full, true), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "never empty"));
    assert_int_equal(SETTLE(silent, false), PARE_UNAVAILABLE);
    assert_non_null(strstr(err.text, "says nothing"));
    assert_int_equal(said, 40); /* ten seconds of quarters */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_report_says_weight_unit_power_and_state),
        cmocka_unit_test(another_unit_is_named_and_another_report_says_nothing),
        cmocka_unit_test(what_is_no_scale_is_refused),
        cmocka_unit_test(garbage_gives_nothing_or_a_weight),
        cmocka_unit_test(lines_are_read_by_their_pattern),
        cmocka_unit_test(lines_of_another_kind_are_not_read),
        cmocka_unit_test(patterns_that_say_nothing_are_refused),
        cmocka_unit_test(an_emulated_scale_is_read_when_it_is_at_rest),
        cmocka_unit_test(what_an_emulated_scale_cannot_weigh_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
