/* value.h: a number with its standard uncertainty and how it is known. */
#ifndef PARE_CRAFT_VALUE_H
#define PARE_CRAFT_VALUE_H

#include <stdbool.h>

/** Best first; a sum is known no better than its worst large part. */
typedef enum pare_known {
    PARE_WEIGHED,
    PARE_MEASURED,  /* flight figures, stand tables, chargers */
    PARE_LEARNED,   /* from flights, through the model */
    PARE_STATED,    /* by the maker */
    PARE_COMPUTED,  /* from geometry */
    PARE_ESTIMATED, /* from a law */
    PARE_KNOWNS
} pare_known;

typedef struct pare_value {
    double value, u; /* u: standard uncertainty, same unit */
    pare_known known;
    bool given; /* false: nobody has said anything yet */
} pare_value;

const char *pare_known_name(pare_known known);
int pare_known_named(const char *name); /* -1 when there is no such word */

#endif
