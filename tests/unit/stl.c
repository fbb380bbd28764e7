/* rooms: store craft physics base */
/* Reading STL, good and bad, and measuring what was read. */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "store/hull.h"
#include "store/stl.h"

#define MM 1e-3

/* A cube of 20 mm standing on 0, in twelve triangles. */
enum { CUBE = 12 };

static void cube(float corner[CUBE][9])
{
    static const int quad[6][4] = {{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4},
                                   {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}};
    for (int f = 0; f < 6; f++)
        for (int half = 0; half < 2; half++) {
            const int pick[3] = {quad[f][0], quad[f][1 + half], quad[f][2 + half]};
            for (int k = 0; k < 3; k++)
                for (int i = 0; i < 3; i++)
                    corner[2 * f + half][3 * k + i] = 20.0f * (float)((pick[k] >> i) & 1);
        }
}

/* Bytes in a block of exactly their length, so that a sanitizer sees one read too many. */
typedef struct bytes {
    char *at;
    size_t length;
} bytes;

static bytes take(const char *at, size_t length)
{
    bytes b = {malloc(length ? length : 1), length};
    assert_non_null(b.at);
    memcpy(b.at, at, length);
    return b;
}

static bytes binary(const float (*corner)[9], size_t triangles, const char *remark, uint32_t count)
{
    bytes b = {calloc(1, 84 + 50 * triangles), 84 + 50 * triangles};
    assert_non_null(b.at);
    memcpy(b.at, remark, strlen(remark));
    for (int i = 0; i < 4; i++)
        b.at[80 + i] = (char)(count >> (8 * i) & 0xff);
    for (size_t t = 0; t < triangles; t++)
        memcpy(b.at + 84 + 50 * t + 12, corner[t], 36);
    return b;
}

static bytes text(const float (*corner)[9], size_t triangles, const char *end_of_line)
{
    char *at = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&at, &length);
    assert_non_null(out);
    fprintf(out, "solid a holder, facet by facet%s", end_of_line);
    for (size_t t = 0; t < triangles; t++) {
        fprintf(out, "  facet normal 0 0 nan%s    outer loop%s", end_of_line, end_of_line);
        for (int k = 0; k < 3; k++)
            fprintf(out, "      vertex %g %.6e %g%s", (double)corner[t][3 * k],
                    (double)corner[t][3 * k + 1], (double)corner[t][3 * k + 2], end_of_line);
        fprintf(out, "    endloop%s  endfacet%s", end_of_line, end_of_line);
    }
    fprintf(out, "endsolid a holder%s", end_of_line);
    fclose(out);
    const bytes b = take(at, length);
    free(at);
    return b;
}

static void assert_reads_as_cube(bytes b)
{
    pare_arena *arena = pare_arena_open();
    pare_mesh mesh;
    pare_mesh_facts facts;
    pare_error err;
    assert_int_equal(pare_stl_read("x.stl", b.at, b.length, MM, arena, &mesh, &err), PARE_OK);
    assert_int_equal(mesh.triangles, CUBE);
    assert_int_equal(pare_mesh_figures(&mesh, &facts, &err), PARE_OK);
    assert_int_equal(facts.open_edges, 0);
    assert_int_equal(facts.estimated, PARE_MESH_EXACT);
    assert_within(facts.volume_m3, 8000e-9, 1e-14);
    assert_within(facts.area_m2, 2400e-6, 1e-14);
    assert_within(facts.centre_m.x, 10e-3, 1e-14);
    assert_within(facts.inertia_m5.zz, 8000e-9 * 400e-6 / 6, 1e-14);
    pare_arena_close(arena);
    free(b.at);
}

static void text_and_binary_read_as_the_same_cube(void **state)
{
    (void)state;
    float corner[CUBE][9];
    cube(corner);
    assert_reads_as_cube(text(corner, CUBE, "\n"));
    assert_reads_as_cube(binary(corner, CUBE, "a holder", CUBE));
}

static void line_ends_of_every_kind_are_read(void **state)
{
    (void)state;
    float corner[CUBE][9];
    cube(corner);
    assert_reads_as_cube(text(corner, CUBE, "\r\n"));
    assert_reads_as_cube(text(corner, CUBE, "\r"));
}

static void a_binary_file_may_begin_with_solid(void **state)
{
    (void)state;
    float corner[CUBE][9];
    cube(corner);
    assert_reads_as_cube(binary(corner, CUBE, "solid holder\nfacet normal 0 0 1", CUBE));
}

static void several_solids_in_a_text_are_one_mesh(void **state)
{
    (void)state;
    float corner[CUBE][9];
    cube(corner);
    bytes lower = text(corner, 6, "\n"), upper = text(corner + 6, 6, "\n");
    bytes both = {malloc(lower.length + upper.length), lower.length + upper.length};
    assert_non_null(both.at);
    memcpy(both.at, lower.at, lower.length);
    memcpy(both.at + lower.length, upper.at, upper.length);
    free(lower.at);
    free(upper.at);
    assert_reads_as_cube(both);
}

static void upper_case_keywords_are_read(void **state)
{
    (void)state;
    float corner[CUBE][9];
    cube(corner);
    bytes b = text(corner, CUBE, "\n");
    for (size_t i = 0; i < b.length; i++)
        if (b.at[i] >= 'a' && b.at[i] <= 'z')
            b.at[i] = (char)(b.at[i] - 'a' + 'A');
    assert_reads_as_cube(b);
}

static void assert_refused(bytes b, const char *says)
{
    pare_arena *arena = pare_arena_open();
    pare_mesh mesh = {99, NULL};
    pare_error err;
    assert_int_equal(pare_stl_read("x.stl", b.at, b.length, MM, arena, &mesh, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, says);
    assert_int_equal(mesh.triangles, 99);
    pare_arena_close(arena);
    free(b.at);
}

static void assert_text_refused(const char *file, const char *says)
{
    assert_refused(take(file, strlen(file)), says);
}

#define FACET                                                                                      \
    "facet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 "                      \
    "0\nendloop\nendfacet\n"

static void bad_text_is_refused_with_line_and_column(void **state)
{
    (void)state;
    assert_text_refused("solid x\n" FACET, "x.stl:9:1: the file ends where 'facet' or 'endsolid' "
                                           "is due; it was cut short");
    assert_text_refused("solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0",
                        "x.stl:4:11: the file ends where a number is due; it was cut short");
    assert_text_refused("solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0 zero\n",
                        "x.stl:4:12: 'zero' where a number is due");
    assert_text_refused("solid x\r\nfacet normal 0 0 1\r\nouter loop\r\n  vertex 0 nan 0\r\n",
                        "x.stl:4:12: 'nan' where a finite number is due");
    assert_text_refused("solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 1e999 0\n",
                        "x.stl:4:10: '1e999' where a finite number is due");
    assert_text_refused("solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\n"
                        "vertex 0 1 0\nvertex 1 1 0\nendloop\n",
                        "x.stl:7:1: 'vertex' where 'endloop' (a facet has three corners) is due");
    assert_text_refused("solid x\n" FACET "fasset normal 0 0 1\n",
                        "x.stl:9:1: 'fasset' where 'facet' or 'endsolid' is due");
    assert_text_refused("solid x\n" FACET "endsolid x\nfacet\n",
                        "x.stl:10:1: 'facet' where 'solid' or the end of the file is due");
    assert_text_refused("solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0 \033[31m"
                        "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\n",
                        "x.stl:4:12: '?[31maaaaaaaaaaaaaaaaaaa...' where a number is due");
    assert_text_refused("solid x\nendsolid x\n", "x.stl: no triangles in it");
}

static void what_is_neither_kind_is_refused(void **state)
{
    (void)state;
    assert_text_refused("", "x.stl: not an STL file: 0 bytes, where text begins with 'solid' and a "
                            "binary file has at least 84");
    assert_text_refused("solids", "x.stl: not an STL file: 6 bytes, where text begins with 'solid' "
                                  "and a binary file has at least 84");
    char page[184];
    memset(page, '<', sizeof page);
    assert_refused(take(page, sizeof page),
                   "x.stl: not an STL file, or cut short: it does not read as text, and as binary "
                   "its header promises 1010580540 triangles where its length has room for 2");
}

static void a_binary_count_that_the_length_denies_is_refused(void **state)
{
    (void)state;
    float corner[CUBE][9];
    cube(corner);
    assert_refused(binary(corner, CUBE, "solid", 0xffffffffu),
                   "x.stl: not an STL file, or cut short: it does not read as text, and as binary "
                   "its header promises 4294967295 triangles where its length has room for 12");
    assert_refused(binary(corner, CUBE, "", 11),
                   "x.stl: not an STL file, or cut short: it does not read as text, and as binary "
                   "its header promises 11 triangles where its length has room for 12");
    bytes cut = binary(corner, CUBE, "", 12);
    cut.length -= 1;
    assert_refused(take(cut.at, cut.length),
                   "x.stl: not an STL file, or cut short: it does not read as text, and as binary "
                   "its header promises 12 triangles where its length has room for 11 and a part "
                   "of one");
    free(cut.at);
    assert_refused(binary(corner, 0, "", 0), "x.stl: no triangles in it");
}

static void a_binary_corner_that_is_no_number_is_refused(void **state)
{
    (void)state;
    float corner[CUBE][9];
    cube(corner);
    corner[7][4] = NAN;
    assert_refused(binary(corner, CUBE, "", CUBE),
                   "x.stl: triangle 8, corner 2: y is not a finite number");
    corner[7][4] = -INFINITY;
    assert_refused(binary(corner, CUBE, "", CUBE),
                   "x.stl: triangle 8, corner 2: y is not a finite number");
}

static void a_unit_that_is_no_length_is_refused(void **state)
{
    (void)state;
    pare_mesh mesh;
    pare_error err;
    assert_int_equal(pare_stl_read("x.stl", "", 0, 0, NULL, &mesh, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "x.stl: a unit of 0 m; it must be greater than 0");
    assert_int_equal(pare_stl_read("x.stl", "", 0, NAN, NULL, &mesh, &err), PARE_BAD_DATA);
}

static void every_cut_and_every_changed_byte_is_answered(void **state)
{
    (void)state;
    float corner[CUBE][9];
    cube(corner);
    bytes whole[2] = {text(corner, 3, "\n"), binary(corner, 3, "", 3)};
    for (int kind = 0; kind < 2; kind++)
        for (size_t i = 0; i < whole[kind].length; i++)
            for (int change = 0; change < 2; change++) {
                bytes b = take(whole[kind].at, change ? whole[kind].length : i);
                if (change)
                    b.at[i] = (char)(b.at[i] ^ 0x55);
                pare_arena *arena = pare_arena_open();
                pare_mesh mesh;
                pare_mesh_facts facts;
                pare_error err = {.text = ""};
                pare_status status = pare_stl_read("x.stl", b.at, b.length, MM, arena, &mesh, &err);
                if (status == PARE_OK)
                    status = pare_mesh_figures(&mesh, &facts, &err);
                assert_true(status == PARE_OK || (status == PARE_BAD_DATA && err.text[0]));
                /* A cut within the last line loses only the solid's name. */
                if (!change && i + strlen(" a holder\n") < whole[kind].length)
                    assert_int_equal(status, PARE_BAD_DATA);
                pare_arena_close(arena);
                free(b.at);
            }
    free(whole[0].at);
    free(whole[1].at);
}

/* ---- files and hulls ---- */

static char folder[] = "/tmp/pare-stl-XXXXXX";
static char path[sizeof folder + 16];

static int make_folder(void **state)
{
    (void)state;
    if (!mkdtemp(folder))
        return -1;
    snprintf(path, sizeof path, "%s/x.stl", folder);
    return 0;
}

static int drop_folder(void **state)
{
    (void)state;
    unlink(path);
    return rmdir(folder);
}

static void write_file(bytes b)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(b.at, 1, b.length, file), b.length);
    assert_int_equal(fclose(file), 0);
    free(b.at);
}

static void a_file_is_measured_in_its_unit(void **state)
{
    (void)state;
    float corner[CUBE][9];
    cube(corner);
    write_file(binary(corner, CUBE, "", CUBE));
    pare_mesh_facts facts;
    pare_error err;
    assert_int_equal(pare_stl_measure(path, MM, &facts, &err), PARE_OK);
    assert_within(facts.volume_m3, 8000e-9, 1e-14);
    assert_int_equal(pare_stl_measure(path, 0.0254, &facts, &err), PARE_OK);
    assert_within(facts.volume_m3, 8000 * 0.0254 * 0.0254 * 0.0254, 1e-14);
}

static void an_open_mesh_is_answered_with_its_hull(void **state)
{
    (void)state;
    /* A cube without one triangle: the hull is the cube all the same. */
    float corner[CUBE][9];
    cube(corner);
    write_file(text(corner + 1, CUBE - 1, "\n"));
    pare_mesh_facts facts;
    pare_error err;
    assert_int_equal(pare_stl_measure(path, MM, &facts, &err), PARE_OK);
    assert_int_equal(facts.open_edges, 3);
    assert_int_equal(facts.estimated, PARE_MESH_HULL);
    assert_within(facts.volume_m3, 8000e-9, 1e-12);
    assert_within(facts.centre_m.y, 10e-3, 1e-12);
    assert_within(facts.inertia_m5.xx, 8000e-9 * 400e-6 / 6, 1e-12);
    assert_within(facts.area_m2, 2200e-6, 1e-12);
}

static void the_hull_of_three_faces_at_a_corner_is_their_tetrahedron(void **state)
{
    (void)state;
    const float corner[3][9] = {
        {0, 0, 0, 0, 6, 0, 6, 0, 0}, {0, 0, 0, 0, 0, 6, 0, 6, 0}, {0, 0, 0, 6, 0, 0, 0, 0, 6}};
    write_file(binary(corner, 3, "", 3));
    pare_mesh_facts facts;
    pare_error err;
    assert_int_equal(pare_stl_measure(path, MM, &facts, &err), PARE_OK);
    assert_int_equal(facts.estimated, PARE_MESH_HULL);
    assert_within(facts.volume_m3, 36e-9, 1e-13);
    assert_within(facts.inertia_m5.xx, 36e-9 * 36e-6 * 6 / 80, 1e-12);
    assert_within(facts.inertia_m5.xy, 36e-9 * 36e-6 * 6 / 480, 1e-12);
}

static void a_flat_mesh_has_its_box_or_nothing(void **state)
{
    (void)state;
    pare_mesh_facts facts = {.volume_m3 = 7};
    pare_error err;
    const float tilted[1][9] = {{0, 0, 0, 10, 0, 10, 0, 10, 0}};
    write_file(binary(tilted, 1, "", 1));
    assert_int_equal(pare_stl_measure(path, MM, &facts, &err), PARE_OK);
    assert_int_equal(facts.estimated, PARE_MESH_BOX);
    assert_within(facts.volume_m3, 1000e-9, 1e-14);
    const float level[2][9] = {{0, 0, 0, 10, 0, 0, 0, 10, 0}, {10, 0, 0, 10, 10, 0, 0, 10, 0}};
    write_file(binary(level, 2, "", 2));
    facts.volume_m3 = 7;
    assert_int_equal(pare_stl_measure(path, MM, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text + strlen(path), ": the mesh is flat: it has no volume");
    const float point[2][9] = {{1, 1, 1, 1, 1, 1, 1, 1, 1}, {1, 1, 1, 1, 1, 1, 1, 1, 1}};
    write_file(binary(point, 2, "", 2));
    assert_int_equal(pare_stl_measure(path, MM, &facts, &err), PARE_BAD_DATA);
    assert_near(facts.volume_m3, 7, 0);
}

static double draw(unsigned *seed)
{
    *seed = *seed * 1103515245u + 12345u;
    return (double)(*seed >> 8) / (double)(1u << 24);
}

static void hulls_of_loose_triangles_lie_between_mesh_and_box(void **state)
{
    (void)state;
    /* Triangles strewn through a box, half of them snapped to a coarse grid so that many corners
     * share planes and lines. A hull is never larger than the box; it holds every corner, so its
     * volume does not change when its own corners are measured again. */
    unsigned seed = 5;
    for (int round = 0; round < 60; round++) {
        enum { STREWN = 40 };
        double corner_m[STREWN][9];
        for (int t = 0; t < STREWN; t++)
            for (int i = 0; i < 9; i++) {
                const double x = draw(&seed);
                corner_m[t][i] = 5 + (round % 2 ? x : floor(4 * x) / 4);
            }
        const pare_mesh mesh = {STREWN, corner_m};
        pare_mesh_facts facts, again;
        pare_mesh hull;
        pare_error err;
        pare_arena *arena = pare_arena_open();
        assert_int_equal(pare_mesh_figures(&mesh, &facts, &err), PARE_OK);
        assert_int_equal(facts.estimated, PARE_MESH_HULL);
        const double box_m3 = (facts.high_m.x - facts.low_m.x) * (facts.high_m.y - facts.low_m.y) *
                              (facts.high_m.z - facts.low_m.z);
        assert_between(facts.volume_m3, 0.5 * box_m3, box_m3 * (1 + 1e-12));
        assert_int_equal(pare_hull_of(&mesh, arena, &hull, &err), PARE_OK);
        assert_int_equal(pare_mesh_figures(&hull, &again, &err), PARE_OK);
        assert_true(again.volume_m3 > 0);
        pare_mesh twice;
        assert_int_equal(pare_hull_of(&hull, arena, &twice, &err), PARE_OK);
        again = facts;
        assert_int_equal(pare_mesh_take_hull(&twice, &again), 1);
        assert_within(again.volume_m3, facts.volume_m3, 1e-12);
        assert_within(again.inertia_m5.yy, facts.inertia_m5.yy, 1e-11);
        pare_arena_close(arena);
    }
}

static void files_that_cannot_be_read_say_why(void **state)
{
    (void)state;
    pare_mesh_facts facts;
    pare_error err;
    assert_int_equal(pare_stl_measure("/no/such/x.stl", MM, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "/no/such/x.stl: No such file or directory");
    assert_int_equal(pare_stl_measure("/tmp", MM, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "/tmp: not a file");
    assert_int_equal(pare_stl_measure("/dev/zero", MM, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "/dev/zero: not a file");
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(ftruncate(fileno(file), 1L << 32), 0); /* a hole: takes no room */
    fclose(file);
    assert_int_equal(pare_stl_measure(path, MM, &facts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text + strlen(path),
                        ": 4294967296 bytes; an STL file may have 134217728 at most");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text_and_binary_read_as_the_same_cube),
        cmocka_unit_test(line_ends_of_every_kind_are_read),
        cmocka_unit_test(a_binary_file_may_begin_with_solid),
        cmocka_unit_test(several_solids_in_a_text_are_one_mesh),
        cmocka_unit_test(upper_case_keywords_are_read),
        cmocka_unit_test(bad_text_is_refused_with_line_and_column),
        cmocka_unit_test(what_is_neither_kind_is_refused),
        cmocka_unit_test(a_binary_count_that_the_length_denies_is_refused),
        cmocka_unit_test(a_binary_corner_that_is_no_number_is_refused),
        cmocka_unit_test(a_unit_that_is_no_length_is_refused),
        cmocka_unit_test(every_cut_and_every_changed_byte_is_answered),
        cmocka_unit_test(a_file_is_measured_in_its_unit),
        cmocka_unit_test(an_open_mesh_is_answered_with_its_hull),
        cmocka_unit_test(the_hull_of_three_faces_at_a_corner_is_their_tetrahedron),
        cmocka_unit_test(a_flat_mesh_has_its_box_or_nothing),
        cmocka_unit_test(hulls_of_loose_triangles_lie_between_mesh_and_box),
        cmocka_unit_test(files_that_cannot_be_read_say_why),
    };
    return cmocka_run_group_tests(tests, make_folder, drop_folder);
}
