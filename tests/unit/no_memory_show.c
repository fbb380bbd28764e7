/* rooms: store show advise craft physics base */
/* Without memory, screens: the nth allocation fails, for every n, while each is written; then the text
 * says that it failed, or it is the whole text: none is short of a line unsaid. */
#include "allocation_fails.h"

#include "show/catalogue.h"
#include "show/front_chart.h"
#include "show/report_tables.h"
#include "show/sheet_text.h"
#include "show/swaps.h"
#include "show/trace.h"
#include "swap_fixture.h"

typedef struct shown {
    const fixture *f;
    pare_sheet_view view;
    pare_swaps swaps;
    pare_swaps_view list;
    pare_screen screen;
} shown;

typedef void (*writing)(const shown *s, pare_text *out);

static void each_allocation_fails_once(const shown *s, writing writes)
{
    enum { MOST = 20000 };
    pare_text whole = {0};
    writes(s, &whole);
    assert_false(whole.failed);
    long n = 0;
    for (bool done = false; !done; n++) {
        assert_true(n < MOST);
        pare_text text = {0};
        until_failure = n;
        writes(s, &text);
        done = until_failure >= 0;
        until_failure = -1;
        if (!text.failed)
            assert_string_equal(text.bytes, whole.bytes);
        pare_text_free(&text);
    }
    assert_true(n > 1);
    pare_text_free(&whole);
}

static void write_sheet(const shown *s, pare_text *out)
{
    pare_sheet_text(&s->view, &s->swaps, "EUR", &s->screen, out);
}

static void write_trace(const shown *s, pare_text *out)
{
    pare_trace_text(&s->view, PARE_TRACE_SAG, &s->screen, out);
}

static void write_all(const shown *s, pare_text *out)
{
    pare_sheet_all_text(&s->view, &s->screen, out);
}

static void write_swaps(const shown *s, pare_text *out)
{
    pare_swaps_text(&s->list, 1000, &s->screen, out);
}

static void write_front(const shown *s, pare_text *out)
{
    const pare_front_point point[] = {{4000000, 900, 300000, 0, false},
                                      {4100000, 0, 290000, 1, true}};
    const char *const words[] = {"motor=mo-b", "bumper=off"};
    const pare_front_chart chart = {.title = s->f->craft->name,
                                    .pair = {PARE_FRONT_GRAMS, PARE_FRONT_MONEY},
                                    .count = 2,
                                    .point = point,
                                    .now = &point[1],
                                    .words = words};
    pare_front_text(&chart, &s->screen, out);
}

static void write_craft(const shown *s, pare_text *out)
{
    pare_craft_text(s->f->craft, &s->screen, out);
}

static void write_parts(const shown *s, pare_text *out)
{
    for (size_t i = 0; i < s->f->bench->parts; i++)
        pare_part_text(s->f->bench->part[i], "EUR", &s->screen, out);
}

static void no_screen_is_short_of_a_line_unsaid(void **state)
{
    fixture *f = *state;
    static shown s;
    static const int widths[] = {50, 80, 130};
    static const writing writings[] = {write_sheet, write_trace, write_all,  write_swaps,
                                       write_front, write_craft, write_parts};
    s = (shown){.f = f};
    assert_int_equal(pare_sheet_view_fill(f->craft, f->craft, 0, "bumper=off", &s.view, &f->err),
                     PARE_OK);
    assert_int_equal(
        pare_swaps_find(f->bench, f->craft, 0, PARE_WISH_GRAMS, f->arena, &s.swaps, &f->err),
        PARE_OK);
    s.list = (pare_swaps_view){.craft = f->craft, .swaps = &s.swaps, .money = "EUR"};
    for (size_t w = 0; w < sizeof widths / sizeof *widths; w++) {
        s.screen = (pare_screen){.width = widths[w], .utf8 = w != 0, .colour = w == 2};
        for (size_t i = 0; i < sizeof writings / sizeof *writings; i++)
            each_allocation_fails_once(&s, writings[i]);
    }
}

/* A report's tables are made in an arena: each of its blocks is refused once. */
static void a_report_s_tables_are_whole_or_refused(void **state)
{
    const fixture *f = *state;
    pare_sheet_view *view = malloc(sizeof *view);
    pare_report *report = malloc(sizeof *report);
    pare_report_tables *tables = malloc(sizeof *tables);
    pare_shopping *shopping = malloc(sizeof *shopping);
    pare_arena *arena = pare_arena_open();
    pare_error err = {0};
    assert_true(view && report && tables && shopping && arena);
    assert_int_equal(pare_sheet_view_fill(f->craft, NULL, 0, NULL, view, &err), PARE_OK);
    assert_int_equal(pare_report_fill(view, 0, NULL, arena, report, &err), PARE_OK);
    pare_swaps swaps;
    assert_int_equal(pare_swaps_find(f->bench, f->craft, 0, PARE_WISH_GRAMS, arena, &swaps, &err),
                     PARE_OK);
    pare_shopping_of(f->bench, f->craft, NULL, f->craft, shopping);
    const pare_report_with with = {
        .money = "EUR", .swaps = &swaps, .shopping = shopping, .shopping_for = "some"};
    bool done = false;
    for (long n = 0; !done; n++) {
        pare_arena *some = pare_arena_open();
        assert_non_null(some);
        until_failure = n;
        const pare_status status = pare_report_tables_make(report, &with, some, tables, &err);
        done = until_failure >= 0;
        until_failure = -1;
        assert_int_equal(status, done ? PARE_OK : PARE_UNAVAILABLE);
        pare_arena_close(some);
        assert_true(n < 1000);
    }
    pare_arena_close(arena);
    free(shopping);
    free(tables);
    free(report);
    free(view);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(no_screen_is_short_of_a_line_unsaid, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_report_s_tables_are_whole_or_refused, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
