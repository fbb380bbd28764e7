/* sheet.c: everything computed for one craft, for who calls from C (see pare/sheet.h).
 *
 * The rows are made when the sheet is computed, in the units of the program's answers, so that reading them
 * is looking them up. */
#include <pare/sheet.h>

#include <math.h>
#include <string.h>

#include "advise/swap.h"
#include "base/plain_locale.h"
#include "lib/inside.h"
#include "lib/named.h"

struct pare_craft_sheet {
    pare_arena *arena; /* of the sheet itself, too */
    pare_craft_figure figure[PARE_FIGURES];
    size_t margins, lines;
    pare_craft_margin *margin; /* [margins] */
    pare_craft_line *line;     /* [lines] */
};

static pare_craft_figure figure_of(int figure, const char *money, const pare_sheet_figure *from)
{
    const pare_figure_row *row = &pare_figure_table[figure];
    return (pare_craft_figure){.key = row->key,
                               .words = row->words,
                               .unit = figure == PARE_MONEY ? money : row->unit,
                               .value = from->exists ? row->scale * from->value : (double)NAN,
                               .value_u = from->exists ? row->scale * from->u : (double)NAN,
                               .known = from->exists ? pare_known_name(from->known) : NULL,
                               .why = from->exists ? NULL : from->why,
                               .better = row->better};
}

static pare_craft_margin margin_of(const pare_margin *from)
{
    return (pare_craft_margin){.name = from->name,
                               .unit = from->unit,
                               .value = from->value,
                               .value_u = from->value_u,
                               .limit = from->limit,
                               .at_least = from->at_least,
                               .ratio = from->ratio,
                               .ratio_u = from->ratio_u,
                               .chance = from->chance,
                               .from = from->from,
                               .caution = from->caution};
}

static pare_craft_line line_of(const pare_line *from)
{
    return (pare_craft_line){.of = pare_line_of_name(from->of),
                             .name = from->name,
                             .count = from->count,
                             .grams = 1e3 * from->mass_kg.value,
                             .grams_u = 1e3 * from->mass_kg.u,
                             .known = pare_known_name(from->mass_kg.known)};
}

static pare_status fill(const char *money, const pare_sheet *from, pare_craft_sheet *sheet,
                        pare_error *err)
{
    sheet->margins = from->margins;
    sheet->lines = from->assembly.lines;
    sheet->margin = pare_arena_array(sheet->arena, sheet->margins + 1, sizeof sheet->margin[0]);
    sheet->line = pare_arena_array(sheet->arena, sheet->lines + 1, sizeof sheet->line[0]);
    if (!sheet->margin || !sheet->line)
        return pare_no_memory(err);
    for (int i = 0; i < PARE_FIGURES; i++)
        sheet->figure[i] = figure_of(i, money, &from->figure[i]);
    for (size_t i = 0; i < sheet->margins; i++)
        sheet->margin[i] = margin_of(&from->margin[i]);
    for (size_t i = 0; i < sheet->lines; i++)
        sheet->line[i] = line_of(&from->assembly.line[i]);
    return PARE_OK;
}

/* Names are lent by the arena: it keeps the craft and its sheet. */
static pare_status compute(const pare_snapshot *snapshot, const char *name, const char *loadout,
                           const char *swaps, pare_craft_sheet *sheet, pare_error *err)
{
    const pare_bench bench = pare_snapshot_bench(snapshot, sheet->arena);
    pare_craft *craft = pare_arena_zeros(sheet->arena, sizeof *craft);
    pare_craft *loaded = pare_arena_zeros(sheet->arena, sizeof *loaded);
    pare_sheet *computed = pare_arena_zeros(sheet->arena, sizeof *computed);
    const pare_craft *before = NULL;
    int index = -1;
    pare_status status = craft && loaded && computed ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_built_craft(&snapshot->built, name, &before, err);
    if (status == PARE_OK)
        status = pare_loadout_named(before, loadout, &index, err);
    if (status == PARE_OK && swaps)
        status = pare_swap_apply_list(&bench, before, swaps, craft, err);
    if (status == PARE_OK)
        status = pare_craft_load(swaps ? craft : before, index, loaded, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(loaded, true, computed, err);
    return status == PARE_OK ? fill(bench.money, computed, sheet, err) : status;
}

pare_status pare_craft_sheet_compute(const pare_snapshot *snapshot, const char *craft,
                                     const char *loadout, const char *swaps,
                                     pare_craft_sheet **sheet, pare_error *err)
{
    const locale_t before = pare_plain_locale_enter();
    pare_arena *arena = pare_arena_open();
    pare_craft_sheet *made = arena ? pare_arena_zeros(arena, sizeof *made) : NULL;
    pare_status status = made ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK) {
        made->arena = arena;
        status = compute(snapshot, craft, loadout, swaps, made, err);
    }
    *sheet = status == PARE_OK ? made : NULL;
    if (status != PARE_OK)
        pare_arena_close(arena);
    pare_plain_locale_leave(before);
    return status;
}

void pare_craft_sheet_close(pare_craft_sheet *sheet)
{
    if (sheet)
        pare_arena_close(sheet->arena);
}

const pare_craft_figure *pare_craft_sheet_find(const pare_craft_sheet *sheet, const char *key)
{
    for (size_t i = 0; i < PARE_FIGURES; i++)
        if (strcmp(sheet->figure[i].key, key) == 0)
            return &sheet->figure[i];
    return NULL;
}

const pare_craft_figure *pare_craft_sheet_figure(const pare_craft_sheet *sheet, size_t index)
{
    return index < PARE_FIGURES ? &sheet->figure[index] : NULL;
}

const pare_craft_margin *pare_craft_sheet_margin(const pare_craft_sheet *sheet, size_t index)
{
    return index < sheet->margins ? &sheet->margin[index] : NULL;
}

const pare_craft_line *pare_craft_sheet_line(const pare_craft_sheet *sheet, size_t index)
{
    return index < sheet->lines ? &sheet->line[index] : NULL;
}
