/* swap_fixture.h: one small bench (swap_bench.yaml) for the tests of swaps, read from text as a
 * user's would be. */
#ifndef PARE_TESTS_SWAP_FIXTURE_H
#define PARE_TESTS_SWAP_FIXTURE_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

#include "advise/swap.h"
#include "store/bench.h"

typedef struct fixture {
    pare_arena *arena;
    pare_store *store;
    pare_bench *bench;
    const pare_craft *craft;
    pare_craft changed, loaded;
    pare_sheet sheet, other;
    pare_applied applied;
    pare_error err;
    char folder[64];
} fixture;

static inline void fixture_remove(const fixture *f)
{
    static const char *const files[] = {"bench.sqlite", "bench.sqlite-wal", "bench.sqlite-shm"};
    char path[128];
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        snprintf(path, sizeof path, "%s/%s", f->folder, files[i]);
        remove(path);
    }
    remove(f->folder);
}

static inline int fixture_open(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    if (!f)
        return -1;
    *state = f;
    snprintf(f->folder, sizeof f->folder, "/tmp/pare-swap-XXXXXX");
    if (!mkdtemp(f->folder))
        return -1;
    char path[128];
    snprintf(path, sizeof path, "%s/bench.sqlite", f->folder);
    f->arena = pare_arena_open();
    const pare_import import = {.path = PARE_SOURCE_DIR "/tests/unit/swap_bench.yaml"};
    pare_import_summary summary = {0};
    if (pare_store_open(path, PARE_STORE_CREATE, &f->store, &f->err) != PARE_OK ||
        pare_store_import_yaml(f->store, &import, f->arena, &summary, &f->err) != PARE_OK ||
        pare_store_read(f->store, &f->bench, &f->err) != PARE_OK ||
        pare_store_warm(f->store, f->bench, &f->err) != PARE_OK) {
        print_error("%s\n", f->err.text);
        return -1;
    }
    f->craft = pare_bench_craft(f->bench, "mule");
    return f->craft ? 0 : -1;
}

static inline int fixture_close(void **state)
{
    fixture *f = *state;
    pare_bench_close(f->bench);
    pare_store_close(f->store);
    pare_arena_close(f->arena);
    fixture_remove(f);
    free(f);
    return 0;
}

/* Applies one swap to the craft as it is; the test fails with the error's text. */
static inline const pare_applied *tried(fixture *f, const char *id)
{
    const pare_status status =
        pare_swap_apply(f->bench, f->craft, id, &f->changed, &f->applied, &f->err);
    if (status != PARE_OK)
        fail_msg("%s", f->err.text);
    return &f->applied;
}

static inline void weigh(const pare_craft *craft, pare_sheet *sheet)
{
    pare_error err = {0};
    memset(sheet, 0, sizeof *sheet);
    if (pare_sheet_compute(craft, false, sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

/* Grams that a swap saves in no loadout. */
static inline double saved_g(fixture *f, const char *id)
{
    tried(f, id);
    weigh(f->craft, &f->sheet);
    weigh(&f->changed, &f->other);
    return 1e3 * (f->sheet.figure[PARE_ALL_UP].value - f->other.figure[PARE_ALL_UP].value);
}

static inline void refused(fixture *f, const char *id, pare_status status, const char *words)
{
    assert_int_equal(pare_swap_apply(f->bench, f->craft, id, &f->changed, NULL, &f->err), status);
    if (!strstr(f->err.text, words))
        fail_msg("'%s' does not say '%s'", f->err.text, words);
}

static inline bool same_bits(double a, double b)
{
    uint64_t bits_a, bits_b;
    memcpy(&bits_a, &a, sizeof bits_a);
    memcpy(&bits_b, &b, sizeof bits_b);
    return bits_a == bits_b;
}

/* Every figure, the whole body, and every margin, bit for bit. */
static inline bool same_sheets(const pare_sheet *a, const pare_sheet *b)
{
    for (int k = 0; k < PARE_FIGURES; k++)
        if (a->figure[k].exists != b->figure[k].exists ||
            !same_bits(a->figure[k].value, b->figure[k].value))
            return false;
    const pare_body *body_a = &a->assembly.all, *body_b = &b->assembly.all;
    if (!same_bits(body_a->at_m.y, body_b->at_m.y) ||
        !same_bits(body_a->inertia_kg_m2.xz, body_b->inertia_kg_m2.xz) || a->margins != b->margins)
        return false;
    for (size_t m = 0; m < a->margins; m++)
        if (strcmp(a->margin[m].name, b->margin[m].name) != 0 ||
            !same_bits(a->margin[m].ratio, b->margin[m].ratio))
            return false;
    return true;
}

static inline bool among(size_t count, char rows[][64], const char *words)
{
    for (size_t i = 0; i < count; i++)
        if (strstr(rows[i], words))
            return true;
    return false;
}

static inline bool noted(const pare_applied *applied, const char *words)
{
    for (size_t i = 0; i < applied->notes; i++)
        if (strstr(applied->note[i], words))
            return true;
    return false;
}

static inline const pare_swap *row_of(const pare_swaps *swaps, const char *id)
{
    for (size_t i = 0; i < swaps->count; i++)
        if (strcmp(swaps->swap[i].applied.id, id) == 0)
            return &swaps->swap[i];
    return NULL;
}

#endif
