/* read_learned.c: what was learned of a craft, out of its text (see craft/learned.h).
 *
 * Motor, propeller and pack are names only: what is said of a part that is no longer on the bench is said
 * of nothing, and does no harm. */
#include <stdlib.h>

#include "store/read_craft.h"

#define MOST 3.0 /* of a logarithm: a factor of 20 */

static pare_status read_ids(const pare_reading *reading, const pare_node *node, pare_taught *kept,
                            pare_error *err)
{
    const struct {
        const char *key, **id;
        bool needed;
    } ids[] = {{"motor", &kept->motor, true},
               {"propeller", &kept->propeller, true},
               {"pack", &kept->pack, false},
               {"esc", &kept->esc, false}};
    pare_status status = PARE_OK;
    for (size_t i = 0; i < PARE_COUNT(ids) && status == PARE_OK; i++) {
        const pare_node *one = pare_node_get(node, ids[i].key);
        if (one)
            status = pare_read_name(reading, one, ids[i].key, true, ids[i].id, err);
        else if (ids[i].needed)
            status = pare_refuse(reading, node, PARE_BAD_DATA, err,
                                 "learned without %s; right would be the id of the one that flew",
                                 ids[i].key);
    }
    return status;
}

static pare_status read_numbers(const pare_reading *reading, const pare_node *node,
                                pare_taught *kept, pare_error *err)
{
    const char *names[PARE_TAUGHTS];
    for (int n = 0; n < PARE_TAUGHTS; n++)
        names[n] = pare_taught_name((pare_taught_number)n);
    pare_status status =
        pare_read_keys(reading, node, "what was learned", PARE_TAUGHTS, names, err);
    for (int n = 0; n < PARE_TAUGHTS && status == PARE_OK; n++) {
        const pare_node *one = pare_node_get(node, names[n]);
        double value[1 + PARE_TAUGHT_SOURCES] = {0};
        size_t count = 0;
        if (!one)
            continue;
        status = pare_read_quantities(reading, one, names[n], PARE_DIM_NUMBER, -MOST, MOST, 2,
                                      1 + PARE_TAUGHT_SOURCES, value, &count, err);
        kept->change[n] = value[0];
        for (int s = 0; s < PARE_TAUGHT_SOURCES; s++)
            kept->root[n][s] = value[1 + s];
    }
    return status;
}

pare_status pare_read_learned(const pare_reading *reading, const pare_node *node, pare_craft *craft,
                              pare_error *err)
{
    static const char *const keys[] = {"date",  "flights", "motor", "propeller",
                                       "stand", "pack",    "esc",   "numbers"};
    if (!node)
        return PARE_OK;
    pare_taught *kept = pare_arena_zeros(reading->arena, sizeof *kept);
    if (!kept)
        return pare_no_memory(err);
    pare_status status = pare_read_keys(reading, node, "learned", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *date = pare_node_get(node, "date"), *flights = pare_node_get(node, "flights"),
                    *stand = pare_node_get(node, "stand"),
                    *numbers = pare_node_get(node, "numbers");
    if (!date || !flights || !numbers)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "learned without %s; right would be what pare learn CRAFT --keep writes",
                           !date      ? "date"
                           : !flights ? "flights"
                                      : "numbers");
    status = pare_read_date(reading, date, "date", &kept->date, err);
    if (status == PARE_OK)
        status = pare_read_count(reading, flights, "flights", 1, 1000000, &kept->flights, err);
    if (status == PARE_OK)
        status = read_ids(reading, node, kept, err);
    if (status == PARE_OK && stand)
        status = pare_read_bool(reading, stand, "stand", &kept->stand, err);
    if (status == PARE_OK)
        status = read_numbers(reading, numbers, kept, err);
    craft->learned = kept;
    return status;
}
