/* keep.c: benches that were read, kept for the next question (see keep.h). */
#include "cli/keep.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>

enum {
    KEPT = 4,      /* benches at once: a large one has some ten megabytes */
    LENDINGS = 200 /* of one: commands put what they need into its arena, which only grows */
};

struct bench_keep {
    pthread_mutex_t lock;
    size_t count;
    bench_in_use use[KEPT];
};

bench_keep *bench_keep_open(void)
{
    bench_keep *keep = calloc(1, sizeof *keep);
    if (keep)
        pthread_mutex_init(&keep->lock, NULL);
    return keep;
}

void bench_keep_close(bench_keep *keep)
{
    if (!keep)
        return;
    for (size_t i = 0; i < keep->count; i++)
        bench_close(&keep->use[i]);
    pthread_mutex_destroy(&keep->lock);
    free(keep);
}

/* What a bench was when it was read, or is now. */
static bool look(const bench_in_use *use, pare_store_mark *mark)
{
    pare_error err;
    return pare_store_mark_file(use->path.bytes, mark) &&
           pare_store_mark_stamp(use->store, mark, &err) == PARE_OK;
}

bool bench_mark_set(bench_in_use *use)
{
    return look(use, &use->mark);
}

static bool is_good(const bench_in_use *use)
{
    pare_store_mark now;
    return look(use, &now) && pare_store_mark_holds(&use->mark, &now);
}

static bool is_asked_for(const options *given, const bench_in_use *use)
{
    return given->given & OPTION_BENCH && strcmp(given->bench, use->path.bytes) == 0;
}

bool bench_keep_take(bench_keep *keep, const options *given, bench_in_use *use)
{
    for (;;) {
        bench_in_use taken = {0};
        pthread_mutex_lock(&keep->lock);
        if (keep->count > 0 && is_asked_for(given, &keep->use[keep->count - 1]))
            taken = keep->use[--keep->count];
        pthread_mutex_unlock(&keep->lock);
        if (!taken.bench)
            return false;
        if (is_good(&taken)) {
            *use = taken;
            pare_store_watch(use->store, given->progress);
            return true;
        }
        bench_close(&taken);
    }
}

void bench_keep_give(bench_keep *keep, bench_in_use *use)
{
    bool kept = false;
    if (use->bench && use->complete && ++use->lent < LENDINGS) {
        pare_store_watch(use->store, NULL);
        pthread_mutex_lock(&keep->lock);
        kept = keep->count < KEPT;
        if (kept)
            keep->use[keep->count++] = *use;
        pthread_mutex_unlock(&keep->lock);
    }
    if (!kept)
        bench_close(use);
    *use = (bench_in_use){0};
}
