/* kept.h: answers that were given, as they were sent. Inside the room only.
 *
 * A page asks the same again and again: each swap that somebody looks at, the sheet when a view comes
 * back, and the same from a second window. An answer is good as long as nobody has written to the bench,
 * which the database tells in some microseconds. */
#ifndef PARE_SERVE_KEPT_H
#define PARE_SERVE_KEPT_H

#include <microhttpd.h>
#include <pthread.h>

#include "store/bench.h"
#include "store/version.h"

enum { KEPT_ANSWERS = 256, KEPT_BYTES = 32 * 1024 * 1024 };

typedef struct pare_kept_answer {
    char *words; /* the command's, each with its NUL */
    size_t words_length, bytes;
    unsigned long long asked; /* when last, as a count */
    pare_store_mark mark;
    struct MHD_Response *response;
} pare_kept_answer;

typedef struct pare_kept {
    const char *bench;
    pthread_mutex_t lock;
    pare_store *store; /* to hear of changes; NULL: not open */
    pare_store_mark opened;
    unsigned long long asked;
    size_t bytes;
    pare_kept_answer answer[KEPT_ANSWERS];
} pare_kept;

void pare_kept_open(pare_kept *kept, const char *bench);
void pare_kept_close(pare_kept *kept);

/** Sends the answer to these words, where one is kept that is good.
 * @param[out] now  what the bench is, for pare_kept_put()
 * @return false: there is none; nothing was sent */
bool pare_kept_send(pare_kept *kept, const char *words, size_t length,
                    struct MHD_Connection *connection, pare_store_mark *now);
/** Keeps one that was worked out from a bench as it was marked before.
 * @param response  taken over: destroyed when it is kept no longer
 * @param bytes     it has */
void pare_kept_put(pare_kept *kept, const char *words, size_t length, const pare_store_mark *mark,
                   struct MHD_Response *response, size_t bytes);

#endif
