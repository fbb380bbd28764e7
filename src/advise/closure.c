/* closure.c: masses adjusted to readings (see closure.h).
 *
 * Each reading and each thing written of a part is one equation. A reading of m shows m (1 + g) with the
 * scale's common error g; g is a thousandth, so m in front of it may be the reading itself, and the
 * equations stay linear. What a maker states is off by the maker's bias b, of which 1 % is supposed until
 * parts of that maker were weighed; what somebody wrote down as weighed is off by a scale's error that is
 * nobody's in particular.
 *
 * Of what is forgotten on a craft nothing is supposed: a prior would pull the answer to what is usual,
 * and the interval would no longer hold for a craft that is not. It exists for craft that were weighed
 * whole; what one should expect of others stands in promise.h.
 *
 * Gross errors: each residual is held against its own deviation (Baarda's w-test), with the bound of
 * Bonferroni over all that are tested, for 5 % of false alarms in a clean set. The worst goes out and all
 * is adjusted again, since one bad reading spoils its neighbours' residuals. Where several fit equally
 * badly (a reading of two parts against what is written of them), what somebody stated or a law gave is
 * doubted before what somebody weighed, and of those what is worst known. */
#include "advise/closure_inside.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <string.h>

#include "base/grow.h"
#include "craft/weigh_in.h"

#define LEAST_U_KG    1e-7 /* nothing is known better */
#define FAMILY        0.05 /* false alarms in a clean set */
#define TELLS         1e-3 /* of its uncertainty: a residual that less is left of says nothing */
#define ALIKE         1e-6
#define DOUBTED_SHARE 0.5 /* of a mass that does not fit: as good as not known */

/* ---- unknowns ---- */

static bool same_text(const char *a, const char *b)
{
    return (!a && !b) || (a && b && strcmp(a, b) == 0);
}

static size_t find(const pare_closure *c, pare_unknown_of of, const pare_part *part,
                   const char *craft, const char *name, double prior)
{
    for (size_t i = 0; i < c->unknowns; i++) {
        const pare_unknown *u = &c->unknown[i];
        if (u->of != of || u->part != part)
            continue;
        if (part || (same_text(u->craft, craft) && same_text(u->name, name) &&
                     (of != PARE_UNKNOWN_LINE || fabs(u->prior - prior) <= 1e-9 * fabs(prior))))
            return i;
    }
    return c->unknowns;
}

static size_t put(pare_closure *c, const pare_unknown *unknown)
{
    const size_t there =
        find(c, unknown->of, unknown->part, unknown->craft, unknown->name, unknown->prior);
    if (there < c->unknowns || c->settled)
        return there;
    pare_unknown *list =
        pare_grown(c->arena, c->unknown, c->unknowns, &c->unknown_room, sizeof *list);
    if (!list)
        return c->unknowns;
    c->unknown = list;
    list[c->unknowns] = *unknown;
    return c->unknowns++;
}

size_t pare_closure_part(pare_closure *closure, const pare_part *part)
{
    const pare_value *mass = &part->mass_kg;
    return put(closure, &(pare_unknown){.of = PARE_UNKNOWN_PART,
                                        .part = part,
                                        .name = part->id,
                                        .prior = mass->value,
                                        .prior_u = fmax(mass->u, LEAST_U_KG),
                                        .known = mass->known});
}

size_t pare_closure_line(pare_closure *closure, const char *craft, const char *name, double each_kg,
                         double share_u)
{
    return put(closure, &(pare_unknown){.of = PARE_UNKNOWN_LINE,
                                        .craft = craft,
                                        .name = name,
                                        .prior = each_kg,
                                        .prior_u = fmax(fabs(share_u * each_kg), LEAST_U_KG),
                                        .known = PARE_COMPUTED});
}

int pare_closure_forgotten(const pare_closure *closure, const char *craft)
{
    const size_t at = find(closure, PARE_UNKNOWN_FORGOTTEN, NULL, craft, NULL, 0);
    return at < closure->unknowns ? (int)at : -1;
}

pare_scale pare_scale_named(const pare_weighings *w, const char *name, double step_kg)
{
    for (size_t i = 0; name && i < w->scales; i++)
        if (strcmp(w->scale[i].id, name) == 0)
            return w->scale[i];
    return (pare_scale){.id = "",
                        .resolution_kg = step_kg,
                        .repeatability_kg = step_kg,
                        .common = PARE_SCALE_COMMON_U};
}

size_t pare_closure_scale_unknown(const pare_closure *closure, const char *name)
{
    const pare_scale scale = pare_scale_named(closure->of.weighings, name, 0);
    return find(closure, PARE_UNKNOWN_SCALE, NULL, NULL, scale.id, 0);
}

double pare_scale_reading_u_kg(const pare_scale *scale)
{
    /* Digits can be typed without end; no scale of the trade tells less apart. */
    return fmax(hypot(scale->resolution_kg / sqrt(12), scale->repeatability_kg), LEAST_U_KG);
}

/* ---- equations ---- */

static pare_status add(pare_closure *c, double value, double u, size_t terms,
                       const pare_term term[], pare_error *err)
{
    pare_equation *list =
        pare_grown(c->arena, c->equation, c->equations, &c->equation_room, sizeof *list);
    pare_term *own = pare_arena_array(c->arena, terms, sizeof *own);
    if (!list || !own)
        return pare_no_memory(err);
    memcpy(own, term, terms * sizeof *own);
    c->equation = list;
    list[c->equations++] = (pare_equation){value, fmax(u, 1e-12), terms, own, false};
    return PARE_OK;
}

static pare_status scale_of(pare_closure *c, const pare_scale *scale, pare_error *err)
{
    const size_t at = put(c, &(pare_unknown){.of = PARE_UNKNOWN_SCALE,
                                             .name = scale->id,
                                             .prior_u = fmax(scale->common, 1e-9),
                                             .known = PARE_STATED});
    if (at == c->unknowns)
        return pare_no_memory(err);
    pare_status status = PARE_OK;
    for (size_t i = 0; i < scale->checks && status == PARE_OK; i++) {
        const pare_scale_check *check = &scale->check[i];
        if (check->known_kg > 0)
            status = add(c, check->reads_kg - check->known_kg,
                         hypot(pare_scale_reading_u_kg(scale), check->known_u_kg), 1,
                         (const pare_term[]){{at, check->known_kg}}, err);
    }
    return status;
}

static pare_status scales(pare_closure *c, pare_error *err)
{
    const pare_weighings *w = c->of.weighings;
    const pare_scale unnamed = pare_scale_named(c->of.weighings, NULL, 0);
    pare_status status = scale_of(c, &unnamed, err);
    for (size_t i = 0; i < w->scales && status == PARE_OK; i++)
        status = scale_of(c, &w->scale[i], err);
    return status;
}

static pare_status reading(pare_closure *c, size_t which, pare_error *err)
{
    const pare_weigh_in *w = &c->of.weighings->weigh_in[which];
    const pare_scale scale = pare_scale_named(c->of.weighings, w->scale, w->step_kg);
    pare_pile pile;
    if (w->all && pare_closure_forgotten(c, w->craft) < 0 &&
        put(c, &(pare_unknown){.of = PARE_UNKNOWN_FORGOTTEN, .craft = w->craft}) == c->unknowns)
        return pare_no_memory(err);
    const pare_status status = pare_closure_pile(c, w, &pile, err);
    if (status != PARE_OK)
        return status;
    for (size_t i = 0; i < pile.terms && !w->all; i++)
        c->unknown[pile.term[i].unknown].readings++;
    pile.term[pile.terms++] = (pare_term){pare_closure_scale_unknown(c, w->scale), w->reads_kg};
    c->equation_of[which] = c->equations;
    return add(c, w->reads_kg - pile.fixed_kg, pare_scale_reading_u_kg(&scale), pile.terms,
               pile.term, err);
}

static pare_status readings(pare_closure *c, pare_error *err)
{
    const size_t count = c->of.weighings->count;
    const char **unused = pare_arena_array(c->arena, count + 1, sizeof *unused);
    c->equation_of = pare_arena_array(c->arena, count + 1, sizeof *c->equation_of);
    if (!unused || !c->equation_of)
        return pare_no_memory(err);
    c->unused = unused;
    for (size_t i = 0; i < count; i++) {
        pare_error why = {0};
        const pare_status status = reading(c, i, &why);
        if (status == PARE_OK)
            continue;
        unused[i] = pare_arena_text(c->arena, why.text);
        if (status == PARE_UNAVAILABLE || !unused[i])
            return pare_no_memory(err);
    }
    return PARE_OK;
}

/* A whole reading of a craft that could not be understood leaves its unknown without an equation. */
static pare_status forgotten_without_reading(pare_closure *c, pare_error *err)
{
    for (size_t i = 0; i < c->unknowns; i++) {
        bool read = c->unknown[i].of != PARE_UNKNOWN_FORGOTTEN;
        for (size_t w = 0; w < c->of.weighings->count && !read; w++)
            read = c->of.weighings->weigh_in[w].all && !c->unused[w] &&
                   strcmp(c->of.weighings->weigh_in[w].craft, c->unknown[i].craft) == 0;
        if (!read && add(c, 0, LEAST_U_KG, 1, (const pare_term[]){{i, 1}}, err) != PARE_OK)
            return err->status;
    }
    return PARE_OK;
}

/* What can be asked about afterwards gets its unknowns. */
static pare_status askable(pare_closure *c, pare_error *err)
{
    const pare_closure_of *of = &c->of;
    pare_pile pile;
    pare_error why = {0};
    pare_status status = PARE_OK;
    for (size_t i = 0; i < of->crafts; i++) {
        const pare_craft *craft = of->first[i];
        if (of->craft && strcmp(craft->name, of->craft) != 0)
            continue;
        for (int l = -1; l < (int)craft->loadouts && status != PARE_UNAVAILABLE; l++)
            status = pare_closure_now(c, craft->name, l, &pile, &why);
    }
    for (size_t i = 0; i < of->asks && status != PARE_UNAVAILABLE; i++)
        status = pare_closure_pile(c, &of->ask[i], &pile, &why);
    return status == PARE_UNAVAILABLE ? pare_no_memory(err) : PARE_OK;
}

/* What is written of each unknown, before any scale. */
static pare_status prior(pare_closure *c, size_t at, pare_error *err)
{
    pare_unknown *u = &c->unknown[at];
    pare_term term[2] = {{at, 1}};
    size_t terms = 1, shared = at;
    if (u->of == PARE_UNKNOWN_FORGOTTEN)
        return PARE_OK;
    if (u->of == PARE_UNKNOWN_PART && u->known == PARE_STATED && u->part->maker)
        shared = put(c, &(pare_unknown){.of = PARE_UNKNOWN_MAKER,
                                        .name = u->part->maker,
                                        .prior_u = PARE_MAKER_BIAS_U,
                                        .known = PARE_ESTIMATED});
    else if (u->of == PARE_UNKNOWN_PART && u->known == PARE_WEIGHED)
        shared = pare_closure_scale_unknown(c, NULL);
    if (shared == c->unknowns)
        return pare_no_memory(err);
    u = &c->unknown[at];
    if (shared != at)
        term[terms++] = (pare_term){shared, u->known == PARE_WEIGHED ? u->prior : -u->prior};
    u->to_maker = shared;
    u->prior_at = c->equations;
    return add(c, u->prior, u->prior_u, terms, term, err);
}

static pare_status make_equations(pare_closure *c, pare_error *err)
{
    pare_status status = scales(c, err);
    if (status == PARE_OK)
        status = readings(c, err);
    if (status == PARE_OK)
        status = forgotten_without_reading(c, err);
    if (status == PARE_OK)
        status = askable(c, err);
    for (size_t i = 0; i < c->unknowns && status == PARE_OK; i++)
        status = prior(c, i, err);
    c->settled = true;
    return status;
}

/* ---- what does not fit ---- */

/* One equation that may be at fault. */
typedef struct suspect {
    bool of_prior;
    size_t which, equation;
    double sigmas, loud; /* loud: in its own uncertainty */
} suspect;

static bool judge(const pare_closure *c, bool of_prior, size_t which, size_t equation, suspect *s)
{
    const pare_equation *eq = &c->equation[equation];
    const double left = c->adjusted.residual[equation], u = c->adjusted.residual_u[equation];
    if (eq->out || !(u > TELLS * eq->u))
        return false;
    *s = (suspect){of_prior, which, equation, fabs(left) / u, fabs(left) / eq->u};
    return true;
}

/* Doubted first: more sigmas; of the same, what was not weighed; of these, what is worst known. */
static bool is_worse(const pare_closure *c, const suspect *a, const suspect *b)
{
    if (fabs(a->sigmas - b->sigmas) > ALIKE * b->sigmas)
        return a->sigmas > b->sigmas;
    const bool a_said = a->of_prior && c->unknown[a->which].known != PARE_WEIGHED;
    const bool b_said = b->of_prior && c->unknown[b->which].known != PARE_WEIGHED;
    if (a_said != b_said)
        return a_said;
    return a->loud > b->loud * (1 + ALIKE);
}

static bool has_prior_mass(const pare_unknown *u)
{
    return u->of == PARE_UNKNOWN_PART || u->of == PARE_UNKNOWN_LINE;
}

/* @return how many were tested */
static size_t worst(const pare_closure *c, suspect *found)
{
    size_t tested = 0;
    suspect one;
    *found = (suspect){.sigmas = -1};
    for (size_t i = 0; i < c->unknowns; i++)
        if (has_prior_mass(&c->unknown[i]) && judge(c, true, i, c->unknown[i].prior_at, &one)) {
            tested++;
            if (is_worse(c, &one, found))
                *found = one;
        }
    for (size_t i = 0; i < c->of.weighings->count; i++)
        if (!c->unused[i] && judge(c, false, i, c->equation_of[i], &one)) {
            tested++;
            if (is_worse(c, &one, found))
                *found = one;
        }
    return tested;
}

/* Another reading that could as well be the wrong one. */
static int as_loud(const pare_closure *c, const suspect *s)
{
    suspect one;
    for (size_t i = 0; i < c->of.weighings->count && !s->of_prior; i++)
        if (i != s->which && !c->unused[i] && judge(c, false, i, c->equation_of[i], &one) &&
            fabs(one.sigmas - s->sigmas) <= ALIKE * s->sigmas)
            return (int)i;
    return -1;
}

static pare_status adjust(pare_closure *c, pare_error *err)
{
    size_t open = 0;
    const pare_status status =
        pare_adjust(c->unknowns, c->equations, c->equation, c->arena, &c->adjusted, &open, err);
    return status == PARE_BAD_DATA
               ? pare_within(err, "the weigh-ins of %s", c->of.craft ? c->of.craft : "the bench")
               : status;
}

static pare_status leave_out(pare_closure *c, const suspect *s, pare_error *err)
{
    pare_misfit *misfit = &c->misfit[c->misfits++];
    pare_equation *eq = &c->equation[s->equation];
    *misfit = (pare_misfit){
        .of_prior = s->of_prior, .which = s->which, .against = as_loud(c, s), .sigmas = s->sigmas};
    if (s->of_prior)
        eq->u = fmax(DOUBTED_SHARE * fabs(eq->value), LEAST_U_KG);
    else
        eq->out = true;
    const pare_status status = adjust(c, err);
    if (status == PARE_OK)
        misfit->off_kg = c->adjusted.residual[s->equation];
    return status;
}

static pare_status sort_out(pare_closure *c, pare_error *err)
{
    pare_status status = adjust(c, err);
    while (status == PARE_OK) {
        suspect s;
        const size_t tested = worst(c, &s);
        c->bound = tested ? gsl_cdf_ugaussian_Qinv(FAMILY / 2 / (double)tested) : (double)INFINITY;
        if (!(s.sigmas > c->bound) || c->misfits == PARE_MISFITS)
            break;
        status = leave_out(c, &s, err);
    }
    return status;
}

pare_status pare_closure_open(const pare_closure_of *of, pare_arena *arena, pare_closure **closure,
                              pare_error *err)
{
    pare_closure *c = pare_arena_zeros(arena, sizeof *c);
    *closure = c;
    if (!c)
        return pare_no_memory(err);
    c->of = *of;
    c->arena = arena;
    c->state = pare_closure_state(arena);
    if (!c->state)
        return pare_no_memory(err);
    pare_status status = make_equations(c, err);
    if (status == PARE_OK)
        status = sort_out(c, err);
    if (status != PARE_OK)
        return status;
    c->along = pare_arena_array(arena, 2 * c->unknowns + 1, sizeof *c->along);
    return c->along ? PARE_OK : pare_no_memory(err);
}

void pare_closure_mass(const pare_closure *closure, const pare_pile *pile, double *kg, double *u_kg)
{
    const size_t n = closure->unknowns;
    double *along = closure->along, *times = along + n, sum = 0;
    *kg = pile->fixed_kg;
    memset(along, 0, n * sizeof *along);
    for (size_t i = 0; i < pile->terms; i++) {
        *kg += pile->term[i].factor * closure->adjusted.value[pile->term[i].unknown];
        along[pile->term[i].unknown] += pile->term[i].factor;
    }
    memcpy(times, along, n * sizeof *times);
    pare_adjusted_times(&closure->adjusted, times);
    for (size_t i = 0; i < n; i++)
        sum += along[i] * times[i];
    *u_kg = sqrt(fmax(sum, 0));
}
