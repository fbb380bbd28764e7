/* pare.h: Pare as a C library: what each gram of a small electric multirotor costs or buys.
 *
 *     pare_error err;
 *     pare_snapshot *bench = NULL;
 *     pare_craft_sheet *sheet = NULL;
 *     if (pare_snapshot_open("bench.sqlite", &bench, &err) != PARE_OK ||
 *         pare_craft_sheet_compute(bench, "hedgerow", NULL, NULL, &sheet, &err) != PARE_OK)
 *         fprintf(stderr, "%s\n", err.text);
 *     else
 *         printf("%.1f g\n", pare_craft_sheet_find(sheet, "all_up_g")->value);
 *     pare_craft_sheet_close(sheet);
 *     pare_snapshot_close(bench);
 *
 * Compile with `cc $(pkg-config --cflags pare) x.c $(pkg-config --libs pare)`. The library prints nothing,
 * never exits, changes no signal, locale or other state of the process, and needs no call at its start or
 * end. Whatever has the name of a craft, part or swap in it is UTF-8. Figures are computed, not measured
 * on your craft: check what somebody's safety rests on. */
#ifndef PARE_PARE_H
#define PARE_PARE_H

#include <pare/best.h>
#include <pare/error.h>
#include <pare/public.h>
#include <pare/sheet.h>
#include <pare/snapshot.h>
#include <pare/swaps.h>

PARE_BEGIN

/** The version of the library that is loaded: "0.1.0". Within one SONAME what was there stays as it is. */
PARE_PUBLIC const char *pare_library_version(void);

PARE_END

#endif
