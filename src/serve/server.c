/* server.c: connections, and each request from its first line to its answer.
 *
 * A thread a connection: a sheet or a best set is computed in it, and a slow reader holds up nobody
 * else. What is asked is checked before its body is read: the names in Host and Origin, the cookie, the
 * method, what the body is said to be and how long. */
#include <arpa/inet.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

#include "serve/inside.h"
#include "store/bench.h"

static const char *header(const pare_request *request, const char *name)
{
    return MHD_lookup_connection_value(request->connection, MHD_HEADER_KIND, name);
}

static bool is_one_of(const char *word, const char *a, const char *b)
{
    return strcmp(word, a) == 0 || strcmp(word, b) == 0;
}

static bool in_api(const pare_request *request)
{
    return strncmp(request->path, "/api/", 5) == 0;
}

/* A browser says from where it asks: only the page itself may. */
static bool is_from_elsewhere(const pare_request *request)
{
    const char *origin = header(request, MHD_HTTP_HEADER_ORIGIN);
    const char *site = header(request, "Sec-Fetch-Site");
    return (origin && !pare_gate_origin(&request->server->gate, origin)) ||
           (in_api(request) && site && !is_one_of(site, "same-origin", "none"));
}

static bool has_cookie(const pare_request *request)
{
    const pare_gate *gate = &request->server->gate;
    return pare_gate_knows(
        gate, MHD_lookup_connection_value(request->connection, MHD_COOKIE_KIND, gate->cookie));
}

/* What stands against a request, before it is read any further. @return true where it was answered */
static bool refused(pare_request *request, enum MHD_Result *result)
{
    const bool reads = is_one_of(request->method, "GET", "HEAD");
    const char *why = NULL;
    unsigned code = MHD_HTTP_FORBIDDEN;
    if (!pare_gate_host(&request->server->gate, header(request, MHD_HTTP_HEADER_HOST))) {
        why = "the name in Host is not this server's";
    } else if (is_from_elsewhere(request)) {
        why = "asked by another site's page; only Pare's own may";
    } else if (!reads) {
        code = MHD_HTTP_METHOD_NOT_ALLOWED;
        why = "only GET and HEAD are answered here";
    } else if (in_api(request) && !has_cookie(request)) {
        code = MHD_HTTP_UNAUTHORIZED;
        why = "open the link that pare serve printed first";
    } else if (in_api(request) && !pare_serve_reads(request->path)) {
        code = MHD_HTTP_NOT_FOUND;
        why = "there is nothing to ask at this address";
    }
    if (why)
        *result = pare_reply_error(request, code, why);
    return why != NULL;
}

static pare_request *request_open(pare_server *server, struct MHD_Connection *connection,
                                  const char *path, const char *method)
{
    pare_request *request = calloc(1, sizeof *request);
    if (!request)
        return NULL;
    *request = (pare_request){.server = server,
                              .connection = connection,
                              .path = path,
                              .method = method,
                              .arena = pare_arena_open()};
    clock_gettime(CLOCK_MONOTONIC, &request->started);
    if (request->arena)
        return request;
    free(request);
    return NULL;
}

static enum MHD_Result handle(void *context, struct MHD_Connection *connection, const char *path,
                              const char *method, const char *version, const char *upload,
                              size_t *upload_size, void **kept)
{
    (void)version, (void)upload;
    enum MHD_Result result = MHD_NO;
    pare_request *request = *kept;
    if (!request) {
        request = request_open(context, connection, path, method);
        *kept = request;
        if (!request)
            return MHD_NO;
        return refused(request, &result) ? result : MHD_YES;
    }
    if (*upload_size > 0) {
        *upload_size = 0; /* a question with a body: not looked at */
        return MHD_YES;
    }
    if (request->answered)
        return MHD_YES;
    return in_api(request) ? pare_serve_read(request) : pare_serve_page(request);
}

static void over(void *context, struct MHD_Connection *connection, void **kept,
                 enum MHD_RequestTerminationCode how)
{
    (void)context, (void)connection, (void)how;
    pare_request *request = *kept;
    if (!request)
        return;
    pare_text_free(&request->body);
    pare_arena_close(request->arena);
    free(request);
    *kept = NULL;
}

/* The library's own complaints are about what strangers send: nobody here can act on them. */
static void say_nothing(void *context, const char *format, va_list arguments)
{
    (void)context, (void)format, (void)arguments;
}

static pare_status listen_at(pare_server *server, pare_error *err)
{
    struct sockaddr_in address = {.sin_family = AF_INET,
                                  .sin_port = htons(server->settings.port),
                                  .sin_addr = {htonl(INADDR_LOOPBACK)}};
    errno = 0;
    server->daemon = MHD_start_daemon(
        MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_THREAD_PER_CONNECTION | MHD_USE_POLL |
            MHD_USE_ITC | MHD_USE_ERROR_LOG,
        server->settings.port, NULL, NULL, handle, server, MHD_OPTION_EXTERNAL_LOGGER, say_nothing,
        NULL, MHD_OPTION_SOCK_ADDR, (struct sockaddr *)&address, MHD_OPTION_NOTIFY_COMPLETED, over,
        NULL, MHD_OPTION_CONNECTION_LIMIT, (unsigned)SERVE_CONNECTIONS,
        MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)SERVE_IDLE_S, MHD_OPTION_CONNECTION_MEMORY_LIMIT,
        (size_t)SERVE_HEADERS, MHD_OPTION_THREAD_STACK_SIZE, (size_t)SERVE_STACK,
        MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_END);
    if (!server->daemon && errno == EADDRINUSE)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "port %hu is taken; --port 0 takes one that is free",
                         server->settings.port);
    if (!server->daemon)
        return pare_fail(err, PARE_UNAVAILABLE, "cannot listen at port %hu: %s",
                         server->settings.port, errno ? strerror(errno) : "no reason is known");
    const union MHD_DaemonInfo *info =
        MHD_get_daemon_info(server->daemon, MHD_DAEMON_INFO_BIND_PORT);
    pare_gate_at(&server->gate, info && info->port ? info->port : server->settings.port);
    return PARE_OK;
}

/* What cannot be opened is said now, not at the first question. */
static pare_status look_at_bench(const char *path, pare_error *err)
{
    pare_store *store = NULL;
    const pare_status status = pare_store_open(path, PARE_STORE_READ, &store, err);
    pare_store_close(store);
    return status;
}

pare_status pare_server_start(const pare_serve_settings *settings, pare_server **out,
                              pare_error *err)
{
    *out = NULL;
    pare_status status = look_at_bench(settings->bench, err);
    if (status != PARE_OK)
        return status;
    pare_server *server = calloc(1, sizeof *server);
    if (!server)
        return pare_no_memory(err);
    server->settings = *settings;
    status = pare_gate_open(&server->gate, err);
    if (status != PARE_OK) {
        free(server);
        return status;
    }
    pthread_mutex_init(&server->write, NULL);
    status = listen_at(server, err);
    if (status == PARE_OK) {
        pare_text_printf(&server->link, "http://127.0.0.1:%hu/?token=%s", server->gate.port,
                         server->gate.token);
        status = server->link.failed ? pare_no_memory(err) : PARE_OK;
    }
    if (status == PARE_OK)
        *out = server;
    else
        pare_server_stop(server);
    return status;
}

const char *pare_server_link(const pare_server *server)
{
    return server->link.bytes;
}

void pare_server_stop(pare_server *server)
{
    if (!server)
        return;
    atomic_store(&server->stopping, true);
    if (server->daemon)
        MHD_stop_daemon(server->daemon);
    pthread_mutex_destroy(&server->write);
    pare_gate_close(&server->gate);
    pare_text_free(&server->link);
    free(server);
}
