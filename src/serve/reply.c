/* reply.c: answers with their headers. */
#include "serve/inside.h"

#include <stdlib.h>
#include <string.h>

#define ZLIB_CONST /* its input is only read */
#include <zlib.h>

/* Nothing from elsewhere, nothing inline, in no frame, sent nowhere else. Images may stand in the style
 * sheet itself. */
#define POLICY                                                                                     \
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "              \
    "font-src 'self'; connect-src 'self'; manifest-src 'self'; form-action 'none'; "               \
    "base-uri 'none'; frame-ancestors 'none'"

void pare_reply_guard(struct MHD_Response *response)
{
    static const char *const headers[][2] = {
        {"Content-Security-Policy", POLICY},
        {"X-Content-Type-Options", "nosniff"},
        {"X-Frame-Options", "DENY"},
        {"Referrer-Policy", "no-referrer"},
        {"Cross-Origin-Resource-Policy", "same-origin"},
        {"Cross-Origin-Opener-Policy", "same-origin"},
    };
    for (size_t i = 0; i < sizeof headers / sizeof headers[0]; i++)
        MHD_add_response_header(response, headers[i][0], headers[i][1]);
}

bool pare_takes_gzip(const pare_request *request)
{
    const char *takes = MHD_lookup_connection_value(request->connection, MHD_HEADER_KIND,
                                                    MHD_HTTP_HEADER_ACCEPT_ENCODING);
    return takes && strstr(takes, "gzip") && !strstr(takes, "gzip;q=0");
}

/* A sheet of 180 kB becomes 48 the quickest way, which costs a fraction of working it out, and a
 * hundred pages get theirs in half the time. */
static bool pack(pare_text *bytes)
{
    z_stream stream = {0};
    if (deflateInit2(&stream, Z_BEST_SPEED, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY) != Z_OK)
        return false;
    const size_t room = deflateBound(&stream, bytes->length);
    unsigned char *packed = malloc(room);
    stream.next_in = (const unsigned char *)bytes->bytes;
    stream.avail_in = (uInt)bytes->length;
    stream.next_out = packed;
    stream.avail_out = (uInt)room;
    const bool whole = packed && deflate(&stream, Z_FINISH) == Z_STREAM_END;
    const size_t length = stream.total_out;
    deflateEnd(&stream);
    if (!whole) {
        free(packed);
        return false;
    }
    pare_text_free(bytes);
    *bytes = (pare_text){.bytes = (char *)packed, .length = length, .size = room};
    return true;
}

void pare_reply_head(const pare_request *request, const char *type, struct MHD_Response *response)
{
    pare_reply_guard(response);
    MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, type);
    MHD_add_response_header(response, MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
    if (request->command)
        MHD_add_response_header(response, "Pare-Command", request->command);
}

struct MHD_Response *pare_reply_make(const pare_request *request, bool packed, pare_text *bytes)
{
    char none = 0;
    packed = packed && bytes->length > SERVE_WORTH_PACKING && pack(bytes);
    struct MHD_Response *response =
        bytes->bytes
            ? MHD_create_response_from_buffer(bytes->length, bytes->bytes, MHD_RESPMEM_MUST_FREE)
            : MHD_create_response_from_buffer(0, &none, MHD_RESPMEM_MUST_COPY);
    if (!response) {
        pare_text_free(bytes);
        return NULL;
    }
    *bytes = (pare_text){0};
    pare_reply_head(request, "application/json", response);
    MHD_add_response_header(response, MHD_HTTP_HEADER_VARY, MHD_HTTP_HEADER_ACCEPT_ENCODING);
    if (packed)
        MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_ENCODING, "gzip");
    return response;
}

enum MHD_Result pare_reply_send(pare_request *request, unsigned code, struct MHD_Response *response)
{
    const enum MHD_Result queued = MHD_queue_response(request->connection, code, response);
    MHD_destroy_response(response);
    request->answered = true;
    return queued;
}

enum MHD_Result pare_reply_json(pare_request *request, unsigned code, pare_text *bytes)
{
    struct MHD_Response *response = pare_reply_make(request, false, bytes);
    return response ? pare_reply_send(request, code, response) : MHD_NO;
}

enum MHD_Result pare_reply_object(pare_request *request, unsigned code, json_t *object)
{
    pare_text out = {0};
    char *line = object ? json_dumps(object, JSON_COMPACT) : NULL;
    json_decref(object);
    if (line)
        pare_text_printf(&out, "%s\n", line);
    free(line);
    return pare_reply_json(request, code, &out);
}

enum MHD_Result pare_reply_error(pare_request *request, unsigned code, const char *text)
{
    /* What came in from outside may be no UTF-8, and is then not said again. */
    json_t *object = json_pack("{s:s}", "error", text);
    if (!object)
        object = json_pack("{s:s}", "error", "what was asked is not UTF-8");
    return pare_reply_object(request, code, object);
}

enum MHD_Result pare_reply_failed(pare_request *request, const pare_error *err, bool writing)
{
    unsigned code = MHD_HTTP_SERVICE_UNAVAILABLE;
    if (err->status == PARE_UNKNOWN)
        code = MHD_HTTP_NOT_FOUND;
    else if (err->status == PARE_BAD_DATA || err->status == PARE_NO)
        code = MHD_HTTP_BAD_REQUEST;
    else if (err->status == PARE_UNAVAILABLE && writing)
        code = MHD_HTTP_CONFLICT;
    return pare_reply_error(request, code, err->text);
}
