/* past.c: a bench as it was at the end of a day (see past.h).
 *
 * What was typed has two dates: that of the day on which it was typed, which the history keeps, and that on
 * which it happened, which stands in readings, flights, stages and with what was learned. A text of a craft or
 * part is what it was by the first; all that is dated goes by the second, whenever it was typed. The past
 * is a copy in memory in which changes are undone as undo does it, so that a part that has been weighed since,
 * or removed, is what it was; the bench itself is only read. A copy of a bench of 100,000 parts takes a tenth of a
 * second. Rejected: undoing within a transaction that is rolled back, which locks the bench and needs one
 * that may be written. */
#include "store/past.h"

#include <string.h>

#include "store/change.h"
#include "store/edit.h"
#include "store/sqlite.h"
#include "store/tree_diff.h"
#include "store/tree_edit.h"

/* ---- the copy ---- */

static pare_status copy(const pare_store *store, pare_store **past, pare_error *err)
{
    const pare_status status = pare_sqlite_open_memory(store->path, past, err);
    return status == PARE_OK ? store->driver->copy(store, *past, err) : status;
}

/* ---- the history ---- */

/* One number and the day of a time, of the first row; none: 0 and "". */
static pare_status number_and_day(const pare_store *store, const char *sql, const char *text,
                                  long long *number, char day[16], pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    *number = 0;
    day[0] = '\0';
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "t", text);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    if (row) {
        const char *time = pare_sql_chars(statement, 1);
        *number = pare_sql_int(statement, 0);
        if (time)
            strncat(day, time, 10);
    }
    pare_sql_finish(statement);
    return status;
}

/* Undoes what was done after the day, down to the change that made the craft. */
static pare_status go_back(pare_store *past, const char *craft, const char *day,
                           pare_past_begins *begins, pare_error *err)
{
    long long made = 0, number = 0;
    char changed[16];
    pare_status status = number_and_day(
        past,
        "SELECT change, time FROM change_new JOIN change ON number = change WHERE undone = 0 AND "
        "list = 'craft' AND (SELECT row FROM craft WHERE name = ?) BETWEEN first AND last",
        craft, &made, begins->day, err);
    begins->later = strcmp(begins->day, day) > 0 || !*begins->day;
    while (status == PARE_OK) {
        status = number_and_day(past,
                                "SELECT number, time FROM change WHERE undone = 0 AND "
                                "substr(time, 1, 10) > ? ORDER BY number DESC LIMIT 1",
                                day, &number, changed, err);
        if (status != PARE_OK || number == 0 || number <= made)
            return status;
        status = pare_change_exchange(past, number, true, err);
    }
    return status;
}

/* ---- what is dated ---- */

/* What is there now and dated until then, set aside before the copy goes back. Parts, files and scales that it
 * needs may have been typed later. */
static pare_status set_aside(const pare_store *past, const char *craft, const char *day,
                             pare_error *err)
{
    static const char *const tables[] = {
        "CREATE TEMP TABLE now_weigh_in AS SELECT * FROM weigh_in WHERE date <= ?1 AND ?2 NOT NULL",
        "CREATE TEMP TABLE now_flight AS SELECT * FROM flight WHERE date <= ?1 AND ?2 NOT NULL",
        "CREATE TEMP TABLE now_craft AS SELECT name FROM craft WHERE ?1 NOT NULL AND ?2 NOT NULL",
        "CREATE TEMP TABLE now_scale AS SELECT id, doc FROM scale WHERE ?1 NOT NULL AND ?2 NOT "
        "NULL",
        "CREATE TEMP TABLE now_part AS SELECT id, kind, maker, mass_kg, facts, doc FROM part WHERE "
        "id IN (SELECT part FROM craft_part WHERE craft = ?2 UNION SELECT pack FROM now_flight) "
        "AND ?1 NOT NULL",
        "CREATE TEMP TABLE now_part_file AS SELECT part, file FROM part_file WHERE part IN (SELECT "
        "id FROM now_part) AND ?1 NOT NULL AND ?2 NOT NULL",
        "CREATE TEMP TABLE now_file AS SELECT name, bytes FROM file WHERE name IN (SELECT file "
        "FROM "
        "now_part_file) AND ?1 NOT NULL AND ?2 NOT NULL",
    };
    pare_status status = PARE_OK;
    for (size_t i = 0; i < PARE_COUNT(tables) && status == PARE_OK; i++)
        status = pare_sql_change(past, err, tables[i], "tt", day, craft);
    return status;
}

/* And put back. A craft that is no more has what it had by the history. */
static pare_status put_back(const pare_store *past, const char *day, pare_error *err)
{
    const pare_status status = pare_sql_run(
        past,
        "DELETE FROM weigh_in WHERE craft IN (SELECT name FROM now_craft);"
        "DELETE FROM flight WHERE craft IN (SELECT name FROM now_craft);"
        "INSERT INTO file(name, bytes) SELECT name, bytes FROM now_file WHERE name NOT IN (SELECT "
        "name FROM file);"
        "CREATE TEMP TABLE more AS SELECT id FROM now_part WHERE id NOT IN (SELECT id FROM part);"
        "INSERT INTO part(id, kind, maker, mass_kg, facts, doc) SELECT * FROM now_part WHERE id IN "
        "(SELECT id FROM more);"
        "INSERT INTO part_file(part, file) SELECT part, file FROM now_part_file WHERE part IN "
        "(SELECT id FROM more);"
        "INSERT INTO scale(id, doc) SELECT id, doc FROM now_scale WHERE id NOT IN (SELECT id FROM "
        "scale) AND id IN (SELECT scale FROM now_weigh_in);"
        "INSERT INTO weigh_in(row, craft, scale, date, doc) SELECT row, craft, scale, date, doc "
        "FROM now_weigh_in WHERE craft IN (SELECT name FROM craft);"
        "INSERT INTO flight(row, craft, pack, date, doc) SELECT row, craft, pack, date, doc "
        "FROM now_flight WHERE craft IN (SELECT name FROM craft)",
        err);
    if (status != PARE_OK)
        return status;
    const pare_status less =
        pare_sql_change(past, err, "DELETE FROM weigh_in WHERE date > ?", "t", day);
    return less == PARE_OK
               ? pare_sql_change(past, err, "DELETE FROM flight WHERE date > ?", "t", day)
               : less;
}

/* A map less its days that lie ahead. */
static pare_node *less_days(pare_arena *arena, const pare_node *map, const char *day)
{
    pare_node *made = pare_node_without(arena, map, NULL);
    for (int s = 0; s < PARE_STAGES && made; s++) {
        const char *stage = pare_stage_name((pare_stage)s);
        const pare_node *on = pare_node_get(made, stage);
        if (on && on->text && strcmp(on->text, day) > 0)
            made = pare_node_without(arena, made, stage);
    }
    return made;
}

/* What was learned by then: what is kept now, else what was kept at that time; NULL: nothing. */
static const pare_node *learned_by(const pare_node *now, const pare_node *then, const char *day)
{
    const pare_node *const from[2] = {pare_node_get(now, "learned"),
                                      pare_node_get(then, "learned")};
    for (int i = 0; i < 2; i++) {
        const pare_node *kept = from[i] ? pare_node_get(from[i], "date") : NULL;
        if (kept && kept->text && strcmp(kept->text, day) <= 0)
            return from[i];
    }
    return NULL;
}

/* Swaps taken by then, as far as they had come; one without any day is taken by the history. */
static bool put_taken(pare_arena *arena, const pare_node *now, const pare_node *then,
                      const char *day, pare_node *list)
{
    const pare_node *taken = pare_node_get(now, "taken"), *before = pare_node_get(then, "taken");
    for (const pare_node *one = taken ? taken->first : NULL; one; one = one->next) {
        pare_node *entry = less_days(arena, one, day);
        bool dated = false, reached = false;
        if (!entry)
            return false;
        for (int s = 0; s < PARE_STAGES; s++) {
            const char *stage = pare_stage_name((pare_stage)s);
            dated = dated || pare_node_get(one, stage);
            reached = reached || pare_node_get(entry, stage);
        }
        for (const pare_node *old = before && !dated ? before->first : NULL; old; old = old->next)
            reached = reached || pare_node_same(old, one);
        if (reached)
            pare_node_append(list, entry);
    }
    return true;
}

/* The craft's text of that time, with what is dated as it is known now. */
static pare_node *as_dated(pare_arena *arena, const pare_node *now, const pare_node *then,
                           const char *day)
{
    pare_node *made = pare_node_without(arena, then, NULL);
    pare_node *list = pare_node_made(arena, PARE_NODE_LIST, "taken", NULL);
    if (!made || !list || !put_taken(arena, now, then, day, list))
        return NULL;
    const pare_node *learned = learned_by(now, then, day);
    if (list->count)
        pare_node_set(made, list);
    else
        made = pare_node_without(arena, made, "taken");
    if (made && learned) {
        pare_node *copied = pare_node_without(arena, learned, NULL);
        if (!copied)
            return NULL;
        copied->next = NULL;
        pare_node_set(made, copied);
    } else if (made) {
        made = pare_node_without(arena, made, "learned");
    }
    return made;
}

static pare_status craft_of(const pare_store *store, const char *name, pare_arena *arena,
                            const pare_node **root, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    *root = NULL;
    pare_status status =
        pare_sql_prepare(store, &statement, err, "SELECT doc FROM craft WHERE name = ?", "t", name);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    const char *doc = row ? pare_sql_text(statement, 0, arena) : NULL;
    pare_sql_finish(statement);
    if (status == PARE_OK && !row)
        return pare_fail(err, PARE_UNKNOWN, "no craft '%.48s'", name);
    if (status == PARE_OK && !doc)
        return pare_no_memory(err);
    return status == PARE_OK ? pare_tree_parse_map(doc, strlen(doc), name, arena, root, err)
                             : status;
}

/* Its first dated record; "" where it has none. */
static pare_status first_record(const pare_store *store, const char *craft, const pare_node *root,
                                char day[16], pare_error *err)
{
    long long any = 0;
    pare_status status = number_and_day(store,
                                        "SELECT count(date), min(date) FROM (SELECT date, craft "
                                        "FROM weigh_in UNION ALL SELECT date, craft FROM flight) "
                                        "WHERE craft = ?",
                                        craft, &any, day, err);
    const pare_node *taken = pare_node_get(root, "taken");
    for (const pare_node *one = taken ? taken->first : NULL; one; one = one->next)
        for (int s = 0; s < PARE_STAGES; s++) {
            const pare_node *on = pare_node_get(one, pare_stage_name((pare_stage)s));
            if (on && on->text && (!*day || strcmp(on->text, day) < 0)) {
                day[0] = '\0';
                strncat(day, on->text, 10);
            }
        }
    return status;
}

static pare_status turn_back(pare_store *past, const char *craft, const char *day,
                             pare_arena *arena, pare_past_begins *begins, pare_error *err)
{
    const pare_node *now = NULL, *then = NULL;
    char first[16];
    pare_status status = craft_of(past, craft, arena, &now, err);
    if (status == PARE_OK)
        status = first_record(past, craft, now, first, err);
    if (status == PARE_OK)
        status = pare_sql_begin(past, err);
    if (status == PARE_OK)
        status = set_aside(past, craft, day, err);
    if (status == PARE_OK)
        status = go_back(past, craft, day, begins, err);
    if (status == PARE_OK)
        status = craft_of(past, craft, arena, &then, err);
    if (status == PARE_OK && begins->later && (!*first || strcmp(first, day) > 0))
        return pare_fail(err, PARE_BAD_DATA,
                         "craft '%.48s' was not there yet on %s; %s%s%s%s%s; right would be a day "
                         "since then",
                         craft, day, *first ? "its first reading, flight or swap is of " : "",
                         first, *first && *begins->day ? ", and " : "",
                         *begins->day ? "it came onto this bench on " : "", begins->day);
    if (status == PARE_OK)
        status = put_back(past, day, err);
    pare_node *made = status == PARE_OK ? as_dated(arena, now, then, day) : NULL;
    if (status == PARE_OK)
        status = made ? pare_craft_replace(past, craft, made, err) : pare_no_memory(err);
    return status == PARE_OK ? pare_sql_commit(past, err) : status;
}

pare_status pare_store_past(pare_store *store, const char *craft, const char *day,
                            pare_store **past, pare_past_begins *begins, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    *begins = (pare_past_begins){0};
    *past = NULL;
    pare_status status = arena ? copy(store, past, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = turn_back(*past, craft, day, arena, begins, err);
    if (status != PARE_OK) {
        pare_store_close(*past);
        *past = NULL;
    }
    pare_arena_close(arena);
    return status;
}

/* ---- two of them ---- */

static pare_status part_text(const pare_store *store, const char *id, pare_arena *arena,
                             const pare_node **root, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    *root = NULL;
    pare_status status =
        pare_sql_prepare(store, &statement, err, "SELECT doc FROM part WHERE id = ?", "t", id);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    const char *doc = row ? pare_sql_text(statement, 0, arena) : NULL;
    pare_sql_finish(statement);
    if (status == PARE_OK && row && !doc)
        return pare_no_memory(err);
    return status == PARE_OK && row ? pare_tree_parse_map(doc, strlen(doc), id, arena, root, err)
                                    : status;
}

/* Entries of one diff behind those of others, each key with something in front. */
static pare_status put_behind(pare_arena *arena, const char *before, size_t more,
                              const pare_entry_change from[], size_t *count,
                              pare_entry_change **list, pare_error *err)
{
    pare_entry_change *all = pare_arena_array(arena, *count + more + 1, sizeof *all);
    if (!all)
        return pare_no_memory(err);
    if (*count)
        memcpy(all, *list, *count * sizeof *all);
    for (size_t i = 0; i < more; i++) {
        all[*count + i] = from[i];
        all[*count + i].key = pare_arena_printf(arena, "%s%s", before, from[i].key);
        if (!all[*count + i].key)
            return pare_no_memory(err);
    }
    *count += more;
    *list = all;
    return PARE_OK;
}

/* Parts that the craft names on both: what is said of them differs. */
static pare_status parts_between(const pare_store *was, const pare_store *is, const char *craft,
                                 pare_arena *arena, size_t *count, pare_entry_change **list,
                                 pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_status status =
        pare_sql_prepare(is, &statement, err,
                         "SELECT part FROM craft_part WHERE craft = ? ORDER BY part", "t", craft);
    while (status == PARE_OK) {
        const pare_node *before = NULL, *now = NULL;
        const pare_entry_change *entry = NULL;
        size_t entries = 0;
        status = pare_sql_step(is, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        const char *id = pare_sql_text(statement, 0, arena);
        const char *path = id ? pare_arena_printf(arena, "part.%s.", id) : NULL;
        status = path ? part_text(was, id, arena, &before, err) : pare_no_memory(err);
        if (status == PARE_OK)
            status = part_text(is, id, arena, &now, err);
        if (status == PARE_OK && before && now)
            status = pare_tree_diff(arena, before, now, &entries, &entry, err);
        if (status == PARE_OK && entries)
            status = put_behind(arena, path, entries, entry, count, list, err);
    }
    pare_sql_finish(statement);
    return status;
}

pare_status pare_store_craft_between(pare_store *was, pare_store *is, const char *craft,
                                     pare_arena *arena, size_t *count,
                                     const pare_entry_change **list, pare_error *err)
{
    static const char *const apart[] = {"taken", "learned"};
    const pare_node *root[2] = {NULL, NULL};
    const pare_entry_change *entry = NULL;
    pare_entry_change *all = NULL;
    size_t entries = 0;
    *count = 0;
    pare_status status = craft_of(was, craft, arena, &root[0], err);
    if (status == PARE_OK)
        status = craft_of(is, craft, arena, &root[1], err);
    for (size_t side = 0; side < 2 && status == PARE_OK; side++)
        for (size_t i = 0; i < PARE_COUNT(apart) && root[side]; i++)
            root[side] = pare_node_without(arena, root[side], apart[i]);
    if (status == PARE_OK && (!root[0] || !root[1]))
        return pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_tree_diff(arena, root[0], root[1], &entries, &entry, err);
    if (status == PARE_OK)
        status = put_behind(arena, "", entries, entry, count, &all, err);
    if (status == PARE_OK)
        status = parts_between(was, is, craft, arena, count, &all, err);
    *list = all;
    return status;
}
