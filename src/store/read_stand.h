/* read_stand.h: the numbers of a stand table out of its text. Inside the room only. */
#ifndef PARE_STORE_READ_STAND_H
#define PARE_STORE_READ_STAND_H

#include "craft/part.h"
#include "craft/stand_table.h"
#include "store/read_table.h"

/** What each column is called in the text, and what it is. */
extern const pare_table_title pare_stand_titles[PARE_STAND_COLUMNS];

/** Reads a table of two parts.
 *
 * @param node     of the right shape: see pare_record_check()
 * @param arena    holds the table
 * @param[out] at     on failure: the number, row or list that it is about
 * @return PARE_OK; PARE_BAD_DATA: a part of another kind, or what pare_stand_check() finds; the
 *         caller puts the place in front */
pare_status pare_read_stand(const pare_reading *reading, const pare_node *node,
                            const pare_part *motor, const pare_part *propeller, pare_arena *arena,
                            pare_stand_table *table, const pare_node **at, pare_error *err);

#endif
