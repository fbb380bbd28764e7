/* members.c: who may do what on a bench that several share (see members.h).
 *
 * What somebody may do is what the database grants him, which pg_schema.c puts together; nothing else is
 * kept of members. So it is no change of the bench, and the history has nothing to undo. */
#include "store/members.h"

#include <string.h>

#include "base/grow.h"
#include "store/reading.h"
#include "store/sql_driver.h"

enum { LONGEST = 63 }; /* of a name, which the server would cut there (NAMEDATALEN) */

static pare_status needs_server(const pare_store *store, pare_error *err)
{
    return store->driver->signs
               ? PARE_OK
               : pare_fail(
                     err, PARE_BAD_DATA,
                     "%s: a bench in a file has no members, whoever may write the file may do "
                     "all; right would be one on a server, --bench postgresql://...",
                     store->path);
}

pare_status pare_store_members(pare_store *store, pare_arena *arena, size_t *count,
                               pare_member **members, pare_error *err)
{
    pare_statement *statement = NULL;
    pare_member *list = NULL;
    size_t n = 0, size = 0;
    bool row = true;
    pare_status status = needs_server(store, err);
    if (status == PARE_OK)
        status = pare_sql_prepare(store, &statement, err,
                                  "SELECT who, may FROM members() ORDER BY may <> 'own', who", "");
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        list = pare_grown(arena, list, n, &size, sizeof *list);
        if (list)
            list[n] = (pare_member){.name = pare_sql_text(statement, 0, arena),
                                    .may = pare_sql_text(statement, 1, arena)};
        status = list && list[n].name && list[n].may ? PARE_OK : pare_no_memory(err);
        n++;
    }
    pare_sql_finish(statement);
    if (status == PARE_OK) {
        *count = n;
        *members = list;
    }
    return status;
}

/* Whether we may say who may do what, and who else does. */
static pare_status check_owner(const pare_store *store, pare_error *err)
{
    static const char sql[] =
        "SELECT CAST(has_function_privilege('pare.allow(name,text)', 'EXECUTE') AS int),"
        " (SELECT who FROM members() WHERE may = 'own')";
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "");
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    if (status == PARE_OK && pare_sql_int(statement, 0) == 0) {
        const char *owner = pare_sql_chars(statement, 1);
        status = pare_fail(err, PARE_UNAVAILABLE, "%s: only its owner, %s, says who may do what",
                           store->path, owner ? owner : "whoever made it");
    }
    pare_sql_finish(statement);
    return status;
}

static pare_status is_user(const pare_store *store, const char *name, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err,
                                          "SELECT 1 FROM pg_roles WHERE rolname = ?", "t", name);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    pare_sql_finish(statement);
    if (status == PARE_OK && (!row || strlen(name) > LONGEST))
        status = pare_fail(err, PARE_UNKNOWN,
                           "no user '%.80s' on this server; whoever runs it makes one (createuser)",
                           name);
    return status;
}

pare_status pare_store_allow(pare_store *store, const char *name, const char *may, pare_error *err)
{
    static const char *const words[] = {"none", "read", "weigh", "edit"};
    bool known = false;
    for (size_t i = 0; i < PARE_COUNT(words); i++)
        known = known || strcmp(words[i], may) == 0;
    pare_status status = needs_server(store, err);
    if (status == PARE_OK && !known)
        status = pare_fail(err, PARE_BAD_DATA,
                           "members '%.40s'; right would be read, weigh, edit or none", may);
    if (status == PARE_OK)
        status = check_owner(store, err);
    if (status == PARE_OK)
        status = is_user(store, name, err);
    if (status != PARE_OK)
        return status;
    status = pare_sql_begin(store, err);
    if (status == PARE_OK)
        status = pare_sql_change(store, err, "SELECT allow(CAST(? AS name), ?)", "tt", name, may);
    if (status == PARE_OK)
        status = pare_sql_commit(store, err);
    if (status != PARE_OK)
        pare_sql_rollback(store);
    return status;
}
