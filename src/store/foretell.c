/* foretell.c: a hover's promise into its record (see foretell.h).
 *
 * A promise is worth something only where it was made from all that was known before and from nothing
 * of what it is about. So it is made here, as the flight comes in, of the bench as it still is. */
#include "store/foretell.h"

#include <string.h>

#include "store/read_flight.h"
#include "store/tree_edit.h"

/* Behind all that is short, in front of a log's many rows. */
static pare_node *with_promise(pare_arena *arena, const pare_node *node,
                               const pare_flight_record *flight)
{
    static const char *const last[] = {"log", "logged"};
    pare_node *made = pare_node_without(arena, node, NULL), *ends = made;
    for (size_t i = 0; i < PARE_COUNT(last) && made; i++)
        made = pare_node_without(arena, made, last[i]);
    if (!made)
        return NULL;
    const bool read = pare_node_get(node, "output") != NULL;
    const bool put =
        (read || pare_node_put_text(arena, made, "output",
                                    pare_arena_printf(arena, "%.1f %%", 100 * flight->output))) &&
        pare_node_put_text(
            arena, made, "promise",
            pare_arena_printf(arena, "%.1f %% .. %.1f %%", 100 * flight->low, 100 * flight->high));
    for (pare_node *one = ends->first, *next; one; one = next) {
        next = one->next;
        for (size_t i = 0; i < PARE_COUNT(last); i++)
            if (strcmp(one->key, last[i]) == 0)
                pare_node_set(made, one);
    }
    return put ? made : NULL;
}

pare_status pare_foretell(const pare_foreteller *foreteller, const pare_reading *reading,
                          const pare_node *node, const pare_node **said, bool *held,
                          pare_error *err)
{
    const pare_bench *bench = NULL;
    pare_flight_record flight;
    *said = node;
    *held = false;
    const bool shows = pare_node_get(node, "output") || pare_node_get(node, "logged");
    if (!foreteller || !shows || !pare_node_get(node, "flown") || pare_node_get(node, "promise"))
        return PARE_OK;
    pare_status status = foreteller->bench(foreteller->context, &bench, err);
    const pare_craft *craft =
        status == PARE_OK ? pare_bench_craft(bench, pare_node_get(node, "craft")->text) : NULL;
    if (craft)
        status = pare_read_flight(reading, node, bench, craft, &flight, err);
    if (status != PARE_OK || !craft)
        return status;
    foreteller->foretell(craft, &flight);
    if (!flight.promised)
        return PARE_OK;
    *held = flight.output >= flight.low && flight.output <= flight.high;
    *said = with_promise(reading->arena, node, &flight);
    return *said ? PARE_OK : pare_no_memory(err);
}

const pare_node *pare_foretold_without(pare_arena *arena, const pare_node *flight)
{
    const pare_node *plain = pare_node_without(arena, flight, "promise");
    /* A log has its output itself. */
    return plain && pare_node_get(plain, "logged") ? pare_node_without(arena, plain, "output")
                                                   : plain;
}
