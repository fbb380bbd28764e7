/* reply.c: answers with their headers. */
#include "serve/inside.h"

#include <stdlib.h>

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

struct MHD_Response *pare_reply_make(const pare_request *request, pare_text *bytes)
{
    char none = 0;
    struct MHD_Response *response =
        bytes->bytes
            ? MHD_create_response_from_buffer(bytes->length, bytes->bytes, MHD_RESPMEM_MUST_FREE)
            : MHD_create_response_from_buffer(0, &none, MHD_RESPMEM_MUST_COPY);
    if (!response) {
        pare_text_free(bytes);
        return NULL;
    }
    *bytes = (pare_text){0};
    pare_reply_guard(response);
    MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, "application/json");
    MHD_add_response_header(response, MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
    if (request->command)
        MHD_add_response_header(response, "Pare-Command", request->command);
    return response;
}

enum MHD_Result pare_reply_json(pare_request *request, unsigned code, pare_text *bytes)
{
    struct MHD_Response *response = pare_reply_make(request, bytes);
    if (!response)
        return MHD_NO;
    const enum MHD_Result queued = MHD_queue_response(request->connection, code, response);
    MHD_destroy_response(response);
    request->answered = true;
    return queued;
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
