/* table.c: a table's rows and the words of its cells (see table.h). */
#include "show/table.h"

#include <math.h>
#include <stdio.h>

void pare_table_open(pare_table *table, pare_arena *arena, const char *id, const char *title,
                     size_t columns, const pare_column column[], size_t room)
{
    *table = (pare_table){.id = id, .title = title, .sheet = title, .caption = ""};
    table->columns = columns;
    table->column = pare_arena_array(arena, columns, sizeof column[0]);
    table->cell = pare_arena_array(arena, (room + 1) * columns, sizeof *table->cell);
    table->failed = !table->column || !table->cell || columns > PARE_TABLE_COLUMNS;
    if (table->failed)
        return;
    table->room = room;
    memcpy(table->column, column, columns * sizeof column[0]);
    for (size_t i = 0; i < (room + 1) * columns; i++)
        table->cell[i].number = (double)NAN;
}

pare_entry *pare_table_total(pare_table *table)
{
    if (!table->failed)
        table->total = &table->cell[table->room * table->columns];
    return table->failed ? table->nowhere : table->total;
}

pare_entry *pare_table_row(pare_table *table)
{
    table->failed = table->failed || table->rows == table->room;
    return table->failed ? table->nowhere : &table->cell[table->rows++ * table->columns];
}

bool pare_table_shows(const pare_table *table, size_t column)
{
    return table->column[column].kind != PARE_COLUMN_U && !table->column[column].book_only;
}

const char *pare_table_words(char text[PARE_DIGITS], const pare_table *table,
                             const pare_entry row[], size_t column)
{
    static const pare_screen screen = {.width = 80, .utf8 = true};
    const pare_column *c = &table->column[column];
    const double number = row[column].number;
    if (row[column].text)
        return row[column].text;
    text[0] = '\0';
    if (!isfinite(number))
        return text;
    if (column + 1 < table->columns && c[1].kind == PARE_COLUMN_U && !c[1].book_only)
        return pare_digits_u(text, &screen, number, row[column + 1].number);
    return c->decimals == PARE_AS_SAID ? pare_digits_limit(text, number)
                                       : pare_digits_at(text, number, c->decimals);
}
