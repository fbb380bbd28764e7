/* name.h: a swap's name taken apart: WHAT=VALUE as it is typed. Only this room uses it. */
#ifndef PARE_ADVISE_NAME_H
#define PARE_ADVISE_NAME_H

#include "advise/swap.h"
#include "base/units.h"

typedef enum pare_what {
    PARE_WHAT_ITEM, /* a part for it, "off", or a sought mass */
    PARE_WHAT_COAX_LENGTH,
    PARE_WHAT_JOINT_MATERIAL,
    PARE_WHAT_JOINT_COUNT,
    PARE_WHAT_JOINT_LENGTH,
    PARE_WHAT_JOINT_STANDARD,
    PARE_WHAT_RUN_GAUGE,
    PARE_WHAT_RUN_LENGTH
} pare_what;

typedef struct pare_swap_name {
    pare_what what;
    char id[PARE_SWAP_NAME];   /* in its one spelling */
    char left[PARE_SWAP_NAME]; /* what is set: the id up to its '=' */
    char of[64];               /* the item, joint or run */
    char word[64];             /* a part's id, "off", a material */
    double number;             /* m, AWG, screws; a sought part's kg */
    bool sought;
    const pare_part
        *part; /* the part of that id, where who made the name had it at hand; or NULL */
} pare_swap_name;

/** Takes a name apart without looking at any craft.
 *
 * @param units  reads lengths and gauges
 * @return PARE_OK; PARE_UNKNOWN: no WHAT=VALUE, or a property that joints, runs or items have not,
 *         with those they have; PARE_BAD_DATA: a value that cannot be read or is out of range */
pare_status pare_swap_name_read(pare_units *units, const char *text, pare_swap_name *name,
                                pare_error *err);

/** The next name of a list "a=b,c=d"; *list moves behind its comma, or becomes NULL at the end. */
pare_status pare_swap_name_next(pare_units *units, const char **list, pare_swap_name *name,
                                pare_error *err);

#endif
