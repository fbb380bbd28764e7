/* answered.c: promises held against what was measured (see answered.h).
 *
 * A scale's own error is in both readings alike, so that of one scale only its share of the difference
 * counts; of two scales, both in full. Flights differ by how they were flown, one from the other, whatever
 * the pilot's manner is: the mean of so many is known by one's scatter over the root of their number. */
#include "advise/answered.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/closure.h"
#include "advise/hover.h"
#include "advise/learn.h"

#define ANY_STEP_KG 1e-4

static const char *fitted(const pare_craft *craft, size_t taken)
{
    return pare_taken_is_on(&craft->taken[taken]) ? craft->taken[taken].date[PARE_STAGE_FITTED]
                                                  : NULL;
}

static bool is_earlier(const char *day, const char *other)
{
    return strcmp(day, other) < 0;
}

/* What all swaps that were fitted in a while promised together: after one day, up to another. */
static size_t promised(const pare_craft *craft, const char *after, const char *until,
                       const char *key, double scale, pare_answer *answer)
{
    char key_u[48];
    size_t swaps = 0;
    double squares = 0;
    bool all = true;
    snprintf(key_u, sizeof key_u, "%s_u", key);
    answer->promised = 0;
    for (size_t t = 0; t < craft->takens; t++) {
        const char *day = fitted(craft, t);
        if (!day || !is_earlier(after, day) || is_earlier(until, day))
            continue;
        const double change = scale * pare_taken_promised(&craft->taken[t], key);
        const double u = scale * pare_taken_promised(&craft->taken[t], key_u);
        all = all && isfinite(change);
        answer->promised += change;
        squares += isfinite(u) ? u * u : 0;
        swaps++;
    }
    answer->promised_u = sqrt(squares);
    return all ? swaps : 0;
}

static void judge(pare_answer *answer)
{
    answer->there = answer->swaps > 0;
    if (!answer->there) {
        *answer = (pare_answer){0};
        return;
    }
    const double way = answer->promised < 0 ? -1 : 1;
    answer->real = gsl_cdf_ugaussian_P(way * answer->measured / answer->measured_u);
}

/* ---- the scale ---- */

static pare_scale scale_of(const pare_weighings *all, const pare_weigh_in *reading)
{
    return pare_scale_named(all, reading->scale,
                            reading->step_kg > 0 ? reading->step_kg : ANY_STEP_KG);
}

static double difference_u_kg(const pare_weighings *all, const pare_weigh_in *before,
                              const pare_weigh_in *since)
{
    const pare_scale one = scale_of(all, before), other = scale_of(all, since);
    const bool same = strcmp(one.id, other.id) == 0;
    const double common =
        same ? one.common * fabs(since->reads_kg - before->reads_kg)
             : hypot(one.common * before->reads_kg, other.common * since->reads_kg);
    return hypot(hypot(pare_scale_reading_u_kg(&one), pare_scale_reading_u_kg(&other)), common);
}

static bool same_loadout(const char *one, const char *other)
{
    return one == other || (one && other && strcmp(one, other) == 0);
}

/* The last before a day in a loadout, or the first on it or since; NULL. */
static const pare_weigh_in *whole_near(const pare_weighings *all, const char *craft,
                                       const char *loadout, const char *day, bool before)
{
    const pare_weigh_in *found = NULL;
    for (size_t i = 0; i < all->count; i++) {
        const pare_weigh_in *w = &all->weigh_in[i];
        if (!w->all || strcmp(w->craft, craft) != 0 || !same_loadout(w->loadout, loadout) ||
            is_earlier(w->date, day) != before)
            continue;
        if (!found ||
            (before ? !is_earlier(w->date, found->date) : is_earlier(w->date, found->date)))
            found = w;
    }
    return found;
}

static void answer_mass(const pare_craft *craft, const char *day, const pare_weighings *all,
                        pare_answer *best)
{
    for (size_t i = 0; i < all->count; i++) {
        const pare_weigh_in *since = &all->weigh_in[i];
        if (!since->all || strcmp(since->craft, craft->name) != 0 ||
            whole_near(all, craft->name, since->loadout, day, false) != since)
            continue;
        const pare_weigh_in *before = whole_near(all, craft->name, since->loadout, day, true);
        if (!before)
            continue;
        pare_answer answer = {.before = 1, .since = 1};
        answer.swaps = promised(craft, before->date, since->date, "all_up_g", 1e-3, &answer);
        answer.measured = since->reads_kg - before->reads_kg;
        answer.measured_u = difference_u_kg(all, before, since);
        judge(&answer);
        if (answer.there && (!best->there || answer.swaps < best->swaps))
            *best = answer;
    }
}

/* ---- flights ---- */

/* What flights are asked about. */
typedef enum asked { ABOUT_MINUTES, ABOUT_HOVER, ABOUT_OUTPUT } asked;

static const struct {
    const char *key;
    double scale;   /* from the key's unit */
    double style_u; /* of the logarithm of one flight's reading */
} ABOUT[] = {[ABOUT_MINUTES] = {"flown_min", 60, PARE_PROFILE_STYLE_U},
             [ABOUT_HOVER] = {"hover_a", 1, PARE_HOVER_STYLE_U},
             [ABOUT_OUTPUT] = {"hover_output", 1, PARE_HOVER_OUTPUT_U}};

/* Flights of one manner with one loadout and pack. */
typedef struct manner {
    asked about;
    int loadout;
    const pare_part *pack;
} manner;

/* What a flight says of it, a mean current or output; NAN: nothing, or it is of another manner. */
static double said_by(const pare_flight_record *flight, const manner *so)
{
    if (flight->gone || flight->loadout != so->loadout || flight->pack != so->pack)
        return NAN;
    if (so->about == ABOUT_OUTPUT)
        return pare_hover_output(flight);
    const bool is_so = so->about == ABOUT_HOVER ? pare_flown_hovers(flight->entries, flight->flown)
                                                : flight->entries == 0;
    return is_so && flight->put_back_c > 0 && flight->lasted_s > 0
               ? flight->put_back_c / flight->lasted_s
               : (double)NAN;
}

/* From the swap fitted before to the one after. */
typedef struct span {
    const char *from, *day, *until; /* NULL: open */
} span;

static span span_of(const pare_craft *craft, const char *day)
{
    span s = {NULL, day, NULL};
    for (size_t t = 0; t < craft->takens; t++) {
        const char *other = fitted(craft, t);
        if (!other)
            continue;
        if (is_earlier(other, day) && (!s.from || is_earlier(s.from, other)))
            s.from = other;
        if (is_earlier(day, other) && (!s.until || is_earlier(other, s.until)))
            s.until = other;
    }
    return s;
}

/* Means of the logarithm of what they say, before and since. */
static void means(const span *s, const manner *so, size_t flights,
                  const pare_flight_record flight[], size_t count[2], double mean[2])
{
    count[0] = count[1] = 0;
    mean[0] = mean[1] = 0;
    for (size_t i = 0; i < flights; i++) {
        const char *date = flight[i].date;
        if ((s->from && is_earlier(date, s->from)) || (s->until && !is_earlier(date, s->until)))
            continue;
        const double said = said_by(&flight[i], so);
        if (!(said > 0))
            continue;
        const int since = !is_earlier(date, s->day);
        mean[since] += log(said);
        count[since]++;
    }
    for (int side = 0; side < 2; side++)
        mean[side] /= count[side] ? (double)count[side] : 1;
}

/* Whether an earlier flight was with the same loadout and pack: its manners are looked at already. */
static bool stands_before(const pare_flight_record flight[], size_t which)
{
    for (size_t i = 0; i < which; i++)
        if (flight[i].loadout == flight[which].loadout && flight[i].pack == flight[which].pack)
            return true;
    return false;
}

static double scatter(const pare_answer *answer, double style_u)
{
    return style_u * sqrt(1 / (double)answer->before + 1 / (double)answer->since);
}

static void answer_flights(const pare_craft *craft, const char *day, size_t flights,
                           const pare_flight_record flight[], double flown_s, asked about,
                           pare_answer *best)
{
    const span s = span_of(craft, day);
    for (size_t i = 0; i < flights; i++) {
        const manner so = {about, flight[i].loadout, flight[i].pack};
        if (stands_before(flight, i))
            continue;
        size_t count[2];
        double mean[2];
        means(&s, &so, flights, flight, count, mean);
        if (count[0] == 0 || count[1] == 0 || (about == ABOUT_MINUTES && !(flown_s > 0)))
            continue;
        /* Of one day: no swap of an earlier one, none of a later one. */
        pare_answer answer = {.before = count[0], .since = count[1]};
        answer.swaps = promised(craft, s.from ? s.from : "", day, ABOUT[about].key,
                                ABOUT[about].scale, &answer);
        const double off = scatter(&answer, ABOUT[about].style_u);
        if (about == ABOUT_MINUTES) {
            answer.measured = flown_s * -expm1(mean[1] - mean[0]);
            answer.measured_u = flown_s * exp(mean[1] - mean[0]) * off;
        } else {
            answer.measured = exp(mean[1]) - exp(mean[0]);
            answer.measured_u = exp(mean[1]) * off;
        }
        judge(&answer);
        if (answer.there && (!best->there || answer.measured_u < best->measured_u))
            *best = answer;
    }
}

void pare_answers_of(const pare_craft *first, size_t taken, const pare_weighings *weighings,
                     size_t flights, const pare_flight_record flight[], double flown_s,
                     pare_answers *answers)
{
    *answers = (pare_answers){0};
    const char *day = fitted(first, taken);
    if (!day)
        return;
    answer_mass(first, day, weighings, &answers->mass);
    answer_flights(first, day, flights, flight, flown_s, ABOUT_MINUTES, &answers->minutes);
    answer_flights(first, day, flights, flight, flown_s, ABOUT_HOVER, &answers->hover);
    answer_flights(first, day, flights, flight, flown_s, ABOUT_OUTPUT, &answers->output);
}
