/* gate.c: who may ask (see gate.h). */
#include "serve/gate.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>
#include <sys/random.h>
#include <unistd.h>

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

/* A cookie named so is taken by browsers over TLS only, and from this very host (RFC 6265bis). */
void pare_gate_at(pare_gate *gate, unsigned short port, bool secure)
{
    gate->port = port;
    gate->secure = secure;
    snprintf(gate->cookie, sizeof gate->cookie, "%spare_%hu", secure ? "__Host-" : "", port);
    if (gethostname(gate->machine, sizeof gate->machine) != 0)
        gate->machine[0] = '\0';
    gate->machine[sizeof gate->machine - 1] = '\0';
}

/* Whether a name is so much with our port, which may be left out where it is the usual one. */
static bool is_name(const pare_gate *gate, const char *name, const char *known, const char *ending)
{
    char whole[HOST_NAME_MAX + 32];
    const unsigned short usual = gate->secure ? 443 : 80;
    snprintf(whole, sizeof whole, "%s%s:%hu", known, ending, gate->port);
    if (gate->port == usual && !strrchr(name, ':'))
        *strrchr(whole, ':') = '\0';
    return *known && strcasecmp(name, whole) == 0;
}

/* "127.0.0.1:7273" and the other names of this machine to itself; where other machines ask also the
 * address at which they did, and what the machine calls itself, as local networks resolve it. */
static bool names_it(const pare_gate *gate, const char *name, const char *local)
{
    static const char *const known[] = {"127.0.0.1", "localhost", "[::1]"};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        if (is_name(gate, name, known[i], ""))
            return true;
    return gate->secure &&
           (is_name(gate, name, local, "") || is_name(gate, name, gate->machine, "") ||
            is_name(gate, name, gate->machine, ".local"));
}

bool pare_gate_host(const pare_gate *gate, const char *host, const char *local)
{
    return host && names_it(gate, host, local);
}

bool pare_gate_origin(const pare_gate *gate, const char *origin, const char *local)
{
    const char *scheme = gate->secure ? "https://" : "http://";
    const size_t length = strlen(scheme);
    return origin && strncmp(origin, scheme, length) == 0 && names_it(gate, origin + length, local);
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
