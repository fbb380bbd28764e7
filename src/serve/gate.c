/* gate.c: who may ask (see gate.h). */
#include "serve/gate.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/random.h>

/* 32 random bytes as letters that may stand in a link. */
static pare_status draw(char secret[GATE_SECRET], pare_error *err)
{
    static const char letters[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
    unsigned char bytes[GATE_SECRET - 1]; /* six bits of each: 258 in all */
    if (getrandom(bytes, sizeof bytes, 0) != (ssize_t)sizeof bytes)
        return pare_fail(err, PARE_UNAVAILABLE, "no random bytes: %s", strerror(errno));
    for (size_t i = 0; i < sizeof bytes; i++)
        secret[i] = letters[bytes[i] & 63];
    secret[sizeof bytes] = '\0';
    return PARE_OK;
}

pare_status pare_gate_open(pare_gate *gate, pare_error *err)
{
    *gate = (pare_gate){0};
    pare_status status = draw(gate->token, err);
    if (status == PARE_OK)
        status = draw(gate->session, err);
    if (status == PARE_OK && pthread_mutex_init(&gate->lock, NULL) != 0)
        status = pare_fail(err, PARE_UNAVAILABLE, "no lock is to be had");
    return status;
}

void pare_gate_close(pare_gate *gate)
{
    pthread_mutex_destroy(&gate->lock);
}

void pare_gate_at(pare_gate *gate, unsigned short port)
{
    gate->port = port;
    snprintf(gate->cookie, sizeof gate->cookie, "pare_%hu", port);
}

/* "127.0.0.1:7273" and the other names of this machine to itself. */
static bool names_it(const pare_gate *gate, const char *name)
{
    static const char *const known[] = {"127.0.0.1", "localhost", "[::1]"};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        char whole[32];
        snprintf(whole, sizeof whole, "%s:%hu", known[i], gate->port);
        if (strcmp(name, whole) == 0 || (gate->port == 80 && strcmp(name, known[i]) == 0))
            return true;
    }
    return false;
}

bool pare_gate_host(const pare_gate *gate, const char *host)
{
    return host && names_it(gate, host);
}

bool pare_gate_origin(const pare_gate *gate, const char *origin)
{
    static const char scheme[] = "http://";
    return origin && strncmp(origin, scheme, sizeof scheme - 1) == 0 &&
           names_it(gate, origin + sizeof scheme - 1);
}

/* In a time that does not tell how much of it was right. */
static bool same_secret(const char *value, const char secret[GATE_SECRET])
{
    unsigned char differ = 0;
    if (!value || strlen(value) != GATE_SECRET - 1)
        return false;
    for (size_t i = 0; i < GATE_SECRET - 1; i++)
        differ |= (unsigned char)((unsigned char)value[i] ^ (unsigned char)secret[i]);
    return differ == 0;
}

bool pare_gate_knows(const pare_gate *gate, const char *value)
{
    return same_secret(value, gate->session);
}

pare_gate_token pare_gate_use(pare_gate *gate, const char *token)
{
    if (!same_secret(token, gate->token))
        return GATE_WRONG;
    pthread_mutex_lock(&gate->lock);
    const pare_gate_token found = gate->used ? GATE_USED : GATE_GOOD;
    gate->used = true;
    pthread_mutex_unlock(&gate->lock);
    return found;
}
