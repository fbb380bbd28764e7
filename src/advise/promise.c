/* promise.c: what a scale will show (see promise.h).
 *
 * A sum of masses is normal enough; what nobody lists on a craft is not, it is never less than nothing.
 * So the allowance is log-normal, 5 to 15 g in nine of ten craft, and the whole is a mixture of normals
 * over its quantiles: exact in the mean of each slice, no root finding but one for each end. */
#include "advise/promise.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

#include "advise/closure_inside.h"

enum { SLICES = 64 };
#define ALLOWANCE_LOW_KG  5e-3 /* solder, heat-shrink, forgotten wire; common practice, no source */
#define ALLOWANCE_HIGH_KG 15e-3

static double allowance_kg(int slice)
{
    const double z = -gsl_cdf_ugaussian_Qinv((slice + 0.5) / SLICES);
    const double mean = (log(ALLOWANCE_LOW_KG) + log(ALLOWANCE_HIGH_KG)) / 2;
    const double spread = (log(ALLOWANCE_HIGH_KG) - log(ALLOWANCE_LOW_KG)) / 2 /
                          gsl_cdf_ugaussian_Qinv((1 - PARE_PROMISE_SHARE) / 2);
    return exp(mean + spread * z);
}

static double normal_below(double kg, double mean_kg, double u_kg)
{
    if (!(u_kg > 0))
        return kg >= mean_kg ? 1 : 0;
    return 0.5 * erfc((mean_kg - kg) / u_kg / sqrt(2));
}

double pare_promise_chance(const pare_promise *promise, double limit_kg)
{
    if (!promise->allowed)
        return normal_below(limit_kg, promise->kg, promise->u_kg);
    double sum = 0;
    for (int i = 0; i < SLICES; i++)
        sum += normal_below(limit_kg, promise->kg + allowance_kg(i), promise->u_kg);
    return sum / SLICES;
}

double pare_promise_allowance_kg2(const pare_promise *promise)
{
    double sum = 0, squares = 0;
    for (int i = 0; promise->allowed && i < SLICES; i++) {
        sum += allowance_kg(i) / SLICES;
        squares += allowance_kg(i) * allowance_kg(i) / SLICES;
    }
    return squares - sum * sum;
}

/* What the readings will say of the mass is as uncertain as they make it sure. */
static double right_about(pare_promise then, double spread_kg, double limit_kg)
{
    const double kg = then.kg;
    double sum = 0;
    for (int i = 0; i < SLICES; i++) {
        then.kg = kg - spread_kg * gsl_cdf_ugaussian_Qinv((i + 0.5) / SLICES);
        const double chance = pare_promise_chance(&then, limit_kg);
        sum += fmax(chance, 1 - chance);
    }
    return sum / SLICES;
}

double pare_promise_right(const pare_promise *promise, double limit_kg, double left_kg, bool whole)
{
    pare_promise then = *promise;
    const double spread_kg = sqrt(fmax(promise->u_kg * promise->u_kg - left_kg * left_kg, 0));
    then.u_kg = left_kg;
    if (!promise->allowed || !whole)
        return right_about(then, spread_kg, limit_kg);
    double sum = 0;
    then.allowed = false;
    for (int i = 0; i < SLICES; i++) {
        then.kg = promise->kg + allowance_kg(i);
        sum += right_about(then, spread_kg, limit_kg);
    }
    return sum / SLICES;
}

static double end_of(const pare_promise *promise, double share)
{
    double low = promise->kg - 10 * promise->u_kg - 1e-6;
    double high = promise->kg + 10 * promise->u_kg + (promise->allowed ? 0.1 : 1e-6);
    for (int i = 0; i < 60; i++) {
        const double middle = (low + high) / 2;
        if (pare_promise_chance(promise, middle) < share)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

pare_promise pare_promise_of(const pare_closure *closure, const pare_pile *pile,
                             const pare_scale *scale)
{
    pare_promise promise = {0};
    pare_closure_mass(closure, pile, &promise.kg, &promise.u_kg);
    if (scale && pile->terms < PARE_PILE) {
        pare_pile read = *pile;
        read.term[read.terms++] =
            (pare_term){pare_closure_scale_unknown(closure, scale->id), promise.kg};
        pare_closure_mass(closure, &read, &promise.kg, &promise.u_kg);
        promise.u_kg = hypot(promise.u_kg, pare_scale_reading_u_kg(scale));
    }
    bool weighed = false;
    for (size_t i = 0; i < pile->terms; i++)
        weighed = weighed || closure->unknown[pile->term[i].unknown].of == PARE_UNKNOWN_FORGOTTEN;
    promise.allowed = pile->whole && !pile->solder && !weighed;
    return pare_promise_wider(promise, 0);
}

pare_promise pare_promise_wider(pare_promise promise, double u_kg)
{
    promise.u_kg = hypot(promise.u_kg, u_kg);
    promise.low_kg = end_of(&promise, (1 - PARE_PROMISE_SHARE) / 2);
    promise.high_kg = end_of(&promise, (1 + PARE_PROMISE_SHARE) / 2);
    return promise;
}

void pare_promise_score(const pare_weighings *weighings, size_t *made, size_t *held)
{
    *made = *held = 0;
    for (size_t i = 0; i < weighings->count; i++) {
        const pare_weigh_in *w = &weighings->weigh_in[i];
        *made += w->promised;
        *held += w->promised && w->reads_kg >= w->low_kg && w->reads_kg <= w->high_kg;
    }
}
