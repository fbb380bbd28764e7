/* rooms: store advise craft physics base */
/* learn.c: what it costs to learn from 200 flights of the demo's hedgerow with four copies of its pack.
 *
 * There is no program to hold it against: the aim is a second. The least of some rounds, as a busy machine
 * lengthens all others. */
#include "advise/learn.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

#include "base/day.h"
#include "store/bench.h"

enum { FLIGHTS = 200, PACKS = 4, ROUNDS = 5 };

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void make(const pare_part *pack, char date[FLIGHTS][16], pare_flight_record record[FLIGHTS])
{
    const long first = pare_day_number("2026-01-01");
    for (int i = 0; i < FLIGHTS; i++)
        record[i] = (pare_flight_record){.date = pare_day_text(first + i, date[i]),
                                         .loadout = 0,
                                         .pack = pack,
                                         .which = 1 + i % PACKS,
                                         .take_off_kg = (double)NAN,
                                         .lasted_s = 180 + 10 * (i % 7),
                                         .put_back_c = 3.6 * (950 + 15 * (i % 11)),
                                         .rest_before_v = 16.7,
                                         .rest_after_v = 14.7 - 0.02 * (i % 9)};
}

int main(int count, char **argument)
{
    pare_store *store = NULL;
    pare_bench *bench = NULL;
    pare_error err = {0};
    static pare_flight_record record[FLIGHTS];
    static char date[FLIGHTS][16];
    if (count != 2) {
        fprintf(stderr, "speed_learn BENCH\n");
        return 3;
    }
    if (pare_store_open(argument[1], PARE_STORE_READ, &store, &err) != PARE_OK ||
        pare_store_read(store, &bench, &err) != PARE_OK ||
        pare_store_warm(store, bench, &err) != PARE_OK) {
        fprintf(stderr, "%s\n", err.text);
        return 3;
    }
    const pare_craft *craft = pare_bench_craft(bench, "hedgerow");
    double least_s = INFINITY;
    size_t used = 0;
    make(pare_bench_part(bench, "pa-4s-1550"), date, record);
    for (int round = 0; round < ROUNDS; round++) {
        pare_learned_all learned;
        pare_arena *arena = pare_arena_open();
        const double start_s = now_s();
        if (!arena || pare_learn(craft, FLIGHTS, record, arena, &learned, &err) != PARE_OK) {
            fprintf(stderr, "%s\n", err.text);
            return 3;
        }
        least_s = fmin(least_s, now_s() - start_s);
        used = learned.used;
        pare_arena_close(arena);
    }
    printf("learn: %zu flights, %d packs: %.0f ms, aim 1000 ms\n", used, PACKS, 1e3 * least_s);
    pare_bench_close(bench);
    pare_store_close(store);
    return 0;
}
