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
#include <strings.h>
#include <sys/socket.h>
#include <unistd.h>

#include "serve/inside.h"
#include "store/bench.h"

enum { LOCAL = INET6_ADDRSTRLEN + 2 }; /* bytes of an address, with its brackets */

/* Of TLS, what is not known to be weak (RFC 8996 retires 1.0 and 1.1). */
static const char PROTOCOLS[] = "NORMAL:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2";

static const char *header(const pare_request *request, const char *name)
{
    return MHD_lookup_connection_value(request->connection, MHD_HEADER_KIND, name);
}

/* The address at which the request came in, as Host has it; empty where it is not known. */
static void local_address(const pare_request *request, char text[LOCAL])
{
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(request->connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    struct sockaddr_storage at = {0};
    socklen_t size = sizeof at;
    char number[INET6_ADDRSTRLEN] = "";
    text[0] = '\0';
    if (!info || getsockname(info->connect_fd, (struct sockaddr *)&at, &size) != 0)
        return;
    const bool six = at.ss_family == AF_INET6;
    const void *bytes =
        six ? (const void *)&((const struct sockaddr_in6 *)(const void *)&at)->sin6_addr
            : (const void *)&((const struct sockaddr_in *)(const void *)&at)->sin_addr;
    if (inet_ntop(at.ss_family, bytes, number, sizeof number))
        snprintf(text, LOCAL, six ? "[%s]" : "%s", number);
}

static enum MHD_Result count_host(void *context, enum MHD_ValueKind kind, const char *name,
                                  const char *value)
{
    (void)kind, (void)value;
    *(unsigned *)context += strcasecmp(name, MHD_HTTP_HEADER_HOST) == 0;
    return MHD_YES;
}

/* One Host, and it is ours (RFC 9112, section 3.2, wants no two). */
static bool has_our_host(const pare_request *request, const char *local)
{
    unsigned hosts = 0;
    MHD_get_connection_values(request->connection, MHD_HEADER_KIND, count_host, &hosts);
    return hosts == 1 &&
           pare_gate_host(&request->server->gate, header(request, MHD_HTTP_HEADER_HOST), local);
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
static bool is_from_elsewhere(const pare_request *request, const char *local)
{
    const char *origin = header(request, MHD_HTTP_HEADER_ORIGIN);
    const char *site = header(request, "Sec-Fetch-Site");
    return (origin && !pare_gate_origin(&request->server->gate, origin, local)) ||
           (in_api(request) && site && !is_one_of(site, "same-origin", "none"));
}

static bool has_cookie(const pare_request *request)
{
    const pare_gate *gate = &request->server->gate;
    return pare_gate_knows(
        gate, MHD_lookup_connection_value(request->connection, MHD_COOKIE_KIND, gate->cookie));
}

/* A body may come: JSON, of a length that is said and not too long. */
static const char *refused_body(const pare_request *request, unsigned long long most,
                                unsigned *code)
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
    return strtoull(length, NULL, 10) <= most ? NULL
           : most == SERVE_BODY               ? "a body of 8 MiB is the largest"
                                              : "a body of 4 KiB is the largest here";
}

/* Who asks for a change, or to come in, says where the page is from; only Pare's own may. */
static const char *refused_origin(const pare_request *request, unsigned *code)
{
    *code = MHD_HTTP_FORBIDDEN;
    return header(request, MHD_HTTP_HEADER_ORIGIN)
               ? NULL
               : "what changes something says where it is from: Origin";
}

static const char *refused_entry(const pare_request *request, unsigned *code)
{
    *code = MHD_HTTP_METHOD_NOT_ALLOWED;
    if (strcmp(request->method, "POST") != 0)
        return "this address is asked by POST";
    const char *why = refused_origin(request, code);
    return why ? why : refused_body(request, SERVE_ENTER_BODY, code);
}

static const char *refused_write(const pare_request *request, unsigned *code)
{
    *code = MHD_HTTP_NOT_FOUND;
    if (!pare_serve_writes(request->path) && pare_serve_reads(request->path)) {
        *code = MHD_HTTP_METHOD_NOT_ALLOWED;
        return "this address is asked by GET";
    }
    if (!pare_serve_writes(request->path))
        return "there is nothing to change at this address";
    const char *why = refused_origin(request, code);
    return why ? why : refused_body(request, SERVE_BODY, code);
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
    char local[LOCAL];
    local_address(request, local);
    *code = MHD_HTTP_FORBIDDEN;
    if (!has_our_host(request, local))
        return "the name in Host is not this server's";
    if (is_from_elsewhere(request, local))
        return "asked by another site's page; only Pare's own may";
    *code = MHD_HTTP_METHOD_NOT_ALLOWED;
    if (!writes && !is_one_of(request->method, "GET", "HEAD"))
        return "this address is asked by GET";
    if (!in_api(request))
        return NULL;
    if (pare_serve_enters(request))
        return refused_entry(request, code);
    *code = MHD_HTTP_UNAUTHORIZED;
    if (!has_cookie(request))
        return "who are you?"; /* pare_serve_stranger() says more */
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
    if (pare_serve_enters(request))
        return pare_serve_enter(request);
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
        return !why                            ? MHD_YES
               : code == MHD_HTTP_UNAUTHORIZED ? pare_serve_stranger(request)
                                               : pare_reply_error(request, code, why);
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

/* The address to listen at; a port is put into it by the caller.
 * @param address  by number; NULL: this machine's to itself
 * @return its length; 0: it is none */
static socklen_t address_of(const char *address, unsigned short port, struct sockaddr_storage *at)
{
    struct sockaddr_in *four = (struct sockaddr_in *)(void *)at;
    struct sockaddr_in6 *six = (struct sockaddr_in6 *)(void *)at;
    *at = (struct sockaddr_storage){0};
    if (inet_pton(AF_INET, address ? address : "127.0.0.1", &four->sin_addr) == 1) {
        four->sin_family = AF_INET;
        four->sin_port = htons(port);
        return sizeof *four;
    }
    if (inet_pton(AF_INET6, address, &six->sin6_addr) == 1) {
        six->sin6_family = AF_INET6;
        six->sin6_port = htons(port);
        return sizeof *six;
    }
    return 0;
}

/* A socket of our own: the library's option for an address has another name in its next version.
 * @param[in,out] at  with the port that it has, afterwards
 * @return -1 with errno where there is none */
static int socket_at(struct sockaddr_storage *at, socklen_t size)
{
    enum { WAITING = 128 };
    const int on = 1, made = socket(at->ss_family, SOCK_STREAM | SOCK_CLOEXEC, 0);
    if (made < 0)
        return -1;
    /* A port whose last connections are still dying may be taken again. */
    setsockopt(made, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
    if (at->ss_family == AF_INET6)
        setsockopt(made, IPPROTO_IPV6, IPV6_V6ONLY, &on, sizeof on);
    if (bind(made, (const struct sockaddr *)at, size) == 0 && listen(made, WAITING) == 0 &&
        getsockname(made, (struct sockaddr *)at, &size) == 0)
        return made;
    const int why = errno;
    close(made);
    errno = why;
    return -1;
}

static pare_status cannot_listen(const pare_serve_settings *settings, pare_error *err)
{
    if (errno == EADDRINUSE)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "port %hu is taken; --port 0 takes one that is free", settings->port);
    if (errno == EADDRNOTAVAIL || errno == EAFNOSUPPORT)
        return pare_fail(err, PARE_BAD_DATA, "%.60s is no address of this machine",
                         settings->address);
    return pare_fail(err, PARE_UNAVAILABLE, "cannot listen at port %hu: %s", settings->port,
                     strerror(errno));
}

/* @param pem  NULL: without TLS */
static struct MHD_Daemon *start_daemon(pare_server *server, int listening, const char *pem)
{
    const struct MHD_OptionItem tls[] = {
        {.option = MHD_OPTION_HTTPS_MEM_KEY, .ptr_value = (void *)(uintptr_t)pem},
        {.option = MHD_OPTION_HTTPS_MEM_CERT, .ptr_value = (void *)(uintptr_t)pem},
        {.option = MHD_OPTION_HTTPS_PRIORITIES, .ptr_value = (void *)(uintptr_t)PROTOCOLS},
        {.option = MHD_OPTION_PER_IP_CONNECTION_LIMIT, .value = SERVE_FROM_ONE},
        {.option = MHD_OPTION_END},
    };
    const struct MHD_OptionItem none[] = {{.option = MHD_OPTION_END}};
    return MHD_start_daemon(
        MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_THREAD_PER_CONNECTION | MHD_USE_POLL |
            MHD_USE_ITC | MHD_USE_ERROR_LOG | (pem ? MHD_USE_TLS : 0),
        server->gate.port, NULL, NULL, handle, server, MHD_OPTION_EXTERNAL_LOGGER, say_nothing,
        NULL, MHD_OPTION_LISTEN_SOCKET, listening, MHD_OPTION_NOTIFY_COMPLETED, over, NULL,
        MHD_OPTION_NOTIFY_CONNECTION, came_or_went, server, MHD_OPTION_CONNECTION_LIMIT,
        (unsigned)SERVE_CONNECTIONS, MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)SERVE_IDLE_S,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)SERVE_HEADERS, MHD_OPTION_THREAD_STACK_SIZE,
        (size_t)SERVE_STACK, MHD_OPTION_ARRAY, pem ? tls : none, MHD_OPTION_END);
}

static pare_status listen_at(pare_server *server, pare_error *err)
{
    const pare_serve_settings *settings = &server->settings;
    pare_certificate certificate = {0};
    pare_arena *arena = NULL;
    struct sockaddr_storage at;
    const socklen_t size = address_of(settings->address, settings->port, &at);
    const int listening = size > 0 ? socket_at(&at, size) : -1;
    if (size == 0)
        return pare_fail(err, PARE_BAD_DATA, "'%.60s' is no address by number", settings->address);
    if (listening < 0)
        return cannot_listen(settings, err);
    const unsigned short port =
        ntohs(at.ss_family == AF_INET6 ? ((struct sockaddr_in6 *)(void *)&at)->sin6_port
                                       : ((struct sockaddr_in *)(void *)&at)->sin_port);
    pare_gate_at(&server->gate, port, settings->address != NULL);
    pare_status status = PARE_OK;
    if (settings->address && !(arena = pare_arena_open()))
        status = pare_no_memory(err);
    else if (settings->address)
        status =
            settings->certificate
                ? pare_certificate_read(settings->certificate, arena, &certificate, err)
                : pare_certificate_own(settings->own, settings->address, arena, &certificate, err);
    if (status == PARE_OK) {
        memcpy(server->fingerprint, certificate.fingerprint, sizeof server->fingerprint);
        server->daemon = start_daemon(server, listening, certificate.pem);
        if (!server->daemon)
            status =
                pare_fail(err, PARE_UNAVAILABLE, "the server does not start at port %hu", port);
    }
    if (status != PARE_OK)
        close(listening);
    pare_arena_close(arena);
    return status;
}

/* Where it listens at every address the machine's name stands for them. */
static void put_link(pare_server *server)
{
    const char *address = server->settings.address;
    const pare_gate *gate = &server->gate;
    if (!address)
        pare_text_printf(&server->link, "http://127.0.0.1:%hu/?token=%s", gate->port, gate->token);
    else if (strcmp(address, "0.0.0.0") == 0 || strcmp(address, "::") == 0)
        pare_text_printf(&server->link, "https://%s:%hu/",
                         *gate->machine ? gate->machine : "localhost", gate->port);
    else
        pare_text_printf(&server->link,
                         strchr(address, ':') ? "https://[%s]:%hu/" : "https://%s:%hu/", address,
                         gate->port);
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
    status = pare_door_open(&server->door, settings->address ? settings->password : NULL, err);
    server->settings.password = NULL;
    pthread_mutex_init(&server->write, NULL);
    pare_kept_open(&server->kept, settings->bench);
    const long processors = sysconf(_SC_NPROCESSORS_ONLN);
    sem_init(&server->seats, 0, processors > 0 ? (unsigned)processors + 1 : 2);
    if (!pare_watch_open(&server->watch, SERVE_CONNECTIONS, SERVE_SEND_S) && status == PARE_OK)
        status = pare_fail(err, PARE_UNAVAILABLE, "no memory or no thread for the server");
    if (status == PARE_OK && settings->address && !server->door.shut)
        status =
            pare_fail(err, PARE_BAD_DATA, "other machines come in by a password; there is none");
    if (status == PARE_OK)
        status = listen_at(server, err);
    if (status == PARE_OK) {
        put_link(server);
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

const char *pare_server_fingerprint(const pare_server *server)
{
    return *server->fingerprint ? server->fingerprint : NULL;
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
    pare_door_close(&server->door);
    pare_text_free(&server->link);
    free(server);
}
