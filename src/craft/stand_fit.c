/* stand_fit.c: see stand_fit.h. */
#include "craft/stand_fit.h"

#include <string.h>

#include "base/hash.h"

static double share(const pare_value *spec)
{
    return spec->value > 0 ? spec->u / spec->value : 0;
}

static pare_pair_model model_of(const pare_stand_fitting *fitting)
{
    const pare_value *spec = fitting->motor->spec;
    pare_rig usual;
    pare_rig_defaults(&usual);
    pare_pair_model model = {.table = fitting->propeller->table,
                             .doubt =
                                 fitting->propeller->bent
                                     ? fitting->propeller->bent->still
                                     : pare_prop_model_doubt(fitting->propeller->blade, false, 1),
                             .motor = usual.motor,
                             .kv_u = share(&spec[PARE_SPEC_KV]),
                             .resistance_u = share(&spec[PARE_SPEC_RESISTANCE]),
                             .no_load_u = share(&spec[PARE_SPEC_NO_LOAD]),
                             .esc = usual.esc};
    model.motor.kv_rpm_per_v = spec[PARE_SPEC_KV].value;
    model.motor.resistance_ohm = spec[PARE_SPEC_RESISTANCE].value;
    model.motor.no_load_a = spec[PARE_SPEC_NO_LOAD].value;
    model.motor.no_load_at_v = spec[PARE_SPEC_NO_LOAD_AT].value;
    model.motor.mass_kg = fitting->motor->mass_kg.value;
    if (fitting->tables > 0)
        model.motor.ambient_degc = fitting->table[0].air.temperature_degc;
    return model;
}

pare_status pare_stand_fit(const pare_stand_fitting *fitting, pare_arena *arena, pare_pair_fit *fit,
                           pare_error *err)
{
    pare_pair_run *run = pare_arena_array(arena, fitting->tables + 1, sizeof *run);
    if (!run)
        return pare_no_memory(err);
    for (size_t i = 0; i < fitting->tables; i++) {
        const pare_stand_table *table = &fitting->table[i];
        run[i] = (pare_pair_run){table->air, table->air_share_u, table->rows, table->row};
    }
    const pare_pair_model model = model_of(fitting);
    return pare_pair_fit_runs(&model, fitting->tables, run, fit, err);
}

unsigned long long pare_stand_fit_key(const pare_stand_fitting *fitting)
{
    const pare_pair_model model = model_of(fitting);
    const int layout = PARE_PAIR_LAYOUT;
    const size_t size = sizeof(pare_pair_fit);
    const unsigned long long blade = pare_prop_table_key(fitting->propeller->blade);
    unsigned long long sum = pare_hash(PARE_HASH_START, &layout, sizeof layout);
    sum = pare_hash(sum, &size, sizeof size);
    sum = pare_hash(sum, &blade, sizeof blade);
    if (fitting->propeller->bent)
        sum = pare_hash(sum, fitting->propeller->tunnel->row,
                        fitting->propeller->tunnel->rows * sizeof(pare_tunnel_row));
    sum = pare_hash(sum, &model.doubt, sizeof model.doubt);
    sum = pare_hash(sum, &model.motor, sizeof model.motor);
    const double u[] = {model.kv_u, model.resistance_u, model.no_load_u};
    sum = pare_hash(sum, u, sizeof u);
    sum = pare_hash(sum, &model.esc, sizeof model.esc);
    for (size_t i = 0; i < fitting->tables; i++) {
        const pare_stand_table *table = &fitting->table[i];
        sum = pare_hash(sum, &table->air, sizeof table->air);
        sum = pare_hash(sum, &table->air_share_u, sizeof table->air_share_u);
        sum = pare_hash(sum, table->row, table->rows * sizeof *table->row);
    }
    return sum;
}
