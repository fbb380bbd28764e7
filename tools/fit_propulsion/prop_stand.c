/* prop_stand.c: thrust stands with propellers of three and four blades.
 *
 * student-5inch-bench (Cao and Strawson, 2018): thrust at rpm of seven 5 in propellers on thirteen
 * motors; no torque. Row by row the throttle steps up, and the last rows sag with the pack, but thrust
 * and rpm of a row belong together. Power at the shaft is worked out from that at the ESC with a
 * motor of the stated kV and of a resistance and idle current usual for its size: some 5 % sure, and
 * alike for all, so it bends the fit a little and never judges it. Files of b4 are faulty (KEY.md there) and left out.
 * esc-test-7inch (Spitzer, Carnegie Mellon, 2019): thrust and torque of one 7 in propeller of three
 * blades on several motors; its pitch was not written down and is taken as 4 in. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "blade.h"
#include "table.h"

#define INCH_M  0.0254
#define PI      3.14159265358979323846
#define GRAVITY 9.80665
/* Slower than this, the stand's own resolution shows. */
#define LEAST_RPM_5IN 6000
#define LEAST_RPM_7IN 3500

static const struct five {
    double pitch_in;
    int blades;
} fives[] = {{4.0, 3}, {4.5, 3}, {4.5, 3}, {4.0, 2}, {4.0, 4}, {4.5, 2}, {4.0, 3}};

static fit_blade *stand_blade(fit_blades *blades, const char *name, double diameter_in,
                              double pitch_in, int count, double density_kg_m3)
{
    fit_blade *blade = fit_blade_named(blades, name);
    if (blade && blade->size.blades == 0) {
        snprintf(blade->maker, sizeof blade->maker, "stand");
        blade->line = PARE_LINE_BROAD;
        blade->stand = true;
        blade->density_kg_m3 = density_kg_m3;
        blade->size = (pare_prop_size){.diameter_m = diameter_in * INCH_M,
                                       .pitch_m = pitch_in * INCH_M,
                                       .blades = count,
                                       .line = PARE_LINE_BROAD};
    }
    return blade;
}

/* Motors a to m, rpm per volt (KEY.md of the data). */
static const double kv_of[] = {2600, 2500, 2450, 2300, 2400, 2350, 2000,
                               2400, 2300, 2400, 2400, 2800, 2400};

/* Torque of a motor that draws so much power at a speed. [E] 3 % to the ESC's own losses, 0.1 ohm of
 * winding, ESC and wires, 0.8 A to turn it idle. */
static double torque_of(double kv, double rpm, double electrical_w)
{
    const double resistance_ohm = 0.1, idle_a = 0.8, ke = 30 / (PI * kv), back_v = rpm / kv;
    const double current_a =
        (sqrt(back_v * back_v + 4 * resistance_ohm * 0.97 * electrical_w) - back_v) /
        (2 * resistance_ohm);
    return ke * (current_a - idle_a);
}

static bool put(fit_blade *blade, double rpm, double thrust_n, double torque_nm, bool derived,
                int run)
{
    const double turns = rpm / 60, d = blade->size.diameter_m;
    const double unit = blade->density_kg_m3 * turns * turns * d * d * d * d;
    const fit_row row = {.speed_rad_s = rpm * PI / 30,
                         .ct = thrust_n / unit,
                         .cp = 2 * PI * torque_nm / (unit * d),
                         .derived = derived,
                         .run = run,
                         .still = true,
                         .judged = true};
    return fit_blade_add(blade, &row);
}

static bool read_five(const char *path, int run, fit_blades *blades)
{
    const char *file = strrchr(path, '/') + 1;
    const int number = file[1] - '1';
    if (file[0] < 'a' || file[0] > 'm' || number < 0 ||
        number >= (int)(sizeof fives / sizeof fives[0]) || strncmp(file, "b4", 2) == 0)
        return true;
    fit_table table;
    if (!fit_table_read(path, &table))
        return false;
    char name[48];
    snprintf(name, sizeof name, "stand_5_%d", number + 1);
    fit_blade *blade =
        stand_blade(blades, name, 5, fives[number].pitch_in, fives[number].blades, 1.2);
    bool fine = blade != NULL;
    for (size_t i = 0; fine && i < table.rows; i++) {
        const double thrust_n = fit_table_at(&table, i, 5) * 1e-3 * GRAVITY;
        const double rpm = fit_table_at(&table, i, 8);
        if (rpm > LEAST_RPM_5IN && thrust_n > 0)
            fine =
                put(blade, rpm, thrust_n,
                    torque_of(kv_of[file[0] - 'a'], rpm, fit_table_at(&table, i, 10)), true, run);
    }
    fit_table_free(&table);
    return fine;
}

static bool read_seven(const char *path, fit_blades *blades)
{
    FILE *file = fopen(path, "r");
    if (!file) {
        perror(path);
        return false;
    }
    fit_blade *blade = stand_blade(blades, "stand_7_1", 7, 4, 3, 1.19);
    bool fine = blade != NULL;
    char line[512], last[64] = "";
    int run = 9000;
    for (int row = 0; fine && fgets(line, sizeof line, file); row++) {
        const size_t length = strcspn(line, ",");
        double rpm, thrust_n, torque_nm;
        if (sscanf(line + length, ",%*f,%lf,%lf,%lf", &rpm, &thrust_n, &torque_nm) != 3)
            continue;
        if (strncmp(last, line, length) != 0 || last[length]) {
            snprintf(last, sizeof last, "%.*s", (int)(length < 63 ? length : 63), line);
            run++;
        }
        if (rpm > LEAST_RPM_7IN && torque_nm > 0 && row % 4 == 0)
            fine = put(blade, rpm, thrust_n, torque_nm, false, run);
    }
    fclose(file);
    return fine;
}

bool fit_read_stands(const char *data_folder, fit_blades *blades)
{
    char path[4096];
    snprintf(path, sizeof path, "%s/student-5inch-bench/rawdata", data_folder);
    char **paths;
    const size_t count = fit_paths(path, ".csv", &paths);
    bool fine = count > 0;
    for (size_t i = 0; fine && i < count; i++)
        fine = read_five(paths[i], 8000 + (int)i, blades);
    fit_paths_free(count, paths);
    snprintf(path, sizeof path, "%s/esc-test-7inch/steady_1s.csv", data_folder);
    return fine && read_seven(path, blades);
}
