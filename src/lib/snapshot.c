/* snapshot.c: a bench in memory, as it was when it was read (see pare/snapshot.h).
 *
 * Every public function that reads or writes a number does it in the C locale, whatever the process has
 * set. A text goes through a bench in memory: what it means is said in one place, the import. */
#include "lib/inside.h"

#include <stdlib.h>

#include "advise/taken.h"
#include "base/plain_locale.h"

static pare_status new_snapshot(pare_snapshot **snapshot, pare_error *err)
{
    *snapshot = calloc(1, sizeof **snapshot);
    if (!*snapshot)
        return pare_no_memory(err);
    (*snapshot)->arena = pare_arena_open();
    return (*snapshot)->arena ? PARE_OK : pare_no_memory(err);
}

static pare_status finish(pare_status status, pare_snapshot **snapshot)
{
    if (status != PARE_OK) {
        pare_snapshot_close(*snapshot);
        *snapshot = NULL;
    }
    return status;
}

pare_status pare_snapshot_open(const char *path, pare_snapshot **snapshot, pare_error *err)
{
    const locale_t before = pare_plain_locale_enter();
    pare_store *store = NULL;
    pare_status status = new_snapshot(snapshot, err);
    if (status == PARE_OK)
        status = pare_store_open(path, PARE_STORE_READ, &store, err);
    if (status == PARE_OK)
        status = pare_built_read(store, NULL, false, &(*snapshot)->built, err);
    pare_store_close(store);
    pare_plain_locale_leave(before);
    return finish(status, snapshot);
}

static pare_status take_text(pare_store *store, const pare_import *import, pare_snapshot *snapshot,
                             pare_error *err)
{
    pare_import_summary summary;
    pare_store_check_with(store, pare_taken_check);
    const pare_status status =
        pare_store_import_yaml(store, import, snapshot->arena, &summary, err);
    if (status != PARE_OK)
        return status;
    snapshot->notes = summary.warnings;
    snapshot->note = summary.warning;
    return pare_built_read(store, NULL, false, &snapshot->built, err);
}

pare_status pare_snapshot_of_text(const char *text, size_t length, const char *name,
                                  const char *folder, pare_snapshot **snapshot, pare_error *err)
{
    const locale_t before = pare_plain_locale_enter();
    const pare_import import = {
        .bytes = text, .length = length, .name = name ? name : "text", .folder = folder};
    pare_store *store = NULL;
    pare_status status = new_snapshot(snapshot, err);
    if (status == PARE_OK)
        status = pare_store_in_memory(&store, err);
    if (status == PARE_OK)
        status = take_text(store, &import, *snapshot, err);
    pare_store_close(store);
    pare_plain_locale_leave(before);
    return finish(status, snapshot);
}

void pare_snapshot_close(pare_snapshot *snapshot)
{
    if (!snapshot)
        return;
    pare_bench_close(snapshot->built.bench);
    pare_arena_close(snapshot->arena);
    free(snapshot);
}

const char *pare_snapshot_note(const pare_snapshot *snapshot, size_t index)
{
    return index < snapshot->notes ? snapshot->note[index] : NULL;
}

const char *pare_snapshot_craft(const pare_snapshot *snapshot, size_t index)
{
    const pare_bench *bench = snapshot->built.bench;
    return index < bench->crafts ? bench->craft[index]->name : NULL;
}

const char *pare_snapshot_loadout(const pare_snapshot *snapshot, const char *craft, size_t index)
{
    const pare_craft *found = pare_built_first(&snapshot->built, craft);
    return found && index < found->loadouts ? found->loadout[index].name : NULL;
}

const char *pare_snapshot_money(const pare_snapshot *snapshot)
{
    return snapshot->built.bench->money;
}

pare_bench pare_snapshot_bench(const pare_snapshot *snapshot, pare_arena *arena)
{
    pare_bench bench = *snapshot->built.bench;
    bench.arena = arena;
    return bench;
}
