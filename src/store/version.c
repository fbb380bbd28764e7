/* version.c: a number for how something stands on the bench now (see version.h). */
#include "store/version.h"

#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "base/hash.h"
#include "store/sql_driver.h"

enum { DROPPED_BITS = 64 - 53, GOOD_S = 3600 };

pare_status pare_store_version(pare_store *store, pare_thing thing, const char *name,
                               long long *version, pare_error *err)
{
    pare_text text = {0};
    pare_status status = thing == PARE_A_PART ? pare_store_part_text(store, name, &text, err)
                                              : pare_store_craft_text(store, name, &text, err);
    if (status == PARE_OK && text.failed)
        status = pare_no_memory(err);
    if (status == PARE_OK)
        *version = (long long)(pare_hash(PARE_HASH_START, text.bytes, text.length) >> DROPPED_BITS);
    pare_text_free(&text);
    return status;
}

pare_status pare_store_bench_version(pare_store *store, long long *version, pare_error *err)
{
    pare_store_since now;
    const pare_status status = pare_store_read_since(store, &now, err);
    const long long count[2] = {now.number, now.undone};
    if (status == PARE_OK)
        *version = (long long)(pare_hash(PARE_HASH_START, count, sizeof count) >> DROPPED_BITS);
    return status;
}

bool pare_store_mark_file(const char *path, pare_store_mark *mark)
{
    struct stat file;
    *mark = (pare_store_mark){.time = (long long)time(NULL)};
    if (pare_store_on_server(path)) {
        mark->file = pare_hash(PARE_HASH_START, path, strlen(path));
        return true;
    }
    if (stat(path, &file) != 0)
        return false;
    mark->device = (unsigned long long)file.st_dev;
    mark->file = (unsigned long long)file.st_ino;
    return true;
}

bool pare_store_same_file(const pare_store_mark *a, const pare_store_mark *b)
{
    return a->device == b->device && a->file == b->file;
}

bool pare_store_mark_holds(const pare_store_mark *was, const pare_store_mark *now)
{
    return was->stamp == now->stamp && pare_store_same_file(was, now) &&
           now->time - was->time < GOOD_S;
}

pare_status pare_store_mark_stamp(pare_store *store, pare_store_mark *mark, pare_error *err)
{
    return store->driver->stamp(store, &mark->stamp, err);
}
