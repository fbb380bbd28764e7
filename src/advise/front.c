/* front.c: what nothing beats in several wishes, and where it bends (see front.h).
 *
 * The sieve is the one of the choice engine: points in order, each held against those before it. Knees
 * are looked for in doubles, since nothing follows from them but a mark. */
#include "advise/front.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advise/pick_inside.h"

static const char *const wish_names[PARE_FRONT_WISHES] = {
    [PARE_FRONT_GRAMS] = "grams", [PARE_FRONT_MONEY] = "money", [PARE_FRONT_MINUTES] = "minutes"};

const char *pare_front_wish_name(pare_front_wish wish)
{
    return wish_names[wish];
}

/* The wish of a name of this length, or PARE_FRONT_WISHES. */
static int wish_named(const char *name, size_t length)
{
    int wish = 0;
    while (wish < PARE_FRONT_WISHES &&
           (strlen(wish_names[wish]) != length || memcmp(wish_names[wish], name, length) != 0))
        wish++;
    return wish;
}

pare_status pare_front_pair(const char *name, pare_front_wish pair[2], pare_error *err)
{
    const char *dash = strchr(name, '-');
    const int first = dash ? wish_named(name, (size_t)(dash - name)) : PARE_FRONT_WISHES;
    const int second = dash ? wish_named(dash + 1, strlen(dash + 1)) : PARE_FRONT_WISHES;
    if (first == PARE_FRONT_WISHES || second == PARE_FRONT_WISHES || first == second)
        return pare_fail(err, PARE_UNKNOWN,
                         "no front '%.40s'; right would be two of grams, money and minutes, like "
                         "grams-money",
                         name);
    pair[0] = (pare_front_wish)first;
    pair[1] = (pare_front_wish)second;
    return PARE_OK;
}

int64_t pare_front_cost(const pare_front_point *point, pare_front_wish wish)
{
    return wish == PARE_FRONT_GRAMS   ? point->mass_100ug
           : wish == PARE_FRONT_MONEY ? point->money_cents
                                      : -point->flown_ms;
}

/* A point as the sieve takes it. */
typedef struct row {
    int64_t cost[PARE_FRONT_WISHES];
    pare_front_point point;
} row;

static int in_order(const void *left, const void *right)
{
    const row *a = left, *b = right;
    for (int i = 0; i < PARE_FRONT_WISHES; i++)
        if (a->cost[i] != b->cost[i])
            return a->cost[i] < b->cost[i] ? -1 : 1;
    return (a->point.set > b->point.set) - (a->point.set < b->point.set);
}

pare_status pare_front_keep(size_t wishes, const pare_front_wish wish[], pare_front_point point[],
                            size_t *count, pare_error *err)
{
    pare_pick_sieve sieve = {0};
    row *rows = calloc(*count + 1, sizeof *rows);
    pare_status status = rows ? pare_pick_sieve_open(&sieve, wishes, err) : pare_no_memory(err);
    if (status == PARE_OK) {
        for (size_t i = 0; i < *count; i++) {
            rows[i].point = point[i];
            for (size_t w = 0; w < wishes; w++)
                rows[i].cost[w] = pare_front_cost(&point[i], wish[w]);
        }
        qsort(rows, *count, sizeof *rows, in_order);
        size_t kept = 0;
        for (size_t i = 0; status == PARE_OK && i < *count; i++) {
            if (pare_pick_sieve_beaten(&sieve, rows[i].cost))
                continue;
            status = pare_pick_sieve_keep(&sieve, rows[i].cost, err);
            point[kept++] = rows[i].point;
        }
        *count = kept;
    }
    pare_pick_sieve_close(&sieve);
    free(rows);
    return status;
}

/* ---- knees ---- */

/* A stretch of a front between two of its points, and its point farthest from the line between them. */
typedef struct piece {
    size_t from, to, knee;
    double bulge; /* both spans of the whole front being 1 */
} piece;

typedef struct whole {
    const pare_front_wish *pair;
    const pare_front_point *point;
    double span[2]; /* of both wishes, over the whole front */
} whole;

static double ahead(const whole *w, size_t of, size_t from, int i)
{
    return (double)(pare_front_cost(&w->point[of], w->pair[i]) -
                    pare_front_cost(&w->point[from], w->pair[i])) /
           w->span[i];
}

static piece look(const whole *w, size_t from, size_t to)
{
    piece p = {.from = from, .to = to};
    const double dx = ahead(w, to, from, 1), dy = ahead(w, to, from, 0);
    for (size_t i = from + 1; i < to; i++) {
        /* Along a front the first cost rises and the second falls; what is better than the line between
         * the ends has costs below it. */
        const double x = ahead(w, i, from, 1), y = ahead(w, i, from, 0);
        const double bulge = (dx * y - dy * x) / sqrt(dx * dx + dy * dy);
        if (bulge > p.bulge) {
            p.bulge = bulge;
            p.knee = i;
        }
    }
    return p;
}

void pare_front_knees(const pare_front_wish pair[2], pare_front_point point[], size_t count,
                      size_t most)
{
    enum { PIECES = 16 };
    piece left[PIECES];
    size_t pieces = 0;
    for (size_t i = 0; i < count; i++)
        point[i].knee = false;
    if (count < 3)
        return;
    whole w = {.pair = pair, .point = point, .span = {1, 1}};
    for (int i = 0; i < 2; i++) {
        const int64_t span =
            pare_front_cost(&point[count - 1], pair[i]) - pare_front_cost(&point[0], pair[i]);
        w.span[i] = (double)(span < 0 ? -span : span);
    }
    left[pieces++] = look(&w, 0, count - 1);
    for (size_t knees = 0; knees < most && pieces + 1 < PIECES; knees++) {
        size_t best = 0;
        for (size_t i = 1; i < pieces; i++)
            if (left[i].bulge > left[best].bulge)
                best = i;
        const piece p = left[best];
        if (!(p.bulge > (knees ? PARE_FRONT_BULGE : 0)))
            return;
        point[p.knee].knee = true;
        left[best] = look(&w, p.from, p.knee);
        left[pieces++] = look(&w, p.knee, p.to);
    }
}

/* ---- point after point ---- */

pare_status pare_front_walk(const pare_front_wish pair[2], pare_front_solve *solve, void *context,
                            int64_t grain, size_t most, pare_arena *arena, pare_front_point **point,
                            size_t *count, bool *is_whole, pare_error *err)
{
    *count = 0;
    *is_whole = false;
    *point = NULL;
    pare_front_point *found_points = NULL;
    size_t found_count = 0, size = 0;
    int64_t limit = INT64_MAX;
    pare_status status = PARE_OK;
    while (status == PARE_OK && found_count < most) {
        if (found_count == size) {
            size = size ? 2 * size : 16;
            pare_front_point *more = realloc(found_points, size * sizeof *more);
            if (!more) {
                status = pare_no_memory(err);
                break;
            }
            found_points = more;
        }
        bool found = false;
        status = solve(context, limit, &found_points[found_count], &found, err);
        *is_whole = status == PARE_OK && !found;
        if (status != PARE_OK || !found)
            break;
        const int64_t cost = pare_front_cost(&found_points[found_count++], pair[1]);
        if (cost < INT64_MIN + grain) {
            *is_whole = true;
            break;
        }
        limit = cost - grain;
    }
    if (status == PARE_OK && found_count)
        status = pare_front_keep(2, pair, found_points, &found_count, err);
    if (status == PARE_OK) {
        *point = pare_arena_array(arena, found_count, sizeof **point);
        if (!*point)
            status = pare_no_memory(err);
        else if (found_count)
            memcpy(*point, found_points, found_count * sizeof **point);
        *count = status == PARE_OK ? found_count : 0;
    }
    free(found_points);
    return status;
}
