/* weighed.c: from a closure to a craft's sheet (see weighed.h).
 *
 * The covariance of a craft's masses is a matrix with a root; each column of that is a source of error of
 * its own, which is all that the sheet's doubt wants to know. Directions that nothing is doubted in have
 * columns of nothing.
 *
 * What no reading tells of stays as it is written, to the bit, but for its maker's bias: the error that all
 * scales have in common moves each mass of a bench by a hair, and a list of swaps would be full of parts
 * that save a hair. What is not written down takes those hairs, so that the sum stays the scale's. */
#include "advise/weighed.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TOLD         0.7   /* of its doubt as written: less is left where a reading tells of it */
#define BIAS_SEEN    1e-6  /* share: less is rounding */
#define NOTHING_LEFT 1e-12 /* of a variance, after what other sources explain of it */

bool pare_closure_has_readings(const pare_closure *closure)
{
    for (size_t i = 0; i < closure->of.weighings->count; i++)
        if (!closure->unused[i])
            return true;
    return false;
}

/* Whether a reading of it, of a pile with it, or of the whole with and without it, says something. */
static bool is_told(const pare_closure *closure, size_t unknown)
{
    const pare_unknown *u = &closure->unknown[unknown];
    const double shared = u->of != PARE_UNKNOWN_PART || u->to_maker == unknown ? 0
                          : u->known == PARE_WEIGHED                           ? PARE_SCALE_COMMON_U
                                                                               : PARE_MAKER_BIAS_U;
    const double written_u = hypot(u->prior_u, shared * u->prior);
    return u->readings > 0 || closure->adjusted.u[unknown] < TOLD * written_u;
}

/* What is written of a part that no reading tells of, by its maker's bias. */
static double as_stated(const pare_closure *closure, const char *maker, pare_known known,
                        double written_kg)
{
    for (size_t i = 0; maker && known == PARE_STATED && i < closure->unknowns; i++)
        if (closure->unknown[i].of == PARE_UNKNOWN_MAKER &&
            strcmp(closure->unknown[i].name, maker) == 0 &&
            fabs(closure->adjusted.value[i]) > BIAS_SEEN)
            return written_kg * (1 + closure->adjusted.value[i]);
    return written_kg;
}

static double mass_of(const pare_closure *closure, size_t unknown)
{
    const pare_unknown *u = &closure->unknown[unknown];
    if (u->of == PARE_UNKNOWN_FORGOTTEN ||
        (is_told(closure, unknown) && closure->adjusted.value[unknown] > 0))
        return closure->adjusted.value[unknown];
    return u->part ? as_stated(closure, u->part->maker, u->known, u->prior) : u->prior;
}

/* ---- which masses ---- */

typedef struct making {
    pare_closure *closure;
    const pare_craft *craft;
    size_t room, count;
    pare_weighed_mass *mass;
    size_t *unknown; /* [count] of each */
} making;

static size_t put(making *m, size_t unknown, const pare_part *part, double written_kg)
{
    const pare_adjusted *adjusted = &m->closure->adjusted;
    m->mass[m->count] = (pare_weighed_mass){.part = part,
                                            .written_kg = written_kg,
                                            .kg = mass_of(m->closure, unknown),
                                            .u_kg = adjusted->u[unknown],
                                            .read = is_told(m->closure, unknown)};
    m->unknown[m->count] = unknown;
    return m->count++;
}

static size_t unknown_part(const pare_closure *closure, const char *id)
{
    size_t at = 0;
    while (at < closure->unknowns && (closure->unknown[at].of != PARE_UNKNOWN_PART ||
                                      strcmp(closure->unknown[at].name, id) != 0))
        at++;
    return at;
}

static void put_part(making *m, const pare_part *part)
{
    for (size_t i = 0; i < m->count; i++)
        if (m->mass[i].part == part)
            return;
    const size_t at = unknown_part(m->closure, part->id);
    if (at < m->closure->unknowns && m->count < m->room)
        put(m, at, part, m->closure->unknown[at].prior);
}

static void put_parts(making *m)
{
    const pare_craft *craft = m->craft;
    for (size_t i = 0; i < craft->items; i++)
        put_part(m, craft->item[i].part);
    for (size_t l = 0; l < craft->loadouts; l++)
        for (size_t i = 0; i < craft->loadout[l].uses; i++)
            put_part(m, craft->loadout[l].use[i].part);
}

/* The unknown of a joint's screw or a run's wire as it is now. */
static size_t unknown_line(const making *m, const char *prefix, const char *name, double each_kg)
{
    const size_t length = strlen(prefix);
    for (size_t i = 0; i < m->closure->unknowns; i++) {
        const pare_unknown *u = &m->closure->unknown[i];
        if (u->of == PARE_UNKNOWN_LINE && strcmp(u->craft, m->craft->name) == 0 &&
            strncmp(u->name, prefix, length) == 0 && strcmp(u->name + length, name) == 0 &&
            fabs(u->prior - each_kg) <= 1e-9 * fabs(each_kg))
            return i;
    }
    return m->closure->unknowns;
}

/* @param written  the craft's ledger by geometry */
static void put_lines(making *m, const pare_assembly *written, size_t joint[], size_t run[])
{
    for (size_t i = 0; i < written->lines; i++) {
        const pare_line *line = &written->line[i];
        if (line->of == PARE_LINE_ITEM || line->count < 1 || m->count == m->room)
            continue;
        const double each_kg = line->mass_kg.value / line->count;
        const bool is_joint = line->of == PARE_LINE_JOINT;
        const size_t at = unknown_line(m, is_joint ? "joint." : "run.", line->name, each_kg);
        if (at < m->closure->unknowns)
            (is_joint ? joint : run)[line->index] = put(m, at, NULL, each_kg);
    }
}

/* ---- their covariance ---- */

static void fill_cover(const making *m, double cover[], double vector[])
{
    const size_t n = m->closure->unknowns;
    for (size_t i = 0; i < m->count; i++) {
        memset(vector, 0, n * sizeof *vector);
        vector[m->unknown[i]] = 1;
        pare_adjusted_times(&m->closure->adjusted, vector);
        for (size_t j = 0; j < m->count; j++)
            cover[i * m->count + j] = vector[m->unknown[j]];
    }
}

/* Cholesky, column by column: root[k] is the k-th. */
static void fill_root(size_t n, const double cover[], double root[])
{
    for (size_t k = 0; k < n; k++) {
        double pivot = cover[k * n + k];
        for (size_t s = 0; s < k; s++)
            pivot -= root[s * n + k] * root[s * n + k];
        if (!(pivot > NOTHING_LEFT * cover[k * n + k]))
            continue;
        root[k * n + k] = sqrt(pivot);
        for (size_t i = k + 1; i < n; i++) {
            double left = cover[k * n + i];
            for (size_t s = 0; s < k; s++)
                left -= root[s * n + k] * root[s * n + i];
            root[k * n + i] = left / root[k * n + k];
        }
    }
}

static pare_status open_making(making *m, pare_closure *closure, const pare_craft *craft,
                               pare_arena *arena, size_t *places, pare_error *err)
{
    *m = (making){.closure = closure,
                  .craft = craft,
                  .room =
                      craft->items + (size_t)PARE_LOADOUTS * 8 + craft->joints + craft->runs + 1};
    m->mass = pare_arena_array(arena, m->room, sizeof *m->mass);
    m->unknown = pare_arena_array(arena, m->room, sizeof *m->unknown);
    for (size_t i = 0; places && i < craft->joints + craft->runs; i++)
        places[i] = m->room; /* more than any place: none */
    return m->mass && m->unknown && places ? PARE_OK : pare_no_memory(err);
}

static pare_status gather(making *m, size_t places[], pare_arena *arena, pare_error *err)
{
    pare_craft *loaded = malloc(sizeof *loaded);
    pare_assembly *written = pare_arena_zeros(arena, sizeof *written);
    pare_status status = loaded && written ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_craft_load(m->craft, -1, loaded, err);
    if (status == PARE_OK) {
        loaded->weighed = NULL;
        status = pare_assemble(loaded, written, err);
    }
    if (status == PARE_OK) {
        put_parts(m);
        put_lines(m, written, places, places + m->craft->joints);
    }
    free(loaded);
    return status;
}

/* What the adjustment gives the craft in its first loadout beyond what its sheet takes over. */
static double left_over_kg(const making *m)
{
    pare_pile pile;
    double kg = 0;
    if (pare_closure_now(m->closure, m->craft->name, m->craft->loadouts ? 0 : -1, &pile, NULL) !=
        PARE_OK)
        return 0;
    for (size_t i = 0; i < pile.terms; i++) {
        const size_t at = pile.term[i].unknown;
        kg += pile.term[i].factor * (m->closure->adjusted.value[at] - mass_of(m->closure, at));
    }
    return kg;
}

pare_status pare_weighed_make(pare_closure *closure, const pare_craft *craft, pare_arena *arena,
                              const pare_weighed **weighed, pare_error *err)
{
    making m;
    pare_weighed *made = pare_arena_zeros(arena, sizeof *made);
    size_t *places = pare_arena_array(arena, craft->joints + craft->runs + 1, sizeof *places);
    pare_status status =
        made ? open_making(&m, closure, craft, arena, places, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = gather(&m, places, arena, err);
    if (status != PARE_OK)
        return status;
    const int forgotten = pare_closure_forgotten(closure, craft->name);
    const size_t last = forgotten >= 0 ? put(&m, (size_t)forgotten, NULL, 0) : m.count;
    if (forgotten >= 0)
        m.mass[last].kg += left_over_kg(&m);
    const size_t n = m.count;
    double *cover = pare_arena_array(arena, n * n + 1, sizeof *cover);
    double *root = pare_arena_array(arena, n * n + 1, sizeof *root);
    double *vector = pare_arena_array(arena, closure->unknowns + 1, sizeof *vector);
    if (!cover || !root || !vector)
        return pare_no_memory(err);
    fill_cover(&m, cover, vector);
    fill_root(n, cover, root);
    for (size_t i = 0; i < craft->joints + craft->runs; i++)
        places[i] = places[i] < n ? places[i] : n;
    *made = (pare_weighed){.masses = n,
                           .mass = m.mass,
                           .joints = craft->joints,
                           .runs = craft->runs,
                           .joint = places,
                           .run = places + craft->joints,
                           .forgotten = forgotten >= 0 ? last : n,
                           .root_kg = root};
    *weighed = made;
    return PARE_OK;
}

void pare_weighed_put_lines(const pare_weighed *weighed, pare_craft *craft)
{
    for (size_t i = 0; i < craft->joints && i < weighed->joints; i++) {
        const size_t at = weighed->joint[i];
        if (at == weighed->masses || craft->joint[i].included_in)
            continue;
        craft->joint[i].written_kg = weighed->mass[at].written_kg;
        craft->joint[i].weighed_kg = weighed->mass[at].kg;
    }
    for (size_t i = 0; i < craft->runs && i < weighed->runs; i++) {
        const size_t at = weighed->run[i];
        if (at == weighed->masses || craft->run[i].included_in)
            continue;
        craft->run[i].written_kg = weighed->mass[at].written_kg;
        craft->run[i].weighed_kg = weighed->mass[at].kg;
    }
    craft->weighed = weighed;
}

static int part_by_id(const void *id, const void *part)
{
    return strcmp(id, (*(pare_part *const *)part)->id);
}

void pare_weighed_put_parts(const pare_closure *closure, const pare_bench *bench)
{
    for (size_t p = 0; p < bench->parts; p++) {
        pare_value *mass = &bench->part[p]->mass_kg;
        mass->value = as_stated(closure, bench->part[p]->maker, mass->known, mass->value);
    }
    for (size_t i = 0; i < closure->unknowns && bench->parts; i++) {
        const pare_unknown *u = &closure->unknown[i];
        if (u->of != PARE_UNKNOWN_PART || !is_told(closure, i) || !(closure->adjusted.value[i] > 0))
            continue;
        pare_part *const *found =
            bsearch(u->name, bench->part, bench->parts, sizeof bench->part[0], part_by_id);
        if (found)
            (*found)->mass_kg = (pare_value){closure->adjusted.value[i], closure->adjusted.u[i],
                                             PARE_WEIGHED, true};
    }
}
