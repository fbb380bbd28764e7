/* rooms: store show advise craft physics base; libraries: jansson */
/* Craft that nobody would build, on every screen, as JSON and drawn: whatever they are, no line is wider than the
 * screen, no number is none ("nan", "inf"), JSON is whole, and a drawing ends as one does.
 *
 * What the figures are is other tests'. Truth: these rules. */
#include <math.h>

#include "odd_drawn.h"
#include "share.h"

#include "advise/replace.h"
#include "show/arms.h"
#include "show/catalogue.h"
#include "show/compare.h"
#include "show/crash.h"
#include "show/json.h"
#include "show/outline.h"
#include "show/radio.h"
#include "show/report.h"
#include "show/report_html.h"
#include "show/report_tables.h"
#include "show/ruler_json.h"
#include "show/screen.h"
#include "show/sheet_json.h"
#include "show/sheet_text.h"
#include "show/swaps.h"
#include "show/trace.h"
#include "show/wires.h"

typedef struct shown {
    odd o;
    pare_craft was; /* before what is tried */
    pare_sheet_view view;
    pare_sheet other; /* of another craft, to compare it with */
    pare_craft loaded;
    pare_screen screen;
} shown;

/* ---- odder still: what a craft is asked to do, and what its parts say ---- */

static void odd_brief(pare_craft *c, unsigned *seed)
{
    pare_brief *brief = &c->brief;
    for (size_t i = 0; i < brief->limits; i++) {
        const unsigned how = dice(seed, 6);
        if (how == 0)
            brief->limit[i].value *= 0.5;
        if (how == 1)
            brief->limit[i].value *= 3;
        if (how == 2)
            brief->limit[i].at_least = !brief->limit[i].at_least;
    }
    if (dice(seed, 4) == 0)
        brief->limits = 0;
    if (dice(seed, 4) == 0)
        brief->keep = 0;
    if (dice(seed, 3) == 0) {
        brief->entries = 1;
        brief->flown[0] = (pare_flown){dice(seed, 2) ? PARE_FLOWN_SPEED : PARE_FLOWN_FULL, 1,
                                       2.0 + dice(seed, 60)};
    }
}

/* Packs without a resistance, motors out of all proportion, things far out, without price, or as light as air. */
static void odder_parts(odd *o, unsigned *seed)
{
    for (size_t i = 0; i < o->bench->parts; i++) {
        pare_part *part = o->bench->part[i];
        const unsigned how = dice(seed, 12);
        if (how == 0) {
            pare_value *spec = &part->spec[dice(seed, PARE_SPECS)];
            spec->value *= dice(seed, 2) ? 0.2 : 4;
            spec->known = (pare_known)dice(seed, PARE_KNOWNS);
        }
        if (how == 1)
            part->mass_kg.value *= dice(seed, 2) ? 0.05 : 6;
        if (how == 2)
            part->mass_kg.known = (pare_known)dice(seed, PARE_KNOWNS);
        if (how == 3)
            part->price = (pare_price){0};
    }
}

static void odd_places(pare_craft *c, unsigned *seed)
{
    for (size_t i = 0; i < c->items; i++) {
        pare_item *item = &c->item[i];
        if (item->place == PARE_AT_POINTS && dice(seed, 6) == 0)
            item->off = !item->off && dice(seed, 2) && !flies(item->part);
        if (dice(seed, 12) == 0)
            item->turn = (pare_mat3){{{0, -1, 0}, {1, 0, 0}, {0, 0, 1}}};
    }
}

/* ---- the rules ---- */

static void check_text(const shown *s, const pare_text *out, const char *what, unsigned number)
{
    static const char *const none[] = {"nan", "inf ", "inf\n", "-inf", "(null)"};
    assert_false(out->failed);
    const char *text = pare_text_all(out);
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        const char *at = strstr(text, none[i]);
        while (at && at > text && at[-1] >= 'a' && at[-1] <= 'z') /* within a word */
            at = strstr(at + 1, none[i]);
        if (at)
            fail_msg("%s of craft %u says '%s': %.60s", what, number, none[i], at);
    }
    for (const char *line = text; *line;) {
        const char *end = strchr(line, '\n');
        char one[1024];
        if (!end)
            fail_msg("%s of craft %u: its last line has no end", what, number);
        const size_t length = (size_t)(end - line);
        assert_true(length < sizeof one);
        memcpy(one, line, length);
        one[length] = '\0';
        /* Tables are made for the usual screen, and stay so on a narrower one; a limit in many digits may
         * stand out by a few columns. */
        if (s->screen.width >= 80 && (int)pare_columns(one) > s->screen.width + 6 &&
            strchr(one + strspn(one, " "), ' '))
            fail_msg("%s of craft %u, %d wide: '%s'", what, number, s->screen.width, one);
        line = end + 1;
    }
}

static void check_json(json_t *object, const char *what, unsigned number)
{
    if (!object)
        fail_msg("%s of craft %u is no JSON", what, number);
    char *text = json_dumps(object, JSON_ENCODE_ANY);
    json_t *again = text ? json_loads(text, JSON_DECODE_ANY, NULL) : NULL;
    if (!again || !json_equal(object, again))
        fail_msg("%s of craft %u is not read again as it was: %.80s", what, number,
                 text ? text : "");
    json_decref(again);
    free(text);
    json_decref(object);
}

static void screens(shown *s, unsigned number)
{
    static const struct {
        const char *name;
        void (*write)(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);
    } blocks[] = {{"the rest of the sheet", pare_sheet_all_text},
                  {"the crash", pare_crash_text},
                  {"the wires", pare_wires_text},
                  {"the arms", pare_arms_text},
                  {"the radio", pare_radio_text}};
    for (size_t i = 0; i < sizeof blocks / sizeof blocks[0]; i++) {
        pare_text out = {0};
        blocks[i].write(&s->view, &s->screen, &out);
        check_text(s, &out, blocks[i].name, number);
        pare_text_free(&out);
    }
    for (int which = 0; which < PARE_TRACES; which++) {
        pare_text out = {0};
        pare_trace_text(&s->view, (pare_trace_of)which, &s->screen, &out);
        check_text(s, &out, "a curve", number);
        pare_text_free(&out);
        check_json(pare_trace_object(&s->view, (pare_trace_of)which), "a curve", number);
    }
    pare_text out = {0};
    pare_craft_text(&s->o.craft, &s->screen, &out);
    check_text(s, &out, "the craft", number);
    pare_text_free(&out);
    const pare_compared columns[] = {
        {.name = "odd", .craft = &s->view.craft, .sheet = &s->view.sheet},
        {.name = "other", .craft = &s->loaded, .sheet = &s->other},
        {.name = "odd again", .craft = &s->view.craft, .sheet = &s->view.sheet}};
    for (size_t count = 1; count <= 3; count++) {
        pare_text compared = {0};
        pare_compare_text(count, columns, count != 2, &s->screen, &compared);
        check_text(s, &compared, "a comparison", number);
        pare_text_free(&compared);
        check_json(pare_compare_object(count, columns), "a comparison", number);
    }
}

static void advice(shown *s, pare_arena *arena, unsigned number)
{
    pare_swaps swaps;
    pare_error err = {0};
    if (pare_swaps_find(s->o.bench, &s->o.craft, s->o.craft.loadouts ? 0 : -1, PARE_WISH_GRAMS,
                        arena, &swaps, &err) != PARE_OK) {
        assert_true(*err.text && !strchr(err.text, '\n'));
        return;
    }
    const pare_swaps_view list = {.craft = &s->o.craft,
                                  .swaps = &swaps,
                                  .wished = pare_wish_name(PARE_WISH_GRAMS),
                                  .loadout =
                                      s->o.craft.loadouts ? s->o.craft.loadout[0].name : NULL,
                                  .money = "EUR"};
    pare_text out = {0};
    pare_swaps_text(&list, 12, &s->screen, &out);
    check_text(s, &out, "the swaps", number);
    pare_text_free(&out);
    pare_sheet_text(&s->view, &swaps, "EUR", &s->screen, &out);
    check_text(s, &out, "the sheet", number);
    pare_text_free(&out);
    check_json(pare_swaps_object(&list), "the swaps", number);
    check_json(pare_ruler_object(&s->view, &swaps), "the ruler", number);
}

static void drawings(shown *s, pare_arena *arena, unsigned number)
{
    static pare_report report;
    static pare_report_tables tables;
    pare_error err = {0};
    json_t *outline = NULL;
    assert_int_equal(pare_report_fill(&s->view, 0, NULL, arena, &report, &err), PARE_OK);
    const pare_report_with with = {.money = "EUR"};
    assert_int_equal(pare_report_tables_make(&report, &with, arena, &tables, &err), PARE_OK);
    pare_text out = {0};
    assert_int_equal(pare_report_html(&report, &tables, &out, &err), PARE_OK);
    if (!strstr(out.bytes, "</svg>") || strcmp(out.bytes + out.length - 8, "</html>\n") != 0)
        fail_msg("the report of craft %u does not end", number);
    if (strstr(out.bytes, ">nan<") || strstr(out.bytes, "\"nan"))
        fail_msg("the report of craft %u has a number that is none", number);
    pare_text_free(&out);
    check_json(pare_report_object(&report), "the report", number);
    assert_int_equal(pare_outline_object(&s->view, 0, NULL, &outline, &err), PARE_OK);
    check_json(outline, "the outline", number);
}

static void whatever_a_craft_is_its_screens_are_whole(void **state)
{
    enum { CRAFT = SHARE_OF(160) };
    (void)state;
    static shown s;
    unsigned seed = 20260501;
    size_t seen = 0;
    assert_true(odd_open(&s.o));
    const pare_craft *plain = pare_bench_craft(s.o.bench, "bodkin");
    assert_int_equal(pare_craft_load(plain, 0, &s.loaded, NULL), PARE_OK);
    assert_int_equal(pare_sheet_compute(&s.loaded, true, &s.other, NULL), PARE_OK);
    for (unsigned number = 0; number < CRAFT; number++) {
        pare_error err = {0};
        odd_parts(&s.o, &seed);
        odder_parts(&s.o, &seed);
        static const char *const names[] = {"hedgerow", "bodkin", "thimble", "drover"};
        if (!odd_craft(&s.o, &seed)) /* then its parts alone are odd */
            pare_craft_copy(pare_bench_craft(s.o.bench, names[number % 4]), &s.o.craft);
        odd_brief(&s.o.craft, &seed);
        odd_places(&s.o.craft, &seed);
        static const int widths[] = {60, 72, 80, 130};
        s.screen = (pare_screen){.width = widths[dice(&seed, 4)], .utf8 = dice(&seed, 2)};
        pare_craft_copy(&s.o.craft, &s.was);
        if (s.was.items > 1)
            s.was.item[s.was.items - 1].off =
                !s.was.item[s.was.items - 1].off && !flies(s.was.item[s.was.items - 1].part);
        const pare_craft *before = dice(&seed, 2) ? &s.was : NULL;
        const int loadout = s.o.craft.loadouts ? 0 : -1;
        if (pare_sheet_view_fill(&s.o.craft, before, loadout, before ? "some" : NULL, &s.view,
                                 &err) != PARE_OK) {
            assert_true(*err.text && !strchr(err.text, '\n'));
            continue;
        }
        seen++;
        pare_arena *arena = pare_arena_open();
        screens(&s, number);
        advice(&s, arena, number);
        check_json(pare_sheet_object(&s.view), "the sheet", number);
        check_json(pare_craft_object(&s.o.craft), "the craft", number);
        if (number % 4 == 0)
            drawings(&s, arena, number);
        pare_arena_close(arena);
    }
    odd_close(&s.o);
    assert_true(seen > CRAFT / 4); /* of many there was something to see */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whatever_a_craft_is_its_screens_are_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
