/* weighed.h: what weigh-ins made of a craft's masses, for its sheet.
 *
 * A part's own mass is put into the part; here is what a part cannot say: how far the masses are off
 * together (a reading of motors with their screws knows the sum better than either), how well screws
 * and wire are known, and what nobody wrote down. */
#ifndef PARE_CRAFT_WEIGHED_H
#define PARE_CRAFT_WEIGHED_H

#include <stdbool.h>
#include <stddef.h>

struct pare_part;

typedef struct pare_weighed_mass {
    const struct pare_part *part; /* NULL: of a joint, a run, or what is not written down */
    double written_kg;            /* of one piece, before any scale */
    double kg, u_kg;
    bool read; /* it lay on a scale, by itself or with others */
} pare_weighed_mass;

typedef struct pare_weighed {
    size_t masses;
    const pare_weighed_mass *mass;
    size_t joints, runs;
    const size_t *joint, *run; /* [joints], [runs] the place in mass of each; masses: none */
    size_t forgotten;      /* the place of what is not written down; masses: never weighed whole */
    const double *root_kg; /* [masses x masses] column by column: by how much each of them is off,
                                  at one standard uncertainty of each of `masses` sources */
} pare_weighed;

/** The place of a part, joint or run; masses where there is none, or where a swap made it another.
 * @param each_kg  one piece, as it is now */
size_t pare_weighed_part(const pare_weighed *weighed, const struct pare_part *part);
size_t pare_weighed_joint(const pare_weighed *weighed, size_t joint, double each_kg);
size_t pare_weighed_run(const pare_weighed *weighed, size_t run, double each_kg);

#endif
