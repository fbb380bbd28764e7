/* csv_stand.h: rows of a thrust stand's list as stand tables in the text form. Inside the room only. */
#ifndef PARE_STORE_CSV_STAND_H
#define PARE_STORE_CSV_STAND_H

#include "store/csv_import.h"
#include "store/csv_part.h"

/** Tables under way. Zero-initialise. */
typedef struct pare_csv_stand {
    pare_node *table;    /* that rows are added to; NULL before the first row */
    pare_node *finished; /* that the last row did not belong to any more; NULL: it did */
    bool full;           /* the table has no room for the row: nothing behind it helps */
} pare_csv_stand;

/** Whether the columns can be those of a stand: what is missing, or has no unit. */
pare_status pare_csv_check_stand(const pare_csv_plan *plan, pare_error *err);

/** Adds a row. A new table begins where the motor, propeller or air changes.
 * @return PARE_OK; PARE_BAD_DATA with the place */
pare_status pare_csv_grow_stand(const pare_csv_rows *rows, const pare_csv_row *row,
                                pare_csv_stand *stand, pare_error *err);

/** Whether a throttle over which no unit stands can be per cent, as it was taken. */
pare_status pare_csv_check_throttle(const pare_csv_plan *plan, const pare_node *table,
                                    pare_error *err);

/** What was supposed where the list did not say: the air, the length of pulses, the turns.
 * @param[out] remark  in the arena @return how many */
size_t pare_csv_stand_remarks(const pare_csv_plan *plan, pare_arena *arena,
                              pare_list_remark remark[PARE_LIST_REMARKS]);

#endif
