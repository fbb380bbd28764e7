/* http.h: the built program's server as a child, and a client that can misbehave: plain sockets, so
 * that every byte is the test's own. */
#ifndef PARE_TESTS_HTTP_H
#define PARE_TESTS_HTTP_H

#include "run.h"

#include <stdbool.h>
#include <sys/types.h>

typedef struct served {
    pid_t child;
    unsigned short port;
    bool page; /* the build has one */
    char token[64], cookie[128];
} served;

/** Starts `pare serve` at a free port on the demo's bench of the working folder, and reads its link.
 * Its cookie is empty until serve_enter(). */
served serve_start(void);
/** The same on another bench's file. */
served serve_start_on(const char *bench);
/** The same, with further words on its command line. @return what it said, for json_decref() */
json_t *serve_launch(served *s, const char *bench, const char *const more[]);
/** Goes in by the link, and keeps the cookie. */
void serve_enter(served *s);
/** In a fresh home with the demo's bench, and in by the link; and its end. For cmocka's group setup and
 * teardown. */
int serve_at_home(void **state, served *s);
int serve_leave_home(void **state, served *s);
/** Ends it by a signal and wants that it ends well; SIGKILL: that it is gone. */
void serve_stop(served *s, int signal_number);

/** The same for one that a signal has been sent to. */
void serve_reap(served *s, int signal_number);

typedef struct reply {
    int code;          /* 0: no answer, the connection was closed */
    char *head, *body; /* body NUL-terminated as well */
    size_t length;     /* of body */
} reply;
void reply_free(reply *r);
/** An answer from its bytes, NUL-terminated and from malloc(), which it takes over. */
reply reply_of(char *bytes, size_t length);

/** A connection to it; ends the test where there is none. */
int serve_connect(const served *s);
/** All of it is sent, or as much as the other side takes. @return false: it took not all */
bool serve_send(int socket, const void *bytes, size_t length);
/** Reads until the other side closes, half a minute at most; closes. */
reply serve_read(int socket);

/** One request on a connection of its own.
 * @param headers  whole lines, each with its end; NULL: only Host, and Cookie once it went in
 * @param body     NULL: none */
reply serve_ask(const served *s, const char *method, const char *target, const char *headers,
                const char *body);
/** The same, for a server that may be gone: code 0 where nobody listens. */
reply serve_try(const served *s, const char *method, const char *target, const char *headers,
                const char *body);
/** GET. */
reply serve_get(const served *s, const char *target);
/** POST of a body of JSON as the page itself sends it; code 0 where nobody listens. */
reply serve_post(const served *s, const char *target, const char *body);
/** A header's value in the test's own memory until the next call; NULL: not there. */
const char *reply_header(const reply *r, const char *name);
/** Wants this code and one line of JSON with an error that holds these words; releases the answer. */
void assert_refused(reply r, int code, const char *words);

#endif
