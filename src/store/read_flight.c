/* read_flight.c: a flight's record out of its text (see read_flight.h). */
#include "store/read_flight.h"

#include <math.h>
#include <string.h>

#include "store/read_air.h"
#include "store/read_craft.h"
#include "store/read_log.h"

#define SHARES_WITHIN 1e-6

static pare_status read_flown_entry(const pare_reading *reading, const pare_node *node,
                                    pare_flown *flown, pare_error *err)
{
    static const char *const keys[] = {"share", "as", "speed", "thrust"};
    static const char *const words[] = {"hover", "full"};
    pare_status status = pare_read_keys(reading, node, "flown", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *share = pare_node_get(node, "share"), *as = pare_node_get(node, "as"),
                    *speed = pare_node_get(node, "speed"), *thrust = pare_node_get(node, "thrust");
    if (!share || (as != NULL) + (speed != NULL) + (thrust != NULL) != 1)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "an entry of flown has a share and one of as, speed, thrust; right "
                           "would be like {share: 20 %%, as: hover} or {share: 50 %%, speed: 16 "
                           "m/s}");
    status = pare_read_quantity(reading, share, "share", PARE_DIM_SHARE, 0, 1, &flown->share, err);
    if (status != PARE_OK)
        return status;
    if (as) {
        int index = 0;
        status = pare_read_choice(reading, as, "as", PARE_COUNT(words), words, &index, err);
        flown->as = index ? PARE_FLOWN_FULL : PARE_FLOWN_THRUST;
        flown->level = 1;
        return status;
    }
    flown->as = speed ? PARE_FLOWN_SPEED : PARE_FLOWN_THRUST;
    if (speed)
        return pare_read_quantity(reading, speed, "speed", PARE_DIM_SPEED, 0.1, 150, &flown->level,
                                  err);
    return pare_read_quantity(reading, thrust, "thrust, in multiples of weight,", PARE_DIM_NUMBER,
                              0.1, 50, &flown->level, err);
}

pare_status pare_read_flown(const pare_reading *reading, const pare_node *node,
                            pare_flown flown[PARE_FLOWN], size_t *entries, pare_error *err)
{
    if (!node)
        return PARE_OK;
    pare_status status = pare_need_list(reading, node, "flown", err);
    if (status == PARE_OK && (node->count == 0 || node->count > PARE_FLOWN))
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "flown has %zu entries; right would be 1 to %d", node->count,
                           PARE_FLOWN);
    double sum = 0;
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next) {
        pare_flown *entry = &flown[(*entries)++];
        status = read_flown_entry(reading, one, entry, err);
        sum += entry->share;
    }
    if (status == PARE_OK && fabs(sum - 1) > SHARES_WITHIN)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "the shares of flown make %.6g %%; right would be 100 %%", 100 * sum);
    return status;
}

/* "brief", "hover", "full", or a list of entries. */
static pare_status read_how(const pare_reading *reading, const pare_node *node,
                            pare_flight_record *flight, pare_error *err)
{
    if (!node || (node->form != PARE_NODE_LIST && strcmp(node->text, "brief") == 0))
        return PARE_OK;
    if (node->form == PARE_NODE_LIST)
        return pare_read_flown(reading, node, flight->flown, &flight->entries, err);
    const bool hover = strcmp(node->text, "hover") == 0;
    flight->flown[0] = (pare_flown){hover ? PARE_FLOWN_THRUST : PARE_FLOWN_FULL, 1, 1};
    flight->entries = 1;
    return PARE_OK;
}

/* A craft may have lost a loadout since; the flight stays what it was, and whoever asks it is told. */
static pare_status read_loadout(const pare_node *node, const pare_bench *bench,
                                const pare_craft *craft, pare_flight_record *flight,
                                pare_error *err)
{
    flight->loadout = node ? pare_craft_loadout(craft, node->text) : -1;
    if (!node || flight->loadout >= 0)
        return PARE_OK;
    flight->gone = pare_arena_text(bench->arena, node->text);
    return flight->gone ? PARE_OK : pare_no_memory(err);
}

static pare_status read_numbers(const pare_reading *reading, const pare_node *node,
                                pare_flight_record *flight, pare_error *err)
{
    const struct {
        const char *key;
        pare_dimension dimension;
        double low, high, *value;
    } rows[] = {{"take_off", PARE_DIM_MASS, 1e-3, 100, &flight->take_off_kg},
                {"lasted", PARE_DIM_TIME, 1, 1e5, &flight->lasted_s},
                {"put_back", PARE_DIM_CHARGE, 0, 1e6, &flight->put_back_c},
                {"rest_before", PARE_DIM_VOLTAGE, 0.5, 100, &flight->rest_before_v},
                {"rest_after", PARE_DIM_VOLTAGE, 0.5, 100, &flight->rest_after_v},
                {"output", PARE_DIM_SHARE, 0.01, 1, &flight->output}};
    pare_status status = PARE_OK;
    for (size_t i = 0; i < PARE_COUNT(rows) && status == PARE_OK; i++) {
        *rows[i].value = (double)NAN;
        status =
            pare_read_quantity(reading, pare_node_get(node, rows[i].key), rows[i].key,
                               rows[i].dimension, rows[i].low, rows[i].high, rows[i].value, err);
    }
    return status;
}

static pare_status read_promise(const pare_reading *reading, const pare_node *node,
                                pare_flight_record *flight, pare_error *err)
{
    flight->promised = node != NULL;
    return node ? pare_range(reading->units, node->text, PARE_DIM_SHARE, &flight->low,
                             &flight->high, err)
                : PARE_OK;
}

pare_status pare_read_flight(const pare_reading *reading, const pare_node *node,
                             const pare_bench *bench, const pare_craft *craft,
                             pare_flight_record *flight, pare_error *err)
{
    const pare_node *air = pare_node_get(node, "air"), *pack = pare_node_get(node, "pack");
    *flight = (pare_flight_record){
        .date = pare_arena_text(bench->arena, pare_node_get(node, "date")->text)};
    if (!flight->date)
        return pare_no_memory(err);
    pare_status status = read_loadout(pare_node_get(node, "loadout"), bench, craft, flight, err);
    if (status == PARE_OK && pack)
        status = pare_read_part_id(reading, pack, bench, &flight->pack, err);
    if (status == PARE_OK && pack && !pare_part_does(flight->pack, PARE_PACK))
        status = pare_refuse(reading, pack, PARE_BAD_DATA, err,
                             "'%s' is a part of kind %s; right would be a pack", flight->pack->id,
                             pare_kind_name(flight->pack->kind));
    if (status == PARE_OK)
        status = pare_read_count(reading, pare_node_get(node, "which"), "which", 1, 10000,
                                 &flight->which, err);
    if (status == PARE_OK)
        status = read_numbers(reading, node, flight, err);
    flight->air_given = air != NULL;
    if (status == PARE_OK && air)
        status = pare_read_air(reading, air, &flight->air, err);
    if (status == PARE_OK)
        status = read_how(reading, pare_node_get(node, "flown"), flight, err);
    if (status == PARE_OK)
        status = read_promise(reading, pare_node_get(node, "promise"), flight, err);
    const pare_node *logged = pare_node_get(node, "logged");
    if (status == PARE_OK && logged)
        status = pare_read_log(reading, logged, bench->arena, &flight->log, err);
    return status;
}
