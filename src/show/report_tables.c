/* report_tables.c: the tables that are read off a sheet: figures, margins, ledger, weigh-in (see
 * report_tables.h); and the cautions that go with a report. */
#include "show/report_tables.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- figures ---- */

static void make_figures(const pare_sheet *sheet, pare_arena *arena, pare_table *table)
{
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Figure", NULL, 40, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Value", NULL, 20, PARE_AS_SAID, NULL, NULL, false},
        {PARE_COLUMN_U, "Uncertainty", NULL, 0, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Unit", NULL, 15, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "How known", NULL, 20, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Why there is none", NULL, 60, 0, NULL, NULL, false},
    };
    pare_table_open(table, arena, "figures", "Figures", sizeof columns / sizeof columns[0], columns,
                    PARE_FIGURES);
    table->book_only = true;
    table->caption = "Every figure of the sheet with its standard uncertainty.";
    for (int i = 0; i < PARE_FIGURES; i++) {
        const pare_figure_row *row = &pare_figure_table[i];
        const pare_sheet_figure *figure = &sheet->figure[i];
        const bool share = row->dimension == PARE_DIM_SHARE;
        const double scale = share ? 100 * row->scale : row->scale;
        pare_entry *cell = pare_table_row(table);
        cell[0].text = row->words;
        cell[3].text = share ? "%" : row->unit;
        if (figure->exists) {
            cell[1].number = scale * figure->value;
            cell[2].number = figure->u > 0 ? scale * figure->u : (double)NAN;
            cell[4].text = pare_known_name(figure->known);
        } else {
            cell[5].text = figure->why;
        }
    }
}

/* ---- margins ---- */

static void make_margins(const pare_sheet *sheet, pare_arena *arena, pare_table *table)
{
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Margin", NULL, 40, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Ratio", NULL, 25, 0, NULL, NULL, false},
        {PARE_COLUMN_U, "Uncertainty of the ratio", NULL, 0, 0, NULL, NULL, false},
        {PARE_COLUMN_WALL, "Distance to the wall", NULL, 31, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Chance that it holds", "%", 0, 1, NULL, NULL, true},
        {PARE_COLUMN_NUMBER, "Value", NULL, 22, 0, NULL, NULL, false},
        {PARE_COLUMN_U, "Uncertainty", NULL, 0, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Must be", NULL, 17, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Limit", NULL, 14, PARE_AS_SAID, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Unit", NULL, 13, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Limit from", NULL, 48, 0, NULL, NULL, false},
    };
    pare_table_open(table, arena, "margins", "Margins", sizeof columns / sizeof columns[0], columns,
                    PARE_MARGINS);
    table->margin = sheet->margin;
    table->caption = "What it bears over what it must bear, worst first, with one standard "
                     "uncertainty; the wall stands at 1, the scale ends at 3.";
    for (size_t i = 0; i < sheet->margins; i++) {
        const pare_margin *m = &sheet->margin[i];
        char words[64];
        pare_entry *cell = pare_table_row(table);
        cell[0].text = pare_arena_text(arena, pare_margin_words(m, words));
        cell[1].number = m->ratio;
        cell[2].number = m->ratio_u;
        cell[4].number = 100 * m->chance;
        cell[5].number = m->value;
        cell[6].number = m->value_u;
        cell[7].text = m->at_least ? "at least" : "at most";
        cell[8].number = m->limit;
        cell[9].text = m->unit;
        cell[10].text = m->from;
        table->failed |= !cell[0].text;
    }
}

/* ---- grams ---- */

static const char *part_of(const pare_craft *craft, const pare_line *line)
{
    return line->of == PARE_LINE_ITEM ? craft->item[line->index].part->id : "";
}

static void make_ledger(const pare_sheet_view *view, pare_arena *arena, pare_table *table)
{
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Line", NULL, 36, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "System", NULL, 26, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Part", NULL, 30, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Count", NULL, 12, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Each", "g", 14, 2, NULL, NULL, true},
        {PARE_COLUMN_NUMBER, "All", "g", 22, 0, "=D#*E#", "=SUM(F@:F#)", false},
        {PARE_COLUMN_U, "Uncertainty", "g", 0, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "How known", NULL, 19, 0, NULL, NULL, false},
        {PARE_COLUMN_SHARE, "Roll", "%", 17, 0, NULL, NULL, false},
        {PARE_COLUMN_SHARE, "Pitch", "%", 17, 0, NULL, NULL, false},
        {PARE_COLUMN_SHARE, "Yaw", "%", 17, 0, NULL, NULL, false},
    };
    const pare_assembly *assembly = &view->sheet.assembly;
    pare_table_open(table, arena, "ledger", "Ledger and shares of inertia",
                    sizeof columns / sizeof columns[0], columns, PARE_LINES);
    table->sheet = "Ledger";
    table->own_page = true;
    table->caption =
        "Every gram by system, and each line's share of the inertia in roll, pitch and "
        "yaw.";
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        const int count = line->count > 0 ? line->count : 1;
        pare_entry *cell = pare_table_row(table);
        cell[0].text = line->name;
        cell[1].text = pare_system_name(line->system);
        cell[2].text = part_of(&view->craft, line);
        cell[3].number = count;
        cell[4].number = 1e3 * line->mass_kg.value / count;
        cell[5].number = 1e3 * line->mass_kg.value;
        cell[6].number = 1e3 * line->mass_kg.u;
        cell[7].text = pare_known_name(line->mass_kg.known);
        for (int axis = 0; axis < 3; axis++)
            cell[8 + axis].number = 100 * pare_line_share(assembly, i, axis);
    }
    const pare_sheet_figure *all = &view->sheet.figure[PARE_ALL_UP];
    pare_entry *total = pare_table_total(table);
    total[0].text = "all-up";
    total[5].number = 1e3 * all->value;
    total[6].number = 1e3 * all->u;
}

static void make_systems(const pare_sheet_view *view, pare_arena *arena, pare_table *table)
{
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "System", NULL, 30, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "All", "g", 20, 2, "=SUMIF(Ledger!B:B,A#,Ledger!F:F)", "=SUM(B@:B#)",
         false},
    };
    const pare_assembly *assembly = &view->sheet.assembly;
    pare_table_open(table, arena, "systems", "Systems", sizeof columns / sizeof columns[0], columns,
                    PARE_SYSTEMS);
    table->book_only = true;
    table->caption = "The ledger's grams, system by system.";
    double all_kg = 0;
    for (size_t i = 0; i < assembly->lines; i++)
        all_kg += assembly->line[i].mass_kg.value;
    for (int system = 0; system < PARE_SYSTEMS; system++) {
        double kg = 0;
        bool any = false;
        for (size_t i = 0; i < assembly->lines; i++)
            if (assembly->line[i].system == (pare_system)system) {
                kg += assembly->line[i].mass_kg.value;
                any = true;
            }
        if (!any)
            continue;
        pare_entry *cell = pare_table_row(table);
        cell[0].text = pare_system_name((pare_system)system);
        cell[1].number = 1e3 * kg;
    }
    pare_entry *total = pare_table_total(table);
    total[0].text = "all-up";
    total[1].number = 1e3 * all_kg;
}

/* A reading may be of all copies together. */
static void make_weigh_in(const pare_sheet *sheet, pare_arena *arena, pare_table *table)
{
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Line", NULL, 50, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Count", NULL, 14, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "All of them", "g", 30, 0, NULL, NULL, false},
        {PARE_COLUMN_U, "Uncertainty", "g", 0, 0, NULL, NULL, false},
        {PARE_COLUMN_BOX, "Reading", "g", 30, 0, NULL, NULL, false},
        {PARE_COLUMN_BOX, "Weighed together", NULL, 30, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Reading less expected", "g", 0, 2,
         "=IF(ISNUMBER(E#),E#-C#*IF(ISNUMBER(F#),F#/B#,1),\"\")", NULL, true},
    };
    static const pare_figure whole[] = {PARE_DRY, PARE_ALL_UP};
    const pare_assembly *assembly = &sheet->assembly;
    pare_table_open(table, arena, "weigh", "Weigh-in sheet", sizeof columns / sizeof columns[0],
                    columns, PARE_LINES + 2);
    table->own_page = true;
    table->fill =
        "Scale: ____________  resolution: ______ g  checked with: ______ g, shows ______ g";
    table->caption =
        "What the scale should show, with one standard uncertainty, and boxes for what "
        "it does show. Write how many were weighed together.";
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        if (line->of == PARE_LINE_UNLISTED || !(line->mass_kg.value > 0))
            continue;
        pare_entry *cell = pare_table_row(table);
        cell[0].text = line->name;
        cell[1].number = line->count;
        cell[2].number = 1e3 * line->mass_kg.value;
        cell[3].number = 1e3 * line->mass_kg.u;
    }
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++) {
        const pare_sheet_figure *figure = &sheet->figure[whole[i]];
        if (!figure->exists)
            continue;
        pare_entry *cell = pare_table_row(table);
        cell[0].text = pare_figure_table[whole[i]].words;
        cell[1].number = 1;
        cell[2].number = 1e3 * figure->value;
        cell[3].number = 1e3 * figure->u;
    }
}

/* ---- cautions ---- */

static void add_caution(pare_report_tables *tables, const char *text, bool *failed)
{
    *failed = *failed || !text;
    if (tables->cautions < PARE_REPORT_CAUTIONS)
        tables->caution[tables->cautions++] = text;
}

static void make_cautions(const pare_report *report, const pare_report_with *with,
                          pare_arena *arena, pare_report_tables *tables, bool *failed)
{
    const pare_sheet *sheet = &report->view->sheet;
    char words[64];
    add_caution(tables,
                "Propellers come off before any work on a powered craft. Lithium packs burn when "
                "cut, crushed, shorted or overcharged.",
                failed);
    add_caution(tables,
                "A legal mass limit counts the craft as flown, with everything on it: check your "
                "local rules.",
                failed);
    for (size_t i = 0; i < sheet->margins; i++) {
        const pare_margin *m = &sheet->margin[i];
        size_t before = 0;
        while (m->caution && before < i &&
               (!sheet->margin[before].caution ||
                strcmp(sheet->margin[before].caution, m->caution) != 0))
            before++;
        if (m->caution && before == i && strcmp(m->name, "limit.all_up") != 0)
            add_caution(
                tables,
                pare_arena_printf(arena, "%s: %s.", pare_margin_words(m, words), m->caution),
                failed);
    }
    for (size_t i = 0; i < report->notes; i++)
        add_caution(tables, pare_arena_printf(arena, "%s.", report->note[i]), failed);
    if (with->plan_why)
        add_caution(tables,
                    pare_arena_printf(arena,
                                      "What is taken and not fitted yet is not in the shopping "
                                      "list, since as things are it does not go on: %s.",
                                      with->plan_why),
                    failed);
    if (!with->best)
        add_caution(tables,
                    "The best set of swaps is not in here: it was not asked for, since the search "
                    "may take minutes.",
                    failed);
}

/* ---- all of it ---- */

static pare_table *next(pare_report_tables *tables)
{
    return &tables->table[tables->tables++];
}

static const char *caption(pare_table *table, const char *words, pare_arena *arena)
{
    const char *text =
        *words ? pare_arena_printf(arena, "For %s. %s", words, table->caption) : table->caption;
    table->failed |= !text;
    return text;
}

static void make_errands(const pare_shopping *shopping, const char *words, const char *money,
                         const char *const titles[2], pare_arena *arena, pare_report_tables *tables)
{
    if (shopping->parts + shopping->screws + shopping->wires) {
        pare_table *table = next(tables);
        pare_shopping_table(shopping, money, arena, table);
        table->title = table->sheet = titles[0];
        table->caption = caption(table, words, arena);
    }
    if (shopping->cuts) {
        pare_table *table = next(tables);
        pare_cutting_table(shopping, arena, table);
        table->title = table->sheet = titles[1];
        table->caption = caption(table, words, arena);
    }
}

pare_status pare_report_tables_make(const pare_report *report, const pare_report_with *with,
                                    pare_arena *arena, pare_report_tables *tables, pare_error *err)
{
    static const char *const taken[2] = {"Shopping list", "Cutting list"},
                             *const best[2] = {"Shopping for the best set",
                                               "Cutting for the best set"};
    const pare_sheet_view *view = report->view;
    bool failed = false;
    *tables = (pare_report_tables){0};
    make_figures(&view->sheet, arena, next(tables));
    make_margins(&view->sheet, arena, next(tables));
    make_ledger(view, arena, next(tables));
    make_systems(view, arena, next(tables));
    if (with->swaps)
        pare_swaps_table(with->swaps, with->money, arena, next(tables));
    if (with->best)
        pare_best_table(with->best, arena, next(tables));
    if (with->best && with->best->best->found)
        pare_best_figures_table(with->best->best, arena, next(tables));
    if (with->best_shopping)
        make_errands(with->best_shopping, "", with->money, best, arena, tables);
    if (with->shopping)
        make_errands(with->shopping, with->shopping_for, with->money, taken, arena, tables);
    make_weigh_in(&view->sheet, arena, next(tables));
    make_cautions(report, with, arena, tables, &failed);
    for (size_t i = 0; i < tables->tables; i++)
        failed |= tables->table[i].failed;
    return failed ? pare_no_memory(err) : PARE_OK;
}
