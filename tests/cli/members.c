/* members.c: `pare members` as a user types it, on a bench in a file and on one on a server. */
#include "run.h"
#include "server.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void a_file_has_none(void **state)
{
    (void)state;
    if (on_server())
        skip();
    static const char wanted[] =
        "pare: data/pare/demo.sqlite: a bench in a file has no members, whoever may write the file "
        "may do all; right would be one on a server, --bench postgresql://...\n";
    run_refuses("members" DEMO, 3, wanted);
    run_refuses("members bert weigh" DEMO, 3, wanted);
    run_refuses("members bert" DEMO, 2,
                "pare: members wants nothing, or a name and read, weigh, edit or none\n");
}

static void they_are_let_in_and_listed(void **state)
{
    (void)state;
    if (!on_server())
        skip();
    char all_of_it[160];
    snprintf(all_of_it, sizeof all_of_it, "postgresql://postgres@/postgres?host=%s",
             getenv("PARE_TEST_SERVER"));
    server_run(all_of_it, "CREATE ROLE mira LOGIN");
    run_prints("members" DEMO,
               "postgres       owns the bench: everything, and says who may do what\n");
    run_prints("members mira weigh" DEMO,
               "postgres       owns the bench: everything, and says who may do what\n"
               "mira           weigh: scales, weigh-ins and flights, and every question\n");
    json_t *all = run_json("members mira edit --json" DEMO);
    const json_t *mira = json_array_get(json_object_get(all, "members"), 1);
    assert_string_equal(json_string_value(json_object_get(mira, "name")), "mira");
    assert_string_equal(json_string_value(json_object_get(mira, "may")), "edit");
    json_decref(all);
    run_prints("complete -- members" DEMO " m", "mira\n");
    run_prints("complete -- members" DEMO " mira w", "weigh\n");
    run_prints("members mira none" DEMO,
               "postgres       owns the bench: everything, and says who may do what\n");
    run_refuses("members nobody read" DEMO, 2,
                "pare: no user 'nobody' on this server; whoever runs it makes one (createuser)\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_file_has_none),
        cmocka_unit_test(they_are_let_in_and_listed),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
