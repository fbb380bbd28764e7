/* rooms: base */
/* units.c: quantities as people write them, their messages, and hostile text. */
#include "near.h"

#include <locale.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <string.h>
#include <udunits2.h>

#include "base/unit_table.h"
#include "base/units.h"
#include "read_units.h"

static void refused(const char *text, pare_dimension dimension, const char *message)
{
    pare_error err = {0};
    double value = 4321;
    assert_int_equal(pare_quantity(units, text, dimension, &value, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, message);
    assert_true(value == 4321);
}

static void a_number_and_its_unit_may_be_apart_or_together(void **state)
{
    (void)state;
    assert_true(quantity("12.5 g", PARE_DIM_MASS) == 0.0125);
    assert_true(quantity("12.5g", PARE_DIM_MASS) == 0.0125);
    assert_true(quantity("  12.5\t g \n", PARE_DIM_MASS) == 0.0125);
    assert_true(quantity("+1.25e1 g", PARE_DIM_MASS) == 0.0125);
    assert_true(quantity(".5 kg", PARE_DIM_MASS) == 0.5);
    assert_true(quantity("5. kg", PARE_DIM_MASS) == 5);
    assert_true(quantity("-40 mm", PARE_DIM_LENGTH) == -0.04);
    assert_true(quantity("1E-3 m", PARE_DIM_LENGTH) == 0.001);
}

static void decimal_values_become_the_nearest_double(void **state)
{
    (void)state;
    assert_true(quantity("12 g", PARE_DIM_MASS) == 0.012);
    assert_true(quantity("5.1 in", PARE_DIM_LENGTH) == 0.12954);
    assert_true(quantity("1300 mAh", PARE_DIM_CHARGE) == 4680);
    assert_true(quantity("62 mohm", PARE_DIM_RESISTANCE) == 0.062);
    assert_true(quantity("470 uF", PARE_DIM_CAPACITANCE) == 470e-6);
}

static void every_sign_that_people_use_reads_the_same(void **state)
{
    (void)state;
    const double mohm = quantity("62 mohm", PARE_DIM_RESISTANCE);
    assert_true(quantity("62 m\xCE\xA9", PARE_DIM_RESISTANCE) == mohm);
    assert_true(quantity("62 m\xE2\x84\xA6", PARE_DIM_RESISTANCE) == mohm);
    assert_true(quantity("470\xC2\xB5"
                         "F",
                         PARE_DIM_CAPACITANCE) == quantity("470 uF", PARE_DIM_CAPACITANCE));
    assert_true(quantity("25 \xC2\xB0"
                         "C",
                         PARE_DIM_TEMPERATURE) == 25);
    assert_true(quantity("90\xC2\xB0", PARE_DIM_ANGLE) == quantity("90 deg", PARE_DIM_ANGLE));
    assert_true(quantity("\xE2\x88\x92"
                         "5 mm",
                         PARE_DIM_LENGTH) == -0.005);
    assert_true(quantity("5.1\"", PARE_DIM_LENGTH) == quantity("5.1 in", PARE_DIM_LENGTH));
    const double torque = quantity("0.7 N m", PARE_DIM_TORQUE);
    assert_true(quantity("0.7 Nm", PARE_DIM_TORQUE) == torque);
    assert_true(quantity("0.7 N*m", PARE_DIM_TORQUE) == torque);
    assert_true(quantity("0.7 N.m", PARE_DIM_TORQUE) == torque);
    assert_true(quantity("0.7 N\xC2\xB7m", PARE_DIM_TORQUE) == torque);
    const double area = quantity("4 mm2", PARE_DIM_AREA);
    assert_true(quantity("4 mm^2", PARE_DIM_AREA) == area);
    assert_true(quantity("4 mm\xC2\xB2", PARE_DIM_AREA) == area);
    assert_true(quantity("1.24 g / cm3", PARE_DIM_DENSITY) == 1240);
}

static void one_symbol_means_what_is_due(void **state)
{
    (void)state;
    assert_true(quantity("25C", PARE_DIM_TEMPERATURE) == 25);
    assert_true(quantity("25 C", PARE_DIM_CHARGE) == 25);
    assert_true(quantity("50 F", PARE_DIM_TEMPERATURE) == 10);
    assert_true(quantity("50 F", PARE_DIM_CAPACITANCE) == 50);
    assert_true(quantity("2 g", PARE_DIM_MASS) == 0.002);
    assert_near(quantity("2 g", PARE_DIM_ACCELERATION), 19.6133, 1e-15);
    assert_true(quantity("1750 kV", PARE_DIM_KV) == 1750);
    assert_true(quantity("0.42 oz", PARE_DIM_MASS) < 0.012);
}

static void bare_numbers_are_read_only_where_they_can_mean_one_thing(void **state)
{
    (void)state;
    assert_true(quantity("4", PARE_DIM_COUNT) == 4);
    assert_true(quantity("12.9", PARE_DIM_NUMBER) == 12.9);
    assert_true(quantity("0.2", PARE_DIM_SHARE) == 0.2);
    assert_true(quantity("20 %", PARE_DIM_SHARE) == 0.2);
    assert_true(quantity("1750", PARE_DIM_KV) == 1750);
    assert_true(quantity("14", PARE_DIM_GAUGE) == 14);
    assert_true(quantity("14 AWG", PARE_DIM_GAUGE) == 14);
    assert_true(quantity("18.90", PARE_DIM_MONEY) == 18.9);
    assert_true(quantity("14000", PARE_DIM_ROTATION) == quantity("14000 rpm", PARE_DIM_ROTATION));
    refused("12", PARE_DIM_MASS, "12 has no unit: a mass needs g, kg, oz or lb");
    refused("12", PARE_DIM_LENGTH, "12 has no unit: a length needs mm, cm, m, in or ft");
    refused("12", PARE_DIM_GAIN, "12 has no unit: a gain needs dB or dBi");
}

static void a_unit_of_another_dimension_is_named(void **state)
{
    (void)state;
    refused("12 V", PARE_DIM_MASS, "12 V is a voltage: a mass needs g, kg, oz or lb");
    refused("12 g", PARE_DIM_FORCE, "12 g is a mass: a force needs N, gf, kgf or lbf");
    refused("4 g", PARE_DIM_COUNT, "4 g is a mass: a count needs a bare number");
    refused("4 g", PARE_DIM_NUMBER, "4 g is a mass: a number needs no unit");
    refused("5 J", PARE_DIM_TORQUE, "5 J is an energy: a torque needs N m, mN m, N cm or kgf cm");
    refused("50 Hz", PARE_DIM_TIME, "50 Hz is a frequency: a time needs s, min, h or ms");
    refused("3 furlong", PARE_DIM_MASS, "3 furlong is a length: a mass needs g, kg, oz or lb");
    refused("3 furlong", PARE_DIM_COUNT, "3 furlong is a length: a count needs a bare number");
    refused("3 mol", PARE_DIM_MASS, "3 mol is of another kind: a mass needs g, kg, oz or lb");
}

static void an_unknown_unit_is_refused_with_its_likely_spelling(void **state)
{
    (void)state;
    refused("1300 mah", PARE_DIM_CHARGE,
            "1300 mah has no unit that is known (is it mAh?): a charge needs mAh, Ah or C");
    refused("12 gramz", PARE_DIM_MASS,
            "12 gramz has no unit that is known: a mass needs g, kg, oz or lb");
    refused("12 \xF0\x9F\x9A\x81", PARE_DIM_MASS,
            "12 ???? has no unit that is known: a mass needs g, kg, oz or lb");
}

static void what_is_no_plain_number_is_refused(void **state)
{
    (void)state;
    refused("", PARE_DIM_MASS, "nothing is no quantity: a mass needs g, kg, oz or lb");
    refused(" \t ", PARE_DIM_MASS, "nothing is no quantity: a mass needs g, kg, oz or lb");
    refused("1,5 g", PARE_DIM_MASS,
            "1,5 g has a comma where a decimal point is due: a mass needs g, kg, oz or lb");
    static const char *const TEXTS[] = {
        "nan g",   "NaN",     "inf kg", "-inf g",   "infinity g",  "g",         "-",
        "+ g",     ".",       ". g",    "e5 g",     "- 5 g",       "--5 g",     "1 2 g",
        "1.2.3 g", "5 -3 g",  "1_0 g",  "1'000'0g", "0x10 g",      "0x1p3 g",   "0b1 g",
        "5 g 3",   "5 g/0",   "5 g;",   "5 g g-",   "5 g since 3", "5 kg m--2", "5 g--1",
        "5 (g)",   "5 g^g",   "5 3 g",  "5 g\x01",  "5 g-",        "5 /m",      "5 lg(re g)",
        "5 1/g-1", "5 g^999", "5e g",   "5 g m",    "\xFF\xFE",    "5 \xC2",    "5 kg-1",
        "5%g",     "5 %s%n",  "5 @",    "5 g@3",    "5 g,",        "5 g..",
    };
    for (size_t i = 0; i < sizeof TEXTS / sizeof *TEXTS; i++) {
        pare_error err = {0};
        double value = 4321;
        if (pare_quantity(units, TEXTS[i], PARE_DIM_MASS, &value, &err) != PARE_BAD_DATA)
            fail_msg("'%s' was read as %g kg", TEXTS[i], value);
        assert_true(value == 4321);
        assert_non_null(strstr(err.text, "a mass needs g, kg, oz or lb"));
    }
}

static void numbers_beyond_a_double_are_refused(void **state)
{
    (void)state;
    refused("1e999 g", PARE_DIM_MASS, "1e999 is beyond what a number can hold (1e-307 to 1e308)");
    refused("-1e999 g", PARE_DIM_MASS, "-1e999 is beyond what a number can hold (1e-307 to 1e308)");
    refused("1e-999 g", PARE_DIM_MASS, "1e-999 is beyond what a number can hold (1e-307 to 1e308)");
    refused("1e308 km", PARE_DIM_LENGTH, "1e308 km is too large");
    refused("1e308 parsec", PARE_DIM_LENGTH, "1e308 parsec is too large");
    assert_true(quantity("0e0 g", PARE_DIM_MASS) == 0);
    char digits[400];
    memset(digits, '9', sizeof digits - 1);
    digits[sizeof digits - 1] = '\0';
    refused(digits, PARE_DIM_NUMBER,
            "999999999999999999999999999999999999999999999999... is too long for a quantity");
}

static void a_count_is_whole_and_fits_an_int(void **state)
{
    (void)state;
    refused("2.5", PARE_DIM_COUNT, "2.5 is no count: a whole number from 0 to 1000000000");
    refused("-1", PARE_DIM_COUNT, "-1 is no count: a whole number from 0 to 1000000000");
    refused("1e10", PARE_DIM_COUNT, "1e10 is no count: a whole number from 0 to 1000000000");
    assert_true(quantity("1e9", PARE_DIM_COUNT) == 1e9);
    assert_true(quantity("16.0", PARE_DIM_COUNT) == 16);
}

static void other_units_come_from_udunits(void **state)
{
    (void)state;
    assert_near(quantity("2 furlong", PARE_DIM_LENGTH), 402.336,
                2e-3); /* it keeps the US survey foot */
    assert_near(quantity("1 yard", PARE_DIM_LENGTH), 0.9144, 1e-15);
    assert_near(quantity("3 day", PARE_DIM_TIME), 259200, 1e-9);
    assert_near(quantity("491.67 degR", PARE_DIM_TEMPERATURE), 0, 1e-10);
    assert_near(quantity("1 lb/ft3", PARE_DIM_DENSITY), 0.45359237 / 0.028316846592, 1e-12);
    assert_near(quantity("2 kg m-3", PARE_DIM_DENSITY), 2, 0);
    assert_near(quantity("2 ft lbf", PARE_DIM_TORQUE), 2 * 0.3048 * 4.4482216152605, 1e-14);
    assert_near(quantity("2 kg m2 s-2", PARE_DIM_ENERGY), 2, 0);
}

static void units_that_udunits_misreads_are_mended_in_compounds(void **state)
{
    (void)state;
    /* udunits2 takes oz for the fluid ounce, mph for milliphot hours, and lacks Ah and Wh. */
    assert_within(quantity("1 oz/in3", PARE_DIM_DENSITY), 0.028349523125 / 1.6387064e-5, 1e-14);
    assert_within(quantity("1 mph/s", PARE_DIM_ACCELERATION), 0.44704, 1e-14);
    assert_within(quantity("1300 mAh V", PARE_DIM_ENERGY), 4680, 1e-14);
    assert_within(quantity("2 Wh/h", PARE_DIM_POWER), 2, 1e-14);
}

static void a_reciprocal_is_not_taken_for_its_unit(void **state)
{
    (void)state;
    /* udunits2 calls s and s-1 convertible. */
    refused("5 m-1", PARE_DIM_LENGTH,
            "5 m-1 is of another kind: a length needs mm, cm, m, in or ft");
    refused("5 s-1", PARE_DIM_TIME, "5 s-1 is of another kind: a time needs s, min, h or ms");
}

/* The unit of each dimension as udunits2 writes it; "" where it has none to compare with. */
static const char *inside_unit(pare_dimension dimension)
{
    switch (dimension) {
    case PARE_DIM_ROTATION:
        return "radian/second";
    case PARE_DIM_FREQUENCY:
        return "hertz";
    case PARE_DIM_SHARE:
        return "1";
    default:
        return pare_dimension_library_unit(dimension);
    }
}

/* Symbols that udunits2 gives another meaning than the trade does. */
static bool is_known_trap(const pare_unit_row *row)
{
    static const struct {
        const char *symbol;
        pare_dimension dimension;
    } TRAPS[] = {
        {"oz", PARE_DIM_MASS},       {"mph", PARE_DIM_SPEED},     {"kph", PARE_DIM_SPEED},
        {"\"", PARE_DIM_LENGTH},     {"'", PARE_DIM_LENGTH},      {"g", PARE_DIM_ACCELERATION},
        {"C", PARE_DIM_TEMPERATURE}, {"F", PARE_DIM_TEMPERATURE},
    };
    for (size_t i = 0; i < sizeof TRAPS / sizeof *TRAPS; i++)
        if (TRAPS[i].dimension == row->dimension && strcmp(TRAPS[i].symbol, row->symbol) == 0)
            return true;
    return false;
}

static void every_unit_that_udunits_knows_too_agrees_with_it(void **state)
{
    (void)state;
    ut_set_error_message_handler(ut_ignore);
    ut_system *system = ut_read_xml(NULL);
    assert_non_null(system);
    int compared = 0;
    for (size_t i = 0; i < pare_unit_row_count; i++) {
        const pare_unit_row *row = &pare_unit_rows[i];
        const char *inside = inside_unit(row->dimension);
        ut_unit *from = inside && *row->symbol ? ut_parse(system, row->symbol, UT_ASCII) : NULL;
        if (!from || is_known_trap(row)) {
            ut_free(from);
            continue;
        }
        ut_unit *to = ut_parse(system, inside, UT_ASCII);
        cv_converter *converter = ut_get_converter(from, to);
        if (!converter)
            fail_msg("udunits2 cannot turn %s into %s", row->symbol, inside);
        static const double NUMBERS[] = {0, 1, -40, 1234.5};
        for (size_t n = 0; n < sizeof NUMBERS / sizeof *NUMBERS; n++) {
            char text[64];
            snprintf(text, sizeof text, "%g %s", NUMBERS[n], row->symbol);
            const double theirs = cv_convert_double(converter, NUMBERS[n]);
            /* udunits2 keeps ozf to seven digits, and adds 273.15 and takes it away again. */
            const double share = strcmp(row->symbol, "ozf") == 0 ? 1e-6 : 1e-13;
            assert_near(quantity(text, row->dimension), theirs, share * fabs(theirs) + 1e-12);
        }
        cv_free(converter);
        ut_free(from);
        ut_free(to);
        compared++;
    }
    ut_free_system(system);
    assert_in_range(compared, 75, pare_unit_row_count);
}

static void ranges_have_a_lower_and_an_upper_end(void **state)
{
    (void)state;
    pare_error err = {0};
    double low = 0, high = 0;
    assert_int_equal(pare_range(units, "11 V .. 25.5 V", PARE_DIM_VOLTAGE, &low, &high, &err), 0);
    assert_true(low == 11 && high == 25.5);
    assert_int_equal(pare_range(units, "3in..5.2in", PARE_DIM_LENGTH, &low, &high, &err), 0);
    assert_true(low == 0.0762 && high == 0.13208);
    assert_int_equal(pare_range(units, "16 mm", PARE_DIM_LENGTH, &low, &high, &err), 0);
    assert_true(low == 0.016 && high == 0.016);
    assert_int_equal(pare_range(units, "2 .. 6", PARE_DIM_COUNT, &low, &high, &err), 0);
    assert_true(low == 2 && high == 6);
}

static void range_refused(const char *text, const char *message)
{
    pare_error err = {0};
    double low = 4, high = 3;
    assert_int_equal(pare_range(units, text, PARE_DIM_VOLTAGE, &low, &high, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, message);
    assert_true(low == 4 && high == 3);
}

static void a_broken_range_is_refused(void **state)
{
    (void)state;
    range_refused("25 V .. 11 V", "25 V .. 11 V runs downwards: the lower end comes first");
    range_refused("11 .. 25 V", "11 has no unit: a voltage needs V or mV");
    range_refused("11 V ..", "nothing is no quantity: a voltage needs V or mV");
    range_refused(".. 11 V", "nothing is no quantity: a voltage needs V or mV");
    range_refused("11 V .. 12 V .. 13 V",
                  "12 V .. 13 V has no unit that is known: a voltage needs V or mV");
    range_refused("11 V .. 25 A", "25 A is a current: a voltage needs V or mV");
    range_refused("..", "nothing is no quantity: a voltage needs V or mV");
}

static void sizes_are_parted_by_crosses_or_commas(void **state)
{
    (void)state;
    static const char *const TEXTS[] = {"75mm,36mm,31mm", "75 mm x 36 mm x 31 mm", "75mmx36mmx31mm",
                                        "7.5 cm, 36 mm X 31 mm",
                                        "75 mm \xC3\x97 36 mm \xC3\x97 31 mm"};
    for (size_t i = 0; i < sizeof TEXTS / sizeof *TEXTS; i++) {
        pare_error err = {0};
        double size[3] = {0};
        size_t count = 0;
        if (pare_sizes(units, TEXTS[i], PARE_DIM_LENGTH, 3, size, &count, &err) != PARE_OK)
            fail_msg("'%s' was refused: %s", TEXTS[i], err.text);
        assert_int_equal(count, 3);
        assert_true(size[0] == 0.075 && size[1] == 0.036 && size[2] == 0.031);
    }
}

static void sizes_refused(const char *text, const char *message)
{
    pare_error err = {0};
    double size[3] = {7, 8, 9};
    size_t count = 99;
    assert_int_equal(pare_sizes(units, text, PARE_DIM_LENGTH, 3, size, &count, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, message);
    assert_true(size[0] == 7 && size[1] == 8 && size[2] == 9 && count == 99);
}

static void broken_sizes_are_refused(void **state)
{
    (void)state;
    sizes_refused("22 x 7 mm", "22 has no unit: a length needs mm, cm, m, in or ft");
    sizes_refused("22 mm x",
                  "22 mm x has no unit that is known: a length needs mm, cm, m, in or ft");
    sizes_refused("22 mm,", "nothing is no quantity: a length needs mm, cm, m, in or ft");
    sizes_refused(",", "nothing is no quantity: a length needs mm, cm, m, in or ft");
    sizes_refused("", "nothing is no quantity: a length needs mm, cm, m, in or ft");
    sizes_refused("1 mm x 2 mm x 3 mm x 4 mm", "more than 3 sizes");
    sizes_refused("0x10 mm", "0 has no unit: a length needs mm, cm, m, in or ft");
}

static unsigned int draw(unsigned int *seed, unsigned int below)
{
    *seed = *seed * 1103515245u + 12345u;
    return (*seed >> 16) % below;
}

static void make_hostile(unsigned int *seed, char text[80])
{
    static const char *const BITS[] = {
        "1",   "-",    "+",       ".",  "e",    "5.1", " ",           "  ",       "x",
        "..",  ",",    "g",       "mm", "kg",   "oz",  "^",           "2",        "-3",
        "/",   "*",    "(",       ")",  "lg",   "@",   "since",       "K",        "C",
        "%",   "%n",   "m",       "A",  "1e99", "999", "\xC2",        "\xCE\xA9", "\xFF",
        "\t",  "\x01", "furlong", "in", "''",   "\"",  "deg",         "E",        "ft",
        "nan", "inf",  "0x",      "_",  "utc",  "re",  "\xE2\x88\x92"};
    size_t length = 0;
    for (unsigned int n = 1 + draw(seed, 8); n > 0; n--) {
        const char *bit = BITS[draw(seed, sizeof BITS / sizeof *BITS)];
        memcpy(text + length, bit, strlen(bit) + 1);
        length += strlen(bit);
    }
}

static void assert_one_plain_line(const pare_error *err)
{
    assert_true(err->text[0] != '\0');
    for (const char *c = err->text; *c; c++)
        assert_in_range((unsigned char)*c, ' ', '~');
}

static void hostile_text_gives_a_finite_value_or_one_plain_line(void **state)
{
    (void)state;
    unsigned int seed = 1;
    for (int round = 0; round < 40000; round++) {
        char text[80];
        make_hostile(&seed, text);
        const pare_dimension dimension = (pare_dimension)draw(&seed, PARE_DIMENSIONS);
        pare_error err = {0};
        double value[8] = {4321}, high = 4321;
        size_t count = 0;
        const unsigned int how = draw(&seed, 3);
        const pare_status status = how == 0 ? pare_quantity(units, text, dimension, value, &err)
                                   : how == 1
                                       ? pare_range(units, text, dimension, value, &high, &err)
                                       : pare_sizes(units, text, dimension, 8, value, &count, &err);
        if (status == PARE_OK) {
            assert_true(isfinite(value[0]) && isfinite(high) && count <= 8);
        } else {
            assert_int_equal(status, PARE_BAD_DATA);
            assert_true(value[0] == 4321 && high == 4321 && count == 0);
            assert_one_plain_line(&err);
        }
    }
}

static void every_dimension_has_a_name_and_units(void **state)
{
    (void)state;
    for (int i = 0; i < PARE_DIMENSIONS; i++) {
        assert_non_null(pare_dimension_name((pare_dimension)i));
        const char *list = pare_dimension_units((pare_dimension)i);
        assert_non_null(list);
        char text[80], *rest = text;
        snprintf(text, sizeof text, "%s", list);
        if (strstr(list, "bare number") == list || strcmp(list, "no unit") == 0)
            continue;
        for (char *unit; (unit = strtok_r(rest, ",", &rest)) != NULL;) {
            unit += *unit == ' ';
            if (strncmp(unit, "a bare", 6) != 0 && !pare_unit_find(unit, (pare_dimension)i))
                fail_msg("%s is offered for %s but not read", unit,
                         pare_dimension_name((pare_dimension)i));
        }
    }
}

static void *convert_often(void *result)
{
    pare_units *own = pare_units_open();
    double sum = 0, value = 0;
    for (int i = 0; own && i < 200; i++)
        if (pare_quantity(own, "2 yard", PARE_DIM_LENGTH, &value, NULL) == PARE_OK)
            sum += value;
    pare_units_close(own);
    *(double *)result = sum;
    return NULL;
}

static void two_threads_may_convert_at_once(void **state)
{
    (void)state;
    pthread_t thread[2];
    double sum[2] = {0};
    for (int i = 0; i < 2; i++)
        assert_int_equal(pthread_create(&thread[i], NULL, convert_often, &sum[i]), 0);
    for (int i = 0; i < 2; i++)
        assert_int_equal(pthread_join(thread[i], NULL), 0);
    assert_near(sum[0], 200 * 1.8288, 1e-9);
    assert_near(sum[1], 200 * 1.8288, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_number_and_its_unit_may_be_apart_or_together),
        cmocka_unit_test(decimal_values_become_the_nearest_double),
        cmocka_unit_test(every_sign_that_people_use_reads_the_same),
        cmocka_unit_test(one_symbol_means_what_is_due),
        cmocka_unit_test(bare_numbers_are_read_only_where_they_can_mean_one_thing),
        cmocka_unit_test(a_unit_of_another_dimension_is_named),
        cmocka_unit_test(an_unknown_unit_is_refused_with_its_likely_spelling),
        cmocka_unit_test(what_is_no_plain_number_is_refused),
        cmocka_unit_test(numbers_beyond_a_double_are_refused),
        cmocka_unit_test(a_count_is_whole_and_fits_an_int),
        cmocka_unit_test(other_units_come_from_udunits),
        cmocka_unit_test(units_that_udunits_misreads_are_mended_in_compounds),
        cmocka_unit_test(a_reciprocal_is_not_taken_for_its_unit),
        cmocka_unit_test(every_unit_that_udunits_knows_too_agrees_with_it),
        cmocka_unit_test(ranges_have_a_lower_and_an_upper_end),
        cmocka_unit_test(a_broken_range_is_refused),
        cmocka_unit_test(sizes_are_parted_by_crosses_or_commas),
        cmocka_unit_test(broken_sizes_are_refused),
        cmocka_unit_test(hostile_text_gives_a_finite_value_or_one_plain_line),
        cmocka_unit_test(every_dimension_has_a_name_and_units),
        cmocka_unit_test(two_threads_may_convert_at_once),
    };
    return cmocka_run_group_tests(tests, open_units, close_units);
}
