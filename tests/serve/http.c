/* http.c: the server as a child, and a client (see http.h). */
#include "http.h"

#include <arpa/inet.h>
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

enum { LINE = 4096, WAIT_MS = 30000 };

extern char **environ;

served serve_start(void)
{
    return serve_start_on("data/pare/demo.sqlite");
}

json_t *serve_launch(served *s, const char *bench, const char *const more[])
{
    enum { MOST = 8 };
    /* It ends by itself where a test fails before it ends it. */
    static char program[] = PARE_BINARY, word[] = "serve", json[] = "--json", port[] = "--port=0",
                time[] = "--time=900";
    char option[LINE], line[LINE] = "", words[MOST][256];
    snprintf(option, sizeof option, "--bench=%s", bench);
    char *argv[6 + MOST + 1] = {program, word, json, port, time, option};
    int ends[2];
    *s = (served){0};
    for (size_t i = 0; more && more[i]; i++) {
        assert_true(i < MOST);
        snprintf(words[i], sizeof words[i], "%s", more[i]);
        argv[6 + i] = words[i];
    }
    signal(SIGPIPE, SIG_IGN);
    assert_int_equal(pipe(ends), 0);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[1], 1);
    posix_spawn_file_actions_addopen(&actions, 2, "serve.err", O_WRONLY | O_CREAT | O_APPEND, 0600);
    posix_spawn_file_actions_addclose(&actions, ends[0]);
    posix_spawn_file_actions_addclose(&actions, ends[1]);
    assert_int_equal(posix_spawn(&s->child, program, &actions, NULL, argv, environ), 0);
    posix_spawn_file_actions_destroy(&actions);
    close(ends[1]);
    size_t got = 0;
    /* The link is one object; its last byte is the brace's line. */
    while (!strstr(line, "}\n")) {
        const ssize_t now = read(ends[0], line + got, sizeof line - 1 - got);
        if (now <= 0)
            fail_msg("pare serve ended, with: %s", line);
        got += (size_t)now;
        line[got] = '\0';
    }
    close(ends[0]);
    json_t *said = json_loads(line, 0, NULL);
    assert_non_null(said);
    s->page = json_is_true(json_object_get(said, "page"));
    return said;
}

served serve_start_on(const char *bench)
{
    served s;
    json_t *said = serve_launch(&s, bench, NULL);
    const char *link = json_string_value(json_object_get(said, "link"));
    assert_non_null(link);
    assert_int_equal(sscanf(link, "http://127.0.0.1:%hu/?token=%63s", &s.port, s.token), 2);
    json_decref(said);
    return s;
}

void serve_enter(served *s)
{
    char target[128];
    snprintf(target, sizeof target, "/?token=%s", s->token);
    reply r = serve_get(s, target);
    assert_int_equal(r.code, 303);
    const char *cookie = reply_header(&r, "Set-Cookie");
    assert_non_null(cookie);
    snprintf(s->cookie, sizeof s->cookie, "%.*s", (int)strcspn(cookie, ";"), cookie);
    reply_free(&r);
}

void serve_stop(served *s, int signal_number)
{
    assert_int_equal(kill(s->child, signal_number), 0);
    serve_reap(s, signal_number);
}

void serve_reap(served *s, int signal_number)
{
    int status = 0;
    while (waitpid(s->child, &status, 0) < 0)
        assert_int_equal(errno, EINTR);
    if (signal_number == SIGKILL)
        assert_true(WIFSIGNALED(status));
    else if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
        fail_msg("pare serve ended badly: %d", status);
}

void reply_free(reply *r)
{
    free(r->head);
    *r = (reply){0};
}

/* -1: nobody listens */
static int try_connect(const served *s)
{
    const struct sockaddr_in address = {
        .sin_family = AF_INET, .sin_port = htons(s->port), .sin_addr = {htonl(INADDR_LOOPBACK)}};
    const int made = socket(AF_INET, SOCK_STREAM, 0);
    assert_true(made >= 0);
    if (connect(made, (const struct sockaddr *)&address, sizeof address) == 0)
        return made;
    close(made);
    return -1;
}

int serve_connect(const served *s)
{
    const int made = try_connect(s);
    if (made < 0)
        fail_msg("nobody listens at port %hu", s->port);
    return made;
}

bool serve_send(int socket, const void *bytes, size_t length)
{
    const char *at = bytes;
    while (length > 0) {
        const ssize_t sent = send(socket, at, length, MSG_NOSIGNAL);
        if (sent <= 0)
            return false;
        at += sent;
        length -= (size_t)sent;
    }
    return true;
}

reply serve_read(int socket)
{
    size_t room = 1 << 16, length = 0;
    char *bytes = malloc(room);
    assert_non_null(bytes);
    for (;;) {
        struct pollfd ready = {.fd = socket, .events = POLLIN};
        if (length + 1 == room) {
            room *= 2;
            bytes = realloc(bytes, room);
            assert_non_null(bytes);
        }
        if (poll(&ready, 1, WAIT_MS) <= 0)
            fail_msg("half a minute without an answer");
        const ssize_t more = recv(socket, bytes + length, room - 1 - length, 0);
        if (more <= 0)
            break;
        length += (size_t)more;
    }
    close(socket);
    bytes[length] = '\0';
    return reply_of(bytes, length);
}

reply reply_of(char *bytes, size_t length)
{
    reply r = {.head = bytes};
    char *end = strstr(bytes, "\r\n\r\n");
    if (!end) {
        r.body = bytes + length;
        return r;
    }
    *end = '\0';
    r.body = end + 4;
    r.length = length - (size_t)(r.body - bytes);
    assert_int_equal(sscanf(bytes, "HTTP/1.1 %d", &r.code), 1);
    return r;
}

reply serve_try(const served *s, const char *method, const char *target, const char *headers,
                const char *body)
{
    char head[2 * LINE], own[LINE];
    snprintf(own, sizeof own, "Host: 127.0.0.1:%hu\r\n%s%s%s", s->port,
             *s->cookie ? "Cookie: " : "", s->cookie, *s->cookie ? "\r\n" : "");
    int length = snprintf(head, sizeof head, "%s %s HTTP/1.1\r\n%sConnection: close\r\n", method,
                          target, headers ? headers : own);
    assert_true(length > 0 && (size_t)length < sizeof head - 64);
    if (body)
        length += snprintf(head + length, sizeof head - (size_t)length, "Content-Length: %zu\r\n",
                           strlen(body));
    length += snprintf(head + length, sizeof head - (size_t)length, "\r\n");
    const int socket = try_connect(s);
    if (socket < 0)
        return (reply){0};
    if (serve_send(socket, head, (size_t)length) && body)
        serve_send(socket, body, strlen(body));
    return serve_read(socket);
}

reply serve_ask(const served *s, const char *method, const char *target, const char *headers,
                const char *body)
{
    reply r = serve_try(s, method, target, headers, body);
    if (!r.head)
        fail_msg("nobody listens at port %hu", s->port);
    return r;
}

reply serve_post(const served *s, const char *target, const char *body)
{
    char headers[LINE];
    const int length =
        snprintf(headers, sizeof headers,
                 "Host: 127.0.0.1:%hu\r\nOrigin: http://127.0.0.1:%hu\r\nCookie: %s\r\n"
                 "Content-Type: application/json\r\n",
                 s->port, s->port, s->cookie);
    assert_true(length > 0 && (size_t)length < sizeof headers);
    return serve_try(s, "POST", target, headers, body);
}

int serve_at_home(void **state, served *s)
{
    if (enter_home_with_demo(state) != 0)
        return -1;
    *s = serve_start();
    serve_enter(s);
    return 0;
}

int serve_leave_home(void **state, served *s)
{
    serve_stop(s, SIGTERM);
    return leave_home(state);
}

reply serve_get(const served *s, const char *target)
{
    return serve_ask(s, "GET", target, NULL, NULL);
}

const char *reply_header(const reply *r, const char *name)
{
    static char value[LINE];
    const size_t length = strlen(name);
    for (const char *at = strstr(r->head, "\r\n"); at; at = strstr(at + 2, "\r\n")) {
        const char *line = at + 2;
        if (strncasecmp(line, name, length) != 0 || line[length] != ':')
            continue;
        line += length + 1;
        line += strspn(line, " ");
        snprintf(value, sizeof value, "%.*s", (int)strcspn(line, "\r"), line);
        return value;
    }
    return NULL;
}

void assert_refused(reply r, int code, const char *words)
{
    if (r.code != code)
        fail_msg("wanted %d, got %d: %s", code, r.code, r.body);
    assert_string_equal(reply_header(&r, "Content-Type"), "application/json");
    json_t *said = json_loads(r.body, 0, NULL);
    assert_non_null(said);
    const char *error = json_string_value(json_object_get(said, "error"));
    if (!error || !strstr(error, words))
        fail_msg("wanted an error with '%s', got: %s", words, r.body);
    assert_ptr_equal(strchr(r.body, '\n'), r.body + r.length - 1);
    json_decref(said);
    reply_free(&r);
}
