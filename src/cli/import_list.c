/* import_list.c: `pare import` of a list in CSV or a workbook: what it was taken for, what went in, what did not. */
#include <stdio.h>
#include <string.h>

#include "cli/hover.h"
#include "cli/import.h"
#include "cli/use.h"
#include "show/json.h"
#include "store/csv_import.h"
#include "store/workbook.h"

enum { SHOWN = 200 /* refused rows and changes on the screen; --json has more */ };

/* ---- what was told ---- */

static pare_status one_of(const char *option, const char *value, size_t count,
                          const char *const names[], int *index, pare_error *err)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(names[i], value) == 0) {
            *index = (int)i;
            return PARE_OK;
        }
    const char *near = pare_nearest(value, count, names);
    pare_text all = {0};
    for (size_t i = 0; i < count; i++)
        pare_text_printf(&all, "%s%s", i == 0 ? "" : i + 1 == count ? " or " : ", ", names[i]);
    if (near)
        pare_fail(err, PARE_BAD_DATA, "--%s '%s'; is it %s?", option, value, near);
    else
        pare_fail(err, PARE_BAD_DATA, "--%s '%s'; right would be %s", option, value, all.bytes);
    pare_text_free(&all);
    return PARE_BAD_DATA;
}

static pare_status read_told(const options *given, pare_list_import *import, pare_error *err)
{
    static const char *const lists[] = {"parts", "weigh_ins", "flights", "stand", "log"};
    static const char *const signs[] = {"comma", "semicolon", "tab", "bar", ",", ";", "\t", "|"};
    static const char *const decimals[] = {"point", "comma"};
    int index = 0;
    pare_status status = PARE_OK;
    if (given->as) {
        status = one_of("as", given->as, 5, lists, &index, err);
        import->as = (pare_list_kind)(PARE_LIST_PARTS + index);
    }
    if (status == PARE_OK && given->separator) {
        status = one_of("separator", given->separator, 8, signs, &index, err);
        import->separator = ",;\t|"[index % 4];
    }
    if (status == PARE_OK && given->decimal) {
        status = one_of("decimal", given->decimal, 2, decimals, &index, err);
        import->decimal = index ? PARE_DECIMAL_COMMA : PARE_DECIMAL_POINT;
    }
    return status;
}

/* --kind KIND is --set kind=KIND. */
static pare_status read_sets(const options *given, pare_arena *arena, pare_list_import *import,
                             pare_error *err)
{
    const char **set = pare_arena_array(arena, given->sets + 1, sizeof *set);
    if (!set)
        return pare_no_memory(err);
    for (size_t i = 0; i < given->sets; i++)
        set[import->sets++] = given->set[i];
    if (given->kind) {
        set[import->sets] = pare_arena_printf(arena, "kind=%s", given->kind);
        if (!set[import->sets++])
            return pare_no_memory(err);
    }
    import->set = set;
    return PARE_OK;
}

/* ---- the answer as text ---- */

static const char *list_words(pare_list_kind list)
{
    switch (list) {
    case PARE_LIST_WEIGH_INS:
        return "weigh-ins";
    case PARE_LIST_FLIGHTS:
        return "flights";
    case PARE_LIST_STAND:
        return "a thrust stand's readings";
    case PARE_LIST_LOG:
        return "a flight's log";
    default:
        return "parts";
    }
}

static const char *decimal_words(pare_decimal decimal)
{
    switch (decimal) {
    case PARE_DECIMAL_POINT:
        return ", decimal point";
    case PARE_DECIMAL_COMMA:
        return ", decimal comma";
    case PARE_DECIMAL_BOTH:
        return ", decimal points and commas";
    default:
        return "";
    }
}

static int width_of(const char *text)
{
    int width = 0;
    for (; *text; text++)
        width += ((unsigned char)*text & 0xc0) != 0x80;
    return width;
}

static void show_column(const pare_list_column *column, bool notes, pare_text *out)
{
    if (!column->means)
        pare_text_add(out, column->empty             ? "not read: nothing in it"
                           : notes && *column->title ? "kept as a note"
                                                     : "not read");
    else
        pare_text_add(out, column->means);
    if (column->means && column->unit)
        pare_text_printf(out, " in %s", column->unit);
    if (column->means && column->unit_seen)
        pare_text_printf(out, ", as its cells say");
    if (column->near)
        pare_text_printf(out, "; is it '%s'?", column->near);
    if (column->left_out)
        pare_text_printf(out, "; %s in %zu row%s of another kind (line %d)",
                         notes ? "a note" : "not read", column->left_out,
                         column->left_out == 1 ? "" : "s", column->left_out_line);
    pare_text_add(out, "\n");
}

static void show_columns(const pare_list_summary *s, bool notes, pare_text *out)
{
    int widest = 0;
    for (size_t i = 0; i < s->columns; i++) {
        const int width = width_of(s->column[i].title);
        widest = width > widest && width <= 32 ? width : widest;
    }
    for (size_t i = 0; i < s->columns; i++) {
        const pare_list_column *column = &s->column[i];
        const int width = width_of(column->title);
        pare_text_printf(out, "%-8s %s%*s  ", i ? "" : "columns", column->title,
                         width < widest ? widest - width : 0, "");
        show_column(column, notes, out);
    }
}

static void show_skipped(const pare_list_summary *s, pare_text *out)
{
    const struct {
        const char *one, *many;
        size_t count;
    } rows[] = {{"blank row", "blank rows", s->blank},
                {"remark", "remarks", s->comments},
                {"total", "totals", s->totals}};
    bool any = false;
    for (size_t i = 0; i < 3; i++)
        if (rows[i].count) {
            pare_text_printf(out, "%s%zu %s", any ? ", " : "skipped  ", rows[i].count,
                             rows[i].count == 1 ? rows[i].one : rows[i].many);
            any = true;
        }
    if (any)
        pare_text_add(out, "\n");
}

static void show_changes(const pare_list_summary *s, bool dry, pare_text *out)
{
    const bool tables = s->list == PARE_LIST_STAND || s->list == PARE_LIST_LOG;
    size_t shown = 0;
    for (size_t i = 0; i < s->changes_listed; i++) {
        const pare_list_changed *change = &s->change[i];
        if (!dry && !change->what && !tables)
            continue; /* parts that were added need no list once they are there */
        if (shown++ == SHOWN)
            break;
        pare_text_printf(out, "  %s %s%s%s\n", change->what ? "~" : "+", change->id,
                         change->what ? ": " : "", change->what ? change->what : "");
    }
    const size_t all = (dry || tables ? s->added : 0) + s->replaced;
    if (all > shown)
        pare_text_printf(out, "  and %zu more\n", all - shown);
}

static void show_refused(const pare_list_summary *s, pare_text *out)
{
    const size_t shown = s->refused_listed < SHOWN ? s->refused_listed : SHOWN;
    if (!s->refused)
        return;
    pare_text_printf(out, "refused  %zu row%s\n", s->refused, s->refused == 1 ? "" : "s");
    for (size_t i = 0; i < shown; i++)
        pare_text_printf(out, "  line %d: %s\n", s->refused_row[i].line, s->refused_row[i].what);
    if (s->refused > shown)
        pare_text_printf(out, "  and %zu more\n", s->refused - shown);
}

static bool has_names(const pare_list_summary *s)
{
    for (size_t i = 0; i < s->columns; i++)
        if (s->column[i].means && strcmp(s->column[i].means, "name") == 0)
            return true;
    return false;
}

static void show_source(const pare_list_summary *s, const pare_workbook_table *book, pare_text *out)
{
    pare_text_printf(out, "%-8s %s, ", "taken as", list_words(s->list));
    if (!book->sheet)
        pare_text_printf(out, "parted by %s", pare_list_separator_words(s->separator));
    else if (book->sheets > 1)
        pare_text_printf(out, "sheet '%s', one of %zu", book->sheet, book->sheets);
    else
        pare_text_printf(out, "sheet '%s'", book->sheet);
    pare_text_printf(out, "%s\n", decimal_words(s->decimal));
}

static void as_text(const pare_list_summary *s, const pare_workbook_table *book,
                    const options *given, const char *path, pare_text *out)
{
    const bool dry = given->given & OPTION_DRY_RUN, notes = given->given & OPTION_NOTES;
    const bool parts = s->list == PARE_LIST_PARTS;
    pare_text_printf(out, "%s %s\n", dry ? "nothing is changed; this would go into" : "into", path);
    show_source(s, book, out);
    show_columns(s, notes && parts, out);
    show_skipped(s, out);
    if (s->titled)
        pare_text_printf(out, "%-8s %s all of them, as a column of names is titled\n", "kinds",
                         s->titled);
    if (s->kinds_guessed)
        pare_text_printf(out, "%-8s %zu told by what else their rows say\n", "kinds",
                         s->kinds_guessed);
    if (s->named)
        pare_text_printf(out, "%-8s %zu made of %s%s\n", "ids", s->named,
                         has_names(s) ? "names" : "what their rows say",
                         s->again ? ", with a number where one came again" : "");
    for (size_t i = 0; i < s->remarks; i++)
        pare_text_printf(out, "%-8s %s\n", s->remark[i].label, s->remark[i].text);
    import_count(out, parts ? "parts" : "records", s->added, s->replaced, s->same);
    if (s->foretold)
        pare_text_printf(out, "%-8s %zu of hover output, %zu held\n", "promises", s->foretold,
                         s->held);
    show_changes(s, dry, out);
    show_refused(s, out);
    if (dry && s->refused && s->list == PARE_LIST_STAND)
        pare_text_add(out, "Nothing of the list would go in.\n");
    else if (dry && s->refused && !(given->given & OPTION_KEEP_GOOD))
        pare_text_add(out, "Without --keep-good nothing of the list would go in.\n");
}

/* ---- the answer as JSON ---- */

static json_t *columns_json(const pare_list_summary *s)
{
    json_t *list = json_array();
    for (size_t i = 0; i < s->columns; i++) {
        const pare_list_column *column = &s->column[i];
        json_t *one = json_object();
        json_object_set_new(one, "title", json_string(column->title));
        json_object_set_new(one, "means", column->means ? json_string(column->means) : json_null());
        if (column->unit)
            json_object_set_new(one, "unit", json_string(column->unit));
        if (column->left_out)
            json_object_set_new(one, "left_out", json_integer((json_int_t)column->left_out));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *remarks_json(const pare_list_summary *s)
{
    json_t *object = json_object();
    for (size_t i = 0; i < s->remarks; i++)
        json_object_set_new(object, s->remark[i].label, json_string(s->remark[i].text));
    return object;
}

static json_t *refused_json(const pare_list_summary *s)
{
    json_t *list = json_array();
    for (size_t i = 0; i < s->refused_listed; i++) {
        const pare_list_refused *row = &s->refused_row[i];
        json_t *one = json_object();
        json_object_set_new(one, "line", json_integer(row->line));
        json_object_set_new(one, "column", row->column ? json_string(row->column) : json_null());
        json_object_set_new(one, "message", json_string(row->text));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *changes_json(const pare_list_summary *s)
{
    json_t *list = json_array();
    for (size_t i = 0; i < s->changes_listed; i++) {
        const pare_list_changed *change = &s->change[i];
        json_t *one = json_object();
        json_object_set_new(one, "id", json_string(change->id));
        json_object_set_new(one, "change", json_string(change->what ? "replaced" : "added"));
        if (change->what)
            json_object_set_new(one, "differs", json_string(change->what));
        json_array_append_new(list, one);
    }
    return list;
}

static void as_json(const pare_list_summary *s, const pare_workbook_table *book,
                    const options *given, pare_text *out)
{
    const bool parts = s->list == PARE_LIST_PARTS;
    const struct {
        const char *key;
        size_t count;
    } counts[] = {{parts ? "parts_added" : "records_added", s->added},
                  {"parts_replaced", s->replaced},
                  {parts ? "parts_same" : "records_same", s->same},
                  {"refused", s->refused},
                  {"rows", s->rows},
                  {"blank", s->blank},
                  {"remarks", s->comments},
                  {"totals", s->totals},
                  {"ids_made", s->named},
                  {"kinds_guessed", s->kinds_guessed},
                  {"hover_promises", s->foretold},
                  {"hover_promises_held", s->held}};
    json_t *object = json_object();
    json_object_set_new(object, "taken_as", json_string(pare_list_kind_name(s->list)));
    json_object_set_new(object, "separator", json_stringn(&s->separator, 1));
    json_object_set_new(object, "decimal",
                        json_string(s->decimal == PARE_DECIMAL_COMMA  ? "comma"
                                    : s->decimal == PARE_DECIMAL_BOTH ? "both"
                                                                      : "point"));
    if (book->sheet) {
        json_object_set_new(object, "sheet", json_string(book->sheet));
        json_object_set_new(object, "sheets", json_integer((json_int_t)book->sheets));
    }
    json_object_set_new(object, "dry_run", json_boolean(given->given & OPTION_DRY_RUN));
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++)
        json_object_set_new(object, counts[i].key, json_integer((json_int_t)counts[i].count));
    json_object_set_new(object, "columns", columns_json(s));
    json_object_set_new(object, "supposed", remarks_json(s));
    json_object_set_new(object, "changes", changes_json(s));
    json_object_set_new(object, "refused_rows", refused_json(s));
    pare_json_write(object, out);
}

/* A sheet of a workbook, where the operand is one: its rows are the list's lines. */
static pare_status read_workbook(const options *given, pare_arena *arena, pare_list_import *import,
                                 pare_workbook_table *book, pare_error *err)
{
    char path[IMPORT_PATH];
    const char *sheet = NULL;
    if (!import_workbook(given->operand[0], path, &sheet))
        return PARE_OK;
    pare_status status =
        import_refuse_options(given, OPTION_SEPARATOR, "a workbook, whose columns are cells", err);
    if (status == PARE_OK)
        status = pare_workbook_read(path, sheet, import->decimal == PARE_DECIMAL_COMMA, arena, book,
                                    err);
    if (status != PARE_OK)
        return status;
    import->path = NULL;
    import->bytes = book->csv;
    import->length = book->length;
    import->separator = ',';
    import->name = pare_arena_printf(arena, "%s#%s", path, book->sheet);
    return import->name ? PARE_OK : pare_no_memory(err);
}

pare_status import_list(pare_store *store, const char *path, const options *given,
                        pare_arena *arena, pare_text *out, pare_error *err)
{
    pare_list_summary summary;
    pare_workbook_table book = {0};
    hover_teller teller;
    hover_teller_begin(given, &teller);
    pare_list_import import = {.path = given->operand[0],
                               .change = change_of("import", given, arena),
                               .maps = given->maps,
                               .map = given->map,
                               .notes = given->given & OPTION_NOTES,
                               .keep_good = given->given & OPTION_KEEP_GOOD,
                               .dry_run = given->given & OPTION_DRY_RUN,
                               .foreteller = &teller.teller};
    pare_status status = read_told(given, &import, err);
    if (status == PARE_OK)
        status = read_sets(given, arena, &import, err);
    if (status == PARE_OK)
        status = read_workbook(given, arena, &import, &book, err);
    if (status == PARE_OK)
        status = pare_store_import_list(store, &import, arena, &summary, err);
    hover_teller_end(&teller);
    if (status != PARE_OK)
        return status;
    if (given->given & OPTION_JSON)
        as_json(&summary, &book, given, out);
    else
        as_text(&summary, &book, given, path, out);
    return PARE_OK;
}
