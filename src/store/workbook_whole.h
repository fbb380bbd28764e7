/* workbook_whole.h: whether a workbook that was just written is whole. */
#ifndef PARE_STORE_WORKBOOK_WHOLE_H
#define PARE_STORE_WORKBOOK_WHOLE_H

#include <stddef.h>

#include "base/error.h"

/** Reads what a workbook is made of to its ends, by its check sums, and counts the rows of its sheets.
 *
 * Its writer gathers each sheet in a file of its own and does not ask whether that went well, so a disk
 * that was full for a moment leaves a sound archive with half a sheet in it.
 * @param sheets  how many it has  @param rows  [sheets] how many rows each must have
 * @return PARE_OK; PARE_UNAVAILABLE where something is missing */
pare_status pare_workbook_whole(const char *name, const char *bytes, size_t length, size_t sheets,
                                const size_t rows[], pare_error *err);

#endif
