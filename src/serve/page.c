/* page.c: the page's files, as they were compressed when Pare was built.
 *
 * A path is looked up in the table of those files, and nothing else: the file system is not asked. Who
 * takes no gzip gets the file unpacked. */
#include <stdlib.h>
#include <string.h>

#define ZLIB_CONST /* its input is only read */
#include <zlib.h>

#include "serve/files.h"
#include "serve/inside.h"

static const char NO_PAGE[] = "This build of Pare has no page in it: it was built without Node.\n"
                              "`./dev page` in Pare's sources builds the page, and Pare with it.\n"
                              "The answers under /api/ are there all the same.\n";

bool pare_server_has_page(void)
{
    return pare_page_file_count > 0;
}

static const char *header(const pare_request *request, const char *name)
{
    return MHD_lookup_connection_value(request->connection, MHD_HEADER_KIND, name);
}

/* Bytes that are part of the program, or none. */
static struct MHD_Response *constant(const void *bytes, size_t length)
{
    const struct MHD_IoVec all = {.iov_base = bytes, .iov_len = length};
    char none = 0;
    return length ? MHD_create_response_from_iovec(&all, 1, NULL, NULL)
                  : MHD_create_response_from_buffer(0, &none, MHD_RESPMEM_MUST_COPY);
}

static enum MHD_Result no_page(pare_request *request)
{
    struct MHD_Response *response = constant(NO_PAGE, sizeof NO_PAGE - 1);
    if (!response)
        return MHD_NO;
    pare_reply_head(request, "text/plain; charset=utf-8", response);
    return pare_reply_send(request, MHD_HTTP_OK, response);
}

/* All of a file, unpacked; NULL without memory. For free(). */
static unsigned char *unpacked(const pare_page_file *file)
{
    unsigned char *bytes = malloc(file->size + 1);
    z_stream stream = {0};
    if (!bytes || inflateInit2(&stream, 15 + 16) != Z_OK) {
        free(bytes);
        return NULL;
    }
    stream.next_in = file->gzip;
    stream.avail_in = (uInt)file->length;
    stream.next_out = bytes;
    stream.avail_out = (uInt)file->size + 1;
    const int ended = inflate(&stream, Z_FINISH);
    inflateEnd(&stream);
    if (ended == Z_STREAM_END && stream.total_out == file->size)
        return bytes;
    free(bytes);
    return NULL;
}

static enum MHD_Result send_file(pare_request *request, const pare_page_file *file)
{
    const char *have = header(request, MHD_HTTP_HEADER_IF_NONE_MATCH);
    /* RFC 9110, section 13.1.2: "*" stands for whatever there is. */
    const bool same = have && (strcmp(have, "*") == 0 || strstr(have, file->tag));
    const bool gzip = pare_takes_gzip(request);
    struct MHD_Response *response = NULL;
    unsigned char *bytes = gzip || same ? NULL : unpacked(file);
    if (same)
        response = constant(NULL, 0);
    else if (gzip)
        response = constant(file->gzip, file->length);
    else if (bytes)
        response = MHD_create_response_from_buffer(file->size, bytes, MHD_RESPMEM_MUST_FREE);
    if (!response) {
        free(bytes);
        return MHD_NO;
    }
    pare_reply_guard(response);
    MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, file->type);
    MHD_add_response_header(response, MHD_HTTP_HEADER_ETAG, file->tag);
    MHD_add_response_header(response, MHD_HTTP_HEADER_VARY, MHD_HTTP_HEADER_ACCEPT_ENCODING);
    MHD_add_response_header(response, MHD_HTTP_HEADER_CACHE_CONTROL,
                            file->lasting ? "max-age=31536000, immutable" : "no-cache");
    if (gzip && !same)
        MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_ENCODING, "gzip");
    return pare_reply_send(request, same ? MHD_HTTP_NOT_MODIFIED : MHD_HTTP_OK, response);
}

/* ?token=: in by the link. The page is then loaded again, without the token in its address. */
static enum MHD_Result let_in(pare_request *request, const char *token)
{
    static const char *const words[] = {
        [GATE_WRONG] = "this link lets nobody in; pare serve prints the one that does",
        [GATE_USED] = "this link was used already, and lets in once; start pare serve again for "
                      "another",
    };
    pare_gate *gate = &request->server->gate;
    if (request->server->door.shut)
        return pare_reply_error(request, MHD_HTTP_FORBIDDEN,
                                "no link lets in from other machines; the password does");
    const char *cookie =
        MHD_lookup_connection_value(request->connection, MHD_COOKIE_KIND, gate->cookie);
    const pare_gate_token found =
        pare_gate_knows(gate, cookie) ? GATE_GOOD : pare_gate_use(gate, token);
    if (found != GATE_GOOD)
        return pare_reply_error(request, MHD_HTTP_FORBIDDEN, words[found]);
    const char *value = pare_serve_cookie(request);
    struct MHD_Response *response = constant(NULL, 0);
    if (!value || !response)
        return MHD_NO;
    pare_reply_guard(response);
    MHD_add_response_header(response, MHD_HTTP_HEADER_SET_COOKIE, value);
    MHD_add_response_header(response, MHD_HTTP_HEADER_LOCATION, "/");
    MHD_add_response_header(response, MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
    return pare_reply_send(request, MHD_HTTP_SEE_OTHER, response);
}

enum MHD_Result pare_serve_page(pare_request *request)
{
    const bool first = strcmp(request->path, "/") == 0;
    const char *token =
        MHD_lookup_connection_value(request->connection, MHD_GET_ARGUMENT_KIND, "token");
    if (first && token)
        return let_in(request, token);
    for (size_t i = 0; i < pare_page_file_count; i++)
        if (strcmp(pare_page_files[i].path, request->path) == 0)
            return send_file(request, &pare_page_files[i]);
    if (first)
        return no_page(request);
    return pare_reply_error(request, MHD_HTTP_NOT_FOUND, "there is nothing at this address");
}
