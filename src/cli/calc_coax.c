/* calc_coax.c: `pare calc coax`. */
#include <math.h>
#include <string.h>

#include "cli/calc.h"
#include "physics/coax.h"

enum { CABLE, LENGTH, BAND, CONNECTORS, FROM_HAND, TO_HAND };
static const key keys[] = {
    [CABLE] = {"cable", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [LENGTH] = {"length", PARE_DIM_LENGTH, 0, 100, "0 mm .. 100 m", true, NAN, false},
    [BAND] = {"band", PARE_DIM_FREQUENCY, 1e8, 1e10, "0.1 GHz .. 10 GHz", true, NAN, false},
    [CONNECTORS] = {"connectors", PARE_DIM_COUNT, 0, 20, "0 .. 20", false, 0, false},
    [FROM_HAND] = {"from", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [TO_HAND] = {"to", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
};

#define CONNECTOR_DB 0.1 /* a mated pair in good order at 5.8 GHz; common practice, no source */

static pare_status hand_of(const key_values *given, int which, pare_hand *hand, pare_error *err)
{
    static const char *const names[] = {"linear", "right", "left"};
    if (!given->given[which])
        return PARE_OK;
    for (int i = 0; i < 3; i++)
        if (strcmp(given->text[which], names[i]) == 0) {
            *hand = (pare_hand)i;
            return PARE_OK;
        }
    return pare_fail(err, PARE_BAD_DATA, "%s=%.20s: linear, right or left would be right",
                     keys[which].name, given->text[which]);
}

static pare_status answer_of(const key_values *given, pare_units *units, pare_answer *answer,
                             pare_error *err)
{
    (void)units;
    const double *v = given->value;
    double db_per_m = 0;
    pare_hand from = PARE_HAND_LINEAR, to = PARE_HAND_LINEAR;
    pare_status status = pare_coax_db_per_m(given->text[CABLE], v[BAND], &db_per_m, err);
    if (status == PARE_OK)
        status = hand_of(given, FROM_HAND, &from, err);
    if (status == PARE_OK)
        status = hand_of(given, TO_HAND, &to, err);
    if (status != PARE_OK)
        return status;
    if (given->given[FROM_HAND] != given->given[TO_HAND])
        return pare_fail(err, PARE_BAD_DATA,
                         "polarisation needs both ends: from= and to=, linear, right or left");
    const double cable_db = db_per_m * v[LENGTH], plugs_db = CONNECTOR_DB * v[CONNECTORS];
    const double turned_db = pare_polarisation_db(from, to);
    const double all_db = cable_db + plugs_db + turned_db;
    pare_answer_add(answer, "cable_db_per_m", "cable, a metre", "dB/m", db_per_m);
    pare_answer_add(answer, "cable_db", "cable", "dB", cable_db);
    if (given->given[CONNECTORS])
        pare_answer_add(answer, "connectors_db", "connectors", "dB", plugs_db);
    if (given->given[FROM_HAND])
        pare_answer_add(answer, "polarisation_db", "polarisation", "dB", turned_db);
    pare_answer_add(answer, "loss_db", "in all", "dB", all_db);
    pare_answer_add(answer, "range_share", "free-space range left", "", pare_range_share(all_db));
    pare_answer_note(answer, "never power a transmitter without its antenna");
    return PARE_OK;
}

const calc_thing calc_coax = {"coax", sizeof keys / sizeof keys[0], keys, answer_of};
