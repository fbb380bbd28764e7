/* rooms: advise craft physics base */
/* What to weigh next, on covariances alone: against every pair tried, and against ranking by doubt. The
 * truth for a pair is the sum's variance once both are read, by the two-by-two inverse (closed form). */
#include "near.h"

#include <math.h>
#include <string.h>

#include "advise/weigh_next.h"
#include "draws.h"

enum { GROUPS = 4, OF_A_GROUP = 3, PARTS = GROUPS * OF_A_GROUP, MOST = 5 };

typedef struct masses {
    double cover[PARTS * PARTS], noise[PARTS], with[PARTS], var;
} masses;

/* Groups of parts of one maker, whose stated masses are off together; each stands on the craft once. */
static masses draw_masses(uint64_t *seed)
{
    masses m = {.var = 0};
    double shared[GROUPS], own[PARTS];
    for (int g = 0; g < GROUPS; g++)
        shared[g] = exp(draw_normal(seed));
    for (int i = 0; i < PARTS; i++)
        own[i] = 0.1 * exp(draw_normal(seed));
    for (int i = 0; i < PARTS; i++) {
        m.noise[i] = 0.01;
        for (int j = 0; j < PARTS; j++) {
            const double together = i / OF_A_GROUP == j / OF_A_GROUP
                                        ? shared[i / OF_A_GROUP] * shared[i / OF_A_GROUP]
                                        : 0;
            m.cover[i * PARTS + j] = together + (i == j ? own[i] * own[i] : 0);
            m.with[i] += m.cover[i * PARTS + j];
        }
        m.var += m.with[i];
    }
    return m;
}

/* The sum's variance once two are read. */
static double after_pair(const masses *m, int a, int b)
{
    const double aa = m->cover[a * PARTS + a] + m->noise[a], ab = m->cover[a * PARTS + b];
    const double bb = m->cover[b * PARTS + b] + m->noise[b];
    const double wa = m->with[a], wb = m->with[b];
    return m->var - (wa * wa * bb - 2 * wa * wb * ab + wb * wb * aa) / (aa * bb - ab * ab);
}

static double best_pair(const masses *m)
{
    double best = m->var;
    for (int a = 0; a < PARTS; a++)
        for (int b = 0; b < a; b++)
            best = fmin(best, after_pair(m, a, b));
    return best;
}

/* The two that are least well known by themselves. */
static double pair_by_doubt(const masses *m)
{
    int first = 0, second = -1;
    for (int i = 1; i < PARTS; i++)
        if (m->cover[i * PARTS + i] > m->cover[first * PARTS + first])
            first = i;
    for (int i = 0; i < PARTS; i++)
        if (i != first &&
            (second < 0 || m->cover[i * PARTS + i] > m->cover[second * PARTS + second]))
            second = i;
    return after_pair(m, first, second);
}

static void greedy_pairs_are_as_good_as_the_best_where_doubt_alone_misleads(void **state)
{
    (void)state;
    enum { ROUNDS = 1000 };
    uint64_t seed = 42;
    double greedy_sum = 0, best_sum = 0, doubt_sum = 0;
    int far = 0;
    for (int round = 0; round < ROUNDS; round++) {
        const masses m = draw_masses(&seed);
        masses changed = m;
        size_t pick[2];
        double left[2];
        pare_weigh_greedy(PARTS, changed.cover, m.noise, changed.with, m.var, 2, pick, left);
        const double best = best_pair(&m);
        assert_within(left[1], after_pair(&m, (int)pick[0], (int)pick[1]), 1e-9);
        assert_true(left[1] >= best * (1 - 1e-9));
        far += sqrt(left[1]) > 1.05 * sqrt(best);
        greedy_sum += sqrt(left[1] / m.var);
        best_sum += sqrt(best / m.var);
        doubt_sum += sqrt(pair_by_doubt(&m) / m.var);
    }
    /* Within 5 % of the best pair, in the doubt that is left; ranking by doubt is over 5 % worse. */
    assert_true(greedy_sum <= 1.05 * best_sum);
    assert_true(doubt_sum > 1.05 * best_sum);
    assert_true(far <= ROUNDS / 20);
}

static void a_reading_takes_what_was_said_before_it_was_made(void **state)
{
    (void)state;
    /* Two independent masses with variances 4 and 1, read with 1 and 1: 4 - 16/5 + 1 = 1.8, then
     * 1.8 - 1/2 = 1.3. */
    double cover[] = {4, 0, 0, 1}, with[] = {4, 1}, left[2];
    const double noise[] = {1, 1};
    size_t pick[2];
    pare_weigh_greedy(2, cover, noise, with, 5, 2, pick, left);
    assert_int_equal(pick[0], 0);
    assert_int_equal(pick[1], 1);
    assert_near(left[0], 1.8, 1e-12);
    assert_near(left[1], 1.3, 1e-12);
    assert_near(cover[0], 0.8, 1e-12); /* 4 and 1 together: 1/(1/4 + 1) */
}

static void the_same_thing_again_tells_less(void **state)
{
    (void)state;
    /* One mass with variance 4, read again and again with 1: 1/(1/4 + n). */
    double cover[] = {4}, with[] = {4}, left[MOST];
    const double noise[] = {1};
    for (int n = 0; n < MOST; n++) {
        size_t pick;
        const double var = n ? left[n - 1] : 4;
        pare_weigh_greedy(1, cover, noise, with, var, 1, &pick, &left[n]);
        assert_within(left[n], 1 / (0.25 + n + 1), 1e-12);
    }
}

static void a_verdict_gets_surer_as_two_normals_agree_in_sign(void **state)
{
    (void)state;
    /* Where the limit is what is promised, the verdict is the sign of what the readings will say, and right
     * where the truth has the same one: 1/2 + asin(rho)/pi, rho^2 being the share of the variance that they
     * take off (Sheppard, On the application of the theory of error, Philosophical Transactions A 192
     * (1899), 101). */
    const pare_promise promise = {.kg = 0.6, .u_kg = 2e-3};
    for (double rho = 0; rho <= 0.99; rho += 0.11) {
        const double left_kg = promise.u_kg * sqrt(1 - rho * rho);
        assert_near(pare_promise_right(&promise, 0.6, left_kg, false),
                    0.5 + asin(rho) / 3.14159265358979323846, 2e-3);
    }
    /* A limit three sigmas away is judged rightly already, and nothing left in doubt is always right. */
    assert_near(pare_promise_right(&promise, 0.606, promise.u_kg, false), 0.99865, 1e-5);
    assert_near(pare_promise_right(&promise, 0.601, 1e-9, false), 1, 1e-6);
    /* What nobody lists is settled by the whole alone. */
    const pare_promise open = {.kg = 0.6, .u_kg = 2e-3, .allowed = true};
    const double parts = pare_promise_right(&open, 0.609, 1e-9, false),
                 whole = pare_promise_right(&open, 0.609, 1e-9, true);
    assert_true(parts < 0.9);
    assert_near(whole, 1, 1e-6);
    /* 5 to 15 g in nine of ten, log-normal: mean exp(m + s^2/2), variance (exp(s^2) - 1) mean^2; the
     * middles of 64 slices leave the outermost tail out. */
    const double s = log(3) / 2 / 1.6448536, mean = sqrt(5.0 * 15) * exp(s * s / 2);
    assert_within(1e6 * pare_promise_allowance_kg2(&open), expm1(s * s) * mean * mean, 0.05);
    assert_near(pare_promise_allowance_kg2(&promise), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(greedy_pairs_are_as_good_as_the_best_where_doubt_alone_misleads),
        cmocka_unit_test(a_reading_takes_what_was_said_before_it_was_made),
        cmocka_unit_test(the_same_thing_again_tells_less),
        cmocka_unit_test(a_verdict_gets_surer_as_two_normals_agree_in_sign),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
