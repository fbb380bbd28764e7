/* rooms: store craft physics base */
/* Models, drawings and tables of propellers alone into the bench with every key (tests/data): what each becomes
 * in its text, what is said of it, or the line that refuses it, word for word. */
#include <stdio.h>
#include <string.h>

#include "store_works.h"

typedef struct file_case {
    const char *name, *content; /* NULL: it is not there, or one of tests/data */
    const char *answer;
    bool propeller;
    pare_drawing_import drawing;
    pare_propeller_import table;
} file_case;

static void add_without_folder(const char *said, const char *folder, pare_text *answer)
{
    const size_t length = strlen(folder) + 1;
    for (const char *at; (at = strstr(said, folder)) != NULL; said = at + length)
        pare_text_printf(answer, "%.*s", (int)(at - said), said);
    pare_text_add(answer, said);
}

/* The lines that the bench has more. */
static void say_new(const char *before, const char *after, pare_text *answer)
{
    pare_text line = {0};
    for (const char *at = strchr(after, '\n') + 1; *at;) {
        const int length = (int)strcspn(at, "\n");
        line.length = 0;
        pare_text_printf(&line, "\n%.*s\n", length, at);
        if (!strstr(before, line.bytes))
            pare_text_printf(answer, "\n%.*s", length, at);
        at += length + (at[length] != '\0');
    }
    pare_text_free(&line);
}

static pare_status take_drawing(pare_store *store, const file_case *one, const char *path,
                                pare_arena *arena, pare_text *answer, pare_error *err)
{
    pare_drawing_import import = one->drawing;
    pare_drawing_taken taken = {0};
    import.path = path;
    import.change.what = "test";
    const pare_status status = pare_store_import_drawing(store, &import, arena, &taken, err);
    if (status != PARE_OK)
        return status;
    pare_text_printf(answer, "%s: %.4g x %.4g x %.4g mm, %.4g cm2, %.4g cm3%s; %s", taken.file,
                     1e3 * taken.size_m[0], 1e3 * taken.size_m[1], 1e3 * taken.size_m[2],
                     1e4 * taken.area_m2, 1e6 * taken.volume_m3,
                     taken.estimated ? ", estimated" : "", taken.body);
    for (size_t i = 0; i < taken.parts; i++)
        pare_text_printf(answer, "; %s, a %s of %.4g g%s", taken.part[i].id, taken.part[i].kind,
                         1e3 * taken.part[i].mass_kg, taken.part[i].computed ? ", computed" : "");
    for (size_t i = 0; i < taken.warnings; i++)
        pare_text_printf(answer, "; warning: %s", taken.warning[i]);
    return status;
}

static pare_status take_table(pare_store *store, const file_case *one, const char *path,
                              pare_arena *arena, pare_text *answer, pare_error *err)
{
    pare_propeller_import import = one->table;
    pare_propeller_summary summary = {0};
    import.files = 1;
    import.path = &path;
    import.change.what = "test";
    const pare_status status = pare_store_import_propeller(store, &import, arena, &summary, err);
    if (status == PARE_OK)
        pare_text_printf(answer, "%zu stations, %zu points, %zu of them new%s", summary.stations,
                         summary.points, summary.points_added,
                         summary.changed ? "" : ", as it was");
    return status;
}

static void say(const store_fixture *f, const file_case *one, pare_text *answer)
{
    char path[400];
    pare_error err = {0};
    pare_text said = {0};
    pare_arena *arena = pare_arena_open();
    const long long newest = store_newest(f->store);
    char *before = store_text(f->store);
    const bool ours = strncmp(one->name, "every-key", 9) == 0;
    snprintf(path, sizeof path, "%s/%s", ours ? PARE_SOURCE_DIR "/tests/data" : f->folder,
             one->name);
    if (one->content) {
        FILE *file = fopen(path, "wb");
        assert_non_null(file);
        assert_int_equal(fwrite(one->content, 1, strlen(one->content), file), strlen(one->content));
        assert_int_equal(fclose(file), 0);
    }
    const pare_status status = one->propeller
                                   ? take_table(f->store, one, path, arena, &said, &err)
                                   : take_drawing(f->store, one, path, arena, &said, &err);
    if (status == PARE_OK) {
        char *after = store_text(f->store);
        say_new(before, after, &said);
        free(after);
    } else {
        pare_text_add(&said, err.text);
    }
    add_without_folder(said.bytes, f->folder, answer);
    pare_text_free(&said);
    free(before);
    pare_arena_close(arena);
    if (one->content)
        unlink(path);
    if (store_newest(f->store) != newest && store_turn(f->store, true, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static void expect(void **state, size_t count, const file_case cases[])
{
    fill(state);
    for (size_t i = 0; i < count; i++) {
        pare_text text = {0};
        say(*state, &cases[i], &text);
        const char *answer = text.bytes;

        if (strcmp(answer, cases[i].answer) != 0)
            fail_msg("case %zu, %s, says\n%s\nand not\n%s", i, cases[i].name, answer,
                     cases[i].answer);
        pare_text_free(&text);
    }
}
#define EXPECT(cases) expect(state, sizeof(cases) / sizeof *(cases), cases)

static const char SVG[] = "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' "
                          "viewBox='0 0 100 100'><rect width='40' height='30'/></svg>";
static const char STL[] =
    "solid t\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 20 0\nvertex 20 0 "
    "0\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 20 0 0\nvertex 0 0 "
    "20\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 0 20\nvertex 0 "
    "20 0\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 20 0 0\nvertex 0 20 0\nvertex "
    "0 0 20\nendloop\nendfacet\nendsolid t\n";

static void a_model_or_drawing_alone_becomes_a_part(void **state)
{
    static const file_case cases[] = {
        {.name = "p.svg",
         .content = SVG,
         .answer =
             "p.svg: 40 x 30 x 0 mm, 12 cm2, 0 cm3; {plate: plate, outline: p.svg, thick: 2 mm, "
             "density: 1.6 g/cm3}; p, a other of 3.84 g, computed; warning: p.svg: the "
             "drawing's origin, which comes to the plate's place, lies outside the outline, whose "
             "middle is at (20, -15) mm; origin: middle would bring that there\n- {id: p, kind: "
             "other, body: {plate: plate, outline: p.svg, thick: 2 mm, density: 1.6 g/cm3}}",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: a plate of 12 cm2, but how thick? right would be like --set thick=2mm",
         .drawing = {.outline = true}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: a plate; unit, wall and infill are for prints",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .unit = "mm"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: a plate; unit, wall and infill are for prints",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .wall = "1 mm"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: a plate; unit, wall and infill are for prints",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .infill = "20 %"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: origin cannot be '[5 mm, 5 mm]'; right would be one of drawing, middle",
         .drawing =
             {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .origin = "[5 mm, 5 mm]"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: 40 x 30 x 0 mm, 12 cm2, 0 cm3; {plate: plate, outline: p.svg, thick: 2 "
                   "mm, origin: middle, density: 1.6 g/cm3}; p, a other of 3.84 g, computed\n- id: "
                   "p\n  kind: other\n  body: {plate: plate, outline: p.svg, thick: 2 mm, origin: "
                   "middle, density: 1.6 g/cm3}",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .origin = "middle"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: part 'plate-1': wheelbase is missing: a frame needs it, or its arms in "
                   "body, or the propeller that it fits",
         .drawing = {.outline = true,
                     .thick = "2 mm",
                     .density = "1.6 g/cm3",
                     .id = "plate-1",
                     .kind = "frame",
                     .maker = "Quill",
                     .mass = "3 g"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: 40 x 30 x 0 mm, 12 cm2, 0 cm3; {plate: plate, outline: p.svg, thick: 2 "
                   "mm, density: 1.6 g/cm3}; plate-1, a holder of 3 g; warning: p.svg: the "
                   "drawing's origin, which comes to the plate's place, lies outside the outline, "
                   "whose middle is at (20, -15) mm; origin: middle would bring that there\n- id: "
                   "plate-1\n  kind: holder\n  maker: Quill\n  mass: 3 g\n  body: {plate: plate, "
                   "outline: p.svg, thick: 2 mm, density: 1.6 g/cm3}",
         .drawing = {.outline = true,
                     .thick = "2 mm",
                     .density = "1.6 g/cm3",
                     .id = "plate-1",
                     .kind = "holder",
                     .maker = "Quill",
                     .mass = "3 g"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "no kind of part is called 'zebra'; right would be one like printed, frame, "
                   "holder, other",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .kind = "zebra"}},
        {.name = "p.svg",
         .content = SVG,
         .answer =
             "p.svg: id 'a b' is no name; right are letters, digits, '-', '.' and '_', 48 at most",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .id = "a b"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "part 'fr-w' is there already, with another shape; right would be another --set "
                   "id=NAME",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .id = "fr-w"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: thick: thin does not start with one plain number: a length needs mm, "
                   "cm, m, in or ft",
         .drawing = {.outline = true, .thick = "thin"}},
        {.name = "p.svg",
         .content = SVG,
         .answer =
             "p.svg: 40 x 30 x 0 mm, 12 cm2, 0 cm3; {plate: plate, outline: p.svg, thick: 2 mm, "
             "material: carbon}; p, a other of 3.84 g, computed; warning: p.svg: the "
             "drawing's origin, which comes to the plate's place, lies outside the outline, whose "
             "middle is at (20, -15) mm; origin: middle would bring that there\n- {id: p, kind: "
             "other, body: {plate: plate, outline: p.svg, thick: 2 mm, material: carbon}}",
         .drawing = {.outline = true, .thick = "2 mm", .material = "carbon"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: material cannot be 'cheese'; right would be one of carbon, aluminium, "
                   "steel, stainless, titanium, brass, nylon, glass, tpu, pla, petg, abs, foam, "
                   "wood, rubber, lexan",
         .drawing = {.outline = true, .thick = "2 mm", .material = "cheese"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: 40 x 30 x 0 mm, 12 cm2, 0 cm3; {plate: plate, outline: p.svg, thick: 2 "
                   "mm}; p, a other of 3.84 g, computed; warning: p.svg: the drawing's "
                   "origin, which comes to the plate's place, lies outside the outline, whose "
                   "middle is at (20, -15) mm; origin: middle would bring that there\n- {id: p, "
                   "kind: other, body: {plate: plate, outline: p.svg, thick: 2 mm}}",
         .drawing = {.outline = true, .thick = "2 mm"}},
        {.name = "p.svg",
         .content = SVG,
         .answer = "p.svg: mass: heavy does not start with one plain number: a mass needs g, kg, "
                   "oz or lb",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .mass = "heavy"}},
        {.name = "p.svg",
         .content = SVG,
         .answer =
             "p.svg: 40 x 30 x 0 mm, 12 cm2, 0 cm3; {plate: plate, outline: p.svg, thick: 2 mm, "
             "density: 1.6 g/cm3}; p, a other of 3.84 g, computed; warning: p.svg: the "
             "drawing's origin, which comes to the plate's place, lies outside the outline, whose "
             "middle is at (20, -15) mm; origin: middle would bring that there",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3", .dry_run = true}},
        {.name = "p.svg",
         .content = "<svg xmlns='http://www.w3.org/2000/svg'/>",
         .answer = "p.svg: no outline in it; right would be closed lines",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3"}},
        {.name = "p.dxf",
         .content = "0\nEOF\n",
         .answer = "p.dxf: no outline in it; right would be closed lines",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3"}},
        {.name = "none.svg",
         .content = NULL,
         .answer = "none.svg: no such file",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3"}},
        {.name = "plate without end",
         .content = SVG,
         .answer = "plate without end: no kind of drawing that is known; right would be an outline "
                   "in a .dxf or .svg file",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3"}},
        {.name = ".svg",
         .content = SVG,
         .answer = ".svg: id is empty; give it a value or leave it out",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3"}},
        {.name = "a very very long name of a plate of a frame of a craft of a club of a town.svg",
         .content = SVG,
         .answer =
             "a very very long name of a plate of a frame of a craft of a club of a town.svg: 40 x "
             "30 x 0 mm, 12 cm2, 0 cm3; plate: plate\noutline: a very very long name of a plate of "
             "a frame of a craft of a club of a town.svg\nthick: 2 mm\ndensity: 1.6 g/cm3; "
             "a-very-very-long-name-of-a-plate-of-a-frame, a other of 3.84 g, computed; warning: a "
             "very very long name of a plate of a frame of a craft of a club of a town.svg: "
             "the drawing's origin, which comes to the plate's place, lies outside the outline, "
             "whose middle is at (20, -15) mm; origin: middle would bring that there\n- id: "
             "a-very-very-long-name-of-a-plate-of-a-frame\n  kind: other\n    plate: plate\n    "
             "outline: a very very long name of a plate of a frame of a craft of a club of a "
             "town.svg\n    thick: 2 mm\n    density: 1.6 g/cm3",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3"}},
        {.name = "no dot",
         .content = SVG,
         .answer = "no dot: no kind of drawing that is known; right would be an outline in a .dxf "
                   "or .svg file",
         .drawing = {.outline = true, .thick = "2 mm", .density = "1.6 g/cm3"}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: 20 x 20 x 20 mm, 0 cm2, 1.333 cm3; {mesh: t.stl, unit: mm, density: 1.2 "
                   "g/cm3}; t, a printed of 1.41 g, computed\n- {id: t, kind: printed, body: "
                   "{mesh: t.stl, unit: mm, density: 1.2 g/cm3}}",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: 20 x 20 x 20 mm, 0 cm2, 1.333 cm3; {mesh: t.stl}; t, a printed of 1.422 "
                   "g, computed\n- {id: t, kind: printed, body: {mesh: t.stl}}",
         .drawing = {.outline = false}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: a solid; thick and origin are for outlines",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3", .thick = "2 mm"}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: a solid; thick and origin are for outlines",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3", .origin = "middle"}},
        {.name = "t.stl",
         .content = STL,
         .answer =
             "t.stl: 20 x 20 x 20 mm, 0 cm2, 1.333 cm3; {mesh: t.stl, unit: mm, wall: 1 mm, "
             "infill: 30 %, density: 1.2 g/cm3}; t, a printed of 1.275 g, computed\n- id: t\n  "
             "body: {mesh: t.stl, unit: mm, wall: 1 mm, infill: 30 %, density: 1.2 g/cm3}",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3", .wall = "1 mm", .infill = "30 %"}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: 20 x 20 x 20 mm, 0 cm2, 1.333 cm3; {mesh: t.stl, unit: mm, wall: 1 mm, "
                   "density: 1.2 g/cm3}; t, a printed of 1.229 g, computed\n- {id: t, kind: "
                   "printed, body: {mesh: t.stl, unit: mm, wall: 1 mm, density: 1.2 g/cm3}}",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3", .wall = "1 mm"}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: 20 x 20 x 20 mm, 0 cm2, 1.333 cm3; {mesh: t.stl, unit: mm, infill: 30 "
                   "%, density: 1.2 g/cm3}; t, a printed of 1.434 g, computed\n- {id: t, kind: "
                   "printed, body: {mesh: t.stl, unit: mm, infill: 30 %, density: 1.2 g/cm3}}",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3", .infill = "30 %"}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: infill of 300 %; right would be 0 % to 100 %",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3", .infill = "300 %"}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: unit cannot be 'parsec'; right would be one of mm, cm, m, in",
         .drawing = {.unit = "parsec", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: 508 x 508 x 508 mm, 0 cm2, 2.185e+04 cm3; {mesh: t.stl, unit: in, "
                   "density: 1.2 g/cm3}; t, a printed of 5947 g, computed\n- {id: t, kind: "
                   "printed, body: {mesh: t.stl, unit: in, density: 1.2 g/cm3}}",
         .drawing = {.unit = "in", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content = STL,
         .answer = "t.stl: part 't': mass comes out as 3.2109e+08 g, must be 0.001 .. 25000 g: "
                   "check the sizes, or say it",
         .drawing = {.unit = "m", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content =
             "solid t\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 20 0\nvertex 20 0 "
             "0\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 20 0 "
             "0\nvertex 0 0 20\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 0 0 "
             "0\nvertex 0 0 20\nvertex 0 20 0\nendloop\nendfacet\nendsolid t\n",
         .answer =
             "t.stl: 20 x 20 x 20 mm, 0 cm2, 1.333 cm3, estimated; {mesh: t.stl, unit: mm, "
             "density: 1.2 g/cm3}; t, a printed of 1.011 g, computed; warning: t.stl: mesh "
             "t.stl is open (3 open edges); its convex hull stands in for it, estimated\n- {id: t, "
             "kind: printed, body: {mesh: t.stl, unit: mm, density: 1.2 g/cm3}}",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content = "",
         .answer = "t.stl: not an STL file: 0 bytes, where text begins with 'solid' and a binary "
                   "file has at least 84",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content = "solid t\nendsolid t\n",
         .answer = "t.stl: no triangles in it",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content = "cheese",
         .answer = "t.stl: not an STL file: 6 bytes, where text begins with 'solid' and a binary "
                   "file has at least 84",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content = "solid t\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 20 0\nvertex "
                    "20 0 0\nendloop\nendfacet\nfacet normal 0 0 0\nouter",
         .answer = "t.stl:10:6: the file ends where 'outer loop' is due; it was cut short",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content =
             "solid t\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 20 0\nvertex x 0 "
             "0\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex x 0 "
             "0\nvertex 0 0 20\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 0 0 "
             "0\nvertex 0 0 20\nvertex 0 20 0\nendloop\nendfacet\nfacet normal 0 0 0\nouter "
             "loop\nvertex x 0 0\nvertex 0 20 0\nvertex 0 0 20\nendloop\nendfacet\nendsolid t\n",
         .answer = "t.stl:6:8: 'x' where a number is due",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content =
             "solid t\nfacet normal 0 0 0\nouter loop\nvortex 0 0 0\nvertex 0 20 0\nvertex 20 0 "
             "0\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 20 0 "
             "0\nvertex 0 0 20\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 0 0 "
             "0\nvertex 0 0 20\nvertex 0 20 0\nendloop\nendfacet\nfacet normal 0 0 0\nouter "
             "loop\nvertex 20 0 0\nvertex 0 20 0\nvertex 0 0 20\nendloop\nendfacet\nendsolid t\n",
         .answer = "t.stl:4:1: 'vortex' where 'vertex' is due",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.stl",
         .content = "solid t\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 1e9 0\nvertex "
                    "1e9 0 0\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 0 0 "
                    "0\nvertex 1e9 0 0\nvertex 0 0 1e9\nendloop\nendfacet\nfacet normal 0 0 "
                    "0\nouter loop\nvertex 0 0 0\nvertex 0 0 1e9\nvertex 0 1e9 "
                    "0\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\nvertex 1e9 0 0\nvertex "
                    "0 1e9 0\nvertex 0 0 1e9\nendloop\nendfacet\nendsolid t\n",
         .answer = "t.stl: part 't': mass comes out as 4e+22 g, must be 0.001 .. 25000 g: check "
                   "the sizes, or say it",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.3mf",
         .content = "cheese",
         .answer = "t.3mf: unit beside a 3MF file, which states its own; right would be no unit",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "t.obj",
         .content = "cheese",
         .answer = "t.obj: not an STL file: 6 bytes, where text begins with 'solid' and a binary "
                   "file has at least 84",
         .drawing = {.unit = "mm", .density = "1.2 g/cm3"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.id = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.kind = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.maker = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.mass = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.thick = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.origin = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.unit = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.wall = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.infill = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.density = "x"}},
        {.name = "every-key-cube.stl",
         .content = NULL,
         .answer = "every-key-cube.stl is the shape of part 'cu-w' already; right would be the "
                   "file alone, to take it in anew",
         .drawing = {.material = "x"}},
    };
    EXPECT(cases);
}

static void tables_of_a_propeller_are_read_or_refused(void **state)
{
    static const file_case cases[] = {
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 0.141 31.67\n0.50 0.217 23.58\n1.00 0.050 11.00\n",
         .answer = "3 stations, 3 points, 0 of them new\n  blade: [[0.15, 0.141, 31.67], [0.5, "
                   "0.217, 23.58], [1, 0.05, 11]]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "\xEF\xBB\xBF# a blade\n\nr/R c/R beta\n0.15 0.141 31.67\n0.50 0.217 "
                    "23.58\n1.00 0.050 11.00\n",
         .answer = "3 stations, 3 points, 0 of them new\n  blade: [[0.15, 0.141, 31.67], [0.5, "
                   "0.217, 23.58], [1, 0.05, 11]]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "R/r c/R beta\n0.15 0.141 31.67\n0.50 0.217 23.58\n1.00 0.050 11.00\n",
         .answer = "3 stations, 3 points, 0 of them new\n  blade: [[0.15, 0.141, 31.67], [0.5, "
                   "0.217, 23.58], [1, 0.05, 11]]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\r\n0.15 0.141 31.67\r\n0.50 0.217 23.58\r\n1.00 0.050 11.00\r\n",
         .answer = "3 stations, 3 points, 0 of them new\n  blade: [[0.15, 0.141, 31.67], [0.5, "
                   "0.217, 23.58], [1, 0.05, 11]]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 x 31.67\n0.50 0.217 23.58\n1.00 0.050 11.00\n",
         .answer = "b.txt:2:6: x does not start with one plain number: a number needs no unit",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15  31.67\n0.50 0.217 23.58\n1.00 0.050 11.00\n",
         .answer = "b.txt:2: 2 numbers; right would be 3",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n-0.1 0.141 31.67\n0.50 0.217 23.58\n1.00 0.050 11.00\n",
         .answer = "b.txt:2: r/R of -0.1; right would rise within 0 to 1",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n1.5 0.141 31.67\n0.50 0.217 23.58\n1.00 0.050 11.00\n",
         .answer = "b.txt:2: r/R of 1.5; right would rise within 0 to 1",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 0.141 31.67\n0.50 0 23.58\n1.00 0.050 11.00\n",
         .answer = "b.txt:3: c/R of 0; right would be above 0, to 1",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 0.141 31.67\n0.50 nan 23.58\n1.00 0.050 11.00\n",
         .answer = "b.txt:3:6: nan does not start with one plain number: a number needs no unit",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 0.141 31.67\n0.10 0.217 23.58\n1.00 0.050 11.00\n",
         .answer = "b.txt:3: r/R of 0.1; right would rise within 0 to 1",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 0.141 31.67\n0.50 0.217 23.58\n0.70 0.050 11.00\n",
         .answer = "b.txt: a blade that ends at r/R 0.7; right would be its tip, 1",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 0.141 31.67\n",
         .answer = "b.txt: 1 row; right would be two or more",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n",
         .answer = "b.txt: 0 rows; right would be two or more",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "",
         .answer = "b.txt: no table of a propeller; right would be columns r/R c/R beta, or RPM CT "
                   "CP, or J CT CP eta",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "# only words\n",
         .answer = "b.txt: no table of a propeller; right would be columns r/R c/R beta, or RPM CT "
                   "CP, or J CT CP eta",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content =
             "r/R c/R beta\n0.15 0.141 31.67\n0.50 0.217 23.58\n1.00 0.050 11.00\n0.9 0.1 12\n",
         .answer = "b.txt:5: r/R of 0.9; right would rise within 0 to 1",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content =
             "r/R c/R beta\n0.1000 0.1 12\n0.1045 0.1 12\n0.1090 0.1 12\n0.1135 0.1 12\n0.1180 0.1 "
             "12\n0.1225 0.1 12\n0.1270 0.1 12\n0.1315 0.1 12\n0.1360 0.1 12\n0.1405 0.1 "
             "12\n0.1450 0.1 12\n0.1495 0.1 12\n0.1540 0.1 12\n0.1585 0.1 12\n0.1630 0.1 "
             "12\n0.1675 0.1 12\n0.1720 0.1 12\n0.1765 0.1 12\n0.1810 0.1 12\n0.1855 0.1 "
             "12\n0.1900 0.1 12\n0.1945 0.1 12\n0.1990 0.1 12\n0.2035 0.1 12\n0.2080 0.1 "
             "12\n0.2125 0.1 12\n0.2170 0.1 12\n0.2215 0.1 12\n0.2260 0.1 12\n0.2305 0.1 "
             "12\n0.2350 0.1 12\n0.2395 0.1 12\n0.2440 0.1 12\n0.2485 0.1 12\n0.2530 0.1 "
             "12\n0.2575 0.1 12\n0.2620 0.1 12\n0.2665 0.1 12\n0.2710 0.1 12\n0.2755 0.1 "
             "12\n0.2800 0.1 12\n0.2845 0.1 12\n0.2890 0.1 12\n0.2935 0.1 12\n0.2980 0.1 "
             "12\n0.3025 0.1 12\n0.3070 0.1 12\n0.3115 0.1 12\n0.3160 0.1 12\n0.3205 0.1 "
             "12\n0.3250 0.1 12\n0.3295 0.1 12\n0.3340 0.1 12\n0.3385 0.1 12\n0.3430 0.1 "
             "12\n0.3475 0.1 12\n0.3520 0.1 12\n0.3565 0.1 12\n0.3610 0.1 12\n0.3655 0.1 "
             "12\n0.3700 0.1 12\n0.3745 0.1 12\n0.3790 0.1 12\n0.3835 0.1 12\n0.3880 0.1 "
             "12\n0.3925 0.1 12\n0.3970 0.1 12\n0.4015 0.1 12\n0.4060 0.1 12\n0.4105 0.1 "
             "12\n0.4150 0.1 12\n0.4195 0.1 12\n0.4240 0.1 12\n0.4285 0.1 12\n0.4330 0.1 "
             "12\n0.4375 0.1 12\n0.4420 0.1 12\n0.4465 0.1 12\n0.4510 0.1 12\n0.4555 0.1 "
             "12\n0.4600 0.1 12\n0.4645 0.1 12\n0.4690 0.1 12\n0.4735 0.1 12\n0.4780 0.1 "
             "12\n0.4825 0.1 12\n0.4870 0.1 12\n0.4915 0.1 12\n0.4960 0.1 12\n0.5005 0.1 "
             "12\n0.5050 0.1 12\n0.5095 0.1 12\n0.5140 0.1 12\n0.5185 0.1 12\n0.5230 0.1 "
             "12\n0.5275 0.1 12\n0.5320 0.1 12\n0.5365 0.1 12\n0.5410 0.1 12\n0.5455 0.1 "
             "12\n0.5500 0.1 12\n0.5545 0.1 12\n0.5590 0.1 12\n0.5635 0.1 12\n0.5680 0.1 "
             "12\n0.5725 0.1 12\n0.5770 0.1 12\n0.5815 0.1 12\n0.5860 0.1 12\n0.5905 0.1 "
             "12\n0.5950 0.1 12\n0.5995 0.1 12\n0.6040 0.1 12\n0.6085 0.1 12\n0.6130 0.1 "
             "12\n0.6175 0.1 12\n0.6220 0.1 12\n0.6265 0.1 12\n0.6310 0.1 12\n0.6355 0.1 "
             "12\n0.6400 0.1 12\n0.6445 0.1 12\n0.6490 0.1 12\n0.6535 0.1 12\n0.6580 0.1 "
             "12\n0.6625 0.1 12\n0.6670 0.1 12\n0.6715 0.1 12\n0.6760 0.1 12\n0.6805 0.1 "
             "12\n0.6850 0.1 12\n0.6895 0.1 12\n0.6940 0.1 12\n0.6985 0.1 12\n0.7030 0.1 "
             "12\n0.7075 0.1 12\n0.7120 0.1 12\n0.7165 0.1 12\n0.7210 0.1 12\n0.7255 0.1 "
             "12\n0.7300 0.1 12\n0.7345 0.1 12\n0.7390 0.1 12\n0.7435 0.1 12\n0.7480 0.1 "
             "12\n0.7525 0.1 12\n0.7570 0.1 12\n0.7615 0.1 12\n0.7660 0.1 12\n0.7705 0.1 "
             "12\n0.7750 0.1 12\n0.7795 0.1 12\n0.7840 0.1 12\n0.7885 0.1 12\n0.7930 0.1 "
             "12\n0.7975 0.1 12\n0.8020 0.1 12\n0.8065 0.1 12\n0.8110 0.1 12\n0.8155 0.1 "
             "12\n0.8200 0.1 12\n0.8245 0.1 12\n0.8290 0.1 12\n0.8335 0.1 12\n0.8380 0.1 "
             "12\n0.8425 0.1 12\n0.8470 0.1 12\n0.8515 0.1 12\n0.8560 0.1 12\n0.8605 0.1 "
             "12\n0.8650 0.1 12\n0.8695 0.1 12\n0.8740 0.1 12\n0.8785 0.1 12\n0.8830 0.1 "
             "12\n0.8875 0.1 12\n0.8920 0.1 12\n0.8965 0.1 12\n0.9010 0.1 12\n0.9055 0.1 "
             "12\n0.9100 0.1 12\n0.9145 0.1 12\n0.9190 0.1 12\n0.9235 0.1 12\n0.9280 0.1 "
             "12\n0.9325 0.1 12\n0.9370 0.1 12\n0.9415 0.1 12\n0.9460 0.1 12\n0.9505 0.1 "
             "12\n0.9550 0.1 12\n0.9595 0.1 12\n0.9640 0.1 12\n0.9685 0.1 12\n0.9730 0.1 "
             "12\n0.9775 0.1 12\n0.9820 0.1 12\n0.9865 0.1 12\n0.9910 0.1 12\n0.9955 0.1 12\n",
         .answer = "b.txt:34: more than 32 blade stations; right would be fewer",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 0.141 31.67\n0.50 0.217 23.58 9\n1.00 0.050 11.00\n",
         .answer = "b.txt:3: 4 numbers; right would be 3",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 0.141 "
                    "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
                    "wwwwwwwwwwww\n0.50 0.217 23.58\n1.00 0.050 11.00\n",
         .answer = "b.txt:2:12: wwwwwwwwwwwwwwwwwwwwwwwwwwwwwww does not start with one plain "
                   "number: a number needs no unit",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "b.txt",
         .content = "r/R c/R beta\n0.15 0.141 31.67\n0.50 0.217 99\n1.00 0.050 11.00\n",
         .answer = "b.txt:3: beta of 99; right would be -90 to 90 degrees",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "r.txt",
         .content = "RPM CT CP\n4000 0.14 0.086\n5000 0.141 0.0861\n",
         .answer = "3 stations, 5 points, 2 of them new\n  tunnel:\n  - [0, 4000, 0.11, 0.05]\n  - "
                   "[0, 4000, 0.14, 0.086]\n  - [0, 5000, 0.141, 0.0861]\n  - [0.2, 5000, 0.1, "
                   "0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "r.txt",
         .content = "RPM CT CP\n40 0.14 0.086\n5000 0.141 0.0861\n",
         .answer = "3 stations, 5 points, 2 of them new\n  tunnel:\n  - [0, 40, 0.14, 0.086]\n  - "
                   "[0, 4000, 0.11, 0.05]\n  - [0, 5000, 0.141, 0.0861]\n  - [0.2, 5000, 0.1, "
                   "0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "r.txt",
         .content = "RPM CT CP\n4000 -0.14 0.086\n5000 0.141 0.0861\n",
         .answer = "r.txt:2: a CT of -0.14 at rest: its sign is reversed; right would be above 0",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "r.txt",
         .content = "RPM CT CP\n4000 0.14 9\n5000 0.141 0.0861\n",
         .answer = "r.txt:2: a CP of 9; right would be -1 to 1",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "r.txt",
         .content = "RPM CT CP\n4000 0.14 0.086\n5000 0.141 0.0861\n4000 0.2 0.086\n",
         .answer = "3 stations, 6 points, 3 of them new\n  tunnel:\n  - [0, 4000, 0.11, 0.05]\n  - "
                   "[0, 4000, 0.14, 0.086]\n  - [0, 4000, 0.2, 0.086]\n  - [0, 5000, 0.141, "
                   "0.0861]\n  - [0.2, 5000, 0.1, 0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "r.txt",
         .content = "RPM CT CP\n4000 0.14 0.086\n5000 0.141 0.0861\n4000 0.14 0.1\n",
         .answer = "3 stations, 6 points, 3 of them new\n  tunnel:\n  - [0, 4000, 0.11, 0.05]\n  - "
                   "[0, 4000, 0.14, 0.086]\n  - [0, 4000, 0.14, 0.1]\n  - [0, 5000, 0.141, "
                   "0.0861]\n  - [0.2, 5000, 0.1, 0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "r.txt",
         .content = "RPM CT CP\n4000 0.14 0.086\n5000 0.141 0.0861\n4000 0.14 0.086\n",
         .answer = "3 stations, 5 points, 2 of them new\n  tunnel:\n  - [0, 4000, 0.11, 0.05]\n  - "
                   "[0, 4000, 0.14, 0.086]\n  - [0, 5000, 0.141, 0.0861]\n  - [0.2, 5000, 0.1, "
                   "0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_4000.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "3 stations, 5 points, 2 of them new\n  tunnel:\n  - [0, 4000, 0.11, 0.05]\n  - "
                   "[0.162, 4000, 0.125, 0.084]\n  - [0.36, 4000, 0.095, 0.075]\n  - [0.2, 5000, "
                   "0.1, 0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_4000",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "3 stations, 5 points, 2 of them new\n  tunnel:\n  - [0, 4000, 0.11, 0.05]\n  - "
                   "[0.162, 4000, 0.125, 0.084]\n  - [0.36, 4000, 0.095, 0.075]\n  - [0.2, 5000, "
                   "0.1, 0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "j.txt: at which rpm did it run? right would be a name like prop_9x6_4000.txt, "
                   "or --set speed=4000rpm",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_40.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "j_40.txt: at which rpm did it run? right would be a name like "
                   "prop_9x6_4000.txt, or --set speed=4000rpm",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_400000.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "j_400000.txt: at which rpm did it run? right would be a name like "
                   "prop_9x6_4000.txt, or --set speed=4000rpm",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_4000x.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "j_4000x.txt: at which rpm did it run? right would be a name like "
                   "prop_9x6_4000.txt, or --set speed=4000rpm",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_x.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "j_x.txt: at which rpm did it run? right would be a name like "
                   "prop_9x6_4000.txt, or --set speed=4000rpm",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "3 stations, 5 points, 2 of them new\n  tunnel:\n  - [0, 4000, 0.11, 0.05]\n  - "
                   "[0.162, 4000, 0.125, 0.084]\n  - [0.36, 4000, 0.095, 0.075]\n  - [0.2, 5000, "
                   "0.1, 0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t", .speed = "4000 rpm"}},
        {.name = "j.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "--set speed: fast does not start with one plain number: a speed of rotation "
                   "needs rpm, rad/s or a bare number of rpm",
         .propeller = true,
         .table = {.propeller = "pr-t", .speed = "fast"}},
        {.name = "j_4000.txt",
         .content = "J CT CP \n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "3 stations, 5 points, 2 of them new\n  tunnel:\n  - [0, 4000, 0.11, 0.05]\n  - "
                   "[0.162, 4000, 0.125, 0.084]\n  - [0.36, 4000, 0.095, 0.075]\n  - [0.2, 5000, "
                   "0.1, 0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_4000.txt",
         .content = "J CT CP eta x\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "j_4000.txt: no table of a propeller; right would be columns r/R c/R beta, or "
                   "RPM CT CP, or J CT CP eta",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_4000.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n-1 0.0950 0.0750 0.456\n",
         .answer = "j_4000.txt:3: an advance J of -1; right would be 0 to 4",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_4000.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n9 0.0950 0.0750 0.456\n",
         .answer = "j_4000.txt:3: an advance J of 9; right would be 0 to 4",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_4000.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750\n",
         .answer = "3 stations, 5 points, 2 of them new\n  tunnel:\n  - [0, 4000, 0.11, 0.05]\n  - "
                   "[0.162, 4000, 0.125, 0.084]\n  - [0.36, 4000, 0.095, 0.075]\n  - [0.2, 5000, "
                   "0.1, 0.05]\n  - [0.35, 5000, 0.08, 0.045]",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
        {.name = "j_4000.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "'mo-w' is a part of kind motor; right would be a propeller",
         .propeller = true,
         .table = {.propeller = "mo-w"}},
        {.name = "j_4000.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "no part 'nobody'; pare parts lists them",
         .propeller = true,
         .table = {.propeller = "nobody"}},
        {.name = "j_4000.txt",
         .content = "J CT CP eta\n0.162 0.1250 0.0840 0.241\n0.360 0.0950 0.0750 0.456\n",
         .answer = "3 stations, 5 points, 2 of them new, as it was",
         .propeller = true,
         .table = {.propeller = "pr-t", .dry_run = true}},
        {.name = "none.txt",
         .content = NULL,
         .answer = "none.txt: cannot be read (No such file or directory)",
         .propeller = true,
         .table = {.propeller = "pr-t"}},
    };
    EXPECT(cases);
}

#define WITH_BENCH(test) cmocka_unit_test_setup_teardown(test, store_setup, store_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_BENCH(a_model_or_drawing_alone_becomes_a_part),
        WITH_BENCH(tables_of_a_propeller_are_read_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
