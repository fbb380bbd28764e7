/* csv_import.h: a list that a person keeps, as CSV, into the bench. */
#ifndef PARE_STORE_CSV_IMPORT_H
#define PARE_STORE_CSV_IMPORT_H

#include "store/bench.h"
#include "store/csv_cell.h"
#include "store/csv_list.h"
#include "store/foretell.h"

typedef struct pare_list_import {
    const char *path;  /* the file; NULL: take bytes */
    const char *bytes; /* [length] when path is NULL */
    size_t length;
    const char *name; /* said in messages in front of lines; NULL: path */
    pare_change change;
    pare_list_kind as;    /* PARE_LIST_SEEN: its column names tell */
    char separator;       /* 0: to be seen */
    pare_decimal decimal; /* PARE_DECIMAL_UNKNOWN: to be seen */
    size_t maps, sets;
    const char *const *map; /* [maps] "column=what", "3=mass (g)", "colour=-" */
    const char *const *set; /* [sets] "kind=motor": the same in every row */
    bool notes;             /* what no column has a place for becomes a part's note */
    bool keep_good;         /* rows that cannot be read are left out, not the whole list */
    bool dry_run;           /* the bench stays as it is */
    const pare_foreteller *foreteller; /* of hovers that come in; NULL: nobody foretells them */
} pare_list_import;

/** A column and what was made of it. */
typedef struct pare_list_column {
    const char *title;
    const char *means; /* "mass"; NULL: not read */
    const char *unit;  /* of its numbers without one; NULL: none */
    bool unit_seen;    /* told by its other cells */
    const char *near;  /* of an unknown one: what it may be; NULL */
    bool empty;        /* none of its first cells says anything */
    size_t left_out;   /* cells that mean nothing for their row's kind */
    int left_out_line; /* of the first */
} pare_list_column;

typedef struct pare_list_refused {
    int line;
    const char *column; /* its title, NULL: the whole row */
    const char *text;   /* the whole message, its place in front */
    const char *what;   /* of it, what follows the place */
} pare_list_refused;

typedef struct pare_list_changed {
    const char *id;
    const char *what; /* NULL: added; else what differs */
} pare_list_changed;

/** What was supposed where a list did not say. */
typedef struct pare_list_remark {
    const char *label, *text; /* "air", "taken as ..." */
} pare_list_remark;

enum { PARE_LIST_REMARKS = 6 };
enum { PARE_LIST_SHOWN = 1000 }; /* refused rows and changes that are listed at most */

typedef struct pare_list_summary {
    pare_list_kind list;
    char separator;
    pare_decimal decimal;
    size_t columns;
    const pare_list_column *column; /* [columns] */
    size_t rows;                    /* that were entries */
    size_t blank, comments, totals; /* rows that were none */
    size_t added, replaced, same;
    size_t refused;
    size_t refused_listed;
    const pare_list_refused *refused_row; /* [refused_listed] */
    size_t changes_listed;
    const pare_list_changed *change; /* [changes_listed] */
    size_t named;                    /* ids made of names */
    size_t kinds_guessed;            /* kinds told by specs */
    const char *titled;    /* the kind that a title says of all: "Motor"; NULL: none does */
    size_t again;          /* names that came again, kept under a number of their own */
    size_t foretold, held; /* hovers whose output was, and came as foretold */
    size_t remarks;
    pare_list_remark remark[PARE_LIST_REMARKS];
} pare_list_summary;

/** Reads a list into the bench: all of it or nothing, unless keep_good.
 *
 * A part that is there already keeps what the list does not say. Memory does not grow with the list.
 * @param arena  holds the summary
 * @param[out] summary  also filled when rows are refused
 * @return PARE_OK; PARE_UNKNOWN or PARE_BAD_DATA as "name:line:field: 'column': what; what would be
 *         right"; PARE_UNAVAILABLE: locked, full, read-only */
pare_status pare_store_import_list(pare_store *store, const pare_list_import *import,
                                   pare_arena *arena, pare_list_summary *summary, pare_error *err);

/** "parts", "weigh_ins", "flights", "stand", "log": as --as takes them. */
const char *pare_list_kind_name(pare_list_kind list);
/** "semicolons" and the like. */
const char *pare_list_separator_words(char separator);

#endif
