/* report_html.c: a craft as a document (see report_html.h).
 *
 * Well-formed as XML too, so a test can read it with a plain parser. The drawing is the page of
 * report.c as it is, on white in a dark room as well: its textures are made for paper. No script and no
 * address; a policy in the head forbids both, so that a name out of a strange bench can fetch nothing.
 * Every text of the bench goes through put_plain(). On a narrow screen tables scroll by themselves.
 *
 * A margin is a distance to a wall: a place on a scale from 0 to RATIO_HIGH with its interval, the wall at 1. */
#include "show/report_html.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/digits.h"
#include "show/sheet_text.h"

#define RATIO_HIGH  3.0
#define WALL_WIDTH  180.0 /* of a margin's drawing, in its own units */
#define WALL_HEIGHT 18.0

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
    "max-width:60rem;padding:1rem;overflow-wrap:anywhere}\n"
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
    "th{min-width:8rem}.from{min-width:15rem}@media(max-width:60rem){.from{min-width:26rem}}.n+."
    "wall{padding-left:.6rem}\n"
    ".n{text-align:right;white-space:nowrap}.wall svg{width:11rem;height:1.1rem;display:block}\n"
    ".box{min-width:6rem;border:1px solid var(--grey)}\n"
    "@media print{:root{--paper:#fff;--ink:#000;--grey:#444;--line:#bbb;--clay:#9c3d1c}"
    "body{max-width:none;padding:0;font-size:9.5pt}figure{break-after:page;margin:0}figure "
    "svg,.from{min-width:0}"
    "tr{break-inside:avoid}thead{display:table-header-group}h2{break-after:avoid}"
    ".weigh{break-before:page}.weigh td,.weigh th{height:1.7em}.wide{overflow:visible}}\n"
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
    put_cell(out, "<h1>", view->craft.name, "</h1>\n");
    if (view->loadout)
        put_cell(out, "<p class=\"grey\">loadout ", view->loadout, "</p>\n");
    put_cell(out, "<p>All-up ", words.bytes ? words.bytes : "", "</p>\n");
    if (view->tried)
        put_cell(out, "<p>Trying ", view->tried, "</p>\n");
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

/* ---- margins ---- */

static double on_wall(double ratio)
{
    return WALL_WIDTH * fmin(fmax(ratio, 0), RATIO_HIGH) / RATIO_HIGH;
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
    if (m->ratio > RATIO_HIGH) /* beyond the scale: an arrow's head */
        pare_text_printf(out, "<path d=\"M%g 4l6 5l-6 5z\" fill=\"currentColor\"/>",
                         WALL_WIDTH - 3);
    else
        pare_text_printf(out, "<circle cx=\"%.1f\" cy=\"9\" r=\"4\" fill=\"currentColor\"/>",
                         on_wall(m->ratio));
    pare_text_add(out, "</svg></td>");
}

static void put_margins(const pare_sheet *sheet, pare_text *out)
{
    char text[PARE_DIGITS], words[64];
    pare_text_add(
        out, "<h2 id=\"margins\">Margins</h2>\n<div class=\"wide\" tabindex=\"0\" role=\"region\" "
             "aria-labelledby=\"margins\"><table>\n<caption>What it bears over what it must bear, "
             "worst first, with one standard uncertainty; the wall stands at 1, the scale ends "
             "at 3.</caption>\n<thead><tr><th scope=\"col\">Margin</th><th scope=\"col\" "
             "class=\"n\">Ratio</th><th scope=\"col\">Distance to the wall</th><th scope=\"col\" "
             "class=\"n\">Value</th><th scope=\"col\" class=\"n\">Limit</th><th scope=\"col\">"
             "Unit</th><th scope=\"col\">Limit from</th></tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < sheet->margins; i++) {
        const pare_margin *m = &sheet->margin[i];
        put_cell(out, "<tr><th scope=\"row\">", pare_margin_words(m, words), "</th>");
        put_cell(out, "<td class=\"n\">", pare_digits_u(text, &screen, m->ratio, m->ratio_u),
                 "</td>");
        put_wall(m, out);
        put_cell(out, "<td class=\"n\">", pare_digits(text, m->value, m->value_u), "</td>");
        put_cell(out, m->at_least ? "<td class=\"n\">\u2265 " : "<td class=\"n\">\u2264 ",
                 pare_digits_limit(text, m->limit), "</td>");
        put_cell(out, "<td>", m->unit, "</td>");
        put_cell(out, "<td class=\"from\">", m->from, "</td></tr>\n");
    }
    pare_text_add(out, "</tbody></table></div>\n");
}

/* ---- grams ---- */

static void put_grams(pare_text *out, double kg, double u_kg)
{
    char text[PARE_DIGITS];
    put_cell(out, "<td class=\"n\">", pare_digits_u(text, &screen, kg * 1e3, u_kg * 1e3), "</td>");
}

static void put_ledger(const pare_sheet *sheet, pare_text *out)
{
    pare_text_add(
        out,
        "<h2 id=\"ledger\">Ledger</h2>\n<div class=\"wide\" tabindex=\"0\" role=\"region\" "
        "aria-labelledby=\"ledger\"><table>\n<caption>Every gram by system, and each line's "
        "share of the inertia in roll, pitch and yaw.</caption>\n<thead><tr><th scope=\"col\">"
        "Line</th><th scope=\"col\">System</th><th scope=\"col\" class=\"n\">Count</th>"
        "<th scope=\"col\" class=\"n\">g</th><th scope=\"col\">How known</th><th scope=\"col\" "
        "class=\"n\">Roll %</th><th scope=\"col\" class=\"n\">Pitch %</th><th scope=\"col\" "
        "class=\"n\">Yaw %</th></tr></thead>\n<tbody>\n");
    const pare_assembly *assembly = &sheet->assembly;
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        put_cell(out, "<tr><th scope=\"row\">", line->name, "</th>");
        put_cell(out, "<td>", pare_system_name(line->system), "</td>");
        pare_text_printf(out, "<td class=\"n\">%d</td>", line->count);
        put_grams(out, line->mass_kg.value, line->mass_kg.u);
        put_cell(out, "<td>", pare_known_name(line->mass_kg.known), "</td>");
        for (int axis = 0; axis < 3; axis++) {
            const double share = 100 * pare_line_share(assembly, i, axis);
            if (isfinite(share))
                pare_text_printf(out, "<td class=\"n\">%.0f</td>", share + 0.0);
            else
                pare_text_add(out, "<td></td>");
        }
        pare_text_add(out, "</tr>\n");
    }
    const pare_sheet_figure *all = &sheet->figure[PARE_ALL_UP];
    pare_text_add(out, "</tbody>\n<tfoot><tr><th scope=\"row\">all-up</th><td></td><td></td>");
    put_grams(out, all->value, all->u);
    pare_text_add(out, "<td></td><td></td><td></td><td></td></tr></tfoot></table></div>\n");
}

/* One row with boxes for the pen; a reading may be of all copies together. */
static void put_boxes(pare_text *out)
{
    pare_text_add(out, "<td class=\"box\"></td><td class=\"box\"></td></tr>\n");
}

static void put_weigh_in(const pare_sheet *sheet, pare_text *out)
{
    pare_text_add(
        out, "<h2 id=\"weigh\" class=\"weigh\">Weigh-in sheet</h2>\n<p>Scale: ____________  "
             "resolution: ______ g  checked with: ______ g, shows ______ g</p>\n"
             "<div class=\"wide weigh\" tabindex=\"0\" role=\"region\" aria-labelledby=\"weigh\">"
             "<table>\n<caption>What the scale should show, with one standard uncertainty, and "
             "boxes for what it does show. Write how many were weighed together.</caption>\n"
             "<thead><tr><th scope=\"col\">Line</th><th scope=\"col\" class=\"n\">Count</th>"
             "<th scope=\"col\" class=\"n\">All of them, g</th><th scope=\"col\">Reading, g</th>"
             "<th scope=\"col\">Weighed together</th></tr></thead>\n<tbody>\n");
    const pare_assembly *assembly = &sheet->assembly;
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        if (line->of == PARE_LINE_UNLISTED || !(line->mass_kg.value > 0))
            continue;
        put_cell(out, "<tr><th scope=\"row\">", line->name, "</th>");
        pare_text_printf(out, "<td class=\"n\">%d</td>", line->count);
        put_grams(out, line->mass_kg.value, line->mass_kg.u);
        put_boxes(out);
    }
    static const pare_figure whole[] = {PARE_DRY, PARE_ALL_UP};
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++) {
        const pare_sheet_figure *figure = &sheet->figure[whole[i]];
        if (!figure->exists)
            continue;
        put_cell(out, "<tr><th scope=\"row\">", pare_figure_table[whole[i]].words,
                 "</th><td class=\"n\">1</td>");
        put_grams(out, figure->value, figure->u);
        put_boxes(out);
    }
    pare_text_add(out, "</tbody></table></div>\n");
}

static void put_cautions(const pare_report *report, pare_text *out)
{
    const pare_sheet *sheet = &report->view->sheet;
    char words[64];
    pare_text_add(out, "<h2>Cautions</h2>\n<ul>\n<li>Propellers come off before any work on a "
                       "powered craft. Lithium packs burn when cut, crushed, shorted or "
                       "overcharged.</li>\n<li>A legal mass limit counts the craft as flown, with "
                       "everything on it: check your local rules.</li>\n");
    for (size_t i = 0; i < sheet->margins; i++) {
        const pare_margin *m = &sheet->margin[i];
        size_t before = 0;
        while (m->caution && before < i &&
               (!sheet->margin[before].caution ||
                strcmp(sheet->margin[before].caution, m->caution) != 0))
            before++;
        if (!m->caution || before < i || strcmp(m->name, "limit.all_up") == 0)
            continue;
        put_cell(out, "<li>", pare_margin_words(m, words), ": ");
        put_cell(out, "", m->caution, ".</li>\n");
    }
    for (size_t i = 0; i < report->notes; i++)
        put_cell(out, "<li>", report->note[i], ".</li>\n");
    pare_text_add(out,
                  "</ul>\n<p class=\"grey\">The best set of swaps and what to buy for it are not "
                  "in here: <code>pare best</code> searches for them.</p>\n");
}

pare_status pare_report_html(pare_report *report, pare_text *out, pare_error *err)
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
    put_margins(&view->sheet, out);
    put_ledger(&view->sheet, out);
    put_weigh_in(&view->sheet, out);
    put_cautions(report, out);
    pare_text_add(out, "</main>\n</body>\n</html>\n");
    return out->failed ? pare_no_memory(err) : PARE_OK;
}
