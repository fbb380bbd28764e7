/* adjust.c: weighted least squares by sparse elimination (see adjust.h).
 *
 * A whole bench's weighings share few unknowns: a motor is on two craft, a maker's bias on ten parts, a
 * scale's error in all its readings. So the normal equations are mostly zeros, and are kept so: the next
 * unknown to be eliminated is always the one that is tied to fewest others (minimum degree), which
 * leaves the shared ones to the end. Neighbours are bits, so that joining two lists of them is an "or".
 *
 * The matrix is factored as L D L', column by column, and each pivot is held against its own diagonal:
 * what is left of it after elimination is what no other unknown explains, and where that is rounding
 * alone the equations leave the unknown open. The elements of the inverse that are needed for
 * uncertainties and residuals are just those where L has one (Takahashi's recursion), since the unknowns
 * of one equation are always tied; the full inverse is never formed.
 *
 * Normal equations square the condition. The equations here are weighed by their uncertainty and every
 * mass has a prior, so that costs digits which nobody can weigh; QR would keep them and needs every
 * equation of a column at once. Neither GSL nor LAPACK has a sparse elimination.
 *
 * Sources: Takahashi, Fagan, Chin, Formation of a sparse bus impedance matrix, PICA 1973; George and Liu,
 * Computer Solution of Large Sparse Positive Definite Systems, ch. 5. */
#include "advise/adjust.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#define OPEN_PIVOT 1e-13 /* of its diagonal: rounding */

enum { BITS = 64 };

struct pare_elimination {
    size_t n;
    size_t *place; /* [n] of each unknown in the order of elimination */
    size_t *first; /* [n + 1] where each column's entries start */
    size_t *row;   /* below the diagonal, ascending */
    double *lower; /* L there */
    double *pivot; /* D */
    double *cover; /* the inverse at the same entries */
    double *own;   /* and on its diagonal */
    double *room;  /* [2 n] */
};

/* ---- which unknowns are tied, and the order ---- */

typedef struct ties {
    size_t n, words;
    uint64_t *bit; /* [n x words] */
    size_t *degree;
} ties;

static void tie(const ties *t, size_t i, size_t j)
{
    t->bit[i * t->words + j / BITS] |= (uint64_t)1 << (j % BITS);
}

static size_t count_bits(const uint64_t *bits, size_t words)
{
    size_t count = 0;
    for (size_t w = 0; w < words; w++)
        count += (size_t)__builtin_popcountll(bits[w]);
    return count;
}

static size_t next_bit(const uint64_t *bits, size_t words, size_t from)
{
    for (size_t w = from / BITS; w < words; w++) {
        uint64_t rest = bits[w];
        if (w == from / BITS)
            rest &= ~(uint64_t)0 << (from % BITS);
        if (rest)
            return w * BITS + (size_t)__builtin_ctzll(rest);
    }
    return words * BITS;
}

/* Takes one out: all that it was tied to are now tied to each other. */
static void eliminate(const ties *t, size_t gone)
{
    uint64_t *its = &t->bit[gone * t->words];
    for (size_t i = next_bit(its, t->words, 0); i < t->n; i = next_bit(its, t->words, i + 1)) {
        uint64_t *row = &t->bit[i * t->words];
        for (size_t w = 0; w < t->words; w++)
            row[w] |= its[w];
        row[i / BITS] &= ~((uint64_t)1 << (i % BITS));
        row[gone / BITS] &= ~((uint64_t)1 << (gone % BITS));
        t->degree[i] = count_bits(row, t->words);
    }
}

/* The order, and how many entries L has. What is left of each row of bits are its later neighbours. */
static size_t order_unknowns(const ties *t, size_t place[], size_t unknown_at[])
{
    size_t entries = 0;
    for (size_t i = 0; i < t->n; i++)
        place[i] = t->n;
    for (size_t step = 0; step < t->n; step++) {
        size_t least = t->n;
        for (size_t i = 0; i < t->n; i++)
            if (place[i] == t->n && (least == t->n || t->degree[i] < t->degree[least]))
                least = i;
        place[least] = step;
        unknown_at[step] = least;
        entries += t->degree[least];
        eliminate(t, least);
    }
    return entries;
}

/* Columns one after another, each from its first row to its last: sorted by being dealt into rows and
 * back. @param column, from  room for the entries, and for n + 2 */
static void put_rows(const ties *t, const size_t unknown_at[], struct pare_elimination *e,
                     size_t column[], size_t from[])
{
    size_t at = 0;
    for (size_t j = 0; j < e->n; j++) {
        const uint64_t *bits = &t->bit[unknown_at[j] * t->words];
        e->first[j] = at;
        for (size_t i = next_bit(bits, t->words, 0); i < e->n;
             i = next_bit(bits, t->words, i + 1)) {
            e->row[at++] = e->place[i];
            from[e->place[i] + 2]++;
        }
    }
    e->first[e->n] = at;
    for (size_t i = 0; i < e->n; i++)
        from[i + 2] += from[i + 1];
    for (size_t j = 0; j < e->n; j++)
        for (size_t p = e->first[j]; p < e->first[j + 1]; p++)
            column[from[e->row[p] + 1]++] = j;
    for (size_t i = 0; i < e->n; i++)
        for (size_t p = from[i]; p < from[i + 1]; p++)
            e->row[e->first[column[p]]++] = i;
    for (size_t j = e->n; j > 0; j--)
        e->first[j] = e->first[j - 1];
    e->first[0] = 0;
}

static bool make_room(struct pare_elimination *e, size_t entries, pare_arena *arena)
{
    e->first = pare_arena_array(arena, e->n + 1, sizeof *e->first);
    e->row = pare_arena_array(arena, entries + 1, sizeof *e->row);
    e->lower = pare_arena_array(arena, entries + 1, sizeof *e->lower);
    e->cover = pare_arena_array(arena, entries + 1, sizeof *e->cover);
    e->pivot = pare_arena_array(arena, e->n + 1, sizeof *e->pivot);
    e->own = pare_arena_array(arena, e->n + 1, sizeof *e->own);
    e->room = pare_arena_array(arena, 2 * e->n + 2, sizeof *e->room);
    return e->first && e->row && e->lower && e->cover && e->pivot && e->own && e->room;
}

static pare_status plan(size_t n, size_t equations, const pare_equation equation[],
                        pare_arena *arena, struct pare_elimination *e, pare_error *err)
{
    ties t = {.n = n, .words = (n + BITS - 1) / BITS};
    size_t *unknown_at = pare_arena_array(arena, n + 1, sizeof *unknown_at);
    t.bit = pare_arena_array(arena, n * t.words + 1, sizeof *t.bit);
    t.degree = pare_arena_array(arena, n + 1, sizeof *t.degree);
    e->n = n;
    e->place = pare_arena_array(arena, n + 1, sizeof *e->place);
    if (!unknown_at || !t.bit || !t.degree || !e->place)
        return pare_no_memory(err);
    for (size_t q = 0; q < equations; q++)
        for (size_t a = 0; a < equation[q].terms; a++)
            for (size_t b = 0; b < equation[q].terms; b++)
                if (equation[q].term[a].unknown != equation[q].term[b].unknown)
                    tie(&t, equation[q].term[a].unknown, equation[q].term[b].unknown);
    for (size_t i = 0; i < n; i++)
        t.degree[i] = count_bits(&t.bit[i * t.words], t.words);
    const size_t entries = order_unknowns(&t, e->place, unknown_at);
    size_t *room = pare_arena_array(arena, entries + n + 3, sizeof *room);
    if (!room || !make_room(e, entries, arena))
        return pare_no_memory(err);
    put_rows(&t, unknown_at, e, room, room + entries);
    return PARE_OK;
}

/* ---- numbers ---- */

/* An equation's factors by place, each place once. */
typedef struct spread {
    size_t places;
    size_t *place;  /* [n] */
    size_t *stamp;  /* [n] of the equation that was there last */
    double *factor; /* [n] zeros where nothing is */
} spread;

static void lay_out(const struct pare_elimination *e, const pare_equation *equation, size_t stamp,
                    spread *s)
{
    for (size_t a = 0; a < s->places; a++)
        s->factor[s->place[a]] = 0;
    s->places = 0;
    for (size_t a = 0; a < equation->terms; a++) {
        const size_t at = e->place[equation->term[a].unknown];
        if (s->stamp[at] != stamp)
            s->place[s->places++] = at;
        s->stamp[at] = stamp;
        s->factor[at] += equation->term[a].factor;
    }
}

/* The normal equations, in the places of L and D; the right side. Whole columns are gone through, which
 * for the few long equations is less than to look for each entry, and for short ones columns are short. */
static void add_up(size_t equations, const pare_equation equation[],
                   const struct pare_elimination *e, double right[], spread *s)
{
    for (size_t q = 0; q < equations; q++) {
        const pare_equation *eq = &equation[q];
        if (eq->out)
            continue;
        const double weight = 1 / (eq->u * eq->u);
        lay_out(e, eq, q + 1, s);
        for (size_t a = 0; a < s->places; a++) {
            const size_t j = s->place[a];
            const double times = weight * s->factor[j];
            right[j] += times * eq->value;
            e->pivot[j] += times * s->factor[j];
            for (size_t p = e->first[j]; s->places > 1 && p < e->first[j + 1]; p++)
                e->lower[p] += times * s->factor[e->row[p]];
        }
    }
}

/* Column by column: each takes from itself what the earlier ones do to it. Columns wait in lists under
 * the row that they reach next. @return the place of an open unknown, or n */
static size_t factor(const struct pare_elimination *e, size_t waits[], size_t next[], size_t at[],
                     double work[])
{
    const size_t none = e->n;
    for (size_t j = 0; j < e->n; j++)
        waits[j] = none;
    for (size_t j = 0; j < e->n; j++) {
        const double whole = e->pivot[j];
        for (size_t p = e->first[j]; p < e->first[j + 1]; p++)
            work[e->row[p]] = e->lower[p];
        for (size_t k = waits[j], after; k != none; k = after) {
            after = next[k];
            const double by = e->lower[at[k]] * e->pivot[k];
            e->pivot[j] -= by * e->lower[at[k]];
            for (size_t p = at[k] + 1; p < e->first[k + 1]; p++)
                work[e->row[p]] -= by * e->lower[p];
            if (++at[k] < e->first[k + 1]) {
                next[k] = waits[e->row[at[k]]];
                waits[e->row[at[k]]] = k;
            }
        }
        if (!(e->pivot[j] > OPEN_PIVOT * whole))
            return j;
        for (size_t p = e->first[j]; p < e->first[j + 1]; p++)
            e->lower[p] = work[e->row[p]] / e->pivot[j];
        at[j] = e->first[j];
        if (at[j] < e->first[j + 1]) {
            next[j] = waits[e->row[at[j]]];
            waits[e->row[at[j]]] = j;
        }
    }
    return e->n;
}

/* The inverse where L has entries, from the last column to the first. */
static void invert(const struct pare_elimination *e, double sum[], double column[])
{
    memset(column, 0, e->n * sizeof *column);
    for (size_t j = e->n; j-- > 0;) {
        const size_t from = e->first[j], to = e->first[j + 1];
        for (size_t p = from; p < to; p++) {
            sum[e->row[p]] = 0;
            column[e->row[p]] = e->lower[p];
        }
        for (size_t p = from; p < to; p++) {
            const size_t k = e->row[p];
            double here = e->lower[p] * e->own[k];
            for (size_t r = e->first[k]; r < e->first[k + 1]; r++) {
                here += column[e->row[r]] * e->cover[r];
                sum[e->row[r]] += e->lower[p] * e->cover[r];
            }
            sum[k] += here;
        }
        double own = 1 / e->pivot[j];
        for (size_t p = from; p < to; p++) {
            e->cover[p] = -sum[e->row[p]];
            own -= e->lower[p] * e->cover[p];
            column[e->row[p]] = 0;
        }
        e->own[j] = own;
    }
}

static void solve(const struct pare_elimination *e, double x[])
{
    for (size_t j = 0; j < e->n; j++)
        for (size_t p = e->first[j]; p < e->first[j + 1]; p++)
            x[e->row[p]] -= e->lower[p] * x[j];
    for (size_t j = e->n; j-- > 0;) {
        x[j] /= e->pivot[j];
        for (size_t p = e->first[j]; p < e->first[j + 1]; p++)
            x[j] -= e->lower[p] * x[e->row[p]];
    }
}

void pare_adjusted_times(const pare_adjusted *adjusted, double vector[])
{
    const struct pare_elimination *e = adjusted->own;
    for (size_t i = 0; i < e->n; i++)
        e->room[e->place[i]] = vector[i];
    solve(e, e->room);
    for (size_t i = 0; i < e->n; i++)
        vector[i] = e->room[e->place[i]];
}

/* ---- the answer ---- */

/* Variance of an equation's left side: its unknowns are tied, so their covariances are there. */
static double variance_of(const struct pare_elimination *e, const spread *s)
{
    double sum = 0;
    for (size_t a = 0; a < s->places; a++) {
        const size_t j = s->place[a];
        double with = 0;
        for (size_t p = e->first[j]; s->places > 1 && p < e->first[j + 1]; p++)
            with += e->cover[p] * s->factor[e->row[p]];
        sum += s->factor[j] * (s->factor[j] * e->own[j] + 2 * with);
    }
    return sum;
}

static void put_residuals(const pare_equation equation[], spread *s, pare_adjusted *adjusted)
{
    size_t in = 0;
    adjusted->chi2 = 0;
    for (size_t q = 0; q < adjusted->equations; q++) {
        const pare_equation *eq = &equation[q];
        double left = eq->value;
        lay_out(adjusted->own, eq, adjusted->equations + q + 1, s);
        for (size_t a = 0; a < eq->terms; a++)
            left -= eq->term[a].factor * adjusted->value[eq->term[a].unknown];
        const double own = eq->u * eq->u, by = variance_of(adjusted->own, s);
        adjusted->residual[q] = left;
        adjusted->residual_u[q] = sqrt(fmax(eq->out ? own + by : own - by, 0));
        if (eq->out)
            continue;
        adjusted->chi2 += left * left / own;
        in++;
    }
    adjusted->spare = in > adjusted->unknowns ? in - adjusted->unknowns : 0;
}

static pare_status work_out(const pare_equation equation[], pare_arena *arena,
                            pare_adjusted *adjusted, size_t *undetermined, pare_error *err)
{
    struct pare_elimination *e = adjusted->own;
    size_t *lists = pare_arena_array(arena, 5 * e->n + 5, sizeof *lists);
    double *right = pare_arena_array(arena, 2 * e->n + 2, sizeof *right);
    if (!lists || !right)
        return pare_no_memory(err);
    spread s = {0, lists + 3 * e->n, lists + 4 * e->n, right + e->n};
    add_up(adjusted->equations, equation, e, right, &s);
    const size_t open = factor(e, lists, lists + e->n, lists + 2 * e->n, e->room);
    if (open < e->n) {
        size_t unknown = 0;
        while (e->place[unknown] != open)
            unknown++;
        if (undetermined)
            *undetermined = unknown;
        return pare_fail(err, PARE_BAD_DATA,
                         "the %zu equations leave unknown %zu of %zu open; right would be one more",
                         adjusted->equations, unknown + 1, e->n);
    }
    invert(e, e->room, e->room + e->n);
    solve(e, right);
    for (size_t i = 0; i < e->n; i++) {
        adjusted->value[i] = right[e->place[i]];
        adjusted->u[i] = sqrt(e->own[e->place[i]]);
    }
    put_residuals(equation, &s, adjusted);
    return PARE_OK;
}

pare_status pare_adjust(size_t unknowns, size_t equations, const pare_equation equation[],
                        pare_arena *arena, pare_adjusted *adjusted, size_t *undetermined,
                        pare_error *err)
{
    *adjusted = (pare_adjusted){.unknowns = unknowns, .equations = equations};
    adjusted->own = pare_arena_zeros(arena, sizeof *adjusted->own);
    adjusted->value = pare_arena_array(arena, unknowns + 1, sizeof(double));
    adjusted->u = pare_arena_array(arena, unknowns + 1, sizeof(double));
    adjusted->residual = pare_arena_array(arena, equations + 1, sizeof(double));
    adjusted->residual_u = pare_arena_array(arena, equations + 1, sizeof(double));
    if (!adjusted->own || !adjusted->value || !adjusted->u || !adjusted->residual ||
        !adjusted->residual_u)
        return pare_no_memory(err);
    const pare_status status = plan(unknowns, equations, equation, arena, adjusted->own, err);
    return status == PARE_OK ? work_out(equation, arena, adjusted, undetermined, err) : status;
}
