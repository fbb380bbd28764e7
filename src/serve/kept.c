/* kept.c: answers that were given, as they were sent (see kept.h).
 *
 * A list that is searched from its start: some microseconds, for a few hundred answers. */
#include "serve/kept.h"

#include <stdlib.h>
#include <string.h>

void pare_kept_open(pare_kept *kept, const char *bench)
{
    *kept = (pare_kept){.bench = bench};
    pthread_mutex_init(&kept->lock, NULL);
}

static void drop(pare_kept *kept, pare_kept_answer *one)
{
    if (!one->response)
        return;
    kept->bytes -= one->bytes;
    free(one->words);
    MHD_destroy_response(one->response);
    *one = (pare_kept_answer){0};
}

void pare_kept_close(pare_kept *kept)
{
    for (size_t i = 0; i < KEPT_ANSWERS; i++)
        drop(kept, &kept->answer[i]);
    pare_store_close(kept->store);
    pthread_mutex_destroy(&kept->lock);
}

/* What the bench is now. @return false: it cannot be asked, so nothing is kept */
static bool look(pare_kept *kept, pare_store_mark *now)
{
    pare_error err;
    if (!pare_store_mark_file(kept->bench, now))
        return false;
    if (kept->store && !pare_store_same_file(now, &kept->opened)) {
        pare_store_close(kept->store);
        kept->store = NULL;
    }
    if (!kept->store) {
        /* Counts of two connections are not to be compared. */
        for (size_t i = 0; i < KEPT_ANSWERS; i++)
            drop(kept, &kept->answer[i]);
        if (pare_store_open(kept->bench, PARE_STORE_READ, &kept->store, &err) != PARE_OK)
            return false;
        kept->opened = *now;
    }
    return pare_store_mark_stamp(kept->store, now, &err) == PARE_OK;
}

static pare_kept_answer *find(pare_kept *kept, const char *words, size_t length)
{
    for (size_t i = 0; i < KEPT_ANSWERS; i++) {
        pare_kept_answer *one = &kept->answer[i];
        if (one->response && one->words_length == length && memcmp(one->words, words, length) == 0)
            return one;
    }
    return NULL;
}

/* Sent under the lock: the library then has a hold of its own on it. */
bool pare_kept_send(pare_kept *kept, const char *words, size_t length,
                    struct MHD_Connection *connection, pare_store_mark *now)
{
    bool sent = false;
    pthread_mutex_lock(&kept->lock);
    if (!look(kept, now))
        *now = (pare_store_mark){0};
    pare_kept_answer *one = find(kept, words, length);
    if (one && pare_store_mark_holds(&one->mark, now)) {
        one->asked = ++kept->asked;
        sent = MHD_queue_response(connection, MHD_HTTP_OK, one->response) == MHD_YES;
    } else if (one) {
        drop(kept, one);
    }
    pthread_mutex_unlock(&kept->lock);
    return sent;
}

/* A free place, or that of the one that was not asked for longest. */
static pare_kept_answer *place_for(pare_kept *kept, size_t bytes)
{
    for (;;) {
        pare_kept_answer *oldest = NULL, *empty = NULL;
        for (size_t i = 0; i < KEPT_ANSWERS; i++) {
            pare_kept_answer *one = &kept->answer[i];
            if (!one->response)
                empty = one;
            else if (!oldest || one->asked < oldest->asked)
                oldest = one;
        }
        if (empty && kept->bytes + bytes <= KEPT_BYTES)
            return empty;
        if (!oldest)
            return NULL;
        drop(kept, oldest);
    }
}

void pare_kept_put(pare_kept *kept, const char *words, size_t length, const pare_store_mark *mark,
                   struct MHD_Response *response, size_t bytes)
{
    char *copy = mark->file && bytes <= KEPT_BYTES / 4 ? malloc(length) : NULL;
    pthread_mutex_lock(&kept->lock);
    pare_kept_answer *place =
        copy && !find(kept, words, length) ? place_for(kept, bytes + length) : NULL;
    if (place) {
        memcpy(copy, words, length);
        *place = (pare_kept_answer){.words = copy,
                                    .words_length = length,
                                    .bytes = bytes + length,
                                    .asked = ++kept->asked,
                                    .mark = *mark,
                                    .response = response};
        kept->bytes += place->bytes;
    }
    pthread_mutex_unlock(&kept->lock);
    if (!place) {
        free(copy);
        MHD_destroy_response(response);
    }
}
