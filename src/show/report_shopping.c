/* report_shopping.c: what to buy and to cut as tables of a report (see report_tables.h). */
#include <math.h>

#include "advise/money.h"
#include "show/report_tables.h"
#include "show/shopping.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static const char *screws_text(pare_arena *arena, pare_table *table, pare_fastener standard,
                               double nominal_m, double length_m, pare_screw_material material)
{
    char words[PARE_SORT_WORDS];
    const char *text =
        pare_arena_text(arena, pare_screws_words(words, standard, nominal_m, length_m, material));
    table->failed |= !text;
    return text;
}

/* What is bought of something, in its own words, and for how much. */
static void put_bought(pare_entry *cell, const char *of, double times, double each_money)
{
    cell[6].text = of;
    cell[7].number = times;
    if (times > 0) {
        cell[8].number = each_money;
        cell[9].number = times * each_money;
    }
}

static void put_parts(const pare_shopping *s, const pare_shop_seller *seller, pare_arena *arena,
                      pare_table *table)
{
    for (size_t i = seller->first; i < seller->first + seller->parts; i++) {
        const pare_shop_part *row = &s->part[i];
        const pare_price *price = &row->part->price;
        const char *sold =
            price->sold_in > 1 ? pare_arena_printf(arena, "set of %d", price->sold_in) : "piece";
        pare_entry *cell = pare_table_row(table);
        cell[0].text = seller->name;
        cell[1].text = row->part->id;
        cell[2].text = row->part->maker;
        cell[3].number = row->needed;
        cell[4].number = row->spare;
        cell[5].number = row->coming;
        put_bought(cell, sold, row->sets, row->sets ? row->money / row->sets : (double)NAN);
        table->failed |= !sold;
    }
    if (seller->shipping > 0) {
        pare_entry *cell = pare_table_row(table);
        cell[0].text = seller->name;
        cell[1].text = "shipping";
        put_bought(cell, "", 1, seller->shipping);
    }
}

void pare_shopping_table(const pare_shopping *shopping, const char *money, pare_arena *arena,
                         pare_table *table)
{
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "Seller", NULL, 28, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "What", NULL, 54, 0, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Maker", NULL, 24, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Needed", NULL, 17, PARE_AS_SAID, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Unused", NULL, 17, PARE_AS_SAID, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Ordered", NULL, 17, PARE_AS_SAID, NULL, NULL, false},
        {PARE_COLUMN_TEXT, "Sold by", NULL, 18, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "To buy", NULL, 16, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Price", NULL, 16, 2, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Costs", NULL, 16, 2, "=IF(ISNUMBER(I#),H#*I#,\"\")", "=SUM(J@:J#)",
         false},
    };
    pare_table_open(table, arena, "shopping", "Shopping list", COUNT(columns), columns,
                    PARE_ITEMS + PARE_ITEMS + PARE_JOINTS + PARE_RUNS);
    table->caption = shopping->priced
                         ? "As it is sold. Screws and wire are at usual prices."
                         : "As it is sold. Screws and wire are at usual prices; what has no price "
                           "yet is not in the sum.";
    for (size_t i = 0; i < shopping->sellers; i++)
        put_parts(shopping, &shopping->seller[i], arena, table);
    for (size_t i = 0; i < shopping->screws; i++) {
        const pare_shop_screws *row = &shopping->screw[i];
        pare_entry *cell = pare_table_row(table);
        cell[1].text =
            screws_text(arena, table, row->standard, row->nominal_m, row->length_m, row->material);
        cell[3].number = row->needed;
        cell[5].number = row->coming;
        const char *bag = pare_arena_printf(arena, "bag of %d", PARE_SCREWS_IN_A_BAG);
        put_bought(cell, bag, row->bags, pare_bag_money(row->material));
        table->failed |= !bag;
    }
    for (size_t i = 0; i < shopping->wires; i++) {
        const pare_shop_wire *row = &shopping->wire[i];
        pare_entry *cell = pare_table_row(table);
        cell[1].text = pare_arena_printf(arena, "wire of %.3g AWG", row->gauge);
        cell[3].number = row->needed_m;
        cell[5].number = row->coming_m;
        put_bought(cell, "metre", row->metres, pare_wire_money_per_m(row->gauge));
        table->failed |= !cell[1].text;
    }
    pare_entry *total = pare_table_total(table);
    total[1].text = "in all";
    total[9].number = shopping->money;
    if (!table->failed)
        table->column[8].unit = table->column[9].unit = money;
}

void pare_cutting_table(const pare_shopping *shopping, pare_arena *arena, pare_table *table)
{
    static const pare_column columns[] = {
        {PARE_COLUMN_TEXT, "What", NULL, 60, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Count", NULL, 15, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Length", "mm", 20, PARE_AS_SAID, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Together", "m", 20, 3, "=IF(LEFT(A#,4)=\"wire\",B#*C#/1000,\"\")",
         NULL, false},
        {PARE_COLUMN_TEXT, "For", NULL, 40, 0, NULL, NULL, false},
        {PARE_COLUMN_NUMBER, "Out of those of", "mm", 25, PARE_AS_SAID, NULL, NULL, false},
    };
    static const char *const prefix[] = {
        [PARE_CUT_WIRE] = "run.", [PARE_CUT_COAX] = "", [PARE_CUT_SCREWS] = "joint."};
    pare_table_open(table, arena, "cutting", "Cutting list", COUNT(columns), columns, PARE_CUTS);
    table->caption = "Wire by gauge and length, coax, then screws by thread, length and material.";
    for (size_t i = 0; i < shopping->cuts; i++) {
        const pare_cut *cut = &shopping->cut[i];
        pare_entry *cell = pare_table_row(table);
        if (cut->of == PARE_CUT_SCREWS)
            cell[0].text = screws_text(arena, table, cut->standard, cut->nominal_m, cut->length_m,
                                       cut->material);
        else if (cut->of == PARE_CUT_WIRE)
            cell[0].text = pare_arena_printf(arena, "wire of %.3g AWG", cut->gauge);
        else
            cell[0].text = pare_arena_printf(arena, "coax of %s", cut->part->id);
        cell[1].number = cut->count;
        if (cut->length_m > 0)
            cell[2].number = 1e3 * cut->length_m;
        if (cut->of == PARE_CUT_WIRE)
            cell[3].number = cut->length_m * cut->count;
        cell[4].text = pare_arena_printf(arena, "%s%s", prefix[cut->of], cut->name);
        if (cut->was_m > 0)
            cell[5].number = 1e3 * cut->was_m;
        table->failed = table->failed || !cell[0].text || !cell[4].text;
    }
}
