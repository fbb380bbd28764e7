/* csv_record.h: rows of a list of weigh-ins or flights as records in the text form; of stand tables:
 * csv_stand.h. Inside the room only. */
#ifndef PARE_STORE_CSV_RECORD_H
#define PARE_STORE_CSV_RECORD_H

#include "store/csv_part.h"
#include "store/record.h"

/** The record that a list of this kind holds. */
pare_record pare_csv_record_of(pare_list_kind list);

/** Makes the node of a weigh-in or flight out of a row. */
pare_status pare_csv_make_record(const pare_csv_rows *rows, const pare_csv_row *row,
                                 pare_node **record, pare_error *err);

#endif
