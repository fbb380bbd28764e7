/* read.c: questions: which paths there are, and which command each one is.
 *
 * A table says what a query may hold and which option or operand that becomes; whatever it does not
 * name is refused, so a mistyped key is heard of. */
#include "serve/inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { KEYS = 12 };

typedef enum meaning {
    NEEDED, /* the one operand: a craft */
    WORDS,  /* operands, as often as wanted */
    VALUE,  /* an option's value, once */
    VALUES, /* again and again */
    FLAG,   /* an option without a value */
    FORM    /* a report's ending */
} meaning;

typedef struct question {
    const char *path, *command;
    const char *sub;   /* the operand before all others; NULL: none */
    const char *fixed; /* an option that it always has; NULL: none */
    bool report;       /* the answer is a file */
    bool stream;       /* the answer is a stream of events */
    bool name;         /* what stands behind the path and a slash is an operand */
    struct {
        const char *key;
        meaning meaning;
        const char *option; /* its name; NULL: the key's */
    } key[KEYS];
} question;

static const question QUESTIONS[] = {
    {.path = "/api/craft", .command = "craft"},
    {.path = "/api/craft", .command = "craft", .sub = "show", .name = true},
    {.path = "/api/sheet",
     .command = "sheet",
     .key = {{"craft", NEEDED}, {"try", VALUES}, {"loadout", VALUE}}},
    {.path = "/api/ruler",
     .command = "sheet",
     .fixed = "ruler",
     .key = {{"craft", NEEDED}, {"try", VALUES}, {"loadout", VALUE}}},
    {.path = "/api/outline",
     .command = "sheet",
     .fixed = "outline",
     .key = {{"craft", NEEDED}, {"try", VALUES}, {"loadout", VALUE}}},
    {.path = "/api/curves",
     .command = "sheet",
     .key = {{"craft", NEEDED}, {"of", VALUE, "curve"}, {"try", VALUES}, {"loadout", VALUE}}},
    {.path = "/api/swaps",
     .command = "swaps",
     .key = {{"craft", NEEDED}, {"loadout", VALUE}, {"wish", VALUE}, {"all", FLAG}}},
    {.path = "/api/compare",
     .command = "compare",
     .key = {{"craft", WORDS}, {"try", VALUES}, {"loadout", VALUE}, {"all", FLAG}}},
    {.path = "/api/parts",
     .command = "parts",
     .key = {{"word", WORDS},
             {"condition", WORDS},
             {"kind", VALUE},
             {"sort", VALUE},
             {"for", VALUE},
             {"lighter", FLAG},
             {"surprise", FLAG},
             {"loadout", VALUE}}},
    {.path = "/api/parts", .command = "parts", .sub = "show", .name = true},
    {.path = "/api/history", .command = "history", .key = {{"all", FLAG}}},
    {.path = "/api/taken", .command = "take", .key = {{"craft", NEEDED}}},
    {.path = "/api/weigh",
     .command = "weigh",
     .key = {{"craft", NEEDED}, {"loadout", VALUE}, {"all", FLAG}}},
    {.path = "/api/learn", .command = "learn", .key = {{"craft", NEEDED}}},
    {.path = "/api/scales", .command = "scale"},
    {.path = "/api/best",
     .command = "best",
     .stream = true,
     .key = {{"craft", NEEDED},
             {"loadout", VALUE},
             {"wish", VALUE},
             {"hold", VALUES},
             {"never", VALUES},
             {"must", VALUES},
             {"sold", VALUES},
             {"time", VALUE},
             {"all", FLAG},
             {"sure", VALUE},
             {"binds", FLAG}}},
    {.path = "/api/walk",
     .command = "best",
     .fixed = "walk",
     .stream = true,
     .key = {{"craft", NEEDED},
             {"loadout", VALUE},
             {"hold", VALUES},
             {"never", VALUES},
             {"must", VALUES},
             {"sold", VALUES},
             {"time", VALUE},
             {"budget", VALUE}}},
    {.path = "/api/front",
     .command = "best",
     .stream = true,
     .key = {{"craft", NEEDED},
             {"of", VALUE, "front"},
             {"loadout", VALUE},
             {"hold", VALUES},
             {"never", VALUES},
             {"must", VALUES},
             {"sold", VALUES},
             {"time", VALUE}}},
    {.path = "/api/report",
     .command = "report",
     .report = true,
     .key = {{"craft", NEEDED},
             {"as", FORM},
             {"try", VALUES},
             {"loadout", VALUE},
             {"paper", VALUE},
             {"best", FLAG},
             {"time", VALUE}}},
};
enum { COUNT = sizeof QUESTIONS / sizeof QUESTIONS[0] };

/* What is asked by a path, and the name that stands behind it. */
static const question *question_at(const char *path, const char **name)
{
    for (size_t i = 0; i < COUNT; i++) {
        const question *q = &QUESTIONS[i];
        const size_t length = strlen(q->path);
        if (strncmp(path, q->path, length) != 0)
            continue;
        *name = path[length] == '/' ? path + length + 1 : NULL;
        if (q->name ? *name && **name : path[length] == '\0')
            return q;
    }
    return NULL;
}

bool pare_serve_reads(const char *path)
{
    const char *name;
    return question_at(path, &name) != NULL;
}

/* ---- the query ---- */

typedef struct reading {
    const question *q;
    pare_words words;
    bool seen[KEYS];
    const char *form;
    pare_error err;
} reading;

static void refuse_key(reading *r, const char *key)
{
    pare_text known = {0};
    const char *keys[KEYS] = {NULL};
    size_t count = 0;
    while (count < KEYS && r->q->key[count].key) {
        keys[count] = r->q->key[count].key;
        pare_text_printf(&known, "%s%s", count ? ", " : "", keys[count]);
        count++;
    }
    const char *near = pare_nearest(key, count, keys);
    if (near)
        pare_fail(&r->err, PARE_BAD_DATA, "%s takes no '%s'; did you mean %s?", r->q->path, key,
                  near);
    else if (count)
        pare_fail(&r->err, PARE_BAD_DATA, "%s takes no '%s'; it takes %s", r->q->path, key,
                  pare_text_all(&known));
    else
        pare_fail(&r->err, PARE_BAD_DATA, "%s takes no '%s', and nothing else", r->q->path, key);
    pare_text_free(&known);
}

static void take_key(reading *r, size_t i, const char *value)
{
    const char *key = r->q->key[i].key;
    const char *option = r->q->key[i].option ? r->q->key[i].option : key;
    const meaning how = r->q->key[i].meaning;
    if (r->seen[i] && how != WORDS && how != VALUES) {
        pare_fail(&r->err, PARE_BAD_DATA, "'%s' stands twice", key);
        return;
    }
    r->seen[i] = true;
    if (how == FLAG) {
        if (*value && strcmp(value, "1") != 0)
            pare_fail(&r->err, PARE_BAD_DATA, "'%s' is said or not: right would be %s=1", key, key);
        pare_words_option(&r->words, option, NULL);
    } else if (how == FORM) {
        r->form = value;
    } else if (how == NEEDED || how == WORDS) {
        pare_words_operand(&r->words, value);
    } else {
        pare_words_option(&r->words, option, value);
    }
}

static enum MHD_Result take(void *context, enum MHD_ValueKind kind, const char *key,
                            size_t key_size, const char *value, size_t value_size)
{
    (void)kind;
    reading *r = context;
    if (r->err.status != PARE_OK)
        return MHD_NO;
    if (!key || strlen(key) != key_size || (value && strlen(value) != value_size)) {
        pare_fail(&r->err, PARE_BAD_DATA, "a NUL stands in the query");
        return MHD_NO;
    }
    for (size_t i = 0; i < KEYS && r->q->key[i].key; i++)
        if (strcmp(r->q->key[i].key, key) == 0) {
            take_key(r, i, value ? value : "");
            return MHD_YES;
        }
    refuse_key(r, key);
    return MHD_NO;
}

static void read_query(reading *r, pare_request *request)
{
    MHD_get_connection_values_n(request->connection, MHD_GET_ARGUMENT_KIND, take, r);
    for (size_t i = 0; i < KEYS && r->q->key[i].key && r->err.status == PARE_OK; i++)
        if (r->q->key[i].meaning == NEEDED && !r->seen[i])
            pare_fail(&r->err, PARE_BAD_DATA, "%s needs %s=NAME", r->q->path, r->q->key[i].key);
}

/* ---- the answer ---- */

static bool goes_on(void *context, const char *doing, size_t done, size_t all)
{
    (void)doing, (void)done, (void)all;
    const pare_server *server = context;
    return !atomic_load(&server->stopping);
}

pare_progress pare_serve_progress(pare_server *server)
{
    return (pare_progress){.step = goes_on, .context = server};
}

/* Worked out; what the command says is sent as it is. */
static enum MHD_Result work_out(pare_request *request, reading *r, const pare_text *key,
                                const pare_store_mark *mark, bool packed)
{
    pare_text out = {0};
    const pare_progress progress = pare_serve_progress(request->server);
    const pare_status status = pare_words_ask(&r->words, request->server, &progress, &out, &r->err);
    const size_t bytes = out.length; /* at most */
    struct MHD_Response *response =
        status == PARE_OK ? pare_reply_make(request, packed, &out) : NULL;
    pare_text_free(&out);
    if (status != PARE_OK)
        return pare_reply_failed(request, &r->err, false);
    if (!response)
        return MHD_NO;
    const enum MHD_Result result = MHD_queue_response(request->connection, MHD_HTTP_OK, response);
    request->answered = true;
    pare_kept_put(&request->server->kept, key->bytes, key->length, mark, response, bytes);
    return result;
}

/* From what is kept; else as soon as there is a seat: a hundred at once would each read a bench of their
 * own. Who waited may find that somebody has asked the same. */
static enum MHD_Result answer(pare_request *request, reading *r)
{
    pare_server *server = request->server;
    pare_store_mark mark;
    pare_text key = {0};
    enum MHD_Result result = MHD_YES;
    const bool packed = pare_takes_gzip(request);
    pare_text_add(&key, packed ? "packed " : "");
    pare_words_key(&r->words, &key);
    if (key.failed)
        return MHD_NO;
    request->answered =
        pare_kept_send(&server->kept, key.bytes, key.length, request->connection, &mark);
    if (!request->answered) {
        while (sem_wait(&server->seats) != 0)
            continue; /* a signal; they are held back, but the rule is to look */
        request->answered =
            pare_kept_send(&server->kept, key.bytes, key.length, request->connection, &mark);
        if (!request->answered)
            result = work_out(request, r, &key, &mark, packed);
        sem_post(&server->seats);
    }
    pare_text_free(&key);
    return result;
}

enum MHD_Result pare_serve_read(pare_request *request)
{
    const char *name = NULL;
    const question *q = question_at(request->path, &name);
    if (!q)
        return pare_reply_error(request, MHD_HTTP_NOT_FOUND, "no such question");
    reading *r = pare_arena_zeros(request->arena, sizeof *r);
    if (!r)
        return MHD_NO;
    r->q = q;
    r->words = (pare_words){.arena = request->arena, .command = q->command};
    if (q->sub)
        pare_words_operand(&r->words, q->sub);
    if (q->name)
        pare_words_operand(&r->words, name);
    if (q->fixed)
        pare_words_option(&r->words, q->fixed, NULL);
    read_query(r, request);
    if (r->err.status != PARE_OK)
        return pare_reply_failed(request, &r->err, false);
    if (q->report && !r->words.full)
        return pare_serve_report(request, &r->words, r->words.operand[0], r->form ? r->form : "");
    request->command = pare_words_typed(&r->words);
    if (q->stream && !r->words.full)
        return pare_serve_stream(request, &r->words);
    return r->words.full ? pare_reply_error(request, MHD_HTTP_BAD_REQUEST, "too much is asked")
                         : answer(request, r);
}
