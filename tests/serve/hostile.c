/* hostile.c: what strangers send: floods, slow senders, nonsense. Each gets a 4xx or is closed, the
 * server goes on for everybody else, and keeps nothing of it. */
#include "http.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <unistd.h>

static served s;

static int start(void **state)
{
    const struct rlimit many = {4096, 4096};
    setrlimit(RLIMIT_NOFILE, &many);
    return serve_at_home(state, &s);
}

static int stop(void **state)
{
    return serve_leave_home(state, &s);
}

static void it_goes_on(void)
{
    reply r = serve_get(&s, "/api/craft");
    assert_int_equal(r.code, 200);
    reply_free(&r);
}

/* Bytes as they are. @return the code of the answer; 0: closed without one */
static int code_of(const void *bytes, size_t length)
{
    const int socket = serve_connect(&s);
    serve_send(socket, bytes, length);
    shutdown(socket, SHUT_WR);
    reply r = serve_read(socket);
    const int code = r.code;
    reply_free(&r);
    return code;
}

static void assert_4xx_or_closed(const void *bytes, size_t length)
{
    const int code = code_of(bytes, length);
    if (code != 0 && code != 505 && code / 100 != 4) /* 505: another version of HTTP */
        fail_msg("%d for: %.200s", code, (const char *)bytes);
}

static void nonsense_is_refused(void **state)
{
    (void)state;
    static const char *const wrong[] = {
        "\r\n\r\n\r\n\r\n",
        "GET\r\n\r\n",
        "GET /\r\n\r\n",
        "GET / HTTP/9.9\r\n\r\n",
        "GET / HTTP/1.1\r\n\r\n",
        "GET / HTTP/1.1\r\nHost\r\n\r\n",
        "GET / HTTP/1.1\r\nHost:\r\n\r\n",
        "GET / HTTP/1.1\r\nHost:   \r\n\r\n",
        "GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
        "GET http://evil.example/ HTTP/1.1\r\nHost: evil.example\r\n\r\n",
        "POST /api/take HTTP/1.1\r\nHost: x\r\nContent-Length: -1\r\n\r\n",
        "POST /api/take HTTP/1.1\r\nHost: x\r\nContent-Length: 99999999999999999999999\r\n\r\n",
        "POST /api/take HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\nZZZ\r\n",
        "\x16\x03\x01\x02\x01\x01\xfc\x03\x03",
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_4xx_or_closed(wrong[i], strlen(wrong[i]));
    it_goes_on();
}

/* Drawn at random, with what a request has among it; the seed is said so that it can be drawn again. */
static void random_bytes_do_no_harm(void **state)
{
    (void)state;
    unsigned long long seed = 20260301;
    static const char *const words[] = {
        "GET ", "POST ", "/api/", "HTTP/1.1", "\r\n", "Host: ", "Content-Length: ",
        "{",    "%00",   "=",     "\r\n\r\n"};
    for (int round = 0; round < 300; round++) {
        char bytes[512];
        size_t length = 0;
        while (length < 400) {
            seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
            const unsigned draw = (unsigned)(seed >> 33);
            if (draw % 3) {
                bytes[length++] = (char)(draw >> 8);
            } else {
                const char *word = words[(draw >> 8) % (sizeof words / sizeof words[0])];
                memcpy(bytes + length, word, strlen(word));
                length += strlen(word);
            }
        }
        assert_4xx_or_closed(bytes, length);
    }
    it_goes_on();
}

static void a_flood_of_headers_is_refused(void **state)
{
    (void)state;
    enum { FLOOD = 1 << 20 };
    char *bytes = malloc(FLOOD + 128);
    assert_non_null(bytes);
    /* Many, and one that is long. */
    size_t length = (size_t)sprintf(bytes, "GET / HTTP/1.1\r\nHost: 127.0.0.1:%hu\r\n", s.port);
    while (length < FLOOD)
        length += (size_t)sprintf(bytes + length, "X-%zu: y\r\n", length);
    assert_4xx_or_closed(bytes, length);
    length = (size_t)sprintf(bytes, "GET / HTTP/1.1\r\nHost: 127.0.0.1:%hu\r\nX: ", s.port);
    memset(bytes + length, 'y', FLOOD - length);
    assert_4xx_or_closed(bytes, FLOOD);
    length = (size_t)sprintf(bytes, "GET /");
    memset(bytes + length, 'y', FLOOD - length);
    assert_4xx_or_closed(bytes, FLOOD);
    free(bytes);
    it_goes_on();
}

static void a_query_of_many_keys_is_refused(void **state)
{
    (void)state;
    char target[4000] = "/api/compare?craft=hedgerow";
    for (int i = 0; i < 200; i++)
        strcat(target, "&craft=bodkin");
    assert_refused(serve_get(&s, target), 400, "");
    strcpy(target, "/api/sheet?craft=hedgerow");
    for (int i = 0; i < 200; i++)
        strcat(target, "&try=a%3Db");
    assert_refused(serve_get(&s, target), 400, "");
}

/* ---- slow ---- */

/* One says nothing, one stops within its head, one within its body, one sends a byte now and then: each
 * is closed by the server. */
static void slow_senders_are_closed(void **state)
{
    (void)state;
    enum { SENDERS = 4 };
    char body[512];
    snprintf(body, sizeof body,
             "POST /api/undo HTTP/1.1\r\nHost: 127.0.0.1:%hu\r\nOrigin: http://127.0.0.1:%hu\r\n"
             "Cookie: %s\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{",
             s.port, s.port, s.cookie);
    const char *const begins[SENDERS] = {"", "GET / HT", body, "GET / HTTP/1.1\r\nX: "};
    struct pollfd open[SENDERS];
    for (int i = 0; i < SENDERS; i++) {
        open[i] = (struct pollfd){.fd = serve_connect(&s), .events = POLLIN};
        assert_true(serve_send(open[i].fd, begins[i], strlen(begins[i])));
    }
    int left = SENDERS;
    for (int half_seconds = 0; left > 0; half_seconds++) {
        assert_true(half_seconds < 120);
        if (open[SENDERS - 1].fd >= 0)
            serve_send(open[SENDERS - 1].fd, "y", 1);
        poll(NULL, 0, 500);
        assert_true(poll(open, SENDERS, 0) >= 0);
        for (int i = 0; i < SENDERS; i++) {
            char bytes[4096];
            if (open[i].fd < 0 || !(open[i].revents & (POLLIN | POLLHUP | POLLERR)) ||
                recv(open[i].fd, bytes, sizeof bytes, 0) > 0)
                continue;
            close(open[i].fd);
            open[i].fd = -1;
            left--;
        }
    }
    it_goes_on();
}

/* ---- many ---- */

static size_t resident_kb(void)
{
    char name[64];
    snprintf(name, sizeof name, "/proc/%d/status", (int)s.child);
    char *text = read_file(name);
    assert_non_null(text);
    const char *line = strstr(text, "VmRSS:");
    assert_non_null(line);
    const size_t kb = strtoul(line + 6, NULL, 10);
    free(text);
    return kb;
}

static void a_thousand_connections_leave_it_standing(void **state)
{
    (void)state;
    enum { MANY = 1000 };
    static int socket[MANY];
    for (int i = 0; i < MANY; i++)
        socket[i] = serve_connect(&s);
    for (int i = 0; i < MANY; i++)
        serve_send(socket[i], "GET / HT", 8);
    for (int i = 0; i < MANY; i++)
        close(socket[i]);
    /* Those that were closed are noticed one after another. */
    for (int tries = 0;; tries++) {
        reply r = serve_get(&s, "/api/craft");
        const int code = r.code;
        reply_free(&r);
        if (code == 200)
            return;
        assert_true(tries < 300);
        poll(NULL, 0, 100);
    }
}

static void ask_all_kinds(int rounds)
{
    static const char *const targets[] = {"/",
                                          "/nosuch",
                                          "/api/craft",
                                          "/api/nosuch",
                                          "/api/sheet?craft=nosuch",
                                          "/api/sheet?x=1",
                                          "/api/craft/bodkin",
                                          "/?token=wrong"};
    for (int i = 0; i < rounds; i++)
        for (size_t k = 0; k < sizeof targets / sizeof targets[0]; k++) {
            reply r = serve_get(&s, targets[k]);
            assert_true(r.code >= 200 && r.code < 500);
            reply_free(&r);
        }
}

/* What is refused after much of it was said: a body that is no JSON, one that is too long, a head without
 * an end, a search that nobody waits for. */
static void ask_wrongly(void)
{
    enum { MUCH = 1 << 20 };
    static char much[MUCH + 1];
    memset(much, '[', MUCH);
    assert_refused(serve_post(&s, "/api/take", much), 400, "JSON is due");
    char head[256];
    snprintf(head, sizeof head,
             "POST /api/take HTTP/1.1\r\nHost: 127.0.0.1:%hu\r\nContent-Length: 99999999\r\n\r\n",
             s.port);
    assert_4xx_or_closed(head, strlen(head));
    memcpy(much, "GET /", 5);
    assert_4xx_or_closed(much, MUCH);
    const int socket = serve_connect(&s);
    snprintf(head, sizeof head,
             "GET /api/best?craft=thimble HTTP/1.1\r\nHost: 127.0.0.1:%hu\r\nCookie: %s\r\n\r\n",
             s.port, s.cookie);
    assert_true(serve_send(socket, head, strlen(head)));
    assert_true(recv(socket, head, 1, 0) == 1);
    close(socket);
}

/* Memory comes in steps, as threads come and go: so it may grow, but not again and again. A block is 800
 * questions, and four of each of the wrong ones, which hold a megabyte: 1 KiB kept of each question, or one of
 * the others kept whole, would grow every block by more than the step that is let pass. The address
 * sanitizer keeps 256 MiB of what was freed before its own memory is flat. */
static void memory_stays_flat(void **state)
{
    (void)state;
    enum { BLOCKS = 24, STEP_KB = 500 };
    size_t most = 0;
    for (int block = 0; block < BLOCKS; block++) {
        ask_all_kinds(100);
        for (int i = 0; i < 4; i++)
            ask_wrongly();
        const size_t now = resident_kb();
        if (block > 0 && now < most + STEP_KB)
            return;
        most = now > most ? now : most;
    }
    fail_msg("still growing, at %zu KiB", most);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nonsense_is_refused),
        cmocka_unit_test(random_bytes_do_no_harm),
        cmocka_unit_test(a_flood_of_headers_is_refused),
        cmocka_unit_test(a_query_of_many_keys_is_refused),
        cmocka_unit_test(a_thousand_connections_leave_it_standing),
        cmocka_unit_test(memory_stays_flat),
        cmocka_unit_test(slow_senders_are_closed),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
