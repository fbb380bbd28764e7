/* normal.c: Cholesky's method, row by row (see normal.h).
 * Source: Golub and Van Loan, Matrix Computations, 4th ed., sec. 4.2 (from memory). */
#include "physics/normal.h"

#include <math.h>

void pare_normal_add(pare_normal *normal, const double slope[], double value, double weight)
{
    for (size_t i = 0; i < normal->n; i++) {
        const double weighted = weight * slope[i];
        normal->b[i] += weighted * value;
        for (size_t j = 0; j < normal->n; j++)
            normal->a[i][j] += weighted * slope[j];
    }
}

bool pare_cholesky(size_t n, const double a[PARE_UNKNOWNS][PARE_UNKNOWNS],
                   double root[PARE_UNKNOWNS][PARE_UNKNOWNS])
{
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j <= i; j++) {
            double left = a[i][j];
            for (size_t k = 0; k < j; k++)
                left -= root[i][k] * root[j][k];
            if (j < i)
                root[i][j] = left / root[j][j];
            else if (left > 0 && isfinite(left))
                root[i][i] = sqrt(left);
            else
                return false;
        }
    return true;
}

void pare_cholesky_solve(size_t n, const double root[PARE_UNKNOWNS][PARE_UNKNOWNS],
                         const double b[], double x[])
{
    for (size_t i = 0; i < n; i++) {
        double left = b[i];
        for (size_t k = 0; k < i; k++)
            left -= root[i][k] * x[k];
        x[i] = left / root[i][i];
    }
    for (size_t i = n; i-- > 0;) {
        double left = x[i];
        for (size_t k = i + 1; k < n; k++)
            left -= root[k][i] * x[k];
        x[i] = left / root[i][i];
    }
}

void pare_cholesky_inverse(size_t n, const double root[PARE_UNKNOWNS][PARE_UNKNOWNS],
                           double inverse[PARE_UNKNOWNS][PARE_UNKNOWNS])
{
    for (size_t i = 0; i < n; i++) {
        double column[PARE_UNKNOWNS] = {0};
        column[i] = 1;
        pare_cholesky_solve(n, root, column, column);
        for (size_t j = 0; j < n; j++)
            inverse[j][i] = column[j];
    }
}
