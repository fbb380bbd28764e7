/* pair.h: a motor and its propeller as measured together on a thrust stand. */
#ifndef PARE_PHYSICS_PAIR_H
#define PARE_PHYSICS_PAIR_H

/** One reading of a stand. NAN: not measured. */
typedef struct pare_stand_row {
    double volts_v;  /* at the ESC, under load */
    double throttle; /* 0 to 1 */
    double thrust_n;
    double current_a; /* into the ESC */
    double speed_rad_s;
    double torque_nm;
} pare_stand_row;

#endif
