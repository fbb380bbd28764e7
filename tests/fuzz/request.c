/* rooms: serve show store advise craft physics base; with: bench */
/* request.c: whatever comes over a connection to the server. The command behind it is not run: what is
 * held is that only a question's own words reach it, and no name of a file that the network chose.
 *
 * In the input "@" stands for what only somebody who was let in can know: the cookie's whole value. */
#include <arpa/inet.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

#include "fuzz.h"
#include "fuzz_bench.h"
#include "serve/serve.h"

enum { ANSWER = 1 << 16 };

static pare_server *server;
static unsigned short port;
static char host[32], cookie[160];

static bool is_own(const char *word, const char *option, const char *value)
{
    const size_t length = strlen(option);
    return strncmp(word, option, length) == 0 && strncmp(word + length, value, strlen(value)) == 0;
}

/* What the server would have `pare` do. */
static pare_status answer(void *context, size_t words, char *const word[],
                          const pare_progress *progress, pare_text *out, pare_error *err)
{
    (void)context;
    (void)progress;
    (void)err;
    static const char *const commands[] = {"craft",   "sheet",  "swaps", "compare", "parts",
                                           "history", "take",   "weigh", "learn",   "scale",
                                           "best",    "report", "undo",  "redo",    "import"};
    bool known = false;
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++)
        known = known || (words > 0 && strcmp(word[0], commands[i]) == 0);
    fuzz_expect(known, "only questions of the page reach a command");
    for (size_t i = 1; i < words && strcmp(word[i], "--") != 0; i++) {
        if (strncmp(word[i], "--bench", 7) == 0)
            fuzz_expect(is_own(word[i], "--bench=", fuzz_path("bench.sqlite")),
                        "the bench is the server's own");
        fuzz_expect(strncmp(word[i], "-o", 2) != 0 &&
                        strncmp(word[i], "--editor", strlen("--editor")) != 0,
                    "nobody from the network names a file or a program");
    }
    pare_text_add(out, "{}\n");
    return PARE_OK;
}

/* The ports of one address are used up by connections that the kernel remembers for a minute after both
 * ends closed, some 40,000 questions in: so every few thousand come from another address of the loopback. */
static struct sockaddr_in next_address(void)
{
    enum { EACH = 4096, ADDRESSES = 250 };
    static unsigned asked;
    const unsigned host_part = 1 + asked++ / EACH % ADDRESSES;
    return (struct sockaddr_in){.sin_family = AF_INET,
                                .sin_addr = {.s_addr = htonl(INADDR_LOOPBACK + host_part)}};
}

static int go_in(void)
{
    const struct sockaddr_in from = next_address();
    const struct sockaddr_in to = {.sin_family = AF_INET,
                                   .sin_port = htons(port),
                                   .sin_addr = {.s_addr = htonl(INADDR_LOOPBACK)}};
    const int connection = socket(AF_INET, SOCK_STREAM, 0);
    const int on = 1; /* the port is chosen when both addresses are known */
    fuzz_expect(connection >= 0 &&
                    setsockopt(connection, IPPROTO_IP, IP_BIND_ADDRESS_NO_PORT, &on, sizeof on) ==
                        0 &&
                    bind(connection, (const struct sockaddr *)&from, sizeof from) == 0 &&
                    connect(connection, (const struct sockaddr *)&to, sizeof to) == 0,
                "the server is there");
    return connection;
}

/* All that is sent, and all that comes back. */
static size_t ask(const char *bytes, size_t length, char reply[ANSWER])
{
    const int connection = go_in();
    size_t sent = 0, got = 0;
    while (sent < length) {
        const ssize_t now = send(connection, bytes + sent, length - sent, MSG_NOSIGNAL);
        if (now <= 0)
            break;
        sent += (size_t)now;
    }
    shutdown(connection, SHUT_WR);
    for (;;) {
        const ssize_t now = recv(connection, reply + got, ANSWER - 1 - got, 0);
        if (now <= 0)
            break;
        got = got + (size_t)now < ANSWER - 1 ? got + (size_t)now : 0;
    }
    close(connection);
    reply[got] = '\0';
    return got;
}

static void stop(void)
{
    pare_server_stop(server);
}

static void start(void)
{
    (void)fuzz_store_filled();
    static char bench[128];
    snprintf(bench, sizeof bench, "%s", fuzz_path("bench.sqlite"));
    const pare_serve_settings settings = {.bench = bench, .answer = answer};
    pare_error err = {0};
    fuzz_expect(pare_server_start(&settings, &server, &err) == PARE_OK, "the server starts");
    atexit(stop);
    const char *link = pare_server_link(server);
    fuzz_expect(sscanf(link, "http://127.0.0.1:%hu/", &port) == 1, "its link names the port");
    snprintf(host, sizeof host, "127.0.0.1:%hu", port);
    char first[512];
    snprintf(first, sizeof first, "GET /%s HTTP/1.1\r\nHost: %s\r\n\r\n", strchr(link, '?'), host);
    static char reply[ANSWER];
    (void)ask(first, strlen(first), reply);
    const char *given = strstr(reply, "Set-Cookie: ");
    fuzz_expect(given && sscanf(given, "Set-Cookie: %150[^;]", cookie) == 1,
                "the link lets one in");
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (!server)
        start();
    pare_text request = {0};
    for (size_t i = 0; i < length; i++)
        if (bytes[i] == '@')
            pare_text_add(&request, cookie);
        else if (bytes[i] == '^') /* and this, for the port is another at every start */
            pare_text_add(&request, host);
        else
            pare_text_put(&request, (const char *)&bytes[i], 1);
    static char reply[ANSWER];
    const size_t got = ask(request.bytes ? request.bytes : "", request.length, reply);
    pare_text_free(&request);
    int code = 0;
    if (got > 0 && sscanf(reply, "HTTP/1.%*d %d ", &code) == 1)
        fuzz_expect(code >= 200 && code < 600 && code != 500, "the server knows what it answers");
    return 0;
}
