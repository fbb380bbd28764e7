/* rooms: physics base */
/* speed/rotor.c: what a rotor's answers cost, by table and straight from the blade elements.
 *
 * Each figure is the least of many short runs: on a busy machine the mean measures the neighbours.
 * Arguments change from call to call, so that nothing is hoisted out of the loop or well predicted.
 * The baseline is the same question answered by direct evaluation in the same process. */
#include <stdio.h>
#include <time.h>

#include "physics/prop.h"
#include "physics/rotor.h"

enum { RUNS = 60, STATES = 64 };

typedef struct bench {
    pare_air air;
    pare_prop prop;
    pare_prop_table table;
    double hover_rad_s, hover_n;
} bench;

/* One call; i runs over 0 .. STATES - 1; the result is summed so that it is not optimised away. */
typedef double call(const bench *on, const pare_rotor *rotor, int i);

static double now_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static double sink;

static double least_ns(const bench *on, const pare_rotor *rotor, call *one, int rounds)
{
    double least = 1e9;
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        for (int round = 0; round < rounds; round++)
            for (int i = 0; i < STATES; i++)
                sink += one(on, rotor, i);
        const double each = (now_s() - start) * 1e9 / (rounds * STATES);
        least = each < least ? each : least;
    }
    return least;
}

static double look_up(const bench *on, const pare_rotor *rotor, int i)
{
    double ct, cp;
    const double advance = i * 0.015, speed_rad_s = on->hover_rad_s * (0.8 + 0.01 * i);
    if (rotor->table != NULL)
        pare_prop_table_coefficients(rotor->table, advance, speed_rad_s, &on->air, &ct, &cp);
    else
        pare_prop_coefficients(rotor->prop, advance, speed_rad_s, &on->air, &ct, &cp);
    return ct + cp;
}

static double at(const bench *on, const pare_rotor *rotor, int i, double axial_m_s,
                 double inplane_m_s)
{
    pare_rotor_state state;
    pare_rotor_at(rotor, &on->air, on->hover_rad_s * (0.9 + 0.005 * i), axial_m_s, inplane_m_s,
                  &state);
    return state.thrust_n + state.torque_nm;
}

static double at_axial(const bench *on, const pare_rotor *rotor, int i)
{
    return at(on, rotor, i, 0.1 * i, 0);
}

static double at_level(const bench *on, const pare_rotor *rotor, int i)
{
    return at(on, rotor, i, 0.03 * i, 12);
}

static double at_steep(const bench *on, const pare_rotor *rotor, int i)
{
    return at(on, rotor, i, 10 + 0.03 * i, 12);
}

static double for_thrust(const bench *on, const pare_rotor *rotor, int i, double axial_m_s,
                         double inplane_m_s, double near_rad_s)
{
    pare_rotor_state state = {0};
    pare_rotor_for_thrust(rotor, &on->air, on->hover_n * (0.97 + 0.001 * i), axial_m_s, inplane_m_s,
                          near_rad_s, &state, NULL);
    return state.speed_rad_s;
}

static double for_hover(const bench *on, const pare_rotor *rotor, int i)
{
    return for_thrust(on, rotor, i, 0, 0, on->hover_rad_s);
}

static double for_hover_cold(const bench *on, const pare_rotor *rotor, int i)
{
    return for_thrust(on, rotor, i, 0, 0, 0);
}

static double for_climb(const bench *on, const pare_rotor *rotor, int i)
{
    return for_thrust(on, rotor, i, 5, 0, on->hover_rad_s * 1.15);
}

static double for_level(const bench *on, const pare_rotor *rotor, int i)
{
    return for_thrust(on, rotor, i, 0.03 * i, 12, on->hover_rad_s);
}

static void compare(const bench *on, const char *name, call *one)
{
    const pare_rotor tabled = {&on->prop, &on->table, 1, 1}, direct = {&on->prop, NULL, 1, 1};
    const double table_ns = least_ns(on, &tabled, one, 40);
    const double direct_ns = least_ns(on, &direct, one, 1);
    printf("%-24s %10.1f ns  (%.0f x direct, %.0f ns)\n", name, table_ns, direct_ns / table_ns,
           direct_ns);
}

static double build_ns(bench *on)
{
    double least = 1e12;
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        pare_prop_table_build(&on->prop, &on->table);
        const double each = (now_s() - start) * 1e9;
        least = each < least ? each : least;
    }
    return least;
}

int main(void)
{
    static bench on;
    const pare_prop_size size = {.diameter_m = 0.1295, .pitch_m = 0.109, .blades = 3};
    pare_error err;
    pare_rotor_state state;
    if (pare_air_standard(0, &on.air, &err) != PARE_OK ||
        pare_prop_from_size(&size, &pare_prop_family, &on.prop, &err) != PARE_OK) {
        fprintf(stderr, "%s\n", err.text);
        return 1;
    }
    const double built_ns = build_ns(&on);
    on.hover_rad_s = 1130;
    const pare_rotor direct = {&on.prop, NULL, 1, 1};
    pare_rotor_at(&direct, &on.air, on.hover_rad_s, 0, 0, &state);
    on.hover_n = state.thrust_n;
    const double one_ns = least_ns(&on, &direct, look_up, 1);
    printf("%-24s %10.3f ms  (%.0f x one direct evaluation)\n", "propeller table", built_ns * 1e-6,
           built_ns / one_ns);
    compare(&on, "look-up", look_up);
    compare(&on, "rotor along its axis", at_axial);
    compare(&on, "rotor in level flight", at_level);
    compare(&on, "rotor in steep flight", at_steep);
    compare(&on, "speed for hover", for_hover);
    compare(&on, "speed for hover, cold", for_hover_cold);
    compare(&on, "speed for climb", for_climb);
    compare(&on, "speed for level flight", for_level);
    return sink > 0 ? 0 : 1;
}
