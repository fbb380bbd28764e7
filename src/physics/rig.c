/* rig.c: defaults for what a builder rarely knows, and the check that every flight function makes.
 *
 * The check is what lets the formulas run without looking: past it every quantity is finite and of a
 * size that cannot overflow, so a loop's end depends on the physics alone. Ranges are far wider than
 * any craft, since a swap may try odd ones; they only keep out what cannot be. */
#include "physics/rig.h"

#include "physics/drive.h"
#include "physics/operate.h"

/* iron_share, on_ohm, switching, idle_a: estimates, of ESCs of 30 to 50 A. The laws: common practice. */
const pare_drive pare_drive_published = {
    .iron_share = 0.5,
    .esc = {.on_ohm = 0.003, .switching = 0.03, .idle_a = 0.02},
    .winding_law = 9.2e10,
    .no_load_law = 1.1,
    .winding_u = 0.30,
    .no_load_u = 0.40,
};

void pare_rig_drive(const pare_drive *drive, pare_rig *rig)
{
    rig->motor.iron_share = drive->iron_share;
    rig->motor.drive_excess = drive->drive_excess;
    rig->motor.excess_warms = drive->excess_warms;
    rig->motor.pulse_loss = drive->pulse_loss;
    rig->esc = drive->esc;
}

void pare_rig_defaults(pare_rig *rig)
{
    *rig = (pare_rig){
        .rotors = 4,
        .rotor = {.thrust_factor = 1, .power_factor = 1},
        /* 10 V is where makers state the no-load current (common practice, no source); the standard
         * atmosphere's 15 degC at sea level (NOAA-S/T 76-1562). */
        .motor = {.no_load_at_v = 10, .ambient_degc = 15},
        /* 25 degC: where cells are characterised (IEC 61960-3 uses 20 +- 5 degC). lead_ohm: 200 mm
         * of 14 AWG both ways and one connector. */
        .pack = {.chemistry = PARE_LIPO,
                 .cells = 4,
                 .temperature_degc = 25,
                 .resistance_factor = 1,
                 .lead_ohm = 0.004},
        /* blockage: an estimate for slim arms. */
        .blockage = 0.03,
    };
    pare_rig_drive(&pare_drive_fitted, rig);
}

static pare_status within(double value, double low, double high, const char *what, const char *unit,
                          pare_error *err)
{
    if (value >= low && value <= high)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "%s is %g%s: %g to %g%s would be right", what, value, unit,
                     low, high, unit);
}

static pare_status check(const pare_rig *rig, pare_error *err)
{
    if (rig->rotor.prop == NULL)
        return pare_fail(err, PARE_BAD_DATA, "the craft has no propeller: it needs one to fly");
    if (!(rig->uneven >= 0 && rig->uneven < (double)INFINITY))
        return pare_fail(err, PARE_BAD_DATA,
                         "the centre of mass is so far from the middle of the motors that one of "
                         "them would have to pull down: it must lie between them");
    if (pare_motor_check(&rig->motor, err) != PARE_OK ||
        pare_pack_check(&rig->pack, err) != PARE_OK)
        return PARE_BAD_DATA;
    const struct {
        double value, low, high;
        const char *what, *unit;
    } fields[] = {
        {rig->rotors, 1, 64, "the count of rotors", ""},
        {rig->mass_kg, 1e-3, 1000, "the all-up mass", " kg"},
        {rig->rotor.thrust_factor, 0.01, 100, "the factor on thrust", ""},
        {rig->rotor.power_factor, 0.01, 100, "the factor on power", ""},
        {rig->esc.on_ohm, 0, 10, "the ESC's resistance", " ohm"},
        {rig->esc.switching, 0, 0.9, "the ESC's switching loss", ""},
        {rig->esc.idle_a, 0, 100, "the ESC's idle current", " A"},
        {rig->air.density_kg_m3, 0.01, 10, "the air's density", " kg/m3"},
        {rig->air.viscosity_pa_s, 1e-7, 1e-3, "the air's viscosity", " Pa s"},
        {rig->air.sound_m_s, 100, 1000, "the speed of sound", " m/s"},
        {rig->drag_m2, 0, 10, "the drag area in level flight", " m2"},
        {rig->drag_top_m2, 0, 10, "the drag area from above", " m2"},
        {rig->always_w, 0, 1e4, "the power of the electronics", " W"},
        {rig->blockage, 0, 0.9, "the share of thrust lost on the arms", ""},
    };
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
        if (within(fields[i].value, fields[i].low, fields[i].high, fields[i].what, fields[i].unit,
                   err) != PARE_OK)
            return PARE_BAD_DATA;
    return PARE_OK;
}

pare_status pare_charge_check(double charge, pare_error *err)
{
    return within(charge, 0, 1, "the charge", "", err);
}

pare_status pare_flight_begin(const pare_rig *rig, pare_flight *flight, pare_error *err)
{
    if (check(rig, err) != PARE_OK)
        return PARE_BAD_DATA;
    flight->rig = rig;
    flight->burst = pare_motor_law_of(&rig->motor, rig->esc.on_ohm, 1);
    flight->steady = flight->burst;
    flight->burst.warming *= PARE_BURST_HEAT;
    flight->burst.k_per_w *= PARE_BURST_HEAT;
    flight->pack = pare_pack_law_of(&rig->pack);
    flight->rotors = rig->rotors;
    flight->weight_n = rig->mass_kg * PARE_GRAVITY_M_S2;
    flight->lift_share = rig->rotors * (1 - rig->blockage);
    flight->hover_known = false;
    flight->more_a = flight->more_w = 1;
    flight->more_pulse_w = flight->more_pulse_v = 1;
    flight->rests = 0;
    flight->sources_from = PARE_PACK_KNOTS - 1;
    return PARE_OK;
}
