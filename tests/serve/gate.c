/* gate.c: who is let in, what a browser is told it may do, and that everybody else gets a 4xx. */
#include "http.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

static served s;

static int start(void **state)
{
    if (enter_home_with_demo(state) != 0)
        return -1;
    s = serve_start();
    return 0;
}

static int stop(void **state)
{
    serve_stop(&s, SIGTERM);
    return leave_home(state);
}

/* A request with headers of the test's own. */
static reply with(const char *method, const char *target, const char *host, const char *more)
{
    char headers[2048];
    snprintf(headers, sizeof headers, "Host: %s\r\n%s%s%s%s", host, *s.cookie ? "Cookie: " : "",
             s.cookie, *s.cookie ? "\r\n" : "", more);
    return serve_ask(&s, method, target, headers, NULL);
}

static const char *own_host(void)
{
    static char host[32];
    snprintf(host, sizeof host, "127.0.0.1:%hu", s.port);
    return host;
}

static void the_page_is_there_before_the_token_and_data_are_not(void **state)
{
    (void)state;
    reply r = serve_get(&s, "/");
    assert_int_equal(r.code, 200);
    if (!s.page)
        assert_non_null(strstr(r.body, "./dev page"));
    reply_free(&r);
    assert_refused(serve_get(&s, "/api/craft"), 401, "open the link");
    assert_refused(serve_get(&s, "/api/nosuch"), 401, "open the link");
    assert_refused(serve_get(&s, "/?token=wrong"), 403, "lets nobody in");
    char target[128], wrong[64];
    strcpy(wrong, s.token);
    wrong[strlen(wrong) - 1] ^= 1;
    snprintf(target, sizeof target, "/?token=%s", wrong);
    assert_refused(serve_get(&s, target), 403, "lets nobody in");
}

static void every_answer_has_the_policy(void **state)
{
    (void)state;
    static const char *const targets[] = {"/", "/api/craft", "/nosuch"};
    for (size_t i = 0; i < sizeof targets / sizeof targets[0]; i++) {
        reply r = serve_get(&s, targets[i]);
        const char *policy = reply_header(&r, "Content-Security-Policy");
        assert_non_null(policy);
        assert_non_null(strstr(policy, "default-src 'none'"));
        assert_non_null(strstr(policy, "frame-ancestors 'none'"));
        assert_null(strstr(policy, "unsafe"));
        assert_string_equal(reply_header(&r, "X-Content-Type-Options"), "nosniff");
        assert_null(reply_header(&r, "Access-Control-Allow-Origin"));
        reply_free(&r);
    }
}

/* A browser that has a file asks whether it is still the same, and gets nothing again. */
static void a_file_that_is_there_already_is_not_sent_again(void **state)
{
    (void)state;
    char headers[512], tag[128];
    if (!s.page)
        skip();
    reply r = serve_get(&s, "/");
    assert_int_equal(r.code, 200);
    assert_non_null(reply_header(&r, "ETag"));
    snprintf(tag, sizeof tag, "%s", reply_header(&r, "ETag"));
    assert_string_equal(reply_header(&r, "Cache-Control"), "no-cache");
    assert_int_equal(tag[0], '"');
    /* What the page is made of has its content in its name, and may be kept. */
    const char *script = strstr(r.body, "src=\"./assets/");
    assert_non_null(script);
    char path[256];
    snprintf(path, sizeof path, "%.*s", (int)strcspn(script + 6, "\""), script + 6);
    reply_free(&r);
    static const char *const same[] = {"%s", "W/%s", "\"other\", %s", "*"};
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        char said[256];
        const char *at = strstr(same[i], "%s");
        if (at)
            snprintf(said, sizeof said, "%.*s%s", (int)(at - same[i]), same[i], tag);
        else
            snprintf(said, sizeof said, "%s", same[i]);
        snprintf(headers, sizeof headers, "If-None-Match: %s\r\n", said);
        r = with("GET", "/", own_host(), headers);
        if (r.code != 304)
            fail_msg("%d for If-None-Match: %s", r.code, said);
        assert_int_equal(r.length, 0);
        assert_string_equal(reply_header(&r, "ETag"), tag);
        assert_non_null(reply_header(&r, "Content-Security-Policy"));
        reply_free(&r);
    }
    tag[strlen(tag) - 2] ^= 1;
    snprintf(headers, sizeof headers, "If-None-Match: %s\r\n", tag);
    r = with("GET", "/", own_host(), headers);
    assert_int_equal(r.code, 200);
    assert_true(r.length > 0);
    reply_free(&r);
    r = serve_get(&s, path);
    assert_int_equal(r.code, 200);
    assert_non_null(strstr(reply_header(&r, "Cache-Control"), "immutable"));
    assert_null(reply_header(&r, "Content-Encoding"));
    const size_t plain = r.length;
    reply_free(&r);
    r = with("GET", path, own_host(), "Accept-Encoding: gzip\r\n");
    assert_string_equal(reply_header(&r, "Content-Encoding"), "gzip");
    assert_true(r.length * 2 < plain);
    reply_free(&r);
}

static void a_link_lets_in_once(void **state)
{
    (void)state;
    char target[128];
    snprintf(target, sizeof target, "/?token=%s", s.token);
    reply r = serve_get(&s, target);
    assert_int_equal(r.code, 303);
    assert_string_equal(reply_header(&r, "Location"), "/");
    char cookie[256];
    snprintf(cookie, sizeof cookie, "%s", reply_header(&r, "Set-Cookie"));
    reply_free(&r);
    assert_non_null(strstr(cookie, "; HttpOnly"));
    assert_non_null(strstr(cookie, "; SameSite=Strict"));
    assert_null(strstr(cookie, s.token));
    assert_refused(serve_get(&s, target), 403, "used already");
    snprintf(s.cookie, sizeof s.cookie, "%.*s", (int)strcspn(cookie, ";"), cookie);
    r = serve_get(&s, "/api/craft");
    assert_int_equal(r.code, 200);
    reply_free(&r);
    /* Who is in already may come by the link again. */
    r = serve_get(&s, target);
    assert_int_equal(r.code, 303);
    reply_free(&r);
}

static void a_changed_cookie_does_not_let_in(void **state)
{
    (void)state;
    served other = s;
    other.cookie[strlen(other.cookie) - 1] ^= 1;
    assert_refused(serve_get(&other, "/api/craft"), 401, "open the link");
    other.cookie[strlen(other.cookie) - 1] = '\0';
    assert_refused(serve_get(&other, "/api/craft"), 401, "open the link");
}

static void foreign_names_are_refused(void **state)
{
    (void)state;
    static const char *const hosts[] = {"evil.example", "127.0.0.1", "127.0.0.1:1",
                                        "localhost.evil.example:80"};
    for (size_t i = 0; i < sizeof hosts / sizeof hosts[0]; i++) {
        assert_refused(with("GET", "/", hosts[i], ""), 403, "Host");
        assert_refused(with("GET", "/api/craft", hosts[i], ""), 403, "Host");
    }
    /* Two are one too many, though one of them is ours; and an empty one is none. Without one the HTTP library may
     * answer by itself, from its version 1.0 on: 400 (RFC 9112, 3.2). */
    char two[160];
    snprintf(two, sizeof two, "Host: %s\r\nHost: evil.example\r\n", own_host());
    assert_refused(serve_ask(&s, "GET", "/", two, NULL), 403, "Host");
    assert_refused(serve_ask(&s, "GET", "/", "Host:\r\n", NULL), 403, "Host");
    reply none = serve_ask(&s, "GET", "/", "", NULL);
    assert_non_null(strstr(none.body, "Host"));
    assert_true(none.code == 403 || none.code == 400);
    reply_free(&none);
    static const char *const origins[] = {
        "Origin: http://evil.example\r\n", "Origin: null\r\n", "Origin: http://127.0.0.1:1\r\n",
        "Sec-Fetch-Site: cross-site\r\n", "Sec-Fetch-Site: same-site\r\n"};
    for (size_t i = 0; i < sizeof origins / sizeof origins[0]; i++)
        assert_refused(with("GET", "/api/craft", own_host(), origins[i]), 403, "another site");
    char own[64];
    snprintf(own, sizeof own, "Origin: http://%s\r\n", own_host());
    reply r = with("GET", "/api/craft", own_host(), own);
    assert_int_equal(r.code, 200);
    reply_free(&r);
}

static void other_methods_and_paths_are_refused(void **state)
{
    (void)state;
    static const char *const methods[] = {"PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "NONSENSE"};
    for (size_t i = 0; i < sizeof methods / sizeof methods[0]; i++)
        assert_refused(with(methods[i], "/api/craft", own_host(), ""), 405, "GET");
    static const char *const paths[] = {"/../etc/passwd",
                                        "/%2e%2e/%2e%2e/etc/passwd",
                                        "/assets/../../../etc/passwd",
                                        "//etc/passwd",
                                        "/api/../craft",
                                        "/api/",
                                        "/api",
                                        "/index.html.bak",
                                        "/.git/config"};
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++)
        assert_refused(serve_get(&s, paths[i]), 404, "");
}

static void what_it_cannot_serve_is_said_before_it_starts(void **state)
{
    (void)state;
    run_refuses("serve --port 70000" DEMO, 3, "pare: --port '70000'; right would be 0 to 65535\n");
    run_refuses("serve --time 0" DEMO, 3,
                "pare: --time '0': a number of seconds is due, above 0 and up to 1e+08\n");
    char line[64], wanted[128];
    snprintf(line, sizeof line, "serve --port %hu" DEMO, s.port);
    snprintf(wanted, sizeof wanted, "pare: port %hu is taken; --port 0 takes one that is free\n",
             s.port);
    run_refuses(line, 4, wanted);
    ran r = run("serve --bench nothing.sqlite");
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "no bench at nothing.sqlite"));
    ran_free(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_page_is_there_before_the_token_and_data_are_not),
        cmocka_unit_test(every_answer_has_the_policy),
        cmocka_unit_test(a_file_that_is_there_already_is_not_sent_again),
        cmocka_unit_test(a_link_lets_in_once),
        cmocka_unit_test(a_changed_cookie_does_not_let_in),
        cmocka_unit_test(foreign_names_are_refused),
        cmocka_unit_test(other_methods_and_paths_are_refused),
        cmocka_unit_test(what_it_cannot_serve_is_said_before_it_starts),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
