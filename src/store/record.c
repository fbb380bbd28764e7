/* record.c: what may stand in a scale, weigh-in, flight or stand table (see record.h). */
#include "store/record.h"

#include <string.h>

#include "store/read_air.h"
#include "store/read_flight.h"
#include "store/read_log.h"
#include "store/read_stand.h"

typedef enum form {
    WORD,
    DATE,
    QUANTITY,
    RANGE,
    COUNT,
    AIR,
    OF,
    CHECKS,
    COLUMNS,
    ROWS,
    FLOWN,
    LOGGED
} form;

typedef struct field {
    pare_record record;
    const char *key;
    form form;
    pare_dimension dimension;
    double low, high;
    bool needed;
} field;

static const field FIELDS[] = {
    {PARE_RECORD_SCALE, "id", WORD, 0, 0, 0, true},
    {PARE_RECORD_SCALE, "resolution", QUANTITY, PARE_DIM_MASS, 1e-7, 1, true},
    {PARE_RECORD_SCALE, "repeatability", QUANTITY, PARE_DIM_MASS, 0, 1, false},
    {PARE_RECORD_SCALE, "common", QUANTITY, PARE_DIM_SHARE, 0, 0.5, false},
    {PARE_RECORD_SCALE, "checks", CHECKS, 0, 0, 0, false},

    {PARE_RECORD_WEIGH_IN, "craft", WORD, 0, 0, 0, true},
    {PARE_RECORD_WEIGH_IN, "date", DATE, 0, 0, 0, true},
    {PARE_RECORD_WEIGH_IN, "scale", WORD, 0, 0, 0, false},
    {PARE_RECORD_WEIGH_IN, "of", OF, 0, 0, 0, true},
    {PARE_RECORD_WEIGH_IN, "loadout", WORD, 0, 0, 0, false},
    {PARE_RECORD_WEIGH_IN, "reads", QUANTITY, PARE_DIM_MASS, 0, 100, true},
    {PARE_RECORD_WEIGH_IN, "promise", RANGE, PARE_DIM_MASS, -100, 100, false},

    {PARE_RECORD_FLIGHT, "craft", WORD, 0, 0, 0, true},
    {PARE_RECORD_FLIGHT, "date", DATE, 0, 0, 0, true},
    {PARE_RECORD_FLIGHT, "loadout", WORD, 0, 0, 0, false},
    {PARE_RECORD_FLIGHT, "pack", WORD, 0, 0, 0, false},
    {PARE_RECORD_FLIGHT, "which", COUNT, 0, 1, 10000, false},
    {PARE_RECORD_FLIGHT, "take_off", QUANTITY, PARE_DIM_MASS, 1e-3, 100, false},
    {PARE_RECORD_FLIGHT, "lasted", QUANTITY, PARE_DIM_TIME, 1, 1e5, false},
    {PARE_RECORD_FLIGHT, "put_back", QUANTITY, PARE_DIM_CHARGE, 0, 1e6, false},
    {PARE_RECORD_FLIGHT, "rest_before", QUANTITY, PARE_DIM_VOLTAGE, 0.5, 100, false},
    {PARE_RECORD_FLIGHT, "rest_after", QUANTITY, PARE_DIM_VOLTAGE, 0.5, 100, false},
    {PARE_RECORD_FLIGHT, "air", AIR, 0, 0, 0, false},
    {PARE_RECORD_FLIGHT, "flown", FLOWN, 0, 0, 0, false},
    {PARE_RECORD_FLIGHT, "output", QUANTITY, PARE_DIM_SHARE, 0.01, 1, false},
    {PARE_RECORD_FLIGHT, "promise", RANGE, PARE_DIM_SHARE, 0, 10, false},
    {PARE_RECORD_FLIGHT, "log", WORD, 0, 0, 0, false},
    {PARE_RECORD_FLIGHT, "logged", LOGGED, 0, 0, 0, false},

    {PARE_RECORD_STAND_TABLE, "motor", WORD, 0, 0, 0, true},
    {PARE_RECORD_STAND_TABLE, "propeller", WORD, 0, 0, 0, true},
    {PARE_RECORD_STAND_TABLE, "air", AIR, 0, 0, 0, false},
    {PARE_RECORD_STAND_TABLE, "columns", COLUMNS, 0, 0, 0, true},
    {PARE_RECORD_STAND_TABLE, "rows", ROWS, 0, 0, 0, true},
};

enum { FIELDS_A_RECORD = 16 };

static const struct {
    const char *list, *one;
} NAMES[PARE_RECORDS] = {
    [PARE_RECORD_SCALE] = {"scales", "a scale"},
    [PARE_RECORD_WEIGH_IN] = {"weigh_ins", "a weigh-in"},
    [PARE_RECORD_FLIGHT] = {"flights", "a flight"},
    [PARE_RECORD_STAND_TABLE] = {"stand_tables", "a stand table"},
};

const char *pare_record_list(pare_record record)
{
    return NAMES[record].list;
}

/* What lay on the scale: all, or things and how many of each. */
static pare_status check_of(const pare_reading *reading, const pare_node *node, pare_error *err)
{
    if (node->form == PARE_NODE_SCALAR && strcmp(node->text, "all") == 0)
        return PARE_OK;
    if (node->form != PARE_NODE_MAP || node->count == 0)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "of is what lay on the scale: all, or like {motor: 4, joint.motor_base: "
                           "16}");
    pare_status status = PARE_OK;
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next) {
        int count = 0;
        status = pare_read_count(reading, one, one->key, 1, 10000, &count, err);
    }
    return status;
}

/* What was said before a reading: from the least to the most that it would be. */
static pare_status check_range(const pare_reading *reading, const field *f, const pare_node *node,
                               pare_error *err)
{
    double low = 0, high = 0;
    const char *text = NULL;
    pare_error why = {0};
    pare_status status = pare_read_text(reading, node, f->key, &text, err);
    if (status == PARE_OK &&
        pare_range(reading->units, text, f->dimension, &low, &high, &why) != PARE_OK)
        return pare_refuse(reading, node, PARE_BAD_DATA, err, "%s: %s", f->key, why.text);
    if (status == PARE_OK)
        status = pare_check_range(reading, node, f->key, f->dimension, f->low, f->high, low, err);
    if (status == PARE_OK)
        status = pare_check_range(reading, node, f->key, f->dimension, f->low, f->high, high, err);
    return status;
}

/* A scale held against known masses. */
static pare_status check_checks(const pare_reading *reading, const pare_node *node, pare_error *err)
{
    static const char *const keys[] = {"date", "known", "known_u", "reads"};
    pare_status status = pare_need_list(reading, node, "checks", err);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next) {
        status = pare_read_keys(reading, one, "a check", PARE_COUNT(keys), keys, err);
        const char *day = NULL;
        for (size_t i = 0; i < PARE_COUNT(keys) && status == PARE_OK; i++) {
            const pare_node *value = pare_node_get(one, keys[i]);
            double kg = 0;
            if (!value)
                status =
                    pare_refuse(reading, one, PARE_BAD_DATA, err, "a check without %s", keys[i]);
            else if (i == 0)
                status = pare_read_date(reading, value, keys[i], &day, err);
            else
                status =
                    pare_read_quantity(reading, value, keys[i], PARE_DIM_MASS, 0, 100, &kg, err);
        }
    }
    return status;
}

static pare_status check_flown(const pare_reading *reading, const pare_node *node, pare_error *err)
{
    static const char *const words[] = {"brief", "hover", "full"};
    int index = 0;
    pare_flown flown[PARE_FLOWN];
    size_t entries = 0;
    if (node->form == PARE_NODE_LIST)
        return pare_read_flown(reading, node, flown, &entries, err);
    return pare_read_choice(reading, node, "flown", PARE_COUNT(words), words, &index, err);
}

/* Throttle says something of a hover alone. */
static pare_status check_hover(const pare_reading *reading, const pare_node *record,
                               pare_error *err)
{
    const pare_node *flown = pare_node_get(record, "flown");
    const pare_node *output = pare_node_get(record, "output");
    const pare_node *said = output ? output : pare_node_get(record, "promise");
    const bool hovers = flown && (flown->form == PARE_NODE_LIST ||
                                  (flown->text && strcmp(flown->text, "hover") == 0));
    if (said && !hovers)
        return pare_refuse(reading, said, PARE_BAD_DATA, err,
                           "%s is that of a hover; right would be flown: hover with it", said->key);
    if (said && !output)
        return pare_refuse(reading, said, PARE_BAD_DATA, err,
                           "a promise without the output that it is of; right would be like "
                           "output: 31 %%");
    return PARE_OK;
}

static pare_status check_field(const pare_reading *reading, const field *f, const pare_node *node,
                               const pare_node *record, pare_error *err)
{
    const char *text = NULL;
    double value = 0;
    int count = 0;
    pare_weather weather;
    const pare_flight_log *log = NULL;
    switch (f->form) {
    case WORD:
        return pare_read_text(reading, node, f->key, &text, err);
    case DATE:
        return pare_read_date(reading, node, f->key, &text, err);
    case QUANTITY:
        return pare_read_quantity(reading, node, f->key, f->dimension, f->low, f->high, &value,
                                  err);
    case RANGE:
        return check_range(reading, f, node, err);
    case CHECKS:
        return check_checks(reading, node, err);
    case COUNT:
        return pare_read_count(reading, node, f->key, (int)f->low, (int)f->high, &count, err);
    case AIR:
        return pare_read_air(reading, node, &weather, err);
    case OF:
        return check_of(reading, node, err);
    case COLUMNS:
        return pare_check_columns(reading, node, PARE_STAND_COLUMNS, pare_stand_titles, err);
    case ROWS:
        return pare_check_rows(reading, node, pare_node_get(record, "columns")->count, err);
    case FLOWN:
        return check_flown(reading, node, err);
    case LOGGED:
        return pare_read_log(reading, node, reading->arena, &log, err);
    }
    return PARE_OK;
}

pare_status pare_record_check(const pare_reading *reading, pare_record record,
                              const pare_node *node, pare_error *err)
{
    const char *keys[FIELDS_A_RECORD];
    size_t count = 0;
    for (size_t i = 0; i < PARE_COUNT(FIELDS); i++)
        if (FIELDS[i].record == record)
            keys[count++] = FIELDS[i].key;
    pare_status status = pare_read_keys(reading, node, NAMES[record].one, count, keys, err);
    for (size_t i = 0; i < PARE_COUNT(FIELDS) && status == PARE_OK; i++) {
        const field *f = &FIELDS[i];
        const pare_node *value = f->record == record ? pare_node_get(node, f->key) : NULL;
        if (value)
            status = check_field(reading, f, value, node, err);
        else if (f->record == record && f->needed)
            status = pare_refuse(reading, node, PARE_BAD_DATA, err, "%s without %s",
                                 NAMES[record].one, f->key);
    }
    if (status == PARE_OK && record == PARE_RECORD_FLIGHT)
        status = check_hover(reading, node, err);
    return status;
}
