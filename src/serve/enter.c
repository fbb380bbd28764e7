/* enter.c: who is not in yet. On this machine the link lets in; where others may ask too, a password does
 * (see door.h):
 *
 *     POST /api/enter     {"password":"..."}, of 4 KiB at most
 *
 * gives the cookie that the link gives. */
#include <stdio.h>
#include <string.h>

#include <gnutls/gnutls.h>

#include "serve/inside.h"

static const char PATH[] = "/api/enter";

bool pare_serve_enters(const pare_request *request)
{
    return request->server->door.shut && strcmp(request->path, PATH) == 0;
}

enum MHD_Result pare_serve_stranger(pare_request *request)
{
    json_t *object =
        request->server->door.shut
            ? json_pack("{s:s, s:s}", "error", "say the password first", "enter", PATH)
            : json_pack("{s:s}", "error", "open the link that pare serve printed first");
    return pare_reply_object(request, MHD_HTTP_UNAUTHORIZED, object);
}

const char *pare_serve_cookie(const pare_request *request)
{
    const pare_gate *gate = &request->server->gate;
    return pare_arena_printf(request->arena, "%s=%s; Path=/; HttpOnly; SameSite=Strict%s",
                             gate->cookie, gate->session, gate->secure ? "; Secure" : "");
}

static enum MHD_Result let_in(pare_request *request)
{
    pare_text bytes = {0};
    pare_text_add(&bytes, "{\"in\":true}\n");
    const char *cookie = pare_serve_cookie(request);
    struct MHD_Response *response = pare_reply_make(request, false, &bytes);
    if (!response)
        return MHD_NO;
    if (!cookie ||
        MHD_add_response_header(response, MHD_HTTP_HEADER_SET_COOKIE, cookie) == MHD_NO) {
        MHD_destroy_response(response);
        return MHD_NO;
    }
    return pare_reply_send(request, MHD_HTTP_OK, response);
}

static enum MHD_Result wait_first(pare_request *request, unsigned wait_s)
{
    pare_text bytes = {0};
    char seconds[16];
    snprintf(seconds, sizeof seconds, "%u", wait_s);
    pare_text_printf(
        &bytes,
        "{\"error\":\"too many wrong passwords from there; the next try is looked at in "
        "%s s\"}\n",
        seconds);
    struct MHD_Response *response = pare_reply_make(request, false, &bytes);
    if (!response)
        return MHD_NO;
    MHD_add_response_header(response, MHD_HTTP_HEADER_RETRY_AFTER, seconds);
    return pare_reply_send(request, MHD_HTTP_TOO_MANY_REQUESTS, response);
}

static enum MHD_Result keep_out(pare_request *request, unsigned wait_s)
{
    static const char wrong[] = "this is not the password";
    const char *words =
        wait_s > 0 ? pare_arena_printf(request->arena, "%s; the next try is looked at in %u s",
                                       wrong, wait_s)
                   : wrong;
    return pare_reply_error(request, MHD_HTTP_FORBIDDEN, words ? words : wrong);
}

/* What was typed is not left lying in memory. */
static void wipe(pare_request *request, const char *password)
{
    if (request->body.bytes)
        gnutls_memset(request->body.bytes, 0, request->body.length);
    if (password)
        gnutls_memset((char *)(uintptr_t)password, 0, strlen(password));
}

enum MHD_Result pare_serve_enter(pare_request *request)
{
    json_t *body = json_loadb(pare_text_all(&request->body), request->body.length,
                              JSON_REJECT_DUPLICATES, NULL);
    const char *password = json_string_value(json_object_get(body, "password"));
    const union MHD_ConnectionInfo *from =
        MHD_get_connection_info(request->connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    enum MHD_Result result = MHD_NO;
    unsigned wait_s = 0;
    if (!password || json_object_size(body) != 1) {
        result = pare_reply_error(request, MHD_HTTP_BAD_REQUEST,
                                  "/api/enter needs {\"password\":\"...\"} and nothing else");
    } else if (from) {
        const pare_door_answer answer =
            pare_door_try(&request->server->door, from->client_addr, password, &wait_s);
        result = answer == DOOR_RIGHT  ? let_in(request)
                 : answer == DOOR_WAIT ? wait_first(request, wait_s)
                                       : keep_out(request, wait_s);
    }
    wipe(request, password);
    json_decref(body);
    return result;
}
