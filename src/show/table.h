/* table.h: a table as every form of a report shows it: a document, paper, a workbook. Inside the room only.
 *
 * What stands in it is said once; how it looks is the form's. A number keeps all its digits, for a workbook,
 * and is written to its uncertainty where people read. */
#ifndef PARE_SHOW_TABLE_H
#define PARE_SHOW_TABLE_H

#include "base/arena.h"
#include "craft/sheet.h"
#include "show/digits.h"

typedef enum pare_column_kind {
    PARE_COLUMN_TEXT,
    PARE_COLUMN_NUMBER,
    PARE_COLUMN_U, /* standard uncertainty of the number before it, and beside it for a reader */
    PARE_COLUMN_SHARE, /* per cent, with a bar */
    PARE_COLUMN_WALL,  /* a margin's distance to its wall, drawn; a workbook has none */
    PARE_COLUMN_BOX    /* empty, for a pen or for who types */
} pare_column_kind;

#define PARE_WALL_HIGH 3.0 /* the ratio at which a wall's scale ends */

enum { PARE_AS_SAID = -1 }; /* decimals: as few as say it */

typedef struct pare_column {
    pare_column_kind kind;
    const char *title, *unit; /* unit NULL: none */
    double width;             /* against the other columns, on paper */
    int decimals;             /* of a number that has no uncertainty */
    /* In a workbook instead of a value; '#' is the row. Columns have letters from A, walls none. */
    const char *formula;
    const char
        *total; /* of the last row: '@' is the first row and '#' the last above it; NULL: none */
    bool book_only;
} pare_column;

typedef struct pare_entry {
    const char *text; /* NULL: none */
    double number;    /* NAN: none */
} pare_entry;

enum { PARE_TABLE_COLUMNS = 24 };

typedef struct pare_table {
    const char *id, *title, *caption;
    const char *sheet; /* what a workbook calls it: the title, unless it is set */
    const char *fill;  /* a line to be filled by hand above it; NULL: none */
    bool book_only;    /* for workbooks alone */
    bool own_page;     /* begins one on paper */
    size_t columns;
    pare_column *column;
    size_t rows, room;
    pare_entry *cell;                       /* [rows][columns] */
    pare_entry *total;                      /* [columns]; NULL: no last row */
    const pare_margin *margin;              /* [rows] of the walls; NULL: there are none */
    bool failed;                            /* memory ran out, or rows: nobody may show it */
    pare_entry nowhere[PARE_TABLE_COLUMNS]; /* the row that is handed out then */
} pare_table;

/** A table without rows; failed where there is no memory.
 * @param column  [columns], copied  @param room  rows at most */
void pare_table_open(pare_table *table, pare_arena *arena, const char *id, const char *title,
                     size_t columns, const pare_column column[], size_t room);

/** The next row, of empty cells; one that goes nowhere when the table failed. */
pare_entry *pare_table_row(pare_table *table);

/** The last row, under a line; its cells are empty. */
pare_entry *pare_table_total(pare_table *table);

/** A cell as people read it: "", "12.3", "12.3 \u00b1 0.2". Returns text.
 * @param row  [columns] */
const char *pare_table_words(char text[PARE_DIGITS], const pare_table *table,
                             const pare_entry row[], size_t column);

/** Whether a column stands by itself where people read. */
bool pare_table_shows(const pare_table *table, size_t column);

#endif
