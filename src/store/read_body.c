/* read_body.c: what a part's body is made of, out of its text.
 *
 * A body is one piece or a list of them; a piece is a shape, a set of arms, a plate or a mesh, told
 * apart by the one key that only it has. A density that nobody said stays 0: what is usual for the
 * part is for pare_part_complete() to know. A stated mass scales the whole.
 *
 * A plate with an outline is a solid of the outline's facts and its own thickness, placed by the
 * drawing's origin unless `origin: middle` says otherwise. Where the outline's file is not there, a
 * rectangle stands in: of its neighbour's size, or as large as the arms' roots, or 90 x 40 mm; the
 * reader is told. */
#include <math.h>
#include <string.h>

#include "store/read_part.h"

enum { PIECES = 64, PLACES = 64 };

#define PRINTED_WALL_M    1.2e-3 /* three lines of a 0.4 mm nozzle; common practice, no source */
#define PRINTED_INFILL    0.20
#define PLATE_THICK_M     2e-3
#define PLATE_LENGTH_M    0.090
#define PLATE_WIDTH_M     0.040
#define TUBE_WALL_LEAST_M 2e-4
#define OFF_AXIS_MOST     0.78539816339744831 /* 45 degrees: past it the other fibres are nearer */

static pare_status read_density(const pare_reading *reading, const pare_node *node,
                                pare_piece *piece, pare_error *err)
{
    enum { MOST = 32 };
    const pare_node *material = pare_node_get(node, "material");
    pare_status status = PARE_OK;
    if (material) {
        const char *names[MOST];
        size_t count = 0;
        int index = 0;
        for (; count < MOST && pare_material_at(count); count++)
            names[count] = pare_material_at(count)->name;
        status = pare_read_choice(reading, material, "material", count, names, &index, err);
        piece->material = pare_material_at((size_t)index);
        piece->density_kg_m3 = piece->material->density_kg_m3;
    }
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "density"), "density",
                                    PARE_DIM_DENSITY, 1, 25000, &piece->density_kg_m3, err);
    return status;
}

/* One place [x, y, z], or a list of places. @param least 2: z may be left out */
static pare_status read_places(const pare_reading *reading, const pare_node *node, size_t least,
                               pare_piece *piece, pare_error *err)
{
    if (node)
        if (node->form != PARE_NODE_LIST || !node->first)
            return pare_refuse(reading, node, PARE_BAD_DATA, err,
                               "%s is a place [x, y, z] here, or a list of places", node->key);
    const bool several = node && node->first->form == PARE_NODE_LIST;
    const size_t count = several ? node->count : 1;
    if (count > PLACES)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%zu places; right would be %d at "
                           "most",
                           count, PLACES);
    pare_vec3 *at = pare_arena_array(reading->arena, count, sizeof *at);
    if (!at)
        return pare_no_memory(err);
    piece->places = count;
    piece->at_m = at;
    if (!node)
        return PARE_OK;
    pare_status status = PARE_OK;
    size_t n = 0;
    for (const pare_node *one = several ? node->first : node; one && status == PARE_OK;
         one = several ? one->next : NULL)
        status = pare_read_point(reading, one, node->key, least, &at[n++], err);
    return status;
}

static pare_status read_turn(const pare_reading *reading, const pare_node *node, pare_piece *piece,
                             pare_error *err)
{
    const pare_node *turn = pare_node_get(node, "turn");
    piece->turn = pare_turn_zyx(0, 0, 0);
    return turn ? pare_read_turn(reading, turn, &piece->turn, err) : PARE_OK;
}

static pare_status read_shape(const pare_reading *reading, const pare_node *node, pare_piece *piece,
                              pare_error *err)
{
    static const char *const keys[] = {"shape", "size", "at", "turn", "material", "density"};
    const char *names[PARE_SHAPES];
    int index = 0;
    pare_status status = pare_read_keys(reading, node, "a shape", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    for (int i = 0; i < PARE_SHAPES; i++)
        names[i] = pare_shape_name((pare_shape)i);
    const pare_node *shape = pare_node_get(node, "shape"), *size = pare_node_get(node, "size");
    status = pare_read_choice(reading, shape, "shape", PARE_SHAPES, names, &index, err);
    piece->form = PARE_FORM_SHAPE;
    piece->shape = (pare_shape)index;
    const size_t sizes = pare_shape_sizes(piece->shape);
    if (status == PARE_OK && sizes && !size)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "a %s without size; right would be "
                           "size: [%s]",
                           names[index], pare_shape_size_names(piece->shape));
    size_t count = 0;
    if (status == PARE_OK && size) {
        if (sizes == 0)
            return pare_refuse(reading, size, PARE_BAD_DATA, err, "a %s has no size; leave it out",
                               names[index]);
        if (size->form == PARE_NODE_LIST && size->count != sizes)
            return pare_refuse(reading, size, PARE_BAD_DATA, err,
                               "%zu given for the size of a %s; right would be size: [%s]",
                               size->count, names[index], pare_shape_size_names(piece->shape));
        status = pare_read_quantities(reading, size, "size", PARE_DIM_LENGTH, 0, 5, sizes, sizes,
                                      piece->size_m, &count, err);
    }
    pare_body unused;
    if (status == PARE_OK && pare_solid(piece->shape, 1, piece->size_m, &unused, err) != PARE_OK)
        return pare_refused_at(reading, size ? size : node, NULL, err);
    if (status == PARE_OK)
        status = read_places(reading, pare_node_get(node, "at"), 3, piece, err);
    return status;
}

static pare_status read_cloth(const pare_reading *reading, const pare_node *node, pare_piece *piece,
                              pare_error *err)
{
    static const char *const cloths[] = {"0/90", "quasi-isotropic"};
    const pare_node *cloth = pare_node_get(node, "cloth");
    int index = 0;
    pare_status status = PARE_OK;
    if (cloth)
        status = pare_read_choice(reading, cloth, "cloth", PARE_COUNT(cloths), cloths, &index, err);
    piece->cloth = index ? PARE_CLOTH_QUASI : PARE_CLOTH_CROSS;
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "off_axis"), "off_axis",
                                    PARE_DIM_ANGLE, 0, OFF_AXIS_MOST, &piece->off_axis_rad, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "flexural"), "flexural",
                                    PARE_DIM_PRESSURE, 1e8, 400e9, &piece->flexural_pa, err);
    return status;
}

static pare_status check_roots(const pare_reading *reading, const pare_node *node,
                               const pare_piece *piece, pare_error *err)
{
    for (size_t i = 0; i < piece->places; i++) {
        const double reach_m = hypot(piece->at_m[i].x, piece->at_m[i].y);
        if (reach_m <= piece->root_m)
            return pare_refuse(reading, node, PARE_BAD_DATA, err,
                               "arm %zu reaches %.4g mm and leaves the body at %.4g mm; right "
                               "would be a root within its reach",
                               i + 1, 1000 * reach_m, 1000 * piece->root_m);
    }
    return PARE_OK;
}

/* section: [width, thickness] of a bar, or tube: [outside, inside]. */
static pare_status read_section(const pare_reading *reading, const pare_node *node,
                                pare_piece *piece, pare_error *err)
{
    const pare_node *section = pare_node_get(node, "section"), *tube = pare_node_get(node, "tube");
    size_t count = 0;
    if (!section == !tube)
        return pare_refuse(reading, tube ? tube : node, PARE_BAD_DATA, err,
                           "arms %s; right would be section: [width, thickness], or tube: "
                           "[outside, inside]",
                           tube ? "with both section and tube" : "without section");
    if (section)
        return pare_read_quantities(reading, section, "section", PARE_DIM_LENGTH, 5e-4, 0.2, 2, 2,
                                    piece->section_m, &count, err);
    double across_m[2] = {0};
    const pare_status status = pare_read_quantities(reading, tube, "tube", PARE_DIM_LENGTH, 5e-4,
                                                    0.1, 2, 2, across_m, &count, err);
    if (status != PARE_OK)
        return status;
    piece->tube = true;
    piece->section_m[0] = across_m[0];
    piece->section_m[1] = (across_m[0] - across_m[1]) / 2;
    if (piece->section_m[1] < TUBE_WALL_LEAST_M)
        return pare_refuse(reading, tube, PARE_BAD_DATA, err,
                           "a tube of %.4g mm outside and %.4g mm inside; right would be [outside, "
                           "inside] with a wall of %.2g mm or more",
                           1e3 * across_m[0], 1e3 * across_m[1], 1e3 * TUBE_WALL_LEAST_M);
    return PARE_OK;
}

static pare_status read_arms(const pare_reading *reading, const pare_node *node, pare_piece *piece,
                             pare_error *err)
{
    static const char *const keys[] = {"arms",     "root",     "section",  "tube",   "cloth",
                                       "off_axis", "flexural", "material", "density"};
    pare_status status = pare_read_keys(reading, node, "arms", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *arms = pare_node_get(node, "arms");
    piece->form = PARE_FORM_ARMS;
    if (arms->form != PARE_NODE_LIST || arms->count < 4 || arms->count > 8)
        return pare_refuse(reading, arms, PARE_BAD_DATA, err,
                           "arms are 4 to 8 places of motor axes, from front left, clockwise: "
                           "[[80 mm, 80 mm], [80 mm, -80 mm], ...]");
    status = read_places(reading, arms, 2, piece, err);
    if (status == PARE_OK)
        status = read_section(reading, node, piece, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "root"), "root", PARE_DIM_LENGTH,
                                    0, 2, &piece->root_m, err);
    if (status == PARE_OK)
        status = check_roots(reading, node, piece, err);
    if (status == PARE_OK)
        status = read_cloth(reading, node, piece, err);
    return status;
}

static pare_status find_file(const pare_reading *reading, const pare_node *node, double unit_m,
                             pare_piece *piece, pare_mesh_facts *mesh, pare_outline_facts *outline,
                             pare_error *err)
{
    pare_status status = pare_read_text(reading, node, node->key, &piece->file, err);
    if (status != PARE_OK || !reading->find_file)
        return status;
    const size_t notes = reading->notes ? reading->notes->count : 0;
    status = reading->find_file(reading->find_context, piece->file, unit_m, mesh, outline,
                                &piece->measured, reading->notes, err);
    for (size_t i = notes; reading->notes && i < reading->notes->count; i++) {
        char place[PARE_WHERE];
        const char *placed = pare_arena_printf(reading->notes->arena, "%s: %s",
                                               pare_where(reading, node->line, node->column, place),
                                               reading->notes->text[i]);
        reading->notes->text[i] = placed ? placed : reading->notes->text[i];
    }
    return status == PARE_OK ? PARE_OK : pare_refused_at(reading, node, NULL, err);
}

/* A drawing's origin is often its page's corner, and a plate off by half its length goes unseen. */
static void note_origin(const pare_reading *reading, const pare_node *node,
                        const pare_outline_facts *facts)
{
    for (int k = 0; k < 2; k++)
        if (facts->low_m[k] > -1e-9 || facts->high_m[k] < 1e-9) {
            char place[PARE_WHERE];
            pare_note(reading->notes,
                      "%s: the drawing's origin, which comes to the plate's place, lies "
                      "outside the outline, whose middle is at (%.4g, %.4g) mm; origin: middle "
                      "would bring that there",
                      pare_where(reading, node->line, node->column, place),
                      500 * (facts->low_m[0] + facts->high_m[0]),
                      500 * (facts->low_m[1] + facts->high_m[1]));
            return;
        }
}

/* A plate's outline: measured where its file is there. */
static pare_status read_outline(const pare_reading *reading, const pare_node *node,
                                pare_piece *piece, pare_error *err)
{
    static const char *const origins[] = {"drawing", "middle"};
    const pare_node *outline = pare_node_get(node, "outline"),
                    *origin = pare_node_get(node, "origin");
    pare_outline_facts facts = {0};
    int middle = 0;
    piece->size_m[2] = PLATE_THICK_M;
    pare_status status = pare_read_quantity(reading, pare_node_get(node, "thick"), "thick",
                                            PARE_DIM_LENGTH, 1e-4, 0.05, &piece->size_m[2], err);
    if (status == PARE_OK && origin)
        status =
            pare_read_choice(reading, origin, "origin", PARE_COUNT(origins), origins, &middle, err);
    if (status == PARE_OK)
        status = find_file(reading, outline, 0, piece, NULL, &facts, err);
    if (status != PARE_OK || !piece->measured)
        return status;
    if (!middle)
        note_origin(reading, outline, &facts);
    piece->mesh = pare_outline_thick(&facts, piece->size_m[2], middle);
    return PARE_OK;
}

static pare_status read_plate(const pare_reading *reading, const pare_node *node, pare_piece *piece,
                              pare_error *err)
{
    static const char *const keys[] = {"plate", "size", "outline",  "thick",  "origin",
                                       "at",    "turn", "material", "density"};
    pare_status status = pare_read_keys(reading, node, "a plate", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *size = pare_node_get(node, "size"), *outline = pare_node_get(node, "outline"),
                    *thick = pare_node_get(node, "thick");
    piece->form = PARE_FORM_PLATE;
    piece->shape = PARE_SHAPE_BOX;
    status = pare_read_text(reading, pare_node_get(node, "plate"), "plate", &piece->name, err);
    if (status == PARE_OK && !size == !outline)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "plate '%.40s' has %s; right would be size: [x, y, thickness], or "
                           "outline: FILE with thick: 2 mm",
                           piece->name, size ? "both size and outline" : "no size");
    size_t count = 0;
    if (status == PARE_OK && size && thick)
        return pare_refuse(reading, thick, PARE_BAD_DATA, err,
                           "thick beside size; right would be size alone, [x, y, thickness]");
    if (status == PARE_OK && size && pare_node_get(node, "origin"))
        return pare_refuse(reading, pare_node_get(node, "origin"), PARE_BAD_DATA, err,
                           "origin beside size; right would be at alone, the plate's middle");
    if (status == PARE_OK && size)
        status = pare_read_quantities(reading, size, "size", PARE_DIM_LENGTH, 1e-4, 2, 3, 3,
                                      piece->size_m, &count, err);
    if (status == PARE_OK && outline)
        status = read_outline(reading, node, piece, err);
    if (status == PARE_OK)
        status = read_places(reading, pare_node_get(node, "at"), 3, piece, err);
    return status;
}

static pare_status read_mesh(const pare_reading *reading, const pare_node *node, pare_piece *piece,
                             pare_error *err)
{
    static const char *const keys[] = {"mesh",     "unit",    "wall", "infill",
                                       "material", "density", "at",   "turn"};
    static const struct {
        const char *name;
        double unit_m;
    } units[] = {{"mm", 1e-3}, {"cm", 1e-2}, {"m", 1}, {"in", 0.0254}};
    const char *names[PARE_COUNT(units)];
    int index = 0;
    pare_status status = pare_read_keys(reading, node, "a mesh", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    for (size_t i = 0; i < PARE_COUNT(units); i++)
        names[i] = units[i].name;
    const pare_node *unit = pare_node_get(node, "unit"), *mesh = pare_node_get(node, "mesh");
    const bool own_unit = mesh->text && pare_name_ends(mesh->text, ".3mf");
    if (unit && own_unit)
        return pare_refuse(reading, unit, PARE_BAD_DATA, err,
                           "unit beside a 3MF file, which states its own; right would be no unit");
    piece->form = PARE_FORM_MESH;
    piece->wall_m = PRINTED_WALL_M;
    piece->infill = PRINTED_INFILL;
    if (unit)
        status = pare_read_choice(reading, unit, "unit", PARE_COUNT(units), names, &index, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "wall"), "wall", PARE_DIM_LENGTH,
                                    0, 0.05, &piece->wall_m, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "infill"), "infill",
                                    PARE_DIM_SHARE, 0, 1, &piece->infill, err);
    if (status == PARE_OK)
        status = find_file(reading, mesh, own_unit ? 0 : units[index].unit_m, piece, &piece->mesh,
                           NULL, err);
    if (status == PARE_OK)
        status = read_places(reading, pare_node_get(node, "at"), 3, piece, err);
    return status;
}

static pare_status read_piece(const pare_reading *reading, const pare_node *node, pare_piece *piece,
                              pare_error *err)
{
    static pare_status (*const readers[])(const pare_reading *, const pare_node *, pare_piece *,
                                          pare_error *) = {read_shape, read_arms, read_plate,
                                                           read_mesh};
    static const char *const forms[] = {"shape", "arms", "plate", "mesh"};
    pare_status status = pare_need_map(reading, node, "a piece of a body", err);
    int form = -1;
    for (int i = 0; status == PARE_OK && i < 4; i++)
        if (pare_node_get(node, forms[i])) {
            if (form >= 0)
                return pare_refuse(reading, node, PARE_BAD_DATA, err,
                                   "%s and %s in one piece; right would be two pieces, as a list",
                                   forms[form], forms[i]);
            form = i;
        }
    if (status == PARE_OK && form < 0)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "a piece of a body has none of shape, arms, plate, mesh; right would "
                           "be like {shape: box, size: [75 mm, 36 mm, 31 mm]}");
    if (status != PARE_OK)
        return status;
    status = readers[form](reading, node, piece, err);
    if (status == PARE_OK)
        status = read_density(reading, node, piece, err);
    if (status == PARE_OK)
        status = read_turn(reading, node, piece, err);
    return status;
}

/* Gives each plate of an outline the size of its bounding box, or, where the outline's file is not
 * there, of the rectangle that stands in for it. */
static void stand_in(size_t count, pare_piece piece[])
{
    double x_m = PLATE_LENGTH_M, y_m = PLATE_WIDTH_M;
    for (size_t i = 0; i < count; i++)
        if (piece[i].form == PARE_FORM_ARMS && piece[i].root_m > 0) {
            x_m = y_m = 0;
            for (size_t k = 0; k < piece[i].places; k++) {
                const pare_vec3 at = piece[i].at_m[k];
                const double share = piece[i].root_m / hypot(at.x, at.y);
                x_m = fmax(x_m, 2 * share * fabs(at.x));
                y_m = fmax(y_m, 2 * share * fabs(at.y));
            }
        }
    for (size_t i = 0; i < count; i++)
        if (piece[i].form == PARE_FORM_PLATE && !piece[i].file) {
            x_m = piece[i].size_m[0];
            y_m = piece[i].size_m[1];
        }
    for (size_t i = 0; i < count; i++)
        if (piece[i].form == PARE_FORM_PLATE && piece[i].measured) {
            piece[i].size_m[0] = piece[i].mesh.high_m.x - piece[i].mesh.low_m.x;
            piece[i].size_m[1] = piece[i].mesh.high_m.y - piece[i].mesh.low_m.y;
        } else if (piece[i].form == PARE_FORM_PLATE && piece[i].file) {
            piece[i].size_m[0] = x_m > 0 ? x_m : PLATE_LENGTH_M;
            piece[i].size_m[1] = y_m > 0 ? y_m : PLATE_WIDTH_M;
        }
}

pare_status pare_read_body(const pare_reading *reading, const pare_node *node, pare_part *part,
                           pare_error *err)
{
    const bool several = node->form == PARE_NODE_LIST;
    const size_t count = several ? node->count : 1;
    if (count == 0 || count > PIECES)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "a body of %zu pieces; right would be 1 to %d", count, PIECES);
    pare_piece *piece = pare_arena_array(reading->arena, count, sizeof *piece);
    if (!piece)
        return pare_no_memory(err);
    pare_status status = PARE_OK;
    size_t n = 0;
    for (const pare_node *one = several ? node->first : node; one && status == PARE_OK;
         one = several ? one->next : NULL)
        status = read_piece(reading, one, &piece[n++], err);
    if (status != PARE_OK)
        return status;
    stand_in(count, piece);
    part->pieces = count;
    part->piece = piece;
    return PARE_OK;
}
