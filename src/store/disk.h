/* disk.h: whole files from and to the disk, with limits. */
#ifndef PARE_STORE_DISK_H
#define PARE_STORE_DISK_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/error.h"

/** Reads a file whole.
 *
 * @param most  bytes; a larger file is refused
 * @param arena holds the bytes, with a zero after them
 * @return PARE_OK; PARE_BAD_DATA: not there, a folder, too large, not readable; PARE_UNAVAILABLE */
pare_status pare_disk_read(const char *path, size_t most, pare_arena *arena, const char **bytes,
                           size_t *length, pare_error *err);

/** Whether there is a regular file. */
bool pare_disk_has(const char *path);

/** Writes a new file whole. A file of the same content is left alone; of other content, it is
 * refused as PARE_BAD_DATA. */
pare_status pare_disk_write(const char *path, const void *bytes, size_t length, pare_error *err);

/** Writes a file whole in place of what may be there: beside it, brought to disk, then renamed, so that
 * a failure or an interruption leaves the old file as it was. A new file gets the usual rights, one
 * that was there keeps its own.
 * @return PARE_OK; PARE_BAD_DATA: a folder or other thing of that name; PARE_UNAVAILABLE: no such
 *         folder, no permission, disk full */
pare_status pare_disk_replace(const char *path, const void *bytes, size_t length, pare_error *err);

/** The same for what only its owner may read (0600), whatever was there. */
pare_status pare_disk_replace_secret(const char *path, const void *bytes, size_t length,
                                     pare_error *err);

/** Makes the folders above a file. PARE_UNAVAILABLE names the one that cannot be made. */
pare_status pare_disk_folders(const char *path, pare_error *err);

#endif
