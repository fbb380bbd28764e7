/* rooms: store craft physics base */
/* Rows of a table in text: RFC 4180's own examples, what spreadsheets make of them, and what is no
 * table. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "store/csv.h"

static pare_csv_row row; /* large; each test fills it anew */

/* Reads all of a text; rows end with '\n', fields with '|', as one string. The caller frees it. */
static char *rows_of(const char *bytes, size_t length, char separator)
{
    pare_csv *csv = NULL;
    pare_error err = {0};
    bool there = true;
    char *all = calloc(1, 4 * length + 4096);
    assert_non_null(all);
    if (pare_csv_open(NULL, bytes, length, "t.csv", &csv, &err) != PARE_OK)
        fail_msg("%s", err.text);
    for (;;) {
        if (pare_csv_read(csv, separator, &row, &there, &err) != PARE_OK)
            fail_msg("%s", err.text);
        if (!there)
            break;
        for (size_t i = 0; i < row.count; i++) {
            assert_int_equal(strlen(row.field[i].text), row.field[i].length);
            strcat(all, row.field[i].text);
            strcat(all, i + 1 < row.count ? "|" : "\n");
        }
    }
    pare_csv_close(csv);
    return all;
}

static void reads(const char *text, char separator, const char *rows)
{
    char *all = rows_of(text, strlen(text), separator);
    assert_string_equal(all, rows);
    free(all);
}

/* RFC 4180, section 2, its seven rules with their examples. */
static void the_examples_of_rfc_4180_are_read(void **state)
{
    (void)state;
    reads("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", ',', "aaa|bbb|ccc\nzzz|yyy|xxx\n");
    reads("aaa,bbb,ccc\r\nzzz,yyy,xxx", ',', "aaa|bbb|ccc\nzzz|yyy|xxx\n");
    reads("field_name,field_name\r\naaa,bbb\r\n", ',', "field_name|field_name\naaa|bbb\n");
    reads("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", ',', "aaa|bbb|ccc\nzzz|yyy|xxx\n");
    /* A line break within a field becomes a blank: a bench's texts are single lines. */
    reads("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", ',', "aaa|b  bb|ccc\nzzz|yyy|xxx\n");
    reads("\"aaa\",\"b\"\"bb\",\"ccc\"", ',', "aaa|b\"bb|ccc\n");
}

static void what_spreadsheets_write_is_read(void **state)
{
    (void)state;
    reads("\xEF\xBB\xBF"
          "a;b\n1;2\n",
          ';', "a|b\n1|2\n");
    reads("a\tb\n1\t\"2 3\"\n", '\t', "a|b\n1|2 3\n");
    reads("a\rb\r", ',', "a\nb\n"); /* lone returns, as old machines end lines */
    reads("\n\na,b\n\n", ',', "\n\na|b\n\n");
    reads("5.1\",x\n", ',', "5.1\"|x\n"); /* inches */
    reads("\"\",\"\"\n", ',', "|\n");
    reads("a,b,\n", ',', "a|b|\n");
    reads("a b\tc,d\n", ',', "a b c|d\n");
    reads("\"a,b\",c\n", ',', "a,b|c\n");
    reads("gr\xC3\xB6\xC3\x9F"
          "e,\xE2\x82\xAC\n",
          ',',
          "gr\xC3\xB6\xC3\x9F"
          "e|\xE2\x82\xAC\n");
}

static void rows_know_the_line_they_begin_in(void **state)
{
    (void)state;
    const char text[] = "a,b\n\"x\ny\",1\nc,d\n";
    const int lines[] = {1, 2, 4};
    pare_csv *csv = NULL;
    pare_error err = {0};
    bool there = false;
    assert_int_equal(pare_csv_open(NULL, text, sizeof text - 1, "t.csv", &csv, &err), PARE_OK);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(pare_csv_read(csv, ',', &row, &there, &err), PARE_OK);
        assert_true(there);
        assert_int_equal(row.line, lines[i]);
    }
    pare_csv_close(csv);
}

/* A table of many windows, each row of which says its number in several ways: nothing is lost or
 * doubled where a window ends, wherever in a row that is. */
static void a_table_of_many_windows_loses_nothing(void **state)
{
    (void)state;
    enum { ROWS = 60000 };
    char *text = malloc((size_t)ROWS * 80);
    size_t length = 0;
    pare_csv *csv = NULL;
    pare_error err = {0};
    bool there = true;
    assert_non_null(text);
    for (int i = 0; i < ROWS; i++)
        length += (size_t)sprintf(
            text + length, "%d,\"say \"\"%d\"\"\",\xC3\xA9%d,\"two\r\nlines\"\r\n", i, i, i * 7);
    assert_int_equal(pare_csv_open(NULL, text, length, "t.csv", &csv, &err), PARE_OK);
    for (int i = 0; i < ROWS; i++) {
        char expected[64];
        assert_int_equal(pare_csv_read(csv, ',', &row, &there, &err), PARE_OK);
        assert_true(there);
        assert_int_equal(row.count, 4);
        assert_int_equal(row.line, 1 + 2 * i);
        assert_int_equal(atoi(row.field[0].text), i);
        sprintf(expected, "say \"%d\"", i);
        assert_string_equal(row.field[1].text, expected);
        sprintf(expected, "\xC3\xA9%d", i * 7);
        assert_string_equal(row.field[2].text, expected);
        assert_string_equal(row.field[3].text, "two  lines");
    }
    assert_int_equal(pare_csv_read(csv, ',', &row, &there, &err), PARE_OK);
    assert_false(there);
    assert_int_equal(pare_csv_rewind(csv, &err), PARE_OK);
    assert_int_equal(pare_csv_read(csv, ',', &row, &there, &err), PARE_OK);
    assert_string_equal(row.field[0].text, "0");
    pare_csv_close(csv);
    free(text);
}

/* Reads to the end or the first refusal, whose message it gives. */
static void refused(const char *bytes, size_t length, const char *message)
{
    pare_csv *csv = NULL;
    pare_error err = {0};
    bool there = true;
    pare_status status = pare_csv_open(NULL, bytes, length, "t.csv", &csv, &err);
    while (status == PARE_OK && there)
        status = pare_csv_read(csv, ',', &row, &there, &err);
    pare_csv_close(csv);
    assert_int_equal(status, PARE_BAD_DATA);
    assert_string_equal(err.text, message);
}

static void what_is_no_table_is_refused_with_its_line(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t length; /* 0: of the string */
        const char *message;
    } rows[] = {
        {"", 0, "t.csv: an empty file; right would be a row of column names, then a row an entry"},
        {"\xEF\xBB\xBF", 0,
         "t.csv: an empty file; right would be a row of column names, then a row an entry"},
        {"a,b\n1,\"2\n3,4\n", 0,
         "t.csv:2: a quote opens here and is closed nowhere; right would be one more quote"},
        {"a,b\n1,\"2\" x\n", 0,
         "t.csv:2: text after the closing quote of the field that opens in line 2; right would be "
         "two quotes (\"\") for one within it"},
        {"a,b\n1,\"2\n3,\"4\"\n", 0,
         "t.csv:3: text after the closing quote of the field that opens in line 2; right would be "
         "two quotes (\"\") for one within it"},
        {"a,b\n1,gr\xF6\xDF"
         "e\n",
         0,
         "t.csv:2: byte 0xf6 is not UTF-8, it may be Latin-1; right would be the same table saved "
         "as UTF-8"},
        {"a,b\n1,\"\xE4\"\n", 0,
         "t.csv:2: byte 0xe4 is not UTF-8, it may be Latin-1; right would be the same table saved "
         "as UTF-8"},
        {"a,b\n1,\xC3", 0,
         "t.csv:2: byte 0xc3 is not UTF-8, it may be Latin-1; right would be the same table saved "
         "as UTF-8"},
        {"\xFF\xFE"
         "a\0,\0",
         6,
         "t.csv:1: byte 0xff: no text, or text in UTF-16; right would be a table saved as UTF-8"},
        {"a,b\nx\0y,2\n", 10,
         "t.csv:2: byte 0x00: no text, or text in UTF-16; right would be a table saved as UTF-8"},
        {"a,b\n1,2\x1b[31m\n", 0,
         "t.csv:2: control character U+001B; right would be a table of plain text"},
        {"a,b\n1,x\xE2\x80\xAE"
         "y\n",
         0, "t.csv:2: control character U+202E; right would be a table of plain text"},
        {"\x7f"
         "ELF\x02\x01\x01\0\0\0",
         10, "t.csv:1: control character U+007F; right would be a table of plain text"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        refused(rows[i].bytes, rows[i].length ? rows[i].length : strlen(rows[i].bytes),
                rows[i].message);
}

static void fields_and_rows_have_limits_that_are_said(void **state)
{
    (void)state;
    enum { MEGABYTE = 1 << 20 };
    char *text = malloc(MEGABYTE + 100);
    assert_non_null(text);
    /* A field of a megabyte, plain and quoted. */
    memset(text, 'x', MEGABYTE);
    memcpy(text, "a,b\n1,", 6);
    refused(text, MEGABYTE,
            "t.csv:2: a field of more than 16384 bytes; right would be a shorter one");
    memcpy(text, "a,b\n1,\"", 7);
    memcpy(text + MEGABYTE, "\"\n", 2);
    refused(
        text, MEGABYTE + 2,
        "t.csv:2: a field of more than 16384 bytes; right would be a shorter one, or a quote that "
        "closes it");
    /* A row of a megabyte in fields of allowed sizes. */
    memset(text, 'x', MEGABYTE);
    for (size_t i = 8000; i < MEGABYTE; i += 8000)
        text[i] = ',';
    refused(text, MEGABYTE,
            "t.csv:1: a row of more than 262144 bytes; right would be a shorter one");
    /* Very many fields. */
    memset(text, ',', 1000);
    refused(text, 1000, "t.csv:1: more than 200 fields; right would be fewer");
    /* The largest that is allowed is read. */
    memset(text, 'x', MEGABYTE);
    memcpy(text + PARE_CSV_FIELD, ",y\n", 3);
    char *all = rows_of(text, PARE_CSV_FIELD + 3, ',');
    assert_int_equal(strlen(all), PARE_CSV_FIELD + 3);
    free(all);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_examples_of_rfc_4180_are_read),
        cmocka_unit_test(what_spreadsheets_write_is_read),
        cmocka_unit_test(rows_know_the_line_they_begin_in),
        cmocka_unit_test(a_table_of_many_windows_loses_nothing),
        cmocka_unit_test(what_is_no_table_is_refused_with_its_line),
        cmocka_unit_test(fields_and_rows_have_limits_that_are_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
