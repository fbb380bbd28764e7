/* solid.c: homogeneous bodies of simple shape, cut plates, and how bodies add up.
 *
 * Every shape is one row of formulas for the second moments of its mass along its own axes, per
 * unit of mass: sxx = integral of x^2 dm / m and so on. All shapes here are symmetric about their
 * own axes, so there are no products, and a moment of inertia is the sum of two second moments.
 * That keeps one rule (Ixx = syy + szz) in one place, where writing Ixx, Iyy and Izz for each shape
 * would say it ten times.
 *
 * A cut plate is integrated over its outline by Green's theorem, from the middle of its bounding
 * box: shoelace sums far from the origin subtract large numbers.
 *
 * Bodies are added about their common centre in two passes, centre first, since moving a sum of
 * tensors from the origin to the centre would subtract large numbers too.
 *
 * Sources: Goldstein, Poole, Safko, Classical Mechanics, 3rd ed., ch. 5 (parallel axes, rotation
 * of the tensor); the formulas of the shapes are textbook closed forms. */
#include "physics/solid.h"

#include <math.h>

#define PI 3.14159265358979323846

static const struct {
    const char *name, *sizes;
    size_t count;
} shapes[PARE_SHAPES] = {
    [PARE_SHAPE_POINT] = {"point", "", 0},
    [PARE_SHAPE_BOX] = {"box", "x, y, z", 3},
    [PARE_SHAPE_CYLINDER] = {"cylinder", "d, h", 2},
    [PARE_SHAPE_TUBE] = {"tube", "od, id, h", 3},
    [PARE_SHAPE_CONE] = {"cone", "d1, d2, h", 3},
    [PARE_SHAPE_CAPSULE] = {"capsule", "d, l", 2},
    [PARE_SHAPE_RING] = {"ring", "d", 1},
    [PARE_SHAPE_SPHERE] = {"sphere", "d", 1},
    [PARE_SHAPE_ROD] = {"rod", "l", 1},
    [PARE_SHAPE_PLATE] = {"plate", "x, y, t", 3},
};

size_t pare_shape_sizes(pare_shape shape)
{
    return shapes[shape].count;
}

const char *pare_shape_name(pare_shape shape)
{
    return shapes[shape].name;
}

const char *pare_shape_size_names(pare_shape shape)
{
    return shapes[shape].sizes;
}

/* Second moments along x, y and z, per unit of mass, about the centre of mass. */
static pare_vec3 second_moments_m2(pare_shape shape, const double s[])
{
    switch (shape) {
    case PARE_SHAPE_BOX:
    case PARE_SHAPE_PLATE:
        return (pare_vec3){s[0] * s[0] / 12, s[1] * s[1] / 12, s[2] * s[2] / 12};
    case PARE_SHAPE_CYLINDER:
        return (pare_vec3){s[0] * s[0] / 16, s[0] * s[0] / 16, s[1] * s[1] / 12};
    case PARE_SHAPE_TUBE: {
        const double across = (s[0] * s[0] + s[1] * s[1]) / 16;
        return (pare_vec3){across, across, s[2] * s[2] / 12};
    }
    case PARE_SHAPE_CONE: {
        /* Ends as shares of the larger, so that their fourth powers neither over- nor underflow. */
        const double d = fmax(s[0], s[1]), a = s[0] / d, b = s[1] / d, h = s[2];
        const double base = a * a + a * b + b * b;
        const double fourth =
            a * a * a * a + a * a * a * b + a * a * b * b + a * b * b * b + b * b * b * b;
        const double across = 3.0 / 80 * d * d * fourth / base;
        const double centre = (a * a + 2 * a * b + 3 * b * b) / (4 * base); /* of h, from below */
        const double along = (a * a + 3 * a * b + 6 * b * b) / (10 * base) - centre * centre;
        return (pare_vec3){across, across, h * h * along};
    }
    case PARE_SHAPE_CAPSULE: {
        const double r = s[0] / 2, l = s[1], whole = l + 4 * r / 3;
        const double shaft = whole > 0 ? l / whole : 0, caps = 1 - shaft;
        const double across = shaft * r * r / 4 + caps * r * r / 5;
        const double along = shaft * l * l / 12 + caps * (r * r / 5 + l * l / 4 + 3 * l * r / 8);
        return (pare_vec3){across, across, along};
    }
    case PARE_SHAPE_RING:
        return (pare_vec3){s[0] * s[0] / 8, s[0] * s[0] / 8, 0};
    case PARE_SHAPE_SPHERE:
        return (pare_vec3){s[0] * s[0] / 20, s[0] * s[0] / 20, s[0] * s[0] / 20};
    case PARE_SHAPE_ROD:
        return (pare_vec3){s[0] * s[0] / 12, 0, 0};
    case PARE_SHAPE_POINT:
    case PARE_SHAPES:
        break;
    }
    return (pare_vec3){0, 0, 0};
}

static pare_sym3 inertia_of_moments(double mass_kg, pare_vec3 second_m2)
{
    return (pare_sym3){.xx = mass_kg * (second_m2.y + second_m2.z),
                       .yy = mass_kg * (second_m2.x + second_m2.z),
                       .zz = mass_kg * (second_m2.x + second_m2.y)};
}

static int all_finite(const pare_sym3 *s)
{
    return isfinite(s->xx) && isfinite(s->yy) && isfinite(s->zz) && isfinite(s->xy) &&
           isfinite(s->xz) && isfinite(s->yz);
}

static pare_status check_mass(const char *what, double mass_kg, pare_error *err)
{
    if (!(isfinite(mass_kg) && mass_kg >= 0))
        return pare_fail(err, PARE_BAD_DATA, "%s of %g kg: a mass is 0 or more, and finite", what,
                         mass_kg);
    return PARE_OK;
}

static pare_status check_sizes(pare_shape shape, const double size_m[], pare_error *err)
{
    for (size_t i = 0; i < shapes[shape].count; i++)
        if (!(isfinite(size_m[i]) && size_m[i] >= 0))
            return pare_fail(err, PARE_BAD_DATA,
                             "%s: size %zu of (%s) is %g m; each is 0 or more, and finite",
                             shapes[shape].name, i + 1, shapes[shape].sizes, size_m[i]);
    if (shape == PARE_SHAPE_TUBE && !(size_m[0] > size_m[1]))
        return pare_fail(err, PARE_BAD_DATA,
                         "tube: od %g m must be greater than id %g m; sizes are od, id, h",
                         size_m[0], size_m[1]);
    if (shape == PARE_SHAPE_CONE && !(size_m[0] > 0 || size_m[1] > 0))
        return pare_fail(err, PARE_BAD_DATA, "cone: d1 and d2 are both 0; one must be greater");
    return PARE_OK;
}

pare_status pare_solid(pare_shape shape, double mass_kg, const double size_m[], pare_body *body,
                       pare_error *err)
{
    if (check_mass(shapes[shape].name, mass_kg, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (check_sizes(shape, size_m, err) != PARE_OK)
        return PARE_BAD_DATA;
    const pare_sym3 inertia = inertia_of_moments(mass_kg, second_moments_m2(shape, size_m));
    if (!all_finite(&inertia))
        return pare_fail(err, PARE_BAD_DATA, "%s: too large for its inertia to be a number",
                         shapes[shape].name);
    *body = (pare_body){.mass_kg = mass_kg, .inertia_kg_m2 = inertia};
    return PARE_OK;
}

double pare_solid_volume_m3(pare_shape shape, const double s[])
{
    switch (shape) {
    case PARE_SHAPE_BOX:
    case PARE_SHAPE_PLATE:
        return s[0] * s[1] * s[2];
    case PARE_SHAPE_CYLINDER:
        return PI / 4 * s[0] * s[0] * s[1];
    case PARE_SHAPE_TUBE:
        return PI / 4 * (s[0] + s[1]) * (s[0] - s[1]) * s[2];
    case PARE_SHAPE_CONE:
        return PI / 12 * (s[0] * s[0] + s[0] * s[1] + s[1] * s[1]) * s[2];
    case PARE_SHAPE_CAPSULE:
        return PI / 4 * s[0] * s[0] * (s[1] + 2 * s[0] / 3);
    case PARE_SHAPE_SPHERE:
        return PI / 6 * s[0] * s[0] * s[0];
    case PARE_SHAPE_RING:
    case PARE_SHAPE_ROD:
    case PARE_SHAPE_POINT:
    case PARE_SHAPES:
        break;
    }
    return 0;
}

pare_status pare_gyration(double mass_kg, pare_vec3 radius_m, pare_body *body, pare_error *err)
{
    if (check_mass("point", mass_kg, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double xx = radius_m.x * radius_m.x, yy = radius_m.y * radius_m.y,
                 zz = radius_m.z * radius_m.z;
    const double slack = 1e-12 * (xx + yy + zz);
    /* Moments that break the triangle rule belong to no distribution of mass. */
    if (!(isfinite(mass_kg * (xx + yy + zz)) && radius_m.x >= 0 && radius_m.y >= 0 &&
          radius_m.z >= 0 && xx <= yy + zz + slack && yy <= xx + zz + slack &&
          zz <= xx + yy + slack))
        return pare_fail(err, PARE_BAD_DATA,
                         "radii of gyration %g, %g, %g m: each must be 0 or more, and its square "
                         "at most the sum of the squares of the other two",
                         radius_m.x, radius_m.y, radius_m.z);
    *body =
        (pare_body){.mass_kg = mass_kg,
                    .inertia_kg_m2 = {.xx = mass_kg * xx, .yy = mass_kg * yy, .zz = mass_kg * zz}};
    return PARE_OK;
}

/* Integrals of 1, x, y, x^2, y^2 and xy over an outline, about a point; positive area. */
typedef struct area_moments {
    double area, x, y, xx, yy, xy;
} area_moments;

static area_moments outline_moments(const pare_outline *outline, double x0, double y0)
{
    area_moments sum = {0};
    for (size_t i = 0; i < outline->points; i++) {
        const double *p = outline->at_m[i], *q = outline->at_m[(i + 1) % outline->points];
        const double ax = p[0] - x0, ay = p[1] - y0, bx = q[0] - x0, by = q[1] - y0;
        const double cross = ax * by - bx * ay;
        sum.area += cross / 2;
        sum.x += cross * (ax + bx) / 6;
        sum.y += cross * (ay + by) / 6;
        sum.xx += cross * (ax * ax + ax * bx + bx * bx) / 12;
        sum.yy += cross * (ay * ay + ay * by + by * by) / 12;
        sum.xy += cross * (ax * by + 2 * ax * ay + 2 * bx * by + bx * ay) / 24;
    }
    if (sum.area < 0)
        sum = (area_moments){-sum.area, -sum.x, -sum.y, -sum.xx, -sum.yy, -sum.xy};
    return sum;
}

static int inside(const pare_outline *outline, double x, double y)
{
    int in = 0;
    for (size_t i = 0; i < outline->points; i++) {
        const double *p = outline->at_m[i], *q = outline->at_m[(i + 1) % outline->points];
        if ((p[1] > y) != (q[1] > y) && x < p[0] + (y - p[1]) / (q[1] - p[1]) * (q[0] - p[0]))
            in = !in;
    }
    return in;
}

static pare_status check_outline(const char *what, size_t number, const pare_outline *outline,
                                 pare_error *err)
{
    if (outline->points < 3)
        return pare_fail(err, PARE_BAD_DATA, "%s %zu has %zu points; an outline needs 3 or more",
                         what, number, outline->points);
    for (size_t i = 0; i < outline->points; i++)
        for (int axis = 0; axis < 2; axis++)
            if (!(fabs(outline->at_m[i][axis]) <= PARE_SOLID_MOST_M))
                return pare_fail(err, PARE_BAD_DATA,
                                 "%s %zu, point %zu: %g m; a place is finite and within %g m", what,
                                 number, i + 1, outline->at_m[i][axis], PARE_SOLID_MOST_M);
    return PARE_OK;
}

pare_status pare_plate(const pare_outline *outer, size_t holes, const pare_outline hole[],
                       double thick_m, double density_kg_m3, pare_body *body, pare_error *err)
{
    if (!(isfinite(thick_m) && thick_m >= 0))
        return pare_fail(err, PARE_BAD_DATA, "plate of thickness %g m; it is 0 or more", thick_m);
    if (!(isfinite(density_kg_m3) && density_kg_m3 >= 0))
        return pare_fail(err, PARE_BAD_DATA, "plate of density %g kg/m3; it is 0 or more",
                         density_kg_m3);
    if (check_outline("outline", 1, outer, err) != PARE_OK)
        return PARE_BAD_DATA;
    double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY};
    for (size_t i = 0; i < outer->points; i++)
        for (int axis = 0; axis < 2; axis++) {
            low[axis] = fmin(low[axis], outer->at_m[i][axis]);
            high[axis] = fmax(high[axis], outer->at_m[i][axis]);
        }
    const double x0 = (low[0] + high[0]) / 2, y0 = (low[1] + high[1]) / 2;
    const double box_m2 = (high[0] - low[0]) * (high[1] - low[1]);
    area_moments sum = outline_moments(outer, x0, y0);
    if (!(sum.area > 1e-12 * box_m2))
        return pare_fail(err, PARE_BAD_DATA, "outline 1 encloses no area");
    const double whole_m2 = sum.area;
    for (size_t k = 0; k < holes; k++) {
        if (check_outline("hole", k + 1, &hole[k], err) != PARE_OK)
            return PARE_BAD_DATA;
        for (size_t i = 0; i < hole[k].points; i++)
            if (!inside(outer, hole[k].at_m[i][0], hole[k].at_m[i][1]))
                return pare_fail(err, PARE_BAD_DATA,
                                 "hole %zu, point %zu (%g, %g) m lies outside the plate", k + 1,
                                 i + 1, hole[k].at_m[i][0], hole[k].at_m[i][1]);
        const area_moments cut = outline_moments(&hole[k], x0, y0);
        sum = (area_moments){sum.area - cut.area, sum.x - cut.x,   sum.y - cut.y,
                             sum.xx - cut.xx,     sum.yy - cut.yy, sum.xy - cut.xy};
    }
    if (!(sum.area > 1e-12 * whole_m2))
        return pare_fail(err, PARE_BAD_DATA, "the holes leave nothing of the plate: they overlap");
    const double cx = sum.x / sum.area, cy = sum.y / sum.area, sheet = density_kg_m3 * thick_m;
    const double xx = sum.xx - sum.area * cx * cx, yy = sum.yy - sum.area * cy * cy,
                 xy = sum.xy - sum.area * cx * cy, zz = sum.area * thick_m * thick_m / 12;
    const pare_sym3 inertia = {.xx = sheet * (yy + zz),
                               .yy = sheet * (xx + zz),
                               .zz = sheet * (xx + yy),
                               .xy = -sheet * xy};
    if (!all_finite(&inertia))
        return pare_fail(err, PARE_BAD_DATA, "plate too large for its inertia to be a number");
    *body = (pare_body){
        .mass_kg = sheet * sum.area, .at_m = {x0 + cx, y0 + cy, 0}, .inertia_kg_m2 = inertia};
    return PARE_OK;
}

pare_mat3 pare_turn_zyx(double z_rad, double y_rad, double x_rad)
{
    const double cz = cos(z_rad), sz = sin(z_rad), cy = cos(y_rad), sy = sin(y_rad),
                 cx = cos(x_rad), sx = sin(x_rad);
    return (pare_mat3){{{cz * cy, cz * sy * sx - sz * cx, cz * sy * cx + sz * sx},
                        {sz * cy, sz * sy * sx + cz * cx, sz * sy * cx - cz * sx},
                        {-sy, cy * sx, cy * cx}}};
}

static pare_vec3 turned(const pare_mat3 *turn, pare_vec3 v)
{
    const double(*m)[3] = turn->m;
    return (pare_vec3){m[0][0] * v.x + m[0][1] * v.y + m[0][2] * v.z,
                       m[1][0] * v.x + m[1][1] * v.y + m[1][2] * v.z,
                       m[2][0] * v.x + m[2][1] * v.y + m[2][2] * v.z};
}

pare_body pare_body_moved(const pare_body *body, const pare_mat3 *turn, pare_vec3 by_m)
{
    if (!turn)
        return (pare_body){body->mass_kg, pare_vec3_add(body->at_m, by_m), body->inertia_kg_m2};
    /* R I R^T: the rows of R I are I turned onto each row of R, since I is symmetric. */
    const pare_sym3 *s = &body->inertia_kg_m2;
    const pare_mat3 tensor = {
        {{s->xx, s->xy, s->xz}, {s->xy, s->yy, s->yz}, {s->xz, s->yz, s->zz}}};
    pare_vec3 row[3], on[3];
    for (int i = 0; i < 3; i++) {
        row[i] = (pare_vec3){turn->m[i][0], turn->m[i][1], turn->m[i][2]};
        on[i] = turned(&tensor, row[i]);
    }
    return (pare_body){.mass_kg = body->mass_kg,
                       .at_m = pare_vec3_add(turned(turn, body->at_m), by_m),
                       .inertia_kg_m2 = {.xx = pare_vec3_dot(row[0], on[0]),
                                         .yy = pare_vec3_dot(row[1], on[1]),
                                         .zz = pare_vec3_dot(row[2], on[2]),
                                         .xy = pare_vec3_dot(row[0], on[1]),
                                         .xz = pare_vec3_dot(row[0], on[2]),
                                         .yz = pare_vec3_dot(row[1], on[2])}};
}

pare_body pare_body_sum(size_t count, const pare_body bodies[])
{
    pare_body sum = {0};
    for (size_t i = 0; i < count; i++) {
        sum.mass_kg += bodies[i].mass_kg;
        sum.at_m = pare_vec3_add(sum.at_m, pare_vec3_times(bodies[i].mass_kg, bodies[i].at_m));
    }
    if (sum.mass_kg == 0) /* weightless bodies have no centre to prefer to the origin */
        sum.at_m = (pare_vec3){0, 0, 0};
    else
        sum.at_m = pare_vec3_times(1 / sum.mass_kg, sum.at_m);
    for (size_t i = 0; i < count; i++) {
        const double m = bodies[i].mass_kg;
        const pare_vec3 r = pare_vec3_less(bodies[i].at_m, sum.at_m);
        const pare_sym3 steiner = {m * (r.y * r.y + r.z * r.z),
                                   m * (r.x * r.x + r.z * r.z),
                                   m * (r.x * r.x + r.y * r.y),
                                   -m * r.x * r.y,
                                   -m * r.x * r.z,
                                   -m * r.y * r.z};
        sum.inertia_kg_m2 =
            pare_sym3_add(sum.inertia_kg_m2, pare_sym3_add(bodies[i].inertia_kg_m2, steiner));
    }
    return sum;
}

double pare_printed_kg(double volume_m3, double area_m2, double wall_m, double infill,
                       double density_kg_m3)
{
    const double shell_m3 = fmin(area_m2 * wall_m, volume_m3);
    return density_kg_m3 * (shell_m3 + infill * (volume_m3 - shell_m3));
}
