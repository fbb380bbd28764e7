/* screw.c: threads, materials and screws, weighed by their geometry.
 *
 * Mass tables of screws are scattered, rounded to 0.1 g, and disagree with each other; the standards'
 * dimensions do not. A thread counts as a cylinder of its pitch diameter: studs then come out within
 * 0.5 % of their standard's mass table, where the mean with the core diameter runs 4 to 7 % light.
 * The socket is a hexagonal prism of the least depth, a slot a prism across the whole head; the
 * socket's conical bottom and the head's roundings are left out.
 *
 * Sources: ISO 4762, ISO 7380-1, ISO 10642, ISO 1207 (heads), ISO 724 and ISO 68-1 (thread), ISO
 * 898-1 (stress area). Where partly threaded screws begin, the socket depths of ISO 10642 and all of
 * ISO 1207 are from memory. */
#include "physics/screw.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "base/text.h"

#define PI          3.14159265358979323846
#define MM          1e-3
#define ROWS(table) (sizeof(table) / sizeof *(table))

static const double shortest_mm = 2, longest_mm = 60;

static const struct {
    const char *name;
    double kg_m3;
} materials[PARE_SCREW_MATERIALS] = {
    [PARE_STEEL] = {"steel", 7850},                   /* as the mass tables of the standards */
    [PARE_STAINLESS] = {"stainless", 7900},           /* A2 (1.4301), from memory */
    [PARE_TITANIUM] = {"titanium", 4430},             /* Ti-6Al-4V, from memory */
    [PARE_ALUMINIUM_7075] = {"aluminium_7075", 2810}, /* from memory */
    [PARE_ALUMINIUM] = {"aluminium", 2700},           /* a 6xxx alloy, from memory */
    [PARE_BRASS] = {"brass", 8470},                   /* CuZn37 or so, from memory */
    [PARE_NYLON] = {"nylon", 1140},                   /* PA 66, from memory */
};

static const struct {
    const char *name;
    pare_thread thread;
} threads[] = {
    /* ISO 261, coarse pitch */
    {"M1.6", {1.6 * MM, 0.35 * MM}}, {"M2", {2 * MM, 0.4 * MM}}, {"M2.5", {2.5 * MM, 0.45 * MM}},
    {"M3", {3 * MM, 0.5 * MM}},      {"M4", {4 * MM, 0.7 * MM}}, {"M5", {5 * MM, 0.8 * MM}},
};

/* One row a standard and thread; mm. Up to plain_from the thread reaches the head; from there on it
 * covers only the last threaded_mm, and the rest is plain shank. key: the hexagon, or the slot's width. */
typedef struct head_row {
    double nominal_mm, across_mm, high_mm, key_mm, socket_mm, threaded_mm, plain_from_mm;
} head_row;

static const head_row iso4762[] = {
    {1.6, 3, 1.6, 1.5, 0.7, 15, 20}, {2, 3.8, 2, 1.5, 1, 16, 20}, {2.5, 4.5, 2.5, 2, 1.1, 17, 25},
    {3, 5.5, 3, 2.5, 1.3, 18, 25},   {4, 7, 4, 3, 2, 20, 30},     {5, 8.5, 5, 4, 2.5, 22, 30},
};
static const head_row iso7380[] = {
    {3, 5.7, 1.65, 2, 1.04, 18, 25},
    {4, 7.6, 2.2, 2.5, 1.3, 20, 30},
    {5, 9.5, 2.75, 3, 1.56, 22, 30},
};
static const head_row iso10642[] = {
    {3, 6.72, 1.86, 2, 1.1, 18, 30},
    {4, 8.96, 2.48, 2.5, 1.5, 20, 30},
    {5, 11.2, 3.1, 3, 1.9, 22, 35},
};
static const head_row iso1207[] = {
    {1.6, 3, 1.1, 0.4, 0.45, 25, 35},  {2, 3.8, 1.4, 0.5, 0.6, 25, 35},
    {2.5, 4.5, 1.8, 0.6, 0.7, 25, 35}, {3, 5.5, 2, 0.8, 0.85, 25, 35},
    {4, 7, 2.6, 1.2, 1.1, 38, 45},     {5, 8.5, 3.3, 1.2, 1.3, 38, 45},
};

static const struct {
    const char *name;
    const head_row *row;
    size_t rows;
    const char *has; /* for the message */
} standards[PARE_SCREW_STANDARDS] = {
    [PARE_ISO4762] = {"ISO4762", iso4762, ROWS(iso4762), "M1.6, M2, M2.5, M3, M4 and M5"},
    [PARE_ISO7380] = {"ISO7380-1", iso7380, ROWS(iso7380), "M3, M4 and M5"},
    [PARE_ISO10642] = {"ISO10642", iso10642, ROWS(iso10642), "M3, M4 and M5"},
    [PARE_ISO1207] = {"ISO1207", iso1207, ROWS(iso1207), "M1.6, M2, M2.5, M3, M4 and M5"},
};

double pare_screw_density_kg_m3(pare_screw_material material)
{
    return materials[material].kg_m3;
}

const char *pare_screw_material_name(pare_screw_material material)
{
    return materials[material].name;
}

const char *pare_screw_material_words(pare_screw_material material)
{
    return material == PARE_ALUMINIUM_7075 ? "7075 aluminium" : pare_screw_material_name(material);
}

int pare_screw_material_named(const char *name)
{
    for (int i = 0; i < PARE_SCREW_MATERIALS; i++)
        if (strcmp(name, materials[i].name) == 0)
            return i;
    return -1;
}

const char *pare_fastener_name(pare_fastener standard)
{
    static const char *const others[PARE_FASTENERS] = {
        [PARE_ISO4032] = "ISO4032",
        [PARE_ISO7040] = "ISO7040",
        [PARE_ISO7089] = "ISO7089",
        [PARE_STANDOFF_HEX] = "standoff_hex",
        [PARE_STANDOFF_ROUND] = "standoff_round",
    };
    return pare_is_screw(standard) ? standards[standard].name : others[standard];
}

const char *pare_fastener_standard(pare_fastener standard)
{
    static const char *const words[PARE_FASTENERS] = {
        [PARE_ISO4762] = "ISO 4762",    [PARE_ISO7380] = "ISO 7380-1",
        [PARE_ISO10642] = "ISO 10642",  [PARE_ISO1207] = "ISO 1207",
        [PARE_ISO4032] = "ISO 4032",    [PARE_ISO7040] = "ISO 7040",
        [PARE_ISO7089] = "ISO 7089",    [PARE_STANDOFF_HEX] = "hex",
        [PARE_STANDOFF_ROUND] = "round"};
    return words[standard];
}

const char *pare_fastener_words(pare_fastener standard)
{
    switch (standard) {
    case PARE_ISO4032:
    case PARE_ISO7040:
        return "nut";
    case PARE_ISO7089:
        return "washer";
    case PARE_STANDOFF_HEX:
    case PARE_STANDOFF_ROUND:
        return "standoff";
    default:
        return "screw";
    }
}

bool pare_has_no_length(pare_fastener standard)
{
    return standard == PARE_ISO4032 || standard == PARE_ISO7040 || standard == PARE_ISO7089;
}

bool pare_is_screw(pare_fastener standard)
{
    return standard < PARE_ISO4032;
}

pare_status pare_thread_named(const char *name, pare_thread *thread, pare_error *err)
{
    const char *known[ROWS(threads)];
    for (size_t i = 0; i < ROWS(threads); i++) {
        known[i] = threads[i].name;
        if (strcmp(name, threads[i].name) == 0) {
            *thread = threads[i].thread;
            return PARE_OK;
        }
    }
    const char *near = pare_nearest(name, ROWS(threads), known);
    return pare_fail(err, PARE_BAD_DATA,
                     "thread '%.40s': known are M1.6, M2, M2.5, M3, M4 and M5%s%s%s", name,
                     near ? "; did you mean " : "", near ? near : "", near ? "?" : "");
}

double pare_thread_pitch_diameter_m(const pare_thread *thread)
{
    return thread->nominal_m - 0.64951905 * thread->pitch_m; /* ISO 724: 3 sqrt(3)/8 p */
}

double pare_thread_core_diameter_m(const pare_thread *thread)
{
    return thread->nominal_m - 1.22686932 * thread->pitch_m; /* ISO 68-1: d3 of the screw */
}

double pare_thread_stress_area_m2(const pare_thread *thread)
{
    const double mean_m =
        (pare_thread_pitch_diameter_m(thread) + pare_thread_core_diameter_m(thread)) / 2;
    return PI / 4 * mean_m * mean_m;
}

static double cylinder_mm3(double across_mm, double high_mm)
{
    return PI / 4 * across_mm * across_mm * high_mm;
}

static double hexagon_mm3(double flats_mm, double high_mm)
{
    return sqrt(3) / 2 * flats_mm * flats_mm * high_mm;
}

static double head_mm3(pare_fastener standard, const head_row *head)
{
    const double across = head->across_mm, high = head->high_mm, d = head->nominal_mm;
    double solid_mm3 = 0;
    switch (standard) {
    case PARE_ISO4762:
        solid_mm3 = cylinder_mm3(across, high);
        break;
    case PARE_ISO7380: /* a spherical segment on its base circle */
        solid_mm3 = PI * high / 6 * (3 * across * across / 4 + high * high);
        break;
    case PARE_ISO10642: /* a cone from the theoretical sharp edge down to the shank */
        solid_mm3 = PI / 12 * high * (across * across + across * d + d * d);
        break;
    case PARE_ISO1207: /* the slot goes across the whole head */
        return cylinder_mm3(across, high) - across * head->key_mm * head->socket_mm;
    default: /* no screw */
        break;
    }
    return solid_mm3 - hexagon_mm3(head->key_mm, head->socket_mm);
}

static bool same_thread(const pare_thread *thread, double nominal_mm)
{
    return fabs(thread->nominal_m - nominal_mm * MM) < 1e-3 * MM;
}

static const head_row *head_of(pare_fastener standard, const pare_thread *thread)
{
    if (!pare_is_screw(standard))
        return NULL;
    for (size_t i = 0; i < standards[standard].rows; i++)
        if (same_thread(thread, standards[standard].row[i].nominal_mm))
            return &standards[standard].row[i];
    return NULL;
}

pare_status pare_screw_kg(pare_fastener standard, const pare_thread *thread, double length_m,
                          pare_screw_material material, double *mass_kg, pare_error *err)
{
    const head_row *head = head_of(standard, thread);
    assert(pare_is_screw(standard));
    if (!head)
        return pare_fail(err, PARE_BAD_DATA, "%s has no M%g here; it has %s",
                         standards[standard].name, thread->nominal_m / MM, standards[standard].has);
    const double length_mm = length_m / MM;
    if (!(length_mm > shortest_mm * (1 - 1e-9) && length_mm < longest_mm * (1 + 1e-9)))
        return pare_fail(err, PARE_BAD_DATA, "%s M%g x %g mm: lengths go from %g to %g mm",
                         standards[standard].name, head->nominal_mm, length_mm, shortest_mm,
                         longest_mm);
    double below_mm = length_mm; /* what lies under the head */
    if (standard == PARE_ISO10642)
        below_mm -= head->high_mm;
    if (!(below_mm > 0))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s M%g x %g mm: the length includes the head, which takes %g mm",
                         standards[standard].name, head->nominal_mm, length_mm, head->high_mm);
    const int partly = length_mm > head->plain_from_mm * (1 - 1e-9);
    const double threaded_mm = partly ? head->threaded_mm : below_mm;
    const double volume_mm3 = head_mm3(standard, head) +
                              cylinder_mm3(pare_thread_pitch_diameter_m(thread) / MM, threaded_mm) +
                              cylinder_mm3(head->nominal_mm, below_mm - threaded_mm);
    *mass_kg = volume_mm3 * MM * MM * MM * materials[material].kg_m3;
    return PARE_OK;
}

double pare_screw_head_m(pare_fastener standard, const pare_thread *thread)
{
    const head_row *head = head_of(standard, thread);
    return head ? head->across_mm * MM : 0;
}

double pare_screw_key_m(pare_fastener standard, const pare_thread *thread)
{
    const head_row *head = head_of(standard, thread);
    return head && standard != PARE_ISO1207 ? head->key_mm * MM : 0;
}
