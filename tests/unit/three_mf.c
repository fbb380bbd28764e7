/* rooms: store craft physics base; libraries: minizip */
/* Reading 3MF, good and bad, and on to a part's grams. */
#include <math.h>

#include "store_bench.h"
#include "zip_of.h"

#include "craft/body.h"
#include "store/three_mf.h"
#include "store/zip.h"

#define MM 1e-3
#define BOX                                                                                        \
    "<resources><object id='1'>" BOX_MESH("30", "20",                                              \
                                          "10") "</object></resources>"                            \
                                                "<build><item objectid='1'/></build></model>"

static pare_status try_model(const char *model, pare_mesh_facts *facts, pare_error *err)
{
    const zip_bytes z = three_mf_of(model);
    const pare_status status = pare_three_mf_measure("p.3mf", z.at, z.length, facts, err);
    free(z.at);
    return status;
}

static pare_mesh_facts measured(const char *model)
{
    pare_mesh_facts facts = {0};
    pare_error err = {0};
    if (try_model(model, &facts, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return facts;
}

static void a_box_is_measured_in_the_file_s_unit(void **state)
{
    (void)state;
    static const struct {
        const char *unit;
        double unit_m;
    } units[] = {{"", 1e-3},
                 {" unit='millimeter'", 1e-3},
                 {" unit='micron'", 1e-6},
                 {" unit='centimeter'", 1e-2},
                 {" unit='inch'", 0.0254},
                 {" unit='foot'", 0.3048},
                 {" unit='meter'", 1}};
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        pare_text text = {0};
        pare_text_printf(&text, MODEL_HEAD "%s>" BOX, units[i].unit);
        const pare_mesh_facts f = measured(text.bytes);
        const double u = units[i].unit_m;
        assert_within(f.volume_m3, 6000 * u * u * u, 1e-12);
        assert_within(f.area_m2, 2200 * u * u, 1e-12);
        assert_within(f.centre_m.x, 15 * u, 1e-12);
        assert_within(f.inertia_m5.xx, 6000 * 500 / 12.0 * pow(u, 5), 1e-12);
        assert_int_equal(f.open_edges, 0);
        assert_int_equal(f.turned_inside_out, 0);
        assert_int_equal(f.estimated, PARE_MESH_EXACT);
        pare_text_free(&text);
    }
}

static void items_and_components_are_placed_and_added_up(void **state)
{
    (void)state;
    /* A box moved by 100 along x; the same turned a quarter about z and mirrored in z by a component
     * of a component. Touching boxes share corners and are still two solids. */
    const pare_mesh_facts f = measured(MODEL_HEAD "><resources><object id='7'>" BOX_MESH(
        "30", "20", "10") "</object>"
                          "<object id='8'><components><component objectid='7' transform='0 1 0 -1 "
                          "0 0 0 0 1 0 0 0'/>"
                          "</components></object>"
                          "<object id='9'><components><component objectid='8' transform='1 0 0 0 1 "
                          "0 0 0 -1 0 0 5'/>"
                          "<component objectid='7'/></components></object>"
                          "<object id='3' type='support'>" BOX_MESH(
                              "9", "9", "9") "</object></resources>"
                                             "<build><item objectid='7' transform='1 0 0 0 1 0 0 0 "
                                             "1 100 0 0'/><item objectid='9'/>"
                                             "<item objectid='7' transform='1 0 0 0 1 0 0 0 1 30 0 "
                                             "0'/><item objectid='3'/></build></model>");
    assert_within(f.volume_m3, 4 * 6000e-9, 1e-12);
    assert_int_equal(f.turned_inside_out, 0);
    assert_int_equal(f.open_edges, 0);
    /* Turned: x from -20 to 0, y from 0 to 30; mirrored in z and lifted: from -5 to 5. */
    assert_within(f.centre_m.x, (115 - 10 + 15 + 45) / 4.0 * MM, 1e-12);
    assert_within(f.centre_m.y, (10 + 15 + 10 + 10) / 4.0 * MM, 1e-12);
    assert_within(f.centre_m.z, (5 + 0 + 5 + 5) / 4.0 * MM, 1e-12);
    assert_near(f.low_m.x, -20 * MM, 1e-12);
    assert_near(f.high_m.x, 130 * MM, 1e-12);
}

static void an_open_mesh_is_estimated_as_of_stl(void **state)
{
    (void)state;
    const pare_mesh_facts f = measured(
        MODEL_HEAD "><resources><object id='1'><mesh><vertices><vertex x='0' y='0' z='0'/>"
                   "<vertex x='6' y='0' z='0'/><vertex x='0' y='6' z='0'/>"
                   "<vertex x='0' y='0' z='6'/></vertices><triangles>"
                   "<triangle v1='0' v2='2' v3='1'/><triangle v1='0' v2='1' v3='3'/>"
                   "<triangle v1='0' v2='3' v3='2'/></triangles></mesh></object></resources>"
                   "<build><item objectid='1'/></build></model>");
    assert_int_equal(f.open_edges, 3);
    assert_int_equal(f.estimated, PARE_MESH_HULL);
    assert_within(f.volume_m3, 36e-9, 1e-9);
}

static void known_extensions_may_be_needed(void **state)
{
    (void)state;
    const pare_mesh_facts f = measured(
        MODEL_HEAD " xmlns:p='http://schemas.microsoft.com/3dmanufacturing/production/2015/06' "
                   "requiredextensions='p' p:UUID='x'>" BOX);
    assert_within(f.volume_m3, 6000e-9, 1e-12);
}

#define ONE(object, item)                                                                          \
    MODEL_HEAD "><resources><object id='1'>" object "</object></resources><build>" item            \
               "</build></model>"
#define THREE "<vertices><vertex x='0' y='0' z='0'/></vertices>"
#define PLACED(transform)                                                                          \
    ONE(BOX_MESH("3", "2", "1"), "<item objectid='1' transform='" transform "'/>")

static void bad_models_are_refused_with_one_clear_line(void **state)
{
    (void)state;
    static const struct {
        const char *model, *says;
    } bad[] = {
        {"", "p.3mf:1:1: not well-formed XML: no element found"},
        {"<model/>", "p.3mf:1:1: not a 3MF model: it begins with <model>; right would be <model>"},
        {MODEL_HEAD "/>", "p.3mf: nothing to build in it; right would be an item with a mesh"},
        {"<!DOCTYPE model>" MODEL_HEAD "/>",
         "p.3mf:1:16: a document type with entities or rules of its own; right would be a document "
         "without DOCTYPE"},
        {"<!DOCTYPE model [<!ENTITY a 'b'>]>" MODEL_HEAD "/>",
         "p.3mf:1:17: a document type with entities or rules of its own; right would be a document "
         "without DOCTYPE"},
        {MODEL_HEAD " unit='parsec'/>", "p.3mf:1:1: unit is 'parsec'; right would be micron, "
                                        "millimeter, centimeter, inch, foot or meter"},
        {MODEL_HEAD " xmlns:q='urn:q' requiredextensions='q'/>",
         "p.3mf:1:1: needs extension 'q', which is not read; right would be a model of the core "
         "standard"},
        {MODEL_HEAD "><resources><object/></resources></model>",
         "p.3mf:1:85: object ''; right would be a number of its own, above 0"},
        {MODEL_HEAD "><resources><object id='1'/><object id='1'/></resources></model>",
         "p.3mf:1:101: object '1'; right would be a number of its own, above 0"},
        {ONE("<mesh><vertices><vertex x='nan' y='0' z='0'/></vertices></mesh>", ""),
         "p.3mf:1:116: vertex: x is 'nan'; right would be a finite number"},
        {ONE("<mesh><vertices><vertex x='1' y='0'/></vertices></mesh>", ""),
         "p.3mf:1:116: vertex: z is ''; right would be a finite number"},
        {ONE("<mesh>" THREE "<triangles><triangle v1='0' v2='0' v3='1'/></triangles></mesh>", ""),
         "p.3mf:1:165: triangle: v3 is '1'; right would be one of the 1 vertices, from 0"},
        {ONE("<mesh>" THREE "<triangles><triangle v1='-1' v2='0' v3='0'/></triangles></mesh>", ""),
         "p.3mf:1:165: triangle: v1 is '-1'; right would be one of the 1 vertices, from 0"},
        {ONE("<components><component objectid='1'/></components>", ""),
         "p.3mf:1:112: component of object '1'; right would be an object that stands before it"},
        {ONE("", "<item objectid='2'/>"),
         "p.3mf:1:128: item of object '2'; right would be an object that stands before it"},
        {PLACED("1 0 0 0 1 0 0 0 1 0 0"), NULL},
        {PLACED("1 0 0 0 1 0 0 0 0 0 0 0"), NULL},
        {PLACED("1 0 0 0 1 0 0 0 nan 0 0 0"), NULL},
        {PLACED("1 0 0 0 1 0 0 0 1 0 0 0 9"), NULL},
        {ONE("<mesh><vertices><vertex x='0' y='0' z='0'/><vertex x='1' y='0' z='0'/>"
             "<vertex x='0' y='1' z='0'/></vertices><triangles><triangle v1='0' v2='1' v3='2'/>"
             "</triangles></mesh>",
             "<item objectid='1'/>"),
         "p.3mf: object 1: the mesh is flat: it has no volume"},
        {MODEL_HEAD " xmlns:p='http://schemas.microsoft.com/3dmanufacturing/production/2015/06'>"
                    "<resources><object id='1'/></resources><build>"
                    "<item objectid='1' p:path='/3D/other.model'/></build></model>",
         "p.3mf:1:194: item in another file of the archive; right would be all objects in the "
         "model"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        pare_mesh_facts facts = {.volume_m3 = 7};
        pare_error err = {0};
        assert_int_equal(try_model(bad[i].model, &facts, &err), PARE_BAD_DATA);
        if (bad[i].says)
            assert_string_equal(err.text, bad[i].says);
        else
            assert_non_null(strstr(err.text, "right would be twelve numbers that leave a volume"));
        assert_near(facts.volume_m3, 7, 0);
    }
}

static void components_that_multiply_without_end_are_refused(void **state)
{
    (void)state;
    pare_mesh_facts facts;
    pare_error err = {0};
    for (int deep = 0; deep < 2; deep++) {
        pare_text text = {0};
        pare_text_add(&text,
                      MODEL_HEAD "><resources><object id='1'>" BOX_MESH("1", "1", "1") "</object>");
        const int levels = deep ? 20 : 14, each = deep ? 1 : 8;
        for (int i = 2; i < 2 + levels; i++) {
            pare_text_printf(&text, "<object id='%d'><components>", i);
            for (int k = 0; k < each; k++)
                pare_text_printf(&text, "<component objectid='%d'/>", i - 1);
            pare_text_add(&text, "</components></object>");
        }
        pare_text_printf(&text, "</resources><build><item objectid='%d'/></build></model>",
                         levels + 1);
        assert_int_equal(try_model(text.bytes, &facts, &err), PARE_BAD_DATA);
        if (deep)
            assert_non_null(strstr(err.text, ": components over 16 deep; right would be fewer"));
        else
            assert_string_equal(err.text, "p.3mf: its build places over 1500000 triangles or 10000 "
                                          "objects; right would be fewer");
        pare_text_free(&text);
    }
}

/* ---- the archive ---- */

static pare_status try_archive(size_t count, const zip_entry entries[], pare_error *err)
{
    pare_mesh_facts facts;
    const zip_bytes z = zip_of(count, entries, 6);
    const pare_status status = pare_three_mf_measure("p.3mf", z.at, z.length, &facts, err);
    free(z.at);
    return status;
}

static void archives_that_lead_astray_are_refused(void **state)
{
    (void)state;
    static const char model[] = MODEL_HEAD ">" BOX;
    static const char *const names[] = {"../evil",  "3D/../../evil", "/etc/evil",
                                        "3D\\evil", "C:evil",        "3D/.."};
    pare_error err = {0};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        char says[120];
        const zip_entry entries[] = {{"3D/3dmodel.model", model, 0}, {names[i], "x", 0}};
        assert_int_equal(try_archive(2, entries, &err), PARE_BAD_DATA);
        snprintf(says, sizeof says, "p.3mf: an entry '%s'; right would be names below the archive",
                 names[i]);
        assert_string_equal(err.text, says);
    }
    const zip_entry none[] = {{"readme", "x", 0}},
                    twice[] = {{"3D/3dmodel.model", model, 0}, {"3d/3DMODEL.model", model, 0}},
                    two[] = {{"a.model", model, 0}, {"b.model", model, 0}},
                    other[] = {{"3D/part.model", model, 0}};
    assert_int_equal(try_archive(1, none, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "p.3mf: no entry 3D/3dmodel.model in it; right would be exactly one");
    assert_int_equal(try_archive(2, twice, &err), PARE_BAD_DATA);
    assert_string_equal(
        err.text, "p.3mf: more than one entry 3D/3dmodel.model in it; right would be exactly one");
    assert_int_equal(try_archive(2, two, &err), PARE_BAD_DATA);
    assert_int_equal(try_archive(1, other, &err), PARE_OK);
}

static pare_status count_bytes(void *context, const char *bytes, size_t length, pare_error *err)
{
    (void)bytes;
    (void)err;
    *(size_t *)context += length;
    return PARE_OK;
}

static void a_bomb_is_refused_by_what_it_says_and_by_what_it_unpacks(void **state)
{
    (void)state;
    const size_t size = 8u << 20, most = 1u << 20;
    char *zeros = calloc(1, size);
    assert_non_null(zeros);
    const zip_entry entry = {"3D/3dmodel.model", zeros, size};
    zip_bytes z = zip_of(1, &entry, 9);
    size_t total = 0;
    pare_error err = {0};
    assert_int_equal(pare_zip_read("p.3mf", z.at, z.length, "3D/3dmodel.model", ".model", most,
                                   count_bytes, &total, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "p.3mf: what is packed in it unpacks to over 1 MiB; right would be less");
    assert_int_equal(total, 0);
    /* Its directory then says 1000 bytes: no more than that is unpacked. */
    for (size_t i = 0; i + 46 < z.length; i++)
        if (memcmp(z.at + i, "PK\1\2", 4) == 0) {
            const unsigned char says[4] = {0xe8, 0x03, 0, 0};
            memcpy(z.at + i + 24, says, 4);
        }
    assert_int_equal(pare_zip_read("p.3mf", z.at, z.length, "3D/3dmodel.model", ".model", most,
                                   count_bytes, &total, &err),
                     PARE_BAD_DATA);
    assert_string_equal(
        err.text, "p.3mf: a damaged archive, or cut short; right would be a whole copy of it");
    assert_true(total <= 1000);
    free(z.at);
    free(zeros);
}

static void every_cut_and_every_wrong_byte_is_an_answer_or_an_error(void **state)
{
    (void)state;
    for (int level = 0; level <= 6; level += 6) {
        const zip_entry entry = {"3D/3dmodel.model", MODEL_HEAD ">" BOX, 0};
        zip_bytes z = zip_of(1, &entry, level);
        pare_mesh_facts facts;
        for (size_t n = 0; n < z.length; n++) {
            pare_error err = {0};
            char *cut = malloc(n ? n : 1);
            assert_non_null(cut);
            memcpy(cut, z.at, n);
            const pare_status status = pare_three_mf_measure("p.3mf", cut, n, &facts, &err);
            /* The last bytes are the high ones of small numbers: nothing is lost with them. */
            assert_true(status == PARE_BAD_DATA || (status == PARE_OK && n + 3 >= z.length));
            free(cut);
        }
        for (size_t n = 0; n < z.length; n++)
            for (int flip = 1; flip < 256; flip *= 4) {
                pare_error err = {0};
                z.at[n] = (char)(z.at[n] ^ flip);
                const pare_status status =
                    pare_three_mf_measure("p.3mf", z.at, z.length, &facts, &err);
                assert_true(status == PARE_OK || (status == PARE_BAD_DATA && err.text[0]));
                z.at[n] = (char)(z.at[n] ^ flip);
            }
        free(z.at);
    }
}

static void what_is_no_archive_is_refused(void **state)
{
    (void)state;
    pare_mesh_facts facts;
    pare_error err = {0};
    assert_int_equal(pare_three_mf_measure("p.3mf", "solid x", 7, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "p.3mf: not a zip archive, or cut short; 3MF models and XLSX "
                                  "workbooks are such archives");
    assert_int_equal(pare_three_mf_measure_file("/nowhere/p.3mf", &facts, &err), PARE_BAD_DATA);
}

/* ---- from a bench's text to a part ---- */

static pare_status import_part(pare_store *store, const char *more, const zip_bytes *z,
                               pare_arena *arena, pare_import_summary *summary, pare_error *err)
{
    char yaml[256];
    snprintf(
        yaml, sizeof yaml,
        "pare: 1\nparts:\n- {id: ho, kind: holder, body: {mesh: p.3mf, wall: 0 mm, density: 1.2 "
        "g/cm3%s}}\n",
        more);
    const pare_import_file file = {"p.3mf", z->at, z->length};
    const pare_import import = {
        .bytes = yaml, .length = strlen(yaml), .name = "b.yaml", .files = 1, .file = &file};
    return pare_store_import_yaml(store, &import, arena, summary, err);
}

static void a_part_weighs_by_its_3mf_and_comes_back_byte_for_byte(void **state)
{
    store_fixture *f = *state;
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary;
    pare_error err = {0};
    pare_bench *bench = NULL;
    const zip_bytes z = three_mf_of(MODEL_HEAD " unit='inch'><resources><object id='1'>" BOX_MESH(
        "3", "2", "1") "</object></resources><build><item objectid='1'/></build></model>");
    assert_int_equal(import_part(f->store, "", &z, arena, &summary, &err), PARE_OK);
    assert_int_equal(summary.files, 1);
    for (int again = 0; again < 2; again++) {
        assert_int_equal(pare_store_read(f->store, &bench, &err), PARE_OK);
        assert_within(pare_bench_part(bench, "ho")->mass_kg.value,
                      1200 * 6 * 0.0254 * 0.0254 * 0.0254, 1e-12);
        pare_bench_close(bench);
    }
    char path[128], *back = malloc(z.length + 1);
    assert_non_null(back);
    assert_int_equal(pare_store_export_files(f->store, f->folder, NULL, &err), PARE_OK);
    snprintf(path, sizeof path, "%s/p.3mf", f->folder);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    assert_int_equal(fread(back, 1, z.length + 1, file), z.length);
    assert_memory_equal(back, z.at, z.length);
    fclose(file);
    free(back);
    assert_int_equal(import_part(f->store, ", unit: mm", &z, arena, &summary, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "b.yaml:3:84: unit beside a 3MF file, which states its own; right "
                        "would be no unit");
    free(z.at);
    pare_arena_close(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_box_is_measured_in_the_file_s_unit),
        cmocka_unit_test(items_and_components_are_placed_and_added_up),
        cmocka_unit_test(an_open_mesh_is_estimated_as_of_stl),
        cmocka_unit_test(known_extensions_may_be_needed),
        cmocka_unit_test(bad_models_are_refused_with_one_clear_line),
        cmocka_unit_test(components_that_multiply_without_end_are_refused),
        cmocka_unit_test(archives_that_lead_astray_are_refused),
        cmocka_unit_test(a_bomb_is_refused_by_what_it_says_and_by_what_it_unpacks),
        cmocka_unit_test(every_cut_and_every_wrong_byte_is_an_answer_or_an_error),
        cmocka_unit_test(what_is_no_archive_is_refused),
        cmocka_unit_test_setup_teardown(a_part_weighs_by_its_3mf_and_comes_back_byte_for_byte,
                                        store_setup, store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
