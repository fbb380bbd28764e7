/* tired.h: cells that a charger found far above their mates. */
#ifndef PARE_SHOW_TIRED_H
#define PARE_SHOW_TIRED_H

#include "craft/craft.h"
#include "show/json.h"
#include "show/screen.h"

/** A sentence for each such cell of the part's packs, by the newest reading of each; none: nothing. */
void pare_tired_cells_text(const pare_part *part, const pare_screen *screen, pare_text *out);

/** [{"part", "which", "cell", "times", "date"}], of the parts on a craft, each once. */
json_t *pare_tired_cells(const pare_craft *craft);

/** The same of one part. */
json_t *pare_part_tired_cells(const pare_part *part);

#endif
