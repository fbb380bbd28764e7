/* rooms: store craft physics base */
/* One place of the bench with every key (tests/data) said otherwise: what the bench then has anew, or the line
 * that refuses it, word for word, with the place that is meant. The plate in line 15 says each time that its
 * drawing is not there. */
#include "store_works.h"

typedef struct said_otherwise {
    const char *there, *other, *answer;
} said_otherwise;

static char *bench_with(const said_otherwise *one)
{
    static char bytes[1 << 15];
    pare_text text = {0};
    FILE *file = fopen(PARE_SOURCE_DIR "/tests/data/every-key.yaml", "rb");
    assert_non_null(file);
    bytes[fread(bytes, 1, sizeof bytes - 1, file)] = '\0';
    assert_int_equal(fclose(file), 0);
    const char *at = strstr(bytes, one->there);
    if (!at)
        fail_msg("nowhere: %s", one->there);
    pare_text_printf(&text, "%.*s%s%s", (int)(at - bytes), bytes, one->other,
                     at + strlen(one->there));
    assert_false(text.failed);
    return text.bytes;
}

static void say(pare_store *store, const said_otherwise *one, pare_text *answer)
{
    pare_error err = {0};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    char *text = bench_with(one);
    const pare_import import = {.bytes = text,
                                .length = strlen(text),
                                .name = "b",
                                .folder = PARE_SOURCE_DIR "/tests/data",
                                .dry_run = true};
    if (pare_store_import_yaml(store, &import, arena, &summary, &err) == PARE_OK) {
        pare_text_printf(answer, "taken: %zu parts, %zu craft and %zu records otherwise",
                         summary.parts_added + summary.parts_replaced,
                         summary.craft_added + summary.craft_replaced, summary.records_added);
        for (size_t i = 0; i < summary.warnings; i++)
            if (strncmp(summary.warning[i], "b:15:", 5) != 0)
                pare_text_printf(answer, "\nwarning: %s", summary.warning[i]);
    } else {
        pare_text_add(answer, err.text);
    }
    assert_false(answer->failed);
    pare_arena_close(arena);
    free(text);
}

static void expect(void **state, size_t count, const said_otherwise cases[])
{
    fill(state);
    for (size_t i = 0; i < count; i++) {
        pare_text text = {0};
        say(store_of(state), &cases[i], &text);
        const char *answer = text.bytes;

        if (strcmp(answer, cases[i].answer) != 0)
            fail_msg("%s says\n%s\nand not\n%s", cases[i].other, answer, cases[i].answer);
        pare_text_free(&text);
    }
}
#define EXPECT(cases) expect(state, sizeof(cases) / sizeof *(cases), cases)

static void what_a_part_says_of_itself_is_taken_or_refused(void **state)
{
    static const said_otherwise cases[] = {
        {"shaft: M5", "shaft: M5", "taken: 0 parts, 0 craft and 0 records otherwise"},
        {"shaft: M5", "shaft: M",
         "b:26:49: shaft: M does not start with one plain number: a length needs mm, cm, m, in or "
         "ft"},
        {"shaft: M5", "shaft: Mx",
         "b:26:49: shaft: Mx does not start with one plain number: a length needs mm, cm, m, in or "
         "ft"},
        {"shaft: M5", "shaft: M 5",
         "b:26:49: shaft: M 5 does not start with one plain number: a length needs mm, cm, m, in "
         "or ft"},
        {"shaft: M5", "shaft: M5x",
         "b:26:49: shaft: 5x mm has no unit that is known: a length needs mm, cm, m, in or ft"},
        {"shaft: M5", "shaft: M0.2", "b:26:49: shaft of M0.2; right would be 0.5 mm to 12 mm"},
        {"shaft: M5", "shaft: M99", "b:26:49: shaft of M99; right would be 0.5 mm to 12 mm"},
        {"shaft: M5", "shaft: 5",
         "b:26:49: shaft: 5 has no unit: a length needs mm, cm, m, in or ft"},
        {"shaft: M5", "shaft: 5 mm", "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"shaft: M5", "shaft: 4 mm .. 5 mm",
         "b:26:49: shaft is no range; right would be one size, or a list of sizes"},
        {"shaft: M5", "shaft: -5 mm", "b:26:49: shaft of -5 mm; right would be 0.5 mm to 12 mm"},
        {"shaft: M5", "shaft: {value: 5 mm}", "b:26:49: shaft is a list here: [one, two]"},
        {"shaft: M5", "shaft: [M5, M4]", "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"shaft: M5", "shaft: []", "b:26:49: shaft has 0 choices; right would be 1 to 6"},
        {"shaft: M5", "shaft: [M1, M1.5, M2, M2.5, M3, M4, M5, M6, M8]",
         "b:26:49: shaft has 9 choices; right would be 1 to 6"},
        {"shaft: M5", "shaft: five",
         "b:26:49: shaft: five does not start with one plain number: a length needs mm, cm, m, in "
         "or ft"},
        {"connector: 60 A class", "connector: \"60 A\"",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"connector: 60 A class", "connector: \"60 A classy\"",
         "b:43:21: connector: 60 A classy has no unit that is known: a current needs A or mA"},
        {"connector: 60 A class", "connector: \"60 A class class\"",
         "b:43:21: connector: 60 A class class has no unit that is known: a current needs A or mA"},
        {"connector: 60 A class", "connector: \" class\"",
         "b:43:21: connector: nothing is no quantity: a current needs A or mA"},
        {"connector: 60 A class", "connector: \"60 mA class\"",
         "b:43:21: connector of 60 mA class; right would be 1 A to 500 A"},
        {"connector: 60 A class", "connector: \"60 V class\"",
         "b:43:21: connector: 60 V is a voltage: a current needs A or mA"},
        {"connector: 60 A class", "connector: \"900 A class\"",
         "b:43:21: connector of 900 A class; right would be 1 A to 500 A"},
        {"connector: 60 A class", "connector: \"30 A .. 60 A\"",
         "b:43:21: connector is no range; right would be one size, or a list of sizes"},
        {"antenna: snap", "antenna: screw", "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"antenna: snap", "antenna: glue",
         "b:47:103: antenna cannot be 'glue'; right would be one of snap, screw, solder"},
        {"antenna: snap", "antenna: [snap, screw]",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"antenna: snap", "antenna: [snap, glue]",
         "b:47:110: antenna cannot be 'glue'; right would be one of snap, screw, solder"},
        {"antenna: snap", "antenna: snap or screw",
         "b:47:103: antenna cannot be 'snap or screw'; right would be one of snap, screw, solder"},
        {"propeller: 3 in .. 5.2 in", "propeller: 3 mm",
         "b:12:50: propeller of 3 mm; right would be 20 mm to 1000 mm"},
        {"propeller: 3 in .. 5.2 in", "propeller: 3 in",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"propeller: 3 in .. 5.2 in", "propeller: 0.1 in",
         "b:12:50: propeller of 0.1 in; right would be 20 mm to 1000 mm"},
        {"propeller: 3 in .. 5.2 in", "propeller: 4 in .. 60 in",
         "b:12:50: propeller of 4 in .. 60 in; right would be 20 mm to 1000 mm"},
        {"propeller: 3 in .. 5.2 in", "propeller: 0.1 in .. 5 in",
         "b:12:50: propeller of 0.1 in .. 5 in; right would be 20 mm to 1000 mm"},
        {"propeller: 3 in .. 5.2 in", "propeller: 5 in .. 3 in",
         "b:12:50: propeller: 5 in .. 3 in runs downwards: the lower end comes first"},
        {"propeller: 3 in .. 5.2 in", "propeller: [3 in, 5 in]",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"stack: 20 mm, thread: M2", "stack: 20 mm, thread: M2, screw_depth: 3 mm",
         "b:35:269: fits has no key 'screw_depth'; right would be one of bolt_circle, thread, "
         "shaft, stack, propeller, cells, connector, camera, antenna"},
        {"stack: 20 mm, thread: M2", "stack: 20 mm, screws: 4",
         "b:35:257: fits has no key 'screws'; right would be one of bolt_circle, thread, shaft, "
         "stack, propeller, cells, connector, camera, antenna"},
        {"stack: 20 mm, thread: M2", "stak: 20 mm",
         "b:35:243: fits has no key 'stak'; is it 'stack'?"},
        {"stack: 20 mm, thread: M2", "bolt_circle: 16 mm .. 19 mm",
         "b:35:256: bolt_circle is no range; right would be one size, or a list of sizes"},
        {"screw_depth: 3.5 mm", "screw_depth: 3.5",
         "b:26:66: screw_depth: 3.5 has no unit: a length needs mm, cm, m, in or ft"},
        {"screw_depth: 3.5 mm", "screw_depth: 0 mm",
         "b:26:66: screw_depth of 0 mm; right would be 0.5 mm to 20 mm"},
        {"screw_depth: 3.5 mm", "screw_depth: 350 mm",
         "b:26:66: screw_depth of 350 mm; right would be 0.5 mm to 20 mm"},
        {"screw_depth: 3.5 mm", "screw_depth: []",
         "b:26:66: screw_depth is a list; right would be one value, or {value: ..., u: ..., known: "
         "...}"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, size: [124 mm, 36 mm, 2 mm], thick: 2 mm,",
         "b:16:54: thick beside size; right would be size alone, [x, y, thickness]"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, size: [124 mm, 36 mm, 2 mm], origin: [0 mm, 0 mm],",
         "b:16:55: origin beside size; right would be at alone, the plate's middle"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, size: [124 mm, 36 mm, 2 mm], outline: fr-w-base.dxf,",
         "b:16:5: plate 'top' has both size and outline; right would be size: [x, y, thickness], "
         "or outline: FILE with thick: 2 mm"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],", "{plate: top,",
         "b:16:5: plate 'top' has no size; right would be size: [x, y, thickness], or outline: "
         "FILE with thick: 2 mm"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],", "{plate: top, thick: 2 mm,",
         "b:16:5: plate 'top' has no size; right would be size: [x, y, thickness], or outline: "
         "FILE with thick: 2 mm"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],", "{plate: top, outline: fr-w-base.dxf,",
         "taken: 1 parts, 0 craft and 0 records otherwise\nwarning: b:16:27: outline fr-w-base.dxf "
         "is not there; a rectangle stands in for it, estimated"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, outline: fr-w-base.dxf, thick: 2 mm, origin: [5 mm, 5 mm],",
         "b:16:63: origin is one value here, not a list or a map"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, outline: fr-w-base.dxf, thick: 2 mm, origin: middle,",
         "taken: 1 parts, 0 craft and 0 records otherwise\nwarning: b:16:27: outline fr-w-base.dxf "
         "is not there; a rectangle stands in for it, estimated"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, outline: fr-w-base.dxf, thick: 2 mm, origin: [5 mm],",
         "b:16:63: origin is one value here, not a list or a map"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, outline: ../fr-w-base.dxf, thick: 2 mm,",
         "b:16:27: file '../fr-w-base.dxf'; right would be a name below the folder of this text, "
         "without '..', 200 bytes at most"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, outline: nowhere.dxf, thick: 2 mm,",
         "taken: 1 parts, 0 craft and 0 records otherwise\nwarning: b:16:27: outline nowhere.dxf "
         "is not there; a rectangle stands in for it, estimated"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, outline: every-key-cube.stl, thick: 2 mm,",
         "b:16:27: every-key-cube.stl: no kind of drawing that is known; right would be an outline "
         "in a .dxf or .svg file"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],", "{plate: [top], size: [124 mm, 36 mm, 2 mm],",
         "b:16:13: plate is one value here, not a list or a map"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],", "{plate: top, size: [124 mm, 36 mm],",
         "b:16:24: size has 2 values; right would be 3"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],", "{plate: top, size: [124 mm, 36 mm, 0 mm],",
         "b:16:40: size of 0 mm; right would be 0.1 mm to 2000 mm"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],", "{plate: top, size: [124, 36, 2],",
         "b:16:25: size: 124 has no unit: a length needs mm, cm, m, in or ft"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, shape: box, size: [124 mm, 36 mm, 2 mm],",
         "b:16:5: shape and plate in one piece; right would be two pieces, as a list"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, size: [124 mm, 36 mm, 2 mm], cloth: 0/90,",
         "b:16:47: a plate has no key 'cloth'; right would be one of plate, size, outline, thick, "
         "origin, at, turn, material, density"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, size: [124 mm, 36 mm, 2 mm], material: cheese,",
         "b:16:57: material cannot be 'cheese'; right would be one of carbon, aluminium, steel, "
         "stainless, titanium, brass, nylon, glass, tpu, pla, petg, abs, foam, wood, rubber, "
         "lexan"},
        {"{plate: top, size: [124 mm, 36 mm, 2 mm],",
         "{plate: top, size: [124 mm, 36 mm, 2 mm], wall: 1 mm,",
         "b:16:47: a plate has no key 'wall'; right would be one of plate, size, outline, thick, "
         "origin, at, turn, material, density"},
        {"turn: [90 deg, 0 deg, 0 deg]", "turn: [90 deg, 0 deg]",
         "b:16:78: turn has 2 values; right would be 3"},
        {"turn: [90 deg, 0 deg, 0 deg]", "turn: [90, 0, 0]",
         "b:16:79: turn: 90 has no unit: an angle needs deg or rad"},
        {"turn: [90 deg, 0 deg, 0 deg]", "turn: 90 deg",
         "b:16:78: turn, [about z, about y, about x], is a list here: [one, two]"},
        {"turn: [90 deg, 0 deg, 0 deg]", "turn: [900 deg, 0 deg, 0 deg]",
         "b:16:79: turn of 900 deg; right would be -360 deg to 360 deg"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: {shape: point, size: [75 mm]}",
         "b:44:30: a point has no size; leave it out"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: {shape: point}",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: {shape: ball, size: [75 mm]}",
         "b:44:17: shape cannot be 'ball'; right would be one of point, box, cylinder, tube, cone, "
         "capsule, ring, sphere, rod, plate"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: {shape: ball, size: 75 mm}",
         "b:44:17: shape cannot be 'ball'; right would be one of point, box, cylinder, tube, cone, "
         "capsule, ring, sphere, rod, plate"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {shape: box, size: [75 mm, 36 mm]}",
         "b:44:28: 2 given for the size of a box; right would be size: [x, y, z]"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: {shape: box}",
         "b:44:9: a box without size; right would be size: [x, y, z]"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {shape: cylinder, size: [75 mm, 36 mm, 31 mm]}",
         "b:44:33: 3 given for the size of a cylinder; right would be size: [d, h]"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {shape: tube, size: [5 mm, 6 mm, 31 mm]}",
         "b:44:29: tube: od 0.005 m must be greater than id 0.006 m; sizes are od, id, h"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {shape: cone, size: [75 mm, 36 mm]}",
         "b:44:29: 2 given for the size of a cone; right would be size: [d1, d2, h]"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {shape: capsule, size: [20 mm, 80 mm]}",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: {size: [75 mm, 36 mm, 31 mm]}",
         "b:44:9: a piece of a body has none of shape, arms, plate, mesh; right would be like "
         "{shape: box, size: [75 mm, 36 mm, 31 mm]}"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: box",
         "b:44:9: a piece of a body is a map of keys here: {key: value}"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: []",
         "b:44:9: a body of 0 pieces; right would be 1 to 64"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {shape: box, size: [75 mm, 36 mm, 31 mm], unit: mm}",
         "b:44:51: a shape has no key 'unit'; right would be one of shape, size, at, turn, "
         "material, density"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {shape: box, size: [75 mm, 36 mm, 31 mm], density: 1 g/cm3}",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {shape: box, size: [75 mm, 36 mm, 31 mm], mass: 20 g}",
         "b:44:51: a shape has no key 'mass'; right would be one of shape, size, at, turn, "
         "material, density"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {shape: box, size: [75 mm, 36 mm, 31 mm], at: [1 mm, 2 mm]}",
         "b:44:55: at has 2 values; right would be 3"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {arms: [[78 mm, 82 mm]], root: 24 mm, section: [11 mm, 5 mm]}",
         "b:44:16: arms are 4 to 8 places of motor axes, from front left, clockwise: [[80 mm, 80 "
         "mm], [80 mm, -80 mm], ...]"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: {mesh: every-key-cube.stl}",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}", "body: {mesh: /etc/cube.stl, unit: mm}",
         "b:44:16: file '/etc/cube.stl'; right would be a name below the folder of this text, "
         "without '..', 200 bytes at most"},
        {"body: {shape: box, size: [75 mm, 36 mm, 31 mm]}",
         "body: {mesh: every-key-cube.stl, unit: mm, size: [75 mm, 36 mm, 31 mm]}",
         "b:44:46: a mesh has no key 'size'; right would be one of mesh, unit, wall, infill, "
         "material, density, at, turn"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, cloth: quasi-isotropic",
         "b:14:5: arms without section; right would be section: [width, thickness], or tube: "
         "[outside, inside]"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], tube: [10 mm, 8 mm]",
         "b:14:125: arms with both section and tube; right would be section: [width, thickness], "
         "or tube: [outside, inside]"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, tube: [10 mm, 12 mm]",
         "b:14:101: a tube of 10 mm outside and 12 mm inside; right would be [outside, inside] "
         "with a wall of 0.2 mm or more"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm]", "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], cloth: denim",
         "b:14:126: cloth cannot be 'denim'; right would be one of 0/90, quasi-isotropic"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], cloth: 0/90, off_axis: 100 deg",
         "b:14:142: off_axis of 100 deg; right would be 0 deg to 45 deg"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], cloth: 0/90, off_axis: 10",
         "b:14:142: off_axis: 10 has no unit: an angle needs deg or rad"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], flexural: 90",
         "b:14:129: flexural: 90 has no unit: a pressure needs Pa, hPa, kPa, MPa, GPa or bar"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], flexural: 90 MPa",
         "b:14:129: flexural of 90 MPa; right would be 0.1 GPa to 400 GPa"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], flexural: -90 GPa",
         "b:14:129: flexural of -90 GPa; right would be 0.1 GPa to 400 GPa"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], flexural: 0.5 Pa",
         "b:14:129: flexural of 0.5 Pa; right would be 0.1 GPa to 400 GPa"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], flexural: 9000 GPa",
         "b:14:129: flexural of 9000 GPa; right would be 0.1 GPa to 400 GPa"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: [11 mm, 5 mm], material: cheese",
         "b:14:129: material cannot be 'cheese'; right would be one of carbon, aluminium, steel, "
         "stainless, titanium, brass, nylon, glass, tpu, pla, petg, abs, foam, wood, rubber, "
         "lexan"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 240 mm, section: [11 mm, 5 mm], cloth: 0/90",
         "b:14:5: arm 1 reaches 113.2 mm and leaves the body at 240 mm; right would be a root "
         "within its reach"},
        {"root: 24 mm, section: [11 mm, 5 mm], cloth: quasi-isotropic",
         "root: 24 mm, section: 11 mm", "b:14:104: section has 1 value; right would be 2"},
        {"arms: [[78 mm, 82 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "arms: [[78 mm, 82 mm], [78 mm, -82 mm], [-78 mm, -82 mm]], root: 24 mm, section",
         "b:14:12: arms are 4 to 8 places of motor axes, from front left, clockwise: [[80 mm, 80 "
         "mm], [80 mm, -80 mm], ...]"},
        {"arms: [[78 mm, 82 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "arms: [], root: 24 mm, section",
         "b:14:12: arms are 4 to 8 places of motor axes, from front left, clockwise: [[80 mm, 80 "
         "mm], [80 mm, -80 mm], ...]"},
        {"arms: [[78 mm, 82 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "arms: [[78 mm, 82 mm]], root: 24 mm, section",
         "b:14:12: arms are 4 to 8 places of motor axes, from front left, clockwise: [[80 mm, 80 "
         "mm], [80 mm, -80 mm], ...]"},
        {"arms: [[78 mm, 82 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "arms: [78 mm, 82 mm], root: 24 mm, section",
         "b:14:12: arms are 4 to 8 places of motor axes, from front left, clockwise: [[80 mm, 80 "
         "mm], [80 mm, -80 mm], ...]"},
        {"arms: [[78 mm, 82 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "arms: [[0 mm, 0 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "b:14:5: arm 1 reaches 0 mm and leaves the body at 24 mm; right would be a root within "
         "its reach"},
        {"arms: [[78 mm, 82 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "arms: [[78 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "b:14:13: arms has 1 value; right would be 2 to 3"},
        {"arms: [[78 mm, 82 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "arms: [[78 mm, 82 mm], [78 mm, 82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"arms: [[78 mm, 82 mm], [78 mm, -82 mm], [-78 mm, -82 mm], [-78 mm, 82 mm]], root: 24 mm, "
         "section",
         "arms: 4, root: 24 mm, section",
         "b:14:12: arms are 4 to 8 places of motor axes, from front left, clockwise: [[80 mm, 80 "
         "mm], [80 mm, -80 mm], ...]"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: 1800",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: {u: 40}",
         "b:25:36: kv has no value; right would be {value: ..., u: ..., known: ...}"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: {value: 1800, u: -40}",
         "b:25:53: uncertainty (u) of kv of -40; right would be 0 rpm/V to 40000 rpm/V"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: {value: 1800, u: 4000}",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: {value: 1800, known: guessed}",
         "b:25:57: how it is known cannot be 'guessed'; right would be one of weighed, measured, "
         "learned, stated, computed, estimated"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: {value: 1800, how: measured}",
         "b:25:50: kv has no key 'how'; right would be one of value, u, known"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: 1800 V",
         "b:25:36: kv: 1800 V is a voltage: a motor constant needs rpm/V, KV or a bare number"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: [1800]",
         "b:25:36: kv is a list; right would be one value, or {value: ..., u: ..., known: ...}"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: 1750 .. 1850",
         "b:25:36: kv: 1750 .. 1850 does not start with one plain number: a motor constant needs "
         "rpm/V, KV or a bare number"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: 1",
         "b:25:36: kv of 1; right would be 20 rpm/V to 40000 rpm/V"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: {}",
         "b:25:36: kv has no value; right would be {value: ..., u: ..., known: ...}"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: many",
         "b:25:36: kv: many does not start with one plain number: a motor constant needs rpm/V, KV "
         "or a bare number"},
        {"kv: {value: 1800, u: 40, known: measured}", "kvs: 1800",
         "b:25:32: spec of motor has no key 'kvs'; is it 'kv'?"},
        {"kv: {value: 1800, u: 40, known: measured}", "kv: 1800, volt: 11 V .. 20 V",
         "b:25:42: spec of motor has no key 'volt'; is it 'volts'?"},
        {"volts: 11 V .. 25.5 V", "volts: 11 V", "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"volts: 11 V .. 25.5 V", "volts: 25.5 V .. 11 V",
         "b:25:137: volts: 25.5 V .. 11 V runs downwards: the lower end comes first"},
        {"volts: 11 V .. 25.5 V", "volts: 11 V .. 25.5",
         "b:25:137: volts: 25.5 has no unit: a voltage needs V or mV"},
        {"volts: 11 V .. 25.5 V", "volts: 11",
         "b:25:137: volts: 11 has no unit: a voltage needs V or mV"},
        {"volts: 11 V .. 25.5 V", "volts: [11 V, 25.5 V]",
         "b:25:137: volts is one value or a range here, like 11 V .. 25.5 V"},
        {"volts: 11 V .. 25.5 V", "volts: 0 V .. 25.5 V",
         "b:25:137: volts of 0 V .. 25.5 V; right would be 1 V to 120 V"},
        {"volts: 11 V .. 25.5 V", "volts: 11 V .. 2550 V",
         "b:25:137: volts of 11 V .. 2550 V; right would be 1 V to 120 V"},
        {"volts: 11 V .. 25.5 V", "volts: 3S .. 6S",
         "b:25:137: volts: 3S is of another kind: a voltage needs V or mV"},
        {"volts: 11 V .. 25.5 V", "volts: 3S",
         "b:25:137: volts: 3S is of another kind: a voltage needs V or mV"},
        {"volts: 11 V .. 25.5 V", "volts: {value: 11 V}",
         "b:25:137: volts is one value or a range here, like 11 V .. 25.5 V"},
        {"stator: 22 mm x 7 mm", "stator: 22 mm",
         "b:25:18: stator of '22 mm'; right would be two sizes, like 22 mm x 7 mm"},
        {"stator: 22 mm x 7 mm", "stator: [22 mm]",
         "b:25:18: stator has 1 value; right would be 2"},
        {"stator: 22 mm x 7 mm", "stator: [22 mm, 7 mm]",
         "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"stator: 22 mm x 7 mm", "stator: 22 x 7 mm",
         "b:25:18: stator: 22 has no unit: a length needs mm, cm, m, in or ft"},
        {"stator: 22 mm x 7 mm", "stator: 2207",
         "b:25:18: stator: 2207 has no unit: a length needs mm, cm, m, in or ft"},
        {"stator: 22 mm x 7 mm", "stator: [22, 7]",
         "b:25:19: stator: 22 has no unit: a length needs mm, cm, m, in or ft"},
        {"stator: 22 mm x 7 mm", "stator: {value: [22 mm, 7 mm], u: 1 mm}",
         "b:25:18: stator is a list here: [one, two]"},
        {"stator: 22 mm x 7 mm", "stator: 22 mm x 7 mm x 3 mm",
         "b:25:18: stator: more than 2 sizes"},
        {"stator: 22 mm x 7 mm", "stator: []", "b:25:18: stator has 0 values; right would be 2"},
        {"stator: 22 mm x 7 mm", "stator: {}", "b:25:18: stator is a list here: [one, two]"},
        {"stator: 22 mm x 7 mm", "stator: 220 mm x 7 mm",
         "b:25:18: stator of 220 mm x 7 mm; right would be 3 mm to 150 mm"},
        {"stator: 22 mm x 7 mm", "stator: 22 mm x x",
         "b:25:18: stator: 22 mm x x has no unit that is known: a length needs mm, cm, m, in or "
         "ft"},
        {"slow: false, line: broad", "slow: maybe, line: broad",
         "b:29:135: slow is 'maybe'; right would be true or false"},
        {"slow: false, line: broad", "slow: true, line: broad",
         "b:29:3: part 'pr-w': slow: yes is line slow, and line is broad too; leave one out"},
        {"slow: false, line: broad", "slow: [false], line: broad",
         "b:29:135: slow is a list; right would be one value, or {value: ..., u: ..., known: ...}"},
        {"slow: false, line: broad", "slow: {}, line: broad",
         "b:29:135: slow has no value; right would be {value: ..., u: ..., known: ...}"},
        {"line: broad", "line: thin", "taken: 1 parts, 0 craft and 0 records otherwise"},
        {"line: broad", "line: [broad]", "b:29:148: line is one value here, not a list or a map"},
        {"ends: [snap, screw]", "ends: [snap]",
         "b:48:98: 1 ends; right would be two, like [snap, screw], towards the transmitter first"},
        {"ends: [snap, screw]", "ends: [snap, glue]",
         "b:48:105: end cannot be 'glue'; right would be one of snap, screw, solder"},
        {"ends: [snap, screw]", "ends: []",
         "b:48:98: 0 ends; right would be two, like [snap, screw], towards the transmitter first"},
        {"ends: [snap, screw]", "ends: snap", "b:48:98: ends is a list here: [one, two]"},
        {"ends: [snap, screw]", "ends: [snap, screw, snap]",
         "b:48:98: 3 ends; right would be two, like [snap, screw], towards the transmitter first"},
        {"ends: [snap, screw]", "ends: {from: snap, to: screw}",
         "b:48:98: ends is a list here: [one, two]"},
        {"chemistry: lihv, cells: 4,", "chemistry: lihv, cells: 4.5,",
         "b:41:34: cells: 4.5 is no count: a whole number from 0 to 1000000000"},
        {"chemistry: lihv, cells: 4,", "chemistry: lihv, cells: 0,",
         "b:41:34: cells of 0; right would be 1 to 14"},
        {"chemistry: lihv, cells: 4,", "chemistry: lihv, cells: 40,",
         "b:41:34: cells of 40; right would be 1 to 14"},
        {"chemistry: lihv, cells: 4,", "chemistry: lihv, cells: 4S,",
         "b:41:34: cells: 4S is of another kind: a count needs a bare number"},
        {"chemistry: lihv, cells: 4,", "chemistry: lihv, cells: 4 V,",
         "b:41:34: cells: 4 V is a voltage: a count needs a bare number"},
        {"chemistry: lihv, cells: 4,", "chemistry: lihv, cells: four,",
         "b:41:34: cells: four does not start with one plain number: a count needs a bare number"},
    };
    EXPECT(cases);
}

static void what_a_craft_says_of_itself_is_taken_or_refused(void **state)
{
    static const said_otherwise cases[] = {
        {"swap: cube=off", "swap: cube",
         "b:86:12: swap 'cube'; right would be WHAT=VALUE in one word, like bumper=off"},
        {"swap: cube=off", "swap: =off",
         "b:86:12: swap '=off'; right would be WHAT=VALUE in one word, like bumper=off"},
        {"swap: cube=off", "swap: cube=",
         "b:86:12: swap 'cube='; right would be WHAT=VALUE in one word, like bumper=off"},
        {"swap: cube=off", "swap: cube=off now",
         "b:86:12: swap 'cube=off now'; right would be WHAT=VALUE in one word, like bumper=off"},
        {"swap: cube=off", "swap: cube=off,motor=mo-w",
         "b:86:21: taken has no key 'motor=mo-w'; right would be one of swap, chosen, ordered, "
         "fitted, weighed, flown, brings, promise"},
        {"swap: cube=off", "swap: motor=mo-x",
         "b:86:12: no part 'mo-x' on the bench; is it 'mo-w'?"},
        {"swap: cube=off", "swap: motor=pr-w", "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"swap: cube=off", "swap: motor.count=",
         "b:86:12: swap 'motor.count='; right would be WHAT=VALUE in one word, like bumper=off"},
        {"swap: cube=off", "swap: motor.count=4",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"swap: cube=off",
         "swap: "
         "cube="
         "ooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooo"
         "ooooooooooooooooooooooooooooooooooooooooo",
         "b:86:12: swap 'cube=ooooooooooooooooooooooooooooooooooooooooooo'; right would be "
         "WHAT=VALUE in one word, like bumper=off"},
        {"swap: cube=off", "swap: []", "b:86:12: swap is one value here, not a list or a map"},
        {"swap: cube=off", "swap: {}", "b:86:12: swap is one value here, not a list or a map"},
        {"swap: cube=off", "swap: motor=sought-1",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"swap: cube=off", "swap: motor=mo-w", "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"chosen: 2026-04-01, ordered: 2026-04-02", "chosen: 2026-04-03, ordered: 2026-04-02",
         "b:86:5: cube=off: ordered on 2026-04-02, but chosen on 2026-04-03; right would be that "
         "day or a later one"},
        {"chosen: 2026-04-01, ordered: 2026-04-02", "chosen: 2026-04-31",
         "b:86:30: chosen '2026-04-31' is no day; right would be like 2026-03-01"},
        {"chosen: 2026-04-01, ordered: 2026-04-02", "ordered: 2026-04-02",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"chosen: 2026-04-01, ordered: 2026-04-02", "chosen: 2026-04-01, ordered: soon",
         "b:86:51: ordered 'soon' is no day; right would be like 2026-03-01"},
        {"chosen: 2026-04-01, ordered: 2026-04-02", "chosen: [2026-04-01]",
         "b:86:30: chosen is one value here, not a list or a map"},
        {"brings: [pa-w2]", "brings: pa-w2",
         "b:86:131: brings, the parts that came along, is a list here: [one, two]"},
        {"brings: [pa-w2]", "brings: [pa-x]",
         "b:86:132: no part 'pa-x' on the bench; is it 'pa-w'?"},
        {"brings: [pa-w2]", "brings: []", "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"brings: [pa-w2]", "brings: [[pa-w2]]",
         "b:86:132: part is one value here, not a list or a map"},
        {"brings: [pa-w2]",
         "brings: [pa-w2, pa-w2, pa-w2, pa-w2, pa-w2, pa-w2, pa-w2, pa-w2, pa-w2, pa-w2, pa-w2, "
         "pa-w2, pa-w2, pa-w2, pa-w2, pa-w2, pa-w2]",
         "b:86:131: a swap brings 17 parts; right would be 16 at most"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}",
         "promise: {all_up_gg: -7.6}",
         "b:86:150: a promise knows no 'all_up_gg'; is it 'all_up_g'?"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}",
         "promise: {zebra: -7.6}",
         "b:86:150: a promise knows no 'zebra'; right would be a figure of the sheet, like "
         "all_up_g"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}",
         "promise: {all_up_g: light}",
         "b:86:160: all_up_g: light does not start with one plain number: a number needs no unit"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}",
         "promise: {all_up_g: -7.6 g}",
         "b:86:160: all_up_g: -7.6 g is a mass: a number needs no unit"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}",
         "promise: {all_up_g: 2e12}", "b:86:160: all_up_g of 2e12; right would be -1e+12 to 1e+12"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}",
         "promise: {cg_mm: 0.1}", "b:86:157: cg_mm has 1 value; right would be 3"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}",
         "promise: {cg_mm: [0.1, 0]}", "b:86:157: cg_mm has 2 values; right would be 3"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}",
         "promise: {cg_mm_u: [0.1, 0, 0.2]}", "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}", "promise: {}",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}", "promise: []",
         "b:86:149: promise is a map of keys here: {key: value}"},
        {"promise: {all_up_g: -7.6, all_up_g_u: 0.5, cg_mm: [0.1, 0, -0.2]}", "promise: light",
         "b:86:149: promise is a map of keys here: {key: value}"},
        {"all_up: \"<= 600 g\"", "all_up_g: \"<= 600\"",
         "b:60:14: no limit is called 'all_up_g'; is it 'all_up'?"},
        {"all_up: \"<= 600 g\"", "all_up: 600 g",
         "b:60:22: all_up is '600 g'; right would start with <= or >=, like \"<= 620 g\""},
        {"all_up: \"<= 600 g\"", "all_up: \"<= 600\"",
         "b:60:22: all_up: 600 has no unit: a mass needs g, kg, oz or lb"},
        {"all_up: \"<= 600 g\"", "all_up: \"< 600 g\"",
         "b:60:22: all_up is '< 600 g'; right would start with <= or >=, like \"<= 620 g\""},
        {"all_up: \"<= 600 g\"", "all_up: \"<= 600 V\"",
         "b:60:22: all_up: 600 V is a voltage: a mass needs g, kg, oz or lb"},
        {"all_up: \"<= 600 g\"", "all_up: \"<=\"",
         "b:60:22: all_up: nothing is no quantity: a mass needs g, kg, oz or lb"},
        {"all_up: \"<= 600 g\"", "all_up: \">= 600 g\"",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"all_up: \"<= 600 g\"", "all_upp: \"<= 600 g\"",
         "b:60:14: no limit is called 'all_upp'; is it 'all_up'?"},
        {"all_up: \"<= 600 g\"", "zebra: \"<= 600 g\"",
         "b:60:14: no limit is called 'zebra'; right would be a figure of the sheet less its unit, "
         "like all_up, flown, money or margin"},
        {"all_up: \"<= 600 g\"", "all_up: [\"<= 600 g\"]",
         "b:60:22: all_up is one value here, not a list or a map"},
        {"all_up: \"<= 600 g\"", "all_up: \"<= 600 g\", all_up: \"<= 500 g\"",
         "b:60:34: 'all_up' stands here a second time; once is enough (line 60)"},
        {"all_up: \"<= 600 g\"", "all_up: \"<= -600 g\"",
         "b:60:22: all_up is '<= -600 g'; it is never below 0, so right would be a limit above "
         "that"},
        {"all_up: \"<= 600 g\"", "hover_output: \"<= 30 %\"",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"all_up: \"<= 600 g\"", "hover_output_pct: \"<= 30\"",
         "b:60:14: no limit is called 'hover_output_pct'; is it 'hover_output'?"},
        {"all_up: \"<= 600 g\"", "half_thrust_to_weight: \">= 5\"",
         "b:60:14: no limit is called 'half_thrust_to_weight'; right would be a figure of the "
         "sheet less its unit, like all_up, flown, money or margin"},
        {"{share: 20 %, as: hover}", "{share: 20 %}",
         "b:57:13: an entry of flown has a share and one of as, speed, thrust; right would be like "
         "{share: 20 %, as: hover} or {share: 50 %, speed: 16 m/s}"},
        {"{share: 20 %, as: hover}", "{share: 20, as: hover}",
         "b:57:21: share of 20; right would be 0 % to 100 %"},
        {"{share: 20 %, as: hover}", "{share: 20 %, as: stunt}",
         "b:57:31: as cannot be 'stunt'; right would be one of hover, full"},
        {"{share: 20 %, as: hover}", "{share: 20 %, as: hover, speed: 3 m/s}",
         "b:57:13: an entry of flown has a share and one of as, speed, thrust; right would be like "
         "{share: 20 %, as: hover} or {share: 50 %, speed: 16 m/s}"},
        {"{share: 20 %, as: hover}", "{as: hover}",
         "b:57:13: an entry of flown has a share and one of as, speed, thrust; right would be like "
         "{share: 20 %, as: hover} or {share: 50 %, speed: 16 m/s}"},
        {"{share: 20 %, as: hover}", "{share: -20 %, as: hover}",
         "b:57:21: share of -20 %; right would be 0 % to 100 %"},
        {"{share: 20 %, as: hover}", "{share: 120 %, as: hover}",
         "b:57:21: share of 120 %; right would be 0 % to 100 %"},
        {"{share: 20 %, as: hover}", "{share: 20 %, speed: 400 m/s}",
         "b:57:34: speed of 400 m/s; right would be 0.1 m/s to 150 m/s"},
        {"{share: 20 %, as: hover}", "{share: 20 %, thrust: 0}",
         "b:57:35: thrust, in multiples of weight, of 0; right would be 0.1 to 50"},
        {"{share: 20 %, as: hover}", "{share: 20 %, thrust: 99}",
         "b:57:35: thrust, in multiples of weight, of 99; right would be 0.1 to 50"},
        {"{share: 20 %, as: hover}", "{share: 20 %, speed: 3}",
         "b:57:34: speed: 3 has no unit: a speed needs m/s, km/h, mph, kn or ft/min"},
        {"{share: 20 %, as: hover}", "{share: 21 %, as: hover}",
         "b:57:12: the shares of flown make 101 %; right would be 100 %"},
        {"{share: 20 %, as: hover}", "hover", "b:57:13: flown is a map of keys here: {key: value}"},
        {"land: {cell: 3.55 V, left: 25 %}", "land: {}",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"land: {cell: 3.55 V, left: 25 %}", "land: {cell: 3.55}",
         "b:58:18: cell: 3.55 has no unit: a voltage needs V or mV"},
        {"land: {cell: 3.55 V, left: 25 %}", "land: {cell: 1 V, left: 25 %}",
         "b:58:18: cell of 1 V; right would be 2 V to 4.4 V"},
        {"land: {cell: 3.55 V, left: 25 %}", "land: {cell: 3.55 V, left: 125 %}",
         "b:58:32: left of 125 %; right would be 0 % to 95 %"},
        {"land: {cell: 3.55 V, left: 25 %}", "land: {cell: 3.55 V, leave: 25 %}",
         "b:58:26: land has no key 'leave'; right would be one of cell, left"},
        {"land: {cell: 3.55 V, left: 25 %}", "land: 3.55 V",
         "b:58:11: land is a map of keys here: {key: value}"},
        {"keep: [sees, finds]", "keep: [smells]",
         "b:61:12: job cannot be 'smells'; right would be one of flies, sees, films, finds, "
         "protects, holds"},
        {"keep: [sees, finds]", "keep: sees", "b:61:11: keep is a list here: [one, two]"},
        {"keep: [sees, finds]", "keep: []", "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"keep: [sees, finds]", "keep: [sees, sees]",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"keep: [sees, finds]", "keep: [[sees]]",
         "b:61:12: job is one value here, not a list or a map"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: {altitude: 150}",
         "b:56:21: altitude: 150 has no unit: a length needs mm, cm, m, in or ft"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: {altitude: 150 m, pressure: 990 hPa}",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: {altitude: 15000 m}",
         "b:56:21: altitude of 15000 m; right would be -500 m to 10000 m"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: {altitude: 150 m, temperature: 12}",
         "b:56:41: temperature: 12 has no unit: a temperature needs degC, K or degF"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: {altitude: 150 m, temperature: -80 degC}",
         "b:56:41: temperature of -80 degC; right would be -60 degC to 60 degC"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: {altitude: 150 m, humidity: 170 %}",
         "b:56:38: humidity of 170 %; right would be 0 % to 100 %"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: {altitude: 150 m, wind: 3 m/s}",
         "b:56:28: air has no key 'wind'; right would be one of altitude, temperature, pressure, "
         "sea_level_pressure, humidity"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: {pressure: 1 Pa}", "b:56:21: pressure of 1 Pa; right would be 150 hPa to 1100 hPa"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: {sea_level_pressure: 990}",
         "b:56:31: sea_level_pressure: 990 has no unit: a pressure needs Pa, hPa, kPa, MPa, GPa or "
         "bar"},
        {"air: {altitude: 150 m, temperature: 12 degC, sea_level_pressure: 1009 hPa, humidity: 70 "
         "%}",
         "air: calm", "b:56:10: air is a map of keys here: {key: value}"},
        {"race: {without: [cube]}", "race: {without: [cubes]}",
         "b:63:22: without: no item 'cubes' on this craft; is it 'cube'?"},
        {"race: {without: [cube]}", "race: {without: cube}",
         "b:63:21: without is a list here: [one, two]"},
        {"race: {without: [cube]}", "race: {without: []}",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"race: {without: [cube]}", "race: {use: {pack: pa-x}}",
         "b:63:24: no part 'pa-x' on the bench; is it 'pa-w'?"},
        {"race: {without: [cube]}", "race: {use: {packs: pa-w2}}",
         "b:63:18: use: no item 'packs' on this craft; is it 'pack'?"},
        {"race: {without: [cube]}", "race: {use: [pa-w2]}",
         "b:63:17: use, {item: part}, is a map of keys here: {key: value}"},
        {"race: {without: [cube]}", "race: {use: {pack: mo-w}}",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"race: {without: [cube]}", "race: {with: [cube]}",
         "b:63:12: a loadout has no key 'with'; is it 'without'?"},
        {"race: {without: [cube]}", "race: []",
         "b:63:11: a loadout is a map of keys here: {key: value}"},
        {"race: {without: [cube]}", "race: {without: [cube, cube]}",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"engaged: 3 mm, needed: 7 mm", "engaged: 3, needed: 7 mm",
         "b:76:142: engaged: 3 has no unit: a length needs mm, cm, m, in or ft"},
        {"engaged: 3 mm, needed: 7 mm", "engaged: 300 mm",
         "b:76:142: engaged of 300 mm; right would be 0.5 mm to 60 mm"},
        {"engaged: 3 mm, needed: 7 mm", "needed: 0 mm",
         "b:76:141: needed of 0 mm; right would be 1 mm to 60 mm"},
        {"engaged: 3 mm, needed: 7 mm", "engaged: 3 mm, need: 7 mm",
         "b:76:148: a joint has no key 'need'; is it 'needed'?"},
        {"standard: ISO4762, thread: M3", "standard: ISO4763, thread: M3",
         "b:76:28: standard cannot be 'ISO4763'; is it 'ISO4762'?"},
        {"standard: ISO4762, thread: M3", "standard: ISO4762, thread: M3.1",
         "b:76:45: thread 'M3.1': known are M1.6, M2, M2.5, M3, M4 and M5"},
        {"standard: ISO4762, thread: M3", "standard: ISO4762, thread: 3 mm",
         "b:76:45: thread '3 mm': known are M1.6, M2, M2.5, M3, M4 and M5"},
        {"standard: ISO4762, thread: M3", "standard: ISO4762",
         "b:76:17: joint 'motor_base' needs thread, length and count, like {standard: ISO4762, "
         "thread: M3, length: 8 mm, material: steel, count: 16}"},
        {"standard: ISO4762, thread: M3", "thread: M3",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"standard: ISO4762, thread: M3", "standard: ISO7040, thread: M3",
         "b:76:57: ISO7040 has no length: its thread gives its size"},
        {"standard: ISO4762, thread: M3", "standard: standoff_hex, thread: M3",
         "b:76:17: a standoff needs across, like {standard: standoff_round, thread: M3, length: 30 "
         "mm, across: 5 mm, material: aluminium, count: 6}"},
        {"class: 12.9", "class: 13", "b:76:90: class '13': titanium screws come in TI2"},
        {"class: 12.9", "class: twelve", "b:76:90: class 'twelve': titanium screws come in TI2"},
        {"class: 12.9", "class: 8.8", "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"class: 12.9", "class: [12.9]", "b:76:90: class is one value here, not a list or a map"},
        {"ways: [110 mm, 115 mm]", "ways: [110 mm]",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"ways: [110 mm, 115 mm]", "ways: 110 mm",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"ways: [110 mm, 115 mm]", "ways: []", "b:83:44: ways has 0 values; right would be 1 to 4"},
        {"ways: [110 mm, 115 mm]", "ways: [110, 115]",
         "b:83:45: ways: 110 has no unit: a length needs mm, cm, m, in or ft"},
        {"ways: [110 mm, 115 mm]",
         "ways: [110 mm, 115 mm, 3 mm, 4 mm, 5 mm, 6 mm, 7 mm, 8 mm, 9 mm]",
         "b:83:44: ways has 9 values; right would be 1 to 4"},
        {"ways: [110 mm, 115 mm]", "length: 110 mm",
         "b:83:38: a run has no key 'length'; right would be one of gauge, outer, ways, times, "
         "carries, included_in, at, needed"},
        {"lead: {gauge: 12,", "lead: {gauge: 12 AWG,",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"lead: {gauge: 12,", "lead: {gauge: 12 mm,",
         "b:83:19: gauge: 12 mm is a length: a wire gauge needs AWG or a bare number"},
        {"lead: {gauge: 12,", "lead: {gauge: 99,", "b:83:19: gauge of 99; right would be 4 to 40"},
        {"lead: {gauge: 12,", "lead: {gauge: [12],",
         "b:83:19: gauge is one value here, not a list or a map"},
        {"lead: {gauge: 12,", "lead: {gauge: 1.5,",
         "b:83:19: gauge of 1.5; right would be 4 to 40"},
        {"at: {arms: 100 %}", "at: {arms: 100 %}",
         "taken: 0 parts, 0 craft and 0 records otherwise"},
        {"at: {arms: 100 %}", "at: {arms: 300 %}",
         "b:68:50: arms of 300 %; right would be 0 % to 150 %"},
        {"at: {arms: 100 %}", "at: {arms: 100}",
         "b:68:50: arms of 100; right would be 0 % to 150 %"},
        {"at: {arms: 100 %}", "at: {legs: 100 %}",
         "b:68:44: at has no key 'legs'; right would be arms"},
        {"motor: {part: mo-w, count: 4, at: arms}", "motor: {part: mo-w, count: 4, at: wings}",
         "b:67:39: at cannot be 'wings'; right would be arms, {arms: 60 %} or a place like [10 mm, "
         "0 mm, 5 mm]"},
        {"motor: {part: mo-w, count: 4, at: arms}", "motor: {part: mo-w, count: 4, at: []}",
         "b:67:39: at has 0 values; right would be 3"},
        {"motor: {part: mo-w, count: 4, at: arms}",
         "motor: {part: mo-w, count: 4, at: [[1 mm, 2 mm, 3 mm]]}",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
        {"motor: {part: mo-w, count: 4, at: arms}",
         "motor: {part: mo-w, count: 4, at: [1 mm, 2 mm, 3 mm]}",
         "taken: 0 parts, 1 craft and 0 records otherwise"},
    };
    EXPECT(cases);
}

static void what_a_record_says_is_taken_or_refused(void **state)
{
    static const said_otherwise cases[] = {
        {"flown: brief", "flown: hover", "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"flown: brief", "flown: loops",
         "b:95:257: flown cannot be 'loops'; right would be one of brief, hover, full"},
        {"flown: brief", "flown: [{share: 100 %, as: hover}]",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"flown: brief", "flown: [{share: 90 %, as: hover}]",
         "b:95:257: the shares of flown make 90 %; right would be 100 %"},
        {"flown: brief", "flown: {share: 100 %}",
         "b:95:257: flown is one value here, not a list or a map"},
        {"flown: brief", "flown: hover, output: 31 %",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"flown: brief", "flown: brief, output: 31 %",
         "b:95:272: output is that of a hover; right would be flown: hover with it"},
        {"flown: brief", "output: 31 %",
         "b:95:258: output is that of a hover; right would be flown: hover with it"},
        {"flown: brief", "flown: full, promise: 28 % .. 33 %",
         "b:95:272: promise is that of a hover; right would be flown: hover with it"},
        {"flown: brief", "flown: hover, promise: 28 % .. 33 %",
         "b:95:273: a promise without the output that it is of; right would be like output: 31 %"},
        {"flown: brief", "flown: hover, output: 31 %, promise: 28 % .. 33 %",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"flown: brief", "flown: hover, output: 31 %, promise: lots",
         "b:95:287: promise: lots does not start with one plain number: a share needs % or a bare "
         "number"},
        {"flown: brief", "flown: hover, output: 31 %, promise: 28 % .. 330 %",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"flown: brief", "flown: hover, output: 31 %, promise: -28 % .. 33 %",
         "b:95:287: promise of -28 % .. 33 %; right would be 0 % to 1000 %"},
        {"flown: brief", "flown: hover, output: 31 %, promise: [28 %, 33 %]",
         "b:95:287: promise is one value here, not a list or a map"},
        {"flown: brief", "flown: hover, output: 31 %, promise: 28 g",
         "b:95:287: promise: 28 g is a mass: a share needs % or a bare number"},
        {"flown: brief", "flown: [{share: 100 %, as: hover}], output: 31 %",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"flown: brief", "flown: hover, output: 131 %",
         "b:95:272: output of 131 %; right would be 1 % to 100 %"},
        {"flown: brief", "flown: brief, logged: {columns: {time: s, volts: V, current: A}}",
         "b:95:272: logged without rows; right would be what pare import LOG.csv writes"},
        {"flown: brief", "flown: brief, logged: {rows: [[0, 16, 9], [1, 16, 9]]}",
         "b:95:272: logged without columns; right would be what pare import LOG.csv writes"},
        {"flown: brief", "flown: brief, logged: {}",
         "b:95:272: logged without columns; right would be what pare import LOG.csv writes"},
        {"flown: brief", "flown: brief, logged: []",
         "b:95:272: logged is a map of keys here: {key: value}"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V}, rows: [[0, 16], [1, 16]]}",
         "b:95:282: a log without a column of current"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9]]}",
         "b:95:321: a log of 1 rows; right would be 2 to 500: pare import LOG.csv makes few of "
         "many"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A}, rows: []}",
         "b:95:321: a log of 0 rows; right would be 2 to 500: pare import LOG.csv makes few of "
         "many"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9], [1, "
         "16, 9]]}",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9], [1, "
         "16, -90]]}",
         "b:95:334: current of -90 in SI; right would be -20 to 2000"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9], [1, "
         "160, 9]]}",
         "b:95:334: volts of 160 in SI; right would be 0 to 120"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9], [1, "
         "16]]}",
         "b:95:334: a row of 2 numbers; right would be 3, as many as columns"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9], [0, "
         "16, 9]]}",
         "b:95:322: a row that lasts 0 s; right would be more than 0, and times that rise"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A, lasts: s}, rows: [[0, "
         "16, 9, 1], [0, 16, 9, 1]]}",
         "b:95:347: a time of 0 s after 0 s; right would be a later one"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9], [1, "
         "flat, 9]]}",
         "b:95:338: a number of the table: flat does not start with one plain number: a number "
         "needs no unit"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: g, current: A}, rows: [[0, 16, 9], [1, "
         "16, 9]]}",
         "b:95:299: column volts in 'g'; right would be V, mV"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A, smell: s}, rows: [[0, "
         "16, 9, 1], [1, 16, 9, 1]]}",
         "b:95:314: columns has no key 'smell'; right would be one of time, lasts, volts, current, "
         "throttle, height"},
        {"flown: brief",
         "flown: brief, logged: {columns: {time: s, volts: V, current: A}, rows: [[0, 16, 9], [1, "
         "16, 9], [2, 16, 9], [3, 16, 9], [4, 16, 9], [5, 16, 9], [6, 16, 9], [7, 16, 9], [8, 16, "
         "9], [9, 16, 9], [10, 16, 9], [11, 16, 9], [12, 16, 9], [13, 16, 9], [14, 16, 9], [15, "
         "16, 9], [16, 16, 9], [17, 16, 9], [18, 16, 9], [19, 16, 9], [20, 16, 9], [21, 16, 9], "
         "[22, 16, 9], [23, 16, 9], [24, 16, 9], [25, 16, 9], [26, 16, 9], [27, 16, 9], [28, 16, "
         "9], [29, 16, 9], [30, 16, 9], [31, 16, 9], [32, 16, 9], [33, 16, 9], [34, 16, 9], [35, "
         "16, 9], [36, 16, 9], [37, 16, 9], [38, 16, 9], [39, 16, 9], [40, 16, 9], [41, 16, 9], "
         "[42, 16, 9], [43, 16, 9], [44, 16, 9], [45, 16, 9], [46, 16, 9], [47, 16, 9], [48, 16, "
         "9], [49, 16, 9], [50, 16, 9], [51, 16, 9], [52, 16, 9], [53, 16, 9], [54, 16, 9], [55, "
         "16, 9], [56, 16, 9], [57, 16, 9], [58, 16, 9], [59, 16, 9], [60, 16, 9], [61, 16, 9], "
         "[62, 16, 9], [63, 16, 9], [64, 16, 9], [65, 16, 9], [66, 16, 9], [67, 16, 9], [68, 16, "
         "9], [69, 16, 9], [70, 16, 9], [71, 16, 9], [72, 16, 9], [73, 16, 9], [74, 16, 9], [75, "
         "16, 9], [76, 16, 9], [77, 16, 9], [78, 16, 9], [79, 16, 9], [80, 16, 9], [81, 16, 9], "
         "[82, 16, 9], [83, 16, 9], [84, 16, 9], [85, 16, 9], [86, 16, 9], [87, 16, 9], [88, 16, "
         "9], [89, 16, 9], [90, 16, 9], [91, 16, 9], [92, 16, 9], [93, 16, 9], [94, 16, 9], [95, "
         "16, 9], [96, 16, 9], [97, 16, 9], [98, 16, 9], [99, 16, 9], [100, 16, 9], [101, 16, 9], "
         "[102, 16, 9], [103, 16, 9], [104, 16, 9], [105, 16, 9], [106, 16, 9], [107, 16, 9], "
         "[108, 16, 9], [109, 16, 9], [110, 16, 9], [111, 16, 9], [112, 16, 9], [113, 16, 9], "
         "[114, 16, 9], [115, 16, 9], [116, 16, 9], [117, 16, 9], [118, 16, 9], [119, 16, 9], "
         "[120, 16, 9], [121, 16, 9], [122, 16, 9], [123, 16, 9], [124, 16, 9], [125, 16, 9], "
         "[126, 16, 9], [127, 16, 9], [128, 16, 9], [129, 16, 9], [130, 16, 9], [131, 16, 9], "
         "[132, 16, 9], [133, 16, 9], [134, 16, 9], [135, 16, 9], [136, 16, 9], [137, 16, 9], "
         "[138, 16, 9], [139, 16, 9], [140, 16, 9], [141, 16, 9], [142, 16, 9], [143, 16, 9], "
         "[144, 16, 9], [145, 16, 9], [146, 16, 9], [147, 16, 9], [148, 16, 9], [149, 16, 9], "
         "[150, 16, 9], [151, 16, 9], [152, 16, 9], [153, 16, 9], [154, 16, 9], [155, 16, 9], "
         "[156, 16, 9], [157, 16, 9], [158, 16, 9], [159, 16, 9], [160, 16, 9], [161, 16, 9], "
         "[162, 16, 9], [163, 16, 9], [164, 16, 9], [165, 16, 9], [166, 16, 9], [167, 16, 9], "
         "[168, 16, 9], [169, 16, 9], [170, 16, 9], [171, 16, 9], [172, 16, 9], [173, 16, 9], "
         "[174, 16, 9], [175, 16, 9], [176, 16, 9], [177, 16, 9], [178, 16, 9], [179, 16, 9], "
         "[180, 16, 9], [181, 16, 9], [182, 16, 9], [183, 16, 9], [184, 16, 9], [185, 16, 9], "
         "[186, 16, 9], [187, 16, 9], [188, 16, 9], [189, 16, 9], [190, 16, 9], [191, 16, 9], "
         "[192, 16, 9], [193, 16, 9], [194, 16, 9], [195, 16, 9], [196, 16, 9], [197, 16, 9], "
         "[198, 16, 9], [199, 16, 9], [200, 16, 9], [201, 16, 9], [202, 16, 9], [203, 16, 9], "
         "[204, 16, 9], [205, 16, 9], [206, 16, 9], [207, 16, 9], [208, 16, 9], [209, 16, 9], "
         "[210, 16, 9], [211, 16, 9], [212, 16, 9], [213, 16, 9], [214, 16, 9], [215, 16, 9], "
         "[216, 16, 9], [217, 16, 9], [218, 16, 9], [219, 16, 9], [220, 16, 9], [221, 16, 9], "
         "[222, 16, 9], [223, 16, 9], [224, 16, 9], [225, 16, 9], [226, 16, 9], [227, 16, 9], "
         "[228, 16, 9], [229, 16, 9], [230, 16, 9], [231, 16, 9], [232, 16, 9], [233, 16, 9], "
         "[234, 16, 9], [235, 16, 9], [236, 16, 9], [237, 16, 9], [238, 16, 9], [239, 16, 9], "
         "[240, 16, 9], [241, 16, 9], [242, 16, 9], [243, 16, 9], [244, 16, 9], [245, 16, 9], "
         "[246, 16, 9], [247, 16, 9], [248, 16, 9], [249, 16, 9], [250, 16, 9], [251, 16, 9], "
         "[252, 16, 9], [253, 16, 9], [254, 16, 9], [255, 16, 9], [256, 16, 9], [257, 16, 9], "
         "[258, 16, 9], [259, 16, 9], [260, 16, 9], [261, 16, 9], [262, 16, 9], [263, 16, 9], "
         "[264, 16, 9], [265, 16, 9], [266, 16, 9], [267, 16, 9], [268, 16, 9], [269, 16, 9], "
         "[270, 16, 9], [271, 16, 9], [272, 16, 9], [273, 16, 9], [274, 16, 9], [275, 16, 9], "
         "[276, 16, 9], [277, 16, 9], [278, 16, 9], [279, 16, 9], [280, 16, 9], [281, 16, 9], "
         "[282, 16, 9], [283, 16, 9], [284, 16, 9], [285, 16, 9], [286, 16, 9], [287, 16, 9], "
         "[288, 16, 9], [289, 16, 9], [290, 16, 9], [291, 16, 9], [292, 16, 9], [293, 16, 9], "
         "[294, 16, 9], [295, 16, 9], [296, 16, 9], [297, 16, 9], [298, 16, 9], [299, 16, 9], "
         "[300, 16, 9], [301, 16, 9], [302, 16, 9], [303, 16, 9], [304, 16, 9], [305, 16, 9], "
         "[306, 16, 9], [307, 16, 9], [308, 16, 9], [309, 16, 9], [310, 16, 9], [311, 16, 9], "
         "[312, 16, 9], [313, 16, 9], [314, 16, 9], [315, 16, 9], [316, 16, 9], [317, 16, 9], "
         "[318, 16, 9], [319, 16, 9], [320, 16, 9], [321, 16, 9], [322, 16, 9], [323, 16, 9], "
         "[324, 16, 9], [325, 16, 9], [326, 16, 9], [327, 16, 9], [328, 16, 9], [329, 16, 9], "
         "[330, 16, 9], [331, 16, 9], [332, 16, 9], [333, 16, 9], [334, 16, 9], [335, 16, 9], "
         "[336, 16, 9], [337, 16, 9], [338, 16, 9], [339, 16, 9], [340, 16, 9], [341, 16, 9], "
         "[342, 16, 9], [343, 16, 9], [344, 16, 9], [345, 16, 9], [346, 16, 9], [347, 16, 9], "
         "[348, 16, 9], [349, 16, 9], [350, 16, 9], [351, 16, 9], [352, 16, 9], [353, 16, 9], "
         "[354, 16, 9], [355, 16, 9], [356, 16, 9], [357, 16, 9], [358, 16, 9], [359, 16, 9], "
         "[360, 16, 9], [361, 16, 9], [362, 16, 9], [363, 16, 9], [364, 16, 9], [365, 16, 9], "
         "[366, 16, 9], [367, 16, 9], [368, 16, 9], [369, 16, 9], [370, 16, 9], [371, 16, 9], "
         "[372, 16, 9], [373, 16, 9], [374, 16, 9], [375, 16, 9], [376, 16, 9], [377, 16, 9], "
         "[378, 16, 9], [379, 16, 9], [380, 16, 9], [381, 16, 9], [382, 16, 9], [383, 16, 9], "
         "[384, 16, 9], [385, 16, 9], [386, 16, 9], [387, 16, 9], [388, 16, 9], [389, 16, 9], "
         "[390, 16, 9], [391, 16, 9], [392, 16, 9], [393, 16, 9], [394, 16, 9], [395, 16, 9], "
         "[396, 16, 9], [397, 16, 9], [398, 16, 9], [399, 16, 9], [400, 16, 9], [401, 16, 9], "
         "[402, 16, 9], [403, 16, 9], [404, 16, 9], [405, 16, 9], [406, 16, 9], [407, 16, 9], "
         "[408, 16, 9], [409, 16, 9], [410, 16, 9], [411, 16, 9], [412, 16, 9], [413, 16, 9], "
         "[414, 16, 9], [415, 16, 9], [416, 16, 9], [417, 16, 9], [418, 16, 9], [419, 16, 9], "
         "[420, 16, 9], [421, 16, 9], [422, 16, 9], [423, 16, 9], [424, 16, 9], [425, 16, 9], "
         "[426, 16, 9], [427, 16, 9], [428, 16, 9], [429, 16, 9], [430, 16, 9], [431, 16, 9], "
         "[432, 16, 9], [433, 16, 9], [434, 16, 9], [435, 16, 9], [436, 16, 9], [437, 16, 9], "
         "[438, 16, 9], [439, 16, 9], [440, 16, 9], [441, 16, 9], [442, 16, 9], [443, 16, 9], "
         "[444, 16, 9], [445, 16, 9], [446, 16, 9], [447, 16, 9], [448, 16, 9], [449, 16, 9], "
         "[450, 16, 9], [451, 16, 9], [452, 16, 9], [453, 16, 9], [454, 16, 9], [455, 16, 9], "
         "[456, 16, 9], [457, 16, 9], [458, 16, 9], [459, 16, 9], [460, 16, 9], [461, 16, 9], "
         "[462, 16, 9], [463, 16, 9], [464, 16, 9], [465, 16, 9], [466, 16, 9], [467, 16, 9], "
         "[468, 16, 9], [469, 16, 9], [470, 16, 9], [471, 16, 9], [472, 16, 9], [473, 16, 9], "
         "[474, 16, 9], [475, 16, 9], [476, 16, 9], [477, 16, 9], [478, 16, 9], [479, 16, 9], "
         "[480, 16, 9], [481, 16, 9], [482, 16, 9], [483, 16, 9], [484, 16, 9], [485, 16, 9], "
         "[486, 16, 9], [487, 16, 9], [488, 16, 9], [489, 16, 9], [490, 16, 9], [491, 16, 9], "
         "[492, 16, 9], [493, 16, 9], [494, 16, 9], [495, 16, 9], [496, 16, 9], [497, 16, 9], "
         "[498, 16, 9], [499, 16, 9], [500, 16, 9]]}",
         "b:95:321: a log of 501 rows; right would be 2 to 500: pare import LOG.csv makes few of "
         "many"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: {motor: 40}",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: {motor: 0}",
         "b:91:63: motor of 0; right would be 1 to 10000"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: {motors: 4}",
         "b:91:56: nothing 'motors' on weir-5; is it 'motor'?"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: {joint.motor_base: 17}",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: {joint.base: 1}",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: [motor]",
         "b:91:55: of is what lay on the scale: all, or like {motor: 4, joint.motor_base: 16}"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: motor",
         "b:91:55: of is what lay on the scale: all, or like {motor: 4, joint.motor_base: 16}"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: {}",
         "b:91:55: of is what lay on the scale: all, or like {motor: 4, joint.motor_base: 16}"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: {motor: four}",
         "b:91:63: motor: four does not start with one plain number: a count needs a bare number"},
        {"of: {motor: 4, joint.motor_base: 16}", "of: {motor: 4, motor: 4}",
         "b:91:66: 'motor' stands here a second time; once is enough (line 91)"},
        {"reads: 140.2 g", "reads: 140.2",
         "b:91:96: reads: 140.2 has no unit: a mass needs g, kg, oz or lb"},
        {"reads: 140.2 g", "reads: heavy",
         "b:91:96: reads: heavy does not start with one plain number: a mass needs g, kg, oz or "
         "lb"},
        {"reads: 140.2 g", "reads: -1 g", "b:91:96: reads of -1 g; right would be 0 g to 100000 g"},
        {"reads: 140.2 g", "reads: 140.2 g, promise: 139 g .. 141 g",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"reads: 140.2 g", "reads: 140.2 g, promise: 141 g .. 139 g",
         "b:91:114: promise: 141 g .. 139 g runs downwards: the lower end comes first"},
        {"reads: 140.2 g", "reads: 140.2 g, promise: light",
         "b:91:114: promise: light does not start with one plain number: a mass needs g, kg, oz or "
         "lb"},
        {"reads: 140.2 g", "reads: 140.2 g, promise: 139 g .. 900 kg",
         "b:91:114: promise of 139 g .. 900 kg; right would be -100000 g to 100000 g"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: [{date: "
         "2026-04-01, known: 200 g, known_u: 0.01 g, reads: 200.1 g}]",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: [{date: "
         "2026-04-01, known: 200 g, reads: 200.1 g}]",
         "b:89:80: a check without known_u"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: [{known: 200 "
         "g, known_u: 0.01 g, reads: 200.1 g}]",
         "b:89:80: a check without date"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: [{date: "
         "today, known: 200 g, known_u: 0.01 g, reads: 200.1 g}]",
         "b:89:87: date 'today' is no day; right would be like 2026-03-01"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: [{date: "
         "2026-04-01, known: 200, known_u: 0.01 g, reads: 200.1 g}]",
         "b:89:106: known: 200 has no unit: a mass needs g, kg, oz or lb"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: [{date: "
         "2026-04-01, known: 200 g, known_u: 0.01 g, reads: 200 kg}]",
         "b:89:137: reads of 200 kg; right would be 0 g to 100000 g"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: [{day: "
         "2026-04-01}]",
         "b:89:81: a check has no key 'day'; right would be one of date, known, known_u, reads"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: {date: "
         "2026-04-01}",
         "b:89:79: checks is a list here: [one, two]"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: [today]",
         "b:89:80: a check is a map of keys here: {key: value}"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, checks: []",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %",
         "{id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %, repeatability: 0.2 g",
         "b:89:71: 'repeatability' stands here a second time; once is enough (line 89)"},
        {"loadout: race, pack: pa-w", "loadout: fast, pack: pa-w",
         "taken: 0 parts, 0 craft and 1 records otherwise\nwarning: b:95:46: weir-5 has no loadout "
         "'fast', so this is kept but not used; right would be race, long"},
        {"loadout: race, pack: pa-w", "loadout: [race], pack: pa-w",
         "b:95:46: loadout is one value here, not a list or a map"},
        {"loadout: race, pack: pa-w", "loadout: long, pack: pa-w",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"loadout: race, pack: pa-w", "loadout: race, pack: pa-x",
         "b:95:58: no part 'pa-x' on the bench; is it 'pa-w'?"},
        {"loadout: race, pack: pa-w", "loadout: race, pack: mo-w",
         "b:95:58: 'mo-w' is a part of kind motor; right would be a pack"},
        {"loadout: race, pack: pa-w", "loadout: race, pack: pa-w2",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"loadout: race, pack: pa-w", "loadout: race, pack: [pa-w]",
         "b:95:58: pack is one value here, not a list or a map"},
        {"pa-w, which: 2,", "pa-w, which: 0,", "b:95:71: which of 0; right would be 1 to 10000"},
        {"pa-w, which: 2,", "pa-w, which: two,",
         "b:95:71: which: two does not start with one plain number: a count needs a bare number"},
        {"pa-w, which: 2,", "pa-w, which: 3,", "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"pa-w, which: 2,", "pa-w, which: 2.5,",
         "b:95:71: which: 2.5 is no count: a whole number from 0 to 1000000000"},
        {"pa-w, which: 2,", "pa-w, which: 4000,",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf}, rows: [[50, 15.9, 8.4, "
         "420]]",
         "b:97:146: a stand table of 1 row; right would be two or more"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf}, rows: []",
         "b:97:146: a stand table of 0 rows; right would be two or more"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf}, rows: [[50, 15.9, 8.4], "
         "[100, 15.2, 27, 890]]",
         "b:97:147: a row of 3 numbers; right would be 4, as many as columns"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf}, rows: [[50, 15.9, 8.4, "
         "-420], [100, 15.2, 27, 890]]",
         "b:97:163: row 1: thrust -420 gf: its sign is reversed; right would be a pull above 0"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf}, rows: [[50, 0, 8.4, 420], "
         "[100, 15.2, 27, 890]]",
         "b:97:152: row 1: volts 0 V; right would be 0.5 V to 120 V"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf}, rows: [[50, 15.9, lots, "
         "420], [100, 15.2, 27, 890]]",
         "b:97:158: a number of the table: lots does not start with one plain number: a number "
         "needs no unit"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf}, rows: [[150, 15.9, 8.4, "
         "420], [100, 15.2, 27, 890]]",
         "b:97:148: row 1: throttle 150 %; right would be 0 % to 100 %"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, thrust: gf}, rows: [[50, 15.9, 420], [100, 15.2, "
         "890]]",
         "b:97:134: a stand table without current or power; right would be columns of volts, "
         "thrust, and current or power"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {volts: V, current: A, thrust: gf}, rows: [[15.9, 8.4, 420], [15.2, 27, 890]]",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: gf, current: A, thrust: gf}, rows: [[50, 15.9, 8.4, "
         "420], [100, 15.2, 27, 890]]",
         "b:97:112: column volts in 'gf'; right would be V, mV"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: 1, volts: V, current: A, thrust: gf}, rows: [[0.5, 15.9, 8.4, 420], "
         "[1, 15.2, 27, 890]]",
         "b:97:100: column throttle in '1'; right would be %, a bare number"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, power: W, thrust: gf}, rows: [[50, 15.9, 134, 420], "
         "[100, 15.2, 410, 890]]",
         "taken: 0 parts, 0 craft and 1 records otherwise"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf, torque: N}, rows: [[50, "
         "15.9, 8.4, 420, 1], [100, 15.2, 27, 890, 2]]",
         "b:97:147: column torque in 'N'; right would be N m, mN m, N cm, kgf cm"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf}, rows: [[[50], 15.9, 8.4, "
         "420], [100, 15.2, 27, 890]]",
         "b:97:148: a number of the table is one value here, not a list or a map"},
        {"columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}, rows: [[50, "
         "15.9, 8.4, 420, 17100], [100, 15.2, 27, 890, 24900]]",
         "columns: {throttle: \"%\", volts: V, current: A, thrust: gf}, rows: [[50, 15.9, 8.4, "
         "9e9], [100, 15.2, 27, 890]]",
         "b:97:163: a number of the table of 9e9; right would be -1e+09 to 1e+09"},
    };
    EXPECT(cases);
}

#define WITH_BENCH(test) cmocka_unit_test_setup_teardown(test, store_setup, store_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_BENCH(what_a_part_says_of_itself_is_taken_or_refused),
        WITH_BENCH(what_a_craft_says_of_itself_is_taken_or_refused),
        WITH_BENCH(what_a_record_says_is_taken_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
