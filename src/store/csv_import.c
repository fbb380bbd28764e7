/* csv_import.c: a list into the bench (see csv_import.h).
 *
 * A first look makes a plan of the columns; then each row becomes a part or record in the text form,
 * is read as any text is, and kept. What is made of one row is gone before the next. A row that cannot
 * be kept has changed nothing yet when that is found, so the others may stay without it; all rows are
 * read even where one is refused, for one message about twelve rows spares eleven tries. */
#include "store/csv_import.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/change.h"
#include "store/csv_fast.h"
#include "store/csv_keep.h"
#include "store/csv_log.h"
#include "store/csv_record.h"
#include "store/csv_stand.h"
#include "store/file.h"
#include "store/load.h"
#include "store/log_flight.h"
#include "store/read_part.h"
#include "store/records.h"

enum { RECORDS_MOST = 10000, NUMBERS_MOST = 99 };

typedef struct importing {
    pare_store *store;
    const pare_list_import *import;
    const char *name;
    pare_arena *arena;     /* of the whole */
    pare_arena *row_arena; /* of the row at hand */
    pare_arena *answer;    /* of the summary */
    pare_reading reading;
    pare_files files;
    pare_csv *csv;
    pare_csv_look look;
    pare_csv_plan plan;
    pare_csv_row row;
    pare_csv_rows rows;
    pare_keeper *keeper;
    pare_csv_fast *fast; /* NULL: every row goes the general way */
    pare_records records;
    pare_csv_stand stand;
    pare_csv_log log;
    pare_error cut; /* of a log's row that is too short: the last one may be */
    pare_text doc;
    pare_list_summary *summary;
    pare_list_refused *refused;
    pare_list_changed *change;
    size_t refused_size, change_size;
    pare_error first; /* the first refused row */
    pare_notes notes; /* of records */
} importing;

const char *pare_list_kind_name(pare_list_kind list)
{
    static const char *const names[PARE_LIST_KINDS] = {
        [PARE_LIST_SEEN] = "list",           [PARE_LIST_PARTS] = "parts",
        [PARE_LIST_WEIGH_INS] = "weigh_ins", [PARE_LIST_FLIGHTS] = "flights",
        [PARE_LIST_STAND] = "stand",         [PARE_LIST_LOG] = "log",
    };
    return names[list];
}

const char *pare_list_separator_words(char separator)
{
    return pare_csv_separator_words(separator);
}

/* Whether an error is about the row at hand alone, so that the next may be read. */
static bool of_the_row(pare_status status)
{
    return status == PARE_BAD_DATA || status == PARE_UNKNOWN;
}

/* ---- what is said of it ---- */

/* Room for one more in a list that doubles up to PARE_LIST_SHOWN; false: it is not listed. */
static bool one_more(pare_arena *arena, void **list, size_t count, size_t *size, size_t each)
{
    if (count >= PARE_LIST_SHOWN)
        return false;
    if (count < *size)
        return true;
    const size_t larger = *size ? 2 * *size : 16;
    void *made = pare_arena_array(arena, larger, each);
    if (!made)
        return false;
    if (count)
        memcpy(made, *list, count * each);
    *list = made;
    *size = larger;
    return true;
}

/* Takes the place off a message: "name:line: what", "name:line:column: 'title': what". */
static void find_place(const importing *j, const char *text, pare_list_refused *refused)
{
    const size_t name = strlen(j->name);
    char *after = NULL;
    *refused = (pare_list_refused){.text = text, .what = text};
    if (strncmp(text, j->name, name) != 0 || text[name] != ':')
        return;
    refused->line = (int)strtol(text + name + 1, &after, 10);
    if (*after == ':' && after[1] >= '0' && after[1] <= '9') {
        const long column = strtol(after + 1, &after, 10);
        if (column >= 1 && column <= (long)j->plan.columns)
            refused->column = j->plan.column[column - 1].title;
    }
    if (strncmp(after, ": ", 2) == 0)
        refused->what = after + 2;
}

/* A row is refused: the others are read all the same. */
static void refuse_row(importing *j, const pare_error *why)
{
    pare_list_summary *s = j->summary;
    if (s->refused++ == 0)
        j->first = *why;
    void *list = j->refused;
    if (!one_more(j->answer, &list, s->refused_listed, &j->refused_size, sizeof *j->refused))
        return;
    j->refused = list;
    const char *text = pare_arena_text(j->answer, why->text);
    if (!text)
        return;
    pare_list_refused *row = &j->refused[s->refused_listed++];
    find_place(j, text, row);
    if (row->column)
        row->column = pare_arena_text(j->answer, row->column);
}

static void list_change(importing *j, const char *id, const char *what)
{
    pare_list_summary *s = j->summary;
    void *list = j->change;
    if (!one_more(j->answer, &list, s->changes_listed, &j->change_size, sizeof *j->change))
        return;
    j->change = list;
    j->change[s->changes_listed].id = pare_arena_text(j->answer, id);
    j->change[s->changes_listed].what = what ? pare_arena_text(j->answer, what) : NULL;
    if (j->change[s->changes_listed].id)
        s->changes_listed++;
}

static pare_status describe_columns(importing *j, pare_error *err)
{
    pare_list_column *column = pare_arena_array(j->answer, j->plan.fields + 1, sizeof *column);
    if (!column)
        return pare_no_memory(err);
    for (size_t i = 0; i < j->plan.fields; i++) {
        const pare_csv_column *of = &j->plan.column[i];
        char tidy[64];
        pare_csv_tidy(of->title, tidy, sizeof tidy);
        column[i] =
            (pare_list_column){.title = pare_arena_text(j->answer, of->title),
                               .means = of->target ? of->target->name : NULL,
                               .unit = of->unit ? pare_arena_text(j->answer, of->unit) : NULL,
                               .unit_seen = of->unit_seen,
                               .empty = j->look.column[i].filled == 0};
        if (!of->target && !of->told && !column[i].empty)
            column[i].near = pare_csv_title_near(j->plan.list, tidy);
        if (!column[i].title)
            return pare_no_memory(err);
        if (j->rows.left) {
            column[i].left_out = j->rows.left[i].count;
            column[i].left_out_line = j->rows.left[i].line;
        }
    }
    j->summary->columns = j->plan.fields;
    j->summary->column = column;
    j->summary->refused_row = j->refused;
    j->summary->change = j->change;
    return PARE_OK;
}

/* ---- parts ---- */

static pare_status write_doc(importing *j, const pare_node *node, pare_error *err)
{
    j->doc.length = 0;
    pare_tree_write(node, 0, &j->doc);
    return j->doc.failed ? pare_no_memory(err) : PARE_OK;
}

/* A name that this list has had before gets a number. */
static pare_status take_number(importing *j, pare_csv_made *made, unsigned number, pare_error *err)
{
    pare_node *id = made->part->first;
    const int line = pare_keeper_first_line(j->keeper, made->id);
    char text[49];
    if (!made->named && line)
        return pare_csv_refuse(&j->plan, pare_csv_column_of(&j->plan, "id"), made->part->line, err,
                               "'%.48s' a second time; it is already in line %d", made->id, line);
    if (!made->named)
        return pare_csv_refuse(&j->plan, pare_csv_column_of(&j->plan, "id"), made->part->line, err,
                               "'%.48s' a second time; right would be once", made->id);
    if (number > NUMBERS_MOST)
        return pare_csv_refuse(&j->plan, NULL, made->part->line, err,
                               "the name '%.48s' stands here more than %d times; right would be a "
                               "column of ids",
                               made->id, NUMBERS_MOST);
    pare_csv_make_id(made->id, number, text);
    id->text = pare_arena_text(j->row_arena, text);
    return id->text ? PARE_OK : pare_no_memory(err);
}

static pare_status read_node(importing *j, const pare_node *node, pare_part **part, pare_error *err)
{
    pare_status status = pare_read_part(&j->reading, node, part, err);
    if (status != PARE_OK)
        return pare_csv_name_column(&j->plan, err);
    return write_doc(j, node, err);
}

/* Another text has the id: both are put together. */
static pare_status merge(importing *j, const pare_csv_made *made, pare_kept *kept, pare_error *err)
{
    const pare_node *merged = NULL, *before = NULL;
    pare_part *part = NULL;
    j->files.names = 0;
    pare_status status =
        pare_keeper_merge(j->keeper, &j->reading, made->part, &merged, &before, err);
    if (status == PARE_OK)
        status = read_node(j, merged, &part, err);
    if (status == PARE_OK)
        status = pare_keeper_replace(j->keeper, part, j->doc.bytes, j->doc.length, kept, err);
    if (status == PARE_OK && *kept == PARE_KEPT_REPLACED) {
        pare_text what = {0};
        pare_keeper_differences(before, merged, &what);
        list_change(j, part->id, pare_text_all(&what));
        pare_text_free(&what);
        /* Of another kind: no drawing of the former part is its own. */
        if (merged == made->part)
            status = pare_sql_change(j->store, err, "DELETE FROM part_file WHERE part = ?", "t",
                                     part->id);
    }
    return status;
}

/* Whether what cannot stand alone may be put into a part that the bench has. */
static pare_status look_on_bench(importing *j, const pare_csv_made *made, pare_kept *kept,
                                 pare_error *err)
{
    const pare_error why = *err;
    const char *kind = NULL;
    const pare_status status = pare_keeper_find(j->keeper, made->id, made->part->line, &kind, err);
    if (status != PARE_OK)
        return status;
    if (!kind) {
        *err = why;
        return why.status;
    }
    *kept = PARE_KEPT_DIFFERS;
    return PARE_OK;
}

static void count(importing *j, pare_kept kept, bool named)
{
    j->summary->added += kept == PARE_KEPT_ADDED;
    j->summary->replaced += kept == PARE_KEPT_REPLACED;
    j->summary->same += kept == PARE_KEPT_SAME;
    j->summary->named += named;
}

static pare_status keep_part(importing *j, pare_csv_made *made, pare_error *err)
{
    pare_part *part = NULL;
    pare_kept kept = PARE_KEPT_TWICE;
    unsigned number = 1;
    pare_status status = PARE_OK;
    for (; status == PARE_OK && kept == PARE_KEPT_TWICE; number++) {
        if (number > 1)
            status = take_number(j, made, number, err);
        if (status == PARE_OK)
            status = read_node(j, made->part, &part, err);
        if (of_the_row(status) && number == 1) {
            status = look_on_bench(j, made, &kept, err);
            break;
        }
        if (status == PARE_OK)
            status = pare_keeper_add(j->keeper, part, j->doc.bytes, j->doc.length, made->part->line,
                                     &kept, err);
    }
    if (status == PARE_OK && kept == PARE_KEPT_DIFFERS)
        status = merge(j, made, &kept, err);
    if (status != PARE_OK)
        return status;
    if (kept == PARE_KEPT_ADDED)
        list_change(j, part->id, NULL);
    count(j, kept, made->named);
    j->summary->kinds_guessed += made->kind_guessed;
    j->summary->again += number > 2;
    return PARE_OK;
}

/* A plain row, which is new to the bench or as the bench has it; anything else goes the general way,
 * which begins anew. @param[out] kept  whether that was so */
static pare_status take_plain(importing *j, bool *kept, pare_error *err)
{
    const pare_part *part = NULL;
    const char *doc = NULL;
    size_t length = 0;
    bool named = false;
    pare_kept what = PARE_KEPT_TWICE;
    *kept = false;
    if (!j->fast ||
        !pare_csv_fast_read(j->fast, &j->row, j->row_arena, &part, &doc, &length, &named))
        return PARE_OK;
    const pare_status status =
        pare_keeper_add(j->keeper, part, doc, length, j->row.line, &what, err);
    *kept = what == PARE_KEPT_ADDED || what == PARE_KEPT_SAME;
    if (status != PARE_OK || !*kept)
        return status;
    if (what == PARE_KEPT_ADDED)
        list_change(j, part->id, NULL);
    count(j, what, named);
    return PARE_OK;
}

static pare_status take_part(importing *j, pare_error *err)
{
    pare_csv_made made;
    bool kept = false;
    pare_arena_clear(j->row_arena);
    pare_status status = take_plain(j, &kept, err);
    if (status != PARE_OK || kept)
        return status;
    pare_arena_clear(j->row_arena);
    status = pare_csv_make_part(&j->rows, &j->row, &made, err);
    return status == PARE_OK ? keep_part(j, &made, err) : status;
}

/* ---- records ---- */

static pare_status keep_record(importing *j, const pare_node *node, pare_error *err)
{
    const pare_status status = pare_records_keep(&j->records, node, err);
    return status == PARE_OK ? PARE_OK : pare_csv_name_column(&j->plan, err);
}

static pare_status keep_stand(importing *j, const pare_node *table, pare_error *err)
{
    const size_t added = j->records.added;
    if (j->summary->refused)
        return PARE_OK; /* not the whole table, and nothing goes in */
    pare_status status = pare_csv_check_throttle(&j->plan, table, err);
    if (status == PARE_OK)
        status = keep_record(j, table, err);
    if (status != PARE_OK || j->records.added == added)
        return status;
    const size_t rows = pare_node_get(table, "rows")->count;
    const char *words =
        pare_arena_printf(j->arena, "%s with %s: %zu row%s", pare_node_get(table, "motor")->text,
                          pare_node_get(table, "propeller")->text, rows, rows == 1 ? "" : "s");
    if (!words)
        return pare_no_memory(err);
    list_change(j, words, NULL);
    return PARE_OK;
}

static pare_status take_stand(importing *j, pare_error *err)
{
    const pare_status status = pare_csv_grow_stand(&j->rows, &j->row, &j->stand, err);
    return status == PARE_OK && j->stand.finished ? keep_stand(j, j->stand.finished, err) : status;
}

/* The name of a file without its folders. */
static const char *file_of(const char *name)
{
    const char *slash = strrchr(name, '/');
    return slash && slash[1] ? slash + 1 : name;
}

static pare_status keep_log(importing *j, pare_error *err)
{
    pare_node *log = NULL, *flight = NULL;
    long long row = 0;
    const size_t added = j->records.added;
    pare_status status = pare_csv_end_log(&j->rows, &j->log, file_of(j->name), &log, err);
    if (status != PARE_OK)
        return status;
    status = pare_record_check(&j->reading, PARE_RECORD_FLIGHT, log, err);
    if (status == PARE_OK)
        status = pare_log_find_flight(j->store, &j->reading, log, &row, &flight, err);
    j->records.row = row;
    if (status == PARE_OK)
        status = pare_records_keep(&j->records, flight, err);
    if (status != PARE_OK)
        return pare_csv_name_column(&j->plan, err);
    j->summary->remarks = pare_csv_log_remarks(flight, &j->log, j->answer, j->summary->remark);
    if (j->records.added == added)
        return PARE_OK;
    const char *words = pare_arena_printf(
        j->arena, "%s on %s: %zu rows in %zu stretches of time%s",
        pare_node_get(flight, "craft")->text, pare_node_get(flight, "date")->text,
        j->log.reducer.rows, pare_node_get(pare_node_get(flight, "logged"), "rows")->count,
        row ? ", of a flight that is on the bench" : "");
    if (!words)
        return pare_no_memory(err);
    list_change(j, words, NULL);
    return PARE_OK;
}

static pare_status take_record(importing *j, pare_error *err)
{
    pare_node *record = NULL;
    if (j->plan.list == PARE_LIST_STAND)
        return take_stand(j, err);
    if (j->plan.list == PARE_LIST_LOG)
        return pare_csv_take_log(&j->rows, &j->row, &j->log, err);
    const pare_status status = pare_csv_make_record(&j->rows, &j->row, &record, err);
    return status == PARE_OK ? keep_record(j, record, err) : status;
}

/* ---- rows ---- */

/* A row that is no entry: blank, a remark, a sum. */
static bool is_skipped(importing *j)
{
    if (pare_csv_is_blank(&j->row)) {
        j->summary->blank++;
        return true;
    }
    if (pare_csv_is_comment(&j->row)) {
        j->summary->comments++;
        return true;
    }
    size_t first = 0;
    while (j->row.field[first].length == 0)
        first++; /* not blank: there is one */
    if (pare_csv_is_total(j->row.field[first].text)) {
        j->summary->totals++;
        return true;
    }
    return false;
}

/* Blank fields behind the last column are what spreadsheets put there. */
static pare_status check_fields(importing *j, pare_error *err)
{
    size_t count = j->row.count;
    while (count > j->plan.fields && j->row.field[count - 1].length == 0)
        count--;
    if (count == j->plan.fields)
        return PARE_OK;
    const bool more = count > j->plan.fields;
    return pare_csv_refuse(&j->plan, NULL, j->row.line, err,
                           "%zu fields, but there are %zu column names; right would be as many, "
                           "parted by %s%s",
                           count, j->plan.fields, pare_csv_separator_words(j->plan.separator),
                           more && j->plan.separator == ',' ? " (a text with commas in quotes)"
                                                            : "");
}

static pare_status take_row(importing *j, pare_error *err)
{
    const bool log = j->plan.list == PARE_LIST_LOG;
    if (log && j->cut.status != PARE_OK)
        return pare_fail(err, j->cut.status, "%s", j->cut.text);
    j->summary->rows++;
    if (j->plan.list != PARE_LIST_PARTS && !log && j->summary->rows > RECORDS_MOST)
        return pare_csv_refuse(&j->plan, NULL, j->row.line, err,
                               "more than %d rows; right would be lists of fewer", RECORDS_MOST);
    pare_status status = check_fields(j, err);
    if (status == PARE_OK)
        status = j->plan.list == PARE_LIST_PARTS ? take_part(j, err) : take_record(j, err);
    /* A logger that lost its power wrote half a row. */
    if (log && status == PARE_BAD_DATA && j->row.count < j->plan.fields && j->summary->rows > 1) {
        j->cut = *err;
        j->log.cut_line = j->row.line;
        return PARE_OK;
    }
    if (!of_the_row(status) || j->stand.full || log)
        return status;
    refuse_row(j, err);
    return PARE_OK;
}

static pare_status read_rows(importing *j, pare_error *err)
{
    pare_status status = PARE_OK;
    for (bool there = true; status == PARE_OK;) {
        status = pare_csv_read(j->csv, j->plan.separator, &j->row, &there, err);
        if (status != PARE_OK || !there)
            break;
        if (j->row.line > j->plan.line && !is_skipped(j))
            status = take_row(j, err);
        if (status == PARE_OK)
            status = pare_store_step(j->store, "rows", j->summary->rows, 0, err);
    }
    if (status == PARE_OK && j->plan.list == PARE_LIST_LOG && j->summary->rows)
        status = keep_log(j, err);
    if (status == PARE_OK && j->stand.table) {
        status = keep_stand(j, j->stand.table, err);
        if (of_the_row(status)) {
            refuse_row(j, err);
            status = PARE_OK;
        }
    }
    return status;
}

static pare_status no_rows(const importing *j, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA,
                     "%s:%d: column names and nothing below them; right would be a row an entry",
                     j->name, j->plan.line);
}

/* One message for all refused rows. */
static pare_status refuse_list(const importing *j, pare_error *err)
{
    const size_t others = j->summary->refused - 1;
    const pare_status status = j->first.status;
    /* A stand table with a row left out would be another table. */
    const bool whole = j->plan.list == PARE_LIST_STAND;
    if (others == 0 && whole)
        return pare_fail(err, status, "%s", j->first.text);
    if (others == 0)
        return pare_fail(err, status, "%s (--keep-good takes the other rows)", j->first.text);
    if (whole)
        return pare_fail(err, status, "%s (and %zu more row%s; --dry-run lists them)",
                         j->first.text, others, others == 1 ? "" : "s");
    return pare_fail(err, status,
                     "%s (and %zu more row%s; --dry-run lists them, --keep-good takes the others)",
                     j->first.text, others, others == 1 ? "" : "s");
}

static pare_status within_change(importing *j, pare_error *err)
{
    pare_status status = pare_keeper_open(j->store, &j->keeper, err);
    if (status == PARE_OK && j->plan.list == PARE_LIST_PARTS && !j->import->notes)
        status = pare_csv_fast_open(&j->plan, j->reading.units, &j->fast, err);
    if (status == PARE_OK)
        status = read_rows(j, err);
    pare_csv_fast_close(j->fast);
    pare_keeper_close(j->keeper);
    j->summary->added += j->records.added;
    j->summary->same += j->records.same;
    j->summary->foretold = j->records.foretold;
    j->summary->held = j->records.held;
    if (status == PARE_OK && j->summary->rows == 0)
        status = no_rows(j, err);
    if (status == PARE_OK && j->summary->refused && !j->import->keep_good && !j->import->dry_run)
        status = refuse_list(j, err);
    if (status == PARE_OK && j->summary->replaced) {
        status = pare_load_check(j->store, err);
        if (status == PARE_OK)
            status = pare_files_sweep(j->store, err);
    }
    return status;
}

/* A price list need not say kinds again. */
static int kind_of(void *context, const char *id, int line)
{
    importing *j = context;
    const char *kind = NULL;
    if (pare_keeper_find(j->keeper, id, line, &kind, NULL) != PARE_OK || !kind)
        return -1;
    return pare_kind_named(kind);
}

static pare_status prepare(importing *j, pare_error *err)
{
    const pare_csv_told told = {.as = j->import->as,
                                .maps = j->import->maps,
                                .map = j->import->map,
                                .sets = j->import->sets,
                                .set = j->import->set};
    const char *money = "";
    pare_status status =
        pare_csv_open(j->import->path, j->import->bytes, j->import->length, j->name, &j->csv, err);
    if (status == PARE_OK)
        status = pare_csv_look_at(j->csv, j->name, j->import->separator, j->import->decimal,
                                  j->arena, &j->look, err);
    if (status == PARE_OK)
        status =
            pare_csv_make_plan(j->name, &j->look, &told, j->reading.units, j->arena, &j->plan, err);
    if (status == PARE_OK && j->plan.list == PARE_LIST_STAND)
        status = pare_csv_check_stand(&j->plan, err);
    if (status == PARE_OK && j->plan.list == PARE_LIST_LOG)
        status = pare_csv_begin_log(&j->plan, j->reading.units, &j->log, err);
    const bool whole = j->plan.list == PARE_LIST_STAND || j->plan.list == PARE_LIST_LOG;
    if (status == PARE_OK && whole && j->import->keep_good)
        status = pare_fail(err, PARE_BAD_DATA,
                           "%s is %s; --keep-good is for lists whose rows stand alone", j->name,
                           j->plan.list == PARE_LIST_LOG ? "a log" : "a stand's readings");
    if (status == PARE_OK)
        status = pare_load_setting(j->store, "money", j->arena, &money, err);
    if (status != PARE_OK)
        return status;
    if (j->plan.list == PARE_LIST_STAND)
        j->summary->remarks = pare_csv_stand_remarks(&j->plan, j->answer, j->summary->remark);
    j->rows = (pare_csv_rows){
        .plan = &j->plan,
        .reading = &j->reading,
        .left = pare_arena_array(j->arena, j->plan.columns + 1, sizeof *j->rows.left),
        .money = money,
        .notes = j->import->notes,
        .kind_of = kind_of,
        .context = j};
    if (j->plan.list != PARE_LIST_PARTS) { /* of a part's file the next reading says it */
        j->notes.arena = j->answer;
        j->reading.notes = &j->notes;
    }
    j->records = (pare_records){.store = j->store,
                                .reading = &j->reading,
                                .arena = j->arena,
                                .record = pare_csv_record_of(j->plan.list),
                                .foreteller = j->import->foreteller};
    j->summary->list = j->plan.list;
    j->summary->separator = j->plan.separator;
    j->summary->decimal = j->plan.decimal;
    j->summary->titled = j->plan.titled;
    return j->rows.left ? PARE_OK : pare_no_memory(err);
}

static pare_status import_with(importing *j, pare_error *err)
{
    pare_status status = prepare(j, err);
    if (status == PARE_OK)
        status = pare_change_begin(j->store, &j->import->change, false, err);
    if (status != PARE_OK)
        return status;
    status = within_change(j, err);
    for (size_t i = 0; i < j->notes.count && j->summary->remarks < PARE_LIST_REMARKS; i++)
        j->summary->remark[j->summary->remarks++] = (pare_list_remark){"loadout", j->notes.text[i]};
    pare_error unsaid = {0};
    const pare_status described = describe_columns(j, status == PARE_OK ? err : &unsaid);
    if (status == PARE_OK)
        status = described;
    return pare_change_end(j->store, status, !j->import->dry_run, err);
}

pare_status pare_store_import_list(pare_store *store, const pare_list_import *import,
                                   pare_arena *arena, pare_list_summary *summary, pare_error *err)
{
    importing *j = calloc(1, sizeof *j);
    *summary = (pare_list_summary){0};
    if (!j)
        return pare_no_memory(err);
    *j = (importing){.store = store,
                     .import = import,
                     .name = import->name   ? import->name
                             : import->path ? import->path
                                            : "list",
                     .arena = pare_arena_open(),
                     .row_arena = pare_arena_open(),
                     .answer = arena,
                     .summary = summary};
    pare_units *units = pare_units_open();
    pare_status status = PARE_OK;
    if (!j->arena || !j->row_arena || !units) {
        status = pare_no_memory(err);
    } else {
        j->files = (pare_files){.store = store, .arena = j->row_arena};
        j->reading = (pare_reading){.name = j->name,
                                    .arena = j->row_arena,
                                    .units = units,
                                    .find_file = pare_files_find,
                                    .find_context = &j->files};
        status = import_with(j, err);
    }
    pare_csv_close(j->csv);
    pare_text_free(&j->doc);
    pare_units_close(units);
    pare_arena_close(j->row_arena);
    pare_arena_close(j->arena);
    free(j);
    return status;
}
