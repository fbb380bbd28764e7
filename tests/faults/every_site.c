/* rooms: store craft physics base */
/* every_site.c: the program's commands while one request after another fails in it (sites.c), each site once:
 * memory, SQLite, files, calls that a signal interrupts, and helpers. A site that an earlier command has come by
 * is left out. Where tools/postgres has started a server the bench is on it, fewer commands are run, and libpq
 * fails in the place of SQLite and files.
 *
 * What was refused ends with 4 and one line, and the bench is as it was, or the line says that the change is
 * kept, or that only its answer failed; what was done is done, and a file that was to be written (-o) is whole. What was interrupted goes on as
 * if nothing had happened. Where it has said something else than where nothing fails, that is counted apart,
 * as "short", and is no fault of this test: some answers leave out a line or an estimate that there was no
 * memory for. These are to become fewer.
 *
 * usage: every_site PROGRAM [STRIDE [WORD]]: each STRIDEth site, of commands that begin so. */
#include <fcntl.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "server.h"
#include "store/bench.h"

enum { WORDS = 24, LINE = 512, MOST_BYTES = 1 << 24, SITES_MOST = 20000 };
#define BENCH "bench.sqlite"

extern char **environ;

/* Words are parted by blanks; '~' stands for one within a word. A bench is made by what stands first; what a
 * craft is that a search takes little time over, is thimble of the demo's. */
static const char *const COMMANDS[] = {
    "sheet weir-5 --all",
    "sheet weir-5 --all --json",
    "sheet weir-5 --try run.lead.length=95mm",
    "sheet weir-5 --ruler --json",
    "sheet weir-5 --outline --json",
    "sheet weir-5 --curve minutes --json",
    "sheet weir-5 --curve wire",
    "swaps weir-5 --all",
    "swaps weir-5 --wish crash --json",
    "swaps weir-8",
    "swaps weir-8 --json",
    "best weir-5",
    "best weir-5 --json --loadout race",
    "best weir-5 --wish minutes --time 60",
    "best weir-5 --loadout all --time 60",
    "best weir-5 --walk --time 60",
    "best weir-5 --walk --budget 20 --json --time 60",
    "best weir-5 --knock-on 20g --time 60",
    "best weir-5 --knock-on 20g --json --time 60",
    "best weir-5 --binds --ways 2 --time 60",
    "best weir-5 --binds --ways 2 --json --time 60",
    "best weir-5 --sure 0.9 --time 60",
    "best weir-5 --sold 30% --time 60",
    "best weir-5 --front grams-minutes --time 60",
    "best weir-5 --proof out.proof",
    "best weir-5 --front grams-money -o out.svg --time 60",
    "best weir-5 --hold pack --never pr-l --time 60",
    "best weir-8 --time 60",
    "best weir-8 --json --time 60",
    "check-proof weir.proof",
    "learn weir-5",
    "learn weir-5 --json",
    "learn weir-5 --keep --date 2026-05-02",
    "learn weir-5 --hover 31% --date 2026-05-02",
    "learn weir-5 --forget",
    "weigh weir-5",
    "weigh weir-5 --all --json",
    "weigh weir-5 frame=88.5g motor=126g --date 2026-05-02",
    "weigh weir-5 --from weigh.csv",
    "weigh weir-5 whole=471g --loadout race --date 2026-05-02",
    "scale",
    "scale small known=7.5g known_u=0.02g reads=7.5g --date 2026-05-02",
    "take weir-5 run.lead.length=95mm",
    "take weir-5 run.lead.length=95mm --ordered 2026-05-02 --json",
    "take weir-5 run.lead.length=95mm --fitted 2026-05-02",
    "take weir-5 run.lead.length=95mm --chosen 2026-05-02 --flown 2026-05-03 --json",
    "take weir-5 --json",
    "compare weir-5 --all",
    "compare weir-5:race weir-5 --json",
    "compare weir-5@2026-05-01",
    "compare weir-5 weir-8 --json",
    "parts",
    "parts --surprise",
    "parts mass<40g --sort mass --json",
    "parts show mo-w",
    "parts show pr-t --json",
    "parts show cu-w",
    "parts show pa-w --json",
    "parts show an-l",
    "parts --for weir-5.motor --json",
    "parts --for weir-5.pack",
    "parts add mo-z kind=motor mass=30g kv=1800 stator=22mmx7mm",
    "parts change mo-w mass=32g",
    "parts copy mo-w mo-2",
    "parts edit mo-w",
    "parts change mo-w stand.pr-w=off price.each=19",
    "parts remove so-w",
    "craft",
    "craft show weir-5",
    "craft show weir-5 --json",
    "craft start plover all_up=690g minutes=4.5min pack=4S1500mAh",
    "craft start curlew all_up=690g frame=fr-w",
    "craft limit weir-5 all_up=590g flown=3min",
    "craft add mite frame=fr-w motor=mo-w propeller=pr-w esc=fc-w pack=pa-w",
    "craft change weir-5 runs.lead.gauge=14",
    "craft change weir-5 loadouts.race.without=[antenna] items.tail=an-l",
    "craft change weir-5 loadouts.race.use.pack=pa-l items.antenna=off",
    "craft change weir-5 items.cube=off joints.cube_nuts=off taken=off",
    "craft edit weir-5",
    "craft copy weir-5 weir-6",
    "craft remove weir-5 --records",
    "import list.csv",
    "import list.csv --dry-run --json",
    "import list.csv --notes",
    "import flights.csv",
    "import stand.csv --set motor=mo-w --set propeller=pr-w",
    "import list.xlsx --dry-run",
    "import cube.3mf --set density=1.2g/cm3",
    "import every-key-cube.stl",
    "import block.stl --set density=1.2g/cm3 --set unit=mm --set wall=1mm --set infill=20% --set "
    "maker=Me",
    "import ring.svg --set thick=2mm --set material=carbon --set origin=middle --set maker=Me "
    "--set mass=3g",
    "import ellipse.dxf --set thick=2mm --set material=carbon --set id=lens",
    "import tunnel_8003.txt --set propeller=pr-t --set speed=8003rpm",
    "import log.csv --set craft=weir-5 --set date=2026-04-13",
    "import weigh.csv --as weigh_ins --set craft=weir-5",
    "import more.yaml",
    "import more.json",
    "import cube.stl --set density=1.2g/cm3",
    "import plate.svg --set thick=2mm --set material=carbon",
    "import plate.dxf --set thick=2mm --set material=carbon",
    "export",
    "export -o out.json",
    "export --as csv",
    "export --as weigh_ins",
    "export --as flights",
    "export --as stand",
    "report weir-5 -o out.html",
    "report weir-5 -o out.xlsx --try run.lead.length=95mm",
    "report weir-5 -o out.svg",
    "report weir-5 -o out.png",
    "report weir-5 -o out.pdf --paper letter --best --time 60",
    "report weir-5 -o out.xlsx --best --time 60",
    "study study.yaml --dry-run",
    "study study.yaml --journal new.journal -o out.csv",
    "study study.yaml --journal new.journal --keep",
    "study",
    "undo",
    "redo",
    "history",
    "history --json",
};

static const char *const SERVER_COMMANDS[] = {
    "craft",
    "parts show mo-w",
    "parts mass<40g --sort mass --json",
    "craft limit weir-5 all_up=590g",
    "parts change mo-w mass=32g",
    "weigh weir-5 frame=88.5g motor=126g --date 2026-05-02",
    "import list.csv",
    "import cube.3mf --set density=1.2g/cm3",
    "craft copy weir-5 weir-6",
    "craft remove weir-5 --records",
    "compare weir-5@2026-05-01",
    "members",
    "members anna weigh",
    "history",
    "undo",
    "redo",
    "study study.yaml --journal new.journal --keep",
    "study",
    "export",
};

typedef struct sweep {
    const char *program, *line;
    char address[LINE]; /* of the bench */
    long stride, runs, refused, done, faults, less;
    int ends;             /* with that, where nothing fails: 0, or 1 for "no" */
    bool dirty;           /* the bench may be another than it was */
    unsigned char *bench; /* [length] as it was */
    size_t length;
    char *before, *after, *said, *made; /* made: [made_length] */
    size_t made_length;
    const char *makes; /* the file that is to be written; NULL: none */
} sweep;

static void give_up(const char *what, const char *which)
{
    fprintf(stderr, "every_site: %s: %s\n", which, what);
    exit(1);
}

static char *bytes_of(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    char *bytes = file ? malloc(MOST_BYTES) : NULL;
    if (!bytes)
        give_up("it cannot be read", path);
    *length = fread(bytes, 1, MOST_BYTES - 1, file);
    bytes[*length] = '\0';
    fclose(file);
    char *fitted = realloc(bytes, *length + 1);
    return fitted ? fitted : bytes;
}

static void put_bytes(const char *path, const void *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    if (!file || fwrite(bytes, 1, length, file) != length || fclose(file) != 0)
        give_up("it cannot be written", path);
}

/* @param site  PARE_SITE's value; NULL: nothing fails */
static int run(const sweep *s, const char *site)
{
    static char seen[] = "PARE_SITES=seen", home[] = "HOME=.", locale[] = "LC_ALL=C.UTF-8",
                wide[] = "COLUMNS=80", one[] = "OMP_NUM_THREADS=1",
                editor[] = "EDITOR=sed -i 's/31.4 g/31.6 g/;s/600 g/590 g/'";
    char wish[64], words[LINE], bench[LINE + 16], *argv[WORDS + 3] = {NULL};
    snprintf(wish, sizeof wish, "PARE_SITE=%s", site ? site : "");
    char *with[] = {home, locale, wide, one, editor, seen, wish, NULL};
    snprintf(words, sizeof words, "%s %s", s->program, s->line);
    snprintf(bench, sizeof bench, "--bench=%s", s->address);
    size_t count = 0;
    for (char *word = strtok(words, " "); word && count < WORDS; word = strtok(NULL, " "))
        argv[count++] = word;
    argv[count++] = bench;
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, "out.txt", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_addopen(&actions, 2, "err.txt", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    pid_t child;
    int status = 0;
    if (posix_spawn(&child, s->program, &actions, NULL, argv, with) != 0 ||
        waitpid(child, &status, 0) != child)
        give_up("it cannot be started", s->program);
    posix_spawn_file_actions_destroy(&actions);
    return status;
}

#define SERVER_HAS   "sites"
#define SERVER_KEEPS "sites_whole"

static void server_address(const char *database, char *address, size_t size)
{
    snprintf(address, size, "postgresql://postgres@/%s?host=%s", database,
             getenv("PARE_TEST_SERVER"));
}

static void on_the_server(const char *sql)
{
    char address[LINE];
    server_address("postgres", address, sizeof address);
    server_run(address, sql);
}

static void set_up(sweep *s)
{
    static const char *const beside[] = {BENCH "-wal", BENCH "-shm", BENCH "-journal",
                                         "new.journal", "failed"};
    for (size_t i = 0; i < sizeof beside / sizeof beside[0]; i++)
        unlink(beside[i]);
    if (s->makes)
        unlink(s->makes);
    if (!on_server()) {
        put_bytes(BENCH, s->bench, s->length);
        return;
    }
    if (!s->dirty) /* a database takes longer to make than most commands to run */
        return;
    s->dirty = false;
    on_the_server("DROP DATABASE IF EXISTS " SERVER_HAS " WITH (FORCE)");
    on_the_server("CREATE DATABASE " SERVER_HAS " TEMPLATE " SERVER_KEEPS);
}

static char *text_of_bench(const sweep *s)
{
    pare_store *store = NULL;
    pare_error err = {0};
    pare_text text = {0};
    if (pare_store_open(s->address, PARE_STORE_READ, &store, &err) != PARE_OK ||
        pare_store_export_yaml(store, &text, &err) != PARE_OK)
        give_up(err.text, "the bench");
    pare_store_close(store);
    return text.bytes;
}

/* What its file holds. NULL: there is none. */
static char *file_made(const sweep *s, size_t *length)
{
    if (!s->makes || access(s->makes, F_OK) != 0)
        return NULL;
    return bytes_of(s->makes, length);
}

static bool is_made(const sweep *s)
{
    size_t length = 0;
    char *now = file_made(s, &length);
    const bool same =
        !s->made || (now && length == s->made_length && memcmp(now, s->made, length) == 0);
    free(now);
    return same;
}

/* @return what is wrong; NULL: nothing */
static const char *judge(sweep *s, const char *kind, int status)
{
    /* SQLite, which knows of no failure, names none: it may be taken for damage. A file that cannot be read is
     * taken as one that is not there. What a helper was asked for may be passed over, or be the answer ("this proof does not hold"). */
    const bool damaged = strcmp(kind, "memory") != 0 && strcmp(kind, "server") != 0;
    const bool passes = strcmp(kind, "interrupt") == 0, helper = *kind == 'h' || *kind == 'p';
    /* "This proof does not hold", because of what could not be worked out or read of it. */
    const bool says_no = WIFEXITED(status) && WEXITSTATUS(status) == 1 && (helper || *kind == 'f');
    if (!WIFEXITED(status))
        return "it crashed";
    const bool done = WEXITSTATUS(status) == s->ends;
    s->done += done;
    s->refused += !done;
    size_t length = 0;
    char *now = text_of_bench(s), *said = bytes_of(done ? "out.txt" : "err.txt", &length);
    const char *wrong = NULL;
    const bool is_before = strcmp(now, s->before) == 0, is_after = strcmp(now, s->after) == 0;
    s->dirty = done || !is_before;
    s->less += done && strcmp(said, s->said) != 0;
    if (passes && (!done || strcmp(said, s->said) != 0))
        wrong = "an interruption is seen";
    else if (done && !helper && !is_made(s))
        wrong = "it does not say that its file is not whole";
    else if (done && !helper && !is_after)
        wrong = "a change that was confirmed is lost";
    else if (!done && WEXITSTATUS(status) != 4 && !(damaged && WEXITSTATUS(status) == 3) &&
             !says_no && !(helper && WEXITSTATUS(status) < 4))
        wrong = "it does not end with 4";
    else if (!done && !says_no && (length < 2 || strchr(said, '\n') != said + length - 1))
        wrong = "it does not say in one line what went wrong";
    else if (!done && !is_before &&
             !(is_after &&
               (strstr(said, "the change is kept") || strstr(said, "standard output: "))))
        wrong = "a change that was refused has happened";
    if (wrong)
        fprintf(stderr, "    %.200s\n", said);
    free(now);
    free(said);
    return wrong;
}

static off_t size_of(const char *path)
{
    struct stat facts;
    return stat(path, &facts) == 0 ? facts.st_size : 0;
}

static void sweep_kind(sweep *s, const char *kind)
{
    s->runs = s->refused = s->done = s->less = 0;
    const long faults = s->faults;
    char wish[48];
    snprintf(wish, sizeof wish, "%s:%ld", kind, s->stride - 1);
    for (int n = 0; n < SITES_MOST; n++) {
        const off_t known = size_of("seen");
        set_up(s);
        const int status = run(s, wish);
        s->dirty = true;
        if (size_of("seen") == known)
            break;
        s->runs++;
        const char *wrong = judge(s, kind, status);
        s->faults += wrong != NULL;
        if (wrong)
            fprintf(stderr, "%s, %s, %d: %s\n", s->line, wish, n, wrong);
    }
    printf("%-60.60s %-6s %6ld %8ld %6ld %6ld %6ld\n", s->line, kind, s->runs, s->refused, s->done,
           s->less, s->faults - faults);
    fflush(stdout);
}

/* What stands behind the word. */
static const char *word_after(const char *line, const char *word)
{
    static char found[LINE];
    const char *at = strstr(line, word);
    return at && sscanf(at + strlen(word), " %511s", found) == 1 ? found : NULL;
}

/* A search asks its physics millions of times, and passes over what fails. */
static bool searches(const char *line)
{
    static const char *const words[] = {"best ", "check-proof ", "study "};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strncmp(line, words[i], strlen(words[i])) == 0 || strstr(line, " --best"))
            return true;
    return false;
}

static void sweep_command(sweep *s)
{
    s->dirty = true;
    s->makes = word_after(s->line, " -o ");
    set_up(s);
    s->before = text_of_bench(s);
    const int status = run(s, NULL);
    size_t length = 0;
    s->dirty = true;
    s->ends = WEXITSTATUS(status);
    if (!WIFEXITED(status) || s->ends > 1) {
        char *said = bytes_of("err.txt", &length);
        give_up(said, s->line);
    }
    s->after = text_of_bench(s);
    s->said = bytes_of("out.txt", &length);
    s->made = file_made(s, &s->made_length);
    static const char *const kinds[2][8] = {
        {"memory", "sqlite", "file", "interrupt", "library", "helper", "physics"},
        {"memory", "server"}};
    for (const char *const *kind = kinds[on_server()]; *kind; kind++)
        if (strcmp(*kind, "physics") != 0 || !searches(s->line))
            sweep_kind(s, *kind);
    free(s->before);
    free(s->after);
    free(s->said);
    free(s->made);
}

/* ---- what the commands work on ---- */

/* More to choose from, so that a search has something to do. */
static const char EXTRA[] =
    "pare: 1\n"
    "parts:\n"
    "- {id: pa-l, kind: pack, mass: 121 g, price: 21, owned: 1, spec: {chemistry: lihv, cells: 4,\n"
    "    capacity: 1050 mAh, resistance: 7 mohm}, fits: {connector: 60 A class},\n"
    "    body: {shape: box, size: [70 mm, 34 mm, 26 mm]},\n"
    "    includes: [{run: pack_lead, gauge: 14 AWG, length: 80 mm, count: 2}]}\n"
    "- {id: pr-l, kind: propeller, mass: 3.9 g, price: {each: 0.9, sold_in: 4, shipping: 3},\n"
    "    spec: {diameter: 5.1 in, pitch: 4 in, blades: 2, chord: 14 mm}, fits: {shaft: 5 mm}}\n"
    "- {id: vt-l, kind: video_transmitter, mass: 4.1 g, price: 33,\n"
    "    spec: {power: 5 W, band: 5.8 GHz}, fits: {antenna: snap}}\n"
    "- {id: an-l, kind: antenna, mass: 5.2 g, price: 11,\n"
    "    spec: {gain: 1.4 dB, hand: left, cable: RG316, length: 60 mm}, fits: {antenna: screw}}\n";

static const struct {
    const char *name, *text;
} FILES[] = {
    {"ring.svg",
     "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"40mm\" height=\"40mm\" "
     "viewBox=\"0 0 40 40\"><g transform=\"translate(1 1)\"><circle cx=\"19\" cy=\"19\" "
     "r=\"18\"/><path d=\"M19 9a10 10 0 1 0 .01 0z\"/></g></svg>"},
    {"list.csv",
     "id,kind,mass (g),price,owned\nx-1,other,3.5,1.20,2\nx-2,other,4.1,,\nmo-w,motor,33,,\n"},
    {"flights.csv", "date,craft,pack,minutes,charge\n2026-04-14,weir-5,pa-w,4.1,1000 mAh\n"
                    "2026-04-15,weir-5,pa-w,4.2,1010 mAh\n"},
    {"stand.csv", "throttle (%),voltage (V),current (A),thrust (g),rpm\n50,24,10,600,15000\n"
                  "75,23.8,20,1000,20000\n100,23.1,35,1500,25000\n"},
    {"weigh.csv", "what,reading,date\npack,158.2 g,2026-05-02\nframe,88.2 g,2026-05-02\n"},
    {"more.yaml", "pare: 1\nparts:\n- {id: y-1, kind: other, mass: 12 g}\n"},
    {"more.json", "{\"pare\":1,\"parts\":[{\"id\":\"y-2\",\"kind\":\"other\",\"mass\":\"12 g\"}]}"},
    {"plate.svg",
     "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"40mm\" height=\"30mm\" "
     "viewBox=\"0 0 40 30\"><rect x=\"1\" y=\"1\" width=\"38\" height=\"28\" rx=\"3\"/>"
     "<circle cx=\"10\" cy=\"10\" r=\"1.6\"/><path d=\"M20 10h8v6a5 5 0 0 1-5 5z\"/></svg>"},
    {"study.yaml", "study: some\nask: best\ncraft: [weir-5, weir-5/race]\nbriefs:\n"
                   "  a: {customers: 3, limits: {all_up: \"<= 600 g\"}}\n"
                   "  b: {customers: 2, limits: {flown: \">= 2 min\"}}\n"
                   "vary:\n  air.temperature: [0 degC, 30 degC]\n"
                   "figures: [all_up_g, flown_min]\ncover: {most: 1}\n"},
};

static void copy_file(const char *from, const char *to)
{
    size_t length = 0;
    char *bytes = bytes_of(from, &length);
    put_bytes(to, bytes, length);
    free(bytes);
}

/* A flight of 200 s, steady within five amperes. */
static void make_log(void)
{
    FILE *log = fopen("log.csv", "w");
    if (!log)
        give_up("it cannot be written", "log.csv");
    fprintf(log, "time (s),voltage (V),current (A),throttle (%%)\n");
    for (int i = 0; i < 200; i++)
        fprintf(log, "%d,%.2f,%.1f,%d\n", i, 16.8 - i * 0.01, 12 + i % 20 / 4.0, 35 + i % 10);
    if (fclose(log) != 0)
        give_up("it cannot be written", "log.csv");
}

static void must_run(sweep *s, const char *line)
{
    s->line = line;
    if (run(s, NULL) != 0)
        give_up("it does not work", line);
}

static void make_bench(sweep *s)
{
    const pare_import whole = {.path = PARE_SOURCE_DIR "/tests/data/every-key.yaml"};
    pare_arena *arena = pare_arena_open();
    pare_store *store = NULL;
    pare_import_summary summary;
    pare_error err = {0};
    snprintf(s->address, sizeof s->address, "%s", BENCH);
    if (on_server()) {
        on_the_server("DO $$BEGIN IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'anna') THEN"
                      " CREATE ROLE anna LOGIN; END IF; END$$");
        on_the_server("DROP DATABASE IF EXISTS " SERVER_KEEPS " WITH (FORCE)");
        on_the_server("CREATE DATABASE " SERVER_KEEPS);
        server_address(SERVER_KEEPS, s->address, sizeof s->address);
    }
    if (pare_store_open(s->address, PARE_STORE_CREATE, &store, &err) != PARE_OK ||
        pare_store_import_yaml(store, &whole, arena, &summary, &err) != PARE_OK)
        give_up(err.text, "the bench");
    pare_store_close(store);
    pare_arena_close(arena);
    put_bytes("extra.yaml", EXTRA, sizeof EXTRA - 1);
    for (size_t i = 0; i < sizeof FILES / sizeof FILES[0]; i++)
        put_bytes(FILES[i].name, FILES[i].text, strlen(FILES[i].text));
    copy_file(PARE_SOURCE_DIR "/tests/data/every-key-cube.stl", "cube.stl");
    copy_file("cube.stl", "block.stl");
    copy_file("cube.stl", "every-key-cube.stl"); /* which the bench has of a part */
    copy_file(PARE_SOURCE_DIR "/tests/fuzz/seeds/dxf/circle", "plate.dxf");
    copy_file(PARE_SOURCE_DIR "/tests/fuzz/seeds/dxf/arc-ellipse", "ellipse.dxf");
    copy_file(PARE_SOURCE_DIR "/tests/fuzz/seeds/three_mf/stored", "cube.3mf");
    copy_file(PARE_SOURCE_DIR "/tests/fuzz/seeds/workbook/packed", "list.xlsx");
    copy_file(PARE_SOURCE_DIR "/tests/data/tunnel_8003.txt", "tunnel_8003.txt");
    make_log();
    must_run(s, "import extra.yaml");
    must_run(s, "craft limit weir-5 flown=3min margin=off thrust_to_weight_half=3");
    must_run(s, "best weir-5 --proof weir.proof");
    must_run(s, "study study.yaml --keep");
    must_run(s, "craft copy weir-5 weir-8"); /* which no set makes what is asked of it */
    must_run(s, "craft limit weir-8 all_up=330g flown=9min");
    must_run(s, "craft copy weir-5 weir-7"); /* can be redone */
    must_run(s, "undo");
    if (on_server())
        server_address(SERVER_HAS, s->address, sizeof s->address);
    else
        s->bench = (unsigned char *)bytes_of(BENCH, &s->length);
}

int main(int argc, char *argv[])
{
    char folder[] = "/tmp/pare-sites-XXXXXX";
    sweep s = {.stride = argc > 2 ? atol(argv[2]) : 1};
    if (argc < 2 || argc > 4 || argv[1][0] != '/' || s.stride < 1) {
        fprintf(stderr, "usage: %s PROGRAM [STRIDE [WORD]], the program with its whole path\n",
                argv[0]);
        return 2;
    }
    if (!mkdtemp(folder) || chdir(folder) != 0)
        give_up("it cannot be made", folder);
    s.program = argv[1];
    make_bench(&s);
    printf("%-60s %-6s %6s %8s %6s %6s %6s\n", "command", "fails", "runs", "refused", "done",
           "short", "faults");
    const char *const *commands = on_server() ? SERVER_COMMANDS : COMMANDS;
    const size_t count = on_server() ? sizeof SERVER_COMMANDS / sizeof SERVER_COMMANDS[0]
                                     : sizeof COMMANDS / sizeof COMMANDS[0];
    for (size_t i = 0; i < count; i++) {
        s.line = commands[i];
        if (argc < 4 || strncmp(s.line, argv[3], strlen(argv[3])) == 0)
            sweep_command(&s);
    }
    free(s.bench);
    return s.faults > 0;
}
