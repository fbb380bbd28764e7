/* versions.c: how things stand on the bench, as numbers: what a page asks before it changes something,
 * and when it comes back to the front. */
#include "serve/inside.h"

#include <string.h>

#include "store/version.h"

pare_status pare_serve_version(const pare_server *server, bool part, const char *name,
                               long long *version, pare_error *err)
{
    pare_store *store = NULL;
    pare_status status = pare_store_open(server->settings.bench, PARE_STORE_READ, &store, err);
    if (status == PARE_OK && name)
        status = pare_store_version(store, part ? PARE_A_PART : PARE_A_CRAFT, name, version, err);
    else if (status == PARE_OK)
        status = pare_store_bench_version(store, version, err);
    pare_store_close(store);
    return status;
}

/* {"version":N}, of the craft or the part that the query names. */
static enum MHD_Result of_thing(pare_request *request)
{
    pare_error err = {0};
    long long version = 0;
    pare_text out = {0};
    const char *craft =
        MHD_lookup_connection_value(request->connection, MHD_GET_ARGUMENT_KIND, "craft");
    const char *part =
        MHD_lookup_connection_value(request->connection, MHD_GET_ARGUMENT_KIND, "part");
    if (!craft == !part)
        return pare_reply_error(request, MHD_HTTP_BAD_REQUEST,
                                "/api/version needs craft=NAME or part=ID");
    if (pare_serve_version(request->server, part != NULL, part ? part : craft, &version, &err) !=
        PARE_OK)
        return pare_reply_failed(request, &err, false);
    pare_text_printf(&out, "{\"version\":%lld}\n", version);
    return pare_reply_json(request, MHD_HTTP_OK, &out);
}

/* The name of a bench's file without its folders, or of its database without the server, which are nobody's
 * business. */
static pare_status short_name(const char *bench, pare_text *name, pare_error *err)
{
    const pare_status status = pare_store_shown(bench, name, err);
    if (status != PARE_OK)
        return status;
    char *end = pare_store_on_server(bench) ? strchr(name->bytes, '?') : NULL;
    if (end)
        *end = '\0';
    const char *slash = strrchr(name->bytes, '/');
    if (slash)
        memmove(name->bytes, slash + 1, strlen(slash));
    return PARE_OK;
}

/* {"bench":"NAME","version":N,...}, and what reports there are. */
static enum MHD_Result of_bench(pare_request *request)
{
    pare_error err = {0};
    long long version = 0;
    pare_text name = {0};
    if (pare_serve_version(request->server, false, NULL, &version, &err) != PARE_OK ||
        short_name(request->server->settings.bench, &name, &err) != PARE_OK) {
        pare_text_free(&name);
        return pare_reply_failed(request, &err, false);
    }
    json_t *object =
        json_pack("{s:s, s:I, s:b, s:o}", "bench", name.bytes, "version", (json_int_t)version,
                  "write", 1, "reports", pare_serve_report_forms());
    pare_text_free(&name);
    return pare_reply_object(request, MHD_HTTP_OK, object);
}

enum MHD_Result pare_serve_state(pare_request *request)
{
    return strcmp(request->path, "/api/session") == 0 ? of_bench(request) : of_thing(request);
}

bool pare_serve_is_state(const char *path)
{
    return strcmp(path, "/api/session") == 0 || strcmp(path, "/api/version") == 0;
}
