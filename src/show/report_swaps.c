/* report_swaps.c: swaps and the best set as tables of a report (see report_tables.h). */
#include <math.h>

#include "show/report_tables.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

/* Texts one after another, into the arena. */
static const char *joined(pare_arena *arena, pare_text *line, bool *failed)
{
    const char *text = pare_arena_text(arena, pare_text_all(line));
    *failed = *failed || line->failed || !text;
    pare_text_free(line);
    return text;
}

static const char *drags(const pare_applied *a, pare_arena *arena, bool *failed)
{
    pare_text line = {0};
    for (size_t i = 0; i < a->brings; i++)
        pare_text_printf(&line, "%s%s", i ? "; " : "brings ", a->bring[i]);
    for (size_t i = 0; i < a->drops; i++)
        pare_text_printf(&line, "%s%s", i ? "; " : line.length ? "; off: " : "off: ", a->drop[i]);
    return joined(arena, &line, failed);
}

static const char *broken(const pare_swap *swap, pare_arena *arena, bool *failed)
{
    pare_text line = {0};
    for (size_t i = 0; i < swap->breaks; i++)
        pare_text_printf(&line, "%s%s", i ? ", " : "", swap->broken[i]);
    return joined(arena, &line, failed);
}

static const char *notes(const pare_applied *a, pare_arena *arena, bool *failed)
{
    pare_text line = {0};
    for (size_t i = 0; i < a->notes; i++)
        pare_text_printf(&line, "%s%s", i ? "; " : "", a->note[i]);
    return joined(arena, &line, failed);
}

void pare_swaps_table(const pare_swaps *swaps, const char *money, pare_arena *arena,
                      pare_table *table)
{
    static const char *const bands[] = {[PARE_BAND_FREE] = "free",
                                        [PARE_BAND_CHEAP] = "cheap",
                                        [PARE_BAND_DEEP] = "motors or pack",
                                        [PARE_BAND_DEAR] = "dear"};
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Swap", NULL, 40, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Band", NULL, 20, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "From", NULL, 20, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "To", NULL, 20, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Saves", "g", 15, 0, NULL, NULL, false},
        {PARE_COLUMN_U, "Uncertainty", "g", 0, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Costs", NULL, 15, 2, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Costs a gram", NULL, 15, 2, "=IF(AND(ISNUMBER(G#),E#>0),G#/E#,\"\")",
         NULL, false},
        {PARE_COLUMN_NUMBER, "Work", "min", 15, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Flown", "s more", 15, 1, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Thrust to weight", "more", 15, 3, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Roll", "rad/s2 more", 15, 1, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Breaks", NULL, 30, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Along with it", NULL, 40, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "To mind", NULL, 60, 0, NULL, NULL, false},
    };
    pare_table_open(table, arena, "swaps", "Swaps", COUNT(columns), columns, swaps->count);
    table->book_only = true;
    table->caption = "Each by itself on the craft as it is, best first; what is on no shelf last.";
    for (size_t i = 0; i < swaps->count; i++) {
        const pare_swap *swap = &swaps->swap[i];
        const pare_applied *a = &swap->applied;
        pare_entry *cell = pare_table_row(table);
        cell[0].text = a->id;
        cell[1].text = a->sought ? "on no shelf" : bands[swap->band];
        cell[2].text = a->from;
        cell[3].text = a->to;
        cell[4].number = 1e3 * swap->grams_kg;
        cell[5].number = 1e3 * swap->grams_u_kg;
        if (a->priced) {
            cell[6].number = a->money;
            cell[7].number = swap->grams_kg > 0 ? a->money / (1e3 * swap->grams_kg) : (double)NAN;
        }
        cell[8].number = a->work_min;
        cell[9].number = swap->change[PARE_FLOWN_TIME];
        cell[10].number = swap->change[PARE_TWR_FRESH];
        cell[11].number = swap->change[PARE_ROLL];
        cell[12].text = broken(swap, arena, &table->failed);
        cell[13].text = drags(a, arena, &table->failed);
        cell[14].text = notes(a, arena, &table->failed);
    }
    if (!table->failed)
        table->column[6].unit = table->column[7].unit = money;
}

/* ---- the best set ---- */

static void put_best_row(const pare_best_swap *swap, pare_arena *arena, pare_table *table)
{
    const pare_applied *a = &swap->applied;
    pare_entry *cell = pare_table_row(table);
    cell[0].text = pare_opening_words(swap->opening);
    cell[1].text = a->id;
    cell[2].text = a->from;
    cell[3].text = a->to;
    cell[4].number = pare_best_grams(swap->saved_100ug);
    cell[5].number = a->priced ? a->money : (double)NAN;
    cell[6].number = a->work_min;
    cell[7].text = drags(a, arena, &table->failed);
}

static const char *best_caption(const pare_best_view *view, pare_arena *arena, bool *failed)
{
    const pare_best *best = view->best;
    pare_text line = {0};
    pare_best_put_grams(view, &line);
    pare_text_add(&line, ". ");
    if (best->found) {
        pare_text_add(&line, best->proven ? "Proof: " : "The search was not finished, ");
        pare_best_put_proof(view, &line);
        pare_text_printf(&line, ". All of it together: %.0f min of work.",
                         ceil(best->work->minutes));
    } else if (best->proven) {
        pare_text_add(&line, "No set of these parts meets the brief.");
    } else {
        pare_text_printf(&line,
                         "The search was not finished: in %.0f s no set was found that meets the "
                         "brief.",
                         view->seconds);
    }
    return joined(arena, &line, failed);
}

void pare_best_table(const pare_best_view *view, pare_arena *arena, pare_table *table)
{
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Where", NULL, 25, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Swap", NULL, 56, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "From", NULL, 24, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "To", NULL, 24, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Saves", "g", 14, 1, NULL, "=SUM(E@:E#)", false},
        {PARE_COLUMN_NUMBER, "Costs", NULL, 16, 2, NULL, "=SUM(F@:F#)", false},
        {PARE_COLUMN_NUMBER, "Work", "min", 14, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Along with it", NULL, 30, 0, NULL, NULL, false},
    };
    const pare_best *best = view->best;
    pare_table_open(table, arena, "best", "The best set", COUNT(columns), columns, best->swaps);
    table->own_page = true;
    table->caption = best_caption(view, arena, &table->failed);
    for (int g = 0; g < PARE_OPENINGS; g++) /* a craft is opened once, what is free comes first */
        for (int costs = 0; costs < 2; costs++)
            for (size_t i = 0; i < best->swaps; i++)
                if (best->swap[i].opening == (pare_opening)g &&
                    pare_best_is_free(&best->swap[i]) == (costs == 0))
                    put_best_row(&best->swap[i], arena, table);
    if (best->found) {
        pare_entry *total = pare_table_total(table);
        total[0].text = "together";
        total[4].number = pare_best_grams(best->was_100ug - best->best_100ug);
        total[5].number = best->priced ? best->money : (double)NAN;
    }
    if (!table->failed)
        table->column[5].unit = view->money;
}

void pare_best_figures_table(const pare_best *best, pare_arena *arena, pare_table *table)
{
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Figure", NULL, 60, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Unit", NULL, 20, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Now", NULL, 40, PARE_AS_SAID, NULL, NULL, false},
        {PARE_COLUMN_U, "Uncertainty now", NULL, 0, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Then", NULL, 40, PARE_AS_SAID, NULL, NULL, false},
        {PARE_COLUMN_U, "Uncertainty then", NULL, 0, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Change", NULL, 0, PARE_AS_SAID, "=E#-C#", NULL, true},
    };
    const pare_sheet *const of[2] = {best->sheet_before, best->sheet_after};
    pare_table_open(table, arena, "change", "Before the best set and after", COUNT(columns),
                    columns, PARE_BEST_SHOWN);
    for (size_t i = 0; i < PARE_BEST_SHOWN; i++) {
        const pare_figure_row *row = &pare_figure_table[pare_best_shown[i]];
        const bool share = row->dimension == PARE_DIM_SHARE;
        const double scale = share ? 100 * row->scale : row->scale;
        pare_entry *cell = pare_table_row(table);
        cell[0].text = row->words;
        cell[1].text = share ? "%" : row->unit;
        for (size_t k = 0; k < 2; k++) {
            const pare_sheet_figure *figure = &of[k]->figure[pare_best_shown[i]];
            if (!figure->exists)
                continue;
            cell[2 + 2 * k].number = scale * figure->value;
            cell[3 + 2 * k].number = scale * figure->u;
        }
        cell[6].number = cell[4].number - cell[2].number;
    }
}
