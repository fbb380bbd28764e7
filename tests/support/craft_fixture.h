/* craft_fixture.h: one craft of a bench from a text, to be changed, and its sheet. */
#ifndef PARE_TESTS_CRAFT_FIXTURE_H
#define PARE_TESTS_CRAFT_FIXTURE_H

#include "craft/sheet.h"

typedef struct fixture {
    pare_bench *bench;
    pare_craft *craft; /* a copy to change */
    pare_sheet *sheet; /* room; see fixture_sheet() */
} fixture;

/** @param file   as bench_of() takes it
 *  @param craft  NULL: none yet */
fixture *fixture_open(const char *file, const char *craft);

/** A cmocka teardown. */
int fixture_close(void **state);

/** Computes the sheet of the craft as it is now; fails the test where there is none. */
const pare_sheet *fixture_sheet(fixture *f, bool with_u);

/** A margin of the sheet of the craft as it is now, with uncertainties; fails the test where there is none
 * of that name. */
pare_margin fixture_margin(fixture *f, const char *name);

#endif
