/* book.c: tables as a workbook (see book.h).
 *
 * A number keeps all its digits in its cell and is shown to its uncertainty, which has a column of its
 * own. A formula carries its value too, for who reads without computing. The day of making is fixed: the
 * same tables give the same bytes. The library lets go of each row once the next begins, so cells come in
 * their order; that is also what makes it quick: it would look every text up among all others.
 *
 * The library says on standard error what it also returns. Errors are one line here and said by the caller,
 * so that stream is closed to it meanwhile. */
#include "show/book.h"

#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include "base/xstring.h"

enum { PLACES = 7, HEAD_ROW = 2, FORMULA = 160, WIDEST = 60, LONGEST = 32767, SHOWN = 1000 };

typedef struct book {
    lxw_workbook *workbook;
    lxw_format *title, *grey, *head, *box;
    lxw_format *place[2][PLACES]; /* numbers, and those of a last row, by digits after the point */
    lxw_format *total;
} book;

/* ---- formats ---- */

static bool make_formats(book *b)
{
    static const char *const form[PLACES] = {"0",      "0.0",     "0.00",    "0.000",
                                             "0.0000", "0.00000", "0.000000"};
    lxw_format **plain[] = {&b->title, &b->grey, &b->head, &b->box, &b->total};
    for (size_t i = 0; i < sizeof plain / sizeof plain[0]; i++)
        if (!(*plain[i] = workbook_add_format(b->workbook)))
            return false;
    format_set_bold(b->title);
    format_set_font_size(b->title, 14);
    format_set_font_color(b->grey, LXW_COLOR_GRAY);
    format_set_bold(b->head);
    format_set_text_wrap(b->head);
    format_set_align(b->head, LXW_ALIGN_VERTICAL_TOP);
    format_set_bottom(b->head, LXW_BORDER_THIN);
    format_set_border(b->box, LXW_BORDER_THIN);
    format_set_bold(b->total);
    format_set_top(b->total, LXW_BORDER_THIN);
    for (int last = 0; last < 2; last++)
        for (int i = 0; i < PLACES; i++) {
            lxw_format *format = b->place[last][i] = workbook_add_format(b->workbook);
            if (!format)
                return false;
            format_set_num_format(format, form[i]);
            if (last) {
                format_set_bold(format);
                format_set_top(format, LXW_BORDER_THIN);
            }
        }
    return true;
}

/* How many digits after the point a number is shown with. */
static int place_of(const pare_table *table, const pare_entry *row, size_t column)
{
    const pare_column *c = &table->column[column];
    int place = c->decimals;
    if (c->kind == PARE_COLUMN_U)
        place = pare_digits_place(row[column - 1].number, row[column].number);
    else if (column + 1 < table->columns && c[1].kind == PARE_COLUMN_U)
        place = pare_digits_place(row[column].number, row[column + 1].number);
    else if (c->decimals == PARE_AS_SAID)
        for (place = 0; place < PLACES - 1; place++)
            if (fabs(row[column].number * pow(10, place) -
                     round(row[column].number * pow(10, place))) < 1e-6)
                break;
    return place < 0 ? 0 : place >= PLACES ? PLACES - 1 : place;
}

/* ---- cells ---- */

/* A formula with its rows in place of '@' and '#'. */
static void formula_at(char text[FORMULA], const char *formula, unsigned first, unsigned row)
{
    size_t used = 0;
    for (const char *c = formula; *c && used + 12 < FORMULA; c++)
        if (*c == '@' || *c == '#')
            used += (size_t)snprintf(text + used, FORMULA - used, "%u", *c == '@' ? first : row);
        else
            text[used++] = *c;
    text[used] = '\0';
}

/* What would be read as an escape has its first sign as one, so that it is read as it stands. A workbook has no
 * longer texts than LONGEST characters; of one that is longer, the beginning. */
static lxw_error put_text_fitted(lxw_worksheet *sheet, lxw_row_t row, lxw_col_t at,
                                 const char *text, lxw_format *format)
{
    static const char underscore[] = "_x005F_";
    char whole[LONGEST + 1];
    size_t used = 0, shown = 0;
    for (const char *c = text; *c; c++) {
        const bool escapes = pare_xstring_is_escape(c, NULL);
        const size_t length = escapes ? sizeof underscore - 1 : 1;
        if (used <= SHOWN && ((unsigned char)*c & 0xc0) != 0x80)
            shown = used; /* not within a character */
        if (used + length > LONGEST) {
            strcpy(whole + shown, "...");
            return worksheet_write_string(sheet, row, at, whole, format);
        }
        memcpy(whole + used, escapes ? underscore : c, length);
        used += length;
    }
    whole[used] = '\0';
    return worksheet_write_string(sheet, row, at, whole, format);
}

/* Nearly every text goes in as it is. */
static lxw_error put_text(lxw_worksheet *sheet, lxw_row_t row, lxw_col_t at, const char *text,
                          lxw_format *format)
{
    return strlen(text) <= LONGEST && !strstr(text, "_x")
               ? worksheet_write_string(sheet, row, at, text, format)
               : put_text_fitted(sheet, row, at, text, format);
}

/* @param last  of the last row: `row` is still the one that it stands in */
static lxw_error put_cell(const book *b, lxw_worksheet *sheet, const pare_table *table,
                          const pare_entry *cells, size_t column, lxw_row_t row, lxw_col_t at,
                          bool last)
{
    const pare_column *c = &table->column[column];
    const pare_entry *cell = &cells[column];
    const char *formula = last ? c->total : c->formula;
    lxw_format *format = isfinite(cell->number) || formula
                             ? b->place[last][place_of(table, cells, column)]
                         : last ? b->total
                                : NULL;
    if (formula) {
        char text[FORMULA];
        formula_at(text, formula, HEAD_ROW + 2, last ? row : row + 1);
        return isfinite(cell->number)
                   ? worksheet_write_formula_num(sheet, row, at, text, format, cell->number)
                   : worksheet_write_formula_str(sheet, row, at, text, format, "");
    }
    if (c->kind == PARE_COLUMN_BOX && !last)
        return worksheet_write_blank(sheet, row, at, b->box);
    if (cell->text && *cell->text)
        return put_text(sheet, row, at, cell->text, format);
    if (isfinite(cell->number))
        return worksheet_write_number(sheet, row, at, cell->number, format);
    return last ? worksheet_write_blank(sheet, row, at, b->total) : LXW_NO_ERROR;
}

static bool is_empty(const pare_table *table, const pare_entry *cells)
{
    for (size_t c = 0; c < table->columns; c++)
        if ((cells[c].text && *cells[c].text) || isfinite(cells[c].number) ||
            table->column[c].formula || table->column[c].kind == PARE_COLUMN_BOX)
            return false;
    return true;
}

static lxw_error put_head(const book *b, lxw_worksheet *sheet, const pare_column *column,
                          lxw_col_t at)
{
    char words[96];
    const bool unit = column->unit && *column->unit;
    snprintf(words, sizeof words, "%s%s%s%s", column->title, unit ? " (" : "",
             unit ? column->unit : "", unit ? ")" : "");
    return worksheet_write_string(sheet, HEAD_ROW, at, words, b->head);
}

/* Letters are counted, not measured: for a screen it does. */
static double width_of(const pare_table *table, size_t column)
{
    int widest = column ? 9 : 14;
    for (size_t r = 0; table->column[column].kind == PARE_COLUMN_TEXT && r < table->rows; r++) {
        const char *text = table->cell[r * table->columns + column].text;
        const int columns = text ? pare_columns(text) : 0;
        widest = columns > widest ? columns : widest;
    }
    return fmin(widest, WIDEST) + 1.5;
}

/* @param[out] written  rows that are in the file */
static lxw_error put_table(const book *b, const pare_table *table, size_t *written)
{
    lxw_worksheet *sheet = workbook_add_worksheet(b->workbook, table->sheet);
    if (!sheet)
        return LXW_ERROR_MEMORY_MALLOC_FAILED;
    lxw_error error = worksheet_write_string(sheet, 0, 0, table->title, b->title);
    if (error == LXW_NO_ERROR && *table->caption)
        error = put_text(sheet, 1, 0, table->caption, b->grey);
    lxw_col_t at = 0;
    for (size_t c = 0; c < table->columns && error == LXW_NO_ERROR; c++) {
        if (table->column[c].kind == PARE_COLUMN_WALL)
            continue;
        error = put_head(b, sheet, &table->column[c], at);
        if (error == LXW_NO_ERROR)
            error = worksheet_set_column(sheet, at, at, width_of(table, c), NULL);
        at++;
    }
    const size_t rows = table->rows + (table->rows && table->total);
    *written = 2 + (*table->caption != '\0'); /* and the heads */
    for (size_t r = 0; r < rows && error == LXW_NO_ERROR; r++) {
        const bool last = r == table->rows;
        const pare_entry *cells = last ? table->total : &table->cell[r * table->columns];
        at = 0;
        *written += last || !is_empty(table, cells);
        for (size_t c = 0; c < table->columns && error == LXW_NO_ERROR; c++)
            if (table->column[c].kind != PARE_COLUMN_WALL)
                error =
                    put_cell(b, sheet, table, cells, c, (lxw_row_t)(HEAD_ROW + 1 + r), at++, last);
    }
    worksheet_freeze_panes(sheet, HEAD_ROW + 1, 1);
    worksheet_set_landscape(sheet);
    worksheet_fit_to_pages(sheet, 1, 0);
    worksheet_repeat_rows(sheet, HEAD_ROW, HEAD_ROW);
    return error;
}

/* @return what stands in for standard error meanwhile; -1: it is as it was */
static int hush(void)
{
    fflush(stderr);
    const int kept = dup(STDERR_FILENO), nowhere = open("/dev/null", O_WRONLY);
    if (kept >= 0 && nowhere >= 0)
        dup2(nowhere, STDERR_FILENO);
    if (nowhere >= 0)
        close(nowhere);
    return kept;
}

static void unhush(int kept)
{
    fflush(stderr);
    if (kept < 0)
        return;
    dup2(kept, STDERR_FILENO);
    close(kept);
}

static lxw_error write_all(const char *title, size_t tables, const pare_table table[],
                           const char *folder, const char *path, size_t rows[])
{
    char where[512], name[256];
    snprintf(where, sizeof where, "%s", folder);
    snprintf(name, sizeof name, "%s", title);
    lxw_workbook_options options = {.tmpdir = where, .constant_memory = LXW_TRUE};
    book b = {.workbook = workbook_new_opt(path, &options)};
    if (!b.workbook)
        return LXW_ERROR_MEMORY_MALLOC_FAILED;
    lxw_doc_properties said = {.title = name, .created = 946684800}; /* 2000-01-01 */
    lxw_error error = make_formats(&b) ? workbook_set_properties(b.workbook, &said)
                                       : LXW_ERROR_MEMORY_MALLOC_FAILED;
    for (size_t i = 0; i < tables && error == LXW_NO_ERROR; i++)
        error = put_table(&b, &table[i], &rows[i]);
    const lxw_error closed = workbook_close(b.workbook); /* frees it, whatever became of it */
    return error == LXW_NO_ERROR ? closed : error;
}

pare_status pare_book_write(const char *title, size_t tables, const pare_table table[],
                            const char *folder, const char *path, size_t rows[], pare_error *err)
{
    const int kept = hush();
    const lxw_error error = write_all(title, tables, table, folder, path, rows);
    unhush(kept);
    if (error == LXW_ERROR_MEMORY_MALLOC_FAILED)
        return pare_no_memory(err);
    if (error != LXW_NO_ERROR)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "the workbook cannot be gathered in %s: %s; right would be room "
                         "there, or another TMPDIR",
                         folder, lxw_strerror(error));
    return PARE_OK;
}
