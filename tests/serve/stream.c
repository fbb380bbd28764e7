/* stream.c: searches as streams of events: the answer is the command's, and who goes away stops it. */
#include "http.h"

#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

static served s;

static int start(void **state)
{
    return serve_at_home(state, &s);
}

static int stop(void **state)
{
    return serve_leave_home(state, &s);
}

/* The chunks of a body put together (RFC 9112, section 7.1). */
static char *unchunked(const reply *r)
{
    char *all = calloc(1, r->length + 1), *to = all;
    assert_non_null(all);
    assert_string_equal(reply_header(r, "Transfer-Encoding"), "chunked");
    for (const char *at = r->body;;) {
        char *end;
        const size_t length = strtoul(at, &end, 16);
        assert_true(end > at && strncmp(end, "\r\n", 2) == 0);
        if (length == 0)
            return all;
        assert_true((size_t)(end + 2 - r->body) + length <= r->length);
        memcpy(to, end + 2, length);
        to += length;
        at = end + 2 + length + 2;
    }
}

/* What the last event of this name says: its data lines, as a browser joins them. */
static char *data_of(const char *events, const char *name)
{
    char head[64];
    snprintf(head, sizeof head, "event: %s\n", name);
    const char *last = NULL;
    for (const char *at = strstr(events, head); at; at = strstr(at + 1, head))
        last = at;
    if (!last)
        return NULL;
    char *data = calloc(1, strlen(last) + 1), *to = data;
    assert_non_null(data);
    for (const char *at = last + strlen(head); strncmp(at, "data: ", 6) == 0;) {
        const size_t length = strcspn(at, "\n");
        to += sprintf(to, "%s%.*s", to > data ? "\n" : "", (int)(length - 6), at + 6);
        at += length + 1;
    }
    return data;
}

/* The seconds of a search differ from run to run, and are said at one place. */
static void without_seconds(char *json)
{
    for (char *at = strstr(json, "\"search_s\":"); at; at = strstr(at + 1, "\"search_s\":"))
        for (at += 11; *at && *at != ',' && *at != '\n'; at++)
            *at = '#';
    char *to = json;
    for (const char *at = json; *at; at++)
        if (*at != '#')
            *to++ = *at;
    *to = '\0';
}

static void assert_same_answer(const char *target, const char *line)
{
    reply r = serve_get(&s, target);
    assert_int_equal(r.code, 200);
    assert_string_equal(reply_header(&r, "Content-Type"), "text/event-stream");
    char *events = unchunked(&r), *answer = data_of(events, "answer");
    if (!answer)
        fail_msg("%s: no answer in: %s", target, events);
    ran typed = run(line);
    typed.out[strlen(typed.out) - 1] = '\0'; /* the last line's end is the event's */
    without_seconds(answer);
    without_seconds(typed.out);
    assert_string_equal(answer, typed.out);
    free(answer);
    free(events);
    reply_free(&r);
    ran_free(&typed);
}

/* Few enough choices for a whole front. */
#define HELD_KEYS                                                                                  \
    "&hold=frame&hold=propeller&hold=camera&hold=motor&hold=pack&hold=gps&hold=board"              \
    "&hold=receiver&hold=antenna&hold=run.phase&hold=run.lead&hold=joint.posts"                    \
    "&hold=joint.stack"
#define HELD                                                                                       \
    " --hold frame --hold propeller --hold camera --hold motor --hold pack --hold gps"             \
    " --hold board --hold receiver --hold antenna --hold run.phase --hold run.lead"                \
    " --hold joint.posts --hold joint.stack"

static void the_answer_is_the_commands(void **state)
{
    (void)state;
    assert_same_answer("/api/best?craft=thimble&hold=frame&never=pr-40-25-2",
                       "best thimble --hold frame --never pr-40-25-2 --json" DEMO);
    assert_same_answer("/api/best?craft=thimble&binds=1", "best thimble --binds --json" DEMO);
    assert_same_answer("/api/walk?craft=thimble&budget=50",
                       "best thimble --walk --budget 50 --json" DEMO);
    assert_same_answer("/api/best?craft=thimble&sure=0.9&sold=50%25&sold=pa-4s-650%3D12.50",
                       "best thimble --sure 0.9 --sold 50% --sold pa-4s-650=12.50 --json" DEMO);
    assert_same_answer("/api/front?craft=thimble&of=money-minutes" HELD_KEYS,
                       "best thimble --front money-minutes" HELD " --json" DEMO);
}

static void what_fails_is_said_as_an_event(void **state)
{
    (void)state;
    reply r = serve_get(&s, "/api/best?craft=thimbel");
    char *events = unchunked(&r), *said = data_of(events, "failed");
    assert_non_null(said);
    assert_string_equal(said, "{\"error\":\"no craft 'thimbel'; did you mean thimble?\"}");
    free(said);
    free(events);
    reply_free(&r);
    assert_refused(serve_get(&s, "/api/best"), 400, "needs craft=NAME");
}

static int begin(const char *target)
{
    char head[512];
    const int length =
        snprintf(head, sizeof head, "GET %s HTTP/1.1\r\nHost: 127.0.0.1:%hu\r\nCookie: %s\r\n\r\n",
                 target, s.port, s.cookie);
    const int socket = serve_connect(&s);
    assert_true(serve_send(socket, head, (size_t)length));
    char first;
    assert_int_equal(recv(socket, &first, 1, MSG_WAITALL), 1);
    return socket;
}

/* There may be three at once: so as long as one is refused, none has ended. */
static void who_goes_away_stops_the_work(void **state)
{
    (void)state;
    enum { MOST = 3 };
    int socket[MOST];
    for (int i = 0; i < MOST; i++)
        socket[i] = begin("/api/front?craft=hedgerow&of=grams-minutes");
    assert_refused(serve_get(&s, "/api/best?craft=hedgerow"), 503, "stop one first");
    for (int i = 0; i < MOST; i++)
        close(socket[i]);
    for (int tries = 0;; tries++) {
        reply r = serve_get(&s, "/api/best?craft=hedgerow&time=0.1");
        const int code = r.code;
        reply_free(&r);
        if (code == 200)
            return;
        assert_true(tries < 600);
        poll(NULL, 0, 100);
    }
}

static void a_server_that_is_stopped_ends_its_streams(void **state)
{
    (void)state;
    served other = serve_start();
    serve_enter(&other);
    const served mine = s;
    s = other;
    const int socket = begin("/api/front?craft=hedgerow&of=grams-minutes");
    s = mine;
    serve_stop(&other, SIGTERM);
    close(socket);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_answer_is_the_commands),
        cmocka_unit_test(what_fails_is_said_as_an_event),
        cmocka_unit_test(who_goes_away_stops_the_work),
        cmocka_unit_test(a_server_that_is_stopped_ends_its_streams),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
