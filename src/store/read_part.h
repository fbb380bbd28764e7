/* read_part.h: a part out of its text. */
#ifndef PARE_STORE_READ_PART_H
#define PARE_STORE_READ_PART_H

#include "craft/part.h"
#include "store/reading.h"

/** Reads one part and completes it (pare_part_complete).
 *
 * @param node  a map with at least id and kind
 * @param[out] part  made in the reading's arena; NULL on failure
 * @return PARE_OK; PARE_UNKNOWN for a key that is not known; PARE_BAD_DATA, with the place */
pare_status pare_read_part(const pare_reading *reading, const pare_node *node, pare_part **part,
                           pare_error *err);

/** The keys of a part, in the order in which they are usually written. */
enum { PARE_PART_KEYS = 16 };
extern const char *const pare_part_keys[PARE_PART_KEYS];

/** All names that may be typed under a kind's spec. @return how many of `names` are used */
enum { PARE_SPEC_NAMES = 40 };
size_t pare_spec_names(pare_kind kind, const char *names[PARE_SPEC_NAMES]);

/* The pieces of it, each with its own file. */

/** A number as "12 g" or {value: 12 g, u: 0.1 g, known: weighed}. Known: stated unless said. */
pare_status pare_read_value(const pare_reading *reading, const pare_node *node, const char *what,
                            pare_dimension dimension, double low, double high, pare_value *value,
                            pare_error *err);
pare_status pare_read_spec(const pare_reading *reading, const pare_node *node, pare_part *part,
                           pare_error *err);
/** Whether a spec of a kind is a word, which stands in the part itself: chemistry, hand, material. */
bool pare_spec_is_word(pare_kind kind, const char *name);
pare_status pare_read_fits(const pare_reading *reading, const pare_node *node, pare_part *part,
                           pare_error *err);
pare_status pare_read_body(const pare_reading *reading, const pare_node *node, pare_part *part,
                           pare_error *err);
pare_status pare_read_includes(const pare_reading *reading, const pare_node *node, pare_part *part,
                               pare_error *err);

/** A propeller's blade and tunnel, where the part says them. @param part_node  the whole part */
pare_status pare_read_blade(const pare_reading *reading, const pare_node *part_node,
                            pare_part *part, pare_error *err);

/** Words of screws, shared with joints; a missing node (NULL) leaves the value alone. */
pare_status pare_read_screw_standard(const pare_reading *reading, const pare_node *node,
                                     pare_fastener *standard, pare_error *err);
/** What only a standoff has; and that a nut or washer has no length. Read after the standard. */
pare_status pare_read_standoff(const pare_reading *reading, const pare_node *node,
                               pare_fastener standard, double *across_m, double *tapped_m,
                               pare_error *err);
pare_status pare_read_screw_material(const pare_reading *reading, const pare_node *node,
                                     pare_screw_material *material, pare_error *err);
pare_status pare_read_thread(const pare_reading *reading, const pare_node *node,
                             pare_thread *thread, pare_error *err);

#endif
