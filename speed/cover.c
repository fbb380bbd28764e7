/* rooms: advise craft physics base */
/* cover.c: which craft cover the customers, against a general solver of integer programs (GLPK, branch and cut with
 * its presolver, 20 s at most).
 *
 * Customers and craft are points of a square, and a craft serves who is near: as a craft's grams and thrust are near to
 * what a brief asks. Weights are 1 to 100. Time is the processor's, since both run on one thread. */
#include <glpk.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "advise/cover.h"
#include "support/clock.h"

enum { NODES = 20000, MOST_MS = 20000 };

typedef struct question {
    size_t candidates, customers, most;
    bool all;
    double near; /* of a side of the square */
} question;

static const question questions[] = {
    {100, 100, 10, false, 0.15},  {400, 400, 40, false, 0.08}, {1000, 1000, 40, false, 0.08},
    {2000, 2000, 40, false, 0.1}, {400, 400, 0, true, 0.08},   {1000, 1000, 0, true, 0.08},
};

/* 0 .. 1, the same every time. */
static double drawn(unsigned *state)
{
    *state = *state * 1664525u + 1013904223u; /* Numerical Recipes, 2nd ed., sec. 7.1 */
    return (*state >> 8) / (double)(1 << 24);
}

static bool covers(const pare_cover_ask *ask, size_t i, size_t j)
{
    return ask->covers[i * pare_cover_words(ask->customers) + j / 64] >> (j % 64) & 1;
}

static bool draw(const question *q, pare_arena *arena, pare_cover_ask *ask)
{
    unsigned state = 2026;
    const size_t words = pare_cover_words(q->customers);
    uint64_t *bits = pare_arena_array(arena, q->candidates * words, sizeof *bits);
    int64_t *weight = pare_arena_array(arena, q->customers, sizeof *weight);
    int64_t *cost = pare_arena_array(arena, q->candidates, sizeof *cost);
    double *x = pare_arena_array(arena, q->customers, sizeof *x);
    double *y = pare_arena_array(arena, q->customers, sizeof *y);
    if (!bits || !weight || !cost || !x || !y)
        return false;
    for (size_t j = 0; j < q->customers; j++) {
        x[j] = drawn(&state);
        y[j] = drawn(&state);
        weight[j] = 1 + (int64_t)(100 * drawn(&state));
    }
    for (size_t i = 0; i < q->candidates; i++) {
        const double a = drawn(&state), b = drawn(&state);
        cost[i] = 10000 + (int64_t)(40000 * drawn(&state));
        for (size_t j = 0; j < q->customers; j++)
            if (hypot(x[j] - a, y[j] - b) < q->near)
                bits[i * words + j / 64] |= UINT64_C(1) << (j % 64);
    }
    *ask = (pare_cover_ask){.candidates = q->candidates,
                            .customers = q->customers,
                            .covers = bits,
                            .weight = weight,
                            .cost = cost,
                            .all = q->all,
                            .most = q->most,
                            .nodes = NODES};
    return true;
}

/* A column a craft and, where weight counts, one a customer; a row a customer, and one for how many. */
static double by_general(const pare_cover_ask *ask, double *value, bool *proven)
{
    glp_prob *program = glp_create_prob();
    glp_iocp how;
    const int n = (int)ask->candidates, m = (int)ask->customers;
    int *index = calloc((size_t)(n + 2), sizeof *index);
    double *one = calloc((size_t)(n + 2), sizeof *one);
    if (!index || !one)
        abort();
    glp_set_obj_dir(program, ask->all ? GLP_MIN : GLP_MAX);
    glp_add_cols(program, ask->all ? n : n + m);
    glp_add_rows(program, ask->all ? m : m + 1);
    for (int i = 1; i <= n; i++) {
        glp_set_col_kind(program, i, GLP_BV);
        glp_set_obj_coef(program, i, ask->all ? (double)ask->cost[i - 1] : 0);
    }
    for (int j = 1; j <= m; j++) {
        int count = 0;
        for (int i = 1; i <= n; i++)
            if (covers(ask, (size_t)i - 1, (size_t)j - 1)) {
                index[++count] = i;
                one[count] = 1;
            }
        const bool any = count > 0;
        if (!ask->all) {
            glp_set_col_bnds(program, n + j, GLP_DB, 0, 1);
            glp_set_obj_coef(program, n + j, (double)ask->weight[j - 1]);
            index[++count] = n + j;
            one[count] = -1;
        }
        glp_set_row_bnds(program, j, GLP_LO, ask->all && any ? 1 : 0, 0);
        glp_set_mat_row(program, j, count, index, one);
    }
    if (!ask->all) {
        for (int i = 1; i <= n; i++) {
            index[i] = i;
            one[i] = 1;
        }
        glp_set_row_bnds(program, m + 1, GLP_UP, 0, (double)ask->most);
        glp_set_mat_row(program, m + 1, n, index, one);
    }
    glp_init_iocp(&how);
    how.presolve = GLP_ON;
    how.msg_lev = GLP_MSG_OFF;
    how.tm_lim = MOST_MS;
    const double began = processor_s();
    *proven = glp_intopt(program, &how) == 0 && glp_mip_status(program) == GLP_OPT;
    const double took = processor_s() - began;
    *value = glp_mip_obj_val(program);
    glp_delete_prob(program);
    free(index);
    free(one);
    return took;
}

int main(void)
{
    glp_term_out(GLP_OFF);
    for (size_t k = 0; k < sizeof questions / sizeof questions[0]; k++) {
        const question *q = &questions[k];
        pare_arena *arena = pare_arena_open();
        pare_cover_ask ask;
        pare_cover cover;
        pare_error err = {0};
        double other = 0;
        bool other_proven = false;
        if (!arena || !draw(q, arena, &ask))
            return 1;
        const double began = processor_s();
        if (pare_cover_find(&ask, arena, &cover, &err) != PARE_OK)
            return 1;
        const double took = processor_s() - began,
                     general = by_general(&ask, &other, &other_proven);
        const double value = (double)(q->all ? cover.cost : cover.weight);
        printf("cover: %4zu craft, %4zu customers, %s: %.0f in %.3f s, %s (bound %lld, %zu nodes); "
               "GLPK "
               "%.0f in %.3f s, %s%s\n",
               q->candidates, q->customers, q->all ? "all, least cost" : "most", value, took,
               cover.proven ? "proven" : "not proven", (long long)cover.bound, cover.nodes, other,
               general, other_proven ? "proven" : "not proven",
               cover.proven && other_proven && fabs(value - other) > 0.5 ? ": THEY DIFFER" : "");
        pare_arena_close(arena);
    }
    return 0;
}
