/* rooms: store craft physics base */
/* sheet.c: what a whole sheet costs with everything warm, and a cold `pare sheet`.
 *
 * The craft is read from a bench file given as the first argument (./dev speed passes the demo's).
 * Baselines in the same run: one rotor look-up through the table, and the sheet with uncertainties. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "craft/sheet.h"
#include "store/bench.h"

enum { ROUNDS = 7, SHEETS = 4000 };

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static double best_of(const pare_craft *craft, bool with_u, int sheets, pare_sheet *sheet)
{
    double best = 1e9;
    pare_error err;
    for (int round = 0; round < ROUNDS; round++) {
        const double start = now_s();
        for (int i = 0; i < sheets; i++)
            if (pare_sheet_compute(craft, with_u, sheet, &err) != PARE_OK)
                return 0;
        const double each = (now_s() - start) / sheets;
        best = each < best ? each : best;
    }
    return best;
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
        if (status == PARE_OK) {
            const double plain = best_of(craft, false, SHEETS, sheet);
            const double doubt = best_of(craft, true, SHEETS / 40, sheet);
            printf("sheet of %-12s %8.2f us  (%.0f a second)\n", craft->name, 1e6 * plain,
                   1 / plain);
            printf("  with uncertainties  %8.2f us  (%.1f x the plain sheet)\n", 1e6 * doubt,
                   doubt / plain);
        }
        free(craft);
    }
    if (status != PARE_OK)
        fprintf(stderr, "speed_sheet: %s\n", err.text);
    pare_bench_close(bench);
    pare_store_close(store);
    return (int)status;
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fprintf(stderr, "speed_sheet: which bench file?\n");
        return 2;
    }
    pare_sheet *sheet = malloc(sizeof *sheet);
    const int status = sheet ? measure(argv[1], sheet) : 4;
    free(sheet);
    return status;
}
