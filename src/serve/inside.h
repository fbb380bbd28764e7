/* inside.h: what the files of the server share. Inside the room only. */
#ifndef PARE_SERVE_INSIDE_H
#define PARE_SERVE_INSIDE_H

#include <microhttpd.h>
#include <pthread.h>
#include <semaphore.h>
#include <stdatomic.h>
#include <time.h>

#include <jansson.h>

#include "base/arena.h"
#include "serve/certificate.h"
#include "serve/door.h"
#include "serve/gate.h"
#include "serve/kept.h"
#include "serve/serve.h"
#include "serve/watch.h"

enum {
    SERVE_CONNECTIONS = 200,      /* at once; one more is closed */
    SERVE_LONG_WORKS = 3,         /* searches at once */
    SERVE_IDLE_S = 15,            /* without a byte */
    SERVE_SEND_S = 20,            /* for all of a request, whatever comes */
    SERVE_HEADERS = 32 * 1024,    /* bytes of a request's head, and of what waits to be sent */
    SERVE_BODY = 8 * 1024 * 1024, /* bytes of a request's body */
    SERVE_ENTER_BODY = 4096,      /* of one by whom is not in yet */
    SERVE_FROM_ONE = 50,          /* connections from one address, where other machines ask */
    SERVE_WORTH_PACKING = 4096,   /* bytes of an answer */
    SERVE_STACK = 1024 * 1024     /* bytes of a thread's stack */
};

struct pare_server {
    pare_serve_settings settings;
    struct MHD_Daemon *daemon;
    pare_gate gate;
    pare_door door;
    char fingerprint[CERTIFICATE_FINGERPRINT]; /* empty: only this machine asks */
    pare_watch watch;
    pare_kept kept;
    sem_t seats; /* for working out an answer: as many as there are processors, and one */
    pare_text link;
    pthread_mutex_t write; /* one change at a time: a version is looked at and then holds */
    atomic_bool stopping;
    atomic_int long_works; /* that run now */
};

/** One request, from its first line to the end of its answer. */
typedef struct pare_request {
    pare_server *server;
    struct MHD_Connection *connection;
    const char *path, *method;
    pare_arena *arena;
    pare_text body;
    pare_watched *place; /* of its connection */
    const char *command; /* what a person would type for the same; NULL: nothing */
    bool answered;
} pare_request;

/** The words of a command, built up. */
enum { SERVE_WORDS = 128 };
typedef struct pare_words {
    pare_arena *arena;
    size_t options, operands;
    char *option[SERVE_WORDS], *operand[SERVE_WORDS];
    const char *command;
    bool full; /* too many, or no memory */
} pare_words;

/* ---- reply.c: answers with their headers; each is the request's only one ---- */

/** Bytes of an answer; takes `bytes` over. */
enum MHD_Result pare_reply_json(pare_request *request, unsigned code, pare_text *bytes);
/** The same, not sent yet; NULL without memory. Takes `bytes` over in both cases.
 * @param packed  compressed, for who takes that */
struct MHD_Response *pare_reply_make(const pare_request *request, bool packed, pare_text *bytes);
/** Whether the other side takes gzip. */
bool pare_takes_gzip(const pare_request *request);
/** An object on one line; released. NULL is no memory. */
enum MHD_Result pare_reply_object(pare_request *request, unsigned code, json_t *object);
/** {"error": text} */
enum MHD_Result pare_reply_error(pare_request *request, unsigned code, const char *text);
/** What a failed command gives: its words, and its status as HTTP has it.
 * @param writing  an answer that is not to be had is then a clash */
enum MHD_Result pare_reply_failed(pare_request *request, const pare_error *err, bool writing);
/** Puts on a response what all have: what a browser may do with it. */
void pare_reply_guard(struct MHD_Response *response);
/** Puts on the same, and the rest of what an answer to a command has: its type, that nobody keeps it, and what a
 * person would type for it. */
void pare_reply_head(const pare_request *request, const char *type, struct MHD_Response *response);
/** Sends a response, which is released: it is the answer. */
enum MHD_Result pare_reply_send(pare_request *request, unsigned code,
                                struct MHD_Response *response);

/* ---- words.c: a command as words ---- */

/** "--name=value", or "--name" where value is NULL. */
void pare_words_option(pare_words *words, const char *name, const char *value);
void pare_words_operand(pare_words *words, const char *word);
/** The command as it would be typed, without --bench and --json; in the arena, NULL without memory. */
char *pare_words_typed(const pare_words *words);
/** All of them in a row, each with its NUL: what an answer is kept under. */
void pare_words_key(const pare_words *words, pare_text *key);
/** Has the command answered. */
pare_status pare_words_ask(const pare_words *words, pare_server *server,
                           const pare_progress *progress, pare_text *out, pare_error *err);

/* ---- versions.c: how things stand ---- */

/** Of a craft, a part, or, where name is NULL, the bench. */
pare_status pare_serve_version(const pare_server *server, bool part, const char *name,
                               long long *version, pare_error *err);
/** /api/version, /api/session. */
enum MHD_Result pare_serve_state(pare_request *request);
bool pare_serve_is_state(const char *path);

/* ---- refuse.c: before a request is read any further ---- */

/** What stands against it, in words and as a code of HTTP; NULL: nothing. */
const char *pare_serve_refused(const pare_request *request, unsigned *code);
/** Whether its path is under /api/. */
bool pare_serve_in_api(const pare_request *request);

/* ---- enter.c: who is not in yet ---- */

/** What somebody without the cookie is told: how they come in. */
enum MHD_Result pare_serve_stranger(pare_request *request);

/** Whether a path is the one to come in by. */
bool pare_serve_enters(const pare_request *request);
/** Looks at the password in the request's body. */
enum MHD_Result pare_serve_enter(pare_request *request);
/** "COOKIE=SECRET; ..." as a browser is told to keep it; in the request's arena, NULL without memory. */
const char *pare_serve_cookie(const pare_request *request);

/* ---- read.c, write.c, page.c: what can be asked ---- */

/** A question under /api/. */
enum MHD_Result pare_serve_read(pare_request *request);
/** Whether a path is one that reads. */
bool pare_serve_reads(const char *path);
/** A change under /api/; its body is there. */
enum MHD_Result pare_serve_write(pare_request *request);
bool pare_serve_writes(const char *path);
/** A report, as a file; called by read.c.
 * @param craft  its name, and of the file
 * @param as     the file's ending */
enum MHD_Result pare_serve_report(pare_request *request, pare_words *words, const char *craft,
                                  const char *as);
/** The endings that it takes; NULL without memory. */
json_t *pare_serve_report_forms(void);
/** Long work, as a stream of events (see stream.c); called by read.c. */
enum MHD_Result pare_serve_stream(pare_request *request, const pare_words *words);
/** Goes on until the server stops. */
pare_progress pare_serve_progress(pare_server *server);
/** A file of the page, or what stands in its place. */
enum MHD_Result pare_serve_page(pare_request *request);

#endif
