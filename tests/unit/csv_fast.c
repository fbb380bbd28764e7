/* rooms: store craft physics base */
/* The quick way through a parts list against the general one, on random rows: what it gives must be
 * what the general way gives, to the byte and bit, and it may give nothing where that refuses. The
 * truth is the other way of doing the same. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "store/csv_fast.h"
#include "store/csv_part.h"
#include "store/facts.h"
#include "store/read_part.h"

static uint64_t state = 20260411;

/* Knuth's MMIX generator: the same rows each time. */
static unsigned pick(unsigned below)
{
    state = state * 6364136223846793005u + 1442695040888963407u;
    return (unsigned)(state >> 33) % below;
}

static const char *one(size_t count, const char *const words[])
{
    return words[pick((unsigned)count)];
}
#define ONE(words) one(sizeof(words) / sizeof *(words), words)

/* A number as people write it; now and then as they should not. */
static void put_number(char *out, unsigned most, bool comma)
{
    const unsigned whole = pick(most);
    switch (pick(12)) {
    case 0:
        sprintf(out, "%u", whole);
        break;
    case 1:
        sprintf(out, "%u%c%03u", whole, comma ? ',' : '.', pick(1000));
        break;
    case 2:
        sprintf(out, "%u%c%03u", whole, comma ? '.' : ',', pick(1000));
        break;
    case 3:
        sprintf(out, "%u%c%u", whole, comma ? '.' : ',', pick(100));
        break;
    case 4:
        sprintf(out, "~%u", whole);
        break;
    case 5:
        sprintf(out, "%u.%08u%08u", whole, pick(100000000), pick(100000000));
        break;
    case 6:
        sprintf(out, "0%u", whole);
        break;
    default:
        sprintf(out, "%u%c%u", whole, comma ? ',' : '.', pick(100));
        break;
    }
}

/* Titles, what they say, and numbers that are mostly right there. */
static const struct {
    const char *title, *target;
    unsigned low, high;
} TITLES[] = {
    {"id", "id", 0, 0},
    {"name", "name", 0, 0},
    {"kind", "kind", 0, 0},
    {"mass (g)", "mass", 1, 200},
    {"weight", "mass", 1, 200},
    {"weighed (g)", "mass", 1, 200},
    {"maker", "maker", 0, 0},
    {"price", "price", 1, 90},
    {"owned", "owned", 0, 30},
    {"stator", "stator", 0, 0},
    {"kv", "kv", 500, 4000},
    {"cells", "cells", 1, 6},
    {"capacity (mAh)", "capacity", 300, 3000},
    {"volts", "volts", 0, 0},
    {"resistance (mohm)", "resistance", 2, 90},
    {"continuous", "continuous", 10, 60},
    {"burst (A)", "burst", 50, 100},
    {"diameter (in)", "diameter", 2, 8},
    {"pitch (in)", "pitch", 2, 6},
    {"blades", "blades", 2, 4},
    {"length", "length", 10, 90},
    {"power (W)", "power", 1, 20},
    {"colour", "colour", 1, 9},
    {"no load (A)", "no_load", 1, 3},
    {"efficiency", "efficiency", 50, 99},
    {"drag area (cm2)", "drag_area", 1, 90},
    {"material", "material", 0, 0},
};
enum { ALL_TITLES = sizeof TITLES / sizeof TITLES[0] };

/* Whether a part of this kind has something to say under a title. */
static bool has(int kind, const char *target)
{
    static const char *const all[] = {"id", "name", "kind", "mass", "maker", "price", "owned"};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (strcmp(all[i], target) == 0)
            return true;
    return kind >= 0 && pare_spec_named((pare_kind)kind, target);
}

static void put_odd(char *out, bool comma)
{
    static const char *const odd[] = {
        "",
        "-",
        "?",
        "n/a",
        "12 parsecs",
        "nan",
        "1e3",
        "-4",
        "x y",
        "{}",
        "\xC2\xB1",
        "4S1P",
        "5 +/- 1",
        "<3",
        "99999999999999999",
        "0",
        "5000000",
        "12s",
        "4 s",
        "1234567890 S",
        "5'000",
        "12,",
        "3.",
        "' ",
        " ",
        "1234567890123456789012345678901234567890123456789012345678901"
        "23456789012345678901234567890123456789012345678901234567890123"
        "45678901234567890"};
    if (pick(2)) {
        strcpy(out, ONE(odd));
        return;
    }
    put_number(out, 2000, comma);
}

/* A cell under a title: mostly right, now and then odd. */
static void put_cell(char *out, size_t title, int kind, bool comma, int row)
{
    static const char *const makers[] = {
        "Teasel Works",
        "me",
        "A & B",
        "Fl:int",
        "gr\xC3\xBCn",
        "",
        "n/a",
        "{x}",
        "- dash",
        "trailing ",
        "O'Dell",
        "x: y",
        "a-b/c.d+e & f",
        "R2",
        "  ",
        "9th",
        "A maker whose name does not end where names end but goes on "
        "and on, past every maker whose name anybody has read, until "
        "nobody reads it to its end"};
    static const char *const units[] = {" g", "g",  " gr", " A",    "A",   " mm", " mAh", "mAh",
                                        " V", "kv", " KV", " mohm", " in", " %",  " oz",  "S"};
    static const char *const stators[] = {
        "2207",     "22x7",   "22 x 7 mm",  "2806.5", "900x7", "22 mm x 7 mm",  "1404",
        "22,5 x 7", "22x7x3", "22\" x 7\"", "x",      "22x",   "22 x 7 parsecs"};
    static const char *const volts[] = {
        "11-25.5 V",     "11 V .. 26 V",      "25.5V",  "5", "26-11 V", "900 V", "0 V", "11-900 V",
        "0.0000001-3 V", "11 - 25.5 V - 3 V", "1''-3 V"};
    static const char *const ids[] = {
        "p-", "p_", "p.", "P", "",
        "p-", "p-", "p ", "-", "p-that-is-called-by-a-name-longer-than-any-part-has-"};
    static const char *const nothing[] = {"n/a", "?", "-"};
    static const char *const lengths[] = {" mm", "mm", " cm", ""};
    const char *target = TITLES[title].target;
    const unsigned low = TITLES[title].low, high = TITLES[title].high;
    *out = '\0';
    if (!has(kind, target) && pick(40))
        return;
    if (strcmp(target, "id") == 0 && pick(30) == 0)
        strcpy(out, ONE(nothing));
    else if (strcmp(target, "id") == 0)
        sprintf(out, "%s%d", ONE(ids), row);
    else if (strcmp(target, "name") == 0)
        sprintf(out, pick(40) ? "Part No. %d" : "!!%d", row);
    else if (pick(30) == 0)
        put_odd(out, comma);
    else if (strcmp(target, "maker") == 0 || strcmp(target, "material") == 0)
        strcpy(out, pick(2) ? makers[0] : ONE(makers));
    else if (strcmp(target, "stator") == 0)
        strcpy(out, ONE(stators));
    else if (strcmp(target, "volts") == 0)
        strcpy(out, ONE(volts));
    else if (strcmp(target, "blades") == 0 || strcmp(target, "cells") == 0 ||
             strcmp(target, "owned") == 0)
        sprintf(out, "%u%s", low + pick(high - low + 1), pick(8) ? "" : ONE(units));
    else if (pick(3) == 0)
        sprintf(out, "%u", low + pick(high - low));
    else
        sprintf(out, "%u%c%u", low + pick(high - low), comma ? ',' : '.',
                pick(pick(5) ? 100 : 1000));
    if (high && *out && out[strlen(out) - 1] >= '0') {
        if (strcmp(target, "length") == 0 || strcmp(TITLES[title].title, "weight") == 0)
            strcat(out, *target == 'l' ? ONE(lengths) : pick(9) ? " g" : "");
        else if (strcmp(target, "continuous") == 0)
            strcat(out, pick(2) ? " A" : "A");
        else if (strcmp(target, "efficiency") == 0)
            strcat(out, " %");
        else if (pick(8) == 0)
            strcat(out, ONE(units));
    }
}

/* A list of random columns and rows. */
static char *make_list(int rows)
{
    enum { MOST = 400 };
    char *list = malloc((size_t)(rows + 1) * ALL_TITLES * MOST);
    static const char *const kinds[] = {
        "motor",     "pack",
        "propeller", "esc 4in1",
        "ESC",       "FC",
        "strap",     "Motors",
        "vtx",       "gps",
        "motor",     "propeller",
        "LiHV",      "lipo",
        "moter",     "capacitor",
        "standoff",  "other",
        "frame",     "-",
        "",          "a kind of which nobody has a word as long as this is"};
    size_t used = 0, columns = 0, chosen[ALL_TITLES];
    const bool comma = pick(2);
    assert_non_null(list);
    chosen[columns++] = 2;
    chosen[columns++] = pick(3) ? 0 : 1;
    chosen[columns++] = 3 + pick(3); /* one mass: two columns for one thing refuse the list */
    for (size_t i = 6; i < ALL_TITLES; i++) {
        const bool needed = i == 9 || i == 10 || i == 11 || i == 12 || (i >= 17 && i <= 19);
        if (pick(needed ? 10 : 2))
            chosen[columns++] = i;
    }
    for (size_t i = columns - 1; i > 0; i--) { /* in any order */
        const size_t k = pick((unsigned)i + 1), other = chosen[i];
        chosen[i] = chosen[k];
        chosen[k] = other;
    }
    for (int row = -1; row < rows; row++) {
        const char *words = ONE(kinds);
        char tidy[64];
        pare_csv_tidy(words, tidy, sizeof tidy);
        for (size_t i = 0; i < columns; i++) {
            char cell[256];
            if (row < 0)
                strcpy(cell, TITLES[chosen[i]].title);
            else if (chosen[i] == 2)
                strcpy(cell, words);
            else
                put_cell(cell, chosen[i], pare_csv_kind(tidy), comma, row);
            /* Now and then a row ends early, or its kind is too long for one. */
            const bool cut = row >= 0 && pick(60) == 0;
            used +=
                (size_t)sprintf(list + used, "%s%s", cell, i + 1 < columns && !cut ? ";" : "\n");
            if (cut)
                break;
        }
    }
    return list;
}

typedef struct tally {
    size_t rows, quick, good;
} tally;

static pare_csv_row row; /* large */

/* One row both ways. */
static void compare(pare_csv_fast *fast, const pare_csv_rows *rows, pare_arena *arena, tally *t)
{
    const pare_part *quick = NULL;
    const char *doc = NULL;
    size_t length = 0;
    bool named = false;
    pare_csv_made made;
    pare_part *part = NULL;
    pare_error err = {0};
    pare_text text = {0};
    const bool read = pare_csv_fast_read(fast, &row, arena, &quick, &doc, &length, &named);
    pare_status status = pare_csv_make_part(rows, &row, &made, &err);
    if (status == PARE_OK)
        status = pare_read_part(rows->reading, made.part, &part, &err);
    t->rows++;
    t->quick += read;
    t->good += status == PARE_OK;
    if (read && status != PARE_OK)
        fail_msg("line %d is refused, but was read quickly: %s\n%.*s", row.line, err.text,
                 (int)length, doc);
    if (!read)
        return;
    pare_tree_write(made.part, 0, &text);
    if (text.length != length || memcmp(text.bytes, doc, length) != 0)
        fail_msg("line %d differs\n%s\n%.*s", row.line, text.bytes, (int)length, doc);
    unsigned char a[PARE_FACTS_MOST], b[PARE_FACTS_MOST];
    const size_t facts = pare_facts_pack(part, a);
    assert_int_equal(pare_facts_pack(quick, b), facts);
    assert_memory_equal(a, b, facts);
    assert_memory_equal(&quick->mass_kg.value, &part->mass_kg.value, sizeof(double));
    assert_string_equal(quick->id, part->id);
    assert_string_equal(quick->maker ? quick->maker : "", part->maker ? part->maker : "");
    assert_int_equal(quick->kind, part->kind);
    assert_int_equal(quick->does, part->does);
    assert_int_equal(quick->owned, part->owned);
    assert_int_equal(named, made.named);
    for (int spec = 0; spec < PARE_SPECS; spec++) {
        assert_int_equal(quick->spec[spec].known, part->spec[spec].known);
        assert_memory_equal(&quick->spec[spec].u, &part->spec[spec].u, sizeof(double));
    }
    pare_text_free(&text);
}

static void compare_list(const char *list, pare_units *units, tally *t)
{
    pare_arena *whole = pare_arena_open(), *arena = pare_arena_open();
    const pare_csv_told told = {.as = PARE_LIST_PARTS};
    pare_csv *csv = NULL;
    pare_csv_look look;
    pare_csv_plan plan;
    pare_csv_fast *fast = NULL;
    pare_error err = {0};
    bool there = true;
    if (pare_csv_open(NULL, list, strlen(list), "l.csv", &csv, &err) != PARE_OK ||
        pare_csv_look_at(csv, "l.csv", ';', PARE_DECIMAL_UNKNOWN, whole, &look, &err) != PARE_OK ||
        pare_csv_make_plan("l.csv", &look, &told, units, whole, &plan, &err) != PARE_OK ||
        pare_csv_fast_open(&plan, units, &fast, &err) != PARE_OK)
        fail_msg("%s", err.text);
    const pare_reading reading = {.name = "l.csv", .arena = arena, .units = units};
    pare_csv_left left[PARE_CSV_COLUMNS] = {{0}};
    const pare_csv_rows rows = {.plan = &plan, .reading = &reading, .left = left, .money = ""};
    for (;;) {
        if (pare_csv_read(csv, ';', &row, &there, &err) != PARE_OK)
            fail_msg("%s", err.text);
        if (!there)
            break;
        if (row.line > plan.line)
            compare(fast, &rows, arena, t);
        pare_arena_clear(arena);
    }
    pare_csv_fast_close(fast);
    pare_csv_close(csv);
    pare_arena_close(arena);
    pare_arena_close(whole);
}

static void what_is_read_quickly_is_what_the_general_way_reads(void **unused)
{
    enum { LISTS = 400, ROWS = 40 };
    pare_units *units = pare_units_open();
    tally t = {0};
    (void)unused;
    assert_non_null(units);
    for (int i = 0; i < LISTS; i++) {
        char *list = make_list(ROWS);
        compare_list(list, units, &t);
        free(list);
    }
    pare_units_close(units);
    assert_int_equal(t.rows, LISTS * ROWS);
    /* The lists are made so that much goes either way: neither is tested on nothing. */
    print_message("%zu rows, %zu good, %zu of them quickly\n", t.rows, t.good, t.quick);
    assert_true(t.quick > 500);
    assert_true(t.good > t.quick);
}

static void a_plain_list_is_read_quickly_all_through(void **unused)
{
    static const char list[] =
        "id;kind;maker;mass (g);stator;kv;cells;capacity (mAh);price;owned;volts\n"
        "a;motor;Teasel Works;31,4;2207;1750;;;18,90;4;11-25,5 V\n"
        "b;pack;Dunnock Cells;158;;;4S;1300;27;3;\n"
        "c;strap;;6,25 g;;;;;0,5;;\n";
    pare_units *units = pare_units_open();
    tally t = {0};
    (void)unused;
    compare_list(list, units, &t);
    pare_units_close(units);
    assert_int_equal(t.rows, 3);
    assert_int_equal(t.quick, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_read_quickly_is_what_the_general_way_reads),
        cmocka_unit_test(a_plain_list_is_read_quickly_all_through),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
