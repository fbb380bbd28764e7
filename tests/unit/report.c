/* rooms: show store advise craft physics base */
/* The report's page, measured on the paper itself: lengths are read back out of the SVG. */
#include <expat.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bench_of.h"
#include "near.h"
#include "show/draw_page.h"
#include "show/hang.h"
#include "show/report.h"
#include "show/report_html.h"
#include "store/bench.h"

#define POINT_MM (25.4 / 72) /* of a big point, the SVG's unit here */

/* ---- reading a page back ---- */

enum { MOST = 20000 };

typedef struct path {
    double low[2], high[2]; /* mm of paper */
    bool dashed, stroked;
} path;

typedef struct picture {
    size_t paths, uses;
    path path[MOST];
    bool outside, script;
    char title[200], *into;
} picture;

static const char *attribute(const char **attributes, const char *name)
{
    for (size_t i = 0; attributes[i]; i += 2)
        if (strcmp(attributes[i], name) == 0)
            return attributes[i + 1];
    return NULL;
}

/* The box of a path of absolute M, L, C and Z. */
static void take_path(picture *p, const char **attributes)
{
    const char *d = attribute(attributes, "d"), *turned = attribute(attributes, "transform");
    const char *style = attribute(attributes, "style");
    double m[6] = {1, 0, 0, 1, 0, 0};
    if (!d || p->paths == MOST)
        return;
    if (turned)
        assert_int_equal(sscanf(turned, "matrix(%lf%*[ ,]%lf%*[ ,]%lf%*[ ,]%lf%*[ ,]%lf%*[ ,]%lf)",
                                &m[0], &m[1], &m[2], &m[3], &m[4], &m[5]),
                         6);
    path *made = &p->path[p->paths++];
    *made = (path){.low = {INFINITY, INFINITY}, .high = {-INFINITY, -INFINITY}};
    made->stroked =
        attribute(attributes, "stroke-width") || (style && strstr(style, "stroke-width"));
    made->dashed =
        attribute(attributes, "stroke-dasharray") || (style && strstr(style, "stroke-dasharray"));
    while (*d) {
        double at[2];
        char *end;
        if (!strchr("-.0123456789", *d)) {
            d++;
            continue;
        }
        at[0] = strtod(d, &end);
        at[1] = strtod(end, &end);
        d = end;
        const double on[2] = {m[0] * at[0] + m[2] * at[1] + m[4],
                              m[1] * at[0] + m[3] * at[1] + m[5]};
        for (int k = 0; k < 2; k++) {
            made->low[k] = fmin(made->low[k], POINT_MM * on[k]);
            made->high[k] = fmax(made->high[k], POINT_MM * on[k]);
        }
    }
}

static void begin(void *context, const char *name, const char **attributes)
{
    picture *p = context;
    p->into = strcmp(name, "title") == 0 ? p->title : NULL;
    if (strcmp(name, "path") == 0)
        take_path(p, attributes);
    p->script = p->script || strcmp(name, "script") == 0 || strcmp(name, "image") == 0 ||
                strcmp(name, "foreignObject") == 0;
    for (size_t i = 0; attributes[i]; i += 2) {
        const char *key = attributes[i], *value = attributes[i + 1];
        p->script = p->script || strncmp(key, "on", 2) == 0;
        if (strstr(key, "href") && value[0] != '#')
            p->outside = true;
        if (strstr(value, "url(") && !strstr(value, "url(#"))
            p->outside = true;
    }
    p->uses += strcmp(name, "use") == 0;
}

static void end(void *context, const char *name)
{
    (void)name;
    ((picture *)context)->into = NULL;
}

static void text(void *context, const char *bytes, int length)
{
    const picture *p = context;
    if (p->into && strlen(p->into) + (size_t)length < sizeof p->title)
        strncat(p->into, bytes, (size_t)length);
}

/* Reads a page, which must be well-formed and refer to nothing but itself. */
static picture *read_svg(const pare_text *svg)
{
    picture *p = calloc(1, sizeof *p);
    XML_Parser parser = XML_ParserCreate(NULL);
    assert_non_null(p);
    XML_SetUserData(parser, p);
    XML_SetElementHandler(parser, begin, end);
    XML_SetCharacterDataHandler(parser, text);
    if (XML_Parse(parser, svg->bytes, (int)svg->length, 1) != XML_STATUS_OK)
        fail_msg("line %lu: %s", XML_GetCurrentLineNumber(parser),
                 XML_ErrorString(XML_GetErrorCode(parser)));
    XML_ParserFree(parser);
    assert_false(p->outside);
    assert_false(p->script);
    return p;
}

static double wide(const path *p)
{
    return p->high[0] - p->low[0];
}

static double high(const path *p)
{
    return p->high[1] - p->low[1];
}

/* ---- a craft's report ---- */

typedef struct drawn {
    pare_sheet_view view;
    pare_report report;
    pare_arena *arena;
    pare_text svg;
} drawn;

static drawn *draw(const pare_craft *craft, const pare_craft *before, const char *tried)
{
    drawn *d = calloc(1, sizeof *d);
    pare_error err = {0};
    assert_non_null(d);
    d->arena = pare_arena_open();
    if (pare_sheet_view_fill(craft, before, craft->loadouts ? 0 : -1, tried, &d->view, &err) !=
        PARE_OK)
        fail_msg("%s", err.text);
    assert_int_equal(pare_report_fill(&d->view, 0, NULL, d->arena, &d->report, &err), PARE_OK);
    if (pare_report_page(&d->report, PARE_PAGE_SVG, &d->svg, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return d;
}

/* As a document, without swaps, shopping or a best set. */
static pare_status document(drawn *d, pare_text *out, pare_error *err)
{
    const pare_report_with with = {.money = "EUR"};
    pare_report_tables *tables = calloc(1, sizeof *tables);
    assert_non_null(tables);
    pare_status status = pare_report_tables_make(&d->report, &with, d->arena, tables, err);
    if (status == PARE_OK)
        status = pare_report_html(&d->report, tables, out, err);
    free(tables);
    return status;
}

static void leave(drawn *d)
{
    pare_text_free(&d->svg);
    pare_arena_close(d->arena);
    free(d);
}

static int setup(void **state)
{
    *state = bench_of("../../demo/bench.yaml");
    return 0;
}

static int teardown(void **state)
{
    pare_bench_close(*state);
    return 0;
}

static const char *const crafts[] = {"hedgerow", "thimble", "drover", "bodkin"};

static void every_demo_craft_is_a_page_that_refers_to_nothing_else(void **state)
{
    for (size_t i = 0; i < 4; i++) {
        drawn *d = draw(pare_bench_craft(*state, crafts[i]), NULL, NULL);
        picture *p = read_svg(&d->svg);
        assert_string_equal(p->title, crafts[i]);
        assert_true(p->paths > 200);
        for (size_t k = 0; k < p->paths; k++) {
            if (!p->path[k].stroked)
                continue; /* letters are defined at their own origin */
            assert_between(p->path[k].low[0], 5, d->report.paper->width_mm);
            assert_between(p->path[k].high[0], 5, d->report.paper->width_mm - 5);
            assert_between(p->path[k].high[1], 5, d->report.paper->height_mm - 5);
        }
        free(p);
        leave(d);
    }
}

/* The scale bar is two boxes side by side, alike and 1.1 mm high. The paper may be off by cairo's
 * finest step, 1/256 of its unit, at each end: 0.003 mm. */
static double scale_bar_box_mm(const picture *p)
{
    for (size_t i = 0; i + 1 < p->paths; i++)
        for (size_t k = i + 1; k < p->paths && k < i + 4; k++)
            if (p->path[i].stroked && p->path[k].stroked && fabs(high(&p->path[i]) - 1.1) < 0.01 &&
                fabs(high(&p->path[k]) - 1.1) < 0.01 &&
                fabs(p->path[i].high[0] - p->path[k].low[0]) < 0.01)
                return wide(&p->path[i]);
    fail_msg("no scale bar");
    return 0;
}

/* The middle of the discs that stand furthest right and left, of four on an upright X. */
static double discs_apart_mm(const picture *p, double disc_mm)
{
    double low = INFINITY, most = -INFINITY;
    size_t discs = 0;
    for (size_t i = 0; i < p->paths; i++) {
        if (!p->path[i].dashed || fabs(wide(&p->path[i]) - disc_mm) > 0.02 ||
            fabs(high(&p->path[i]) - disc_mm) > 0.02)
            continue;
        low = fmin(low, (p->path[i].low[0] + p->path[i].high[0]) / 2);
        most = fmax(most, (p->path[i].low[0] + p->path[i].high[0]) / 2);
        discs++;
    }
    assert_int_equal(discs, 4);
    return most - low;
}

static void the_scale_bar_and_the_stations_have_one_scale(void **state)
{
    for (size_t i = 0; i < 4; i++) {
        drawn *d = draw(pare_bench_craft(*state, crafts[i]), NULL, NULL);
        picture *p = read_svg(&d->svg);
        const int propeller = pare_craft_doing(&d->view.craft, PARE_PROPELLER);
        const double disc_m = d->view.craft.item[propeller].part->spec[PARE_SPEC_DIAMETER].value;
        const pare_vec3 *arm = d->view.sheet.assembly.arm_m;
        const double apart_m = fabs(arm[0].x - arm[2].x);
        const double apart_mm = discs_apart_mm(p, 1e3 * disc_m / d->report.scale);
        assert_near(apart_mm, 1e3 * apart_m / d->report.scale, 0.01);
        /* The bar's boxes stand for 1, 2 or 5 times a power of ten millimetres. */
        const double stands_for_mm = scale_bar_box_mm(p) * apart_m * 1e3 / apart_mm;
        const double digit = stands_for_mm / pow(10, floor(log10(stands_for_mm * 1.001)));
        assert_true(fabs(digit - 1) < 0.003 || fabs(digit - 2) < 0.006 || fabs(digit - 5) < 0.015);
        free(p);
        leave(d);
    }
}

/* A law: the slices are the craft. The tolerance is rounding. */
static void the_parts_of_the_ruler_weigh_what_the_craft_does(void **state)
{
    for (size_t i = 0; i < 4; i++) {
        drawn *d = draw(pare_bench_craft(*state, crafts[i]), NULL, NULL);
        double parts_kg = 0, slices_kg = 0;
        for (size_t k = 0; k < d->report.parts; k++) {
            assert_true(d->report.part[k].kg >= 0);
            parts_kg += d->report.part[k].kg;
            if (k > 0)
                assert_true(d->report.part[k].system >= d->report.part[k - 1].system);
        }
        for (size_t s = 0; s < d->report.ruler.slices; s++)
            for (int known = 0; known < PARE_KNOWNS; known++)
                slices_kg += d->report.ruler.slice[s].known_kg[known];
        assert_within(parts_kg, d->view.sheet.figure[PARE_ALL_UP].value, 1e-12);
        assert_within(slices_kg, d->view.sheet.figure[PARE_ALL_UP].value, 1e-12);
        leave(d);
    }
}

/* What a trial takes off stands at the parts that it takes it off, cut wire at the part it was cut
 * from. */
static void what_a_trial_saves_is_in_the_parts_that_it_touches(void **state)
{
    pare_bench *bench = *state;
    const pare_craft *before = pare_bench_craft(bench, "hedgerow");
    pare_craft *craft = malloc(sizeof *craft);
    pare_error err = {0};
    const char *tried = "bumper=off,run.phase.length=104mm,joint.motor_base.count=8";
    assert_non_null(craft);
    assert_int_equal(pare_swap_apply_list(bench, before, tried, craft, &err), PARE_OK);
    drawn *d = draw(craft, before, tried);
    double off_kg = 0, now_kg = 0;
    size_t touched = 0;
    for (size_t i = 0; i < d->report.parts; i++) {
        const pare_ruler_part *part = &d->report.part[i];
        off_kg += part->off_kg;
        now_kg += part->kg;
        if (fabs(part->off_kg) < 1e-9)
            continue;
        touched++;
        if (strcmp(part->name, "bumper") == 0) {
            assert_true(part->kg == 0);
            assert_near(part->off_kg,
                        before->item[pare_craft_item(before, "bumper")].count *
                            before->item[pare_craft_item(before, "bumper")].part->mass_kg.value,
                        1e-12);
        } else if (strcmp(part->name, "motor_base") == 0) {
            assert_within(part->off_kg, part->kg, 1e-9); /* half of them */
        } else {
            assert_string_equal(part->name, "motor"); /* its phase wires came with it */
            assert_true(part->off_kg > 0 && part->kg > part->off_kg);
        }
    }
    assert_int_equal(touched, 3);
    assert_within(now_kg, d->view.sheet.figure[PARE_ALL_UP].value, 1e-12);
    assert_within(now_kg + off_kg, d->view.before.figure[PARE_ALL_UP].value, 1e-12);
    picture *p = read_svg(&d->svg);
    free(p);
    leave(d);
    free(craft);
}

/* ---- as a document ---- */

/* The bench lets no such name in; the document does not rely on it. */
static void a_name_cannot_write_into_the_document(void **state)
{
    const char *hostile = "<script>alert(1)</script>&\"x\001";
    drawn *d = draw(pare_bench_craft(*state, "hedgerow"), NULL, NULL);
    pare_text text = {0};
    pare_error err = {0};
    d->view.craft.name = d->view.loadout = d->view.tried = hostile;
    d->view.sheet.assembly.line[0].name = d->view.sheet.margin[0].from = hostile;
    assert_int_equal(document(d, &text, &err), PARE_OK);
    assert_null(strstr(text.bytes, "<script"));
    size_t said = 0;
    for (const char *at = text.bytes;
         (at = strstr(at, ">&lt;script&gt;alert(1)&lt;/script&gt;&amp;&quot;x?<")); at++)
        said++;
    assert_true(said >= 4); /* heading, ledger, weigh-in sheet, margin */
    XML_Parser parser = XML_ParserCreate(NULL);
    assert_int_equal(XML_Parse(parser, text.bytes, (int)text.length, 1), XML_STATUS_OK);
    XML_ParserFree(parser);
    pare_text_free(&text);
    leave(d);
}

/* Put behind what stands there. cairo counts the names of its patterns on through a program, so a second
 * drawing has other names; all around it is the same. */
static void the_same_craft_is_the_same_document(void **state)
{
    drawn *d = draw(pare_bench_craft(*state, "thimble"), NULL, NULL);
    pare_text once = {0}, twice = {0};
    pare_error err = {0};
    assert_int_equal(document(d, &once, &err), PARE_OK);
    pare_text_add(&twice, "before");
    assert_int_equal(document(d, &twice, &err), PARE_OK);
    assert_memory_equal(twice.bytes, "before", 6);
    assert_string_equal(twice.bytes + 6, once.bytes);
    pare_text_free(&once);
    pare_text_free(&twice);
    leave(d);
}

/* ---- a plate's own outline ---- */

#define PLATE_SVG                                                                                  \
    "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='40mm' viewBox='0 0 100 40'>"    \
    "<rect width='100' height='40'/><rect x='60' y='10' width='20' height='10'/></svg>"

static const char plate_craft[] =
    "pare: 1\nmoney: EUR\nparts:\n"
    "- {id: fr, kind: frame, mass: 90 g, fits: {propeller: 5.2 in}, body: [{arms: [[80 mm, 80 mm], "
    "[80 mm, -80 mm], [-80 mm, -80 mm], [-80 mm, 80 mm]], root: 25 mm, section: [12 mm, 5 mm]}, "
    "{plate: base, outline: base.svg, thick: 2 mm, origin: middle, at: [3 mm, 0 mm, 0 mm]}]}\n"
    "- {id: mo, kind: motor, mass: 32 g, spec: {stator: 22 mm x 7 mm, kv: 1950}}\n"
    "- {id: pr, kind: propeller, mass: 4 g, spec: {diameter: 127 mm, pitch: 4 in, blades: 3}}\n"
    "- {id: es, kind: esc_four, mass: 13 g, spec: {continuous: 45 A}}\n"
    "- {id: fc, kind: flight_controller, mass: 8 g}\n"
    "- {id: pa, kind: pack, mass: 210 g, spec: {chemistry: lipo, cells: 6, capacity: 1300 mAh}}\n"
    "craft:\n- name: bee\n  items:\n"
    "    frame: {part: fr}\n    motor: {part: mo, count: 4, at: arms}\n"
    "    propeller: {part: pr, count: 4, at: arms}\n    esc: {part: es}\n    brain: {part: fc}\n"
    "    pack: {part: pa}\n";

static void a_plate_shows_its_drawing_s_own_outline_with_its_holes(void **state)
{
    (void)state;
    char folder[] = "/tmp/pare-test-XXXXXX", file_path[64];
    assert_non_null(mkdtemp(folder));
    snprintf(file_path, sizeof file_path, "%s/bench.sqlite", folder);
    const pare_import_file file = {"base.svg", PLATE_SVG, sizeof PLATE_SVG - 1};
    const pare_import import = {.bytes = plate_craft,
                                .length = sizeof plate_craft - 1,
                                .name = "text",
                                .files = 1,
                                .file = &file};
    pare_error err = {0};
    pare_store *store = NULL;
    pare_bench *bench = NULL;
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary;
    assert_int_equal(pare_store_open(file_path, PARE_STORE_CREATE, &store, &err), PARE_OK);
    if (pare_store_import_yaml(store, &import, arena, &summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_int_equal(pare_store_read_craft(store, "bee", &bench, &err), PARE_OK);
    pare_plate_outline outline = {.file = "base.svg"};
    assert_int_equal(
        pare_store_outline(store, "base.svg", arena, &outline.loops, &outline.loop, &err), PARE_OK);
    assert_int_equal(outline.loops, 2);
    size_t none = 1;
    const pare_outline *no_loop = NULL;
    assert_int_equal(pare_store_outline(store, "gone.svg", arena, &none, &no_loop, &err), PARE_OK);
    assert_int_equal(none, 0);

    pare_view view;
    const pare_craft *craft = pare_bench_craft(bench, "bee");
    assert_int_equal(pare_view_of(craft, PARE_SEEN_ABOVE, 1, &outline, arena, &view, &err),
                     PARE_OK);
    assert_int_equal(view.boxes, 0);
    const pare_silhouette *plate = NULL;
    for (size_t i = 0; i < view.count; i++)
        if (view.one[i].loops == 2)
            plate = &view.one[i];
    assert_non_null(plate);
    /* Its middle comes to the plate's place; an SVG's y runs down, the craft's to the left. The hole's
     * middle is 20 mm forward of the plate's and 5 mm above it in the drawing: to the left. */
    assert_near(plate->middle_m[0], 0.003, 1e-9);
    assert_near(plate->middle_m[1], 0, 1e-9);
    const double in_hole[2] = {0.023, 0.005};
    assert_true(pare_loop_holds(&plate->loop[1], in_hole));
    const double beside[2] = {0.023, -0.005};
    assert_false(pare_loop_holds(&plate->loop[1], beside));
    assert_true(pare_loop_holds(&plate->loop[0], beside));

    assert_int_equal(pare_view_of(craft, PARE_SEEN_SIDE, 1, &outline, arena, &view, &err), PARE_OK);
    bool edge = false;
    for (size_t i = 0; i < view.count; i++)
        edge = edge || (fabs(view.one[i].middle_m[0] - 0.003) < 1e-9 &&
                        fabs(view.one[i].near_m - 0.020) < 1e-9);
    assert_true(edge);
    pare_bench_close(bench);
    pare_store_close(store);
    pare_arena_close(arena);
    static const char *const suffix[] = {"", "-wal", "-shm"};
    for (size_t i = 0; i < 3; i++) {
        char name[80];
        snprintf(name, sizeof name, "%s%s", file_path, suffix[i]);
        unlink(name);
    }
    rmdir(folder);
}

/* ---- the page itself ---- */

static pare_page *open_page(pare_page_form form, double width_mm, double height_mm)
{
    pare_page *page = NULL;
    pare_error err = {0};
    if (pare_page_open(form, width_mm, height_mm, &page, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return page;
}

static void hostile_text_stays_text(void **state)
{
    (void)state;
    static const char *const hostile[] = {"</title><script>alert(1)</script>",
                                          "a & b < c > d \" e ' f ]]> g",
                                          "bell \a tab \t line\n",
                                          "\xff\xfe not \xc3 utf-8 \xed\xa0\x80",
                                          "\u202eturned\u2066",
                                          "\xef\xbf\xbe \xf4\x90\x80\x80",
                                          ""};
    for (size_t i = 0; i < sizeof hostile / sizeof hostile[0]; i++) {
        pare_page *page = open_page(PARE_PAGE_SVG, 100, 50);
        pare_text out = {0};
        pare_error err = {0};
        const pare_type type = {.size_mm = 3, .ink = PARE_INK_BLACK, .most_mm = 90};
        pare_page_text(page, 5, 10, &type, hostile[i]);
        pare_page_words(page, 5, 20, &type, hostile[i]);
        assert_int_equal(pare_page_finish(page, hostile[i], hostile[i], &out, &err), PARE_OK);
        picture *p = read_svg(&out);
        if (i == 0)
            assert_string_equal(p->title, hostile[0]);
        if (i == 2)
            assert_string_equal(p->title, "bell ? tab ? line?");
        if (i == 4)
            assert_string_equal(p->title, "?turned?");
        free(p);
        pare_text_free(&out);
        pare_page_close(page);
    }
}

static void a_long_text_is_elided_to_its_room(void **state)
{
    (void)state;
    pare_page *page = open_page(PARE_PAGE_SVG, 100, 50);
    const pare_type type = {.size_mm = 3, .ink = PARE_INK_BLACK, .most_mm = 20};
    char text_of_many[2000];
    memset(text_of_many, 'm', sizeof text_of_many - 1);
    text_of_many[sizeof text_of_many - 1] = '\0';
    assert_between(pare_page_text(page, 5, 10, &type, text_of_many), 10, 20);
    const double short_mm = pare_page_text(page, 5, 20, &type, "mm");
    assert_between(short_mm, 3, 8);
    const pare_type free_type = {.size_mm = 3, .ink = PARE_INK_BLACK};
    /* Letters stand at fractions of a dot: twice the letters are twice as wide. */
    assert_within(pare_page_text_width(page, &free_type, "mmmm"), 2 * short_mm, 1e-3);
    /* and twice the size too */
    const pare_type twice = {.size_mm = 6, .ink = PARE_INK_BLACK};
    assert_within(pare_page_text_width(page, &twice, "mm"), 2 * short_mm, 2e-3);
    pare_page_close(page);
}

/* PNG (ISO/IEC 15948): eight bytes of signature, then IHDR with width and height, most significant
 * byte first. */
static void a_png_has_its_signature_and_its_size(void **state)
{
    (void)state;
    static const unsigned char signature[] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
    pare_page *page = open_page(PARE_PAGE_PNG, 210, 297);
    pare_text out = {0};
    assert_int_equal(pare_page_finish(page, "", "", &out, NULL), PARE_OK);
    const unsigned char *bytes = (const unsigned char *)out.bytes;
    assert_true(out.length > 33);
    assert_memory_equal(bytes, signature, sizeof signature);
    assert_memory_equal(bytes + 12, "IHDR", 4);
    assert_int_equal(bytes[18] << 8 | bytes[19], 210 * PARE_PAGE_DOTS_A_MM);
    assert_int_equal(bytes[22] << 8 | bytes[23], 297 * PARE_PAGE_DOTS_A_MM);
    pare_text_free(&out);
    pare_page_close(page);
}

/* Textures carry the meaning, so a smaller share of ink must say that less is known. The share is
 * worked out from the strokes: length times width over the box. */
static void the_less_is_known_the_less_ink_there_is(void **state)
{
    (void)state;
    double last = 2;
    for (int texture = PARE_TEXTURE_FULL; texture <= PARE_TEXTURE_DOTS; texture++) {
        pare_page *page = open_page(PARE_PAGE_SVG, 100, 50);
        pare_text out = {0};
        pare_page_texture(page, (pare_box){10, 10, 20, 10}, (pare_texture)texture);
        assert_int_equal(pare_page_finish(page, "", "", &out, NULL), PARE_OK);
        picture *p = read_svg(&out);
        double ink_mm2 = 0;
        for (size_t i = 1; i < p->paths; i++) /* the first is the paper */
            ink_mm2 += p->path[i].stroked ? 0.26 * wide(&p->path[i])
                                          : wide(&p->path[i]) * high(&p->path[i]);
        assert_true(ink_mm2 / 200 < 0.8 * last);
        assert_true(ink_mm2 > 0);
        last = ink_mm2 / 200;
        for (size_t i = 1; i < p->paths; i++) { /* none of it leaves the box */
            assert_between(p->path[i].low[0], 9.99, 30.01);
            assert_between(p->path[i].high[0], 9.99, 30.01);
            assert_between(p->path[i].low[1], 9.99, 20.01);
            assert_between(p->path[i].high[1], 9.99, 20.01);
        }
        free(p);
        pare_text_free(&out);
        pare_page_close(page);
    }
}

/* By definition: no label meets another, nor the line of one that hangs lower. */
static void hung_labels_never_meet(void **state)
{
    (void)state;
    unsigned seed = 7;
    for (int round = 0; round < 300; round++) {
        pare_hung hung[12];
        double x = 0;
        for (size_t i = 0; i < 12; i++) {
            seed = seed * 1103515245u + 12345u;
            x += 0.1 + (seed >> 16) % 100 / 10.0;
            hung[i] = (pare_hung){x, 2 + (seed >> 8) % 20, 0};
        }
        const int rows = pare_hang(12, hung);
        assert_between(rows, 1, 12);
        for (size_t i = 0; i < 12; i++)
            for (size_t k = i + 1; k < 12; k++)
                if (hung[k].row >= hung[i].row)
                    assert_true(hung[i].line + hung[i].width < hung[k].line);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_demo_craft_is_a_page_that_refers_to_nothing_else),
        cmocka_unit_test(the_scale_bar_and_the_stations_have_one_scale),
        cmocka_unit_test(the_parts_of_the_ruler_weigh_what_the_craft_does),
        cmocka_unit_test(what_a_trial_saves_is_in_the_parts_that_it_touches),
        cmocka_unit_test(a_name_cannot_write_into_the_document),
        cmocka_unit_test(the_same_craft_is_the_same_document),
        cmocka_unit_test(a_plate_shows_its_drawing_s_own_outline_with_its_holes),
        cmocka_unit_test(hostile_text_stays_text),
        cmocka_unit_test(a_long_text_is_elided_to_its_room),
        cmocka_unit_test(a_png_has_its_signature_and_its_size),
        cmocka_unit_test(the_less_is_known_the_less_ink_there_is),
        cmocka_unit_test(hung_labels_never_meet),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
