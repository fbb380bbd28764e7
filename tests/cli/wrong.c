/* wrong.c: what is wrong is said in one line, with the right exit status, and changes nothing.
 *
 * The messages, word for word, are in golden/wrong*.txt: each was read as the person who has to act
 * on it. */
#include "run.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct wrong {
    int status;
    const char *line;
} wrong;

/* Runs each, checks its status and that it says one line, and compares all that was said. */
static void say(const char *golden, size_t count, const wrong cases[])
{
    char *all = calloc(1, 1 << 16);
    assert_non_null(all);
    for (size_t i = 0; i < count; i++) {
        ran r = run(cases[i].line);
        if (r.status != cases[i].status)
            fail_msg("pare %s: exit status %d, wanted %d\n%s", cases[i].line, r.status,
                     cases[i].status, r.err);
        assert_string_equal(r.out, "");
        assert_int_equal(strncmp(r.err, "pare: ", 6), 0);
        const char *end = strchr(r.err, '\n');
        if (!end || end[1])
            fail_msg("pare %s: more than one line\n%s", cases[i].line, r.err);
        assert_true(strlen(all) + strlen(r.err) + strlen(cases[i].line) + 32 < 1 << 16);
        snprintf(all + strlen(all), (1 << 16) - strlen(all), "$ pare %s\n[%d] %s", cases[i].line,
                 r.status, r.err);
        ran_free(&r);
    }
    assert_golden(golden, all);
    free(all);
}

#define SAY(golden, cases) say((golden), sizeof(cases) / sizeof(cases)[0], (cases))

static void unknown_names_are_answered_with_the_nearest(void **state)
{
    (void)state;
    static const wrong cases[] = {
        {2, "shet hedgerow"},
        {2, "qqqqqq"},
        {2, "help swops"},
        {2, "sheet hedgerow --tri bumper=off"},
        {2, "sheet hedgerow --wish grams"},
        {2, "calc airr altitude=0m"},
        {2, "calc rocket"},
        {2, "calc air altitud=0m"},
        {2, "calc motor voltage=3V"},
        {2, "sheet hedgerwo" DEMO},
        {2, "sheet zeppelin" DEMO},
        {2, "sheet zeppelin --json" DEMO},
        {2, "swaps hedgrow" DEMO},
        {2, "sheet hedgerow --loadout rice" DEMO},
        {2, "sheet hedgerow --try bumpr=off" DEMO},
        {2, "sheet hedgerow --try motor=mo-2207-1959" DEMO},
        {2, "sheet hedgerow --try bumper" DEMO},
        {2, "sheet hedgerow --try joint.motor_base.colour=red" DEMO},
        {2, "sheet hedgerow --try bumper=off,bumper=bu-thin" DEMO},
        {2, "parts show mo-2207-195" DEMO},
        {2, "parts --kind mottor" DEMO},
        {2, "parts mas<12g" DEMO},
        {2, "parts maker=teasel" DEMO},
        {2, "parts kind=motor" DEMO},
        {2, "parts --kind motor cells>=6" DEMO},
        {2, "parts --sort mas" DEMO},
        {2, "parts --for hedgero.motor" DEMO},
        {2, "parts --for hedgerow.moter" DEMO},
        {2, "parts --for hedgerow.motor --loadout rice" DEMO},
        {2, "craft show hedgero" DEMO},
        {2, "craft hedgerow" DEMO},
        {2, "compare hedgerow bodkn" DEMO},
        {2, "compare hedgerow:rase bodkin" DEMO},
        {2, "sheet HEDGE" DEMO},
        {2, "--versoin"},
        {2, "help craft strat"},
        {2, "help sheet hedgerow"},
        {2, "--json sheet hedgerow"},
        {2, "craft strat plover"},
        {2, "sheet hedgerow --try tpu=off" DEMO},
        {2, "sheet hedgerow --try joint.wing.count=2" DEMO},
        {2, "sheet hedgerow --try run.wing.gauge=20" DEMO},
        {2, "sheet hedgerow --try joint.motor_base.material=titan" DEMO},
    };
    SAY("wrong-names", cases);
}

static void values_that_cannot_be_are_refused(void **state)
{
    (void)state;
    static const wrong cases[] = {
        {3, "calc"},
        {3, "calc air"},
        {3, "calc air altitude"},
        {3, "calc air altitude=1500"},
        {3, "calc air altitude=1500g"},
        {3, "calc air altitude=nan"},
        {3, "calc air altitude=1e999m"},
        {3, "calc air altitude=inf~m"},
        {3, "calc air altitude=-9000m"},
        {3, "calc air altitude=12~apples"},
        {3, "calc air altitude="},
        {3, "calc air altitude=1m altitude=2m"},
        {3, "calc prop diameter=5in pitch=4.3in blades=2.5 rpm=14000"},
        {3, "calc prop diameter=5in pitch=4.3in blades=3 rpm=-1"},
        {3, "calc prop diameter=5kg pitch=4.3in blades=3 rpm=14000"},
        {3, "calc pack volts=14.8V resistance=20mohm power=3000W"},
        {3, "calc pack"},
        {3, "calc pack volts=14.8V resistance=20mohm"},
        {3, "calc pack volts=14.8V resistance=20mohm power=30W charge=50%"},
        {3, "calc pack chemistry=lead capacity=1Ah current=1A"},
        {3, "calc pack chemistry=lipo capacity=1Ah"},
        {3, "calc pack chemistry=lipo capacity=1Ah current=1A power=4W"},
        {3, "calc pack chemistry=lipo capacity=1Ah current=1A volts=4V"},
        {3, "calc pack chemistry=lipo capacity=1Ah power=0W"},
        {3, "calc pack chemistry=lipo capacity=1Ah power=100kW"},
        {3, "calc pack chemistry=lipo capacity=1Ah current=9000A"},
        {3, "calc pack chemistry=lipo capacity=1Ah current=1A charge=120%"},
        {3, "calc pack chemistry=lipo capacity=1Ah current=1A read_as=ac"},
        {3, "calc pack chemistry=lipo capacity=1Ah current=1A cell_resistance=5mohm read_as=guess"},
        {3, "calc pack chemistry=lipo capacity=1Ah current=1A heat=maybe"},
        {3, "calc pack chemistry=lipo capacity=1Ah current=1A temperature=200degC"},
        {3, "calc motor kv=2300 resistance=60mohm no_load=1.2A volts=14.8V current=-10A"},
        {3, "calc motor kv=2300 resistance=60mohm no_load=1.2A volts=14.8V current=10A "
            "measured=10/nan/1"},
        {3, "calc motor kv=2300 resistance=60mohm no_load=1.2A volts=14.8V current=10A "
            "measured=10/5/-9"},
        {3, "calc motor kv=2300 resistance=60mohm no_load=1.2A volts=14.8V current=10A "
            "measured=10/5/60000"},
        {3,
         "calc motor kv=2300 resistance=60mohm no_load=1.2A volts=14.8V current=10A measured=10/5"},
        {3,
         "calc motor kv=2300 resistance=60mohm no_load=1.2A volts=14.8V current=10A drive=maybe"},
        {3, "calc solid shape=box mass=57g size=75mm,36mm"},
        {3, "calc solid shape=bx mass=57g size=75mm,36mm,31mm"},
        {3, "calc solid shape=box mass=-57g size=75mm,36mm,31mm"},
        {3, "calc solid shape=tube mass=5g size=5mm,6mm,7mm"},
        {3, "calc mesh file=none.stl density=1g/cm3"},
        {3, "calc mesh file=data density=1g/cm3"},
        {3, "calc mesh file=none.stl density=1g"},
        {3, "sheet"},
        {3, "sheet a b"},
        {3, "sheet hedgerow --try"},
        {3, "sheet hedgerow --json=yes"},
        {3, "swaps hedgerow --wish gold" DEMO},
        {3, "swaps hedgerow --wish gramms" DEMO},
        {3, "sheet hedgerow --try run.lead.gauge=99" DEMO},
        {3, "sheet hedgerow --try run.lead.length=70" DEMO},
        {3, "sheet hedgerow --try joint.motor_base.length=nan" DEMO},
        {3, "sheet hedgerow --try frame=off" DEMO},
        {3, "sheet hedgerow --try propeller=off" DEMO},
        {3, "parts mass<12" DEMO},
        {3, "parts mass<12A" DEMO},
        {3, "parts mass=<12g" DEMO},
        {3, "parts <12g" DEMO},
        {3, "parts mass<" DEMO},
        {3, "parts mass<nan" DEMO},
        {3, "parts mass<12g~cells" DEMO},
        {3, "parts light~mass<12g" DEMO},
        {3, "parts kv=1800..1700" DEMO},
        {3, "parts kv<1700..1800" DEMO},
        {3, "parts cells>=6.5" DEMO},
        {3, "parts price<20~EUR" DEMO},
        {3, "parts .*=.*" DEMO},
        {3, "parts mass<12g';~DROP~TABLE~part;--" DEMO},
        {3, "parts --sort mass:dwn" DEMO},
        {3, "parts --lighter" DEMO},
        {3, "parts --loadout race" DEMO},
        {3, "parts --for hedgerow" DEMO},
        {3, "parts --for hedgerow.action_camera --loadout race" DEMO},
        {3, "export --json" DEMO},
        {3, "export extra" DEMO},
        {3, "demo now"},
        {3, "compare" DEMO},
        {3, "compare hedgerow bodkin --try frame=off" DEMO},
    };
    SAY("wrong-values", cases);
}

static void a_bench_that_is_none_is_left_alone(void **state)
{
    (void)state;
    write_text("letter.txt", "Dear club,\n");
    write_text("empty.sqlite", "");
    static const wrong cases[] = {
        {3, "sheet hedgerow"}, /* the demo's is there, the user's is not */
        {3, "sheet hedgerow --bench nowhere.sqlite"},
        {3, "sheet hedgerow --bench letter.txt"},
        {3, "sheet hedgerow --bench empty.sqlite"},
        {3, "sheet hedgerow --bench data"},
        {3, "import letter.txt --bench letter.txt"},
        {3, "demo --bench letter.txt"},
    };
    SAY("wrong-bench", cases);
    ran r = run("calc air altitude=0m");
    assert_int_equal(r.status, 0);
    ran_free(&r);
    char *letter = read_file("letter.txt");
    assert_string_equal(letter, "Dear club,\n");
    free(letter);
}

/* A text that is a bench but for one place. */
static void write_bench(const char *name, const char *mass, const char *items)
{
    char text[4096];
    snprintf(text, sizeof text,
             "pare: 1\n"
             "parts:\n"
             "- {id: fr, kind: frame, mass: %s, spec: {wheelbase: 226 mm}}\n"
             "- {id: mo, kind: motor, mass: 30 g, spec: {stator: 22 mm x 7 mm, kv: 1950}}\n"
             "- {id: pr, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}}\n"
             "- {id: es, kind: esc_four, mass: 11 g, spec: {continuous: 45 A}}\n"
             "- {id: pa, kind: pack, spec: {chemistry: lipo, cells: 6, capacity: 1050 mAh}}\n"
             "craft:\n"
             "- name: plain\n"
             "  items:\n"
             "    frame: {part: fr}\n"
             "    motor: {part: mo, count: 4, at: arms}\n"
             "    esc: {part: es}\n"
             "    pack: {part: pa}\n"
             "%s",
             mass, items);
    write_text(name, text);
}

#define PROPELLERS "    propeller: {part: pr, count: 4, at: arms}\n"

static void texts_that_are_no_bench_are_refused_with_their_place(void **state)
{
    (void)state;
    write_text("broken.yaml", "pare: 1\nparts:\n- {id: a, kind: [motor\n");
    write_text("tab.yaml", "pare: 1\nparts:\n\t- id: a\n");
    write_text("scalar.yaml", "hello\n");
    write_text("version.yaml", "pare: 7\n");
    write_text("key.yaml", "pare: 1\nprats: []\n");
    write_file("binary.yaml", "pare: 1\n\0\1\2\377\376", 13);
    write_text("bomb.yaml", "pare: 1\na: &a [x, x]\nb: &b [*a, *a]\nparts: [*b, *b]\n");
    write_bench("nan.yaml", ".nan g", PROPELLERS);
    write_bench("huge-number.yaml", "1e999 g", PROPELLERS);
    write_bench("negative.yaml", "-5 g", PROPELLERS);
    write_bench("bare.yaml", "95", PROPELLERS);
    write_bench("unit.yaml", "95 mm", PROPELLERS);
    write_bench("no-propellers.yaml", "95 g", "");
    write_bench("no-part.yaml", "95 g", "    propeller: {part: prop, count: 4, at: arms}\n");
    write_bench("count.yaml", "95 g", "    propeller: {part: pr, count: 3, at: arms}\n");
    write_bench("item-key.yaml", "95 g", "    propeller: {part: pr, cuont: 4, at: arms}\n");
    char *deep = malloc(200001);
    assert_non_null(deep);
    memset(deep, '[', 200000);
    deep[200000] = '\0';
    write_text("deep.yaml", deep);
    free(deep);
    static const wrong cases[] = {
        {3, "import missing.yaml --bench new.sqlite"},
        {3, "import data --bench new.sqlite"},
        {3, "import broken.yaml --bench new.sqlite"},
        {3, "import tab.yaml --bench new.sqlite"},
        {3, "import scalar.yaml --bench new.sqlite"},
        {3, "import version.yaml --bench new.sqlite"},
        {2, "import key.yaml --bench new.sqlite"},
        {3, "import binary.yaml --bench new.sqlite"},
        {3, "import bomb.yaml --bench new.sqlite"},
        {3, "import deep.yaml --bench new.sqlite"},
        {3, "import nan.yaml --bench new.sqlite"},
        {3, "import huge-number.yaml --bench new.sqlite"},
        {3, "import negative.yaml --bench new.sqlite"},
        {3, "import bare.yaml --bench new.sqlite"},
        {3, "import unit.yaml --bench new.sqlite"},
        {3, "import no-propellers.yaml --bench new.sqlite"},
        {2, "import no-part.yaml --bench new.sqlite"},
        {3, "import count.yaml --bench new.sqlite"},
        {2, "import item-key.yaml --bench new.sqlite"},
    };
    SAY("wrong-text", cases);
    json_t *before = run_json("craft --json" DEMO);
    ran r = run("import nan.yaml" DEMO);
    assert_int_equal(r.status, 3);
    ran_free(&r);
    json_t *after = run_json("craft --json" DEMO);
    assert_true(json_equal(before, after));
    json_decref(before);
    json_decref(after);
}

static void a_huge_text_is_refused(void **state)
{
    (void)state;
    write_zeros("huge.yaml", 2LL << 30);
    ran r = run("import huge.yaml --bench new.sqlite");
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "huge.yaml"));
    ran_free(&r);
    unlink("huge.yaml");
}

/* A binary STL: 80 bytes of header, a count, then 50 bytes a triangle. */
static void write_binary_stl(const char *name, unsigned char count, float coordinate)
{
    unsigned char bytes[84 + 50] = {0};
    bytes[80] = count;
    for (size_t i = 0; i < 9; i++)
        memcpy(bytes + 84 + 12 + 4 * i, &coordinate, sizeof coordinate);
    write_file(name, bytes, sizeof bytes);
}

static void meshes_that_lie_are_refused(void **state)
{
    (void)state;
    write_binary_stl("lies.stl", 200, 1);
    write_binary_stl("nan.stl", 1, (float)strtod("nan", NULL));
    write_text("cut.stl", "solid x\nfacet normal 0 0 0\nouter loop\nvertex 1 2\n");
    write_text("word.stl", "solid x\nfacet normal 0 0 0\nouter loop\nvertex 1 2 three\n");
    write_text("none.stl", "solid x\nendsolid x\n");
    write_text("short.stl", "so");
    static const wrong cases[] = {
        {3, "calc mesh file=lies.stl density=1g/cm3"},
        {3, "calc mesh file=nan.stl density=1g/cm3"},
        {3, "calc mesh file=cut.stl density=1g/cm3"},
        {3, "calc mesh file=word.stl density=1g/cm3"},
        {3, "calc mesh file=none.stl density=1g/cm3"},
        {3, "calc mesh file=short.stl density=1g/cm3"},
        {3, "calc mesh file=lies.stl density=1g/cm3 unit=parsec"},
    };
    SAY("wrong-mesh", cases);
}

static void the_demo_leaves_a_bench_of_the_users_alone(void **state)
{
    (void)state;
    write_bench("mine.yaml", "95 g", PROPELLERS);
    ran r = run("import mine.yaml --bench mine.sqlite");
    assert_int_equal(r.status, 0);
    ran_free(&r);
    json_t *before = run_json("craft --json --bench mine.sqlite");
    r = run("demo --bench mine.sqlite");
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "holds a craft of your own ('plain')"));
    ran_free(&r);
    json_t *after = run_json("craft --json --bench mine.sqlite");
    assert_true(json_equal(before, after));
    json_decref(before);
    json_decref(after);
}

static void a_bench_that_another_program_writes_is_not_waited_for_for_ever(void **state)
{
    (void)state;
    write_bench("more.yaml", "95 g", PROPELLERS);
    json_t *before = run_json("craft --json" DEMO);
    sqlite3 *other = NULL;
    assert_int_equal(sqlite3_open("data/pare/demo.sqlite", &other), SQLITE_OK);
    assert_int_equal(sqlite3_exec(other, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
    ran r = run("import more.yaml" DEMO);
    assert_int_equal(r.status, 4);
    assert_string_equal(r.out, "");
    assert_golden("wrong-locked", r.err);
    ran_free(&r);
    /* Reading goes on meanwhile. */
    json_t *during = run_json("craft --json" DEMO);
    assert_true(json_equal(before, during));
    assert_int_equal(sqlite3_close(other), SQLITE_OK);
    json_t *after = run_json("craft --json" DEMO);
    assert_true(json_equal(before, after));
    json_decref(before);
    json_decref(during);
    json_decref(after);
}

static void a_broken_limit_is_named_and_exits_with_1(void **state)
{
    (void)state;
    ran r = run("sheet hedgerow --check" DEMO);
    assert_int_equal(r.status, 1);
    assert_non_null(strstr(r.err, "pare: hedgerow breaks its brief: all-up mass is "));
    assert_non_null(strstr(r.out, "all-up"));
    ran_free(&r);
    r = run("sheet bodkin --check" DEMO);
    assert_int_equal(r.status, 0);
    assert_string_equal(r.err, "");
    ran_free(&r);
}

static void a_full_disk_is_said(void **state)
{
    (void)state;
    if (access("/dev/full", W_OK) != 0)
        skip();
    ran r = run("export -o /dev/full" DEMO);
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "/dev/full: no regular file"));
    ran_free(&r);
}

static void an_export_that_fails_leaves_the_old_file(void **state)
{
    (void)state;
    mkdir("kept", 0700);
    write_text("kept/bench.yaml", "old\n");
    write_text("kept/bu-thick.stl", "someone else's\n");
    ran r = run("export -o kept/bench.yaml" DEMO);
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "bu-thick.stl"));
    ran_free(&r);
    char *kept = read_file("kept/bench.yaml");
    assert_string_equal(kept, "old\n");
    free(kept);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(unknown_names_are_answered_with_the_nearest),
        cmocka_unit_test(values_that_cannot_be_are_refused),
        cmocka_unit_test(a_bench_that_is_none_is_left_alone),
        cmocka_unit_test(texts_that_are_no_bench_are_refused_with_their_place),
        cmocka_unit_test(a_huge_text_is_refused),
        cmocka_unit_test(meshes_that_lie_are_refused),
        cmocka_unit_test(the_demo_leaves_a_bench_of_the_users_alone),
        cmocka_unit_test(a_bench_that_another_program_writes_is_not_waited_for_for_ever),
        cmocka_unit_test(a_broken_limit_is_named_and_exits_with_1),
        cmocka_unit_test(a_full_disk_is_said),
        cmocka_unit_test(an_export_that_fails_leaves_the_old_file),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
