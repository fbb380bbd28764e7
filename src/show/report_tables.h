/* report_tables.h: the tables of a report, the same in every form of it. */
#ifndef PARE_SHOW_REPORT_TABLES_H
#define PARE_SHOW_REPORT_TABLES_H

#include "advise/shopping.h"
#include "show/best.h"
#include "show/report.h"
#include "show/table.h"

/** What a report has that is no part of the sheet. All lent; NULL: not in it. */
typedef struct pare_report_with {
    const char *money; /* the bench's: "EUR" */
    const pare_swaps *swaps;
    const pare_shopping *shopping; /* of what is taken and not fitted, and of what is tried */
    const char *shopping_for;      /* those swaps, as one list */
    const char *plan_why;          /* why what is taken does not go on, and is not in it */
    const pare_best_view *best;    /* searched for; found or not */
    const pare_shopping *best_shopping;
} pare_report_with;

enum { PARE_REPORT_TABLES = 12, PARE_REPORT_CAUTIONS = 24 };

/** Large: keep it off the stack. */
typedef struct pare_report_tables {
    size_t tables, cautions;
    pare_table table[PARE_REPORT_TABLES];
    const char *caution[PARE_REPORT_CAUTIONS]; /* a sentence each */
} pare_report_tables;

/** Makes them.
 * @param arena  holds their cells
 * @return PARE_OK, or PARE_UNAVAILABLE when memory runs out */
pare_status pare_report_tables_make(const pare_report *report, const pare_report_with *with,
                                    pare_arena *arena, pare_report_tables *tables, pare_error *err);

/* Inside the room: one maker each; table->failed where memory runs out. */
void pare_swaps_table(const pare_swaps *swaps, const char *money, pare_arena *arena,
                      pare_table *table);
void pare_best_table(const pare_best_view *view, pare_arena *arena, pare_table *table);
/** Figures now and then. */
void pare_best_figures_table(const pare_best *best, pare_arena *arena, pare_table *table);
void pare_shopping_table(const pare_shopping *shopping, const char *money, pare_arena *arena,
                         pare_table *table);
void pare_cutting_table(const pare_shopping *shopping, pare_arena *arena, pare_table *table);

#endif
