/* watch.h: how long each connection has been sending its request. Inside the room only.
 *
 * The library closes a connection that is silent; one that sends a byte now and then would stay for
 * ever, and two hundred of them would keep everybody else out. So who has not said all of a request
 * within a time is closed, whatever comes. */
#ifndef PARE_SERVE_WATCH_H
#define PARE_SERVE_WATCH_H

#include <pthread.h>
#include <stdbool.h>
#include <stddef.h>
#include <time.h>

typedef struct pare_watched {
    int socket;            /* -1: the place is free */
    bool said;             /* the request is all there; its answer may take its time */
    struct timespec since; /* it began, or the one before it was answered */
} pare_watched;

typedef struct pare_watch {
    size_t count;
    pare_watched *place; /* [count] */
    time_t most_s;
    pthread_t thread;
    bool runs, ends;
    pthread_mutex_t lock;
    pthread_cond_t end;
} pare_watch;

/** Starts to watch over so many connections at most. @return false: no memory, no thread */
bool pare_watch_open(pare_watch *watch, size_t count, time_t most_s);
void pare_watch_close(pare_watch *watch);

/** A connection came. @return its place; NULL: there are too many */
pare_watched *pare_watch_add(pare_watch *watch, int socket);
/** Its request is all there, or was answered: then the next one begins. */
void pare_watch_said(pare_watch *watch, pare_watched *place, bool said);
/** It is about to be closed. */
void pare_watch_drop(pare_watch *watch, pare_watched *place);

#endif
