/* server.c: connections, and each request from its first line to its answer.
 *
 * A thread a connection: a sheet or a best set is computed in it, and a slow reader holds up nobody
 * else. What is asked is checked before its body is read (refuse.c). */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "serve/inside.h"
#include "serve/listen.h"
#include "store/bench.h"

/* Of TLS, what is not known to be weak (RFC 8996 retires 1.0 and 1.1). */
static const char PROTOCOLS[] = "NORMAL:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2";

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
    if (!pare_serve_in_api(request))
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
        const char *why = pare_serve_refused(request, &code);
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
    unsigned short port = 0;
    const int listening = pare_listen_at(settings->address, settings->port, &port, err);
    if (listening < 0)
        return err->status;
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
