/* tunnel.c: the wind tunnel tables of propellers (UIUC Propeller Data Site, volumes 1 to 4).
 *
 * A file is NAME_geom.txt (r/R, c/R, twist in degrees), NAME_static_SESSION.txt (rpm, CT, CP) or
 * NAME_SESSION_RPM.txt (J, CT, CP). A name begins with its maker's line, then states diameter and
 * pitch: in inches with the point left out of three digits (125x75 is 12.5 in x 7.5 in), or in
 * millimetres with some lines. Some names state neither: those sizes are typed below. Air was not
 * written down: standard air is taken, which matters to Reynolds and Mach number only. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "blade.h"
#include "table.h"

#define INCH_M 0.0254
#define PI     3.14159265358979323846

enum { RUN_ROWS = 8 };

/* The shape class of each maker's line in the collection. */
static const struct maker {
    const char *maker;
    pare_prop_line line;
    bool millimetres, research;
} makers[] = {
    {"apc29ff", PARE_LINE_SPORT, false, false},  {"apccf", PARE_LINE_SPORT, false, false},
    {"apce", PARE_LINE_THIN, false, false},      {"apcsf", PARE_LINE_SLOW, false, false},
    {"apcsp", PARE_LINE_SPORT, false, false},    {"ancf", PARE_LINE_FOLDING, false, false},
    {"cfnq", PARE_LINE_UNKNOWN, true, false},    {"da4002", PARE_LINE_UNKNOWN, false, true},
    {"da4022", PARE_LINE_UNKNOWN, false, true},  {"da4052", PARE_LINE_UNKNOWN, false, true},
    {"ef", PARE_LINE_UNKNOWN, true, false},      {"grcp", PARE_LINE_CLASSIC, false, false},
    {"grcsp", PARE_LINE_SLIM, false, false},     {"grsn", PARE_LINE_CLASSIC, false, false},
    {"gwsdd", PARE_LINE_DIRECT, false, false},   {"gwssf", PARE_LINE_PARK, false, false},
    {"kavfk", PARE_LINE_CLASSIC, false, false},  {"kpf", PARE_LINE_UNKNOWN, true, false},
    {"kyosho", PARE_LINE_CLASSIC, false, false}, {"ma", PARE_LINE_CLASSIC, false, false},
    {"mae", PARE_LINE_SLIM, false, false},       {"magf", PARE_LINE_CLASSIC, false, false},
    {"mas", PARE_LINE_SCIMITAR, false, false},   {"mit", PARE_LINE_UNKNOWN, false, false},
    {"pl", PARE_LINE_UNKNOWN, true, false},
};

static const struct maker *maker_of(const char *name)
{
    for (size_t i = 0; i < sizeof makers / sizeof makers[0]; i++) {
        const size_t length = strlen(makers[i].maker);
        if (strncmp(name, makers[i].maker, length) == 0 && name[length] == '_')
            return &makers[i];
    }
    return NULL;
}

/* The size that a name states; sizes that it does not are those of the site's own list. */
static void put_size(fit_blade *blade, bool millimetres)
{
    const char *text = strchr(blade->name, '_') + 1;
    char *end;
    double diameter = strtod(text, &end);
    double pitch = *end == 'x' ? strtod(end + 1, NULL) : 0;
    if (strncmp(blade->name, "cfnq", 4) == 0) {
        diameter = 45;
        pitch = 0;
    } else if (end == text) {
        diameter = pitch = 0;
    } else if (!millimetres) {
        if (diameter >= 100)
            diameter /= 10;
        if (pitch > 1.5 * diameter)
            pitch /= 10;
    }
    const double unit_m = millimetres ? 1e-3 : INCH_M;
    const char *blades = strstr(blade->name, "_3b") ? "3" : strstr(blade->name, "_4b") ? "4" : "2";
    blade->size = (pare_prop_size){.diameter_m = diameter * unit_m,
                                   .pitch_m = pitch * unit_m,
                                   .blades = atoi(blades),
                                   .line = blade->line};
}

fit_blade *fit_blade_named(fit_blades *blades, const char *name)
{
    for (size_t i = 0; i < blades->count; i++)
        if (strcmp(blades->blade[i].name, name) == 0)
            return &blades->blade[i];
    fit_blade *grown = realloc(blades->blade, (blades->count + 1) * sizeof *grown);
    if (!grown)
        return NULL;
    blades->blade = grown;
    fit_blade *blade = &grown[blades->count++];
    memset(blade, 0, sizeof *blade);
    snprintf(blade->name, sizeof blade->name, "%s", name);
    return blade;
}

bool fit_blade_add(fit_blade *blade, const fit_row *row)
{
    if (blade->rows % 64 == 0) {
        fit_row *grown = realloc(blade->row, (blade->rows + 64) * sizeof *grown);
        if (!grown)
            return false;
        blade->row = grown;
    }
    blade->row[blade->rows++] = *row;
    return true;
}

void fit_blades_free(fit_blades *blades)
{
    for (size_t i = 0; i < blades->count; i++)
        free(blades->blade[i].row);
    free(blades->blade);
    *blades = (fit_blades){0, NULL};
}

static void put_stations(fit_blade *blade, const fit_table *table)
{
    for (size_t i = 0; i < table->rows && blade->stations < PARE_PROP_STATIONS; i++) {
        blade->radius[blade->stations] = fit_table_at(table, i, 0);
        blade->chord[blade->stations] = fit_table_at(table, i, 1);
        blade->twist_rad[blade->stations++] = fit_table_at(table, i, 2) * PI / 180;
    }
}

static bool put_still(fit_blade *blade, const fit_table *table, int run)
{
    for (size_t i = 0; i < table->rows; i++) {
        const fit_row row = {.advance = 0,
                             .speed_rad_s = fit_table_at(table, i, 0) * PI / 30,
                             .ct = fit_table_at(table, i, 1),
                             .cp = fit_table_at(table, i, 2),
                             .run = run,
                             .still = true,
                             .judged = true};
        if (row.ct > 0 && row.cp > 0 && !fit_blade_add(blade, &row))
            return false;
    }
    return true;
}

static bool put_running(fit_blade *blade, const fit_table *table, double rpm, int run)
{
    double most = 0;
    for (size_t i = 0; i < table->rows; i++)
        most = fmax(most, fit_table_at(table, i, 1));
    size_t good = 0;
    for (int pass = 0; pass < 2; pass++) {
        const size_t step = pass ? (good + RUN_ROWS - 1) / RUN_ROWS : 1;
        size_t seen = 0;
        for (size_t i = 0; i < table->rows; i++) {
            const fit_row row = {.advance = fit_table_at(table, i, 0),
                                 .speed_rad_s = rpm * PI / 30,
                                 .ct = fit_table_at(table, i, 1),
                                 .cp = fit_table_at(table, i, 2),
                                 .run = run,
                                 .judged = fit_table_at(table, i, 1) > 0.3 * most};
            if (!row.judged || !(row.cp > 0))
                continue;
            good += pass == 0;
            if (pass == 1 && seen++ % step == step / 2) {
                if (!fit_blade_add(blade, &row))
                    return false;
            }
        }
    }
    return true;
}

/* NAME of a file, and what it holds: 'g' blade, 's' at rest, 'r' running at an rpm; 0: none. */
static char kind_of(const char *path, char name[48], double *rpm)
{
    const char *file = strrchr(path, '/') + 1;
    char text[64];
    snprintf(text, sizeof text, "%s", file);
    char *dot = strstr(text, ".txt");
    if (!dot)
        return 0;
    *dot = '\0';
    char *mark = strstr(text, "_geom");
    char kind = 'g';
    if (!mark) {
        mark = strstr(text, "_static");
        kind = 's';
    }
    if (!mark) {
        mark = strrchr(text, '_');
        kind = 'r';
        if (!mark)
            return 0;
        *rpm = strtod(mark + 1, NULL);
        *mark = '\0';
        mark = strrchr(text, '_');
    }
    if (!mark)
        return 0;
    *mark = '\0';
    snprintf(name, 48, "%.47s", text);
    return strchr(name, '_') ? kind : 0;
}

static bool read_file(const char *path, int run, fit_blades *blades)
{
    char name[48];
    double rpm = 0;
    const char kind = kind_of(path, name, &rpm);
    const struct maker *maker = kind ? maker_of(name) : NULL;
    if (!maker)
        return true;
    fit_table table;
    if (!fit_table_read(path, &table))
        return false;
    fit_blade *blade = fit_blade_named(blades, name);
    bool fine = blade != NULL;
    if (fine) {
        if (blade->size.blades == 0) {
            snprintf(blade->maker, sizeof blade->maker, "%s", maker->maker);
            blade->line = maker->line;
            blade->research = maker->research;
            blade->density_kg_m3 = 1.225;
            put_size(blade, maker->millimetres);
        }
        if (kind == 'g')
            put_stations(blade, &table);
        else
            fine =
                kind == 's' ? put_still(blade, &table, run) : put_running(blade, &table, rpm, run);
    }
    fit_table_free(&table);
    return fine;
}

/* Blades of one shape in twos, threes and fours were measured once. */
static void share_stations(fit_blades *blades)
{
    for (size_t i = 0; i < blades->count; i++) {
        fit_blade *blade = &blades->blade[i];
        char *tail = strstr(blade->name, "_3b");
        if (!tail)
            tail = strstr(blade->name, "_4b");
        if (!tail || blade->stations)
            continue;
        for (size_t j = 0; j < blades->count; j++) {
            const fit_blade *like = &blades->blade[j];
            if (like->stations && strlen(like->name) == (size_t)(tail - blade->name) &&
                strncmp(like->name, blade->name, strlen(like->name)) == 0) {
                blade->stations = like->stations;
                memcpy(blade->radius, like->radius, sizeof like->radius);
                memcpy(blade->chord, like->chord, sizeof like->chord);
                memcpy(blade->twist_rad, like->twist_rad, sizeof like->twist_rad);
            }
        }
    }
}

bool fit_read_tunnel(const char *data_folder, fit_blades *blades)
{
    bool fine = true;
    for (int volume = 1; fine && volume <= 4; volume++) {
        char folder[4096];
        snprintf(folder, sizeof folder, "%s/uiuc-propdb/volume-%d/data", data_folder, volume);
        char **paths;
        const size_t count = fit_paths(folder, ".txt", &paths);
        fine = count > 0;
        for (size_t i = 0; fine && i < count; i++)
            fine = read_file(paths[i], 1000 * volume + (int)i, blades);
        fit_paths_free(count, paths);
    }
    share_stations(blades);
    return fine;
}
