/* laminate.c: classical laminate theory for a symmetric stack (see laminate.h).
 *
 * Each layer's stiffness is turned into the plate's axes; their sum resists pulling, their sum weighed by
 * the square of the distance from the middle resists bending. A strip that is free at its edges has
 * the stiffness 1/a11 of the inverse, not A11: it narrows as it is pulled and curls as it is bent. */
#include "physics/laminate.h"

#include <math.h>

#define ALIKE_RAD 1e-9

static double square(double x)
{
    return x * x;
}

double pare_ply_modulus_pa(const pare_ply *ply, double angle_rad)
{
    const double c2 = square(cos(angle_rad)), s2 = square(sin(angle_rad));
    return 1 / (c2 * c2 / ply->along_pa + s2 * s2 / ply->across_pa +
                c2 * s2 * (1 / ply->shear_pa - 2 * ply->poisson / ply->along_pa));
}

double pare_ply_shear_pa(const pare_ply *ply, double angle_rad)
{
    const double c2 = square(cos(angle_rad)), s2 = square(sin(angle_rad));
    return 1 / (2 * c2 * s2 *
                    (2 / ply->along_pa + 2 / ply->across_pa + 4 * ply->poisson / ply->along_pa -
                     1 / ply->shear_pa) +
                (square(c2) + square(s2)) / ply->shear_pa);
}

/* Stiffness in plane stress: 11, 12, 22, 16, 26, 66. */
enum { Q11, Q12, Q22, Q16, Q26, Q66, QS };

static void turned(const pare_ply *ply, double angle_rad, double q[QS])
{
    const double minor = ply->poisson * ply->across_pa / ply->along_pa;
    const double by = 1 - ply->poisson * minor;
    const double a = ply->along_pa / by, b = ply->across_pa / by, m = ply->poisson * b;
    const double g = ply->shear_pa, c = cos(angle_rad), s = sin(angle_rad);
    const double c2 = c * c, s2 = s * s, k = m + 2 * g;
    q[Q11] = a * c2 * c2 + 2 * k * c2 * s2 + b * s2 * s2;
    q[Q22] = a * s2 * s2 + 2 * k * c2 * s2 + b * c2 * c2;
    q[Q12] = (a + b - 4 * g) * c2 * s2 + m * (c2 * c2 + s2 * s2);
    q[Q66] = (a + b - 2 * m - 2 * g) * c2 * s2 + g * (c2 * c2 + s2 * s2);
    q[Q16] = (a - k) * c2 * c * s - (b - k) * c * s2 * s;
    q[Q26] = (a - k) * c * s2 * s - (b - k) * c2 * c * s;
}

/* 1 over the first entry of the inverse of a symmetric 3x3. */
static double free_stiffness(const double q[QS])
{
    const double minor = q[Q22] * q[Q66] - q[Q26] * q[Q26];
    const double whole = q[Q11] * minor - q[Q12] * (q[Q12] * q[Q66] - q[Q26] * q[Q16]) +
                         q[Q16] * (q[Q12] * q[Q26] - q[Q22] * q[Q16]);
    return whole / minor;
}

static pare_status check(const pare_ply *ply, size_t count, const double angle_rad[],
                         pare_error *err)
{
    if (count < 1 || count > PARE_PLIES)
        return pare_fail(err, PARE_BAD_DATA, "%zu layers: 1 to %d would be right", count,
                         PARE_PLIES);
    const double moduli[] = {ply->along_pa, ply->across_pa, ply->shear_pa};
    for (size_t i = 0; i < sizeof moduli / sizeof moduli[0]; i++)
        if (!(moduli[i] >= 1e6 && moduli[i] <= 1e12))
            return pare_fail(err, PARE_BAD_DATA,
                             "a layer's modulus %g GPa: 0.001 to 1000 GPa would be right",
                             1e-9 * moduli[i]);
    /* What a layer stores in any strain must be more than 0. */
    if (!(ply->poisson >= 0 && square(ply->poisson) < ply->along_pa / ply->across_pa))
        return pare_fail(err, PARE_BAD_DATA,
                         "a layer's Poisson's ratio %g: 0 to under %.3g would be right",
                         ply->poisson, sqrt(ply->along_pa / ply->across_pa));
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(angle_rad[i]))
            return pare_fail(err, PARE_BAD_DATA, "layer %zu has no angle", i + 1);
        if (fabs(angle_rad[i] - angle_rad[count - 1 - i]) > ALIKE_RAD)
            return pare_fail(err, PARE_BAD_DATA,
                             "layer %zu lies at %g deg, its mate from the bottom at %g deg: the "
                             "same both ways would be right, or the plate warps",
                             i + 1, 57.29577951308232 * angle_rad[i],
                             57.29577951308232 * angle_rad[count - 1 - i]);
    }
    return PARE_OK;
}

pare_status pare_laminate_work_out(const pare_ply *ply, size_t count, const double angle_rad[],
                                   pare_laminate *laminate, pare_error *err)
{
    if (check(ply, count, angle_rad, err) != PARE_OK)
        return PARE_BAD_DATA;
    double pulled[QS] = {0}, bent[QS] = {0};
    const double layers = (double)count;
    for (size_t i = 0; i < count; i++) {
        double q[QS];
        turned(ply, angle_rad[i], q);
        /* From the middle, in halves of the plate's thickness: a third of the cubes' difference. */
        const double top = 1 - 2 * (double)i / layers, bottom = top - 2 / layers;
        for (int k = 0; k < QS; k++) {
            pulled[k] += q[k] / layers;
            bent[k] += q[k] * (top * top * top - bottom * bottom * bottom) / 2;
        }
    }
    *laminate = (pare_laminate){free_stiffness(pulled), free_stiffness(bent)};
    return PARE_OK;
}
