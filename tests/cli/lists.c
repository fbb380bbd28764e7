/* lists.c: `pare import` of what people have: a messy list, a model, a drawing.
 *
 * The messy list is made up, as a person would keep it: mixed units, blanks, typos, two kinds of
 * decimals, remarks, a total. The golden files are our own earlier output, read before they were kept. */
#include "run.h"

#include <string.h>

#include "zip_of.h"

#define LISTS PARE_SOURCE_DIR "/tests/data/"

static void fails(const char *line, int status, const char *message)
{
    ran r = run(line);
    assert_string_equal(r.err, message);
    assert_int_equal(r.status, status);
    assert_string_equal(r.out, "");
    ran_free(&r);
}

static void a_messy_list_goes_in_with_one_map_and_each_refused_row_explained(void **state)
{
    (void)state;
    char *messy = read_file(LISTS "messy.csv");
    assert_non_null(messy);
    write_text("messy.csv", messy);
    run_prints_golden("list-messy-dry",
                      "import messy.csv --map got=owned --dry-run --bench l.sqlite");
    assert_null(read_file("l.sqlite"));
    run_prints_golden("list-messy",
                      "import messy.csv --map got=owned --keep-good --bench l.sqlite");
    run_prints_golden("list-messy-export", "export --bench l.sqlite");
    json_t *again =
        run_json("import messy.csv --map got=owned --keep-good --json --bench l.sqlite");
    assert_int_equal((int)number(again, "parts_added"), 0);
    assert_int_equal((int)number(again, "parts_replaced"), 0);
    assert_int_equal((int)number(again, "refused"), 11);
    assert_int_equal((int)number(again, "parts_same") + 11, (int)number(again, "rows"));
    json_decref(again);
    free(messy);
}

static void a_list_that_is_refused_leaves_no_bench_behind(void **state)
{
    (void)state;
    write_text("bad.csv", "name,kind,weight (g)\na,strap,heavy\n");
    fails(
        "import bad.csv --bench none.sqlite", 3,
        "pare: bad.csv:2:3: 'weight (g)': mass: heavy does not start with one plain number: a mass "
        "needs g, kg, oz or lb (--keep-good takes the other rows)\n");
    assert_null(read_file("none.sqlite"));
}

static void what_differs_is_said_before_it_is_done(void **state)
{
    (void)state;
    write_text("one.csv", "id,kind,weight (g)\nst-a,strap,6\nst-b,strap,7\n");
    write_text("two.csv", "id,kind,weight (g)\nst-a,strap,6.5\nst-b,strap,7\nst-c,strap,8\n");
    ran r = run("import one.csv --bench d.sqlite");
    assert_int_equal(r.status, 0);
    ran_free(&r);
    run_prints_golden("list-dry-run", "import two.csv --dry-run --bench d.sqlite");
    run_prints_golden("list-replaced", "import two.csv --bench d.sqlite");
    r = run("undo --bench d.sqlite");
    assert_int_equal(r.status, 0);
    ran_free(&r);
    r = run("export --bench d.sqlite");
    assert_non_null(strstr(r.out, "{id: st-a, kind: strap, mass: 6 g}"));
    assert_null(strstr(r.out, "st-c"));
    ran_free(&r);
}

static void a_list_as_json_has_the_same_in_keys(void **state)
{
    (void)state;
    write_text("j.csv", "id;kind;Gewicht (g);Farbe\nst;strap;6,5;rot\nsu;strip;7,5;\n");
    json_t *all = run_json("import j.csv --keep-good --json --bench j.sqlite");
    assert_string_equal(json_string_value(json_object_get(all, "taken_as")), "parts");
    assert_string_equal(json_string_value(json_object_get(all, "separator")), ";");
    assert_string_equal(json_string_value(json_object_get(all, "decimal")), "comma");
    assert_int_equal((int)number(all, "parts_added"), 1);
    const json_t *refused = json_array_get(json_object_get(all, "refused_rows"), 0);
    assert_int_equal((int)number(refused, "line"), 3);
    assert_string_equal(json_string_value(json_object_get(refused, "column")), "kind");
    assert_string_equal(json_string_value(json_object_get(refused, "message")),
                        "j.csv:3:2: 'kind': no kind of part is called 'strip'; is it 'strap'?");
    const json_t *column = json_array_get(json_object_get(all, "columns"), 3);
    assert_true(json_is_null(json_object_get(column, "means")));
    json_decref(all);
}

static void a_note_that_was_asked_for_is_shown_with_its_part(void **state)
{
    (void)state;
    write_text("n.csv", "name,kind,weight (g),colour\nLong one,strap,6,red\n");
    ran r = run("import n.csv --notes --bench n.sqlite");
    assert_non_null(strstr(r.out, "colour      kept as a note\n"));
    ran_free(&r);
    r = run("parts show long-one --bench n.sqlite");
    assert_non_null(strstr(r.out, "note              name: Long one; colour: red\n"));
    ran_free(&r);
}

static void a_file_is_told_by_its_ending_or_by_what_is_in_it(void **state)
{
    (void)state;
    write_text("list.txt", "id\tkind\tmass (g)\nst\tstrap\t6\n");
    write_text("bench.txt", "# mine\npare: 1\nparts:\n- {id: so, kind: strap, mass: 7 g}\n");
    ran r = run("import list.txt --bench t.sqlite");
    assert_non_null(strstr(r.out, "taken as parts, parted by tabs"));
    ran_free(&r);
    r = run("import bench.txt --bench t.sqlite");
    assert_string_equal(r.out, "into t.sqlite\nparts    1 added\n");
    ran_free(&r);
    fails("import t.sqlite --bench t.sqlite", 3,
          "pare: t.sqlite: a database, not a text; a bench is used by --bench FILE\n");
    write_text("part", "solid x\nendsolid x\n");
    fails("import part --bench t.sqlite", 3,
          "pare: part: a shape, as it looks; right would be a name that ends in .stl\n");
    write_text("mine.yaml", "pare: 1\n");
    fails("import mine.yaml --map a=mass --bench t.sqlite", 3,
          "pare: mine.yaml is a bench's text; --map is for lists (CSV)\n");
    fails("import list.txt --as party --bench t.sqlite", 3, "pare: --as 'party'; is it parts?\n");
    fails("import list.txt --decimal dot --bench t.sqlite", 3,
          "pare: --decimal 'dot'; right would be point or comma\n");
    fails("import list.txt --separator ; --map x --bench t.sqlite", 3,
          "pare: --map 'x'; right would be COLUMN=WHAT, like --map 'Wt.=mass (g)'\n");
    fails("import nothing.csv --bench t.sqlite", 3,
          "pare: nothing.csv: cannot be opened (No such file or directory)\n");
    write_zeros("zeros.csv", 5000);
    fails(
        "import zeros.csv --bench t.sqlite", 3,
        "pare: zeros.csv:1: byte 0x00: no text, or text in UTF-16; right would be a table saved as "
        "UTF-8\n");
}

static void a_model_alone_becomes_a_part_of_its_shape(void **state)
{
    (void)state;
    char *stl = read_file(LISTS "every-key-cube.stl");
    assert_non_null(stl);
    write_text("cube.stl", stl);
    run_prints_golden("list-model",
                      "import cube.stl --set id=bumper-a --kind bumper --bench m.sqlite");
    run_prints_golden("list-model-again", "import cube.stl --bench m.sqlite");
    fails(
        "import cube.stl --set wall=2mm --bench m.sqlite", 3,
        "pare: cube.stl is the shape of part 'bumper-a' already; right would be the file alone, to "
        "take it in anew\n");
    fails("import cube.stl --set thik=2mm --bench n.sqlite", 2,
          "pare: --set 'thik'; is it 'thick'?\n");
    free(stl);
}

static void a_drawing_alone_becomes_a_plate_of_its_outline(void **state)
{
    (void)state;
    /* 60 x 40 mm less a hole of 10 mm: 24 - pi/4 = 23.21 cm2, by hand. */
    write_text("top.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='40mm' "
                          "viewBox='-30 -20 60 40'><rect x='-30' y='-20' width='60' height='40'/>"
                          "<circle r='5'/></svg>");
    fails("import top.svg --bench o.sqlite", 3,
          "pare: top.svg: a plate of 23.21 cm2, but how thick? right would be like --set "
          "thick=2mm\n");
    run_prints_golden("list-drawing", "import top.svg --set thick=2mm --bench o.sqlite");
    json_t *taken = run_json("import top.svg --json --bench o.sqlite");
    assert_near(number(taken, "area_cm2"), 24 - 3.14159265358979 / 4, 1e-6);
    json_decref(taken);
}

/* A workbook as a list is: two sheets, one of them asked for; cells are said by sheet, row and column. */
static void a_sheet_of_a_workbook_is_a_list(void **state)
{
    (void)state;
#define CELL(text) "<c t='inlineStr'><is><t>" text "</t></is></c>"
    static const zip_entry entries[] = {
        {"xl/workbook.xml",
         "<workbook xmlns:r='r'><sheets><sheet name='Notes' r:id='a'/>"
         "<sheet name='Straps' r:id='b'/></sheets></workbook>",
         0},
        {"xl/_rels/workbook.xml.rels",
         "<Relationships><Relationship Id='a' Target='worksheets/sheet1.xml'/>"
         "<Relationship Id='b' Target='worksheets/sheet2.xml'/></Relationships>",
         0},
        {"xl/worksheets/sheet1.xml",
         "<worksheet><sheetData><row>" CELL("only a note") "</row></sheetData></worksheet>", 0},
        {"xl/worksheets/sheet2.xml",
         "<worksheet><sheetData><row r='2'>" CELL("id") CELL("kind")
             CELL("weight (g)") "</row>"
                                "<row r='4'>" CELL("st-a")
                                    CELL("strap") "<c><v>6.5</v></c></row>"
                                                  "<row r='5'>" CELL("st-b") CELL("strap") CELL(
                                                      "heavy") "</row></sheetData></worksheet>",
         0}};
    zip_bytes z = zip_of(sizeof entries / sizeof entries[0], entries, 6);
    FILE *file = fopen("straps.xlsx", "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(z.at, 1, z.length, file), z.length);
    fclose(file);
    free(z.at);
    fails("import straps.xlsx#straps --bench w.sqlite", 3,
          "pare: straps.xlsx#Straps:5:3: 'weight (g)': mass: heavy does not start with one plain "
          "number: a mass needs g, kg, oz or lb (--keep-good takes the other rows)\n");
    fails("import straps.xlsx#Strips --bench w.sqlite", 2,
          "pare: straps.xlsx: no sheet 'Strips'; did you mean 'Straps'?\n");
    fails("import straps.xlsx#2 --separator tab --bench w.sqlite", 3,
          "pare: straps.xlsx#2 is a workbook, whose columns are cells; --separator is for lists "
          "(CSV)\n");
    fails("import gone.xlsx --bench w.sqlite", 3,
          "pare: gone.xlsx: cannot be read (No such file or directory)\n");
    ran r = run("import straps.xlsx#2 --keep-good --bench w.sqlite");
    assert_string_equal(r.err, "");
    assert_golden("list-workbook", r.out);
    ran_free(&r);
    json_t *again = run_json("import straps.xlsx#Straps --keep-good --json --bench w.sqlite");
    assert_string_equal(json_string_value(json_object_get(again, "sheet")), "Straps");
    assert_int_equal((int)number(again, "sheets"), 2);
    assert_int_equal((int)number(again, "parts_same"), 1);
    json_decref(again);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_messy_list_goes_in_with_one_map_and_each_refused_row_explained),
        cmocka_unit_test(a_list_that_is_refused_leaves_no_bench_behind),
        cmocka_unit_test(what_differs_is_said_before_it_is_done),
        cmocka_unit_test(a_list_as_json_has_the_same_in_keys),
        cmocka_unit_test(a_note_that_was_asked_for_is_shown_with_its_part),
        cmocka_unit_test(a_file_is_told_by_its_ending_or_by_what_is_in_it),
        cmocka_unit_test(a_model_alone_becomes_a_part_of_its_shape),
        cmocka_unit_test(a_drawing_alone_becomes_a_plate_of_its_outline),
        cmocka_unit_test(a_sheet_of_a_workbook_is_a_list),
    };
    return cmocka_run_group_tests(tests, enter_home, leave_home);
}
