/* members.c: `pare members`: who may do what on a bench that several share. */
#include <string.h>

#include "cli/command.h"
#include "cli/use.h"
#include "show/json.h"
#include "store/members.h"

static const struct {
    const char *word, *says;
} RIGHTS[] = {
    {"own", "owns the bench: everything, and says who may do what"},
    {"edit", "edit: everything but that"},
    {"weigh", "weigh: scales, weigh-ins and flights, and every question"},
    {"read", "read: every question, and trying changes out"},
    {"none", NULL},
};
enum { ALL_RIGHTS = sizeof RIGHTS / sizeof RIGHTS[0] };

static const char *said(const char *may)
{
    for (size_t i = 0; i < ALL_RIGHTS; i++)
        if (RIGHTS[i].says && strcmp(RIGHTS[i].word, may) == 0)
            return RIGHTS[i].says;
    return may;
}

static void as_json(size_t count, const pare_member members[], pare_text *out)
{
    json_t *object = json_object(), *list = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(members[i].name));
        json_object_set_new(one, "may", json_string(members[i].may));
        json_array_append_new(list, one);
    }
    json_object_set_new(object, "members", list);
    pare_json_write(object, out);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_member *members = NULL;
    size_t count = 0;
    const bool lets = given->operands > 0;
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK && given->operands != 0 && given->operands != 2)
        status = pare_fail(err, PARE_UNKNOWN,
                           "members wants nothing, or a name and read, weigh, edit or none");
    if (status == PARE_OK)
        status = bench_open(given, PARE_STORE_READ, &use, err);
    if (status == PARE_OK && lets)
        status = pare_store_allow(use.store, given->operand[0], given->operand[1], err);
    if (status == PARE_OK) {
        status = pare_store_members(use.store, arena, &count, &members, err);
        if (lets)
            status = after_change(status, err);
    }
    if (status == PARE_OK && given->given & OPTION_JSON) {
        as_json(count, members, out);
    } else if (status == PARE_OK) {
        const pare_screen screen = terminal_screen();
        for (size_t i = 0; i < count; i++)
            pare_put_labelled(&screen, out, members[i].name, said(members[i].may));
    }
    bench_leave(&use);
    pare_arena_close(arena);
    return status;
}

static size_t words(size_t operands, const char *const operand[], size_t most, const char *name[])
{
    size_t count = 0;
    (void)operand;
    for (; operands == 1 && count + 1 < ALL_RIGHTS && count < most; count++)
        name[count] = RIGHTS[count + 1].word;
    return count;
}

const command command_members = {
    .name = "members",
    .line = "who may read, weigh or edit on a shared bench",
    .usage = "pare members [--bench FILE] [--json]\n"
             "pare members MEMBER MAY [--bench FILE] [--json]",
    .details = "  MEMBER  a user of the PostgreSQL server; whoever runs that makes one with\n"
               "          createuser\n"
               "  MAY     read (every question, and trying changes out), weigh (scales,\n"
               "          weigh-ins and flights besides), edit (everything), none\n"
               "Only the owner, who made the bench, says who may do what; the database sees to\n"
               "it, whatever program asks. A bench in a file has no members: whoever may write\n"
               "the file may do all. On a server it is, say,\n"
               "pare members bert weigh --bench postgresql://anna@server/club\n",
    .example = "  pare members       # exit 3: a bench in a file has none\n",
    .options = OPTION_BENCH | OPTION_JSON,
    .words = words,
    .run = run,
};
