/* between.h: what has changed of one craft between two days. */
#ifndef PARE_SHOW_BETWEEN_H
#define PARE_SHOW_BETWEEN_H

#include "craft/craft.h"
#include "craft/weigh_in.h"
#include "show/json.h"
#include "show/screen.h"

/** An entry of the craft's text or of one of its parts. */
typedef struct pare_between_entry {
    const char *path;
    const char *was, *is; /* NULL: it was not, or is no longer, there */
} pare_between_entry;

typedef struct pare_between {
    const pare_craft *was, *is; /* as described, with what was taken and learned */
    const char *from, *to;      /* days; "now" */
    bool later;                 /* the bench's history does not reach back to the first day */
    const char *since;          /* on which it begins for this craft; "": there is none */
    size_t entries;
    const pare_between_entry *entry; /* [entries] */
    size_t weigh_ins;
    const pare_weigh_in *const *weigh_in; /* [weigh_ins] of it in between */
    size_t flights;                       /* likewise */
} pare_between;

void pare_between_text(const pare_between *between, const pare_screen *screen, pare_text *out);

/** {"craft", "from", "to", "entries": [{"path", "was", "is"}], "fitted": [], "learned": [{"number", "was",
 * "is"}], "readings": [], "flights"}: a new reference. */
json_t *pare_between_object(const pare_between *between);

#endif
