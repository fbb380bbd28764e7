/* calc_body.c: `pare calc solid | mesh`. */
#include <math.h>
#include <string.h>

#include "cli/calc.h"
#include "physics/printed.h"
#include "physics/solid.h"
#include "store/hull.h"
#include "store/outline.h"
#include "store/stl.h"
#include "store/three_mf.h"

static void add_tensor(pare_answer *answer, const pare_sym3 *i)
{
    pare_answer_add(answer, "ixx_kg_m2", "inertia xx", "kg m2", i->xx);
    pare_answer_add(answer, "iyy_kg_m2", "inertia yy", "kg m2", i->yy);
    pare_answer_add(answer, "izz_kg_m2", "inertia zz", "kg m2", i->zz);
    pare_answer_add(answer, "ixy_kg_m2", "product xy", "kg m2", i->xy);
    pare_answer_add(answer, "ixz_kg_m2", "product xz", "kg m2", i->xz);
    pare_answer_add(answer, "iyz_kg_m2", "product yz", "kg m2", i->yz);
}

enum { SOLID_SHAPE, SOLID_MASS, SOLID_SIZE };
static const key solid_keys[] = {
    [SOLID_SHAPE] = {"shape", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [SOLID_MASS] = {"mass", PARE_DIM_MASS, 0, 25, "0 g .. 25 kg", true, NAN, false},
    [SOLID_SIZE] = {"size", PARE_DIM_LENGTH, 0, 0, "", false, NAN, true},
};

static pare_status shape_named(const char *name, pare_shape *shape, pare_error *err)
{
    const char *names[PARE_SHAPES];
    for (int i = 0; i < PARE_SHAPES; i++) {
        names[i] = pare_shape_name((pare_shape)i);
        if (strcmp(names[i], name) == 0) {
            *shape = (pare_shape)i;
            return PARE_OK;
        }
    }
    const char *near = pare_nearest(name, PARE_SHAPES, names);
    if (near)
        return pare_fail(err, PARE_BAD_DATA, "no shape '%s'; did you mean %s?", name, near);
    return pare_fail(err, PARE_BAD_DATA,
                     "no shape '%s'; there are box, cylinder, tube, cone, sphere, capsule, rod, "
                     "ring, plate and point",
                     name);
}

static pare_status solid_answer(const key_values *given, pare_units *units, pare_answer *answer,
                                pare_error *err)
{
    pare_shape shape = PARE_SHAPE_POINT;
    pare_status status = shape_named(given->text[SOLID_SHAPE], &shape, err);
    if (status != PARE_OK)
        return status;
    double size[3] = {0};
    size_t sizes = 0;
    if (given->given[SOLID_SIZE])
        status = pare_sizes(units, given->text[SOLID_SIZE], PARE_DIM_LENGTH, 3, size, &sizes, err);
    if (status != PARE_OK)
        return pare_within(err, "size");
    if (sizes != pare_shape_sizes(shape))
        return pare_fail(err, PARE_BAD_DATA, "a %s takes %zu sizes (%s), not %zu",
                         pare_shape_name(shape), pare_shape_sizes(shape),
                         pare_shape_size_names(shape), sizes);
    pare_body body;
    status = pare_solid(shape, given->value[SOLID_MASS], size, &body, err);
    if (status != PARE_OK)
        return status;
    pare_answer_add(answer, "ixx_kg_m2", "inertia xx", "kg m2", body.inertia_kg_m2.xx);
    pare_answer_add(answer, "iyy_kg_m2", "inertia yy", "kg m2", body.inertia_kg_m2.yy);
    pare_answer_add(answer, "izz_kg_m2", "inertia zz", "kg m2", body.inertia_kg_m2.zz);
    return PARE_OK;
}

const calc_thing calc_solid = {"solid", sizeof solid_keys / sizeof solid_keys[0], solid_keys,
                               solid_answer};

enum { MESH_FILE, MESH_DENSITY, MESH_UNIT, MESH_WALL, MESH_INFILL };
static const key mesh_keys[] = {
    [MESH_FILE] = {"file", PARE_DIM_NUMBER, 0, 0, "", true, NAN, true},
    [MESH_DENSITY] = {"density", PARE_DIM_DENSITY, 1, 25000, "0.001 g/cm3 .. 25 g/cm3", true, NAN,
                      false},
    [MESH_UNIT] = {"unit", PARE_DIM_LENGTH, 0, 0, "", false, 1e-3, true},
    [MESH_WALL] = {"wall", PARE_DIM_LENGTH, 1e-5, 0.1, "0.01 mm .. 100 mm", false, NAN, false},
    [MESH_INFILL] = {"infill", PARE_DIM_SHARE, 0, 1, "0 % .. 100 %", false, 0.2, false},
};

#define WALL_DEFAULT_M 1.2e-3

/* "unit=mm" names a unit; "unit=2.54 cm" is a length: both say what 1 in the file is. */
static pare_status mesh_unit(const key_values *given, pare_units *units, double *unit_m,
                             pare_error *err)
{
    *unit_m = 1e-3;
    if (!given->given[MESH_UNIT])
        return PARE_OK;
    const char *typed = given->text[MESH_UNIT];
    char one[40] = "1 ";
    if (strlen(typed) > 30)
        return pare_fail(err, PARE_BAD_DATA, "unit=%.30s... is no unit of length", typed);
    const bool starts_with_digit = typed[0] >= '0' && typed[0] <= '9';
    strcat(one, typed);
    const pare_status status =
        pare_quantity(units, starts_with_digit ? typed : one, PARE_DIM_LENGTH, unit_m, err);
    if (status != PARE_OK)
        return pare_within(err, "unit");
    if (!(*unit_m >= 1e-6 && *unit_m <= 1))
        return pare_fail(err, PARE_BAD_DATA, "unit=%s is outside 1 um .. 1 m", typed);
    return PARE_OK;
}

static pare_status mesh_answer(const key_values *given, pare_units *units, pare_answer *answer,
                               pare_error *err)
{
    double unit_m;
    pare_mesh_facts facts;
    const char *file = given->text[MESH_FILE];
    const bool own_unit = pare_name_ends(file, ".3mf");
    if (own_unit && given->given[MESH_UNIT])
        return pare_fail(err, PARE_BAD_DATA,
                         "unit beside a 3MF file, which states its own; right would be no unit");
    pare_status status = mesh_unit(given, units, &unit_m, err);
    if (status == PARE_OK)
        status = own_unit ? pare_three_mf_measure_file(file, &facts, err)
                          : pare_stl_measure(file, unit_m, &facts, err);
    if (status != PARE_OK)
        return status;
    const double density = given->value[MESH_DENSITY];
    const bool printed = given->given[MESH_WALL] || given->given[MESH_INFILL];
    const double wall = given->given[MESH_WALL] ? given->value[MESH_WALL] : WALL_DEFAULT_M;
    const double mass = printed ? pare_printed_kg(facts.volume_m3, facts.area_m2, wall,
                                                  given->value[MESH_INFILL], density)
                                : density * facts.volume_m3;
    const pare_sym3 inertia =
        pare_sym3_times(facts.volume_m3 > 0 ? mass / facts.volume_m3 : 0, facts.inertia_m5);
    const double centre_mm[3] = {1e3 * facts.centre_m.x, 1e3 * facts.centre_m.y,
                                 1e3 * facts.centre_m.z};
    pare_answer_add(answer, "volume_cm3", "volume", "cm3", 1e6 * facts.volume_m3);
    pare_answer_add(answer, "area_cm2", "surface", "cm2", 1e4 * facts.area_m2);
    pare_answer_add(answer, "mass_g", printed ? "mass, printed" : "mass, solid", "g", 1e3 * mass);
    if (printed) {
        const pare_printed apart = pare_printed_of(facts.volume_m3, facts.area_m2, wall,
                                                   given->value[MESH_INFILL], density);
        pare_answer_add(answer, "walls_g", "of it walls", "g", 1e3 * apart.shell_kg);
        pare_answer_add(answer, "infill_g", "of it infill", "g", 1e3 * apart.infill_kg);
        pare_answer_add(answer, "bears_share", "strength a gram, over solid", "", apart.bears);
        pare_answer_add(answer, "stiffens_share", "stiffness a gram, over solid", "",
                        apart.stiffens);
    }
    pare_answer_add_vector(answer, "cg_mm", "centre of mass", "mm", centre_mm);
    add_tensor(answer, &inertia);
    pare_answer_add(answer, "open_edges", "open edges", "", (double)facts.open_edges);
    if (facts.estimated)
        pare_answer_note(answer,
                         "estimated: the mesh is not closed, so volume, centre and inertia are "
                         "those of its %s",
                         facts.estimated == PARE_MESH_BOX ? "bounding box" : "convex hull");
    if (facts.turned_inside_out)
        pare_answer_note(answer, "the mesh was inside out, and was turned");
    if (facts.degenerate > 0)
        pare_answer_note(answer, "%zu triangles without area were left out", facts.degenerate);
    return PARE_OK;
}

const calc_thing calc_mesh = {"mesh", sizeof mesh_keys / sizeof mesh_keys[0], mesh_keys,
                              mesh_answer};
