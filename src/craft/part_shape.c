/* part_shape.c: what a part's pieces weigh, and the usual body of a part that nobody described.
 *
 * A usual body only has to put the grams where they sit: a craft's inertia comes from stations first
 * and from bodies second, so a right size with a homogeneous filling does. Densities and proportions
 * are [E], our estimates from parts of the kind (common practice, no source). Bodies are centred on
 * the station, as a body whose place was not said is. */
#include "craft/part_inside.h"

#include <math.h>

#include "craft/law.h"

#define CARBON_KG_M3  1600.0
#define PRINTED_KG_M3 1210.0 /* flexible or rigid, between 1.17 and 1.27 */

static const double pi = 3.14159265358979323846;

double pare_piece_arm_deep_m(const pare_piece *arms)
{
    return arms->tube ? arms->section_m[0] : arms->section_m[1];
}

double pare_piece_arm_m2(const pare_piece *arms)
{
    const double wide = arms->section_m[0], thick = arms->section_m[1];
    return arms->tube ? pi * thick * (wide - thick) : wide * thick;
}

static double arms_m3(const pare_piece *piece)
{
    double length_m = 0;
    for (size_t i = 0; i < piece->places; i++)
        length_m += hypot(piece->at_m[i].x, piece->at_m[i].y) - piece->root_m;
    return length_m * pare_piece_arm_m2(piece);
}

/* kg, or a negative number where it is not known. */
static double piece_kg(const pare_piece *piece)
{
    const double places = piece->places ? (double)piece->places : 1;
    const double said = piece->density_kg_m3;
    switch (piece->form) {
    case PARE_FORM_ARMS:
        return arms_m3(piece) * (said > 0 ? said : CARBON_KG_M3);
    case PARE_FORM_MESH:
        if (!piece->measured)
            return -1;
        if (!(piece->wall_m > 0))
            return places * piece->mesh.volume_m3 * (said > 0 ? said : PRINTED_KG_M3);
        return places * pare_printed_kg(piece->mesh.volume_m3, piece->mesh.area_m2, piece->wall_m,
                                        piece->infill, said > 0 ? said : PRINTED_KG_M3);
    case PARE_FORM_PLATE: {
        if (piece->file && !piece->measured)
            return -1; /* its size only stands in for an outline */
        const double volume = piece->measured ? piece->mesh.volume_m3
                                              : pare_solid_volume_m3(PARE_SHAPE_BOX, piece->size_m);
        return volume > 0 ? places * volume * (said > 0 ? said : CARBON_KG_M3) : -1;
    }
    case PARE_FORM_SHAPE: {
        const double volume = pare_solid_volume_m3(piece->shape, piece->size_m);
        return volume > 0 && said > 0 ? places * volume * said : -1;
    }
    }
    return -1;
}

/* Of one material throughout. A motor, a pack or a board is not: its shape says where the grams sit,
 * never how many there are. */
static bool homogeneous(pare_kind kind)
{
    switch (kind) {
    case PARE_FRAME:
    case PARE_STANDOFF:
    case PARE_HOLDER:
    case PARE_PAD:
    case PARE_TIE:
    case PARE_BUMPER:
    case PARE_PRINTED:
    case PARE_OTHER:
        return true;
    default:
        return false;
    }
}

bool pare_pieces_weigh(const pare_part *part, pare_value *mass_kg)
{
    if (!homogeneous(part->kind))
        return false;
    double total = 0, share = 0.08; /* walls, infill, cut edges and countersinks [E] */
    bool open = false;
    for (size_t i = 0; i < part->pieces; i++) {
        const pare_piece *piece = &part->piece[i];
        const double kg = piece_kg(piece);
        if (!(kg > 0))
            return false;
        total += kg;
        if (piece->form == PARE_FORM_MESH && piece->mesh.estimated)
            open = true;
        else if (piece->form == PARE_FORM_MESH && !(piece->density_kg_m3 > 0))
            share = fmax(share, 0.10);
    }
    if (open)
        share = 0.25; /* a convex hull is the most it can be [E] */
    *mass_kg = (pare_value){total, share * total, open ? PARE_ESTIMATED : PARE_COMPUTED, false};
    return part->pieces > 0;
}

static const pare_mat3 not_turned = {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
static const pare_vec3 origin = {0, 0, 0};

static pare_piece shape(pare_shape form, double x, double y, double z)
{
    return (pare_piece){
        .form = PARE_FORM_SHAPE,
        .shape = form,
        .size_m = {x, y, z},
        .density_kg_m3 = 1000,
        .places = 1,
        .at_m = &origin,
        .turn = not_turned,
    };
}

/* A box of given proportions that holds the mass at a density. */
static pare_piece box_of(double mass_kg, double density_kg_m3, double x, double y, double z)
{
    const double scale = cbrt(mass_kg / density_kg_m3 / (x * y * z));
    return shape(PARE_SHAPE_BOX, scale * x, scale * y, scale * z);
}

static pare_piece ball_of(double mass_kg, double density_kg_m3)
{
    return shape(PARE_SHAPE_SPHERE, cbrt(6 / pi * mass_kg / density_kg_m3), 0, 0);
}

/* Holes to edge 3 mm each side; 5 mm high with what is soldered on. */
static pare_piece board(const pare_part *part)
{
    const double stack_m = pare_fit_largest(&part->fit[PARE_FIT_STACK]);
    if (!(stack_m > 0))
        return box_of(part->mass_kg.value, 2000, 36, 36, 5);
    return shape(PARE_SHAPE_BOX, stack_m + 6e-3, stack_m + 6e-3, 5e-3);
}

static pare_piece one_piece(const pare_part *part)
{
    const double kg = part->mass_kg.value;
    const pare_value *spec = part->spec;
    switch (part->kind) {
    case PARE_MOTOR:
        return shape(PARE_SHAPE_CYLINDER,
                     pare_law_motor_outer_m(spec[PARE_SPEC_STATOR_DIAMETER].value),
                     pare_law_motor_height_m(spec[PARE_SPEC_STATOR_LENGTH].value), 0);
    case PARE_PROPELLER:
        /* A ring turns like the disc that a turning propeller is: 0.29 m R^2 about its axis, half of
         * that across. */
        return shape(PARE_SHAPE_RING, sqrt(0.29) * spec[PARE_SPEC_DIAMETER].value, 0, 0);
    case PARE_PACK:
        return box_of(kg, 2200, 75, 36, 31);
    case PARE_ESC_ONE:
        return box_of(kg, 2000, 30, 14, 5);
    case PARE_ESC_FOUR:
    case PARE_FLIGHT_CONTROLLER:
    case PARE_CONTROLLER_WITH_ESC:
        return board(part);
    case PARE_VIDEO_TRANSMITTER:
    case PARE_REGULATOR:
    case PARE_RECEIVER:
        return part->fit[PARE_FIT_STACK].count > 0 ? board(part) : box_of(kg, 2000, 25, 18, 5);
    case PARE_CAMERA: {
        const double width_m = pare_fit_largest(&part->fit[PARE_FIT_CAMERA]);
        return width_m > 0 ? shape(PARE_SHAPE_BOX, width_m, width_m, width_m)
                           : box_of(kg, 900, 1, 1, 1);
    }
    case PARE_ACTION_CAMERA:
        return box_of(kg, 1150, 20, 38, 36);
    case PARE_STANDOFF: {
        const double length_m = spec[PARE_SPEC_LENGTH].value;
        const double outer_m = spec[PARE_SPEC_DIAMETER].value;
        const double od = outer_m > 0 ? outer_m : 5e-3;
        return shape(PARE_SHAPE_TUBE, od, od / 2, length_m > 0 ? length_m : 25e-3);
    }
    case PARE_CAPACITOR:
    case PARE_GPS:
    case PARE_BUZZER:
        return ball_of(kg, 1600);
    case PARE_PROPELLER_NUT:
    case PARE_CONNECTOR:
        return ball_of(kg, 3000);
    default:
        return ball_of(kg, 1200);
    }
}

/* Four arms and two plates, in the proportions of a 5 in frame: arms 10 x 5 mm that leave the middle
 * at 26 mm, plates 120 x 40 x 2 mm below and above. */
static pare_status usual_frame(pare_part *part, pare_arena *arena, pare_error *err)
{
    pare_piece *piece = pare_arena_array(arena, 3, sizeof *piece);
    pare_vec3 *at = pare_arena_array(arena, 6, sizeof *at);
    if (!piece || !at)
        return pare_no_memory(err);
    const double wheelbase_m = part->spec[PARE_SPEC_WHEELBASE].value;
    const double scale = wheelbase_m / 0.2225, side = wheelbase_m / sqrt(8);
    at[0] = (pare_vec3){side, side, 0};
    at[1] = (pare_vec3){side, -side, 0};
    at[2] = (pare_vec3){-side, -side, 0};
    at[3] = (pare_vec3){-side, side, 0};
    at[4] = (pare_vec3){0, 0, scale * -6e-3};
    at[5] = (pare_vec3){0, 0, scale * 21e-3};
    piece[0] = (pare_piece){
        .form = PARE_FORM_ARMS,
        .density_kg_m3 = CARBON_KG_M3,
        .places = 4,
        .at_m = at,
        .turn = not_turned,
        .root_m = scale * 26e-3,
        .section_m = {scale * 10e-3, scale * 5e-3},
    };
    for (int i = 1; i < 3; i++) {
        piece[i] = shape(PARE_SHAPE_BOX, scale * 120e-3, scale * 40e-3, scale * 2e-3);
        piece[i].form = PARE_FORM_PLATE;
        piece[i].name = i == 1 ? "base" : "top";
        piece[i].density_kg_m3 = CARBON_KG_M3;
        piece[i].at_m = &at[3 + i];
    }
    part->piece = piece;
    part->pieces = 3;
    part->body_estimated = true;
    return PARE_OK;
}

pare_status pare_part_usual_body(pare_part *part, pare_arena *arena, pare_error *err)
{
    if (part->kind == PARE_FRAME)
        return usual_frame(part, arena, err);
    pare_piece *piece = pare_arena_zeros(arena, sizeof *piece);
    if (!piece)
        return pare_no_memory(err);
    *piece = one_piece(part);
    part->piece = piece;
    part->pieces = 1;
    part->body_estimated = true;
    return PARE_OK;
}

static double usual_density_kg_m3(const pare_part *part, const pare_piece *piece)
{
    if (piece->form == PARE_FORM_MESH)
        return PRINTED_KG_M3;
    return part->kind == PARE_FRAME || piece->form != PARE_FORM_SHAPE ? CARBON_KG_M3 : 1000;
}

pare_status pare_part_densities(pare_part *part, pare_arena *arena, pare_error *err)
{
    if (part->pieces == 0)
        return PARE_OK;
    pare_piece *piece = pare_arena_array(arena, part->pieces, sizeof *piece);
    if (!piece)
        return pare_no_memory(err);
    for (size_t i = 0; i < part->pieces; i++) {
        piece[i] = part->piece[i];
        if (piece[i].form == PARE_FORM_PLATE)
            piece[i].shape = PARE_SHAPE_BOX;
        if (!(piece[i].density_kg_m3 > 0))
            piece[i].density_kg_m3 = usual_density_kg_m3(part, &piece[i]);
    }
    part->piece = piece;
    return PARE_OK;
}
