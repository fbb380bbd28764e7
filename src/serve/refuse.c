/* refuse.c: what stands against a request, before its body is read: the names in Host and Origin, the
 * cookie, the method, what the body is said to be and how long. */
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "serve/inside.h"
#include "serve/listen.h"

static const char *header(const pare_request *request, const char *name)
{
    return MHD_lookup_connection_value(request->connection, MHD_HEADER_KIND, name);
}

/* The address at which the request came in, as Host has it. */
static void local_address(const pare_request *request, char text[LISTEN_ADDRESS])
{
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(request->connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    text[0] = '\0';
    if (info)
        pare_listen_local(info->connect_fd, text);
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

bool pare_serve_in_api(const pare_request *request)
{
    return strncmp(request->path, "/api/", 5) == 0;
}

/* A browser says from where it asks: only the page itself may. */
static bool is_from_elsewhere(const pare_request *request, const char *local)
{
    const char *origin = header(request, MHD_HTTP_HEADER_ORIGIN);
    const char *site = header(request, "Sec-Fetch-Site");
    return (origin && !pare_gate_origin(&request->server->gate, origin, local)) ||
           (pare_serve_in_api(request) && site && !is_one_of(site, "same-origin", "none"));
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
const char *pare_serve_refused(const pare_request *request, unsigned *code)
{
    const bool writes = strcmp(request->method, "POST") == 0 && pare_serve_in_api(request);
    char local[LISTEN_ADDRESS];
    local_address(request, local);
    *code = MHD_HTTP_FORBIDDEN;
    if (!has_our_host(request, local))
        return "the name in Host is not this server's";
    if (is_from_elsewhere(request, local))
        return "asked by another site's page; only Pare's own may";
    *code = MHD_HTTP_METHOD_NOT_ALLOWED;
    if (!writes && !is_one_of(request->method, "GET", "HEAD"))
        return "this address is asked by GET";
    if (!pare_serve_in_api(request))
        return NULL;
    if (pare_serve_enters(request))
        return refused_entry(request, code);
    *code = MHD_HTTP_UNAUTHORIZED;
    if (!has_cookie(request))
        return "who are you?"; /* pare_serve_stranger() says more */
    return writes ? refused_write(request, code) : refused_read(request, code);
}
