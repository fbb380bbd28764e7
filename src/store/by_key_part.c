/* by_key_part.c: keys of a part, and a part put in place (see by_key.h). */
#include <stdio.h>
#include <string.h>

#include "store/by_key_inside.h"
#include "store/edit.h"
#include "store/load.h"
#include "store/read_craft.h"
#include "store/read_part.h"
#include "store/row.h"
#include "store/tree_edit.h"

/* ---- keys ---- */

/* What the words say, or what was said before. */
static pare_status find_kind(const pare_editing *e, const pare_node *root, pare_kind *kind,
                             pare_error *err)
{
    const pare_node *said = pare_node_get(root, "kind");
    const pare_path *path = NULL;
    for (size_t i = 0; i < e->paths; i++)
        if (e->path[i].segments == 1 && strcmp(e->path[i].segment[0], "kind") == 0)
            path = &e->path[i];
    if (path)
        said = path->value;
    if (!said || !said->text)
        return pare_fail(err, PARE_BAD_DATA,
                         "part '%.48s' needs a kind; right would be like kind=motor", e->name);
    const int found = pare_kind_named(said->text);
    const char *names[PARE_KINDS];
    for (int k = 0; k < PARE_KINDS; k++)
        names[k] = pare_kind_name((pare_kind)k);
    if (found < 0 && path)
        return pare_by_key_unknown(path, "kind", said->text, PARE_KINDS, names,
                                   "there are frame, motor, propeller, pack, camera and others: "
                                   "pare parts shows each part's",
                                   err);
    *kind = found < 0 ? PARE_OTHER : (pare_kind)found;
    return PARE_OK;
}

static bool is_one_of(const char *key, size_t count, const char *const names[])
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(key, names[i]) == 0)
            return true;
    return false;
}

/* A key that no part has: what it may have been. */
static pare_status no_such_key(const pare_path *path, pare_kind kind, size_t specs,
                               const char *const spec[], pare_error *err)
{
    const char *names[PARE_PART_KEYS + PARE_SPEC_NAMES];
    const char *key = path->segment[0];
    if (pare_fit_named(key) >= 0)
        return pare_fail(err, PARE_UNKNOWN,
                         "%.60s: what a part fits stands below fits; right would be fits.%s",
                         path->word, key);
    memcpy(names, pare_part_keys, sizeof pare_part_keys);
    memcpy(names + PARE_PART_KEYS, spec, specs * sizeof *spec);
    char otherwise[200];
    int used = snprintf(otherwise, sizeof otherwise,
                        "right would be like mass, price.each, fits.stack%s%s",
                        specs ? ", or a spec of a " : "", specs ? pare_kind_name(kind) : "");
    for (size_t i = 0; i < specs && i < 8 && used > 0 && used < 180; i++)
        used += snprintf(otherwise + used, sizeof otherwise - (size_t)used, "%s%s", i ? ", " : ": ",
                         spec[i]);
    return pare_by_key_unknown(path, "key", key, PARE_PART_KEYS + specs, names, otherwise, err);
}

/* A bare price is what each costs now: pack size and seller stay, the day of the old price does not. */
static bool is_bare_price(const pare_path *path, const pare_node *root)
{
    const pare_node *price = pare_node_get(root, "price");
    return path->segments == 1 && strcmp(path->segment[0], "price") == 0 && price &&
           price->form == PARE_NODE_MAP && path->value && path->value->form == PARE_NODE_SCALAR;
}

static pare_status take_price(pare_editing *e, pare_node *root, pare_path *path, pare_error *err)
{
    pare_node *price = pare_node_branch(e->arena, root, "price");
    price = price ? pare_node_without(e->arena, price, "date") : NULL;
    if (!price)
        return pare_no_memory(err);
    pare_node_set(root, price);
    path->segment[1] = "each";
    path->segments = 2;
    return PARE_OK;
}

/* ---- stand tables ---- */

/* An id may have dots, at which a key is parted. */
static const char *partner_of(const pare_editing *e, const pare_path *path)
{
    const char *id = path->segment[1];
    for (size_t i = 2; i < path->segments && id; i++)
        id = pare_arena_printf(e->arena, "%s.%s", id, path->segment[i]);
    return id;
}

/* "stand.pr-51-43=off": what a stand measured of the two goes. */
static pare_status take_stand(pare_editing *e, const pare_path *path, pare_error *err)
{
    if (path->segments < 2 || path->value)
        return pare_fail(err, PARE_BAD_DATA,
                         "%.60s: stand tables come in by pare import; right would be like "
                         "stand.PART=off, which takes those with PART off",
                         path->word);
    const char *other = partner_of(e, path);
    if (!other)
        return pare_no_memory(err);
    const pare_status status =
        pare_sql_change(e->store, err,
                        "DELETE FROM stand_table WHERE (motor = ?1 AND propeller = ?2)"
                        " OR (motor = ?2 AND propeller = ?1)",
                        "tt", e->name, other);
    if (status != PARE_OK)
        return status;
    const int count = (int)pare_sql_changed(e->store);
    if (count == 0)
        return pare_fail(err, PARE_UNKNOWN,
                         "%.60s: no stand table of %.48s with %.48s; pare parts show %.48s lists "
                         "those that are there",
                         path->word, e->name, other, e->name);
    if (!e->gone_stand)
        e->gone_stand = pare_arena_array(e->arena, e->paths, sizeof *e->gone_stand);
    const char *key = pare_arena_printf(e->arena, "stand.%s", other);
    const char *was = pare_arena_printf(e->arena, "%d table%s", count, count == 1 ? "" : "s");
    if (!e->gone_stand || !key || !was)
        return pare_no_memory(err);
    e->gone_stand[e->gone++] = (pare_entry_change){.key = key, .was = was};
    return PARE_OK;
}

/* They are no part of its text: their words are done with here. */
static pare_status take_stands(pare_editing *e, pare_error *err)
{
    pare_status status = PARE_OK;
    size_t kept = 0;
    for (size_t i = 0; i < e->paths && status == PARE_OK; i++) {
        if (strcmp(e->path[i].segment[0], "stand") == 0)
            status = take_stand(e, &e->path[i], err);
        else
            e->path[kept++] = e->path[i];
    }
    if (status == PARE_OK)
        e->paths = kept;
    return status;
}

pare_status pare_by_key_part_paths(pare_editing *e, pare_node *root, pare_error *err)
{
    const char *spec[PARE_SPEC_NAMES];
    pare_kind kind = PARE_OTHER;
    pare_status status = find_kind(e, root, &kind, err);
    if (status == PARE_OK)
        status = take_stands(e, err);
    const size_t specs = status == PARE_OK ? pare_spec_names(kind, spec) : 0;
    for (size_t i = 0; i < e->paths && status == PARE_OK; i++) {
        pare_path *path = &e->path[i];
        const char *key = path->segment[0];
        if (is_bare_price(path, root))
            status = take_price(e, root, path, err);
        else if (is_one_of(key, PARE_PART_KEYS, pare_part_keys))
            continue;
        else if (strcmp(key, "known") == 0 && path->segments == 1)
            pare_path_under(path, "mass");
        else if (!is_one_of(key, specs, spec))
            status = no_such_key(path, kind, specs, spec, err);
        else if (!pare_path_under(path, "spec"))
            status = pare_fail(err, PARE_BAD_DATA, "%.60s: nothing is so deep", path->word);
    }
    return status;
}

/* ---- in place ---- */

/* Craft that have it on must still fly with it as it is now. */
static pare_status check_one_user(const pare_editing *e, const char *craft, pare_error *err)
{
    pare_bench *bench = pare_load_empty();
    if (!bench)
        return pare_no_memory(err);
    pare_files files = {.store = e->store, .arena = bench->arena};
    pare_reading reading = e->reading;
    static const char *const unseen[] = {""};
    const pare_node *root = NULL;
    pare_craft *read = NULL;
    reading.name = craft;
    reading.arena = bench->arena;
    reading.find_context = &files;
    reading.notes = NULL;
    reading.typed = unseen;
    pare_status status = pare_load_parts(e->store, craft, bench, err);
    if (status == PARE_OK)
        status = pare_craft_tree(e->store, craft, bench->arena, &root, err);
    if (status == PARE_OK && pare_read_craft(&reading, root, bench, &read, err) != PARE_OK)
        status = pare_within(err, "it is on %.48s, which would not go together any more", craft);
    pare_bench_close(bench);
    return status;
}

static pare_status check_users(const pare_editing *e, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_status status = pare_sql_prepare(
        e->store, &statement, err, "SELECT craft FROM craft_part WHERE part = ? ORDER BY craft",
        "t", e->name);
    while (status == PARE_OK) {
        status = pare_sql_step(e->store, statement, &row, err);
        if (!row)
            break;
        status = check_one_user(e, pare_sql_chars(statement, 0), err);
    }
    pare_sql_finish(statement);
    return status;
}

pare_status pare_by_key_put_part(pare_editing *e, const pare_node *root, const char *doc,
                                 pare_error *err)
{
    pare_part *part = NULL;
    const char *coming[] = {e->name};
    pare_files_expect(&e->files, 1, coming);
    pare_status status = pare_read_part(&e->reading, root, &part, err);
    if (status == PARE_OK)
        status = pare_row_put_part(e->store, 0, part, doc, err);
    if (status == PARE_OK)
        status = pare_files_tie(&e->files, part->id, err);
    if (status == PARE_OK)
        status = check_users(e, err);
    return status == PARE_OK ? pare_files_sweep(e->store, err) : status;
}
