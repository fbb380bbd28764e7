/* drive_bench.h: two thrust stands' readings of motors on ESCs, as the fit of drive.c takes them. */
#ifndef FIT_DRIVE_BENCH_H
#define FIT_DRIVE_BENCH_H

#include <stdbool.h>
#include <stddef.h>

#include "physics/prop.h"

enum {
    DRIVE_SMALL_MOTORS = 13, /* the 5 in stand's, by letter; the 7 in stand's follow */
    DRIVE_MOTORS = 16,
    DRIVE_PROPELLERS = 7,
    DRIVE_ESCS = 4 /* the 5 in stand's, then the 7 in stand's three */
};

typedef struct drive_motor {
    char name[4];
    double kv_rpm_per_v; /* as stated */
    double stator_mm3;   /* diameter squared times height */
    bool sized;          /* its stator was stated */
} drive_motor;

/** One settled reading. */
typedef struct drive_row {
    int motor, esc;
    int propeller; /* of the 5 in stand; -1 where torque was measured */
    bool top;      /* the ESC was told full throttle */
    double volts_v, current_a, speed_rad_s, thrust_n;
    double torque_nm; /* NAN: not measured */
} drive_row;

typedef struct drive_bench {
    size_t rows;
    drive_row *row;
    drive_motor motor[DRIVE_MOTORS];
} drive_bench;

/** @return false where data are missing, said on stderr */
bool drive_bench_read(const char *data_folder, drive_bench *bench);
void drive_bench_free(drive_bench *bench);

/** Air at either stand, not written down there: 2 %. */
#define DRIVE_AIR_KG_M3  1.2
#define DRIVE_DIAMETER_M 0.127 /* the 5 in stand's propellers */
#define DRIVE_PI         3.14159265358979323846

/** The 5 in stand's propellers by number, less one. */
extern const pare_prop_size drive_propeller[DRIVE_PROPELLERS];

/** A speed in the middle of the 5 in stand's readings. */
#define DRIVE_WORK_RAD_S 1300.0

#endif
