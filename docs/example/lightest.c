/* lightest.c: what a craft weighs, its first few swaps, and the lightest set of swaps that its brief
 * allows.
 *
 *     cc $(pkg-config --cflags pare) lightest.c $(pkg-config --libs pare) -o lightest
 *     ./lightest BENCH CRAFT */
#include <pare/pare.h>

#include <stdio.h>
#include <time.h>

enum { ROWS = 5, MOST_S = 10 };

static pare_status show_sheet(const pare_snapshot *bench, const char *craft, pare_error *err)
{
    static const char *const keys[] = {"all_up_g", "hover_a", "flown_min",
                                       "thrust_to_weight_fresh"};
    pare_craft_sheet *sheet = NULL;
    const pare_status status = pare_craft_sheet_compute(bench, craft, NULL, NULL, &sheet, err);
    for (size_t i = 0; status == PARE_OK && i < sizeof keys / sizeof keys[0]; i++) {
        const pare_craft_figure *figure = pare_craft_sheet_find(sheet, keys[i]);
        if (figure->why)
            printf("%-24s none: %s\n", figure->key, figure->why);
        else
            printf("%-24s %.6g +- %.2g %s, %s\n", figure->key, figure->value, figure->value_u,
                   figure->unit, figure->known);
    }
    pare_craft_sheet_close(sheet);
    return status;
}

static pare_status show_swaps(const pare_snapshot *bench, const char *craft, pare_error *err)
{
    pare_swap_list *list = NULL;
    const pare_swap_row *row;
    const pare_status status = pare_swap_list_find(bench, craft, NULL, NULL, &list, err);
    for (size_t i = 0; status == PARE_OK && i < ROWS; i++)
        if ((row = pare_swap_list_row(list, i)) != NULL)
            printf("%-32s %7.2f g  %s%s%s\n", row->id, row->grams, row->band,
                   row->breaks[0] ? "; breaks " : "", row->breaks[0] ? row->breaks[0] : "");
    pare_swap_list_close(list);
    return status;
}

/* The library looks at no clock: how long is long is for its caller to say. */
static int before(void *deadline)
{
    return time(NULL) < *(const time_t *)deadline;
}

static pare_status show_best(const pare_snapshot *bench, const char *craft, pare_error *err)
{
    time_t deadline = time(NULL) + MOST_S;
    pare_best_set *set = NULL;
    const pare_status status = pare_best_set_find(bench, craft, NULL, before, &deadline, &set, err);
    if (status == PARE_OK) {
        const pare_best_facts *facts = pare_best_set_facts(set);
        if (!facts->found)
            printf("no set %s\n", facts->proven ? "meets the brief" : "found yet");
        else
            printf("%.4f g with this set, %s:\n%s\n", facts->after_g,
                   facts->proven ? "proven lightest" : "the best so far", facts->swaps);
    }
    pare_best_set_close(set);
    return status;
}

int main(int count, char **word)
{
    pare_error err;
    pare_snapshot *bench = NULL;
    if (count != 3) {
        fprintf(stderr, "%s BENCH CRAFT\n", word[0]);
        return 2;
    }
    pare_status status = pare_snapshot_open(word[1], &bench, &err);
    if (status == PARE_OK)
        status = show_sheet(bench, word[2], &err);
    if (status == PARE_OK)
        status = show_swaps(bench, word[2], &err);
    if (status == PARE_OK)
        status = show_best(bench, word[2], &err);
    pare_snapshot_close(bench);
    if (status != PARE_OK)
        fprintf(stderr, "%s\n", err.text);
    return (int)status;
}
