/* loosen.c: the search asked once a limit (see loosen.h). */
#include "advise/loosen.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "craft/figure.h"

#define RATING_UNIT 0.01
#define TEN_UNITS   10

static const char limit_of_brief[] = "limit.";

double pare_limit_unit(const char *key)
{
    const int figure = pare_figure_of_limit(key);
    if (figure < 0)
        return RATING_UNIT; /* the least margin of all ratings, a ratio */
    const pare_figure_row *row = &pare_figure_table[figure];
    switch (row->dimension) {
    case PARE_DIM_TIME:
    case PARE_DIM_NUMBER:
        return 0.1 / row->scale;
    case PARE_DIM_SHARE:
        return 0.01 / row->scale;
    default:
        return 1 / row->scale;
    }
}

/* Never below nothing. */
static void loosen_brief(pare_brief *brief, const char *key, double by)
{
    for (size_t i = 0; i < brief->limits; i++) {
        pare_limit *limit = &brief->limit[i];
        if (pare_same_name(limit->key, key))
            limit->value = limit->at_least ? fmax(limit->value - by, 0) : limit->value + by;
    }
}

bool pare_best_gives_way(const char *name)
{
    return strcmp(name, "limit.all_up") != 0 && strchr(name, '.') != NULL;
}

static void tell_next(const pare_best *best, pare_loosened *one)
{
    for (size_t i = 0; i < best->binds; i++)
        if (strcmp(best->bind[i].name, one->name) != 0) {
            memcpy(one->next, best->bind[i].name, sizeof one->next);
            return;
        }
}

static pare_status loosen(const pare_bench *bench, const pare_craft *craft,
                          const pare_best_ask *ask, const pare_best *best, double units,
                          pare_loosened *one, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    pare_craft *looser = arena ? pare_arena_zeros(arena, sizeof *looser) : NULL;
    pare_best again;
    pare_best_eased eased = {.name = one->name, .share = 1};
    pare_best_ask asked = *ask;
    pare_status status = looser ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK) {
        pare_craft_copy(craft, looser);
        one->figure = -1;
        if (strncmp(one->name, limit_of_brief, strlen(limit_of_brief)) == 0) {
            const char *key = one->name + strlen(limit_of_brief);
            one->figure = pare_figure_of_limit(key);
            one->by = units * pare_limit_unit(key);
            loosen_brief(&looser->brief, key, one->by);
        } else {
            one->by = units * RATING_UNIT;
            eased.share = 1 - one->by;
            asked.ease = &eased;
            asked.eases = 1;
        }
        asked.below_100ug = best->best_100ug;
        status = pare_best_find(bench, looser, &asked, arena, &again, err);
    }
    if (status == PARE_OK) {
        one->proven = again.proven;
        one->won_100ug = again.found ? best->best_100ug - again.best_100ug : 0;
        tell_next(&again, one);
    }
    pare_arena_close(arena);
    return status;
}

pare_status pare_best_loosen(const pare_bench *bench, const pare_craft *craft,
                             const pare_best_ask *ask, const pare_best *best, const char *name,
                             pare_loosened *loosened, pare_error *err)
{
    pare_loosened by_one = {.figure = -1};
    memcpy(by_one.name, name, strnlen(name, sizeof by_one.name - 1));
    *loosened = by_one;
    pare_status status = loosen(bench, craft, ask, best, TEN_UNITS, loosened, err);
    if (status == PARE_OK && loosened->won_100ug > 0)
        status = loosen(bench, craft, ask, best, 1, &by_one, err);
    if (by_one.won_100ug > 0)
        *loosened = by_one;
    return status;
}
