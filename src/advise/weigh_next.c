/* weigh_next.c: which reading would tell most (see weigh_next.h).
 *
 * A reading of a thing takes (covariance with the sum)^2 / (variance of the thing + of the reading) off
 * the sum's variance, whatever it turns out to say. So the order of a list by that is exact for the next
 * reading, and after it the covariances are what they will be, before anybody has read anything. Ranked
 * by doubt alone, three motors of one maker would be weighed one after another though the first tells
 * most of the others.
 *
 * The chance to stay under a limit gets surer with the same sum, so it needs no list of its own. */
#include "advise/weigh_next.h"

#include <math.h>
#include <string.h>

#include "advise/closure_inside.h"

#define WORTH      0.01 /* of the doubt: what takes less off is not worth a walk to the scale */
#define USUAL_U_KG 1e-4 /* a reading of the scale that small parts are weighed on */

void pare_weigh_greedy(size_t count, double cover[], const double noise[], double with[],
                       double var, size_t picks, size_t pick[], double left[])
{
    for (size_t n = 0; n < picks; n++) {
        size_t best = 0;
        double gain = -1;
        for (size_t i = 0; i < count; i++) {
            const double tells = with[i] * with[i] / (cover[i * count + i] + noise[i]);
            if (tells > gain) {
                gain = tells;
                best = i;
            }
        }
        pick[n] = best;
        left[n] = var -= gain;
        const double seen = cover[best * count + best] + noise[best], with_best = with[best];
        for (size_t i = 0; i < count; i++) {
            const double share = cover[i * count + best] / seen;
            with[i] -= share * with_best;
            for (size_t j = 0; j < count && i != best; j++)
                cover[i * count + j] -= share * cover[best * count + j];
        }
        /* Its own row last, which the others were worked out with. */
        const double share = cover[best * count + best] / seen;
        for (size_t j = 0; j < count; j++)
            cover[best * count + j] *= 1 - share;
    }
}

/* ---- of a craft ---- */

typedef struct choices {
    size_t count;
    pare_weigh_choice choice[PARE_LINES];
    pare_pile pile[PARE_LINES];
} choices;

/* Whether a line can lie on a scale by itself: what it is included in has its mass otherwise, and nobody
 * takes solder off to weigh it. */
static bool can_lie(const pare_craft *craft, const pare_line *line)
{
    if (line->of == PARE_LINE_UNLISTED)
        return false;
    if (line->of == PARE_LINE_ITEM)
        return !craft->item[line->index].included_in &&
               !pare_item_is_solder(&craft->item[line->index]);
    return line->of == PARE_LINE_JOINT ? !craft->joint[line->index].included_in
                                       : !craft->run[line->index].included_in;
}

static pare_status gather(pare_closure *closure, const char *name, int loadout,
                          const pare_scale *scale, choices *all, pare_error *err)
{
    const pare_craft *craft;
    const pare_assembly *assembly;
    pare_status status = pare_closure_look(closure, name, loadout, &craft, &assembly, err);
    for (size_t i = 0; status == PARE_OK && i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        const char *prefix = line->of == PARE_LINE_ITEM    ? ""
                             : line->of == PARE_LINE_JOINT ? "joint."
                                                           : "run.";
        const char *typed = pare_arena_printf(closure->arena, "%s%s", prefix, line->name);
        if (!typed)
            return pare_no_memory(err);
        if (!can_lie(craft, line) || line->count < 1)
            continue;
        const pare_weighed_thing thing = {typed, line->count};
        const pare_weigh_in what = {.craft = name,
                                    .loadout = loadout >= 0 ? craft->loadout[loadout].name : NULL,
                                    .things = 1,
                                    .thing = &thing};
        status = pare_closure_pile(closure, &what, &all->pile[all->count], err);
        if (status != PARE_OK || all->pile[all->count].terms == 0)
            continue;
        pare_weigh_choice *choice = &all->choice[all->count];
        *choice = (pare_weigh_choice){.name = typed, .count = line->count};
        choice->promise = pare_promise_of(closure, &all->pile[all->count++], scale);
    }
    return status;
}

static void along(const pare_pile *pile, double vector[])
{
    for (size_t i = 0; i < pile->terms; i++)
        vector[pile->term[i].unknown] += pile->term[i].factor;
}

static double dot(size_t n, const double a[], const double b[])
{
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        sum += a[i] * b[i];
    return sum;
}

/* What is written down, without what is forgotten. */
static pare_status sum_of(pare_closure *closure, const char *craft, int loadout, double sum[],
                          pare_error *err)
{
    pare_pile pile;
    const pare_status status = pare_closure_now(closure, craft, loadout, &pile, err);
    const int forgotten = pare_closure_forgotten(closure, craft);
    if (status == PARE_OK)
        along(&pile, sum);
    if (forgotten >= 0)
        sum[forgotten] = 0;
    return status;
}

/* @param room  [3 + count] x unknowns, then (count + 2) x count */
static void rank(const pare_closure *closure, const choices *all, const pare_scale *scale,
                 const double sum[], double room[], size_t picks, size_t pick[], double left[],
                 double *var)
{
    const size_t n = closure->unknowns, k = all->count;
    double *sum_times = room, *times = room + n, *vector = room + 2 * n;
    double *cover = vector + k * n, *noise = cover + k * k, *with = noise + k;
    memcpy(sum_times, sum, n * sizeof *sum);
    pare_adjusted_times(&closure->adjusted, sum_times);
    *var = dot(n, sum, sum_times);
    const size_t common = pare_closure_scale_unknown(closure, scale->id);
    const double u_kg = pare_scale_reading_u_kg(scale);
    for (size_t i = 0; i < k; i++) {
        along(&all->pile[i], vector + i * n);
        vector[i * n + common] += all->choice[i].promise.kg;
        noise[i] = u_kg * u_kg + 1e-18;
        with[i] = dot(n, vector + i * n, sum_times);
    }
    for (size_t i = 0; i < k; i++) {
        memcpy(times, vector + i * n, n * sizeof *times);
        pare_adjusted_times(&closure->adjusted, times);
        for (size_t j = 0; j < k; j++)
            cover[i * k + j] = dot(n, vector + j * n, times);
    }
    pare_weigh_greedy(k, cover, noise, with, *var, picks, pick, left);
}

pare_status pare_weigh_next(pare_closure *closure, const char *craft, int loadout,
                            const pare_scale *scale, size_t most, pare_weigh_list *list,
                            pare_error *err)
{
    const size_t n = closure->unknowns;
    choices *all = pare_arena_zeros(closure->arena, sizeof *all);
    double *sum = pare_arena_array(closure->arena, n + 1, sizeof *sum);
    *list = (pare_weigh_list){0};
    if (!all || !sum)
        return pare_no_memory(err);
    pare_status status = sum_of(closure, craft, loadout, sum, err);
    if (status == PARE_OK)
        status = gather(closure, craft, loadout, scale, all, err);
    if (status != PARE_OK)
        return status;
    const size_t k = all->count, picks = most < k ? most : k;
    double *room = pare_arena_array(closure->arena, (2 + k) * n + (k + 2) * k + 1, sizeof *room);
    double *left = pare_arena_array(closure->arena, picks + 1, sizeof *left), var = 0;
    size_t *pick = pare_arena_array(closure->arena, picks + 1, sizeof *pick);
    pare_weigh_choice *choice = pare_arena_array(closure->arena, picks + 1, sizeof *choice);
    if (!room || !left || !pick || !choice)
        return pare_no_memory(err);
    rank(closure, all, scale, sum, room, picks, pick, left, &var);
    *list = (pare_weigh_list){.now_kg = sqrt(fmax(var, 0)), .choice = choice};
    for (size_t i = 0; i < picks; i++) {
        const double before = i ? left[i - 1] : var;
        if (!(before - left[i] > WORTH * var))
            break;
        choice[list->count] = all->choice[pick[i]];
        choice[list->count++].left_kg = sqrt(fmax(left[i], 0));
    }
    return PARE_OK;
}

/* ---- of a sheet ---- */

static const pare_part *part_of(const pare_craft *craft, const pare_line *line)
{
    return line->of == PARE_LINE_ITEM ? craft->item[line->index].part : NULL;
}

static bool same_maker(const pare_part *a, const pare_part *b)
{
    return a && b && a->maker && b->maker && strcmp(a->maker, b->maker) == 0 &&
           a->mass_kg.known == PARE_STATED && b->mass_kg.known == PARE_STATED;
}

/* Covariance of two lines: by the scale where it knows both, else what copies and makers share. */
static double cover_of(const pare_craft *craft, const pare_line *a, const pare_line *b)
{
    const pare_weighed *weighed = craft->weighed;
    const size_t none = weighed ? weighed->masses : 0;
    const size_t at = weighed ? pare_line_weighed(craft, a) : 0;
    const size_t bt = weighed ? pare_line_weighed(craft, b) : 0;
    double sum = 0;
    if (weighed && at < none && bt < none) {
        for (size_t s = 0; s < none; s++)
            sum += weighed->root_kg[s * none + at] * weighed->root_kg[s * none + bt];
        return a->count * b->count * sum;
    }
    const pare_part *one = part_of(craft, a), *other = part_of(craft, b);
    if (a == b || (one && one == other))
        sum = a->mass_kg.u * b->mass_kg.u;
    if (same_maker(one, other))
        sum += PARE_MAKER_BIAS_U * a->mass_kg.value * PARE_MAKER_BIAS_U * b->mass_kg.value;
    return sum;
}

size_t pare_weigh_lines(const pare_craft *craft, const pare_sheet *sheet, size_t most,
                        size_t order[], double share[])
{
    const pare_assembly *assembly = &sheet->assembly;
    const size_t n = assembly->lines;
    double cover[PARE_LINES * PARE_LINES], noise[PARE_LINES] = {0}, with[PARE_LINES] = {0};
    double left[PARE_LINES], var = 0;
    size_t line[PARE_LINES], pick[PARE_LINES], count = 0, picked = 0;
    for (size_t i = 0; i < n; i++)
        if (assembly->line[i].mass_kg.value != 0 && can_lie(craft, &assembly->line[i]))
            line[count++] = i;
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < n && assembly->line[i].of != PARE_LINE_UNLISTED; j++)
            if (assembly->line[j].of != PARE_LINE_UNLISTED)
                var += cover_of(craft, &assembly->line[i], &assembly->line[j]);
    for (size_t i = 0; i < count; i++) {
        noise[i] = USUAL_U_KG * USUAL_U_KG;
        for (size_t j = 0; j < n; j++)
            if (assembly->line[j].of != PARE_LINE_UNLISTED)
                with[i] += cover_of(craft, &assembly->line[line[i]], &assembly->line[j]);
        for (size_t j = 0; j < count; j++)
            cover[i * count + j] =
                cover_of(craft, &assembly->line[line[i]], &assembly->line[line[j]]);
    }
    const size_t picks = most < count ? most : count;
    pare_weigh_greedy(count, cover, noise, with, var, picks, pick, left);
    for (; picked < picks && var > 0; picked++) {
        share[picked] = ((picked ? left[picked - 1] : var) - left[picked]) / var;
        order[picked] = line[pick[picked]];
        if (share[picked] < WORTH)
            break;
    }
    return picked;
}
