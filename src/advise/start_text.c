/* start_text.c: a start as a bench's text (see start.h).
 *
 * Written from the parts and the craft themselves, so that text and craft cannot differ: what was said
 * stands as a plain quantity, what was guessed as {value, u, known: estimated}. What completing a part
 * filled by law is left out; the reader fills it again. */
#include "advise/start_inside.h"
#include "craft/spec.h"

/* The unit a builder would type for a dimension. */
static const struct {
    double per_si;
    const char *unit;
} typed[PARE_DIMENSIONS] = {
    [PARE_DIM_COUNT] = {1, ""},
    [PARE_DIM_LENGTH] = {1e3, " mm"},
    [PARE_DIM_VOLTAGE] = {1, " V"},
    [PARE_DIM_CURRENT] = {1, " A"},
    [PARE_DIM_CHARGE] = {1 / 3.6, " mAh"},
    [PARE_DIM_KV] = {1, " rpm/V"},
};

#define INCHES_PER_M (1 / 0.0254)

static void put_value(const pare_value *value, double per_si, const char *unit, pare_text *out)
{
    if (value->known == PARE_STATED) {
        pare_text_printf(out, "%.7g%s", per_si * value->value, unit);
        return;
    }
    pare_text_printf(out, "{value: %.7g%s, ", per_si * value->value, unit);
    if (value->u > 0)
        pare_text_printf(out, "u: %.3g%s, ", per_si * value->u, unit);
    pare_text_printf(out, "known: %s}", pare_known_name(value->known));
}

static void put_specs(const pare_part *part, pare_text *out)
{
    const char *comma = "";
    pare_text specs = {0};
    if (part->kind == PARE_PACK) {
        pare_text_printf(&specs, "chemistry: %s", pare_chemistry_names[part->chemistry]);
        comma = ", ";
    }
    if (part->line != PARE_LINE_UNKNOWN) {
        pare_text_printf(&specs, "line: %s", pare_prop_line_name(part->line));
        comma = ", ";
    }
    for (size_t i = 0; i < pare_spec_rows; i++) {
        const pare_spec_row *row = &pare_spec_table[i];
        const pare_value *value = &part->spec[row->spec];
        if (row->kind != part->kind || !value->given || row->spec == PARE_SPEC_STATOR_LENGTH)
            continue;
        pare_text_printf(&specs, "%s%s: ", comma, row->name);
        comma = ", ";
        if (row->spec == PARE_SPEC_STATOR_DIAMETER)
            pare_text_printf(&specs, "%.6g mm x %.6g mm", 1e3 * value->value,
                             1e3 * part->spec[PARE_SPEC_STATOR_LENGTH].value);
        else if (part->kind == PARE_PROPELLER && row->dimension == PARE_DIM_LENGTH)
            put_value(value, INCHES_PER_M, " in", &specs);
        else
            put_value(value, typed[row->dimension].per_si, typed[row->dimension].unit, &specs);
    }
    if (specs.length > 0)
        pare_text_printf(out, ", spec: {%s}", specs.bytes);
    out->failed |= specs.failed;
    pare_text_free(&specs);
}

static void put_part(const pare_part *part, pare_text *out)
{
    pare_text_printf(out, "- {id: %s, kind: %s", part->id, pare_kind_name(part->kind));
    const char *comma = "";
    if (part->does != 1u << part->kind) {
        pare_text_add(out, ", does: [");
        for (int kind = 0; kind < PARE_KINDS; kind++)
            if (part->does & 1u << kind) {
                pare_text_printf(out, "%s%s", comma, pare_kind_name((pare_kind)kind));
                comma = ", ";
            }
        pare_text_add(out, "]");
    }
    pare_text_add(out, ", mass: ");
    put_value(&part->mass_kg, 1e3, " g", out);
    put_specs(part, out);
    const pare_fit *fit = &part->fit[PARE_FIT_PROPELLER];
    if (part->kind == PARE_FRAME && fit->count > 0)
        pare_text_printf(out, ", fits: {propeller: %.4g in .. %.4g in}",
                         INCHES_PER_M * fit->any[0].low, INCHES_PER_M * fit->any[0].high);
    pare_text_add(out, "}\n");
}

static void put_brief(const pare_brief *brief, pare_text *out)
{
    pare_text_add(out, "  brief:\n");
    for (size_t i = 0; i < brief->entries; i++) {
        const pare_flown *flown = &brief->flown[i];
        pare_text_printf(out, "%s    - {share: %.6g %%, ", i ? "" : "    flown:\n",
                         100 * flown->share);
        if (flown->as == PARE_FLOWN_FULL)
            pare_text_add(out, "as: full}\n");
        else if (flown->level > 1)
            pare_text_printf(out, "thrust: %.7g}\n", flown->level);
        else
            pare_text_add(out, "as: hover}\n");
    }
    pare_text_add(out, "    keep: [");
    const char *comma = "";
    for (int job = 0; job < PARE_JOBS; job++)
        if (job != PARE_FLIES && brief->keep & 1u << job) {
            pare_text_printf(out, "%s%s", comma, pare_job_name((pare_job)job));
            comma = ", ";
        }
    pare_text_add(out, "]\n");
}

static void put_joint(const pare_joint *joint, pare_text *out)
{
    pare_text_printf(out,
                     "    %s: {standard: ISO4762, thread: M%.2g, length: %.4g mm, material: steel, "
                     "count: %d, holds: %s}\n",
                     joint->name, 1e3 * joint->thread.nominal_m, 1e3 * joint->length_m,
                     joint->count, joint->holds);
}

void pare_start_text(const pare_start *start, pare_text *out)
{
    const pare_craft *craft = start->craft;
    pare_text_add(out, "pare: 1\nparts:\n");
    for (size_t i = 0; i < craft->items; i++)
        if (start->item[i].made)
            put_part(start->item[i].made, out);
    pare_text_printf(out, "craft:\n- name: %s\n", craft->name);
    put_brief(&craft->brief, out);
    pare_text_add(out, "  items:\n");
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        pare_text_printf(out, "    %s: {part: %s", item->name, item->part->id);
        if (item->count > 1)
            pare_text_printf(out, ", count: %d", item->count);
        if (item->place == PARE_AT_ARMS)
            pare_text_add(out, ", at: arms");
        pare_text_add(out, "}\n");
    }
    pare_text_add(out, "  joints:\n");
    for (size_t i = 0; i < craft->joints; i++)
        put_joint(&craft->joint[i], out);
    pare_text_add(out, "  runs:\n");
    for (size_t i = 0; i < craft->runs; i++)
        pare_text_printf(out, "    %s: {gauge: %.2g, ways: [%.4g mm, %.4g mm], carries: %s}\n",
                         craft->run[i].name, craft->run[i].gauge, 1e3 * craft->run[i].way_m[0],
                         1e3 * craft->run[i].way_m[1], craft->run[i].carries);
}
