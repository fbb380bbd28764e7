/* drive_model.h: what the fit of drive.c believes of motors, ESCs and propellers, as numbers to fit. */
#ifndef FIT_DRIVE_MODEL_H
#define FIT_DRIVE_MODEL_H

#include "drive_bench.h"
#include "physics/drive.h"

/* Of each motor, natural logarithms about what its stated kV and the laws say. */
enum { OF_KV, OF_WINDING, OF_NO_LOAD, OF_MOTOR };

enum {
    AT_KV = OF_MOTOR * DRIVE_MOTORS, /* ln of measured over stated kV, all motors together */
    AT_WINDING,                      /* ln of the resistance driven over the trade's law */
    AT_NO_LOAD,
    AT_MERIT,                                    /* ln of the propellers' figure of merit */
    AT_EACH_MERIT,                               /* and each one's about it */
    AT_SLOPE = AT_EACH_MERIT + DRIVE_PROPELLERS, /* d ln CP / d ln speed */
    AT_IRON,                                     /* logit of iron_share */
    AT_PULSE,
    AT_SWITCHING,                             /* typical */
    AT_EACH_SWITCHING,                        /* and each ESC's about it */
    AT_IDLE = AT_EACH_SWITCHING + DRIVE_ESCS, /* ln of each ESC's idle_a */
    AT_HEAT = AT_IDLE + DRIVE_ESCS,           /* share of steady heating at either stand */
    DRIVE_PARAMETERS = AT_HEAT + 2
};

/** How much of the drive is free. */
typedef enum drive_form {
    DRIVE_AS_PUBLISHED, /* drive constants and laws held at the published ones */
    DRIVE_REFITTED,     /* the published form, its constants free */
    DRIVE_WITH_PULSES
} drive_form;

typedef struct drive_model {
    const drive_bench *bench;
    drive_form form;
    int without;                                 /* a motor left out; -1: none */
    double thrust_coefficient[DRIVE_PROPELLERS]; /* medians over the motors taken */
    double
        merit[DRIVE_PROPELLERS]; /* figures of merit by the project's propeller model, to compare */
    double prior[DRIVE_PARAMETERS], prior_u[DRIVE_PARAMETERS];
} drive_model;

/** @param without  a motor left out; -1: none */
void drive_model_make(const drive_bench *bench, drive_form form, int without, drive_model *model);

/** Readings that count: not of the motor left out, nor of the one that was no such motor. */
bool drive_model_takes(const drive_model *model, const drive_row *row);

bool drive_model_fit(const drive_model *model, double x[DRIVE_PARAMETERS],
                     double u[DRIVE_PARAMETERS]);

/** How well the trade's law for windings and what a drive adds were known before; see drive.c. */
#define DRIVE_LAW_U    0.12
#define DRIVE_EXCESS_U 0.25
/** [E] Of what driving adds, the share that warms the winding; see drive.c. */
#define DRIVE_EXCESS_WARMS 0.5

/** Resistance on an ESC over the winding's own, from ln of the resistance driven over the law. */
double drive_over_winding(double over_law);

/** A motor as x has it: one left out by the laws alone. */
pare_motor drive_model_motor(const drive_model *model, const double x[], int motor);

/** Shaft torque at a speed: measured, or the propeller's. */
double drive_model_torque(const drive_model *model, const double x[], const drive_row *row,
                          double speed_rad_s);
/** Speed at a thrust of the row's propeller. */
double drive_model_speed(const drive_model *model, const drive_row *row, double thrust_n);

typedef struct drive_load {
    double power_w; /* into the ESC, at the row's volts */
    double motor_v; /* what the motor needs; at full throttle the row's volts */
    double motor_a;
} drive_load;
drive_load drive_model_load(const drive_model *model, const double x[], const drive_row *row,
                            double speed_rad_s, double torque_nm);

static inline double drive_of(const double x[], int motor, int which)
{
    return x[OF_MOTOR * motor + which];
}

#endif
