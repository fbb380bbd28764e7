/* tls.h: a client over TLS, for a server that other machines may ask. GnuTLS's own client side; it knows a
 * server by the fingerprint of its certificate, as somebody does who compares what the browser shows. */
#ifndef PARE_TESTS_TLS_H
#define PARE_TESTS_TLS_H

#include "http.h"

typedef struct tls_server {
    served s;
    char fingerprint[96];
    char link[256], caution[256];
    const char *from; /* the address to ask from, on this machine; NULL: the usual */
} tls_server;

/** Starts `pare serve --listen ADDRESS ...` on the demo's bench.
 * @param more  further words, ended by NULL */
tls_server tls_start(const char *const more[]);
/** One request on a connection of its own; the certificate must be the one that was said.
 * @param headers  whole lines, each with its end; Host and Cookie are among them where they are wanted */
reply tls_ask(const tls_server *t, const char *method, const char *target, const char *headers,
              const char *body);
/** A connection from `from` that says nothing yet. */
int tls_connect(const tls_server *t);
/** GET, with Host and Cookie. */
reply tls_get(const tls_server *t, const char *target);
/** POST of JSON, as the page does it. */
reply tls_post(const tls_server *t, const char *target, const char *body);

#endif
