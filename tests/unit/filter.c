/* rooms: craft physics base */
/* filter.c: conditions as people type them, judged on parts whose numbers stand beside the check. */
#include "craft/filter.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

/* A motor of 30 g, 22 mm x 7 mm, 1750 rpm/V, for 11 to 25.5 V, at 20, two owned. */
static void motor_numbers(double number[PARE_KEYS])
{
    for (int key = 0; key < PARE_KEYS; key++)
        number[key] = (double)NAN;
    number[PARE_KEY_MASS] = 30e-3;
    number[PARE_KEY_PRICE] = 20;
    number[PARE_KEY_OWNED] = 2;
    number[PARE_SPEC_STATOR_DIAMETER] = 22e-3;
    number[PARE_SPEC_STATOR_LENGTH] = 7e-3;
    number[PARE_SPEC_KV] = 1750;
    number[PARE_SPEC_VOLTS_LOW] = 11;
    number[PARE_SPEC_VOLTS_HIGH] = 25.5;
}

static pare_status read(const char *text, int kind, pare_filter *filter, pare_error *err)
{
    pare_units *units = pare_units_open();
    *filter = (pare_filter){0};
    const pare_status status = pare_filter_read(units, text, kind, filter, err);
    pare_units_close(units);
    return status;
}

static bool holds(const char *text, const double number[PARE_KEYS])
{
    pare_filter filter;
    pare_error err = {0};
    if (read(text, -1, &filter, &err) != PARE_OK)
        fail_msg("%s: %s", text, err.text);
    return pare_filter_holds(&filter, PARE_MOTOR, number);
}

typedef struct judged {
    const char *text;
    bool holds;
} judged;

static void check(size_t count, const judged cases[], const double number[PARE_KEYS])
{
    for (size_t i = 0; i < count; i++)
        if (holds(cases[i].text, number) != cases[i].holds)
            fail_msg("'%s' %s", cases[i].text, cases[i].holds ? "should hold" : "should not hold");
}

static void each_comparison_compares(void **state)
{
    (void)state;
    double number[PARE_KEYS];
    motor_numbers(number);
    static const judged cases[] = {
        {"mass<30g", false},         {"mass<30.1g", true},      {"mass<=30g", true},
        {"mass<=29.9g", false},      {"mass>30g", false},       {"mass>29.9g", true},
        {"mass>=30g", true},         {"mass>=30.1g", false},    {"mass=30g", true},
        {"mass==30g", true},         {"mass=29g", false},       {"mass!=30g", false},
        {"mass!=29g", true},         {"mass=0.03kg", true},     {"kv=1700..1800", true},
        {"kv=1760..1800", false},    {"kv!=1700..1800", false}, {"kv!=1760..1800", true},
        {"kv=1750..1750", true},     {"price<=20", true},       {"price<20", false},
        {"owned>=1", true},          {"owned>=3", false},       {"owned=2", true},
        {"kv = 1700 .. 1800", true}, {"mass < 31 g", true},
    };
    check(sizeof cases / sizeof cases[0], cases, number);
}

/* An ounce is 28.349523125 g, an inch 25.4 mm (International Yard and Pound Agreement, 1959), so two
 * ounces and 0.9 in are exactly the numbers below. */
static void equal_numbers_in_other_units_are_equal(void **state)
{
    (void)state;
    double number[PARE_KEYS];
    motor_numbers(number);
    number[PARE_KEY_MASS] = 2 * 28.349523125e-3;
    number[PARE_SPEC_STATOR_DIAMETER] = 0.9 * 25.4e-3;
    static const judged cases[] = {
        {"mass=2oz", true},        {"mass<=56.69904625g", true}, {"mass>=56.69904625g", true},
        {"stator=0.9in", true},    {"stator>=22.86mm", true},    {"stator<22.86mm", false},
        {"stator>22.86mm", false},
    };
    check(sizeof cases / sizeof cases[0], cases, number);
}

static void several_conditions_must_all_hold(void **state)
{
    (void)state;
    double number[PARE_KEYS];
    motor_numbers(number);
    static const judged cases[] = {
        {"mass<31g kv>=1700", true},   {"mass<31g,kv>=1700", true},
        {"mass<31g, kv>=1800", false}, {"mass < 31 g kv >= 1700", true},
        {" mass<31g ", true},          {"mass<29g kv>=1700", false},
    };
    check(sizeof cases / sizeof cases[0], cases, number);
}

static void what_nobody_said_meets_no_condition(void **state)
{
    (void)state;
    double number[PARE_KEYS];
    motor_numbers(number);
    number[PARE_KEY_PRICE] = (double)NAN;
    static const judged cases[] = {
        {"price<20", false},        {"price>=20", false},        {"price!=20", false},
        {"resistance<1ohm", false}, {"resistance!=1ohm", false}, {"cells>=1", false},
        {"cells!=1", false}, /* a motor has none */
    };
    check(sizeof cases / sizeof cases[0], cases, number);
}

static void volts_ask_what_the_part_takes(void **state)
{
    (void)state;
    double number[PARE_KEYS];
    motor_numbers(number);
    static const judged range[] = {
        {"volts=14.8V", true},     {"volts=10V", false},      {"volts=25.5V", true},
        {"volts=26V", false},      {"volts!=26V", true},      {"volts>=25V", true},
        {"volts>25.5V", false},    {"volts>=25.5V", true},    {"volts<=11V", true},
        {"volts<11V", false},      {"volts<=10V", false},     {"volts=12V..25V", true},
        {"volts=10V..25V", false}, {"volts=12V..26V", false}, {"volts!=10V..25V", true},
    };
    check(sizeof range / sizeof range[0], range, number);
    number[PARE_SPEC_VOLTS_LOW] = (double)NAN; /* only the highest was said */
    static const judged highest[] = {
        {"volts<=1V", true},
        {"volts=3V", true},
        {"volts=26V", false},
        {"volts>=25V", true},
    };
    check(sizeof highest / sizeof highest[0], highest, number);
    number[PARE_SPEC_VOLTS_HIGH] = (double)NAN;
    static const judged none[] = {{"volts<=1V", false}, {"volts!=1V", false}};
    check(sizeof none / sizeof none[0], none, number);
}

static void a_stator_is_its_diameter_or_both_its_sizes(void **state)
{
    (void)state;
    double number[PARE_KEYS];
    motor_numbers(number);
    static const judged cases[] = {
        {"stator=22mm", true},       {"stator>=22mm", true},       {"stator>22mm", false},
        {"stator=22mm x 7mm", true}, {"stator=22mm x 6mm", false}, {"stator=23mm x 7mm", false},
        {"stator=21mm..23mm", true},
    };
    check(sizeof cases / sizeof cases[0], cases, number);
}

static void a_wrong_condition_says_what_would_be_right(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int kind;
        pare_status status;
        const char *says;
    } cases[] = {
        {"mass<12", -1, PARE_BAD_DATA, "mass: 12 has no unit: a mass needs g, kg, oz or lb"},
        {"mass<12A", -1, PARE_BAD_DATA, "mass: 12A is a current"},
        {"mas<12g", -1, PARE_UNKNOWN, "no number 'mas'; did you mean mass?"},
        {"cells>=6", PARE_MOTOR, PARE_UNKNOWN, "no number 'cells' in a part of kind motor"},
        {"kind=motor", -1, PARE_UNKNOWN, "--kind motor"},
        {"mass=<12g", -1, PARE_BAD_DATA, "'=<' is no comparison"},
        {"<12g", -1, PARE_BAD_DATA, "nothing stands before '<12g'"},
        {"mass<", -1, PARE_BAD_DATA, "mass: nothing is no quantity"},
        {"mass<nan", -1, PARE_BAD_DATA, "mass: nan"},
        {"mass<1e999g", -1, PARE_BAD_DATA, "beyond what a number can hold"},
        {"kv=1800..1700", -1, PARE_BAD_DATA, "runs downwards"},
        {"kv<1700..1800", -1, PARE_BAD_DATA, "goes with = and != only"},
        {"light mass<12g", -1, PARE_BAD_DATA, "'light' stands before a condition"},
        {"stator<22mm x 7mm", -1, PARE_BAD_DATA, "stator: "},
        {"stator=22mm x 7mm x 3mm", -1, PARE_BAD_DATA, "more than 2 sizes"},
        {"mass", -1, PARE_BAD_DATA, "'mass' is no condition"},
        {"(a|b)*=.+", -1, PARE_BAD_DATA, "'(a|b)*' stands before a condition"},
        {"these are more words than anybody would put there mass<12g", -1, PARE_BAD_DATA,
         "'these are more words than anybody would ' stands before a condition"},
        {"mass<12g,\n\tkva2>1800", -1, PARE_UNKNOWN, "no number 'kva2'; there are mass, price, "},
        {"mass<12g Z9_>1", -1, PARE_UNKNOWN, "no number 'Z9_'; there are mass, price, owned, "},
        {"zebra>1", PARE_PACK, PARE_UNKNOWN,
         "no number 'zebra' in a part of kind pack; there are mass, price, owned, "},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        pare_filter filter;
        pare_error err = {0};
        assert_int_equal(read(cases[i].text, cases[i].kind, &filter, &err), cases[i].status);
        if (!strstr(err.text, cases[i].says))
            fail_msg("%s: '%s' lacks '%s'", cases[i].text, err.text, cases[i].says);
        assert_int_equal(filter.count, 0);
    }
}

static void a_huge_condition_is_refused_in_one_short_line(void **state)
{
    (void)state;
    enum { SIZE = 1 << 20 };
    static const char *const around[][2] = {{"", "<1g"}, {"mass<", ""}, {"mass", "12g"}};
    char *text = malloc(SIZE + 16);
    assert_non_null(text);
    for (size_t i = 0; i < sizeof around / sizeof around[0]; i++) {
        pare_filter filter;
        pare_error err = {0};
        strcpy(text, around[i][0]);
        const size_t from = strlen(text);
        memset(text + from, i == 2 ? '<' : 'a', SIZE);
        strcpy(text + from + SIZE, around[i][1]);
        assert_int_not_equal(read(text, -1, &filter, &err), PARE_OK);
        assert_true(strlen(err.text) < sizeof err.text);
        assert_null(strchr(err.text, '\n'));
    }
    free(text);
}

static void more_conditions_than_there_is_room_for_are_refused(void **state)
{
    (void)state;
    char text[16 * (PARE_CONDITIONS + 1) + 1] = "";
    pare_filter filter;
    pare_error err = {0};
    for (int i = 0; i < PARE_CONDITIONS; i++)
        strcat(text, "mass<12g ");
    assert_int_equal(read(text, -1, &filter, &err), PARE_OK);
    assert_int_equal(filter.count, PARE_CONDITIONS);
    strcat(text, "mass<12g");
    assert_int_equal(read(text, -1, &filter, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "more than 16 conditions"));
}

static void each_name_of_the_table_is_a_key_once(void **state)
{
    (void)state;
    const char *names[PARE_KEYS];
    const size_t count = pare_key_names(-1, names);
    for (size_t i = 0; i < pare_spec_rows; i++) {
        size_t times = 0;
        for (size_t k = 0; k < count; k++)
            times += strcmp(names[k], pare_spec_table[i].name) == 0;
        assert_int_equal(times, 1);
    }
    for (size_t i = 0; i < count; i++) {
        int key = PARE_KEY_NONE;
        assert_int_equal(pare_key_named(names[i], strlen(names[i]), -1, &key, NULL), PARE_OK);
        assert_in_range(key, 0, PARE_KEYS - 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_comparison_compares),
        cmocka_unit_test(equal_numbers_in_other_units_are_equal),
        cmocka_unit_test(several_conditions_must_all_hold),
        cmocka_unit_test(what_nobody_said_meets_no_condition),
        cmocka_unit_test(volts_ask_what_the_part_takes),
        cmocka_unit_test(a_stator_is_its_diameter_or_both_its_sizes),
        cmocka_unit_test(a_wrong_condition_says_what_would_be_right),
        cmocka_unit_test(a_huge_condition_is_refused_in_one_short_line),
        cmocka_unit_test(more_conditions_than_there_is_room_for_are_refused),
        cmocka_unit_test(each_name_of_the_table_is_a_key_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
