/* to_rig.h: a craft turned into the numbers that its flight depends on. */
#ifndef PARE_CRAFT_TO_RIG_H
#define PARE_CRAFT_TO_RIG_H

#include "craft/assemble.h"
#include "craft/craft.h"
#include "physics/rig.h"

/** The brief's air. */
pare_status pare_brief_air(const pare_brief *brief, pare_air *air, pare_error *err);

/** Fills a rig from a settled, loaded craft and its assembly.
 *
 * The rig lends the propeller's blade and table from the part.
 * @return PARE_OK or PARE_BAD_DATA, naming what is missing. Allocates nothing. */
pare_status pare_craft_rig(const pare_craft *craft, const pare_assembly *assembly, pare_rig *rig,
                           pare_error *err);

/** The cells of so many packs of a part, side by side: what a charger found goes before what is stated.
 * Leads, temperature and law are left as they are. */
void pare_part_cells(const pare_part *part, int count, pare_pack *pack);

/** The efficiency of what feeds electronics where nothing on a craft states one; common practice, no source. */
double pare_regulator_usual(void);

/** Puts an assembly's mass, inertia and arm lengths into a rig that is otherwise filled. */
void pare_rig_put_body(const pare_assembly *assembly, const pare_body *all, pare_rig *rig);

#endif
