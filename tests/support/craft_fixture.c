/* craft_fixture.c: see craft_fixture.h. */
#include "craft_fixture.h"

#include <stdlib.h>

#include "bench_of.h"
#include "near.h"
#include "store/bench.h"

fixture *fixture_open(const char *file, const char *craft)
{
    fixture *f = calloc(1, sizeof *f);
    f->bench = bench_of(file);
    f->craft = malloc(sizeof *f->craft);
    f->sheet = malloc(sizeof *f->sheet);
    if (craft)
        *f->craft = *pare_bench_craft(f->bench, craft);
    return f;
}

int fixture_close(void **state)
{
    fixture *f = *state;
    pare_bench_close(f->bench);
    free(f->craft);
    free(f->sheet);
    free(f);
    return 0;
}

const pare_sheet *fixture_sheet(fixture *f, bool with_u)
{
    pare_error err = {0};
    if (pare_sheet_compute(f->craft, with_u, f->sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return f->sheet;
}

pare_margin fixture_margin(fixture *f, const char *name)
{
    const pare_margin *found = pare_sheet_margin(fixture_sheet(f, true), name);
    if (!found)
        fail_msg("no margin %s", name);
    return found ? *found : (pare_margin){0};
}
