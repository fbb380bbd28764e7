/* zip.h: one file out of a zip archive in memory that may be hostile, by minizip. Inside the room
 * only. */
#ifndef PARE_STORE_ZIP_H
#define PARE_STORE_ZIP_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

/** Takes a piece of what is unpacked. */
typedef pare_status (*pare_zip_take)(void *context, const char *bytes, size_t length,
                                     pare_error *err);

/** Unpacks the entry of a name (either case), or else the only one with an ending
 * (NULL: none will do).
 *
 * @param name    put in front of messages
 * @param most    bytes of the entry unpacked: checked in what it says of itself and while unpacking
 * @return PARE_OK; PARE_BAD_DATA: no archive, damaged or cut short, an entry whose name leads out of
 *         its folder, no such entry, encrypted, packed in an unknown way, larger than most; what
 *         take() returned; PARE_UNAVAILABLE when there is no memory */
pare_status pare_zip_read(const char *name, const char *bytes, size_t length, const char *entry,
                          const char *ending, size_t most, pare_zip_take take, void *context,
                          pare_error *err);

/** Whether there is an entry of that name (either case). @return as pare_zip_read() of the archive */
pare_status pare_zip_has(const char *name, const char *bytes, size_t length, const char *entry,
                         bool *there, pare_error *err);

#endif
