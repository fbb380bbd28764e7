/* prop_stand.c: thrust stands with propellers of three and four blades.
 *
 * student-5inch-bench (Cao and Strawson, 2018): thrust at rpm of seven 5 in propellers on thirteen
 * motors; no torque. Row by row the throttle steps up, and the last rows sag with the pack, but thrust
 * and rpm of a row belong together. Power at the shaft is what the drive's own fit makes of that at the
 * ESC (drive_merit.h), so that propellers and drive lose the same watts; it bends the fit and never
 * judges it. Files of b4 are faulty (KEY.md there) and left out.
 * esc-test-7inch (Spitzer, Carnegie Mellon, 2019): thrust and torque of one 7 in propeller of three
 * blades on several motors; its pitch was not written down and is taken as 4 in. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "blade.h"
#include "drive_merit.h"
#include "table.h"

#define INCH_M  0.0254
#define PI      3.14159265358979323846
#define GRAVITY 9.80665
/* Slower than this, the stand's own resolution shows. */
#define LEAST_RPM_5IN 6000
#define LEAST_RPM_7IN 3500

static fit_blade *stand_blade(fit_blades *blades, const char *name, const pare_prop_size *size,
                              double density_kg_m3)
{
    fit_blade *blade = fit_blade_named(blades, name);
    if (blade && blade->size.blades == 0) {
        snprintf(blade->maker, sizeof blade->maker, "stand");
        blade->line = size->line;
        blade->stand = true;
        blade->density_kg_m3 = density_kg_m3;
        blade->size = *size;
    }
    return blade;
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

static bool read_five(const char *path, int run, const drive_merit *merit, fit_blades *blades)
{
    const char *file = strrchr(path, '/') + 1;
    const int number = file[1] - '1';
    if (file[0] < 'a' || file[0] > 'm' || number < 0 || number >= DRIVE_PROPELLERS ||
        strncmp(file, "b4", 2) == 0)
        return true;
    fit_table table;
    if (!fit_table_read(path, &table))
        return false;
    char name[48];
    snprintf(name, sizeof name, "stand_5_%d", number + 1);
    fit_blade *blade = stand_blade(blades, name, &drive_propeller[number], DRIVE_AIR_KG_M3);
    bool fine = blade != NULL;
    for (size_t i = 0; fine && i < table.rows; i++) {
        const double thrust_n = fit_table_at(&table, i, 5) * 1e-3 * GRAVITY;
        const double rpm = fit_table_at(&table, i, 8);
        if (rpm > LEAST_RPM_5IN && thrust_n > 0)
            fine = put(blade, rpm, thrust_n, drive_merit_torque(merit, number, rpm * PI / 30), true,
                       run);
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
    const pare_prop_size size = {
        .diameter_m = 7 * INCH_M, .pitch_m = 4 * INCH_M, .blades = 3, .line = PARE_LINE_BROAD};
    fit_blade *blade = stand_blade(blades, "stand_7_1", &size, 1.19);
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
    drive_merit merit;
    const size_t count = fit_paths(path, ".csv", &paths);
    bool fine = count > 0 && drive_merit_fit(data_folder, &merit);
    for (size_t i = 0; fine && i < count; i++)
        fine = read_five(paths[i], 8000 + (int)i, &merit, blades);
    fit_paths_free(count, paths);
    snprintf(path, sizeof path, "%s/esc-test-7inch/steady_1s.csv", data_folder);
    return fine && read_seven(path, blades);
}
