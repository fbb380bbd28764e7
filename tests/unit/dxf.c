/* rooms: store craft physics base */
/* Reading DXF, good and bad, and joining what was read; areas and moments stand in checks/outlines.c. */
#include <math.h>

#include "store_bench.h"

#include "craft/assemble.h"
#include "craft/body.h"
#include "store/dxf.h"

#define MM 1e-3

/* A drawing's text: each word of `entities` on a line of its own, between the usual ends. */
static char *drawing(const char *header, const char *entities)
{
    pare_text text = {0};
    pare_text_add(&text, "0\nSECTION\n2\nHEADER\n");
    const char *parts[3] = {header, "0 ENDSEC 0 SECTION 2 ENTITIES", entities};
    for (int i = 0; i < 3; i++) {
        for (const char *at = parts[i]; *at; at++)
            pare_text_put(&text, *at == ' ' ? "\n" : at, 1);
        if (*parts[i])
            pare_text_add(&text, "\n");
    }
    pare_text_add(&text, "0\nENDSEC\n0\nEOF\n");
    assert_false(text.failed);
    return text.bytes;
}

static pare_status try_header(const char *header, const char *entities, pare_outline_facts *facts,
                              pare_error *err)
{
    char *text = drawing(header, entities);
    const pare_status status = pare_dxf_measure("p.dxf", text, strlen(text), NULL, facts, err);
    free(text);
    return status;
}

static pare_outline_facts measured(const char *header, const char *entities)
{
    pare_outline_facts facts = {0};
    pare_error err = {0};
    if (try_header(header, entities, &facts, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return facts;
}

/* Four lines of a rectangle of 40 x 20 mm at (10, 5), in no order, two of them backwards. */
#define RECTANGLE                                                                                  \
    "0 LINE 8 cut 10 10 20 5 11 50 21 5 "                                                          \
    "0 LINE 10 10 20 25 11 50 21 25 "                                                              \
    "0 LINE 10 50 20 5 11 50 21 25 "                                                               \
    "0 LINE 10 10 20 25 11 10 21 5"

static void lines_in_any_order_and_direction_join_to_a_loop(void **state)
{
    (void)state;
    const pare_outline_facts f = measured("", RECTANGLE);
    assert_within(f.area_m2, 800 * MM * MM, 1e-14);
    assert_within(f.edge_m, 120 * MM, 1e-14);
    assert_near(f.centre_m[0], 30 * MM, 1e-15);
    assert_near(f.centre_m[1], 15 * MM, 1e-15);
    assert_near(f.low_m[0], 10 * MM, 1e-15);
    assert_near(f.high_m[1], 25 * MM, 1e-15);
    assert_int_equal(f.holes, 0);
}

static void the_file_s_unit_is_taken(void **state)
{
    (void)state;
    static const struct {
        const char *header;
        double unit_m;
    } units[] = {{"9 $INSUNITS 70 1", 0.0254},
                 {"9 $INSUNITS 70 4", 1e-3},
                 {"9 $ACADVER 1 AC1015 9 $INSUNITS 70 5 9 $LUNITS 70 2", 1e-2},
                 {"9 $INSUNITS 70 0", 1e-3}};
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        const pare_outline_facts f = measured(units[i].header, RECTANGLE);
        assert_within(f.area_m2, 800 * units[i].unit_m * units[i].unit_m, 1e-14);
    }
}

static void ends_within_the_gap_join_and_specks_are_left_out(void **state)
{
    (void)state;
    const pare_outline_facts f = measured("", "0 LINE 10 0 20 0 11 10 21 0 "
                                              "0 LINE 10 10.006 20 0 11 10 21 10 "
                                              "0 LINE 10 10 20 10 11 10 21 10 "
                                              "0 LINE 10 10 20 10.004 11 0 21 10 "
                                              "0 LINE 10 0 20 10 11 0 21 0.009");
    assert_within(f.area_m2, 100 * MM * MM, 1e-3);
}

static void holes_are_taken_out_and_remarks_and_paper_left_out(void **state)
{
    (void)state;
    const pare_outline_facts f =
        measured("", RECTANGLE " 0 CIRCLE 10 20 20 15 40 2 0 CIRCLE 10 40 20 15 40 2 "
                               "0 TEXT 10 0 20 0 40 5 1 plate 0 POINT 10 1 20 1 "
                               "0 LINE 67 1 10 0 20 0 11 900 21 0 "
                               "0 DIMENSION 10 nan 20 0");
    assert_int_equal(f.holes, 2);
    assert_within(f.area_m2, (800 - 8 * acos(-1)) * MM * MM, 1e-9);
    assert_near(f.centre_m[0], 30 * MM, 1e-12);
}

static void polylines_of_both_kinds_give_the_same(void **state)
{
    (void)state;
    const pare_outline_facts light = measured(
        "", "0 LWPOLYLINE 90 4 70 1 43 0.0 10 0 20 0 10 30 20 0 42 1 10 30 20 10 10 0 20 10");
    const pare_outline_facts old =
        measured("", "0 POLYLINE 66 1 70 1 10 0 20 0 0 VERTEX 10 0 20 0 0 VERTEX 10 30 20 0 42 1 "
                     "0 VERTEX 10 30 20 10 0 VERTEX 10 0 20 10 0 SEQEND 8 0");
    assert_near(light.area_m2, old.area_m2, 0);
    assert_near(light.xx_m4, old.xx_m4, 0);
    assert_within(light.area_m2, (300 + 12.5 * acos(-1)) * MM * MM, 1e-9);
    assert_near(light.high_m[0], 35 * MM, 1e-5); /* bulged outwards: to the right of its way up */
}

static void a_plane_that_faces_down_is_mirrored(void **state)
{
    (void)state;
    const pare_outline_facts f = measured("", "0 CIRCLE 10 -20 20 5 40 2 210 0 220 0 230 -1");
    assert_near(f.centre_m[0], 20 * MM, 1e-12);
    const pare_outline_facts half =
        measured("", "0 ARC 10 0 20 0 40 5 50 90 51 270 230 -1 0 LINE 10 0 20 5 11 0 21 -5");
    assert_near(half.centre_m[0], 20 * MM / (3 * acos(-1)), 1e-8);
}

static void ellipses_are_read(void **state)
{
    (void)state;
    const pare_outline_facts f = measured("", "0 ELLIPSE 10 0 20 0 11 6 21 8 40 0.5 41 0 42 "
                                              "6.283185307179586");
    assert_within(f.area_m2, 50 * acos(-1) * MM * MM, 1e-12);
}

static void bad_drawings_are_refused_with_one_clear_line(void **state)
{
    (void)state;
    static const struct {
        const char *header, *entities, *says;
    } bad[] = {
        {"", "", "p.dxf: no outline in it; right would be closed lines"},
        {"", "0 LINE 10 nan 20 0 11 1 21 0",
         "p.dxf:14: 'nan' for code 10; right would be a finite number"},
        {"", "0 LINE 10 1e400 20 0 11 1 21 0",
         "p.dxf:14: '1e400' for code 10; right would be a finite number"},
        {"", "0 LINE 10 5mm 20 0 11 1 21 0",
         "p.dxf:14: '5mm' for code 10; right would be a finite number"},
        {"", "0 LINE 10 1e9 20 0 11 1 21 0",
         "p.dxf: a place that is no number or over 100 m from the origin; right would be a plate "
         "near the drawing's origin"},
        {"9 $INSUNITS 70 3", RECTANGLE,
         "p.dxf:8: $INSUNITS is 3; right would be 4 (millimetres), 1 (inches), 5 or 6 "
         "(centimetres, metres)"},
        {"9 $INSUNITS 70 6", RECTANGLE,
         "p.dxf: the outline is 4e+04 x 2e+04 mm; right would be 0.1 .. 2000 mm (does the file "
         "state its unit?)"},
        {"", "0 LINE 10 0 20 0 11 10 21 0 0 LINE 10 10 20 0 11 10 21 10",
         "p.dxf: the outline is open at (0, 0) mm, the next end is at (10, 0) mm; right would be "
         "closed loops, ends within 0.01 mm"},
        {"", "0 ARC 10 0 20 0 40 5 50 0 51 180",
         "p.dxf: the outline is open at (-5, 6.12323e-16) mm, the next end is at (5, 0) mm; right "
         "would be closed loops, ends within 0.01 mm"},
        {"", RECTANGLE " 0 LINE 10 10 20 5 11 50 21 25",
         "p.dxf: three or more lines end at (10, 5) mm; right would be two, and no line drawn "
         "twice"},
        {"", "0 CIRCLE 10 0 20 0 40 5 0 CIRCLE 10 0 20 0 40 5",
         "p.dxf: two loops of the outline cross near (-4.99799, 0.122718) mm; right would be loops "
         "that neither cross nor touch, each drawn once"},
        {"", "0 LWPOLYLINE 70 1 10 0 20 0 10 10 20 10 10 10 20 0 10 0 20 10",
         "p.dxf: the outline crosses itself near (5, 5) mm; right would be loops that neither "
         "cross "
         "nor touch, each drawn once"},
        {"", "0 LWPOLYLINE 70 1 10 0 20 0 10 5 20 5 10 10 20 10 10 10 20 0 10 5 20 5 10 0 20 10",
         "p.dxf: the outline crosses itself near (5, 5) mm; right would be loops that neither "
         "cross "
         "nor touch, each drawn once"},
        {"", RECTANGLE " 0 CIRCLE 10 50 20 15 40 2",
         "p.dxf: two loops of the outline cross near (50, 13) mm; right would be loops that "
         "neither "
         "cross nor touch, each drawn once"},
        {"", RECTANGLE " 0 CIRCLE 10 70 20 15 40 2",
         "p.dxf: a second plate beside the first, at (72, 15) mm; right would be one outline with "
         "its holes"},
        {"", RECTANGLE " 0 CIRCLE 10 30 20 15 40 5 0 CIRCLE 10 30 20 15 40 2",
         "p.dxf: a loop within a hole, at (32, 15) mm; right would be one outline with its holes"},
        {"", "0 LWPOLYLINE 70 1 10 0 20 0 10 10 20 0",
         "p.dxf: a loop at (0, 0) mm encloses no area; right would be an outline of three sides or "
         "more"},
        {"", RECTANGLE " 0 SPLINE 70 8 71 3",
         "p.dxf:54: SPLINE: is not read; right would be lines, arcs, circles, ellipses and "
         "polylines "
         "(blocks taken apart, splines made polylines)"},
        {"", "0 CIRCLE 10 0 20 0 40 0",
         "p.dxf:12: CIRCLE: radius 0 or less; right would be greater"},
        {"", "0 ARC 10 0 20 0 40 5 50 0",
         "p.dxf:12: ARC: without its two angles (codes 50 and 51)"},
        {"", "0 CIRCLE 10 0 20 0 40 5 210 1 220 0 230 0",
         "p.dxf:12: CIRCLE: drawn in a tilted plane; right would be a flat drawing"},
        {"", "0 ELLIPSE 10 0 20 0 11 0 21 0 40 0.5",
         "p.dxf:12: ELLIPSE: an axis of no length; right would be greater"},
        {"", "0 LWPOLYLINE 70 1 10 0 20 0 42 1e9 10 1 20 0 10 1 20 1",
         "p.dxf:12: LWPOLYLINE: a bulge over 1e6; right would be 1 for half a circle"},
        {"", "0 POLYLINE 70 64 0 VERTEX 10 0 20 0 0 SEQEND",
         "p.dxf:12: POLYLINE: not flat; right would be a flat polyline"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        pare_outline_facts facts = {.area_m2 = 7};
        pare_error err = {0};
        assert_int_equal(try_header(bad[i].header, bad[i].entities, &facts, &err), PARE_BAD_DATA);
        assert_string_equal(err.text, bad[i].says);
        assert_near(facts.area_m2, 7, 0);
    }
}

static void what_is_no_dxf_is_refused(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t length;
        const char *says;
    } bad[] = {
        {"", 0, "p.dxf: empty; right would be a DXF drawing"},
        {"0\nSEC\0TION\n", 11,
         "p.dxf: not text: it holds zero bytes; right would be DXF saved as text"},
        {"<svg/>\n", 7, "p.dxf:1: not a DXF file: '<svg/>'; right would be the number of a code"},
        {"99999\nx\n", 8, "p.dxf:1: not a DXF file: '99999'; right would be the number of a code"},
        {"0\n", 2, "p.dxf:1: cut short: code 0 has no value"},
        {"0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n1\n", 33,
         "p.dxf:8: cut short: its ENTITIES have no end; right would be ENDSEC and EOF"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        pare_outline_facts facts;
        pare_error err = {0};
        assert_int_equal(pare_dxf_measure("p.dxf", bad[i].bytes, bad[i].length, NULL, &facts, &err),
                         PARE_BAD_DATA);
        assert_string_equal(err.text, bad[i].says);
    }
}

static void every_cut_of_a_drawing_is_an_answer_or_an_error(void **state)
{
    (void)state;
    char *text = drawing("9 $INSUNITS 70 4", RECTANGLE " 0 CIRCLE 10 30 20 15 40 2");
    const size_t length = strlen(text);
    for (size_t n = 0; n < length; n++) {
        char *cut = malloc(n ? n : 1); /* of exactly this length, for the sanitizer */
        pare_outline_facts facts;
        pare_error err = {0};
        assert_non_null(cut);
        memcpy(cut, text, n);
        const pare_status status = pare_dxf_measure("p.dxf", cut, n, NULL, &facts, &err);
        assert_true(status == PARE_OK || (status == PARE_BAD_DATA && err.text[0]));
        free(cut);
    }
    free(text);
}

static void too_much_is_refused(void **state)
{
    (void)state;
    pare_text text = {0};
    pare_error err = {0};
    pare_outline_facts facts;
    for (int i = 0; i < 2100; i++)
        pare_text_printf(&text, "%s0 CIRCLE 10 %d 20 %d 40 0.3", i ? " " : "", i % 50, i / 50);
    assert_int_equal(try_header("", text.bytes, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "p.dxf: over 200000 points; right would be the outline of one plate");
    pare_text_free(&text);
    /* A comb whose teeth all lie side by side along the sweep. */
    pare_text_add(&text, "0 LWPOLYLINE 70 1");
    for (int i = 0; i < 30000; i++)
        pare_text_printf(&text, " 10 %d 20 %.4f", (i + 1) / 2 % 2 ? 100 : 1, i * 0.01);
    assert_int_equal(try_header("", text.bytes, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "p.dxf: too many long lines side by side to look for crossings; "
                                  "right would be a simpler outline");
    pare_text_free(&text);
}

/* ---- from a bench's text to a part ---- */

#define PLATE_PART                                                                                 \
    "pare: 1\nparts:\n- {id: pl, kind: other, body: {plate: base, outline: cut/p.dxf, thick: 2 "   \
    "mm%s, at: [0 mm, 0 mm, 5 mm], density: 1.5 g/cm3}}\n"

static pare_status import_plate(pare_store *store, const char *more, const char *dxf,
                                pare_arena *arena, pare_import_summary *summary, pare_error *err)
{
    char yaml[512];
    snprintf(yaml, sizeof yaml, PLATE_PART, more);
    const pare_import_file file = {"cut/p.dxf", dxf, dxf ? strlen(dxf) : 0};
    const pare_import import = {.bytes = yaml,
                                .length = strlen(yaml),
                                .name = "b.yaml",
                                .files = dxf ? 1 : 0,
                                .file = &file};
    return pare_store_import_yaml(store, &import, arena, summary, err);
}

static void a_plate_with_an_outline_weighs_area_by_thickness_by_density(void **state)
{
    pare_store *store = store_of(state);
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary;
    pare_error err = {0};
    char *text = drawing("", RECTANGLE);
    for (int middle = 0; middle < 2; middle++) {
        pare_bench *bench = NULL;
        const pare_mat3 turn = {0};
        pare_body body;
        assert_int_equal(
            import_plate(store, middle ? ", origin: middle" : "", text, arena, &summary, &err),
            PARE_OK);
        assert_int_equal(summary.files, 1);
        assert_int_equal(summary.warnings, middle ? 0 : 1);
        if (!middle)
            assert_string_equal(summary.warning[0],
                                "b.yaml:3:54: the drawing's origin, which comes to the plate's "
                                "place, lies outside the outline, whose middle is at (30, 15) mm; "
                                "origin: middle would bring that there");
        for (int again = 0; again < 2; again++) { /* measured, then from the cache */
            assert_int_equal(pare_store_read(store, &bench, &err), PARE_OK);
            const pare_part *part = pare_bench_part(bench, "pl");
            assert_within(part->mass_kg.value, 800 * MM * MM * 2 * MM * 1500, 1e-12);
            assert_int_equal(part->mass_kg.known, PARE_COMPUTED);
            assert_int_equal(pare_part_body(part, &turn, &body, &err), PARE_OK);
            assert_near(body.at_m.x, middle ? 0 : 30 * MM, 1e-15);
            assert_near(body.at_m.y, middle ? 0 : 15 * MM, 1e-15);
            assert_near(body.at_m.z, 5 * MM, 1e-15);
            assert_within(body.inertia_kg_m2.xx, (400 + 4) * MM * MM / 12, 1e-12);
            assert_within(body.inertia_kg_m2.zz, (1600 + 400) * MM * MM / 12, 1e-12);
            pare_bench_close(bench);
        }
    }
    free(text);
    pare_arena_close(arena);
}

static void an_outline_is_kept_and_exported_byte_for_byte(void **state)
{
    store_fixture *f = *state;
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary;
    pare_error err = {0};
    char *text = drawing("", RECTANGLE), path[128], back[2048] = "";
    size_t count = 0;
    assert_int_equal(import_plate(f->store, "", text, arena, &summary, &err), PARE_OK);
    assert_int_equal(pare_store_export_files(f->store, f->folder, &count, &err), PARE_OK);
    assert_int_equal(count, 1);
    snprintf(path, sizeof path, "%s/cut/p.dxf", f->folder);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    assert_int_equal(fread(back, 1, sizeof back, file), strlen(text));
    fclose(file);
    assert_memory_equal(back, text, strlen(text));
    unlink(path);
    snprintf(path, sizeof path, "%s/cut", f->folder);
    rmdir(path);
    free(text);
    pare_arena_close(arena);
}

static void a_bad_outline_stops_the_import_and_a_missing_one_does_not(void **state)
{
    pare_store *store = store_of(state);
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary;
    pare_error err = {0};
    char *text = drawing("", "0 ARC 10 0 20 0 40 5 50 10 51 10.5");
    assert_int_equal(import_plate(store, "", text, arena, &summary, &err), PARE_BAD_DATA);
    assert_true(strncmp(err.text, "b.yaml:3:54: cut/p.dxf: the outline is open at (", 48) == 0);
    free(text);
    /* Nothing weighs the plate then, and it has no other mass. */
    assert_int_equal(import_plate(store, "", NULL, arena, &summary, &err), PARE_BAD_DATA);
    pare_arena_close(arena);
}

/* The bench of field-5 with other plates on its frame; the frame's mass stays as weighed. */
static pare_assembly assembled(pare_store *store, const char *base, const char *dxf)
{
    static pare_assembly assembly;
    pare_craft loaded;
    pare_error err = {0};
    pare_bench *bench = NULL;
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    char path[512], yaml[1024];
    snprintf(path, sizeof path, "%s/tests/data/field-5.yaml", PARE_SOURCE_DIR);
    const pare_import craft = {.path = path};
    if (pare_store_import_yaml(store, &craft, arena, &summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    snprintf(
        yaml, sizeof yaml,
        "pare: 1\nparts:\n- {id: fr-1, kind: frame, mass: {value: 90 g, u: 1 g, known: weighed}, "
        "body: [{arms: [[80 mm, 80 mm], [80 mm, -80 mm], [-80 mm, -80 mm], [-80 mm, 80 mm]], "
        "root: 25 mm, section: [12 mm, 5 mm]}, {plate: base, %s, at: [0 mm, 0 mm, -6 mm]}]}\n",
        base);
    const pare_import_file file = {"base.dxf", dxf, dxf ? strlen(dxf) : 0};
    const pare_import frame = {.bytes = yaml,
                               .length = strlen(yaml),
                               .name = "b.yaml",
                               .files = dxf ? 1 : 0,
                               .file = &file};
    if (pare_store_import_yaml(store, &frame, arena, &summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_int_equal(pare_store_read_craft(store, "field-5", &bench, &err), PARE_OK);
    assert_int_equal(pare_craft_load(bench->craft[0], -1, &loaded, &err), PARE_OK);
    assert_int_equal(pare_assemble(&loaded, &assembly, &err), PARE_OK);
    pare_bench_close(bench);
    pare_arena_close(arena);
    return assembly;
}

static void a_craft_s_inertia_takes_the_outline_instead_of_a_stand_in(void **state)
{
    pare_store *store = store_of(state);
    /* 110 x 40 mm drawn is 110 x 40 mm stated. */
    const pare_assembly stated = assembled(store, "size: [110 mm, 40 mm, 2 mm]", NULL);
    char *plain =
        drawing("", "0 LWPOLYLINE 70 1 10 -55 20 -20 10 55 20 -20 10 55 20 20 10 -55 20 20");
    const pare_assembly drawn = assembled(store, "outline: base.dxf, thick: 2 mm", plain);
    assert_within(drawn.all.mass_kg, stated.all.mass_kg, 1e-15);
    assert_within(drawn.all.inertia_kg_m2.xx, stated.all.inertia_kg_m2.xx, 1e-13);
    assert_within(drawn.all.inertia_kg_m2.zz, stated.all.inertia_kg_m2.zz, 1e-13);
    assert_near(drawn.all.at_m.x, stated.all.at_m.x, 1e-15);
    /* Two windows take their part of the plate's grams to where the arms are. Frame: arms are
     * 4 x (|80, 80| - 25) x 12 x 5 mm3, the plate 110 x 40 x 2 less two windows of 20 x 24 x 2 mm at
     * x = -35 and 35: shares of 90 g by volume. */
    char *cut =
        drawing("", "0 LWPOLYLINE 70 1 10 -55 20 -20 10 55 20 -20 10 55 20 20 10 -55 20 20 "
                    "0 LWPOLYLINE 70 1 10 25 20 -12 10 45 20 -12 10 45 20 12 10 25 20 12 "
                    "0 LWPOLYLINE 70 1 10 -25 20 -12 10 -45 20 -12 10 -45 20 12 10 -25 20 12");
    const pare_assembly windows = assembled(store, "outline: base.dxf, thick: 2 mm", cut);
    const double reach = hypot(80, 80), length = reach - 25, middle = 25 + length / 2;
    const double arms = 4 * length * 60, whole = 8800, window = 2 * 20 * 24 * 2.0;
    const double arms_zz = arms * (middle * middle + (length * length + 144) / 12);
    const double whole_zz = whole * (110 * 110 + 40 * 40) / 12.0;
    const double window_zz = window * (35 * 35 + (20 * 20 + 24 * 24) / 12.0);
    const double before = 0.090 * (arms_zz + whole_zz) / (arms + whole),
                 after = 0.090 * (arms_zz + whole_zz - window_zz) / (arms + whole - window);
    assert_within(windows.all.inertia_kg_m2.zz - stated.all.inertia_kg_m2.zz,
                  (after - before) * 1e-6, 1e-6);
    free(plain);
    free(cut);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_in_any_order_and_direction_join_to_a_loop),
        cmocka_unit_test(the_file_s_unit_is_taken),
        cmocka_unit_test(ends_within_the_gap_join_and_specks_are_left_out),
        cmocka_unit_test(holes_are_taken_out_and_remarks_and_paper_left_out),
        cmocka_unit_test(polylines_of_both_kinds_give_the_same),
        cmocka_unit_test(a_plane_that_faces_down_is_mirrored),
        cmocka_unit_test(ellipses_are_read),
        cmocka_unit_test(bad_drawings_are_refused_with_one_clear_line),
        cmocka_unit_test(what_is_no_dxf_is_refused),
        cmocka_unit_test(every_cut_of_a_drawing_is_an_answer_or_an_error),
        cmocka_unit_test(too_much_is_refused),
        cmocka_unit_test_setup_teardown(a_plate_with_an_outline_weighs_area_by_thickness_by_density,
                                        store_setup, store_teardown),
        cmocka_unit_test_setup_teardown(a_craft_s_inertia_takes_the_outline_instead_of_a_stand_in,
                                        store_setup, store_teardown),
        cmocka_unit_test_setup_teardown(an_outline_is_kept_and_exported_byte_for_byte, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(a_bad_outline_stops_the_import_and_a_missing_one_does_not,
                                        store_setup, store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
