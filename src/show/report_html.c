/* report_html.c: a craft as a document (see report_html.h).
 *
 * Well-formed as XML too, so a test can read it with a plain parser. The drawing is the page of
 * report.c as it is, on white in a dark room as well: its textures are made for paper. No script and no
 * address; a policy in the head forbids both, so that a name out of a strange bench can fetch nothing.
 * Every text of the bench goes through put_plain(). On a narrow screen tables scroll by themselves.
 *
 * A margin is a distance to a wall: a place on a scale from 0 to PARE_WALL_HIGH with its interval, the wall at 1. */
#include "show/report_html.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/sheet_text.h"

#define WALL_WIDTH  180.0 /* of a margin's drawing, in its own units */
#define WALL_HEIGHT 18.0
#define WIDE        45.0 /* of a column that is given room on a narrow screen */

static const pare_screen screen = {.width = 80, .utf8 = true};

static const char head[] =
    "<meta charset=\"utf-8\"/>\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
    "<meta name=\"color-scheme\" content=\"light dark\"/>\n"
    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
    "style-src 'unsafe-inline'\"/>\n"
    "<style>\n"
    ":root{--paper:#fff;--ink:#1b1b1b;--grey:#5c5c5c;--line:#cfcfcf;--clay:#9c3d1c}\n"
    "@media (prefers-color-scheme:dark){:root{--paper:#17181a;--ink:#ececec;--grey:#a8a8a8;"
    "--line:#44474b;--clay:#f0916b}}\n"
    "body{background:var(--paper);color:var(--ink);font:16px/1.5 system-ui,sans-serif;margin:0 "
    "auto;"
    "max-width:66rem;padding:1rem;overflow-wrap:anywhere}\n"
    "h1{margin:0}h2{margin:2.2rem 0 .4rem}p{margin:.4rem 0}.grey,caption{color:var(--grey)}\n"
    "figure{margin:1.2rem 0;background:#fff;overflow-x:auto}figure svg{display:block;width:100%;"
    "min-width:36rem;height:auto}\n"
    ".wide{overflow-x:auto}.wide:focus-visible{outline:2px solid var(--clay)}\n"
    "table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums;overflow-wrap:"
    "normal}\n"
    "caption{text-align:left;padding-bottom:.4rem}\n"
    "th,td{border-bottom:1px solid var(--line);padding:.25rem .6rem .25rem 0;text-align:left;"
    "vertical-align:top}\n"
    "thead th{font-weight:600;white-space:nowrap}tbody th{font-weight:400}"
    "tfoot th,tfoot td{font-weight:600}\n"
    "tbody "
    "th{min-width:8rem}.from{min-width:13rem}@media(max-width:40rem){.from{min-width:22rem}}"
    ".n+td:not(.n){padding-left:.7rem}\n"
    ".n{text-align:right;white-space:nowrap}.wall svg{width:9rem;height:1.1rem;display:block}\n"
    ".share{background:linear-gradient(to right,var(--line) var(--s,0%),transparent 0) no-repeat "
    "left bottom/100% 3px}\n"
    ".box{min-width:6rem;border:1px solid var(--grey)}\n"
    "@media(min-width:40rem){.lead{position:absolute;width:1px;height:1px;overflow:hidden;"
    "clip-path:inset(50%)}figure{margin-top:0}}\n" /* the drawing has them, in letters to read */
    "@media print{:root{--paper:#fff;--ink:#000;--grey:#444;--line:#bbb;--clay:#9c3d1c}"
    "body{max-width:none;padding:0;font-size:9pt}.lead{display:none}"
    "figure{break-after:page;margin:0}figure svg{max-height:98vh}figure svg,.from{min-width:0}"
    "tr{break-inside:avoid}thead{display:table-header-group}h2{break-after:avoid}"
    ".new{break-before:page}.weigh td,.weigh th{height:1.7em}.wide{overflow:visible}}\n"
    "</style>\n";

/* Text that came from outside. */
static void put_plain(pare_text *out, const char *text)
{
    for (const char *c = text; *c; c++) {
        if (*c == '&')
            pare_text_add(out, "&amp;");
        else if (*c == '<')
            pare_text_add(out, "&lt;");
        else if (*c == '>')
            pare_text_add(out, "&gt;");
        else if (*c == '"')
            pare_text_add(out, "&quot;");
        else if ((unsigned char)*c < ' ' || *c == 0x7f)
            pare_text_add(out, "?");
        else
            pare_text_put(out, c, 1);
    }
}

static void put_cell(pare_text *out, const char *opening, const char *text, const char *closing)
{
    pare_text_add(out, opening);
    put_plain(out, text);
    pare_text_add(out, closing);
}

/* ---- the head and the drawing ---- */

static void put_heading(pare_text *out, const pare_sheet_view *view)
{
    pare_text words = {0};
    pare_all_up_words(view, &screen, &words);
    out->failed |= words.failed;
    put_cell(out, "<h1 class=\"lead\">", view->craft.name, "</h1>\n");
    if (view->loadout)
        put_cell(out, "<p class=\"lead grey\">loadout ", view->loadout, "</p>\n");
    put_cell(out, "<p class=\"lead\">All-up ", pare_text_all(&words), "</p>\n");
    if (view->tried)
        put_cell(out, "<p class=\"lead\">Trying ", view->tried, "</p>\n");
    pare_text_free(&words);
}

/* The page of report.c without what stands before its svg element. */
static pare_status put_drawing(pare_report *report, pare_text *out, pare_error *err)
{
    pare_text svg = {0};
    const pare_status status = pare_report_page(report, PARE_PAGE_SVG, &svg, err);
    const char *from = status == PARE_OK ? strstr(svg.bytes, "<svg") : NULL;
    if (from) {
        pare_text_add(out, "<figure tabindex=\"0\" aria-label=\"the drawn page\">\n");
        pare_text_put(out, from, svg.length - (size_t)(from - svg.bytes));
        pare_text_add(out, "</figure>\n");
    }
    pare_text_free(&svg);
    return status;
}

/* ---- tables ---- */

static double on_wall(double ratio)
{
    return WALL_WIDTH * fmin(fmax(ratio, 0), PARE_WALL_HIGH) / PARE_WALL_HIGH;
}

static void put_wall(const pare_margin *m, pare_text *out)
{
    const double u = m->ratio_u > 0 ? m->ratio_u : 0;
    pare_text_printf(out,
                     "<td class=\"wall\"><svg viewBox=\"-5 0 %g %g\" aria-hidden=\"true\">"
                     "<path d=\"M0 9H%g\" stroke=\"var(--line)\"/>"
                     "<path d=\"M%.1f 0V18\" stroke=\"var(--clay)\" stroke-width=\"2\"/>"
                     "<path d=\"M%.1f 9H%.1f\" stroke=\"currentColor\" stroke-width=\"3\"/>",
                     WALL_WIDTH + 10, WALL_HEIGHT, WALL_WIDTH, on_wall(1), on_wall(m->ratio - u),
                     on_wall(m->ratio + u));
    if (m->ratio > PARE_WALL_HIGH) /* beyond the scale: an arrow's head */
        pare_text_printf(out, "<path d=\"M%g 4l6 5l-6 5z\" fill=\"currentColor\"/>",
                         WALL_WIDTH - 3);
    else
        pare_text_printf(out, "<circle cx=\"%.1f\" cy=\"9\" r=\"4\" fill=\"currentColor\"/>",
                         on_wall(m->ratio));
    pare_text_add(out, "</svg></td>");
}

static const char *class_of(pare_column_kind kind)
{
    switch (kind) {
    case PARE_COLUMN_NUMBER:
        return "n";
    case PARE_COLUMN_SHARE:
        return "n share";
    case PARE_COLUMN_BOX:
        return "box";
    default:
        return NULL;
    }
}

static void put_heads(const pare_table *table, pare_text *out)
{
    pare_text_add(out, "<thead><tr>");
    for (size_t c = 0; c < table->columns; c++) {
        const pare_column *column = &table->column[c];
        if (!pare_table_shows(table, c))
            continue;
        pare_text_add(out, column->kind == PARE_COLUMN_NUMBER || column->kind == PARE_COLUMN_SHARE
                               ? "<th scope=\"col\" class=\"n\">"
                               : "<th scope=\"col\">");
        put_cell(out, "", column->title, "");
        if (column->unit && *column->unit)
            put_cell(out, ", ", column->unit, "");
        pare_text_add(out, "</th>");
    }
    pare_text_add(out, "</tr></thead>\n");
}

static void put_row(const pare_table *table, const pare_entry *row, const pare_margin *margin,
                    pare_text *out)
{
    char words[PARE_DIGITS];
    pare_text_add(out, "<tr>");
    for (size_t c = 0; c < table->columns; c++) {
        const pare_column *column = &table->column[c];
        const char *class = class_of(column->kind);
        if (!pare_table_shows(table, c))
            continue;
        if (column->kind == PARE_COLUMN_WALL && margin) {
            put_wall(margin, out);
            continue;
        }
        const char *text = pare_table_words(words, table, row, c);
        if (c == 0) {
            put_cell(out, "<th scope=\"row\">", text, "</th>");
            continue;
        }
        pare_text_add(out, "<td");
        if (column->kind == PARE_COLUMN_SHARE && row[c].number > 0)
            pare_text_printf(out, " class=\"n share\" style=\"--s:%.1f%%\"",
                             fmin(row[c].number, 100));
        else if (class)
            pare_text_printf(out, " class=\"%s\"", class);
        else if (column->width >= WIDE)
            pare_text_add(out, " class=\"from\"");
        put_cell(out, ">", text, "</td>");
    }
    pare_text_add(out, "</tr>\n");
}

static void put_table(const pare_table *table, pare_text *out)
{
    pare_text_printf(out, "<h2 id=\"%s\"%s>", table->id, table->own_page ? " class=\"new\"" : "");
    put_cell(out, "", table->title, "</h2>\n");
    if (table->fill)
        put_cell(out, "<p>", table->fill, "</p>\n");
    pare_text_printf(out,
                     "<div class=\"wide%s\" tabindex=\"0\" role=\"region\" "
                     "aria-labelledby=\"%s\"><table>\n",
                     table->fill ? " weigh" : "", table->id);
    put_cell(out, "<caption>", table->caption, "</caption>\n");
    if (table->rows) {
        put_heads(table, out);
        pare_text_add(out, "<tbody>\n");
        for (size_t r = 0; r < table->rows; r++)
            put_row(table, &table->cell[r * table->columns],
                    table->margin ? &table->margin[r] : NULL, out);
        pare_text_add(out, "</tbody>\n");
    } else {
        pare_text_add(out, "<tbody><tr><td>nothing</td></tr></tbody>\n");
    }
    if (table->rows && table->total) {
        pare_text_add(out, "<tfoot>");
        put_row(table, table->total, NULL, out);
        pare_text_add(out, "</tfoot>\n");
    }
    pare_text_add(out, "</table></div>\n");
}

static void put_cautions(const pare_report_tables *tables, pare_text *out)
{
    pare_text_add(out, "<h2>Cautions</h2>\n<ul>\n");
    for (size_t i = 0; i < tables->cautions; i++)
        put_cell(out, "<li>", tables->caution[i], "</li>\n");
    pare_text_add(out, "</ul>\n");
}

pare_status pare_report_html(pare_report *report, const pare_report_tables *tables, pare_text *out,
                             pare_error *err)
{
    const pare_sheet_view *view = report->view;
    pare_text_add(out, "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" "
                       "lang=\"en-GB\">\n<head>\n");
    put_cell(out, "<title>", view->craft.name, ": report</title>\n");
    pare_text_add(out, head);
    pare_text_add(out, "</head>\n<body>\n<main>\n");
    put_heading(out, view);
    const pare_status status = put_drawing(report, out, err);
    if (status != PARE_OK)
        return status;
    for (size_t i = 0; i < tables->tables; i++)
        if (!tables->table[i].book_only)
            put_table(&tables->table[i], out);
    put_cautions(tables, out);
    pare_text_add(out, "</main>\n</body>\n</html>\n");
    return out->failed ? pare_no_memory(err) : PARE_OK;
}
