/* rooms: physics base */
/* What each flight figure of a sheet costs with tables warm, alone and as a set that shares one flight,
 * as a sheet asks for it. One line each: name, microseconds, and the share of a sheet's budget of 25 us. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "physics/aloft.h"

#define BUDGET_US 25.0

static pare_prop prop;
static pare_prop_table table;
static pare_rig rig;
static pare_landing landing;
static volatile double sink;

static const pare_flown entries[] = {{PARE_FLOWN_THRUST, 0.3, 1},
                                     {PARE_FLOWN_SPEED, 0.4, 12},
                                     {PARE_FLOWN_SPEED, 0.2, 18},
                                     {PARE_FLOWN_FULL, 0.1, 0}};

static void must(pare_status status, const pare_error *err)
{
    if (status == PARE_OK)
        return;
    fprintf(stderr, "speed rig: %s\n", err->text);
    exit(1);
}

static void hover(void)
{
    pare_operating p;
    pare_error err;
    must(pare_rig_thrust(&rig, 1, 0.5, &p, &err), &err);
    sink = p.pack_a;
}

static void full(void)
{
    static const double charge[] = {1, 0.5, 0.2};
    pare_operating p;
    pare_error err;
    for (int i = 0; i < 3; i++) {
        must(pare_rig_full(&rig, charge[i], 0.3, 0, 0, 0, &p, &err), &err);
        sink = p.pack_a;
    }
}

static void level(void)
{
    pare_operating p;
    pare_error err;
    for (int i = 1; i <= 2; i++) {
        must(pare_rig_level(&rig, 9 * i, 0.5, &p, &err), &err);
        sink = p.pack_a;
    }
}

static void flown(void)
{
    pare_endurance e;
    pare_error err;
    must(pare_rig_endure(&rig, sizeof entries / sizeof entries[0], entries, &landing, &e, &err),
         &err);
    sink = e.time_s;
}

static void hover_time(void)
{
    const pare_flown entry = {PARE_FLOWN_THRUST, 1, 1};
    pare_endurance e;
    pare_error err;
    must(pare_rig_endure(&rig, 1, &entry, &landing, &e, &err), &err);
    sink = e.time_s;
}

static void best_range(void)
{
    pare_best_range r;
    pare_error err;
    must(pare_rig_best_range(&rig, &landing, &r, &err), &err);
    sink = r.range_m;
}

static void burst(void)
{
    pare_burst b;
    pare_error err;
    must(pare_rig_burst(&rig, 30, 1, 0, &b, &err), &err);
    sink = b.time_s;
}

static void turn(void)
{
    pare_turn t;
    pare_error err;
    must(pare_rig_turn(&rig, 12, 0.8, &t, &err), &err);
    sink = t.load_factor;
}

static void quickness(void)
{
    pare_quickness q;
    pare_error err;
    must(pare_rig_quickness(&rig, 1, &q, &err), &err);
    sink = q.roll_rad_s2;
}

static void climb(void)
{
    double v;
    pare_error err;
    must(pare_rig_climb(&rig, 0.8, &v, &err), &err);
    sink = v;
}

static void top_speed(void)
{
    double v;
    pare_error err;
    must(pare_rig_top_speed(&rig, 0.8, &v, &err), &err);
    sink = v;
}

static void growth(void)
{
    pare_growth g;
    pare_error err;
    must(pare_rig_growth(&rig, &landing, &g, &err), &err);
    sink = g.growth;
}

/* All of the above of one flight. */
static void shared(void)
{
    static const double charge[] = {1, 0.5, 0.2};
    const pare_flown hovering = {PARE_FLOWN_THRUST, 1, 1};
    pare_flight flight;
    pare_operating p;
    pare_endurance e;
    pare_best_range r;
    pare_burst b;
    pare_turn t;
    pare_quickness q;
    double v;
    pare_error err;
    must(pare_flight_begin(&rig, &flight, &err), &err);
    must(pare_flight_thrust(&flight, 1, 0.5, &p, &err), &err);
    for (int i = 0; i < 3; i++)
        must(pare_flight_rest(&flight, charge[i], &p, &err), &err);
    must(pare_flight_endure(&flight, sizeof entries / sizeof entries[0], entries, &landing, &e,
                            &err),
         &err);
    must(pare_flight_endure(&flight, 1, &hovering, &landing, &e, &err), &err);
    must(pare_flight_best_range(&flight, &landing, &r, &err), &err);
    must(pare_flight_burst(&flight, 30, 1, 0, &b, &err), &err);
    must(pare_flight_turn(&flight, 12, 0.8, &t, &err), &err);
    must(pare_flight_quickness(&flight, 1, &q, &err), &err);
    must(pare_flight_climb(&flight, 0.8, &v, &err), &err);
    must(pare_flight_top_speed(&flight, 0.8, &v, &err), &err);
    sink = v;
}

static double now_us(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return 1e6 * (double)t.tv_sec + 1e-3 * (double)t.tv_nsec;
}

/* Best of several rounds: the one that nothing else on the machine disturbed. */
static double cost_us(void (*piece)(void))
{
    double best = HUGE_VAL;
    for (int round = 0; round < 30; round++) {
        const int times = 300;
        const double start = now_us();
        for (int i = 0; i < times; i++)
            piece();
        best = fmin(best, (now_us() - start) / times);
    }
    return best;
}

int main(void)
{
    static const struct {
        const char *name;
        double diameter_m, pitch_m;
        int blades;
        double mass, kv, ohm, no_load, motor_kg;
        int cells;
        double ah, cda, prop_kg, arm, xx, yy, zz;
    } craft[] = {{"five inch", 0.12954, 0.10922, 3, 0.68, 1950, 0.065, 1.2, 0.033, 6, 1.3, 0.008,
                  0.0045, 0.08, 0.0025, 0.003, 0.005},
                 {"ten inch", 0.254, 0.1143, 2, 1.45, 920, 0.11, 0.6, 0.056, 4, 5, 0.02, 0.011,
                  0.16, 0.012, 0.013, 0.022}};
    static const struct {
        const char *name;
        void (*piece)(void);
    } pieces[] = {{"hover", hover},
                  {"full throttle, 3 charges", full},
                  {"level, 2 speeds", level},
                  {"minutes as flown, 4 entries", flown},
                  {"hover minutes", hover_time},
                  {"best range", best_range},
                  {"burst", burst},
                  {"turn", turn},
                  {"quickness", quickness},
                  {"climb", climb},
                  {"top speed", top_speed}};
    for (size_t c = 0; c < sizeof craft / sizeof craft[0]; c++) {
        pare_error err;
        const pare_prop_size size = {.diameter_m = craft[c].diameter_m,
                                     .pitch_m = craft[c].pitch_m,
                                     .blades = craft[c].blades};
        must(pare_prop_from_size(&size, &pare_prop_family, &prop, &err), &err);
        pare_prop_table_build(&prop, &table);
        pare_rig_defaults(&rig);
        must(pare_air_standard(0, &rig.air, &err), &err);
        rig.rotor.prop = &prop;
        rig.rotor.table = &table;
        rig.mass_kg = craft[c].mass;
        rig.motor.kv_rpm_per_v = craft[c].kv;
        rig.motor.resistance_ohm = craft[c].ohm;
        rig.motor.no_load_a = craft[c].no_load;
        rig.motor.mass_kg = craft[c].motor_kg;
        rig.pack.cells = craft[c].cells;
        rig.pack.capacity_c = craft[c].ah * 3600;
        rig.pack.mass_kg = 0.2;
        rig.drag_m2 = craft[c].cda;
        rig.drag_top_m2 = 2 * craft[c].cda;
        rig.always_w = 5;
        rig.spin_kg_m2 =
            pare_rotor_spin_kg_m2(craft[c].prop_kg, craft[c].diameter_m, craft[c].motor_kg);
        rig.inertia_xx_kg_m2 = craft[c].xx;
        rig.inertia_yy_kg_m2 = craft[c].yy;
        rig.inertia_zz_kg_m2 = craft[c].zz;
        rig.sum_x_m = rig.sum_y_m = 4 * craft[c].arm;
        landing = (pare_landing){3.5, 0.2};
        double sum = 0;
        for (size_t i = 0; i < sizeof pieces / sizeof pieces[0]; i++) {
            const double us = cost_us(pieces[i].piece);
            printf("%s: %-28s %7.2f us  (%.2f)\n", craft[c].name, pieces[i].name, us,
                   us / BUDGET_US);
            sum += us;
        }
        printf("%s: %-28s %7.2f us  (%.2f)\n", craft[c].name, "the sum of these", sum,
               sum / BUDGET_US);
        const double set_us = cost_us(shared);
        printf("%s: %-28s %7.2f us  (%.2f)\n", craft[c].name, "the set of one flight", set_us,
               set_us / BUDGET_US);
        const double us = cost_us(growth);
        printf("%s: %-28s %7.2f us  (%.2f)\n", craft[c].name, "knock-on, not in the set", us,
               us / BUDGET_US);
    }
    return 0;
}
