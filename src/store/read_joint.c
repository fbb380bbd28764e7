/* read_joint.c: the joints and wire runs of a craft out of their text.
 *
 * One that is included in an item may leave out what the item's part says of it; pare_craft_settle()
 * fills that in, and says when it cannot. */
#include <string.h>

#include "physics/screw_hold.h"
#include "store/read_craft.h"
#include "store/read_part.h"

static pare_status read_place(const pare_reading *reading, const pare_node *node, bool *given,
                              pare_vec3 *at_m, pare_error *err)
{
    const pare_node *at = pare_node_get(node, "at");
    *given = at != NULL;
    return at ? pare_read_point(reading, at, "at", 3, at_m, err) : PARE_OK;
}

/* A class that is none of its material's is left as it is: a swap of material may have left it behind. */
static pare_status read_class(const pare_reading *reading, const pare_node *node, pare_joint *joint,
                              pare_error *err)
{
    pare_strength unused;
    const pare_status status = pare_read_text(reading, node, "class", &joint->grade, err);
    if (status != PARE_OK || pare_screw_is_class(joint->grade) ||
        pare_screw_strength(joint->material, joint->grade, &unused, err) == PARE_OK)
        return status;
    return pare_refused_at(reading, node, NULL, err);
}

static pare_status read_screws(const pare_reading *reading, const pare_node *node,
                               pare_joint *joint, pare_error *err)
{
    const pare_node *grade = pare_node_get(node, "class"), *into = pare_node_get(node, "into");
    pare_status status =
        pare_read_screw_standard(reading, pare_node_get(node, "standard"), &joint->standard, err);
    if (status == PARE_OK)
        status = pare_read_thread(reading, pare_node_get(node, "thread"), &joint->thread, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "length"), "length",
                                    PARE_DIM_LENGTH, 0.002, 0.06, &joint->length_m, err);
    if (status == PARE_OK)
        status = pare_read_standoff(reading, node, joint->standard, &joint->across_m,
                                    &joint->tapped_m, err);
    if (status == PARE_OK)
        status = pare_read_screw_material(reading, pare_node_get(node, "material"),
                                          &joint->material, err);
    if (status == PARE_OK && grade)
        status = read_class(reading, grade, joint, err);
    if (status == PARE_OK)
        status = pare_read_count(reading, pare_node_get(node, "count"), "count", 1, 1000,
                                 &joint->count, err);
    if (status == PARE_OK && into)
        status = pare_read_text(reading, into, "into", &joint->into, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "engaged"), "engaged",
                                    PARE_DIM_LENGTH, 0.0005, 0.06, &joint->engaged_m, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "needed"), "needed",
                                    PARE_DIM_LENGTH, 0.001, 0.06, &joint->needed_m, err);
    return status;
}

static pare_status read_joint(const pare_reading *reading, const pare_node *node,
                              const pare_craft *craft, pare_joint *joint, pare_error *err)
{
    static const char *const keys[] = {"standard", "thread",      "length", "material", "class",
                                       "count",    "holds",       "into",   "engaged",  "at",
                                       "needed",   "included_in", "across", "tapped"};
    pare_status status = pare_check_key_name(reading, node, "joint", err);
    if (status == PARE_OK)
        status = pare_read_keys(reading, node, "a joint", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    joint->name = node->key;
    const pare_node *holds = pare_node_get(node, "holds"),
                    *included_in = pare_node_get(node, "included_in");
    status = read_screws(reading, node, joint, err);
    if (status == PARE_OK && holds)
        status = pare_read_item_name(reading, holds, "holds", craft, "arm", &joint->holds, err);
    if (status == PARE_OK && included_in)
        status = pare_read_item_name(reading, included_in, "included_in", craft, NULL,
                                     &joint->included_in, err);
    if (status == PARE_OK)
        status = read_place(reading, node, &joint->at_given, &joint->at_m, err);
    const bool whole = joint->thread.nominal_m > 0 && joint->count > 0 &&
                       (joint->length_m > 0 || pare_has_no_length(joint->standard));
    if (status == PARE_OK && !whole && !joint->included_in)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "joint '%s' needs thread, length and count, like {standard: ISO4762, "
                           "thread: M3, length: 8 mm, material: steel, count: 16}",
                           joint->name);
    return status;
}

pare_status pare_read_joints(const pare_reading *reading, const pare_node *node, pare_craft *craft,
                             pare_error *err)
{
    if (!node)
        return PARE_OK;
    pare_status status = pare_need_map(reading, node, "joints", err);
    if (status == PARE_OK && node->count > PARE_JOINTS)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%zu joints; right would be %d at most", node->count, PARE_JOINTS);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_joint(reading, one, craft, &craft->joint[craft->joints++], err);
    return status;
}

static pare_status read_run(const pare_reading *reading, const pare_node *node,
                            const pare_craft *craft, pare_run *run, pare_error *err)
{
    static const char *const keys[] = {"gauge",   "outer",       "ways", "times",
                                       "carries", "included_in", "at",   "needed"};
    pare_status status = pare_check_key_name(reading, node, "run", err);
    if (status == PARE_OK)
        status = pare_read_keys(reading, node, "a run", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    run->name = node->key;
    const pare_node *ways = pare_node_get(node, "ways"), *carries = pare_node_get(node, "carries"),
                    *included_in = pare_node_get(node, "included_in");
    status = pare_read_quantity(reading, pare_node_get(node, "gauge"), "gauge", PARE_DIM_GAUGE, 4,
                                40, &run->gauge, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "outer"), "outer", PARE_DIM_LENGTH,
                                    0.0003, 0.03, &run->outer_m, err);
    if (status == PARE_OK && ways)
        status = pare_read_quantities(reading, ways, "ways", PARE_DIM_LENGTH, 0.001, 5, 1,
                                      PARE_WAYS, run->way_m, &run->ways, err);
    if (status == PARE_OK)
        status = pare_read_count(reading, pare_node_get(node, "times"), "times", 1, 64, &run->times,
                                 err);
    if (status == PARE_OK && carries)
        status = pare_read_item_name(reading, carries, "carries", craft, NULL, &run->carries, err);
    if (status == PARE_OK && included_in)
        status = pare_read_item_name(reading, included_in, "included_in", craft, NULL,
                                     &run->included_in, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "needed"), "needed",
                                    PARE_DIM_LENGTH, 0.001, 5, &run->needed_m, err);
    if (status == PARE_OK)
        status = read_place(reading, node, &run->at_given, &run->at_m, err);
    if (status == PARE_OK && !run->included_in && (!(run->gauge > 0) || run->ways == 0))
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "run '%s' needs gauge and ways, like {gauge: 14, ways: [110 mm, 110 "
                           "mm], carries: pack}",
                           run->name);
    return status;
}

pare_status pare_read_runs(const pare_reading *reading, const pare_node *node, pare_craft *craft,
                           pare_error *err)
{
    if (!node)
        return PARE_OK;
    pare_status status = pare_need_map(reading, node, "runs", err);
    if (status == PARE_OK && node->count > PARE_RUNS)
        return pare_refuse(reading, node, PARE_BAD_DATA, err, "%zu runs; right would be %d at most",
                           node->count, PARE_RUNS);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_run(reading, one, craft, &craft->run[craft->runs++], err);
    return status;
}
