/* drive_model.c: the stands' readings from motors, ESCs and propellers (see drive_model.h).
 *
 * The motor and the ESC are those of src/physics, called as a flight calls them. What a stand fixes:
 *
 *     at full throttle   volts = Ke w + I R     (duty 1), at several currents and two voltages: kV, R
 *     everywhere         volts x amperes = shaft power + all losses
 *
 * Where torque was measured, that is all. On the 5 in stand the shaft power itself is a guess: thrust
 * is known, so power follows from a figure of merit, common to all propellers with a factor each. A
 * prior says what is known of it: 0.57 with 6 %, since three-bladed 5 in propellers reach 0.54 in the
 * tunnel (UIUC Propeller Data Site) and the 7 in one 0.62 on its stand, at three times the Reynolds
 * number. The level of the losses hangs on that prior, on the torque of the 7 in stand and on what
 * unloaded currents benches show; their shape does not. The project's own propeller model is fitted to
 * the power that is found here (drive_merit.h); it stands beside it, in print only.
 *
 * Motor m of the 5 in stand turns at half the speed that its stated kV allows, so it was no such motor
 * or its ESC never opened: it is left out. */
#include "drive_model.h"

#include <math.h>
#include <stdlib.h>

#include "physics/motor_law.h"
#include "physics/prop.h"
#include "solve.h"

#define MERIT         0.57
#define MERIT_U       0.06
#define MERIT_EACH_U  0.05
#define POWER_SMALL_U 0.04 /* of a reading, with what is wrong with the model */
#define POWER_SEVEN_U 0.02
#define VOLTS_U       0.02
#define SOFTEN        1.5
#define FREE_NOT      1e-6
#define STRANGE_MOTOR 12 /* m */
#define STATED_AT_V   10.0
#define LAW_U         DRIVE_LAW_U
#define EXCESS        0.15
#define EXCESS_U      DRIVE_EXCESS_U
#define NO_LOAD_LAW_U 0.2 /* a stator of 22 x 7 mm and 1750 rpm/V: 0.8 to 1.6 A at 10 V */

static double logistic(double x)
{
    return 1 / (1 + exp(-x));
}

bool drive_model_takes(const drive_model *model, const drive_row *row)
{
    return row->motor != model->without && row->motor != STRANGE_MOTOR;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double thrust_coefficient(const drive_row *row)
{
    const double turns = row->speed_rad_s / (2 * DRIVE_PI);
    return row->thrust_n / (DRIVE_AIR_KG_M3 * turns * turns * pow(DRIVE_DIAMETER_M, 4));
}

static double modelled_merit(const pare_prop_size *size)
{
    pare_prop prop;
    pare_air air;
    double ct = 0.15, cp = 0.08;
    if (pare_prop_from_size(size, pare_prop_set(false, size->line), &prop, NULL) == PARE_OK &&
        pare_air_standard(0, &air, NULL) == PARE_OK)
        pare_prop_coefficients(&prop, 0, DRIVE_WORK_RAD_S, &air, &ct, &cp);
    return sqrt(2 / DRIVE_PI) * pow(ct, 1.5) / cp;
}

static void propellers(drive_model *model)
{
    const drive_bench *bench = model->bench;
    double *seen = malloc(bench->rows * sizeof *seen);
    for (int p = 0; p < DRIVE_PROPELLERS; p++) {
        size_t count = 0;
        for (size_t i = 0; seen && i < bench->rows; i++)
            if (bench->row[i].propeller == p && drive_model_takes(model, &bench->row[i]))
                seen[count++] = thrust_coefficient(&bench->row[i]);
        if (count > 0)
            qsort(seen, count, sizeof *seen, by_size);
        model->thrust_coefficient[p] = count > 0 ? seen[count / 2] : 0.15;
        model->merit[p] = modelled_merit(&drive_propeller[p]);
    }
    free(seen);
}

void drive_model_make(const drive_bench *bench, drive_form form, int without, drive_model *model)
{
    const pare_drive *published = &pare_drive_published;
    const double free_u = form == DRIVE_AS_PUBLISHED ? FREE_NOT : 1;
    double *at = model->prior, *u = model->prior_u;
    *model = (drive_model){.bench = bench, .form = form, .without = without};
    for (int m = 0; m < DRIVE_MOTORS; m++) {
        const bool sized = bench->motor[m].sized;
        u[OF_MOTOR * m + OF_KV] = free_u * 0.05;
        u[OF_MOTOR * m + OF_WINDING] = free_u * (sized ? 0.3 : 0.6);
        u[OF_MOTOR * m + OF_NO_LOAD] = free_u * (sized ? 0.3 : 0.6);
    }
    u[AT_KV] = free_u * 0.05;
    at[AT_WINDING] = form == DRIVE_AS_PUBLISHED ? 0 : 0.5;
    u[AT_WINDING] = free_u;
    u[AT_NO_LOAD] = free_u * NO_LOAD_LAW_U;
    at[AT_MERIT] = log(MERIT);
    u[AT_MERIT] = MERIT_U;
    for (int p = 0; p < DRIVE_PROPELLERS; p++)
        u[AT_EACH_MERIT + p] = MERIT_EACH_U;
    u[AT_SLOPE] = 0.1;
    u[AT_IRON] = free_u * 1.5;
    u[AT_PULSE] = form == DRIVE_WITH_PULSES ? 1 : FREE_NOT;
    at[AT_SWITCHING] = published->esc.switching;
    u[AT_SWITCHING] = free_u * 0.05;
    for (int e = 0; e < DRIVE_ESCS; e++) {
        u[AT_EACH_SWITCHING + e] = free_u * 0.05;
        at[AT_IDLE + e] = log(form == DRIVE_AS_PUBLISHED ? published->esc.idle_a : 0.04);
        u[AT_IDLE + e] = free_u;
    }
    at[AT_HEAT] = 0.3;
    u[AT_HEAT] = 0.1;
    at[AT_HEAT + 1] = 0.5;
    u[AT_HEAT + 1] = 0.2;
    propellers(model);
}

double drive_model_speed(const drive_model *model, const drive_row *row, double thrust_n)
{
    const double ct = model->thrust_coefficient[row->propeller];
    return 2 * DRIVE_PI * sqrt(thrust_n / (ct * DRIVE_AIR_KG_M3 * pow(DRIVE_DIAMETER_M, 4)));
}

double drive_model_torque(const drive_model *model, const double x[], const drive_row *row,
                          double speed_rad_s)
{
    if (row->propeller < 0)
        return row->torque_nm;
    const double ct = model->thrust_coefficient[row->propeller];
    const double merit = exp(x[AT_MERIT] + x[AT_EACH_MERIT + row->propeller]);
    const double cp = sqrt(2 / DRIVE_PI) * pow(ct, 1.5) / merit;
    const double turns = speed_rad_s / (2 * DRIVE_PI);
    return cp * pow(speed_rad_s / DRIVE_WORK_RAD_S, x[AT_SLOPE]) * DRIVE_AIR_KG_M3 * turns * turns *
           pow(DRIVE_DIAMETER_M, 5) / (2 * DRIVE_PI);
}

double drive_over_winding(double over_law)
{
    const double usual = log(1 + EXCESS), left = over_law - usual;
    const double to_law = LAW_U * LAW_U / (LAW_U * LAW_U + EXCESS_U * EXCESS_U);
    return exp(usual + (1 - to_law) * left);
}

pare_motor drive_model_motor(const drive_model *model, const double x[], int m)
{
    const drive_motor *motor = &model->bench->motor[m];
    const pare_drive *law = &pare_drive_published;
    const double kv = motor->kv_rpm_per_v, v = motor->stator_mm3;
    const double driven = model->form == DRIVE_AS_PUBLISHED ? 1 : drive_over_winding(x[AT_WINDING]);
    return (pare_motor){
        .kv_rpm_per_v = kv * exp(x[AT_KV] + drive_of(x, m, OF_KV)),
        .resistance_ohm = law->winding_law / (kv * kv) * pow(v, -1.61) *
                          exp(x[AT_WINDING] + drive_of(x, m, OF_WINDING)) / driven,
        .no_load_a = law->no_load_law * (kv / 1750) * pow(v / 3388, 0.84) *
                     exp(x[AT_NO_LOAD] + drive_of(x, m, OF_NO_LOAD)),
        .no_load_at_v = STATED_AT_V,
        .mass_kg = 0.0215e-3 * pow(v, 0.90), /* the trade's law */
        .iron_share = logistic(x[AT_IRON]),
        .ambient_degc = 20,
        .drive_excess = driven - 1,
        .excess_warms = DRIVE_EXCESS_WARMS,
        .pulse_loss = x[AT_PULSE],
    };
}

drive_load drive_model_load(const drive_model *model, const double x[], const drive_row *row,
                            double speed_rad_s, double torque_nm)
{
    const pare_motor motor = drive_model_motor(model, x, row->motor);
    const double heat = x[AT_HEAT + (row->propeller < 0 ? 1 : 0)];
    const pare_motor_law law =
        pare_motor_law_of(&motor, pare_drive_published.esc.on_ohm, fmax(heat, 0));
    drive_load load;
    double ohm;
    pare_motor_run(&law, speed_rad_s, torque_nm, &load.motor_a, &load.motor_v, &ohm);
    const double volts = row->volts_v, spare = fmax(1 - load.motor_v / volts, 0);
    const double switching = x[AT_SWITCHING] + x[AT_EACH_SWITCHING + row->esc];
    load.power_w = load.motor_v * load.motor_a + switching * load.motor_a * volts * spare +
                   exp(x[AT_IDLE + row->esc]) * volts +
                   pare_motor_pulse_w(&law, speed_rad_s) * spare;
    return load;
}

/* Two residuals a reading: power, and at full throttle volts. A motor whose torque was measured never
 * needs more volts than there were. */
static void residuals(const void *context, const double x[], double r[])
{
    const drive_model *model = context;
    const drive_bench *bench = model->bench;
    for (size_t i = 0; i < bench->rows; i++) {
        const drive_row *row = &bench->row[i];
        r[2 * i] = r[2 * i + 1] = 0;
        if (!drive_model_takes(model, row))
            continue;
        const double torque = drive_model_torque(model, x, row, row->speed_rad_s);
        const drive_load load = drive_model_load(model, x, row, row->speed_rad_s, torque);
        const bool small = row->propeller >= 0;
        r[2 * i] = log(fmax(load.power_w, 1e-3) / (row->volts_v * row->current_a)) /
                   (small ? POWER_SMALL_U : POWER_SEVEN_U);
        if (row->top || (!small && load.motor_v > row->volts_v))
            r[2 * i + 1] = (load.motor_v / row->volts_v - 1) / VOLTS_U;
    }
}

bool drive_model_fit(const drive_model *model, double x[DRIVE_PARAMETERS],
                     double u[DRIVE_PARAMETERS])
{
    double *covariance = malloc(DRIVE_PARAMETERS * DRIVE_PARAMETERS * sizeof *covariance);
    const fit_problem problem = {.parameters = DRIVE_PARAMETERS,
                                 .residuals = 2 * model->bench->rows,
                                 .start = model->prior,
                                 .prior = model->prior,
                                 .prior_u = model->prior_u,
                                 .residual = residuals,
                                 .context = model,
                                 .soften = SOFTEN};
    const bool fine = covariance && fit_solve(&problem, x, covariance);
    for (int p = 0; fine && u && p < DRIVE_PARAMETERS; p++)
        u[p] = sqrt(covariance[p * DRIVE_PARAMETERS + p]);
    free(covariance);
    return fine;
}
