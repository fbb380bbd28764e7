/* csv_record.c: rows as weigh-ins and flights (see csv_record.h). */
#include "store/csv_record.h"

#include <stdio.h>
#include <string.h>

pare_record pare_csv_record_of(pare_list_kind list)
{
    return list == PARE_LIST_WEIGH_INS ? PARE_RECORD_WEIGH_IN
           : list == PARE_LIST_STAND   ? PARE_RECORD_STAND_TABLE
                                       : PARE_RECORD_FLIGHT; /* and its log */
}

static size_t number_of(const pare_csv_rows *rows, const pare_csv_column *column)
{
    return (size_t)(column - rows->plan->column) + 1;
}

static pare_status put(const pare_csv_rows *rows, pare_node *to, const pare_csv_column *column,
                       const char *text, int line, pare_error *err)
{
    const bool fits =
        pare_csv_put(rows, to, column->target->name, text, line, number_of(rows, column));
    return fits ? PARE_OK : pare_no_memory(err);
}

/* ---- what lay on the scale ---- */

/* "4 x motor", "motor: 4", "motor 4", "motor" as a name and a count. */
static bool read_thing(const char *text, char name[64], char count[16])
{
    size_t length = strlen(text);
    length = pare_text_trimmed(text, length);
    const size_t first = strspn(text, "0123456789");
    if (first && first < length) {
        const char *at = text + first + strspn(text + first, " ");
        if ((*at == 'x' || *at == 'X') && at[1] == ' ')
            at += 1 + strspn(at + 1, " ");
        snprintf(count, 16, "%.*s", (int)first, text);
        snprintf(name, 64, "%.*s", (int)(length - (size_t)(at - text)), at);
        return *name && !strpbrk(name, " :=");
    }
    size_t end = length;
    while (end && text[end - 1] >= '0' && text[end - 1] <= '9')
        end--;
    size_t stop = end;
    while (stop && strchr(" :=x", text[stop - 1]))
        stop--;
    const bool counted = end < length && stop < end && stop > 0;
    snprintf(count, 16, "%.*s", counted ? (int)(length - end) : 1, counted ? text + end : "1");
    snprintf(name, 64, "%.*s", (int)(counted ? stop : length), text);
    return *name && !strpbrk(name, " :=");
}

static pare_status put_things(const pare_csv_rows *rows, pare_node *to,
                              const pare_csv_column *column, const char *cell, int line,
                              pare_error *err)
{
    char tidy[16], piece[96], name[64], count[16];
    pare_csv_tidy(cell, tidy, sizeof tidy);
    if (strcmp(tidy, "all") == 0 || strcmp(tidy, "everything") == 0)
        return put(rows, to, column, "all", line, err);
    pare_node *map = pare_csv_node(rows, PARE_NODE_MAP, line, number_of(rows, column));
    if (!map)
        return pare_no_memory(err);
    for (const char *at = cell; *at;) {
        at += strspn(at, " ,;+");
        const size_t length = strcspn(at, ",;+");
        if (!length)
            break;
        snprintf(piece, sizeof piece, "%.*s", (int)(length < 95 ? length : 95), at);
        if (!read_thing(piece, name, count))
            return pare_csv_refuse(
                rows->plan, column, line, err,
                "'%.40s' is nothing that lies on a scale; right would be all, or "
                "like: motor 4, joint.motor_base 16",
                piece);
        const char *key = pare_arena_text(rows->reading->arena, name);
        if (!key)
            return pare_no_memory(err);
        if (pare_node_get(map, key))
            return pare_csv_refuse(rows->plan, column, line, err,
                                   "'%.40s' stands there twice; right would be once, with a count",
                                   name);
        if (!pare_csv_put(rows, map, key, count, line, number_of(rows, column)))
            return pare_no_memory(err);
        at += length;
    }
    pare_csv_add(to, column->target->name, map);
    return PARE_OK;
}

/* ---- weigh-ins and flights ---- */

static pare_status put_quantity(const pare_csv_rows *rows, pare_node *to,
                                const pare_csv_column *column, const char *cell, int line,
                                pare_error *err)
{
    pare_csv_quantity q;
    if (pare_csv_read_quantity(cell, rows->plan->decimal, column->target->dimension, column->unit,
                               &q, err) != PARE_OK)
        return pare_csv_refused_at(rows->plan, column, line, err);
    return put(rows, to, column, q.value, line, err);
}

static pare_status put_small(const pare_csv_rows *rows, pare_node *to,
                             const pare_csv_column *column, const char *cell, int line,
                             pare_error *err)
{
    char tidy[32];
    pare_csv_tidy(cell, tidy, sizeof tidy);
    return put(rows, to, column, tidy, line, err);
}

static pare_status put_trimmed(const pare_csv_rows *rows, pare_node *to,
                               const pare_csv_column *column, const char *cell, int line,
                               pare_error *err)
{
    size_t length = strlen(cell);
    length = pare_text_trimmed(cell, length);
    const char *text = pare_arena_copy(rows->reading->arena, cell, length);
    return text ? put(rows, to, column, text, line, err) : pare_no_memory(err);
}

static pare_status put_cell(const pare_csv_rows *rows, pare_node *to, const pare_csv_column *column,
                            const char *cell, int line, pare_error *err)
{
    char value[PARE_CSV_VALUE];
    switch (column->target->form) {
    case PARE_CSV_QUANTITY:
        return put_quantity(rows, to, column, cell, line, err);
    case PARE_CSV_COUNT:
        pare_csv_read_count(cell, value);
        return put(rows, to, column, value, line, err);
    case PARE_CSV_DATE:
        pare_csv_read_date(cell, value);
        return put(rows, to, column, value, line, err);
    case PARE_CSV_THINGS:
        return put_things(rows, to, column, cell, line, err);
    case PARE_CSV_WORD:
        return put_small(rows, to, column, cell, line, err);
    default:
        return put_trimmed(rows, to, column, cell, line, err);
    }
}

pare_status pare_csv_make_record(const pare_csv_rows *rows, const pare_csv_row *row,
                                 pare_node **record, pare_error *err)
{
    pare_node *made = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0);
    pare_node *air = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0);
    *record = made;
    if (!made || !air)
        return pare_no_memory(err);
    pare_status status = PARE_OK;
    for (size_t i = 0; i < rows->plan->ordered && status == PARE_OK; i++) {
        const pare_csv_column *column = rows->plan->order[i];
        const char *cell = pare_csv_cell(rows->plan, column, row);
        pare_node *to = column->target->map ? air : made;
        /* A log's readings are no record each. */
        if (pare_csv_is_nothing(cell) ||
            (column->target->map && strcmp(column->target->map, "columns") == 0))
            continue;
        /* Where the table of targets has it, so that an export comes back as the same text. */
        if (to == air && !air->first)
            pare_csv_add(made, "air", air);
        status = put_cell(rows, to, column, cell, row->line, err);
    }
    return status;
}
