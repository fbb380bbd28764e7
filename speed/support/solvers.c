/* solvers.c: GLPK and CBC on one of each class (see solvers.h).
 *
 * One column an option, 0 or 1; one row a class, which adds up to 1; one row for the money. Both run with
 * their own defaults, presolving on, and no gap allowed, since the claim is of a proven optimum. */
#include "support/solvers.h"

#include <stdlib.h>
#include <time.h>

#include <coin/Cbc_C_Interface.h>
#include <glpk.h>

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int columns(const pare_pick *pick)
{
    size_t count = 0;
    for (size_t c = 0; c < pick->classes; c++)
        count += pick->class[c].count;
    return (int)count;
}

/* Adds up what the columns near 1 choose. @param value  [columns] */
static void add_up(const pare_pick *pick, const double value[], solved *out)
{
    size_t column = 0;
    for (size_t c = 0; c < pick->classes; c++)
        for (size_t i = 0; i < pick->class[c].count; i++)
            if (value[column++] > 0.5) {
                out->mass_100ug += pick->class[c].option[i].mass_100ug;
                out->money_cents += pick->class[c].option[i].money_cents;
            }
}

bool solve_by_glpk(const pare_pick *pick, double most_s, solved *out)
{
    *out = (solved){0};
    glp_term_out(GLP_OFF);
    glp_prob *model = glp_create_prob();
    const int count = columns(pick), classes = (int)pick->classes;
    double *value = calloc((size_t)count + 1, sizeof *value);
    if (!value) {
        glp_delete_prob(model);
        return false;
    }
    glp_set_obj_dir(model, GLP_MIN);
    glp_add_rows(model, classes + 1);
    glp_add_cols(model, count);
    for (int c = 1; c <= classes; c++)
        glp_set_row_bnds(model, c, GLP_FX, 1, 1);
    glp_set_row_bnds(model, classes + 1, GLP_UP, 0, (double)pick->most.money_cents);
    int column = 1;
    for (int c = 0; c < classes; c++)
        for (size_t i = 0; i < pick->class[c].count; i++, column++) {
            const pare_pick_amounts *o = &pick->class[c].option[i];
            const int row[] = {0, c + 1, classes + 1};
            const double factor[] = {0, 1, (double)o->money_cents};
            glp_set_col_kind(model, column, GLP_BV);
            glp_set_obj_coef(model, column, (double)o->mass_100ug);
            glp_set_mat_col(model, column, 2, row, factor);
        }
    glp_iocp how;
    glp_init_iocp(&how);
    how.presolve = GLP_ON;
    how.msg_lev = GLP_MSG_OFF;
    how.tm_lim = (int)(1e3 * most_s);
    const double from = now_s();
    const int status = glp_intopt(model, &how);
    out->took_s = now_s() - from;
    out->proven = status == 0 && glp_mip_status(model) == GLP_OPT;
    for (int i = 0; i < count; i++)
        value[i] = glp_mip_col_val(model, i + 1);
    add_up(pick, value, out);
    free(value);
    glp_delete_prob(model);
    return true;
}

/* CBC's arrays of a model, by columns. */
typedef struct model_arrays {
    CoinBigIndex *start;
    int *row;
    double *factor, *low, *high, *wish, *row_low, *row_high;
} model_arrays;

static void free_arrays(model_arrays *m)
{
    free(m->start);
    free(m->row);
    free(m->factor);
    free(m->low);
    free(m->high);
    free(m->wish);
    free(m->row_low);
    free(m->row_high);
}

static bool make_arrays(const pare_pick *pick, size_t count, model_arrays *m)
{
    const size_t rows = pick->classes + 1;
    *m = (model_arrays){.start = calloc(count + 1, sizeof *m->start),
                        .row = calloc(2 * count, sizeof *m->row),
                        .factor = calloc(2 * count, sizeof *m->factor),
                        .low = calloc(count, sizeof *m->low),
                        .high = calloc(count, sizeof *m->high),
                        .wish = calloc(count, sizeof *m->wish),
                        .row_low = calloc(rows, sizeof *m->row_low),
                        .row_high = calloc(rows, sizeof *m->row_high)};
    if (!m->start || !m->row || !m->factor || !m->low || !m->high || !m->wish || !m->row_low ||
        !m->row_high)
        return false;
    size_t column = 0;
    for (size_t c = 0; c < pick->classes; c++) {
        m->row_low[c] = m->row_high[c] = 1;
        for (size_t i = 0; i < pick->class[c].count; i++, column++) {
            m->row[2 * column] = (int)c;
            m->factor[2 * column] = 1;
            m->row[2 * column + 1] = (int)pick->classes;
            m->factor[2 * column + 1] = (double)pick->class[c].option[i].money_cents;
            m->start[column + 1] = (CoinBigIndex)(2 * (column + 1));
            m->high[column] = 1;
            m->wish[column] = (double)pick->class[c].option[i].mass_100ug;
        }
    }
    m->row_low[pick->classes] = -1e30;
    m->row_high[pick->classes] = (double)pick->most.money_cents;
    return true;
}

bool solve_by_cbc(const pare_pick *pick, double most_s, solved *out)
{
    *out = (solved){0};
    const int count = columns(pick);
    model_arrays m;
    if (!make_arrays(pick, (size_t)count, &m)) {
        free_arrays(&m);
        return false;
    }
    Cbc_Model *model = Cbc_newModel();
    Cbc_loadProblem(model, count, (int)pick->classes + 1, m.start, m.row, m.factor, m.low, m.high,
                    m.wish, m.row_low, m.row_high);
    for (int i = 0; i < count; i++)
        Cbc_setInteger(model, i);
    Cbc_setLogLevel(model, 0);
    Cbc_setAllowableGap(model, 0);
    Cbc_setParameter(model, "ratioGap", "0");
    Cbc_setMaximumSeconds(model, most_s);
    const double from = now_s();
    Cbc_solve(model);
    out->took_s = now_s() - from;
    out->proven = Cbc_isProvenOptimal(model) != 0;
    const double *value = Cbc_getColSolution(model);
    if (value)
        add_up(pick, value, out);
    Cbc_deleteModel(model);
    free_arrays(&m);
    return true;
}
