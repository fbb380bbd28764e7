/* esc.h: ESCs at the arms, in the stack, or on the controller's board. Only this room uses it. */
#ifndef PARE_ADVISE_ESC_H
#define PARE_ADVISE_ESC_H

#include "advise/edit.h"

/* Where one-motor ESCs are put: a share of the way to their motors. */
#define PARE_ESC_ALONG_ARM 0.5

/** After an item's part has changed: where ESCs now sit, how many, and which wires go or come.
 * @return PARE_BAD_DATA where a four-in-one is to drive another number of motors */
pare_status pare_esc_follow(pare_edit *edit, size_t index, const pare_part *old, pare_error *err);

#endif
