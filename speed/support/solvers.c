/* solvers.c: GLPK and CBC on one of each class (see solvers.h).
 *
 * One column an option, 0 or 1; one row a class, which adds up to 1; one row for the money and one for each
 * load, without those that nothing limits. Both run with their own defaults, presolving on, and no gap allowed,
 * since the claim is of a proven optimum. */
#include "support/solvers.h"

#include <stdlib.h>

#include <coin/Cbc_C_Interface.h>
#include <glpk.h>

#include "support/clock.h"

static int columns(const pare_pick *pick)
{
    size_t count = 0;
    for (size_t c = 0; c < pick->classes; c++)
        count += pick->class[c].count;
    return (int)count;
}

enum { MOST_LIMITS = 1 + PARE_PICK_LOADS };

/* The limits that hold something back: a row each. */
typedef struct limits {
    size_t count;
    double most[MOST_LIMITS];
    size_t of[MOST_LIMITS]; /* 0: money, then the loads */
} limits;

static limits limits_of(const pare_pick *pick)
{
    const pare_pick_amounts none = pare_pick_no_limit();
    limits found = {0};
    if (pick->most.money_cents < none.money_cents)
        found.most[found.count++] = (double)pick->most.money_cents;
    for (size_t i = 0; i < pick->loads; i++) {
        found.most[found.count] = (double)pick->most.load[i];
        found.of[found.count++] = 1 + i;
    }
    return found;
}

static double amount(const pare_pick_amounts *option, size_t of)
{
    return (double)(of == 0 ? option->money_cents : option->load[of - 1]);
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
                if (out->choice)
                    out->choice[c] = i;
            }
}

bool solve_by_glpk(const pare_pick *pick, double most_s, solved *out)
{
    *out = (solved){.choice = out->choice};
    glp_term_out(GLP_OFF);
    glp_prob *model = glp_create_prob();
    const limits limit = limits_of(pick);
    const int count = columns(pick), classes = (int)pick->classes,
              rows = classes + (int)limit.count;
    double *value = calloc((size_t)count + 1, sizeof *value);
    if (!value) {
        glp_delete_prob(model);
        return false;
    }
    glp_set_obj_dir(model, GLP_MIN);
    glp_add_rows(model, rows);
    glp_add_cols(model, count);
    for (int c = 1; c <= classes; c++)
        glp_set_row_bnds(model, c, GLP_FX, 1, 1);
    for (size_t k = 0; k < limit.count; k++)
        glp_set_row_bnds(model, classes + 1 + (int)k, GLP_UP, 0, limit.most[k]);
    int column = 1;
    for (int c = 0; c < classes; c++)
        for (size_t i = 0; i < pick->class[c].count; i++, column++) {
            const pare_pick_amounts *o = &pick->class[c].option[i];
            int row[2 + MOST_LIMITS] = {0, c + 1};
            double factor[2 + MOST_LIMITS] = {0, 1};
            for (size_t k = 0; k < limit.count; k++) {
                row[2 + k] = classes + 1 + (int)k;
                factor[2 + k] = amount(o, limit.of[k]);
            }
            glp_set_col_kind(model, column, GLP_BV);
            glp_set_obj_coef(model, column, (double)o->mass_100ug);
            glp_set_mat_col(model, column, 1 + (int)limit.count, row, factor);
        }
    glp_iocp how;
    glp_init_iocp(&how);
    how.presolve = GLP_ON;
    how.msg_lev = GLP_MSG_OFF;
    how.tm_lim = (int)(1e3 * most_s);
    const double from = processor_s();
    const int status = glp_intopt(model, &how);
    out->took_s = processor_s() - from;
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
    const limits limit = limits_of(pick);
    const size_t rows = pick->classes + limit.count, each = 1 + limit.count;
    *m = (model_arrays){.start = calloc(count + 1, sizeof *m->start),
                        .row = calloc(each * count, sizeof *m->row),
                        .factor = calloc(each * count, sizeof *m->factor),
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
            m->row[each * column] = (int)c;
            m->factor[each * column] = 1;
            for (size_t k = 0; k < limit.count; k++) {
                m->row[each * column + 1 + k] = (int)(pick->classes + k);
                m->factor[each * column + 1 + k] = amount(&pick->class[c].option[i], limit.of[k]);
            }
            m->start[column + 1] = (CoinBigIndex)(each * (column + 1));
            m->high[column] = 1;
            m->wish[column] = (double)pick->class[c].option[i].mass_100ug;
        }
    }
    for (size_t k = 0; k < limit.count; k++) {
        m->row_low[pick->classes + k] = -1e30;
        m->row_high[pick->classes + k] = limit.most[k];
    }
    return true;
}

bool solve_by_cbc(const pare_pick *pick, double most_s, solved *out)
{
    *out = (solved){.choice = out->choice};
    const int count = columns(pick);
    model_arrays m;
    if (!make_arrays(pick, (size_t)count, &m)) {
        free_arrays(&m);
        return false;
    }
    Cbc_Model *model = Cbc_newModel();
    Cbc_loadProblem(model, count, (int)(pick->classes + limits_of(pick).count), m.start, m.row,
                    m.factor, m.low, m.high, m.wish, m.row_low, m.row_high);
    for (int i = 0; i < count; i++)
        Cbc_setInteger(model, i);
    Cbc_setLogLevel(model, 0);
    Cbc_setAllowableGap(model, 0);
    Cbc_setParameter(model, "ratioGap", "0");
    Cbc_setMaximumSeconds(model, most_s);
    const double from = processor_s();
    Cbc_solve(model);
    out->took_s = processor_s() - from;
    out->proven = Cbc_isProvenOptimal(model) != 0;
    const double *value = Cbc_getColSolution(model);
    if (value)
        add_up(pick, value, out);
    Cbc_deleteModel(model);
    free_arrays(&m);
    return true;
}
