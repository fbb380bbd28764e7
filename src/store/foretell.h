/* foretell.h: what a hover's output will be, said before a flight is kept. Inside the room, but for
 * pare_foreteller, which whoever imports fills: the store knows no sheet. */
#ifndef PARE_STORE_FORETELL_H
#define PARE_STORE_FORETELL_H

#include "craft/flight_record.h"
#include "store/tree.h"

struct pare_reading;

/** Who foretells. */
typedef struct pare_foreteller {
    void *context;
    /** The bench as it was before; lent. Asked for by the first hover that comes. */
    pare_status (*bench)(void *context, const pare_bench **bench, pare_error *err);
    /** Fills promised, low and high of a flight that hovers, and its output by its log where nobody read
     * it; leaves all of them alone where it shows none, or the craft cannot hover. */
    void (*foretell)(const pare_craft *craft, pare_flight_record *flight);
} pare_foreteller;

/** A hover with its output and what was promised of it; the node itself where that was said already or
 * there is nothing to say.
 * @param node       a flight that was checked, of a craft and a pack that are there
 * @param[out] said  in the reading's arena
 * @param[out] held  whether it came as foretold; meaningless where *said is the node
 * @return PARE_OK; PARE_UNAVAILABLE; as the bench */
pare_status pare_foretell(const pare_foreteller *foreteller, const struct pare_reading *reading,
                          const pare_node *node, const pare_node **said, bool *held,
                          pare_error *err);

/** A flight as it came in, without what foretelling added to it. NULL without memory. */
const pare_node *pare_foretold_without(pare_arena *arena, const pare_node *flight);

#endif
