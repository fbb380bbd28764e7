/* drawing.c: a model or drawing alone into the bench (see drawing.h).
 *
 * The part is put together as a tree and goes in as any text does, with the file's folder: so the file
 * is measured, kept and tied where all files are. */
#include "store/drawing.h"

#include <string.h>

#include "store/change.h"
#include "store/csv_part.h"
#include "store/disk.h"
#include "store/file.h"
#include "store/read_part.h"
#include "store/tree_edit.h"

typedef struct taking {
    pare_store *store;
    const pare_drawing_import *import;
    pare_arena *arena;
    pare_reading reading;
    pare_files files;
    const char *folder, *name;
    pare_node *parts; /* a list */
    pare_drawing_taken *taken;
} taking;

/* The bare name, and the folder that it is in. */
static pare_status find_name(taking *t, pare_error *err)
{
    const char *path = t->import->path, *slash = strrchr(path, '/');
    t->name = slash ? slash + 1 : path;
    t->folder = !slash          ? "."
                : slash == path ? "/"
                                : pare_arena_copy(t->arena, path, (size_t)(slash - path));
    if (!t->folder)
        return pare_no_memory(err);
    if (!pare_disk_has(path))
        return pare_fail(err, PARE_BAD_DATA, "%s: no such file", path);
    return PARE_OK;
}

/* The parts whose shape it is already. */
static pare_status find_parts(taking *t, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_status status =
        pare_sql_prepare(t->store, &statement, err,
                         "SELECT doc FROM part JOIN part_file ON part.id = part_file.part "
                         "WHERE part_file.file = ? ORDER BY part.id",
                         "t", t->name);
    while (status == PARE_OK) {
        const pare_node *root = NULL;
        status = pare_sql_step(t->store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        const char *doc = pare_sql_text(statement, 0, t->arena);
        status = doc ? pare_tree_parse_map(doc, strlen(doc), t->store->path, t->arena, &root, err)
                     : pare_no_memory(err);
        const pare_node *id = status == PARE_OK ? pare_node_get(root, "id") : NULL;
        if (status == PARE_OK && !(id && id->text))
            status = pare_fail(err, PARE_BAD_DATA, "%s: a damaged bench (a part without its id)",
                               t->store->path);
        pare_node *copy = status == PARE_OK ? pare_node_without(t->arena, root, NULL) : NULL;
        if (status == PARE_OK && !copy)
            status = pare_no_memory(err);
        if (status == PARE_OK)
            pare_node_append(t->parts, copy);
    }
    pare_sql_finish(statement);
    return status;
}

static bool says_anything(const pare_drawing_import *i)
{
    return i->id || i->kind || i->maker || i->mass || i->thick || i->origin || i->unit || i->wall ||
           i->infill || i->density || i->material;
}

static bool put(const taking *t, pare_node *map, const char *key, const char *text)
{
    if (!text)
        return true;
    pare_node *node = pare_node_made(t->arena, PARE_NODE_SCALAR, key, text);
    if (!node)
        return false;
    pare_node_set(map, node);
    return true;
}

static pare_node *make_body(const taking *t)
{
    const pare_drawing_import *i = t->import;
    pare_node *body = pare_node_made(t->arena, PARE_NODE_MAP, "body", NULL);
    bool fits = body;
    if (fits && i->outline)
        fits = put(t, body, "plate", "plate") && put(t, body, "outline", t->name) &&
               put(t, body, "thick", i->thick) && put(t, body, "origin", i->origin);
    else if (fits)
        fits = put(t, body, "mesh", t->name) && put(t, body, "unit", i->unit) &&
               put(t, body, "wall", i->wall) && put(t, body, "infill", i->infill);
    fits = fits && put(t, body, "material", i->material) && put(t, body, "density", i->density);
    return fits ? body : NULL;
}

static pare_status check_free(const taking *t, const char *id, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status =
        pare_sql_prepare(t->store, &statement, err, "SELECT 1 FROM part WHERE id = ?", "t", id);
    if (status == PARE_OK)
        status = pare_sql_step(t->store, statement, &row, err);
    pare_sql_finish(statement);
    if (status == PARE_OK && row)
        status = pare_fail(err, PARE_BAD_DATA,
                           "part '%.48s' is there already, with another shape; right would be "
                           "another --set id=NAME",
                           id);
    return status;
}

static pare_status make_part(taking *t, pare_error *err)
{
    const pare_drawing_import *i = t->import;
    char words[PARE_CSV_VALUE], id[49], kind[64];
    const char *dot = strrchr(t->name, '.');
    const size_t length = dot ? (size_t)(dot - t->name) : strlen(t->name);
    if (i->outline && !i->thick)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a plate of %.4g cm2, but how thick? right would be like --set "
                         "thick=2mm",
                         i->path, 1e4 * t->taken->area_m2);
    if (i->outline ? i->unit || i->wall || i->infill : i->thick || i->origin)
        return pare_fail(err, PARE_BAD_DATA, "%s: a %s; %s", i->path,
                         i->outline ? "plate" : "solid",
                         i->outline ? "unit, wall and infill are for prints"
                                    : "thick and origin are for outlines");
    memcpy(words, t->name, length < sizeof words ? length : sizeof words - 1);
    words[length < sizeof words ? length : sizeof words - 1] = '\0';
    pare_csv_make_id(words, 1, id);
    pare_csv_tidy(i->kind ? i->kind : i->outline ? "other" : "printed", kind, sizeof kind);
    const int known = pare_csv_kind(kind);
    if (known < 0)
        return pare_fail(
            err, PARE_BAD_DATA,
            "no kind of part is called '%.40s'; right would be one like printed, frame, "
            "holder, other",
            i->kind);
    pare_status status = check_free(t, i->id ? i->id : id, err);
    if (status != PARE_OK)
        return status;
    pare_node *part = pare_node_made(t->arena, PARE_NODE_MAP, NULL, NULL), *body = make_body(t);
    const char *name = i->id ? i->id : pare_arena_text(t->arena, id);
    if (!part || !body || !name || !put(t, part, "id", name) ||
        !put(t, part, "kind", pare_kind_name((pare_kind)known)) ||
        !put(t, part, "maker", i->maker) || !put(t, part, "mass", i->mass))
        return pare_no_memory(err);
    pare_node_set(part, body);
    pare_node_append(t->parts, part);
    return PARE_OK;
}

/* ---- what is said of it ---- */

static const pare_piece *piece_of(const taking *t, const pare_part *part)
{
    for (size_t i = 0; i < part->pieces; i++)
        if (part->piece[i].file && strcmp(part->piece[i].file, t->name) == 0)
            return &part->piece[i];
    return NULL;
}

static void describe_solid(const taking *t, const pare_piece *piece)
{
    const pare_mesh_facts *mesh = &piece->mesh;
    t->taken->volume_m3 = mesh->volume_m3;
    t->taken->estimated = mesh->estimated != PARE_MESH_EXACT;
    t->taken->size_m[0] = mesh->high_m.x - mesh->low_m.x;
    t->taken->size_m[1] = mesh->high_m.y - mesh->low_m.y;
    t->taken->size_m[2] = mesh->high_m.z - mesh->low_m.z;
}

static pare_status describe_outline(const taking *t, pare_error *err)
{
    enum { DRAWING_BYTES = 64 << 20 };
    pare_outline_facts facts;
    const char *bytes = NULL;
    size_t length = 0;
    pare_status status =
        pare_disk_read(t->import->path, DRAWING_BYTES, t->arena, &bytes, &length, err);
    if (status == PARE_OK)
        status = pare_outline_measure(t->import->path, bytes, length, NULL, &facts, err);
    if (status != PARE_OK)
        return status;
    t->taken->area_m2 = facts.area_m2;
    t->taken->holes = facts.holes;
    t->taken->size_m[0] = facts.high_m[0] - facts.low_m[0];
    t->taken->size_m[1] = facts.high_m[1] - facts.low_m[1];
    return PARE_OK;
}

static pare_status describe_part(taking *t, const pare_node *node, pare_drawing_part *part,
                                 pare_error *err)
{
    pare_part *read = NULL;
    t->files.names = 0;
    const pare_status status = pare_read_part(&t->reading, node, &read, err);
    if (status != PARE_OK)
        return status;
    *part = (pare_drawing_part){.id = read->id,
                                .kind = pare_kind_name(read->kind),
                                .mass_kg = read->mass_kg.value,
                                .computed = !read->mass_kg.given};
    const pare_piece *piece = piece_of(t, read);
    if (piece && !t->import->outline)
        describe_solid(t, piece);
    return PARE_OK;
}

/* "x.stl:0:0: part ...": what was made here stands in no line. */
static pare_status without_place(const taking *t, pare_error *err)
{
    const size_t name = strlen(t->reading.name);
    if (strncmp(err->text, t->reading.name, name) != 0 ||
        strncmp(err->text + name, ":0:0: ", 6) != 0)
        return err->status;
    const pare_error made = *err;
    const char *what = made.text + name + 6;
    /* What is wrong within the file names it already, without its folder. */
    const size_t own = strlen(t->name);
    if (strncmp(what, t->name, own) == 0 && what[own] == ':')
        return pare_fail(err, made.status, "%.*s%s", (int)(name - own), t->reading.name, what);
    return pare_fail(err, made.status, "%s: %s", t->reading.name, what);
}

/* All parts of this shape change together. */
static pare_status expect_parts(taking *t, pare_error *err)
{
    const char **ids = pare_arena_array(t->arena, t->parts->count, sizeof *ids);
    size_t count = 0;
    if (!ids)
        return pare_no_memory(err);
    for (const pare_node *one = t->parts->first; one; one = one->next) {
        const pare_node *id = pare_node_get(one, "id");
        if (id && id->text)
            ids[count++] = id->text;
    }
    pare_files_expect(&t->files, count, ids);
    return PARE_OK;
}

/* Reads each part as it will be, for its mass; files are only found within a change, which is then
 * forgotten. */
static pare_status describe_parts(taking *t, pare_error *err)
{
    pare_drawing_part *part = pare_arena_array(t->arena, t->parts->count, sizeof *part);
    if (!part)
        return pare_no_memory(err);
    t->taken->part = part;
    pare_status status = expect_parts(t, err);
    if (status != PARE_OK)
        return status;
    status = pare_change_begin(t->store, &t->import->change, false, err);
    if (status != PARE_OK)
        return status;
    for (const pare_node *one = t->parts->first; one && status == PARE_OK; one = one->next)
        status = describe_part(t, one, &part[t->taken->parts++], err);
    if (status != PARE_OK)
        status = without_place(t, err);
    return pare_change_end(t->store, status, false, err);
}

static pare_status describe_body(const taking *t, pare_error *err)
{
    pare_text text = {0};
    const pare_node *body = pare_node_get(t->parts->first, "body");
    if (body)
        pare_tree_write(body, 0, &text);
    t->taken->body = body && !text.failed ? pare_arena_text(t->arena, text.bytes) : NULL;
    pare_text_free(&text);
    return t->taken->body ? PARE_OK : pare_no_memory(err);
}

/* A warning's place is one of the text that was made here, which nobody has: the drawing's name is enough. The
 * part is in by now, so that where there is no memory for it the place stays. */
static const char *without_line(const taking *t, const char *warning)
{
    const size_t name = strlen(t->import->path);
    if (strncmp(warning, t->import->path, name) != 0 || warning[name] != ':')
        return warning;
    const char *after = warning + name + 1 + strspn(warning + name + 1, "0123456789:");
    const char *made = pare_arena_printf(t->arena, "%s:%s", t->import->path, after);
    return made ? made : warning;
}

static void keep_warnings(const taking *t, const pare_import_summary *summary)
{
    const char **kept = pare_arena_array(t->arena, summary->warnings + 1, sizeof *kept);
    t->taken->warnings = summary->warnings;
    t->taken->warning = kept ? kept : summary->warning;
    for (size_t i = 0; kept && i < summary->warnings; i++)
        kept[i] = without_line(t, summary->warning[i]);
}

static pare_status bring_in(const taking *t, pare_error *err)
{
    pare_text text = {0};
    pare_import_summary summary = {0};
    pare_node *root = pare_node_made(t->arena, PARE_NODE_MAP, NULL, NULL);
    if (!root || !put(t, root, "pare", "1"))
        return pare_no_memory(err);
    pare_node_set(root, t->parts);
    pare_tree_write(root, 2, &text);
    const pare_import import = {.bytes = text.bytes,
                                .length = text.length,
                                .name = t->import->path,
                                .folder = t->folder,
                                .change = t->import->change,
                                .dry_run = t->import->dry_run};
    const pare_status status =
        text.failed ? pare_no_memory(err)
                    : pare_store_import_yaml(t->store, &import, t->arena, &summary, err);
    pare_text_free(&text);
    if (status == PARE_OK)
        keep_warnings(t, &summary);
    return status;
}

static pare_status take(taking *t, pare_error *err)
{
    pare_status status = find_name(t, err);
    t->files =
        (pare_files){.store = t->store, .arena = t->arena, .folder = t->folder, .may_keep = true};
    t->reading.name = t->import->path;
    t->taken->file = t->name;
    if (status == PARE_OK && t->import->outline)
        status = describe_outline(t, err);
    if (status == PARE_OK)
        status = find_parts(t, err);
    if (status == PARE_OK && t->parts->first && says_anything(t->import))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s is the shape of part '%.48s' already; right would be the file alone, "
                         "to take it in anew",
                         t->name, pare_node_get(t->parts->first, "id")->text);
    if (status == PARE_OK && !t->parts->first)
        status = make_part(t, err);
    if (status == PARE_OK)
        status = describe_parts(t, err);
    if (status == PARE_OK)
        status = describe_body(t, err);
    return status == PARE_OK ? bring_in(t, err) : status;
}

pare_status pare_store_import_drawing(pare_store *store, const pare_drawing_import *import,
                                      pare_arena *arena, pare_drawing_taken *taken, pare_error *err)
{
    pare_units *units = pare_units_open();
    taking t = {.store = store,
                .import = import,
                .arena = arena,
                .parts = pare_node_made(arena, PARE_NODE_LIST, "parts", NULL),
                .taken = taken};
    t.reading = (pare_reading){
        .arena = arena, .units = units, .find_file = pare_files_find, .find_context = &t.files};
    *taken = (pare_drawing_taken){0};
    const pare_status status = units && t.parts ? take(&t, err) : pare_no_memory(err);
    pare_units_close(units);
    return status;
}
