/* cells.h: what another pack brings into question. Only this room uses it. */
#ifndef PARE_ADVISE_CELLS_H
#define PARE_ADVISE_CELLS_H

#include "advise/edit.h"

/** The motor speed constant that does the old one's job on other cells. */
double pare_same_job_kv(double kv_rpm_per_v, double cells_now, double cells_then);
/** Nominal energy: cells times capacity, coulomb. */
double pare_cell_charge_c(const pare_part *pack);

/** Notes on a pack that takes an old one's place: kV, ratings, capacitor, packs owned.
 * @return PARE_BAD_DATA where a board that takes the pack's volts would not survive or not start */
pare_status pare_cells_question(pare_edit *edit, const pare_part *pack, const pare_part *old,
                                pare_error *err);

/** Notes on another part's rating against the craft's pack; likewise refused for a board. */
pare_status pare_rating_question(pare_edit *edit, size_t index, pare_error *err);

#endif
