/* by_key_inside.h: what the files of by_key.c share. */
#ifndef PARE_STORE_BY_KEY_INSIDE_H
#define PARE_STORE_BY_KEY_INSIDE_H

#include "store/by_key.h"
#include "store/file.h"
#include "store/path.h"
#include "store/reading.h"

/** One edit under way. */
typedef struct pare_editing {
    pare_store *store;
    const char *name;  /* of the part or craft */
    bool adding;       /* it is not there yet */
    pare_arena *arena; /* of this edit alone */
    pare_files files;
    pare_reading reading;
    size_t paths;
    pare_path *path;               /* [paths] */
    size_t gone;                   /* stand tables that are off the bench now, by pair */
    pare_entry_change *gone_stand; /* [gone] in the edit's own arena */
    size_t fresh;                  /* items of a craft for which only a part was said */
    const char *fresh_item[PARE_ITEMS];
} pare_editing;

/** Makes whole paths of what was typed in short. @param root  what stands there before */
pare_status pare_by_key_part_paths(pare_editing *e, pare_node *root, pare_error *err);
pare_status pare_by_key_craft_paths(pare_editing *e, const pare_node *root, pare_error *err);

/** After the paths are put: what a loadout said of items that are gone goes with them; whoever else still
 * names one is said. */
pare_status pare_by_key_gone(pare_editing *e, pare_node *root, pare_error *err);
/** After the paths are put: count and place of items for which only the part was said. */
pare_status pare_by_key_usual(pare_editing *e, pare_node *root, pare_error *err);

/** Checks and keeps what was made. @param doc  its canonical text */
pare_status pare_by_key_put_part(pare_editing *e, const pare_node *root, const char *doc,
                                 pare_error *err);
pare_status pare_by_key_put_craft(pare_editing *e, const pare_node *root, const char *doc,
                                  pare_error *err);

/** Fails as unknown, naming the word and the nearest of some names. */
pare_status pare_by_key_unknown(const pare_path *path, const char *what, const char *key,
                                size_t count, const char *const names[], const char *otherwise,
                                pare_error *err);

#endif
