/* rooms: store craft physics base */
/* sheet.c: what a whole sheet costs with everything warm, what its largest pieces do, and a wire over a flown
 * profile.
 *
 * The craft is read from a bench file given as the first argument (./dev speed passes the demo's).
 * Baseline in the same run: one evaluation of the craft's propeller straight from its blade elements,
 * which is what a sheet without tables asks for some hundred times; for the wire, small explicit steps of
 * its differential equation. Each figure is the least of many
 * rounds of about a millisecond: on a busy machine a mean, or a round that is interrupted, measures the
 * neighbours. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "craft/flight.h"
#include "craft/margin.h"
#include "craft/sheet.h"
#include "physics/wire_heat.h"
#include "store/bench.h"

enum { ROUNDS = 400, SHEETS = 40 };

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* One piece of work, repeated; false: it failed. */
typedef bool piece(const pare_craft *craft, pare_sheet *sheet);

static bool plain(const pare_craft *craft, pare_sheet *sheet)
{
    return pare_sheet_compute(craft, false, sheet, NULL) == PARE_OK;
}

static bool with_doubt(const pare_craft *craft, pare_sheet *sheet)
{
    return pare_sheet_compute(craft, true, sheet, NULL) == PARE_OK;
}

static bool assembly(const pare_craft *craft, pare_sheet *sheet)
{
    return pare_assemble(craft, &sheet->assembly, NULL) == PARE_OK;
}

/* These two work on the rig that the sheet before left behind. */
static bool flight(const pare_craft *craft, pare_sheet *sheet)
{
    pare_endurance endured;
    pare_flight_figures(&craft->brief, &sheet->rig, sheet->figure, &endured);
    return true;
}

static bool margins(const pare_craft *craft, pare_sheet *sheet)
{
    pare_sheet_margins(craft, sheet);
    return true;
}

/* Cruise and bursts in turn, 4 minutes. */
enum { STRETCHES = 24 };

static pare_wire_stretch stretch_of(int i)
{
    return (pare_wire_stretch){i % 3 == 2 ? 90 : 12, i % 3 == 2 ? 2 : 14};
}

static pare_wire_load lead(void)
{
    pare_wire_load load = pare_wire_load_defaults();
    load.gauge = 14;
    load.outer_m = 3.5e-3;
    return load;
}

static bool flown_wire(const pare_craft *craft, pare_sheet *sheet)
{
    (void)craft;
    (void)sheet;
    const pare_wire_load load = lead();
    pare_wire_stretch stretch[STRETCHES];
    pare_wire_heat heat;
    double hottest_degc;
    for (int i = 0; i < STRETCHES; i++)
        stretch[i] = stretch_of(i);
    return pare_wire_flown(&load, 25, STRETCHES, stretch, &heat, &hottest_degc, NULL) == PARE_OK;
}

/* Each stretch from one temperature on, by small steps: what it takes, not where it ends. */
static bool stepped_wire(const pare_craft *craft, pare_sheet *sheet)
{
    (void)craft;
    (void)sheet;
    pare_wire_load load = lead();
    pare_wire_heat heat = {25, 25};
    for (int i = 0; i < STRETCHES; i++) {
        load.current_a = stretch_of(i).current_a;
        if (pare_wire_after(&load, heat.conductor_degc, stretch_of(i).seconds, &heat, NULL) !=
            PARE_OK)
            return false;
    }
    return true;
}

static bool direct_rotor(const pare_craft *craft, pare_sheet *sheet)
{
    (void)craft;
    pare_rotor direct = sheet->rig.rotor;
    pare_rotor_state state;
    direct.table = NULL;
    pare_rotor_at(&direct, &sheet->rig.air, sheet->figure[PARE_HOVER_RPM].value, 5, 0, &state);
    return state.thrust_n > -1e9;
}

/* Seconds each; 0 where it fails. */
static double best_of(const pare_craft *craft, piece *work, int times, pare_sheet *sheet)
{
    double best = 1e9;
    for (int round = 0; round < ROUNDS; round++) {
        const double start = now_s();
        for (int i = 0; i < times; i++)
            if (!work(craft, sheet))
                return 0;
        const double each = (now_s() - start) / times;
        best = each < best ? each : best;
    }
    return best;
}

static void report(const char *name, double each_s, double over_s, const char *over)
{
    printf("%-28s %9.2f us  (%.2f x %s)\n", name, 1e6 * each_s, each_s / over_s, over);
}

static void measure_craft(const pare_craft *craft, pare_sheet *sheet)
{
    static const char direct_name[] = "one direct rotor evaluation", whole_name[] = "the sheet";
    char name[64];
    const double whole = best_of(craft, plain, SHEETS, sheet);
    const double direct = best_of(craft, direct_rotor, SHEETS / 4, sheet);
    snprintf(name, sizeof name, "sheet of %s", craft->name);
    report(name, whole, direct, direct_name);
    report("  of it assembly", best_of(craft, assembly, SHEETS, sheet), whole, whole_name);
    report("  of it flight", best_of(craft, flight, SHEETS, sheet), whole, whole_name);
    report("  of it margins", best_of(craft, margins, SHEETS, sheet), whole, whole_name);
    report("  with uncertainties", best_of(craft, with_doubt, 2, sheet), whole, whole_name);
}

static int measure(const char *path, pare_sheet *sheet)
{
    pare_error err = {0};
    pare_store *store = NULL;
    pare_bench *bench = NULL;
    pare_status status = pare_store_open(path, PARE_STORE_READ, &store, &err);
    if (status == PARE_OK)
        status = pare_store_read(store, &bench, &err);
    if (status == PARE_OK)
        status = pare_store_warm(store, bench, &err);
    for (size_t i = 0; status == PARE_OK && i < bench->crafts; i++) {
        pare_craft *craft = malloc(sizeof *craft);
        if (!craft)
            break;
        status = pare_craft_load(bench->craft[i], bench->craft[i]->loadouts ? 0 : -1, craft, &err);
        if (status == PARE_OK)
            measure_craft(craft, sheet);
        free(craft);
    }
    if (status != PARE_OK)
        fprintf(stderr, "speed_sheet: %s\n", err.text);
    pare_bench_close(bench);
    pare_store_close(store);
    return (int)status;
}

static void measure_wire(pare_sheet *sheet)
{
    const double stepped = best_of(NULL, stepped_wire, 1, sheet);
    report("wire over 24 stretches flown", best_of(NULL, flown_wire, SHEETS, sheet), stepped,
           "the same in small steps");
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fprintf(stderr, "speed_sheet: which bench file?\n");
        return 2;
    }
    pare_sheet *sheet = malloc(sizeof *sheet);
    const int status = sheet ? measure(argv[1], sheet) : 4;
    if (sheet)
        measure_wire(sheet);
    free(sheet);
    return status;
}
