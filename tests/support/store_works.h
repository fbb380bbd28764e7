/* store_works.h: what the store does for its callers, one function each, for tests that make it fail at
 * every point. */
#ifndef PARE_TESTS_STORE_WORKS_H
#define PARE_TESTS_STORE_WORKS_H

#include "store/by_key.h"
#include "store/csv_import.h"
#include "store/drawing.h"
#include "store/list_out.h"
#include "store/propeller_file.h"
#include "store/read_study.h"
#include "store/studies.h"
#include "store_bench.h"

typedef pare_status (*store_work)(pare_store *store, pare_arena *arena, pare_error *err);

static inline pare_status import_text(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_import_summary summary;
    const pare_import import = {.path = PARE_SOURCE_DIR "/tests/data/every-key.yaml",
                                .dry_run = true};
    return pare_store_import_yaml(store, &import, arena, &summary, err);
}

/* @param import  how; its list is this text, and nothing is kept of it */
static inline pare_status bring_list(pare_store *store, const char *list, pare_list_import import,
                                     pare_arena *arena, pare_error *err)
{
    pare_list_summary summary;
    import.name = "list.csv";
    import.bytes = list;
    import.length = strlen(list);
    import.dry_run = true;
    return pare_store_import_list(store, &import, arena, &summary, err);
}

static inline pare_status import_list(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char list[] = "id,kind,mass (g),kv,stator,cells,capacity (mAh),note\n"
                               "m1,motor,31.5,1900,22 x 7 mm,,,a good one\n"
                               "p1,pack,178,,,6,1050,\n"
                               "m2,motor,,1750,23 x 6 mm,,,\n";
    return bring_list(store, list, (pare_list_import){0}, arena, err);
}

/* Some are there and change, one is there and stays, one cannot be, and a column is kept as a note. */
static inline pare_status merge_list(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char list[] = "id;kind;mass (g);colour;price\n"
                               "vt-w;video_transmitter;4,5;red;19,90\n"
                               "pg-w;pigtail;2,6;;\n"
                               "an-w;antenna;heavy;blue;\n"
                               "new;other;3;;1\n";
    return bring_list(store, list, (pare_list_import){.notes = true, .keep_good = true}, arena,
                      err);
}

/* Records are told by their columns; the craft and parts are those of the bench. */
static inline pare_status import_records(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const lists[] = {
        "craft,date,scale,of,reads\nweir-5,2024-05-01,small,all,540 g\n"
        "weir-5,2024-05-01,small,motor 4,130 g\n",
        "craft;date;pack;lasted (min);put back (mAh)\nweir-5;2024-05-02;;4,5;900\n",
        "motor,propeller,pulse (us),volts (V),current (A),thrust (gf)\n"
        "mo-w,pr-w,1500,15.9,8.4,420\nmo-w,pr-w,2000,15.2,27,890\n"};
    pare_status status = PARE_OK;
    for (size_t i = 0; i < sizeof lists / sizeof *lists && status == PARE_OK; i++) {
        const pare_list_import import = {.keep_good = i < 2}; /* a stand table is taken whole */
        status = bring_list(store, lists[i], import, arena, err);
    }
    return status;
}

static inline pare_status alter_craft(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const words[] = {"brief.crash_speed=12 m/s", "runs.lead.gauge=16"};
    const pare_change change = {.what = "alter"};
    pare_edit_summary summary;
    return pare_store_alter(store, PARE_A_CRAFT, "weir-5", 2, words, &change, arena, &summary, err);
}

static inline pare_status copy_craft(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    const pare_change change = {.what = "copy"};
    return pare_store_copy(store, PARE_A_CRAFT, "weir-5", "weir-6", &change, err);
}

static inline pare_status remove_craft(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    const pare_change change = {.what = "remove"};
    return pare_store_remove_craft(store, "weir-5", true, &change, err);
}

static inline pare_status list_history(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_change_row *rows = NULL;
    size_t count = 0;
    return pare_store_history(store, 0, arena, &count, &rows, err);
}

static inline pare_status import_plate(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_drawing_taken taken;
    const pare_drawing_import import = {.path = "/tmp/pare-no-memory-plate.svg",
                                        .outline = true,
                                        .kind = "other",
                                        .thick = "2 mm",
                                        .dry_run = true};
    return pare_store_import_drawing(store, &import, arena, &taken, err);
}

static inline pare_status write_json(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    pare_text text = {0};
    const pare_status status = pare_store_export_json(store, &text, err);
    pare_text_free(&text);
    return status;
}

static inline pare_status write_lists(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const pare_list_kind lists[] = {PARE_LIST_PARTS, PARE_LIST_WEIGH_INS, PARE_LIST_FLIGHTS,
                                           PARE_LIST_STAND};
    pare_status status = PARE_OK;
    for (size_t i = 0; i < sizeof lists / sizeof *lists && status == PARE_OK; i++) {
        pare_text text = {0};
        size_t rows = 0, lefts = 0;
        const char *const *left = NULL;
        status = pare_store_export_csv(store, lists[i], &text, arena, &rows, &lefts, &left, err);
        pare_text_free(&text);
    }
    return status;
}

static inline pare_status alter_part(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const words[] = {"mass=5 g", "spec.power=7 W"};
    const pare_change change = {.what = "alter"};
    pare_edit_summary summary;
    return pare_store_alter(store, PARE_A_PART, "vt-w", 2, words, &change, arena, &summary, err);
}

/* A tunnel's points into a propeller, which has some. */
static inline pare_status import_tunnel(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const path[] = {PARE_SOURCE_DIR "/tests/data/tunnel_8003.txt"};
    const pare_propeller_import import = {
        .files = 1, .path = path, .propeller = "pr-t", .change = {.what = "import"}};
    pare_propeller_summary summary;
    return pare_store_import_propeller(store, &import, arena, &summary, err);
}

static inline pare_status read_stands(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    pare_bench *bench = NULL;
    const pare_status status = pare_store_read_stands(store, "mo-w", &bench, err);
    pare_bench_close(bench);
    return status;
}

static inline pare_status take_stand_off(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const words[] = {"stand.pr-w=off"};
    const pare_change change = {.what = "off"};
    pare_edit_summary summary;
    return pare_store_alter(store, PARE_A_PART, "mo-w", 1, words, &change, arena, &summary, err);
}

static inline pare_status import_model(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_drawing_taken taken;
    const pare_drawing_import import = {.path = PARE_SOURCE_DIR "/demo/bu-thin.stl",
                                        .kind = "bumper",
                                        .unit = "mm",
                                        .dry_run = true};
    return pare_store_import_drawing(store, &import, arena, &taken, err);
}

static inline pare_status read_all(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    pare_bench *bench = NULL;
    const pare_status status = pare_store_read(store, &bench, err);
    pare_bench_close(bench);
    return status;
}

static inline pare_status write_out(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    pare_text text = {0};
    const pare_status status = pare_store_export_yaml(store, &text, err);
    pare_text_free(&text);
    return status;
}

static inline pare_status set_limit(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    const pare_limit_change limit = {"all_up", "<= 555 g"};
    const pare_change change = {.what = "limit"};
    return pare_store_set_limits(store, "weir-5", 1, &limit, &change, err);
}

static inline void fill(void **state)
{
    pare_import_summary summary;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    const pare_import import = {.path = PARE_SOURCE_DIR "/tests/data/every-key.yaml"};
    if (pare_store_import_yaml(store_of(state), &import, arena, &summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_arena_close(arena);
}

static inline pare_status remove_part(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    const pare_change change = {.what = "remove"};
    /* In use, so this never succeeds where all goes well; what it says is looked for nonetheless. */
    const pare_status status = pare_store_remove_part(store, "mo-w", &change, err);
    return status == PARE_BAD_DATA && strstr(err->text, "is in use by") ? PARE_OK : status;
}

static inline pare_status find_parts(pare_store *store, pare_arena *arena, pare_error *err)
{
    const pare_find find = {.kind = -1};
    pare_listed *list = NULL;
    size_t count = 0;
    return pare_store_find(store, &find, arena, &count, &list, err);
}

static inline pare_status read_texts(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    pare_text text = {0};
    pare_bench *bench = NULL;
    pare_status status = pare_store_part_text(store, "vt-w", &text, err);
    if (status == PARE_OK)
        status = pare_store_craft_text(store, "weir-5", &text, err);
    if (status == PARE_OK)
        status = pare_store_read_craft(store, "weir-5", &bench, err);
    pare_bench_close(bench);
    pare_text_free(&text);
    return status;
}

/* An item goes, out of the loadouts that did without it as well. */
static inline pare_status take_items_off(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const words[] = {"items.cube=off", "joints.cube_nuts=off"};
    const pare_change change = {.what = "off"};
    pare_edit_summary summary;
    return pare_store_alter(store, PARE_A_CRAFT, "weir-5", 2, words, &change, arena, &summary, err);
}

/* A craft of parts alone: what goes on each arm is put there. */
static inline pare_status add_craft(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const words[] = {"frame=fr-w", "motor=mo-w", "propeller=pr-w", "brain=fc-w",
                                        "pack=pa-w"};
    const pare_change change = {.what = "add"};
    pare_edit_summary summary;
    return pare_store_add(store, PARE_A_CRAFT, "weir-7", sizeof words / sizeof *words, words,
                          &change, arena, &summary, err);
}

/* A bare price: what else is said of it stays, but its day. */
static inline pare_status alter_price(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const words[] = {"price=29.90", "mass.u=2 g", "fits.stack=20 mm"};
    const pare_change change = {.what = "price"};
    pare_edit_summary summary;
    return pare_store_alter(store, PARE_A_PART, "fr-w", 3, words, &change, arena, &summary, err);
}

/* The same out of a list: entries come into those that are there. */
static inline pare_status merge_prices(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char list[] = "id,kind,price,kv,bolt circle (mm),owned\n"
                               "fr-w,frame,29.90,,16 x 16,2\n"
                               "mo-w,motor,18,1750,19 x 19,4\n"
                               "pr-w,propeller,0.80,,,8\n";
    return bring_list(store, list, (pare_list_import){0}, arena, err);
}

static inline pare_status import_print(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_drawing_taken taken;
    const pare_drawing_import import = {.path = PARE_SOURCE_DIR "/demo/cg-19.stl",
                                        .id = "pt-x",
                                        .maker = "Wren Street Plates",
                                        .mass = "3 g",
                                        .unit = "mm",
                                        .wall = "0.8 mm",
                                        .infill = "20 %",
                                        .density = "1.2 g/cm3",
                                        .dry_run = true};
    return pare_store_import_drawing(store, &import, arena, &taken, err);
}

static inline pare_status keep_study(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    const pare_change change = {.what = "keep"};
    return pare_store_keep_study(store, "moor", "found", 5, &change, err);
}

static inline pare_status read_kept(pare_store *store, pare_arena *arena, pare_error *err)
{
    const char *bytes = NULL;
    size_t length = 0;
    const pare_status status = pare_store_kept_study(store, "mere", arena, &bytes, &length, err);
    return status == PARE_UNKNOWN && strstr(err->text, "no study 'mere'") ? PARE_OK : status;
}

/* A study of the bench's craft, and the brief of its last task. */
static inline pare_status read_study(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char text[] = "study: moor\nabout: Which of them?\nask: sheet\n"
                               "craft: [weir-5, weir-5/race]\n"
                               "brief:\n  air: {altitude: 120 m}\n"
                               "  flown: [{share: 30 %, as: hover}, {share: 70 %, speed: 12 m/s}]\n"
                               "briefs:\n"
                               "  wood: {customers: 3, limits: {all_up: \"<= 600 g\"}}\n"
                               "  wold: {limits: {flown: \">= 3 min\"}, keep: [sees]}\n"
                               "vary:\n  air.temperature: {from: 0 degC, to: 30 degC, steps: 3}\n"
                               "  try: [none, \"cube=off\"]\n"
                               "figures: [all_up_g, flown_min]\ncover: {most: 1}\n";
    char path[64];
    snprintf(path, sizeof path, "/tmp/pare-study-%ld.yaml", (long)getpid()); /* tests run abreast */
    FILE *out = fopen(path, "w");
    assert_non_null(out);
    fputs(text, out);
    fclose(out);
    pare_store *const stores[] = {store};
    pare_study_file *file = NULL;
    pare_brief brief;
    pare_text brief_text = {0};
    pare_status status = pare_study_file_open(path, &file, err);
    if (status == PARE_OK)
        status = pare_study_settle(file, stores, err);
    if (status == PARE_OK) {
        const pare_study *study = pare_study_of(file);
        const pare_study_task task = pare_study_task_at(study, pare_study_tasks(study) - 1);
        status = pare_study_brief_of(file, &task, arena, &brief, &brief_text, err);
    }
    pare_text_free(&brief_text);
    pare_study_file_close(file);
    remove(path);
    return status;
}

static const struct {
    store_work does;
    bool changes; /* alters the bench where it succeeds */
} STORE_WORKS[] = {
    {import_text, false},   {import_list, false},   {merge_list, false},   {import_records, false},
    {alter_part, true},     {import_model, false},  {read_all, false},     {write_out, false},
    {write_json, false},    {write_lists, false},   {list_history, false}, {set_limit, true},
    {alter_craft, true},    {copy_craft, true},     {remove_craft, true},  {remove_part, false},
    {find_parts, false},    {read_texts, false},    {import_tunnel, true}, {read_stands, false},
    {take_stand_off, true}, {take_items_off, true}, {add_craft, true},     {alter_price, true},
    {merge_prices, false},  {import_print, false},  {keep_study, true},    {read_kept, false},
    {read_study, false},
};

#endif
