/* import.c: a bench's text into the store (see bench.h).
 *
 * Everything happens in one change, and each part and craft is read as a sheet would read it
 * before it is kept: so whatever the store holds can be computed with. Parts first, then craft, which
 * may name parts that the bench already had, then records, which may name both. At the end the craft
 * that were there before are read again where a part of theirs may have changed under them.
 *
 * Parts can be very many, so they are read while the text is taken apart, one in memory at a time.
 * Those that name a mesh or an outline wait until all are known: a file that other parts share may
 * change only when they all come in. So do all parts of a text that has not yet said what it is. */
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "store/change.h"
#include "store/disk.h"
#include "store/edit.h"
#include "store/file.h"
#include "store/load.h"
#include "store/read_craft.h"
#include "store/read_part.h"
#include "store/records.h"
#include "store/row.h"

enum {
    LIST_MOST = 10000, /* entries of a list: more than any shop's bench, few enough to compare */
    PARTS_MOST = 1000000
};

/* What an entry of a list is called, and where it stands. */
typedef struct called {
    const char *name;
    int line, column;
} called;

/** One import under way. */
typedef struct job {
    pare_store *store;
    pare_arena *arena;      /* of this import alone */
    pare_arena *part_arena; /* of the part at hand */
    pare_reading reading, part_reading;
    pare_text text;           /* of the entry at hand */
    size_t parts, parts_room; /* seen so far */
    called *part;             /* [parts] */
    pare_files files;
    const pare_node *root;
    pare_bench *bench; /* all parts, for the craft */
    pare_import_summary *summary;
} job;

static pare_status check_version(const job *j, const pare_node *pare, pare_error *err)
{
    int version = 0;
    const pare_status status = pare_read_count(&j->reading, pare, "pare, the version of the text,",
                                               0, 1000, &version, err);
    if (status == PARE_OK && version != 1)
        return pare_refuse(&j->reading, pare, PARE_BAD_DATA, err,
                           "a text of version %d; right would be pare: 1", version);
    return status;
}

/* A list of the document, when it is there. */
static pare_status need_list(const job *j, const pare_node *list, const char *what, pare_error *err)
{
    const pare_status status = list ? pare_need_list(&j->reading, list, what, err) : PARE_OK;
    if (status == PARE_OK && list && list->count > LIST_MOST)
        return pare_refuse(&j->reading, list, PARE_BAD_DATA, err,
                           "%zu entries of %s; right would be %d at most", list->count, what,
                           LIST_MOST);
    return status;
}

/* ---- one row ---- */

/* The canonical text of a node; good until the next is asked for. */
static pare_status text_of(job *j, const pare_node *node, int block, const char **doc,
                           pare_error *err)
{
    j->text.length = 0;
    pare_tree_write(node, block, &j->text);
    *doc = j->text.bytes;
    return j->text.failed ? pare_no_memory(err) : PARE_OK;
}

/* Whether a row is there, and with this very text. */
static pare_status compare_row(const job *j, const char *sql, const char *key, const char *doc,
                               bool *there, bool *same, pare_error *err)
{
    pare_statement *statement = NULL;
    *there = *same = false;
    pare_status status = pare_sql_prepare(j->store, &statement, err, sql, "t", key);
    if (status == PARE_OK)
        status = pare_sql_step(j->store, statement, there, err);
    if (*there) {
        const char *kept = pare_sql_chars(statement, 0);
        *same = kept && strcmp(kept, doc) == 0;
    }
    pare_sql_finish(statement);
    return status;
}

static void count_row(bool there, bool same, size_t *added, size_t *replaced, size_t *unchanged)
{
    if (same)
        ++*unchanged;
    else if (there)
        ++*replaced;
    else
        ++*added;
}

/* ---- names ---- */

static int by_name(const void *a, const void *b)
{
    const called *one = a, *two = b;
    const int order = strcmp(one->name, two->name);
    if (order)
        return order;
    return one->line != two->line ? one->line - two->line : one->column - two->column;
}

/* Two entries of one name: the second is refused, rather than the first lost unsaid. */
static pare_status check_differ(const job *j, size_t count, called entry[], const char *what,
                                pare_error *err)
{
    /* An exported list is in order already. */
    bool ascending = true;
    for (size_t i = 1; i < count && ascending; i++)
        ascending = strcmp(entry[i - 1].name, entry[i].name) < 0;
    if (!ascending)
        qsort(entry, count, sizeof *entry, by_name);
    for (size_t i = 1; i < count && !ascending; i++)
        if (strcmp(entry[i - 1].name, entry[i].name) == 0) {
            const pare_node at = {.line = entry[i].line, .column = entry[i].column};
            return pare_refuse(&j->reading, &at, PARE_BAD_DATA, err,
                               "%s '%.48s' a second time; it is already in line %d", what,
                               entry[i].name, entry[i - 1].line);
        }
    return PARE_OK;
}

static pare_status check_craft_differ(const job *j, const pare_node *list, pare_error *err)
{
    called *entry = pare_arena_array(j->arena, list->count, sizeof *entry);
    if (!entry)
        return pare_no_memory(err);
    size_t n = 0;
    for (const pare_node *one = list->first; one; one = one->next) {
        const pare_node *name = pare_node_get(one, "name");
        if (name && name->text)
            entry[n++] = (called){name->text, one->line, one->column};
    }
    return check_differ(j, n, entry, "craft", err);
}

/* ---- parts ---- */

/* A new one costs one statement; only where its id is taken is the row looked at and replaced. */
static pare_status keep_part(job *j, const pare_node *node, const pare_part *part,
                             bool files_changed, pare_error *err)
{
    const char *doc = NULL;
    bool there = false, same = false;
    pare_status status = text_of(j, node, 0, &doc, err);
    if (status == PARE_OK)
        status = pare_row_add_part(j->store, part, doc, &there, err);
    if (status == PARE_OK && there)
        status =
            compare_row(j, "SELECT doc FROM part WHERE id = ?", part->id, doc, &there, &same, err);
    if (status == PARE_OK && there)
        status = pare_row_put_part(j->store, 0, part, doc, err);
    if (status == PARE_OK && (there || j->files.names))
        status = pare_files_tie(&j->files, part->id, err);
    if (status == PARE_OK)
        count_row(there, same && !files_changed, &j->summary->parts_added,
                  &j->summary->parts_replaced, &j->summary->parts_same);
    return status;
}

static pare_status import_part(job *j, const pare_node *node, pare_error *err)
{
    pare_part *part = NULL;
    j->files.names = 0;
    j->files.changed = false;
    const pare_status status = pare_read_part(&j->part_reading, node, &part, err);
    return status == PARE_OK ? keep_part(j, node, part, j->files.changed, err) : status;
}

static bool names_file(const pare_node *piece)
{
    return pare_node_get(piece, "mesh") || pare_node_get(piece, "outline");
}

static bool has_file(const pare_node *part)
{
    const pare_node *body = pare_node_get(part, "body");
    bool found = body && names_file(body);
    for (const pare_node *one = body ? body->first : NULL; one && !found; one = one->next)
        found = names_file(one);
    return found;
}

static pare_status add_called(job *j, const pare_node *node, pare_error *err)
{
    const pare_node *id = pare_node_get(node, "id");
    if (!id || !id->text)
        return PARE_OK;
    j->part = pare_grown(j->arena, j->part, j->parts, &j->parts_room, sizeof *j->part);
    const char *name = j->part ? pare_arena_text(j->arena, id->text) : NULL;
    if (!name)
        return pare_no_memory(err);
    j->part[j->parts++] = (called){name, node->line, node->column};
    return PARE_OK;
}

/* A part, as the text is taken apart. */
static pare_status take_part(void *context, const pare_node *root, const pare_node *node,
                             bool *keep, pare_error *err)
{
    job *j = context;
    const pare_node *pare = pare_node_get(root, "pare");
    if (j->parts == PARTS_MOST)
        return pare_refuse(&j->reading, node, PARE_BAD_DATA, err,
                           "more than %d parts; no bench is that large", PARTS_MOST);
    *keep = !pare || has_file(node);
    pare_status status = pare && j->parts == 0 ? check_version(j, pare, err) : PARE_OK;
    if (status == PARE_OK)
        status = add_called(j, node, err);
    if (status == PARE_OK && !*keep)
        status = import_part(j, node, err);
    return status == PARE_OK ? pare_store_step(j->store, "parts", j->parts, 0, err) : status;
}

/* Those that waited. */
static pare_status import_parts(job *j, pare_error *err)
{
    const pare_node *list = pare_node_get(j->root, "parts");
    pare_status status = list ? pare_need_list(&j->reading, list, "parts", err) : PARE_OK;
    if (status == PARE_OK)
        status = check_differ(j, j->parts, j->part, "part", err);
    const char **ids = pare_arena_array(j->arena, j->parts, sizeof *ids);
    if (!ids)
        return pare_no_memory(err);
    for (size_t i = 0; i < j->parts; i++)
        ids[i] = j->part[i].name;
    pare_files_expect(&j->files, j->parts, ids);
    for (const pare_node *one = list ? list->first : NULL; one && status == PARE_OK;
         one = one->next) {
        status = import_part(j, one, err);
        pare_arena_clear(j->part_arena);
    }
    return status;
}

/* ---- craft ---- */

static pare_status import_one_craft(job *j, const pare_node *node, pare_error *err)
{
    pare_craft *craft = NULL;
    const char *doc = NULL;
    bool there = false, same = false;
    pare_status status = pare_read_craft(&j->reading, node, j->bench, &craft, err);
    if (status != PARE_OK)
        return status;
    status = text_of(j, node, PARE_CRAFT_BLOCK, &doc, err);
    if (status == PARE_OK)
        status = compare_row(j, "SELECT doc FROM craft WHERE name = ?", craft->name, doc, &there,
                             &same, err);
    if (status == PARE_OK)
        status = pare_row_put_craft(j->store, 0, &j->reading, node, craft->name, doc, err);
    if (status == PARE_OK)
        count_row(there, same, &j->summary->craft_added, &j->summary->craft_replaced,
                  &j->summary->craft_same);
    return status;
}

static pare_status import_craft(job *j, pare_error *err)
{
    const pare_node *list = pare_node_get(j->root, "craft");
    if (!list)
        return PARE_OK;
    pare_status status = need_list(j, list, "craft", err);
    if (status == PARE_OK)
        status = check_craft_differ(j, list, err);
    if (status == PARE_OK)
        status = pare_load_parts(j->store, NULL, j->bench, err);
    size_t done = 0;
    for (const pare_node *one = list->first; one && status == PARE_OK; one = one->next) {
        status = import_one_craft(j, one, err);
        if (status == PARE_OK)
            status = pare_store_step(j->store, "craft", ++done, list->count, err);
    }
    return status;
}

/* ---- records ---- */

static pare_status import_records(job *j, pare_record record, pare_error *err)
{
    const pare_node *list = pare_node_get(j->root, pare_record_list(record));
    if (!list)
        return PARE_OK;
    pare_status status = need_list(j, list, pare_record_list(record), err);
    pare_records records = {
        .store = j->store, .reading = &j->reading, .arena = j->arena, .record = record};
    size_t done = 0;
    for (const pare_node *one = list->first; one && status == PARE_OK; one = one->next) {
        status = pare_store_step(j->store, pare_record_list(record), done++, list->count, err);
        if (status == PARE_OK)
            status = pare_records_keep(&records, one, err);
    }
    j->summary->records_added += records.added;
    j->summary->records_same += records.same;
    return status;
}

/* ---- the whole ---- */

static pare_status check_top(const job *j, pare_error *err)
{
    static const char *const keys[] = {"pare",   "money",     "parts",   "craft",
                                       "scales", "weigh_ins", "flights", "stand_tables"};
    const pare_status status =
        pare_read_keys(&j->reading, j->root, "a bench", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *pare = pare_node_get(j->root, "pare");
    if (!pare)
        return pare_refuse(&j->reading, j->root, PARE_BAD_DATA, err,
                           "not the text of a bench: it begins with pare: 1");
    return check_version(j, pare, err);
}

/* Prices of two moneys cannot stand on one bench: a sum of them would be nonsense. */
static pare_status import_money(const job *j, pare_error *err)
{
    const pare_node *node = pare_node_get(j->root, "money");
    const char *money = NULL, *kept = NULL;
    if (!node)
        return PARE_OK;
    pare_status status = pare_read_text(&j->reading, node, "money", &money, err);
    if (status == PARE_OK && strspn(money, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != 3)
        status = pare_refuse(&j->reading, node, PARE_BAD_DATA, err,
                             "money is '%.20s'; right would be the three letters of ISO 4217, like "
                             "EUR",
                             money);
    else if (status == PARE_OK && money[3])
        status = pare_refuse(&j->reading, node, PARE_BAD_DATA, err,
                             "money is '%.20s'; right would be the three letters of ISO 4217, like "
                             "EUR",
                             money);
    if (status == PARE_OK)
        status = pare_load_setting(j->store, "money", j->arena, &kept, err);
    if (status == PARE_OK && *kept && strcmp(kept, money) != 0)
        status = pare_refuse(&j->reading, node, PARE_BAD_DATA, err,
                             "prices in %s, but the bench has them in %.8s; right would be one "
                             "money on a bench",
                             money, kept);
    if (status == PARE_OK)
        status = pare_sql_change(j->store, err,
                                 "INSERT INTO setting(name, value) VALUES ('money', ?) "
                                 "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                                 "t", money);
    return status;
}

static pare_status within_change(job *j, const char *bytes, size_t length, pare_error *err)
{
    const pare_tree_each each = {
        .key = "parts", .arena = j->part_arena, .context = j, .take = take_part};
    pare_status status =
        pare_tree_parse_each(bytes, length, j->reading.name, j->arena, &each, &j->root, err);
    if (status == PARE_OK)
        status = check_top(j, err);
    if (status == PARE_OK)
        status = import_money(j, err);
    if (status == PARE_OK)
        status = import_parts(j, err);
    if (status == PARE_OK)
        status = import_craft(j, err);
    for (int record = 0; record < PARE_RECORDS && status == PARE_OK; record++)
        status = import_records(j, (pare_record)record, err);
    if (status == PARE_OK && j->summary->parts_replaced)
        status = pare_load_check(j->store, err);
    if (status == PARE_OK)
        status = pare_files_sweep(j->store, err);
    return status;
}

static pare_status run(job *j, const pare_import *import, const char *bytes, size_t length,
                       pare_error *err)
{
    pare_status status = pare_change_begin(j->store, &import->change, import->empty_first, err);
    if (status != PARE_OK)
        return status;
    status = within_change(j, bytes, length, err);
    return pare_change_end(j->store, status, !import->dry_run, err);
}

/* The folder of a path, in an arena: "." for a bare name. */
static const char *folder_of(const char *path, pare_arena *arena)
{
    const char *slash = strrchr(path, '/');
    if (!slash)
        return pare_arena_text(arena, ".");
    return pare_arena_copy(arena, path, slash == path ? 1 : (size_t)(slash - path));
}

static pare_status import_with(job *j, const pare_import *import, pare_error *err)
{
    const char *bytes = import->bytes;
    size_t length = import->length;
    j->files.folder = import->folder;
    j->files.carried = import->files;
    j->files.carry = import->file;
    j->reading.name = import->name ? import->name : import->path;
    if (!j->reading.name)
        j->reading.name = "text";
    if (import->path) {
        const pare_status status =
            pare_disk_read(import->path, PARE_TREE_BYTES, j->arena, &bytes, &length, err);
        if (status != PARE_OK)
            return status;
        if (!import->folder)
            j->files.folder = folder_of(import->path, j->arena);
        if (!j->files.folder)
            return pare_no_memory(err);
    }
    j->part_reading = j->reading;
    j->part_reading.arena = j->part_arena;
    return run(j, import, bytes ? bytes : "", bytes ? length : 0, err);
}

pare_status pare_store_import_yaml(pare_store *store, const pare_import *import, pare_arena *arena,
                                   pare_import_summary *summary, pare_error *err)
{
    pare_import_summary counted = {0};
    pare_notes notes = {.arena = arena};
    job j = {.store = store,
             .arena = pare_arena_open(),
             .part_arena = pare_arena_open(),
             .bench = pare_load_empty(),
             .summary = &counted};
    pare_units *units = pare_units_open();
    pare_status status = PARE_OK;
    if (!j.arena || !j.part_arena || !j.bench || !units) {
        status = pare_no_memory(err);
    } else {
        j.files = (pare_files){.store = store, .arena = j.part_arena, .may_keep = true};
        j.reading = (pare_reading){.arena = j.arena,
                                   .units = units,
                                   .notes = &notes,
                                   .find_file = pare_files_find,
                                   .find_context = &j.files,
                                   .check_craft = store->check};
        status = import_with(&j, import, err);
    }
    if (status == PARE_OK) {
        counted.files = j.files.read;
        counted.warnings = notes.count;
        counted.warning = notes.text;
        *summary = counted;
    }
    pare_units_close(units);
    pare_bench_close(j.bench);
    pare_text_free(&j.text);
    pare_arena_close(j.part_arena);
    pare_arena_close(j.arena);
    return status;
}
