/* read_includes.c: what a part brings with it, already in its mass: wires, screws, other things. */
#include <string.h>

#include "store/read_part.h"

enum { INCLUDES = 16 };

pare_status pare_read_screw_standard(const pare_reading *reading, const pare_node *node,
                                     pare_fastener *standard, pare_error *err)
{
    static const struct {
        const char *typed;
        pare_fastener standard;
    } names[] = {{"ISO4762", PARE_ISO4762},
                 {"ISO7380-1", PARE_ISO7380},
                 {"ISO10642", PARE_ISO10642},
                 {"ISO1207", PARE_ISO1207},
                 {"ISO4032", PARE_ISO4032},
                 {"ISO7040", PARE_ISO7040},
                 {"ISO7089", PARE_ISO7089},
                 {"standoff_hex", PARE_STANDOFF_HEX},
                 {"standoff_round", PARE_STANDOFF_ROUND},
                 {"ISO7380", PARE_ISO7380}};
    const char *known[PARE_COUNT(names)];
    int index = 0;
    if (!node)
        return PARE_OK;
    for (size_t i = 0; i < PARE_COUNT(names); i++)
        known[i] = names[i].typed;
    const pare_status status =
        pare_read_choice(reading, node, "standard", PARE_COUNT(names), known, &index, err);
    if (status == PARE_OK)
        *standard = names[index].standard;
    return status;
}

pare_status pare_read_screw_material(const pare_reading *reading, const pare_node *node,
                                     pare_screw_material *material, pare_error *err)
{
    const char *known[PARE_SCREW_MATERIALS];
    int index = 0;
    if (!node)
        return PARE_OK;
    for (int i = 0; i < PARE_SCREW_MATERIALS; i++)
        known[i] = pare_screw_material_name((pare_screw_material)i);
    const pare_status status =
        pare_read_choice(reading, node, "material", PARE_SCREW_MATERIALS, known, &index, err);
    if (status == PARE_OK)
        *material = (pare_screw_material)index;
    return status;
}

pare_status pare_read_standoff(const pare_reading *reading, const pare_node *node,
                               pare_fastener standard, double *across_m, double *tapped_m,
                               pare_error *err)
{
    const bool post = standard == PARE_STANDOFF_HEX || standard == PARE_STANDOFF_ROUND;
    const pare_node *across = pare_node_get(node, "across"),
                    *tapped = pare_node_get(node, "tapped"),
                    *length = pare_node_get(node, "length");
    if (length && pare_has_no_length(standard))
        return pare_refuse(reading, length, PARE_BAD_DATA, err,
                           "%s has no length: its thread gives its size",
                           pare_fastener_name(standard));
    if ((across || tapped) && !post)
        return pare_refuse(reading, across ? across : tapped, PARE_BAD_DATA, err,
                           "%s is said of a standoff: standard standoff_hex or standoff_round",
                           across ? "across" : "tapped");
    if (post && !across)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "a standoff needs across, like {standard: standoff_round, thread: M3, "
                           "length: 30 mm, across: 5 mm, material: aluminium, count: 6}");
    const pare_status status =
        pare_read_quantity(reading, across, "across", PARE_DIM_LENGTH, 0.002, 0.02, across_m, err);
    return status != PARE_OK ? status
                             : pare_read_quantity(reading, tapped, "tapped", PARE_DIM_LENGTH, 0.001,
                                                  0.05, tapped_m, err);
}

pare_status pare_read_thread(const pare_reading *reading, const pare_node *node,
                             pare_thread *thread, pare_error *err)
{
    const char *text = NULL;
    if (!node)
        return PARE_OK;
    pare_status status = pare_read_text(reading, node, "thread", &text, err);
    if (status != PARE_OK)
        return status;
    status = pare_thread_named(text, thread, err);
    return status == PARE_OK ? PARE_OK : pare_refused_at(reading, node, NULL, err);
}

static pare_status read_run(const pare_reading *reading, const pare_node *node,
                            pare_include *include, pare_error *err)
{
    static const char *const keys[] = {"run", "gauge", "length", "count", "outer"};
    pare_status status =
        pare_read_keys(reading, node, "an included run", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    include->what = PARE_INCLUDES_RUN;
    status = pare_read_name(reading, pare_node_get(node, "run"), "run", false, &include->name, err);
    if (status == PARE_OK && (!pare_node_get(node, "gauge") || !pare_node_get(node, "length")))
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "included run '%s' needs gauge and length, like {run: phase, gauge: "
                           "20, length: 120 mm, count: 3}",
                           include->name);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "gauge"), "gauge", PARE_DIM_GAUGE,
                                    4, 40, &include->gauge, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "length"), "length",
                                    PARE_DIM_LENGTH, 0.001, 5, &include->length_m, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "outer"), "outer", PARE_DIM_LENGTH,
                                    0.0003, 0.03, &include->outer_m, err);
    return status;
}

static pare_status read_joint(const pare_reading *reading, const pare_node *node,
                              pare_include *include, pare_error *err)
{
    static const char *const keys[] = {"joint",    "standard", "thread", "length",
                                       "material", "count",    "across", "tapped"};
    pare_status status =
        pare_read_keys(reading, node, "an included joint", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    include->what = PARE_INCLUDES_JOINT;
    status =
        pare_read_name(reading, pare_node_get(node, "joint"), "joint", false, &include->name, err);
    if (status == PARE_OK)
        status = pare_read_screw_standard(reading, pare_node_get(node, "standard"),
                                          &include->standard, err);
    const bool whole = pare_node_get(node, "thread") &&
                       (pare_node_get(node, "length") || pare_has_no_length(include->standard));
    if (status == PARE_OK && !whole)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "included joint '%s' needs thread and length, like {joint: arm_root, "
                           "thread: M3, length: 16 mm, count: 8}",
                           include->name);
    if (status == PARE_OK)
        status = pare_read_standoff(reading, node, include->standard, &include->across_m,
                                    &include->tapped_m, err);
    if (status == PARE_OK)
        status = pare_read_thread(reading, pare_node_get(node, "thread"), &include->thread, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "length"), "length",
                                    PARE_DIM_LENGTH, 0.002, 0.06, &include->length_m, err);
    if (status == PARE_OK)
        status = pare_read_screw_material(reading, pare_node_get(node, "material"),
                                          &include->material, err);
    return status;
}

static pare_status read_thing(const pare_reading *reading, const pare_node *node,
                              pare_include *include, pare_error *err)
{
    static const char *const keys[] = {"kind", "count"};
    const char *names[PARE_KINDS];
    int index = 0;
    pare_status status =
        pare_read_keys(reading, node, "an included thing", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    for (int i = 0; i < PARE_KINDS; i++)
        names[i] = pare_kind_name((pare_kind)i);
    include->what = PARE_INCLUDES_KIND;
    status = pare_read_choice(reading, pare_node_get(node, "kind"), "kind", PARE_KINDS, names,
                              &index, err);
    include->kind = (pare_kind)index;
    return status;
}

pare_status pare_read_includes(const pare_reading *reading, const pare_node *node, pare_part *part,
                               pare_error *err)
{
    pare_status status = pare_need_list(reading, node, "includes", err);
    if (status != PARE_OK)
        return status;
    if (node->count > INCLUDES)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "includes %zu things; right would be %d at most", node->count, INCLUDES);
    pare_include *made = pare_arena_array(reading->arena, node->count, sizeof *made);
    if (!made)
        return pare_no_memory(err);
    size_t n = 0;
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next, n++) {
        made[n].count = 1;
        status = pare_need_map(reading, one, "what is included", err);
        if (status != PARE_OK)
            return status;
        if (pare_node_get(one, "run"))
            status = read_run(reading, one, &made[n], err);
        else if (pare_node_get(one, "joint"))
            status = read_joint(reading, one, &made[n], err);
        else if (pare_node_get(one, "kind"))
            status = read_thing(reading, one, &made[n], err);
        else
            status = pare_refuse(reading, one, PARE_BAD_DATA, err,
                                 "includes neither run, joint nor kind; right would be like {run: "
                                 "phase, gauge: 20, length: 120 mm, count: 3}");
        if (status == PARE_OK)
            status = pare_read_count(reading, pare_node_get(one, "count"), "count", 1, 1000,
                                     &made[n].count, err);
    }
    part->includes = n;
    part->include = made;
    return status;
}
