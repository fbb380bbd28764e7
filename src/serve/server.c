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

/* A body may come: JSON, of a length that is said and not too long. */
static const char *refused_body(const pare_request *request, unsigned *code)
{
    static const char json[] = "application/json";
    const char *type = header(request, MHD_HTTP_HEADER_CONTENT_TYPE);
    const char *length = header(request, MHD_HTTP_HEADER_CONTENT_LENGTH);
    *code = MHD_HTTP_UNSUPPORTED_MEDIA_TYPE;
    if (!type || strncmp(type, json, sizeof json - 1) != 0 ||
        (type[sizeof json - 1] && !strchr("; ", type[sizeof json - 1])))
        return "what changes something is said as Content-Type: application/json";
    *code = MHD_HTTP_LENGTH_REQUIRED;
    if (!length || header(request, MHD_HTTP_HEADER_TRANSFER_ENCODING))
        return "a body needs its Content-Length";
    *code = MHD_HTTP_CONTENT_TOO_LARGE;
    return strtoull(length, NULL, 10) > SERVE_BODY ? "a body of 8 MiB is the largest" : NULL;
}

/* A page that changes something says where it is from; only Pare's own may. */
static const char *refused_write(const pare_request *request, unsigned *code)
{
    *code = MHD_HTTP_NOT_FOUND;
    if (!pare_serve_writes(request->path) && pare_serve_reads(request->path)) {
        *code = MHD_HTTP_METHOD_NOT_ALLOWED;
        return "this address is asked by GET";
    }
    if (!pare_serve_writes(request->path))
        return "there is nothing to change at this address";
    *code = MHD_HTTP_FORBIDDEN;
    if (!header(request, MHD_HTTP_HEADER_ORIGIN))
        return "what changes something says where it is from: Origin";
    return refused_body(request, code);
}

static const char *refused_read(const pare_request *request, unsigned *code)
{
    const bool there = pare_serve_reads(request->path) || pare_serve_is_state(request->path);
    *code = MHD_HTTP_NOT_FOUND;
    if (!there && pare_serve_writes(request->path)) {
        *code = MHD_HTTP_METHOD_NOT_ALLOWED;
        return "this address is asked by POST";
    }
    return there ? NULL : "there is nothing to ask at this address";
}

/* What stands against a request, before it is read any further. */
static const char *refused(const pare_request *request, unsigned *code)
{
    const bool writes = strcmp(request->method, "POST") == 0 && in_api(request);
    *code = MHD_HTTP_FORBIDDEN;
    if (!pare_gate_host(&request->server->gate, header(request, MHD_HTTP_HEADER_HOST)))
        return "the name in Host is not this server's";
    if (is_from_elsewhere(request))
        return "asked by another site's page; only Pare's own may";
    *code = MHD_HTTP_METHOD_NOT_ALLOWED;
    if (!writes && !is_one_of(request->method, "GET", "HEAD"))
        return "this address is asked by GET";
    if (!in_api(request))
        return NULL;
    *code = MHD_HTTP_UNAUTHORIZED;
    if (!has_cookie(request))
        return "open the link that pare serve printed first";
    return writes ? refused_write(request, code) : refused_read(request, code);
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
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    request->place = info ? info->socket_context : NULL;
    if (request->arena)
        return request;
    free(request);
    return NULL;
}

static enum MHD_Result take_in(pare_request *request, const char *bytes, size_t *length)
{
    if (strcmp(request->method, "POST") == 0)
        pare_text_put(&request->body, bytes, *length);
    *length = 0;
    return request->body.failed ? MHD_NO : MHD_YES;
}

static enum MHD_Result answer(pare_request *request)
{
    if (!in_api(request))
        return pare_serve_page(request);
    if (strcmp(request->method, "POST") == 0)
        return pare_serve_write(request);
    return pare_serve_is_state(request->path) ? pare_serve_state(request)
                                              : pare_serve_read(request);
}

static enum MHD_Result handle(void *context, struct MHD_Connection *connection, const char *path,
                              const char *method, const char *version, const char *upload,
                              size_t *upload_size, void **kept)
{
    (void)version;
    unsigned code = 0;
    pare_request *request = *kept;
    if (!request) {
        request = request_open(context, connection, path, method);
        *kept = request;
        if (!request)
            return MHD_NO;
        const char *why = refused(request, &code);
        return why ? pare_reply_error(request, code, why) : MHD_YES;
    }
    if (*upload_size > 0)
        return take_in(request, upload, upload_size);
    pare_watch_said(&request->server->watch, request->place, true);
    return request->answered ? MHD_YES : answer(request);
}

static void over(void *context, struct MHD_Connection *connection, void **kept,
                 enum MHD_RequestTerminationCode how)
{
    (void)context, (void)connection, (void)how;
    pare_request *request = *kept;
    if (!request)
        return;
    pare_watch_said(&request->server->watch, request->place, false);
    pare_text_free(&request->body);
    pare_arena_close(request->arena);
    free(request);
    *kept = NULL;
}

static void came_or_went(void *context, struct MHD_Connection *connection, void **place,
                         enum MHD_ConnectionNotificationCode what)
{
    pare_server *server = context;
    if (what == MHD_CONNECTION_NOTIFY_CLOSED) {
        pare_watch_drop(&server->watch, *place);
        return;
    }
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    *place = info ? pare_watch_add(&server->watch, info->connect_fd) : NULL;
}

/* The library's own complaints are about what strangers send: nobody here can act on them. */
static void say_nothing(void *context, const char *format, va_list arguments)
{
    (void)context, (void)format, (void)arguments;
}

/* A socket of our own: the library's option for an address has another name in its next version.
 * @param[out] port  the one that it has
 * @return -1 with errno where there is none */
static int socket_at(unsigned short wanted, unsigned short *port)
{
    enum { WAITING = 128 };
    struct sockaddr_in address = {
        .sin_family = AF_INET, .sin_port = htons(wanted), .sin_addr = {htonl(INADDR_LOOPBACK)}};
    socklen_t size = sizeof address;
    const int on = 1, made = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    if (made < 0)
        return -1;
    /* A port whose last connections are still dying may be taken again. */
    setsockopt(made, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
    if (bind(made, (const struct sockaddr *)&address, sizeof address) == 0 &&
        listen(made, WAITING) == 0 && getsockname(made, (struct sockaddr *)&address, &size) == 0) {
        *port = ntohs(address.sin_port);
        return made;
    }
    const int why = errno;
    close(made);
    errno = why;
    return -1;
}

static pare_status listen_at(pare_server *server, pare_error *err)
{
    unsigned short port = 0;
    const int listening = socket_at(server->settings.port, &port);
    if (listening < 0 && errno == EADDRINUSE)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "port %hu is taken; --port 0 takes one that is free",
                         server->settings.port);
    if (listening < 0)
        return pare_fail(err, PARE_UNAVAILABLE, "cannot listen at port %hu: %s",
                         server->settings.port, strerror(errno));
    pare_gate_at(&server->gate, port);
    server->daemon = MHD_start_daemon(
        MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_THREAD_PER_CONNECTION | MHD_USE_POLL |
            MHD_USE_ITC | MHD_USE_ERROR_LOG,
        port, NULL, NULL, handle, server, MHD_OPTION_EXTERNAL_LOGGER, say_nothing, NULL,
        MHD_OPTION_LISTEN_SOCKET, listening, MHD_OPTION_NOTIFY_COMPLETED, over, NULL,
        MHD_OPTION_NOTIFY_CONNECTION, came_or_went, server, MHD_OPTION_CONNECTION_LIMIT,
        (unsigned)SERVE_CONNECTIONS, MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)SERVE_IDLE_S,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)SERVE_HEADERS, MHD_OPTION_THREAD_STACK_SIZE,
        (size_t)SERVE_STACK, MHD_OPTION_END);
    if (server->daemon)
        return PARE_OK;
    close(listening);
    return pare_fail(err, PARE_UNAVAILABLE, "the server does not start at port %hu", port);
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
    pare_kept_open(&server->kept, settings->bench);
    const long processors = sysconf(_SC_NPROCESSORS_ONLN);
    sem_init(&server->seats, 0, processors > 0 ? (unsigned)processors + 1 : 2);
    if (pare_watch_open(&server->watch, SERVE_CONNECTIONS, SERVE_SEND_S))
        status = listen_at(server, err);
    else
        status = pare_fail(err, PARE_UNAVAILABLE, "no memory or no thread for the server");
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
    pare_watch_close(&server->watch);
    pare_kept_close(&server->kept);
    sem_destroy(&server->seats);
    pthread_mutex_destroy(&server->write);
    pare_gate_close(&server->gate);
    pare_text_free(&server->link);
    free(server);
}
