/* best_ways.c: the search asked again without what was found (see best_ways.h). */
#include "advise/best_ways.h"

#include <string.h>

bool pare_best_is_part(const char *id)
{
    return memchr(id, '.', strcspn(id, "=")) == NULL;
}

bool pare_best_has_swap(const pare_best *best, const char *id)
{
    for (size_t i = 0; i < best->swaps; i++)
        if (strcmp(best->swap[i].applied.id, id) == 0)
            return true;
    return false;
}

/* The swaps of parts of a way: what no other may have. */
static pare_status bar_way(const pare_best *way, pare_arena *arena, pare_best_bar *bar,
                           pare_error *err)
{
    const char **id = pare_arena_array(arena, way->swaps + 1, sizeof id[0]);
    if (!id)
        return pare_no_memory(err);
    *bar = (pare_best_bar){.id = id};
    for (size_t i = 0; i < way->swaps; i++)
        if (pare_best_is_part(way->swap[i].applied.id))
            id[bar->ids++] = way->swap[i].applied.id;
    return PARE_OK;
}

pare_status pare_best_ways_find(const pare_bench *bench, const pare_craft *craft,
                                const pare_best_ask *ask, int wish, const pare_best *best,
                                const pare_best_wished *wished, size_t wanted, pare_arena *arena,
                                pare_best_ways *ways, pare_error *err)
{
    pare_best *way = pare_arena_array(arena, wanted, sizeof way[0]);
    pare_best_wished *each = pare_arena_array(arena, wanted, sizeof each[0]);
    pare_best_bar *bar = pare_arena_array(arena, wanted, sizeof bar[0]);
    if (!way || !each || !bar)
        return pare_no_memory(err);
    *ways = (pare_best_ways){.count = 1, .way = way, .wished = each, .proven = best->proven};
    way[0] = *best;
    each[0] = *wished;
    pare_best_ask asked = *ask;
    asked.bar = bar;
    while (ways->count < wanted && ways->proven && !ways->all) {
        const size_t next = ways->count;
        pare_status status = bar_way(&way[next - 1], arena, &bar[next - 1], err);
        asked.bars = next;
        if (status == PARE_OK)
            status = pare_best_wish_find(bench, craft, &asked, wish, arena, &way[next], &each[next],
                                         err);
        if (status != PARE_OK)
            return status;
        ways->proven = way[next].proven;
        ways->all = !way[next].found && way[next].proven;
        ways->count += way[next].found;
    }
    return PARE_OK;
}

/* How much worse a way is than the best. */
static double behind(const pare_best_ways *ways, size_t way)
{
    const pare_best *best = &ways->way[0], *other = &ways->way[way];
    return ways->wished[0].wish == PARE_WISH_MONEY
               ? other->money - best->money
               : pare_best_grams(other->best_100ug - best->best_100ug);
}

static pare_best_stand stand_of(const pare_best_ways *ways, size_t swap)
{
    const pare_best *best = &ways->way[0];
    const char *id = best->swap[swap].applied.id;
    const size_t length = strcspn(id, "=");
    pare_best_stand stand = {.swap = swap, .pieces = 1, .gap = behind(ways, ways->count - 1)};
    for (size_t i = 0; i < best->after->items; i++)
        if (strncmp(best->after->item[i].name, id, length) == 0 &&
            best->after->item[i].name[length] == '\0')
            stand.pieces = best->after->item[i].count;
    for (size_t way = 1; way < ways->count; way++)
        if (!pare_best_has_swap(&ways->way[way], id)) {
            stand.way = way;
            stand.gap = behind(ways, way);
            break;
        }
    return stand;
}

static bool comes_before(const pare_best_stand *a, const pare_best_stand *b)
{
    return (a->way > 0) != (b->way > 0) ? a->way > 0 : a->gap < b->gap;
}

size_t pare_best_stands(const pare_best_ways *ways, pare_best_stand stand[])
{
    const pare_best *best = &ways->way[0];
    const int wish = ways->wished[0].wish;
    size_t count = 0;
    if (!pare_best_wish_by_grams(wish) && wish != PARE_WISH_MONEY)
        return 0;
    for (size_t i = 0; i < best->swaps; i++) {
        const char *id = best->swap[i].applied.id;
        if (!pare_best_is_part(id) || strcmp(id + strcspn(id, "="), "=off") == 0)
            continue;
        const pare_best_stand one = stand_of(ways, i);
        size_t at = count++;
        for (; at > 0 && comes_before(&one, &stand[at - 1]); at--)
            stand[at] = stand[at - 1];
        stand[at] = one;
    }
    return count;
}
