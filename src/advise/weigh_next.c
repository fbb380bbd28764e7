/* weigh_next.c: which reading would tell most (see weigh_next.h).
 *
 * A reading of a thing takes (covariance with the sum)^2 / (variance of the thing + of the reading) off
 * the sum's variance, whatever it turns out to say. So the order of a list by that is exact for the next
 * reading, and after it the covariances are what they will be, before anybody has read anything. Ranked
 * by doubt alone, three motors of one maker would be weighed one after another though the first tells
 * most of the others.
 *
 * The chance to judge a limit rightly rises with all that a reading takes off the variance of all-up mass, so
 * one ranking does for both; but the sum is another (with what is not written down, which no reading of a
 * part tells) and so are the readings (the whole craft is the one that tells it). */
#include "advise/weigh_next.h"

#include <math.h>
#include <string.h>

#include "advise/closure_inside.h"

#define WORTH      0.01 /* of the doubt: what takes less off is not worth a walk to the scale */
#define USUAL_U_KG 1e-4 /* a reading of the scale that small parts are weighed on */
#define OPEN       0.01 /* chances beyond, or below 1 less this, are no question any more */

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
    size_t whole; /* its place; PARE_LINES: it is none of them */
    pare_weigh_choice choice[PARE_LINES + 1];
    pare_pile pile[PARE_LINES + 1];
} choices;

/* What they are ranked by. */
typedef struct ranking {
    pare_weigh_for by;
    double limit_kg;
    pare_promise mass; /* all-up, not a reading of it */
    double unlisted_kg2;
} ranking;

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

/* Whether its limit is an open question, and all that is on it. */
static void put_aim(const pare_closure *closure, const pare_craft *craft, const pare_pile *pile,
                    ranking *aim)
{
    const pare_limit *limit = pare_brief_limit(&craft->brief, "all_up");
    aim->mass = pare_promise_of(closure, pile, NULL);
    aim->unlisted_kg2 = 0;
    aim->by = pare_closure_forgotten(closure, craft->name) >= 0 ? PARE_WEIGH_FOR_CLOSURE
                                                                : PARE_WEIGH_FOR_ALL_UP;
    aim->limit_kg = limit && !limit->at_least ? limit->value : (double)NAN;
    const double chance = pare_promise_chance(&aim->mass, aim->limit_kg);
    if (chance > OPEN && chance < 1 - OPEN) {
        aim->by = PARE_WEIGH_FOR_CHANCE;
        aim->unlisted_kg2 = pare_promise_allowance_kg2(&aim->mass);
    }
}

/* What is written down, with what is forgotten where that counts, and the whole as one more reading. */
static pare_status put_whole(pare_closure *closure, const char *name, int loadout,
                             const pare_scale *scale, ranking *aim, choices *all, double sum[],
                             pare_error *err)
{
    const pare_craft *craft;
    const pare_assembly *assembly;
    pare_pile *pile = &all->pile[all->count];
    pare_status status = pare_closure_now(closure, name, loadout, pile, err);
    if (status == PARE_OK)
        status = pare_closure_look(closure, name, loadout, &craft, &assembly, err);
    if (status != PARE_OK)
        return status;
    const int forgotten = pare_closure_forgotten(closure, name);
    put_aim(closure, craft, pile, aim);
    along(pile, sum);
    all->whole = PARE_LINES;
    if (aim->by != PARE_WEIGH_FOR_CHANCE) {
        if (forgotten >= 0)
            sum[forgotten] = 0;
        return PARE_OK;
    }
    all->whole = all->count;
    all->choice[all->count++] = (pare_weigh_choice){
        .name = "whole", .count = 1, .promise = pare_promise_of(closure, pile, scale)};
    return PARE_OK;
}

/* @param room  [3 + count] x unknowns, then (count + 2) x count */
static void rank(const pare_closure *closure, const choices *all, const pare_scale *scale,
                 const ranking *aim, const double sum[], double room[], size_t picks, size_t pick[],
                 double left[], double *var)
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
    if (all->whole < k) { /* what nobody lists is in the sum and in the whole alone */
        *var += aim->unlisted_kg2;
        with[all->whole] += aim->unlisted_kg2;
        cover[all->whole * k + all->whole] += aim->unlisted_kg2;
    }
    pare_weigh_greedy(k, cover, noise, with, *var, picks, pick, left);
}

static void put_list(const choices *all, const ranking *aim, size_t picks, const size_t pick[],
                     const double left[], double var, pare_weigh_choice choice[],
                     pare_weigh_list *list)
{
    const bool by_chance = aim->by == PARE_WEIGH_FOR_CHANCE;
    bool whole = false;
    *list = (pare_weigh_list){.by = aim->by,
                              .now_kg = sqrt(fmax(var, 0)),
                              .limit_kg = aim->limit_kg,
                              .now_right = by_chance ? pare_promise_right(&aim->mass, aim->limit_kg,
                                                                          aim->mass.u_kg, false)
                                                     : (double)NAN,
                              .choice = choice};
    for (size_t i = 0; i < picks; i++) {
        const double before = i ? left[i - 1] : var;
        if (!(before - left[i] > WORTH * var))
            break;
        pare_weigh_choice *one = &choice[list->count++];
        *one = all->choice[pick[i]];
        one->left_kg = sqrt(fmax(left[i], 0));
        whole = whole || pick[i] == all->whole;
        /* Of what is written down: what nobody lists stays as doubtful until the whole is read. */
        const double written_kg2 = left[i] - (whole ? 0 : aim->unlisted_kg2);
        one->right = by_chance ? pare_promise_right(&aim->mass, aim->limit_kg,
                                                    sqrt(fmax(written_kg2, 0)), whole)
                               : (double)NAN;
    }
}

pare_status pare_weigh_next(pare_closure *closure, const char *craft, int loadout,
                            const pare_scale *scale, size_t most, pare_weigh_list *list,
                            pare_error *err)
{
    const size_t n = closure->unknowns;
    ranking aim;
    choices *all = pare_arena_zeros(closure->arena, sizeof *all);
    double *sum = pare_arena_array(closure->arena, n + 1, sizeof *sum);
    *list = (pare_weigh_list){0};
    if (!all || !sum)
        return pare_no_memory(err);
    pare_status status = gather(closure, craft, loadout, scale, all, err);
    if (status == PARE_OK)
        status = put_whole(closure, craft, loadout, scale, &aim, all, sum, err);
    if (status != PARE_OK)
        return status;
    const size_t k = all->count, picks = most < k ? most : k;
    double *room = pare_arena_array(closure->arena, (2 + k) * n + (k + 2) * k + 1, sizeof *room);
    double *left = pare_arena_array(closure->arena, picks + 1, sizeof *left), var = 0;
    size_t *pick = pare_arena_array(closure->arena, picks + 1, sizeof *pick);
    pare_weigh_choice *choice = pare_arena_array(closure->arena, picks + 1, sizeof *choice);
    if (!room || !left || !pick || !choice)
        return pare_no_memory(err);
    rank(closure, all, scale, &aim, sum, room, picks, pick, left, &var);
    put_list(all, &aim, picks, pick, left, var, choice, list);
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
