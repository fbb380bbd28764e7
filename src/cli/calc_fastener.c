/* calc_fastener.c: words of fasteners (see calc_fastener.h). */
#include "cli/calc_fastener.h"

#include <string.h>

#include "base/text.h"

pare_status fastener_named(const char *name, bool screws_only, pare_fastener *standard,
                           pare_error *err)
{
    const int count = screws_only ? PARE_SCREW_STANDARDS : PARE_FASTENERS;
    const char *names[PARE_FASTENERS];
    for (int i = 0; i < count; i++) {
        names[i] = pare_fastener_name((pare_fastener)i);
        if (strcmp(name, names[i]) == 0) {
            *standard = (pare_fastener)i;
            return PARE_OK;
        }
    }
    const char *near = pare_nearest(name, (size_t)count, names);
    return pare_fail(err, PARE_BAD_DATA,
                     "standard '%.30s': known are ISO4762, ISO7380-1, ISO10642 and ISO1207%s%s%s%s",
                     name,
                     screws_only ? ""
                                 : ", nuts ISO4032 and ISO7040, washers ISO7089, standoff_hex and "
                                   "standoff_round",
                     near ? "; did you mean " : "", near ? near : "", near ? "?" : "");
}

pare_status material_named(const char *name, pare_screw_material *material, pare_error *err)
{
    const int known = pare_screw_material_named(name);
    if (known >= 0) {
        *material = (pare_screw_material)known;
        return PARE_OK;
    }
    return pare_fail(err, PARE_BAD_DATA,
                     "material '%.30s': known are steel, stainless, titanium, aluminium_7075, "
                     "aluminium, brass and nylon",
                     name);
}

pare_status grip_into(const char *into, pare_screw_material material, pare_grip *grip,
                      pare_error *err)
{
    grip->soft_screw = grip->soft_hole = pare_screw_is_soft(material);
    grip->hole = grip->screw;
    if (!into)
        return PARE_OK;
    grip->soft_hole = pare_hole_is_soft(into);
    return pare_hole_strength(into, &grip->hole, err);
}

const char *gives_way_words(pare_held_by by)
{
    static const char *const words[] = {
        [PARE_HELD_BY_PROOF] = "the screw stretches first",
        [PARE_HELD_BY_SCREW_THREAD] = "the screw's thread strips first",
        [PARE_HELD_BY_HOLE_THREAD] = "the thread in the hole strips first",
        [PARE_HELD_BY_PLATE] = "the head sinks into the plate first",
        [PARE_HELD_BY_KEY] = "the hexagon key turns in its socket first",
    };
    return words[by];
}
