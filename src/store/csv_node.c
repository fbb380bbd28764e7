/* csv_node.c: nodes and places of a row (see csv_part.h).
 *
 * A table's nodes carry the number of their field where others carry a column, so that the readers of
 * the text form say "list.csv:3:2"; the column's name is put in afterwards. */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/csv_part.h"

const char *pare_csv_cell(const pare_csv_plan *plan, const pare_csv_column *column,
                          const pare_csv_row *row)
{
    if (column->set)
        return column->set;
    const size_t field = (size_t)(column - plan->column);
    if (field >= row->count)
        return "";
    const char *text = row->field[field].text;
    return text + strspn(text, " ");
}

pare_status pare_csv_refused_at(const pare_csv_plan *plan, const pare_csv_column *column, int line,
                                pare_error *err)
{
    if (column->set)
        return pare_within(err, "%s:%d: --set %.40s", plan->name, line, column->title);
    return pare_within(err, "%s:%d:%zu: '%.40s'", plan->name, line,
                       (size_t)(column - plan->column) + 1, column->title);
}

pare_status pare_csv_refuse(const pare_csv_plan *plan, const pare_csv_column *column, int line,
                            pare_error *err, const char *format, ...)
{
    char text[400];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    if (!column)
        return pare_fail(err, PARE_BAD_DATA, "%s:%d: %s", plan->name, line, text);
    pare_fail(err, PARE_BAD_DATA, "%s", text);
    return pare_csv_refused_at(plan, column, line, err);
}

pare_status pare_csv_name_column(const pare_csv_plan *plan, pare_error *err)
{
    const pare_status status = err->status;
    const size_t name = strlen(plan->name);
    char *after = NULL;
    if (strncmp(err->text, plan->name, name) != 0 || err->text[name] != ':')
        return status;
    const long line = strtol(err->text + name + 1, &after, 10);
    if (*after != ':')
        return status;
    const long column = strtol(after + 1, &after, 10);
    if (strncmp(after, ": ", 2) != 0)
        return status;
    char rest[sizeof err->text];
    snprintf(rest, sizeof rest, "%s", after + 2);
    if (column >= 1 && column <= (long)plan->columns && plan->column[column - 1].set)
        pare_fail(err, status, "%s:%ld: --set %.40s: %s", plan->name, line,
                  plan->column[column - 1].title, rest);
    else if (column >= 1 && column <= (long)plan->columns)
        pare_fail(err, status, "%s:%ld:%ld: '%.40s': %s", plan->name, line, column,
                  plan->column[column - 1].title, rest);
    else
        pare_fail(err, status, "%s:%ld: %s", plan->name, line, rest);
    return status;
}

pare_node *pare_csv_node(const pare_csv_rows *rows, pare_node_form form, int line, size_t column)
{
    pare_node *node = pare_arena_zeros(rows->reading->arena, sizeof *node);
    if (!node)
        return NULL;
    node->form = form;
    node->line = node->key_line = line;
    node->column = node->key_column = (int)column;
    return node;
}

void pare_csv_add(pare_node *to, const char *key, pare_node *entry)
{
    entry->key = key;
    if (!to->first) {
        to->first = entry;
    } else {
        pare_node *last = to->first;
        while (last->next)
            last = last->next;
        last->next = entry;
    }
    to->count++;
}

bool pare_csv_put(const pare_csv_rows *rows, pare_node *to, const char *key, const char *text,
                  int line, size_t column)
{
    pare_node *node = pare_csv_node(rows, PARE_NODE_SCALAR, line, column);
    if (!node)
        return false;
    node->text = pare_arena_text(rows->reading->arena, text);
    if (!node->text)
        return false;
    pare_csv_add(to, key, node);
    return true;
}

void pare_csv_make_id(const char *words, unsigned number, char id[49])
{
    pare_csv_tidy(words, id, 45); /* room for a number behind it */
    for (char *c = id; *c; c++)
        if (*c == ' ')
            *c = '-';
    const size_t length = strlen(id);
    if (number > 1)
        snprintf(id + length, 49 - length, "-%u", number % 1000);
}
