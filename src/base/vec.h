/* vec.h: small values of three dimensions, passed by value.
 *
 * Axes are ISO 8855's: x forward, y left, z up. */
#ifndef PARE_BASE_VEC_H
#define PARE_BASE_VEC_H

typedef struct pare_vec3 {
    double x, y, z;
} pare_vec3;

/** A symmetric tensor; for inertia the products are -sum(m x y). */
typedef struct pare_sym3 {
    double xx, yy, zz, xy, xz, yz;
} pare_sym3;

/** A matrix by rows; as a rotation it turns body axes into craft axes. */
typedef struct pare_mat3 {
    double m[3][3];
} pare_mat3;

static inline pare_vec3 pare_vec3_add(pare_vec3 a, pare_vec3 b)
{
    return (pare_vec3){a.x + b.x, a.y + b.y, a.z + b.z};
}

static inline pare_vec3 pare_vec3_less(pare_vec3 a, pare_vec3 b)
{
    return (pare_vec3){a.x - b.x, a.y - b.y, a.z - b.z};
}

static inline pare_vec3 pare_vec3_times(double s, pare_vec3 a)
{
    return (pare_vec3){s * a.x, s * a.y, s * a.z};
}

static inline double pare_vec3_dot(pare_vec3 a, pare_vec3 b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline pare_sym3 pare_sym3_add(pare_sym3 a, pare_sym3 b)
{
    return (pare_sym3){a.xx + b.xx, a.yy + b.yy, a.zz + b.zz,
                       a.xy + b.xy, a.xz + b.xz, a.yz + b.yz};
}

static inline pare_sym3 pare_sym3_times(double s, pare_sym3 a)
{
    return (pare_sym3){s * a.xx, s * a.yy, s * a.zz, s * a.xy, s * a.xz, s * a.yz};
}

#endif
