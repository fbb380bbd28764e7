/* learn_begin.c: flights made ready to be flown again (see learn_inside.h). */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advise/learn_inside.h"
#include "base/day.h"
#include "base/text.h"
#include "craft/assemble.h"
#include "craft/flight.h"
#include "craft/to_rig.h"

#define CAPACITY_U 0.10 /* of a pack among those of its part, over what the sheet doubts */
#define FADE_U     0.03 /* in 30 days: a healthy pack's, and some that are not; common practice */

bool pare_flown_hovers(size_t entries, const pare_flown flown[])
{
    for (size_t i = 0; i < entries; i++)
        if (flown[i].as != PARE_FLOWN_THRUST || flown[i].level != 1)
            return false;
    return entries > 0;
}

static void put_air(const pare_flight_record *record, pare_brief *brief)
{
    if (!record->air_given)
        return;
    brief->altitude_m = record->air.altitude_m;
    brief->temperature_given = !isnan(record->air.temperature_degc);
    brief->temperature_degc = record->air.temperature_degc;
    brief->humidity_given = !isnan(record->air.humidity);
    brief->humidity = record->air.humidity;
    brief->pressure_pa = isnan(record->air.pressure_pa) ? 0 : record->air.pressure_pa;
    brief->sea_level_pa = isnan(record->air.sea_level_pa) ? 0 : record->air.sea_level_pa;
}

pare_status pare_again_load(const pare_craft *craft, const pare_flight_record *record,
                            pare_craft *loaded, pare_error *err)
{
    if (record->gone)
        return pare_fail(err, PARE_UNKNOWN, "craft '%s' has no loadout '%.48s' any more",
                         craft->name, record->gone);
    const int loadout = record->loadout >= 0 ? record->loadout : craft->loadouts ? 0 : -1;
    const pare_status status = pare_craft_load(craft, loadout, loaded, err);
    if (status != PARE_OK)
        return status;
    const int pack = pare_craft_doing(loaded, PARE_PACK);
    if (record->pack && pack >= 0)
        loaded->item[pack].part = record->pack;
    put_air(record, &loaded->brief);
    return PARE_OK;
}

/* The rig as flown: loadout, pack, air and take-off mass of the day. */
static pare_status put_rig(const pare_craft *craft, const pare_flight_record *record,
                           pare_craft *loaded, pare_assembly *assembly, pare_again *again,
                           pare_error *err)
{
    pare_status status = pare_again_load(craft, record, loaded, err);
    if (status == PARE_OK)
        status = pare_assemble(loaded, assembly, err);
    if (status == PARE_OK)
        status = pare_craft_rig(loaded, assembly, &again->rig, err);
    if (status != PARE_OK)
        return status;
    if (record->take_off_kg > 0)
        again->rig.mass_kg = record->take_off_kg;
    again->brief = loaded->brief;
    again->record = record;
    return status;
}

static void put_flown(const pare_flight_record *record, pare_again *again)
{
    if (record->entries > 0) {
        again->entries = record->entries;
        again->flown = record->flown;
    } else {
        again->entries = pare_brief_flown(&again->brief, &again->flown);
    }
    again->style_u =
        pare_flown_hovers(again->entries, again->flown) ? PARE_HOVER_STYLE_U : PARE_PROFILE_STYLE_U;
}

/* The pack's place in the list, a new one where it is not there. */
static size_t pack_of(pare_learning *learning, const pare_again *again, const pare_part *part)
{
    const int which = again->record->which;
    size_t i = 0;
    while (i < learning->packs &&
           (learning->pack[i].pack != part || learning->pack[i].which != which))
        i++;
    pare_learned_pack *pack = &learning->pack[i];
    pare_pack_prior *prior = &learning->prior[i];
    const double day = (double)pare_day_number(again->record->date);
    if (i == learning->packs) {
        learning->packs++;
        *pack = (pare_learned_pack){
            .pack = part, .which = which, .stated_c = again->rig.pack.capacity_c};
        *prior = (pare_pack_prior){.capacity_u =
                                       hypot(CAPACITY_U, learning->doubts.u[PARE_DOUBTED_CAPACITY]),
                                   .fade_u = FADE_U,
                                   .ohm_u = learning->doubts.u[PARE_DOUBTED_PACK_OHM],
                                   .last_day = day};
    }
    pack->flights++;
    prior->last_day = fmax(prior->last_day, day);
    return i;
}

/* The craft's own, as the sheet has it. */
static pare_status put_own(const pare_craft *craft, pare_craft *loaded, pare_learning *learning,
                           pare_error *err)
{
    pare_sheet *sheet = malloc(sizeof *sheet);
    if (!sheet)
        return pare_no_memory(err);
    pare_status status = pare_craft_load(craft, craft->loadouts ? 0 : -1, loaded, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(loaded, false, sheet, err);
    if (status == PARE_OK) {
        pare_doubts_of(loaded, sheet, &learning->doubts);
        learning->own = sheet->rig;
        learning->motor = loaded->item[pare_craft_doing(loaded, PARE_MOTOR)].part->id;
        learning->propeller = loaded->item[pare_craft_doing(loaded, PARE_PROPELLER)].part->id;
        const int esc = pare_craft_esc(loaded);
        learning->esc = esc >= 0 ? loaded->item[esc].part->id : NULL;
        learning->own_pack = loaded->item[pare_craft_doing(loaded, PARE_PACK)].part->id;
    }
    free(sheet);
    return status;
}

static pare_status put_log(const pare_flight_record *record, pare_arena *arena,
                           pare_learning *learning, pare_again *again, pare_error *err)
{
    if (!record->log)
        return PARE_OK;
    pare_log_said *said = pare_arena_zeros(arena, sizeof *said);
    if (!said)
        return pare_no_memory(err);
    pare_log_say(record->log, pare_flown_hovers(again->entries, again->flown), said);
    /* A sensor whose zero is far off says less than nothing. */
    again->log = said->flown_c > 0 && said->read_c > 0 ? said : NULL;
    learning->logs += again->log != NULL;
    return PARE_OK;
}

/* What the craft as computed cannot fly at all tells nothing of how far off that is: where to begin from is missing. */
static bool can_be_flown(const pare_again *again)
{
    pare_endurance endured;
    return !again->says[PARE_SAID_CHARGE] ||
           pare_rig_endure(&again->rig, again->entries, again->flown, &again->down_to, &endured,
                           NULL) == PARE_OK;
}

static pare_status put_flights(size_t count, const pare_flight_record record[], pare_arena *arena,
                               pare_craft *loaded, pare_assembly *assembly, pare_learning *learning,
                               pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t i = 0; i < count; i++) {
        pare_again *again = &learning->again[i];
        pare_learned_flight *flight = &learning->flight[i];
        *flight = (pare_learned_flight){.record = &record[i], .left_out = NAN, .fits = true};
        if (record[i].gone) {
            flight->why = pare_arena_printf(arena, "the craft has no loadout '%.48s' any more",
                                            record[i].gone);
            if (!flight->why)
                return pare_no_memory(err);
            continue;
        }
        if (put_rig(learning->craft, &record[i], loaded, assembly, again, err) != PARE_OK)
            return pare_within(err, "flight of %s", record[i].date);
        put_flown(&record[i], again);
        status = put_log(&record[i], arena, learning, again, err);
        if (status != PARE_OK)
            return status;
        pare_again_put_saying(again, &flight->why);
        flight->log_output = again->log ? again->log->output : (double)NAN;
        if (flight->why && record[i].log)
            flight->why = "its log shows no flying, and what the charger put back is not said";
        if (!flight->why && !can_be_flown(again))
            flight->why = "the craft as computed cannot fly so, or not on that pack";
        if (flight->why)
            continue;
        const int pack = pare_craft_doing(loaded, PARE_PACK);
        again->pack = flight->pack = pack_of(learning, again, loaded->item[pack].part);
    }
    for (size_t i = 0; i < count; i++) {
        pare_again *again = &learning->again[i];
        if (!learning->flight[i].why)
            again->since = (learning->prior[again->pack].last_day -
                            (double)pare_day_number(again->record->date)) /
                           PARE_DAYS_OF_FADE;
    }
    return PARE_OK;
}

pare_status pare_learning_begin(const pare_craft *craft, size_t count,
                                const pare_flight_record flight[], pare_arena *arena,
                                pare_learning *learning, pare_error *err)
{
    *learning = (pare_learning){.flights = count};
    pare_craft *unlearned = pare_arena_zeros(arena, sizeof *unlearned);
    if (!unlearned)
        return pare_no_memory(err);
    pare_craft_copy(craft, unlearned);
    unlearned->learned = NULL;
    learning->craft = unlearned;
    learning->pack = pare_arena_zeros(arena, (count + 1) * sizeof *learning->pack);
    learning->prior = pare_arena_zeros(arena, (count + 1) * sizeof *learning->prior);
    learning->again = pare_arena_zeros(arena, (count + 1) * sizeof *learning->again);
    learning->flight = pare_arena_zeros(arena, (count + 1) * sizeof *learning->flight);
    pare_craft *loaded = malloc(sizeof *loaded);
    pare_assembly *assembly = malloc(sizeof *assembly);
    pare_status status = learning->pack && learning->prior && learning->again && learning->flight &&
                                 loaded && assembly
                             ? PARE_OK
                             : pare_no_memory(err);
    if (status == PARE_OK)
        status = put_own(learning->craft, loaded, learning, err);
    if (status == PARE_OK)
        status = put_flights(count, flight, arena, loaded, assembly, learning, err);
    free(assembly);
    free(loaded);
    return status;
}
