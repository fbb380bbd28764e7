/* gate.h: who may ask. Inside the room only.
 *
 * Anybody on this machine, and any page in the user's browser, can reach a port of the loopback; so a
 * browser is let in by a token that only the person who started the server has seen, and stays in by a
 * cookie that no other site can send. The names in Host and Origin are checked, against pages that get
 * themselves a name for 127.0.0.1. Who comes from another machine comes over TLS and by a password
 * (door.h), and the same cookie keeps them in. */
#ifndef PARE_SERVE_GATE_H
#define PARE_SERVE_GATE_H

#include <limits.h>
#include <pthread.h>
#include <stdbool.h>

#include "base/error.h"

enum { GATE_SECRET = 44 }; /* 32 bytes in 43 letters, and a NUL */

typedef struct pare_gate {
    char token[GATE_SECRET];         /* of the first link */
    char session[GATE_SECRET];       /* of the cookie */
    char cookie[32];                 /* its name, with the port: browsers keep none apart by port */
    char machine[HOST_NAME_MAX + 1]; /* this machine's name; empty: none */
    unsigned short port;
    bool secure; /* other machines ask, over TLS */
    bool used;   /* the token was */
    pthread_mutex_t lock;
} pare_gate;

/** Draws the secrets. Close with pare_gate_close().
 * @return PARE_OK or PARE_UNAVAILABLE */
pare_status pare_gate_open(pare_gate *gate, pare_error *err);
void pare_gate_close(pare_gate *gate);
/** From here on it knows which port it stands at, and whether other machines ask. */
void pare_gate_at(pare_gate *gate, unsigned short port, bool secure);

/** Whether a Host header names this server.
 * @param host   NULL: there was none
 * @param local  the address by number at which the connection came in; counts where other machines ask */
bool pare_gate_host(const pare_gate *gate, const char *host, const char *local);
/** Whether an Origin header names it. */
bool pare_gate_origin(const pare_gate *gate, const char *origin, const char *local);
/** Whether a cookie's value lets in. */
bool pare_gate_knows(const pare_gate *gate, const char *value);

typedef enum pare_gate_token { GATE_WRONG, GATE_USED, GATE_GOOD } pare_gate_token;

/** Looks at a token; a good one is used up. */
pare_gate_token pare_gate_use(pare_gate *gate, const char *token);

#endif
