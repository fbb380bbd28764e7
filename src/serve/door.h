/* door.h: the password by which somebody on another machine comes in. Inside the room only.
 *
 * It is kept only while the server runs, and only as what a slow function makes of it (PBKDF2, RFC 8018,
 * with a salt of its own). Who guesses wrong waits before the next try, longer each time; each place that
 * asks waits for itself, so that a stranger who guesses does not keep the owner out. */
#ifndef PARE_SERVE_DOOR_H
#define PARE_SERVE_DOOR_H

#include <pthread.h>
#include <stdbool.h>
#include <stddef.h>
#include <sys/socket.h>
#include <time.h>

#include "base/error.h"

enum {
    DOOR_LEAST = 12,  /* bytes of a password */
    DOOR_MOST = 256,  /* bytes */
    DOOR_HASH = 32,   /* bytes */
    DOOR_PLACES = 128 /* that have guessed wrong; the one that asked longest ago is forgotten */
};

typedef struct pare_door_place {
    unsigned char from[8]; /* an address of version 4, or the network of one of version 6 */
    bool taken;
    unsigned wrong; /* in a row */
    time_t asked_s, next_s;
} pare_door_place;

typedef struct pare_door {
    bool shut; /* there is a password; otherwise there is no door */
    unsigned char salt[DOOR_HASH], hash[DOOR_HASH];
    pthread_mutex_t lock; /* one try at a time, all over */
    pare_door_place place[DOOR_PLACES];
} pare_door;

/** @param password  NULL: no door. Not kept
 * @return PARE_OK; PARE_BAD_DATA where it is too short or too long; PARE_UNAVAILABLE */
pare_status pare_door_open(pare_door *door, const char *password, pare_error *err);
void pare_door_close(pare_door *door);

typedef enum pare_door_answer { DOOR_WRONG, DOOR_WAIT, DOOR_RIGHT } pare_door_answer;

/** Tries a password.
 *
 * @param from        who tries
 * @param[out] wait_s  before the next try; 0: none */
pare_door_answer pare_door_try(pare_door *door, const struct sockaddr *from, const char *password,
                               unsigned *wait_s);

#endif
