/* body.c: one part as a body (see body.h). */
#include "craft/body.h"

#include <math.h>

#define ROD_AREA_M2 1e-6 /* gives shapes without volume a weight among others */

/* A zero-initialised turn means "not turned": then NULL. */
static const pare_mat3 *turn_if_any(const pare_mat3 *turn)
{
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            if (turn->m[i][j] != 0)
                return turn;
    return NULL;
}

static pare_body added(const pare_body *sum, const pare_body *more)
{
    const pare_body two[2] = {*sum, *more};
    return pare_body_sum(2, two);
}

/* A bar along x, or a tube turned there from its own axis z. */
static pare_status arm_along_x(const pare_piece *piece, double length, pare_body *arm,
                               pare_error *err)
{
    const double mass = length * pare_piece_arm_m2(piece) * piece->density_kg_m3;
    if (!piece->tube) {
        const double size[3] = {length, piece->section_m[0], piece->section_m[1]};
        return pare_solid(PARE_SHAPE_BOX, mass, size, arm, err);
    }
    const double outside = piece->section_m[0];
    const double size[3] = {outside, outside - 2 * piece->section_m[1], length};
    const pare_mat3 down = pare_turn_zyx(0, acos(0), 0);
    const pare_status status = pare_solid(PARE_SHAPE_TUBE, mass, size, arm, err);
    if (status == PARE_OK)
        *arm = pare_body_moved(arm, &down, (pare_vec3){0, 0, 0});
    return status;
}

/* One arm: from where it leaves the body to the motor's axis. */
static pare_status arm_body(const pare_piece *piece, pare_vec3 tip, pare_body *body,
                            pare_error *err)
{
    const double reach = sqrt(tip.x * tip.x + tip.y * tip.y);
    const double length = reach - piece->root_m;
    if (!(length > 0))
        return pare_fail(err, PARE_BAD_DATA,
                         "an arm's root at %g mm lies beyond its motor at %g mm",
                         1e3 * piece->root_m, 1e3 * reach);
    pare_body bar;
    if (arm_along_x(piece, length, &bar, err) != PARE_OK)
        return err ? err->status : PARE_BAD_DATA;
    const pare_mat3 along = pare_turn_zyx(atan2(tip.y, tip.x), 0, 0);
    const double middle = (piece->root_m + length / 2) / reach;
    const pare_vec3 at = {tip.x * middle, tip.y * middle, tip.z - pare_piece_arm_deep_m(piece) / 2};
    *body = pare_body_moved(&bar, &along, at);
    return PARE_OK;
}

static pare_status shape_body(const pare_piece *piece, pare_body *body, pare_error *err)
{
    double volume = pare_solid_volume_m3(piece->shape, piece->size_m);
    if (!(volume > 0))
        volume = piece->size_m[0] * ROD_AREA_M2;
    return pare_solid(piece->shape, volume * piece->density_kg_m3, piece->size_m, body, err);
}

/* A mesh, or a plate cut to an outline. */
static void measured_body(const pare_piece *piece, pare_body *body)
{
    const pare_mesh_facts *facts = &piece->mesh;
    *body = (pare_body){facts->volume_m3 * piece->density_kg_m3, facts->centre_m,
                        pare_sym3_times(piece->density_kg_m3, facts->inertia_m5)};
}

static pare_status piece_body(const pare_piece *piece, size_t place, pare_body *body,
                              pare_error *err)
{
    const pare_vec3 at = piece->at_m ? piece->at_m[place] : (pare_vec3){0, 0, 0};
    if (piece->form == PARE_FORM_ARMS)
        return arm_body(piece, at, body, err);
    pare_body own = {0};
    if (piece->measured) {
        measured_body(piece, &own);
    } else if (piece->form != PARE_FORM_MESH) {
        const pare_status status = shape_body(piece, &own, err);
        if (status != PARE_OK)
            return status;
    }
    *body = pare_body_moved(&own, turn_if_any(&piece->turn), at);
    return PARE_OK;
}

pare_status pare_part_body(const pare_part *part, const pare_mat3 *turn, pare_body *body,
                           pare_error *err)
{
    pare_body sum = {0};
    for (size_t i = 0; i < part->pieces; i++) {
        const pare_piece *piece = &part->piece[i];
        for (size_t place = 0; place < (piece->places ? piece->places : 1); place++) {
            pare_body one = {0};
            const pare_status status = piece_body(piece, place, &one, err);
            if (status != PARE_OK)
                return pare_within(err, "part '%s'", part->id);
            if (one.mass_kg > 0)
                sum = added(&sum, &one);
        }
    }
    if (!(sum.mass_kg > 0)) {
        *body = (pare_body){.mass_kg = 1};
        return PARE_OK;
    }
    sum.inertia_kg_m2 = pare_sym3_times(1 / sum.mass_kg, sum.inertia_kg_m2);
    sum.mass_kg = 1;
    *body = pare_body_moved(&sum, turn_if_any(turn), (pare_vec3){0, 0, 0});
    return PARE_OK;
}
