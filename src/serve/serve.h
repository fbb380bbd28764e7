/* serve.h: one bench over HTTP, for the page and for whoever likes JSON.
 *
 * The server computes nothing. A request becomes the words that a person would have typed behind
 * `pare`, and whoever starts the server says how such words are answered: so both give the same bytes
 * for the same question, by construction, and each answer can say its command. This room knows of
 * connections, who may ask, and what may be asked. */
#ifndef PARE_SERVE_SERVE_H
#define PARE_SERVE_SERVE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"
#include "base/progress.h"
#include "base/text.h"

/** Answers a command.
 *
 * Called from several threads at once.
 * @param words     how many there are, the command's name first
 * @param word      [words]; the options name the bench and --json
 * @param progress  of the work; says when it is to stop
 * @param[out] out  the whole answer
 * @return as the command's exit status; PARE_NO keeps the answer */
typedef pare_status (*pare_serve_answer)(void *context, size_t words, char *const word[],
                                         const pare_progress *progress, pare_text *out,
                                         pare_error *err);

typedef struct pare_serve_settings {
    const char *bench;   /* the file; must outlive the server */
    unsigned short port; /* 0: one that is free */
    pare_serve_answer answer;
    void *context; /* of answer() */
    /* Where other machines may ask, all of it over TLS; otherwise only this one does, at 127.0.0.1: */
    const char
        *address; /* of this machine, by number; "0.0.0.0", "::": all of a kind; NULL: no other */
    const char *password;    /* then needed, 12 to 256 bytes; not kept */
    const char *certificate; /* a PEM file with its key in it; NULL: */
    const char *own;         /* the file in which one of our own is, or will be */
} pare_serve_settings;

typedef struct pare_server pare_server;

/** Starts to listen; requests are answered by threads of the server's own.
 *
 * @param[out] server  stop with pare_server_stop(); NULL on failure
 * @return PARE_OK; PARE_BAD_DATA where the bench cannot be opened, the address is not this machine's, or
 *         password or certificate will not do; PARE_UNAVAILABLE where the port is taken or no random bytes
 *         are to be had */
pare_status pare_server_start(const pare_serve_settings *settings, pare_server **server,
                              pare_error *err);

/** The link to begin with. It holds the one token that lets a browser in, good for one use; where other
 * machines may ask it holds none, as the password lets in. Lent. */
const char *pare_server_link(const pare_server *server);

/** SHA-256 of the certificate, as a browser shows it: "AB:CD:..."; NULL: no other machine may ask. Lent. */
const char *pare_server_fingerprint(const pare_server *server);

/** Whether this build has the page in it. */
bool pare_server_has_page(void);

/** Lets what is being written end, stops everything else and closes all connections; NULL is fine. */
void pare_server_stop(pare_server *server);

#endif
