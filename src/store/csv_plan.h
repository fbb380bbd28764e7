/* csv_plan.h: what each column of a table says, from its name and what the person told. Inside the
 * room only. */
#ifndef PARE_STORE_CSV_PLAN_H
#define PARE_STORE_CSV_PLAN_H

#include "craft/kind.h"
#include "craft/value.h"
#include "store/csv_look.h"
#include "store/csv_words.h"

typedef struct pare_csv_column {
    const char *title; /* as it stands in the table; "set" ones have their target's name */
    const pare_csv_target *target; /* NULL: left out */
    const char *unit;              /* of numbers without one; NULL: none */
    bool unit_seen;                /* told by other cells of the column, not by its name */
    int known;                     /* a mass column that says so: a pare_known; -1: it does not */
    bool told;                     /* by --map */
    const char *set;               /* the same text in every row, from --set; NULL: a field */
} pare_csv_column;

typedef struct pare_csv_plan {
    const char *name; /* of the table, in front of lines */
    pare_list_kind list;
    int line; /* of the column names */
    char separator;
    pare_decimal decimal;
    size_t fields;  /* columns of the table */
    size_t columns; /* and those that were set */
    pare_csv_column *column;
    const char *titled; /* the kind that a column of names is titled by; NULL: none is */
    size_t ordered; /* columns that say something, in the order in which a part's text has them */
    const pare_csv_column **order; /* [ordered] */
} pare_csv_plan;

/** What the person told about a table. */
typedef struct pare_csv_told {
    pare_list_kind as;
    size_t maps, sets;
    const char *const *map; /* [maps] "column=what", "3=mass (g)", "colour=-" */
    const char *const *set; /* [sets] "what=text": the same in every row */
} pare_csv_told;

/** @return PARE_OK; PARE_UNKNOWN: a column or target in --map or --set that is not there, with the
 *          nearest; PARE_BAD_DATA: two columns for one thing, none that is known */
pare_status pare_csv_make_plan(const char *name, const pare_csv_look *look,
                               const pare_csv_told *told, pare_units *units, pare_arena *arena,
                               pare_csv_plan *plan, pare_error *err);

/** The column of a target, or NULL. */
const pare_csv_column *pare_csv_column_of(const pare_csv_plan *plan, const char *target);

#endif
