/* three_mf.c: reading 3MF (see three_mf.h).
 *
 * The model's XML is fed to the parser as it is unpacked, and what it says goes into flat arrays:
 * vertices, triangles, components, objects, items. An object may only be made of objects that stand
 * before it, so there are no circles. How much a build will place is counted before anything is
 * placed: a few components of components of components can ask for more than any memory.
 *
 * Source: 3MF core specification 1.3, chapters 3 and 4 (from memory). A transform's twelve numbers
 * are the rows of a matrix that stands to the right of a row vector. */
#include "store/three_mf.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "store/disk.h"
#include "store/hull.h"
#include "store/xml.h"
#include "store/zip.h"

enum {
    MOST_TRIANGLES = 1500000, /* also of vertices; a printed part has some ten thousand */
    MOST_OBJECTS = 2000,
    MOST_PLACED = 10000,
    DEEPEST = 16,
    SHOWN = 24,
};

#define MODEL_BYTES ((size_t)192 << 20)
#define FILE_BYTES  ((size_t)64 << 20)
#define CORE        "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"

/* Extensions that may be needed without changing a shape: names of parts, colours. */
static const char *const harmless[] = {
    CORE,
    "http://schemas.microsoft.com/3dmanufacturing/production/2015/06",
    "http://schemas.microsoft.com/3dmanufacturing/material/2015/02",
};

typedef struct transform {
    double m[4][3];
} transform;

typedef struct placed {
    size_t object;
    transform by;
} placed;

typedef struct object {
    unsigned long id;
    bool support; /* not part of what is made */
    size_t vertex, vertices, triangle, triangles, component, components;
    size_t all_triangles, all_placed; /* with those of its components; capped */
    int depth;
} object;

typedef struct model {
    const char *name;
    pare_arena *arena;
    pare_xml *xml;
    double unit_m;
    bool is_model, in_object, in_build;
    char known[8][SHOWN + 1]; /* prefixes of harmless extensions */
    size_t knowns;
    double (*vertex_at)[3];
    uint32_t (*triangle_of)[3];
    placed *component, *item;
    object *objects;
    size_t vertices, triangles, components, items, count;
    size_t vertex_size, triangle_size, component_size, item_size, object_size;
} model;

typedef const char *const *attributes;

/* ---- attributes ---- */

static bool number(const char *text, double *value)
{
    char *end = NULL;
    if (!text || strlen(text) > 60)
        return false;
    *value = strtod(text, &end);
    return end != text && *end == 0 && isfinite(*value);
}

static bool count_of(const char *text, unsigned long *value)
{
    if (!text || !*text || strlen(text) > 10 || strspn(text, "0123456789") != strlen(text))
        return false;
    *value = strtoul(text, NULL, 10);
    return *value <= INT32_MAX;
}

static double determinant(const transform *t)
{
    const double(*m)[3] = t->m;
    return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
           m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
           m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
}

static bool take_transform(pare_xml *xml, attributes a, transform *t)
{
    *t = (transform){{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0, 0, 0}}};
    const char *text = pare_xml_attribute(a, "transform");
    bool good = true;
    if (text) {
        const char *at = text;
        for (int i = 0; i < 12 && good; i++) {
            char *end = NULL;
            t->m[i / 3][i % 3] = strtod(at, &end);
            good = end != at && fabs(t->m[i / 3][i % 3]) <= 1e9;
            at = end;
        }
        good = good && at[strspn(at, " \t\r\n")] == 0 && fabs(determinant(t)) > 1e-15;
    }
    if (!good)
        pare_xml_refuse(xml,
                        "transform is '%.*s'; right would be twelve numbers that leave a volume",
                        SHOWN, text);
    return good;
}

/* ---- elements ---- */

static void begin_model(model *m, pare_xml *xml, attributes a)
{
    static const struct {
        const char *name;
        double unit_m;
    } units[] = {{"micron", 1e-6}, {"millimeter", 1e-3}, {"centimeter", 1e-2},
                 {"inch", 0.0254}, {"foot", 0.3048},     {"meter", 1}};
    const char *unit = pare_xml_attribute(a, "unit");
    const char *needs = pare_xml_attribute(a, "requiredextensions");
    m->is_model = true;
    for (size_t i = 0; unit && i < sizeof units / sizeof *units; i++)
        if (strcmp(unit, units[i].name) == 0)
            m->unit_m = units[i].unit_m;
    if (!unit)
        m->unit_m = 1e-3;
    if (!(m->unit_m > 0))
        pare_xml_refuse(xml,
                        "unit is '%.*s'; right would be micron, millimeter, centimeter, inch, foot "
                        "or meter",
                        SHOWN, unit);
    while (needs && *needs) {
        needs += strspn(needs, " \t\r\n");
        const size_t length = strcspn(needs, " \t\r\n");
        bool known = length == 0;
        for (size_t i = 0; i < m->knowns && !known; i++)
            known = strlen(m->known[i]) == length && memcmp(m->known[i], needs, length) == 0;
        if (!known) {
            pare_xml_refuse(xml,
                            "needs extension '%.*s', which is not read; right would be a model of "
                            "the core standard",
                            (int)(length < SHOWN ? length : SHOWN), needs);
            return;
        }
        needs += length;
    }
}

static object *find_object(const model *m, unsigned long id)
{
    for (size_t i = 0; i < m->count; i++)
        if (m->objects[i].id == id)
            return &m->objects[i];
    return NULL;
}

static void begin_object(model *m, pare_xml *xml, attributes a)
{
    const char *text = pare_xml_attribute(a, "id"), *type = pare_xml_attribute(a, "type");
    unsigned long id = 0;
    if (m->in_object || !count_of(text, &id) || id == 0 || find_object(m, id)) {
        pare_xml_refuse(xml, "object '%.*s'; right would be a number of its own, above 0", SHOWN,
                        text ? text : "");
        return;
    }
    if (m->count == MOST_OBJECTS) {
        pare_xml_refuse(xml, "over %d objects; right would be fewer", MOST_OBJECTS);
        return;
    }
    object *wider = pare_grown(m->arena, m->objects, m->count, &m->object_size, sizeof *wider);
    if (!wider) {
        pare_xml_no_memory(xml);
        return;
    }
    m->objects = wider;
    m->objects[m->count++] = (object){
        .id = id,
        .support = type && (strcmp(type, "support") == 0 || strcmp(type, "solidsupport") == 0),
        .vertex = m->vertices,
        .triangle = m->triangles,
        .component = m->components,
        .all_placed = 1,
        .depth = 1,
    };
    m->in_object = true;
}

static void take_vertex(model *m, pare_xml *xml, attributes a)
{
    double at[3];
    object *o = &m->objects[m->count - 1];
    for (int i = 0; i < 3; i++) {
        const char name[2] = {"xyz"[i], 0}, *text = pare_xml_attribute(a, name);
        if (!number(text, &at[i])) {
            pare_xml_refuse(xml, "vertex: %s is '%.*s'; right would be a finite number", name,
                            SHOWN, text ? text : "");
            return;
        }
    }
    if (m->vertices == MOST_TRIANGLES) {
        pare_xml_refuse(xml, "over %d vertices; right would be fewer", MOST_TRIANGLES);
        return;
    }
    double(*wider)[3] =
        pare_grown(m->arena, m->vertex_at, m->vertices, &m->vertex_size, sizeof *wider);
    if (!wider) {
        pare_xml_no_memory(xml);
        return;
    }
    m->vertex_at = wider;
    memcpy(m->vertex_at[m->vertices++], at, sizeof at);
    o->vertices++;
}

static void take_triangle(model *m, pare_xml *xml, attributes a)
{
    static const char *const names[] = {"v1", "v2", "v3"};
    object *o = &m->objects[m->count - 1];
    uint32_t corner[3];
    for (int i = 0; i < 3; i++) {
        const char *text = pare_xml_attribute(a, names[i]);
        unsigned long index = 0;
        if (!count_of(text, &index) || index >= o->vertices) {
            pare_xml_refuse(xml,
                            "triangle: %s is '%.*s'; right would be one of the %zu vertices, "
                            "from 0",
                            names[i], SHOWN, text ? text : "", o->vertices);
            return;
        }
        corner[i] = (uint32_t)index;
    }
    if (m->triangles == MOST_TRIANGLES) {
        pare_xml_refuse(xml, "over %d triangles; right would be fewer", MOST_TRIANGLES);
        return;
    }
    uint32_t(*wider)[3] =
        pare_grown(m->arena, m->triangle_of, m->triangles, &m->triangle_size, sizeof *wider);
    if (!wider) {
        pare_xml_no_memory(xml);
        return;
    }
    m->triangle_of = wider;
    memcpy(m->triangle_of[m->triangles++], corner, sizeof corner);
    o->triangles++;
    o->all_triangles++;
}

/* A component or an item: which object, and where. */
static bool take_placed(model *m, pare_xml *xml, attributes a, const char *what, placed *p)
{
    const char *text = pare_xml_attribute(a, "objectid");
    unsigned long id = 0;
    const object *o = count_of(text, &id) ? find_object(m, id) : NULL;
    if (o && m->in_object && o == &m->objects[m->count - 1])
        o = NULL; /* of itself */
    for (size_t i = 0; a[i]; i += 2)
        if (strchr(a[i], '|') && strcmp(strrchr(a[i], '|'), "|path") == 0) {
            pare_xml_refuse(xml,
                            "%s in another file of the archive; right would be all objects in "
                            "the model",
                            what);
            return false;
        }
    if (!o) {
        pare_xml_refuse(xml, "%s of object '%.*s'; right would be an object that stands before it",
                        what, SHOWN, text ? text : "");
        return false;
    }
    p->object = (size_t)(o - m->objects);
    return take_transform(xml, a, &p->by);
}

static size_t capped(size_t a, size_t b)
{
    return a + b > 10 * (size_t)MOST_TRIANGLES ? 10 * (size_t)MOST_TRIANGLES : a + b;
}

static void take_component(model *m, pare_xml *xml, attributes a)
{
    placed p;
    object *o = &m->objects[m->count - 1];
    if (!take_placed(m, xml, a, "component", &p))
        return;
    placed *wider =
        pare_grown(m->arena, m->component, m->components, &m->component_size, sizeof *wider);
    if (!wider) {
        pare_xml_no_memory(xml);
        return;
    }
    m->component = wider;
    m->component[m->components++] = p;
    o->components++;
    const object *part = &m->objects[p.object];
    o->all_triangles = capped(o->all_triangles, part->all_triangles);
    o->all_placed = capped(o->all_placed, part->all_placed);
    if (part->depth >= o->depth)
        o->depth = part->depth + 1;
    if (o->depth > DEEPEST)
        pare_xml_refuse(xml, "components over %d deep; right would be fewer", DEEPEST);
}

static void take_item(model *m, pare_xml *xml, attributes a)
{
    placed p;
    if (!take_placed(m, xml, a, "item", &p))
        return;
    placed *wider = pare_grown(m->arena, m->item, m->items, &m->item_size, sizeof *wider);
    if (!wider) {
        pare_xml_no_memory(xml);
        return;
    }
    m->item = wider;
    m->item[m->items++] = p;
}

static void begin(void *context, pare_xml *xml, const char *element, attributes a)
{
    model *m = context;
    const char *name = pare_xml_local(element, CORE, false);
    if (!m->is_model) {
        if (name && strcmp(name, "model") == 0)
            begin_model(m, xml, a);
        else
            pare_xml_refuse(xml, "not a 3MF model: it begins with <%.*s>; right would be <model>",
                            SHOWN, element);
        return;
    }
    if (!name)
        return;
    if (strcmp(name, "object") == 0)
        begin_object(m, xml, a);
    else if (strcmp(name, "build") == 0)
        m->in_build = true;
    else if (m->in_object && strcmp(name, "vertex") == 0)
        take_vertex(m, xml, a);
    else if (m->in_object && strcmp(name, "triangle") == 0)
        take_triangle(m, xml, a);
    else if (m->in_object && strcmp(name, "component") == 0)
        take_component(m, xml, a);
    else if (m->in_build && strcmp(name, "item") == 0)
        take_item(m, xml, a);
}

static void end(void *context, pare_xml *xml, const char *element)
{
    model *m = context;
    const char *name = pare_xml_local(element, CORE, false);
    (void)xml;
    if (name && strcmp(name, "object") == 0)
        m->in_object = false;
    else if (name && strcmp(name, "build") == 0)
        m->in_build = false;
}

static void space(void *context, const char *prefix, const char *uri)
{
    model *m = context;
    if (strlen(prefix) > SHOWN || m->knowns == sizeof m->known / sizeof *m->known)
        return;
    for (size_t i = 0; i < sizeof harmless / sizeof *harmless; i++)
        if (strcmp(harmless[i], uri) == 0)
            strcpy(m->known[m->knowns++], prefix);
}

/* ---- measuring ---- */

/* a first, then b. */
static transform after(const transform *a, const transform *b)
{
    transform t;
    for (int i = 0; i < 4; i++)
        for (int k = 0; k < 3; k++) {
            t.m[i][k] = i == 3 ? b->m[3][k] : 0;
            for (int j = 0; j < 3; j++)
                t.m[i][k] += a->m[i][j] * b->m[j][k];
        }
    return t;
}

static void corner(const model *m, const object *o, uint32_t vertex, const transform *by,
                   double to[3])
{
    const double *at = m->vertex_at[o->vertex + vertex];
    for (int k = 0; k < 3; k++)
        to[k] = m->unit_m *
                (at[0] * by->m[0][k] + at[1] * by->m[1][k] + at[2] * by->m[2][k] + by->m[3][k]);
}

static void add_facts(const pare_mesh_facts *one, pare_mesh_facts *sum)
{
    if (sum->volume_m3 == 0) {
        *sum = *one;
        return;
    }
    const pare_body two[2] = {{sum->volume_m3, sum->centre_m, sum->inertia_m5},
                              {one->volume_m3, one->centre_m, one->inertia_m5}};
    const pare_body both = pare_body_sum(2, two);
    sum->volume_m3 = both.mass_kg;
    sum->centre_m = both.at_m;
    sum->inertia_m5 = both.inertia_kg_m2;
    sum->area_m2 += one->area_m2;
    sum->low_m = (pare_vec3){fmin(sum->low_m.x, one->low_m.x), fmin(sum->low_m.y, one->low_m.y),
                             fmin(sum->low_m.z, one->low_m.z)};
    sum->high_m =
        (pare_vec3){fmax(sum->high_m.x, one->high_m.x), fmax(sum->high_m.y, one->high_m.y),
                    fmax(sum->high_m.z, one->high_m.z)};
    if (sum->open_edges == 0) {
        sum->open_from_m = one->open_from_m;
        sum->open_to_m = one->open_to_m;
    }
    sum->open_edges += one->open_edges;
    sum->degenerate += one->degenerate;
    sum->turned_inside_out |= one->turned_inside_out;
    if (one->estimated > sum->estimated)
        sum->estimated = one->estimated;
}

static pare_status measure_mesh(const model *m, const object *o, const transform *by,
                                pare_mesh_facts *sum, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    double(*corners)[9] = arena ? pare_arena_array(arena, o->triangles, sizeof *corners) : NULL;
    if (!corners) {
        pare_arena_close(arena);
        return pare_no_memory(err);
    }
    const bool mirrored = determinant(by) < 0; /* its triangles then face inwards */
    for (size_t t = 0; t < o->triangles; t++)
        for (size_t k = 0; k < 3; k++)
            corner(m, o, m->triangle_of[o->triangle + t][mirrored ? 2 - k : k], by,
                   &corners[t][3 * k]);
    const pare_mesh mesh = {o->triangles, (const double(*)[9])corners};
    pare_mesh_facts one = {0};
    pare_status status = pare_mesh_figures(&mesh, &one, err);
    if (status == PARE_OK)
        add_facts(&one, sum);
    else if (status == PARE_BAD_DATA)
        status = pare_within(err, "%s: object %lu", m->name, o->id);
    pare_arena_close(arena);
    return status;
}

/* Down to DEEPEST levels. */
static pare_status place(const model *m, const placed *p, pare_mesh_facts *sum, pare_error *err)
{
    const object *o = &m->objects[p->object];
    if (o->support)
        return PARE_OK;
    pare_status status = o->triangles ? measure_mesh(m, o, &p->by, sum, err) : PARE_OK;
    for (size_t i = 0; i < o->components && status == PARE_OK; i++) {
        const placed *part = &m->component[o->component + i];
        const placed within = {part->object, after(&part->by, &p->by)};
        status = place(m, &within, sum, err);
    }
    return status;
}

static pare_status measure(const model *m, pare_mesh_facts *facts, pare_error *err)
{
    size_t triangles = 0, pieces = 0;
    pare_mesh_facts sum = {0};
    for (size_t i = 0; i < m->items; i++) {
        triangles = capped(triangles, m->objects[m->item[i].object].all_triangles);
        pieces = capped(pieces, m->objects[m->item[i].object].all_placed);
    }
    if (triangles > MOST_TRIANGLES || pieces > MOST_PLACED)
        return pare_fail(
            err, PARE_BAD_DATA,
            "%s: its build places over %d triangles or %d objects; right would be fewer", m->name,
            MOST_TRIANGLES, MOST_PLACED);
    pare_status status = PARE_OK;
    for (size_t i = 0; i < m->items && status == PARE_OK; i++)
        status = place(m, &m->item[i], &sum, err);
    if (status == PARE_OK && sum.volume_m3 == 0)
        status =
            pare_fail(err, PARE_BAD_DATA,
                      "%s: nothing to build in it; right would be an item with a mesh", m->name);
    if (status == PARE_OK)
        *facts = sum;
    return status;
}

static pare_status take(void *context, const char *bytes, size_t length, pare_error *err)
{
    return pare_xml_feed(((model *)context)->xml, bytes, length, false, err);
}

pare_status pare_three_mf_measure(const char *name, const char *bytes, size_t length,
                                  pare_mesh_facts *facts, pare_error *err)
{
    model m = {.name = name, .arena = pare_arena_open()};
    const pare_xml_reader reader = {
        .name = name, .context = &m, .begin = begin, .end = end, .space = space};
    m.xml = m.arena ? pare_xml_open(&reader) : NULL;
    pare_status status = m.xml ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_zip_read(name, bytes, length, "3D/3dmodel.model", ".model", MODEL_BYTES, take,
                               &m, err);
    if (status == PARE_OK)
        status = pare_xml_feed(m.xml, "", 0, true, err);
    if (status == PARE_OK)
        status = measure(&m, facts, err);
    pare_xml_close(m.xml);
    pare_arena_close(m.arena);
    return status;
}

pare_status pare_three_mf_measure_file(const char *path, pare_mesh_facts *facts, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    const char *bytes = NULL;
    size_t length = 0;
    if (!arena)
        return pare_no_memory(err);
    pare_status status = pare_disk_read(path, FILE_BYTES, arena, &bytes, &length, err);
    if (status == PARE_OK)
        status = pare_three_mf_measure(path, bytes, length, facts, err);
    pare_arena_close(arena);
    return status;
}
