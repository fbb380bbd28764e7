/* paper.c: what stands on the pages of a report, read back by another program: poppler's pdftotext for the
 * words (Debian: poppler-utils), its pdftocairo for the boxes. What the pages say is what the commands say. */
#include "run.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define TRIED " --try bumper=off,tower=ti-100,pack=pa-4s-1300"

static const char *const papers[] = {"", " --paper letter"};

/* Its words with their place on the line, all pages one after another. */
static char *words_of(const char *pdf)
{
    char line[200];
    snprintf(line, sizeof line, "pdftotext -layout %s words.txt", pdf);
    if (system(line) != 0)
        fail_msg("pdftotext does not read %s", pdf);
    return read_file("words.txt");
}

/* The line that begins with a word behind some place; its blanks made one. */
static const char *line_of(const char *text, const char *behind, const char *begins, char out[400])
{
    const size_t length = strlen(begins);
    const char *at = strstr(text, behind);
    if (!at)
        fail_msg("no '%s' on the pages", behind);
    for (; at; at = strchr(at, '\n') ? strchr(at, '\n') + 1 : NULL) {
        const char *word = at + strspn(at, " \f");
        if (strncmp(word, begins, length) != 0 || (word[length] != ' ' && word[length] != '\n'))
            continue;
        size_t n = 0;
        for (const char *c = word; *c && *c != '\n' && n < 399; c++)
            if (*c != ' ' || (n && out[n - 1] != ' '))
                out[n++] = *c;
        while (n && out[n - 1] == ' ')
            n--;
        out[n] = '\0';
        return out;
    }
    fail_msg("no line '%s' behind '%s'", begins, behind);
    return NULL;
}

/* "705.8 \u00b1 0.9" as it stands in a row: the number itself. */
static double first_number(const char *row)
{
    const char *at = strpbrk(row, "0123456789");
    assert_non_null(at);
    return strtod(at > row && at[-1] == '-' ? at - 1 : at, NULL);
}

/* Half a unit of the last digit that is written. */
static double half_digit(const char *number)
{
    const char *point = strpbrk(number, "0123456789");
    point += strspn(point, "0123456789");
    return 0.5 * pow(10, *point == '.' ? -(double)strspn(point + 1, "0123456789") : 0) * (1 + 1e-9);
}

static void pages_have_the_sheets_figures_and_totals(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --json" TRIED DEMO);
    char wanted[40], line[160], row[400];
    for (size_t p = 0; p < 2; p++) {
        snprintf(line, sizeof line, "report hedgerow -o x.pdf%s" TRIED DEMO, papers[p]);
        run_quietly(line);
        char *text = words_of("x.pdf");
        /* The heading, and the total below the ledger. */
        snprintf(wanted, sizeof wanted, "%.0f", number(sheet, "all_up_g"));
        assert_non_null(strstr(line_of(text, "hedgerow", "all-up", row), wanted));
        const char *total = line_of(text, "Ledger and shares of inertia", "all-up", row);
        assert_near(first_number(total), number(sheet, "all_up_g"), half_digit(total));
        /* Each margin with its ratio. */
        const json_t *margins = json_object_get(sheet, "margins"), *one;
        size_t i, found = 0;
        json_array_foreach(margins, i, one)
        {
            const char *name = json_string_value(json_object_get(one, "name"));
            if (strcmp(name, "limit.all_up") != 0 && strcmp(name, "limit.flown") != 0)
                continue;
            const char *title = strcmp(name, "limit.all_up") == 0 ? "all-up mass" : "your minutes";
            const char *ratio = line_of(text, "Margins", title, row) + strlen(title);
            assert_near(first_number(ratio), number(one, "ratio"), half_digit(ratio));
            found++;
        }
        assert_int_equal(found, 2);
        /* Each line of the ledger, whose grams make the total. */
        const json_t *ledger = json_object_get(sheet, "ledger");
        double sum_g = 0;
        json_array_foreach(ledger, i, one)
        {
            const char *name = json_string_value(json_object_get(one, "name"));
            line_of(text, "Ledger and shares of inertia", name, row);
            assert_non_null(strstr(row, json_string_value(json_object_get(one, "system"))));
            sum_g += number(one, "all_g");
        }
        assert_near(sum_g, number(sheet, "all_up_g"), 1e-6);
        free(text);
    }
    json_decref(sheet);
}

static void the_shopping_list_has_what_is_bought_and_its_sum(void **state)
{
    (void)state;
    char line[200], row[400], wanted[40];
    for (size_t p = 0; p < 2; p++) {
        snprintf(line, sizeof line, "report hedgerow -o x.pdf%s --json" TRIED DEMO, papers[p]);
        json_t *said = run_json(line);
        const json_t *shopping = json_object_get(said, "shopping");
        char *text = words_of("x.pdf");
        snprintf(wanted, sizeof wanted, "in all %.2f", number(shopping, "money"));
        assert_string_equal(line_of(text, "Shopping list", "in all", row), wanted);
        const json_t *parts = json_object_get(shopping, "parts"), *one;
        size_t i;
        json_array_foreach(parts, i, one)
        {
            const char *seller = json_string_value(json_object_get(one, "seller"));
            char begins[120];
            const char *at = strstr(text, "Shopping list");
            snprintf(begins, sizeof begins, " %s ",
                     json_string_value(json_object_get(one, "part")));
            at = strstr(at, begins);
            if (!at)
                fail_msg("no '%s' in the shopping list", begins);
            while (at[-1] != '\n')
                at--;
            assert_int_equal(strncmp(at + strspn(at, " \f"), seller, strlen(seller)), 0);
        }
        assert_int_equal(json_array_size(parts), 2);
        free(text);
        json_decref(said);
    }
}

/* ---- the weigh-in sheet ---- */

typedef struct box {
    double x, y, wide, high;
} box;

/* A closed path of four corners, level: "M x y L x y L x y L x y Z". */
static bool read_box(const char *d, box *b)
{
    double x[4], y[4];
    if (sscanf(d, "M %lf %lf L %lf %lf L %lf %lf L %lf %lf Z", &x[0], &y[0], &x[1], &y[1], &x[2],
               &y[2], &x[3], &y[3]) != 8 ||
        x[0] != x[3] || x[1] != x[2] || y[0] != y[1] || y[2] != y[3])
        return false;
    *b = (box){fmin(x[0], x[1]), fmin(y[0], y[2]), fabs(x[1] - x[0]), fabs(y[2] - y[0])};
    return true;
}

/* Boxes of a page that are drawn and not filled, as wide and as high as a pen needs: over 20 mm by 5 mm. */
static size_t pen_boxes(int page)
{
    char line[120];
    snprintf(line, sizeof line, "pdftocairo -svg -f %d -l %d x.pdf page.svg", page, page);
    assert_int_equal(system(line), 0);
    char *svg = read_file("page.svg");
    size_t count = 0;
    for (const char *path = strstr(svg, "<path "); path; path = strstr(path + 1, "<path ")) {
        box b;
        const char *end = strchr(path, '>'), *d = strstr(path, " d=\"");
        /* Poppler's cairo writes it as an attribute from 1.17 on, in a style before. */
        const char *empty = strstr(path, "fill=\"none\""), *style = strstr(path, "fill:none");
        const bool drawn = (empty && empty < end) || (style && style < end);
        if (d && d < end && drawn && read_box(d + 4, &b))
            count += b.wide > 20 / 25.4 * 72 && b.high > 5 / 25.4 * 72 && b.high < 30;
    }
    free(svg);
    return count;
}

static void the_weigh_in_sheet_has_a_row_and_two_empty_boxes_for_each_thing(void **state)
{
    (void)state;
    char line[200], row[400];
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    for (size_t p = 0; p < 2; p++) {
        snprintf(line, sizeof line, "report hedgerow -o x.pdf%s --json" DEMO, papers[p]);
        json_t *said = run_json(line);
        char *text = words_of("x.pdf");
        const json_t *ledger = json_object_get(sheet, "ledger"), *one;
        size_t i, rows = 2, boxes = 0; /* dry and all-up */
        json_array_foreach(ledger, i, one)
        {
            const char *name = json_string_value(json_object_get(one, "name"));
            if (number(one, "all_g") == 0 || strcmp(name, "not written down") == 0)
                continue;
            rows++;
            /* What is expected of it, and nothing behind it. */
            char *expected = NULL;
            const double count =
                strtod(line_of(text, "Weigh-in sheet", name, row) + strlen(name), &expected);
            assert_near(count, number(one, "count"), 0);
            assert_near(first_number(expected), number(one, "all_g"), half_digit(expected));
            assert_non_null(strstr(row, "\u00b1"));
            const char *last = strstr(row, "\u00b1") + strlen("\u00b1");
            assert_int_equal(strspn(last, " 0123456789."), strlen(last));
        }
        assert_string_equal(
            line_of(text, "Weigh-in sheet", "Scale:", row),
            "Scale: ____________ resolution: ______ g checked with: ______ g, shows "
            "______ g");
        for (int page = 2; page <= (int)number(said, "pages"); page++)
            boxes += pen_boxes(page);
        assert_int_equal(boxes, 2 * rows);
        free(text);
        json_decref(said);
    }
    json_decref(sheet);
}

/* Every table stands on the pages under its title, none without its rows. */
static void every_table_that_is_said_is_there(void **state)
{
    (void)state;
    json_t *said = run_json("report thimble -o x.pdf --best --time 60 --json" DEMO);
    char *text = words_of("x.pdf");
    const json_t *titles = json_object_get(said, "tables"), *title;
    size_t i;
    json_array_foreach(titles, i, title)
    {
        char row[400];
        line_of(text, json_string_value(title), json_string_value(title), row);
        assert_string_equal(row, json_string_value(title));
    }
    assert_true(json_array_size(titles) >= 7);
    const json_t *best = json_object_get(said, "best"), *swap;
    json_array_foreach(json_object_get(best, "swaps"), i, swap)
    {
        if (!strstr(text, json_string_value(json_object_get(swap, "id"))))
            fail_msg("no %s on the pages", json_string_value(json_object_get(swap, "id")));
    }
    free(text);
    json_decref(said);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pages_have_the_sheets_figures_and_totals),
        cmocka_unit_test(the_shopping_list_has_what_is_bought_and_its_sum),
        cmocka_unit_test(the_weigh_in_sheet_has_a_row_and_two_empty_boxes_for_each_thing),
        cmocka_unit_test(every_table_that_is_said_is_there),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
