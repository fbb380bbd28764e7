/* read_craft.h: a craft out of its text. */
#ifndef PARE_STORE_READ_CRAFT_H
#define PARE_STORE_READ_CRAFT_H

#include "craft/craft.h"
#include "store/reading.h"

/** The keys of a craft, in the order in which they are usually written. */
enum { PARE_CRAFT_KEYS = 9 };
extern const char *const pare_craft_keys[PARE_CRAFT_KEYS];

/** Reads one craft and settles it (pare_craft_settle).
 *
 * @param node   a map with at least name and items
 * @param bench  holds the parts that it names
 * @param[out] craft  made in the reading's arena; NULL on failure
 * @return PARE_OK; PARE_UNKNOWN for a key, part or item that is not known; PARE_BAD_DATA; each with
 *         the place */
pare_status pare_read_craft(const pare_reading *reading, const pare_node *node,
                            const pare_bench *bench, pare_craft **craft, pare_error *err);

/** The ids of the parts that a craft names, as typed, each once: for reading only those.
 *
 * In items, loadouts and taken swaps. Looks only where part ids may stand; what is wrong elsewhere is for pare_read_craft() to say.
 * @param[out] ids  [count], in the arena */
pare_status pare_craft_part_ids(const pare_reading *reading, const pare_node *node, size_t *count,
                                const char ***ids, pare_error *err);

/* The pieces of it, each with its own file. Items come first: others refer to them. */
pare_status pare_read_brief(const pare_reading *reading, const pare_node *node, pare_brief *brief,
                            pare_error *err);
pare_status pare_read_items(const pare_reading *reading, const pare_node *node,
                            const pare_bench *bench, pare_craft *craft, pare_error *err);
pare_status pare_read_joints(const pare_reading *reading, const pare_node *node, pare_craft *craft,
                             pare_error *err);
pare_status pare_read_runs(const pare_reading *reading, const pare_node *node, pare_craft *craft,
                           pare_error *err);
pare_status pare_read_learned(const pare_reading *reading, const pare_node *node, pare_craft *craft,
                              pare_error *err);
pare_status pare_read_takens(const pare_reading *reading, const pare_node *node,
                             const pare_bench *bench, pare_craft *craft, pare_error *err);

/** The id of the part that a swap puts in, "mo-b" of "motor=mo-b"; NULL where it names none: a
 * property, off, a part that is still looked for. */
const char *pare_taken_part(const char *swap);

/** A part that the bench has, by its id. */
pare_status pare_read_part_id(const pare_reading *reading, const pare_node *node,
                              const pare_bench *bench, const pare_part **part, pare_error *err);
/** An item that the craft has, by its name. @param also  one more word that may stand, or NULL */
pare_status pare_read_item_name(const pare_reading *reading, const pare_node *node,
                                const char *what, const pare_craft *craft, const char *also,
                                const char **name, pare_error *err);

#endif
