/* module.h: what a module that lets ranks talk gives to the program. */
#ifndef PARE_RANKS_MODULE_H
#define PARE_RANKS_MODULE_H

#include <stdbool.h>
#include <stddef.h>

/** What a module gives; both sides of it are built together. */
typedef struct pare_ranks_module {
    int rank, ranks; /* 0 .. ranks - 1 */
    void *context;
    /** @return false: it cannot be sent */
    bool (*send)(void *context, int to, const char *bytes, size_t length);
    /** A message that has come, whoever sent it, good until the next one is asked for.
     * @param wait_us  so long at most for one to come, sleeping
     * @return 1; 0: none has come; -1: none can come any more */
    int (*take)(void *context, long wait_us, int *from, const char **bytes, size_t *length);
    /** Waits for all ranks, and ends. */
    void (*end)(void *context);
} pare_ranks_module;

/** What a module exports, by the name "pare_ranks_module_begin". @return NULL, or why it cannot begin */
typedef const char *pare_ranks_begin_it(pare_ranks_module *module);

#endif
