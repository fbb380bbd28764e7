/* file.c: mesh files and outlines in a bench (see file.h).
 *
 * A file is kept as bytes under its name, so that an export can write it out again; what was measured
 * of it is kept beside it, in the layout of pare_mesh_facts or pare_outline_facts, and measured anew
 * when the layout has changed. A drawing says its unit itself, as some meshes do: it stands as 0. A
 * name is relative and stays below its folder. */
#include "store/file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/disk.h"
#include "store/hull.h"
#include "store/stl.h"
#include "store/studies.h"
#include "store/three_mf.h"

#define FILE_BYTES ((size_t)64 << 20)

enum { NAME_MOST = 200 };

/* Raised when facts or their meaning change; the size catches most of it by itself. */
#define MESH_LAYOUT    (1000 + (long long)sizeof(pare_mesh_facts) * 100000)
#define OUTLINE_LAYOUT (2000 + (long long)sizeof(pare_outline_facts) * 100000)

/* What a file is to be measured as: one of the two. */
typedef struct measured {
    pare_mesh_facts *mesh;
    pare_outline_facts *outline;
} measured;

static long long layout_of(const measured *to)
{
    return to->mesh ? MESH_LAYOUT : OUTLINE_LAYOUT;
}

static void *facts_of(const measured *to)
{
    return to->mesh ? (void *)to->mesh : (void *)to->outline;
}

static size_t size_of(const measured *to)
{
    return to->mesh ? sizeof *to->mesh : sizeof *to->outline;
}

static pare_status check_name(const char *file, pare_error *err)
{
    const size_t length = strlen(file);
    bool bad = length > NAME_MOST || file[0] == '/' || strchr(file, '\\') ||
               (length && file[length - 1] == '/') || strstr(file, "//");
    for (const char *part = file; part && !bad; part = strchr(part, '/')) {
        part += *part == '/';
        bad = strcmp(part, "..") == 0 || strncmp(part, "../", 3) == 0;
    }
    if (!bad)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "file '%.80s'; right would be a name below the folder of this text, without "
                     "'..', 200 bytes at most",
                     file);
}

static bool plausible_mesh(const pare_mesh_facts *facts)
{
    return isfinite(facts->volume_m3) && facts->volume_m3 >= 0 && isfinite(facts->area_m2) &&
           isfinite(facts->centre_m.x) && isfinite(facts->centre_m.y) &&
           isfinite(facts->centre_m.z) && isfinite(facts->inertia_m5.xx) &&
           isfinite(facts->inertia_m5.yy) && isfinite(facts->inertia_m5.zz) &&
           isfinite(facts->inertia_m5.xy) && isfinite(facts->inertia_m5.xz) &&
           isfinite(facts->inertia_m5.yz);
}

static bool plausible_outline(const pare_outline_facts *facts)
{
    bool good = facts->area_m2 > 0 && facts->xx_m4 > 0 && facts->yy_m4 > 0 && facts->edge_m > 0 &&
                isfinite(facts->area_m2 + facts->xx_m4 + facts->yy_m4 + facts->xy_m4) &&
                isfinite(facts->edge_m);
    for (int k = 0; k < 2; k++)
        good = good && isfinite(facts->centre_m[k]) && isfinite(facts->low_m[k]) &&
               isfinite(facts->high_m[k]) && facts->high_m[k] > facts->low_m[k];
    return good;
}

static bool plausible(const measured *to)
{
    return to->mesh ? plausible_mesh(to->mesh) : plausible_outline(to->outline);
}

static pare_status cached_facts(const pare_store *store, const char *file, double unit_m,
                                const measured *to, bool *found, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    *found = false;
    pare_status status = pare_sql_prepare(
        store, &statement, err, "SELECT layout, facts FROM mesh WHERE file = ? AND unit_m = ?",
        "td", file, unit_m);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    if (row && pare_sql_int(statement, 0) == layout_of(to) &&
        pare_sql_length(statement, 1) == size_of(to)) {
        memcpy(facts_of(to), pare_sql_bytes(statement, 1), size_of(to));
        *found = plausible(to);
    }
    pare_sql_finish(statement);
    return status;
}

/* The same of all files at once. @param[out] found  it is kept, and as it should be */
static pare_status recalled_facts(const pare_files *files, const char *file, double unit_m,
                                  const measured *to, bool *found, pare_error *err)
{
    const pare_recalled *one = NULL;
    const pare_status status =
        pare_recall_find(files->recall, files->store, files->arena, file, unit_m, &one, err);
    if (one && one->layout == layout_of(to) && one->length == size_of(to)) {
        memcpy(facts_of(to), one->facts, size_of(to));
        *found = plausible(to);
    }
    return status;
}

static pare_status kept_bytes(const pare_files *files, const char *file, const char **bytes,
                              size_t *length, bool *found, pare_error *err)
{
    pare_statement *statement = NULL;
    pare_status status = pare_sql_prepare(files->store, &statement, err,
                                          "SELECT bytes FROM file WHERE name = ?", "t", file);
    if (status == PARE_OK)
        status = pare_sql_step(files->store, statement, found, err);
    if (*found) {
        *length = pare_sql_length(statement, 0);
        const void *blob = pare_sql_bytes(statement, 0);
        *bytes = pare_arena_copy(files->arena, blob ? blob : "", *length);
        if (!*bytes)
            status = pare_no_memory(err);
    }
    pare_sql_finish(statement);
    return status;
}

/* Other bytes under the same name: what was measured of the old ones goes with them. */
static pare_status keep_bytes(const pare_files *files, const char *file, const char *bytes,
                              size_t length, pare_error *err)
{
    pare_status status =
        pare_sql_change(files->store, err, "DELETE FROM mesh WHERE file = ?", "t", file);
    if (status == PARE_OK)
        status = pare_sql_change(files->store, err,
                                 "INSERT INTO file(name, bytes) VALUES (?, ?) "
                                 "ON CONFLICT (name) DO UPDATE SET bytes = excluded.bytes",
                                 "tb", file, (const void *)bytes, length);
    return status;
}

static int by_id(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

void pare_files_expect(pare_files *files, size_t count, const char *id[])
{
    if (count)
        qsort(id, count, sizeof *id, by_id);
    files->coming = count;
    files->coming_id = id;
}

static bool is_coming_in(const pare_files *files, const char *part)
{
    return files->coming &&
           bsearch(&part, files->coming_id, files->coming, sizeof *files->coming_id, by_id);
}

/* Other bytes for a name change every part that says it, so all of them must be coming in. */
static pare_status check_shared(const pare_files *files, const char *file, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_status status = pare_sql_prepare(files->store, &statement, err,
                                          "SELECT part FROM part_file WHERE file = ?", "t", file);
    while (status == PARE_OK) {
        status = pare_sql_step(files->store, statement, &row, err);
        if (!row)
            break;
        const char *part = pare_sql_chars(statement, 0);
        if (part && !is_coming_in(files, part))
            status = pare_fail(err, PARE_BAD_DATA,
                               "file %s differs from the one that part '%.48s' on the bench has; "
                               "right would be another name for it",
                               file, part);
    }
    pare_sql_finish(statement);
    return status;
}

/* A file from memory, or from the folder; *bytes stays NULL where there is none. */
static pare_status fetch(const pare_files *files, const char *file, const char **bytes,
                         size_t *length, pare_error *err)
{
    for (size_t i = 0; i < files->carried; i++)
        if (strcmp(files->carry[i].name, file) == 0) {
            *bytes = files->carry[i].bytes;
            *length = files->carry[i].length;
            return PARE_OK;
        }
    if (!files->folder)
        return PARE_OK;
    const char *path = pare_arena_printf(files->arena, "%s/%s", files->folder, file);
    if (!path)
        return pare_no_memory(err);
    if (!pare_disk_has(path))
        return PARE_OK;
    return pare_disk_read(path, FILE_BYTES, files->arena, bytes, length, err);
}

/* From there into the bench. @param[out] found  it was there */
static pare_status take(pare_files *files, const char *file, bool *found, pare_error *err)
{
    const char *bytes = NULL, *kept = NULL;
    size_t length = 0, kept_length = 0;
    bool has = false;
    *found = false;
    pare_status status = fetch(files, file, &bytes, &length, err);
    if (status == PARE_OK && bytes)
        status = kept_bytes(files, file, &kept, &kept_length, &has, err);
    if (status != PARE_OK || !bytes)
        return status;
    *found = true;
    files->read++;
    if (has && kept_length == length && memcmp(kept, bytes, length) == 0)
        return PARE_OK;
    files->changed = true;
    status = has ? check_shared(files, file, err) : PARE_OK;
    return status != PARE_OK ? status : keep_bytes(files, file, bytes, length, err);
}

static pare_status measure_mesh(const pare_files *files, const char *file, const char *bytes,
                                size_t length, double unit_m, pare_mesh_facts *facts,
                                pare_error *err)
{
    pare_mesh mesh = {0};
    if (pare_name_ends(file, ".3mf"))
        return pare_three_mf_measure(file, bytes, length, facts, err);
    pare_status status = pare_stl_read(file, bytes, length, unit_m, files->arena, &mesh, err);
    if (status == PARE_OK && pare_mesh_figures(&mesh, facts, err) != PARE_OK)
        status = pare_within(err, "%s", file);
    return status;
}

static pare_status measure(const pare_files *files, const char *file, double unit_m,
                           const measured *to, pare_error *err)
{
    const char *bytes = NULL;
    size_t length = 0;
    bool has = false;
    memset(facts_of(to), 0, size_of(to)); /* kept as bytes, with its gaps */
    pare_status status = kept_bytes(files, file, &bytes, &length, &has, err);
    if (status == PARE_OK)
        status = to->mesh ? measure_mesh(files, file, bytes, length, unit_m, to->mesh, err)
                          : pare_outline_measure(file, bytes, length, NULL, to->outline, err);
    if (status == PARE_OK && files->may_keep)
        status = pare_sql_change(files->store, err,
                                 "INSERT INTO mesh(file, unit_m, layout, facts) "
                                 "VALUES (?, ?, ?, ?) ON CONFLICT (file, unit_m) DO UPDATE SET "
                                 "layout = excluded.layout, facts = excluded.facts",
                                 "tdib", file, unit_m, layout_of(to), (const void *)facts_of(to),
                                 size_of(to));
    return status;
}

static void say(const char *file, const pare_mesh_facts *facts, pare_notes *notes)
{
    if (facts->estimated)
        pare_note(notes, "mesh %s is open (%zu open edge%s); its %s stands in for it, estimated",
                  file, facts->open_edges, facts->open_edges == 1 ? "" : "s",
                  facts->estimated == PARE_MESH_BOX ? "bounding box" : "convex hull");
    if (facts->turned_inside_out)
        pare_note(notes, "mesh %s was inside out; it has been turned", file);
}

static pare_status is_kept(const pare_store *store, const char *file, bool *kept, pare_error *err)
{
    pare_statement *statement = NULL;
    pare_status status =
        pare_sql_prepare(store, &statement, err, "SELECT 1 FROM file WHERE name = ?", "t", file);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, kept, err);
    pare_sql_finish(statement);
    return status;
}

pare_status pare_files_find(void *context, const char *file, double unit_m, pare_mesh_facts *mesh,
                            pare_outline_facts *outline, bool *found, pare_notes *notes,
                            pare_error *err)
{
    const measured to = {mesh, outline};
    pare_files *files = context;
    bool there = false;
    *found = false;
    pare_status status = check_name(file, err);
    if (status == PARE_OK && files->may_keep)
        status = take(files, file, &there, err);
    if (status == PARE_OK && files->recall)
        status = recalled_facts(files, file, unit_m, &to, found, err);
    there = there || *found; /* figures go with their file */
    if (status == PARE_OK && !there)
        status = is_kept(files->store, file, &there, err);
    if (status != PARE_OK)
        return status;
    if (there && files->names < PARE_FILES_A_PART)
        files->name[files->names++] = file;
    if (!there) {
        pare_note(notes,
                  mesh ? "mesh %s is not there; the part is filled by law, estimated"
                       : "outline %s is not there; a rectangle stands in for it, estimated",
                  file);
        return PARE_OK;
    }
    if (!*found)
        status = cached_facts(files->store, file, unit_m, &to, found, err);
    if (status == PARE_OK && !*found) {
        status = measure(files, file, unit_m, &to, err);
        *found = status == PARE_OK;
    }
    if (*found && mesh)
        say(file, mesh, notes);
    return status;
}

pare_status pare_store_outline(pare_store *store, const char *file, pare_arena *arena,
                               size_t *count, const pare_outline **loop, pare_error *err)
{
    const pare_files files = {.store = store, .arena = arena};
    pare_loops loops = {.arena = arena};
    pare_outline_facts facts;
    const char *bytes = NULL;
    size_t length = 0;
    bool has = false;
    pare_status status = kept_bytes(&files, file, &bytes, &length, &has, err);
    if (status == PARE_OK && has)
        status = pare_outline_measure(file, bytes, length, &loops, &facts, err);
    if (status == PARE_OK) {
        *count = loops.count;
        *loop = loops.loop;
    }
    return status;
}

pare_status pare_files_tie(pare_files *files, const char *part, pare_error *err)
{
    pare_status status =
        pare_sql_change(files->store, err, "DELETE FROM part_file WHERE part = ?", "t", part);
    for (size_t i = 0; i < files->names && status == PARE_OK; i++)
        status = pare_sql_change(files->store, err,
                                 "INSERT INTO part_file(part, file) VALUES (?, ?) "
                                 "ON CONFLICT DO NOTHING",
                                 "tt", part, files->name[i]);
    return status;
}

pare_status pare_files_sweep(const pare_store *store, pare_error *err)
{
    return pare_sql_run(store,
                        "DELETE FROM file WHERE NOT EXISTS "
                        "(SELECT 1 FROM part_file WHERE part_file.file = file.name) "
                        "AND name NOT LIKE '" PARE_STUDIES "'",
                        err);
}
