/* writes.c: changes by the server: each is its command's, none is lost, and what is wrong changes
 * nothing. */
#include "http.h"

#include <pthread.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static served s;

static int start(void **state)
{
    return serve_at_home(state, &s);
}

static int stop(void **state)
{
    return serve_leave_home(state, &s);
}

static json_t *said(reply r, int code)
{
    if (r.code != code)
        fail_msg("wanted %d, got %d: %s", code, r.code, r.body);
    json_t *object = json_loads(r.body, 0, NULL);
    assert_non_null(object);
    reply_free(&r);
    return object;
}

static long long version_of(const char *query)
{
    char target[128];
    snprintf(target, sizeof target, "/api/version?%s", query);
    json_t *object = said(serve_get(&s, target), 200);
    const long long version = json_integer_value(json_object_get(object, "version"));
    json_decref(object);
    return version;
}

/* A body with "V" in it, for the version of a craft or part as it is now. */
static reply post_now(const char *target, const char *query, const char *before, const char *after)
{
    char body[1024];
    snprintf(body, sizeof body, "%s%lld%s", before, version_of(query), after);
    return serve_post(&s, target, body);
}

static void assert_command(const json_t *object, const char *wanted)
{
    assert_string_equal(json_string_value(json_object_get(object, "command")), wanted);
}

/* The bench is as it is afterwards as when its command is typed: their exports have the same bytes. */
static void same_as_typed(json_t *object)
{
    char typed[512];
    const char *command = json_string_value(json_object_get(object, "command"));
    assert_int_equal(strncmp(command, "pare ", 5), 0);
    ran by_server = run("export" DEMO);
    run_quietly("undo" DEMO);
    size_t length = 0;
    /* run() splits at spaces; quotes of the shell go, spaces in them become '~'. */
    bool quoted = false;
    for (const char *c = command + 5; *c && length + 1 < sizeof typed; c++) {
        if (*c == '\'')
            quoted = !quoted;
        else
            typed[length++] = quoted && *c == ' ' ? '~' : *c;
    }
    typed[length] = '\0';
    char line[600];
    snprintf(line, sizeof line, "%s" DEMO, typed);
    run_quietly(line);
    ran by_hand = run("export" DEMO);
    assert_string_equal(by_server.out, by_hand.out);
    run_quietly("undo" DEMO);
    ran_free(&by_server);
    ran_free(&by_hand);
    json_decref(object);
}

static void a_change_is_its_commands(void **state)
{
    (void)state;
    json_t *object =
        said(post_now("/api/take", "craft=hedgerow", "{\"craft\":\"hedgerow\",\"version\":",
                      ",\"swap\":\"bumper=off\",\"state\":\"fitted\",\"date\":"
                      "\"2026-03-01\",\"why\":\"never hit a thing\"}"),
             200);
    assert_command(object, "pare take hedgerow bumper=off --fitted=2026-03-01 "
                           "'--why=never hit a thing'");
    assert_int_equal(json_integer_value(json_object_get(object, "version")),
                     version_of("craft=hedgerow"));
    same_as_typed(object);
    object =
        said(post_now("/api/edit", "craft=hedgerow",
                      "{\"craft\":\"hedgerow\",\"version\":", ",\"limit\":{\"all_up\":\"655 g\"}}"),
             200);
    assert_command(object, "pare craft limit hedgerow 'all_up=655 g'");
    same_as_typed(object);
    object =
        said(post_now("/api/edit", "part=mo-2207-1950", "{\"part\":\"mo-2207-1950\",\"version\":",
                      ",\"set\":{\"mass\":\"31.9 g\",\"owned\":\"4\"}}"),
             200);
    assert_command(object, "pare parts change mo-2207-1950 'mass=31.9 g' owned=4");
    same_as_typed(object);
    object = said(post_now("/api/edit", "craft=bodkin", "{\"craft\":\"bodkin\",\"version\":",
                           ",\"do\":\"copy\",\"to\":\"bodkin-two\"}"),
                  200);
    same_as_typed(object);
    object = said(serve_post(&s, "/api/weigh",
                             "{\"craft\":\"hedgerow\",\"scale\":\"kitchen\",\"readings\":["
                             "{\"of\":\"motor_base\",\"count\":10,\"grams\":\"7.5 g\"},"
                             "{\"of\":\"frame\",\"grams\":\"118.4 g\",\"date\":"
                             "\"2026-10-02\"}]}"),
                  200);
    assert_command(object, "pare weigh hedgerow '10*motor_base=7.5 g' 'frame=118.4 g' "
                           "--scale=kitchen --date=2026-10-02");
    same_as_typed(object);
}

static void undo_and_redo_go_back_and_forth(void **state)
{
    (void)state;
    const long long before = version_of("craft=hedgerow");
    json_t *object =
        said(post_now("/api/take", "craft=hedgerow",
                      "{\"craft\":\"hedgerow\",\"version\":", ",\"swap\":\"bumper=off\"}"),
             200);
    json_decref(object);
    const long long after = version_of("craft=hedgerow");
    assert_true(after != before);
    json_decref(said(serve_post(&s, "/api/undo", "{}"), 200));
    assert_true(version_of("craft=hedgerow") == before);
    json_decref(said(serve_post(&s, "/api/redo", "{}"), 200));
    assert_true(version_of("craft=hedgerow") == after);
    json_decref(said(serve_post(&s, "/api/undo", "{}"), 200));
}

static void a_change_of_what_was_seen_before_is_refused(void **state)
{
    (void)state;
    char body[512];
    const long long seen = version_of("craft=hedgerow");
    snprintf(body, sizeof body,
             "{\"craft\":\"hedgerow\",\"version\":%lld,\"limit\":{\"all_up\":\"651 g\"}}", seen);
    json_decref(said(serve_post(&s, "/api/edit", body), 200));
    ran before = run("export" DEMO);
    reply r = serve_post(&s, "/api/edit", body);
    assert_int_equal(r.code, 409);
    json_t *object = json_loads(r.body, 0, NULL);
    assert_true(json_integer_value(json_object_get(object, "version")) ==
                version_of("craft=hedgerow"));
    assert_non_null(strstr(r.body, "hedgerow was changed meanwhile"));
    json_decref(object);
    reply_free(&r);
    ran after = run("export" DEMO);
    assert_string_equal(before.out, after.out);
    ran_free(&before);
    ran_free(&after);
    /* Another craft is not held up by that. */
    json_decref(said(post_now("/api/edit", "craft=bodkin", "{\"craft\":\"bodkin\",\"version\":",
                              ",\"limit\":{\"all_up\":\"400 g\"}}"),
                     200));
    json_decref(said(serve_post(&s, "/api/undo", "{}"), 200));
    json_decref(said(serve_post(&s, "/api/undo", "{}"), 200));
}

static void a_list_comes_in_and_its_name_is_no_path(void **state)
{
    (void)state;
    json_t *object = said(serve_post(&s, "/api/import",
                                     "{\"name\":\"../../../etc/my list.csv\",\"dry_run\":true,"
                                     "\"text\":\"Name;Kind;Weight (g);kV;Stator\\n"
                                     "Sorrel 2306;motor;31,2;1850;23x6\\n\"}"),
                          200);
    assert_command(object, "pare import _._.._.._etc_my_list.csv --dry-run");
    assert_int_equal(
        json_integer_value(json_object_get(json_object_get(object, "answer"), "parts_added")), 1);
    json_decref(object);
    /* "pare:" is no bench's text yet: what is said of it has the file's name alone. */
    assert_refused(serve_post(&s, "/api/import", "{\"name\":\"x.yaml\",\"base64\":\"cGFyZTo=\"}"),
                   400, "x.yaml:1:");
    assert_refused(serve_post(&s, "/api/import", "{\"name\":\"x.yaml\",\"base64\":\"cGFy*To=\"}"),
                   400, "'base64' is not that");
    assert_refused(serve_post(&s, "/api/import", "{\"name\":\"x.csv\"}"), 400, "needs 'text'");
    assert_refused(serve_post(&s, "/api/import", "{\"name\":\"\",\"text\":\"a\"}"), 400, "'name'");
    object = said(serve_post(&s, "/api/import",
                             "{\"name\":\"list.csv\",\"set\":{\"maker\":\"Sorrel\"},"
                             "\"base64\":\"TmFtZSxLaW5kLFdlaWdodCAoZyksa1YsU3RhdG9yCk5pbmUg"
                             "MjMwNixtb3RvciwzMS4yLDE4NTAsMjN4Ngo=\"}"),
                  200);
    assert_command(object, "pare import list.csv --set=maker=Sorrel");
    json_decref(object);
    reply r = serve_get(&s, "/api/history");
    assert_non_null(strstr(r.body, "\"import list.csv\""));
    assert_null(strstr(r.body, "pare-"));
    reply_free(&r);
    json_decref(said(serve_post(&s, "/api/undo", "{}"), 200));
}

static void a_report_is_a_file_to_keep(void **state)
{
    (void)state;
    reply r = serve_get(&s, "/api/report?craft=hedgerow&as=svg");
    assert_int_equal(r.code, 200);
    assert_string_equal(reply_header(&r, "Content-Disposition"),
                        "attachment; filename=\"hedgerow.svg\"");
    assert_string_equal(reply_header(&r, "Pare-Command"),
                        "pare report hedgerow --output=hedgerow.svg");
    run_quietly("report hedgerow -o by-hand.svg" DEMO);
    char *by_hand = read_file("by-hand.svg");
    assert_string_equal(r.body, by_hand);
    free(by_hand);
    reply_free(&r);
    assert_refused(serve_get(&s, "/api/report?craft=hedgerow&as=exe"), 400, "as=html");
    assert_refused(serve_get(&s, "/api/report?craft=..%2f..%2fx&as=svg"), 404, "no craft");
    assert_refused(serve_get(&s, "/api/report?craft=hedgerow&as=svg&output=x"), 400, "takes no");
}

/* ---- two pages at once ---- */

enum { ROUNDS = 12, PAGES = 4 };

typedef struct page {
    int number, done, told;
} page;

/* Reads the version, adds a limit of its own, and where it is told that it was late reads again. */
static void *edit_again_and_again(void *context)
{
    page *p = context;
    for (int i = 0; i < ROUNDS; i++) {
        for (;;) {
            char after[128];
            snprintf(after, sizeof after, ",\"set\":{\"mass\":\"%d.%02d g\"}}", 30 + p->number, i);
            reply r = post_now("/api/edit", "part=mo-2207-2750",
                               "{\"part\":\"mo-2207-2750\",\"version\":", after);
            const int code = r.code;
            reply_free(&r);
            if (code == 200)
                break;
            p->told++;
            if (code != 409)
                return NULL;
        }
        p->done++;
    }
    return NULL;
}

/* How many changes stand; those that were undone are forgotten by the next. */
static size_t changes_that_stand(void)
{
    json_t *object = run_json("history --all --json" DEMO);
    const json_t *list = json_object_get(object, "history");
    size_t count = 0;
    for (size_t i = 0; i < json_array_size(list); i++)
        count += json_is_false(json_object_get(json_array_get(list, i), "undone"));
    json_decref(object);
    return count;
}

/* Every change that was confirmed stands in the history, in one row from the state that it saw. */
static void pages_that_change_the_same_lose_nothing(void **state)
{
    (void)state;
    const size_t were = changes_that_stand();
    page pages[PAGES];
    pthread_t threads[PAGES];
    for (int i = 0; i < PAGES; i++) {
        pages[i] = (page){.number = i};
        assert_int_equal(pthread_create(&threads[i], NULL, edit_again_and_again, &pages[i]), 0);
    }
    for (int i = 0; i < PAGES; i++) {
        pthread_join(threads[i], NULL);
        assert_int_equal(pages[i].done, ROUNDS);
    }
    assert_int_equal(changes_that_stand() - were, ROUNDS * PAGES);
}

/* ---- what is wrong ---- */

static void wrong_bodies_are_refused_and_change_nothing(void **state)
{
    (void)state;
    static const struct {
        const char *target, *body, *words;
        int code;
    } wrong[] = {
        {"/api/take", "", "body:1:", 400},
        {"/api/take", "{", "body:1:1:", 400},
        {"/api/take", "[]", "an object is due", 400},
        {"/api/take", "null", "body:1:4:", 400},
        {"/api/take", "{\"craft\":\"a\",\"craft\":\"b\"}", "duplicate", 400},
        {"/api/take", "{\"craft\":\"\xff\"}", "body:1:", 400},
        {"/api/take", "{\"craft\":\"a\\u0000b\"}", "body:1:", 400},
        {"/api/take", "{}", "needs 'craft'", 400},
        {"/api/take", "{\"craft\":7}", "'craft' must be a text", 400},
        {"/api/take", "{\"craft\":\"hedgerow\"}", "needs 'swap'", 400},
        {"/api/take", "{\"craft\":\"hedgerow\",\"swap\":\"bumper=off\"}", "needs 'version'", 400},
        {"/api/take", "{\"craft\":\"hedgerow\",\"swap\":\"bumper=off\",\"version\":\"1\"}",
         "whole number", 400},
        {"/api/take", "{\"craft\":\"nosuch\",\"swap\":\"bumper=off\",\"version\":1}",
         "no craft 'nosuch'", 404},
        {"/api/take", "{\"craft\":\"hedgerow\",\"swop\":\"x\"}", "did you mean swap?", 400},
        {"/api/take",
         "{\"craft\":\"hedgerow\",\"swap\":\"bumper=off\",\"state\":\"lost\",\"version\":1}",
         "no state 'lost'", 400},
        {"/api/edit", "{\"craft\":\"hedgerow\",\"version\":1}", "'set' must be an object", 400},
        {"/api/edit", "{\"craft\":\"hedgerow\",\"version\":1,\"set\":{\"a=b\":\"c\"}}", "no key",
         400},
        {"/api/edit", "{\"craft\":\"a\",\"part\":\"b\",\"version\":1,\"set\":{\"a\":\"c\"}}",
         "not both", 400},
        {"/api/weigh", "{\"craft\":\"hedgerow\"}", "needs 'readings'", 400},
        {"/api/weigh", "{\"craft\":\"hedgerow\",\"readings\":[{\"of\":\"frame\",\"grams\":\"x\"}]}",
         "", 400},
        {"/api/weigh",
         "{\"craft\":\"hedgerow\",\"readings\":[{\"of\":\"nosuch\",\"grams\":\"1 g\"}]}", "nosuch",
         404},
        {"/api/undo", "{\"craft\":\"hedgerow\"}", "takes no 'craft'", 400},
        {"/api/nosuch", "{}", "nothing to change", 404},
        {"/api/craft", "{}", "by GET", 405},
    };
    ran before = run("export" DEMO);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_refused(serve_post(&s, wrong[i].target, wrong[i].body), wrong[i].code,
                       wrong[i].words);
    ran after = run("export" DEMO);
    assert_string_equal(before.out, after.out);
    ran_free(&before);
    ran_free(&after);
}

static void what_is_no_json_of_ours_is_refused_before_it_is_read(void **state)
{
    (void)state;
    static const struct {
        const char *more, *words;
        int code;
    } wrong[] = {
        {"Content-Type: application/json\r\n", "Origin", 403},
        {"Origin: http://evil.example\r\nContent-Type: application/json\r\n", "another site", 403},
        {"Origin: null\r\nContent-Type: application/json\r\n", "another site", 403},
        {"Origin: http://OWN\r\nContent-Type: text/plain\r\n", "Content-Type", 415},
        {"Origin: http://OWN\r\nContent-Type: application/jsonx\r\n", "Content-Type", 415},
        {"Origin: http://OWN\r\n", "Content-Type", 415},
        {"Origin: http://OWN\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n",
         "Content-Length", 411},
        {"Origin: http://OWN\r\nContent-Type: application/json\r\nContent-Length: 99999999\r\n",
         "8 MiB", 413},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        char headers[1024], more[512], *own;
        snprintf(more, sizeof more, "%s", wrong[i].more);
        if ((own = strstr(more, "OWN")))
            snprintf(own, sizeof more - (size_t)(own - more), "127.0.0.1:%hu%s", s.port,
                     strstr(wrong[i].more, "OWN") + 3);
        snprintf(headers, sizeof headers, "Host: 127.0.0.1:%hu\r\nCookie: %s\r\n%s", s.port,
                 s.cookie, more);
        assert_refused(serve_ask(&s, "POST", "/api/undo", headers, NULL), wrong[i].code,
                       wrong[i].words);
    }
    served stranger = s;
    stranger.cookie[0] = '\0';
    char headers[512];
    snprintf(headers, sizeof headers,
             "Host: 127.0.0.1:%hu\r\nOrigin: http://127.0.0.1:%hu\r\n"
             "Content-Type: application/json\r\n",
             s.port, s.port);
    assert_refused(serve_ask(&stranger, "POST", "/api/undo", headers, "{}"), 401, "link");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_change_is_its_commands),
        cmocka_unit_test(undo_and_redo_go_back_and_forth),
        cmocka_unit_test(a_change_of_what_was_seen_before_is_refused),
        cmocka_unit_test(a_list_comes_in_and_its_name_is_no_path),
        cmocka_unit_test(a_report_is_a_file_to_keep),
        cmocka_unit_test(wrong_bodies_are_refused_and_change_nothing),
        cmocka_unit_test(what_is_no_json_of_ours_is_refused_before_it_is_read),
        cmocka_unit_test(pages_that_change_the_same_lose_nothing),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
