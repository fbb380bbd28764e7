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

/** Another number whenever anybody else has written to the file since: cheap, and good for as long as
 * this store is open only.
 * @return PARE_OK or PARE_UNAVAILABLE */
pare_status pare_store_stamp(pare_store *store, long long *stamp, pare_error *err);

#endif
