/* store_works.h: what the store does for its callers, one function each, for tests that make it fail at
 * every point. */
#ifndef PARE_TESTS_STORE_WORKS_H
#define PARE_TESTS_STORE_WORKS_H

#include "store/by_key.h"
#include "store/csv_import.h"
#include "store/drawing.h"
#include "store/list_out.h"
#include "store/propeller_file.h"
#include "store_bench.h"

typedef pare_status (*store_work)(pare_store *store, pare_arena *arena, pare_error *err);

static inline pare_status import_text(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_import_summary summary;
    const pare_import import = {.path = PARE_SOURCE_DIR "/tests/data/every-key.yaml",
                                .dry_run = true};
    return pare_store_import_yaml(store, &import, arena, &summary, err);
}

static inline pare_status import_list(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char list[] = "id,kind,mass (g),kv,stator,cells,capacity (mAh),note\n"
                               "m1,motor,31.5,1900,22 x 7 mm,,,a good one\n"
                               "p1,pack,178,,,6,1050,\n"
                               "m2,motor,,1750,23 x 6 mm,,,\n";
    pare_list_summary summary;
    const pare_list_import import = {
        .name = "list.csv", .bytes = list, .length = sizeof list - 1, .dry_run = true};
    return pare_store_import_list(store, &import, arena, &summary, err);
}

/* Some are there and change, one is there and stays, one cannot be, and a column is kept as a note. */
static inline pare_status merge_list(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char list[] = "id;kind;mass (g);colour;price\n"
                               "vt-w;video_transmitter;4,5;red;19,90\n"
                               "pg-w;pigtail;2,6;;\n"
                               "an-w;antenna;heavy;blue;\n"
                               "new;other;3;;1\n";
    pare_list_summary summary;
    const pare_list_import import = {.name = "list.csv",
                                     .bytes = list,
                                     .length = sizeof list - 1,
                                     .notes = true,
                                     .keep_good = true,
                                     .dry_run = true};
    return pare_store_import_list(store, &import, arena, &summary, err);
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
        pare_list_summary summary;
        const pare_list_import import = {.name = "list.csv",
                                         .bytes = lists[i],
                                         .length = strlen(lists[i]),
                                         .keep_good = i < 2, /* a stand table is taken whole */
                                         .dry_run = true};
        status = pare_store_import_list(store, &import, arena, &summary, err);
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

static const struct {
    store_work does;
    bool changes; /* alters the bench where it succeeds */
} STORE_WORKS[] = {
    {import_text, false},   {import_list, false},  {merge_list, false},   {import_records, false},
    {alter_part, true},     {import_model, false}, {read_all, false},     {write_out, false},
    {write_json, false},    {write_lists, false},  {list_history, false}, {set_limit, true},
    {alter_craft, true},    {copy_craft, true},    {remove_craft, true},  {remove_part, false},
    {find_parts, false},    {read_texts, false},   {import_tunnel, true}, {read_stands, false},
    {take_stand_off, true},
};

#endif
