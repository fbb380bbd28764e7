/* printed.c: what a gram of a printed part bears (see printed.h).
 *
 * A strand of 50 mm, about a holder's reach, puts all on one scale: newtons a gram when pulled, newtons a
 * millimetre and gram when stretched. A material that nobody said is told from its density, and that is
 * said. Figures of the trade are good to a quarter. */
#include "show/printed.h"

#include <math.h>
#include <stdio.h>

#include "physics/material.h"
#include "physics/printed.h"
#include "physics/screw_hold.h"
#include "show/digits.h"
#include "show/json.h"

#define STRAND_M      0.050
#define DENSITY_ALIKE 0.015

typedef struct print {
    pare_printed printed;
    const pare_piece *piece;
    const pare_material *material; /* NULL: not known */
    bool by_density;
    double bears_n_g, across_n_g, stiff_n_mm_g; /* NAN where it is not known */
} print;

static const pare_material *by_density(double density_kg_m3)
{
    const pare_material *m;
    for (size_t i = 0; (m = pare_material_at(i)) != NULL; i++)
        if (m->printed && fabs(density_kg_m3 / m->density_kg_m3 - 1) < DENSITY_ALIKE)
            return m;
    return NULL;
}

static bool print_of(const pare_part *part, print *p)
{
    *p = (print){.bears_n_g = NAN, .across_n_g = NAN, .stiff_n_mm_g = NAN};
    for (size_t i = 0; i < part->pieces && !p->piece; i++)
        if (part->piece[i].form == PARE_FORM_MESH && part->piece[i].measured &&
            part->piece[i].density_kg_m3 > 0)
            p->piece = &part->piece[i];
    const pare_piece *piece = p->piece;
    if (!piece)
        return false;
    p->printed = pare_printed_of(piece->mesh.volume_m3, piece->mesh.area_m2, piece->wall_m,
                                 piece->infill, piece->density_kg_m3);
    p->material = piece->material ? piece->material : pare_material_named(part->material);
    if (!p->material) {
        p->material = by_density(piece->density_kg_m3);
        p->by_density = true;
    }
    if (!p->material)
        return true;
    p->bears_n_g = 1e-3 * p->printed.bears *
                   pare_strand_bears_n_kg(p->material->strength_pa, piece->density_kg_m3, STRAND_M);
    p->across_n_g = p->material->printed ? PARE_LAYERS_SHARE * p->bears_n_g : p->bears_n_g;
    p->stiff_n_mm_g =
        1e-6 * p->printed.stiffens *
        pare_strand_stiff_n_m_kg(p->material->bend_pa, piece->density_kg_m3, STRAND_M);
    return true;
}

/* What else could hold the same thing. */
static const struct {
    const char *words, *key;
    const char *material; /* of material.h; NULL: a screw */
    pare_screw_material screw;
    const char *grade;
} others[] = {
    {"a nylon tie", "tie", "nylon", PARE_NYLON, NULL},
    {"carbon plate", "plate", "carbon", PARE_STEEL, NULL},
    {"a steel screw 12.9", "steel_screw", NULL, PARE_STEEL, "12.9"},
    {"a titanium screw", "titanium_screw", NULL, PARE_TITANIUM, NULL},
};
enum { OTHERS = sizeof others / sizeof others[0] };

static double other_n_g(size_t i)
{
    pare_strength strength;
    if (others[i].material) {
        const pare_material *m = pare_material_named(others[i].material);
        return 1e-3 * pare_strand_bears_n_kg(m->strength_pa, m->density_kg_m3, STRAND_M);
    }
    if (pare_screw_strength(others[i].screw, others[i].grade, &strength, NULL) != PARE_OK)
        return NAN;
    return 1e-3 * pare_strand_bears_n_kg(strength.tensile_pa,
                                         pare_screw_density_kg_m3(others[i].screw), STRAND_M);
}

static void row(const char *label, pare_text *line, const pare_screen *screen, pare_text *out)
{
    pare_text_add(out, "  ");
    pare_put_left(out, label, 18);
    pare_put_rest(screen, out, 20, 20, line);
}

/* Two digits: a quarter is what such figures are good for. */
static const char *rough(char text[PARE_DIGITS], double value)
{
    return pare_digits(text, value, 0.1 * value);
}

void pare_printed_text(const pare_part *part, const pare_screen *screen, pare_text *out)
{
    print p;
    if (!print_of(part, &p))
        return;
    char text[PARE_DIGITS];
    pare_text line = {0};
    pare_text_printf(&line, "walls %s g, ", pare_digits_at(text, 1e3 * p.printed.shell_kg, 1));
    pare_text_printf(&line, "infill %s g at %.0f %%",
                     pare_digits_at(text, 1e3 * p.printed.infill_kg, 1), 100 * p.piece->infill);
    row("printed", &line, screen, out);
    if (!p.material) {
        pare_text_add(&line,
                      "not known: say material: in its body, as tpu, pla, petg, abs or nylon");
        row("a gram bears", &line, screen, out);
        return;
    }
    pare_text_printf(&line, "%s N over 50 mm, ", rough(text, p.bears_n_g));
    if (p.across_n_g != p.bears_n_g)
        pare_text_printf(&line, "%s across its layers, ", rough(text, p.across_n_g));
    pare_text_printf(&line, "and gives 1 mm at %s N (%s%s)", rough(text, p.stiff_n_mm_g),
                     p.material->name, p.by_density ? ", told from its density" : "");
    row("a gram bears", &line, screen, out);
    for (size_t i = 0; i < OTHERS; i++)
        pare_text_printf(&line, "%s%s %s N", i ? ", " : "", others[i].words,
                         rough(text, other_n_g(i)));
    pare_text_add(&line, "; an estimate, good to a quarter");
    row("beside it", &line, screen, out);
}

json_t *pare_printed_json(const pare_part *part)
{
    print p;
    if (!print_of(part, &p))
        return NULL;
    json_t *object = json_object(), *beside = json_object();
    json_object_set_new(object, "walls_g", pare_json_number(1e3 * p.printed.shell_kg));
    json_object_set_new(object, "infill_g", pare_json_number(1e3 * p.printed.infill_kg));
    json_object_set_new(object, "material",
                        p.material ? json_string(p.material->name) : json_null());
    json_object_set_new(object, "material_by_density", json_boolean(p.by_density));
    json_object_set_new(object, "bears_n_per_g", pare_json_number(p.bears_n_g));
    json_object_set_new(object, "bears_across_n_per_g", pare_json_number(p.across_n_g));
    json_object_set_new(object, "stiff_n_per_mm_g", pare_json_number(p.stiff_n_mm_g));
    for (size_t i = 0; i < OTHERS; i++)
        json_object_set_new(beside, others[i].key, pare_json_number(other_n_g(i)));
    json_object_set_new(object, "beside_n_per_g", beside);
    return object;
}
