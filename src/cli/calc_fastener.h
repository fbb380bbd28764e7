/* calc_fastener.h: words of fasteners, as `pare calc screw` and `pare calc joint` read them. */
#ifndef PARE_CLI_CALC_FASTENER_H
#define PARE_CLI_CALC_FASTENER_H

#include "physics/screw_hold.h"

/** @param screws_only  nuts, washers and standoffs are then not known */
pare_status fastener_named(const char *name, bool screws_only, pare_fastener *standard,
                           pare_error *err);
pare_status material_named(const char *name, pare_screw_material *material, pare_error *err);

/** What a screw goes into: NULL for its own kind, where its own thread is then the weaker one. */
pare_status grip_into(const char *into, pare_screw_material material, pare_grip *grip,
                      pare_error *err);

/** "the screw stretches first" */
const char *gives_way_words(pare_held_by by);

#endif
