/* version.h: a number for how something stands on the bench now, for who wants to change it only as he
 * saw it. It is made of the text itself: what is undone has its former number again. */
#ifndef PARE_STORE_VERSION_H
#define PARE_STORE_VERSION_H

#include "store/by_key.h"

/** Of a part or a craft, as it is written.
 * @param[out] version  0 or more, at most 2^53, which every reader of JSON keeps exactly
 * @return PARE_OK; PARE_UNKNOWN with the nearest; PARE_UNAVAILABLE */
pare_status pare_store_version(pare_store *store, pare_thing thing, const char *name,
                               long long *version, pare_error *err);

/** Of the whole bench: another one after each change, and after each that is undone.
 * @return PARE_OK or PARE_UNAVAILABLE */
pare_status pare_store_bench_version(pare_store *store, long long *version, pare_error *err);

/** What a bench's file is at a moment, for who keeps what came of it. Cheap; stamps of two stores are not to
 * be compared. */
typedef struct pare_store_mark {
    long long
        stamp; /* another whenever anybody else has written to the file since the store was opened */
    long long time;
    unsigned long long device, file;
} pare_store_mark;

/** Which file stands there now, and when that was asked; no stamp yet. False: none does. */
bool pare_store_mark_file(const char *path, pare_store_mark *mark);
/** Puts in the stamp of a store that is open.
 * @return PARE_OK or PARE_UNAVAILABLE */
pare_status pare_store_mark_stamp(pare_store *store, pare_store_mark *mark, pare_error *err);
bool pare_store_same_file(const pare_store_mark *a, const pare_store_mark *b);
/** Whether what came of a bench as it was is still what would come of it: nobody has written since, and no
 * hour has gone, since answers are as of a day. */
bool pare_store_mark_holds(const pare_store_mark *was, const pare_store_mark *now);

#endif
