/* report_paper.c: a report on paper (see report_paper.h).
 *
 * Tables flow over pages: their head stands again on each, and a title never without rows below it. All
 * is laid out twice, first without ink, since each page says how many there are. What is to be filled by
 * hand has rows high enough for a pen. */
#include "show/report_paper.h"

#include <math.h>
#include <stdio.h>

#include "show/draw_inside.h"

#define MARGIN_MM 10.0
#define TOP_MM    15.0 /* where a page's tables begin */
#define FOOT_MM   12.0 /* what is left free below them */
#define TEXT_MM   2.35
#define PAD_MM    1.0  /* above and below a row's text */
#define SIDE_MM   1.4  /* on each side of a column */
#define PEN_MM    7.6  /* a row that is filled by hand */
#define BASE      0.93 /* from the top of a line to its baseline, in its size */

/* Rows that stay with a title, and with a total; a table of few is not broken at all. */
enum { ROWS_KEPT = 2, ROWS_FEW = 8 };

typedef struct flow {
    pare_page *page;
    const pare_report *report;
    const pare_report_tables *tables;
    bool ink; /* otherwise only laid out */
    double y;
    size_t number, pages;
    double x[PARE_TABLE_COLUMNS], width[PARE_TABLE_COLUMNS]; /* of the table under way */
} flow;

static double inner_mm(const flow *f)
{
    return f->report->paper->width_mm - 2 * MARGIN_MM;
}

static double low_mm(const flow *f)
{
    return f->report->paper->height_mm - FOOT_MM;
}

/* ---- pages ---- */

static void put_foot(const flow *f)
{
    char text[64];
    const pare_type left = {.size_mm = 2.1, .ink = PARE_INK_GREY, .most_mm = 0.7 * inner_mm(f)};
    const pare_type right = {.size_mm = 2.1, .ink = PARE_INK_GREY, .align = PARE_ALIGN_RIGHT};
    const double y = f->report->paper->height_mm - 4.8;
    pare_page_text(f->page, MARGIN_MM, y, &left, f->report->view->craft.name);
    snprintf(text, sizeof text, "page %zu of %zu", f->number, f->pages);
    pare_page_text(f->page, MARGIN_MM + inner_mm(f), y, &right, text);
}

static void next_page(flow *f)
{
    f->number++;
    f->y = TOP_MM;
    if (!f->ink)
        return;
    pare_page_next(f->page);
    put_foot(f);
}

static bool at_top(const flow *f)
{
    return f->y <= TOP_MM;
}

/* ---- columns ---- */

static bool is_number(pare_column_kind kind)
{
    return kind == PARE_COLUMN_NUMBER || kind == PARE_COLUMN_SHARE;
}

static void set_columns(flow *f, const pare_table *table)
{
    double all = 0, x = MARGIN_MM;
    for (size_t c = 0; c < table->columns; c++)
        all += pare_table_shows(table, c) ? table->column[c].width : 0;
    for (size_t c = 0; c < table->columns; c++) {
        f->x[c] = x;
        f->width[c] = pare_table_shows(table, c) ? inner_mm(f) * table->column[c].width / all : 0;
        x += f->width[c];
    }
}

static pare_type type_of(const flow *f, const pare_table *table, size_t c, bool bold)
{
    return (pare_type){.size_mm = TEXT_MM,
                       .ink = PARE_INK_BLACK,
                       .bold = bold,
                       .align =
                           is_number(table->column[c].kind) ? PARE_ALIGN_RIGHT : PARE_ALIGN_LEFT,
                       .most_mm = f->width[c] - (c ? 2 : 1) * SIDE_MM};
}

/* One cell: numbers on one line at the right, words broken. @return its height */
static double put_cell(const flow *f, const pare_table *table, size_t c, bool bold, double top,
                       const char *text)
{
    const pare_type type = type_of(f, table, c, bold);
    const double x = f->x[c] + (c ? SIDE_MM : 0), y = f->y + top + BASE * TEXT_MM;
    if (is_number(table->column[c].kind)) {
        if (f->ink)
            pare_page_text(f->page, f->x[c] + f->width[c] - SIDE_MM, y, &type, text);
        return TEXT_MM;
    }
    if (!f->ink)
        return pare_page_words_height(f->page, &type, text);
    return pare_page_words(f->page, x, y, &type, text);
}

static void put_rule(const flow *f, double y, pare_pen pen)
{
    pare_page_line(f->page, MARGIN_MM, y, MARGIN_MM + inner_mm(f), y, pen);
}

/* ---- a row ---- */

static void put_wall(const flow *f, size_t c, double height, const pare_margin *m)
{
    const double x = f->x[c] + SIDE_MM, width = f->width[c] - 2 * SIDE_MM,
                 y = f->y + fmin(height / 2, PAD_MM + TEXT_MM / 2 + 0.2),
                 mm = width / PARE_WALL_HIGH, u = m->ratio_u > 0 ? m->ratio_u : 0;
    const double from = fmin(fmax(m->ratio - u, 0), PARE_WALL_HIGH),
                 to = fmin(fmax(m->ratio + u, 0), PARE_WALL_HIGH),
                 at = fmin(fmax(m->ratio, 0), PARE_WALL_HIGH);
    pare_page_line(f->page, x, y, x + width, y, (pare_pen){PARE_INK_PALE, PARE_THIN_MM, 0});
    pare_page_line(f->page, x + mm, y - 1.5, x + mm, y + 1.5,
                   (pare_pen){PARE_INK_CLAY, PARE_STRONG_MM, 0});
    pare_page_line(f->page, x + mm * from, y, x + mm * to, y,
                   (pare_pen){PARE_INK_BLACK, PARE_STRONG_MM, 0});
    if (m->ratio > PARE_WALL_HIGH)
        pare_page_arrow(f->page, x + width - 2, y, x + width, y,
                        (pare_pen){PARE_INK_BLACK, PARE_THIN_MM, 0});
    else
        pare_page_ellipse(f->page, x + mm * at, y, 0.65, 0.65, 0, PARE_INK_BLACK, (pare_pen){0});
}

static void put_share(const flow *f, size_t c, double height, double percent)
{
    const double width = f->width[c] - 2 * SIDE_MM;
    if (percent > 0)
        pare_page_box(f->page,
                      (pare_box){f->x[c] + SIDE_MM, f->y + height - 1.05,
                                 width * fmin(percent, 100) / 100, 0.75},
                      PARE_INK_CLAY, (pare_pen){0});
}

static double row_mm(flow *f, const pare_table *table, const pare_entry *row, bool bold)
{
    const bool ink = f->ink;
    double height = TEXT_MM;
    char words[PARE_DIGITS];
    f->ink = false;
    for (size_t c = 0; c < table->columns; c++)
        if (pare_table_shows(table, c) && table->column[c].kind != PARE_COLUMN_WALL)
            height = fmax(height, put_cell(f, table, c, bold, PAD_MM,
                                           pare_table_words(words, table, row, c)));
    f->ink = ink;
    return fmax(height + 2 * PAD_MM, table->fill ? PEN_MM : 0);
}

static void put_row(flow *f, const pare_table *table, const pare_entry *row,
                    const pare_margin *margin, bool bold)
{
    const double height = row_mm(f, table, row, bold);
    const double top = table->fill ? (PEN_MM - TEXT_MM) / 2 - 0.2 : PAD_MM;
    char words[PARE_DIGITS];
    for (size_t c = 0; f->ink && c < table->columns; c++) {
        const pare_column_kind kind = table->column[c].kind;
        if (!pare_table_shows(table, c))
            continue;
        if (kind == PARE_COLUMN_WALL && margin)
            put_wall(f, c, height, margin);
        if (kind == PARE_COLUMN_SHARE)
            put_share(f, c, height, row[c].number);
        if (kind == PARE_COLUMN_BOX && !bold)
            pare_page_box(
                f->page,
                (pare_box){f->x[c] + SIDE_MM, f->y + 0.7, f->width[c] - 2 * SIDE_MM, height - 1.4},
                PARE_INK_NONE, (pare_pen){PARE_INK_GREY, PARE_THIN_MM, 0});
        put_cell(f, table, c, bold, top, pare_table_words(words, table, row, c));
    }
    f->y += height;
    if (f->ink)
        put_rule(f, f->y, (pare_pen){PARE_INK_PALE, PARE_HAIR_MM, 0});
}

/* ---- a table ---- */

/* One line of a column's head. @return its height */
static double put_head(const flow *f, const pare_table *table, size_t c, double top, bool bold,
                       const char *text)
{
    const pare_type type = type_of(f, table, c, bold);
    const double y = f->y + top + BASE * TEXT_MM,
                 height = pare_page_words_height(f->page, &type, text);
    if (!f->ink)
        return height;
    if (is_number(table->column[c].kind) && height < 1.6 * TEXT_MM)
        pare_page_text(f->page, f->x[c] + f->width[c] - SIDE_MM, y, &type, text);
    else
        pare_page_words(f->page, f->x[c] + (c ? SIDE_MM : 0), y, &type, text);
    return height;
}

/* Titles, and units below them. */
static void put_heads(flow *f, const pare_table *table)
{
    double height = 0;
    for (size_t c = 0; c < table->columns; c++) {
        const char *unit = table->column[c].unit;
        if (!pare_table_shows(table, c))
            continue;
        double takes = put_head(f, table, c, PAD_MM, true, table->column[c].title);
        if (unit && *unit)
            takes += put_head(f, table, c, PAD_MM + takes, false, unit);
        height = fmax(height, takes);
    }
    f->y += height + 2 * PAD_MM;
    if (f->ink)
        put_rule(f, f->y, (pare_pen){PARE_INK_BLACK, PARE_THIN_MM, 0});
}

/* Words over the page's width. @return their height */
static double put_words(flow *f, const char *text, double size_mm, pare_ink ink, bool bold)
{
    const pare_type type = {.size_mm = size_mm, .ink = ink, .bold = bold, .most_mm = inner_mm(f)};
    if (!f->ink)
        return pare_page_words_height(f->page, &type, text);
    return pare_page_words(f->page, MARGIN_MM, f->y + BASE * size_mm, &type, text);
}

static void put_title(flow *f, const pare_table *table)
{
    f->y += put_words(f, table->title, 4.2, PARE_INK_BLACK, true) + 1;
    if (table->fill)
        f->y += put_words(f, table->fill, 2.8, PARE_INK_BLACK, false) + 2;
    if (*table->caption)
        f->y += put_words(f, table->caption, 2.4, PARE_INK_GREY, false) + 1;
}

/* How much room a title with its first rows takes. */
static double begins_mm(flow *f, const pare_table *table)
{
    const double y = f->y;
    const bool ink = f->ink;
    f->ink = false;
    put_title(f, table);
    if (table->rows)
        put_heads(f, table);
    const size_t kept = table->rows > ROWS_FEW ? ROWS_KEPT : table->rows;
    for (size_t r = 0; r < kept; r++)
        f->y += row_mm(f, table, &table->cell[r * table->columns], false);
    if (table->total && kept == table->rows)
        f->y += row_mm(f, table, table->total, true);
    const double height = f->y - y;
    f->y = y;
    f->ink = ink;
    return height;
}

/* A row with those behind it that stay with it: with the total, the last ones. */
static double kept_mm(flow *f, const pare_table *table, size_t r)
{
    double height =
        row_mm(f, table, r == table->rows ? table->total : &table->cell[r * table->columns],
               r == table->rows);
    if (table->total && r < table->rows && r + ROWS_KEPT >= table->rows)
        height += kept_mm(f, table, r + 1);
    return height;
}

static void put_table(flow *f, const pare_table *table)
{
    set_columns(f, table);
    if (!at_top(f)) {
        f->y += 6;
        if (table->own_page || f->y + begins_mm(f, table) > low_mm(f))
            next_page(f);
    }
    put_title(f, table);
    if (table->rows == 0)
        return;
    put_heads(f, table);
    for (size_t r = 0; r <= table->rows; r++) {
        const bool last = r == table->rows;
        const pare_entry *row = last ? table->total : &table->cell[r * table->columns];
        if (!row)
            break;
        if (f->y + kept_mm(f, table, r) > low_mm(f)) {
            next_page(f);
            put_heads(f, table);
        }
        put_row(f, table, row, table->margin && !last ? &table->margin[r] : NULL, last);
    }
}

static void put_cautions(flow *f)
{
    const pare_report_tables *tables = f->tables;
    for (size_t i = 0; i <= tables->cautions; i++) {
        const char *text = i ? tables->caution[i - 1] : "Cautions";
        const double size = i ? 2.5 : 4.2;
        const bool ink = f->ink;
        f->ink = false;
        const double height = put_words(f, text, size, PARE_INK_BLACK, i == 0) + 1.2;
        f->ink = ink;
        if (i == 0)
            f->y += at_top(f) ? 0 : 6;
        if (f->y + height + (i ? 0 : 12) > low_mm(f))
            next_page(f);
        put_words(f, text, size, PARE_INK_BLACK, i == 0);
        f->y += height;
    }
}

static void put_pages(flow *f)
{
    f->number = 1;
    next_page(f);
    for (size_t i = 0; i < f->tables->tables; i++)
        if (!f->tables->table[i].book_only)
            put_table(f, &f->tables->table[i]);
    put_cautions(f);
}

pare_status pare_report_paper(pare_report *report, const pare_report_tables *tables, size_t *pages,
                              pare_text *out, pare_error *err)
{
    flow f = {.report = report, .tables = tables};
    pare_status status = pare_page_open(PARE_PAGE_PDF, report->paper->width_mm,
                                        report->paper->height_mm, &f.page, err);
    if (status != PARE_OK)
        return status;
    status = pare_report_draw(f.page, report, err);
    if (status == PARE_OK) {
        put_pages(&f); /* without ink: how many there are */
        f.pages = f.number;
        f.ink = true;
        f.number = 1;
        put_foot(&f);
        put_pages(&f);
        status =
            pare_page_finish(f.page, report->view->craft.name,
                             "a report of one craft: drawing, margins, ledger, what to buy and "
                             "cut, weigh-in sheet",
                             out, err);
    }
    *pages = f.pages;
    pare_page_close(f.page);
    return status;
}
