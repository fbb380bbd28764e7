/* hostile.c: files and circumstances that are out to hurt, and what a person is told of each.
 *
 * golden/hostile.txt is the table: the command, the exit status, and the one line. After each the bench
 * exports the same bytes as before. Lists in CSV have a table of their own (lists.c); how the readers
 * take every cut and every flipped byte is in tests/unit. */
#include "run.h"
#include "zip_of.h"

#include "base/text.h"

#include <signal.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define MINE " --bench mine.sqlite"

static const char BENCH[] =
    "pare: 1\nmoney: EUR\nparts:\n"
    "- {id: fr, kind: frame, mass: 95 g, spec: {wheelbase: 226 mm}}\n"
    "- {id: mo, kind: motor, mass: 30 g, spec: {stator: 22 mm x 7 mm, kv: 1950}}\n"
    "- {id: pl, kind: other, body: {plate: top, outline: top.svg, thick: 2 mm, material: "
    "carbon}}\n";
static const char OUTLINE[] = "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='30mm'>"
                              "<rect width='40mm' height='30mm'/></svg>";

static char *exported(void)
{
    ran r = run("export" MINE);
    if (r.status != 0)
        fail_msg("%s", r.err);
    free(r.err);
    return r.out;
}

/* Runs one, which must fail in one line and leave the bench as it was; puts it into the table. */
static void refused(int status, const char *line, pare_text *table)
{
    char *before = exported();
    ran r = run(line);
    const char *end = strchr(r.err, '\n');
    if (r.status != status || r.out[0] || strncmp(r.err, "pare: ", 6) != 0 || !end || end[1])
        fail_msg("pare %s: exit status %d, wanted %d with one line\n%s%s", line, r.status, status,
                 r.out, r.err);
    char *after = exported();
    assert_string_equal(after, before);
    pare_text_printf(table, "$ pare %s\n[%d] %s", line, r.status, r.err);
    ran_free(&r);
    free(before);
    free(after);
}

/* ---- texts of a bench ---- */

static void repeat(const char *what, size_t times, pare_text *text)
{
    for (size_t i = 0; i < times; i++)
        pare_text_add(text, what);
}

static void write_made(const char *name, pare_text *text)
{
    assert_false(text->failed);
    write_file(name, text->bytes, text->length);
    text->length = 0;
}

static void texts(pare_text *table)
{
    pare_text text = {0};
    static const struct {
        const char *name, *text;
        size_t length; /* 0: of the string */
        int status;
    } files[] = {
        {"anchor.yaml", "pare: 1\nparts: &a [x, x]\ncraft: [*a, *a]\n", 0, 3},
        {"alias.yaml", "pare: 1\nparts: [*a]\n", 0, 3},
        {"tag.yaml", "pare: 1\nparts: !!binary aGk=\n", 0, 3},
        {"merge.yaml", "pare: 1\n<<: {parts: []}\n", 0, 2},
        {"twice.yaml", "pare: 1\nparts: []\nparts: []\n", 0, 3},
        {"key-twice.yaml", "pare: 1\nparts:\n- {id: a, kind: other, mass: 1 g, mass: 2 g}\n", 0, 3},
        {"id-twice.yaml",
         "pare: 1\nparts:\n- {id: a, kind: other, mass: 1 g}\n- {id: a, kind: other, mass: 2 g}\n",
         0, 3},
        {"two.yaml", "pare: 1\n---\npare: 1\n", 0, 3},
        {"nul.yaml", "pare: 1\nmoney: E\0R\n", 19, 3},
        {"latin1.yaml", "pare: 1\nparts:\n- {id: a, maker: Caf\xe9}\n", 0, 3},
        {"overlong.yaml", "pare: 1\nmoney: \xc0\xaf\n", 0, 3},
        {"surrogate.yaml", "pare: 1\nmoney: \xed\xa0\x80\n", 0, 3},
        {"utf16.yaml", "\xff\xfep\0a\0r\0e\0", 10, 3},
        {"escape.yaml", "pare: 1\nmoney: \"\\e[2J\"\n", 0, 3},
        {"turned.yaml", "pare: 1\nparts: [{id: a, maker: \"\xe2\x80\xaex\"}]\n", 0, 3},
        {"nan.yaml", "pare: 1\nparts: [{id: a, kind: other, mass: .nan}]\n", 0, 3},
        {"huge.yaml", "pare: 1\nparts: [{id: a, kind: other, mass: 1e400 g}]\n", 0, 3},
        {"late.yaml",
         "pare: 1\nparts:\n- {id: a, kind: other, mass: 1 g}\n- {id: b, kind: rocket}\n", 0, 3},
        {"cut.yaml", "pare: 1\nparts:\n- {id: a, kind: other, mass: 1 g}\n- {id: b, ki", 0, 3},
        {"up.yaml", "pare: 1\nparts: [{id: a, kind: printed, body: {mesh: ../../etc/passwd}}]\n", 0,
         3},
        {"absolute.yaml", "pare: 1\nparts: [{id: a, kind: printed, body: {mesh: /etc/passwd}}]\n",
         0, 3},
        {"back.yaml", "pare: 1\nparts: [{id: a, kind: printed, body: {mesh: 'a\\b.stl'}}]\n", 0, 3},
    };
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        char line[100];
        write_file(files[i].name, files[i].text,
                   files[i].length ? files[i].length : strlen(files[i].text));
        snprintf(line, sizeof line, "import %s" MINE, files[i].name);
        refused(files[i].status, line, table);
    }
    pare_text_add(&text, "pare: 1\nparts: ");
    repeat("[", 100000, &text);
    write_made("deep.yaml", &text);
    refused(3, "import deep.yaml" MINE, table);
    pare_text_add(&text, "pare: 1\ncraft: {");
    for (int i = 0; i < 1000001; i++)
        pare_text_printf(&text, "%d: 1,", i);
    pare_text_add(&text, "}\n");
    write_made("keys.yaml", &text);
    refused(3, "import keys.yaml" MINE, table);
    pare_text_add(&text, "pare: 1\n? ");
    repeat("k", 4000, &text);
    pare_text_add(&text, "\n: 1\n");
    write_made("long-key.yaml", &text);
    refused(3, "import long-key.yaml" MINE, table);
    write_zeros("large.yaml", (64LL << 20) + 1);
    refused(3, "import large.yaml" MINE, table);
    pare_text_free(&text);
}

/* ---- models ---- */

#define BOX_MODEL                                                                                  \
    MODEL_HEAD ">"                                                                                 \
               "<resources><object id='1'>" BOX_MESH(                                              \
                   "20", "20", "20") "</object></resources>"                                       \
                                     "<build><item objectid='1'/></build></model>"

static void write_zip(const char *name, size_t count, const zip_entry entries[])
{
    const zip_bytes z = zip_of(count, entries, 6);
    write_file(name, z.at, z.length);
    free(z.at);
}

/* Puts bytes into the headers of an archive's entries: the local ones and the directory's. */
static void write_altered(const char *name, size_t in_local, size_t in_directory, const char *bytes,
                          size_t count)
{
    zip_bytes z = three_mf_of(BOX_MODEL);
    for (size_t i = 0; i + 46 < z.length; i++) {
        if (memcmp(z.at + i, "PK\3\4", 4) == 0)
            memcpy(z.at + i + in_local, bytes, count);
        if (memcmp(z.at + i, "PK\1\2", 4) == 0)
            memcpy(z.at + i + in_directory, bytes, count);
    }
    write_file(name, z.at, z.length);
    free(z.at);
}

static void archives(pare_text *table)
{
    static const char model[] = "3D/3dmodel.model";
    static const struct {
        const char *name;
        zip_entry entry[2];
    } files[] = {
        {"dots.3mf", {{model, BOX_MODEL, 0}, {"../../.profile", "x", 0}}},
        {"root.3mf", {{model, BOX_MODEL, 0}, {"/etc/cron.d/x", "x", 0}}},
        {"slash.3mf", {{model, BOX_MODEL, 0}, {"..\\..\\x", "x", 0}}},
        {"drive.3mf", {{model, BOX_MODEL, 0}, {"C:x", "x", 0}}},
        {"same.3mf", {{model, BOX_MODEL, 0}, {model, BOX_MODEL, 0}}},
        {"none.3mf", {{"readme", "x", 0}, {"more", "x", 0}}},
        {"zip-in-zip.3mf", {{model, "PK\3\4 not XML", 0}, {"readme", "x", 0}}},
    };
    char line[100];
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        write_zip(files[i].name, 2, files[i].entry);
        snprintf(line, sizeof line, "import %s" MINE, files[i].name);
        refused(3, line, table);
    }
    /* 193 MiB of blanks pack to 200 kB. */
    const size_t size = (size_t)193 << 20;
    char *blanks = malloc(size);
    assert_non_null(blanks);
    memset(blanks, ' ', size);
    const zip_entry bomb = {model, blanks, size};
    write_zip("bomb.3mf", 1, &bomb);
    refused(3, "import bomb.3mf" MINE, table);
    const zip_entry book[] = {
        {"xl/workbook.xml", "<w xmlns:r='r'><sheet name='A' r:id='a'/></w>", 0},
        {"xl/_rels/workbook.xml.rels", "<r><Relationship Id='a' Target='a.xml'/></r>", 0},
        {"xl/a.xml", blanks, size}};
    write_zip("bomb.xlsx", 3, book);
    refused(3, "import bomb.xlsx" MINE, table);
    free(blanks);
    write_altered("crc.3mf", 14, 16, "\1\2\3\4", 4);
    refused(3, "import crc.3mf" MINE, table);
    write_altered("encrypted.3mf", 6, 8, "\1", 1);
    refused(3, "import encrypted.3mf" MINE, table);
    zip_bytes z = three_mf_of(BOX_MODEL);
    write_file("cut.3mf", z.at, z.length / 2);
    free(z.at);
    refused(3, "import cut.3mf" MINE, table);
    write_text("letter.3mf", "Dear club,\n");
    refused(3, "import letter.3mf" MINE, table);
}

static void models(pare_text *table)
{
    static const struct {
        const char *name, *model;
    } files[] = {
        {"laughs.3mf", "<!DOCTYPE x [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;&a;'>"
                       "<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;&b;'>]><model>&c;</model>"},
        {"external.3mf",
         "<!DOCTYPE x [<!ENTITY a SYSTEM 'file:///etc/passwd'>]><model>&a;</model>"},
        {"index.3mf", MODEL_HEAD "><resources><object id='1'><mesh><vertices><vertex x='0' y='0' "
                                 "z='0'/></vertices><triangles><triangle v1='0' v2='0' "
                                 "v3='4294967295'/></triangles></mesh></object></resources><build>"
                                 "<item objectid='1'/></build></model>"},
        {"nan.3mf",
         MODEL_HEAD "><resources><object id='1'>" BOX_MESH(
             "nan", "1", "1") "</object></resources><build><item objectid='1'/></build></model>"},
        {"itself.3mf", MODEL_HEAD "><resources><object id='1'><components><component objectid='1'/>"
                                  "</components></object></resources><build><item objectid='1'/>"
                                  "</build></model>"},
        {"other-xml.3mf", "<html><body>Not found</body></html>"},
    };
    char line[100];
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        const zip_bytes z = three_mf_of(files[i].model);
        write_file(files[i].name, z.at, z.length);
        free(z.at);
        snprintf(line, sizeof line, "import %s" MINE, files[i].name);
        refused(3, line, table);
    }
}

static void meshes(pare_text *table)
{
    char stl[84 + 50] = "";
    stl[80] = (char)0xff;
    stl[81] = stl[82] = (char)0xff;
    write_file("count.stl", stl, sizeof stl);
    refused(3, "import count.stl" MINE, table);
    write_file("short.stl", stl, 60);
    refused(3, "import short.stl" MINE, table);
    write_text("nan.stl", "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 nan\nvertex 1 0 0\n"
                          "vertex 0 1 0\nendloop\nendfacet\nendsolid a\n");
    refused(3, "import nan.stl" MINE, table);
    write_text("words.stl", "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 zero\n");
    refused(3, "import words.stl" MINE, table);
    write_text("empty.stl", "");
    refused(3, "import empty.stl" MINE, table);
}

/* ---- drawings ---- */

#define SVG  "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='30mm'>"
#define RECT "<rect width='40mm' height='30mm'/>"

static void drawings(pare_text *table)
{
    static const struct {
        const char *name, *text;
    } files[] = {
        {"laughs.svg",
         "<!DOCTYPE svg [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;&a;'>]>" SVG "<path d='&b;'/></svg>"},
        {"external.svg", "<!DOCTYPE svg [<!ENTITY a SYSTEM '/etc/passwd'>]>" SVG "&a;</svg>"},
        {"script.svg", SVG "<script>alert(1)</script>" RECT "</svg>"},
        {"use.svg", SVG "<use href='other.svg#x'/>" RECT "</svg>"},
        {"nan.svg", SVG "<rect width='nan' height='30mm'/></svg>"},
        {"open.svg", SVG "<path d='M0 0 L10 0 L10 10'/></svg>"},
        {"crossing.svg", SVG "<path d='M0 0 L10 10 L10 0 L0 10 Z'/></svg>"},
        {"apart.svg", SVG "<rect width='3' height='3'/><rect x='9' width='3' height='3'/></svg>"},
        {"path.svg", SVG "<path d='M0 0 Lx'/></svg>"},
        {"cut.svg", SVG "<rect width='40mm' hei"},
        {"empty.svg", SVG "</svg>"},
        {"nan.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\nnan\n20\n0\n40\n5\n0\nENDSEC\n0\nEOF\n"},
        {"inf.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n0\n20\n0\n40\ninf\n0\nENDSEC\n0\nEOF\n"},
        {"open.dxf", "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n30\n21\n0\n0\nENDSEC\n0\n"
                     "EOF\n"},
        {"crossing.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n90\n4\n70\n1\n10\n0\n20\n0\n10\n10\n"
         "20\n10\n10\n10\n20\n0\n10\n0\n20\n10\n0\nENDSEC\n0\nEOF\n"},
        {"count.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n90\n2147483647\n70\n1\n10\n0\n20\n0\n0\n"
         "ENDSEC\n0\nEOF\n"},
        {"binary.dxf", "Some Binary DXF\r\n\x1a"},
        {"spline.dxf", "0\nSECTION\n2\nENTITIES\n0\nSPLINE\n70\n8\n0\nENDSEC\n0\nEOF\n"},
        {"insert.dxf", "0\nSECTION\n2\nENTITIES\n0\nINSERT\n2\nA\n0\nENDSEC\n0\nEOF\n"},
        {"cut.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n0\n20\n"},
        {"letter.dxf", "Dear club,\n"},
    };
    char line[100];
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        write_text(files[i].name, files[i].text);
        snprintf(line, sizeof line, "import %s --set thick=2mm" MINE, files[i].name);
        refused(3, line, table);
    }
    pare_text text = {0};
    pare_text_add(&text, SVG);
    repeat("<g>", 100000, &text);
    write_made("deep.svg", &text);
    refused(3, "import deep.svg --set thick=2mm" MINE, table);
    pare_text_add(&text, SVG "<path d='M0 0");
    repeat(" L1 0 0 1", 150000, &text);
    pare_text_add(&text, "Z'/></svg>");
    write_made("points.svg", &text);
    refused(3, "import points.svg --set thick=2mm" MINE, table);
    pare_text_free(&text);
}

static void each_hostile_file_gets_its_line_and_the_bench_stays(void **state)
{
    (void)state;
    pare_text table = {0};
    texts(&table);
    archives(&table);
    models(&table);
    meshes(&table);
    drawings(&table);
    assert_false(table.failed);
    assert_golden("hostile", table.bytes);
    pare_text_free(&table);
}

/* Scripts are refused; what would only run in a browser is not read at all. */
static void event_attributes_of_a_drawing_mean_nothing(void **state)
{
    (void)state;
    write_text("plain.svg", SVG RECT "</svg>");
    write_text("event.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='30mm' "
                            "onload='alert(1)'><rect width='40mm' height='30mm' "
                            "onclick='alert(2)'/></svg>");
    ran plain = run("import plain.svg --set thick=2mm --dry-run --json" MINE);
    ran event = run("import event.svg --set thick=2mm --dry-run --json" MINE);
    assert_int_equal(plain.status, 0);
    assert_int_equal(event.status, 0);
    const char *a = strstr(plain.out, "\"area"), *b = strstr(event.out, "\"area");
    assert_non_null(a);
    assert_non_null(b);
    assert_int_equal(strcspn(a, ","), strcspn(b, ","));
    assert_int_equal(strncmp(a, b, strcspn(a, ",")), 0);
    ran_free(&plain);
    ran_free(&event);
}

/* ---- benches ---- */

static void sql(const char *path, const char *text)
{
    sqlite3 *db = NULL;
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, text, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(db);
}

static void copy(const char *from, const char *to, long most)
{
    FILE *in = fopen(from, "rb"), *out = fopen(to, "wb");
    assert_non_null(in);
    assert_non_null(out);
    for (int c; most-- != 0 && (c = fgetc(in)) != EOF;)
        fputc(c, out);
    fclose(in);
    fclose(out);
}

static void each_bench_that_is_none_gets_its_line(void **state)
{
    (void)state;
    pare_text table = {0};
    sql("other.sqlite", "CREATE TABLE a(b); PRAGMA application_id = 7");
    copy("mine.sqlite", "newer.sqlite", -1);
    sql("newer.sqlite", "PRAGMA user_version = 99");
    copy("mine.sqlite", "half.sqlite", 30000);
    copy("mine.sqlite", "page.sqlite", 4096);
    copy("mine.sqlite", "bytes.sqlite", 50);
    copy("mine.sqlite", "no-part.sqlite", -1);
    sql("no-part.sqlite", "PRAGMA foreign_keys = OFF; DROP TABLE part");
    copy("mine.sqlite", "text.sqlite", -1);
    sql("text.sqlite", "UPDATE part SET doc = '{id: mo, kind: [' WHERE id = 'mo'");
    assert_int_equal(mkfifo("pipe", 0600), 0);
    assert_int_equal(mkdir("folder", 0700), 0);
    assert_int_equal(symlink("loop", "loop"), 0);
    static const char *const benches[] = {"other.sqlite", "newer.sqlite", "half.sqlite",
                                          "page.sqlite",  "bytes.sqlite", "no-part.sqlite",
                                          "text.sqlite",  "pipe",         "/dev/null",
                                          "folder",       "mine.sqlite/x"};
    write_text("good.yaml", "pare: 1\nparts: [{id: new, kind: other, mass: 1 g}]\n");
    for (size_t i = 0; i < sizeof benches / sizeof *benches; i++) {
        char line[100];
        snprintf(line, sizeof line, "parts show mo --bench %s", benches[i]);
        refused(3, line, &table);
    }
    refused(4, "parts --bench loop", &table);
    refused(3, "import good.yaml --bench pipe", &table);
    refused(3, "import good.yaml --bench other.sqlite", &table);
    refused(3, "import good.yaml --bench newer.sqlite", &table);
    refused(3, "import pipe" MINE, &table);
    refused(3, "import folder" MINE, &table);
    refused(3, "import /dev/zero" MINE, &table);
    refused(3, "import nowhere.yaml" MINE, &table);
    assert_golden("hostile-bench", table.bytes);
    pare_text_free(&table);
}

static void without_a_home_the_bench_must_be_named(void **state)
{
    (void)state;
    pare_text table = {0};
    char *data = strdup(getenv("XDG_DATA_HOME") ? getenv("XDG_DATA_HOME") : ""),
         *home = strdup(getenv("HOME") ? getenv("HOME") : "");
    unsetenv("XDG_DATA_HOME");
    unsetenv("HOME");
    refused(3, "parts", &table);
    setenv("HOME", home, 1);
    if (*data)
        setenv("XDG_DATA_HOME", data, 1);
    free(data);
    free(home);
    assert_string_equal(table.bytes, "$ pare parts\n[3] pare: neither XDG_DATA_HOME nor HOME says "
                                     "where the bench is; right would be --bench FILE\n");
    pare_text_free(&table);
}

/* ---- circumstances ---- */

static void write_parts(const char *name, char letter, int count)
{
    pare_text text = {0};
    pare_text_add(&text, "pare: 1\nparts:\n");
    for (int i = 0; i < count; i++)
        pare_text_printf(&text, "- {id: %c%d, kind: other, mass: 1 g}\n", letter, i);
    write_made(name, &text);
    pare_text_free(&text);
}

/* A limit on the size of files stands in for a full disk: the write fails and says why. */
static void a_disk_that_takes_no_more_leaves_the_bench_as_it_was(void **state)
{
    (void)state;
    struct rlimit before, small;
    pare_text table = {0};
    write_parts("many.yaml", 'm', 5000);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    small = before;
    small.rlim_cur = 300000;
    signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    refused(4, "import many.yaml" MINE, &table);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    signal(SIGXFSZ, SIG_DFL);
    assert_golden("hostile-disk", table.bytes);
    pare_text_free(&table);
}

/* In a folder of its own, since run() keeps what was said in files. */
static pid_t import_beside(const char *folder, const char *line)
{
    assert_int_equal(mkdir(folder, 0700), 0);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        if (chdir(folder) != 0)
            _exit(9);
        ran r = run(line);
        _exit(r.status);
    }
    return child;
}

static int status_of(pid_t child)
{
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static void two_imports_at_once_both_come_in(void **state)
{
    (void)state;
    write_parts("a.yaml", 'a', 300);
    write_parts("b.yaml", 'b', 300);
    copy("mine.sqlite", "both.sqlite", -1);
    const pid_t one = import_beside("one", "import ../a.yaml --bench ../both.sqlite");
    const pid_t two = import_beside("two", "import ../b.yaml --bench ../both.sqlite");
    assert_int_equal(status_of(one), 0);
    assert_int_equal(status_of(two), 0);
    json_t *parts = run_json("parts --json --bench both.sqlite");
    const json_t *list = json_is_array(parts) ? parts : json_object_get(parts, "parts");
    assert_int_equal(json_array_size(list), 603);
    json_decref(parts);
}

/* A writer that crashed in the middle leaves its log; the next one finds the bench as it was. */
static void a_writer_that_dies_leaves_the_bench_as_it_was(void **state)
{
    (void)state;
    char *before = exported();
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        sqlite3 *db = NULL;
        if (sqlite3_open("mine.sqlite", &db) == SQLITE_OK)
            sqlite3_exec(db,
                         "PRAGMA cache_size = 1; BEGIN IMMEDIATE;"
                         "DELETE FROM part WHERE id = 'mo';"
                         "UPDATE setting SET value = hex(randomblob(100000))",
                         NULL, NULL, NULL);
        _exit(0); /* without an end to the change */
    }
    assert_int_equal(status_of(child), 0);
    char *after = exported();
    assert_string_equal(after, before);
    free(before);
    free(after);
}

static int enter(void **state)
{
    if (enter_home(state) != 0)
        return -1;
    write_text("mine.yaml", BENCH);
    write_text("top.svg", OUTLINE);
    ran r = run("import mine.yaml" MINE);
    if (r.status != 0)
        fail_msg("%s", r.err);
    ran_free(&r);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_hostile_file_gets_its_line_and_the_bench_stays),
        cmocka_unit_test(event_attributes_of_a_drawing_mean_nothing),
        cmocka_unit_test(each_bench_that_is_none_gets_its_line),
        cmocka_unit_test(without_a_home_the_bench_must_be_named),
        cmocka_unit_test(a_disk_that_takes_no_more_leaves_the_bench_as_it_was),
        cmocka_unit_test(two_imports_at_once_both_come_in),
        cmocka_unit_test(a_writer_that_dies_leaves_the_bench_as_it_was),
    };
    return cmocka_run_group_tests(tests, enter, leave_home);
}
