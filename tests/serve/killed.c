/* killed.c: the server is ended without a word while it writes: what it had confirmed is there. */
#include "http.h"

#include <poll.h>
#include <pthread.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROUNDS = 10 };

typedef struct killing {
    pid_t child;
    int after_ms;
} killing;

static void *kill_it(void *context)
{
    const killing *k = context;
    poll(NULL, 0, k->after_ms);
    kill(k->child, SIGKILL);
    return NULL;
}

static long long first_version(const served *s)
{
    reply r = serve_get(s, "/api/version?part=mo-2207-2750");
    json_t *object = json_loads(r.body, 0, NULL);
    const long long version = json_integer_value(json_object_get(object, "version"));
    assert_true(version > 0);
    json_decref(object);
    reply_free(&r);
    return version;
}

/* One change after another on what has that version, each with a mass of its own, until there is no answer.
 * @return the number of the last that was confirmed */
static int change_until_killed(const served *s, long long version, int number)
{
    for (;;) {
        char body[256];
        snprintf(body, sizeof body,
                 "{\"part\":\"mo-2207-2750\",\"version\":%lld,\"set\":{\"mass\":\"%d mg\"}}",
                 version, 30000 + number + 1);
        reply r = serve_post(s, "/api/edit", body);
        json_t *object = r.code == 200 ? json_loads(r.body, 0, NULL) : NULL;
        reply_free(&r);
        if (!object)
            return number;
        version = json_integer_value(json_object_get(object, "version"));
        json_decref(object);
        number++;
    }
}

static int number_on_the_bench(void)
{
    json_t *part = run_json("parts show mo-2207-2750 --json" DEMO);
    const double mass_g = number(part, "mass_g");
    json_decref(part);
    return (int)(mass_g * 1000 + 0.5) - 30000;
}

static void what_was_confirmed_is_there_after_a_kill(void **state)
{
    (void)state;
    int confirmed = 0, most = 0;
    for (int round = 0; round < ROUNDS; round++) {
        served s = serve_start();
        serve_enter(&s);
        const long long version = first_version(&s);
        killing k = {.child = s.child, .after_ms = 40 + 37 * round % 150};
        pthread_t killer;
        assert_int_equal(pthread_create(&killer, NULL, kill_it, &k), 0);
        const int before = confirmed;
        confirmed = change_until_killed(&s, version, confirmed);
        pthread_join(killer, NULL);
        serve_reap(&s, SIGKILL);
        most = confirmed - before > most ? confirmed - before : most;
        /* The one that got no answer may have gone in, or not. */
        if (confirmed > 0) {
            const int there = number_on_the_bench();
            if (there != confirmed && there != confirmed + 1)
                fail_msg("change %d was confirmed, the bench has %d", confirmed, there);
            confirmed = there;
        }
        run_quietly("export" DEMO);
        run_quietly("sheet hedgerow" DEMO);
    }
    assert_true(most > 0); /* otherwise nothing was tried */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_was_confirmed_is_there_after_a_kill),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
