/* demo.c: `pare demo`: the demo's own bench, and the main job on one of its craft.
 *
 * The bench is filled afresh at each run, so the demo always says the same. A bench that holds
 * anything of the user's is left alone. */
#include <embedded.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/use.h"
#include "show/ruler.h"
#include "show/sheet_json.h"
#include "show/sheet_text.h"
#include "show/swaps.h"

#define CRAFT "hedgerow"
enum { BEST = 10, MOST_FILES = 64 };

static bool ours(const char *name, size_t count, const char *const names[])
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(name, names[i]) == 0)
            return true;
    return false;
}

/* Whether a bench named by the user holds only what the demo puts there. */
static pare_status only_ours(pare_store *store, const char *path, pare_error *err)
{
    static const char *const craft[] = {"bodkin", "drover", "hedgerow", "thimble"};
    const char *const *names;
    size_t count = 0;
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_status status = pare_store_craft_names(store, arena, &count, &names, err);
    for (size_t i = 0; status == PARE_OK && i < count; i++)
        if (!ours(names[i], sizeof craft / sizeof craft[0], craft))
            status = pare_fail(err, PARE_BAD_DATA,
                               "%s holds a craft of your own ('%s'), which the demo would replace; "
                               "right would be a new file",
                               path, names[i]);
    const char *const *ids;
    size_t parts = 0;
    if (status == PARE_OK)
        status = pare_store_part_ids(store, arena, &parts, &ids, err);
    if (status == PARE_OK && count == 0 && parts > 0)
        status = pare_fail(err, PARE_BAD_DATA,
                           "%s holds %zu parts of your own, which the demo would replace; right "
                           "would be a new file",
                           path, parts);
    pare_arena_close(arena);
    return status;
}

static pare_status fill(const options *given, const char *path, pare_import_summary *summary,
                        pare_arena *arena, pare_error *err)
{
    pare_import_file file[MOST_FILES];
    size_t files = 0;
    for (size_t i = 1; i < pare_demo_file_count && files < MOST_FILES; i++)
        file[files++] = (pare_import_file){pare_demo_files[i].name, pare_demo_files[i].bytes,
                                           pare_demo_files[i].length};
    const pare_import import = {.bytes = (const char *)pare_demo_files[0].bytes,
                                .length = pare_demo_files[0].length,
                                .name = "demo bench",
                                .files = files,
                                .file = file,
                                .empty_first = true,
                                .change = {.what = "demo"}};
    pare_store *store = NULL;
    long_work_catch();
    const bool was_there = bench_is_there(path);
    pare_status status = bench_store(path, PARE_STORE_CREATE, &store, err);
    const bool made = store && !was_there;
    if (status == PARE_OK && given->given & OPTION_BENCH)
        status = only_ours(store, path, err);
    if (status == PARE_OK) {
        pare_store_watch(store, given->progress);
        status = pare_store_import_yaml(store, &import, arena, summary, err);
    }
    long_work_release(status);
    pare_store_close(store);
    if (made && status != PARE_OK)
        unlink(path); /* nothing came in: leave no empty bench behind */
    if (status == PARE_STOPPED)
        pare_fail(err, status, "stopped: %s",
                  made ? "no demo bench was made" : "the demo's bench is as it was");
    return status;
}

static void put_next(const char *path, const pare_screen *screen, pare_text *out)
{
    pare_put_heading(screen, out, "Try next");
    pare_text_printf(out,
                     "  B=%s\n"
                     "  pare sheet hedgerow --all --bench $B\n"
                     "  pare swaps hedgerow --wish minutes --bench $B\n"
                     "  pare sheet hedgerow --try bumper=off,tower=ti-100 --bench $B\n"
                     "  pare compare hedgerow bodkin --bench $B\n"
                     "  pare swaps thimble --bench $B\n"
                     "  pare craft show drover --bench $B\n"
                     "  pare export -o mine.yaml --bench $B     then edit it, and pare import it\n",
                     path);
}

static void put_demo(const pare_sheet_view *view, const pare_swaps_view *swaps,
                     const pare_import_summary *summary, const char *path, pare_text *out)
{
    const pare_screen screen = terminal_screen();
    pare_text line = {0};
    pare_text_printf(
        &line,
        "An invented club's bench: %zu parts, %zu craft. One of its craft, %s, flies a "
        "slalom with a stripped camera and has grown too heavy. The bench is now in",
        summary->parts_added, summary->craft_added, CRAFT);
    pare_put_line(&screen, out, 0, 0, &line);
    pare_text_printf(out, "  %s\n\n", path);
    pare_sheet_text(view, swaps->swaps, swaps->money, &screen, out);
    pare_text_add(out, "\n");
    pare_put_heading(&screen, out, "The best single swaps");
    pare_swaps_head(swaps, &screen, out);
    for (size_t i = 0; i < swaps->swaps->count && i < BEST; i++)
        pare_swaps_row(swaps, &swaps->swaps->swap[i], &screen, out);
    pare_text_add(out, "\n");
    pare_swaps_together_text(swaps, &screen, out);
    pare_swaps_cautions(swaps, BEST, &screen, out);
    pare_text_add(out, "\n");
    put_next(path, &screen, out);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    pare_text path = {0}, shown = {0};
    bench_in_use use = {0};
    pare_import_summary summary = {0};
    pare_swaps swaps = {0};
    const pare_craft *craft = NULL;
    pare_sheet_view *view = malloc(sizeof *view);
    pare_arena *arena = pare_arena_open();
    pare_status status = arena && view ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("demo", given, 0, 0, "no words", err);
    if (status == PARE_OK)
        status = bench_path(given, true, &path, err);
    if (status == PARE_OK)
        status = pare_store_shown(path.bytes, &shown, err);
    if (status == PARE_OK)
        status = fill(given, path.bytes, &summary, arena, err);
    if (status == PARE_OK) {
        options from = *given;
        from.given |= OPTION_BENCH;
        from.bench = path.bytes;
        status = bench_use(&from, &use, err);
    }
    if (status == PARE_OK)
        status = bench_craft(&use, CRAFT, &craft, err);
    if (status == PARE_OK)
        status = pare_sheet_view_fill(craft, NULL, 0, NULL, view, err);
    if (status == PARE_OK)
        status = pare_swaps_find(use.bench, craft, 0, PARE_WISH_GRAMS, arena, &swaps, err);
    if (status == PARE_OK) {
        const pare_swaps_view listed = {.craft = craft,
                                        .loadout = view->loadout,
                                        .money = use.bench->money,
                                        .wished = "grams",
                                        .roll_rad_s2 = view->sheet.figure[PARE_ROLL].value,
                                        .swaps = &swaps};
        if (given->given & OPTION_JSON) {
            json_t *object = json_object();
            json_object_set_new(object, "bench", json_string(shown.bytes));
            json_object_set_new(object, "sheet", pare_sheet_object(view));
            json_object_set_new(object, "swaps", pare_swaps_object(&listed));
            pare_json_write(object, out);
        } else {
            put_demo(view, &listed, &summary, shown.bytes, out);
        }
    }
    bench_leave(&use);
    pare_arena_close(arena);
    free(view);
    pare_text_free(&shown);
    pare_text_free(&path);
    return status;
}

const command command_demo = {
    .name = "demo",
    .line = "fill a demo bench and do the main job on one of its craft",
    .usage = "pare demo [--bench FILE] [--json]",
    .details = "The demo has its own bench file and never touches yours; --bench names another.\n",
    .example = "  pare demo\n",
    .options = OPTION_BENCH | OPTION_JSON,
    .meaning = {{OPTION_BENCH, "another file than the demo's own"}},
    .run = run,
};
