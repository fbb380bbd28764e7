/* rooms: store craft physics base */
/* Cells as people type them. What each means is common practice, no source. */
#include <string.h>

#include "near.h"
#include "store/csv_cell.h"

static void numbers_are_read_by_the_tables_decimals(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        pare_decimal decimal;
        const char *digits; /* NULL: none */
        const char *rest;
        bool ambiguous;
    } rows[] = {
        {"12.5 g", PARE_DECIMAL_UNKNOWN, "12.5", " g", false},
        {"12,5g", PARE_DECIMAL_UNKNOWN, "12.5", "g", false},
        {"12,5", PARE_DECIMAL_POINT, "12.5", "", false}, /* it can be nothing else */
        {"1,300 mAh", PARE_DECIMAL_POINT, "1300", " mAh", false},
        {"1,300 mAh", PARE_DECIMAL_COMMA, "1.300", " mAh", false},
        {"1,300 mAh", PARE_DECIMAL_UNKNOWN, "1300", " mAh", true},
        {"1,300 mAh", PARE_DECIMAL_BOTH, "1300", " mAh", true},
        {"1.300 mAh", PARE_DECIMAL_COMMA, "1300", " mAh", false},
        {"1.300 mAh", PARE_DECIMAL_UNKNOWN, "1.300", " mAh", false},
        {"1.300 mAh", PARE_DECIMAL_BOTH, "1300", " mAh", true},
        {"0,300", PARE_DECIMAL_POINT, "0.300", "", false},
        {"1.234,5", PARE_DECIMAL_UNKNOWN, "1234.5", "", false},
        {"1,234.5", PARE_DECIMAL_UNKNOWN, "1234.5", "", false},
        {"1,234,567", PARE_DECIMAL_UNKNOWN, "1234567", "", false},
        {"1 300 mAh", PARE_DECIMAL_UNKNOWN, "1300", " mAh", false},
        {"1'300", PARE_DECIMAL_UNKNOWN, "1300", "", false},
        {"13 00", PARE_DECIMAL_UNKNOWN, "13", " 00", false},
        {"-4.5", PARE_DECIMAL_UNKNOWN, "-4.5", "", false},
        {"\xE2\x88\x92"
         "4",
         PARE_DECIMAL_UNKNOWN, "-4", "", false},
        {"+7", PARE_DECIMAL_UNKNOWN, "7", "", false},
        {".5 g", PARE_DECIMAL_UNKNOWN, "0.5", " g", false},
        {"1e3", PARE_DECIMAL_UNKNOWN, "1e3", "", false},
        {"1e+3", PARE_DECIMAL_UNKNOWN, "1e+3", "", false},
        {"1e-3", PARE_DECIMAL_UNKNOWN, "1e-3", "", false},
        {".300", PARE_DECIMAL_UNKNOWN, "0.300", "", false},
        {"1234.567", PARE_DECIMAL_COMMA, "1234.567", "", false},
        {"1.2.3", PARE_DECIMAL_UNKNOWN, NULL, NULL, false},
        {"twelve", PARE_DECIMAL_UNKNOWN, NULL, NULL, false},
        {"nan", PARE_DECIMAL_UNKNOWN, NULL, NULL, false},
        {"inf", PARE_DECIMAL_UNKNOWN, NULL, NULL, false},
        {"", PARE_DECIMAL_UNKNOWN, NULL, NULL, false},
        {"-", PARE_DECIMAL_UNKNOWN, NULL, NULL, false},
        {"11111111111111111111111111111111111111111111111111111111", PARE_DECIMAL_UNKNOWN, NULL,
         NULL, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char digits[PARE_CSV_DIGITS] = "";
        bool ambiguous = false;
        const char *rest = pare_csv_number(rows[i].text, rows[i].decimal, digits, &ambiguous);
        if (!rows[i].digits) {
            if (rest)
                fail_msg("'%s' was read as %s", rows[i].text, digits);
            continue;
        }
        if (!rest)
            fail_msg("'%s' was not read", rows[i].text);
        if (!rows[i].ambiguous)
            assert_string_equal(digits, rows[i].digits);
        assert_string_equal(rest, rows[i].rest);
        if (ambiguous != rows[i].ambiguous)
            fail_msg("'%s' is%s taken as ambiguous", rows[i].text, ambiguous ? "" : " not");
    }
}

static void quantities_come_out_as_the_text_form_has_them(void **state)
{
    (void)state;
    static const struct {
        const char *cell;
        pare_dimension dimension;
        const char *unit, *value, *u;
        bool about;
    } rows[] = {
        {"12.5g", PARE_DIM_MASS, NULL, "12.5 g", "", false},
        {"  12,5 gr ", PARE_DIM_MASS, NULL, "12.5 g", "", false},
        {"31", PARE_DIM_MASS, "g", "31 g", "", false},
        {"0.42 oz", PARE_DIM_MASS, "g", "0.42 oz", "", false}, /* the cell goes before the column */
        {"~12g", PARE_DIM_MASS, NULL, "12 g", "", true},
        {"ca. 12 g", PARE_DIM_MASS, NULL, "12 g", "", true},
        {"12 g ?", PARE_DIM_MASS, NULL, "12 g", "", true},
        {"12.5 +/- 0.2 g", PARE_DIM_MASS, NULL, "12.5 g", "0.2 g", false},
        {"12.5 g \xC2\xB1 0.2", PARE_DIM_MASS, "g", "12.5 g", "0.2 g", false},
        {"1750KV", PARE_DIM_KV, NULL, "1750", "", false},
        {"2450 kv", PARE_DIM_KV, NULL, "2450", "", false},
        {"1300MAH", PARE_DIM_CHARGE, NULL, "1300 mAh", "", false},
        {"120C", PARE_DIM_NUMBER, NULL, "120", "", false},
        {"88 %", PARE_DIM_SHARE, NULL, "88 %", "", false},
        {"5.1\"", PARE_DIM_LENGTH, NULL, "5.1 \"", "", false},
        {"45 amps", PARE_DIM_CURRENT, NULL, "45 A", "", false},
        {"420 g", PARE_DIM_FORCE, NULL, "420 gf", "", false},
        {"as light as a feather", PARE_DIM_MASS, "g", "as light as a feather", "", false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        pare_csv_quantity q;
        pare_error err = {0};
        if (pare_csv_read_quantity(rows[i].cell, PARE_DECIMAL_POINT, rows[i].dimension,
                                   rows[i].unit, &q, &err) != PARE_OK)
            fail_msg("'%s': %s", rows[i].cell, err.text);
        assert_string_equal(q.value, rows[i].value);
        assert_string_equal(q.u, rows[i].u);
        assert_int_equal(q.about, rows[i].about);
    }
}

static void a_number_without_a_unit_or_with_two_meanings_is_refused(void **state)
{
    (void)state;
    pare_csv_quantity q;
    pare_error err = {0};
    assert_int_equal(
        pare_csv_read_quantity("12", PARE_DECIMAL_POINT, PARE_DIM_MASS, NULL, &q, &err),
        PARE_BAD_DATA);
    assert_string_equal(err.text, "12 has no unit; right would be like 12 g, or the unit in the "
                                  "column's name, like (g)");
    assert_int_equal(
        pare_csv_read_quantity("1,300", PARE_DECIMAL_BOTH, PARE_DIM_CHARGE, "mAh", &q, &err),
        PARE_BAD_DATA);
    assert_string_equal(err.text, "1,300 may be 1300 or 1.300; right would be either of these, or "
                                  "--decimal comma or --decimal point");
}

static void ranges_counts_and_days_come_out_as_the_text_form_has_them(void **state)
{
    (void)state;
    static const char *const spans[][2] = {{"11-25.5V", "11 V .. 25.5 V"},
                                           {"11 V .. 25,5 V", "11 V .. 25.5 V"},
                                           {"11 \xE2\x80\x93 26 V", "11 V .. 26 V"},
                                           {"11 to 26", "11 V .. 26 V"},
                                           {"25.5", "25.5 V"}};
    static const char *const counts[][2] = {{"4", "4"},         {"4S", "4"},      {"6s1p", "6"},
                                            {"3-6S", "3 .. 6"}, {"x4", "4"},      {"12 pcs", "12"},
                                            {"3 blades", "3"},  {"four", "four"}, {"4.5", "4.5"},
                                            {"3S-6S", "3 .. 6"}};
    static const char *const days[][2] = {
        {"2026-03-01", "2026-03-01"}, {"2026/3/1", "2026-03-01"}, {"1.3.2026", "2026-03-01"},
        {"01.03.2026", "2026-03-01"}, {"3/1/2026", "3/1/2026"},   {"spring", "spring"}};
    char value[PARE_CSV_VALUE];
    pare_error err = {0};
    for (size_t i = 0; i < sizeof spans / sizeof spans[0]; i++) {
        assert_int_equal(
            pare_csv_read_span(spans[i][0], PARE_DECIMAL_POINT, PARE_DIM_VOLTAGE, "V", value, &err),
            PARE_OK);
        assert_string_equal(value, spans[i][1]);
    }
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        pare_csv_read_count(counts[i][0], value);
        assert_string_equal(value, counts[i][1]);
    }
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        pare_csv_read_date(days[i][0], value);
        assert_string_equal(value, days[i][1]);
    }
}

static void money_loses_its_sign_and_says_its_currency(void **state)
{
    (void)state;
    static const char *const rows[][3] = {{"18.90", "18.90", ""},
                                          {"18,90 \xE2\x82\xAC", "18.90", "EUR"},
                                          {"\xE2\x82\xAC"
                                           "18.90",
                                           "18.90", "EUR"},
                                          {"$ 12", "12", "$"},
                                          {"GBP 7.50", "7.50", "GBP"},
                                          {"20,-", "20", ""},
                                          {"1.234,50 EUR", "1234.50", "EUR"},
                                          {"free", "free", ""}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char value[PARE_CSV_VALUE], currency[4];
        pare_error err = {0};
        assert_int_equal(
            pare_csv_read_money(rows[i][0], PARE_DECIMAL_UNKNOWN, value, currency, &err), PARE_OK);
        assert_string_equal(value, rows[i][1]);
        assert_string_equal(currency, rows[i][2]);
    }
}

static void sizes_of_the_trade_are_read(void **state)
{
    (void)state;
    static const char *const stators[][2] = {
        {"2207", "22 mm x 7 mm"},        {"2806.5", "28 mm x 6.5 mm"},
        {"0802", "8 mm x 2 mm"},         {"22x7", "22 mm x 7 mm"},
        {"22 x 7 mm", "22 mm x 7 mm"},   {"22mm x 7mm", "22 mm x 7 mm"},
        {"2,2cm x 7mm", "2.2 cm x 7 mm"}};
    static const char *const no_stators[] = {"220", "22", "big", "22x7x3", "22/7"};
    static const char *const propellers[][4] = {{"5.1x4.3x3", "5.1 in", "4.3 in", "3"},
                                                {"5,1 x 4,3", "5.1 in", "4.3 in", ""},
                                                {"5143", "5.1 in", "4.3 in", ""},
                                                {"5143x3", "5.1 in", "4.3 in", "3"},
                                                {"130mm x 110mm x 3", "130 mm", "110 mm", "3"}};
    char value[PARE_CSV_VALUE], pitch[PARE_CSV_VALUE], blades[PARE_CSV_VALUE];
    char size[6][PARE_CSV_VALUE];
    for (size_t i = 0; i < sizeof stators / sizeof stators[0]; i++) {
        assert_true(pare_csv_read_pair(stators[i][0], PARE_DECIMAL_UNKNOWN, value));
        assert_string_equal(value, stators[i][1]);
    }
    for (size_t i = 0; i < sizeof no_stators / sizeof no_stators[0]; i++)
        assert_false(pare_csv_read_pair(no_stators[i], PARE_DECIMAL_UNKNOWN, value));
    for (size_t i = 0; i < sizeof propellers / sizeof propellers[0]; i++) {
        assert_true(
            pare_csv_read_propeller(propellers[i][0], PARE_DECIMAL_UNKNOWN, value, pitch, blades));
        assert_string_equal(value, propellers[i][1]);
        assert_string_equal(pitch, propellers[i][2]);
        assert_string_equal(blades, propellers[i][3]);
    }
    assert_false(pare_csv_read_propeller("5 inch", PARE_DECIMAL_UNKNOWN, value, pitch, blades));
    assert_int_equal(pare_csv_read_sizes("30.5x30.5", PARE_DECIMAL_UNKNOWN, "mm", 6, size), 1);
    assert_string_equal(size[0], "30.5 mm");
    assert_int_equal(pare_csv_read_sizes("16x19 mm", PARE_DECIMAL_UNKNOWN, "mm", 6, size), 2);
    assert_string_equal(size[1], "19 mm");
    assert_int_equal(pare_csv_read_sizes("none", PARE_DECIMAL_UNKNOWN, "mm", 6, size), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_read_by_the_tables_decimals),
        cmocka_unit_test(quantities_come_out_as_the_text_form_has_them),
        cmocka_unit_test(a_number_without_a_unit_or_with_two_meanings_is_refused),
        cmocka_unit_test(ranges_counts_and_days_come_out_as_the_text_form_has_them),
        cmocka_unit_test(money_loses_its_sign_and_says_its_currency),
        cmocka_unit_test(sizes_of_the_trade_are_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
