/* watch.c: how long each connection has been sending its request (see watch.h).
 *
 * A thread looks once a second. It shuts the connection down and does not close it: its number stays
 * taken until the library closes it, which it says before. */
#include "serve/watch.h"

#include <stdlib.h>
#include <sys/socket.h>

static void look(pare_watch *watch)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    for (size_t i = 0; i < watch->count; i++) {
        pare_watched *one = &watch->place[i];
        if (one->socket >= 0 && !one->said && now.tv_sec - one->since.tv_sec > watch->most_s)
            shutdown(one->socket, SHUT_RDWR);
    }
}

static void *watch_on(void *context)
{
    pare_watch *watch = context;
    pthread_mutex_lock(&watch->lock);
    while (!watch->ends) {
        struct timespec until;
        clock_gettime(CLOCK_REALTIME, &until);
        until.tv_sec++;
        pthread_cond_timedwait(&watch->end, &watch->lock, &until);
        look(watch);
    }
    pthread_mutex_unlock(&watch->lock);
    return NULL;
}

bool pare_watch_open(pare_watch *watch, size_t count, time_t most_s)
{
    *watch = (pare_watch){.count = count, .most_s = most_s};
    pthread_mutex_init(&watch->lock, NULL);
    pthread_cond_init(&watch->end, NULL);
    watch->place = calloc(count, sizeof *watch->place);
    for (size_t i = 0; watch->place && i < count; i++)
        watch->place[i].socket = -1;
    watch->runs = watch->place && pthread_create(&watch->thread, NULL, watch_on, watch) == 0;
    return watch->runs;
}

void pare_watch_close(pare_watch *watch)
{
    pthread_mutex_lock(&watch->lock);
    watch->ends = true;
    pthread_cond_signal(&watch->end);
    pthread_mutex_unlock(&watch->lock);
    if (watch->runs)
        pthread_join(watch->thread, NULL);
    free(watch->place);
    pthread_cond_destroy(&watch->end);
    pthread_mutex_destroy(&watch->lock);
}

pare_watched *pare_watch_add(pare_watch *watch, int socket)
{
    pare_watched *found = NULL;
    pthread_mutex_lock(&watch->lock);
    for (size_t i = 0; i < watch->count && !found; i++)
        if (watch->place[i].socket < 0)
            found = &watch->place[i];
    if (found) {
        *found = (pare_watched){.socket = socket};
        clock_gettime(CLOCK_MONOTONIC, &found->since);
    }
    pthread_mutex_unlock(&watch->lock);
    return found;
}

void pare_watch_said(pare_watch *watch, pare_watched *place, bool said)
{
    if (!place)
        return;
    pthread_mutex_lock(&watch->lock);
    place->said = said;
    clock_gettime(CLOCK_MONOTONIC, &place->since);
    pthread_mutex_unlock(&watch->lock);
}

void pare_watch_drop(pare_watch *watch, pare_watched *place)
{
    if (!place)
        return;
    pthread_mutex_lock(&watch->lock);
    place->socket = -1;
    pthread_mutex_unlock(&watch->lock);
}
