/* rooms: base */
/* serve.c: how long a hundred pages wait for the preview of a swap, and for a file of the same server.
 *
 * Each of a hundred connections asks again as soon as it has its answer, so all of them are always
 * waiting: the hardest way to ask. They take gzip, as browsers do. Three rounds against one server of the built program: a file (the
 * page, or what stands in its place), previews of swaps that were asked before, by themselves, and,
 * from one connection, previews that nobody has asked. The client is one thread of this program. */
#include <arpa/inet.h>
#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "base/text.h"

enum { CLIENTS = 100, ASKED = 100, BUFFER = 1 << 16, MOST_SWAPS = 40, LINE = 4096 };

extern char **environ;

typedef struct server {
    pid_t child;
    unsigned short port;
    char cookie[128];
} server;

typedef struct client {
    int socket;
    size_t asked; /* so often */
    size_t head,
        left; /* bytes of the head seen; of the body still to come, once the head is whole */
    bool in_body;
    char start[LINE]; /* the head */
    double since_s;
} client;

static void die(const char *what)
{
    fprintf(stderr, "speed_serve: %s (%s)\n", what, strerror(errno));
    exit(EXIT_FAILURE);
}

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int connect_to(const server *s)
{
    const struct sockaddr_in address = {
        .sin_family = AF_INET, .sin_port = htons(s->port), .sin_addr = {htonl(INADDR_LOOPBACK)}};
    const int made = socket(AF_INET, SOCK_STREAM, 0);
    if (made < 0 || connect(made, (const struct sockaddr *)&address, sizeof address) != 0)
        die("cannot connect");
    return made;
}

/* ---- one request at a time ---- */

static void ask(client *c, const server *s, const char *target, bool packed)
{
    char line[LINE];
    const int length =
        snprintf(line, sizeof line,
                 "GET %s HTTP/1.1\r\nHost: 127.0.0.1:%hu\r\nCookie: %s\r\n"
                 "%s\r\n",
                 target, s->port, s->cookie, packed ? "Accept-Encoding: gzip\r\n" : "");
    c->since_s = now_s();
    c->head = 0;
    c->in_body = false;
    if (send(c->socket, line, (size_t)length, MSG_NOSIGNAL) != length)
        die("cannot send");
}

/* Takes in what is there. @return true: the answer is whole */
static bool take(client *c, pare_text *body)
{
    static char bytes[BUFFER];
    ssize_t got = recv(c->socket, bytes, sizeof bytes, 0);
    if (got <= 0)
        die("closed");
    const char *at = bytes;
    while (!c->in_body && got > 0) {
        if (c->head + 1 == sizeof c->start)
            die("a head without an end");
        c->start[c->head++] = *at++;
        c->start[c->head] = '\0';
        got--;
        if (c->head >= 4 && strcmp(c->start + c->head - 4, "\r\n\r\n") == 0) {
            const char *length = strstr(c->start, "Content-Length: ");
            c->in_body = true;
            c->left = length ? strtoul(length + 16, NULL, 10) : 0;
            if (strncmp(c->start, "HTTP/1.1 200", 12) != 0 && !strstr(c->start, " 303 "))
                die(c->start);
        }
    }
    if ((size_t)got > c->left)
        die("more than was announced");
    if (body)
        pare_text_put(body, at, (size_t)got);
    c->left -= (size_t)got;
    return c->in_body && c->left == 0;
}

static double one(const server *s, client *c, const char *target, pare_text *body)
{
    ask(c, s, target, body == NULL);
    while (!take(c, body))
        continue;
    return now_s() - c->since_s;
}

/* ---- the server ---- */

static server start(char *bench)
{
    static char program[] = PARE_BINARY, word[] = "serve", json[] = "--json", port[] = "--port=0",
                option[] = "--bench";
    char *argv[] = {program, word, json, port, option, bench, NULL};
    char line[LINE] = "", token[128];
    int ends[2];
    size_t got = 0;
    server s = {0};
    if (pipe(ends) != 0)
        die("pipe");
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[1], 1);
    posix_spawn_file_actions_addclose(&actions, ends[0]);
    if (posix_spawn(&s.child, program, &actions, NULL, argv, environ) != 0)
        die("cannot start the server");
    posix_spawn_file_actions_destroy(&actions);
    close(ends[1]);
    while (!strstr(line, "}\n")) {
        const ssize_t more = read(ends[0], line + got, sizeof line - 1 - got);
        if (more <= 0)
            die("the server did not start");
        got += (size_t)more;
    }
    close(ends[0]);
    const char *link = strstr(line, "http://");
    if (!link || sscanf(link, "http://127.0.0.1:%hu/?token=%100[^\"]", &s.port, token) != 2)
        die("the server said no link");
    client c = {.socket = connect_to(&s)};
    char target[160];
    snprintf(target, sizeof target, "/?token=%s", token);
    one(&s, &c, target, NULL);
    const char *cookie = strstr(c.start, "Set-Cookie: ");
    if (!cookie || sscanf(cookie + 12, "%100[^;]", s.cookie) != 1)
        die("no cookie");
    close(c.socket);
    return s;
}

/* ---- a hundred at once ---- */

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The wait that one in a hundred exceeds, in seconds; also the one in the middle. */
static double crowd(const server *s, size_t targets, char *const target[], double *middle_s)
{
    static client c[CLIENTS];
    static struct pollfd ready[CLIENTS];
    static double wait_s[CLIENTS * ASKED];
    size_t waits = 0;
    for (size_t i = 0; i < CLIENTS; i++) {
        c[i] = (client){.socket = connect_to(s)};
        ready[i] = (struct pollfd){.fd = c[i].socket, .events = POLLIN};
    }
    for (size_t i = 0; i < CLIENTS; i++)
        ask(&c[i], s, target[i % targets], true);
    while (waits < (size_t)CLIENTS * ASKED) {
        if (poll(ready, CLIENTS, -1) < 0)
            die("poll");
        for (size_t i = 0; i < CLIENTS; i++) {
            if (!(ready[i].revents & POLLIN) || !take(&c[i], NULL))
                continue;
            wait_s[waits++] = now_s() - c[i].since_s;
            if (++c[i].asked < ASKED)
                ask(&c[i], s, target[(i + c[i].asked) % targets], true);
            else
                ready[i].fd = -1;
        }
    }
    for (size_t i = 0; i < CLIENTS; i++)
        close(c[i].socket);
    qsort(wait_s, waits, sizeof wait_s[0], by_size);
    *middle_s = wait_s[waits / 2];
    return wait_s[waits * 99 / 100];
}

/* Previews of single swaps, as the list of swaps names them. @return how many */
static size_t previews(const server *s, client *c, char *target[MOST_SWAPS])
{
    pare_text list = {0};
    size_t count = 0;
    one(s, c, "/api/swaps?craft=hedgerow", &list);
    for (const char *at = strstr(list.bytes, "\"id\": \""); at && count < MOST_SWAPS;
         at = strstr(at + 1, "\"id\": \"")) {
        const char *id = at + 7;
        const size_t length = strcspn(id, "\"");
        char *made = malloc(length + 64);
        if (!made)
            die("memory");
        sprintf(made, "/api/sheet?craft=hedgerow&try=%.*s", (int)length, id);
        target[count++] = made;
    }
    pare_text_free(&list);
    return count;
}

int main(int argc, char *argv[])
{
    char file[] = "/", *file_target[] = {file}, *target[MOST_SWAPS];
    if (argc != 2)
        die("usage: speed_serve BENCH");
    const server s = start(argv[1]);
    client c = {.socket = connect_to(&s)};
    const size_t count = previews(&s, &c, target);
    if (count == 0)
        die("the bench has no swaps for hedgerow");
    double first_s[MOST_SWAPS], middle_s;
    for (size_t i = 0; i < count; i++)
        first_s[i] = one(&s, &c, target[i], NULL);
    qsort(first_s, count, sizeof first_s[0], by_size);
    printf("%-44s %8.2f ms  (most of %zu: %.2f ms)\n",
           "a preview that nobody has asked, one client", 1e3 * first_s[count / 2], count,
           1e3 * first_s[count - 1]);
    const double file_s = crowd(&s, 1, file_target, &middle_s);
    printf("%-44s %8.2f ms  (middle %.2f ms)\n", "a file, 100 clients, 99 of 100 within",
           1e3 * file_s, 1e3 * middle_s);
    const double sheet_s = crowd(&s, count, target, &middle_s);
    printf("%-44s %8.2f ms  (middle %.2f ms; %.2f x the file)\n",
           "a preview, 100 clients, 99 of 100 within", 1e3 * sheet_s, 1e3 * middle_s,
           sheet_s / file_s);
    for (size_t i = 0; i < count; i++)
        free(target[i]);
    close(c.socket);
    kill(s.child, SIGTERM);
    waitpid(s.child, NULL, 0);
    return EXIT_SUCCESS;
}
