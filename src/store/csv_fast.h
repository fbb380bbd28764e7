/* csv_fast.h: plain rows of a parts list, without the text form in between. Inside the room only. */
#ifndef PARE_STORE_CSV_FAST_H
#define PARE_STORE_CSV_FAST_H

#include "craft/part.h"
#include "store/csv_plan.h"

typedef struct pare_csv_fast pare_csv_fast;

/** For one plan. Close with pare_csv_fast_close(); NULL is fine. */
pare_status pare_csv_fast_open(const pare_csv_plan *plan, pare_units *units, pare_csv_fast **fast,
                               pare_error *err);
void pare_csv_fast_close(pare_csv_fast *fast);

/** Reads a row that has nothing unusual.
 *
 * What it gives is what pare_csv_make_part(), pare_read_part() and pare_tree_write() give, to the
 * byte and bit, and it gives nothing for what they refuse.
 * @param arena  holds what completing the part makes
 * @param[out] part  completed; it and `doc` are good until the next row
 * @param[out] named  its id is made of its name
 * @return false: the row is for those functions */
bool pare_csv_fast_read(pare_csv_fast *fast, const pare_csv_row *row, pare_arena *arena,
                        const pare_part **part, const char **doc, size_t *length, bool *named);

#endif
