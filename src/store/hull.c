/* hull.c: the convex hull of an open mesh, by Qhull.
 *
 * Hulls are easy to write and hard to write well: the corners of drawn parts lie in planes and on
 * lines by the hundred, and every one is a near tie. Qhull has met them; we only hand it the points,
 * moved to the middle so that its tolerances fit their spread, and take back triangles. With its
 * option Qt all facets are triangles; which way they face we do not need to know.
 *
 * Qhull prints its complaints, so it gets a stream in memory that nobody reads. When it finds the
 * points flat (or fails for its own reasons) there is no hull, and the caller keeps the box. */
#include "store/hull.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>

#include <libqhull_r/qhull_ra.h>

/* Copies the triangles out of a finished hull; corners are taken from the mesh, bit for bit. */
static pare_status take_triangles(qhT *qh, const pare_mesh *mesh, pare_arena *arena,
                                  pare_mesh *hull, pare_error *err)
{
    double(*corner_m)[9] = pare_arena_array(arena, (size_t)qh->num_facets, sizeof *corner_m);
    if (!corner_m)
        return pare_no_memory(err);
    size_t triangles = 0;
    for (const facetT *facet = qh->facet_list; facet && facet->next; facet = facet->next) {
        for (int k = 0; k < 3; k++) {
            const vertexT *vertex = facet->vertices->e[k].p;
            const size_t point = (size_t)qh_pointid(qh, vertex->point);
            for (size_t i = 0; i < 3; i++)
                corner_m[triangles][3 * k + (int)i] =
                    mesh->corner_m[point / 3][3 * (point % 3) + i];
        }
        triangles++;
    }
    *hull = (pare_mesh){triangles, corner_m};
    return PARE_OK;
}

pare_status pare_hull_of(const pare_mesh *mesh, pare_arena *arena, pare_mesh *hull, pare_error *err)
{
    *hull = (pare_mesh){0, NULL};
    if (mesh->triangles == 0)
        return PARE_OK;
    if (mesh->triangles > INT_MAX / 3)
        return pare_fail(err, PARE_BAD_DATA, "%zu triangles: %d are the most for a hull",
                         mesh->triangles, INT_MAX / 3);
    pare_status status = PARE_OK;
    char *complaints = NULL;
    size_t complained = 0;
    FILE *silence = NULL;
    double(*moved)[9] = calloc(mesh->triangles, sizeof *moved);
    if (moved)
        silence = open_memstream(&complaints, &complained);
    if (!silence) {
        status = pare_no_memory(err);
        goto done;
    }
    double middle[3] = {0, 0, 0};
    for (size_t t = 0; t < mesh->triangles; t++)
        for (int i = 0; i < 9; i++)
            middle[i % 3] += mesh->corner_m[t][i] / (3 * (double)mesh->triangles);
    for (size_t t = 0; t < mesh->triangles; t++)
        for (int i = 0; i < 9; i++)
            moved[t][i] = mesh->corner_m[t][i] - middle[i % 3];

    qhT context, *qh = &context;
    qh_zero(qh, silence);
    char options[] = "qhull Qt";
    const int failed =
        qh_new_qhull(qh, 3, (int)(3 * mesh->triangles), moved[0], False, options, NULL, silence);
    if (!failed)
        status = take_triangles(qh, mesh, arena, hull, err);
    else if (failed == qh_ERRmem)
        status = pare_no_memory(err);
    qh_freeqhull(qh, !qh_ALL);
    int blocks, bytes;
    qh_memfreeshort(qh, &blocks, &bytes);

done:
    if (silence)
        fclose(silence);
    free(complaints);
    free(moved);
    return status;
}

pare_status pare_mesh_figures(const pare_mesh *mesh, pare_mesh_facts *facts, pare_error *err)
{
    pare_mesh_facts found;
    pare_arena *arena = NULL;
    const size_t size = pare_mesh_scratch(mesh->triangles);
    void *scratch = size || mesh->triangles == 0 ? malloc(size ? size : 1) : NULL;
    pare_status status =
        scratch ? pare_mesh_measure(mesh, scratch, &found, err) : pare_no_memory(err);
    if (status == PARE_OK && found.estimated) {
        pare_mesh hull;
        arena = pare_arena_open();
        status = arena ? pare_hull_of(mesh, arena, &hull, err) : pare_no_memory(err);
        if (status == PARE_OK)
            pare_mesh_take_hull(&hull, &found); /* a flat one leaves the box in place */
    }
    if (status == PARE_OK && !(found.volume_m3 > 0))
        status = pare_fail(err, PARE_BAD_DATA, "the mesh is flat: it has no volume");
    if (status == PARE_OK)
        *facts = found;
    pare_arena_close(arena);
    free(scratch);
    return status;
}
