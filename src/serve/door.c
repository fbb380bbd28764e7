/* door.c: the password by which somebody comes in (see door.h). */
#include "serve/door.h"

#include <netinet/in.h>
#include <stdint.h>
#include <string.h>

#include <gnutls/crypto.h>
#include <gnutls/gnutls.h>

enum {
    TURNS = 200000, /* of the slow function: a tenth of a second for each try, on a small machine */
    FREE_TRIES = 3, /* wrong ones before somebody waits: a slip of the finger */
    LONGEST_S = 300, /* that anybody waits */
    LONGEST_TWICE = 8
};

static int hash_of(const pare_door *door, const char *password, unsigned char hash[DOOR_HASH])
{
    /* The library reads both only; its type has no const. */
    const size_t length = strlen(password);
    const gnutls_datum_t key = {.data = (unsigned char *)(uintptr_t)password,
                                .size = (unsigned)length};
    const gnutls_datum_t salt = {.data = (unsigned char *)(uintptr_t)door->salt, .size = DOOR_HASH};
    return length > DOOR_MOST
               ? GNUTLS_E_INVALID_PASSWORD
               : gnutls_pbkdf2(GNUTLS_MAC_SHA256, &key, &salt, TURNS, hash, DOOR_HASH);
}

pare_status pare_door_open(pare_door *door, const char *password, pare_error *err)
{
    *door = (pare_door){.shut = password != NULL};
    pthread_mutex_init(&door->lock, NULL);
    if (!password)
        return PARE_OK;
    const size_t length = strlen(password);
    if (length < DOOR_LEAST || length > DOOR_MOST)
        return pare_fail(err, PARE_BAD_DATA,
                         "the password has %zu characters; right would be %d to %d, such as five "
                         "words drawn by dice",
                         length, DOOR_LEAST, DOOR_MOST);
    if (gnutls_rnd(GNUTLS_RND_KEY, door->salt, sizeof door->salt) < 0 ||
        hash_of(door, password, door->hash) < 0)
        return pare_fail(err, PARE_UNAVAILABLE, "no secret can be made of the password");
    return PARE_OK;
}

void pare_door_close(pare_door *door)
{
    gnutls_memset(door->hash, 0, sizeof door->hash);
    pthread_mutex_destroy(&door->lock);
}

/* Somebody has as many addresses of a network of version 6 as they like: the network counts. */
static void where_from(const struct sockaddr *from, unsigned char bytes[8])
{
    struct sockaddr_in four;
    struct sockaddr_in6 six;
    memset(bytes, 0, 8);
    if (from->sa_family == AF_INET) {
        memcpy(&four, from, sizeof four);
        memcpy(bytes, &four.sin_addr, 4);
    } else if (from->sa_family == AF_INET6) {
        memcpy(&six, from, sizeof six);
        memcpy(bytes, &six.sin6_addr, 8);
    }
}

/* Its own, or a free one, or that of whoever asked longest ago. */
static pare_door_place *place_of(pare_door *door, const unsigned char from[8])
{
    pare_door_place *oldest = &door->place[0];
    for (size_t i = 0; i < DOOR_PLACES; i++) {
        pare_door_place *one = &door->place[i];
        if (one->taken && memcmp(one->from, from, 8) == 0)
            return one;
        if (oldest->taken && (!one->taken || one->asked_s < oldest->asked_s))
            oldest = one;
    }
    *oldest = (pare_door_place){.taken = true};
    memcpy(oldest->from, from, 8);
    return oldest;
}

/* 2 s after the third wrong one, then twice as long each time. */
static unsigned wait_after(unsigned wrong)
{
    if (wrong < FREE_TRIES)
        return 0;
    const unsigned times = wrong - FREE_TRIES + 1;
    return times > LONGEST_TWICE ? LONGEST_S : 1u << times;
}

pare_door_answer pare_door_try(pare_door *door, const struct sockaddr *from, const char *password,
                               unsigned *wait_s)
{
    unsigned char bytes[8], hash[DOOR_HASH] = {0};
    struct timespec now;
    where_from(from, bytes);
    *wait_s = 0;
    pthread_mutex_lock(&door->lock);
    clock_gettime(CLOCK_MONOTONIC, &now);
    pare_door_place *place = place_of(door, bytes);
    pare_door_answer answer = DOOR_WAIT;
    place->asked_s = now.tv_sec;
    if (now.tv_sec < place->next_s) {
        *wait_s = (unsigned)(place->next_s - now.tv_sec);
    } else if (hash_of(door, password, hash) == 0 &&
               gnutls_memcmp(hash, door->hash, DOOR_HASH) == 0) {
        answer = DOOR_RIGHT;
        *place = (pare_door_place){0};
    } else {
        answer = DOOR_WRONG;
        *wait_s = wait_after(++place->wrong);
        place->next_s = now.tv_sec + *wait_s;
    }
    pthread_mutex_unlock(&door->lock);
    gnutls_memset(hash, 0, sizeof hash);
    return answer;
}
