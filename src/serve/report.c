/* report.c: a craft's report as a file to keep: `pare report`, which writes one. */
#include "serve/inside.h"
#include "store/drawer.h"

#include <string.h>

static const struct {
    const char *ending, *type;
} FORMS[] = {
    {"html", "text/html; charset=utf-8"},
    {"pdf", "application/pdf"},
    {"svg", "image/svg+xml"},
    {"png", "image/png"},
    {"xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"},
};
enum { COUNT = sizeof FORMS / sizeof FORMS[0] };

json_t *pare_serve_report_forms(void)
{
    json_t *list = json_array();
    for (size_t i = 0; i < COUNT; i++)
        json_array_append_new(list, json_string(FORMS[i].ending));
    return list;
}

/* "html, pdf or svg". */
static const char *forms_in_words(pare_arena *arena)
{
    const char *words = FORMS[0].ending;
    for (size_t i = 1; words && i < COUNT; i++)
        words = pare_arena_printf(arena, "%s%s%s", words, i + 1 < COUNT ? ", " : " or ",
                                  FORMS[i].ending);
    return words;
}

static enum MHD_Result send_file(pare_request *request, size_t form, const char *name,
                                 pare_text *bytes)
{
    const char *said = pare_arena_printf(request->arena, "attachment; filename=\"%s\"", name);
    struct MHD_Response *response =
        said ? MHD_create_response_from_buffer(bytes->length, bytes->bytes, MHD_RESPMEM_MUST_FREE)
             : NULL;
    if (!response)
        return MHD_NO;
    *bytes = (pare_text){0};
    pare_reply_head(request, FORMS[form].type, response);
    MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_DISPOSITION, said);
    return pare_reply_send(request, MHD_HTTP_OK, response);
}

/* The words of the command without where the file goes, which is said anew for each. */
static pare_status write_it(pare_words words, pare_request *request, const pare_drawer *drawer,
                            pare_error *err)
{
    pare_text said = {0};
    pare_words_option(&words, "output", drawer->path);
    const pare_progress progress = pare_serve_progress(request->server);
    /* One with its best set takes as long as a search. */
    while (sem_wait(&request->server->seats) != 0)
        continue;
    const pare_status status = pare_words_ask(&words, request->server, &progress, &said, err);
    sem_post(&request->server->seats);
    pare_text_free(&said);
    return status;
}

enum MHD_Result pare_serve_report(pare_request *request, pare_words *words, const char *craft,
                                  const char *as)
{
    pare_error err = {0};
    pare_drawer drawer = {0};
    pare_text bytes = {0};
    size_t form = 0;
    while (form < COUNT && strcmp(FORMS[form].ending, as) != 0)
        form++;
    if (form == COUNT) {
        const char *endings = forms_in_words(request->arena);
        pare_fail(&err, PARE_BAD_DATA, "/api/report is had as=%s", endings ? endings : "html");
        return pare_reply_failed(request, &err, false);
    }
    const char *label = pare_arena_printf(request->arena, "%s.%s", craft, as);
    pare_status status = label ? pare_drawer_open(&drawer, label, &err) : pare_no_memory(&err);
    if (status == PARE_OK) {
        pare_words typed = *words;
        pare_words_option(&typed, "output", drawer.name);
        request->command = pare_words_typed(&typed);
        status = write_it(*words, request, &drawer, &err);
    }
    if (status == PARE_OK)
        status = pare_drawer_take(&drawer, &bytes, &err);
    pare_drawer_hide(&drawer, err.text);
    const enum MHD_Result result = status == PARE_OK ? send_file(request, form, drawer.name, &bytes)
                                                     : pare_reply_failed(request, &err, false);
    pare_text_free(&bytes);
    pare_drawer_close(&drawer);
    return result;
}
