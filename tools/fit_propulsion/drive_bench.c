/* drive_bench.c: reading two thrust stands (see drive_bench.h).
 *
 * The 5 in stand (Cao and Strawson, 2018): 13 motors, 7 propellers, thrust, volts and amperes into one
 * ESC, speed; no torque. File b4 is faulty at both voltages and left out, as are readings before the
 * motor ran well (under 3000 rpm or 0.1 N). The 7 in stand (Spitzer, Carnegie Mellon, 2019): three
 * motors on three ESCs, with torque. */
#include "drive_bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "table.h"

#define RPM          (DRIVE_PI / 30)
#define GRAM_FORCE_N 9.80665e-3
#define LEAST_RPM    3000.0
#define LEAST_N      0.1
#define TOP_PULSE_US 1999.0
#define INCH_M       0.0254
#define SMALL_STATOR 1944.0 /* taken for "small, not stated": 18 x 6 mm */
#define SEVEN_STATOR 4200.0 /* not stated either: between 25 x 7 and 28 x 6.5 mm */

static const struct {
    double kv, diameter_mm, height_mm;
} small_motor[DRIVE_SMALL_MOTORS] = {{2600, 22, 5}, {2500, 18, 6}, {2450, 22, 6}, {2300, 22, 4},
                                     {2400, 22, 5}, {2350, 22, 6}, {2000, 22, 6}, {2400, 18, 4},
                                     {2300, 0, 0},  {2400, 23, 6}, {2400, 23, 6}, {2800, 0, 0},
                                     {2400, 18, 6}};

#define FIVE_IN(pitch_in, count)                                                                   \
    {.diameter_m = DRIVE_DIAMETER_M,                                                               \
     .pitch_m = (pitch_in) * INCH_M,                                                               \
     .blades = (count),                                                                            \
     .line = PARE_LINE_BROAD}
const pare_prop_size drive_propeller[DRIVE_PROPELLERS] = {
    FIVE_IN(4.0, 3), FIVE_IN(4.5, 3), FIVE_IN(4.5, 3), FIVE_IN(4.0, 2),
    FIVE_IN(4.0, 4), FIVE_IN(4.5, 2), FIVE_IN(4.0, 3)};
#undef FIVE_IN

static void name_motors(drive_bench *bench)
{
    static const double seven_kv[] = {1900, 1600, 1750};
    for (int m = 0; m < DRIVE_MOTORS; m++) {
        drive_motor *motor = &bench->motor[m];
        if (m < DRIVE_SMALL_MOTORS) {
            const double d = small_motor[m].diameter_mm, h = small_motor[m].height_mm;
            *motor = (drive_motor){.kv_rpm_per_v = small_motor[m].kv,
                                   .stator_mm3 = d > 0 ? d * d * h : SMALL_STATOR,
                                   .sized = d > 0};
            snprintf(motor->name, sizeof motor->name, "%c", 'a' + m);
        } else {
            const int seven = m - DRIVE_SMALL_MOTORS;
            *motor = (drive_motor){.kv_rpm_per_v = seven_kv[seven], .stator_mm3 = SEVEN_STATOR};
            snprintf(motor->name, sizeof motor->name, "7%c", 'a' + seven);
        }
    }
}

static bool add(drive_bench *bench, drive_row row, size_t *room)
{
    if (bench->rows == *room) {
        *room = *room ? 2 * *room : 512;
        drive_row *grown = realloc(bench->row, *room * sizeof *grown);
        if (!grown)
            return false;
        bench->row = grown;
    }
    bench->row[bench->rows++] = row;
    return true;
}

/* Columns: time, pulse, three empty, thrust gf, volts, amperes, rpm. */
static bool read_small(const char *path, drive_bench *bench, size_t *room)
{
    const char *name = strrchr(path, '/') + 1;
    if (name[0] < 'a' || name[0] >= 'a' + DRIVE_SMALL_MOTORS || name[1] < '1' ||
        name[1] > '0' + DRIVE_PROPELLERS || strncmp(name, "b4", 2) == 0)
        return true;
    fit_table table;
    if (!fit_table_read(path, &table))
        return false;
    bool fine = true;
    for (size_t i = 0; fine && i < table.rows && table.columns > 8; i++) {
        const double rpm = fit_table_at(&table, i, 8);
        const drive_row row = {.motor = name[0] - 'a',
                               .esc = 0,
                               .propeller = name[1] - '1',
                               .top = fit_table_at(&table, i, 1) > TOP_PULSE_US,
                               .volts_v = fit_table_at(&table, i, 6),
                               .current_a = fit_table_at(&table, i, 7),
                               .speed_rad_s = rpm * RPM,
                               .thrust_n = fit_table_at(&table, i, 5) * GRAM_FORCE_N,
                               .torque_nm = (double)NAN};
        if (rpm >= LEAST_RPM && row.thrust_n >= LEAST_N && row.volts_v > 0 && row.current_a > 0)
            fine = add(bench, row, room);
    }
    fit_table_free(&table);
    return fine;
}

/* Lines "esc-a motor-1900kv,t,rpm,thrust,torque,volts,amps": they begin with a word. */
static bool read_seven(const char *path, drive_bench *bench, size_t *room)
{
    FILE *file = fopen(path, "r");
    if (!file) {
        perror(path);
        return false;
    }
    char line[256];
    bool fine = true;
    while (fine && fgets(line, sizeof line, file)) {
        char esc;
        double rpm, thrust, torque, volts, amps;
        if (sscanf(line, "esc-%c motor-%*[^,],%*f,%lf,%lf,%lf,%lf,%lf", &esc, &rpm, &thrust,
                   &torque, &volts, &amps) != 6 ||
            esc < 'a' || esc > 'c')
            continue;
        fine = add(bench,
                   (drive_row){.motor = DRIVE_SMALL_MOTORS + (esc - 'a'),
                               .esc = 1 + (esc - 'a'),
                               .propeller = -1,
                               .volts_v = volts,
                               .current_a = amps,
                               .speed_rad_s = rpm * RPM,
                               .thrust_n = thrust,
                               .torque_nm = torque},
                   room);
    }
    fclose(file);
    return fine;
}

bool drive_bench_read(const char *data_folder, drive_bench *bench)
{
    char path[4096];
    size_t room = 0;
    char **paths;
    *bench = (drive_bench){0};
    name_motors(bench);
    snprintf(path, sizeof path, "%s/student-5inch-bench/rawdata", data_folder);
    const size_t count = fit_paths(path, ".csv", &paths);
    bool fine = count > 0;
    for (size_t i = 0; fine && i < count; i++)
        fine = read_small(paths[i], bench, &room);
    fit_paths_free(count, paths);
    const size_t small = bench->rows;
    snprintf(path, sizeof path, "%s/esc-test-7inch/steady_1s.csv", data_folder);
    fine = fine && read_seven(path, bench, &room);
    if (fine && small > 0 && bench->rows > small)
        return true;
    fprintf(stderr, "%s: the two stands' tables were not all read\n", data_folder);
    drive_bench_free(bench);
    return false;
}

void drive_bench_free(drive_bench *bench)
{
    free(bench->row);
    *bench = (drive_bench){0};
}
