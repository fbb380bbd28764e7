/* stream.c: long work as a stream of events (server-sent events, WHATWG HTML, section 9.2).
 *
 *     event: progress     {"doing":"groups","done":1200,"all":0}   what is counted; all 0: not known; of a
 *                         search also "best_g" and "bound_g": the least that was found, and what nothing
 *                         that is left can be below; null: not known yet
 *     event: answer       the bytes of the command's answer, and the end
 *     event: failed       {"error":"..."}, and the end
 *
 * The work runs in a thread of its own, and tells the connection's thread how far it is. That one looks
 * ten times a second, and says something at least twice: so that it hears when the other side has gone,
 * which is how the work is stopped. */
#include "serve/inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "show/json.h"

enum { LOOK_MS = 100, QUIET_LOOKS = 5, DOING = 64, BLOCK = 4096 };

typedef struct job {
    pare_server *server;
    pare_arena *arena;
    pare_words words;
    pthread_t thread;
    atomic_bool stop;
    pthread_mutex_t lock; /* of what follows */
    pthread_cond_t over;
    char doing[DOING];
    size_t done, all;
    bool closes; /* the work is a search, and says: */
    double best_g, bound_g;
    bool fresh; /* not said yet */
    bool finished;
    pare_status status;
    pare_text out;
    pare_error err;
    /* The connection's own: */
    pare_text pending; /* events on their way */
    size_t sent;       /* of it */
    bool ended;        /* the last event is among them */
    int quiet;         /* looks without anything to say */
} job;

/* ---- the work ---- */

static bool step(void *context, const char *doing, size_t done, size_t all)
{
    job *j = context;
    if (doing && *doing) {
        pthread_mutex_lock(&j->lock);
        snprintf(j->doing, sizeof j->doing, "%s", doing);
        j->done = done;
        j->all = all;
        j->fresh = true;
        pthread_mutex_unlock(&j->lock);
    }
    return !atomic_load(&j->stop) && !atomic_load(&j->server->stopping);
}

static void closing(void *context, double best, double bound)
{
    job *j = context;
    pthread_mutex_lock(&j->lock);
    j->closes = true;
    j->best_g = best;
    j->bound_g = bound;
    pthread_mutex_unlock(&j->lock);
}

static void *work(void *context)
{
    job *j = context;
    const pare_progress progress = {.step = step, .context = j, .closing = closing};
    const pare_status status = pare_words_ask(&j->words, j->server, &progress, &j->out, &j->err);
    pthread_mutex_lock(&j->lock);
    j->status = status;
    j->finished = true;
    pthread_cond_signal(&j->over);
    pthread_mutex_unlock(&j->lock);
    return NULL;
}

/* ---- the events ---- */

/* An event; each line of what it says behind "data:". */
static void put_event(job *j, const char *name, const char *data, size_t length)
{
    pare_text_printf(&j->pending, "event: %s\n", name);
    while (length > 0) {
        const char *end = memchr(data, '\n', length);
        const size_t line = end ? (size_t)(end - data) : length;
        pare_text_add(&j->pending, "data: ");
        pare_text_put(&j->pending, data, line);
        pare_text_add(&j->pending, "\n");
        data += line + (end != NULL);
        length -= line + (end != NULL);
    }
    pare_text_add(&j->pending, "\n");
}

static void put_object(job *j, const char *name, json_t *object)
{
    char *line = object ? json_dumps(object, JSON_COMPACT) : NULL;
    json_decref(object);
    j->pending.failed |= !line;
    if (line)
        put_event(j, name, line, strlen(line));
    free(line);
}

static void put_end(job *j)
{
    const bool answered = j->status == PARE_OK || (j->status == PARE_NO && j->out.length > 0);
    if (answered)
        put_event(j, "answer", j->out.bytes, j->out.length);
    else
        put_object(j, "failed", json_pack("{s:s}", "error", j->err.text));
    j->ended = true;
}

static json_t *progress_object(const job *j)
{
    json_t *object = json_pack("{s:s, s:I, s:I}", "doing", j->doing, "done", (json_int_t)j->done,
                               "all", (json_int_t)j->all);
    if (object && j->closes) {
        json_object_set_new(object, "best_g", pare_json_number(j->best_g));
        json_object_set_new(object, "bound_g", pare_json_number(j->bound_g));
    }
    return object;
}

/* Waits a moment, and puts down what there is to say. */
static void look(job *j)
{
    struct timespec until;
    clock_gettime(CLOCK_REALTIME, &until);
    until.tv_nsec += LOOK_MS * 1000000L;
    until.tv_sec += until.tv_nsec / 1000000000L;
    until.tv_nsec %= 1000000000L;
    pthread_mutex_lock(&j->lock);
    int waited = 0;
    while (!j->finished && waited == 0)
        waited = pthread_cond_timedwait(&j->over, &j->lock, &until);
    const bool fresh = j->fresh;
    j->quiet = fresh ? 0 : j->quiet + 1;
    if (fresh)
        put_object(j, "progress", progress_object(j));
    j->fresh = false;
    if (j->finished)
        put_end(j);
    pthread_mutex_unlock(&j->lock);
    if (!j->ended && j->quiet == QUIET_LOOKS) {
        pare_text_add(&j->pending, ": still at it\n\n");
        j->quiet = 0;
    }
}

static ssize_t give(void *context, uint64_t position, char *bytes, size_t most)
{
    (void)position;
    job *j = context;
    while (j->sent == j->pending.length && !j->ended) {
        pare_text_free(&j->pending);
        j->sent = 0;
        look(j);
        if (j->pending.failed)
            return MHD_CONTENT_READER_END_WITH_ERROR;
    }
    const size_t left = j->pending.length - j->sent, now = left < most ? left : most;
    if (now == 0)
        return MHD_CONTENT_READER_END_OF_STREAM;
    memcpy(bytes, j->pending.bytes + j->sent, now);
    j->sent += now;
    return (ssize_t)now;
}

/* ---- beginning and end ---- */

static void job_free(job *j)
{
    pare_text_free(&j->out);
    pare_text_free(&j->pending);
    pare_arena_close(j->arena);
    pthread_cond_destroy(&j->over);
    pthread_mutex_destroy(&j->lock);
    atomic_fetch_sub(&j->server->long_works, 1);
    free(j);
}

/* The stream is at its end, or the other side has gone. */
static void leave(void *context)
{
    job *j = context;
    atomic_store(&j->stop, true);
    pthread_join(j->thread, NULL);
    job_free(j);
}

/* The request's words, in the job's own memory: which of the two ends first is not said. */
static bool copy_words(job *j, const pare_words *words)
{
    j->words = *words;
    j->words.arena = j->arena;
    bool all = true;
    for (size_t i = 0; all && i < words->options; i++)
        all = (j->words.option[i] = pare_arena_text(j->arena, words->option[i])) != NULL;
    for (size_t i = 0; all && i < words->operands; i++)
        all = (j->words.operand[i] = pare_arena_text(j->arena, words->operand[i])) != NULL;
    return all;
}

static job *job_begin(pare_request *request, const pare_words *words)
{
    job *j = calloc(1, sizeof *j);
    if (!j)
        return NULL;
    j->server = request->server;
    j->arena = pare_arena_open();
    atomic_init(&j->stop, false);
    pthread_mutex_init(&j->lock, NULL);
    pthread_cond_init(&j->over, NULL);
    atomic_fetch_add(&j->server->long_works, 1);
    if (j->arena && copy_words(j, words) && pthread_create(&j->thread, NULL, work, j) == 0)
        return j;
    job_free(j);
    return NULL;
}

enum MHD_Result pare_serve_stream(pare_request *request, const pare_words *words)
{
    if (atomic_load(&request->server->long_works) >= SERVE_LONG_WORKS)
        return pare_reply_error(request, MHD_HTTP_SERVICE_UNAVAILABLE,
                                "as many searches are running as there may be; stop one first");
    job *j = job_begin(request, words);
    if (!j)
        return pare_reply_error(request, MHD_HTTP_SERVICE_UNAVAILABLE, "out of memory");
    struct MHD_Response *response =
        MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, BLOCK, give, j, leave);
    if (!response) {
        leave(j);
        return MHD_NO;
    }
    pare_reply_head(request, "text/event-stream", response);
    return pare_reply_send(request, MHD_HTTP_OK, response);
}
